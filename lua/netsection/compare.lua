-- SPDX-License-Identifier: MIT
-- Two runs of one floor beside each other: what changed since the last visit. A run is a
-- review, or the numbers of one as package.data gives them and as they stand in the
-- package's JSON. Both are brought to one plain form first, with nothing in it but marks,
-- words and finite numbers, since a file may hold anything.
local cautions = require "netsection.cautions"
local document = require "netsection.document"
local file = require "netsection.file"
local json = require "dkjson"
local numbers = require "netsection.numbers"
local parts = require "netsection.parts"
local point = require "netsection.point"
local review = require "netsection.review"
local quantity = require "netsection.quantity"
local text = require "netsection.text"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local compare = {}

--------------------------------------------------------------------- a run's plain form

-- A number, or nil for what is none.
local function finite(x)
  if type(x) == "number" and x == x and math.abs(x) ~= math.huge then return x end
end

-- Text or a number as text, nil for anything else in a file.
local function word(x)
  return (type(x) == "string" or finite(x)) and tostring(x) or nil
end

-- A table, empty where a file has something else there.
local function table_or_none(t)
  return type(t) == "table" and t or {}
end

-- Figures in a name count as a number: J2 stands before J10.
local function natural(name)
  return (name:gsub("%d+", function(n) return ("0"):rep(12 - #n) .. n end))
end

-- Keys of an object in the order it was made in, else in that of their names.
local function keys_of(t)
  local order = getmetatable(t) and getmetatable(t).__jsonorder
  if order then return order end
  local list = {}
  for key in pairs(t) do list[#list + 1] = key end
  table.sort(list, function(a, b)
    return point.less(natural(tostring(a)), natural(tostring(b)))
  end)
  return list
end

-- What follows from other inputs, and words that repeat them.
local DERIVED = {w = true, w_D = true, w_L = true, source = true}

-- No input nests deeper.
local DEEPEST = 4

-- Inputs as one table of paths, "bearing.1".
local function flatten(t, path, out, depth)
  for _, key in ipairs(keys_of(t)) do
    local value, full = t[key], path .. tostring(key)
    if type(value) == "table" and depth < DEEPEST then
      flatten(value, full .. ".", out, depth + 1)
    elseif not DERIVED[full] then
      out[full] = finite(value) or word(value)
    end
  end
  return out
end

-- A state of a run: status, ratio, what governs.
local function read_state(s)
  if type(s) ~= "table" then return nil end
  return {status = s.refused and "refused" or word(s.status), ratio = finite(s.ratio),
    governing = word(s.governing), title = word(s.title)}
end

-- Cuts of a run with their places.
local function read_cuts(cuts)
  local list = {}
  for _, key in ipairs(keys_of(table_or_none(cuts))) do
    local c = table_or_none(cuts[key])
    list[#list + 1] = {kind = word(c.kind) or "cut", x1 = finite(c.x1),
      x2 = finite(c.x2), label = word(c.label), note = word(c.note),
      entered = flatten(table_or_none(c.entered), "", {}, 1)}
  end
  return list
end

-- A joist of a run, from its numbers.
local function read_joist(j)
  return {mark = word(j.mark), action = word(j.action) or "-",
    action_text = word(j.action_text), until_repaired = read_state(j.until_repaired),
    inputs = flatten(table_or_none(j.inputs), "", {}, 1), uncut = read_state(j.uncut),
    cut = read_state(j.cut), fixed = read_state(j.fixed), cuts = read_cuts(j.cuts)}
end

-- The plain form {floor =, rules =, standard =, joists = {{mark =, action =, inputs =,
-- uncut =, cut =, fixed =, cuts =}}}, or nil and what is wrong.
local function of_tree(tree)
  local joists = table_or_none(table_or_none(tree).joists)
  local keys = keys_of(joists)
  if #keys == 0 then return nil, "no numbers of a review: 'joists' expected" end
  local out = {floor = word(table_or_none(tree.floor).name), joists = {}}
  for i, key in ipairs(keys) do
    local j = table_or_none(joists[key])
    if word(j.mark) == nil then
      return nil, ("joist %s: a mark expected"):format(text.plain(tostring(key)))
    end
    out.joists[i] = read_joist(j)
    out.rules = out.rules or word(table_or_none(j.rules).pack)
    out.standard = out.standard or word(j.standard)
  end
  return out
end

-- A run from the text of its numbers; nil and a message.
local function of_text(said)
  local ok, value, _, problem = pcall(json.decode, said)
  if not ok or value == nil then
    return nil, "no JSON: " .. text.plain(tostring(not ok and value or problem))
  end
  return of_tree(value)
end

-- A run from a file, or from the folder of a package.
local function of_path(path)
  local said, why = file.read(path)
  if not said then return nil, why:match "cannot be read.*$" or why end
  return of_text(said)
end

-- A run as plain data, or nil and what is wrong with it.
local function read_run(run, level)
  if review.is(run) or type(run) == "table" and type(run.order) == "table" then
    numbers.reviews(run, "compare", level + 1)
    return of_tree(numbers.of(run))
  elseif type(run) == "table" then
    return of_tree(run)
  elseif type(run) ~= "string" then
    error(("compare: a review, its numbers, their JSON or its path expected, got %s")
      :format(type(run)), level + 1)
  elseif run == "" or run:find "\0" then
    error("compare: a path without a NUL expected, got "
      .. (run == "" and "an empty text" or "one with it"), level + 1)
  elseif run:find "^%s*{" then
    return of_text(run)
  end
  return of_path(run)
end

---------------------------------------------------------------------------- comparing

-- Differences of a place that are told, in.
local READING = 1 / 64

-- Numbers that are worked out from millimetres and from inches differ in the last bits.
local function is_same(a, b)
  if math.type(a) and math.type(b) then
    return math.abs(a - b) <= 1e-9 * math.max(math.abs(a), math.abs(b))
  end
  return a == b
end

-- Names in any of the tables, sorted.
local function sorted_names(...)
  local seen, list = {}, {}
  for _, t in ipairs {...} do
    for name in pairs(t) do
      if not seen[name] then list[#list + 1] = name end
      seen[name] = true
    end
  end
  table.sort(list, function(p, q) return point.less(natural(p), natural(q)) end)
  return list
end

-- Inputs that differ: {name, old, new}.
local function input_changes(old, new)
  local list = {}
  for _, name in ipairs(sorted_names(old.inputs, new.inputs)) do
    local a, b = old.inputs[name], new.inputs[name]
    if not is_same(a, b) then list[#list + 1] = {name = name, old = a, new = b} end
  end
  return list
end

-- The middle of a cut along the joist.
local function middle(c)
  return c.x1 and c.x2 and (c.x1 + c.x2) / 2 or 0
end

-- The nearest cut of the same kind that is not taken, or nil.
local function partner(c, list, taken)
  local best, least = nil, math.huge
  for i, other in ipairs(list) do
    local apart = math.abs(middle(c) - middle(other))
    if not taken[i] and other.kind == c.kind and apart < least then
      best, least = i, apart
    end
  end
  return best
end

-- Fields that both runs tell; a file of an earlier version tells none.
local function entered_same(a, b)
  if next(a) == nil or next(b) == nil then return true end
  for _, name in ipairs(sorted_names(a, b)) do
    if not is_same(a[name], b[name]) then return false end
  end
  return true
end

-- Whether two cuts are the same by what was entered.
local function is_same_cut(a, b)
  return entered_same(a.entered, b.entered) and a.label == b.label and a.note == b.note
    and math.abs((a.x1 or 0) - (b.x1 or 0)) < READING
    and math.abs((a.x2 or 0) - (b.x2 or 0)) < READING
end

-- First those that are the same, then the nearest of the same kind, then the rest.
local function cut_changes(old, new)
  local from, taken, list = {}, {}, {}
  for i, c in ipairs(new.cuts) do
    for k, other in ipairs(old.cuts) do
      if not from[i] and not taken[k] and other.kind == c.kind
        and is_same_cut(other, c) then
        from[i], taken[k] = k, true
      end
    end
  end
  for i, c in ipairs(new.cuts) do
    if not from[i] then
      local k = partner(c, old.cuts, taken)
      if k then taken[k] = true end
      list[#list + 1] = {old = k and old.cuts[k], new = c}
    end
  end
  for k, c in ipairs(old.cuts) do
    if not taken[k] then list[#list + 1] = {old = c} end
  end
  return list
end

-- Where a state differs: its status, what governs, its ratio by more than 'least'.
local function state_change(a, b, least)
  if a == nil and b == nil then return nil end
  local p, q = a or {}, b or {}
  local moved = (p.ratio == nil) ~= (q.ratio == nil)
    or p.ratio and q.ratio and math.abs(p.ratio - q.ratio) >= least
  if moved or p.status ~= q.status or p.governing ~= q.governing or p.title ~= q.title
  then
    return {old = a, new = b}
  end
end

local STATES = {"uncut", "cut", "until_repaired", "fixed"}

-- What changed of a joist: inputs, cuts, action, ratios past the least difference.
local function joist_change(old, new, least)
  local change = {mark = new.mark, inputs = input_changes(old, new),
    cuts = cut_changes(old, new), states = {}, old = old, new = new}
  change.action = old.action ~= new.action
  -- a file of an earlier version tells no words
  change.words = old.action_text ~= nil and new.action_text ~= nil
    and old.action_text ~= new.action_text
  local any = change.action or change.words or #change.inputs > 0 or #change.cuts > 0
  for _, state in ipairs(STATES) do
    change.states[state] = state_change(old[state], new[state], least)
    any = any or change.states[state] ~= nil
  end
  return any and change or nil
end

-- Joists by mark.
local function by_mark(run)
  local map = {}
  for _, j in ipairs(run.joists) do map[j.mark] = j end
  return map
end

-------------------------------------------------------------------------------- in words

local LENGTHS = {spans = "place", overhang_left = "place", overhang_right = "place",
  b = "size", d = "size", spacing = "size", bearing = "size", blocking = "place"}
local KIND = {dead = "area_load", live = "area_load", plf_from = "line_load",
  plf_to = "line_load", lb = "force", Fb = "stress", Ft = "stress", Fv = "stress",
  Fc_perp = "stress", Fc = "stress", E = "stress", Emin = "stress"}

-- A number without zeros that say nothing, and without an exponent below a million.
local function plain_number(v)
  if v % 1 == 0 and math.abs(v) < 1e9 then return ("%d"):format(v) end
  return text.short(v)
end

-- "spans.1" as "span 1".
local function spoken(name)
  return (name:gsub("^spans", "span"):gsub("^loads", "load"):gsub("[._]", " "))
end

-- An input as the trade reads it.
local function said(v, name, show)
  if v == nil then return "-" end
  if math.type(v) == nil then return v end
  local first, last = name:match "^[^.]+", name:match "[^.]+$"
  local length = LENGTHS[first] or (last == "from" or last == "to" or last == "at")
    and "place"
  if length and math.abs(v) < 1e9 then return show[length](v) end
  if last == "temperature" then return show.temperature(v) end
  local kind = KIND[last]
  if not kind then return plain_number(v) end
  return plain_number(show.scaled(kind, v)) .. " " .. show.unit[kind]
end

-- Status and ratio of a state in words.
local function state_words(s)
  if s == nil then return "none" end
  local ratio = s.ratio and text.ratio(s.ratio) or "-"
  return ("%s, %s%s"):format(ratio, s.status or "-",
    s.governing and " by " .. s.governing or "")
end

-- Fields of a cut that differ, with what they were.
local function entered_changes(a, b, show)
  if next(a) == nil or next(b) == nil then return "" end
  local list = {}
  for _, name in ipairs(sorted_names(a, b)) do
    if not is_same(a[name], b[name]) then
      list[#list + 1] = ("%s %s, was %s"):format(spoken(name),
        said(b[name], name, show), said(a[name], name, show))
    end
  end
  return #list > 0 and " (" .. table.concat(list, "; ") .. ")" or ""
end

-- A cut in words with its place.
local function cut_words(c, show)
  local where = c.x1 and c.x2 and (", %s to %s"):format(show.place(c.x1),
    show.place(c.x2)) or ""
  return (c.label or c.kind) .. where .. (c.note and "; " .. text.plain(c.note) or "")
end

-- A value, and what it was where it differs.
local function pair(a, b)
  return a == b and a or ("%s, was %s"):format(b, a)
end

local methods = {}
local meta = {__index = methods, __name = "netsection.comparison",
  __tostring = function() return "comparison of two runs" end}

-- Whether the action in words says more than its own word.
local function in_words(change)
  return change.words and (change.new.action_text ~= change.new.action
    or change.old.action_text ~= change.old.action)
end

-- Rows of the table at the head: a joist each that changed.
local function heading_rows(self)
  local rows = {}
  for _, change in ipairs(self.joists) do
    local row = {change.mark, in_words(change) and pair(change.old.action_text,
      change.new.action_text) or pair(change.old.action, change.new.action)}
    for _, state in ipairs {"uncut", "cut", "fixed"} do
      local s = change.states[state]
      row[#row + 1] = s and ("%s, was %s"):format(text.ratio(s.new and s.new.ratio),
        text.ratio(s.old and s.old.ratio)) or "same"
    end
    rows[#rows + 1] = row
  end
  return rows
end

-- The section of a joist that changed.
local function joist_section(d, change, show)
  d:heading(2, "Joist " .. change.mark)
  if #change.inputs > 0 then
    local rows = {}
    for i, c in ipairs(change.inputs) do
      rows[i] = {spoken(c.name), said(c.old, c.name, show),
        said(c.new, c.name, show)}
    end
    d:table {caption = "Entries that changed", columns = {{head = "entry"},
      {head = "before"}, {head = "now"}}, rows = rows, row_heads = 1}
  end
  local items = {}
  for _, c in ipairs(change.cuts) do
    items[#items + 1] = not c.old and "new: " .. cut_words(c.new, show)
      or not c.new and "no longer there: " .. cut_words(c.old, show)
      or ("changed: %s; was %s%s"):format(cut_words(c.new, show),
        cut_words(c.old, show), entered_changes(c.old.entered, c.new.entered, show))
  end
  if #items > 0 then
    d:paragraph "Cuts:"
    d:list(items)
  end
  items = {}
  if change.action then
    items[1] = ("action %s, was %s"):format(change.new.action, change.old.action)
  end
  if in_words(change) then
    items[#items + 1] = ("in words: %s; was: %s"):format(change.new.action_text,
      change.old.action_text)
  end
  for _, state in ipairs(STATES) do
    local s = change.states[state]
    if s then
      items[#items + 1] = ("%s: %s; was %s"):format(spoken(state), state_words(s.new),
        state_words(s.old))
    end
  end
  if #items > 0 then
    d:paragraph "Results:"
    d:list(items)
  end
end

-- A line of marks, where there are any.
local function marks_line(d, label, list)
  if #list > 0 then d:paragraph {label, {mark = table.concat(list, ", ")}} end
end

--- The comparison as a document (see document.lua).
function methods:document()
  local d = document.new {title = "What changed since the last visit",
    lang = self.show.lang}
  local new = self.new_run
  if new.floor then d:paragraph {"Floor: ", {mark = new.floor}} end
  for _, line in ipairs(self.basis) do d:paragraph(line) end
  marks_line(d, "Joists that are new: ", self.added)
  marks_line(d, "Joists that are gone: ", self.gone)
  d:paragraph(("%d of %d joists changed; ratios that differ by less than %s count as the "
    .. "same."):format(#self.joists, #new.joists, text.short(self.least)))
  if #self.joists > 0 then
    d:table {caption = "Joists that changed", columns = {{head = "joist"},
      {head = "action"}, {head = "uncut"}, {head = "cut"}, {head = "fixed"}},
      rows = heading_rows(self), row_heads = 1}
    for _, change in ipairs(self.joists) do joist_section(d, change, self.show) end
  end
  d:heading(2, "Cautions")
  d:list(cautions.always, {ordered = true})
  return d
end

--- The comparison as text; the other forms likewise.
function methods:text() return document.text(self:document()) end
function methods:markdown() return document.markdown(self:document()) end

--- @param options {paper = "letter" | "a4"}
function methods:html(options) return document.html(self:document(), options) end

-------------------------------------------------------------------------------- the whole

-- Floor, rules, standard and version where they differ.
local function basis_of(old, new)
  local list = {}
  for _, name in ipairs {"floor", "rules", "standard"} do
    local a, b = old[name], new[name]
    if a ~= b then
      list[#list + 1] = ("The %s changed: %s, was %s."):format(name, b or "-", a or "-")
    end
  end
  return list
end

--- Compares two runs of a floor.
-- @param old, new a review, its numbers (package.data), their JSON, or the path of that
-- @param options {ratio = 0.01, the least difference of ratios that is told, units =
--   "us" | "metric": what the words are printed in (default: what the new run is, where
--   it is a review); the numbers compared stay base units, lang = "en-US" | "en-GB" |
--   "en-CA": how they are spelled}
-- @return {same =, added = marks, gone = marks, joists = changes, basis = texts} with
--   :document() :text() :markdown() :html(); or nil and a message
function compare.runs(old, new, options)
  options = options or {}
  parts.only("compare", options, {"ratio", "units", "lang"}, 2)
  local least = options.ratio or 0.01
  if type(least) ~= "number" or not (least >= 0 and least <= 1) then
    error("compare: ratio: a number from 0 to 1 expected", 2)
  end
  local of_new = review.is(new) or type(new) == "table" and type(new.floor) == "table"
  local printed = of_new and quantity.of(new) or {}
  local show, wrong, field = quantity.system(options.units or printed.name,
    options.lang or printed.lang)
  if not show then error(("compare: %s: %s"):format(field or "units", wrong), 2) end
  local a, problem = read_run(old, 2)
  if not a then return nil, "the old run: " .. problem end
  local b, why = read_run(new, 2)
  if not b then return nil, "the new run: " .. why end
  local self = {joists = {}, added = {}, gone = {}, basis = basis_of(a, b), new_run = b,
    old_run = a, least = least, show = show}
  local before, now = by_mark(a), by_mark(b)
  for _, j in ipairs(b.joists) do
    if before[j.mark] then
      self.joists[#self.joists + 1] = joist_change(before[j.mark], j, least)
    else
      self.added[#self.added + 1] = j.mark
    end
  end
  for _, j in ipairs(a.joists) do
    if not now[j.mark] then self.gone[#self.gone + 1] = j.mark end
  end
  self.same = #self.joists + #self.added + #self.gone + #self.basis == 0
  return setmetatable(self, meta)
end

return compare
