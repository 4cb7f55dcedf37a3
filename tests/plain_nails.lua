-- SPDX-License-Identifier: MIT
-- Holes, nails that are driven, and nails between plies by plain means: lead holes of NDS
-- 12.1.3 to 12.1.6 against what notes and parts print; what stands apart by NDS
-- Commentary Tables C12.1.5.7 and C12.1.6.6 (memory); number, pitch and force of nails
-- that make plies one member. Nothing here is taken from the module.
local dowels = require "tests.plain_dowels"

local nails = {}
local abs, max, min, floor = math.abs, math.max, math.min, math.floor

----------------------------------------------------------------------------- lead holes

--- What is drilled, in: the thread's least and most, the shank's.
-- Bolts 1/32 to 1/16 in over D (12.1.3.2). Lag screws, from memory: the thread 65 to 85 %
-- of D for G > 0.6, 60 to 75 % for 0.5 < G <= 0.6, 40 to 70 % for G <= 0.5, the shank its
-- own diameter (12.1.4.2). Wood screws under a lateral load, from memory: shank and root
-- diameter for G > 0.6, 7/8 of them below (12.1.5). Nails: at most 90 % of D for G > 0.6,
-- 75 % below (12.1.6).
function nails.lead(f, G)
  local D = f.D
  if f.kind == "bolt" then return D + 1 / 32, D + 1 / 16 end
  local dense = G > 0.6
  if f.kind == "nail" then return 0, (dense and 0.9 or 0.75) * D end
  if f.kind == "wood screw" then
    local part = dense and 1 or 0.875
    return part * f.D_r, part * f.D_r, part * D
  end
  if dense then return 0.65 * D, 0.85 * D, D end
  if G > 0.5 then return 0.6 * D, 0.75 * D, D end
  return 0.4 * D, 0.7 * D, D
end

