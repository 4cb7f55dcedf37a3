-- SPDX-License-Identifier: MIT
-- The lines of a calculation on fasteners: symbol = formula, with unit and clause. The
-- values are those of the core; the formula is a second statement of the same
-- arithmetic, which tests work out again from its inputs.
--
-- A line is {symbol, formula, unit, clause =, says =, key =}: 'key' is the name in the
-- record where it differs; a line without a formula states a given. Units: in if absent.
local lane = require "netsection.lane"
local point = require "netsection.point"
local steps = {}

-- Symbols on paper that stand for another name of the record.
local ALIAS = {["Z'"] = "Z_adj", ["W'"] = "W_adj", ["P'"] = "P_adj", ["F_v'"] = "F_v",
  ["F_t'"] = "F_t", CD = "C_D"}

local function name_of(record, symbol)
  local name = ALIAS[symbol]
  return name and record[name] ~= nil and name or symbol
end

local function inputs_of(record, formula)
  local inputs = {}
  for symbol in formula:gmatch "%f[%w_][%a_][%w_]*'?" do
    inputs[symbol] = record[name_of(record, symbol)]
  end
  return inputs
end

-- Units of inputs that are no lines: strengths in psi, lengths in in, others without.
local function unit_by_name(symbol)
  if symbol:find "^[FE]_" then return "psi" end
  if symbol:find "^[GCKRk]" or symbol:find "^theta" or symbol:find "^sin2"
    or symbol == "n" or symbol == "pi" or symbol == "m" or symbol == "u" then
    return ""
  end
  return "in"
end

local function units_of(inputs, lines)
  local list = {}
  for symbol in pairs(inputs) do
    list[symbol] = unit_by_name(symbol)
    for _, line in ipairs(lines) do
      if line[1] == symbol then list[symbol] = line[3] or "in" end
    end
  end
  return list
end

-- Lines with their values: {symbol, formula, value, unit, clause, says, inputs,
-- input_units, own_units = true: the formula holds in in, lb and psi only}.
local function filled(record, lines)
  local out = {}
  if lane.alone() then return out end
  for i, line in ipairs(lines) do
    local formula = line[2]
    local inputs = formula and inputs_of(record, formula) or nil
    out[i] = {symbol = line[1], formula = formula,
      value = record[line.key or name_of(record, line[1])], unit = line[3] or "in",
      clause = line.clause, says = line.says,
      inputs = inputs, input_units = inputs and units_of(inputs, lines),
      own_units = line.own}
  end
  return out
end

