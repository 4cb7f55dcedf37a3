---@meta
-- SPDX-License-Identifier: MIT
-- Beams, posts, footings: what stands below the joists.

---@class netsection
local ns = {}

---Wood of a member.
---@class netsection.MemberWood
---@field size? string nominal, such as "4x4"; without it b and d
---@field b? netsection.Length without it size
---@field d? netsection.Length without it size
---@field plies? integer a count; default 1
---@field species? string as in the tables, any case; without it material
---@field grade? string as in the tables, any case; without it material
---@field edition? string default "us-nds-2018"
---@field material? netsection.Material without it species and grade
---@field moisture? string "dry" (default) or "wet"
---@field temperature? number F, in service; default 70
---@field incised? boolean default false

---A post.
---@class netsection.PostFields: netsection.MemberWood
---@field mark? string its label; default "?"
---@field length netsection.Length clear height
---
---{d=, b=} lengths between braces along each side; default its length
---@field braced? table
---@field K_e? number of effective length, no unit (NDS Appendix G); default 1
---@field eccentricity? netsection.Length of the load along d; default 0
---@field load? netsection.Load lb, counts as live; without it dead and live
---@field dead? netsection.Load lb; default 0
---@field live? netsection.Load lb; default 0
---@field capacity? netsection.Load lb, the manufacturer's; default by NDS 3.7
---@field temporary? boolean CD 1.25; default false
---@field footing? netsection.Member of `ns.footing` under it; default none
---@field note? string free text; default none

---A plain footing on soil.
---@class netsection.FootingFields
---@field mark? string its label; default "?"
---@field soil? netsection.Load psf, allowable pressure; without it not assessed
---@field thickness? netsection.Length without it not assessed
---@field side? netsection.Length of a square; default what is needed, to a whole inch
---@field weight? number pcf; default 150
---@field slab? boolean stands on a slab; default false
---@field post? netsection.Length side of what stands on it; default that of its post
---@field load? netsection.Load lb; without it dead and live
---@field dead? netsection.Load lb; default 0
---@field live? netsection.Load lb; default 0
---@field note? string free text; default none

---A beam under joists, on posts.
---@class netsection.BeamLineFields: netsection.MemberWood
---@field mark? string its label; default "?"
---@field at? netsection.Length along the joists; needed in a load path, default none
---@field from? netsection.Length across, from the first joist; default the first post
---@field to? netsection.Length across, from the first joist; default the last post
---@field posts netsection.Length[] places of the posts along it
---@field post? netsection.Member of `ns.post`: each of them; default none
---@field footing? netsection.Member of `ns.footing`: under each; default none
---@field steel? table {M_allow=, V_allow=, I=, E=, width=} as given; without it wood
---@field continuous? boolean over its posts; default true
---@field bearing? netsection.Length on each post; default that of the post
---@field fixed? boolean ends held against turning over; default false
---@field repetitive? number Cr, no unit; default 1
---@field limits? netsection.Limits default {live = 360, total = 240}
---@field weight? netsection.Load plf, its own; default none
---@field loads? table[] {at=, dead=, live=, mark=} in, lb; default none
---@field temporary? boolean CD 1.25; default false
---@field note? string free text; default none

---A member below the joists, as described. Its class names its kind.
---@class netsection.Member
local post = {}

---A post (NDS 3.7).
---
---Errors: raises for a field that there is not; values are read with its review.
---
---```lua
---print(ns.post {mark = "P1", size = "4x4", length = "8-0", load = 1000,
---  species = "hem-fir", grade = "No.2"}:review().status)  --> adequate
---```
---@param t netsection.PostFields size, wood, load
---@return netsection.Member post # for a beam, or by itself
function ns.post(t) end

---A footing: soil pressure, and bending of plain concrete where thickness is given.
---
---Errors: raises for a field that there is not; values are read with its review.
---
---```lua
---print(ns.footing {mark = "F1", soil = 1500, thickness = 8, load = 1000, post = 3.5})
---```
---@param t netsection.FootingFields soil, size, load
---@return netsection.Member footing # under a post, or by itself
function ns.footing(t) end

