-- SPDX-License-Identifier: MIT
-- The part of a calculation sheet that is about the repair: forces of its fasteners, what
-- lifting changes, neighbors, parts, places of the fasteners, order of work.
local checks = require "netsection.calculation.checks"
local layout = require "netsection.layout"
local numbers = require "netsection.numbers"
local verdict = require "netsection.verdict"

local repair = {}

local function table_of(ctx, caption, columns, rows)
  if #rows > 0 then
    ctx.d:table {caption = caption, columns = columns, rows = rows, row_heads = 1}
  end
end

local function right(head, group)
  return {head = head, align = "right", group = group}
end

local function stations(ctx, a)
  local rows, show = {}, ctx.r.show
  for i, g in ipairs(a.stations) do
    local path = "fixed.stations." .. i
    rows[i] = {g.name, ctx.cell(path .. ".at", show.place(g.x)),
      ctx.cell(path .. ".n", ("%d"):format(g.n)),
      ctx.cell(path .. ".full", show.number("force", g.full)),
      ctx.cell(path .. ".most", show.number("force", g.most)),
      ctx.cell(path .. ".least", show.number("force", g.least))}
  end
  table_of(ctx, "Forces of the fasteners, joist to new member, down positive, "
    .. show.unit.force,
    {"Group", right "at", right "number", right "full load", right "most",
      right "least"}, rows)
end

local function forces(ctx, a)
  local rows = {}
  for i, f in ipairs(a.forces) do
    local path = "fixed.forces." .. i
    rows[i] = {f.name, f.at and ctx.cell(path .. ".at", ctx.r.show.place(f.at)) or "-",
      checks.quantity(ctx, path, "value", f.value, f.unit), checks.unit(ctx, f.unit)}
  end
  table_of(ctx, "Forces", {"What", right "at", right "force", "Unit"}, rows)
end

local LIFT = {none = "no lift", unloaded = "dead load lifted off",
  prop = "the prop given"}

local function lifting(ctx, a)
  if not a.lifting or #a.lifting < 2 then return end
  local rows = {}
  for i, row in ipairs(a.lifting) do
    local path = "fixed.lifting." .. i
    local function moment(key, v)
      return v and ctx.cell(path .. "." .. key,
        ctx.r.show.number("moment", v)) or "-"
    end
    rows[i] = {LIFT[row.lift] or row.lift, moment("joist_ft_lb", row.host),
      moment("new_ft_lb", row.new), checks.ratio(ctx, path .. ".ratio", row.ratio)}
  end
  table_of(ctx, "Lifting, largest moments in " .. ctx.r.show.unit.moment,
    {"While it is fastened", right "joist", right "new member", right "largest ratio"},
    rows)
end

local function neighbours(ctx, a)
  local rows = {}
  for i, n in ipairs(a.neighbours) do
    local ratio = n.ratio or n.review and n.review.cut.ratio
    rows[i] = {n.mark, (n.role or "neighbor"):gsub("neighbour", "neighbor"),
      checks.ratio(ctx, ("fixed.neighbours.%d.ratio"):format(i), ratio)}
  end
  table_of(ctx, "Joists beside it", {"Joist", "as", right "ratio"}, rows)
end

--- Rows of pieces and of fasteners. @param cell function(path, shown) -> cell
-- @param show the system of units
function repair.part_rows(a, cell, show)
  local pieces, fasteners = {}, {}
  for i, p in ipairs(a.pieces) do
    local path = "fixed.pieces." .. i
    pieces[i] = {p.name .. (p.of and " (joist " .. p.of .. ")" or ""),
      cell(path .. ".count", ("%d"):format(p.count or 1)), p.size or "",
      p.length and cell(path .. ".length", show.place(p.length)) or "",
      p.stock and p.stock ~= p.size and p.stock or "", p.material or ""}
  end
  for i, f in ipairs(a.fasteners) do
    local path = "fixed.fasteners." .. i
    fasteners[i] = {f.fastener or "", f.where or "",
      cell(path .. ".count", ("%d"):format(f.count)),
      cell(path .. ".order", ("%d"):format(numbers.order(f.count)))}
  end
  return pieces, fasteners
end

local function parts(ctx, a)
  local pieces, fasteners = repair.part_rows(a, ctx.cell, ctx.r.show)
  table_of(ctx, "Pieces", {"Piece", right "count", "Size", right "length", "Cut from",
    "Material"}, pieces)
  table_of(ctx, "Fasteners", {"Fastener", "Where", right "count", right "order"},
    fasteners)
end

local function heights_of(column, show)
  local out = {}
  for i, p in ipairs(column.places) do
    out[i] = p.y and p.y ~= 0 and show.number("length", p.y, 2) .. " across"
      or show.number("length", p.h, 2)
  end
  return table.concat(out, ", ")
end

local function fastener_places(ctx, a)
  local rows = {}
  for i, column in ipairs(layout.columns(a.layout)) do
    rows[i] = {ctx.cell(("fixed.layout.%d.x"):format(column.first),
        ctx.r.show.place(column.x)),
      {text = ("%d"):format(#column.places)}, heights_of(column, ctx.r.show)}
  end
  table_of(ctx, "Places of the fasteners, from the center of the left bearing; heights "
    .. "from the joist's bottom edge, " .. ctx.r.show.unit.length,
    {"Row at", "Fasteners", "Heights"}, rows)
end

local function list_of(ctx, title, items, ordered)
  if #items == 0 then return end
  ctx.d:paragraph(title)
  ctx.d:list(items, {ordered = ordered})
end

--- Adds the repair. @param wanted as in checks.steps
function repair.add(ctx, wanted)
  local a, d = ctx.r.fixed, ctx.d
  d:heading(3, "Repair")
  d:paragraph {{strong = a.title}, ": " .. (a.refused and "inadequate" or a.status)}
  if a.refused then
    d:note(a.refused, "caution")
    return
  elseif verdict.trial(ctx.r) then
    d:note("Trial only: inadequate, not to be built.", "caution")
  end
  checks.table(ctx, "fixed", "Checks of the repaired joist")
  stations(ctx, a)
  forces(ctx, a)
  lifting(ctx, a)
  neighbours(ctx, a)
  parts(ctx, a)
  fastener_places(ctx, a)
  list_of(ctx, "Order of work:", a.sequence, true)
  list_of(ctx, "Notes to the repair:", a.notes)
  for _, said in ipairs(ctx.cautions_of(a.cautions)) do d:note(said, "caution") end
  d:heading(3, "Calculation of the repair")
  checks.steps(ctx, "fixed", wanted)
end

return repair
