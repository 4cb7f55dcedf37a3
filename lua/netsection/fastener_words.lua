-- SPDX-License-Identifier: MIT
-- Fasteners as a carpenter reads them: "26 bolts, 1/2 in diameter, at least 4-1/2 in
-- long". A bolt whose length was not given is as long as what it goes through asks for.
local tostring = require "netsection.point".text
local fastener_words = {}

-- Room for washers, nut and threads past what is bolted, in: two diameters and 1/2 in,
-- up to the next half inch (ours; common practice is grip, two washers, nut, threads).
local function bolt_length(grip, D)
  return math.ceil((grip + 2 * D + 0.5) * 2 - 1e-9) / 2
end

-- What a bolt goes through: the joist and the thickest piece on each face.
local function grip_of(r)
  local m = r.joist.model
  local half, left, right = m.b * m.plies / 2, 0, 0
  for _, p in ipairs(r.fixed.pieces or {}) do
    if p.y1 and p.y2 and not p.of then
      if p.y1 >= half - 1e-6 then right = math.max(right, p.y2 - p.y1) end
      if p.y2 <= -half + 1e-6 then left = math.max(left, p.y2 - p.y1) end
    end
  end
  return 2 * half + left + right, left + right > 0
end

-- Kind, and how large it is, of the fastener that a repair was described with.
local function described(r, f)
  local given, show = f.kind, r.show
  local D = f.size and (f.size:find "d$" and f.size .. ", " .. show.diameter(f.D)
    .. " diameter" or "No. " .. f.size:gsub("^[Nn]o%.?%s*", "")) or show.section(f.D)
    .. " diameter"
  if given == "nail" and f.type then given = f.type == "sinker" and "sinker" or f.type
    .. " nail" end
  local long
  if f.L then
    long = show.section(f.L) .. " long"
  elseif f.kind == "bolt" then
    local grip, beside = grip_of(r)
    long = beside and ("at least %s long"):format(show.section(bolt_length(grip, f.D)))
      or "length by what it goes through"
  else
    long = "length not given"
  end
  return given, D, long
end

--- "26 bolts, 1/2 in diameter, at least 4-1/2 in long".
-- @param r a repaired joist's review; @param f an entry of r.fixed.fasteners
function fastener_words.of(r, f)
  local repair = r.joist.repair
  local given = repair and repair.fastener
  if not given or tostring(given) ~= f.fastener then
    return ("%d of %s"):format(f.count, f.fastener or "the fasteners described")
  end
  local kind, size, long = described(r, given)
  local rated = given.rated
    and (", rated %s each"):format(r.show.force_given(given.rated)) or ""
  return ("%d %s%s, %s, %s%s"):format(f.count, kind, f.count == 1 and "" or "s", size,
    long, rated)
end

return fastener_words
