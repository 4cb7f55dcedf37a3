-- SPDX-License-Identifier: MIT
-- What the tests of drawings share: texts that try to be run, and gnuplot itself, which
-- runs in a folder of its own wherever it is installed.
local lu = require "luaunit"
local system = require "tests.system"

local drawing = {}

-- Texts that would do harm, or spoil the drawing, if they were more than text.
drawing.HOSTILE = {
  "J'3", "''", "'", "'''", "a''''b", "'@full_text", "\\'@full_text", "@full_text",
  "`touch ran`", "'`touch ran`'", "$(touch ran)", '"; !touch ran; "', "'; !touch ran; '",
  "a\nEOD\n!touch ran\n", "a\r\nb", "@FRAME@ @PAGE@", "@x", "back\\", "\\n",
  "{/Bold x_2^3}",
  "=1+1", "%s %d %n", "| touch ran", "# comment", "\u{5D0}\u{5D1} 12 \u{5D2}",
  "\u{202E}3J\u{202C}", "\u{6881}\u{FF13}", "\xff\xfe\xc3(", "a\0b\27[31m", "<&>]]>",
  "EOD", ("long "):rep(500), "\u{FFFE}", "",
}

function drawing.read_file(path)
  local file <close> = io.open(path, "rb")
  return file and file:read("a")
end

function drawing.write_file(path, text)
  local file <close> = assert(io.open(path, "wb"))
  assert(file:write(text))
end

function drawing.need_gnuplot()
  if not system.has "gnuplot" then lu.skip("gnuplot is not installed") end
end

-- A new folder for one test, gone at its end.
drawing.folder = system.folder

-- Runs a script in the folder; what gnuplot said. A quiet run says nothing; without a
-- locale, as on a machine just installed, it would say that it knows no degree sign.
function drawing.run(dir, script, settings)
  drawing.write_file(dir.path .. "/script.gp", script)
  os.execute(system.at(dir.path, {HOME = ".", LC_ALL = "C.UTF-8"})
    .. ("gnuplot %s script.gp >said 2>&1"):format(settings
      and "-e " .. system.quoted(settings) or ""))
  return drawing.read_file(dir.path .. "/said")
end

function drawing.assert_draws(dir, name, script, output, signature)
  lu.assertEquals(drawing.run(dir, script), "", name)
  local image = drawing.read_file(dir.path .. "/" .. output)
  lu.assertNotNil(image, name)
  lu.assertEquals(image:sub(1, #signature), signature, name)
  lu.assertTrue(#image > 2000, name)
  return image
end

return drawing
