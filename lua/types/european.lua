---@meta
-- SPDX-License-Identifier: MIT
-- EN 1995-1-1 for information: a fastener by chapter 8, vibration by 7.3.3.

---@class netsection
local ns = {}

---@class netsection.Joist
local joist = {}

---A piece that a fastener joins, of softwood.
---@class netsection.JohansenPiece
---@field class? string strength class; without it density
---@field density? number kg/m3, characteristic, 100 to 1200; without it by class
---@field mean_density? number kg/m3, 100 to 1200; default by class, else the density
---@field thickness? netsection.Length of it; no default but for the main piece of a nail
---@field angle? number of the load to the grain, degrees, 0 to 90; default 0

---@class netsection.JohansenFields
---@field kind string "nail", "screw", "bolt" or "dowel"
---@field diameter netsection.Length of the shank
---@field fu number N/mm2, tensile strength, 100 to 2000
---@field side netsection.JohansenPiece under the head
---@field main netsection.JohansenPiece at the point
---@field length? netsection.Length of a nail or screw, which need it; no default
---@field root? netsection.Length under the thread of a screw, which needs it; no default
---@field thread? netsection.Length of a screw; default none: no rope effect
---@field head? netsection.Length diameter of a nail's head; default 0
---@field washer? netsection.Length its diameter; default none: no rope effect
---@field hole? netsection.Length in the washer; default 0
---@field predrilled? boolean default false
---@field service_class? integer 1 to 3, no unit; default 1
---@field duration? string as of a joist; default "medium"
---@field number? integer fasteners across the grain, no unit, 1 to 200; default 1
---@field standard? string|table one of EN 1995-1-1; default "en-1995-1-1"

---@class netsection.Johansen
---@field F_vRk number N, characteristic, one fastener
---@field F_vRd number N, design, one fastener
---@field F_vRd_all number N, design, all of them
---@field number integer of them, no unit
---@field mode string "a" to "f"
---@field modes table<string,number> N, characteristic, with rope effect
---@field without_rope table<string,number> N, characteristic, without it
---@field K_ser number N/mm, of one fastener and plane
---@field confidence string "memory"
---@field standard string its name
---@field refused? string why it holds nothing
---@field steps netsection.Step[] the calculation
---@field notes string[] what a reader should be told
---@field private values table

---A fastener in single shear between two pieces of softwood (EN 1995-1-1 8.2.2), from
---memory and shown for information: no repair is reviewed with it.
---
---Errors: raises for wrong fields.
---
---```lua
---print(ns.johansen {kind = "nail", diameter = "3.1 mm", length = "90 mm", fu = 600,
---  side = {class = "C24", thickness = "45 mm"}, main = {class = "C24"}}.mode)  --> f
---```
---@param t netsection.JohansenFields fastener and pieces
---@return netsection.Johansen fastener # N, N/mm
function ns.johansen(t) end

---A floor deck across the joists, not composite.
---@class netsection.VibrationDeck
---@field thickness netsection.Length of it
---@field E number N/mm2, across the joists, 100 to 20000

---@class netsection.VibrationFields
---@field width netsection.Length of the floor, across the joists
---@field deck? netsection.VibrationDeck default none: frequency and the joist alone
---@field mass? number kg/m2, permanent, 1 to 1000; default by the dead load
---@field strutting? boolean between the joists; default false
---@field standard? string|table one of EN 1995-1-1; default "en-1995-1-1"

---@class netsection.VibrationCheck
---@field name string what is compared
---@field value number in its unit
---@field limit? number in its unit; nil where the annex has none
---@field ratio? number no unit
---@field unit string of both
---@field clause string of the limit
---@field confidence string how it is known
---@field binding boolean false

---@class netsection.Vibration
---@field f_1 number Hz, first frequency
---@field a number mm, deflection under 1 kN
---@field a_limit? number mm
---@field k_dist? number no unit, share of the joist under the load
---@field n_40? number no unit, modes up to 40 Hz
---@field v? number m/(N s2), velocity after an impulse of 1 N s
---@field b_v? number no unit, of the limit on v
---@field v_limit? number m/(N s2)
---@field zeta number no unit, damping
---@field EI_l number N m2/m, along the joists
---@field EI_b? number N m2/m, across
---@field m number kg/m2
---@field l number m, span
---@field b number m, width
---@field checks netsection.VibrationCheck[] one by one
---@field binding boolean false
---@field standard string its name
---@field notes string[] what a reader should be told

---Vibration of the floor that a joist of a strength class stands in (EN 1995-1-1 7.3.3),
---for information.
---
---Errors: raises for wrong fields and for a joist that is no single span.
---
---```lua
---local j = ns.joist {mark = "V", class = "C24", b = "45 mm", d = "220 mm",
---  span = "4 m", spacing = "400 mm", dead = "0.5 kPa", live = "1.5 kPa"}
---print(j:vibration {width = "5 m"}.checks[1].name)  --> frequency
---```
---@param t netsection.VibrationFields width, deck
---@return netsection.Vibration vibration # SI
function joist:vibration(t) end
