-- SPDX-License-Identifier: MIT
-- The recommended action in words: what holds until a joist beside it is repaired, and
-- the engineer's own judgment beside the computed action, which stays as it is.
local units = require "netsection.units"

local verdict = {}

-- A joist at 1.0 exactly is not over; the last bits of a double are.
local FULL = 1 + 1e-9

-- Two decimals; a ratio over 1 never shows as 1.00.
local function ratio_text(x)
  if x > FULL and x < 1.005 then return "1.01" end
  return x >= 1e6 and "no capacity" or units.fixed(x, 2)
end

local function marks(list)
  return table.concat(list, ", ")
end

-- What it comes to until the joists beside it are repaired: "1.34".
local function until_text(u)
  return u.ratio and ratio_text(u.ratio) or u.refused and "not computed" or "no ratio"
end

-- What goes before the action: those that are out, "J2" or "J2, J3".
local function because(u)
  return marks(u.because) .. (#u.because > 1 and " are" or " is") .. " repaired"
end

-- The action alone, with what holds until a neighbor is repaired:
-- "leave once J2 is repaired; 1.34 until then", "repair; 1.34 until J2 is repaired".
function verdict.computed(r)
  local u = r.until_repaired
  if not u then return r.action end
  if r.action == "leave" or r.action == "justify" then
    return ("%s once %s; %s until then"):format(r.action, because(u), until_text(u))
  end
  return ("%s; %s until %s"):format(r.action, until_text(u), because(u))
end

-- The engineer's judgment in words, or nil.
function verdict.judgment(r)
  local j = r.judgment
  return j and ("judgment: %s (%s: %s)"):format(j.action, j.by, j.reason)
end

-- The whole, wherever an action is shown.
function verdict.text(r)
  local said = verdict.judgment(r)
  return verdict.computed(r) .. (said and "; " .. said or "")
end

-- What is said beside the action's own word, or nil: 'repair' is not said again.
function verdict.more(r)
  local u, said = r.until_repaired, verdict.judgment(r)
  if not u then return said end
  local so = verdict.computed(r)
  if r.action ~= "leave" and r.action ~= "justify" then so = so:sub(#r.action + 3) end
  return so .. (said and "; " .. said or "")
end

-- The head of a column of ratios that hold until a joist beside is repaired, and the
-- cell of each review; nil where none has any. Marks stand in the cells where they
-- differ: "until J2 is repaired", or "until repaired" with "1.34 (J2)".
function verdict.column(reviews)
  local first, one, any = nil, true, false
  for _, r in ipairs(reviews) do
    local u = r.until_repaired
    if u then
      first, any = first or because(u), true
      one = one and because(u) == first
    end
  end
  if not any then return nil end
  local cells = {}
  for i, r in ipairs(reviews) do
    local u = r.until_repaired
    cells[i] = not u and "-" or until_text(u)
      .. (one and "" or " (" .. marks(u.because) .. ")")
  end
  return "until " .. (one and first or "repaired"), cells
end

-- Whether a joist's own repair is one to build: worked out, adequate, and its own.
function verdict.serves(r)
  local a = r.fixed
  return a ~= nil and not a.refused and a.status == "adequate"
    and a.kind ~= "neighbor"
end

-- Whether it is a trial that fails: one that could be fitted and is not adequate.
function verdict.trial(r)
  local a = r.fixed
  return a ~= nil and not a.refused and a.status ~= "adequate"
    and a.kind ~= "neighbor"
end

verdict.not_built = "TRIAL, NOT TO BE BUILT"

return verdict
