-- SPDX-License-Identifier: MIT
-- English as it is spelled in a country. The texts of the module are US English; what a
-- person reads is put into another spelling where it is written out: by the writers of
-- documents (document/wording.lua), the plain reports and the drawings. Names, clauses,
-- numbers, JSON and keys of CSV files are never touched, nor what a user wrote.
local spelling = {}

-- Words that are spelled otherwise. The noun license alone is: whoever has one is
-- licensed everywhere.
local COMMONWEALTH = {center = "centre", centers = "centres", centered = "centred",
  neighbor = "neighbour", neighbors = "neighbours", neighboring = "neighbouring",
  color = "colour", colors = "colours", gray = "grey", fiber = "fibre",
  fibers = "fibres", meter = "metre", meters = "metres", centimeter = "centimetre",
  centimeters = "centimetres", millimeter = "millimetre", millimeters = "millimetres",
  license = "licence", favorable = "favourable", unfavorable = "unfavourable"}
-- In Great Britain and Ireland lumber is timber.
local BRITISH = {lumber = "timber", toward = "towards", idealization = "idealisation"}
for us, other in pairs(COMMONWEALTH) do BRITISH[us] = other end

local LANGS = {["en-US"] = {}, ["en-CA"] = COMMONWEALTH, ["en-GB"] = BRITISH}
spelling.names = {"en-US", "en-GB", "en-CA"}

--- What is wrong with a language; nil where it is there.
function spelling.problem(lang)
  if lang == nil or LANGS[lang] then return nil end
  return ('"en-US", "en-GB" or "en-CA" expected; got %s: no other language is there')
    :format(type(lang) == "string" and lang or type(lang))
end

--- The words that a language spells otherwise, US = its own; empty for en-US and for a
-- tag that is not among spelling.names.
function spelling.words(lang)
  return LANGS[lang or "en-US"] or {}
end

local function like(word, other)
  if not word:find "%l" and #word > 1 then return other:upper() end
  return word:find "^%u" and other:gsub("^%l", string.upper) or other
end

local function spelled(text, words)
  return (text:gsub("%a+", function(word)
    local other = words[word:lower()]
    return other and like(word, other) or nil
  end))
end

local function has_any(text, words)
  for word in text:gmatch "%a+" do
    if words[word:lower()] then return true end
  end
  return false
end

local DEEPEST = 8

-- Texts in tables of a user's that hold a word of the list. One small word by itself
-- ("center") names nothing.
local function gather(value, words, list, seen, depth)
  if type(value) == "string" then
    local name = value:find "%u" or value:find "%s"
    if name and not seen[value] and has_any(value, words) then
      seen[value], list[#list + 1] = true, value
    end
  elseif type(value) == "table" and not seen[value] and depth < DEEPEST then
    seen[value] = true
    for _, item in next, value do gather(item, words, list, seen, depth + 1) end
  end
end

--- What a user wrote and a spelling would alter: texts in the tables given, the longest
-- first.
function spelling.own(lang, ...)
  local list, words = {}, spelling.words(lang)
  if next(words) == nil then return list end
  for _, value in ipairs {...} do gather(value, words, list, {}, 0) end
  table.sort(list, function(a, b) return #a > #b end)
  return list
end

-- What was found of a list of texts is taken out and put back.
local function hide(text, own, hidden)
  for _, phrase in ipairs(own) do
    local from = 1
    while true do
      local i, j = text:find(phrase, from, true)
      if not i then break end
      hidden[#hidden + 1] = phrase
      local mark = ("\1%d\1"):format(#hidden)
      text, from = text:sub(1, i - 1) .. mark .. text:sub(j + 1), i + #mark
    end
  end
  return text
end

--- A function that spells a text, or nil where there is nothing to do.
-- @param own texts of a user's that stay as they are (spelling.own)
function spelling.of(lang, own)
  local words = spelling.words(lang)
  if next(words) == nil then return nil end
  own = own or {}
  return function(text)
    if not has_any(text, words) then return text end
    if #own == 0 then return spelled(text, words) end
    local hidden = {}
    local said = spelled(hide(text, own, hidden), words)
    if #hidden == 0 then return said end
    return (said:gsub("\1(%d+)\1", function(i) return hidden[tonumber(i)] end))
  end
end

--- A page of fixed width: what makes a word longer is taken off the blanks behind it, so
-- that columns stay under each other.
function spelling.page(text, lang, own)
  local say = spelling.of(lang, own)
  if not say then return text end
  return (text:gsub("[^\n]+", function(line)
    local out, before = {}, 0
    for piece, blanks in line:gmatch "(.-)(%s%s+)" do
      local said = say(piece)
      local more = math.min(math.max(#said - #piece, 0), #blanks - 1)
      out[#out + 1] = said .. blanks:sub(1, #blanks - more)
      before = before + #piece + #blanks
    end
    return table.concat(out) .. say(line:sub(before + 1))
  end))
end

local NOT_WORDS = {"^set terminal", "^%s+set terminal", "^set output", "^if %(GPVAL"}

--- A drawing's script: the texts in single quotes, but for names of colors.
function spelling.script(script, lang, own)
  local say = spelling.of(lang, own)
  if not say then return script end
  return (script:gsub("[^\n]+", function(line)
    for _, pattern in ipairs(NOT_WORDS) do
      if line:find(pattern) then return nil end
    end
    local out, at = {}, 1
    while true do
      local i = line:find("'", at, true)
      local j = i and line:find("'", i + 1, true)
      if not j then break end
      local before = line:sub(at, i - 1)
      local said = line:sub(i + 1, j - 1)
      out[#out + 1] = ("%s'%s'"):format(before, before:find "rgb%s*$" and said
        or say(said))
      at = j + 1
    end
    return table.concat(out) .. line:sub(at)
  end))
end

return spelling
