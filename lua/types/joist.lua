---@meta
-- SPDX-License-Identifier: MIT
-- Joist: its description, what can be asked of it, spans and largest cuts, what turns the
-- verdict. A joist never changes: `joist:with` makes another one.

---@class netsection
local ns = {}

---Adjusted or reference design values of a member, psi, in place of species and grade.
---Fb, Fv and E are needed.
---@class netsection.Material
---@field Fb number psi, bending, 1 to 10000
---@field Fv number psi, shear parallel to grain, 1 to 2000
---@field E number psi, modulus of elasticity, 100000 to 5000000
---@field Ft? number psi, tension, 0 to 10000; without it a tie of an opening is referred
---@field Fc? number psi, compression parallel to grain, 0 to 10000; without it as Ft
---@field Fc_perp? number psi, bearing, 0 to 5000; without it bearing is not checked
---@field Emin? number psi, for stability, 1 to 3000000; without it taken from E
---@field G? number specific gravity, no unit; default by species, else 0.42
---@field CF? number size factor for Fb, no unit, 0.1 to 2; default 1
---@field CF_t? number size factor for Ft, no unit, 0.1 to 2; default 1
---@field CF_c? number size factor for Fc, no unit, 0.1 to 2; default 1
---@field source? string where the values come from, printed; without it "as given"

---Plies and how they are fastened to each other.
---@class netsection.Plies
---@field n integer plies, a count, 1 to 8
---@field fastener netsection.Fastener of one row
---@field spacing netsection.Length along the joist
---@field rows? integer rows across the depth, a count; default 2

---Limits of deflection, as L over a number (by default those of the standard).
---@class netsection.Limits
---
---L over it, no unit, 50 to 2000; default 360; false: not checked
---@field live? number|false
---
---L over it, no unit, 50 to 2000; default 240; false: not checked
---@field total? number|false

---What a licensed engineer decides against or beside the computed action; all three are
---needed. It is printed beside the computed action and never in its place.
---@class netsection.Judgment
---@field action string "leave", "justify", "decide", "repair" or "refer"
---@field by string who decided
---@field reason string why

---Temporary shores beside the cuts, for the time of the work.
---@class netsection.JoistShoresFields
---
---Live load during the work.
---@field construction_live? netsection.Load psf; no default: without it dead load alone
---@field at? netsection.Length[] two places; default 12 in beyond the cuts (ours)
---@field beside? integer joists on each side, a count, 0 to 20; default 1
---@field capacity? netsection.Load lb, of one head; without it heads are not counted

