---@meta
-- SPDX-License-Identifier: MIT
-- Table: a design table to be printed, from a function or a sweep.

---@class netsection
local ns = {}

---Rows, columns or blocks of a table.
---@class netsection.TableAxis
---@field name string|string[] a field, or several
---@field values any[] in the units of the field; of several fields a list of lists
---@field show? table|fun(value:any):string how a value is written; default by unit
---@field unit? string|table<string,string> of the values; default none
---@field head? string over them; default the name

---How values are rounded.
---@class netsection.TableRounding
---@field to netsection.Length|number the step, in the table's unit
---@field way string "down" what is allowed, "up" what is required, "nearest"

---What a cell function returns, beside a number or text. Nothing is a dash; false: the
---table
---has no such cell.
---@class netsection.TableCellFields
---@field value? number in the table's unit; default none
---@field letter? string beside the value; default none
---@field note? string of the cell, in the CSV; default none
---@field joist? netsection.Joist whose loads and wood are named below; default none
---@field reason? string for n/a; default none

---@class netsection.TableFields: netsection.CodeOptions
---@field title string over the table
---@field revision? string printed and in the CSV; default none
---@field lang? string of the page; "en-GB" and "en-CA" spell it; default of the standard
---@field rows string|netsection.TableAxis of a sweep the name of an axis
---@field columns string|netsection.TableAxis of a sweep the name of an axis
---@field blocks? string|netsection.TableAxis default none
---@field cell? fun(row:any,column:any,block:any):any a cell; without it sweep
---@field sweep? netsection.Sweep without it cell
---@field value? string of the sweep; needed with one, without default
---@field letter? string|false value that is the governing mode; default found by itself
---@field at? table<string,any> values of the sweep's other axes; default none
---
---Factor from the value's unit to the table's, no unit; default by unit (in, in-lb, lb,
---none); needed where the name tells no unit (`.demand`, `.capacity`).
---@field scale? number
---@field unit string "ft-in", "in", "lb", "ft-lb", "psi", "psf", "plf", "" or another
---@field round netsection.TableRounding step and direction
---@field metric? boolean|table twin columns of the printed values, {to=}; default false
---@field notes? string[] below the table; default none
---@field assumptions? string[] below the table; default from the joists
---@field letters? table<string,string> meanings of your own; default those of the modes
---@field dash? string what a dash means; default "not permitted"
---@field interpolate? boolean whether a reader may; default false
---
---what notes and assumptions are taken from; default the cells'
---@field joist? netsection.Joist
---
---of what is printed, "us" or "metric"; default those of the standard
---@field units? string
---@field monotone? netsection.TableOrder said where it does not hold; default none

---What a table's values ought to do.
---@class netsection.TableOrder
---@field down? string "rising" or "falling"; default not looked at
---@field across? string "rising" or "falling"; default not looked at

---A table. Every table says how it was rounded, what its letters and dashes mean and on
---which loads, code, wood and limits it rests.
---
---Errors: raises for wrong fields and for cells that are no values.
---
---```lua
---local t = ns.table {title = "Holes by the rules", unit = "in",
---  rows = {name = "size", values = {"2x8", "2x10"}},
---  columns = {name = "count", values = {1}}, round = {to = "1/4 in", way = "down"},
---  cell = function(size) return ns.lumber.size(size).d / 3 end}
---print(t:cell(1, 1).text)
---```
---@class netsection.table
---@overload fun(t: netsection.TableFields): netsection.Table
local table_module = {}
ns.table = table_module

---As `ns.table`.
---
---Errors: raises for wrong fields and for cells that are no values.
---
---```lua
---print(ns.table.new {title = "t", unit = "in", rows = {name = "a", values = {1}},
---  columns = {name = "b", values = {1}}, round = {to = 1, way = "down"},
---  cell = function() return 2.5 end}:cell(1, 1).value)  --> 2
---```
---@param t netsection.TableFields title, axes, cells
---@return netsection.Table table # worked
function table_module.new(t) end

---Whether a value is a table of `ns.table`.
---
---Errors: none.
---
---```lua
---print(ns.table.is(joist))  --> false
---```
---@param value any what is asked about
---@return boolean is # true of a table
function table_module.is(value) end

---The letter of a mode: b v d r s w, and c f n t u; g of the standard's gates
---("standard"),
---m of the largest size tried ("size"), r also of "rules".
---
---Errors: nil of a mode without a letter.
---
---```lua
---print(ns.table.letter "bending")  --> b
---```
---@param mode string of a check
---@return string|nil letter # its letter
function table_module.letter(mode) end

