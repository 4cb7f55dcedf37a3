-- SPDX-License-Identifier: MIT
-- Softwood of EN 338 that several metric kinds share: strengths by class, factors of the
-- standard's own file, a joist for the independent check and for figures. Lengths in mm,
-- loads in kN/m2, strengths in N/mm2.
local classes = require "netsection.standards.en-1995-1-1.classes".classes
local joist = require "netsection.joist"
local packs = require "netsection.packs"
local point = require "netsection.point"

local softwood = {standard = "en-1995-1-1", gamma_M = 1.3, k_cr = 0.67}

softwood.options = {standard = softwood.standard}
softwood.names = {"C16", "C18", "C24", "C27", "C30"}
softwood.durations = {"permanent", "long-term", "medium-term", "short-term",
  "instantaneous"}

--- Values of a class: f_mk, f_vk, f_c90k, E_0mean and others.
function softwood.values(class) return classes[class] end

local data = assert(packs.read("standards", softwood.standard))

--- k_mod of a service class and a duration by its name. EN 1995-1-1 Table 3.1.
function softwood.k_mod(service, duration)
  for i, name in ipairs(softwood.durations) do
    if name == duration then return data.factors.k_mod.values[service][i] end
  end
end

--- k_def of a service class. EN 1995-1-1 Table 3.2.
function softwood.k_def(service) return data.factors.k_def.values[service] end

--- What is given of a joist under its floor, and rows of the problem's own.
-- @param p base values class, b, d, span, spacing, dead, live
function softwood.given(p, more)
  local rows = {
    {"", ("%d x %d mm, %s"):format(p.b, p.d, p.class), "", "Joist"},
    {"b", p.b, "mm", "thickness"}, {"h", p.d, "mm", "depth"},
    {"L", p.span / 1000, "m", "design span"}, {"s", p.spacing, "mm", "spacing"},
    {"G", p.dead, "kN/m2", "permanent load"}, {"Q", p.live, "kN/m2", "imposed load"},
  }
  return table.move(more, 1, #more, #rows + 1, rows)
end

local LENGTHS = {"b", "d", "span", "spacing"}

--- A joist of the base values, in service class 1 under medium-term load unless told
-- otherwise; deflection is not limited.
function softwood.joist(p, more)
  local t = {mark = "Q", class = p.class, service_class = 1, duration = "medium-term",
    bearing = "50 mm", limits = false, units = "metric"}
  for _, name in ipairs(LENGTHS) do t[name] = point.format("%.10g mm", p[name]) end
  for name, value in pairs {dead = p.dead, live = p.live} do
    t[name] = point.format("%.10g kPa", value)
  end
  for name, value in pairs(more or {}) do t[name] = value end
  return joist.new(t)
end

return softwood
