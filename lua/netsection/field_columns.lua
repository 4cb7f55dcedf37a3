-- SPDX-License-Identifier: MIT
-- The columns of a survey's files: what each holds, how field books head it, and what
-- the blank field books show as examples. A column is data, so that reader, template and
-- reference cannot part.
--
-- Columns of joists and cuts stand with their fields (fields.lua).
--
-- A column: {name, kind, also = other headings, needed = true, rare = true where blank
-- books leave it out, says = what it is, eg = {example of the first row, of the second}}.
-- Kinds are those of cell.lua; a unit in the heading, "Span (ft)", goes with a kind that
-- has units.
local fields = require "netsection.fields"
local fix = require "netsection.fix"

local columns = {}

local SIDES = {left = "left", l = "left", lh = "left", right = "right", r = "right",
  rh = "right"}
local CASES = {dead = "dead", d = "dead", permanent = "dead", live = "live", l = "live",
  imposed = "live", rooflive = "roof live", lr = "roof live", snow = "snow", s = "snow"}
local PLIES = {single = 1, double = 2, triple = 3, one = 1, two = 2, three = 3}

-- What a distance is measured from; "left" and "right" are centers of bearings.
local DATUM = {left = "left", leftbearing = "left", leftcentre = "left",
  leftcenter = "left", centreofleftbearing = "left", centerofleftbearing = "left",
  right = "right", rightbearing = "right", rightcentre = "right", rightcenter = "right",
  centreofrightbearing = "right", centerofrightbearing = "right",
  leftface = "left face", faceofleftbearing = "left face",
  leftbearingface = "left face", rightface = "right face",
  faceofrightbearing = "right face", rightbearingface = "right face"}

local function column(name, kind, t)
  t = t or {}
  t.name, t.kind, t.also = name, kind, t.also or {}
  return t
end

local function note_columns()
  return column("photo", "text", {also = {"photos", "photo no", "photo number", "picture",
    "image", "pic"}, says = "number of the photograph", eg = {"12", ""}}),
    column("note", "text", {also = {"notes", "remark", "remarks", "comment", "comments"},
    says = "anything else; carried along as text", eg = {"probe went in 1/4 in", ""}})
end

local function joist_column(eg)
  return column("joist", "text", {also = {"mark", "joists", "joist mark", "member",
    "joist no", "joist id"}, needed = true, eg = eg,
    says = "mark, list (J3, J4), run (J3 to J6), or all"})
end

local function datum_column()
  return column("measured from", "word", {also = {"reference", "datum", "ref",
    "measured_from", "origin"}, words = DATUM, shown = "left bearing, right bearing, "
    .. "left face, right face", says = "what distances are measured from; center of the "
    .. "left bearing where blank", eg = {"left bearing", "right face"}})
end

local photo, note = note_columns()

columns.joists = fields.columns(fields.joist, column)
for _, one in ipairs {column("sag", "text", {also = {"deflection", "measured sag"},
  says = "by string or laser; carried along"}), photo, note} do
  table.insert(columns.joists, one)
end

-- Names of cuts as they are written; a notch may carry its face, a loss its cause.
local CUT_KINDS = {hole = {"hole"}, bore = {"hole"}, boredhole = {"hole"},
  drilledhole = {"hole"}, drill = {"hole"}, drilled = {"hole"}, roundhole = {"hole"},
  slot = {"slot"}, opening = {"slot"}, rectangularopening = {"slot"},
  rectangle = {"slot"}, notch = {"notch"}, topnotch = {"notch", face = "top"},
  bottomnotch = {"notch", face = "bottom"}, endnotch = {"end_notch"},
  leftendnotch = {"end_notch", support = "left"},
  rightendnotch = {"end_notch", support = "right"}, sever = {"sever"},
  severed = {"sever"}, cutthrough = {"sever"}, sawnthrough = {"sever"},
  throughcut = {"sever"}, lostbearing = {"lost_bearing"}, lostend = {"lost_bearing"},
  leftlostbearing = {"lost_bearing", support = "left"},
  rightlostbearing = {"lost_bearing", support = "right"}, loss = {"loss"},
  sectionloss = {"loss"},
  rot = {"loss", cause = "rot"}, decay = {"loss", cause = "rot"},
  char = {"loss", cause = "char"}, burnt = {"loss", cause = "char"},
  fire = {"loss", cause = "char"}, insects = {"loss", cause = "insects"},
  termites = {"loss", cause = "insects"}, beetle = {"loss", cause = "insects"},
  split = {"split"}, crack = {"split"}, shake = {"split"}}