---@class netsection.Table
---@field title string over it
---@field standard string whose values
---@field rules string whose limits
---@field private show table
---@field private cells table
---@field private columns table
---@field private rows table
---@field private blocks table
---@field private dash string
---@field private given table
---@field private letters table
---@field private measure table
local table = {}

---A cell of a table.
---@class netsection.TableCell
---@field value? number as printed, in the table's unit
---@field exact? number before rounding, in the table's unit
---@field text string as printed
---@field letter? string beside it
---@field reason? string why there is none
---@field note? string of the cell
---@field private csv string

---A cell.
---
---Errors: nil where the table has no such cell.
---
---```lua
---print(thirds:cell(2, 1).text)
---```
---@param i integer row, from 1, no unit
---@param j integer column, from 1, no unit
---@param k? integer block, from 1, no unit
---@return netsection.TableCell|nil cell # value and text
function table:cell(i, j, k) end

---Where the values do not rise or fall as they ought to.
---
---Errors: raises for a wrong direction.
---
---```lua
---print(#thirds:not_monotone {down = "falling"})  --> 1
---```
---@param order? netsection.TableOrder default that of the table
---@return table[] places # text, row, column, block
function table:not_monotone(order) end

---The table as a document.
---
---Errors: none of its own.
---
---```lua
---print(thirds:document().title)  --> Holes of d/3
---```
---@return netsection.Document document # to be written in any form
function table:document() end

---Paper of a page.
---@class netsection.PaperOptions
---@field paper? string "letter" (default) or "a4"

---The table as text.
---
---Errors: raises for a wrong option.
---
---```lua
---print(thirds:text())
---```
---@param options? netsection.PaperOptions read by HTML, LaTeX and workbooks alone
---@return string text # plain
function table:text(options) end

---The table as Markdown.
---
---Errors: raises for a wrong option.
---
---```lua
---print(#thirds:markdown() > 0)  --> true
---```
---@param options? netsection.PaperOptions read by HTML, LaTeX and workbooks alone
---@return string text # Markdown
function table:markdown(options) end

---The table as a page of HTML.
---
---Errors: raises for a wrong option.
---
---```lua
---print(#thirds:html {paper = "letter"} > 0)  --> true
---```
---@param options? netsection.PaperOptions paper
---@return string text # HTML
function table:html(options) end

---The table in LaTeX.
---
---Errors: raises for a wrong option.
---
---```lua
---print(#thirds:latex {paper = "a4"} > 0)  --> true
---```
---@param options? netsection.PaperOptions paper
---@return string text # LaTeX
function table:latex(options) end

---The table as a workbook (ECMA-376), numbers stored, feet and inches shown by formulas.
---
---Errors: raises for a wrong option.
---
---```lua
---print(#thirds:xlsx() > 0)  --> true
---```
---@param options? netsection.PaperOptions paper
---@return string bytes # of a file
function table:xlsx(options) end

---The table as a workbook (ISO/IEC 26300), likewise.
---
---Errors: raises for a wrong option.
---
---```lua
---print(#thirds:ods() > 0)  --> true
---```
---@param options? netsection.PaperOptions paper
---@return string bytes # of a file
function table:ods(options) end

---How a table's CSV is laid out.
---@class netsection.TableCsvOptions
---@field layout? string "cells" (default), a line per cell, or "sheet", as printed

---The table as CSV.
---
---Errors: raises for a wrong option.
---
---```lua
---print(#thirds:csv {layout = "sheet"} > 0)  --> true
---```
---@param options? netsection.TableCsvOptions layout
---@return string text # CSV
function table:csv(options) end

---Which cells are worked again.
---@class netsection.SpotCheckFields
---@field n? integer how many, a count; default 20
---@field seed? integer no unit; default 1
---
---one cell; default of a sweep its review
---@field single? fun(row:any,column:any,block:any):any
---@field tolerance? number relative, no unit; default 1e-9

---Works cells out once more.
---
---Errors: raises for a wrong option.
---
---```lua
---print(thirds:spot_check {n = 2, seed = 1, single = function(size)
---  return ns.lumber.size(size).d / 3 end}.checked)  --> 2
---```
---@param o netsection.SpotCheckFields how many, by what
---@return table found # checked, differing, text
function table:spot_check(o) end

---What changed since an earlier issue.
---
---Errors: nil and a message where the text is not the CSV of a table.
---
---```lua
---print(#thirds:diff(thirds:csv()).changed)  --> 0
---```
---@param old string the CSV of the earlier issue
---@return table|nil found # changed, new, gone, text
---@return string|nil message # why it cannot be read
function table:diff(old) end
