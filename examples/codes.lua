-- The same cuts under the rules of several building codes, and under an office's own
-- limits beside a code's: which pack decides is named.
local ns = require "netsection"

local joist = ns.joist {
  mark = "A2", b = "45 mm", d = "220 mm", span = "4.0 m", spacing = "400 mm",
  bearing = "100 mm", dead = "0.5 kPa", live = "1.5 kPa",
  material = {Fb = 850, Ft = 525, Fv = 150, Fc = 1300, Fc_perp = 405, E = 1.3e6,
    CF = 1.1},
  cuts = {
    ns.hole {at = "1.2 m", diameter = "50 mm"},
    ns.notch {face = "top", from = "0.60 m", to = "0.70 m", depth = "32 mm"},
  },
}

for _, pack in ipairs(ns.packs "rules") do
  local r = joist:review {rules = pack.name}
  print(("%-18s %-12s %s"):format(pack.name, r.rules.status, pack.confidence))
  for _, b in ipairs(r.rules.breaches) do print("    " .. b.name .. ": " .. b.text) end
end

-- An office that allows no notch at all, beside a published pack.
local office = ns.rules {
  name = "own-office", title = "Limits of the office", confidence = "own",
  covers = {"notch", "end_notch"}, not_covered = "holes are left to the code",
  limits = {{kinds = {"notch", "end_notch"}, measure = "depth", forbidden = true,
    clause = "office 2", text = "a notch", says = "none without calculation"}},
}
local r = joist:review {rules = {"uk-labc-2018", office}}
print(r.rules.pack .. ": " .. r.rules.status)
for _, one in ipairs(r.rules.all) do print("  " .. one.pack .. ": " .. one.status) end

-- A slip in a pack is told with its place before anything is reviewed.
for _, p in ipairs(ns.rules.problems {
  name = "slip", title = "With a slip", confidence = "own", covers = {"hole"},
  not_covered = "holes alone",
  limits = {{kinds = {"hole"}, measure = "size", of_depth = 1 / 4, clause = "1",
    text = "hole", says = "d/4"}},
}) do print(p.code, p.text) end
