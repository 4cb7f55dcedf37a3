-- SPDX-License-Identifier: MIT
-- What the command writes. All texts are made before the first file is, a folder that
-- holds something is left alone unless the user said otherwise, and nothing is deleted.
local document = require "netsection.document"
local file = require "netsection.file"
local folder = require "netsection.folder"
local package = require "netsection.package"
local survey_folder = require "netsection.command.survey_folder"

local output = {}

local function exists(path)
  local f <close> = io.open(path, "rb")
  return f ~= nil
end

-- A name of a file below the folder, never one outside.
local function is_below(name)
  return name ~= "" and not name:find "^/" and not name:find "%c"
    and not ("/" .. name .. "/"):find("/../", 1, true)
end

--- Writes a list of {name =, text =} into a folder.
-- @param options {replace = true: also where the folder holds something}
-- @return how many, or nil and a message
function output.files(files, path, options)
  local there = folder.entries(path)
  if there and #there > 0 and not options.replace then
    return nil, ("the folder %s is not empty; --replace writes into it"):format(path)
  end
  local made, problem = folder.make(path)
  if not made then return nil, problem end
  for _, f in ipairs(files) do
    if not is_below(f.name) then error("not a name for a file: " .. f.name) end
    local below = f.name:match "^(.*)/[^/]+$"
    if below then
      made, problem = folder.make(survey_folder.joined(path, below))
      if not made then return nil, problem end
    end
    local ok, why = file.write(survey_folder.joined(path, f.name), f.text)
    if not ok then return nil, why end
  end
  return #files
end

--- Writes the package of a floor's review.
-- @param options {paper =, render =, visit =, concealed = as package.files takes them}
-- @param replace true: also where the folder holds something
-- @return how many files, or nil and a message; what went wrong with the pictures
function output.package(result, path, options, replace)
  local files, problem = package.files(result, options)
  local written, why = output.files(files, path, {replace = replace})
  if not written then return nil, why end
  return written, problem
end

local FORMS = {html = "html", htm = "html", md = "markdown", markdown = "markdown",
  tex = "latex", txt = "text"}

--- The form of a document that a file's name ends with, or nil and what was expected.
function output.form(path)
  local form = FORMS[(path:match "%.(%a+)$" or ""):lower()]
  if form then return form end
  return nil, ("%s: a name that ends in .html, .md, .tex or .txt expected"):format(path)
end

--- Writes a document in the form that the file's name ends with.
function output.document(d, path, options)
  local form = output.form(path)
  if exists(path) and not options.replace then
    return nil, ("%s is there already; --replace overwrites it"):format(path)
  end
  return file.write(path, document[form](d, {paper = options.paper}))
end

return output
