-- SPDX-License-Identifier: MIT
-- XML of a workbook as a stream of elements and text, by expat (lua-expat). Neither of
-- the two formats has document types, so none is read: entities of a file's own, inside
-- or from elsewhere, are refused before they are looked at.
local refuse = require "netsection.workbook.refuse"

local xml = {}

local DEEPEST, NAMES = 100, 4096

-- Short names by what expat makes of them, "address|name".
local function shortener(prefixes)
  local known, count = {}, 0
  return function(raw)
    local short = known[raw]
    if short then return short end
    count = count + 1
    if count > NAMES then refuse.with "too many kinds of elements" end
    local address, name = raw:match "^(.*)|([^|]*)$"
    short = address and (prefixes[address] or "?:") .. name or "?:" .. raw
    known[raw] = short
    return short
  end
end

--- Parses a part of an archive.
-- @param name the part; @param prefixes {address of a namespace = prefix of its names}
-- @param on {start = function(name, attributes by "address|name"), stop =
--   function(name), text = function(piece)}
-- @return false where there is no such part
function xml.parse(lxp, archive, name, prefixes, on)
  local short, depth = shortener(prefixes), 0
  local parser = lxp.new({
    StartDoctypeDecl = function()
      refuse.with("%s declares entities or a document type, which is not read", name)
    end,
    StartElement = function(_, raw, attributes)
      depth = depth + 1
      if depth > DEEPEST then refuse.with("%s is nested too deep", name) end
      on.start(short(raw), attributes)
    end,
    EndElement = function(_, raw)
      depth = depth - 1
      if on.stop then on.stop(short(raw)) end
    end,
    CharacterData = function(_, piece)
      if on.text then on.text(piece) end
    end,
  }, "|", false)
  local function feed(piece)
    local ok, why, line = parser:parse(piece)
    if not ok then refuse.with("%s is no XML: line %d: %s", name, line or 0, why) end
  end
  local found = archive:stream(name, feed)
  if found then
    feed(nil)
    parser:close()
  end
  return found
end

return xml
