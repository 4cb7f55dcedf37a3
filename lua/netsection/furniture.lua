-- SPDX-License-Identifier: MIT
-- What stands in the margins of every printed page: the job, the date of the run if the
-- user gave one (it is never read from the clock), the version, and the editions of the
-- rules and the standard in words.
local core = require "netsection.core"
local review = require "netsection.review"

local furniture = {}

--- Job and foot of a document's pages.
-- @param subject review of a joist or a floor
-- @param reviews its reviews
-- @param options {job = text, date = of the run}
function furniture.of(subject, reviews, options)
  options = options or {}
  local first = reviews[1]
  local name = review.is(subject) and "Joist " .. subject.mark or subject.name
  return furniture.of_work(name, options, first.rules.title, first.standard_title)
end

--- The same for a work by its name. @param rules, standard their editions in words
function furniture.of_work(name, options, rules, standard)
  local job = options.job and options.job ~= name and options.job .. ": " .. name or name
  local foot = {options.date and "Run of " .. options.date,
    "netsection " .. core.version, rules or false, standard or false}
  local said = {}
  for i = 1, 4 do if foot[i] then said[#said + 1] = foot[i] end end
  return job, table.concat(said, "; ")
end

return furniture
