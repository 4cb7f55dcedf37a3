---@meta
-- SPDX-License-Identifier: MIT
-- Cuts and loads: what takes wood away, and what stands on a joist. Places are along the
-- joist from the center of the left bearing, or of the right one with `from_right`.

---@class netsection
local ns = {}

---A cut or a load of a joist's description. Its values are read with the joist.
---@class netsection.Part
---@field kind string "hole", "point" and the like
---@field [string] any its fields as given

---A thing with a place along the joist.
---@class netsection.PartFields
---@field from_right? boolean places count from the right bearing; default false
---@field note? string free text; that of a cut is printed; default none

---From where to where along the joist.
---@class netsection.AlongFields: netsection.PartFields
---@field from? netsection.Length where it begins, -240 to 2880 in; no default: needed
---@field to? netsection.Length where it ends, -240 to 2880 in; no default: needed

---A round hole.
---@class netsection.HoleFields: netsection.PartFields
---@field at netsection.Length its center, -240 to 2880 in
---@field diameter netsection.Length 0 to 24 in
---@field below? netsection.Length wood left under it, 0 to 24 in; without it centered
---@field above? netsection.Length wood left over it, 0 to 24 in; without it centered
---@field angle? number to the grain, degrees, 6 to 90; default 90
---@field ply? integer the ply it is in, its number, no unit; default all plies

---A rectangular opening.
---@class netsection.SlotFields: netsection.AlongFields
---@field height netsection.Length 0 to 24 in
---@field below? netsection.Length wood left under it, 0 to 24 in; without it centered
---@field above? netsection.Length wood left over it, 0 to 24 in; without it centered
---@field ply? integer the ply it is in, its number, no unit; default all plies

---What notches share.
---@class netsection.NotchShape
---@field depth netsection.Length 0 to 24 in
---
---kerf past the corner, counts as depth, 0 to 12 in; default 0
---@field overcut? netsection.Length
---
---From 10 on, d_n counts without the square.
---run of the sloped end per unit of depth, no unit, 0 to 100; default 0
---@field taper? number
---@field corner_radius? netsection.Length read and without effect; default 0
---
---split that runs on from it, 0 to 240 in; default 0
---@field split_length? netsection.Length
---@field accept_outside_standard? string the reason why it is accepted; default none
---@field ply? integer the ply it is in, its number, no unit; default all plies

---A notch away from the bearings.
---@class netsection.NotchFields: netsection.AlongFields, netsection.NotchShape
---@field face string "top" or "bottom"

---A notch at an end.
---@class netsection.EndNotchFields: netsection.NotchShape
---@field support string "left" or "right"
---@field face string "top" or "bottom"
---
---from the joist's end, 0 to 480 in; default the bearing's
---@field length? netsection.Length
---@field seat? string "notch": it bears in the notch (default); "beyond": past it
---@field note? string free text, printed; default none

---A cut through. A saw kerf has `at`, or `from = to`.
---@class netsection.SeverFields: netsection.AlongFields
---@field at? netsection.Length of a kerf; without it from and to
---@field ply? integer the ply it is in, its number, no unit; default all plies

---A bearing whose wood is gone.
---@class netsection.LostBearingFields
---@field support string "left" or "right"
---@field to netsection.Length gone to there, from the bearing's center
---@field cause? string "rot", "insects", "char" or "other"; default "other"
---
---counted lost further; default 12 in for rot, insects; else 0
---@field extend? netsection.Length
---@field note? string free text, printed; default none

---Section lost by face over a length: rot, char, insects. One face at least is needed.
---@class netsection.LossFields: netsection.AlongFields
---@field top? netsection.Length from the top, 0 to 24 in; default 0
---@field bottom? netsection.Length from the bottom, 0 to 24 in; default 0
---@field sides? netsection.Length from each side (of a ply: its), 0 to 12 in; default 0
---@field cause? string "rot", "insects", "char" or "other"; default "other"
---
---further wood written off there, 0 to 4 in; default 0
---@field allowance? netsection.Length
---@field seat? boolean char over a bearing counts there; default false
---@field packed? boolean cut to sound wood and packed over the bearing; default false
---
---bottom loss that keeps a seat, 0 to 1 in; default 1/4
---@field seat_tolerance? netsection.Length
---@field ply? integer the ply it is in, its number, no unit; default all plies

---A split along the grain.
---@class netsection.SplitFields: netsection.AlongFields
---@field at_depth netsection.Length below the top edge, 0 to 24 in
---@field ply? integer the ply it is in, its number, no unit; default all plies

---A point load.
---@class netsection.PointFields: netsection.PartFields
---@field at netsection.Length its place, -240 to 2880 in
---@field load netsection.Load lb, 0 to 100000
---@field case? string "live" (default), "dead", "roof live" or "snow"
---@field CD? number load duration of a live load, no unit, 0.9 to 2; default its case's

---A line load along the joist.
---@class netsection.LineFields: netsection.AlongFields
---@field load netsection.Load plf, 0 to 20000
---@field to_load? netsection.Load plf at its end; default that at its beginning
---@field case? string "live" (default), "dead", "roof live" or "snow"
---@field CD? number load duration of a live load, no unit, 0.9 to 2; default its case's

