-- SPDX-License-Identifier: MIT
-- A workbook as Office Open XML (ECMA-376 part 1, 18, transitional). Texts stand in their
-- cells as inline strings, which no program takes for formulas. No date, no name of a
-- machine or a person: the same workbook is the same bytes.
local csv = require "netsection.csv"
local markup = require "netsection.workbook.markup"
local zip = require "netsection.zip"

local xlsx = {}

local x = markup.xml
local HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
local MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
local RELATIONS = "http://schemas.openxmlformats.org/package/2006/relationships"
local OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
local TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml."

-- The reference of a cell: B7.
local function ref(row, column)
  return csv.letter(column) .. row
end

-- A reference that does not move, with its sheet: 'Inputs'!$D$4.
local function absolute(name, row, column)
  return ("'%s'!$%s$%d"):format(name:gsub("'", "''"), csv.letter(column), row)
end

------------------------------------------------------------------------------ styles

-- The number format of a style.
local function format_code(f)
  local whole = f.grouped and "#,##0" or "0"
  local code = f.fraction and "# ??/??" or whole
  if f.most > 0 then
    code = ("%s.%s%s"):format(whole, ("0"):rep(f.least), ("#"):rep(f.most - f.least))
  end
  return f.suffix and ('%s" %s"'):format(code, f.suffix:gsub('"', "\u{2033}")) or code
end

