-- SPDX-License-Identifier: MIT
-- The part of a calculation sheet that is about checks: rules with their limits, the
-- three states side by side, the table of checks, and every check line by line.
local numbers = require "netsection.numbers"
local reason = require "netsection.reason"
local review = require "netsection.review"
local statics = require "netsection.statics"
local text = require "netsection.text"
local values = require "netsection.calculation.values"
local tostring = require "netsection.point".text

local checks = {}

-- A number in the unit that shown_unit names; its data stands in the tree under the name
-- of what is shown: ft-lb for lb-in.
local function shown_quantity(ctx, path, key, v, unit)
  if v == nil then return "-" end
  local name = path .. "." .. key .. (unit == "lb-in" and "_ft_lb" or "")
  return ctx.cell(name, ctx.r.show.quantity_number(v, unit))
end

local function shown_unit(ctx, unit)
  return ctx.r.show.unit_of(unit)
end

function checks.ratio(ctx, path, v, strong)
  if v == nil then return "-" end
  local cell = v < 1e6 and ctx.cell(path, review.ratio_text(v))
    or {text = review.ratio_text(v)}
  cell.strong = strong
  return cell
end

---------------------------------------------------------------------------
-- Rules
---------------------------------------------------------------------------

function checks.rules(ctx)
  local d, r = ctx.d, ctx.r
  d:heading(3, "Prescriptive limits")
  if not ctx.common then d:paragraph(r.rules.pack .. ": " .. r.rules.title .. ".") end
  d:paragraph {"Status: ", {strong = r.rules.status}}
  local rows = {}
  for i, item in ipairs(r.rules.items) do
    local path = "rules.items." .. i
    local near = item.measured < numbers.nothing_near
    rows[#rows + 1] = near and {item.name, item.text or item.measure,
      ctx.cell(path .. ".measured", ctx.r.show.number("length", item.measured, 3)),
      item.at_least and "at least" or "at most",
      ctx.cell(path .. ".limit", ctx.r.show.number("length", item.limit, 3)), item.clause,
      {text = item.ok and "within" or "outside", strong = not item.ok}} or nil
  end
  if #rows > 0 then
    d:table {caption = "Each cut against its limits, "
      .. ctx.r.show.unit.length, columns = {{head = "Cut"},
      {head = "Measure"}, {head = "measured", align = "right"}, {head = ""},
      {head = "limit", align = "right"}, {head = "Clause"}, {head = "Finding"}},
      rows = rows, row_heads = 1}
  end
  local said = {}
  for i, b in ipairs(r.rules.breaches) do
    said[i] = ("%s: %s (%s)"):format(b.name, b.text, b.clause)
  end
  if #said > 0 then
    d:paragraph "Outside the limits:"
    d:list(said)
  end
end

---------------------------------------------------------------------------
-- Three states side by side
---------------------------------------------------------------------------

local STATES = {"uncut", "cut", "fixed"}
local HEADS = {uncut = "uncut", cut = "as cut", fixed = "repaired"}

local function governing_text(a)
  local k = a.governing_check
  if a.stopped then return a.stopped end
  if not k then return "-" end
  return reason.mode(k) .. (k.name and ", " .. k.name or "")
end

local MEASURES = {
  {"Status", function(_, _, a) return a.refused and "inadequate" or a.status end},
  {"Largest ratio", function(ctx, path, a)
    return checks.ratio(ctx, path .. ".ratio", a.ratio, true)
  end},
  {"Governed by", function(_, _, a) return governing_text(a) end},
  {"Largest moment, ", function(ctx, path, a)
    return shown_quantity(ctx, path, "moment", a.moment, "lb-in")
  end, "moment"},
  {"Largest shear, ", function(ctx, path, a)
    return shown_quantity(ctx, path, "shear", a.shear, "lb")
  end, "force"},
  {"Live deflection, ", function(ctx, path, a)
    return shown_quantity(ctx, path .. ".deflection", "live",
      a.deflection and a.deflection.live, "in")
  end, "length", label = "live"},
  {"Total deflection, ", function(ctx, path, a)
    return shown_quantity(ctx, path .. ".deflection", "total",
      a.deflection and a.deflection.total, "in")
  end, "length", label = "total"},
  {"Repetitive factor Cr", function(ctx, path, a)
    return a.Cr and ctx.cell(path .. ".Cr", text.short(a.Cr)) or "-"
  end, label = "Cr"},
}

