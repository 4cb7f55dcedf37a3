-- SPDX-License-Identifier: MIT
-- The man page of the command, from what it says of itself: lua tests/man.lua
local core = require "netsection.core"
local help = require "netsection.command.help"

-- Lines as troff prints them as they stand.
local function literal(text)
  return (("\n" .. text):gsub("\\", "\\e"):gsub("\n([.'])", "\n\\&%1"):gsub("-", "\\-")
    :sub(2))
end

local out = {('.TH NETSECTION 1 "" "netsection %s" "User commands"'):format(core.version)}

local function section(name, text)
  out[#out + 1] = (".SH %s\n%s"):format(name, text)
end

local function shown(text)
  return ".nf\n" .. literal(text) .. "\n.fi"
end

section("NAME", "netsection \\- assessment and repair of cut wood floor joists")
section("SYNOPSIS", shown(help.usage:match "\n\n(.-)\n\nexit codes"))
section("DESCRIPTION", literal("Reads what was measured of a floor whose joists were "
  .. "notched, drilled, sawn through, rotted or burnt, reviews every joist, and writes "
  .. "report, drawings, calculation, parts and order of work.\nResults are working "
  .. "figures for a person licensed where the building stands."))
for verb in help.verbs:gmatch "[%w_]+" do
  section(verb:upper(), shown(help.of(verb)))
end
section("EXIT STATUS", shown(help.usage:match "exit codes\n(.*)$"))
section("FILES", literal("FOLDER/joists.csv, cuts.csv, obstructions.csv, loads.csv, "
  .. "fixes.csv and survey.csv, as 'netsection template FOLDER' writes them.\nNames that "
  .. "begin with .netsection- and end in .part are left by a killed run; they may "
  .. "be deleted."))
print(table.concat(out, "\n"))
