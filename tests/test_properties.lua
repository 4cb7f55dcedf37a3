-- SPDX-License-Identifier: MIT
-- What must hold of every joist and every beam, on random ones: equilibrium, symmetry,
-- that a bigger cut never helps, that nothing depends on units, on order or on what else
-- stands in the same block. Sums and influence lines are worked out anew here, from the
-- description alone.
local core = require "netsection.core"
local lu = require "luaunit"
local model = require "netsection.model"
local ns = require "netsection"
local packs = require "netsection.packs"
local random_joist = require "tests.random_joist"
local support = require "tests.support"

local close, close_abs = support.close, support.close_abs
local T = {}

local RULES = assert(packs.rules("us-irc-2021", "wood")).core
local STANDARD = assert(packs.standard "us-nds-2018-asd").core
local STATES = {"uncut", "cut"}
local INFINITE = math.huge

-- Equality within a share of the larger of the two and of `scale`.
local function near(a, b, rel, scale)
  return math.abs(a - b) <= rel * math.max(math.abs(a), math.abs(b), scale or 0)
end

local function agree(a, b, rel, scale, what)
  if not near(a, b, rel, scale) then
    error(lu.FAILURE_PREFIX .. ("%s: %.17g and %.17g"):format(what, a, b), 2)
  end
end

local function is_finite(x)
  return x == x and x ~= INFINITE and x ~= -INFINITE
end

-------------------------------------------------------------------- loads of a joist

local UNIT = {point = 1, line = 12, area = 144}

local function number_of(load)
  return type(load) == "number" and load or tonumber(load:match "^%S+")
end

-- Length of a..b that lies on lo..hi, and its middle.
local function part_on(a, b, lo, hi)
  local p, q = math.max(a, lo), math.min(b, hi)
  return math.max(q - p, 0), (p + q) / 2
end

local total_of = {}

function total_of.point(load)
  return number_of(load.load)
end

-- The taper runs over from..to, or over all of the wood; the beam ends at the centres of
-- its end bearings.
function total_of.line(load, g)
  local a, b = load.from or g.start, load.to or g.finish
  if load.from_right then a, b = g.total - b, g.total - a end
  local w1, w2 = number_of(load.load), number_of(load.to_load or load.load)
  local length, middle = part_on(a, b, g.lo, g.hi)
  return length * (w1 + (w2 - w1) * (middle - a) / (b - a)) / UNIT.line
end

function total_of.area(load, g)
  local a, b = load.from or g.start, load.to or g.finish
  if load.from_right then a, b = g.total - b, g.total - a end
  local width = math.min(load.width or g.spacing, g.spacing)
  return part_on(a, b, g.lo, g.hi) * width * load.load / UNIT.area
end

-- A tub stands on its footprint; the joist carries its own strip of that. Its live load
-- is what water and people weigh beyond the floor's live load on the footprint.
function total_of.tub(load, g, case)
  local floor = g.live * math.abs(load.to - load.from) * load.width / UNIT.area
  local weight = case == "dead" and load.empty
    or math.max(0, (load.water or 0) + (load.people or 0) - floor)
  return weight * math.min(load.width, g.spacing) / load.width
end

local function extent_of(t)
  local total, start, finish = random_joist.extent(t)
  local spacing = t.spacing
  if type(spacing) == "table" then spacing = (spacing[1] + spacing[2]) / 2 end
  return {total = total, start = start, finish = finish, spacing = spacing,
    lo = -(t.overhang_left or 0), hi = total + (t.overhang_right or 0)}
end

local function total_load(t, case)
  local g = extent_of(t)
  g.live = t.live
  local sum = t[case] * g.spacing * (g.hi - g.lo) / UNIT.area
  for _, load in ipairs(t.loads or {}) do
    if load.kind == "tub" or load.case == case then
      sum = sum + total_of[load.kind](load, g, case)
    end
  end
  return sum
end

-- The range of a reaction holds its dead part, and all live load but once: what makes it
-- the most and what makes it the least are together the live load in full.
function T.test_reactions_carry_the_loads()
  local source = random_joist.source(101)
  for i = 1, 1000 do
    local t = source()
    local dead, live = total_load(t, "dead"), total_load(t, "live")
    local r = ns.joist(t):review()
    for _, state in ipairs(STATES) do
      local D, L = 0, 0
      for _, R in ipairs(r[state].reaction_range) do
        D, L = D + R.dead, L + R.most + R.least - 2 * R.dead
      end
      agree(D, dead, 1e-9, 1, ("joist %d, %s, dead"):format(i, state))
      agree(L, live, 1e-9, dead + 1, ("joist %d, %s, live"):format(i, state))
    end
  end
end

------------------------------------------------------------------------ mirror images

local MIRROR = 1e-9

local function reactions_reversed(a, b, what)
  local n = #a.reaction_range
  for j, R in ipairs(a.reaction_range) do
    local other = b.reaction_range[n + 1 - j]
    for _, name in ipairs {"most", "least", "dead"} do
      agree(R[name], other[name], MIRROR, 1, ("%s, reaction %d %s"):format(what, j, name))
    end
  end
end

local function same_ratio(a, b, rel, what)
  if a == nil or b == nil then
    lu.assertEquals(a, b, what)
  else
    agree(a, b, rel, 0, what)
  end
end

function T.test_mirror_images_are_reviewed_alike()
  local source = random_joist.source(102)
  for i = 1, 1200 do
    local t = source()
    local r = ns.joist(t):review()
    local m = ns.joist(random_joist.mirrored(t)):review()
    for _, state in ipairs(STATES) do
      local what = ("joist %d, %s"):format(i, state)
      same_ratio(r[state].ratio, m[state].ratio, MIRROR, what)
      lu.assertEquals(m[state].status, r[state].status, what)
      reactions_reversed(r[state], m[state], what)
    end
    lu.assertEquals(m.action, r.action, "action of joist " .. i)
    lu.assertEquals(m.rules.status, r.rules.status, "rules of joist " .. i)
  end
