---@meta
-- SPDX-License-Identifier: MIT
-- Fasteners: what one carries and what a group does. Steps name the clauses.
-- Each answer has its steps.

---@class netsection
local ns = {}

---A fastener by its trade size or by numbers.
---@class netsection.FastenerFields
---@field kind string "nail", "wood screw", "lag screw" or "bolt"
---
---"16d" of a nail, "#10" of a wood screw; without it number or diameter
---@field size? string
---@field number? integer of a wood screw, no unit; without it size or diameter
---@field diameter? netsection.Length without it size or number
---@field type? string of a nail: "common" (default), "box", "sinker"
---@field length? netsection.Length default that of the nail's size
---@field root? netsection.Length root diameter; default by diameter
---@field tip? netsection.Length length of the tip; default by kind
---@field Fyb? number psi, bending yield strength; default by kind and diameter
---@field hardened? boolean a hardened nail; default false
---@field rated? netsection.Load lb, the manufacturer's lateral value; default computed
---@field rated_withdrawal? string lb/in, the manufacturer's; default by formula

---@class netsection.Fastener
---@field kind string "nail", "wood screw", "lag screw" or "bolt"
---@field diameter number in
---@field length? number in
---@field D number in, diameter
---@field D_r number in, root diameter
---@field L? number in, length
---@field E number in, tip
---@field F_yb number psi, bending yield strength
---@field size? string trade size
---@field type? string of a nail
---@field rated? number lb, the manufacturer's
---@field rated_withdrawal? number lb/in, the manufacturer's
---@field notes string[] where its numbers come from

---A fastener.
---
---Errors: raises for wrong fields and for sizes that are not on file.
---
---```lua
---print(ns.fastener {kind = "nail", size = "16d"}.D)  --> 0.162
---```
---@class netsection.fastener
---@overload fun(t: netsection.FastenerFields): netsection.Fastener
local fastener = {}
ns.fastener = fastener

---As `ns.fastener`.
---
---Errors: raises for wrong fields and for sizes that are not on file.
---
---```lua
---print(ns.fastener.new {kind = "bolt", diameter = "1/2 in"})  --> 1/2 in bolt
---```
---@param t netsection.FastenerFields kind and size
---@return netsection.Fastener fastener # read
function fastener.new(t) end

---A member that a fastener goes into.
---@class netsection.ConnectedMember
---@field G? number specific gravity, no unit; default by species
---@field species? string without it G
---@field thickness? netsection.Length of the main member; without it as deep as needed
---@field angle? number load to grain, degrees, 0 to 90; default 0
---@field density? number kg/m3, for a slip modulus; default by G
---@field steel? string grade of a steel side member; without it wood
---@field gauge? integer of sheet steel, no unit; without it thickness
---@field Fu? number psi, of the steel; default by grade

---Factors on the reference value of a connection.
---@class netsection.FactorFields
---@field CD? number load duration, no unit; default 1
---@field moisture? string "dry" (default), "wet", "drying"
---@field temperature? number F; default 70
---@field Cg? number group action, no unit; default 1
---@field C_delta? number geometry, no unit; default 1
---@field end_grain? boolean default false
---@field toe_nail? boolean default false
---@field one_row? boolean a single row that may dry; default false

---What the lateral value is asked for.
---@class netsection.LateralFields: netsection.FactorFields
---@field fastener netsection.Fastener which
---@field main netsection.ConnectedMember holds the point
---@field side netsection.ConnectedMember under the head
---@field penetration? netsection.Length into the main member; default by length
---@field double? boolean double shear; default false
---@field penetration_rule? string "ratio" (default) or "equations"
---@field KD? string "root" (default) or "nominal" diameter
---@field Fe? string "exact" (default) or "table": dowel bearing strengths rounded
---@field thread_bearing? number of thread in the wood, in; default by kind

---@class netsection.Lateral
---@field Z number lb, both planes in double shear; 0 where refused
---@field mode? string yield mode that governs, "Im" to "IV"
---@field modes table<string,number> lb by mode
---@field adjusted? number lb, with the factors asked for
---@field penetration? number in
---@field rated boolean the manufacturer's value
---@field refused? string why it holds nothing
---@field steps netsection.Step[] the calculation
---@field notes string[] where its numbers come from
---@field private values table

