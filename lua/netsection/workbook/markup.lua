-- SPDX-License-Identifier: MIT
-- What both kinds of workbook share: texts and numbers as XML, colors of cells.
local escape = require "netsection.document.escape"
local point = require "netsection.point"
local units = require "netsection.units"

local markup = {}

-- Light enough that black print on a gray printer stays plain.
markup.fills = {head = "D9D9D9", input = "FFF6D6", pale = "F2F2F2"}

markup.head = '<?xml version="1.0" encoding="UTF-8"?>\n'

-- Those of an OpenDocument file.
local OASIS = {office = "office", style = "style", text = "text", table = "table",
  number = "datastyle", fo = "xsl-fo-compatible", config = "config"}
local list = {}
for prefix, name in pairs(OASIS) do
  list[#list + 1] = ('xmlns:%s="urn:oasis:names:tc:opendocument:xmlns:%s:1.0" '):format(
    prefix, name)
end
list[#list + 1] = 'xmlns:of="urn:oasis:names:tc:opendocument:xmlns:of:1.2" '
list[#list + 1] = 'xmlns:loext="urn:org:documentfoundation:names:experimental:office:'
  .. 'xmlns:loext:1.0" '
table.sort(list, point.less)
markup.namespaces = table.concat(list)

local XML = {["&"] = "&amp;", ["<"] = "&lt;", [">"] = "&gt;", ['"'] = "&quot;"}

--- A text of a user for XML: line breaks stay, other controls do not.
function markup.xml(s)
  local out = {}
  for line in (s:gsub("\r\n?", "\n") .. "\n"):gmatch "([^\n]*)\n" do
    out[#out + 1] = (escape.text(line):gsub("[&<>\"]", XML))
  end
  return table.concat(out, "\n")
end

--- A number with the fewest figures that read back as the same.
function markup.number(v)
  if math.type(v) == "integer" then return ("%d"):format(v) end
  for figures = 1, 17 do
    local s = units.significant(v, figures)
    if tonumber(s) == v then return s end
  end
end

return markup
