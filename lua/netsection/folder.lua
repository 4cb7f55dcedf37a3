-- SPDX-License-Identifier: MIT
-- What Lua's own library lacks for folders: making one and listing one, by the commands
-- that every Unix has. A path reaches the shell only inside single quotes.
local folder = {}

--- A path as one word of the shell; nil for one that no file can have.
function folder.quoted(path)
  if path:find("\0", 1, true) then return nil end
  return "'" .. path:gsub("'", "'\\''") .. "'"
end

--- Makes a folder and those above it. @return true, or nil and a message
function folder.make(path)
  local name = folder.quoted(path)
  local made = name and os.execute("mkdir -p -- " .. name .. " 2>/dev/null")
  if made then return true end
  return nil, ("cannot make the folder %s"):format(path)
end

--- Makes a folder in one that is there. @return true, or nil and a message
function folder.add(path)
  if folder.entries(path) then return true end
  local name = folder.quoted(path)
  local made = name and os.execute("mkdir -- " .. name .. " 2>/dev/null")
  if made then return true end
  return nil, ("cannot make the folder %s: the one above it must be there"):format(path)
end

--- Names in a folder, sorted; nil where there is no folder that can be read.
function folder.entries(path)
  local name = folder.quoted(path)
  if not name or path == "" then return nil end
  local listing = io.popen("ls -A -- " .. name .. "/ 2>/dev/null")
  if not listing then return nil end
  local names = {}
  for entry in listing:lines() do names[#names + 1] = entry end
  if not listing:close() then return nil end
  table.sort(names)
  return names
end

return folder
