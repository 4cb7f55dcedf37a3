---@meta
-- SPDX-License-Identifier: MIT
-- Workbook: calculations that recompute, field books, tables, as .xlsx (ECMA-376) or .ods
-- (ISO/IEC 26300).

---@class netsection
local ns = {}

---Paper and title of a workbook of tables.
---@class netsection.WorkbookTablesOptions: netsection.PaperOptions
---@field title? string over the sheet of contents; default "Tables"

---@class netsection.workbook
local workbook = {}
ns.workbook = workbook

---Writes the calculation as a workbook that recomputes, by the end of the path.
---
---Errors: nil and a message where it cannot be written; raises for a wrong subject or
---option.
---
---```lua
---assert(ns.workbook.write(floor_review, folder .. "/calculation.xlsx"))
---```
---@param r netsection.Review|netsection.FloorReview a review
---@param path string ends in .xlsx or .ods
---@param options? netsection.PaperOptions paper
---@return boolean|nil ok # true
---@return string|nil message # why not
function workbook.write(r, path, options) end

---The same as a string.
---
---Errors: raises for a wrong subject, form or option.
---
---```lua
---print(ns.workbook.bytes(review, "ods"):sub(1, 2))  --> PK
---```
---@param r netsection.Review|netsection.FloorReview a review
---@param form string "xlsx" or "ods"
---@param options? netsection.PaperOptions paper
---@return string bytes # of a file
function workbook.bytes(r, form, options) end

---Paper and units of a blank field book.
---@class netsection.BookOptions
---@field paper? string "letter" or "a4"; default by the units
---@field units? string "us" (default) or "metric"
---@field lang? string spelling of hints: "en-US" (default), "en-GB" or "en-CA"

---A blank field book with lists to choose from, hints and examples; its cells are text.
---
---Errors: raises for a wrong form or option.
---
---```lua
---print(ns.workbook.template "xlsx":sub(1, 2))  --> PK
---```
---@param form string "xlsx" or "ods"
---@param options? netsection.BookOptions paper, units
---@return string bytes # of a file
function workbook.template(form, options) end

---A sheet of a workbook of tables.
---@class netsection.WorkbookItem
---@field name? string of the sheet; default the table's title
---@field table? netsection.Table without it csv
---@field csv? string a gradebook, an answer form; without it table

---Writes several tables as one workbook with a sheet of contents.
---
---Errors: nil and a message where it cannot be written; raises for a wrong item or
---option.
---
---```lua
---assert(ns.workbook.tables({thirds}, folder .. "/tables.ods"))
---```
---@param items (netsection.Table|netsection.WorkbookItem)[] sheets
---@param path string ends in .xlsx or .ods
---@param options? netsection.WorkbookTablesOptions title, paper
---@return boolean|nil ok # true
---@return string|nil message # why not
function workbook.tables(items, path, options) end
