-- SPDX-License-Identifier: MIT
-- What stands in the way of a repair: pipes, wires, ducts, blocking, finishes. Each is
-- noted as a surveyor does, from one joist, and placed in the floor.
--
-- All things are placed in one frame: x along the joists from the center of the
-- left bearing, y across from the first joist's center line to the right, h up from the
-- tops of the joists, which lie flush under the subfloor whatever the depths.
local escape = require "netsection.document.escape"
local parts = require "netsection.parts"
local point = require "netsection.point"
local units = require "netsection.units"
local written = require "netsection.written"
local tostring = require "netsection.point".text

local obstruction = {}

local FIELDS = {"what", "kind", "joist", "joists", "bay", "side", "from", "to", "at",
  "from_right", "bottom", "top", "height", "y", "y1", "y2", "diameter", "movable",
  "class", "trade", "through", "note"}
obstruction.fields = FIELDS

-- Class of disturbance by kind: {if easy, if a trade is needed}, and whose work it is.
local KINDS = {
  wire = {1, 2, "electrician"}, cable = {1, 2, "electrician"},
  pipe = {3, 3, "plumber"}, drain = {4, 4, "plumber"}, vent = {4, 4, "plumber"},
  duct = {5, 5, "duct fitter"}, blocking = {1, 2, "carpenter"},
  finish = {6, 6, "finisher"},
}
local KIND_NAMES = {"wire", "cable", "pipe", "drain", "vent", "duct", "blocking",
  "finish"}
local NO_KIND = {1, 3}

-- What each class of disturbance stands for, from 0, the least.
obstruction.classes = {[0] = "clear", "unclip a wire", "re-route a wire",
  "move a pressure pipe", "move a drain or vent", "move a duct",
  "open a finished ceiling or floor", "shut down an occupied room"}

-- Stands for "no limit given" in a direction, in; farther than any floor reaches.
local FAR = 1e5

-- Two measures of one distance that are closer than this agree, in.
local READING = 1 / 16

-- Off the face of a joist where nothing says how thick a thing is, in.
local ASSUMED_OUT = 1.5

-- Limits of plausible entries, in.
local LOW_HIGH = {from = {-3000, 3000}, to = {-3000, 3000}, at = {-3000, 3000},
  bottom = {-240, 240}, top = {-240, 240}, height = {-240, 240}, y = {-240, 240},
  y1 = {-240, 240}, y2 = {-240, 240}, diameter = {0.05, 60}}

-- What was entered, short, in plain characters.
local function plain(text)
  return escape.text(tostring(text):sub(1, 60))
end

-- @return function(field, message) that adds to the list, naming the obstruction
local function collector(found, i, t)
  local name = type(t) == "table" and type(t.what) == "string"
    and (" (%s)"):format(plain(t.what)) or ""
  return function(field, message)
    found[#found + 1] = {obstruction = i, field = field, message = message,
      text = ("obstruction %d%s%s: %s"):format(i, name, field and ", " .. field or "",
        message)}
  end
end

-- One of a list of words, or a problem.
local function choice(add, name, value, words)
  for _, word in ipairs(words) do
    if value == word then return value end
  end
  if value ~= nil then
    add(name, ("one of %s expected, got %s"):format(table.concat(words, ", "),
      plain(value)))
  end
end

-- A problem for a field that is not true or false.
local function flag(add, t, name)
  if t[name] ~= nil and type(t[name]) ~= "boolean" then
    add(name, "true or false expected, got " .. plain(t[name]))
  end
  return t[name] == true
end

-- The field as inches, or nil with a problem added unless it is not given.
local function length(add, t, name)
  if t[name] == nil then return nil end
  local value, problem = units.length(t[name])
  local low, high = table.unpack(LOW_HIGH[name])
  if not value then
    add(name, problem)
  elseif not (value >= low and value <= high) then
    local unit, per = written.unit(t[name])
    unit, per = unit or "in", per or 1
    add(name, ("%s %s is outside %s to %s %s"):format(point.format("%.6g", value / per),
      unit, units.significant(low / per, 4), units.significant(high / per, 4), unit))
  else
    return value
  end
end

------------------------------------------------------------------------------- reading

-- What it is, whose trade, how hard it is to move, a note.
local function read_what(t, s, add)
  for _, name in ipairs {"what", "trade", "note"} do
    if t[name] ~= nil and (type(t[name]) ~= "string" or not t[name]:find "%S") then
      add(name, "a text expected, got " .. type(t[name]))
    end
  end
  if t.what == nil then add("what", "missing: what stands there, in words") end
  s.what = plain(t.what)
  s.kind = choice(add, "kind", t.kind, KIND_NAMES)
end

