-- SPDX-License-Identifier: MIT
-- A floor measured in millimeters, by EN 1995-1-1 with the annex of the UK and the LABC
-- guidance: every page and drawing of its package is read for US units and US clauses.
-- NETSECTION_PRINT=1 prints the pages with a browser and reads the text of the PDF too.
local lu = require "luaunit"
local ns = require "netsection"
local system = require "tests.system"

local T = {}

local made
local function files()
  if not made then
    local env = setmetatable({print = function() end, os = setmetatable({
      getenv = function() end}, {__index = os})}, {__index = _G})
    local review = assert(loadfile("examples/metric_package.lua", "t", env))()
    made = {review = review, list = (ns.package.files(review, {full = true}))}
  end
  return made
end

local WORDS = {"psi", "psf", "plf", "lb", "lbs", "ft", "inch", "inches", "feet", "NDS",
  "IRC", "IBC", "ASCE", "AISC", "AISI", "IEBC"}

-- What of the US stands on a line: psi_2 is a factor of EN 1990.
local function of_the_us(line)
  for _, word in ipairs(WORDS) do
    if line:find("%f[%w_]" .. word .. "%f[^%w_\\]") then return word end
  end
  return line:match "R%d%d%d%.%d" or line:match '%d"' or line:match "%d'%-%d"
    or line:match "%d in%f[%A]"
end

-- What a reader sees of a file: texts between tags, quoted texts of a drawing.
local function seen(name, text)
  if name:find "%.html$" then
    return (text:gsub("<style.-</style>", ""):gsub("<[^>]*>", "\n"):gsub("&quot;", '"')
      :gsub("&#39;", "'"))
  elseif name:find "%.gp$" then
    local out = {}
    for line in text:gmatch "[^\n]+" do
      if not line:find "^#" and not line:find "terminal" then
        for said in line:gmatch "'([^']*)'" do out[#out + 1] = said end
      end
    end
    return table.concat(out, "\n")
  end
  return text
end

function T.test_no_us_unit_and_no_us_clause()
  local lines, pages = 0, {}
  for _, file in ipairs(files().list) do
    if not file.name:find "^numbers" then -- which stay in in, lb, psi, and say so
      pages[file.name] = true
      for line in seen(file.name, file.text):gmatch "[^\n]+" do
        lines = lines + 1
        local what = of_the_us(line)
        lu.assertNil(what, ("%s: %s"):format(file.name, line))
      end
    end
  end
  for _, name in ipairs {"report.html", "calculation.html", "letter.html", "parts.html",
    "crew.html", "report.md", "report.txt", "plan.gp", "J4-elevation.gp",
    "J5-section.gp"} do
    lu.assertTrue(pages[name], name)
  end
  lu.assertTrue(lines > 2000)
end

function T.test_pages_are_a4_and_metric()
  local text = {}
  for _, file in ipairs(files().list) do
    if file.name:find "%.html$" then lu.assertStrContains(file.text, "size: A4") end
    text[file.name] = file.text
  end
  -- w = (0.6 + 1.5) 0.4 = 0.84 kN/m; M_d = (1.35 x 0.24 + 1.5 x 0.6) 4.1^2/8 = 2.57 kN m
  lu.assertStrContains(text["report.txt"], "2.57 kN m")
  lu.assertStrContains(text["calculation.txt"], "w = w_D + w_L = 0.24 + 0.6 = 0.84 kN/m")
  lu.assertStrContains(text["report.txt"], "LABC 3.22")
  lu.assertStrContains(text["key-plan.gp"], "scale 1:150")
end

-- The reader can tell: the same floor by the US standard in US units.
function T.test_the_reader_finds_them()
  local found = 0
  local floor = ns.floor {name = "F", joists = {{mark = "J1", size = "2x10",
    species = "Hem-Fir", grade = "No.2", span = "13-6", spacing = 16, bearing = 3.5,
    dead = 12, live = 40, cuts = {ns.hole {at = "5-0", diameter = 3}}}}}:review()
  for line in ns.report.text(floor):gmatch "[^\n]+" do
    found = found + (of_the_us(line) and 1 or 0)
  end
  lu.assertTrue(found > 20, tostring(found))
end

-- On paper: what a browser prints has the same words on A4, 595 x 842 points.
function T.test_on_paper()
  if (os.getenv "NETSECTION_PRINT" or "") == "" then return lu.skip "NETSECTION_PRINT" end
  system.unix "a browser in a shell"
  local folder = os.tmpname()
  os.remove(folder)
  system.fresh(folder)
  for _, file in ipairs(files().list) do
    if file.name:find "%.html$" then
      local path = ("%s/%s"):format(folder, file.name)
      assert(ns.write(path, file.text))
      assert(os.execute(("cd %s && chromium --headless --no-sandbox --disable-gpu "
        .. "--no-pdf-header-footer --print-to-pdf=p.pdf %s >/dev/null 2>&1 "
        .. "&& pdftotext -layout p.pdf p.txt && pdfinfo p.pdf > p.info"):format(folder,
        file.name)))
      for line in io.lines(folder .. "/p.txt") do lu.assertNil(of_the_us(line), line) end
      local info <close> = assert(io.open(folder .. "/p.info"))
      lu.assertStrContains(info:read "a", "(A4)")
    end
  end
  system.remove(folder)
end

return T
