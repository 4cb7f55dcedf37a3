-- SPDX-License-Identifier: MIT
-- Speed of what a floor has as a whole: a grid of seven joists on 109 stations, made,
-- factored and solved (5 ms is allowed), and a floor of 24 joists with grid, feel, shores
-- and load path written to a package without pictures (2 s are allowed); 65,536 draws of
-- one joist (0.3 s) and of each joist of a floor of 24 (10 s): how sure the verdicts are.
-- CPU time, best of several; run by `make bench`.
local core = require "netsection.core"
local drawing = require "tests.drawing"
local ns = require "netsection"

local WOOD = {species = "douglas fir-larch", grade = "No.2"}

local function best(times, f)
  local least = math.huge
  for _ = 1, times do
    collectgarbage()
    local from = os.clock()
    f()
    least = math.min(least, os.clock() - from)
  end
  return least
end

local function floor(n, cuts)
  local joists = {}
  for i = 1, n do joists[i] = {mark = "J" .. i, cuts = cuts[i]} end
  return ns.floor {name = "Workroom", size = "2x10", species = WOOD.species,
    grade = WOOD.grade, span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40,
    joists = joists}
end

local function grid()
  local g = floor(7, {}):grid {deck = "24oc OSB", points = {{joist = "J4", at = "6-9",
    load = 225}}}
  local load = {q = {}, P = {{4, (#g.stations + 1) // 2, 225}}}
  local took = best(20, function() assert(core.grid(g.t)):solve(load) end)
  print(("grid of %d joists on %d stations, read from Lua, factored, solved: %.2f ms"
    .. " (5 allowed)"):format(#g.order, #g.stations, took * 1e3))
  return took < 5e-3
end

local function package()
  local cuts = {[6] = {ns.sever {from = "6-0", to = "6-5", note = "for a drain"}}}
  for i = 9, 23, 2 do cuts[i] = {ns.hole {at = 62, diameter = 2.5}} end
  local took = best(3, function()
    local dir <close> = drawing.folder()
    local f = floor(24, cuts):fix("J6", ns.sister {from = 12, to = 150, groups = {
      {at = 20, n = 12}, {at = 60, n = 12}, {at = 90, n = 12}, {at = 140, n = 12}}})
    local wood = {size = "2x10", plies = 2, species = WOOD.species, grade = WOOD.grade}
    local post = ns.post {size = "4x4", species = WOOD.species, grade = WOOD.grade,
      length = "7-6", footing = ns.footing {soil = "1500 psf", thickness = 10}}
    local path = f:load_path {beams = {ns.beam_line {mark = "B1", at = "6-9",
      size = wood.size, plies = 2, species = wood.species, grade = wood.grade,
      posts = {"J1", "J5", "J9", "J13", "J17", "J21", "J24"}, post = post}}}
    local shores = f:shores {mark = "J6", at = {60, 90}, construction_live = "25 psf",
      beside = 2, capacity = "600 lb", beam = ns.beam_line {size = "4x6",
        species = WOOD.species, grade = WOOD.grade}}
    local review = f:review {grid = {deck = "24oc OSB"}, feel = true}
    assert(ns.package.write(review, dir.path, {load_path = path, shores = {shores},
      render = false}))
  end)
  print(("24 joists with grid, feel, shores and load path to a package without pictures: "
    .. "%.2f s (2 allowed)"):format(took))
  return took < 2
end

-- Draws of one joist, on one thread, without indices: reviews alone.
local function draws()
  local joist = ns.joist {size = "2x10", species = WOOD.species, grade = WOOD.grade,
    span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40,
    cuts = {ns.hole {at = 62, diameter = 2.5}}}
  local n
  local took = best(3, function()
    n = joist:odds({threads = 1, indices = false, defaults = true, seed = 2026})
      .over.draws
  end)
  print(("%d draws of one joist: %.2f s (0.3 allowed)"):format(n, took))
  return took < 0.3
end

local function draws_of_floor()
  local cuts, n = {}, 0
  for i = 1, 24 do cuts[i] = {ns.hole {at = 40 + 2 * i, diameter = 2 + i / 24}} end
  local f = floor(24, cuts)
  local took = best(1, function()
    local all = f:odds {threads = 1, seed = 2026}
    for _, o in pairs(all.joists) do n = n + o.over.draws end
  end)
  print(("24 joists, %d draws and their indices: %.1f s (10 allowed)"):format(n, took))
  return took < 10
end

local held = {grid(), package(), draws(), draws_of_floor()}
if not (held[1] and held[2] and held[3] and held[4]) then
  print "slower than allowed"
  os.exit(1, true)
end
