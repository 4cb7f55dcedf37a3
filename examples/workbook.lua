-- SPDX-License-Identifier: MIT
-- Needs: zlib lxp
-- Question: the field book of a flat came back as one workbook; what does one command
-- make of it, and what moves when a reviewer changes a load in the workbook that comes
-- out?
--   netsection review examples/survey/book.xlsx --into out/package --workbook xlsx
-- Expected: the floor of the CSV files in examples/survey, exit code 1 since there is
-- work; a package with calculation.xlsx: summary, inputs, 22 sheets of joists (alike
-- ones share one). J1 is simple, 13-6 at 16 in: M = w L^2/8 = 364.5 lb-in for each psf
-- of D and of L.
local command = require "netsection.command"

local out = os.getenv "NETSECTION_OUT" or "out"
local lines = {}
local function say(line) lines[#lines + 1] = line end
local code = command.run({"review", "examples/survey/book.xlsx", "--into",
  out .. "/package", "--workbook", "xlsx"}, {out = say, err = say})
for _, line in ipairs(lines) do
  if line:find "book.xlsx" or line:find "files written" then print(line) end
end
print("exit code " .. code)

local file <close> = assert(io.open(out .. "/package/calculation.xlsx", "rb"))
local text, sheets = file:read "a", 0
for _ in text:gmatch "<sheet name=" do sheets = sheets + 1 end
print(("calculation.xlsx: %d sheets"):format(sheets))
print("M of J1 = " .. text:match "<f>([^<]*j1_in_D[^<]*)</f>")
