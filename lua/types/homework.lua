---@meta
-- SPDX-License-Identifier: MIT
-- Homework: a set of problems with each student's own numbers, keys, marking, gradebook.

---@class netsection
local ns = {}

---A student of a set.
---@class netsection.StudentFields
---@field id string that stands on the sheet
---@field name? string default the id
---
---`{[problem's number or label] = {name = value}}`: base values pinned for this student.
---@field given? table<any,table> in the units of the kind; default none

---Shares of the marks.
---@class netsection.PartialFields
---@field follows? number for what follows from an earlier answer, no unit; default 0.5
---@field mistake? number for a recognized mistake, no unit; default 0
---@field ["unit slip"]? number for a slip of units, no unit; default 0

---A problem of a set. All base values given, the version is taken as it is.
---@class netsection.ProblemFields
---@field kind string|table a kind's name, or one of `ns.homework.kind`
---
---base values pinned, in the units of the kind; default none
---@field given? table<string,any>
---
---lists of base values, likewise; default those of the kind
---@field vary? table<string,any>
---@field mode? string one of the kind's modes; default all, kept level
---@field near_edge? boolean versions within 2 % of an edge as well; default false
---@field label? string on the sheets; default the kind's name
---@field tolerance? number of answers, relative, no unit; default that of each step
---@field partial? netsection.PartialFields default half for what follows

---@class netsection.HomeworkFields
---@field course string at the head of the sheets
---@field seed string numbers follow from it and the student
---@field students (string|netsection.StudentFields)[] ids, or more of them
---@field problems (string|netsection.ProblemFields)[] kinds, or more of them
---@field due? string printed; default none
---@field standard? netsection.StandardOption default "us-nds-2018-asd"
---@field units? string "us" or "metric" of the problems; default that of the first
---@field hardness? number how hard versions are, no unit, 0 to 1; default 0.5
---@field decimal? string "." (default) or "," on sheets and in answers
---@field lang? string "en-US" (default), "en-GB" or "en-CA"

---Makes a set. Kinds: `ns.homework.kinds()`; their base values are the `vary` of
---`lua/netsection/homework/kinds/<name>.lua`, lengths in inches.
---
---Errors: raises for wrong fields, kinds and base values.
---
---```lua
---local set = ns.homework {course = "Timber floors", seed = "first", students = {"k17"},
---  problems = {"tributary_load", "tub"}}
---print(#set:of "k17")  --> 2
---```
---@class netsection.homework
---@overload fun(t: netsection.HomeworkFields): netsection.HomeworkSet
local homework = {}
ns.homework = homework

---As `ns.homework`.
---
---Errors: raises for wrong fields, kinds and base values.
---
---```lua
---local set = ns.homework.new {course = "Timber floors", seed = "first",
---  students = {"k17"}, problems = {"tributary_load"}}
---print(set.course)  --> Timber floors
---```
---@param t netsection.HomeworkFields course, students, problems
---@return netsection.HomeworkSet set # with its versions
function homework.new(t) end

---Names of the kinds whose keys are worked by a standard, in the order in which a course
---would take them.
---
---Errors: raises for a standard that there is not.
---
---```lua
---print(ns.homework.kinds()[1])
---```
---@param standard? string default "us-nds-2018-asd"
---@return string[] names # of kinds
function homework.kinds(standard) end

---A kind of problem. See DEVELOPERS.md for its fields.
---@class netsection.KindFields
---@field name string letters and _
---@field title string over the problem
---@field vary table<string,any> lists of base values: in, psf, plf, lb, or texts
---@field given fun(p:table):table[] rows {symbol, value, unit, says}
---@field question string|fun(p:table,given:table):string what is asked
---@field steps table[] {symbol, formula, unit, ask=, marks=, ...} in order
---@field mistakes table[] {of=, name=, reveals=, formula= or with=}
---
---makes sense, or its mode; default all do
---@field suits? fun(p:table,s:table):boolean|string
---@field modes? string[] default none
---@field edge? string[] symbols kept 2 % off 1; default none
---@field figure? fun(p:table,s:table,draw:table):string of the sheet; default none
---@field axes? fun(p:table,s:table,draw:table):string to draw on; default none
---@field key_figure? fun(p:table,s:table,draw:table):string of the key; default none
---@field check fun(p:table,s:table):table values by symbol on another path
---@field source string of the check
---@field order? integer in a course, no unit; default last
---@field standards? string[] by which its key is worked; default all
---@field units? string "us" (default) or "metric": what it gives and asks in

