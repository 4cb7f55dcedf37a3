---@meta
-- SPDX-License-Identifier: MIT
-- Load path and shores: from the joists into the ground; what holds them meanwhile.

---What stands below a floor.
---@class netsection.LoadPathFields: netsection.CodeOptions
---@field beams? netsection.Member[] of `ns.beam_line`, with `at`; default none
---
---What carries a line of bearings, by `left`, `right` or the number of the support: of
---`ns.plate`, `ns.wall` or `ns.beam_line`.
---@field below? table<any,netsection.Member> default none

---Dead and live load.
---@class netsection.DL
---@field D number lb
---@field L number lb

---@class netsection.LoadPath
---@field private show any
---@field name string of the floor
---@field joists table[] `stands` are kind, at (in), D, L, added (lb), b, l_b (in)
---@field lines table[] sums by line of bearings: name, D, L, added (lb), points
---@field headers table[] of joists that are headed off
---@field beams table[] each with its `state` and its `posts`
---@field over table[] joists over a beam
---@field below table[] what carries lines of bearings, with their states
---@field ends netsection.DL lb, at the ends of the joists
---@field ground netsection.DL lb, into the ground
---@field not_checked string[] what was left out
---@field notes string[] how it was worked
---@field refused? table what could not be traced, with the reason
---@field review netsection.FloorReview of the floor
---@field floor netsection.DL lb, all loads of the floor
---@field standard string its name
---@field private beam_weight number
---@field private packs table
---@field private places table
---@field private reviews table
local path = {}

---How a load path is written.
---@class netsection.PathDocumentOptions
---@field steps? boolean|string the calculation; default true
---@field figure? string SVG of its diagram; default none
---@field job? string at the head of each printed page; default the floor's name
---@field date? string of the run; default none

---How a load path's page is written.
---@class netsection.PathHtmlOptions
---@field steps? boolean|string the calculation; default true
---@field paper? string "letter" (default) or "a4"
---@field render? boolean gnuplot draws the diagram; default false
---@field job? string at the head of each printed page; default the floor's name
---@field date? string of the run; default none

---The load path as a document.
---
---Errors: raises for a wrong option.
---
---```lua
---print(#path:document().blocks > 0)  --> true
---```
---@param options? netsection.PathDocumentOptions steps, figure
---@return netsection.Document document # to be written in any form
function path:document(options) end

---The load path as text.
---
---Errors: raises for a wrong option.
---
---```lua
---print(#path:text() > 0)  --> true
---```
---@param options? netsection.PathDocumentOptions steps
---@return string text # plain
function path:text(options) end

---The load path as Markdown.
---
---Errors: raises for a wrong option.
---
---```lua
---print(#path:markdown() > 0)  --> true
---```
---@param options? netsection.PathDocumentOptions steps
---@return string text # Markdown
function path:markdown(options) end

---The load path as a page of HTML.
---
---Errors: raises for a wrong option.
---
---```lua
---print(#path:html {paper = "letter"} > 0)  --> true
---```
---@param options? netsection.PathHtmlOptions steps, paper, render
---@return string text # HTML
function path:html(options) end

---Every number of the load path, in full.
---
---Errors: none of its own.
---
---```lua
---print(#path:json() > 0)  --> true
---```
---@return string text # JSON
function path:json() end

---A gnuplot script of its diagram.
---
---Errors: nil and a message for a wrong option.
---
---```lua
---print(path:plot() ~= nil)  --> true
---```
---@param options? netsection.PlotOptions output, title
---@return string|nil script # for gnuplot
---@return string|nil message # why there is none
function path:plot(options) end

---Where shores stand, and under what.
---@class netsection.ShoresFields: netsection.CodeOptions
---@field mark string of the joist to be repaired
---
---two places along the joist; default 12 in beyond the cuts
---@field at? netsection.Length[]
---@field construction_live? netsection.Load psf during the work; no default: dead alone
---@field beside? integer joists on each side, a count; default 1
---@field from? string first mark that is shored; default by beside
---@field to? string last mark that is shored; default by beside
---@field beam netsection.Member of `ns.beam_line`, without loads
---@field capacity? netsection.Load lb, of one head; default none
---@field sole? netsection.Member of `ns.plate` under each post; default none
---@field head? netsection.Member of `ns.plate` over each post; default none
---@field end_plate? netsection.Length[] two sides of a rated post's plate; default none

---@class netsection.Shores
---@field private show any
---@field lines table[] at (in), D, L (lb), plf, loads, `state` of its beam
---@field jacking? table lift in stages: in, lb
---@field refused? string why there are none
---@field notes string[] how it was worked
---@field not_checked string[] what was left out
---@field mark string of the joist to be repaired
---@field name string of the floor
---@field at number[] in, the places
---@field live? number psf, during the work
---@field standard table under which they are checked
---@field private f any
---@field private first any
---@field private joists any
---@field private last any
---@field private order any
---@field private own any
---@field private places any
---@field private rated any
---@field private reviews any
---@field private y0 any
local shores = {}

---The shores as a document.
---
---Errors: raises for a wrong option.
---
---```lua
---print(#shores:document().blocks > 0)  --> true
---```
---@param options? netsection.StateDocumentOptions steps
---@return netsection.Document document # to be written in any form
function shores:document(options) end

---The shores as text.
---
---Errors: raises for a wrong option.
---
---```lua
---print(#shores:text() > 0)  --> true
---```
---@param options? netsection.StateDocumentOptions steps
---@return string text # plain
function shores:text(options) end

---The shores as Markdown.
---
---Errors: raises for a wrong option.
---
---```lua
---print(#shores:markdown() > 0)  --> true
---```
---@param options? netsection.StateDocumentOptions steps
---@return string text # Markdown
function shores:markdown(options) end

---The shores as a page of HTML.
---
---Errors: raises for a wrong option.
---
---```lua
---print(#shores:html() > 0)  --> true
---```
---@param options? netsection.StateHtmlOptions steps, paper
---@return string text # HTML
function shores:html(options) end

---Every number of the shores, in full.
---
---Errors: none of its own.
---
---```lua
---print(#shores:json() > 0)  --> true
---```
---@return string text # JSON
function shores:json() end
