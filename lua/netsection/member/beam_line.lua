-- SPDX-License-Identifier: MIT
-- A beam under a set of joists, on posts: plies of wood as joists are checked, or steel
-- by the values that its designer gives. The reactions of the joists stand on it.
local beam = require "netsection.member.beam"
local core = require "netsection.core"
local footing = require "netsection.member.footing"
local member = require "netsection.member"
local model = require "netsection.model"
local ordered = require "netsection.point".pairs
local post = require "netsection.member.post"
local text = require "netsection.text"
local tostring = require "netsection.point".text

local line = {}

line.fields = member.fields({"mark"}, member.wood_fields, {"at", "from", "to", "posts",
  "post", "footing", "steel", "continuous", "bearing", "fixed", "repetitive", "limits",
  "weight", "loads", "temporary", "note"})

local read = model.readers
local STEEL = {M_allow = {1, 1e9}, V_allow = {1, 1e7}, I = {0.1, 1e6}, E = {1e6, 3.2e7},
  width = {0.5, 24}}

-- {M_allow = lb-in, V_allow = lb, I = in4, E = psi, width = in}: as its designer gives
-- them.
local function read_steel(t, f, found)
  if type(t.steel) ~= "table" then
    found:add(nil, "steel", "{M_allow = lb-in, V_allow = lb, I = in4, E = psi, width =} "
      .. "expected")
    return
  end
  for name in ordered(t.steel) do
    if not STEEL[name] then
      found:add(nil, "steel." .. tostring(name),
        "unknown (takes M_allow, V_allow, I, E, width)")
    end
  end
  f.steel = {}
  for _, name in ipairs {"M_allow", "V_allow", "I", "E", "width"} do
    local v = t.steel[name]
    if v == nil and name ~= "width" then
      found:add(nil, "steel." .. name, "missing")
    elseif name == "width" and v ~= nil then
      f.steel.width = read.between(found, nil, "steel.width", v, 0.5, 24)
    elseif v ~= nil then
      f.steel[name] = read.number(found, nil, "steel." .. name, v, STEEL[name][1],
        STEEL[name][2])
    end
  end
  for _, name in ipairs(member.wood_fields) do
    if t[name] ~= nil then found:add(nil, name, "a beam of steel takes none") end
  end
end

-- A place of a post: a mark of a joist, a length, or {at =, post =, footing =}.
local function read_post(found, i, given)
  local name = ("posts[%d]"):format(i)
  local t = given
  if type(given) ~= "table" then t = {at = given} end
  for field in ordered(t) do
    if field ~= "at" and field ~= "post" and field ~= "footing" then
      found:add(nil, ("%s.%s"):format(name, tostring(field)),
        "unknown (takes at, post, footing)")
    end
  end
  if t.at == nil then found:add(nil, name .. ".at", "missing") end
  return {given = t.at, post = t.post, footing = t.footing, name = name}
end

local function read_limits(t, f, found)
  f.limit_live, f.limit_total = 360, 240
  if t.limits == nil then return end
  if type(t.limits) ~= "table" then
    found:add(nil, "limits", "{live = 360, total = 240} expected")
    return
  end
  for name, v in ordered(t.limits) do
    if name ~= "live" and name ~= "total" then
      found:add(nil, "limits." .. tostring(name), "unknown (takes live, total)")
    else
      f["limit_" .. name] = v ~= false and read.number(found, nil, "limits." .. name, v,
        50, 2000) or 0
    end
  end
end

