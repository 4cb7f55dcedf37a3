-- SPDX-License-Identifier: MIT
-- What a standard's data file is: load combinations with their factors, the limits on
-- notches that stand apart from any rule pack, and the words for them.
local check = require "netsection.packs.check"
local files = require "netsection.standards"
local quantity = require "netsection.quantity"
local said = require "netsection.packs.standard_words"

local standards = {names = files.names, known = files.known, read = files.read}

local CONFIDENCE = {"read", "computed", "reading", "memory", "own", "own copy"}
local COMBINATION = {
  name = {"text", needed = true}, D = {"number", 0, 3, needed = true},
  L = {"number", 0, 3, needed = true}, CD = {"number", 0.1, 2, needed = true},
}

local SCHEMA = {
  name = {"text", needed = true}, title = {"text", needed = true}, base = {"text"},
  format = {"word", {"ASD"}, code = "STANDARD-FORMAT", needed = true},
  confidence = {"word", CONFIDENCE}, units = {"word", quantity.names},
  family = {"word", {"nds"}, code = "STANDARD-FAMILY", needed = true},
  scope = {"text"}, source = {"text"}, notes = {"list", {"text"}, 0, 20},
  combinations = {"list", {"table", COMBINATION}, 1, 4, needed = true},
  end_notch = {"number", 0, 1, needed = true},
  inner_notch = {"number", 0, 1, needed = true},
  outer_part = {"number", 0, 0.5, needed = true},
  thick = {"number", 0, 24, needed = true},
  tested_hole = {"number", 0, 1, needed = true},
  gates = {"list", {"text"}, 8, 32, needed = true},
}
for field, what in pairs(said.schema) do SCHEMA[field] = what end

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

--- What the core reads of a standard.
function standards.numbers(pack)
  local out = {combinations = pack.combinations}
  for _, name in ipairs {"end_notch", "inner_notch", "outer_part", "thick",
    "tested_hole"} do
    out[name] = pack[name]
  end
  return out
end

--- What is wrong with a table that is to be a standard: a list of {code, path, text}.
function standards.problems(pack)
  local found, is_table = check.begin("standard", pack)
  if is_table and check.fields(pack, SCHEMA, "", found) then
    check_combinations(pack, found)
    said.problems(pack, found)
  end
  return found
end

return standards