-- Class 0 to 7: as given, else by kind and by how movable it is.
local function read_moving(t, s, add)
  local kind = KINDS[s.kind] or NO_KIND
  if t.movable == nil and t.class == nil and t.kind == nil then
    add("movable", "missing: no, easy or trade")
  end
  s.movable = choice(add, "movable", t.movable, {"no", "easy", "trade"}) or "trade"
  s.class = kind[s.movable == "easy" and 1 or 2]
  if t.class ~= nil then
    local class = math.type(t.class) and math.tointeger(t.class)
    if not class or class < 0 or class > 7 then
      add("class", "a whole number from 0 (clear) to 7 (shut down an occupied room) "
        .. "expected, got " .. plain(t.class))
    end
    s.class = class or 0
  end
  s.trade = t.trade or kind[3]
end

-- A joist of the floor by its mark.
local function mark_of(add, name, mark, marks)
  if type(mark) == "string" and marks[mark] then return mark end
  add(name, ("the mark of a joist of the floor expected, got %s"):format(plain(mark)))
end

-- Marks that a field names, or nil if one of them is not a joist's.
local function read_marks(add, name, list, marks, least, most)
  if type(list) ~= "table" or #list < least or #list > most then
    return add(name, least == most and 'the marks of two neighbours, {"J1", "J2"}, '
      .. "expected" or "a list of marks expected")
  end
  local all = {}
  for i, mark in ipairs(list) do all[i] = mark_of(add, name, mark, marks) end
  return #all == #list and all or nil
end

