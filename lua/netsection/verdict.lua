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

-- What the action's own word leaves unsaid, or nil.
function verdict.more(r)
  if not r.until_repaired and not r.judgment then return nil end
  return verdict.text(r)
end

return verdict
