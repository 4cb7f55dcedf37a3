-- SPDX-License-Identifier: MIT
-- Lumber on file: dressed sizes and reference design values, found by their trade names.
-- The numbers are data with their sources (lumber.lua in the folder of a standard, sizes
-- in netsection/data/lumber); what is here is how a size, a species, a grade and a width
-- find their row.
--
--   lumber.size(text)           -> {nominal, b, d, nominal_b, nominal_d, full_sawn}
--   lumber.design_values{...}   -> base values, size factors, source, confidence
--   lumber.sizes() .editions() .species(edition) .grades(species, edition)  -> lists
--
-- What is not on file gives nil and a message that says what is; misuse raises.

local distance = require "netsection.distance"
local historic = require "netsection.historic"
local lumber_table = require "netsection.lumber_table"
local ordered = require "netsection.point".pairs
local point = require "netsection.point"
local standards = require "netsection.standards"
local units = require "netsection.units"
local copied = require "netsection.parts".copied
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local SIZES = "netsection.data.lumber.sizes"
local EDITIONS = standards.with "lumber"
local DEFAULT_EDITION = standards.default.lumber
local VALUES = {"Fb", "Ft", "Fv", "Fc_perp", "Fc", "E", "Emin", "G"}

-- best grade first, as the tables print them
local GRADE_ORDER = {"SS", "No.1&Btr", "No.1", "No.1/No.2", "No.2", "No.3", "Stud"}

-- in the order of trust: a result is as good as the weakest value in it
local TRUST = {read = 1, computed = 2, memory = 3}

-- The weaker of two grades of confidence.
local function weakest(a, b)
  return TRUST[b] > TRUST[a] and b or a
end

---------------------------------------------------------------------------- data files

local loaded = {}

-- A data file is text, runs in an empty environment and is read once; the search path
-- finds it from any working folder.
local function data(name)
  if not loaded[name] then
    local path = assert(package.searchpath(name, package.path))
    loaded[name] = assert(loadfile(path, "t", {}))()
  end
  return loaded[name]
end

-- A table of the same fields, one level deep.
local function copy(t)
  local new = {}
  for k, v in pairs(t) do
    new[k] = v
  end
  return new
end

