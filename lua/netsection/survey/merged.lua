-- SPDX-License-Identifier: MIT
-- Merged cells of a workbook's sheet. What reads as one cell for several rows holds for
-- each of them; what lies over several columns is not shared out among them.
local csv = require "netsection.csv"

local merged = {}

-- Values that a cell merged downwards gives to rows under its first: {row = {column =}}.
local function downwards(source)
  local by_row, out = {}, {}
  for _, row in ipairs(source.rows) do by_row[row.row] = row end
  for _, m in ipairs(source.merges) do
    local first = by_row[m.top]
    if first and m.bottom > m.top and (first[m.left] or ""):find "%S" then
      for _, row in ipairs(source.rows) do
        if row.row > m.top and row.row <= m.bottom then
          out[row] = out[row] or {}
          out[row][#out[row] + 1] = {column = m.left, from = first}
        end
      end
    end
  end
  return out
end

local function put(row, item)
  local i = item.column
  for k = #row + 1, i do row[k] = "" end
  row[i], row.typed[i], row.wrong[i] = item.from[i], item.from.typed[i],
    item.from.wrong[i]
end

--- A row of headings with what stands merged into it from above.
function merged.heading(source, row)
  if not source.merges then return row end
  local out = table.move(row, 1, #row, 1, {row = row.row, line = row.line, typed = {},
    wrong = {}})
  for _, item in ipairs(downwards(source)[row] or {}) do put(out, item) end
  return out
end

--- Fills cells merged downwards below the headings. @return notes of what was filled
function merged.fill(source, header)
  local notes = {}
  if not source.merges then return notes end
  for row, items in pairs(downwards(source)) do
    for _, item in ipairs(items) do
      if item.from.row > header.row then put(row, item) end
    end
  end
  for _, m in ipairs(source.merges) do
    if m.top > header.row and m.bottom > m.top then
      notes[#notes + 1] = ("cells %s%d:%s%d are merged; their value holds for each row")
        :format(csv.letter(m.left), m.top, csv.letter(m.right), m.bottom)
    end
  end
  return notes
end

--- Cells merged across several columns below the headings.
-- @param known function(column) -> whether it has a known heading
-- @param fault function(row, column, message)
function merged.across(source, header, known, fault)
  local by_row = {}
  for _, row in ipairs(source.rows) do by_row[row.row] = row end
  for _, m in ipairs(source.merges or {}) do
    local several = 0
    for i = m.left, m.right do several = several + (known(i) and 1 or 0) end
    local row = by_row[m.top]
    if m.top > header.row and several > 1 and row and (row[m.left] or ""):find "%S" then
      fault(row, m.left, ("cells %s%d:%s%d are merged across columns: give each column "
        .. "a value of its own"):format(csv.letter(m.left), m.top, csv.letter(m.right),
        m.bottom))
    end
  end
end

return merged
