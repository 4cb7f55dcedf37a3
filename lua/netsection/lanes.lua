-- SPDX-License-Identifier: MIT
-- One joist with some of its fields varied, straight through the core: what searches are
-- made of.
local core = require "netsection.core"

local lanes = {}

-- @param m model
-- @param packs {rules =, standard =} that review.packs_of gave
-- @param columns fields of the core's lists by path, n numbers each: {["span.1"] = {...}}
-- @param outputs {{quantity =, state =, mode =, index =}, ...} (see csrc/sweep/sweep.h)
-- @return a column of n numbers per output, nil in it where the review has none; the
--   column of faults, 0 where the joist could be worked
function lanes.work(m, packs, n, columns, outputs)
  local list, to = {}, {}
  for path, values in pairs(columns) do
    list[#list + 1] = {axis = 1, path = path, values = core.numbers(values)}
  end
  for i = 1, #outputs do to[i] = core.numbers(n) end
  local fault = core.faults(n)
  core.sweep {models = {core.packed(m)}, sizes = {n}, columns = list, outputs = outputs,
    to = to, fault = fault, count = n, rules = packs.rules.core,
    standard = packs.standard.core}
  return to, fault
end

return lanes
