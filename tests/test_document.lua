-- SPDX-License-Identifier: MIT
-- Documents: every kind of block in every form, with texts that would be markup, formulas
-- or commands if they were more than text. Rules checked against: HTML living standard
-- (balance, quoting), CommonMark and its pipe tables, RFC 4180, the special characters of
-- LaTeX, the bidirectional controls of Unicode (UAX 9).
local lu = require "luaunit"
local document = require "netsection.document"
local drawing = require "tests.drawing"
local markup = require "tests.markup"
local support = require "tests.support"

local T = {}
local escape = document.escape

local function has_control(said)
  for _, code in utf8.codes(said) do
    if (code < 32 and code ~= 10) or code >= 0x7F and code <= 0x9F or code == 0x61C
      or code >= 0x202A and code <= 0x202E or code >= 0x2066 and code <= 0x2069
      or code == 0x200E or code == 0x200F or code == 0xFEFF then
      return ("U+%04X"):format(code)
    end
  end
end

-- A document with the same text wherever a text goes.
local function all_of(s)
  local d = document.new {title = s}
  for level = 1, 4 do d:heading(level, s) end
  d:paragraph(s):paragraph {s, {strong = s}, {mark = s}}
  d:list({s, s}):list({s, s}, {ordered = true})
  d:table {caption = s, columns = {{head = s, group = s}, {head = s, align = "right"},
    {head = s, group = s, align = "center"}}, row_heads = 1, notes = {s},
    rows = {{s, {text = s, strong = true, note = 1}, {text = s, note = "other " .. s}},
      {s}}}
  d:figure {name = s, alt = s, caption = s}
  d:calculation {{symbol = s, formula = s, numbers = s, value = s, unit = s, clause = s},
    {symbol = s, value = 1.5, says = s}}
  return d:blanks {s}:note(s):note(s, "caution"):page_break()
end

function T.test_html_of_hostile_texts()
  for _, s in ipairs(markup.HOSTILE) do
    local page = document.html(all_of(s))
    lu.assertNil(markup.html_problem(page), s)
    lu.assertNotNil(utf8.len(page), s)
    lu.assertNil(has_control(page), s)
    local seen = markup.html_text(page)
    lu.assertStrContains(seen, escape.text(s))
    lu.assertFalse(page:lower():find "<script" ~= nil, s)
  end
end

function T.test_checker_of_html_finds_what_is_wrong()
  lu.assertNotNil(markup.html_problem "<p>a")
  lu.assertNotNil(markup.html_problem "<p>a</td>")
  lu.assertNotNil(markup.html_problem "<p onclick=\"x\">a</p>")
  lu.assertNotNil(markup.html_problem "<script>a</script>")
  lu.assertNotNil(markup.html_problem "<p>a & b</p>")
  lu.assertNil(markup.html_problem "<p class=\"x\">a &amp; b</p>")
end

