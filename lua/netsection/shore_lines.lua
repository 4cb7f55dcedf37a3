-- SPDX-License-Identifier: MIT
-- Temporary shores of a floor on both sides of the work: what every joist puts on each
-- line, the shore beam with its posts under it, how many posts it takes, and what they
-- put on the floor below, which is not checked. Dead load and the construction live load
-- that the user gives; CD of load during the work.
local beam_line = require "netsection.member.beam_line"
local document = require "netsection.document"
local member = require "netsection.member"
local member_report = require "netsection.member.report"
local members = require "netsection.members"
local model = require "netsection.model"
local numbers = require "netsection.numbers"
local obstruction = require "netsection.obstruction"
local parts = require "netsection.parts"
local pieces = require "netsection.pieces"
local point = require "netsection.point"
local post = require "netsection.member.post"
local quantity = require "netsection.quantity"
local shores = require "netsection.shores"
local units = require "netsection.units"
local verdict = require "netsection.verdict"
local plain = require "netsection.document.escape".text
local tostring = require "netsection.point".text

local lines = {}

local OPTIONS = {"mark", "at", "construction_live", "beside", "from", "to", "beam",
  "capacity", "sole", "head", "end_plate", "rules", "standard"}

-- A shore beam that sags more lets the work sag with it (assumption), in.
local SAG = 1 / 8
local MOST = 7     -- posts under a shore beam

local read = model.readers

---------------------------------------------------------------------------------- input

-- The two places along the joists.
local function read_places(t, found)
  if type(t.at) ~= "table" or #t.at ~= 2 then
    found:add(nil, "at", "two places of shores, before and beyond the work, expected")
    return {}
  end
  local a = read.length(found, nil, "at[1]", t.at[1])
  local b = read.length(found, nil, "at[2]", t.at[2])
  if a and b and a >= b then
    found:add(nil, "at", "the second shore beyond the first expected")
  end
  return {a, b}
end

-- The number of a joist by its mark.
local function marked(reviews, mark)
  for i, r in ipairs(reviews) do
    if r.mark == mark then return i end
  end
end

