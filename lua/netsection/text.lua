-- SPDX-License-Identifier: MIT
-- Words, numbers and columns of the reports.
local escape = require "netsection.document.escape"
local quantity = require "netsection.quantity"
local review = require "netsection.review"
local units = require "netsection.units"
local tostring = require "netsection.point".text

local text = {}

-- Columns of a page.
text.width = 88

-- Fills with blanks to a width, on the left where 'right'.
function text.pad(s, width, right)
  local n = utf8.len(s) or #s
  local blank = (" "):rep(math.max(width - n, 0))
  return right and blank .. s or s .. blank
end

-- Breaks text at blanks so that no line is longer than the page.
function text.wrap(s, indent, hang)
  local lines, line = {}, indent
  for word in s:gmatch "%S+" do
    if #line + #word + 1 > text.width and line:find "%S" then
      lines[#lines + 1] = line
      line = hang or indent
    end
    line = line:find "%S$" and line .. " " .. word or line .. word
  end
  lines[#lines + 1] = line
  return table.concat(lines, "\n")
end

-- Text that came with the description: one line of valid UTF-8 without control or
-- direction characters, as a terminal may show it.
function text.plain(s)
  return escape.text(tostring(s))
end

function text.ratio(x)
  return x == nil and "-" or review.ratio_text(x)
end

function text.number(x)
  local size = math.abs(x)
  if size >= 100 or size == 0 then return units.fixed(x, 0) end
  return units.significant(x, 3)
end

-- Four figures, without zeros that say nothing.
text.short = quantity.short

-- A formula with the numbers of the case in place of its symbols.
-- @param show the system of units; nil: base units
function text.with_numbers(step, show)
  local of = step.input_units or {}
  local convert = show and not step.own_units
  return (step.formula:gsub("[%a_][%w_]*'?", function(name)
    local v = step.inputs and step.inputs[name]
    return v and text.short(convert and show.coherent(v, of[name]) or v) or name
  end))
end

-- The value of a step and its unit. A formula that holds in the units of its standard
-- only keeps them, and what it gives stands behind it in those of the page.
function text.value(step, show)
  local number, unit = show.coherent(step.value, step.unit)
  local value = text.short(number)
  if step.own_units and not show.tape then
    value = ("%s%s = %s"):format(text.short(step.value), step.unit ~= "" and " "
      .. step.unit or "", value)
    if step.unit == "" then return text.short(number) .. " (D in in)", "" end
  end
  return value, unit
end

-- One line of a calculation.
function text.step(step, show)
  local value, its_unit = text.value(step, show)
  local unit = its_unit and its_unit ~= "" and " " .. its_unit or ""
  local clause = step.clause and "  [" .. step.clause .. "]" or ""
  if step.formula then
    return ("%s = %s = %s = %s%s%s"):format(step.symbol, step.formula,
      text.with_numbers(step, show), value, unit, clause)
  end
  return ("%s = %s%s%s%s"):format(step.symbol, value, unit,
    step.says and "  " .. step.says or "", clause)
end

-- A title and a list under it; nothing where the list is empty.
function text.bullets(out, title, list)
  if #list == 0 then return end
  out[#out + 1] = title
  for _, s in ipairs(list) do
    out[#out + 1] = text.wrap(text.plain(s), "    - ", "      ")
  end
end

-- Span texts of a model joined by plus signs, in its own units or those given.
function text.spans(m, show)
  local spans = {}
  for i, span in ipairs(m.span) do spans[i] = (show or m.show).place(span) end
  return table.concat(spans, " + ")
end

return text
