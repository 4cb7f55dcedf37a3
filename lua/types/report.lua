---@meta
-- SPDX-License-Identifier: MIT
-- Report: a review in words, as a calculation sheet, as numbers.

---@class netsection
local ns = {}

---How a text is written.
---@class netsection.ReportTextOptions
---@field steps? string "governing" (default), "all" or "none"

---A visit, as printed at the head of a calculation; each a text.
---@class netsection.Visit
---@field date? string default left blank
---@field length? string how long it took; default left blank
---@field present? string who was there; default left blank
---@field address? string default left blank
---@field documents? string that were seen; default left blank
---@field photos? string default left blank
---@field weather? string default left blank
---@field trades? string default left blank
---@field inspections? string default left blank
---@field seen? string default left blank
---@field scope? string default left blank
---@field exclusions? string default left blank
---@field use? string of the building; default left blank

---How a calculation sheet is written.
---@class netsection.ReportOptions
---@field steps? string "all", "governing" or "none"; default all where work is needed
---@field concealed? string[] what was not seen; default left blank
---@field visit? netsection.Visit default left blank
---@field figures? table<string,string> SVG by name; default none
---@field title? string default from the subject
---@field job? string at the head of each page; default none
---@field date? string of the run; default none, never read from the clock

---How a page of HTML is written.
---@class netsection.ReportHtmlOptions: netsection.ReportOptions
---@field paper? string "letter" (default) or "a4"
---@field render? boolean gnuplot draws the figures; default false

---@class netsection.report
local report = {}
ns.report = report

---The report: checks uncut and cut side by side, reasons, cautions, assumptions.
---
---Errors: raises for a wrong subject or option.
---
---```lua
---print(ns.report.text(review, {steps = "none"}))
---```
---@param subject netsection.Review|netsection.FloorReview a joist's or a floor's review
---@param options? netsection.ReportTextOptions steps
---@return string text # plain
function report.text(subject, options) end

---One line for a joist's review.
---
---Errors: raises for a wrong subject or option.
---
---```lua
---print(ns.report.line(review))
---```
---@param r netsection.Review of a joist
---@param with_fixed? boolean keeps the column of the repaired ratio
---@return string text # one line
function report.line(r, with_fixed) end

---All joists as a table of 79 columns with a heading: mark, action, reason, ratios.
---
---Errors: raises for a wrong subject.
---
---```lua
---print(ns.report.overview(floor:review()))
---```
---@param subject netsection.Review|netsection.FloorReview a joist's or a floor's review
---@return string text # its lines parted by line breaks
function report.overview(subject) end

---The calculation sheet in Markdown.
---
---Errors: raises for a wrong subject or option.
---
---```lua
---print(#ns.report.markdown(review, {steps = "governing"}) > 0)  --> true
---```
---@param subject netsection.Review|netsection.FloorReview a joist's or a floor's review
---@param options? netsection.ReportOptions steps, what was not seen, visit
---@return string text # Markdown
function report.markdown(subject, options) end

---The calculation sheet in LaTeX.
---
---Errors: raises for a wrong subject or option.
---
---```lua
---print(#ns.report.latex(review, {steps = "governing"}) > 0)  --> true
---```
---@param subject netsection.Review|netsection.FloorReview a joist's or a floor's review
---@param options? netsection.ReportOptions steps, what was not seen, visit
---@return string text # LaTeX
function report.latex(subject, options) end

---The calculation sheet as one page of HTML with nothing beside it.
---
---Errors: raises for a wrong subject or option.
---
---```lua
---print(#ns.report.html(review, {paper = "a4"}) > 0)  --> true
---```
---@param subject netsection.Review|netsection.FloorReview a joist's or a floor's review
---@param options? netsection.ReportHtmlOptions as Markdown, and paper, render
---@return string text # HTML
---@return string|nil message # what went wrong with the pictures
function report.html(subject, options) end

---Every number in full. A name is the path to it, words joined by full stops, lists from
---1:
---`joists.J3.cut.checks.net-bending_hole-1.ratio`. In a word letters, digits, `-` and `_`
---stay, all else is `_`. The units stand at its head.
---
---Errors: raises for a wrong subject or option.
---
---```lua
---print(#ns.report.json(review) > 0)  --> true
---```
---@param subject netsection.Review|netsection.FloorReview a joist's or a floor's review
---@return string text # JSON
function report.json(subject) end

---Every number in full: name, value, unit, a line each.
---
---Errors: raises for a wrong subject or option.
---
---```lua
---print(ns.report.csv(review):match "^[^\r\n]+")  --> name,value,unit
---```
---@param subject netsection.Review|netsection.FloorReview a joist's or a floor's review
---@return string text # CSV
function report.csv(subject) end

---What `floor:rank_fixes` found, in lines.
---
---Errors: raises where it is no ranking.
---
---```lua
---print(ns.report.fixes(floor:rank_fixes("J2", {ns.sister {fastener = bolt}})))
---```
---@param ranking netsection.Ranking of a floor
---@return string text # plain
function report.fixes(ranking) end

---What `joist:sensitivity` found, in lines.
---
---Errors: raises where it is none.
---
---```lua
---print(ns.report.sensitivity(joist:sensitivity()))
---```
---@param s netsection.Sensitivity of a joist
---@return string text # plain
function report.sensitivity(s) end
