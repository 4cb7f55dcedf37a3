-- SPDX-License-Identifier: MIT
-- Reviews that wait for each other. The core works sixteen joists of one topology at the
-- price of one; when many reviews are asked for, each runs until it needs the core, and
-- sixteen such requests are worked together. A review alone goes straight through.
local core = require "netsection.core"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local batch = {}

local LANES, IN_FLIGHT = 16, 64
-- Coroutines of a run, which may be made to wait.
local waiting = setmetatable({}, {__mode = "k"})

-- The core's review of a model: records and summary, or nil and what is wrong.
function batch.review(m, rules, standard)
  if not waiting[coroutine.running()] then
    return core.review(m, rules.core, standard.core)
  end
  local answer = coroutine.yield {model = m, rules = rules.core, standard = standard.core}
  return answer[1], answer[2]
end

-- Requests of one topology and one pair of packs; the fullest group is worked first.
local function fullest(groups, order)
  local best
  for _, key in ipairs(order) do
    local group = groups[key]
    if group and #group > 0 and (not best or #group > #groups[best]) then best = key end
  end
  return best
end

local function work(group)
  local packed, jobs = {}, {}
  for i = 1, math.min(#group, LANES) do
    jobs[i] = table.remove(group, 1)
    packed[i] = jobs[i].packed
  end
  return jobs, core.reviews(packed, jobs[1].request.rules, jobs[1].request.standard)
end

-- Calls work_on(i) for i from 1 to n, in whatever order suits the core.
function batch.each(n, work_on)
  local groups, order, running, next_one = {}, {}, 0, 1
  local function go_on(thread, ...)
    local ok, request = coroutine.resume(thread, ...)
    if not ok then error(request, 0) end
    if coroutine.status(thread) == "dead" then
      running = running - 1
      return
    end
    local packed = core.packed(request.model)
    local key = core.topology(packed) .. tostring(request.rules)
      .. tostring(request.standard)
    if not groups[key] then
      groups[key] = {}
      order[#order + 1] = key
    end
    table.insert(groups[key], {thread = thread, request = request, packed = packed})
  end
  repeat
    while running < IN_FLIGHT and next_one <= n do
      local thread = coroutine.create(work_on)
      waiting[thread] = true
      running, next_one = running + 1, next_one + 1
      go_on(thread, next_one - 1)
    end
    local key = fullest(groups, order)
    if key then
      local jobs, answers = work(groups[key])
      for i, job in ipairs(jobs) do go_on(job.thread, answers[i]) end
    end
  until running == 0 and next_one > n
end

return batch
