-- SPDX-License-Identifier: MIT
-- Results of an earlier version looked at again: the numbers it wrote beside a review of
-- today, each check that differs with the changes of rules that move it
-- (data/changes.lua). A change is named where it fits the check; what none fits is said
-- to be unexplained.
local cautions = require "netsection.cautions"
local changes = require "netsection.data.changes"
local core = require "netsection.core"
local document = require "netsection.document"
local file = require "netsection.file"
local json = require "dkjson"
local numbers = require "netsection.numbers"
local ordered = require "netsection.point".pairs
local point = require "netsection.point"
local quantity = require "netsection.quantity"
local rebuild = require "netsection.recheck_rebuild"
local text = require "netsection.text"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local recheck = {}

local STATES = {"uncut", "cut", "until_repaired", "fixed"}
-- Of what is rounded on another route nothing is told.
local LEAST = 1e-6

-- A table, empty where a file has something else there.
local function table_of(t)
  return type(t) == "table" and t or {}
end

-- Whether x is a number.
local function finite(x)
  return type(x) == "number" and x == x and math.abs(x) < math.huge and x or nil
end

local keys = rebuild.keys

-- Versions as numbers in order: "0.1" stands before "0.2.0".
local function earlier(a, b)
  local p, q = {}, {}
  for n in tostring(a):gmatch "%d+" do p[#p + 1] = tonumber(n) end
  for n in tostring(b):gmatch "%d+" do q[#q + 1] = tonumber(n) end
  for i = 1, 3 do
    if (p[i] or 0) ~= (q[i] or 0) then return (p[i] or 0) < (q[i] or 0) end
  end
  return false
end

-- Whether two ratios differ by more than their last digits.
local function moved(a, b)
  if a == nil or b == nil then return a ~= b end
  return math.abs(a - b) > LEAST * math.max(math.abs(a), math.abs(b))
end

------------------------------------------------------------------- which change fits

-- Whether a value is in a list; true where there is no list.
local function one_of(list, value)
  if not list then return true end
  for _, other in ipairs(list) do
    if other == value then return true end
  end
  return false
end

-- What of a joist the changes ask for.
local function facts_of(old, new)
  local f = {cuts = {}, kinds = {}, loads = {}}
  for _, j in ipairs {old, new} do
    local count = 0
    for _, c in pairs(table_of(j.cuts)) do
      f.kinds[table_of(c).kind or ""], count = true, count + 1
    end
    f.near = count > 1
    local i = table_of(j.inputs)
    for _, l in pairs(table_of(i.loads)) do
      local kind = tostring(table_of(l).kind)
      f.loads[kind:find "tub" and "tub" or finite(table_of(l).lb) and "point" or "line"] =
        true
    end
    f.several = f.several or #table_of(i.spans) > 1 or (finite(i.overhang_left) or 0) > 0
      or (finite(i.overhang_right) or 0) > 0
  end
  return f
end

-- Whether a change of the rules is about a joist's loads and cuts.
local function fits_joist(c, f)
  if c.loads and not f.loads[c.loads] or c.several and not f.several
    or c.near and not f.near then
    return false
  end
  for _, kind in ipairs(c.joist or {}) do
    if f.kinds[kind] then return true end
  end
  return not c.joist
end

-- Kind of the cut a check is of: "hole 1" is one of a hole.
local function kind_of(k)
  local name = type(k.name) == "string" and k.name:match "^(.-)[%s%d,+]*$"
  return name and name:gsub(" ", "_") or nil
end

-- Whether what a change moves did move: a check that came or went has moved in all.
local function fits_move(c, a, b)
  local p, q = finite(a[c.moves]), finite(b[c.moves])
  return not c.moves or not p or not q or moved(p, q)
end

-- Whether a change of the rules is about a check.
local function fits_check(c, state, a, b)
  local k = b.mode and b or a
  return one_of(c.states, state) and one_of(c.modes, k.mode)
    and (not c.cuts or one_of(c.cuts, kind_of(k)))
    and (c.states ~= nil or c.modes ~= nil or c.loads ~= nil)
    and fits_move(c, a, b) and (not c.status or not (a.mode and b.mode))
end

-- Changes since the version of the file that fit.
local function which(since, f, fits)
  local list = {}
  for _, c in ipairs(changes) do
    if earlier(since, c.version) and fits_joist(c, f) and fits(c) then
      list[#list + 1] = c
    end
  end
  return list
end

-- Titles of changes in one text.
local function titles(list)
  local names = {}
  for i, c in ipairs(list) do names[i] = c.title end
  return #names > 0 and table.concat(names, "; ")
    or "no change on file explains it: compare the two calculations"
end

------------------------------------------------------------------------- comparing

-- Whether the repetitive factor is another one.
local function repetitive(old, new)
  local a, b = finite(old.Cr), finite(new.Cr)
  return a and b and a ~= b and {was = a, is = b} or nil
end

-- The checks of a state that differ, each with why.
local function check_changes(j, state, old, new)
  local p, q, seen, list = table_of(old.checks), table_of(new.checks), {}, {}
  local Cr = repetitive(old, new)
  for _, t in ipairs {p, q} do
    for key in pairs(t) do seen[key] = true end
  end
  for _, key in ipairs(keys(seen)) do
    local a, b = table_of(p[key]), table_of(q[key])
    local was, is = finite(a.ratio), finite(b.ratio)
    if moved(was, is) and (p[key] ~= nil or q[key] ~= nil) then
      local one = {name = key, was = was, is = is, changes = which(j.since, j.facts,
        function(c) return fits_check(c, state, a, b) end)}
      local A, B = finite(a.capacity), finite(b.capacity)
      if Cr and A and B and A > 0 and math.abs(B / A - Cr.is / Cr.was) < 1e-6 then
        one.Cr = Cr
        for _, c in ipairs(which(j.since, j.facts, function(c) return c.rules end)) do
          if not one_of(one.changes, c) then table.insert(one.changes, c) end
        end
      end
      list[#list + 1] = one
    end
  end
  return list
end

-- What is new about a state: checks that moved, and the changes behind each.
local function state_change(j, state, old, new)
  if type(new) ~= "table" and type(old) ~= "table" then return nil end
  local a, b = table_of(old), table_of(new)
  local one = {state = state, was = finite(a.ratio), is = finite(b.ratio),
    was_status = a.refused and "refused" or a.status,
    is_status = b.refused and "refused" or b.status,
    checks = state ~= "until_repaired" and check_changes(j, state, a, b) or {}}
  one.moved = moved(one.was, one.is) or one.was_status ~= one.is_status
  if state == "until_repaired" then
    one.changes = which(j.since, j.facts, function(c)
      return c.states and one_of(c.states, state) end)
  end
  return (one.moved or #one.checks > 0) and one or nil
end

-- Entries that the two tell differently: then the joist is another one, not the rules.
local function entries(old, new)
  local list, p, q = {}, table_of(old.inputs), table_of(new.inputs)
  -- Compares two trees of numbers, name by name.
  local function look(a, b, name)
    if type(a) == "table" and type(b) == "table" then
      for _, key in ipairs(keys(a)) do
        look(a[key] or a[tonumber(key)], b[key] or b[tonumber(key)], name .. " " .. key)
      end
    elseif a ~= nil and b ~= nil and a ~= b and not (finite(a) and finite(b)
      and not moved(a, b)) then
      list[#list + 1] = name
    end
  end
  for _, name in ipairs {"b", "d", "plies", "wood", "spans", "overhang_left",
    "overhang_right", "spacing", "bearing", "dead", "live", "limit_live", "limit_total",
    "temperature", "creep"} do
    look(p[name], q[name], name)
  end
  for _, key in ipairs(keys(table_of(old.cuts))) do
    local c = table_of(new.cuts)[key]
    if not c then
      list[#list + 1] = key
    elseif c.label ~= old.cuts[key].label then
      list[#list + 1] = key
    end
  end
  return list
end

-- Why the action changed: what the rules say, what a state is called, or a rule of its
-- own.
local function action_because(j, old, new)
  local list = {}
  if j.rules then list[1] = "by what the rules say, see below" end
  for _, state in ipairs {"uncut", "cut"} do
    local a, b = table_of(old[state]).status, table_of(new[state]).status
    if a ~= b then
      list[#list + 1] = ("%s is %s, was %s"):format(state, b or "-", a or "-")
    end
  end
  if #list > 0 then return table.concat(list, "; "), {} end
  local own = which(j.since, j.facts, function(c)
    return c.action and one_of(c.action, new.action) end)
  return titles(own), own
end

-- What is new about a joist, and whether every difference is explained.
local function joist_change(old, new, since)
  local j = {mark = new.mark, since = since, was = old.action, is = new.action,
    words = new.action_text, facts = facts_of(old, new), states = {}, changes = {}}
  for _, state in ipairs(STATES) do
    local one = state_change(j, state, old[state], new[state])
    if one then j.states[#j.states + 1] = one end
    j.listed = j.listed or one ~= nil and one.moved
  end
  j.entries = entries(old, new)
  local rules_was, rules_is = table_of(old.rules).status, table_of(new.rules).status
  if rules_was ~= rules_is then
    j.rules = {was = rules_was, is = rules_is,
      changes = which(since, j.facts, function(c) return c.rules end)}
  end
  if old.action ~= new.action then
    j.because, j.changes = action_because(j, old, new)
  end
  j.listed = j.listed or old.action ~= new.action or j.rules ~= nil
  return (j.listed or #j.states > 0 or #j.entries > 0) and j or nil
end

---------------------------------------------------------------------------- reading

-- The tree of an earlier run, or nil and what is wrong.
local function read_old(old)
  if type(old) == "string" then
    local said, why = old, nil
    if not old:find "^%s*{" then said, why = file.read(old) end
    if not said then return nil, why end
    local ok, value, _, problem = pcall(json.decode, said)
    if not ok or type(value) ~= "table" then
      return nil, "no JSON: " .. text.plain(tostring(not ok and value or problem))
    end
    old = value
  end
  if type(old) ~= "table" then
    error("recheck: numbers of an earlier run expected (a path, JSON or a table), got "
      .. type(old), 3)
  end
  local joists = old.joists
  if type(joists) ~= "table" or next(joists) == nil then
    return nil, "no numbers of a review: 'joists' expected"
  elseif type(old.netsection) ~= "string" or not old.netsection:find "^%d+%.%d+" then
    return nil, "no numbers of a review: 'netsection', the version, expected"
  end
  for key, j in ordered(joists) do
    if type(j) ~= "table" or type(j.mark) ~= "string" or type(j.action) ~= "string" then
      return nil, ("joist %s: a mark and an action expected"):format(
        text.plain(tostring(key)))
    end
  end
  return old
end

------------------------------------------------------------------------------ in words

local methods = {}
local meta = {__index = methods, __name = "netsection.recheck",
  __tostring = function() return "results looked at again" end}

-- A ratio in print, or the status where there is none.
local function ratio(x, status)
  return x and text.ratio(x) or status or "-"
end

-- A value, and what it was where it differs.
local function pair(a, b)
  return a == b and a or ("%s, was %s"):format(b, a)
end

-- The section of a joist.
local function section(d, j)
  d:heading(2, "Joist " .. j.mark)
  local items = {}
  if j.was ~= j.is then
    items[1] = ("action %s, was %s: %s"):format(j.is, j.was, j.because)
  end
  if j.rules then
    items[#items + 1] = ("rules: %s, was %s: %s"):format(j.rules.is or "-", j.rules.was
      or "-", titles(j.rules.changes))
  end
  for _, s in ipairs(j.states) do
    if s.state == "until_repaired" then
      items[#items + 1] = ("until repaired: %s, was not worked out: %s"):format(
        ratio(s.is, s.is_status), titles(s.changes))
    end
  end
  if #j.entries > 0 then
    items[#items + 1] = "entries differ (" .. table.concat(j.entries, ", ")
      .. "): what moved may come of them"
  end
  if #items > 0 then d:list(items) end
  local rows = {}
  for _, s in ipairs(j.states) do
    for _, k in ipairs(s.checks) do
      rows[#rows + 1] = {s.state, (k.name:gsub("_", " ")), ratio(k.was), ratio(k.is),
        (k.Cr and point.format("repetitive factor %g, was %g: ", k.Cr.is, k.Cr.was) or "")
          .. titles(k.changes)}
    end
  end
  if #rows > 0 then
    d:table {caption = "Checks that differ", columns = {{head = "state"},
      {head = "check"}, {head = "was"}, {head = "is"}, {head = "because"}}, rows = rows,
      row_heads = 2}
  end
end

-- Changes that explain something, each once.
local function used(self)
  local seen = {}
  -- Notes the changes of a list.
  local function see(list)
    for _, c in ipairs(list or {}) do seen[c] = true end
  end
  for _, j in ipairs(self.joists) do
    see(j.changes)
    see(j.rules and j.rules.changes)
    for _, s in ipairs(j.states) do
      see(s.changes)
      for _, k in ipairs(s.checks) do see(k.changes) end
    end
  end
  local list = {}
  for _, c in ipairs(changes) do
    if seen[c] then list[#list + 1] = c end
  end
  return list
end

-- The table at the head: a joist a row.
local function overview(d, self)
  local rows = {}
  for _, j in ipairs(self.joists) do
    local row, states = {j.mark, pair(j.was, j.is)}, {}
    for _, s in ipairs(j.states) do states[s.state] = s end
    for _, name in ipairs(STATES) do
      local s = states[name]
      row[#row + 1] = s and s.moved and pair(ratio(s.was, s.was_status),
        ratio(s.is, s.is_status)) or "same"
    end
    if j.listed then rows[#rows + 1] = row end
  end
  if #rows == 0 then return end
  d:table {caption = "Joists whose action, rules or ratio changed", columns = {
    {head = "joist"}, {head = "action"}, {head = "uncut"}, {head = "cut"},
    {head = "until repaired"}, {head = "repaired"}}, rows = rows, row_heads = 1}
end

--- The result as a document (see document.lua).
function methods:document()
  local d = document.new {title = "Results looked at again", lang = self.lang}
  if self.floor then d:paragraph {"Floor: ", {mark = self.floor}} end
  d:paragraph(("Numbers of version %s beside version %s. %d of %d joists looked at "
    .. "changed in action, rules or ratio."):format(self.since, core.version,
    self.changed, self.looked))
  if self.rebuilt then
    d:paragraph("Each joist was described anew from the file of numbers and looked at "
      .. "alone: what others leave on it stands in it with the survey alone (--survey).")
  end
  overview(d, self)
  for _, j in ipairs(self.joists) do section(d, j) end
  if #self.joists > 0 then
    d:heading(2, "What changed in the rules")
    local items = {}
    for i, c in ipairs(used(self)) do
      items[i] = ("%s (%s). Was: %s Is: %s"):format(c.title, c.version, c.was, c.is)
    end
    if #items > 0 then d:list(items) end
  end
  if #self.not_looked > 0 then
    d:heading(2, "Not looked at")
    d:paragraph "These need the survey; the file of numbers does not tell all of them."
    local items = {}
    for i, one in ipairs(self.not_looked) do
      items[i] = ("%s: %s"):format(one.mark, one.reason)
    end
    d:list(items)
  end
  d:heading(2, "Cautions")
  d:list(cautions.always, {ordered = true})
  return d
end

--- The results as text; the other forms likewise.
function methods:text() return document.text(self:document()) end
function methods:markdown() return document.markdown(self:document()) end

--- @param options {paper = "letter" | "a4"}
function methods:html(options) return document.html(self:document(), options) end

-------------------------------------------------------------------------------- the whole

-- Numbers of the joists as they are reviewed now, by mark.
local function new_trees(new)
  local by_mark = {}
  local tree = numbers.of(new)
  for _, key in ipairs(numbers.keys(tree.joists)) do
    by_mark[tree.joists[key].mark] = tree.joists[key]
  end
  return by_mark
end

--- Looks at results of an earlier version again.
-- @param old the path of its numbers.json, that text, or the table
-- @param new the review of today of the same survey; without it the joists are described
--   anew from the file where it tells enough
-- @return {changed =, looked =, joists =, not_looked =} with :document() :text()
--   :markdown() :html(); or nil and a message
function recheck.of(old, new)
  local tree, problem = read_old(old)
  if not tree then return nil, problem end
  local now = new ~= nil and new_trees(new) or nil
  local self = {since = tree.netsection, rebuilt = now == nil, joists = {},
    not_looked = {}, looked = 0, changed = 0, lang = new and quantity.of(new).lang,
    floor = type(table_of(tree.floor).name) == "string" and tree.floor.name or nil}
  for _, key in ipairs(keys(tree.joists)) do
    local j = tree.joists[key]
    local today, why
    if now then
      today, why = now[j.mark], "it is not in the survey"
    else
      today, why = rebuild.joist(j, {rules = table_of(j.rules).pack,
        standard = type(j.standard) == "string" and j.standard or nil})
    end
    if today then
      self.looked = self.looked + 1
      local change = joist_change(j, today, tree.netsection)
      if change then self.joists[#self.joists + 1] = change end
      if change and change.listed then self.changed = self.changed + 1 end
    else
      self.not_looked[#self.not_looked + 1] = {mark = j.mark, reason = why}
    end
  end
  return setmetatable(self, meta)
end

return recheck
