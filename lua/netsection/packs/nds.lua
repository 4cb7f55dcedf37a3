-- SPDX-License-Identifier: MIT
-- What a standard of the NDS family holds beside what all hold: C_D or lambda of each
-- combination, format and resistance factors, allowable stresses with neither.
local known = require "netsection.packs.known"

local nds = {formats = {"ASD", "LRFD"}}

-- A number with where it stands and how it is known.
local FACTOR = known.of {value = {"number", 0.05, 10, needed = true},
  source = {"text", needed = true}}
-- Format and resistance factors: by what the core calls their product.
local PRODUCTS = {K_b = {"K_Fb", "phi_b"}, K_t = {"K_Ft", "phi_t"},
  K_v = {"K_Fv", "phi_v"}, K_c = {"K_Fc", "phi_c"}, K_perp = {"K_Fcp", "phi_c"},
  K_min = {"K_FE", "phi_s"}, K_z = {"K_Fz", "phi_z"}}
local FACTORS = {}
for _, names in pairs(PRODUCTS) do
  for _, name in ipairs(names) do
    FACTORS[name] = {FACTOR[1], FACTOR[2], needed = true}
  end
end

-- A combination with roof live load or snow; it stands where a joist has all of its
-- loads. Of deflections alone it needs no CD.
local WITH_ROOF = {
  name = {"text", needed = true}, D = {"number", 0, 3, needed = true},
  L = {"number", 0, 3}, Lr = {"number", 0, 3}, S = {"number", 0, 3},
  CD = {"number", 0.1, 2}, checks = {"word", {"strength", "deflection"}},
  source = {"text"}, confidence = known.word,
}

-- A pair {least, most}, and what is prescribed for members below the joists.
local function pair(high)
  return {"list", {"number", 0, high}, 2, 2, needed = true}
end
local function between(low, high) return {"number", low, high, needed = true} end
local PLIES = known.of {K_f = between(0.1, 1), end_distance = pair(100),
  spacing = {"table", {least = between(0, 100), most_plies = between(1, 100)},
    needed = true}, row_spacing = pair(100), edge_distance = pair(100)}
local MEMBERS = {
  construction = known.of {CD = between(0.5, 2)},
  built_up = known.of {most_plies = {"whole", 2, 12, needed = true},
    thinnest = between(0.5, 6)},
  nailed = PLIES, bolted = PLIES,
  footing = known.of {thick = between(1, 24), past = between(0, 24)},
}
for _, what in pairs(MEMBERS) do what.needed = true end

--- Fields of such a standard; `combination` those of one of its combinations.
nds.schema = {factors = {"table", FACTORS},
  members = {"table", MEMBERS, needed = true},
  with_roof_or_snow = {"list", {"table", WITH_ROOF}, 0, 12}}
nds.combination = {CD = {"number", 0.1, 2, needed = true}}

-- A load factor over 1 goes with load factors, a deflection with loads without them.
local function check_row(pack, c, path, found)
  local most = math.max(c.D, c.L or 0, c.Lr or 0, c.S or 0)
  local deflects = c.checks == "deflection"
  if (c.Lr or 0) == 0 and (c.S or 0) == 0 then
    found.add("STANDARD-COMBINATION", path, "Lr or S expected: one without them stands "
      .. "in combinations")
  elseif c.CD == nil and not deflects then
    found.add("STANDARD-COMBINATION", path .. ".CD", "missing")
  elseif most > 1 and (pack.format == "ASD" or c.checks ~= "strength") then
    found.add("STANDARD-FORMAT-MIX", path, pack.format == "ASD"
      and "a load factor over 1 with format ASD" or "a load factor over 1 for "
      .. 'deflections (checks = "strength" expected)')
  elseif pack.format == "LRFD" and (c.CD or 0) > 1 then
    found.add("STANDARD-FORMAT-MIX", path .. ".CD", "lambda over 1 is that of impact, "
      .. "which is not covered")
  end
end

local function check_roof(pack, found)
  for i, c in ipairs(pack.with_roof_or_snow or {}) do
    check_row(pack, c, ("with_roof_or_snow[%d]"):format(i), found)
  end
end

-- Rows with roof live load or snow as the core reads them.
local function other_rows(pack)
  local list = {}
  for i, c in ipairs(pack.with_roof_or_snow or {}) do
    list[i] = {D = c.D, L = c.L or 0, Lr = c.Lr or 0, S = c.S or 0, L1 = c.L1, L2 = c.L2,
      without_live = c.without_live, CD = c.CD or 1,
      deflection_only = c.checks == "deflection", strength_only = c.checks == "strength"}
  end
  return list
end

--- Load factors go with resistance factors, allowable stresses with neither.
function nds.problems(pack, found)
  local factored = pack.format == "LRFD"
  if factored and not pack.factors then
    found.add("STANDARD-FORMAT-MIX", "factors", "load and resistance factor design "
      .. "without factors K_F and phi")
  elseif not factored and pack.factors then
    found.add("STANDARD-FORMAT-MIX", "factors", "factors K_F and phi with format %s",
      pack.format)
  end
  for i, c in ipairs(pack.combinations) do
    if factored and c.CD > 1 then
      found.add("STANDARD-FORMAT-MIX", ("combinations[%d].CD"):format(i),
        "lambda over 1 is that of impact, which is not covered")
    end
    if not factored and (c.D > 1 or c.L > 1) then
      found.add("STANDARD-FORMAT-MIX", ("combinations[%d]"):format(i),
        "a load factor over 1 with format ASD")
    end
  end
  if factored then known.check_factored(pack, found, "LRFD") end
  check_roof(pack, found)
end

--- Adds to what the core reads of a standard.
function nds.numbers(pack, out)
  out.other = other_rows(pack)
  out.joint_time = pack.format == "LRFD" and 1 or nil
  for name, parts in pairs(pack.factors and PRODUCTS or {}) do
    if name ~= "K_z" then -- connections: see format.connection
      out[name] = pack.factors[parts[1]].value * pack.factors[parts[2]].value
    end
  end
end

return nds
