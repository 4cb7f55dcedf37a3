-- SPDX-License-Identifier: MIT
-- Every number of a review under a stable name: a tree of ordered tables, written as JSON
-- and as CSV. A name is the path to a number, its steps joined by full stops and lists
-- counted from 1: joists.J3.cut.checks.net-bending_hole-1.ratio. Reports show numbers
-- rounded; here they stand as they were computed, in in, lb, lb-in, psi, psf.
local basis = require "netsection.basis"
local core = require "netsection.core"
local feel = require "netsection.feel.words"
local grid = require "netsection.grid.tree"
local historic = require "netsection.historic"
local part = require "netsection.fix.part"
local point = require "netsection.point"
local quantity = require "netsection.quantity"
local review = require "netsection.review"
local statics = require "netsection.statics"
local tree_ = require "netsection.numbers_tree"
local verdict = require "netsection.verdict"
local writer = require "netsection.numbers_text"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local numbers = {}

local object, put, array, each = tree_.object, tree_.put, tree_.array, tree_.each

-- For other trees that are written as JSON.
numbers.object, numbers.keys = object, tree_.keys

local LONGEST = 48

--- A word for a name, which is a file's as well: letters, digits, - and _ stay, all else
-- becomes _.
function numbers.word(said)
  local word = tostring(said):gsub("[^%w_-]+", "_"):sub(1, LONGEST)
  return word == "" and "_" or word
end

-- The word, or with a number behind it where it is taken, in whatever case.
local function unique(word, taken)
  local name, n = word, 1
  while taken[name:lower()] do
    n = n + 1
    name = word .. "-" .. n
  end
  taken[name:lower()] = true
  return name
end

---------------------------------------------------------------------------
-- Checks
---------------------------------------------------------------------------

-- A capacity of nothing is a ratio without end, which is not a number of ours.
local function finite(ratio)
  return ratio and ratio < 1e6 and ratio or nil
end

-- The number of a step; of a ratio nil where there is no capacity at all.
local function step_value(step)
  if step.symbol == "ratio" and math.type(step.value) then return finite(step.value) end
  return step.value
end

-- Numbers of a check's steps by symbol, the fasteners' first.
local function steps_of(k)
  local o, taken = object {}, {}
  for _, list in ipairs {k.extra_steps or {}, k.steps or {}} do
    for _, step in ipairs(list) do
      local name = unique((tostring(step.symbol):gsub("%.", "_")), taken)
      put(o, name, object {{"value", step_value(step)}, {"unit", step.unit},
        {"formula", step.formula}, {"clause", step.clause}})
    end
  end
  return o
end

local BASE = quantity.system "us"

-- What stands in the sums of a check's givens before the given itself: {M = {R_1 = ...}}.
local function sums_of(r, state, k)
  local sums, all = statics.sums(r, state, k, BASE), nil
  for _, step in ipairs(next(sums) and k.steps or {}) do
    local lines = not step.formula and sums[step.symbol] or {}
    for i = 1, #lines - 1 do
      all = all or object {}
      if not all[step.symbol] then put(all, step.symbol, object {}) end
      put(all[step.symbol], lines[i].symbol, object {{"value", lines[i].value},
        {"unit", lines[i].unit}, {"formula", lines[i].formula}})
    end
  end
  return all
end

--- The name of a check among its state's.
function numbers.check_word(k)
  local word = k.mode .. (k.mode == "bending" and k.branch == 2 and "-hogging" or "")
  if k.name then word = word .. "_" .. numbers.word(k.name:gsub(" ", "-")) end
  if k.support then word = word .. "_support-" .. k.support end
  if k.member and k.member ~= "host" then word = word .. "_" .. numbers.word(k.member) end
  return word
end

-- A moment in ft-lb; nil where it is none.
local function feet(v, unit)
  return unit == "lb-in" and v and v / 12 or nil
end

-- How far what a check rests on was confirmed, where it is less than read.
local function confidence_of(k)
  local texts = k.rests_on and basis.from_memory(k.rests_on) or {}
  return k.confidence ~= "read" and k.confidence or nil,
    #texts > 0 and array(texts) or nil
end

