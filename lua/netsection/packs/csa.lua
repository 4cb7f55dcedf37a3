-- SPDX-License-Identifier: MIT
-- What a standard of the family of CSA O86 holds beside what all hold: K_D (CD) of each
-- combination, and its numbers with clause, source and confidence. They stand in the
-- core's formulas: they can be looked up here and not be changed.
local known = require "netsection.packs.known"

local csa = {formats = {"LSD"}}

-- A number that the core's formula has in it, where it stands and how it is known.
local function fixed(value)
  local what = known.of {value = {"number", value, value, needed = true},
    source = {"text", needed = true}, clause = {"text", needed = true}}
  what.needed = true
  return what
end

--- Fields of such a standard; `combination` those of one of its combinations.
csa.schema = {factors = {"table", {
  phi_b = fixed(0.9), phi_c = fixed(0.8), K_dur = fixed(0.65), K_sys = fixed(1.40),
  K_moist = fixed(0.84), K_treat = fixed(0.75), K_size = fixed(1.1),
  K_bear = fixed(9.525), f_notch = fixed(0.5), K_notch = fixed(0.006),
  e_notch = fixed(1), K_lat = fixed(1.92), chords = fixed(1), l_over = fixed(360),
}, needed = true}, refuses = {"text", needed = true}, framing = {"table", {}},
  clauses = {"table", {bracing = {"text", needed = true}, gates = {"text", needed = true},
    name = {"text", needed = true}}, needed = true}}
csa.combination = {CD = {"number", 0.5, 1.15, needed = true}}

--- What is wrong with a standard whose fields are those of the schema.
function csa.problems(pack, found)
  known.check_factored(pack, found, "LSD")
end

--- Adds to what the core reads of a standard: nothing.
function csa.numbers() end

return csa
