package = "netsection"
version = "0.2.0-1"
rockspec_format = "3.0"
source = {
  url = "file://netsection-0.2.0.tar.gz",
}
description = {
  summary = "Assessment and repair of cut wood floor joists",
  detailed = [[
Decides for every notch, hole and cut of a wood joist whether the code's prescriptive
limits cover it, computes what the net section still carries, designs the repair, and
writes drawings, calculation sheets and tables.]],
  license = "MIT",
}
dependencies = {
  "lua >= 5.4, < 5.5",
  "lpeg",
  "dkjson",
}
build = {
  type = "make",
  -- Warnings of a compiler that nobody has tried yet must not stop an installation.
  variables = {
    LUA = "$(LUA)",
    LUA_CFLAGS = "-I$(LUA_INCDIR)",
    WERROR = "",
  },
  build_target = "all",
  install_target = "install",
  install_variables = {
    LUADIR = "$(LUADIR)",
    LIBDIR = "$(LIBDIR)",
    BINDIR = "$(BINDIR)",
    LUA = "$(LUA)",
  },
  -- GNU make, a shell and mingw-w64, as MSYS2 has them; a library of Windows names what it
  -- is linked with.
  platforms = {
    windows = {
      variables = { LUA_LIBS = "$(LUA_LIBDIR)/$(LUALIB)" },
    },
  },
  copy_directories = { "examples" },
}
