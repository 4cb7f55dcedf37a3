-- SPDX-License-Identifier: MIT
-- Units in print come from quantity.lua and locale/, what a text was written in from
-- units.lua and written.lua, symbols of a standard from its folder. No other file of the
-- module writes a unit behind a number, but for those that are named here.
local lu = require "luaunit"
local system = require "tests.system"

local T = {}

-- Files whose business units are; homework teaches in those of its course.
local FREE = {"/quantity%.lua$", "/units%.lua$", "/written%.lua$", "/locale/",
  "/standards/", "/data/", "/homework/", "/homework%.lua$"}

-- How many such texts a file has, and what for. The numbers may only get smaller.
local LEFT = {
  -- numbers that a description gets back, with the unit that makes them loads
  ["act_now"] = 3, ["fix/part"] = 1, ["load_path/over"] = 2, ["neighbors"] = 1,
  ["recheck_rebuild"] = 2,
  -- names of base units beside numbers that stay in them
  ["grid/tree"] = 4, ["member/beam_line"] = 2,
  -- what an argument takes that is a number of the base unit
  ["fastener"] = 2, ["grid"] = 1, ["grid/options"] = 2, ["historic"] = 3,
  ["model"] = 1, ["packs/rules"] = 1, ["survey/cell"] = 1,
  -- sizes that a repair takes where none is said, read as a description is
  ["fix/fasten"] = 2, ["fix/notch_screws"] = 2,
  -- examples of blank books, which locale/ turns into metric ones
  ["fields/cut"] = 3, ["fields/joist"] = 7, ["field_columns"] = 12,
  -- tables and charts in feet and inches; decks by their size
  ["table/axes"] = 1, ["table/rounding"] = 1, ["grid/deck"] = 1, ["grid/lines"] = 1,
}

-- Texts that only look so: "3 in a column", "of %s in it".
local WORDS = {" in %a", "%d in %a", "%%s in ", "%%d in %%s"}

local ONLY = {psi = true, psf = true, plf = true, pcf = true, lb = true, ["in"] = true,
  ft = true, ["lb-in"] = true, ["lb/in"] = true, ["ft-lb"] = true, ["lb-in2"] = true}
local UNITS = {"psi", "psf", "plf", "pcf", "ksi", "ft%-lb", "lb%-in"}

local function in_words(text)
  for _, pattern in ipairs(WORDS) do
    if text:find(pattern) then return true end
  end
  return false
end

-- Whether a text has a unit behind a number; the bare name of a unit is none.
local function has_unit(text)
  if ONLY[text] then return false end
  local said = " " .. text .. " "
  for _, unit in ipairs(UNITS) do
    if said:find("[^%w_.{\\]" .. unit .. "[^%w_=]") then return true end
  end
  if text:find "[%d%%]%S* in$" then return true end
  for _, unit in ipairs {"in", "ft", "lb"} do
    if text:find("%%%a " .. unit .. "%f[%A]") and not in_words(text) then return true end
  end
  return false
end

local function count_in(path)
  local file <close> = assert(io.open(path))
  local n, found = 0, {}
  for line in file:lines() do
    if not line:find "^%s*%-%-" then
      for text in line:gmatch '"([^"]*)"' do
        if has_unit(text) then n, found[#found + 1] = n + 1, text end
      end
      if line:gsub('"[^"]*"', ""):gsub("%-%-.*$", ""):find "feet_inches" then
        n, found[#found + 1] = n + 1, "feet_inches"
      end
    end
  end
  return n, table.concat(found, " | ")
end

local function free(path)
  for _, pattern in ipairs(FREE) do
    if path:find(pattern) then return true end
  end
  return false
end

function T.test_units_in_print_come_from_one_place()
  local wrong, seen = {}, {}
  for _, path in ipairs(system.below("lua/netsection", "%.lua$")) do
    if not free(path) then
      local name = path:match "^lua/netsection/(.*)%.lua$"
      local n, found = count_in(path)
      seen[name] = true
      if n ~= (LEFT[name] or 0) then
        wrong[#wrong + 1] = ("%s: %d, not %d: %s"):format(name, n, LEFT[name] or 0, found)
      end
    end
  end
  for name in pairs(LEFT) do lu.assertTrue(seen[name], name .. " is no file") end
  lu.assertEquals(table.concat(wrong, "\n"), "")
end

-- The reader itself can tell.
function T.test_what_counts()
  for _, text in ipairs {"%s psi", "at %g in", "1-1/2 in", "%d plf more", "%.0f ft-lb",
    "moments, lb-in", "%s lb each"} do
    lu.assertTrue(has_unit(text), text)
  end
  for _, text in ipairs {"psi", "lb-in", "%d in a row", "%s in it", "in", "set in mortar",
    "\\psi", "of %s in %s"} do
    lu.assertFalse(has_unit(text), text)
  end
end

return T
