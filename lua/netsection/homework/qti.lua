-- SPDX-License-Identifier: MIT
-- Questions for a course system in the open exchange format QTI 2.1 (1EdTech): a content
-- package with one item for each version and part. Numbers have their tolerance, common
-- mistakes their hint as feedback, choices their words; what is answered in words is an
-- open question. Beside it the bank as plain rows.
local csv = require "netsection.csv"
local document = require "netsection.document"
local json = require "dkjson"
local parts = require "netsection.parts"
local point = require "netsection.point"
local sheets = require "netsection.homework.sheets"
local show = require "netsection.homework.show"
local error = require "netsection.raise".error
local tostring = require "netsection.point".text

local qti = {}

local ITEM = "http://www.imsglobal.org/xsd/imsqti_v2p1"
local MANIFEST = "http://www.imsglobal.org/xsd/imscp_v1p1"
local XSI = "http://www.w3.org/2001/XMLSchema-instance"

local function x(text)
  return (document.escape.html(text))
end

-- A name that XML takes as an identifier.
local function identifier(...)
  return "Q-" .. table.concat({...}, "-"):gsub("[^%w_.-]", function(c)
    return ("_%02x"):format(c:byte())
  end)
end

local function question_of(v)
  local q = v.kind.question
  return type(q) == "function" and q(v.p, v.given) or q
end

---------------------------------------------------------------------------- bodies

local function given_rows(v)
  local out = {}
  for _, row in ipairs(v.rows) do
    out[#out + 1] = ("<tr><td>%s</td><td>%s</td><td>%s</td></tr>"):format(x(row[4]),
      x(row[1]), x(row[1] == "" and tostring(row[2]) or show.given(row[2], row[3])))
  end
  return table.concat(out, "\n")
end

