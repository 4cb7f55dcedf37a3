-- SPDX-License-Identifier: MIT
-- A review: uncut and cut states side by side, rule status apart from both, and the
-- action. All numbers come from the core; what is added here is words.
local cautions = require "netsection.cautions"
local checks = require "netsection.checks"
local core = require "netsection.core"
local diagram = require "netsection.diagram"
local formats = require "netsection.format"
local historic = require "netsection.historic"
local label = require "netsection.label"
local lane = require "netsection.lane"
local layout = require "netsection.layout"
local many = require "netsection.many"
local model = require "netsection.model"
local own_duration = require "netsection.own_duration"
local ordered = require "netsection.point".pairs
local packs = require "netsection.packs"
local ply = require "netsection.ply"
local point = require "netsection.point"
local profile = require "netsection.profile"
local quantity = require "netsection.quantity"
local relief = require "netsection.relief"
local roof_loads = require "netsection.roof_loads"
local basis = require "netsection.basis"
local batch = require "netsection.batch"
local by_depth = require "netsection.by_depth"
local units = require "netsection.units"
local error = require "netsection.raise".error
local plain = require "netsection.document.escape".text
local tostring = require "netsection.point".text

local review = {}
local methods = {}
local meta = {__index = methods, __name = "netsection.review"}

local ACTIONS = {"leave", "justify", "decide", "repair", "refer"}
local OPTIONS = {rules = true, standard = true, units = true, lang = true}
-- A joist at 1.0 exactly is not over; the last bits of a double are.
local FULL = 1 + 1e-9
review.full = FULL
review.actions = ACTIONS

-- @return pack of rules, pack of standard; raises at the caller's line for unknown names
function review.packs_of(joist, options)
  for name in ordered(options) do
    if not OPTIONS[name] and name ~= "modes" and name ~= "continuous"
      and name ~= "by_depth" then
      error(("unknown option '%s' (takes rules, standard, units, lang)"):format(
        tostring(name)), 3)
    end
  end
  local rules, problem = packs.rules(options.rules or packs.usual_rules(options.standard),
    joist.model.bearing_on)
  if not rules then error(problem, 3) end
  local standard, why = packs.standard(options.standard or packs.default.standards)
  if not standard then error(why, 3) end
  return rules, packs.for_joist(standard, joist.model)
end

-- The spelling that a standard asks for, else the first of the rule packs that asks.
local function lang_of_packs(standard, options)
  if standard and standard.data.lang then return standard.data.lang end
  local rules = packs.rules(options.rules or packs.usual_rules(options.standard), "wood")
  for _, pack in ipairs(rules and rules.list or {}) do
    if pack.data.lang then return pack.data.lang end
  end
end

--- How a review is printed, units and spelling: by the options, else what the joist or
-- its floor says, else as the standard (or, of the spelling, the rules) would have it.
-- Raises at the caller's line for unknown ones.
-- @return {units =, lang = or nil}
function review.printed(description, options)
  local name, lang = options.units or description.units, options.lang or description.lang
  local standard = packs.standard(options.standard or packs.default.standards)
  name = name or standard and standard.data.units
  lang = lang or lang_of_packs(standard, options)
  local show, problem, field = quantity.system(name, lang)
  if not show then error(("review: %s: %s"):format(field or "units", problem), 3) end
  return {units = show.name, lang = lang}
end

--- Whether a joist is printed so.
function review.is_printed(joist, printed)
  local show = joist.model.show
  return show.name == printed.units and show.lang == printed.lang
end

-- What the core finds wrong with a model, or nil: {text =, cut =, field =, ...}.
function review.fault(m)
  return core.check(m, assert(packs.standard(packs.default.standards)).core)
end

-- What the formulas of a family take.
local ASKS = {
  nds = "name the standard that they belong to, such as \"en-1995-1-1\" or "
    .. "\"csa-o86-2019\"",
  ec5 = "give class = \"C24\" or another strength class",
  csa = "give species and grade with edition = \"csa-o86-2019\"",
}

-- Why a joist has no numbers under a standard, or nil.
function review.lacking(m, standard)
  if m.manufactured then
    return ("manufactured member (%s): not computed as sawn lumber"):format(m.member)
  elseif m.historic and standard and formats.factored(standard) then
    return ("working stresses of %s are allowable ones: not worked out under %s")
      :format(m.historic, standard.data.name)
  elseif m.missing then
    return ("%s not given, and no reference values: state an assumption")
      :format(m.missing)
  elseif standard and (m.family or "nds") ~= standard.data.family then
    return ("STANDARD-VALUES-MISMATCH: %s, under the formulas of %s: %s"):format(
      m.family == "ec5" and "characteristic values of class " .. m.class
      or m.family == "csa" and "specified strengths" or "reference design values",
      standard.data.name, ASKS[standard.data.family])
  elseif m.family == "csa" and m.temperature > 122 then
    return "wood over 50 C is not covered by its values"
  elseif standard and ply.cut(m) then
    return formats.refusal(standard, "a cut in one ply")
      or roof_loads.refusal(m, "a cut in one ply")
  elseif standard then
    return roof_loads.lacking(m, standard)
  end
end

---------------------------------------------------------------------------------- words

-- What a cut is called in text: "hole 1", numbered as it was entered.
local function name_of(m, i)
  return m.cuts[i].name
end

local LABEL = {
  hole = function(c, show) return show.section(c.diameter) .. " hole" end,
  slot = function(c, show) return ("slot %s x %s"):format(
    show.section_number(c.to - c.from), show.section(c.height)) end,
  notch = function(c, show) return ("%s notch %s x %s"):format(
    c.top_face and "top" or "bottom",
    show.section_number(c.depth + (c.overcut or 0)), show.section(c.to - c.from)) end,
  end_notch = function(c, show) return ("%s end notch %s x %s"):format(
    c.top_face and "top" or "bottom", show.section_number(c.depth + (c.overcut or 0)),
    show.section(c.length)) end,
  sever = function(c, show)
    if c.lost then
      return ("%s end lost to %s (%s)%s"):format(c.lost, show.section(c.seen), c.cause,
        c.extend > 0 and (", counted lost to %s"):format(show.section(c.to)) or "")
    end
    return c.kerf and "cut through by a saw kerf"
      or "cut through, " .. show.section(c.to - c.from) .. " gap"
  end,
  loss = function(c, show)
    local lost = {}
    for _, face in ipairs {"top", "bottom", "sides"} do
      if (c[face] or 0) > 0 then
        local depth = face == "sides" and c.ply_sides or c[face]
        lost[#lost + 1] = ("%s %s"):format(show.section(depth), face == "sides"
          and "each side" or face)
      end
    end
    return ("%s: %s%s%s"):format(c.cause == "other" and "loss" or c.cause,
      table.concat(lost, ", "), (c.allowance or 0) > 0 and ", allowance "
      .. show.section(c.allowance) or "", c.extend > 0 and (", %s added each way")
      :format(show.section(c.extend)) or "")
  end,
  split = function(c, show)
    return "split " .. show.section(c.at_depth) .. " below the top"
  end,
}

