-- SPDX-License-Identifier: MIT
-- What a post stands on: a square footing of plain concrete by the soil value that the
-- user gives, its projection by the building code's rule; or a slab that is there, which
-- is not covered.
local member = require "netsection.member"
local model = require "netsection.model"

local footing = {}

footing.fields = {"mark", "soil", "thickness", "side", "weight", "slab", "post", "load",
  "dead", "live", "note"}

local read = model.readers

local CONCRETE = 150 -- its weight, pcf (common practice)

-- Pressures on a soil that are taken, psf.
local SOIL = {unit = "psf", low = 100, high = 20000}

local NOT_COVERED = "existing slab: not covered. Its thickness, what lies under it, its "
  .. "cracks and punching are not known; open it up and pour a footing, or have it "
  .. "computed from what is found"

-- @param level of the caller, for what is raised
function footing.read(t, level)
  local found = member.problems(t, "footing")
  local f = {given = t, slab = read.flag(found, t, "slab", false)}
  if f.slab then
    for _, name in ipairs {"soil", "thickness", "side", "weight"} do
      if t[name] ~= nil then
        found:add(nil, name, "an existing slab is not covered: this is not read")
      end
    end
  else
    if t.soil == nil then
      found:add(nil, "soil", "missing: the allowable pressure on the soil, such as "
        .. "\"1500 psf\"; no value is assumed")
    else
      f.q = read.load(found, nil, "soil", t.soil, "area")
      if f.q and not (f.q >= 100 and f.q <= 20000) then
        found:add(nil, "soil", model.outside(f.q, SOIL, t.soil))
      end
    end
    f.t = t.thickness ~= nil and read.between(found, nil, "thickness", t.thickness, 2, 48)
      or nil
    if t.thickness == nil then found:add(nil, "thickness", "missing") end
    f.side = t.side ~= nil and read.between(found, nil, "side", t.side, 4, 120) or nil
    f.gamma = t.weight ~= nil and read.number(found, nil, "weight", t.weight, 0, 200)
      or CONCRETE
  end
  f.post = t.post ~= nil and read.between(found, nil, "post", t.post, 1, 24) or nil
  f.load = member.load(t, found)
  member.must(found, level + 1)
  return f
end

-- P = (q_s - gamma t/12) (B/12)^2 solved for B, in; nil where the soil carries the
-- footing alone or not even that (statics).
local function side_needed(f, P)
  local q = f.q - f.gamma * f.t / 12
  return q > 0 and 12 * math.sqrt(P / q) or nil
end

-- Projection of plain concrete: at least so far past what stands on it and no more than
-- the thickness, which has a least value too (members.lua of the standard).
local function plain_concrete(a, f, side, on, standard)
  local least, rule = standard.data.members.footing, standard.words:rule "plain_footing"
  if f.t < least.thick - 1e-9 then
    a.status = "not permitted"
    a.notes[#a.notes + 1] = ("%s thick: at least %s (%s)"):format(
      a.show.size(f.t), a.show.about(least.thick), rule)
  end
  if not on then
    a.notes[#a.notes + 1] = "projection past the post not checked: its side is not known"
    return
  end
  a.checks[#a.checks + 1] = member.check {standard = standard, mode = "footing",
    branch = 1, demand = 0, B = side, d_1 = on, t = f.t, member = "footing",
    name = "projection"}
  if (side - on) / 2 < least.past - 1e-9 then
    a.status = "not permitted"
    a.notes[#a.notes + 1] = ("it reaches %s past the post: at least %s (%s)")
      :format(a.show.size((side - on) / 2), a.show.about(least.past), rule)
  end
end

local function size_notes(a, f, P, needed)
  if not f.side then
    a.notes[#a.notes + 1] = ("side needed %s, rounded up to %s"):format(
      a.show.length(needed, 2), a.show.length(a.side, 0))
  else
    a.notes[#a.notes + 1] = ("side needed %s"):format(a.show.length(needed, 2))
  end
  a.assumptions[1] = ("Soil: %s as given by the user; concrete %s."):format(
    a.show.figures_of("area_load", f.q), a.show.figures_of("unit_weight", f.gamma))
  a.side_needed = needed
  a.bare_side = 12 * math.sqrt(P / f.q)
end

local ASK = {"the soil itself, its settlement and what lies beside the footing",
  "frost: the bottom of the footing goes below the frost depth of the place"}

--- The state of a footing under a load.
-- @param standard of packs.standard
-- @param on side of the post that stands on it, in, or nil
function footing.assess(f, load, standard, on)
  local t = f.given
  local a = member.assessment("footing", t.mark, f.show)
  local show = a.show
  local P = load.D + load.L
  a.load, on = load, f.post or on
  if f.slab then
    a.title = "existing slab under a post, load " .. show.force(P)
    a.not_checked[1] = "the slab, and the soil under it"
    a.notes[1] = NOT_COVERED
    return member.unassessed(a, "not covered", NOT_COVERED)
  end
  table.move(ASK, 1, #ASK, 1, a.not_checked)
  local needed = side_needed(f, P)
  if not needed then
    a.title = "footing"
    return member.unassessed(a, "not permitted", "the soil value does not carry the "
      .. "footing's own weight")
  end
  a.side = f.side or math.max(math.ceil(needed - 1e-9), 4)
  if on and not f.side then
    a.side = math.max(a.side,
      math.ceil(on + 2 * standard.data.members.footing.past - 1e-9))
  end
  a.title = ("footing %s x %s, %s thick, load %s"):format(
    show.figures("length", a.side), show.figures_of("length", a.side),
    show.figures_of("length", f.t), show.force(P))
  a.checks[1] = member.check {standard = standard, mode = "soil-bearing", branch = 1,
    demand = 0, P = P, q_s = f.q, gamma = f.gamma, t = f.t, B = a.side,
    member = "footing"}
  plain_concrete(a, f, a.side, on, standard)
  size_notes(a, f, P, needed)
  a.pieces[1] = {name = "footing", kind = "footing", member = "footing", count = 1,
    size = ("%s x %s x %s"):format(show.figures("length", a.side),
      show.figures("length", a.side), show.figures_of("length", f.t)),
    material = "plain concrete"}
  return member.settle(a)
end

return footing
