---@meta
-- SPDX-License-Identifier: MIT
-- Plots: gnuplot scripts as strings; nothing is run. A subject is a review, or a joist,
-- which is reviewed with the defaults.

---@class netsection
local ns = {}

---What every plot takes.
---@class netsection.PlotOptions
---@field output? string file name in .png, .svg or .pdf; default the user's terminal
---
---{width, height}, width 6 to 40 in; default by the drawing
---@field size? netsection.Length[]
---@field title? string the first line; default from the joist

---@class netsection.SectionPlotOptions: netsection.PlotOptions
---@field at? netsection.Length the place; default at what governs

---@class netsection.ElevationOptions: netsection.PlotOptions
---
---true: without title and lists, the repair in two parts at most; default false
---@field brief? boolean

---@class netsection.DetailOptions
---@field output? string file name in .png, .svg or .pdf; default the user's terminal
---@field title? string the first line; default from the joist
---
---"letter" (default), "a4", "tabloid", "a3"; tabloid where it needs it
---@field paper? string

---@class netsection.CutMapOptions: netsection.PlotOptions, netsection.CodeOptions
---@field notch_length? netsection.Length default d/3
---@field places? integer along the joist, a count; default 120

---A limit line of a chart: where, and what is said of it.
---@class netsection.CurvesOptions: netsection.PlotOptions
---@field value string of the sweep
---@field x string the axis across
---@field lines? string another axis, one line per value; default none
---@field at? table<string,any> values of the axes that stand still; default none
---
---A number in the unit of the value, a length, or `{{at=, text=}}`; false: none.
---@field limit? number|string|table|false default 1 for ratios

---@class netsection.ContourOptions: netsection.PlotOptions
---@field value string of the sweep
---@field x string the axis across
---@field y string the axis up
---@field at? table<string,any> values of the axes that stand still; default none
---@field limit? number|string|table|false heavy line, in its unit; default 1 for ratios
---@field levels? number[] of lines, in the unit of the value; default by itself

---@class netsection.plot
local plot = {}
ns.plot = plot

---Bending moment and the capacity that the cuts leave; of a repaired joist its members
---too.
---
---Errors: nil and a message where there is nothing to draw; raises for a wrong subject or
---option.
---
---```lua
---print(#ns.plot.moment(review, {output = "moment.png"}) > 0)  --> true
---```
---@param subject netsection.Review|netsection.Joist what is drawn
---@param options? netsection.PlotOptions output, size, title
---@return string|nil script # for gnuplot
---@return string|nil message # why there is none
function plot.moment(subject, options) end

---Shear and the capacity that the cuts leave; of a repaired joist its members too.
---
---Errors: nil and a message where there is nothing to draw; raises for a wrong subject or
---option.
---
---```lua
---print(#ns.plot.shear(joist) > 0)  --> true
---```
---@param subject netsection.Review|netsection.Joist what is drawn
---@param options? netsection.PlotOptions output, size, title
---@return string|nil script # for gnuplot
---@return string|nil message # why there is none
function plot.shear(subject, options) end

---Shear over moment on one sheet.
---
---Errors: nil and a message where there is nothing to draw; raises for a wrong subject or
---option.
---
---```lua
---print(#ns.plot.sheet(review) > 0)  --> true
---```
---@param subject netsection.Review|netsection.Joist what is drawn
---@param options? netsection.PlotOptions output, size, title
---@return string|nil script # for gnuplot
---@return string|nil message # why there is none
function plot.sheet(subject, options) end

---The joist to scale with its cuts and its repair.
---
---Errors: nil and a message where there is nothing to draw; raises for a wrong subject or
---option.
---
---```lua
---print(#ns.plot.elevation(review) > 0)  --> true
---```
---@param subject netsection.Review|netsection.Joist what is drawn
---@param options? netsection.ElevationOptions output, size, title, brief
---@return string|nil script # for gnuplot
---@return string|nil message # why there is none
function plot.elevation(subject, options) end

---Elevation, diagram and section in one drawing for a report, 7.15 in wide.
---
---Errors: nil and a message where there is nothing to draw; raises for a wrong subject or
---option.
---
---```lua
---print(#ns.plot.overview(review) > 0)  --> true
---```
---@param subject netsection.Review|netsection.Joist what is drawn
---@param options? netsection.PlotOptions output, size, title
---@return string|nil script # for gnuplot
---@return string|nil message # why there is none
function plot.overview(subject, options) end

---The joist cut across, to scale.
---
---Errors: nil and a message where there is nothing to draw; raises for a wrong subject or
---option.
---
---```lua
---print(#ns.plot.section(review, {at = "5-2"}) > 0)  --> true
---```
---@param subject netsection.Review|netsection.Joist what is drawn
---@param options? netsection.SectionPlotOptions output, size, title, at
---@return string|nil script # for gnuplot
---@return string|nil message # why there is none
function plot.section(subject, options) end

---A repair as it is to be built, to scale on one sheet: elevation, sections, parts,
---notes.
---
---Errors: nil and the reason where the repair fails, is refused or does not go on the
---paper; raises for a wrong subject or option.
---
---```lua
---local fixed = severed:fix(ns.sister {fastener = bolt}):review()
---print((ns.plot.detail(fixed, {paper = "tabloid"})))
---```
---@param subject netsection.Review|netsection.Joist what is drawn
---@param options? netsection.DetailOptions output, title, paper
---@return string|nil script # for gnuplot
---@return string|nil message # why there is none
function plot.detail(subject, options) end