-- Plain words for a cut, without its place. @param show the system of units
function review.label(c, show)
  return LABEL[c.kind](c, show) .. (c.ply and (", ply %d"):format(c.ply) or "")
end

---------------------------------------------------------------------------------- rules

-- Hundredths, without zeros that say nothing.
local function trimmed(x)
  return (units.fixed(x, 2):gsub("0+$", ""):gsub("%.$", ""))
end

-- A length of a limit in the unit of its pack: 3-1/2 in, 65 mm.
local function in_unit(limit, x, show)
  return show.tape and limit.unit == "mm" and trimmed(x * 25.4) .. " mm"
    or show.section(x)
end

-- A limit that is not kept, in words: measured, limit, and how the limit is made.
local function breach_text(limit, item, show)
  if limit.measure == "thickness" then
    return "notched in the tension face of a member 4 in nominal or thicker"
  elseif limit.forbidden then
    return ("%s: %s"):format(limit.text, limit.says)
  elseif limit.measure == "reach" and limit.unit == "in" then
    return ("reaches %s from the bearing, past the outer third, L/3 = %s")
      :format(show.section(item.measured), show.section(item.limit))
  end
  local sum = limit.of_d or limit.of_L or limit.of_size
  return ("%s %s %s %s%s"):format(limit.text, in_unit(limit, item.measured, show),
    limit.at_least and "<" or ">", limit.says, not sum
      and (show.tape or limit.unit == "mm") and "" or " = "
      .. (limit.unit == "mm" and in_unit(limit, item.limit, show)
      or show.limit(item.limit)))
end

-- Each limit of the packs with what was measured; those that are not kept apart.
local function rule_items(s, m, rules)
  local items, breaches = {}, {}
  for i, item in ipairs(s.items) do
    local limit = rules.limits[item.rule]
    local entry = {
      cut = item.cut > 0 and item.cut or nil,
      support = item.support > 0 and item.support or nil,
      name = item.cut > 0 and name_of(m, item.cut) or "bearing " .. item.support,
      clause = limit.clause, measure = limit.measure, measured = item.measured,
      limit = item.limit, ok = item.ok == 1, says = limit.says,
      at_least = limit.at_least or false, text = limit.text, pack = limit.pack}
    items[i] = entry
    if not entry.ok then
      breaches[#breaches + 1] = {cut = entry.cut, support = entry.support,
        name = entry.name, clause = entry.clause, measured = entry.measured,
        limit = entry.limit, text = breach_text(limit, item, m.show),
        pack = limit.pack, confidence = limit.confidence, relieved = limit.relieved}
    end
  end
  return items, breaches
end

-- Breaches that the joist's depth makes good: what the core says then, the texts.
local function relieved(m, rules, standard, raw, s, breaches, condition)
  if condition == nil then return raw, s, {} end
  local depth, problem = by_depth.of(m, rules, breaches, s.cuts, condition)
  if not depth then error(problem, 4) end
  if depth.pack then raw, s = batch.review(m, depth.pack, standard) end
  return raw, s, depth.said, depth.pack ~= nil
end

-- "within", "outside" or "not covered"; a bearing that is too short is outside.
local function rule_status(s, breaches)
  if s.within == 0 then return "outside" end
  if s.within < 0 then return "not covered" end
  for _, breach in ipairs(breaches) do
    if breach.support then return "outside" end
  end
  return "within"
end

-- Whether a pack addresses all cuts of a joist.
local function covers_all(pack, m, s)
  local kinds = {}
  for _, kind in ipairs(pack.data.covers) do kinds[kind] = true end
  local deepest = (pack.data.covers_depth or math.huge)
    / (pack.data.unit == "mm" and 25.4 or 1)
  for i, cut in ipairs(m.cuts) do
    if not kinds[cut.kind] or m.d > deepest + 1e-6 or s.cuts[i].covered == 0 then
      return false
    end
  end
  return true
end

-- What each pack of a stack says; nil where there is one.
local function each_pack(rules, breaches, m, s)
  if #rules.list == 1 then return nil end
  local all = {}
  for i, pack in ipairs(rules.list) do
    local one = {pack = pack.name, title = pack.title, breaches = {}}
    for _, breach in ipairs(breaches) do
      if breach.pack == pack.name then table.insert(one.breaches, breach) end
    end
    one.status = #one.breaches > 0 and "outside"
      or covers_all(pack, m, s) and "within" or "not covered"
    all[i] = one
  end
  return all
end

------------------------------------------------------------------------------ assessments

-- "check bending of the sister: ratio 0.598".
local function check_text(k)
  return ("check %s%s%s: %s"):format(k.mode, k.member and k.member ~= "host"
    and " of the " .. k.member or "", k.name and " at " .. k.name or "",
    k.ratio and point.format("ratio %.3f", k.ratio) or "no ratio")
end

-- What stands behind a check is built when it is first asked for: its steps, the facts it
-- rests on, and the weakest of what is known of them.
local BEHIND = {
  steps = function(check, raw, words) return words:steps(raw, check.index, check) end,
  rests_on = function(check, _, words, m)
    return words:basis(check.mode, check.branch, check.combination,
      (check.member or "host") == "host" and m or nil)
  end,
  confidence = function(check) return basis.weakest(check.rests_on) end,
}
-- Metatable of a check: builds steps, facts and confidence when first read.
local function lazy(raw, words, m)
  return label.meta("check", check_text, function(check, field)
    local make = BEHIND[field]
    if not make then return nil end
    local made = make(check, raw, words, m)
    rawset(check, field, made)
    return made
  end)
end

-- Adds to a check of the core what the reader needs.
local PATTERN = core.fields().symbol.pattern.index

