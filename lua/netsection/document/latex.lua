-- SPDX-License-Identifier: MIT
-- A document as LaTeX for pdflatex with packages of every installation. Text is ASCII
-- when it gets here (escape.latex); margins are set by hand for want of a package.
local escape = require "netsection.document.escape"
local point = require "netsection.point"
local tables = require "netsection.document.tables"

local latex = {}

local tex = escape.latex
local PAPER = {letter = "letterpaper", a4 = "a4paper"}
local PAGE = 88                     -- characters across the page at the size of the text
local SIZES = {{1, "", 5}, {1.25, "\\footnotesize", 3}, {1.45, "\\scriptsize", 3}}

local write = {}

local HEADING = {"section", "subsection", "subsubsection", "paragraph"}

--- Writers by the name of a block; a heading without a number.
function write.heading(block)
  local title = tex(block.text)
  return ("\\%s*{%s}"):format(HEADING[block.level], title)
end

-- Bold, where there is something to set.
local function strong(said)
  return said:find "%S" and "\\textbf{" .. said .. "}" or said
end

--- Pieces of a paragraph.
function write.paragraph(block)
  local out = {}
  for i, piece in ipairs(block.pieces) do
    local said = tex(piece.text)
    out[i] = piece.style == "strong" and strong(said) or said
  end
  return table.concat(out)
end

--- A list, numbered where it is ordered.
function write.list(block)
  if #block.items == 0 then return "" end
  local kind, out = block.ordered and "enumerate" or "itemize", {}
  for i, item in ipairs(block.items) do out[i] = "\\item " .. tex(item) end
  return ("\\begin{%s}\n%s\n\\end{%s}"):format(kind, table.concat(out, "\n"), kind)
end

---------------------------------------------------------------------------
-- Tables
---------------------------------------------------------------------------

local COLUMN = {left = "l", right = "r", center = "c"}
local PAR = {left = "\\raggedright", right = "\\raggedleft", center = "\\centering"}