---What is done to a whole joist, without its mark and its cuts; a floor takes them as
---defaults of its joists.
---@class netsection.JoistDefaults
---
---`"2x10"`, `"full-sawn 2x8"`; actual dressed sizes stand for it.
---@field size? string nominal size; without it b and d
---@field b? netsection.Length thickness of one ply, 0.5 to 12 in; without it by size
---@field d? netsection.Length depth as measured, 2 to 24 in; without it by size
---
---count, 1 to 8; default 1, not said to be fastened
---@field plies? integer|netsection.Plies
---@field species? string as in the tables, any case; without it, or material: refer
---@field grade? string as in the tables, any case; without it, or material: refer
---@field edition? string "us-nds-2018" (default), "us-nds-2012" or "csa-o86-2019"
---@field class? string strength class, "C14" to "C50"; without it by species and grade
---@field service_class? integer 1 to 3, no unit, beside a class; default 1, and said
---
---"permanent", "long", "medium", "short" or "instantaneous" (-term may follow) of the
---live load, beside a class alone; default "medium", and said.
---@field duration? string
---@field material? netsection.Material without it by species and grade
---
---Working stresses that were allowed then: `"1911 Douglas fir"`, or `{set =, buildings =
---true, Fv =}` with half more for buildings by the table's note. Never today's design
---values, and said so; in place of species and grade. Names: `ns.lumber.historic()`.
---@field historic? string|table default none
---@field span? netsection.Length center to center of bearings, 24 to 480 in; default none
---@field spans? netsection.Length[] 1 to 6 of them, in place of span; default none
---@field overhang_left? netsection.Length 0 to 240 in; default 0
---@field overhang_right? netsection.Length 0 to 240 in; default 0
---
---Center to center; two lengths are those to the neighbors on the left and right.
---@field spacing? netsection.Length|netsection.Length[] 4 to 96 in; no default: needed
---
---one, or one a support; default 1.5 in
---@field bearing? netsection.Length|netsection.Length[]
---@field bearing_on? string "wood" (default) or "masonry"
---@field dead? netsection.Load 0 to 500 psf, own weight in it; no default: needed
---@field live? netsection.Load 0 to 500 psf; no default: needed
---
---Of a roof that the joist carries as well: 0 to 500 psf; combinations of the standard
---(memory). No repair, grid, shore or load path is worked out with it.
---@field roof_live? netsection.Load default 0
---@field snow? netsection.Load on the roof, not on the ground, 0 to 500 psf; default 0
---
---of `ns.point`, `ns.line`, `ns.area`, `ns.tub`; default none
---@field loads? netsection.Part[]
---
---Repetitive member factor Cr: by rule where members, spacing and deck allow.
---@field repetitive? number 1.0 or 1.15, no unit; default by rule
---
---joists in the row, a count, 1 to 1000; default 3, in a floor its count
---@field members? integer
---@field sheathed? boolean a deck holds the top edge; default true
---@field moisture? string "dry" (default) or "wet", over 19 % in service
---@field temperature? number F, in service, -60 to 150; default 70
---@field incised? boolean default false
---@field creep? number factor on dead-load deflection, no unit, 1 to 3; default 1
---
---default {live = 360, total = 240}; false: not checked
---@field limits? netsection.Limits|false
---@field blocking? netsection.Length[] up to 8 places of it; default none
---
---factor on stress at a tension-face notch, no unit, 1 to 10; default 1
---@field notch_raiser? number
---
---`"brace"`: where M turns, the deck holds the joist; `"none"`: only supports and
---blocking.
---@field inflection? string default "brace"
---
---`"I-joist"`, `"LVL"`, `"LSL"`, `"PSL"`, `"glulam"`, `"truss"`, `"CLT"` are referred.
---@field member? string default "sawn"
---
---of what is printed, "us" or "metric"; default those of the standard
---@field units? string
---
---spelling in print: "en-US", "en-GB" or "en-CA"; default that of the standard, else of
---the rules
---@field lang? string
---@field shores? netsection.JoistShoresFields default none
---@field note? string free text, not printed; default none

---The description of a joist.
---@class netsection.JoistFields: netsection.JoistDefaults
---@field mark? string its label on the plan; needed in a floor, default "?" by itself
---@field cuts? netsection.Part[] of `ns.hole` and the like, at most 8; default none
---@field out? boolean carries nothing, its load goes to its neighbors; default false
---@field judgment? netsection.Judgment default none
---@field survey? table what a survey noted, carried along as `joist.survey`; default none

---Describes a joist.
---
---Errors: raises with everything that is wrong, one problem a line.
---
---```lua
---local j = ns.joist {mark = "B4", size = "2x8", species = "hem-fir", grade = "No.2",
---  span = "12-0", spacing = 16, dead = "10 psf", live = "40 psf"}
---print(j)  --> joist B4
---```
---@param t netsection.JoistFields its description
---@return netsection.Joist joist # read and checked
function ns.joist(t) end

---A thing that is wrong with a description.
---@class netsection.Problem
---@field joist string the mark
---@field cut? integer number of the cut, from 1, no unit
---@field load? integer number of the load, from 1, no unit
---@field field? string the field
---@field message string what was found and what was expected
---@field text string all of it in one line

---What is wrong with a joist's description: empty where all is well.
---
---Errors: a list of problems; raises only for a field that there is not.
---
---```lua
---print(ns.problems {mark = "B4", size = "2x8"}[1].text)
---```
---@param t netsection.JoistFields a description
---@return netsection.Problem[] problems # all of them
function ns.problems(t) end

