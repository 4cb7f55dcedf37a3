-- SPDX-License-Identifier: MIT
-- The chain of factors from reference to adjusted design values. NDS 2018 4.3 and the
-- adjustment factors of its Supplement, Table 4A.
local wood = require "netsection.homework.wood"

local function wet(p) return p.service == "wet, over 19 %" end

local function joist_of(p)
  return wood.joist {size = p.size, wood = p.wood, span = 120, spacing = 16, dead = 10,
    live = 40, moisture = wet(p) and "wet" or "dry", incised = p.incised == "yes"}
end

return {
  name = "adjusted_values", order = 40, standards = {"us-nds-2018-asd"},
  title = "Adjusted design values",
  vary = {
    size = {"2x6", "2x8", "2x10", "2x12"}, wood = wood.names,
    service = {"dry", "wet, over 19 %"}, incised = {"no", "yes"},
    CD = {0.9, 1.0, 1.15, 1.25, 1.6}, row = {"single", "four at 16 in under a deck"},
  },
  given = function(p)
    local v = wood.values(p.wood, p.size)
    return {
      {"", p.size .. " " .. p.wood, "", "Member"},
      {"F_b", v.Fb, "psi", "reference value in bending"},
      {"F_v", v.Fv, "psi", "reference value in shear"},
      {"E", v.E, "psi", "reference modulus"},
      {"C_D", p.CD, "", "load duration factor"},
      {"", p.service, "", "moisture in service"},
      {"", p.incised, "", "incised for treatment"},
      {"", p.row, "", "joists in the row"},
    }
  end,
  question = "Find the adjusted design values, ASD, by the factors of the NDS and its "
    .. "Supplement. Temperature is ordinary, the deck holds the top edge, the member "
    .. "stands on edge. Incising: 0.80 on strengths, 0.95 on moduli.",
  modes = {"dry", "wet"},
  -- Equal work: two or three of the factors on bending differ from 1 beside CD.
  suits = function(p, s)
    local n = 0
    for _, symbol in ipairs {"C_F", "C_M", "C_r", "C_i"} do
      if s[symbol] ~= 1 then n = n + 1 end
    end
    return (n == 2 or n == 3) and (wet(p) and "wet" or "dry")
  end,
  steps = {
    {"C_F", "size factor on F_b", "", ask = "Size factor on F_b", marks = 1,
      clause = "NDS Supplement Table 4A",
      value = function(_, p) return wood.values(p.wood, p.size).CF end},
    {"C_M", "1 dry; wet 0.85, or 1 where F_b*C_F is 1150 psi or less", "",
      ask = "Wet service factor on F_b", marks = 1, clause = "NDS Supplement Table 4A",
      hint = "it stays 1 where F_b*C_F is 1150 psi or less",
      value = function(s, p)
        return wet(p) and s.F_b * s.C_F > 1150 and 0.85 or 1.0
      end},
    {"C_r", "1.15 for three or more at 24 in or less, else 1", "",
      ask = "Repetitive member factor", marks = 1, clause = "NDS 4.3.9",
      value = function(_, p) return p.row == "single" and 1.0 or 1.15 end},
    {"C_i", "0.80 where incised", "", says = "on strengths", clause = "NDS 4.3.8",
      value = function(_, p) return p.incised == "yes" and 0.8 or 1.0 end},
    {"C_Mv", "0.97 wet", "", clause = "NDS Supplement Table 4A",
      value = function(_, p) return wet(p) and 0.97 or 1.0 end},
    {"C_Me", "0.90 wet", "", clause = "NDS Supplement Table 4A",
      value = function(_, p) return wet(p) and 0.9 or 1.0 end},
    {"C_ie", "0.95 where incised", "", clause = "NDS 4.3.8",
      value = function(_, p) return p.incised == "yes" and 0.95 or 1.0 end},
    {"F_b'", "F_b*C_D*C_M*C_F*C_i*C_r", "psi", ask = "Adjusted value in bending",
      marks = 3, clause = "NDS 4.3.1"},
    {"F_v'", "F_v*C_D*C_Mv*C_i", "psi", ask = "Adjusted value in shear", marks = 2,
      clause = "NDS 4.3.1"},
    {"E'", "E*C_Me*C_ie", "psi", ask = "Adjusted modulus", marks = 2,
      clause = "NDS 4.3.1"},
  },
  mistakes = {
    {of = "F_b'", formula = "F_b*C_M*C_F*C_i*C_r", name = "load duration left out",
      reveals = "C_D multiplies every strength"},
    {of = {"C_M", "F_b'"},
      with = {C_M = function(_, p) return wet(p) and 0.85 or 1.0 end},
      name = "0.85 for wet service whatever the value",
      reveals = "the footnote: where F_b*C_F is 1150 psi or less the factor is 1"},
    {of = "F_b'", formula = "F_b*C_D*C_M*C_F*C_i",
      name = "the repetitive factor left out",
      reveals = "three or more joists at 24 in or less under a deck"},
    {of = "F_b'", formula = "F_b*C_D*C_M*C_i*C_r", name = "the size factor left out",
      reveals = "F_b of Table 4A is that of the deepest members"},
    {of = "F_v'", formula = "F_v*C_D*C_Mv*C_i*C_r",
      name = "the repetitive factor on shear", reveals = "C_r is for bending only"},
    {of = "F_v'", formula = "F_v*C_D*C_Mv*C_i*C_F", name = "the size factor on shear",
      reveals = "C_F is for F_b, F_t and F_c"},
    {of = "E'", formula = "E*C_D*C_Me*C_ie", name = "load duration on the modulus",
      reveals = "stiffness does not depend on the duration of the load"},
  },
  source = "the core's own factors (joist:adjusted), Cr by the rule of NDS 4.3.9",
  check = function(p)
    local j = joist_of(p)
    local Fb, Fv, E = j:adjusted "Fb", j:adjusted "Fv", j:adjusted "E"
    local Cr = p.row == "single" and 1 or 1.15
    return {["F_b'"] = Fb.value * Cr * p.CD / Fb.CD, ["F_v'"] = Fv.value * p.CD / Fv.CD,
      ["E'"] = E.value, C_F = Fb.CF, C_M = Fb.CM}
  end,
}