-- Things of which a style has the number; equal ones are one.
local function pool(first)
  local list, at = {}, {}
  -- The number of a text in a pool, put in where it is new.
  local function add(text)
    if not at[text] then
      list[#list + 1] = text
      at[text] = #list - 1
    end
    return at[text]
  end
  for _, text in ipairs(first) do add(text) end
  return list, add
end

-- A font as the format has it.
local function font_of(t)
  return ("<font>%s%s<sz val=\"%d\"/><name val=\"Arial\"/><family val=\"2\"/></font>")
    :format(t.bold and "<b/>" or "", t.italic and "<i/>" or "", t.size or 10)
end

-- A fill as the format has it.
local function fill_of(t)
  local color = markup.fills[t.fill]
  if not color then return '<fill><patternFill patternType="none"/></fill>' end
  return ('<fill><patternFill patternType="solid"><fgColor rgb="FF%s"/>'
    .. '<bgColor indexed="64"/></patternFill></fill>'):format(color)
end

-- Borders as the format has them.
local function border_of(t)
  local line = '<%s style="thin"><color rgb="FF808080"/></%s>'
  local out = {}
  for i, side in ipairs {"left", "right", "top", "bottom"} do
    local on = t.border == "all" or t.border == "under" and side == "bottom"
    out[i] = on and line:format(side, side) or "<" .. side .. "/>"
  end
  return "<border>" .. table.concat(out) .. "<diagonal/></border>"
end

-- A list of styles with its count.
local function list_of(tag, items)
  return ('<%s count="%d">%s</%s>'):format(tag, #items, table.concat(items), tag)
end

-- How a cell is set.
local function alignment_of(t)
  return ('<alignment%s vertical="top"%s/>'):format(
    t.align and (' horizontal="%s"'):format(t.align) or "",
    t.wrap and ' wrapText="1"' or "")
end

-- Styles of a book: the file's text, and the number of each style.
local function styles_of(book)
  local fonts, font = pool {font_of {}}
  local fills, fill = pool {fill_of {}, '<fill><patternFill '
    .. 'patternType="gray125"/></fill>'}
  local borders, border = pool {border_of {}}
  local codes, code = pool {}
  local xfs = {'<xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/>'}
  for _, t in ipairs(book.styles) do
    local number = t.format and 164 + code(format_code(t.format))
      or t.text and 49 or 0
    xfs[#xfs + 1] = ('<xf numFmtId="%d" fontId="%d" fillId="%d" borderId="%d" xfId="0" '
      .. 'applyNumberFormat="1" applyFont="1" applyFill="1" applyBorder="1" '
      .. 'applyAlignment="1">%s</xf>'):format(number, font(font_of(t)), fill(fill_of(t)),
      border(border_of(t)), alignment_of(t))
  end
  local formats = {}
  for i, text in ipairs(codes) do
    formats[i] = ('<numFmt numFmtId="%d" formatCode="%s"/>'):format(163 + i, x(text))
  end
  return HEAD .. ('<styleSheet xmlns="%s">'):format(MAIN)
    .. (#formats > 0 and list_of("numFmts", formats) or "") .. list_of("fonts", fonts)
    .. list_of("fills", fills) .. list_of("borders", borders)
    .. '<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/>'
    .. "</cellStyleXfs>" .. list_of("cellXfs", xfs)
    .. '<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/>'
    .. "</cellStyles></styleSheet>"
end

------------------------------------------------------------------------------ sheets

-- A cell: text inline, a number, or a formula with its value as worked out here.
local function cell_xml(row, column, c)
  local style = c.style and (' s="%d"'):format(c.style) or ""
  local open = ('<c r="%s"%s'):format(ref(row, column), style)
  local v = c.value
  if c.formula then
    local text = type(v) == "string"
    local formula = c.formula:gsub("\1", function()
      return absolute(c.of.sheet.name, c.of.row, c.of.column)
    end)
    return ("%s%s><f>%s</f><v>%s</v></c>"):format(open, text and ' t="str"' or "",
      x(formula), text and x(v) or markup.number(v))
  elseif v == nil or v == "" then
    return open .. "/>"
  elseif type(v) == "number" then
    return ("%s><v>%s</v></c>"):format(open, markup.number(v))
  end
  return ('%s t="inlineStr"><is><t xml:space="preserve">%s</t></is></c>'):format(open,
    x((v:gsub("_x(%x%x%x%x)_", "_x005F_x%1_"))))
end

-- Rows with the heights that their texts need.
local function rows_xml(sheet)
  local out, heights = {}, sheet:heights()
  for row = 1, sheet.last_row do
    local cells = sheet.rows[row]
    if cells then
      local height = heights[row]
      local shown = height and markup.number(math.min(height * 13.5, 409))
      out[#out + 1] = ('<row r="%d"%s>'):format(row, shown
        and (' ht="%s" customHeight="1"'):format(shown) or "")
      for column = 1, sheet.last_column do
        if cells[column] then out[#out + 1] = cell_xml(row, column, cells[column]) end
      end
      out[#out + 1] = "</row>"
    end
  end
  return table.concat(out)
end

-- Widths of columns.
local function columns_xml(sheet)
  if #sheet.columns == 0 then return "" end
  local out = {}
  for i, width in ipairs(sheet.columns) do
    out[i] = ('<col min="%d" max="%d" width="%s" customWidth="1"/>'):format(i, i,
      markup.number(width + 0.71))
  end
  return "<cols>" .. table.concat(out) .. "</cols>"
end

-- Rows that stay in view; the first sheet is the one that opens.
local function view_xml(sheet, first)
  local selected = first and ' tabSelected="1"' or ""
  if not sheet.frozen then
    return ('<sheetViews><sheetView%s workbookViewId="0"/></sheetViews>'):format(selected)
  end
  return ('<sheetViews><sheetView%s workbookViewId="0"><pane ySplit="%d" '
    .. 'topLeftCell="A%d" '
    .. 'activePane="bottomLeft" state="frozen"/></sheetView></sheetViews>'):format(
    selected, sheet.frozen, sheet.frozen + 1)
end

-- Merged cells.
local function merges_xml(sheet)
  if #sheet.merges == 0 then return "" end
  local out = {}
  for i, m in ipairs(sheet.merges) do
    out[i] = ('<mergeCell '
      .. 'ref="%s:%s"/>'):format(ref(m.top, m.left), ref(m.bottom, m.right))
  end
  return list_of("mergeCells", out)
end

-- Lists stand in cells of a sheet of their own, since a list in the rule itself is short.
local function choices_xml(sheet)
  if #sheet.choices == 0 then return "" end
  local out = {}
  for i, t in ipairs(sheet.choices) do
    local rule = t.from and ('type="list" allowBlank="1" %s'):format(t.open and ""
      or 'showErrorMessage="1" ') or 'allowBlank="1" '
    out[i] = ('<dataValidation %sshowInputMessage="1" promptTitle="%s" prompt="%s" '
      .. 'sqref="%s:%s">%s</dataValidation>'):format(rule, x(t.title or ""),
      x(t.prompt or ""), ref(t.top, t.left), ref(t.bottom, t.right),
      t.from and ("<formula1>%s:$%s$%d</formula1>"):format(x(absolute(t.from.sheet.name,
        t.from.top, t.from.column)), csv.letter(t.from.column), t.from.bottom) or "")
  end
  return list_of("dataValidations", out)
end

-- How a sheet prints: margins, paper, page numbers.
local function page_xml(sheet, book)
  return '<printOptions gridLines="0"/><pageMargins left="0.6" right="0.6" top="0.7" '
    .. 'bottom="0.7" header="0.3" footer="0.3"/>' .. ('<pageSetup paperSize="%d" '
    .. 'orientation="%s" fitToWidth="1" fitToHeight="0"/>'):format(
    book.paper == "a4" and 9 or 1, sheet.landscape and "landscape" or "portrait")
    .. ("<headerFooter><oddHeader>&amp;L%s&amp;R%s</oddHeader><oddFooter>&amp;CPage "
    .. "&amp;P of &amp;N</oddFooter></headerFooter>")
    :format(x((book.title:gsub("&", "&&"))), x((sheet.name:gsub("&", "&&"))))
end

-- A sheet as a file.
local function sheet_xml(sheet, book, first)
  return HEAD .. ('<worksheet xmlns="%s"><sheetPr><pageSetUpPr fitToPage="1"/></sheetPr>')
    :format(MAIN) .. view_xml(sheet, first) .. '<sheetFormatPr defaultRowHeight="13.5"/>'
    .. columns_xml(sheet) .. "<sheetData>" .. rows_xml(sheet) .. "</sheetData>"
    .. merges_xml(sheet) .. choices_xml(sheet) .. page_xml(sheet, book) .. "</worksheet>"
end

---------------------------------------------------------------------------- the whole

-- Names of cells and print titles.
local function names_xml(book)
  local list = {}
  for i, s in ipairs(book.sheets) do
    if s.last_row > 0 then
      list[#list + 1] = {"_xlnm.Print_Area", ("%s:$%s$%d"):format(absolute(s.name, 1, 1),
        csv.letter(s.last_column), s.last_row), i - 1}
    end
    if s.repeated then
      list[#list + 1] = {"_xlnm.Print_Titles", ("'%s'!$%d:$%d"):format(
        s.name:gsub("'", "''"), s.repeated[1], s.repeated[2]), i - 1}
    end
  end
  for _, n in ipairs(book.names) do
    list[#list + 1] = {n.name, absolute(n.sheet.name, n.row, n.column)}
  end
  local out = {}
  for i, n in ipairs(list) do
    out[i] = ("<definedName name=\"%s\"%s>%s</definedName>"):format(n[1],
      n[3] and (' localSheetId="%d"'):format(n[3]) or "", x(n[2]))
  end
  return #out > 0 and "<definedNames>" .. table.concat(out) .. "</definedNames>" or ""
end

-- The list of sheets and names.
local function workbook_xml(book)
  local sheets = {}
  for i, s in ipairs(book.sheets) do
    sheets[i] = ('<sheet name="%s" sheetId="%d"%s r:id="rId%d"/>'):format(x(s.name), i,
      s.hidden and ' state="hidden"' or "", i)
  end
  return HEAD .. ('<workbook xmlns="%s" '
    .. 'xmlns:r="%s"><bookViews><workbookView/></bookViews>'
    .. "<sheets>%s</sheets>%s<calcPr fullCalcOnLoad=\"1\"/></workbook>"):format(MAIN,
    OFFICE, table.concat(sheets), names_xml(book))
end

-- A relation of one file to another.
local function relation(id, kind, target)
  return ('<Relationship Id="rId%d" Type="%s/%s" Target="%s"/>'):format(id, OFFICE, kind,
    target)
end

-- Relations as a file.
local function relations_xml(list)
  return HEAD .. ('<Relationships xmlns="%s">%s</Relationships>'):format(RELATIONS,
    table.concat(list))
end

-- The list of what each file is.
local function types_xml(book)
  local out = {}
  for i in ipairs(book.sheets) do
    out[i] = ('<Override PartName="/xl/worksheets/sheet%d.xml" '
      .. 'ContentType="%sworksheet+xml"'
      .. "/>"):format(i, TYPE)
  end
  return HEAD .. '<Types xmlns="http://schemas.openxmlformats.org/package/2006/'
    .. 'content-types"><Default Extension="rels" ContentType="application/vnd.'
    .. 'openxmlformats-package.relationships+xml"/><Default Extension="xml" '
    .. 'ContentType="application/xml"/>' .. ('<Override PartName="/xl/workbook.xml" '
    .. 'ContentType="%ssheet.main+xml"/><Override PartName="/xl/styles.xml" '
    .. 'ContentType="%sstyles+xml"/>'):format(TYPE, TYPE) .. table.concat(out)
      .. "</Types>"
end

--- The bytes of a workbook.
function xlsx.of(book)
  local relations, files = {}, {}
  for i in ipairs(book.sheets) do
    relations[i] = relation(i, "worksheet", ("worksheets/sheet%d.xml"):format(i))
  end
  relations[#relations + 1] = relation(#relations + 1, "styles", "styles.xml")
  local function add(name, text) files[#files + 1] = {name = name, text = text} end
  add("[Content_Types].xml", types_xml(book))
  add("_rels/.rels", relations_xml {relation(1, "officeDocument", "xl/workbook.xml")})
  add("xl/workbook.xml", workbook_xml(book))
  add("xl/_rels/workbook.xml.rels", relations_xml(relations))
  add("xl/styles.xml", styles_of(book))
  for i, s in ipairs(book.sheets) do
    add(("xl/worksheets/sheet%d.xml"):format(i), sheet_xml(s, book, i == 1))
  end
  return zip.of(files)
end

return xlsx
