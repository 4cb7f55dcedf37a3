-- SPDX-License-Identifier: MIT
-- A page of HTML as PDF, by a browser or converter that is found on the machine. None is
-- needed otherwise; where there is none, that is said.
local browsers = require "netsection.browser"
local core = require "netsection.core"
local file = require "netsection.file"
local folder = require "netsection.folder"

local pdf = {}

-- Seconds for one page; a browser that is started for the first time takes some.
pdf.seconds = 120

-- A browser by its own name: with a profile of its own, so that one which is open is left
-- alone; with an outline from the headings.
local function browser(program)
  local function with(place, ...)
    return {program, "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run",
      "--disable-extensions", "--disable-background-networking", "--disable-sync",
      "--disable-component-update", "--disable-dev-shm-usage",
      "--user-data-dir=" .. place .. "/profile", ...}
  end
  return {name = program, words = function(from, to, place)
    return with(place, "--no-pdf-header-footer", "--generate-pdf-document-outline",
      "--print-to-pdf=" .. to, "file://" .. from)
  end, many = function(place) return with(place, "--remote-debugging-pipe") end}
end

-- Programs in the order in which they are tried.
local CONVERTERS = {browser "chromium", browser "chromium-browser",
  browser "google-chrome",
  {name = "weasyprint", words = function(from, to)
    return {"weasyprint", from, to}
  end}}

local found -- the one that worked last

-- Converters in the order in which they are tried: the one that worked comes first.
local function in_turn()
  local list = {found}
  for _, converter in ipairs(CONVERTERS) do
    if converter ~= found then list[#list + 1] = converter end
  end
  return list
end

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

-- Many pages in one start of a browser. @return texts of the first pages, all where
-- nothing went wrong; the name of the program
local function in_one_start(pages, place, step)
  local from, said, texts = place .. "/page.html", place .. "/said", {}
  for _, converter in ipairs(CONVERTERS) do
    local b = converter.many and browsers.start(converter.many(place), said)
    for i = 1, b and #pages or 0 do
      texts[i] = file.write(from, pages[i]) and b:print(from) or nil
      if not texts[i] then break end
      texts[i] = undated(texts[i])
      if step then step(i, #pages) end
    end
    if b then
      b:stop()
      return texts, converter.name
    end
  end
  return texts
end

-- One page by the first program that does it. @return its text and the program; or nil
-- and what is wrong
local function by_itself(page, place)
  local from, to, said = place .. "/page.html", place .. "/page.pdf", place .. "/said"
  local last = "no program that makes PDF was found (looked for chromium, weasyprint)"
  local ok, why = file.write(from, page)
  if not ok then return nil, why end
  for _, converter in ipairs(in_turn()) do
    local made, reason, there = run(converter, from, to, said, place)
    if made then
      found = converter
      local text = file.read(to, 256 << 20)
      core.files.remove(to)
      if text then return undated(text), converter.name end
    elseif there then
      last = reason
    end
  end
  return nil, last
end

--- Turns pages of HTML into PDF. @param pages {text of HTML, ...}
-- @param step function(done, of), told after each page, or nil
-- @return their texts, the name of the program that did it; or nil and what is wrong
function pdf.texts(pages, step)
  local place, problem = core.files.private_folder()
  if not place then return nil, problem end
  local texts, program = {}, "nothing to do"
  if #pages > 1 then texts, program = in_one_start(pages, place, step) end
  for i = #texts + 1, #pages do
    texts[i], program = by_itself(pages[i], place)
    if not texts[i] then
      folder.remove_own(place)
      return nil, program
    end
    if step then step(i, #pages) end
  end
  folder.remove_own(place)
  return texts, program
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
