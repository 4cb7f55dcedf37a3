---@meta
-- SPDX-License-Identifier: MIT
-- Survey: field books in CSV or workbooks to a floor; blank books and sheets to fill in.
-- The
-- columns of each file stand at the end.

---@class netsection
local ns = {}

---What a survey is read from. Each file is a path, a text, or `{text=, name=}`.
---@class netsection.SurveyFields: netsection.CodeOptions
---@field workbook? string a path to .xlsx or .ods, in place of all files; default none
---@field joists? string|table needed without a workbook, no default
---@field cuts? string|table default none
---@field obstructions? string|table default none
---@field loads? string|table default none
---@field fixes? string|table default none
---@field settings? string|table rows name, value; default none
---@field decimal? string "." or ","; default found
---@field separator? string "," ";" or a tab; default found
---@field encoding? string "utf-8" (default) or "latin-1"
---@field units? string of bare lengths: "in" (default), "ft", "mm", "cm", "m"
---@field printed? string "us" or "metric"; default metric of bare lengths in mm, cm or m
---@field lang? string spelling: "en-US", "en-GB" or "en-CA"; default of the standard
---@field by_depth? string relief by depth, as of a joist's review; default none
---@field name? string of the floor; default that of the settings
---@field most_joists? integer more are refused, no unit; default 1000

---A thing that is wrong with a survey.
---@class netsection.SurveyProblem
---@field file? string which file
---@field sheet? string of a workbook
---@field cell? string of a workbook
---@field row? integer of the file, no unit
---@field line? integer of the text, no unit
---@field column? integer no unit
---@field letter? string of the column
---@field heading? string of the column
---@field field? string of the description
---@field found? string what stands there
---@field message string what was expected
---@field text string all of it in one line

---A floor from what was measured; its `survey` holds notes, settings and obstructions.
---
---Errors: nil and all problems, each with its place; raises for a wrong option.
---
---```lua
---local f = assert(ns.read_survey {joists =
---  "mark,size,species,grade,span,spacing,dead,live\n" ..
---  "A,2x10,hem-fir,No.2,12-6,16,10,40\n"})
---print(f:joist "A")  --> joist A
---```
---@param t netsection.SurveyFields files or a workbook
---@return netsection.Floor|nil floor # to be reviewed
---@return netsection.SurveyProblem[]|nil problems # all of them
function ns.read_survey(t) end

---Units of a blank field book.
---@class netsection.BlankOptions
---@field units? string "us" (default) or "metric"
---@field lang? string spelling of what explains: "en-US" (default), "en-GB", "en-CA"

---Blank field books as CSV text.
---
---Errors: raises for another kind.
---
---```lua
---print(ns.survey_template("survey"):match "^[^\r\n]+")  --> name,value
---```
---@param kind? string a file's name, or "survey" of the settings; default all
---@param options? netsection.BlankOptions units of examples and of bare lengths
---@return table<string,string>|string books # by kind, or one
function ns.survey_template(kind, options) end

---What a sheet to fill in by hand holds.
---@class netsection.FieldSheetFields
---@field name? string of the floor; default left blank
---@field joists? integer|string[] rows, a count, or marks; default 8
---@field cuts? integer rows, a count; default 12
---@field obstructions? integer rows, a count; default 6
---@field units? string "us" (default) or "metric": of its scales
---@field lang? string its spelling: "en-US" (default), "en-GB" or "en-CA"

---A sheet to fill in on site.
---
---Errors: raises for wrong fields.
---
---```lua
---print(#ns.field_sheet({joists = {"J1", "J2"}}).blocks > 0)  --> true
---```
---@param t? netsection.FieldSheetFields rows
---@return netsection.Document document # to be written in any form
function ns.field_sheet(t) end
