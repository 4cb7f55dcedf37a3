-- SPDX-License-Identifier: MIT
-- The load path on paper: lb at each point from the joists into the ground, sums of each
-- step, the new members with their checks, and what was not checked.
local core = require "netsection.core"
local document = require "netsection.document"
local drawing = require "netsection.plot.load_path"
local member_report = require "netsection.member.report"
local furniture = require "netsection.furniture"
local numbers = require "netsection.numbers"
local render = require "netsection.render"
local review = require "netsection.review"
local error = require "netsection.raise".error
local plain = require "netsection.document.escape".text

local report = {}

local object, each, put = numbers.object, numbers.each, numbers.put

------------------------------------------------------------------------------- numbers

local function load_of(q)
  return object {{"dead_lb", q.D}, {"live_lb", q.L}, {"total_lb", q.D + q.L}}
end

local function point_of(s)
  local o = load_of(s)
  put(o, "mark", s.mark)
  put(o, "kind", s.kind)
  put(o, "at", s.at)
  put(o, "added_lb", s.added)
  put(o, "psi", s.b and s.l_b and s.l_b > 0 and (s.D + s.L) / (s.b * s.l_b) or nil)
  return o
end

local function header_of(h)
  return object {{"at", h.x}, {"of", h.of}, {"load", load_of(h)},
    {"left", load_of(h.left)}, {"left_mark", h.left.mark},
    {"right", load_of(h.right)}, {"right_mark", h.right.mark}}
end

local function beam_of(b)
  local a = b.state
  return object {{"mark", b.mark}, {"under", b.name}, {"at", b.f.at},
    {"added_lb", b.added}, {"status", a.status},
    {"joists", each(a.loads, function(q)
      local o = load_of(q)
      put(o, "mark", q.mark)
      put(o, "y", q.y)
      return o
    end)}, {"posts", each(a.posts, function(s)
      local o = load_of(s)
      put(o, "mark", s.mark)
      put(o, "y", s.y)
      put(o, "live_most_lb", s.most)
      return o
    end)}, {"settled_lb", a.settled and a.settled.sum},
    {"settled_moment", a.settled and a.settled.moment}}
end

