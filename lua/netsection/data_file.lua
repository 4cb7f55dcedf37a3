-- SPDX-License-Identifier: MIT
-- Reads a data file: one table of numbers, texts, true, false and tables, written as Lua
-- writes them. Nothing in it is run: a file from anywhere can do no more than be wrong.
--
--   return {name = "own", limits = {{of_d = 1 / 4, text = "hole " .. "diameter"}}}
--
-- Numbers may be joined by + - * /, texts by .. ; remarks begin with two hyphens.
local lpeg = require "lpeg"
local files = require "netsection.core".files
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local P, R, S, V = lpeg.P, lpeg.R, lpeg.S, lpeg.V
local C, Cc, Cp, Cf, Cg, Ct = lpeg.C, lpeg.Cc, lpeg.Cp, lpeg.Cf, lpeg.Cg, lpeg.Ct

local data = {}

-- Larger files and deeper tables are refused: the largest file here has 20 kB.
local LARGEST, DEEPEST = 1 << 20, 16

local space = (S " \t\r\n\f\v" + P "--" * (P "\n" + 1 - P "\n") ^ 0 * -P(1)
  + P "--" * (1 - P "\n") ^ 0 * P "\n") ^ 0
local function word(text)
  return P(text) * -(R("az", "AZ", "09") + "_") * space
end
local function sign(text)
  return P(text) * space
end

local ESCAPES = {n = "\n", t = "\t", ["\\"] = "\\", ['"'] = '"', ["'"] = "'"}
local code = R "09" * R "09" ^ -2 / function(s)
  return tonumber(s) < 256 and string.char(tonumber(s)) or nil
end
local point = P "u{" * C(R("09", "af", "AF") ^ 1) * "}" / function(s)
  return utf8.char(tonumber(s, 16))
end
local escape = P "\\" * (S [[nt\"']] / ESCAPES + code + point)
local function quoted(mark)
  return mark * lpeg.Cs((escape + (1 - S("\\\n" .. mark))) ^ 0) * mark * space
end
local text = quoted '"' + quoted "'"

local digits = R "09" ^ 1
local number = (P "0x" * R("09", "af", "AF") ^ 1
  + (digits * (P "." * R "09" ^ 0) ^ -1 + P "." * digits)
  * (S "eE" * S "+-" ^ -1 * digits) ^ -1)
  / tonumber * -(R("az", "AZ") + "_" + ".") * space

local OPERATORS = {
  ["+"] = function(a, b) return a + b end, ["-"] = function(a, b) return a - b end,
  ["*"] = function(a, b) return a * b end, ["/"] = function(a, b) return a / b end,
  [".."] = function(a, b) return a .. b end,
}
-- Arithmetic on numbers and .. on texts alone; anything else is nil and ends the reading.
local function worked(a, operator, b)
  local kind = operator == ".." and "string" or "number"
  if type(a) ~= kind or type(b) ~= kind then error({}, 0) end
  return OPERATORS[operator](a, b)
end
local function chain(item, operators)
  return Cf(item * Cg(operators * item) ^ 0, worked)
end
local function operator(set)
  return C(set) * space
end

local name = C((R("az", "AZ") + "_") * (R("az", "AZ", "09") + "_") ^ 0) * space

local function table_of(entries)
  local t, n = {}, 0
  for _, entry in ipairs(entries) do
    local key, value = entry.key, entry.value
    if key == nil then n = n + 1 end
    key = key == nil and n or key
    if key ~= key or t[key] ~= nil then error({twice = tostring(key)}, 0) end
    t[key] = value
  end
  return t
end

local grammar = P {
  space * word "return" * V "value" * (P ";" * space) ^ -1 * (-P(1) + Cp() * Cc "more"),
  value = chain(chain(chain(V "factor", operator(S "*/")), operator(S "+-" * -P "-")),
    operator(P ".." * -P ".")),
  factor = P "-" * -P "-" * space * V "factor" / function(x)
    if type(x) ~= "number" then error({}, 0) end
    return -x
  end + number + text + word "true" * Cc(true) + word "false" * Cc(false)
    + sign "(" * V "value" * sign ")" + V "tables",
  tables = sign "{" * Ct((V "entry" * (S ",;" * space * V "entry") ^ 0
    * (S ",;" * space) ^ -1) ^ -1) * sign "}" / table_of,
  entry = Ct(name * sign "=" * -P "=" * V "value" / function(key, value)
      return {key = key, value = value}
    end + sign "[" * V "value" * sign "]" * sign "=" * V "value" / function(key, value)
      return {key = key, value = value}
    end + V "value" / function(value) return {value = value} end) / function(t)
      return t[1]
    end,
}

-- The line of the first character that cannot be read, found by reading shorter pieces.
local function line_of(source, at)
  local _, lines = source:sub(1, at):gsub("\n", "")
  return lines + 1
end

-- The brackets of a file, 1 for one that opens and -1 for one that closes; texts and
-- remarks are passed over.
local function passed(mark)
  local plain = (1 - S("\\\n" .. mark)) ^ 0
  return mark * plain * (P "\\" * 1 * plain) ^ 0 * mark
end
local brackets = Ct(((1 - S "-\"'{}()[]") ^ 1 + S "{([" * Cc(1) + S "})]" * Cc(-1)
  + P "--" * (1 - P "\n") ^ 0 + passed '"' + passed "'" + 1) ^ 0)

-- How deep brackets go.
local function depth(source)
  local now, most = 0, 0
  for _, step in ipairs(brackets:match(source)) do
    now = now + step
    if now > most then most = now end
  end
  return most
end

--- The table that a text holds; or nil and what is wrong with it.
function data.parse(source)
  if #source > LARGEST then
    return nil, ("%d bytes, where data files have at most %d"):format(#source, LARGEST)
  end
  if depth(source) > DEEPEST then
    return nil, ("tables go deeper than %d"):format(DEEPEST)
  end
  local farthest = 0
  local watched = lpeg.Cmt(P(true), function(_, at)
    farthest = math.max(farthest, at)
    return true
  end)
  local ok, value, more = pcall(lpeg.match, grammar, source)
  if ok and type(value) == "table" and more == nil then return value end
  if not ok and type(value) == "table" then
    return nil, value.twice and ("'%s' is given twice in one table"):format(value.twice)
      or "+ - * / join numbers, .. joins texts"
  end
  pcall(lpeg.match, (watched * (space * (number + text + name + S "{}[]()=,;+-*/."))) ^ 0
    * watched, source)
  return nil, ("not a table of data alone (numbers, texts, true, false, tables); read up "
    .. "to line %d at most"):format(line_of(source, farthest))
end

--- The table in a file; or nil and what is wrong with it.
function data.read(path)
  local source, problem = files.read(path, LARGEST + 1)
  if not source then return nil, ("%s: %s"):format(path, problem) end
  local t, why = data.parse(source)
  if not t then return nil, ("%s: %s"):format(path, why) end
  return t
end

return data
