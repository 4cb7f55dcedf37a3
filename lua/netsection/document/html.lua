-- SPDX-License-Identifier: MIT
-- A document as one page of HTML that needs nothing beside itself: black on white, made
-- to be printed, read on a phone and read aloud. There is no script on the page.
local base64 = require "netsection.document.base64"
local escape = require "netsection.document.escape"
local style = require "netsection.document.style"
local tables = require "netsection.document.tables"

local html = {}

local h = escape.html

-- Lengths and units that no line may end within: 13'-6 1/2", 3-1/2, 4-0, ft-lb, 2050 mm,
-- kN m.
local WHOLE = {"%d+&#39;%-%d+[ %d/]*&quot;", "%d+[ -]%d+/%d+&quot;",
  "%f[%w]%d+[ -]%d+/%d+%f[%W]", "%f[%w]ft%-lb%f[%W]", "%f[%w]lb%-in%f[%W]",
  "%f[%w][%d.]+ mm%f[%W]", "%f[%w]kN m%f[%W]"}

-- Text in the page: escaped, with lengths and units kept whole.
local function said_of(said)
  said = h(said)
  if not said:find "[%d-]" and said ~= "kN m" then return said end
  for _, pattern in ipairs(WHOLE) do
    said = said:gsub(pattern, function(found)
      return '<span class="whole">' .. found .. "</span>"
    end)
  end
  if not said:find " " then return said end
  return (said:gsub("%f[%w-]%d+%-%d+%f[^%w/-]", '<span class="whole">%0</span>'))
end

-- A user's words keep to themselves, whichever way they run.
local function bdi(said)
  return "<bdi>" .. said_of(said) .. "</bdi>"
end

-- A formula may be broken before an operator, never within a number or a name.
local function formula(said)
  return (h(said):gsub("[*+]", "<wbr>%0"))
end

-- The name under which the number is found in the files of numbers.
local function data_name(name)
  return name and (' data-name="%s"'):format(h(name)) or ""
end

local write = {}

--- Writers by the name of a block; a heading stands below the title where there is one.
function write.heading(block, d)
  local level = block.level + (d.title and 1 or 0)
  local id = block.id and (' id="%s"'):format(h(block.id)) or ""
  return ("<h%d%s>%s</h%d>"):format(level, id, said_of(block.text), level)
end

-- A link inside the page.
local function link(to, inner)
  return ('<a href="#%s">%s</a>'):format(h(to), inner)
end

local PIECE = {
  plain = said_of, mark = bdi,
  strong = function(said) return "<strong>" .. said_of(said) .. "</strong>" end,
  link = function(said, piece) return link(piece.to, bdi(said)) end,
}

--- Pieces of a paragraph, strong ones and links, each on its own direction of text.
function write.paragraph(block)
  local out = {}
  for i, piece in ipairs(block.pieces) do
    out[i] = PIECE[piece.style](piece.text, piece)
  end
  return "<p>" .. table.concat(out) .. "</p>"
end

--- A list, numbered where it is ordered.
function write.list(block)
  local tag, out = block.ordered and "ol" or "ul", {}
  for i, item in ipairs(block.items) do out[i] = "<li>" .. said_of(item) .. "</li>" end
  return ("<%s>\n%s\n</%s>"):format(tag, table.concat(out, "\n"), tag)
end

---------------------------------------------------------------------------
-- Tables
---------------------------------------------------------------------------

