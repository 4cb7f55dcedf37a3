-- SPDX-License-Identifier: MIT
-- Question: what shear does the end of a joist carry over a bottom notch at the bearing,
-- and how far may the joist then reach under 66.67 plf? Expected: V' falls with d_n times
-- the square of d_n/d (2x10, Fv 135: 1248 lb whole, 526 at 0.75 d, which reaches 15-9);
-- 0.70 d is past d/4 and needs a hanger, whatever it computes.
local ns = require "netsection"

local DEPTH = {["2x8"] = 7.25, ["2x10"] = 9.25, ["2x12"] = 11.25}
local sizes = {"2x8", "2x10", "2x12"}

local base = ns.joist {mark = "E", size = "2x10", span = "12-0", spacing = 16,
  bearing = 3.5, dead = 10, live = 40,
  material = {Fb = 900, CF = 1, Fv = 135, E = 1.4e6, source = "given, Fv 135 psi"}}

-- V' of the joist's own review, with the cut where there is one.
local function capacity(left, size)
  local cuts = left < 1 and {ns.end_notch {support = "left", face = "bottom",
    depth = (1 - left) * DEPTH[size], length = 3.5}} or {}
  local r = base:with {size = size, cuts = cuts}:review()
  local k = left < 1 and r:find("cut", "notch-shear", 1) or r:find("uncut", "shear")
  return k.capacity
end

local function note(left)
  return left < 0.75 and "Deeper than d/4: not permitted at an end (NDS 4.4.3, IRC "
    .. "R502.8.1); carry the full depth by a hanger."
end

local rows = {name = "d_n/d", values = {1, 0.95, 0.9, 0.85, 0.8, 0.75, 0.7},
  show = function(v) return ("%.2f"):format(v) end}
local columns = {name = "size", values = sizes}
local common = {"Bottom notch at the bearing; the reaction counts in full."}

local shear = ns.table {
  title = "End notch: allowable shear V', Fv 135 psi", rows = rows, columns = columns,
  cell = function(left, size)
    return {value = capacity(left, size), note = note(left)}
  end,
  unit = "lb", round = {to = "1 lb", way = "down"}, metric = true, notes = common,
  monotone = {down = "falling", across = "rising"}, joist = base,
}
local spans = ns.table {
  title = "End notch: longest span for shear at the notch, 66.67 plf", rows = rows,
  columns = columns,
  cell = function(left, size)
    return {value = 2 * capacity(left, size) / (50 * 16 / 144), note = note(left),
      letter = "v"}
  end,
  unit = "ft-in", round = {to = "1 in", way = "down"}, notes = common,
  monotone = {down = "falling", across = "rising"}, joist = base,
}
print(shear:text())
print(spans:text())
return {shear = shear, spans = spans}
