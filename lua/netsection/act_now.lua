-- SPDX-License-Identifier: MIT
-- What must be shored or kept clear today, at the head of every report. The thresholds
-- are ours and are printed with it.
local neighbors = require "netsection.neighbors"
local point = require "netsection.point"
local review = require "netsection.review"

local act_now = {title = "Act now: shore, and keep clear"}

local BASIS = "Listed here: joists that are out; joists above 1 until a joist beside "
  .. "them is repaired; dead load alone above 1; %s above 2; a bearing that lifts "
  .. "under dead load. These thresholds are judgments of this module, not of a code."

-- What is listed, in words. @param reviews all of one format
function act_now.basis(reviews)
  return BASIS:format(reviews[1] and reviews[1].factored and "factored loads" or "D + L")
end

-- D + L past which a joist is not left to stand loaded.
local FAR_OVER = 2

-- The ratio under dead load alone, by the same core; nil where it is not computed.
local function dead_ratio(r)
  if not r.cut.ratio or r.cut.ratio <= review.full then return nil end
  local loads = {}
  for _, p in ipairs(r.joist.model.points) do
    if p.case == "dead" then
      loads[#loads + 1] = {kind = "point", at = p.at, load = p.P, case = "dead"}
    end
  end
  for _, l in ipairs(r.joist.model.lines) do
    if l.case == "dead" then
      loads[#loads + 1] = {kind = l.area and "area" or "line", case = "dead",
        load = l.area and point.exact(l.w1) .. " psf" or point.exact(l.w1) .. " plf",
        to_load = not l.area and point.exact(l.w2) .. " plf" or nil,
        width = l.area and l.width > 0 and l.width or nil,
        from = not l.whole and l.from or nil, to = not l.whole and l.to or nil}
    end
  end
  local alone = r.joist:changed {live = 0, roof_live = 0, snow = 0, loads = loads}
  local found = alone and review.of(alone, r.options or {})
  return found and found.computed and found.cut.ratio
end

local function has_tub(r)
  for _, load in ipairs(r.joist.description.loads or {}) do
    if load.kind == "tub" then return true end
  end
end

local function first_gap(r)
  for _, c in ipairs(r.cuts or {}) do
    if c.kind == "sever" then return " at " .. r.show.place((c.x1 + c.x2) / 2) end
  end
  return ""
end

local function lost_end(r)
  for _, c in ipairs(r.joist.model.cuts) do
    if c.lost then return true end
  end
end

local function says_of(r)
  local list, why = {}, neighbors.out(r)
  if why then
    list[1] = ("%s%s: shore it %s and keep the floor over it clear"):format(why,
      first_gap(r), lost_end(r) and "beyond the lost end" or "on both sides")
    if has_tub(r) then list[2] = "a tub stands on it: empty it and keep out" end
  end
  local u = r.until_repaired
  if u and (not u.ratio or u.ratio > review.full) then
    list[#list + 1] = ("%s until %s %s repaired: shore"):format(u.ratio
      and review.ratio_text(u.ratio) or "not computed", table.concat(u.because, ", "),
      #u.because > 1 and "are" or "is")
  end
  if why or not r.computed then return list end
  local dead = dead_ratio(r)
  if dead and dead > review.full then
    list[#list + 1] = ("dead load alone %s: shore"):format(review.ratio_text(dead))
  end
  if r.cut.ratio and r.cut.ratio > FAR_OVER then
    list[#list + 1] = ("%s %s (%s): shore, keep loads off"):format(
      r.factored and "factored loads" or "D + L",
      review.ratio_text(r.cut.ratio), r.cut.governing)
  end
  for i, R in ipairs(r.cut.reaction_range or {}) do
    if R.dead < -1e-6 then
      list[#list + 1] = ("bearing %d lifts under dead load, %s: hold it down"):format(
        i, r.show.force(-R.dead, 0))
    end
  end
  return list
end

-- @param reviews in their order
-- @return lines "J2: cut through at ...: shore ...", none where nothing presses
function act_now.of(reviews)
  local out = {}
  for _, r in ipairs(reviews) do
    local said = says_of(r)
    if #said > 0 then out[#out + 1] = r.mark .. ": " .. table.concat(said, "; ") end
  end
  return out
end

-- Adds the block to a document's head, if there is anything in it.
function act_now.add(d, reviews)
  local list = act_now.of(reviews)
  if #list == 0 then return end
  d:heading(2, act_now.title)
  d:list(list)
  d:note(act_now.basis(reviews), "caution")
end

return act_now
