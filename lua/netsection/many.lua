-- SPDX-License-Identifier: MIT
-- A review of many joists at once, as a repair asks for it: the cut state, its checks and
-- the cuts, in which what differs from joist to joist is a column (see lane.lua). No
-- words, no rules, no action: those are the sweep's own.
local core = require "netsection.core"
local label = require "netsection.label"
local lane = require "netsection.lane"
local error = require "netsection.raise".error

local many = {}

-- The core's numbers. Raises the column of those that are wrong where not all are.
-- @return nothing of the joists and 'faults' where all are
local function kept(m, rules, standard, faults)
  local columns = lane.columns(m)
  local s, fault = core.kept {model = core.packed(lane.first(m)), columns = columns,
    count = #columns[1].values, rules = rules.core, standard = standard.core,
    checks = lane.working.checks}
  if s then return s end
  lane.same(core.larger(fault, 0))
  if faults then return nil, fault end
  error("many: joists that are wrong", 0)
end

-- What is told by number in Lua is one for all, or they are parted.
local WHOLE = {"accepted", "middle_third", "gate", "merged", "near"}

local function cut_list(s, m)
  for i, c in ipairs(s.cuts) do
    local cut = m.cuts[i]
    for _, name in ipairs(WHOLE) do c[name] = lane.same(c[name]) end
    c.name, c.kind = cut.name, cut.lost and "lost_bearing" or cut.kind
    c.merged = c.merged > 0 and math.tointeger(c.merged) or nil
    c.near = c.near > 0 and math.tointeger(c.near) or nil
    c.middle_third = c.middle_third == 1
    c.status = c.gate > 0 and c.gate < 7 and c.accepted == 0 and "not permitted" or nil
  end
  return s.cuts
end

local function out_of(s, m)
  for i, c in ipairs(s.cuts) do
    if c.gate == 6 then
      return m.cuts[i].kind == "sever" and "cut through" or c.name .. ": nothing is left"
    end
  end
  for _, left in ipairs(s.seat) do
    if left == 0 then return "no sound seat" end
  end
end

--- A state, as review.assessment gives it.
-- @param s the core's numbers; @param severed cut through or without a seat
function many.assessment(s, m, severed)
  local a = {checks = s.checks, moment = s.moment, moment_at = s.moment_at,
    shear = s.shear, shear_at = s.shear_at, Cr = s.Cr, reactions = {},
    reaction_range = s.reactions, deflection = {live = s.live, total = s.total},
    ratio = s.ratio, many = true, governing_at = s.governing_at}
  for i, R in ipairs(s.reactions) do a.reactions[i] = R.most end
  for _, k in ipairs(s.checks) do
    if k.cut then k.name = m.cuts[k.cut].name end
  end
  if lane.same(s.not_permitted) == 1 then a.status = "not permitted" end
  if severed then a.ratio, a.deflection, a.stopped = nil, nil, "cut through" end
  return setmetatable(a, label.state)
end

--- Adds to a review what the core has of its joists.
-- @param r with joist and words; @param m model in which a number is a column
function many.review(r, m, rules, standard)
  local s, fault = kept(m, rules, standard, true)
  r.many = true
  if not s then
    r.reasons[1], r.fault = lane.mark, fault
    return r
  end
  r.computed, r.packs = true, {rules = rules.core, standard = standard.core}
  for j, left in ipairs(s.seat) do
    if lane.same(lane.less(0, left)) == 0 then s.seat[j] = 0 end
  end
  r.cuts, r.seat = cut_list(s, m), s.seat
  local severed = lane.same(s.no_seat) == 1
  for _, c in ipairs(r.cuts) do severed = severed or c.gate == 6 end
  r.cut = many.assessment(s.cut, m, severed)
  r.out = out_of(s, m)
  return r
end

--- The total deflection of such joists without their cuts, whose review has no numbers of
-- that state.
function many.total_uncut(r, rules, standard)
  local m = r.joist.model
  local columns, model = lane.columns(m), core.packed(lane.first(m))
  local n = #columns[1].values
  for _, c in ipairs(columns) do c.axis = 1 end
  local to = core.numbers(n)
  core.sweep {models = {model}, sizes = {n}, columns = columns, count = n, to = {to},
    outputs = {{quantity = "deflection.total", state = "uncut"}}, fault = core.faults(n),
    rules = rules.core, standard = standard.core}
  return core.lanes(to, 0, n, 1)
end

--- The core's numbers of joists with a member beside them or a strap: what stands for
-- their records, summary.
function many.raw(m, rules, standard)
  return many, (kept(m, rules, standard))
end

--- A check of a connection by itself, of one joist or of many.
-- @return what its steps are read from (nil: many), the check
function many.joint(t)
  for name, value in pairs(t) do
    if name ~= "at" and lane.is(value) then return nil, core.joints(t) end
  end
  if not lane.is(t.at) then return core.joint(t) end
  local one = {}
  for name, value in pairs(t) do one[name] = value end
  one.at = nil
  local _, k = core.joint(one)
  k.at = t.at
  return nil, k
end

return many
