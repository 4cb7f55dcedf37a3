-- SPDX-License-Identifier: MIT
-- Ctrl-C in the core: a signal sets another hook than stood when the work began, and the
-- core, which runs no Lua between its blocks, ends at the next one. The hooks here never
-- come to run themselves.
local core = require "netsection.core"
local lu = require "luaunit"
local ns = require "netsection"

local T = {}

local LATER = 1 << 30 -- instructions until a hook runs

local function joist()
  return ns.joist {mark = "J", size = "2x10", species = "hem-fir", grade = "No.2",
    span = 144, spacing = 16, bearing = 3.5, dead = 10, live = 20}
end

-- A sweep of many loads; the hook changes when progress is told for the first time.
function T.test_a_sweep_of_the_core()
  local j, n = joist(), 1 << 20
  local packs, live = j:review().packs, core.numbers(n)
  for i = 1, n do core.set(live, i, 20 + (i - 1) % 1000 / 50) end
  local ratio = j:review().uncut.ratio
  for threads = 1, 2 do
    local reports, to = 0, core.numbers(n)
    local done, stopped = core.sweep {models = {core.packed(j.model)}, sizes = {n},
      columns = {{axis = 1, path = "live", values = live}}, count = n, threads = threads,
      outputs = {{quantity = "ratio", state = "uncut"}}, to = {to},
      fault = core.faults(n),
      rules = packs.rules, standard = packs.standard, progress = function()
        reports = reports + 1
        debug.sethook(function() error "not reached" end, "", LATER)
      end}
    debug.sethook()
    lu.assertEquals({stopped, reports}, {true, 1})
    lu.assertTrue(done > 0 and done < n, done)
    lu.assertEquals(to[1], ratio)
  end
end

return T
