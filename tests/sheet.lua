-- SPDX-License-Identifier: MIT
-- Reads a printed calculation sheet as a person with a pocket calculator does: it knows
-- the words on the page and nothing of the program that wrote them.
local formula = require "tests.formula"
local ns = require "netsection"

local sheet = {}

-- Lines of the page between the heading `title` and the next one, long ones joined.
local function lines_under(page, title)
  local _, start = page:find("\n" .. title, 1, true)
  if not start then error("no heading: " .. title, 2) end
  local list = {}
  for line in page:sub((page:find("\n", start, true))):gmatch "[^\n]*" do
    if line:find "^      %S" and #list > 0 then
      list[#list] = list[#list] .. " " .. line:match "^ *(.*)$"
    elseif line:find "^  %S" then
      list[#list + 1] = line:match "^ *(.*)$"
    elseif line ~= "" then
      break
    end
  end
  return list
end

-- "1138 psi" -> 1138, "psi".
local function result_of(said)
  local number, rest = said:match "^([-+%d.e]+) ?(.*)$"
  return tonumber(number), rest
end

local function step_of(line)
  line = line:gsub(" %[[^%]]*%]$", "")
  local parts = {}
  for part in (line .. " = "):gmatch "(.-) = " do parts[#parts + 1] = part end
  local step = {symbol = parts[1], printed = line}
  if #parts >= 4 then  -- a formula in words may say "x = 5 ft"
    step.formula = table.concat(parts, " = ", 2, #parts - 2)
    step.numbers = parts[#parts - 1]
  end
  step.value, step.rest = result_of(parts[#parts])
  return step
end

--- The steps printed under a heading: {symbol, formula, numbers, value}.
function sheet.steps(page, title)
  local list = {}
  for i, line in ipairs(lines_under(page, title)) do list[i] = step_of(line) end
  return list
end

-- Half of what the last of four figures stands for: the sheet prints four.
local function half_unit(x)
  if x == 0 then return 0 end
  return 0.5 * 10.0 ^ (math.floor(math.log(math.abs(x), 10)) - 3)
end
sheet.half_unit = half_unit

-- Powers of ten written out.
local function plain(numbers)
  return (numbers:gsub("%d+%.?%d*e[-+]?%d+", function(said)
    return ("%.20f"):format(tonumber(said))
  end))
end

--- How far the printed result may lie from the one worked out, if each printed number is
-- rounded to four figures; and the one worked out. A line is read with names in place of
-- its numbers: lines of one form are one formula, read once.
function sheet.worked(step)
  local inputs, count = {}, 0
  local text = plain(step.numbers):gsub("%d+%.?%d*", function(said)
    count = count + 1
    inputs["n_" .. count] = tonumber(said)
    return "n_" .. count
  end)
  local value = formula.value(text, inputs)
  local margin = half_unit(step.value) + 1e-9
  for i = 1, count do
    local name = "n_" .. i
    local x, by = inputs[name], half_unit(inputs[name])
    inputs[name] = x + by
    local up = formula.value(text, inputs)
    inputs[name] = x - by
    local down = formula.value(text, inputs)
    inputs[name] = x
    margin = margin + math.max(math.abs(up - value), math.abs(down - value))
  end
  return value, margin
end

--- What is wrong with a step, or nil: its numbers do not give its result, or a symbol of
-- the formula stands for another number than the lines above say.
function sheet.wrong(step, above)
  if not step.numbers or not step.value then return nil end    -- no capacity
  local value, margin = sheet.worked(step)
  if math.abs(value - step.value) > margin or value ~= value then
    return ("%s: worked out %.6g, printed %.6g"):format(step.printed, value, step.value)
  end
  if step.formula:find "%a%a,? %a" then return nil end    -- in words
  local pattern = step.formula:gsub("[%^%$%(%)%%%.%[%]%*%+%-%?]", "%%%0")
    :gsub("[%a_][%w_]*'?", function(name)
      if name == "min" or name == "max" then return name end
      local said = above[name]
      return said and said:gsub("[%.%-%+]", "%%%0") or "[-+%d.e]+"
    end)
  -- "+ R_1r" of a number below nil is written "- 31.59"
  if not (step.numbers:find("^" .. pattern .. "$")
    or step.numbers:gsub(" %- ", " + -"):find("^" .. pattern .. "$")) then
    return ("%s: the numbers are not those of the lines above"):format(step.printed)
  end
end

--- The number in a text of HTML, and how far it may be rounded: feet and inches to a
-- sixteenth, else by its decimals or by four figures.
function sheet.shown(said)
  if said:find "['\"]" then
    local sign, bare = said:match "^(-?)(.*)$"
    local inches = ns.length(bare)
    return inches and (sign == "-" and -inches or inches), 1 / 32 + 1e-9
  end
  local x = tonumber(said)
  if not x then return nil end
  local decimals = said:match "%.(%d+)"
  local unit = 0.5 * 10.0 ^ -(decimals and #decimals or 0)
  return x, math.max(unit, decimals and 0 or half_unit(x)) * (1 + 1e-9)
end

return sheet
