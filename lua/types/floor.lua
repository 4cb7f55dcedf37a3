---@meta
-- SPDX-License-Identifier: MIT
-- Floor: joists that share defaults, what stands in the way, ranking of repairs.

---@class netsection
local ns = {}

---A floor: any field of a joist but `mark`, `cuts`, `out` and `judgment` is a default of
---its joists.
---@class netsection.FloorFields: netsection.JoistDefaults
---@field name? string default "Floor"
---
---From left to right, each with its mark.
---@field joists (netsection.JoistFields|netsection.Joist)[]
---@field obstructions? table[] of `ns.obstruction`; default none
---@field rules? netsection.RulesOption default "us-irc-2021"
---@field standard? netsection.StandardOption default "us-nds-2018-asd"
---@field by_depth? string relief by depth, as of a joist's review; default none
---@field survey? table what a survey noted; default none

---Describes a floor.
---
---Errors: raises with everything that is wrong, one problem a line.
---
---```lua
---print(floor)  --> floor 'Bath', 4 joists
---```
---@param t netsection.FloorFields its description
---@return netsection.Floor floor # read and checked
function ns.floor(t) end

---What stands in the way of a repair.
---@class netsection.ObstructionFields
---@field what string in words
---
---"wire", "cable", "pipe", "drain", "vent", "duct", "blocking", "finish"; default none
---@field kind? string
---@field joist? string mark; without it joists or bay
---@field joists? string[] marks; without it joist or bay
---@field bay? string[] the marks on both sides; without it joist or joists
---@field side? string of the joist, "left" or "right"; without it by y or the bay
---@field from? netsection.Length without it at
---@field to? netsection.Length without it at
---@field at? netsection.Length its center; without it from and to
---@field from_right? boolean places count from the right bearing; default false
---@field bottom? netsection.Length above the joist's bottom; without it height
---@field top? netsection.Length above the joist's bottom; without it height
---@field height? netsection.Length of its center; without it bottom and top
---@field y? netsection.Length across from the joist, right positive; without it y1, y2
---@field y1? netsection.Length across, right positive; without it y
---@field y2? netsection.Length across, right positive; without it y
---@field diameter? netsection.Length default none
---@field movable? string "easy", "trade" or "no"; default by kind
---@field class? integer how hard to move, 0 to 7, no unit; default by kind
---@field trade? string who moves it; default by kind
---@field through? boolean runs through the joist; default false
---@field note? string free text; default none

---A thing that stands in the way, for a floor's `obstructions`.
---
---Errors: raises for wrong fields; places are read with the floor.
---
---```lua
---print(ns.obstruction {what = "soil stack", kind = "drain", joist = "J2", at = "4-0",
---  height = 4, diameter = 4, side = "right"}.what)  --> soil stack
---```
---@param t netsection.ObstructionFields what, where
---@return table obstruction # for `obstructions`
function ns.obstruction(t) end

---@class netsection.Floor
---@field name string as given
---@field joists netsection.Joist[] from left to right
---@field obstructions table[] as read
---@field description netsection.FloorFields as it was given
---@field survey? table notes, settings and obstructions of a survey
---@field private by_depth? string
local floor = {}

---The joist of a mark.
---
---Errors: nil where there is none.
---
---```lua
---print(floor:joist "J2")  --> joist J2
---```
---@param mark string its label
---@return netsection.Joist|nil joist # that joist
function floor:joist(mark) end

---The floor with a joist repaired.
---
---Errors: raises for a mark that there is not and for wrong fields of the repair.
---
---```lua
---print(floor:fix("J2", ns.sister {fastener = bolt}):review().joists.J2.fixed.title)
---```
---@param mark string of the joist
---@param t netsection.Fix of `ns.sister` and the like
---@return netsection.Floor floor # another one
function floor:fix(mark, t) end

---How a floor is reviewed.
---@class netsection.FloorReviewOptions: netsection.ReviewOptions
---@field grid? netsection.GridFields a second opinion; changes no ratio; default none
---@field feel? boolean|table how it feels, with grid; default false
---@field by_depth? string relief by depth, as of a joist; default the floor's

---Reviews of all joists, with what a joist that is out puts on its neighbors.
---
---Errors: raises for an option or a pack that there is not.
---
---```lua
---print(floor:review().summary.worst.mark)  --> J2
---```
---@param options? netsection.FloorReviewOptions code, standard, second opinion
---@return netsection.FloorReview review # of each joist
function floor:review(options) end

