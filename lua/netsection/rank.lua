-- SPDX-License-Identifier: MIT
-- Which of several fixes of one joist disturbs the house least. Lumber is cheap; what has
-- to be moved sets the cost. So fixes that serve are put in order of the worst class of
-- disturbance, then how many things move, then pieces, fasteners and ratio. One that
-- fails by calculation, or that something immovable keeps out, is listed with the reason.
local clash = require "netsection.clash"
local label = require "netsection.label"
local obstruction = require "netsection.obstruction"
local parts = require "netsection.parts"
local point = require "netsection.point"
local relief = require "netsection.grid.relief"
local quantity = require "netsection.quantity"
local spelling = require "netsection.locale.spelling"
local review = require "netsection.review"
local error = require "netsection.raise".error
local escape = require "netsection.document.escape"
local tostring = require "netsection.point".text

local rank = {}

local WIDTH = 88

-- Text of a user without control characters.
local function plain(text)
  return escape.text(tostring(text))
end

-- Whether x is a number that can be compared.
local function finite(x)
  return math.type(x) ~= nil and x - x == 0
end

------------------------------------------------------------------- what a fix runs into

local SIDES = {"x1", "x2", "h1", "h2", "y1", "y2"}

-- The box of a piece in the floor's frame (see obstruction.lua); nil without a place.
local function box_of(piece, line)
  for _, name in ipairs(SIDES) do
    if not finite(piece[name]) then return nil end
  end
  return {x1 = piece.x1, x2 = piece.x2, h1 = piece.h1 - line.d, h2 = piece.h2 - line.d,
    y1 = line.y + piece.y1, y2 = line.y + piece.y2}
end

-- A piece of a repair by its name.
local function piece_name(piece)
  local name = plain(piece.name or "piece")
  return piece.of and ("%s of %s"):format(name, plain(piece.of)) or name
end

