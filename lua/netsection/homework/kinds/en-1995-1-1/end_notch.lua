-- SPDX-License-Identifier: MIT
-- Notch in the bottom of a joist over its bearing. EN 1995-1-1 6.5.2, 6.1.7.
local parts = require "netsection.parts"
local softwood = require "netsection.homework.softwood"

local BEARING = 50

local function notched(p)
  return softwood.joist(p, {cuts = {parts.end_notch {support = "left", face = "bottom",
    depth = p.depth .. " mm", length = p.reach + BEARING / 2 .. " mm"}}})
end

return {
  name = "end_notch", order = 70, standards = {"en-1995-1-1"}, units = "metric",
  title = "Notch over a bearing",
  vary = {
    class = {"C16", "C24", "C30"}, b = {45, 63}, d = {195, 220, 245},
    span = {3200, 3800, 4400}, spacing = {400, 600}, dead = {0.5, 0.8},
    live = {1.5, 2.0, 3.0}, depth = {30, 40, 50, 60, 75}, reach = {40, 60, 80},
  },
  given = function(p)
    return softwood.given(p, {
      {"n", p.depth, "mm", "depth of the notch, bottom, left end"},
      {"x", p.reach, "mm", "from the reaction to the corner of the notch"},
      {"f_vk", softwood.values(p.class).f_vk, "N/mm2", "shear strength"},
      {"k_mod", 0.8, "", "service class 1, medium-term"},
      {"k_sys", 1.1, "", "a deck shares the load"},
      {"k_cr", softwood.k_cr, "", "cracks, on the width"},
      {"k_n", 5, "", "solid timber"}, {"gamma_M", softwood.gamma_M, "", "solid timber"},
    })
  end,
  question = "The left end of this joist was notched in the bottom, square, to sit on a "
    .. "plate. With 1.35 on permanent and 1.5 on imposed load, compute whether the "
    .. "notched end carries the shear at the support, taken in full.",
  modes = {"the end carries it", "the end does not carry it"},
  suits = function(_, s)
    if s.ratio < 0.35 or s.ratio > 1.7 then return nil end
    return s.ratio <= 1 and "the end carries it" or "the end does not carry it"
  end,
  steps = {
    {"p_d", "(1.35*G + 1.5*Q)*s/1000", "kN/m", ask = "Design load per meter of joist",
      marks = 2, clause = "EN 1990 eq. 6.10"},
    {"V_d", "p_d*L/2", "kN", ask = "Design shear at the support", marks = 1,
      clause = "statics"},
    {"h_ef", "h - n", "mm", says = "depth left"},
    {"alpha", "h_ef/h", "", ask = "alpha, the part of the depth left", marks = 1,
      clause = "EN 1995-1-1 6.5.2"},
    {"k_v", "min(1, k_n/(sqrt(h)*(sqrt(alpha*(1 - alpha)) + 0.8*x/h*sqrt(1/alpha - "
      .. "alpha^2))))", "", ask = "Notch factor k_v", marks = 3,
      clause = "EN 1995-1-1 eq. 6.62"},
    {"tau_d", "1.5*1000*V_d/(k_cr*b*h_ef)", "N/mm2", ask = "Shear stress of what is left",
      marks = 2, clause = "EN 1995-1-1 eq. 6.60"},
    {"f_vd", "k_mod*k_sys*f_vk/gamma_M", "N/mm2", ask = "Design value in shear",
      marks = 1, clause = "EN 1995-1-1 2.4.1"},
    {"ratio", "tau_d/(k_v*f_vd)", "", ask = "Ratio of demand to capacity", marks = 1},
    {"carries", "the ratio against 1", "", ask = "Does the end carry it?", marks = 1,
      choice = {"yes", "no"}, hint = "up to a ratio of 1 it does",
      value = function(s) return s.ratio <= 1 and "yes" or "no" end},
  },
  edge = {"ratio"},
  mistakes = {
    {of = {"p_d", "V_d", "ratio"}, with = {p_d = "(G + Q)*s/1000"},
      name = "loads without factors",
      reveals = "strength is checked with factored loads: 1.35 and 1.5"},
    {of = {"V_d", "ratio"}, with = {V_d = "p_d*L"}, name = "the reaction not halved",
      reveals = "two bearings share the load of a simple span"},
    {of = {"alpha"}, with = {alpha = "n/h"}, name = "the part that was cut",
      reveals = "alpha is h_ef/h, what is left"},
    {of = {"k_v", "ratio"}, with = {k_v = "1"}, name = "no notch factor",
      reveals = "the corner splits: k_v takes the strength down"},
    {of = {"k_v", "ratio"},
      with = {k_v = "min(1, k_n/(sqrt(h)*sqrt(alpha*(1 - alpha))))"},
      name = "the distance to the corner left out",
      reveals = "the reaction turns the end about the corner: the term with x"},
    {of = {"tau_d", "ratio"}, with = {tau_d = "1.5*1000*V_d/(k_cr*b*h)"},
      name = "the whole depth", reveals = "only h_ef is over the notch"},
    {of = {"tau_d", "ratio"}, with = {tau_d = "1.5*1000*V_d/(b*h_ef)"},
      name = "cracks left out", reveals = "k_cr takes the width down to 0.67 b"},
  },
  figure = function(p, _, draw)
    return draw.elevation(notched(p):review(softwood.options))
  end,
  source = "review of the notched joist (notch-shear)",
  check = function(p)
    local k, found = notched(p):review(softwood.options):find("cut", "notch-shear", 1), {}
    for _, step in ipairs(k.steps) do
      if step.symbol == "k_v" then found.k_v = step.value end
    end
    found.ratio, found.carries = k.ratio, k.ratio <= 1 and "yes" or "no"
    found.V_d = k.demand / require "netsection.units".per.kN
    return found
  end,
}
