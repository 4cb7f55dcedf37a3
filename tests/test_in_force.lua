-- SPDX-License-Identifier: MIT
-- Clauses, defaults and limits come from the standard in force, not from the one that
-- stands where none is named: each message below is asked of an office standard whose
-- clauses are its own words, put over those of the ASD folder one by one.
local lu = require "luaunit"
local ns = require "netsection"
local reason = require "netsection.reason"

local T = {}

local CLAUSES = {}
for _, name in ipairs {"across_grain", "bolted_post", "built_up_plies", "built_up_post",
  "double_shear", "eccentric_post", "emin", "end_grain", "end_insert", "gates",
  "group_action", "group_pairs", "nailed_post", "name", "outer_rows", "plain_footing",
  "plates_on_edge", "sharing", "slender_post", "tear_out"} do
  CLAUSES[name] = "OFFICE " .. name
end

local function office(more)
  local t = {name = "office", title = "Office standard", base = "us-nds-2018-asd",
    clauses = CLAUSES}
  for name, value in pairs(more or {}) do t[name] = value end
  return ns.standard(t)
end
local OFFICE = {standard = office()}

local function joist(changes)
  local t = {mark = "J", size = "2x10", species = "Douglas Fir-Larch", grade = "No.2",
    span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40}
  for name, value in pairs(changes or {}) do t[name] = value end
  return ns.joist(t)
end

