-- SPDX-License-Identifier: MIT
-- Joists, floors and charts to be drawn by tests: every kind of cut and of repair, and
-- odd ones: long marks, cuts that stand close, cuts at the very ends, short and long
-- spans, metric.
local ns = require "netsection"

local drawn = {joists = {}}
local J = drawn.joists

local BOLT = ns.fastener {kind = "bolt", diameter = "1/2 in"}
local LAG = ns.fastener {kind = "lag screw", diameter = "1/4 in", length = "3 in"}
local LONG_LAG = ns.fastener {kind = "lag screw", diameter = "1/4 in", length = "8 in"}
local SCREW = ns.fastener {kind = "wood screw", number = 14, length = "3 in"}
local NAIL = ns.fastener {kind = "nail", size = "10d"}

local BASE = {mark = "J3", size = "2x10", species = "douglas fir-larch", grade = "No.2",
  span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40}

-- `changes` with false take a field away.
local function joist(cuts, changes)
  local t = {cuts = cuts}
  for name, value in pairs(BASE) do t[name] = value end
  for name, value in pairs(changes or {}) do t[name] = value or nil end
  return ns.joist(t)
end

local function gap() return ns.sever {from = "6-0", to = "6-5"} end

local function groups(n)
  return {{at = "3-2", n = n}, {at = "5-6", n = n}, {at = "6-11", n = n},
    {at = "9-6", n = n}}
end

---------------------------------------------------------------------------
-- As they are
---------------------------------------------------------------------------

function J.uncut() return joist {} end

function J.hole() return joist {ns.hole {at = "5-2", diameter = 4, below = 1.5}} end

function J.every_kind()
  return joist({
    ns.notch {face = "bottom", from = "2-0", to = "2-10", depth = "1-1/2 in",
      overcut = 0.75, taper = 2, split_length = 5},
    ns.hole {at = "4-0", diameter = 2, below = "1 in", angle = 30},
    ns.slot {from = "6-10", to = "7-6", height = 3},
    ns.end_notch {support = "left", face = "top", depth = 2, length = 5},
    ns.loss {from = "10-6", to = "11-6", top = 0.5, bottom = 0.25, sides = 0.25,
      cause = "rot"},
    ns.split {from = "12-0", to = "14-0", at_depth = 3},
  }, {overhang_right = 24})
end

function J.split() return joist {ns.split {from = "5-0", to = "8-0", at_depth = 4}} end

function J.severed() return joist {gap()} end

function J.long_mark_and_close_cuts()
  local cuts = {}
  for i = 1, 8 do cuts[i] = ns.hole {at = 20 + 4.5 * i, diameter = 1 + i % 3} end
  return joist(cuts, {mark = "Second floor north wing, joist beside the stair"})
end

function J.at_the_ends()
  return joist {
    ns.end_notch {support = "left", face = "bottom", depth = 2.75, length = 6},
    ns.notch {face = "top", from = "13-5", to = "13-7", depth = 1},
    ns.hole {at = "0-4", diameter = "1 in", above = 1},
    ns.hole {at = "0-8", diameter = "1 in", above = 1},
  }
end

function J.lost_end()
  return joist({ns.lost_bearing {support = "left", to = "1-2", cause = "rot"}},
    {span = "12-0"})
end

function J.two_spans()
  return joist({ns.notch {face = "top", from = "11-3", to = "11-8", depth = "1-1/2 in"},
    ns.hole {at = "5-0", diameter = 2}}, {span = false, spans = {"11-0", "8-6"},
    size = "2x8", species = "hem-fir"})
end

function J.short()
  return joist({ns.hole {at = "1-6", diameter = 2}}, {span = "3-0", size = "2x6"})
end

function J.long()
  return joist({ns.hole {at = "20-0", diameter = 3}, ns.notch {face = "top", from = 4,
    to = 6, depth = 1}}, {span = "26-0", size = "2x12", spacing = 12})
end

function J.in_one_ply()
  return joist({ns.hole {at = "5-2", diameter = 3, ply = 1}, ns.notch {face = "bottom",
    from = "8-0", to = "8-4", depth = 1, ply = 2}}, {plies = 2})
