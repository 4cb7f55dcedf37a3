-- SPDX-License-Identifier: MIT
-- What can be wrong with the words of a standard: its rows of checks and the lines of its
-- calculations.
local check = require "netsection.packs.check"
local check_rows = require "netsection.check_rows"
local core = require "netsection.core"
local steps = require "netsection.steps"
local words = require "netsection.words"
local tostring = require "netsection.point".text

local standard_words = {}

-- A field of the same kind under each of some names; `free` where it may be left out.
local function each(names, what, free)
  local schema, field = {}, {table.unpack(what)}
  field.needed = not free
  for _, name in ipairs(names) do schema[name] = field end
  return {"table", schema, needed = true}
end

local TEXT, LENGTH = {"text", needed = true}, {"number", 0, 1000, needed = true}
local CHECK = {
  mode = {"word", core.modes, needed = true}, clause = {"text"}, printed = {"text"},
  combination = {"text"}, absent = {"flag"},
}
-- What messages name a clause for.
local CLAUSES = {
  "across_grain", "bolted_post", "bracing", "built_up_plies", "built_up_post",
  "double_shear", "eccentric_post", "emin", "end_grain", "end_insert", "gates",
  "group_action", "group_pairs", "joint_duration", "nailed_post", "name",
  "outer_rows", "plain_footing", "plates_on_edge", "sharing", "sheet_steel",
  "slender_post", "tear_out",
}
local FRAMING = {clause = TEXT, single_header = LENGTH, near_bearing = LENGTH,
  header_hangers = LENGTH, tail_anchors = LENGTH}

-- Symbols of a format: see steps.lua.
local RENAME = {"any"}

--- Fields of a standard that are words.
standard_words.schema = {
  checks = {"list", {"table", CHECK}, 1, #core.modes, needed = true},
  steps = each(core.modes, {"list", {"any"}}, true),
  lines = {"map", {"list", {"text"}}, needed = true},
  clauses = each(CLAUSES, TEXT), says = {"map", {"text"}},
  stands_for = {"map", {"text"}}, rename = {"map", RENAME},
  framing = {"table", FRAMING, needed = true},
}

-- Symbols that a format gives other names: each stands in some line.
local function check_renamed(pack, symbols, found)
  local function unused(field, name)
    found.add("PACK-FIELD-UNKNOWN", ("%s.%s"):format(field, name),
      "no line of a calculation uses it")
  end
  local after = {}
  for name in pairs(symbols) do after[name] = true end
  for _, new in pairs(pack.rename or {}) do
    for _, text in pairs(type(new) == "table" and new or {new}) do
      for _, symbol in ipairs(steps.symbols(tostring(text))) do after[symbol] = true end
    end
  end
  for _, name in ipairs(check.keys(pack.rename or {})) do
    local new = pack.rename[name]
    if not symbols[name] then unused("rename", name) end
    if type(new) == "table" then
      for _, symbol in ipairs(check.keys(new)) do
        if not symbols[symbol] then unused("rename." .. name, symbol) end
      end
    elseif type(new) ~= "string" then
      found.add("PACK-FIELD-TYPE", "rename." .. name, "a symbol or a table expected")
    end
  end
  for _, field in ipairs {"stands_for", "says"} do
    for _, name in ipairs(check.keys(pack[field] or {})) do
      if not after[name] then unused(field, name) end
    end
  end
end

-- Symbols in the lines of a list, and the names of those it shares into `used`.
local function symbols_of(list, lines, used)
  local symbols = {}
  for _, text in ipairs(list) do
    local name = tostring(text):match "^@(.+)$"
    used[name or ""] = true
    for _, line in ipairs(name and lines[name] or {text}) do
      for _, symbol in ipairs(steps.symbols(tostring(line))) do symbols[symbol] = true end
    end
  end
  return symbols
end

-- Fields of one list of lines, and the symbols that it says stand for others.
local function check_list(list, path, symbols, found, unused)
  local names = {}
  for key, value in pairs(list) do
    if math.type(key) ~= "integer" then names[key] = value end
  end
  for _, key in ipairs(check.keys(names)) do
    if key == "stands_for" then
      local at = path .. ".stands_for"
      if check.value(list[key], {"map", {"text"}}, at, found) then
        for _, symbol in ipairs(check.keys(list[key])) do
          if not symbols[symbol] then unused(at, symbol) end
        end
      end
    else
      unused(path, tostring(key))
    end
  end
end

-- Names that stand in no line of a list, and shared lines that no list asks for.
local function check_steps(pack, found)
  local used, all = {}, {}
  local function unused(path, name)
    found.add("PACK-FIELD-UNKNOWN", path .. "." .. name,
      "no line of a calculation uses it")
  end
  for _, mode in ipairs(check.keys(pack.steps)) do
    for i, list in ipairs(pack.steps[mode]) do
      local path = ("steps.%s[%d]"):format(mode, i)
      if check.value(list, {"map", {"any"}}, path, found) then
        local symbols = symbols_of(list, pack.lines, used)
        for symbol in pairs(symbols) do all[symbol] = true end
        check_list(list, path, symbols, found, unused)
      end
    end
  end
  for _, name in ipairs(check.keys(pack.lines)) do
    if not used[name] then unused("lines", name) end
  end
  check_renamed(pack, all, found)
end

-- A row: its clause unless the standard has no such check, and the lines of one that a
-- joist by itself can have.
local function check_row(row, path, pack, found)
  local of = check_rows.of[row.mode]
  if row.absent then
    if pack.steps[row.mode] then
      found.add("STANDARD-WORDS", path, "lines of '%s', which the standard has not",
        row.mode)
    end
    return
  end
  if not (row.clause or of.clause) then
    found.add("STANDARD-WORDS", path, "no clause for '%s'", row.mode)
  end
  if of.unrepaired and not (pack.steps[row.mode] or of.steps) then
    found.add("STANDARD-WORDS", path, "no lines for '%s'", row.mode)
  end
end

-- Each check of the core has one row, but one that brings its own clause.
local function check_rows_of(pack, found)
  local seen = {}
  for i, row in ipairs(pack.checks) do
    local path = ("checks[%d]"):format(i)
    if seen[row.mode] then
      found.add("STANDARD-WORDS", path, "'%s' has a row before, checks[%d]", row.mode,
        seen[row.mode])
    end
    seen[row.mode] = i
    check_row(row, path, pack, found)
  end
  for _, row in ipairs(check_rows.list) do
    if not (seen[row.mode] or row.clause) then
      found.add("STANDARD-WORDS", "checks", "no row for '%s'", row.mode)
    end
  end
end

--- Each check has its row and lines that can be read.
-- @param pack whose fields are those of the schema
function standard_words.problems(pack, found)
  check_rows_of(pack, found)
  check_steps(pack, found)
  local ok, why = pcall(words.check, pack)
  if not ok then found.add("STANDARD-WORDS", "steps", "%s", tostring(why)) end
end

return standard_words
