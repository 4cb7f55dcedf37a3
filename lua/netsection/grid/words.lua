-- SPDX-License-Identifier: MIT
-- The second opinion on paper: a block of its own after the code check, never among its
-- ratios. No engineering is done here but M by the grid beside F_b' S, Cr 1.0.
local checks = require "netsection.checks"
local numbers = require "netsection.numbers"
local quantity = require "netsection.quantity"
local review = require "netsection.review"
local second_opinion = require "netsection.second_opinion"
local units = require "netsection.units"

local words = {title = "Second opinion: floor as a grid"}

local USE = "Not used for the verdict: no ratio, status or action on these pages comes "
  .. "from it, and a joist below its capacity here is not adequate by that. Sharing is "
  .. "in it, so the repetitive factor is 1.0 for every joist (%s)."

words.left_out = "left out: torsion of joists, T-action and slip of the deck, membrane "
  .. "action, twisting stiffness of the deck; bearings hold both ways"

local function moment(show, M) return show.number("moment", M, 0) end

local function list_of(show, values)
  local out = {}
  for i, v in ipairs(values) do out[i] = show.number("force", v, 0) end
  return table.concat(out, " / ")
end

-- Rows, one a joist: mark, reactions, M max and place, of F_b' S of what is left (Cr
-- 1.0), M max with all sound, the range of the bands, deflection.
words.width, words.left = {6, 13, 9, 11, 8, 9, 14, 10}, 1
words.caption = "All load of the floor, by the grid"

-- What stands around the rows, in the grid's units, by the standard of the reviews.
local function block(g, reviews)
  local unit, packs = quantity.of(g).unit, reviews[1] and reviews[1].packs
  local clause = packs and packs.words:rule "sharing" or checks.clause.sharing
  return setmetatable({use = USE:format(clause), columns = {"Joist",
    "R, " .. unit.force, "M, " .. unit.moment, "at", "M/F_b'S", "all sound", "range",
    "deflection"}}, {__index = words})
end

function words.rows(g)
  local rows, band, show = {}, g:band(), quantity.of(g)
  for i, mark in ipairs(g.order) do
    local r = g:of(mark)
    local range, use = band[mark].M_max, g.use[mark]
    rows[i] = {mark, list_of(show, r.reactions), moment(show, r.M_max),
      show.place(r.M_max_at),
      use and review.ratio_text(use) or "-",
      g.sound and moment(show, g.sound:of(mark).M_max) or "-",
      ("%s to %s"):format(moment(show, range[1]), moment(show, range[2])),
      show.length(r.deflection.value, 3)}
  end
  return rows
end

local function deck_line(g)
  local most, at = 0, nil
  for _, mark in ipairs(g.order) do
    local d = g:of(mark).deck
    local M = math.max(d.M_max, -d.M_min)
    if M > most then most, at = M, mark end
  end
  if not at then return "the deck across carries no moment" end
  local show = quantity.of(g)
  if not g.deck.FbS then
    return ("deck moment %s over %s; its strength is not given: sharing is "
      .. "not verified"):format(show.deck_moment(most, 0), at)
  end
  local use = most / g.deck.FbS
  return ("deck moment %s over %s, %s of F_b S %s%s"):format(
    show.deck_moment(most, 0), at, review.ratio_text(use),
    show.number("deck_moment", g.deck.FbS, 0),
    use > review.full and ": sharing not reliable" or "")
end

local function differential_line(g)
  local most
  for _, b in ipairs(g:bays()) do
    if not most or b.differential > most.differential then most = b end
  end
  return most and ("largest difference of deflection between joists %s (%s to %s, "
    .. "bay/%s)"):format(quantity.of(g).length(most.differential, 3), most.from, most.to,
    most.slope > 0 and units.fixed(1 / most.slope, 0) or "-")
end

local function blocking_line(g)
  if #g.options.blocking == 0 then return nil end
  local assumed = false
  for _, row in ipairs(g.options.blocking) do assumed = assumed or row.assumed end
  local said = ("%d rows of blocks%s"):format(#g.options.blocking, assumed
    and ", of the joists' own EI (assumed)" or "")
  if not g.rigid then return said .. ", stiffness of their ends as given" end
  local list, show = {}, quantity.of(g)
  for i, mark in ipairs(g.order) do
    list[i] = ("%s %s"):format(mark, moment(show, g.rigid:of(mark).M_max))
  end
  return said .. ": no published stiffness of their ends could be read; counted as "
    .. "nothing above; with ends that do not turn, a bound that no real row reaches, M "
    .. table.concat(list, ", ") .. " " .. show.unit.moment
end

-- Lines under the table. @param reviews in their order
function words.lines(g, reviews)
  local list, show = {}, quantity.of(g)
  local function add(said)
    if said then list[#list + 1] = said end
  end
  for _, r in ipairs(reviews) do
    local second = r.until_repaired and r.until_repaired.grid
    add(second and (second.said or ("%s: not computed: %s"):format(r.mark,
      second.refused)))
  end
  add(deck_line(g))
  add(differential_line(g))
  for _, u in ipairs(g:uplift()) do
    add(("%s, bearing %d: lifts with %s; the grid holds it down"):format(u.mark,
      u.bearing, show.force(-u.sum, 0)))
  end
  add(blocking_line(g))
  add(("deck: %s, EI %s across, %s along, %s (%s)"):format(g.deck.name,
    show.number("deck_rigidity", g.deck.across, 0),
    show.number("deck_rigidity", g.deck.along, 0), show.unit.deck_rigidity,
    g.deck.source))
  add(("M/F_b'S: of what is left, Cr 1.0; all sound: M with no joist cut, %s; range of "
    .. "M, %s: deck EI at half and twice, joist EI at 0.75 and 1.25"):format(
    show.unit.moment, show.unit.moment)
    .. (g.options.doubtful and " (" .. g.options.doubtful .. " alone)" or ""))
  if g.options.edges == "half" then
    add("edge joists carry half of their one bay here, by the width of the deck; their "
      .. "own check takes the spacing given")
  end
  add(words.left_out)
  return list
end

-- Adds the block to a text. @param out list of its lines
function words.add_text(out, g, reviews)
  second_opinion.add_text(out, block(g, reviews), g.refused, function()
    return words.rows(g), words.lines(g, reviews)
  end)
end

-- Rows whose numbers carry their names. @param name of the grid in the tree of numbers
local function named_rows(g, name)
  local rows = words.rows(g)
  for i, row in ipairs(rows) do
    local at = ("%s.joists.%s."):format(name, numbers.word(row[1]))
    rows[i] = {row[1], row[2], {text = row[3], data = at .. "M_max_ft_lb"}, row[4],
      g.use[row[1]] and {text = row[5], data = at .. "M_of_capacity"} or row[5], row[6],
      row[7], {text = row[8], data = at .. "deflection"}}
  end
  return rows
end

-- Adds the block to a document. @param name of the grid in the tree of numbers
function words.add(d, g, reviews, name)
  second_opinion.add(d, block(g, reviews), g.refused, function()
    return named_rows(g, name), words.lines(g, reviews)
  end)
end

return words
