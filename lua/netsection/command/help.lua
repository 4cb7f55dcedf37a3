-- SPDX-License-Identifier: MIT
-- What the command says about itself.
local help = {}

help.verbs = "review, template, sheet, compare, recheck, rules, homework"

help.usage = [[
netsection: what is left of cut wood joists, and what comes next

  netsection review FOLDER [--into FOLDER]   review a survey; write the package
  netsection template FOLDER                 write blank field books
  netsection sheet [--into FILE]             a sheet to fill in on site
  netsection compare OLD NEW [--into FILE]   what changed between two visits
  netsection recheck NUMBERS [--survey FOLDER]   results of an earlier version again
  netsection rules                           rule sets and standards on file
  netsection homework FILE --into FOLDER     sheets, keys and marks of a course
  netsection help VERB                       more about one of these
  netsection --version

the single program (netsection.exe) also takes

  netsection --lua FILE [WORD...]            runs a script that uses the module
  netsection --licenses                      licenses of all that is inside

exit codes
   0  done, and nothing to do: every joist 'leave' or 'justify'; compare, recheck: no
      change
   1  done, and there is work: a joist to decide, repair or refer; compare: changes;
      recheck: changes, or joists that it could not look at
   2  the survey has problems, all of them listed; nothing was written
   3  a file or folder cannot be read or written
  64  wrong usage
  70  a fault of the program itself
  74  standard output could not be written, as on a full disk]]

local MORE = {
  review = [[
netsection review FOLDER|WORKBOOK [options]

Reads FOLDER/joists.csv and, where they are there, cuts.csv, obstructions.csv, loads.csv,
fixes.csv and survey.csv (settings: name, value); or one workbook, .xlsx or .ods, whose
sheets have these names. Prints a line for each joist. Problems of the survey are listed
all at once, each with its file, row and column, or its sheet and cell.

  --into FOLDER      write the package there: short report, drawings, numbers, letter,
                     parts, crew's sheet
  --replace          also where that folder holds something; nothing is ever deleted
  --full             the full calculation as well, as an annex
  --render           pictures drawn by gnuplot inside the pages; scripts alone otherwise
  --pdf              PDF beside each page, with pictures, by a browser or converter that
                     is found on the machine (Chromium, WeasyPrint)
  --workbook FORM    xlsx or ods: the calculation also as a workbook that recomputes
  --odds             half a page in the short report: how sure each verdict is, by what
                     was measured or assumed; not used for the verdict
  --photos FOLDER    photos that the survey names (JPEG, PNG) placed in the report
  --job TEXT         job, at the head of each printed page
  --date TEXT        date of the run, at the foot; never read from the clock
  --steps NAME       of --full: checks line by line: all, governing or none; without it
                     all of the joists that are not 'leave', and of those the governing
  --rules NAME       rule set (netsection rules lists them)
  --standard NAME    design standard
  --paper NAME       letter (default) or a4
  --name TEXT        name of the floor
  --units UNIT       of bare lengths: in (default), ft, mm, cm, m
  --printed UNITS    us or metric: what is printed; metric for bare lengths in mm, cm, m
  --lang LANG        en-US, en-GB or en-CA: spelling of what is printed; by default that
                     of the standard's country, else of the rules'
  --by-depth NAME    strapping, bridging or both (Canada): a cut past the limits is within
                     where the joist is deeper by it than its span needs
  --decimal-comma    2,5 is two and a half
  --separator NAME   of CSV: comma, semicolon or tab; found from the headings otherwise
  --encoding NAME    of CSV: utf-8 (default) or latin-1
  --most-joists N    of a survey (1000); more are refused]],
  template = [[
netsection template FOLDER|BOOK [options]

Writes blank field books into FOLDER: joists.csv, cuts.csv, obstructions.csv, loads.csv,
fixes.csv and survey.csv; or, to a name that ends in .xlsx or .ods, one workbook with
lists to choose from. The folder must be new or empty, the file new: a field book that
was filled in is never written over. Rows that begin with # are remarks, not read.

  --printed UNITS   us (default) or metric: of the examples, and of bare lengths
  --lang LANG       en-US (default), en-GB or en-CA: spelling of what explains]],
  sheet = [[
netsection sheet [options]

A sheet to print and fill in by hand.

  --joists N      pages for N joists (1)
  --marks LIST    pages for these joists: J1, J2, J3
  --name TEXT     name of the floor
  --printed UNITS us (default) or metric: of its scales
  --lang LANG     en-US (default), en-GB or en-CA: its spelling
  --into FILE     FILE.html, FILE.md, FILE.tex or FILE.txt; to the screen otherwise
  --paper NAME    letter (default) or a4
  --replace       overwrite FILE]],
  compare = [[
netsection compare OLD NEW [options]

OLD and NEW are a JSON export, a folder that holds a package, a survey folder, or its
workbook.

  --ratio X       the least difference of ratios that is told (0.01)
  --into FILE     FILE.html, FILE.md, FILE.tex or FILE.txt; to the screen otherwise
  --paper NAME    letter (default) or a4
  --replace       overwrite FILE
  --lang LANG     en-US (default), en-GB or en-CA: its spelling
  --rules, --standard, --units, --by-depth, --decimal-comma, --separator, --encoding,
  --most-joists   for survey folders, as in review]],
  recheck = [[
netsection recheck NUMBERS [options]

NUMBERS is the numbers.json of an earlier version, or the folder of the package that
holds it. Lists each joist whose action, rules or ratio changed since, each check that
differs with what it was and is, and the change of rules that moved it; what no change on
file explains is said. Without the survey the joists are described anew from the file, and
those of which it does not tell enough (losses, tubs, repairs, switches) are named.

  --survey FOLDER    the survey, or its workbook: every joist, with its neighbors
  --into FILE        FILE.html, FILE.md, FILE.tex or FILE.txt; to the screen otherwise
  --paper NAME       letter (default) or a4
  --replace          overwrite FILE
  --rules, --standard, --units, --printed, --lang, --by-depth, --decimal-comma,
  --separator, --encoding, --most-joists
                     for the survey, as in review]],
  homework = [[
netsection homework FILE --into FOLDER [options]

FILE is a table of data, return {course =, seed =, students = {...}, problems = {...}}, or
a set.json that an earlier run wrote: then everybody keeps the numbers they have. Writes
a sheet and a key for each student, the instructor's table, the answer form, the bank of
questions, and set.json.

  --answers FILE   marks of these answers instead: by part, by student, feedback sheets
  --render         figures drawn by gnuplot into the sheets; scripts alone otherwise
  --pdf            PDF beside each page, figures drawn as with --render, by a browser
                   that is found on the machine
  --qti            questions.zip, a QTI 2.1 content package
  --paper NAME     letter or a4; by default letter, for sets in metric units a4
  --replace        also where that folder holds something]],
  rules = [[
netsection rules

Lists the rule sets and the design standards on file.]],
}

--- Help on a verb, or on all.
function help.of(verb)
  return MORE[verb] or help.usage
end

return help
