-- SPDX-License-Identifier: MIT
-- A calculation that recomputes: inputs on one sheet, a sheet for each joist (alike ones
-- share one), each step a named cell with symbol, formula, number, unit and clause.
local act_now = require "netsection.act_now"
local book = require "netsection.workbook.book"
local cautions = require "netsection.cautions"
local format = require "netsection.workbook.format"
local live = require "netsection.workbook.live"
local point = require "netsection.point"
local quantity = require "netsection.quantity"
local text = require "netsection.text"
local units = require "netsection.units"
local verdict = require "netsection.verdict"
local error = require "netsection.raise".error

local calculation = {}

local HEAD = {bold = true, fill = "head", border = "all", wrap = true}
local TITLE, STRONG, WRAP = {bold = true, size = 14}, {bold = true}, {wrap = true}
local BLOCK = {bold = true, fill = "pale", border = "under"}
local RATIO, RATIO_STRONG = {format = format.fixed(3)},
  {format = format.fixed(3), bold = true, border = "all"}

local STATES = {{"uncut", "uncut"}, {"cut", "as cut"}, {"fixed", "repaired"}}

-- Texts of a user are texts: the book never takes them for formulas.
local function heads(s, row, list)
  for i, said in ipairs(list) do s:put(row, i, said, HEAD) end
end

------------------------------------------------------------------------------ formulas

local FUNCTION = {min = "MIN", max = "MAX", sqrt = "SQRT"}

-- The formula of a step over the cells of its block. One that holds in units of its own
-- takes each cell back into them, and what it gives out of them. A minus in front binds
-- closer than ^ in spreadsheets, on paper it does not: no step has one.
local function over_cells(r, names, times)
  assert(not (" " .. r.formula):find "[ %(%*/%^,]%-[%w(]", r.formula)
  local own = r.own and r.times and true or false
  local made = r.formula:gsub("[%a_][%w_]*'?", function(name)
    local cell = FUNCTION[name] or names[name] or error("no cell of " .. name, 0)
    local back = own and names[name] and times[name]
    return back and back ~= 1 and point.format("(%s/%.17g)", cell, back) or cell
  end)
  return own and r.times ~= 1 and point.format("(%s)*%.17g", made, r.times) or made
end

-- A coefficient inside a formula: it comes from a difference of reviews, whose last
-- figures are noise.
local function number(x)
  return point.format("%.13g", x)
end

