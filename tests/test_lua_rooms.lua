-- SPDX-License-Identifier: MIT
-- The folders of lua/netsection stand in one order: what a file requires belongs to its
-- own folder, to one below or to the files beside the folders. Files form no circle.
local lu = require "luaunit"
local system = require "tests.system"

local T = {}

local ROOT = "lua/netsection"

-- From below to above. A file of a folder's name beside it (sweep.lua) is its door and
-- counts as in it.
local ORDER = {"data", "locale", "fields", "document", "standards", "packs", "fix",
  "statics", "grid", "feel", "sweep", "odds", "plot", "homework", "calculation", "short",
  "member", "load_path", "workbook", "table", "package", "survey", "command"}
local LEVEL = {}
for i, name in ipairs(ORDER) do LEVEL[name] = i end

local function files()
  return system.below(ROOT, "%.lua$")
end

-- Module -> the modules it requires anywhere in its text.
local function graph()
  local path, uses = {}, {}
  for _, file in ipairs(files()) do
    path[file:gsub("^lua/", ""):gsub("%.lua$", ""):gsub("/init$", ""):gsub("/", ".")] =
      file
  end
  for module, file in pairs(path) do
    local handle = assert(io.open(file, "rb"))
    local text = handle:read "a":gsub("%-%-[^\n]*", "")
    handle:close()
    uses[module] = {}
    for name in text:gmatch 'require%s*%(?%s*"(netsection[%w_.-]*)"' do
      if path[name] then uses[module][name] = true end
    end
  end
  return uses
end

local uses = graph()

local function room(module)
  local name = module:match "^netsection%.([%w_-]+)"
  return name and LEVEL[name] and name
end

local function upward(module, name)
  local from, to = room(module), room(name)
  return from and to and LEVEL[to] > LEVEL[from]
end

function T.test_every_folder_has_its_place()
  local seen, count = {}, 0
  for _, file in ipairs(files()) do
    local name = file:match "^lua/netsection/([^/]+)/"
    if name and not seen[name] then
      lu.assertNotNil(LEVEL[name], name .. ": this folder is not in the order")
      seen[name], count = true, count + 1
    end
  end
  lu.assertEquals(count, #ORDER)
end

function T.test_no_arrow_points_upward()
  lu.assertTrue(uses["netsection.sweep.axes"]["netsection.fields"])
  for module, names in pairs(uses) do
    for name in pairs(names) do
      lu.assertFalse(upward(module, name) or false, ("%s looks up to %s"):format(module,
        name))
    end
  end
end

-- A way from a module back to itself, as text; nil where there is none.
local function circle(edges)
  local state, trail = {}, {}
  local function visit(name)
    if state[name] == "done" then return end
    trail[#trail + 1] = name
    if state[name] then return table.concat(trail, " -> ") end
    state[name] = "open"
    for other in pairs(edges[name] or {}) do
      local found = visit(other)
      if found then return found end
    end
    state[name], trail[#trail] = "done", nil
  end
  for name in pairs(edges) do
    local found = visit(name)
    if found then return found end
  end
end

function T.test_files_form_no_circle()
  lu.assertNil(circle(uses))
  lu.assertNotNil(circle {a = {b = true}, b = {c = true}, c = {a = true}})
end

-- DEVELOPERS.md shows the same order.
function T.test_the_order_is_shown()
  local handle = assert(io.open("DEVELOPERS.md", "rb"))
  local text = handle:read "a"
  handle:close()
  local line = table.concat(ORDER, " < ")
  lu.assertTrue(text:gsub("%s+", " "):find(line, 1, true) ~= nil, line)
end

return T
