-- SPDX-License-Identifier: MIT
--- Diagrams as gnuplot scripts. The subjects are stand-ins with exact statics, so that
-- these tests need no core; gnuplot runs what is written wherever it is installed.

local lu = require "luaunit"
local drawing = require "tests.drawing"
local plot = require "netsection.plot"
local support = require "tests.support"

local HOSTILE, folder = drawing.HOSTILE, drawing.folder
local need_gnuplot = drawing.need_gnuplot
local assert_draws, run = drawing.assert_draws, drawing.run
local read_file, write_file = drawing.read_file, drawing.write_file

local tests = {}

---------------------------------------------------------------------------
-- Stand-ins
---------------------------------------------------------------------------

local DEAD, LIVE = 1.333, 4.444      -- lb/in: 12 and 40 psf at 16 in
local SPAN = 162                     -- in
local CAPACITY = {sag = 24353, hog = 24353, shear = 1665}

-- Sorted places with two at each step of the capacity, whose right-hand one is marked.
local function stations(start, finish, cuts, steps)
  local list = {}
  for i = 0, 108 do
    list[#list + 1] = {x = start + (finish - start) * i / 108, side = 0}
  end
  for _, x in ipairs(steps) do
    list[#list + 1] = {x = x, side = -1}
    list[#list + 1] = {x = x, side = 1}
  end
  for _, cut in ipairs(cuts) do
    for _, x in ipairs {cut.x1, cut.x2} do
      list[#list + 1] = {x = x, side = -1}
      list[#list + 1] = {x = x, side = 1}
    end
  end
  table.sort(list, function(a, b)
    if a.x ~= b.x then return a.x < b.x end
    return a.side < b.side
  end)
  return list
end

-- What remains of the capacity beside or inside the cuts.
local function share_at(cuts, station, field)
  local share = 1
  for _, cut in ipairs(cuts) do
    local left = station.side < 0 and station.x <= cut.x1 or station.x < cut.x1
    local right = station.side > 0 and station.x >= cut.x2 or station.x > cut.x2
    if not left and not right then share = math.min(share, cut[field] or cut.share) end
  end
  return share
end

local function points(spec, cuts)
  local list = {}
  for i, s in ipairs(stations(spec.start, spec.finish, spec.cuts, spec.steps or {})) do
    local p = spec.forces(s.x, s.side)
    p.x = s.x
    p.M_cap = CAPACITY.sag * share_at(cuts, s, "sag")
    p.M_cap_neg = CAPACITY.hog * share_at(cuts, s, "hog")
    p.V_cap = CAPACITY.shear * share_at(cuts, s, "shear")
    list[i] = p
  end
  return list
end

local function simple_forces(x)
  local L, w = SPAN, DEAD + LIVE
  return {
    V = w * (L / 2 - x), M = w * x * (L - x) / 2,
    V_max = DEAD * (L / 2 - x) + LIVE * (L - x) ^ 2 / (2 * L),
    V_min = DEAD * (L / 2 - x) - LIVE * x ^ 2 / (2 * L),
    M_max = w * x * (L - x) / 2, M_min = DEAD * x * (L - x) / 2,
  }
end

local PATTERNS = {{0, 0}, {1, 0}, {0, 1}, {1, 1}}

-- Least and greatest of forces(live on part 1, live on part 2) over the patterns.
local function enveloped(forces)
  local full = forces(1, 1)
  local r = {V = full.V, M = full.M}
  for _, pattern in ipairs(PATTERNS) do
    local f = forces(pattern[1], pattern[2])
    r.V_max, r.V_min = math.max(r.V_max or f.V, f.V), math.min(r.V_min or f.V, f.V)
    r.M_max, r.M_min = math.max(r.M_max or f.M, f.M), math.min(r.M_min or f.M, f.M)
  end
  return r
end

-- Two equal spans of `L`; `fixity` is the share of the stiff moment over the middle.
local function two_span_forces(L, fixity)
  return function(x, side)
    return enveloped(function(a, b)
      local w1, w2 = DEAD + LIVE * a, DEAD + LIVE * b
      local middle = -fixity * (w1 + w2) * L ^ 2 / 16
      if x < L or x == L and side <= 0 then
        local R = w1 * L / 2 + middle / L
        return {V = R - w1 * x, M = R * x - w1 * x ^ 2 / 2}
      end
      local y = 2 * L - x
      local R = w2 * L / 2 + middle / L
      return {V = w2 * y - R, M = R * y - w2 * y ^ 2 / 2}
    end)
  end
end

-- A span of `L` that runs on for `c` beyond the right bearing, with `P` at its tip.
local function overhang_forces(L, c, P)
  return function(x, side)
    return enveloped(function(a, b)
      local w1, w2 = DEAD + LIVE * a, DEAD + LIVE * b
      local over = w2 * c ^ 2 / 2 + P * c
      if x < L or x == L and side <= 0 then
        local R = w1 * L / 2 - over / L
        return {V = R - w1 * x, M = R * x - w1 * x ^ 2 / 2}
      end
      local y = L + c - x
      return {V = w2 * y + P, M = -w2 * y ^ 2 / 2 - P * y}
    end)
  end
end

local function subject(spec)
  local d = {
    mark = spec.mark or "J3", title = spec.title or "2x10 DF-L No.2 at 16 in",
    start = spec.start, finish = spec.finish, supports = spec.supports, cuts = spec.cuts,
    uncut = points(spec, {}), severed = spec.severed or false, unit = "in, lb",
    governing = spec.governing, peaks = true,
  }
  spec.forces = spec.cut_forces or spec.forces
  d.cut = points(spec, spec.cuts)
  return {diagram = function() return d end}
end

local function simple(changes)
  local spec = {
    start = 0, finish = SPAN, supports = {0, SPAN}, forces = simple_forces, cuts = {},
  }
  for key, value in pairs(changes or {}) do spec[key] = value end
  return subject(spec)
end

local function hole(i, x, size, share)
  return {
    name = "hole " .. i, kind = "hole", x1 = x - size / 2, x2 = x + size / 2, at = x,
    label = ("%g in hole"):format(size), share = share,
  }
end

local CASES = {}

function CASES.uncut() return simple() end

function CASES.hole()
  return simple {
    cuts = {{name = "hole 1", kind = "hole", x1 = 60, x2 = 64, at = 62,
             label = "4 in hole, 1-1/2 in below", share = 0.62, shear = 0.38}},
    governing = {x = 64, ratio = 1.19, mode = "net-bending", demand = 18123,
                 capacity = 15099},
  }
end

function CASES.several()
  return simple {
    cuts = {
      {name = "end notch 1", kind = "end_notch", x1 = 0, x2 = 3.5, at = 1.75,
       label = "2-3/4 in, bottom", share = 0.48, shear = 0.35},
      {name = "notch 1", kind = "notch", x1 = 24, x2 = 28, at = 26,
       label = "2 in, top, no taper", share = 0.61, shear = 0.7},
      hole(1, 108, 0.75, 0.97),
      {name = "loss 1", kind = "loss", x1 = 72, x2 = 132, at = 102,
       label = "char, 1/4 in on three faces", share = 0.72, shear = 0.75},
    },
    governing = {x = 81, ratio = 1.08, mode = "bending", demand = 18953,
                 capacity = 17534},
  }
end

function CASES.crowded()
  local cuts = {}
  for i = 1, 8 do
    cuts[i] = hole(i, 60 + 3 * i, i % 2 == 0 and 1 or 2, 0.9 - 0.03 * i)
  end
  return simple {
    cuts = cuts,
    governing = {x = 81, ratio = 1.02, mode = "deflection-live", demand = 0.46,
                 capacity = 0.45},
  }
end

function CASES.crowded_at_end()
  local cuts = {}
  for i = 1, 8 do cuts[i] = hole(i, 1 + 2 * i, 1, 0.9) end
  return simple {cuts = cuts}
end

function CASES.severed()
  return simple {
    mark = "J6", severed = true,
    cuts = {
      {name = "sever 1", kind = "sever", x1 = 72, x2 = 77, at = 74.5,
       label = "cut through", share = 0},
      hole(1, 108, 0.75, 0.97),
    },
    governing = {x = 74.5, ratio = math.huge, mode = "net-bending", demand = 18830,
                 capacity = 0},
  }
end

function CASES.two_spans()
  return subject {
    mark = "OM-4", title = "full-sawn 2x8 at 18 in, beam added at the middle",
    start = 0, finish = 176, supports = {0, 88, 176}, steps = {88},
    forces = two_span_forces(88, 1), cut_forces = two_span_forces(88, 0.9),
    cuts = {
      {name = "end notch 1", kind = "end_notch", x1 = 0, x2 = 4, at = 2,
       label = "2 in, bottom", share = 0.56, shear = 0.42},
      {name = "notch 1", kind = "notch", x1 = 86, x2 = 90, at = 88,
       label = "4 in, top", share = 0.18, hog = 0.14, shear = 0.4},
    },
    governing = {x = 88, ratio = 1.47, mode = "net-bending", demand = 5034,
                 capacity = 3409},
  }
end

function CASES.overhang()
  return subject {
    mark = "B2", title = "2x10 Hem-Fir No.2 at 16 in, balcony",
    start = 0, finish = 204, supports = {0, 132}, steps = {132},
    forces = overhang_forces(132, 72, 150),
    cuts = {
      {name = "notch 1", kind = "notch", x1 = 126, x2 = 140, at = 133,
       label = "3 in, top, at the wall", share = 0.45, hog = 0.4, shear = 0.5},
    },
    governing = {x = 132, ratio = 2.65, mode = "net-bending", demand = 25774,
                 capacity = 9741},
  }
end

function CASES.left_overhang()
  local spec = {
    mark = "B3", start = -72, finish = 132, supports = {0, 132}, steps = {0}, cuts = {},
  }
  local mirrored = overhang_forces(132, 72, 0)
  spec.forces = function(x, side)
    local r = mirrored(132 - x, -side)
    r.V, r.V_max, r.V_min = -r.V, -r.V_min, -r.V_max
    return r
  end
  return subject(spec)
end

local function hostile(text)
  local cut = hole(1, 62, 4, 0.62)
  cut.name, cut.label = text, text
  return simple {
    mark = text, title = text, cuts = {cut},
    governing = {x = 62, ratio = 1.1, mode = "bending " .. text, demand = 1,
                 capacity = 1},
  }
end

local BOTH = {"moment", "shear"}

local function sorted_names()
  local names = {}
  for name in pairs(CASES) do names[#names + 1] = name end
  table.sort(names)
  return names
end

---------------------------------------------------------------------------
-- Tests
---------------------------------------------------------------------------

function tests.test_gnuplot_draws_every_case_without_a_word()
  need_gnuplot()
  local dir <close> = folder()
  for _, name in ipairs(sorted_names()) do
    for _, kind in ipairs(BOTH) do
      local script = plot[kind](CASES[name](), {output = "d.png"})
      assert_draws(dir, name .. " " .. kind, script, "d.png", "\x89PNG")
      os.remove(dir.path .. "/d.png")
    end
  end
end

function tests.test_gnuplot_draws_svg_and_pdf()
  need_gnuplot()
  local dir <close> = folder()
  for _, kind in ipairs(BOTH) do
    assert_draws(dir, kind, plot[kind](CASES.several(), {output = "d.svg"}), "d.svg",
      "<?xml")
    assert_draws(dir, kind, plot[kind](CASES.several(), {output = "d.PDF"}), "d.PDF",
      "%PDF")
  end
end

function tests.test_without_output_the_terminal_is_the_users()
  local script = plot.moment(CASES.hole())
  lu.assertNotStrContains(script, "set output")
  need_gnuplot()
  local dir <close> = folder()
  local function header(settings)
    lu.assertEquals(run(dir, script, settings .. "; set output 'u'"), "", settings)
    return read_file(dir.path .. "/u"):sub(1, 400)
  end
  lu.assertStrContains(header("set term svg"), 'width="624"')
  lu.assertStrContains(header("set term svg size 900,700"), 'width="900"')
  lu.assertStrContains(header("set term dumb 100 50"), "Bending moment, joist J3")
  for _, name in ipairs {"pngcairo", "png", "pdfcairo", "postscript eps"} do
    lu.assertTrue(#header("set term " .. name) > 300, name)
  end
end

function tests.test_a_start_up_file_changes_nothing()
  need_gnuplot()
  local dir <close> = folder()
  local script = plot.moment(CASES.hole(), {output = "d.svg"})
  local plain = assert_draws(dir, "plain", script, "d.svg", "<?xml")
  write_file(dir.path .. "/.gnuplot",
    "set datafile separator ','\nset decimalsign ','\nset logscale y\nset key off\n"
    .. "set xtics 5\nset polar\nmoved = 7\n")
  lu.assertEquals(assert_draws(dir, "set", script, "d.svg", "<?xml"), plain)
end

function tests.test_hostile_text_is_text()
  need_gnuplot()
  local dir <close> = folder()
  for _, text in ipairs(HOSTILE) do
    for _, kind in ipairs(BOTH) do
      local name = kind .. " " .. lu.prettystr(text:sub(1, 30))
      local script = plot[kind](hostile(text), {output = "d.svg", title = text})
      local image = assert_draws(dir, name, script, "d.svg", "<?xml")
      lu.assertStrContains(image, "</svg>", false, name)
      lu.assertNotStrContains(image, "[\0-\8\11-\31]", true, name)
      lu.assertNil(read_file(dir.path .. "/ran"), name)
    end
  end
end

-- What of a user's texts stands outside the single-quoted ones would be run.
function tests.test_user_text_stands_in_single_quotes_only()
  for _, text in ipairs(HOSTILE) do
    local script = plot.moment(hostile(text .. "Qz9"))
    for line in script:gmatch("[^\n]+") do
      local outside = line:gsub("'[^']*'", "")
      lu.assertNotStrContains(outside, "Qz9", false, line)
      lu.assertNotStrContains(outside, "'", false, line)
    end
    lu.assertNil(script:find("[\0-\9\11-\31\127]"), text)
    lu.assertNotNil(utf8.len(script), text)
  end
end

function tests.test_data_blocks_hold_numbers_only()
  local script = plot.moment(hostile("EOD\nEOD"))
  local _, count = script:gsub("%$%w+ << EOD\n(.-)EOD\n", function(block)
    lu.assertNil(block:find("[^-0-9. \n]"), block)
  end)
  lu.assertEquals(count, 3)
end

function tests.test_a_placeholder_in_a_text_is_not_replaced()
  local script = plot.moment(hostile("@FRAME@"))
  lu.assertStrContains(script, "'Bending moment, joist @FRAME@'")
end

function tests.test_text_is_shown_as_it_was_written()
  local s = plot.moment(hostile("J'3 `x` \\ \u{6881}\tend"))
  lu.assertStrContains(s, "'Bending moment, joist J'.\"\\047\".'3 `x` \\ \u{6881} end'")
  s = plot.moment(hostile("\u{202E}J\xff"))
  lu.assertStrContains(s, "'Bending moment, joist  J?'")
end

function tests.test_long_text_is_shortened()
  local script = plot.moment(hostile(("\u{6881}"):rep(200)))
  lu.assertStrContains(script, "joist " .. ("\u{6881}"):rep(14) .. "...'")
  for line in script:gmatch("[^\n]+") do
    lu.assertTrue(utf8.len(line) < 200, line)
  end
end

function tests.test_the_same_joist_gives_the_same_bytes()
  for _, name in ipairs(sorted_names()) do
    for _, kind in ipairs(BOTH) do
      local options = {output = "d.png", size = {"165 mm", 7}}
      lu.assertEquals(plot[kind](CASES[name](), options),
        plot[kind](CASES[name](), options), name)
    end
  end
end

function tests.test_no_placeholder_is_left()
  for _, name in ipairs(sorted_names()) do
    for _, kind in ipairs(BOTH) do
      lu.assertNil(plot[kind](CASES[name]()):find("@%u+@"), name)
    end
  end
end

function tests.test_subject_and_data_stay_as_they_are()
  local s = CASES.crowded()
  local before = lu.prettystr(s:diagram())
  plot.moment(s)
  lu.assertEquals(lu.prettystr(s:diagram()), before)
end

function tests.test_a_joist_is_reviewed_first()
  local review = CASES.hole()
  local joist = {review = function() return review end}
  lu.assertEquals(plot.shear(joist), plot.shear(review))
end

function tests.test_what_a_review_says_is_wrong_is_handed_on()
  local joist = {review = function() return nil, {"J3: span missing"} end}
  local script, problem = plot.moment(joist)
  lu.assertNil(script)
  lu.assertEquals(problem, {"J3: span missing"})
  script, problem = plot.moment {diagram = function() return nil, "unstable" end}
  lu.assertNil(script)
  lu.assertEquals(problem, "unstable")
end

function tests.test_other_subjects_are_refused_at_the_callers_line()
  for _, wrong in ipairs {5, "J3", {}, {review = function() return {} end}} do
    local message = support.raises("a review or a joist expected, got a " .. type(wrong),
      function() plot.moment(wrong) end)
    lu.assertStrContains(message, "test_plot.lua:")
    support.raises("plot.shear: a review or a joist expected", plot.shear, wrong)
  end
  support.raises("got a nil", plot.moment)
end

function tests.test_options_are_checked()
  local s = CASES.hole()
  local message = support.raises('unknown option "colour"; options are output, size and '
    .. "title", function() plot.moment(s, {colour = "red"}) end)
  lu.assertStrContains(message, "test_plot.lua:")
  local wrong = {
    {"a.png", "options must be a table"}, {{output = "a.bmp"}, "ends in .png"},
    {{output = 7}, "ends in .png"}, {{output = "a\n.png"}, "control characters"},
    {{output = "| touch ran.png"}, "begin with |"}, {{output = ""}, "ends in .png"},
    {{size = 5}, "size must be"}, {{size = {}}, "size: length expected"},
    {{size = {6.5, 0 / 0}}, "size: "},
    {{size = {6.5, "2 in"}}, "the height must be at least"},
    {{size = {600, 5}}, "6 to 40 in"}, {{size = {5, 5}}, "6 to 40 in"},
    {{title = 5}, "title must be text"},
  }
  for _, case in ipairs(wrong) do
    support.raises(case[2], plot.moment, s, case[1])
    support.raises(case[2], plot.shear, s, case[1])
  end
end

function tests.test_file_names_are_kept()
  need_gnuplot()
  local dir <close> = folder()
  for _, name in ipairs {"it's.svg", "`touch ran`.svg", "a b $(x).svg", "\u{6881}.svg"} do
    assert_draws(dir, name, plot.moment(CASES.hole(), {output = name}), name, "<?xml")
  end
  lu.assertNil(read_file(dir.path .. "/ran"))
end

function tests.test_title_takes_the_place_of_the_first_line()
  local script = plot.shear(CASES.hole(), {title = "Figure 2: as found"})
  lu.assertStrContains(script, "'Figure 2: as found'")
  lu.assertStrContains(script, "'2x10 DF-L No.2 at 16 in'")
  lu.assertNotStrContains(script, "Shear, joist")
end

function tests.test_values_are_in_the_units_of_the_trade()
  local script = plot.moment(CASES.hole())
  lu.assertStrContains(script, [[up to 1579 ft-lb at 6'."\047".'-9"]])
  lu.assertStrContains(script, "'1258'")   -- 24353 * 0.62 / 12
  lu.assertStrContains(script, [['5'."\047".'-0" to 5'."\047".'-4"']])
  lu.assertStrContains(plot.shear(CASES.hole()), "-468 to 468 lb")
end

function tests.test_no_peak_is_stated_that_the_points_may_miss()
  local review = CASES.hole()
  review:diagram().peaks = nil
  local script = plot.moment(review)
  lu.assertStrContains(script, "'full load, all live'")
  lu.assertStrContains(script, "'live load positioned for maximum effect'")
end

function tests.test_a_severed_joist_says_so()
  local script = plot.moment(CASES.severed())
  lu.assertStrContains(script, "'severed'")
  lu.assertStrContains(script, "'0'")
end

function tests.test_hogging_is_drawn_where_there_is_any()
  lu.assertStrContains(plot.moment(CASES.overhang()), "hogging = 1")
  lu.assertStrContains(plot.moment(CASES.hole()), "hogging = 0")
  lu.assertStrContains(plot.moment(CASES.two_spans()), "moved = 1")
  lu.assertStrContains(plot.moment(CASES.overhang()), "moved = 0")
end

function tests.test_what_governs_is_named_on_either_diagram()
  lu.assertStrContains(plot.moment(CASES.hole()), "governs: net-bending, ratio 1.19")
  -- a check in bending stands on the line of zero of a diagram of shear, with its name
  for _, kind in ipairs(BOTH) do
    lu.assertStrContains(plot[kind](CASES.hole()), "'Governs: net-bending, ratio 1.19")
  end
  local script = plot.shear(CASES.hole())
  lu.assertStrContains(script,
    "label '1%.19 net%-bending' at 5%.%d+,0%.00 noenhanced left", true)
  lu.assertStrContains(script, "$ring << EOD\n5.33333 0.00\nEOD")
end

-- The marks of eight cuts within two feet: in order, apart, and inside the frame.
function tests.test_marks_of_crowded_cuts_do_not_overlap()
  for _, name in ipairs {"crowded", "crowded_at_end"} do
    local last, count = -math.huge, 0
    local script = plot.moment(CASES[name](), {output = "d.png"})
    local pattern = "set label '(%u)' at (%S+),screen %S+ noenhanced center"
    for mark, x in script:gmatch(pattern) do
      count = count + 1
      lu.assertEquals(mark, ("ABCDEFGH"):sub(count, count))
      lu.assertTrue(tonumber(x) - last > 0.3, name)
      last = tonumber(x)
    end
    lu.assertEquals(count, 8)
    lu.assertTrue(last < SPAN / 12)
  end
end

function tests.test_cuts_without_a_name_get_letters()
  local cut = hole(1, 62, 4, 0.62)
  cut.name, cut.label = nil, nil
  lu.assertStrContains(plot.moment(simple {cuts = {cut}}), "set label 'A' at")
end

function tests.test_a_demand_equal_to_its_capacity_is_not_above_it()
  local review = CASES.uncut()
  for _, p in ipairs(review:diagram().cut) do p.M_cap = p.M_max * (1 - 1e-15) end
  lu.assertStrContains(plot.moment(review), "exceeded = 0")
end

function tests.test_wording_claims_nothing()
  for _, name in ipairs(sorted_names()) do
    for _, kind in ipairs(BOTH) do
      local script = plot[kind](CASES[name]()):lower()
      lu.assertStrContains(script, "not a sealed design")
      for _, word in ipairs {"certif", "safe", "approv", "guarant"} do
        lu.assertNotStrContains(script, word)
      end
    end
  end
end

return tests
