-- SPDX-License-Identifier: MIT
-- Design values of strength: k_mod, k_h, k_sys and gamma_M. EN 1995-1-1 2.4.1, 3.1.3,
-- 3.2, 6.6; strengths of EN 338.
local softwood = require "netsection.homework.softwood"

local SHARED, ALONE = "joists of a deck that shares the load", "a member by itself"

return {
  name = "adjusted_values", order = 40, standards = {"en-1995-1-1"}, units = "metric",
  title = "Design values of strength",
  vary = {
    class = {"C14", "C16", "C18", "C22", "C24", "C27", "C30", "C35"},
    d = {90, 100, 120, 195}, service = {1, 3, 2}, duration = softwood.durations,
    row = {ALONE, SHARED},
  },
  given = function(p)
    local v = softwood.values(p.class)
    return {
      {"", ("47 x %d mm, %s"):format(p.d, p.class), "", "Member"},
      {"", p.service, "", "service class"},
      {"", p.duration, "", "duration of the load"},
      {"", p.row, "", "system"},
      {"h", p.d, "mm", "depth"}, {"gamma_M", softwood.gamma_M, "", "solid timber"},
      {"f_mk", v.f_mk, "N/mm2", "bending strength"},
      {"f_vk", v.f_vk, "N/mm2", "shear strength"},
      {"f_c90k", v.f_c90k, "N/mm2", "compression across the grain"},
    }
  end,
  question = "Find the design values of this solid softwood member on edge.",
  steps = {
    {"k_mod", "by service class and duration", "", ask = "Modification factor k_mod",
      marks = 2, clause = "EN 1995-1-1 3.1.3, Table 3.1",
      value = function(_, p) return softwood.k_mod(p.service, p.duration) end},
    {"k_h", "(150/h)^0.2 below 150 mm, at most 1.3, else 1", "", ask = "Depth factor k_h",
      marks = 2, clause = "EN 1995-1-1 3.2(3)", tolerance = 0.01,
      value = function(s)
        return s.h < 150 and math.min((150 / s.h) ^ 0.2, 1.3) or 1.0
      end},
    {"k_sys", "1.1 where a deck shares the load, else 1", "", ask = "System factor k_sys",
      marks = 1, clause = "EN 1995-1-1 6.6",
      value = function(_, p) return p.row == SHARED and 1.1 or 1.0 end},
    {"f_md", "k_mod*k_h*k_sys*f_mk/gamma_M", "N/mm2", ask = "Design value in bending",
      marks = 3, clause = "EN 1995-1-1 2.4.1"},
    {"f_vd", "k_mod*k_sys*f_vk/gamma_M", "N/mm2", ask = "Design value in shear",
      marks = 2, clause = "EN 1995-1-1 2.4.1"},
    {"f_c90d", "k_mod*f_c90k/gamma_M", "N/mm2", marks = 1,
      ask = "Design value across the grain, at one bearing",
      clause = "EN 1995-1-1 2.4.1"},
  },
  mistakes = {
    {of = {"f_md", "f_vd", "f_c90d"}, with = {f_md = "k_mod*k_h*k_sys*f_mk",
      f_vd = "k_mod*k_sys*f_vk", f_c90d = "k_mod*f_c90k"},
      name = "gamma_M left out",
      reveals = "the material has a partial factor of its own"},
    {of = {"k_mod", "f_md", "f_vd"}, with = {k_mod = function(_, p)
      return softwood.k_mod(p.service == 3 and 1 or 3, p.duration)
    end}, name = "k_mod of another service class",
      reveals = "classes 1 and 2 are alike in the table, class 3 is outdoors"},
    {of = {"k_mod", "f_md", "f_vd"}, with = {k_mod = "1"}, name = "k_mod taken as 1",
      reveals = "wood gives way under load that stays: the table is by duration"},
    {of = "f_md", formula = "k_mod*k_sys*f_mk/gamma_M",
      name = "the depth factor left out",
      reveals = "below 150 mm the value in bending is raised"},
    {of = "f_vd", formula = "k_mod*k_h*k_sys*f_vk/gamma_M",
      name = "the depth factor on shear", reveals = "k_h is for bending and tension"},
    {of = {"f_md", "f_vd"}, with = {f_md = "k_mod*k_h*f_mk/gamma_M",
      f_vd = "k_mod*f_vk/gamma_M"}, name = "the system factor left out",
      reveals = "joists that a deck joins help each other"},
  },
  source = "bending, shear and bearing checks of the review",
  check = function(p)
    local j = softwood.joist({class = p.class, b = 47, d = p.d, span = 2400,
      spacing = 400, dead = 0.5, live = 1.5}, {service_class = p.service,
      duration = p.duration, repetitive = p.row == ALONE and 1.0 or nil})
    local r = j:review(softwood.options)
    local found, MPa = {}, require "netsection.units".per.MPa
    for _, mode in ipairs {"bending", "shear", "bearing"} do
      for _, step in ipairs(r:find("uncut", mode).steps) do
        if step.symbol:find "^f_.*d$" then found[step.symbol] = step.value / MPa end
      end
    end
    return found
  end,
}