-- One check as an object: where, what, numbers, how they are known.
local function check_of(k, r, state)
  local confidence, memory = confidence_of(k)
  return object {{"mode", k.mode}, {"member", k.member}, {"name", k.name},
    {"support", k.support}, {"at", k.at}, {"demand", k.demand},
    {"capacity", k.mode ~= "uplift" and k.capacity or nil},
    {"demand_ft_lb", feet(k.demand, k.unit)},
    {"capacity_ft_lb", feet(k.capacity, k.unit)}, {"unit", k.unit},
    {"ratio", finite(k.ratio)}, {"clause", k.clause}, {"combination", k.combination},
    {"binding", k.binding}, {"confidence", confidence}, {"from_memory", memory},
    {"steps", steps_of(k)},
    {"sums", r and sums_of(r, state, k)}}
end

-- Words for the checks of a state, in their order: equal ones are numbered.
local function check_words(checks)
  local taken, list = {}, {}
  for i, k in ipairs(checks or {}) do list[i] = unique(numbers.check_word(k), taken) end
  return list
end
numbers.check_words = check_words

-- The checks of a state by their words.
local function checks_of(checks, r, state)
  local o, list = object {}, check_words(checks)
  for i, k in ipairs(checks or {}) do put(o, list[i], check_of(k, r, state)) end
  return o
end

---------------------------------------------------------------------------
-- States
---------------------------------------------------------------------------

-- Reactions of a state, bearing by bearing: most, least, dead.
local function reactions_of(a)
  return each(a.reactions, function(most, i)
    local range = (a.reaction_range or {})[i] or {}
    return object {{"most", most}, {"least", range.least}, {"dead", range.dead}}
  end)
end

-- @param r, state the review and the state's name there where sums are worked out
local function state_of(a, r, state)
  if not a then return nil end
  local worst = a.governing_check
  local word
  for i, name in ipairs(check_words(a.checks)) do
    if a.checks[i] == worst then word = name end
  end
  local d = a.deflection
  return object {{"status", a.status}, {"ratio", finite(a.ratio)},
    {"governing", a.governing}, {"governing_check", word}, {"Cr", a.Cr},
    {"moment", a.moment}, {"moment_ft_lb", a.moment and a.moment / 12},
    {"moment_at", a.moment_at}, {"shear", a.shear}, {"shear_at", a.shear_at},
    {"reactions", reactions_of(a)},
    {"deflection", d and object {{"live", d.live}, {"total", d.total}}},
    {"checks", checks_of(a.checks, r, state)}}
end

-- Ratios with the lifts that were tried.
local function lifting_of(a)
  return a.lifting and each(a.lifting, function(row)
    return object {{"lift", row.lift}, {"joist_ft_lb", row.host and row.host / 12},
      {"new_ft_lb", row.new and row.new / 12}, {"ratio", finite(row.ratio)}}
  end)
end

-- Pieces of a repair with what they are cut from.
local function pieces_of(a)
  return each(a.pieces, function(p)
    return object {{"name", p.name}, {"count", p.count or 1}, {"size", p.size},
      {"stock", p.stock}, {"material", p.material}, {"length", p.length}, {"x1", p.x1},
      {"x2", p.x2}, {"h1", p.h1}, {"h2", p.h2}, {"y1", p.y1}, {"y2", p.y2},
      {"of", p.of}}
  end)
end

-- What is ordered besides, for those that break or get lost.
local SPARE = 0.05
--- How many fasteners are ordered for a count, with spares.
function numbers.order(count)
  return count + math.ceil(count * SPARE)
end

-- Fasteners of a repair with the count to order.
local function fasteners_of(a)
  return each(a.fasteners, function(f)
    return object {{"fastener", f.fastener}, {"where", f.where}, {"count", f.count},
      {"order", numbers.order(f.count)}, {"D", f.D}}
  end)
end

-- Joists that take load from a repair, with their ratios.
local function neighbours_of(a)
  return each(a.neighbours, function(n)
    local ratio = n.ratio or n.review and n.review.cut.ratio
    return object {{"mark", n.mark}, {"role", n.role}, {"ratio", finite(ratio)},
      {"assumed", n.assumed}, {"first", n.first}}
  end)
end

