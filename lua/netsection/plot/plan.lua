-- SPDX-License-Identifier: MIT
-- A floor in plan, to scale: joists as they lie with their marks, spacing and bearings,
-- cuts at their places by kind, repairs, what stands in the way, and for each joist the
-- action, in words, by a letter and by shade.

local dims = require "netsection.plot.dims"
local headed = require "netsection.plot.headed"
local marks = require "netsection.plot.marks"
local obstruction = require "netsection.obstruction"
local outline = require "netsection.plot.outline"
local recipes = require "netsection.plot.recipes"
local sheet = require "netsection.plot.sheet"
local text = require "netsection.text"
local things = require "netsection.plot.things"
local view = require "netsection.plot.view"
local words = require "netsection.plot.words"
local verdict = require "netsection.verdict"

local plan = {}

local KINDS = {"bearing", "thing", "leave", "justify", "decide", "repair", "refer",
  "edge", "fix", "loss", "split", "white", "hole", "slot", "top", "bottom", "endtop",
  "endbottom", "sever", "axis", "dim"}

plan.actions = {"leave", "justify", "decide", "repair", "refer"}
-- Letters of the actions: shapes are those of the cuts alone.
local LETTERS = {leave = "L", justify = "J", decide = "D", ["repair"] = "R", refer = "X"}

-- Inches of paper.
local TITLES, CAPTION, HEAD, NOTE = 0.47, 0.3, 0.28, 0.13
local DIMS, WORDS, TALL, ROW = 0.75, 2.15, 7.6, 0.17
local FULL = 3.2            -- room for words where some take two lines
local MARK = 30             -- cells of a mark at most
local THIN = 0.035            -- half a joist's width at least
local box = outline.box
local most = math.max

---------------------------------------------------------------------------
-- What lies where
---------------------------------------------------------------------------

-- One entry a joist: line across the floor, layout along it, review.
local function joists_of(floor_review)
  local lines = obstruction.lines(floor_review.floor.joists)
  local list = {}
  for i, mark in ipairs(floor_review.order) do
    local r = floor_review.joists[mark]
    list[i] = {line = lines[i], layout = r:layout(), review = r, h = -lines[i].y}
  end
  return list
end