-- Head of a table: groups of columns over their names.
local function head_rows(block)
  local groups, out = tables.groups(block), {}
  if groups then
    out[1] = "<tr>"
    for _, run in ipairs(groups) do
      local span = run.last - run.first + 1
      out[#out + 1] = run.text
        and ('<th scope="colgroup" colspan="%d"><span>%s</span></th>'):format(span,
          h(run.text))
        or ("<td></td>"):rep(span)
    end
    out[#out + 1] = "</tr>\n"
  end
  out[#out + 1] = "<tr>"
  for _, column in ipairs(block.columns) do
    out[#out + 1] = column.head == "" and "<td></td>"
      or ('<th scope="col" class="%s">%s</th>'):format(column.align, h(column.head))
  end
  out[#out + 1] = "</tr>"
  return table.concat(out)
end

-- Short words stay on one line; a table that is too wide for the screen scrolls. A word
-- that is longer than any of the trade's may be broken.
local SHORT, LONGEST = 24, 22

-- Whether a text has a word that would widen a column.
local function has_long_word(said)
  for word in said:gmatch "%S+" do
    if (utf8.len(word) or #word) > LONGEST then return true end
  end
  return false
end

-- A cell with the name of the number that it shows.
local function cell_text(cell, class, is_head)
  local said = cell.text == "" and "" or bdi(cell.text)
  if has_long_word(cell.text) then class = class .. " long" end
  if cell.to then said = link(cell.to, said) end
  if cell.strong then said = "<strong>" .. said .. "</strong>" end
  if cell.note then said = ("%s <sup>(%d)</sup>"):format(said, cell.note) end
  if is_head then
    return ('<th scope="row" class="%s">%s</th>'):format(class, said)
  end
  return ('<td class="%s"%s>%s</td>'):format(class, data_name(cell.data), said)
end

-- Rows of a table, heads of rows marked as such.
local function body_rows(block)
  local out, classes = {}, {}
  for c, width in ipairs(tables.widths(block)) do
    classes[c] = block.columns[c].align .. (width <= SHORT and " short" or "")
  end
  for r, row in ipairs(block.rows) do
    local cells = {}
    for c, cell in ipairs(row) do
      if block.to_fill and cell.text:find "^_+$" then cell = {text = ""} end
      cells[c] = cell_text(cell, classes[c], c <= block.row_heads)
    end
    out[r] = "<tr>" .. table.concat(cells) .. "</tr>"
  end
  return table.concat(out, "\n")
end

-- Tables of at most so many rows are kept on one printed page.
local KEPT = 14

-- Characters across a printed page, and of a column of long texts at least.
local ACROSS, LEAST = 112, 20

-- A table too wide for the page is printed on its side; narrow ones stand side by side.
-- Where short words of a row find room on one line (fits) they stand on one.
local function size_class(block, columns)
  local total, fits = 0, 0
  for c, width in ipairs(tables.widths(block)) do
    local most = block.columns[c].align == "left" and SHORT or width
    total = total + math.min(width, most) + 2
    fits = fits + (width <= SHORT and width or LEAST) + 2
  end
  if block.to_fill then return "tofill" end
  return (total > 152 and "widest" or total < 84 and "narrow" or "plain")
    .. (fits <= ACROSS // columns - 4 * (columns - 1) and " fits" or "")
    .. (#block.rows <= KEPT and " kept" or "")
end

--- A table with its caption, which labels it for who reads by ear.
function write.table(block, _, count)
  count.tables = count.tables + 1
  local label = block.caption or ("Table %d"):format(count.tables)
  local out = {('<div class="table %s" role="region" tabindex="0" aria-label="%s">')
    :format(size_class(block, count.columns or 1), h(label)), "<table>"}
  if block.caption then
    out[#out + 1] = "<caption><span>" .. h(block.caption) .. "</span></caption>"
  end
  out[#out + 1] = "<thead>" .. head_rows(block) .. "</thead>"
  out[#out + 1] = "<tbody>\n" .. body_rows(block) .. "\n</tbody>\n</table>\n</div>"
  if #block.notes > 0 then
    out[#out + 1] = '<ul class="notes">'
    for i, note in ipairs(block.notes) do
      out[#out + 1] = ("<li>(%d) %s</li>"):format(i, bdi(note))
    end
    out[#out + 1] = "</ul>"
  end
  return table.concat(out, "\n")
end

---------------------------------------------------------------------------

-- The picture in the page is named by its description and has no words of its own for
-- readers: they would be heard as loose numbers.
local TALL = 1.06    -- height to width of a figure that may take a printed page

-- Whether a drawing is higher than wide.
local function is_tall(svg)
  local tag = svg and svg:match "<svg[^>]*>" or ""
  local width, height = tag:match 'viewBox="0 0 ([%d.]+) ([%d.]+)"'
  return width ~= nil and tonumber(height) > TALL * tonumber(width)
end

-- A photo in the page itself: nothing is fetched when it is read.
local function photo(block)
  return ('<figure class="photo">\n<img src="data:image/%s;base64,%s" alt="%s">%s\n'
    .. "</figure>"):format(block.photo.form, base64.of(block.photo.text), h(block.alt),
    block.caption and "\n<figcaption>" .. bdi(block.caption) .. "</figcaption>" or "")
end

--- A drawing or a photo with its words.
function write.figure(block)
  if block.photo then return photo(block) end
  local picture = block.svg and ('<div role="img" aria-label="%s">%s</div>'):format(
    h(block.alt), block.svg)
    or ("<p>%s <span>(file %s)</span></p>"):format(h(block.alt), bdi(block.name))
  local caption = block.caption
    and "\n<figcaption>" .. h(block.caption) .. "</figcaption>" or ""
  local tag = is_tall(block.svg) and '<figure class="tall">\n' or "<figure>\n"
  return tag .. picture .. caption .. "\n</figure>"
end

-- A step: symbol, formula, numbers, result, clause.
local function step_text(step)
  local out = {"<var>" .. h(step.symbol) .. "</var>"}
  if step.formula then out[#out + 1] = formula(step.formula) end
  if step.numbers then out[#out + 1] = formula(step.numbers) end
  if step.value then
    out[#out + 1] = ("<strong%s>%s</strong>"):format(data_name(step.data), h(step.value))
  end
  local line = table.concat(out, " = ")
  if step.unit and step.unit ~= "" then line = line .. " " .. h(step.unit) end
  if step.says and not step.formula then line = line .. ", " .. said_of(step.says) end
  if step.clause then
    line = line .. ' <span class="clause">[' .. h(step.clause) .. "]</span>"
  end
  return "<li>" .. line .. "</li>"
end

-- Lists of at most so many lines are kept on one page.
local TOGETHER = 16

--- The steps of a check.
function write.calculation(block)
  local out = {}
  for i, step in ipairs(block.steps) do out[i] = step_text(step) end
  return ('<ul class="calculation%s">\n%s\n</ul>'):format(
    #out > TOGETHER and " long" or "", table.concat(out, "\n"))
end

--- Lines to fill in by hand.
function write.blanks(block)
  local out = {}
  for i, item in ipairs(block.items) do
    out[i] = ('<p class="blank"><span>%s:</span> <span class="line">&nbsp;</span></p>')
      :format(h(item))
  end
  return table.concat(out, "\n")
end

--- A note, or a caution, which is marked as one.
function write.note(block)
  return ('<div class="%s" role="note"><strong>%s:</strong> %s</div>'):format(
    block.caution and "caution" or "note", block.caution and "Caution" or "Note",
    bdi(block.text))
end

---------------------------------------------------------------------------

-- A heading of the lowest level and the lines under it are one calculation; those that
-- follow one another are set in columns in print.
local OF_CHECK = {calculation = true, paragraph = true}
local LOWEST = 4

-- The last block of the calculation that begins at i, or nil where none does.
local function check_end(blocks, i)
  local first = blocks[i]
  if not first or first.kind ~= "heading" or first.level ~= LOWEST then return nil end
  while blocks[i + 1] and OF_CHECK[blocks[i + 1].kind] do i = i + 1 end
  return i
end

-- Units whose power is set above the line, as those of formulas are: in3, ft2, mm4.
local POWERS = {"in", "ft", "mm", "m"}

-- Exponents and indices raised and lowered.
local function raised(words)
  words = words:gsub("%^(%-?%d+)", "<sup>%1</sup>")
  for _, unit in ipairs(POWERS) do
    words = words:gsub("%f[%w]" .. unit .. "([234])%f[^%w]", unit .. "<sup>%1</sup>")
  end
  return words
end

-- Greek letters that symbols are named after; psi alone is a unit.
local GREEK = {alpha = "\u{3B1}", gamma = "\u{3B3}", lambda = "\u{3BB}", phi = "\u{3C6}",
  psi = "\u{3C8}", sigma = "\u{3C3}", tau = "\u{3C4}"}

-- Names of Greek letters as letters.
local function greek(words)
  return (words:gsub("%f[%w](%a+)(<?)", function(word, tag)
    local letter = GREEK[word]
    return letter and (word ~= "psi" or tag == "<") and letter .. tag or nil
  end))
end

-- Words of a block between its tags, with the index of a symbol, F_b', below the line and
-- the power of a unit above it.
local function indexed(said)
  return (">" .. said .. "<"):gsub(">([^<>]+)<", function(words)
    words = words:gsub("%f[%w_](%a%w*)_(%w+)%f[^%w_]", "%1<sub>%2</sub>")
    return ">" .. greek(raised(words)) .. "<"
  end):sub(2, -2)
end

local TYPESET = {table = true, calculation = true, blanks = true, paragraph = true}

-- Whether symbols of a block are typeset: not in what a user called something.
local function has_symbols(block)
  for _, piece in ipairs(block.pieces or {}) do
    if piece.style == "mark" then return false end
  end
  return TYPESET[block.kind]
end

-- Appends blocks to out. @param count {tables =, heads = words at the upper right of
-- printed pages, in their order}
-- @param in_columns true where they stand in columns already
local function write_blocks(blocks, d, out, count, in_columns)
  local i, open = 1, false
  -- Adds to the page.
  local function put(text) out[#out + 1] = text end
  while i <= #blocks do
    local last = not in_columns and check_end(blocks, i) or nil
    if last and not open then put '<div class="checks">' end
    if open and not last then put "</div>" end
    open = last ~= nil
    if last then put '<div class="check">' end
    for k = i, last or i do
      local said = write[blocks[k].kind](blocks[k], d, count)
      put(d.symbols and has_symbols(blocks[k]) and indexed(said) or said)
    end
    if last then put "</div>" end
    i = (last or i) + 1
  end
  if open then put "</div>" end
end

--- Blocks that stay on one page, or beside each other.
function write.group(block, d, count)
  local class = "group" .. (block.keep and " keep" or "")
    .. (block.columns == 2 and " two" or "") .. (block.sides and " sides" or "")
  local out = {('<div class="%s">'):format(class)}
  local before, narrow = count.columns, block.columns == 2 or block.sides
  count.columns = (narrow or count.side) and 2 or block.columns
  local within = count.side
  count.side = block.sides or within
  write_blocks(block.blocks, d, out, count, narrow or within)
  count.columns, count.side = before, within
  out[#out + 1] = "</div>"
  return table.concat(out, "\n")
end

-- A break with words for the head of its pages begins a part of its own.
function write.page_break(block, _, count)
  local close = count.part and "</div>\n" or ""
  -- pages of a part have a name of their own: what follows begins a page anyway
  if count.part and not block.head then
    count.part = false
    return "</div>"
  end
  count.part = block.head ~= nil
  if not block.head then return '<div class="break"></div>' end
  count.heads[#count.heads + 1] = block.head
  return close .. ('<div class="part part%d">'):format(#count.heads)
end

--- The page. @param paper "letter" or "a4"
function html.write(d, paper)
  local count, body = {tables = 0, heads = {}}, {}
  write_blocks(d.blocks, d, body, count)
  if count.part then body[#body + 1] = "</div>" end
  local out = {"<!DOCTYPE html>", ('<html lang="%s">'):format(h(d.lang)), "<head>",
    '<meta charset="utf-8">',
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    "<title>" .. h(d.title or "Working figures") .. "</title>",
    "<style>\n" .. style.of(paper, d, count.heads) .. "</style>", "</head>", "<body>",
    "<main>"}
  if d.running then
    out[#out + 1] = ('<p class="running"><strong>%s</strong></p>'):format(h(d.running))
    out[#out + 1] = '<div class="ground" aria-hidden="true">'
      .. h(d.running:match "%S+") .. "</div>"
  end
  if d.title then out[#out + 1] = "<h1>" .. h(d.title) .. "</h1>" end
  table.move(body, 1, #body, #out + 1, out)
  out[#out + 1] = "</main>\n</body>\n</html>\n"
  return table.concat(out, "\n")
end

return html
