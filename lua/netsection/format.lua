-- SPDX-License-Identifier: MIT
-- What is worked out in allowable stress design alone. Makers rate hangers and fasteners
-- for it, the factors of safety of steel are its, and posts, footings and shores here
-- take loads without factors: under another format each is refused by name.
local format = {}

local REASON = {
  steel = "its steel is held to factors of safety; resistance factors are not on file",
  rated = "a maker's value is one of allowable stress design",
  panel = "its panel values are given as allowable ones",
  below = "posts, footings and beams under joists take loads without factors",
  only = "it is worked out in allowable stress design alone so far",
}

--- Whether the loads of a standard's combinations have factors.
-- @param standard of packs.standard
function format.factored(standard)
  return standard.data.format ~= "ASD"
end

--- Why something is not worked out under a standard; nil where it is.
-- @param what its name; @param why a key of the reasons
function format.refusal(standard, what, why)
  if standard.data.refuses then
    return ("%s is not covered by %s: %s"):format(what, standard.data.name,
      standard.data.refuses)
  elseif not format.factored(standard) then
    return nil
  end
  return ("%s is not covered by %s (STANDARD-FORMAT-MIX): %s"):format(what,
    standard.data.name, REASON[why or "only"])
end

--- The factor on the value of a connection: K_F phi, 1 in allowable stress design.
function format.connection(standard)
  local f = standard.data.factors
  return f and f.K_Fz and f.K_Fz.value * f.phi_z.value or 1
end

return format
