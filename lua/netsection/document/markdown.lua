-- SPDX-License-Identifier: MIT
-- A document as Markdown with the tables that most readers of it know (pipes). Titles of
-- groups of columns go into the heads, since such tables have one row of them.
local escape = require "netsection.document.escape"
local tables = require "netsection.document.tables"

local markdown = {}

local md = escape.markdown
local RULE = {left = ":--", right = "--:", center = ":-:"}

local write = {}

--- Writers by the name of a block; a heading stands below the title where there is one.
function write.heading(block, d)
  return ("#"):rep(block.level + (d.title and 1 or 0)) .. " " .. md(block.text)
end

-- Strong, where there is something to set.
local function strong(said)
  return said:find "%S" and "**" .. said .. "**" or said
end

-- Blanks at the edges of a piece stay outside of what is emphasised.
local function piece_text(piece)
  local before, said, after = escape.text(piece.text):match "^(%s*)(.-)(%s*)$"
  said = md(said)
  return before .. (piece.style == "strong" and strong(said) or said) .. after
end

--- Pieces of a paragraph.
function write.paragraph(block)
  local out = {}
  for i, piece in ipairs(block.pieces) do out[i] = piece_text(piece) end
  return (table.concat(out):gsub("^%s+", ""):gsub("%s+$", ""))
end

--- A list, numbered where it is ordered.
function write.list(block)
  local out = {}
  for i, item in ipairs(block.items) do
    out[i] = (block.ordered and ("%d. "):format(i) or "- ") .. md(item)
  end
  return table.concat(out, "\n")
end

-- A row of a table.
local function row_text(cells)
  return "| " .. table.concat(cells, " | ") .. " |"
end

-- A cell, strong where it is.
local function cell_text(cell)
  local said = md(tables.words(cell))
  return cell.strong and strong(said) or said
end

--- A table with how its columns are set.
function write.table(block)
  local heads, rules = {}, {}
  for c, column in ipairs(block.columns) do
    heads[c] = md(column.group and column.group .. ": " .. column.head or column.head)
    rules[c] = RULE[column.align]
  end
  local out = {row_text(heads), row_text(rules)}
  for _, row in ipairs(block.rows) do
    local cells = {}
    for c, cell in ipairs(row) do
      cells[c] = cell_text(cell)
      if c <= block.row_heads and not cell.strong then cells[c] = strong(cells[c]) end
    end
    out[#out + 1] = row_text(cells)
  end
  local all = {block.caption and strong(md(block.caption)), table.concat(out, "\n")}
  if not block.caption then all = {table.concat(out, "\n")} end
  for i, note in ipairs(block.notes) do
    all[#all + 1] = md(("(%d) "):format(i) .. note)
  end
  return table.concat(all, "\n\n")
end

--- The words of a drawing, with its file.
function write.figure(block)
  return ("*Figure:* %s%s (file %s)"):format(
    block.caption and md(block.caption) .. ". " or "", md(block.alt), md(block.name))
end

-- A step: symbol, formula, numbers, result, clause.
local function step_text(step)
  local line = {step.symbol, step.formula, step.numbers, step.value}
  local joined = {}
  for k = 1, 4 do
    local said = line[k] and md(line[k])
    joined[#joined + 1] = k == 4 and said and strong(said) or said
  end
  local unit = step.unit and step.unit ~= "" and " " .. md(step.unit) or ""
  local says = step.says and not step.formula and ", " .. md(step.says) or ""
  local clause = step.clause and " (" .. md(step.clause) .. ")" or ""
  return "- " .. table.concat(joined, " = ") .. unit .. says .. clause
end

--- The steps of a check as a list.
function write.calculation(block)
  local out = {}
  for i, step in ipairs(block.steps) do out[i] = step_text(step) end
  return table.concat(out, "\n")
end

--- Lines to fill in by hand.
function write.blanks(block)
  local out = {}
  for i, item in ipairs(block.items) do
    out[i] = md(item) .. ": " .. ("\\_"):rep(30)
  end
  return table.concat(out, "\n\n")
end

--- A note or a caution as a quotation.
function write.note(block)
  return "> " .. (block.caution and "**Caution:** " or "**Note:** ") .. md(block.text)
end

--- A rule.
function write.page_break()
  return "* * *"
end

--- Blocks that belong together, as they come.
function write.group(block, d)
  local out = {}
  for i, inner in ipairs(block.blocks) do out[i] = write[inner.kind](inner, d) end
  return table.concat(out, "\n\n")
end

--- The document as Markdown.
function markdown.write(d)
  local out = {}
  local running = d.running and strong(md(d.running))
  out[1] = running
  if d.title then out[#out + 1] = "# " .. md(d.title) end
  for _, block in ipairs(d.blocks) do
    out[#out + 1] = write[block.kind](block, d)
    if block.kind == "page_break" then out[#out + 1] = running end
  end
  return table.concat(out, "\n\n") .. "\n"
end

return markdown