---An area load.
---@class netsection.AreaFields: netsection.AlongFields
---@field load netsection.Load psf
---@field width? netsection.Length of the floor it stands on; default the spacing
---@field case? string "live" (default), "dead", "roof live" or "snow"
---@field CD? number load duration of a live load, no unit, 0.9 to 2; default its case's

---A tub over a stretch of the joist.
---@class netsection.TubFields: netsection.AlongFields
---@field width netsection.Length across the joists, 0 to 1000 in
---@field empty netsection.Load lb, its weight
---@field water? netsection.Load lb; default 0
---@field people? netsection.Load lb; default 0
---
---`"larger"`: over the footprint the larger of water and people and the floor's live
---load;
---`"tub"`: water and people alone, refused where they are less than the floor's (enter
---`live = 0` and area loads beside the tub);
---`"add"`: both. Where `"add"` alone gives a ratio above 1, `leave` becomes `decide`, in
---sweeps too; sensitivity leaves out `live` of a joist with a tub.
---@field under? string default "larger"

---A round hole, centered unless `below` or `above` is given.
---
---Errors: raises for a field that there is not; values are read with the joist.
---
---```lua
---print(ns.hole {at = "5-2", diameter = 4, below = 1.5})  --> hole
---```
---@param t netsection.HoleFields place and size
---@return netsection.Part cut # for `cuts`
function ns.hole(t) end

---A rectangular opening.
---
---Errors: raises for a field that there is not; values are read with the joist.
---
---```lua
---print(ns.slot {from = "3-0", to = "3-8", height = 4})  --> slot
---```
---@param t netsection.SlotFields place and size
---@return netsection.Part cut # for `cuts`
function ns.slot(t) end

---A notch in the top or the bottom, away from the bearings.
---
---Errors: raises for a field that there is not; values are read with the joist.
---
---```lua
---print(ns.notch {face = "top", from = "2-0", to = "2-4", depth = 2})  --> notch
---```
---@param t netsection.NotchFields place and size
---@return netsection.Part cut # for `cuts`
function ns.notch(t) end

---A notch at an end, over its bearing.
---
---Errors: raises for a field that there is not; values are read with the joist.
---
---```lua
---print(ns.end_notch {support = "left", face = "bottom", depth = 2})  --> end notch
---```
---@param t netsection.EndNotchFields end and size
---@return netsection.Part cut # for `cuts`
function ns.end_notch(t) end

---A cut clean through.
---
---Errors: raises for a field that there is not; values are read with the joist.
---
---```lua
---print(ns.sever {at = "6-0"})  --> sever
---```
---@param t netsection.SeverFields from where to where
---@return netsection.Part cut # for `cuts`
function ns.sever(t) end

---A bearing whose wood is gone: the joist stands on it no more.
---
---Errors: raises for a field that there is not; values are read with the joist.
---
---```lua
---print(ns.lost_bearing {support = "left", to = 8, cause = "rot"})  --> lost bearing
---```
---@param t netsection.LostBearingFields which end, how far
---@return netsection.Part cut # for `cuts`
function ns.lost_bearing(t) end

---Section lost by face over a length.
---
---Errors: raises for a field that there is not; values are read with the joist.
---
---```lua
---print(ns.loss {from = "4-0", to = "9-0", sides = 0.25, cause = "char"})  --> loss
---```
---@param t netsection.LossFields where and how deep
---@return netsection.Part cut # for `cuts`
function ns.loss(t) end

---A split along the grain.
---
---Errors: raises for a field that there is not; values are read with the joist.
---
---```lua
---print(ns.split {from = "7-0", to = "8-0", at_depth = 4})  --> split
---```
---@param t netsection.SplitFields where and at which depth
---@return netsection.Part cut # for `cuts`
function ns.split(t) end

---A load at a point.
---
---Errors: raises for a field that there is not; values are read with the joist.
---
---```lua
---print(ns.point {at = "6-0", load = "450 lb"})  --> point
---```
---@param t netsection.PointFields place and load
---@return netsection.Part load # for `loads`
function ns.point(t) end

---A load along the joist.
---
---Errors: raises for a field that there is not; values are read with the joist.
---
---```lua
---print(ns.line {load = "66.7 plf", case = "dead"})  --> line
---```
---@param t netsection.LineFields load and stretch; the whole joist without from and to
---@return netsection.Part load # for `loads`
function ns.line(t) end

---A load on the floor that the joist carries.
---
---Errors: raises for a field that there is not; values are read with the joist.
---
---```lua
---print(ns.area {from = "2-0", to = "6-0", load = "60 psf"})  --> area
---```
---@param t netsection.AreaFields load and stretch; the whole joist without from and to
---@return netsection.Part load # for `loads`
function ns.area(t) end

---A tub on the floor.
---
---Errors: raises for a field that there is not; values are read with the joist.
---
---```lua
---print(ns.tub {from = 36, to = 96, width = 30, empty = 120, water = 480})  --> tub
---```
---@param t netsection.TubFields footprint and weights
---@return netsection.Part load # for `loads`
function ns.tub(t) end
