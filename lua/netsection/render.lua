-- SPDX-License-Identifier: MIT
-- Pictures by gnuplot, run without a shell and for a limited time: scripts become SVG in
-- one go, in a private folder that is removed. What is no picture is not used.
local core = require "netsection.core"
local file = require "netsection.file"
local folder = require "netsection.folder"

local render = {}

-- Seconds that gnuplot may take for all pictures of a package.
render.seconds = 120
local LARGEST = 32 << 20

-- Runs gnuplot on a script. @return true, or nil and what is wrong
local function run(place, script)
  local ok, problem = file.write(place .. "/script.gp", script)
  if not ok then return nil, problem end
  local said = place .. "/said"
  local code, why = core.files.run({"gnuplot", place .. "/script.gp"}, said,
    render.seconds)
  if code == 0 then return true end
  local line = code and (file.read(said, LARGEST) or ""):match "[^\n]+"
  return nil, "gnuplot did not draw: " .. (line or why or "is it installed?")
end

local function picture(path)
  local text = file.read(path, LARGEST)
  return text and text:find("<svg", 1, true) and text:find("</svg>", 1, true) and text
    or nil
end

--- Pictures as SVG.
-- @param draws {{name, function(output) -> gnuplot script}, ...}
-- @return {name = text}; or nil and what is wrong
function render.svg(draws)
  local place, problem = core.files.private_folder()
  if not place then return nil, "no folder for temporary files: " .. problem end
  local scripts, pictures, missing = {}, {}, nil
  for i, draw in ipairs(draws) do
    scripts[i] = draw[2](("%s/%d.svg"):format(place, i))
  end
  local ok, why = run(place, table.concat(scripts, "\n"))
  for i, draw in ipairs(draws) do
    pictures[draw[1]] = ok and picture(("%s/%d.svg"):format(place, i))
    missing = missing or ok and not pictures[draw[1]] and draw[1]
  end
  folder.remove_own(place)
  if not ok then return nil, why end
  if missing then return nil, ("gnuplot made no picture of %s"):format(missing) end
  return pictures
end

return render
