-- SPDX-License-Identifier: MIT
-- The half page of a joist that needs something: what was seen, one drawing, the check
-- that governs in full with its statics, the other checks as rows, and the repair with
-- its parts and the places of its fasteners.
local checks = require "netsection.calculation.checks"
local crew = require "netsection.short.crew"
local reason = require "netsection.reason"
local review = require "netsection.review"
local text = require "netsection.text"
local units = require "netsection.units"
local values = require "netsection.calculation.values"
local verdict = require "netsection.verdict"
local tostring = require "netsection.point".text

local sheet = {}

local function right(head) return {head = head, align = "right"} end

---------------------------------------------------------------------------
-- The check that governs
---------------------------------------------------------------------------

--- The state whose governing check is written out: as cut, of a joist that is out its
-- repair if that serves, else before any cut.
function sheet.state(r)
  if r.cut.governing_check then return "cut" end
  return verdict.serves(r) and r.fixed.governing_check and "fixed" or "uncut"
end

local STATE = {cut = "as cut", fixed = "repaired", uncut = "before any cut"}

--- Lines of the governing check, its statics first and adjusted values by number.
-- @return lines, title; nil where no check governs
function sheet.governing(ctx, book)
  local state = sheet.state(ctx.r)
  local a = ctx.r[state]
  local k = a.governing_check
  if not k then return nil end
  local out = values.referred(book, checks.lines(ctx, state, k))
  local at = k.at and k.mode ~= "stability" and " at " .. ctx.r.show.place(k.at)
    or ""
  local member = k.member and k.member ~= "host" and k.member ~= "joist"
    and " (" .. k.member .. ")" or ""
  local state_said = (#ctx.r.joist.model.cuts > 0 or state == "fixed")
    and STATE[state] .. ": " or ""
  return out, ("governs %s%s%s%s, %s"):format(state_said, checks.name(k), member, at,
    k.combination or "")
end

-- The largest of each kind besides the one written out, the largest first.
local function others(ctx, state)
  local a, of, list = ctx.r[state], {}, {}
  for i, k in ipairs(a.checks) do
    if k.ratio and k.binding and k ~= a.governing_check then
      local kind = k.mode .. (k.member or "")
      local here = of[kind]
      if not here then
        of[kind] = {k = k, i = i}
        list[#list + 1] = of[kind]
      elseif k.ratio > here.k.ratio then
        here.k, here.i = k, i
      end
    end
  end
  table.sort(list, function(p, q)
    if p.k.ratio ~= q.k.ratio then return p.k.ratio > q.k.ratio end
    return p.i < q.i
  end)
  return list
end

-- So many rows at most; all stand in the file of numbers.
local MOST = 7

local function other_rows(ctx, state)
  local rows, words, list = {}, checks.words(ctx.r[state]), others(ctx, state)
  for i, o in ipairs(list) do
    if i > MOST then break end
    local k, path = o.k, state .. ".checks." .. words[o.i]
    local who = k.member and k.member ~= "host" and k.member ~= "joist"
      and " (" .. k.member .. ")" or ""
    rows[i] = {checks.name(k) .. who,
      k.at and k.mode ~= "stability" and ctx.cell(path .. ".at", ctx.r.show.place(k.at))
        or "-",
      checks.quantity(ctx, path, "demand", k.demand, k.unit),
      checks.quantity(ctx, path, "capacity", k.capacity, k.unit),
      checks.unit(ctx, k.unit),
      checks.ratio(ctx, path .. ".ratio", k.ratio)}
  end
  return rows, #list
end

---------------------------------------------------------------------------
-- The repair
---------------------------------------------------------------------------

local function parts_list(r)
  local a, out = r.fixed, {}
  for _, said in ipairs(crew.pieces(r)) do out[#out + 1] = said end
  local runs = {}
  for i, run in ipairs(crew.runs(a, r.show)) do
    runs[i] = ("%s (%s)"):format(crew.place(run, r.show), run.heights)
  end
  if #runs > 0 then
    out[#out + 1] = "Fasteners at, with heights above the bottom edge: "
      .. table.concat(runs, "; ")
  end
  for _, f in ipairs(a.forces or {}) do
    if f.name:find "hanger" or f.name:find "post" then
      out[#out + 1] = ("%s: %s"):format(f.name, r.show.quantity(f.value, f.unit))
    end
  end
  return out
end

local function repair(ctx, name)
  local d, r = ctx.d, ctx.r
  local a = r.fixed
  if not a or a.kind == "neighbor" then
    if r.action == "repair" then
      d:paragraph {{strong = name .. ", repair: "}, "none is described yet."}
    end
    return
  end
  if not verdict.serves(r) then
    d:paragraph {{strong = name .. ", repair: "}, sheet.fails(r), "."}
    return
  end
  local worst = reason.worst(a)
  d:paragraph {{strong = name .. ", repair: " .. a.title},
    ("; largest ratio with it %s%s."):format(
    worst or review.ratio_text(a.ratio), a.action and "; then " .. a.action or "")}
  d:list(parts_list(r))
end

--- Why a trial repair is not one to build, in a line.
function sheet.fails(r)
  local a = r.fixed
  if a.refused then return ("%s is inadequate: %s"):format(a.title, a.refused) end
  return ("%s is inadequate (%s): trial, not to be built"):format(a.title,
    reason.worst(a) or a.status)
end

---------------------------------------------------------------------------

local function about(ctx, alike)
  local d, r = ctx.d, ctx.r
  local m = r.joist.model
  local said = {("%s, span %s. "):format(r.title, text.spans(m))}
  local cuts = reason.cuts(r)
  if #cuts > 0 then said[#said + 1] = "Seen: " .. table.concat(cuts, "; ") .. ". " end
  if r.joist.description.note then
    said[#said + 1] = "Note: "
    said[#said + 1] = {mark = tostring(r.joist.description.note)}
    said[#said + 1] = ". "
  end
  said[#said + 1] = {link = "Back to the table", to = "all-joists"}
  d:paragraph(said)
  local why = {}
  for _, line in ipairs(r.reasons) do
    if not line:find "^a cut outside the rules" then why[#why + 1] = line end
  end
  if #alike > 0 then
    local marks = {}
    for i, other in ipairs(alike) do marks[i] = other.mark end
    d:paragraph {{mark = table.concat(marks, ", ")}, #alike > 1
      and " are identical, number for number." or " is identical, number for number."}
  end
  if r.uncut.Cr and r.cut.Cr and r.uncut.Cr ~= r.cut.Cr then
    why[#why + 1] = ("repetitive factor Cr %s before the cut, %s as cut"):format(
      units.fixed(r.uncut.Cr, 2), units.fixed(r.cut.Cr, 2))
  end
  if #why > 0 then d:paragraph("Why: " .. table.concat(why, "; ") .. ".") end
end

-- The check that governs, and the others as rows.
local function calculated(ctx, book, name)
  local d = ctx.d
  local lines, title = sheet.governing(ctx, book)
  if lines then
    d:heading(4, name .. ": " .. title)
    d:calculation(lines)
  end
  local rows, n = other_rows(ctx, sheet.state(ctx.r))
  if #rows > 0 then
    d:table {rows = rows, row_heads = 1, caption = "Other checks, the largest of each "
      .. "kind" .. (n > #rows and (", %d of %d"):format(#rows, n) or ""),
      columns = {"Check", right "at", right "demand", right "capacity", "",
        right "ratio"}}
  end
end

--- The name of a joist's sheet, to which links lead.
function sheet.id(word) return "joist-" .. word end

--- Adds the half page. @param alike reviews that share it
-- @param figure function(d, ctx) that adds the drawing
function sheet.add(ctx, alike, book, figure)
  local d, r = ctx.d, ctx.r
  local marks = {r.mark}
  for _, other in ipairs(alike) do marks[#marks + 1] = other.mark end
  local name = table.concat(marks, ", ")
  -- each part names the joist: a page may begin with any of them
  d:group({keep = true}, function(g)
    ctx.d = g
    g:heading(3, ("Joist %s: %s"):format(name, verdict.text(r)), sheet.id(ctx.word))
    about(ctx, alike)
    figure(g, ctx)
  end)
  if r.computed then
    d:group({columns = 2, keep = true}, function(g)
      ctx.d = g
      calculated(ctx, book, name)
    end)
  end
  d:group({keep = true}, function(g)
    ctx.d = g
    repair(ctx, name)
  end)
  ctx.d = d
end

return sheet
