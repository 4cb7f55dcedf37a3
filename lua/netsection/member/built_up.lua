-- SPDX-License-Identifier: MIT
-- How the plies of a built-up post are held together: K_f of its slip, and what the
-- standard asks of nails and bolts. Numbers and clauses are the standard's
-- (members.lua of its folder).
local model = require "netsection.model"
local ordered = require "netsection.point".pairs
local tostring = require "netsection.point".text

local built_up = {}

local read = model.readers

local KINDS = {nailed = "nailed_post", bolted = "bolted_post"} -- and their rule
local FIELDS = {"kind", "diameter", "length", "rows", "spacing", "row_spacing",
  "end_distance", "edge_distance"}
local MEASURES = {"end_distance", "spacing", "row_spacing", "edge_distance"}
local NAMES = {end_distance = "end distance", spacing = "spacing along a row",
  row_spacing = "distance between rows", edge_distance = "edge distance"}

local function unknown(found, t)
  for name in ordered(t) do
    local known = false
    for _, field in ipairs(FIELDS) do known = known or field == name end
    if not known then
      found:add(nil, "built_up." .. tostring(name), "unknown (takes "
        .. table.concat(FIELDS, ", ") .. ")")
    end
  end
end

--- Reads the field of a post. @param plies how many, @param found problems
-- @param standard of packs.standard
-- @return {kind =, K_f =, D =, ...}, or nil
function built_up.read(t, plies, found, standard)
  if t == nil then
    if plies > 1 then
      found:add(nil, "built_up", "missing: how the plies are held together, {kind = "
        .. "\"nailed\" | \"bolted\", diameter =, length = of nails, rows =, spacing =, "
        .. "row_spacing =, end_distance =, edge_distance =} ("
        .. standard.words:rule "built_up_post" .. ")")
    end
    return nil
  elseif plies < 2 then
    found:add(nil, "built_up", "goes with plies = 2 to 5")
    return nil
  elseif type(t) ~= "table" or not KINDS[t.kind] then
    found:add(nil, "built_up", "{kind = \"nailed\" or \"bolted\", ...} expected")
    return nil
  end
  unknown(found, t)
  local rule = standard.data.members[t.kind]
  local f = {kind = t.kind, K_f = rule.K_f, rule = rule}
  f.rows = t.rows ~= nil and read.number(found, nil, "built_up.rows", t.rows, 1, 6) or 0
  local needed = {"diameter", table.unpack(MEASURES)}
  if t.kind == "nailed" then needed[#needed + 1] = "length" end
  for _, name in ipairs(needed) do
    if t[name] == nil then
      if name ~= "row_spacing" or f.rows > 1 then
        found:add(nil, "built_up." .. name, "missing")
      end
    else
      f[name] = read.between(found, nil, "built_up." .. name, t[name], 0.05, 48)
    end
  end
  if t.rows == nil then found:add(nil, "built_up.rows", "missing")
  elseif math.type(t.rows) ~= "integer" then
    found:add(nil, "built_up.rows", "a count expected")
  end
  if t.length ~= nil and t.kind == "bolted" then
    found:add(nil, "built_up.length", "of nails only: bolts go through")
  end
  return f
end

local function outside(f, name, b, show)
  local rule, v = f.rule[name], f[name]
  if not v then return nil end
  local least = (rule.least or rule[1]) * f.diameter
  local most = rule.most_plies and rule.most_plies * b or rule[2] * f.diameter
  if v >= least - 1e-9 and v <= most + 1e-9 then return nil end
  return ("%s %s, %s to %s expected"):format(NAMES[name], show.size(v),
    show.length(least, 2), show.length(most, 2))
end

--- What the standard asks and the post does not have: a list of texts; empty where its
-- plies act as a built-up column.
-- @param m the wood: b of one ply, d, plies; @param standard of packs.standard
function built_up.lacking(f, m, show, standard)
  local list, all, words = {}, standard.data.members.built_up, standard.words
  local clause = words:rule(KINDS[f.kind])
  if m.plies > all.most_plies then
    list[1] = ("%d plies, at most %d (%s)"):format(m.plies, all.most_plies,
      words:rule "built_up_plies")
  end
  if m.b < all.thinnest - 1e-9 then
    list[#list + 1] = ("plies %s thick, at least %s (%s)"):format(
      show.size(m.b), show.size(all.thinnest), words:rule "built_up_plies")
  end
  for _, name in ipairs(MEASURES) do
    local said = outside(f, name, m.b, show)
    if said then list[#list + 1] = said .. ", " .. clause end
  end
  local rows = m.d > 3 * m.b + 1e-9 and 2 or 1
  if f.rows < rows then
    list[#list + 1] = ("%d row, %d where d is over 3 plies' thickness, %s"):format(
      f.rows, rows, clause)
  end
  local across = f.rows > 1 and (f.rows - 1) * (f.row_spacing or 0)
    + 2 * f.edge_distance or 2 * f.edge_distance
  if across > m.d + 1e-6 then
    list[#list + 1] = ("rows and edge distances take %s, the face is %s"):format(
      show.size(across), show.size(m.d))
  end
  if f.length then
    local least = (m.plies - 1) * m.b + 0.75 * m.b
    if f.length < least - 1e-9 then
      list[#list + 1] = ("nails %s long, at least %s: through all plies and 3/4 of the "
        .. "last, %s"):format(show.size(f.length), show.size(least), clause)
    end
  end
  return list
end

--- The post's fasteners as the carpenter reads them.
function built_up.said(f, m, show)
  return ("%d plies %s: %s %s%s in %d row%s, %s apart, first %s from each end, %s from "
    .. "the edges%s"):format(m.plies, f.kind, f.kind == "nailed" and "nails" or "bolts",
    show.figures_of("length", f.diameter), f.length and " x " .. show.size(f.length)
    or "",
    f.rows, f.rows == 1 and "" or "s", show.size(f.spacing),
    show.size(f.end_distance), show.size(f.edge_distance), f.kind == "nailed"
    and ", from opposite sides in turn, staggered" or ", washers at both ends")
end

return built_up
