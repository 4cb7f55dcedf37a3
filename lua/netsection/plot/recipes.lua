-- SPDX-License-Identifier: MIT
-- The recipes, plots/*.gp: what is put in for the names between at signs.
local files = require "netsection.core".files
local error = require "netsection.raise".error

local recipes = {}

-- Beside this file when installed, at the root in a checkout.
local PLACES = {"plots/", "../../plots/"}

local function read_recipe(name)
  local path = assert(package.searchpath("netsection.plot", package.path))
  local folder = path:match("^(.*[/\\])") or ""
  for _, place in ipairs(PLACES) do
    local text = files.read(folder .. place .. name .. ".gp", 1 << 20)
    if text then return text end
  end
  error(("plots/%s.gp is not installed with netsection"):format(name), 0)
end

local read = {}

function recipes.of(name)
  read[name] = read[name] or read_recipe(name):gsub("^# SPDX[^\n]*\n", "")
  return read[name]
end

-- In one pass, so that a text which looks like a placeholder stays text.
function recipes.fill(text, parts)
  return (text:gsub("@([A-Z]+)@", function(name)
    return parts[name] or error("no part for @" .. name .. "@", 0)
  end))
end

return recipes
