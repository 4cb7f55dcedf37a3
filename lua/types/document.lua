---@meta
-- SPDX-License-Identifier: MIT
-- Document: a list of blocks, written as text, Markdown, HTML or LaTeX; user text is
-- inert.

---@class netsection
local ns = {}

---What a document is made with.
---@class netsection.DocumentFields
---@field title string at its head
---@field lang? string of the page; "en-GB" and "en-CA" spell its words; default "en"
---@field own? string[] texts that no spelling touches; default none
---@field running? string at the head of each printed page; default none
---@field foot? string at the foot of each printed page; default none
---@field job? string beside the running head; default none
---@field close? boolean|string true, "closer": set closely in print; default false
---@field symbols? boolean true: indices as in F_b below the line; default false

---@class netsection.document
local document_module = {}
ns.document = document_module

---An empty document.
---
---Errors: raises for wrong fields.
---
---```lua
---print(ns.document.new {title = "Visit"}.title)  --> Visit
---```
---@param t? netsection.DocumentFields title and margins
---@return netsection.Document document # no blocks
function document_module.new(t) end

---A document as text.
---
---Errors: raises where d is no document and for a wrong option.
---
---```lua
---print(#ns.document.text(ns.document.new {title = "Visit"}) > 0)  --> true
---```
---@param d netsection.Document what is written
---@param options? netsection.PaperOptions paper, not read here
---@return string text # plain
function document_module.text(d, options) end

---A document as Markdown.
---
---Errors: raises where d is no document and for a wrong option.
---
---```lua
---print(#ns.document.markdown(ns.document.new {title = "Visit"}) > 0)  --> true
---```
---@param d netsection.Document what is written
---@param options? netsection.PaperOptions paper, not read here
---@return string text # Markdown
function document_module.markdown(d, options) end

---A document as HTML.
---
---Errors: raises where d is no document and for a wrong option.
---
---```lua
---print(#ns.document.html(ns.document.new {title = "Visit"}) > 0)  --> true
---```
---@param d netsection.Document what is written
---@param options? netsection.PaperOptions paper
---@return string text # HTML
function document_module.html(d, options) end

---A document as LaTeX.
---
---Errors: raises where d is no document and for a wrong option.
---
---```lua
---print(#ns.document.latex(ns.document.new {title = "Visit"}) > 0)  --> true
---```
---@param d netsection.Document what is written
---@param options? netsection.PaperOptions paper
---@return string text # LaTeX
function document_module.latex(d, options) end

---Whether a value is a document.
---
---Errors: none.
---
---```lua
---print(ns.document.is(joist))  --> false
---```
---@param value any what is asked about
---@return boolean is # true of a document
function document_module.is(value) end

---Names of the forms that a document can be written in: text, markdown, html, latex and
---those that were added.
---
---Errors: none.
---
---```lua
---print(ns.document.forms()[1])  --> text
---```
---@return string[] names # of functions of `ns.document`
function document_module.forms() end

---What writes a document in one form.
---@class netsection.DocumentWriter
---@field write fun(d:netsection.Document,paper:string):string of `d.title` and `d.blocks`

---Adds an output form of your own, `ns.document.<name>(d, options)` from then on.
---
---Errors: raises for a name that is taken or no word, and where there is no `write`.
---
---```lua
---print(pcall(ns.document.form, "html", {write = print}))  -- false: it is there already
---```
---@param name string small letters, digits and _
---@param module netsection.DocumentWriter what writes
---@return function writes # what is then `ns.document.<name>`
function document_module.form(name, module) end

---@class netsection.document.escape
local escape = {}
ns.document.escape = escape

---One line of valid UTF-8 without control and direction characters.
---
---Errors: raises where it is no text.
---
---```lua
---local s = "a\nb"
---print(ns.document.escape.text(s))
---```
---@param s string what a user wrote
---@return string text # inert
function escape.text(s) end

---A text made inert for HTML.
---
---Errors: raises where it is no text.
---
---```lua
---print(ns.document.escape.html "a < b")  --> a &lt; b
---```
---@param s string what a user wrote
---@return string text # inert
function escape.html(s) end

---A text made inert for a line of Markdown or a cell of its tables.
---
---Errors: raises where it is no text.
---
---```lua
---print(ns.document.escape.markdown "a*b")
---```
---@param s string what a user wrote
---@return string text # inert
function escape.markdown(s) end

---A text made inert for LaTeX: ASCII alone.
---
---Errors: raises where it is no text.
---
---```lua
---print(ns.document.escape.latex "50 %")
---```
---@param s string what a user wrote
---@return string text # inert
function escape.latex(s) end

---One field of CSV (RFC 4180). A text that a spreadsheet would take for a formula gets an
---apostrophe in front; numbers stay numbers.
---
---Errors: raises where it is no text.
---
---```lua
---print(ns.document.escape.csv "=A1")  --> '=A1
---```
---@param v any a text or a number
---@return string field # as it stands in the file
function escape.csv(v) end

