-- SPDX-License-Identifier: MIT
-- How many fasteners a group needs, and whether the joist bears the group across the
-- grain. NDS 11.3.1, 3.4.3.3 (memory). Reference values: NDS Table 12N, Douglas
-- Fir-Larch, 1-1/2 in side member; the check works them out from the yield equations.
local core = require "netsection.core"
local fastener = require "netsection.fastener"

local NAILS = {
  {name = "10d common", size = "10d", Z = 118},
  {name = "16d common", size = "16d", Z = 141},
  {name = "20d common", size = "20d", Z = 170},
}

local function find(name)
  for _, nail in ipairs(NAILS) do
    if nail.name == name then return nail end
  end
end

return {
  name = "fastener_count", order = 160, standards = {"us-nds-2018-asd"},
  title = "Fasteners of a group",
  vary = {
    nail = {NAILS[1].name, NAILS[2].name, NAILS[3].name},
    force = {900, 940, 980, 1020, 1060, 1100, 1140, 1180, 1240, 1300, 1360, 1420, 1480,
      1540, 1600, 1680, 1760, 1840},
    service = {"dry", "wet, over 19 %"}, edge = {1.5, 1.75, 2, 2.25}, d = {9.25, 11.25},
    CD = {0.9, 1.0},
  },
  given = function(p)
    return {
      {"F", p.force, "lb", "force of the group, across the grain of the joist"},
      {"", p.nail .. " nails", "", "side member 1-1/2 in, joist of two plies, 3 in; "
        .. "Douglas Fir-Larch, full penetration"},
      {"Z", find(p.nail).Z, "lb", "reference value of one"},
      {"C_D", p.CD, "", "load duration factor"},
      {"", p.service, "", "moisture in service"},
      {"b", 3, "in", "thickness of the joist, both plies"}, {"d", p.d, "in", "its depth"},
      {"e", p.edge, "in", "from the unloaded edge to the nearest nail"},
      {"F_v'", 180 * p.CD * (p.service == "dry" and 1 or 0.97), "psi",
        "adjusted value in shear of the joist"},
    }
  end,
  question = "A group of nails near the end of a joist passes its force on across the "
    .. "grain. Find the number of nails, in two rows (an even number), and whether the "
    .. "joist bears the group: the depth counts from the loaded edge to the farthest "
    .. "nail, and squared, since the end is near. All other factors are 1.",
  modes = {"dry", "wet"},
  suits = function(p, s)
    local n = s.F / s["Z'"]
    if math.abs(n - math.floor(n + 0.5)) < 0.02 * n or s.ratio < 0.5 or s.ratio > 1.4 then
      return nil
    end
    return p.service == "dry" and "dry" or "wet"
  end,
  steps = {
    {"C_M", "0.7 wet, 1 dry", "", ask = "Wet service factor of the nails", marks = 1,
      clause = "NDS 11.3.3",
      value = function(_, p) return p.service == "dry" and 1.0 or 0.7 end},
    {"Z'", "Z*C_D*C_M", "lb", ask = "Adjusted value of one nail", marks = 2,
      clause = "NDS 11.3.1"},
    {"n", "ceil(F/Z')", "count", ask = "Nails needed", marks = 1},
    {"n_2", "2*ceil(n/2)", "count", ask = "Nails in two equal rows", marks = 1},
    {"d_e", "d - e", "in", ask = "Depth that bears the group", marks = 1,
      clause = "NDS 3.4.3.3"},
    {"V'", "2/3*F_v'*b*d_e*(d_e/d)^2", "lb", ask = "Shear that the joist bears there",
      marks = 2, clause = "NDS 3.4.3.3"},
    {"ratio", "F/V'", "", ask = "Ratio of demand to capacity", marks = 1},
  },
  edge = {"ratio"},
  mistakes = {
    {of = {"Z'", "n", "n_2"}, with = {C_M = "1"}, name = "wet service left out",
      reveals = "over 19 % moisture the nails count 0.7"},
    {of = {"Z'"}, with = {["Z'"] = "Z*C_M"}, name = "load duration left out",
      reveals = "C_D multiplies Z as well"},
    {of = "n", formula = "floor(F/Z')", name = "the count rounded down",
      reveals = "a part of a nail is one more nail"},
    {of = "V'", formula = "2/3*F_v'*b*d", name = "the whole depth",
      reveals = "wood beyond the farthest nail splits off"},
    {of = "V'", formula = "2/3*F_v'*b*d_e", name = "the factor (d_e/d)^2 left out",
      reveals = "within 5 d of an end it belongs there"},
    {of = "V'", formula = "2/3*F_v'*b*d_e*d_e/d", name = "the factor not squared",
      reveals = "NDS 3.4.3.3 has the square of d_e/d"},
    {of = {"d_e", "V'", "ratio"}, with = {d_e = "e"},
      name = "the wrong part of the depth",
      reveals = "d_e is from the loaded edge to the farthest nail"},
  },
  figure = function(p, _, draw)
    return draw.sections {{name = "the joist", b = 3, d = p.d, marks = {
      {p.d - p.edge, p.d, "e", p.edge}}}}
  end,
  source = "yield equations of the nail (Z to a pound), the core's connection check",
  check = function(p)
    local nail = find(p.nail)
    local z = fastener.lateral {fastener = fastener {kind = "nail", size = nail.size},
      main = {G = 0.5, thickness = 3}, side = {G = 0.5, thickness = 1.5}, CD = p.CD,
      moisture = p.service == "dry" and "dry" or "wet"}
    local CMv = p.service == "dry" and 1 or 0.97
    local _, k = core.joint {mode = "connection-shear", branch = 1, demand = p.force,
      F = 180, CD = p.CD, CM = CMv, Ct = 1, Ci = 1, K = 1, F_a = 180 * p.CD * CMv,
      b = 3, d = p.d, d_e = p.d - p.edge, G = p.force}
    return {["Z'"] = z.adjusted, ["V'"] = k.capacity, ratio = k.ratio}
  end,
}
