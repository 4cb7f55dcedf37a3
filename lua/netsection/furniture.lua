-- SPDX-License-Identifier: MIT
-- What stands in the margins of every printed page: the job, the date of the run if the
-- user gave one (it is never read from the clock), the version, and the editions of the
-- rules and the standard in words.
local core = require "netsection.core"
local quantity = require "netsection.quantity"
local spelling = require "netsection.locale.spelling"
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

-- What a user wrote of a joist, and of a floor.
local function written(list, joist)
  list[#list + 1] = joist.description
  list[#list + 1] = joist.repair and joist.repair.given
end

--- How a document or a drawing is spelled, and what stays as the user wrote it.
-- @param subject a joist, a floor, or a review of one; what else has `show` has no texts
-- @param options those of the document, which may hold texts of a user's, or nil
-- @return language or nil, texts or nil
function furniture.language(subject, options)
  local lang = quantity.of(subject).lang
  if next(spelling.words(lang)) == nil then return lang end
  local list = {options}
  local floor = rawget(subject, "floor") or type(rawget(subject, "joists")) == "table"
    and subject
  if floor then
    for _, joist in ipairs(floor.joists) do written(list, joist) end
    for _, name in ipairs {"obstructions", "survey"} do list[#list + 1] = floor[name] end
    list[#list + 1] = {floor.name}
  else
    local joist = rawget(subject, "joist") or subject
    if rawget(joist, "description") then written(list, joist) end
  end
  return lang, spelling.own(lang, table.unpack(list))
end

--- A text of fixed width as it is spelled where its subject is printed.
function furniture.spelled(text, subject)
  local lang, own = furniture.language(subject)
  return spelling.page(text, lang, own)
end

return furniture
