-- SPDX-License-Identifier: MIT
-- Deflection at once and in the end, with creep. EN 1995-1-1 2.2.3, Table 3.2; bending
-- alone.
local core = require "netsection.core"
local softwood = require "netsection.homework.softwood"

return {
  name = "final_deflection", order = 105, standards = {"en-1995-1-1"}, units = "metric",
  title = "Deflection at once and in the end",
  vary = {
    class = {"C16", "C18", "C24", "C30"}, b = {45, 47, 63}, d = {195, 220, 245},
    span = {3600, 4000, 4400, 4800}, spacing = {400, 500, 600}, dead = {0.5, 0.75, 1.0},
    live = {1.5, 2.0}, service = {1, 2, 3},
  },
  given = function(p)
    return softwood.given(p, {
      {"E", softwood.values(p.class).E_0mean, "N/mm2", "mean modulus"},
      {"", p.service, "", "service class"},
      {"psi_2", 0.3, "", "imposed load of a dwelling, category A"},
      {"n", 250, "", "limit of the final deflection is L/n"},
    })
  end,
  question = "Find the deflection of this joist on two bearings, at once and in the end, "
    .. "by bending alone, and compare the final one with L/250. Loads have no factors "
    .. "here.",
  modes = {"within the limit", "beyond the limit"},
  suits = function(_, s)
    if s.ratio < 0.4 or s.ratio > 1.6 then return nil end
    return s.ratio <= 1 and "within the limit" or "beyond the limit"
  end,
  steps = {
    {"g", "G*s/1000", "kN/m", ask = "Permanent load per meter of joist", marks = 1,
      clause = "statics"},
    {"q", "Q*s/1000", "kN/m", ask = "Imposed load per meter of joist", marks = 1},
    {"I", "b*h^3/12", "mm4", ask = "Second moment", marks = 1},
    {"w_G", "5*g*(1000*L)^4/(384*E*I)", "mm", marks = 2, clause = "statics",
      ask = "Deflection by permanent load at once"},
    {"w_Q", "5*q*(1000*L)^4/(384*E*I)", "mm", ask = "Deflection by imposed load at once",
      marks = 1},
    {"k_def", "by service class", "", ask = "Creep factor k_def", marks = 1,
      clause = "EN 1995-1-1 Table 3.2",
      value = function(_, p) return softwood.k_def(p.service) end},
    {"w_inst", "w_G + w_Q", "mm", ask = "w_inst, at once", marks = 1,
      clause = "EN 1995-1-1 2.2.3(2)"},
    {"w_fin", "w_G*(1 + k_def) + w_Q*(1 + psi_2*k_def)", "mm", ask = "w_fin, in the end",
      marks = 3, clause = "EN 1995-1-1 2.2.3(5)",
      hint = "creep is of all permanent and of the lasting part of imposed load"},
    {"ratio", "w_fin/(1000*L/n)", "", ask = "Final deflection over its limit", marks = 1},
  },
  edge = {"ratio"},
  mistakes = {
    {of = {"w_fin", "ratio"}, with = {w_fin = "(w_G + w_Q)*(1 + k_def)"},
      name = "creep of all imposed load",
      reveals = "only psi_2 of the imposed load lasts"},
    {of = {"w_fin", "ratio"}, with = {w_fin = "w_G + w_Q"}, name = "no creep",
      reveals = "wood goes on bending under load that stays"},
    {of = {"w_fin", "ratio"}, with = {w_fin = "w_G*(1 + k_def) + w_Q"},
      name = "no creep of imposed load",
      reveals = "a part psi_2 of the imposed load lasts"},
    {of = {"w_G", "w_inst"}, with = {w_G = "1.35*5*g*(1000*L)^4/(384*E*I)"},
      name = "factored load", reveals = "deflection is that of loads without factors"},
    {of = {"I", "w_G"}, with = {I = "b*h^2/6"}, name = "the section modulus for I",
      reveals = "I is b h^3/12"},
    {of = {"k_def"}, with = {k_def = function(_, p)
      return softwood.k_def(p.service % 3 + 1)
    end}, name = "k_def of another service class",
      reveals = "0.6 indoors and heated, 0.8 covered, 2.0 outdoors"},
  },
  figure = function(p, _, draw)
    return draw.sections {unit = "mm", {name = p.class, b = p.b, d = p.d}}
  end,
  source = "the beam solver: deflection at mid-span under each load",
  check = function(p)
    local EI = softwood.values(p.class).E_0mean * p.b * p.d ^ 3 / 12
    local function sag(load)
      local w = load * p.spacing / 1000
      return math.abs(core.beam {spans = {p.span}, EI = EI, loads = {{from = 0,
        to = p.span, w1 = w, w2 = w, case = "dead"}}}:at(p.span / 2).deflection)
    end
    local G, Q, k = sag(p.dead), sag(p.live), softwood.k_def(p.service)
    local w = G + Q + k * (G + 0.3 * Q)
    return {w_G = G, w_Q = Q, w_inst = G + Q, w_fin = w, ratio = w / (p.span / 250)}
  end,
}