---The worst joist.
---@class netsection.Worst
---@field mark string of the joist
---@field action string of that joist
---@field ratio? number of the cut state, no unit; nil where cut through

---@class netsection.FloorSummary
---@field count integer joists, a count
---@field worst? netsection.Worst by action, then ratio

---@class netsection.FloorReview
---@field name string of the floor
---@field joists table<string,netsection.Review> by mark
---@field order string[] marks from left to right
---@field actions table<string,integer> how many joists by action, a count
---@field summary netsection.FloorSummary how many, which is worst
---@field floor netsection.Floor what was reviewed
---@field grid? netsection.Grid where it was asked for; `refused` says why not
---@field feel? netsection.Feel where it was asked for

---How repairs are ranked.
---@class netsection.RankOptions: netsection.CodeOptions
---@field grid? netsection.GridFields each that serves gets its relief; default none

---A repair in a ranking.
---@class netsection.Ranked
---@field fix netsection.Fix as given
---@field kind string of the repair
---@field title string in words
---@field index integer its place in the list that was given, no unit
---@field rank? integer its place, no unit
---@field review netsection.Review with it
---@field ratio? number of the repaired state, no unit
---@field governing? string mode that decides
---@field moved table[] what must be moved, by whom
---@field class integer the hardest of it, 0 to 7, no unit
---@field count integer things to be moved, a count
---@field pieces integer a count
---@field fasteners integer a count
---@field added_post boolean a post below is needed
---@field reason? string why it fails or cannot be fitted
---@field relief? table[] mark, before, after (lb-in), by the grid
---@field private show table
---@field private stuck table
---@field private unplaced table

---Repairs in the order of what they disturb.
---@class netsection.Ranking
---@field mark string of the joist
---@field ranked netsection.Ranked[] that serve, the least disturbing first
---@field failing netsection.Ranked[] with the reason
---@field refused netsection.Ranked[] that cannot be fitted, with the reason

---Ranks repairs of a joist by what has to be moved: worst class, number moved, pieces,
---fasteners, ratio.
---
---Errors: raises for a mark that there is not and for wrong fields.
---
---```lua
---local ranking = floor:rank_fixes("J2", {ns.sister {fastener = bolt}, ns.strap {}})
---print(ranking.refused[1].kind)  --> strap
---```
---@param mark string of the joist
---@param fixes netsection.Fix[] to compare
---@param options? netsection.RankOptions code, standard, grid
---@return netsection.Ranking ranking # best first
function floor:rank_fixes(mark, fixes, options) end

---How sure the verdict of each joist is.
---
---Errors: raises for a wrong input or option.
---
---```lua
---local o = floor:odds {defaults = true, draws = 256, replicates = 4, indices = false}
---print(o.joists.J1.draws)  --> 256
---```
---@param t netsection.FloorOddsFields inputs, draws
---@return netsection.FloorOdds odds # by joist
function floor:odds(t) end

---The floor as joists with a deck across: forces and deflections by stiffness.
---
---Errors: raises for wrong fields, and where a part of the floor would be held by
---nothing.
---
---```lua
---print(floor:grid {deck = "24oc OSB"}:of("J1").reaction > 0)  --> true
---```
---@param t netsection.GridFields deck, blocking, loads
---@return netsection.Grid grid # solved
function floor:grid(t) end

---How the floor feels underfoot: frequency, deflection under 1 kN, criteria.
---
---Errors: raises for wrong fields.
---
---```lua
---print(floor:feel {deck = "24oc OSB"}.frequency.uncut > 0)  --> true
---```
---@param t netsection.FeelFields deck, blocking, criteria
---@return netsection.Feel feel # by state and joist
function floor:feel(t) end

---Loads from the joists down through beams, posts and footings to the ground.
---
---Errors: raises for wrong fields.
---
---```lua
---print(floor:load_path().ground.L)  --> 2880.0
---```
---@param options? netsection.LoadPathFields beams, code, standard
---@return netsection.LoadPath path # by member
function floor:load_path(options) end

---Lines of shores beside a joist, with their beams, posts and footings.
---
---Errors: raises for wrong fields; what cannot be shored is `refused` with the reason.
---
---```lua
---local s = floor:shores {mark = "J2", at = {40, 100}, construction_live = "25 psf",
---  beam = ns.beam_line {mark = "B", size = "4x6", species = "hem-fir", grade = "No.2",
---    posts = {0, 48}}}
---print(#s.lines)  --> 2
---```
---@param options netsection.ShoresFields where, under what load, with which beam
---@return netsection.Shores shores # by line
function floor:shores(options) end
