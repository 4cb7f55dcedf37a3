-- SPDX-License-Identifier: MIT
-- How sheets, keys and feedback are worded: English as it is spelled in a country, and
-- decimal points or commas. The texts of the module are US English with points; both are
-- put in when a document is done, never in what a person wrote: names, ids, answers.
local tostring = require "netsection.point".text
local wording = {}

-- Words that are spelled otherwise; in GB lumber is timber.
local COMMONWEALTH = {center = "centre", centers = "centres", centered = "centred",
  neighbor = "neighbour", neighbors = "neighbours", color = "colour", gray = "grey",
  meter = "metre", meters = "metres"}
local LANGS = {["en-US"] = {}, ["en-CA"] = COMMONWEALTH,
  ["en-GB"] = setmetatable({lumber = "timber"}, {__index = COMMONWEALTH})}

--- What is wrong with a language; nil where it is there.
function wording.problem(lang)
  if lang == nil or LANGS[lang] then return nil end
  return ('lang: "en-US", "en-GB" or "en-CA" expected; got %s: no other language is '
    .. "there"):format(tostring(lang))
end

local function spelled(text, words)
  return (text:gsub("%a+", function(word)
    local other = words[word:lower()]
    if not other then return nil end
    return word:find "^%u" and other:gsub("^%l", string.upper) or other
  end))
end

-- A number with one point that is no clause: no letter, digit or point stands before it,
-- and the name of no code.
local function with_commas(text)
  text = text:gsub("(%f[%w%.]%d[%d%.]*)", function(number)
    local whole, part, stop = number:match "^(%d+)%.(%d+)(%.?)$"
    return whole and ("%s,%s%s"):format(whole, part, stop) or nil
  end)
  return (text:gsub("(%u%u+ )(%d+),(%d+)", "%1%2.%3")
    :gsub("(Table )(%d+),(%d+)", "%1%2.%3"))
end

-- Arguments are parted by semicolons where decimals have commas.
local function formula_with_commas(text)
  return (with_commas((text:gsub(", ", "; "))))
end

local function same(text) return text end

--- Functions that word a text, and a formula, for a set.
function wording.of(set)
  local words = LANGS[set.lang or "en-US"]
  local comma = set.decimal == ","
  if next(words) == nil and not getmetatable(words) and not comma then
    return same, same
  end
  return function(text)
    return comma and with_commas(spelled(text, words)) or spelled(text, words)
  end, function(text)
    return comma and formula_with_commas(text) or text
  end
end

local change = {}

local function each(list, field, say)
  for _, one in ipairs(list) do
    if one[field] then one[field] = say(one[field]) end
  end
end

local function texts(list, say)
  for i, text in ipairs(list) do list[i] = say(text) end
end

function change.heading(block, say) block.text = say(block.text) end
function change.note(block, say) block.text = say(block.text) end
function change.list(block, say) texts(block.items, say) end
function change.blanks(block, say) texts(block.items, say) end

function change.paragraph(block, say)
  for _, piece in ipairs(block.pieces) do
    if piece.style ~= "mark" then piece.text = say(piece.text) end
  end
end

-- Columns of what people wrote.
local OWN = {Student = true, ["Your answer"] = true}

function change.table(block, say)
  block.caption = block.caption and say(block.caption)
  texts(block.notes, say)
  for _, row in ipairs(block.rows) do
    for c, cell in ipairs(row) do
      if not OWN[block.columns[c].head] then cell.text = say(cell.text) end
    end
  end
  each(block.columns, "head", say)
end

function change.figure(block, say)
  block.alt = say(block.alt)
  block.caption = block.caption and say(block.caption)
end

function change.calculation(block, say, formula)
  for _, step in ipairs(block.steps) do
    for _, field in ipairs {"formula", "numbers"} do
      step[field] = step[field] and formula(step[field])
    end
    for _, field in ipairs {"value", "unit"} do
      step[field] = step[field] and say(step[field])
    end
  end
end

--- Words a document of a set. @return the document
function wording.document(d, set)
  local say, formula = wording.of(set)
  if set.lang then d.lang = set.lang end
  if say == same then return d end
  for _, block in ipairs(d.blocks) do
    if change[block.kind] then change[block.kind](block, say, formula) end
  end
  return d
end

--- Words the labels of a figure's script: what stands between single quotes.
function wording.script(script, set)
  local say = wording.of(set)
  if say == same then return script end
  return (("\n" .. script):gsub("(\n%s*set label )([^\n]-)( at )",
    function(set_label, said, at)
      return set_label .. said:gsub("'[^']*'", say) .. at
    end):sub(2))
end

return wording
