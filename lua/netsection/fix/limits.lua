-- SPDX-License-Identifier: MIT
-- What the building code prescribes for a joist that is headed off, item by item. It is
-- said beside the calculation and does not take its place.
local limits = {}

-- @param t {framing = of the standard in force, show = the system of units, length = of
--   the header, L = span, at = {places of headers}, plies =, trimmer_plies =, d = depth
--   of the joist, header_d =, hanger =, tail_hanger = given or not, tails = {lengths}}
-- @return {status = "within"|"outside", items = {{clause, text, measured, limit, ok}}}
function limits.header(t)
  local items, status, framing = {}, "within", t.framing
  local function item(ok, measured, limit, text)
    items[#items + 1] = {clause = framing.clause, text = text, measured = measured,
      limit = limit, ok = ok}
    if not ok then status = "outside" end
  end
  local short = t.length <= framing.single_header + 1e-6
  item(t.plies >= 2 or short, t.length, framing.single_header,
    "a header over 4 ft is doubled")
  item(t.plies >= 2 or t.header_d >= t.d - 1e-6, t.header_d, t.d,
    "a single header is of the joists' size")
  for _, x in ipairs(t.at) do
    local near = math.min(x, t.L - x)
    local close = near <= framing.near_bearing + 1e-6
    if not short then
      item(t.trimmer_plies >= 2, t.length, framing.single_header,
        "trimmers of a header over 4 ft are doubled")
    else
      item(t.trimmer_plies >= 2 or close, near, framing.near_bearing,
        ("the header at %s is %s"):format(t.show.place(x), close and "within 3 ft of the "
        .. "bearing: trimmers may be single" or "more than 3 ft from the bearing: "
        .. "trimmers are doubled"))
    end
  end
  item(t.hanger or t.length <= framing.header_hangers + 1e-6, t.length,
    framing.header_hangers, "a header over 6 ft hangs in hangers")
  for _, length in ipairs(t.tails) do
    item(t.tail_hanger or length <= framing.tail_anchors + 1e-6, length,
      framing.tail_anchors, "a tail over 12 ft stands on anchors or a ledger")
  end
  return {status = status, items = items, clause = framing.clause}
end

-- A line for each item that is not met.
function limits.breaches(rules, show)
  local out = {}
  for _, item in ipairs(rules.items) do
    if not item.ok then
      out[#out + 1] = ("not met: %s; %s here (%s)"):format(item.text,
        show.place(item.measured), item.clause)
    end
  end
  return out
end

return limits