end

local METRIC = {units = "metric", span = "4.1 m", spacing = "400 mm", bearing = "75 mm",
  dead = "0.6 kPa", live = "1.9 kPa"}

function J.metric()
  local t = {size = false, b = "45 mm", d = "220 mm"}
  for name, value in pairs(METRIC) do t[name] = value end
  return joist({ns.hole {at = "1.6 m", diameter = "100 mm", below = "40 mm"},
    ns.notch {face = "top", from = "0.6 m", to = "0.7 m", depth = "40 mm"}}, t)
end

---------------------------------------------------------------------------
-- Repaired
---------------------------------------------------------------------------

function J.metric_sister()
  return joist({ns.sever {from = "1.8 m", to = "1.95 m"}}, METRIC):fix(ns.sister {
    from = "0.8 m", to = "3.1 m", side = "right", fastener = BOLT, groups = {
      {at = "0.95 m", n = 8}, {at = "1.65 m", n = 8}, {at = "2.1 m", n = 8},
      {at = "2.95 m", n = 8}}})
end

local function part(side, n)
  return ns.sister {from = "2-8", to = "10-0", side = side, fastener = BOLT,
    groups = groups(n)}
end

function J.part_sister()
  return joist {gap(), ns.hole {at = "8-0", diameter = 1}}:fix(part("right", 8))
end

function J.trial() return J.part_sister():with {live = 90} end

function J.part_both() return joist {gap()}:fix(part("both", 4)) end

function J.full_far()
  return joist {ns.hole {at = "6-0", diameter = 3}, ns.notch {face = "top",
    from = "3-0", to = "3-4", depth = 1.5}}:fix(ns.sister {side = "left",
    fastener = BOLT, pitch = 16})
end

function J.full_near()
  return joist {ns.hole {at = "6-0", diameter = 3}, ns.notch {face = "top",
    from = "3-0", to = "3-4", depth = 1.5}, ns.loss {from = "9-0", to = "10-0",
    bottom = 0.5, cause = "char"}, ns.split {from = "11-0", to = "12-0", at_depth = 4},
    ns.end_notch {support = "left", face = "bottom", depth = 2}}:fix(ns.sister {
    side = "right", fastener = BOLT, pitch = 16})
end

function J.plates()
  return joist({ns.notch {face = "bottom", from = "5-4", to = "5-7", depth = 1}},
    {size = "2x8", span = "11-0", live = 30}):fix(ns.side_plates {from = "2-6",
    to = "8-6", thickness = "23/32 in", pitch = 3, per_row = 3, lift = "unloaded",
    material = {Fb = 1200, Fv = 250, E = 1.2e6}, fastener = NAIL})
end

function J.strap()
  return joist({ns.hole {at = "6-0", diameter = "1-3/4 in", below = "3/4 in"}},
    {span = "13-0"}):fix(ns.strap {gauge = 10, n = 14, pitch = "2-1/2 in",
    fastener = SCREW, lift = "unloaded"})
end

function J.hanger()
  return joist({ns.end_notch {support = "left", face = "bottom", depth = 3},
    ns.hole {at = "6-0", diameter = 2}}, {size = "2x8", span = "11-6"}):fix(ns.hanger {
    support = "left", capacity = "900 lb"})
end

function J.midspan()
  return joist({ns.hole {at = "4-0", diameter = 2}}, {size = "2x8", span = "14-8"})
    :fix(ns.midspan_support {at = "7-4"})
end

function J.added()
  return joist({ns.hole {at = "6-0", diameter = 3}}, {span = "14-6"}):fix(
    ns.added_joist {side = "right"})
end

function J.notch_screws()
  return joist({ns.end_notch {support = "right", face = "bottom", depth = "2-3/4 in"}},
    {size = "2x12", span = "15-0"}):fix(ns.notch_screws {support = "right", n = 2,
    fastener = LONG_LAG, full_thread = true})
end

function J.end_sister()
  return joist({ns.lost_bearing {support = "left", to = "1-2", cause = "rot"}},
    {span = "12-0", dead = 10}):fix(ns.end_sister {support = "left", to = "5-0",
    side = "right", size = "2x10", fastener = LAG, groups = {{at = "2-5", n = 12},
      {at = "4-8", n = 8}}, hanger = {capacity = "600 lb"}})
