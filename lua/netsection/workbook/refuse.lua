-- SPDX-License-Identifier: MIT
-- Ends the reading of a workbook with a reason: raised deep inside, made into nil and a
-- message where the reading began.
local point = require "netsection.point"
local error = require "netsection.raise".error
local refuse = {}

local Refused = {}

--- Refuses the workbook that is being read.
function refuse.with(message, ...)
  error(setmetatable({message = point.format(message, ...)}, Refused), 0)
end

--- Runs f(...). @return its results, or nil and the reason of a refusal; any other error
-- goes on
function refuse.catch(f, ...)
  local function settle(ok, first, ...)
    if ok then return first, ... end
    if getmetatable(first) == Refused then return nil, first.message end
    error(first, 0)
  end
  return settle(pcall(f, ...))
end

return refuse
