-- SPDX-License-Identifier: MIT
-- Opens a workbook, .ods or .xlsx by what is inside, with the libraries that it takes.
-- They may be missing: then a message says which, and CSV goes on as before.
local read_ods = require "netsection.workbook.read_ods"
local read_xlsx = require "netsection.workbook.read_xlsx"
local refuse = require "netsection.workbook.refuse"
local unzip = require "netsection.workbook.unzip"

local read = {}

local NEEDED = {zlib = "lua-zlib", lxp = "lua-expat"}

local function library(name)
  local ok, module = pcall(require, name)
  return ok and type(module) == "table" and module or nil
end

--- The libraries, or nil and which are missing.
function read.libraries()
  local zlib, lxp = library "zlib", library "lxp"
  local missing = {}
  if not zlib then missing[#missing + 1] = NEEDED.zlib end
  if not lxp then missing[#missing + 1] = NEEDED.lxp end
  if #missing == 0 then return {zlib = zlib, lxp = lxp} end
  return nil, ("workbooks are read with %s, which this machine does not have; save the "
    .. "sheets as CSV files instead"):format(table.concat(missing, " and "))
end

local OLD = "\xD0\xCF\x11\xE0"
local ODS = "application/vnd.oasis.opendocument.spreadsheet"

local function reader_of(archive)
  local mimetype = archive.by_name.mimetype and archive:part "mimetype" or ""
  if mimetype:sub(1, #ODS) == ODS then return read_ods end
  if mimetype == "" and archive.by_name["[Content_Types].xml"] then return read_xlsx end
  refuse.with "it is no workbook: .ods or .xlsx expected"
end

local function read_all(text, want, libraries)
  if text:sub(1, 4) == OLD then
    refuse.with "it is an old .xls or protected by a password: save it as .xlsx or .ods"
  elseif text:sub(1, 2) ~= "PK" then
    refuse.with "it is no workbook: .ods or .xlsx expected"
  end
  local archive = unzip.open(text, libraries.zlib)
  local sheets, notes = reader_of(archive).read(libraries.lxp, archive, want)
  return {sheets = sheets, notes = notes}
end

--- Reads the sheets of a workbook.
-- @param text its bytes; @param want function(name) -> whether that sheet is read
-- @return {sheets = {{name =, hidden =, source =}...}, notes =}, or nil and a message
function read.book(text, want)
  local libraries, problem = read.libraries()
  if not libraries then return nil, problem end
  return refuse.catch(read_all, text, want, libraries)
end

return read
