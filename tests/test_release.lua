-- SPDX-License-Identifier: MIT
-- The version stands in one place (names.c); what else names it is held to that. The man
-- page is what the command says of itself.
local drawing = require "tests.drawing"
local lu = require "luaunit"
local ns = require "netsection"
local system = require "tests.system"

local T = {}

local function output_of(command)
  local pipe <close> = assert(io.popen(command))
  return pipe:read "a"
end

function T.test_the_version_is_one()
  lu.assertNotNil(ns.version:find "^%d+%.%d+%.%d+$", ns.version)
  local said = drawing.read_file(("netsection-%s-1.rockspec"):format(ns.version))
  lu.assertStrContains(said, ('version = "%s-1"'):format(ns.version))
  lu.assertStrContains(drawing.read_file "README.md", "version " .. ns.version)
  lu.assertStrContains(drawing.read_file "DEVELOPERS.md", "### " .. ns.version)
  lu.assertStrContains(drawing.read_file "lua/types/netsection.lua", ns.version)
  lu.assertEquals(#system.within(".", "%.rockspec$"), 1)
end

function T.test_the_man_page_is_that_of_the_command()
  lu.assertEquals((system.script "tests/man.lua"), drawing.read_file "lua/netsection.1")
end

-- Registers of more digits than a double has, which other compilers ask for by default.
function T.test_x87_is_refused()
  system.unix "its compiler"
  local cc = os.getenv "CC" or "gcc"
  local line = cc .. " %s -Icsrc -std=c11 -fsyntax-only csrc/joist/names.c 2>&1"
  if not os.execute("echo 'int main(void){return 0;}' | " .. cc
    .. " -mfpmath=387 -x c -fsyntax-only - >/dev/null 2>&1") then
    lu.skip "this compiler has no x87"
  end
  lu.assertEquals(output_of(line:format ""), "")
  lu.assertStrContains(output_of(line:format "-mfpmath=387"), "worked as doubles")
end

return T
