-- SPDX-License-Identifier: MIT
-- A nail, screw, bolt or dowel in single shear between two pieces of softwood by EN
-- 1995-1-1 chapter 8: characteristic and design value with rope effect, all modes,
-- K_ser. Chapter 8 is from memory and no published example of a fastener has been met
-- with it, so it is shown and no repair is reviewed with it. N, mm, N/mm2, kg/m3.
local core = require "netsection.core"
local data = require "netsection.fastener_data"
local packs = require "netsection.packs"
local point = require "netsection.point"
local strength_class = require "netsection.strength_class"
local units = require "netsection.units"
local tostring = require "netsection.point".text

local johansen = {}

local fail = data.fail
local MM = 25.4
local FIELDS = {"kind", "diameter", "root", "length", "thread", "head", "fu", "side",
  "main", "washer", "hole", "predrilled", "service_class", "duration", "number",
  "standard"}
local PIECE = {"class", "density", "mean_density", "thickness", "angle"}
local KINDS = {"nail", "screw", "bolt", "dowel"}
local DURATION = {"permanent", "long", "medium", "short", "instantaneous"}

local function mm(what, value, needed)
  local x = data.length(what, value, needed)
  return x and x * MM or 0
end

-- Densities of a piece, from a strength class or as given.
local function piece(t, name, d, i)
  local what = "johansen." .. name
  local p = t[name]
  data.only(what, p, PIECE)
  if (p.class == nil) == (p.density == nil) then
    fail("%s: class or density expected, one of them", what)
  end
  if p.class ~= nil then
    local values, why = strength_class.of(tostring(p.class), 1, 10)
    if not values then fail("%s: %s", what, why) end
    d["rho_" .. i], d["rho_m" .. i] = values.rho_k, values.rho_mean
  else
    d["rho_" .. i] = data.number(what .. ".density", p.density, 100, 1200)
    d["rho_m" .. i] = p.mean_density ~= nil
      and data.number(what .. ".mean_density", p.mean_density, 100, 1200)
      or d["rho_" .. i]
  end
  d["alpha_" .. i] = data.number(what .. ".angle", p.angle, 0, 90, 0)
  d["t_" .. i] = mm(what .. ".thickness", p.thickness, i == 1)
end

