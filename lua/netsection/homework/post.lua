-- SPDX-License-Identifier: MIT
-- What the problems of a simple joist under its floor and a post share: what is given,
-- the figure, and the same joist for the beam solver.
local core = require "netsection.core"

local post = {}

function post.given(p)
  return {
    {"L", p.span / 12, "ft", "design span, A to B"},
    {"w", p.load, "plf", "floor load, all along"},
    {"P", p.post, "lb", "load of a post"},
    {"a", p.place / 12, "ft", "from A to the post"},
  }
end

function post.figure(p, _, draw)
  return draw.loads {L = p.span / 12, w = p.load .. " plf",
    points = {{p.place / 12, p.post .. " lb"}}}
end

function post.beam(p)
  return core.beam {spans = {p.span}, EI = 1e8, loads = {
    {from = 0, to = p.span, w1 = p.load / 12, w2 = p.load / 12, case = "dead"},
    {at = p.place, P = p.post, case = "dead"}}}
end

return post
