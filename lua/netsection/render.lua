-- SPDX-License-Identifier: MIT
-- Pictures by gnuplot, the one place where another program is run: scripts become SVG in
-- one go. Only names of temporary files stand on the command line, never a user's text.
local file = require "netsection.file"
local folder = require "netsection.folder"

local render = {}

local function read(path)
  local input <close> = io.open(path, "rb")
  return input and input:read "a"
end

-- Where the script and the pictures stand while they are made.
local function run(path, scripts)
  local ok, problem = file.write(path .. ".gp", table.concat(scripts, "\n"))
  if not ok then return nil, problem end
  local done = os.execute(("gnuplot %s >%s 2>&1"):format(folder.quoted(path .. ".gp"),
    folder.quoted(path .. ".said")))
  if done then return true end
  local said = (read(path .. ".said") or ""):match "[^\n]+" or "is it installed?"
  return nil, "gnuplot did not draw: " .. said
end

--- Pictures as SVG.
-- @param draws {{name, function(output) -> gnuplot script}, ...}
-- @return {name = text}; or nil and what is wrong
function render.svg(draws)
  local path = os.tmpname()
  local scripts, pictures = {}, {}
  local function picture(i)
    return ("%s-%d.svg"):format(path, i)
  end
  for i, draw in ipairs(draws) do scripts[i] = draw[2](picture(i)) end
  local ok, problem = run(path, scripts)
  for i, draw in ipairs(draws) do
    pictures[draw[1]] = ok and read(picture(i)) or nil
    os.remove(picture(i))
  end
  for _, ending in ipairs {"", ".gp", ".said"} do os.remove(path .. ending) end
  if not ok then return nil, problem end
  return pictures
end

return render
