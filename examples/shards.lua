-- A sweep split over processes, and put together again: four shards under GNU parallel
-- where it is there, one after the other where it is not. The merged file is the whole,
-- byte for byte. Beside its file each shard leaves a summary; those are put together as
-- well, which is all that is needed where nobody reads a hundred million lines.
--   lua examples/shards.lua            runs four shards and merges them
--   lua examples/shards.lua I N FILE   runs shard I of N into FILE; started again after
--                                      an interruption, it goes on where it was
-- As an array job of a cluster:
--   sbatch --array=1-4 --wrap 'lua examples/shards.lua $SLURM_ARRAY_TASK_ID 4 \
--     part$SLURM_ARRAY_TASK_ID.csv'
local ns = require "netsection"

local function shard(i, n)
  return ns.sweep {
    joist = ns.joist {size = "2x10", species = "hem-fir", grade = "No.2", span = "13-6",
      spacing = 16, bearing = 3.5, dead = 12, live = 40,
      cuts = {ns.hole {at = "5-2", diameter = 3}}},
    over = {span = ns.steps("10-0", "18-0", "0-1"), spacing = {12, 16, 19.2, 24},
      ["cuts.1.diameter"] = {1, 2, 3, 4}, live = {30, 40}},
    values = {"ratio", "governing"}, shard = {i, n}, threads = 1,
  }
end

if arg and arg[3] then
  local mine = shard(tonumber(arg[1]), tonumber(arg[2]))
  assert(mine:csv(arg[3], {resume = true}))
  assert(mine:summary():write(arg[3] .. ".json"))
  os.exit(true)
end

local function read(path)
  local file <close> = assert(io.open(path, "rb"))
  return file:read "a"
end

local folder = os.getenv "NETSECTION_OUT" or "out"
assert(require "netsection.folder".make(folder))

-- This script once more, by what runs it now; {} stands for the number of the shard.
local words = {}
for i = -9, 0 do words[#words + 1] = arg[i] and ('"%s"'):format(arg[i]) end
local one = ('%s {} 4 "%s/part{}.csv"'):format(table.concat(words, " "), folder)
local done = os.execute "command -v parallel >/dev/null 2>&1"
  and os.execute(("parallel --will-cite '%s' ::: 1 2 3 4 2>/dev/null"):format(one))
for i = 1, done and 0 or 4 do
  local line = one:gsub("{}", tostring(i))
  if package.config:find "^\\" then line = '"' .. line .. '"' end -- cmd takes two off
  assert(os.execute(line))
end

local merged = read(folder .. "/part1.csv")
for i = 2, 4 do
  merged = merged .. read(("%s/part%d.csv"):format(folder, i)):gsub("^.-\r\n", "", 1)
end
assert(ns.write(folder .. "/merged.csv", merged))
assert(shard(1, 1):csv(folder .. "/whole.csv"))
print(("%d points in four parts; the same bytes as the whole: %s"):format(#shard(1, 1),
  merged == read(folder .. "/whole.csv")))

local summaries = {}
for i = 1, 4 do summaries[i] = ("%s/part%d.csv.json"):format(folder, i) end
local all = assert(ns.merge_shards(summaries))
local most, where = all:max "ratio"
local half = all:quantiles("ratio", {0.5})[1]
print(("%s: ratio at most %.3f, at a span of %g in; half of them under %.4f to %.4f")
  :format(all, most, where.span, half.low, half.high))
