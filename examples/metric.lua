-- SPDX-License-Identifier: MIT
-- Question: a flat was measured in millimeters; what does its package say, in metric?
-- Expected: lengths in mm, kN, kN m, N/mm2 on A4. J1 carries 1.0 kN/m over 4.1 m:
-- M = w L^2/8 = 2.10 kN m; its 60 mm hole is past d/4 = 58.75 mm of 9.23.5.1.
local ns = require "netsection"

local joists = [[
mark,size,span,spacing,bearing,dead,live,species,grade
J1,38x235,4100,400,89,0.6 kPa,1.9 kPa,Douglas Fir-Larch,No.2
J2,38x235,4100,400,89,0.6 kPa,1.9 kPa,Douglas Fir-Larch,No.2
J3,47x220,3600,300,100,0.6 kPa,1.5 kPa,Douglas Fir-Larch,No.2
]]
local cuts = [[
joist,kind,at,from,to,diameter,depth,face
J1,hole,1600,,,60,,
J2,notch,,600,700,,40,top
J3,sever,,1800,1850,,,
]]
local floor = assert(ns.read_survey {joists = joists, cuts = cuts, units = "mm",
  name = "Flat", rules = "ca-nbc-9.23.5"})
floor = floor:fix("J3", ns.sister {bearing = true, pitch = "150 mm", per_row = 5,
  fastener = ns.fastener {kind = "wood screw", diameter = "7 mm", root = "5 mm",
    length = "90 mm"}})
local review = floor:review()
print(ns.report.text(review, {steps = "none"}))
for _, file in ipairs((ns.package.files(review))) do
  if file.name == "report.html" then print("paper: " .. file.text:match "size: (%w+)") end
end
