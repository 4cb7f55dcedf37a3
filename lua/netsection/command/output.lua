-- SPDX-License-Identifier: MIT
-- What the command writes. All texts are made before the first file is, a folder that
-- holds something is left alone unless the user said otherwise, and nothing is deleted.
local document = require "netsection.document"
local file = require "netsection.file"
local file_set = require "netsection.file_set"
local folder = require "netsection.folder"

local output = {}

local function exists(path)
  return folder.kind(path) ~= nil
end

--- Writes a list of {name =, text =} into a folder, whole or not at all.
-- @param options {replace =, unlisted = as file_set.write takes them}
-- @return how many, or nil and a message
function output.files(files, path, options)
  return file_set.write(files, path, {replace = options.replace, make = true,
    unlisted = options.unlisted})
end

--- Writes the package of a floor's review.
-- @param options as package.files takes them
-- @param replace true: also where the folder holds something
-- @return how many files, or nil and a message; what went wrong with pictures or PDF; the
--   program that made the PDF
function output.package(result, path, options, replace)
  local package = require "netsection.package" -- much, which no other verb takes
  local files, problem, program = package.files(result, options)
  local written, why = output.files(files, path, {replace = replace})
  if not written then return nil, why end
  return written, problem, program
end

--- Writes a file where there is none yet. @return true, or nil and a message
function output.new_file(path, text)
  if exists(path) then
    return nil, ("%s is there already; it is never written over"):format(path)
  end
  return file.write(path, text)
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
