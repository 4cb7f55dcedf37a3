-- SPDX-License-Identifier: MIT
-- One table of what is known about the module's soundness, every row from a run made now
-- (`make trust`). Rows take from seconds to hours; sizes come from the environment.
--
--   ONLY=exact,lanes       these rows alone
--   JOISTS=1000 PLAIN=2000 LANES=10 FUZZ=20000 REPAIRS=200 CALLS=20000 KILLS=40   sizes
--   SEED=1
--   MUTANTS=300 MINUTES=60    mutants asked for, and when no new one is begun
--   REACH=tell             coverage of an earlier `make reach` in place of a new run
local LUA = arg[-1]
local PYTHON = os.getenv "PYTHON" or "python3"
local MAKE = os.getenv "MAKE" or "make"

local function size(name, otherwise)
  return tonumber(os.getenv(name) or "") or otherwise
end

-- Runs a command. @return all it said, whether it ended well
local function run(command, ...)
  local pipe = assert(io.popen(command:format(...) .. " 2>&1"))
  local said = pipe:read "a"
  return said, pipe:close() or false
end

local function last(said, pattern)
  local found
  for line in said:gmatch "[^\n]+" do
    if line:find(pattern) then found = line end
  end
  return found
end

-- Tests of some files, all or those that are named, run in an environment of their own.
local function tests(environment, files, names)
  local said = run("%s NETSECTION_FILES=%s '%s' tests/run.lua %s", environment,
    table.concat(files, ","), LUA, names or "")
  local line = last(said, "^Ran %d+ tests")
  if not line then return "no end: " .. (last(said, ".") or "nothing was said") end
  local n, rest = line:match "^Ran (%d+) tests[^,]*(.*)$"
  local failed = 0
  for count, what in rest:gmatch "(%d+) (%a+)" do
    if what:find "^failure" or what:find "^error" then failed = failed + count end
  end
  return ("%s tests, %d failed"):format(n, failed)
end

local function finding(ok)
  return ok and ", no finding" or ", FINDING"
end

local ASAN = "-O1 -g -fsanitize=address,undefined -fno-sanitize-recover=all -DNS_CLONES="

local ROWS = {
  {"exact", "numbers against 50-digit arithmetic", function()
    local said, ok = run("'%s' tests/exact.lua %d %d | '%s' tests/exact.py", LUA,
      size("JOISTS", 1000), 50 + size("SEED", 1), PYTHON)
    return ok and last(said, "^exact:") or "no result (Python with mpmath is needed): "
      .. (last(said, ".") or "nothing was said")
  end},
  {"plain", "random joists reviewed again from the clauses, in Lua", function()
    local n = size("PLAIN", 2000)
    return ("%d joists: %s"):format(n, tests("NETSECTION_PLAIN=" .. n,
      {"test_plain_review"}))
  end},
  {"sisters", "random repairs of all kinds worked again, in Lua", function()
    local n = size("REPAIRS", 200)
    return ("%d repairs: %s"):format(n, tests("NETSECTION_REPAIRS=" .. n,
      {"test_plain_repairs"}))
  end},
  {"beams", "beams and tied beams against independent statics", function()
    return tests("", {"test_beam", "test_two_beams", "test_tied_envelopes"})
  end},
  {"lanes", "random joists in a block beside themselves alone", function()
    return last(run("build/core_test --lanes %d %d", size("SEED", 1), size("LANES", 10)),
      "differ") or "nothing was said"
  end},
  {"fuzz", "random joists, half with fields of no sense", function()
    return last(run("build/core_test --fuzz %d %d", size("SEED", 1),
      size("FUZZ", 20000)), "findings") or "nothing was said"
  end},
  {"growth", "a larger cut, a lower ratio", function()
    local all, lower = 0, 0
    for n, low in run("build/growth_test %d", size("GROWTH", 2000)):gmatch
      "(%d+) pairs, (%d+) with the lower" do
      all, lower = all + tonumber(n), lower + tonumber(low)
    end
    return all > 0 and ("%d pairs, %d lower"):format(all, lower) or "nothing was said"
  end},
  {"misuse", "wrong and random values to every public name", function()
    local n = size("CALLS", 20000)
    return ("%d random calls: %s"):format(n, tests(
      ("NETSECTION_CALLS=%d NETSECTION_SEED=%d"):format(n, 50 + size("SEED", 1)),
      {"test_misuse", "test_random_calls"}))
  end},
  {"attacks", "what would lose something or let something in", function()
    local files, names, n, seen = {}, {}, 0, {}
    for _, attack in ipairs(dofile "tests/attacks.lua") do
      n = n + 1
      for _, name in ipairs(attack[2]) do
        local file = name:match "^[^.]+"
        if not seen[file] then files[#files + 1] = file end
        if not seen[name] then names[#names + 1] = name end
        seen[file], seen[name] = true, true
      end
    end
    return ("%d attacks: %s"):format(n, tests("", files, table.concat(names, " ")))
  end},
  {"kills", "kills at random moments: package, CSV", function()
    local n = size("KILLS", 40)
    return ("2 x %d kills: %s"):format(n, tests("NETSECTION_KILLS=" .. n, {"test_kills"}))
  end},
  {"locale", "a host with decimal commas", function()
    return tests("NETSECTION_DRAWINGS=all", {"test_locale"})
  end},
  {"sanitizers", "the C tests under ASan and UBSan", function()
    local said, ok = run("%s -s BUILD=build/asan OPT='%s' build/asan/core_test "
      .. "build/asan/growth_test && build/asan/core_test && build/asan/growth_test 500",
      MAKE, ASAN)
    return (last(said, "core_test: %d+ passed") or "does not build or end")
      .. finding(ok)
  end},
  {"memory", "every request for memory refused in turn", function()
    local said, ok = run("%s -s oom", MAKE)
    local n = 0
    for count in said:gmatch "(%d+) failing memory requests survived" do
      n = n + tonumber(count)
    end
    return ("%d requests"):format(n) .. finding(ok and n > 0)
  end},
  {"coverage", "lines and branches that the tests reach", function()
    return last(run("'%s' tests/reach.lua %s", LUA, os.getenv "REACH" == "tell"
      and "--tell" or ""), "^reach:") or "not run"
  end},
  {"mutants", "seeded slips that the tests notice", function()
    local said = run("'%s' tests/mutate.lua %d %d", LUA, size("MUTANTS", 300),
      size("SEED", 1))
    local file <close> = assert(io.open("build/mutants.txt", "w"))
    file:write(said)
    return last(said, "^mutants:") or last(said, ".") or "not run"
  end},
}

local only = os.getenv "ONLY" or ""
print "| what | how | result | s |\n|---|---|---|---|"
for _, row in ipairs(ROWS) do
  if only == "" or ("," .. only .. ","):find("," .. row[1] .. ",", 1, true) then
    local from = os.time()
    local said = row[3]() or "nothing was said"
    print(("| %s | %s | %s | %d |"):format(row[1], row[2], said, os.time() - from))
    io.stdout:flush()
  end
end
