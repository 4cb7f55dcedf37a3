-- SPDX-License-Identifier: MIT
-- No line of the module names a code of the United States or a factor of one outside
-- the folder of a standard, the rule packs and the data: what a message says of a clause
-- comes from the standard. Remarks may name the clause of a formula. A homework kind
-- names the standard that it teaches in `standards`, and may speak of it.
--
--   lua5.4 tests/clauses.lua          lists what is left, and fails where that is more
local folder = require "netsection.folder"

local clauses = {}

local NAMED = {"%f[%w]NDS%f[%W]", "%f[%w]IRC%f[%W]", "%f[%w]AISC%f[%W]",
  "%f[%w]AISI%f[%W]", "%f[%w]ASCE%f[%W]", "1%.67%f[%D]", "%f[%w]R50%d%.%d"}

-- Folders whose files are a standard's, rule packs or data.
local FREE = {"^lua/netsection/standards/", "^lua/netsection/data/"}
local KINDS = "^lua/netsection/homework/kinds/"

-- Lines that still do: by file, how many. The list may only get shorter.
clauses.left = {
}

local function files_in(path, list)
  for _, name in ipairs(folder.entries(path)) do
    local file = path .. "/" .. name
    if folder.kind(file) == "folder" then
      files_in(file, list)
    elseif name:find "%.lua$" then
      list[#list + 1] = file
    end
  end
  return list
end

local function free(file)
  for _, pattern in ipairs(FREE) do
    if file:find(pattern) then return true end
  end
end

-- A line without its remark: what follows two hyphens outside quotes.
local function without_remark(line)
  local quote, i = nil, 1
  while i <= #line do
    local c = line:sub(i, i)
    if quote then
      if c == "\\" then i = i + 1 elseif c == quote then quote = nil end
    elseif c == '"' or c == "'" then
      quote = c
    elseif line:sub(i, i + 1) == "--" then
      return line:sub(1, i - 1)
    end
    i = i + 1
  end
  return line
end

--- Lines of a text that name a code: {"12: the line", ...}.
function clauses.lines(text)
  local out, number = {}, 0
  for line in (text .. "\n"):gmatch "(.-)\n" do
    number = number + 1
    local code = without_remark(line)
    for _, pattern in ipairs(NAMED) do
      if code:find(pattern) then
        out[#out + 1] = ("%d: %s"):format(number, line:match "^%s*(.-)%s*$")
        break
      end
    end
  end
  return out
end

--- What is left, by file; and what is wrong with that, as texts.
function clauses.check()
  local found, wrong = {}, {}
  for _, file in ipairs(files_in("lua/netsection", {})) do
    if not free(file) then
      local handle = assert(io.open(file, "rb"))
      local text = handle:read "a"
      handle:close()
      local lines = clauses.lines(text)
      local teaches = file:find(KINDS) and text:find "standards = {\"us%-nds%-2018"
      if #lines > 0 and not teaches then
        found[#found + 1] = {file = file, lines = lines}
        local allowed = clauses.left[file:match "^lua/netsection/(.*)%.lua$"] or 0
        if #lines > allowed then
          wrong[#wrong + 1] = ("%s: %d lines name a code, %d may:\n  %s"):format(file,
            #lines, allowed, table.concat(lines, "\n  "))
        elseif #lines < allowed then
          wrong[#wrong + 1] = ("%s: %d lines name a code, tests/clauses.lua lists %d")
            :format(file, #lines, allowed)
        end
      end
    end
  end
  local names = {}
  for _, row in ipairs(found) do
    names[row.file:match "^lua/netsection/(.*)%.lua$"] = true
  end
  for name in pairs(clauses.left) do
    if not names[name] then
      wrong[#wrong + 1] = name .. ": names no code any more: strike it off the list"
    end
  end
  table.sort(wrong)
  return found, wrong
end

if arg and arg[0] and arg[0]:find "clauses%.lua$" then
  local found, wrong = clauses.check()
  for _, row in ipairs(found) do
    for _, line in ipairs(row.lines) do print(("%s:%s"):format(row.file, line)) end
  end
  for _, text in ipairs(wrong) do io.stderr:write(text, "\n") end
  print(("%d files outside the standards' folders name a clause"):format(#found))
  os.exit(#wrong == 0)
end

return clauses
