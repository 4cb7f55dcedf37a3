-- SPDX-License-Identifier: MIT
-- What tostring says of values that are plain tables: what each is, and what tells it
-- from others of its kind.
local point = require "netsection.point"
local plain = require "netsection.document.escape".text
local label = {}

-- A metatable for values of a kind.
-- @param say function(value) -> text; @param index for fields that are built when read
function label.meta(kind, say, index)
  return {__name = "netsection." .. kind, __index = index,
    __tostring = function(value) return plain(say(value)) end}
end

local function rounded(x)
  return type(x) == "number" and point.format("%.4g", x) or tostring(x)
end

-- "f_b = 933.9 psi".
function label.step(s)
  local unit = s.unit ~= nil and s.unit ~= "" and " " .. s.unit or ""
  return ("%s = %s%s"):format(s.symbol, rounded(s.value), unit)
end

local function verdict(a)
  if a.refused then return "refused" end
  return a.ratio and point.format("%s, %.2f by %s", a.status, a.ratio, a.governing)
    or a.governing and ("%s by %s"):format(a.status, a.governing) or tostring(a.status)
end

-- The joist uncut, as cut or repaired.
label.state = label.meta("state", function(a)
  return (a.title or "state") .. ": " .. verdict(a)
end)

function label.cut(c)
  return ("%s: %s"):format(c.name, c.status or c.rules)
end

label.rules = label.meta("rules_found", function(r)
  return ("rules %s: %s"):format(tostring(r.pack), r.status)
end)

label.ranking = label.meta("ranking", function(r)
  return ("fixes of joist %s: %d ranked, %d failing, %d refused"):format(r.mark,
    #r.ranked, #r.failing, #r.refused)
end)

label.ranked = label.meta("ranked", function(entry)
  return entry.title .. (entry.reason and ": " .. entry.reason or "")
end)

label.version = function(v)
  return ("version %s of %s"):format(tostring(rawget(v, "number") or "?"), v.kind.name)
end

return label
