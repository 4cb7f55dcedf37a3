-- SPDX-License-Identifier: MIT
-- Reads the annotated public names (lua/types/*.lua) and writes the reference from them:
-- lua5.4 tests/reference.lua writes lua/REFERENCE.md (make reference). What is read here
-- is the part of the Lua language server's annotations that these files use, one line
-- each: class, field, alias, param, return, overload; doc lines stand above what they
-- describe, "Errors:" begins the part on errors, a fenced block is the example.
local reference = {}

-- Files in the order in which a reader meets them.
local FILES = {"netsection", "lumber", "joist", "cuts", "review", "fixes", "fasteners",
  "european", "floor", "grid", "members", "load_path", "sweep", "odds", "table", "plot",
  "report", "package", "workbook", "document", "survey", "homework", "packs", "beam",
  "units"}
reference.files = FILES
reference.path = "lua/REFERENCE.md"

local HEAD = [[
# Reference

Every public name, generated from `lua/types/` by `make reference`; do not edit. The
[manual](README.md) says how the parts go together and what the method is. An editor that
reads these annotations completes the names: give it the folder `lua/types` as a library.

Lengths are inches as numbers, or text with units; results are plain numbers in the units
named. *Raises* means a Lua error at the caller's line. In the examples these names stand
for:

]]

local function read_file(path)
  local file <close> = assert(io.open(path))
  return file:read "a"
end

local function strip(text)
  return (text:gsub("^%s+", ""):gsub("%s+$", ""))
end

-- Parts of the doc lines above a thing: what it gives, on errors, the example.
local function doc_of(lines)
  local doc = {text = {}, errors = {}}
  local into, code = doc.text, nil
  for _, line in ipairs(lines) do
    if code and line:find "^```" then
      doc.example, code = table.concat(code, "\n"), nil
    elseif code then
      code[#code + 1] = line
    elseif line:find "^```lua" then
      code = {}
    elseif strip(line) == "" then
      if #into > 0 then into[#into + 1] = "" end
      into = doc.text
    else
      if line:find "^Errors:" then into = doc.errors end
      into[#into + 1] = strip(line)
    end
  end
  local function joined(list)
    local text = strip(table.concat(list, "\n"))
    return text ~= "" and text or nil
  end
  doc.text, doc.errors = joined(doc.text), joined(doc.errors)
  return doc
end

-- "name? type rest" -> name, optional, type, rest
local function named(text)
  local name, optional, of, rest = text:match "^([%w_%.]+)(%??)%s+(%S+)%s*(.*)$"
  return name, optional == "?", of, rest
end

local Reader = {}
Reader.__index = Reader

function Reader:fail(text)
  error(("%s:%d: %s"):format(self.path, self.line, text), 0)
end

function Reader:clear()
  self.doc, self.params, self.returns, self.overload, self.class = {}, {}, {}, nil, nil
end

local tags = {}

function tags:meta() self.is_meta = true end

function tags:class(text)
  local name, above = text:match "^([%w_%.]+)%s*:?%s*(.*)$"
  if not name then self:fail "class: a name expected" end
  local parents = {}
  for parent in above:gmatch "[%w_%.]+" do parents[#parents + 1] = parent end
  self.class = {kind = "class", name = name, parents = parents, doc = doc_of(self.doc),
    fields = {}, line = self.line}
  self.entries[#self.entries + 1] = self.class
  self.doc = {}
end

function tags:field(text)
  local class = self.class or self:fail "field: no class above"
  local private = text:match "^private%s"
  if private then text = text:gsub("^private%s+", "") end
  local key, mark, of, rest = text:match "^(%b[])(%??)%s+(%S+)%s*(.*)$"
  local optional = mark == "?"
  if key then key = key:match '^%["(.*)"%]$' or key end
  if not key then
    key, optional, of, rest = named(text)
  end
  if not key then self:fail "field: a name and a type expected" end
  local above = strip(table.concat(self.doc, " "))
  -- a sentence above, and behind the name what it is short
  if above ~= "" and rest:find "^%l" and above:find "%.$" then
    rest = rest:gsub("^%l", string.upper)
  end
  local said = strip(above .. " " .. rest)
  class.fields[#class.fields + 1] = {name = key, optional = optional, type = of,
    text = said, private = private ~= nil, line = self.line}
  self.doc = {}
end

function tags:alias(text)
  local name, of = text:match "^(%S+)%s+(.+)$"
  if not name then self:fail "alias: a name and a type expected" end
  self.entries[#self.entries + 1] = {kind = "alias", name = name, type = of,
    doc = doc_of(self.doc), line = self.line}
  self.doc = {}
end

function tags:param(text)
  local name, optional, of, rest = named(text)
  if not name then self:fail "param: a name and a type expected" end
  self.params[#self.params + 1] = {name = name, optional = optional, type = of,
    text = rest}
end

tags["return"] = function(self, text)
  local of, name, rest = text:match "^(%S+)%s+([%w_]+)%s*#%s*(.*)$"
  if not of then self:fail "return: type, name, # and what it is expected" end
  self.returns[#self.returns + 1] = {name = name, type = of, text = rest}
end

function tags:overload(text)
  local params, of = text:match "^fun%((.-)%):%s*(%S+)$"
  if not params then self:fail "overload: fun(...): type expected" end
  self.class.call = {kind = "function", params = {}, returns = {{name = "made",
    type = of, text = ""}}, doc = self.class.doc, line = self.line}
  for name, optional, t in params:gmatch "([%w_]+)(%??):%s*([^,%s]+)" do
    table.insert(self.class.call.params, {name = name, optional = optional == "?",
      type = t, text = ""})
  end
end

-- A line of Lua: a function, a table for methods, or where that table stands.
function Reader:statement(line)
  local name, list = line:match "^function ([%w_%.:]+)%((.-)%) end$"
  if name then
    local root, rest = name:match "^([%w_]+)(.*)$"
    local shown = (self.prefix[root] or root) .. rest
    local entry = {kind = "function", name = shown, doc = doc_of(self.doc),
      params = self.params, returns = self.returns, line = self.line,
      of = self.class_of[root]}
    local i = 0
    for param in list:gmatch "[%w_%.]+" do
      i = i + 1
      if not self.params[i] or self.params[i].name ~= param then
        self:fail(("%s: @param %s expected"):format(shown, param))
      end
    end
    if #self.params ~= i then self:fail(shown .. ": more @param than parameters") end
    self.entries[#self.entries + 1] = entry
    return
  end
  local own = line:match "^local ([%w_]+) = {}$"
  if own then
    self.class_of[own] = self.class and self.class.name
    self.class_by_local[own] = self.class
    return
  end
  local place, of = line:match "^(ns%.[%w_%.]+) = ([%w_]+)$"
  if place then
    self.prefix[of] = place
    local class = self.class_by_local[of]
    if class then
      class.place = place
      if class.call then class.call.name = place end
    end
    return
  end
  if not line:find "^return " then self:fail("cannot be read: " .. line) end
end

-- A file of annotations: {name, title, intro, entries}.
function reference.read(name)
  local path = "lua/types/" .. name .. ".lua"
  local self = setmetatable({path = path, line = 0, entries = {}, prefix = {},
    class_of = {}, class_by_local = {}}, Reader)
  self:clear()
  local head = {}
  for line in (read_file(path) .. "\n"):gmatch "(.-)\n" do
    self.line = self.line + 1
    local tag, text = line:match "^%-%-%-@([%a_]+)%s*(.*)$"
    if tag then
      if not tags[tag] then self:fail("unknown annotation @" .. tag) end
      tags[tag](self, strip(text))
    elseif line:find "^%-%-%-" then
      self.doc[#self.doc + 1] = line:sub(4)
    elseif line:find "^%-%- " then
      if #self.entries == 0 then head[#head + 1] = line:sub(4) end
    elseif line == "" then
      self:clear()
    else
      self:statement(line)
      self:clear()
    end
  end
  if not self.is_meta then self:fail "---@meta expected" end
  if head[1] and head[1]:find "^SPDX" then table.remove(head, 1) end
  local said = table.concat(head, "\n")
  local title, intro = said:match "^(.-):%s*(.*)$"
  if not title then self:fail "a comment 'Title: what is in it' expected" end
  intro = intro:gsub("^%l", string.upper)
  return {name = name, title = title, intro = intro, entries = self.entries, path = path}
end

function reference.all()
  local all = {}
  for i, name in ipairs(FILES) do all[i] = reference.read(name) end
  return all
end

-- The code whose names the examples use.
function reference.prelude(all)
  for _, entry in ipairs(all[1].entries) do
    if entry.name == "netsection" then return entry.doc.example end
  end
end

-- -- writing ----

local function cell(text)
  return (text:gsub("|", "\\|"))
end

-- A type as a reader sees it.
local function type_text(of, optional)
  of = of:gsub("netsection%.([%w_]+)", "%1")
  return "`" .. of .. (optional and "?" or "") .. "`"
end

local function signature(f)
  local list = {}
  for i, param in ipairs(f.params) do
    list[i] = param.optional and "[" .. param.name .. "]" or param.name
  end
  return ("%s(%s)"):format(f.name, table.concat(list, ", "))
end

local function write_function(out, f)
  out[#out + 1] = ("\n### `%s`\n"):format(signature(f))
  out[#out + 1] = f.doc.text or ""
  out[#out + 1] = ""
  for _, param in ipairs(f.params) do
    out[#out + 1] = ("- `%s` %s%s"):format(param.name, type_text(param.type,
      param.optional), param.text ~= "" and ": " .. param.text or "")
  end
  for _, r in ipairs(f.returns) do
    out[#out + 1] = ("- returns %s %s%s"):format(r.name, type_text(r.type),
      r.text ~= "" and ": " .. r.text or "")
  end
  if #f.params + #f.returns > 0 then out[#out + 1] = "" end
  if f.doc.errors then out[#out + 1] = f.doc.errors .. "\n" end
  if f.doc.example then out[#out + 1] = "```lua\n" .. f.doc.example .. "\n```" end
end

local function write_class(out, class)
  local shown = {}
  for _, field in ipairs(class.fields) do
    if not field.private then shown[#shown + 1] = field end
  end
  if #shown == 0 then return end
  out[#out + 1] = ("\n### %s\n"):format((class.name:gsub("^netsection%.", "")))
  if class.doc.text and not class.call then out[#out + 1] = class.doc.text .. "\n" end
  if class.parents[1] then
    out[#out + 1] = ("Besides those of %s:\n"):format((table.concat(class.parents,
      " and "):gsub("netsection%.", "")))
  end
  out[#out + 1] = "| field | type | |\n|---|---|---|"
  for _, field in ipairs(shown) do
    out[#out + 1] = ("| `%s` | %s | %s |"):format(field.name,
      cell(type_text(field.type, field.optional)), cell(field.text))
  end
end

local function write_entry(out, entry)
  if entry.kind == "function" then
    write_function(out, entry)
  elseif entry.kind == "alias" then
    out[#out + 1] = ("\n### %s\n"):format((entry.name:gsub("^netsection%.", "")))
    out[#out + 1] = type_text(entry.type) .. ": " .. entry.doc.text
  elseif entry.name ~= "netsection" or #entry.fields > 0 then
    if entry.call then write_function(out, entry.call) end
    write_class(out, entry)
  end
end

local function anchor(title)
  return (title:lower():gsub("[^%w%- ]", ""):gsub(" ", "-"))
end

-- The whole reference as Markdown.
function reference.text(all)
  all = all or reference.all()
  local out = {HEAD .. "```lua\n" .. reference.prelude(all) .. "\n```\n"}
  for _, file in ipairs(all) do
    out[#out + 1] = ("- [%s](#%s)"):format(file.title, anchor(file.title))
  end
  for _, file in ipairs(all) do
    out[#out + 1] = ("\n## %s\n\n%s"):format(file.title, file.intro)
    for _, entry in ipairs(file.entries) do write_entry(out, entry) end
  end
  local text = table.concat(out, "\n"):gsub("\n\n\n+", "\n\n")
  return (text:gsub("%s+$", "")) .. "\n"
end

if arg and arg[0] and arg[0]:find "reference%.lua$" then
  local file <close> = assert(io.open(reference.path, "w"))
  assert(file:write(reference.text()))
end

return reference