---A kind of your own, to be named in `problems`; examples/own_problem.lua makes one.
---
---Errors: raises for wrong fields and for steps whose formulas cannot be read.
---
---```lua
---print(pcall(ns.homework.kind, {name = "mine"}))
---```
---@param t netsection.KindFields what it gives and asks
---@return table kind # for `problems`
function homework.kind(t) end

---Changes of a frozen set.
---@class netsection.HomeworkChanges
---@field students? table[] all of them now; default those of the file
---@field problems? table[] all of them now; default those of the file
---@field kinds? table[] kinds of your own that it uses; default none
---@field due? string default that of the file

---A frozen set. Students and problems may be added, removed and reordered: nobody else's
---numbers change; who left and comes back finds theirs.
---
---Errors: nil and a message where it cannot be read, a kind has changed since, or numbers
---differ; raises for wrong changes.
---
---```lua
---assert(set:save(folder .. "/set.json"))
---print(#assert(ns.homework.load(folder .. "/set.json")).students)  --> 1
---```
---@param path string of `set:save`
---@param changes? netsection.HomeworkChanges students, problems, kinds, due
---@return netsection.HomeworkSet|nil set # as it was frozen
---@return string|nil message # why not
function homework.load(path, changes) end

---@class netsection.homework.figure
local figure = {}
ns.homework.figure = figure

---A simple beam with its loads, not to scale up.
---
---Errors: raises for numbers that cannot be drawn.
---
---```lua
---print(#ns.plot.sketch(ns.homework.figure.loads {L = 12, w = "60 plf"}) > 0)  --> true
---```
---@param t table {L=, w=, parts={{from, to, text}}, points={{at, text}}}, ft
---@return table sketch # for `ns.plot.sketch`
function figure.loads(t) end

---Empty axes along a simple beam, to draw a diagram on.
---
---Errors: raises for numbers that cannot be drawn.
---
---```lua
---print(#ns.plot.sketch(ns.homework.figure.axes {L = 12, name = "M"}) > 0)  --> true
---```
---@param t table {L=, name=}, ft
---@return table sketch # for `ns.plot.sketch`
function figure.axes(t) end

---A diagram along a simple beam, for a key.
---
---Errors: raises for numbers that cannot be drawn.
---
---```lua
---print(#ns.plot.sketch(ns.homework.figure.diagram {L = 12, name = "M",
---  points = {{0, 0}, {6, 900}, {12, 0}}, marks = {}}) > 0)  --> true
---```
---@param t table {L=, name=, points={{x, value}}, marks={{x, value, text}}}, ft
---@return table sketch # for `ns.plot.sketch`
function figure.diagram(t) end

---Cross sections side by side, to one scale.
---
---Errors: raises for numbers that cannot be drawn.
---
---```lua
---print(#ns.plot.sketch(ns.homework.figure.sections {{name = "joist", b = 1.5,
---  d = 9.25}}) > 0)  --> true
---```
---@param list table[] {name=, b=, d=, up=, voids={{y1, y2}}, marks=}, in
---@return table sketch # for `ns.plot.sketch`
function figure.sections(list) end

---Three joists in plan, with what stands between them.
---
---Errors: raises for numbers that cannot be drawn.
---
---```lua
---local plan = ns.homework.figure.plan {L = 12, left = 16, right = 16}
---print(#ns.plot.sketch(plan) > 0)  --> true
---```
---@param t table {L= ft, left=, right= in, tub={from, to, width}}
---@return table sketch # for `ns.plot.sketch`
function figure.plan(t) end

---What a kind draws with: `elevation`, `moment`, `shear` of a joist, and the sketches.
---
---Errors: none of its own.
---
---```lua
---print(type(ns.homework.figure.with {output = "a.svg"}.loads))  --> function
---```
---@param options netsection.PlotOptions output, title
---@return table draw # functions
function figure.with(options) end

