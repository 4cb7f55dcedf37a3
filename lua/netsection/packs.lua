-- SPDX-License-Identifier: MIT
-- Rule packs and standards: found by name in the folders of data, or made of a table of
-- the user's; read as data, checked whole, and handed to the core once.
local core = require "netsection.core"
local check = require "netsection.packs.check"
local ordered = require "netsection.point".pairs
local point = require "netsection.point"
local random = require "netsection.random"
local standards = require "netsection.standards"
local own_duration = require "netsection.own_duration"
local words = require "netsection.words"
local copied = require "netsection.parts".copied
local error = require "netsection.raise".error
local plain = require "netsection.document.escape".text
local tostring = require "netsection.point".text

local packs = {}

local KINDS = {
  rules = require "netsection.packs.rules",
  standards = require "netsection.packs.standards",
}
--- Used where a review names none: {rules =, standards =}.
packs.default = standards.default
local MOST_PACKS = 4

local Pack = {}
local loaded, names_of = {}, {}

function Pack:__tostring()
  return ("%s '%s': %s (%s)"):format(self.kind == "rules" and "rules" or "standard",
    plain(self.name), plain(self.title),
    self.own and "given, " .. self.fingerprint or "on file")
end

---------------------------------------------------------------------------- the tables

local function texts(found)
  local lines = {}
  for i, problem in ipairs(found) do lines[i] = problem.text end
  return table.concat(lines, "\n")
end

-- A text that is the same for the same data: what the fingerprint is made of.
local function canonical(value)
  if type(value) ~= "table" then
    return type(value) == "number" and point.exact(value)
      or ("%s:%s"):format(type(value), tostring(value))
  end
  local list = {}
  for i, key in ipairs(check.keys(value)) do
    list[i] = canonical(key) .. "=" .. canonical(value[key])
  end
  return "{" .. table.concat(list, ";") .. "}"
end

--- 16 digits that two tables share when they hold the same data.
function packs.fingerprint(value)
  return ("%016x"):format(random.hash(canonical(value)))
end

local function with_base(kind, t)
  if t.base == nil then return t end
  local base, problem = packs.read(kind, t.base)
  if not base then return nil, ("base: %s"):format(problem) end
  local new = {}
  for key, value in pairs(base) do new[key] = value end
  for key, value in pairs(t) do
    new[key] = kind == "standards" and standards.over(key, base[key], value) or value
  end
  return new
end

-- What a pack is asked for and has not yet: its fingerprint, which takes longer than the
-- rest of reading it.
function Pack:__index(key)
  if key ~= "fingerprint" then return Pack[key] end
  self.fingerprint = packs.fingerprint(self.data)
  return self.fingerprint
end

-- A pack of checked data.
local function made(kind, t, own)
  return setmetatable({kind = kind, name = t.name, title = t.title, data = t, own = own,
    confidence = t.confidence, fingerprint = own and packs.fingerprint(t)}, Pack)
end

-- The pack of a name as an object, or nil and what is wrong.
local function on_file(kind, name)
  local key = kind .. "/" .. name
  if loaded[key] then return loaded[key] end
  local known = name:match "^[%w][%w%-%.]*$"
  local t, problem
  if known then t, problem = KINDS[kind].read(name) end
  if not t then
    return nil, problem or ("%s: '%s' is unknown; available: %s"):format(kind, name,
      table.concat(packs.names(kind), ", "))
  end
  local whole, why = with_base(kind, t)
  if not whole then return nil, ("%s '%s', %s"):format(kind, name, why) end
  local found = KINDS[kind].problems(whole)
  if whole.name ~= name then
    found.add("PACK-NAME", "name", "its file is that of '%s'", name)
  end
  if #found > 0 then return nil, texts(found) end
  loaded[key] = made(kind, whole)
  return loaded[key]
end

--- The data of a pack on file, or nil and a message. @param kind "rules" or "standards"
function packs.read(kind, name)
  if type(name) ~= "string" then
    return nil, ("%s: a name expected, got %s"):format(kind, tostring(name))
  end
  local pack, problem = on_file(kind, name)
  if not pack then return nil, problem end
  return pack.data
