-- SPDX-License-Identifier: MIT
-- Plain names of what a chart of a sweep shows: an axis, a value, and the joist that the
-- points have in common.

local core = require "netsection.core"

local chart_words = {}

local FIELDS = {dead = "dead load", live = "live load", b = "width of a ply",
  d = "depth", overhang_left = "left overhang", overhang_right = "right overhang"}

-- Of a cut, by its name.
local OF_CUT = {at = "place of %s from the %s bearing", diameter = "diameter of %s",
  from = "start of %s from the %s bearing", to = "end of %s from the %s bearing",
  depth = "depth of %s", height = "height of %s", length = "length of %s",
  below = "wood below %s", above = "wood above %s",
  at_depth = "depth of %s under the top edge"}

local function cut_name(joist, n)
  local cut = joist and joist.model.cuts[n]
  return cut and cut.name or "cut " .. n, cut and cut.from_right and "right" or "left"
end

--- An axis by its name.
-- @param joist of one of the points, or nil
function chart_words.axis(name, joist)
  local n, field = name:match "^cuts%.(%d+)%.(.+)$"
  if n and OF_CUT[field] then
    local cut, side = cut_name(joist, tonumber(n))
    return (OF_CUT[field]:format(cut, side))
  end
  return FIELDS[name] or (name:gsub("_", " "))
end

local modes = {}
for _, word in ipairs(core.modes) do modes[word] = true end

local VALUES = {ratio = "largest ratio", ["deflection.live"] = "deflection, live load",
  ["deflection.total"] = "deflection, total load", Cr = "repetitive factor",
  longest_span = "longest span"}
local STATES = {uncut = "uncut", cut = "as cut", fixed = "repaired"}
local QUANTITY = {demand = "demand", capacity = "capacity", at = "place"}

-- "net-bending.1.demand" in words; nil where it is no check.
local function of_check(bare, joist)
  local mode, n, quantity = bare:match "^([%a-]+)%.?(%d*)%.?(%a*)$"
  if not modes[mode] or quantity ~= "" and not QUANTITY[quantity] then return nil end
  local where = ""
  if n ~= "" then
    where = mode == "bearing" and " at support " .. n
      or ", " .. cut_name(joist, tonumber(n))
  end
  return (QUANTITY[quantity] or "ratio") .. " of " .. mode .. where
end

--- A value by its name.
function chart_words.value(name, joist)
  local state, bare = name:match "^(%a+)%.(.+)$"
  if not STATES[state] then state, bare = nil, name end
  local mode = bare:match "^longest_span%.(.+)$"
  local support, part = bare:match "^reaction%.(%d+)%.?(%a*)$"
  local said = VALUES[bare] or mode and "longest span by " .. mode
    or support and ("reaction at support %s%s"):format(support,
      part ~= "" and ", " .. part or "")
    or of_check(bare, joist) or bare:gsub("_", " ")
  return said .. (state and ", " .. STATES[state] or "")
end

--- The joist that all points have in common, without what the axes change.
-- @param axes {name = true, ...} of the sweep
function chart_words.joist(joist, axes)
  local m, parts = joist.model, {}
  local show = m.show
  local size = m.size or ("%s x %s"):format(show.section(m.b), show.section(m.d))
  local own = {m.mark ~= "" and "Joist " .. m.mark .. ":" or nil}
  if m.plies > 1 and not axes.plies then own[#own + 1] = ("%d plies"):format(m.plies) end
  if not (axes.size or axes.b or axes.d) then own[#own + 1] = size end
  if m.wood and not (axes.species or axes.grade or axes.material) then
    own[#own + 1] = m.wood
  end
  if not axes.spacing then own[#own + 1] = "at " .. show.section(m.spacing) end
  parts[1] = table.concat(own, " ")
  if not (axes.span or axes.spans) then
    local spans = {}
    for i, span in ipairs(m.span) do spans[i] = show.place(span) end
    parts[#parts + 1] = "span " .. table.concat(spans, " + ")
  end
  for _, case in ipairs {"dead", "live"} do
    if not axes[case] then
      parts[#parts + 1] = ("%s %s"):format(case, show.figures_of("area_load", m[case]))
    end
  end
  return table.concat(parts, ", ")
end

return chart_words
