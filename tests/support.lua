-- What the tests share: comparison of numbers, expected errors, random cases that are the
-- same on every machine, a reader of CSV test data, and a floor. Failures name the
-- caller's line.
local lu = require "luaunit"
local lanes = require "netsection.lanes"
local ns = require "netsection"

local support = {}

local DEFAULT_REL = 1e-12

local function fail_text(what, text)
  return lu.FAILURE_PREFIX .. (what and what .. ": " or "") .. text
end

-- Text about a value that is no finite number, or nil.
local function not_finite(role, x)
  if math.type(x) == nil then
    return ("%s is %s, not a number"):format(role, lu.prettystr(x))
  elseif x ~= x or x == math.huge or x == -math.huge then
    return ("%s is %s, not a finite number"):format(role, x)
  end
end

local function difference(actual, expected, allowed, text)
  if math.abs(actual - expected) <= allowed then return nil end
  return ("got %.17g\nexpected %.17g, %s"):format(actual, expected, text)
end

-- Fails unless |actual - expected| <= rel * |expected|. `what` names the case in the
-- message. An expected zero has no relative error: only zero meets it.
function support.close(actual, expected, rel, what)
  rel = rel or DEFAULT_REL
  local problem = not_finite("actual", actual) or not_finite("expected", expected)
  if not problem then
    local found = math.abs((actual - expected) / expected)
    problem = difference(actual, expected, rel * math.abs(expected),
      expected == 0 and "which only 0 meets (close_abs allows more)"
      or ("relative error %.3g, allowed %.3g"):format(found, rel))
  end
  if problem then error(fail_text(what, problem), 2) end
end

-- Fails unless |actual - expected| <= margin.
function support.close_abs(actual, expected, margin, what)
  local problem = not_finite("actual", actual) or not_finite("expected", expected)
    or difference(actual, expected, margin,
      ("error %.3g, allowed %.3g"):format(math.abs(actual - expected), margin))
  if problem then error(fail_text(what, problem), 2) end
end

-- Fails unless f(...) raises an error whose text has `piece` in it, literally; returns
-- the whole text.
function support.raises(piece, f, ...)
  local ok, raised = pcall(f, ...)
  local text = tostring(raised)
  if ok then
    error(fail_text(nil, ("no error; expected one with %q"):format(piece)), 2)
  elseif not text:find(piece, 1, true) then
    error(fail_text(nil, ("expected an error with %q, got %q"):format(piece, text)), 2)
  end
  return text
end

-- A copy of t with some fields changed; ns.none takes one away.
function support.with(t, changes)
  local copy = {}
  for name, value in pairs(t) do copy[name] = value end
  for name, value in pairs(changes or {}) do
    copy[name] = value ~= ns.none and value or nil
  end
  return copy
end

-- f refuses what is sound but for some changes: cases are {words of refusal, changes}.
function support.refused(f, sound, cases)
  for _, case in ipairs(cases) do
    support.raises(case[1], f, support.with(sound, case[2]))
  end
end

-- Random numbers by a 64-bit linear congruential generator, of which the upper bits are
-- used. math.random is not: its sequence belongs to the Lua version.
local Random = {}
Random.__index = Random

function support.random(seed)
  local generator = setmetatable({ state = seed }, Random)
  generator:unit() -- the first number would show the seed
  return generator
end

-- In [0, 1), with 53 bits.
function Random:unit()
  self.state = self.state * 6364136223846793005 + 1442695040888963407
  return (self.state >> 11) * 0x1p-53
end

-- An integer in lo .. hi.
function Random:int(lo, hi)
  return lo + math.floor(self:unit() * (hi - lo + 1))
end

-- A float in [lo, hi).
function Random:real(lo, hi)
  return lo + (hi - lo) * self:unit()
end

