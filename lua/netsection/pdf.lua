-- SPDX-License-Identifier: MIT
-- A page of HTML as PDF, by a browser or converter that is found on the machine. None is
-- needed otherwise; where there is none, that is said.
local core = require "netsection.core"
local file = require "netsection.file"
local folder = require "netsection.folder"

local pdf = {}

-- Seconds for one page; a browser that is started for the first time takes some.
pdf.seconds = 60

local function browser(program)
  return {name = program, words = function(from, to)
    return {program, "--headless", "--no-sandbox", "--disable-gpu",
      "--no-pdf-header-footer",
      "--print-to-pdf=" .. to, "file://" .. from}
  end}
end

-- Programs in the order in which they are tried.
local CONVERTERS = {browser "chromium", browser "chromium-browser",
  browser "google-chrome",
  {name = "weasyprint", words = function(from, to)
    return {"weasyprint", from, to}
  end}}

local found -- the one that worked, false where none did

-- Runs a converter. @return true; or nil, what is wrong, and whether it is there at all
local function run(converter, from, to, said)
  local code, why = core.files.run(converter.words(from, to), said, pdf.seconds)
  if not code then return nil, why, not why:find "not found" end
  local kind, _, size = folder.kind(to)
  if code == 0 and kind == "file" and size > 100 then return true end
  local line = (file.read(said, 1 << 20) or ""):match "[^\n]+"
  return nil, ("%s: %s"):format(converter.name, line or "exit code " .. code), true
end

--- Turns pages into PDF files. @param pages {{html =, path =}, ...}
-- @return the name of the program that did it; or nil and what is wrong
function pdf.write(pages)
  local place, problem = core.files.private_folder()
  if not place then return nil, problem end
  local from, to, said = place .. "/page.html", place .. "/page.pdf", place .. "/said"
  local last = "no program that makes PDF was found (looked for chromium, weasyprint)"
  for _, page in ipairs(pages) do
    local ok, why = file.write(from, page.html)
    local done = false
    for _, converter in ipairs(ok and (found and {found} or CONVERTERS) or {}) do
      local made, reason, there = run(converter, from, to, said)
      if made then
        found, done = converter, true
        break
      elseif there then
        last = reason
      end
    end
    local text = done and file.read(to, 256 << 20)
    if text then ok, why = file.write(page.path, text) else ok, why = nil, why or last end
    if not ok then
      folder.remove_own(place)
      return nil, why
    end
    core.files.remove(to)
  end
  folder.remove_own(place)
  return found and found.name or "nothing to do"
end

return pdf