-- Which spans and overhangs bear live load, from a bit for each.
local function pattern_text(m, bits)
  if bits < 0 then return nil end
  bits = math.tointeger(bits)
  local list, all = {}, 0
  -- Counts a span or overhang that is there, and names it where live load is on it.
  local function part(on, there, text)
    if not there then return end
    all = all + 1
    if on then list[#list + 1] = text end
  end
  part(bits & 1 ~= 0, m.overhang_left > 0, "the left overhang")
  for i = 1, #m.span do part(bits & 1 << i ~= 0, true, "span " .. i) end
  part(bits & 1 << #m.span + 1 ~= 0, m.overhang_right > 0, "the right overhang")
  if #list == 0 then return "no live load" end
  if #list == all then return "live load everywhere" end
  return "live load on " .. table.concat(list, " and ") .. " only"
end

-- Adds to a check of the core its unit, clause, name of the combination and of the cut.
local function finish(k, m, standard, raw)
  k.unit = standard.words:unit(k.mode, k.branch)
  k.clause = standard.words:clause(k.mode)
  local c = roof_loads.numbered(standard, k.combination)
  local with_roof = k.combination > #standard.data.combinations and c
  k.combination = c.name
  if k.cut then k.name = name_of(m, k.cut) end
  local hogs = checks.row[k.mode].hogs -- branches from which it is about M < 0
  if hogs and k.branch >= hogs and k.branch <= 6 then
    k.pattern = pattern_text(m, core.record(raw, k.index, PATTERN))
  end
  k.printed = standard.words:printed(k.mode)
  local own = standard.words:loads(k.mode)
  if own then
    k.combination = own
  elseif k.mode == "deflection-live" then
    k.combination = with_roof and roof_loads.variable(c) or "L"
  elseif k.mode == "deflection-total" then
    k.combination = (m.Kcr == 1 and "D+" or point.format("%g D + ", m.Kcr))
      .. (with_roof and roof_loads.variable(c) or "L")
  elseif k.mode == "uplift" then
    k.ratio = nil
  elseif k.mode == "bearing" and k.branch == 2 then
    k.ratio, k.binding = nil, true
  end
end

-- The assessment of one state: its checks in words, reactions, ratio, status.
local function assessment(raw, m, standard, s, severed)
  if raw == many then return many.assessment(s, m, severed) end
  local a = {checks = s.checks, governing_check = s.governing, Cr = s.Cr,
    moment = s.moment, moment_at = s.moment_at, shear = s.shear,
    shear_at = s.shear_at, reactions = {}, reaction_range = s.reactions,
    deflection = {live = s.live, total = s.total}}
  local meta_of_steps = lazy(raw, standard.words, m)
  for _, k in ipairs(s.checks) do
    finish(k, m, standard, raw)
    -- of a repair's parts place and cut change to the joist's own frame later
    k.origin = {model = m, at = k.at, cut = k.cut}
    setmetatable(k, meta_of_steps)
  end
  for i, R in ipairs(s.reactions) do a.reactions[i] = R.most end
  a.ratio = s.ratio
  a.governing = a.governing_check and a.governing_check.mode
  a.status = s.not_permitted == 1 and "not permitted"
    or s.ratio > FULL and "overstressed" or "adequate"
  if severed then
    a.ratio, a.deflection, a.governing, a.governing_check = nil, nil, "sever", nil
    a.stopped = "cut through"
  end
  return setmetatable(a, label.state)
end

review.assessment = assessment

-- The core's review of a model under packs that packs_of gave.
function review.raw(m, rules, standard)
  if lane.of(m) then return many.raw(m, rules, standard) end
  return batch.review(m, rules, standard)
end

-- A check of a connection or a post by itself: {mode =, branch =, demand =, member =,
-- at =, name =, combination =, clause =, standard = of packs.standard (the one that
-- stands where none is named), symbols of the record ...}.
function review.joint(t)
  local raw, k = many.joint(t)
  local words = (t.standard or assert(packs.standard(packs.default.standards))).words
  k.unit = words:unit(k.mode, k.branch)
  k.clause = t.clause or words:clause(k.mode)
  k.member, k.name, k.at = t.member, t.name, t.at
  k.combination = t.combination or "D+L"
  return raw and setmetatable(k, lazy(raw, words)) or k
end

-------------------------------------------------------------------------------- reasons

-- Nothing where what is to be said is nil.
local function add(list, format, ...)
  if select("#", ...) > 0 and (...) == nil then return end
  list[#list + 1] = select("#", ...) > 0 and point.format(format, ...) or format
end

-- Two decimals; a ratio over 1 never shows as 1.00, nor one that passes as 1.01.
local function ratio_text(x)
  if lane.is(x) then return lane.mark end
  if x > FULL and x < 1.005 then return "1.01" end
  return x >= 1e6 and "no capacity" or units.fixed(x, 2)
end
review.ratio_text = ratio_text

-- "net-bending at hole 1 governs at 1.28".
local function worst_text(a)
  local k = a.governing_check
  if not k then return "no check" end
  local where = k.name and " at " .. k.name or ""
  return ("%s%s governs at %s%s"):format(k.printed or checks.row[k.mode].printed
    or k.mode, where, ratio_text(k.ratio),
    k.pattern and " (" .. k.pattern .. ")" or "")
end

-- Steps that only a connection has, with the clauses they stand on.
local function marked(k)
  local list, seen = {}, {}
  for _, step in ipairs(k.extra_steps or {}) do
    local clause = step.clause and step.clause:match "^(.-),? %(memory%)$"
    if clause and not seen[clause] then
      list[#list + 1], seen[clause] = clause, true
    end
  end
  return list
end

--- That the check which governs a state rests on memory, or nil.
function review.from_memory(a)
  local k = not a.many and a.governing_check
  if not k or not k.rests_on then return nil end
  local texts = basis.from_memory(k.rests_on)
  for _, clause in ipairs(marked(k)) do texts[#texts + 1] = clause end
  return basis.said(("%s%s"):format(k.printed or checks.row[k.mode].printed or k.mode,
    k.name and " at " .. k.name or ""), texts)
end

-- R of the end that is lost, by the joist as it was: most and dead, lb.
local function lost_reaction(r, m, cut)
  local range = r.uncut.reaction_range
  return range[cut.lost == "left" and 1 or #m.span + 1]
end

-- What a lost end leaves to be carried, and by which repairs.
local function lost_reason(r, m, cut, name)
  add(r.reasons, "%s: nothing is left at the %s bearing: R %s to be carried (%s "
    .. "%s dead); by an end sister in a hanger, a post near the end, a hanger on "
    .. "sound wood or a new seat", name, cut.lost,
    m.show.force(lost_reaction(r, m, cut).most, 0),
    m.show.force(lost_reaction(r, m, cut).dead, 0),
    r.factored and "without factors is" or "of it")
end

-- What has to cross the gap of a joist that is cut through: M and V with live load.
local function severed_reason(r, c, name, show)
  if r.plies then return end -- said with the plies that carry
  local V = show.range("force", c.V_least, c.V_most, 0)
  add(r.reasons, "%s: the whole joist would have to carry M %s and V %s "
    .. "over the gap%s", name, show.moment(math.max(c.M_most, -c.M_least), 0),
    V, r.factored and " (factored loads)" or "")
end

-- Checks of both chords that are not binding, since one side of the opening is adequate
-- by itself or the better of the two.
local function written_off(r)
  for _, k in ipairs(r.cut.checks) do
    if k.mode == "chord-alone" then
      local two, worst = 0, nil
      for _, o in ipairs(r.cut.checks) do
        if o.cut == k.cut and not o.binding and o.ratio > two then
          two, worst = o.ratio, o.mode
        end
      end
      add(r.reasons, "%s: %s chord overstressed with both chords acting (%s %s): written "
        .. "off, wood %s alone %s", k.name, k.branch < 3 and "lower" or "upper", worst,
        ratio_text(two), k.branch < 3 and "above" or "below", ratio_text(k.ratio))
    end
  end
end

-- What the standard says of each cut, and which cuts are checked as one.
local function cut_reasons(r, s, m, standard, rules)
  for i, c in ipairs(s.cuts) do
    local name = name_of(m, i)
    local lost = m.cuts[i].lost
    if lost then
      lost_reason(r, m, m.cuts[i], name)
    elseif m.cuts[i].kind == "sever" then
      severed_reason(r, c, name, m.show)
    end
    local gate = standard.data.gates[c.gate + 1]
    local unread = c.gate > 0 and basis.from_memory(standard.words:gate_basis(c.gate))
    if c.covered == 0 then
      add(r.reasons, "%s: not covered by %s (%s)", name, r.rules.pack,
        c.M_least < 0 and rules.data.not_covered_hogging or rules.data.not_covered)
    end
    if c.gate > 0 and not lost then
      local reason = r.joist.description.cuts[i].accept_outside_standard
      if m.cuts[i].ply then name = ("%s, ply %d"):format(name, m.cuts[i].ply) end
      if c.accepted == 1 then
        add(r.reasons, "%s: %s; accepted outside the standard: %s", name, gate, reason)
      elseif reason then
        add(r.reasons, "%s: %s; not to be accepted by a reason", name, gate)
      else
        add(r.reasons, "%s: %s", name, gate)
      end
      add(r.reasons, "%s", basis.said(name, unread))
    end
    if c.merged and c.merged ~= i then
      add(r.reasons, "%s: combined with %s; clear spacing half the smaller size or less",
        name, name_of(m, c.merged))
    elseif c.near then
      add(r.reasons, "%s: clear spacing to %s less than the smaller size; its edges are "
        .. "taken %s of the way to the box around both", name, name_of(m, c.near),
        units.fixed(c.weight, 2))
    end
  end
end

-- "left bearing", "bearing 2".
local function bearing_name(m, j)
  return j == 1 and "left bearing" or j == #m.span + 1 and "right bearing"
    or "bearing " .. j
end

-- Bearings with no sound seat, and what is left of the others.
local function seat_reasons(r, s, m)
  for j, left in ipairs(s.seat) do
    local name = bearing_name(m, j)
    if m.bearing[j] == 0 then
      add(r.reasons, "the joist hangs at the %s: no sound seat: shore now", name)
    elseif left == 0 then
      add(r.reasons, "no sound seat at the %s: shore now", name)
    elseif left < m.bearing[j] - 1e-9 then
      add(r.reasons, "%s: %s of %s left to bear on", name, m.show.section(left),
        m.show.section(m.bearing[j]))
    end
  end
end

-- Why the joist carries nothing by itself, or nil: cut through, nothing left, no seat.
local function out_of(s, m)
  for i, c in ipairs(s.cuts) do
    if c.gate == 6 then
      local lost = m.cuts[i].lost
      return lost and "no sound seat at the " .. lost .. " bearing"
        or m.cuts[i].kind == "sever" and "cut through"
        or name_of(m, i) .. ": nothing is left"
    end
  end
  for j, left in ipairs(s.seat) do
    if left == 0 then return "no sound seat at the " .. bearing_name(m, j) end
  end
  return nil
end

local UNREAD = {memory = "; from memory, to be confirmed before use",
  reading = "; our reading of the text"}

-- The reasons of the action, the worst first: seats, states, cuts, rules, memory.
local function reasons(r, s, m, standard, rules)
  seat_reasons(r, r.plies and r.plies.s or s, m)
  if r.uncut.status == "overstressed" then
    add(r.reasons, "undersized before any cut: %s", worst_text(r.uncut))
  end
  for _, breach in ipairs(r.rules.breaches) do
    add(r.reasons, "%s: %s (%s%s)", breach.name, breach.text, breach.clause,
      UNREAD[breach.confidence] or "")
  end
  cut_reasons(r, s, m, standard, rules)
  for _, said in ipairs(r.plies and r.plies.reasons or {}) do
    add(r.reasons, "%s", said)
  end
  written_off(r)
  if #m.cuts > 0 and r.cut.ratio then
    add(r.reasons, "%s: %s", r.cut.ratio > FULL and "overstressed as cut"
      or "calculates as cut", worst_text(r.cut))
  elseif #m.cuts == 0 then
    add(r.reasons, "no cuts; %s", worst_text(r.uncut))
  end
  if m.historic then
    add(r.reasons, "worked out with the working stresses of %s: %s", m.historic,
      historic.word)
  end
  add(r.reasons, "%s", review.from_memory(#m.cuts > 0 and r.cut or r.uncut))
  r.said_at = #r.reasons
  if r.uncut.Cr ~= r.cut.Cr and r.cut.ratio then
    local k = r.uncut.Cr / r.cut.Cr
    add(r.reasons, "a cut outside the rules gives up the repetitive factor: bending "
      .. "ratios are %s times what they were", units.fixed(k, 2))
  end
  local state = #m.cuts > 0 and r.cut or r.uncut
  for i, R in ipairs(state.reaction_range) do
    if R.dead < -1e-6 then
      add(r.reasons, "bearing lifts under dead load: hold it down or treat it as an "
        .. "overhang (bearing %d, hold-down force %s)", i, m.show.force(-R.least, 0))
    end
  end
  if s.missing == 1 then
    add(r.reasons, "Ft or Fc not given: the chords at an opening that needs them were "
      .. "not checked")
  end
end

------------------------------------------------------------------------------- cautions

-- Largest hole of any cause by grade in a nominal 12 in member (2-12 only): a hole that
-- is larger may take the piece out of its grade. Common practice, grading rules.
local GRADE_HOLE = {SS = 1.25, ["No.1"] = 1.5, ["No.2"] = 3, ["No.1/No.2"] = 3,
  ["No.3"] = 3.5}

-- Whether a point load stands within d of a cut.
local function near_point_load(m, c)
  for _, p in ipairs(m.points) do
    local half = (c.x2 - c.x1) / 2
    if math.abs(p.at - (c.x1 + c.x2) / 2) <= half + m.d then return true end
  end
end

-- Whether an opening lies within d of a bearing's face.
local function near_bearing(m, c)
  local x = 0
  for i = 1, #m.span + 1 do
    local half = m.bearing[i] / 2
    if c.x1 - (x + half) < m.d / 2 and (x - half) - c.x2 < m.d / 2 then return true end
    x = x + (m.span[i] or 0)
  end
end

local INCH = 1 + 1e-9

-- The net bending check of a cut, or nil.
local function net_bending_at(r, i)
  for _, k in ipairs(r.cut.checks) do
    if k.mode == "net-bending" and k.cut == i then return k end
  end
end

-- Largest moment of the joist, as cut, either sign.
local function largest_moment(r)
  return math.abs(r.cut.moment)
end

-- What tests and geometry say of an opening beside its ratio.
local function opening_cautions(r, m, i, c)
  local cut, name = m.cuts[i], name_of(m, i)
  local size = cut.diameter or cut.height
  local thin = math.min(c.y1, m.d - c.y2)
  if thin > 0 and thin <= INCH then
    add(r.cautions, "%s: %s of wood beside it: the grade of the edge may be lost", name,
      m.show.section(thin))
  end
  if size >= m.d / 3 - 1e-6 then
    add(r.cautions, "%s: d/3 or more; in tests of glulam with round holes net shear "
      .. "area was 10 to 16 %% too high at 0.40 d, and first cracks opened at 0.5 to 0.8 "
      .. "of the largest load", name)
  end
  local M = math.max(c.M_most, -c.M_least)
  local k = net_bending_at(r, c.merged or i)
  if cut.kind == "hole" and size >= 1 - 1e-9 and c.middle_third and k
    and M > 0.9 * largest_moment(r) then
    add(r.cautions, "%s: %s or more, in the middle third, near the largest moment: "
      .. "published tests lost more than the net section says, about %s there (net "
      .. "bending %s/0.8); for information", name, m.show.about(1),
      ratio_text(k.ratio / 0.8),
      ratio_text(k.ratio))
  end
end

-- Cautions of an opening: bearing near, tests, strength near the middle, lips.
local function hole_cautions(r, m, i, c)
  local cut, name = m.cuts[i], name_of(m, i)
  local grade = m.wood and m.wood:match "(%S+)$"
  if near_bearing(m, c) then
    add(r.cautions, "%s: its edge is nearer than d/2 to a bearing", name)
  end
  if cut.kind == "hole" and m.d == 11.25 and GRADE_HOLE[grade]
    and cut.diameter > GRADE_HOLE[grade] then
    add(r.cautions, "%s: larger than the %s that the grading rule allows any hole in "
      .. "%s: the grade may be lost", name, m.show.section(GRADE_HOLE[grade]), grade)
  end
  if c.lip_force > 0 and c.within == 0 and (not c.merged or c.merged == i) then
    add(r.cautions, "%s: force in the wood above and below it by the two-chord model, "
      .. "N = M/z, %s", name, m.show.force(c.lip_force, 0))
  end
  opening_cautions(r, m, i, c)
end

-- Point loads over an opening, together, and the wood above it that they stand on.
local function load_over(m, cut, c)
  if cut.kind ~= "hole" and cut.kind ~= "slot" then return nil end
  local P = 0
  for _, p in ipairs(m.points) do
    if p.at > c.own_x1 and p.at < c.own_x2 then P = P + p.P end
  end
  local h = m.d - c.own_y2
  return P > 0 and h > 0 and P or nil, h
end

-- The wood over an opening bends between its sides: M = P D/4 for a load at its middle,
-- the most for any place, ends free to turn; statics, for information.
local function short_beam(r, m, i, c, P, h)
  local D = c.own_x2 - c.own_x1
  local M = P * D / 4
  local f = M / (m.b * m.plies * h ^ 2 / 6)
  local k = net_bending_at(r, c.merged or i)
  local part = k and k.capacity > 0
    and (", %s of F_b'"):format(ratio_text(f / k.capacity)) or ""
  add(r.cautions, "%s: %s stands over it: local moment P D/4 = %s in the %s of "
    .. "wood above, %s%s; for information", name_of(m, i), m.show.force(P, 0),
    m.show.section_moment(M, 0), m.show.section(h), m.show.stress(f, 0), part)
end

-- Cautions of each cut by its kind, once each.
local function cut_cautions(r, s, m)
  for i, c in ipairs(s.cuts) do
    local cut, name = m.cuts[i], name_of(m, i)
    if cut.kind == "hole" or cut.kind == "slot" then hole_cautions(r, m, i, c) end
    if near_point_load(m, c) then
      add(r.cautions, "%s: a point load stands within its half length plus d; check the "
        .. "wood above it as a short beam", name)
    end
    local P, h = load_over(m, cut, c)
    if P then short_beam(r, m, i, c, P, h) end
    local notch = cut.kind == "notch" or cut.kind == "end_notch"
    if notch and not m.family then -- other families count it
      add(r.cautions, "%s: the figure leaves out that a square corner splits", name)
    end
    if cut.kind == "sever" or cut.kind == "split" then r.open = true end
    if cut.cause == "rot" then r.water = true end
    if cut.cause == "char" and (cut.allowance or 0) == 0 then
      add(r.cautions, "%s: no allowance for heated wood under the char; compare with "
        .. "allowance = %s", name, m.show.tape and "0.25"
        or ('"%s"'):format(m.show.section(0.25)))
    end
  end
  for i, c in ipairs(s.cuts) do
    if c.tau_below > 0 or c.tau_above > 0 then
      add(r.cautions, "%s: how far a chord beside it counts as a tie or strut (tau %s) "
        .. "is a judgment of ours, supported by no test", name_of(m, i),
        units.fixed(math.max(c.tau_below, c.tau_above), 2))
    end
  end
end

-- Whether a cut is a notch in an edge, at an end or away from it.
local function notched(cut)
  return cut.kind == "notch" or cut.kind == "end_notch"
end

-- Where a notch was cut, from the left bearing.
local function extent_of(m, i)
  local cut, L = m.cuts[i], model.total(m)
  if cut.kind == "end_notch" then
    local first, last = -m.bearing[1] / 2, L + m.bearing[#m.bearing] / 2
    return cut.right_end and {x1 = last - cut.length, x2 = last}
      or {x1 = first, x2 = first + cut.length}
  elseif cut.from_right then
    return {x1 = L - cut.to, x2 = L - cut.from}
  end
  return {x1 = cut.from, x2 = cut.to}
end

-- Two notches at one place in opposite faces, or near each other in one.
local function notch_pair(r, m, a, b, one, two)
  local p, q = m.cuts[a], m.cuts[b]
  local gap = math.max(two.x1 - one.x2, one.x1 - two.x2)
  local names = ("%s and %s"):format(name_of(m, a), name_of(m, b))
  local deep = p.depth + (p.overcut or 0)
  local other = q.depth + (q.overcut or 0)
  if p.top_face ~= q.top_face and gap < m.d then
    add(r.cautions, "%s are opposite each other: together they leave %s of %s", names,
      m.show.section(math.max(m.d - deep - other, 0)), m.show.section(m.d))
  elseif p.top_face == q.top_face and gap < m.d then
    add(r.cautions, "%s are in a row, %s apart: together they leave %s of %s over %s",
      names, m.show.section(math.max(gap, 0)),
      m.show.section(m.d - math.max(deep, other)), m.show.section(m.d),
      m.show.section(math.max(one.x2, two.x2) - math.min(one.x1, two.x1)))
  end
end

-- Notches opposite one another or in a row: what they leave together.
local function notch_cautions(r, m)
  for a = 1, #m.cuts do
    for b = a + 1, #m.cuts do
      if notched(m.cuts[a]) and notched(m.cuts[b]) then
        notch_pair(r, m, a, b, extent_of(m, a), extent_of(m, b))
      end
    end
  end
end

-- What a loss over a bearing asks for where the seat is kept.
local function seat_cautions(r, m)
  local supports = model.supports(m)
  for i, cut in ipairs(m.cuts) do
    local L = supports[#supports]
    local x1, x2 = cut.from, cut.to
    if cut.kind == "loss" and cut.from_right then x1, x2 = L - cut.to, L - cut.from end
    for j, x in ipairs(supports) do
      local half = m.bearing[j] / 2
      if cut.kind == "loss" and (cut.bottom or 0) > 0 and x1 < x + half
        and x2 > x - half then
        local name, at = name_of(m, i), bearing_name(m, j)
        if cut.packed == 1 then
          add(r.cautions, "%s: counted as cut to sound wood and packed to the plate over "
            .. "the %s: see that it is", name, at)
        elseif cut.cause == "char" and cut.seat == 0 then
          add(r.cautions, "%s: char is not counted on the covered wood over the %s; "
            .. "look, and set seat = true if it is there", name, at)
        elseif cut.bottom <= cut.seat_tolerance + 1e-9 then
          add(r.cautions, "%s: no deeper than %s over the %s: clean to sound wood and "
            .. "pack the seat", name, m.show.section(cut.seat_tolerance), at)
        end
      end
    end
  end
end

-- Cautions of the joist as a whole: seats, notches, wet wood, negative moment.
local function general_cautions(r, s, m, standard)
  notch_cautions(r, m)
  seat_cautions(r, m)
  if s.no_seat == 1 then
    r.open = true
  end
  for _, k in ipairs(r.cut.checks) do
    if k.mode == "uplift" then
      add(r.cautions, "bearing %d lifts under some loads: hold it down for %s",
        k.support, m.show.force(k.demand, 0))
    elseif k.mode == "stability" and k.ratio > FULL then
      add(r.cautions, "depth to thickness %s: %s asks for more bracing than "
        .. "stated", units.fixed(k.demand, 1),
        standard.data.clauses.bracing)
    end
  end
  if (m.Fc_perp or 0) <= 0 then
    add(r.cautions, "bearing not checked: Fc_perp not given")
  end
  if s.missing == 1 then add(r.cautions, "chords not checked: Ft or Fc not given") end
  if m.plies > 1 and not m.fastened then add(r.cautions, "%s", ply.said(m)) end
  if r.open then add(r.cautions, cautions.open) end
  if r.water then add(r.cautions, cautions.water) end
  add(r.cautions, cautions.always[1])
end

---------------------------------------------------------------------------- assumptions

-- The combinations a joist is checked under, with their load duration.
local function combinations(m, standard)
  local names = {}
  for _, c in ipairs(roof_loads.combinations(m, standard)) do
    if c.checks ~= "deflection" then
      names[#names + 1] = c.CD and not c.named and point.format("%s (%s %g)", c.name,
        standard.data.duration, c.CD) or c.name
    end
  end
  return table.concat(names, ", ")
end

-- Which variable loads a deflection holds: "L", "S, 0.75L+0.75S and L".
local function sagging(m, standard)
  local names, seen = {}, {}
  for i, c in ipairs(roof_loads.combinations(m, standard)) do
    local of = i > #standard.data.combinations and c.checks ~= "strength"
      and roof_loads.variable(c)
    if of and of ~= "L" and not seen[of] then seen[of], names[#names + 1] = true, of end
  end
  return #names > 0 and ", L the worst of L, " .. table.concat(names, ", ") or ""
end

-- What is assumed of roof live load, snow and loads of their own duration.
local function roof_said(list, m, standard)
  if own_duration.key(m) then
    add(list, "Loads of their own CD: each combination with all live loads that last as "
      .. "long or longer has the CD of the shortest (%s, %s).",
      standard.data.own_duration.source, standard.data.own_duration.confidence)
  end
  if not roof_loads.roof(m) then return end
  add(list, "Roof live load and snow as given, on the roof and not on the ground, with "
    .. "no drift and no reduction of their own.")
  add(list, "Each piece of them may be absent, as of live load: for snow more than the "
    .. "half loads on other spans that building codes ask for.")
  local sources, memory = {}, {}
  for _, c in ipairs(roof_loads.combinations(m, standard)) do
    if (c.S or c.Lr) and c.confidence == "memory" and not sources[c.source] then
      sources[c.source], memory[#memory + 1] = true, c.source
    end
  end
  if #memory > 0 then
    add(list, "Combinations with them are from memory: %s.", table.concat(memory, ", "))
  end
end

local DURATIONS = {"permanent", "long-term", "medium-term", "short-term",
  "instantaneous"}

-- What a joist of a strength class is taken to be in.
local function conditions_assumed(list, m, standard)
  local k_mod = standard.data.factors.k_mod.values[m.service]
  add(list, "Service class %d; imposed load %s: k_mod %g, of permanent load alone %g.",
    m.service, DURATIONS[m.duration], k_mod[m.duration], k_mod[1])
end

-- What the numbers rest on, in the order of a calculation: wood, loads, factors.
local function assumptions(m, standard)
  local list = {}
  add(list, "Design values: %s.", m.source)
  if m.class then
    conditions_assumed(list, m, standard)
  else
    add(list, "Moisture in service %s; temperature %s.", m.moisture == "wet"
      and "over 19 % (wet)" or "19 % or less (dry)", m.show.temperature(m.temperature))
  end
  add(list, "Loads as given; the dead load holds the joist's own weight.")
  add(list, "Each piece of live load may be absent (patch live load) at every cut.")
  add(list, "%s, combinations %s.", standard.data.title, combinations(m, standard))
  if not m.class then
    add(list, "Deflection: total = %s%s, no shear term.", m.Kcr == 1 and "D + L"
      or point.format("%g D + L", m.Kcr), sagging(m, standard))
  end
  roof_said(list, m, standard)
  if m.sheathed == 1 then
    add(list, "A deck holds the top edge; the ends are held upright.")
  end
  if m.members >= 3 and m.repetitive == 0 then
    add(list, "One of three or more joists under the deck (%s by rule).", m.class
      and "k_sys at 610 mm or less, our reading," or m.family == "csa"
      and "K_H at 610 mm or less" or "repetitive factor")
  end
  for _, note in ipairs(m.notes) do
    add(list, "%s.", (model.said(note, standard):gsub("%.$", "")))
  end
  return list
end

-- Where a pack stands: whose it is, how far its numbers were confirmed, its own notes.
local function packs_assumed(list, packs_used, what)
  for _, pack in ipairs(packs_used) do
    if pack.own then
      add(list, "%s '%s' (%s) given by the user, fingerprint %s%s.", what, pack.name,
        pack.title, pack.fingerprint, pack.confidence and "; " .. pack.confidence or "")
    elseif pack.confidence and pack.confidence ~= "read" then
      add(list, "%s '%s': %s.", what, pack.name, pack.confidence)
    end
    for _, note in ipairs(pack.data.notes or {}) do
      add(list, "%s '%s': %s.", what, pack.name, note)
    end
  end
end

-- "L/360", or off.
local function limit_text(n)
  return n == 0 and "off" or point.format("L/%g", n)
end

-- Every switch that is not at its default.
local function switches(m)
  local list = {}
  -- Adds an option that is set to another value than its default.
  local function when(on, ...)
    if on then add(list, ...) end
  end
  when(m.repetitive > 0, "repetitive factor pinned at %g", m.repetitive)
  when(m.Kcr ~= 1, "creep factor %g", m.Kcr)
  when(m.inflection == 0, "where the moment turns is no brace (inflection none)")
  when(m.notch_raiser ~= 1, "stress at tension-face notches times %g", m.notch_raiser)
  when(m.moisture == "wet", "wet service")
  when(m.temperature > 100, "warm service, %s", m.show.temperature(m.temperature))
  when(m.sheathed == 0, "no deck on the joist")
  when(m.incised == 1, "incised wood")
  for i, cut in ipairs(m.cuts) do
    local name = name_of(m, i)
    when(cut.lost and cut.extend ~= (({rot = 12, insects = 12})[cut.cause] or 0),
      "%s: counted lost %s further in than seen", name,
      m.show.section(cut.extend or 0))
    when(cut.packed == 1, "%s: packed over the bearing", name)
    when(cut.kind == "loss" and cut.seat_tolerance ~= 0.25,
      "%s: seat kept up to a loss of %s", name, m.show.section(cut.seat_tolerance or 0))
    when(cut.kind == "loss" and cut.seat == 1, "%s: char counted on the seat", name)
    when(cut.kind == "end_notch" and cut.seat ~= 0, "%s: bears %s", name,
      cut.seat == 1 and "on the notch" or "beyond the notch")
  end
  if m.class then
    when(m.limit_live ~= 1, "limit of w_inst %s", limit_text(m.limit_live))
    when(m.limit_total ~= 1, "limit of w_fin %s", limit_text(m.limit_total))
    return list
  end
  when(m.limit_live ~= 360, "live deflection limit %s", limit_text(m.limit_live))
  when(m.limit_total ~= (m.family == "csa" and 0 or 240), "total deflection limit %s",
    limit_text(m.limit_total))
  return list
end

---------------------------------------------------------------------------- no numbers

-- A review without numbers: the reason, what the rules say of what can be said.
local function referred(r, m, rules, lacking)
  r.action = "refer"
  add(r.reasons, lacking)
  if m.manufactured then
    local text = rules.data.manufactured
    if #m.cuts > 0 and text then add(r.reasons, "%s: %s", text.clause, text.text) end
    add(r.cautions, cautions.always[4])
  end
  add(r.cautions, cautions.always[1])
  r.rules = setmetatable({status = "not covered", breaches = {}, items = {},
    pack = rules.data.name, title = rules.data.title}, label.rules)
  for _, state in ipairs {"uncut", "cut"} do
    r[state] = setmetatable({status = "not assessed", checks = {}, reactions = {}},
      label.state)
  end
  return setmetatable(r, meta)
end

------------------------------------------------------------------------------ the whole

-- Text that depends on the model alone is made once.
local function once(m, key, make, ...)
  m.texts = m.texts or {}
  if m.texts[key] == nil then m.texts[key] = make(m, ...) end
  return m.texts[key]
end

-- "2x10 at 16 in, span 13'-6\"".
local function describe(m)
  local kind = m.manufactured and " " .. m.member or ""
  local size = m.size or ("%s x %s"):format(m.show.section(m.b), m.show.section(m.d))
  local plies = m.plies > 1 and ("%d plies "):format(m.plies) or ""
  return ("%s%s%s%s at %s"):format(plies, size, kind, m.wood and " " .. m.wood or "",
    m.show.section(m.spacing))
end

-- What the core found at each cut, with its words; the label is made when asked for.
local function cut_list(s, m)
  for i, c in ipairs(s.cuts) do
    local cut = m.cuts[i]
    c.name, c.kind = name_of(m, i), cut.lost and "lost_bearing" or cut.kind
    c.merged = c.merged > 0 and c.merged or nil
    c.near = c.near > 0 and c.near or nil
    c.middle_third = c.middle_third == 1
    setmetatable(c, label.meta("cut", label.cut, function(_, field)
      return field == "label" and review.label(cut, m.show) or nil
    end))
  end
  return s.cuts
end

-- Whether every place where nothing is left is a lost end.
local function lost_alone(s, m)
  for i, c in ipairs(s.cuts) do
    if c.gate == 6 and not m.cuts[i].lost then return false end
  end
  return true
end

-- Divisors of the limits of deflection: the joist's own, or where it leaves that to the
-- standard (1) those there; 0: none.
local function limits_of(m, standard)
  local own = standard.limits or {}
  return {live = m.limit_live == 1 and own[1] or m.limit_live,
    total = m.limit_total == 1 and own[2] or m.limit_total}
end

-- @param joist a joist; @param options {rules =, standard =}
--- The model of a joist with all of the water and people of its tubs added to the
-- floor's live load; nil where that is what the description says.
function review.with_tubs_added(given)
  local changed, loads = false, {}
  for i, part in ipairs(given.loads or {}) do
    loads[i] = part
    if part.kind == "tub" and part.under ~= "add" then
      local added = {under = "add"}
      for name, value in pairs(part) do
        if name ~= "under" then added[name] = value end
      end
      loads[i], changed = added, true
    end
  end
  if not changed then return nil end
  local description = {}
  for name, value in pairs(given) do description[name] = value end
  description.loads = loads
  local m, found = model.of(description)
  return #found == 0 and m or nil
end

local UNDER_TUB = {add = "added to the floor's live load",
  larger = "live load under it the larger of that and the floor's",
  tub = "live load under it that alone, in the floor's place"}

-- Practice is not of one mind about the live load under a tub: what the other reading
-- gives is said, and where it alone is above 1 the engineer decides.
local function tub_said(r, joist, m, rules, standard)
  for i, tub in ipairs(m.tubs) do
    add(r.assumptions, "Tub %d: water and people %s of its footprint; %s.", i,
      m.show.area_load(tub.q, 1), UNDER_TUB[tub.under])
  end
  local other = #m.tubs > 0 and review.with_tubs_added(joist.description)
  if not other then return end
  local raw, s = batch.review(other, rules, standard)
  if not raw then return end
  local state = #m.cuts > 0 and "cut" or "uncut"
  local ratio = assessment(raw, other, standard, s[state], false).ratio
  local own = r[state].ratio
  if not ratio or not own then return end
  r.tub_added = ratio
  if ratio <= FULL or own > FULL then return end
  local alone = true
  for _, tub in ipairs(m.tubs) do alone = alone and tub.under == "tub" end
  local said = ("tub: %s with %s under it, %s with both added"):format(
    units.fixed(own, 3), alone and "its live load alone"
    or "the larger of its live load and the floor's", units.fixed(ratio, 3))
  add(r.assumptions, "%s.", (said:gsub("^t", "T")))
  if r.action == "leave" then
    r.action = "decide"
    r.reasons[#r.reasons + 1] = said
  end
end

-- A joist with a cut in one ply, put together of runs of its plies; nil for others.
local function plies_state(joist, m, s, rules, standard)
  if not ply.cut(m) then return nil end
  return ply.state {joist = joist, model = m, s = s, standard = standard.core,
    combinations = #standard.data.combinations, actions = ACTIONS, full = FULL,
    text = ratio_text, joint = review.joint,
    core = function(model_) return batch.review(model_, rules, standard) end,
    assessment = function(raw, model_, state, out)
      return assessment(raw, model_, standard, state, out)
    end}
end

-- Dead load that lowers what governs elsewhere is told with what is so without it.
local function relief_said(r, m, rules, standard)
  r.relief = {}
  if r.plies then return end -- the core's ratio is that of all plies cut
  local state = #m.cuts > 0 and "cut" or "uncut"
  local own = r[state].ratio
  r.relief = relief.of(m, own, function(other)
    local raw, s = batch.review(other, rules, standard)
    return raw and assessment(raw, other, standard, s[state], false).ratio
  end)
  for _, one in ipairs(r.relief) do add(r.cautions, "%s", relief.said(one, own)) end
end

-- Drawings and curves show one combination: that of the first check of the joist as it
-- was, bending, which asks most of the wood.
local function drawn_under(r, _, s, standard)
  local k = s.uncut.checks[1]
  r.drawn_under = roof_loads.numbered(standard, k.combination)
  r.packs.under = packs.under(standard, r.drawn_under)
end

--- The review of a joist. @return review, packs of rules and standard it was made with
function review.of(joist, options)
  local m = joist.model
  local rules, standard = review.packs_of(joist, options)
  local r = {joist = joist, mark = m.mark, title = once(m, "title", describe),
    show = m.show,
    reasons = {},
    cautions = {}, assumptions = {}, switches = {}, standard = standard.data.name,
    standard_title = standard.data.title, judgment = m.judgment, options = options}
  local lacking = review.lacking(m, standard)
  if lacking then return referred(r, m, rules, lacking) end
  if lane.of(m) then
    return setmetatable(many.review(r, m, rules, standard), meta), rules, standard
  end
  local raw, s = batch.review(m, rules, standard)
  local items, breaches = rule_items(s, m, rules)
  local depth, by
  raw, s, depth, by = relieved(m, rules, standard, raw, s, breaches, options.by_depth)
  r.computed, r.packs = true, {rules = rules.core, standard = standard.core,
    words = standard.words}
  r.factored, r.labels = formats.factored(standard) or nil, standard.data.labels
  r.limits = limits_of(m, standard)
  if roof_loads.any(m) then drawn_under(r, m, s, standard) end
  r.uncut = assessment(raw, m, standard, s.uncut, false)
  r.plies = plies_state(joist, m, s, rules, standard)
  if r.plies then s.seat, s.no_seat = r.plies.s.seat, r.plies.s.no_seat end
  local severed = false
  for _, c in ipairs(r.plies and r.plies.s.cuts or s.cuts) do
    severed = severed or c.gate == 6
  end
  r.out = out_of(r.plies and r.plies.s or s, r.plies and r.plies.model or m)
  r.cut = r.plies and r.plies.cut
    or assessment(raw, m, standard, s.cut, severed or s.no_seat == 1)
  if severed and lost_alone(s, m) then r.cut.stopped = "no sound seat" end
  if not severed and s.no_seat == 1 then
    r.cut.governing, r.cut.stopped = "bearing", "no sound seat"
  end
  r.seat = s.seat
  r.rules = setmetatable({items = items, breaches = by and {} or breaches,
    status = by and "within (by depth)" or rule_status(s, breaches),
    pack = rules.data.name, title = rules.data.title,
    all = each_pack(rules, breaches, m, s)}, label.rules)
  r.cuts = cut_list(s, m)
  for i, info in ipairs(r.cuts) do
    info.gate_says = standard.data.gates[info.gate + 1]
    info.status = info.gate > 0 and info.gate < 7 and info.accepted == 0
      and "not permitted" or nil
    info.rules = info.covered == 0 and "not covered" or info.within == 1 and "within"
      or "outside"
    info.note, info.ply = joist.description.cuts[i].note, m.cuts[i].ply
    if m.cuts[i].lost then info.carry = lost_reaction(r, m, m.cuts[i]).most end
  end
  r.action = r.plies and r.plies.action or ACTIONS[s.action + 1]
  reasons(r, s, m, standard, rules)
  for _, text in ipairs(depth) do add(r.reasons, "%s", text) end
  cut_cautions(r, s, m)
  general_cautions(r, s, m, standard)
  local assumed = once(m, standard.spec, assumptions, standard)
  r.assumptions = {table.unpack(assumed)}
  packs_assumed(r.assumptions, rules.list, "Rules")
  packs_assumed(r.assumptions, {standard.spec}, "Standard")
  for _, said in ipairs(joist.survey and joist.survey.assumed or {}) do
    add(r.assumptions, "Survey: %s.", said)
  end
  for _, said in ipairs(r.plies and r.plies.notes or {}) do
    add(r.assumptions, "%s.", said)
  end
  if m.fastened then add(r.assumptions, "%s.", ply.said(m)) end
  tub_said(r, joist, m, rules, standard)
  relief_said(r, m, rules, standard)
  r.switches = {table.unpack(once(m, "switches", switches))}
  r.open, r.water = nil, nil
  return setmetatable(r, meta), rules, standard
end

local STATES = {uncut = true, cut = true, fixed = true}
local MODES = {}
for _, word in ipairs(core.modes) do MODES[word] = true end

-- Modes that only a joist of Lua's own has, such as a header, stand in the checks.
local function is_mode(r, mode)
  if MODES[mode] then return true end
  for state in pairs(STATES) do
    for _, k in ipairs(r[state] and r[state].checks or {}) do
      if k.mode == mode then return true end
    end
  end
  return false
end

-- Finds a check: r:find("cut", "net-bending", 1) is that of cut 1. nil where the review
-- has none; raises for a state or a mode that is no word of any review.
function methods:find(state, mode, cut)
  if not STATES[state] then
    error(('find: state "uncut", "cut" or "fixed" expected, got %s'):format(
      type(state) == "string" and "'" .. state .. "'" or type(state)), 2)
  elseif type(mode) ~= "string" or not is_mode(self, mode) then
    error(("find: a mode such as \"bending\" or \"net-bending\" expected, got %s"):format(
      type(mode) == "string" and "'" .. mode .. "'" or type(mode)), 2)
  elseif cut ~= nil and math.type(cut) ~= "integer" then
    error("find: cut: the number of a cut expected, got " .. type(cut), 2)
  end
  for _, k in ipairs(self[state] and self[state].checks or {}) do
    if k.mode == mode and (cut == nil or k.cut == cut) then return k end
  end
end

-- What a drawing needs: places with V, M and capacities (in, lb), supports, cuts, what
-- governs (see diagram.lua). nil and a reason where there are no numbers.
function methods:diagram()
  if not self.computed then return nil, self.reasons[1] end
  return diagram.of(self)
end

-- What an elevation needs (see layout.lua): cuts, bearings, the repair and its fasteners.
function methods:layout()
  return layout.of(self)
end

-- What a section needs (see profile.lua). @param x inches, by default at what governs
function methods:profile(x)
  if x ~= nil and not (type(x) == "number" and math.abs(x) < math.huge) then
    error("profile: x: a finite number of inches expected, got " .. type(x), 2)
  end
  if self.joist.model.manufactured then return nil, self.reasons[1] end
  return profile.of(self, x)
end

-- "review of joist J3: repair".
function meta.__tostring(self)
  return ("review of joist %s: %s"):format(plain(self.mark), self.action)
end

--- Says of the repaired state what it rests on, behind what is said of the joist as cut.
function review.fixed_said(r)
  if r.many then return end
  local said = r.fixed and review.from_memory(r.fixed)
  if said then table.insert(r.reasons, r.said_at + 1, "as repaired, " .. said) end
end

--- Whether a value is the review of a joist.
function review.is(value)
  return getmetatable(value) == meta
end

return review
