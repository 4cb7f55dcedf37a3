-- SPDX-License-Identifier: MIT
-- The chain of factors from reference to adjusted design values by load and resistance
-- factors. NDS 2018 4.3, Tables 2.3.5, 2.3.6 and N3, and the adjustment factors of its
-- Supplement, Table 4A.
local base = require "netsection.homework.kinds.adjusted_values"
local factored = require "netsection.homework.factored"
local point = require "netsection.point"
local wood = require "netsection.homework.wood"

local K_b, phi_b = factored.factors "b"
local K_v, phi_v = factored.factors "v"
local WOODS = {"Douglas Fir-Larch No.3", "Hem-Fir No.3", "Spruce-Pine-Fir No.3",
  table.unpack(wood.names)}

-- Combinations and their lambda, NDS Table N3.
local TIME = {["dead load alone, 1.4D"] = 0.6,
  ["dead load and live load of storage, 1.2D + 1.6L"] = 0.7,
  ["dead load and live load of occupancy, 1.2D + 1.6L"] = 0.8}
local LOADS = {}
for name in pairs(TIME) do LOADS[#LOADS + 1] = name end
table.sort(LOADS, point.less)

local function wet(p) return p.service == "wet, over 19 %" end

-- lambda, the seven factors of the kind by allowable stresses, and what they make.
local function chain()
  local steps = {
    {"lambda", "0.6 dead load alone, 0.7 storage, 0.8 occupancy", "",
      ask = "Time effect factor", marks = 1, clause = "NDS Table N3",
      value = function(_, p) return TIME[p.loads] end},
  }
  table.move(base.steps, 1, 7, 2, steps)
  return table.move({
    {"F_b'", "F_b*C_M*C_F*C_i*C_r*K_Fb*phi_b*lambda", "psi",
      ask = "Adjusted value in bending", marks = 3, clause = "NDS 4.3.1"},
    {"F_v'", "F_v*C_Mv*C_i*K_Fv*phi_v*lambda", "psi", ask = "Adjusted value in shear",
      marks = 2, clause = "NDS 4.3.1"},
    {"E_min'", "E_min*C_Me*C_ie*K_FE*phi_s", "psi",
      ask = "Adjusted modulus for stability", marks = 2, clause = "NDS 4.3.1"},
  }, 1, 3, #steps + 1, steps)
end

return {
  name = "adjusted_values", order = base.order, standards = {"us-nds-2018-lrfd"},
  title = "Adjusted design values, LRFD",
  vary = {
    size = {"2x4", "2x6", "2x8", "2x10", "2x12"}, wood = WOODS, loads = LOADS,
    service = {"dry", "wet, over 19 %"}, incised = {"no", "yes"},
    row = {"single", "four at 16 in under a deck"},
  },
  given = function(p)
    local v = wood.values(p.wood, p.size)
    return {
      {"", p.size .. " " .. p.wood, "", "Member"},
      {"", p.loads, "", "combination"},
      {"", p.service, "", "moisture in service"},
      {"", p.incised, "", "incised for treatment"},
      {"", p.row, "", "joists in the row"},
      {"F_b", v.Fb, "psi", "reference value in bending"},
      {"F_v", v.Fv, "psi", "reference value in shear"},
      {"E_min", v.Emin, "psi", "reference modulus for stability"},
      {"K_Fb", K_b, "", "format conversion, bending"},
      {"phi_b", phi_b, "", "resistance factor, bending"},
      {"K_Fv", K_v, "", "format conversion, shear"},
      {"phi_v", phi_v, "", "resistance factor, shear"},
      {"K_FE", 1.76, "", "format conversion, E_min"},
      {"phi_s", 0.85, "", "resistance factor, stability"},
    }
  end,
  question = "Find the adjusted design values by load and resistance factors. "
    .. "Temperature is ordinary, the deck holds the top edge, the member stands on edge. "
    .. "Incising: 0.80 on strengths, 0.95 on moduli.",
  modes = base.modes, suits = base.suits,
  steps = chain(),
  mistakes = {
    {of = {"lambda", "F_b'", "F_v'"}, with = {lambda = "1"},
      name = "the time effect factor of short loads",
      reveals = "1.0 is for wind and earthquake: here 0.6, 0.7 or 0.8"},
    {of = {"F_b'", "F_v'"}, with = {["F_b'"] = "F_b*C_M*C_F*C_i*C_r*lambda",
      ["F_v'"] = "F_v*C_Mv*C_i*lambda"}, name = "format conversion left out",
      reveals = "reference values are for allowable stress; K_F phi brings them over"},
    {of = {"C_M", "F_b'"},
      with = {C_M = function(_, p) return wet(p) and 0.85 or 1.0 end},
      name = "0.85 for wet service whatever the value",
      reveals = "the footnote: where F_b*C_F is 1150 psi or less the factor is 1"},
    {of = "F_b'", formula = "F_b*C_M*C_F*C_i*K_Fb*phi_b*lambda",
      name = "the repetitive factor left out",
      reveals = "three or more joists at 24 in or less under a deck"},
    {of = "F_v'", formula = "F_v*C_Mv*C_i*K_Fv*phi_v*lambda*C_F",
      name = "the size factor on shear", reveals = "C_F is for F_b, F_t and F_c"},
    {of = "E_min'", formula = "E_min*C_Me*C_ie*K_FE*phi_s*lambda",
      name = "the time effect factor on the modulus",
      reveals = "stability does not depend on the duration of the load"},
  },
  source = "bending and shear checks of a review by load and resistance factors",
  check = function(p)
    local j = wood.joist {size = p.size, wood = p.wood, span = 90, spacing = 16,
      dead = 10, live = 40, moisture = wet(p) and "wet" or "dry",
      incised = p.incised == "yes", repetitive = p.row == "single" and 1.0 or 1.15}
    local r, found = j:review(factored.options), {}
    for _, mode in ipairs {"bending", "shear"} do
      for _, step in ipairs(r:find("uncut", mode).steps) do
        if step.symbol:find "^F_[bv]'$" then
          found[step.symbol] = step.value / 0.8 * TIME[p.loads]
        end
      end
    end
    local Fb = j:adjusted "Fb"
    found.C_F, found.C_M = Fb.CF, Fb.CM
    found["E_min'"] = j:adjusted("Emin", factored.options).value
    return found
  end,
}
