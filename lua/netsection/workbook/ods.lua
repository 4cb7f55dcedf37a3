-- SPDX-License-Identifier: MIT
-- A workbook as OpenDocument spreadsheet (ISO/IEC 26300). Texts have the type of texts,
-- so none is taken for a formula. No date, no name of a machine or a person: the same
-- workbook is the same bytes.
local csv = require "netsection.csv"
local markup = require "netsection.workbook.markup"
local ods_page = require "netsection.workbook.ods_page"
local ods_style = require "netsection.workbook.ods_style"
local zip = require "netsection.zip"

local ods = {}

local x = markup.xml
local MIME = "application/vnd.oasis.opendocument.spreadsheet"

-- An address as formulas and names have it: $'A sheet'.$B$3.
local function address(sheet, row, column)
  return ("$'%s'.$%s$%d"):format(sheet.name:gsub("'", "''"), csv.letter(column), row)
end

local function range(sheet, top, left, bottom, right)
  local name = "'" .. sheet.name:gsub("'", "''") .. "'"
  return ("%s.%s%d:%s.%s%d"):format(name, csv.letter(left), top, name, csv.letter(right),
    bottom)
end

------------------------------------------------------------------------------- cells

local function paragraphs(text)
  local out = {}
  for line in (text .. "\n"):gmatch "([^\n]*)\n" do
    line = x(line):gsub("^ ", "<text:s/>"):gsub("  +", function(blanks)
      return (' <text:s text:c="%d"/>'):format(#blanks - 1)
    end)
    out[#out + 1] = "<text:p>" .. line .. "</text:p>"
  end
  return table.concat(out)
end

-- A formula of named cells: arguments are parted by semicolons there.
local function formula_of(c)
  local text = c.formula:gsub(",", ";"):gsub("\1", function()
    return "[" .. address(c.of.sheet, c.of.row, c.of.column) .. "]"
  end)
  return 'table:formula="of:=' .. x(text) .. '" '
end

local function value_xml(c)
  local v = c.value
  local formula = c.formula and formula_of(c) or ""
  if v == nil or v == "" and not c.formula then return "", "" end
  if type(v) == "number" then
    local n = markup.number(v)
    return ('%soffice:value-type="float" office:value="%s" '):format(formula, n),
      "<text:p>" .. n .. "</text:p>"
  end
  return formula .. 'office:value-type="string" ', paragraphs((v:gsub("\r\n?", "\n")))
end

-- What lies under merged cells, and how far the first of them goes.
local function merged(sheet)
  local first, covered = {}, {}
  for _, m in ipairs(sheet.merges) do
    for row = m.top, m.bottom do
      covered[row] = covered[row] or {}
      for column = m.left, m.right do covered[row][column] = true end
    end
    covered[m.top][m.left] = nil
    first[m.top] = first[m.top] or {}
    first[m.top][m.left] = ('table:number-columns-spanned="%d" '
      .. 'table:number-rows-spanned="%d" '):format(m.right - m.left + 1,
      m.bottom - m.top + 1)
  end
  return first, covered
end

-- Name of the rule of a list that holds for a cell.
local function rule_of(sheet, row, column)
  for i, t in ipairs(sheet.choices) do
    if row >= t.top and row <= t.bottom and column >= t.left and column <= t.right then
      return ('table:content-validation-name="%s-%d" '):format(sheet.key, i)
    end
  end
  return ""
end

local function cell_xml(sheet, row, column, spans)
  local c = sheet.rows[row] and sheet.rows[row][column] or {}
  local value, text = value_xml(c)
  local attributes = (c.style and ('table:style-name="c%d" '):format(c.style) or "")
    .. rule_of(sheet, row, column)
    .. (spans[row] and spans[row][column] or "") .. value
  return "<table:table-cell " .. attributes .. ">" .. text .. "</table:table-cell>"
end

local function row_xml(sheet, row, height, spans, covered)
  local out = {('<table:table-row '
    .. 'table:style-name="%s">'):format(ods_style.height(height))}
  for column = 1, sheet.last_column do
    if covered[row] and covered[row][column] then
      out[#out + 1] = "<table:covered-table-cell/>"
    else
      out[#out + 1] = cell_xml(sheet, row, column, spans)
    end
  end
  out[#out + 1] = "</table:table-row>"
  return table.concat(out)
end

local function rows_xml(sheet)
  local spans, covered = merged(sheet)
  local out, head, heights = {}, sheet.repeated, sheet:heights()
  for row = 1, sheet.last_row do
    if head and row == head[1] then out[#out + 1] = "<table:table-header-rows>" end
    out[#out + 1] = row_xml(sheet, row, heights[row], spans, covered)
    if head and row == head[2] then out[#out + 1] = "</table:table-header-rows>" end
  end
  return table.concat(out)
end

local function table_xml(sheet)
  local columns = {}
  for i = 1, sheet.last_column do
    columns[i] = ('<table:table-column table:style-name="w%s"/>'):format(
      ods_style.width(sheet.columns[i]))
  end
  return ('<table:table table:name="%s" table:style-name="t%s" table:print-ranges="%s">')
    :format(x(sheet.name), sheet.key, x(range(sheet, 1, 1, sheet.last_row,
    sheet.last_column))) .. table.concat(columns) .. rows_xml(sheet) .. "</table:table>"
end

------------------------------------------------------------------------------- lists

local function rule_xml(sheet, i, t)
  local condition, from = "", t.from
  if from then
    condition = ('table:condition="of:cell-content-is-in-list([%s:.$%s$%d])" '):format(
      x(address(from.sheet, from.top, from.column)), csv.letter(from.column), from.bottom)
  end
  local help = ('<table:help-message table:title="%s" table:display="true">%s'
    .. "</table:help-message>"):format(x(t.title or ""), paragraphs(t.prompt or ""))
  local fault = from and '<table:error-message table:message-type="stop" '
    .. ('table:display="%s"/>'):format(t.open and "false" or "true") or ""
  return ('<table:content-validation table:name="%s-%d" %stable:allow-empty-cell="true" '
    .. 'table:base-cell-address="%s">%s%s</table:content-validation>')
    :format(sheet.key, i, condition, x(address(sheet, t.top, t.left)), help, fault)
end

local function rules_xml(book)
  local out = {}
  for _, sheet in ipairs(book.sheets) do
    for i, t in ipairs(sheet.choices) do out[#out + 1] = rule_xml(sheet, i, t) end
  end
  if #out == 0 then return "" end
  return "<table:content-validations>" .. table.concat(out)
    .. "</table:content-validations>"
end

local function names_xml(book)
  local out = {}
  for i, n in ipairs(book.names) do
    local place = x(address(n.sheet, n.row, n.column))
    out[i] = ('<table:named-range table:name="%s" table:base-cell-address="%s" '
      .. 'table:cell-range-address="%s"/>'):format(n.name, place, place)
  end
  if #out == 0 then return "" end
  return "<table:named-expressions>" .. table.concat(out) .. "</table:named-expressions>"
end

---------------------------------------------------------------------------- the whole

local function content_xml(book)
  local tables = {}
  for i, sheet in ipairs(book.sheets) do tables[i] = table_xml(sheet) end
  return markup.head .. "<office:document-content " .. markup.namespaces
    .. 'office:version="1.3">' .. ods_style.automatic(book)
    .. "<office:body><office:spreadsheet>" .. rules_xml(book) .. table.concat(tables)
    .. names_xml(book) .. "</office:spreadsheet></office:body></office:document-content>"
end

local function manifest_xml()
  local out = {}
  for _, name in ipairs {"content.xml", "styles.xml", "settings.xml"} do
    out[#out + 1] = ('<manifest:file-entry manifest:full-path="%s" '
      .. 'manifest:media-type="text/xml"/>'):format(name)
  end
  return markup.head .. '<manifest:manifest xmlns:manifest="urn:oasis:names:tc:'
    .. 'opendocument:xmlns:manifest:1.0" manifest:version="1.3"><manifest:file-entry '
    .. ('manifest:full-path="/" manifest:version="1.3" manifest:media-type="%s"/>%s')
    :format(MIME, table.concat(out)) .. "</manifest:manifest>"
end

--- The bytes of a workbook.
function ods.of(book)
  for i, sheet in ipairs(book.sheets) do sheet.key = "s" .. i end
  return zip.of {
    {name = "mimetype", text = MIME},
    {name = "content.xml", text = content_xml(book)},
    {name = "styles.xml", text = ods_page.styles(book)},
    {name = "settings.xml", text = ods_page.settings(book)},
    {name = "META-INF/manifest.xml", text = manifest_xml()},
  }
end

return ods