---@class netsection.HomeworkSet
---@field course string at the head of the sheets
---@field seed string numbers follow from it
---@field standard string its name
---@field units string of its problems
---@field hardness number no unit, 0 to 1
---@field due? string printed
---@field students table[] id, name, code, and their versions
---@field problems table[] number, label, kind
---@field warnings string[] versions that ran out, base values that change no answer
---@field private lang string
---@field private decimal string
---@field private by_id table
---@field private index table
---@field private editions table
local set = {}

---How sheets are drawn.
---@class netsection.SheetOptions
---@field figures? boolean gnuplot draws the figures; default false
---@field draw? fun(script:string,name:string):string gives them as SVG; default none

---The sheet of a student.
---
---Errors: raises for a student that there is not and for a wrong option.
---
---```lua
---print(#set:sheet("k17").blocks > 0)  --> true
---```
---@param id string of the student
---@param options? netsection.SheetOptions figures
---@return netsection.Document document # to be written in any form
function set:sheet(id, options) end

---The key of a student.
---
---Errors: raises for a student that there is not and for a wrong option.
---
---```lua
---print(#set:key("k17").blocks > 0)  --> true
---```
---@param id string of the student
---@param options? netsection.SheetOptions figures
---@return netsection.Document document # to be written in any form
function set:key(id, options) end

---All answers of all students.
---
---Errors: none of its own.
---
---```lua
---print(#set:master().blocks > 0)  --> true
---```
---@return netsection.Document document # to be written in any form
function set:master() end

---A figure's script.
---@class netsection.FigureScript
---@field name string of its file
---@field script string for gnuplot

---Scripts of the figures of a student; those of the key end in k.
---
---Errors: raises for a student that there is not.
---
---```lua
---print(#set:figures "k17" > 0)  --> true
---```
---@param id string of the student
---@return netsection.FigureScript[] figures # name and script
function set:figures(id) end

---A version of a problem.
---@class netsection.Version
---@field kind table what it is a version of
---@field number? integer which one, no unit
---@field p table<string,any> base values, in the units of the kind
---@field s table<string,any> every symbol's value, in the unit of its step
---@field given table what is given on the sheet
---@field mode string its mode, or ""
---@field slips table[] what each mistake comes to
---@field rows table[] rows of what is given
---@field private answers string
---@field private measures table
---@field private shown table

---A student's versions, in the order of the problems.
---
---Errors: raises for a student that there is not.
---
---```lua
---print(set:of("k17")[1].s.w > 0)  --> true
---```
---@param id string of the student
---@return netsection.Version[] versions # one for each problem
function set:of(id) end

---How equal the versions of a problem are.
---@class netsection.Difficulty
---@field kind string of the problem
---@field marks number of the problem, no unit
---@field versions integer that there are, a count
---@field used integer that were handed out, a count
---@field number integer of the problem, no unit
---@field alike integer students without a version of their own, a count
---@field modes table[] {mode, count}
---@field range? table {symbol, least, middle, most}

---How equal the versions are, by problem; `tostring` prints it.
---
---Errors: none of its own.
---
---```lua
---print(set:difficulty())
---```
---@return netsection.Difficulty[] difficulty # by problem
function set:difficulty() end

---Freezes the set: who has which version.
---
---Errors: nil and a message where it cannot be written.
---
---```lua
---assert(set:save(folder .. "/set.json"))
---```
---@param path string where
---@return boolean|nil ok # true
---@return string|nil message # why not
function set:save(path) end

---A row for each part, to be filled in, with the code of the sheet.
---
---Errors: raises for a student that there is not.
---
---```lua
---print(set:answer_form():match "^[^\r\n]+")  --> student,problem,part,answer,code
---```
---@param id? string of one student; default all
---@return string text # CSV
function set:answer_form(id) end

---What a content package holds.
---@class netsection.QtiOptions
---@field students? string[] ids; default all
---@field figures? boolean|table gnuplot draws them, or SVG by name; default false
---@field zip? boolean the bytes of an archive; default false: a list of files

---A QTI 2.1 content package, an item for each version and part.
---
---Errors: nil and what is wrong with gnuplot; raises for a wrong option.
---
---```lua
---print(set:qti()[1].name)  --> imsmanifest.xml
---```
---@param options? netsection.QtiOptions students, figures, zip
---@return netsection.PackageFile[]|string|nil files # or bytes
---@return string|nil message # why not
function set:qti(options) end

