-- SPDX-License-Identifier: MIT
-- A small plan of a floor for a first page or a letter: joists as they lie with their
-- marks, cuts, new pieces and, beside each, the action in a word; to the scale printed.

local marks = require "netsection.plot.marks"
local plan = require "netsection.plot.plan"
local recipes = require "netsection.plot.recipes"
local sheet = require "netsection.plot.sheet"
local view = require "netsection.plot.view"
local words = require "netsection.plot.words"

local key_plan = {}

-- Inches of paper: a line of text, how high the joists may stand.
local LINE, TALL, ROW = 0.135, 3.0, 0.14
local HEAD, FOOT, CELLS = 0.2, 0.06, 10
local POINT = 0.16           -- from a symbol of the key to its word

-- "repair", and with a star what holds once the joist beside it is repaired.
local function action_of(r)
  return r.action .. (r.until_repaired and " *" or "")
end

local function lay_out(floor_review, page)
  local joists = plan.joists(floor_review)
  local e = plan.extent(joists)
  local mark, action = 0, 0
  for _, j in ipairs(joists) do
    mark = math.max(mark, words.width(words.of(j.review.mark, CELLS)))
    action = math.max(action, words.width(action_of(j.review)))
  end
  -- beside the joists: the chain of spacings with its texts, a leader, the mark
  local chain = 0.32 + plan.chain_cells(joists) * sheet.cell + 0.22
  local left = sheet.margin + mark * sheet.cell + chain
  local room = page.width - left - 0.3 - action * sheet.cell
  local N = math.max(view.scale_for(e.b - e.a, room, 24, page.show),
    view.scale_for(e.high - e.low, TALL, 24, page.show))
  local tall = (e.high - e.low) / N
  return {joists = joists, e = e, N = N, left = left, tall = tall, chain = chain,
    spread = math.max(0, #joists * LINE - tall) / 2}
end

local function names(v, joists, e, chain)
  local hs, tall, N = {}, {}, v.N
  for i = #joists, 1, -1 do hs[#hs + 1], tall[#tall + 1] = joists[i].h, LINE * N end
  local left, right = e.a - (chain - 0.02) * N, e.b + 0.16 * N
  for k, h in ipairs(marks.apart(hs, tall, -1e6, 1e6)) do
    local j = joists[#joists + 1 - k]
    v:label(words.of(j.review.mark, CELLS), left, h, "right")
    v:label(action_of(j.review), right, h, "left")
    v:add("dim", {{e.b + 0.04 * N, j.h}, {right - 0.03 * N, h}})
    if math.abs(h - j.h) > 0.02 * N then
      v:add("dim", {{left + 0.04 * N, h}, {left + 0.14 * N, j.h}})
    end
  end
end

-- Rows under the plan: {{place, text, number of a point or nil}, ...}.
local function key_of(v, joists, width)
  local list, x = {}, nil
  for _, c in ipairs(plan.cuts) do
    if #v.gathered[c[1]] > 0 then
      local long = POINT + (words.width(c[2]) + 2) * sheet.cell
      if not x or x + long > width then
        list[#list + 1], x = {}, 0.06
      end
      table.insert(list[#list], {x, c[2], c[3]})
      x = x + long
    end
  end
  local more = {}
  if #v.gathered.loss > 0 then more[#more + 1] = "hatched: loss" end
  if #v.gathered.split > 0 then more[#more + 1] = "zigzag: split" end
  if #v.gathered.fix > 0 then more[#more + 1] = "thick: new piece" end
  if #v.gathered.thing > 0 then more[#more + 1] = "dashed: taken out" end
  local most = width / sheet.cell - 2
  for _, said in ipairs(words.wrapped(table.concat(more, "; "), most)) do
    if said ~= "" then list[#list + 1] = {{0.06, said}} end
  end
  for _, j in ipairs(joists) do
    if j.review.until_repaired then
      list[#list + 1] = {{0.06, "* once the joist beside it is repaired"}}
      break
    end
  end
  return list
end

local function key_part(list, page, y)
  local out = {}
  for i, row in ipairs(list) do
    for _, cell in ipairs(row) do
      local x, h = cell[1], y - (i - 0.5) * ROW
      if cell[3] then
        out[#out + 1] = ("set label '' at %s point pt %d ps 1.2*point lw 1.2 "
          .. "lc rgb '#000000'"):format(sheet.at(page, x + 0.05, h), cell[3])
        x = x + POINT
      end
      out[#out + 1] = sheet.label(words.of(cell[2], page.width / sheet.cell),
        sheet.at(page, x, h))
    end
  end
  return words.lines(out)
end

local function draw(v, at)
  plan.floor(v, at.joists)
  plan.spacings(v, at.joists, at.e)
  names(v, at.joists, at.e, at.chain)
end

--- Script, or nil and what is wrong with the options.
function key_plan.script(floor_review, page)
  local at = lay_out(floor_review, page)
  local trial = view.new(at.N, 0, 0, {show = page.show}, "plan", plan.kinds)
  draw(trial, at)
  local key = key_of(trial, at.joists, page.width)
  local needed = HEAD + 2 * at.spread + at.tall + 0.1 + #key * ROW + FOOT
  page.height = page.height or needed
  local low = sheet.too_low(page, needed)
  if low then return nil, low end
  local first = page.height - HEAD - at.spread
  local foot = first - at.tall - at.spread - 0.06
  local v = view.new(at.N, at.e.a - (at.left - 0.05) * at.N,
    at.e.a + (page.width - at.left - 0.05) * at.N, {left = 0.05, show = page.show,
      base = first - at.e.high / at.N, top = page.height - 0.02, bottom = foot},
    "plan", plan.kinds)
  draw(v, at)
  v.labels[#v.labels + 1] = sheet.label(("%s, scale 1:%d"):format(
    words.of(page.title or "Plan, from above", 40), at.N),
    sheet.at(page, 0.06, page.height - 0.08))
  return recipes.fill(recipes.of "drawing", {
    WHAT = "A floor in plan, small.",
    PAGE = sheet.setup(page), VIEWS = v:script(page, "key plan"),
    WORDS = key_part(key, page, foot - 0.02),
    CLOSE = page.output and "unset output" or "",
  })
end

return key_plan
