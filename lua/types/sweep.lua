---@meta
-- SPDX-License-Identifier: MIT
-- Sweep: every combination of what varies, worked by the core on all processors. A point
-- equals the review of that joist to the bit.

---@class netsection
local ns = {}

---What varies, and which values are kept. Fields of the joist, of its cuts
---(`"cuts.1.depth"`), its limits, its material and its repair (`"fix.to"`; `fix` itself
---with
---a list of repairs and false for none), each with a list of values.
---
---Values: `action`, `rules`; of a state `ratio`, `governing`, `status`, `moment`,
---`moment.at`, `shear`, `shear.at`, `deflection.live`, `deflection.total`, `Cr`,
---`reaction.1` (`.least`, `.dead`); a mode (`bending`, `net-bending.2` at cut 2,
---`bearing.1`
---at support 1) with `.demand`, `.capacity`, `.at`; `cuts.1.moment`, `cuts.1.shear`
---(`.least`), `cuts.1.within`, `cuts.1.gate`; `longest_span`, `longest_span.<mode>`,
---`longest_span.governing` (the end of the first interval); of a repair `share`,
---`tension`,
---`arm`, `station.1` (`.most`, `.least`), `fastener.count`, `piece.count`. With `uncut.`,
---`cut.` or `fixed.` before it a value is of that state, else of the last one there is.
---
---In a floor (`floor`, `grid`, and `joist` a mark in it) also `grid.moment` (`.least`),
---`grid.reaction`, `grid.deflection`, `grid.share.reactions`, `.share.moment`,
---`.share.deflection`, `grid.deck.moment` (lb-in per ft), with a mark those of another
---joist
---(`grid.J3.moment`); `feel.deflection`, `feel.lone_deflection` (in under 1 kN),
---`feel.frequency`, `feel.lone_frequency` (Hz), `feel.live_deflection`, `feel.change`
---(percent of the deflection, from uncut).
---
---A sweep works each joist by itself: its `action` is that of the joist alone, without
---what
---holds until a neighbor is repaired and without the engineer's judgment.
---@class netsection.SweepFields: netsection.CodeOptions
---@field joist netsection.Joist|string with or without a repair; with floor a mark in it
---@field floor? netsection.Floor for values `grid.*` and `feel.*`; default none
---@field grid? netsection.GridFields of `floor:grid`, for those values; default none
---@field over? table<string,any> lists of values by field; without it points
---
---Values that go together, by field, or the path of a CSV file whose first row names
---them;
---a list may be a function of a point's own fields.
---@field points? table<string,any>|string one more axis, "point"; default none
---@field values? string[] default ratio, governing, status, action
---@field order? string[] of axes, outermost first; default by kind, then alphabet
---@field threads? integer a count; default all processors
---@field shard? integer[] {i, n}: part i of n, no unit; default all
---@field progress? fun(done:integer,all:integer):boolean false stops; default none
---
---relief by depth, a condition of the rules' span table; points are then reviewed one by
---one; default none
---@field by_depth? string
---@field memory? integer bytes of columns; default a gigabyte

---An axis of a sweep.
---@class netsection.Axis
---@field name string the field
---@field values any[] in the units of the field

---Makes a sweep; nothing is worked before it is asked for. `#s` is the number of points.
---
---Errors: raises for a field, an axis or a value that there is not. A combination that
---makes
---no sense is a row with a `reason`.
---
---```lua
---local s = ns.sweep {joist = joist, over = {spacing = {12, 16}}, values = {"ratio"}}
---print(#s)  --> 2
---```
---@param t netsection.SweepFields joist, axes, values
---@return netsection.Sweep sweep # to be asked
function ns.sweep(t) end

---@class netsection.Sweep
---@field axes netsection.Axis[] outermost first
---@field names string[] of the values
---@field private show table
local sweep = {}

---The values at a point; `reason` where there are none.
---
---Errors: raises for an axis or a step that there is not.
---
---```lua
---print(sweep:at {spacing = 12}.action)  --> repair
---```
---@param place table<string,any> a value of each axis
---@return table<string,any> values # by name, in their units
function sweep:at(place) end

---A column of numbers or words.
---
---Errors: raises for a value that is not kept.
---
---```lua
---print(sweep:column "ratio"[1] < sweep:column "ratio"[2])  --> true
---```
---@param name string a value, or "reason"
---@return any column # indexed from 1, in the unit of the value
function sweep:column(name) end

