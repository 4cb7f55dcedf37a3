-- SPDX-License-Identifier: MIT
-- Writes what the single program has inside: all bytes in a file, and a table in C.
--   lua carry.lua FOLDER LIBRARY FORM LUA LPEG DKJSON FILE...
-- FOLDER takes carried.c and carried.bin; LUA and LPEG are the folders of their sources,
-- whose licenses are put in; FILE... are files of the module. Where FORM is "compiled",
-- modules are, by the Lua that they will be run by ("text" for a processor that orders
-- its bytes otherwise than this one); what is read as data stays text.
local to, library, form, lua_source, lpeg_source, dkjson = table.unpack(arg, 1, 6)

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
  if form == "compiled" and not is_data(name) then
    text = string.dump(assert(load(text, "@" .. name, "t")))
  end
  files[#files + 1] = {name = name, text = text}
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
  local parts = {"netsection\n\n" .. read "LICENSE",
    "Lua\n\n" .. between(read(lua_source .. "/lua.h"), "\n/%*%*%*%*+\n%*%s(%f[C])",
      "%*%*%*%*+/%s+#endif", "%*[ \t]?"),
    "LPeg\n\n" .. between(read(lpeg_source .. "/lpeg.html"), 'name="license">License</a>',
      "</div>", ""),
    "dkjson\n\nCopyright" .. between(read(dkjson), "\nCopyright", "%-%-%]", ""),
    "C library\n\n" .. LIBRARY[library]}
  return table.concat(parts, "\n" .. ("-"):rep(72) .. "\n\n")
end

for _, path in ipairs {table.unpack(arg, 7)} do
  local name = path:gsub("^lua/", ""):gsub("^plots/", "netsection/plots/")
    :gsub("^csrc/program/", "")
  add(name, read(path))
end
add("dkjson.lua", read(dkjson))
add("licenses.txt", licenses())
table.sort(files, function(a, b) return a.name < b.name end)

local bytes, rows, at = {}, {}, 0
for i, file in ipairs(files) do
  bytes[i] = file.text
  rows[i] = ('  {"%s", (const char *)carried_bytes + %d, %d},'):format(file.name, at,
    #file.text)
  at = at + #file.text
end
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

const struct nsb_carried program_files[] = {
%s
};
const int program_file_count = %d;
]]):format(to, table.concat(rows, "\n"), #files))