local function line_formula(line, dead, live_load)
  local out = {}
  for _, pair in ipairs {{line.a, dead}, {line.b, live_load}} do
    if pair[1] ~= 0 then out[#out + 1] = ("(%s)*%s"):format(number(pair[1]), pair[2]) end
  end
  if line.c ~= 0 or #out == 0 then out[#out + 1] = ("(%s)"):format(number(line.c)) end
  return table.concat(out, "+")
end

------------------------------------------------------------------------------- blocks

local function cell_name(self, prefix, symbol)
  local base = prefix .. symbol:gsub("'", "_adj"):gsub("[^%w_]", "_")
  local name, n = base, 1
  while self.book.by_name[name:lower()] do
    n = n + 1
    name = base .. "_" .. n
  end
  return name
end

local OF_LINE, OF_ANALYSIS = "linear in D and L", "number"

local function value_cell(self, row, r, names)
  local s, style = self.sheet, {format = format.figures(r.value)}
  if r.formula then
    s:formula(row, 3, over_cells(r, names, self.times), r.value, style)
  elseif r.input then
    s:formula(row, 3, self.inputs[r.input], r.value, style)
  elseif r.line then
    s:formula(row, 3, line_formula(r.line, self.inputs.dead, self.inputs.live), r.value,
      style)
  else
    style.italic = true
    s:put(row, 3, r.value, style)
  end
end

local function remark(r)
  local kind = r.line and OF_LINE or r.input and "from the sheet Inputs"
    or not r.formula and OF_ANALYSIS or nil
  if r.says and kind then return r.says .. " (" .. kind .. ")" end
  return r.says or kind
end

-- One step in a row of its own. @return the name of its cell
local function step(self, row, r, prefix, names)
  local s = self.sheet
  s:put(row, 1, r.symbol, {align = "left"})
  s:put(row, 2, r.formula, WRAP)
  value_cell(self, row, r, names)
  s:put(row, 4, r.unit, {align = "left"})
  s:put(row, 5, r.clause, WRAP)
  s:put(row, 6, remark(r), WRAP)
  local name = cell_name(self, prefix, r.symbol)
  self.book:name(name, s, row, 3)
  names[r.symbol], self.times[r.symbol] = name, r.times
  return name
end

local function followed(self, item)
  local yes, no = {}, {}
  for _, input in ipairs(self.live.inputs) do
    local list = item.follows[input.key] and yes or no
    list[#list + 1] = input.symbol
  end
  if #no == 0 then return #yes == 0 and "numbers as they were computed" or "" end
  return ("does not follow a change of %s: run the module again"):format(
    table.concat(no, ", "))
end

local function place(k, show)
  return ("%s%s at %s, %s"):format(k.mode, k.member and k.member ~= "host"
    and " (" .. k.member .. ")" or "", show.place(k.at), k.combination or "")
end

-- A check: its head and its steps. @return the name of its ratio's cell, or nil
local function block(self, item, number_of)
  local k, s, row = item.check, self.sheet, self.row + 1
  local said = followed(self, item)
  s:put(row, 1, place(k, self.review.show)
    .. (k.cut and (", cut %d"):format(k.cut) or ""), BLOCK)
  for i = 2, 5 do s:put(row, i, nil, BLOCK) end
  s:put(row, 6, said, {italic = true, fill = "pale", border = "under", wrap = true})
  local prefix, names, last = ("%s_k%d_"):format(self.prefix, number_of), {}, nil
  self.times = {}
  for _, r in ipairs(item.rows) do
    row = row + 1
    last = step(self, row, r, prefix, names)
    if r.symbol ~= "ratio" then last = nil end
  end
  if not last and k.ratio then
    row = row + 1
    last = step(self, row, {symbol = "ratio", value = k.ratio, unit = ""}, prefix, names)
  end
  self.row = row + 1
  return last
end

------------------------------------------------------------------------------ a joist

local function status_cell(s, row, a, name)
  if a.status == "not permitted" or not a.ratio then
    s:put(row, 6, a.stopped and a.status .. ": " .. a.stopped or a.status, WRAP)
  else
    s:formula(row, 6, ('IF(%s<=1.000000001,"adequate","overstressed")'):format(name),
      a.status)
  end
end

-- The line of a state at the head of the sheet, whose ratio refers to the checks below.
local function state_line(self, row, a, words, ratios, state)
  local s = self.sheet
  s:put(row, 1, "Ratio, " .. words, STRONG)
  if a.ratio and #ratios > 0 then
    local name = ("%s_ratio_%s"):format(self.prefix, state)
    s:formula(row, 3, ("MAX(%s)"):format(table.concat(ratios, ",")), a.ratio,
      RATIO_STRONG)
    self.book:name(name, s, row, 3)
    s:put(row, 5, a.governing and "module: " .. a.governing, WRAP)
    status_cell(s, row, a, name)
    self.ratio[state] = {name = name, value = a.ratio, by = a.governing}
  else
    status_cell(s, row, a)
  end
end

local function texts(s, row, list)
  for _, said in ipairs(list) do
    s:put(row, 1, said, WRAP)
    s:merge(row, 1, row, 6)
    row = row + 1
  end
  return row
end

local function states_of(self)
  local out = {}
  for _, state in ipairs(STATES) do
    local a = self.review[state[1]]
    if a and a.checks and self.live.states[state[1]] then
      out[#out + 1] = {key = state[1], words = state[2], a = a,
        items = self.live.states[state[1]]}
    end
  end
  return out
end

-- Most arguments of a function, and characters of a formula, that both formats take.
local MOST = 200

local function joist_sheet(self)
  local s, r = self.sheet, self.review
  s:put(1, 1, ("%s: %s"):format(table.concat(self.marks, ", "), r.title), TITLE)
  heads(s, 2, {"Symbol", "Formula", "Value", "Unit", "Clause", "Remarks"})
  s:put(3, 1, "Recommended action: " .. verdict.text(r), STRONG)
  local row = texts(s, 4, r.reasons)
  local states = states_of(self)
  self.row = row + #states
  local count = 0
  for n, state in ipairs(states) do
    local ratios = {}
    if n > 1 or #state.items > 0 then self.row = self.row + 1 end
    s:put(self.row, 1, "Checks, " .. state.words, {bold = true, size = 12})
    for _, item in ipairs(state.items) do
      count = count + 1
      local name = block(self, item, count)
      if name and item.check.binding
        and #ratios < MOST then ratios[#ratios + 1] = name end
    end
    state_line(self, row + n - 1, state.a, state.words, ratios, state.key)
  end
  row = texts(s, self.row + 1, cautions.own(r.cautions or {}))
  if r.fixed and r.fixed.cautions then texts(s, row, cautions.own(r.fixed.cautions)) end
end

------------------------------------------------------------------------------ inputs

local INPUT = {format = format.up_to(4), fill = "input", border = "all"}

local function input_row(s, row, marks, input, name, formula)
  s:put(row, 1, marks, WRAP)
  s:put(row, 2, input.says, {})
  s:put(row, 3, input.symbol, {})
  if formula then
    s:formula(row, 4, formula, input.value, INPUT)
  else
    s:put(row, 4, input.value, INPUT)
  end
  s:put(row, 5, input.unit, {})
  s:put(row, 6, input.value, {format = format.up_to(4)})
  s.book:name(name, s, row, 4)
end

-- The load that most groups of joists have, once for all of them: theirs refer to it.
-- @return {dead = {value =, name =}, live = ...}, the next row
local function common_rows(s, row, groups)
  local common = {}
  for _, key in ipairs {"dead", "live"} do
    local count, most, found = {}, 1, nil
    for _, g in ipairs(groups) do
      for _, input in ipairs(g.live.inputs) do
        if input.key == key then
          count[input.value] = (count[input.value] or 0) + 1
          if count[input.value] > most then most, found = count[input.value], input end
        end
      end
    end
    if found then
      common[key] = {value = found.value, name = "all_in_" .. found.symbol}
      input_row(s, row, "all with this load", found, common[key].name)
      row = row + 1
    end
  end
  return common, next(common) and row + 1 or row
end

local function input_rows(self, s, row, common)
  local m, marks = self.review.joist.model, table.concat(self.marks, ", ")
  for _, input in ipairs(self.live.inputs) do
    local name, shared = ("%s_in_%s"):format(self.prefix, input.symbol), common[input.key]
    input_row(s, row, marks, input, name,
      shared and shared.value == input.value and shared.name or nil)
    self.inputs[input.key] = name
    self.places[input.key] = {sheet = s, row = row, column = 4}
    row = row + 1
  end
  s:put(row, 1, marks, WRAP)
  s:put(row, 2, #self.live.inputs == 0 and "span, spacing, section (nothing to change "
    .. "here: numbers of the run)" or "span, spacing, section", WRAP)
  local spacing = type(m.spacing) == "table" and {table.unpack(m.spacing)} or {m.spacing}
  local show = quantity.of(self.review)
  local size = show.tape and units.inches or show.size
  for i, x in ipairs(spacing) do spacing[i] = size(x) end
  s:put(row, 3, ("%s; %s; %s x %s"):format(text.spans(m), table.concat(spacing, " and "),
    size(m.b), size(m.d)), WRAP)
  return row + 2
end

------------------------------------------------------------------------------- a book

-- What a joist's sheet would say, to find those that are alike.
local function signature(r, l)
  local out = {r.title, verdict.text(r), table.concat(r.reasons, "|"),
    table.concat(r.cautions or {}, "|")}
  for _, input in ipairs(l.inputs) do
    out[#out + 1] = point.format("%s %.17g", input.key, input.value)
  end
  for _, state in ipairs(STATES) do
    for _, item in ipairs(l.states[state[1]] or {}) do
      out[#out + 1] = item.key .. " " .. point.exact(item.check.at or 0)
      for _, row in ipairs(item.rows) do
        out[#out + 1] = point.format("%s %.17g", row.symbol, row.value)
      end
    end
  end
  return table.concat(out, "\n")
end

local function groups_of(reviews)
  local groups, by = {}, {}
  for _, r in ipairs(reviews) do
    local l = r.computed and live.of(r) or {states = {}, inputs = {}}
    local key = signature(r, l)
    if not by[key] then
      by[key] = {review = r, live = l, marks = {}, ratio = {}, inputs = {}, places = {}}
      groups[#groups + 1] = by[key]
    end
    table.insert(by[key].marks, r.mark)
  end
  return groups
end

local function sheet_name(group)
  local more = #group.marks - 1
  return group.marks[1] .. (more > 0 and (" and %d more"):format(more) or "")
end

local ABOUT = {
  "Yellow cells on the sheet Inputs may be changed; what follows from them recomputes. "
    .. "The recommended action, the reasons and the rules of the code do not: they are "
    .. "those of the module's run. A check that cannot follow a change says so at its "
    .. "head.",
  "Upright numbers are formulas. Numbers in italics are of the description and the "
    .. "analysis (the envelope of live load, sections, fasteners) and stay as they are. "
    .. "What is linear in the area loads D and L has its coefficients from the "
    .. "analysis. Lengths are %s, moments %s, stresses %s. A changed load is "
    .. "taken to leave the place and the combination that govern a check as they are; "
    .. "run the module again before anything is built.",
}

local function summary(s, title, reviews, groups)
  s:put(1, 1, title, TITLE)
  local show = quantity.of(reviews[1])
  local row = texts(s, 2, {ABOUT[1], ABOUT[2]:format(show.tape and "inches"
    or show.unit_of "in", (select(2, show.coherent(1, "lb-in"))),
    (select(2, show.coherent(1, "psi"))))}) + 1
  local said = act_now.of(reviews)
  if #said > 0 then
    s:put(row, 1, act_now.title, STRONG)
    row = texts(s, row + 1, said) + 1
  end
  heads(s, row, {"Joists", "Recommended action", "As cut", "governed by (module)",
    "Repaired", "governed by (module)"})
  for _, g in ipairs(groups) do
    row = row + 1
    s:put(row, 1, table.concat(g.marks, ", "), WRAP)
    s:put(row, 2, verdict.text(g.review), WRAP)
    for i, state in ipairs {"cut", "fixed"} do
      local ratio = g.ratio[state]
      if ratio then
        s:formula(row, 1 + 2 * i, ratio.name, ratio.value, RATIO)
        s:put(row, 2 + 2 * i, ratio.by, WRAP)
      end
    end
  end
  s:put(row + 2, 1, "Cautions", STRONG)
  texts(s, row + 3, cautions.always)
end

local function reviews_of(subject)
  if not subject.joists then return {subject}, subject.mark end
  local list = {}
  for i, mark in ipairs(subject.order) do list[i] = subject.joists[mark] end
  return list, subject.name
end

--- The workbook of a joist's or a floor's review.
-- @param options {paper = "letter" | "a4"}
-- @return the book; and its groups of alike joists, with the places of their inputs
function calculation.of(subject, options)
  local reviews, name = reviews_of(subject)
  local title = "Calculation" .. (name and ": " .. name or "")
  local show = quantity.of(reviews[1])
  local b = book.new {title = title, paper = options and options.paper
    or show.paper_size}
  local first = b:sheet {name = "Summary", columns = {16, 34, 12, 22, 12, 22},
    landscape = true}
  local inputs = b:sheet {name = "Inputs", columns = {20, 34, 30, 14, 8, 18},
    landscape = true, frozen = 2, repeated = {2, 2}}
  inputs:put(1, 1, "Inputs: the yellow cells may be changed", TITLE)
  heads(inputs, 2, {"Joists", "Input", "Symbol", "Value", "Unit", "As reviewed"})
  local groups = groups_of(reviews)
  local common, row = common_rows(inputs, 3, groups)
  for i, g in ipairs(groups) do
    g.book, g.prefix = b, "j" .. i
    row = input_rows(g, inputs, row, common)
  end
  for _, g in ipairs(groups) do
    g.sheet = b:sheet {name = sheet_name(g), columns = {12, 42, 13, 8, 24, 56},
      landscape = true, frozen = 2, repeated = {2, 2}}
    joist_sheet(g)
  end
  summary(first, title, reviews, groups)
  return b, groups
end

return calculation
