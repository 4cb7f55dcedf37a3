-- SPDX-License-Identifier: MIT
-- Question: the first floor of a terraced house was measured in millimeters. What does
-- the file for its building control say, by EN 1995-1-1 with the annex of the UK and the
-- LABC guidance on cuts? Expected: five joists 47x220 C24 over 4.1 m. The cable's hole
-- keeps the limits; the gas pipe's is past 0.25 d and 0.4 L, and the standard has no rule
-- for it; the notch at mid-span is past 0.125 d; the joist under the bath is cut through.
-- Lengths in mm, kN, kN m, N/mm2 on A4, and no clause of another country.
local ns = require "netsection"

local joists = [[
mark,size,span,spacing,bearing,bearing on,dead,live,class,note
all,47x220,4100,400,100,masonry,0.6 kPa,1.5 kPa,C24,
J1,,,,,,,,,
J2,,,,,,,,,
J3,,,,,,,,,under the bath
J4,,,,,,,,,
J5,,,,,,,,,
]]
local cuts = [[
joist,kind,at,from,to,diameter,depth,face,note
J1,hole,1300,,,40,,,cable
J2,notch,,600,700,,27,top,heating pipe
J3,sever,,1800,1950,,,,waste of the bath
J4,hole,2050,,,60,,,old gas pipe
J5,notch,,2000,2100,,40,top,heating pipe
]]
local floor = assert(ns.read_survey {joists = joists, cuts = cuts, units = "mm",
  name = "Mill Terrace, first floor", rules = "uk-labc-2018",
  standard = "en-1995-1-1-uk"})
local review = floor:review()
print(ns.report.text(review, {steps = "none"}))

local files = ns.package.files(review, {full = true})
for _, file in ipairs(files) do
  if file.name:find "%.html$" then
    print(("%-18s paper %s"):format(file.name, file.text:match "size: (%w+)"))
  end
end
local out = os.getenv "NETSECTION_OUT"
if out then ns.package.write(review, out .. "/package", {full = true}) end
return review
