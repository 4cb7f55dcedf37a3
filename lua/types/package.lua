---@meta
-- SPDX-License-Identifier: MIT
-- Package: the files that go to the official, the carpenter and the file; two runs
-- compared.

---@class netsection
local ns = {}

---What a package holds.
---@class netsection.PackageOptions
---@field paper? string "letter" (default) or "a4"
---@field render? boolean gnuplot draws the pictures into the pages; default false
---@field pdf? boolean that, and a PDF beside each page by a browser found; default false
---@field full? boolean the full calculation as an annex; default false
---@field steps? string of the full calculation, as `ns.report.markdown`; default as there
---@field job? string at the head of each page; default none
---@field date? string of the run; default none, never read from the clock
---@field concealed? string[] what was not seen; default left blank
---@field visit? netsection.Visit default left blank
---@field workbook? string "xlsx" or "ods": a calculation that recomputes; default none
---@field load_path? netsection.LoadPath its sheet too; default none
---@field photos? string folder of the photos that the survey names; default none placed
---@field odds? netsection.Odds|netsection.FloorOdds half a page too; default none
---@field shores? netsection.Shores[] their sheets too; default none
---
---told of pictures; default none
---@field progress? fun(what:string,done:integer,of:integer)

---A file of a package.
---@class netsection.PackageFile
---@field name string in its folder
---@field text string the bytes

---@class netsection.package
local package = {}
ns.package = package

---The files as a list: short report, numbers, letter, parts, crew's sheet, drawings.
---
---Errors: raises for a wrong subject or option.
---
---```lua
---print(ns.package.files(floor_review)[1].name)
---```
---@param subject netsection.Review|netsection.FloorReview a joist's or a floor's review
---@param options? netsection.PackageOptions what it holds
---@return netsection.PackageFile[] files # name and text
---@return string|nil message # what went wrong with pictures or PDF
---@return string|nil program # that made the PDF
function package.files(subject, options) end

---Writes them into a folder, made where the one above it is there, all or none. The list
---`files-of-netsection.txt` says what of an earlier package goes; other files stay.
---
---Errors: nil and a message where they cannot be written; raises for a wrong subject or
---option.
---
---```lua
---assert(ns.package.write(floor_review, folder .. "/package", {job = "OH-3"}))
---```
---@param subject netsection.Review|netsection.FloorReview a joist's or a floor's review
---@param path string the folder
---@param options? netsection.PackageOptions what it holds
---@return string[]|nil names # of the files
---@return string|nil message # why not, or what went wrong with pictures
---@return string|nil program # that made the PDF
function package.write(subject, path, options) end

---The ordered tables behind the JSON.
---
---Errors: raises for a wrong subject.
---
---```lua
---print(ns.package.data(review).netsection == ns.version)  --> true
---```
---@param subject netsection.Review|netsection.FloorReview a joist's or a floor's review
---@return table data # every number, in the units at its head
function package.data(subject) end

---How two runs are compared.
---@class netsection.CompareOptions
---@field units? string of what is printed, "us" or "metric"; default those of the new run
---@field lang? string spelling, "en-US", "en-GB", "en-CA"; default that of the new run
---@field ratio? number differences of ratios below it are none, no unit; default 0.01

---What changed between two runs.
---
---Errors: nil and a message where one cannot be read; raises for a wrong option.
---
---```lua
---print(ns.compare(floor_review, floor:review()).same)  --> true
---```
---@param old any a review, the numbers of `ns.package.data`, their JSON, or its path
---@param new any likewise
---@param options? netsection.CompareOptions ratio
---@return netsection.Comparison|nil comparison # what changed
---@return string|nil message # which run cannot be read
function ns.compare(old, new, options) end

---Results of an earlier version looked at again: what changed, and what moved it.
---
---Errors: nil and a message where the numbers cannot be read; raises where they are
---neither text nor a table, and for what is no review.
---
---```lua
---local again = ns.recheck(ns.package.data(floor_review), floor_review)
---print(again.changed)  --> 0
---```
---@param old any the path of a numbers.json, that text, or the table
---@param new? any the same survey's review today; default joists described from `old`
---@return netsection.Recheck|nil result # joists, changes
---@return string|nil message # why the numbers cannot be read
function ns.recheck(old, new) end

---@class netsection.Recheck
---@field since string version that wrote the numbers
---@field looked integer joists looked at, no unit
---@field changed integer joists whose action, rules or ratio changed, no unit
---@field joists table[] those with any check that differs: mark, was, is, states
---@field not_looked table[] mark and reason of those the file does not tell enough of
---@field floor? string its name
---@field private rebuilt boolean
---@field private lang? string
local recheck = {}

---The result, as text.
---
---Errors: none of its own.
---
---```lua
---print(#ns.recheck(ns.package.data(review), review):text() > 0)  --> true
---```
---@return string text # plain
function recheck:text() end

---The result, as Markdown.
---
---Errors: none of its own.
---
---```lua
---print(#ns.recheck(ns.package.data(review), review):markdown() > 0)  --> true
---```
---@return string text # Markdown
function recheck:markdown() end

---The result, as a page of HTML.
---
---Errors: raises for a wrong option.
---
---```lua
---print(#ns.recheck(ns.package.data(review), review):html() > 0)  --> true
---```
---@param options? netsection.PaperOptions paper
---@return string text # HTML
function recheck:html(options) end

---The result, as a document.
---
---Errors: none of its own.
---
---```lua
---print(#ns.recheck(ns.package.data(review), review):document().blocks > 0)  --> true
---```
---@return netsection.Document document # to be written in any form
function recheck:document() end

---@class netsection.Comparison
---@field same boolean nothing changed
---@field added string[] marks that are new
---@field gone string[] marks that are gone
---@field joists table[] what changed: mark, words, states
---@field basis table what the two runs rest on, where it differs
---@field private show table
---@field private least number
---@field private new_run table
---@field private old_run table
local comparison = {}

---What changed, as text.
---
---Errors: none of its own.
---
---```lua
---print(#ns.compare(floor_review, floor_review):text() > 0)  --> true
---```
---@return string text # plain
function comparison:text() end

---What changed, as Markdown.
---
---Errors: none of its own.
---
---```lua
---print(#ns.compare(floor_review, floor_review):markdown() > 0)  --> true
---```
---@return string text # Markdown
function comparison:markdown() end

---What changed, as a page of HTML.
---
---Errors: raises for a wrong option.
---
---```lua
---print(#ns.compare(floor_review, floor_review):html() > 0)  --> true
---```
---@param options? netsection.PaperOptions paper
---@return string text # HTML
function comparison:html(options) end

---What changed, as a document.
---
---Errors: none of its own.
---
---```lua
---print(#ns.compare(floor_review, floor_review):document().blocks > 0)  --> true
---```
---@return netsection.Document document # to be written in any form
function comparison:document() end