end

-- A load measured from the right is the mirror image of one measured from the left: its
-- first intensity stands where it is measured from.
function T.test_a_taper_is_measured_from_either_end()
  local loads = {{kind = "line", from = 0, to = 60, load = "100 plf", to_load = "0 plf",
    case = "dead"}}
  local t = {size = "2x10", material = {Fb = 900, Fv = 180, E = 1.6e6}, spans = {120},
    spacing = 16, bearing = 3.5, dead = 0, live = 40, loads = loads}
  local left = ns.joist(t):review().uncut.reaction_range
  loads[1].from_right = true
  local right = ns.joist(t):review().uncut.reaction_range
  close(right[2].dead, left[1].dead)
  close(right[1].dead, left[2].dead)
end

----------------------------------------------------------------------- finite numbers

local function walk(value, path, seen, visit)
  if type(value) == "number" then
    visit(value, path)
  elseif type(value) == "table" and not seen[value] then
    seen[value] = true
    for key, item in next, value do
      walk(item, path .. "." .. tostring(key), seen, visit)
    end
  end
end

local function all_finite(value, what)
  walk(value, what, {}, function(x, path)
    if not is_finite(x) then
      error(lu.FAILURE_PREFIX .. path .. " is " .. x, 0)
    end
  end)
end

-- Steps and their inputs are made when they are first asked for.
local function ask_for_steps(r)
  for _, state in ipairs(STATES) do
    for _, k in ipairs(r[state].checks) do
      lu.assertTrue(#k.steps > 0, k.mode)
      for _, step in ipairs(k.steps) do
        lu.assertTrue(not step.formula or next(step.inputs) ~= nil, k.mode)
      end
    end
  end
end

function T.test_numbers_are_finite()
  local source = random_joist.source(103)
  for i = 1, 700 do
    local joist = ns.joist(source())
    local r, _, s = joist:review(), core.review(joist.model, RULES, STANDARD)
    ask_for_steps(r)
    all_finite({r.uncut, r.cut, r.cuts, r.rules, s}, "joist " .. i)
  end
end

function T.test_no_demand_is_less_than_nothing()
  local source = random_joist.source(116)
  for i = 1, 400 do
    local r = ns.joist(source()):review()
    for _, state in ipairs(STATES) do
      for _, k in ipairs(r[state].checks) do
        local what = ("joist %d, %s, %s: demand %g, ratio %s"):format(i, state, k.mode,
          k.demand, k.ratio)
        lu.assertTrue(k.demand >= 0 and (k.ratio or 0) >= 0, what)
      end
    end
  end
end

function T.test_drawings_are_finite()
  local source = random_joist.source(104)
  for i = 1, 150 do all_finite(ns.joist(source()):review():diagram(), "joist " .. i) end
end

----------------------------------------------------------------- the same joist again

-- Everything in a value as text, to the last bit of every number.
local function text_of(value, seen)
  if math.type(value) == "float" then return ("%a"):format(value) end
  if type(value) ~= "table" then return tostring(value) end
  if seen[value] then return "again" end
  seen[value] = true
  local names, parts = {}, {}
  for name in next, value do names[#names + 1] = tostring(name) end
  table.sort(names)
  for i, name in ipairs(names) do
    local item = value[name]
    if item == nil then item = value[tonumber(name)] end
    parts[i] = name .. "=" .. text_of(item, seen)
  end
  return "{" .. table.concat(parts, ",") .. "}"
end

local function review_text(t)
  local r = ns.joist(t):review()
  ask_for_steps(r)
  return text_of({r.uncut, r.cut, r.cuts, r.rules, r.action, r.reasons, r.cautions,
    r.assumptions, r.switches}, {})
end

function T.test_a_review_repeated_gives_the_same_bytes()
  local source = random_joist.source(105)
  for i = 1, 300 do
    local t = source()
    lu.assertTrue(review_text(t) == review_text(t), "joist " .. i)
  end
end

function T.test_without_cuts_both_states_are_one()
  local source = random_joist.source(106, {cuts = 0})
  for i = 1, 800 do
    local r = ns.joist(source()):review()
    lu.assertEquals(#r.cut.checks, #r.uncut.checks)
    for n, k in ipairs(r.uncut.checks) do
      local other = r.cut.checks[n]
      for _, field in ipairs {"ratio", "demand", "capacity", "at", "branch"} do
        lu.assertTrue(k[field] == other[field], ("joist %d, %s"):format(i, k.mode))
      end
    end
    lu.assertTrue(r.uncut.ratio == r.cut.ratio, "joist " .. i)
    lu.assertEquals(r.cut.governing, r.uncut.governing)
  end
end

-- The same damage on the same joist, whichever cut was written down first.
function T.test_the_order_of_cuts_does_not_matter()
  local source = random_joist.source(107)
  for i = 1, 800 do
    local t = source()
    local turned, n = {}, #(t.cuts or {})
    for k, cut in ipairs(t.cuts or {}) do turned[n + 1 - k] = cut end
    local a = ns.joist(t):review()
    t.cuts = turned
    local b = ns.joist(t):review()
    same_ratio(a.cut.ratio, b.cut.ratio, 1e-12, "cut ratio of joist " .. i)
    lu.assertEquals(b.action, a.action, "action of joist " .. i)
    lu.assertEquals(b.rules.status, a.rules.status, "rules of joist " .. i)
  end
end

----------------------------------------------------------------- nothing overlooked

-- The model's loads for core.beam, lb/in and lb, floor loads on the width carried.
local function beam_of_joist(m)
  local total = 0
  for _, span in ipairs(m.span) do total = total + span end
  local lo, hi = -m.overhang_left, total + m.overhang_right
  local loads = {}
  for _, case in ipairs {"dead", "live"} do
    loads[#loads + 1] = {from = lo, to = hi, w1 = m[case] * m.spacing / 144, case = case}
  end
  for _, p in ipairs(m.points) do
    loads[#loads + 1] = {at = math.max(lo, math.min(hi, p.at)), P = p.P, case = p.case}
  end
  return core.beam {spans = m.span, overhang_left = m.overhang_left, loads = loads,
    overhang_right = m.overhang_right, EI = 1e8}, lo, hi
end

-- Most and least moment at many places, at supports and at point loads: no cleverer
-- than that.
local function scanned_moments(m)
  local beam, lo, hi = beam_of_joist(m)
  local places, x = {0}, 0
  for k = 0, 400 do places[k + 2] = lo + (hi - lo) * k / 400 end
  for _, span in ipairs(m.span) do
    x = x + span
    places[#places + 1] = x
  end
  for _, p in ipairs(m.points) do places[#places + 1] = p.at end
  local most, least = 0, 0
  for _, place in ipairs(places) do
    local e = beam:envelope(math.max(lo, math.min(hi, place)))
    most, least = math.max(most, e.M_max), math.min(least, e.M_min)
  end
  return most, least
end

-- The most moment, either way, that any check of bending has to tell. Where M < 0 the
-- check is of the pattern that uses up the most by its own free edge, which need not be
-- the one with the most moment; but its ratio is never under that of the most at CL = 1.
local function tells_peak(k, sag, most, least, what)
  local size, scanned = math.max(most, -least), k.branch == 1 and most or -least
  lu.assertTrue(k.demand <= scanned + 1e-3 * size, what)
  if k.branch == 1 then
    lu.assertTrue(k.demand >= scanned - 1e-9 * size, what)
  else
    lu.assertTrue(k.ratio >= (scanned - 1e-9 * size) / sag.capacity, what)
  end
end

-- Live load outweighs the dead, so that the combination with it governs. The deck holds
-- the top edge: where M > 0, CL is 1.
function T.test_no_peak_of_the_moment_is_overlooked()
  local r = support.random(114)
  local hogs = 0
  for i = 1, 150 do
    local t = random_joist.of(r, {cuts = 0, spans = r:pick {1, 2, 2, 3}})
    local g = extent_of(t)
    t.dead, t.live, t.sheathed = r:real(2, 30), r:real(30, 100), true
    t.loads = {{kind = "point", load = r:real(0, 300), at = r:real(g.lo, g.hi)}}
    local joist = ns.joist(t)
    local most, least = scanned_moments(joist.model)
    local sag
    for _, k in ipairs(joist:review().uncut.checks) do
      if k.mode == "bending" then
        sag = sag or k
        hogs = hogs + (k.branch ~= 1 and 1 or 0)
        tells_peak(k, sag, most, least, ("joist %d, branch %d: %g, %g to %g"):format(i,
          k.branch, k.demand, least, most))
      end
    end
  end
  lu.assertTrue(hogs > 50)
end

-------------------------------------------------------------------------------- units

-- Figures enough for any double, and no exponent, which is not taken.
local LENGTH = {
  function(x) return x end,
  function(x) return ("%.25f in"):format(x) end,
  function(x) return ("%.25f ft"):format(x / 12) end,
  function(x) return ("%.25f mm"):format(x * 25.4) end,
  function(x) return ("%.25f cm"):format(x * 2.54) end,
  function(x) return ("%.25f m"):format(x * 0.0254) end,
}
-- 1 lbf = 4.4482216152605 N by definition.
local KN, FOOT = 0.0044482216152605, 0.3048
local LOAD = {
  area = {
    function(x) return ("%.25f psf"):format(x) end,
    function(x) return ("%.25f kPa"):format(x * KN / FOOT ^ 2) end,
    function(x) return ("%.25f kN/m2"):format(x * KN / FOOT ^ 2) end,
  },
  line = {
    function(x) return ("%.25f plf"):format(x) end,
    function(x) return ("%.25f klf"):format(x / 1000) end,
    function(x) return ("%.25f kN/m"):format(x * KN / FOOT) end,
  },
  point = {
    function(x) return x end,
    function(x) return ("%.25f lb"):format(x) end,
    function(x) return ("%.25f kip"):format(x / 1000) end,
    function(x) return ("%.25f kN"):format(x * KN) end,
    function(x) return ("%.25f N"):format(x * KN * 1000) end,
  },
}
local LENGTHS = {"spans", "overhang_left", "overhang_right", "bearing", "b", "d",
  "spacing", "blocking", "at", "from", "to", "diameter", "height", "depth", "length",
  "below", "above", "overcut", "split_length", "top", "bottom", "sides", "allowance",
  "at_depth", "width", "corner_radius"}

local function rewritten(r, forms, value)
  if type(value) ~= "table" then return r:pick(forms)(value) end
  local list = {}
  for i, item in ipairs(value) do list[i] = r:pick(forms)(item) end
  return list
end

local function lengths_in_units(r, t)
  local new = {}
  for name, value in pairs(t) do new[name] = value end
  for _, name in ipairs(LENGTHS) do
    if t[name] ~= nil then new[name] = rewritten(r, LENGTH, t[name]) end
  end
  return new
end

local FORCES = {load = true, to_load = true, empty = true, water = true, people = true}

local function in_units(r, t)
  local new = lengths_in_units(r, t)
  new.dead, new.live = r:pick(LOAD.area)(t.dead), r:pick(LOAD.area)(t.live)
  for _, name in ipairs {"cuts", "loads"} do
    for i, part in ipairs(t[name] or {}) do
      new[name] = i > 1 and new[name] or {}
      local item = lengths_in_units(r, part)
      for field, value in pairs(part) do
        if FORCES[field] then
          local forms = LOAD[part.kind == "tub" and "point" or part.kind]
          item[field] = r:pick(forms)(number_of(value))
        end
      end
      new[name][i] = item
    end
  end
  return new
end

-- A unit can move the last bit of a number, and a cut that leaves next to nothing of the
-- joist multiplies it, the more the higher the ratio. Nothing compares across a cut that
-- leaves nothing.
function T.test_units_change_nothing()
  local r = support.random(108)
  for i = 1, 900 do
    local t = random_joist.of(r)
    local a, b = ns.joist(t):review(), ns.joist(in_units(r, t)):review()
    for _, state in ipairs(STATES) do
      lu.assertEquals(#b[state].checks, #a[state].checks, "checks of joist " .. i)
      local worst = a[state].ratio
      for n, k in ipairs(worst and a[state].checks or {}) do
        agree(k.ratio or 0, b[state].checks[n].ratio or 0, 1e-12 * math.max(1, worst),
          worst, ("joist %d, %s, %s"):format(i, state, k.mode))
      end
    end
    lu.assertEquals(b.action, a.action, "action of joist " .. i)
  end
end

------------------------------------------------------------------ one lane and sixteen

local MODES = {"bending", "shear", "bearing", "deflection-live", "deflection-total",
  "net-bending", "net-shear", "notch-shear", "opening-frame", "lip-tension",
  "wood-compression", "stability"}
local OUTPUTS = {"action", "rules", "uncut.ratio", "cut.ratio", "uncut.status",
  "cut.status", "uncut.governing", "cut.governing", "uncut.moment", "cut.shear.at",
  "cut.deflection.live", "uncut.reaction.1", "cut.Cr"}
for _, mode in ipairs(MODES) do
  OUTPUTS[#OUTPUTS + 1] = (#OUTPUTS % 2 == 0 and "cut:" or "uncut:") .. mode
end

local function deep_copy(value)
  if type(value) ~= "table" then return value end
  local new = {}
  for name, item in pairs(value) do new[name] = deep_copy(item) end
  return new
end

local FIELDS = core.fields()
local LISTS = {cuts = FIELDS.cut, lines = FIELDS.line, points = FIELDS.point}

-- Every number of a model that a column can vary: its path, where it is, its field.
-- Whether there is an overhang at all is the same in a whole block.
local function columns_of(m)
  local found = {}
  for _, f in ipairs(FIELDS.joist) do
    if f.rows == 1 and m[f.name] and not f.name:find "overhang" then
      found[#found + 1] = {path = f.name, field = f, name = f.name}
    end
    for k = 1, f.rows > 1 and #m[f.name] or 0 do
      found[#found + 1] = {path = f.name .. "." .. k, field = f, list = f.name, name = k}
    end
  end
  for list, fields in pairs(LISTS) do
    for k, part in ipairs(m[list]) do
      for _, f in ipairs(fields) do
        if part[f.name] then
          found[#found + 1] = {path = ("%s.%d.%s"):format(list, k, f.name), field = f,
            list = list, item = k, name = f.name}
        end
      end
    end
  end
  table.sort(found, function(a, b) return a.path < b.path end)
  return found
end

local function put(m, column, value)
  local at = column.list and m[column.list] or m
  if column.item then at = at[column.item] end
  at[column.name] = value
end

local function get(m, column)
  local at = column.list and m[column.list] or m
  if column.item then at = at[column.item] end
  return at[column.name]
end

local WILD = {0 / 0, INFINITE, -INFINITE, 1e308, -1e308, 5e-324, -1, 0}

-- Mostly near the value, now and then anywhere in the range of its field or far outside.
local function varied(r, value, field)
  local dice = r:unit()
  if dice < 0.01 then return r:pick(WILD) end
  if dice < 0.02 then return r:real(field.low, field.high) end
  return dice < 0.4 and value * r:real(0.95, 1.05) or value
end

-- n models that differ in up to 31 numbers, and the columns that make them so.
local function neighbours(r, m, n)
  local all, models, columns = columns_of(m), {}, {}
  for q = 1, n do models[q] = deep_copy(m) end
  for _ = 1, math.min(31, #all) do
    local column = table.remove(all, r:int(1, #all))
    local values = {}
    for q = 1, n do
      values[q] = varied(r, get(m, column), column.field)
      put(models[q], column, values[q])
    end
    columns[column.path] = values
  end
  return models, columns
end

-- Worst ratio of each mode in a state of a summary.
local function worst_of_modes(s, state, want)
  for _, mode in ipairs(MODES) do want[state .. ":" .. mode] = 0 end
  for _, k in ipairs(s[state].checks) do
    local key = state .. ":" .. k.mode
    local none = k.mode == "bearing" and k.capacity == 0 -- no seat is no ratio
    if want[key] and not none then want[key] = math.max(want[key], k.ratio) end
  end
end

local function code_of(words, word)
  for i, w in ipairs(words) do
    if w == word then return i - 1 end
  end
end

-- A cut-through joist has no ratio, no deflection, and is governed by that.
local function severed(s)
  for _, c in ipairs(s.cuts) do
    if c.gate == 6 then return true end
  end
end

local function rules_code(s)
  for _, item in ipairs(s.items) do
    if item.support > 0 and item.ok == 0 and s.within == 1 then return 1 end
  end
  return s.within + 1
end

-- What a block has to give for one joist, from a review of it alone; false where the
-- joist cannot be worked.
local function alone(m)
  local records, s = core.review(m, RULES, STANDARD)
  if not records then return nil, s.status end
  local want = {action = s.action, rules = rules_code(s)}
  for _, state in ipairs(STATES) do
    local a, through = s[state], state == "cut" and severed(s)
    local gone = through or state == "cut" and s.no_seat == 1
    want[state .. ".ratio"] = gone and 0 or a.ratio
    want[state .. ".status"] = a.not_permitted == 1 and 2 or a.ratio > 1 + 1e-9 and 1 or 0
    want[state .. ".governing"] = through and #core.modes
      or gone and code_of(core.modes, "bearing")
      or code_of(core.modes, a.governing.mode)
    want[state .. ".moment"], want[state .. ".shear.at"] = a.moment, a.shear_at
    want[state .. ".deflection.live"] = gone and 0 or a.live
    want[state .. ".reaction.1"], want[state .. ".Cr"] = a.reactions[1].most, a.Cr
    worst_of_modes(s, state, want)
  end
  return want, 0
end

-- Reports the outputs that differ, of all blocks, with how often they do.
local function compare_blocks(blocks, differs)
  local r, valid, invalid = support.random(109), 0, 0
  for i = 1, blocks do
    local m = model.of(random_joist.of(r))
    local n = r:pick {1, 5, 16, 17, 33}
    local models, columns = neighbours(r, m, n)
    local got = {support.batch(m, RULES, STANDARD, n, columns, OUTPUTS)}
    for q = 1, n do
      local want, status = alone(models[q])
      valid, invalid = valid + (want and 1 or 0), invalid + (want and 0 or 1)
      if got[#OUTPUTS + 1][q] ~= status then
        differs("status", i, q, got[#OUTPUTS + 1][q], status)
      end
      for o, name in ipairs(OUTPUTS) do
        local value = got[o][q]
        local number = type(value) == "number"
        if number and not is_finite(value) then differs(name, i, q, value, 0) end
        local expected = want ~= nil and want[name]
        if value ~= expected then differs(name, i, q, value, expected) end
      end
    end
  end
  return valid, invalid
end

function T.test_a_joist_in_a_block_is_the_joist_alone()
  local first, list = {}, {}
  local valid, invalid = compare_blocks(120, function(name, i, q, value, want)
    if first[name] then return end
    first[name] = true
    list[#list + 1] = ("%s: block %d, joist %d: %s, alone %s"):format(name, i, q,
      text_of(value, {}), text_of(want, {}))
  end)
  lu.assertTrue(valid > 500 and invalid > 200, "too few joists of one sort")
  table.sort(list)
  lu.assertEquals(list, {})
end

-- An overhang is part of a shape: in a column of them, a joist that has none where the
-- base has one, or the other way about, is refused; the others are as they are alone.
function T.test_a_column_of_overhangs_is_worked_or_refused()
  local overhangs = {0, 12, 24, 36}
  for _, base in ipairs {0, 24} do
    local m = model.of {size = "2x10", material = {Fb = 900, Fv = 180, E = 1.6e6},
      span = 120, overhang_right = base, spacing = 16, bearing = 3.5, dead = 12,
      live = 40}
    local ok, ratios = pcall(support.batch, m, RULES, STANDARD, #overhangs,
      {overhang_right = overhangs}, {"uncut.ratio"})
    if not ok then lu.assertStrContains(ratios, "overhang_right") end
    for i, overhang in ipairs(ok and overhangs or {}) do
      m.overhang_right = overhang
      local _, s = assert(core.review(m, RULES, STANDARD))
      local there = (base > 0) == (overhang > 0)
      lu.assertEquals(ratios[i], there and s.uncut.ratio,
        ("base %g, %g in"):format(base, overhang))
    end
  end
end

----------------------------------------------------------------- a bigger cut never helps

local STEPS = 32
-- Ties, struts and frames are not here by themselves: they end where a lip is dropped or
-- written off. What they come to is among the worst of all below.
local NEVER_FALL = {"net-bending", "net-shear", "notch-shear"}

-- Columns for one growing field, from next to nothing to `most`.
local function growing(name, most)
  local values = {}
  for q = 1, STEPS do values[q] = most * q / STEPS * 0.9999 end
  return {["cuts.1." .. name] = values}
end

-- Room for an opening that keeps its wood below, or above, or stays centred; and for a
-- hole on the wood lengthwise.
local function opening_room(t, m)
  local c, given = m.cuts[1], t.cuts[1]
  local room = m.d - (given.below or given.above or 0)
  if c.kind == "slot" then return growing("height", room) end
  local total, start, finish = random_joist.extent(t)
  local at = c.from_right and total - c.at or c.at
  return growing("diameter",
    math.min(room, 2 * math.min(at - start, finish - at) / (c.stretch or 1)))
end

local function longer_slot(t, m)
  local c = m.cuts[1]
  local total, start, finish = random_joist.extent(t)
  if c.from_right then start, finish = total - finish, total - start end
  local columns = growing("from", 1)
  columns["cuts.1.to"] = {}
  for q = 1, STEPS do
    local part = q / STEPS * 0.9
    columns["cuts.1.from"][q] = c.from + (start - c.from) * part
    columns["cuts.1.to"][q] = c.to + (finish - c.to) * part
  end
  return columns
end

local function deeper(_, m)
  return growing("depth", m.d - (m.cuts[1].overcut or 0))
end

local function longer_end_notch(t)
  local _, start, finish = random_joist.extent(t)
  return growing("length", (finish - start) / 2)
end

local function loss_from(face)
  return function(_, m)
    local c = m.cuts[1]
    local other = face == "top" and c.bottom or face == "bottom" and c.top or 0
    local most = m.d - (other or 0) - 2 * (c.allowance or 0)
    if face == "sides" then
      most = math.min(m.b * m.plies / 2 - (c.allowance or 0), 12)
    end
    return growing(face, most)
  end
end

local GROWTH = {
  {kind = "hole", columns = opening_room},
  {kind = "slot", columns = opening_room},
  {kind = "slot", columns = longer_slot},
  {kind = "notch", columns = deeper},
  {kind = "end_notch", columns = deeper},
  {kind = "end_notch", columns = longer_end_notch},
  {kind = "loss", columns = loss_from "bottom"},
  {kind = "loss", columns = loss_from "top"},
  {kind = "loss", columns = loss_from "sides"},
}

-- In one span the forces do not depend on stiffness; in more, a weaker place may shed
-- moment to a stronger one, and rightly so.
local function growth_of(r, growth, cuts)
  while true do
    local t = random_joist.of(r, {spans = 1, cuts = cuts or 1, kinds = {growth.kind},
      overhangs = growth.kind ~= "end_notch" and nil})
    if t.cuts then
      local m = model.of(t)
      return m, growth.columns(t, m), t
    end
  end
end

-- Calls falls(step, before, after) where an output falls as the cut grows.
local function where_it_falls(m, columns, output, falls)
  local ratio, status = support.batch(m, RULES, STANDARD, STEPS, columns, {output})
  for q = 2, STEPS do
    local usable = status[q - 1] == 0 and status[q] == 0
    if usable and ratio[q] < ratio[q - 1] * (1 - 1e-9) then
      falls(q, ratio[q - 1], ratio[q])
    end
  end
end

local function never_falls(mode, seed)
  local r, list, seen = support.random(seed), {}, {}
  for i = 1, 120 * #GROWTH do
    local growth = GROWTH[i % #GROWTH + 1]
    local m, columns = growth_of(r, growth)
    where_it_falls(m, columns, "cut:" .. mode, function(q, before, after)
      local field = next(columns)
      local key = growth.kind .. field .. tostring(after == 0)
      if seen[key] then return end
      seen[key] = true
      list[#list + 1] = ("%s, %s, case %d: %.9g, %s %.9g to %.9g"):format(growth.kind,
        field, i, before, after == 0 and "gone" or "then", before, after)
        .. (" at step %d"):format(q)
    end)
  end
  lu.assertEquals(list, {})
end

for n, mode in ipairs(NEVER_FALL) do
  T["test_a_bigger_cut_never_lowers_" .. mode:gsub("-", "_")] = function()
    never_falls(mode, 110 + n)
  end
end

-- Shear on the net area: a hole in the middle has chords alike, and a loss has none.
function T.test_a_bigger_cut_never_lowers_net_shear_on_the_area()
  local r = support.random(120)
  for i = 1, 200 do
    local growth = GROWTH[r:pick {1, 2, 7, 8, 9}]
    local m, _, t = growth_of(r, growth)
    m.cuts[1].place, m.cuts[1].below, m.cuts[1].above = "centred", nil, nil
    t.cuts[1].below, t.cuts[1].above = nil, nil
    where_it_falls(m, growth.columns(t, m), "cut:net-shear", function(q, before, after)
      lu.fail(("%s, case %d, step %d: %.17g to %.17g"):format(growth.kind, i, q, before,
        after))
    end)
  end
end

-- The ratio of all checks that bind, deflection not among them, as cuts grow.
local function worst_mode(m, columns)
  m.limit_live, m.limit_total, m.repetitive = 0, 0, 1
  local got, status = support.batch(m, RULES, STANDARD, STEPS, columns, {"cut.ratio"})
  local worst = {}
  for q = 1, STEPS do
    local ratio = got[q] ~= 0 and got[q] or 1e12 -- 0: nothing is left
    worst[q] = status[q] == 0 and ratio or worst[q - 1] or 0
  end
  return worst
end

function T.test_a_bigger_cut_never_lowers_the_worst_of_its_ratios()
  local r, list = support.random(121), {}
  for i = 1, 200 * #GROWTH do
    local growth = GROWTH[i % #GROWTH + 1]
    local m, columns = growth_of(r, growth)
    -- A longer end notch may be a longer seat: the joist stands on the larger of the
    -- notched length and what is left of the bearing beyond it.
    if next(columns) == "cuts.1.length" then m.Fc_perp = 0 end
    local worst = worst_mode(m, columns)
    for q = 2, STEPS do
      if worst[q] < worst[q - 1] * (1 - 1e-9) then
        list[#list + 1] = ("%s, %s, case %d, step %d: %.9g to %.9g"):format(growth.kind,
          next(columns), i, q, worst[q - 1], worst[q])
      end
    end
  end
  lu.assertEquals(list, {})
end

-- Worst ratio that binds at any cut; 0 where there is none.
local function worst_at_cuts(m)
  local _, s = assert(core.review(m, RULES, STANDARD))
  local worst = 0
  for _, k in ipairs(s.cut.checks) do
    if k.cut and k.binding then worst = math.max(worst, k.ratio) end
  end
  return worst
end

-- The factor on stress at notches is left out: a loss may take the corner away that it
-- is meant for.
function T.test_a_further_cut_never_helps()
  local r, list = support.random(122), {}
  for i = 1, 1500 do
    local t = random_joist.of(r, {spans = 1, cuts = r:int(2, 4)})
    local m = model.of(t)
    m.notch_raiser = 1
    local with = worst_at_cuts(m)
    local last = table.remove(m.cuts)
    local without = worst_at_cuts(m)
    if with < without * (1 - 1e-9) and #list < 20 then
      list[#list + 1] = ("case %d: %d cuts %.9g, with a %s more %.9g"):format(i, #m.cuts,
        without, last.kind, with)
    end
  end
  lu.assertEquals(list, {})
end

----------------------------------------------------------------------- section moduli

-- Least modulus of two rectangles of width b in a depth H, 0..y1 and y2..H, by the
-- parallel axis theorem.
local function modulus(b, H, y1, y2)
  local A, Q = b * (y1 + H - y2), b * (y1 ^ 2 + H ^ 2 - y2 ^ 2) / 2
  local y = Q / A
  local function part(low, high)
    return b * ((high - y) ^ 3 - (low - y) ^ 3) / 3
  end
  local I = part(0, y1) + part(y2, H)
  local bottom, top = y1 > 0 and 0 or y2, y2 < H and H or y1
  return math.min(I / (y - bottom), I / (top - y))
end

local function random_opening(r, lip, H)
  local y1 = r:real(lip, H - lip)
  local y2 = r:real(lip, H - lip)
  return math.min(y1, y2), math.max(y1, y2)
end

-- Openings within, some of them with an edge or a height of their own in common.
local function within(r, y1, y2)
  local a, b = r:real(y1, y2), r:real(y1, y2)
  a, b = math.min(a, b), math.max(a, b)
  local dice = r:unit()
  return dice < 0.2 and y1 or a, dice > 0.8 and y2 or b
end

function T.test_S_min_is_no_more_than_that_of_any_opening_within()
  local r = support.random(130)
  for i = 1, 250 do
    local b, H = r:real(0.5, 12), r:real(2.5, 24)
    local y1, y2 = random_opening(r, math.max(1, H / 8), H)
    local S_min = core.section {b = b, d = H, y1 = y1, y2 = y2}.S_min
    local found = modulus(b, H, y1, y2)
    for _ = 1, 200 do found = math.min(found, modulus(b, H, within(r, y1, y2))) end
    local least = S_min <= found * (1 + 1e-12)
    if not least then
      lu.fail(("case %d, b %.17g d %.17g y1 %.17g y2 %.17g: S_min %.17g, found %.17g")
        :format(i, b, H, y1, y2, S_min, found))
    end
    -- Nor is it less than the least there is: a fine grid comes close to it.
    local grid = found
    for k = 0, 60 do
      local z = y1 + (y2 - y1) * k / 60
      grid = math.min(grid, modulus(b, H, y1, z), modulus(b, H, z, y2))
    end
    lu.assertTrue(S_min >= grid * (1 - 2e-3), ("case %d: %.17g under %.17g"):format(i,
      S_min, grid))
  end
end

-- Lips too thin to count, notches: whatever is within a bigger opening has no less.
function T.test_S_min_never_rises()
  local r = support.random(131)
  for i = 1, 3000 do
    local H = r:real(2, 24)
    local y1, y2 = random_opening(r, 0, H)
    if r:unit() < 0.2 then y1 = 0 elseif r:unit() < 0.2 then y2 = H end
    local a, z = within(r, y1, y2)
    local outer = core.section {b = 1.5, d = H, y1 = y1, y2 = y2}.S_min
    local inner = core.section {b = 1.5, d = H, y1 = a, y2 = z}.S_min
    local least = outer <= inner * (1 + 1e-9)
    if not least then
      lu.fail(("case %d, d %.17g: %.17g to %.17g has %.17g, within it %.17g to %.17g "
        .. "has %.17g"):format(i, H, y1, y2, outer, a, z, inner))
    end
  end
end

-------------------------------------------------------------------------------- beams

-- EI in steps that cover the beam from end to end.
local function stepped_EI(r, first, last)
  local places = {first, last}
  for _ = 1, r:int(0, 4) do places[#places + 1] = r:real(first, last) end
  table.sort(places)
  local list = {}
  for k = 1, #places - 1 do
    list[k] = {from = places[k], to = places[k + 1], EI = 10 ^ r:real(6, 8)}
  end
  return list
end

-- At most one hinge to a span and one fewer than spans: never a mechanism.
local function hinges(r, spans)
  local list, x, free = {}, 0, #spans - 1
  for _, span in ipairs(spans) do
    if free > 0 and r:unit() < 0.4 then
      list[#list + 1] = {at = x + span * r:real(0.1, 0.9),
        stiffness = r:unit() < 0.5 and 10 ^ r:real(3, 7) or nil}
      free = free - 1
    end
    x = x + span
  end
  return list
end

local function random_beam(r, least_spans)
  local b = {spans = {}, last = 0, first = 0}
  for i = 1, r:int(least_spans, 3) do
    b.spans[i] = r:real(40, 200)
    b.last = b.last + b.spans[i]
  end
  if r:unit() < 0.3 then b.overhang_left = r:real(5, 60) end
  if r:unit() < 0.3 then b.overhang_right = r:real(5, 60) end
  b.first, b.end_support = -(b.overhang_left or 0), b.last
  b.last = b.last + (b.overhang_right or 0)
  b.EI = stepped_EI(r, b.first, b.last)
  b.hinges = hinges(r, b.spans)
  return b
end

local function solve(b, loads)
  return core.beam {spans = b.spans, overhang_left = b.overhang_left,
    overhang_right = b.overhang_right, EI = b.EI, hinges = b.hinges, loads = loads}
end

local function beam_loads(r, b)
  local list = {}
  for i = 1, r:int(1, 5) do
    local from, to = r:real(b.first, b.last), r:real(b.first, b.last)
    local case = r:pick {"dead", "live"}
    if r:unit() < 0.5 then
      list[i] = {from = math.min(from, to), to = math.max(from, to), w1 = r:real(0, 9),
        w2 = r:real(0, 9), case = case}
    else
      list[i] = {at = r:unit() < 0.2 and r:pick {0, b.spans[1], b.first, b.last} or from,
        P = r:real(0, 900), case = case}
    end
  end
  return list
end

-- Sum of loads, their moment about the first support, and what stands on `x`.
local function resultant(loads, x)
  local W, moment, on = 0, 0, 0
  for _, load in ipairs(loads) do
    local P, at = load.P, load.at
    if load.from then
      local h = load.to - load.from
      P = h * (load.w1 + load.w2) / 2
      at = P > 0 and load.from + h * h * (load.w1 / 6 + load.w2 / 3) / P or 0
    elseif at == x then
      on = on + P
    end
    W, moment = W + P, moment + P * at
  end
  return W, moment, on
end

local function places_of(b, loads)
  local list = {b.first, b.last, 0}
  for _, span in ipairs(b.spans) do list[#list + 1] = list[#list] + span end
  for _, parts in ipairs {b.EI, loads, b.hinges} do
    for _, part in ipairs(parts) do
      list[#list + 1], list[#list + 2] = part.from or part.at, part.to
    end
  end
  table.sort(list)
  return list
end

-- dM/dx by five points, exact for a cubic; V is no more than that between breaks.
local function slopes_are_shears(beam, places, scale, what)
  for k = 1, #places - 1 do
    local h = (places[k + 1] - places[k]) / 4
    local x = places[k] + 2 * h
    if h > 0.5 then
      local function M(n) return beam:at(x + n * h / 2).M end
      local slope = (M(-2) - 8 * M(-1) + 8 * M(1) - M(2)) / (6 * h)
      agree(slope, beam:at(x).V, 1e-9, scale, ("%s, V at %g"):format(what, x))
    end
  end
end

local function check_equilibrium(b, loads, beam, what)
  local W, moment = resultant(loads)
  local scale = 1 + W
  local sum, turn, x = 0, 0, 0
  for j, R in ipairs(beam:reactions()) do
    local _, _, on = resultant(loads, x)
    local jump = beam:at(x, "right").V - beam:at(x, "left").V
    agree(jump, R - on, 1e-9, scale, ("%s, jump at support %d"):format(what, j))
    sum, turn = sum + R, turn + R * x
    x = x + (b.spans[j] or 0)
  end
  agree(sum, W, 1e-9, 1, what .. ", reactions")
  agree(turn, moment, 1e-9, scale * (b.last - b.first), what .. ", moments")
end

function T.test_beams_are_in_equilibrium()
  local r = support.random(140)
  for i = 1, 600 do
    local b = random_beam(r, 1)
    local loads, what = beam_loads(r, b), "beam " .. i
    local beam = solve(b, loads)
    local scale = 1 + resultant(loads)
    check_equilibrium(b, loads, beam, what)
    close_abs(beam:at(b.first).M, 0, 1e-9 * scale * 100, what .. ", M at the left end")
    close_abs(beam:at(b.last).M, 0, 1e-9 * scale * 100, what .. ", M at the right end")
    for _, hinge in ipairs(b.hinges) do
      if not hinge.stiffness then
        close_abs(beam:at(hinge.at).M, 0, 1e-9 * scale * 100, what .. ", M in a hinge")
      end
    end
    slopes_are_shears(beam, places_of(b, loads), scale, what)
  end
end

----------------------------------------------------------------------------- envelopes

-- V+ = w (L - x)^2 / (2 L): live load to the right of the place only. Textbook.
function T.test_the_envelope_of_a_simple_span()
  local r = support.random(141)
  for _ = 1, 200 do
    local L, w = r:real(24, 480), r:real(0.1, 50)
    local x = L * r:real(0.01, 0.99)
    local e = core.beam {spans = {L}, EI = 10 ^ r:real(5, 9),
      loads = {{from = 0, to = L, w1 = w, case = "live"}}}:envelope(x)
    close(e.V_max, w * (L - x) ^ 2 / (2 * L))
    close(e.V_min, -w * x ^ 2 / (2 * L))
    close(e.M_max, w * x * (L - x) / 2)
    close_abs(e.M_min, 0, 1e-12 * w * L ^ 2)
  end
end

local SLICES = 400
local EFFECTS = {"V", "M"}

local function add(range, value)
  local side = value > 0 and "most" or "least"
  range[side] = range[side] + value
end

local function new_range()
  return {most = 0, least = 0}
end

-- Places on the bounds of slices, so that none is loaded on both sides of its place.
local function places_between(r, b)
  local list = {}
  for n = 1, 3 do
    list[n] = b.first + (b.last - b.first) * r:int(1, SLICES - 1) / SLICES
  end
  return list
end

local function unit_slices(b)
  local list, h = {}, (b.last - b.first) / SLICES
  for k = 1, SLICES do
    list[k] = {from = b.first + (b.last - b.first) * (k - 1) / SLICES, w1 = 1,
      to = k == SLICES and b.last or b.first + (b.last - b.first) * k / SLICES,
      case = "live"}
  end
  lu.assertTrue(h > 0)
  return list
end

-- Ranges of V and M at the places, and of reactions, by one solution for each piece.
local function by_pieces(b, pieces, places)
  local effects, reactions = {}, {}
  for n = 1, #places do effects[n] = {V = new_range(), M = new_range()} end
  for j = 1, #b.spans + 1 do reactions[j] = new_range() end
  for _, piece in ipairs(pieces) do
    local beam = solve(b, {piece})
    for n, x in ipairs(places) do
      local o = beam:at(x)
      for _, name in ipairs(EFFECTS) do add(effects[n][name], o[name]) end
    end
    for j, R in ipairs(beam:reactions()) do add(reactions[j], R) end
  end
  return effects, reactions
end

-- Pieces are on or off as a whole, so their sums stay within the envelope; what they
-- miss is the piece in which the line changes its sign.
local function encloses(most, least, range, what)
  local size = math.max(most, -least)
  for _, pair in ipairs {{most, range.most}, {-least, -range.least}} do
    local envelope, pieces = pair[1], pair[2]
    if not (pieces <= envelope + 1e-9 * size and pieces >= envelope - 0.005 * size) then
      lu.fail(("%s: envelope %.9g, by pieces %.9g"):format(what, envelope, pieces))
    end
  end
end

function T.test_envelopes_by_brute_force()
  local r = support.random(142)
  for i = 1, 60 do
    local b = random_beam(r, 2)
    local places, pieces = places_between(r, b), unit_slices(b)
    local loads = {{from = b.first, to = b.last, w1 = 1, case = "live"}}
    for _ = 1, r:int(0, 2) do
      local point = {at = r:real(b.first, b.last), P = r:real(10, 90), case = "live"}
      loads[#loads + 1], pieces[#pieces + 1] = point, point
    end
    local effects, reactions = by_pieces(b, pieces, places)
    local beam = solve(b, loads)
    for n, x in ipairs(places) do
      local e = beam:envelope(x)
      for _, name in ipairs(EFFECTS) do
        encloses(e[name .. "_max"], e[name .. "_min"], effects[n][name],
          ("beam %d, %s at %g"):format(i, name, x))
      end
    end
    for j, range in ipairs(reactions) do
      local most, least = beam:reaction_range(j)
      encloses(most, least, range, ("beam %d, reaction %d"):format(i, j))
    end
  end
end

return T
