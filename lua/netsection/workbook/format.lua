-- SPDX-License-Identifier: MIT
-- Number formats of workbooks, for both kinds of file. A number stays a number: what is
-- shown differs, what is stored does not.
local format = {}

local function made(t)
  t.key = ("%s/%s/%s/%s/%s"):format(t.least or "", t.most or "", tostring(t.grouped),
    t.suffix or "", t.when and ("%.17g=%s"):format(t.when, t.literal) or "")
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

--- Shows a text for one value, inches as feet and inches; if somebody puts another number
-- there, the number shows, so that a text never stands for what it is not. A quote would
-- end the text: a double prime stands for it.
function format.literal(value, text, suffix)
  return made {least = 0, most = 4, suffix = suffix, when = value,
    literal = (text:gsub('"', "\u{2033}"))}
end

return format
