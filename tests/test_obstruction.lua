-- SPDX-License-Identifier: MIT
-- Obstructions as they are read and placed, and whether a piece meets them: against hand
-- values (plane geometry of circles and rectangles) and against sampling of points.
local lu = require "luaunit"
local ns = require "netsection"
local clash = require "netsection.clash"
local support = require "tests.support"

local close_abs, raises = support.close_abs, support.raises
local DFL, floor_of = support.DFL, support.floor_among
local T = {}

local function box(x1, x2, h1, h2, y1, y2)
  return {x1 = x1, x2 = x2, h1 = h1, h2 = h2, y1 = y1, y2 = y2}
end

---------------------------------------------------------------------- placing, by hand

local function only(t, changes)
  return floor_of({t}, changes).obstructions[1]
end

local function assert_shape(thing, x1, x2, h1, h2, y1, y2)
  local s = thing.shape
  local expected = {x1 = x1, x2 = x2, h1 = h1, h2 = h2, y1 = y1, y2 = y2}
  for name, value in pairs(expected) do
    close_abs(s[name], value, 1e-9, thing.what .. " " .. name)
  end
end

-- Joists stand at 0, 16, 32 ... in; heights count from their tops, 9.25 in up.
function T.test_placed_by_hand()
  assert_shape(only {what = "duct", kind = "duct", bay = {"J2", "J3"}, from = "2-0",
    to = "4-0", bottom = 1, top = 7}, 24, 48, -8.25, -2.25, 16.75, 31.25)
  assert_shape(only {what = "pipe", kind = "pipe", joist = "J2", side = "right",
    from = 24, to = 48, height = 3, diameter = 2}, 24, 48, -7.25, -5.25, 16.75, 18.75)
  assert_shape(only {what = "pipe", kind = "pipe", joist = "J2", from = 24, to = 48,
    bottom = -2, diameter = 2, y = -3}, 24, 48, -11.25, -9.25, 12, 14)
  assert_shape(only {what = "wires", kind = "wire", joist = "J2", side = "left",
    from = 24, to = 48, bottom = 2, top = 3}, 24, 48, -7.25, -6.25, 14.25, 15.25)
  assert_shape(only {what = "chase", kind = "duct", joist = "J2", y1 = 1, y2 = 3,
    from = 24, to = 48, bottom = 2, top = 3}, 24, 48, -7.25, -6.25, 17, 19)
  assert_shape(only {what = "pipe", kind = "pipe", joist = "J2", at = 30, height = 4,
    diameter = 1}, 29.5, 30.5, -5.75, -4.75, 8, 24)
  assert_shape(only {what = "pipe", kind = "pipe", joists = {"J3", "J2"}, at = 30,
    top = 0, diameter = 2, y1 = -4, y2 = 5}, 29, 31, -11.25, -9.25, 12, 37)
  assert_shape(only {what = "trap", kind = "drain", joist = "J2", at = 30, height = 4,
    y = 3, diameter = 2}, 29, 31, -6.25, -4.25, 18, 20)
end

-- Span 162 in: 2-0 to 4-0 from the right is 114 to 138 from the left.
function T.test_from_the_right()
  assert_shape(only {what = "duct", kind = "duct", bay = {"J2", "J3"}, from = "2-0",
    to = "4-0", from_right = true, bottom = 1, top = 7}, 114, 138, -8.25, -2.25, 16.75,
    31.25)
end

-- Distances to both neighbours, as measured in an old floor: J2 at 17, J3 at 36 in.
function T.test_measured_spacings()
  local floor = ns.floor {size = "2x10", material = DFL, span = "13-6", dead = 12,
    live = 40, joists = {{mark = "J1", spacing = 17}, {mark = "J2", spacing = {17, 19}},
    {mark = "J3", spacing = 19, plies = 2}},
    obstructions = {{what = "duct", kind = "duct", bay = {"J2", "J3"}, from = 1, to = 9,
      bottom = 0, top = 6}}}
  assert_shape(floor.obstructions[1], 1, 9, -9.25, -3.25, 17.75, 34.5)