---Goes through all points: tables with axes, values and reason.
---
---Errors: none of its own.
---
---```lua
---for row in sweep:rows() do print(row.spacing, row.governing) end
---```
---@return fun():table<string,any>|nil iterator # for a for loop
function sweep:rows() end

---The largest number and its row.
---
---Errors: nil where no point has a number; raises for a value that is not kept.
---
---```lua
---local _, row = sweep:max "ratio"
---print(row.spacing)  --> 16.0
---```
---@param name string a value
---@return number|nil value # in its unit
---@return table<string,any>|nil row # its point
function sweep:max(name) end

---The least number and its row.
---
---Errors: nil where no point has a number; raises for a value that is not kept.
---
---```lua
---local _, row = sweep:min "ratio"
---print(row.spacing)  --> 12.0
---```
---@param name string a value
---@return number|nil value # in its unit
---@return table<string,any>|nil row # its point
function sweep:min(name) end

---How many points have each word, or how many have a number.
---
---Errors: raises for a value that is not kept.
---
---```lua
---print(sweep:count("action").repair)  --> 2
---```
---@param name string a value
---@return table<string,integer>|integer count # by word; of numbers one count
function sweep:count(name) end

---Mean and standard deviation.
---
---Errors: nil where no point has a number; raises for a value that is not kept.
---
---```lua
---print((sweep:mean "ratio") < 1)  --> true
---```
---@param name string a value
---@return number|nil mean # in its unit
---@return number|nil deviation # in its unit
---@return integer|nil number # of points, a count
function sweep:mean(name) end

---Exact quantiles.
---
---Errors: nil where no point has a number; raises for a value that is not kept.
---
---```lua
---print(#sweep:quantiles("ratio", {0.5}))
---```
---@param name string a value
---@param list number[] parts from 0 to 1, no unit
---@return number[]|nil quantiles # in its unit
function sweep:quantiles(name, list) end

---Bins of a histogram.
---@class netsection.HistogramFields
---@field from number where the first bin begins, in the unit of the value
---@field to number where the last bin ends, in the unit of the value
---@field bins integer how many, a count, to 1048576

---A histogram: counts by bin, and `under` and `over`.
---
---Errors: raises for a value that is not kept and for wrong bins.
---
---```lua
---print(sweep:histogram("ratio", {from = 0, to = 2, bins = 2})[1])  --> 2
---```
---@param name string a value
---@param t netsection.HistogramFields bins
---@return table counts # by bin, under, over; low and high in the unit of the value
function sweep:histogram(name, t) end

---The rows that are wanted.
---
---Errors: raises for an axis that there is not.
---
---```lua
---print(#sweep:where(function(row) return row.ratio > 0.8 end))  --> 1
---```
---@param test table<string,any>|fun(row:table):boolean values of axes, or a test
---@return table[] rows # with axes, values, reason
function sweep:where(test) end

---What is written.
---@class netsection.SweepCsvOptions
---@field where? fun(row:table):boolean which points; default all
---@field sidecar? boolean|string beside it, in JSON, what they are; default false
---@field resume? boolean an interrupted run goes on from what it left; default false

---Writes points as CSV, whole or not at all, in memory that does not grow with them.
---
---Errors: nil and a message where it cannot be written; raises for a wrong option.
---
---```lua
---assert(sweep:csv(folder .. "/what_if.csv"))
---```
---@param path string|file* a path, an open file or a pipe
---@param t? netsection.SweepCsvOptions which points, sidecar
---@return boolean|nil ok # true
---@return string|nil message # why not
function sweep:csv(path, t) end

---Writes each column as a NumPy array (format 1.0) into one ZIP archive.
---
---Errors: nil and a message where it cannot be written.
---
---```lua
---assert(sweep:npz(folder .. "/what_if.npz"))
---```
---@param path string where
---@return boolean|nil ok # true
---@return string|nil message # why not
function sweep:npz(path) end

---What the points are: joist, axes, values, versions.
---
---Errors: none of its own.
---
---```lua
---print(#sweep:sidecar() > 0)  --> true
---```
---@return string text # JSON
function sweep:sidecar() end