-- All that an assessment says, as one text.
local function said(a)
  local list = {a.refused or ""}
  for _, name in ipairs {"notes", "cautions", "assumptions"} do
    for _, line in ipairs(a[name] or {}) do list[#list + 1] = line end
  end
  for _, k in ipairs(a.checks or {}) do list[#list + 1] = k.clause or "" end
  return table.concat(list, "\n")
end

-- The words of the office stand where those of the folder did by default.
local function both(work, key, default)
  lu.assertStrContains(said(work(OFFICE)), "OFFICE " .. key)
  local plain = said(work {})
  lu.assertStrContains(plain, default)
  lu.assertNil(plain:find("OFFICE", 1, true))
end

local function fixed(j, fix)
  return function(options) return j:fix(fix):review(options).fixed end
end

local LAG = ns.fastener {kind = "lag screw", diameter = "1/4 in", length = "3 in"}
local BOLT = ns.fastener {kind = "bolt", diameter = "1/2 in"}

function T.test_a_seat_and_a_hanger()
  local notched = joist {cuts = {ns.end_notch {support = "left", face = "bottom",
    depth = 3.5, length = 3.5}}}
  both(fixed(notched, ns.sister {}), "gates", "NDS 4.4.3")
  both(fixed(joist {cuts = {ns.notch {face = "bottom", from = "6-6", to = "6-8",
    depth = 2}}}, ns.added_joist {side = "right"}), "gates", "NDS 4.4.3")
  both(fixed(joist {cuts = {ns.end_notch {support = "left", face = "bottom",
    depth = 2, length = 3.5}, ns.notch {face = "bottom", from = "6-6", to = "6-8",
    depth = 2}}}, ns.hanger {support = "left", capacity = 900}), "gates", "NDS 4.4.3")
end

function T.test_plies_and_groups_of_a_sister()
  local two = joist {plies = 2, cuts = {ns.hole {at = "5-2", diameter = 4, below = 1.5}}}
  both(fixed(two, ns.sister {side = "right", fastener = LAG}), "across_grain",
    "NDS 3.4.3.3")
  local severed = joist {cuts = {ns.sever {from = "6-0", to = "6-5"}}}
  local bolts = ns.sister {side = "both", size = "2x10", from = "3-0", to = "9-5",
    fastener = BOLT, groups = {{at = "3-4", n = 2}, {at = "5-8", n = 2},
      {at = "6-9", n = 2}, {at = "9-1", n = 2}}}
  both(fixed(severed, bolts), "double_shear", "NDS 12.3.1")
  both(fixed(severed, bolts), "group_pairs", "NDS 11.3.6.3")
end

function T.test_an_end_sister()
  local lost = ns.joist {mark = "E2", size = "2x10", span = 144, spacing = 16,
    bearing = 3.5, dead = 10, live = 40, species = "Douglas Fir-Larch", grade = "No.2",
    cuts = {ns.lost_bearing {support = "left", to = "1-2", cause = "rot"}}}
  local bolt = ns.fastener {kind = "bolt", diameter = "3/8 in"}
  both(fixed(lost, ns.end_sister {support = "left", to = "6-0", side = "right",
    size = "2x10", fastener = bolt, hanger = {capacity = "900 lb"},
    groups = {{at = 30, n = 4}, {at = 68, n = 4}}}), "group_action", "NDS 11.3.6")
end

function T.test_the_note_of_a_reader()
  local j = ns.joist {mark = "J", b = 1.5, d = 9.25, span = "12-0", spacing = 16,
    dead = 10, live = 40, material = {Fb = 900, Fv = 180, E = 1.6e6}}
  both(function(options) return j:review(options) end, "emin", "NDS Appendix D.4")
  local lrfd = said(j:review {standard = "us-nds-2018-lrfd"})
  lu.assertStrContains(lrfd, "Emin from E by NDS Appendix D.4")
end

function T.test_the_reason_of_an_action()
  local j = joist {cuts = {ns.notch {face = "top", from = "2-0", to = "2-4", depth = 2}}}
  local own = office {gates = {"", "a", "OFFICE on depth of notches", "c", "d", "e", "f",
    "g"}}
  lu.assertStrContains(reason.of(j:review {standard = own}),
    "not permitted: OFFICE on depth of notches")
end

-- Posts, footings, plates and beams, with numbers of the office's own.
function T.test_members_below()
  local held = {kind = "nailed", diameter = 0.148, length = 4, rows = 1, spacing = 8,
    end_distance = 2.5, edge_distance = 2.75}
  local built = ns.post {size = "2x6", plies = 3, species = "Douglas Fir-Larch",
    grade = "No.1", length = "8-0", load = 4000, built_up = held}
  both(function(o) return built:review(o) end, "built_up_plies", "NDS 15.3.1")
  local function nothing(o)
    local post = ns.post {size = "2x6", plies = 3, species = "Douglas Fir-Larch",
      grade = "No.1", length = "8-0", load = 4000}
    local _, why = pcall(post.review, post, o)
    return {refused = why}
  end
  both(nothing, "built_up_post", "NDS 15.3")
  local slim = ns.post {size = "2x4", species = "Douglas Fir-Larch", grade = "No.2",
    length = "9-0", load = 500, eccentricity = "b/6"}
  both(function(o) return slim:review(o) end, "slender_post", "NDS 3.7.1.4")
  both(function(o) return slim:review(o) end, "eccentric_post", "NDS 15.4.1")
  both(function(o) return slim:review(o) end, "end_grain", "NDS 3.10.1")
  local footing = ns.footing {soil = "1500 psf", thickness = 5, post = 3.5, load = 3000}
  both(function(o) return footing:review(o) end, "plain_footing", "IRC R403.1.1")
end

-- A footing of 7 in serves where 6 in are asked for and not where the office asks for 8;
-- the notes of a temporary post name the office's CD, which is in its check.
function T.test_numbers_for_members_are_the_standards()
  local own = office {members = {footing = {thick = 8}, construction = {CD = 1.15}}}
  local footing = ns.footing {soil = "1500 psf", thickness = 7, post = 3.5, load = 2000}
  lu.assertEquals(footing:review().status, "adequate")
  local a = footing:review {standard = own}
  lu.assertEquals(a.status, "not permitted")
  lu.assertStrContains(said(a), "at least 8 in (OFFICE plain_footing)")
  local post = ns.post {size = "4x4", species = "Douglas Fir-Larch", grade = "No.2",
    length = "8-0", load = 4000, temporary = true}
  lu.assertStrContains(said(post:review()), "CD 1.25 on all loads together")
  lu.assertStrContains(said(post:review {standard = own}), "CD 1.15 on all loads")
  -- f_c = P/A at the end, F_c* = F_c C_D C_F: the ratio goes as 1/C_D (NDS 3.10.1)
  local function end_ratio(r)
    for _, k in ipairs(r.checks) do if k.mode == "bearing" then return k.ratio end end
  end
  local ratio = end_ratio(post:review {standard = own}) / end_ratio(post:review())
  lu.assertAlmostEquals(ratio, 1.25 / 1.15, 1e-12)
end

function T.test_what_is_prescribed_for_headers()
  local own = office {framing = {clause = "OFFICE headers", near_bearing = 90}}
  local function notes(options)
    local floor = ns.floor {name = "F", size = "2x10", species = "Douglas Fir-Larch",
      grade = "No.2", span = "13-6", spacing = 16, dead = 12, live = 40, joists = {
        {mark = "J1"}, {mark = "J2", cuts = {ns.sever {from = "6-0", to = "6-5"}}},
        {mark = "J3"}}}
    return floor:fix("J2", ns.header {at = {"5-10", "6-7"},
      trimmer_plies = 1}):review(options).joists.J2
      .fixed
  end
  local rules = notes({standard = own}).rules
  lu.assertEquals(rules.clause, "OFFICE headers")
  lu.assertEquals(rules.status, "within") -- 5-10 is less than the office's 7-6
  lu.assertEquals(notes({}).rules.clause, "R502.10 (memory)")
  lu.assertEquals(notes({}).rules.status, "outside")
end

function T.test_the_second_opinion_of_a_grid()
  local floor = ns.floor {name = "F", size = "2x10", species = "Douglas Fir-Larch",
    grade = "No.2", span = "13-6", spacing = 16, dead = 12, live = 40,
    joists = {{mark = "J1"}, {mark = "J2"}, {mark = "J3"}}}
  for _, case in ipairs {{OFFICE.standard, "OFFICE sharing"}, {nil, "NDS commentary"}} do
    local r = floor:review {grid = {deck = "24oc OSB"}, standard = case[1]}
    lu.assertStrContains(ns.report.text(r), case[2])
  end
end

-- A standard without the rule keeps the words of the one whose formula was used.
function T.test_slips_in_own_clauses_are_named()
  local problems = ns.standard.problems {name = "office", title = "O",
    base = "us-nds-2018-asd", clauses = {gate = "x"}, members = {footing = {thik = 8}}}
  lu.assertEquals({problems[1].path, problems[2].path}, {"clauses.gate",
    "members.footing.thik"})
end

return T
