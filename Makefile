# Builds, tests and installs netsection with GNU make; `make help` lists the targets.
# SPDX-License-Identifier: MIT

# -- settings --------------------------------------------------------------------------

PREFIX ?= /usr/local
LUADIR ?= $(PREFIX)/share/lua/5.4
LIBDIR ?= $(PREFIX)/lib/lua/5.4
BINDIR ?= $(PREFIX)/bin
WERROR ?= -Werror
ifeq ($(origin CC),default)
CC = gcc
endif

# Looked up when used, not when this file is read: `deps` may install them in between.
LUA        ?= $(shell sh .ci/deps lua)
LUA_CFLAGS ?= $(shell CC='$(CC)' sh .ci/deps cflags)
LUA_LIBS   ?= $(shell CC='$(CC)' sh .ci/deps libs)

# Contraction and fast-math stay off: one joist must give the same bits on every route.
STD   = -std=c11 -ffp-contract=off -fno-math-errno -fno-trapping-math
MODE  = $(if $(WINDOWS),,-fPIC -fvisibility=hidden -pthread)
# Without partial redundancy elimination more lane loops become vectors; the wide
# registers are only used by the clones that have them.
WIDE  = $(shell $(CC) -mprefer-vector-width=512 -E -x c /dev/null >/dev/null 2>&1 && \
          echo -mprefer-vector-width=512)
# A loop over lanes must stay one until it is made of vectors; unrolled before, it is
# sixteen scalar pieces. The few vectors of it may be unrolled.
KEPT  = $(shell $(CC) -Werror --param max-completely-peel-times=8 -c -x c /dev/null \
          -o /dev/null >/dev/null 2>&1 && echo --param max-completely-peel-times=8)
NOPRE = $(shell $(CC) -Werror -fno-tree-pre -E -x c /dev/null >/dev/null 2>&1 && \
          echo -fno-tree-pre)
OPT   = -O3 $(NOPRE) $(WIDE) $(KEPT)
# SET: the core of the single program, compiled once for each set of instructions and
# small. Inlining is the compiler's own choice, a third of the code that forced inlining
# makes at the same speed; rooms where -O3 is worth its size have it, unless SMALL=1 says
# that size counts for more.
ifneq ($(SET),)
STEADY = $(shell $(CC) -Werror -fvect-cost-model=dynamic -fno-ipa-cp-clone -E -x c \
           /dev/null >/dev/null 2>&1 && echo -fvect-cost-model=dynamic -fno-ipa-cp-clone)
OPT    = -O2 -ftree-vectorize $(NOPRE) $(WIDE) $(subst =8,=4,$(KEPT)) $(STEADY) \
         $(if $(filter default,$(SET)),,-m$(SET)) -DNS_ONE_SET \
         -ffunction-sections -fdata-sections $(UNWOUND)
endif
# Tables to unwind the stack by, which C takes for jumps on Windows alone.
UNWOUND  = $(if $(WINDOWS),,-fno-asynchronous-unwind-tables)
BUILD = $(if $(CHECKS),build/with-checks,build)
WARN  = -Wall
WARN += -Wextra
WARN += -Wpedantic
WARN += -Wshadow
WARN += -Wconversion
WARN += -Wstrict-prototypes
WARN += -Wmissing-prototypes
WARN += -Wcast-qual
WARN += -Wwrite-strings
WARN += -Wundef
WARN += -Wdouble-promotion
WARN += -Wvla
# Lane conditions are joined by & on purpose (clang asks).
WARN += -Wno-bitwise-conditional-parentheses
WARN += -Wno-bitwise-instead-of-logical
FLAGS  = $(STD) $(MODE) $(WARN) $(WERROR) $(CFLAGS) $(OPT) $(PACE) $(OWN_FLAGS)
# What is built for, by the compiler's own word.
FOR     := $(shell $(CC) -dumpmachine 2>/dev/null)
WINDOWS := $(findstring mingw,$(FOR))
EXE      = $(if $(WINDOWS),.exe)
DLL      = $(if $(WINDOWS),dll,so)
# printf and strtod to the last digit; isfinite of its headers narrows a double.
FLAGS   += $(if $(WINDOWS),-D__USE_MINGW_ANSI_STDIO=1 -Wno-float-conversion)
SHARED = $(if $(filter Darwin,$(shell uname)),-bundle -undefined dynamic_lookup,-shared)

