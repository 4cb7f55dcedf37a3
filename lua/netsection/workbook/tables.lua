-- SPDX-License-Identifier: MIT
-- Design tables as sheets: numbers as numbers with the letter of what governs beside
-- them, notes under the table, headings on every page. Feet and inches are shown by a
-- formula from the inches, which stand on a sheet of their own.
local book = require "netsection.workbook.book"
local csv = require "netsection.csv"
local format = require "netsection.workbook.format"
local point = require "netsection.point"
local tables = require "netsection.document.tables"

local sheets = {}

local HEAD = {bold = true, fill = "head", border = "all", wrap = true, align = "center"}
local KEY, TITLE, STRONG = {border = "all", align = "left"}, {bold = true, size = 14},
  {bold = true}
local WRAP = {wrap = true}

-------------------------------------------------------------------------------- cells

-- Format of a measure's numbers; nil for feet and inches.
local function format_of(measure)
  if measure.unit == "ft-in" then return nil end
  local shown = measure.show(measure.step)
  if measure.unit == "in" and not shown:find(".", 1, true)
    and measure.step % 1 ~= 0 then
    return format.fraction
  end
  return format.fixed(#(shown:match "%.(%d+)$" or ""))
end

-- Feet and inches of a cell of inches, 13-6 or 13-6 1/2 as the tables print it. The sum
-- keeps 11.99999 in from being 12.
local function feet_formula(step, suffix)
  local feet = "INT((\1+0.0001)/12)"
  local rest = ("ROUND(\1-12*%s,4)"):format(feet)
  local shown = step % 1 == 0 and rest or ('INT(%s)&IF(%s>INT(%s)," "&TRIM(TEXT(%s-INT('
    .. '%s),"# ??/??")),"")'):format(rest, rest, rest, rest, rest)
  return ('%s&"-"&%s%s'):format(feet, shown, suffix and ('&" %s"'):format(suffix) or "")
end

-- What stands behind a number: its letter and the mark of its note.
local function suffix_of(cell, words)
  local note = words:match "%(%d+%)$"
  local letter = cell.letter
  if letter and note then return letter .. " " .. note end
  return letter or note
end

local function put_number(self, row, column, value, f, suffix)
  self.sheet:put(row, column, value, {border = "all", align = "right",
    format = suffix and format.with(f, suffix) or f})
end

local function put_feet(self, row, column, cell, words, suffix)
  self.inches:put(row, column, cell.value, {border = "all", format = format.up_to(4)})
  self.sheet:formula(row, column, feet_formula(self.t.measure.step, suffix), words,
    {border = "all", align = "right"}, {sheet = self.inches, row = row, column = column})
end

-- A cell of the table, and its metric twin.
local function value_cell(self, row, column, cell, shown)
  local words = tables.words(shown)
  local f = format_of(self.t.measure)
  local suffix = cell.exact and suffix_of(cell, words)
  local plain = not suffix or suffix:find "^[%w ()]+$"
  if cell.exact and plain and f then
    put_number(self, row, column, cell.value, f, suffix)
  elseif cell.exact and plain then
    put_feet(self, row, column, cell, words, suffix)
  else
    self.sheet:put(row, column, words, {border = "all", align = "right"})
  end
end

local function metric_cell(self, row, column, cell)
  local metric = self.t.measure.metric
  if cell.metric then
    put_number(self, row, column, cell.metric,
      format.fixed(#(metric.show(metric.step):match "%.(%d+)$" or "")))
  else
    self.sheet:put(row, column, cell.text, {border = "all", align = "right"})
  end
end

-------------------------------------------------------------------------------- a block

local function each_sheet(self, f)
  f(self.sheet)
  if self.inches then f(self.inches) end
end

local function heads(self, block, row)
  local groups = tables.groups(block)
  each_sheet(self, function(s)
    local at = row
    if groups then
      for _, run in ipairs(groups) do
        for i = run.first, run.last do s:put(at, i, i == run.first and run.text or nil,
          HEAD) end
        if run.last > run.first then s:merge(at, run.first, at, run.last) end
      end
      at = at + 1
    end
    for i, column in ipairs(block.columns) do s:put(at, i, column.head, HEAD) end
  end)
  return groups and row + 1 or row
end

-- A text of digits is a number there.
local function key_of(text)
  local n = text:find "^%d+%.?%d*$" and tonumber(text)
  return n and point.format("%.15g", n) == text and n or text
end

local function body(self, block, cells, row)
  local first, twin = block.row_heads, self.t.measure.metric
  for r, line in ipairs(block.rows) do
    local at = row + r
    each_sheet(self, function(s)
      for i = 1, first do s:put(at, i, key_of(line[i].text), KEY) end
    end)
    for c, cell in ipairs(cells[r]) do
      local column = first + (twin and 2 * c - 1 or c)
      value_cell(self, at, column, cell, line[column])
      if twin then metric_cell(self, at, column + 1, cell) end
    end
  end
  return row + #block.rows
end

local function texts(s, row, width, list, numbered)
  for i, said in ipairs(list) do
    s:put(row, 1, numbered and ("%d. %s"):format(i, said) or said, WRAP)
    if width > 1 then s:merge(row, 1, row, width) end
    row = row + 1
  end
  return row
end

-- What the document says below its tables.
local function below(self, document, block, row, width)
  local s, list = self.sheet, {}
  for i, note in ipairs(block.notes) do list[i] = ("(%d) %s"):format(i, note) end
  row = texts(s, row + 2, width, list)
  for _, b in ipairs(document.blocks) do
    if b.kind == "heading" then
      s:put(row, 1, b.text, STRONG)
      row = row + 1
    elseif b.kind == "list" then
      row = texts(s, row, width, b.items, b.ordered) + 1
    elseif b.kind == "note" then
      row = texts(s, row, width, {b.text}) + 1
    end
  end
end

local function widths_of(block)
  local widths = tables.widths(block)
  for i, width in ipairs(widths) do
    widths[i] = math.max(8, math.min(width + 2, 34))
  end
  return widths
end

local function add_block(b, t, document, block, n, name, contents)
  local widths = widths_of(block)
  local groups = tables.groups(block)
  local head = groups and 4 or 3
  local function sheet(title)
    return b:sheet {name = title, columns = widths, landscape = true, frozen = head,
      repeated = {3, head}}
  end
  local self = {t = t, sheet = sheet(name)}
  if t.measure.unit == "ft-in" then self.inches = sheet(name .. " in") end
  local issue = t.given.revision and ("Issue %s. "):format(t.given.revision) or ""
  each_sheet(self, function(s)
    s:put(1, 1, s == self.inches and t.title .. ", in inches" or t.title, TITLE)
    s:put(2, 1, issue .. (block.caption or ""), {})
  end)
  local row = body(self, block, t.cells[n], heads(self, block, 3))
  below(self, document, block, row, math.max(#block.columns, 1))
  contents[#contents + 1] = {self.sheet.name, t.title, block.caption or ""}
end

-------------------------------------------------------------------------------- items

local function add_table(b, t, name, contents)
  local document, n = t:document(), 0
  for _, block in ipairs(document.blocks) do
    if block.kind == "table" then
      n = n + 1
      add_block(b, t, document, block, n, #t.cells > 1 and name .. "." .. n or name,
        contents)
    end
  end
end

-- A text that a CSV file keeps from being a formula needs no apostrophe here.
local function bare(text)
  return (text:gsub("^( *)'([=+@%-\t\r])", "%1%2"))
end

local function add_csv(b, item, contents)
  local rows = assert(csv.read(item.csv, {separator = ","}))
  local widths = {}
  for _, row in ipairs(rows) do
    for i, text in ipairs(row) do
      widths[i] = math.max(widths[i] or 6, math.min(tables.length(text) + 2, 40))
    end
  end
  local s = b:sheet {name = item.name, columns = widths, landscape = true, frozen = 1,
    repeated = {1, 1}}
  for r, row in ipairs(rows) do
    for i, text in ipairs(row) do
      s:put(r, i, r == 1 and bare(text) or key_of(bare(text)), r == 1 and HEAD
        or {border = "all", wrap = true})
    end
  end
  contents[#contents + 1] = {s.name, item.title or item.name, ""}
end

local function add_contents(s, title, contents)
  s:put(1, 1, title, TITLE)
  for i, head in ipairs {"Sheet", "Table", "What it holds"} do s:put(3, i, head, HEAD) end
  for n, line in ipairs(contents) do
    for i = 1, 3 do s:put(3 + n, i, line[i], {border = "all", wrap = true}) end
  end
end

--- Whether a value is a table of ns.table.
function sheets.is_table(v)
  local meta = type(v) == "table" and getmetatable(v)
  return type(meta) == "table" and meta.__name == "netsection.table"
end

--- A workbook of tables.
-- @param items list of tables, {name =, table =} or {name =, csv = text of a CSV file}
-- @param options {title =, paper =}
function sheets.of(items, options)
  local title = options.title or "Contents"
  local b = book.new {title = options.title or items[1] and items[1].title or "",
    paper = options.paper}
  local first = #items > 1 and b:sheet {name = "Contents", columns = {24, 50, 60},
    landscape = true}
  local contents = {}
  for i, item in ipairs(items) do
    if sheets.is_table(item) then
      add_table(b, item, #items == 1 and "Table" or ("Table %d"):format(i), contents)
    elseif item.table then
      add_table(b, item.table, item.name, contents)
    else
      add_csv(b, item, contents)
    end
  end
  if first then add_contents(first, title, contents) end
  return b
end

return sheets
