-- SPDX-License-Identifier: MIT
-- What the carpenter reads: stock lengths, the order of work, cautions of a repair.
local cautions = require "netsection.cautions"

local site = {}

--- What a section is called: by its trade size, else by what was measured.
-- @param m model of a joist
function site.section(m)
  return m.size or ("%s x %s"):format(m.show.size(m.b), m.show.size(m.d))
end

--- The stock that a piece is cut from.
function site.cut_from(name, length, show)
  return show.stock(length, name)
end

--- The same with the number of its plies.
function site.plied(m)
  return (m.plies > 1 and ("%d-ply "):format(m.plies) or "") .. site.section(m)
end

--- A hanger as it is listed: what it holds and the load that it is chosen for.
-- @param t {show = the system of units, holds = what, with its section, load = lb, count
-- =}
function site.hanger(t)
  local size = ("for %s, load %s"):format(t.holds, t.show.load_up(t.load))
  return {name = "hanger", kind = "hardware", member = "hanger", count = t.count,
    size = size, label = (t.count > 1 and ("%d hangers "):format(t.count) or "hanger ")
    .. size}
end

-- Whoever hangs something reads whose fasteners these are.
site.HANGERS = "fasteners of hangers, and the holes for them, as their maker gives them"

-- Order of work for a member or a strap fastened to the joist.
-- @param f the fix; @param words {new = "sister", places = "..."}
function site.sequence(f, words)
  local list = {
    "Shore the joist on both sides of the cut, on posts that reach something firm; shore "
      .. "the floor beside it where it leans on this joist.",
    "Turn off and move what is in the way; keep drains at their slope.",
  }
  if f.lift == "unloaded" then
    list[#list + 1] = "Lift until the joist carries nothing, in steps of "
      .. f.show.about(1 / 8) .. " or less, packing as you go; stop if anything cracks or "
      .. "sticks."
  elseif f.lift == "prop" then
    list[#list + 1] = ("Set the prop at %s and bring it to %s."):format(
      f.show.place(f.prop_at), f.show.force(f.prop, 0))
  else
    list[#list + 1] = "No lift is counted on: snug the shores, do not raise the floor."
  end
  list[#list + 1] = ("Cut the %s to length, set it tight against sound, dry wood%s.")
    :format(words.new, words.new == "sister" and ", crown up" or "")
  list[#list + 1] = ("Drill and drive the fasteners by the layout: type, length, count "
    .. "and places as listed%s."):format(words.places and ", " .. words.places or "")
  list[#list + 1] = "Have the repair seen before it is covered; take the shores out a "
    .. "little at a time."
  return list
end

-- What comes first at a joist that has rotted, been eaten or burnt; what is done once it
-- is shored; what is looked at in the end (common practice).
local DAMAGE = {
  rot = {"Find where the water comes from and stop it: leak, flashing, wet soil, no "
      .. "air. Nothing is closed in before the wood is dry, 19 % or less.",
    "Probe the wood each way; cut away what is soft. Where it goes further than "
      .. "described, stop and describe the joist again.",
    "the source of the water closed, the wood dry"},
  insects = {"Have the insects named and treated before new wood meets old; stop the "
      .. "water that drew them.",
    "Probe the wood each way; cut away what is eaten. Where it goes further than "
      .. "described, stop and describe the joist again.",
    "the treatment on record, the wood dry"},
  char = {"Wait until the fire officer has released the floor; keep people off and out "
      .. "from under it.",
    "Scrape the char to sound wood and measure what is left. Where it is less than "
      .. "described, stop and describe the joist again.",
    "the char scraped off and the wood left measured"},
}

-- The order of work with what rot, insects and fire add to it: it begins with the cause
-- and ends with what an inspector sees.
-- @param list order of work; @param cuts of the joist's model
function site.with_damage(list, cuts)
  local out, after, seen = {}, {}, {}
  for _, cause in ipairs {"char", "rot", "insects"} do
    for _, c in ipairs(cuts) do
      if (c.kind == "loss" or c.lost) and c.cause == cause and not seen[cause] then
        seen[cause] = true
        out[#out + 1] = DAMAGE[cause][1]
        after[#after + 1] = DAMAGE[cause][2]
        seen[#seen + 1] = DAMAGE[cause][3]
      end
    end
  end
  if #seen == 0 or #list == 0 then return list end
  out[#out + 1] = list[1]
  table.move(after, 1, #after, #out + 1, out)
  table.move(list, 2, #list, #out + 1, out)
  out[#out + 1] = ("Before anything is covered an inspector sees %s, sound wood at every "
    .. "fastener, their kind, number and places, the bearings, and photos of what was "
    .. "taken out."):format(table.concat(seen, "; "))
  return out
end

function site.cautions()
  return {cautions.always[2], cautions.fasteners}
end

return site
