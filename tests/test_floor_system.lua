-- SPDX-License-Identifier: MIT
-- A floor as a system: rows of blocks under even curvature, grid and feel asked of sweeps
-- and tables, and that nothing of it makes a joist pass on any paper.
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"

local T = {}

local close, raises = support.close, support.raises

local WOOD = {Fb = 900, Ft = 575, Fc = 1350, Fv = 180, E = 1.6e6, CF = 1.1,
  Fc_perp = 625, G = 0.5, source = "given"}
local DECK = {across = 300000, along = 80500, FbS = 770}
local EI = 1.6e6 * 1.5 * 9.25 ^ 3 / 12
local GAP = {ns.sever {from = 78.5, to = 83.5}}

local function floor(n, cuts, more)
  local joists = {}
  for i = 1, n do
    local mark = "J" .. i
    joists[i] = {mark = mark, cuts = cuts and cuts[mark]}
  end
  local t = {name = "G", size = "2x10", spacing = 16, span = 162, bearing = 3.5,
    dead = 12, live = 40, material = WOOD, joists = joists}
  for name, value in pairs(more or {}) do t[name] = value end
  return ns.floor(t)
end

local function sister()
  return ns.sister {size = "2x10", material = WOOD, pitch = 6,
    fastener = ns.fastener {kind = "lag screw", diameter = "1/4 in", length = "3 in"}}
end

---------------------------------------------------------------------- rows of blocks

-- Equal blocks under even curvature act as one beam of EI/(1 + 2 EI/(k s)): a block bends
-- by M s/EI and its two ends turn by M/k each. Loads that grow with the square of the
-- place give joists without a deck an even curvature across; the moment of the row over
-- the middle joist is that of what it puts on the joists to one side (load less
-- reaction).
function T.test_a_row_of_blocks_under_even_curvature()
  local n, s, row = 41, 16, 5e7
  local mid = (n + 1) // 2
  for _, k in ipairs {1e5, 5e5, 1e7, math.huge} do
    local points = {}
    for i = 1, n do
      points[i] = {joist = "J" .. i, at = 81, load = 100 + (i - mid) ^ 2}
    end
    local g = floor(n):grid {deck = {across = 0}, points = points,
      blocking = {{at = 81, k = k, EI = row}}}
    local M = 0
    for i = 1, mid - 1 do
      M = M + (points[i].load - g:of("J" .. i).reaction) * (mid - i) * s
    end
    local function w(i) return g:at("J" .. i, 81).w end
    local curvature = (w(mid - 1) - 2 * w(mid) + w(mid + 1)) / s ^ 2
    -- P = 100 + i^2 bends by 2 L^3/(48 EI) a bay and bay, but for the free edges.
    close(curvature, 2 * 162 ^ 3 / (48 * EI) / s ^ 2, 1e-3)
    close(math.abs(M / curvature), row / (1 + 2 * row / (k * s)), 1e-3, tostring(k))
  end
end

------------------------------------------------------------------- sweeps and tables

local PERSON = {deck = DECK, points = {{joist = "J4", at = 81, load = 225}}}

