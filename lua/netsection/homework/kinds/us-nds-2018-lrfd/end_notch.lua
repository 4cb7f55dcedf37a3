-- SPDX-License-Identifier: MIT
-- Notch in the bottom of a joist over its bearing, by load and resistance factors. NDS
-- 3.4.3.2(a), 4.3.1, 4.4.3, Appendix N; IRC R502.8.1.
local base = require "netsection.homework.kinds.end_notch"
local factored = require "netsection.homework.factored"
local parts = require "netsection.parts"
local wood = require "netsection.homework.wood"

local function notched(p)
  return {size = p.size, wood = p.wood, span = p.span, spacing = p.spacing, dead = p.dead,
    live = p.live, cuts = {parts.end_notch {support = "left", face = "bottom",
      depth = p.depth}}}
end

return {
  name = "end_notch", order = base.order, standards = {"us-nds-2018-lrfd"},
  title = "Notch over a bearing, factored",
  vary = base.vary, modes = base.modes, figure = base.figure,
  given = function(p)
    return wood.given(p, {
      {"n", p.depth, "in", "depth of the notch, bottom, left end"},
      {"F_v", wood.values(p.wood, p.size).Fv, "psi", "reference value in shear"},
      factored.rows("v", "shear"),
    })
  end,
  question = "The left end of this joist was notched in the bottom to sit on a plate. "
    .. "By load and resistance factors, combination 1.2D + 1.6L: compute what the "
    .. "notched end carries; take the reaction in full. Then say whether the code's "
    .. "limit of d/4 covers the notch, and how deep it could be.",
  suits = function(p, s)
    if s.ratio < 0.3 or s.ratio > 1.6 or math.abs(p.depth / s.limit - 1) < 0.02
      or s.n_v < 0.3 * s.d / 4 then
      return nil
    end
    return p.depth <= s.limit and "within d/4" or "deeper than d/4"
  end,
  steps = {
    {"w_u", "(1.2*D + 1.6*L_L)*s/12", "plf", ask = "Factored load per foot of joist",
      marks = 1, clause = "statics", hint = "each load with its own factor"},
    {"R_u", "w_u*L/2", "lb", ask = "Factored reaction at the left bearing", marks = 1},
    {"F_v'", "F_v*K_F*phi*lambda", "psi", ask = "Adjusted value in shear", marks = 2,
      clause = "NDS 4.3.1, Appendix N"},
    {"f_v", "1.5*R_u/(b*d)", "psi", ask = "Shear stress of the whole section under R_u",
      marks = 1, clause = "NDS 3.4.2"},
    {"d_n", "d - n", "in", says = "depth left"},
    {"V'", "2/3*F_v'*b*d_n*(d_n/d)^2", "lb", ask = "Shear that the notched end carries",
      marks = 3, clause = "NDS 3.4.3.2(a)"},
    {"ratio", "R_u/V'", "", ask = "Ratio of demand to capacity", marks = 1},
    {"limit", "d/4", "in", ask = "Deepest notch within the code's limit", marks = 1,
      clause = "NDS 4.4.3, IRC R502.8.1"},
    {"rule", "n against d/4", "", ask = "Is the notch within that limit?", marks = 1,
      choice = {"within", "outside"}, hint = "compare with the actual depth over 4",
      value = function(s) return s.n <= s.limit + 1e-9 and "within" or "outside" end},
    {"n_v", "d - cbrt(1.5*R_u*d^2/(F_v'*b))", "in",
      ask = "Notch depth at which V' comes down to R_u", marks = 2,
      clause = "NDS 3.4.3.2(a)", tolerance = 0.02},
    {"n_most", "min(n_v, limit)", "in", ask = "Deepest notch that both allow", marks = 1},
  },
  edge = {"ratio"},
  mistakes = {
    {of = {"w_u", "R_u", "ratio"}, with = {w_u = "(D + L_L)*s/12"},
      name = "loads without factors",
      reveals = "in this format the loads are raised, 1.2 and 1.6"},
    {of = {"F_v'", "V'", "ratio"}, with = {["F_v'"] = "F_v*K_F*phi"},
      name = "the time effect factor left out",
      reveals = "lambda stands in the place of the load duration factor"},
    {of = {"F_v'", "V'"}, with = {["F_v'"] = "F_v"},
      name = "the value of allowable stress design",
      reveals = "factored loads go with K_F, phi and lambda"},
    {of = "V'", formula = "2/3*F_v'*b*d", name = "the whole depth, no notch factor",
      reveals = "only the wood over the notch carries, and less than its area says"},
    {of = "V'", formula = "2/3*F_v'*b*d_n", name = "the depth left, no notch factor",
      reveals = "the corner splits: the factor (d_n/d)^2 is missing"},
    {of = "V'", formula = "2/3*F_v'*b*d_n*d_n/d", name = "the factor not squared",
      reveals = "NDS 3.4.3.2(a) has the square of d_n/d"},
    {of = {"limit", "n_most"}, with = {limit = "ceil(d)/4"},
      name = "a fourth of the nominal depth",
      reveals = "the limits speak of actual depth"},
    {of = "n_most", formula = "max(n_v, limit)", name = "the larger of the two",
      reveals = "both have to be met"},
  },
  source = "review of the notched joist by load and resistance factors (notch-shear)",
  check = function(p)
    local r = wood.joist(notched(p)):review(factored.options)
    local k = r:find("cut", "notch-shear", 1)
    local found = {["V'"] = k.capacity, R_u = k.demand, ratio = k.ratio, rule = "within"}
    for _, breach in ipairs(r.rules.breaches) do
      if breach.cut == 1 then found.rule = "outside" end
    end
    return found
  end,
}
