-- SPDX-License-Identifier: MIT
-- A repaired joist as a line of a grid. Over the length of its repair EI is that of the
-- joist and of the new member, times one factor, so that the joist by itself sags under
-- its live load as the repair's own calculation says: slip of its fasteners is in that.
local added = require "netsection.grid.added"
local headed = require "netsection.grid.headed"
local mesh = require "netsection.grid.mesh"
local model = require "netsection.model"
local part = require "netsection.fix.part"
local verdict = require "netsection.verdict"

local repaired = {}

local NOT_A_LINE = {
  end_sister = "the grid does not model an end sister",
}

-- Stretches with the repair's length cut out of them, and its own in place of it.
local function over(line, x1, x2, whole, EI_new, k)
  local marks = {line.first, line.last, x1, x2}
  for _, s in ipairs(line.stretches) do
    marks[#marks + 1], marks[#marks + 2] = s.from, s.to
  end
  table.sort(marks)
  local out = {}
  for n = 2, #marks do
    local a, b = marks[n - 1], marks[n]
    if b - a > 1e-9 then
      local own, mid = 0, (a + b) / 2
      for _, s in ipairs(line.stretches) do
        if mid > s.from and mid < s.to then own = s.EI end
      end
      local in_it = mid > x1 and mid < x2
      if whole then own = in_it and own == 0 and whole or own end
      local EI = in_it and k * (own + EI_new) or own
      if EI > 0 then out[#out + 1] = {from = a, to = b, EI = EI} end
    end
  end
  return out
end

-- The live load of the joist's own check, as it is told by the deflection of it.
local function sag_of(line, live, stretches)
  local copy = {}
  for name, value in pairs(line) do copy[name] = value end
  copy.stretches, copy.gaps = stretches, {}
  local answer = mesh.isolated(copy, live)
  return answer and math.max(answer:extremes(1).w_max.value,
    -answer:extremes(1).w_min.value)
end

-- Live loads in full, as its own check has them.
local function live_of(line)
  local m, out = line.m, {lines = {}, points = {}}
  local w = m.live * m.spacing / 144
  if w > 0 then out.lines[1] = {line.first, line.last, w, w} end
  for _, l in ipairs(m.lines) do
    if l.case == "live" then
      local w1, w2 = part.plf(l, m)
      out.lines[#out.lines + 1] = {l.whole and line.first or l.from, l.whole and line.last
        or l.to, w1 / 12, w2 / 12}
    end
  end
  for _, p in ipairs(m.points) do
    if p.case == "live" then out.points[#out.points + 1] = {p.at, p.P} end
  end
  return out
end

-- Factor on EI over the repair for which the joist sags as it should.
local function calibrated(line, live, wanted, make)
  local lo, hi = 1e-4, 1e3
  for _ = 1, 60 do
    local k = math.sqrt(lo * hi)
    local sag = sag_of(line, live, make(k))
    if not sag then return nil end
    if sag > wanted then lo = k else hi = k end
    if hi / lo < 1 + 1e-7 then break end
  end
  local k = math.sqrt(lo * hi)
  local sag = sag_of(line, live, make(k))
  return sag and math.abs(sag / wanted - 1) < 1e-3 and k or nil
end

-- Length of the repair, EI that the new member brings, EI to start from over a gap.
local function reach(line, a, r)
  local f = a.model and a.model.fix
  if not f then return nil end
  if f.kind == "beside" then return f.from, f.to, f.E * f.b * f.d ^ 3 / 12, nil end
  local c = r.cuts[f.cut]
  local whole = 0
  for _, s in ipairs(line.stretches) do whole = math.max(whole, s.EI) end
  return math.max(c.x1, line.first), math.min(c.x2, line.last), 0, whole
end

-- Puts the repair of a joist on its line. @return nil, or why the grid cannot have it
function repaired.put(line, r)
  local a = r.fixed
  if not a or a.refused or not verdict.serves(r) then
    return "its repair is inadequate"
  elseif NOT_A_LINE[a.kind] then
    return NOT_A_LINE[a.kind]
  end
  if a.kind == "header" then return headed.put(line, r, a) end
  if a.kind == "added_joist" then return added.put(line, r) end
  if a.kind == "midspan_support" then
    table.insert(line.bearings, r.joist.repair.at)
    table.sort(line.bearings)
    return nil
  elseif a.kind == "hanger" or a.kind == "notch_screws" then
    line.bearings = model.supports(r.joist.model)
    local f = r.joist.repair
    if f.support == "left" then line.bearings[1] = f.offset or 0 end
    if f.support == "right" then
      line.bearings[#line.bearings] = line.bearings[#line.bearings] - (f.offset or 0)
    end
    return nil
  end
  local x1, x2, EI_new, whole = reach(line, a, r)
  local live = live_of(line)
  local wanted = a.deflection and a.deflection.live
  if not x1 or not wanted or wanted <= 0 or #r.joist.model.span > 1
    or line.first < 0 or line.last > line.bearings[#line.bearings] then
    return "its stiffness cannot be told from its deflection under live load"
  end
  local k = calibrated(line, live, wanted, function(k)
    return over(line, x1, x2, whole, EI_new, k)
  end)
  if not k then return "its stiffness cannot be told from its deflection" end
  line.stretches, line.gaps = over(line, x1, x2, whole, EI_new, k), {}
  line.repair = {from = x1, to = x2, factor = k, title = a.title}
  return nil
end

return repaired
