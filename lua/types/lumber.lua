---@meta
-- SPDX-License-Identifier: MIT
-- Lumber: dressed sizes (PS 20) and reference design values by trade
-- name.

---@class netsection
local ns = {}

---@class netsection.lumber
local lumber = {}
ns.lumber = lumber

---@class netsection.LumberSize
---@field nominal string such as "2x10"
---@field b number in, dressed thickness
---@field d number in, dressed depth
---@field nominal_b? number in; nil of a size as sawn
---@field nominal_d? number in; nil of a size as sawn
---@field full_sawn? boolean true of a full-sawn size

---A dressed size by its nominal one.
---
---Errors: nil and a message where it is not on file; raises where text is no string.
---
---```lua
---print(ns.lumber.size "2x10".d)  --> 9.25
---```
---@param text string such as "2x10", "full-sawn 2x8", "green rough 2x10", "38x235"
---@return netsection.LumberSize|nil size # in
---@return string|nil message # what is on file
function lumber.size(text) end

---Names of the dated sets of historic working stresses, for a joist's `historic`. They
---are not today's design values.
---
---Errors: none.
---
---```lua
---print(ns.lumber.historic()[1])  --> 1911 Douglas fir
---```
---@return string[] names # sorted
function lumber.historic() end

---Which values are asked for.
---@class netsection.DesignValuesFields
---@field species string as in the tables, any case
---@field grade string as in the tables, any case
---@field b number in, one ply
---@field d? number in; without it nominal_d
---@field nominal_d? number in, width class; default that of d
---@field edition? string default "us-nds-2018"
---@field partial? boolean what there is, where some values are missing; default false

---Reference design values of an edition.
---@class netsection.DesignValues
---@field Fb number psi
---@field Ft? number psi
---@field Fv number psi
---@field Fc_perp? number psi
---@field Fc? number psi
---@field E number psi
---@field Emin? number psi
---@field G? number no unit
---@field CF number for Fb, no unit
---@field CF_t number for Ft, no unit
---@field CF_c number for Fc, no unit
---@field species string as filed
---@field grade string as filed
---@field family string of formulas that takes them, "nds" or "csa"
---@field edition string its name
---@field source string of the values
---@field confidence string "read" in a copy, or "memory"
---@field CF_source string of the size factors
---@field CF_confidence string of the size factors
---@field notes string[] what a reader should be told
---@field missing? string[] with partial: what is not on file

---Reference design values and size factors of a species, a grade and a size.
---
---Errors: nil and a message where they are not on file; raises for wrong fields.
---
---```lua
---local v = ns.lumber.design_values {species = "hem-fir", grade = "No.2",
---  b = 1.5, d = 9.25}
---print(v.Fb)  --> 850
---```
---@param t netsection.DesignValuesFields species, grade, size
---@return netsection.DesignValues|nil values # psi, and factors
---@return string|nil message # what is on file
function lumber.design_values(t) end

---All sizes on file.
---
---Errors: none.
---
---```lua
---print(ns.lumber.sizes()[1].nominal)
---```
---@return netsection.LumberSize[] sizes # in
function lumber.sizes() end

---Adds a table of design values of one's own to the editions, laid out as those on file
---(`standards/us-nds-2018/lumber.lua`), or `{file = path}` that holds one as data. With a
---`base` it need hold only what differs from that edition.
---
---Errors: raises with all that is wrong, each by its place.
---
---```lua
---local name = ns.lumber.add {edition = "own-mill", base = "us-nds-2018",
---  title = "Mill tests", sources = {mill = "tests of a mill, 2019"},
---  species = {["Hem-Fir"] = {grades = {["No.2"] = {Fb = 900, source = "mill",
---  confidence = "read"}}}}}
---print(ns.lumber.design_values {species = "hem-fir", grade = "No.2", b = 1.5,
---  d = 9.25, edition = name}.Fb)  --> 900
---ns.lumber.forget(name)
---```
---@param t table edition, title, base, sources, species, size_factors; or {file = path}
---@return string name # of the edition
function lumber.add(t) end

---Takes a table of one's own away from the editions.
---
---Errors: raises for a name that was not added.
---
---```lua
---print((pcall(ns.lumber.forget, "us-nds-2018")))  --> false
---```
---@param name string of lumber.add
---@return string name # of the edition that is gone
function lumber.forget(name) end

---What is wrong with a table of design values.
---
---Errors: none: they are the result.
---
---```lua
---print(ns.lumber.problems {edition = "own"}[1].path)
---```
---@param t table as for `lumber.add`
---@return netsection.PackProblem[] list # empty where nothing is
function lumber.problems(t) end

---Editions of design values.
---
---Errors: none.
---
---```lua
---print(ns.lumber.editions()[1])
---```
---@return string[] names # latest first
function lumber.editions() end

---The family of formulas that takes the values of an edition: "nds", or "csa" of
---specified strengths.
---
---Errors: none; of an edition that is not on file "nds".
---
---```lua
---print(ns.lumber.family "csa-o86-2019")  --> csa
---```
---@param edition? string default "us-nds-2018"
---@return string family # word
function lumber.family(edition) end

---Species on file.
---
---Errors: nil and a message for an edition that is not on file.
---
---```lua
---print(#ns.lumber.species() > 5)  --> true
---```
---@param edition? string default "us-nds-2018"
---@return string[]|nil names # as the tables spell them
---@return string|nil message # what is on file
function lumber.species(edition) end

---Grades of a species on file, best first.
---
---Errors: nil and a message where species or edition are not on file.
---
---```lua
---print(ns.lumber.grades "hem-fir"[1])  --> SS
---```
---@param species string as in the tables, any case
---@param edition? string default "us-nds-2018"
---@return string[]|nil names # as the tables spell them
---@return string|nil message # what is on file
function lumber.grades(species, edition) end

---The nominal width whose size factor counts for a depth. What
---is no dressed depth counts as it is and goes to the next class up.
---
---Errors: raises where d is no number.
---
---```lua
---print(ns.lumber.nominal_width(9.25))  --> 10
---```
---@param d number in, actual depth
---@return number width # in, nominal
function lumber.nominal_width(d) end
