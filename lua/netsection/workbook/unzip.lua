-- SPDX-License-Identifier: MIT
-- Reads the parts of a ZIP archive piece by piece (APPNOTE 4.3), within bounds: what an
-- archive says of itself is not believed, so a small file can never fill the memory.
-- Nothing is written to disk. Inflating is zlib's (lua-zlib).
local refuse = require "netsection.workbook.refuse"

local unzip = {}

-- Bytes of all parts that are read, parts of an archive, packed bytes taken at a time:
-- a packed byte gives at most 1032 (RFC 1951), so a piece stays under 5 MB.
local LARGEST, PARTS, PIECE = 64 << 20, 4096, 4096
unzip.largest = LARGEST

local END, CENTRAL, LOCAL = "PK\5\6", "PK\1\2", "PK\3\4"
local DAMAGED = "the archive is damaged: %s"

-- The record at the end; its comment is under 65536 bytes long.
local function find_end(text)
  for at = #text - 21, math.max(1, #text - 21 - 0xFFFF), -1 do
    if text:sub(at, at + 3) == END then return at end
  end
  refuse.with(DAMAGED, "its list of parts is missing")
end

local function check_name(name)
  if name:find "^[/\\]" or name:find "^%a:" or name:find "[%z\\]"
    or ("/" .. name .. "/"):find("/../", 1, true) then
    refuse.with("a part inside is named %s, which leads out of the workbook",
      ("%q"):format(name:gsub("[^ -~]", "?")))
  end
end

local function read_entry(text, at, stop)
  if text:sub(at, at + 3) ~= CENTRAL or at + 45 >= stop then
    refuse.with(DAMAGED, "its list of parts is cut short")
  end
  local flags, method, _, _, crc, packed, size, n, extra, comment, _, _, _, from =
    ("<I2I2I2I2I4I4I4I2I2I2I2I2I4I4"):unpack(text, at + 8)
  local name = text:sub(at + 46, at + 45 + n)
  if #name ~= n then refuse.with(DAMAGED, "a name is cut short") end
  check_name(name)
  if packed == 0xFFFFFFFF or size == 0xFFFFFFFF or from == 0xFFFFFFFF then
    refuse.with "parts of 4 GB and more are not read"
  end
  return {name = name, flags = flags, method = method, crc = crc, packed = packed,
    size = size, from = from + 1}, at + 46 + n + extra + comment
end

-- Where the bytes of a part begin, behind its own head.
local function data_of(text, e)
  if text:sub(e.from, e.from + 3) ~= LOCAL or e.from + 29 > #text then
    refuse.with(DAMAGED, "a part is not where the list says")
  end
  local n, extra = ("<I2I2"):unpack(text, e.from + 26)
  local first = e.from + 30 + n + extra
  if first + e.packed - 1 > #text then refuse.with(DAMAGED, "a part is cut short") end
  return first
end

-- Parts that share bytes multiply what a file holds.
local function check_overlap(text, list)
  local sorted = table.move(list, 1, #list, 1, {})
  table.sort(sorted, function(a, b) return a.from < b.from end)
  local free = 1
  for _, e in ipairs(sorted) do
    if e.from < free then refuse.with "parts of the archive lie over one another" end
    e.first = data_of(text, e)
    free = e.first + e.packed
  end
end

local Archive = {}
Archive.__index = Archive

local function inflater(zlib, e)
  local inflate = zlib.inflate(-15)
  return function(piece)
    local ok, out, done = pcall(inflate, piece)
    if not ok then refuse.with(DAMAGED, "a part does not unpack") end
    return out, done, e
  end
end

local function as_stored(piece)
  return piece, false
end

local METHODS = {[0] = function() return as_stored end, [8] = inflater}

--- Gives the bytes of a part to sink(piece), in order. @return false where there is none
function Archive:stream(name, sink)
  local e = self.by_name[name]
  if not e then return false end
  if e.flags & 1 == 1 then refuse.with "the workbook is protected by a password" end
  if not METHODS[e.method] then
    refuse.with("a part is packed by method %d, which is not read", e.method)
  end
  local unpack = METHODS[e.method](self.zlib, e)
  local sum, size, check = self.zlib.crc32(), 0, 0
  local at, stop, done = e.first, e.first + e.packed - 1, false
  while at <= stop and not done do
    local out
    out, done = unpack(self.text:sub(at, math.min(at + PIECE - 1, stop)))
    size, self.read = size + #out, self.read + #out
    if self.read > LARGEST then
      refuse.with("unpacked it has more than %d MB, which is not read", LARGEST >> 20)
    elseif size > e.size then
      refuse.with(DAMAGED, "a part is larger than it says")
    end
    check = sum(out)
    sink(out)
    at = at + PIECE
  end
  if size ~= e.size or size > 0 and check ~= e.crc then
    refuse.with(DAMAGED, "the check sum of a part is wrong")
  end
  return true
end

--- A small part as text, "" where there is none.
function Archive:part(name)
  local out = {}
  self:stream(name, function(piece) out[#out + 1] = piece end)
  return table.concat(out)
end

--- Whether a part's name begins with a pattern.
function Archive:has(pattern)
  for _, e in ipairs(self.list) do
    if e.name:find("^" .. pattern) then return true end
  end
  return false
end

--- Opens an archive. @param zlib the module lua-zlib
function unzip.open(text, zlib)
  local at = find_end(text)
  local disk, first_disk, _, count, size, from = ("<I2I2I2I2I4I4"):unpack(text, at + 4)
  if disk ~= 0 or first_disk ~= 0 then refuse.with(DAMAGED, "it has several disks") end
  if count > PARTS then refuse.with("more than %d parts inside", PARTS) end
  if from + size >= at then refuse.with(DAMAGED, "its list of parts is cut short") end
  local list, by_name, next_at = {}, {}, from + 1
  for i = 1, count do
    list[i], next_at = read_entry(text, next_at, at)
    if by_name[list[i].name] then refuse.with "two parts inside have one name" end
    by_name[list[i].name] = list[i]
  end
  check_overlap(text, list)
  return setmetatable({text = text, zlib = zlib, list = list, by_name = by_name,
    read = 0}, Archive)
end

return unzip