local function read_parts(t, f, found)
  f.posts = {}
  if t.posts ~= nil and type(t.posts) ~= "table" then
    found:add(nil, "posts", "a list of places expected")
  else
    for i, p in ipairs(t.posts or {}) do f.posts[i] = read_post(found, i, p) end
  end
  for _, name in ipairs {"post", "footing"} do
    local of = {t[name]}
    for _, p in ipairs(f.posts) do of[#of + 1] = p[name] end
    for _, v in ipairs(of) do
      if type(v) ~= "table" or v.kind ~= name then
        found:add(nil, name, ("ns.%s{...} expected"):format(name))
      end
    end
  end
end

local function lb(found, name, value)
  return value ~= nil and read.load(found, nil, name, value, "point") or 0
end

local function read_loads(t, f, found)
  if t.loads == nil then return end
  f.loads = {}
  if type(t.loads) ~= "table" then
    found:add(nil, "loads", "a list of {at =, dead =, live =, mark =} expected")
    return
  end
  for i, q in ipairs(t.loads) do
    local name = ("loads[%d]"):format(i)
    if type(q) ~= "table" then
      found:add(nil, name, "{at =, dead =, live =} expected")
    else
      for field in ordered(q) do
        if not ({at = 1, dead = 1, live = 1, mark = 1})[field] then
          found:add(nil, ("%s.%s"):format(name, tostring(field)),
            "unknown (takes at, dead, live, mark)")
        end
      end
      local y = q.at ~= nil and read.length(found, nil, name .. ".at", q.at)
      if q.at == nil then found:add(nil, name .. ".at", "missing") end
      f.loads[i] = {y = y or 0, mark = q.mark,
        D = lb(found, name .. ".dead", q.dead), L = lb(found, name .. ".live", q.live)}
    end
  end
end

--- Reads a description. @param level of the caller, for what is raised
function line.read(t, level)
  local found = member.problems(t, "beam")
  local f = {given = t, continuous = read.flag(found, t, "continuous", false),
    fixed = read.flag(found, t, "fixed", true),
    temporary = read.flag(found, t, "temporary", false)}
  if t.steel ~= nil then
    read_steel(t, f, found)
  else
    f.wood = member.wood(t, found)
  end
  f.at = t.at ~= nil and read.length(found, nil, "at", t.at) or nil
  for _, name in ipairs {"from", "to"} do
    if t[name] ~= nil and type(t[name]) ~= "string" then
      found:add(nil, name, "a joist's mark expected, got " .. type(t[name]))
    end
  end
  f.bearing = t.bearing ~= nil and read.between(found, nil, "bearing", t.bearing, 0.5, 48)
    or nil
  f.Cr = 1
  if t.repetitive ~= nil then
    f.Cr = read.number(found, nil, "repetitive", t.repetitive, 1, 1.15) or 1
    if f.Cr > 1 and (not f.wood or f.wood.plies < 3) then
      found:add(nil, "repetitive", "1.15 only for three or more plies fastened together")
    end
  end
  f.weight = t.weight ~= nil and (read.load(found, nil, "weight", t.weight, "line") or 0)
    / 12 or 0
  read_limits(t, f, found)
  read_parts(t, f, found)
  read_loads(t, f, found)
  member.must(found, level + 1)
  return f
end

------------------------------------------------------------------------------- stiffness

-- EI, lb-in2.
function line.stiffness(f, standard)
  if f.steel then return f.steel.E * f.steel.I end
  local m = f.wood
  local E = core.adjust(m, standard.core, "E").value
  return E * m.b * m.plies * m.d ^ 3 / 12
end

local function width(f)
  return f.steel and f.steel.width or f.wood and f.wood.b * f.wood.plies
end

---------------------------------------------------------------------------------- checks

-- The combination and place in which a demand asks most of a capacity of CD 1.
local function peak(w, each)
  local best
  each(function(q)
    for _, c in ipairs(w.combinations) do
      local v = c.D * q.D + c.L * q.L
      local worth = v / (w.f.steel and 1 or c.CD)
      if v > 1e-9 and (not best or worth > best.worth + 1e-9) then
        best = {v = v, worth = worth, y = q.y, c = c}
      end
    end
  end)
  return best
end

-- Longest piece of the edge in compression that nothing holds: between joists that are
-- fixed to the beam, else from post to post.
local function unbraced(w, p, sign)
  local longest = 0
  if sign > 0 and w.f.fixed then
    local ys = {}
    for _, q in ipairs(p.loads) do ys[#ys + 1] = q.y end
    for _, s in ipairs(p.posts) do ys[#ys + 1] = s.y end
    table.sort(ys)
    for i = 2, #ys do longest = math.max(longest, ys[i] - ys[i - 1]) end
    return longest
  end
  for _, span in ipairs(p.spans) do longest = math.max(longest, span) end
  return math.max(longest, p.left, p.right)
end

-- CL: 1 where the ends are held and depth is no more than four thicknesses,
-- else by R_B = sqrt(l_e d/b^2) over what is not held.
local function stability(w, p, sign, F_star, c)
  local m = w.m
  local b = m.b * m.plies
  if m.d / b <= 4 + 1e-9 then return 1 end
  local l_u = unbraced(w, p, sign)
  local l_e = core.l_e("any", l_u, m.d)
  local E_m = member.adjusted(m, w.standard, "Emin", c).value
  return core.CL(F_star, E_m, l_e, b, m.d), l_u, l_e
end

local function bending(w, p, sign)
  local best = peak(w, function(say)
    beam.each_moment(p, function(q) if q.sign == sign then say(q) end end)
  end)
  if not best then return end
  local t = {standard = w.standard, demand = best.v, member = "beam", at = best.y,
    combination = best.c.name,
    name = p.name and p.name .. (sign < 0 and ", over a post" or "")
      or sign < 0 and "over a post" or nil}
  if w.f.steel then
    t.mode, t.branch, t.M, t.M_a, t.clause = "steel", 4, best.v, w.f.steel.M_allow,
      "values as given"
    return member.check(t)
  end
  local F, m = member.adjusted(w.m, w.standard, "Fb", best.c), w.m
  local star = F.value * w.f.Cr
  local CL, l_u, l_e = stability(w, p, sign, star, best.c)
  t.mode, t.branch, t.F, t.F_a, t.CL, t.Cr = "bending", l_u and 2 or 1, m.Fb, star * CL,
    CL, w.f.Cr
  t.l_u, t.l_e = l_u, l_e
  t.CD, t.CM, t.Ct, t.CF, t.Ci, t.K, t.b, t.d = F.CD, F.CM, F.Ct, F.CF, F.Ci, F.K,
    m.b * m.plies, m.d
  return member.check(t)
end

local function shear(w, p)
  local best = peak(w, function(say) beam.each_shear(p, say) end)
  if not best then return end
  local t = {standard = w.standard, demand = best.v, V = best.v, member = "beam",
    name = p.name, at = best.y, combination = best.c.name}
  if w.f.steel then
    t.mode, t.branch, t.V_a, t.clause = "steel", 5, w.f.steel.V_allow, "values as given"
    return member.check(t)
  end
  local F, m = member.adjusted(w.m, w.standard, "Fv", best.c), w.m
  t.mode, t.branch, t.F, t.F_a = "shear", 2, m.Fv, F.value
  t.CD, t.CM, t.Ct, t.Ci, t.K, t.b, t.d = F.CD, F.CM, F.Ct, F.Ci, F.K, m.b * m.plies, m.d
  return member.check(t)
end

local function sags(w, p, a)
  for _, s in ipairs(beam.sags(p)) do
    for _, case in ipairs {"live", "total"} do
      local n = w.f["limit_" .. case]
      local D = case == "live" and s.live or s.live + s.dead
      if n > 0 then
        a.checks[#a.checks + 1] = member.check {standard = w.standard,
          mode = "deflection-" .. case, branch = 1,
          demand = math.max(D, 0), D_L = D, L = s.length, n = n, member = "beam",
          name = p.name, at = s.y, combination = case == "live" and "L" or "D+L"}
      end
    end
    if not a.deflection or s.live > a.deflection.live then
      a.deflection = {live = s.live, total = s.live + s.dead, length = s.length}
    end
  end
end

-- The wood of `m`, b wide, pressed across the grain over l_b: R <= F_cp' Cb b l_b.
local function pressed(w, m, t)
  if not (m.Fc_perp and m.Fc_perp > 0) then return nil end
  local c
  for _, one in ipairs(w.combinations) do c = one.all and one or c end
  local F = member.adjusted(m, w.standard, "Fc_perp", c)
  return member.check {standard = w.standard, mode = "bearing", branch = 1, demand = t.R,
    R = t.R, F = m.Fc_perp, F_a = F.value, CD = 1, CM = F.CM, Ct = F.Ct, Ci = F.Ci,
    K = F.K, Cb = t.Cb or 1, l_b = t.l_b, b = t.b, member = t.member, name = t.name,
    at = t.at, combination = c.name}
end

-- Each joist on the beam, and the beam's lower edge on each post.
local function joists_on(w, a, loads)
  local l_b = width(w.f)
  if not l_b and not w.others then
    a.notes[#a.notes + 1] = "joists on the beam not checked: give steel.width"
    return
  end
  local list = {}
  for _, q in ipairs(loads) do
    local m = l_b and q.wood
    if m then
      list[#list + 1] = pressed(w, m, {R = q.D + q.L, l_b = l_b, b = m.b * m.plies,
        Cb = core.Cb(l_b, q.to_end or 0), member = "joist", name = q.mark .. " on the "
        .. "beam", at = q.y})
    end
  end
  local worst = member.worst(list)
  a.checks[#a.checks + 1] = worst
  if not worst and not w.others then
    a.notes[#a.notes + 1] = "bearing of the joists on the beam not checked here"
  end
end

local function on_posts(w, a, p, i, R, meets)
  local s = p.posts[i]
  local whole = w.f.bearing or s.state and s.state.side
  if not whole then
    a.notes[#a.notes + 1] = ("beam on %s not checked: its bearing length is not known")
      :format(s.mark)
    return
  end
  local l_b = meets and whole / 2 or whole
  if w.f.steel then return end
  local inner = i > 1 and i < #p.posts
  local to_end = inner and math.min(s.y - p.y1, p.y2 - s.y) - l_b / 2
    or i == 1 and p.left - l_b / 2 or i == #p.posts and p.right - l_b / 2 or 0
  a.checks[#a.checks + 1] = pressed(w, w.m, {R = R.D + R.most, l_b = l_b,
    b = w.m.b * w.m.plies, Cb = core.Cb(l_b, math.max(to_end, 0)), member = "beam",
    name = ("%son post %s"):format(p.name and p.name .. " " or "", s.mark), at = s.y})
end

----------------------------------------------------------------------------- the whole

local function sum_posts(posts, list)
  for _, s in ipairs(posts) do s.D, s.L, s.most, s.least = 0, 0, 0, 0 end
  for _, p in ipairs(list) do
    p.reactions = beam.reactions(p)
    for i, R in ipairs(p.reactions) do
      local s = p.posts[i]
      s.D, s.L = s.D + R.D, s.L + R.L
      s.most, s.least = s.most + R.most, s.least + R.least
      s.pieces = (s.pieces or 0) + 1
    end
  end
end

-- Posts and footings of the beam, each under its load.
local function below(w, a, posts)
  a.posts = posts
  for _, s in ipairs(posts) do
    local load = {D = s.D, L = s.most}
    if s.post then
      s.post.show = a.show
      s.state = post.assess(s.post, load, w.standard)
      s.state.mark = s.state.mark or s.mark
      local own = s.post.given.footing
      s.footing = s.footing or own and footing.read(own, w.level + 1)
    else
      a.not_checked[#a.not_checked + 1] = ("post %s under %s: none is described")
        :format(s.mark, a.show.force(load.D + load.L))
    end
    if s.footing then
      s.footing.show = a.show
      s.under = footing.assess(s.footing, load, w.standard, s.state and s.state.side)
      s.under.mark = s.under.mark or "under " .. s.mark
    else
      a.not_checked[#a.not_checked + 1] = ("what post %s stands on: %s there; no "
        .. "footing is described"):format(s.mark, a.show.force(load.D + load.L))
    end
    if s.D < -1e-6 or s.D + s.least < -1e-6 then
      a.notes[#a.notes + 1] = ("the beam lifts off post %s by %s: hold it down")
        :format(s.mark, a.show.force(-math.min(s.D, s.D + s.least)))
      if s.D < -1e-6 then a.status = "not permitted" end
    end
  end
end

local function title(f, posts, show)
  local what = f.steel and "steel beam" or ("%s%s"):format(f.wood.plies > 1
    and f.wood.plies .. " plies " or "", f.wood.size or ("%s x %s"):format(
    show.size(f.wood.b), show.size(f.wood.d)))
  local spans = {}
  for i = 2, #posts do
    spans[i - 1] = show.place(posts[i].y - posts[i - 1].y)
  end
  return ("%s, %s%s"):format(what, table.concat(spans, " + "), #posts > 2
    and (f.continuous and ", one piece" or ", in pieces from post to post") or "")
end

local function notes(a, f, standard)
  a.notes[#a.notes + 1] = f.steel
    and "steel by the values given: its own stability is in them"
    or ("repetitive factor %s"):format(text.short(f.Cr))
      .. (f.wood.plies > 1 and "; plies fastened to act together" or "")
  if f.weight == 0 then
    a.notes[#a.notes + 1] = ("the beam's own weight is not in it (weight = "
      .. "\"... %s\")"):format(a.show.unit.line_load)
  end
  a.not_checked[#a.not_checked + 1] = "what holds the beam upright and in place on its "
    .. "posts"
  if f.wood then
    a.assumptions[#a.assumptions + 1] = ("Design values: %s."):format(f.wood.source)
    for _, note in ipairs(f.wood.notes) do
      note = model.said(note, standard)
      if not note:find "^bearing length" then
        a.assumptions[#a.assumptions + 1] = note .. "."
      end
    end
  end
end

local function pieces_of(a, f, list)
  for _, p in ipairs(list) do
    local length = p.y2 - p.y1
    a.pieces[#a.pieces + 1] = {name = "beam", kind = "beam", member = "beam",
      size = f.wood and f.wood.size, count = f.wood and f.wood.plies or 1,
      length = length, material = f.wood and f.wood.wood or "steel, by its designer",
      stock = f.wood and f.wood.size and a.show.stock(length, f.wood.size, true)
        or nil}
  end
end

-- Why a beam has no numbers, or nil.
local function lacking(f)
  local m = f.wood
  if m and (m.manufactured or m.missing) then
    return ("%s not given, and no reference values: state an assumption"):format(
      m.missing or "wood")
  end
end

--- The state of a beam under its loads.
-- @param t {posts = {{y =, mark =, post = of post.read, footing =}, ...}, loads = {{y =,
--   D =, L =, mark =, wood = joist's model, to_end =}, ...}, others = true: the caller
--   checks what presses on it}
function line.assess(f, t, standard, level)
  local a = member.assessment("beam_line", f.given.mark, f.show)
  local w = {f = f, m = f.wood, standard = standard, level = level or 1,
    combinations = member.combinations(standard, f.temporary), others = t.others}
  a.title = title(f, t.posts, a.show)
  local why = lacking(f)
  if why then return member.unassessed(a, "not assessed", why) end
  a.loads, a.at = t.loads, f.at
  local list = beam.pieces(t.posts, t.loads, {EI = line.stiffness(f, standard),
    weight = f.weight, continuous = f.continuous})
  a.spans = list
  sum_posts(t.posts, list)
  below(w, a, t.posts)
  for i, p in ipairs(list) do
    p.name = #list > 1 and ("piece %d"):format(i) or nil
    for _, sign in ipairs {1, -1} do a.checks[#a.checks + 1] = bending(w, p, sign) end
    a.checks[#a.checks + 1] = shear(w, p)
    sags(w, p, a)
    for k, R in ipairs(p.reactions) do
      on_posts(w, a, p, k, R, p.posts[k].pieces > 1)
    end
  end
  joists_on(w, a, t.loads)
  notes(a, f, standard)
  pieces_of(a, f, list)
  return member.settle(a)
end

--- Places of posts given as lengths, with what they are; raises where one is a mark.
-- @param place function(given) -> y or nil; @param standard of packs.standard
function line.posts(f, place, level, standard)
  local list, found = {}, member.problems(f.given, "beam")
  for i, p in ipairs(f.posts) do
    local y, why = place(p.given)
    if not y then found:add(nil, p.name, why) end
    local own = p.post or f.given.post
    local under = p.footing or f.given.footing
    list[i] = {y = y or 0, given = p.given, post = own and post.read(own, level + 1,
      standard), footing = under and footing.read(under, level + 1)}
  end
  member.must(found, level + 1)
  table.sort(list, function(p, q) return p.y < q.y end)
  for i, s in ipairs(list) do
    s.mark = ("%s%d"):format(f.given.mark and f.given.mark .. "-P" or "P", i)
    if i > 1 and s.y - list[i - 1].y < 12 - 1e-9 then
      found:add(nil, "posts", "two posts nearer than 12 in")
    end
  end
  if #list < 2 then found:add(nil, "posts", "two posts at least") end
  if #list > 7 then found:add(nil, "posts", "seven posts at most") end
  member.must(found, level + 1)
  return list
end

return line