---The lateral value of one fastener by the yield equations, unrounded. Z = 0 and
---`refused` where it is
---too short.
---
---Errors: raises for wrong fields.
---
---```lua
---print(ns.lateral {fastener = bolt, main = {G = 0.5, thickness = 1.5},
---  side = {G = 0.5, thickness = 1.5}}.mode)  --> II
---```
---@param t netsection.LateralFields fastener and members
---@return netsection.Lateral lateral # lb
function ns.lateral(t) end

---As `ns.lateral`.
---
---Errors: raises for wrong fields.
---
---```lua
---print(ns.fastener.lateral {fastener = bolt, main = {G = 0.5, thickness = 1.5},
---  side = {G = 0.5, thickness = 1.5}}.Z)
---```
---@param t netsection.LateralFields fastener and members
---@return netsection.Lateral lateral # lb
function fastener.lateral(t) end

---What the withdrawal value is asked for.
---@class netsection.WithdrawalFields: netsection.FactorFields
---@field fastener netsection.Fastener not a bolt
---@field G? number specific gravity, no unit; without it species
---@field species? string without it G
---@field side_thickness? netsection.Length under the head; default 0
---@field penetration? netsection.Length into the main member; default by length

---@class netsection.Withdrawal
---@field W number lb/in of thread; of a nail, of penetration
---@field adjusted? number lb/in, with the factors asked for
---@field thread? number in, in the main member
---@field total? number lb
---@field adjusted_total? number lb, with the factors asked for
---@field rated boolean the manufacturer's value
---@field steps netsection.Step[] the calculation
---@field notes string[] where its numbers come from
---@field private values table

---The withdrawal value, lb per inch of thread or of penetration.
---
---Errors: raises for wrong fields and for a bolt.
---
---```lua
---local lag = ns.fastener {kind = "lag screw", diameter = "1/4 in", length = "3 in"}
---print(ns.withdrawal {fastener = lag, G = 0.5})
---```
---@param t netsection.WithdrawalFields fastener and wood
---@return number W # lb/in
---@return netsection.Withdrawal withdrawal # with its steps
function ns.withdrawal(t) end

---As `ns.withdrawal`.
---
---Errors: raises for wrong fields and for a bolt.
---
---```lua
---local lag = ns.fastener {kind = "lag screw", diameter = "1/4 in", length = "3 in"}
---print(ns.fastener.withdrawal {fastener = lag, G = 0.5})
---```
---@param t netsection.WithdrawalFields fastener and wood
---@return number W # lb/in
---@return netsection.Withdrawal withdrawal # with its steps
function fastener.withdrawal(t) end

---What a slip modulus is asked for.
---@class netsection.SlipFields
---@field fastener netsection.Fastener which
---@field main? netsection.ConnectedMember needed by "EN"; default none
---@field side? netsection.ConnectedMember needed by "EN"; default wood
---@field basis? string "NDS" or "EN"; default "NDS" from 1/4 in up
---@field prebored? boolean of a nail; default false

---@class netsection.Slip
---@field K number lb/in
---@field unit string of K
---@field basis string "NDS" or "EN"
---@field steps netsection.Step[] the calculation
---@field notes string[] where its numbers come from

---Slip modulus of one fastener and shear plane.
---
---Errors: raises for wrong fields.
---
---```lua
---print(ns.fastener.slip {fastener = bolt}.K)
---```
---@param t netsection.SlipFields fastener and members
---@return netsection.Slip slip # lb/in
function fastener.slip(t) end

---A member's stiffness for group action.
---@class netsection.StiffMember
---@field E? number psi; default that of the steel
---@field A number in2
---@field steel? string|boolean grade of steel; default wood

---What the group action factor is asked for.
---@class netsection.CgFields
---@field fastener netsection.Fastener which
---@field n integer in a row, a count, 1 to 1000
---@field spacing? netsection.Length needed where n is over 1; default none
---@field main netsection.StiffMember psi, in2
---@field side netsection.StiffMember psi, in2
---@field gamma? number lb/in, load slip modulus; default by formula

