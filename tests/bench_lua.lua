-- SPDX-License-Identifier: MIT
-- The core's review of one joist in plain Lua: what tests/bench.lua measures the core
-- against. One simple span under dead and live floor load, cut by holes, slots and
-- notches. Method, order and numbers are those of csrc/, file by file, and terms that are
-- nil for these joists, such as slopes of loads, stay where the core has them too.
-- Written to be fast: arrays are filled anew and never let go, what does not change is
-- taken out of loops, and what one joist does not need is branched around. What the core
-- notes besides, for steps and drawings, is left out.
local core = require "netsection.core"
local packs = require "netsection.packs"

local bench_lua = {}

local abs, sqrt = math.abs, math.sqrt
local HOLE, SLOT, NOTCH = 1, 2, 3
local KIND_OF = {hole = HOLE, slot = SLOT, notch = NOTCH}
local LEAVE, JUSTIFY, DECIDE, REPAIR, REFER = 0, 1, 2, 3, 4
local SLACK = 1e-6
local NO_CAPACITY = 1e12 -- the ratio where there is none

-- The joist at hand.
local model, standard, combos, limits, covers
local total, start, finish, width, depth, ply, left_bearing, right_bearing
local cuts = 0

-- Cuts, one entry each; names as in csrc/work/work.h.
local KIND, TOP, SIZE, STRETCH, LENGTH = {}, {}, {}, {}, {}
local X1, X2, XC, Y1, Y2, SIGMA = {}, {}, {}, {}, {}, {}
local G1, G2, H1, H2, VOICE, MERGED, OPENING = {}, {}, {}, {}, {}, {}, {}
local BX1, BX2, BY1, BY2, WEIGHT = {}, {}, {}, {}, {} -- the box it is checked with
local R1, R2, BETWEEN, TIE, FRAME = {}, {}, {}, {}, {} -- where M and V are read; L, a

local function pair_of_rows()
  local rows = {}
  for c = 1, 4 do rows[c] = {{}, {}} end
  return rows
end

------------------------------------------------------------- csrc/joist/validate.c

