-- SPDX-License-Identifier: MIT
-- Tables of design values of a user's own, read as those on file are: a table, or a file
-- of data, of which nothing is run. Whatever is wrong is named before any use.
local check = require "netsection.packs.check"
local data = require "netsection.data_file"

local lumber_table = {}

local function value(low, high) return {"number", low, high} end
local WORDS = {"read", "computed", "memory"}
-- A grade's values, psi; G without unit.
local VALUES = {Fb = value(1, 10000), Ft = value(1, 10000), Fv = value(1, 2000),
  Fc_perp = value(1, 5000), Fc = value(1, 10000), E = value(1e5, 5e6),
  Emin = value(1, 3e6), G = value(0.2, 1.2), source = {"text"},
  confidence = {"word", WORDS}}
local ROW = {to = value(1, 100), from = value(1, 100), Fb = value(0.1, 2),
  Fb_4x = value(0.1, 2), Ft = value(0.1, 2), Fc = value(0.1, 2), source = {"text",
  needed = true}, confidence = {"word", WORDS, needed = true}}
local GRADE = {by_size = {"map", {"table", VALUES}}}
for name, what in pairs(VALUES) do GRADE[name] = what end

local SCHEMA = {
  edition = {"text", needed = true}, title = {"text", needed = true}, base = {"text"},
  thickness_max = value(1, 24), sources = {"map", {"text"}, needed = true},
  species = {"map", {"table", {table = {"text"}, aliases = {"list", {"text"}, 0, 20},
    replaces = {"flag"}, grades = {"map", {"table", GRADE}, needed = true}}},
    needed = true},
  size_factors = {"list", {"table", {table = {"text", needed = true},
    grades = {"list", {"text"}, 1, 20}, rows = {"list", {"table", ROW}, 1, 20,
    needed = true}}}, 0, 20},
}
local CLASSES = {["2x4"] = true, ["2x6"] = true, ["2x8"] = true, ["2x10"] = true,
  ["2x12"] = true}

local function missing(record, name, path, found)
  if record[name] == nil then
    found.add("LUMBER-FIELD", path .. "." .. name, "missing")
  end
end

-- One record of values: what it rests on, and with no base all that a review needs.
local function check_record(t, record, path, found)
  for _, name in ipairs {"source", "confidence"} do
    missing(record, name, path, found)
  end
  if record.source ~= nil and t.sources[record.source] == nil then
    found.add("LUMBER-SOURCE", path .. ".source", "'%s' is not in sources",
      record.source)
  end
  for _, name in ipairs(t.base and {} or {"Fb", "Fv", "E", "Emin"}) do
    missing(record, name, path, found)
  end
end

local function check_grade(t, grade, path, found)
  if not grade.by_size then return check_record(t, grade, path, found) end
  for _, size in ipairs(check.keys(grade.by_size)) do
    local here = ("%s.by_size[%s]"):format(path, size)
    if not CLASSES[size] then
      found.add("LUMBER-SIZE", here, "one of 2x4, 2x6, 2x8, 2x10, 2x12 expected")
    end
    check_record(t, grade.by_size[size], here, found)
  end
end

local function check_whole(t, known, found)
  if not t.edition:find "^%l[%l%d%-%.]*$" then
    found.add("LUMBER-NAME", "edition", "small letters, digits, hyphens and points "
      .. "expected, got '%s'", t.edition:sub(1, 40))
  elseif known(t.edition) then
    found.add("LUMBER-NAME", "edition", "'%s' is on file already", t.edition)
  end
  if t.base and not known(t.base) then
    found.add("LUMBER-BASE", "base", "edition '%s' is not on file", t.base)
  elseif not t.base and not (t.thickness_max and t.size_factors) then
    found.add("LUMBER-FIELD", "base", "a base, or thickness_max and size_factors, "
      .. "expected")
  end
  for _, name in ipairs(check.keys(t.species)) do
    local species = t.species[name]
    local path = ("species[%s]"):format(name)
    if not t.base then
      for _, field in ipairs {"table", "aliases"} do
        if species[field] == nil then
          found.add("LUMBER-FIELD", path .. "." .. field, "missing")
        end
      end
    end
    for _, grade in ipairs(check.keys(species.grades)) do
      check_grade(t, species.grades[grade], ("%s.grades[%s]"):format(path, grade), found)
    end
  end
end

--- The table that is meant: {file = path} is read as data. nil and why where it is not.
function lumber_table.read(t)
  if type(t) ~= "table" or t.file == nil then return t end
  if type(t.file) ~= "string" or next(t, next(t)) ~= nil then
    return nil, "file: a path expected, and nothing beside it"
  end
  return data.read(t.file)
end

--- What is wrong with a table of design values: a list of {code =, path =, text =}.
-- @param known function(edition): whether it is on file
function lumber_table.problems(t, known)
  local name = type(t) == "table" and type(t.edition) == "string" and t.edition or "?"
  local found = check.list(("lumber '%s'"):format(name:sub(1, 40)))
  if type(t) ~= "table" then
    found.add("PACK-FIELD-TYPE", "", "a table expected, got %s", type(t))
  elseif check.fields(t, SCHEMA, "", found) then
    check_whole(t, known, found)
  end
  return found
end

return lumber_table
