-- SPDX-License-Identifier: MIT
-- No line of the module names a code of the United States or a factor of one outside
-- the folder of a standard, the rule packs and the data, in code or in remarks: what a
-- message says of a clause comes from the standard, and a remark says the mechanics. A
-- homework kind names the standard that it teaches in `standards`, and may speak of it.
--
--   lua5.4 tests/clauses.lua          lists what is left, and fails where that is more
local folder = require "netsection.folder"

local clauses = {}

local NAMED = {"%f[%w_]NDS%f[^%w_]", "%f[%w_]IRC%f[^%w_]", "%f[%w_]AISC%f[^%w_]",
  "%f[%w_]AISI%f[^%w_]", "%f[%w_]ASCE%f[^%w_]", "1%.67%f[%D]", "%f[%w_]R50%d%.%d"}

local ROOTS = {"lua/netsection", "lua/types", "csrc"}
-- Folders whose files are a standard's, rule packs, their readers or data.
local FREE = {"^lua/netsection/standards/", "^lua/netsection/packs/",
  "^lua/netsection/data/", "^csrc/nds/", "^csrc/ec5/", "^csrc/csa/"}
local KINDS = "^lua/netsection/homework/kinds/"

-- Lines that may, by file: the line and why. Each must still be there.
clauses.allowed = {
  ["lua/types/fasteners.lua"] = {
    ['---@field basis? string "NDS" or "EN"; default "NDS" from 1/4 in up'] =
      "a word that a user writes: two formulas of slip moduli have no other names",
    ['---@field basis string "NDS" or "EN"'] = "the same word in the answer",
  },
}

local function files_in(path, list)
  for _, name in ipairs(folder.entries(path)) do
    local file = path .. "/" .. name
    if folder.kind(file) == "folder" then
      files_in(file, list)
    elseif name:find "%.lua$" or name:find "%.[ch]$" then
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

--- Lines of a text that name a code: {"12: the line", ...}.
function clauses.lines(text)
  local out, number = {}, 0
  for line in (text .. "\n"):gmatch "(.-)\n" do
    number = number + 1
    for _, pattern in ipairs(NAMED) do
      if line:find(pattern) then
        out[#out + 1] = ("%d: %s"):format(number, line:match "^%s*(.-)%s*$")
        break
      end
    end
  end
  return out
end

-- Lines of a file that may not name a code, and allowed ones that are gone, into `wrong`.
-- @return {"12: the line", ...}
local function left_in(file, text, wrong)
  local allowed, seen, left = clauses.allowed[file] or {}, {}, {}
  for _, found in ipairs(clauses.lines(text)) do
    local line = found:match "^%d+: (.*)$"
    seen[line] = true
    if not allowed[line] then left[#left + 1] = found end
  end
  for line in pairs(allowed) do
    if not seen[line] then
      wrong[#wrong + 1] = ("%s: no longer there, strike it off the list: %s"):format(file,
        line)
    end
  end
  return left
end

--- What is left, by file; and what is wrong with that, as texts.
function clauses.check()
  local found, wrong, files = {}, {}, {}
  for _, root in ipairs(ROOTS) do files_in(root, files) end
  for _, file in ipairs(files) do
    if not free(file) then
      local handle <close> = assert(io.open(file, "rb"))
      local text = handle:read "a"
      local teaches = file:find(KINDS) and text:find "standards = {\"us%-nds%-2018"
      local lines = teaches and {} or left_in(file, text, wrong)
      if #lines > 0 then
        found[#found + 1] = {file = file, lines = lines}
        wrong[#wrong + 1] = ("%s: %d lines name a code:\n  %s"):format(file, #lines,
          table.concat(lines, "\n  "))
      end
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
