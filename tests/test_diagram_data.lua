-- SPDX-License-Identifier: MIT
-- What the points of a moment diagram are, against statics worked here: a simple span,
-- M = w x (L - x)/2 (handbook of beams, uniform load); a repetitive factor that is lost
-- takes 1.15 off the capacity (NDS 4.3.9); tails carried by headers are simple spans from
-- the bearing to the header.
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"

local T = {}

local BASE = {size = "2x10", species = "douglas fir-larch", grade = "No.2",
  span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40}
local W, L = 52 * 16 / 12, 13.5        -- plf, ft

local function joist(cut)
  local t = {cuts = {cut}}
  for name, value in pairs(BASE) do t[name] = value end
  return ns.joist(t)
end

-- Rows of the data blocks of a name, one list a block.
local function blocks(script, name)
  local list = {}
  for body in script:gmatch("%$" .. name .. " << EOD\n(.-)EOD\n") do
    local rows = {}
    for line in body:gmatch "[^\n]+" do
      local row = {}
      for v in line:gmatch "%S+" do row[#row + 1] = tonumber(v) end
      if #row > 2 then rows[#rows + 1] = row end
    end
    list[#list + 1] = rows
  end
  return list
end

function T.test_the_loss_of_the_repetitive_factor_is_where_the_line_drops()
  local r = joist(ns.hole {at = "6-9", diameter = 4, below = 2}):review()
  lu.assertEquals({r.uncut.Cr, r.cut.Cr}, {1.15, 1})
  local script = assert(ns.plot.moment(r, {output = "m.svg"}))
  lu.assertStrContains(script, "'Cr 1.15 lost'")
  local cut, uncut = blocks(script, "cut")[1], blocks(script, "uncut")[1]
  local whole = 900 * 1.1 * 1.5 * 9.25 ^ 2 / 6 / 12   -- NDS Supplement Table 4A: F_b, CF
  for _, row in ipairs(cut) do
    local x = row[1]
    support.close_abs(row[2], W * x * (L - x) / 2, 0.02)
    if math.abs(x - 6.75) > 0.2 then support.close_abs(row[5], whole, 0.02)
    else lu.assertTrue(row[5] <= whole + 0.02) end
  end
  for _, row in ipairs(uncut) do support.close_abs(row[5], 1.15 * whole, 0.02) end
end

function T.test_the_demand_of_a_joist_cut_through_is_that_of_the_whole_joist()
  local r = joist(ns.sever {from = "6-0", to = "6-5"}):review()
  local script = assert(ns.plot.moment(r, {output = "m.svg"}))
  lu.assertStrContains(script, "'full load, all live of the whole joist")
  for _, row in ipairs(blocks(script, "cut")[1]) do
    support.close_abs(row[2], W * row[1] * (L - row[1]) / 2, 0.02)
    if row[1] > 6 and row[1] < 6 + 5 / 12 then lu.assertEquals(row[5], 0) end
  end
end

function T.test_curves_and_capacity_stop_at_the_headers()
  local t = {name = "loft", joists = {{mark = "H1"}, {mark = "H2"},
    {mark = "H3", cuts = {ns.sever {from = "6-0", to = "6-5"}}}, {mark = "H4"},
    {mark = "H5"}}}
  for name, value in pairs(BASE) do t[name] = value end
  local r = ns.floor(t):joist("H3"):fix(ns.header {at = {"5-10", "6-7"},
    hanger = "400 lb", tail_hanger = "400 lb"}):review()
  local rows = blocks(assert(ns.plot.moment(r, {output = "m.svg"})), "cut")[2]
  local left, right = 5 + 10 / 12, 6 + 7 / 12
  local seen = {0, 0}
  for _, row in ipairs(rows) do
    local x = row[1]
    lu.assertFalse(x > left + 1e-4 and x < right - 1e-4, "a point between the headers")
    if x < 6 then
      seen[1] = seen[1] + 1
      support.close_abs(row[2], W * x * (left - x) / 2, 0.05)
    else
      seen[2] = seen[2] + 1
      support.close_abs(row[2], W * (x - right) * (L - x) / 2, 0.05)
    end
  end
  lu.assertTrue(seen[1] > 10 and seen[2] > 10)
end

return T
