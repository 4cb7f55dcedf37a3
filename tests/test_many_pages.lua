-- SPDX-License-Identifier: MIT
-- Many pages in one start of a browser: a program that is talked to, base 64 back to
-- bytes, and the same PDF as by a start for each page.
local base64 = require "netsection.document.base64"
local browser = require "netsection.browser"
local core = require "netsection.core"
local folder = require "netsection.folder"
local lu = require "luaunit"
local ns = require "netsection"
local pdf = require "netsection.pdf"
local support = require "tests.support"
local system = require "tests.system"
local with_browser = require "tests.browser".with

local raises = support.raises
local T = {}

-- A folder of its own, removed at the end of the block.
local function place()
  local path = assert(core.files.private_folder())
  return setmetatable({path = path}, {__close = function() folder.remove_own(path) end})
end

local there = system.has

-- RFC 4648, section 10.
local VECTORS = {f = "Zg==", fo = "Zm8=", foo = "Zm9v", foob = "Zm9vYg==",
  fooba = "Zm9vYmE=", foobar = "Zm9vYmFy", [""] = ""}

function T.test_base_64_and_back()
  for bytes, text in pairs(VECTORS) do
    lu.assertEquals(base64.of(bytes), text)
    lu.assertEquals(base64.bytes(text), bytes)
  end
  for n = 0, 260 do
    local list = {}
    for i = 1, n do list[i] = string.char((i * 37 + n) % 256) end
    local bytes = table.concat(list)
    lu.assertEquals(base64.bytes(base64.of(bytes)), bytes)
  end
  for _, wrong in ipairs {"Zg=", "Zg", "Z===", "====", "Zg==Zg==", "Zm9v\n", "Z*9v"} do
    lu.assertNil(base64.bytes(wrong), wrong)
  end
end

