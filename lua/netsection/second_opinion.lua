-- SPDX-License-Identifier: MIT
-- A second opinion on paper: a block of its own beside the code check, with what it may
-- be used for, a table and lines below it, or why it is not computed.
local text = require "netsection.text"

local second_opinion = {}

-- Cells side by side. @param left how many columns from the left are set left
local function row_text(cells, width, left)
  local list = {}
  for i, c in ipairs(cells) do list[i] = text.pad(text.plain(c), width[i], i > left) end
  return (("  " .. table.concat(list, " ")):gsub("%s+$", ""))
end

--- Adds a block to a text.
-- @param out list of its lines
-- @param block {title =, use =, columns =, width = a number each, left = columns that are
-- set left}
-- @param refused why there is none, or nil
-- @param make function: rows, lines below them
function second_opinion.add_text(out, block, refused, make)
  out[#out + 1] = block.title
  out[#out + 1] = ("-"):rep(text.width)
  if refused then
    out[#out + 1] = text.wrap("not computed: " .. refused, "  ", "    ")
    return
  end
  out[#out + 1] = text.wrap(block.use, "  ", "  ")
  local rows, lines = make()
  out[#out + 1] = row_text(block.columns, block.width, block.left)
  for _, row in ipairs(rows) do
    out[#out + 1] = row_text(row, block.width, block.left)
  end
  for _, said in ipairs(lines) do
    out[#out + 1] = text.wrap("- " .. text.plain(said), "  ", "    ")
  end
end

--- The same to a document; the block has a caption.
function second_opinion.add(d, block, refused, make)
  d:heading(2, block.title)
  if refused then
    d:paragraph("Not computed: " .. refused)
    return
  end
  d:note(block.use)
  local rows, lines = make()
  local columns = {}
  for i, head in ipairs(block.columns) do
    columns[i] = {head = head, align = i > block.left and "right" or nil}
  end
  d:table {caption = block.caption, row_heads = 1, columns = columns, rows = rows}
  d:list(lines)
end

return second_opinion
