---@meta
-- SPDX-License-Identifier: MIT
-- Packs: rules of codes and design standards, on file or your own.

---@class netsection
local ns = {}

---A pack on file.
---@class netsection.PackEntry
---@field name string for `rules` or `standard`
---@field title string of the code or standard
---@field confidence string "read" in a copy, or "memory"
---@field scope string where it holds, and what for

---What is on file.
---
---Errors: raises for another kind.
---
---```lua
---for _, p in ipairs(ns.packs "rules") do print(p.name, p.title) end
---```
---@param kind string "rules" or "standards"
---@return netsection.PackEntry[] packs # by name
function ns.packs(kind) end

---A problem of a pack.
---@class netsection.PackProblem
---@field code string such as "PACK-FIELD-UNKNOWN"
---@field path string the field
---@field text string all of it in one line

---A limit of a rule pack: a measure is at most (at least) min(of_d d + of_L L + of_size D
---+
---plus, cap), in the pack's unit. Measures: `depth`, `length`, `size`, `edge below`,
---`edge above`, `clear hole`, `clear notch`, `clear notch along`, `centers`, `first`,
---`last`,
---`reach`, `from bearing edge`, `off axis`, `thickness`, `bearing`.
---@class netsection.RuleLimit
---@field kinds string[] of cuts
---@field measure string what is measured
---@field of_d? number of the depth, no unit, 0 to 1; default 0
---@field of_L? number of the span, no unit, 0 to 1; default 0
---@field of_size? number of the cut's size, no unit, 0 to 20; default 0
---@field plus? number in or mm, by the pack's unit, 0 to 1000; default 0
---@field cap? number in or mm, by the pack's unit, 0 to 1000; default none
---@field at_least? boolean the limit is a least one; default false
---@field face? string "top" or "bottom"; default both
---@field forbidden? boolean no such cut at all; default false
---@field clause string of the code
---@field text string what is measured, in words
---@field says string the limit in words
---@field on? string "wood" or "masonry" of a bearing; default both
---@field source? string of its number; default that of the pack
---@field confidence? string how it is known; default as the pack says
---@field unusual? boolean a least one where most are largest, on purpose; default false
---@field relieved? boolean a joist's depth may make it good; default false

---A rule pack.
---@class netsection.RulePack
---@field name string for messages and papers
---@field title string of the code
---@field unit? string "in" (default) or "mm"
---@field lang? string spelling of papers: "en-US", "en-GB", "en-CA"; default none
---
---"read", "computed", "reading", "memory", "own", "own copy" or "read second-hand".
---@field confidence string how its numbers are known
---@field covers string[] kinds of cuts
---@field no_limits? string why it has no limits at all and covers nothing; default none
---@field not_covered string why it does not address the other kinds
---@field not_covered_hogging? string why not where M < 0; default none
---@field covers_hogging? boolean also where M < 0; default false
---
---in or mm, by its unit, 1 to 1000: joists up to it; default all
---@field covers_depth? number
---@field covers_depth_says? string that depth in words; default none
---@field base? string pack on which it rests; default none
---@field scope? string where it holds; default none
---@field source? string of its numbers; default none
---@field notes? string[] default none
---@field manufactured? table {clause=, text=} of manufactured members; default none
---@field limits netsection.RuleLimit[] all of them
---@field span_table? string "on_332_12": what a joist's depth is read by; default none

---Makes a rule pack of your own for `rules`.
---
---Errors: raises with every problem. `ns.rules.problems` lists them.
---
---```lua
---print(pcall(ns.rules, {name = "mine"}))
---```
---@class netsection.rules
---@overload fun(t: netsection.RulePack): table
local rules = {}
ns.rules = rules

---What is wrong with a rule pack: empty where all is well.
---
---Errors: a list of problems; raises where t is no table.
---
---```lua
---print(ns.rules.problems {name = "mine"}[1].code)
---```
---@param t netsection.RulePack a pack
---@return netsection.PackProblem[] problems # all of them
function rules.problems(t) end

---A standard on another one with what differs, by the fields of its file; or
---`{folder=, format=}`, a folder as those in `standards/`, read as data.
---@class netsection.StandardPack
---@field folder? string path of a folder with a standard; default none
---@field format? string of the folder, such as "asd"; default "asd"
---@field name? string for messages and papers; needed without a folder, no default
---@field base? string on which it rests; default none: then every field is needed
---@field title? string default that of the base
---@field lang? string spelling of papers: "en-US", "en-GB", "en-CA"; default of the base
---
---How its numbers are known, those apart that say it themselves; default as in the base.
---@field confidence? string
---
---{name = {value=, source=, confidence=}}: a factor in the place of the base's; without a
---value it says anew how that one is known.
---@field factors? table default those of the base
---
---{{name=, confidence=, source=}}: how forms of formulas are known, by their names.
---@field basis? table default that of the base

---Makes a design standard of your own for `standard`.
---
---Errors: raises with every problem. `ns.standard.problems` lists them.
---
---```lua
---local mine = ns.standard {name = "mine", base = "us-nds-2018-asd", title = "Mine"}
---print(joist:review {standard = mine}.standard)  --> mine
---```
---@class netsection.standard
---@overload fun(t: netsection.StandardPack): table
local standard = {}
ns.standard = standard

---What is wrong with a standard: empty where all is well.
---
---Errors: a list of problems; raises where t is no table.
---
---```lua
---print(#ns.standard.problems {name = "mine", base = "us-nds-2018-asd",
---  title = "Mine"})  --> 0
---```
---@param t netsection.StandardPack a standard
---@return netsection.PackProblem[] problems # all of them
function standard.problems(t) end
