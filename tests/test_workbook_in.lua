-- SPDX-License-Identifier: MIT
-- Field books kept as workbooks: what comes in is what the same sheets are as CSV files;
-- what is ugly or hostile becomes a named problem, or the right floor, in bounded memory.
-- Forms of the files by ECMA-376 and ISO/IEC 26300; dates by ECMA-376 part 1, 18.17.4.1.
local command = require "netsection.command"
local lu = require "luaunit"
local ns = require "netsection"
local office = require "tests.workbook"
local read = require "netsection.workbook.read"
local support = require "tests.support"
local zip = require "netsection.zip"
local system = require "tests.system"

local T = {}

local ROOT = system.build .. "/test_workbook"
local HEAD = {"mark", "size", "species", "grade", "span", "spacing", "bearing", "dead",
  "live"}

function T.setUp()
  lu.skipIf(office.missing() ~= nil, office.missing())
end

local function survey(bytes, name)
  return ns.read_survey {workbook = {text = bytes, name = name or "book.xlsx"}}
end

local function floor_of(bytes)
  local floor, found = survey(bytes)
  lu.assertNotNil(floor, found and found[1].text)
  return floor
end

-- The problems as one text; fails where there are none.
local function told(bytes)
  local floor, found = survey(bytes)
  lu.assertNil(floor)
  local out = {}
  for i, p in ipairs(found) do out[i] = p.text end
  return table.concat(out, "\n")
end

local function notes(floor)
  return table.concat(floor.survey.notes, "\n")
end

local function joist(mark, span, changes)
  local row = {mark, "2x10", "hem-fir", "No.2", span or "12-0", 16, 3.5, 12, 40}
  for i, v in pairs(changes or {}) do row[i] = v end
  return row
end

-- An .xlsx of hand-made rows under the headings.
local function sheet(rows, more)
  local out = {office.row(1, HEAD)}
  for i, row in ipairs(rows) do out[i + 1] = office.row(i + 1, row, row.attributes) end
  return office.xlsx(table.concat(out), more)
end

------------------------------------------------------------------- the example's survey

local function files_of_example()
  local files = {}
  for _, name in ipairs {"survey", "joists", "cuts", "obstructions", "loads", "fixes"} do
    local file <close> = assert(io.open(("examples/survey/%s.csv"):format(name), "rb"))
    files[name] = file:read "a"
  end
  return files
end

local function from_csv(files)
  return assert(ns.read_survey {joists = files.joists, cuts = files.cuts,
    obstructions = files.obstructions, loads = files.loads, fixes = files.fixes,
    settings = files.survey})
end