# The thread sanitizer gets no clones: their resolvers run before its runtime is ready.
ASAN = -O1 -g -fsanitize=address,undefined -fno-sanitize-recover=all -DNS_CLONES=
TSAN = -O1 -g -fsanitize=thread -DNS_CLONES=
SAN_RUN = ASAN_OPTIONS=detect_leaks=1 UBSAN_OPTIONS=print_stacktrace=1 $(FIXED_MAP)
# Some kernels scatter addresses more widely than the sanitizers of older compilers bear.
FIXED_MAP = $(shell s="setarch $$(uname -m) -R"; $$s true 2>/dev/null && echo $$s)

# -- files; no need to change anything below -------------------------------------------

# csrc/lua is the binding, csrc/program the single program; the other rooms are the core,
# which knows no Lua.
# The checks are compiled once for each family of formulas; CHECKS names a folder of
# checks of one's own (rows.h and a C file each), which go into a build of their own.
FAMILIES  = ec5 csa
C_SRC     = $(wildcard csrc/*/*.c)
OWN_SRC   = $(if $(CHECKS),$(sort $(wildcard $(CHECKS)/*.c)))
OWN_FLAGS = $(if $(CHECKS),-DNS_OWN_CHECKS='"$(abspath $(CHECKS))/rows.h"')
BY_FAMILY = $(patsubst csrc/%.c,%.o,$(wildcard csrc/check/*.c) csrc/review/review.c) \
            $(patsubst $(CHECKS)/%.c,own/%.o,$(OWN_SRC))
CORE_SRC  = $(filter-out csrc/lua/% csrc/program/%,$(C_SRC))
CORE      = $(CORE_SRC:csrc/%.c=$(BUILD)/%.o) $(OWN_SRC:$(CHECKS)/%.c=$(BUILD)/own/%.o) \
            $(foreach f,$(FAMILIES),$(BY_FAMILY:%=$(BUILD)/$f/%))
BINDING   = $(patsubst csrc/%.c,$(BUILD)/%.o,$(wildcard csrc/lua/*.c))
# WHOLE=1, for a build that is made once: each of these rooms is compiled as one file, what
# is of a family as one for each, in a third of the time.
ifneq ($(WHOLE),)
AS_ONE    = beam check cuts grid repair review work
CORE      = $(AS_ONE:%=$(BUILD)/whole/%.o) $(FAMILIES:%=$(BUILD)/whole/of-%.o) $(patsubst \
  csrc/%.c,$(BUILD)/%.o,$(filter-out $(AS_ONE:%=csrc/%/%),$(CORE_SRC))) $(foreach f,own \
  $(FAMILIES:%=%/own),$(OWN_SRC:$(CHECKS)/%.c=$(BUILD)/$f/%.o))
endif
CORE_TEST = $(if $(wildcard tests/core_test.c),$(BUILD)/core_test)
GROWTH    = $(if $(wildcard tests/growth_test.c),$(BUILD)/growth_test)
C_FILES   = $(wildcard csrc/*.h csrc/*/*.[ch] tests/*.[ch] tests/data/*/*.[ch])
STANDARDS = \b(NDS|AISC|AISI|IRC|ASCE)\b|\b1\.67\b|2\.0 / 3
LUA_DIRS  = $(wildcard lua tests examples plots csrc/program)
LUACHECK  = luacheck -q --no-color $(LUA_DIRS)
# A build into another folder leaves its module there, so that a checkout that nobody may
# write to can be built and several builds stand side by side.
MODULE    = $(if $(filter build build/with-checks,$(BUILD)),lua,$(BUILD))/netsection/core.$(DLL)
WRITTEN   = $(if $(filter build build/with-checks,$(BUILD)),out,$(BUILD)/out)

# The checkout goes first on Lua's search paths, then what the user's own say, and Lua's.
unexport LUA_PATH_5_4 LUA_CPATH_5_4
first = $1$(if $2,;$(subst $1;,,$2))$(if $(findstring ;;,$2),,;;)
export LUA_PATH  := $(call first,lua/?.lua;lua/?/init.lua,$(or $(LUA_PATH_5_4),$(LUA_PATH)))
export LUA_CPATH := $(call first,$(addsuffix ;,$(filter-out lua/?.so,$(MODULE:%netsection/core.$(DLL)=%?.$(DLL))))lua/?.so,$(or \
  $(LUA_CPATH_5_4),$(LUA_CPATH)))

# The parts of a check run side by side; each prints its lines in one block at its end.
SHARES = 1 2 3 4
PARTS  = $(if $(CORE_TEST),core-test) $(if $(GROWTH),growth-test) \
  $(SHARES:%=lua-tests-%) examples $(if $(shell command -v luacheck),luacheck)

