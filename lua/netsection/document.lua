-- SPDX-License-Identifier: MIT
--- A document as a list of blocks, written as plain text, Markdown, HTML or LaTeX.
--
--   local d = document.new {title = "Joist J3", lang = "en"}
--   d:heading(1, "Loads"):paragraph "As measured."
--   document.html(d, {paper = "a4"})
--
-- Blocks hold words and numbers, never markup: what a caller or a user wrote is escaped
-- by the writer, so that one description serves every form and no text can become a tag,
-- a formula or a command. A writer is a module document/<form>.lua with a function per
-- kind of block.
local html = require "netsection.document.html"
local latex = require "netsection.document.latex"
local markdown = require "netsection.document.markdown"
local parts = require "netsection.parts"
local plain = require "netsection.document.text"
local point = require "netsection.point"
local svg = require "netsection.document.svg"
local tables = require "netsection.document.tables"
local text = require "netsection.text"
local wording = require "netsection.document.wording"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local document = {escape = require "netsection.document.escape"}

local methods = {}
local meta = {__index = methods, __name = "netsection.document", __tostring = function(d)
  local title = document.escape.text(tostring(d.title))
  return ("document '%s', %d blocks"):format(title, #d.blocks)
end}

-- Raises at the line that called the method.
local function expect(condition, ...)
  if not condition then error("document: " .. point.format(...), 3) end
end

local function add(d, block)
  d.blocks[#d.blocks + 1] = block
  return d
end

local TEXTS = {"title", "foot", "job"}

--- An empty document.
-- @param t {title = text or nil, lang = "en", running = words for the head of each page,
--   foot = text that stands with the page's number in the margin of each printed page,
--   job = text at the upper left of each printed page, close = true, "closer": set
--   closely in print, for what is to stand on one page, own = texts of a user's, which
--   stay as they are where lang = "en-GB" or "en-CA" puts words into its spelling}
function document.new(t)
  t = t or {}
  parts.only("document.new", t, {"title", "lang", "running", "foot", "job", "close",
    "symbols", "own"}, 2)
  for _, field in ipairs(TEXTS) do
    expect(t[field] == nil or type(t[field]) == "string", "%s: text expected", field)
  end
  local lang = t.lang or "en"
  expect(type(lang) == "string" and lang:find "^%a[%w-]*$",
    'lang: a language tag such as "en" expected')
  expect(t.running == nil or type(t.running) == "string"
    and t.running:find "^[%a ]+$", "running: letters and blanks expected")
  expect(t.own == nil or type(t.own) == "table", "own: a list of texts expected")
  return setmetatable({title = t.title, lang = lang, own = t.own, running = t.running,
    foot = t.foot, job = t.job,
    close = t.close == "closer" and "closer" or t.close == true,
    symbols = t.symbols == true, blocks = {}, figures = {n = 0}}, meta)
end

function document.is(value)
  return getmetatable(value) == meta
end

-- A name that links lead to: letters, digits, - and _.
local function is_name(v)
  return type(v) == "string" and v:find "^[%w_-]+$" ~= nil
end

--- A heading; level 1 to 4, below the title. @param id a name for links to it, or nil
function methods:heading(level, said, id)
  expect(math.type(level) == "integer" and level >= 1 and level <= 4,
    "heading: level 1 to 4 expected, got %s", tostring(level))
  expect(type(said) == "string", "heading: text expected, got %s", type(said))
  expect(id == nil or is_name(id), "heading: id: letters, digits, - and _ expected")
  return add(self, {kind = "heading", level = level, text = said, id = id})
end

local STYLES = {"strong", "mark", "link"}

-- One piece of a paragraph -> {text =, style = "plain"|"strong"|"mark"|"link"} | nil.
local function piece_of(piece)
  if type(piece) == "string" then return {text = piece, style = "plain"} end
  if type(piece) ~= "table" then return nil end
  for _, style in ipairs(STYLES) do
    if type(piece[style]) == "string" then
      if style == "link" and not is_name(piece.to) then return nil end
      return {text = piece[style], style = style, to = piece.to}
    end
  end
end

local function pieces_of(said)
  if type(said) == "string" then said = {said} end
  if type(said) ~= "table" then return nil, "" end
  local list = {}
  for i, piece in ipairs(said) do
    list[i] = piece_of(piece)
    if not list[i] then return nil, ("piece %d: "):format(i) end
  end
  return list
end

--- A paragraph: text, or a list of pieces "text", {strong = "text"}, {mark = "text"},
-- {link = "text", to = id}, where a mark is a name that a user gave to something and id
-- that of a heading.
function methods:paragraph(said)
  local pieces, where = pieces_of(said)
  expect(pieces, 'paragraph: %stext, {strong = "text"} or {mark = "text"} expected',
    where)
  return add(self, {kind = "paragraph", pieces = pieces})
end

-- A copy of a list of texts, or nil and the number of the first that is none.
local function texts_of(list)
  if type(list) ~= "table" then return nil, 1 end
  local copy = {}
  for i = 1, #list do
    if type(list[i]) ~= "string" then return nil, i end
    copy[i] = list[i]
  end
  return copy
end

--- A list of texts. @param options {ordered = true}: numbered
function methods:list(items, options)
  options = options or {}
  parts.only("document: list", options, {"ordered"}, 2)
  local copy, at = texts_of(items)
  expect(copy, "list: item %d: text expected", at)
  return add(self, {kind = "list", items = copy, ordered = options.ordered == true})
end

--- A table: {caption=, columns={{head=, align=, group=}}, rows={{cell,...}},
-- row_heads=n, notes={...}}. A cell is text, a number, nil or false for an empty one, or
-- {text=, strong=true, note=, data=, to=}, where note is the number of a note of the
-- table or text, which is put under it, data the name of the number it shows, and to the
-- id of a heading that it leads to. A row may be shorter than the table is wide.
-- to_fill = true: rows that a hand can write in, across the page.
function methods:table(t)
  parts.only("document: table", t, tables.fields, 2)
  local block, problem = tables.read(t)
  expect(block, "table: %s", problem)
  return add(self, block)
end

local FIGURE = {"name", "alt", "caption", "svg", "plot", "photo"}
local FORMS = {jpeg = true, png = true}

local function is_photo(p)
  return type(p) == "table" and FORMS[p.form] and type(p.text) == "string"
end

--- A figure: {name = file name, alt = description, caption=, svg = a picture, plot = the
-- gnuplot script, photo = {form = "jpeg" | "png", text = its bytes}}. HTML holds the
-- picture in itself; the other forms name the file.
function methods:figure(t)
  parts.only("document: figure", t, FIGURE, 2)
  for _, field in ipairs {"name", "alt"} do
    expect(type(t[field]) == "string", "figure: %s (text) expected", field)
  end
  for _, field in ipairs {"caption", "svg", "plot"} do
    expect(t[field] == nil or type(t[field]) == "string", "figure: %s: text expected",
      field)
  end
  expect(t.photo == nil or is_photo(t.photo),
    'figure: photo: {form = "jpeg" or "png", text = its bytes} expected')
  self.figures.n = self.figures.n + 1
  local number = self.figures.n
  local picture, problem
  if t.svg then
    picture, problem = svg.inline(t.svg, ("figure%d-"):format(number))
    expect(picture, "figure: svg: %s", problem)
  end
  return add(self, {kind = "figure", name = t.name, alt = t.alt, caption = t.caption,
    svg = picture, plot = t.plot, photo = t.photo and {form = t.photo.form,
    text = t.photo.text}})
end

local STEP = {"symbol", "formula", "numbers", "value", "unit", "clause", "says",
  "data"}

-- A step is copied, since that of a review builds its inputs when they are first read.
local function step_of(step)
  if type(step) ~= "table" then return nil, "a table expected" end
  local copy = {}
  for _, field in ipairs(STEP) do
    local v = step[field]
    if type(v) == "number" then
      if v ~= v or v == math.huge or v == -math.huge then
        return nil, field .. ": a finite number expected"
      end
      v = text.short(v)
    end
    if v ~= nil and type(v) ~= "string" then return nil, field .. ": text expected" end
    copy[field] = v
  end
  if not copy.symbol then return nil, "symbol: text expected" end
  if copy.formula and not copy.numbers and step.inputs then
    copy.numbers = text.with_numbers(step)
  end
  return copy
end

--- A calculation: steps {symbol=, formula=, numbers=, value=, unit=, clause=, says=,
-- data=}, as `check.steps` of a review are; data is the name of the value.
function methods:calculation(steps)
  expect(type(steps) == "table", "calculation: a list of steps expected")
  local list = {}
  for i, step in ipairs(steps) do
    local copy, problem = step_of(step)
    expect(copy, "calculation: step %d: %s", i, problem)
    list[i] = copy
  end
  return add(self, {kind = "calculation", steps = list})
end

--- Labels with a line behind each, to be filled in by hand.
function methods:blanks(items)
  local copy, at = texts_of(items)
  expect(copy, "blanks: item %d: text expected", at)
  return add(self, {kind = "blanks", items = copy})
end

--- A text set apart. @param kind "note" (default) or "caution"
function methods:note(said, kind)
  kind = kind or "note"
  expect(type(said) == "string", "note: text expected, got %s", type(said))
  expect(kind == "note" or kind == "caution", 'note: kind "note" or "caution" expected')
  return add(self, {kind = "note", text = said, caution = kind == "caution"})
end

--- A new printed page. @param head words at the upper right of each page from here to
-- the next break, such as "Joist J3", or nil
function methods:page_break(head)
  expect(head == nil or type(head) == "string", "page_break: text expected")
  return add(self, {kind = "page_break", head = head})
end

--- Blocks that belong together. @param options {columns = 1 (default) or 2 in print,
-- keep = true: on one printed page, where they are not longer, sides = true: what is in
-- it are two groups that stand beside each other in print}
-- @param build function(d) that adds the blocks
function methods:group(options, build)
  parts.only("document: group", options, {"columns", "keep", "sides"}, 2)
  expect(options.columns == nil or options.columns == 1 or options.columns == 2,
    "group: columns: 1 or 2 expected")
  expect(type(build) == "function", "group: a function expected")
  local inner = setmetatable({title = self.title, blocks = {}, figures = self.figures},
    meta)
  build(inner)
  return add(self, {kind = "group", columns = options.columns or 1,
    keep = options.keep == true, sides = options.sides == true, blocks = inner.blocks})
end

--- Adds the blocks of another document at the end.
function methods:append(other)
  expect(document.is(other), "append: a document expected")
  for _, block in ipairs(other.blocks) do add(self, block) end
  return self
end

local PAPERS = {letter = true, a4 = true}

local FORM = {}

-- Writers take the document and {paper = "letter" | "a4"}.
local function writer(name, module)
  FORM[#FORM + 1] = name
  document[name] = function(d, options)
    options = options or {}
    if not document.is(d) then
      error(("document.%s: a document of document.new expected, got %s")
        :format(name, type(d)), 2)
    end
    parts.only("document." .. name, options, {"paper"}, 2)
    local paper = options.paper or "letter"
    if not PAPERS[paper] then
      error(('document.%s: paper "letter" or "a4" expected'):format(name), 2)
    end
    return module.write(wording.of(d), paper)
  end
end

writer("text", plain)
writer("markdown", markdown)
writer("html", html)
writer("latex", latex)

--- Names of the forms that a document can be written in.
function document.forms()
  return table.move(FORM, 1, #FORM, 1, {})
end

--- Adds a form of one's own: document.<name>(d, options) then writes in it.
-- @param name small letters, digits and _
-- @param module {write = function(d, paper) -> text}; d.blocks is the list of blocks,
--   each with its `kind` (see document/markdown.lua for one that writes all of them)
-- @return the function
function document.form(name, module)
  if type(name) ~= "string" or not name:find "^%l[%l%d_]*$" then
    error("document.form: a name of small letters, digits and _ expected", 2)
  elseif document[name] ~= nil then
    error(("document.form: '%s' is there already"):format(name), 2)
  elseif type(module) ~= "table" or type(module.write) ~= "function" then
    error("document.form: {write = function(d, paper)} expected", 2)
  end
  writer(name, module)
  return document[name]
end

return document
