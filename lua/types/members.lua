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
---@field K_e? number of effective length, no unit; default 1
---@field eccentricity? netsection.Length of the load along d; default 0
---@field load? netsection.Load lb, counts as live; without it dead and live
---@field dead? netsection.Load lb; default 0
---@field live? netsection.Load lb; default 0
---@field capacity? netsection.Load lb, the manufacturer's; default by the wood
---
---How several plies are held together (from memory): kind "nailed" or "bolted",
---diameter, length, rows, spacing, row_spacing, end_distance, edge_distance.
---@field built_up? table in; needed where plies is over 1, without default
---@field sole? netsection.Member of `ns.plate` under it; default none
---@field head? netsection.Member of `ns.plate` over it; default none
---
---The sides of a rated post's plate, pressed on `sole` and `head`.
---@field end_plate? netsection.Length[] two; default none
---@field temporary? boolean CD 1.25; default false
---@field footing? netsection.Member of `ns.footing` under it; default none
---@field note? string free text; default none

---A plate: wood laid flat, pressed across its grain.
---@class netsection.PlateFields: netsection.MemberWood
---@field mark? string its label; default "?"
---
---of what presses it to its end, 0 to 600 in; default 0
---@field from_end? netsection.Length
---@field post? netsection.Length[] two sides of what stands on it; default of the post
---@field load? netsection.Load lb; without it dead and live
---@field dead? netsection.Load lb; default 0
---@field live? netsection.Load lb; default 0
---@field note? string free text; default none

---A wall of studs with a plate, under a line of bearings.
---@class netsection.WallFields
---@field mark? string its label; default "?"
---@field plate? netsection.Member of `ns.plate`, without load; no default: needed
---
---of `ns.post`, of wood and without load; no default: needed
---@field stud? netsection.Member
---@field spacing? netsection.Length of the studs, 6 to 48 in; no default: needed
---@field above? netsection.Load plf from above, live in full; no default: needed
---@field note? string free text; default none

---A plain footing on soil.
---@class netsection.FootingFields
---@field mark? string its label; default "?"
---@field soil? netsection.Load psf, allowable pressure, 100 to 20000; no default: needed
---@field thickness? netsection.Length 2 to 48 in; no default: needed
---@field side? netsection.Length of a square, 4 to 120 in; default what is needed
---@field weight? number pcf, 0 to 200; default 150
---@field slab? boolean an existing slab in its place: not covered; default false
---@field post? netsection.Length side of what stands on it; default that of its post
---@field load? netsection.Load lb; without it dead and live
---@field dead? netsection.Load lb; default 0
---@field live? netsection.Load lb; default 0
---@field note? string free text; default none

---A beam under joists, on posts.
---@class netsection.BeamLineFields: netsection.MemberWood
---@field mark? string its label; default "?"
---@field at? netsection.Length along the joists; needed in a load path, default none
---@field from? string mark of the first joist on it; default the first that it reaches
---@field to? string mark of the last joist on it; default the last that it reaches
---
---marks or places, or {at=, post=, footing=}, along it
---@field posts (netsection.Length|table)[]
---@field post? netsection.Member of `ns.post`: each of them; default none
---@field footing? netsection.Member of `ns.footing`: under each; default none
---@field steel? table {M_allow=, V_allow=, I=, E=, width=} as given; without it wood
---@field continuous? boolean in one piece over its posts; default false
---@field bearing? netsection.Length on each post, 0.5 to 48 in; default that of the post
---@field fixed? boolean held against turning over at its bearings; default true
---@field repetitive? number Cr, no unit, 1 or 1.15 of three plies or more; default 1
---@field limits? netsection.Limits default {live = 360, total = 240}
---@field weight? netsection.Load plf, its own; default none
---@field loads? table[] {at=, dead=, live=, mark=} in, lb; default none
---@field temporary? boolean CD 1.25; default false
---@field note? string free text; default none

---A member below the joists, as described. Its class names its kind.
---@class netsection.Member
local post = {}

---A post: a wood column, or one of a rated load.
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

---A plate under or over a post, or under joists.
---
---Errors: raises for a field that there is not; values are read with its review.
---
---```lua
---local p = ns.plate {size = "2x6", species = "hem-fir", grade = "No.2",
---  post = {3.5, 3.5}, load = 2000}
---print(p:review().governing)  --> bearing
---```
---@param t netsection.PlateFields size, wood, what stands on it
---@return netsection.Member plate # for a post, a wall, a load path, shores
function ns.plate(t) end

---A wall under a line of bearings, for `below` of a load path.
---
---Errors: raises for a field that there is not; it is worked by `floor:load_path` alone,
---so
---its review raises.
---
---```lua
---local dry = {size = "2x4", species = "hem-fir", grade = "No.2"}
---print(ns.wall {plate = ns.plate(dry), stud = ns.post {size = "2x4", length = "8-0",
---  species = "hem-fir", grade = "No.2"}, spacing = 16, above = "400 plf"})
---```
---@param t netsection.WallFields plate, studs, load from above
---@return netsection.Member wall # for `below`
function ns.wall(t) end

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

---Which standard a member is checked by, and what it is printed in.
---@class netsection.MemberOptions
---@field standard? netsection.StandardOption default "us-nds-2018-asd"
---@field units? "us"|"metric" units in print; default "us"

---Checks of the member under its own loads; a beam's and a footing's the same way.
---
---Errors: raises with all that is wrong with its fields.
---
---```lua
---print(ns.post {mark = "P1", size = "4x4", length = "8-0", load = 1000,
---  species = "hem-fir", grade = "No.2"}:review().governing)  --> column
---```
---@param options? netsection.MemberOptions standard, units
---@return netsection.MemberState state # its checks
function post:review(options) end

---@class netsection.MemberState
---@field private show any
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