-- Size of type, room between columns in points, and the columns: those with long texts
-- share what the others leave.
local function layout(block)
  local widths, short, long = tables.widths(block), 0, 0
  for _, width in ipairs(widths) do
    if width <= 20 then short = short + width + 2 else long = long + width + 2 end
  end
  local least = long > 0 and math.min(long, 30) or 0
  local size = SIZES[#SIZES]
  for i = #SIZES, 1, -1 do
    if short + least <= PAGE * SIZES[i][1] then size = SIZES[i] end
  end
  local all = short > PAGE * size[1]
  local room = all and 0.98 or math.max(0.25, 0.98 - short / (PAGE * size[1]))
  local total = all and short + long or long
  local spec = {}
  for c, width in ipairs(widths) do
    local align = block.columns[c].align
    spec[c] = (width > 20 or all) and (">{%s\\arraybackslash}p{%s\\linewidth}"):format(
      PAR[align], point.format("%.3f", room * (width + 2) / total * 0.93):gsub(",", "."))
      or COLUMN[align]
  end
  return size[2], size[3], spec
end

-- Groups of columns over their names, with a rule under each.
local function group_line(groups)
  local cells, rules = {}, {}
  for i, run in ipairs(groups) do
    local span = run.last - run.first + 1
    cells[i] = ("\\multicolumn{%d}{c}{%s}"):format(span, run.text and tex(run.text) or "")
    if run.text then
      rules[#rules + 1] = ("\\cmidrule(lr){%d-%d}"):format(run.first, run.last)
    end
  end
  return table.concat(cells, " & ") .. " \\\\\n" .. table.concat(rules)
end

-- Head of a table.
local function head_lines(block)
  local heads, groups = {}, tables.groups(block)
  for c, column in ipairs(block.columns) do heads[c] = strong(tex(column.head)) end
  local line = table.concat(heads, " & ") .. " \\\\"
  return "\\toprule\n" .. (groups and group_line(groups) .. "\n" or "") .. line
    .. "\n\\midrule"
end

-- A cell, strong where it is.
local function cell_text(cell)
  local said = tex(cell.text)
  if cell.strong then said = strong(said) end
  return cell.note and ("%s\\textsuperscript{(%d)}"):format(said, cell.note) or said
end

--- A table that breaks over pages, its head on each.
function write.table(block)
  local size, gap, spec = layout(block)
  local head = head_lines(block)
  local out = {("{%s\\setlength{\\tabcolsep}{%dpt}"):format(size, gap),
    "\\begin{longtable}{" .. table.concat(spec) .. "}"}
  local caption = block.caption and "\\caption{" .. tex(block.caption) .. "}\\\\\n" or ""
  out[#out + 1] = caption .. head .. "\n\\endfirsthead"
  out[#out + 1] = head .. "\n\\endhead\n\\bottomrule\n\\endfoot"
  for _, row in ipairs(block.rows) do
    local cells = {}
    for c, cell in ipairs(row) do cells[c] = cell_text(cell) end
    out[#out + 1] = table.concat(cells, " & ") .. " \\\\"
  end
  out[#out + 1] = "\\end{longtable}}"
  for i, note in ipairs(block.notes) do
    out[#out + 1] = ("\\noindent{\\footnotesize (%d) %s\\par}"):format(i, tex(note))
  end
  return table.concat(out, "\n")
end

---------------------------------------------------------------------------

-- The picture is a file beside the document, if there is one of that name which pdflatex
-- can read; its name is used only where it is a plain one.
function write.figure(block)
  local out, name = {"\\begin{center}"}, block.name
  if name:find "^[%w_][%w_-]*%.p[dn][fg]$" then
    out[#out + 1] = ("\\IfFileExists{%s}{\\includegraphics[width=\\linewidth]{%s}}{}")
      :format(name, name)
  end
  local caption = block.caption and tex(block.caption) .. ". " or ""
  out[#out + 1] = ("\\par{\\small %s%s (file %s)}"):format(caption, tex(block.alt),
    tex(name))
  out[#out + 1] = "\\end{center}"
  return table.concat(out, "\n")
end

-- A step: symbol, formula, numbers, result, clause.
local function step_text(step)
  local out = {"\\textit{" .. tex(step.symbol) .. "}"}
  if step.formula then out[#out + 1] = tex(step.formula) end
  if step.numbers then out[#out + 1] = tex(step.numbers) end
  if step.value then out[#out + 1] = strong(tex(step.value)) end
  local line = table.concat(out, " = ")
  if step.unit and step.unit ~= "" then line = line .. " " .. tex(step.unit) end
  if step.says and not step.formula then line = line .. ", " .. tex(step.says) end
  if step.clause then line = line .. " {[}" .. tex(step.clause) .. "{]}" end
  return "\\item[] " .. line
end

--- The steps of a check.
function write.calculation(block)
  if #block.steps == 0 then return "" end
  local out = {}
  for i, step in ipairs(block.steps) do out[i] = step_text(step) end
  return "\\begin{itemize}\\raggedright\n" .. table.concat(out, "\n")
    .. "\n\\end{itemize}"
end

--- Lines to fill in by hand.
function write.blanks(block)
  local out = {}
  for i, item in ipairs(block.items) do
    out[i] = "\\noindent " .. tex(item) .. ": \\hrulefill\\par\\medskip"
  end
  return table.concat(out, "\n")
end

--- A note or a caution between rules.
function write.note(block)
  local rule = ("\\rule{\\linewidth}{%s}"):format(block.caution and "2pt" or "0.4pt")
  return ("\\par\\medskip\\noindent%s\\par\n\\noindent\\textbf{%s:} %s\\par\n"
    .. "\\noindent%s\\par\\medskip"):format(rule, block.caution and "Caution" or "Note",
    tex(block.text), rule)
end

--- What follows begins a page.
function write.page_break()
  return "\\clearpage"
end

--- Blocks that belong together.
function write.group(block)
  local out = {}
  for i, inner in ipairs(block.blocks) do out[i] = write[inner.kind](inner) end
  return table.concat(out, "\n\n")
end

-- What stands before the text: paper, packages that every installation has.
local function preamble(d, paper)
  local figures = d.figures.n > 0
  return ([[
\documentclass[10pt,%s]{article}
\usepackage{array}
\usepackage{booktabs}
\usepackage{longtable}
%s\setlength{\topmargin}{-0.5in}
\setlength{\oddsidemargin}{-0.1in}
\setlength{\textwidth}{\dimexpr\paperwidth-1.8in\relax}
\setlength{\textheight}{\dimexpr\paperheight-2.2in\relax}
\setlength{\parindent}{0pt}
\setlength{\parskip}{4pt plus 1pt}
\setlength{\emergencystretch}{3em}
\setlength{\LTleft}{0pt}
\setlength{\LTcapwidth}{\textwidth}
\ifdefined\pdfpagewidth
\pdfpagewidth=\paperwidth \pdfpageheight=\paperheight
\fi
\renewcommand{\labelitemi}{$\bullet$}
\begin{document}
]]):format(PAPER[paper], figures and "\\usepackage{graphicx}\n" or "")
end

--- The document. @param paper "letter" or "a4"
function latex.write(d, paper)
  local out = {preamble(d, paper)}
  if d.running then
    out[1] = out[1] .. ("\n\\pagestyle{myheadings}\\markright{%s}"):format(tex(d.running))
    out[2] = "{\\centering\\bfseries " .. tex(d.running) .. "\\par}"
  end
  if d.title then
    out[#out + 1] = "{\\Large\\bfseries " .. tex(d.title) .. "\\par}"
  end
  for _, block in ipairs(d.blocks) do out[#out + 1] = write[block.kind](block) end
  out[#out + 1] = "\\end{document}"
  return table.concat(out, "\n\n") .. "\n"
end

return latex