local function figure_of(pictures)
  local out = {}
  for _, name in ipairs(pictures) do
    out[#out + 1] = ('<p><img src="%s" alt="Figure with the numbers given"/></p>')
      :format(x(name))
  end
  return table.concat(out, "\n")
end

local function interaction(step)
  if step.choice then
    local out = {'<choiceInteraction responseIdentifier="RESPONSE" shuffle="false" '
      .. 'maxChoices="1">'}
    for i, word in ipairs(step.choice) do
      out[#out + 1] = ('<simpleChoice identifier="C%d">%s</simpleChoice>'):format(i,
        x(word))
    end
    out[#out + 1] = "</choiceInteraction>"
    return table.concat(out, "\n")
  elseif step.hand then
    return '<extendedTextInteraction responseIdentifier="RESPONSE"/>'
  end
  return ('<p>%s = <textEntryInteraction responseIdentifier="RESPONSE" '
    .. 'expectedLength="12"/> %s</p>'):format(x(step.symbol), x(show.unit(step.unit)))
end

---------------------------------------------------------------------------- responses

local function value_text(value)
  return point.format("%.10g", value)
end

local function declaration(step, correct)
  if step.hand then
    return '<responseDeclaration identifier="RESPONSE" cardinality="single" '
      .. 'baseType="string"/>'
  end
  local base, value = "float", nil
  if step.choice then
    base = "identifier"
    for i, word in ipairs(step.choice) do
      if word == correct then value = "C" .. i end
    end
  else
    value = value_text(correct)
  end
  return ('<responseDeclaration identifier="RESPONSE" cardinality="single" '
    .. 'baseType="%s">\n<correctResponse><value>%s</value></correctResponse>\n'
    .. "</responseDeclaration>"):format(base, value)
end

-- One number against another: relative tolerance in percent, a whole number to 0.01.
local function equal(step, value)
  local mode = step.whole and 'toleranceMode="absolute" tolerance="0.01 0.01"'
    or point.format('toleranceMode="relative" tolerance="%g %g"', 100 * step.tolerance,
      100 * step.tolerance)
  return ('<equal %s><variable identifier="RESPONSE"/><baseValue baseType="float">%s'
    .. "</baseValue></equal>"):format(mode, value_text(value))
end

local function set(name, base, value)
  return ('<setOutcomeValue identifier="%s"><baseValue baseType="%s">%s</baseValue>'
    .. "</setOutcomeValue>"):format(name, base, value)
end

-- Mistakes of a part: {value, text} each.
local function slips_of(v, step)
  local list = {}
  for i, mistake in ipairs(v.kind.mistakes) do
    local value = v.slips[i][step.symbol]
    if value then
      list[#list + 1] = {value = value, text = ("%s: %s"):format(mistake.name,
        mistake.reveals)}
    end
  end
  return list
end

local function processing(v, step, slips)
  if step.hand then return "" end
  local correct = v.s[step.symbol]
  local test = step.choice and '<match><variable identifier="RESPONSE"/>'
    .. '<correct identifier="RESPONSE"/></match>' or equal(step, correct)
  local out = {"<responseProcessing>", "<responseCondition>", "<responseIf>", test,
    set("SCORE", "float", show.number(step.marks)), "</responseIf>"}
  for i, slip in ipairs(slips) do
    table.move({"<responseElseIf>", equal(step, slip.value),
      set("FEEDBACK", "identifier", "M" .. i), "</responseElseIf>"}, 1, 4, #out + 1, out)
  end
  table.move({"</responseCondition>", "</responseProcessing>"}, 1, 2, #out + 1, out)
  return table.concat(out, "\n")
end

local function outcomes(step)
  return ('<outcomeDeclaration identifier="SCORE" cardinality="single" baseType="float">'
    .. "\n<defaultValue><value>0</value></defaultValue>\n</outcomeDeclaration>\n"
    .. '<outcomeDeclaration identifier="MAXSCORE" cardinality="single" baseType="float">'
    .. "\n<defaultValue><value>%s</value></defaultValue>\n</outcomeDeclaration>\n"
    .. '<outcomeDeclaration identifier="FEEDBACK" cardinality="single" '
    .. 'baseType="identifier"/>'):format(show.number(step.marks))
end

--- One item. @param id its identifier; @param pictures names of its figures
local function item_of(v, step, id, pictures)
  local slips = not step.choice and not step.hand and slips_of(v, step) or {}
  local out = {'<?xml version="1.0" encoding="UTF-8"?>',
    ('<assessmentItem xmlns="%s" xmlns:xsi="%s" xsi:schemaLocation="%s '
      .. 'http://www.imsglobal.org/xsd/qti/qtiv2p1/imsqti_v2p1.xsd" identifier="%s" '
      .. 'title="%s" adaptive="false" timeDependent="false">'):format(ITEM, XSI, ITEM, id,
      x(("%s (%s)"):format(v.kind.title, step.part))),
    declaration(step, v.s[step.symbol]), outcomes(step), "<itemBody>", "<div>",
    "<p>" .. x(question_of(v)) .. "</p>", "<table><tbody>", given_rows(v),
    "</tbody></table>", figure_of(pictures),
    ("<p>(%s) %s</p>"):format(step.part, x(step.ask)), interaction(step), "</div>",
    "</itemBody>", processing(v, step, slips)}
  for i, slip in ipairs(slips) do
    out[#out + 1] = ('<modalFeedback outcomeIdentifier="FEEDBACK" identifier="M%d" '
      .. 'showHide="show">%s</modalFeedback>'):format(i, x(slip.text))
  end
  out[#out + 1] = "</assessmentItem>\n"
  return (table.concat(out, "\n"):gsub("\n\n+", "\n"))
end

---------------------------------------------------------------------------- the package

local function manifest(items)
  local out = {'<?xml version="1.0" encoding="UTF-8"?>',
    ('<manifest xmlns="%s" xmlns:xsi="%s" xsi:schemaLocation="%s '
      .. 'http://www.imsglobal.org/xsd/qti/qtiv2p1/qtiv2p1_imscpv1p2_v1p0.xsd" '
      .. 'identifier="MANIFEST-1">'):format(MANIFEST, XSI, MANIFEST),
    "<metadata><schema>QTIv2.1 Package</schema><schemaversion>1.0.0</schemaversion>"
      .. "</metadata>", "<organizations/>", "<resources>"}
  for _, item in ipairs(items) do
    out[#out + 1] = ('<resource identifier="R%s" type="imsqti_item_xmlv2p1" href="%s">')
      :format(item.id, item.name)
    out[#out + 1] = ('<file href="%s"/>'):format(item.name)
    for _, picture in ipairs(item.pictures) do
      out[#out + 1] = ('<file href="%s"/>'):format(x(picture))
    end
    out[#out + 1] = "</resource>"
  end
  out[#out + 1] = "</resources>\n</manifest>\n"
  return table.concat(out, "\n")
end

-- The students asked for, in the order of the set.
local function students_of(set_, ids)
  if not ids then return set_.students end
  local list = {}
  for i, id in ipairs(ids) do
    list[i] = set_.by_id[id]
    if not list[i] then error(("qti: no student with the id %s"):format(tostring(id)),
      4) end
  end
  return list
end

local function of_version(files, items, v, name, pictures)
  for _, step in ipairs(v.kind.steps) do
    if step.part then
      local id = identifier(name, step.part)
      local file = id .. ".xml"
      files[#files + 1] = {name = file, text = item_of(v, step, id, pictures)}
      items[#items + 1] = {id = id, name = file, pictures = pictures}
    end
  end
end

--- Files of the package. @param options {students = ids, figures = {name = SVG text} as
--   sheets.pictures gives them, or true: drawn by gnuplot}
-- @return list of {name =, text =}; or nil and what is wrong with gnuplot
function qti.files(set_, options)
  parts.only("qti", options, {"students", "figures"}, 3)
  local files, items, done, drawn = {}, {}, {}, {}
  for _, student in ipairs(students_of(set_, options.students)) do
    local pictures, why
    if options.figures then
      pictures, why = sheets.pictures(set_, student)
      if not pictures then return nil, why end
    end
    for i, problem_ in ipairs(set_.problems) do
      local v = student[i]
      local name = ("%s-%d"):format(problem_.label, v.number or 0)
      if not done[name] then
        done[name] = true
        local own = {}
        for n, svg in ipairs(pictures and pictures[i] or {}) do
          own[n] = ("figures/%s-%d.svg"):format(identifier(name), n)
          drawn[#drawn + 1] = {name = own[n], text = svg}
        end
        of_version(files, items, v, name, own)
      end
    end
  end
  table.move(drawn, 1, #drawn, #files + 1, files)
  table.insert(files, 1, {name = "imsmanifest.xml", text = manifest(items)})
  return files
end

---------------------------------------------------------------------------- plain bank

-- One row for each version and part.
local function bank_rows(set_)
  local rows, done = {}, {}
  for _, student in ipairs(set_.students) do
    for i, problem in ipairs(set_.problems) do
      local v = student[i]
      local name = ("%s-%d"):format(problem.label, v.number or 0)
      if not done[name] then
        done[name] = true
        local given = {}
        for k, row in ipairs(v.rows) do
          given[k] = ("%s %s %s"):format(row[4], row[1], row[1] == "" and row[2]
            or show.given(row[2], row[3])):gsub("%s+", " ")
        end
        for _, step in ipairs(v.kind.steps) do
          if step.part then
            rows[#rows + 1] = {version = name, kind = v.kind.name, part = step.part,
              question = question_of(v), given = table.concat(given, "; "),
              ask = step.ask, unit = step.unit, answer = step.hand or v.s[step.symbol],
              tolerance = not (step.hand or step.choice) and (step.whole and 0
                or step.tolerance) or nil, marks = step.marks}
          end
        end
      end
    end
  end
  return rows
end

local COLUMNS = {"version", "kind", "part", "question", "given", "ask", "unit", "answer",
  "tolerance", "marks"}

--- The bank as plain text. @param form "csv" or "json"
function qti.bank(set_, form)
  local rows = bank_rows(set_)
  if form == "json" then
    return json.encode(rows, {indent = true, keyorder = COLUMNS}) .. "\n"
  end
  local out = {csv.line(COLUMNS)}
  for _, row in ipairs(rows) do
    local cells = {}
    for i, name in ipairs(COLUMNS) do
      local value = row[name]
      cells[i] = type(value) == "number" and value_text(value) or value or ""
    end
    out[#out + 1] = csv.line(cells)
  end
  return table.concat(out)
end

return qti