JOBS = $(shell nproc 2>/dev/null || echo 2)
SUB  = +@$(MAKE) --no-print-directory $(if $(filter -j%,$(MAKEFLAGS)),,-j$(JOBS))

# -- building --------------------------------------------------------------------------

.PHONY: all demo check test lint format asan tsan oom valgrind examples bench plots reference
.PHONY: suite-windows one check-one check-clang check-musl check-arm check-s390x check-windows everywhere
.PHONY: exact man misuse kills reach mutants trust check-repairs metrics install uninstall clean help deps demo-run check-run suite oom-run
.PHONY: $(PARTS:%=part-%) suite-core suite-growth $(SHARES:%=suite-lua-%)
.DELETE_ON_ERROR:

all: $(MODULE) ## build the module, lua/netsection/core.so

# Names the folder of checks that the module was linked with last.
LINKED = $(BUILD:%/with-checks=%)/checks
$(LINKED): FORCE
	@mkdir -p $(@D)
	@echo '$(CHECKS)' | cmp -s - $@ || echo '$(CHECKS)' >$@
FORCE:

define link
@echo "linking $@"
@$(CC) $(OPT) -o $@
endef

$(MODULE): $(CORE) $(BINDING) $(LINKED)
	@mkdir -p $(@D)
	$(link) $(SHARED) $(if $(WINDOWS),-static-libgcc,-pthread) $(LDFLAGS) \
	  $(filter %.o,$^) $(if $(WINDOWS),$(LUA_LIBS)) -lm

# -rdynamic: Lua modules in C that a script loads find Lua's functions in the host.
$(BUILD)/host: $(BUILD)/tests/host.o $(CORE) $(BINDING)
	$(link) -rdynamic -pthread $^ $(LUA_LIBS) -lm

$(BUILD)/core_test: $(BUILD)/tests/core_test.o $(CORE)
	$(link) -pthread $^ -lm

$(BUILD)/growth_test: $(BUILD)/tests/growth_test.o $(CORE)
	$(link) -pthread $^ -lm

$(BUILD)/bench_fixed: $(BUILD)/tests/bench_fixed.o
	$(link) $^ -lm

$(BUILD)/lua/%.o $(BUILD)/program/%.o $(BUILD)/tests/host.o: WITH_LUA = $(LUA_CFLAGS)
define of_family
$$(BUILD)/$1/check/%.o $$(BUILD)/$1/review/%.o $$(BUILD)/$1/own/%.o: OF_FAMILY = -DNS_FAMILY=$1
$$(BUILD)/$1/check/%.o: csrc/check/%.c Makefile
	$$(compile)
$$(BUILD)/$1/review/%.o: csrc/review/%.c Makefile
	$$(compile)
$$(BUILD)/$1/own/%.o: $$(CHECKS)/%.c Makefile
	$$(compile)
endef
$(foreach f,$(FAMILIES),$(eval $(call of_family,$f)))
$(BUILD)/own/%.o: $(CHECKS)/%.c Makefile
	$(compile)
$(BUILD)/%.o: csrc/%.c Makefile
	$(compile)
$(BUILD)/tests/%.o: tests/%.c Makefile
	$(compile)