---@class netsection.Cg
---@field Cg number no unit
---@field gamma number lb/in
---@field u number no unit
---@field m number no unit
---@field R_EA number no unit
---@field steps netsection.Step[] the calculation

---Group action factor Cg; 1 below 1/4 in.
---
---Errors: raises for wrong fields.
---
---```lua
---print(ns.fastener.Cg {fastener = bolt, n = 3, spacing = 4,
---  main = {A = 13.875, E = 1.6e6}, side = {A = 13.875, E = 1.6e6}}.Cg < 1)  --> true
---```
---@param t netsection.CgFields fastener, row, members
---@return netsection.Cg found # no unit
function fastener.Cg(t) end

---What distances are asked for.
---@class netsection.DistancesFields
---@field fastener netsection.Fastener which
---@field load string "parallel" or "perpendicular" to the grain
---@field force? string "tension" (default) or "compression" at the end
---@field side? string member under the head: "wood" (default) or "steel"
---@field prebored? boolean of a nail; default false
---@field hardwood? boolean default false
---
---bearing length of the thinner member; default the widest rows
---@field l? netsection.Length
---@field row? netsection.Length rows as laid out; default none

---Least distance, and that for the full value.
---@class netsection.DistancePair
---@field minimum number in
---@field full number in

---@class netsection.Distances
---@field end_distance netsection.DistancePair in
---@field edge netsection.DistancePair in
---@field loaded_edge netsection.DistancePair in
---@field spacing netsection.DistancePair in, in a row
---@field row netsection.DistancePair in, between rows
---@field row_staggered? netsection.DistancePair in, below 1/4 in
---@field rows_apart? number in, most between outer rows on steel
---@field required boolean false: recommendations
---@field source string of the distances
---@field confidence string "read" in a copy, or "memory"
---@field steps netsection.Step[] the calculation

---Distances for one direction of load (below 1/4 in those of the commentary).
---
---Errors: raises for wrong fields.
---
---```lua
---print(ns.fastener.distances {fastener = bolt, load = "parallel"}.end_distance.full)
---```
---@param t netsection.DistancesFields fastener and load
---@return netsection.Distances distances # in
function fastener.distances(t) end

---What the geometry factor is asked for.
---@class netsection.CDeltaFields: netsection.DistancesFields
---@field end_distance? netsection.Length as laid out; default none
---@field spacing? netsection.Length as laid out; default none

---@class netsection.CDelta
---@field C_delta number no unit, 0 where refused
---@field refused? string which distance is below the least
---@field steps netsection.Step[] the calculation

---Geometry factor C_delta of a group; 1 below 1/4 in.
---
---Errors: raises for wrong fields.
---
---```lua
---print(ns.fastener.C_delta {fastener = bolt, load = "parallel", end_distance = 3.5,
---  spacing = 2}.C_delta)  --> 1.0
---```
---@param t netsection.CDeltaFields fastener and distances
---@return netsection.CDelta found # no unit
function fastener.C_delta(t) end

---What tearing of the wood is asked for.
---@class netsection.TearOutFields
---@field fastener netsection.Fastener which
---@field rows? integer a count; default 1
---@field per_row? integer a count; default 1
---@field spacing? netsection.Length needed where per_row is over 1; default none
---@field row_spacing? netsection.Length needed where rows is over 1; default none
---@field end_distance netsection.Length in
---@field thickness netsection.Length of the member
---@field width netsection.Length of the member, across the rows
---@field Fv number psi, adjusted
---@field Ft number psi, adjusted
---@field hole? netsection.Length default D + 1/16 in of bolts, else D

---@class netsection.TearOut
---@field row number lb, row tear-out
---@field group number lb, group tear-out
---@field net number lb, net tension
---@field least number lb, the least of the three
---@field governs string which is least
---@field steps netsection.Step[] the calculation

---Row and group tear-out and net tension of the wood (from memory).
---
---Errors: raises for wrong fields.
---
---```lua
---local found = ns.fastener.tear_out {fastener = bolt, per_row = 2, spacing = 2,
---  end_distance = 3.5, thickness = 1.5, width = 9.25, Fv = 180, Ft = 575}
---print(found.governs)  --> row tear-out
---```
---@param t netsection.TearOutFields fasteners and wood
---@return netsection.TearOut found # lb
function fastener.tear_out(t) end

