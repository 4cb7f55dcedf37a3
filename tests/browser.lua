-- SPDX-License-Identifier: MIT
-- Tests of pages that become PDF, on machines with a browser and without: the program
-- chromium is replaced by tests/data/browser, other converters are not there.
local core = require "netsection.core"
local system = require "tests.system"

local browser = {}

local files = core.files

local CONVERTERS = {chromium = true, ["chromium-browser"] = true,
  ["google-chrome"] = true, weasyprint = true}

-- The words of a command line that starts ours; nil for other converters.
local function ours(words, mode)
  if words[1] ~= "chromium" or not mode then return nil end
  local list = system.interpreter()
  table.move({"tests/data/browser/browser.lua", mode}, 1, 2, #list + 1, list)
  return table.move(words, 2, #words, #list + 1, list)
end

--- Runs a function while programs are replaced.
-- @param mode what ours does (tests/data/browser/browser.lua); nil: there is none
-- @return what the function returned, and how many were started: {talk =, run =}
function browser.with(mode, f, ...)
  local talk, run, started = files.talk, files.run, {talk = 0, run = 0}
  files.talk = function(words, said)
    local list = ours(words, mode)
    if not list then return nil, words[1] .. ": not found" end
    started.talk = started.talk + 1
    -- It is talked to at descriptors 3 and 4, which Lua cannot open.
    return talk({"sh", "-c", 'exec "$@" <&3 >&4', "sh", table.unpack(list)}, said)
  end
  files.run = function(words, ...)
    if not CONVERTERS[words[1]] then return run(words, ...) end
    local list = ours(words, mode)
    if not list then return nil, words[1] .. ": not found" end
    started.run = started.run + 1
    return run(list, ...)
  end
  local out = table.pack(pcall(f, ...))
  files.talk, files.run = talk, run
  assert(out[1], out[2])
  return started, table.unpack(out, 2, out.n)
end

return browser