---@class netsection.Document
---@field title string at its head
---@field lang string of the page
---@field close boolean|string whether, how closely it is set in print
---@field blocks table[] in their order
---@field private figures table
---@field private symbols boolean
---@field private running string
---@field private foot string
---@field private job string
---@field private own string[]
---@field private worded boolean
local document = {}

---A heading.
---
---Errors: raises for what is no such block.
---
---```lua
---local d = ns.document.new {title = "Visit"}
---d:heading(1, "Seen", "seen")
---```
---@param level integer 1 to 4, no unit
---@param said string its text
---@param id? string a name for links to it
---@return netsection.Document document # the same one
function document:heading(level, said, id) end

---A paragraph: text, or pieces "text", {strong = "text"}, {mark = "text"},
---{link = "text", to = id}.
---
---Errors: raises for what is no such block.
---
---```lua
---local d = ns.document.new {title = "Visit"}
---d:paragraph {"Joist ", {mark = "J3"}, " is notched."}
---```
---@param said string|table text or pieces
---@return netsection.Document document # the same one
function document:paragraph(said) end

---How a list is written.
---@class netsection.ListOptions
---@field ordered? boolean numbered; default false

---A list of texts.
---
---Errors: raises for what is no such block.
---
---```lua
---local d = ns.document.new {title = "Visit"}
---d:list({"one", "two"}, {ordered = true})
---```
---@param items string[] texts
---@param options? netsection.ListOptions ordered
---@return netsection.Document document # the same one
function document:list(items, options) end

---A table of a document.
---@class netsection.DocumentTable
---@field caption? string default none
---@field columns table[] {head=, align=, group=}
---@field rows table[] cells: text, number, false, or {text=, strong=, note=, data=, to=}
---@field row_heads? integer columns that head a row, a count; default 0
---@field notes? string[] under it; default none
---@field to_fill? boolean rows that a hand can write in; default false

---A table.
---
---Errors: raises for what is no such block.
---
---```lua
---local d = ns.document.new {title = "Visit"}
---d:table {columns = {{head = "a"}}, rows = {{1}, {2}}}
---```
---@param t netsection.DocumentTable columns and rows
---@return netsection.Document document # the same one
function document:table(t) end

---A figure of a document.
---@class netsection.DocumentFigure
---@field name string of its file
---@field alt string what it shows
---@field caption? string default none
---@field svg? string a picture, without anything that runs or fetches; default none
---@field plot? string its gnuplot script; default none
---
---A photo: {form = "jpeg" or "png", text = its bytes}; default none
---@field photo? table

---A figure. HTML holds the picture in itself, the other forms name the file.
---
---Errors: raises for what is no such block.
---
---```lua
---local d = ns.document.new {title = "Visit"}
---d:figure {name = "moment", alt = "moment along the joist"}
---```
---@param t netsection.DocumentFigure name and picture
---@return netsection.Document document # the same one
function document:figure(t) end

---A calculation, line by line.
---
---Errors: raises for what is no such block.
---
---```lua
---local d = ns.document.new {title = "Visit"}
---d:calculation(review:find("cut", "bending").steps)
---```
---@param steps netsection.Step[] such as `check.steps`
---@return netsection.Document document # the same one
function document:calculation(steps) end

---Labels with a line behind each, to be filled in by hand.
---
---Errors: raises for what is no such block.
---
---```lua
---local d = ns.document.new {title = "Visit"}
---d:blanks {"Name", "License"}
---```
---@param items string[] labels
---@return netsection.Document document # the same one
function document:blanks(items) end

---A text set apart.
---
---Errors: raises for what is no such block.
---
---```lua
---local d = ns.document.new {title = "Visit"}
---d:note("Shore first.", "caution")
---```
---@param said string its text
---@param kind? string "note" (default) or "caution"
---@return netsection.Document document # the same one
function document:note(said, kind) end

---A new printed page.
---
---Errors: raises for what is no such block.
---
---```lua
---local d = ns.document.new {title = "Visit"}
---d:page_break "Joist J3"
---```
---@param head? string at the upper right of the pages that follow
---@return netsection.Document document # the same one
function document:page_break(head) end

---How blocks are kept together.
---@class netsection.GroupOptions
---@field columns? integer 1 or 2 in print, a count; default 1
---@field keep? boolean on one printed page; default false
---@field sides? boolean two groups in it stand beside each other in print; default false

---Blocks that belong together.
---
---Errors: raises for what is no such block.
---
---```lua
---local d = ns.document.new {title = "Visit"}
---d:group({keep = true}, function(inner) inner:paragraph "one" end)
---```
---@param options netsection.GroupOptions columns, keep
---@param build fun(d:netsection.Document) adds the blocks
---@return netsection.Document document # the same one
function document:group(options, build) end

---Adds the blocks of another document at the end.
---
---Errors: raises for what is no such block.
---
---```lua
---local d = ns.document.new {title = "Visit"}
---d:append(ns.document.new {title = "More"})
---```
---@param other netsection.Document its blocks
---@return netsection.Document document # the same one
function document:append(other) end
