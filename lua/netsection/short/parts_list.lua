-- SPDX-License-Identifier: MIT
-- Parts and order of work for a whole floor: pieces of all repairs put together by what
-- is bought, fasteners by kind with what is ordered besides, the work joist by joist.
local act_now = require "netsection.act_now"
local document = require "netsection.document"
local furniture = require "netsection.furniture"
local numbers = require "netsection.numbers"
local point = require "netsection.point"
local text = require "netsection.text"
local verdict = require "netsection.verdict"

local list = {}

--- Whether a joist has a repair that may be drawn and listed as one to build.
list.serves = verdict.serves

--- Reviews whose joists get a repair that serves; and those whose repair does not.
function list.repaired(reviews)
  local serve, refused = {}, {}
  for _, r in ipairs(reviews) do
    local own = r.fixed and r.fixed.kind ~= "neighbor"
    if own then table.insert(list.serves(r) and serve or refused, r) end
  end
  return serve, refused
end

-- Adds an entry to its group: groups keep the order in which they first came up.
local function gather(groups, key, make)
  local g = groups[key]
  if not g then
    g = make()
    g.count, g.marks = 0, {}
    groups[key] = g
    groups[#groups + 1] = g
  end
  return g
end

local function add(g, count, mark)
  g.count = g.count + count
  if g.marks[#g.marks] ~= mark then g.marks[#g.marks + 1] = mark end
end

--- Pieces by what they are, and fasteners by kind: {{name =, size =, length =, stock =,
-- material =, count =, marks =}, ...}, {{fastener =, count =, order =, marks =}, ...}.
function list.grouped(reviews)
  local pieces, fasteners = {}, {}
  for _, r in ipairs(reviews) do
    for _, p in ipairs(r.fixed.pieces) do
      local key = table.concat({p.name, p.size or "", p.stock or "", p.material or "",
        point.format("%.4f", p.length or 0)}, "\0")
      add(gather(pieces, key, function()
        return {name = p.name, size = p.size, length = p.length, stock = p.stock,
          material = p.material}
      end), p.count or 1, r.mark)
    end
    for _, f in ipairs(r.fixed.fasteners) do
      add(gather(fasteners, f.fastener or "", function()
        return {fastener = f.fastener or "fastener"}
      end), f.count, r.mark)
    end
  end
  for _, g in ipairs(fasteners) do g.order = numbers.order(g.count) end
  return pieces, fasteners
end

-- Stock to buy: pieces cut from the same length, counted.
function list.stock(pieces)
  local groups = {}
  for _, p in ipairs(pieces) do
    if p.stock then
      local key = p.stock .. "\0" .. (p.material or "")
      gather(groups, key, function() return {stock = p.stock, material = p.material} end)
      groups[key].count = groups[key].count + p.count
    end
  end
  return groups
end

local function marks_of(reviews)
  local out = {}
  for i, r in ipairs(reviews) do out[i] = r.mark end
  return table.concat(out, ", ")
end
list.marks_of = marks_of

local function right(head)
  return {head = head, align = "right"}
end

local function tables(d, show, pieces, fasteners)
  local rows = {}
  for i, p in ipairs(pieces) do
    rows[i] = {p.name, ("%d"):format(p.count), p.size or "",
      p.length and show.place(p.length) or "", p.stock ~= p.size and p.stock or "",
      p.material or "", table.concat(p.marks, ", ")}
  end
  if #rows > 0 then
    d:table {caption = "Pieces", rows = rows, row_heads = 1, columns = {"Piece",
      right "count", "Size", right "length", "Cut from", "Material", "At joists"}}
  end
  rows = {}
  for i, s in ipairs(list.stock(pieces)) do
    rows[i] = {s.stock, ("%d"):format(s.count), s.material or ""}
  end
  if #rows > 0 then
    d:table {caption = "Stock, if each piece is cut from a length of its own",
      rows = rows, row_heads = 1, columns = {"Stock", right "lengths", "Material"}}
  end
  rows = {}
  for i, f in ipairs(fasteners) do
    rows[i] = {f.fastener, ("%d"):format(f.count), ("%d"):format(f.order),
      table.concat(f.marks, ", ")}
  end
  if #rows > 0 then
    d:table {caption = "Fasteners; the order has 5 % to spare", rows = rows,
      row_heads = 1, columns = {"Fastener", right "count", right "order", "At joists"}}
  end
end

-- Joists with the same order of work, in the order of the floor.
local function sequences(reviews)
  local groups = {}
  for _, r in ipairs(reviews) do
    local key = table.concat(r.fixed.sequence, "\0")
    local g = groups[key]
    if not g then
      g = {steps = r.fixed.sequence, reviews = {}}
      groups[key] = g
      groups[#groups + 1] = g
    end
    g.reviews[#g.reviews + 1] = r
  end
  return groups
end

local function work(d, serve)
  d:heading(2, "Order of work")
  d:list({
    "Mark every joist by its name on the plan; turn off and move what is in the way.",
    "Shore " .. marks_of(serve) .. " before the first of them is touched; two joists "
      .. "side by side stand on shores of their own.",
    "Work on one joist at a time, in the order below; the engineer may change it.",
  }, {ordered = true})
  for _, g in ipairs(sequences(serve)) do
    if #g.steps > 0 then
      d:heading(3, "Joist " .. marks_of(g.reviews))
      for _, r in ipairs(g.reviews) do
        d:paragraph {{mark = r.mark}, ": " .. r.fixed.title}
      end
      d:list(g.steps, {ordered = true})
    end
  end
end

local function open_questions(d, refused)
  for _, r in ipairs(refused) do
    d:note(("%s: no parts; the repair is inadequate: %s"):format(r.mark,
      r.fixed.refused or ("%s, largest ratio %s"):format(r.fixed.status,
      text.ratio(r.fixed.ratio))), "caution")
  end
end

--- Joists that call for a repair and have none.
function list.without_repair(reviews)
  local out = {}
  for _, r in ipairs(reviews) do
    if r.action == "repair" and not r.fixed then out[#out + 1] = r end
  end
  return out
end

--- Parts list and order of work of a joist's or a floor's review, as a document.
function list.document(subject, options)
  local reviews = numbers.reviews(subject, "package", 2)
  local serve, refused = list.repaired(reviews)
  local job, foot = furniture.of(subject, reviews, options)
  local lang, own = furniture.language(subject, options)
  local d = document.new {title = "Parts and order of work: " .. job, job = job,
    foot = foot, lang = lang, own = own}
  act_now.add(d, reviews)
  open_questions(d, refused)
  local open = list.without_repair(reviews)
  if #open > 0 then
    d:note("No repair is described yet for: " .. marks_of(open), "caution")
  end
  if #serve == 0 then return d:paragraph "There is no repair with parts." end
  d:heading(2, "Parts")
  tables(d, serve[1].show, list.grouped(serve))
  work(d, serve)
  return d
end

return list
