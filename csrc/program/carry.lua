-- SPDX-License-Identifier: MIT
-- Writes what the single program has inside: deflated bytes in a file, and a table in C.
--   here carry.lua FOLDER LIBRARY FORM SOURCES DKJSON FILE...
-- FOLDER takes carried.c and carried.bin; SOURCES is the folder of what .ci/sources
-- fetched, whose licenses are put in; FILE... are files of the module. Where FORM is
-- "compiled", modules are, by the Lua that they will be run by ("text" for a processor
-- that orders its bytes otherwise than this one); what is read as data stays text.
-- Lines stay in compiled modules, so that an error names its place; names of local
-- variables, a sixth of their bytes, do not. Files that are read together share a block,
-- which is inflated as a whole: small ones deflate badly alone, and large ones are read
-- for nothing.
local here = require "here"
local zlib = require "zlib"
local to, library, form, sources, dkjson = table.unpack(arg, 1, 5)
local BLOCK = 64 << 10

local function read(path)
  local file <close> = assert(io.open(path, "rb"))
  return file:read "a"
end

local function write(path, text)
  local file <close> = assert(io.open(path, "wb"))
  assert(file:write(text))
end

local files = {}

local function is_data(name)
  return not name:find "%.lua$" or name:find "^netsection/data/"
    or name:find "^netsection/standards/"
end

