-- SPDX-License-Identifier: MIT
-- Schemas of numbers that say where they stand and how they are known (basis.lua).
local basis = require "netsection.basis"
local core = require "netsection.core"

local known = {}

--- How far a number or a pack was confirmed.
known.word = {"word", basis.words}
local KNOWN = {"word", basis.words, needed = true}
-- Checks and branches, and gates, that rest on a number or on the form of a formula, and
-- the values of a joist's model for which they do.
local MODES, NUMBERS = {"list", {"word", core.modes}, 1}, {"list", {"whole", 1, 32}, 1}

local WHERE = {"table", {sheathed = {"number", 0, 1}, limit_live = {"number", 0, 2000},
  limit_total = {"number", 0, 2000}}}

--- A table of fields that says how it is known.
function known.of(fields)
  for name, what in pairs {says = {"text"}, clause = {"text"}, source = {"text"},
    confidence = KNOWN, checks = MODES, branches = NUMBERS, gates = NUMBERS,
    where = WHERE} do
    fields[name] = fields[name] or what
  end
  return {"table", fields}
end

--- The form of a formula: it can be confirmed by another copy, not be made another one.
known.forms = {"list", known.of {name = {"text", needed = true},
  says = {"text", needed = true}}}

--- A number by itself, known as the pack says of the whole, or one that says it.
function known.number(low, high)
  return {"either", {"number", low, high}, known.of {value = {"number", low, high,
    needed = true}}, needed = true}
end

--- Load factors of a format by factored loads: one at least is over 1.
function known.check_factored(pack, found, format)
  local most = 0
  for _, c in ipairs(pack.combinations) do most = math.max(most, c.D, c.L) end
  if most <= 1 then
    found.add("STANDARD-FORMAT-MIX", "combinations", "no load factor over 1 with format "
      .. format)
  end
end

return known
