-- SPDX-License-Identifier: MIT
-- Writing a file whole or not at all. What exists keeps its mode, owner and the links
-- that lead to it; what is no regular file is refused. Leftovers of a killed run are
-- named .netsection-*.part and may be deleted.
local core = require "netsection.core"
local escape = require "netsection.document.escape"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local file = {}

local files = core.files

local function cannot(path, why)
  return nil, escape.text(("cannot write %s: %s"):format(tostring(path), tostring(why)))
end

-- A file that is written piece by piece beside its place, and takes that place when it is
-- closed: a full disk or an interruption never leaves half a file nor loses the old one.
local stream = {}
stream.__index = stream
file.stream_methods = stream

-- @return true, or nil and a message that names the path
function stream:write(text)
  local ok, why = self.out:write(text)
  if not ok then return cannot(self.path, why) end
  return true
end

-- The same for a writer of its own: writer(file, ...) -> true, or nil and a message.
function stream:put(writer, ...)
  local ok, why = writer(self.out, ...)
  if not ok then return cannot(self.path, why) end
  return true
end

-- Puts the file in its place. @return true, or nil and a message
function stream:close()
  local ok, why
  if self.part then
    ok, why = files.settle(self.out, self.part, self.target)
    if not ok then files.remove(self.part) end
  else
    ok, why = self.out:flush()
  end
  if ok then return true end
  return cannot(self.path, why)
end

-- Leaves what was there as it was. What went to an open handle is gone already.
function stream:abandon()
  if not self.part then return end
  self.out:close()
  files.remove(self.part)
end

local function is_handle(value)
  return io.type(value) == "file"
end

--- @param path where the file will stand; or an open handle, or "-" for standard output,
--   which are written as the pieces come and are left open
-- @return an open stream with write, close and abandon; or nil and a message
function file.stream(path)
  if path == "-" then path = io.stdout end
  if is_handle(path) then
    return setmetatable({out = path, path = "the open file"}, stream)
  end
  if type(path) ~= "string" then
    error("write: path (string) or an open file expected, got " .. type(path), 3)
  end
  if path:find("\0", 1, true) then
    return nil, "cannot write: a path has no NUL in it"
  elseif path == "" or #path >= 4000 then
    return nil, "cannot write: a path of 1 to 4000 bytes expected"
  end
  local out, part, target = files.beside(path)
  if not out then return cannot(path, part) end
  return setmetatable({out = out, part = part, target = target, path = path}, stream)
end

--- Writes text under path (or to an open handle, or "-"), whole or not at all.
-- @return true, or nil and a message that names the path
function file.write(path, text)
  if (type(path) == "string" or is_handle(path)) and type(text) ~= "string" then
    error("write: text (string) expected, got " .. type(text), 2)
  end
  local out, problem = file.stream(path)
  if not out then return nil, problem end
  local ok, why = out:write(text)
  if ok then return out:close() end
  out:abandon()
  return nil, why
end

-- Largest file of a user's that is read, in bytes, unless the caller says otherwise.
file.largest = 64 << 20

--- A file of a user's as text: a regular file of at most `largest` bytes. What never ends
-- or is no file (a device, a pipe, a folder) is refused before it is opened.
-- @return text, or nil and a message
function file.read(path, largest)
  if path == "" or path:find("\0", 1, true) then
    return nil, ("%s: cannot be read: a path expected"):format(path:gsub("%z", "?"))
  end
  local kind, _, size = files.kind(path)
  if not kind then return nil, ("%s: cannot be read: %s"):format(path, _) end
  if kind ~= "file" then
    return nil, ("%s: cannot be read: it is no regular file"):format(path)
  end
  largest = largest or file.largest
  if size > largest then
    return nil, ("%s: %d bytes, where at most %d are read"):format(path, size, largest)
  end
  local input <close>, problem = io.open(path, "rb")
  if not input then return nil, problem end
  local text = input:read(largest + 1)
  if not text then text = "" end
  if #text > largest then
    return nil, ("%s: more than %d bytes"):format(path, largest)
  end
  return text
end

return file
