-- SPDX-License-Identifier: MIT
-- The draft of a letter: what was looked at and what was not, the basis, the result and
-- one sentence for each joist, with blanks for all that only the writer knows. It is a
-- draft on every page and holds no words that could be read as a seal.
local act_now = require "netsection.act_now"
local calculation = require "netsection.calculation"
local checks = require "netsection.calculation.checks"
local core = require "netsection.core"
local document = require "netsection.document"
local furniture = require "netsection.furniture"
local inputs = require "netsection.calculation.inputs"
local numbers = require "netsection.numbers"
local parts = require "netsection.package.parts"
local text = require "netsection.text"
local verdict = require "netsection.verdict"

local letter = {}

-- What is asked of a visit: fields with their words, in groups that share a blank.
local ASKED = {
  {{"date", "Date of the visit"}, {"length", "its length"}, {"present", "present"}},
  {{"scope", "Asked to look at"}, {"exclusions", "not part of the work"}},
  {{"documents", "Documents seen"}, {"photos", "photos"}},
}

local function about(d, visit)
  local known, blank = {}, {}
  for _, group in ipairs(ASKED) do
    local missing = {}
    for _, field in ipairs(group) do
      local v = visit[field[1]]
      if v then
        known[#known + 1] = field[2] .. ": " .. tostring(v)
      else
        missing[#missing + 1] = field[2]
      end
    end
    if #missing > 0 then blank[#blank + 1] = table.concat(missing, "; ") end
  end
  if #known > 0 then d:list(known) end
  if #blank > 0 then d:blanks(blank) end
end

---------------------------------------------------------------------------
-- What was looked at
---------------------------------------------------------------------------

-- Joists of one kind: "N1, N4: 2x10 ..., span 13'-6\"".
local function described(reviews)
  local groups, out = {}, {}
  for _, r in ipairs(reviews) do
    local m = r.joist.model
    local key = ("%s, span %s"):format(r.title, text.spans(m))
    if not groups[key] then
      groups[key] = {}
      out[#out + 1] = {key = key, marks = groups[key]}
    end
    table.insert(groups[key], r.mark)
  end
  local list = {}
  for i, g in ipairs(out) do
    list[i] = ("%s: %s"):format(table.concat(g.marks, ", "), g.key)
  end
  return list
end

-- The cuts of a joist in one line.
local function observed(reviews)
  local list = {}
  for _, r in ipairs(reviews) do
    local cuts = {}
    for i, c in ipairs(r:layout().cuts) do
      local note = r.joist.description.cuts[i].note
      cuts[i] = ("%s, %s to %s%s"):format(c.label, r.show.place(math.max(c.x1, 0)),
        r.show.place(c.x2), note and " (" .. tostring(note) .. ")" or "")
    end
    if #cuts > 0 then list[#list + 1] = r.mark .. ": " .. table.concat(cuts, "; ") end
  end
  return list
end

-- What was noted of a joist itself: sags, shakes, what was not reached.
local function noted(reviews)
  local list = {}
  for _, r in ipairs(reviews) do
    local note = r.joist.description.note
    if note then list[#list + 1] = ("%s: %s"):format(r.mark, tostring(note)) end
  end
  return list
end

-- Tubs, walls and points that stand on joists, as they were entered.
local function standing(reviews)
  local list, marks, order = {}, {}, {}
  for _, r in ipairs(reviews) do
    for _, load in ipairs(r.joist.description.loads or {}) do
      local said = load.kind .. (load.note and " (" .. tostring(load.note) .. ")" or "")
        .. ": " .. inputs.part(load)
      if not marks[said] then marks[said], order[#order + 1] = {}, said end
      table.insert(marks[said], r.mark)
    end
  end
  for i, said in ipairs(order) do
    list[i] = table.concat(marks[said], ", ") .. ": " .. said
  end
  return list
end

---------------------------------------------------------------------------
-- Basis and result
---------------------------------------------------------------------------

-- Distinct texts in their order.
local function distinct(reviews, of)
  local seen, list = {}, {}
  for _, r in ipairs(reviews) do
    local said = of(r)
    if said and not seen[said] then
      seen[said] = true
      list[#list + 1] = said
    end
  end
  return table.concat(list, "; ")
end

local function basis(d, reviews)
  local first = reviews[1]
  local function load(r)
    local m = r.joist.model
    return ("dead %s, live %s"):format(m.show.figures_of("area_load", m.dead),
      m.show.figures_of("area_load", m.live))
  end
  d:list {
    ("Limits of %s; design by %s."):format(first.rules.title, first.standard),
    "Loads: " .. distinct(reviews, load) .. ".",
    "Wood: " .. distinct(reviews, function(r) return r.joist.model.source end)
      .. ". How it was decided: see the blank below.",
  }
  d:blanks {"How species and grade were decided"}
end

local NEXT = {
  leave = "to be left as it is",
  justify = "outside the prescriptive limits and calculates; the calculation goes to the "
    .. "official",
  decide = "within the limits and does not calculate; to be decided",
  ["repair"] = "to be repaired",
  refer = "not worked out; to be referred to its maker or to tests",
}

-- What is said of a joist.
local function own_conclusion(r)
  local a, said = r.fixed, NEXT[r.action]
  if r.action == "leave" and #r.joist.model.cuts == 0 then said = "without cuts, " .. said
  end
  if a and a.kind == "neighbor" then
    return ("%s; %s: %s, largest ratio %s"):format(said, a.title, a.action,
      text.ratio(a.ratio))
  elseif a and not a.refused and a.status == "adequate" then
    return ("%s: %s, largest ratio with it %s"):format(said, a.title, text.ratio(a.ratio))
  elseif a then
    return said .. "; the trial repair is inadequate and is not to be built"
  elseif r.action == "repair" then
    return said .. "; no repair is described yet"
  end
  return said
end

-- With what holds until a neighbor is repaired, and the engineer's judgment.
local function conclusion(r)
  local said, more = own_conclusion(r), verdict.more(r)
  return more and said .. "; " .. more or said
end

-- One sentence for each joist; those of which the same is said share it.
local function conclusions(reviews)
  local list, groups = {}, {}
  for _, r in ipairs(reviews) do
    local said = conclusion(r)
    if not groups[said] then
      groups[said] = {}
      list[#list + 1] = said
    end
    table.insert(groups[said], r.mark)
  end
  for i, said in ipairs(list) do
    list[i] = ("%s: %s."):format(table.concat(groups[said], ", "), said)
  end
  return list
end

local function results(d, reviews, names)
  local rows = {}
  for _, r in ipairs(reviews) do
    if r.computed and (#r.joist.model.cuts > 0 or r.action ~= "leave") then
      local ctx = {cell = function(path, shown)
        return {text = shown, data = ("joists.%s.%s"):format(names[r.mark], path)}
      end}
      local function ratio(state)
        local a = r[state]
        return a and not a.refused and checks.ratio(ctx, state .. ".ratio", a.ratio)
          or "-"
      end
      rows[#rows + 1] = {r.mark, ratio "uncut", ratio "cut", ratio "fixed",
        r.rules.status}
    end
  end
  if #rows == 0 then return end
  d:table {caption = "Largest ratio of demand to capacity", row_heads = 1, rows = rows,
    columns = {"Joist", {head = "uncut", align = "right"},
      {head = "as found", align = "right"}, {head = "repaired", align = "right"},
      "Limits"}}
end

---------------------------------------------------------------------------
-- The whole
---------------------------------------------------------------------------

local LIMITS = "This draft speaks of the joists and places listed as looked at and of "
  .. "nothing else. Concealed parts, other members and later changes are not covered; it "
  .. "is no warranty. If the site differs from what is written here, work stops until "
  .. "the writer has seen it."

local function repairs(d, reviews)
  local any = false
  for _, r in ipairs(reviews) do any = any or parts.serves(r) end
  if any then
    d:paragraph("Repairs listed as adequate are to be built as drawn: sizes, "
      .. "fasteners, places, shoring and order of work are on the sheets of parts and on "
      .. "the elevations. They stay open until they have been looked at.")
  end
end

-- @param options {visit = {...}, concealed = list of texts}
function letter.document(subject, options)
  local reviews, names = numbers.reviews(subject, "package", 2)
  local visit = options.visit or {}
  local job, foot = furniture.of(subject, reviews, options)
  local d = document.new {title = "Draft of a letter: " .. job, job = job, foot = foot,
    running = "DRAFT not sealed not for construction"}
  act_now.add(d, reviews)
  if visit.address then d:paragraph("To: " .. tostring(visit.address)) else
    d:blanks {"To"}
  end
  about(d, visit)
  d:heading(2, "Looked at")
  d:list(described(reviews))
  local cuts = observed(reviews)
  if #cuts > 0 then d:list(cuts) end
  local notes, loads = noted(reviews), standing(reviews)
  if #notes > 0 then d:paragraph "Noted on site:":list(notes) end
  if #loads > 0 then d:paragraph "Standing on joists, besides the floor:":list(loads) end
  calculation.concealed(d, options.concealed, true)
  d:heading(2, "Basis")
  basis(d, reviews)
  d:heading(2, "Result")
  results(d, reviews, names)
  d:list(conclusions(reviews))
  repairs(d, reviews)
  d:blanks {visit.trades and "Further work of other trades" or "Work of other trades",
    "To be inspected before it is covered"}
  d:paragraph(LIMITS)
  d:blanks {"Name", "License number and place", "Signature and date",
    "Seal, only by the one who takes responsibility"}
  d:paragraph(("Working figures by netsection %s."):format(core.version))
  return d
end

return letter
