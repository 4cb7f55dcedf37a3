-- SPDX-License-Identifier: MIT
-- A browser for tests: it prints no page but answers as the Chrome DevTools Protocol
-- (1.3: Target, Page) has it, each message a JSON text that a NUL ends. Its PDF holds the
-- page it was asked for, so that a test sees which page went where.
--
--   browser.lua MODE --remote-debugging-pipe ...   messages at standard input and output
--   browser.lua MODE --print-to-pdf=FILE ... file://PAGE
-- MODE: well; refuses (a page is not found); blank (no PDF); leaves (ends at the second
-- page); fails (it prints nothing and says why).
local base64 = require "netsection.document.base64"
local json = require "dkjson"

local mode = arg[1]

local function option(name)
  for _, word in ipairs(arg) do
    local value = word:match("^%-%-" .. name:gsub("%-", "%%-") .. "=?(.*)$")
    if value then return value end
  end
end

local function text_of(path)
  local file <close> = assert(io.open(path, "rb"))
  return file:read "a"
end

-- More than a hundred bytes, as any PDF has, and the times that one carries.
local function pdf_of(page)
  return "%PDF-1.7\n<</CreationDate (D:20260102030405+00'00')/ModDate "
    .. "(D:20260102030405+00'00')>>\n" .. page .. ("\n%%EOF"):rep(20)
end

local function by_itself()
  if mode == "fails" then
    io.stdout:write "no display here\nand more\n"
    os.exit(3)
  end
  local page = text_of(arg[#arg]:match "^file://(.*)$" or arg[#arg])
  local out <close> = assert(io.open(option "print-to-pdf", "wb"))
  assert(out:write(pdf_of(page)))
end

local function say(t)
  io.stdout:write(json.encode(t, {keyorder = {"id", "method", "error", "result"}}), "\0")
  io.stdout:flush()
end

local function heard()
  local list = {}
  for byte in function() return io.stdin:read(1) end do
    if byte == "\0" then return (json.decode(table.concat(list))) end
    list[#list + 1] = byte
  end
end

local page, printed, went, enabled
local answer = {}

answer["Target.createTarget"] = function() return {targetId = "T1"} end

answer["Target.attachToTarget"] = function(params)
  assert(params.targetId == "T1" and params.flatten == true)
  -- An event that nobody asked for stands before the answer.
  say {method = "Target.attachedToTarget", params = {sessionId = "S1"}}
  return {sessionId = "S1"}
end

answer["Page.enable"] = function()
  enabled = true
  return {}
end

answer["Page.navigate"] = function(params)
  assert(enabled)
  if mode == "refuses" then return nil, "Cannot navigate to invalid URL" end
  went = (went or 0) + 1
  if mode == "leaves" and went == 2 then os.exit(1) end
  page = text_of(params.url:match "^file://(.*)$")
  -- The first page is loaded after the answer, others before it.
  if went > 1 then say {method = "Page.loadEventFired", sessionId = "S1"} end
  return {frameId = "F1"}
end

answer["Page.printToPDF"] = function(params)
  assert(page and params.printBackground and params.preferCSSPageSize
    and params.displayHeaderFooter == false)
  printed = page
  return {data = mode == "blank" and "" or base64.of(pdf_of(printed))}
end

local function talk()
  for asked in heard do
    if asked.method == "Browser.close" then return end
    assert(asked.method:find "^Target%." or asked.sessionId == "S1")
    local result, why = answer[asked.method](asked.params)
    say {id = asked.id, result = result, error = why and {code = -32000, message = why},
      sessionId = asked.sessionId}
    if asked.method == "Page.navigate" and result and went == 1 then
      say {method = "Page.frameNavigated", sessionId = "S1"}
      say {method = "Page.loadEventFired", sessionId = "S1"}
    end
  end
end

if option "remote-debugging-pipe" then talk() else by_itself() end
