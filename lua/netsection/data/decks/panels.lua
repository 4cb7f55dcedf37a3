-- SPDX-License-Identifier: MIT
-- Bending of floor panels by span rating, per foot of width: EI along the strength axis
-- and across it, lb-in2/ft; F_b S of the same, lb-in/ft, where it was read. ASD/LRFD
-- manual that goes with NDS, Table M9.2-1, read in a copy of the table.
return {
  source = "ASD/LRFD manual that goes with NDS, Table M9.2-1",
  confidence = "read",
  -- Span ratings of sheathing carry a stroke, those of single floors end in oc.
  panels = {
    {name = "24/16 OSB", EI = {78000, 16000}},
    {name = "32/16 OSB", EI = {115000, 25000}},
    {name = "40/20 OSB", EI = {225000, 56000}},
    {name = "48/24 OSB", EI = {400000, 91500}, FbS = {1000, 405}},
    {name = "16oc OSB", EI = {150000, 34000}},
    {name = "20oc OSB", EI = {210000, 40500}},
    {name = "24oc OSB", EI = {300000, 80500}, FbS = {770, 385}},
    {name = "32oc OSB", EI = {650000, 235000}},
    {name = "48oc OSB", EI = {1150000, 495000}},
    {name = "24oc 3-ply plywood", EI = {330000, 26000}},
    {name = "48/24 3-ply plywood", EI = {440000, 29500}},
    {name = "24oc 5-ply plywood", EI = {330000, 80500}},
    {name = "48/24 5-ply plywood", EI = {440000, 91500}},
  },
  notes = {
    "a 23/32 in panel is rated 24oc as a single floor, 48/24 as sheathing (memory)",
  },
}