end

local function floor(joists, changes)
  local t = {name = "Net loft", joists = joists}
  for name, value in pairs(BASE) do t[name] = name ~= "mark" and value or nil end
  for name, value in pairs(changes or {}) do t[name] = value end
  return ns.floor(t)
end

local function headed(at)
  local list = {}
  for i = 1, 5 do list[i] = {mark = "H" .. i} end
  list[3].cuts = {gap()}
  return floor(list):fix("H3", ns.header {at = at, hanger = "900 lb",
    tail_hanger = "900 lb"})
end

function J.header() return headed {"5-10", "6-7"}:joist "H3" end

function J.wide_headers() return headed {"4-0", "9-0"}:joist "H3" end

---------------------------------------------------------------------------
-- Floors
---------------------------------------------------------------------------

function drawn.plain_floor()
  return floor {{mark = "A1"}, {mark = "A2"}, {mark = "A3"}}:review()
end

local function of_24()
  local list = {}
  for i = 1, 24 do
    list[i] = {mark = i == 7 and "J7 beside the old chimney" or "J" .. i}
    if i % 3 == 0 then
      list[i].cuts = {ns.hole {at = ("%d-0"):format(1 + i % 10), diameter = 2 + i % 3}}
    end
    if i % 7 == 0 then
      list[i].cuts = {ns.notch {face = i % 2 == 0 and "top" or "bottom", from = "3-0",
        to = "3-4", depth = 2}, ns.hole {at = "3-10", diameter = 1.5},
        ns.hole {at = "4-1", diameter = 1}}
    end
  end
  list[10].cuts = {gap()}
  list[16].cuts = {ns.lost_bearing {support = "left", to = "1-2", cause = "rot"}}
  list[20].cuts = {ns.end_notch {support = "right", face = "top", depth = 2.5},
    ns.loss {from = "7-0", to = "9-0", bottom = 0.5, cause = "char"},
    ns.split {from = "9-6", to = "11-0", at_depth = 4},
    ns.slot {from = "2-0", to = "2-6", height = 3}}
  list[22].member = "I-joist"
  local f = floor(list, {obstructions = {
    ns.obstruction {what = "3 in drain", kind = "drain", joist = "J10", at = "6-2",
      y = 1.5, diameter = 3.5, movable = "no"},
    ns.obstruction {what = "cable", kind = "cable", joists = {"J2", "J3", "J4"},
      at = "9-0", height = 4.6, diameter = "1/2 in", movable = "easy"}}})
  return f:fix("J10", ns.header {at = {"5-0", "7-6"}, hanger = "1500 lb",
    tail_hanger = "900 lb"}):fix("J3", ns.sister {fastener = BOLT, pitch = 16})
end

local function uneven()
  return floor({{mark = "North wall joist", spacing = {12, 17}},
    {mark = "OM-2", spacing = {17, 19}, cuts = {ns.hole {at = "4-0", diameter = 1}}},
    {mark = "OM-3", spacing = {19, 18}, overhang_right = "2-0"},
    {mark = "OM-4", spacing = {18, 4}}, {mark = "OM-4a", spacing = {4, 4}},
    {mark = "OM-5", spacing = {4, 24}}}, {size = "full-sawn 2x8",
    name = "Old mill, ground floor with a name that is far too long for a sheet"})
end

local function metric_floor()
  local list = {}
  for i = 1, 7 do list[i] = {mark = "M" .. i} end
  list[2].cuts = {ns.hole {at = "1.2 m", diameter = "80 mm"}}
  list[4].cuts = {ns.sever {from = "1.8 m", to = "1.95 m"}}
  return floor(list, METRIC)
end

---------------------------------------------------------------------------
-- Charts
---------------------------------------------------------------------------

