-- SPDX-License-Identifier: MIT
-- Files that stand in the program itself, as in the single program: paths below
-- "inside:/". The host of the tests carries what this file says; another interpreter
-- carries nothing.
local core = require "netsection.core"
local folder = require "netsection.folder"
local lu = require "luaunit"

local T = {}

local files = core.files

-- Texts of a block one after the other, and where each stands in it.
local FIRST, SECOND = "return 1\n", "# second\n"
local LARGEST = 1 << 20 -- bytes of a block

-- In the order of their names, bytes by bytes.
local CARRIED = {
  blocks = {{FIRST .. SECOND, #FIRST + #SECOND}, {"damaged", 8},
    {"x", LARGEST + 1}, {("y"):rep(LARGEST), LARGEST}},
  files = {
    {"a.lua", 0, 0, #FIRST},
    {"a/b.lua", 0, #FIRST, #SECOND},
    {"a/c/d.lua", 0, 0, 0},
    {"a/c/e.lua", 0, 0, 1},
    {"bad/at.lua", 0, #FIRST + #SECOND + 1, 0},      -- begins past the end of its block
    {"bad/block.lua", 9, 0, 1},                      -- of a block that is not there
    {"bad/damaged.lua", 1, 0, 7},                    -- which does not inflate
    {"bad/large.lua", 2, 0, 1},                      -- which says it is too large
    {"bad/size.lua", 0, #FIRST, #SECOND + 1},        -- ends past it
    {"large.lua", 3, 0, LARGEST},
    {"z", 0, 0, 1},
  },
}

local carried

function T.setUp()
  local ok, host = pcall(require, "host")
  lu.skipIf(not ok, "this interpreter carries no files")
  if not carried then host.carry(CARRIED) end
  carried = true
end

function T.test_their_texts()
  lu.assertEquals(files.read("inside:/a.lua", 100), FIRST)
  lu.assertEquals(files.read("inside:/a/b.lua", 100), SECOND)
  lu.assertEquals(files.read("inside:/a/b.lua", 3), SECOND:sub(1, 3))
  lu.assertEquals(files.read("inside:/a/b.lua", #SECOND), SECOND)
  lu.assertEquals(files.read("inside:/a/c/d.lua", 100), "")
  lu.assertEquals(files.read("inside:/z", 100), FIRST:sub(1, 1))
  lu.assertEquals(files.read("inside:/large.lua", LARGEST + 1), ("y"):rep(LARGEST))
end

-- Folders are what stands before the strokes of names; each name once.
function T.test_their_folders()
  for path, expected in pairs {["inside:/"] = {"a", "a.lua", "bad", "large.lua", "z"},
    ["inside:/a"] = {"b.lua", "c"}, ["inside:/a/"] = {"b.lua", "c"},
    ["inside:/a/c"] = {"d.lua", "e.lua"}} do
    local names = assert(files.entries(path))
    table.sort(names)
    lu.assertEquals(names, expected, path)
  end
  for _, path in ipairs {"inside:/b", "inside:/a.lua", "inside:/a/c/d.lua", "inside:/zz",
    "inside:/" .. ("n"):rep(300)} do
    lu.assertNil(folder.entries(path), path)
  end
end

function T.test_their_kinds()
  for path, expected in pairs {["inside:/a.lua"] = {"file", #FIRST},
    ["inside:/a/b.lua"] = {"file", #SECOND}, ["inside:/a"] = {"folder", 0},
    ["inside:/"] = {"folder", 0}, ["inside:/a/c/"] = {"folder", 0}} do
    local kind, id, size, link = files.kind(path)
    lu.assertEquals({kind, id, size, link}, {expected[1], path, expected[2], false})
  end
  local none, why = files.kind "inside:/none.lua"
  lu.assertNil(none)
  lu.assertEquals(why, "the program carries nothing of this name")
end

-- What is damaged is said, each time, and no byte past a block is given.
function T.test_damaged_ones()
  local listed = "the list of files in the program is damaged"
  for name, expected in pairs {at = listed, size = listed, block = listed,
    large = listed, damaged = "the files in the program are damaged: get another copy of "
    .. "it"} do
    for _ = 1, 2 do
      local text, why = files.read(("inside:/bad/%s.lua"):format(name), 100)
      lu.assertNil(text, name)
      lu.assertEquals(why, expected, name)
    end
  end
end

-- Other paths are of the disk: what is not carried, and what only looks like it.
function T.test_the_disk_beside_them()
  lu.assertEquals(folder.kind "tests/test_carried.lua", "file")
  for _, path in ipairs {"inside:/none.lua", "inside:a.lua", "inside/a.lua", "a.lua"} do
    lu.assertNil((files.read(path, 100)), path)
  end
end

return T