-- The joists or the bay that it is at.
local function read_where(t, s, add, marks)
  local given = {}
  for _, name in ipairs {"joist", "joists", "bay"} do
    if t[name] ~= nil then given[#given + 1] = name end
  end
  if #given > 1 then
    add(given[2], ("give %s or %s, not both"):format(given[1], given[2]))
  elseif #given == 0 and t.kind ~= "finish" then
    add("joist", "missing: joist = a mark, joists = {...} or bay = {one, the next}")
  elseif t.joist ~= nil then
    local mark = mark_of(add, "joist", t.joist, marks)
    s.marks = mark and {mark}
  elseif t.joists ~= nil then
    s.marks, s.run = read_marks(add, "joists", t.joists, marks, 1, math.huge), true
  elseif t.bay ~= nil then
    s.marks, s.bay = read_marks(add, "bay", t.bay, marks, 2, 2), true
    if s.marks and math.abs(marks[s.marks[1]] - marks[s.marks[2]]) ~= 1 then
      add("bay", ("%s and %s are not neighbors"):format(s.marks[1], s.marks[2]))
    end
  end
end

-- Which way a round thing runs: along, across, upright, or no way ("nil": one place
-- with a height and an offset, such as a trap, taken as a box).
local function axis_of(t)
  if t.diameter == nil then return nil end
  if t.from ~= nil or t.to ~= nil then return "x" end
  if t.joists ~= nil or t.through == true then return "y" end
  if t.y ~= nil or t.y1 ~= nil or t.side ~= nil then
    return t.height == nil and "h" or nil
  end
  return "y"
end

-- A problem where a range runs backward.
local function ordered(add, s, low, high)
  if s[low] and s[high] and s[low] >= s[high] then
    add(high, ("%s must be more than %s"):format(high, low))
  end
end

-- A problem where one of two fields that go together is missing.
local function both_or_none(add, t, one, other)
  if (t[one] == nil) ~= (t[other] == nil) then
    local missing = t[one] == nil and one or other
    add(missing, ("missing: %s and %s go together"):format(one, other))
  end
end

-- Its place along the joists.
local function read_along(t, s, add)
  for _, name in ipairs {"from", "to", "at"} do s[name] = length(add, t, name) end
  s.from_right = flag(add, t, "from_right")
  if t.at ~= nil and (t.from ~= nil or t.to ~= nil) then
    add("at", "give at, or from and to, not both")
  elseif t.at == nil and t.from == nil and t.to == nil and t.kind ~= "finish" then
    add("from", "missing: from and to, or at for a thing at one place")
  end
  both_or_none(add, t, "from", "to")
  ordered(add, s, "from", "to")
end

-- Its height over the joists' bottom edge.
local function read_heights(t, s, add)
  for _, name in ipairs {"bottom", "top", "height", "diameter"} do
    s[name] = length(add, t, name)
  end
  if t.height ~= nil and (t.bottom ~= nil or t.top ~= nil) then
    add("height", "give height, the center, or bottom and top, not both")
  end
  ordered(add, s, "bottom", "top")
  s.axis = axis_of(t)
  if (s.axis == "x" or s.axis == "y") and t.height == nil and t.bottom == nil
    and t.top == nil then
    add("height", "missing: of the center, above the joist's bottom edge")
  end
end

-- A finish lies below or above the joists; the rest may stand against a face.
local function read_side(t, s, add)
  if t.kind == "finish" then
    s.side = choice(add, "side", t.side, {"below", "above"})
    if t.side == nil and t.bottom == nil and t.top == nil and t.height == nil then
      add("side", "missing: below or above the joists")
    end
    return
  end
  s.side = choice(add, "side", t.side, {"left", "right"})
  if t.side ~= nil and t.joist == nil then
    add("side", "the face of one joist: goes with joist")
  elseif t.side ~= nil and (t.y ~= nil or t.y1 ~= nil or t.y2 ~= nil) then
    add("side", "give side, or the offsets across, not both")
  end
end

-- Its place across a bay.
local function read_across(t, s, add)
  for _, name in ipairs {"y", "y1", "y2"} do s[name] = length(add, t, name) end
  s.through = flag(add, t, "through")
  read_side(t, s, add)
  both_or_none(add, t, "y1", "y2")
  if not s.run then ordered(add, s, "y1", "y2") end
  if t.y ~= nil and t.y1 ~= nil then add("y", "give y, or y1 and y2, not both") end
  local placed = t.y ~= nil or t.side ~= nil
  if s.axis == "x" and not placed then
    add("y", "missing: the center across the bay, from the joist's center line")
  elseif t.joist ~= nil and not placed and t.y1 == nil and not s.through
    and s.axis ~= "y" and t.kind ~= "finish" then
    add("side", "missing: left or right face, y1 and y2 from the center line, or "
      .. "through = true")
  end
end

-- Problems for fields that are not known.
local function known_fields(t, add)
  local known, unknown = {}, {}
  for _, name in ipairs(FIELDS) do known[name] = true end
  for name in pairs(t) do
    if not known[name] then unknown[#unknown + 1] = plain(name) end
  end
  table.sort(unknown, point.less)
  for _, name in ipairs(unknown) do
    add(name, ("unknown field (takes %s)"):format(table.concat(FIELDS, ", ")))
  end
end

------------------------------------------------------------------------------- placing

-- Spacing of a joist on one side as it was entered.
local function given_spacing(j, side)
  local given = j.description.spacing
  return type(given) == "table" and units.length(given[side]) or nil
end

-- Center to center of two neighbors: what either measured to the other, else the mean
-- of their spacings.
local function distance(a, b, found)
  local right, left = given_spacing(a, 2), given_spacing(b, 1)
  if found and right and left and math.abs(right - left) > READING then
    found[#found + 1] = {field = "spacing", text = ("joists %s and %s: spacing: %s on "
      .. "the right of the one is %s on the left of the other"):format(a.model.mark,
      b.model.mark, b.model.show.size(right), b.model.show.size(left))}
  end
  return right or left or (a.model.spacing + b.model.spacing) / 2
end

-- Where each joist stands across the floor, by mark: y of its center line, half its
-- width, depth d, length L between outer bearings, reach past them, and half the bay on
-- each side; also by number.
-- @param found list that problems are added to, or nil
function obstruction.lines(joists, found)
  local lines, y = {}, 0
  for i, j in ipairs(joists) do
    local m, L = j.model, 0
    for _, span in ipairs(m.span) do L = L + span end
    local line = {mark = m.mark, number = i, y = y, half = m.b * m.plies / 2, d = m.d,
      show = m.show, L = L, left_end = -(m.overhang_left or 0),
      right_end = L + (m.overhang_right or 0)}
    local left, after = lines[i - 1], joists[i + 1]
    line.left = left and left.right or (given_spacing(j, 1) or m.spacing) / 2
    local gap = after and distance(j, after, found) or given_spacing(j, 2) or m.spacing
    line.right = gap / 2
    y = y + gap
    lines[i], lines[m.mark] = line, line
  end
  return lines
end

-- Places from the left where they were measured from the right.
local function turned(s, L)
  if not s.from_right then return s.from, s.to, s.at end
  return s.to and L - s.to, s.from and L - s.from, s.at and L - s.at
end

-- The stretch it takes along the joists.
local function place_along(s, shape, ref)
  local from, to, at = turned(s, ref.L)
  local r = s.diameter and s.axis ~= "x" and s.diameter / 2 or 0
  shape.x1 = from or at and at - r or -FAR
  shape.x2 = to or at and at + r or FAR
end

-- In heights above the bottom edge of the joist measured from.
local function place_heights(s, shape, ref)
  local D = s.diameter
  local low, high = s.bottom, s.top
  if s.kind == "finish" and s.side == "below" then high = high or 0 end
  if s.kind == "finish" and s.side == "above" then low = low or ref.d end
  if s.height then
    low, high = s.height - (D or 0) / 2, s.height + (D or 0) / 2
  elseif s.axis == "x" or s.axis == "y" then
    low = low or high - D
    high = low + D
  end
  shape.bounded = low and high and high - low
  shape.h1, shape.h2 = (low or -FAR) - ref.d, (high or FAR) - ref.d
end

-- Off one face: by its diameter, else as far as it is tall, not past mid-bay.
local function off_face(s, shape, ref)
  local tall = shape.bounded and shape.bounded > 0 and shape.bounded or ASSUMED_OUT
  local out = s.diameter or math.min(tall, ref[s.side] - ref.half)
  if s.side == "right" then return ref.y + ref.half, ref.y + ref.half + out end
  return ref.y - ref.half - out, ref.y - ref.half
end

-- The stretch it takes across the floor.
local function place_across(s, shape, ref, first, last)
  local r = (s.diameter or 0) / 2
  if s.y then
    return ref.y + s.y - r, ref.y + s.y + r
  elseif s.y1 and s.run then
    return first.y + s.y1, last.y + s.y2
  elseif s.y1 then
    return ref.y + s.y1, ref.y + s.y2
  elseif s.side == "left" or s.side == "right" then
    return off_face(s, shape, ref)
  elseif s.bay then
    return first.y + first.half, last.y - last.half
  elseif not s.marks then
    return -FAR, FAR
  end
  -- What comes through a joist is taken to go on to the middle of the next bay.
  return first.y - first.left, last.y + last.right
end

-- The first and the last of several joists.
local function outermost(marks, lines)
  local first, last = lines[marks[1]], lines[marks[1]]
  for _, mark in ipairs(marks) do
    local line = lines[mark]
    if line.y < first.y then first = line end
    if line.y > last.y then last = line end
  end
  return first, last
end

-- The box it takes, in inches of the floor.
local function place(s, lines, add)
  local ref = s.marks and lines[s.marks[1]] or lines[1]
  local first, last = ref, ref
  if s.marks then first, last = outermost(s.marks, lines) end
  local shape = {axis = s.axis}
  place_along(s, shape, ref)
  if shape.x1 > ref.right_end or shape.x2 < ref.left_end then
    add(s.at and "at" or "from", ("past the end of joist %s, whose last bearing is at %s")
      :format(ref.mark, ref.show.place(ref.L)))
  end
  place_heights(s, shape, ref)
  shape.y1, shape.y2 = place_across(s, shape, ref, first, last)
  if shape.y1 >= shape.y2 and not s.y then
    add("y2", "leaves nothing between y1 and y2 across the joists named")
  end
  if s.kind == "finish" then
    s.face = s.side or (shape.h1 + shape.h2) / 2 < -ref.d / 2 and "below" or "above"
  end
  s.across = s.axis == "y" or s.through or s.run or false
  s.shape = shape
end

----------------------------------------------------------------------------- the whole

-- One obstruction; its problems go into `found`.
local function read_one(t, i, marks, lines, found)
  local add, before = collector(found, i, t), #found
  if type(t) ~= "table" then
    add(nil, "a table such as ns.obstruction{...} expected, got " .. type(t))
    return nil
  end
  local s = {number = i}
  known_fields(t, add)
  read_what(t, s, add)
  read_moving(t, s, add)
  read_where(t, s, add, marks)
  read_along(t, s, add)
  read_heights(t, s, add)
  read_across(t, s, add)
  if lines and #found == before then place(s, lines, add) end
  return s
end

-- Reads a floor's list of obstructions.
-- @param list the descriptions; @param marks marks of the joists in order across
-- @param joists the joists, or nil where they could not be read: then nothing is placed
-- @return placed obstructions {what, kind, movable, class, trade, shape, ...}, and the
--   list of problems {obstruction =, field =, message =, text =}
function obstruction.read(list, marks, joists)
  local found, things, numbers = {}, {}, {}
  if type(list) ~= "table" then
    return things, {{text = "obstructions: a list expected, got " .. type(list)}}
  end
  for i, mark in ipairs(marks) do numbers[mark] = i end
  local lines = joists and #list > 0 and obstruction.lines(joists, found)
  for i, t in ipairs(list) do
    things[i] = read_one(t, i, numbers, lines, found)
  end
  for name in pairs(list) do
    if math.type(name) ~= "integer" or name < 1 or name > #list then
      found[#found + 1] = {text = "obstructions: a plain list {{...}, {...}} expected"}
      break
    end
  end
  return things, found
end

local meta = {__tostring = function(t)
  return ("obstruction: %s"):format(plain(t.what or t.kind))
end}

-- One thing in the way, for floor{obstructions = {...}}: a copy of its fields, whose
-- values are read with the floor.
function obstruction.new(t)
  parts.only("obstruction", t, FIELDS, 2)
  local copy = setmetatable({}, meta)
  for name, value in pairs(t) do copy[name] = value end
  return setmetatable(copy, meta)
end

return obstruction
