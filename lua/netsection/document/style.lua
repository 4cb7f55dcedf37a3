-- SPDX-License-Identifier: MIT
-- The style sheet of a page of HTML. Black on white; what is told apart is told by
-- words, weight and lines, so that nothing is lost on a copier. On a narrow screen a
-- table scrolls in its own frame; in print it is set smaller, or on its side, to fit.
local escape = require "netsection.document.escape"

local style = {}

local SHEET = [[
@page { size: PAPER; margin: 0.55in; }
@page side { size: PAPER landscape; margin: 0.6in; }
html { color: #000; background: #fff; }
body { margin: 0 auto; padding: 0 1rem 3rem; max-width: 60rem;
  font: 1rem/1.45 Georgia, "Liberation Serif", "DejaVu Serif", serif;
  overflow-wrap: break-word; }
h1 { font-size: 1.5rem; border-bottom: 3px solid #000; padding-bottom: 0.25rem; }
h2 { font-size: 1.25rem; border-bottom: 1px solid #000; }
h3 { font-size: 1.1rem; }
h4, h5 { font-size: 1rem; }
h1, h2, h3, h4, h5 { line-height: 1.25; margin: 1.5rem 0 0.5rem; break-after: avoid; }
p, ul, ol { margin: 0.5rem 0; }
.table { overflow-x: auto; margin: 1rem 0 0.5rem; }
.table:focus-visible { outline: 2px solid #000; outline-offset: 2px; }
table { border-collapse: collapse; border-top: 2px solid #000;
  border-bottom: 2px solid #000; font-size: 0.95rem; font-variant-numeric: tabular-nums; }
caption { text-align: left; font-weight: bold; padding: 0.25rem 0; }
caption span, th[scope=colgroup] span { display: inline-block; position: sticky; left: 0;
  max-width: min(calc(100vw - 4rem), 58rem); }
th, td { padding: 0.2rem 0.6rem; vertical-align: top; text-align: left; }
thead tr:last-child > * { border-bottom: 1px solid #000; vertical-align: bottom; }
th[scope=colgroup] { text-align: center; border-bottom: 1px solid #000; }
tbody th { font-weight: normal; }
tbody tr + tr > * { border-top: 1px solid #bbb; }
th.right, td.right { text-align: right; }
th.center, td.center { text-align: center; }
th.short, td.short { white-space: nowrap; }
sub, sup { font-size: 0.75em; line-height: 0; }
.tofill table { width: 100%; table-layout: fixed; }
.tofill tbody tr { height: 0.31in; }
.tofill td, .tofill tbody th { border: 1px solid #000; }
.tofill th:first-child { width: 2.2em; }
.notes { list-style: none; padding: 0; margin: 0.25rem 0 1rem; font-size: 0.9rem; }
figure { margin: 1rem 0; break-inside: avoid; }
figure svg { max-width: 100%; height: auto; }
figcaption { font-size: 0.9rem; }
.photo { display: inline-block; vertical-align: top; width: 2.28in; margin: 0.1in 0.12in
  0.1in 0; }
.photo img { max-width: 100%; max-height: 3in; }
@media screen and (max-width: 40rem) {
  figure div { overflow-x: auto; }
  figure svg { max-width: none; width: 40rem; }
}
.calculation { list-style: none; padding-left: 1rem; break-inside: avoid; }
.calculation.long { break-inside: auto; }
.calculation li { padding-left: 1.5rem; text-indent: -1.5rem; }
.clause, .whole { white-space: nowrap; }
.note, .caution { margin: 1rem 0; padding: 0.5rem 0.75rem; break-inside: avoid; }
.note { border: 1px solid #000; }
.caution { border: 3px double #000; border-left: 0.6rem solid #000; }
.blank { display: flex; gap: 0.5rem; break-inside: avoid; margin: 1rem 0; }
.blank .line { flex: 1; min-width: 8rem; border-bottom: 1px solid #000; }
.break { break-after: page; }
.part { break-before: page; }
@media screen and (max-width: 40rem) { th[scope=colgroup] { text-align: left; } }
@media screen { .break { border-bottom: 1px dashed #000; margin: 2rem 0; }
  .part { border-top: 1px dashed #000; margin-top: 2rem; } }
@media print {
  body { max-width: none; padding: 0; font-size: 9.5pt; line-height: 1.27;
    overflow-wrap: normal; }
  p, li, .caution, .note { overflow-wrap: break-word; }
  h1 { font-size: 15pt; }
  h1, h2, h3, h4, h5 { margin: 0.5rem 0 0.2rem; }
  h2 { margin-top: 0.6rem; font-size: 13pt; }
  h3 { font-size: 11pt; }
  h4, h5 { font-size: 9.5pt; }
  a { color: #000; text-decoration: underline; text-decoration-thickness: 0.5px; }
  p, ul, ol { margin: 0.2rem 0; orphans: 2; widows: 2; }
  h2 + p:has(+ .table), h3 + p:has(+ .table) { break-after: avoid; }
  .blank { margin: 0.55rem 0; }
  .note, .caution { margin: 0.4rem 0; padding: 0.25rem 0.5rem; }
  .table { overflow: visible; margin: 0.3rem 0 0.4rem; }
  .kept { break-inside: avoid; }
  .narrow { display: inline-block; vertical-align: top; margin-right: 0.2in;
    max-width: 100%; }
  figure { margin: 0.15rem 0; }
  figure svg { max-width: none; }
  figcaption { font-size: 9pt; }
  table { font-size: 9pt; max-width: 100%; line-height: 1.15; }
  caption { padding: 0.1rem 0; break-after: avoid; }
  caption span, th[scope=colgroup] span { position: static; max-width: none; }
  th, td { padding: 0.04rem 0.3rem; }
  td.long, th.long { overflow-wrap: anywhere; }
  th.short, td.short { white-space: normal; }
  .fits tbody .short { white-space: nowrap; }
  thead { display: table-header-group; break-inside: avoid; break-after: avoid; }
  tr { break-inside: avoid; }
  tbody tr:first-child { break-after: avoid; }
  tbody tr:last-child { break-before: avoid; }
  .notes { font-size: 9pt; }
  .widest { page: side; }
  .keep { break-inside: avoid; }
  .two { columns: 2; column-gap: 0.25in; }
  .sides { display: flex; gap: 0.25in; }
  .sides > .group { flex: 1 1 0; min-width: 0; }
  .sides > .group > :first-child { margin-top: 0.2rem; }
  .sides .blank { margin: 0.4rem 0; }
  .two .table { break-inside: avoid; margin: 0; }
  .two .blank { margin: 0.4rem 0; }
  .two h4, .two h5 { margin: 0 0 0.1rem; }
  .two .calculation { break-inside: auto; margin: 0; font-size: 9pt; line-height: 1.2; }
  .calculation { padding-left: 0.3rem; }
  .calculation li { display: inline-block; margin-right: 0.3in; padding: 0;
    text-indent: 0; }
  .checks .calculation li, .group .calculation li { display: list-item; margin: 0;
    padding-left: 1rem; text-indent: -1rem; }
  .checks { columns: 2; column-gap: 0.25in; font-size: 9pt; line-height: 1.2; }
  .check { break-inside: avoid; }
  .check:has(.long) { break-inside: auto; }
  .checks h4, .checks h5 { font-size: 9.5pt; margin: 0 0 0.1rem; }
  .checks p, .checks ul { margin: 0 0 0.45rem; }
  .checks .calculation { padding-left: 0.4rem; break-inside: auto; }
}
]]

local NAMES = {letter = "letter", a4 = "A4"}

-- Words at the head of every printed page, and large and pale behind its text for
-- browsers that print nothing in the margins.
local RUNNING = [[
@page { @top-center { content: "WORDS"; font: bold 9pt Georgia, serif;
  white-space: nowrap; } @top-left { width: 25%; } @top-right { content: ""; } }
@page side { @top-center { content: "WORDS"; font: bold 9pt Georgia, serif;
  white-space: nowrap; } @top-right { content: ""; } }
.running { text-align: center; }
.ground { display: none; }
@media print {
  .running { display: none; }
  .ground { display: block; position: fixed; top: 35%; left: 0; right: 0; z-index: -1;
    text-align: center; font: bold 80pt Georgia, serif; color: #e4e4e4; }
}
]]

-- Text in the margins of each printed page, and the page's number of all.
local FOOT = [[
@page { margin-bottom: 0.6in;
  @bottom-left { content: TEXT; font: 8pt Georgia, serif; width: 88%; text-align: left; }
  @bottom-right { content: "page " counter(page) " of " counter(pages);
    font: 8pt Georgia, serif; white-space: nowrap; }
}
]]
local JOB = [[
@page { margin-top: 0.6in;
  @top-left { content: TEXT; font: 9pt Georgia, serif; width: 70%; text-align: left; }
}
]]

-- The words at the upper right of the pages of one part, which is a page of its own name
-- for the browser; a table on its side there keeps them.
local HEAD = [[
@page partN { @top-right { content: TEXT; font: bold 9pt Georgia, serif; } }
@page partNside { size: PAPER landscape;
  @top-right { content: TEXT; font: bold 9pt Georgia, serif; } }
@media print { .partN { page: partN; } .partN .widest { page: partNside; } }
]]

-- As close as it may be set and still be read.
local CLOSE = [[
@media print {
  body { font-size: 9pt; line-height: 1.18; }
  p, ul, ol { margin: 0.12rem 0; }
  h2 { font-size: 11pt; margin: 0.4rem 0 0.15rem; }
  .blank, .two .blank { margin: 0.4rem 0; }
}
]]

-- Closer still, for a page that has to hold more.
local CLOSER = [[
@media print {
  body { line-height: 1.06; }
  figure { margin: 0; }
  p, ul, ol { margin: 0.06rem 0; }
  h1 { margin: 0; }
  h2 { margin: 0.2rem 0 0.1rem; }
  .blank, .two .blank, .sides .blank { margin: 0.25rem 0; }
}
]]

-- A text as a string of CSS: whatever is neither letter nor digit by its number.
local function css_string(text)
  local out = {}
  for _, c in utf8.codes(escape.text(text)) do
    local plain = c < 128 and string.char(c):find "[%w ]"
    out[#out + 1] = plain and string.char(c) or ("\\%x "):format(c)
  end
  return '"' .. table.concat(out) .. '"'
end

local function with_text(sheet, said)
  return (sheet:gsub("TEXT", function() return css_string(said) end))
end

--- @param paper "letter" or "a4"
-- @param d the document: running, foot and job of its pages
-- @param heads words at the upper right of each part's pages, in their order
function style.of(paper, d, heads)
  local sheet = SHEET:gsub("PAPER", NAMES[paper])
  if d.foot or d.job then sheet = sheet .. with_text(FOOT, d.foot or "") end
  if d.job then sheet = sheet .. with_text(JOB, d.job) end
  if d.running then sheet = sheet .. RUNNING:gsub("WORDS", d.running) end
  if d.close then sheet = sheet .. CLOSE end
  if d.close == "closer" then sheet = sheet .. CLOSER end
  for i, head in ipairs(heads) do
    local part = HEAD:gsub("partN", "part" .. i):gsub("PAPER", NAMES[paper])
    sheet = sheet .. with_text(part, head)
  end
  return sheet
end

return style
