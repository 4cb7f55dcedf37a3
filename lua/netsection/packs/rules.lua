-- SPDX-License-Identifier: MIT
-- What a rule pack is: prescriptive limits on cuts as rows of numbers, without any
-- calculation. A limit is min(of_d d + of_L L + of_size D + plus, cap), where d is the
-- depth as measured, L the span, D the diameter (of two holes the larger); a measure has
-- to be at most that, or at least that (at_least). Lengths are in the pack's unit.
local basis = require "netsection.basis"
local check = require "netsection.packs.check"
local data = require "netsection.data_file"
local folder = require "netsection.folder"
local point = require "netsection.point"
local spelling = require "netsection.locale.spelling"

local rules = {}

local HOME = assert(package.searchpath("netsection.packs", package.path))
  :gsub("packs%.lua$", "data/rules/")

-- The file of a name: us-irc-2021 is us_irc_2021.lua.
local function file_of(name)
  return HOME .. name:gsub("[%-%.]", "_") .. ".lua"
end

--- Whether a name is that of a pack on file.
function rules.known(name)
  return folder.kind(file_of(name)) == "file"
end

--- The table of a pack on file; nil where there is none of that name, and a message where
-- its file cannot be read.
function rules.read(name)
  if not rules.known(name) then return nil end
  return data.read(file_of(name))
end

