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

--- Fields of such a standard; `combination` those of one of its combinations.
nds.schema = {factors = {"table", FACTORS}}
nds.combination = {CD = {"number", 0.1, 2, needed = true}}

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
  local most = 0
  for i, c in ipairs(pack.combinations) do
    most = math.max(most, c.D, c.L)
    if factored and c.CD > 1 then
      found.add("STANDARD-FORMAT-MIX", ("combinations[%d].CD"):format(i),
        "lambda over 1 is that of impact, which is not covered")
    end
    if not factored and (c.D > 1 or c.L > 1) then
      found.add("STANDARD-FORMAT-MIX", ("combinations[%d]"):format(i),
        "a load factor over 1 with format ASD")
    end
  end
  if factored and most <= 1 then
    found.add("STANDARD-FORMAT-MIX", "combinations", "no load factor over 1 with format "
      .. "LRFD")
  end
end

--- Adds to what the core reads of a standard.
function nds.numbers(pack, out)
  out.joint_time = pack.format == "LRFD" and 1 or nil
  for name, parts in pairs(pack.factors and PRODUCTS or {}) do
    if name ~= "K_z" then -- connections: see format.connection
      out[name] = pack.factors[parts[1]].value * pack.factors[parts[2]].value
    end
  end
end

return nds