-- The lines of the calculation; what stands without a formula is a given.
local function lines_of(r)
  local nail = r.kind == "nail" or r.kind == "screw" and r.d_ef <= 6
  local f_h = nail and (r.predrilled and "0.082*(1 - 0.01*d_ef)*rho_%d"
    or "0.082*rho_%d*d_ef^(0 - 0.3)")
    or "0.082*(1 - 0.01*d_ef)*rho_%d/(k_90*s2_%d + c2_%d)"
  local clause = nail and (r.predrilled and "8.3.1.1, eq. 8.16" or "8.3.1.1, eq. 8.15")
    or "8.5.1.1, eq. 8.31, 8.32"
  local list = {
    {"M_yRk", "0.3*f_u*d_ef^2.6", "N mm", "8.3.1.1, 8.5.1.1"},
    {"f_h1k", (f_h:gsub("%%d", "1")), "N/mm2", clause},
    {"f_h2k", (f_h:gsub("%%d", "2")), "N/mm2", clause},
    {"beta", "f_h2k/f_h1k", "", "8.2.2"},
    {"F_axRk", nil, "N", r.kind == "bolt" and "8.5.2" or r.kind == "screw" and "8.7.2"
      or "8.3.2"},
    {"J_a", "f_h1k*t_1*d_ef", "N", "eq. 8.6a"}, {"J_b", "f_h2k*t_pen*d_ef", "N",
      "eq. 8.6b"},
    {"J_c", "f_h1k*t_1*d_ef/(1 + beta)*(sqrt(beta + 2*beta^2*(1 + t_pen/t_1 "
      .. "+ (t_pen/t_1)^2) + beta^3*(t_pen/t_1)^2) - beta*(1 + t_pen/t_1))", "N",
      "eq. 8.6c"},
    {"J_d", "1.05*f_h1k*t_1*d_ef/(2 + beta)*(sqrt(2*beta*(1 + beta) + 4*beta*(2 + beta)"
      .. "*M_yRk/(f_h1k*d_ef*t_1^2)) - beta)", "N", "eq. 8.6d"},
    {"J_e", "1.05*f_h1k*t_pen*d_ef/(1 + 2*beta)*(sqrt(2*beta^2*(1 + beta) + 4*beta*(1 "
      .. "+ 2*beta)*M_yRk/(f_h1k*d_ef*t_pen^2)) - beta)", "N", "eq. 8.6e"},
    {"J_f", "1.15*sqrt(2*beta/(1 + beta))*sqrt(2*M_yRk*f_h1k*d_ef)", "N", "eq. 8.6f"},
  }
  for _, mode in ipairs {"c", "d", "e", "f"} do
    list[#list + 1] = {"F_" .. mode, ("J_%s + min(F_axRk/4, cap*J_%s)"):format(mode,
      mode), "N", "8.2.2(2)"}
  end
  list[#list + 1] = {"F_vRk", nil, "N", "8.2.2: mode " .. r.mode}
  list[#list + 1] = {"F_vRd", "k_mod*F_vRk/gamma_M", "N", "2.4.3"}
  local driven = r.kind == "nail" and not r.predrilled
  list[#list + 1] = {"K_ser", driven and "rho_m^1.5*d^0.8/30" or "rho_m^1.5*d/23",
    "N/mm", "Table 7.1"}
  return list
end

local function steps_of(r)
  local steps = {}
  for i, line in ipairs(lines_of(r)) do
    steps[i] = {symbol = line[1], formula = line[2], value = r[line[1]], unit = line[3],
      clause = line[4] .. (line[1] ~= "K_ser" and ", memory" or ""),
      inputs = line[2] and r or nil}
  end
  return steps
end

local function duration_of(t)
  local said = type(t.duration) == "string" and t.duration:lower():gsub("[%s-]term$", "")
    or t.duration == nil and "medium"
  for i, word in ipairs(DURATION) do
    if said == word then return i end
  end
  fail("johansen.duration: one of %s expected, got %s", table.concat(DURATION, ", "),
    tostring(t.duration))
end

-- What the core is given.
local function read(t)
  local kind = data.word("johansen.kind", t.kind, KINDS)
  if not kind then fail("johansen.kind: one of %s", table.concat(KINDS, ", ")) end
  local d = {kind = kind, predrilled = t.predrilled == true}
  if t.predrilled ~= nil and type(t.predrilled) ~= "boolean" then
    fail("johansen.predrilled: true or false expected, got %s", tostring(t.predrilled))
  end
  d.d = mm("johansen.diameter", t.diameter, true)
  d.d_1 = mm("johansen.root", t.root, kind == "screw")
  local driven = kind == "nail" or kind == "screw"
  d.l = mm("johansen.length", t.length, driven)
  d.l_g, d.d_h = mm("johansen.thread", t.thread), mm("johansen.head", t.head)
  d.D_w, d.D_i = mm("johansen.washer", t.washer), mm("johansen.hole", t.hole)
  d.f_u = data.number("johansen.fu", t.fu, 100, 2000)
  piece(t, "side", d, 1)
  piece(t, "main", d, 2)
  if not driven and d.t_2 <= 0 then fail "johansen.main.thickness: missing" end
  if driven and d.l <= d.t_1 then
    fail "johansen.length: the fastener does not reach into the main piece"
  end
  local side = t.side.class and strength_class.of(tostring(t.side.class), 1, 10)
  d.f_c90k = side and side.Fc_perp / units.per.MPa or nil
  return d
end

local function work(t)
  local standard, why = packs.standard(t.standard or "en-1995-1-1")
  if not standard then fail("johansen: %s", why) end
  local f = standard.data.factors
  if standard.data.family ~= "ec5" then
    fail("johansen: %s is no standard of EN 1995-1-1", standard.data.name)
  end
  local service = data.number("johansen.service_class", t.service_class, 1, 3, 1)
  local number = data.number("johansen.number", t.number, 1, 200, 1)
  local k_mod = f.k_mod.values[math.floor(service)]
  if not k_mod or service % 1 ~= 0 then
    fail "johansen.service_class: 1, 2 or 3 expected"
  end
  local given = read(t)
  local r = core.dowel.johansen(given)
  r.kind, r.predrilled = given.kind, given.predrilled
  r.k_mod, r.gamma_M = k_mod[duration_of(t)], f.gamma_M.value
  r.rho_m = math.sqrt(r.rho_m1 * r.rho_m2)
  r.k_90 = 1.35 + 0.015 * r.d_ef
  for i = 1, 2 do
    local a = math.rad(r["alpha_" .. i])
    r["s2_" .. i], r["c2_" .. i] = math.sin(a) ^ 2, math.cos(a) ^ 2
  end
  r.F_vRd = r.k_mod * r.F_vRk / r.gamma_M
  local out = {F_vRk = r.F_vRk, F_vRd = r.F_vRd, F_vRd_all = number * r.F_vRd,
    number = number, mode = r.mode, modes = {}, without_rope = {}, K_ser = r.K_ser,
    confidence = "memory", steps = steps_of(r), values = r, standard = standard.data.name,
    notes = {"chapter 8 of EN 1995-1-1 is from memory and no published example of such a "
      .. "fastener was met with it: shown, no repair is reviewed with it",
      "fasteners across the grain: n_ef = n; distances are not looked at"}}
  for _, mode in ipairs {"a", "b", "c", "d", "e", "f"} do
    out.modes[mode], out.without_rope[mode] = r["F_" .. mode], r["J_" .. mode]
  end
  if r.too_short then
    out.refused = point.format("%.1f mm at the point, where 8 d of a nail or 6 d of a "
      .. "screw is needed (8.3.1.2, 8.7.1)", r.t_pen)
  end
  return out
end

--- See lua/README.md.
johansen.of = data.public(function(t)
  data.only("johansen", t, FIELDS)
  return work(t)
end)

return johansen