local function charts(add)
  local bored = joist {ns.hole {at = "6-0", diameter = 4}}
  local spans = ns.sweep {joist = bored, values = {"ratio", "moment"},
    over = {span = ns.steps("12-0", "16-0", "0-6"), spacing = {12, 16, 19.2, 24}}}
  add("curves", spans, ns.plot.curves, {value = "ratio", x = "span", lines = "spacing"})
  add("curves of moment", spans, ns.plot.curves, {value = "moment", x = "spacing",
    lines = "span"})
  local places = ns.sweep {joist = bored, values = {"ratio"}, over = {
    ["cuts.1.at"] = ns.steps("1-0", "12-6", "0-6"),
    ["cuts.1.diameter"] = ns.steps("1 in", "6 in", "1/2 in")}}
  add("contour", places, ns.plot.contour, {value = "ratio", x = "cuts.1.at",
    y = "cuts.1.diameter"})
  places = ns.sweep {joist = J.metric(), values = {"ratio", "deflection.live"}, over = {
    ["cuts.1.at"] = ns.steps("0.4 m", "3.7 m", "0.1 m"),
    ["cuts.1.diameter"] = ns.steps("20 mm", "160 mm", "10 mm")}}
  for _, value in ipairs {"ratio", "deflection.live"} do
    add("metric contour of " .. value, places, ns.plot.contour, {value = value,
      x = "cuts.1.at", y = "cuts.1.diameter"})
  end
end

local PIXELS = 96          -- to an inch, of an SVG

-- A figure of homework is made as SVG; for paper the same script takes another terminal.
local function on_paper(script, output)
  script = script:gsub("set output '[^']*'", ("set output '%s'"):format(output), 1)
  if output:find "%.svg$" then return script end
  return (script:gsub("set terminal svg size (%d+),(%d+) font '([%a-]+),([%d.]+)'",
    function(width, height, face, size)
      return ("set terminal pdfcairo size %.4fin,%.4fin font '%s,%.1f' fontscale 0.75 "
        .. "linewidth 0.8"):format(width / PIXELS, height / PIXELS, face,
          size * 72 / PIXELS)
    end, 1))
end

-- Every figure of every kind of problem, and of its key.
local function homework(list, standard)
  local set = ns.homework {course = "Figures", seed = "drawn", students = {"a1"},
    problems = ns.homework.kinds(standard), standard = standard}
  for _, figure in ipairs(set:figures "a1") do
    list[#list + 1] = {"homework: " .. figure.name, function(output)
      return on_paper(figure.script, output)
    end}
  end
end

--- {{name, draw(output) -> script}, ...} of floors, charts and the rest.
function drawn.others()
  local list = {}
  local function add(name, subject, draw, options)
    list[#list + 1] = {name, function(output)
      local t = {output = output}
      for key, value in pairs(options or {}) do t[key] = value end
      return assert(draw(subject, t))
    end}
  end
  for name, f in pairs {["24 joists"] = of_24(), uneven = uneven(),
    ["metric floor"] = metric_floor(), headed = headed {"5-0", "7-6"}} do
    local r = f:review {grid = name == "headed" and {deck = "24oc OSB"} or nil}
    add(name .. ": plan", r, ns.plot.floor_plan)
    add(name .. ": key plan", r, ns.plot.key_plan)
    add(name .. ": summary", r, ns.plot.floor_summary)
    if r.grid then add(name .. ": grid", r.grid, ns.plot.grid_plan) end
  end
  table.sort(list, function(a, b) return a[1] < b[1] end)
  add("map", J.uncut(), ns.plot.cut_map)
  add("metric map", J.metric(), ns.plot.cut_map)
  charts(add)
  local under = floor {{mark = "H1"}, {mark = "H2"}, {mark = "H3"}}
  add("load path", under:load_path {beams = {ns.beam_line {mark = "B1", at = "6-0",
    size = "2x10", plies = 2, species = BASE.species, grade = BASE.grade,
    posts = {"H1", "H3"}}}}, ns.plot.load_path)
  local bored = joist {ns.hole {at = "5-2", diameter = 3, below = 2.25}}
  add("how sure", bored:odds {defaults = true, draws = 4096,
    inputs = {{name = "grade", choice = {"No.1", "No.2"}, weights = {0.2, 0.8}}}},
    ns.plot.tornado)
  homework(list)
  homework(list, "en-1995-1-1")
  return list
end

return drawn
