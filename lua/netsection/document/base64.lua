-- SPDX-License-Identifier: MIT
-- Base 64 (RFC 4648, section 4), for pictures inside a page.
local base64 = {}

local DIGITS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/"

-- Twelve bits as two digits.
local PAIR = {}
for i = 0, 4095 do
  local high, low = i >> 6, i & 63
  PAIR[i] = DIGITS:sub(high + 1, high + 1) .. DIGITS:sub(low + 1, low + 1)
end

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

return base64
