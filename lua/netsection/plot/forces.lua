-- SPDX-License-Identifier: MIT
-- The numbers of a diagram of moment or shear, in the units shown, and words about them.

local units = require "netsection.units"
local words = require "netsection.plot.words"
local tostring = require "netsection.point".text

local forces = {}

local KINDS = {
  moment = {
    name = "moment", heading = "Bending moment",
    full = "M", low = "M_min", high = "M_max", cap = "M_cap", cap_low = "M_cap_neg",
    of = "moment", letter = "M", sign = "sagging up",
  },
  shear = {
    name = "shear", heading = "Shear", both_signs = true,
    full = "V", low = "V_min", high = "V_max", cap = "V_cap", cap_low = "V_cap",
    of = "force", letter = "V", sign = "forces to the left, up +",
  },
}

--- Moment or shear in a system of units: what a diagram is drawn in.
function forces.kind(name, show)
  local kind = {show = show, scale = show.scaled(KINDS[name].of, 1),
    unit = show.unit[KINDS[name].of], digits = show.tape and 2 or 5}
  for field, value in pairs(KINDS[name]) do kind[field] = value end
  return kind
end

-- Shares of the greatest demand that do not count as hogging: of the joist as it is, and
-- of a repaired one, whose stubs beside a gap hang over their last fasteners a little.
local NONE, STUB = 0.005, 0.02

-- Three digits at least, and the trade writes no thousandths of a pound.
function forces.shown(v)
  if math.abs(v) >= 100 or v == 0 then return units.fixed(v, 0) end
  return units.significant(v, 3)
end

--- A place on the axis along the joist, in feet or meters.
function forces.along(x, show)
  return units.fixed(x / show.sums.length, 5)
end

-- Records in the units shown: hogging capacity as a negative number.
local function scaled(points, kind)
  local list = {}
  for i, p in ipairs(points) do
    list[i] = {
      x = p.x, full = p[kind.full] * kind.scale, low = p[kind.low] * kind.scale,
      high = p[kind.high] * kind.scale, cap = p[kind.cap] * kind.scale,
      cap_low = -p[kind.cap_low] * kind.scale, apart = p.apart,
    }
  end
  return list
end

local function extremes(points, low, high)
  local least, greatest = points[1], points[1]
  for _, p in ipairs(points) do
    if p[low] < least[low] then least = p end
    if p[high] > greatest[high] then greatest = p end
  end
  return least, greatest
end

local function between(a, b, x, field)
  if b.x == a.x then return b[field] end
  return a[field] + (b[field] - a[field]) * (x - a.x) / (b.x - a.x)
end

local function worse_share(demand, capacity)
  if demand <= 0 then return 0 end
  return capacity > 0 and demand / capacity or math.huge
end

-- The demand at `x` that uses most of its capacity: either side of a step, either sign.
local function worst_at(points, x)
  local most, y = -1, 0
  for i = 2, #points do
    local a, b = points[i - 1], points[i]
    if a.x <= x and x <= b.x and not b.apart then
      local high, low = between(a, b, x, "high"), between(a, b, x, "low")
      local up = worse_share(high, between(a, b, x, "cap"))
      local down = worse_share(-low, -between(a, b, x, "cap_low"))
      if up > most then most, y = up, high end
      if down > most then most, y = down, low end
    end
  end
  return y, most >= 0 and most or nil
end

-- Capacity of smallest size over a cut. Only what lies between its edges counts: at an
-- edge the list also holds the neighbor's value.
function forces.least_over(points, cut, field)
  local least
  local function include(v)
    if not least or math.abs(v) < math.abs(least) then least = v end
  end
  for i = 2, #points do
    local a, b = points[i - 1], points[i]
    if a.x < cut.x2 and b.x > cut.x1 and b.x > a.x and not b.apart then
      include(between(a, b, math.max(a.x, cut.x1), field))
      include(between(a, b, math.min(b.x, cut.x2), field))
    end
  end
  for _, p in ipairs(points) do
    if cut.x1 == cut.x2 and p.x == cut.x1 then include(p[field]) end
  end
  return least or 0
end

