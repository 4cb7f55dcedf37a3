-- The life of a homework set: frozen, continued in week three with another list, marked
-- with late submissions and marks by hand, and handed to a course system.
local ns = require "netsection"

local out = os.getenv "NETSECTION_OUT" or "out"
local set = ns.homework {
  course = "Timber floors", seed = "spring", due = "Friday noon",
  students = {"k17", "k18", "k19"},
  problems = {"reactions", {kind = "end_notch", tolerance = 0.02}, "severed_couple"},
}
assert(set:save(out .. "/set.json"))
print("k18 has code " .. set.by_id.k18.code)

-- k17 left, k20 came, and a problem was put in front: nobody else's numbers change.
local later = assert(ns.homework.load(out .. "/set.json", {students = {"k20", "k18",
  "k19"},
  problems = {"tributary_load", "reactions", {kind = "end_notch", tolerance = 0.02},
    "severed_couple"}}))
print("k18 keeps its end notch: " .. tostring(
  later:of "k18"[3].answers == set:of "k18"[2].answers))

-- Answers as they come back: an early half, a late whole, a neighbor's sheet.
local rows = {}
local function hand_in(id, numbers_of, submission, late, last_part)
  for i = 1, 2 do
    local v = set:of(numbers_of)[i]
    for _, step in ipairs(v.kind.steps) do
      if step.part and not step.hand and step.part <= last_part then
        local x = v.s[step.symbol]
        rows[#rows + 1] = {student = id, problem = i, part = step.part,
          submission = submission,
          answer = type(x) == "number" and ("%.5g"):format(x) or x, late = late,
          code = set.by_id[numbers_of].code}
      end
    end
  end
end
hand_in("k17", "k17", 1, "no", "c")
hand_in("k17", "k17", 2, "yes", "z")
hand_in("k18", "k19", 1, "no", "z")
local marks = assert(set:mark(rows, {take = "best", late = 0.8,
  hand = "student,problem,part,marks\nk17,3,h,1\n"}))
io.write(marks:gradebook {"student", "problem 1", "problem 2", "marks", "out of", "late"})
for _, p in ipairs(marks.problems) do print(p.reason) end
print(ns.document.text(marks:feedback "k17"):match "Student[^\n]*")

local files = set:qti()
print(#files .. " files of a QTI 2.1 content package, first " .. files[1].name)
