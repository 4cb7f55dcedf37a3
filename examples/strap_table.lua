-- SPDX-License-Identifier: MIT
-- Question: what moment does a steel strap under a joist carry with n fasteners of 200 lb
-- on each side, and what must a strap hold, by how many fasteners, at a bottom notch?
-- Expected: M = n Z' times the arm until the steel's 3618 lb governs (s): 2x10, 0.9 d, 6
-- fasteners 832 ft-lb, 22 2509. What is required rises toward mid-span; each side's
-- fasteners take all of it.
local ns = require "netsection"

local DEPTH = {["2x6"] = 5.5, ["2x8"] = 7.25, ["2x10"] = 9.25, ["2x12"] = 11.25}
local Z, STEEL = 200, 3618

local moments = ns.table {
  title = "Bottom strap: moment carried",
  rows = {name = "size", values = {"2x6", "2x8", "2x10", "2x12"}},
  columns = {name = "fasteners each side", values = {6, 10, 14, 18, 22}},
  blocks = {name = "arm", values = {0.9, 2 / 3}, show = {"0.9 d", "2/3 d"}},
  cell = function(size, n, arm)
    return {value = math.min(n * Z, STEEL) * arm * DEPTH[size] / 12,
      letter = n * Z > STEEL and "s" or "f"}
  end,
  unit = "ft-lb", round = {to = "1 ft-lb", way = "down"}, metric = true,
  notes = {"T = n Z', Z' = 200 lb, Cg = 1; steel 3618 lb; wood above not checked."},
  monotone = {across = "rising", down = "rising"},
}

local base = ns.joist {mark = "S", size = "2x10", species = "douglas fir-larch",
  grade = "No.2", span = "12-0", spacing = 16, bearing = 3.5, dead = 10, live = 40}

-- The thinnest strap of the joist's width whose steel passes under a bottom notch of d/4.
local function strap_of(size, span, x)
  local joist = base:with {size = size, span = span, cuts = {ns.notch {face = "bottom",
    from = x - 1, to = x + 1, depth = DEPTH[size] / 4}}}
  for _, thickness in ipairs {"1/16 in", "1/8 in", "3/16 in", "1/4 in"} do
    local fixed = joist:fix(ns.strap {rated = Z, n = 14, lift = "unloaded", width = 1.5,
      thickness = thickness, steel = "A36"}):review().fixed
    for _, k in ipairs(fixed.checks) do
      if k.mode == "steel" and k.ratio <= 1 then return fixed.T, thickness end
    end
  end
end

local required = ns.table {
  title = "Bottom strap: tension and fasteners of 200 lb on each side, required",
  rows = {name = {"size", "span"}, values = {{"2x8", "10-0"}, {"2x8", "12-0"},
    {"2x10", "12-0"}, {"2x10", "14-0"}, {"2x12", "14-0"}, {"2x12", "16-0"}}},
  columns = {name = "cut at, of the span", values = {0.2, 0.3, 0.4, 0.5}},
  blocks = {name = "what", values = {"T, lb", "fasteners"}, head = "Required:"},
  cell = function(row, at, what)
    local T, steel = strap_of(row.size, row.span, at * ns.length(row.span))
    return T and {value = what == "fasteners" and T / Z or T, note = "A36, " .. steel}
  end,
  unit = "", round = {to = 1, way = "up"}, joist = base, monotone = {across = "rising"},
  notes = {"Bottom notch d/4 deep, 2 in long; cracked section; joist lifted free."},
}
print(moments:text() .. "\n" .. required:text())
return {moments = moments, required = required}