---@class netsection.Joist
---@field description netsection.JoistFields as it was given
---@field survey? table what a survey noted
---@field repair? table the repair as read, of a joist made by `joist:fix`
---@field private model table
---@field private row table
local joist = {}

---Uncut, cut and repaired states, the rules, the action and its reasons.
---
---Errors: raises for an option or a pack that there is not. What fails is a result.
---
---```lua
---local r = joist:review {rules = "us-irc-2021"}
---print(r.action)  --> repair
---```
---@param options? netsection.JoistReviewOptions which code, standard, units, relief
---@return netsection.Review review # everything found
function joist:review(options) end

---A changed copy; a repair is kept. Names are fields, or paths such as `"cuts.1.depth"`,
---`"limits.live"`, `"material.Fb"` and, of its repair, `"fix.to"`; `fix` is another
---repair,
---or false for none; `ns.none` takes a field away.
---
---Errors: raises for a field that there is not, and with all that is wrong then.
---
---```lua
---print(joist:with {["cuts.1.diameter"] = 2}:review().action)  --> leave
---```
---@param changes table<string,any> fields and their new values
---@return netsection.Joist joist # another one
function joist:with(changes) end

---A repaired copy, whose review fills `fixed`.
---
---Errors: raises for wrong fields of the repair; one that does not serve is a result,
---with
---the reason in `review.fixed.refused` or its ratio.
---
---```lua
---local r = severed:fix(ns.sister {fastener = bolt}):review()
---print(r.fixed.title)
---```
---@param t netsection.Fix of `ns.sister` and the like
---@return netsection.Joist joist # with its repair
function joist:fix(t) end

---Which spans count as passing.
---@class netsection.SpanOptions: netsection.CodeOptions
---@field modes? string[] modes that have to pass; default all

---How the longest span is asked for.
---@class netsection.LongestSpanOptions: netsection.SpanOptions
---@field continuous? boolean the end of the first interval; default false, of the last

---An interval of spans in which every one passes.
---@class netsection.SpanInterval
---@field from number in
---@field to number in
---@field starts string what fails just below: a mode, "rule", "cut past the end", "range"
---@field ends string what fails just above, likewise

---The spans from 24 to 480 in that pass, cuts staying where they are. Scanned every 3 in:
---a shorter interval or gap may be missed.
---
---Errors: nil and why, of a joist without numbers or of several spans; raises for an
---option
---or a mode that there is not.
---
---```lua
---for _, i in ipairs(joist:span_intervals()) do print(i.from, i.to, i.ends) end
---```
---@param options? netsection.SpanOptions modes, rules, standard
---@return netsection.SpanInterval[]|nil intervals # shortest first
---@return string|nil message # why there is none
function joist:span_intervals(options) end

---The longest span that passes, unrounded: the end of the last interval.
---
---Errors: nil and why; raises for an option or a mode that there is not.
---
---```lua
---print(ns.units.feet_inches((joist:with {cuts = {}}:longest_span())))
---```
---@param options? netsection.LongestSpanOptions modes, continuous, rules, standard
---@return number|nil inches # in
---@return netsection.SpanInterval[]|string|nil intervals # all of them; of nil, why
function joist:longest_span(options) end

---Which cut is asked for, and where.
---@class netsection.LargestOptions: netsection.CodeOptions
---@field cut string "hole", "slot", "notch" or "end_notch"
---
---the place, or a list; without it from, to
---@field at? netsection.Length|netsection.Length[]
---@field from? netsection.Length of a slot or notch; without it at and length
---@field to? netsection.Length of a slot or notch; without it at and length
---@field length? netsection.Length along the joist; without it from and to
---@field below? netsection.Length wood left below an opening; without it centered
---@field above? netsection.Length wood left above an opening; without it centered
---@field face? string "top" or "bottom" of a notch; default "bottom"
---@field support? string "left" or "right" of an end notch; default "left"
---@field angle? number of a hole to the grain, degrees, 6 to 90; default 90
---@field by? string "rules", "calculation" or "both"; default "both"
---@field modes? string[] for the calculation; default all
---@field within? number how closely the size is found, in; default 1e-9

