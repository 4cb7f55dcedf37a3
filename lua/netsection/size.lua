-- SPDX-License-Identifier: MIT
-- The smallest repair that passes: a search over what can be bought, smallest first.
local checks = require "netsection.checks"
local fix = require "netsection.fix"
local joist = require "netsection.joist"
local model = require "netsection.model"
local parts = require "netsection.parts"
local review = require "netsection.review"
local error = require "netsection.raise".error

local size = {}

-- What the searches take besides the fields of their fix.
local SISTER, STRAP = {"sizes", "rules", "standard"}, {"most", "rules", "standard"}

local function passes(a)
  return a.status == "adequate"
end

-- The review of a repaired joist, and what keeps it from passing.
local function try(j, kind, t, packs)
  local r = j:fix(fix.new[kind](t)):review(packs)
  local a = r.fixed
  local why = a.refused or a.governing_check and ("%s of the %s at %s"):format(
    a.governing, a.governing_check.member, review.ratio_text(a.ratio))
  return r, passes(a), why
end

local function copy(t)
  local out = {}
  for name, value in pairs(t) do out[name] = value end
  return out
end

-- Refuses what neither the search nor the fix takes, at the caller's line.
local function only(what, t, kind, own)
  local names = table.move(own, 1, #own, 1, {})
  table.move(fix.fields(kind), 1, #fix.fields(kind), #names + 1, names)
  parts.only(what, t, names, 3)
end

local function split_off(t, names)
  local own = {}
  for _, name in ipairs(names) do
    own[name], t[name] = t[name], nil
  end
  return own
end

local function check(what, j, t)
  if not joist.is(j) then
    error(what .. ": a joist expected, got " .. type(j), 3)
  elseif type(t) ~= "table" then
    error(what .. ": a table of fields expected, got " .. type(t), 3)
  end
  local r = j:review()
  if not r.computed then return nil, r.reasons[1] end
  if #r.cuts == 0 then return nil, "the joist has no cut" end
  return r
end

-- What has to be bridged: from the first to the last place where the cut joist fails.
local function failing(r)
  local a, b
  for i, c in ipairs(r.cuts) do
    local bad = r.joist.model.cuts[i].kind == "sever"
    for _, k in ipairs(r.cut.checks) do
      bad = bad or k.cut == i and k.binding and k.ratio > review.full
    end
    if bad then a, b = math.min(a or c.x1, c.x1), math.max(b or c.x2, c.x2) end
  end
  return a, b
end

-- Fasteners to a group; to a row of a sister on both bearings, at these pitches, in.
local MOST = 20
local PITCHES, ROW = {16, 12, 8, 6}, 10

-- What of a joist that is cut through more fasteners to a group may mend: the forces of
-- its groups are statics. Of others the wood left is relieved by stiffer groups too.
local BY_COUNT = checks.having("by", "fasteners")

-- From the end of the sister, and of what fails, to its groups.
local function near_of(d)
  return math.ceil(math.max(3, d / 3))
end

-- A sister with two groups on each side of what fails, so far beyond it left and right.
local function lapped(t, a, b, left, right, n, d)
  local s = copy(t)
  s.from, s.to, s.bearing = a - left, b + right, false
  for _, name in ipairs {"pitch", "per_row", "end_distance", "hanger"} do
    s[name] = nil
  end
  local near = near_of(d)
  s.groups = {{at = a - left + near, n = n}, {at = a - near, n = n},
    {at = b + near, n = n}, {at = b + right - near, n = n}}
  return s
end

-- The fewest fasteners to a group with which a sister passes.
local function with_fewest(j, make, packs, severed)
  local r, ok, why
  for n = 2, MOST do
    local t = make(n)
    r, ok, why = try(j, "sister", t, packs)
    if ok then return r, t end
    if r.fixed.refused or severed and not BY_COUNT[r.fixed.governing] then break end
  end
  return nil, why
end

-- On both bearings: of all pitches and counts to a row the fewest fasteners, the widest
-- pitch among equals.
local function full_length(j, t, packs)
  local why, best, its, fewest
  for _, pitch in ipairs(t.pitch and {t.pitch} or PITCHES) do
    for n = t.per_row or 1, t.per_row or ROW do
      local s = copy(t)
      s.from, s.to, s.groups, s.bearing = nil, nil, nil, true
      s.pitch, s.per_row = pitch, n
      local r, ok, reason = try(j, "sister", s, packs)
      local count = #r.fixed.layout
      if ok and (not fewest or count < fewest) then
        best, its, fewest = r, s, count
      end
      why = why or reason
      if ok or r.fixed.refused and n > 1 then break end
    end
  end
  if best then return best, its end
  return nil, why
end

-- The shortest sister of one size: from 2d beyond what fails, in steps of half a foot, or
-- one on both bearings. Near a bearing only the other side grows.
local function shortest(j, r, t, d, packs)
  local L, a, b = model.total(j.model), failing(r)
  local step, severed = math.ceil(2 * d / 6) * 6, false
  for _, c in ipairs(j.model.cuts) do severed = severed or c.kind == "sever" end
  local by_slip = t.share == nil or t.share == "slip" or t.share == "new"
  for lap = step, a and by_slip and L or 0, 6 do
    local left, right = math.min(lap, a - 1), math.min(lap, L - b - 1)
    -- both groups of a side, one 'near' apart at least
    if math.min(left, right) < 3 * near_of(d) then break end
    if lap > step and left < lap and right < lap then break end
    local found, other = with_fewest(j, function(n)
      return lapped(t, a, b, left, right, n, d)
    end, packs, severed)
    if found then return found, other end
  end
  return full_length(j, t, packs)
end

-- The smallest sister that passes: the sizes in order, the shortest of each before a full
-- one on both bearings, the fewest fasteners.
-- @param t fields of ns.sister, and sizes = {"2x8", ...} (default the joist's), rules,
--   standard
-- @return the fix, the review of the repaired joist; or nil and a reason
function size.sister(j, t)
  if t ~= nil and type(t) ~= "table" then check("size_sister", j, t) end
  t = copy(t or {})
  local r, why = check("size_sister", j, t)
  if not r then return nil, why end
  only("size_sister", t, "sister", SISTER)
  local own = split_off(t, SISTER)
  local packs = {rules = own.rules, standard = own.standard}
  for _, name in ipairs(own.sizes or {t.size or false}) do
    if name then t.size = name end
    local found, s = shortest(j, r, t, j.model.d, packs)
    if found then return fix.new.sister(s), found end
    why = s
  end
  return nil, ("no sister passes: %s"):format(why or "nothing tried")
end

-- Straps in order of their steel: gauges of sheet, then plate.
local STEEL = {{gauge = 14}, {gauge = 12}, {gauge = 10}, {thickness = 3 / 16,
  steel = "A36"}, {thickness = 1 / 4, steel = "A36"}, {thickness = 3 / 8, steel = "A36"}}

-- The smallest strap that passes: the thinnest steel, then the fewest fasteners.
-- @param t fields of ns.strap, and most = 24 (fasteners on each side), rules, standard
-- @return the fix, the review of the repaired joist; or nil and a reason
function size.strap(j, t)
  if t ~= nil and type(t) ~= "table" then check("size_strap", j, t) end
  t = copy(t or {})
  local r, why = check("size_strap", j, t)
  if not r then return nil, why end
  only("size_strap", t, "strap", STRAP)
  local own = split_off(t, STRAP)
  local packs = {rules = own.rules, standard = own.standard}
  local most = own.most or 24
  for _, steel in ipairs((t.thickness or t.gauge) and {{}} or STEEL) do
    for n = 2, most, t.rows or 1 do
      local s = copy(t)
      for name, value in pairs(steel) do s[name] = s[name] or value end
      s.n = n
      local found, ok, reason = try(j, "strap", s, packs)
      if ok then return fix.new.strap(s), found end
      why = reason
      if found.fixed.refused or found.fixed.governing ~= "fasteners" then break end
    end
  end
  return nil, ("no strap passes: %s"):format(why or "nothing tried")
end

return size
