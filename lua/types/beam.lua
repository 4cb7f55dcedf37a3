---@meta
-- SPDX-License-Identifier: MIT
-- Beams and sections: statics without a standard. Numbers only, in in, lb and lb-in.

---@class netsection
local ns = {}

---A net section.
---@class netsection.SectionFields
---@field b number in, width
---@field d number in, depth
---@field y1? number in, lower edge of a band cut out, from the bottom; default none
---@field y2? number in, its upper edge; default none
---@field z1? number in, lower edge of a second band; default none
---@field z2? number in, its upper edge; default none
---@field length? number in, of the opening; default that of a round hole

---@class netsection.Section
---@field A number in2, net area
---@field A_v number in2, area that counts in shear
---@field I number in4, about its own centroid
---@field y_b number in, centroid above the bottom
---@field S_b number in3, bottom edge
---@field S_t number in3, top edge
---@field S_min number in3, the least of any opening within
---@field h_b number in, wood left below
---@field h_t number in, wood left above
---@field lost number which lips are too thin to count, no unit

---The net section of a rectangle without bands of it.
---
---Errors: raises where a number is missing or no section is left.
---
---```lua
---print(ns.section {b = 1.5, d = 9.25}.A)  --> 13.875
---```
---@param t netsection.SectionFields numbers in inches
---@return netsection.Section section # in, in2, in3, in4
function ns.section(t) end

---A beam by itself: spans, stepped EI, hinges, loads, a second beam beside it.
---@class netsection.BeamFields
---@field spans number[] in
---@field overhang_left? number in; default 0
---@field overhang_right? number in; default 0
---@field EI number|table[] lb-in2, or steps {from=, to=, EI=}
---@field hinges? table[] {at=, stiffness=} in, lb-in per radian; default none
---@field loads? table[] {at=, P=, case=} or {from=, to=, w1=, w2=, case=}; default none
---
---`{from=, to=, EI=, bears={left=, right=}, stations={{at=, k=}}}`: a second beam.
---@field beside? table in, lb-in2, lb/in; default none
---@field gap? number[] in, {from, to}, where the first beam is cut through; default none

---A beam, solved.
---
---Errors: raises for wrong numbers or a mechanism.
---
---```lua
---local b = ns.beam {spans = {100}, EI = 1e6,
---  loads = {{at = 50, P = 100, case = "live"}}}
---print(b:at(50).M)  --> 2500.0
---```
---@param t netsection.BeamFields in, lb, lb per in, lb-in2
---@return netsection.Beam beam # solved
function ns.beam(t) end

---@class netsection.Beam
local beam = {}

---@class netsection.BeamAt
---@field V number lb
---@field M number lb-in, positive where it sags
---@field slope number no unit
---@field deflection number in, down

---Forces and deflection under all loads.
---
---Errors: raises off the beam.
---
---```lua
---print(beam:at(50).V)  --> -50.0
---```
---@param x number in
---@param side? string "left" or "right" of a place where V steps
---@return netsection.BeamAt values # lb, lb-in, in
function beam:at(x, side) end

---@class netsection.BeamEnvelope
---@field V_max number lb
---@field V_min number lb
---@field M_max number lb-in
---@field M_min number lb-in

---Largest and least forces, live load positioned for maximum effect.
---
---Errors: raises off the beam.
---
---```lua
---print(beam:envelope(50).M_max)  --> 2500.0
---```
---@param x number in
---@param side? string "left" or "right" of a place where V steps
---@return netsection.BeamEnvelope values # lb, lb-in
function beam:envelope(x, side) end

---Reactions under all loads.
---
---Errors: none of its own.
---
---```lua
---print(beam:reactions()[1])
---```
---@return number[] reactions # lb, from left to right
function beam:reactions() end

---Most and least reaction at a support, live load positioned for maximum effect.
---
---Errors: raises for a support that there is not.
---
---```lua
---print(beam:reaction_range(1))
---```
---@param n integer number of the support from the left, no unit
---@return number most # lb
---@return number least # lb
function beam:reaction_range(n) end

---A value and where it stands.
---@class netsection.Extreme
---@field x number in
---@field value number in the unit of the quantity

---@class netsection.Extremes
---@field M_max netsection.Extreme lb-in
---@field M_min netsection.Extreme lb-in
---@field deflection_max netsection.Extreme in
---@field deflection_min netsection.Extreme in

---Extremes of moment and deflection.
---
---Errors: none of its own.
---
---```lua
---print(beam:extremes().M_max.x)
---```
---@return netsection.Extremes extremes # lb-in, in
function beam:extremes() end

---As `at`, of the second beam.
---
---Errors: raises off it, or without a second beam.
---
---```lua
---print(tied:beside_at(50).M > 0)  --> true
---```
---@param x number in
---@param side? string "left" or "right" of a place where V steps
---@return netsection.BeamAt values # lb, lb-in, in
function beam:beside_at(x, side) end

---As `envelope`, of the second beam.
---
---Errors: raises off it, or without a second beam.
---
---```lua
---print(tied:beside_envelope(50).M_max > 0)  --> true
---```
---@param x number in
---@param side? string "left" or "right" of a place where V steps
---@return netsection.BeamEnvelope values # lb, lb-in
function beam:beside_envelope(x, side) end

---The force of a station between the two beams, all loads.
---
---Errors: raises for a station that there is not.
---
---```lua
---print(tied:station(1))
---```
---@param n integer its number from the left, no unit
---@return number force # lb, from the first beam to the second
function beam:station(n) end

---Most and least force of a station, live load positioned for maximum effect.
---
---Errors: raises for a station that there is not.
---
---```lua
---print(tied:station_envelope(1))
---```
---@param n integer its number from the left, no unit
---@return number most # lb
---@return number least # lb
function beam:station_envelope(n) end