---The joist of a point.
---
---Errors: nil and the reason of a combination that makes no sense; raises for an axis or
---a
---step that there is not.
---
---```lua
---print(sweep:joist {spacing = 12})
---```
---@param place table<string,any> a value of each axis
---@return netsection.Joist|nil joist # to be reviewed
---@return string|nil reason # why there is none
function sweep:joist(place) end

---Histograms of a summary.
---@class netsection.SummaryOptions
---@field histogram? table<string,netsection.HistogramFields> bins by value; default none

---All values of a sweep or a shard in one pass, to be put together with those of other
---shards on whatever machine they were worked. It takes 32 MB for each value that is a
---number.
---
---Errors: raises for a value that is not kept and for wrong bins.
---
---```lua
---print(sweep:summary():max "ratio" == sweep:max "ratio")  --> true
---```
---@param t? netsection.SummaryOptions histograms
---@return netsection.Summary summary # of all points
function sweep:summary(t) end

---Summaries of shards as one; the answer does not hang on the order in which they are
---given.
---
---Errors: nil and a message that names the part, where a shard is given twice, is of
---another
---sweep or cannot be read; raises where it is no list of summaries or paths.
---
---```lua
---local function shard(i)
---  return ns.sweep {joist = joist, over = {spacing = {12, 16}},
---    shard = {i, 2}}:summary()
---end
---print(ns.merge_shards({shard(1), shard(2)}).points)  --> 2
---```
---@param list (netsection.Summary|string)[] summaries, or paths of `summary:write`
---@return netsection.Summary|nil summary # of all of them
---@return string|nil message # which part cannot be merged
function ns.merge_shards(list) end

---@class netsection.Summary
---@field points integer a count
---@field of integer points of the whole sweep, a count
local summary = {}

---The largest number and its place on the axes.
---
---Errors: nil where no point has a number; raises for a value that is not kept or a word.
---
---```lua
---print(select(2, sweep:summary():max "ratio").spacing)  --> 16.0
---```
---@param name string a value
---@return number|nil value # in its unit
---@return table<string,any>|nil place # its point
function summary:max(name) end

---The least number and its place on the axes.
---
---Errors: nil where no point has a number; raises for a value that is not kept or a word.
---
---```lua
---print(select(2, sweep:summary():min "ratio").spacing)  --> 12.0
---```
---@param name string a value
---@return number|nil value # in its unit
---@return table<string,any>|nil place # its point
function summary:min(name) end

---How many points have each word, or how many have a number.
---
---Errors: raises for a value that is not kept.
---
---```lua
---print(sweep:summary():count("action").repair)  --> 2
---```
---@param name string a value
---@return table<string,integer>|integer count # by word; of numbers one count
function summary:count(name) end

---Mean and standard deviation.
---
---Errors: nil, nil and 0 where no point has a number; raises for a value that is not kept
---or a word.
---
---```lua
---print(select(3, sweep:summary():mean "ratio"))  --> 2
---```
---@param name string a value
---@return number|nil mean # in its unit
---@return number|nil deviation # in its unit; nil of one point
---@return integer number # of points, a count
function summary:mean(name) end

---Counts of the bins that the summary was made with.
---
---Errors: raises for a value whose histogram was not asked for.
---
---```lua
---local s = sweep:summary {histogram = {ratio = {from = 0, to = 2, bins = 2}}}
---print(s:histogram("ratio")[1])  --> 2
---```
---@param name string a value
---@return table counts # by bin, under, over; low and high in the unit of the value
function summary:histogram(name) end

---Two numbers between which each quantile lies, one part in 1024 apart at most.
---
---Errors: nil where no point has a number; raises for wrong parts.
---
---```lua
---local q = sweep:summary():quantiles("ratio", {0.5})[1]
---print(q.low <= q.high)  --> true
---```
---@param name string a value
---@param list number[] parts from 0 to 1, no unit
---@return table[]|nil bounds # low, high in the unit of the value
function summary:quantiles(name, list) end

---Stretches of points that no shard had.
---
---Errors: none of its own.
---
---```lua
---print(#sweep:summary():missing())  --> 0
---```
---@return table[] stretches # {first, last}, from 1
function summary:missing() end

---Writes the summary for `ns.merge_shards`, whole or not at all.
---
---Errors: nil and a message that names the path, where it cannot be written.
---
---```lua
---assert(sweep:summary():write(folder .. "/shard.json"))
---```
---@param path string where
---@return boolean|nil ok # true
---@return string|nil message # why not
function summary:write(path) end
