-- SPDX-License-Identifier: MIT
-- What a standard's data file is: load combinations with their factors, the limits on
-- notches that stand apart from any rule pack, and the words for them. What its family of
-- formulas asks for besides is in packs/<family>.lua.
local basis = require "netsection.basis"
local check = require "netsection.packs.check"
local families = require "netsection.packs.families"
local files = require "netsection.standards"
local known = require "netsection.packs.known"
local quantity = require "netsection.quantity"
local spelling = require "netsection.locale.spelling"
local said = require "netsection.packs.standard_words"

local standards = {names = files.names, known = files.known, read = files.read,
  over = files.over}

local COMBINATION = {
  name = {"text", needed = true}, D = {"number", 0, 3, needed = true},
  L = {"number", 0, 3, needed = true}, all = {"flag"},
  source = {"text"}, confidence = known.word,
}
local FAMILIES = check.keys(families)
local FORMATS = {}
for _, name in ipairs(FAMILIES) do
  for _, format in ipairs(families[name].formats) do FORMATS[#FORMATS + 1] = format end
end

-- Names in print of what a joist and its states have.
local LABELS = {"table", {}}
for _, name in ipairs {"Fb", "Ft", "Fv", "Fc_perp", "Fc", "E", "Emin", "G_mean", "CF",
  "Cr", "live", "total", "adjusted", "values"} do
  LABELS[2][name] = {"text"}
end

-- How a load scatters, or what `fields` say of the strength.
local function law(fields)
  if next(fields) == nil then
    fields = {mean = {"number", 0.1, 3, needed = true}, cov = {"number", 0, 2,
      needed = true}}
  end
  fields.source = {"text", needed = true}
  local what = known.of(fields)
  what.needed = true
  return what
end

local COMMON = {
  name = {"text", needed = true}, title = {"text", needed = true}, base = {"text"},
  format = {"word", FORMATS, code = "STANDARD-FORMAT", needed = true},
  confidence = known.word, units = {"word", quantity.names},
  lang = {"word", spelling.names},
  family = {"word", FAMILIES, code = "STANDARD-FAMILY", needed = true},
  scope = {"text"}, source = {"text"}, notes = {"list", {"text"}, 0, 20},
  basis = known.forms, duration = {"text", needed = true}, labels = LABELS,
  end_notch = known.number(0, 1), inner_notch = known.number(0, 1),
  outer_part = known.number(0, 0.5), thick = known.number(0, 24),
  tested_hole = known.number(0, 1),
  usual_rules = {"text"}, any_span = {"flag"}, no_rule = {"flag"},
  gates = {"list", {"text"}, 8, 32, needed = true},
  own_duration = known.of {least = {"number", 0.5, 2, needed = true},
    most = {"number", 0.5, 2, needed = true}, source = {"text", needed = true}},
  no_own_duration = {"text"},
  scatter = {"table", {dead = law {}, live = law {}, strength = law {
    fifth = {"number", 0.1, 20, needed = true},
    duration = {"number", 0.5, 3, needed = true},
    covs = {"list", {"number", 0, 2}, 3, 3, needed = true}}}},
}

local function joined(...)
  local out = {}
  for _, part in ipairs {...} do
    for name, what in pairs(part) do out[name] = what end
  end
  return out
end

-- Fields by family; of an unknown one those of the first, whose name is then refused.
local SCHEMA = {}
for _, name in ipairs(FAMILIES) do
  local family = families[name]
  SCHEMA[name] = joined(COMMON, said.schema, family.schema, {
    combinations = {"list", {"table", joined(COMBINATION, family.combination)}, 1, 4,
      needed = true},
    format = {"word", family.formats, code = "STANDARD-FORMAT", needed = true}})
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
end

--- What the core reads of a standard.
function standards.numbers(pack)
  local out = {family = pack.family, all = standards.all_loads(pack),
    any_span = pack.any_span, no_rule = pack.no_rule, combinations = {}}
  for i, c in ipairs(pack.combinations) do
    out.combinations[i] = {D = c.D, L = c.L, CD = c.CD}
  end
  for _, name in ipairs {"end_notch", "inner_notch", "outer_part", "thick",
    "tested_hole"} do
    out[name] = basis.value(pack[name])
  end
  families[pack.family].numbers(pack, out)
  return out
end

--- The same of one combination alone, its variable loads being the live load.
-- @param c a row of combinations or with_roof_or_snow
function standards.numbers_under(pack, c)
  local out = standards.numbers(pack)
  out.combinations, out.all, out.other = {{D = c.D, L = 1, CD = c.CD or 1}}, 1, nil
  return out
end

--- Divisors of its limits of deflection {w_inst, w_fin}, where joists may leave them to
-- it; nil where the family has none.
function standards.limits(pack)
  local limits = families[pack.family].limits
  return limits and limits(pack)
end

--- What is wrong with a table that is to be a standard: a list of {code, path, text}.
function standards.problems(pack)
  local found, is_table = check.begin("standard", pack)
  local schema = is_table and SCHEMA[pack.family] or SCHEMA.nds
  if is_table and check.fields(pack, schema, "", found) then
    check_combinations(pack, found)
    families[pack.family].problems(pack, found)
    said.problems(pack, found)
  end
  return found
end

return standards
