-- SPDX-License-Identifier: MIT
-- How sheets, keys and feedback are worded: English as it is spelled in a country, and
-- decimal points or commas. The texts of the module are US English with points; both are
-- put in when a document is done, never in what a person wrote: names, ids, answers.
local documents = require "netsection.document.wording"
local spelling = require "netsection.locale.spelling"

local wording = {}

--- What is wrong with a language; nil where it is there.
function wording.problem(lang)
  local wrong = spelling.problem(lang)
  return wrong and "lang: " .. wrong
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
  local spell, comma = spelling.of(set.lang), set.decimal == ","
  if not spell and not comma then return same, same end
  return function(text)
    text = spell and spell(text) or text
    return comma and with_commas(text) or text
  end, function(text)
    return comma and formula_with_commas(text) or text
  end
end

-- Columns of what people wrote.
local OWN = {Student = true, ["Your answer"] = true}

--- Words a document of a set. @return the document
function wording.document(d, set)
  local say, formula = wording.of(set)
  if set.lang then d.lang = set.lang end
  d.worded = true
  if say ~= same then documents.blocks(d.blocks, say, formula, OWN) end
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