-- States of all new members in order, and their names in the tree.
local function members_of(path)
  local list = {}
  for _, b in ipairs(path.beams) do
    for _, a in ipairs(member_report.states(b.state)) do list[#list + 1] = a end
  end
  for _, u in ipairs(path.below) do
    for _, a in ipairs(member_report.states(u.state)) do list[#list + 1] = a end
  end
  local tree, names = member_report.members(list)
  return list, tree, names
end

local function tree_of(path, members)
  return object {{"netsection", core.version}, {"units", numbers.units},
    {"standard", path.standard}, {"name", path.name},
    {"floor", load_of(path.floor)}, {"ends", load_of(path.ends)},
    {"ground", load_of(path.ground)}, {"beams_own_lb", path.beam_weight},
    {"joists", each(path.joists, function(t)
      return object {{"mark", t.mark}, {"own", t.own and load_of(t.own)},
        {"refused", t.refused}, {"out", t.out}, {"stands", each(t.stands, point_of)}}
    end)}, {"lines", each(path.lines, function(l)
      local o = load_of(l)
      put(o, "name", l.name)
      put(o, "added_lb", l.name:find "bearing" and l.added or nil)
      return o
    end)}, {"headers", each(path.headers, header_of)},
    {"beams", each(path.beams, beam_of)}, {"below", each(path.below, beam_of)},
    {"over", each(path.over, function(q)
      return object {{"mark", q.mark}, {"beam", q.beam}, {"status", q.status},
        {"ratio", q.ratio and q.ratio < 1e6 and q.ratio or nil},
        {"governing", q.governing}, {"refused", q.refused}}
    end)}, {"members", members}, {"not_checked", numbers.texts(path.not_checked)},
    {"notes", numbers.texts(path.notes)}}
end

---------------------------------------------------------------------------------- paper

local function right(head) return {head = head, align = "right"} end

-- A cell with a force of the path in its units, and the name of its number.
local function writer(path)
  return function(name, v)
    return v and {text = path.show.number("force", v, 0), data = name} or "-"
  end
end

local function place(s, show)
  return s.at and show.place(s.at) or "-"
end

local KIND = {bearing = "bearing", hanger = "hanger", post = "post of the repair"}

local function where(s)
  return s.kind == "beam" and "beam " .. s.beam.mark or KIND[s.kind] or s.kind
end

-- Joists in order, one row for each place where one stands.
local function joists(d, path)
  local lb, show = writer(path), path.show
  local rows = {}
  for i, t in ipairs(path.joists) do
    local at = "joists." .. i
    if t.refused or t.out then
      rows[#rows + 1] = {t.mark, t.own and lb(at .. ".own.total_lb", t.own.D + t.own.L)
        or "-", t.out and "carries nothing: to the joists beside it" or "left out"}
    end
    for k, s in ipairs(t.stands) do
      local on = ("%s.stands.%d"):format(at, k)
      rows[#rows + 1] = {k == 1 and t.mark or "",
        k == 1 and lb(at .. ".own.total_lb", t.own.D + t.own.L) or "", where(s),
        place(s, show),
        lb(on .. ".dead_lb", s.D), lb(on .. ".live_lb", s.L),
        lb(on .. ".total_lb", s.D + s.L), s.added and lb(on .. ".added_lb", s.added)
          or "-", s.b and s.l_b and s.l_b > 0
          and {text = show.number("stress", (s.D + s.L) / (s.b * s.l_b), 0),
            data = on .. ".psi"}
          or "-"}
    end
  end
  d:table {caption = "Joists: own load, and what each puts on what holds it, "
    .. show.unit.force .. "; more than before the work; pressure on the seat",
    rows = rows, row_heads = 1,
    columns = {"Joist", right "own load", "on", right "at", right "dead", right "live",
      right "all", right "more", right(show.unit.stress)}}
end

local function headers(d, path)
  local lb, show = writer(path), path.show
  local rows = {}
  for i, h in ipairs(path.headers) do
    local at = "headers." .. i
    rows[i] = {show.place(h.x), lb(at .. ".load.total_lb", h.D + h.L), h.left.mark,
      lb(at .. ".left.total_lb", h.left.D + h.left.L), h.right.mark,
      lb(at .. ".right.total_lb", h.right.D + h.right.L)}
  end
  if #rows > 0 then
    d:table {caption = "Headers: tails and floor on them, their ends on the trimmers, "
      .. show.unit.force,
      rows = rows, row_heads = 1, columns = {right "At", right "load", "Trimmer",
        right "end", "Trimmer", right "end"}}
  end
end

local function beams(d, path, list, name)
  local lb, show = writer(path), path.show
  for i, b in ipairs(list) do
    local a, rows, sum = b.state, {}, 0
    for k, q in ipairs(a.loads or {}) do
      rows[#rows + 1] = {"joist " .. q.mark, show.place(q.y),
        lb(("%s.%d.joists.%d.total_lb"):format(name, i, k), q.D + q.L)}
      sum = sum + q.D + q.L
    end
    if #rows > 0 then
      rows[#rows + 1] = {"all joists on it", "", {text = show.number("force", sum, 0),
        strong = true}}
    end
    local posts = 0
    for k, s in ipairs(a.posts or {}) do
      rows[#rows + 1] = {"post " .. s.mark .. (s.under and s.under.status
        == "not covered" and ", slab: not covered" or ""), show.place(s.y),
        lb(("%s.%d.posts.%d.total_lb"):format(name, i, k), s.D + s.L)}
      posts = posts + s.D + s.L
    end
    if a.posts then
      rows[#rows + 1] = {"all its posts", "", {text = show.number("force", posts, 0),
        strong = true}}
    end
    if #rows > 0 then
      d:table {caption = (b.f.at and ("Beam %s at %s"):format(b.mark,
        show.place(b.f.at)) or b.titled or b.mark)
        .. ": joists on it and its posts, " .. show.unit.force, rows = rows,
        row_heads = 1, columns = {"What", right "along it", right "all"}}
    end
  end
end

