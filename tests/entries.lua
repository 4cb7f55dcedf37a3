-- SPDX-License-Identifier: MIT
-- What the tests of the reference share: its entries by name, the values that its
-- examples use, and which classes a user fills in.
local lu = require "luaunit"
local ns = require "netsection"
local reference = require "tests.reference"

local entries = {all = reference.all(), functions = {}, classes = {}, aliases = {}}
local classes = entries.classes

local function add_class(entry)
  local known = classes[entry.name]
  if not known then
    classes[entry.name] = entry
  elseif #entry.fields > 0 then
    known.fields, known.doc = entry.fields, entry.doc
  end
  if entry.call then
    entry.call.where = entry.where
    entries.functions[entry.call.name] = entry.call
  end
end

for _, file in ipairs(entries.all) do
  for _, entry in ipairs(file.entries) do
    entry.where = ("%s:%d"):format(file.path, entry.line)
    if entry.kind == "function" then
      entries.functions[entry.name] = entry
    elseif entry.kind == "alias" then
      entries.aliases[entry.name] = entry
    else
      add_class(entry)
    end
  end
end

-- Fields of a class with those of its parents, by name.
function entries.fields_of(name, into)
  into = into or {}
  local class = classes[name] or error("no class " .. name)
  for _, parent in ipairs(class.parents) do entries.fields_of(parent, into) end
  for _, field in ipairs(class.fields) do into[field.name] = field end
  return into
end

-- Whether a class is filled in by a user; else it is what a function gives.
function entries.is_input(name)
  return name:find "Fields$" or name:find "Options$" or name:find "Defaults$"
    or name:find "Pack$" or name:find "Shape$"
end

-- Fails with all that is wrong, a line each.
function entries.report(list)
  table.sort(list)
  lu.assertEquals(table.concat(list, "\n"), "")
end

entries.folder = os.tmpname()
os.remove(entries.folder)
local given

-- The values that the examples use, made once; what they write goes into a folder.
function entries.values()
  if not given then
    given = setmetatable({ns = ns, print = function() end, os = {getenv = function()
      return entries.folder
    end}}, {__index = _G})
    local code = reference.prelude(entries.all):gsub("local ([%w_, ]+) = ", "%1 = ")
    assert(load(code, "=prelude", "t", given))()
  end
  return given
end

-- Values whose methods are public, by the name that stands for them in the reference.
function entries.objects()
  local v = entries.values()
  return {joist = v.joist, review = v.review, floor = v.floor, sweep = v.sweep,
    summary = v.sweep:summary(),
    odds = v.odds, floor_odds = v.floor:odds {defaults = true, draws = 16,
      replicates = 4, indices = false}, grid = v.grid, feel = v.feel, path = v.path,
    shores = v.shores, table = v.thirds, set = v.set, marks = v.set:mark {},
    comparison = ns.compare(v.review, v.review),
    recheck = ns.recheck(ns.package.data(v.review), v.review),
    document = ns.document.new {title = "d"},
    beam = v.beam, post = ns.post {length = 96, size = "4x4"},
    state = ns.footing {soil = 1500, thickness = 8, load = 100, post = 4}:review()}
end

return entries
