-- SPDX-License-Identifier: MIT
-- Load and resistance factors that several kinds share: those of the standard's own file,
-- as rows of what is given.
local packs = require "netsection.packs"

local factored = {standard = "us-nds-2018-lrfd"}

local data = assert(packs.read("standards", factored.standard))

--- K_F and phi of a property: "b" bending, "v" shear, "c" along the grain.
function factored.factors(property)
  return data.factors["K_F" .. property].value, data.factors["phi_" .. property].value
end

--- Rows of K_F, phi and lambda for one property. @param says what it is called
function factored.rows(property, says)
  local K, phi = factored.factors(property)
  return {"K_F", K, "", "format conversion factor, " .. says},
    {"phi", phi, "", "resistance factor, " .. says},
    {"lambda", 0.8, "", "time effect factor of 1.2D + 1.6L"}
end

factored.options = {standard = factored.standard}

return factored
