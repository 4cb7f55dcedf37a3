-- SPDX-License-Identifier: MIT
-- A floor: joists that share defaults, reviewed together.
local by_depth = require "netsection.by_depth"
local joist = require "netsection.joist"
local model = require "netsection.model"
local neighbors = require "netsection.neighbors"
local obstruction = require "netsection.obstruction"
local packs = require "netsection.packs"
local parts = require "netsection.parts"
local review = require "netsection.review"
local shores = require "netsection.shores"
local error = require "netsection.raise".error
local plain = require "netsection.document.escape".text
local tostring = require "netsection.point".text

local floor = {}
local methods = {}
local meta = {__index = methods, __name = "netsection.floor",
  __newindex = function()
    error("a floor does not change: describe another", 2)
  end}

-- What a floor takes of a joist's fields as a default for its joists.
local SHARED = {}
for _, name in ipairs(model.fields) do
  if name ~= "mark" and name ~= "cuts" and name ~= "survey" and name ~= "out"
    and name ~= "judgment" then
    SHARED[#SHARED + 1] = name
  end
end

local FIELDS = {"name", "rules", "standard", "by_depth", "joists", "obstructions",
  "survey", table.unpack(SHARED)}

-- A joist's own field, or the floor's default. A size given for the floor gives way to
-- b and d of a joist, as species and grade do to a material.
local GIVES_WAY = {size = {"b", "d"}, b = {"size"}, d = {"size"}, species = {"material",
  "historic"}, grade = {"material", "historic"}, historic = {"species", "material"},
  material = {"species", "grade", "historic"}, span = {"spans"},
  spans = {"span"}}

local function own(description, name)
  if description[name] ~= nil then return true end
  for _, other in ipairs(GIVES_WAY[name] or {}) do
    if description[other] ~= nil then return true end
  end
end

-- What 'members' of a joist takes at most; three already make a row.
local MOST_MEMBERS = 1000

local function with_defaults(description, t, count)
  local full = {}
  for name, value in pairs(description) do full[name] = value end
  for _, name in ipairs(SHARED) do
    if t[name] ~= nil and not own(description, name) then full[name] = t[name] end
  end
  if full.members == nil then full.members = math.min(count, MOST_MEMBERS) end
  return full
end

-- A problem of the list's own: {number = of the joist, field =, message =, text =}.
local function add(found, i, field, message)
  found[#found + 1] = {number = i, field = field, message = message,
    text = ("joist %d: %s: %s"):format(i, field, message)}
end

local function read_joists(t, found, level)
  local joists, seen = {}, {}
  for i, item in ipairs(t.joists) do
    local description = joist.is(item) and item.description or item
    parts.only("joist " .. i, description, model.fields, level + 1)
    local made, problems = joist.read(with_defaults(description, t, #t.joists))
    local mark = description.mark
    if mark == nil then
      add(found, i, "mark", "missing")
    elseif seen[mark] then
      add(found, i, "mark", ("'%s' is taken"):format(tostring(mark)))
    end
    if mark ~= nil then seen[mark] = true end
    joists[#joists + 1] = made
    for _, problem in ipairs(made and {} or problems) do
      problem.number = i
      found[#found + 1] = problem
    end
  end
  return joists
end

-- Each joist with the two beside it, their repairs included: a repair may put load on
-- them. A row is filled once all joists stand in it.
local function in_row(joists, t)
  local out, rows = {}, {}
  for i, j in ipairs(joists) do
    local item = t.joists[i]
    rows[i] = {left = joists[i - 1], right = joists[i + 1]}
    out[i] = j:placed(rows[i])
    if joist.is(item) and item.repair then out[i] = out[i]:fix(item.repair.given) end
  end
  for i, row in ipairs(rows) do row.left, row.right = out[i - 1], out[i + 1] end
  return out
end

-- @param whole whether all joists could be read, so that obstructions can be placed
local function read_obstructions(t, joists, whole, found)
  local marks = {}
  for i, item in ipairs(t.joists) do
    local description = joist.is(item) and item.description or item
    marks[i] = description.mark or ""
  end
  if t.obstructions == nil then return {} end
  local things, problems = obstruction.read(t.obstructions, marks, whole and joists)
  table.move(problems, 1, #problems, #found + 1, found)
  return things
end

-- A floor from its description, or nil and the list of all that is wrong. Raises only for
-- fields that are not known, 'level' above the caller.
function floor.read(t, level)
  level = (level or 1) + 1
  parts.only("floor", t, FIELDS, level)
  if type(t.joists) ~= "table" or #t.joists == 0 then
    error("floor: joists: a list of joists expected", level)
  end
  local found = {}
  local joists = read_joists(t, found, level)
  local obstructions = read_obstructions(t, joists, #found == 0, found)
  if #found > 0 then return nil, found end
  return setmetatable({name = t.name or "Floor", joists = in_row(joists, t),
    rules = t.rules, standard = t.standard, by_depth = t.by_depth,
    obstructions = obstructions,
    description = t, survey = t.survey}, meta)
end

-- A floor from its description; raises at the caller's line with everything wrong.
-- @param t {name =, rules =, standard =, joists = {...}, obstructions =, any joist field}
function floor.new(t)
  local made, found = floor.read(t, 2)
  if made then return made end
  local texts = {}
  for i, problem in ipairs(found) do texts[i] = problem.text end
  error(table.concat(texts, "\n"), 2)
end

function meta.__tostring(self)
  return ("floor '%s', %d joists"):format(plain(self.name), #self.joists)
end

-- What a floor is seldom asked for is read when it is.

-- Fixes of one joist in order of what they disturb (see rank.lua).
function methods.rank_fixes(...)
  return require "netsection.rank".fixes(...)
end

-- The floor as a grid (see grid.lua).
function methods.grid(...)
  return require "netsection.grid".new(...)
end

-- Deflection under a person, frequency and published criteria (see feel.lua).
function methods.feel(...)
  return require "netsection.feel".new(...)
end

-- How sure the verdict of each joist is (see odds.lua).
function methods.odds(...)
  return require "netsection.odds".of_floor(...)
end

-- The joist with that mark, or nil.
function methods:joist(mark)
  for _, j in ipairs(self.joists) do
    if j.model.mark == mark then return j end
  end
end

-- The same floor with one joist repaired. @param t ns.sister{...} or another fix
function methods:fix(mark, t)
  local joists, found = {}, false
  for i, j in ipairs(self.joists) do
    found = found or j.model.mark == mark
    if j.model.mark == mark then
      local ok, fixed = pcall(j.fix, j, t)
      if not ok then error((tostring(fixed):gsub("^[^:]+%.lua:%d+: ", "")), 2) end
      j = fixed
    end
    joists[i] = j
  end
  if not found then error(("fix: no joist '%s'"):format(tostring(mark)), 2) end
  local description = {}
  for name, value in pairs(self.description) do description[name] = value end
  description.joists = joists
  return floor.new(description)
end

local review_meta = {__name = "netsection.floor_review", __tostring = function(r)
  return ("review of floor '%s', %d joists"):format(plain(r.name), #r.order)
end}

local RANK = {leave = 1, justify = 2, decide = 3, refer = 4, repair = 5}

local function summary_of(reviews)
  local worst
  for _, r in ipairs(reviews) do
    local ratio = r.cut.ratio or (r.action == "repair" and math.huge) or -1
    if not worst or RANK[r.action] > RANK[worst.action]
      or RANK[r.action] == RANK[worst.action] and ratio > worst.order then
      worst = {mark = r.mark, action = r.action, ratio = r.cut.ratio, order = ratio}
    end
  end
  worst.order = nil
  return {count = #reviews, worst = worst}
end

-- A second opinion beside the reviews; raises at the line of the review's caller.
local function second_opinion(make, self, reviews, t)
  local ok, found, why = pcall(make, self, reviews, t)
  if not ok then error((tostring(found):gsub("^[^:]+%.lua:%d+: ", "")), 3) end
  return found or {refused = why}
end

-- The same floor, all of whose joists are printed as its review is.
local function as_printed(self, options)
  local same, joists = true, {}
  local printed = review.printed(self.description, {units = options.units,
    lang = options.lang, rules = options.rules or self.rules,
    standard = options.standard or self.standard})
  for i, j in ipairs(self.joists) do
    joists[i] = review.is_printed(j, printed) and j or j:with(printed)
    same = same and joists[i] == j
  end
  if same then return self end
  local description = {}
  for name, value in pairs(self.description) do description[name] = value end
  description.joists, description.units = joists, printed.units
  description.lang = printed.lang
  return floor.new(description)
end

-- Raises at the line of the review's caller where no relief by depth goes by that name.
local function check_depth(by)
  if by.by_depth == nil then return end
  local rules = packs.rules(by.rules or packs.usual_rules(by.standard), "wood")
  local problem = rules and by_depth.problem(rules, by.by_depth)
  if problem then error("floor:review: " .. problem, 3) end
end

-- Reviews every joist. @param options {rules =, standard =, units = "us" | "metric",
-- lang = "en-US" | "en-GB" | "en-CA", by_depth = a condition of the rules' span
-- table}, else the floor's own; grid =
-- options of floor:grid: a second opinion that changes no ratio and no action; feel =
-- true, with the same options, or those of floor:feel
-- @return {name =, joists = {[mark] = review}, order = {marks}, actions = {leave = n},
--   summary = {count =, worst = {mark =, action =, ratio =}}, grid =, feel =}
function methods:review(options)
  if options == nil then options = {} end
  parts.only("floor:review", options, {"rules", "standard", "units", "lang", "by_depth",
    "grid", "feel"}, 2)
  self = as_printed(self, options)
  local by = {rules = options.rules or self.rules,
    standard = options.standard or self.standard,
    by_depth = options.by_depth or self.by_depth}
  check_depth(by)
  local out = {name = self.name, floor = self, joists = {}, order = {},
    actions = {leave = 0, justify = 0, decide = 0, ["repair"] = 0, refer = 0}}
  local reviews = {}
  for i, j in ipairs(self.joists) do
    local r = j:review(by)
    reviews[i], out.joists[r.mark], out.order[i] = r, r, r.mark
    out.actions[r.action] = out.actions[r.action] + 1
  end
  neighbors.add(reviews, by)
  shores.add(reviews)
  out.summary = summary_of(reviews)
  if options.grid ~= nil then
    local grid = require "netsection.grid"
    out.grid = second_opinion(grid.second, self, reviews, options.grid)
  end
  if options.feel then
    local t = options.feel == true and options.grid or options.feel
    if type(t) ~= "table" then
      error("floor:review: feel: options of floor:feel, or true beside grid, expected", 2)
    end
    out.feel = second_opinion(require "netsection.feel".of, self, reviews, t)
  end
  return setmetatable(out, review_meta)
end

function floor.is(value)
  return getmetatable(value) == meta
end

-- The way of the load into the ground (see load_path.lua), loaded when it is asked for:
-- it works on reviews of a floor.
function methods:load_path(options)
  return require "netsection.load_path".of(self, options)
end

-- Temporary shores on both sides of the work on one joist (see shore_lines.lua).
function methods:shores(options)
  return require "netsection.shore_lines".of(self, options)
end

return floor