---What a strap's tension is asked for.
---@class netsection.SteelFields
---@field fastener netsection.Fastener which
---@field steel string grade, such as "A36" or "A653 33"
---@field thickness? netsection.Length without it gauge
---@field gauge? integer no unit; without it thickness
---@field width netsection.Length in
---@field rows? integer across the strap, a count; default 1
---@field per_row? integer along the strap, a count; default 1
---@field spacing? netsection.Length needed where per_row is over 1; default none
---@field row_spacing? netsection.Length needed where rows is over 1; default none
---@field end_distance netsection.Length in
---@field hole? netsection.Length default by kind

---@class netsection.Steel
---@field T number lb, allowable tension
---@field governs string which check is least
---@field checks table<string,number> lb by check
---@field A_g number in2, gross
---@field A_n number in2, net
---@field thickness number in
---@field steps netsection.Step[] the calculation
---@field notes string[] where its numbers come from

---Allowable tension of a steel strap at a joint: plate, or sheet at screws.
---
---Errors: raises for wrong fields.
---
---```lua
---print(ns.fastener.steel {fastener = bolt, steel = "A36", thickness = 0.25, width = 3,
---  per_row = 2, spacing = 3, end_distance = 2}.governs)  --> yield
---```
---@param t netsection.SteelFields steel and fasteners
---@return netsection.Steel found # lb
function fastener.steel(t) end

---A sheet of steel.
---@class netsection.Sheet
---@field steel string grade, such as "A653 33"
---@field gauge? integer no unit; without it thickness
---@field thickness? netsection.Length without it gauge

---What a screw in sheet steel is asked for.
---@class netsection.ScrewInSheetFields
---@field fastener netsection.Fastener which
---@field sheet netsection.Sheet under the head
---@field second? netsection.Sheet behind it; default none
---@field head? netsection.Length its diameter; without it no pull-over

---@class netsection.ScrewInSheet
---@field shear number lb, allowable
---@field pull_over? number lb, allowable
---@field pull_out? number lb, allowable
---@field steps netsection.Step[] the calculation

---A screw through sheet steel: tilting, bearing, end of the sheet.
---
---Errors: raises for wrong fields.
---
---```lua
---local s = ns.fastener {kind = "wood screw", number = 10, length = "1-1/2 in"}
---print(ns.fastener.screw_in_sheet {fastener = s,
---  sheet = {steel = "A653 33", gauge = 16}}.shear > 0)  --> true
---```
---@param t netsection.ScrewInSheetFields screw and sheets
---@return netsection.ScrewInSheet found # lb
function fastener.screw_in_sheet(t) end

---What the shear of a shank is asked for.
---@class netsection.ShearFields
---@field fastener netsection.Fastener which
---@field Fnv? number psi, nominal shear strength; default of low-carbon bolts (memory)

---@class netsection.ShankShear
---@field V number lb, allowable
---@field steps netsection.Step[] the calculation

---Allowable shear of the shank's steel; CD does not raise it.
---
---Errors: raises for wrong fields.
---
---```lua
---print(ns.fastener.shear {fastener = bolt}.V > 2000)  --> true
---```
---@param t netsection.ShearFields fastener
---@return netsection.ShankShear found # lb
function fastener.shear(t) end

---What a lead hole is asked for.
---@class netsection.LeadHoleFields
---@field fastener netsection.Fastener which
---@field G? number specific gravity, no unit; needed but of a bolt, without default

---Lead hole of the thread, or a bolt's hole.
---
---Errors: nil where the kind has none; raises for wrong fields.
---
---```lua
---print(ns.fastener.lead_hole {fastener = bolt}[2])  --> 0.5625
---```
---@param t netsection.LeadHoleFields fastener and wood
---@return number[]|nil diameters # in, {least, most}
function fastener.lead_hole(t) end

---Specific gravity of a species (from memory).
---
---Errors: raises where it is not on file.
---
---```lua
---print(ns.fastener.G "hem-fir")  --> 0.43 Hem-Fir memory
---```
---@param species string as in the tables, any case
---@return number G # no unit
---@return string name # as filed
---@return string confidence # "read" in a copy, or "memory"
function fastener.G(species) end
