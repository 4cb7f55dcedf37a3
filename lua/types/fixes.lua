---@meta
-- SPDX-License-Identifier: MIT
-- Fixes: repairs of a joist, and what a review says of them. Places are along the joist
-- from the center of the left bearing, heights from the joist's bottom.

---@class netsection
local ns = {}

---A repair's description; its values are read with the joist, by `joist:fix`.
---@class netsection.Fix
---@field kind string "sister", "strap" and the like
---@field [string] any its fields as given

---A group of fasteners.
---@class netsection.FastenerGroup
---@field at netsection.Length its middle
---@field n integer fasteners, a count

---Fasteners of a repair. Those of one steel plate stand within 5 in of each other in a
---column.
---@class netsection.FastenFields
---@field fastener? netsection.Fastener default a 1/4 x 3 in lag screw
---@field rated? netsection.Load lb, the manufacturer's value of one; default computed
---@field slip? number lb/in of one; default by formula
---@field end_distance? netsection.Length default as needed
---@field G? number specific gravity of the joist, no unit; default by species, else 0.42
---
---Nails: false: driven, 10D apart across the grain and 15D from ends; true: in lead
---holes,
---5D and 10D.
---@field prebored? boolean default false

---Places of fasteners along a member.
---@class netsection.RowFields: netsection.FastenFields
---@field edge_distance? netsection.Length default as needed
---@field groups? netsection.FastenerGroup[]|netsection.Length[] default by pitch
---@field pitch? netsection.Length between columns, 0.5 to 480 in; default 12 in
---@field per_row? integer fasteners in a column, a count, 1 to 20; default 2

---A member beside the joist.
---@class netsection.BesideFields: netsection.RowFields
---
---where it begins, -240 to 2880 in; default the left bearing
---@field from? netsection.Length
---@field to? netsection.Length where it ends, -240 to 2880 in; default the right bearing
---@field side? string "right" (default), "left" or "both"
---
---stands on the bearings; {left=, right=}; default by its ends
---@field bearing? boolean|table
---
---`"none"`, `"unloaded"` (dead load lifted off while it is fastened), `ns.prop{...}`.
---@field lift? string|table default "none"; "unloaded" of a joist that is cut through
---@field gap_load? string "gap" or "between groups": load over a gap; default "gap"
---@field rise? netsection.Length its bottom above the joist's, -24 to 24 in; default 0
---@field note? string free text; default none

---Wood of a new member.
---@class netsection.NewWoodFields
---@field size? string nominal; default that of the joist
---@field b? netsection.Length in place of size; default by size
---@field d? netsection.Length in place of size; default by size
---@field plies? integer a count, 1 to 8; default 1
---@field species? string default that of the joist
---@field grade? string default that of the joist
---@field edition? string default that of the joist
---@field material? netsection.Material default that of the joist

---A joist beside the joist. On the seat of a notched end it gets the same notch
---or is packed up; where that notch is over d/4 it is refused.
---@class netsection.SisterFields: netsection.BesideFields, netsection.NewWoodFields
---
---`"stiffness"`, `"slip"` of the fasteners, `"new"` (the new member takes all) or
---`"worst"`.
---@field share? string default "stiffness" on both bearings, else "slip"
---@field hanger? boolean|table hangs at its ends, {capacity=} lb; default false

---Plates on both faces (`side` is "both" unless given), of steel or a panel. `from` and
---`to` are needed, since plates do not bear.
---@class netsection.SidePlatesFields: netsection.BesideFields
---@field thickness? netsection.Length of one; without it gauge
---@field gauge? integer of sheet, no unit; without it thickness
---@field depth? netsection.Length default that of the joist
---@field steel? string grade, such as "A36"; without it material
---@field material? netsection.Material of a panel, psi; without it steel

---A strap under a notch in tension.
---@class netsection.StrapFields: netsection.FastenFields
---@field cut? integer number of the cut, no unit; default the only one
---@field steel? string grade; default "A653 33"
---@field gauge? integer of sheet, no unit; without it thickness
---@field thickness? netsection.Length default 1/8 in
---@field width? netsection.Length default that of the joist
---@field n? integer fasteners on each side, a multiple of rows, a count; default 8
---@field rows? integer a count, 1 to 4; default 1
---@field pitch? netsection.Length between fasteners; default as needed
---@field lift? string|table as of a sister; default "none"
---@field capacity? netsection.Load lb, the manufacturer's; default by calculation
---@field note? string free text; default none