--- Names of the packs on file, sorted.
function rules.names()
  local names = {}
  for _, file in ipairs(folder.entries(HOME) or {}) do
    local t = file:find "^[%w_]+%.lua$" and data.read(HOME .. file)
    names[#names + 1] = t and type(t.name) == "string" and t.name or nil
  end
  table.sort(names, point.less)
  return names
end

local KINDS = {"hole", "slot", "notch", "end_notch", "sever", "loss", "split"}
-- What is measured, of which kinds, and whether it is a measure that has an upper limit.
local OPENING, NOTCH = {hole = true, slot = true}, {notch = true, end_notch = true,
  sever = true}
local function joined(a, b)
  local t = {}
  for kind in pairs(a) do t[kind] = true end
  for kind in pairs(b) do t[kind] = true end
  return t
end
local ANY = joined(OPENING, NOTCH)
local MEASURES = {
  depth = {of = joined(NOTCH, {}), upper = true},
  length = {of = ANY, upper = true},
  size = {of = OPENING, upper = true},
  ["edge below"] = {of = OPENING}, ["edge above"] = {of = OPENING},
  ["clear hole"] = {of = ANY}, ["clear notch"] = {of = ANY},
  ["clear notch along"] = {of = ANY}, centers = {of = OPENING},
  reach = {of = ANY, upper = true}, last = {of = ANY, upper = true},
  first = {of = ANY}, ["from bearing edge"] = {of = ANY, upper = true},
  ["off axis"] = {of = OPENING, upper = true},
  ["past face"] = {of = {end_notch = true}, upper = true},
  thickness = {of = NOTCH, upper = true}, bearing = {of = {}},
}
-- `last` is another word for reach: the farthest edge from the nearer support.
local SAME = {last = "reach"}

local LIMIT = {
  kinds = {"list", {"word", KINDS, code = "RULE-KIND"}, 0, 7, needed = true},
  measure = {"word", check.keys(MEASURES), code = "RULE-MEASURE", needed = true},
  at_least = {"flag"}, forbidden = {"flag"}, unusual = {"flag"}, relieved = {"flag"},
  face = {"word", {"top", "bottom"}},
  on = {"word", {"wood", "masonry"}},
  of_d = {"number", 0, 1}, of_L = {"number", 0, 1}, of_size = {"number", 0, 20},
  plus = {"number", 0, 1000}, cap = {"number", 0, 1000},
  clause = {"text", needed = true}, text = {"text", needed = true},
  says = {"text", needed = true},
  source = {"text"}, confidence = {"word", basis.words},
}

local SCHEMA = {
  name = {"text", needed = true}, title = {"text", needed = true},
  confidence = {"word", basis.words, needed = true},
  unit = {"word", {"in", "mm"}}, lang = {"word", spelling.names},
  base = {"text"}, scope = {"text"}, source = {"text"}, notes = {"list", {"text"}, 0, 20},
  covers = {"list", {"word", KINDS, code = "RULE-KIND"}, 1, 7, needed = true},
  covers_hogging = {"flag"},
  covers_depth = {"number", 1, 1000}, covers_depth_says = {"text"},
  not_covered = {"text", needed = true}, not_covered_hogging = {"text"},
  manufactured = {"table", {clause = {"text", needed = true},
    text = {"text", needed = true}}},
  limits = {"list", {"table", LIMIT}, 1, 64, needed = true},
  span_table = {"word", {"on_332_12"}}, -- of netsection/data/spans
}

-- A pack that says that there are no limits has none.
SCHEMA.no_limits = {"text"}
local WITHOUT = {}
for name, what in pairs(SCHEMA) do WITHOUT[name] = what end
WITHOUT.covers = {"list", {"word", KINDS, code = "RULE-KIND"}, 0, 0, needed = true}
WITHOUT.limits = {"list", {"table", LIMIT}, 0, 0, needed = true}

-- Names that a pack and a limit of it take.
rules.fields, rules.limit_fields = check.keys(SCHEMA), check.keys(LIMIT)

local function has_number(limit)
  return limit.of_d or limit.of_L or limit.of_size or limit.plus or limit.forbidden
end

-- What the fields of a limit come to together.
local function check_limit(limit, path, covered, found)
  local measure = MEASURES[limit.measure]
  if not has_number(limit) then
    found.add("RULE-NO-LIMIT", path, "no of_d, of_L, of_size, plus or forbidden")
  end
  for _, kind in ipairs(limit.kinds) do
    if not measure.of[kind] then
      found.add("RULE-MEASURE-KIND", path, "a %s has no measure '%s'",
        (kind:gsub("_", " ")), limit.measure)
    end
    if not covered[kind] then
      found.add("RULE-NOT-COVERED", path, "'%s' is not among the kinds the pack covers",
        kind)
    end
  end
  if limit.measure == "bearing" then
    if #limit.kinds > 0 then
      found.add("RULE-MEASURE-KIND", path, "a bearing length is of no kind of cut")
    end
  elseif #limit.kinds == 0 then
    found.add("RULE-KIND", path .. ".kinds", "no kind of cut: the limit is never read")
  end
  local upper = measure.upper or false
  if not limit.forbidden and not limit.unusual and upper == (limit.at_least or false) then
    found.add("RULE-DIRECTION", path, upper
      and "'%s' has an upper limit: at_least makes any larger cut pass"
      or "'%s' has a lower limit: at_least = true is missing", limit.measure)
  end
  if limit.face and not (limit.kinds[1] and NOTCH[limit.kinds[1]]) then
    found.add("RULE-MEASURE-KIND", path, "only notches have a face")
  end
end

-- A kind that is covered without a limit would pass whatever its size.
local function check_covered(pack, covered, found)
  for _, limit in ipairs(pack.limits) do
    for _, kind in ipairs(limit.kinds) do covered[kind] = "limited" end
  end
  for _, kind in ipairs(pack.covers) do
    if covered[kind] ~= "limited" then
      found.add("RULE-NOT-COVERED", "covers", "'%s' is covered without any limit", kind)
    end
  end
end

-- Largest of the upper limits and least of the lower ones of one kind and measure must
-- leave something at some depth: an opening has to fit between its edges.
local function check_room(pack, found)
  local per_inch = pack.unit == "mm" and 25.4 or 1
  for _, kind in ipairs {"hole", "slot"} do
    local edges, any = 0, false
    for _, limit in ipairs(pack.limits) do
      local edge = limit.measure == "edge below" or limit.measure == "edge above"
      for _, k in ipairs(limit.kinds) do
        if k == kind and edge then
          any = true
          edges = edges + (limit.of_d or 0) * 24 * per_inch + (limit.plus or 0)
        end
      end
    end
    if any and edges >= 24 * per_inch then
      found.add("RULE-CONTRADICTION", "limits", "the edge distances leave no place for a "
        .. "%s in a joist of any depth up to 24 in", kind)
    end
  end
end

--- What is wrong with a table that is to be a rule pack: a list of {code, path, text}.
function rules.problems(pack)
  local found, is_table = check.begin("rules", pack)
  local schema = is_table and pack.no_limits ~= nil and WITHOUT or SCHEMA
  if not is_table or not check.fields(pack, schema, "", found) then return found end
  local covered = {}
  for _, kind in ipairs(pack.covers) do covered[kind] = true end
  for i, limit in ipairs(pack.limits) do
    check_limit(limit, ("limits[%d]"):format(i), covered, found)
  end
  check_covered(pack, covered, found)
  check_room(pack, found)
  return found
end

local function copy(t)
  local new = {}
  for key, value in pairs(t) do new[key] = value end
  return new
end

--- A checked pack in inches: `plus`, `cap` and `covers_depth` turned once and exactly.
function rules.in_inches(pack)
  local per = pack.unit == "mm" and 25.4 or 1
  local new = copy(pack)
  new.covers_depth = pack.covers_depth and pack.covers_depth / per
  new.limits = {}
  for i, limit in ipairs(pack.limits) do
    local l = copy(limit)
    l.measure = SAME[limit.measure] or limit.measure
    l.plus, l.cap = limit.plus and limit.plus / per, limit.cap and limit.cap / per
    l.pack, l.unit = pack.name, pack.unit or "in"
    new.limits[i] = l
  end
  return new
end

return rules
