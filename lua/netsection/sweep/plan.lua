-- SPDX-License-Identifier: MIT
-- How the points of a sweep are worked. The axes that make joists are gone through one by
-- one: each joist is read and packed once; then the core takes runs of joists of one
-- topology with the lane axes between them. A repair that is made of joists of its own is
-- worked by its own lines of Lua on columns (chained.lua); what a joist has only in its
-- floor, and relief by depth, is reviewed point by point, sixteen together. Points that
-- come in another order are worked in boxes (turned.lua), each a plan of its own.
local chained = require "netsection.sweep.chained"
local joined = require "netsection.sweep.joined"
local enums = require "netsection.enums"
local core = require "netsection.core"
local fix = require "netsection.fix"
local in_floor = require "netsection.sweep.in_floor"
local lane = require "netsection.lane"
local model = require "netsection.model"
local parts = require "netsection.parts"
local ply = require "netsection.ply"
local point = require "netsection.point"
local review = require "netsection.review"
local search = require "netsection.sweep.search"
local turned = require "netsection.sweep.turned"
local batch = require "netsection.batch"
local values = require "netsection.sweep.values"
local error = require "netsection.raise".error

local plan = {}
plan.__index = plan

-- Points of a joist with a repair made of joists that are worked between two looks at
-- what the progress says.
local CHAINED = 1 << 14

-- Fault codes below this are the core's; from here on, texts of the plan.
local OWN = 15

