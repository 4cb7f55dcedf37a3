-- SPDX-License-Identifier: MIT
-- What a standard of the family of EN 1995-1-1 holds beside what all hold: its factors,
-- each with clause, source and confidence; an annex gives those that differ. Factors that
-- stand in the core's formulas can be looked up here and not be changed.
local known = require "netsection.packs.known"

local ec5 = {formats = {"LSD"}}

-- A number of a kind with where it stands and how it is known.
local function factor(fields)
  local what = known.of(fields)
  fields.source, fields.clause = {"text", needed = true}, {"text", needed = true}
  what.needed = true
  return what
end
local function number(low, high)
  return factor {value = {"number", low, high, needed = true}}
end
-- One that the core's formula has in it.
local function fixed(value) return number(value, value) end
local function numbers(low, high, n)
  return {"list", {"number", low, high}, n, n, needed = true}
end
local LIMIT = factor {value = {"number", 50, 2000}, none = {"flag"}}

--- Fields of such a standard; `combination` those of one of its combinations.
ec5.schema = {factors = {"table", {
  gamma_M = number(1, 2), psi_2 = number(0, 1), k_sys = number(1, 1.2),
  k_mod = factor {values = {"list", numbers(0.1, 1.5, 5), 3, 3, needed = true}},
  k_def = factor {values = numbers(0, 5, 3)},
  k_cr = factor {value = {"number", 0.1, 1}, over_f_vk = {"number", 0.1, 5}},
  w_inst = LIMIT, w_fin = LIMIT,
  zeta = number(0.005, 0.1), f_least = number(1, 20),
  w_1kN = factor {value = {"number", 0.1, 10}, none = {"flag"},
    upto = {"number", 1000, 10000}, over = {"number", 1, 1e6}, power = {"number", 0, 5},
    k_amp = {"number", 1, 2}},
  k_h = fixed(0.2), k_c90 = fixed(1.5), l_ef = fixed(30), k_n = fixed(5),
  k_v = fixed(1.1), k_crit = fixed(0.75), l_ef_m = fixed(0.9), chords = fixed(1),
}, needed = true}, refuses = {"text", needed = true}, framing = {"table", {}},
  clauses = {"table", {bracing = {"text", needed = true}, gates = {"text", needed = true},
    name = {"text", needed = true}}, needed = true}}
ec5.combination = {}

-- One that says it otherwise than by a number, which then stands before the number.
local function given(pack, found, name, other)
  local f = pack.factors[name]
  if f.value == nil and not f[other] then
    found.add("PACK-FIELD-MISSING", "factors." .. name, "value or %s expected", other)
  end
end

--- What is wrong with a standard whose fields are those of the schema.
function ec5.problems(pack, found)
  given(pack, found, "k_cr", "over_f_vk")
  given(pack, found, "w_inst", "none")
  given(pack, found, "w_fin", "none")
  given(pack, found, "w_1kN", "none")
  known.check_factored(pack, found, "LSD")
end

--- The limits L/n of w_inst and w_fin, 0 where there is none.
function ec5.limits(pack)
  local inst, fin = pack.factors.w_inst, pack.factors.w_fin
  return {inst.none and 0 or inst.value, fin.none and 0 or fin.value}
end

--- Adds to what the core reads of a standard.
function ec5.numbers(pack, out)
  local f = pack.factors
  for _, c in ipairs(out.combinations) do c.CD = 1 end
  out.ec5 = {k_mod = f.k_mod.values, k_def = f.k_def.values, psi_2 = f.psi_2.value,
    gamma_M = f.gamma_M.value, k_cr = f.k_cr.value, f_cr = f.k_cr.over_f_vk,
    k_sys = f.k_sys.value, limit = ec5.limits(pack)}
end

return ec5
