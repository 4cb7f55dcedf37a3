-- SPDX-License-Identifier: MIT
-- A document's words in another spelling: every text of every block but for marks (what a
-- user called something), clauses, and names of files and numbers. The one place where
-- this is done; a writer is handed a copy, the document stays as it was.
local spelling = require "netsection.locale.spelling"

local wording = {}

local change = {}

local function each(list, field, say)
  for _, one in ipairs(list) do
    if one[field] then one[field] = say(one[field]) end
  end
end

local function texts(list, say)
  for i, text in ipairs(list) do list[i] = say(text) end
end

function change.heading(block, say) block.text = say(block.text) end
function change.note(block, say) block.text = say(block.text) end
function change.list(block, say) texts(block.items, say) end
function change.blanks(block, say) texts(block.items, say) end

function change.page_break(block, say)
  block.head = block.head and say(block.head)
end

function change.paragraph(block, say)
  for _, piece in ipairs(block.pieces) do
    if piece.style ~= "mark" then piece.text = say(piece.text) end
  end
end

-- @param own heads of columns that hold what people wrote: {head = true}
function change.table(block, say, _, own)
  block.caption = block.caption and say(block.caption)
  texts(block.notes, say)
  for _, row in ipairs(block.rows) do
    for c, cell in ipairs(row) do
      if not own[block.columns[c].head] then cell.text = say(cell.text) end
    end
  end
  each(block.columns, "head", say)
  each(block.columns, "group", say)
end

function change.figure(block, say)
  block.alt = say(block.alt)
  block.caption = block.caption and say(block.caption)
end

function change.calculation(block, say, formula)
  for _, step in ipairs(block.steps) do
    for _, field in ipairs {"formula", "numbers"} do
      step[field] = step[field] and formula(step[field])
    end
    for _, field in ipairs {"value", "unit", "says"} do
      step[field] = step[field] and say(step[field])
    end
  end
end

function change.group(block, say, formula, own)
  wording.blocks(block.blocks, say, formula, own)
end

--- Words blocks in place.
-- @param say, formula functions that word a text, and a formula
-- @param own heads of columns that hold what people wrote, or nil
function wording.blocks(blocks, say, formula, own)
  for _, block in ipairs(blocks) do
    if change[block.kind] then change[block.kind](block, say, formula, own or {}) end
  end
end

local function copied(t)
  if type(t) ~= "table" then return t end
  local new = {}
  for key, value in next, t do new[key] = copied(value) end
  return new
end

local function same(text) return text end

--- The document as it is to be written: itself, or a copy in the spelling of d.lang.
function wording.of(d)
  local say = not d.worded and spelling.of(d.lang, d.own)
  if not say then return d end
  local new = {}
  for key, value in next, d do new[key] = value end
  new.blocks = copied(d.blocks)
  for _, field in ipairs {"title", "job", "foot", "running"} do
    new[field] = d[field] and say(d[field])
  end
  wording.blocks(new.blocks, say, same)
  return setmetatable(new, getmetatable(d))
end

return wording
