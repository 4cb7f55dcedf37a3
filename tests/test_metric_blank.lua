-- SPDX-License-Identifier: MIT
-- Blank field books and the field sheet in metric units: no US unit stands in them, and
-- what their examples say reads as a metric floor.
local columns = require "netsection.field_columns"
local command = require "netsection.command"
local document = require "netsection.document"
local lu = require "luaunit"
local ns = require "netsection"
local template = require "netsection.field_book"

local T = {}

local METRIC = {units = "metric"}

-- A US unit, or feet and inches, on a line.
local function us_unit(line)
  for _, unit in ipairs {"psi", "psf", "plf", "lb", "inch", "inches", "feet"} do
    if line:find("%f[%a]" .. unit .. "%f[%A]") then return unit end
  end
  return line:match "%d in%f[%A]" or line:match "%d ft%f[%A]"
    or line:match "%f[%d]%d+%-%d+%f[^%d%-]"
end

local function none_in(name, text)
  for line in text:gmatch "[^\n]+" do
    local said = line:gsub("%f[%w]%l%l%l?%-%w+%-%w+[%w%-]*", ""):gsub("J%d%-%d", "")
      :gsub("netsection %d[%d.]*", ""):gsub("%d%d%d%d%-%d%d%-%d%d", "")
    lu.assertNil(us_unit(said), name .. ": " .. line)
  end
end

function T.test_books_have_no_us_unit()
  for name, text in pairs(ns.survey_template(nil, METRIC)) do none_in(name, text) end
end

-- The examples without their mark: 4.1 m, 38 x 235, 0.6 and 1.9 kPa.
function T.test_examples_are_a_metric_floor()
  local books, t = ns.survey_template(nil, METRIC), {}
  for _, kind in ipairs(columns.files) do
    t[kind] = books[kind]:gsub(template.mark:gsub("%p", "%%%0"), "")
  end
  t.joists = t.joists .. "J2,600,,,,,,,,3700\r\n"
  t.settings = books.survey
  local floor, found = ns.read_survey(t)
  lu.assertNotNil(floor, found and found[1] and found[1].text)
  local m = floor:joist("J1").model
  lu.assertEquals(m.show.name, "metric")
  lu.assertAlmostEquals(m.span[1], 4100 / 25.4, 1e-9)
  lu.assertAlmostEquals(m.d, 232 / 25.4, 1e-9)
  lu.assertAlmostEquals(m.live, 1900 / (4.4482216152605 / 0.3048 ^ 2), 1e-9)
  lu.assertAlmostEquals(m.cuts[1].diameter, 100 / 25.4, 1e-9)
  lu.assertEquals(floor.survey.settings.paper, "a4")
end

function T.test_the_sheet()
  local d = ns.field_sheet {joists = {"J1"}, name = "Flat", units = "metric"}
  for _, form in ipairs {"text", "html", "markdown"} do
    none_in(form, document[form](d))
  end
  local html = document.html(d)
  lu.assertStrContains(html, "meters from the center of the left bearing")
  lu.assertStrContains(html, ">300</text>")
  lu.assertErrorMsgContains("units: \"us\" or \"metric\" expected", ns.field_sheet,
    {units = "imperial"})
  lu.assertErrorMsgContains("units", ns.survey_template, "joists", {units = 3})
  lu.assertErrorMsgContains("units", ns.workbook.template, "xlsx", {units = "mm"})
end

-- The same in a workbook: its parts are stored as they are, texts between tags.
function T.test_the_workbook()
  for _, form in ipairs {"xlsx", "ods"} do
    local bytes = ns.workbook.template(form, METRIC)
    lu.assertStrContains(bytes, "a bare number is mm")
    none_in(form, (bytes:gsub("<[^>]*>", "\n")))
    lu.assertTrue(bytes ~= ns.workbook.template(form))
  end
end

function T.test_the_command()
  local out = {}
  local code = command.run({"sheet", "--printed", "metric", "--marks", "J1"}, {
    out = function(text) out[#out + 1] = text end, err = function() end})
  lu.assertEquals(code, 0)
  lu.assertStrContains(table.concat(out, "\n"), "meters")
end

return T