-- The repaired state: what an assessment has, and what the repair is made of.
local function fixed_of(a, r)
  if not a then return nil end
  local o = state_of(a, r, "fixed")
  local more = {{"kind", a.kind}, {"title", a.title}, {"action", a.action},
    {"refused", a.refused}}
  if not a.refused then
    more[#more + 1] = {"from", a.x1}
    more[#more + 1] = {"to", a.x2}
    more[#more + 1] = {"stations", each(a.stations, function(g)
      return object {{"name", g.name}, {"at", g.x}, {"n", g.n}, {"full", g.full},
        {"most", g.most}, {"least", g.least}}
    end)}
    more[#more + 1] = {"forces", each(a.forces, function(f)
      return object {{"name", f.name}, {"at", f.at}, {"value", f.value},
        {"value_ft_lb", feet(f.value, f.unit)}, {"unit", f.unit}}
    end)}
    more[#more + 1] = {"lifting", lifting_of(a)}
    more[#more + 1] = {"neighbours", neighbours_of(a)}
    more[#more + 1] = {"pieces", pieces_of(a)}
    more[#more + 1] = {"fasteners", fasteners_of(a)}
    more[#more + 1] = {"layout", each(a.layout, function(p)
      return object {{"x", p.x}, {"h", p.h}, {"y", p.y}, {"D", p.D}, {"piece", p.piece}}
    end)}
  end
  for _, pair in ipairs(more) do put(o, pair[1], pair[2]) end
  return o
end

---------------------------------------------------------------------------
-- Inputs, cuts, rules
---------------------------------------------------------------------------

local WOOD = {"Fb", "Ft", "Fv", "Fc_perp", "Fc", "E", "Emin", "G_mean", "CF", "CF_t",
  "CF_c"}

-- Line loads in plf and point loads in lb, as they count.
local function loads_of(m)
  local out = {}
  for _, l in ipairs(m.lines) do
    local w1, w2 = part.plf(l, m)
    out[#out + 1] = object {{"kind", l.part.name}, {"case", l.case}, {"CD", l.CD},
      {"from", not l.whole and l.from or nil}, {"to", not l.whole and l.to or nil},
      {"plf_from", w1}, {"plf_to", w2}}
  end
  for _, p in ipairs(m.points) do
    out[#out + 1] = object {{"kind", p.part.name}, {"case", p.case}, {"CD", p.CD},
      {"at", p.at}, {"lb", p.P}}
  end
  return array(out)
end

-- What stands under `loads` as live load of a tub is that beyond the floor's, or all.
local function tubs_of(m)
  return #m.tubs > 0 and each(m.tubs, function(t)
    return object {{"under", t.under}, {"water_and_people_psf", t.q},
      {"live_psf", t.live}}
  end) or nil
end

-- A list as it stands.
local function plain_list(list)
  return each(list, function(v) return v end)
end

-- What the joist was worked with, in base units.
local function inputs_of(m, limits)
  limits = limits or {live = m.limit_live, total = m.limit_total}
  local o = object {{"b", m.b}, {"d", m.d}, {"plies", m.plies}, {"size", m.size},
    {"wood", m.wood}, {"source", m.source},
    {"historic", m.historic and m.historic .. ": " .. historic.word}}
  for _, name in ipairs(WOOD) do put(o, name, m[name]) end
  local w = {D = m.dead * m.spacing / 12, L = m.live * m.spacing / 12}
  for _, pair in ipairs {{"spans", plain_list(m.span)}, {"overhang_left",
    m.overhang_left}, {"overhang_right", m.overhang_right}, {"spacing", m.spacing},
    {"bearing", plain_list(m.bearing)}, {"bearing_on", m.bearing_on}, {"dead", m.dead},
    {"live", m.live}, {"w_D", w.D}, {"w_L", w.L}, {"w", w.D + w.L},
    {"limit_live", limits.live}, {"limit_total", limits.total},
    {"members", m.members}, {"temperature", not m.class and m.temperature or nil},
    {"creep", not m.class and m.Kcr or nil}, {"class", m.class},
    {"service_class", m.service}, {"duration", m.duration},
    {"notch_raiser", m.notch_raiser},
    {"inflection", m.inflection == 1 and "brace" or "none"},
    {"repetitive", m.repetitive > 0 and m.repetitive or nil},
    {"roof_live", m.roof_live > 0 and m.roof_live or nil},
    {"snow", m.snow > 0 and m.snow or nil},
    {"w_Lr", m.roof_live > 0 and m.roof_live * m.spacing / 12 or nil},
    {"w_S", m.snow > 0 and m.snow * m.spacing / 12 or nil},
    {"blocking", #m.blocking > 0 and plain_list(m.blocking) or nil},
    {"loads", loads_of(m)}, {"tubs", tubs_of(m)}} do
    put(o, pair[1], pair[2])
  end
  return o
end

local CUT = {"M_most", "M_least", "V_most", "V_least", "M_full", "V_full", "lip_force",
  "carry"}

-- Numbers of a cut as they were read, in: what a comparison of two visits goes by.
local function entered_of(cut)
  local o, names = object {}, {}
  for name, value in pairs(cut) do
    if math.type(value) and finite(value) then names[#names + 1] = name end
  end
  table.sort(names, point.less)
  for _, name in ipairs(names) do put(o, name, cut[name]) end
  return o
end

-- Cuts with their places and what the standard and the rules say of each.
local function cuts_of(r)
  local o, places = object {}, r:layout().cuts
  for i, c in ipairs(places) do
    local found = r.cuts and r.cuts[i] or {}
    local entry = object {{"kind", found.kind or c.kind}, {"label", c.label},
      {"note", r.joist.description.cuts[i].note}, {"x1", c.x1}, {"x2", c.x2},
      {"h1", c.h1}, {"h2", c.h2}, {"rules", found.rules}, {"status", found.status}}
    for _, name in ipairs(CUT) do put(entry, name, found[name]) end
    put(entry, "entered", entered_of(r.joist.model.cuts[i]))
    put(o, (c.name:gsub(" ", "-")), entry)
  end
  return o
end

-- The distance, in, that the core gives for a neighbor that is not there.
numbers.nothing_near = 1e6

-- What the packs of rules say, limit by limit.
local function rules_of(r)
  return object {{"pack", r.rules.pack}, {"title", r.rules.title},
    {"status", r.rules.status}, {"items", each(r.rules.items, function(item)
      return object {{"name", item.name}, {"measure", item.measure},
        {"clause", item.clause},
        {"measured", item.measured < numbers.nothing_near and item.measured or nil},
        {"limit", item.limit},
        {"at_least", item.at_least}, {"ok", item.ok}}
    end)}}
end

-- What other modules make their branches of the tree with.
local MAKE = {object = object, each = each, word = numbers.word}

-- A list of texts.
local function texts(list)
  return each(list, function(said) return said end)
end

-- The engineer's judgment, or nil.
local function judgment_of(r)
  local j = r.judgment
  return j and object {{"action", j.action}, {"by", j.by}, {"reason", j.reason}}
end

-- What holds until the joists beside it that are out are repaired.
local function until_of(r)
  local u = r.until_repaired
  if not u then return nil end
  local o = state_of(u)
  put(o, "because", texts(u.because))
  put(o, "width", u.width)
  put(o, "deck", u.deck)
  put(o, "refused", u.refused)
  put(o, "cautions", texts(u.cautions))
  put(o, "grid", grid.until_repaired(u.grid, MAKE))
  return o
end

-- Loads on temporary shores, or why there are none.
local function shores_of(r)
  local s = r.shores
  return s and object {{"refused", s.refused}, {"construction_live_psf", s.live},
    {"assumed", s.assumed}, {"supports", each(s.supports, function(p)
      return object {{"at", p.at}, {"kind", p.kind}, {"dead_lb", p.dead},
        {"total_lb", p.total}}
    end)}, {"lines", s.lines and each(s.lines, function(t)
      return object {{"at", t.at}, {"joists", texts(t.joists)}, {"dead_lb", t.dead},
        {"total_lb", t.total}, {"capacity_lb", t.capacity}, {"heads", t.heads}}
    end)}, {"notes", texts(s.notes)}}
end

-- Ratios without dead load that relieves.
local function relief_of(r)
  return r.relief and r.relief[1] and each(r.relief, function(one)
    return object {{"part", one.part}, {"ratio_without_its_dead_load", one.ratio}}
  end) or nil
end

-- All numbers of a joist's review.
local function joist_of(r)
  return object {{"mark", r.mark}, {"title", r.title}, {"action", r.action},
    {"action_text", verdict.text(r)}, {"out", r.out}, {"judgment", judgment_of(r)},
    {"until_repaired", until_of(r)}, {"shores", shores_of(r)},
    {"relief", relief_of(r)}, {"tub_added_ratio", r.tub_added},
    {"standard", r.standard}, {"reasons", texts(r.reasons)}, {"rules", rules_of(r)},
    {"inputs", inputs_of(r.joist.model, r.limits)}, {"cuts", cuts_of(r)},
    {"uncut", state_of(r.uncut, r, "uncut")}, {"cut", state_of(r.cut, r, "cut")},
    {"fixed", fixed_of(r.fixed, r)}, {"assumptions", texts(r.assumptions)},
    {"switches", texts(r.switches)}, {"cautions", texts(r.cautions)}}
end

---------------------------------------------------------------------------
-- Members below the joists
---------------------------------------------------------------------------

--- For trees that other modules make: an object of pairs, a list, a field more.
numbers.object, numbers.each, numbers.put, numbers.texts = object, each, put, texts
numbers.unique = unique

--- A state of a beam, a post or a footing.
function numbers.member(a)
  local o = state_of(a)
  put(o, "kind", a.kind)
  put(o, "title", a.title)
  put(o, "reason", a.reason)
  local load = a.load
  put(o, "load", load and object {{"dead_lb", load.D}, {"live_lb", load.L},
    {"total_lb", load.D + load.L}})
  put(o, "side", a.kind == "footing" and a.side or nil)
  put(o, "side_needed", a.side_needed)
  put(o, "side_without_its_weight", a.bare_side)
  put(o, "pieces", pieces_of(a))
  put(o, "notes", texts(a.notes))
  put(o, "not_checked", texts(a.not_checked))
  put(o, "assumptions", texts(a.assumptions))
  return o
end

---------------------------------------------------------------------------
-- The whole
---------------------------------------------------------------------------

local UNITS = object {{"length", "in"}, {"force", "lb"}, {"moment", "lb-in"},
  {"moment_ft_lb", "ft-lb"}, {"stress", "psi"}, {"dead, live", "psf"},
  {"w_D, w_L, w, plf_from, plf_to", "plf"}}

numbers.units = UNITS

local ACTIONS = {"leave", "justify", "decide", "repair", "refer"}

--- Reviews of a joist's or a floor's review in order, and names for them by mark; raises
-- at `level` for anything else.
function numbers.reviews(subject, what, level)
  local list, names, taken = {}, {}, {}
  if review.is(subject) then
    list[1] = subject
  elseif type(subject) == "table" and type(subject.order) == "table"
    and type(subject.joists) == "table" then
    for i, mark in ipairs(subject.order) do list[i] = subject.joists[mark] end
  end
  if not review.is(list[1]) then
    error(what .. ": a review of a joist or a floor expected", level + 1)
  end
  for _, r in ipairs(list) do names[r.mark] = unique(numbers.word(r.mark), taken) end
  return list, names
end

--- The tree of a joist's or a floor's review.
function numbers.of(subject)
  local list, names = numbers.reviews(subject, "numbers", 2)
  local joists, floor = object {}, nil
  for _, r in ipairs(list) do put(joists, names[r.mark], joist_of(r)) end
  if not review.is(subject) then
    local counts = object {}
    for _, action in ipairs(ACTIONS) do put(counts, action, subject.actions[action]) end
    floor = object {{"name", subject.name}, {"count", #list}, {"actions", counts}}
  end
  return object {{"netsection", core.version}, {"units", UNITS}, {"floor", floor},
    {"joists", joists}, {"grid", grid.of(subject.grid, MAKE)},
    {"feel", feel.tree(subject.feel, MAKE)}}
end

numbers.json, numbers.csv = writer.json, writer.csv

-- What a description holds, as one text: numbers alone do not tell "13-6" from 162.
local function described(v)
  if type(v) ~= "table" then return type(v) .. ":" .. tostring(v) end
  local keys, out = {}, {}
  for key in pairs(v) do keys[#keys + 1] = key end
  table.sort(keys, function(p, q) return point.less(tostring(p), tostring(q)) end)
  for i, key in ipairs(keys) do out[i] = tostring(key) .. "=" .. described(v[key]) end
  return "{" .. table.concat(out, ";") .. "}"
end

--- The description of a review's joist without its mark and notes, as one text.
function numbers.described(r)
  local t = {}
  for name, value in pairs(r.joist.description) do t[name] = value end
  t.mark, t.note, t.survey = nil, nil, nil
  return described(t)
end

--- The number, text or table under a name of this tree; nil where there is none.
function numbers.at(tree, name)
  local here = tree
  for word in name:gmatch "[^.]+" do
    if type(here) ~= "table" then return nil end
    local direct = rawget(here, word)
    if direct == nil then direct = here[tonumber(word)] end
    here = direct
  end
  return here
end

return numbers
