-- SPDX-License-Identifier: MIT
-- What users read is spelled as in the United States: the manuals outside of code, what
-- examples print, comments, and sentences in the source. Names of an interface that is
-- older than the rule (`neighbours`, a heading that a field book may have) stay.
local lu = require "luaunit"
local system = require "tests.system"

local T = {}

local BRITISH = {"centre", "centres", "centred", "neighbour", "neighbours",
  "neighbouring", "grey",
  "licence", "colour", "colours", "behaviour", "fibre", "fibres", "recognised",
  "storey", "labelled", "analysed", "organised"}
local WRONG = {}
for _, word in ipairs(BRITISH) do WRONG[word] = true end

-- Files whose words are what field books may hold, or the names of characters.
local READS = {["lua/netsection/field_columns.lua"] = true,
  ["lua/netsection/survey/cell.lua"] = true, ["lua/netsection/units.lua"] = true,
  ["lua/netsection/document/latex_characters.lua"] = true,
  ["lua/netsection/locale/spelling.lua"] = true}

local function british(said)
  for before, word, after in (" " .. said .. " "):gmatch "([^%a])(%a+)()" do
    local next = (" " .. said .. " "):sub(after, after)
    if WRONG[word:lower()] and not before:find "[%w_.]" and not next:find "[%w_(]" then
      return word
    end
  end
end

-- Without what stands between backquotes, which are names.
local function prose(said) return (said:gsub("`[^`]*`", " ")) end

local function check_lines(path, text_of)
  local file <close> = assert(io.open(path))
  local n, fence = 0, false
  for line in file:lines() do
    n = n + 1
    if line:find "^```" then fence = not fence end
    local said = not fence and text_of(line)
    if said then
      lu.assertNil(british(prose(said)), ("%s:%d: %s"):format(path, n, line))
    end
  end
end

function T.test_manuals()
  for _, path in ipairs {"README.md", "DEVELOPERS.md", "lua/README.md",
    "lua/REFERENCE.md"} do
    check_lines(path, function(line) return line end)
  end
end

-- Papers of examples of other countries: test_spelled reads such.
local ABROAD = {metric_package = true, ontario_floor = true, two_standards = true}

function T.test_what_examples_print()
  local list = {}
  for _, path in ipairs(system.within("examples/expected", "%.txt$")) do
    if not ABROAD[path:match "([%w_]+)%.txt$"] then list[#list + 1] = path end
  end
  lu.assertTrue(#list > 20)
  for _, path in ipairs(list) do
    -- 'neighbour' is the name of a mode, which reports print as it is
    check_lines(path, function(line)
      return not line:find "[{}\"|]" and line:gsub("neighbour, ", "")
    end)
  end
end

-- Is the line part of the headings that a survey may bring ('also = {...}')? They are
-- read in either spelling.
local function headings()
  local inside = false
  return function(line)
    inside = inside or line:find "also = {" ~= nil
    local is = inside
    if line:find "}" then inside = false end
    return is
  end
end

-- Comments, and strings that have a blank in them.
function T.test_source()
  local list = system.below("lua/netsection", "%.lua$")
  table.move(system.within("lua/types", "%.lua$"), 1, 99, #list + 1, list)
  lu.assertTrue(#list > 200)
  for _, path in ipairs(list) do
    local heading = headings()
    check_lines(path, function(line)
      if heading(line) or line:find "^%s*%-%-%-@" then return nil end
      local comment = line:match "^%s*%-%-([^@%[].*)$"
      if comment then return comment end
      if READS[path] or line:find "require" then return nil end
      local out = {}
      for said in line:gmatch '"([^"]* [^"]*)"' do out[#out + 1] = said end
      return table.concat(out, " ")
    end)
  end
end

return T
