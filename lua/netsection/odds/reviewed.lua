-- SPDX-License-Identifier: MIT
-- A joist as the model of a question. Each draw is a lane of the core's sweep, on the
-- same path as a review, so ratio and action are those of that joist's review. What the
-- core takes as numbers varies draw by draw; values of a choice are joists of their own.
-- A repair that is made of joists of its own is worked as in a sweep (sweep/chained.lua).
local axes = require "netsection.sweep.axes"
local chained = require "netsection.sweep.chained"
local enums = require "netsection.enums"
local core = require "netsection.core"
local fix = require "netsection.fix"
local inputs = require "netsection.odds.inputs"
local ply = require "netsection.ply"
local point = require "netsection.point"
local review = require "netsection.review"
local error = require "netsection.raise".error

local reviewed = {}
reviewed.__index = reviewed

local NOT_REVIEWED = "not reviewed"
reviewed.not_reviewed = NOT_REVIEWED

-- Rows of what a review of a joist described otherwise would change, and no axis of a
-- sweep has: sizes as measured keep the size factor of their nominal size.
local OWN = {b = {"b"}, d = {"d"}, ["material.Fb"] = {"Fb"}, ["material.Fv"] = {"Fv"},
  ["material.Ft"] = {"Ft"}, ["material.Fc"] = {"Fc"},
  ["material.Fc_perp"] = {"Fc_perp"}, ["material.E"] = {"E"}}

local function own_rows(joist, name)
  local rows = OWN[name]
  if not rows or joist.repair then return nil end
  local of = name:match "^material%.(.*)$"
  local material = joist.description.material
  if of and not (material and material[of]) then return nil end
  -- Without an Emin of its own, it follows E.
  if name == "material.E" and not material.Emin then return {"E", "Emin"} end
  return rows
end

-- Rows of the core that an input's number is put into, or nil and what is wrong.
local function rows_of(joist, name)
  local rows = own_rows(joist, name)
  if rows then return rows end
  local rows_known = axes.lane_rows(name, joist)
  if rows_known then return rows_known end
  return nil, ("inputs: %s: no number of this joist%s that can vary from draw to draw: "
    .. "give a choice of values"):format(name, joist.repair and " with its repair" or "")
end

-- Reads numbers of an input: lengths and loads as people write them.
local function reader(joist)
  return function(name)
    local _, read = axes.lane_rows(name, joist)
    if not read and (name == "b" or name == "d") then read = axes.length end
    return read and function(value)
      local v, why = read(value)
      return v or nil, why or "a number expected"
    end
  end
end

reviewed.reader = reader

local function without_mark(found)
  return (found[1].text:gsub("^joist .-[,:] ", "", 1))
end

