-- SPDX-License-Identifier: MIT
-- A beam on posts under a floor whose joists are too weak for a new use, followed down to
-- the footings, and the plates under the ends of the joists; the temporary shores, on
-- sole plates, that stand while one joist is sistered.
local ns = require "netsection"

local wood = {species = "douglas fir-larch", grade = "No.2"}
local joists = {}
for i = 1, 9 do joists[i] = {mark = "J" .. i} end
joists[6].cuts = {ns.sever {from = "6-0", to = "6-5", note = "for a drain"}}

local floor = ns.floor {name = "Workroom", size = "2x10", species = wood.species,
  grade = wood.grade, span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40,
  joists = joists}
floor = floor:fix("J6", ns.sister {from = 12, to = 150, groups = {{at = 20, n = 12},
  {at = 60, n = 12}, {at = 90, n = 12}, {at = 140, n = 12}}})

local post = ns.post {size = "4x4", species = wood.species, grade = wood.grade,
  length = "7-6", footing = ns.footing {soil = "1500 psf", thickness = 10}}
local plate = ns.plate {size = "2x6", species = wood.species, grade = wood.grade}
local path = floor:load_path {below = {left = plate, right = plate}, beams = {
  ns.beam_line {mark = "B1", at = "6-9",
  size = "2x10", plies = 2, species = wood.species, grade = wood.grade,
  posts = {"J1", "J5", "J9"}, post = post}}}
print(path:text())

local shores = floor:shores {mark = "J6", at = {60, 90}, construction_live = "25 psf",
  beside = 2, capacity = "600 lb", end_plate = {4, 4}, sole = ns.plate {size = "2x8",
    species = wood.species, grade = wood.grade}, beam = ns.beam_line {size = "4x6",
  species = wood.species, grade = wood.grade}}
print(shores:text {steps = "none"})
