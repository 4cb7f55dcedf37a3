-- SPDX-License-Identifier: MIT
-- What the modules call 'error': the same, but whatever a user's text brought into the
-- message reaches a terminal as plain text, without control or direction characters.
local escape = require "netsection.document.escape"

local raise = {}

--- A message of one or more lines as it may be shown.
function raise.plain(message)
  if type(message) ~= "string" or not message:find "[^\n -~]" then return message end
  return (message:gsub("[^\n]+", escape.text))
end

--- As error(message, level), level 1 where none is given.
function raise.error(message, level)
  level = level or 1
  error(raise.plain(message), level > 0 and level + 1 or 0)
end

return raise
