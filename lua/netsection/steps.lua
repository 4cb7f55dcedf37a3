-- SPDX-License-Identifier: MIT
-- The lines of a calculation: per mode and branch, symbol = formula, with unit and
-- clause. Values come from the record that the core's check filled; the formula is a
-- second statement of the same arithmetic, which tests evaluate against it.
--
-- A line is {symbol, formula, key =, unit =, clause =, says =}: 'key' is the symbol's
-- name in the record where it differs; a line without a formula states a given.
local core = require "netsection.core"

local steps = {}

local symbols = core.fields().symbol

-- Names on paper -> names in the record.
local BEND = {F_b = "F", ["F_b'"] = "F_a"}
local SHEAR = {F_v = "F", ["F_v'"] = "F_a"}
local BEAR = {F_cp = "F", ["F_cp'"] = "F_a"}
local TENSION = {F_t = "F", ["F_t'"] = "F_a", F_b = "F_2", F_bs = "F_a2", C = "C_2"}
local PRESS = {F_c = "F", ["F_c'"] = "F_a", F_b = "F_2", ["F_b'"] = "F_a2", C = "C_2"}

local ADJUST_BEND = {"F_b'", "F_b*CD*CM*Ct*CL*CF*Ci*Cr*K", clause = "NDS 4.3.1"}
local ADJUST_SHEAR = {"F_v'", "F_v*CD*CM*Ct*Ci*K", clause = "NDS 4.3.1"}
local FREE = {"l_u", says = "free length of the bottom edge"}
local FREE_E = {"l_e", says = "effective length", clause = "NDS Table 3.3.3"}
local FREE_CL = {"CL", says = "beam stability factor", clause = "NDS 3.3.3.8"}
local MOMENT = {"M", says = "moment there, live load placed for the most"}
local FORCE = {"V", says = "shear there, live load placed for the most"}

local function list(...)
  local all = {}
  for i = 1, select("#", ...) do all[i] = (select(i, ...)) end
  return all
end

local NET = {
  {"A", says = "net area"},
  {"y_b", says = "own centroid above the bottom edge"},
  {"I", says = "second moment about it"},
}