end

--- Names of the packs on file, sorted: what a listing of their folder gives.
function packs.names(kind)
  names_of[kind] = names_of[kind] or KINDS[kind].names()
  return names_of[kind]
end

--- What is on file: a list of {name =, title =, confidence =, scope =}.
-- @param kind "rules" or "standards"
function packs.list(kind)
  if not KINDS[kind] then
    error(("packs: 'rules' or 'standards' expected, got %s"):format(tostring(kind)), 2)
  end
  local list = {}
  for i, name in ipairs(packs.names(kind)) do
    local pack, problem = on_file(kind, name)
    list[i] = pack and {name = name, title = pack.title, confidence = pack.confidence,
      scope = pack.data.scope} or {name = name, problem = problem}
  end
  return list
end

--------------------------------------------------------------------- a user's own packs

-- Whether a name belongs to a pack on file.
local function reserved(kind, name)
  return type(name) == "string" and name:match "^[%w][%w%-%.]*$"
    and KINDS[kind].known(name)
end

local function problems_of(kind, t)
  local whole, why = t, nil
  if type(t) == "table" then whole, why = with_base(kind, t) end
  local found = KINDS[kind].problems(whole or t)
  if why then found.add("STANDARD-BASE", "base", why) end
  if type(t) == "table" and reserved(kind, t.name) then
    found.add("PACK-NAME", "name", "'%s' is the name of a pack on file", t.name)
  end
  return found, whole
end

-- {folder = path, format = name} is a standard's folder anywhere; other tables stay.
local function from_folder(kind, t)
  if kind ~= "standards" or type(t) ~= "table" or t.folder == nil then return t end
  for key in ordered(t) do
    if key ~= "folder" and key ~= "format" then
      return nil, ("standard: '%s' beside a folder: it stands in the folder's own files")
        :format(tostring(key))
    end
  end
  return standards.read_folder(t.folder, t.format)
end

local function maker(kind)
  return setmetatable({problems = function(t)
    local read, why = from_folder(kind, t)
    if not read and why then
      return {{code = "PACK-NOT-FOUND", path = "folder", text = why}}
    end
    return (problems_of(kind, read))
  end}, {
    __call = function(_, given)
      local t, why = from_folder(kind, given)
      if not t and why then error(why, 2) end
      local found, whole = problems_of(kind, t)
      if #found > 0 then error(texts(found), 2) end
      return made(kind, copied(whole), true)
    end,
  })
end

--- A rule pack of the user's own, from a table: raises with all that is wrong.
-- `packs.own_rules.problems(t)` gives the same as a list of {code, path, text}.
packs.own_rules = maker "rules"
--- A standard of the user's own: a table that names a `base` and what differs from it,
-- or {folder = path, format = "asd"}, a folder as those on file.
packs.own_standard = maker "standards"

--------------------------------------------------------------------- packs for the core

local function object(kind, given)
  if getmetatable(given) == Pack and given.kind == kind then return given end
  if type(given) == "string" then return on_file(kind, given) end
  return nil, ("%s: a name or a pack expected, got %s"):format(kind,
    getmetatable(given) == Pack and "a pack of " .. given.kind or type(given))
end

-- Several packs, or one, as a list of objects.
local function stack_of(given)
  if type(given) ~= "table" or getmetatable(given) == Pack then given = {given} end
  if #given < 1 or #given > MOST_PACKS then
    return nil, ("rules: 1 to %d packs expected"):format(MOST_PACKS)
  end
  local list = {}
  for i, one in ipairs(given) do
    local pack, problem = object("rules", one)
    if not pack then return nil, problem end
    list[i] = pack
  end
  return list
end

local function joined(list, field)
  local said = {}
  for i, pack in ipairs(list) do said[i] = pack[field] end
  return table.concat(said, " + ")
end

-- What a stack says where its packs do not: the words of the first; "a; b" of several.
local function said_by(list)
  local first = list[1].data
  return {name = joined(list, "name"), title = joined(list, "title"),
    confidence = joined(list, "confidence"), not_covered = first.not_covered,
    not_covered_hogging = first.not_covered_hogging or first.not_covered,
    manufactured = first.manufactured}
