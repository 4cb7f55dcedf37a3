-- SPDX-License-Identifier: MIT
-- A beam that sags gives way under the joists: each joist leans on it with so much less
-- as its support goes down, R = R_0 - K y, y the beam's sag there under all R. Solved
-- where the sag on rigid supports is over L/600 (ours); the rigid answer stays the one
-- that the beam is checked for.
local beam = require "netsection.member.beam"
local beam_line = require "netsection.member.beam_line"
local linear = require "netsection.linear"
local pieces = require "netsection.pieces"

local settle = {}

local STIFF = 600 -- a sag of L/600 and less is taken as none (assumption)

-- Force that a unit of settlement takes off a joist's support at x, lb/in; 0 where the
-- joist would fall without it.
local function stiffness(t, x)
  for _, piece in ipairs(t.pieces) do
    local rest, here = {}, false
    for _, p in ipairs(piece.places) do
      if math.abs(p - x) < 1e-9 then here = true else rest[#rest + 1] = p end
    end
    if here then
      if #rest < 2 then return 0 end
      local b = pieces.beam(t.model, piece.a, piece.b, rest, {{at = x - rest[1], P = 1}})
      return 1 / b:at(x - rest[1]).deflection
    end
  end
  return 0
end

-- Sags of the beam at every joist under a unit load at joist k.
local function influence(b, loads, k, EI)
  local list = beam.pieces(b.posts, {{y = loads[k].y, D = 0, L = 1}}, {EI = EI,
    weight = 0, continuous = b.f.continuous})
  local out = {}
  for i, q in ipairs(loads) do
    local _, live = beam.deflection(list, q.y)
    out[i] = live
  end
  return out
end

-- Reactions of the joists on the beam as it sags: (1 + F K) y = F R_0.
local function settled(path, b, loads)
  local EI = beam_line.stiffness(b.f, path.packs)
  local F, K, n = {}, {}, #loads
  for k, q in ipairs(loads) do
    F[k], K[k] = influence(b, loads, k, EI), stiffness(path.joists[q.number], b.f.at)
  end
  local A, v = {}, {}
  for i = 1, n do
    A[i], v[i] = {}, 0
    for j = 1, n do
      A[i][j] = F[j][i] * K[j] + (i == j and 1 or 0)
      v[i] = v[i] + F[j][i] * (loads[j].D + loads[j].L)
    end
  end
  local y, R = linear.solve(A, v), {}
  for i, q in ipairs(loads) do R[i] = q.D + q.L - K[i] * y[i] end
  return R, y
end

-- Largest moment of a joist on its own supports with the beam pushing up by R, lb-in.
local function moment_of(t, x, R)
  local most = 0
  for _, piece in ipairs(t.pieces) do
    local rest, here = {}, false
    for _, p in ipairs(piece.places) do
      if math.abs(p - x) < 1e-9 then here = true else rest[#rest + 1] = p end
    end
    if here and #rest >= 2 then
      local loads = pieces.loads(t.model, piece.a, piece.b, rest[1], "dead")
      for _, q in ipairs(pieces.loads(t.model, piece.a, piece.b, rest[1], "live")) do
        loads[#loads + 1] = q
      end
      loads[#loads + 1] = {at = x - rest[1], P = -R}
      local e = pieces.beam(t.model, piece.a, piece.b, rest, loads):extremes()
      most = math.max(most, e.M_max.value, -e.M_min.value)
    end
  end
  return most
end

-- What the joists put on the beam as it gives way, and what that does to them.
local function given_way(a, rigid, mark)
  return ("the joists put %s on it in place of %s; the largest moment of a joist is then "
    .. "%s (%s), to be checked"):format(a.show.force(a.settled.sum),
    a.show.number("force", rigid), a.show.moment(a.settled.moment), mark)
end

--- Adds what the beam's own sag changes to its state.
function settle.add(path, b, loads)
  local a, d = b.state, b.state.deflection
  if not d or d.total <= 0 or d.total <= d.length / STIFF then return end
  local R, y = settled(path, b, loads)
  local all, rigid, most, at, sag = 0, 0, 0, nil, 0
  for i, q in ipairs(loads) do
    all, rigid, sag = all + R[i], rigid + q.D + q.L, math.max(sag, y[i])
    local M = moment_of(path.joists[q.number], b.f.at, R[i])
    if M > most then most, at = M, q.mark end
  end
  a.settled = {reactions = R, sags = y, sum = all, moment = most, mark = at}
  a.notes[#a.notes + 1] = ("its own sag is L/%d, over L/600 (ours): with it as a "
    .. "settlement, %s at a joist, %s"):format(math.floor(d.length / d.total),
    a.show.length(sag, 3), at and given_way(a, rigid, at)
    or "nothing is taken off the joists, which stand on it or fall")
end

return settle