---Joists headed off between trimmers.
---@class netsection.HeaderFields
---@field at netsection.Length|netsection.Length[] one or two places
---@field size? string nominal; default that of the joist
---@field plies? integer of the header, a count, 1 to 4; default 2
---@field trimmer_plies? integer a count, 1 to 4; default 2
---
---"half" of the floor between the headers to each (default), "none"
---@field between? string
---@field hanger? netsection.Load lb, the manufacturer's; without it not checked
---@field tail_hanger? netsection.Load lb, the manufacturer's; without it not checked
---@field note? string free text; default none

---A new bearing at an end.
---@class netsection.HangerFields
---@field support? string "left" (default) or "right"
---@field capacity? netsection.Load lb, the manufacturer's; without it not checked
---@field seat? netsection.Length its length, 0.5 to 12 in; default 1.5 in
---@field offset? netsection.Length from the bearing's center; default just past the cut
---@field note? string free text; default none

---A post or wall under the span.
---@class netsection.MidspanSupportFields
---@field at? netsection.Length default the middle
---@field bearing? netsection.Length default 3.5 in
---@field capacity? netsection.Load lb, of the post; without it not checked
---
---lb, anchor where it lifts; without it not adequate there
---@field hold_down? netsection.Load
---@field note? string free text; default none

---A joist of its own beside the joist.
---@class netsection.AddedJoistFields
---@field side? string "right" (default), "left" or "both"
---@field at? netsection.Length off this joist; default the middle of the bay
---@field size? string nominal; default that of the joist
---@field b? netsection.Length in place of size; default by size
---@field d? netsection.Length in place of size; default by size
---@field plies? integer a count, 1 to 8; default 1
---@field species? string default that of the joist
---@field grade? string default that of the joist
---@field material? netsection.Material default that of the joist
---@field write_off? boolean the existing joist neglected; default false
---@field hanger? boolean|table as of a sister; default false
---@field note? string free text; default none

---Screws that hold an end notch together.
---@class netsection.NotchScrewsFields
---@field support? string "left" (default) or "right"
---@field n? integer a count, 1 to 8; default 2
---@field fastener? netsection.Fastener default a 1/4 x 6 in lag screw
---@field full_thread? boolean threaded over its whole length; default true
---
---on the lesser side of the crack; default by full_thread
---@field thread? netsection.Length
---@field rated? netsection.Load lb, the manufacturer's; default by formula
---@field G? number specific gravity, no unit; default by species, else 0.42
---@field note? string free text; default none

---A sister for a lost end.
---@class netsection.EndSisterFields: netsection.NewWoodFields
---@field support? string "left" or "right"; default the lost one
---@field to netsection.Length its end, from the lost bearing
---@field side? string "right" (default) or "left"
---
---two, from the lost bearing, the inner one first
---@field groups netsection.FastenerGroup[]
---@field hanger table {capacity=, seat=}, lb and in; without a capacity it is not checked
---@field fastener? netsection.Fastener default a 1/4 x 3 in lag screw
---@field rated? netsection.Load lb, the manufacturer's value of one; default computed
---@field slip? number lb/in of one; default by formula
---@field edge_distance? netsection.Length default as needed
---@field prebored? boolean as of a sister; default false
---@field G? number specific gravity of the joist, no unit; default by species, else 0.42
---@field note? string free text; default none

---A prop under the joist while the repair is fastened.
---@class netsection.PropFields
---@field at netsection.Length its place
---@field force netsection.Load lb
---@field from_right? boolean the place counts from the right bearing; default false

---A joist beside the joist, over the whole length or part of it.
---
---Errors: raises for a field that there is not; values are read by `joist:fix`.
---
---```lua
---local s = ns.sister {from = "2-8", to = "10-0", fastener = bolt,
---  groups = {{at = "3-2", n = 8}, {at = "5-6", n = 8}, {at = "6-11", n = 8},
---    {at = "9-6", n = 8}}}
---print(severed:fix(s):review().fixed.kind)  --> sister
---```
---@param t netsection.SisterFields size, ends, fasteners
---@return netsection.Fix fix # for `joist:fix`
function ns.sister(t) end

---Plates of steel or panels on both faces. One bolt through both is double shear;
---screws, lags and nails of both faces that meet stand in alternating columns.
---
---Errors: raises for a field that there is not; values are read by `joist:fix`.
---
---```lua
---local p = ns.side_plates {steel = "A36", thickness = "1/4 in", depth = "7 in",
---  from = "4-0", to = "8-0", fastener = bolt}
---print(severed:fix(p):review().fixed.kind)  --> side_plates
---```
---@param t netsection.SidePlatesFields plate, ends, fasteners
---@return netsection.Fix fix # for `joist:fix`
function ns.side_plates(t) end