-- The extent of the joists on the sheet.
local function extent(joists)
  local e = {a = math.huge, b = -math.huge, cells = 5}
  for _, j in ipairs(joists) do
    e.a = math.min(e.a, j.layout.start)
    e.b = math.max(e.b, j.layout.finish)
    e.cells = math.max(e.cells, words.width(words.of(j.review.mark, MARK)))
  end
  local first, last = joists[1].line, joists[#joists].line
  e.high, e.low = first.left, -last.y - last.right
  return e
end

-- Half the thickness a joist is drawn with, so that it can be seen.
local function half_of(v, j)
  return most(j.line.half, THIN * v.N)
end

---------------------------------------------------------------------------
-- Joists and cuts
---------------------------------------------------------------------------

-- The stretches of a joist that hang together.
local function stretches(layout)
  local list, from = {}, layout.start
  local gaps = {}
  for _, cut in ipairs(layout.cuts) do
    if outline.parts(cut) then gaps[#gaps + 1] = cut end
  end
  local x1, x2 = headed.removed(layout)
  if x1 then gaps[#gaps + 1] = {x1 = x1, x2 = x2} end
  table.sort(gaps, function(p, q) return p.x1 < q.x1 end)
  for _, gap in ipairs(gaps) do
    if gap.x1 > from then list[#list + 1] = {from, gap.x1} end
    from = most(from, gap.x2)
  end
  if layout.finish > from then list[#list + 1] = {from, layout.finish} end
  return list
end

-- A joist, piece by piece where it is cut through.
local function draw_joist(v, j)
  local half = half_of(v, j)
  for _, s in ipairs(stretches(j.layout)) do
    v:add(j.review.action, box(s[1], s[2], j.h - half, j.h + half))
    v:add("edge", box(s[1], s[2], j.h - half, j.h + half))
  end
  local x1, x2 = headed.removed(j.layout)
  if x1 then v:add("thing", box(x1, x2, j.h - half, j.h + half)) end
  for i, x in ipairs(j.layout.supports) do
    local long = j.layout.bearing[i] / 2
    v:add("bearing", box(x - long, x + long, j.h - j.line.right, j.h + j.line.left))
  end
end

local POINT = {hole = "hole", slot = "slot", sever = "sever"}

-- The mark of a cut, by its kind.
local function symbol(cut)
  if POINT[cut.kind] then return POINT[cut.kind] end
  return (cut.kind == "end_notch" and "end" or "") .. (cut.top_face and "top" or "bottom")
end

-- Middle and half of what a cut is in: the joist, or one ply of it, ply 1 on the left.
local function across(v, j, cut)
  local half, n = half_of(v, j), j.layout.plies
  if not cut.ply then return j.h, half end
  return j.h + half * (1 - (2 * cut.ply - 1) / n), half / n
end

-- A line between the plies beside a cut in one.
local function ply_lines(v, j, a, b)
  local half, n, more = half_of(v, j), j.layout.plies, 0.3 * v.N
  for k = 1, n - 1 do
    local h = j.h + half * (1 - 2 * k / n)
    v:segment("edge", most(a - more, j.layout.start), h,
      math.min(b + more, j.layout.finish), h)
  end
end

-- Ends of a cut on the joist that is there.
local function ends_of(j, cut)
  return most(cut.x1, j.layout.start), math.min(cut.x2, j.layout.finish)
end

local SYMBOL = 0.095        -- in, of a symbol of a cut

-- Where the symbols of a joist's cuts stand: at their places, unless they would touch.
local function symbols(v, j)
  local list, centers, widths, at = {}, {}, {}, {}
  for i, cut in ipairs(j.layout.cuts) do
    if cut.kind ~= "loss" and cut.kind ~= "split" then
      local a, b = ends_of(j, cut)
      list[#list + 1] = {i = i, x = (a + b) / 2}
    end
  end
  table.sort(list, function(p, q)
    if p.x ~= q.x then return p.x < q.x end
    return p.i < q.i
  end)
  for k, s in ipairs(list) do centers[k], widths[k] = s.x, SYMBOL * v.N end
  for k, x in ipairs(marks.apart(centers, widths, -1e6, 1e6)) do
    at[list[k].i] = math.abs(x - centers[k]) > 1e-6 and x or centers[k]
  end
  return at
end

-- A cut as a mark, or as long as it is.
local function draw_cut(v, j, cut, x)
  local h, half = across(v, j, cut)
  local a, b = ends_of(j, cut)
  if cut.kind == "loss" then
    local reach = cut.ply and half or 1.4 * half
    v:add("loss", box(a, b, h - reach, h + reach))
  elseif cut.kind == "split" then
    local points, step = {}, 0.06 * v.N
    for i = 0, math.floor((b - a) / step) do
      points[#points + 1] = {a + i * step, h + (i % 2 == 0 and half or -half)}
    end
    if #points > 1 then v:add("split", points) end
  else
    local point = {{x, h}}
    if cut.kind ~= "sever" then v:add("white", point) end
    v:add(symbol(cut), point)
  end
  if cut.ply then
    ply_lines(v, j, a, b)
    v.one_ply = true
  end
end

-- Headers across to the trimmers, whose added plies are a line beside each.
local function draw_headers(v, j, lines)
  for _, piece in ipairs(headed.headers(j.layout)) do
    local x = (piece.x1 + piece.x2) / 2
    v:segment("fix", x, j.h - piece.y2, x, j.h - piece.y1)
  end
  for _, piece in ipairs(headed.trimmers(j.layout)) do
    local other = lines[piece.of]
    if other then
      local way = (piece.y1 or 0) + (piece.y2 or 0) > 0 and -1 or 1
      local h = other.h + way * (half_of(v, other) + 0.03 * v.N)
      v:segment("fix", piece.x1, h, piece.x2, h)
    end
  end
end

-- A thick line beside the joist on the side where the new piece stands; none for a trial
-- that fails.
local function draw_fix(v, j)
  local half = half_of(v, j) + 0.03 * v.N
  local fix = j.layout.fix
  for _, piece in ipairs(fix and not fix.trial and fix.pieces or {}) do
    if piece.x1 and not piece.of and piece.kind ~= "header" then
      local y = ((piece.y1 or 0) + (piece.y2 or 0)) / 2
      local h = j.h + (y > 0 and -half or y < 0 and half or 0)
      v:segment("fix", piece.x1, h, most(piece.x2, piece.x1 + 0.05 * v.N), h)
    end
  end
end

---------------------------------------------------------------------------
-- Words
---------------------------------------------------------------------------

-- The ratio of a state in words.
local function ratio_of(r, state)
  if state.refused then return "refused" end
  if state.ratio == nil then return r.computed and state.stopped or "-" end
  return text.ratio(state.ratio)
end

-- What stands beside a joist, in one line or two: "repair: 1.64, fixed 0.93", and what
-- holds until a joist beside it is repaired.
local function lines_of(r)
  if not r.computed then return {verdict.text(r)} end
  local fixed = r.fixed and (verdict.trial(r) and ", trial fails " or ", fixed ")
    .. ratio_of(r, r.fixed) or ""
  local more = verdict.more(r)
  return {r.action .. ": " .. ratio_of(r, r.cut) .. fixed, more}
end

--- What the plan says of a joist, in one text.
function plan.words(r)
  return table.concat(lines_of(r), "; ")
end

-- Cells of a line; height of one, in.
local SHORT, LONG, LINE = 40, 60, 0.155

-- Lines of the labels, shortened where they are many.
local function label_lines(joists)
  local n, long = 0, false
  for _, j in ipairs(joists) do
    local list = lines_of(j.review)
    n, long = n + #list, long or #list > 1
  end
  return n, long
end

-- Marks of the joists beside them.
local function names(v, joists, e)
  local hs, tall = {}, {}
  for i = #joists, 1, -1 do
    hs[#hs + 1] = joists[i].h
    tall[#tall + 1] = #lines_of(joists[i].review) * LINE * v.N
  end
  local placed = marks.apart(hs, tall, -1e6, 1e6)
  local left, right = e.a - (e.dims + 0.12) * v.N, e.b + 0.2 * v.N
  for k, h in ipairs(placed) do
    local j = joists[#joists + 1 - k]
    v:label(words.of(j.review.mark, MARK), left - 0.14 * v.N, h, "right")
    v:label(LETTERS[j.review.action], left, h, "center font title_font")
    local list = lines_of(j.review)
    for n, said in ipairs(list) do
      v:label(words.of(said, #list > 1 and LONG or SHORT), right,
        h + ((#list + 1) / 2 - n) * LINE * v.N, "left")
    end
    v:add("dim", {{e.b + 0.04 * v.N, j.h}, {right - 0.04 * v.N, h}})
    if math.abs(h - j.h) > 0.01 * v.N then
      v:add("dim", {{left + 0.09 * v.N, h}, {left + 0.2 * v.N, j.h}})
    end
  end
  v:label("joist", left - 0.14 * v.N, e.high + 0.16 * v.N, "right")
  v:label("action: largest ratio as cut", right, e.high + 0.16 * v.N, "left")
end

local CUTS = {{"hole", "hole", 6}, {"slot", "slot", 4}, {"top", "notch, top", 10},
  {"bottom", "notch, bottom", 8}, {"endtop", "end notch, top", 11},
  {"endbottom", "end notch, bottom", 9}, {"sever", "cut through", 2}}

-- Rows of {place, text} and {place, point}.
local function legend(v, page)
  local step = (page.width - 1.2) / 5
  local first = {{sheet.margin, "Action:"}}
  for i, action in ipairs(plan.actions) do
    local x = 0.75 + (i - 1) * step
    first[#first + 1] = {x, LETTERS[action], true}
    first[#first + 1] = {x + 0.16, action}
  end
  local list, shown = {first}, 0
  for _, c in ipairs(CUTS) do
    if #v.gathered[c[1]] > 0 then
      local column = shown % 5
      if column == 0 then
        list[#list + 1] = {{sheet.margin, shown == 0 and "Cuts:" or ""}}
      end
      local cells = list[#list]
      cells[#cells + 1] = {0.75 + column * step, c[3]}
      cells[#cells + 1] = {0.89 + column * step, c[2]}
      shown = shown + 1
    end
  end
  local more = {}
  if #v.gathered.loss > 0 then more[#more + 1] = "hatched: rot, char or other loss" end
  if #v.gathered.split > 0 then more[#more + 1] = "zigzag: split" end
  if #v.gathered.fix > 0 then more[#more + 1] = "thick line: new piece" end
  if #v.gathered.thing > 0 then more[#more + 1] = "dashed: in the way or taken out" end
  if v.one_ply then more[#more + 1] = "beside the middle: in one ply" end
  more[#more + 1] = "hatched across: bearings"
  list[#list + 1] = {{sheet.margin, table.concat(more, "; ")}}
  return list
end

-- Rows of the list below.
local function rows_part(list, page, y)
  local out = {}
  for i, cells in ipairs(list) do
    for _, cell in ipairs(cells) do
      local at = sheet.at(page, cell[1], y - (i - 0.5) * ROW)
      out[#out + 1] = type(cell[2]) == "number"
        and ("set label '' at %s point pt %d ps 1.5*point lw 1.2 lc rgb '#000000'")
          :format(at, cell[2])
        or sheet.label(words.of(cell[2], page.width / sheet.cell), at,
          cell[3] and "left font title_font")
    end
  end
  return words.lines(out)
end

---------------------------------------------------------------------------
-- The whole
---------------------------------------------------------------------------

-- Places of the joists across the floor.
local function across_places(joists)
  local hs = {}
  for i = #joists, 1, -1 do hs[#hs + 1] = joists[i].h end
  return dims.places(hs)
end

-- Spacings as dimensions.
local function spacings(v, joists, e)
  dims.upright(v, across_places(joists), e.a - 0.2 * v.N, nil, {})
end

--- Cells of the widest text of the chain of spacings.
function plan.chain_cells(joists)
  return dims.cells(across_places(joists), {}, joists[1].layout.show)
end

local RUNNING = 8

-- Places along the joists that dimensions are drawn to.
local function places(joists)
  local list = {}
  for _, j in ipairs(joists) do
    for _, x in ipairs(j.layout.supports) do list[#list + 1] = x end
  end
  list = dims.places(list)
  return #list <= RUNNING and list or {list[1], list[#list]}
end

-- Joists with bearings, cuts and new pieces.
local function floor(v, joists)
  local lines = {}
  for _, j in ipairs(joists) do
    lines[j.review.mark] = j
    draw_joist(v, j)
  end
  for _, j in ipairs(joists) do
    local at = symbols(v, j)
    for i, cut in ipairs(j.layout.cuts) do draw_cut(v, j, cut, at[i]) end
    draw_fix(v, j)
    draw_headers(v, j, lines)
  end
end

-- The plan on its sheet.
local function draw(v, joists, list, e)
  floor(v, joists)
  local lines = {}
  for i, j in ipairs(joists) do lines[i] = {h = j.h, half = half_of(v, j)} end
  things.draw(v, list, e, lines)
  spacings(v, joists, e)
  names(v, joists, e)
  dims.running(v, places(joists), e.low - 0.16 * v.N, e.low)
end

-- What the small plan shares with it.
plan.kinds, plan.cuts, plan.joists, plan.extent = KINDS, CUTS, joists_of, extent
plan.floor, plan.spacings = floor, spacings

-- Places, scale and heights of the sheet before anything is drawn.
local function lay_out(floor_review, page)
  local joists = joists_of(floor_review)
  local e = extent(joists)
  local dims_room = math.max(DIMS, 0.42 + plan.chain_cells(joists) * sheet.cell)
  local left = sheet.margin + e.cells * sheet.cell + dims_room + 0.4
  local lines, long = label_lines(joists)
  local N = most(view.scale_for(e.b - e.a, page.width - left - (long and FULL or WORDS),
    6),
    view.scale_for(e.high - e.low, TALL, 6))
  -- marks that stand apart may reach past the floor
  local spread = most(0, lines * LINE - (e.high - e.low) / N) / 2
  e.dims = dims_room
  return {joists = joists, e = e, N = N, left = left, spread = spread,
    tall = (e.high - e.low) / N, below = 0.2 + dims.running_depth(places(joists),
      joists[1].layout.show)}
end

--- Counts of the actions in one text.
function plan.summary_words(floor_review)
  local parts = {}
  for i, action in ipairs(plan.actions) do
    parts[i] = ("%s %d"):format(action, floor_review.actions[action])
  end
  return ("%d joists: %s"):format(#floor_review.order, table.concat(parts, ", "))
end

-- Script, or nil and what is wrong with the options.
function plan.script(floor_review, page)
  local at, given = lay_out(floor_review, page), floor_review.floor.obstructions
  local trial = view.new(at.N, 0, 0, {show = page.show}, "plan", KINDS)
  draw(trial, at.joists, given, at.e)
  local list = legend(trial, page)
  for _, cells in ipairs(things.rows(given)) do list[#list + 1] = cells end
  local above = TITLES + CAPTION + HEAD + at.spread
  local needed = above + at.tall + at.below + at.spread + #list * ROW + NOTE + 0.2
  page.height = page.height or needed
  local low = sheet.too_low(page, needed)
  if low then return nil, low end
  local first, foot = page.height - above, page.height - above - at.tall - at.below
    - at.spread
  local v = view.new(at.N, at.e.a - (at.left - 0.1) * at.N,
    at.e.a + (page.width - at.left - 0.1) * at.N, {left = 0.1, show = page.show,
      base = first - at.e.high / at.N, top = page.height - TITLES - CAPTION + 0.1,
      bottom = foot}, "plan", KINDS)
  draw(v, at.joists, given, at.e)
  v:caption("Plan, joists from above, the first on top", page,
    page.height - TITLES - 0.1, "")
  local title = page.title or "Plan, " .. words.of(floor_review.name, 70)
  return recipes.fill(recipes.of "drawing", {
    WHAT = "A floor in plan, to scale.",
    PAGE = sheet.setup(page), VIEWS = v:script(page, "plan"),
    WORDS = words.lines {
      sheet.titles(page, title, plan.summary_words(floor_review)),
      sheet.label(sheet.note, sheet.at(page, sheet.margin, NOTE)),
      rows_part(list, page, foot),
    },
    CLOSE = page.output and "unset output" or "",
  })
end

return plan