end

local compiled = setmetatable({}, {__mode = "k"})

-- A stack with the limits for one kind of bearing, checked for the room of a review.
-- @param relieved true: without those that a joist's depth may make good
local function compile(list, on, relieved)
  local limits, parts = {}, {}
  for p, pack in ipairs(list) do
    local inches = KINDS.rules.in_inches(pack.data)
    local part = {covers = inches.covers, covers_hogging = inches.covers_hogging,
      covers_depth = inches.covers_depth, limits = {}}
    for _, limit in ipairs(inches.limits) do
      local stands = not (relieved and limit.relieved)
      if stands and (limit.on == nil or limit.on == on) then
        limits[#limits + 1] = limit
        table.insert(part.limits, limit)
      end
    end
    parts[p] = part
  end
  local ok, made_core = pcall(core.rules, parts)
  if not ok then
    return nil, ("rules '%s': RULE-TOO-MANY, %s"):format(joined(list, "name"), made_core)
  end
  return {data = said_by(list), limits = limits, core = made_core, list = list,
    spec = #list == 1 and list[1] or list}
end

--- Limits for one kind of bearing, and the core's copy of them.
-- @param given a name such as "us-irc-2021", a pack, or a list of up to four: a cut is
--   within where each of them that covers it says so
-- @param on "wood" or "masonry"
-- @return {data =, limits =, core =, list =, spec = what gives the same again}; or nil
--   and a message
function packs.rules(given, on)
  local list, problem = stack_of(given)
  if not list then return nil, problem end
  if #list > 1 then return compile(list, on) end
  compiled[list[1]] = compiled[list[1]] or {}
  local known = compiled[list[1]]
  if not known[on] then
    local one, why = compile(list, on)
    if not one then return nil, why end
    known[on] = one
  end
  return known[on]
end

--- The same stack without the limits that a joist's depth may make good.
-- @param rules of packs.rules
function packs.relieved(rules, on)
  return assert(compile(rules.list, on, true))
end

--- @param given a name such as "us-nds-2018-asd", or a pack of packs.own_standard
-- @return {data =, core =, spec =}, or nil and a message
function packs.standard(given)
  local pack, problem = object("standards", given)
  if not pack then return nil, problem end
  if not compiled[pack] then
    compiled[pack] = {data = pack.data, core = core.standard(KINDS.standards.numbers(
      pack.data)), spec = pack, words = words.of(pack.data),
      limits = KINDS.standards.limits(pack.data)}
  end
  return compiled[pack]
end

local with_durations = setmetatable({}, {__mode = "k"})

--- A standard for one joist: with combinations that hold its loads of their own duration,
-- or the standard itself. @param standard of packs.standard; @param m model
function packs.for_joist(standard, m)
  local key = own_duration.key(m)
  if key == nil or not standard.data.own_duration then return standard end
  with_durations[standard] = with_durations[standard] or {}
  local of = with_durations[standard]
  if not of[key] then
    local data = own_duration.data(standard.data, m.durations)
    local fits = #data.with_roof_or_snow <= own_duration.rows_most
    of[key] = {data = data, spec = standard.spec, limits = standard.limits,
      words = words.of(data), durations = key, core = fits
      and core.standard(KINDS.standards.numbers(data)) or standard.core}
  end
  return of[key]
end

local under = setmetatable({}, {__mode = "k"})

--- The core's copy of a standard whose only combination is one of its own; variable loads
-- carry their factors themselves (roof_loads.under).
function packs.under(standard, c)
  under[c] = under[c] or setmetatable({}, {__mode = "k"})
  local of = under[c]
  of[standard] = of[standard] or core.standard(KINDS.standards.numbers_under(
    standard.data, c))
  return of[standard]
end

--- The rules that stand where a review names none: those that its standard usually goes
-- with, else the module's.
-- @param given the standard: a name, a pack, or nil
function packs.usual_rules(given)
  local pack = object("standards", given or packs.default.standards)
  return pack and pack.data.usual_rules or packs.default.rules
end

--- Whether a value is a pack.
function packs.is(value)
  return getmetatable(value) == Pack
end

return packs