local fields = core.fields()
local NAMES, LOWS, HIGHS = {}, {}, {}
local RANGE, CUT_RANGE = {}, {}
for _, f in ipairs(fields.joist) do
  RANGE[f.name] = f
  if f.rows == 1 then
    NAMES[#NAMES + 1], LOWS[#LOWS + 1], HIGHS[#HIGHS + 1] = f.name, f.low, f.high
  end
end
for _, f in ipairs(fields.cut) do CUT_RANGE[f.name] = f end

-- Fields that a kind of cut reads: name, low, high and so on.
local function reads(...)
  local list = {}
  for _, name in ipairs {...} do
    local f = CUT_RANGE[name]
    list[#list + 1], list[#list + 2], list[#list + 3] = name, f.low, f.high
  end
  return list
end
local READS = {reads("at", "diameter"), reads("from", "to", "height"),
  reads("from", "to", "depth", "overcut", "split_length", "taper", "accept")}
local PLACE = {below = reads "below", above = reads "above", centred = {}}

local function all_within(t, list)
  for i = 1, #list, 3 do
    local v = t[list[i]] or 0
    if not (v >= list[i + 1] and v <= list[i + 2]) then return false end
  end
  return true
end

local function rows_within(list, name)
  local low, high = RANGE[name].low, RANGE[name].high
  for i = 1, #list do
    if not (list[i] >= low and list[i] <= high) then return false end
  end
  return true
end

-- 0 says that it is not there.
local OPTIONAL = {"Ft", "Fc", "Fc_perp", "limit_live", "limit_total"}

local function valid_joist(m)
  for i = 1, #NAMES do
    local v = m[NAMES[i]] or 0
    if not (v >= LOWS[i] and v <= HIGHS[i]) then return false end
  end
  if m.repetitive ~= 0 and m.repetitive < 1 then return false end
  for i = 1, #OPTIONAL do
    local v = m[OPTIONAL[i]] or 0
    if v ~= 0 and v < 1 then return false end
  end
  return rows_within(m.span, "span") and rows_within(m.bearing, "bearing")
    and rows_within(m.blocking, "blocking")
end

local function valid_size(cut, kind, size, d)
  if not (size > 0 and size < d) then return false end
  if kind == NOTCH then return size + (cut.overcut or 0) < d end
  local place = cut.place
  return (place ~= "below" or cut.below + size <= d + 1e-9)
    and (place ~= "above" or cut.above + size <= d + 1e-9)
end

---------------------------------------------------------------- csrc/nds/factors.c

-- Reference value, size factor, CM, the F CF below which it is 1, Ct over 100 F dry and
-- wet, over 125 F dry and wet, Ci, whether CD applies.
local BASES = {
  Fb = {"Fb", "CF", 0.85, 1150, 0.8, 0.7, 0.7, 0.5, 0.8, true, "K_b"},
  Ft = {"Ft", "CF_t", 1.0, 0, 0.9, 0.9, 0.9, 0.9, 0.8, true, "K_t"},
  Fv = {"Fv", false, 0.97, 0, 0.8, 0.7, 0.7, 0.5, 0.8, true, "K_v"},
  Fc_perp = {"Fc_perp", false, 0.67, 0, 0.8, 0.7, 0.7, 0.5, 1.0, false, "K_perp"},
  Fc = {"Fc", "CF_c", 0.8, 750, 0.8, 0.7, 0.7, 0.5, 0.8, true, "K_c"},
  E = {"E", false, 0.9, 0, 0.9, 0.9, 0.9, 0.9, 0.95, false, false},
  Emin = {"Emin", false, 0.9, 0, 0.9, 0.9, 0.9, 0.9, 0.95, false, "K_min"},
}

-- Adjusted value with CD left out.
local function adjust(base)
  local F = model[base[1]] or 0
  local CF = base[2] and model[base[2]] or 1
  local wet, hot = model.wet ~= 0, model.temperature
  local CM = wet and F * CF > base[4] and base[3] or 1
  local Ct = 1
  if hot > 100 then
    Ct = base[(hot > 125 and 7 or 5) + (wet and 1 or 0)]
  end
  local Ci = model.incised ~= 0 and base[9] or 1
  local K = base[11] and standard[base[11]] or 1
  return F, CM * Ct * CF * Ci * K
end

local FB, FV, FT, FC = {}, {}, {}, {} -- by combination
local FB_SIGN, FB_STAR = pair_of_rows(), pair_of_rows() -- with Cr and CL, with Cr
local Fc_perp, E, Emin

local function adjust_values()
  local Fb, kb = adjust(BASES.Fb)
  local Fv, kv = adjust(BASES.Fv)
  local Ft, kt = adjust(BASES.Ft)
  local Fc, kc = adjust(BASES.Fc)
  for c = 1, combos do
    local CD = standard.combinations[c].CD
    FB[c], FV[c] = Fb * CD * kb, Fv * CD * kv
    FT[c], FC[c] = Ft * CD * kt, Fc * CD * kc
  end
  local F, k = adjust(BASES.Fc_perp)
  Fc_perp = F * k
  F, k = adjust(BASES.E)
  E = F * k
  F, k = adjust(BASES.Emin)
  Emin = F * k
end

local function stability_factor(star, l_e, b, d)
  local RB2 = l_e * d / (b * b)
  if RB2 <= 0 then return 1 end
  if RB2 > 2500 then return 1e-6 end
  local r = 1.20 * Emin / RB2 / star
  local p = (1 + r) / 1.9
  local under = p * p - r / 0.95
  return p - sqrt(under > 0 and under or 0)
end

local function effective_length(u, d)
  local r = u / d
  return r < 7 and 2.06 * u or r <= 14.3 and 1.63 * u + 3 * d or 1.84 * u
end

local function bearing_factor(l_b, to_end)
  return l_b < 6 and to_end >= 3 and (l_b + 0.375) / l_b or 1
end

-------------------------------------------------------------- csrc/cuts/geometry.c

local gap, read_joist
do
  local function band_of(cut, d, size)
    if KIND[cuts] == NOTCH then
      if cut.top_face then return d - size, d end
      return 0, size
    end
    local low = cut.place == "below" and cut.below
      or cut.place == "above" and d - cut.above - size or (d - size) / 2
    local high = low + size
    return low < 1e-9 and 0 or low, high > d - 1e-9 and d or high
  end

  -- How far a hole askew counts as a slot.
  local function askew(stretch)
    local part = 4 * (stretch - 1)
    return part < 0 and 0 or part > 1 and 1 or part
  end

  local function between_ends(part, round, slot)
    return part < 1 and round + part * (slot - round) or slot
  end

  -- A round hole's length as a frame: none up to 0.45 d, its radius from 0.60 d on.
  local function round_frame(D)
    local part = (D / depth - 0.45) / 0.15
    return D / 2 * (part < 0 and 0 or part > 1 and 1 or part)
  end

  -- What nearness and length are measured in, and where M and V are read.
  local function start_group(c)
    local x1, x2, size, long = X1[c], X2[c], SIZE[c], X2[c] - X1[c]
    local as_slot = long < depth and long or depth
    if as_slot < size then as_slot = size end
    G1[c], G2[c], H1[c], H2[c] = x1, x2, Y1[c], Y2[c]
    VOICE[c], MERGED[c], OPENING[c] = c, false, KIND[c] ~= NOTCH
    SIGMA[c], TIE[c], FRAME[c] = KIND[c] == NOTCH and size or as_slot, long, long
    R1[c], R2[c], BETWEEN[c], WEIGHT[c] = x1, x2, false, 0
    if KIND[c] ~= HOLE then return end
    local part, frame = askew(STRETCH[c]), round_frame(size)
    SIGMA[c] = between_ends(part, size, as_slot)
    TIE[c], FRAME[c] = between_ends(part, size / 2, long), between_ends(part, frame, long)
    R1[c] = between_ends(part, XC[c] - frame / 2, x1)
    R2[c] = between_ends(part, XC[c] + frame / 2, x2)
    BETWEEN[c] = part < 1 and FRAME[c] > 0
  end

  -- Extent as described, from the left bearing.
  local function extent_of(cut, kind)
    local x1, x2
    if kind == HOLE then
      local half = cut.diameter * STRETCH[cuts] / 2
      x1, x2 = cut.at - half, cut.at + half
    else
      x1, x2 = cut.from, cut.to
    end
    if cut.from_right then return total - x2, total - x1 end
    return x1, x2
  end

  -- Reads and checks the next cut; false where it cannot be worked.
  local function place_cut(cut)
    local kind, d, c = KIND_OF[cut.kind], depth, cuts + 1
    cuts = c
    local size = kind == HOLE and cut.diameter or kind == SLOT and cut.height or cut.depth
    KIND[c], TOP[c], STRETCH[c] = kind, cut.top_face and 2 or 1, cut.stretch or 1
    if not (all_within(cut, READS[kind]) and STRETCH[c] <= 10
      and all_within(cut, PLACE[cut.place or "centred"])) then return false end
    local x1, x2 = extent_of(cut, kind)
    if not (x2 > x1 and x1 >= start - SLACK and x2 <= finish + SLACK
      and valid_size(cut, kind, size, d)) then return false end
    LENGTH[c] = cut.from and cut.to - cut.from or 0
    if kind == NOTCH then
      local split = cut.split_length or 0
      size, x1, x2 = size + (cut.overcut or 0), x1 - split, x2 + split
    end
    if x1 < start then x1 = start end
    if x2 > finish then x2 = finish end
    SIZE[c], X1[c], X2[c], XC[c] = size, x1, x2, (x1 + x2) / 2
    Y1[c], Y2[c] = band_of(cut, d, size)
    start_group(c)
    return true
  end

  -- Clear distance between two boxes.
  local function between(ax1, ax2, ay1, ay2, bx1, bx2, by1, by2)
    local dx, dy = bx1 - ax2, by1 - ay2
    if ax1 - bx2 > dx then dx = ax1 - bx2 end
    if ay1 - by2 > dy then dy = ay1 - by2 end
    if dx < 0 then dx = 0 end
    if dy < 0 then dy = 0 end
    return sqrt(dx * dx + dy * dy)
  end

  -- Between circles where both are round holes; as far as one is askew, between boxes.
  function gap(a, b)
    local holes = KIND[a] == HOLE and KIND[b] == HOLE
    local p, q = holes and askew(STRETCH[a]) or 1, holes and askew(STRETCH[b]) or 1
    local boxes = (p > 0 or q > 0)
      and between(X1[a], X2[a], Y1[a], Y2[a], X1[b], X2[b], Y1[b], Y2[b]) or 0
    if not holes then return boxes end
    local cx, cy = XC[a] - XC[b], (Y1[a] + Y2[a] - Y1[b] - Y2[b]) / 2
    local clear = sqrt(cx * cx + cy * cy) - (SIZE[a] + SIZE[b]) / 2
    return between_ends(p > q and p or q, clear > 0 and clear or 0, boxes)
  end

  local APART = {} -- clear distance of each pair, both ways

  local function group_gap(a, b)
    if not (MERGED[a] or MERGED[b]) then return APART[a][b] end
    return between(G1[a], G2[a], H1[a], H2[a], G1[b], G2[b], H1[b], H2[b])
  end

  -- How far two cuts count as one: not at all from a gap of the smaller size, wholly
  -- from half of it.
  local function weight_of(a, b)
    local least = SIGMA[a] < SIGMA[b] and SIGMA[a] or SIGMA[b]
    local part = 2 - 2 * group_gap(a, b) / (least > 1e-9 and least or 1e-9)
    return part < 0 and 0 or part > 1 and 1 or part
  end

  -- The lesser and the greater of what two cuts have; true where that is news.
  local function share(rows, a, b, most)
    local p, q = rows[a], rows[b]
    if p == q then return false end
    local both = (p > q) == most and p or q
    rows[a], rows[b] = both, both
    return true
  end

  -- Two that are wholly one take the box around both.
  local function join(a, b)
    if weight_of(a, b) < 1 then return false end
    local changed = not (MERGED[a] and MERGED[b]) or OPENING[a] ~= OPENING[b]
    changed = share(G1, a, b, false) or changed
    changed = share(G2, a, b, true) or changed
    changed = share(H1, a, b, false) or changed
    changed = share(H2, a, b, true) or changed
    changed = share(VOICE, a, b, false) or changed
    MERGED[a], MERGED[b] = true, true
    if not changed then return false end
    local either = OPENING[a] or OPENING[b]
    OPENING[a], OPENING[b] = either, either
    local size, long = H2[a] - H1[a], G2[a] - G1[a]
    if long > depth then long = depth end
    if either and long > size then size = long end
    SIGMA[a], SIGMA[b] = size, size
    return true
  end

  -- A group of more than one is worked over its length, as a slot is.
  local function close_group(c)
    if MERGED[c] then
      R1[c], R2[c], BETWEEN[c] = G1[c], G2[c], false
      TIE[c], FRAME[c] = G2[c] - G1[c], G2[c] - G1[c]
    end
    BX1[c], BX2[c], BY1[c], BY2[c] = G1[c], G2[c], H1[c], H2[c]
  end

  -- The edge of cut c on its way to that of the box around it and another, unless it
  -- has gone further.
  local function moved(rows, c, part, from, edge, way)
    local to = from + part * (edge - from)
    if way * to > way * rows[c] then rows[c] = to end
  end

  -- Cut c leans on what is near it but not one with it.
  local function lean(c)
    local r1, r2 = R1[c], R2[c]
    for e = 1, cuts do
      local part = e ~= c and VOICE[e] ~= VOICE[c] and weight_of(c, e) or 0
      if part > 0 then
        local x1, x2 = G1[c] < G1[e] and G1[c] or G1[e], G2[c] > G2[e] and G2[c] or G2[e]
        local y1, y2 = H1[c] < H1[e] and H1[c] or H1[e], H2[c] > H2[e] and H2[c] or H2[e]
        moved(BX1, c, part, G1[c], x1, -1)
        moved(BX2, c, part, G2[c], x2, 1)
        moved(BY1, c, part, H1[c], y1, -1)
        moved(BY2, c, part, H2[c], y2, 1)
        moved(R1, c, part, r1, x1, -1)
        moved(R2, c, part, r2, x2, 1)
        if part > WEIGHT[c] then WEIGHT[c] = part end
      end
    end
    if WEIGHT[c] <= 0 then return end
    local own, long, left = G2[c] - G1[c], BX2[c] - BX1[c], 1 - WEIGHT[c]
    TIE[c], FRAME[c] = long - left * (own - TIE[c]), long - left * (own - FRAME[c])
    BETWEEN[c] = true
  end

  local function merge()
    for a = 1, cuts do
      APART[a] = APART[a] or {}
      for b = 1, a - 1 do
        local clear = gap(b, a)
        APART[a][b], APART[b][a] = clear, clear
      end
    end
    for _ = 2, cuts do
      local changed = false
      for a = 1, cuts do
        for b = a + 1, cuts do changed = join(a, b) or changed end
      end
      if not changed then break end
    end
    for c = 1, cuts do close_group(c) end
    for c = 1, cuts do lean(c) end
  end

  -- A cut entered twice.
  local function twins(a, b)
    if KIND[a] ~= KIND[b] then return false end
    local over = X1[a] >= X1[b] - 1e-6 and X2[a] <= X2[b] + 1e-6
    local under = X1[b] >= X1[a] - 1e-6 and X2[b] <= X2[a] + 1e-6
    return (over or under) and Y1[a] < Y2[b] and Y1[b] < Y2[a]
  end

  local function has_twins()
    for a = 1, cuts do
      for b = a + 1, cuts do
        if twins(a, b) then return true end
      end
    end
    return false
  end

  function read_joist(m)
    if not valid_joist(m) then return false end
    total, width, depth, ply = m.span[1], m.b * m.plies, m.d, m.b
    left_bearing, right_bearing = m.bearing[1], m.bearing[2]
    start, finish = -left_bearing / 2, total + right_bearing / 2
    cuts = 0
    for c = 1, #m.cuts do
      if not place_cut(m.cuts[c]) then return false end
    end
    merge()
    return not has_twins()
  end
end

------------------------------------------------------------ csrc/section/section.c

-- Sections at the cuts.
local S_LEAST, S_HB, S_HT, S_HM, S_AV, S_CM = {}, {}, {}, {}, {}, {}
local CHORD = {{}, {}} -- of openings, 0 where not both count
local THIN = {{}, {}} -- no wood that counts between the band and a face, bottom, top
local LIP_Y, LIP_I = {{}, {}}, {{}, {}}

local set_section, inertia
do
  -- S at the bottom edge of a strip one inch wide: s below, u above, H deep.
  local function S_bottom(s, u, H)
    local v, Q = H - u, s * s / 2 + u * (H - u / 2)
    local J = (s * s * s + H * H * H - v * v * v) / 3
    return Q > 0 and J * (s + u) / Q - Q or 0
  end

  local function kern_root(u, H, s)
    local v, Q = H - u, 6 * u * (H - u / 2)
    local J = 2 * (H * H * H - v * v * v)
    for _ = 1, 6 do s = s - (s * s * s + Q * s - J) / (3 * s * s + Q + 1e-300) end
    return s
  end

  -- Least S at the bottom edge over the openings within s..H-u.
  local function least_bottom(s, u, H)
    local top, least, full = H - u, H * H / 6, S_bottom(s, u, H)
    if full < least then least = full end
    local t = s + H - sqrt(2 * s * H)
    if t > s and t < top then
      local grown = S_bottom(s, H - t, H)
      if grown < least then least = grown end
    end
    local k = kern_root(u, H, top)
    if k > s and k < top then
      local kern = S_bottom(k, u, H)
      if kern < least then least = kern end
    end
    return least
  end

  -- Centroid from the edge of a lip, and I, per inch, where it feels most of M.
  local function lip_section(h, u, H)
    local t = h + H - sqrt(2 * h * H)
    local u2 = t > h and t < H - u and H - t or u
    local A, Q, v = h + u2, h * h / 2 + u2 * (H - u2 / 2), H - u2
    local J = (h * h * h + H * H * H - v * v * v) / 3
    local y = A > 0 and Q / A or 0
    return y, J - Q * y
  end

  -- Wood that counts is this deep, beside an opening of a size.
  local function lip_limit(size)
    local lip = depth / 8 > 1 and depth / 8 or 1
    return lip < size and lip or size
  end

  -- Area, centroid, I and least S of the chords below and above one band, per inch of
  -- width.
  local function two_chords(hb, ht, H)
    local A, v, Q = hb + ht, H - ht, hb * hb / 2 + ht * (H - ht / 2)
    if A <= 0 then return 0, 0, 0, 0 end
    local y = Q / A
    local I = (hb * hb * hb + H * H * H - v * v * v) / 3 - Q * y
    local Sb = I / (hb > 0 and y or y - (H - ht))
    local St = I / ((ht > 0 and H or hb) - y)
    return A, y, I, Sb < St and Sb or St
  end

  -- Wood below and above a band, and what of it counts.
  local function lips(H, lip, y1, y2)
    if y1 < 0 then y1 = 0 end
    if y2 > H then y2 = H end
    local s, u = y1, H - y2
    return s, u, s < lip - 1e-9 and 0 or s, u < lip - 1e-9 and 0 or u
  end

  -- The pieces about two bands from the lowest, and whether the second is over the
  -- first; a lip too thin to count goes with its opening.
  local function three_pieces(hb, ht, H, y1, y2, size, z1, z2, size_z)
    local far = lip_limit(size_z) - 1e-9
    local lip = lip_limit(size) - 1e-9
    if far < lip then lip = far end
    local over = z1 >= y2
    if not over and z1 < far then z1 = 0 end
    if over and H - z2 < far then z2 = H end
    local h1, h3 = over and hb or z1, over and H - z2 or ht
    local h2 = over and z1 - y2 or y1 - z2
    return h1, h2 < lip and 0 or h2, h3, (over and z1 + y2 or y1 + z2) / 2, over
  end

  -- Area, centroid, I and least S of three pieces, the middle one about c2.
  local function three_chords(h1, h2, h3, c2, H)
    local c1, c3, A = h1 / 2, H - h3 / 2, h1 + h2 + h3
    if A <= 0 then return 0, 0, 0, 0 end
    local y = (h1 * c1 + h2 * c2 + h3 * c3) / A
    local I = (h1 * h1 * h1 + h2 * h2 * h2 + h3 * h3 * h3) / 12
      + h1 * (y - c1) * (y - c1) + h2 * (y - c2) * (y - c2) + h3 * (y - c3) * (y - c3)
    local low = h1 > 0 and 0 or h2 > 0 and c2 - h2 / 2 or H - h3
    local high = h3 > 0 and H or h2 > 0 and c2 + h2 / 2 or h1
    local Sb, St = I / (y - low), I / (high - y)
    return A, y, I, Sb < St and Sb or St
  end

  -- 1/A_v goes from 1/A to 1/A_h as the opening grows to twice the length of the
  -- shallower chord's depth.
  local function chord_shear(hb, ht, A, H, L)
    local big, m = hb, ht
    if ht > hb then big, m = ht, hb end
    if m <= 0 then return A end
    local least = 1.2599210498948732 * m -- cube root of 2
    if big < least then big = least < H - m and least or H - m end
    local A_h, part = big + m * m * m / (big * big), L / (2 * m)
    if A_h >= A or part <= 0 then return A end
    if part > 1 then part = 1 end
    return 1 / ((1 - part) / A + part / A_h)
  end

  -- Chords, lips and least S over the openings within this one that keep both lips.
  local function openings_within(c, s, u, hb, ht, H, lip, net)
    local s2, u2 = s > lip and s or lip, u > lip and u or lip
    local open = s2 + u2 < H
    local both = open and hb > 0 and ht > 0
    CHORD[1][c], CHORD[2][c] = both and hb or 0, both and ht or 0
    if not open then s2, u2 = H / 2, H / 2 end
    local y, I = lip_section(s2, u2, H)
    LIP_Y[1][c], LIP_I[1][c] = y, width * I
    y, I = lip_section(u2, s2, H)
    LIP_Y[2][c], LIP_I[2][c] = y, width * I
    if not open then return net end
    local low, high = least_bottom(s2, u2, H), least_bottom(u2, s2, H)
    if high < low then low = high end
    return net < low and net or low
  end

  -- The lip of a face as it is with two bands, where that feels more of M.
  local function worse_lip(c, face, y, I)
    local h = CHORD[face][c]
    local pull = I > 0 and (y - h / 2) / (width * I) or 0
    if pull > (LIP_Y[face][c] - h / 2) / LIP_I[face][c] then
      LIP_Y[face][c], LIP_I[face][c] = y, width * I
    end
  end

  -- The chords about two bands, from the lowest.
  local function set_chords(c, h1, h2, h3, over, y, I, H)
    local outer_b = h1 > 0 and h1 or over and 0 or h2
    local outer_t = h3 > 0 and h3 or over and h2 or 0
    if over then THIN[2][c] = outer_t <= 0 else THIN[1][c] = outer_b <= 0 end
    local both = outer_b > 0 and outer_t > 0
    CHORD[1][c], CHORD[2][c] = both and outer_b or 0, both and outer_t or 0
    if not both then return end
    S_CM[c] = (over and h3 or h1) > 0 and h2 or 0
    worse_lip(c, 1, y, I)
    worse_lip(c, 2, H - y, I)
  end

  function set_section(c, y1, y2, size, z1, z2, size_z)
    local H, lip = depth, lip_limit(size)
    local s, u, hb, ht = lips(H, lip, y1, y2)
    THIN[1][c], THIN[2][c], S_CM[c] = hb <= 0, ht <= 0, 0
    local A, _, _, least = two_chords(hb, ht, H)
    local hm, A_v = 0, chord_shear(hb, ht, A, H, TIE[c])
    least = openings_within(c, s, u, hb, ht, H, lip, least)
    if z2 > z1 then
      local h1, h2, h3, c2, over = three_pieces(hb, ht, H, y1, y2, size, z1, z2, size_z)
      local _, y, I, S = three_chords(h1, h2, h3, c2, H)
      set_chords(c, h1, h2, h3, over, y, I, H)
      hb, hm, ht = h1, h2, h3
      if S < least then least = S end
      local big = h1 > h2 and h1 or h2
      if h3 > big then big = h3 end
      local three = big > 0 and (h1 * h1 * h1 + h2 * h2 * h2 + h3 * h3 * h3) / (big * big)
        or 0
      if three < A_v then A_v = three end
    end
    S_LEAST[c], S_AV[c], S_HB[c], S_HT[c], S_HM[c] = width * least, width * A_v,
      hb, ht, hm
  end

  -- I at a place with the bands y and z gone.
  function inertia(y1, y2, size, z1, z2, size_z)
    local H = depth
    local _, _, hb, ht = lips(H, lip_limit(size), y1, y2)
    local _, _, I = two_chords(hb, ht, H)
    if z2 > z1 then
      local h1, h2, h3, c2 = three_pieces(hb, ht, H, y1, y2, size, z1, z2, size_z)
      _, _, I = three_chords(h1, h2, h3, c2, H)
    end
    return width * I
  end
end

-- Bands y and z, and the longer side of each, with the group of cut c added. The first
-- is the cut's own, or the lowest where they are `sorted`; all the others become one.
local function add_band(c, sorted, y1, y2, size, z1, z2, size_z)
  local low, high, of = H1[c], H2[c], H2[c] - H1[c]
  if G2[c] - G1[c] > of then of = G2[c] - G1[c] end
  if low < 0 then low = 0 end
  if high > depth then high = depth end
  if high <= low then return y1, y2, size, z1, z2, size_z end
  if y2 <= y1 then return low, high, of, z1, z2, size_z end
  if y1 == low and y2 == high then
    return y1, y2, of > size and of or size, z1, z2, size_z
  end
  if sorted and low < y1 then
    y1, y2, size, low, high, of = low, high, of, y1, y2, size
  end
  if z2 <= z1 then return y1, y2, size, low, high, of end
  return y1, y2, size, low < z1 and low or z1, high > z2 and high or z2,
    of > size_z and of or size_z
end

-- A band whose edges moved may reach into one over or under it: both are one then.
local function join_bands(y1, y2, size, z1, z2, size_z)
  if z2 <= z1 or z1 > y2 or z2 < y1 then return y1, y2, size, z1, z2, size_z end
  if z1 < y1 then y1 = z1 end
  if z2 > y2 then y2 = z2 end
  if size_z > size then size = size_z end
  return y1, y2, y2 - y1 > size and y2 - y1 or size, 0, 0, size_z
end

local function cut_sections()
  for c = 1, cuts do
    local y1, y2, z1, z2, size_z = BY1[c], BY2[c], 0, 0, 0
    if y1 < 0 then y1 = 0 end
    if y2 > depth then y2 = depth end
    local size = BY2[c] - BY1[c]
    if BX2[c] - BX1[c] > size then size = BX2[c] - BX1[c] end
    for e = 1, cuts do
      if e ~= c and G1[e] < G2[c] and G2[e] > G1[c] and VOICE[e] ~= VOICE[c] then
        y1, y2, size, z1, z2, size_z = join_bands(
          add_band(e, false, y1, y2, size, z1, z2, size_z))
      end
    end
    set_section(c, y1, y2, size, z1, z2, size_z)
  end
end

------------------------------------------------------------------ csrc/beam/beam.c

local breaks = 0
local X, MID, REGION = {}, {}, {}
local LOAD = {{w = {}, dw = {}}, {w = {}, dw = {}}} -- dead, live

local function new_beam()
  local beam = {EI = {}, W0 = {}, W1 = {}, R = {}}
  for _, name in ipairs {"M", "VL", "VR", "slope", "sag"} do
    beam[name] = {{}, {}}
  end
  return beam
end
local uncut, after = new_beam(), new_beam()

-- Adds a break where it belongs in the sorted row.
local function add_break(x)
  if x < 0 then x = 0 elseif x > total then x = total end
  local k = breaks
  while k > 0 and X[k] > x do
    X[k + 1] = X[k]
    k = k - 1
  end
  X[k + 1] = x
  breaks = breaks + 1
end

local function set_breaks()
  breaks = 0
  add_break(0)
  add_break(total)
  for c = 1, cuts do
    add_break(X1[c])
    if KIND[c] == HOLE then add_break(XC[c]) end
    add_break(X2[c])
    if BETWEEN[c] then
      add_break(R1[c])
      add_break(R2[c])
    end
  end
  X[breaks + 1] = X[breaks]
  for k = 1, breaks do
    MID[k] = (X[k] + X[k + 1]) / 2
    REGION[k] = X[k] >= total and 2 or 1
  end
end

local function set_loads()
  local D, L = LOAD[1], LOAD[2]
  for k = 1, breaks do
    D.w[k], D.dw[k] = model.dead * model.spacing / 144, 0
    L.w[k], L.dw[k] = model.live * model.spacing / 144, 0
  end
end

-- Stiffness of both states, segment by segment; one that is cut through counts as whole.
local function set_stiffness()
  local gross = width * (depth * depth * depth / 12)
  for k = 1, breaks do
    local y1, y2, size, z1, z2, size_z, mid, I = 0, 0, 0, 0, 0, 0, MID[k], gross
    for c = 1, cuts do
      if mid > G1[c] and mid < G2[c] then
        y1, y2, size, z1, z2, size_z = add_band(c, true, y1, y2, size, z1, z2, size_z)
      end
    end
    if k < breaks and y2 > y1 then I = inertia(y1, y2, size, z1, z2, size_z) end
    uncut.EI[k] = E * gross
    after.EI[k] = E * (I > 0 and I or gross)
  end
end

local function weigh_live(s)
  local w, dw, W0, W1 = LOAD[2].w, LOAD[2].dw, s.W0, s.W1
  for k = 1, breaks - 1 do
    local x, q, dq = X[k], w[k], dw[k]
    local h = X[k + 1] - x
    local W = h * (q + dq * h / 2)
    W0[k], W1[k] = W, x * W + h * h * (q / 2 + dq * h / 3)
  end
end

-- Sums of load, and of load times x, on the span and beyond its last support.
local function region_sums(c)
  local w, dw = LOAD[c].w, LOAD[c].dw
  local S0, S1, T0, T1 = 0, 0, 0, 0
  for k = 1, breaks do
    local x, q, dq = X[k], w[k], dw[k]
    local h = X[k + 1] - x
    local W = h * (q + dq * h / 2)
    local Wx = x * W + h * h * (q / 2 + dq * h / 3)
    if REGION[k] == 1 then S0, S1 = S0 + W, S1 + Wx else T0, T1 = T0 + W, T1 + Wx end
  end
  return S0, S1, T0, T1
end

local function march_forces(s, c)
  local S0, S1, T0, T1 = region_sums(c)
  local M_last = total * T0 - T1
  local V_first = (M_last + total * S0 - S1) / total
  s.R[c], s.R[c + 2] = V_first, T0 + S0 - V_first
  local w, dw = LOAD[c].w, LOAD[c].dw
  local VL, VR, Ms = s.VL[c], s.VR[c], s.M[c]
  local V, M, before = 0, 0, 0
  for k = 1, breaks do
    local r = REGION[k]
    VL[k] = V
    if r ~= before then
      if r == 1 then V, M = V_first, 0 else V, M = T0, M_last end
      before = r
    end
    VR[k], Ms[k] = V, M
    local h, q, dq = X[k + 1] - X[k], w[k], dw[k]
    M = M + h * (V - h * (q / 2 + dq * h / 6))
    V = V - h * (q + dq * h / 2)
  end
end

local function march_sag(s, c)
  local w, dw, EI = LOAD[c].w, LOAD[c].dw, s.EI
  local VR, Ms, slope, sag = s.VR[c], s.M[c], s.slope[c], s.sag[c]
  local y, t, first, last = 0, 0, 0, 0
  for k = 1, breaks do
    local x, M, V, f = X[k], Ms[k], VR[k], 1 / EI[k]
    local h, q, dq = X[k + 1] - x, w[k], dw[k]
    if x == 0 then first = y elseif x == total then last = y end
    sag[k], slope[k] = y, t
    y = y + h * (t - h * f * (M / 2 + h * (V / 6 - h * (q / 24 + dq * h / 120))))
    t = t - h * f * (M + h * (V / 2 - h * (q / 6 + dq * h / 24)))
  end
  local g = (last - first) / total
  for k = 1, breaks do
    sag[k] = sag[k] - (first + g * X[k])
    slope[k] = slope[k] - g
  end
end

local function solve(s)
  weigh_live(s)
  for c = 1, 2 do
    march_forces(s, c)
    march_sag(s, c)
  end
end

local function build_beams()
  set_breaks()
  set_loads()
  cut_sections()
  set_stiffness()
  solve(uncut)
  solve(after)
end

-------------------------------------------------------------- csrc/beam/envelope.c

-- Most and least of V and M, and the shear that goes with each M, left and right of
-- every break: live load alone.
local V_MOST, V_LEAST, M_MOST, M_LEAST = {{}, {}}, {{}, {}}, {{}, {}}, {{}, {}}
local C_MOST, C_LEAST = {{}, {}}, {{}, {}}
local INSIDE = 1e-7

-- Adds the segments from..to under the lines vs x + vc of V and ms x + mc of M.
local function add_straight(s, from, to, vs, vc, ms, mc, inside, V, V_all, M, M_all, C)
  local W0, W1, mids = s.W0, s.W1, MID
  for j = from, to do
    local w0, w1, x = W0[j], W1[j], mids[j]
    local v, m, line = vs * w1 + vc * w0, ms * w1 + mc * w0, vs * x + vc
    if line > 0 then V = V + v end
    if ms * x + mc + inside * line > 0 then
      M, C = M + m, C + v
    end
    V_all, M_all = V_all + v, M_all + m
  end
  return V, V_all, M, M_all, C
end

local function envelope(s, k, side)
  local seg = side == 2 and k or k - 1
  local V, V_all, M, M_all, C = 0, 0, 0, 0, 0
  if seg > 0 and REGION[seg] == 1 then
    local L, x, inside = total, X[k], side == 2 and INSIDE or -INSIDE
    local a, b = x / L, (L - x) / L
    V, V_all, M, M_all, C = add_straight(s, 1, k - 1, -1 / L, 0, b, 0, inside,
      0, 0, 0, 0, 0)
    V, V_all, M, M_all, C = add_straight(s, k, breaks - 1, -1 / L, 1, -a, L * a, inside,
      V, V_all, M, M_all, C)
  end
  V_MOST[side][k], V_LEAST[side][k] = V, V_all - V
  M_MOST[side][k], M_LEAST[side][k] = M, M_all - M
  C_MOST[side][k], C_LEAST[side][k] = C, V_all - C
end

local function copy_left(k)
  V_MOST[1][k], V_LEAST[1][k] = V_MOST[2][k], V_LEAST[2][k]
  M_MOST[1][k], M_LEAST[1][k] = M_MOST[2][k], M_LEAST[2][k]
  C_MOST[1][k], C_LEAST[1][k] = C_MOST[2][k], C_LEAST[2][k]
end

-- Live part of the reaction of the first or the last support.
local function live_reaction(s, last)
  local vs, vc = -1 / total, 1
  if last then vs, vc = 1 / total, 0 end
  local most, all = 0, 0
  local W0, W1 = s.W0, s.W1
  for j = 1, breaks - 1 do
    local v = vs * W1[j] + vc * W0[j]
    if vs * MID[j] + vc > 0 then most = most + v end
    all = all + v
  end
  return most, all - most
end

----------------------------------------------------------------- csrc/beam/table.c

-- Peaks of M between breaks by combination and sign, false where there is none.
local PEAK, PEAK_AT = pair_of_rows(), pair_of_rows()
-- The breaks at the first support and the last, left and right of each.
local FIRST_AT, LAST_AT = {}, {}

-- Where the cubic through both ends and slopes of segment k turns.
local function cubic_peak(h, M0, rise, V0, V1, way)
  local c2 = (3 * rise / h - 2 * V0 - V1) / h
  local c3 = (V0 + V1 - 2 * rise / h) / (h * h)
  local under = c2 * c2 - 3 * c3 * V0
  under = -c2 + way * sqrt(under > 0 and under or 0)
  local x = under ~= 0 and V0 / under or 0
  if x < 0 then x = 0 elseif x > h then x = h end
  return x, M0 + x * (V0 + x * (c2 + x * c3))
end

local function find_peaks(s, g_D, g_L, M, C, way, peak, peak_at)
  local VL, VR, MD, n = s.VL[1], s.VR[1], s.M[1], breaks
  local CL, CR, ML, MR = C[1], C[2], M[1], M[2]
  for k = 1, n - 1 do
    local V0 = g_D * VR[k] + g_L * CR[k]
    local V1 = g_D * VL[k + 1] + g_L * CL[k + 1]
    local h = X[k + 1] - X[k]
    peak[k] = false
    if way * V0 > 0 and way * V1 < 0 and h > 0 then
      local M0 = g_D * MD[k] + g_L * MR[k]
      local end_M = k + 1 < n and MR[k + 1] or ML[k + 1]
      local x
      x, peak[k] = cubic_peak(h, M0, g_D * MD[k + 1] + g_L * end_M - M0, V0, V1, way)
      peak_at[k] = X[k] + x
    end
  end
end

local function find_supports()
  local n, a, b = breaks, 1, breaks
  while X[a + 1] == 0 do a = a + 1 end
  while X[b - 1] == total do b = b - 1 end
  FIRST_AT[1], FIRST_AT[2], LAST_AT[1], LAST_AT[2] = 1, a, b, n
end

local function tabulate(s)
  local n = breaks
  for k = 1, n do
    envelope(s, k, 2)
    local x = X[k]
    if k == 1 or k == n or x == 0 or x == total then
      envelope(s, k, 1)
    else
      copy_left(k)
    end
  end
  find_supports()
  for c = 1, combos do
    local combo = standard.combinations[c]
    find_peaks(s, combo.D, combo.L, M_MOST, C_MOST, 1, PEAK[c][1], PEAK_AT[c][1])
    find_peaks(s, combo.D, combo.L, M_LEAST, C_LEAST, -1, PEAK[c][2], PEAK_AT[c][2])
  end
end

------------------------------------------------------------ csrc/check/stability.c

local function open_length()
  local list, longest = model.blocking, 0
  for p = 0, #list do
    local from, to = p == 0 and 0 or list[p], total
    for q = 1, #list do
      if list[q] > from + 1e-9 and list[q] < to then to = list[q] end
    end
    if from >= 0 and from < total and to - from > longest then longest = to - from end
  end
  return longest
end

-- The bottom edge of a simple span is never compressed, so CL is 1 for M < 0.
local function bending_values(Cr)
  local u = model.sheathed ~= 0 and 0 or open_length()
  local l_e = u > 0 and effective_length(u, depth) or 0
  for c = 1, combos do
    local star = FB[c] * Cr
    local CL = l_e > 0 and stability_factor(star, l_e, width, depth) or 1
    FB_STAR[c][1], FB_STAR[c][2] = star * CL / CL, star
    FB_SIGN[c][1], FB_SIGN[c][2] = star * CL, star
  end
end

--------------------------------- csrc/check/bending.c, shear.c, bearing.c, slenderness.c

-- Checks of a state: the worst that each was offered.
local checks = 0
local MODE, RATIO, DEMAND, CAPACITY, AT, COMBO, BINDING = {}, {}, {}, {}, {}, {}, {}

local function add(mode)
  checks = checks + 1
  MODE[checks], RATIO[checks], BINDING[checks] = mode, -1, true
  return checks
end

local function offer(k, demand, capacity, at, combo)
  local q = capacity > 0 and demand / capacity or demand > 0 and NO_CAPACITY or 0
  if q > NO_CAPACITY then q = NO_CAPACITY end
  if q > RATIO[k] then
    RATIO[k], DEMAND[k], CAPACITY[k], AT[k], COMBO[k] = q, demand, capacity, at, combo
    return true
  end
end

local function worst_moment(s, c)
  local combo = standard.combinations[c]
  local g_D, g_L, n = combo.D, combo.L, breaks
  local MD, MR, peak, most, at = s.M[1], M_MOST[2], PEAK[c][1], 0, 0
  for k = 1, n do
    local M = g_D * MD[k] + g_L * (k < n and MR[k] or M_MOST[1][k])
    if M > most then most, at = M, X[k] end
    if k < n and peak[k] and peak[k] > most then most, at = peak[k], PEAK_AT[c][1][k] end
  end
  return most, at
end

local function gross_bending(s)
  local k, S = add "bending", width * depth * depth / 6
  for c = 1, combos do
    local M, at = worst_moment(s, c)
    if M <= 1e-6 then M = 0 end
    offer(k, M, S * FB_SIGN[c][1], at, c)
  end
end

-- Dead and live load between a and b.
local function load_between(a, b)
  local wD, dD, wL, dL = LOAD[1].w, LOAD[1].dw, LOAD[2].w, LOAD[2].dw
  local D, L = 0, 0
  for k = 1, breaks - 1 do
    local x = X[k]
    local p, q = x > a and x or a, X[k + 1]
    if q > b then q = b end
    local h = q - p
    if h > 0 then
      local z = (p + q) / 2 - x
      D, L = D + h * (wD[k] + dD[k] * z), L + h * (wL[k] + dL[k] * z)
    end
  end
  return D, L
end

-- Shear on one side of a support, load within d of the face of the bearing left out.
local function shear_beside(s, k, x, l_b, side, at_break)
  local way = side == 2 and 1 or -1
  local at = x + way * l_b / 2 + way * depth
  local D, L = load_between(side == 2 and x or at, side == 2 and at or x)
  local V_D = side == 2 and s.VR[1][at_break] or s.VL[1][at_break]
  local V_L = side == 2 and V_MOST[2][at_break] or V_LEAST[1][at_break]
  for c = 1, combos do
    local combo = standard.combinations[c]
    local V = way * (combo.D * V_D + combo.L * V_L)
    V = (V > 0 and V or 0) - (combo.D * D + combo.L * L)
    offer(k, V > 0 and V or 0, 2 / 3 * FV[c] * width * depth, at, c)
  end
end

local function gross_shear(s)
  local k = add "shear"
  for side = 1, 2 do shear_beside(s, k, 0, left_bearing, side, FIRST_AT[side]) end
  for side = 1, 2 do shear_beside(s, k, total, right_bearing, side, LAST_AT[side]) end
end

local function bearing(s, last)
  local k, l_b = add "bearing", last and right_bearing or left_bearing
  local most, least = live_reaction(s, last)
  local D, R, R_least = s.R[last and 3 or 1], -1e300, 1e300
  for c = 1, combos do
    local combo = standard.combinations[c]
    local hi, lo = combo.D * D + combo.L * most, combo.D * D + combo.L * least
    if hi > R then R = hi end
    if lo < R_least then R_least = lo end
  end
  if (model.Fc_perp or 0) > 0 then
    local cap = Fc_perp * bearing_factor(l_b, 0) * width * l_b
    offer(k, R, cap, last and total or 0, combos)
  end
end

-- One row of dead load times a factor, and live load.
local function blend(rows, dead, k)
  return dead * rows[1][k] + rows[2][k]
end

-- Most deflection inside segment k, where the slope turns.
local function sag_inside(s, dead, k)
  local h = X[k + 1] - X[k]
  local f, M, V = 1 / s.EI[k], blend(s.M, dead, k), blend(s.VR, dead, k)
  local q = dead * LOAD[1].w[k] + LOAD[2].w[k]
  local dq = dead * LOAD[1].dw[k] + LOAD[2].dw[k]
  local slope, lo, hi, z = blend(s.slope, dead, k), 0, h, h / 2
  for _ = 1, 60 do
    local th = slope - z * f * (M + z * (V / 2 - z * (q / 6 + dq * z / 24)))
    local rate = -f * (M + z * (V - z * (q / 2 + dq * z / 6)))
    if th > 0 then lo = z else hi = z end
    local to = rate ~= 0 and z - th / rate or lo
    if not (to > lo and to < hi) then to = (lo + hi) / 2 end
    local step = abs(to - z)
    z = to
    if step < 1e-11 * (1 + hi) then break end
  end
  local bend = M / 2 + z * (V / 6 - z * (q / 24 + dq * z / 120))
  return X[k] + z, blend(s.sag, dead, k) + z * (slope - z * f * bend)
end

local severed = false -- a cut leaves nothing

local function deflection(s, mode, dead, n)
  local k = add(mode)
  local most, at, slope = 0, 0, s.slope
  local t0 = blend(slope, dead, 1)
  for b = 1, breaks do
    local sag = REGION[b] == 1 and blend(s.sag, dead, b) or 0
    if sag > most then most, at = sag, X[b] end
    if b < breaks then
      local t1 = blend(slope, dead, b + 1)
      if t0 > 0 and t1 < 0 and X[b + 1] > X[b] then
        local x
        x, sag = sag_inside(s, dead, b)
        if sag > most then most, at = sag, x end
      end
      t0 = t1
    end
  end
  if n > 0 and not (s == after and severed) then offer(k, most, total / n, at, 1) end
end

local function nominal(size)
  local rest = size - size // 1
  return rest == 0.5 and size + 0.5 or rest == 0.25 and size + 0.75 or size
end

local function stability()
  local k, free = add "stability", model.sheathed == 0 and #model.blocking == 0
  BINDING[k] = false
  offer(k, nominal(depth) / (nominal(ply) * model.plies), free and 4 or 6, 0, 1)
end

---------------------------- csrc/check/net_bending.c, net_shear.c, notch_shear.c

-- Worst of M by sign and of V at each cut, by combination.
local Q_M, Q_M_AT, Q_V, Q_V_AT = pair_of_rows(), pair_of_rows(), {}, {}
for c = 1, 4 do Q_V[c], Q_V_AT[c] = {}, {} end
local Q_GONE, Q_TORN, Q_TAU = {}, {{}, {}}, {{}, {}}

local function stretch_of(c)
  local a, b = R1[c], R2[c]
  if a < 0 then a = 0 elseif a > total then a = total end
  if b < 0 then b = 0 elseif b > total then b = total end
  return a, b
end

-- Most of way M within a..b, the peaks inside whole segments in it.
local function cut_moment(s, g_D, g_L, M, way, peak, peak_at, a, b)
  local n, MD, most, at = breaks, s.M[1], 0, 0
  for k = 1, n do
    local x = X[k]
    if x > b then break end
    if x >= a then
      local m = way * (g_D * MD[k] + g_L * (k < n and M[2][k] or M[1][k]))
      if m > most then most, at = m, x end
      if k < n and peak[k] and X[k + 1] <= b and way * peak[k] > most then
        most, at = way * peak[k], peak_at[k]
      end
    end
  end
  return most, at
end

local function worse(size, V, at, x)
  local other = abs(V)
  if other > size then return other, x end
  return size, at
end

-- Most shear either way within a..b, on the sides that face it.
local function cut_shear(s, g_D, g_L, a, b)
  local VL, VR, most, at, point = s.VL[1], s.VR[1], 0, 0, a == b
  for k = 1, breaks do
    local x = X[k]
    if x > b then break end
    if x > a or point and x == a then
      most, at = worse(most, g_D * VL[k] + g_L * V_MOST[1][k], at, x)
      most, at = worse(most, g_D * VL[k] + g_L * V_LEAST[1][k], at, x)
    end
    if x >= a and (x < b or point) then
      most, at = worse(most, g_D * VR[k] + g_L * V_MOST[2][k], at, x)
      most, at = worse(most, g_D * VR[k] + g_L * V_LEAST[2][k], at, x)
    end
  end
  return most, at
end

local function find_forces(s)
  severed = false
  for c = 1, cuts do
    local a, b = stretch_of(c)
    local sag, hog = false, false
    for k = 1, combos do
      local combo, m, at, peak = standard.combinations[k], Q_M[k], Q_M_AT[k], PEAK[k]
      local g_D, g_L = combo.D, combo.L
      m[1][c], at[1][c] = cut_moment(s, g_D, g_L, M_MOST, 1, peak[1], PEAK_AT[k][1], a, b)
      m[2][c], at[2][c] = cut_moment(s, g_D, g_L, M_LEAST, -1, peak[2], PEAK_AT[k][2],
        a, b)
      Q_V[k][c], Q_V_AT[k][c] = cut_shear(s, g_D, g_L, a, b)
      sag, hog = sag or m[1][c] > 1e-6, hog or m[2][c] > 1e-6
    end
    Q_GONE[c] = S_HB[c] + S_HM[c] + S_HT[c] <= 0
    Q_TORN[1][c], Q_TORN[2][c] = sag, hog
    Q_TAU[1][c], Q_TAU[2][c] = 0, 0
    severed = severed or Q_GONE[c] and VOICE[c] == c
  end
end

local check_cut
do
  -- Whether a cut reaches a face, as a notch or by a lip too thin to count.
  local function below(c)
    return THIN[1][c]
  end

  local function above(c)
    return THIN[2][c]
  end

  -- Whether a notch is in a face that is in tension.
  local function in_tension(c)
    return below(c) and Q_TORN[1][c] or above(c) and Q_TORN[2][c]
  end

  -- Where nothing is left that counts, a check says so.
  local function nothing_left(k, c)
    if Q_GONE[c] then
      RATIO[k], DEMAND[k], CAPACITY[k], BINDING[k] = NO_CAPACITY, 1, 0, true
      AT[k] = XC[c]
    end
  end

  local function edge_stress(c, M)
    local S = S_LEAST[c]
    return S > 0 and M / S or M > 0 and 1e9 or 0
  end

  local function net_bending(c)
    local k = add "net-bending"
    local raiser = in_tension(c) and model.notch_raiser or 1
    for combo = 1, combos do
      for sign = 1, 2 do
        local M = Q_M[combo][sign][c]
        if sign == 1 or M > 0 then
          offer(k, raiser * edge_stress(c, M), FB_SIGN[combo][sign],
            Q_M_AT[combo][sign][c], combo)
        end
      end
    end
    nothing_left(k, c)
  end

  local function net_shear(c)
    local k = add "net-shear"
    for combo = 1, combos do
      offer(k, Q_V[combo][c], 2 / 3 * FV[combo] * S_AV[c], Q_V_AT[combo][c], combo)
    end
    nothing_left(k, c)
  end

  local function notch_shear(c)
    local k, d_n, torn = add "notch-shear", S_HB[c] + S_HM[c] + S_HT[c], in_tension(c)
    local n, r = d_n > 1e-9 and d_n or 1e-9, d_n / depth
    local squared = torn and ((model.cuts[c].taper or 0) < 10 or MERGED[c])
    for combo = 1, combos do
      local v = 2 / 3 * FV[combo] * width
      local cap = squared and v * n * r * r or v * d_n
      offer(k, Q_V[combo][c], cap, Q_V_AT[combo][c], combo)
    end
    nothing_left(k, c)
  end

  -------------------------------- csrc/check/opening.c and the checks of an opening

  -- Bending stress in the deepest chord for V = 1 over half the length a.
  local function frame_stress(c)
    local b, m, t = CHORD[1][c], S_CM[c], CHORD[2][c]
    local h = b > m and b or m
    if t > h then h = t end
    local sum = width * (b * b * b + m * m * m + t * t * t)
    return sum > 0 and 3 * FRAME[c] * h / sum or 0
  end

  local function opening_frame(c, frame)
    local k = add "opening-frame"
    for combo = 1, combos do
      local V = Q_V[combo][c]
      for sign = 1, 2 do
        local M = Q_M[combo][sign][c]
        if sign == 1 or M > 0 then
          offer(k, edge_stress(c, M) + frame * V, FB_SIGN[combo][sign],
            Q_M_AT[combo][sign][c], combo)
        end
      end
    end
  end

  -- How far a chord is a tie or a strut; stresses in it for M = 1: direct, and in
  -- bending.
  local function chord_of(c, face)
    local I, h = LIP_I[face][c], CHORD[face][c]
    if I < 1e-9 then I = 1e-9 end
    local tie, slim = TIE[c] / h - 1, 2 - 4 * h / depth
    tie = tie < 0 and 0 or tie > 1 and 1 or tie
    slim = slim < 0 and 0 or slim > 1 and 1 or slim
    return tie * slim, (LIP_Y[face][c] - h / 2) / I, h / 2 / I, h
  end

  local function lip_tension(c, frame)
    local k = add "lip-tension"
    for sign = 1, 2 do
      local tau, direct, bend = chord_of(c, sign)
      Q_TAU[sign][c] = tau
      for combo = 1, combos do
        local M, Ft, star = Q_M[combo][sign][c], FT[combo], FB_STAR[combo][sign]
        if (tau == 0 or (model.Ft or 0) > 0) and (sign == 1 or M > 0) then
          local f_t, f_b = M * direct, M * bend + Q_V[combo][c] * frame
          local plain = (f_t + f_b) / star
          local more = f_t / (Ft > 1e-9 and Ft or 1e-9) + f_b / star - plain
          offer(k, plain + tau * (more > 0 and more or 0), 1, Q_M_AT[combo][sign][c],
            combo)
        end
      end
    end
  end

  -- NDS 3.7.1.5 in the form that keeps its digits where the column is short.
  local function column_factor(F_cE, star)
    local r = F_cE / (star > 1e-9 and star or 1e-9)
    local p = (1 + r) / 1.6
    local under = p * p - r / 0.8
    return r / 0.8 / (p + sqrt(under > 0 and under or 0))
  end

  local function squeeze(f_c, f_b, slender, Fc, Fb)
    local F_cE = 0.822 * Emin / (slender * slender)
    local F_c = Fc * column_factor(F_cE, Fc)
    local left, p = 1 - f_c / F_cE, f_c / (F_c > 1e-9 and F_c or 1e-9)
    return left > 1e-3 and p * p + f_b / Fb / left or NO_CAPACITY
  end

  local function chord_compression(c, frame)
    local k, given = add "wood-compression", (model.Fc or 0) > 0 and (model.Emin or 0) > 0
    for sign = 1, 2 do
      local tau, direct, bend, h = chord_of(c, 3 - sign)
      local least = h < width and h or width
      local slender = TIE[c] / (least > 1e-9 and least or 1e-9)
      if slender < 1e-6 then slender = 1e-6 end
      for combo = 1, combos do
        local M, Fb = Q_M[combo][sign][c], FB_SIGN[combo][sign]
        if (tau == 0 or given) and (sign == 1 or M > 0) then
          local f_c, f_b = M * direct, M * bend + Q_V[combo][c] * frame
          local plain = (f_c + f_b) / Fb
          local more = squeeze(f_c, f_b, slender, FC[combo], Fb) - plain
          offer(k, plain + tau * (more > 0 and more or 0), 1, Q_M_AT[combo][sign][c],
            combo)
        end
      end
    end
  end

  -- All of M and V on the wood that one side leaves; the chord in `face` is lost.
  local function one_chord(c, face)
    local k, h = add "chord-alone", CHORD[3 - face][c]
    local r = Q_TORN[face][c] and h / depth or 1
    local S, A = width * h * h / 6, width * h * r * r
    for combo = 1, combos do
      for sign = 1, 2 do
        local M = Q_M[combo][sign][c]
        if sign == 1 or M > 0 then
          offer(k, S > 0 and M / S or M > 0 and 1e9 or 0, FB_SIGN[combo][sign],
            Q_M_AT[combo][sign][c], combo)
        end
      end
      offer(k, Q_V[combo][c], 2 / 3 * FV[combo] * A, Q_V_AT[combo][c], combo)
    end
    return k
  end

  -- Where the tie, the strut or the frame makes more of a ratio than one side bears
  -- alone, that side alone counts.
  local function chord_alone(c, first)
    local two, last = 0, checks
    for k = first, last do
      if RATIO[k] > two then two = RATIO[k] end
    end
    local k, other = one_chord(c, 1), one_chord(c, 2)
    if RATIO[other] < RATIO[k] then
      RATIO[k], DEMAND[k], CAPACITY[k] = RATIO[other], DEMAND[other], CAPACITY[other]
      AT[k], COMBO[k] = AT[other], COMBO[other]
    end
    checks = RATIO[k] < two and k or last
    if checks == last then return end
    for n = first, last do BINDING[n] = false end
  end

  function check_cut(c)
    if VOICE[c] ~= c then return end
    local first = checks + 1
    net_bending(c)
    if OPENING[c] then net_shear(c) end
    if below(c) or above(c) then notch_shear(c) end
    if not (OPENING[c] and CHORD[1][c] > 0) then return end
    local frame = frame_stress(c)
    if FRAME[c] > 0 then opening_frame(c, frame) end
    lip_tension(c, frame)
    chord_compression(c, frame)
    if S_CM[c] == 0 and (Q_TAU[1][c] > 0 or Q_TAU[2][c] > 0 or FRAME[c] > 0) then
      chord_alone(c, first)
    end
  end
end

------------------------------------------------------------ csrc/check/state.c

-- Largest ratio, and the largest with deflection left out.
local function governing()
  local ratio, strength = 0, 0
  for k = 1, checks do
    if BINDING[k] then
      local r = RATIO[k]
      if r > ratio then ratio = r end
      if r > strength and MODE[k] ~= "deflection-live" and MODE[k] ~= "deflection-total"
      then
        strength = r
      end
    end
  end
  return ratio, strength
end

local function check_state(s, cut, Cr)
  checks = 0
  bending_values(Cr)
  gross_bending(s)
  gross_shear(s)
  bearing(s, false)
  bearing(s, true)
  deflection(s, "deflection-live", 0, model.limit_live)
  deflection(s, "deflection-total", model.Kcr, model.limit_total)
  stability()
  if cut then
    for c = 1, cuts do check_cut(c) end
  end
  return governing()
end

---------------------------------------------------------------- csrc/rules/rules.c

local ITEM_MEASURED, ITEM_LIMIT, ITEM_OK = {}, {}, {}
local items = 0

local MEASURES, read_rules, decide
do
  -- Distance to the nearest other opening, or notch.
  local function clear_to(c, notches)
    local least = 1e6
    for e = 1, cuts do
      if e ~= c and (KIND[e] == NOTCH) == notches then
        local clear = gap(c, e)
        if clear < least then least = clear end
      end
    end
    return least
  end

  -- The span if it holds the cut, and how far the cut reaches into it.
  local function reach_of(c)
    if not (XC[c] >= 0 and XC[c] <= total) then return 0, 0 end
    local r = total - X1[c]
    return total, X2[c] < r and X2[c] or r
  end

  MEASURES = {
    depth = function(c) return SIZE[c] end,
    length = function(c) return KIND[c] == HOLE and X2[c] - X1[c] or LENGTH[c] end,
    size = function(c)
      local along = KIND[c] == HOLE and X2[c] - X1[c] or LENGTH[c]
      return KIND[c] ~= NOTCH and along > SIZE[c] and along or SIZE[c]
    end,
    ["edge below"] = function(c) return Y1[c] end,
    ["edge above"] = function(c) return depth - Y2[c] end,
    ["clear hole"] = function(c) return clear_to(c, false) end,
    ["clear notch"] = function(c) return clear_to(c, true) end,
    reach = function(c)
      local _, reach = reach_of(c)
      return reach
    end,
    thickness = function(c) return Q_TORN[TOP[c]][c] and ply or 0 end,
  }

  local function judge(limit, measured, L)
    local allowed = limit.of_d * depth + limit.of_L * L + limit.plus
    local over = measured - allowed
    if limit.at_least then over = -over end
    items = items + 1
    ITEM_MEASURED[items], ITEM_LIMIT[items], ITEM_OK[items] = measured, allowed,
      over <= SLACK
    return over <= SLACK
  end

  local function covered(c)
    local hogs = Q_M[combos][2][c] > 1e-6
    return covers[KIND[c]]
      and (covers.hogging or not (hogs or XC[c] < 0 or XC[c] > total))
  end

  function read_rules()
    items = 0
    local all = 1
    for c = 1, cuts do
      local list, L, within = limits[KIND[c]], reach_of(c), true
      for r = 1, #list do
        local limit = list[r]
        within = judge(limit, limit.measure(c), L) and within
      end
      if not covered(c) then
        if all == 1 then all = -1 end
      elseif not within then
        all = 0
      end
    end
    for r = 1, #limits.bearing do
      judge(limits.bearing[r], left_bearing, 0)
      judge(limits.bearing[r], right_bearing, 0)
    end
    return all
  end

  -- Depth of a notch, or of an opening whose thin lip makes it one; whether its face is
  -- in tension. nil for other openings.
  local function notch_of(c)
    local thin_b, thin_t = THIN[1][c], THIN[2][c]
    if KIND[c] == NOTCH then return SIZE[c], Q_TORN[TOP[c]][c] end
    if not (thin_b or thin_t) then return nil end
    return thin_b and Y2[c] or depth - Y1[c],
      thin_b and Q_TORN[1][c] or thin_t and Q_TORN[2][c]
  end

  -- Whether a notch is barred, and whether a reason sets that aside.
  local function notch_gate(c)
    local size, torn = notch_of(c)
    if not size then return false, false end
    local L, reach = reach_of(c)
    local middle = reach > L * standard.outer_part + SLACK
    local barred = size > standard.inner_notch * depth + SLACK or middle
      or torn and ply >= standard.thick - SLACK
    return barred, barred and KIND[c] == NOTCH and model.cuts[c].accept == 1
      and not (middle and torn)
  end

  -- Barred at all, past what tests reach, accepted with a reason.
  local function read_gate()
    local barred, tall, accepted = false, false, false
    for c = 1, cuts do
      local stop, by_reason = notch_gate(c)
      local gone = Q_GONE[c]
      if KIND[c] ~= NOTCH and not (stop or gone) then
        tall = tall or SIZE[c] > standard.tested_hole * depth + SLACK
      end
      accepted = accepted or by_reason
      barred = barred or (stop or gone) and not by_reason
    end
    return barred, tall, accepted
  end

  -- Whether a tie or a strut lacks the value that it reads.
  local function lacks_values()
    local no_Ft, no_Fc = (model.Ft or 0) <= 0, (model.Fc or 0) <= 0
    if not (no_Ft or no_Fc) then return false end
    for c = 1, cuts do
      local under, over = Q_TAU[1][c] > 0, Q_TAU[2][c] > 0
      local sags, hogs = Q_TORN[1][c], Q_TORN[2][c]
      if no_Ft and (under and sags or over and hogs)
        or no_Fc and (over and sags or under and hogs) then
        return true
      end
    end
    return false
  end

  function decide(ratio, strength, within)
    local barred, tall, accepted = read_gate()
    if barred or tall then return REPAIR end
    local weak = strength > 1 + 1e-9
    if not weak and lacks_values() then return REFER end
    if ratio > 1 + 1e-9 then
      return weak and not (within == 1 and not accepted) and REPAIR or DECIDE
    end
    return within == 1 and not accepted and LEAVE or JUSTIFY
  end
end

-------------------------------------------------------------- csrc/review/review.c

local compiled = {}

-- A pack as lists of limits by kind of cut.
local function compile(rules)
  local known = {{}, {}, {}, bearing = {}}
  for _, l in ipairs(rules.limits) do
    local limit = {measure = MEASURES[l.measure], at_least = l.at_least,
      of_d = l.of_d or 0, of_L = l.of_L or 0, plus = l.plus or 0}
    if l.measure == "bearing" then known.bearing[#known.bearing + 1] = limit end
    for _, kind in ipairs(l.kinds) do
      local list = known[KIND_OF[kind]]
      if list then list[#list + 1] = limit end
    end
  end
  local data = rules.list[1].data
  local covered_kinds = {hogging = data.covers_hogging}
  for _, kind in ipairs(data.covers) do
    if KIND_OF[kind] then covered_kinds[KIND_OF[kind]] = true end
  end
  return known, covered_kinds
end

-- The data with bare numbers: some are {value =, says how it is known}.
local function plain(data)
  local new = {}
  for name, value in pairs(data) do
    new[name] = type(value) == "table" and tonumber(value.value) or value
  end
  return new
end

local function take_packs(on_what)
  local known = compiled[on_what]
  if not known then
    local rules = assert(packs.rules("us-irc-2021", on_what))
    known = {compile(rules)}
    compiled[on_what] = known
    standard = plain(assert(packs.standard "us-nds-2018-asd").data)
    combos = #standard.combinations
  end
  limits, covers = known[1], known[2]
end

local function repetitive(within)
  if model.repetitive > 0 then return model.repetitive end
  local row = model.members >= 3 and model.spacing <= 24 + 1e-9 and model.sheathed ~= 0
    and ply <= 3.5
  return row and within == 1 and 1.15 or 1.0
end

-- @param m model of a joist with one span, no overhang, no further loads, cut by holes,
--   slots and notches
-- @return ratio uncut, ratio cut, action from 0 leave to 4 refer; nil where it cannot be
--   worked
function bench_lua.review(m)
  take_packs(m.bearing_on)
  model = m
  if not read_joist(m) then return nil end
  adjust_values()
  build_beams()
  tabulate(uncut)
  local before = check_state(uncut, false, repetitive(1))
  find_forces(after)
  local within = read_rules()
  local ratio, strength = check_state(after, true, repetitive(within))
  return before, ratio, decide(ratio, strength, within)
end

--- Ends of the segments of a joist and EI of each in the cut state; nil where it is
-- refused.
function bench_lua.segments(m)
  take_packs(m.bearing_on)
  model = m
  if not read_joist(m) then return nil end
  adjust_values()
  build_beams()
  local at, EI = {}, {}
  for k = 1, breaks do at[k], EI[k] = X[k], after.EI[k] end
  EI[breaks] = nil
  return at, EI
end

-- Where the last review put its checks and rule items.
bench_lua.checks = {mode = MODE, ratio = RATIO, demand = DEMAND, capacity = CAPACITY,
  at = AT, combination = COMBO, binding = BINDING}
bench_lua.items = {measured = ITEM_MEASURED, limit = ITEM_LIMIT, ok = ITEM_OK}

return bench_lua
