-- SPDX-License-Identifier: MIT
-- The wood itself: scatter of bending strength and of load, never mixed with what was
-- measured or assumed about the joist. The only use of these numbers is beside one
-- another: how often the drawn bending stress exceeds the drawn strength with the cut,
-- without it, repaired.
--
-- Laws of loads and strength, with their sources, by the standard in force: scatter.lua
-- of its folder.
local core = require "netsection.core"
local interval = require "netsection.odds.interval"
local roof_loads = require "netsection.roof_loads"

local wood = {}

local Z95 = 1.6448536269514722
local STATES = {uncut = {"bending"}, cut = {"bending", "net-bending"},
  fixed = {"bending", "net-bending", "host-bending"}}

-- Draws of dead load, live load and the normal number behind the strength.
local function drawn(o, m, scatter)
  local dead, live = scatter.dead.mean * m.dead, scatter.live.mean * m.live
  local laws, to = {{of = "normal", a = dead, b = scatter.dead.cov * dead},
    {of = "gumbel", a = live, b = scatter.live.cov}, {of = "normal", a = 0, b = 1}}, {}
  if m.dead == 0 then laws[1] = {of = "fixed", a = 0} end
  if m.live == 0 then laws[2] = {of = "fixed", a = 0} end
  for k = 1, #laws do to[k] = core.numbers(o.each * o.replicates) end
  core.draw {how = o.method, seed = o.seed, each = o.each, replicates = o.replicates,
    first = 0, variable = 0, laws = laws, to = to, threads = o.threads}
  return to
end

-- Worst bending ratio of each draw: M / (S F'b), CD = 1 (D + L), Cr = 1.
local function ratios_of(o, packed, state, to, n)
  local outputs = {}
  for i, mode in ipairs(STATES[state]) do
    outputs[i] = {quantity = "check", state = state, mode = mode}
  end
  local ones = core.numbers(n)
  core.fill(ones, 0, n, 1)
  local columns = o.model:sweep({packed}, {{axis = 0, path = "dead", values = to[1]},
    {axis = 0, path = "live", values = to[2]},
    {axis = 0, path = "repetitive", values = ones}}, n, outputs)
  local worst = {}
  for i = 1, n do
    for k = 1, #outputs do
      local ratio = columns[k][i]
      if ratio and ratio > (worst[i] or 0) then worst[i] = ratio end
    end
  end
  return worst
end

-- Strength over F'b: median times exp(s z), s^2 = ln(1 + COV^2), by its 5th percentile.
local function strengths(z, n, cov, law)
  local s = math.sqrt(core.log(1 + cov * cov))
  local median, list = law.fifth * core.exp(Z95 * s), {}
  for i = 1, n do list[i] = median * core.exp(s * z[i]) / law.duration end
  return list
end

local function share(o, worst, strength)
  local hits = {}
  for r = 1, o.replicates do
    hits[r] = 0
    for i = (r - 1) * o.each + 1, r * o.each do
      if (worst[i] or math.huge) > strength[i] then hits[r] = hits[r] + 1 end
    end
  end
  return interval.share(hits, o.each)
end

-- @param scatter of the standard in force
-- @return {{cov =, uncut = share, cut =, fixed =}, ...}; nil and why there is none
function wood.of(o, joist, scatter)
  if #joist.model.cuts == 0 and not joist.repair then
    return nil, "a comparison: asked of a joist with a cut or a repair"
  end
  if o.model.chained then
    return nil, "a comparison: not known of a repair that is made of joists of its own"
  end
  local other = roof_loads.refusal(joist.model, "the scatter of the wood")
  if other then return nil, other end
  local packed, why = o.model:as_entered()
  if not packed then return nil, why end
  local n = o.each * o.replicates
  local to, out, worst = drawn(o, joist.model, scatter), {}, {}
  for _, state in ipairs {"uncut", "cut", "fixed"} do
    local has = state == "uncut" or state == "cut" and #joist.model.cuts > 0
      or state == "fixed" and joist.repair
    if has then worst[state] = ratios_of(o, packed, state, to, n) end
  end
  for i, cov in ipairs(scatter.strength.covs) do
    local strength = strengths(to[3], n, cov, scatter.strength)
    out[i] = {cov = cov}
    for state, list in pairs(worst) do out[i][state] = share(o, list, strength) end
  end
  return out
end

return wood
