-- SPDX-License-Identifier: MIT
-- Writing a file whole or not at all.
local file = {}

-- Writes text under path: first beside it under another name, then renamed, so that a
-- full disk or an interruption never leaves half a file nor loses the old one.
-- @return true, or nil and a message that names the path
function file.write(path, text)
  if type(path) ~= "string" then
    error("write: path (string) expected, got " .. type(path), 2)
  elseif type(text) ~= "string" then
    error("write: text (string) expected, got " .. type(text), 2)
  end
  local part = path .. ".part"
  local out, problem = io.open(part, "wb")
  if not out then return nil, ("cannot write %s: %s"):format(path, problem) end
  local ok, why = out:write(text)
  local closed, why_closed = out:close()
  if ok and closed then
    local renamed, why_renamed = os.rename(part, path)
    if renamed then return true end
    why = why_renamed
  end
  os.remove(part)
  return nil, ("cannot write %s: %s"):format(path, tostring(why or why_closed))
end

return file
