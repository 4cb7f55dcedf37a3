-- SPDX-License-Identifier: MIT
-- A joist and a member tied beside it, by the direct stiffness method: beam elements
-- with a sag and a slope at each node, springs for the fasteners, Cholesky on a band.
-- What a force answers to a unit load anywhere is found by reciprocity
-- (Mueller-Breslau): one more solution of the same equations, a cubic in each element;
-- live load is laid where that line has the wanted sign. Textbook statics; nothing here
-- is taken from the module.
--
--   local s = beams.new {L = 162 or {80, 82}, EI = f(x), gap = {a, b}, new = {from =,
--   to =,
--     EI =, left = bears, right = bears}, ties = {{x =, k =}, ...}, on_new = {a, b},
--     nodes = {more places}}
--   s:range(s:tie(2), loads) -> dead, most, least, all live
-- Loads are {a =, b =, w1 =, w2 =, live =} (lb/in) and {x =, P =, live =}; sag downward,
-- M > 0 sagging, V = dM/dx. A tie's force is downward on the new member.
local beams = {}
local mt = {__index = beams}

local abs, max, min, sqrt = math.abs, math.max, math.min, math.sqrt
local EVEN = 14 -- stretches of a beam that are looked at, at least
local BAND = 8 -- each node has sag, slope of the joist, then of the new member

-------------------------------------------------------------------------------- building

