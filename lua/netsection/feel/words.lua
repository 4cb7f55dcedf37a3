-- SPDX-License-Identifier: MIT
-- How a floor feels, on paper and in numbers: a block of its own beside the code check.
local quantity = require "netsection.quantity"
local second_opinion = require "netsection.second_opinion"
local text = require "netsection.text"
local units = require "netsection.units"

local words = {title = "Second opinion: how the floor feels"}

words.use = "Not used for the verdict and in no ratio. Different tests, different "
  .. "floors: each criterion has its own deflection formula, and a floor may meet one "
  .. "and not another. The change from uncut is the useful number."

words.basis = "d: deflection at mid-span under %s, by the grid and (lone) "
  .. "of the joist alone; f: first frequency under dead load alone, half of the mass on "
  .. "edge joists"

words.width, words.left = {8, 10, 9, 9, 10, 8, 8}, 2
words.caption = "Under 1 kN at mid-span, and first frequency"

-- What stands around the rows, in the floor's units.
local function block(f)
  return setmetatable({columns = {"Joist", "State", "d, " .. quantity.of(f).unit.length,
    "lone", "change", "f, Hz", "lone"}}, {__index = words})
end

-- The load of the tests, 1 kN; in other units beside them.
local function test_load(show)
  return show.tape and ("1 kN (%s)"):format(show.force(units.per.kN, 0)) or "1 kN"
end

local function signed(percent)
  if not percent then return "-" end
  return ("%s%s %%"):format(percent >= 0.05 and "+" or "", units.fixed(percent, 1))
end
words.signed = signed

-- Joists that are shown: those with a cut or a repair, else the middle one.
function words.shown(f, reviews)
  local list = {}
  for _, r in ipairs(reviews) do
    if #r.joist.model.cuts > 0 or r.joist.repair or r.out then
      list[#list + 1] = r.mark
    end
  end
  if #list == 0 then list[1] = f.order[(#f.order + 1) // 2] end
  return list
end

function words.rows(f, marks)
  local rows, show = {}, quantity.of(f)
  for _, mark in ipairs(marks) do
    local joist = f.joists[mark]
    for _, state in ipairs {"uncut", "cut", "repaired"} do
      local row = joist[state]
      if row then
        rows[#rows + 1] = {mark, state == "cut" and "as cut" or state,
          row.d and show.number("length", row.d, 3) or "-",
          row.lone_d and show.number("length", row.lone_d, 3) or "-",
          state == "uncut" and "" or signed(joist.change[state]),
          units.fixed(row.f, 1), row.lone_f and units.fixed(row.lone_f, 1) or "-"}
      end
    end
  end
  return rows
end

local UNIT = {f = "f %s Hz", d = "d %s mm", fd = "f/d^0.44 %s", live = "span/%s",
  v = "v %s m/(N s2)"}
local PLACES = {live = 0, v = 4}

local function tests_of(judged)
  local list = {}
  for i, t in ipairs(judged.tests) do
    list[i] = UNIT[t.of]:format(units.fixed(t.value, PLACES[t.of] or 2))
      .. (t.of == "live" and "" or (" (limit %s)"):format(text.short(t.limit)))
  end
  return table.concat(list, ", ")
end

local function met(judged)
  if not judged then return "no number" end
  return judged.met and "met" or "not met"
end

local function criterion_line(mark, state, c)
  return ("%s %s, %s: by the grid %s%s; alone %s (%s; %s)"):format(mark, state == "cut"
    and "as cut" or state, c.name, met(c.grid), c.grid and ", " .. tests_of(c.grid) or "",
    met(c.lone), c.status, c.source)
end

function words.lines(f, marks)
  local list = {}
  for _, state in ipairs {"cut", "repaired"} do
    if f.change[state] then
      list[#list + 1] = ("floor %s: first frequency %s Hz, uncut %s Hz (%s)"):format(
        state == "cut" and "as cut" or state, units.fixed(f.frequency[state], 1),
        units.fixed(f.frequency.uncut, 1), signed(f.change[state]))
    elseif f.states[state] and f.states[state].refused then
      list[#list + 1] = ("floor %s: not computed: %s"):format(state == "cut" and "as cut"
        or state, f.states[state].refused)
    end
  end
  for _, mark in ipairs(marks) do
    local joist = f.joists[mark]
    local state = joist.repaired and "repaired" or "cut"
    if joist[state] and joist[state].refused then
      list[#list + 1] = ("%s: %s"):format(mark, joist[state].refused)
    end
    for _, c in ipairs(f:judge(mark, state) or {}) do
      list[#list + 1] = criterion_line(mark, state, c)
    end
  end
  list[#list + 1] = words.basis:format(test_load(quantity.of(f)))
  return list
end

-- Adds the block to a text.
function words.add_text(out, f, reviews)
  second_opinion.add_text(out, block(f), f.refused, function()
    local marks = words.shown(f, reviews)
    return words.rows(f, marks), words.lines(f, marks)
  end)
end

-- Adds the block to a document.
function words.add(d, f, reviews)
  second_opinion.add(d, block(f), f.refused, function()
    local marks = words.shown(f, reviews)
    return words.rows(f, marks), words.lines(f, marks)
  end)
end

local function state_tree(row, change, make)
  return row and make.object {{"deflection_1kN", row.d}, {"lone_deflection_1kN",
    row.lone_d}, {"change_percent", change}, {"lone_frequency", row.lone_f},
    {"deflection_live", row.live}, {"lone_deflection_live", row.lone_live},
    {"refused", row.refused}}
end

local function criteria_tree(f, mark, make)
  local joist = f.joists[mark]
  return make.each(f:judge(mark, joist.repaired and "repaired" or "cut"), function(c)
    local function by(judged)
      return judged and make.object {{"met", judged.met}, {"tests",
        make.each(judged.tests, function(t)
          return make.object {{"of", t.of}, {"value", t.value}, {"limit", t.limit},
            {"met", t.met}}
        end)}}
    end
    return make.object {{"name", c.name}, {"status", c.status}, {"source", c.source},
      {"grid", by(c.grid)}, {"lone", by(c.lone)}}
  end)
end

-- Its branch of the tree of numbers. @param make {object =, each =, word =}
function words.tree(f, make)
  if not f then return nil end
  if f.refused then return make.object {{"refused", f.refused}} end
  local joists = {}
  for i, mark in ipairs(f.order) do
    local joist = f.joists[mark]
    joists[i] = {make.word(mark), make.object {{"uncut", state_tree(joist.uncut, nil,
      make)}, {"cut", state_tree(joist.cut, joist.change.cut, make)}, {"repaired",
      state_tree(joist.repaired, joist.change.repaired, make)},
      {"criteria", criteria_tree(f, mark, make)}}}
  end
  return make.object {{"frequency", make.object {{"f_uncut", f.frequency.uncut},
    {"f_cut", f.frequency.cut}, {"f_repaired", f.frequency.repaired}}},
    {"joists", make.object(joists)}}
end

return words
