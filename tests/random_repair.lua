-- SPDX-License-Identifier: MIT
-- Random joists with a repair of every kind, as numbers that a plain recomputation and
-- the module both read. Places stand on a grid of 1/4 in, so that nothing lies within a
-- hair of another; loads lie unevenly; cuts keep clear of each other (merging is tested
-- elsewhere).
local ns = require "netsection"

local repairs = {}

-- Sizes of NDS Appendix L, bending yield strengths of Table I1 (in, psi).
local FASTENERS = {
  {kind = "lag screw", D = 0.25, D_r = 0.173, E = 5 / 32, L = 3, F_yb = 70000},
  {kind = "lag screw", D = 0.25, D_r = 0.173, E = 5 / 32, L = 2.5, F_yb = 70000},
  {kind = "lag screw", D = 0.3125, D_r = 0.227, E = 3 / 16, L = 3, F_yb = 60000},
  {kind = "lag screw", D = 0.375, D_r = 0.265, E = 7 / 32, L = 4, F_yb = 45000},
  {kind = "bolt", D = 0.375, D_r = 0.375, E = 0, F_yb = 45000},
  {kind = "bolt", D = 0.5, D_r = 0.5, E = 0, F_yb = 45000},
  {kind = "bolt", D = 0.5, D_r = 0.5, E = 0, F_yb = 45000},
  {kind = "wood screw", number = 14, D = 0.242, D_r = 0.196, L = 3, F_yb = 70000},
  {kind = "wood screw", number = 10, D = 0.19, D_r = 0.152, L = 3, F_yb = 80000},
  {kind = "nail", size = "10d", D = 0.148, D_r = 0.148, L = 3, F_yb = 90000},
  {kind = "nail", size = "16d", D = 0.162, D_r = 0.162, L = 3.5, F_yb = 90000},
}

repairs.fasteners = FASTENERS

local function described(f)
  if f.kind == "nail" then return ns.fastener {kind = "nail", size = f.size} end
  return ns.fastener {kind = f.kind, number = f.number, diameter = not f.number and f.D
    or nil, length = f.L}
end

local function quarter(x) return math.floor(x * 4 + 0.5) / 4 end

function repairs.wood(r)
  local Fb, E = r:real(600, 1600), r:real(1e6, 2e6)
  local CF = r:pick {1, 1.1, 1.2}
  return {Fb = Fb, CF = CF, CF_t = CF, CF_c = 1, Fv = r:real(130, 190),
    Fc_perp = r:real(335, 700), Ft = Fb * r:real(0.45, 0.7), Fc = Fb * r:real(1, 1.6),
    E = E, Emin = E * 0.3625, G = r:pick {0.42, 0.46, 0.5, 0.55}}
end

--------------------------------------------------------------------------------- joists

local cut = {}

function cut.hole(r, j, x)
  local D = quarter(r:real(0.75, 0.38 * j.d))
  local below = quarter(r:real(1, math.max(1, j.d - D - 1)))
  return {kind = "hole", D = D, from = x - D / 2, to = x + D / 2, y1 = below,
    y2 = below + D}
end

function cut.slot(r, j, x)
  local h, l = quarter(r:real(0.5, 0.35 * j.d)), quarter(r:real(1, 10))
  local below = quarter(r:real(1.25, math.max(1.25, j.d - h - 1.25)))
  return {kind = "slot", from = x, to = x + l, y1 = below, y2 = below + h}
end

function cut.notch(r, j, x)
  local depth, top = quarter(r:real(0.5, 0.4 * j.d)), r:unit() < 0.3
  return {kind = "notch", from = x, to = x + quarter(r:real(0.5, 5)),
    y1 = top and j.d - depth or 0, y2 = top and j.d or depth}
end

function cut.sever(r, j, x)
  return {kind = "sever", from = x, to = x + quarter(r:real(0.5, 8)), y1 = 0, y2 = j.d}
end

function cut.loss(r, j, x)
  local depth = quarter(r:real(0.25, 0.25 * j.d))
  return {kind = "loss", from = x, to = x + quarter(r:real(1, 10)), y1 = 0, y2 = depth}
end