-- The record that an overlay makes of a base record, which may be absent. Source keys
-- have become texts by then, so that a mixed record names both documents.
local function overlaid(base, over)
  if not base then
    return over
  end
  local new, changed = copy(base), {}
  for _, field in ipairs(VALUES) do
    if over[field] then
      new[field] = over[field]
      changed[#changed + 1] = field
    end
  end
  new.source = ("%s; %s %s"):format(base.source, table.concat(changed, ", "), over.source)
  new.confidence = weakest(base.confidence, over.confidence)
  return new
end

-- A file of values in psi, each record with the text of its source.
local function with_source_texts(file)
  local psi = file.unit and units.per[file.unit] or 1
  -- A record in psi with its source in words.
  local function named(record)
    local new = copy(record)
    for _, field in ipairs(VALUES) do
      new[field] = new[field] and (field == "G" and 1 or psi) * new[field]
    end
    if record.by_size then
      new.by_size = {}
      for size, r in pairs(record.by_size) do
        new.by_size[size] = named(r)
      end
    else
      new.source = file.sources[record.source]
    end
    return new
  end
  local all = {}
  for name, species in pairs(file.species) do
    local new = copy(species)
    new.grades = {}
    for grade, record in pairs(species.grades) do
      new.grades[grade] = named(record)
    end
    all[name] = new
  end
  return all
end

-- A species over that of the base edition, grade by grade.
local function overlay_species(base, over)
  local new = copy(base)
  new.grades = over.replaces and {} or copy(base.grades)
  for grade, record in pairs(over.grades) do
    new.grades[grade] = overlaid(new.grades[grade], record)
  end
  return new
end

-- Groups of size factors of a file, each with the text of its source.
local function size_factors(file)
  local all = {}
  for i, group in ipairs(file.size_factors) do
    all[i] = copy(group)
    all[i].rows = {}
    for j, row in ipairs(group.rows) do
      all[i].rows[j] = copy(row)
      all[i].rows[j].source = file.sources[row.source]
    end
  end
  return all
end

-- Tables of the user's own, by edition.
local added = {}

local editions = {}

-- An edition with what it takes from its base, made once.
local function edition_table(name)
  if not editions[name] then
    local file = added[name] or data(("netsection.standards.%s.lumber"):format(name))
    local own = with_source_texts(file)
    local new = {name = name, species = own, family = file.family or "nds",
      metric = file.unit == "MPa", absent = {}}
    for _, field in ipairs(file.absent or {}) do new.absent[field] = true end
    if file.base then
      local base = edition_table(file.base)
      new.species = copy(base.species)
      for species, over in pairs(own) do
        new.species[species] = overlay_species(base.species[species], over)
      end
      new.size_factors = base.size_factors
      new.thickness_max = base.thickness_max
    else
      new.size_factors = size_factors(file)
      new.thickness_max = file.thickness_max
    end
    editions[name] = new
  end
  return editions[name]
end

--------------------------------------------------------------------------------- names

-- Names in a list of a message.
local function listed(list)
  return table.concat(list, ", ")
end

-- Names of the species of an edition, sorted.
local function species_list(edition)
  local list = {}
  for name in pairs(edition.species) do
    list[#list + 1] = name
  end
  table.sort(list, point.less)
  return list
end

-- Grades of a species in the order of the trade.
local function grade_list(species)
  local list = {}
  for _, grade in ipairs(GRADE_ORDER) do
    if species.grades[grade] then
      list[#list + 1] = grade
    end
  end
  return list
end

-- letters and digits only, small: "DF-L" and "dfl", "Hem Fir" and "Hem-Fir" are one
local function plain(text)
  return (text:lower():gsub("[^%w]", ""))
end

-- the same for a grade, whose shorthand the trade writes in many ways
local function plain_grade(text)
  local s = text:lower()
  s = s:gsub("#", "no"):gsub("number", "no"):gsub("and%s+better", "btr")
  s = s:gsub("&%s*better", "btr"):gsub("select%s*structural", "ss")
  s = s:gsub("sel%.?%s*str%a*", "ss"):gsub("[^%w]", "")
  -- "No.1-2" and "No.1/2" for the two grades that are graded as one
  return (s:gsub("^no12$", "no1no2"))
end

-- the names that `text` may have been meant for: a part of it, or a third misspelt
local function near(text, names, norm)
  local wanted, list = norm(text), {}
  if wanted == "" then
    return list
  end
  for _, name in ipairs(names) do
    local n = norm(name)
    local part = n:find(wanted, 1, true) or wanted:find(n, 1, true)
    if part or 3 * distance(wanted, n) <= #n then
      list[#list + 1] = name
    end
  end
  return list
end

-- nil and a message with names that are near to what was asked.
local function not_on_file(what, text, where, names, norm)
  local hints = near(text, names, norm)
  local hint = #hints > 0 and " near: " .. listed(hints) .. ";" or ""
  return nil, ('%s "%s" is not on file%s;%s on file: %s'):format(what, text, where, hint,
    listed(names))
end

-- An edition by its name, in any case; nil and a message where there is none.
local function find_edition(name)
  name = name or DEFAULT_EDITION
  for _, known in ipairs(EDITIONS) do
    if known == name:lower() then
      return edition_table(known)
    end
  end
  return not_on_file("edition", name, "", EDITIONS, plain)
end

-- A species by its name, in any case; nil and a message.
local function find_species(edition, text)
  local wanted = plain(text)
  for name, species in pairs(edition.species) do
    if plain(name) == wanted then
      return species, name
    end
    for _, alias in ipairs(species.aliases) do
      if plain(alias) == wanted then
        return species, name
      end
    end
  end
  return not_on_file("species", text, " for " .. edition.name, species_list(edition),
    plain)
end

-- A grade by its name, however it is spelled; nil and a message.
local function find_grade(edition, species, species_name, text)
  local wanted = plain_grade(text)
  for grade in pairs(species.grades) do
    if plain_grade(grade) == wanted then
      return species.grades[grade], grade
    end
  end
  local joined = species.grades["No.1/No.2"]
  if joined and (wanted == "no1" or wanted == "no2") then
    return joined, "No.1/No.2"
  end
  return not_on_file("grade", text, (" for %s in %s"):format(species_name, edition.name),
    grade_list(species), plain_grade)
end

--------------------------------------------------------------------------------- sizes

-- Trade sizes on file, in order.
local function size_names()
  local list = {}
  for i, size in ipairs(data(SIZES).sizes) do
    list[i] = size.nominal
  end
  return list
end

-- A size as it was sawn, by its set: "green rough 2x10"; nil for other texts.
local function sawn_size(text)
  local s = text:gsub("\u{D7}", "x"):lower()
  local set, b, d = s:match "^%s*(%a+%s+%a+)%s+(%d+)%s*x%s*(%d+)%s*$"
  local mm = set and data(SIZES).sets[(set:gsub("%s+", " "))]
  b, d = mm and mm[tonumber(b)], mm and mm[tonumber(d)]
  if not (b and d) then return nil end
  return {nominal = (s:gsub("^%s+", ""):gsub("%s+$", "")), b = b / 25.4, d = d / 25.4}
end

-- "2x10", "2 X 10" or with the multiplication sign; "full-sawn" may stand before it
local function parse_size(text)
  local s = text:gsub("\u{D7}", "x"):gsub("\u{A0}", " "):lower()
  s = s:gsub("^%s+", ""):gsub("%s+$", "")
  local full = s:match("^full[%s%-]*sawn%s*(.*)$")
  local b, d = (full or s):match("^(%d+%.?%d*)%s*x%s*(%d+%.?%d*)$")
  return tonumber(b), tonumber(d), full ~= nil
end

-- From here on the first number of a size is mm: "38x235", "47x220". Trade sizes in
-- inches begin with 1 to 12.
local LEAST_MM = 16
local MM = 5 / 127

-- A size in mm. One that is a dressed size but for less than a millimeter goes by the
-- tables of that size (38x235 is 2x10); any other by its width, as if it was measured.
local function metric_size(b, d)
  local made = {nominal = point.format("%gx%g", b, d), b = b * MM, d = d * MM}
  for _, known in ipairs(data(SIZES).sizes) do
    if math.abs(known.b - made.b) < MM and math.abs(known.d - made.d) < MM then
      made.nominal_b, made.nominal_d = known.nominal_b, known.nominal_d
    end
  end
  return made
end

-- A trade size: {b, d, nominal widths}; nil and a message for another.
local function size(text)
  if type(text) ~= "string" then
    error(("lumber.size takes text such as \"2x10\", got %s"):format(type(text)), 2)
  end
  local sawn = sawn_size(text)
  if sawn then return sawn end
  local b, d, full = parse_size(text)
  if b and full and b > 0 and d > 0 then
    -- full-sawn lumber is as large as its name says
    return {nominal = point.format("%gx%g", b, d), b = b, d = d, nominal_b = b,
      nominal_d = d, full_sawn = true}
  end
  for _, known in ipairs(data(SIZES).sizes) do
    if not full and known.nominal_b == b and known.nominal_d == d then
      return copy(known)
    end
  end
  if b and not full and b >= LEAST_MM and d >= b then return metric_size(b, d) end
  return nil, ('size "%s" is not on file; on file: %s, "full-sawn 2x8", '
    .. '"green rough 2x8" and the like, "38x235" in mm; any other section by b and '
    .. 'd'):format(text, listed(size_names()))
end

-- Nominal width that the tables go by. A depth that is no dressed depth (full-sawn, worn,
-- ripped) counts as it is, and so goes to the next class up, which has the lower factor.
local function nominal_width(d)
  for dressed, nominal in pairs(data(SIZES).width) do
    if math.abs(d - dressed) < 1e-6 then
      return nominal
    end
  end
  return d
end

------------------------------------------------------------------------- design values

-- The row of size factors for a grade and a width.
local function factor_row(edition, species, grade, width)
  for _, group in ipairs(edition.size_factors) do
    local holds = group.grades == nil
    for _, g in ipairs(group.grades or {}) do
      holds = holds or g == grade
    end
    if group.table == species.table and holds then
      for _, row in ipairs(group.rows) do
        if not row.to or width <= row.to then
          return row
        end
      end
    end
  end
end

-- the record of the width class: classes 4, 6, 8, 10 and 12, the last one open
local function sized_record(record, width)
  if not record.by_size then
    return record
  end
  for _, class in ipairs {4, 6, 8, 10, 12} do
    if width <= class or class == 12 then
      local name = ("2x%d"):format(class)
      return record.by_size[name], name
    end
  end
end

-- Sizes for which a record of a whole size class has values.
local function sizes_on_file(record)
  local list = {}
  for _, class in ipairs {4, 6, 8, 10, 12} do
    local name = ("2x%d"):format(class)
    if record.by_size[name] then
      list[#list + 1] = name
    end
  end
  return listed(list)
end

local ARGUMENTS = {species = "string", grade = "string", b = "number", d = "number",
  nominal_d = "number", edition = "string", partial = "boolean"}

-- Refuses what is no table of the fields, at the caller's line.
local function check_arguments(a)
  if type(a) ~= "table" then
    error("lumber.design_values takes a table {species=, grade=, b=, d=}", 3)
  end
  for k, v in ordered(a) do
    local kind = ARGUMENTS[k]
    if not kind then
      error(("lumber.design_values has no field %s"):format(tostring(k)), 3)
    end
    if type(v) ~= kind or kind == "number" and not (v > 0 and v < math.huge) then
      error(("lumber.design_values: %s must be a %s, got %s"):format(k,
        kind == "number" and "positive number" or kind, tostring(v)), 3)
    end
  end
  for _, k in ipairs {"species", "grade", "b"} do
    if a[k] == nil then
      error(("lumber.design_values: %s is missing"):format(k), 3)
    end
  end
  if not (a.d or a.nominal_d) then
    error("lumber.design_values: d or nominal_d is missing", 3)
  end
end

-- Fills r with the size factors and how far to trust them; notes go to the reader.
local function add_factors(r, row, b)
  local four = b >= 3.5
  r.CF, r.CF_t, r.CF_c = four and row.Fb_4x or not four and row.Fb or nil, row.Ft, row.Fc
  r.CF_source = row.source
  r.CF_confidence = row.confidence
  if four and row.confidence_4x then
    r.CF_confidence = weakest(row.confidence, row.confidence_4x)
  end
  r.confidence = weakest(r.confidence, r.CF_confidence)
  if r.CF_confidence == "memory" then
    r.notes[#r.notes + 1] = ("size factor from memory (%s)"):format(row.source)
  end
end

-- design_values{species=, grade=, b=, d= and/or nominal_d=, edition=, partial=}
--
-- Base values in psi: Fb Ft Fv Fc_perp Fc E Emin, and G; size factors CF (for Fb), CF_t
-- (Ft), CF_c (Fc); species and grade as the table spells them; edition, source and
-- confidence (the weakest of the values and the factors), CF_source, CF_confidence, and
-- notes, a list of what the reader should be told. b is the thickness of one ply; with
-- nominal_d the width class is that one, without it the class of d.
-- When the edition lacks some of the values the answer is nil and a message; with
-- partial = true it is what there is, and `missing` lists the others.
local function design_values(a)
  check_arguments(a)
  local edition, species, species_name, record, grade, why
  edition, why = find_edition(a.edition)
  if not edition then
    return nil, why
  end
  species, species_name = find_species(edition, a.species)
  if not species then
    return nil, species_name
  end
  record, grade = find_grade(edition, species, species_name, a.grade)
  if not record then
    return nil, grade
  end
  if a.b > edition.thickness_max then
    return nil, edition.metric and point.format("%.0f mm thick is outside Table %s "
      .. "(lumber up to %.0f mm thick)", a.b / MM, species.table,
      edition.thickness_max / MM)
      or point.format("%g in thick is outside Table %s (lumber 2 to %s in thick)",
      a.b, species.table, edition.thickness_max)
  end

  local width = a.nominal_d or nominal_width(a.d)
  local notes = {}
  local row = factor_row(edition, species, grade, width)
  if row and row.as then
    -- a rule of the table, itself from memory: it is named and marked
    notes[1] = ("%s this wide takes the values and size factors of %s (%s)"):format(grade,
      row.as, row.confidence)
    record = species.grades[row.as]
    local rule = row.confidence
    row = copy(factor_row(edition, species, row.as, width))
    row.confidence = weakest(row.confidence, rule)
  end

  local values, size_class = sized_record(record, width)
  local name = ("%s %s%s"):format(species_name, grade,
    size_class and " " .. size_class or "")
  if not values then
    return nil, ("%s is not on file for %s; on file: %s"):format(name, edition.name,
      sizes_on_file(record))
  end
  local r = {species = species_name, grade = grade, edition = edition.name,
    family = edition.family,
    source = values.source, confidence = values.confidence, notes = notes}
  local missing, known = {}, {}
  for _, field in ipairs(VALUES) do
    r[field] = values[field]
    local list = values[field] and known or missing
    if not edition.absent[field] then list[#list + 1] = field end
  end
  if #missing > 0 then
    if not a.partial then
      return nil, ("%s: %s not on file for %s; on file: %s"):format(name,
        listed(missing), edition.name, listed(known))
    end
    r.missing = missing
  end
  if r.confidence ~= "read" then
    notes[#notes + 1] = ("design values: %s (%s)"):format(r.confidence, r.source)
  end
  if row then
    add_factors(r, row, a.b)
  end
  if not r.CF then
    return nil, ("%s: no size factor on file for this size"):format(name)
  end
  return r
end

------------------------------------------------------------------------------ the module

-- Names of the editions of design values.
local function editions_on_file()
  return copy(EDITIONS)
end

-- The family of formulas that takes the values of an edition; "nds" where none is named
-- or on file.
local function family_of(edition_name)
  local edition = type(edition_name) == "string" and find_edition(edition_name)
  return edition and edition.family or "nds"
end

-- Names of the species of an edition.
local function species_on_file(edition_name)
  local edition, why = find_edition(edition_name)
  if not edition then
    return nil, why
  end
  return species_list(edition)
end

-- Grades of a species in an edition.
local function grades_on_file(species_text, edition_name)
  local edition, why = find_edition(edition_name)
  if not edition then
    return nil, why
  end
  local species, name = find_species(edition, species_text)
  if not species then
    return nil, name
  end
  return grade_list(species)
end

-- Whether a name is that of an edition.
local function known(name)
  for _, edition in ipairs(EDITIONS) do
    if edition == name then return true end
  end
  return false
end

-- What is wrong with a lumber table: a list of {code, path, text}.
local function problems(t)
  local read, why = lumber_table.read(t)
  if not read then return {{code = "PACK-NOT-FOUND", path = "file",
    text = why or "a table expected"}} end
  return (lumber_table.problems(read, known))
end

-- add(t): puts a table of one's own, or {file = path}, among the editions and gives its
-- name; raises with all that is wrong.
local function add(t)
  local read, why = lumber_table.read(t)
  if not read then error("lumber: " .. (why or "a table expected"), 2) end
  local found, lines = lumber_table.problems(read, known), {}
  for i, problem in ipairs(found) do lines[i] = problem.text end
  if #found > 0 then error(table.concat(lines, "\n"), 2) end
  added[read.edition] = copied(read)
  EDITIONS[#EDITIONS + 1] = read.edition
  return read.edition
end

-- forget(name): takes a table of one's own away again, and gives its name.
local function forget(name)
  if not added[name] then
    error(("lumber: '%s' is no table of one's own"):format(tostring(name)), 2)
  end
  added[name], editions[name] = nil, nil
  for i, edition in ipairs(EDITIONS) do
    if edition == name then table.remove(EDITIONS, i) end
  end
  return name
end

-- A public function whose arguments are texts, the last of which may be left out.
local function of_texts(name, least, f)
  return function(...)
    local most = least + 1
    for i = 1, most do
      local value = (select(i, ...))
      if type(value) ~= "string" and not (i > least and value == nil) then
        error(("lumber.%s: %s expected, got %s"):format(name, i > least
          and "the name of an edition" or "a name", type(value)), 2)
      end
    end
    return f(...)
  end
end

local function nominal(d)
  if type(d) ~= "number" then
    error("lumber.nominal_width: a number of inches expected, got " .. type(d), 2)
  end
  return nominal_width(d)
end

return {
  add = add,
  forget = forget,
  problems = problems,
  size = size,
  nominal_width = nominal,
  design_values = design_values,
  sizes = size_names,
  editions = editions_on_file,
  family = of_texts("family", 0, family_of),
  species = of_texts("species", 0, species_on_file),
  grades = of_texts("grades", 1, grades_on_file),
  historic = historic.names,
}
