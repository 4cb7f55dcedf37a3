-- SPDX-License-Identifier: MIT
-- What the tests of documents and tables share: hostile texts, and small readers of HTML,
-- Markdown tables, CSV and LaTeX that are written from the rules of those forms and know
-- nothing of the writers.
local drawing = require "tests.drawing"

local markup = {}

markup.HOSTILE = table.move(drawing.HOSTILE, 1, #drawing.HOSTILE, 1, {})
for _, said in ipairs {
  "<script>alert(1)</script>", "</td></table><td>", "<img src=x onerror=y>", "&lt;b&gt;",
  "a | b || c", "\\| a", "- item", "+ item", "1. item", "2) item", "# head", "> quote",
  "---", "===", "***", "~~~", "```", "[a](http://x.y)", "![a](b)", "www.x.y", "a@b.c",
  "http://x.y/z", ":+1:", "$x^2$", "\\input{/etc/passwd}", "\\write18{touch ran}",
  "100 % of {it} & more_than #1 ~ ^", "[optional]", "* star", "!`?`", "--", "<<>>",
  "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", " =1", "\u{FF1D}1", "=cmd|' /C calc'!A0",
  "a;b,c\"d", "\u{5E9}\u{5DC}\u{5D5}\u{5DD} 12", "\u{645}\u{631}\u{62D}\u{628}\u{627}",
  "\u{2066}a\u{2069}", "\u{200F}b", "\u{61C}c", "a\u{2028}b\u{85}c", "\u{FEFF}d",
  ("w"):rep(300), "caf\u{E9} \u{2264} 3\u{B0} \u{BD} \u{2013} \u{3C0}",
  "\xC3\x28", "\xED\xA0\x80",
  "    indented", "]]>", "-->", "\\end{document}", "%", "\\",
} do markup.HOSTILE[#markup.HOSTILE + 1] = said end

local VOID = {meta = true, br = true, hr = true, img = true, input = true, wbr = true}
local KNOWN = {}
for name in ([[html head meta title style body main h1 h2 h3 h4 h5 p strong bdi ul ol li
  div a table caption thead tbody tr th td sup sub figure
  figcaption var span svg g defs path
  wbr rect circle use text polygon pattern filter feFlood feComposite]]):gmatch "%S+" do
  KNOWN[name] = true
end

local function attributes_problem(said)
  local rest = said:gsub("%s+([%w:-]+)=\"[^\"<>]*\"", "")
  if rest:find "[^%s/]" then return "attributes: " .. said end
  for name in said:gmatch "%s([%w:-]+)=\"" do
    if name:lower():find "^on" then return "attribute " .. name end
  end
end

-- What is wrong with a page of HTML, or nil: tags balance, none but those a document
-- needs, attributes quoted, no stray mark in the text.
function markup.html_problem(page)
  local stack, pos = {}, 1
  page = page:gsub("^<!DOCTYPE html>\n", "", 1)
  while true do
    local open = page:find("<", pos, true)
    local said = page:sub(pos, (open or #page + 1) - 1)
    if stack[#stack] ~= "style" and said:gsub("&%w+;", ""):gsub("&#%d+;", "")
      :find "[&>]" then
      return "text: " .. said
    end
    if not open then break end
    local slash, name, more, close = page:match("^<(/?)(%a%w*)([^<>]*)()>", open)
    if not name then return "tag: " .. page:sub(open, open + 40) end
    if not KNOWN[name] then return "element " .. name end
    local problem = attributes_problem(more)
    if problem then return problem end
    if slash == "/" then
      local top = table.remove(stack)
      if top ~= name then return ("</%s> closes <%s>"):format(name, tostring(top)) end
    elseif not VOID[name] and not more:find "/$" then
      stack[#stack + 1] = name
    end
    pos = close + 1
  end
  return #stack > 0 and "open: " .. table.concat(stack, " ") or nil
end

-- Text of an HTML page as a reader sees it.
function markup.html_text(page)
  local said = page:gsub("<style>.-</style>", ""):gsub("<[^>]*>", "")
  return (said:gsub("&(#?%w+);", {amp = "&", lt = "<", gt = ">", quot = '"',
    ["#39"] = "'", nbsp = " "}))
end

-- Cells of a row of a Markdown table: bars that no backslash stands before.
function markup.markdown_cells(line)
  local cells, cell, i = {}, "", 1
  while i <= #line do
    local c = line:sub(i, i)
    if c == "\\" then
      cell, i = cell .. line:sub(i, i + 1), i + 1
    elseif c == "|" then
      cells[#cells + 1], cell = cell, ""
    else
      cell = cell .. c
    end
    i = i + 1
  end
  table.remove(cells, 1)
  return cells
end

-- Marks of Markdown in what is meant as text; nil where there is none that counts.
function markup.markdown_problem(said)
  local rest = said:gsub("\\[%p]", "x")
  return rest:match "[`*_%[%]<>|~$]" or rest:match "^[#=]" or rest:match "^[-+] "
    or rest:match "^%-%-" or rest:match "^%d+[.)]%s" or rest:match "^    "
    or rest:match "://" or rest:match "www%." or rest:match "&%f[^%w#]%W"
end

-- What LaTeX would choke on or run: commands beyond those the escapes use, marks with a
-- meaning, braces out of balance, bytes that are no ASCII.
local COMMANDS = {}
for name in ([[textbackslash textless textgreater textbar ensuremath discretionary mbox
  pounds S P AA aa AE ae O o ss i L l OE oe copyright dots circ pm mu cdot times div
  bullet
  prime leftarrow rightarrow Sigma surd infty approx neq leq geq perp emptyset ll gg
  pi v c H r alpha beta gamma delta varepsilon eta theta lambda nu rho sigma tau
  varphi chi psi omega Gamma Delta Theta Lambda Pi Phi Omega]])
  :gmatch "%S+" do COMMANDS[name] = true end

function markup.latex_problem(said)
  if said:find "[^ -~]" then return "not ASCII" end
  for name in said:gsub("\\[^%a]", " "):gmatch "\\(%a+)" do
    if not COMMANDS[name] then return "command " .. name end
  end
  local bare = said:gsub("\\ensuremath{%^{[^{}]*{?}?[^{}]*}}", ""):gsub("\\[^%a]", "")
  if bare:find "[%%#&$_^\"]" then return "special in " .. bare end
  local depth = 0
  for brace in bare:gmatch "[{}]" do
    depth = depth + (brace == "{" and 1 or -1)
    if depth < 0 then return "braces" end
  end
  return depth ~= 0 and "braces" or nil
end

-- Rows of CSV text by RFC 4180; nil and what is wrong.
function markup.csv(said)
  local rows, row, pos = {}, {}, 1
  while pos <= #said do
    local field, after
    if said:sub(pos, pos) == '"' then
      local close = pos
      repeat
        close = said:find('"', close + 1, true)
        if not close then return nil, "open quote" end
        local doubled = said:sub(close + 1, close + 1) == '"'
        if doubled then close = close + 1 end
      until not doubled
      field, after = said:sub(pos + 1, close - 1):gsub('""', '"'), close + 1
    else
      field = said:match('^[^,\r\n]*', pos)
      if field:find '"' then return nil, "bare quote" end
      after = pos + #field
    end
    row[#row + 1] = field
    local line = said:match("^\r?\n", after)
    if line then
      rows[#rows + 1], row, pos = row, {}, after + #line
    elseif said:sub(after, after) == "," then
      pos = after + 1
    else
      return nil, "text after a field"
    end
  end
  return rows
end

return markup
