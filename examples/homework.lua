-- SPDX-License-Identifier: MIT
-- Question: a class of three gets the end notch, the hole off the axis and the short
-- sister of a lecture, each with numbers of their own. What does a student get, what does
-- the teacher, and what comes out when answers are marked? Expected: the same problems
-- with other numbers and equal modes; a student who forgets to halve the reaction loses
-- that part alone, since what follows from it is marked with the student's own number.
local ns = require "netsection"
local document = require "netsection.document"

local set = ns.homework {
  course = "Timber floors", seed = "first term",
  students = {{id = "k17", name = "A. Sawyer"}, "k18", "k19"},
  problems = {
    {kind = "end_notch", given = {wood = "Douglas Fir-Larch No.2"}},
    {kind = "off_centre_hole", given = {size = "2x10"}},
    "severed_couple",
  },
}

print "What a student gets\n"
print(document.text(set:sheet "k17"))
print "The key to it\n"
print(document.text(set:key "k17"))
print "How equal the problems are\n"
print(set:difficulty())

-- Files for a printer: a page of HTML, and a script for each figure that it names.
local out = os.getenv "NETSECTION_OUT"
if out then
  assert(ns.write(out .. "/k17.html", document.html(set:sheet "k17")))
  for _, f in ipairs(set:figures "k17") do
    assert(ns.write(out .. "/" .. f.name .. ".gp", f.script))
  end
end

-- What came back: k17 forgot to halve the reaction in (b) and went on with it.
local v = set:of "k17"[1]
local R = 2 * v.s.R
print "\nMarks\n"
local marks = assert(set:mark(table.concat({
  "student,problem,part,answer",
  ("k17,1,a,%.1f plf"):format(v.s.w), ("k17,1,b,%.0f lb"):format(R),
  ("k17,1,c,%.2f kip-ft"):format(v.s.M / 1000), ("k17,1,e,%.0f"):format(v.s["V'"]),
  ("k17,1,f,%.2f"):format(R / v.s["V'"]), "k17,1,g,2.5 in", "k17,1,h,perhaps",
  ("k18,3,a,%.0f lb-in"):format(12 * set:of "k18"[3].s.M), "k20,1,a,60 plf",
}, "\n")))
io.write(marks:text())
