---@meta
-- SPDX-License-Identifier: MIT
-- Odds: how sure the verdict is: ratio and action for many draws of what is uncertain.
-- Every number has its interval of 95 %; it is not the chance that a floor fails.

---@class netsection
local ns = {}

---An uncertain input, with one of its laws.
---@class netsection.OddsInput
---@field name string of the model's argument, or a field of the joist
---@field normal? number[] {mean, standard deviation} in its unit; default none
---@field lognormal? number[] {median in its unit, sd of ln x, no unit}; default none
---@field gumbel? number[] {mean in its unit, COV, no unit}; default none
---@field choice? any[] values in its unit; default none
---@field weights? number[] of a choice, no unit, their sum 1; default equal
---@field fixed? any one value in its unit; default none
---
---a Gaussian copula of normal and lognormal inputs: {name of an input before it, its
---correlation, no unit, between -1 and 1}; default none
---@field with? any[]
---@field source? string where the law comes from, printed; default none

---Draws.
---@class netsection.DrawFields
---@field inputs? netsection.OddsInput[] default none; of a joist those of `defaults`
---@field draws? integer a count, a multiple of replicates; default 65536
---@field replicates? integer a count; default 16
---@field seed? integer no unit; default 1
---@field method? string "sobol" (default), "lhs" or "plain"
---@field threads? integer a count; default all processors
---
---draws of a replicate for first and total, a count; default 512
---@field indices? integer|false

---Draws of a joist's review. Fields are `d`, `b`, `span`, `spacing`, `dead`, `live`,
---`material.Fb`, `cuts.1.diameter` and the like; a choice may be of any field.
---@class netsection.JoistOddsFields: netsection.DrawFields, netsection.CodeOptions
---@field defaults? boolean inputs of ours beside those given; default false, true without
---@field rough? boolean cuts measured roughly, sd 1/16 in; default false
---@field wood? boolean scatter of the wood and the load too; default false

---Draws of a model that is a function.
---@class netsection.OddsFields: netsection.JoistOddsFields
---@field model fun(x:table):number,string a ratio (nil: none, over 1) and an action

---Draws of a floor's joists.
---@class netsection.FloorOddsFields: netsection.JoistOddsFields
---
---fields by mark in place of the shared ones; default none
---@field own? table<string,table>

---A share of draws, or a number of them, with its interval of 95 %.
---@class netsection.Interval
---@field value number no unit
---@field low number no unit
---@field high number no unit
---@field hits? integer draws that count, a count
---@field draws? integer a count

---How sure the verdict of a function is.
---
---Errors: raises for a wrong input or option.
---
---```lua
---local o = ns.odds {draws = 256, replicates = 4,
---  model = function(x) return 900 / x.Fb end,
---  inputs = {{name = "Fb", normal = {1000, 100}}}}
---print(o.over.value < 0.5)  --> true
---```
---@param t netsection.OddsFields model, inputs, draws
---@return netsection.Odds odds # shares with their intervals
function ns.odds(t) end

---@class netsection.Odds
---@field title string what was drawn
---@field mark? string of the joist
---@field over netsection.Interval share of draws with a ratio over 1
---@field changes netsection.Interval share whose action is not the printed one
---@field actions table<string,netsection.Interval> share by action
---@field groups string[] names in first and total: inputs that go together have one
---@field outside? netsection.Interval share outside the rules or not covered
---@field quantiles table<integer,netsection.Interval> of the ratio, by percent
---@field first table<string,netsection.Interval> share of the variance of one input alone
---@field total table<string,netsection.Interval> share of the variance with the others
---@field nominal table the action and the ratio that are printed
---@field at_limit string[] cuts that stand at a limit now
---@field turns_on table what the action hangs on
---@field inputs table[] name, label, what it says, source
---@field notes string[] what to mind
---@field private scatter? table
---@field wood? table[] the scatter of the wood for three COV: cov, uncut, cut, fixed
---@field no_index? string why there are no `first` and `total`
---@field draws integer a count
---@field each integer draws of a replicate, a count
---@field replicates integer a count
---@field seed integer no unit
---@field method string how they were drawn
local odds = {}

---One input at a time moved to its ends.
---@class netsection.TornadoBar
---@field name string of the input
---@field low? number ratio at the lower end, no unit
---@field high? number ratio at the upper end, no unit
---@field at table ends in the unit of the input
---@field flips boolean the action changes

---Ratio with one input at a time at its ends; `base` is that at the medians.
---
---Errors: none of its own.
---
---```lua
---print(odds:tornado()[1].name)
---```
---@return netsection.TornadoBar[] bars # widest first, and base
function odds:tornado() end

---Half a page, headed "not used for the verdict", for a report.
---
---Errors: raises where d is no document.
---
---```lua
---print(#odds:half_page().blocks > 0)  --> true
---```
---@param d? netsection.Document to add to; default a new one
---@return netsection.Document document # with the half page
function odds:half_page(d) end

---The answer in words.
---
---Errors: none of its own.
---
---```lua
---print(odds:text())
---```
---@return string text # plain
function odds:text() end

---@class netsection.FloorOdds
---@field name string of the floor
---@field joists table<string,netsection.Odds> by mark
---@field order string[] marks
---@field reasons table<string,string> why a joist has none, by mark
local floor_odds = {}

---Half a page of each joist, for a report.
---
---Errors: raises where d is no document.
---
---```lua
---local odds = floor:odds {defaults = true, draws = 256, replicates = 4, indices = false}
---print(#odds:half_page().blocks > 0)  --> true
---```
---@param d? netsection.Document to add to; default a new one
---@return netsection.Document document # with the half pages
function floor_odds:half_page(d) end

---The answers in words.
---
---Errors: none of its own.
---
---```lua
---local odds = floor:odds {defaults = true, draws = 256, replicates = 4, indices = false}
---print(odds:text())
---```
---@return string text # plain
function floor_odds:text() end