end

-- Classes as listed in the brief: 1 unclip a wire ... 6 open a finish.
function T.test_default_classes()
  local function class(kind, movable)
    return only({what = "x", kind = kind, movable = movable, bay = {"J1", "J2"}, at = 9})
      .class
  end
  lu.assertEquals({class("wire", "easy"), class("wire", "trade"), class("cable", "easy"),
    class("pipe"), class("drain"), class("vent", "trade"), class("duct"),
    class(nil, "easy"), class(nil, "trade")}, {1, 2, 1, 3, 4, 4, 5, 1, 3})
  lu.assertEquals(only({what = "ceiling", kind = "finish", side = "below"}).class, 6)
end

--------------------------------------------------------------------- meeting, by hand

local function upright(x, y, r)
  return {shape = {axis = "h", x1 = x - r, x2 = x + r, y1 = y - r, y2 = y + r, h1 = -50,
    h2 = 50}}
end

-- The corner of the box is 1 in off the centre both ways: sqrt 2 < 1.75, so they meet,
-- and clear once the box shifts sqrt(1.75^2 - 1) - 1 = 0.4361 in. With 1.25 in both ways
-- 1.7678 > 1.75: apart, though the square about the circle would overlap.
function T.test_round_corner()
  local met = clash.meets(upright(0, 0, 1.75), box(1, 9, 0, 9, 1, 9))
  close_abs(met.by, math.sqrt(1.75 ^ 2 - 1) - 1, 1e-12)
  lu.assertEquals(met.direction, "across")
  lu.assertNil(clash.meets(upright(0, 0, 1.75), box(1.25, 9, 0, 9, 1.25, 9)))
end

-- Touching, or less than 1/16 in into each other, is no clash.
function T.test_touching()
  local function meets(y1)
    return clash.meets(upright(0, 0, 1.75), box(-9, 9, 0, 9, y1, 9))
  end
  lu.assertNil(meets(1.75))
  lu.assertNil(meets(1.70))
  close_abs(meets(1.68).by, 0.07, 1e-12)
  local flat = {shape = {x1 = 0, x2 = 9, h1 = 0, h2 = 2, y1 = 0, y2 = 2}}
  lu.assertNil(clash.meets(flat, box(0, 9, 2, 4, 0, 2)))
  lu.assertNil(clash.meets(flat, box(0, 9, 1.95, 4, 0, 2)))
  close_abs(clash.meets(flat, box(0, 9, 1.9, 4, 0, 2)).by, 0.1, 1e-12)
end

-- A thin plate in the middle of a duct is thinner than a sliver and still in its way.
function T.test_thin_plate()
  local duct = {shape = {x1 = 0, x2 = 90, h1 = 0, h2 = 8, y1 = 0, y2 = 14}}
  close_abs(clash.meets(duct, box(0, 90, 2, 6, 3, 3.036)).by, 3.036, 1e-12)
end

-- A wire thinner than a sliver in the middle of a piece: its near side has to come 1 in
-- and a half thickness out.
function T.test_thin_wire()
  local wire = upright(0, 0, 0.05)
  close_abs(clash.meets(wire, box(-9, 9, 0, 9, -1, 2)).by, 1.05, 1e-12)
  lu.assertNil(clash.meets(wire, box(-9, 9, 0, 9, 0.06, 2)))
end

-- How many points of a grid over the box lie in the round thing.
local function share_of_points(s, b)
  local n, inside = 12, 0
  local plane = {x = {"y", "h"}, y = {"x", "h"}, h = {"x", "y"}}
  local p, q = plane[s.axis][1], plane[s.axis][2]
  local r = (s[p .. 2] - s[p .. 1]) / 2
  local function at(name, i)
    return b[name .. 1] + (b[name .. 2] - b[name .. 1]) * i / n
  end
  for i = 0, n do
    local a = at(s.axis, i)
    if a > s[s.axis .. 1] and a < s[s.axis .. 2] then
      for j = 0, n do
        for k = 0, n do
          local u = at(p, j) - s[p .. 1] - r
          local v = at(q, k) - s[q .. 1] - r
          if u * u + v * v < r * r then inside = inside + 1 end
        end
      end
    end
  end
  return inside
