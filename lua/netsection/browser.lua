-- SPDX-License-Identifier: MIT
-- A browser that prints many pages in one start: it is told by messages on a line of its
-- own (the debugging protocol of Chromium, JSON texts ended by a NUL). Where there is
-- none, or it fails, pages are printed one by one (pdf.lua).
local base64 = require "netsection.document.base64"
local core = require "netsection.core"
local json = require "dkjson"

local browser = {}
browser.__index = browser

browser.seconds = 120         -- for one answer

--- Starts one. @param words of its command line, without a page
-- @param said path of a file for what it says otherwise
-- @return a browser; or nil and why there is none
function browser.start(words, said)
  local talk, why = core.files.talk(words, said)
  if not talk then return nil, why end
  local b = setmetatable({talk = talk, id = 0, loaded = false}, browser)
  local target = b:call("Target.createTarget", {url = "about:blank"})
  local id = target and target:match '"targetId":"([^"]+)"'
  local session = id and b:call("Target.attachToTarget", {targetId = id, flatten = true})
  b.session = session and session:match '"sessionId":"([^"]+)"'
  if not (b.session and b:call "Page.enable") then
    b:stop()
    return nil, "the browser did not answer"
  end
  return b
end

-- Takes messages until one is the answer to a number or, for none, a page is there.
function browser:wait(id)
  local last = os.time() + self.seconds
  while os.time() <= last do
    local message, why = self.talk:receive(self.seconds)
    if not message then return nil, why end
    self.loaded = self.loaded
      or message:find('"method":"Page.loadEventFired"', 1, true) ~= nil
    if id and message:find(('^{"id":%d,'):format(id)) then
      local problem = message:match '^{"id":%d+,"error":.-"message":"([^"]*)"'
      if problem then return nil, problem end
      return message
    end
    if not id and self.loaded then return true end
  end
  return nil, "it took too long"
end

--- Asks for something. @return the text of the answer; or nil and what is wrong
function browser:call(method, given)
  self.id = self.id + 1
  local ok, why = self.talk:send(json.encode({id = self.id, method = method,
    params = given or json.null, sessionId = self.session}))
  if not ok then return nil, why end
  return self:wait(self.id)
end

--- Prints a page. @param path of its file
-- @return the bytes of a PDF; or nil and what is wrong
function browser:print(path)
  self.loaded = false
  local went, why = self:call("Page.navigate", {url = "file://" .. path})
  if went and not self.loaded then went, why = self:wait() end
  if not went then return nil, why end
  local answer
  answer, why = self:call("Page.printToPDF", {printBackground = true,
    preferCSSPageSize = true, displayHeaderFooter = false,
    generateDocumentOutline = true, generateTaggedPDF = true})
  local bytes = answer and base64.bytes(answer:match '"data":"([^"]*)"' or "")
  if not (bytes and bytes:find "^%%PDF") then return nil, why or "it gave no PDF" end
  return bytes
end

--- Ends it.
function browser:stop()
  self.talk:send '{"id":0,"method":"Browser.close"}'
  self.talk:close()
end

return browser
