-- SPDX-License-Identifier: MIT
-- Places of marks in a row, so that none overlap, and the marks of cuts above a frame.

local sheet = require "netsection.plot.sheet"
local words = require "netsection.plot.words"

local marks = {}

-- Moves marks apart until none overlap, each as little as can be (isotonic regression by
-- pooling neighbors). `centers` rise; returns the new ones.
function marks.apart(centers, widths, low, high)
  if #centers == 0 then return {} end
  local offsets, pools = {[1] = 0}, {}
  for i = 2, #centers do
    offsets[i] = offsets[i - 1] + (widths[i - 1] + widths[i]) / 2
  end
  for i, center in ipairs(centers) do
    local pool = {sum = center - offsets[i], n = 1}
    local before = pools[#pools]
    while before and before.sum / before.n > pool.sum / pool.n do
      pool = {sum = pool.sum + before.sum, n = pool.n + before.n}
      pools[#pools] = nil
      before = pools[#pools]
    end
    pools[#pools + 1] = pool
  end
  local last = #centers
  local top = high - offsets[last] - widths[last] / 2
  local placed = {}
  for _, pool in ipairs(pools) do
    for _ = 1, pool.n do
      local base = math.max(low + widths[1] / 2, math.min(pool.sum / pool.n, top))
      placed[#placed + 1] = base + offsets[#placed + 1]
    end
  end
  return placed
end

-- Cuts in the order of their places, with what is shown of them.
function marks.sorted(given)
  local list = {}
  for i, cut in ipairs(given.cuts or {}) do
    local function inside(x)
      return math.max(given.start, math.min(given.finish, x))
    end
    list[i] = {
      x1 = cut.x1, x2 = cut.x2, left = inside(cut.x1), right = inside(cut.x2),
      at = inside(cut.at or (cut.x1 + cut.x2) / 2), order = i,
      severed = cut.kind == "sever", name = words.of(cut.name, 16),
      label = cut.label,
    }
  end
  table.sort(list, function(a, b)
    if a.at ~= b.at then return a.at < b.at end
    return a.order < b.order
  end)
  return list
end

-- A, B ... Z, A1, B1 ...: cuts are named "hole 2", so numbers would mislead.
function marks.letter(i)
  local round = (i - 1) // 26
  return string.char(65 + (i - 1) % 26) .. (round > 0 and ("%d"):format(round) or "")
end

-- Gives each cut the text `mark_of` makes, and its place; true if each has one and stands
-- over its cut.
local function try(cuts, cell, diagram, mark_of)
  local centers, widths, near = {}, {}, true
  for i, cut in ipairs(cuts) do
    cut.mark = mark_of(i, cut)
    centers[i], widths[i] = cut.at, (words.width(cut.mark) + 1) * cell
  end
  for i, x in ipairs(marks.apart(centers, widths, diagram.start, diagram.finish)) do
    cuts[i].mark_x = x
    near = near and cuts[i].mark ~= "" and math.abs(x - centers[i]) <= 0.35 * widths[i]
  end
  return near
end

-- Names where each can stand over its cut, else letters, which the list explains.
-- True for letters.
function marks.place(cuts, diagram, room)
  if #cuts == 0 then return false end
  local cell = sheet.cell * (diagram.finish - diagram.start) / room
  local named = try(cuts, cell, diagram, function(_, cut) return cut.name end)
  if not named then try(cuts, cell, diagram, marks.letter) end
  return not named
end

-- Cuts that overlap (a hole in a rotted stretch) get bars at different levels.
function marks.levels(cuts, gap)
  local ends = {}
  for _, cut in ipairs(cuts) do
    local level = 1
    while ends[level] and ends[level] + gap > cut.left do level = level + 1 end
    cut.level, ends[level] = level, cut.right
  end
  return #ends
end

return marks