-- Pieces with their boxes, the names of those without a place, and why, if a piece
-- belongs to a joist that the floor does not have.
local function placed_pieces(fixed, lines, mark)
  local placed, nowhere = {}, {}
  for _, piece in ipairs(fixed.pieces or {}) do
    local line = lines[piece.of or mark]
    local name = piece_name(piece)
    if not line then return placed, nowhere, name .. ": the floor has no such joist" end
    local box = box_of(piece, line)
    if box then
      placed[#placed + 1] = {name = name, box = box}
    elseif piece.kind ~= "hardware" then -- which sits where the pieces meet
      nowhere[#nowhere + 1] = name
    end
  end
  return placed, nowhere
end

-- Holes {x, h, D} that the fix keeps open in its pieces, h turned into the floor's frame.
local function kept_holes(fixed, line)
  local holes = {}
  for i, hole in ipairs(fixed.keeps or {}) do
    holes[i] = {x = hole.x, h = hole.h - line.d, D = hole.D}
  end
  return holes
end

-- The piece that runs deepest into the thing, the first among equals.
local function deepest(thing, placed)
  local worst
  for _, piece in ipairs(placed) do
    local met = clash.meets(thing, piece.box)
    if met and (not worst or met.by > worst.by) then
      worst, met.piece = met, piece.name
    end
  end
  return worst
end

-- A finish has to be opened where the fix is worked from its side.
local function opened(thing, placed, access)
  if thing.kind ~= "finish" then return nil end
  for _, from in ipairs(access or {}) do
    for _, piece in ipairs(placed) do
      if from == thing.face and clash.covers(thing, piece.box) then
        local s, box = thing.shape, piece.box
        return {piece = piece.name, access = from,
          at = (math.max(s.x1, box.x1) + math.min(s.x2, box.x2)) / 2}
      end
    end
  end
end

-- What a repair runs into, with how hard it is to move.
local function described(thing, met)
  return {what = thing.what, class = thing.class, trade = thing.trade, piece = met.piece,
    at = met.at, by = met.by, direction = met.direction, access = met.access,
    obstruction = thing.number}
end

-- Worst first; the rest settles the order whatever order they were noted in.
local function graver(a, b)
  if a.class ~= b.class then return a.class > b.class end
  if a.at ~= b.at then return a.at < b.at end
  if a.what ~= b.what then return point.less(a.what, b.what) end
  return point.less(a.obstruction, b.obstruction)
end

-- Things that have to move for the fix, and those in its way that cannot.
local function clashes(things, placed, holes, access)
  local moved, stuck = {}, {}
  for _, thing in ipairs(things) do
    local met = not clash.passes(thing, holes) and deepest(thing, placed)
      or opened(thing, placed, access)
    if met and thing.movable == "no" then
      stuck[#stuck + 1] = described(thing, met)
    elseif met and thing.class > 0 then
      moved[#moved + 1] = described(thing, met)
    end
  end
  table.sort(moved, graver)
  table.sort(stuck, graver)
  return moved, stuck
end

-- What cannot be moved, with its place.
local function stuck_text(thing, show)
  local at = show.place(thing.at)
  if thing.access then
    return ("%s cannot be opened, and the %s is put in from %s at %s"):format(thing.what,
      thing.piece, thing.access, at)
  end
  return ("%s cannot be moved and stands in the way of the %s at %s: one of them would "
    .. "have to shift %s %s"):format(thing.what, thing.piece, at,
    show.size_up(thing.by), thing.direction)
end

-------------------------------------------------------------------------- one candidate

-- How many pieces or fasteners.
local function total(list)
  local n = 0
  for _, item in ipairs(list or {}) do n = n + (item.count or 1) end
  return n
end

-- Whether a repair puts a post on the floor below.
local function adds_post(fixed)
  for _, piece in ipairs(fixed.pieces or {}) do
    if piece.kind == "post" then return true end
  end
  return fixed.kind == "midspan_support"
end

-- What governs, of which member and where, with its ratio.
local function failure_text(fixed, show)
  local k, text = fixed.governing_check, fixed.governing
  if k then
    text = ("%s%s%s%s: ratio %s"):format(k.member and k.member .. " " or "", k.mode,
      k.name and ", " .. k.name or "",
      finite(k.at) and " at " .. show.place(k.at) or "",
      finite(k.ratio) and review.ratio_text(k.ratio) or "-")
  end
  if fixed.status ~= "not permitted" then return text or fixed.status or "no result" end
  if fixed.failing then
    local first = table.concat(fixed.failing, "; ")
    return (fixed.ratio or 0) > review.full and text and first .. "; " .. text or first
  end
  return text and "not permitted; " .. text or "not permitted"
end

-- Texts in one, or nil where there are none.
local function joined(texts)
  return #texts > 0 and table.concat(texts, "; ") or nil
end

-- Obstructions are asked only of a fix that has pieces somewhere.
local function judge(entry, fixed, floor, lines, mark)
  local placed, nowhere, stray = placed_pieces(fixed, lines, mark)
  local moved, stuck = clashes(floor.obstructions or {}, placed,
    kept_holes(fixed, lines[mark]), fixed.access)
  entry.moved, entry.count, entry.unplaced = moved, #moved, nowhere
  entry.class = moved[1] and moved[1].class or 0
  entry.pieces, entry.fasteners = total(fixed.pieces), total(fixed.fasteners)
  entry.added_post = adds_post(fixed)
  local reasons, show = {fixed.refused or stray}, quantity.of(floor)
  entry.show = show
  for _, thing in ipairs(stuck) do reasons[#reasons + 1] = stuck_text(thing, show) end
  local failing = not fixed.refused and fixed.status ~= "adequate"
    and failure_text(fixed, show) or nil
  if failing and #reasons > 0 then
    reasons[#reasons + 1] = "fails as well: " .. failing
  end
  entry.stuck, entry.refused, entry.failing = stuck, joined(reasons), failing
end

-- Strips "file:line: " of an error raised inside, since the caller's line is put there.
local function fixed_joist(joist, fix, i)
  local ok, made = pcall(joist.fix, joist, fix)
  if ok then return made end
  if type(made) ~= "string" then error(made, 0) end
  error(("rank_fixes: fix %d: %s"):format(i, (made:gsub("^[^\n]-:%d+: ", ""))),
    4)
end

-- A repair tried: its review, what it runs into, counts.
local function entry_of(joist, fix, i, packs)
  local r = fixed_joist(joist, fix, i):review(packs)
  local fixed = r.fixed or {status = "not permitted",
    refused = r.reasons and r.reasons[1] or "no result"}
  return {fix = fix, index = i, review = r, ratio = fixed.ratio, kind = fixed.kind,
    title = fixed.title or fixed.kind or "fix " .. i,
    governing = fixed.governing}, fixed
end

------------------------------------------------------------------------------ the order

-- Ratios that differ by less than this are the same number worked out twice.
local SAME = 1e-9

-- What the order goes by: class, number moved, pieces, fasteners, ratio, as entered.
local function key_of(entry)
  local ratio = finite(entry.ratio) and math.floor(entry.ratio / SAME + 0.5) or math.huge
  return {entry.class, entry.count, entry.pieces, entry.fasteners, ratio, entry.index}
end

-- Whether one comes before another.
local function less(a, b)
  for i, value in ipairs(a.key) do
    if value ~= b.key[i] then return value < b.key[i] end
  end
  return false
end

-- Entries in their order.
local function sorted(entries)
  for _, entry in ipairs(entries) do entry.key = key_of(entry) end
  table.sort(entries, less)
  for i, entry in ipairs(entries) do entry.key, entry.rank = nil, i end
  return entries
end

-- A field of a description as it was given, in few words.
local function given_text(value)
  if type(value) ~= "table" then return plain(value) end
  local meta_ = getmetatable(value)
  if meta_ and meta_.__tostring then return plain(value) end
  local keys, out = {}, {}
  for key in pairs(value) do keys[#keys + 1] = key end
  table.sort(keys, function(a, b) return point.less(tostring(a), tostring(b)) end)
  for i, key in ipairs(keys) do
    local text = given_text(value[key])
    out[i] = math.type(key) and text or ("%s %s"):format(key, text)
  end
  return table.concat(out, math.type(keys[1]) and "; " or ", ")
end

-- Fields in which repairs of one title differ.
local function differing(entries)
  local fields, names = {}, {}
  for _, entry in ipairs(entries) do
    for name in pairs(entry.fix) do fields[name] = true end
  end
  for name in pairs(fields) do
    local first = given_text(entries[1].fix[name])
    for _, entry in ipairs(entries) do
      if given_text(entry.fix[name]) ~= first then names[name] = true end
    end
  end
  local list = {}
  for name in pairs(names) do list[#list + 1] = name end
  table.sort(list, point.less)
  return list
end

-- Where several repairs have one title, each title says what differs.
local function tell_apart(entries)
  local by_title = {}
  for _, entry in ipairs(entries) do
    by_title[entry.title] = by_title[entry.title] or {}
    table.insert(by_title[entry.title], entry)
  end
  for _, same in pairs(by_title) do
    local names = #same > 1 and differing(same) or {}
    for _, entry in ipairs(#names > 0 and same or {}) do
      local said = {}
      for i, name in ipairs(names) do
        said[i] = ("%s %s"):format((name:gsub("_", " ")), entry.fix[name] == nil
          and "not given" or given_text(entry.fix[name]))
      end
      entry.title = ("%s (%s)"):format(entry.title, table.concat(said, ", "))
    end
  end
end

-- The joist of a mark; raises at the caller's line.
local function known_joist(floor, mark)
  local joist = floor:joist(mark)
  if joist then return joist end
  local marks = {}
  for i, j in ipairs(floor.joists) do marks[i] = j.model.mark end
  error(("rank_fixes: the floor has no joist '%s' (it has %s)"):format(plain(mark),
    table.concat(marks, ", ")), 3)
end

-- Raises where the repairs are no list.
local function check_list(fixes)
  local whole = type(fixes) == "table" and #fixes > 0
  for i = 1, whole and #fixes or 0 do whole = whole and type(fixes[i]) == "table" end
  if not whole then
    error("rank_fixes: a list of fixes expected: {ns.sister{...}, ns.strap{...}}", 3)
  end
end

-- The floor as a grid before any repair; raises at the caller of rank_fixes.
local function shared_before(floor, t, packs)
  if type(t) ~= "table" then
    error("rank_fixes: grid: a table of options expected, got " .. type(t), 3)
  end
  local ok, g = pcall(relief.before, floor, t, packs)
  if not ok then
    error("rank_fixes: " .. (tostring(g):gsub("^[^:]+%.lua:%d+: ", "")), 3)
  end
  return g
end

-- Ranks fixes of one joist by what they disturb.
-- @param mark the joist's; @param fixes list of fixes
-- @param options {rules =, standard =}, else the floor's own; grid = those of floor:grid:
--   each entry gets relief = {{mark =, before =, after =}}, largest moments of the
--   joists beside, lb-in, or {refused =}; the order stays
-- @return {mark =, ranked, failing, refused}, lists of {fix, index, title, kind, review,
--   ratio, governing, moved = {{what, class, trade, piece, at, by, direction, access}},
--   class, count, pieces, fasteners, added_post, unplaced = {names of pieces without a
--   place}, stuck = {as moved: what cannot}}; ranked ones with rank, the others with
--   reason. Raises on an unknown mark,
--   on what is no list of fixes, and on a fix with wrong fields.
function rank.fixes(floor, mark, fixes, options)
  parts.only("rank_fixes", options or {}, {"rules", "standard", "grid"}, 2)
  local joist = known_joist(floor, mark)
  check_list(fixes)
  local packs = {by_depth = floor.by_depth,
    rules = options and options.rules or floor.rules,
    standard = options and options.standard or floor.standard}
  local lines = obstruction.lines(floor.joists)
  local shared = options and options.grid and shared_before(floor, options.grid, packs)
  local out, all = {mark = mark, ranked = {}, failing = {}, refused = {}}, {}
  for i, fix in ipairs(fixes) do
    local entry, fixed = entry_of(joist, fix, i, packs)
    judge(entry, fixed, floor, lines, mark)
    entry.reason = entry.refused or entry.failing
    local list = entry.refused and out.refused or entry.failing and out.failing
      or out.ranked
    if shared and not entry.refused and not entry.failing then
      entry.relief = relief.of(floor, mark, fix, options.grid, packs, shared)
    end
    entry.refused, entry.failing = nil, nil
    setmetatable(entry, label.ranked)
    list[#list + 1], all[i] = entry, entry
  end
  tell_apart(all)
  sorted(out.ranked)
  return setmetatable(out, label.ranking)
end

------------------------------------------------------------------------------- as text

-- Breaks text at blanks; the first line stands after first, the others after hang.
local function wrap(out, first, text, hang)
  local line, empty = first, true
  for word in plain(text):gmatch "%S+" do
    if not empty and utf8.len(line, 1, -1, true) + #word + 1 > WIDTH then
      out[#out + 1], line, empty = line, hang, true
    end
    line = empty and line .. word or line .. " " .. word
    empty = false
  end
  out[#out + 1] = line
end

local COLUMNS = "%4s  %5s  %5s  %5s  %6s  %9s  "

-- A thing that is moved, with its class and place.
local function moved_text(thing, show)
  return ("%s (class %d%s%s) at %s"):format(thing.what, thing.class,
    thing.trade and ", " .. thing.trade or "",
    thing.access and ", access from " .. thing.access or "",
    show.place(thing.at))
end

-- A row of the table as text.
local function row(out, entry)
  local first = point.format(COLUMNS, entry.rank,
    finite(entry.ratio) and review.ratio_text(entry.ratio) or "-", entry.class,
    entry.count, entry.pieces, entry.fasteners)
  local hang = (" "):rep(#first)
  wrap(out, first, entry.title .. (entry.added_post and " (adds a post)" or ""), hang)
  local items = {}
  for i, thing in ipairs(entry.moved) do items[i] = moved_text(thing, entry.show) end
  if #items == 0 then items[1] = "nothing moves" end
  if #entry.unplaced > 0 then
    items[#items + 1] = "not compared with the obstructions: "
      .. table.concat(entry.unplaced, ", ")
  end
  if entry.relief then items[#items + 1] = relief.said(entry.relief, entry.show) end
  for _, item in ipairs(items) do wrap(out, hang .. "- ", item, hang .. "  ") end
end

-- What the classes mean that come up.
local function legend(out, entries)
  local seen, texts = {}, {}
  for _, entry in ipairs(entries) do
    for _, thing in ipairs(entry.moved) do seen[thing.class] = true end
  end
  for class, name in ipairs(obstruction.classes) do
    if seen[class] then texts[#texts + 1] = ("%d %s"):format(class, name) end
  end
  if #texts > 0 then wrap(out, "Class: ", table.concat(texts, ", "), "  ") end
end

-- Entries under a heading, where there are any.
local function listed(out, head, entries)
  if #entries == 0 then return end
  out[#out + 1] = head
  for _, entry in ipairs(entries) do
    wrap(out, "  - ", ("%s: %s"):format(entry.title, entry.reason), "    ")
  end
end

-- A table of the ranked fixes, then those that fail and those refused, with the reasons.
-- @param result of rank.fixes; @return text that ends in a line break
function rank.text(result)
  if type(result) ~= "table" or type(result.ranked) ~= "table" then
    error("rank.text: a result of floor:rank_fixes expected, got " .. type(result), 2)
  end
  local out = {("Fixes of joist %s, least disturbance first"):format(plain(result.mark))}
  if #result.ranked > 0 then
    out[#out + 1] = point.format(COLUMNS, "rank", "ratio", "class", "moves", "pieces",
      "fasteners") .. "fix, and what has to move"
    for _, entry in ipairs(result.ranked) do row(out, entry) end
    legend(out, result.ranked)
  else
    out[#out + 1] = "None of the fixes tried serves."
  end
  listed(out, "Fails by calculation:", result.failing)
  listed(out, "Refused:", result.refused)
  local first = result.ranked[1] or result.failing[1] or result.refused[1] or {}
  return spelling.page(table.concat(out, "\n") .. "\n",
    first.show and first.show.lang)
end

return rank