$(foreach r,$(AS_ONE),$(eval $(BUILD)/whole/$r.c: $(wildcard csrc/$r/*.c)))
$(FAMILIES:%=$(BUILD)/whole/of-%.c): $(wildcard csrc/check/*.c) csrc/review/review.c
$(foreach f,$(FAMILIES),$(eval $(BUILD)/whole/of-$f.o: OF_FAMILY = -DNS_FAMILY=$f))
$(BUILD)/whole/%.c: Makefile
	@mkdir -p $(@D)
	@printf '#include "%s"\n' $(patsubst csrc/%,%,$(filter csrc/%,$^)) >$@
$(BUILD)/whole/%.o: $(BUILD)/whole/%.c
	$(compile)
ifneq ($(and $(filter avx%,$(SET)),$(if $(SMALL),,fast)),)
$(foreach r,beam check cuts repair,$(BUILD)/whole/$r.o): PACE = -O3 $(STEADY)
endif
# core_test.c compiles every check once more, without clones.
$(BUILD)/tests/core_test.o: OF_FAMILY = -I$(BUILD)/tests
$(BUILD)/tests/core_test.o: $(BUILD)/tests/check_files.h
$(BUILD)/tests/check_files.h: $(wildcard csrc/check/*.c) $(OWN_SRC) Makefile
	@mkdir -p $(@D)
	@printf '#include "%s"\n' $(patsubst csrc/%,%,$(filter csrc/%,$^)) \
	  $(abspath $(OWN_SRC)) >$@

define compile
@mkdir -p $(@D)
@echo "compiling $< into $(@D)"
@$(CC) $(FLAGS) $(OF_FAMILY) -Icsrc $(WITH_LUA) -MMD -MP -c -o $@ $<
endef
-include $(wildcard $(BUILD)/*/*.d $(BUILD)/*/*/*.d)
# These lists are made beside what is compiled; make looks for no other way to them.
$(BUILD)/%.d: ;

# -- a single program ------------------------------------------------------------------

# Sources of Lua, LPeg, zlib and expat, with their licenses: those of Debian's own source
# packages.
SOURCES ?= $(if $(filter build/%,$(BUILD)),build,$(BUILD))/sources
PROGRAM  = $(BUILD)/program
# What is run on the machine that builds; the rest goes into the program.
HERE_SRC = csrc/program/here.c
PROGRAM_OWN = $(patsubst csrc/%.c,$(BUILD)/%.o,$(filter-out $(HERE_SRC), \
             $(wildcard csrc/program/*.c))) $(OUTSIDE:%=$(BUILD)/lua/%.o)
# Files of the binding that call nothing of the core are there once.
OUTSIDE  = carried files files_posix files_windows paths run system talk
# Sets of instructions, of which sets.c takes the widest that the processor has; SETS=
# leaves the default alone, SETS=avx2 adds that one. What holds loops over lanes or columns
# is there once for each of them (FAST), all else of the core and its binding once.
SETS     = $(if $(findstring clang,$(CC)),,$(if $(findstring x86_64-linux-gnu,$(FOR)), \
             $(if $(filter glibc,$(LIBRARY)),avx2 avx512f)))
NETSECTION = $(PROGRAM)/netsection$(EXE)
LUA_HERE = $(SOURCES)/lua-here
OTHERS   = $(patsubst $(SOURCES)/%.c,$(PROGRAM)/%.o,$(filter-out %/lua.c %/luac.c, \
             $(foreach f,lua lpeg zlib expat,$(wildcard $(SOURCES)/$f/*.c))))
CARRIED  = csrc/program/start.lua $(shell find lua/netsection -name '*.lua' -o \
             -name '*.json') $(wildcard plots/*.gp)
DKJSON   = $(shell $(LUA) -e 'print(package.searchpath("dkjson", package.path))')
LIBRARY  = $(if $(WINDOWS),mingw,$(if $(shell echo | $(CC) -include stdio.h -dM -E - | \
             grep __GLIBC__),glibc,musl))
# Compiled modules are of the byte order of the machine that builds.
FORM     = $(if $(shell echo | $(CC) -dM -E - | grep BYTE_ORDER__.*BIG),text,compiled)
OTHER_FLAGS = -std=gnu99 -O2 -w -ffp-contract=off -ffunction-sections $(UNWOUND) $(OTHER_OWN)
LUA_OWN  = -I$(SOURCES)/lua \
  -include csrc/program/arithmetic.h $(if $(WINDOWS), \
  -D__USE_MINGW_ANSI_STDIO=1 -include csrc/program/wide.h,-DLUA_USE_POSIX)
$(PROGRAM)/lua/%.o $(PROGRAM)/lpeg/%.o: OTHER_OWN = $(LUA_OWN)
$(PROGRAM)/expat/%.o: OTHER_OWN = -Os -DXML_STATIC -Icsrc/program
$(BUILD)/program/packed.o $(BUILD)/program/xml.o: WITH_LUA = $(LUA_CFLAGS) -DXML_STATIC \
  -isystem $(SOURCES)/zlib -isystem $(SOURCES)/expat
GATHERED = $(if $(filter Darwin,$(shell uname)),,-Wl$(comma)--gc-sections)
# Windows gives a program 1 MB of stack unless it asks for more.
STATIC   = $(if $(filter Darwin,$(shell uname)),,-static) \
  $(if $(WINDOWS),-Wl$(comma)--stack$(comma)8388608)
comma    = ,

one: ## a single program, build/program/netsection, with all that it needs inside
	@sh .ci/sources $(SOURCES)
	$(SUB) LUA_CFLAGS=-I$(SOURCES)/lua $(NETSECTION)
	@ls -l $(NETSECTION)

$(NETSECTION): $(PROGRAM_OWN) $(PROGRAM)/carried.o $(OTHERS) $(PROGRAM)/default/rest.o \
  $(if $(SETS),$(patsubst %,$(PROGRAM)/%/set.o,default $(SETS)),$(PROGRAM)/default/fast.o) \
  $(PROGRAM)/sets
	@echo "linking $@"
	@$(CC) $(STATIC) -s $(if $(WINDOWS),,-pthread) $(GATHERED) $(LDFLAGS) -o $@ \
	  $(filter %.o,$^) -lm
$(BUILD)/program/main.o: WITH_LUA = $(LUA_CFLAGS)
$(BUILD)/program/sets.o: WITH_LUA = $(LUA_CFLAGS) $(SETS:%=-DPROGRAM_HAS_%) \
  $(if $(SETS),-DPROGRAM_ENTRIES='"$(abspath $(PROGRAM))/entries.h"')
$(BUILD)/program/sets.o: $(PROGRAM)/sets $(if $(SETS),$(PROGRAM)/entries.h)
# Names the sets that the program was linked with last.
$(PROGRAM)/sets: FORCE
	@mkdir -p $(@D)
	@echo '$(SETS)' | cmp -s - $@ || echo '$(SETS)' >$@

# Fast parts and the rest, as they are compiled for a set; touched where they differ.
.PRECIOUS: $(PROGRAM)/%/fast.o
$(PROGRAM)/%/fast.o: FORCE
	$(SUB) BUILD=$(@D) SET=$* WHOLE=1 $(@D)/gathered-fast.o
	@cmp -s $(@D)/gathered-fast.o $@ || cp $(@D)/gathered-fast.o $@
$(PROGRAM)/default/rest.o: FORCE
	$(SUB) BUILD=$(@D) SET=default WHOLE=1 $(@D)/gathered-rest.o
	@cmp -s $(@D)/gathered-rest.o $@ || cp $(@D)/gathered-rest.o $@
FAST = $(BUILD)/lua/columns.o $(filter $(patsubst %,$(BUILD)/%.o,whole/% section/% rules/% \
  sweep/% joist/elementary joist/validate nds/factors nds/joint),$(CORE))
$(BUILD)/gathered-fast.o: $(FAST)
	@$(CC) -r -nostdlib -o $@ $^
$(BUILD)/gathered-rest.o: $(filter-out $(FAST) $(OUTSIDE:%=$(BUILD)/lua/%.o),$(CORE) $(BINDING))
	@$(CC) -r -nostdlib -o $@ $^

# Functions of the fast parts that the rest calls: ENTRY(name), a line each.
$(PROGRAM)/entries.h: $(PROGRAM)/default/fast.o $(PROGRAM)/default/rest.o
	@{ nm $< | sed -n 's/.* T //p'; nm -u $(word 2,$^) | sed 's/.* //'; } | sort | \
	  uniq -d | sed 's/.*/ENTRY(&)/' >$@.new
	@cmp -s $@.new $@ && rm $@.new || mv $@.new $@
# Each set's entries carry its name behind theirs; a wide one shows nothing else.
$(PROGRAM)/%/set.o: $(PROGRAM)/%/fast.o $(PROGRAM)/entries.h
	@sed -n 's/ENTRY(\(.*\))/\1 \1_$*/p' $(PROGRAM)/entries.h >$(@D)/entries
	@objcopy --redefine-syms=$(@D)/entries $< $@
	@$(if $(filter avx%,$*),cut -d ' ' -f 2 $(@D)/entries >$(@D)/shown && \
	  objcopy --keep-global-symbols=$(@D)/shown $@)

# Compiles and deflates the modules that are carried, on the machine that builds.
$(LUA_HERE): $(HERE_SRC) csrc/program/packed.c csrc/program/program.h csrc/lua/bind.h \
  $(wildcard $(SOURCES)/lua/*.c $(SOURCES)/zlib/*.c)
	@cc -O1 -w -DLUA_USE_POSIX -Icsrc -I$(SOURCES)/lua -I$(SOURCES)/zlib -o $@ \
	  $(filter-out %/luac.c %/lua.c,$(filter %.c,$^)) -lm

$(PROGRAM)/carried.c: csrc/program/carry.lua LICENSE $(LUA_HERE) $(CARRIED)
	@mkdir -p $(@D)
	@$(LUA_HERE) csrc/program/carry.lua $(PROGRAM) $(LIBRARY) $(FORM) $(SOURCES) \
	  $(DKJSON) $(CARRIED)

$(PROGRAM)/%.o: $(SOURCES)/%.c Makefile
	@mkdir -p $(@D)
	@$(CC) $(OTHER_FLAGS) -c -o $@ $<
$(PROGRAM)/carried.o: $(PROGRAM)/carried.c
	@$(CC) $(FLAGS) -Icsrc $(LUA_CFLAGS) -c -o $@ $<

# -- everywhere: programs of other compilers, C libraries and systems -----------------

# $(call beside,NAME,COMPILER,RUNNER): builds the program by a compiler and tries it beside
# the module that is here: a package of 24 joists, MOST examples and the one of workbooks,
# byte for byte. What is not on the machine is said and left out. RUNNER is what runs it here.
MOST ?= 24
BESIDE = $(BUILD)/on-$1/program/netsection$(if $(findstring mingw,$2),.exe)
define beside
+@for tool in $2 $(firstword $3); do command -v $$tool >/dev/null || { \
  echo "$1: left out, no $$tool on this machine"; exit 0; }; done; \
  $(MAKE) --no-print-directory one BUILD=$(BUILD)/on-$1 CC=$2 SOURCES=$(SOURCES) && \
  OUT=$(BUILD)/on-$1/out $(LUA) tests/everywhere.lua $1 $3 $(BESIDE) && \
  export INTERPRETER='$3 $(BESIDE) --lua' && MOST=$(MOST) $(LUA) tests/examples.lua && \
  ONLY=workbook $(LUA) tests/examples.lua
endef
WINE = $(or $(shell command -v wine64 wine | head -n 1),$(wildcard /usr/lib/wine/wine64),wine64)

check-one: all ## the single program of this machine's compiler beside the module
	$(call beside,one,$(CC),)
check-clang: all ## the same by clang
	$(call beside,clang,clang,)
check-musl: all ## the same by musl-gcc, static
	$(call beside,musl,musl-gcc,)
check-arm: all ## the same for aarch64, run by qemu-aarch64
	$(call beside,arm,aarch64-linux-gnu-gcc,qemu-aarch64)
check-s390x: all ## the same for s390x, whose bytes stand in the other order
	$(call beside,s390x,s390x-linux-gnu-gcc,qemu-s390x)
check-windows: export WINEDEBUG = -all
check-windows: export WINEPREFIX = $(abspath $(BUILD))/wine
check-windows: all ## netsection.exe by mingw-w64, run by wine
	$(call beside,windows,x86_64-w64-mingw32-gcc,$(WINE))
# Where LuaUnit is found, for a program whose search paths are those of another system.
UNITS = $(shell $(LUA) -e 'print((package.searchpath("luaunit", package.path) \
  :gsub("luaunit%.lua$$", "?.lua")))')
suite-windows: export WINEDEBUG = -all
suite-windows: export WINEPREFIX = $(abspath $(BUILD))/wine
suite-windows: ## the tests by that netsection.exe under wine, file by file; ARGS="-p hole": in one process
	@[ -f $(BUILD)/on-windows/program/netsection.exe ] || { \
	  echo 'windows: no netsection.exe yet; make check-windows builds it'; exit 1; }
	@LUA_PATH='./?.lua;$(UNITS)' $(if $(ARGS),,$(LUA) tests/file_by_file.lua windows \
	  $(BUILD)/on-windows/said) $(WINE) $(BUILD)/on-windows/program/netsection.exe \
	  --lua $(if $(ARGS),tests/run.lua $(ARGS))
everywhere: check-one check-clang check-musl check-arm check-windows ## all of these

# -- running ---------------------------------------------------------------------------

deps: ## install what building and testing need, if it is missing
	@sh .ci/deps check

demo: ## build and run the demonstration, examples/floor.lua, into out/
	@sh .ci/deps demo
	$(SUB) WERROR= demo-run
demo-run: all
	@mkdir -p $(WRITTEN)
	@NETSECTION_OUT=$(WRITTEN) $(LUA) examples/floor.lua

check: ## build and run every test; the last line counts them
	@sh .ci/deps check
	$(SUB) check-run

# $(call part,NAME,COMMAND): COMMAND writes "PASSED FAILED" to $NETSECTION_COUNTS, or
# counts as one by its exit code. A failing exit is a failure whatever was written.
define part
@echo "-- $1"; counts=$(BUILD)/counts.$1; NETSECTION_COUNTS=$$counts $2; code=$$?; \
if [ $$code != 0 ]; then grep -qs ' [1-9]' $$counts || echo 0 1 >>$$counts; \
elif [ ! -s $$counts ]; then echo 1 0 >$$counts; fi
endef

check-run: all
	@rm -f $(BUILD)/counts.*
	$(SUB) -Otarget $(PARTS:%=part-%)
	@awk '{ p += $$1; f += $$2 } \
	  END { print p+0 " passed, " f+0 " failed"; exit f > 0 || p == 0 }' $(BUILD)/counts.*

part-core-test: $(CORE_TEST)
	$(call part,core-test,$(CORE_TEST))
part-growth-test: $(GROWTH)
	$(call part,growth-test,$(GROWTH))
$(SHARES:%=part-lua-tests-%): part-lua-tests-%: all
	$(call part,lua-tests-$*,NETSECTION_SHARE=$*/$(words $(SHARES)) $(LUA) tests/run.lua $(ARGS))
part-examples: all
	$(call part,examples,$(LUA) tests/examples.lua)
part-luacheck:
	$(call part,luacheck,$(LUACHECK))

test: all $(CORE_TEST) $(GROWTH) ## the tests alone: make test ARGS="-p hole"
	$(if $(CORE_TEST),@$(CORE_TEST))
	$(if $(GROWTH),@$(GROWTH))
	@$(LUA) tests/run.lua $(ARGS)

CASES ?= 5000
check-repairs: all ## CASES random repairs (5000) worked again by plain means
	@NETSECTION_REPAIRS=$(CASES) $(LUA) tests/run.lua -p plain_repairs

examples: all ## compare examples with their committed output (UPDATE=1 ONLY=name)
	@UPDATE='$(UPDATE)' ONLY='$(ONLY)' $(LUA) tests/examples.lua

asan: all ## the tests under the address and undefined-behaviour sanitizers
	$(SUB) BUILD=build/asan OPT='$(ASAN)' suite

tsan: all ## the tests under the thread sanitizer
	$(SUB) BUILD=build/tsan OPT='$(TSAN)' suite

oom: ## let every allocation of tests/oom.lua fail in turn, under ASan
	$(SUB) BUILD=build/asan OPT='$(ASAN)' oom-run

suite:
	$(SUB) -Otarget $(if $(CORE_TEST),suite-core) $(if $(GROWTH),suite-growth) \
	  $(SHARES:%=suite-lua-%)
suite-core: $(CORE_TEST)
	$(SAN_RUN) $(CORE_TEST)
suite-growth: $(GROWTH)
	$(SAN_RUN) $(GROWTH) 5000
$(SHARES:%=suite-lua-%): suite-lua-%: $(BUILD)/host
	NETSECTION_SHARE=$*/$(words $(SHARES)) $(SAN_RUN) $(BUILD)/host tests/run.lua $(ARGS)
oom-run: $(BUILD)/host
	$(SAN_RUN) $(BUILD)/host --oom tests/oom.lua

valgrind: all ## tests/valgrind.lua (or all tests) under memcheck
	valgrind -q --leak-check=full --errors-for-leak-kinds=definite --error-exitcode=9 \
	  $(LUA) $(or $(wildcard tests/valgrind.lua),tests/run.lua) $(ARGS)

bench: all $(BUILD)/bench_fixed ## measure the speed of the core, and beside others
	@CC='$(CC)' $(LUA) tests/bench.lua $(ARGS)
	@$(LUA) tests/bench_homework.lua
	@$(LUA) tests/bench_floor.lua
	@$(LUA) tests/bench_repairs.lua
	@$(LUA) tests/bench_standards.lua

reference: ## write lua/REFERENCE.md from lua/types
	@$(LUA) tests/reference.lua

JOISTS ?= 1000
SEED ?= 50
exact: all ## JOISTS random joists (1000) against 50-digit arithmetic (mpmath)
	@$(LUA) tests/exact.lua $(JOISTS) $(SEED) | $(or $(PYTHON),python3) tests/exact.py

reach: ## which lines and branches the tests reach, by gcov and a host that notes lines
	$(SUB) BUILD=build/reach OPT='-O1 -fno-inline --coverage -DNS_CLONES= -DNS_COUNTED' build/reach/host \
	  build/reach/core_test build/reach/growth_test
	@$(LUA) tests/reach.lua

MUTANTS ?= 300
mutants: all ## MUTANTS (300) seeded slips given to the tests that reach them (make reach)
	@$(LUA) tests/mutate.lua $(MUTANTS) $(SEED)

trust: all $(BUILD)/core_test $(BUILD)/growth_test ## one table of proofs, each row run now
	@$(LUA) tests/trust.lua

kills: all ## 40 kills (KILLS=n) of a package and of a streamed CSV
	@NETSECTION_KILLS=$(or $(KILLS),40) $(LUA) tests/run.lua -p test_kills

CALLS ?= 200000
misuse: all ## CALLS (200,000) random calls of the public functions, by SEED
	@NETSECTION_CALLS=$(CALLS) NETSECTION_SEED=$(SEED) $(LUA) tests/run.lua -p test_random_calls

man: all ## write lua/netsection.1, the man page, from command/help.lua
	@$(LUA) tests/man.lua >lua/netsection.1

plots: all ## render the pictures of the README, plots/*.png
	@mkdir -p $(WRITTEN)/gallery
	NETSECTION_OUT=$(WRITTEN)/gallery $(LUA) plots/gallery.lua
	@for s in $(WRITTEN)/gallery/*.gp; do echo "gnuplot $$s"; gnuplot "$$s" || exit 1; done

# -- looking after the source ----------------------------------------------------------

# Files that take headers of Lua's own, zlib and expat are looked at where these were fetched.
FETCHED = $(if $(wildcard $(SOURCES)/zlib/zlib.h),$(addprefix -isystem $(SOURCES)/,lua zlib expat))
LINTED  = $(if $(FETCHED),$(C_SRC),$(filter-out %/here.c %/packed.c %/xml.c,$(C_SRC)))
lint: all $(BUILD)/tests/check_files.h ## luacheck, compiler warnings, layout, and the core's independence of Lua
	$(LUACHECK)
	@for cc in $(CC) clang; do ! command -v $$cc >/dev/null || { echo "warnings of $$cc"; \
	  $$cc $(STD) $(WARN) -Werror -pthread -Icsrc -I$(BUILD)/tests $(LUA_CFLAGS) $(FETCHED) -fsyntax-only \
	    $(LINTED) $(wildcard tests/*.c) || exit 1; } done
	@echo "no clause outside the folder of a standard"; $(LUA) tests/clauses.lua
	@echo "the core includes no Lua header"; ! grep -nE '^ *# *include *[<"](lua|lauxlib)' \
	  $(filter-out csrc/lua/% csrc/program/%,$(filter csrc/%,$(C_FILES))) /dev/null
	@echo "standards are named in nds, ec5 and csa alone"; ! grep -nE '$(STANDARDS)' \
	  $(filter-out csrc/nds/% csrc/ec5/% csrc/csa/%,$(filter csrc/%,$(C_FILES))) /dev/null
	@echo "no line is longer than 90 columns"; ! LC_ALL=C.UTF-8 grep -nE '^.{91}' \
	  $(C_FILES) $(shell find $(LUA_DIRS) -name '*.lua') /dev/null
	@! command -v clang-format >/dev/null || { echo "clang-format"; \
	  clang-format --dry-run -Werror $(C_FILES); }

format: ## lay out the C files with clang-format
	clang-format -i $(C_FILES)

metrics: ## lengths of the C functions, by Universal Ctags
	@ctags --languages=C --kinds-C=f --fields=+ne -f - $(filter csrc/%,$(C_FILES)) | \
	  sed -E 's/^(\S+)\t(\S+).*\tline:([0-9]+).*\tend:([0-9]+).*/\3 \4 \1 \2/' | \
	  awk '{ print $$2 - $$1 + 1, $$3, $$4 }' | sort -n | \
	  awk '{ n[NR] = $$1; print } END { print NR " functions, lines: median " \
	    n[int((NR + 1) / 2)] ", p90 " n[int(NR * 0.9 + 0.5)] }' | tail -n 6

# Shell variables, so that no character of a path is read by make's shell.
put = LUADIR="$$NS_LUADIR" LIBDIR="$$NS_LIBDIR" BINDIR="$$NS_BINDIR" DESTDIR="$$NS_DESTDIR" \
  MANDIR="$$NS_MANDIR" LUA='$(LUA)' MODULE=$(MODULE) sh .ci/install
install uninstall: export NS_LUADIR = $(LUADIR)
install uninstall: export NS_LIBDIR = $(LIBDIR)
install uninstall: export NS_BINDIR = $(BINDIR)
install uninstall: export NS_MANDIR = $(MANDIR)
install uninstall: export NS_DESTDIR = $(DESTDIR)
install: all ## install under PREFIX (DESTDIR is put before it)
	@$(put) put

uninstall: ## remove what install put there
	@$(put) remove

clean: ## remove everything that was built
	rm -rf build out $(MODULE)

help: ## list the targets
	@sed -n 's/^\([a-z][a-z0-9-]*\):.*## \(.*\)/\1\t\2/p' Makefile | expand -t 15
