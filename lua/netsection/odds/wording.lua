-- SPDX-License-Identifier: MIT
-- Words for how sure a verdict is. No number stands without its interval, none has more
-- digits than the interval bears, and what the numbers are not is said beside them.
local point = require "netsection.point"
local text = require "netsection.text"
local units = require "netsection.units"

local wording = {}

wording.title = "How sure is the verdict"

-- An input that shares in the change of the action by this much of the first is named.
local SHARES = 0.5
-- Total index of the action below which an input is not named.
local MATTERS = 0.05

wording.is_not = "This is not the chance that the floor fails and not a reliability "
  .. "index: the distributions are assumptions, code values already hold a margin, the "
  .. "lower tail of strength is not known for this floor, sharing, duration, decay and "
  .. "gross errors (a second hidden cut) are not in it."

-- 65536 -> "65,536"
local function grouped(n)
  local s = ("%d"):format(n)
  local first = (#s - 1) % 3 + 1
  return s:sub(1, first) .. s:sub(first + 1):gsub("(%d%d%d)", ",%1")
end
wording.grouped = grouped

-- Decimals that an interval bears: those whose last is not larger than its width.
local function decimals(width, most)
  local n, unit = 0, 1
  while n < most and unit > width do
    n, unit = n + 1, unit / 10
  end
  return n
end

-- A share in percent with its interval: "84.5 % (84.5-84.6)".
-- @param short true: "all", "none" where there is little room
function wording.share(s, short)
  if s.hits == 0 then
    return ("%s (below %s %%)"):format(short and "none" or "no draw",
      units.significant(100 * s.high, 2))
  elseif s.hits == s.draws then
    return ("all%s (above %s %%)"):format(short and "" or " draws",
      units.fixed(100 * s.low,
      decimals(100 * (1 - s.low), 6) + 1))
  end
  local n = decimals(100 * (s.high - s.low), 4)
  return ("%s %% (%s-%s)"):format(units.fixed(100 * s.value, n),
    units.fixed(100 * s.low, n), units.fixed(100 * s.high, n))
end

-- A number with its interval: "0.888 (0.887-0.889)".
function wording.number(q)
  if not q then return "none" end
  local n = math.max(2, decimals(q.high - q.low, 4))
  return ("%s (%s-%s)"):format(units.fixed(q.value, n), units.fixed(q.low, n),
    units.fixed(q.high, n))
end

-- What an input is called.
function wording.label_of(o, name)
  for _, input in ipairs(o.inputs) do
    if input.name == name then return input.label end
  end
  return name
end

-- The inputs that the action turns on: the first, and others that come near it.
local function causes(o)
  local names = {}
  for i, turn in ipairs(o.turns_on) do
    if i > 3 or turn.total < SHARES * o.turns_on[1].total then break end
    names[i] = "the " .. wording.label_of(o, turn.name)
  end
  return names
end

-- What the action turns on, in words: the first few that matter.
function wording.turns_on(o)
  local names = {}
  for i, turn in ipairs(o.turns_on) do
    if i > 3 or turn.total < MATTERS then break end
    names[i] = wording.label_of(o, turn.name)
  end
  return names
end

-- @return the sentence that stands first
function wording.sentence(o)
  local kept = o.actions[o.nominal.action]
  local because = causes(o)
  local says = "In %s draws of the uncertainties listed, the action was the printed one "
    .. "in %s%s."
  local cause = kept.hits < kept.draws and #because > 0
    and ", because of " .. table.concat(because, " and ") or ""
  return point.format(says, grouped(o.draws), wording.share(kept), cause)
end

-- Names of actions, the most frequent first.
function wording.actions_in_order(o)
  local names = {}
  for name in pairs(o.actions) do names[#names + 1] = name end
  table.sort(names, function(a, b)
    local x, y = o.actions[a], o.actions[b]
    if x.hits ~= y.hits then return x.hits > y.hits end
    return point.less(a, b)
  end)
  return names
end

local function actions(o, out)
  local names, width = wording.actions_in_order(o), 0
  for _, name in ipairs(names) do width = math.max(width, utf8.len(name) or #name) end
  for _, name in ipairs(names) do
    out[#out + 1] = ("    %s  %s%s"):format(text.pad(name, width),
      wording.share(o.actions[name]), name == o.nominal.action and "   as printed" or "")
  end
end

local function ratio_of(p)
  return p.ratio and units.fixed(p.ratio, 3) or "none"
end

-- One line an input: what the ratio is at its 5, 50 and 95 %.
function wording.tornado(o)
  local out, rows = {}, o:tornado()
  local width = 5
  for _, row in ipairs(rows) do
    width = math.max(width, utf8.len(wording.label_of(o, row.name)) or 0)
  end
  out[1] = ("    %s  %8s %8s %8s"):format(text.pad("input", width), "at 5 %", "at 50 %",
    "at 95 %")
  for _, row in ipairs(rows) do
    local turned = {}
    for _, p in ipairs {5, 50, 95} do
      local a = row.at[p].action
      if a ~= rows.base.action then turned[#turned + 1] = ("%s at %d %%"):format(a, p) end
    end
    out[#out + 1] = ("    %s  %8s %8s %8s%s"):format(
      text.pad(wording.label_of(o, row.name), width), ratio_of(row.at[5]),
      ratio_of(row.at[50]), ratio_of(row.at[95]),
      #turned > 0 and "   " .. table.concat(turned, ", ") or "")
  end
  return out
end

local function parts_of_spread(o, out)
  if o.no_index then
    out[#out + 1] = "  Where the spread comes from: not worked out, " .. o.no_index
    return
  elseif next(o.first) == nil then
    return
  end
  out[#out + 1] = "  Where the spread of the ratio comes from (alone; with all it acts "
    .. "through)"
  for _, group in ipairs(o.groups) do
    local first, total = o.first[group], o.total[group]
    if first and total.value > 0 then
      out[#out + 1] = ("    %s: %s; %s"):format(wording.label_of(o, group),
        wording.number(first), wording.number(total))
    end
  end
end

-- Never a number by itself: side by side, for three spreads of strength.
local function wood(o, out)
  if not o.wood then return end
  out[#out + 1] = text.wrap("The wood itself, for comparison only: share of draws in "
    .. "which the drawn bending stress exceeds the drawn strength. Neither share means "
    .. "anything alone.", "  ")
  for _, row in ipairs(o.wood) do
    local parts = {}
    for _, state in ipairs {"uncut", "cut", "fixed"} do
      if row[state] then
        parts[#parts + 1] = ("%s %s"):format(state == "fixed" and "repaired" or state,
          wording.share(row[state]))
      end
    end
    if row.cut and row.uncut.hits > 0 then
      parts[#parts + 1] = ("cut to uncut %s"):format(units.significant(
        row.cut.value / row.uncut.value, 2))
    end
    out[#out + 1] = text.wrap(("COV of strength %s: %s"):format(units.fixed(row.cov, 2),
      table.concat(parts, "; ")), "    ", "      ")
  end
  local law = o.scatter
  out[#out + 1] = text.wrap(("Live load: Gumbel, mean %s of what is entered, COV %s "
    .. "(%s). Strength over F'b (CD 1, Cr 1): lognormal, 5th percentile %s, over %s for "
    .. "duration; %s."):format(units.fixed(law.live.mean, 2),
    units.fixed(law.live.cov, 2), law.live.source,
    law.strength.says or text.short(law.strength.fifth),
    text.short(law.strength.duration), law.strength.source), "    ", "      ")
end

local function heading(o)
  return o.title and wording.title .. ": " .. text.plain(o.title) or wording.title
end

-- The whole answer in lines.
function wording.text(o)
  local out = {heading(o)}
  local function add(s) out[#out + 1] = s end
  add(("  Printed: %s, ratio %s"):format(o.nominal.action, text.ratio(o.nominal.ratio)))
  add(text.wrap(wording.sentence(o), "  "))
  for _, limit in ipairs(o.at_limit or {}) do
    add(text.wrap("At the limit: " .. limit, "  ", "    "))
  end
  add(text.wrap(wording.is_not, "  "))
  add("  Action")
  actions(o, out)
  add("  Ratio over 1: " .. wording.share(o.over))
  if o.outside then add("  Outside the rules: " .. wording.share(o.outside)) end
  for _, p in ipairs {5, 50, 95} do
    add(("  Ratio that %d %% of the draws stay under: %s"):format(p,
      wording.number(o.quantiles[p])))
  end
  local turns = wording.turns_on(o)
  if turns[1] then add("  Turns on: " .. table.concat(turns, ", ")) end
  add("  Ratio with one input moved, the others at their medians")
  for _, line in ipairs(wording.tornado(o)) do add(line) end
  parts_of_spread(o, out)
  add("  Uncertainties listed")
  for _, input in ipairs(o.inputs) do
    add(text.wrap(("%s: %s%s"):format(input.label, input.says, input.source
      and " (" .. input.source .. ")" or ""), "    ", "      "))
  end
  wood(o, out)
  for _, note in ipairs(o.notes or {}) do add(text.wrap(note, "  ", "    ")) end
  add(("  Sample: %s, %s of %s draws, seed %d"):format(o.method == "lhs"
    and "Latin hypercube" or o.method == "sobol" and "scrambled Sobol" or "plain",
    o.replicates == 1 and "1 replicate" or o.replicates .. " replicates",
    grouped(o.each), o.seed))
  return table.concat(out, "\n")
end

-- A line a joist of a floor.
function wording.floor(all)
  local out = {("%s: %s"):format(wording.title, text.plain(all.name)), "  " .. text.pad(
    "joist", 7) .. text.pad("printed", 15) .. text.pad("action as printed", 24)
    .. text.pad("ratio over 1", 24) .. "turns on"}
  for _, mark in ipairs(all.order) do
    local o = all.joists[mark]
    if o then
      out[#out + 1] = "  " .. text.pad(text.plain(mark), 7) .. text.pad(
        ("%s %s"):format(o.nominal.action, text.ratio(o.nominal.ratio)), 15)
        .. text.pad(wording.share(o.actions[o.nominal.action], true), 24)
        .. text.pad(wording.share(o.over, true), 24) .. (wording.turns_on(o)[1] or "-")
      for _, limit in ipairs(o.at_limit) do
        out[#out + 1] = text.wrap("at the limit: " .. limit, "         ", "           ")
      end
    else
      out[#out + 1] = text.wrap("not drawn: " .. all.reasons[mark],
        "  " .. text.pad(text.plain(mark), 7), "         ")
    end
  end
  out[#out + 1] = text.wrap(wording.is_not, "  ")
  return table.concat(out, "\n")
end

return wording
