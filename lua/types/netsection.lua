---@meta netsection
-- SPDX-License-Identifier: MIT
-- The module: what `require "netsection"` gives: version, inputs as text, writing of
-- files.

---```lua
---local joist = ns.joist {
---  mark = "J3", size = "2x10", species = "douglas fir-larch", grade = "No.2",
---  span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40,
---  cuts = {ns.hole {at = "5-2", diameter = 4}},
---}
---local severed = joist:with {mark = "J2", cuts = {ns.sever {from = 70, to = 75}}}
---local floor = ns.floor {
---  name = "Bath", size = "2x10", species = "douglas fir-larch", grade = "No.2",
---  span = "13-6", spacing = 16, bearing = 3.5, dead = 12, live = 40,
---  joists = {{mark = "J1"}, {mark = "J2", cuts = {ns.sever {from = 70, to = 75}}},
---    {mark = "J3"}, {mark = "J4"}},
---}
---local bolt = ns.fastener {kind = "bolt", diameter = "1/2 in"}
---local review = joist:review()
---local floor_review = floor:review()
---local sweep = ns.sweep {joist = joist, over = {spacing = {12, 16}}}
---local odds = joist:odds {defaults = true, draws = 256, replicates = 4, indices = false}
---local grid, feel = floor:grid {deck = "24oc OSB"}, floor:feel {deck = "24oc OSB"}
---local path = floor:load_path()
---local shores = floor:shores {mark = "J2", at = {40, 100}, construction_live = "25 psf",
---  beam = ns.beam_line {mark = "B", size = "4x6", species = "hem-fir", grade = "No.2",
---    posts = {0, 48}}}
---local thirds = ns.table {title = "Holes of d/3", unit = "in",
---  rows = {name = "size", values = {"2x8", "2x10"}},
---  columns = {name = "n", values = {1}},
---  cell = function(size) return ns.lumber.size(size).d / 3 end,
---  round = {to = "1/8 in", way = "down"}}
---local set = ns.homework {course = "Timber floors", seed = "first", students = {"k17"},
---  problems = {"tributary_load"}}
---local beam = ns.beam {spans = {100}, EI = 1e6,
---  loads = {{at = 50, P = 100, case = "live"}}}
---local tied = ns.beam {spans = {100}, EI = 1e6, loads = {{at = 50, P = 100}},
---  beside = {from = 0, to = 100, EI = 1e6, bears = {left = true, right = true},
---    stations = {{at = 50, k = 1e4}}}}
---local folder = os.getenv "NETSECTION_OUT" or "out"   -- a folder that is there
---```
---@class netsection
---@field version string the version of the module, "0.2.0"
---
---In `joist:with`, takes a field away: `joist:with {cuts = ns.none}`.
---@field none table no fields of its own
local ns = {}

---A length: a number is inches; text has a unit or is feet and inches in trade notation:
---`"13-6"`, `"13'-6 1/2\""`, `"3-1/2 in"`, `"89 mm"`, `"2.4 m"`.
---@alias netsection.Length number|string

---A load: text with its unit, `"40 psf"`, `"66.7 plf"`, `"450 lb"`, `"1.9 kPa"`; a bare
---number is psf for an area and lb at a point; a bare line load is refused.
---@alias netsection.Load number|string

---A rule pack or several: a name, a pack of `ns.rules`, or a list of up to four of them.
---@alias netsection.RulesOption string|table

---A design standard: its name, or one of `ns.standard`.
---@alias netsection.StandardOption string|table

---Which code and which standard a question is put to.
---@class netsection.CodeOptions
---@field rules? netsection.RulesOption default "us-irc-2021"
---@field standard? netsection.StandardOption default "us-nds-2018-asd"

---How a review is put to code, standard and units.
---@class netsection.ReviewOptions: netsection.CodeOptions
---
---of what is printed, "us" or "metric"; default the joist's or floor's
---@field units? string
---
---spelling in print: "en-US", "en-GB" or "en-CA"; default the joist's or floor's
---@field lang? string

---How the review of one joist is put.
---@class netsection.JoistReviewOptions: netsection.ReviewOptions
---
---a condition of the span table of the rules, such as "bridging": a cut past their limits
---is within where the joist is deeper by it than its span needs; default no such relief
---@field by_depth? string

---A length in inches from any notation.
---
---Errors: nil and what is taken, where the text is no length.
---
---```lua
---print(ns.length "13-6")  --> 162.0
---```
---@param v netsection.Length what to read
---@return number|nil inches # in
---@return string|nil message # what is taken, where nothing could be read
function ns.length(v) end

---A load and its kind from any notation.
---
---Errors: nil and what is taken, where the text is no load or its kind is another one.
---
---```lua
---print(ns.load "40 psf")  --> 40.0 area
---```
---@param v netsection.Load what to read
---@param kind? string what a bare number is: "area" (psf), "line" (plf) or "point" (lb)
---@return number|nil value # psf, plf or lb by its kind
---@return string|nil kind # "area", "line" or "point"; of nil, the message
function ns.load(v, kind) end

---Lengths from first to last by a step, for an axis of a sweep or a table.
---
---Errors: raises where one is no length, the step is not above 0, last lies before
---first, or there were more than 1000000 of them.
---
---```lua
---print(#ns.steps("12-0", "16-0", "0-6"))  --> 9
---```
---@param first netsection.Length where the list begins
---@param last netsection.Length not passed
---@param step netsection.Length above 0
---@return number[] lengths # in
function ns.steps(first, last, step) end

---Writes a file whole or not at all. What is there keeps its mode, owner and links; a
---folder, device or pipe is refused. Leftovers of a killed run are named
---`.netsection-*.part`.
---
---Errors: nil and a message where it cannot be written; raises where text is no string.
---
---```lua
---assert(ns.write(folder .. "/moment.gp", ns.plot.moment(review)))
---```
---@param path string|file* a path, an open file, or "-" for standard output
---@param text string the bytes
---@return boolean|nil ok # true
---@return string|nil message # why not
function ns.write(path, text) end

return ns
