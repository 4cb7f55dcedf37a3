-- SPDX-License-Identifier: MIT
-- Photos of a survey: placed with joist, cut and file name; whatever is missing, broken,
-- huge, a link, a pipe or elsewhere is a named problem and nothing of it is read.
local base64 = require "netsection.document.base64"
local drawing = require "tests.drawing"
local lu = require "luaunit"
local markup = require "tests.markup"
local ns = require "netsection"
local photos = require "netsection.photos"
local zip = require "netsection.zip"
local system = require "tests.system"

local T = {}

local function chunk(name, data)
  return string.pack(">I4", #data) .. name .. data
    .. string.pack(">I4", zip.crc32(name .. data))
end

-- A gray PNG of one byte a row, stored without compression (RFC 1950, 1951).
local function png(width, height, without_end)
  local rows = ("\0\x80"):rep(1)
  local stored = "\1" .. string.pack("<I2I2", #rows, ~#rows & 0xFFFF) .. rows
  local a, b = 1, 0
  for i = 1, #rows do
    a = (a + rows:byte(i)) % 65521
    b = (b + a) % 65521
  end
  return "\x89PNG\r\n\x1A\n" .. chunk("IHDR", string.pack(">I4I4BBBBB", width, height, 8,
    0, 0, 0, 0)) .. chunk("IDAT", "\x78\1" .. stored .. string.pack(">I4", b << 16 | a))
    .. (without_end and "" or chunk("IEND", ""))
end

-- The segments of a JPEG by ITU-T T.81: APP0, frame, scan, end.
local function jpeg(width, height, without_end)
  return "\xFF\xD8\xFF\xE0" .. string.pack(">I2", 16) .. "JFIF\0\1\1\0\0\1\0\1\0\0"
    .. "\xFF\xC0" .. string.pack(">I2BI2I2B", 11, 8, height, width, 1) .. "\1\x11\0"
    .. "\xFF\xDA" .. string.pack(">I2", 8) .. "\1\1\0\0\x3F\0" .. "\x12\x34"
    .. (without_end and "" or "\xFF\xD9")
end

local function survey(photo, cut_photo)
  local function cell(said) return '"' .. said:gsub('"', '""') .. '"' end
  return assert(ns.read_survey {joists = {name = "joists.csv", text =
    "mark,size,species,grade,span,spacing,bearing,dead,live,photo\n"
    .. "all,2x10,douglas fir-larch,No.2,13-6,16 in,3-1/2 in,12 psf,40 psf,\n"
    .. "S1,,,,,,,,," .. cell(photo or "") .. "\nS2,,,,,,,,,\nS3,,,,,,,,,\n"},
    cuts = {name = "cuts.csv", text = "joist,kind,at,diameter,below,photo\n"
    .. "S2,hole,5-2,4 in,1-1/2 in," .. cell(cut_photo or "") .. "\n"}}):review()
end

local function report(r, folder, name)
  local files, problem = ns.package.files(r, {photos = folder})
  for _, f in ipairs(files) do
    if f.name == (name or "report.html") then return f.text, problem end
  end
end

-- Strings of RFC 4648, section 10.
function T.test_base_64()
  for said, expected in pairs {[""] = "", f = "Zg==", fo = "Zm8=", foo = "Zm9v",
    foob = "Zm9vYg==", fooba = "Zm9vYmE=", foobar = "Zm9vYmFy"} do
    lu.assertEquals(base64.of(said), expected)
  end
end

function T.test_kinds_are_told_by_their_bytes()
  lu.assertEquals({photos.kind(png(7, 5))}, {"png", 7, 5})
  lu.assertEquals({photos.kind(jpeg(640, 480))}, {"jpeg", 640, 480})
  for _, bad in ipairs {"", "\xFF\xD8\xFF", png(1, 1, true), jpeg(1, 1, true),
    png(0, 5), jpeg(5, 0), png(1, 1):sub(1, 40), png(9, 9):gsub("IHDR", "IHDX"),
    "<svg onload='x'/>", "GIF89a", "<html>", png(60000, 60000), jpeg(65535, 65535)} do
    local kind, why = photos.kind(bad)
    lu.assertNil(kind)
    lu.assertIsString(why)
  end
  local whole = jpeg(640, 480)
  for n = 0, #whole - 1 do lu.assertNil((photos.kind(whole:sub(1, n)))) end
end

function T.test_photos_are_placed_with_joist_cut_and_name()
  local dir <close> = drawing.folder()
  drawing.write_file(dir.path .. "/IMG 12.JPG", jpeg(640, 480))
  drawing.write_file(dir.path .. "/13.png", png(1, 1))
  local r = survey("13", "img 12.jpg; 13.png")
  local page, problem = report(r, dir.path)
  lu.assertNil(problem)
  lu.assertStrContains(page, "S1: 13.png")
  lu.assertStrContains(page, "S2, hole 1: IMG 12.JPG")
  lu.assertStrContains(page, "S2, hole 1: 13.png")
  lu.assertStrContains(page, "data:image/jpeg;base64," .. base64.of(jpeg(640, 480)))
  lu.assertStrContains(page, "data:image/png;base64," .. base64.of(png(1, 1)))
  for address in page:gmatch 'src="([^"]*)"' do lu.assertStrContains(address, "data:") end
  lu.assertStrContains(report(r, dir.path, "report.txt"), "S2, hole 1: 13.png")
  lu.assertNil(page:find(dir.path, 1, true))
  lu.assertNotStrContains((report(r, nil)), "Photos")
end

-- Each of them by name, and the report is there all the same.
function T.test_what_cannot_be_placed_is_named()
  system.unix "pipes and links"
  local dir <close> = drawing.folder()
  local secret = dir.path .. "/secret"
  os.execute(("mkdir '%s' '%s/p' '%s/p/d.jpg' && mkfifo '%s/p/pipe.jpg'"):format(secret,
    dir.path, dir.path, dir.path))
  local p = dir.path .. "/p"
  drawing.write_file(secret .. "/x.jpg", jpeg(3, 3))
  os.execute(("ln -s '%s/x.jpg' '%s/link.jpg'; ln -s /dev/zero '%s/zero.png'"):format(
    secret, p, p))
  drawing.write_file(p .. "/cut.jpg", jpeg(3, 3, true))
  drawing.write_file(p .. "/page.png", "<script>alert(1)</script>")
  drawing.write_file(p .. "/huge.jpg", jpeg(3, 3) .. ("x"):rep(photos.largest))
  drawing.write_file(p .. "/text.txt", "x")
  drawing.write_file(p .. "/a.jpg", jpeg(3, 3))
  drawing.write_file(p .. "/a.png", png(1, 1))
  local said = {["none.jpg"] = "no such file", ["../secret/x.jpg"] = "without folders",
    [secret .. "/x.jpg"] = "without folders", ["link.jpg"] = "it is a link",
    ["zero.png"] = "it is a link", ["pipe.jpg"] = "no regular file",
    ["d.jpg"] = "no regular file", ["cut.jpg"] = "broken",
    ["page.png"] = "neither a JPEG nor a PNG", ["huge.jpg"] = "bytes, where at most",
    ["text.txt"] = "ends in .jpg", ["http://example.org/a.jpg"] = "without folders",
    a = "could be meant", ["$(touch ran).jpg"] = "no such file",
    [".hidden.jpg"] = "without folders"}
  local names = {}
  for name in pairs(said) do names[#names + 1] = name end
  local page, problem = report(survey(table.concat(names, "; ")), p)
  for name, why in pairs(said) do
    local line = problem:match("S1, photo " .. name:gsub("%p", "%%%0") .. ": ([^;]*)")
    lu.assertNotNil(line, name)
    lu.assertStrContains(line, why, false, name)
  end
  lu.assertStrContains(page, "Named in the survey and not placed")
  lu.assertNil(page:find("<img", 1, true))
  lu.assertNil(page:find("<script>", 1, true))
  page, problem = report(survey "a.jpg", p)
  lu.assertNil(problem)
  lu.assertStrContains(page, "<img")
  problem = select(2, report(survey "a.jpg", dir.path .. "/missing"))
  lu.assertStrContains(problem, "the folder cannot be read")
end

function T.test_hostile_names_stay_text()
  local dir <close> = drawing.folder()
  local names = {}
  for _, said in ipairs(markup.HOSTILE) do
    if not said:find "[%z\r\n]" and utf8.len(said) and #said < 200 then
      names[#names + 1] = said
    end
  end
  local page, problem = report(survey(table.concat(names, "; ")), dir.path)
  lu.assertStrContains(problem, "no such file")
  lu.assertNil(markup.html_problem(page))
end

return T
