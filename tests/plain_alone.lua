-- SPDX-License-Identifier: MIT Repairs that make joists of their own, by plain means: a
-- new bearing at an end, a support under the span, a joist added in the bay, the joist
-- headed off. Each piece is a joist of tests/plain_joist.lua under what statics and the
-- lever rule put on it.
local joists = require "tests.plain_joist"
local nails = require "tests.plain_nails"

local alone = {}
local abs, max, min = math.abs, math.max, math.min

------------------------------------------------------------------------------- pieces

-- A stretch of a joist of one span from x0 to x1: its loads and cuts come along.
-- @param changes fields of the piece
function alone.piece(j, x0, x1, changes)
  local p = {}
  for name, value in pairs(j) do p[name] = value end
  for name, value in pairs(changes or {}) do p[name] = value end
  p.L, p.points, p.lines, p.cuts = {x1 - x0}, {}, {}, {}
  for _, q in ipairs(j.points) do
    if q.x > x0 and q.x < x1 then
      p.points[#p.points + 1] = {x = q.x - x0, P = q.P, live = q.live}
    end
  end
  for _, l in ipairs(j.lines) do
    local a, b = max(l.a, x0), min(l.b, x1)
    if b > a then
      local g = (l.w2 - l.w1) / (l.b - l.a)
      p.lines[#p.lines + 1] = {a = a - x0, b = b - x0, w1 = l.w1 + g * (a - l.a),
        w2 = l.w1 + g * (b - l.a), live = l.live}
    end
  end
  for i, c in ipairs(j.cuts) do
    if c.from >= x0 - 1e-9 and c.to <= x1 + 1e-9 and c.kind ~= "end_notch"
      and c.kind ~= "sever" then
      local new = {}
      for name, value in pairs(c) do new[name] = value end
      new.from, new.to, new.number = c.from - x0, c.to - x0, i
      p.cuts[#p.cuts + 1] = new
    end
  end
  return p
end

-- Dead and live load that lies from x0 to x1, and its moments about x0.
function alone.sum(j, x0, x1)
  local sum = {D = 0, L = 0, MD = 0, ML = 0}
  local function add(live, P, x)
    local a, b = live and "L" or "D", live and "ML" or "MD"
    sum[a], sum[b] = sum[a] + P, sum[b] + P * (x - x0)
  end
  for _, q in ipairs(joists.loads(j)) do
    if q.x and q.x >= x0 and q.x <= x1 then
      add(q.live, q.P, q.x)
    elseif q.a then
      local a, b = max(q.a, x0), min(q.b, x1)
      if b > a then
        local g = (q.w2 - q.w1) / (q.b - q.a)
        local w1, w2 = q.w1 + g * (a - q.a), q.w1 + g * (b - q.a)
        add(q.live, w1 * (b - a), (a + b) / 2)
        add(q.live, (w2 - w1) * (b - a) / 2, a + (b - a) * 2 / 3)
      end
    end
  end
  return sum
end

------------------------------------------------------------------------------- checks

-- The larger of both combinations against a value by CD: shear over b d, the reaction in
-- full (NDS 3.4.2).
function alone.full_shear(j, D, L, d)
  local worst = 0
  for c, co in ipairs(joists.combos) do
    worst = max(worst, (co.D * D + co.L * max(L, 0)) / (2 / 3
      * joists.values(j.wood, c).Fv * j.b * (d or j.d)))
  end
  return worst
end

-- Sag of each span under live load on every set of spans, against its L/360 and L/240.
local function sags(j, s)
  local live, total = 0, 0
  local loads, n = s.loads, #j.L
  local D = s.beam:sag(joists.only(loads, false), false)
  local ends = s.beam.supports
  for bits = 1, (1 << n) - 1 do
    local on = {}
    for _, q in ipairs(joists.only(loads, true)) do
      for k = 1, n do
        if bits & (1 << (k - 1)) ~= 0 then
          local a, b = ends[k], ends[k + 1]
          if q.x and q.x > a and q.x < b then
            on[#on + 1] = q
          elseif q.a and min(q.b, b) > max(q.a, a) then
            local lo, hi = max(q.a, a), min(q.b, b)
            local g = (q.w2 - q.w1) / (q.b - q.a)
            on[#on + 1] = {a = lo, b = hi, w1 = q.w1 + g * (lo - q.a),
              w2 = q.w1 + g * (hi - q.a), live = true}
          end
        end
      end
    end
    for i, p in ipairs(s.beam:sag(on, true)) do
      local k = 1
      while k < n and p.x > ends[k + 1] do k = k + 1 end
      live = max(live, p.sag / (j.L[k] / 360))
      total = max(total, (p.sag + D[i].sag) / (j.L[k] / 240))
    end
  end
  return live, total
end

--- All checks of a joist by itself: {bending =, hogging =, shear =, bearing = {...},
-- live =, total =, cuts = {{number, ratio, hogs}}, R = {{D, up, down}}, worst =}.
-- @param more {{D =, L =}, ...}: what stands on a bearing besides
function alone.checks(j, more)
  local s = joists.alone(j)
  local S, out = j.b * j.d ^ 2 / 6, {bearing = {}, R = {}, cuts = {}}
  local total = joists.total(j)
  out.bending = s:bending(0, total, j.wood, S, j.Cr)
  out.hogging = #j.L > 1 and s:bending(0, total, j.wood, S, j.Cr, -1) or 0
  out.shear = 0
  local x0 = 0
  for n = 1, #j.l_b do
    for _, side in ipairs {1, -1} do
      if n <= #j.L and side > 0 or n > 1 and side < 0 then
        out.shear = max(out.shear, s:end_shear(x0, j.l_b[n], side, {1, 1}))
      end
    end
    local D, up, down = s:reaction(x0)
    local m = more and more[n] or {D = 0, L = 0}
    out.R[n] = {D = D + m.D, up = up + m.L, down = down}
    -- one that lifts under every load presses on nothing
    out.bearing[n] = joists.bearing(max(0, D + up + m.D + m.L), j.l_b[n], j.b, j.wood,
      n > 1 and n <= #j.L)
    x0 = x0 + (j.L[n] or 0)
  end
  out.live, out.total = sags(j, s)
  out.worst = max(out.bending, out.hogging, out.shear, out.live, out.total,
    table.unpack(out.bearing))
  for _, c in ipairs(j.cuts) do
    if c.kind ~= "sever" then
      local ratio, hogs = s:cut(c, j.Cr)
      out.cuts[#out.cuts + 1] = {number = c.number, ratio = ratio, hogs = hogs}
      out.worst = max(out.worst, ratio)
    end
  end
  return out
end

-- Sets them beside the module's of a member.
local function set(q, member, out, test)
  local function both(more)
    return function(k) return (not test or test(k)) and (not more or more(k)) end
  end
  local function whole(k) return not k.cut and not k.name and k.branch == 1 end
  q:check("bending", member, out.bending, true, both(whole))
  if out.hogging > 1e-6 then q:check("bending", member, out.hogging, false, both()) end
  -- Beside an inner bearing the module takes off a point load what reaches it in a
  -- simple span, less than in the beam that runs on: not less than by the clause.
  q:check("shear", member, out.shear, #out.bearing == 2, both(whole))
  for n, ratio in ipairs(out.bearing) do
    q:check("bearing", member, ratio, true, both(function(k) return k.support == n end))
  end
  q:check("deflection-live", member, out.live, true, both())
  q:check("deflection-total", member, out.total, true, both())
  for _, c in ipairs(out.cuts) do
    local found = 0
    for _, k in ipairs(q.fixed.checks) do
      if k.cut == c.number and k.member == member and k.binding ~= false
        and both()(k) then
        found = max(found, k.ratio or 1e9)
      end
    end
    q:set(("cut %d of the %s"):format(c.number, member), c.ratio, found, not c.hogs)
  end
end

local function named(name)
  return function(k) return k.name == name end
end

-------------------------------------------------------------------------------- hanger

-- The joist begins where it hangs; the floor behind stands on the hanger.
function alone.hanger(q, j, f)
  local L, left = j.L[1], f.support == "left"
  local reach = 0
  for _, c in ipairs(j.cuts) do
    if c.kind == "end_notch" then reach = c.length - j.l_b[left and 1 or 2] / 2 end
  end
  local off = f.offset or max(reach, 0) + f.seat / 2
  local x0, x1 = left and off or 0, left and L or L - off
  local l_b = left and {f.seat, j.l_b[2]} or {j.l_b[1], f.seat}
  local p = alone.piece(j, x0, x1, {l_b = l_b})
  local sum = alone.sum(j, left and 0 or x1, left and x0 or L)
  local n = left and 1 or 2
  local out = alone.checks(p, {[n] = {D = sum.D, L = sum.L}})
  set(q, "host", out)
  local R = out.R[n]
  q:check("shear", "host", alone.full_shear(j, R.D - sum.D, R.up - sum.L), true,
    named "end at the hanger")
  q:count("load on the hanger", R.D + R.up, q.fixed.forces[1].value)
  if f.capacity then
    q:check("fasteners", "hanger", (R.D + R.up) / f.capacity, true, named "hanger")
  end
end

------------------------------------------------------------------------------- support

-- Two spans in place of one; a hole or slot within d of the new bearing is a short beam
-- for its reaction: R a/4 on its chord's b h^2/6, and R in shear.
function alone.midspan_support(q, j, f)
  local p = {}
  for name, value in pairs(j) do p[name] = value end
  p.L, p.l_b = {f.at, j.L[1] - f.at}, {j.l_b[1], f.bearing, j.l_b[2]}
  p.cuts = {}
  for i, c in ipairs(j.cuts) do
    local new = {number = i}
    for name, value in pairs(c) do new[name] = value end
    p.cuts[i] = new
  end
  local out = alone.checks(p)
  local function over(k) return not (k.name and k.name:find "over the support") end
  set(q, "host", out, over)
  local R = out.R[2]
  q:count("load on the new beam", R.D + R.up, q.fixed.forces[2].value)
  if f.capacity then q:check("fasteners", "post", (R.D + R.up) / f.capacity) end
  for n, r in ipairs(out.R) do
    if (r.D < -1e-6 or r.D + r.up < 1e-6) and not f.hold_down
      and q.fixed.status == "adequate" then
      q:breach(("bearing %d lifts"):format(n))
    end
  end
  for _, c in ipairs(j.cuts) do
    local x1, x2 = f.at - f.bearing / 2, f.at + f.bearing / 2
    local gap = max(c.from - x2, x1 - c.to, 0)
    if (c.kind == "hole" or c.kind == "slot") and gap < j.d - 1e-6 then
      local bend, h = 0, c.y1
      for k, co in ipairs(joists.combos) do
        local V = co.D * R.D + co.L * max(R.up, 0)
        bend = max(bend, V * (c.to - c.from) / 4 / (j.b * h ^ 2 / 6)
          / joists.values(j.wood, k).Fb)
      end
      local function here(k) return not over(k) end
      q:check("opening-frame", "host", bend, true, here)
      q:check("shear", "host", alone.full_shear(j, R.D, R.up, h), true, here)
    end
  end
end

--------------------------------------------------------------------------- added joist

-- A bare joist like this one with other loads: no cuts; points are this one's alone.
local function bare(j, changes)
  local p = {}
  for name, value in pairs(j) do p[name] = value end
  p.cuts, p.points = {}, {}
  for name, value in pairs(changes) do p[name] = value end
  return p
end

local function scaled(j, k)
  local points, lines = {}, {}
  for i, p in ipairs(k > 0 and j.points or {}) do
    points[i] = {x = p.x, P = p.P * k, live = p.live}
  end
  for i, l in ipairs(k > 0 and j.lines or {}) do
    lines[i] = {a = l.a, b = l.b, w1 = l.w1 * k, w2 = l.w2 * k, live = l.live}
  end
  return points, lines
end

-- Where each joist of the row stands, and the floor that is its own: half the way to
-- both beside it. One that is written off goes out of the row; its own loads go to
-- those beside it by the distances.
function alone.added_joist(q, j, f)
  local s, row = j.s, {{y = -j.s}}
  if f.side ~= "right" then row[#row + 1] = {y = -(f.at or s / 2), added = true} end
  if not f.write_off then row[#row + 1] = {y = 0, old = true} end
  if f.side ~= "left" then row[#row + 1] = {y = f.at or s / 2, added = true} end
  row[#row + 1] = {y = s}
  for i = 2, #row - 1 do row[i].width = (row[i + 1].y - row[i - 1].y) / 2 end
  if f.write_off then
    local k = 1
    while row[k + 1].y < 0 do k = k + 1 end
    local a, b = row[k], row[k + 1]
    a.share, b.share = b.y / (b.y - a.y), -a.y / (b.y - a.y)
  end
  local worst
  for _, p in ipairs(row) do
    if p.added then
      local points, lines = scaled(j, p.share or 0)
      local out = alone.checks(bare(j, {b = f.b, d = f.d, wood = f.wood, s = max(p.width,
        4), points = points, lines = lines}))
      if not worst or out.worst > worst.worst then worst = out end
      p.out = out
    elseif p.old then
      local cut = bare(j, {s = max(p.width, 4), points = j.points, cuts = {}})
      for i, c in ipairs(j.cuts) do
        local new = {number = i}
        for name, value in pairs(c) do new[name] = value end
        cut.cuts[i] = new
      end
      set(q, "host", alone.checks(cut))
    end
  end
  local found = 0
  for _, k in ipairs(q.fixed.checks) do
    if k.member == "added joist" and k.binding ~= false then
      found = max(found, k.ratio)
    end
  end
  q:set("added joist", worst.worst, found)
  local n = 0
  for _, p in ipairs(q.fixed.pieces) do
    if p.name == "added joist" then n = n + (p.count or 1) end
  end
  q:count("added joists in the parts", f.side == "both" and 2 or 1, n)
  if f.write_off then alone.shed(q, j, row) end
end

-- The neighbors of a joist that is written off: their own floor and lines, and what
-- comes.
function alone.shed(q, j, row)
  local first, last = row[1], row[#row]
  for i, p in ipairs {first, last} do
    local gain = i == 1 and (row[2].y - first.y) / 2 + first.y / 2
      or (last.y - row[#row - 1].y) / 2 - last.y / 2
    local points, lines = scaled(j, p.share or 0)
    table.move(j.lines, 1, #j.lines, #lines + 1, lines)
    -- one that has a new joist beside it is not relieved
    local all = bare(j, {s = j.s + max(gain, 0), points = points, lines = lines})
    q:set(("neighbor %d"):format(i), alone.checks(all).worst, q.fixed.neighbours[i].ratio)
  end
end

-------------------------------------------------------------------------------- header

-- Tails from the bearings to the headers, headers over two bays with the tail and half of
-- the floor between on them, trimmers under their ends.
function alone.header(q, j, f)
  local L, tails = j.L[1], {}
  local between = alone.sum(j, f.at[1], f.at[2])
  local c = f.at[2] - f.at[1]
  local strip = {{D = between.D - between.MD / c, L = between.L - between.ML / c},
    {D = between.MD / c, L = between.ML / c}}
  if f.between == "none" then strip = {{D = 0, L = 0}, {D = 0, L = 0}} end
  local d = f.d or j.d
  local trimmer = bare(j, {b = j.b * f.trimmer_plies, lines = {table.unpack(j.lines)}})
  for i, x in ipairs(f.at) do
    local left = i == 1
    local p = alone.piece(j, left and 0 or x, left and x or L, {Cr = 1, l_b = left
      and {j.l_b[1], 1.5} or {1.5, j.l_b[2]}})
    local out = alone.checks(p)
    local R = out.R[left and 2 or 1]
    tails[i] = {out = out, D = R.D, L = R.up}
    local function mine(k) return not k.at or left and k.at <= x + 1e-6 or not left
      and k.at >= x - 1e-6 end
    set(q, "tail", out, mine)
    q:check("shear", "tail", alone.full_shear(j, R.D, R.up), true, function(k)
      return mine(k) and k.name == "end at the header"
    end)
    local D, live = R.D + strip[i].D, R.up + strip[i].L
    local h = bare(j, {b = j.b * f.plies, d = d, Cr = 1, s = 12, D = 0, Lpsf = 0,
      L = {2 * j.s}, l_b = {1.5, 1.5}, lines = {}, points = {{x = j.s, P = D}, {x = j.s,
      P = live, live = true}}})
    local function at(k) return k.at and abs(k.at - x) < 1e-6 end
    set(q, "header", alone.checks(h), at)
    q:check("shear", "header", alone.full_shear(h, D / 2, live / 2), true, function(k)
      return at(k) and k.name == "end at the trimmer"
    end)
    table.insert(trimmer.points, {x = x, P = D / 2})
    table.insert(trimmer.points, {x = x, P = live / 2, live = true})
    tails[i].all, tails[i].on = D + live, {D = D, L = live}
  end
  alone.header_plies(q, j, f, tails)
  local most = max(tails[1].all, tails[2].all) / 2
  if f.hanger then
    q:check("fasteners", "header", most / f.hanger, true, named "hanger of the header")
  end
  if f.tail_hanger then
    q:check("fasteners", "tail", max(tails[1].D + tails[1].L, tails[2].D + tails[2].L)
      / f.tail_hanger, true, named "hanger of the tail")
  end
  local worst = alone.checks(trimmer).worst
  for i = 1, 2 do q:set("trimmer", worst, q.fixed.neighbours[i].ratio) end
  local count = {header = 0, trimmer = 0}
  for _, p in ipairs(q.fixed.pieces) do
    if count[p.name] then count[p.name] = count[p.name] + (p.count or 1) end
  end
  q:count("plies of headers in the parts", 2 * f.plies, count.header)
  q:count("plies of trimmers in the parts", 2 * (f.trimmer_plies - 1), count.trimmer)
end

--- Nails between the plies: a tail hangs on one ply of the header, half of a header on
-- the first of the trimmer, which is as long as the joist.
function alone.header_plies(q, j, f, tails)
  local headers, trimmers, ends = {}, {}, {}
  for i, tail in ipairs(tails) do
    ends[i] = {D = tail.on.D / 2, L = tail.on.L / 2}
    headers[i] = {member = "header", b = j.b, G = j.wood.G, n = f.plies, loaded = 1,
      length = 2 * j.s - j.b, loads = {tail.on}}
  end
  for i = 1, 2 do
    trimmers[i] = {member = "trimmer", b = j.b, G = j.wood.G, n = f.trimmer_plies,
      loaded = 1, length = j.L[1] + (j.l_b[1] + j.l_b[2]) / 2, loads = ends}
  end
  if f.plies > 1 then nails.plies(q, headers) end
  if f.trimmer_plies > 1 then nails.plies(q, trimmers) end
end

return alone
