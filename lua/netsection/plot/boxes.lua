-- SPDX-License-Identifier: MIT
-- The places of texts on a sheet, inches of paper, so that none touches another.
local sheet = require "netsection.plot.sheet"
local view = require "netsection.plot.view"
local words = require "netsection.plot.words"

local boxes = {}
local methods = {}
local meta = {__index = methods}

-- Height of a line of text; a bold one is wider than words.width says.
boxes.high = 0.13
local BOLD = 1.14

function boxes.new()
  return setmetatable({list = {}}, meta)
end

--- A text whose middle height is y. `how` are gnuplot's words: where x is in the text
-- (left, center, right), and whether it stands upright.
function methods:add(text, x, y, how)
  if text == "" then return end
  local w = words.width(text) * sheet.cell * (how:find "title_font" and BOLD or 1)
  local from = how:find "center" and -w / 2 or how:find "right" and -w or 0
  local half = boxes.high / 2
  self.list[#self.list + 1] = how:find "rotate"
    and {text = text, x1 = x - half, x2 = x + half, y1 = y + from, y2 = y + from + w}
    or {text = text, x1 = x + from, x2 = x + from + w, y1 = y - half, y2 = y + half}
end

--- Two texts that overlap, or nil.
function methods:touching()
  for i, p in ipairs(self.list) do
    for j = i + 1, #self.list do
      local q = self.list[j]
      if p.x1 < q.x2 and q.x1 < p.x2 and p.y1 < q.y2 and q.y1 < p.y2 then
        return p.text, q.text
      end
    end
  end
end

--- A text that leaves the sheet, `margin` inside its edges, or nil.
function methods:outside(page, margin)
  for _, p in ipairs(self.list) do
    if p.x1 < margin or p.y1 < margin or p.x2 > page.width - margin
      or p.y2 > page.height - margin then
      return p.text
    end
  end
end

--- A text at a place of the sheet, kept in mind.
function methods:label(page, text, x, y, how)
  self:add(text, x, y, how or "left")
  return sheet.label(text, sheet.at(page, x, y), how)
end

--- A view to scale whose labels are kept in mind.
function methods:view(N, a, b, place)
  local v = view.new(N, a, b, place)
  v.label = function(of, text, x, h, how)
    self:add(text, place.left + (x - a) / N, place.base + h / N, how or "center")
    view.label(of, text, x, h, how)
  end
  return v
end

return boxes