---The bank of questions as plain rows, one for each version and part.
---
---Errors: raises for another form.
---
---```lua
---print(#set:bank "json" > 0)  --> true
---```
---@param form? string "csv" (default) or "json"
---@return string text # CSV or JSON
function set:bank(form) end

---How answers are marked.
---@class netsection.MarkOptions
---@field take? string of several answers the "last" (default), "first" or "best"
---@field late? number|fun(days:number):number factor for late ones, no unit; default 1
---@field follows? number share for what follows, no unit, 0 to 1; default 0.5
---@field hand? string|table[] rows of parts marked by hand; default none
---@field own? string[] ids marked though their numbers are another's; default none

---Marks answers, read with or without units. Verdicts: `right`; `follows`: wrong, but
---what
---the steps give with the student's own earlier, plausible answers; `mistake`: a common
---one;
---`unit slip`: off by 12, 144, 1728, 1000 or the sign; `wrong`; `no answer`; `not read`;
---`another version`: the code is not that of the sheet; `by hand`.
---
---Errors: nil and a message where the text is no CSV or a column is missing; raises for a
---wrong option.
---
---```lua
---local v = set:of("k17")[1]
---local marks = set:mark {{student = "k17", problem = 1, part = "a",
---  answer = ("%.3f ft"):format(v.s.t)}}
---print(marks.students.k17.problems[1].parts[1].verdict)  --> right
---```
---@param answers string|table[] CSV, or rows {student=, problem=, part=, answer=}
---@param options? netsection.MarkOptions take, late, follows, hand
---@return netsection.Marks|nil marks # by student
---@return string|table|nil message # why not
function set:mark(answers, options) end

---A part that was marked.
---@class netsection.MarkedPart
---@field part string its letter
---@field symbol string that was asked for
---@field given? string as it was answered
---@field value? number as it was read, in the unit of the part
---@field verdict string see `set:mark`
---@field hint? string for the student
---@field marks number no unit
---@field out_of number no unit
---@field row? integer of the answers, no unit
---@field mistake? string the one that was recognized
---@field entered? boolean marked by hand

---Marks of a student.
---@class netsection.StudentMarks
---@field id string of the student
---@field marks number no unit
---@field out_of number no unit
---@field by_hand number parts that wait for a hand, a count
---@field late? number days, a count
---@field problems table[] marks, out_of, parts (netsection.MarkedPart[])
---@field submission? string which was taken

---@class netsection.Marks
---@field order string[] ids
---@field students table<string,netsection.StudentMarks> by id
---@field problems table[] rows that could not be read: row, reason
---@field private set table
local marks = {}

---Marks in lines.
---
---Errors: none of its own.
---
---```lua
---print(set:mark({}):text())
---```
---@return string text # plain
function marks:text() end

---A row for each part.
---
---Errors: none of its own.
---
---```lua
---print(#set:mark({}):csv() > 0)  --> true
---```
---@return string text # CSV
function marks:csv() end

---A row for each student, of the columns student, name, marks, out of, percent, by hand,
---late, submission, problem 1 and so on.
---
---Errors: raises for a column that there is not.
---
---```lua
---local text = set:mark({}):gradebook {"student", "marks"}
---print(text:match "^[^\r\n]+")  --> student,marks
---```
---@param columns? table[] names, or {name, heading}
---@return string text # CSV
function marks:gradebook(columns) end

---A student's feedback: each answer, its verdict, marks and hint; no right answers.
---
---Errors: raises for a student that there is not.
---
---```lua
---print(#set:mark({}):feedback("k17").blocks > 0)  --> true
---```
---@param id string of the student
---@return netsection.Document document # to be written in any form
function marks:feedback(id) end

---How a part was answered.
---@class netsection.Item
---@field problem integer its number, no unit
---@field part string its letter
---@field answered integer how many did, a count
---@field share number of the marks, no unit, 0 to 1
---@field discrimination? number correlation with the other marks, no unit
---@field slips table how many made which mistake, counts

---How each part was answered; `tostring` prints it.
---
---Errors: none of its own.
---
---```lua
---print(set:mark({}):items()[1].answered)  --> 0
---```
---@return netsection.Item[] items # by part
function marks:items() end
