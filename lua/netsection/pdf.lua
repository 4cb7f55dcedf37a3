-- SPDX-License-Identifier: MIT
-- A page of HTML as PDF, by a browser or converter that is found on the machine. None is
-- needed otherwise; where there is none, that is said.
local core = require "netsection.core"
local file = require "netsection.file"
local folder = require "netsection.folder"

local pdf = {}

-- Seconds for one page; a browser that is started for the first time takes some.
pdf.seconds = 120

-- A browser by its own name: with a profile of its own, so that one which is open is left
-- alone; with an outline from the headings.
local function browser(program)
  return {name = program, words = function(from, to, place)
    return {program, "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run",
      "--disable-extensions", "--disable-background-networking", "--disable-sync",
      "--disable-component-update", "--disable-dev-shm-usage",
      "--user-data-dir=" .. place .. "/profile",
      "--no-pdf-header-footer", "--generate-pdf-document-outline",
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
local function run(converter, from, to, said, place)
  local code, why = core.files.run(converter.words(from, to, place), said, pdf.seconds)
  if not code then return nil, why, not why:find "not found" end
  local kind, _, size = folder.kind(to)
  if code == 0 and kind == "file" and size > 100 then return true end
  local line = (file.read(said, 1 << 20) or ""):match "[^\n]+"
  return nil, ("%s: %s"):format(converter.name, line or "exit code " .. code), true
end

-- The time at which a program ran is taken out, in place: the same input gives the same
-- bytes, and lengths in the file stay what its table says.
local function undated(text)
  for _, key in ipairs {"CreationDate", "ModDate"} do
    text = text:gsub("/" .. key .. " ?%(D:[^()]*%)", function(said)
      return (" "):rep(#said)
    end)
  end
  return text
end

--- Turns pages of HTML into PDF. @param pages {text of HTML, ...}
-- @param step function(done, of), told after each page, or nil
-- @return their texts, the name of the program that did it; or nil and what is wrong
function pdf.texts(pages, step)
  local place, problem = core.files.private_folder()
  if not place then return nil, problem end
  local from, to, said = place .. "/page.html", place .. "/page.pdf", place .. "/said"
  local last = "no program that makes PDF was found (looked for chromium, weasyprint)"
  local texts = {}
  for i, page in ipairs(pages) do
    local ok, why = file.write(from, page)
    for _, converter in ipairs(ok and (found and {found} or CONVERTERS) or {}) do
      local made, reason, there = run(converter, from, to, said, place)
      if made then
        found = converter
        texts[i] = file.read(to, 256 << 20)
        break
      elseif there then
        last = reason
      end
    end
    if not texts[i] then
      folder.remove_own(place)
      return nil, why or last
    end
    texts[i] = undated(texts[i])
    core.files.remove(to)
    if step then step(i, #pages) end
  end
  folder.remove_own(place)
  return texts, found and found.name or "nothing to do"
end

--- Turns pages into PDF files. @param pages {{html =, path =}, ...}
-- @return the name of the program that did it; or nil and what is wrong
function pdf.write(pages)
  local html = {}
  for i, page in ipairs(pages) do html[i] = page.html end
  local texts, program = pdf.texts(html)
  if not texts then return nil, program end
  for i, page in ipairs(pages) do
    local ok, why = file.write(page.path, texts[i])
    if not ok then return nil, why end
  end
  return program
end

return pdf