---A steel strap under a notch in tension.
---
---Errors: raises for a field that there is not; values are read by `joist:fix`. Over a
---gap
---it is refused, since it replaces tension alone.
---
---```lua
---print(severed:fix(ns.strap {}):review().fixed.status)  --> not permitted
---```
---@param t netsection.StrapFields strap and fasteners
---@return netsection.Fix fix # for `joist:fix`
function ns.strap(t) end

---The joist headed off between its neighbors, which become trimmers.
---
---Errors: raises for a field that there is not; values are read by `joist:fix`.
---
---```lua
---local h = ns.header {at = {"5-6", "6-6"}}
---print(floor:fix("J2", h):review().joists.J2.fixed.kind)  --> header
---```
---@param t netsection.HeaderFields places and sizes
---@return netsection.Fix fix # for `joist:fix`, `floor:fix`
function ns.header(t) end

---A hanger as a new bearing at an end.
---
---Errors: raises for a field that there is not; values are read by `joist:fix`.
---
---```lua
---print(joist:fix(ns.hanger {support = "left", capacity = 900}):review().fixed.kind)
---```
---@param t netsection.HangerFields end and capacity
---@return netsection.Fix fix # for `joist:fix`
function ns.hanger(t) end

---A support under the span.
---
---Errors: raises for a field that there is not; values are read by `joist:fix`.
---
---```lua
---print(joist:fix(ns.midspan_support {at = "7-0"}):review().fixed.kind)
---```
---@param t netsection.MidspanSupportFields place and capacity
---@return netsection.Fix fix # for `joist:fix`
function ns.midspan_support(t) end

---A joist of its own in the bay.
---
---Errors: raises for a field that there is not; values are read by `joist:fix`.
---
---```lua
---print(floor:fix("J2", ns.added_joist {write_off = true}):review().joists.J2.fixed.kind)
---```
---@param t netsection.AddedJoistFields side, size
---@return netsection.Fix fix # for `joist:fix`, `floor:fix`
function ns.added_joist(t) end

---Screws that hold an end notch together.
---
---Errors: raises for a field that there is not; values are read by `joist:fix`.
---
---```lua
---local cut = ns.end_notch {support = "left", face = "bottom", depth = 2}
---local j = joist:with {cuts = {cut}}
---print(j:fix(ns.notch_screws {support = "left"}):review().fixed.kind)  --> notch_screws
---```
---@param t netsection.NotchScrewsFields end and screws
---@return netsection.Fix fix # for `joist:fix`
function ns.notch_screws(t) end

---A sister on a hanger for an end whose bearing is lost.
---
---Errors: raises for a field that there is not; values are read by `joist:fix`.
---
---```lua
---local cut = ns.lost_bearing {support = "left", to = 8, cause = "rot"}
---local j = joist:with {cuts = {cut}}
---local s = ns.end_sister {support = "left", to = "7-0", fastener = bolt,
---  groups = {{at = "3-0", n = 4}, {at = "6-6", n = 4}}, hanger = {capacity = 900}}
---print(j:fix(s):review().fixed.kind)  --> end_sister
---```
---@param t netsection.EndSisterFields end, groups, hanger
---@return netsection.Fix fix # for `joist:fix`
function ns.end_sister(t) end

---A kind of repair.
---@class netsection.RepairKind
---@field fields string[] names that its constructor takes
---@field read fun(t:table,case:table,found:table,part:table):table its numbers
---@field assess fun(case:table,f:table):table its checks; or nil and why it fails
---@field title? fun(f:table,case:table):string over it; default the kind's name
---@field factored? boolean holds under load and resistance factors; default false

---Adds a kind of repair of your own. `case` has `joist`, `model`, `review` and `options`;
---`found:add(part, field, message)` says what is wrong with a description.
---
---Errors: raises for a name that is taken and for wrong fields.
---
---```lua
---print(pcall(ns.repair_kind, "sister", {}))  -- false: it is a kind already
---```
---@param name string small letters and _
---@param module netsection.RepairKind fields, read, assess
---@return function constructor # of its repairs
function ns.repair_kind(name, module) end

---A prop for `lift`: under the joist while the repair is fastened.
---
---Errors: raises for a field that there is not; values are read by `joist:fix`.
---
---```lua
---print(ns.sister {lift = ns.prop {at = "6-9", force = "300 lb"}}.lift.kind)  --> prop
---```
---@param t netsection.PropFields place and force
---@return netsection.Fix prop # for `lift`
function ns.prop(t) end

