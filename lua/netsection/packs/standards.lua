-- SPDX-License-Identifier: MIT
-- What a standard's data file is: load combinations with their factors, the limits on
-- notches that stand apart from any rule pack, and the words for them.
local basis = require "netsection.basis"
local check = require "netsection.packs.check"
local core = require "netsection.core"
local files = require "netsection.standards"
local quantity = require "netsection.quantity"
local said = require "netsection.packs.standard_words"

local standards = {names = files.names, known = files.known, read = files.read}

local CONFIDENCE = {"word", basis.words}
-- CD of a combination; the time effect factor where there are load factors.
local COMBINATION = {
  name = {"text", needed = true}, D = {"number", 0, 3, needed = true},
  L = {"number", 0, 3, needed = true}, CD = {"number", 0.1, 2, needed = true},
  all = {"flag"},
  source = {"text"}, confidence = CONFIDENCE,
}
local KNOWN = {"word", basis.words, needed = true}
-- Checks and branches, and gates, that rest on a number or on the form of a formula.
local MODES, NUMBERS = {"list", {"word", core.modes}, 1}, {"list", {"whole", 1, 32}, 1}
local function known(fields)
  for name, what in pairs {says = {"text"}, clause = {"text"}, source = {"text"},
    confidence = KNOWN, checks = MODES, branches = NUMBERS, gates = NUMBERS} do
    fields[name] = fields[name] or what
  end
  return {"table", fields}
end
-- A number with where it stands and how it is known.
local FACTOR = known {value = {"number", 0.05, 10, needed = true},
  source = {"text", needed = true}}
-- The form of a formula: it can be confirmed by another copy, not be made another one.
local BASIS = {"list", known {name = {"text", needed = true},
  says = {"text", needed = true}}}
-- A number by itself is known as the pack says of the whole.
local function number(low, high)
  return {"either", {"number", low, high}, known {value = {"number", low, high,
    needed = true}}, needed = true}
end
-- Format and resistance factors: by what the core calls their product.
local PRODUCTS = {K_b = {"K_Fb", "phi_b"}, K_t = {"K_Ft", "phi_t"},
  K_v = {"K_Fv", "phi_v"}, K_c = {"K_Fc", "phi_c"}, K_perp = {"K_Fcp", "phi_c"},
  K_min = {"K_FE", "phi_s"}, K_z = {"K_Fz", "phi_z"}}
local FACTORS = {}
for _, names in pairs(PRODUCTS) do
  for _, name in ipairs(names) do
    FACTORS[name] = {FACTOR[1], FACTOR[2], needed = true}
  end
end

local SCHEMA = {
  name = {"text", needed = true}, title = {"text", needed = true}, base = {"text"},
  format = {"word", {"ASD", "LRFD"}, code = "STANDARD-FORMAT", needed = true},
  confidence = CONFIDENCE, units = {"word", quantity.names},
  family = {"word", {"nds"}, code = "STANDARD-FAMILY", needed = true},
  scope = {"text"}, source = {"text"}, notes = {"list", {"text"}, 0, 20},
  factors = {"table", FACTORS}, basis = BASIS, duration = {"text", needed = true},
  combinations = {"list", {"table", COMBINATION}, 1, 4, needed = true},
  end_notch = number(0, 1), inner_notch = number(0, 1), outer_part = number(0, 0.5),
  thick = number(0, 24), tested_hole = number(0, 1),
  gates = {"list", {"text"}, 8, 32, needed = true},
}
for field, what in pairs(said.schema) do SCHEMA[field] = what end

-- Load factors go with resistance factors, allowable stresses with neither.
local function check_format(pack, found)
  local factored = pack.format == "LRFD"
  if factored and not pack.factors then
    found.add("STANDARD-FORMAT-MIX", "factors", "load and resistance factor design "
      .. "without factors K_F and phi")
  elseif not factored and pack.factors then
    found.add("STANDARD-FORMAT-MIX", "factors", "factors K_F and phi with format %s",
      pack.format)
  end
  local most = 0
  for i, c in ipairs(pack.combinations) do
    most = math.max(most, c.D, c.L)
    if factored and c.CD > 1 then
      found.add("STANDARD-FORMAT-MIX", ("combinations[%d].CD"):format(i),
        "lambda over 1 is that of impact, which is not covered")
    end
  end
  if factored and most <= 1 then
    found.add("STANDARD-FORMAT-MIX", "combinations", "no load factor over 1 with format "
      .. "LRFD")
  end
end

--- The number of the combination that is drawn and reported as "all loads": the one
-- with `all = true`, or the only one with dead and live load. nil and why where it is not
-- known. Which combination governs a check is found check by check.
function standards.all_loads(pack)
  local flagged, both = {}, {}
  for i, c in ipairs(pack.combinations) do
    if c.D > 0 and c.L > 0 then both[#both + 1] = i end
    if c.all then flagged[#flagged + 1] = i end
  end
  if #flagged > 1 then return nil, "all = true stands in more than one" end
  if flagged[1] then
    local c = pack.combinations[flagged[1]]
    if c.D > 0 and c.L > 0 then return flagged[1] end
    return nil, "the one with all = true holds dead and live load"
  end
  if #both == 1 then return both[1] end
  return nil, #both == 0 and "one with dead and live load expected"
    or "all = true expected in one of those with dead and live load"
end

local function check_combinations(pack, found)
  local all, why = standards.all_loads(pack)
  if not all then found.add("STANDARD-COMBINATION", ("combinations[%d]"):format(
    #pack.combinations), "%s", why) end
  for i, c in ipairs(pack.combinations) do
    if pack.format == "ASD" and (c.D > 1 or c.L > 1) then
      found.add("STANDARD-FORMAT-MIX", ("combinations[%d]"):format(i),
        "a load factor over 1 with format ASD")
    end
  end
end

--- What the core reads of a standard.
function standards.numbers(pack)
  local out = {combinations = pack.combinations, all = standards.all_loads(pack),
    joint_time = pack.format == "LRFD" and 1 or nil}
  for _, name in ipairs {"end_notch", "inner_notch", "outer_part", "thick",
    "tested_hole"} do
    out[name] = basis.value(pack[name])
  end
  for name, parts in pairs(pack.factors and PRODUCTS or {}) do
    if name ~= "K_z" then -- connections: see format.connection
      out[name] = pack.factors[parts[1]].value * pack.factors[parts[2]].value
    end
  end
  return out
end

--- What is wrong with a table that is to be a standard: a list of {code, path, text}.
function standards.problems(pack)
  local found, is_table = check.begin("standard", pack)
  if is_table and check.fields(pack, SCHEMA, "", found) then
    check_combinations(pack, found)
    check_format(pack, found)
    said.problems(pack, found)
  end
  return found
end

return standards
