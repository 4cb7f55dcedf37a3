-- SPDX-License-Identifier: MIT
-- Notch in the bottom of a joist over its bearing. NDS 3.4.3.2(a), 4.4.3, IRC R502.8.1.
local parts = require "netsection.parts"
local wood = require "netsection.homework.wood"

local function notched(p)
  return {size = p.size, wood = p.wood, span = p.span, spacing = p.spacing, dead = p.dead,
    live = p.live, cuts = {parts.end_notch {support = "left", face = "bottom",
      depth = p.depth}}}
end

return {
  name = "end_notch", order = 70, standards = {"us-nds-2018-asd"},
  title = "Notch over a bearing",
  vary = {
    size = {"2x8", "2x10", "2x12"}, span = {120, 144, 168, 192}, spacing = {12, 16, 24},
    dead = {10, 15}, live = {30, 40}, depth = {1, 1.25, 1.5, 2, 2.25, 2.5, 3},
    wood = {wood.names[1], wood.names[2], wood.names[3]},
  },
  given = function(p)
    return wood.given(p, {
      {"n", p.depth, "in", "depth of the notch, bottom, left end"},
      {"F_v'", wood.values(p.wood, p.size).Fv, "psi", "adjusted value in shear"},
    })
  end,
  question = "The left end of this joist was notched in the bottom to sit on a plate. "
    .. "Compute what the notched end carries; take the reaction in full. Then say "
    .. "whether the code's limit of d/4 covers the notch, and how deep it could be.",
  modes = {"within d/4", "deeper than d/4"},
  suits = function(p, s)
    if s.ratio < 0.3 or s.ratio > 1.6 or math.abs(p.depth / s.limit - 1) < 0.02
      or s.n_v < 0.3 * s.d / 4 then
      return nil
    end
    return p.depth <= s.limit and "within d/4" or "deeper than d/4"
  end,
  steps = {
    {"w", "(D + L_L)*s/12", "plf", ask = "Load per foot of joist", marks = 1,
      clause = "statics"},
    {"R", "w*L/2", "lb", ask = "Reaction at the left bearing", marks = 1},
    {"M", "w*L^2/8", "ft-lb", ask = "Moment at mid-span", marks = 1},
    {"f_v", "1.5*R/(b*d)", "psi", ask = "Shear stress of the whole section under R",
      marks = 1, clause = "NDS 3.4.2"},
    {"d_n", "d - n", "in", says = "depth left"},
    {"V'", "2/3*F_v'*b*d_n*(d_n/d)^2", "lb", ask = "Shear that the notched end carries",
      marks = 3, clause = "NDS 3.4.3.2(a)"},
    {"ratio", "R/V'", "", ask = "Ratio of demand to capacity", marks = 1},
    {"limit", "d/4", "in", ask = "Deepest notch within the code's limit", marks = 1,
      clause = "NDS 4.4.3, IRC R502.8.1"},
    {"rule", "n against d/4", "", ask = "Is the notch within that limit?", marks = 1,
      choice = {"within", "outside"}, hint = "compare with the actual depth over 4",
      value = function(s) return s.n <= s.limit + 1e-9 and "within" or "outside" end},
    {"n_v", "d - cbrt(1.5*R*d^2/(F_v'*b))", "in",
      ask = "Notch depth at which V' comes down to R", marks = 2,
      clause = "NDS 3.4.3.2(a)", tolerance = 0.02},
    {"n_most", "min(n_v, limit)", "in", ask = "Deepest notch that both allow", marks = 1},
  },
  edge = {"ratio"},
  mistakes = {
    {of = "V'", formula = "2/3*F_v'*b*d", name = "the whole depth, no notch factor",
      reveals = "only the wood over the notch carries, and less than its area says"},
    {of = "V'", formula = "2/3*F_v'*b*d_n", name = "the depth left, no notch factor",
      reveals = "the corner splits: the factor (d_n/d)^2 is missing"},
    {of = "V'", formula = "2/3*F_v'*b*d_n*d_n/d", name = "the factor not squared",
      reveals = "NDS 3.4.3.2(a) has the square of d_n/d"},
    {of = {"R", "ratio"}, with = {R = "w*L"}, name = "the reaction not halved",
      reveals = "two bearings share the load of a simple span"},
    {of = {"limit", "n_most"}, with = {limit = "ceil(d)/4"}, name = "a fourth of the "
      .. "nominal depth", reveals = "the limits speak of actual depth"},
    {of = "limit", formula = "d/6", name = "the limit of notches in the span",
      reveals = "at the ends it is d/4, d/6 is for the outer thirds"},
    {of = "n_most", formula = "max(n_v, limit)", name = "the larger of the two",
      reveals = "both have to be met"},
  },
  figure = function(p, _, draw) return draw.elevation(notched(p)) end,
  source = "review of the notched joist (notch-shear, rules); V' = R put back",
  check = function(p)
    local r = wood.joist(notched(p)):review()
    local k = r:find("cut", "notch-shear", 1)
    local found = {["V'"] = k.capacity, R = k.demand, ratio = k.ratio,
      M = r.uncut.moment / 12, rule = "within"}
    for _, breach in ipairs(r.rules.breaches) do
      if breach.cut == 1 then found.rule = "outside" end
    end
    return found
  end,
}
