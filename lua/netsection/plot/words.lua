-- SPDX-License-Identifier: MIT
-- Texts in gnuplot scripts: what they may hold, how wide they are, how they are quoted.
-- A user's text gets into a script by words.quote and no other way.

local words = {}

-- Not shown, or able to turn the text around them: replaced by a blank.
local HIDDEN = {
  {0, 0x1F}, {0x7F, 0x9F}, {0xAD, 0xAD}, {0x61C, 0x61C}, {0x200B, 0x200F},
  {0x2028, 0x202E}, {0x2060, 0x206F}, {0xFE00, 0xFE0F}, {0xFEFF, 0xFEFF},
  {0xFFF0, 0xFFFC}, {0xE0000, 0x10FFFF},
}

local function hidden(code)
  for _, range in ipairs(HIDDEN) do
    if code >= range[1] and code <= range[2] then return true end
  end
  return code % 0x10000 >= 0xFFFE    -- no characters, refused by readers of SVG
end

-- Width in cells, which are as wide as a digit, on the wide side for any sans-serif.
local function cells_of(code, character)
  if code > 127 then return code < 0x1100 and 1.2 or 2 end
  if character:find("[fijlrtI '|/.,:;!()%[%]-]") then return 0.62 end
  if character:find("[MWmw@%%]") then return 1.55 end
  return character:find("[A-Z]") and 1.15 or 1
end

-- The character at byte `i`, its width, and where the next one starts. A byte that is
-- not UTF-8 becomes a question mark.
local function character_at(text, i)
  if not utf8.len(text, i, i) then return "?", 1, i + 1 end
  local code = utf8.codepoint(text, i)
  local character = utf8.char(code)
  local after = i + #character
  if hidden(code) then return " ", 1, after end
  return character, cells_of(code, character), after
end

-- Cells of each printable character of ASCII, by its byte: most texts have no other.
local CELLS = {}
for code = 32, 126 do CELLS[code] = cells_of(code, string.char(code)) end

-- Cells of a text of such characters alone, or nil.
local function plain_width(text)
  if text:find "[^ -~]" then return nil end
  local cells = 0
  for i = 1, #text do cells = cells + CELLS[text:byte(i)] end
  return cells
end

-- One line of at most `most` cells that gnuplot can show, and the cells it takes.
function words.clean(text, most)
  local plain = plain_width(text)
  if plain and plain <= most then return text, plain end
  local shown, ends, i = {}, {[0] = 0}, 1
  while i <= #text and ends[#shown] <= most do
    local character, cells
    character, cells, i = character_at(text, i)
    ends[#shown + 1] = ends[#shown] + cells
    shown[#shown + 1] = character
  end
  if ends[#shown] <= most then return table.concat(shown), ends[#shown] end
  local n = #shown
  while ends[n] > most - 2 do n = n - 1 end
  return table.concat(shown, "", 1, n) .. "...", ends[n] + 2
end

-- What is missing is an empty text.
function words.of(v, most)
  return (words.clean(type(v) == "string" and v or "", most))
end

-- In single quotes gnuplot expands no backslash, backquote or macro. An apostrophe is
-- put in from outside, by its code: gnuplot ends a text early at two doubled quotes in a
-- row or at one in front, and would run what follows.
function words.quote(text)
  return "'" .. text:gsub("'", [['."\047".']]) .. "'"
end

function words.lines(list)
  return table.concat(list, "\n")
end

-- Cells that a text takes.
function words.width(text)
  local _, cells = words.clean(text, math.huge)
  return cells
end

-- Lines of at most `most` cells, broken at blanks, but not within a mixed number; one
-- line of an empty text.
function words.wrapped(text, most)
  local list, line = {}, nil
  for word in text:gsub("(%d) (%d+/%d)", "%1\0%2"):gmatch "%S+" do
    word = word:gsub("%z", " ")
    local longer = line and line .. " " .. word or word
    if line and words.width(longer) > most then
      list[#list + 1] = words.of(line, most)
      line = word
    else
      line = longer
    end
  end
  list[#list + 1] = words.of(line, most)
  return list
end

return words