-- The shares and deflections by the independent grid: sound 36.48 % of the reactions,
-- .06223 in; 1.579 mm and 12.94 Hz under 1 kN; EI doubled 1.054 mm and 14.20 Hz.
function T.test_a_sweep_asks_for_grid_and_feel()
  local s = ns.sweep {floor = floor(7), joist = "J4", grid = PERSON,
    over = {fix = {false, sister()}}, values = {"ratio",
      "uncut.grid.share.reactions", "uncut.grid.deflection", "uncut.grid.J3.moment",
      "grid.moment", "feel.deflection", "feel.frequency", "uncut.feel.deflection"}}
  lu.assertEquals(#s, 2)
  local list = {}
  for row in s:rows() do list[#list + 1] = row end
  for _, row in ipairs(list) do
    close(row["uncut.grid.share.reactions"], 0.3648, 0.01)
    close(row["uncut.grid.deflection"], .06223, 0.01)
    close(row["uncut.grid.J3.moment"], 1938, 0.01)
    close(row["uncut.feel.deflection"] * 25.4, 1.579, 0.01)
  end
  close(list[2]["feel.deflection"] * 25.4, 1.054, 0.01)
  close(list[2]["feel.frequency"], 14.201, 0.01)
end

-- Each point is the grid of a floor that has that joist; its ratio that of the review.
function T.test_a_point_is_the_floor_with_that_joist()
  local s = ns.sweep {floor = floor(7), joist = "J4", grid = PERSON,
    over = {cuts = {{ns.hole {at = 81, diameter = 2}}, {ns.hole {at = 81, diameter = 5}},
      GAP}}, values = {"ratio", "grid.share.moment", "grid.deck.moment", "feel.change"}}
  local rows = {}
  for row in s:rows() do rows[#rows + 1] = row end
  for i, cuts in ipairs {{ns.hole {at = 81, diameter = 2}}, {ns.hole {at = 81,
    diameter = 5}}, GAP} do
    local f = floor(7, {J4 = cuts})
    local r = f:grid(PERSON):of("J4")
    lu.assertEquals(rows[i]["grid.share.moment"], r.share.moment)
    lu.assertEquals(rows[i]["grid.deck.moment"], math.max(r.deck.M_max, -r.deck.M_min))
    lu.assertEquals(rows[i].ratio, f:review().joists.J4.cut.ratio)
    lu.assertEquals(rows[i]["feel.change"], f:feel {deck = DECK}.joists.J4.change.cut)
  end
  close(rows[3]["grid.deck.moment"], 421.2, 0.01)
end

function T.test_a_table_of_shares()
  local s = ns.sweep {floor = floor(7), joist = "J4", grid = PERSON, values = {
    "uncut.grid.deflection"}, over = {["material.E"] = {0.8e6, 1.6e6},
      dead = {10, 12}}}
  local t = ns.table {title = "Deflection under 225 lb", rows = "material.E",
    columns = "dead", sweep = s, value = "uncut.grid.deflection", unit = "in",
    round = {to = "0.0001 in", way = "up"}}
  close(t:cell(2, 1).exact, .06223, 0.01)
  close(t:cell(1, 1).exact, .08334, 0.01)    -- EI of J4 halved, by the same grid program
  local spot = t:spot_check {n = 4}
  lu.assertEquals({spot.checked, #spot.differing}, {4, 0})
end

function T.test_names_of_values_in_a_floor()
  local f = floor(7)
  local function with(more)
    local t = {floor = f, joist = "J4", grid = {deck = DECK}, over = {dead = {10, 12}},
      values = {"grid.moment"}}
    for name, value in pairs(more) do t[name] = value ~= "none" and value or nil end
    return function() return ns.sweep(t) end
  end
  raises("no value 'grid.momnet'", with {values = {"grid.momnet"}})
  raises("no value 'feel.bounce'", with {values = {"feel.bounce"}})
  raises("no joist 'J9'", with {values = {"grid.J9.moment"}})
  raises("give floor =", with {floor = "none", grid = "none", joist = f:joist "J4"})
  raises("goes with floor", with {floor = "none", joist = f:joist "J4",
    values = {"ratio"}})
  raises("no value of the grid is asked for", with {values = {"ratio"}})
  raises("the mark of one of the floor's joists", with {joist = "J9"})
  raises("a value names it", with {grid = {deck = DECK, state = "cut"}})
  raises("deck: missing", with {grid = {}})
  raises("options of floor:grid", with {grid = "none"})
  raises("from uncut", with {values = {"uncut.feel.change"}})
  raises("no span is sought", with {values = {"grid.moment", "longest_span"}})
  raises("the floor's own are taken", with {rules = "us-irc-2021"})
end

-- Where a grid cannot be made, its point says why and its own ratio stands.
function T.test_a_point_without_a_grid_says_why()
  local s = ns.sweep {floor = floor(7), joist = "J4", grid = {deck = {across = 300000},
    points = {{joist = "J4", at = 81, load = 225}}}, values = {"ratio", "grid.moment"},
    over = {cuts = {{ns.hole {at = 60, diameter = 1}}, GAP}}}
  local rows = {}
  for row in s:rows() do rows[#rows + 1] = row end
  lu.assertNil(rows[1].reason)
  lu.assertNil(rows[2]["grid.moment"])
  lu.assertStrContains(rows[2].reason, "stands over the gap of J4")
end

------------------------------------------------------------------------------ headers

local STRONG = {Fb = 2400, CF = 1, Fv = 265, Ft = 1500, Fc = 2000, Fc_perp = 850,
  E = 2e6, Emin = 1e6, G = 0.5, source = "given"}

local function headed(out)
  local cuts = {}
  for _, mark in ipairs(out) do cuts[mark] = {ns.sever {from = 65, to = 71}} end
  local f = floor(8, cuts, {span = "14-0", dead = 10, live = 40, material = STRONG})
  for _, mark in ipairs(out) do f = f:fix(mark, ns.header {at = {60, 76}}) end
  return f
end

-- A deck that hands its load on and shares nothing (next to no stiffness, its panels end
-- on the trimmers) leaves statics: 66.667 plf, tails 60 and 92 in stand on the wall and
-- the header with half each, 166.7 and 255.6 lb; the trimmers carry their own, the header
-- and half of the floor between, as it lies: R_A, R_B 616.7, 572.2 lb with one joist out,
-- 766.7, 677.8 with two (an independent computation), M by hand.
function T.test_headers_in_the_grid_by_statics()
  local w = 66.6667 / 12
  for n, wanted in ipairs {{616.7, 572.2}, {766.7, 677.8}} do
    local out = n == 1 and {"J4"} or {"J4", "J5"}
    local last = n == 1 and "J5" or "J6"
    local g = headed(out):grid {deck = {across = 1e-3, along = 0}, state = "repaired",
      edges = "full", panel_ends = {{joist = "J3"}, {joist = last}}}
    for _, mark in ipairs {"J3", last} do
      local r = g:of(mark)
      close(r.reactions[1], wanted[1], 0.005, mark)
      close(r.reactions[2], wanted[2], 0.005, mark)
      -- at the second header: own load, the first header, half of n gaps' floor
      local half = n * w * 16 / 2
      local M = wanted[1] * 76 - w * 76 ^ 2 / 2 - n * w * 60 / 4 * 16 - half * 8
      close(g:at(mark, 76).M, M, 0.01, mark)
    end
    for _, mark in ipairs(out) do
      close(g:of(mark).reactions[1], w * 60 / 2, 1e-3)
      close(g:of(mark).reactions[2], w * 92 / 2, 1e-3)
      close(g:of(mark).M_max, w * 92 ^ 2 / 8, 0.005)
    end
    local sum = 0
    for _, mark in ipairs(g.order) do sum = sum + g:of(mark).reaction end
    lu.assertTrue(math.abs(sum - g.load) <= 1e-9 * g.load)
    if n == 1 then
      -- the header of two plies sags by F (2 s)^3/(48 EI) between its trimmers; half of
      -- the station beside it, 16/11 in long, lies on it as well
      local F, EI_h = w * 60 / 2 + w * 16 / 11 / 2, 2e6 * 2 * 1.5 * 9.25 ^ 3 / 12
      local sag = g:at("J4", 60).w - (g:at("J3", 60).w + g:at("J5", 60).w) / 2
      close(sag, F * 32 ^ 3 / (48 * EI_h), 0.002)
    end
  end
end

-- With a deck: in balance, and the trimmers, of two plies, hold more than they did; the
-- joists beyond them are relieved of what they took while J4 was out.
function T.test_a_header_relieves_the_joists_beyond()
  local f = headed {"J4"}
  local before = f:grid {deck = DECK}
  local after = f:grid {deck = DECK, state = "repaired"}
  local sum = 0
  for _, mark in ipairs(after.order) do sum = sum + after:of(mark).reaction end
  lu.assertTrue(math.abs(sum - after.load) <= 1e-9 * after.load)
  lu.assertTrue(after:of("J2").reaction < before:of("J2").reaction)
  lu.assertTrue(after:of("J3").reaction > before:of("J3").reaction)
  lu.assertTrue(after:of("J4").deflection.value < before:of("J4").deflection.value)
  local feel = f:feel {deck = DECK}
  lu.assertNotNil(feel.frequency.repaired)
  lu.assertTrue(feel.frequency.repaired > feel.frequency.cut)
  lu.assertTrue(feel.joists.J4.repaired.d < feel.joists.J4.cut.d)
end

------------------------------------------------ nothing shared makes a joist pass

-- Heavier than its joists bear: every one is over 1 by itself, yet the edge joists, which
-- carry half of a bay in the grid, are far below F_b' S there; J4 is cut through.
local function heavy()
  return floor(7, {J4 = GAP, J2 = {ns.hole {at = 60, diameter = 2}}}, {live = 60})
end

local GRID = {deck = "24oc OSB", blocking = {{at = 40}}}

-- All that is printed of a review: reports, the files of a package, workbook tables.
local function papers(review, load_path, shores)
  local out, report = {}, ns.report
  for _, form in ipairs {"text", "markdown", "html", "latex", "json", "csv"} do
    out["report." .. form] = report[form](review)
  end
  for _, file in ipairs(ns.package.files(review, {load_path = load_path, full = true,
    shores = shores, render = false})) do
    out["package." .. file.name] = file.text
  end
  return out
end

-- Lines with what separates them in JSON and tables left off.
local function lines_of(body)
  local list = {}
  for line in body:gsub("<[^>]->", "\n"):gmatch "[^\n]+" do
    local bare = line:gsub("[%s,%[%]{}&\\]+", " "):gsub("^ ", ""):gsub(" $", "")
    if bare ~= "" then list[#list + 1] = bare end
  end
  return list
end

local function counted(list)
  local count = {}
  for _, line in ipairs(list) do count[line] = (count[line] or 0) + 1 end
  return count
end

-- Lines of one body that another does not have.
local function more_in(body, other)
  local have, out = counted(lines_of(other)), {}
  for _, line in ipairs(lines_of(body)) do
    local n = have[line] or 0
    if n > 0 then have[line] = n - 1 else out[#out + 1] = line end
  end
  return out
end

local PRAISE = {"adequate", "pass", "leave", "no repair", "acceptable", "permitted",
  "suffic", "enough", "serves", "OK", "sound verdict", "within limits", "may stay"}

local function blames(line)
  for _, word in ipairs(PRAISE) do
    if line:find(word, 1, true) then return word end
  end
end

-- What the block itself says against such use.
local DISCLAIMS = "not adequate by that"

function T.test_no_line_where_a_shared_value_makes_a_joist_pass()
  local f = heavy()
  local shores = f:shores {mark = "J4", at = {70, 92}, construction_live = "25 psf",
    beside = 1, capacity = "2000 lb", beam = ns.beam_line {size = "4x6", material = WOOD}}
  local path = f:load_path()
  local bare, whole = f:review(), f:review {grid = GRID, feel = true}
  -- The trap is set: by itself J1 fails, by the grid it is at half of its strength.
  lu.assertTrue(bare.joists.J1.cut.ratio > 1)
  lu.assertTrue(whole.grid.use.J1 < 0.75)
  for mark, r in pairs(bare.joists) do
    local w = whole.joists[mark]
    lu.assertEquals({w.action, w.status, w.cut.ratio, w.cut.status, w.reasons},
      {r.action, r.status, r.cut.ratio, r.cut.status, r.reasons}, mark)
  end
  local plain, shared = papers(bare, path, {shores}), papers(whole, path, {shores})
  local searched, seen = 0, 0
  for name, body in pairs(shared) do
    -- a drawing of the grid alone is there only with it
    local before = name == "package.grid-plan.gp" and "" or assert(plain[name], name)
    if type(body) == "string" and not body:find "%z" then
      searched = searched + 1
      local gone = more_in(before, body)
      lu.assertEquals(gone, {}, name .. " lost a line")
      for _, line in ipairs(more_in(body, before)) do
        seen = seen + 1
        local word = not line:find(DISCLAIMS, 1, true) and blames(line)
        lu.assertFalse(word and true or false, ("%s: '%s' in: %s"):format(name,
          tostring(word), line))
      end
    end
  end
  lu.assertTrue(searched >= 12 and seen > 200, searched)
  lu.assertEquals(blames "J1 adequate: shared by the deck", "adequate")
end

-- The plan with reactions before and after and lines of equal deflection is in a package
-- where a grid was asked for, and nowhere else.
function T.test_the_plan_of_the_grid_is_in_a_package()
  local f = floor(7, {J4 = GAP})
  local function plan_in(review)
    for _, file in ipairs(ns.package.files(review, {render = false})) do
      if file.name == "grid-plan.gp" then return file.text end
    end
  end
  local script = plan_in(f:review {grid = {deck = "24oc OSB"}})
  -- 1193.7 lb by the grid, 952.3 with all sound, half of it at each end
  lu.assertStrContains(script, "J3  597 (476)")
  lu.assertStrContains(script, "lines of equal deflection")
  lu.assertNil(plan_in(f:review()))
end

-- Shores, load path and their JSON read no grid: the same bytes with and without.
function T.test_shores_and_load_path_read_no_sharing()
  local f = heavy()
  local function written()
    local s = f:shores {mark = "J4", at = {70, 92}, construction_live = "25 psf",
      beside = 1, capacity = "2000 lb", beam = ns.beam_line {size = "4x6",
        material = WOOD}}
    local p = f:load_path()
    return table.concat {s:text(), s:json(), s:html(), p:text(), p:json(), p:html()}
  end
  local before = written()
  f:review {grid = GRID, feel = true}
  f:grid(PERSON)
  lu.assertEquals(written(), before)
  for _, word in ipairs {"by the grid", "grid share", "shared by the deck"} do
    lu.assertNil(before:find(word, 1, true), word)
  end
end

return T
