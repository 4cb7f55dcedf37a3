-- Random joists (800, or as many as NETSECTION_PLAIN says; NETSECTION_SEED draws others)
-- reviewed again by plain means (tests/plain_review.lua), which share nothing with the
-- core: demand and capacity of every check, and no joist is left that the plain review
-- would not leave.
local lu = require "luaunit"
local ns = require "netsection"
local plain = require "tests.plain_review"
local support = require "tests.support"

local T = {}

-- A random joist for both: single spans with one cut and points also near the bearings,
-- two spans without cuts.
local function random_joist(r)
  local b, d = r:pick {1.5, 2, 2.5}, r:pick {5.5, 7.25, 9.25, 11.25}
  local CF = r:pick {1, 1.1, 1.2}
  local Fb = r:real(500, 1500)
  local j = {b = b, d = d, s = r:pick {12, 16, 19.2, 24}, D = r:real(5, 25),
    L_psf = r:pick {30, 40, 60}, points = {}, wood = {Fb = Fb, CF = CF, CF_t = CF,
      CF_c = 1,
    Fv = r:real(120, 200), Fc_perp = r:real(300, 700), Ft = Fb * r:real(0.4, 0.7),
    Fc = Fb * r:real(1, 1.6), E = r:real(1e6, 2e6)}}
  j.wood.Emin = j.wood.E * 0.3625
  j.L = {r:real(96, 200)}
  if r:unit() < 0.25 then j.L[2] = r:real(80, 200) end
  j.l_b = {}
  for n = 1, #j.L + 1 do j.l_b[n] = r:pick {1.5, 2.5, 3.5, 5.5} end
  local total = j.L[1] + (j.L[2] or 0)
  for _ = 1, r:int(0, 2) do
    local near = r:unit() < 0.5
    local x = near and r:real(0.5, j.l_b[1] / 2 + d + 2) or r:real(10, total - 10)
    if near and r:unit() < 0.5 then x = total - x end
    table.insert(j.points, {x = x, P = r:real(50, 900), live = r:unit() < 0.5})
  end
  local dice = #j.L == 1 and r:unit() or 1
  if dice < 0.35 then
    local D = r:unit() < 0.7 and r:real(0.1, d / 3) or r:real(0.1, 0.5 * d)
    local below = r:real(0.3, d - D - 0.3)
    if r:unit() < 0.5 and d - D > 4.2 then below = r:real(2, d - D - 2) end
    j.cut = {kind = "hole", x = r:real(10, j.L[1] - 10), D = D, below = below}
  elseif dice < 0.5 then
    local h, from = r:real(0.2, 0.4 * d), r:real(8, j.L[1] - 30)
    j.cut = {kind = "slot", from = from, to = from + r:real(0.3, 18), h = h,
      below = r:real(0.3, d - h - 0.3)}
  elseif dice < 0.7 then
    local from = r:real(6, j.L[1] - 12)
    j.cut = {kind = "notch", face = r:pick {"top", "bottom"}, from = from,
      to = from + r:real(0.3, d / 2), depth = r:real(0.1, d / 4)}
  elseif dice < 0.8 then
    local from = r:unit() < 0.6 and r:real(-j.l_b[1] / 2, 8) or r:real(10, j.L[1] - 30)
    j.cut = {kind = "loss", from = from, to = from + r:real(0.5, 10),
      depth = r:real(0.05, 0.3 * d)}
  elseif dice < 0.97 then
    local length = r:unit() < 0.5 and r:real(0.3, j.l_b[1] + d / 3) or r:real(0.3,
      j.L[1] / 2)
    j.cut = {kind = "end_notch", face = r:pick {"top", "bottom", "bottom"},
      depth = r:real(0.1, 0.35 * d), length = length}
  end
  return j
end

