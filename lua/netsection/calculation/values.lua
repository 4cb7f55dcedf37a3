-- SPDX-License-Identifier: MIT
-- Loads and design values of a floor, said once: the floor's loads by joists, walls, tubs
-- and points apart, reference values by wood and size, and each adjusted value that the
-- sheets use, under a number to which they refer.
local part = require "netsection.fix.part"
local point = require "netsection.point"
local roof_loads = require "netsection.roof_loads"
local text = require "netsection.text"
local units = require "netsection.units"
local tostring = require "netsection.point".text

local values = {}

local function right(head) return {head = head, align = "right"} end

-- Joists by a key, in their order: {{key parts = row, marks = {...}, ctx = the first}}.
local function grouped(contexts, key_of)
  local order, groups = {}, {}
  for _, ctx in ipairs(contexts) do
    local key = key_of(ctx)
    if key then
      if not groups[key] then
        groups[key] = {ctx = ctx, marks = {}}
        order[#order + 1] = groups[key]
      end
      table.insert(groups[key].marks, ctx.r.mark)
    end
  end
  return order
end

-- "J1 to J4, J7" where marks follow one another in the floor's order.
function values.marks(marks, place)
  local out, i = {}, 1
  while i <= #marks do
    local k = i
    while marks[k + 1] and place[marks[k + 1]] == place[marks[k]] + 1 do k = k + 1 end
    if k - i >= 2 then
      out[#out + 1] = marks[i] .. " to " .. marks[k]
    else
      for n = i, k do out[#out + 1] = marks[n] end
    end
    i = k + 1
  end
  return table.concat(out, ", ")
end

local function floor_loads(d, contexts, place)
  local rows = {}
  for i, g in ipairs(grouped(contexts, function(ctx)
    local m = ctx.r.joist.model
    return m.manufactured and "-" or point.format("%a %a %a", m.dead, m.live, m.spacing)
  end)) do
    local ctx, m = g.ctx, g.ctx.r.joist.model
    local t, show = ctx.tree.inputs, m.show
    local function cell(kind, name, x)
      return ctx.cell("inputs." .. name, show.figures(kind, x))
    end
    rows[i] = {values.marks(g.marks, place), cell("area_load", "dead", m.dead),
      cell("area_load", "live", m.live), cell("length", "spacing", m.spacing),
      cell("line_load", "w_D", t.w_D), cell("line_load", "w_L", t.w_L),
      cell("line_load", "w", t.w)}
  end
  local show = contexts[1].r.show
  local area, line = ", " .. show.unit.area_load, ", " .. show.unit.line_load
  d:table {caption = "Floor: w = load x spacing/" .. show.run, rows = rows,
    row_heads = 1, columns = {"Joists", right("dead" .. area), right("live" .. area),
    right("spacing, " .. show.unit.length), right("dead" .. line), right("live" .. line),
    right("both" .. line)}}
end

-- What a load besides the floor is in words: its kind and the note that came with it.
local function load_words(l, given)
  local t = given[l.part.load]
  return l.part.name .. (t and t.note and ": " .. tostring(t.note) or "")
end

local function other_loads(d, contexts)
  local rows = {}
  for _, ctx in ipairs(contexts) do
    local m, n, show = ctx.r.joist.model, 0, ctx.r.show
    local given = ctx.r.joist.description.loads or {}
    for _, of in ipairs(roof_loads.of_floor(m)) do
      local key = "w_" .. of[4]
      rows[#rows + 1] = {ctx.r.mark, of[1]:lower(), of[2] == "snow" and "snow"
        or "roof live", "whole joist", "", ctx.cell("inputs." .. key,
        show.figures("line_load", ctx.tree.inputs[key])), show.unit.line_load}
    end
    for _, l in ipairs(m.lines) do
      n = n + 1
      local here, w1, w2 = "inputs.loads." .. n, part.plf(l, m)
      local many = math.abs(w1 - w2) > 1e-9
      rows[#rows + 1] = {ctx.r.mark, load_words(l, given), roof_loads.case(l),
        l.whole and "whole joist" or ctx.cell(here .. ".from", show.place(l.from)),
        l.whole and "" or ctx.cell(here .. ".to", show.place(l.to)),
        many and ("%s to %s"):format(show.figures("line_load", w1),
          show.figures("line_load", w2)) or ctx.cell(here .. ".plf_from",
          show.figures("line_load", w1)), show.unit.line_load}
    end
    for _, p in ipairs(m.points) do
      n = n + 1
      local here = "inputs.loads." .. n
      rows[#rows + 1] = {ctx.r.mark, load_words(p, given), roof_loads.case(p),
        ctx.cell(here .. ".at", show.place(p.at)), "",
        ctx.cell(here .. ".lb", show.figures("force", p.P)), show.unit.force}
    end
  end
  if #rows == 0 then
    d:paragraph "No walls, tubs or point loads were entered."
    return
  end
  d:table {caption = "Walls, tubs and points, besides the floor", rows = rows,
    row_heads = 1, columns = {"Joist", "Load", "Case", right "from, at", right "to",
    right "amount", ""}}
end

local WOOD = {"Fb", "Fv", "Fc_perp", "Ft", "Fc", "E", "Emin", "CF"}
local HEADS = {"Fb", "Fv", "Fc-perp", "Ft", "Fc", "E", "Emin", "CF"}

local function plain(v)
  local said = units.significant(v, 4)
  return said:find("e", 1, true) and point.format("%.0f", tonumber(said)) or text.short(v)
end

local function reference(d, contexts, place)
  local rows = {}
  for i, g in ipairs(grouped(contexts, function(ctx)
    local m, out = ctx.r.joist.model, {}
    if not m.Fb then return nil end
    for k, name in ipairs(WOOD) do out[k] = tostring(m[name]) end
    return (m.wood or m.source or "") .. table.concat(out, " ")
  end)) do
    local m, show = g.ctx.r.joist.model, g.ctx.r.show
    rows[i] = {values.marks(g.marks, place), m.wood or "as entered"}
    for _, name in ipairs(WOOD) do
      local v = m[name] and name ~= "CF" and show.scaled("stress", m[name]) or m[name]
      rows[i][#rows[i] + 1] = v and g.ctx.cell("inputs." .. name, plain(v)) or "-"
    end
  end
  if #rows == 0 then return end
  local columns, labels = {"Joists", "Wood"}, contexts[1].r.labels
  for k, head in ipairs(HEADS) do
    local own = labels and labels[WOOD[k]]
    columns[#columns + 1] = right(own and own:match "%S+$" or head)
  end
  d:table {caption = (labels and labels.values or "Reference design values") .. ", "
    .. contexts[1].r.show.unit.stress, rows = rows, row_heads = 1,
    columns = columns}
end

---------------------------------------------------------------------------
-- Adjusted values
---------------------------------------------------------------------------

-- A line that adjusts a reference value: F_b' = F_b*CD*CM ..., lambda where loads have
-- factors.
local function adjusts(step)
  return step.formula ~= nil and step.clause ~= nil and step.symbol:find "^[Ff]_" ~= nil
    and (step.formula:find "CD%*" or step.formula:find "lambda%*"
    or step.formula:find "k_mod%*"
    or step.symbol:find "^f_r" and step.formula:find "K_D%*") ~= nil
    or step.symbol == "F_cp'"
end

--- A list of adjusted values that sheets refer to.
function values.new() return {list = {}, at = {}} end

-- The line's number in the list, where it is put when it is new.
local function number_of(book, step)
  local key = table.concat({step.symbol, step.formula, step.numbers or "",
    tostring(step.value)}, "\0")
  if not book.at[key] then
    book.list[#book.list + 1] = step
    book.at[key] = #book.list
  end
  return book.at[key]
end

--- The lines of a check with each adjusted value referred to by its number.
function values.referred(book, steps)
  local out = {}
  for i, step in ipairs(steps) do
    if adjusts(step) then
      out[i] = {symbol = step.symbol, value = step.value, unit = step.unit,
        data = step.data, says = ("value %d"):format(number_of(book, step))}
    else
      out[i] = step
    end
  end
  return out
end

--- Adds the adjusted values. @param title of the heading, @param level
function values.adjusted(d, book, title, level)
  if #book.list == 0 then return end
  d:heading(level, title)
  local steps = {}
  for i, step in ipairs(book.list) do
    steps[i] = {symbol = ("%d: %s"):format(i, step.symbol), formula = step.formula,
      numbers = step.numbers, value = step.value, unit = step.unit, clause = step.clause,
      data = step.data}
  end
  d:calculation(steps)
end

--- Adds the section. @param contexts of all joists in their order
-- @param place {mark = its place in the floor}
function values.add(d, contexts, place, book)
  d:heading(2, "Loads and design values")
  floor_loads(d, contexts, place)
  other_loads(d, contexts)
  reference(d, contexts, place)
  values.adjusted(d, book, "Adjusted values that the sheets refer to by number", 3)
end

return values