---What the smallest repair is looked for among.
---@class netsection.SizeSisterFields: netsection.SisterFields, netsection.CodeOptions
---@field sizes? string[] tried in this order; default the joist's size

---What the smallest strap is looked for among.
---@class netsection.SizeStrapFields: netsection.StrapFields, netsection.CodeOptions
---@field most? integer fasteners on each side, a count; default 24

---The smallest sister that passes: of the first size that passes the shortest, by half a
---foot, else one on both bearings with the fewest fasteners (pitches 16, 12, 8, 6 in, 1
---to
---10 a column).
---
---Errors: nil and a reason where none passes; raises for wrong fields.
---
---```lua
---local s = ns.size_sister(severed, {fastener = bolt})
---print(s and s.kind)  --> sister
---```
---@param joist netsection.Joist what is repaired
---@param t netsection.SizeSisterFields what is fixed beforehand
---@return netsection.Fix|nil fix # the repair
---@return netsection.Review|string|nil review # with it; of nil, the reason
function ns.size_sister(joist, t) end

---The smallest strap that passes.
---
---Errors: nil and a reason where none passes; raises for wrong fields.
---
---```lua
---local cut = ns.notch {face = "bottom", from = 60, to = 63, depth = 2}
---local j = joist:with {cuts = {cut}}
---print((ns.size_strap(j, {cut = 1})))
---```
---@param joist netsection.Joist what is repaired
---@param t netsection.SizeStrapFields what is fixed beforehand
---@return netsection.Fix|nil fix # the repair
---@return netsection.Review|string|nil review # with it; of nil, the reason
function ns.size_strap(joist, t) end

---Forces of a group of fasteners, from the joist to the new member.
---@class netsection.Station
---@field x number in
---@field n number fasteners, a count
---@field name string of the group or row
---@field most number lb
---@field least number lb
---@field full number lb, live load everywhere

---A piece to be bought and cut.
---@class netsection.Piece
---@field name string what it is
---@field kind string "wood", "steel", "hanger" and the like
---@field member string whose checks are its own
---@field count integer how many, a count
---@field size string in the trade's words
---@field label? string size and length
---@field length? number in
---@field material? string species and grade, or steel
---@field stock? string what is bought
---@field private of any
---@field side? string of the joist
---@field x1? number in, its box along the joist
---@field x2? number in
---@field h1? number in, above the joist's bottom
---@field h2? number in
---@field y1? number in, across, right positive
---@field y2? number in

---Fasteners to be bought.
---@class netsection.PieceFastener
---@field fastener string in the trade's words
---@field count integer how many, a count
---@field where? string between what
---@field D? number in
---@field how? string they are driven
---@field hole? number[] in, to be drilled: least, most
---@field private names table

---A fastener's place.
---@class netsection.FastenerPlace
---@field x number in
---@field h number in, above the joist's bottom
---@field y? number in, across, of a strap
---@field D number in
---@field piece? integer number of its piece, no unit

---The joist with its repair. `refused` says why a repair does not serve; then there are
---no
---checks.
---@class netsection.Fixed: netsection.State
---@field kind string of the repair; "neighbor" beside one that is headed or written off
---@field title string in words
---@field action? string of such a neighbor
---@field of? string marks whose repairs load it
---@field refused? string why it does not serve
---@field failing? string[] what bars it whatever its ratio
---@field stations netsection.Station[] forces of fasteners
---@field forces table[] other forces: name, value, unit, at
---@field pieces netsection.Piece[] what is bought and cut
---@field fasteners netsection.PieceFastener[] what is bought
---@field layout netsection.FastenerPlace[] each fastener
---@field neighbours table[] joists that take load from it: their states
---@field lifting? table[] by how it is lifted: lift, host, new, ratio
---@field own_reactions? netsection.ReactionRange[] of the new member
---@field sequence string[] order of work
---@field cautions string[] what to mind
---@field notes string[] how it was worked
---@field switches? string[] options that are not at their default
---@field seats? table[] how the new member stands
---@field share? number of the load on the new member, no unit; 0 where by slip
---@field x1? number in, where the new member begins
---@field x2? number in, where it ends
---@field T? number lb, tension of a strap
---@field arm? number in, of a strap's tension
---@field arms? table[] other arms, for comparison
---@field along? table[] tension of a strap along it: x, T
---@field access? string[] what has to be reached
---@field private model table
---@field private diagram any
---@field private path table
---@field private rules table
---@field private turn_k number