---Where on a joist a hole or a notch is still allowed.
---
---Errors: nil and a message where there is nothing to draw; raises for a wrong subject or
---option.
---
---```lua
---print(#ns.plot.cut_map(joist, {places = 12}) > 0)  --> true
---```
---@param subject netsection.Review|netsection.Joist what is drawn
---@param options? netsection.CutMapOptions title, notch_length, places, code
---@return string|nil script # for gnuplot
---@return string|nil message # why there is none
function plot.cut_map(subject, options) end

---A floor in plan, to scale, with the action of each joist.
---
---Errors: nil and a message where there is nothing to draw; raises for a wrong subject or
---option.
---
---```lua
---print(#ns.plot.floor_plan(floor_review) > 0)  --> true
---```
---@param subject netsection.Floor|netsection.FloorReview what is drawn
---@param options? netsection.PlotOptions output, size, title
---@return string|nil script # for gnuplot
---@return string|nil message # why there is none
function plot.floor_plan(subject, options) end

---A small plan of a floor for a first page: marks, spacing, cuts, new pieces, headers and
---trimmers, and beside each joist its action in a word. 3.4 in wide by default.
---
---Errors: nil and a message where there is nothing to draw; raises for a wrong subject or
---option.
---
---```lua
---print(#ns.plot.key_plan(floor_review) > 0)  --> true
---```
---@param subject netsection.Floor|netsection.FloorReview what is drawn
---@param options? netsection.PlotOptions output, size (3 in wide at least), title
---@return string|nil script # for gnuplot
---@return string|nil message # why there is none
function plot.key_plan(subject, options) end

---Ratios of a floor's joists beside the line at 1.0.
---
---Errors: nil and a message where there is nothing to draw; raises for a wrong subject or
---option.
---
---```lua
---print(#ns.plot.floor_summary(floor_review) > 0)  --> true
---```
---@param subject netsection.Floor|netsection.FloorReview what is drawn
---@param options? netsection.PlotOptions output, size, title
---@return string|nil script # for gnuplot
---@return string|nil message # why there is none
function plot.floor_summary(subject, options) end

---A floor as a grid: reactions as found and with all joists sound, lines of equal
---deflection.
---
---Errors: nil and a message where there is nothing to draw; raises for a wrong subject or
---option.
---
---```lua
---print(#ns.plot.grid_plan(grid) > 0)  --> true
---```
---@param g netsection.Grid of `floor:grid`, or of a review
---@param options? netsection.PlotOptions output, size, title
---@return string|nil script # for gnuplot
---@return string|nil message # why there is none
function plot.grid_plan(g, options) end

---The diagram of a load path: lb at each point from the joists into the ground.
---
---Errors: nil and a message where there is nothing to draw; raises for a wrong subject or
---option.
---
---```lua
---print(#ns.plot.load_path(floor:load_path()) > 0)  --> true
---```
---@param path netsection.LoadPath of `floor:load_path`
---@param options? netsection.PlotOptions output, size, title
---@return string|nil script # for gnuplot
---@return string|nil message # why there is none
function plot.load_path(path, options) end

---What each uncertain input does to a ratio.
---
---Errors: nil and a message where there is nothing to draw; raises for a wrong subject or
---option.
---
---```lua
---print(#ns.plot.tornado(odds) > 0)  --> true
---```
---@param answer netsection.Odds of `ns.odds` or `joist:odds`
---@param options? netsection.PlotOptions output, size, title
---@return string|nil script # for gnuplot
---@return string|nil message # why there is none
function plot.tornado(answer, options) end

---A value along an axis, a line per value of another.
---
---Errors: nil and a message where there is nothing to draw; raises for a wrong subject or
---option.
---
---```lua
---print(#ns.plot.curves(sweep, {value = "ratio", x = "spacing"}) > 0)  --> true
---```
---@param sweep netsection.Sweep its values
---@param options netsection.CurvesOptions value, x, lines, at, limit
---@return string|nil script # for gnuplot
---@return string|nil message # why there is none
function plot.curves(sweep, options) end

---Lines of equal value over two axes.
---
---Errors: nil and a message where there is nothing to draw; raises for a wrong subject or
---option.
---
---```lua
---local s = ns.sweep {joist = joist, over = {spacing = {12, 16, 24},
---  live = {30, 40, 50}}}
---print(#ns.plot.contour(s, {value = "ratio", x = "spacing", y = "live"}) > 0)  --> true
---```
---@param sweep netsection.Sweep its values
---@param options netsection.ContourOptions value, x, y, at, limit, levels
---@return string|nil script # for gnuplot
---@return string|nil message # why there is none
function plot.contour(sweep, options) end

---A sketch of a homework problem.
---
---Errors: nil and a message where there is nothing to draw; raises for a wrong subject or
---option.
---
---```lua
---local d = ns.homework.figure.loads {L = 12, w = "60 plf"}
---print(#ns.plot.sketch(d) > 0)  --> true
---```
---@param drawing table of `ns.homework.figure`
---@param options? netsection.PlotOptions output, size, title
---@return string|nil script # for gnuplot
---@return string|nil message # why there is none
function plot.sketch(drawing, options) end
