-- SPDX-License-Identifier: MIT
-- The joists of a floor as a table for a terminal, 79 columns wide: mark, action, the
-- reason, then the ratios. A long reason goes on below itself, and a long mark stands on
-- a line of its own, so that no column is shifted.
local reason = require "netsection.reason"
local text = require "netsection.text"
local verdict = require "netsection.verdict"

local overview = {}

local WIDTH = 79
local pad, plain, ratio = text.pad, text.plain, text.ratio
local MARK, ACTION, RATIO, UNTIL, FIXED = 6, 8, 6, 7, 8     -- columns
local LONGEST = 10                                          -- of a mark beside its row

local function length(said) return utf8.len(said) or #said end

-- Ratio of the repaired joist; a repair that does not serve has none.
local function fixed_ratio(r)
  return not r.fixed and "-" or r.fixed.refused and "refused" or ratio(r.fixed.ratio)
end

-- Lines of at most `width` characters, broken at blanks.
local function folded(said, width)
  local out, line = {}, ""
  for word in said:gmatch "%S+" do
    if line ~= "" and length(line) + 1 + length(word) > width then
      out[#out + 1], line = line, ""
    end
    line = line == "" and word or line .. " " .. word
  end
  out[#out + 1] = line
  return out
end

--- A text in lines of at most 79 characters, those after the first indented more.
function overview.wrapped(said, first, rest)
  local out = folded(said, WIDTH - math.max(#first, #rest))
  for i, line in ipairs(out) do out[i] = (i == 1 and first or rest) .. line end
  return out
end

-- Columns of a table: how wide marks and reasons are, which ratios there are.
local function shape(marks, with_fixed, with_until)
  local mark = MARK
  for _, m in ipairs(marks) do
    if length(m) <= LONGEST then mark = math.max(mark, length(m)) end
  end
  local ratios = 2 * (RATIO + 1) + (with_until and UNTIL + 1 or 0)
    + (with_fixed and FIXED + 1 or 0)
  return {mark = mark, reason = WIDTH - mark - ACTION - 2 - ratios,
    fixed = with_fixed, so = with_until}
end

local function row(s, mark, action, why, uncut, cut, so, fixed)
  return ("%s %s %s %s %s%s%s"):format(pad(mark, s.mark), pad(action, ACTION),
    pad(why, s.reason), pad(uncut, RATIO, true), pad(cut, RATIO, true),
    s.so and " " .. pad(so, UNTIL, true) or "", s.fixed and " "
    .. pad(fixed, FIXED, true) or ""):gsub(" +$", "")
end

-- Why, with what holds until a joist beside it is repaired.
local function why_of(r)
  local said, more = reason.of(r), verdict.more(r)
  return plain(more and said .. "; " .. more or said)
end

local function add(out, s, r, so)
  local mark, why = plain(r.mark), folded(why_of(r), s.reason)
  if length(mark) > s.mark then
    out[#out + 1] = mark
    mark = ""
  end
  out[#out + 1] = row(s, mark, r.action, why[1], ratio(r.uncut.ratio),
    ratio(r.cut.ratio), so or "", fixed_ratio(r))
  for i = 2, #why do
    out[#out + 1] = (" "):rep(s.mark + ACTION + 2) .. why[i]
  end
end

--- One joist in one line, however long: mark, action, ratios, the reason.
function overview.line(r, with_fixed)
  return ("%s %s %s %s%s  %s"):format(pad(plain(r.mark), MARK), pad(r.action, ACTION),
    pad(ratio(r.uncut.ratio), RATIO, true), pad(ratio(r.cut.ratio), RATIO, true),
    (with_fixed or r.fixed) and " " .. pad(fixed_ratio(r), FIXED, true) or "", why_of(r))
end

--- "12 joists: leave 3, repair 6", as the actions are ordered.
function overview.counts(subject)
  local list = {}
  for _, action in ipairs {"leave", "justify", "decide", "repair", "refer"} do
    list[#list + 1] = ("%s %d"):format(action, subject.actions[action])
  end
  return ("%d joists: %s"):format(#subject.order, table.concat(list, ", "))
end

--- The lines of the table, its heading first.
function overview.lines(reviews)
  local marks, with_fixed = {}, false
  for i, r in ipairs(reviews) do
    marks[i] = plain(r.mark)
    with_fixed = with_fixed or r.fixed ~= nil
  end
  local until_repaired, cells = verdict.column(reviews)
  local s = shape(marks, with_fixed, cells ~= nil)
  local out = {row(s, "joist", "action", "reason", "uncut", "as cut", "until*",
    "repaired"), ("-"):rep(WIDTH)}
  for i, r in ipairs(reviews) do
    add(out, s, r, cells and cells[i]:match "^[^(]+")
  end
  if cells then out[#out + 1] = "* " .. plain(until_repaired) end
  return out
end

return overview
