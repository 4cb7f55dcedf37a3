-- SPDX-License-Identifier: MIT
-- The folders of csrc stand in one order and every arrow points down it: what a file
-- includes and what it calls belongs to its own folder or to one below. Files form no
-- circle.
local t = require "luaunit"
local system = require "tests.system"

local test_rooms = {}

-- From below to above; DEVELOPERS.md shows the same order, and says what each room holds.
local ORDER = {"joist", "standard", "beam", "section", "nds", "ec5", "csa", "grid",
  "work", "cuts", "check", "rules", "repair", "review", "sweep", "odds", "netsection.h",
  "lua", "program"}
local LEVEL = {}
for k, room in ipairs(ORDER) do LEVEL[room] = k end

local function source(path)
  local file = assert(io.open("csrc/" .. path))
  local text = file:read "a"
  file:close()
  return text
end

-- Paths within csrc of its C files and headers, sorted.
local function listed()
  local all = {}
  for _, path in ipairs(system.below("csrc", "%.[ch]$")) do
    all[#all + 1] = path:match "^csrc/(.+)$"
  end
  table.sort(all)
  return all
end

local function room_of(path) return path:match "^(.-)/" or path end

-- Code without comments and literals, so that what is only spoken of counts as nothing.
local function bare(text)
  return (text:gsub("/%*.-%*/", " "):gsub('"[^"\n]*"', '""'):gsub("//[^\n]*", ""))
end

-- name -> file that defines it: a line that begins with its type and opens a body. An
-- entry of the families of formulas counts as the lowest family's.
local function definitions(texts)
  local home = {}
  for _, path in ipairs(listed()) do
    local text = texts[path]
    for head in ("\n" .. text):gmatch "\n([%a_][^\n;#{}=]*[^;{}=]-%b())%s*{" do
      local name = head:match "(nsb?_[%w_]+)%s*%("
      if name and not head:find "^static" then home[name] = path end
    end
    for name in ("\n" .. text):gmatch "\nNS_INLINE [%w_ *]-(ns_[%w_]+)%(" do
      if not home[name] or path:find "^nds/" then home[name] = path end
    end
  end
  return home
end

local function graph()
  local includes, texts, uses = {}, {}, {}
  for _, path in ipairs(listed()) do
    local text = source(path)
    includes[path] = {}
    for name in text:gmatch '\n#include "([^"]+)"' do includes[path][name] = true end
    texts[path] = bare(text)
  end
  local home = definitions(texts)
  for path, text in pairs(texts) do
    uses[path] = {}
    -- Without declarations: a line that begins with its type and ends after arguments.
    local calls = ("\n" .. text):gsub("\n[%a_][^\n;{}]-[^;{}]-%b()%s*;", "\n")
    for name in calls:gmatch "%f[%w_](nsb?_[%w_]+)%s*%(" do
      local from = home[name]
      if from and from ~= path then uses[path][from] = name end
    end
  end
  return includes, uses, home
end

local includes, uses, home = graph()

function test_rooms.test_every_folder_has_its_place()
  for _, path in ipairs(listed()) do
    t.assertNotNil(LEVEL[room_of(path)], path .. ": its folder is not in the order")
  end
end

function test_rooms.test_the_reader_of_the_sources_sees_them()
  t.assertEquals(home.ns_review, "review/families.c")
  t.assertEquals(home.ns_check_cut, "check/state.c")
  t.assertEquals(home.ns_offer_lane, "work/record.h")
  t.assertEquals(uses["check/uplift.c"]["work/record.c"], "ns_add")
  t.assertTrue(includes["review/review.c"]["cuts/cuts.h"])
end

function test_rooms.test_no_include_looks_upward()
  for path, names in pairs(includes) do
    for name in pairs(names) do
      local level = LEVEL[room_of(name)]
      t.assertNotNil(level, ("%s includes %s"):format(path, name))
      t.assertTrue(level <= LEVEL[room_of(path)],
        ("%s looks up to %s"):format(path, name))
    end
  end
end

function test_rooms.test_no_call_goes_upward()
  for path, to in pairs(uses) do
    for file, name in pairs(to) do
      t.assertTrue(LEVEL[room_of(file)] <= LEVEL[room_of(path)],
        ("%s calls %s of %s"):format(path, name, file))
    end
  end
end

-- A way from a file back to itself, as text; nil where there is none.
local function circle(edges)
  local state, trail = {}, {}
  local function visit(path)
    if state[path] == "done" then return end
    trail[#trail + 1] = path
    if state[path] then return table.concat(trail, " -> ") end
    state[path] = "open"
    local next = {}
    for file in pairs(edges[path] or {}) do next[#next + 1] = file end
    table.sort(next)
    for _, file in ipairs(next) do
      local found = visit(file)
      if found then return found end
    end
    state[path] = "done"
    trail[#trail] = nil
  end
  local all = {}
  for path in pairs(edges) do all[#all + 1] = path end
  table.sort(all)
  for _, path in ipairs(all) do
    local found = visit(path)
    if found then return found end
  end
end

function test_rooms.test_files_form_no_circle()
  t.assertNil(circle(uses))
  t.assertNil(circle(includes))
  local ring = {a = {b = true}, b = {c = true}, c = {a = true}}
  t.assertEquals(circle(ring), "a -> b -> c -> a")
end

function test_rooms.test_the_door_is_small()
  local lines = select(2, source "netsection.h":gsub("\n", ""))
  t.assertTrue(lines < 250)
  for _, path in ipairs(listed()) do
    if room_of(path) ~= "lua" and path ~= "netsection.h" then
      t.assertNil(includes[path]["netsection.h"], path .. " takes in every room at once")
    end
  end
end

-- Clauses, their factors and the formula of shear stand in the rooms of the families.
function test_rooms.test_standards_are_named_in_their_rooms_alone()
  local found = 0
  for _, path in ipairs(listed()) do
    local room, text = room_of(path), source(path)
    for _, word in ipairs {"NDS", "AISC", "AISI", "IRC", "ASCE", "1%.67", "2%.0 / 3"} do
      local at = text:find("%f[%w_]" .. word .. "%f[^%w_]")
      found = found + (at and 1 or 0)
      local other = room == "ec5" or room == "csa"
      local family = room == "nds" or other and word == "2%.0 / 3"
      t.assertTrue(not at or family, path .. " says " .. word)
    end
  end
  t.assertTrue(found > 4)
end

function test_rooms.test_a_strength_of_wood_in_shear_stands_once()
  local count = {}
  for _, path in ipairs(listed()) do
    local n = select(2, bare(source(path)):gsub("2%.0 / 3", ""))
    if n > 0 then count[room_of(path)] = (count[room_of(path)] or 0) + n end
  end
  t.assertEquals(count, {nds = 1, ec5 = 1, csa = 1}) -- once in each family
end

return test_rooms
