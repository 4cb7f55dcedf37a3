-- SPDX-License-Identifier: MIT
-- A blank field book as a workbook: the sheets and headings that the reader knows, what
-- to enter under each, lists to choose from, two examples. All cells are text, so that a
-- spreadsheet makes no date of 13-6; what begins with # is a remark, which is not read.
local book = require "netsection.workbook.book"
local columns = require "netsection.field_columns"
local lumber = require "netsection.lumber"
local packs = require "netsection.packs"
local quantity = require "netsection.quantity"
local spelling = require "netsection.locale.spelling"
local survey = require "netsection.field_book"

local template = {}

local HEAD = {bold = true, fill = "head", border = "all", wrap = true, text = true}
local HINT = {italic = true, size = 8, fill = "pale", border = "all", wrap = true,
  text = true}
local EXAMPLE = {italic = true, fill = "pale", border = "all", text = true}
local ENTRY = {border = "all", text = true}
local TITLE, WRAP = {bold = true, size = 14}, {wrap = true}

-- Rows to fill in, and the row of the first of them: under headings, hints, examples.
local ROWS, FIRST = 60, 5

-- What to enter in a column of a kind.
local HINTS = {lengths = "lengths, with ; between them",
  load = "with its unit", number = "a number", count = "a count",
  flag = "yes or no", groups = "number @ place; number @ place", limit = "L/360, or off"}

--------------------------------------------------------------------------------- lists

