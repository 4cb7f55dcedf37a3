-- SPDX-License-Identifier: MIT
-- A sweep as CSV (RFC 4180), a piece at a time. Numbers are written so that they read
-- back to the same bits; a text that a spreadsheet would take for a formula is made
-- inert.
local core = require "netsection.core"
local escape = require "netsection.document.escape"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local text = {}

local function axis_texts(axis)
  local texts = {}
  for i, value in ipairs(axis.known) do
    local number = type(value) == "number"
    texts[i] = number and core.number_text(value) or escape.csv(tostring(value))
  end
  return texts
end

-- @return {head = first line, rows = function(file, first, count, columns, faults, keep),
--   which writes the lines of some points (those with a 1 in the column 'keep', where
--   there is one): true, or nil and what the system says}
function text.writer(plan)
  local head, fields, stride = {}, {}, plan.total
  local function add(name, field)
    head[#head + 1], fields[#fields + 1] = escape.csv(name), field
  end
  for _, axis in ipairs(plan.axes) do
    stride = stride // #axis.values
    for _, list in ipairs(axis.linked or {axis}) do
      add(list.name, list.numbers and {column = list.numbers, stride = stride}
        or {texts = axis_texts(list), stride = stride})
    end
  end
  local derived_at, value_at = #fields, #fields + #plan.functions
  for _, of in ipairs(plan.functions) do add(of.name, {}) end
  for _, o in ipairs(plan.values) do
    head[#head + 1] = escape.csv(o.name)
    fields[#fields + 1] = {words = o.words}
  end
  head[#head + 1] = "reason"
  local reasons = setmetatable({}, {__index = function(t, code)
    t[code] = escape.csv(plan:reason(code))
    return t[code]
  end})
  return {head = table.concat(head, ",") .. "\r\n",
    rows = function(out, first, count, to, fault, keep)
      for i, column in ipairs(plan:derived_columns(first, count)) do
        fields[derived_at + i].column = column
      end
      for i in ipairs(plan.values) do fields[value_at + i].column = to[i] end
      plan:tell(first, count, fault)
      if io.type(out) == "closed file" then
        error("csv: the file was closed while rows were written to it", 0)
      end
      return core.csv(out, fields, fault, reasons, first, count, keep)
    end}
end

return text