local function sums(d, path)
  local lb, show = writer(path), path.show
  local rows = {{"all joists, their own load", lb("floor.total_lb", path.floor.D
    + path.floor.L)}}
  for i, l in ipairs(path.lines) do
    rows[#rows + 1] = {"on " .. l.name, lb(("lines.%d.total_lb"):format(i), l.D + l.L)}
  end
  rows[#rows + 1] = {{text = "all that leaves the joists", strong = true},
    lb("ends.total_lb", path.ends.D + path.ends.L)}
  if path.beam_weight > 0 then
    rows[#rows + 1] = {"the beams' own weight", lb("beams_own_lb", path.beam_weight)}
  end
  rows[#rows + 1] = {{text = "bearings, hangers and posts together", strong = true},
    lb("ground.total_lb", path.ground.D + path.ground.L)}
  d:table {caption = "Sums, " .. show.unit.force .. "; each figure is rounded by itself",
    rows = rows, row_heads = 1, columns = {"Step", right(show.unit.force)}}
end

-- Joists as they run on over a new beam: not part of the floor's verdict.
local function over(d, path)
  local rows = {}
  for i, q in ipairs(path.over) do
    rows[i] = {q.mark, q.beam,
      q.unread and "not reviewed" or q.refused and "inadequate" or q.status,
      q.ratio and q.ratio < 1e6 and {text = review.ratio_text(q.ratio),
        data = ("over.%d.ratio"):format(i)} or "-", q.refused or q.governing or "-"}
  end
  if #rows == 0 then return end
  d:table {caption = "Joists as they run on over a beam, by their own review with that "
    .. "support; the review of the floor stays as it is", rows = rows, row_heads = 1,
    columns = {"Joist", "Over", "State", right "ratio", "Governed by"}}
end

local STATEMENT = "All load, dead and live, on all spans; what a joist puts on a beam is "
  .. "worked with the beam as a rigid support and the joist at its whole section. Live "
  .. "load by patches stays with the review of each joist."

local methods = {}
local meta = {__index = methods, __name = "netsection.load_path", __tostring = function(p)
  return ("load path of floor '%s'"):format(plain(p.name))
end}

--- The load path as a document.
-- @param options {steps = "governing" (default) | "all" | "none", figure = SVG,
--   job = text at the head of each printed page, date = of the run}
local function sheet(self, options, level)
  options = member_report.options("document", options, {"steps", "figure", "job",
    "date"}, level)
  local job, foot = furniture.of_work(self.name, options, nil, self.packs.data.title)
  local d = document.new {title = "Load path: " .. job, job = job, foot = foot,
    lang = self.show.lang, own = {self.name}}
  d:paragraph(STATEMENT)
  d:figure {name = "load-path.svg", alt = "Load path: " .. self.show.unit.force
    .. " at each point, from the joists down to the ground",
    caption = "Load path, " .. self.show.unit.force, svg = options.figure,
    plot = "load-path.gp"}
  joists(d, self)
  headers(d, self)
  beams(d, self, self.beams, "beams")
  beams(d, self, self.below, "below")
  sums(d, self)
  over(d, self)
  if #self.notes > 0 then d:list(self.notes) end
  local list, tree, names = members_of(self)
  for i, a in ipairs(list) do
    member_report.add(d, a, tree[names[i]], names[i], options.steps or "governing", 2)
  end
  local all = {{not_checked = self.not_checked}, table.unpack(list)}
  member_report.not_checked(d, all)
  return d
end

member_report.forms(methods, sheet)

--- @param options {steps =, paper =, job =, date =, render = true: gnuplot draws the
--   figure into it}
-- @return page, and what went wrong with the figure
function methods:html(options)
  options = member_report.options("html", options, {"steps", "paper", "render", "job",
    "date"}, 2)
  local figure, problem
  if options.render then
    local pictures
    pictures, problem = render.svg {{"load-path", function(output)
      return self:plot {output = output}
    end}}
    figure = pictures and pictures["load-path"]
  end
  return document.html(self:document {steps = options.steps, figure = figure,
    job = options.job, date = options.date},
    {paper = options.paper}), problem
end

--- Every number in full, with stable names.
function methods:json()
  local _, members = members_of(self)
  return numbers.json(tree_of(self, members))
end

--- The diagram as a gnuplot script. @param options {output =, title =}
function methods:plot(options)
  local script, problem = drawing.script(self, options)
  if not script then error(problem, 2) end
  return script
end

function report.path(path)
  return setmetatable(path, meta)
end

function report.is(value)
  return getmetatable(value) == meta
end

return report