local function add(name, text)
  local file = {name = name, text = text, source = text}
  if form == "compiled" and not is_data(name) then
    file.text = string.dump(here.without_locals(assert(load(text, "@" .. name, "t"))))
  end
  files[#files + 1], files[name] = file, file
end

-- The files in the order of their blocks: what a review by the usual standard reads, each
-- module after those that it asks for at once, then all else by name.
local FIRST = {"netsection.command", "netsection.command.arguments",
  "netsection.command.survey_folder", "netsection.survey", "netsection.report_overview",
  "netsection.act_now"}
local THEN = {"^netsection/packs/", "^netsection/locale/", "^netsection/fix/",
  "^netsection/standards/default%.", "^netsection/standards/us%-nds%-2018/",
  "^netsection/data/lumber/", "^netsection/data/rules/us_irc_2021%."}

local function as_read()
  local list, placed = {}, {}
  local function place(file)
    if not file or placed[file] then return end
    placed[file] = true
    for line in file.source:gmatch "[^\n]+" do -- inside of a function they are indented
      local module = line:match '^[^ -].*require "([%w_.-]+)"'
      if module and not line:find "function" then
        place(files[module:gsub("%.", "/") .. ".lua"])
      end
    end
    list[#list + 1] = file
  end
  for _, module in ipairs(FIRST) do
    place(assert(files[module:gsub("%.", "/") .. ".lua"], module))
  end
  for _, pattern in ipairs(THEN) do
    for _, file in ipairs(files) do
      if file.name:find(pattern) then place(file) end
    end
  end
  for _, file in ipairs(files) do
    if not placed[file] then list[#list + 1] = file end
  end
  return list
end

-- Text between two patterns, without the marks that comments and pages have.
local function between(text, first, last, mark)
  local _, from = text:find(first)
  local till = text:find(last, from)
  assert(from and till, "a license was not found")
  return (text:sub(from + 1, till - 1):gsub("\n" .. mark, "\n"):gsub("<[^>]+>", "")
    :gsub("&copy;", "(C)"):gsub("\n\n\n+", "\n\n"):gsub("^\n+", ""):gsub("%s+$", "\n"))
end

local LIBRARY = {
  glibc = [[
The GNU C Library, linked into this program, is under the GNU Lesser General Public
License, version 2.1 or later. All of the program's sources are under licenses that let
everybody change it and link it again with another version of that library.
]],
  musl = [[
The C library of this program is musl: Copyright (C) 2005-2020 Rich Felker, et al., under
the MIT license, whose text is that below the copyright line of netsection above.
]],
  mingw = [[
The runtime of this program is that of mingw-w64, in the public domain or under the Zope
Public License 2.1 and the MIT license; parts of it come from gdtoa: Copyright (C)
1998-2000 by Lucent Technologies. All Rights Reserved. Permission to use, copy, modify,
and distribute this software and its documentation for any purpose and without fee is
hereby granted, provided that the above copyright notice appear in all copies and that
both that the copyright notice and this permission notice and warranty disclaimer appear
in supporting documentation, and that the name of Lucent or any of its entities not be
used in advertising or publicity pertaining to distribution of the software without
specific, written prior permission. LUCENT DISCLAIMS ALL WARRANTIES WITH REGARD TO THIS
SOFTWARE, INCLUDING ALL IMPLIED WARRANTIES OF MERCHANTABILITY AND FITNESS. IN NO EVENT
SHALL LUCENT OR ANY OF ITS ENTITIES BE LIABLE FOR ANY SPECIAL, INDIRECT OR CONSEQUENTIAL
DAMAGES OR ANY DAMAGES WHATSOEVER RESULTING FROM LOSS OF USE, DATA OR PROFITS, WHETHER
IN AN ACTION OF CONTRACT, NEGLIGENCE OR OTHER TORTIOUS ACTION, ARISING OUT OF OR IN
CONNECTION WITH THE USE OR PERFORMANCE OF THIS SOFTWARE.
]],
}

local function licenses()
  local zlib_head = read(sources .. "/zlib/zlib.h")
  local parts = {"netsection\n\n" .. read "LICENSE",
    "Lua\n\n" .. between(read(sources .. "/lua/lua.h"), "\n/%*%*%*%*+\n%*%s(%f[C])",
      "%*%*%*%*+/%s+#endif", "%*[ \t]?"),
    "LPeg\n\n" .. between(read(sources .. "/lpeg/lpeg.html"),
      'name="license">License</a>', "</div>", ""),
    "dkjson\n\nCopyright" .. between(read(dkjson), "\nCopyright", "%-%-%]", ""),
    "zlib\n\n" .. between(zlib_head, "\n%f[ ]  ?%f[C]", "\n\n\n", "  ?"),
    "expat\n\n" .. read(sources .. "/expat/COPYING"),
    "C library\n\n" .. LIBRARY[library]}
  return table.concat(parts, "\n" .. ("-"):rep(72) .. "\n\n")
end

for _, path in ipairs {table.unpack(arg, 6)} do
  local name = path:gsub("^lua/", ""):gsub("^plots/", "netsection/plots/")
    :gsub("^csrc/program/", "")
  add(name, read(path))
end
add("dkjson.lua", read(dkjson))
add("licenses.txt", licenses())
table.sort(files, function(a, b) return a.name < b.name end)

local blocks, rows, members = {}, {}, {}
local packed_size, size = 0, 0

local function close_block()
  if #members == 0 then return end
  local text = table.concat(members)
  local packed = zlib.deflate(9, -15)(text, "finish")
  assert(zlib.inflate(-15)(packed) == text, "what was deflated does not come back")
  blocks[#blocks + 1] = {packed = packed,
    row = ("  {carried_bytes + %d, %d, %d, 0x%08xu},"):format(packed_size, #packed, #text,
      (zlib.crc32()(text)))}
  packed_size = packed_size + #packed
  members, size = {}, 0
end

for _, file in ipairs(as_read()) do
  if size + #file.text > BLOCK then close_block() end
  file.row = ('  {"%s", %d, %d, %d},'):format(file.name, #blocks, size, #file.text)
  members[#members + 1] = file.text
  size = size + #file.text
end
close_block()
for i, file in ipairs(files) do rows[i] = file.row end

local bytes, block_rows = {}, {}
for i, block in ipairs(blocks) do bytes[i], block_rows[i] = block.packed, block.row end
write(to .. "/carried.bin", table.concat(bytes))
write(to .. "/carried.c", ([[
/* Written by carry.lua. */
#include "program/program.h"

#if defined(__APPLE__)
#define SECTION ".const_data\n.globl _carried_bytes\n_carried_bytes:\n"
#elif defined(_WIN32)
#define SECTION ".section .rdata,\"dr\"\n.globl carried_bytes\ncarried_bytes:\n"
#else
#define SECTION ".section .rodata\n.globl carried_bytes\ncarried_bytes:\n"
#endif
__asm__(SECTION ".incbin \"%s/carried.bin\"\n.text\n");
extern const unsigned char carried_bytes[];

static const struct nsb_block blocks[] = {
%s
};
static const struct nsb_carried files[] = {
%s
};
const struct nsb_inside program_inside = {files, blocks, %d, %d, program_inflate};
]]):format(to, table.concat(block_rows, "\n"), table.concat(rows, "\n"), #files,
  #blocks))