---The largest cut at a place: the size below which all smaller ones pass, and what the
---next larger fails by.
---
---Errors: nil and what forbids any; raises for a wrong option.
---
---```lua
---print(joist:with {cuts = {}}:largest {cut = "hole", at = "5-2", by = "rules"})
---```
---@param options netsection.LargestOptions kind, place, what has to pass
---@return number|nil|table size # in; of a list of places a list
---@return string|table fails # "rules", "standard", "size" or a mode; of a list a list
function joist:largest(options) end

---What is varied to see whether the verdict turns.
---@class netsection.SensitivityOptions: netsection.CodeOptions
---@field species? string[]|true others to try; true: all on file; default none
---@field grade? string|string[]|true others to try; true: all on file; default none
---@field most? number share of itself an input is moved, no unit; default 0.5

---How far a check is from its limit.
---@class netsection.Margin
---@field mode string of the check
---@field name? string of the cut or support
---@field member string whose check it is
---@field ratio number no unit
---@field margin number no unit, 1 - ratio

---How far an input is from turning the verdict.
---@class netsection.InputMargin
---@field input string the field
---@field value number in its unit
---@field at number value at which the verdict turns, in its unit
---@field change number share of the value, no unit
---@field unit string of value and at
---@field becomes string the action then
---@field ratio? number of the cut state then, no unit

---A species or grade that was tried in place of the assumed one.
---@class netsection.Assumption
---@field species string that was tried
---@field grade string that was tried
---@field action? string the action then
---@field ratio? number of the cut state then, no unit
---@field governing? string mode that governs then
---@field confidence? string how the design values are known: "read" or "memory"
---@field reason? string why it could not be reviewed

---How far the verdict is from turning.
---@class netsection.Sensitivity
---@field verdict string the action
---@field ratio? number of the cut state, no unit
---@field governing? string mode that governs
---@field private show table
---@field margins? netsection.Margin[] of every check, least first
---@field inputs netsection.InputMargin[] nearest first
---
---Its own `flips` lists those that turn the verdict.
---@field assumptions? netsection.Assumption[] species and grades that were tried

---How far each input is from turning the verdict, nearest first.
---
---Errors: nil and a reason for a joist without numbers that no species or grade asked for
---helps; raises for a wrong option.
---
---```lua
---print(ns.report.sensitivity(joist:sensitivity {grade = true}))
---```
---@param options? netsection.SensitivityOptions what is tried
---@return netsection.Sensitivity|nil sensitivity # margins and inputs
---@return string|nil message # why there is none
function joist:sensitivity(options) end

---A reference value with its factors, without CL and Cr.
---@class netsection.Adjusted
---@field value number psi, adjusted
---@field CD number load duration, no unit
---@field CM number wet service, no unit
---@field Ct number temperature, no unit
---@field CF number size, no unit
---@field Ci number incising, no unit
---@field K number format and resistance, no unit; 1 in allowable stress design

---One adjusted design value and its factors.
---
---Errors: raises for another name or option.
---
---```lua
---print(joist:adjusted "Fb".value)  --> 990.0
---```
---@param property string "Fb", "Ft", "Fv", "Fc_perp", "Fc", "E" or "Emin"
---@param options? netsection.CodeOptions whose factors
---@return netsection.Adjusted adjusted # psi, and the factors
function joist:adjusted(property, options) end

---How sure the verdict is: ratio and action for many draws of what was measured.
---
---Errors: raises for a wrong input or option.
---
---```lua
---local o = joist:odds {defaults = true, draws = 256, replicates = 4, indices = false}
---print(o.over.value)
---```
---@param t netsection.JoistOddsFields inputs, draws
---@return netsection.Odds odds # shares with their intervals
function joist:odds(t) end
