-- SPDX-License-Identifier: MIT
-- Second moment of area of one ply with what is cut out of it, in4: by it fastened plies
-- share M. A long loss and a hole in it count at one place, which is the least there is.
local ply_section = {}

-- Outer rectangle once the losses are off: width, and the heights where wood begins and
-- ends.
local function rectangle(b, d, cuts)
  local low, high, side = 0, 0, 0
  for _, c in ipairs(cuts) do
    if c.cut.kind == "loss" then
      local more = c.cut.allowance or 0
      local function lost(depth) return (depth or 0) > 0 and depth + more or 0 end
      low = math.max(low, lost(c.cut.bottom))
      high = math.max(high, lost(c.cut.top))
      side = math.max(side, lost(c.cut.ply_sides or c.cut.sides))
    end
  end
  return math.max(b - 2 * side, 0), low, d - high
end

-- Heights from low to high that are still there once the bands are out of them.
local function strips(low, high, cuts)
  local list = low < high and {{low, high}} or {}
  for _, c in ipairs(cuts) do
    if c.cut.kind ~= "loss" and c.cut.kind ~= "split" then
      local left = {}
      for _, s in ipairs(list) do
        local below, above = math.min(s[2], c.y1), math.max(s[1], c.y2)
        if below > s[1] then left[#left + 1] = {s[1], below} end
        if above < s[2] then left[#left + 1] = {above, s[2]} end
      end
      list = left
    end
  end
  return list
end

-- I = sum (b h^3/12 + b h (y - y_0)^2) of strips that bend as one.
local function combined(b, list)
  local A, Q, I = 0, 0, 0
  for _, s in ipairs(list) do
    local h, y = s[2] - s[1], (s[1] + s[2]) / 2
    A, Q = A + b * h, Q + b * h * y
    I = I + b * h ^ 3 / 12 + b * h * y * y
  end
  return A > 0 and I - Q * Q / A or 0
end

-- I = sum b h^3/12 of the leaves between splits: no shear flow crosses a split.
local function leaves(b, list, planes)
  table.sort(planes)
  planes[#planes + 1] = math.huge
  local I, from = 0, 0
  for _, to in ipairs(planes) do
    local h = 0
    for _, s in ipairs(list) do
      h = h + math.max(math.min(s[2], to) - math.max(s[1], from), 0)
    end
    I, from = I + b * h ^ 3 / 12, to
  end
  return I
end

-- @param b, d of the ply, in
-- @param cuts list of {cut = as the model has it, y1 =, y2 = its band from the bottom}
function ply_section.I(b, d, cuts)
  local width, low, high = rectangle(b, d, cuts)
  local list, planes = strips(low, high, cuts), {}
  for _, c in ipairs(cuts) do
    if c.cut.kind == "split" then
      planes[#planes + 1] = math.min(math.max(d - c.cut.at_depth, 0), d)
    end
  end
  local whole = combined(width, list)
  return #planes > 0 and math.min(whole, leaves(width, list, planes)) or whole
end

return ply_section
