-- SPDX-License-Identifier: MIT
-- The reason of an action in a few words, for the place beside it: what of the review
-- decides, the worst first. All of them, with their clauses, are in r.reasons.
local basis = require "netsection.basis"
local checks = require "netsection.checks"
local review = require "netsection.review"

local reason = {}

local over = review.full

--- The name of a check in print: that of its standard, else its mode's.
function reason.mode(k)
  return k.printed or checks.row[k.mode] and checks.row[k.mode].printed or k.mode
end

--- "lip-tension at hole 1, 1.50".
function reason.worst(a)
  local k = a.governing_check
  if not k then return nil end
  return ("%s%s, %s"):format(reason.mode(k), k.name and " at " .. k.name or "",
    review.ratio_text(k.ratio))
end

-- Marks of the cuts with a field at a value: "hole 1, notch 2".
local function names(r, field, value)
  local list = {}
  for _, c in ipairs(r.cuts or {}) do
    if c[field] == value then list[#list + 1] = c.name end
  end
  return #list > 0 and table.concat(list, ", ") or nil
end

-- What the standard says of the first cut that it does not permit; a cut through needs
-- no more words.
local function gate(r)
  local name = names(r, "status", "not permitted")
  if not name then return nil end
  local first, says = name:match "^[^,]+", nil
  for _, c in ipairs(r.cuts) do
    if c.name == first and c.gate ~= 6 then says = c.gate_says end
  end
  for _, said in ipairs(r.reasons) do
    local about = said:match("^" .. first:gsub("%p", "%%%0") .. ": (.*)$")
    if about and says and about:sub(1, #says) == says then
      return ("%s not permitted: %s"):format(name, (about:gsub(":.*$", "")))
    end
  end
  return name .. " not permitted"
end

-- The clause of the first limit that is not kept.
local function breach(r)
  local b = r.rules.breaches[1]
  return b and ("%s outside %s"):format(b.name, b.clause)
end

local function rules_only(r)
  local what = breach(r)
  if not what then
    local name = names(r, "rules", "not covered")
    what = name and name .. " not covered by the rules" or "outside the rules"
  end
  return "rules only: " .. what .. "; adequate by calculation"
end

local OF = {}

-- A cut for which neither the standard nor the rules speak, before anything else.
function OF.refer(r)
  for _, c in ipairs(r.cuts or {}) do
    if c.gate == 8 and c.rules ~= "within" then
      return c.name .. ": the standard has no rule for it, and the rules do not permit it"
    end
  end
  return r.reasons[1]
end

function OF.leave(r)
  if #r.joist.model.cuts == 0 then return "no cuts; adequate" end
  return "within the rules; adequate"
end

OF.justify = rules_only

-- Whether only deflection is over: the engineer decides.
local function deflection_alone(r)
  local any = false
  for _, k in ipairs(r.cut.checks) do
    if k.binding and k.ratio and k.ratio > over then
      if not k.mode:find "^deflection" then return false end
      any = true
    end
  end
  return any
end

function OF.decide(r)
  local worst = reason.worst(r.cut)
  if r.uncut.ratio > over then
    return "undersized before any cut: " .. reason.worst(r.uncut)
  elseif r.cut.ratio and deflection_alone(r) then
    return "deflection alone over: " .. worst
  elseif r.cut.ratio and r.cut.ratio > over then
    return "within the rules, overstressed: " .. worst
  end
  for i = #r.reasons, 2, -1 do
    if not basis.is_said(r.reasons[i]) then return r.reasons[i] end
  end
  return r.reasons[1]
end

OF["repair"] = function(r)
  if r.out then return r.out .. ": not permitted" end
  local over_uncut = r.uncut.ratio and r.uncut.ratio > over
    and ("undersized before any cut, %s; "):format(review.ratio_text(r.uncut.ratio)) or ""
  local barred = gate(r)
  if not r.cut.ratio then return over_uncut .. (r.cut.stopped or "no capacity") end
  if r.cut.ratio > over then
    return over_uncut .. reason.worst(r.cut) .. (barred and "; " .. barred or "")
  end
  return over_uncut .. (barred or breach(r) or reason.worst(r.cut))
end

--- The reason of r.action in a few words.
function reason.of(r)
  return OF[r.action](r)
end

-- Cut by cut what was seen, in words: "4 in hole at 5'-2\"".
function reason.cuts(r)
  local list = {}
  for i, c in ipairs(r:layout().cuts) do
    local a, b = r.show.place(math.max(c.x1, 0)), r.show.place(c.x2)
    local at = c.kind == "hole" and " at " .. r.show.place((c.x1 + c.x2) / 2)
      or (", %s to %s"):format(a, b)
    list[i] = c.label .. at
  end
  return list
end

return reason