-- One of the values of a list.
function Random:pick(list)
  return list[self:int(1, #list)]
end

-- Reads one field at `pos`: its text, and the position after it.
local function csv_field(text, pos)
  if text:sub(pos, pos) ~= '"' then
    local field = text:match('^[^,\r\n]*', pos)
    return field, pos + #field
  end
  local start, parts = pos + 1, {}
  while true do
    local quote = text:find('"', start, true) or error("a quote is not closed", 0)
    parts[#parts + 1] = text:sub(start, quote - 1)
    if text:sub(quote + 1, quote + 1) ~= '"' then
      return table.concat(parts, '"'), quote + 1
    end
    start = quote + 2
  end
end

-- Splits CSV text (RFC 4180: quoted fields, doubled quotes, line breaks in quotes) into
-- rows of texts.
local function csv_rows(text)
  local rows, row, pos = {}, {}, 1
  while pos <= #text do
    local field
    field, pos = csv_field(text, pos)
    row[#row + 1] = field
    local line_end = text:match('^\r?\n', pos)
    if line_end or pos > #text then
      rows[#rows + 1] = row
      row = {}
      pos = pos + #(line_end or "")
    elseif text:sub(pos, pos) == "," then
      pos = pos + 1
      if pos > #text then rows[#rows + 1], row[#row + 1] = row, "" end
    else
      error(("row %d: text after a closing quote"):format(#rows + 1), 0)
    end
  end
  return rows
end

-- Reads a CSV file with a header row: a list of records {column = text}, and the list of
-- columns. Numbers stay text, since only the caller knows which columns are numbers.
function support.read_csv(path)
  local file <close> = assert(io.open(path))
  local rows = csv_rows((file:read("a"):gsub("^\xEF\xBB\xBF", "")))
  local columns = table.remove(rows, 1) or error(path .. " is empty", 2)
  local records = {}
  for i, row in ipairs(rows) do
    if #row ~= #columns then
      error(("%s: record %d has %d fields, the header %d")
        :format(path, i, #row, #columns), 2)
    end
    local record = {}
    for j, column in ipairs(columns) do record[column] = row[j] end
    records[i] = record
  end
  return records, columns
end

-- Output of the core by a short name: "cut.ratio", "uncut.reaction.1", "action", or the
-- worst of a mode, "cut:net-shear".
local function output_of(name)
  local state, mode = name:match "^(%a+):(.+)$"
  if mode then return {quantity = "check", state = state, mode = mode} end
  local of, take = name:match "^(%a+)%.(.+)$"
  local bare, n = (take or name):match "^(%a+)%.(%d+)$"
  return {quantity = bare or take or name, state = of or "uncut", index = tonumber(n)}
end

-- One joist with fields varied side by side through the core: a table of n values per
-- output, false where the joist cannot be worked, 0 where it has no such check; after
-- them the statuses, 0 where all is well.
function support.batch(m, rules, standard, n, columns, outputs)
  local specs = {}
  for i, name in ipairs(outputs) do specs[i] = output_of(name) end
  local to, fault = lanes.work(m, {rules = {core = rules}, standard = {core = standard}},
    n, columns, specs)
  local out, status = {}, {}
  for q = 1, n do status[q] = fault[q] & 15 end
  for o in ipairs(outputs) do
    out[o] = {}
    for q = 1, n do out[o][q] = status[q] == 0 and (to[o][q] or 0) end
  end
  out[#out + 1] = status
  return table.unpack(out)
end

support.DFL = {Fb = 900, CF = 1.1, Fv = 180, E = 1.6e6}

-- A 2x10 of given values over 13-6; ns.none as a change takes a field away.
function support.joist(changes)
  return ns.joist(support.with({mark = "J3", size = "2x10", material = {Fb = 900,
    CF = 1.1, Fv = 180, E = 1.6e6, Ft = 575, Fc = 1350, Fc_perp = 625}, span = "13-6",
    spacing = 16, bearing = 3.5, dead = 12, live = 40}, changes))
end

-- The floor of nine 2x10 joists J1 to J9 that the tests of obstructions stand in;
-- `changes` are fields of the floor's own.
function support.floor_among(obstructions, changes)
  local t = {size = "2x10", material = support.DFL, span = "13-6", spacing = 16,
    bearing = 3.5, dead = 12, live = 40, obstructions = obstructions, joists = {}}
  for i = 1, 9 do t.joists[i] = {mark = "J" .. i} end
  for name, value in pairs(changes or {}) do t[name] = value end
  return ns.floor(t)
end

-- An exact number lies within an answer's interval, taken twice as wide: one of 95 %
-- misses once in twenty times.
function support.holds(answer, exact, what)
  local low = answer.value - 2 * (answer.value - answer.low)
  local high = answer.value + 2 * (answer.high - answer.value)
  lu.assertTrue(low <= exact and exact <= high,
    ("%s: %.6f (%.6f-%.6f), exact %.6f"):format(what, answer.value, answer.low,
      answer.high, exact))
end

--- Joists of(x) over a list that grows: none is reviewed to a lower ratio than the last.
function support.never_better(list, of, options)
  local last = -1
  for _, x in ipairs(list) do
    local ratio = of(x):review(options).cut.ratio
    lu.assertTrue(ratio >= last * (1 - 1e-9), ("%s: %g after %g"):format(x, ratio, last))
    last = ratio
  end
end

return support
