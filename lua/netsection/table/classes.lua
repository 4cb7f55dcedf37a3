-- SPDX-License-Identifier: MIT
-- What a table says of joists of a strength class (EN 338), whose limits of deflection
-- are those of a standard, and which standards a table has.
local packs = require "netsection.packs"
local point = require "netsection.point"

local classes = {}

-- The standards of a table: the values of an axis of that name, else the table's own.
function classes.standards(t)
  for _, axis in ipairs {t.rows, t.columns, t.blocks} do
    if #axis.names == 1 and axis.names[1] == "standard" then
      local list = {}
      for _, name in ipairs(axis.values) do
        list[#list + 1] = packs.standard(name)
      end
      if #list == #axis.values then return list end
    end
  end
  return {(packs.standard(t.standard))}
end

-- The joists of a strength class, and those of none.
function classes.of(joists)
  local classed, others = {}, {}
  for _, j in ipairs(joists) do
    local list = j.model.class and classed or others
    list[#list + 1] = j
  end
  return classed, others
end

-- The standards of a table that are of a family, or the only one there is.
local function of_family(t, family)
  local all, list = classes.standards(t), {}
  for _, standard in ipairs(all) do
    if standard.data.family == family then list[#list + 1] = standard end
  end
  return #list > 0 and list or {all[1]}
end

-- Limits of EN 1995-1-1, which are the standard's where the joist has none of its own.
-- @param agreed function of notes.lua: what joists say as one text
-- @return one text
function classes.deflection(t, joists, agreed)
  local standards, said = of_family(t, "ec5"), {}
  for i, standard in ipairs(standards) do
    local own, labels = standard.limits or {}, standard.data.labels or {}
    local function limit(what, k)
      return agreed(t, joists, {"limits." .. what}, "as the table says, which varies",
        function(m)
          local n = m["limit_" .. what] == 1 and own[k] or m["limit_" .. what]
          return n > 0 and point.format("l/%g", n) or "not checked"
        end)
    end
    said[i] = ("%s%s %s, %s %s"):format(#standards > 1 and standard.data.name .. " "
      or "", labels.live or "live", limit("live", 1), labels.total or "total",
      limit("total", 2))
  end
  return ("Deflection: %s; w_fin = w_G (1 + k_def) + w_Q (1 + psi_2 k_def), by "
    .. "bending and shear."):format(table.concat(said, "; "))
end

return classes
