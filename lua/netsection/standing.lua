-- SPDX-License-Identifier: MIT
-- Which joists still stand. A joist is out if it is cut through, has nothing left at a
-- cut, has no seat or is said to be out; one that is merely overstressed carries still.
-- A repair puts it back, unless it leaves the joist out for good.
local lane = require "netsection.lane"
local review = require "netsection.review"

local standing = {}

-- A ratio from here on is that of a section that has no capacity at all.
local NONE = 1e9

-- Repairs after which the joist itself carries nothing over its span any more.
function standing.gone(joist)
  local f = joist.repair
  return f ~= nil and (f.kind == "header" or f.write_off == true)
end

-- Why a joist as it is carries nothing; nil where it stands.
-- @param r its review
function standing.out(joist, r)
  if joist.description.out == true then return "is marked out" end
  if not r.computed then return nil end
  for _, k in ipairs(r.cut.checks) do
    if lane.yes(k.binding) and k.cut and k.ratio and k.ratio >= NONE then
      return ("has nothing left at %s"):format(k.name)
    end
  end
  if r.cut.ratio == nil then
    for i, c in ipairs(r.cuts) do
      if joist.model.cuts[i].kind == "sever" then
        return ("is cut through (%s)"):format(c.name)
      end
    end
    return "carries nothing as it is"
  end
  if type(r.out) == "string" then return "is out: " .. r.out end
end

--- The review of a joist as it is; where many are worked, made once in the course of one
-- repair.
function standing.as_it_is(joist, options)
  local made = lane.working and lane.working.reviews
  if not made then return review.of(joist, options) end
  made[joist] = made[joist] or review.of(joist, options)
  return made[joist]
end

-- Whether a joist has nothing that could put it out: no cut, a seat at each bearing.
local function whole(joist)
  local m = joist.model
  if #m.cuts > 0 or joist.description.out == true then return false end
  for _, b in ipairs(m.bearing) do
    if not lane.yes(lane.less(1e-9, b)) then return false end
  end
  return true
end

-- Why a joist does not stand after the work: out as it is and not repaired, or taken out
-- by its own repair.
-- @param options of the review
function standing.not_after(joist, options)
  if standing.gone(joist) then return "is taken out by its own repair" end
  if whole(joist) then return nil end
  local r = standing.as_it_is(joist, options)
  local why = standing.out(joist, r)
  if why and joist.repair then
    local fixed = joist:review(options).fixed
    if not fixed.refused then return nil end
    return ("%s, and its own repair is inadequate (%s)"):format(why, fixed.refused)
  end
  return why
end

-- The first cut for which a joist has to be repaired before it takes more load: one that
-- is not permitted, or one that fails; nil where there is none.
function standing.unfit(r)
  for _, c in ipairs(r.cuts) do
    if c.status == "not permitted" then return c.name .. " is not permitted" end
  end
  for _, k in ipairs(r.cut.checks) do
    if k.cut and lane.yes(k.binding) and k.ratio and k.ratio > review.full then
      return ("%s fails as it is: %s at %s"):format(k.name, k.mode,
        review.ratio_text(k.ratio))
    end
  end
end

return standing
