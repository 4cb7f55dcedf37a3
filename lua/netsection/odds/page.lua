-- SPDX-License-Identifier: MIT
-- Half a page for a report: how sure the verdict is, headed as what it is not used for.
local wording = require "netsection.odds.wording"
local text = require "netsection.text"
local units = require "netsection.units"

local page = {}

local NOT_USED = " (not used for the verdict)"

-- Inputs whose reach is told.
local BARS = 3

local function ratio_of(p)
  return p.ratio and units.fixed(p.ratio, 2) or "none"
end

-- "grade: 0.80, 0.89, 1.52 (decide at 95 %)"
local function bars(o)
  local list, rows = {}, o:tornado()
  for i, row in ipairs(rows) do
    if i > BARS then break end
    local turned = {}
    for _, p in ipairs {5, 50, 95} do
      if row.at[p].action ~= rows.base.action then
        turned[#turned + 1] = ("%s at its %d %%"):format(row.at[p].action, p)
      end
    end
    list[i] = ("%s: %s, %s, %s%s"):format(wording.label_of(o, row.name),
      ratio_of(row.at[5]),
      ratio_of(row.at[50]), ratio_of(row.at[95]), turned[1] and " ("
      .. table.concat(turned, ", ") .. ")" or "")
  end
  return list
end

local function of_joist(o, d)
  d:paragraph(wording.sentence(o))
  for _, limit in ipairs(o.at_limit or {}) do
    d:paragraph("At the limit: " .. limit .. ".")
  end
  local rows = {}
  for i, name in ipairs(wording.actions_in_order(o)) do
    rows[i] = {name .. (name == o.nominal.action and " (as printed)" or ""),
      wording.share(o.actions[name])}
  end
  rows[#rows + 1] = {"ratio over 1", wording.share(o.over)}
  if o.outside then rows[#rows + 1] = {"outside the rules", wording.share(o.outside)} end
  d:table {caption = "Share of draws, with its interval of 95 %",
    columns = {{head = ""}, {head = "share of draws"}}, rows = rows}
  d:paragraph "Ratio with one input at its 5, 50 and 95 %, the others at their medians:"
  d:list(bars(o))
  for _, note in ipairs(o.notes or {}) do d:paragraph(note) end
end

local function of_floor(all, d)
  local rows = {}
  for i, mark in ipairs(all.order) do
    local o = all.joists[mark]
    rows[i] = o and {text.plain(mark), ("%s, %s"):format(o.nominal.action,
      text.ratio(o.nominal.ratio)), wording.share(o.actions[o.nominal.action]),
      wording.share(o.over), table.concat(wording.turns_on(o), ", ")}
      or {text.plain(mark), "not drawn", all.reasons[mark]}
  end
  d:table {caption = "Share of draws, with its interval of 95 %", columns = {
    {head = "joist"}, {head = "printed"}, {head = "action as printed"},
    {head = "ratio over 1"}, {head = "turns on"}}, rows = rows}
end

--- Adds the half page to a document. @param o answer of ns.odds or of floor:odds
function page.add(o, d)
  local of = o.order and o.name or o.title
  d:heading(2, wording.title .. (of and ": " .. text.plain(of) or "") .. NOT_USED)
  if o.order then of_floor(o, d) else of_joist(o, d) end
  d:note(wording.is_not)
  return d
end

return page
