-- SPDX-License-Identifier: MIT
-- What DEVELOPERS.md says of adding: each thing added here stands outside the module's
-- own files, in a folder made for the test or in one call.
local folder = require "netsection.folder"
local lu = require "luaunit"
local ns = require "netsection"
local standards = require "netsection.standards"
local support = require "tests.support"
local system = require "tests.system"

local T = {}
local close = support.close

local FOLDER = "lua/netsection/standards/us-nds-2018"

local function read(path)
  local file = assert(io.open(path, "rb"))
  local text = file:read "a"
  file:close()
  return text
end

-- Copies the data of the standard's folder to another one; change(name, text) -> text.
local function copied(to, change)
  assert(folder.make(to))
  for _, name in ipairs(folder.entries(FOLDER)) do
    if name:find "%.lua$" and name ~= "fastener_steps.lua" then
      local file = assert(io.open(to .. "/" .. name, "wb"))
      file:write(change(name, read(FOLDER .. "/" .. name)))
      file:close()
    end
  end
  return to
end

local function removed(path)
  for _, name in ipairs(folder.entries(path) or {}) do os.remove(path .. "/" .. name) end
  os.remove(path)
end

local function in_folder(change, use)
  local path = os.tmpname()
  os.remove(path)
  copied(path, change)
  local ok, why = pcall(use, path)
  removed(path)
  if not ok then error(why, 0) end
end

local function joist()
  return ns.joist {mark = "A1", size = "2x10", species = "Douglas Fir-Larch",
    grade = "No.2", span = "12-0", spacing = 16, dead = 10, live = 40,
    cuts = {ns.hole {diameter = 3, at = "6-0"}}}
end