-- First and last joist over the shores, and the one that is worked on.
local function read_joists(t, reviews, found)
  local own = marked(reviews, t.mark)
  if not own then
    found:add(nil, "mark", ("no joist '%s'"):format(tostring(t.mark)))
    return 1, 1, 1
  end
  local n = t.beside ~= nil and read.whole(found, nil, "beside", t.beside, 0, 20) or 1
  local first, last = math.max(1, own - (n or 1)), math.min(#reviews, own + (n or 1))
  for _, name in ipairs {"from", "to"} do
    local i = t[name] ~= nil and marked(reviews, t[name])
    if t[name] ~= nil and not i then
      found:add(nil, name, ("no joist '%s'"):format(tostring(t[name])))
    elseif t[name] ~= nil and t.beside ~= nil then
      found:add(nil, name, "give beside, or from and to, not both")
    elseif i and name == "from" then
      first = i
    elseif i then
      last = i
    end
  end
  if own < first or own > last then
    found:add(nil, "from", "the joist worked on lies between 'from' and 'to'")
  end
  return first, last, own
end

-- The shore beam, described as ns.beam_line.
local function read_beam(t, found)
  if t.beam == nil then
    found:add(nil, "beam", "missing: ns.beam_line{size =, plies =, ...} under the joists")
  elseif not members.is.beam_line(t.beam) then
    found:add(nil, "beam", "ns.beam_line{...} expected")
  elseif t.beam.loads ~= nil or t.beam.at ~= nil or t.beam.from ~= nil
    or t.beam.to ~= nil then
    found:add(nil, "beam", "its place and its loads follow from the shores")
  end
end

----------------------------------------------------------------------------------- lines

-- What each joist puts on the line at x: dead, and the construction live load more.
local function loads_at(s, x)
  local out = {}
  for i = s.first, s.last do
    for _, p in ipairs(s.joists[i] and s.joists[i].supports or {}) do
      if p.kind == "shore" and math.abs(p.at - x) < 1e-6 then
        local m = s.reviews[i].joist.model
        out[#out + 1] = {y = s.places[i].y - s.y0, D = p.dead,
          L = (p.total or p.dead) - p.dead, mark = s.reviews[i].mark, wood = m,
          to_end = math.min(x + m.overhang_left, model.total(m) + m.overhang_right - x)}
      end
    end
  end
  return out
end

-- Posts evenly from the first joist to the last.
local function evenly(s, n)
  local list, width = {}, s.places[s.last].y - s.y0
  for i = 1, n do list[i] = {y = width * (i - 1) / (n - 1), mark = "S" .. i} end
  return list
end

-- Posts with what they are: of a rated load, or the beam's own.
local function with_posts(s, list)
  for _, p in ipairs(list) do
    if s.capacity then p.post = s.rated end
    local own = s.f.given.post
    if not p.post and own then p.post = post.read(own, 3, s.standard) end
  end
  return list
end

-- A beam's sag is held to 1/8 in, whatever its span.
local function sag_check(a, standard)
  local d = a.deflection
  if not d or d.total <= 0 then return end
  a.checks[#a.checks + 1] = member.check {standard = standard,
    mode = "deflection-total", branch = 1, demand = d.total, D_L = d.total,
    L = d.length, n = d.length / SAG, member = "beam",
    name = ("at most %s (ours)"):format(a.show.about(SAG)), clause = "an assumption"}
end

-- The beam on its posts under the loads, its sag held to the limit.
local function worked(s, posts, loads)
  local a = beam_line.assess(s.f, {posts = with_posts(s, posts), loads = loads},
    s.standard, 3)
  if a.ratio then
    a.status = a.status == "not permitted" and a.status or nil
    sag_check(a, s.standard)
    member.settle(a)
  end
  return a
end

-- Whether the beam and every post under it hold.
local function holds(a)
  if a.status ~= "adequate" then return false end
  for _, p in ipairs(a.posts) do
    if p.state and not post.holds(p.state) then return false end
  end
  return true
end

-- Posts at the places given; else as few as hold: two at least, as many as the capacity
-- of one asks for, more where the beam or a post would not hold.
local function beam_of(s, loads, total)
  if #s.f.posts > 0 then
    -- The place of a post: under a joist by its mark, or a length.
    local function place(p)
      local i = marked(s.reviews, p)
      if i then return s.places[i].y - s.y0 end
      return units.length(p)
    end
    return worked(s, beam_line.posts(s.f, place, 3, s.standard), loads)
  end
  local n = math.max(2, s.capacity and math.ceil(total / s.capacity - 1e-9) or 2)
  local last
  for k = math.min(n, MOST), MOST do
    if (s.places[s.last].y - s.y0) / (k - 1) < 12 then break end
    last = worked(s, evenly(s, k), loads)
    if holds(last) then return last end
  end
  return last or worked(s, evenly(s, 2), loads)
end

-- A line of shores: loads, beam, posts, what goes down.
local function line_of(s, x, k)
  local loads = loads_at(s, x)
  local t = {at = x, name = k == 1 and "first line" or "second line", loads = loads,
    D = 0, L = 0}
  for _, q in ipairs(loads) do t.D, t.L = t.D + q.D, t.L + q.L end
  t.state = beam_of(s, loads, t.D + t.L)
  t.state.mark = t.name
  local width = s.places[s.last].y - s.y0
  t.plf = width > 0 and (t.D + t.L) / width * 12 or nil
  return t
end

--------------------------------------------------------------------------------- jacking

local QUARTERS, STEP = 4, 1 / 8    -- hold points at least; most of a lift at once, in

-- Sag under dead load of a joist that is whole, in: what a lift takes out at most.
local function dead_sag(r)
  local d = r.cut.deflection
  return d and math.max(d.total - d.live, 0) or nil
end

-- How far a joist goes up at x under a force of 1 lb there, in: at its whole section.
local function give_of(r, x)
  local m = r.joist.model
  return pieces.beam(m, 0, m.span[1], {0, m.span[1]}, {{at = x, P = 1}}):at(x).deflection
end

-- Stages of a lift in proportion to its force.
local function staged(state, lift, forces)
  local n = math.max(QUARTERS, lift and math.ceil(lift / STEP - 1e-9) or 0)
  local j = {state = state, lift = lift, stages = {}, heads = {}}
  for k, f in ipairs(forces) do j.heads[k] = f.name end
  for i = 1, #forces > 0 and n or 0 do
    j.stages[i] = {lift = lift and lift * i / n, forces = {}}
    for k, f in ipairs(forces) do j.stages[i].forces[k] = f.P * i / n end
  end
  return j
end

-- Lifting in stages, as the repair is figured: not where it is figured without a lift;
-- by its prop; or the dead load of each line goes over to the shores in equal parts, the
-- lift no more than the dead-load sag. Force and lift in proportion (elastic).
local function jacking(s)
  local r = s.reviews[s.own]
  local f = verdict.serves(r) and r.joist.repair or nil
  if not f then
    return staged("no repair that serves is described: set snug, no lift", nil, {})
  elseif f.lift == "prop" then
    return staged(("the repair is figured with a prop at %s: set the shores snug, lift "
      .. "with the prop"):format(s.show.place(f.prop_at)), f.prop
      * give_of(r, f.prop_at), {{name = "prop", P = f.prop}})
  elseif f.lift ~= "unloaded" then
    return staged("the repair is figured without a lift: set snug, no lift", nil, {})
  end
  return staged("the repair is figured with the dead load lifted off: both lines in "
    .. "stages, together", dead_sag(r), {{name = "first line", P = s.lines[1].D},
    {name = "second line", P = s.lines[2].D}})
end

local HOLD = "Hold at every stage: look at bearings, plaster, pipes and the posts' feet; "
  .. "stop if the force is there before the lift. Turns of a screw are the carpenter's: "
  .. "measure the lift."

----------------------------------------------------------------------------------- words

local ORDER = {
  "Look what the posts will stand on; carry them down to something firm.",
  "Set both lines snug under every joist named before anything is cut or taken out.",
  "Lift, where the repair says so, in steps of %s or less; stop if anything cracks "
    .. "or sticks.",
  "Cut and build only then; leave the shores until all fasteners are in.",
  "Let both lines down together, a little at a time.",
}

-- The order of work. @param show the units it is printed in
local function order_of(show)
  local list = {}
  for i, line in ipairs(ORDER) do list[i] = point.format(line, show.about(STEP)) end
  return list
end

-- Notes on loads and on what was assumed.
local function notes_of(s)
  local list = {s.live and ("construction live load %s as given"):format(
    s.show.figures_of("area_load", s.live))
    or "construction live load not given: dead load alone"}
  for i = s.first, s.last do
    local j = s.joists[i]
    for _, said in ipairs(j and j.notes or {}) do
      list[#list + 1] = s.reviews[i].mark .. ": " .. said
    end
  end
  list[#list + 1] = "all load with CD 1.25, as for shores"
  return list
end

-- What stands below and is not checked.
local function not_checked(s)
  local list = {}
  for _, t in ipairs(s.lines) do
    list[#list + 1] = ("the floor below the line at %s: %s on it in all%s; each post "
      .. "by its own load"):format(s.show.place(t.at), s.show.force(t.D + t.L), t.plf
      and (", %s along it"):format(s.show.line_load(t.plf)) or "")
  end
  local first = s.lines[1] and s.lines[1].state.posts and s.lines[1].state.posts[1]
  local on = first and first.state or {}
  list[#list + 1] = on.sole and "what the sole plates lie on"
    or "sole plates (sole = ns.plate{...})"
  if not on.head then list[#list + 1] = "heads of the posts (head = ns.plate{...})" end
  list[#list + 1] = "bracing of the lines, and that nobody can knock a post out"
  return list
end

------------------------------------------------------------------------------- the whole

local methods = {}
local meta = {__index = methods, __name = "netsection.shores", __tostring = function(s)
  return ("shores for %s"):format(plain(s.mark))
end}

-- Why there are no lines, or nil.
local function refused_of(s)
  for i = s.first, s.last do
    local j = s.joists[i]
    if not j then return s.reviews[i].mark .. " has no numbers" end
    if j.refused then return s.reviews[i].mark .. ": " .. j.refused end
  end
end

--- Shores on both sides of the work on one joist of a floor.
-- @param t {mark =, at = {x1, x2}, construction_live =, beside = joists on each side or
--   from =, to = marks, beam = ns.beam_line{...}, capacity = rated load of one post,
--   sole =, head = ns.plate{...} under and over it, end_plate = {its sides}}
-- @return lines with loads, beams, posts and their writers; `refused` with a reason
function lines.of(floor, t)
  parts.only("floor:shores", t, OPTIONS, 2)
  local found = member.problems({}, "shores")
  local standard = member.standard("floor:shores", {standard = t.standard
    or floor.standard}, 2)
  local review = floor:review {rules = t.rules, standard = t.standard}
  local s = {mark = t.mark, reviews = {}, joists = {}, lines = {}, standard = standard,
    places = obstruction.lines(floor.joists), name = floor.name,
    show = quantity.of(review)}
  s.order = order_of(s.show)
  for i, mark in ipairs(review.order) do s.reviews[i] = review.joists[mark] end
  s.at = read_places(t, found)
  s.first, s.last, s.own = read_joists(t, s.reviews, found)
  s.live = t.construction_live ~= nil and read.load(found, nil, "construction_live",
    t.construction_live, "area") or nil
  s.capacity = t.capacity ~= nil and read.load(found, nil, "capacity", t.capacity,
    "point") or nil
  if s.capacity and s.capacity < 1 then
    found:add(nil, "capacity", "a load of 1 lb or more expected")
  end
  for _, name in ipairs {"sole", "head", "end_plate"} do
    if t[name] ~= nil and not s.capacity then
      found:add(nil, name, "goes with capacity; a wood post of the beam has its own")
    end
  end
  read_beam(t, found)
  if s.last == s.first then
    found:add(nil, "beside", "a line of shores runs under two joists at least")
  end
  member.must(found, 2)
  s.f, s.y0 = beam_line.read(t.beam, 2), s.places[s.first].y
  s.f.temporary, s.f.show = true, s.show
  s.rated = s.capacity and post.read({capacity = s.capacity, temporary = true,
    sole = t.sole, head = t.head, end_plate = t.end_plate}, 2, standard)
  for i = s.first, s.last do
    local r = s.reviews[i]
    s.joists[i] = r.computed and shores.of(r, {at = s.at, live = s.live}) or nil
  end
  s.refused = refused_of(s)
  if not s.refused then
    for k, x in ipairs(s.at) do s.lines[k] = line_of(s, x, k) end
    s.jacking = jacking(s)
  end
  s.notes = notes_of(s)
  s.not_checked = s.refused and {} or not_checked(s)
  return setmetatable(s, meta)
end

----------------------------------------------------------------------------------- paper

-- The head of a column that is set right.
local function right(head) return {head = head, align = "right"} end

-- A post with its plates in few words.
local function state_of(p)
  local a = p.state
  if not a then return "none is described" end
  local said = a.status
  for _, name in ipairs {"sole", "head"} do
    if a[name] then said = ("%s; %s %s"):format(said, name, a[name].status) end
  end
  return said
end

-- Loads of both lines: joist by joist, then post by post.
local function tables_of(s, d)
  local show = s.show
  local force = show.unit.force
  -- A force as printed.
  local function load(v) return show.number("force", v, 0) end
  for _, t in ipairs(s.lines) do
    local rows = {}
    for i, q in ipairs(t.loads) do
      rows[i] = {q.mark, load(q.D), load(q.L), load(q.D + q.L)}
    end
    rows[#rows + 1] = {"all", load(t.D), load(t.L), {text = load(t.D + t.L),
      strong = true}}
    d:table {caption = ("Line of shores at %s: %s from each joist"):format(
      show.place(t.at), force), rows = rows, row_heads = 1, columns = {"Joist",
      right "dead", right "construction live", right "all"}}
    rows = {}
    for i, p in ipairs(t.state.posts or {}) do
      rows[i] = {("post %d"):format(i), show.place(p.y), load(p.D + p.most),
        state_of(p)}
    end
    d:table {caption = ("Posts of the line at %s, from joist %s: %s on each"):format(
      show.place(t.at), s.reviews[s.first].mark, force), rows = rows, row_heads = 1,
      columns = {"Post", right "along the line", right(force), "State"}}
  end
end

-- The stages of a lift as a table.
local function stages_of(s, d)
  local j, rows, show = s.jacking, {}, s.show
  d:paragraph("Lifting: " .. j.state .. ".")
  if #j.heads == 0 then return end
  for i, g in ipairs(j.stages) do
    rows[i] = {("%d"):format(i), g.lift and show.number("length", g.lift, 3)
      or "-"}
    for k, P in ipairs(g.forces) do rows[i][k + 2] = show.number("force", P, 0) end
  end
  local columns = {"Stage", right("lift, " .. show.unit.length)}
  for k, name in ipairs(j.heads) do
    columns[k + 2] = right(name .. ", " .. show.unit.force)
  end
  d:table {caption = j.lift and "Stages of the lift" or "Stages; cut through, so level "
    .. "with the joists beside it is the most", rows = rows, row_heads = 1,
    columns = columns}
  d:paragraph(HOLD)
end

--- Adds the loads and the order of work, as the crew reads them.
function methods:add(d)
  d:heading(3, "Shores for " .. self.mark)
  if self.refused then
    d:note("not computed: " .. self.refused, "caution")
    return
  end
  tables_of(self, d)
  for _, t in ipairs(self.lines) do
    d:paragraph(("Shore beam at %s: %s, %s."):format(self.show.place(t.at),
      t.state.title, t.state.status))
  end
  stages_of(self, d)
  d:list(self.order, {ordered = true})
  d:list(self.notes)
  d:paragraph "Not checked:"
  d:list(self.not_checked)
end

--- The shores as a document. @param options {steps = "governing" | "all" | "none"}
local function sheet(self, options, level)
  options = member_report.options("document", options, {"steps"}, level)
  local d = document.new {title = ("Temporary shores for %s, %s"):format(self.mark,
    self.name), lang = self.show.lang, own = {self.name}}
  self:add(d)
  local states = {}
  for _, t in ipairs(self.lines) do
    for _, a in ipairs(member_report.states(t.state)) do states[#states + 1] = a end
  end
  local tree, names = member_report.members(states)
  for i, a in ipairs(states) do
    member_report.add(d, a, tree[names[i]], names[i], options.steps or "governing", 2)
  end
  return d
end

member_report.forms(methods, sheet)

--- @param options {steps =, paper =}
function methods:html(options)
  options = member_report.options("html", options, {"steps", "paper"}, 2)
  return document.html(self:document {steps = options.steps}, {paper = options.paper})
end

--- Every number in full, with stable names.
function methods:json()
  local states = {}
  for _, t in ipairs(self.lines) do
    for _, a in ipairs(member_report.states(t.state)) do states[#states + 1] = a end
  end
  local object, each = numbers.object, numbers.each
  local function load(q, more)
    local o = object {{"dead_lb", q.D}, {"live_lb", q.L}, {"total_lb", q.D + q.L}}
    for _, pair in ipairs(more) do numbers.put(o, pair[1], pair[2]) end
    return o
  end
  return numbers.json(object {{"mark", self.mark}, {"refused", self.refused},
    {"construction_live_psf", self.live}, {"lines", each(self.lines, function(t)
      return load(t, {{"at", t.at}, {"plf", t.plf}, {"status", t.state.status},
        {"joists", each(t.loads, function(q) return load(q, {{"mark", q.mark}}) end)},
        {"posts", each(t.state.posts, function(p)
          return load({D = p.D, L = p.most}, {{"y", p.y}})
        end)}})
    end)}, {"lifting", self.jacking and object {{"state", self.jacking.state},
      {"lift", self.jacking.lift}, {"stages", each(self.jacking.stages, function(g)
        return object {{"lift", g.lift}, {"forces_lb", each(g.forces, function(P)
          return P
        end)}}
      end)}}}, {"members", (member_report.members(states))},
    {"not_checked", numbers.texts(self.not_checked)}})
end

--- Whether a value is an answer of floor:shores.
function lines.is(value) return getmetatable(value) == meta end

return lines
