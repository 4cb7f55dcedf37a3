-- SPDX-License-Identifier: MIT
-- The numbers of a grid under stable names, for netsection.numbers.
local tree = {}

-- Units by the last word of a name.
tree.units = {M_max = "lb-in", M_min = "lb-in", M_max_ft_lb = "ft-lb", M_max_at = "in",
  M_min_at = "in", V_max = "lb", V_max_at = "in", reaction = "lb", deflection = "in",
  deflection_at = "in", differential = "in", deck_M_max = "lb-in/ft",
  deck_M_min = "lb-in/ft", EI_across = "lb-in2/ft", EI_along = "lb-in2/ft",
  F_b_S = "lb-in/ft", load = "lb", sum = "lb", M_low = "lb-in", M_high = "lb-in",
  R_low = "lb", R_high = "lb", deflection_low = "in", deflection_high = "in",
  deck_moment = "lb-in/ft", load_at_cut = "lb", lone_frequency = "Hz", f_uncut = "Hz",
  f_cut = "Hz", f_repaired = "Hz", deflection_1kN = "in",
  lone_deflection_1kN = "in", deflection_live = "in", lone_deflection_live = "in",
  change_percent = "%"}

local function line_of(g, mark, make)
  local r, b = g:of(mark), g:band()[mark]
  return make.object {{"reactions", make.each(r.reactions, function(R)
      return make.object {{"reaction", R}}
    end)}, {"reaction", r.reaction}, {"M_max", r.M_max}, {"M_max_ft_lb", r.M_max / 12},
    {"M_max_at", r.M_max_at}, {"M_of_capacity", (g.use or {})[mark]},
    {"M_min", r.M_min}, {"M_min_at", r.M_min_at},
    {"V_max", r.V_max}, {"deflection", r.deflection.value},
    {"deflection_at", r.deflection.x}, {"deck_M_max", r.deck.M_max},
    {"deck_M_min", r.deck.M_min}, {"M_low", b.M_max[1]}, {"M_high", b.M_max[2]},
    {"R_low", b.reaction[1]}, {"R_high", b.reaction[2]},
    {"deflection_low", b.deflection[1]}, {"deflection_high", b.deflection[2]}}
end

local function joists_of(g, make)
  local o = {}
  for i, mark in ipairs(g.order) do
    o[i] = {make.word(mark), line_of(g, mark, make)}
  end
  return make.object(o)
end

-- @param make {object =, each =, word =} of netsection.numbers
function tree.of(g, make)
  if not g then return nil end
  if g.refused then return make.object {{"refused", g.refused}} end
  return make.object {{"state", g.state}, {"deck", make.object {{"name", g.deck.name},
      {"EI_across", g.deck.across}, {"EI_along", g.deck.along},
      {"F_b_S", g.deck.FbS}, {"source", g.deck.source}}},
    {"load", g.load}, {"joists", joists_of(g, make)},
    {"bays", make.each(g:bays(), function(b)
      return make.object {{"between", b.from .. ", " .. b.to},
        {"differential", b.differential}, {"at", b.at}}
    end)}, {"uplift", make.each(g:uplift(), function(u)
      return make.object {{"mark", u.mark}, {"bearing", u.bearing}, {"sum", u.sum}}
    end)}, {"sound", g.sound and make.object {{"joists", joists_of(g.sound, make)}}}}
end

-- What holds until a joist beside it is repaired, by the grid and by hand.
function tree.until_repaired(g, make)
  if not g then return nil end
  local function rule(t)
    return t and make.object {{"ratio", t.ratio}, {"moment", t.moment},
      {"load_at_cut", t.load}}
  end
  return make.object {{"refused", g.refused}, {"ratio", g.ratio}, {"by", g.by},
    {"reliable", g.reliable}, {"deck_moment", g.deck}, {"grid", rule(g.grid)},
    {"half", rule(g.half)}, {"stub", rule(g.stub)}}
end

return tree
