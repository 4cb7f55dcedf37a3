-- SPDX-License-Identifier: MIT
-- What stands under the joists, as a user describes it: ns.beam_line, ns.post,
-- ns.footing, ns.plate; each reviewed by itself under loads that are given.
local footing = require "netsection.member.footing"
local line = require "netsection.member.beam_line"
local member = require "netsection.member"
local plate = require "netsection.member.plate"
local post = require "netsection.member.post"
local report = require "netsection.member.report"
local units = require "netsection.units"
local wall = require "netsection.member.wall"
local error = require "netsection.raise".error

local members = {new = {}, is = {}}

local function must_have_load(f, what, level)
  if not f.load then
    error(("%s: load, or dead and live: missing"):format(what), level + 1)
  end
end

-- A post under its load; with a footing, that one too (state.under).
local function review_post(self, options)
  local standard, show = member.standard("post:review", options, 2)
  local f = post.read(self, 2, standard)
  must_have_load(f, "post", 2)
  f.show = show
  local a = post.assess(f, f.load, standard)
  if self.footing then
    if type(self.footing) ~= "table" or self.footing.kind ~= "footing" then
      error("post: footing: ns.footing{...} expected", 2)
    end
    local under = footing.read(self.footing, 2)
    under.show = show
    a.under = footing.assess(under, f.load, standard, a.side)
  end
  return report.result(a, standard)
end

local function review_plate(self, options)
  local standard, show = member.standard("plate:review", options, 2)
  local f = plate.read(self, 2)
  must_have_load(f, "plate", 2)
  f.show = show
  return report.result(plate.assess(f, f.load, standard), standard)
end

local function review_footing(self, options)
  local standard, show = member.standard("footing:review", options, 2)
  local f = footing.read(self, 2)
  must_have_load(f, "footing", 2)
  f.show = show
  return report.result(footing.assess(f, f.load, standard), standard)
end

local function review_wall()
  error("wall:review: a wall is worked under a floor: floor:load_path{below = {left = "
    .. "ns.wall{...}}}", 2)
end

local function place(given)
  local y, why = units.length(given)
  return y, why
end

-- A beam by itself: its loads and posts at lengths along it.
local function review_line(self, options)
  local standard, show = member.standard("beam_line:review", options, 2)
  local f = line.read(self, 2)
  if not f.loads then
    error("beam_line: loads: missing; a beam under the joists of a floor is worked by "
      .. "floor:load_path{beams = {...}}", 2)
  end
  f.show = show
  local posts = line.posts(f, place, 2, standard)
  return report.result(line.assess(f, {posts = posts, loads = f.loads}, standard, 2),
    standard)
end

for kind, m in pairs {post = {post.fields, review_post},
  plate = {plate.fields, review_plate}, wall = {wall.fields, review_wall},
  footing = {footing.fields, review_footing}, beam_line = {line.fields, review_line}} do
  members.new[kind], members.is[kind] = member.kind(kind, m[1], {review = m[2]})
end

return members
