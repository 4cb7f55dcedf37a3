-- SPDX-License-Identifier: MIT
-- A beam, a post or a footing on paper: its checks as a table, what governs line by line,
-- notes, and what was not checked. Every number shown carries its name in the JSON.
local checks = require "netsection.calculation.checks"
local core = require "netsection.core"
local document = require "netsection.document"
local numbers = require "netsection.numbers"
local parts = require "netsection.parts"
local quantity = require "netsection.quantity"
local text = require "netsection.text"
local error = require "netsection.raise".error
local plain = require "netsection.document.escape".text

local report = {}

local STEPS = {all = true, governing = true, none = true}

-- Options {steps =, paper =}; raises at the caller's line.
function report.options(what, options, names, level)
  options = options or {}
  parts.only(what, options, names, level + 1)
  if options.steps ~= nil and not STEPS[options.steps] then
    error(what .. ': steps is "governing", "all" or "none"', level + 1)
  end
  return options
end

-- What the writers of checks ask for: a document, the state, its numbers by name.
function report.context(d, a, tree, name)
  return {d = d, r = {[name] = a, show = quantity.of(a)}, tree = {[name] = tree},
    name = "members",
    cell = function(path, shown)
      return {text = shown, data = "members." .. path}
    end}
end

local function verdict_of(a)
  return ("%s%s%s"):format(a.status, a.ratio and ", largest ratio "
    .. text.ratio(a.ratio) or "", a.governing and " (" .. a.governing .. ")" or "")
end
report.verdict = verdict_of

--- Adds a state to a document.
-- @param name of its numbers in the tree; @param which steps
function report.add(d, a, tree, name, which, level)
  d:heading(level, ("%s%s"):format(a.mark and a.mark .. ": " or "", a.title))
  d:paragraph {{strong = verdict_of(a)}, a.reason and ": " .. a.reason or ""}
  if #a.checks > 0 then
    local ctx = report.context(d, a, tree, name)
    checks.table(ctx, name, "Checks")
    checks.steps(ctx, name, function(k)
      return which == "all" or which ~= "none" and k == a.governing_check
    end)
  end
  if #a.notes > 0 and not a.reason then d:list(a.notes) end
end

--- Adds what was not checked of several states.
function report.not_checked(d, states)
  local said, list = {}, {}
  for _, a in ipairs(states) do
    for _, what in ipairs(a.not_checked) do
      if not said[what] then list[#list + 1], said[what] = what, true end
    end
  end
  if #list == 0 then return end
  d:heading(3, "What below was not checked")
  d:list(list)
end

--- The states that belong to one, itself first: a beam's posts, a post's plates and
-- footing.
function report.states(a)
  local list = {a}
  local function add(s)
    if not s then return end
    if s ~= a then list[#list + 1] = s end
    list[#list + 1] = s.head
    list[#list + 1] = s.sole
  end
  add(a)
  for _, s in ipairs(a.posts or {}) do
    add(s.state)
    list[#list + 1] = s.under
  end
  list[#list + 1] = a.under
  return list
end

local NAMES = {beam_line = "beam", post = "post", footing = "footing",
  plate = "plate", wall = "wall"}

--- States by names of their own: beam, post, footing, the first of a kind by its word
-- alone where it is the one that was asked for.
-- @return tree of them, and their names in order
function report.members(states)
  local o, names, taken = numbers.object {}, {}, {}
  for i, s in ipairs(states) do
    local name = i == 1 and NAMES[s.kind] or NAMES[s.kind] .. "_"
      .. numbers.word(s.mark or i)
    names[i] = numbers.unique(name, taken)
    numbers.put(o, names[i], numbers.member(s))
  end
  return o, names
end

-- The numbers of a state and of what belongs to it.
local function tree_of(a)
  local members, names = report.members(report.states(a))
  return numbers.object {{"netsection", core.version}, {"units", numbers.units},
    {"standard", a.standard}, {"members", members}}, names
end

local methods = {}
local meta = {__index = methods, __name = "netsection.member_state",
  __tostring = function(self) return plain(self.title .. ": " .. self.status) end}

--- The calculation as a document. @param options {steps = "governing" (default) | "all" |
--   "none"}
local function sheet(self, options, level)
  options = report.options("document", options, {"steps"}, level)
  local states = report.states(self)
  local tree, names = tree_of(self)
  local d = document.new {title = self.title, lang = quantity.of(self).lang}
  for i, a in ipairs(states) do
    report.add(d, a, tree.members[names[i]], names[i], options.steps or "governing", 2)
  end
  report.not_checked(d, states)
  local assumed, said = {}, {}
  for _, a in ipairs(states) do
    for _, what in ipairs(a.assumptions) do
      if not said[what] then assumed[#assumed + 1], said[what] = what, true end
    end
  end
  if #assumed > 0 then d:heading(3, "Assumptions"):list(assumed) end
  return d
end

--- Gives a kind of result its forms: document, text and markdown.
-- @param sheet function(self, options, level) that makes the document
function report.forms(methods_of, sheet_of)
  -- The options are read at the line of the method's caller, so none is a tail call.
  function methods_of:document(options)
    local d = sheet_of(self, options, 3)
    return d
  end

  function methods_of:text(options)
    local said = document.text(sheet_of(self, options, 3))
    return said
  end

  function methods_of:markdown(options)
    local said = document.markdown(sheet_of(self, options, 3))
    return said
  end
end

report.forms(methods, sheet)

--- @param options {steps =, paper = "letter" | "a4"}
function methods:html(options)
  options = report.options("html", options, {"steps", "paper"}, 2)
  return document.html(self:document {steps = options.steps}, {paper = options.paper})
end

--- Every number in full, with stable names.
function methods:json()
  return numbers.json((tree_of(self)))
end

--- A state that can write itself.
function report.result(a, standard)
  a.standard = standard.data.name
  return setmetatable(a, meta)
end

return report