end

-- A point of the box well inside the thing means that they meet; and where they do not,
-- no point of the box may lie in the thing by more than the sliver.
function T.test_round_against_points()
  local random = support.random(11)
  local met_count, apart_count = 0, 0
  for case = 1, 600 do
    local axis = random:pick {"x", "y", "h"}
    local r, s = random:real(0.3, 3), {axis = axis}
    for _, name in ipairs {"x", "y", "h"} do
      local centre = random:real(-4, 4)
      local half = name == axis and random:real(1, 6) or r
      s[name .. 1], s[name .. 2] = centre - half, centre + half
    end
    local b = {}
    for _, name in ipairs {"x", "y", "h"} do
      b[name .. 1] = random:real(-5, 3)
      b[name .. 2] = b[name .. 1] + random:real(0.5, 4)
    end
    local met = clash.meets({shape = s}, b)
    if met then
      met_count = met_count + 1
    else
      apart_count = apart_count + 1
      local less = {axis = axis}
      for _, name in ipairs {"x", "y", "h"} do
        less[name .. 1], less[name .. 2] = s[name .. 1] + 0.0625, s[name .. 2] - 0.0625
      end
      lu.assertEquals(share_of_points(less, b), 0, "case " .. case)
    end
    if share_of_points(s, b) > 60 then lu.assertNotNil(met, "case " .. case) end
  end
  lu.assertTrue(met_count > 100 and apart_count > 100, "both come up")
end

local function random_shape(random)
  local axis = random:pick {"x", "y", "h", "box"}
  local s, r = {axis = axis ~= "box" and axis or nil}, random:real(0.3, 3)
  for _, name in ipairs {"x", "y", "h"} do
    local centre = random:real(-3, 3)
    local half = (name == axis or axis == "box") and random:real(1, 6) or r
    s[name .. 1], s[name .. 2] = centre - half, centre + half
  end
  return s
end

-- The shift that is told parts the two, one way or the other; half of it does not, along
-- any axis.
function T.test_the_shift_parts_them()
  local random, count = support.random(12), 0
  local name_of = {across = "y", ["in height"] = "h", ["along the joist"] = "x"}
  for _ = 1, 500 do
    local s, b = random_shape(random), {}
    for _, name in ipairs {"x", "y", "h"} do
      b[name .. 1] = random:real(-4, 2)
      b[name .. 2] = b[name .. 1] + random:real(0.5, 4)
    end
    local function shifted(name, by)
      local c = {}
      for key, value in pairs(b) do c[key] = value end
      c[name .. 1], c[name .. 2] = b[name .. 1] + by, b[name .. 2] + by
      return clash.meets({shape = s}, c)
    end
    local met = clash.meets({shape = s}, b)
    if met then
      local way = name_of[met.direction]
      lu.assertTrue(not shifted(way, met.by) or not shifted(way, -met.by))
      if met.by > 0.5 then
        count = count + 1
        for _, name in ipairs {"x", "y", "h"} do
          lu.assertNotNil(shifted(name, met.by / 2))
          lu.assertNotNil(shifted(name, -met.by / 2))
        end
      end
    end
  end
  lu.assertTrue(count > 100)
end

-------------------------------------------------------------------------- hostile input

local function problem(t, piece)
  t.what = t.what or "duct"
  if not t.movable then t.movable = "trade" end
  local other = {what = "other", kind = "duct", bay = {"J1", "J2"}, at = 9}
  raises(piece, floor_of, {other, t})
end

