-- SPDX-License-Identifier: MIT
-- A picture in SVG made ready to stand inside a page of HTML: what draws passes, what
-- could run or fetch something is refused, and the names in it are set apart from those
-- of other pictures on the page.
local lpeg = require "lpeg"

local C, Cc, Ct, P, R, S = lpeg.C, lpeg.Cc, lpeg.Ct, lpeg.P, lpeg.R, lpeg.S

local svg = {}

local DRAWS = {}
for name in ([[svg g defs path rect circle ellipse line polyline polygon text tspan use
  clipPath pattern filter feFlood feComposite linearGradient radialGradient stop marker
  mask symbol title desc]]):gmatch "%S+" do DRAWS[name] = true end

-- Left out with what is in them: the page has its own words for the picture.
local SILENT = {title = true, desc = true}

local blank = S" \t\r\n"
local name = C(R("az", "AZ") * (R("az", "AZ", "09") + S":_-.")^0)
local value = P'"' * C((1 - S'"<')^0) * '"' + P"'" * C((1 - S"'<")^0) * "'"
local attribute = Ct(blank^1 * name * blank^0 * "=" * blank^0 * value)
local tag = Ct(Cc"tag" * P"<" * C(P"/"^-1) * name * Ct(attribute^0) * blank^0
  * C(P"/"^-1) * ">")
local words = Ct(Cc"words" * C((1 - P"<")^1))
local skipped = P"<?" * (1 - P"?>")^0 * "?>" + P"<!--" * (1 - P"-->")^0 * "-->"
  + P"<!DOCTYPE" * (1 - S"<>[")^0 * ">"
local picture = P"\xEF\xBB\xBF"^-1 * Ct((tag + words + skipped)^0) * -1

-- Why an attribute must not be on the page, or nil.
local function refused(key, text)
  local lower = key:lower()
  if lower:find "^on" then
    return ("the attribute '%s' would run something"):format(key)
  end
  if lower:find "href$" and not text:find "^#" then
    return ("'%s' fetches something from outside"):format(key)
  end
  local plain = text:lower():gsub("url%s*%(%s*#", "")
  if plain:find "url%s*%(" or plain:find "script:" or plain:find "@import"
      or plain:find "&#" or plain:find "\\" then
    return ("the value of '%s' could fetch or run something"):format(key)
  end
end

local function attribute_text(key, text, prefix)
  if key == "id" then
    text = prefix .. text
  elseif key:find "href$" then
    text = "#" .. prefix .. text:sub(2)
  else
    text = text:gsub("(url%s*%(%s*#)", "%1" .. prefix)
  end
  return (' %s="%s"'):format(key, (text:gsub('"', "&quot;")))
end

local function tag_text(token, prefix)
  local closing, what, attributes, empty = token[2], token[3], token[4], token[5]
  if not DRAWS[what] then return nil, ("<%s> does not belong in it"):format(what) end
  local out = {"<", closing, what}
  for _, pair in ipairs(attributes) do
    local problem = refused(pair[1], pair[2])
    if problem then return nil, problem end
    out[#out + 1] = attribute_text(pair[1], pair[2], prefix)
  end
  out[#out + 1] = empty .. ">"
  return table.concat(out)
end

-- Opens or closes an element on the stack; what is wrong, or nil.
local function step(stack, token)
  local closing, what, empty = token[2], token[3], token[5]
  if #stack == 0 and (what ~= "svg" or stack.done) then
    return "it is not one <svg> element"
  elseif closing == "/" then
    if table.remove(stack) ~= what then return ("</%s> closes nothing"):format(what) end
    stack.done = #stack == 0
  elseif empty == "" then
    stack[#stack + 1] = what
  end
end

local function silent(stack)
  return SILENT[stack[#stack]] ~= nil
end

--- The picture as it may stand in a page.
-- @param prefix put before every id, so that two pictures do not share one
-- @return text; or nil and what is wrong
function svg.inline(text, prefix)
  local tokens = picture:match(text)
  if not tokens then return nil, "it is not SVG" end
  local out, stack = {}, {}
  for _, token in ipairs(tokens) do
    if token[1] == "words" then
      local shown = #stack > 0 and not silent(stack)
      out[#out + 1] = shown and token[2]:gsub(">", "&gt;") or nil
    else
      local said, problem = tag_text(token, prefix)
      local was_silent = silent(stack)
      problem = problem or step(stack, token)
      if problem then return nil, problem end
      if not was_silent and not silent(stack) then out[#out + 1] = said end
    end
  end
  if #stack > 0 or not stack.done then return nil, "it is not one whole <svg> element" end
  return (table.concat(out):gsub("[ \t\r\n]*\n[ \t\r\n]*", "\n"))
end

return svg
