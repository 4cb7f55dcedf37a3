-- SPDX-License-Identifier: MIT
-- A post under a beam: a wood column about both axes, solid or of plies, and its
-- end grain; or an adjustable steel post by the load that it is
-- rated for.
local built_up = require "netsection.member.built_up"
local core = require "netsection.core"
local member = require "netsection.member"
local model = require "netsection.model"
local ordered = require "netsection.point".pairs
local plate = require "netsection.member.plate"
local point = require "netsection.point"
local text = require "netsection.text"
local tostring = require "netsection.point".text

local post = {}

post.fields = member.fields({"mark"}, member.wood_fields, {"length", "braced", "K_e",
  "eccentricity", "built_up", "load", "dead", "live", "capacity", "temporary", "footing",
  "sole", "head", "end_plate", "note"})

local read = model.readers

-- Longest unbraced length read, in: a story and a half.
local LONGEST = 240
-- A side the load may stand off the middle by, of that side: the edge of the core of a
-- section, beyond which an end would open.
local SIXTH = 1 / 6

local function read_length(found, name, value)
  return value ~= nil and read.between(found, nil, name, value, 6, LONGEST) or nil
end

-- Effective lengths for buckling along d and along b: K_e times the unbraced length.
local function read_lengths(t, f, found)
  local both = read_length(found, "length", t.length)
  if t.length == nil then
    found:add(nil, "length", "missing: the height of the post between what holds it "
      .. "sideways")
  end
  local braced = t.braced or {}
  if type(braced) ~= "table" then
    found:add(nil, "braced", "{d = length, b = length} expected")
    braced = {}
  end
  for name in ordered(braced) do
    if name ~= "d" and name ~= "b" then
      found:add(nil, "braced." .. tostring(name), "unknown (takes d, b: the side along "
        .. "which that length may buckle)")
    end
  end
  local K = t.K_e ~= nil and read.number(found, nil, "K_e", t.K_e, 0.65, 2.4) or 1
  f.length, f.K_e = both, K
  f.l_d = (read_length(found, "braced.d", braced.d) or both or 0) * K
  f.l_b = (read_length(found, "braced.b", braced.b) or both or 0) * K
  for _, side in ipairs {"l_d", "l_b"} do
    if both and f[side] / K > both + 1e-9 then
      found:add(nil, "braced", "an unbraced length is no longer than the post")
    end
  end
end

local function read_eccentricity(t, f, found)
  local e = t.eccentricity
  if e == nil or e == false then return end
  if e == "b/6" or e == "d/6" then
    f.sixth = true
  else
    f.e = read.between(found, nil, "eccentricity", e, 0, 12)
  end
end

-- Plates under and over the post, and what a rated post presses them with.
local function read_plates(t, f, found, level)
  for _, name in ipairs {"sole", "head"} do
    if t[name] ~= nil and (type(t[name]) ~= "table" or t[name].kind ~= "plate") then
      found:add(nil, name, "ns.plate{...} expected")
    elseif t[name] ~= nil then
      f[name] = plate.read(t[name], level + 1)
    end
  end
  f.end_plate = plate.read_sides(found, "end_plate", t.end_plate)
  if t.end_plate ~= nil and t.capacity == nil then
    found:add(nil, "end_plate", "of a rated post; one of wood presses with its own "
      .. "sides")
  elseif t.end_plate ~= nil and not (f.sole or f.head) then
    found:add(nil, "end_plate", "goes with sole or head")
  end
end

-- @param level of the caller, for what is raised; @param standard of packs.standard
function post.read(t, level, standard)
  local found = member.problems(t, "post")
  local f = {given = t, temporary = read.flag(found, t, "temporary", false)}
  if t.capacity ~= nil then
    f.capacity = read.load(found, nil, "capacity", t.capacity, "point")
    for _, name in ipairs(post.steel_leaves) do
      if t[name] ~= nil then
        found:add(nil, name, "a post of a rated load takes none")
      end
    end
    f.length = read_length(found, "length", t.length)
  else
    f.wood = member.wood(t, found)
    if f.wood then f.built_up = built_up.read(t.built_up, f.wood.plies, found,
      standard) end
    read_lengths(t, f, found)
    read_eccentricity(t, f, found)
    if f.built_up and (f.sixth or f.e and f.e > 0) then
      found:add(nil, "eccentricity", "a load off the middle of a built-up post is not "
        .. "covered: give a solid one")
    end
  end
  f.load = member.load(t, found)
  read_plates(t, f, found, level)
  member.must(found, level + 1)
  return f
