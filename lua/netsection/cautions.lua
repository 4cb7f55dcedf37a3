-- SPDX-License-Identifier: MIT
-- What every output says beside its numbers, and what certain findings add.
local cautions = {}

cautions.always = {
  "Not a sealed design. These are working figures for a person licensed where the "
    .. "building stands, who answers for every input and for what is built.",
  "Shore first. Nobody cuts, drills out or removes any part of a joist, or takes out a "
    .. "pipe that props one, until its load stands on posts that reach something firm. "
    .. "Lift in small steps, pack as you go, stop if anything cracks or sticks.",
  "Local code rules. The limits shown are from the rule set named on the sheet; the "
    .. "place may have adopted others. Permits and inspections are usually needed; leave "
    .. "the repair uncovered for the inspector.",
  "Solid sawn joists only. For manufactured joists, trusses, laminated members and "
    .. "steel do not use these numbers; never cut a flange or chord; go to the maker's "
    .. "written instructions or an engineer.",
  "Look before drilling or driving. Turn off and mark water, gas, power, data and fire "
    .. "pipes, keep fasteners away from them, and let licensed trades move them. Slopes "
    .. "of drains and clearances to flues must survive the repair.",
  "Fire-rated floors. A ceiling or floor between dwellings, garages and corridors may be "
    .. "a tested assembly: restore every layer, seal openings; exposed steel heats fast.",
  "Old buildings. Assume hidden cuts, odd loads, lead and asbestos until shown "
    .. "otherwise. Measured sizes beat nominal ones; species and grade are assumptions.",
  "What was not seen is not covered. List what stayed concealed; stop and report if the "
    .. "site differs from the sheet.",
  "Load paths end in the ground. A new post or header loads a beam, wall, slab or "
    .. "footing: check them too.",
  "Numbers are not more exact than the wood. Lumber varies; a ratio of 0.99 is a "
    .. "judgment, not a proof.",
  "Keep the record: date, module version, input files, photos.",
}

cautions.open = "If a joist is cut through, split, sagging or holding a wall, keep "
  .. "people and heavy things off it and call the engineer now."
cautions.water = "Find the water. Rot comes back if the leak stays; test moisture before "
  .. "covering; treat or isolate metal from treated wood."
cautions.steel = "Steel heats fast in a fire: restore every layer over it."
cautions.fasteners = "Fasteners are the repair. Type, length, count, spacing and side "
  .. "are not to be changed; glue is a bonus, not counted."

-- Those of a list that do not close every report anyway.
function cautions.own(list)
  local common, out = {}, {}
  for _, said in ipairs(cautions.always) do common[said] = true end
  for _, said in ipairs(list) do
    if not common[said] then out[#out + 1] = said end
  end
  return out
end

return cautions
