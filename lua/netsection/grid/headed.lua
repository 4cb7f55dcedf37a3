-- SPDX-License-Identifier: MIT
-- Joists that are headed off, in a grid: their tails are lines with a gap between them,
-- each header a beam across from trimmer to trimmer, free to turn at both, and the
-- trimmers have the plies that the repair gives them.
local core = require "netsection.core"
local point = require "netsection.point"

local headed = {}

--- Puts a headed joist on its line: nothing between its tails.
-- @param a the repaired state, with its path
-- @return nil, or why the grid cannot have it
function headed.put(line, r, a)
  local tails = {}
  for _, t in ipairs(a.path and a.path.tails or {}) do
    if t.mark == r.mark then tails[#tails + 1] = t end
  end
  table.sort(tails, function(p, q) return p.x0 < q.x0 end)
  if #tails == 0 then return "its tails are not known" end
  line.gaps = {}
  local from = line.first
  for _, t in ipairs(tails) do
    if t.x0 > from + 1e-6 and from > line.first then
      line.gaps[#line.gaps + 1] = {from, t.x0}
    elseif t.x0 > from + 1e-6 then
      return "it has one tail only"
    end
    from = t.x1
  end
  if from < line.last - 1e-6 then return "it has one tail only" end
  line.headed = {path = a.path, fix = r.joist.repair, packs = r.packs}
  return nil
end

local function index_of(list, mark)
  for i, line in ipairs(list) do
    if line.mark == mark then return i end
  end
end

--- Rows of headers over a list of lines; trimmers get their plies.
-- @return rows as those of blocks are read; or nil and why the grid cannot have them
function headed.rows(list)
  local rows, seen, plies = {}, {}, {}
  for _, line in ipairs(list) do
    local o = line.headed
    for _, h in ipairs(o and o.path.headers or {}) do
      local a, b = index_of(list, h.left.mark), index_of(list, h.right.mark)
      local key = point.format("%s/%s/%.6f", h.left.mark, h.right.mark, h.x)
      if not (a and b) then return nil, line.mark .. ": a trimmer is not in the floor" end
      if not seen[key] then
        seen[key] = true
        local EI = core.stiffness(o.fix.wood.model, o.packs.rules,
          o.packs.standard)[1].uncut
        rows[#rows + 1] = {at = h.x, EI = EI, first = a, last = b, k = math.huge}
        for _, i in ipairs {a, b} do
          plies[i] = math.max(plies[i] or 1, o.fix.trimmer_plies)
        end
      end
    end
  end
  for i, n in pairs(plies) do
    for _, s in ipairs(list[i].stretches) do s.EI = s.EI * n end
  end
  return rows
end

return headed
