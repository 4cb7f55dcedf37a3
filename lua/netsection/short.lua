-- SPDX-License-Identifier: MIT
-- The short report that is handed in: what is dangerous today, all joists with the reason
-- beside the action, the plan; loads and design values once; half a page for each joist
-- that needs something; the others as one table; repairs that fail in a line each; what
-- was not seen; the cautions once. Every number is one of netsection.numbers. The full
-- calculation (calculation.lua) is its annex.
local act_now = require "netsection.act_now"
local calculation = require "netsection.calculation"
local cautions = require "netsection.cautions"
local checks = require "netsection.calculation.checks"
local document = require "netsection.document"
local feel = require "netsection.feel.words"
local furniture = require "netsection.furniture"
local numbers = require "netsection.numbers"
local odds_page = require "netsection.odds.page"
local photos = require "netsection.photos"
local parts = require "netsection.parts"
local reason = require "netsection.reason"
local review = require "netsection.review"
local second = require "netsection.grid.words"
local shared = require "netsection.calculation.shared"
local sheet = require "netsection.short.sheet"
local shores = require "netsection.shores"
local text = require "netsection.text"
local values = require "netsection.calculation.values"
local verdict = require "netsection.verdict"
local tostring = require "netsection.point".text

local short = {}

local OPTIONS = {"concealed", "visit", "figures", "job", "date", "photos", "full", "odds"}
short.options = OPTIONS

local function right(head) return {head = head, align = "right"} end

-- "2x10", or what was measured.
local function size_of(r)
  local m = r.joist.model
  local size = m.size or ("%s x %s"):format(text.short(m.b), text.short(m.d))
  return (m.plies > 1 and ("%d-"):format(m.plies) or "") .. size
end

--- Whether a joist has half a page: it is not to be left, or carries a repair.
function short.needs(r)
  if r.action ~= "leave" then return true end
  return r.fixed ~= nil and r.fixed.kind ~= "neighbor"
end

---------------------------------------------------------------------------
-- The first page
---------------------------------------------------------------------------

