-- Workbooks for the tests: made by the module's own writer, made by hand around one
-- sheet, and opened by the office program where there is one.
local book = require "netsection.workbook.book"
local csv = require "netsection.csv"
local ods = require "netsection.workbook.ods"
local xlsx = require "netsection.workbook.xlsx"
local zip = require "netsection.zip"
local folders = require "netsection.folder"
local system = require "tests.system"

local workbook = {}

local WRITERS = {ods = ods, xlsx = xlsx}

-- Why tests of reading are left out, or nil.
function workbook.missing()
  local read = require "netsection.workbook.read"
  local _, why = read.libraries()
  return why
end

--- Bytes of a workbook. @param sheets list of {name =, rows = {{texts and numbers}...}},
-- where row i stands in row i
function workbook.of_rows(kind, sheets)
  local b = book.new {}
  for _, t in ipairs(sheets) do
    local s = b:sheet {name = t.name}
    for i, row in pairs(t.rows) do
      for k, value in pairs(row) do s:put(i, k, value) end
    end
  end
  return WRITERS[kind].of(b)
end

-- A cell of a CSV file as a spreadsheet would keep it: a number where nothing is lost.
local function typed(text)
  local n = text:find "^%-?%d+%.?%d*$" and tonumber(text)
  return n and ("%.15g"):format(n) == text and n or text
end

--- A survey's CSV files as one workbook, each row and each remark in its place.
-- @param files {joists = text, ...}
function workbook.of_survey(kind, files)
  local sheets = {}
  for _, name in ipairs {"survey", "joists", "cuts", "obstructions", "loads", "fixes"} do
    local rows = {}
    -- A mark in front keeps remarks and blank rows; it is taken off again.
    local marked = (">" .. files[name]):gsub("\n#", "\n>#"):gsub('\n"#', '\n">#')
      :gsub("\n,", "\n>,")
    for i, row in ipairs(csv.read(marked)) do
      local cells = {}
      for k, text in ipairs(row) do
        if k == 1 then text = text:gsub("^>", "") end
        cells[k] = typed(text)
      end
      rows[i] = cells
    end
    sheets[#sheets + 1] = {name = name, rows = rows}
  end
  return workbook.of_rows(kind, sheets)
end

local MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
local OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
local RELATIONS = '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/'
  .. 'relationships">'

--- Parts of an .xlsx around the XML of its one sheet, joists.
-- @param more {head = XML declared before the worksheet, after = XML after its cells,
--   styles = XML, book = XML inside the workbook, parts = further parts}
function workbook.xlsx_parts(rows, more)
  more = more or {}
  local parts = {
    {name = "[Content_Types].xml", text = "<Types/>"},
    {name = "_rels/.rels", text = RELATIONS .. ('<Relationship Id="a" Type="%s/office'
      .. 'Document" Target="xl/workbook.xml"/></Relationships>'):format(OFFICE)},
    {name = "xl/workbook.xml", text = ('<workbook xmlns="%s" '
      .. 'xmlns:r="%s">%s<sheets><sheet '
      .. 'name="joists" sheetId="1" r:id="s1"/></sheets></workbook>'):format(MAIN, OFFICE,
      more.book or "")},
    {name = "xl/_rels/workbook.xml.rels", text = RELATIONS .. ('<Relationship Id="s1" '
      .. 'Type="%s/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="s2" '
      .. 'Type="%s/styles" '
      .. 'Target="styles.xml"/></Relationships>'):format(OFFICE, OFFICE)},
    {name = "xl/worksheets/sheet1.xml", text = (more.head or "") .. ('<worksheet '
      .. 'xmlns="%s">'
      .. "<sheetData>%s</sheetData>%s</worksheet>"):format(MAIN, rows, more.after or "")},
    {name = "xl/styles.xml", text = ('<styleSheet '
      .. 'xmlns="%s">%s</styleSheet>'):format(MAIN,
      more.styles or "")},
  }
  return table.move(more.parts or {}, 1, #(more.parts or {}), #parts + 1, parts)
end

--- The same as bytes.
function workbook.xlsx(rows, more)
  return zip.of(workbook.xlsx_parts(rows, more))
end

--- A row of that sheet: texts and numbers from column A on, XML where it begins with <c.
function workbook.row(number, cells, attributes)
  local out = {}
  for i, v in ipairs(cells) do
    local ref = csv.letter(i) .. number
    if type(v) == "number" then
      out[i] = ('<c r="%s"><v>%.17g</v></c>'):format(ref, v)
    elseif v:find "^<c" then
      out[i] = v
    elseif v ~= "" then
      out[i] = ('<c r="%s" t="inlineStr"><is><t>%s</t></is></c>'):format(ref, v)
    else
      out[i] = ""
    end
  end
  return ('<row r="%d" %s>%s</row>'):format(number, attributes or "", table.concat(out))
end

--- Bytes of an .ods around the XML of its tables.
function workbook.ods(tables, parts)
  local list = {
    {name = "mimetype", text = "application/vnd.oasis.opendocument.spreadsheet"},
    {name = "content.xml", text = '<office:document-content '
      .. 'xmlns:office="urn:oasis:names:tc:'
      .. 'opendocument:xmlns:office:1.0" xmlns:table="urn:oasis:names:tc:opendocument:'
      .. 'xmlns:table:1.0" xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0" '
      .. 'xmlns:style="urn:oasis:names:tc:opendocument:xmlns:style:1.0"><office:body>'
      .. "<office:spreadsheet>" .. tables .. "</office:spreadsheet></office:body>"
      .. "</office:document-content>"},
  }
  return zip.of(table.move(parts or {}, 1, #(parts or {}), #list + 1, list))
end

---------------------------------------------------------------------- the office program

local program

--- The office program's command, or nil.
function workbook.office()
  if program == nil then
    program = system.has "soffice" and "soffice" or system.has "libreoffice"
      and "libreoffice"
  end
  return program or nil
end

-- Settings of a profile of its own: every formula is worked out anew when a file is
-- opened.
local PROFILE = [[<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode"
oor:op="fuse"><value>0</value></prop></item>
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="ODFRecalcMode"
oor:op="fuse"><value>0</value></prop></item>
</oor:items>]]

-- A profile is made by the first start and used by the others of a process: a start with
-- a new one takes twice as long. It is removed when the process ends.
local profile

local function profile_folder()
  if profile then return profile.path end
  local made = system.folder()
  profile = setmetatable({path = made.path}, {__gc = function(p)
    system.remove(p.path)
  end})
  assert(folders.make(made.path .. "/user"))
  local settings <close> = assert(io.open(made.path .. "/user/registrymodifications.xcu",
    "w"))
  settings:write(PROFILE)
  return made.path
end

--- Has files opened, worked out and saved as another form.
-- @return true where it went well
-- @param folder one for this purpose, with room for the results in folder/out
function workbook.convert(folder, form, ...)
  local base = system.absolute(folder)
  assert(folders.make(base .. "/out"))
  return os.execute(("timeout 120 '%s' '-env:UserInstallation=file://%s' "
    .. "--headless --convert-to %s --outdir '%s/out' '%s' >'%s/log' 2>&1")
    :format(workbook.office(), profile_folder(), form, base, table.concat({...}, "' '"),
    base))
end

return workbook
