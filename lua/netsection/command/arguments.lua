-- SPDX-License-Identifier: MIT
-- The words after a verb: paths, and options with or without a value.
local point = require "netsection.point"
local settings = require "netsection.survey.settings"
local text = require "netsection.text"
local words = require "netsection.survey.words"

local arguments = {}

local SURVEY = {"rules", "standard", "units", "printed", "lang", "by-depth",
  "decimal-comma", "separator", "encoding", "most-joists"}

-- Paths a verb takes, and its options.
local VERBS = {
  review = {paths = 1, "into", "replace", "render", "full", "pdf", "steps", "workbook",
    "odds", "paper", "name", "job", "date", "photos", table.unpack(SURVEY)},
  template = {paths = 1, "printed", "lang"},
  sheet = {paths = 0, "joists", "marks", "name", "printed", "lang", "into", "paper",
    "replace"},
  compare = {paths = 2, "ratio", "into", "paper", "replace", table.unpack(SURVEY)},
  recheck = {paths = 1, "survey", "into", "paper", "replace", table.unpack(SURVEY)},
  rules = {paths = 0},
  homework = {paths = 1, "into", "replace", "render", "pdf", "qti", "paper", "answers"},
}

local ALONE = {replace = true, render = true, pdf = true, full = true, qti = true,
  odds = true, ["decimal-comma"] = true, help = true}

local function chosen(from)
  return function(value, name)
    local read = from[value:lower()]
    if read then return read end
    local list = {}
    for word in pairs(from) do
      if #word > 1 then list[#list + 1] = word end
    end
    table.sort(list, point.less)
    return nil, ("--%s: one of %s expected, got %s"):format(name,
      table.concat(list, ", "), text.plain(value))
  end
end

local function number(low, high, whole)
  return function(value, name)
    local n = tonumber(value)
    if n and n >= low and n <= high and (not whole or n % 1 == 0) then
      return whole and math.tointeger(n) or n
    end
    return nil, point.format("--%s: a number from %g to %g expected, got %s", name,
      low, high, text.plain(value))
  end
end

local values = settings.values
local STEPS = {all = "all", governing = "governing", none = "none"}
local WORKBOOK = {xlsx = "xlsx", ods = "ods"}
local READ = {steps = chosen(STEPS), workbook = chosen(WORKBOOK),
  paper = chosen(values.paper),
  units = chosen(values.units), printed = chosen(values.printed),
  lang = chosen(values.lang),
  separator = chosen(values.separator), encoding = chosen(values.encoding),
  ratio = number(0, 1), joists = number(1, 200, true),
  ["most-joists"] = number(1, 1e6, true)}

local function unknown(name, verb)
  local near = words.nearest(name, VERBS[verb])
  return nil, ("%s does not take --%s%s"):format(verb, text.plain(name),
    near and ("; is --%s meant?"):format(near) or "")
end

local function takes(verb, name)
  if name == "help" then return true end
  for _, other in ipairs(VERBS[verb]) do
    if other == name then return true end
  end
end

-- One option from list[i] on. @return the number of the next word, or nil and a message
local function read_option(verb, list, i, given)
  local name, value = list[i]:match "^%-%-([^=]+)=?(.*)$"
  if list[i] == "-h" then name, value = "help", "" end
  if not name or not takes(verb, name) then
    return unknown(name or list[i]:gsub("^%-+", ""), verb)
  end
  local has_value = list[i]:find("=", 1, true) ~= nil
  if ALONE[name] then
    if has_value then return nil, ("--%s takes no value"):format(name) end
    given[name:gsub("%-", "_")] = true
    return i + 1
  end
  if not has_value then
    i = i + 1
    value = list[i]
  end
  if value == nil or value == "" or not has_value and value:find "^%-%-" then
    return nil, ("--%s: a value expected"):format(name)
  end
  local read, problem = value, nil
  if READ[name] then read, problem = READ[name](value, name) end
  if read == nil then return nil, problem end
  given[name:gsub("%-", "_")] = read
  return i + 1
end

--- Reads the words after a verb.
-- @return {path, path, into =, replace = true ...}, or nil and what is wrong
function arguments.read(verb, list)
  local given, i, only_paths = {}, 1, false
  while i <= #list do
    if list[i] == "--" and not only_paths then
      only_paths, i = true, i + 1
    elseif not only_paths and list[i]:find "^%-." then
      local after, problem = read_option(verb, list, i, given)
      if not after then return nil, problem end
      i = after
    else
      given[#given + 1], i = list[i], i + 1
    end
  end
  if #given ~= VERBS[verb].paths and not given.help then
    return nil, ("%s takes %d path%s, got %d"):format(verb, VERBS[verb].paths,
      VERBS[verb].paths == 1 and "" or "s", #given)
  end
  return given
end

return arguments