-- Rows and numbers of an axis on lanes, the k-th of them.
local function add_lanes(t, axis, k)
  t.inner = t.inner * #axis.values
  t.sizes[#t.sizes + 1] = #axis.values
  local lists = axis.linked or {{rows = axis.rows, numbers = core.numbers(axis.known)}}
  for _, list in ipairs(lists) do
    for _, path in ipairs(list.rows) do
      t.columns[#t.columns + 1] = {axis = k, path = path, values = list.numbers}
    end
  end
end

-- @param t {joist =, kind = the module joist, axes =, outer =, values =, rules =,
--   standard =, by_depth =, threads =, functions = of listed points, turn = see
--   turned.lua; reasons, code_of, kept = of the plan that this one works a box of}
function plan.new(t)
  t.reasons, t.code_of = t.reasons or {}, t.code_of or {}
  t.kept = t.turn and {count = 0} or t.kept
  t.columns, t.functions, t.inner, t.sizes = {}, t.functions or {}, 1, {}
  for _, axis in ipairs(t.axes) do
    for _, list in ipairs(axis.linked or {axis}) do
      t.of_repairs = t.of_repairs or list.name == "fix"
    end
  end
  for _, o in ipairs(t.values) do
    t.seeks = t.seeks or o.search
    t.acts = t.acts or o.quantity == "action"
  end
  t.total = 1
  for i, axis in ipairs(t.axes) do
    t.total = t.total * #axis.values
    local makes = i <= t.outer
    if t.turn then makes = t.turn[i].makes end
    if makes then t.joined = t.joined or axis.columns
    else add_lanes(t, axis, i - t.outer) end
  end
  t.joined = t.joined and not t.by_review and not t.seeks and #t.functions == 0
    and (t.turn or t.inner <= joined.inner)
  return setmetatable(t, plan)
end

-- Steps of the axes a..b at an index, from 1.
function plan:steps(index, a, b)
  local steps = {}
  for i = b, a, -1 do
    local n = #self.axes[i].values
    steps[i] = index % n + 1
    index = index // n
  end
  return steps
end

function plan:code(text)
  if not self.code_of[text] then
    self.reasons[#self.reasons + 1] = text
    self.code_of[text] = OWN | #self.reasons << 4
  end
  return self.code_of[text]
end

-- Fields that a description calls otherwise than the core.
local FIELD = {Kcr = "creep", limit_live = "limits.live", limit_total = "limits.total"}

local function fault_text(why)
  local where = why.cut > 0 and ("cut %d, "):format(why.cut)
    or why.line > 0 and ("line load %d, "):format(why.line)
    or why.point > 0 and ("point load %d, "):format(why.point)
    or why.fix > 0 and "fix, " or ""
  local what = why.text == "out of range"
    and point.format("outside %g to %g %s", why.low, why.high, why.unit):gsub(" $", "")
    or why.text
  if why.text:find "same place" then return ("%s%s"):format(where, what) end
  return ("%s%s: %s"):format(where, FIELD[why.field] or why.field, what)
end

-- The text behind a fault.
function plan:reason(code)
  if code == 0 then return nil end
  if code & 15 == OWN then return self.reasons[code >> 4] end
  return fault_text(core.fault_text(code))
end

-- The text behind a fault of the point at an index: what differs from joist to joist is
-- looked for where it is asked for, by that joist's own review.
function plan:reason_at(code, index)
  local text = self:reason(code)
  if text ~= lane.mark then return text end
  local made, e = self:point_at(index)
  if not made then return e.reason end
  local r = made:review {rules = self.rules, standard = self.standard}
  return not r.computed and r.reasons[1] or r.fixed and r.fixed.refused or nil
end

-- Faults of points from 'first' on with their own texts.
function plan:tell(first, count, fault)
  local marked = self.code_of[lane.mark]
  for i = 1, marked and count or 0 do
    if fault[i] == marked then
      core.set(fault, i, self:code(self:reason_at(marked, first + i - 1)))
    end
  end
  return fault
end

------------------------------------------------------------------------- the places

-- Counts what 'chained' says of the joists that it worked.
function plan:add(worked)
  self.alone = (self.alone or 0) + worked.alone
  self.noted = (self.noted or 0) + worked.noted
  self.problem = worked.problem or self.problem
end

-- Fields of a point by its steps, without those that are functions.
function plan:fields(steps)
  local p = {}
  for i, axis in ipairs(self.axes) do
    if axis.linked then p[axis.name] = axis.known[steps[i]] end
    for _, list in ipairs(axis.linked or {axis}) do
      p[list.name] = list.known[steps[i]]
    end
  end
  return p
end

-- What the functions of a point give: {[name] = value}.
function plan:derived(p)
  local out = {}
  for _, of in ipairs(self.functions) do
    local value, why = of.f(p), nil
    if of.read then value, why = of.read(value) end
    if not value then
      error(("sweep: points.%s: a number expected of the function%s"):format(of.name,
        why and ": " .. why or ""), 0)
    end
    out[of.name] = value
  end
  return out
end

-- All fields of the point at an index.
function plan:place(index)
  local p = self:fields(self:steps(index, 1, #self.axes))
  for name, value in pairs(self:derived(p)) do p[name] = value end
  return p
end

-- Columns of the functions for 'count' points from index 'first' on, one per function.
function plan:derived_columns(first, count)
  local columns = {}
  for k in ipairs(self.functions) do columns[k] = core.numbers(count) end
  for n = 1, #columns > 0 and count or 0 do
    local out = self:derived(self:fields(self:steps(first + n - 1, 1, #self.axes)))
    for k, of in ipairs(self.functions) do core.set(columns[k], n, out[of.name]) end
  end
  return columns
end

---------------------------------------------------------------------------- the joists

local function changes_of(self, steps, a, b)
  local changes = {}
  for i = a, b do
    local axis = self.axes[i]
    for _, list in ipairs(axis.linked or {axis}) do
      changes[list.name] = list.values[steps[i]]
    end
  end
  -- What follows from a point's fields is known where all of them are.
  if b == #self.axes then
    local derived = self:derived(self:fields(steps))
    for name, value in pairs(derived) do changes[name] = value end
  end
  return changes
end

-- Description and repair of a joist by the axes a to b.
local function described(self, index, a, b)
  return self.kind.altered(self.joist, changes_of(self, self:steps(index, a, b), a, b), 1)
end

-- Raises where an axis is no field: the names are the same at every point.
function plan:try_names(level)
  local steps = {}
  for i in ipairs(self.axes) do steps[i] = 1 end
  local changes = changes_of(self, steps, 1, #self.axes)
  local description = self.kind.altered(self.joist, changes, level + 1)
  parts.only("sweep", description, model.fields, level + 1)
end

local function without_mark(found)
  local lines = {}
  for i, problem in ipairs(found) do
    lines[i] = problem.text:gsub("^joist .-[,:] ", "", 1)
  end
  return table.concat(lines, "; ")
end

local function packed(m)
  local p = core.packed(m)
  return p, core.topology(p)
end

-- A joist with tubs by the other reading of the live load under them, where an action is
-- asked for: what would be left is then decided (see review.lua).
local function other_reading(self, description, m)
  if not self.acts or #m.tubs == 0 then return nil end
  local other = review.with_tubs_added(description)
  return other and {packed = packed(other), state = #m.cuts > 0 and "cut" or "uncut"}
end

-- A joist without a repair: the lane axes may make sense of what does not as it stands.
local function plain_entry(self, index)
  local description = described(self, index, 1, self.outer)
  local m, found = model.of(description)
  if #found > 0 then return {reason = without_mark(found)} end
  local lacking = review.lacking(m, self.packs.standard)
  if lacking then return {reason = lacking, refer = true} end
  if ply.cut(m) then
    return {reason = "cuts: a cut in one ply comes with the joist, not with an axis"}
  end
  local e = {}
  e.packed, e.key = packed(m)
  e.other = other_reading(self, description, m)
  return e
end

-- A joist with its repair, read whole; nil and an entry that says why not.
local function repaired(self, index, a, b)
  local description, repair = described(self, index, a, b)
  local made, found = self.kind.read(description)
  if not made then return nil, {reason = without_mark(found)} end
  made = made:placed(self.joist.row)
  if not repair then return made end
  local fixed, wrong = made:fixed(repair)
  if not fixed then return nil, {reason = without_mark(wrong)} end
  return fixed
end

-- A joist whose repair is made of joists of its own: the core has it as it is, 'chained'
-- the rest, from the joist described by the outer axes and a repair.
local function chained_entry(self, index, made)
  local e = {chained = {made.description, made.repair and made.repair.given}}
  e.packed, e.key = packed(made.model)
  e.other = other_reading(self, made.description, made.model)
  e.apart = "chained"
  return e, index
end

-- A joist of a sweep over repairs that has none: values without a state speak of it.
local function bare_entry(self, index, made)
  local e = chained_entry(self, index, made)
  e.chained, e.apart = nil, #made.model.cuts > 0 and "cut" or "uncut"
  return e
end

-- A joist with a repair.
local function fixed_entry(self, index)
  local made, entry = repaired(self, index, 1, self.outer)
  if not made then return entry end
  local lacking = review.lacking(made.model, self.packs.standard)
  if lacking then return {reason = lacking, refer = true} end
  if not made.repair then return bare_entry(self, index, made) end
  if not fix.works_on_lanes(made.repair) then return chained_entry(self, index, made) end
  local m, why, counts = fix.on_lanes(made, self.packs)
  local e = {reason = why, counts = counts}
  e.packed, e.key = packed(m or made.model)
  e.other = other_reading(self, made.description, made.model)
  e.refused = why ~= nil
  e.apart = e.refused and "refused" or nil
  return e
end

-- The joist of a chain with values of its lane axes, one or many.
local function read_chained(self, chain, changes)
  local base = {description = chain[1]}
  local made, found = self.kind.read((self.kind.altered(base, changes, 1)))
  if not made then return nil, without_mark(found) end
  local fixed, wrong = made:placed(self.joist.row):fixed(chain[2])
  if not fixed then return nil, without_mark(wrong) end
  return fixed
end

-- Entries that boxes share; a few, for a packed joist is large.
local KEPT = 512

-- The entry of an outer index, made or had from another box of the same points.
local function entry_of(self, index, make)
  if not self.number then return make(self, index) end
  local kept, number = self.kept, self.number(index)
  if not kept[number] then
    if kept.count >= KEPT then
      for k in pairs(kept) do kept[k] = nil end
      kept.count = 0
    end
    kept[number], kept.count = make(self, index), kept.count + 1
  end
  return kept[number]
end

-- Entries of the outer indices from a to b. The last is kept: a stream goes on with it.
local function entries_of(self, a, b)
  local list, first = {}, 1
  if self.last and self.last.index == a then list[1], first = self.last.entry, 2 end
  local count = b - a + 2 - first
  if self.joist.repair or self.of_repairs then
    batch.each(count, function(i)
      list[first + i - 1] = entry_of(self, a + first + i - 2, fixed_entry)
    end)
  else
    for i = first, b - a + 1 do list[i] = entry_of(self, a + i - 1, plain_entry) end
  end
  self.last = {index = b, entry = list[b - a + 1]}
  return list
end

------------------------------------------------------------------------------- working

-- Outputs that the core has for a run of joists, and their columns.
-- @param e entry of the first of them: its 'apart' says what of the fixed state there is
local function wanted(self, e, to)
  local outputs, columns = {}, {}
  local bare = e.apart == "cut" or e.apart == "uncut"
  for i, o in ipairs(self.values) do
    local fixed = o.state == "fixed"
    local state = not fixed and o.state or not e.apart and "fixed"
      or bare and o.whichever and e.apart or nil
    if o.quantity and state then
      outputs[#outputs + 1] = {quantity = o.quantity, state = state, mode = o.mode,
        index = o.index}
      columns[#columns + 1] = to[i]
    end
  end
  return outputs, columns
end

-- What does not vary over the lanes: counts, and the status of a repair that is refused.
local function fill(self, e, to, at, count)
  for i, o in ipairs(self.values) do
    local value
    if o.count and not e.refused and e.counts then value = e.counts[o.count] end
    if o.quantity == "status" and o.state == "fixed" and e.refused then
      value = enums.not_permitted
    elseif o.quantity == "action" and e.refer then
      value = values.code(o, "refer")
    end
    if value then core.fill(to[i], at, count, value) end
  end
end

-- Points of one outer joist within first..last, and where they stand in the columns.
local function part_of(w, index)
  local a = math.max(w.first, index * w.inner)
  local b = math.min(w.first + w.count, (index + 1) * w.inner)
  return w.at + a - w.first, b - a, a - index * w.inner
end

-- Spans that are sought, of a run that was worked: those whose points are in order.
local function seek(self, w, run)
  for i, o in ipairs(self.values) do
    if o.search then
      local length, code = search.longest(run, o.state, o.modes)
      for n = 1, run.count do
        local value = length[n]
        if o.words then value = code[n] end
        if w.fault[run.at + n] == 0 then core.set(w.to[i], run.at + n, value) end
      end
    end
  end
end

-- The columns of the axes, and those of functions for the points that are worked.
local function with_derived(self, first, count)
  if #self.functions == 0 then return self.columns end
  local columns = table.move(self.columns, 1, #self.columns, 1, {})
  local derived = self:derived_columns(first, count)
  for k, of in ipairs(self.functions) do
    for _, path in ipairs(of.rows) do
      columns[#columns + 1] = {axis = 0, path = path, values = derived[k]}
    end
  end
  return columns
end

-- The points of one outer joist that are left, but would be above 1 by the other reading
-- of their tubs: 'decide'.
local function decide_tubs(self, w, run, e, index)
  local at, count, first = part_of(w, index)
  local ratio, fault = core.numbers(count), core.faults(count)
  core.sweep {models = {e.other.packed}, sizes = self.sizes,
    columns = with_derived(self, index * self.inner + first, count), first = first,
    count = count, threads = self.threads, rules = run.rules,
    standard = run.standard, fault = fault, to = {ratio},
    outputs = {{quantity = "ratio", state = e.other.state}}}
  for i, o in ipairs(self.values) do
    local leave, decide = values.code(o, "leave"), values.code(o, "decide")
    for n = 1, o.quantity == "action" and count or 0 do
      local over = fault[n] == 0 and (ratio[n] or 0) > review.full
      if over and w.to[i][at + n] == leave then core.set(w.to[i], at + n, decide) end
    end
  end
end

local work_chained -- below

-- One run of joists of one topology, from outer index i to j.
local function work_run(self, w, list, i, j)
  local at, _, first = part_of(w, i)
  local last_at, last_count = part_of(w, j)
  local columns = with_derived(self, i * self.inner + first, last_at + last_count - at)
  local run = {models = {}, sizes = self.sizes, columns = columns, at = at,
    first = first, count = last_at + last_count - at, threads = self.threads,
    rules = self.packs.rules.core, standard = self.packs.standard.core,
    fault = w.fault, progress = w.progress and function(n)
      return w.progress(w.done + n)
    end}
  for k = i, j do run.models[k - i + 1] = list[k - w.o1 + 1].packed end
  run.outputs, run.to = wanted(self, list[i - w.o1 + 1], w.to)
  -- The joist as it is, where something is asked of it alone.
  if #run.outputs == 0 and list[i - w.o1 + 1].chained then return nil end
  local done, interrupted = core.sweep(run)
  w.done = w.done + done
  if interrupted then return "interrupted" end
  if done < run.count then return "stopped" end
  if self.seeks then seek(self, w, run) end
  for k = i, j do
    local e = list[k - w.o1 + 1]
    if e.other then decide_tubs(self, w, run, e, k) end
  end
end

-- Columns of the lane axes by field for 'count' points from 'first' on, 'at' of those
-- that are worked.
local function lanes_of(self, first, count, derived, at)
  local columns, every = {}, self.inner
  for i = self.outer + 1, #self.axes do
    local axis = self.axes[i]
    every = every // #axis.values
    for _, list in ipairs(axis.linked or {axis}) do
      local numbers = list.numbers or core.numbers(list.known)
      columns[list.name] = core.lanes(numbers, first, count, every)
    end
  end
  for k, of in ipairs(self.functions) do
    columns[of.name] = core.lanes(derived[k], at, count, 1)
  end
  return columns
end

-- The points of one outer joist whose repair is made of joists.
function work_chained(self, w, e, index)
  local at, total, first = part_of(w, index)
  local derived = self:derived_columns(index * self.inner + first, total)
  local outputs, to = {}, {}
  for i, o in ipairs(self.values) do
    if o.state == "fixed" then outputs[#outputs + 1], to[o] = o, w.to[i] end
  end
  e.traces = e.traces or {}
  for done = 0, #outputs > 0 and total - 1 or -1, CHAINED do
    local count = math.min(CHAINED, total - done)
    local worked = chained.work {count = count, outputs = outputs, to = to,
      columns = lanes_of(self, first + done, count, derived, done),
      read = function(changes) return read_chained(self, e.chained, changes) end,
      packs = {rules = self.rules, standard = self.standard}, fault = w.fault,
      at = at + done, code = function(text) return self:code(text) end,
      traces = e.traces, threads = self.threads}
    self:add(worked)
    w.done = w.done + count
    if w.progress and w.progress(w.done) == false then return "stopped" end
  end
end

local function close_entry(self, w, e, index)
  local at, count = part_of(w, index)
  if e.reason then core.fill(w.fault, at, count, self:code(e.reason)) end
  fill(self, e, w.to, at, count)
end

-- Joists of one topology, from outer index i to j.
local function work_entries(self, w, list, i, j)
  if list[i - w.o1 + 1].packed then
    local stopped = work_run(self, w, list, i, j)
    for k = i, stopped and i - 1 or j do
      local e = list[k - w.o1 + 1]
      stopped = stopped or e.chained and work_chained(self, w, e, k)
    end
    if stopped then return stopped end
  end
  for k = i, j do close_entry(self, w, list[k - w.o1 + 1], k) end
end

local function work_lanes(self, w)
  local list = entries_of(self, w.o1, w.o2)
  local i = w.o1
  while i <= w.o2 do
    local e, j = list[i - w.o1 + 1], i
    local function same(n)
      local other = list[n - w.o1 + 1]
      return n <= w.o2 and other.key == e.key and other.apart == e.apart
    end
    while e.packed and same(j + 1) do j = j + 1 end
    local stopped = work_entries(self, w, list, i, j)
    if stopped then return stopped end
    i = j + 1
  end
end

-- Joists of which a repair is worked out for many at once; those that are left, alone.
local function work_joined(self, w)
  w.shift = w.first - w.o1 * self.inner
  function w.wanted(e, to) return wanted(self, e, to) end
  function w.alone(indices)
    local list = {}
    batch.each(#indices, function(n)
      list[indices[n] - w.o1 + 1] = fixed_entry(self, indices[n])
    end)
    for _, k in ipairs(indices) do
      local stopped = work_entries(self, w, list, k, k)
      if stopped then return stopped end
    end
  end
  return joined.work(self, w)
end

-- What a joist has only in its floor: a function of an output.
local function floor_values(self, made)
  local of_floor, why = in_floor.point(self.in_floor, made)
  return function(o)
    if not of_floor then return nil, why end
    return of_floor:value(o)
  end
end

-- Points whose repair is reviewed by itself; here every axis makes joists.
local function work_reviews(self, w)
  local packs = {rules = self.rules, standard = self.standard, by_depth = self.by_depth}
  batch.each(w.count, function(n)
    local made, e = repaired(self, w.first + n - 1, 1, #self.axes)
    local at = w.at + n
    local r = made and made:review(packs)
    local reason = e and e.reason or not r.computed and r.reasons[1]
      or r.fixed and r.fixed.refused or nil
    local shared = made and self.in_floor and floor_values(self, made)
    for i, o in ipairs(self.values) do
      local value, why
      if o.shared and shared then
        value, why = shared(o)
      elseif r then
        value = values.of(r, o)
      end
      reason = reason or why
      if r then core.set(w.to[i], at, values.code(o, value)) end
    end
    if reason then core.set(w.fault, at, self:code(reason)) end
  end)
  w.done = w.done + w.count
end

-- Works points first .. first + count - 1, counted from 0, into columns from the place
-- after 'at'.
-- @return nil, or "interrupted", or "stopped" by the progress function
function plan:work(first, count, to, fault, at, progress)
  if self.turn then return turned.work(self, first, count, to, fault, at, progress) end
  local w = {first = first, count = count, to = to, fault = fault, at = at,
    progress = progress, inner = self.inner, done = 0, o1 = first // self.inner,
    o2 = (first + count - 1) // self.inner}
  if self.by_review then return work_reviews(self, w) end
  if self.joined then return work_joined(self, w) end
  return work_lanes(self, w)
end

-- Points of a piece from an index on, where so many are wanted: those of one box.
function plan:piece(first, most)
  return self.turn and turned.points(self, first, most) or most
end

-- The joist of a point, or nil and an entry that says why not.
function plan:point_at(index)
  return repaired(self, index, 1, #self.axes)
end

-- The joist of a point as a description would make it, or nil and the reason.
function plan:joist_at(index)
  local made, e = repaired(self, index, 1, #self.axes)
  return made, e and e.reason
end

-- What the joist of a point has in its floor; nil and the reason where it has none.
function plan:in_floor_at(index, o)
  local made, e = repaired(self, index, 1, #self.axes)
  if not made then return nil, e.reason end
  return floor_values(self, made)(o)
end

-- Most points that are worked at a time: few joists are kept packed at once.
function plan:stride()
  if self.turn then return 1 << 18 end
  if self.by_review then return 256 end
  if self.joined then return math.max(1 << 15, 1024 * self.inner) end
  return math.max(1, math.min(1 << 18, 1024 * self.inner))
end

return plan
