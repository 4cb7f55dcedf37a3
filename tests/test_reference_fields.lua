-- SPDX-License-Identifier: MIT
-- Fields and options in the reference are those that the code names when it refuses one
-- that there is not; ranges are those of the lists of the core.
local entries = require "tests.entries"
local core_fields = require("netsection.core").fields()
local ns = require "netsection"

local T = {}

local fields_of, report = entries.fields_of, entries.report
local objects, values = entries.objects, entries.values

-- What is called with a field that there is not, by the class of its fields.
local CALLS = {
  JoistFields = ns.joist, FloorFields = ns.floor, ObstructionFields = ns.obstruction,
  HoleFields = ns.hole, SlotFields = ns.slot, NotchFields = ns.notch,
  EndNotchFields = ns.end_notch, SeverFields = ns.sever,
  LostBearingFields = ns.lost_bearing, LossFields = ns.loss, SplitFields = ns.split,
  PointFields = ns.point, LineFields = ns.line, AreaFields = ns.area, TubFields = ns.tub,
  SisterFields = ns.sister, SidePlatesFields = ns.side_plates, StrapFields = ns.strap,
  HeaderFields = ns.header, HangerFields = ns.hanger,
  MidspanSupportFields = ns.midspan_support, AddedJoistFields = ns.added_joist,
  NotchScrewsFields = ns.notch_screws, EndSisterFields = ns.end_sister,
  PropFields = ns.prop, PostFields = ns.post, PlateFields = ns.plate,
  WallFields = ns.wall, FootingFields = ns.footing,
  BeamLineFields = ns.beam_line, FastenerFields = ns.fastener.new,
  BeamFields = ns.beam, SectionFields = ns.section,
  LateralFields = ns.lateral, WithdrawalFields = ns.withdrawal,
  SlipFields = ns.fastener.slip, CgFields = ns.fastener.Cg,
  DistancesFields = ns.fastener.distances, CDeltaFields = ns.fastener.C_delta,
  TearOutFields = ns.fastener.tear_out, SteelFields = ns.fastener.steel,
  ScrewInSheetFields = ns.fastener.screw_in_sheet, ShearFields = ns.fastener.shear,
  LeadHoleFields = ns.fastener.lead_hole, OddsFields = ns.odds,
  SurveyFields = ns.read_survey, FieldSheetFields = ns.field_sheet,
  HomeworkFields = ns.homework.new, KindFields = ns.homework.kind,
  DocumentFields = ns.document.new, TableFields = ns.table.new, SweepFields = ns.sweep,
  CodeOptions = function(t) return values().joist:adjusted("Fb", t) end,
  JoistReviewOptions = function(t) return values().joist:review(t) end,
  SpanOptions = function(t) return values().joist:span_intervals(t) end,
  LongestSpanOptions = function(t) return values().joist:longest_span(t) end,
  SensitivityOptions = function(t) return values().joist:sensitivity(t) end,
  JoistOddsFields = function(t) return values().joist:odds(t) end,
  FloorOddsFields = function(t) return values().floor:odds(t) end,
  FloorReviewOptions = function(t) return values().floor:review(t) end,
  RankOptions = function(t)
    return values().floor:rank_fixes("J2", {ns.sister {}}, t)
  end,
  GridFields = function(t) return values().floor:grid(t) end,
  FeelFields = function(t) return values().floor:feel(t) end,
  LoadPathFields = function(t) return values().floor:load_path(t) end,
  ShoresFields = function(t) return values().floor:shores(t) end,
  LargestOptions = function(t)
    t.cut, t.at = "hole", 60
    return values().joist:largest(t)
  end,
  MemberOptions = function(t) return ns.footing {soil = 1500}:review(t) end,
  StateDocumentOptions = function(t) return objects().state:document(t) end,
  StateHtmlOptions = function(t) return objects().state:html(t) end,
  PathDocumentOptions = function(t) return values().path:document(t) end,
  PathHtmlOptions = function(t) return values().path:html(t) end,
  PaperOptions = function(t) return values().thirds:html(t) end,
  TableCsvOptions = function(t) return values().thirds:csv(t) end,
  SpotCheckFields = function(t) return values().thirds:spot_check(t) end,
  SummaryOptions = function(t) return values().sweep:summary(t) end,
  SweepCsvOptions = function(t) return values().sweep:csv("unwritten.csv", t) end,
  ReportTextOptions = function(t) return ns.report.text(values().review, t) end,
  ReportOptions = function(t) return ns.report.markdown(values().review, t) end,
  ReportHtmlOptions = function(t) return ns.report.html(values().review, t) end,
  PackageOptions = function(t) return ns.package.files(values().review, t) end,
  Visit = function(t) return ns.package.files(values().review, {visit = t}) end,
  CompareOptions = function(t) return ns.compare(values().review, values().review, t) end,
  WorkbookTablesOptions = function(t)
    return ns.workbook.tables({values().thirds}, "unwritten.ods", t)
  end,
  SizeSisterFields = function(t) return ns.size_sister(values().severed, t) end,
  SizeStrapFields = function(t) return ns.size_strap(values().severed, t) end,
  SheetOptions = function(t) return values().set:sheet("k17", t) end,
  QtiOptions = function(t) return values().set:qti(t) end,
  MarkOptions = function(t) return values().set:mark({}, t) end,
  ListOptions = function(t) return objects().document:list({}, t) end,
  GroupOptions = function(t) return objects().document:group(t, print) end,
  DocumentTable = function(t) return objects().document:table(t) end,
  DocumentFigure = function(t) return objects().document:figure(t) end,
  PlotOptions = function(t) return ns.plot.moment(values().review, t) end,
  SectionPlotOptions = function(t) return ns.plot.section(values().review, t) end,
  CutMapOptions = function(t) return ns.plot.cut_map(values().joist, t) end,
  DetailOptions = function(t)
    return ns.plot.detail(values().severed:fix(ns.sister {}), t)
  end,
  CurvesOptions = function(t)
    t.value, t.x = "ratio", "spacing"
    return ns.plot.curves(values().sweep, t)
  end,
  ContourOptions = function(t)
    t.value, t.x, t.y = "ratio", "spacing", "live"
    return ns.plot.contour(ns.sweep {joist = values().joist,
      over = {spacing = {12, 16}, live = {30, 40}}}, t)
  end,
}