local function adder()
  local lines = {}
  return lines, function(line) lines[#lines + 1] = line end
end

-------------------------------------------------------------------------------- lateral

local SMALL = 0.25 - 1e-9

local function reach_line(r)
  if r.pen > 0 then return {"p", says = "penetration, given"} end
  return {"p", r.kind == "lag screw" and "L - t_s - E" or "L - t_s",
    says = "penetration in the main member"}
end

local function penetration(r, add)
  local times = r.kind == "lag screw" and {4, 8} or {6, 10}
  if r.t_m > 0 and r.p == r.t_m then
    add {"p", "t_m", says = "through the main member"}
  else
    add(reach_line(r))
  end
  add {"p_min", ("%d*D"):format(times[1]), clause = "NDS 12.1"}
  if r.refused then return end
  add {"p_full", ("%d*D"):format(times[2])}
  local short = r.p < r.p_full - 1e-9
  if not short then
    add {"l_m", "p"}
  elseif r.by_equations then
    add {"l_m", r.kind == "lag screw" and "p" or "p - E/2", clause = "NDS 12.3.5.3"}
  else
    add {"C_p", "p/p_full", "", says = "short penetration",
      clause = "NDS Table 12N, notes"}
    add {"l_m", "p_full", says = "as for the full value"}
  end
end

local function bearing_lengths(r, add)
  if r.twin then
    add {"l_m", "t_m"}
    add {"p_far", says = "penetration in the far side member"}
    if r.refused then
      if r.p_min > 0 then add {"p_min", r.kind == "lag screw" and "4*D" or "6*D"} end
      return
    end
    add {"l_s", "p_far"}
  elseif r.kind == "bolt" then
    add {"l_m", "t_m"}
    add {"l_s", "t_s"}
  else
    penetration(r, add)
    if not r.refused then add {"l_s", "t_s"} end
  end
end

local ROUNDED = "to the nearest 50 psi, as in the NDS tables"

-- Dowel bearing strength of the member 'm' or 's'.
local function wood_bearing(r, m, add)
  local function line(symbol, formula, clause)
    if r.table_Fe then
      add {symbol, nil, "psi", says = formula .. ", " .. ROUNDED, clause = clause}
    else
      add {symbol, formula, "psi", clause = clause, own = true}
    end
  end
  local G, F, theta = "G_" .. m, "F_e" .. m, "theta_" .. m
  add {G, nil, "", says = "specific gravity"}
  if r.D < SMALL then
    return line(F, ("16600*%s^1.84"):format(G), "NDS 12.3.3")
  end
  local par, perp, sin2 = ("F_%spar"):format(m), ("F_%sperp"):format(m), "sin2_" .. m
  line(par, ("11200*%s"):format(G), "NDS 12.3.3")
  if r[theta] == 0 then return add {F, par, "psi"} end
  line(perp, ("6100*%s^1.45/D^0.5"):format(G), "NDS 12.3.3")
  add {theta, nil, "deg", says = "load to grain"}
  add {sin2, nil, "", says = "sine squared"}
  add {F, ("%s*%s/(%s*%s + %s*(1 - %s))"):format(par, perp, par, sin2, perp, sin2), "psi",
    clause = "NDS 12.3.4"}
end

local function bearing(r, add)
  wood_bearing(r, "m", add)
  if r.G_s > 0 then
    wood_bearing(r, "s", add)
  elseif r.table_Fe then
    add {"F_es", nil, "psi", says = "of the steel, down to 50 psi", clause = "NDS App. I"}
  else
    add {"F_es", r.t_s < SMALL and "1.375*F_u" or "1.5*F_u", "psi",
      says = "of the steel", clause = "NDS App. I"}
  end
  if r.D_e == r.D then
    add {"D_e", "D", says = "diameter in the equations"}
  else
    add {"D_e", "D_r", says = "root diameter", clause = "NDS 12.3.7"}
  end
  add {"R_e", "F_em/F_es", ""}
  add {"R_t", "l_m/l_s", ""}
end

local function reduction_terms(r, add)
  local small = r.D < SMALL
  if not small then
    add {"theta", nil, "deg", says = "largest angle of load to grain"}
    add {"K_t", "1 + 0.25*theta/90", "", clause = "NDS Table 12.3.1B"}
  end
  if r.D_e < SMALL then
    local nominal = r.D_k ~= r.D_e
    local formula = r.D_k <= 0.17 and "2.2" or nominal and "10*D + 0.5" or "10*D_e + 0.5"
    add {"K_D", formula, "", clause = "NDS Table 12.3.1B", own = formula ~= "2.2" or nil,
      says = nominal and "of the nominal diameter" or nil}
  end
  for i, times in ipairs {"4", "3.6", "3.2"} do
    local formula = small and "K_D" or r.D_e < SMALL and "K_D*K_t" or times .. "*K_t"
    if not (r.twin and i == 2) then add {"R_" .. i, formula, ""} end
  end
end

local K_1 = "((R_e + 2*R_e^2*(1 + R_t + R_t^2) + R_t^2*R_e^3)^0.5 - R_e*(1 + R_t))"
  .. "/(1 + R_e)"
local K_2 = "(2*(1 + R_e) + 2*F_yb*(1 + 2*R_e)*D_e^2/(3*F_em*l_m^2))^0.5 - 1"
local K_3 = "(2*(1 + R_e)/R_e + 2*F_yb*(2 + R_e)*D_e^2/(3*F_em*l_s^2))^0.5 - 1"

local function yield(r, add)
  local twice = r.twin and "2*" or ""
  local function mode(symbol, formula)
    add {symbol, formula, "lb", clause = "NDS Table 12.3.1A"}
  end
  add {"F_yb", nil, "psi", says = "bending yield strength"}
  mode("Im", "D_e*l_m*F_em/R_1")
  mode("Is", twice .. "D_e*l_s*F_es/R_1")
  if not r.twin then
    add {"k_1", K_1, ""}
    mode("II", "k_1*D_e*l_s*F_es/R_2")
    add {"k_2", K_2, ""}
    mode("IIIm", "k_2*D_e*l_m*F_em/((1 + 2*R_e)*R_3)")
  end
  add {"k_3", K_3, ""}
  mode("IIIs", twice .. "k_3*D_e*l_s*F_em/((2 + R_e)*R_3)")
  mode("IV", twice .. "D_e^2/R_3*(2*F_em*F_yb/(3*(1 + R_e)))^0.5")
  add {"Z_0", r.mode, "lb", says = r.twin and "the least mode, both planes"
    or "the least mode"}
end

local FACTORS = {CD = "NDS 11.3.2", CM = "NDS 11.3.3", Ct = "NDS 11.3.4",
  Cg = "NDS 11.3.6", C_delta = "NDS 12.5.1", Ceg = "NDS 12.5.2", Ctn = "NDS 12.5.4"}
local SAYS = {CD = "load duration", CM = "moisture", Ct = "temperature",
  Cg = "group action", C_delta = "distances", Ceg = "end grain", Ctn = "toe-nail"}
local ORDER = {"CD", "CM", "Ct", "Cg", "C_delta", "Ceg", "Ctn"}

local function factors(r, add, names)
  for _, name in ipairs(names) do
    if r[name_of(r, name)] ~= 1 then
      add {name, nil, "", says = SAYS[name], clause = FACTORS[name]}
    end
  end
end

function steps.lateral(r, asked)
  local lines, add = adder()
  if r.mode == "rated" and not r.refused then
    add {"Z_0", nil, "lb", says = "the maker's rated value"}
  else
    bearing_lengths(r, add)
    if r.refused then return filled(r, lines) end
    bearing(r, add)
    reduction_terms(r, add)
    yield(r, add)
  end
  add {"Z", r.C_p == 1 and "Z_0" or "Z_0*C_p", "lb"}
  if asked then
    factors(r, add, ORDER)
    add {"Z'", "Z*CD*CM*Ct*Cg*C_delta*Ceg*Ctn", "lb", clause = "NDS Table 11.3.1"}
  end
  return filled(r, lines)
end

----------------------------------------------------------------------------- withdrawal

local W = {
  ["lag screw"] = {"W", "1800*G^1.5*D^0.75", "lb/in", clause = "NDS 12.2-1",
    own = true},
  ["wood screw"] = {"W", "2850*G^2*D", "lb/in", clause = "NDS 12.2-2", own = true},
  nail = {"W", "1380*G^2.5*D", "lb/in", clause = "NDS 12.2-3", own = true},
}

function steps.withdrawal(r, asked, known)
  local lines, add = adder()
  if r.rated > 0 then
    add {"W", nil, "lb/in", says = "the maker's rated value"}
  else
    add(W[r.kind])
  end
  if asked then
    local names = {"CD", "CM", "Ct", "Ceg", "Ctn"}
    factors(r, add, names)
    add {"W'", "W*CD*CM*Ct*Ceg*Ctn", "lb/in", clause = "NDS Table 11.3.1"}
  end
  if known then
    add {"p_t", says = "thread in the main member"}
    add {"P", "W*p_t", "lb"}
    if asked then add {"P'", "W'*p_t", "lb"} end
  end
  return filled(r, lines)
end

---------------------------------------------------------------------------------- groups

function steps.Cg(r)
  local lines, add = adder()
  if r.slip > 0 then
    add {"gamma", nil, "lb/in", says = "load/slip modulus, given"}
  else
    add {"gamma", (r.steel and "270000" or "180000") .. "*D^1.5", "lb/in", own = true,
      clause = r.steel and "NDS 11.3.6 (memory)" or "NDS 11.3.6"}
  end
  add {"EA_m", "E_m*A_m", "lb"}
  add {"EA_s", "E_s*A_s", "lb"}
  add {"R_EA", r.EA_s < r.EA_m and "EA_s/EA_m" or "EA_m/EA_s", ""}
  add {"u", "1 + gamma*s/2*(1/EA_m + 1/EA_s)", ""}
  add {"m", "u - (u^2 - 1)^0.5", ""}
  if r.D < SMALL then
    add {"Cg", "1", "", says = "D under 1/4 in", clause = "NDS 11.3.6.1"}
  elseif r.n < 2 then
    add {"Cg", "1", "", says = "one fastener"}
  elseif r.Cg == 1 then
    add {"Cg", nil, "", says = "members stiff against the fasteners"}
  else
    add {"Cg", "m*(1 - m^(2*n))/(n*((1 + R_EA*m^n)*(1 + m) - 1 + m^(2*n)))*"
      .. "(1 + R_EA)/(1 - m)", "", clause = "NDS 11.3-1"}
  end
  return filled(r, lines)
end

-- Distances are multiples of D from the pack, but rows by l/D.
function steps.distances(r, times, set)
  local record = {D = times.D, l = times.l, row_used = times.row_used}
  for name, value in pairs(r) do record[name] = value end
  local lines, add = adder()
  local clause = ("%s (%s)"):format(set.source, set.confidence)
  for _, name in ipairs {"end_min", "end_full", "edge", "loaded_edge", "spacing_min",
    "spacing_full", "row", "row_staggered"} do
    local k = times[name]
    local formula = k and point.format("%.4g*D", k)
    if name == "row" and k == 0 then
      local slender = times.l / times.D
      formula = slender <= 2 and "2.5*D" or slender < 6 and "(5*l + 10*D)/8" or "5*D"
    elseif name == "edge" and record.edge ~= k * times.D then
      formula = "row_used/2"
    end
    if formula then add {name, formula, clause = clause} end
  end
  return filled(record, lines)
end

function steps.C_delta(r, is_small)
  local lines, add = adder()
  if is_small then
    add {"C_delta", "1", "", says = "D under 1/4 in", clause = "NDS 12.5.1.1"}
    return filled(r, lines)
  end
  add {"e", says = "end distance"}
  add {"e_full", says = "for the full value", clause = "NDS Table 12.5.1A (memory)"}
  add {"C_e", r.C_e < 1 and "e/e_full" or "1", ""}
  add {"s", says = "spacing in the row"}
  add {"s_full", says = "for the full value", clause = "NDS Table 12.5.1B (memory)"}
  add {"C_s", r.C_s < 1 and "s/s_full" or "1", ""}
  add {"C_delta", r.refused and "0" or r.C_e < r.C_s and "C_e" or "C_s", "",
    clause = "NDS 12.5.1.2 (memory)"}
  return filled(r, lines)
end

function steps.tear_out(r)
  local memory = "NDS App. E (memory)"
  return filled(r, {
    {"s_crit", (r.n < 2 or r.e < r.s) and "e" or "s"},
    {"Z_RTi", "n*F_v'*t*s_crit", "lb", says = "one row", clause = memory},
    {"Z_RT", "rows*Z_RTi", "lb", says = "row tear-out", clause = memory},
    {"A_g", r.A_g > 0 and "(rows - 1)*(g - D_h)*t" or "0", "in2",
      says = "net area between the outer rows"},
    {"Z_GT", "Z_RTi/2 + Z_RTi/2 + F_t'*A_g", "lb", says = "group tear-out",
      clause = memory},
    {"A_n", r.A_n > 0 and "(d - rows*D_h)*t" or "0", "in2", says = "net area"},
    {"Z_NT", "F_t'*A_n", "lb", says = "net tension", clause = memory},
  })
end

function steps.between_cuts(r)
  return filled(r, {
    {"l", says = "wood between the two cuts"},
    {"F_v'", nil, "psi"},
    {"Z_s", "F_v'/2*b*l", "lb", says = "one plane, half of the stress on average",
      clause = "NDS App. E (memory)"},
  })
end

----------------------------------------------------------------------------------- slip

local function density_line(rho, G, given)
  if given > 0 then return {rho, nil, "kg/m3", says = "mean density, given"} end
  return {rho, ("1000*%s/(1 + 0.009*%s*12)*(1 + 12/100)"):format(G, G), "kg/m3",
    says = "at 12 % moisture", clause = "NDS Supplement (memory)"}
end

function steps.slip(r)
  if not r.european then
    return filled(r, {{"K", r.steel and "270000*D^1.5" or "180000*D^1.5", "lb/in",
      own = true,
      clause = r.steel and "NDS 11.3.6 (memory)" or "NDS 11.3.6"}})
  end
  local lines, add = adder()
  add(density_line("rho_1", "G_m", r.rho_m))
  if r.steel then
    add {"rho", "rho_1", "kg/m3"}
  else
    add(density_line("rho_2", "G_s", r.rho_s))
    add {"rho", "(rho_1*rho_2)^0.5", "kg/m3", clause = "EN 1995-1-1 7.1(2)"}
  end
  add {"d_mm", "25.4*D", "mm", own = true}
  local one = r.kind == "nail" and not r.prebored and "rho^1.5*d_mm^0.8/30"
    or "rho^1.5*d_mm/23"
  add {"K_N", (r.steel and "2*" or "") .. one, "N/mm", clause = "EN 1995-1-1 Table 7.1"}
  add {"K", "K_N*25.4/4.4482216152605", "lb/in", own = true}
  return filled(r, lines)
end

---------------------------------------------------------------------------------- steel

local function least_of(a, b, first)
  return first and a or b
end

local function plate_lines(r, add)
  local crush = 2.4 * r.D * r.t * r.F_u
  add {"T_u", "F_u*A_e/2", "lb", says = "rupture", clause = "AISC 360 J4.1(b)"}
  add {"B_e", least_of("1.2*l_e*t*F_u", "2.4*D*t*F_u", r.B_e < crush), "lb",
    says = "bearing at the end", clause = "AISC 360 J3.10"}
  if r.n > 1 then
    add {"B_i", least_of("1.2*l_i*t*F_u", "2.4*D*t*F_u", r.B_i < crush), "lb",
      says = "bearing of the others", clause = "AISC 360 J3.10"}
  end
  add {"T_b", "rows*(B_e + (n - 1)*B_i)/2", "lb", says = "bearing of all"}
end

local function sheet_lines(add)
  add {"T_u", "F_u*A_n/3", "lb", says = "rupture at the screws",
    clause = "AISI S100 Table J6-1 (memory)"}
  add {"B_e", "2.7*t*D*F_u", "lb", says = "bearing", clause = "AISI S100 J4.3.1"}
  add {"T_b", "rows*(B_e + (n - 1)*B_i)/3", "lb", says = "bearing of all"}
  add {"A_te", "2*t*l_e", "in2", clause = "AISI S100 J6.1 (memory)"}
  add {"A_ti", "2*t*l_i", "in2"}
  add {"T_t", "0.6*F_u*rows*(A_te + (n - 1)*A_ti)/3", "lb", says = "tear-out"}
end

function steps.steel(r)
  local lines, add = adder()
  add {"A_g", "w*t", "in2"}
  add {"T_y", "F_y*A_g/1.67", "lb", says = "yield",
    clause = r.sheet and "AISI S100 D2 (memory)" or "AISC 360 J4.1(a)"}
  add {"d_n", r.sheet and "D_h" or "D_h + 1/16",
    clause = not r.sheet and "AISC 360 B4.3b (memory)" or nil}
  add {"A_n", r.A_n > 0 and "(w - rows*d_n)*t" or "0", "in2"}
  if not r.sheet then
    add {"A_e", least_of("A_n", "0.85*A_g", r.A_n <= 0.85 * r.A_g), "in2"}
  end
  add {"l_e", r.l_e > 0 and "e - D_h/2" or "0", says = "clear to the end"}
  if r.n > 1 then add {"l_i", r.l_i > 0 and "s - D_h" or "0", says = "clear between"} end
  if r.sheet then sheet_lines(add) else plate_lines(r, add) end
  add {"A_gv", "2*(e + (n - 1)*s)*t", "in2"}
  add {"A_nv", r.A_nv > 0 and "A_gv - 2*(n - 0.5)*d_n*t" or "0", "in2"}
  add {"A_nt", r.A_nt > 0 and "(rows - 1)*(g - d_n)*t" or "0", "in2"}
  local shear = least_of("0.6*F_u*A_nv", "0.6*F_y*A_gv", r.F_u * r.A_nv < r.F_y * r.A_gv)
  add {"T_bs", ("(%s + F_u*A_nt)/%d"):format(shear, r.sheet and 3 or 2), "lb",
    says = "block shear", clause = r.sheet and "AISI S100 J6 (memory)"
    or "AISC 360 J4.3"}
  local KEY = {yield = "T_y", rupture = "T_u", bearing = "T_b", ["tear-out"] = "T_t",
    ["block shear"] = "T_bs"}
  add {"T", KEY[r.governs], "lb", says = "the least"}
  return filled(r, lines)
end

function steps.sheet_screw(r)
  local lines, add = adder()
  local clause = "AISI S100 J4.3.1"
  add {"B_1", "2.7*t_1*D*F_u1", "lb", clause = clause}
  if r.t_2 > 0 then
    local ratio = r.t_2 / r.t_1
    add {"B_2", "2.7*t_2*D*F_u2", "lb", clause = clause}
    add {"P_t", "4.2*(t_2^3*D)^0.5*F_u2", "lb", says = "tilting", clause = clause}
    add {"P_c", least_of("B_1", "B_2", r.B_1 < r.B_2), "lb"}
    add {"P_s", least_of("P_t", "P_c", r.P_t < r.P_c), "lb"}
    add {"P_ns", ratio <= 1 and "P_s" or ratio >= 2.5 and "P_c"
      or "P_s + (P_c - P_s)*(t_2/t_1 - 1)/1.5", "lb", clause = clause}
  else
    add {"P_ns", "B_1", "lb", says = "wood behind: bearing alone"}
  end
  add {"P_as", "P_ns/3", "lb", says = "allowable shear"}
  if r.d_w > 0 then
    add {"P_aov", "1.5*t_1*d_w*F_u1/3", "lb", says = "pull-over",
      clause = "AISI S100 J4.4.2"}
  end
  if r.t_2 > 0 then
    add {"P_aot", "0.85*t_2*D*F_u2/3", "lb", says = "pull-out",
      clause = "AISI S100 J4.4.1"}
  end
  return filled(r, lines)
end

function steps.shear(r)
  return filled(r, {
    {"F_nv", nil, "psi", says = "steel as of low-carbon bolts",
      clause = "AISC 360 Table J3.2 (memory)"},
    {"D_r", says = "root diameter"},
    {"V", "F_nv*pi/4*D_r^2/2", "lb", clause = "AISC 360 J3.6"},
  })
end

return steps