end

post.steel_leaves = {"size", "b", "d", "plies", "species", "grade", "edition", "material",
  "moisture", "temperature", "incised", "braced", "K_e", "eccentricity", "built_up"}

----------------------------------------------------------------------------------- checks

-- P <= F_c* CP A, and with the load off the middle the sum of compression and bending.
local function column(w, c)
  local m, f = w.m, w.f
  local P = c.D * w.load.D + c.L * w.load.L
  local Fc = member.adjusted(m, w.standard, "Fc", c)
  local E_m = member.adjusted(m, w.standard, "Emin", c).value
  local Fb = member.adjusted(m, w.standard, "Fb", c)
  local list = {}
  local function one(l_1, d_1, l_2, d_2, e)
    -- bent along the deep side of a thin section it may turn over
    local CL = e and d_1 > 2 * d_2 and core.CL(Fb.value, E_m, core.l_e("any", l_1, d_1),
      d_2, d_1) or 1
    list[#list + 1] = member.check {standard = w.standard, mode = "column", demand = 0,
      P = P, l_e1 = l_1, d_1 = d_1, l_e2 = l_2, d_2 = d_2, e_1 = e, E_m = E_m,
      F = m.Fc, F_cs = Fc.value, K_f = f.built_up and f.built_up.K_f,
      CD = Fc.CD, CM = Fc.CM, Ct = Fc.Ct, CF = Fc.CF, Ci = Fc.Ci, K = Fc.K,
      F_a2 = Fb.value * CL, member = "post", combination = c.name,
      clause = e and w.standard.words:rule "eccentric_post" or nil}
  end
  if f.sixth or f.e and f.e > 0 then
    one(f.l_d, m.d, f.l_b, m.b, f.e or m.d * SIXTH)
    one(f.l_b, m.b, f.l_d, m.d, f.e or m.b * SIXTH)
  else
    one(f.l_d, m.d, f.l_b, m.b * m.plies)
  end
  return member.worst(list)
end

-- f_c <= F_c* on the end grain.
local function end_grain(w, c)
  local m = w.m
  local P = c.D * w.load.D + c.L * w.load.L
  local F = member.adjusted(m, w.standard, "Fc", c)
  return member.check {standard = w.standard, mode = "bearing", branch = 3, demand = P,
    d_1 = m.d, d_2 = m.b * m.plies, F = m.Fc, F_cs = F.value, CD = F.CD, CM = F.CM,
    Ct = F.Ct, CF = F.CF, Ci = F.Ci, K = F.K, member = "post", name = "end of the post",
    combination = c.name, clause = w.standard.words:rule "end_grain"}
end

local function each(w, check)
  local list = {}
  for i, c in ipairs(w.combinations) do list[i] = check(w, c) end
  return member.worst(list)
end