-- Names that a refusal says are taken.
local function taken(text)
  local list = text:match "%(takes (.-)%)" or text:match "options are (.*)$"
  if not list then return nil end
  local names = {}
  for name in list:gsub(" and ", ", "):gmatch "[^,%s]+[^,]*" do names[name] = true end
  return names
end

function T.test_fields_are_those_that_the_code_takes()
  local wrong = {}
  for short, call in pairs(CALLS) do
    local ok, said = pcall(call, {no_such_field = 1})
    local names = not ok and taken(tostring(said))
    local fields = fields_of("netsection." .. short)
    if not names then
      wrong[#wrong + 1] = ("%s: no refusal with a list: %s"):format(short, tostring(said))
    else
      for name in pairs(names) do
        if not fields[name] then
          wrong[#wrong + 1] = short .. "." .. name .. ": no entry"
        end
      end
      for name in pairs(fields) do
        if not names[name] then
          wrong[#wrong + 1] = short .. "." .. name .. ": not taken"
        end
      end
    end
  end
  report(wrong)
end

-- Fields of a rule pack and of its limits, as its reader knows them.
function T.test_fields_of_a_rule_pack()
  local rules = require "netsection.packs.rules"
  local wrong = {}
  for class, names in pairs {RulePack = rules.fields, RuleLimit = rules.limit_fields} do
    local fields, known = fields_of("netsection." .. class), {}
    for _, name in ipairs(names) do
      known[name] = true
      if not fields[name] then
        wrong[#wrong + 1] = class .. "." .. name .. ": no entry"
      end
    end
    for name in pairs(fields) do
      if not known[name] then
        wrong[#wrong + 1] = class .. "." .. name .. ": not taken"
      end
    end
  end
  report(wrong)
end

-- Ranges of the core's lists: fields whose texts say them, by list and class; a field of
-- another name in the core with it.
local RANGES = {
  joist = {JoistDefaults = {"span", "overhang_left", "overhang_right", "b", "d", "plies",
    "spacing", "dead", "live", "temperature", "members", creep = "Kcr", "notch_raiser"},
    Material = {"Fb", "Ft", "Fv", "Fc_perp", "Fc", "E", "Emin", "CF", "CF_t", "CF_c"}},
  cut = {HoleFields = {"at", "diameter", "below", "above"}, AlongFields = {"from", "to"},
    SlotFields = {"height", "below", "above"}, NotchShape = {"depth", "overcut", "taper",
    "split_length"}, EndNotchFields = {"length"}, SplitFields = {"at_depth"},
    LossFields = {"top", "bottom", "sides", "allowance", "seat_tolerance"}},
  point = {PointFields = {"at", load = "P"}}, line = {LineFields = {load = "w1"},
    TubFields = {"width"}}, fix = {BesideFields = {"from", "to", "rise"}},
}

local function range_text(row)
  local function shown(x)
    return x == math.floor(x) and ("%d"):format(x) or ("%g"):format(x)
  end
  return shown(row.low) .. " to " .. shown(row.high)
end

function T.test_ranges_are_those_of_the_core()
  local wrong = {}
  for list, by_class in pairs(RANGES) do
    local rows = {}
    for _, row in ipairs(core_fields[list]) do rows[row.name] = row end
    for short, names in pairs(by_class) do
      local fields = fields_of("netsection." .. short)
      for key, name in pairs(names) do
        local field = fields[type(key) == "string" and key or name]
        local said = range_text(rows[name])
        if not field.text:find(said, 1, true) then
          wrong[#wrong + 1] = ("%s.%s: %s expected"):format(short, field.name, said)
        end
      end
    end
  end
  report(wrong)
end

return T