columns.cuts = {
  joist_column {"J1", "J1"},
  column("kind", "kind", {also = {"type", "cut", "cut type", "what"}, needed = true,
    words = CUT_KINDS, shown = "hole, slot, notch, top notch, bottom notch, end notch, "
    .. "sever, lost bearing, loss, rot, char, insects, split",
    eg = {"hole", "top notch"}}),
  datum_column(),
}
for _, one in ipairs(fields.columns(fields.cut, column)) do
  table.insert(columns.cuts, one)
end
table.insert(columns.cuts, photo)
table.insert(columns.cuts, note)

local LOAD_KINDS = {point = {"point"}, pointload = {"point"}, concentrated = {"point"},
  line = {"line"}, lineload = {"line"}, wall = {"line"}, partition = {"line"},
  area = {"area"}, patch = {"area"}, areaload = {"area"}, tub = {"tub"}, bath = {"tub"},
  bathtub = {"tub"}}

columns.loads = {
  joist_column {"J1", "J1, J2"},
  column("kind", "kind", {also = {"type", "load type", "what"}, needed = true,
    words = LOAD_KINDS, shown = "point, line, area, tub", eg = {"line", "tub"}}),
  column("load", "load", {also = {"value", "amount", "weight", "magnitude"},
    says = "with its unit: lb, plf, psf, kN, kN/m, kPa", eg = {"80 plf", ""}}),
  column("to_load", "line", {also = {"load at end", "end load"}}),
  column("case", "word", {also = {"load case", "dead or live"}, words = CASES,
    shown = "dead, live, roof live, snow", eg = {"dead", ""}}),
  column("CD", "number", {rare = true, also = {"cd", "load duration factor"},
    says = "load duration factor of a live load, 0.9 to 2.0, where it has its own"}),
  datum_column(),
  column("at", "length", {also = {"centre", "center", "distance"}}),
  column("from", "length", {also = {"start"}, eg = {"", "4-0"}}),
  column("to", "length", {also = {"end"}, eg = {"", "9-0"}}),
  column("width", "length", {also = {"across"}, eg = {"", "32 in"}}),
  column("empty", "point", {also = {"empty weight"}, eg = {"", "300 lb"}}),
  column("water", "point", {eg = {"", "420 lb"}}),
  column("people", "point", {also = {"bathers"}, eg = {"", "170 lb"}}),
  column("under", "word", {rare = true, words = {larger = "larger", add = "add",
    tub = "tub"}, shown = "larger, add, tub"}),
  photo, note,
}

columns.obstructions = {
  column("what", "text", {also = {"item", "description", "obstruction"}, needed = true,
    eg = {"3/4 supply line", "duct"}}),
  column("kind", "word", {also = {"type", "service"}, words = {wire = "wire",
    cable = "cable", pipe = "pipe", drain = "drain", waste = "drain", vent = "vent",
    duct = "duct", blocking = "blocking", bridging = "blocking", finish = "finish",
    ceiling = "finish", floor = "finish"}, shown = "wire, cable, pipe, drain, vent, "
    .. "duct, blocking, finish", eg = {"pipe", "duct"}}),
  column("joist", "text", {also = {"mark", "on joist"}, eg = {"J1", ""},
    says = "the joist it was measured from"}),
  column("joists", "text", {also = {"through joists", "crosses"},
    says = "all that it crosses, J3 to J6"}),
  column("bay", "text", {also = {"between", "between joists"}, eg = {"", "J1, J2"}}),
  column("side", "word", {also = {"face"}, words = {left = "left", l = "left",
    right = "right", r = "right", below = "below", under = "below", above = "above",
    over = "above"}, shown = "left, right; below, above for a finish",
    eg = {"left", ""}}),
  datum_column(),
  column("at", "length", {also = {"centre", "center", "distance"}}),
  column("from", "length", {also = {"start"}, eg = {"3-0", "0 in"}}),
  column("to", "length", {also = {"end"}, eg = {"8-0", "7-0"}}),
  column("bottom", "length", {also = {"underside", "bottom height"},
    says = "above the joist's bottom edge", eg = {"2 in", "5 in"}}),
  column("top", "length", {also = {"top height"}, eg = {"3 in", "8 in"}}),
  column("height", "length", {also = {"centre height", "center height"},
    says = "of its center"}),
  column("bottom_end", "length", {also = {"bottom at end", "bottom at to", "bottom 2"},
    says = "of a sloping thing, at its far end", eg = {"", "4 in"}}),
  column("top_end", "length", {also = {"top at end", "top at to", "top 2"},
    eg = {"", "7 in"}}),
  column("height_end", "length", {also = {"height at end", "height at to", "height 2"}}),
  column("y", "length", {also = {"across", "offset across"}}),
  column("y1", "length", {rare = true, also = {"across from"}}),
  column("y2", "length", {rare = true, also = {"across to"}}),
  column("diameter", "length", {also = {"dia", "diam", "od", "outside diameter"}}),
  column("movable", "word", {also = {"moveable", "can move", "move"},
    words = {no = "no", n = "no", fixed = "no", easy = "easy", yes = "easy", y = "easy",
      trade = "trade"}, shown = "no, easy, trade", eg = {"trade", "trade"}}),
  column("class", "count", {rare = true, also = {"disturbance"}, words = {}}),
  column("trade", "text", {also = {"who moves it"}, eg = {"plumber", ""}}),
  column("through", "flag", {also = {"through joist", "passes through"}}),
  photo, note,
}