function T.test_a_program_is_talked_to()
  system.unix "talks with a program"
  if not there "cat" then lu.skip "no cat" end
  local dir <close> = place()
  local said = dir.path .. "/said"
  local talk = assert(core.files.talk({"sh", "-c", "echo begun; cat <&3 >&4"}, said))
  lu.assertTrue(talk:send "hello")
  lu.assertEquals(talk:receive(20), "hello")
  lu.assertTrue(talk:send "")
  lu.assertTrue(talk:send(("x"):rep(100000)))
  lu.assertEquals(talk:receive(20), "")
  lu.assertEquals(#talk:receive(20), 100000)
  local none, why = talk:receive(0.02)
  lu.assertNil(none)
  lu.assertStrContains(why, "too long")
  raises("no NUL", talk.send, talk, "a\0b")
  raises("seconds above 0", talk.receive, talk, 0)
  talk:close()
  raises("closed", talk.receive, talk, 1)
  raises("closed", talk.send, talk, "x")
  talk:close()
  lu.assertStrContains(assert(io.open(said)):read "a", "begun")
end

function T.test_programs_that_are_not_there_or_end()
  system.unix "talks with a program"
  local dir <close> = place()
  local said = dir.path .. "/said"
  local talk, why = core.files.talk({"no-such-program-as-this"}, said)
  lu.assertNil(talk)
  lu.assertStrContains(why, "not found")
  talk = assert(core.files.talk({"sh", "-c", "exit 3"}, said))
  local none
  none, why = talk:receive(20)
  lu.assertNil(none)
  lu.assertStrContains(why, "ended")
  for _ = 1, 3 do talk:send "gone" end    -- a line that is closed stops nobody
  talk:close()
  raises("a list of texts", core.files.talk, {5}, said)
  raises("1 to 32 words", core.files.talk, {}, said)
  -- One that never ends goes with its talk.
  assert(core.files.talk({"sh", "-c", "exec sleep 600"}, said))
  collectgarbage()
  -- No browser answers like this.
  local patience, b = browser.seconds
  browser.seconds = 0.1
  b, why = browser.start({"sh", "-c", "cat >/dev/null <&3"}, said)
  browser.seconds = patience
  lu.assertNil(b)
  lu.assertStrContains(why, "did not answer")
end

local function page(said)
  local d = ns.document.new {title = said, foot = said}
  d:heading(2, "Part of " .. said)
  d:paragraph "Text."
  return ns.document.html(d)
end

-- The same bytes in one start as in one for each; page by page where none is to be talked
-- to.
function T.test_pages_in_one_start()
  if not there "chromium" then lu.skip "no chromium" end
  local told = {}
  local texts, program = pdf.texts({page "one", page "two"}, function(i, n)
    told[i] = n
  end)
  lu.assertEquals(#texts, 2, program)
  lu.assertEquals(told, {2, 2})
  lu.assertEquals(program, "chromium")
  lu.assertStrContains(texts[1], "%PDF")
  lu.assertNotEquals(texts[1], texts[2])
  local start = browser.start
  browser.start = function() return nil, "none" end
  local alone = pdf.texts {page "two"}
  browser.start = start
  lu.assertTrue(alone[1] == texts[2])
end

-------------------------------------------------------- by a browser of the tests' own

-- What the browser of the tests makes of a page, its times blanked in place: the bytes of
-- the page, and a file as long as it was.
local function assert_pdf_of(text, html)
  lu.assertEquals(text:sub(1, 9), "%PDF-1.7\n")
  lu.assertStrContains(text, html)
  lu.assertNotStrContains(text, "20260102")
  lu.assertEquals(#text, #html + #"%PDF-1.7\n<</CreationDate (D:20260102030405+00'00')"
    + #"/ModDate (D:20260102030405+00'00')>>\n" + 20 * #"\n%%EOF")
end

local PAGES = {"<p>one</p>", "<p>two</p>", "<p>three</p>"}

-- @return texts or nil, program or what is wrong, what was started, the steps told
local function texts_of(mode, pages)
  local steps = {}
  local started, texts, program = with_browser(mode, pdf.texts, pages, function(i, n)
    steps[#steps + 1] = i .. "/" .. n
  end)
  return texts, program, started, table.concat(steps, " ")
end

function T.test_all_pages_by_one_browser()
  system.unix "talks with a program"
  local texts, program, started, steps = texts_of("well", PAGES)
  lu.assertEquals(program, "chromium")
  lu.assertEquals(started, {talk = 1, run = 0})
  lu.assertEquals(steps, "1/3 2/3 3/3")
  for i, html in ipairs(PAGES) do assert_pdf_of(texts[i], html) end
  -- One page needs no talk; none needs no program.
  texts, program, started, steps = texts_of("well", {PAGES[2]})
  assert_pdf_of(texts[1], PAGES[2])
  lu.assertEquals({#texts, program, steps}, {1, "chromium", "1/1"})
  lu.assertEquals(started, {talk = 0, run = 1})
  texts, program, started = texts_of("well", {})
  lu.assertEquals({#texts, program}, {0, "nothing to do"})
  lu.assertEquals(started, {talk = 0, run = 0})
end

-- A browser that ends at the second page, that finds no page, or whose PDF is none: what
-- is left is printed page by page.
function T.test_what_a_browser_leaves_is_printed_by_itself()
  system.unix "talks with a program"
  for mode, alone in pairs {leaves = 2, refuses = 3, blank = 3} do
    local texts, program, started, steps = texts_of(mode, PAGES)
    lu.assertEquals(program, "chromium", mode)
    lu.assertEquals(started, {talk = 1, run = alone}, mode)
    lu.assertEquals(steps, "1/3 2/3 3/3", mode)
    for i, html in ipairs(PAGES) do assert_pdf_of(texts[i], html) end
  end
end

function T.test_no_page_by_any_program()
  system.unix "talks with a program"
  local texts, why, started, steps = texts_of(nil, PAGES)
  lu.assertNil(texts)
  lu.assertEquals(why, "no program that makes PDF was found (looked for chromium, "
    .. "weasyprint)")
  lu.assertEquals({started, steps}, {{talk = 0, run = 0}, ""})
  texts, why, started = texts_of("fails", {PAGES[1]})
  lu.assertNil(texts)
  lu.assertEquals(why, "chromium: no display here") -- its first line
  lu.assertEquals(started, {talk = 0, run = 1})
end

-- Pages that become files: each in its place, or what is wrong with the first that has
-- none.
function T.test_pages_into_files()
  system.unix "talks with a program"
  local dir <close> = place()
  local function pages(second)
    return {{html = PAGES[1], path = dir.path .. "/one.pdf"},
      {html = PAGES[2], path = dir.path .. second}}
  end
  local _, program = with_browser("well", pdf.write, pages "/two.pdf")
  lu.assertEquals(program, "chromium")
  for i, name in ipairs {"one", "two"} do
    local file <close> = assert(io.open(("%s/%s.pdf"):format(dir.path, name), "rb"))
    assert_pdf_of(file:read "a", PAGES[i])
  end
  local _, none, why = with_browser("well", pdf.write, pages "/none/two.pdf")
  lu.assertNil(none)
  lu.assertStrMatches(why, "cannot write .*/none/two.pdf.*No such file.*")
  _, none, why = with_browser(nil, pdf.write, pages "/two.pdf")
  lu.assertNil(none)
  lu.assertStrContains(why, "no program that makes PDF was found")
end

return T
