-- SPDX-License-Identifier: MIT
-- A ZIP archive of texts, stored without compression (APPNOTE 4.3, the form that every
-- reader takes). Dates are those of the format's first day, so that one set of files is
-- always the same bytes.
local core = require "netsection.core"

local zip = {}

--- CRC-32 of a text (ISO 3309, as in ITU-T V.42).
function zip.crc32(text) return (core.crc32(text)) end

local DATE = 1 << 5 | 1 -- 1 January 1980
local UTF8 = 0x0800     -- names are UTF-8

--- The bytes of an archive. @param files {{name =, text =}, ...}
function zip.of(files)
  local out, central, at = {}, {}, 0
  for _, f in ipairs(files) do
    local crc, n = zip.crc32(f.text), #f.text
    local head = string.pack("<I2I2I2I2I2I4I4I4I2I2", 20, UTF8, 0, 0, DATE, crc, n, n,
      #f.name, 0)
    out[#out + 1] = "PK\3\4" .. head .. f.name .. f.text
    central[#central + 1] = "PK\1\2" .. string.pack("<I2", 20) .. head
      .. string.pack("<I2I2I2I4I4", 0, 0, 0, 0, at) .. f.name
    at = at + #out[#out]
  end
  local list = table.concat(central)
  return table.concat(out) .. list .. "PK\5\6" .. string.pack("<I2I2I2I2I4I4I2", 0, 0,
    #files, #files, #list, at, 0)
end

return zip