local function net_bending(edge, hogging)
  local lines = {MOMENT, NET[1], NET[2], NET[3]}
  if edge == "bottom" then
    lines[#lines + 1] = {"S_b", says = "modulus at the bottom edge left"}
    lines[#lines + 1] = {"f_b", "k_n*M/S_b", clause = "NDS 3.2.3.1"}
  elseif edge == "top" then
    lines[#lines + 1] = {"S_t", says = "modulus at the top edge left"}
    lines[#lines + 1] = {"f_b", "k_n*M/S_t", clause = "NDS 3.2.3.1"}
  else
    lines[#lines + 1] = {"S_min", says = "least modulus of any opening within this one"}
    lines[#lines + 1] = {"f_b", "k_n*M/S_min", clause = "NDS 3.2.3.1"}
  end
  if hogging then
    lines[#lines + 1], lines[#lines + 2] = FREE, FREE_E
    lines[#lines + 1] = FREE_CL
  end
  lines[#lines + 1] = ADJUST_BEND
  lines[#lines + 1] = {"ratio", "f_b/F_b'"}
  return {alias = BEND, lines = lines}
end

local function bending(hogging)
  local lines = {{"M", says = "largest moment"}, {"S", "b*d^2/6"},
    {"f_b", "M/S", clause = "NDS 3.3.2"}}
  if hogging then
    lines[#lines + 1], lines[#lines + 2] = FREE, FREE_E
    lines[#lines + 1] = FREE_CL
  end
  lines[#lines + 1] = ADJUST_BEND
  lines[#lines + 1] = {"M'", "F_b'*S", key = "capacity"}
  lines[#lines + 1] = {"ratio", "M/(F_b'*S)"}
  return {alias = BEND, lines = lines}
end

local function shear_by(capacity, clause, givens)
  local lines = {FORCE}
  for _, given in ipairs(givens or {}) do lines[#lines + 1] = given end
  lines[#lines + 1] = ADJUST_SHEAR
  lines[#lines + 1] = {"V'", capacity, key = "capacity", clause = clause}
  lines[#lines + 1] = {"ratio", "V/(" .. capacity .. ")"}
  return {alias = SHEAR, lines = lines}
end

local LEFT = {"d_n", says = "depth left"}

local FRAME = {alias = BEND, lines = list(MOMENT, FORCE,
  {"a", says = "length of opening"},
  {"S_min", says = "least modulus of the net section"},
  {"h", says = "deeper chord"}, {"sum_h3", says = "sum of the cubes of the chords"},
  {"f_b", "M/S_min", clause = "NDS 3.2.3.1"},
  {"f_2", "3*V*a*h/(b*sum_h3)", says = "chord as a frame, V shared by h^3"},
  ADJUST_BEND, {"ratio", "(f_b + f_2)/F_b'"})}

-- A support under an opening: what is left below it is a short beam.
local PRESSED_CHORD = {alias = BEND, lines = list(
  {"R", says = "reaction of the support"}, {"a", says = "length of the opening"}, {"b"},
  {"h", says = "wood below it"},
  {"M", "R*a/4", clause = "statics", says = "as a simple beam, R in its middle"},
  {"S", "b*h^2/6"}, {"f_b", "M/S", clause = "NDS 3.3.2"}, ADJUST_BEND,
  {"ratio", "f_b/F_b'"})}

local NET_I = {"I", says = "net section, the worst within this opening"}

-- How far a chord counts as a tie or a strut.
local LENGTH = {"L_o", says = "length of the opening that counts (half of a diameter)"}
local TAU = {"tau", "min(max(L_o/h - 1, 0), 1)*min(max(2 - 4*h/d, 0), 1)",
  clause = "a judgment of ours, supported by no test"}
local FRAME_STRESS = {"f_2", says = "chord as a frame"}
local TENSION_STRESS = list(MOMENT, FORCE,
  {"z", says = "between chord centroids"},
  {"N", "M/z", says = "force in the chord"}, {"h", says = "chord in tension"},
  {"y", says = "centroid from its edge"}, NET_I,
  {"f_t", "M*(y - h/2)/I", says = "mean tension"}, {"f_b", "M*h/2/I"}, FRAME_STRESS,
  {"C", says = "all factors on F_b but CL"}, {"F_bs", "F_b*C", says = "F_b*"},
  {"d"}, LENGTH, TAU)

local function join(first, ...)
  local all = {table.unpack(first)}
  for i = 1, select("#", ...) do all[#first + i] = (select(i, ...)) end
  return all
end

local LIP = {alias = TENSION, lines = join(TENSION_STRESS,
  {"F_t'", "F_t*CD*CM*Ct*CF*Ci*K", clause = "NDS 4.3.1"},
  {"r_1", "(f_t + f_b + f_2)/F_bs", says = "its edge by plain bending"},
  {"r_2", "f_t/F_t' + (f_b + f_2)/F_bs", clause = "NDS 3.9.1"},
  {"ratio", "r_1 + tau*max(r_2 - r_1, 0)"})}

local LIP_EDGE = {alias = TENSION, lines = join(TENSION_STRESS,
  {"ratio", "(f_t + f_b + f_2)/F_bs", says = "no tie: its edge by plain bending"})}

local PRESSED_STRESS = list(MOMENT, FORCE,
  {"h", says = "chord in compression"}, {"y", says = "centroid from its edge"}, NET_I,
  {"f_c", "M*(y - h/2)/I", says = "mean compression"}, {"f_b", "M*h/2/I"}, FRAME_STRESS,
  {"F_b'", "F_b*C"}, {"d"}, LENGTH, TAU)

local PRESSED = {alias = PRESS, lines = join(PRESSED_STRESS,
  {"F_c'", "F_c*CD*CM*Ct*CF*Ci*K*CP", clause = "NDS 3.7.1"},
  {"F_cE", says = "critical buckling value", clause = "NDS 3.9.2"},
  {"r_1", "(f_c + f_b + f_2)/F_b'", says = "its edge by plain bending"},
  {"r_2", "(f_c/F_c')^2 + (f_b + f_2)/(F_b'*(1 - f_c/F_cE))", clause = "NDS 3.9.2"},
  {"ratio", "r_1 + tau*max(r_2 - r_1, 0)"})}

local PRESSED_EDGE = {alias = PRESS, lines = join(PRESSED_STRESS,
  {"ratio", "(f_c + f_b + f_2)/F_b'", says = "no strut: its edge by plain bending"})}

-- One side of an opening alone, the other written off.
local function alone_bending(lost)
  return {alias = {["F_b'"] = "F_a", F_b = "F", C = "C_2"}, lines = list(MOMENT,
    {"h", says = "wood " .. lost}, {"b"}, {"S", "b*h^2/6"},
    {"f_b", "M/S", clause = "NDS 3.2.3.1"},
    {"F_b'", "F_b*C", clause = "NDS 4.3.1"}, {"ratio", "f_b/F_b'"})}
end

local function alone_shear(lost)
  return {alias = {["F_v'"] = "F_a", F_v = "F", C = "C_2"}, lines = list(FORCE,
    {"h", says = "wood " .. lost}, {"b"}, {"d"},
    {"d_n", says = "depth left where the lost face is in tension, else d"},
    {"F_v'", "F_v*C", clause = "NDS 4.3.1"},
    {"V'", "2/3*F_v'*b*h*(d_n/d)^2", key = "capacity", clause = "NDS 3.4.3.2(a)"},
    {"ratio", "V/(2/3*F_v'*b*h*(d_n/d)^2)"})}
end

local OVER = "above the opening, alone: the lower chord is written off"
local UNDER = "below the opening, alone: the upper chord is written off"

local NOTHING = {alias = {}, lines = list(
  {"ratio", says = "no wood left that counts: no capacity"})}

-- Wood above a cut that a strap bridges: what the steel balances, and what was locked in.
local function above_strap(stress)
  return {alias = {["F'"] = "F_a"}, lines = list(MOMENT,
    {"z", says = "from the steel to the middle of the pressure, cracked section"},
    {"T", "M/z"}, {"c", says = "depth of the zone in compression"},
    {"d_r", says = "wood above the cut"}, {"b"},
    {"f_b", says = "stress locked in the wood before"},
    {"f_c", stress .. " + f_b"},
    {"F'", says = "lesser of F_b' (Cr = 1) and F_c'", unit = "psi", clause = "NDS 4.3.1"},
    {"ratio", "f_c/F'"})}
end

-- A chord that would buckle: the sum of 3.9.2 has no meaning.
local BUCKLED = {alias = PRESS, lines = list(MOMENT, {"h", says = "chord in compression"},
  {"y", says = "centroid from its edge"}, NET_I,
  {"f_c", "M*(y - h/2)/I", says = "mean compression"},
  {"F_cE", says = "critical buckling value", clause = "NDS 3.9.2"},
  {"ratio", says = "f_c reaches F_cE: the chord buckles"})}

-- A group of fasteners, a strap, a plate, a hanger: what csrc/joint.c works out.
local GROUP = {"G", says = "largest force of the group"}
local PER_FASTENER = {"n_f", says = "fasteners in it"}
local FASTENERS = {
  {alias = {}, lines = list(GROUP, PER_FASTENER,
    {"Z", says = "lateral value of one fastener", clause = "NDS 12.3"},
    {"CD"}, {"C_z", says = "all other factors on Z"},
    {"Z_a", "Z*CD*C_z", clause = "NDS 11.3.1"},
    {"Z'", "n_f*Z_a", key = "capacity", unit = "lb"}, {"ratio", "G/(n_f*Z_a)"})},
  {alias = {}, lines = list(GROUP, PER_FASTENER,
    {"Z", says = "the maker's value, used as given"},
    {"Z'", "n_f*Z", key = "capacity", unit = "lb"}, {"ratio", "G/(n_f*Z)"})},
}

local function across_grain(capacity)
  return {alias = SHEAR, lines = list(GROUP,
    {"d"}, {"d_e", says = "d less the distance from the unloaded edge to the nearest "
      .. "fastener"}, ADJUST_SHEAR,
    {"V'", capacity, key = "capacity", clause = "NDS 3.4.3.3 (memory)"},
    {"ratio", "G/(" .. capacity .. ")"})}
end

local ADJUST_ONE = {"Z_a", "W*p*CD*C_z", clause = "NDS 12.2"}
local WITHDRAWAL = {
  {alias = {}, lines = list({"T", says = "tension across the grain"}, PER_FASTENER,
    {"W", says = "withdrawal value per inch of thread"},
    {"p", says = "thread in the wood that holds it"}, {"CD"},
    {"C_z", says = "all other factors on W"}, ADJUST_ONE,
    {"T'", "n_f*Z_a", key = "capacity", unit = "lb"}, {"ratio", "T/(n_f*Z_a)"})},
  {alias = {}, lines = list({"T", says = "tension across the grain"}, PER_FASTENER,
    {"Z", says = "the maker's value, used as given"},
    {"T'", "n_f*Z", key = "capacity", unit = "lb"}, {"ratio", "T/(n_f*Z)"})},
}

local ACROSS = {{"V", says = "reaction, in full"}, {"d_n", says = "depth left"}, {"d"},
  {"T", "1.3*V*(3*(1 - d_n/d)^2 - 2*(1 - d_n/d)^3)",
    clause = "DIN EN 1995-1-1/NA NA.6.8.3 (memory)"}}
for branch = 1, 2 do
  local lines = {table.unpack(ACROSS)}
  table.move(WITHDRAWAL[branch].lines, 2, #WITHDRAWAL[branch].lines, 5, lines)
  WITHDRAWAL[branch + 2] = {alias = {}, lines = lines}
end

local STEEL = {
  {alias = {}, lines = list({"T", says = "tension in the strap"},
    {"P_s", says = "least of yield, rupture and the holes"}, {"ratio", "T/P_s"})},
  {alias = {F_n = "F_a"}, lines = list({"M", says = "moment in the plates"},
    {"S", "b*d^2/6"}, {"F_y"}, {"t"}, {"l_u", says = "between rows of fasteners"},
    {"C_m", says = "1.67 where the moment falls to nothing at the outermost row, else 1"},
    {"F_n", says = "least of yield, buckling sideways between the rows, buckling of the "
      .. "edge", clause = "AISC 360 F11, F9.4 (memory)"},
    {"M'", "F_n*S/1.67", key = "capacity", clause = "AISC 360 F11 (memory)"},
    {"ratio", "M/(F_n*S/1.67)"})},
  {alias = {}, lines = list({"V", says = "shear in the plate"}, {"A", "b*d"}, {"F_y"},
    {"V'", "0.6*F_y*A/1.67", key = "capacity", clause = "AISC 360 G (memory)"},
    {"ratio", "V/(0.6*F_y*A/1.67)"})},
  {alias = {}, lines = list({"M", says = "moment"},
    {"M_a", says = "allowable moment as given, used as it is"}, {"ratio", "M/M_a"})},
  {alias = {}, lines = list({"V", says = "shear"},
    {"V_a", says = "allowable shear as given, used as it is"}, {"ratio", "V/V_a"})},
}

-- A solid post: the numbers that both ways of loading share, up to F_c'.
local POST = {["E_min'"] = "E_m", ["F_c'"] = "F_a", ["F_b'"] = "F_a2", F_c = "F",
  r = "r_1"}
local SLENDER = {{"P", says = "load on the post"},
  {"l_e1", says = "effective length for buckling along d_1"}, {"d_1"},
  {"l_e2", says = "effective length for buckling along d_2"}, {"d_2"},
  {"s_l", "max(l_e1/d_1, l_e2/d_2)", says = "slenderness, at most 50",
    clause = "NDS 3.7.1.3, 3.7.1.4"}}
local STAR = {"F_cs", "F_c*CD*CM*Ct*CF*Ci*K", says = "F_c*", clause = "NDS 4.3.1"}
local BUCKLING = join(SLENDER, {"E_min'", says = "adjusted modulus for stability"},
  {"F_cE", "0.822*E_min'/s_l^2", clause = "NDS 3.7.1.5"}, STAR,
  {"r", "F_cE/F_cs"},
  {"CP", "(1 + r)/1.6 - sqrt(((1 + r)/1.6)^2 - r/0.8)", says = "c = 0.8, sawn lumber",
    clause = "NDS 3.7.1.5"}, {"F_c'", "F_cs*CP", clause = "NDS 3.7.1.1"})
local COLUMN = {
  {alias = POST, lines = join(BUCKLING, {"A", "d_1*d_2"},
    {"P'", "F_c'*A", key = "capacity", unit = "lb"}, {"ratio", "P/(F_c'*A)"})},
  {alias = POST, lines = join(BUCKLING, {"A", "d_1*d_2"}, {"f_c", "P/A"},
    {"e_1", says = "eccentricity of the load along d_1"},
    {"F_cE1", "0.822*E_min'/(l_e1/d_1)^2", clause = "NDS 3.7.1.5"},
    {"F_b'", says = "adjusted bending value"},
    {"ratio", "(f_c/F_c')^2 + f_c*6*e_1/d_1*(1 + 0.234*f_c/F_cE1)"
      .. "/(F_b'*(1 - f_c/F_cE1))", clause = "NDS 15.4.1 (memory)"})},
  {alias = POST, lines = join(SLENDER,
    {"ratio", says = "more slender than 50: not permitted, no capacity"})},
}

local SOIL = {{alias = {}, lines = list({"P", says = "load on the footing"},
  {"q_s", says = "allowable pressure on the soil, as given"},
  {"gamma", says = "weight of the footing"}, {"t", says = "its thickness"},
  {"q_n", "q_s - gamma*t/12", says = "left for the load", clause = "statics"},
  {"B", says = "its side"}, {"P'", "q_n*(B/12)^2", key = "capacity", unit = "lb"},
  {"ratio", "P/(q_n*(B/12)^2)"})}}

local FOOTING = {{alias = {}, lines = list({"B", says = "side of the footing"},
  {"d_1", says = "side of what stands on it"}, {"a_p", "(B - d_1)/2",
    says = "how far it reaches past"}, {"t", says = "its thickness"},
  {"ratio", "a_p/t", clause = "IRC R403.1.1"})}}

-- What stands on the end grain of a post, or a post on what is under it.
local END_GRAIN = {alias = {F_c = "F"}, lines = list({"R", says = "load on the end"},
  {"d_1"}, {"d_2"}, {"A", "d_1*d_2"}, STAR,
  {"R'", "F_cs*A", key = "capacity", clause = "NDS 3.10.1"}, {"ratio", "R/(F_cs*A)"})}

local function sag(what)
  return {alias = {D = "D_L"}, lines = list(
    {"D", says = what .. ", EI as it is along the joist"},
    {"L", says = "span, or twice an overhang"}, {"n", says = "limit divisor"},
    {"limit", "L/n", key = "capacity", unit = "in", clause = "IRC Table R301.7"},
    {"ratio", "D/(L/n)"})}
end

local WHOLE_SHEAR = {alias = SHEAR, lines = list(
  {"V_0", says = "shear at the bearing, all loads"},
  {"V", says = "the same, of the load within d of its face uniform load left out, point "
    .. "loads counted by x/d", clause = "NDS 3.4.3.1(a)"},
  ADJUST_SHEAR,
  {"V'", "2/3*F_v'*b*d", key = "capacity", clause = "NDS 3.4.2"},
  {"ratio", "V/(2/3*F_v'*b*d)"})}

local templates = {
  bending = {bending(false), bending(true)},
  shear = {WHOLE_SHEAR, shear_by("2/3*F_v'*b*d", "NDS 3.4.2", {{"b"}, {"d"}})},
  ["host-bending"] = {bending(false), bending(true)},
  ["host-shear"] = {WHOLE_SHEAR, shear_by("2/3*F_v'*b*d", "NDS 3.4.2", {{"b"}, {"d"}})},
  fasteners = FASTENERS,
  ["connection-shear"] = {across_grain("2/3*F_v'*b*d_e*(d_e/d)^2"),
    across_grain("2/3*F_v'*b*d_e")},
  steel = STEEL,
  withdrawal = WITHDRAWAL,
  bearing = {{alias = BEAR, lines = list({"R", says = "largest reaction"},
    {"l_b", says = "bearing length"}, {"Cb", clause = "NDS 3.10.4"},
    {"F_cp'", "F_cp*CM*Ct*Ci*K", clause = "NDS 4.3.1"},
    {"R'", "F_cp'*Cb*b*l_b", key = "capacity", clause = "NDS 3.10.2"},
    {"ratio", "R/(F_cp'*Cb*b*l_b)"})},
    {alias = BEAR, lines = list({"R", says = "reaction to be carried"},
      {"l_b", says = "no sound bearing length: not permitted, shore now"})},
    END_GRAIN},
  ["deflection-live"] = {sag "live-load deflection"},
  ["deflection-total"] = {sag "Kcr times dead load, plus live load"},
  ["net-bending"] = {net_bending("bottom"), net_bending("top"), net_bending("inner"),
    net_bending("bottom", true), net_bending("top", true), net_bending("inner", true),
    NOTHING},
  ["net-shear"] = {
    shear_by("2/3*F_v'*A", "NDS 3.4.3", {{"A", says = "net area"}}),
    shear_by("2/3*F_v'*b*sum_h3/h^2", "V shared by h^3, common practice",
      {{"h", says = "deeper chord"},
        {"sum_h3", says = "sum of the cubes of the chords"}}),
    shear_by("2/3*F_v'/((1 - lambda)/A + lambda/A_h)", "V shared by h^3, common practice",
      {{"A", says = "net area"}, {"m", says = "shallower chord"},
        {"h", says = "deeper chord, the worst within this opening"}, {"b"},
        {"A_h", "b*(h + m^3/h^2)", says = "where the chords share V by h^3"},
        {"L_o", says = "length of the opening that counts (half of a diameter)"},
        {"lambda", "min(L_o/(2*m), 1)", clause = "a ramp of ours, by plane stress"}}),
    NOTHING,
  },
  ["notch-shear"] = {
    shear_by("2/3*F_v'*b*d_n*(d_n/d)^2", "NDS 3.4.3.2(a)", {LEFT}),
    shear_by("2/3*F_v'*b*(d - (d - d_n)/d_n*e)", "NDS 3.4.3.2(e) (memory)",
      {LEFT, {"e", says = "run past the bearing face"}}),
    shear_by("2/3*F_v'*b*d_n", "NDS 3.4.3.2(e) (memory)", {LEFT}),
    shear_by("2/3*F_v'*b*d_n", "NDS 3.4.3.2(d) (memory)", {LEFT}),
    NOTHING,
  },
  ["opening-frame"] = {FRAME, FRAME, PRESSED_CHORD},
  ["lip-tension"] = {LIP, LIP, LIP_EDGE},
  ["chord-alone"] = {alone_bending(OVER), alone_shear(OVER), alone_bending(UNDER),
    alone_shear(UNDER)},
  ["wood-compression"] = {PRESSED, PRESSED, BUCKLED, BUCKLED, PRESSED_EDGE,
    above_strap "2*T/(b*c)", above_strap "T*c/(b*(c*d_r - d_r^2/2))"},
  column = COLUMN, ["soil-bearing"] = SOIL, footing = FOOTING,
  uplift = {{alias = {}, lines = list({"R", says = "hold-down force needed"})}},
  stability = {
    {alias = {}, lines = list({"d/b", key = "demand", says = "nominal depth to thickness",
      clause = "NDS 4.4.1.2"}, {"limit", key = "capacity",
      says = "deck holds the top edge, ends held"})},
    {alias = {}, lines = list({"d/b", key = "demand", says = "nominal depth to thickness",
      clause = "NDS 4.4.1.2"}, {"limit", key = "capacity", says = "blocking"})},
    {alias = {}, lines = list({"d/b", key = "demand", says = "nominal depth to thickness",
      clause = "NDS 4.4.1.2"}, {"limit", key = "capacity", says = "ends held only"})},
  },
}

-- Number of branches that a mode's templates have.
function steps.branches(mode)
  return templates[mode] and #templates[mode] or 0
end

local OF_CHECK = {capacity = true, demand = true, ratio = true}

local FUNCTION = {min = true, max = true, sqrt = true}

-- Symbols of a formula: letters with _, digits, and a closing prime; each once, with
-- the name it has in the record.
local function names_in(formula, alias)
  local names = {}
  for name in formula:gmatch "[%a_][%w_]*'?" do
    if not FUNCTION[name] then names[name] = alias[name] or name end
  end
  return names
end

-- Units of what only the check itself holds.
local function unit_of(line, entry)
  if line.unit then return line.unit end
  if entry then return entry.unit end
  local symbol = line[1]
  return symbol:find "^M'" and "lb-in" or symbol:find "^[VR]'" and "lb" or ""
end

-- Lines with everything looked up that does not differ from check to check.
local function compiled(t)
  if t.compiled then return t.compiled end
  local out = {}
  for i, line in ipairs(t.lines) do
    local name = line.key or t.alias[line[1]] or line[1]
    local entry = symbols[name]
    out[i] = {symbol = line[1], formula = line[2], name = name,
      index = entry and entry.index, unit = unit_of(line, entry), clause = line.clause,
      says = line.says, names = line[2] and names_in(line[2], t.alias)}
  end
  t.compiled = out
  return out
end

local function value_of(raw, index, check, name)
  if OF_CHECK[name] then return check[name] end
  return core.record(raw, index, symbols[name].index)
end

-- A step's inputs, {symbol = number}, and their units are looked up when they are first
-- asked for.
local function with_inputs(raw, index, check, lines)
  return {__index = function(step, field)
    if field ~= "inputs" and field ~= "input_units" or not step.formula then
      return nil
    end
    local inputs, units_of = {}, {}
    for _, line in ipairs(lines) do
      if line.symbol == step.symbol then
        for name, key in pairs(line.names) do
          inputs[name] = value_of(raw, index, check, key)
          units_of[name] = OF_CHECK[key] and check.unit or symbols[key].unit
        end
      end
    end
    rawset(step, "inputs", inputs)
    rawset(step, "input_units", units_of)
    return rawget(step, field)
  end}
end

-- The steps of one check.
-- @param raw the core's review, @param index of the check, @param check its fields
-- @return list of {symbol, formula, value, unit, clause, says, inputs}
function steps.of(raw, index, check)
  local t = templates[check.mode] and templates[check.mode][check.branch]
  if not t then return {} end
  local record = core.record
  local lines = compiled(t)
  local out = {table.unpack(lines)} -- of the right size; each is replaced
  local meta = with_inputs(raw, index, check, lines)
  for i = 1, #lines do
    local line = lines[i]
    local at = line.index
    out[i] = setmetatable({symbol = line.symbol, formula = line.formula,
      value = at and record(raw, index, at) or check[line.name], unit = line.unit,
      clause = line.clause, says = line.symbol == "M" and check.pattern
        and "moment there, " .. check.pattern or line.says}, meta)
  end
  return out
end

return steps
