-- SPDX-License-Identifier: MIT
-- What a standard's data file is: load combinations with their factors, the limits on
-- notches that stand apart from any rule pack, and the words for them.
local check = require "netsection.packs.check"
local quantity = require "netsection.quantity"

local standards = {}

local FACTOR = {"number", 0.05, 10}
local COMBINATION = {
  name = {"text", needed = true}, D = {"number", 0, 3, needed = true},
  L = {"number", 0, 3, needed = true}, CD = {"number", 0.1, 2, needed = true},
}

local SCHEMA = {
  name = {"text", needed = true}, title = {"text", needed = true}, base = {"text"},
  format = {"word", {"ASD"}, code = "STANDARD-FORMAT", needed = true},
  confidence = {"word", {"read", "computed", "reading", "memory", "own", "own copy"}},
  units = {"word", quantity.names},
  scope = {"text"}, source = {"text"}, notes = {"list", {"text"}, 0, 20},
  combinations = {"list", {"table", COMBINATION}, 1, 4, needed = true},
  K_b = FACTOR, K_t = FACTOR, K_v = FACTOR, K_c = FACTOR, K_perp = FACTOR, K_min = FACTOR,
  end_notch = {"number", 0, 1, needed = true},
  inner_notch = {"number", 0, 1, needed = true},
  outer_part = {"number", 0, 0.5, needed = true},
  thick = {"number", 0, 24, needed = true},
  tested_hole = {"number", 0, 1, needed = true},
  gates = {"list", {"text"}, 8, 32, needed = true},
}

-- The last combination holds all loads: what "all loads" means in the checks.
local function check_combinations(pack, found)
  local last = pack.combinations[#pack.combinations]
  if last.D <= 0 or last.L <= 0 then
    found.add("STANDARD-COMBINATION", ("combinations[%d]"):format(#pack.combinations),
      "the last combination holds dead and live load")
  end
  for i, c in ipairs(pack.combinations) do
    if pack.format == "ASD" and (c.D > 1 or c.L > 1) then
      found.add("STANDARD-FORMAT-MIX", ("combinations[%d]"):format(i),
        "a load factor over 1 with format ASD")
    end
  end
end

--- What is wrong with a table that is to be a standard: a list of {code, path, text}.
function standards.problems(pack)
  local found, is_table = check.begin("standard", pack)
  if is_table and check.fields(pack, SCHEMA, "", found) then
    check_combinations(pack, found)
  end
  return found
end

return standards