local function described(j)
  local t = {mark = "R", b = j.b, d = j.d, spacing = j.s, dead = j.D, live = j.L_psf,
    spans = j.L, bearing = j.l_b, material = j.wood, loads = {}}
  for i, p in ipairs(j.points) do
    t.loads[i] = ns.point {at = p.x, P = ("%.17g lb"):format(p.P),
      case = p.live and "live" or "dead"}
  end
  local c = j.cut
  if c and c.kind == "hole" then
    t.cuts = {ns.hole {at = c.x, diameter = c.D, below = c.below}}
  elseif c and c.kind == "slot" then
    t.cuts = {ns.slot {from = c.from, to = c.to, height = c.h, below = c.below}}
  elseif c and c.kind == "notch" then
    t.cuts = {ns.notch {face = c.face, from = c.from, to = c.to, depth = c.depth}}
  elseif c and c.kind == "loss" then
    t.cuts = {ns.loss {from = c.from, to = c.to, bottom = c.depth, cause = "rot"}}
  elseif c then
    t.cuts = {ns.end_notch {support = "left", face = c.face, depth = c.depth,
      length = c.length}}
  end
  return ns.joist(t)
end

-- Checks of a review by the names of the plain one: the worst of each.
local function by_name(a)
  local list = {}
  for _, k in ipairs(a.checks) do
    local name = k.mode
    if name == "bearing" then name = "bearing " .. k.support end
    if k.ratio and (not list[name] or k.ratio > list[name].ratio) then list[name] = k end
  end
  return list
end

local function close(a, b, tolerance)
  return math.abs(a - b) <= tolerance * math.max(math.abs(a), math.abs(b), 1e-9)
end

local COMPARED = {"bending", "shear", "bearing 1", "bearing 2", "bearing 3",
  "deflection-live", "deflection-total", "net-bending", "notch-shear"}

function T.test_random_joists_by_plain_means()
  local r = support.random(tonumber(os.getenv "NETSECTION_SEED") or 20261129)
  local compared, left, bad = 0, 0, {}
  local count = tonumber(os.getenv "NETSECTION_PLAIN") or 800
  for n = 1, count do
    local j = random_joist(r)
    local ok, joist = pcall(described, j)
    if ok then
      local review, mine = joist:review(), plain.review(j)
      for _, state in ipairs {"uncut", "cut"} do
        local list = by_name(review[state])
        for _, name in ipairs(COMPARED) do
          local a, b = mine[state][name], list[name]
          local dropped = name == "net-bending" and mine.opening
          if a and b and not dropped then
            compared = compared + 1
            if not (close(a.demand, b.demand, 1e-3) and close(a.capacity, b.capacity,
              1e-3))
              and not close(a.ratio, b.ratio, 1e-3) then
              bad[#bad + 1] = ("%d %s %s: %.6g of %.6g, plain %.6g of %.6g"):format(n,
                state,
                name, b.demand, b.capacity, a.demand, a.capacity)
            end
          elseif a and not b and a.demand > 1e-6 and state == "uncut" then
            bad[#bad + 1] = ("%d %s %s: missing"):format(n, state, name)
          end
        end
      end
      if mine.opening and review.cut.ratio then
        local worst = 0
        for _, k in ipairs(review.cut.checks) do
          if k.cut == 1 and k.binding and k.ratio
            and k.ratio > worst then worst = k.ratio end
        end
        compared = compared + 1
        if not close(worst, mine.opening, 1e-3) then
          bad[#bad + 1] = ("%d opening: %.6g, plain %.6g"):format(n, worst, mine.opening)
        end
      end
      if review.action == "leave" then
        left = left + 1
        if not mine.leave then
          bad[#bad + 1] = ("%d left, and not by plain means"):format(n)
        end
      end
    end
  end
  lu.assertEquals(#bad, 0, table.concat(bad, "\n", 1, math.min(#bad, 30)))
  lu.assertTrue(compared > 3 * count and left > count / 20,
    ("%d %d"):format(compared, left))
end

return T
