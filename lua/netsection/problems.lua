-- SPDX-License-Identifier: MIT
-- A list of what is wrong with a description: joist, part, field, what was expected.
local raise = require "netsection.raise"

local problems = {}
problems.__index = problems

-- @param joist mark for the messages
function problems.new(joist)
  return setmetatable({joist = joist}, problems)
end

-- @param part {name = "cut 2 (hole)", cut = 2} or nil for the joist itself
function problems:add(part, field, message)
  message = raise.plain(message)
  self[#self + 1] = {joist = self.joist, cut = part and part.cut,
    load = part and part.load, field = field, message = message,
    text = raise.plain(("joist %s%s%s: %s"):format(self.joist, part and ", " .. part.name
      or "", field and ", " .. field or "", message))}
end

function problems:text()
  local lines = {}
  for i, problem in ipairs(self) do lines[i] = problem.text end
  return table.concat(lines, "\n")
end

problems.__tostring = problems.text

return problems
