-- SPDX-License-Identifier: MIT
-- Vibration of a residential floor of rectangular plan on four edges, its joists of one
-- span, by EN 1995-1-1 7.3.3 and its annexes: frequency, deflection under 1 kN, velocity
-- after an impulse. Shown for information: nothing of it decides. m, N, kg; w in mm.
--
--   f_1 = pi/(2 l^2) sqrt((EI)_l/m)                                    (7.5)
--   v = 4 (0.4 + 0.6 n_40)/(m b l + 200)                               (7.6)
--   n_40 = (((40/f_1)^2 - 1) (b/l)^4 (EI)_l/(EI)_b)^0.25               (7.7)
--   v <= b_v^(f_1 zeta - 1)                                            (7.4)
-- The formulas were read in a public teaching notebook.
local data = require "netsection.fastener_data"
local packs = require "netsection.packs"
local units = require "netsection.units"
local velocity = require "netsection.feel.velocity"
local tostring = require "netsection.point".text

local vibration = {}

local fail = data.fail
local G = 9.80665
local IN = 0.0254
local FIELDS = {"width", "deck", "mass", "strutting", "standard"}
local DECK = {"thickness", "E"}

-- b_v over the deflection a under 1 kN, recommended: points read as data in a public
-- library, straight between.
local CURVE = {{0.5, 150}, {1, 120}, {2, 80}, {4, 50}}

local function deck_of(t)
  if t.deck == nil then return nil end
  data.only("vibration.deck", t.deck, DECK)
  local thickness = data.length("vibration.deck.thickness", t.deck.thickness, true) * 25.4
  local E = data.number("vibration.deck.E", t.deck.E, 100, 20000)
  return E * thickness ^ 3 / 12 / 1000 -- N m2 per m
end

-- What a joist and the floor beside it are, in SI.
local function floor_of(m, t)
  local o = {l = m.span[1] * IN, s = m.spacing * IN, across = deck_of(t)}
  local I = m.b * m.plies * m.d ^ 3 / 12
  o.EI = m.E / units.per.MPa * 1e6 * I * IN ^ 4
  o.along = o.EI / o.s
  o.m = t.mass ~= nil and data.number("vibration.mass", t.mass, 1, 1000)
    or m.dead / units.per.kPa * 1000 / G
  local width = data.length("vibration.width", t.width, true)
  if width <= 0 then fail "vibration.width: more than 0 expected" end
  o.b = width * IN
  return o
end

-- Share of a load that the joist under it carries: k_strut (0.38 - 0.08 ln(14 (EI)_b
-- /s^4)), 0.30 at least, (EI)_b in N mm2 per m, s in mm (UK annex, memory).
local function k_dist(o, strutting)
  local k_strut = strutting and 0.97 or 1
  return math.max(k_strut * (0.38 - 0.08 * math.log(14 * o.across * 1e6
    / (o.s * 1000) ^ 4)), 0.30)
end

-- Deflection under 1 kN, mm, and its limit by an annex; nil where it has none.
local function pressed(o, f, strutting)
  local alone = 1000 * o.l ^ 3 / (48 * o.EI) * 1000 -- mm
  if f.none or not o.across then return alone, nil, nil end
  local k, l = k_dist(o, strutting), o.l * 1000
  local limit = l <= f.upto and f.value or f.over / l ^ f.power
  return k * alone * f.k_amp, limit, k
end

local function b_v(a, annex)
  if annex then return a <= 1 and 180 - 60 * a or 160 - 40 * a end
  if a > CURVE[#CURVE][1] then return nil end
  for i = 2, #CURVE do
    local p, q = CURVE[i - 1], CURVE[i]
    if a <= q[1] then
      return a <= p[1] and p[2] or p[2] + (q[2] - p[2]) * (a - p[1]) / (q[1] - p[1])
    end
  end
end

local function add(out, name, value, limit, unit, f, above)
  out.checks[#out.checks + 1] = {name = name, value = value, limit = limit, unit = unit,
    ratio = limit and (above and limit / value or value / limit), clause = f.clause,
    confidence = f.confidence, binding = false}
end

local function work(joist, t)
  local m = joist.model
  local standard, why = packs.standard(t.standard or "en-1995-1-1")
  if not standard then fail("vibration: %s", why) end
  local f = standard.data.factors or {}
  if not f.zeta then
    fail("vibration: %s has no rule on file; name one of EN 1995-1-1",
      standard.data.name)
  elseif not m.class then
    fail 'vibration: a joist of a strength class expected, such as class = "C24"'
  elseif #m.span > 1 or m.overhang_left > 0 or m.overhang_right > 0 then
    fail "vibration: a joist of one span without overhangs expected"
  end
  local o = floor_of(m, t)
  local out = {standard = standard.data.name, checks = {}, binding = false,
    EI_l = o.along, EI_b = o.across, m = o.m, l = o.l, b = o.b,
    zeta = f.zeta.value, notes = {"for information: it decides nothing",
      "rectangular floor on four edges, joists of one span, mass of the dead load"}}
  out.f_1 = math.pi / (2 * o.l ^ 2) * math.sqrt(o.along / o.m)
  add(out, "frequency", out.f_1, f.f_least.value, "Hz", f.f_least, true)
  out.a, out.a_limit, out.k_dist = pressed(o, f.w_1kN, t.strutting == true)
  add(out, "deflection under 1 kN", out.a, out.a_limit, "mm", f.w_1kN)
  out.b_v = o.across and b_v(out.a, not f.w_1kN.none)
  if o.across and out.f_1 < 40 then
    out.n_40 = (((40 / out.f_1) ^ 2 - 1) * (o.b / o.l) ^ 4 * o.along / o.across) ^ 0.25
    out.v = velocity.of({m = o.m, b = o.b, l = o.l, along = o.along, across = o.across},
      out.f_1)
    out.v_limit = out.b_v and out.b_v ^ (out.f_1 * out.zeta - 1)
    add(out, "velocity", out.v, out.v_limit, "m/(N s2)", f.zeta)
  end
  if out.f_1 <= f.f_least.value then
    out.notes[#out.notes + 1] = "8 Hz or less: a special investigation is asked for "
      .. "(7.3.3(1))"
  end
  return out
end

--- See lua/README.md. @param joist of a strength class
-- @param t {width =, deck = {thickness =, E = N/mm2}, mass = kg/m2, strutting =,
--   standard =}
vibration.of = data.public(function(joist, t)
  data.only("vibration", t, FIELDS)
  if t.strutting ~= nil and type(t.strutting) ~= "boolean" then
    fail("vibration.strutting: true or false expected, got %s", tostring(t.strutting))
  end
  return work(joist, t)
end)

return vibration