-- A demand that equals its capacity but for the last bits is not above it.
local function exceeded(points, hogging)
  for _, p in ipairs(points) do
    local slack = 1e-9 * (p.high - p.low)
    if p.high > p.cap + slack or hogging and p.low < p.cap_low - slack then
      return true
    end
  end
  return false
end

-- The cuts change the forces only where the joist is not statically determinate.
local function differ(a, b)
  local a_low, a_high = extremes(a, "full", "full")
  local b_low, b_high = extremes(b, "full", "full")
  local size = math.max(a_high.full, -a_low.full)
  return math.max(math.abs(a_high.full - b_high.full), math.abs(a_low.full - b_low.full))
    > NONE * size
end

local function has_hogging(points, kind, none)
  local least, greatest = extremes(points, "low", "high")
  return kind.both_signs or -least.low > none * greatest.high
end

local function panel(points, kind, given, none)
  local hogging = has_hogging(points, kind, none)
  return {
    kind = kind, given = given, cut = points, governing = given.governing,
    hogging = hogging, exceeded = exceeded(points, hogging), peaks = given.peaks,
    start = given.start, finish = given.finish, supports = given.supports,
  }
end

-- The repetitive factor of the uncut joist, where a state has a smaller one: it is part
-- of the capacity in bending alone.
local function lost_factor(given, Cr, kind)
  local whole = given.Cr and given.Cr.uncut
  return kind.name == "moment" and whole and Cr and Cr < whole - 1e-9 and whole or nil
end

-- A joist that is cut through carries no moment; its points hold what the whole joist
-- would have to carry, against a capacity of zero.
function forces.read(given, kind)
  local diagram = panel(scaled(given.cut, kind), kind, given, NONE)
  diagram.uncut = scaled(given.uncut, kind)
  diagram.moved = differ(diagram.uncut, diagram.cut)
  diagram.lost = lost_factor(given, given.Cr and given.Cr.cut, kind)
  return diagram
end

-- Where a check names its member: as the list of members does, or the joist as host.
local function is_of(governing, member, i)
  local name = governing and governing.member
  return name ~= nil and (name == member.name or name == member.member)
    or i == 1 and (name == nil or name == "host")
end

local FAR = 6     -- times the demand: such a capacity would leave no room for the demand

-- The least capacity of a new member, if it is so far above the demand.
local function far_above(points)
  local demand, least = 0, math.huge
  for _, p in ipairs(points) do
    demand = math.max(demand, p.high, -p.low, math.abs(p.full))
    least = math.min(least, p.cap, -p.cap_low)
  end
  return demand > 0 and least > FAR * demand and least or nil
end

-- One diagram for each member of the repaired state. `before` is the joist as it is.
function forces.repaired(given, kind, before)
  local fixed, list = given.fixed, {}
  for i, member in ipairs(fixed.members) do
    local diagram = panel(scaled(member.points, kind), kind, given, STUB)
    diagram.name, diagram.peaks = member.name, fixed.peaks
    diagram.governing = is_of(fixed.governing, member, i) and fixed.governing or nil
    diagram.lost = i == 1 and lost_factor(given, fixed.Cr, kind) or nil
    diagram.supports = member.supports or i == 1 and (fixed.supports or given.supports)
      or {}
    diagram.before = i == 1 and before.cut or nil
    diagram.beyond = i > 1 and far_above(diagram.cut) or nil
    list[i] = diagram
  end
  return list
end

function forces.span(diagram)
  return diagram.finish - diagram.start
end

---------------------------------------------------------------------------
-- Data
---------------------------------------------------------------------------

