-- SPDX-License-Identifier: MIT
-- A joist that is headed off, as drawings show it: where the headers stand, what of the
-- joist goes, and the trimmers beside it.

local headed = {}

--- The headers of a layout's repair, from left to right; none of a trial that fails.
function headed.headers(layout)
  local list, fix = {}, layout.fix
  for _, piece in ipairs(fix and not fix.trial and fix.pieces or {}) do
    if piece.kind == "header" and piece.x1 then list[#list + 1] = piece end
  end
  table.sort(list, function(p, q) return p.x1 < q.x1 end)
  return list
end

-- The middle of what is cut, which tells the side that goes where there is one header.
local function middle_of_cuts(layout)
  local a, b = math.huge, -math.huge
  for _, cut in ipairs(layout.cuts) do
    if cut.kind == "sever" then a, b = math.min(a, cut.x1), math.max(b, cut.x2) end
  end
  if a > b then
    for _, cut in ipairs(layout.cuts) do
      a, b = math.min(a, cut.x1), math.max(b, cut.x2)
    end
  end
  return (a + b) / 2
end

--- The stretch of the joist that is taken out, from face to face: x1, x2; nil where none.
function headed.removed(layout)
  local list = headed.headers(layout)
  if #list == 0 then return nil end
  if #list > 1 then return list[1].x1, list[#list].x2 end
  local h = list[1]
  if middle_of_cuts(layout) > (h.x1 + h.x2) / 2 then return h.x1, layout.finish end
  return layout.start, h.x2
end

--- Marks of the joists that are trimmers to it, with how far the added plies stand to
-- one side of each, in.
function headed.trimmers(layout)
  local list, fix = {}, layout.fix
  for _, piece in ipairs(fix and not fix.trial and fix.pieces or {}) do
    if piece.of and piece.name == "trimmer" and piece.x1 then list[#list + 1] = piece end
  end
  return list
end

return headed
