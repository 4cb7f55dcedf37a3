-- SPDX-License-Identifier: MIT
-- Styles of an OpenDocument spreadsheet's cells, columns, rows and numbers.
local markup = require "netsection.workbook.markup"
local point = require "netsection.point"

local ods_style = {}

local x = markup.xml

-- Width of a column in tenths of a character, as part of its style's name.
function ods_style.width(characters)
  return ("%d"):format(math.floor((characters or 10) * 10 + 0.5))
end

local function number_xml(f)
  local suffix = f.suffix and "<number:text> " .. x(f.suffix) .. "</number:text>" or ""
  if f.fraction then
    return '<number:fraction number:min-integer-digits="0" '
      .. 'number:min-numerator-digits="1" number:min-denominator-digits="2"/>' .. suffix
  end
  local attributes = ('number:decimal-places="%d" number:min-decimal-places="%d" '
    .. 'loext:min-decimal-places="%d" number:min-integer-digits="1"%s'):format(f.most,
    f.least, f.least, f.grouped and ' number:grouping="true"' or "")
  return "<number:number " .. attributes .. "/>" .. suffix
end

local function format_xml(i, f)
  return ('<number:number-style style:name="n%d">%s</number:number-style>'):format(i,
    number_xml(f))
end

local function cell_properties(t)
  local fill = markup.fills[t.fill]
  local line = "0.5pt solid #808080"
  local border = t.border == "all" and ('fo:border="%s" '):format(line)
    or t.border == "under" and ('fo:border-bottom="%s" '):format(line) or ""
  return ("<style:table-cell-properties %s%s%sstyle:vertical-align=\"top\"/>"):format(
    fill and ('fo:background-color="#%s" '):format(fill) or "", border,
    t.wrap and 'fo:wrap-option="wrap" ' or "")
end

local ALIGN = {left = "start", center = "center", right = "end"}

local function cell_style(i, t, formats)
  local align = t.align and ('<style:paragraph-properties fo:text-align="%s"/>'):format(
    ALIGN[t.align]) or ""
  return ('<style:style style:name="c%d" style:family="table-cell" '
    .. 'style:parent-style-name="Default"%s>%s%s<style:text-properties '
    .. '%s%sfo:font-size="%dpt"'
    .. "/></style:style>"):format(i, t.format
    and (' style:data-style-name="n%d"'):format(formats[t.format.key])
    or t.text and ' style:data-style-name="ntext"' or "", cell_properties(t), align,
    t.bold and 'fo:font-weight="bold" ' or "", t.italic and 'fo:font-style="italic" '
      or "",
    t.size or 10)
end

local function widths_xml(book)
  local seen, out = {}, {}
  for _, sheet in ipairs(book.sheets) do
    for i = 1, sheet.last_column do
      local width = ods_style.width(sheet.columns[i])
      if not seen[width] then
        seen[width] = true
        out[#out + 1] = point.format('<style:style style:name="w%s" '
          .. 'style:family="table-column"><style:table-column-properties '
          .. 'style:column-width="%.3fin"/></style:style>', width,
          tonumber(width) / 10 * 0.078 + 0.05)
      end
    end
  end
  return table.concat(out)
end

-- Name of the style of rows so many lines high, one where nil.
function ods_style.height(lines)
  return "r" .. math.floor((lines or 1) * 10 + 0.5)
end

local function heights_xml(book)
  local seen, out = {}, {}
  local function add(lines)
    local name = ods_style.height(lines)
    if seen[name] then return end
    seen[name] = true
    out[#out + 1] = point.format('<style:style style:name="%s" '
      .. 'style:family="table-row"><style:table-row-properties '
      .. 'style:row-height="%.3fin" style:use-optimal-row-height="false"/>'
      .. '</style:style>', name, lines * 0.19)
  end
  add(1)
  for _, sheet in ipairs(book.sheets) do
    local heights = sheet:heights()
    for row = 1, sheet.last_row do
      if heights[row] then add(heights[row]) end
    end
  end
  return table.concat(out)
end

--- Styles that the cells name.
function ods_style.automatic(book)
  local out, formats, count = {}, {}, 0
  out[1] = '<number:text-style style:name="ntext"><number:text-content/>'
    .. "</number:text-style>"
  for _, t in ipairs(book.styles) do
    if t.format and not formats[t.format.key] then
      count = count + 1
      formats[t.format.key] = count
      out[#out + 1] = format_xml(count, t.format)
    end
  end
  for i, t in ipairs(book.styles) do out[#out + 1] = cell_style(i, t, formats) end
  for _, sheet in ipairs(book.sheets) do
    out[#out + 1] = ('<style:style style:name="t%s" style:family="table" '
      .. 'style:master-page-name="m%s"><style:table-properties table:display="%s"/>'
      .. "</style:style>"):format(sheet.key, sheet.key, sheet.hidden and "false"
        or "true")
  end
  return "<office:automatic-styles>" .. table.concat(out) .. widths_xml(book)
    .. heights_xml(book) .. "</office:automatic-styles>"
end

return ods_style