local function wood_notes(a, w)
  local f, m = w.f, w.m
  local end_check = a.checks[2]
  if end_check.ratio > 0.75 + 1e-9 then
    a.notes[#a.notes + 1] = ("the end is pressed to more than 0.75 of F_c*: a steel "
      .. "plate or other rigid insert at that end (%s)"):format(
      w.standard.words:rule "end_insert")
  end
  if not (f.sixth or f.e) then
    a.notes[#a.notes + 1] = "the load is taken in the middle of the post; with "
      .. "eccentricity = \"b/6\" it stands a sixth of the side off it"
  elseif f.sixth then
    a.notes[#a.notes + 1] = "load a sixth of the side off the middle, along each side in "
      .. "turn"
  else
    a.notes[#a.notes + 1] = ("load %s off the middle, along each side in turn"):format(
      a.show.size(f.e))
  end
  a.notes[#a.notes + 1] = ("held sideways at both ends, K_e %s; unbraced %s along the "
    .. "%s side and %s along the %s side"):format(text.short(f.K_e),
    a.show.place(f.l_d / f.K_e), a.show.size(m.d),
    a.show.place(f.l_b / f.K_e), a.show.size(m.b * m.plies))
  if f.built_up then
    a.notes[#a.notes + 1] = built_up.said(f.built_up, m, a.show)
    a.notes[#a.notes + 1] = ("all plies in one length, of one depth, faces in "
      .. "contact (%s)"):format(w.standard.words:rule "built_up_plies")
  end
  a.assumptions[#a.assumptions + 1] = ("Design values: %s."):format(m.source)
  for _, note in ipairs(m.notes) do
    note = model.said(note, w.standard)
    if not note:find "^bearing length" then
      a.assumptions[#a.assumptions + 1] = note .. "."
    end
  end
end

local function wood_post(a, w)
  local m, f = w.m, w.f
  if m.manufactured or m.missing then
    return member.unassessed(a, "not assessed", ("%s not given, and no reference "
      .. "values: state an assumption"):format(m.missing or "wood"))
  elseif not (m.Fc and m.Fc > 0) then
    return member.unassessed(a, "not assessed", "Fc of the post not given")
  end
  a.checks = {each(w, column), each(w, end_grain)}
  if a.checks[1].branch == 3 then
    a.status = "not permitted"
    a.notes[#a.notes + 1] = ("more slender than 50 (%s): not permitted (%s); "
      .. "brace it or take a larger one"):format(text.short(
      math.max(f.l_d / m.d, f.l_b / (m.b * m.plies))),
      w.standard.words:rule "slender_post")
  end
  for _, lack in ipairs(f.built_up and built_up.lacking(f.built_up, m, a.show,
    w.standard) or {}) do
    a.status = "not permitted"
    a.notes[#a.notes + 1] = "not a built-up column: " .. lack
  end
  wood_notes(a, w)
  a.pieces[1] = {name = "post", kind = "post", member = "post", count = m.plies,
    size = m.size or ("%s x %s"):format(a.show.size(m.b), a.show.size(m.d)),
    length = f.length, material = m.wood}
end

local function rated_post(a, w)
  local P = w.load.D + w.load.L
  a.checks[1] = member.check {standard = w.standard, mode = "fasteners", branch = 2,
    demand = P, G = P, Z = w.f.capacity, n_f = 1, member = "post",
    name = "post, rated load", clause = "rated load as given"}
  a.notes[1] = ("rated for %s as given, at its height and use; not computed here"):
    format(a.show.force(w.f.capacity))
  a.pieces[1] = {name = "adjustable post", kind = "post", member = "post", count = 1,
    length = w.f.length}
end

-- What is asked of every post and cannot be read from its numbers.
local ASK = {
  "what holds it sideways at the top and the bottom, and whether it can be knocked out",
  "fire: a post in the open has no rating here",
}

--- Whether a post and its plates hold.
function post.holds(a)
  for _, s in ipairs {a, a.sole or a, a.head or a} do
    if s.status ~= "adequate" then return false end
  end
  return true
end

--- The state of a post under a load; sole, head: of its plates.
-- @param f of post.read; @param load {D =, L =} lb; @param standard of packs.standard
function post.assess(f, load, standard)
  local t = f.given
  local a = member.assessment("post", t.mark, f.show)
  local temporary = f.temporary
  local w = {f = f, m = f.wood, load = load, standard = standard,
    combinations = member.combinations(standard, temporary)}
  a.load = load
  if f.capacity then rated_post(a, w) else wood_post(a, w) end
  a.title = ("%s%s post%s, load %s"):format(f.built_up and f.wood.plies .. " plies "
    or "", f.capacity and "rated" or f.wood.size
    or ("%s x %s"):format(a.show.size(f.wood.b), a.show.size(f.wood.d)),
    f.length and " " .. a.show.place(f.length) .. " high" or "",
    a.show.force(load.D + load.L))
  if temporary then
    a.notes[#a.notes + 1] = f.capacity and "for temporary use"
      or point.format("for temporary use: CD %g on all loads together",
      standard.data.members.construction.CD)
  end
  local sides = f.end_plate or f.wood and {f.wood.b * f.wood.plies, f.wood.d}
  for _, name in ipairs {"sole", "head"} do
    if f[name] then
      f[name].show = a.show
      a[name] = plate.assess(f[name], load, standard, sides, name .. " plate")
      a[name].mark = a[name].mark or t.mark and ("%s of %s"):format(name, t.mark)
    end
  end
  a.side = f.wood and math.min(f.wood.b * f.wood.plies, f.wood.d)
  table.move(ASK, 1, #ASK, 1, a.not_checked)
  return member.settle(a)
end

return post