local function package_of(floor)
  local settings, out = floor.survey.settings, {}
  for _, f in ipairs(ns.package.files(floor:review(), {paper = settings.paper,
    visit = settings.visit, concealed = settings.concealed})) do
    out[#out + 1] = f.name .. "\n" .. f.text
  end
  return out
end

-- All a package is made of. Rows and settings are part of it.
local function same_floor(floor, expected)
  local a, b = floor.description, expected.description
  lu.assertEquals(a.joists, b.joists)
  lu.assertEquals(a.obstructions, b.obstructions)
  lu.assertEquals(floor.survey.settings, expected.survey.settings)
  lu.assertEquals(floor.survey.obstructions, expected.survey.obstructions)
  lu.assertEquals({a.name, a.rules, a.standard}, {b.name, b.rules, b.standard})
end

function T.test_example_as_workbook_gives_the_same_package()
  local files = files_of_example()
  local expected = from_csv(files)
  local kept <close> = assert(io.open("examples/survey/book.xlsx", "rb"))
  lu.assertTrue(kept:read "a" == office.of_survey("xlsx", files),
    "examples/survey/book.xlsx")
  local floor = floor_of(office.of_survey("xlsx", files))
  lu.assertEquals(package_of(floor), package_of(expected))
  same_floor(floor_of(office.of_survey("ods", files)), expected)
end

function T.test_example_saved_by_the_office_program()
  lu.skipIf(not office.office(), "no office program on this machine")
  local files, folder = files_of_example(), ROOT
  system.fresh(folder)
  for _, kind in ipairs {"xlsx", "ods"} do
    assert(ns.write(("%s/from-%s.%s"):format(folder, kind, kind),
      office.of_survey(kind, files)))
  end
  local expected = from_csv(files)
  for _, kind in ipairs {"xlsx", "ods"} do
    lu.assertTrue(office.convert(folder, kind, folder .. "/from-xlsx.xlsx",
      folder .. "/from-ods.ods"))
    for _, made in ipairs {"xlsx", "ods"} do
      local floor, found = ns.read_survey {workbook = ("%s/out/from-%s.%s"):format(folder,
        made, kind)}
      lu.assertNotNil(floor, found and found[1].text)
      same_floor(floor, expected)
    end
  end
  system.remove(folder)
end

---------------------------------------------------------------------- ugly workbooks

function T.test_merged_title_and_merged_headings()
  -- Title over all columns; headings of two rows, some merged downwards.
  local rows = office.row(1, {"Old mill, first floor"}) .. office.row(3, {"mark", "size",
    "species", "grade", "span", "spacing", "bearing", "loads"})
    .. office.row(4, {"", "", "", "", "", "", "", "dead", "live"})
    .. office.row(5, joist "J1")
  local merges = {"A1:I1", "H3:I3"}
  for _, letter in ipairs {"A", "B", "C", "D", "E", "F", "G"} do
    merges[#merges + 1] = ("%s3:%s4"):format(letter, letter)
  end
  for i, ref in ipairs(merges) do merges[i] = ('<mergeCell ref="%s"/>'):format(ref) end
  local text = told(office.xlsx(rows, {after = "<mergeCells>" .. table.concat(merges)
    .. "</mergeCells>"}))
  -- The upper row is taken for the headings: what lies under it is told cell by cell.
  lu.assertStrContains(text, "book.xlsx, sheet joists, ")
  lu.assertStrContains(text, "a cell without a heading")
  -- With the headings in one row, under a merged title, it is the right floor.
  rows = office.row(1, {"Old mill, first floor"}) .. office.row(3, HEAD)
    .. office.row(5, joist "J1")
  local floor = floor_of(office.xlsx(rows, {after =
    '<mergeCells><mergeCell ref="A1:I1"/><mergeCell ref="A3:A4"/></mergeCells>'}))
  support.close(floor.joists[1].model.span[1], 144)
  lu.assertStrContains(notes(floor), "what stands above row 3 is not read")
end

function T.test_cells_merged_downwards_and_across()
  local merges = '<mergeCells><mergeCell ref="E2:E4"/></mergeCells>'
  local floor = floor_of(sheet({joist("J1", "13-6"), joist("J2", ""), joist("J3", "")},
    {after = merges}))
  for i = 1, 3 do support.close(floor.joists[i].model.span[1], 162) end
  lu.assertStrContains(notes(floor),
    "book.xlsx, sheet joists: cells E2:E4 are merged; their value holds for each row")
  local text = told(sheet({joist("J1", "12-0", {[8] = 12, [9] = ""})},
    {after = '<mergeCells><mergeCell ref="H2:I2"/></mergeCells>'}))
  lu.assertStrContains(text, "book.xlsx, sheet joists, cell H2 (dead): cells H2:I2 are "
    .. "merged across columns")
end

function T.test_blank_and_other_sheets()
  for _, kind in ipairs {"ods", "xlsx"} do
    local floor = floor_of(office.of_rows(kind, {{name = "Photos", rows = {}},
      {name = "JOISTS.csv", rows = {HEAD, [4] = joist "J1"}}, {name = "Cuts", rows = {
      {"joist", "kind", "at", "diameter"}, {"J1", "hole", "4-0", "2 in"}}},
      {name = "Fixes", rows = {{"joist", "kind"}}}}))
    lu.assertEquals(#floor.joists[1].model.cuts, 1)
    lu.assertStrContains(notes(floor), "book.xlsx: sheet Photos is not read")
    lu.assertStrContains(told(office.of_rows(kind, {{name = "joist", rows = {HEAD}}})),
      "book.xlsx, sheet joist: no known sheet; 'joists' is meant?")
    lu.assertStrContains(told(office.of_rows(kind, {{name = "joists", rows = {}}})),
      "book.xlsx, sheet joists: the file is empty")
    lu.assertStrContains(told(office.of_rows(kind, {{name = "joists", rows = {HEAD,
      joist "J1"}}, {name = "Joists.CSV", rows = {HEAD}}})), "sheet joists holds the "
        .. "same")
  end
end

function T.test_numbers_as_text_and_decimal_commas()
  local floor = floor_of(sheet {joist("J1", "144", {[6] = "16", [7] = "3.5"})})
  support.close(floor.joists[1].model.span[1], 144)
  -- Where the decimal comma was declared, a typed 3.5 stays 3.5.
  local bytes = sheet {joist("J1", 144, {[7] = 3.5, [8] = "12,5"})}
  floor = assert(ns.read_survey {workbook = {text = bytes}, decimal = ","})
  support.close(floor.joists[1].model.bearing[1], 3.5)
  -- 0.1 + 0.2 as a spreadsheet stores it is 0.3 in.
  floor = floor_of(sheet {joist("J1", 144, {[7] = 0.1 + 3.4})})
  lu.assertEquals(floor.joists[1].description.bearing, 3.5)
end

-- 12 January 2026 is 46034 days after 30 December 1899, and 44572 after 1 January 1904.
local STYLES = '<numFmts><numFmt numFmtId="164" formatCode="[$-409]d\\-mmm;@"/></numFmts>'
  .. '<cellXfs><xf numFmtId="0"/><xf numFmtId="164"/><xf numFmtId="14"/></cellXfs>'

function T.test_dates()
  for calendar, days in pairs {[""] = 46034, ['<workbookPr date1904="1"/>'] = 44572} do
    for style = 1, 2 do
      local text = told(sheet({joist("J1", ('<c r="E2" '
        .. 's="%d"><v>%d</v></c>'):format(style,
        days))}, {styles = STYLES, book = calendar}))
      lu.assertStrContains(text, 'cell E2 (span): length expected, got "2026-01-12"')
      lu.assertStrContains(text, "this looks like a date that the spreadsheet made of it")
    end
  end
  local text = told(office.ods('<table:table table:name="joists"><table:table-row>'
    .. "<table:table-cell><text:p>mark</text:p></table:table-cell><table:table-cell>"
    .. "<text:p>span</text:p></table:table-cell></table:table-row><table:table-row>"
    .. "<table:table-cell><text:p>J1</text:p></table:table-cell><table:table-cell "
    .. 'office:value-type="date" office:date-value="2026-01-12"><text:p>12. Jan</text:p>'
    .. "</table:table-cell></table:table-row></table:table>"))
  lu.assertStrContains(text, 'cell B2 (span): length expected, got "2026-01-12"')
end

function T.test_formulas_and_errors()
  local function cell(xml) return sheet {joist("J1", xml)} end
  local floor = floor_of(cell '<c r="E2"><f>12*12</f><v>144</v></c>')
  support.close(floor.joists[1].model.span[1], 144)
  lu.assertStrContains(notes(floor), "1 formula read by the stored value")
  lu.assertStrContains(told(cell '<c r="E2" t="e"><f>1/0</f><v>#DIV/0!</v></c>'),
    "book.xlsx, sheet joists, cell E2 (span): #DIV/0!, an error of the spreadsheet")
  lu.assertStrContains(told(cell '<c r="E2"><f>F2*9</f></c>'),
    "cell E2 (span): the formula has no stored value")
  lu.assertStrContains(told(sheet {{'<c r="A2" t="e"><v>#REF!</v></c>', "2x10"}}),
    "cell A2 (mark): #REF!, an error of the spreadsheet")
  -- A column that is not read may hold what it likes.
  local rows = office.row(1, {"mark", "span", "size", "species", "grade", "spacing",
    "bearing", "dead", "live", "my sum"}) .. office.row(2, {"J1", "12-0", "2x10",
      "hem-fir",
    "No.2", 16, 3.5, 12, 40, '<c r="J2" t="e"><v>#N/A</v></c>'})
  lu.assertStrContains(notes(floor_of(office.xlsx(rows))), "column J (my sum) is not "
    .. "read")
end

function T.test_hidden_rows_and_sheets_are_said()
  local hidden = joist "J2"
  hidden.attributes = 'hidden="1"'
  local floor = floor_of(sheet({joist "J1", hidden, joist "J3"}))
  lu.assertEquals(#floor.joists, 3)
  lu.assertStrContains(notes(floor), "book.xlsx, sheet joists: hidden rows are read: 3")
  local head = "<table:table-row>" .. ("<table:table-cell><text:p>%s</text:p>"
    .. "</table:table-cell>"):rep(#HEAD):format(table.unpack(HEAD))
      .. "</table:table-row>"
  local cells = joist "J1"
  for i, v in ipairs(cells) do cells[i] = tostring(v) end
  local row = '<table:table-row table:visibility="filter" table:number-rows-repeated="1">'
    .. ("<table:table-cell><text:p>%s</text:p></table:table-cell>"):rep(#HEAD):format(
    table.unpack(cells)) .. "</table:table-row>"
  floor = floor_of(office.ods('<table:table table:name="joists">' .. head .. row
    .. "</table:table>"))
  lu.assertStrContains(notes(floor), "hidden rows are read: 2")
end

-- A workbook as a spreadsheet saves it: texts stand in a part of their own (ECMA-376 part
-- 1, 18.4), where runs of one text follow one another and readings of Asian text are none
-- of it; characters that XML has not are written _x000A_ (22.9.2.19).
local STRINGS = [[<si><t>mark</t></si><si><r><t>sp</t></r><r><rPr><b/></rPr><t>an</t></r>
  </si><si><t>J1</t><rPh sb="0" eb="1"><t>reading</t></rPh></si>
  <si><t xml:space="preserve">12-0 </t></si><si><t>note</t></si>
  <si><t>one_x000A_two _x005F_x0041_ _x0000_x_xD800_ x_y</t></si>]]

local function with_strings(cells, strings)
  local out = {}
  for row, list in ipairs(cells) do
    for i, k in ipairs(list) do
      list[i] = ('<c r="%s%d" t="s"><v>%s</v></c>'):format(("ABC"):sub(i, i), row, k)
    end
    for i, v in ipairs {"size", "species", "grade", "spacing", "bearing", "dead",
      "live"} do
      list[i + 3] = row == 1 and v or ({"2x10", "hem-fir", "No.2", 16, 3.5, 12, 40})[i]
    end
    out[row] = office.row(row, list)
  end
  local parts = office.xlsx_parts(table.concat(out), {parts = {{
    name = "xl/sharedStrings.xml", text = '<sst xmlns="http://schemas.openxmlformats.org/'
    .. 'spreadsheetml/2006/main">' .. strings .. "</sst>"}}})
  parts[4].text = parts[4].text:gsub("</Relationships>", '<Relationship Id="s3" Type="'
    .. "http://schemas.openxmlformats.org/officeDocument/2006/relationships/"
    .. 'sharedStrings" Target="/xl/sharedStrings.xml"/>%0')
  return zip.of(parts)
end

function T.test_texts_that_cells_share()
  local bytes = with_strings({{0, 1, 4}, {2, 3, 5}}, STRINGS)
  local one = floor_of(bytes).joists[1]
  lu.assertEquals(one.description.mark, "J1")
  support.close(one.model.span[1], 144)
  lu.assertEquals(one.description.note, "one\ntwo _x0041_ x_xD800_ x_y")
  lu.assertStrContains(told(with_strings({{0, 1, 4}, {2, 9, 5}}, STRINGS)),
    "book.xlsx, sheet joists, cell B2 (span): its text is missing in the workbook")
end

-- Kinds of cells (18.18.11): text of a formula, truth, date; and numbers by the format
-- of their style (18.8.30, 18.8.31).
local FORMATS = '<numFmts><numFmt numFmtId="170" formatCode="0.0%;[Red]\\-0.0%"/><numFmt '
  .. 'numFmtId="171" formatCode="0 &quot;days%&quot;"/><numFmt numFmtId="172" '
  .. 'formatCode="General&quot; ft&quot;"/><numFmt numFmtId="173" formatCode="[h]:mm"/>'
  .. '</numFmts><cellXfs><xf numFmtId="9"/><xf numFmtId="170"/><xf numFmtId="171"/>'
  .. '<xf numFmtId="172"/><xf numFmtId="173"/><xf numFmtId="14"/></cellXfs>'

function T.test_kinds_of_cells()
  local function cell(xml)
    return sheet({joist("J1", '<c r="E2" ' .. xml .. "</c>")}, {styles = FORMATS})
  end
  support.close(floor_of(cell 't="str"><f>A1</f><v>12-0</v>').joists[1].model.span[1],
    144)
  for xml, got in pairs {['t="b"><v>1</v>'] = "yes", ['t="b"><v>0</v>'] = "no",
    ['t="d"><v>2026-01-12</v>'] = "2026-01-12", ['s="0"><v>0.5</v>'] = "50%",
    ['s="1"><v>0.125</v>'] = "12.5%", ['s="4"><v>0.5</v>'] = "12:00",
    ['s="5"><v>46034.25</v>'] = "2026-01-12 06:00",
    -- 6 h 0 min 1 s = 0.25 + 1/86400 of a day
    ['s="5"><v>0.2500115740740741</v>'] = "06:00:01",
    -- The leap day that 1900 had not, and days before it (18.17.4.1).
    ['s="5"><v>59</v>'] = "1900-02-28", ['s="5"><v>61</v>'] = "1900-03-01"} do
    lu.assertStrContains(told(cell(xml)), ('cell E2 (span): length expected, got "%s"')
      :format(got))
  end
  for style = 2, 3 do -- words beside a number leave it one
    support.close(floor_of(cell(('s="%d"><v>144</v>'):format(style))).joists[1].model
      .span[1], 144)
  end
  lu.assertStrContains(told(cell "><v>12 ft</v>"), "cell E2 (span): no number: 12 ft")
end

function T.test_hidden_columns_and_links_are_said()
  local floor = floor_of(sheet({joist "J1"}, {after = '<cols><col min="2" max="3" '
    .. 'hidden="1"/><col min="5" max="5" hidden="true"/><col min="9" max="9"/></cols>',
    book = '<externalReferences><externalReference r:id="x"/></externalReferences>'}))
  lu.assertStrContains(notes(floor), "book.xlsx, sheet joists: hidden columns are read: "
    .. "B to C, E")
  lu.assertStrContains(notes(floor), "book.xlsx: links to other files are not followed")
  local parts = office.xlsx_parts(office.row(1, HEAD) .. office.row(2, joist "J1"))
  parts[4].text = parts[4].text:gsub("</Relationships>", '<Relationship Id="s9" '
    .. 'TargetMode="External" Target="file:///x"/>%0')
  lu.assertStrContains(notes(floor_of(zip.of(parts))),
    "book.xlsx: links to other files are not followed")
end

local function ods_cell(text, attributes)
  return ("<table:table-cell %s><text:p>%s</text:p></table:table-cell>"):format(
    attributes or "", text)
end

local function ods_row(cells, attributes)
  local out = {}
  for i, v in ipairs(cells) do
    v = tostring(v)
    out[i] = v:find "^<" and v or ods_cell(v)
  end
  return ("<table:table-row %s>%s</table:table-row>"):format(attributes or "",
    table.concat(out))
end

local function ods_table(rows, before)
  return '<table:table table:name="joists">' .. (before or "") .. ods_row(HEAD)
    .. table.concat(rows) .. "</table:table>"
end

-- Kinds of values of ISO/IEC 26300 part 1, 19.385; errors as the office program stores
-- them.
function T.test_kinds_of_ods_cells()
  local function cell(attributes, text)
    return office.ods(ods_table {ods_row(joist("J1", ods_cell(text or "", attributes)))})
  end
  for attributes, got in pairs {
    ['office:value-type="boolean" office:boolean-value="true"'] = "yes",
    ['office:value-type="boolean" office:boolean-value="false"'] = "no",
    ['office:value-type="percentage" office:value="0.5"'] = "50%",
    ['office:value-type="date" office:date-value="2026-01-12T06:00:00"']
      = "2026-01-12 06:00:00"} do
    lu.assertStrContains(told(cell(attributes)), ('cell E2 (span): length expected, got '
      .. '"%s"'):format(got))
  end
  support.close(floor_of(cell 'office:value-type="float" office:value="144"').joists[1]
    .model.span[1], 144)
  lu.assertStrContains(told(cell 'table:formula="of:=A1"'),
    "cell E2 (span): the formula has no stored value")
  lu.assertStrContains(told(cell('table:formula="of:=1/0" office:value-type="string" '
    .. 'office:string-value=""', "#DIV/0!")), "#DIV/0!, an error of the spreadsheet")
  lu.assertStrContains(told(cell('office:value-type="float" office:value="x"')),
    "cell E2 (span): no number: x")
end

function T.test_what_an_ods_has_beside_its_cells()
  local merged = ods_cell("13-6", 'table:number-rows-spanned="2"')
  local covered = "<table:covered-table-cell/>"
  local columns = '<table:table-column table:number-columns-repeated="2"/>'
    .. '<table:table-column table:visibility="collapse" '
    .. 'table:number-columns-repeated="2"/>'
  local bytes = office.ods(ods_table({ods_row(joist("J1", merged)), ods_row(joist("J2",
    covered))}, "<table:table-source/><table:shapes><draw><text:p>not this</text:p>"
    .. "</draw></table:shapes>" .. columns), {{name = "Basic/script-lb.xml", text = "x"}})
  local floor = floor_of(bytes)
  for i = 1, 2 do support.close(floor.joists[i].model.span[1], 162) end
  for _, said in ipairs {"cells E2:E3 are merged; their value holds for each row",
    "hidden columns are read: C to D", "macros in it are neither run nor read",
    "links to other files are not followed"} do
    lu.assertStrContains(notes(floor), said)
  end
  lu.assertStrContains(told(office.ods(ods_table {ods_row {("x"):rep(40001)}})),
    "book.xlsx: sheet joists: a cell is too long")
  lu.assertStrContains(told(zip.of {{name = "mimetype", text = "application/vnd.oasis."
    .. "opendocument.spreadsheet"}}), "it has no content inside")
end

-- Blanks of ISO/IEC 26300 part 1, 6.1.2; remarks and drawings in a cell are none of it.
function T.test_text_of_an_ods_cell()
  local function cell(xml)
    return "<table:table-cell>" .. xml .. "</table:table-cell>"
  end
  local head, values = "", ""
  for i, name in ipairs(HEAD) do
    head = head .. cell("<text:p>" .. name .. "</text:p>")
    values = values .. cell("<text:p>" .. joist "J1"[i] .. "</text:p>")
  end
  head = head .. cell "<text:p>note</text:p>"
  values = values .. cell('<office:annotation><text:p>not '
    .. 'this</text:p></office:annotation>'
    .. "<text:p>  one\n <text:span>two</text:span><text:s text:c=\"2\"/>three</text:p>"
    .. '<text:p><text:a>four</text:a></text:p>')
  local floor = floor_of(office.ods('<table:table table:name="joists"><table:table-row>'
    .. head .. "</table:table-row><table:table-row>" .. values
    .. "</table:table-row></table:table>"))
  lu.assertEquals(floor.joists[1].description.note, "one two  three\nfour")
end

function T.test_macros_and_links_are_left_alone()
  local floor = floor_of(sheet({joist "J1"}, {parts = {{name = "xl/vbaProject.bin",
    text = "x"}, {name = "xl/externalLinks/externalLink1.xml", text = "<a/>"}},
    after = '<hyperlinks><hyperlink ref="A2"/></hyperlinks>'}))
  lu.assertStrContains(notes(floor), "book.xlsx: macros in it are neither run nor read")
  lu.assertStrContains(notes(floor), "book.xlsx: links to other files are not followed")
  lu.assertStrContains(notes(floor), "sheet joists: links in cells are not followed")
end

-- Raw deflate of a piece that can be repeated: a full flush forgets what was before.
local function deflated(piece, times)
  local deflate = require "zlib".deflate(9, -15)
  local block = deflate(piece, "full")
  return block:rep(times) .. "\3\0"
end

-- An archive with one part packed, which says of itself what it likes.
local function packed(name, data, size, others)
  local bytes = zip.of(others)
  local at = bytes:find "PK\1\2"
  local central = bytes:sub(at, -23)
  local head = string.pack("<I2I2I2I2I2I4I4I4I2I2", 20, 0, 8, 0, 33, 0, #data, size,
    #name, 0)
  local part = "PK\3\4" .. head .. name .. data
  local entry = "PK\1\2" .. string.pack("<I2", 20) .. head
    .. string.pack("<I2I2I2I4I4", 0, 0, 0, 0, at - 1) .. name
  return bytes:sub(1, at - 1) .. part .. central .. entry .. "PK\5\6" .. string.pack(
    "<I2I2I2I2I4I4I2", 0, 0, #others + 1, #others + 1, #central + #entry,
      at - 1 + #part, 0)
end

function T.test_a_bomb_of_ten_megabytes_in_bounded_memory()
  local parts = office.xlsx_parts("", {})
  table.remove(parts, 5)
  local data = deflated((" "):rep(1 << 20), 10240)
  lu.assertTrue(#data > 9e6)
  for size, expected in pairs {[4294967294] = "more than 64 MB", [1000] = "larger than "
    .. "it says"} do
    local bytes = packed("xl/worksheets/sheet1.xml", data, size, parts)
    collectgarbage()
    local before, peak = collectgarbage "count", 0
    debug.sethook(function()
      peak = math.max(peak, collectgarbage "count")
    end, "", 1000)
    local text = told(bytes)
    debug.sethook()
    lu.assertStrContains(text, expected)
    lu.assertTrue(peak - before < 80e3, ("%.0f kB more"):format(peak - before))
  end
end

function T.test_entities_are_refused()
  local rows = office.row(1, HEAD)
  local text = told(office.xlsx(rows, {head = '<!DOCTYPE a [<!ENTITY e SYSTEM '
    .. '"file:///etc/passwd">]>'}))
  lu.assertStrContains(text, "declares entities or a document type, which is not read")
  local list = {'<!ENTITY e0 "ha">'}
  for i = 1, 20 do
    list[#list + 1] = ('<!ENTITY e%d "%s">'):format(i, ("&e" .. i - 1 .. ";"):rep(10))
  end
  text = told(office.xlsx(rows, {head = "<!DOCTYPE a [" .. table.concat(list) .. "]>"}))
  lu.assertStrContains(text, "declares entities or a document type, which is not read")
end

function T.test_paths_that_lead_out()
  for _, name in ipairs {"../joists.csv", "/etc/x", "xl/../../x", "C:\\x", "xl\\..\\x"} do
    lu.assertStrContains(told(sheet({joist "J1"}, {parts = {{name = name, text = ""}}})),
      "which leads out of the workbook")
  end
  local parts = office.xlsx_parts(office.row(1, HEAD), {})
  parts[4].text = parts[4].text:gsub("worksheets/sheet1", "../../sheet1")
  lu.assertStrContains(told(zip.of(parts)), "a relation inside leads out of the workbook")
end

function T.test_sheets_that_are_too_large()
  local function repeated(rows, columns)
    return told(office.ods(('<table:table table:name="joists"><table:table-row '
      .. 'table:number-rows-repeated="%d"><table:table-cell '
      .. 'table:number-columns-repeated='
      .. '"%d"><text:p>x</text:p></table:table-cell></table:table-row></table:table>')
      :format(rows, columns)))
  end
  lu.assertStrContains(repeated(1048576, 1), "sheet joists has more than 20000 rows")
  lu.assertStrContains(repeated(2, 16384), "sheet joists: cell IW1 lies beyond column IV")
  lu.assertStrContains(repeated(19999, 200), "sheet joists has more than 400000 cells")
  local long = ("x"):rep(40001)
  lu.assertStrContains(told(sheet {{long}}), "too long")
  lu.assertStrContains(told(office.xlsx(("<a>"):rep(200) .. ("</a>"):rep(200))),
    "is nested too deep")
end

-- What an archive says of itself (APPNOTE 4.3), changed in one place.
function T.test_archives_that_say_what_is_not_so()
  local bytes = sheet {joist "J1"}
  local name = bytes:find("xl/workbook.xml", bytes:find "PK\1\2", true)
  local central = name - 46
  local first = ("<I4"):unpack(bytes, central + 42) + 1
  local function changed(at, with)
    return told(bytes:sub(1, at - 1) .. with .. bytes:sub(at + #with))
  end
  for _, case in ipairs {
    {central, "PK\1\3", "its list of parts is cut short"},
    {central + 10, "\12\0", "a part is packed by method 12, which is not read"},
    {central + 20, "\255\255\255\255", "parts of 4 GB and more are not read"},
    {central + 24, "\255\255\255\255", "parts of 4 GB and more are not read"},
    {central + 28, "\255\255", "a name is cut short"},
    {first, "PK\3\5", "a part is not where the list says"},
    {first + 28, "\255\255", "a part is cut short"},
    {central + 16, "\0\0\0\0", "the check sum of a part is wrong"},
    {#bytes - 21 + 4, "\1", "it has several disks"},
    {#bytes - 21 + 10, "\255\255", "more than 4096 parts inside"},
    {#bytes - 21 + 16, "\255\255\255\127", "its list of parts is cut short"}} do
    lu.assertStrContains(changed(case[1], case[2]), case[3], false, case[3])
  end
  local parts = office.xlsx_parts("", {})
  table.remove(parts, 5)
  lu.assertStrContains(told(packed("xl/worksheets/sheet1.xml", "\7\7\7", 100, parts)),
    "the archive is damaged: a part does not unpack")
  lu.assertStrContains(told(packed("xl/worksheets/sheet1.xml", deflated((" "):rep(500),
    1), 100, parts)), "the archive is damaged: a part is larger than it says")
end

function T.test_what_is_no_workbook()
  lu.assertStrContains(told "\xD0\xCF\x11\xE0 and so on", "an old .xls or protected by a "
    .. "password")
  for _, text in ipairs {"", "mark,span\n", "PK", "PK\3\4", "PK\5\6" .. ("\0"):rep(18)} do
    lu.assertStrContains(told(text), "book.xlsx: ")
  end
  lu.assertStrContains(told(office.ods("", {{name = "META-INF/manifest.xml",
    text = "<a><encryption-data/></a>"}})), "protected by a password")
  lu.assertStrContains(told(zip.of {{name = "mimetype",
    text = "application/vnd.oasis.opendocument.text"}}), "it is no workbook")
  for _, path in ipairs {"", "a\0b"} do
    local _, list = ns.read_survey {workbook = path}
    lu.assertStrContains(list[1].text, "cannot be read: a path expected")
  end
  local _, found = ns.read_survey {workbook = "build/no such.ods"}
  lu.assertStrContains(found[1].text, "no such.ods: cannot be read")
  lu.assertTrue(found[1].unreadable)
end

-- A byte changed or an end cut off is a problem or another floor, never a Lua error. The
-- environment variable NETSECTION_FUZZ says how many.
function T.test_damaged_workbooks()
  local state = 19
  local function below(n)
    state = (state * 6364136223846793005 + 1442695040888963407)
    return (state >> 33) % n
  end
  for _, kind in ipairs {"ods", "xlsx"} do
    local bytes = office.of_rows(kind, {{name = "joists", rows = {HEAD, joist "J1"}}})
    for _ = 1, tonumber(os.getenv "NETSECTION_FUZZ") or 100 do
      local at = below(#bytes) + 1
      local hurt = below(4) == 0 and bytes:sub(1, at)
        or bytes:sub(1, at - 1) .. string.char(below(256)) .. bytes:sub(at + 1)
      local floor, found = survey(hurt)
      lu.assertTrue(floor ~= nil or #found > 0)
    end
  end
end

---------------------------------------------------------------------------- the rest

function T.test_problems_have_cells_and_their_order()
  local bytes = office.of_rows("ods", {{name = "cuts", rows = {{"joist", "kind", "at",
    "diameter"}, {"J9", "hole", "4-0", "2 in"}, {"J1", "hole", "4-0", "2 inn"}}},
    {name = "joists", rows = {HEAD, joist("J1", "13.5x")}}, {name = "survey", rows = {
    {"name", "value"}, {"units", "furlongs"}}}})
  local _, found = ns.read_survey {workbook = {text = bytes, name = "book.ods"}}
  local texts = {}
  for i, p in ipairs(found) do texts[i] = p.text:match "^(.-):" end
  lu.assertEquals(texts, {"book.ods, sheet survey, cell B2", "book.ods, sheet joists, "
    .. "cell E2 (span)", "book.ods, sheet cuts, cell A2 (joist)",
    "book.ods, sheet cuts, cell D3 (diameter)"})
  lu.assertEquals({found[2].sheet, found[2].cell}, {"joists", "E2"})
end

function T.test_the_command_takes_a_workbook()
  local function run(bytes, ...)
    local path, lines = ROOT .. ".XLSX", {}
    assert(require "netsection.folder".make(system.build))
    assert(ns.write(path, bytes))
    local function say(line) lines[#lines + 1] = line end
    local code = command.run({"review", path, ...}, {out = say, err = say})
    os.remove(path)
    return code, table.concat(lines, "\n")
  end
  local code, said = run(sheet {joist "J1"})
  lu.assertEquals(code, 0)
  lu.assertStrContains(said, "J1")
  code, said = run(sheet {joist("J1", "13.5x")})
  lu.assertEquals(code, 2)
  lu.assertStrContains(said, "test_workbook.XLSX, sheet joists, cell E2 (span): ")
  lu.assertEquals(run(sheet {joist "J1"}, "--separator", "comma"), 64)
  lu.assertEquals(run("no workbook"), 3)
end

function T.test_misuse()
  for _, field in ipairs {"joists", "cuts", "settings", "separator", "encoding"} do
    lu.assertErrorMsgContains(field .. " does not go with a workbook", ns.read_survey,
      {workbook = "a.ods", [field] = field == "separator" and ";" or "utf-8"})
  end
  lu.assertErrorMsgContains("workbook: a path, text, or", ns.read_survey, {workbook = 3})
  local _, found = ns.read_survey {joists = {text = sheet {joist "J1"}, name = "a.xlsx"}}
  lu.assertTrue(#found > 0)
end

function T.test_without_the_libraries_a_clear_message()
  local saved = {zlib = package.loaded.zlib, lxp = package.loaded.lxp}
  local preload = package.preload
  preload.zlib = function() error "not here" end
  package.loaded.zlib = nil
  local floor, found = survey(sheet {joist "J1"})
  preload.zlib, package.loaded.zlib, package.loaded.lxp = nil, saved.zlib, saved.lxp
  lu.assertNil(floor)
  lu.assertEquals(found[1].text, "book.xlsx: workbooks are read with lua-zlib, which "
    .. "this machine does not have; save the sheets as CSV files instead")
  lu.assertTrue(read.libraries() ~= nil)
end

return T
