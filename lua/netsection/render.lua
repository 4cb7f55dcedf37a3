-- SPDX-License-Identifier: MIT
-- Pictures by gnuplot, run without a shell and for a limited time: scripts become SVG in
-- one go, in a private folder that is removed. What is no picture is not used.
local core = require "netsection.core"
local file = require "netsection.file"
local folder = require "netsection.folder"
local hatch = require "netsection.hatch"
local point = require "netsection.point"

local render = {}

-- Seconds that gnuplot may take for all pictures of a package.
render.seconds = 120
local LARGEST = 32 << 20

-- Runs gnuplot on a script. @return true, or nil and what is wrong
local function run(place, script)
  local ok, problem = file.write(place .. "/script.gp", script)
  if not ok then return nil, problem end
  local said = place .. "/said"
  local code, why = core.files.run({"gnuplot", "-d", place .. "/script.gp"}, said,
    render.seconds)
  if code == 0 then return true end
  local line = code and (file.read(said, LARGEST) or ""):match "[^\n]+"
  return nil, "gnuplot did not draw: " .. (line or why or "is it installed?")
end

-- Width of a letter and how far a text reaches up and down, of the size of its type.
local WIDE, UP, DOWN = 0.58, 0.8, 0.22

-- The white ground behind a text as a box: as a filter, which is what gnuplot writes, a
-- browser that prints makes an image of every such text.
local function grounded(before, after, said)
  local tag = before .. after
  local size = tonumber(tag:match "font%-size=[\"']([%d.]+)[\"']") or 11
  local anchor = tag:match "text%-anchor=[\"'](%a+)[\"']" or "start"
  local letters = said:gsub("<[^>]*>", ""):gsub("&[^;]*;", "x")
  local wide = WIDE * size * (utf8.len(letters) or #letters) + 2
  local x = anchor == "middle" and -wide / 2 or anchor == "end" and 1 - wide or -1
  return point.format('<g%s%s><rect x="%.2f" y="%.2f" width="%.2f" height="%.2f" '
    .. 'fill="#fff"/>%s', before, after, x, -UP * size, wide, (UP + DOWN) * size, said)
end

local function picture(path)
  local text = file.read(path, LARGEST)
  if not (text and text:find("<svg", 1, true) and text:find("</svg>", 1, true)) then
    return nil
  end
  text = text:gsub("<g([^<>]-) style=[\"']filter:url%(#textbox%)[\"']([^<>]*)>"
    .. "(%s*<text.-</text>)", grounded)
  return hatch.lines((text:gsub("%s*<filter.-</filter>", "")))
end

-- Pictures of one run of gnuplot, so that somebody who waits can be told.
local AT_ONCE = 12

--- Pictures as SVG.
-- @param draws {{name, function(output) -> gnuplot script}, ...}
-- @param step function(done, of), told as they are made, or nil
-- @return {name = text}; or nil and what is wrong
function render.svg(draws, step)
  local place, problem = core.files.private_folder()
  if not place then return nil, "no folder for temporary files: " .. problem end
  local pictures, missing, ok, why = {}, nil, true, nil
  for first = 1, #draws, AT_ONCE do
    local scripts, last = {}, math.min(first + AT_ONCE - 1, #draws)
    for i = first, last do
      scripts[#scripts + 1] = draws[i][2](("%s/%d.svg"):format(place, i))
    end
    ok, why = run(place, table.concat(scripts, "\n"))
    if not ok then break end
    if step then step(last, #draws) end
  end
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