-- Places that something stands at; even ones between them where none is near.
local function nodes_of(t, supports)
  local total, x = supports[#supports], {}
  local fixed = {table.unpack(supports)}
  table.move(t.nodes or {}, 1, #(t.nodes or {}), #fixed + 1, fixed)
  for _, tie in ipairs(t.ties or {}) do fixed[#fixed + 1] = tie.x end
  for _, list in ipairs {t.gap or {}, t.on_new or {}} do
    table.move(list, 1, #list, #fixed + 1, fixed)
  end
  if t.new then fixed[#fixed + 1], fixed[#fixed + 2] = t.new.from, t.new.to end
  table.sort(fixed)
  for _, v in ipairs(fixed) do
    local last = x[#x]
    if not last or v - last > 1e-6 then
      local n = last and math.floor((v - last) / total * EVEN) or 0
      for k = 1, n do x[#x + 1] = last + (v - last) * k / (n + 1) end
      x[#x + 1] = v
    end
  end
  return x
end

-- Stiffness of an element in sag and slope, EI over l.
local function element(EI, l)
  local a, b, c, e = 12 * EI / l ^ 3, 6 * EI / l ^ 2, 4 * EI / l, 2 * EI / l
  return {{a, b, -a, b}, {b, c, -b, e}, {-a, -b, a, -b}, {b, e, -b, c}}
end

local function dof(node, member)
  return 4 * (node - 1) + (member == "new" and 2 or 0)
end

function beams:add_element(i, member, EI)
  local k = element(EI, self.x[i + 1] - self.x[i])
  local p = {dof(i, member) + 1, dof(i, member) + 2, dof(i + 1, member) + 1,
    dof(i + 1, member) + 2}
  for a = 1, 4 do
    for b = 1, a do
      local r, c = p[a], p[b]
      self.K[r][r - c] = self.K[r][r - c] + k[a][b]
    end
  end
end

function beams:node_at(x)
  for i, v in ipairs(self.x) do if abs(v - x) < 1e-6 then return i end end
  error("no node at " .. x)
end

-- Cholesky's factor of a symmetric band matrix: K[r][r - c] for c <= r.
local function factor(K, n)
  for r = 1, n do
    local row = K[r]
    for c = max(1, r - BAND + 1), r do
      local sum, other = row[r - c], K[c]
      for k = max(1, r - BAND + 1, c - BAND + 1), c - 1 do
        sum = sum - row[r - k] * other[c - k]
      end
      if c == r then
        if sum <= 0 then return false end
        row[0] = sqrt(sum)
      else
        row[r - c] = sum / other[0]
      end
    end
  end
  return true
end

function beams:solve(f)
  local K, n, u = self.K, self.n, {}
  for r = 1, n do
    local sum = self.held[r] and 0 or f[r] or 0
    for c = max(1, r - BAND + 1), r - 1 do sum = sum - K[r][r - c] * u[c] end
    u[r] = sum / K[r][0]
  end
  for r = n, 1, -1 do
    local sum = u[r]
    for c = r + 1, min(n, r + BAND - 1) do sum = sum - K[c][c - r] * u[c] end
    u[r] = sum / K[r][0]
  end
  return u
end

-- A degree of freedom that does not move.
function beams:hold(r)
  self.held[r] = true
  for k = 1, BAND - 1 do
    self.K[r][k] = 0
    if self.K[r + k] then self.K[r + k][k] = 0 end
  end
  self.K[r][0] = 1
end

function beams.new(t)
  local spans = type(t.L) == "table" and t.L or {t.L}
  local s = setmetatable({supports = {0}, ties = t.ties or {}, new_ = t.new, gap = t.gap,
    held = {}, on = t.on_new, EI_of = {host = {}, new = {}}}, mt)
  for i, L in ipairs(spans) do s.supports[i + 1] = s.supports[i] + L end
  s.total = s.supports[#s.supports]
  s.x = nodes_of(t, s.supports)
  s.n = 4 * #s.x
  s.K = {}
  for r = 1, s.n do
    s.K[r] = {}
    for k = 0, BAND - 1 do s.K[r][k] = 0 end
  end
  for i = 1, #s.x - 1 do
    local mid = (s.x[i] + s.x[i + 1]) / 2
    local host = not (t.gap and mid > t.gap[1] and mid < t.gap[2])
    local on = t.new and mid > t.new.from and mid < t.new.to
    s.EI_of.host[i] = host and t.EI(mid) or nil
    s.EI_of.new[i] = on and t.new.EI or nil
    for member, EI in pairs(s.EI_of) do
      if EI[i] then s:add_element(i, member, EI[i]) end
    end
  end
  for _, tie in ipairs(s.ties) do
    local a = dof(s:node_at(tie.x), "host") + 1
    local K = s.K
    K[a][0], K[a + 2][0] = K[a][0] + tie.k, K[a + 2][0] + tie.k
    K[a + 2][2] = K[a + 2][2] - tie.k
  end
  for r = 1, s.n do if s.K[r][0] == 0 then s:hold(r) end end
  for _, x in ipairs(s.supports) do s:hold(dof(s:node_at(x), "host") + 1) end
  if t.new and t.new.left then s:hold(dof(s:node_at(t.new.from), "new") + 1) end
  if t.new and t.new.right then s:hold(dof(s:node_at(t.new.to), "new") + 1) end
  s.stands = factor(s.K, s.n)
  return s
end

------------------------------------------------------------------------------------ lines

-- Cubic of an element's shape from its sags and slopes, from its left node.
local function shape(u, i, member, l)
  local a, b = dof(i, member), dof(i + 1, member)
  local w1, t1, w2, t2 = u[a + 1], u[a + 2], u[b + 1], u[b + 2]
  return {w1, t1, 3 * (w2 - w1) / l ^ 2 - (2 * t1 + t2) / l,
    2 * (w1 - w2) / l ^ 3 + (t1 + t2) / l ^ 2}
end

-- The member that the floor stands on at an element.
function beams:carrier(i)
  local mid = (self.x[i] + self.x[i + 1]) / 2
  return self.on and mid > self.on[1] and mid < self.on[2] and "new" or "host"
end

-- Pieces of the line of a solution, with what a load in the element itself adds.
function beams:line(u, at)
  local list = {}
  for i = 1, #self.x - 1 do
    local member = self:carrier(i)
    if self.EI_of[member][i] then
      local a, b = self.x[i], self.x[i + 1]
      local c = shape(u, i, member, b - a)
      if at and at.i == i and at.member == member then
        for side, add in ipairs(at.add) do
          local p, q = side == 1 and a or a + at.xi, side == 1 and a + at.xi or b
          if q - p > 1e-12 then
            local d = {}
            for k = 1, 4 do d[k] = c[k] + add[k] end
            list[#list + 1] = {from = p, to = q, x0 = a, c = d}
          end
        end
      else
        list[#list + 1] = {from = a, to = b, x0 = a, c = c}
      end
    end
  end
  return list
end

local function value(p, x)
  local t, c = x - p.x0, p.c
  return c[1] + t * (c[2] + t * (c[3] + t * c[4]))
end

--- The line of tie i's force.
function beams:tie(i)
  local tie = self.ties[i]
  local a = dof(self:node_at(tie.x), "host") + 1
  return self:line(self:solve {[a] = tie.k, [a + 2] = -tie.k})
end

-- The element of a member that holds x, on the side asked for (-1 left, 1 right).
function beams:element_at(member, x, side)
  for i = 1, #self.x - 1 do
    local a, b = self.x[i], self.x[i + 1]
    local inside = x > a + 1e-9 and x < b - 1e-9
    if (inside or side < 0 and abs(x - b) <= 1e-9 or side > 0 and abs(x - a) <= 1e-9)
      and self.EI_of[member][i] then
      return i
    end
  end
end

--- Lines of M and V of a member at x, seen from a side; nil where it is not there.
function beams:forces(member, x, side)
  local i = self:element_at(member, x, side)
  if not i then return nil end
  local l, EI = self.x[i + 1] - self.x[i], self.EI_of[member][i]
  local xi = x - self.x[i]
  local a, b = dof(i, member), dof(i + 1, member)
  local M = self:solve {[a + 1] = -EI * (-6 / l ^ 2 + 12 * xi / l ^ 3),
    [a + 2] = -EI * (-4 / l + 6 * xi / l ^ 2),
    [b + 1] = -EI * (6 / l ^ 2 - 12 * xi / l ^ 3),
    [b + 2] = -EI * (-2 / l + 6 * xi / l ^ 2)}
  local V = self:solve {[a + 1] = -12 * EI / l ^ 3, [a + 2] = -6 * EI / l ^ 2,
    [b + 1] = 12 * EI / l ^ 3, [b + 2] = -6 * EI / l ^ 2}
  -- A beam fixed at both ends under a unit load at t: R = 1 - 3 t^2/l^2 + 2 t^3/l^3,
  -- M = -t (l - t)^2/l^2 at its left end.
  local m2, m3 = 2 / l - 3 * xi / l ^ 2, -1 / l ^ 2 + 2 * xi / l ^ 3
  local v2, v3 = -3 / l ^ 2, 2 / l ^ 3
  M = self:line(M, {i = i, member = member, xi = xi, add = {{0, 0, m2, m3},
    {xi, -1, m2, m3}}})
  V = self:line(V, {i = i, member = member, xi = xi, add = {{0, 0, v2, v3}, {1, 0, v2,
    v3}}})
  M.x, M.side, V.x, V.side = x, side, x, side
  return M, V
end

--- The line of a support's reaction on a member: its shear before and after.
function beams:reaction(member, x)
  local sum = {}
  for _, side in ipairs {-1, 1} do
    local _, V = self:forces(member, x, side)
    for i, p in ipairs(V or {}) do
      local q = sum[i] or {from = p.from, to = p.to, x0 = p.x0, c = {0, 0, 0, 0}}
      for k = 1, 4 do q.c[k] = q.c[k] + side * p.c[k] end
      sum[i] = q
    end
  end
  return sum
end

-- Where a cubic has no slope, within a piece.
local function turns(p)
  local c, t1, t2 = p.c, p.from - p.x0, p.to - p.x0
  local out = {t1}
  local A, B, C = 3 * c[4], 2 * c[3], c[2]
  local D = B * B - 4 * A * C
  if D > 0 then
    local q = -0.5 * (B + (B >= 0 and 1 or -1) * sqrt(D))
    local roots = {q ~= 0 and C / q or nil, A ~= 0 and q / A or nil}
    for _, t in pairs(roots) do
      if t > t1 and t < t2 then out[#out + 1] = t end
    end
  end
  out[#out + 1] = t2
  table.sort(out)
  return out
end

-- Ends of stretches of one sign.
local function stretches(p)
  local at = turns(p)
  local out = {p.from}
  for k = 2, #at do
    local a, b = p.x0 + at[k - 1], p.x0 + at[k]
    local va, vb = value(p, a), value(p, b)
    if va * vb < 0 then
      for _ = 1, 60 do
        local m = (a + b) / 2
        if value(p, m) * va > 0 then a = m else b = m end
      end
      out[#out + 1] = (a + b) / 2
    end
  end
  out[#out + 1] = p.to
  return out
end

local GAUSS = {{-sqrt(0.6), 5 / 9}, {0, 8 / 9}, {sqrt(0.6), 5 / 9}}

local function integral(p, load, a, b)
  local sum, g = 0, (load.w2 - load.w1) / (load.b - load.a)
  for _, q in ipairs(GAUSS) do
    local x = (a + b) / 2 + (b - a) / 2 * q[1]
    sum = sum + q[2] * (load.w1 + g * (x - load.a)) * value(p, x)
  end
  return sum * (b - a) / 2
end

-- Adds a line load to what a line says: all of it, what is above and below nil.
local function add_line(p, cuts, load, sum)
  for k = 2, #cuts do
    local a, b = max(cuts[k - 1], load.a), min(cuts[k], load.b)
    if b > a then
      local v = integral(p, load, a, b)
      sum.all = sum.all + v
      if v > 0 then sum.up = sum.up + v else sum.down = sum.down + v end
    end
  end
end

-- A point load at the place itself is beyond it, seen from the side asked for; at another
-- jump of the line it stands on the side that asks for more.
local function add_point(line, load, sum)
  local lo, hi
  local here = line.side and abs(load.x - line.x) < 1e-9 and line.side
  for _, p in ipairs(line) do
    local first, last = abs(load.x - p.from) < 1e-9, abs(load.x - p.to) < 1e-9
    local mine = load.x >= p.from - 1e-9 and load.x <= p.to + 1e-9
    if here then mine = here < 0 and first or here > 0 and last end
    if mine then
      local v = value(p, load.x)
      lo, hi = min(lo or v, v), max(hi or v, v)
    end
  end
  if not lo then return end
  sum.up, sum.down = sum.up + max(hi, 0) * load.P, sum.down + min(lo, 0) * load.P
  sum.all = sum.all + (abs(hi) >= abs(lo) and hi or lo) * load.P
end

--- What loads make of a line: dead load, most and least of live load that may be absent
-- anywhere, all of it.
function beams.range(_, line, loads)
  local D, L = {all = 0, up = 0, down = 0}, {all = 0, up = 0, down = 0}
  for _, p in ipairs(line) do
    local cuts
    for _, load in ipairs(loads) do
      if load.a and load.live then
        cuts = cuts or stretches(p)
        add_line(p, cuts, load, L)
      elseif load.a then
        add_line(p, {p.from, p.to}, load, D)
      end
    end
  end
  for _, load in ipairs(loads) do
    if load.x then add_point(line, load, load.live and L or D) end
  end
  return D.all, L.up, L.down, L.all
end

------------------------------------------------------------------------------------- sag

--- Sag at places all along under dead load, or all live load, of what the floor stands
-- on: a list {x =, sag =}, always in the same order.
function beams:sag(loads, live)
  local f, on = {}, {}
  local function put(i, member, x, P)
    local l, t = self.x[i + 1] - self.x[i], x - self.x[i]
    local N = {1 - 3 * t ^ 2 / l ^ 2 + 2 * t ^ 3 / l ^ 3, t - 2 * t ^ 2 / l
      + t ^ 3 / l ^ 2, 3 * t ^ 2 / l ^ 2 - 2 * t ^ 3 / l ^ 3, t ^ 3 / l ^ 2 - t ^ 2 / l}
    local a, b = dof(i, member), dof(i + 1, member)
    for k, r in ipairs {a + 1, a + 2, b + 1, b + 2} do f[r] = (f[r] or 0) + N[k] * P end
  end
  for _, load in ipairs(loads) do
    if (load.live or false) == live then
      local placed = false
      for i = 1, #self.x - 1 do
        local member = self:carrier(i)
        local p, q = self.x[i], self.x[i + 1]
        if load.x and not placed and load.x >= p - 1e-9 and load.x <= q + 1e-9
          and self.EI_of[member][i] then
          put(i, member, load.x, load.P)
          placed = true
        elseif load.a and self.EI_of[member][i] then
          local a, b = max(p, load.a), min(q, load.b)
          local g = (load.w2 - load.w1) / (load.b - load.a)
          for _, w in ipairs(b > a and GAUSS or {}) do
            local x = (a + b) / 2 + (b - a) / 2 * w[1]
            local P = w[2] * (b - a) / 2 * (load.w1 + g * (x - load.a))
            put(i, member, x, P)
            on[i] = (on[i] or 0) + P
          end
        end
      end
    end
  end
  local u, out = self:solve(f), {}
  for i = 1, #self.x - 1 do
    local l, member = self.x[i + 1] - self.x[i], self:carrier(i)
    if self.EI_of[member][i] then
      local p = {x0 = self.x[i], c = shape(u, i, member, l)}
      -- between nodes at rest: w t^2 (l - t)^2/(24 EI)
      local own = (on[i] or 0) / l / (24 * self.EI_of[member][i])
      for k = 0, 48 do
        local t = l * k / 48
        out[#out + 1] = {x = p.x0 + t, sag = value(p, p.x0 + t) + own * (t * (l - t)) ^ 2}
      end
    end
  end
  return out
end

return beams