local function words_of(shown)
  local list = {}
  for word in shown:gsub("%b()", ""):gmatch "[^,;]+" do
    list[#list + 1] = word:gsub("^%s+", ""):gsub("%s+$", "")
  end
  return list
end

local function all_grades()
  local list, seen = {}, {}
  for _, species in ipairs(lumber.species()) do
    for _, grade in ipairs(lumber.grades(species)) do
      if not seen[grade] then list[#list + 1] = grade end
      seen[grade] = true
    end
  end
  return list
end

-- What a column offers, and whether other entries are taken too; nil for none.
local function offered(column, blank)
  if column.name == "species" then return lumber.species(), true end
  if column.name == "grade" then return all_grades(), true end
  if column.name == "size" then
    return {table.unpack(blank.sizes)}, true
  end
  if column.kind == "flag" then return {"yes", "no"} end
  if (column.kind == "word" or column.kind == "kind") and column.shown then
    return words_of(column.shown)
  end
end

-- Lists stand in columns of a sheet of their own; equal ones once.
local function listed(self, list)
  local key = table.concat(list, "\n")
  if not self.at[key] then
    self.column = self.column + 1
    for i, word in ipairs(list) do
      self.lists[#self.lists + 1] = {i, self.column, word}
    end
    self.at[key] = {column = self.column, top = 1, bottom = #list}
  end
  return self.at[key]
end

--------------------------------------------------------------------------------- sheets

local function hint_of(column, blank, say)
  local hint = blank.hints[column.kind] or HINTS[column.kind]
  local own = column.says and survey.written(blank, column.says)
  local says = say(own or column.shown or hint or "")
  if column.kind ~= "text" and own and hint then says = says .. "; " .. hint end
  return says
end

local function choose(self, s, column, i)
  local list, open = offered(column, self.blank)
  local marks = self.joists and (column.name == "joist" or column.name == "joists")
  local from
  if marks then
    from, open = {sheet = self.joists, column = 1, top = FIRST,
      bottom = FIRST + ROWS - 1},
      true
  elseif list then
    from = listed(self, list)
    from.sheet = self.sheet
  end
  s:choose {top = FIRST, left = i, bottom = FIRST + ROWS - 1, right = i, from = from,
    open = open, title = survey.heading(column),
    prompt = hint_of(column, self.blank, self.say)}
end

local function width_of(column, blank)
  if column.name == "note" then return 30 end
  local list = offered(column, blank) or {}
  local width = math.max(8, #survey.heading(column) + 2)
  for _, word in ipairs(list) do width = math.max(width, #word + 2) end
  return math.min(width, 20)
end

local function form(self, kind)
  local list, rare = survey.sorted(columns[kind])
  local widths = {}
  for i, column in ipairs(list) do widths[i] = width_of(column, self.blank) end
  widths[1] = 16
  local s = self.book:sheet {name = kind, columns = widths, landscape = true, frozen = 2,
    repeated = {1, 2}}
  for i, column in ipairs(list) do
    local hint = hint_of(column, self.blank, self.say)
    s:put(1, i, survey.heading(column), HEAD)
    s:put(2, i, i == 1 and "# " .. hint or hint, HINT)
    for n = 1, 2 do
      local eg = survey.written(self.blank, column.eg and column.eg[n] or "")
      s:put(2 + n, i, i == 1 and survey.mark .. eg or eg, EXAMPLE)
    end
    for row = FIRST, FIRST + ROWS - 1 do s:put(row, i, nil, ENTRY) end
    choose(self, s, column, i)
  end
  if #rare > 0 then self.rare[#self.rare + 1] = kind .. ": " .. table.concat(rare,
    ", ") end
  return s
end

local SETTING_LISTS = {rules = function() return packs.names "rules" end,
  standard = function() return packs.names "standards" end,
  paper = function() return {"letter", "a4"} end}

local function visit(self)
  local s = self.book:sheet {name = "survey", columns = {24, 60}, repeated = {1, 1}}
  for row, pair in ipairs(survey.settings(self.blank)) do
    s:put(row, 1, pair[1], row == 1 and HEAD or ENTRY)
    s:put(row, 2, pair[2], row == 1 and HEAD or ENTRY)
    local list = SETTING_LISTS[pair[1]]
    if list then
      local from = listed(self, list())
      from.sheet = self.sheet
      s:choose {top = row, left = 2, bottom = row, right = 2, from = from, open = false,
        title = pair[1], prompt = "choose from the list"}
    end
  end
end

local ABOUT = {
  "One row is one joist, from left to right, or one cut, load, obstruction or repair. A "
    .. "joist with the mark 'all' says what the others share; a blank cell takes it. "
    .. "Other sheets name a mark, a list (J3, J4), a run (J3 to J6) or 'all'.",
  "", -- the units of the book
  "Rows that begin with # are remarks and examples; they are not read. Columns of your "
    .. "own are left aside. Formulas count by their value. Sheets not needed stay empty.",
  "Not a sealed design. What was not seen is not covered: list it on the sheet survey "
    .. "under 'not seen', a row for each part.",
}

local function about(s, rare, blank, say)
  s:put(1, 1, "Field book", TITLE)
  local row = 2
  for _, said in ipairs(ABOUT) do
    s:put(row, 1, say(said ~= "" and said or blank.about), WRAP)
    row = row + 1
  end
  s:put(row + 1, 1, "Further headings that are read:", {bold = true})
  for i, said in ipairs(rare) do s:put(row + 1 + i, 1, said, WRAP) end
end

--- A blank field book. @param options {paper = "letter" | "a4", units = "us" | "metric",
--   lang = "en-US" | "en-GB" | "en-CA" of what explains}
-- @return a book, or nil and a message
function template.of(options)
  local blank, problem = survey.blank(options.units)
  problem = problem or spelling.problem(options.lang)
  if problem then return nil, problem end
  local b = book.new {title = "Field book", paper = options.paper
    or quantity.system(options.units).paper_size}
  local self = {book = b, blank = blank, at = {}, lists = {}, column = 0, rare = {},
    say = spelling.of(options.lang) or tostring}
  local first = b:sheet {name = "Read me", columns = {90}}
  -- Made first, since rules name it; it comes last in the book.
  self.sheet = b:sheet {name = "lists"}
  table.remove(b.sheets)
  visit(self)
  for _, kind in ipairs(columns.files) do
    local s = form(self, kind)
    if kind == "joists" then self.joists = s end
  end
  for _, word in ipairs(self.lists) do self.sheet:put(word[1], word[2], word[3]) end
  self.sheet.hidden = true
  b.sheets[#b.sheets + 1] = self.sheet
  about(first, self.rare, blank, self.say)
  return b
end

return template