function T.test_markdown_of_hostile_texts()
  for _, s in ipairs(markup.HOSTILE) do
    local said = document.markdown(all_of(s))
    lu.assertNotNil(utf8.len(said), s)
    lu.assertNil(has_control(said), s)
    local rows = 0
    for line in said:gmatch "[^\n]+" do
      if line:find "^|" then
        rows = rows + 1
        lu.assertEquals(#markup.markdown_cells(line), 3, line)
      end
    end
    lu.assertEquals(rows, 4, s)      -- head, rule, two rows
    lu.assertNil(markup.markdown_problem(escape.markdown(s)), s)
  end
end

function T.test_checker_of_markdown_finds_what_is_wrong()
  for _, s in ipairs {"a *b*", "[a](b)", "# a", "- a", "1. a", "<b>", "a | b", "---"} do
    lu.assertNotNil(markup.markdown_problem(s), s)
  end
  lu.assertEquals(#markup.markdown_cells "| a \\| b | c |", 2)
end

function T.test_latex_of_hostile_texts()
  for _, s in ipairs(markup.HOSTILE) do
    lu.assertNil(markup.latex_problem(escape.latex(s)), s)
    local said = document.latex(all_of(s))
    lu.assertFalse(said:find "[^ -~\n]" ~= nil, s)
    local _, ends = said:gsub("\\end{document}", "")
    lu.assertEquals(ends, 1, s)
    lu.assertFalse(said:find "\\input" ~= nil, s)
    lu.assertFalse(said:find "\\write" ~= nil, s)
    local _, rows = said:gsub(" \\\\\n", "")
    lu.assertEquals(rows, 6, s)      -- two heads of two lines, two rows
  end
end

function T.test_checker_of_latex_finds_what_is_wrong()
  for _, s in ipairs {"50 %", "a_b", "\\input{x}", "{", "}", "a & b", "#1", "$", "\u{E9}",
    "a^2", '"'} do
    lu.assertNotNil(markup.latex_problem(s), s)
  end
end

function T.test_text_of_hostile_texts()
  for _, s in ipairs(markup.HOSTILE) do
    local said = document.text(all_of(s))
    lu.assertNotNil(utf8.len(said), s)
    lu.assertNil(has_control(said), s)
    for line in said:gmatch "[^\n]*" do
      lu.assertTrue(utf8.len(line) <= 88, line)
    end
  end
end

function T.test_csv_of_hostile_texts()
  for _, s in ipairs(markup.HOSTILE) do
    local rows, problem = markup.csv(escape.csv(s) .. "," .. escape.csv(s) .. "\n")
    lu.assertNil(problem, s)
    lu.assertEquals(#rows, 1, s)
    lu.assertEquals(#rows[1], 2, s)
    local field = rows[1][1]
    lu.assertNil(field:match "^ *[=+@-]", s)
    lu.assertTrue(field == escape.text(s) or field == "'" .. escape.text(s), s)
  end
end

function T.test_csv_numbers_read_back()
  for _, x in ipairs {0, -1, 12, 0.1, 1 / 3, 162.5, 1e-300, -2.5e17, 6.02214076e23} do
    lu.assertEquals(tonumber(escape.csv(x)), x)
  end
  lu.assertEquals(escape.csv(-1), "-1")
  lu.assertEquals(escape.csv "-1", "'-1")
  lu.assertEquals(escape.csv "a,b", '"a,b"')
  lu.assertEquals(escape.csv 'a"b', '"a""b"')
  support.raises("a finite number", escape.csv, 0 / 0)
  support.raises("a finite number", escape.csv, math.huge)
end

function T.test_escapes_by_hand()
  lu.assertEquals(escape.html "<a href='x'>\"&", "&lt;a href=&#39;x&#39;&gt;&quot;&amp;")
  lu.assertEquals(escape.markdown "a*b_c|d", "a\\*b\\_c\\|d")
  lu.assertEquals(escape.markdown "13'-6 1/2\"", "13'-6 1/2\"")
  lu.assertEquals(escape.markdown "12.5", "12.5")
  lu.assertEquals(escape.latex "50% of #1", "50\\% of \\#1")
  lu.assertEquals(escape.latex "\u{E9} \u{2264} \u{5D0}",
    "\\'{e} \\ensuremath{\\leq} {[}U+05D0{]}")
  lu.assertEquals(escape.text "a\nb\0c\u{202E}d\xFF", "a b cd?")
  for _, form in ipairs {"text", "html", "markdown", "latex", "csv"} do
    support.raises("escape." .. form .. ": text expected", escape[form], {})
  end
end

---------------------------------------------------------------------------
-- What the blocks look like
---------------------------------------------------------------------------

local function sample()
  return document.new {title = "T"}:table {caption = "Spans", row_heads = 1,
    columns = {{head = "size"}, {head = "12", group = "spacing, in", align = "right"},
      {head = "16", group = "spacing, in", align = "right"}},
    rows = {{"2x6", "9-3", {text = "8-1", note = "by bending"}},
      {"2x8", 12.5, {text = "-", note = "by bending", strong = true}}}}
end

function T.test_table_in_text()
  lu.assertEquals(document.text(sample()), [[
T
=

Spans

       spacing, in
      -------------
size    12       16
-------------------
2x6    9-3  8-1 (1)
2x8   12.5    - (1)

(1) by bending
]])
end

function T.test_table_in_html_has_scopes_and_a_region()
  local page = document.html(sample())
  for _, piece in ipairs {'role="region" tabindex="0" aria-label="Spans"',
    '<th scope="colgroup" colspan="2">spacing, in</th>', '<th scope="col" class="right">',
    '<th scope="row" class="left"><bdi>2x6</bdi></th>', "<caption>Spans</caption>",
    "<bdi>8-1</bdi> <sup>(1)</sup>", '<html lang="en">', "@page { size: letter",
    "overflow-x: auto"} do
    lu.assertStrContains(page, piece)
  end
  lu.assertStrContains(document.html(sample(), {paper = "a4"}), "size: A4")
  lu.assertFalse(page:find "http" ~= nil)
end

function T.test_table_in_markdown_and_latex()
  lu.assertStrContains(document.markdown(sample()),
    "| size | spacing, in: 12 | spacing, in: 16 |\n| :-- | --: | --: |\n"
    .. "| **2x6** | 9-3 | 8-1 (1) |")
  local said = document.latex(sample(), {paper = "a4"})
  for _, piece in ipairs {"a4paper", "\\begin{longtable}{lrr}", "\\cmidrule(lr){2-3}",
    "\\multicolumn{2}{c}{spacing, in}", "8{-}1\\textsuperscript{(1)}"} do
    lu.assertStrContains(said, piece)
  end
end

-- A table wider than the page goes on below, with the heads of its rows.
function T.test_wide_table_in_text_is_set_in_parts()
  local columns, row = {{head = "row"}}, {"r1"}
  for i = 1, 30 do
    columns[#columns + 1] = {head = ("col %02d"):format(i)}
    row[#row + 1] = ("v%02d"):format(i)
  end
  local said = document.text(document.new():table {columns = columns, rows = {row},
    row_heads = 1})
  local _, heads = said:gsub("\nr1", "")
  lu.assertEquals(heads, 3)
  for i = 1, 30 do lu.assertStrContains(said, ("v%02d"):format(i)) end
end

function T.test_headings_go_below_the_title()
  lu.assertStrContains(document.html(document.new {title = "T"}:heading(1, "a")),
    "<h2>a</h2>")
  lu.assertStrContains(document.html(document.new():heading(1, "a")), "<h1>a</h1>")
  lu.assertStrContains(document.markdown(document.new():heading(2, "a")), "## a\n")
end

function T.test_calculation_takes_the_steps_of_a_review()
  local ns = require "netsection"
  local r = ns.joist {mark = "J", size = "2x10", species = "spf", grade = "No.2",
    span = "12-0", spacing = 16, dead = 10, live = 40, bearing = 3.5}:review()
  local check = r.uncut.governing_check
  local d = document.new():calculation(check.steps)
  for _, form in ipairs {"text", "markdown", "html", "latex"} do
    local said = document[form](d)
    for _, step in ipairs(check.steps) do
      lu.assertStrContains(said, escape[form](step.symbol))
    end
  end
end

---------------------------------------------------------------------------
-- Pictures
---------------------------------------------------------------------------

local SVG = '<?xml version="1.0"?>\n<svg viewBox="0 0 1 1" width="10" height="10">'
  .. "<title>x</title><defs><circle id='a' r='1'/></defs><use xlink:href='#a'/>"
  .. '<path fill="url(#a)" d="M0,0"/><text>a &amp; b</text></svg>'

local function figure(text)
  return document.new():figure {name = "a.svg", alt = "Moment", svg = text}
end

function T.test_picture_is_in_the_page_and_its_names_are_its_own()
  local page = document.html(figure(SVG):figure {name = "b.svg", alt = "b", svg = SVG})
  lu.assertNil(markup.html_problem(page))
  lu.assertStrContains(page, '<div role="img" aria-label="Moment"><svg')
  lu.assertStrContains(page, 'id="figure1-a"')
  lu.assertStrContains(page, 'xlink:href="#figure2-a"')
  lu.assertStrContains(page, 'url(#figure2-a)')
  lu.assertFalse(page:find "<title>x" ~= nil)
end

function T.test_picture_that_would_run_or_fetch_is_refused()
  for piece, inner in pairs {
    ["<script> does not belong"] = "<script>x</script>",
    ["<foreignObject> does not belong"] = "<foreignObject/>",
    ["<image> does not belong"] = "<image href='x'/>",
    ["'onload' would run"] = "<g onload='x()'/>",
    ["fetches something"] = "<use href='http://x/y#a'/>",
    ["could fetch or run"] = "<g style='fill:url(http://x)'/>",
    ["</g> closes nothing"] = "</g>",
    ["</svg> closes nothing"] = "<g>",
    ["it is not SVG"] = "<![CDATA[x]]>",
  } do
    support.raises(piece, function() figure("<svg>" .. inner .. "</svg>") end)
  end
  support.raises("<p> does not belong", function() figure "<p>a</p>" end)
  support.raises("not one <svg>", function() figure "<g/>" end)
  support.raises("not one whole <svg>", function() figure "<svg>" end)
  support.raises("not one <svg>", function() figure "<svg></svg><svg></svg>" end)
end

function T.test_picture_of_gnuplot()
  drawing.need_gnuplot()
  local dir <close> = drawing.folder()
  drawing.run(dir, "set terminal svg noenhanced\nset output 'a.svg'\n"
    .. "set title '<b> & J''3'\nplot x with points")
  local page = document.html(figure(drawing.read_file(dir.path .. "/a.svg")))
  lu.assertNil(markup.html_problem(page))
  lu.assertStrContains(page, "figure1-gp")
end

---------------------------------------------------------------------------
-- Misuse
---------------------------------------------------------------------------

function T.test_misuse_is_named()
  local d = document.new()
  local C = {{head = "a"}}
  local cases = {
    {"document.new: unknown field 'x'", function() document.new {x = 1} end},
    {"title: text expected", function() document.new {title = 1} end},
    {"lang: a language tag", function() document.new {lang = "<"} end},
    {"heading: level 1 to 4 expected, got 5", function() d:heading(5, "a") end},
    {"heading: text expected, got nil", function() d:heading(1) end},
    {"paragraph: text, {strong", function() d:paragraph(1) end},
    {"paragraph: piece 2: text", function() d:paragraph {"a", {bold = "b"}} end},
    {"list: item 2: text", function() d:list {"a", 1} end},
    {"list: unknown field 'numbered'", function() d:list({}, {numbered = true}) end},
    {"table: unknown field 'head'", function() d:table {head = 1} end},
    {"columns: a list expected", function() d:table {rows = {}} end},
    {"columns: one at least", function() d:table {columns = {}, rows = {}} end},
    {"column 1: {head=", function() d:table {columns = {1}, rows = {}} end},
    {"column 1: head and group", function() d:table {columns = {{head = 1}}} end},
    {'column 1: align is "left"', function() d:table {columns = {{align = 1}}} end},
    {"notes: a list expected", function() d:table {columns = C, notes = 1} end},
    {"note 1: text expected", function() d:table {columns = C, notes = {1}} end},
    {"rows: a list expected", function() d:table {columns = C} end},
    {"row 1: a list of cells", function() d:table {columns = C, rows = {1}} end},
    {"row 1: cells 1 to 1 expected, got one at 2", function()
      d:table {columns = C, rows = {{1, 2}}}
    end},
    {"row 1, cell 1: text, a finite number", function()
      d:table {columns = C, rows = {{0 / 0}}}
    end},
    {"row 1, cell 1: note", function()
      d:table {columns = C, rows = {{{text = "a", note = 2}}}}
    end},
    {"row_heads: 0 to 1", function() d:table {columns = C, rows = {}, row_heads = 2} end},
    {"caption: text", function() d:table {columns = C, rows = {}, caption = 1} end},
    {"figure: alt (text)", function() d:figure {name = "a"} end},
    {"figure: caption: text", function()
      d:figure {name = "a", alt = "b", caption = 1}
    end},
    {"calculation: a list", function() d:calculation() end},
    {"step 1: a table", function() d:calculation {1} end},
    {"step 1: symbol", function() d:calculation {{value = 1}} end},
    {"step 1: value: a finite", function()
      d:calculation {{symbol = "a", value = 1 / 0}}
    end},
    {"step 1: unit: text", function() d:calculation {{symbol = "a", unit = {}}} end},
    {"blanks: item 1", function() d:blanks {1} end},
    {"note: text expected", function() d:note() end},
    {'note: kind "note" or', function() d:note("a", "warning") end},
    {"document.html: a document", function() document.html {} end},
    {"document.text: unknown field", function() document.text(d, {size = 1}) end},
    {'paper "letter" or "a4"', function() document.latex(d, {paper = "b5"}) end},
  }
  for _, case in ipairs(cases) do
    local said = support.raises(case[1], case[2])
    lu.assertStrContains(said, "test_document.lua")
  end
  lu.assertEquals(#d.blocks, 0)
end

function T.test_same_bytes_each_time()
  for _, form in ipairs {"text", "markdown", "html", "latex"} do
    lu.assertEquals(document[form](sample()), document[form](sample()))
  end
end

return T