---A beam on posts, under the joists of a floor or shores.
---
---Errors: raises for a field that there is not; values are read with its review.
---
---```lua
---local b = ns.beam_line {mark = "B1", size = "4x8", species = "hem-fir", grade = "No.2",
---  posts = {0, 72}, loads = {{at = 36, dead = 200, live = 600}}}
---print(b:review().governing)
---```
---@param t netsection.BeamLineFields size, wood, posts, loads
---@return netsection.Member beam # by itself, or for a load path or shores
function ns.beam_line(t) end

---Which standard a member is checked by.
---@class netsection.MemberOptions
---@field standard? netsection.StandardOption default "us-nds-2018-asd"

---Checks of the member under its own loads; a beam's and a footing's the same way.
---
---Errors: raises with all that is wrong with its fields.
---
---```lua
---print(ns.post {mark = "P1", size = "4x4", length = "8-0", load = 1000,
---  species = "hem-fir", grade = "No.2"}:review().governing)  --> column
---```
---@param options? netsection.MemberOptions the standard
---@return netsection.MemberState state # its checks
function post:review(options) end

---@class netsection.MemberState
---
---Besides those of a joist: `"not covered"`, `"not assessed"`.
---@field status string what the checks come to
---@field mark string its label
---@field kind string "post", "footing" or "beam_line"
---@field title string size, height, load
---@field ratio? number the largest that decides, no unit
---@field governing? string mode that decides
---@field governing_check? netsection.Check the check that decides
---@field checks netsection.Check[] all of them
---@field pieces netsection.Piece[] what it is built of
---@field notes string[] how it was worked
---@field not_checked string[] what was left out
---@field assumptions string[] what was assumed
---@field cautions string[] what to mind
---@field load? table D and L, lb
---@field forces table other forces
---@field side? number in
---@field side_needed? number in, of a footing
---@field bare_side? number in, of a footing without its own weight
---@field standard? string its name
---@field under? netsection.MemberState what it stands on
---
---`mark`, `y` in, `D`, `L`, `most`, `least` lb, `pieces`, and the `state` of its post.
---@field posts? table[] of a beam, from left to right
---@field loads? table[] of a beam: y in, D, L lb
---@field spans? table[] of a beam
---@field deflection? table of a beam: live, total, length, in
local state = {}

---How a member's sheet is written.
---@class netsection.StateDocumentOptions
---@field steps? boolean|string its calculation; default true

---How a member's page is written.
---@class netsection.StateHtmlOptions: netsection.StateDocumentOptions
---@field paper? string "letter" (default) or "a4"

---The sheet as a document.
---
---Errors: raises for a wrong option.
---
---```lua
---local s = ns.post {mark = "P1", size = "4x4", length = "8-0", load = 1000,
---  species = "hem-fir", grade = "No.2"}:review()
---print(#s:document().blocks > 0)  --> true
---```
---@param options? netsection.StateDocumentOptions steps
---@return netsection.Document document # to be written in any form
function state:document(options) end

---The sheet as text.
---
---Errors: raises for a wrong option.
---
---```lua
---print(ns.footing {mark = "F1", soil = 1500, thickness = 8, load = 1000,
---  post = 3.5}:review():text())
---```
---@param options? netsection.StateDocumentOptions steps
---@return string text # plain
function state:text(options) end

---The sheet as Markdown.
---
---Errors: raises for a wrong option.
---
---```lua
---print(#ns.footing {mark = "F1", soil = 1500, thickness = 8, load = 1000,
---  post = 3.5}:review():markdown() > 0)  --> true
---```
---@param options? netsection.StateDocumentOptions steps
---@return string text # Markdown
function state:markdown(options) end

---The sheet as a page of HTML.
---
---Errors: raises for a wrong option.
---
---```lua
---print(#ns.footing {mark = "F1", soil = 1500, thickness = 8, load = 1000,
---  post = 3.5}:review():html {paper = "a4"} > 0)  --> true
---```
---@param options? netsection.StateHtmlOptions steps, paper
---@return string text # HTML
function state:html(options) end

---Every number of the member, in full.
---
---Errors: none of its own.
---
---```lua
---print(#ns.footing {mark = "F1", soil = 1500, thickness = 8, load = 1000,
---  post = 3.5}:review():json() > 0)  --> true
---```
---@return string text # JSON
function state:json() end
