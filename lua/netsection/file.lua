-- SPDX-License-Identifier: MIT
-- Writing a file whole or not at all.
local file = {}

local function cannot(path, why)
  return nil, ("cannot write %s: %s"):format(path, tostring(why))
end

-- A file that is written piece by piece beside its place, and takes that place when it is
-- closed: a full disk or an interruption never leaves half a file nor loses the old one.
local stream = {}
stream.__index = stream

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
  local ok, why = self.out:close()
  if ok then ok, why = os.rename(self.part, self.path) end
  if ok then return true end
  os.remove(self.part)
  return cannot(self.path, why)
end

-- Leaves what was there as it was.
function stream:abandon()
  self.out:close()
  os.remove(self.part)
end

-- @return an open stream with write, close and abandon; or nil and a message
function file.stream(path)
  if type(path) ~= "string" then
    error("write: path (string) expected, got " .. type(path), 3)
  end
  local part = path .. ".part"
  local out, problem = io.open(part, "wb")
  if not out then return cannot(path, problem) end
  return setmetatable({out = out, part = part, path = path}, stream)
end

-- Writes text under path, whole or not at all.
-- @return true, or nil and a message that names the path
function file.write(path, text)
  if type(path) == "string" and type(text) ~= "string" then
    error("write: text (string) expected, got " .. type(text), 2)
  end
  local out, problem = file.stream(path)
  if not out then return nil, problem end
  local ok, why = out:write(text)
  if ok then return out:close() end
  out:abandon()
  return nil, why
end

return file
