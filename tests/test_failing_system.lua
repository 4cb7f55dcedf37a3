-- SPDX-License-Identifier: MIT
-- What becomes of files, programs and threads where a call of the system fails: a library
-- that stands before the C library lets it (tests/data/failing), in a process of its own
-- (tests/failing_system.lua).
local drawing = require "tests.drawing"
local lu = require "luaunit"
local system = require "tests.system"

local T = {}

function T.test_calls_of_the_system_that_fail()
  system.unix "a library before the C library"
  local dir <close> = drawing.folder()
  local library = dir.path .. "/fail.so"
  local function said_by(command, ...)
    local pipe <close> = assert(io.popen(command:format(...) .. " 2>&1"))
    return pipe:read "a"
  end
  if not os.execute(("cc -std=c11 -shared -fPIC -o '%s' tests/data/failing/fail.c "
    .. ">/dev/null 2>&1"):format(library)) then
    lu.skip "the library is not built on this system"
  end
  -- The sanitizers let it stand before them.
  local before = ("LD_PRELOAD='%s' ASAN_OPTIONS=\"$ASAN_OPTIONS:"
    .. "verify_asan_link_order=0\" '%s' "):format(library, arg[-1])
  if not said_by("%s -e 'print(os.remove \"fail:nothing\")'", before):find "true" then
    lu.skip "no library stands before others here"
  end
  local said = said_by("LC_ALL=C %s tests/failing_system.lua '%s'", before, dir.path)
  lu.assertEquals(said, "failing system: 9 cases hold\n")
end

return T
