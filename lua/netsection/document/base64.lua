-- SPDX-License-Identifier: MIT
-- Base 64 (RFC 4648, section 4), for pictures inside a page.
local base64 = {}

local DIGITS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/"

-- Twelve bits as two digits, each pair made when it is needed first: most runs embed no
-- picture.
local PAIR = setmetatable({}, {__index = function(pairs_so_far, i)
  local high, low = i >> 6, i & 63
  local pair = DIGITS:sub(high + 1, high + 1) .. DIGITS:sub(low + 1, low + 1)
  pairs_so_far[i] = pair
  return pair
end})

--- A text of bytes in base 64, without line breaks.
function base64.of(text)
  local out, n = {}, #text
  local whole = n - n % 3
  for i = 1, whole, 3 do
    local a, b, c = text:byte(i, i + 2)
    local bits = a << 16 | b << 8 | c
    out[#out + 1] = PAIR[bits >> 12] .. PAIR[bits & 4095]
  end
  if n - whole == 1 then
    out[#out + 1] = PAIR[text:byte(n) << 4] .. "=="
  elseif n - whole == 2 then
    local a, b = text:byte(n - 1, n)
    local bits = a << 16 | b << 8
    out[#out + 1] = PAIR[bits >> 12] .. PAIR[bits & 4095]:sub(1, 1) .. "="
  end
  return table.concat(out)
end

local VALUE = {}
for i = 1, #DIGITS do VALUE[DIGITS:byte(i)] = i - 1 end

--- The bytes of a text in base 64 without line breaks; nil where it is none.
function base64.bytes(text)
  if #text % 4 ~= 0 or text:find "[^%w+/=]" or text:find "=." and not text:find "==$" then
    return nil
  end
  local padding = #(text:match "=*$")
  local whole, out = #text - (padding > 0 and 4 or 0), {}
  if padding > 2 or text:sub(1, whole):find("=", 1, true) then return nil end
  for i = 1, whole, 4 do
    local a, b, c, d = text:byte(i, i + 3)
    local bits = VALUE[a] << 18 | VALUE[b] << 12 | VALUE[c] << 6 | VALUE[d]
    out[#out + 1] = string.char(bits >> 16, bits >> 8 & 255, bits & 255)
  end
  if padding > 0 then
    local a, b, c = text:byte(whole + 1, whole + 3)
    if padding == 2 then
      out[#out + 1] = string.char((VALUE[a] << 2 | VALUE[b] >> 4) & 255)
    else
      local bits = VALUE[a] << 10 | VALUE[b] << 4 | VALUE[c] >> 2
      out[#out + 1] = string.char(bits >> 8, bits & 255)
    end
  end
  return table.concat(out)
end

return base64