-- The core's joist for one value of each choice; nil and why there is none.
local function packed_of(self, changes)
  local made = self.joist
  if next(changes) then
    local ok, found
    ok, made, found = pcall(made.changed, made, changes)
    if not ok then return nil, (made:gsub("^.-:%d+: ", "", 1):gsub("^with: ", "")) end
    if made and self.joist.repair then
      made, found = made:fixed(self.joist.repair.given)
    end
    if not made then return nil, without_mark(found) end
  end
  local lacking = review.lacking(made.model, self.packs.standard)
  if lacking then return nil, lacking end
  if not made.repair then return core.packed(made.model), made end
  if self.chained then
    self.made[#self.made + 1] = made
    return core.packed(made.model), made
  end
  local m, why = fix.on_lanes(made, self.packs)
  if not m then return nil, why end
  return core.packed(m), made
end

-- "inputs: grade = No.1, live = 30: ", in order.
local function changed_text(changes)
  local list = {}
  for name, value in pairs(changes) do
    list[#list + 1] = ("%s = %s"):format(name, inputs.name_of(value, 1))
  end
  table.sort(list, point.less)
  return list[1] and ("inputs: %s: "):format(table.concat(list, ", ")) or ""
end

local function prepare(self)
  local total = 1
  for _, c in ipairs(self.choices) do total = total * #c.input.values end
  if total > 4096 then
    return nil, ("inputs: the choices make %d joists, at most 4096"):format(total)
  end
  local key
  for n = 1, total do
    local changes, rest = {}, n - 1
    for i = #self.choices, 1, -1 do
      local input = self.choices[i].input
      changes[input.name] = input.values[rest % #input.values + 1]
      rest = rest // #input.values
    end
    local packed, made = packed_of(self, changes)
    if not packed then
      return nil, changed_text(changes) .. made
    end
    local mine = core.topology(packed)
    key = key or mine
    if mine ~= key then
      return nil, "inputs: values of a choice make joists with other cuts, supports or "
        .. "loads in number: ask about them one at a time"
    end
    self.packed[n] = packed
  end
  return self
end

local function columns_of(self)
  for k, input in ipairs(self.inputs) do
    if input.values then
      self.choices[#self.choices + 1] = {input = input, column = k}
    else
      local rows, why = rows_of(self.joist, input.name)
      if not rows then return nil, why end
      for _, row in ipairs(rows) do
        local factor = row == "Emin" and self.joist.model.Emin / self.joist.model.E or nil
        self.columns[#self.columns + 1] = {path = row, column = k, factor = factor}
      end
    end
  end
  return self
end

-- @param t {joist =, inputs =, packs = {rules =, standard =},
--   threads =} @return the model, or nil and what is wrong
function reviewed.new(t)
  local joist = t.joist
  if ply.cut(joist.model) then return nil, ply.unsearched(joist.model) end
  if not joist.repair and review.with_tubs_added(joist.description) then
    return nil, "a tub on the floor's live load is read both ways, and the action "
      .. "follows both: say under = \"add\" to draw one of them"
  end
  local self = setmetatable({joist = joist, inputs = t.inputs, packs = t.packs,
    threads = t.threads, columns = {}, choices = {}, packed = {}, made = {},
    traces = {}, texts = {},
    chained = joist.repair and not fix.works_on_lanes(joist.repair) or nil,
    words = table.move(review.actions, 1, #review.actions, 1, {})}, reviewed)
  self.state = joist.repair and "fixed" or #joist.model.cuts > 0 and "cut" or "uncut"
  if self.state == "fixed" then
    self.words = table.move(enums.words.status, 1, #enums.words.status, 1, {})
  end
  local ok, why = columns_of(self)
  if not ok then return nil, why end
  return prepare(self)
end

-- What a review says of the joist as it is described.
function reviewed:nominal(r)
  local a = r[self.state]
  return {ratio = a and a.ratio, action = self.state == "fixed" and a.status or r.action}
end

local function scaled(column, n, factor)
  local out = core.numbers(n)
  for i = 1, n do core.set(out, i, column[i] * factor) end
  return out
end

-- Numbers of the core for n draws: a column per output, and faults.
-- @param models one packed joist, or one for each draw
-- @param columns {{axis = 0, path =, values = n numbers}, ...}
function reviewed:sweep(models, columns, n, outputs)
  local to, fault = {}, core.faults(n)
  for i = 1, #outputs do to[i] = core.numbers(n) end
  local _, interrupted = core.sweep {models = models, sizes = #models == n and {} or {n},
    columns = columns, outputs = outputs, to = to, fault = fault, count = n,
    threads = self.threads, rules = self.packs.rules.core,
    standard = self.packs.standard.core}
  if interrupted then error("interrupted!", 0) end
  return to, fault
end

-- Which joist each draw has, by its values of all choices, counted like digits from 0.
local function numbers_of(self, columns, n)
  local number = {}
  for i = 1, n do number[i] = 0 end
  for _, c in ipairs(self.choices) do
    local column, values = columns[c.column], #c.input.values
    for i = 1, n do number[i] = number[i] * values + column[i] - 1 end
  end
  return number
end

local function models_of(self, columns, n)
  if #self.choices == 0 then return {self.packed[1]} end
  local models, number = {}, numbers_of(self, columns, n)
  for i = 1, n do models[i] = self.packed[number[i] + 1] end
  return models
end

local function run(self, columns, n, outputs)
  local models, list = models_of(self, columns, n), {}
  for i, c in ipairs(self.columns) do
    local values = columns[c.column]
    if c.factor then values = scaled(values, n, c.factor) end
    list[i] = {axis = 0, path = c.path, values = values}
  end
  return self:sweep(models, list, n, outputs)
end

-- Draws first + 1 to first + n of a joist by its number, those of a mask or all.
local function chain(self, w, number, columns, mask)
  local made = self.made[number]
  local places = core.numbered(w.count)
  local lanes = {}
  for k, input in ipairs(self.inputs) do
    if not input.values then
      lanes[input.name] = core.lanes(columns[k], w.at, w.count, 1)
    end
  end
  if mask then
    places = core.parted(places, mask, true)
    for name, column in pairs(lanes) do lanes[name] = core.parted(column, mask, true) end
  end
  if #places == 0 then return end
  chained.work {count = #places, places = places, columns = lanes, outputs = w.outputs,
    to = w.to, fault = w.fault, at = w.at, threads = self.threads,
    traces = self.traces[number], packs = {rules = self.packs.rules.spec,
    standard = self.packs.standard.spec}, code = w.code,
    read = function(changes)
      local of, found = made:changed(changes)
      if of then of, found = of:fixed(made.repair.given) end
      return of or nil, found and without_mark(found)
    end}
end

local RATIO = {name = "ratio", quantity = "ratio", state = "fixed"}
local STATUS = {name = "status", quantity = "status", state = "fixed",
  words = enums.words.status}

-- Ratio and status of a repair that is made of joists of its own.
local function chain_all(self, columns, n)
  local ratio, status, fault = core.numbers(n), core.numbers(n), core.faults(n)
  local number = #self.choices > 0 and core.numbers(numbers_of(self, columns, n))
  for first = 0, n - 1, chained.most do
    local w = {at = first, count = math.min(chained.most, n - first), fault = fault,
      outputs = {RATIO, STATUS}, to = {[RATIO] = ratio, [STATUS] = status},
      code = function(text)
        self.texts[#self.texts + 1] = text
        return 1
      end}
    local of = number and core.lanes(number, first, w.count, 1)
    for k in ipairs(self.made) do
      self.traces[k] = self.traces[k] or {}
      chain(self, w, k, columns, of and core.larger(of, k - 1.5)
        * core.larger(k - 0.5, of))
    end
  end
  return ratio, status, fault
end

-- The joist as it is entered; nil and why the core has no numbers of it.
function reviewed:as_entered()
  return packed_of(self, {})
end

local function outputs_of(self)
  return {{quantity = "ratio", state = self.state}, self.state == "fixed"
    and {quantity = "status", state = "fixed"} or {quantity = "action", state = "uncut"},
    {quantity = "rules", state = "uncut"}}
end

local WITHIN = enums.of(enums.words.rules, "within")

-- Code of an action's word; nil for what could not be reviewed.
function reviewed:code(word)
  return enums.of(self.words, word)
end

-- Iterates over the words of actions and their codes.
function reviewed:action_codes()
  local i = 0
  return function()
    i = i + 1
    local word = self.words[i]
    if word then return word, i - 1 end
    if i == #self.words + 1 then return NOT_REVIEWED, nil end
  end
end

-- @return {ratio = column, action = column of codes, none where a draw is no joist, rules
--   = column of codes (nil without cuts), within = the one that is within}
function reviewed:work(columns, n)
  local to, fault
  if self.chained then
    to = run(self, columns, n, {outputs_of(self)[3]})
    to[3] = to[1]
    to[1], to[2], fault = chain_all(self, columns, n)
  else
    to, fault = run(self, columns, n, outputs_of(self))
  end
  local bad = core.count(to[2], 0, n)
  for i = 1, bad > 0 and not self.fault and n or 0 do
    if not to[2][i] and not self.fault then self.fault = fault[i] end
  end
  return {ratio = to[1], action = to[2], rules = #self.joist.model.cuts > 0 and to[3]
    or nil, within = WITHIN}
end

-- What is wrong with the first draw that is no joist.
function reviewed:why_not()
  if #self.texts > 0 then return self.texts[1] end
  local why = core.fault_text(self.fault)
  return why.field and why.text == "out of range" and point.format("%s outside %g to %g",
    why.field, why.low, why.high) or why.text
end

-- Answers at several places: lists of a value per input.
function reviewed:each(places)
  local n, columns = #places, {}
  for k = 1, #self.inputs do
    local list = {}
    for i, at in ipairs(places) do list[i] = at[k] end
    columns[k] = core.numbers(list)
  end
  local worked, answers = self:work(columns, n), {}
  for i = 1, n do
    answers[i] = {ratio = worked.ratio[i],
      action = enums.word(self.words, worked.action[i]) or NOT_REVIEWED}
  end
  return answers
end

-- Trade words for an input: "depth of hole 1".
local WORD = {at = "place of", from = "beginning of", to = "end of",
  diameter = "diameter of", below = "wood below", above = "wood above",
  at_depth = "depth of", height = "height of", depth = "depth of", length = "length of",
  top = "loss at the top of", bottom = "loss at the bottom of", sides = "side loss of"}
local PLAIN = {d = "depth of the joist", b = "thickness of the joist",
  dead = "dead load", live = "live load"}

function reviewed:label(name)
  local i, field = name:match "^cuts%.(%d+)%.([%w_]+)$"
  local cut = i and self.joist.model.cuts[tonumber(i)]
  if cut and WORD[field] then return ("%s %s"):format(WORD[field], cut.name) end
  return PLAIN[name] or (name:gsub("^material%.", ""))
end

return reviewed
