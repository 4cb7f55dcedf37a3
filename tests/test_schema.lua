-- SPDX-License-Identifier: MIT
-- The numbers of reviews are as their published schema says (tests/examples.lua holds the
-- files of every example to it), and a fault that is put in is found.
local drawing = require "tests.drawing"
local json = require "dkjson"
local lu = require "luaunit"
local ns = require "netsection"
local numbers = require "netsection.numbers"
local schema = require "tests.schema"
local survey_folder = require "netsection.command.survey_folder"
local system = require "tests.system"

local T = {}

local S = schema.read(schema.numbers)

local function said(subject)
  return numbers.json(numbers.of(subject))
end

local function floor(path)
  return assert(ns.read_survey(survey_folder.options(survey_folder.files(path), {})))
end

local function holds(name, text)
  local faults = schema.faults(S, text)
  lu.assertEquals(table.concat(faults, "\n", 1, math.min(#faults, 10)), "", name
    .. ": a new number is described in " .. schema.numbers .. " first")
end

function T.test_every_kind_of_cut_and_repair()
  local drawn = dofile "tests/data/drawn.lua"
  local names = {}
  for name in pairs(drawn.joists) do names[#names + 1] = name end
  table.sort(names)
  lu.assertTrue(#names > 20)
  for _, name in ipairs(names) do holds(name, said(drawn.joists[name]():review())) end
end

function T.test_floors()
  holds("mill", said(floor "tests/data/mill":review()))
  local granary = floor "examples/survey"
  holds("survey", said(granary:review()))
  -- 3.66 m of a joist end 0.1 in past the last of the stations that all joists share
  holds("grid and feel", said(granary:review {grid = {deck = "24oc OSB"}, feel = true}))
end

-- Each planted fault is found, and at its place.
function T.test_planted_faults()
  local good = said(floor "tests/data/mill":review())
  local function broken(change)
    local tree = json.decode(good)
    change(tree, tree.joists.J1)
    return table.concat(schema.faults(S, json.encode(tree)), "\n")
  end
  lu.assertEquals(broken(function() end), "")
  for place, change in pairs {
    ["/joists/J1/uncut/ratio is a string"] = function(_, j) j.uncut.ratio = "0.78" end,
    ["/joists/J1/cut/checks/bending/ratio is less than 0"] = function(_, j)
      j.cut.checks.bending.ratio = -1 end,
    ["/joists/J1 has no 'action'"] = function(_, j) j.action = nil end,
    ["/joists/J1/action is none of"] = function(_, j) j.action = "ok" end,
    ["/joists/J1/cut/checks/shear/demnad is not described"] = function(_, j)
      j.cut.checks.shear.demnad = 1 end,
    ["/joists/J1/inputs/spans/0 is a string"] = function(_, j)
      j.inputs.spans[1] = "13-6" end,
    ["/joists/J1/cuts/hole-1/kind is none of"] = function(_, j)
      j.cuts["hole-1"].kind = "bore" end,
    ["/joists/J1/cut/reactions is a object"] = function(_, j)
      j.cut.reactions = {most = 1} end,
    ["/netsection is a number"] = function(t) t.netsection = 0.2 end,
    ["/ has no 'joists'"] = function(t) t.joists = nil end,
    ["/extra is not described"] = function(t) t.extra = true end,
  } do
    lu.assertStrContains(broken(change), place)
  end
  lu.assertStrContains(schema.faults(S, "{")[1], "no JSON")
end

-- The same by a validator that is not ours, where Python has one (python3-jsonschema).
function T.test_by_another_validator()
  local python = os.getenv "PYTHON" or "python3"
  if not os.execute(python .. ' -c "import jsonschema" >' .. system.null .. " 2>&1") then
    lu.skip "Python has no jsonschema here (python3-jsonschema)"
  end
  local dir <close> = system.folder()
  local good = said(floor "tests/data/mill":review())
  local bad = good:gsub('"action":"(%a+)"', '"action":"ok"', 1):gsub('"spans":%[',
    '"spans":["x",', 1)
  lu.assertNotEquals(good, bad)
  drawing.write_file(dir.path .. "/check.py", [=[
import json, sys, jsonschema
s, t = [json.load(open(path, encoding="utf-8")) for path in sys.argv[1:]]
kind = jsonschema.validators.validator_for(s)
kind.check_schema(s)
for e in sorted(kind(s).iter_errors(t), key=str):
    print("/" + "/".join(str(p) for p in e.absolute_path))
print("end")
]=])
  local call = ("%s %s %s %s 2>&1"):format(python, system.quoted(dir.path .. "/check.py"),
    system.quoted(schema.numbers), system.quoted(dir.path .. "/numbers.json"))
  for _, case in ipairs {{good, "end\n"},
    {bad, "/joists/J1/action\n/joists/J1/inputs/spans/0\nend\n"}} do
    drawing.write_file(dir.path .. "/numbers.json", case[1])
    local pipe <close> = assert(io.popen(call))
    lu.assertEquals(pipe:read "a", case[2])
  end
end

function T.test_versions_agree()
  lu.assertEquals(S["$id"]:match ":([%d.]+)$", ns.version:match "^%d+%.%d+")
  lu.assertStrContains(drawing.read_file "lua/README.md", schema.numbers:match "[^/]+$")
end

return T
