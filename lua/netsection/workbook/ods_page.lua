-- SPDX-License-Identifier: MIT
-- Pages of an OpenDocument spreadsheet: paper, what stands at head and foot, and which
-- rows stay in sight on the screen.
local markup = require "netsection.workbook.markup"

local ods_page = {}

local x = markup.xml

local PAPER = {letter = {"8.5in", "11in"}, a4 = {"210mm", "297mm"}}

local function layout(sheet, book)
  local size = PAPER[book.paper]
  local width, height = size[1], size[2]
  if sheet.landscape then width, height = height, width end
  return ('<style:page-layout style:name="p%s"><style:page-layout-properties '
    .. 'fo:page-width="%s" fo:page-height="%s" style:print-orientation="%s" '
    .. 'style:first-page-number="continue" '
    .. 'fo:margin="0.5in" style:scale-to-X="1" style:scale-to-Y="0"/>'
    .. '<style:header-style><style:header-footer-properties fo:min-height="0.3in" '
    .. 'fo:margin-bottom="0.1in"/></style:header-style><style:footer-style>'
    .. '<style:header-footer-properties fo:min-height="0.3in" fo:margin-top="0.1in"/>'
    .. "</style:footer-style></style:page-layout>"):format(sheet.key, width, height,
    sheet.landscape and "landscape" or "portrait")
end

local function master(sheet, book)
  return ('<style:master-page style:name="m%s" style:page-layout-name="p%s">'
    .. "<style:header><style:region-left><text:p>%s</text:p></style:region-left>"
    .. "<style:region-right><text:p>%s</text:p></style:region-right></style:header>"
    .. "<style:footer><text:p>Page <text:page-number>1</text:page-number> of "
    .. "<text:page-count>1</text:page-count></text:p></style:footer></style:master-page>")
    :format(sheet.key, sheet.key, x(book.title), x(sheet.name))
end

--- Styles of pages, and of cells that name none.
function ods_page.styles(book)
  local layouts, masters = {}, {}
  for i, sheet in ipairs(book.sheets) do
    layouts[i], masters[i] = layout(sheet, book), master(sheet, book)
  end
  return markup.head .. "<office:document-styles " .. markup.namespaces
    .. 'office:version="1.3"><office:styles><style:default-style '
    .. 'style:family="table-cell"><style:text-properties fo:font-family="Arial" '
    .. 'style:font-family-generic="swiss" fo:font-size="10pt"/></style:default-style>'
    .. '<style:style style:name="Default" style:family="table-cell"/></office:styles>'
    .. "<office:automatic-styles>" .. table.concat(layouts)
      .. "</office:automatic-styles>"
    .. "<office:master-styles>" .. table.concat(masters) .. "</office:master-styles>"
    .. "</office:document-styles>"
end

local function item(name, kind, value)
  return ('<config:config-item config:name="%s" config:type="%s">%s</config:config-item>')
    :format(name, kind, value)
end

--- Rows that stay in sight.
function ods_page.settings(book)
  local out = {}
  for _, sheet in ipairs(book.sheets) do
    if sheet.frozen then
      out[#out + 1] = ('<config:config-item-map-entry config:name="%s">'):format(
        x(sheet.name)) .. item("VerticalSplitMode", "short", 2)
        .. item("VerticalSplitPosition", "int", sheet.frozen)
        .. item("ActiveSplitRange", "short", 2) .. item("PositionTop", "int", 0)
        .. item("PositionBottom", "int", sheet.frozen)
          .. "</config:config-item-map-entry>"
    end
  end
  local views = ""
  if #out > 0 then
    views = '<config:config-item-set config:name="ooo:view-settings">'
      .. '<config:config-item-map-indexed '
      .. 'config:name="Views"><config:config-item-map-entry>'
      .. item("ViewId", "string", "view1")
      .. '<config:config-item-map-named config:name="Tables">' .. table.concat(out)
      .. "</config:config-item-map-named></config:config-item-map-entry>"
      .. "</config:config-item-map-indexed></config:config-item-set>"
  end
  return markup.head .. "<office:document-settings " .. markup.namespaces
    .. 'office:version="1.3"><office:settings>' .. views
    .. "</office:settings></office:document-settings>"
end

return ods_page
