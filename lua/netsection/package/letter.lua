-- SPDX-License-Identifier: MIT
-- The draft of a letter: what was looked at and what was not, the basis, the result and
-- one sentence for each joist, with blanks for all that only the writer knows. It is a
-- draft on every page and holds no words that could be read as a seal.
local act_now = require "netsection.act_now"
local document = require "netsection.document"
local furniture = require "netsection.furniture"
local inputs = require "netsection.calculation.inputs"
local model = require "netsection.model"
local numbers = require "netsection.numbers"
local parts = require "netsection.short.parts_list"
local reason = require "netsection.reason"
local review = require "netsection.review"
local roof_loads = require "netsection.roof_loads"
local text = require "netsection.text"
local units = require "netsection.units"
local values = require "netsection.calculation.values"
local verdict = require "netsection.verdict"
local tostring = require "netsection.point".text

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
  if #known > 0 then d:paragraph(table.concat(known, "; ") .. ".") end
  if #blank > 0 then d:blanks(blank) end
end

---------------------------------------------------------------------------
-- What was looked at
---------------------------------------------------------------------------

local MANY = 16       -- joists; a letter of more is set closer

-- Values in their order, each once; of more than two the least and the most.
local function range_of(list, key, show)
  table.sort(list, function(a, b) return key(a) < key(b) end)
  local first, last = show(list[1]), show(list[#list])
  return first == last and first or first .. " to " .. last
end

-- Joists of one size and wood: "N1, N4: 2x10 ... at 16 in, span 13'-6\"".
local function described(reviews, place)
  local groups, out = {}, {}
  for _, r in ipairs(reviews) do
    local key = (r.title:gsub(" at %S+ ?%a*$", ""))
    if not groups[key] then
      groups[key] = {}
      out[#out + 1] = {key = key, list = groups[key]}
    end
    table.insert(groups[key], r)
  end
  local list = {}
  for i, g in ipairs(out) do
    local marks = {}
    for k, r in ipairs(g.list) do marks[k] = r.mark end
    list[i] = ("%s: %s, %s apart, span %s"):format(values.marks(marks, place), g.key,
      range_of(g.list, function(r) return r.joist.model.spacing end, function(r)
        return r.show.size(r.joist.model.spacing)
      end), range_of(g.list, function(r) return model.total(r.joist.model) end,
      function(r) return text.spans(r.joist.model) end))
  end
  return list
end

-- A note without the numbers of photos, which the report has beside them.
local function without_photos(note)
  local said, photo = {}, false
  for item in tostring(note):gmatch "[^;]+" do
    item = item:match "^%s*(.-)%s*$"
    photo = item:lower():find "^photos? [%w_.,; -]+$" ~= nil
      or photo and item:find "^%d+$" ~= nil
    if item ~= "" and not photo then said[#said + 1] = item end
  end
  return #said > 0 and table.concat(said, "; ") or nil
end

-- The cuts and splits of a joist in one line, with what was noted of each; or nil.
local function cuts_of(r)
  local cuts = {}
  for i, c in ipairs(r:layout().cuts) do
    local note = r.joist.description.cuts[i].note
    note = note and without_photos(note)
    -- of a joist that needs nothing the drawing says where
    local where = r.action ~= "leave" and (", %s to %s"):format(
      r.show.place(math.max(c.x1, 0)), r.show.place(c.x2)) or ""
    cuts[i] = c.label .. where .. (note and " (" .. note .. ")" or "")
  end
  return #cuts > 0 and table.concat(cuts, "; ") or nil
end

-- What was noted of a joist itself: its sag, shakes, what was not reached.
local function noted(reviews)
  local list = {}
  for _, r in ipairs(reviews) do
    local said, of = {}, r.joist.description
    local sag = type(of.survey) == "table" and of.survey.sag
    sag = sag and "sag " .. tostring(sag)
    if sag then said[1] = sag end
    -- a survey's note names the sag as well
    for item in (of.note and without_photos(of.note) or ""):gmatch "[^;]+" do
      item = item:match "^%s*(.-)%s*$"
      if item ~= sag and item ~= "" then said[#said + 1] = item end
    end
    if #said > 0 then list[#list + 1] = r.mark .. ": " .. table.concat(said, "; ") end
  end
  return list
end

local AMOUNTS = {"load", "to_load", "empty", "water", "people", "case", "CD", "under"}

-- A load in a few words: places as a tape shows them, amounts as they were entered.
local function load_words(load, show)
  local said = {}
  local function place(name)
    local x = load[name] ~= nil and units.length(load[name])
    return x and show.place(x) or inputs.entered(load[name])
  end
  if load.from ~= nil or load.to ~= nil then
    said[1] = ("%s to %s"):format(load.from ~= nil and place "from" or "one end",
      load.to ~= nil and place "to" or "the other")
  end
  if load.at ~= nil then said[#said + 1] = "at " .. place "at" end
  if load.width ~= nil then
    local x = units.length(load.width)
    said[#said + 1] = (x and show.section(x) or inputs.entered(load.width)) .. " wide"
  end
  for _, name in ipairs(AMOUNTS) do
    if load[name] ~= nil then
      local bare = name == "load" or name == "case"
      said[#said + 1] = (bare and "" or name:gsub("_", " ") .. " ")
        .. inputs.entered(load[name])
    end
  end
  return table.concat(said, ", ")
end

-- Tubs, walls and points that stand on joists.
local function standing(reviews)
  local list, marks, order = {}, {}, {}
  for _, r in ipairs(reviews) do
    for _, load in ipairs(r.joist.description.loads or {}) do
      local said = load.kind .. (load.note and " (" .. tostring(load.note) .. ")" or "")
        .. ": " .. load_words(load, r.show)
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
    local said = ("dead %s, live %s"):format(m.show.figures_of("area_load", m.dead),
      m.show.figures_of("area_load", m.live))
    for _, of in ipairs(roof_loads.of_floor(m)) do
      said = ("%s, %s %s"):format(said, of[1]:lower(), m.show.figures_of("area_load",
        of[3]))
    end
    return said
  end
  d:paragraph {{strong = "Basis: "}, ("limits of %s; design by %s. Floor loads: %s. "
    .. "Wood: %s."):format(
    first.rules.title, first.standard_title or first.standard, distinct(reviews, load),
    distinct(reviews, function(r) return r.joist.model.source end))}
end

local NEXT = {
  leave = function() return "to be left as it is" end,
  justify = function(r) return reason.of(r) .. "; the calculation goes to the official"
  end,
  decide = function(r) return reason.of(r) .. "; to be decided" end,
  ["repair"] = function() return "to be repaired" end,
  refer = function(r)
    return r.computed and reason.of(r) .. "; to be referred to tests or to the official"
      or "not worked out; to be referred to its maker or to tests"
  end,
}

-- What is said of a joist.
local function own_conclusion(r)
  local a, said = r.fixed, NEXT[r.action](r)
  if r.action == "leave" and #r.joist.model.cuts == 0 then said = "without cuts, " .. said
  end
  if a and a.kind == "neighbor" then
    return ("%s; %s: %s, largest ratio %s"):format(said, a.title, a.action,
      text.ratio(a.ratio))
  elseif a and not a.refused and a.status == "adequate" then
    return ("%s: %s, largest ratio with it %s, to be built as drawn"):format(said,
      a.title, text.ratio(a.ratio))
  elseif a then
    return said .. "; the trial repair is inadequate and is not to be built"
  elseif r.action == "repair" then
    return said .. "; no repair is described yet"
  end
  return said
end

-- "; lip-tension at hole 1, 1.49": why one is to be repaired.
local function because(r)
  return r.action == "repair" and "; " .. reason.of(r) or ""
end

-- With what holds until a neighbor is repaired, and the engineer's judgment.
local function conclusion(r)
  local said, more = own_conclusion(r), verdict.more(r)
  return more and said .. "; " .. more or said
end

-- What was seen of the joists of one sentence: "Seen: ...", by mark where they differ.
local function seen_words(group, place)
  local list, same = {}, true
  for i, r in ipairs(group) do
    list[i] = {mark = r.mark, said = (cuts_of(r) or "no cuts") .. because(r)}
    same = same and list[i].said == list[1].said
  end
  if same then
    return list[1].said ~= "no cuts" and " Seen: " .. list[1].said .. "." or ""
  end
  local out, marks = {}, {}
  for _, item in ipairs(list) do
    if not marks[item.said] then
      marks[item.said] = {}
      out[#out + 1] = item.said
    end
    table.insert(marks[item.said], item.mark)
  end
  for i, said in ipairs(out) do
    out[i] = values.marks(marks[said], place) .. ": " .. said
  end
  return " Seen: " .. table.concat(out, "; ") .. "."
end

-- One sentence for each joist with what was seen of it; those of which the same is said
-- share it.
local function conclusions(reviews, place)
  local list, groups = {}, {}
  for _, r in ipairs(reviews) do
    local said = conclusion(r)
    if not groups[said] then
      groups[said] = {}
      list[#list + 1] = said
    end
    table.insert(groups[said], r)
  end
  for i, said in ipairs(list) do
    local marks = {}
    for k, r in ipairs(groups[said]) do marks[k] = r.mark end
    list[i] = ("%s: %s.%s"):format(values.marks(marks, place), said,
      seen_words(groups[said], place))
  end
  return list
end

---------------------------------------------------------------------------
-- The whole
---------------------------------------------------------------------------

local LIMITS = "This draft speaks of the joists and places listed as looked at and of "
  .. "nothing else. Concealed parts, other members and later changes are not covered; it "
  .. "is no warranty. If the site differs from what is written here, work stops until "
  .. "the writer has seen it."

-- What the sentences with 'to be built as drawn' rest on.
local function repairs(d, reviews)
  local any = false
  for _, r in ipairs(reviews) do any = any or parts.serves(r) end
  if any then
    d:paragraph("Sizes, fasteners, places, shoring and order of work: crew's sheet, "
      .. "sheet of parts, drawings. Repairs stay open until inspected.")
  end
end

local SKETCH = "Sketch, to scale: %s"

-- The one drawing of the letter: the plan of a floor, or the joist.
local function sketch(d, subject, name, figures)
  local one = review.is(subject)
  local drawing = one and name .. "-sketch" or "key-plan"
  if figures == nil or figures[drawing] then
    d:figure {name = drawing .. ".gp", alt = SKETCH:format(one and "the joist"
      or "joists with marks, cuts and actions"),
      svg = figures and type(figures[drawing]) == "string" and figures[drawing] or nil}
  end
end

-- What is dangerous today, and by which thresholds, in a few lines.
local function urgent(d, reviews)
  local list = act_now.of(reviews)
  if #list == 0 then return end
  d:heading(2, act_now.title)
  d:list(list)
  d:paragraph(act_now.basis(reviews))
end

local function said(d, words, list)
  if #list == 0 then return end
  d:paragraph {{strong = words .. ": "}, table.concat(list, "; ") .. "."}
end

local function not_seen(d, list)
  if list and #list > 0 then
    said(d, "What was not seen", list)
  else
    d:blanks {"Concealed, not opened or not measured"}
  end
end

--- The draft: one page for a floor of two dozen joists.
-- @param options {visit = {...}, concealed = list of texts}
-- @param figures {name = SVG, or true for a file beside it}
function letter.document(subject, options, figures)
  local reviews, names = numbers.reviews(subject, "package", 2)
  local visit, place = options.visit or {}, {}
  for i, r in ipairs(reviews) do place[r.mark] = i end
  local job, foot = furniture.of(subject, reviews, options)
  local lang, own = furniture.language(subject, options)
  local d = document.new {title = "Draft of a letter: " .. job, job = job, foot = foot,
    running = "DRAFT not sealed not for construction", lang = lang, own = own,
    close = #reviews > MANY and "closer" or true}
  local one = review.is(subject)
  local function first(g)
    if visit.address then g:paragraph("To: " .. tostring(visit.address)) else
      g:blanks {"To"}
    end
    about(g, visit)
    urgent(g, reviews)
    said(g, "Looked at", described(reviews, place))
    said(g, "Standing on joists, besides the floor", standing(reviews))
    basis(g, reviews)
  end
  local function second(g)
    sketch(g, subject, names[reviews[1].mark], figures)
    not_seen(g, options.concealed)
  end
  if one then
    first(d)
    second(d)
  else
    d:group({sides = true}, function(g) g:group({}, first):group({}, second) end)
  end
  said(d, "Noted on site", noted(reviews))
  d:blanks {"How species and grade were decided"}
  d:heading(2, "Result")
  d:list(conclusions(reviews, place))
  repairs(d, reviews)
  d:paragraph(LIMITS)
  d:group({columns = 2}, function(g)
    g:blanks {visit.trades and "Further work of other trades" or "Work of other trades",
      "To be inspected before it is covered", "Name", "License number and place",
      "Signature and date", "Seal, only by the one who takes responsibility"}
  end)
  return d
end

return letter
