-- SPDX-License-Identifier: MIT
-- Runs of the command and of a streamed CSV that are killed at random moments: no half
-- file, nothing beside it whose name is not ours, and the package of before whole or the
-- new one. NETSECTION_KILLS is the number of each (3; 40 and more by `make kills`).
local drawing = require "tests.drawing"
local folder = require "netsection.folder"
local lu = require "luaunit"
local support = require "tests.support"
local system = require "tests.system"

local T = {}

local KILLS = tonumber(os.getenv "NETSECTION_KILLS" or "") or 3
local LUA = arg[-1]

local COMMAND = [[
package.path = %q
package.cpath = %q
io.stdout:setvbuf "no"
os.exit(require "netsection.command".main(arg))
]]

local STREAM = [[
package.path = %q
package.cpath = %q
local ns = require "netsection"
local live, dead = {}, {}
for i = 1, 300 do live[i], dead[i] = 20 + i / 10, 5 + i / 20 end
local s = ns.sweep {joist = ns.joist {size = "2x10", species = "hem-fir", grade = "No.2",
  span = 150, spacing = 16, dead = 12, live = 40, cuts = {}},
  over = {live = live, dead = dead}, values = {"ratio"}}
assert(s:csv(arg[1]))
]]

local function script(dir, name, text)
  local path = dir .. "/" .. name
  drawing.write_file(path, text:format(package.path, package.cpath))
  return path
end

-- Runs a script, killed after so many seconds; @return whether it came to its end.
local function run(seconds, path, ...)
  local words = {}
  for i, word in ipairs {...} do words[i] = "'" .. word .. "'" end
  local _, how, code = os.execute(("%s '%s' '%s' %s >/dev/null 2>&1"):format(seconds
    and ("timeout -s KILL %.4f"):format(seconds) or "", LUA, path, table.concat(words,
    " ")))
  return how == "exit" and code < 128
end

-- Seconds by the clock, with its fractions where `date` gives them.
local function now()
  local pipe <close> = assert(io.popen "date +%s.%N")
  return tonumber(pipe:read "l") or os.time() + 0.5
end

-- Seconds that a run takes when nobody kills it.
local function lasts(...)
  local from = now()
  assert(run(nil, ...))
  return now() - from
end

-- All files below a folder as one text.
local function whole(path)
  local out = {}
  local function walk(at)
    for _, name in ipairs(folder.entries(at) or {}) do
      if folder.kind(at .. "/" .. name) == "folder" then
        walk(at .. "/" .. name)
      else
        out[#out + 1] = at:sub(#path + 1) .. "/" .. name .. "\n"
          .. drawing.read_file(at .. "/" .. name)
      end
    end
  end
  walk(path)
  return table.concat(out, "\n")
end

-- Names in a folder that are neither in the list nor of the form that is ours.
local function strange(path, mine)
  local list = {}
  for _, name in ipairs(folder.entries(path)) do
    if not mine[name] and not name:find "^%.netsection%-%x+%.part" then
      list[#list + 1] = name
    end
  end
  return table.concat(list, " ")
end

-- Kills at moments spread over a run and a little more; some runs must be cut, some end.
local function moments(r, n, seconds)
  local list = {}
  for i = 1, n do list[i] = seconds * (0.2 + 0.9 * (i - r:unit()) / n) end
  return list
end

function T.test_a_package_by_the_command()
  system.unix "a kill by its shell"
  local dir <close> = drawing.folder()
  local path, r = dir.path .. "/out", support.random(40)
  local go = script(dir.path, "run.lua", COMMAND)
  local mill = "tests/data/mill"
  lasts(go, "review", mill, "--into", path)
  local old = whole(path)
  local seconds = lasts(go, "review", mill, "--into", dir.path .. "/new", "--name", "New")
  local new = whole(dir.path .. "/new")
  lu.assertNotEquals(old, new)
  local ended, cut = 0, 0
  for i, after in ipairs(moments(r, KILLS, seconds)) do
    local done = run(after, go, "review", mill, "--into", path, "--replace", "--name",
      "New")
    ended, cut = ended + (done and 1 or 0), cut + (done and 0 or 1)
    local found = whole(path)
    lu.assertTrue(found == new or not done and found == old, "kill " .. i)
    lu.assertEquals(strange(dir.path, {out = 1, new = 1, ["run.lua"] = 1}), "")
    if found == new then
      assert(run(nil, go, "review", mill, "--into", path, "--replace"))
      lu.assertEquals(whole(path), old)
    end
  end
  lu.assertTrue(cut > 0, ("%d ended, none was cut"):format(ended))
end

function T.test_a_streamed_csv()
  system.unix "a kill by its shell"
  local dir <close> = drawing.folder()
  local path, r = dir.path .. "/out.csv", support.random(41)
  local go = script(dir.path, "run.lua", STREAM)
  local seconds = lasts(go, path)
  local good = drawing.read_file(path)
  lu.assertEquals(select(2, good:gsub("\n", "")), 300 * 300 + 1)
  local cut = 0
  for i, after in ipairs(moments(r, KILLS, seconds)) do
    local before = i % 2 == 0 and "what was there\n" or nil
    os.remove(path)
    if before then drawing.write_file(path, before) end
    local done = run(after, go, path)
    cut = cut + (done and 0 or 1)
    local found = folder.kind(path) and drawing.read_file(path) or nil
    lu.assertTrue(found == good or not done and found == before, "kill " .. i)
    lu.assertEquals(strange(dir.path, {["out.csv"] = 1, ["run.lua"] = 1}), "")
  end
  lu.assertTrue(cut > 0)
end

return T
