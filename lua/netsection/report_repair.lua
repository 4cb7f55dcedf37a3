-- SPDX-License-Identifier: MIT
-- The part of a joist's report that is about its repair: checks, forces, parts, places of
-- the fasteners, order of work. No engineering is done here.
local cautions = require "netsection.cautions"
local layout = require "netsection.layout"
local reason = require "netsection.reason"
local text = require "netsection.text"

local repair = {}

local pad = text.pad

-- Where a check is of: the old joist is the existing one in print.
local function member_of(k)
  return (k.member == nil or k.member == "host") and "joist" or k.member
end

local function what_of(k)
  local name = reason.mode(k) .. (k.name and ", " .. k.name or "")
  if k.support then name = name .. " " .. k.support end
  return k.binding and name or name .. " *"
end

--- One line of which clause each kind of check is by.
function repair.clauses(checks)
  local list, seen = {}, {}
  for _, k in ipairs(checks) do
    local said = reason.mode(k) .. " " .. k.clause
    if not seen[said] then list[#list + 1], seen[said] = said, true end
  end
  return text.wrap("clauses: " .. table.concat(list, "; "), "  ", "    ")
end

local NAME, MEMBER = 25, 9

local function check_rows(out, a, show)
  local function row(sign, name, member, at, demand, capacity, unit, ratio)
    return ("%s %s %s %s %s %s %s %s"):format(sign, pad(name, NAME), pad(member, MEMBER),
      pad(at, 10), pad(demand, 8, true), pad(capacity, 8, true), pad(unit, 5),
      pad(ratio, 6, true))
  end
  out[#out + 1] = row(" ", "check", "member", "at", "demand", "capacity", "", "ratio")
  local noted = false
  for _, k in ipairs(a.checks) do
    noted = noted or not k.binding
    local name, member = what_of(k), member_of(k)
    if #member > MEMBER then name, member = ("%s, %s"):format(member, name), "" end
    if #name > NAME then out[#out + 1], name = "  " .. name, "" end
    out[#out + 1] = row(k == a.governing_check and ">" or " ", name, member,
      (k.mode == "stability" or not k.at) and "-" or show.place(k.at),
      show.quantity_number(k.demand, k.unit), k.mode == "uplift" and "-"
      or show.quantity_number(k.capacity, k.unit), show.unit_of(k.unit),
      text.ratio(k.ratio))
  end
  out[#out + 1] = "  > governs" .. (noted and "; * for information, does not govern"
    or "")
  out[#out + 1] = repair.clauses(a.checks)
end

local function group_rows(out, a, show)
  if #a.stations == 0 then return end
  out[#out + 1] = "  forces of the fasteners, joist to new member, down positive, "
    .. show.unit.force
  out[#out + 1] = ("    %s %s %s %s %s %s"):format(pad("group", 13), pad("at", 10),
    pad("number", 6, true), pad("full load", 10, true), pad("most", 8, true),
    pad("least", 8, true))
  for _, g in ipairs(a.stations) do
    out[#out + 1] = ("    %s %s %s %s %s %s"):format(pad(g.name, 13),
      pad(show.place(g.x), 10), pad(("%d"):format(g.n), 6, true),
      pad(show.number("force", g.full), 10, true),
      pad(show.number("force", g.most), 8, true),
      pad(show.number("force", g.least), 8, true))
  end
end

local function force_rows(out, a, show)
  for _, f in ipairs(a.forces) do
    out[#out + 1] = ("  %s%s: %s"):format(f.name, f.at and " at " .. show.place(f.at)
      or "", show.quantity(f.value, f.unit))
  end
end

local LIFT = {none = "no lift", unloaded = "dead load lifted off",
  prop = "the prop given"}

local function lift_rows(out, a, show)
  if not a.lifting or #a.lifting < 2 then return end
  out[#out + 1] = "  lifting, largest moments in " .. show.unit.moment
  for _, row in ipairs(a.lifting) do
    out[#out + 1] = ("    %s joist %s, new %s, largest ratio %s"):format(pad(
      LIFT[row.lift], 22), row.host and show.number("moment", row.host) or "-",
      row.new and show.number("moment", row.new) or "-", text.ratio(row.ratio))
  end
end

local function deflection_row(out, r)
  local function pair(s)
    local d = s.deflection
    return d and d.live and ("%s / %s"):format(r.show.number("length", d.live, 3),
      r.show.number("length", d.total, 3)) or "-"
  end
  out[#out + 1] = ("  deflection live / total, %s: uncut %s, cut %s, fixed %s"):format(
    r.show.unit.length, pair(r.uncut), pair(r.cut), pair(r.fixed))
end

local function part_rows(out, a, show)
  if #a.pieces + #a.fasteners == 0 then return end
  out[#out + 1] = "  parts"
  for _, p in ipairs(a.pieces) do
    local from = p.stock and p.stock ~= p.size and ", cut from " .. p.stock or ""
    local of = p.of and " (joist " .. text.plain(p.of) .. ")" or ""
    out[#out + 1] = text.wrap(("%d x %s%s: %s%s%s%s"):format(p.count or 1, p.name, of,
      p.size or "", p.length and " x " .. show.place(p.length) or "", from,
      p.material and ", " .. text.plain(p.material) or ""), "    ", "      ")
  end
  for _, f in ipairs(a.fasteners) do
    local spare = math.ceil(f.count * 0.05)
    out[#out + 1] = text.wrap(("%d x %s, %s; order %d"):format(f.count, f.fastener,
      f.where, f.count + spare), "    ", "      ")
  end
end

-- The last of the columns from i on that repeat it at one distance.
local function same_rows(order, i)
  local last = i
  while order[last + 1] and order[last + 1].heights == order[i].heights
    and math.abs(order[last + 1].gap - order[i + 1].gap) < 1e-6 do
    last = last + 1
  end
  return last
end

local function heights_of(column, show)
  local out = {}
  for i, p in ipairs(column.places) do
    out[i] = p.y and p.y ~= 0 and show.length(p.y, 2) .. " across"
      or show.number("length", p.h, 2)
  end
  return table.concat(out, ", ")
end

-- Fasteners of one column on one line; columns that repeat, on one as well.
local function layout_rows(out, a, show)
  if #a.layout == 0 then return end
  out[#out + 1] = "  places of the fasteners: from the left bearing; up from the joist's "
    .. "bottom edge"
  local order = layout.columns(a.layout)
  for i, column in ipairs(order) do
    column.heights = heights_of(column, show)
    column.gap = i > 1 and column.x - order[i - 1].x or nil
  end
  local i = 1
  while i <= #order do
    local last = same_rows(order, i)
    local run = last - i >= 2 and (" and %d more, %s apart"):format(last - i,
      show.size(order[i + 1].gap)) or ""
    if run == "" then last = i end
    out[#out + 1] = text.wrap(("%s%s: %s %s"):format(show.place(order[i].x), run,
      order[i].heights, show.unit.length), "    ", "      ")
    i = last + 1
  end
end

local function steps_of(out, k, show)
  out[#out + 1] = ("  %s (%s)%s, %s:"):format(what_of(k), member_of(k), k.at and " at "
    .. show.place(k.at) or "", k.combination or "")
  for _, list in ipairs {k.extra_steps or {}, k.steps or {}} do
    for _, step in ipairs(list) do
      out[#out + 1] = text.wrap(text.step(step, show), "    ", "      ")
    end
  end
end

local function neighbour_rows(out, a)
  for _, n in ipairs(a.neighbours) do
    local ratio = n.ratio or n.review and n.review.cut.ratio
    local said = n.assumed and "; " .. n.assumed or n.repaired and "; with its own repair"
      or ""
    out[#out + 1] = text.wrap(("joist %s beside it, as %s: ratio %s%s"):format(
      text.plain(n.mark), (n.role or "neighbor"):gsub("neighbour", "neighbor"),
      text.ratio(ratio), text.plain(said)),
      "  ", "    ")
  end
end

local function numbered(out, title, list)
  if #list == 0 then return end
  out[#out + 1] = title
  for i, s in ipairs(list) do
    out[#out + 1] = text.wrap(text.plain(s), ("   %2d "):format(i), "      ")
  end
end

-- Appends the lines about the repair of a reviewed joist.
-- @param which "none", "governing" or "all": whose calculation is written out
function repair.add(out, r, which)
  local a = r.fixed
  out[#out + 1] = ""
  local worst = a.governing_check
  local ratio = worst and (", largest ratio %s (%s, %s)"):format(text.ratio(a.ratio),
    worst.mode, member_of(worst)) or ""
  out[#out + 1] = text.wrap(("repair: %s: %s%s"):format(text.plain(a.title), a.refused
    and "inadequate" or a.status, ratio), "  ", "    ")
  if a.action then out[#out + 1] = "  action as repaired: " .. a.action end
  if not a.refused and a.status ~= "adequate" then
    out[#out + 1] = "  trial only: inadequate, not to be built"
  end
  if a.refused then
    out[#out + 1] = text.wrap(text.plain(a.refused), "    ", "    ")
    return
  end
  local show = r.show
  check_rows(out, a, show)
  group_rows(out, a, show)
  force_rows(out, a, show)
  deflection_row(out, r)
  lift_rows(out, a, show)
  neighbour_rows(out, a)
  part_rows(out, a, show)
  layout_rows(out, a, show)
  numbered(out, "  order of work", a.sequence)
  text.bullets(out, "  notes to the repair", a.notes)
  text.bullets(out, "  cautions of the repair", cautions.own(a.cautions))
  if which == "governing" and a.governing_check then
    out[#out + 1] = "  calculation of the repair"
    steps_of(out, a.governing_check, show)
  elseif which == "all" then
    out[#out + 1] = "  calculation of the repair"
    for _, k in ipairs(a.checks) do steps_of(out, k, show) end
  end
end

return repair
