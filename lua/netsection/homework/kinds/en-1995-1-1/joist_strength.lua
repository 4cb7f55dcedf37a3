-- SPDX-License-Identifier: MIT
-- Bending and shear of an uncut joist. EN 1995-1-1 6.1.6, 6.1.7; EN 1990 eq. 6.10.
local softwood = require "netsection.homework.softwood"

return {
  name = "joist_strength", order = 45, standards = {"en-1995-1-1"}, units = "metric",
  title = "Bending and shear of a joist",
  vary = {
    class = {"C16", "C18", "C24"}, b = {45, 47, 63}, d = {170, 195, 220},
    span = {3200, 3600, 4000, 4400, 4800, 5200}, spacing = {400, 500, 600},
    dead = {0.5, 0.75, 1.0}, live = {1.5, 2.0, 3.0},
  },
  given = function(p)
    local v = softwood.values(p.class)
    return softwood.given(p, {
      {"f_mk", v.f_mk, "N/mm2", "bending strength"},
      {"f_vk", v.f_vk, "N/mm2", "shear strength"},
      {"k_mod", 0.8, "", "service class 1, medium-term"},
      {"k_sys", 1.1, "", "a deck shares the load"},
      {"k_cr", softwood.k_cr, "", "cracks, on the width in shear"},
      {"gamma_M", softwood.gamma_M, "", "solid timber"},
    })
  end,
  question = "Check this joist on two bearings in bending and shear, with 1.35 on "
    .. "permanent and 1.5 on imposed load. Take the shear at the support in full; the "
    .. "depth factor is 1.",
  modes = {"strong enough", "not strong enough"},
  suits = function(_, s)
    if s.u_m < 0.4 or s.u_m > 1.6 then return nil end
    return s.u_m <= 1 and "strong enough" or "not strong enough"
  end,
  steps = {
    {"p_d", "(1.35*G + 1.5*Q)*s/1000", "kN/m", ask = "Design load per meter of joist",
      marks = 2, clause = "EN 1990 eq. 6.10"},
    {"M_d", "p_d*L^2/8", "kN m", ask = "Design moment at mid-span", marks = 1,
      clause = "statics"},
    {"V_d", "p_d*L/2", "kN", ask = "Design shear at the support", marks = 1},
    {"W", "b*h^2/6", "mm3", ask = "Section modulus", marks = 1},
    {"sigma_md", "1000000*M_d/W", "N/mm2", ask = "Bending stress", marks = 1,
      clause = "EN 1995-1-1 6.1.6"},
    {"f_md", "k_mod*k_sys*f_mk/gamma_M", "N/mm2", ask = "Design value in bending",
      marks = 1, clause = "EN 1995-1-1 2.4.1"},
    {"u_m", "sigma_md/f_md", "", ask = "Ratio in bending", marks = 1},
    {"tau_d", "1.5*1000*V_d/(k_cr*b*h)", "N/mm2", ask = "Shear stress", marks = 2,
      clause = "EN 1995-1-1 6.1.7"},
    {"f_vd", "k_mod*k_sys*f_vk/gamma_M", "N/mm2", says = "design value in shear"},
    {"u_v", "tau_d/f_vd", "", ask = "Ratio in shear", marks = 1},
    {"strong", "both ratios against 1", "", ask = "Is the joist strong enough?",
      marks = 1, choice = {"yes", "no"}, hint = "both ratios have to be 1 or less",
      value = function(s) return math.max(s.u_m, s.u_v) <= 1 and "yes" or "no" end},
  },
  edge = {"u_m", "u_v"},
  mistakes = {
    {of = {"p_d", "M_d", "V_d", "u_m"}, with = {p_d = "(G + Q)*s/1000"},
      name = "loads without factors",
      reveals = "strength is checked with factored loads: 1.35 and 1.5"},
    {of = {"M_d", "sigma_md"}, with = {M_d = "p_d*L^2/2"}, name = "the moment w L^2/2",
      reveals = "a simple span has w L^2/8 at its middle"},
    {of = {"W", "sigma_md"}, with = {W = "b*h^3/12"}, name = "the second moment for W",
      reveals = "W is b h^2/6"},
    {of = {"f_md", "u_m"}, with = {f_md = "k_sys*f_mk/gamma_M"}, name = "k_mod left out",
      reveals = "wood gives way under load that stays"},
    {of = {"f_md", "u_m"}, with = {f_md = "k_mod*k_sys*f_mk"},
      name = "gamma_M left out",
      reveals = "the material has a partial factor of its own"},
    {of = {"tau_d", "u_v"}, with = {tau_d = "1.5*1000*V_d/(b*h)"},
      name = "cracks left out", reveals = "k_cr takes the width down to 0.67 b"},
    {of = {"tau_d", "u_v"}, with = {tau_d = "1000*V_d/(k_cr*b*h)"},
      name = "the mean shear stress", reveals = "at mid-depth it is 1.5 times the mean"},
  },
  figure = function(p, _, draw)
    return draw.sections {unit = "mm", {name = p.class, b = p.b, d = p.d}}
  end,
  source = "review of the joist: bending and shear",
  check = function(p)
    local r = softwood.joist(p):review(softwood.options)
    local m, v = r:find("uncut", "bending"), r:find("uncut", "shear")
    local kN = require "netsection.units".per.kN
    return {u_m = m.ratio, u_v = v.ratio, V_d = v.demand / kN,
      strong = math.max(m.ratio, v.ratio) <= 1 and "yes" or "no"}
  end,
}