function T.test_problems_name_the_obstruction_and_the_field()
  local b = {"J1", "J2"}
  problem({bay = b, from = 1, to = "13-14"}, "obstruction 2 (duct), to: length expected")
  problem({bay = b, from = 9, to = 8}, "obstruction 2 (duct), to: to must be more than")
  problem({bay = b, from = 9}, "obstruction 2 (duct), to: missing")
  problem({bay = b, from = 9, to = 19, at = 4}, "at: give at, or from and to, not both")
  problem({bay = b}, "from: missing")
  problem({at = 9}, "joist: missing")
  problem({bay = b, joist = "J1", at = 9}, "bay: give joist or bay, not both")
  problem({bay = {"J1", "J3"}, at = 9}, "J1 and J3 are not neighbors")
  problem({bay = {"J1"}, at = 9}, "the marks of two neighbours")
  problem({joist = "J77", at = 9, through = true}, "joist: the mark of a joist")
  problem({joists = {"J1", {}}, at = 9}, "joists: the mark of a joist")
  problem({joists = "J1", at = 9}, "joists: a list of marks")
  problem({joist = "J1", at = 9}, "side: missing")
  problem({joist = "J1", at = 9, side = "up"}, "side: one of left, right expected")
  problem({bay = b, at = 9, side = "left"}, "side: the face of one joist")
  problem({joist = "J1", at = 9, side = "left", y = 3}, "side: give side, or the offsets")
  problem({joist = "J1", at = 9, y1 = 3}, "y2: missing")
  problem({joist = "J1", at = 9, y1 = 3, y2 = 2}, "y2: y2 must be more than y1")
  problem({bay = b, at = 9, bottom = 3, top = 3}, "top: top must be more than bottom")
  problem({bay = b, at = 9, height = 3, top = 3}, "height: give height")
  problem({bay = b, from = 1, to = 9, height = 3, diameter = 2}, "y: missing: the center")
  problem({joist = "J1", from = 1, to = 9, y = 3, diameter = 2}, "height: missing")
  problem({bay = b, at = 9, height = 3, diameter = -1}, "diameter: -1")
  problem({bay = b, at = 0 / 0}, "at: length expected")
  problem({bay = b, at = math.huge}, "at: length expected")
  problem({bay = b, at = {}}, "at: length expected")
  problem({bay = b, at = 9, class = 8}, "class: a whole number")
  problem({bay = b, at = 9, class = 0 / 0}, "class: a whole number")
  problem({bay = b, at = 9, class = "5"}, "class: a whole number")
  problem({bay = b, at = 9, kind = "hose"}, "kind: one of wire, cable")
  problem({bay = b, at = 9, movable = true}, "movable: one of no, easy, trade")
  problem({bay = b, at = 9, trade = 5}, "trade: a text expected")
  problem({bay = b, at = 9, through = "yes"}, "through: true or false")
  problem({bay = b, at = 9, colour = 5}, "colour: unknown field")
  problem({bay = b, from = "14-0", to = "15-0"}, "past the end of joist J1")
  problem({kind = "finish"}, "side: missing: below or above")
end

function T.test_problems_are_collected()
  local text = raises("obstruction 1: a table", floor_of, {5, {what = "duct"}, {}})
  lu.assertStrContains(text, "obstruction 2 (duct), movable: missing")
  lu.assertStrContains(text, "obstruction 2 (duct), from: missing")
  lu.assertStrContains(text, "obstruction 3, what: missing")
  raises("obstructions: a list expected", floor_of, "pipes")
  raises("a plain list", floor_of, {what = "duct", at = 9})
  -- Those of joists and of obstructions together.
  local both = raises("joist J1, span", floor_of, {{what = "duct"}}, {span = "13-14"})
  lu.assertStrContains(both, "obstruction 1 (duct), joist: missing")
end

-- J2 says 19 in to J3, J3 says 17 back.
function T.test_measured_spacings_must_agree()
  raises('joists J1 and J2: spacing: 19"', ns.floor, {size = "2x10", material = DFL,
    span = "13-6", dead = 12, live = 40, joists = {{mark = "J1", spacing = {16, 19}},
    {mark = "J2", spacing = {17, 16}}}, obstructions = {{what = "duct", kind = "duct",
    bay = {"J1", "J2"}, at = 9}}})
end

return T
