-- SPDX-License-Identifier: MIT
-- The scripts of README.md print what it says they print.
local lu = require "luaunit"

local T = {}

local function read(path)
  local file <close> = assert(io.open(path))
  return file:read "a"
end

-- Fenced blocks in their order: {language, text}.
local function blocks_of(text)
  local list = {}
  for language, body in text:gmatch "\n```(%w*)\n(.-)\n```" do
    list[#list + 1] = {language, body}
  end
  return list
end

-- What a script prints. It writes its plot nowhere.
local function printed(script)
  local out = {}
  local netsection = require "netsection"
  local ns = setmetatable({write = function(_, text)
    lu.assertStrContains(text, "set output")
    return true
  end}, {__index = netsection})
  local env = setmetatable({ns = ns, print = function(...)
    local words = table.pack(...)
    for i = 1, words.n do words[i] = tostring(words[i]) end
    out[#out + 1] = table.concat(words, "\t")
  end, require = function(name) return name == "netsection" and ns or require(name) end},
    {__index = _G})
  assert(load(script, "=README", "t", env))()
  return table.concat(out, "\n")
end

function T.test_scripts_print_what_is_said()
  local list, run = blocks_of(read "README.md"), 0
  for i, block in ipairs(list) do
    local said = list[i + 1]
    if block[1] == "lua" and said and said[1] == "" then
      lu.assertEquals(printed(block[2]):gsub("%s+$", ""), (said[2]:gsub("%s+$", "")))
      run = run + 1
    end
  end
  lu.assertTrue(run >= 2, run)
end

return T