local function numbers(text)
  local list = {}
  for x in text:gmatch "%d+%.%d+" do list[#list + 1] = tonumber(x) end
  return list
end

-- The note prints three decimals: shank, least and most of the thread, what there is.
local function note_wrong(text, f, G)
  local least, most, shank = nails.lead(f, G)
  local said = numbers(text:match "holes[^%(]*" or "")
  local wanted = f.kind == "nail" and {most} or f.kind == "wood screw" and {shank, most}
    or f.kind == "bolt" and {least, most} or {shank, least, most}
  for i = 1, max(#wanted, #said) do
    if not (said[i] and wanted[i]) or abs(said[i] - wanted[i]) > 0.00051 then
      return ("lead holes: '%s', by the clause %s"):format(text, table.concat(wanted,
        " "))
    end
  end
end

-- "1-3/16" or "7/64" in.
local function inches(text)
  local whole, n, d = text:match "^(%d+)%-(%d+)/(%d+)$"
  if whole then return whole + n / d end
  n, d = text:match "^(%d+)/(%d+)$"
  return n and n / d or tonumber(text)
end

-- Parts name a drill in sixty-fourths: inside the range where one fits, else the nearest
-- to it, half a sixty-fourth off at most.
local function drill_wrong(text, f, G)
  local least, most, shank = nails.lead(f, G)
  local thread = text:match "lead hole ([%d/%-]+) in" or text:match "drill ([%d/%-]+) in"
  local x = thread and inches(thread)
  local fits = floor(most * 64 + 1e-9) >= least * 64 - 1e-9
  if not x or fits and (x > most + 1e-9 or x < least - 1e-9)
    or not fits and abs(x - (least + most) / 2) > 1 / 128 + 1e-9 then
    return ("drill: '%s', by the clause %.4f to %.4f"):format(text, least, most)
  end
  local body = shank and inches(text:match "([%d/%-]+) in for the shank" or "")
  if shank and not (body and abs(body - shank) <= 1 / 64) then
    return ("drill: '%s', the shank is %.4f"):format(text, shank)
  end
  if f.kind == "nail" and x > 0 and not text:find "driven" then
    return "a driven nail is not said to be driven: " .. text
  end
end

--- What is printed of the holes, against the clauses.
-- @param f the fastener in numbers; G of the joist, in which the thread stands
-- @param printed {notes =, parts = texts of the parts, or nil}
-- @return how many texts were compared
function nails.holes(f, G, printed, bad)
  local n, name = 0, f.kind == "nail" and f.size .. " common nail" or f.kind
  for _, note in ipairs(printed.notes) do
    if note:find "NDS 12%.1%.[3-6]" and (f.kind ~= "nail"
      or note:find("^nails driven") or note:find(name, 1, true)) then
      n = n + 1
      bad(note_wrong(note, f, G))
    end
  end
  if n == 0 then bad("no note of lead holes") end
  for _, part in ipairs(printed.parts or {}) do
    if part:find(name, 1, true) and part:find "pieces," then
      n = n + 1
      bad(drill_wrong(part, f, G))
    end
  end
  return n
end

------------------------------------------------------------------------- what is driven

-- Multiples of D for D < 1/4 in (memory): to an end in tension and in compression, to an
-- edge, pitch along and across the grain, between rows.
local DRIVEN = {wood = {tension = 15, compression = 10, edge = 2.5, along = 15,
  across = 10, row = 5}, steel = {tension = 10, compression = 5, edge = 2.5, along = 10,
  across = 5, row = 3}}
local PREBORED = {wood = {tension = 10, compression = 5, edge = 2.5, along = 10,
  across = 5, row = 3}, steel = {tension = 5, compression = 3, edge = 2.5, along = 5,
  across = 2.5, row = 2.5}}

local function rule(f, side)
  return (f.kind == "nail" and DRIVEN or PREBORED)[side]
end

local function says(notes, text)
  for _, note in ipairs(notes) do
    if note:find(text, 1, true) then return true end
  end
  return false
end

--- Every placed fastener under 1/4 in that loads the joist across its grain: 10D (driven)
-- apart in a column, columns 5D, 2.5D to the edges of joist and piece; an end or a cut
-- nearer than recommended is said. Of an end under load across the grain the tables say
-- nothing: the larger distance of those along it counts.
-- @param t {d = of the joist, low =, high = edges of the piece, near_end =, near_cut =
--   least distances by tests/plain_places.lua, meet = from both faces they would meet}
function nails.placed(layout, f, t, notes, bad)
  local D, r = f.D, rule(f, "wood")
  for i, p in ipairs(layout) do
    local edge = min(p.h, t.d - p.h, p.h - t.low, t.high - p.h)
    if edge < r.edge * D - 1e-6 then
      bad(("%s at %.3f, %.3f: %.3f in to an edge"):format(f.kind, p.x, p.h, edge))
    end
    for k = i + 1, #layout do
      local q = layout[k]
      local x, h = abs(p.x - q.x), abs(p.h - q.h)
      local same = (p.piece or 1) == (q.piece or 1) or t.meet
      if same and (x < 1e-6 and h < r.across * D - 1e-6 or x > 1e-6
        and x < r.row * D - 1e-6) then
        return bad(("%ss at %.3f, %.3f and %.3f, %.3f: less than %gD or %gD apart")
          :format(f.kind, p.x, p.h, q.x, q.h, r.across, r.row))
      end
    end
  end
  if t.near_end < r.tension * D - 1e-6 ~= says(notes, "end distance ") then
    bad(("ends %.3f in off, %gD recommended, and notes say otherwise"):format(t.near_end,
      r.tension))
  end
  if t.near_cut < r.tension * D - 1e-6 ~= says(notes, "along the grain to ") then
    bad(("a cut %.3f in off, %gD recommended, and notes say otherwise"):format(t.near_cut,
      r.tension))
  end
end

--- Those of a strap, along the grain on steel: 10D (driven) apart and from the cut; rows
-- and edges that are nearer than recommended are said.
-- @param t {b = of the joist, from =, to = of the cut}
function nails.strapped(layout, f, t, notes, bad)
  local D, r = f.D, rule(f, "steel")
  local short_row, short_edge
  for i, p in ipairs(layout) do
    local off = max(t.from - p.x, p.x - t.to)
    if off < r.tension * D - 1e-6 then
      bad(("%s %.3f in from the cut"):format(f.kind, off))
    end
    short_edge = short_edge or t.b / 2 - abs(p.y) < r.edge * D - 1e-6
    for k = i + 1, #layout do
      local q = layout[k]
      local along, across = abs(p.x - q.x), abs(p.y - q.y)
      if across < 1e-6 and along < r.along * D - 1e-6 then
        return bad(("%ss of a row %.3f in apart"):format(f.kind, along))
      end
      short_row = short_row or across > 1e-6 and across < r.row * D - 1e-6
    end
  end
  if (short_row or false) ~= says(notes, "rows ") then bad "rows: notes say otherwise" end
  if (short_edge or false) ~= says(notes, "edge distance ") then
    bad "edge of the joist: notes say otherwise"
  end
end

----------------------------------------------------------------------------- plies

-- Common nails (ASTM F1667; NDS Table L4, partly memory) with F_yb of Table I1.
local COMMON = {{"60d", 0.263, 6, 70000}, {"40d", 0.225, 5, 80000}, {"30d", 0.207, 4.5,
  80000}, {"20d", 0.192, 4, 80000}, {"16d", 0.162, 3.5, 90000}, {"12d", 0.148, 3.25,
  90000}, {"10d", 0.148, 3, 90000}, {"8d", 0.131, 2.5, 100000}}

--- The longest that does not come out of two plies of thickness b, and what it carries.
function nails.of_plies(b, G)
  for _, row in ipairs(COMMON) do
    local f = {kind = "nail", size = row[1], D = row[2], D_r = row[2], L = row[3],
      F_yb = row[4]}
    if f.L <= 2 * b + 1e-9 then
      local Z = dowels.Z(f, {G = G, t_m = b, theta_m = 90, t_s = b, theta_s = 90,
        G_s = G})
      if Z then return f, Z end
    end
  end
end

-- Beside each load: half as many again as (n - loaded)/n of it needs, three at least; the
-- ratio of those.
local function beside(t, Z)
  local n, worst = 3, 0
  for _, load in ipairs(t.loads) do
    for _, c in ipairs {{load.D, 0.9}, {load.D + load.L, 1}} do
      worst = max(worst, c[1] * (t.n - t.loaded) / t.n / (Z * c[2]))
    end
  end
  n = max(n, math.ceil(1.5 * worst - 1e-9))
  return n, worst / n
end

--- Nails of members of several plies that are built alike.
-- @param list {b =, G =, n = plies, loaded = of them, length =, loads = {{D =, L =}},
--   member =}, one for each member
-- @param q comparison of tests/plain_repair.lua
function nails.plies(q, list)
  local count, nail, used, apart = 0, nil, 0, 0
  for _, t in ipairs(list) do
    local Z
    nail, Z = nails.of_plies(t.b, t.G)
    -- one every 6 in from 3 in off the ends: never farther apart, nor nearer than 15D
    local line = max(floor((t.length - 6) / 6 + 1e-9), 1) + 1
    local n, ratio = 0, nil
    if #t.loads > 0 then n, ratio = beside(t, Z) end
    count = count + (t.n - t.loaded) * (line + n * #t.loads)
    used = max(used, ratio or 0)
    -- across the grain 10D between nails that are driven
    apart = max(apart, 10 * nail.D)
  end
  if #list == 0 then return end
  local member = list[1].member
  local found, text = 0, ""
  for _, f in ipairs(q.fixed.fasteners) do
    local mine = f.where:find("plies,", 1, true) and f.where:find("^the " .. member)
    if mine then
      found, text = found + f.count, f.where
      if not f.fastener:find(nail.size .. " common nail", 1, true) then
        q:breach(("plies of the %s: %s, by plain means %s"):format(member, f.fastener,
          nail.size))
      end
      local said = inches(f.where:match ", ([%d/%-]+) in apart" or "99")
      if said < apart - 1e-6 then
        q:breach(("plies of the %s: nails %.3f in apart, 10D is %.3f"):format(member,
          said, apart))
      end
    end
  end
  q:count("nails between plies of the " .. member .. " (" .. text .. ")", count, found)
  q:check("fasteners", member, used, true, function(k)
    return k.name and k.name:find "nails between plies" ~= nil
  end)
end

return nails
