-- SPDX-License-Identifier: MIT
-- Question: five 2x10 at 16 in, span 13-6, D 12 + L 40; J3 was sawn through from 6-0 to
-- 6-5 for a drain. What do J2 and J4 come to until it is repaired, and what does a shore
-- carry with 25 psf of construction live load? Expected, by hand: each takes half of J3,
-- w = 52 x 24 / 12 = 104 plf, M = 104 x 13.5^2 / 8 = 2369 ft-lb over 1764.7 (Cr 1.0) is
-- 1.34; the left stub on a shore at 5-0: R = w c^2 / (2 x_s), c = 74.5 in, w = 49.33 plf:
-- 190.1 lb; the right one on a shore at 7-6: 218.6 lb.
local ns = require "netsection"

local floor = ns.floor {
  name = "Pantry floor", size = "2x10", spacing = 16, span = "13-6", bearing = 3.5,
  dead = 12, live = 40,
  material = {Fb = 900, Ft = 575, Fc = 1350, Fv = 180, E = 1.6e6, CF = 1.1, Fc_perp = 625,
    source = "values given with the example"},
  shores = {construction_live = "25 psf", at = {"5-0", "7-6"}},
  joists = {{mark = "J1"}, {mark = "J2"},
    {mark = "J3", cuts = {ns.sever {from = "6-0", to = "6-5"}}},
    {mark = "J4", judgment = {action = "decide", by = "engineer on site",
      reason = "shore it with J3; look at its bearings first"}},
    {mark = "J5"}},
}

io.write(ns.report.text(floor:review(), {steps = "none"}))