-- A copy of the folder under another name with one factor changed: CD 1.15 where it was
-- 1.0 raises every F' but F_cp' and E by 1.15 (NDS Table 4.3.1), so ratios fall by it.
function T.test_a_standard_is_one_folder()
  in_folder(function(name, text)
    if name ~= "format_asd.lua" then return text end
    local other, n = text:gsub("us%-nds%-2018%-asd", "own-seven-days")
      :gsub("L = 1, CD = 1.0", "L = 1, CD = 1.15")
    lu.assertEquals(n, 1)
    return other
  end, function(path)
    local mine = ns.standard {folder = path, format = "asd"}
    local a, b = joist():review(), joist():review {standard = mine}
    lu.assertEquals(b.standard, "own-seven-days")
    for _, mode in ipairs {"bending", "shear"} do
      close(b:find("uncut", mode).ratio, a:find("uncut", mode).ratio / 1.15, 1e-9, mode)
    end
    close(b:find("uncut", "bearing").ratio, a:find("uncut", "bearing").ratio)
    close(b:find("cut", "net-bending", 1).ratio,
      a:find("cut", "net-bending", 1).ratio / 1.15, 1e-9)
    lu.assertEquals(#b:find("cut", "net-bending", 1).steps,
      #a:find("cut", "net-bending", 1).steps)
  end)
end

-- The words of a folder are its own: another clause stands in its calculations.
function T.test_words_of_a_folder_are_its_own()
  in_folder(function(name, text)
    if name == "format_asd.lua" then
      return (text:gsub("us%-nds%-2018%-asd", "own-words"))
    end
    return name == "checks.lua" and text:gsub("NDS 3%.3%.2", "own 7.1") or text
  end, function(path)
    local r = joist():review {standard = ns.standard {folder = path, format = "asd"}}
    lu.assertEquals(r:find("uncut", "bending").clause, "own 7.1")
    lu.assertEquals(r:find("uncut", "shear").clause, "NDS 3.4.3.1")
  end)
end

-- What a folder may get wrong is named before any use.
local SLIPS = {
  {"checks.lua", 'mode = "shear"', 'mode = "sheer"', "checks[2].mode"},
  {"lines.lua", "l_u : free", "l_q : free", "'l_q' stands for nothing"},
  {"steps_joist.lua", "S = b*d^2/6", "S = b*dd^2/6", "'dd' in 'b*dd^2/6' stands for"},
  {"steps_joist.lua", "@free edge", "@free edges", "@free edges: no such lines"},
  {"framing.lua", "single_header", "single_headers", "is 'single_header' meant?"},
  {"standard.lua", 'family = "nds"', 'family = "ec9"', "family"},
  {"format_asd.lua", "CD = 0.9", "CD = os.exit()", "not a table of data alone"},
}

function T.test_slips_in_a_folder_are_named()
  for _, slip in ipairs(SLIPS) do
    in_folder(function(name, text)
      if name == "format_asd.lua" then text = text:gsub("us%-nds%-2018%-asd", "own") end
      if name ~= slip[1] then return text end
      local at = assert(text:find(slip[2], 1, true), slip[2])
      return text:sub(1, at - 1) .. slip[3] .. text:sub(at + #slip[2])
    end, function(path)
      support.raises(slip[4], ns.standard, {folder = path, format = "asd"})
      lu.assertTrue(#ns.standard.problems {folder = path, format = "asd"} > 0)
    end)
  end
  support.raises("a folder with standard.lua", ns.standard, {folder = "/nowhere"})
  support.raises("'name' beside a folder", ns.standard, {folder = FOLDER, name = "x"})
  support.raises("format: one of asd", ns.standard, {folder = FOLDER, format = "xyz"})
end

-- Found by listing: what the folder holds is what there is.
function T.test_standards_are_found_by_listing()
  local names = {}
  for _, entry in ipairs(folder.entries(standards.home)) do
    for _, format in ipairs(standards.formats(standards.home .. "/" .. entry) or {}) do
      names[#names + 1] = format == "" and entry or entry .. "-" .. format
    end
  end
  table.sort(names)
  lu.assertTrue(#names >= 5)
  lu.assertEquals(standards.names(), names)
  for i, pack in ipairs(ns.packs "standards") do lu.assertEquals(pack.name, names[i]) end
end

-- A rule pack is one table in one call.
function T.test_a_rule_pack_is_one_call()
  local mine = ns.rules {name = "own-office", title = "Office rules", confidence = "own",
    covers = {"hole"}, not_covered = "not addressed", limits = {{kinds = {"hole"},
    measure = "size", of_d = 1 / 4, clause = "office 3.2", text = "hole diameter",
    says = "d/4"}}}
  local r = joist():review {rules = mine}
  lu.assertEquals(r.rules.status, "outside")
  lu.assertEquals(r.rules.breaches[1].clause, "office 3.2")
end

-- A table of design values is one call, or one file of data outside the tree: F_b 1000
-- where the edition has 900 raises F_b' in proportion (NDS Table 4.3.1).
local MILL = [[return {edition = "own-mill", base = "us-nds-2018", title = "Mill tests",
  sources = {mill = "tests of a mill"}, species = {["Douglas Fir-Larch"] = {grades = {
  ["No.2"] = {Fb = 1000, source = "mill", confidence = "read"}}}}}]]

function T.test_a_lumber_table_is_one_file()
  local path = os.tmpname()
  local file = assert(io.open(path, "wb"))
  file:write(MILL)
  file:close()
  local name = ns.lumber.add {file = path}
  os.remove(path)
  local ok, why = pcall(function()
    local a, b = joist():review(), joist():with {edition = name}:review()
    close(b:find("uncut", "bending").ratio, a:find("uncut", "bending").ratio * 0.9, 1e-12)
    close(b:find("uncut", "shear").ratio, a:find("uncut", "shear").ratio, 1e-12)
    lu.assertStrContains(b.joist.model.source, "tests of a mill")
    support.raises("'own-mill' is on file already", ns.lumber.add, {edition = "own-mill",
      title = "x", sources = {}, species = {}, base = "us-nds-2018"})
  end)
  ns.lumber.forget(name)
  if not ok then error(why, 0) end
  support.raises("is no table of one's own", ns.lumber.forget, name)
end

function T.test_slips_in_a_lumber_table_are_named()
  local function slip(change)
    local t = assert(load(MILL))()
    change(t, t.species["Douglas Fir-Larch"].grades["No.2"])
    return ns.lumber.problems(t)[1]
  end
  for text, change in pairs {
    ["source: 'none' is not in sources"] = function(_, g) g.source = "none" end,
    ["confidence"] = function(_, g) g.confidence = "sure" end,
    ["is outside"] = function(_, g) g.Fb = 1e6 end,
    ["is 'Fb' meant?"] = function(_, g) g.Fbb = 900 end,
    ["base: edition 'x' is not on file"] = function(t) t.base = "x" end,
    ["grades[No.2].Fv: missing"] = function(t) t.base, t.thickness_max, t.size_factors
      = nil, 4, {} t.species["Douglas Fir-Larch"].table = "A"
      t.species["Douglas Fir-Larch"].aliases = {} end,
    ["edition: small letters"] = function(t) t.edition = "A B" end} do
    lu.assertStrContains(slip(change).text, text)
  end
  lu.assertEquals(#ns.lumber.problems(assert(load(MILL))()), 0)
  support.raises("No such file", ns.lumber.add, {file = "/nowhere/own.lua"})
end

-- A kind of repair is one call: a second joist right beside, taken as one of two plies,
-- so that every ratio of bending is half of what it was where Cr stays (statics).
local doubled = ns.repair_kind("doubled", {
  fields = {"note"},
  read = function(_, case, found, part)
    if case.model.plies > 1 then found:add(part, "plies", "a single joist expected") end
    return {}
  end,
  title = function() return "doubled joist" end,
  assess = function(case)
    local r = case.joist:changed {plies = 2}:review(case.options)
    return {checks = r.cut.checks, title = "doubled joist", reactions = r.cut.reactions,
      deflection = r.cut.deflection, notes = {"both are taken as new"}}
  end,
})

function T.test_a_repair_kind_is_one_call()
  local before = joist():review()
  local r = joist():fix(doubled {note = "beside the stair"}):review()
  close(r:find("fixed", "net-bending", 1).ratio,
    before:find("cut", "net-bending", 1).ratio / 2, 1e-9)
  lu.assertEquals(r.fixed.status, "adequate")
  lu.assertEquals(r.fixed.title, "doubled joist")
  lu.assertStrContains(ns.report.text(r), "doubled joist")
  lu.assertStrContains(joist():fix(doubled {}):review {standard = "us-nds-2018-lrfd"}
    .fixed.refused, "STANDARD-FORMAT-MIX")
  support.raises("unknown field 'side'", doubled, {side = "left"})
  support.raises("is a kind already", ns.repair_kind, "sister", {})
  support.raises("small letters and _", ns.repair_kind, "A B", {})
  support.raises("assess: a function expected", ns.repair_kind, "other", {fields = {},
    read = print})
  support.raises("a single joist expected", function()
    return ns.joist {mark = "A2", size = "2x10", plies = 2, span = 120, spacing = 16,
      dead = 10, live = 40, species = "Hem-Fir", grade = "No.2"}:fix(doubled {})
  end)
end

-- A homework kind is one call too: the tributary width of a joist, by hand 40 psf on
-- 16 in is 53.33 plf.
function T.test_a_homework_kind_is_one_call()
  local kind = ns.homework.kind {name = "line_load", title = "Load per foot",
    vary = {spacing = {12, 16, 24}},
    given = function(p)
      return {{"s", p.spacing, "in", "spacing"}, {"L", 40, "psf", "live load"}}
    end,
    question = "What does one joist get?",
    steps = {{"w", "L*s/12", "plf", ask = "Load per foot", marks = 1}},
    mistakes = {{of = "w", formula = "L*s", name = "inches for feet",
      reveals = "psf is a load on a square foot"}}}
  local set = ns.homework {course = "C", seed = "1", students = {"a", "b", "c", "d"},
    problems = {{kind = kind, given = {spacing = 16}}}}
  close(set:of "a"[1].s.w, 40 * 16 / 12, 1e-12)
end

-- An output form is one call: here the headings of a document, one to a line.
function T.test_an_output_form_is_one_call()
  local document = ns.document
  document.form("outline", {write = function(d)
    local out = {d.title}
    for _, block in ipairs(d.blocks) do
      if block.kind == "heading" then out[#out + 1] = block.text end
    end
    return table.concat(out, "\n") .. "\n"
  end})
  local forms = document.forms()
  lu.assertEquals({forms[1], forms[#forms]}, {"text", "outline"})
  local d = document.new {title = "Floor"}
  d:heading(1, "First")
  d:paragraph "words"
  d:heading(2, "Second")
  lu.assertEquals(document.outline(d), "Floor\nFirst\nSecond\n")
  support.raises("a document of document.new", document.outline, {})
  support.raises("is there already", document.form, "html", {write = print})
  support.raises("write = function", document.form, "other", {})
  document.outline = nil -- as if it had not been
end

-- A check: one row and one C file of a folder outside csrc, built into a core of its own
-- (own_check.lua says what they bring). Quick settings: nothing here is about speed.
function T.test_a_check_is_one_file_and_one_row()
  system.unix "make and a compiler"
  local to = os.tmpname()
  os.remove(to)
  local build = ("MAKEFLAGS= make -j2 WHOLE=1 CHECKS=tests/data/own_checks "
    .. "BUILD='%s/build' WARN= WERROR= OPT='-O0 -DNS_CLONES=' "
    .. "MODULE='%s/netsection/core.so' "
    .. "'%s/netsection/core.so' 2>&1"):format(to, to, to)
  local run = ("LUA_PATH='%s' LUA_CPATH='%s/?.so;%s' lua5.4 tests/own_check.lua 2>&1")
    :format(package.path, to, package.cpath)
  local said = {}
  for i, command in ipairs {build, run} do
    local pipe = assert(io.popen(command))
    said[i] = pipe:read "a"
    pipe:close()
  end
  system.remove(to)
  lu.assertEquals(said[2], "own check: all found\n", said[1]:sub(-2000))
end

return T