function forces.block(name, points, kind)
  local list, n = {"$" .. name .. " << EOD"}, kind.digits
  for _, p in ipairs(points) do
    if p.apart then list[#list + 1] = "" end
    list[#list + 1] = table.concat({forces.along(p.x, kind.show),
      units.fixed(p.full, n), units.fixed(p.low, n), units.fixed(p.high, n),
      units.fixed(p.cap, n), units.fixed(p.cap_low, n)}, " ")
  end
  list[#list + 1] = "EOD"
  return words.lines(list)
end

-- The diagram on which a check can be read: what is worked out from V, or from M. The
-- wood at a row of fasteners has its own depth, which no capacity here shows.
local OF_V = {"shear", "^bearing$", "^uplift$"}
local OF_M = {"bending", "^lip%-", "^opening%-frame$", "^stability$", "^steel$",
  "^wood%-compression$"}

local function one_of(mode, list)
  for _, pattern in ipairs(list) do
    if mode:find(pattern) then return true end
  end
  return false
end

local function name_of_kind(mode)
  mode = tostring(mode)
  if mode == "connection-shear" then return nil end
  return one_of(mode, OF_V) and "shear" or one_of(mode, OF_M) and "moment" or nil
end

--- What governs, if it has a place here. Where both kinds stand on a sheet it is marked
-- on the one that it is of, else on that of moment.
function forces.ring(diagram)
  local g = diagram.governing
  if not g or not g.x or g.mode == "neighbour" then return nil end
  local own = name_of_kind(g.mode)
  if diagram.both and (own or "moment") ~= diagram.kind.name then return nil end
  return g
end

local AS_DRAWN = 0.02     -- how far a ratio may be from the one that the lines show

--- The mark of what governs: on the curve if the diagram is of its kind, else on the line
-- of zero; with its ratio, and its name where the lines show another ratio.
-- @return {x, y, text}, or nil
function forces.mark(diagram)
  local g = forces.ring(diagram)
  if not g then return nil end
  local own = name_of_kind(g.mode) == diagram.kind.name
  local y, share = 0, nil
  if own then y, share = worst_at(diagram.cut, g.x) end
  local ratio = g.ratio and g.ratio < 1e6 and units.fixed(g.ratio, 2) or "no capacity"
  local shown = own and g.ratio and share
    and math.abs(share - g.ratio) <= AS_DRAWN * g.ratio
  return {x = g.x, y = y, text = shown and ratio
    or ratio .. " " .. words.of(g.printed or g.mode, 24)}
end

--- gnuplot wants the block even where nothing is drawn from it.
function forces.ring_block(diagram)
  local mark = forces.mark(diagram)
  local point = "0 0"
  if mark then
    point = forces.along(mark.x, diagram.kind.show) .. " "
      .. units.fixed(mark.y, diagram.kind.digits)
  end
  return words.lines {"$ring << EOD", point, "EOD"}
end

---------------------------------------------------------------------------
-- Words
---------------------------------------------------------------------------

-- " (up to 1580 ft-lb at 6'-9")", or the range where there are both signs. Nothing unless
-- the review says that its points hold the peaks: between points the curve is higher.
function forces.reading(diagram, low, high)
  if not diagram.peaks then return "" end
  local least, greatest = extremes(diagram.cut, low, high)
  local unit = diagram.kind.unit
  if diagram.hogging then
    return (" (%s to %s %s)"):format(forces.shown(least[low]),
      forces.shown(greatest[high]), unit)
  end
  return (" (up to %s %s at %s)"):format(forces.shown(greatest[high]), unit,
    diagram.kind.show.place(greatest.x))
end

-- Nothing is left to divide by where a joist is cut through.
local function ratio_words(ratio)
  if not ratio or ratio ~= ratio or ratio == math.huge then return "no capacity" end
  return "ratio " .. units.fixed(ratio, 2)
end

-- What a check is of, for people: a cut, a piece, a joist beside this one.
local MEMBER = {host = "existing joist"}

local function of_words(g, repaired)
  local name = words.of(g.name, 30)
  local member = MEMBER[g.member] or words.of(g.member, 30)
  if g.mode == "neighbour" then
    return "the " .. (member ~= "" and member or "joist beside it")
      .. (name ~= "" and " " .. name or "")
  end
  local mode = words.of(g.printed or g.mode, 24):gsub("^host%-", "")
  if not g.printed and g.mode ~= mode then member = MEMBER.host end
  if name == member then name = "" end
  local at = name ~= "" and ", " .. name or ""
  return mode .. (member ~= "" and repaired and " of the " .. member or "") .. at
end

--- @param repaired the check is one of several members: say which
function forces.governing_words(governing, show, repaired)
  local place = governing.x and " at " .. show.place(governing.x) or ""
  return of_words(governing, repaired) .. ", " .. ratio_words(governing.ratio) .. place
end

return forces
