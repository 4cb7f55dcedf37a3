-- SPDX-License-Identifier: MIT
-- A document as plain text on a page of fixed width, for terminals, mail and files that
-- are compared. Tables that are wider are set in parts below each other.
local escape = require "netsection.document.escape"
local page = require "netsection.text"
local tables = require "netsection.document.tables"

local text = {}

local WIDEST, GAP = 36, "  "       -- of a column; between two
local RULES = {"=", "-"}

-- Lines of at most `width` characters, broken at blanks or, in a long word, anywhere.
local function fold(said, width)
  local lines, line = {}, ""
  -- Adds a word to the line, or begins one.
  local function put(word)
    local room = line == "" and 0 or tables.length(line) + 1
    if room + tables.length(word) > width and line ~= "" then
      lines[#lines + 1], line = line, ""
    end
    line = line == "" and word or line .. " " .. word
  end
  for word in escape.text(said):gmatch "[^ ]+" do
    while tables.length(word) > width do
      local cut = utf8.offset(word, width + 1)
      put(word:sub(1, cut - 1))
      word = word:sub(cut)
    end
    put(word)
  end
  lines[#lines + 1] = line
  return lines
end

-- Folded text whose first line begins with `first` and the others with blanks, as many
-- as `first` has or `indent`.
local function hang(first, said, indent)
  indent = indent or tables.length(first)
  local lines = fold(said, page.width - indent)
  for i, line in ipairs(lines) do
    lines[i] = ((i == 1 and first or (" "):rep(indent)) .. line):gsub(" +$", "")
  end
  return table.concat(lines, "\n")
end

-- A heading with its rule as long as its longest line.
local function underlined(said, rule)
  local lines = fold(said, page.width)
  local longest = 0
  for _, line in ipairs(lines) do longest = math.max(longest, tables.length(line)) end
  return table.concat(lines, "\n") .. "\n" .. rule:rep(math.max(longest, 1))
end

local write = {}

--- Writers by the name of a block; the level says the rule.
function write.heading(block)
  local rule = RULES[block.level]
  return rule and underlined(block.text, rule) or hang("", block.text)
end

--- A paragraph, folded.
function write.paragraph(block)
  local said = {}
  for i, piece in ipairs(block.pieces) do said[i] = piece.text end
  return hang("", table.concat(said))
end

--- A list, its lines hung behind numbers or dashes.
function write.list(block)
  local out = {}
  for i, item in ipairs(block.items) do
    out[i] = hang(block.ordered and ("%3d "):format(i) or "  - ", item)
  end
  return table.concat(out, "\n")
end

---------------------------------------------------------------------------
-- Tables
---------------------------------------------------------------------------

-- A cell set in its column.
local function aligned(said, width, align)
  if align == "center" then
    said = (" "):rep((width - tables.length(said)) // 2) .. said
  end
  return page.pad(said, width, align == "right")
end

-- One row as lines: cells side by side, each folded to its column.
local function side_by_side(cells, columns, widths, part)
  local folded, height = {}, 1
  for _, c in ipairs(part) do
    folded[c] = fold(cells[c], widths[c])
    height = math.max(height, #folded[c])
  end
  local lines = {}
  for i = 1, height do
    local line = {}
    for k, c in ipairs(part) do
      line[k] = aligned(folded[c][i] or "", widths[c], columns[c].align)
    end
    lines[i] = table.concat(line, GAP):gsub(" +$", "")
  end
  return table.concat(lines, "\n")
end

-- Names of groups over the columns of a part, each underlined as far as it reaches.
local function group_lines(block, widths, part)
  local groups = tables.groups(block)
  if not groups then return nil end
  local names, rules = {}, {}
  for _, run in ipairs(groups) do
    local width, n = -#GAP, 0
    for _, c in ipairs(part) do
      local inside = c >= run.first and c <= run.last
      if inside then width, n = width + widths[c] + #GAP, n + 1 end
    end
    if n > 0 then
      local name = run.text and fold(run.text, width)[1] or ""
      names[#names + 1] = aligned(name, width, "center")
      rules[#rules + 1] = (run.text and "-" or " "):rep(width)
    end
  end
  -- A row of a table without blanks at its end.
  local function line(list)
    return (table.concat(list, GAP):gsub(" +$", ""))
  end
  return line(names) .. "\n" .. line(rules)
end

-- Width of the columns of a group from c on, by the group's first column; 0 inside one.
local function group_width(groups, widths, c)
  for _, run in ipairs(groups or {}) do
    if run.first == c and run.text then
      local width = -#GAP
      for i = run.first, run.last do width = width + widths[i] + #GAP end
      return width
    end
  end
  return 0
end

-- Columns that fit a page together, a group on one page if it can be; the heads of rows
-- stand in every part.
local function parts_of(block, widths)
  local heads, used = {}, 0
  for c = 1, block.row_heads do
    heads[c] = c
    used = used + widths[c] + #GAP
  end
  local parts, room, groups = {}, -1, tables.groups(block)
  for c = block.row_heads + 1, #widths do
    local whole = group_width(groups, widths, c)
    if room < widths[c] or room < whole and whole <= page.width - used then
      parts[#parts + 1] = table.move(heads, 1, #heads, 1, {})
      room = page.width - used
    end
    local part = parts[#parts]
    part[#part + 1] = c
    room = room - widths[c] - #GAP
  end
  return #parts > 0 and parts or {heads}
end

-- Columns of a table that fit the page; the others follow below.
local function part_text(block, widths, part)
  local heads, total = {}, -#GAP
  for c, column in ipairs(block.columns) do heads[c] = column.head end
  for _, c in ipairs(part) do total = total + widths[c] + #GAP end
  local out = {group_lines(block, widths, part)}
  out[#out + 1] = side_by_side(heads, block.columns, widths, part)
  out[#out + 1] = ("-"):rep(math.max(total, 1))
  for _, row in ipairs(block.rows) do
    local cells = {}
    for c, cell in ipairs(row) do cells[c] = tables.words(cell) end
    out[#out + 1] = side_by_side(cells, block.columns, widths, part)
  end
  return table.concat(out, "\n")
end

-- The widest that heads of rows may be: they share half the page where they need more.
local function widest_head(block, widths)
  local total = 0
  for c = 1, block.row_heads do total = total + widths[c] + #GAP end
  local share = page.width // 2 // math.max(1, block.row_heads) - #GAP
  return total <= page.width // 2 and WIDEST or math.min(WIDEST, share)
end

-- Widths of the columns, no wider than a page can bear. Columns under a group are made
-- wide enough for its name.
local function column_widths(block)
  local widths = tables.widths(block)
  local most = widest_head(block, widths)
  for c, width in ipairs(widths) do
    widths[c] = math.max(1, math.min(width, c <= block.row_heads and most or WIDEST))
  end
  for _, run in ipairs(tables.groups(block) or {}) do
    local width = -#GAP
    for c = run.first, run.last do width = width + widths[c] + #GAP end
    local name = run.text and tables.length(escape.text(run.text)) or 0
    if run.last > block.row_heads then
      widths[run.last] = widths[run.last] + math.max(0, math.min(name, WIDEST) - width)
    end
  end
  return widths
end

--- A table, in parts where it is wider than the page.
function write.table(block)
  local widths = column_widths(block)
  local out = {}
  if block.caption then out[1] = hang("", block.caption) .. "\n" end
  for i, part in ipairs(parts_of(block, widths)) do
    out[#out + 1] = (i > 1 and "\n" or "") .. part_text(block, widths, part)
  end
  for i, note in ipairs(block.notes) do
    out[#out + 1] = (i == 1 and "\n" or "") .. hang(("(%d) "):format(i), note)
  end
  return table.concat(out, "\n")
end

---------------------------------------------------------------------------

--- The words of a drawing.
function write.figure(block)
  local out = {hang("Figure: ", (block.caption and block.caption .. ". " or "")
    .. block.alt)}
  out[2] = hang("  file ", block.name)
  return table.concat(out, "\n")
end

--- The steps of a check, numbers folded behind their signs.
function write.calculation(block)
  local out = {}
  for i, step in ipairs(block.steps) do
    local says = step.says and not step.formula and "  " .. step.says or ""
    local line = {step.symbol, step.formula, step.numbers, step.value}
    local joined = {}
    for k = 1, 4 do if line[k] then joined[#joined + 1] = line[k] end end
    out[i] = hang("  ", table.concat(joined, " = ")
      .. (step.unit and step.unit ~= "" and " " .. step.unit or "") .. says
      .. (step.clause and " [" .. step.clause .. "]" or ""), 6)
  end
  return table.concat(out, "\n")
end

--- Lines to fill in by hand.
function write.blanks(block)
  local out = {}
  for i, item in ipairs(block.items) do
    local lines = fold(item, page.width - 24)
    lines[#lines] = lines[#lines] .. ": "
      .. ("_"):rep(math.max(20, 60 - tables.length(lines[#lines])))
    out[i] = table.concat(lines, "\n")
  end
  return table.concat(out, "\n\n")
end

--- A note or a caution, hung behind its word.
function write.note(block)
  local first = block.caution and "Caution: " or "Note: "
  local rule = (block.caution and "=" or "-"):rep(page.width)
  return rule .. "\n" .. hang(first, block.text) .. "\n" .. rule
end

--- A dashed line.
function write.page_break()
  return ("- "):rep(page.width // 2 - 1) .. "-"
end

--- Blocks that belong together, as they come.
function write.group(block)
  local out = {}
  for i, inner in ipairs(block.blocks) do out[i] = write[inner.kind](inner) end
  return table.concat(out, "\n\n")
end

--- The document as plain text.
function text.write(d)
  local out = {}
  out[1] = d.running
  if d.title then out[#out + 1] = underlined(d.title, "=") end
  for _, block in ipairs(d.blocks) do
    out[#out + 1] = write[block.kind](block)
    if block.kind == "page_break" then out[#out + 1] = d.running end
  end
  return table.concat(out, "\n\n") .. "\n"
end

return text
