-- SPDX-License-Identifier: MIT
-- What the joists of a floor have in common and is therefore said once, at the head of
-- the sheet: assumptions and switches of several with their marks, the most frequent
-- inputs. The sheet of a joist then says only what differs.
local cautions = require "netsection.cautions"
local inputs = require "netsection.calculation.inputs"
local point = require "netsection.point"
local tostring = require "netsection.point".text

local shared = {}

---------------------------------------------------------------------------
-- Lists of texts
---------------------------------------------------------------------------

-- Texts that several joists with numbers have, in the order in which they come up, with
-- the marks where not all do; and a set of the bare texts.
local SEVERAL = 3

local function of_several(contexts, field)
  local marks, order, n = {}, {}, 0
  for _, ctx in ipairs(contexts) do
    n = n + (ctx.r.computed and 1 or 0)
    for _, said in ipairs(ctx.r.computed and ctx.r[field] or {}) do
      if not marks[said] then marks[said], order[#order + 1] = {}, said end
      table.insert(marks[said], ctx.r.mark)
    end
  end
  local set = {}
  for _, said in ipairs(order) do
    local count = #marks[said]
    if count == n or count >= SEVERAL then
      set[said] = true
      set[#set + 1] = count == n and said
        or ("%s (%s)"):format(said, table.concat(marks[said], ", "))
    end
  end
  return set
end

--- Those of a list that the set does not hold.
function shared.besides(list, set)
  local out = {}
  for _, said in ipairs(list) do
    if not set[said] then out[#out + 1] = said end
  end
  return out
end

-- Cautions that hold for a kind of damage or repair, not for one place of one joist.
local GENERAL = {[cautions.open] = true, [cautions.water] = true,
  [cautions.steel] = true, [cautions.fasteners] = true}
shared.always = {}
for _, said in ipairs(cautions.always) do
  GENERAL[said], shared.always[said] = true, true
end

local ORDER = {cautions.open, cautions.water, cautions.steel, cautions.fasteners}

--- Cautions of a joist that are said at the end of a floor's sheet.
shared.general = GENERAL

--- General cautions of a floor, each with the marks it is for.
function shared.cautions(contexts)
  local marks = {}
  for _, ctx in ipairs(contexts) do
    local seen = {}
    for _, list in ipairs {ctx.r.cautions, ctx.r.fixed and ctx.r.fixed.cautions or {}} do
      for _, said in ipairs(list) do
        if GENERAL[said] and not seen[said] then
          seen[said] = true
          marks[said] = marks[said] or {}
          table.insert(marks[said], ctx.r.mark)
        end
      end
    end
  end
  local out = {}
  for _, said in ipairs(ORDER) do
    if marks[said] then
      out[#out + 1] = ("%s (%s)"):format(said, table.concat(marks[said], ", "))
    end
  end
  return out
end

---------------------------------------------------------------------------
-- Inputs
---------------------------------------------------------------------------

local function text_of(cell)
  return type(cell) == "table" and cell.text or tostring(cell or "")
end

-- A row as one text: rows that read the same are the same.
local function key_of(row)
  local out = {}
  for i = 1, 4 do out[i] = text_of(row[i]) end
  return table.concat(out, "\0")
end

-- Of the rows that name one thing the one that most joists have, the first of equals.
local function usual(contexts)
  local order, names = {}, {}
  for _, ctx in ipairs(contexts) do
    for _, row in ipairs(inputs.rows(ctx)) do
      local name, key = row[1], key_of(row)
      local of = names[name]
      if not of then
        of = {counts = {}, most = 0}
        names[name], order[#order + 1] = of, name
      end
      of.counts[key] = (of.counts[key] or 0) + 1
      of.rows = of.rows or {}
      of.rows[key] = of.rows[key] or row
      if of.counts[key] > of.most then of.most, of.row = of.counts[key], of.rows[key] end
    end
  end
  local rows, by_name = {}, {}
  for _, name in ipairs(order) do
    if names[name].most >= math.min(SEVERAL, #contexts) then
      rows[#rows + 1], by_name[name] = names[name].row, names[name].row
    end
  end
  return rows, by_name
end

--- Rows of a joist that are not those at the head, and those there that it has not.
function shared.own_rows(ctx, common)
  local out, has = {}, {}
  for _, row in ipairs(inputs.rows(ctx)) do
    local other = common.by_name[row[1]]
    has[row[1]] = true
    if not other or key_of(other) ~= key_of(row) then out[#out + 1] = row end
  end
  for _, row in ipairs(common.rows) do
    if not has[row[1]] then out[#out + 1] = {row[1], "", "", "not for this joist"} end
  end
  return out
end

--- Whether the floor's load on a joist's foot is the one at the head.
function shared.same_load(ctx, common)
  local here, there = ctx.tree.inputs, common.load and common.load.tree.inputs
  return there ~= nil and here.dead == there.dead and here.live == there.live
    and here.spacing == there.spacing
end

-- The first joist whose load is the most frequent.
local function usual_load(contexts)
  local counts, best = {}, nil
  for _, ctx in ipairs(contexts) do
    local i = ctx.tree.inputs
    local key = point.format("%a %a %a", i.dead, i.live, i.spacing)
    counts[key] = counts[key] or {n = 0, ctx = ctx}
    counts[key].n = counts[key].n + 1
    if not best or counts[key].n > best.n then best = counts[key] end
  end
  return best and best.n >= math.min(SEVERAL, #contexts) and best.ctx or nil
end

--- What a floor's joists share.
-- @return {assumptions, switches = lists that are sets too, rows, by_name, load}
function shared.of(contexts)
  local rows, by_name = usual(contexts)
  return {assumptions = of_several(contexts, "assumptions"),
    switches = of_several(contexts, "switches"), rows = rows, by_name = by_name,
    load = usual_load(contexts)}
end

local NONE = "None that several joists share."

--- Adds it to the head of the sheet.
function shared.add(d, common)
  d:heading(2, "What the joists share")
  d:paragraph("Each sheet lists what is different there; nothing listed means as here. "
    .. "Lengths along a joist are from the center of its left bearing.")
  d:heading(3, "Assumptions")
  if #common.assumptions > 0 then
    d:list(common.assumptions, {ordered = true})
  else
    d:paragraph(NONE)
  end
  d:heading(3, "Options not at default")
  if #common.switches > 0 then d:list(common.switches) else d:paragraph(NONE) end
  d:heading(3, "Inputs where a sheet lists no others")
  inputs.table(d, common.rows, "As entered and as understood")
  if common.load then inputs.floor_load(common.load, d) end
end

return shared
