---@meta
-- SPDX-License-Identifier: MIT
-- Units: lengths and loads in; numbers as a reader in the trade expects them out.

---@class netsection
local ns = {}

---How a length is written.
---@class netsection.FeetInchesOptions
---
---of the fraction of an inch, a power of two, no unit; default 16
---@field denominator? integer
---@field round? string "nearest", "down" or "up"; default "nearest"

---@class netsection.units
---
---`v * per.kPa` turns kPa into psf, `v * per.mm` mm into inches; one number for each unit
---that is read.
---@field per table<string,number> base units (in, psf, plf, lb) in one of each
local units = {}
ns.units = units

---As `ns.length`.
---
---Errors: nil and what is taken.
---
---```lua
---print(ns.units.length "89 mm")
---```
---@param v netsection.Length what to read
---@return number|nil inches # in
---@return string|nil message # what is taken
function units.length(v) end

---As `ns.load`.
---
---Errors: nil and what is taken.
---
---```lua
---print(ns.units.load("450 lb"))  --> 450.0 point
---```
---@param v netsection.Load what to read
---@param kind? string "area", "line" or "point"
---@return number|nil value # psf, plf or lb
---@return string|nil kind # "area", "line" or "point"; of nil, the message
function units.load(v, kind) end

---A length as feet and inches, `13'-6 1/2"`.
---
---Errors: raises where x is no finite number or an option is not known.
---
---```lua
---print(ns.units.feet_inches(162.5))  --> 13'-6 1/2"
---```
---@param x number in
---@param opts? netsection.FeetInchesOptions how it is rounded
---@return string text # feet and inches
function units.feet_inches(x, opts) end

---A length in the short notation, `13-6 1/2`, which `ns.length` reads again.
---
---Errors: raises where x is no finite number or an option is not known.
---
---```lua
---print(ns.units.feet_inches_dash(162))  --> 13-6
---```
---@param x number in
---@param opts? netsection.FeetInchesOptions how it is rounded
---@return string text # feet and inches
function units.feet_inches_dash(x, opts) end

---A length in inches and fractions, `3 1/2"`.
---
---Errors: raises where x is no finite number or an option is not known.
---
---```lua
---print(ns.units.inches(3.5))  --> 3 1/2"
---```
---@param x number in
---@param opts? netsection.FeetInchesOptions how it is rounded
---@return string text # inches
function units.inches(x, opts) end

---A number with n decimals, and never "-0".
---
---Errors: raises where x is no finite number.
---
---```lua
---print(ns.units.fixed(0.9433, 2))  --> 0.94
---```
---@param x number of any unit
---@param n integer decimals, a count
---@return string text # without unit
function units.fixed(x, n) end

---A number to n significant digits, without an exponent.
---
---Errors: raises where x is no finite number.
---
---```lua
---print(ns.units.significant(18954, 3))
---```
---@param x number of any unit
---@param n integer digits, a count
---@return string text # without unit
function units.significant(x, n) end

---What a number in one unit is multiplied by to be in another.
---
---Errors: nil where the two measure different things or one is not known.
---
---```lua
---print(12 * ns.units.between("in", "ft"))  --> 1.0
---```
---@param from string a unit such as "in-lb"
---@param to string a unit such as "ft-lb"
---@return number|nil factor # no unit
function units.between(from, to) end

---A text in quotes with control characters made visible, cut short: for messages.
---
---Errors: raises where v is no string.
---
---```lua
---print(ns.units.quoted "3-1/2")  --> "3-1/2"
---```
---@param v string what a user wrote
---@return string text # in quotes
function units.quoted(v) end
