-- SPDX-License-Identifier: MIT
-- Longest spans against printed span tables: 2018 IRC R502.3.1 and R802.5.1, 2012 and
-- earlier printings with their own design values (tests/data/irc_spans.csv names each).
-- The tables' convention: clear span as design span, F_b' with Cr, live-load deflection
-- limit, nearest inch; an exact half inch may have been printed either way.
local lu = require "luaunit"
local ns = require "netsection"
local support = require "tests.support"

local T = {}

-- The mode whose value is on file where an old edition gives only one of the two.
local function known(values)
  local missing = {}
  for _, name in ipairs(values.missing or {}) do missing[name] = true end
  local modes = {}
  if not missing.Fb then modes[#modes + 1] = "bending" end
  if not missing.E then modes[#modes + 1] = "deflection-live" end
  return modes
end

-- Fv is no part of the convention and stands in where an old edition lacks it.
local function material_of(values)
  return {Fb = values.Fb or 9000, E = values.E or 4.9e6, Fv = values.Fv or 175,
    CF = values.CF}
end

local function joist_of(row)
  local size = assert(ns.lumber.size(row.size))
  local values = assert(ns.lumber.design_values {species = row.species,
    grade = row.grade, b = size.b, d = size.d, nominal_d = size.nominal_d,
    edition = row.lumber_edition, partial = true})
  return ns.joist {mark = "T", size = row.size, span = "10-0", bearing = 3.5,
    spacing = tonumber(row.spacing_in), dead = tonumber(row.dead_psf),
    live = tonumber(row.live_psf), material = material_of(values),
    limits = {live = tonumber(row.limit), total = false}}, known(values)
end

function T.test_every_printed_span_to_the_inch()
  local rows = support.read_csv "tests/data/irc_spans.csv"
  lu.assertEquals(#rows, 204)
  local two, one = 0, 0
  for _, row in ipairs(rows) do
    local joist, modes = joist_of(row)
    local span = assert(joist:longest_span {modes = modes})
    local printed = tonumber(row.published_in)
    lu.assertTrue(math.abs(span - printed) <= 0.5 + 1e-6,
      ("%s %s %s %s %s in: printed %d, computed %.3f"):format(row.table, row.species,
        row.grade, row.size, row.spacing_in, printed, span))
    if #modes == 2 then two = two + 1 else one = one + 1 end
  end
  lu.assertEquals({two, one}, {199, 5})
end

-- Closed forms of the same convention, as in any text: sqrt(8 F_b' S / w) and the cube
-- root of 384 E I / (5 n w).
function T.test_equals_the_closed_forms()
  local joist = ns.joist {mark = "T", size = "2x10", species = "SPF", grade = "No.2",
    span = "10-0", spacing = 16, dead = 10, live = 40, bearing = 3.5}
  local S, I, w, l = 1.5 * 9.25 ^ 2 / 6, 1.5 * 9.25 ^ 3 / 12, 50 * 16 / 144, 40 * 16 / 144
  support.close(joist:longest_span {modes = {"bending"}},
    math.sqrt(8 * 875 * 1.1 * 1.15 * S / w), 1e-9)
  support.close(joist:longest_span {modes = {"deflection-live"}},
    (384 * 1.4e6 * I / (5 * 360 * l)) ^ (1 / 3), 1e-9)
end

function T.test_passing_end_is_returned()
  local joist = ns.joist {mark = "T", size = "2x8", species = "HF", grade = "No.2",
    span = "10-0", spacing = 16, dead = 10, live = 40, bearing = 3.5,
    cuts = {ns.hole {at = "3-0", diameter = 2}}}
  local span = joist:longest_span()
  lu.assertTrue(joist:with {span = span}:review().cut.ratio <= 1)
  lu.assertTrue(joist:with {span = span + 1e-6}:review().cut.ratio > 1)
end

function T.test_refusals()
  local two = ns.joist {mark = "T", size = "2x8", species = "HF", grade = "No.2",
    spans = {"10-0", "10-0"}, spacing = 16, dead = 10, live = 40}
  local span, why = two:longest_span()
  lu.assertNil(span)
  lu.assertStrContains(why, "single span")
  support.raises("unknown mode 'bends'", function()
    two:longest_span {modes = {"bends"}}
  end)
  local weak = two:with {span = "10-0", live = 500, spacing = 96}
  span, why = weak:longest_span()
  lu.assertTrue(span ~= nil or why ~= nil)
end

return T
