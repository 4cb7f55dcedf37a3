-- SPDX-License-Identifier: MIT
-- Number formats of workbooks, for both kinds of file. A number stays a number: what is
-- shown differs, what is stored does not.
local tostring = require "netsection.point".text
local format = {}

local function made(t)
  t.key = ("%s/%s/%s/%s/%s"):format(t.least or "", t.most or "", tostring(t.grouped),
    t.suffix or "", tostring(t.fraction))
  return t
end

--- So many decimals. @param suffix text behind the number, or nil
function format.fixed(decimals, suffix)
  return made {least = decimals, most = decimals, suffix = suffix}
end

--- Up to so many decimals.
function format.up_to(decimals, suffix)
  return made {least = 0, most = decimals, suffix = suffix}
end

--- Whole, with thousands apart.
format.whole = made {least = 0, most = 0, grouped = true}

--- Four figures or so of a number of this size.
function format.figures(x)
  local size = math.abs(x)
  if size >= 1000 then return format.whole end
  return format.up_to(size >= 100 and 1 or size >= 10 and 2 or size >= 1 and 3 or 5)
end

--- Inches with a fraction of the tape, 4 1/8.
format.fraction = made {least = 0, most = 0, fraction = true}

--- The same with a text behind the number: the letter of what governs a cell.
function format.with(f, suffix)
  local t = {}
  for name, v in pairs(f) do t[name] = v end
  t.suffix = suffix
  return made(t)
end

return format
