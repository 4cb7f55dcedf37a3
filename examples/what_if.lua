-- A drilled 2x10: what if the span or the spacing were another, which joist is the worst
-- that still passes, and what would turn the verdict?
-- With its 3-1/2 in hole it passes at 12 in up to 16-0, at 16 in up to 13-6.
local ns = require "netsection"

local joist = ns.joist {
  mark = "J3", size = "2x10", species = "douglas fir-larch", grade = "No.2",
  span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40,
  cuts = {ns.hole {at = "5-2", diameter = 3.5, below = 2.5}},
}
local sweep = ns.sweep {
  joist = joist,
  over = {spacing = {12, 16, 19.2, 24}, span = ns.steps("12-0", "16-0", "0-6")},
  order = {"span"}, values = {"ratio", "governing", "cut.net-bending.1", "action"},
}

-- One line a span, one column a spacing.
local lines = {}
for row in sweep:rows() do
  local line = lines[#lines]
  if not line or line.span ~= row.span then
    line = {span = row.span}
    lines[#lines + 1] = line
  end
  line[#line + 1] = ns.units.fixed(row.ratio, 2)
end
print(("%-8s %6s %6s %6s %6s"):format("span", "12 in", "16 in", "19.2", "24 in"))
for _, line in ipairs(lines) do
  print(("%-8s %6s %6s %6s %6s"):format(ns.units.feet_inches(line.span),
    table.unpack(line)))
end

local passing = sweep:where(function(row) return row.ratio <= 1 end)
table.sort(passing, function(a, b) return a.ratio > b.ratio end)
print(("%d of %d pass; the closest: span %s at %g in, %.2f by %s"):format(#passing,
  #sweep, ns.units.feet_inches(passing[1].span), passing[1].spacing, passing[1].ratio,
  passing[1].governing))

-- A point is the review of that joist, to the bit.
local at = sweep:at {span = "13-6", spacing = 16}
assert(at.ratio == joist:review().cut.ratio)
print("at 13-6 and 16 in: " .. ns.report.sensitivity(joist:sensitivity()))