local function heading(d, options, one, subject)
  local visit = options.visit or {}
  local said = {}
  if visit.address then said[#said + 1] = tostring(visit.address) end
  said[#said + 1] = visit.date and "Visit: " .. tostring(visit.date) or nil
  if visit.present then said[#said + 1] = "present: " .. tostring(visit.present) end
  if options.date then said[#said + 1] = "figures of " .. options.date end
  if #said > 0 then d:paragraph(table.concat(said, "; ") .. ".") end
  if not visit.date then d:blanks {"Date of the visit"} end
  local floor = not one and subject.floor
  for _, other in ipairs(floor and floor.survey and floor.survey.settings.others or {}) do
    d:paragraph(other.name .. ": " .. other.value .. ".")
  end
end

local function picture(d, figures, name, alt, caption)
  if figures == nil or figures[name] then
    d:figure {name = name .. ".gp", alt = alt, caption = caption,
      svg = figures and type(figures[name]) == "string" and figures[name] or nil}
  end
end

local PLAN = "Plan of the floor, to scale: joists with marks, spacing, cuts and actions"

--- Whether the plan on a page of its own is needed besides the small one of the first:
-- what stands in the way is named on it.
function short.has_plan(subject)
  return #(subject.floor and subject.floor.obstructions or {}) > 0
end

-- The whole list of shores is on the crew's sheet.
local function pressing(r) return r.out ~= nil or r.until_repaired ~= nil end

local function danger(d, reviews)
  local list = act_now.of(reviews)
  if #list > 0 then
    d:heading(2, act_now.title)
    d:list(list)
  else
    d:heading(2, "Nothing to shore today by the thresholds below")
  end
  d:note(act_now.basis(reviews), "caution")
  if #list > 0 then d:blanks {"Told to, by whom, when"} end
end

-- What presses, and beside it the plan.
local function today(d, reviews, figures, one)
  if one then
    danger(d, reviews)
    shores.table(d, reviews, pressing)
    return
  end
  d:group({sides = true}, function(g)
    g:group({}, function(left) danger(left, reviews) end)
    g:group({}, function(other) picture(other, figures, "key-plan", PLAN) end)
  end)
  shores.table(d, reviews, pressing)
end

local function all_joists(d, contexts, one)
  local rows, reviews, fixed = {}, {}, false
  for i, ctx in ipairs(contexts) do
    reviews[i] = ctx.r
    fixed = fixed or ctx.r.fixed ~= nil
  end
  local until_repaired, so = verdict.column(reviews)
  for i, ctx in ipairs(contexts) do
    local r = ctx.r
    local function ratio(state)
      local a = r[state]
      if not a or not r.computed then return "-" end
      return a.refused and "refused" or checks.ratio(ctx, state .. ".ratio", a.ratio)
    end
    local judged = verdict.judgment(r)
    local has = one or short.needs(r)
    local row = {{text = r.mark, to = has and sheet.id(ctx.word) or nil},
      size_of(r) .. ", " .. text.spans(r.joist.model), ratio "uncut", ratio "cut"}
    if so then row[#row + 1] = so[i] end
    if fixed then row[#row + 1] = ratio "fixed" end
    row[#row + 1] = {text = verdict.computed(r), strong = r.action ~= "leave"}
    row[#row + 1] = reason.of(r) .. (judged and "; " .. judged or "")
    rows[i] = row
  end
  local columns = {"Joist", "Size, span", right "uncut", right "as cut"}
  if so then columns[#columns + 1] = right(until_repaired) end
  if fixed then columns[#columns + 1] = right "repaired" end
  columns[#columns + 1], columns[#columns + 2] = "Action", "Reason"
  d:heading(2, "All joists", "all-joists")
  d:table {rows = rows, row_heads = 1, columns = columns,
    caption = "Largest ratio of demand to capacity, and what to do"}
end

local function counted(d, subject, n)
  local list = {}
  for _, action in ipairs(review.actions) do
    if subject.actions[action] > 0 then
      list[#list + 1] = ("%s %d"):format(action, subject.actions[action])
    end
  end
  d:paragraph(("%d joists: %s. Justify: outside the prescriptive limits, adequate by "
    .. "calculation. Decide: within the limits or uncut, overstressed."):format(n,
    table.concat(list, ", ")))
end

---------------------------------------------------------------------------
-- The last pages
---------------------------------------------------------------------------

local function left(d, groups, place)
  local rows = {}
  for _, g in ipairs(groups) do
    local r, ctx = g.review, g.ctx
    if not short.needs(r) and r.computed then
      local marks = {r.mark}
      for _, other in ipairs(g.alike) do marks[#marks + 1] = other.mark end
      local state = #r.joist.model.cuts > 0 and "cut" or "uncut"
      local k = r[state].governing_check
      local cuts = table.concat(reason.cuts(r), "; ")
      local path
      for i, word in ipairs(checks.words(r[state])) do
        if r[state].checks[i] == k then path = ("%s.checks.%s"):format(state, word) end
      end
      rows[#rows + 1] = {values.marks(marks, place), cuts == "" and "none" or cuts,
        k and checks.name(k) or "-",
        k and checks.quantity(ctx, path, "demand", k.demand, k.unit) or "-",
        k and checks.quantity(ctx, path, "capacity", k.capacity, k.unit) or "-",
        k and checks.unit(ctx, k.unit) or "", k and checks.ratio(ctx, path .. ".ratio",
        k.ratio) or "-"}
    end
  end
  if #rows == 0 then return end
  d:heading(2, "Joists to be left")
  d:table {rows = rows, row_heads = 1, caption = "The check that governs each",
    columns = {"Joists", "Cuts", "Check", right "demand", right "capacity", "",
    right "ratio"}}
end

local function failing(d, reviews)
  local list = {}
  for _, r in ipairs(reviews) do
    local a = r.fixed
    if a and a.kind ~= "neighbor" and not verdict.serves(r) then
      list[#list + 1] = r.mark .. ": " .. sheet.fails(r)
    end
  end
  if #list == 0 then return end
  d:heading(2, "Repairs that fail, not to be built")
  d:list(list)
end

-- Cautions of single joists, each once with the marks it is for.
local function own_cautions(contexts)
  local marks, order = {}, {}
  for _, ctx in ipairs(contexts) do
    local seen = {}
    for _, list in ipairs {ctx.r.cautions, short.needs(ctx.r) and ctx.r.fixed
      and ctx.r.fixed.cautions or {}} do
      for _, said in ipairs(list) do
        if not shared.general[said] and not seen[said] then
          seen[said] = true
          if not marks[said] then marks[said], order[#order + 1] = {}, said end
          table.insert(marks[said], ctx.r.mark)
        end
      end
    end
  end
  for i, said in ipairs(order) do
    order[i] = ("%s: %s"):format(table.concat(marks[said], ", "), said)
  end
  return order
end

local function assumed(d, contexts)
  local common = shared.of(contexts)
  local list = {table.unpack(common.assumptions)}
  for _, ctx in ipairs(contexts) do
    for _, said in ipairs(shared.besides(ctx.r.assumptions, common.assumptions)) do
      list[#list + 1] = ("%s: %s"):format(ctx.r.mark, said)
    end
  end
  d:heading(2, "Assumptions")
  d:list(list, {ordered = true})
  local options = {table.unpack(common.switches)}
  for _, ctx in ipairs(contexts) do
    for _, said in ipairs(shared.besides(ctx.r.switches, common.switches)) do
      options[#options + 1] = ("%s: %s"):format(ctx.r.mark, said)
    end
  end
  d:paragraph("Options not at default: " .. (#options > 0 and table.concat(options, "; ")
    or "none") .. ".")
end

local function closing(d, contexts, options)
  calculation.concealed(d, options.concealed)
  assumed(d, contexts)
  d:heading(2, "Cautions")
  local list = {table.unpack(cautions.always)}
  for _, more in ipairs {shared.cautions(contexts), own_cautions(contexts)} do
    table.move(more, 1, #more, #list + 1, list)
  end
  d:list(list, {ordered = true})
  d:paragraph("All numbers in full, under the names they carry here: numbers.json and "
    .. "numbers.csv." .. (options.full and " Every check line by line: calculation.html."
    or ""))
  d:blanks {"Checked by, date"}
end

---------------------------------------------------------------------------

local SKETCH = "Joist %s to scale: elevation over the diagram of what governs, and the "
  .. "section at the cut that decides"

--- Which joists have a sheet: {{review =, alike = reviews, word =, ctx =}, ...}, all.
local function groups_of(subject, tree, contexts)
  local by_mark, list = {}, calculation.sheets(subject, tree)
  for _, ctx in ipairs(contexts) do by_mark[ctx.r.mark] = ctx end
  for _, g in ipairs(list) do g.ctx = by_mark[g.review.mark] end
  return list
end

--- Reviews that have a drawing in it, each with the word of its name.
function short.drawn(subject, tree)
  local list = {}
  for _, g in ipairs(calculation.sheets(subject, tree)) do
    if (review.is(subject) or short.needs(g.review)) and g.review.computed then
      list[#list + 1] = {review = g.review, word = g.word}
    end
  end
  return list
end

--- The short report of a joist's or a floor's review, as a document.
-- @param options {photos = {list =, problems =} of netsection.photos,
--   concealed = list of texts, visit = {date = ...}, job = text, date = of
--   the run, figures = {name = SVG, or true for a file beside it}, full = true: the full
--   calculation lies beside it, odds = answer about this joist or floor: half a page}
-- @param tree its numbers, where they are at hand
function short.of(subject, options, tree)
  options = options or {}
  parts.only("short", options, OPTIONS, 2)
  local reviews, names = numbers.reviews(subject, "short", 2)
  tree = tree or numbers.of(subject)
  local one = review.is(subject)
  local job, foot = furniture.of(subject, reviews, options)
  local lang, own = furniture.language(subject, options)
  local d = document.new {title = "Report: " .. job, job = job, foot = foot, lang = lang,
    own = own}
  local contexts, place = {}, {}
  for i, r in ipairs(reviews) do
    contexts[i] = calculation.context(d, tree, names, r, true)
    place[r.mark] = i
  end
  heading(d, options, one, subject)
  today(d, reviews, options.figures, one)
  all_joists(d, contexts, one)
  if not one then
    counted(d, subject, #reviews)
  end
  local groups, book = groups_of(subject, tree, contexts), values.new()
  -- the sheets first, on a document of their own: they fill the list of values
  local sheets = document.new {title = d.title}
  for _, g in ipairs(groups) do
    if one or short.needs(g.review) then
      g.ctx.d = sheets
      sheet.add(g.ctx, g.alike, book, function(to, ctx)
        if ctx.r.computed then
          picture(to, options.figures, ctx.word .. "-sketch", SKETCH:format(ctx.r.mark))
        end
      end)
      g.ctx.d = d
    end
  end
  values.add(d, contexts, place, book)
  if short.has_plan(subject) then picture(d, options.figures, "plan", PLAN, "Plan") end
  if #sheets.blocks > 0 then
    d:heading(2, one and "The joist" or "Joists that need something")
    d:append(sheets)
  end
  if not one then left(d, groups, place) end
  failing(d, reviews)
  if subject.grid then second.add(d, subject.grid, reviews, "grid") end
  if subject.feel then feel.add(d, subject.feel, reviews) end
  if options.odds then odds_page.add(options.odds, d) end
  if options.photos then
    photos.add(d, options.photos.list, options.photos.problems)
  end
  closing(d, contexts, options)
  return d
end

return short
