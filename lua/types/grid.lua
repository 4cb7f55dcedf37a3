---@meta
-- SPDX-License-Identifier: MIT
-- Floor as a grid: a second opinion beside the code check, and how the floor feels.

---A deck by its numbers, or a panel on file.
---@class netsection.DeckFields
---@field panel? string such as "24oc OSB"; without it across and along
---@field turned? boolean strength axis along the joists; default false
---@field across? number lb-in2 per ft of width, EI across the joists; without it panel
---@field along? number lb-in2 per ft of width, EI along the joists; default none
---@field FbS? number lb-in per ft of width; default none: strength not checked
---@field boards? table {thickness=, E=, Fb=, part=} in, psi; without it panel

---How a floor is worked as a grid.
---@class netsection.GridFields: netsection.CodeOptions
---@field deck string|netsection.DeckFields a panel on file, or its numbers
---
---`{at=, k=, EI=, from=, to=}`: k of one block end in lb-in per radian, `math.huge` for
---one
---that does not turn; EI lb-in2; from and to are marks.
---@field blocking? table[] rows of blocks across; default none
---
---{joist=, from=, to=}: the deck turns freely there; default none
---@field panel_ends? table[]
---@field points? table[] {joist= or y=, at=, load=} in, lb; default none
---
---all loads of the floor, "dead" or "live"; default without points
---@field uniform? boolean|string
---
---load of an edge joist: "half" a bay (default) or "full", as its check
---@field edges? string
---@field state? string "cut" (default), "uncut" or "repaired"
---@field EI? table<string,number> lb-in2 by mark, in place of its own; default none
---@field doubtful? string mark whose EI `band` varies; default all joists
---@field repetitive? number 1.0, no unit, the only one: sharing is in it; default 1.0

---@class netsection.Grid
---@field state string of the joists
---@field order string[] marks
---@field load number lb, all loads
---@field deck table EI and strength of the deck, lb-in2 and lb-in per ft
---@field stations table in, where strips lie
---@field rigid? netsection.Grid rows of blocks that do not turn, a bound
---@field sound? netsection.Grid every joist sound, in a review
---@field refused? string in a review: why there is none
---@field private bound boolean
---@field private dust number
---@field private known_bays table
---@field private known_band table
---@field private known_uplift table
---@field private use string
---@field private answer userdata
---@field private core userdata
---@field private deck_moments table
---@field private floor table
---@field private index table
---@field private k number
---@field private lines table
---@field private loads table
---@field private options table
---@field private results table
---@field private section table
---@field private t table
local grid = {}

---Shares of a joist, each of another whole: of all load; of the sum of M, or of w, of all
---joists at the section of the first point load (without one, at mid-span).
---@class netsection.GridShare
---@field reactions number no unit
---@field moment number no unit
---@field deflection number no unit

---A joist in the grid.
---@class netsection.GridJoist
---@field reactions number[] lb
---@field reaction number lb, their sum
---@field share netsection.GridShare no unit
---@field deflection netsection.Extreme in, the largest, down
---@field M_max number lb-in
---@field M_max_at number in
---@field mark string of the joist
---@field M_min number lb-in
---@field M_min_at number in
---@field V_max number lb
---@field V_max_at number in
---@field deck table M_max, M_min of the deck over it, lb-in per ft

---Forces and shares of a joist.
---
---Errors: raises for a mark that there is not.
---
---```lua
---print(grid:of("J3").M_max > 0)  --> true
---```
---@param mark string of the joist
---@return netsection.GridJoist values # lb, lb-in, in
function grid:of(mark) end

---@class netsection.GridAt
---@field w number in, deflection of the grid, down
---@field deflection number in, down
---@field slope number no unit
---@field M number lb-in, positive where it sags
---@field V number lb

---Values at a place of a joist.
---
---Errors: raises for a mark that there is not and off the joist.
---
---```lua
---print(grid:at("J1", 81).deflection > 0)  --> true
---```
---@param mark string of the joist
---@param x number in
---@return netsection.GridAt values # in, lb, lb-in
function grid:at(mark, x) end

---Lowest frequency and how the joists move.
---@class netsection.GridMode
---@field hertz number Hz
---@field moves table<string,number> by mark, no unit, 0 to 1

---Lowest frequencies under dead load.
---
---Errors: raises where n is no count.
---
---```lua
---print(#grid:modes(2))  --> 2
---```
---@param n? integer how many, a count; default 1
---@return netsection.GridMode[] modes # lowest first
function grid:modes(n) end

---The difference in deflection of two joists beside each other.
---@class netsection.GridBay
---@field from string mark
---@field to string mark
---@field differential number in, the largest
---@field at number in, where
---@field slope number of the deck, no unit

---Differences in deflection between neighbors.
---
---Errors: none of its own.
---
---```lua
---print(grid:bays()[1].from)  --> J1
---```
---@return netsection.GridBay[] bays # from left to right
function grid:bays() end

---Bearings that would lift, the dead load counted.
---
---Errors: none of its own.
---
---```lua
---print(#grid:uplift())
---```
---@return table[] bearings # mark, bearing, lb
function grid:uplift() end

---Ranges of results by mark over the deck at half and twice its EI and joists at 0.75 and
---1.25 times theirs.
---
---Errors: none of its own.
---
---```lua
---print(type(grid:band().J1))  --> table
---```
---@return table<string,table> band # M_max lb-in, deflection in, reaction lb
function grid:band() end

---Deflection of a joist without the others.
---
---Errors: nil of one that is in two pieces; raises for a mark that there is not.
---
---```lua
---print(grid:lone "J1" > 0)  --> true
---```
---@param mark string of the joist
---@return number|nil deflection # in
function grid:lone(mark) end

---How a floor's feel is worked.
---@class netsection.FeelFields: netsection.GridFields
---
---"all" or names; default Ohlsson, UK, Canada, L/360, L/480
---@field criteria? string|string[]

---@class netsection.Feel
---@field frequency table<string,number> Hz, lowest, under dead load, by state
---@field change table<string,number> percent from uncut, by state
---@field states table<string,table> by state; `refused` where it cannot be computed
---
---`d`, `lone_d` (in under 1 kN), `f`, `lone_f` (Hz), `live`, `lone_live` (in), by the
---grid
---and of the joist alone; and `change`, percent from uncut.
---@field joists table<string,table> by mark, then by state
---@field order string[] marks
---@field criteria table[] name, source, status, tests
local feel = {}

---A criterion beside the numbers of a joist.
---@class netsection.FeelCriterion
---@field name string of the criterion
---@field source string where it was published
---@field status string "read", "memory" or "common practice"
---@field grid? table met, tests, by the grid
---@field lone? table the same of the joist alone

---Criteria beside the numbers of a joist. No ratio and no ranking reads any of it.
---
---Errors: raises for a mark or a state that there is not.
---
---```lua
---print(feel:judge("J1", "uncut")[1].name)
---```
---@param mark string of the joist
---@param state string "uncut", "cut" or "repaired"
---@return netsection.FeelCriterion[] criteria # in their order
function feel:judge(mark, state) end