local function states_of(r)
  local list = {}
  for _, name in ipairs(STATES) do
    if r[name] then list[#list + 1] = name end
  end
  return list
end

-- What is least and what is dead matters to a repair and its shores.
local function reaction_rows(ctx, list, rows)
  local most = 0
  for _, name in ipairs(list) do most = math.max(most, #(ctx.r[name].reactions or {})) end
  local kinds = ctx.common and ctx.r.action == "leave" and {"most"}
    or {"most", "least", "dead"}
  for i = 1, most do
    for _, kind in ipairs(kinds) do
      local row = {("Reaction %d, %s, %s"):format(i, kind, ctx.r.show.unit.force)}
      for k, name in ipairs(list) do
        local entry = (ctx.tree[name].reactions or {})[i]
        row[k + 1] = entry and shown_quantity(ctx, ("%s.reactions.%d"):format(name, i),
          kind, entry[kind], "lb") or "-"
      end
      rows[#rows + 1] = row
    end
  end
end

function checks.states(ctx)
  local list, rows, columns = states_of(ctx.r), {}, {{head = ""}}
  for _, name in ipairs(list) do
    columns[#columns + 1] = {head = HEADS[name], align = "right"}
  end
  for i, m in ipairs(MEASURES) do
    local own = m.label and ctx.r.labels and ctx.r.labels[m.label]
    rows[i] = {(own and own .. (m[3] and ", " or "") or m[1])
      .. (m[3] and ctx.r.show.unit[m[3]] or "")}
    for k, name in ipairs(list) do rows[i][k + 1] = m[2](ctx, name, ctx.r[name]) end
  end
  reaction_rows(ctx, list, rows)
  ctx.d:table {caption = "Uncut, as cut and repaired", columns = columns, rows = rows,
    row_heads = 1}
end

---------------------------------------------------------------------------
-- The checks
---------------------------------------------------------------------------

function checks.name(k)
  local hogging = k.mode == "bending" and k.branch == 2
  local said = reason.mode(k) .. (hogging and ", top in tension"
    or "")
  if k.name then said = said .. ", " .. k.name end
  if k.support then said = said .. ", support " .. k.support end
  return said
end

local COLUMNS = {{head = "Check"}, {head = "Member"}, {head = "at", align = "right"},
  {head = "demand", align = "right"}, {head = "capacity", align = "right"},
  {head = "Unit"}, {head = "ratio", align = "right"}, {head = "Clause"}, {head = ""}}

local MEMBERS = {host = "joist"}

local function row_of(ctx, a, k, path)
  local governs = k == a.governing_check
  return {checks.name(k), MEMBERS[k.member] or k.member or "joist",
    k.at and k.mode ~= "stability" and ctx.cell(path .. ".at", ctx.r.show.place(k.at))
      or "-",
    shown_quantity(ctx, path, "demand", k.demand, k.unit),
    k.mode ~= "uplift" and shown_quantity(ctx, path, "capacity", k.capacity, k.unit)
      or "-",
    shown_unit(ctx, k.unit), checks.ratio(ctx, path .. ".ratio", k.ratio, governs),
    k.clause, governs and {text = "governs", strong = true}
      or not k.binding and "for information" or ""}
end

-- Ratios of the checks of a state by their names.
local function ratios_of(ctx, name)
  local a, cells = ctx.r[name], {}
  for i, word in ipairs(numbers.check_words(a.checks)) do
    local k = a.checks[i]
    cells[word] = checks.ratio(ctx, ("%s.checks.%s.ratio"):format(name, word), k.ratio,
      k == a.governing_check)
  end
  return cells
end

local RATIO = 7    -- its column

-- The columns with a second one of ratios.
local function with_ratio(head)
  local columns = {table.unpack(COLUMNS)}
  table.insert(columns, RATIO, {head = head, align = "right"})
  return columns
end

--- The checks of one state as a table.
-- @param beside a state whose ratios stand in a column of their own, or nil
function checks.table(ctx, name, caption, beside)
  local a, rows = ctx.r[name], {}
  local words = numbers.check_words(a.checks)
  local others = beside and ratios_of(ctx, beside)
  for i, k in ipairs(a.checks) do
    rows[i] = row_of(ctx, a, k, ("%s.checks.%s"):format(name, words[i]))
    if others then table.insert(rows[i], RATIO, others[words[i]] or "-") end
  end
  if #rows > 0 then
    ctx.d:table {caption = caption, rows = rows, row_heads = 1,
      columns = others and with_ratio(HEADS[beside]) or COLUMNS}
  end
end

-- Givens that rest on more than this sheet where no sum gives them.
local SUMMED = {M = true, V = true, V_0 = true, R = true, D = true,
  G = true}

-- The lines before a given, and it with its sum.
local function with_sum(out, line, lines, path)
  for i, sum in ipairs(lines) do
    local last = i == #lines
    out[#out + 1] = {symbol = sum.symbol, formula = sum.formula, numbers = sum.numbers,
      value = last and line.value or text.short(sum.value), says = sum.says,
      exact = sum.value, unit = last and line.unit or sum.unit,
      clause = last and line.clause or nil, data = last and line.data
        or ("%s.sums.%s.%s.value"):format(path:gsub("%.steps$", ""), line.symbol,
        sum.symbol)}
  end
end

-- Steps with the names of their values, in the order in which the tree holds them.
local function named(k, tree, path, show)
  local out, order = {}, getmetatable(tree).__jsonorder
  for _, list in ipairs {k.extra_steps or {}, k.steps or {}} do
    for _, step in ipairs(list) do
      local word = order[#out + 1]
      local value, unit = step.value, step.unit
      if math.type(value) then value, unit = text.value(step, show) end
      if step.symbol == "ratio" and math.type(step.value) and step.value >= 1e6 then
        value = "no capacity"
      end
      out[#out + 1] = {symbol = step.symbol, formula = step.formula,
        numbers = step.formula and step.inputs and text.with_numbers(step, show) or nil,
        value = value, unit = unit, clause = step.clause, says = step.says,
        exact = math.type(step.value) and show.coherent(step.value, step.unit) or nil,
        data = math.type(step.value) and value ~= "no capacity"
          and ("%s.%s.value"):format(path, word) or nil}
    end
  end
  return out
end

local function steps_of(ctx, state, k, word)
  local path = ("%s.%s.checks.%s.steps"):format(ctx.name, state, word)
  local list = named(k, ctx.tree[state].checks[word].steps, path, ctx.r.show)
  local sums, out = statics.sums(ctx.r, state, k), {}
  for _, line in ipairs(list) do
    local lines = not line.formula and sums[line.symbol]
    if lines then
      with_sum(out, line, lines, path)
    else
      if not line.formula and SUMMED[line.symbol] and line.data and ctx.r.cut then
        line.says = (line.says and line.says .. "; " or "") .. "in full in numbers.csv"
      end
      out[#out + 1] = line
    end
  end
  return out
end

-- Lines as one text, without the names of their numbers.
local function lines_text(list, first, last)
  local out = {}
  for i = first, last do
    local s = list[i]
    out[#out + 1] = table.concat({s.symbol, s.formula or "", s.numbers or "",
      tostring(s.value), s.unit or "", s.clause or "", s.says or ""}, "\0")
  end
  return table.concat(out, "\n")
end

-- Where lines stand already: "bearing, support 1 at 0'-0\", D+L (uncut)", with the joist
-- where it is another. Sheets of a floor share what has been said.
local function before(ctx, key, title)
  local said = ctx.said[key]
  if not said then
    ctx.said[key] = {title = title, mark = ctx.r.mark}
    return nil
  end
  return said.title .. (said.mark ~= ctx.r.mark and " of joist " .. said.mark or "")
end

-- A long way to the value of one fastener is written out where it first comes up.
local function without_repeats(ctx, k, list, title)
  local n = #(k.extra_steps or {})
  if n == 0 then return list end
  local there = before(ctx, lines_text(list, 1, n), title)
  if not there then return list end
  ctx.d:paragraph("Value of one fastener: the lines are those of " .. there .. ".")
  return table.move(list, n + 1, #list, 1, {})
end

-- Calculation of one check, or where the same lines stand above.
local function written(ctx, k, list, title)
  local there = before(ctx, lines_text(list, 1, #list), title)
  if there then
    ctx.d:paragraph("Line for line as " .. there .. ".")
    return
  end
  list = without_repeats(ctx, k, list, title)
  if ctx.book then list = values.referred(ctx.book, list) end
  if #list > 0 then ctx.d:calculation(list) end
end

local function title_of(k, show)
  local at = k.at and k.mode ~= "stability" and " at " .. show.place(k.at) or ""
  local member = k.member and k.member ~= "host" and " (" .. k.member .. ")" or ""
  return ("%s%s%s, %s"):format(checks.name(k), member, at, k.combination or "")
end

--- Calculations of the checks of one state, line by line; lines that stand above are
-- referred to.
-- @param wanted function(check) -> true for those that are written out
-- @param more words after each title
function checks.steps(ctx, name, wanted, more)
  local a = ctx.r[name]
  local words = numbers.check_words(a.checks)
  ctx.said = ctx.said or {}
  for i, k in ipairs(a.checks) do
    if wanted(k) then
      local list = steps_of(ctx, name, k, words[i])
      local title = title_of(k, ctx.r.show)
      ctx.d:heading(4, title .. (k == a.governing_check and ": governs" or "")
        .. (more or ""))
      written(ctx, k, list, title .. " (" .. (HEADS[name] or "new") .. ")")
    end
  end
end

checks.quantity, checks.unit = shown_quantity, shown_unit

--- Names of a state's checks in the tree, in their order.
function checks.words(a) return numbers.check_words(a.checks) end

--- The lines of one check by itself, with the names of their values; the long way to the
-- value of a fastener stays in the full calculation.
function checks.lines(ctx, state, k)
  local a, word = ctx.r[state], nil
  for i, name in ipairs(numbers.check_words(a.checks)) do
    if a.checks[i] == k then word = name end
  end
  local all = steps_of(ctx, state, k, word)
  return table.move(all, #(k.extra_steps or {}) + 1, #all, 1, {})
end

return checks
