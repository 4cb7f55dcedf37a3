-- SPDX-License-Identifier: MIT
-- One page for those who do the work: what to do and not to do, and for each mark the
-- pieces, the fasteners and where they go, as a tape shows it.
local act_now = require "netsection.act_now"
local calculation = require "netsection.calculation"
local document = require "netsection.document"
local fastener_words = require "netsection.fastener_words"
local furniture = require "netsection.furniture"
local layout = require "netsection.layout"
local numbers = require "netsection.numbers"
local parts = require "netsection.short.parts_list"
local shores = require "netsection.shores"
local verdict = require "netsection.verdict"

local crew = {}

local DO = {
  "Shore first, on something firm, and keep people and heavy things off a joist that is "
    .. "cut through, split or sagging.",
  "Turn off and mark water, gas, power and data before drilling or driving.",
  "Measure from the center of the left bearing, up from the joist's bottom edge.",
  "Use the fastener named: type, size, length, count and places. Drill old, hard wood "
    .. "first.",
  "Leave everything open until it has been looked at.",
}

local DO_NOT = {
  "Do not cut, notch or drill a joist or a new piece beyond this sheet.",
  "Do not swap fasteners, leave some out, or move them to the other side.",
  "Do not jack to make a floor level; lift as far as the order of work says, in small "
    .. "steps, and stop if anything cracks or sticks.",
  "Do not take shores out at once: a little at a time, when all fasteners are in.",
  "Do not go on if the site differs from this sheet: stop and call the engineer.",
}

local function heights_of(column, show)
  local out = {}
  for i, p in ipairs(column.places) do
    out[i] = (p.y and p.y ~= 0) and show.section(p.y) .. " across" or show.section(p.h)
  end
  return table.concat(out, ", ")
end

-- Columns of fasteners that repeat at one distance, as one: {x, n, more, gap, heights}.
local function runs(a, show)
  local columns, list = layout.columns(a.layout), {}
  for i, c in ipairs(columns) do
    c.heights = heights_of(c, show)
    local last, gap = list[#list], i > 1 and c.x - columns[i - 1].x
    if last and last.heights == c.heights
      and (not last.gap or math.abs(last.gap - gap) < 1 / 32) then
      last.gap, last.rows = last.gap or gap, last.rows + 1
    else
      list[#list + 1] = {x = c.x, rows = 1, each = #c.places, heights = c.heights}
    end
  end
  return list
end
crew.runs = runs

local function place_words(run, show)
  local first = show.place(run.x)
  if run.rows == 1 then return first end
  return ("%s, then %d more %s apart"):format(first, run.rows - 1,
    show.section(run.gap))
end

local function pieces_words(r)
  local a, out, show = r.fixed, {}, r.show
  for i, p in ipairs(a.pieces) do
    local long = p.length and ", " .. show.place(p.length) .. " long" or ""
    local where = p.x1 and not p.of and p.length
      and (", from %s to %s"):format(show.place(p.x1), show.place(p.x2)) or ""
    out[i] = ("%d %s%s%s%s"):format(p.count or 1, p.name,
      p.size and " " .. p.size or "", long, where)
      .. (p.of and " at joist " .. p.of or "")
  end
  for _, f in ipairs(a.fasteners) do
    out[#out + 1] = fastener_words.of(r, f) .. (f.where and "; " .. f.where or "")
  end
  return out
end

crew.place, crew.pieces = place_words, pieces_words

local LAYOUT = "Joist %s from its right face, to scale: the repair with the places of "
  .. "its fasteners"

-- The drawing to which the list of places belongs.
-- @param sheet {review = the joist that is drawn, word =} of those that are alike
local function joist(d, r, sheet, figures)
  local a = r.fixed
  d:heading(3, ("Joist %s: %s"):format(r.mark, a.title))
  local drawing = sheet.word .. "-layout"
  if sheet.review ~= r then
    d:paragraph {"Drawn at joist ", {mark = sheet.review.mark}, ", which is alike."}
  elseif figures == nil or figures[drawing] then
    d:figure {name = drawing .. ".gp", alt = LAYOUT:format(r.mark),
      svg = figures and type(figures[drawing]) == "string" and figures[drawing] or nil}
  end
end

-- What is built and where each fastener goes.
local function places(d, r)
  local a, said = r.fixed, pieces_words(r)
  if #said > 0 then d:list(said) end
  local rows = {}
  for i, run in ipairs(runs(a, r.show)) do
    rows[i] = {place_words(run, r.show), ("%d"):format(run.rows * run.each),
      ("%d"):format(run.each), run.heights}
  end
  if #rows > 0 then
    d:table {caption = ("Joist %s: places of the fasteners"):format(r.mark),
      columns = {"Rows at", {head = "fasteners", align = "right"},
      {head = "in each", align = "right"}, "Heights"}, rows = rows, row_heads = 1}
  end
end

--- The crew's sheet of a joist's or a floor's review, as a document.
-- @param options {job =, date = as in package.files}
-- @param lines of floor:shores, or nil: shores whose beams and posts are worked
-- @param figures {name = SVG, or true for a file beside it}
-- @param tree its numbers, where they are at hand
function crew.document(subject, options, lines, figures, tree)
  local reviews = numbers.reviews(subject, "package", 2)
  local job, foot = furniture.of(subject, reviews, options)
  local lang, own = furniture.language(subject, options)
  local d = document.new {title = "Crew sheet: " .. job, job = job, foot = foot,
    lang = lang, own = own}
  act_now.add(d, reviews)
  local said = {}
  for _, r in ipairs(reviews) do
    if r.until_repaired or r.judgment then
      said[#said + 1] = r.mark .. ": " .. verdict.text(r)
    end
  end
  if #said > 0 then d:list(said) end
  shores.table(d, reviews)
  for _, s in ipairs(lines or {}) do s:add(d) end
  d:paragraph {{strong = "Do"}}:list(DO):paragraph {{strong = "Do not"}}:list(DO_NOT)
  local ready, waiting = {}, {}
  for _, r in ipairs(reviews) do
    local a = r.fixed
    if parts.serves(r) then
      ready[#ready + 1] = r
    elseif a and a.kind ~= "neighbor" or r.action == "repair" then
      waiting[#waiting + 1] = r
    end
  end
  if #waiting > 0 then
    d:note("Not to be touched until a repair is settled: " .. parts.marks_of(waiting),
      "caution")
  end
  local sheets = {}
  for _, s in ipairs(calculation.sheets(subject, tree or numbers.of(subject))) do
    sheets[s.review.mark] = s
    for _, other in ipairs(s.alike) do sheets[other.mark] = s end
  end
  for _, r in ipairs(ready) do
    d:group({keep = true}, function(g)
      joist(g, r, sheets[r.mark], figures)
      places(g, r)
    end)
  end
  if #ready == 0 then d:paragraph "There is no repair to build yet." end
  return d
end

return crew