-- Cuts whose middles stand apart, none near a bearing.
local function cuts(r, j, kinds, n)
  local L, d = j.L[1], j.d
  local at = {quarter(L * r:real(0.3, 0.7))}
  if n > 1 then
    at[2] = quarter(at[1] > L / 2 and L * 0.15 + 4 or L * 0.85 - 12)
  end
  j.cuts = {}
  for i, x in ipairs(at) do
    local kind = r:pick(i == 1 and kinds or {"hole", "notch"})
    local c = cut[kind](r, j, x)
    local first = j.cuts[1]
    local apart = first and math.max(c.from - first.to, first.from - c.to) or 100
    local clear = first and first.kind == "loss" and 24 or 12
    if c.from > d + 4 and c.to < L - d - 4 and apart > clear then
      j.cuts[#j.cuts + 1] = c
    end
  end
  if #j.cuts == 0 then j.cuts[1] = cut.notch(r, j, quarter(L / 2)) end
end

local function loads(r, j)
  local total = j.L[1]
  j.points, j.lines = {}, {}
  for _ = 1, r:pick {0, 0, 1, 1, 2} do
    j.points[#j.points + 1] = {x = quarter(r:real(16, total - 16)) + 0.09,
      P = r:real(30, 350), live = r:unit() < 0.5}
  end
  if r:unit() < 0.3 then
    local a = quarter(r:real(0, total - 30)) + 0.0625
    j.lines[1] = {a = a, b = math.min(quarter(a + r:real(12, 80)) + 0.0625, total - 0.5),
      w1 = r:real(5, 70), w2 = r:real(5, 70), live = r:unit() < 0.5}
  end
end

function repairs.joist(r, kinds, n)
  local j = {b = r:pick {1.5, 1.5, 1.5, 2}, d = r:pick {7.25, 9.25, 9.25, 11.25},
    s = r:pick {12, 16, 19.25}, D = r:real(6, 18), Lpsf = r:pick {30, 40}, Cr = r:pick {1,
      1.15}, wood = repairs.wood(r), l_b = {r:pick {1.5, 3.5}, r:pick {1.5, 3.5}}}
  j.L = {quarter(r:real(10, 17) * j.d)}
  loads(r, j)
  cuts(r, j, kinds, n or r:pick {1, 1, 1, 2})
  return j
end

local DESCRIBE = {
  hole = function(c) return ns.hole {at = (c.from + c.to) / 2, diameter = c.D,
    below = c.y1} end,
  slot = function(c) return ns.slot {from = c.from, to = c.to, height = c.y2 - c.y1,
    below = c.y1} end,
  notch = function(c) return ns.notch {face = c.y1 == 0 and "bottom" or "top",
    from = c.from, to = c.to, depth = c.y2 - c.y1} end,
  sever = function(c) return ns.sever {from = c.from, to = c.to} end,
  loss = function(c) return ns.loss {from = c.from, to = c.to, bottom = c.y2,
    cause = "rot"} end,
  end_notch = function(c) return ns.end_notch {support = c.support, face = "bottom",
    depth = c.y2, length = c.length} end,
  lost = function(c) return ns.lost_bearing {support = c.support, to = c.gone,
    cause = "rot"} end,
}

local function plf(w) return ("%.17g plf"):format(w) end

--- The module's description of a joist.
function repairs.described(j, mark)
  local t = {mark = mark or "R", b = j.b, d = j.d, spacing = j.s, dead = j.D,
    live = j.Lpsf, spans = j.L, bearing = j.l_b, material = j.wood, repetitive = j.Cr,
    loads = {}, cuts = {}}
  for _, p in ipairs(j.points) do
    t.loads[#t.loads + 1] = ns.point {at = p.x, load = ("%.17g lb"):format(p.P),
      case = p.live and "live" or "dead"}
  end
  for _, l in ipairs(j.lines) do
    t.loads[#t.loads + 1] = ns.line {from = l.a, to = l.b, load = plf(l.w1),
      to_load = plf(l.w2), case = l.live and "live" or "dead"}
  end
  for i, c in ipairs(j.cuts) do t.cuts[i] = DESCRIBE[c.kind](c) end
  return t
end

---------------------------------------------------------------------------------- repairs

local kinds = {}
repairs.kinds = kinds

local function lift(r, j)
  local gap
  for _, c in ipairs(j.cuts) do gap = gap or c.kind == "sever" end
  if gap then return nil end
  return r:pick {"none", "none", "unloaded", {at = quarter(j.L[1] / 2) + 0.1875,
    force = r:real(20, 150)}}
end

-- Two groups on each side of the first cut, or rows at a pitch.
local function rows(r, j, f, n)
  local c = j.cuts[1]
  if f.severed or r:unit() < 0.6 then
    local a, b = c.from - f.from, f.to - c.to
    local near, out = quarter(r:real(4.5, 7)), quarter(r:real(4, 6))
    f.groups = {}
    for i, at in ipairs {f.from + out, c.from - near, c.to + near, f.to - out} do
      f.groups[i] = {at = at, n = n or r:int(2, 8)}
    end
    if a < near + out + 4 or b < near + out + 4 then f.groups = nil end
  end
  if not f.groups then
    f.pitch, f.per_row = r:pick {8, 10, 12, 16}, r:int(1, 3)
  end
end

local function beside(r, j)
  local c, L = j.cuts[1], j.L[1]
  local f = {fastener = r:pick(FASTENERS), side = r:pick {"left", "right", "right",
    "both"}}
  for _, one in ipairs(j.cuts) do f.severed = f.severed or one.kind == "sever" end
  f.from = math.max(1, quarter(c.from - r:real(14, 45)))
  f.to = math.min(L - 1, quarter(c.to + r:real(14, 45)))
  rows(r, j, f)
  f.lift = lift(r, j)
  f.gap_load = f.severed and r:unit() < 0.4 and "between groups" or nil
  f.rated = r:unit() < 0.12 and r:real(150, 600) or nil
  return f
end

function kinds.sister(r)
  local j = repairs.joist(r, {"hole", "slot", "notch", "sever", "sever", "loss"})
  local f = beside(r, j)
  f.kind = "sister"
  local full = not f.severed and r:unit() < 0.4
  if full then
    f.from, f.to, f.groups, f.bearing = 0, j.L[1], nil, true
    f.pitch, f.per_row = r:pick {8, 12, 16}, r:int(1, 3)
    f.share = r:pick {"stiffness", "stiffness", "new", "worst", "slip"}
    if f.share == "new" then f.lift = nil end -- what is written off carries nothing
  end
  f.b, f.d = r:pick {1.5, 1.5, 2}, j.d
  if not full and r:unit() < 0.25 then f.d = j.d - 2 end
  f.wood = repairs.wood(r)
  return j, f
end

function kinds.side_plates(r)
  local j = repairs.joist(r, {"hole", "slot", "notch", "sever", "sever"})
  local f = beside(r, j)
  f.kind, f.depth = "side_plates", r:pick {j.d, j.d - 0.25, j.d - 1}
  f.steel = r:pick {"A36", "A36", "A653 33"}
  if f.steel == "A36" then f.thickness = r:pick {0.1875, 0.25, 0.375} else
    f.gauge = r:pick {10, 12, 14}
  end
  return j, f
end

-- A notch over a bearing, d/4 deep at most unless `deep`.
local function end_notch(r, j, support, deep)
  local depth = quarter(r:real(0.75, deep and 0.45 * j.d or 0.25 * j.d - 0.25))
  local length = quarter(r:real(1, 6))
  local c = {kind = "end_notch", support = support, y1 = 0, y2 = depth, length = length}
  local L, l_b = j.L[1], j.l_b
  c.from = support == "left" and -l_b[1] / 2 or L + l_b[2] / 2 - length
  c.to = c.from + length
  return c
end

function kinds.hanger(r)
  local j = repairs.joist(r, {"hole", "slot", "notch"}, 1)
  local f = {kind = "hanger", support = r:pick {"left", "right"}, seat = r:pick {1.5, 2,
    3.5}}
  if r:unit() < 0.7 then
    j.cuts[2] = end_notch(r, j, f.support, true)
  else
    f.offset = quarter(r:real(3, 10))
  end
  f.capacity = r:unit() < 0.7 and r:real(400, 1500) or nil
  return j, f
end

function kinds.midspan_support(r)
  local j = repairs.joist(r, {"hole", "slot", "notch"}, 1)
  local f = {kind = "midspan_support", at = quarter(j.L[1] * r:real(0.3, 0.7)) + 0.1875,
    bearing = r:pick {1.5, 3.5, 5.5}}
  f.capacity = r:unit() < 0.5 and r:real(800, 3000) or nil
  return j, f
end

function kinds.added_joist(r)
  local j = repairs.joist(r, {"hole", "slot", "notch", "sever"}, 1)
  local f = {kind = "added_joist", side = r:pick {"left", "right", "both"}}
  f.write_off = j.cuts[1].kind == "sever" or r:unit() < 0.3
  if r:unit() < 0.5 then f.at = quarter(j.s * r:real(0.35, 0.65)) end
  f.b, f.d, f.wood = r:pick {1.5, 2}, j.d, repairs.wood(r)
  return j, f
end

function kinds.header(r)
  local j = repairs.joist(r, {"sever"}, 1)
  local c, L = j.cuts[1], j.L[1]
  local f = {kind = "header", plies = r:int(1, 3), trimmer_plies = r:int(1, 3),
    between = r:pick {"half", "half", "none"}}
  f.at = {quarter(c.from - r:real(2, 14)), quarter(c.to + r:real(2, 14))}
  if f.at[1] < 30 or f.at[2] > L - 30 then
    f.at = {math.max(30, f.at[1]), math.min(L - 30, f.at[2])}
  end
  f.hanger = r:unit() < 0.5 and r:real(300, 1200) or nil
  f.tail_hanger = r:unit() < 0.5 and r:real(300, 1200) or nil
  return j, f
end

function kinds.notch_screws(r)
  local j = repairs.joist(r, {"hole", "notch"}, 1)
  local f = {kind = "notch_screws", support = r:pick {"left", "right"}, n = r:int(1, 2)}
  j.cuts = {end_notch(r, j, f.support)}
  f.fastener = r:pick {{kind = "lag screw", D = 0.25, D_r = 0.173, E = 5 / 32, L = 6,
    F_yb = 70000}, {kind = "wood screw", number = 14, D = 0.242, D_r = 0.196, L = 5,
    F_yb = 70000}, {kind = "lag screw", D = 0.3125, D_r = 0.227, E = 3 / 16, L = 6,
    F_yb = 60000}}
  f.full_thread = r:unit() < 0.6
  return j, f
end

function kinds.end_sister(r)
  local j = repairs.joist(r, {"hole", "notch"}, 1)
  local f = {kind = "end_sister", support = r:pick {"left", "right"},
    gone = quarter(r:real(2, 10)), b = r:pick {1.5, 2}, d = j.d, wood = repairs.wood(r),
    fastener = r:pick(FASTENERS), side = r:pick {"left", "right"}, seat = r:pick {1.5, 2,
    3.5}}
  j.cuts = {{kind = "lost", support = f.support, gone = f.gone, from = 0, to = 0, y1 = 0,
    y2 = j.d}}
  local a = quarter(f.gone + 12 + r:real(4, 9))
  f.groups = {{at = a, n = r:int(2, 8)}, {at = quarter(a + r:real(16, 40)), n = r:int(2,
    8)}}
  f.to = f.groups[2].at + quarter(r:real(4, 8))
  f.hanger = {capacity = r:real(400, 1200), seat = f.seat}
  f.rated = r:unit() < 0.12 and r:real(150, 600) or nil
  return j, f
end

function kinds.strap(r)
  local j = repairs.joist(r, {"hole", "slot", "notch"})
  if j.cuts[1].kind == "notch" then
    local depth = j.cuts[1].y2 - j.cuts[1].y1
    j.cuts[1].y1, j.cuts[1].y2 = 0, depth
  end
  local f = {kind = "strap", cut = 1, rows = r:int(1, 2), width = 1.5, lift = r:pick {
    "none", "unloaded"}}
  f.fastener = FASTENERS[r:pick {1, 1, 2, 3, 4, 8, 9, 10}]
  f.n = f.rows * r:int(2, 8)
  f.steel = r:pick {"A36", "A653 33", "A653 33"}
  if f.steel == "A36" then f.thickness = r:pick {0.125, 0.1875, 0.25} else
    f.gauge = r:pick {10, 12, 14}
  end
  return j, f
end

--- The module's repair.
function repairs.fix(f)
  local t = {}
  for _, name in ipairs {"side", "from", "to", "groups", "pitch", "per_row", "gap_load",
    "bearing", "share", "b", "d", "depth", "steel", "thickness", "gauge", "rated", "at",
    "plies", "trimmer_plies", "hanger", "tail_hanger", "between", "capacity", "support",
    "seat", "offset", "hold_down", "write_off", "n", "rows", "width", "cut",
    "full_thread", "to", "end_distance"} do
    t[name] = f[name]
  end
  if f.kind == "end_sister" then t.seat = nil end -- it is the hanger's
  t.fastener = f.fastener and described(f.fastener) or nil
  t.material = f.wood
  t.lift = type(f.lift) == "table" and ns.prop {at = f.lift.at, force = f.lift.force}
    or f.lift
  return ns[f.kind](t)
end

--- A case of a kind: the joist and the repair as numbers, both.
function repairs.of(r, kind)
  return kinds[kind](r)
end

return repairs