local FIX_KINDS = {}
for _, kind in ipairs(fix.kinds) do
  FIX_KINDS[(kind:gsub("_", ""))] = {kind}
end
FIX_KINDS.sideplate, FIX_KINDS.plates = {"side_plates"}, {"side_plates"}
FIX_KINDS.post, FIX_KINDS.midspanbeam = {"midspan_support"}, {"midspan_support"}
FIX_KINDS.newjoist = {"added_joist"}

columns.fixes = {
  column("joist", "text", {also = {"mark", "joist mark"}, needed = true,
    eg = {"J1", "J2"}}),
  column("kind", "kind", {also = {"fix", "repair", "type"}, needed = true,
    words = FIX_KINDS, shown = "sister, side plates, strap, header, hanger, midspan "
    .. "support, added joist, notch screws, end sister", eg = {"sister", "hanger"}}),
  column("side", "word", {also = {"face"}, words = {left = "left", right = "right",
    both = "both", bothfaces = "both"}, shown = "left, right, both", eg = {"right", ""}}),
  column("from", "length"), column("to", "length"),
  column("at", "lengths", {also = {"place", "places"}, says = "one place, or two: "
    .. "5-10; 6-7"}),
  column("support", "word", {also = {"end", "which end"}, words = SIDES,
    shown = "left, right", eg = {"", "left"}}),
  column("size", "text", {eg = {"2x10", ""}}),
  column("b", "length", {rare = true}), column("d", "length", {rare = true,
    also = {"new depth"}}),
  column("plies", "count", {words = PLIES}),
  column("species", "text", {rare = true}), column("grade", "text", {rare = true}),
  column("fastener", "fastener", {also = {"fasteners", "screw", "bolt"},
    says = "1/2 in bolt; lag screw 1/4 x 3 in; wood screw 14 x 3 in; nail 16d",
    eg = {"1/2 in bolt", ""}}),
  column("groups", "groups", {says = "places, or number @ place: 4 @ 3-4; 4 @ 5-10"}),
  column("pitch", "length", {eg = {"16 in", ""}}),
  column("per_row", "count", {rare = true, words = {}}),
  column("n", "count", {also = {"number", "count"}, words = {}}),
  column("rows", "count", {rare = true, words = {}}),
  column("cut", "count", {rare = true, also = {"cut no"}, words = {}}),
  column("gauge", "count", {rare = true, words = {}}),
  column("thickness", "length", {rare = true}), column("width", "length", {rare = true}),
  column("depth", "length", {rare = true, also = {"plate depth"}}),
  column("steel", "text", {rare = true}), column("rated", "point", {rare = true,
    also = {"maker's value"}}),
  column("capacity", "point", {eg = {"", "900 lb"}}),
  column("seat", "length", {rare = true}), column("offset", "length", {rare = true}),
  column("bearing", "length", {rare = true}),
  column("trimmer_plies", "count", {rare = true, words = {}}),
  column("hold_down", "point", {rare = true}),
  column("hanger", "point", {rare = true}), column("tail_hanger", "point", {rare = true}),
  column("between", "word", {rare = true, words = {half = "half", none = "none"},
    shown = "half, none"}),
  column("share", "word", {rare = true, words = {stiffness = "stiffness", new = "new",
    worst = "worst", slip = "slip"}, shown = "stiffness, new, worst, slip"}),
  column("gap_load", "word", {rare = true, words = {gap = "gap",
    betweengroups = "between groups"},
    shown = "gap, between groups"}),
  column("lift", "word", {words = {none = "none", unloaded = "unloaded"},
    shown = "none, unloaded"}),
  column("write_off", "flag", {rare = true}), column("rise", "length", {rare = true}),
  column("end_distance", "length", {rare = true}), column("edge_distance", "length",
    {rare = true}),
  column("prebored", "flag", {rare = true}),
  photo, note,
}

-- Files in the order in which they are read.
columns.files = {"joists", "cuts", "obstructions", "loads", "fixes"}

return columns
