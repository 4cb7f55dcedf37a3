-- SPDX-License-Identifier: MIT
-- A file of points that may be interrupted and gone on with. Until it is whole it stands
-- under its name and ".part", with how far it is under that and ".json"; then it takes
-- its place in one step. What was written after the last mark is written again, and since
-- the same points give the same bytes, no tail of another length is left.
local core = require "netsection.core"
local file = require "netsection.file"
local json = require "dkjson"

local files = core.files

local resume = {}
-- Written to as any file that is written piece by piece.
local stream = setmetatable({}, {__index = file.stream_methods})
stream.__index = stream

local FORMAT = "netsection part of a sweep, 1"
-- Seconds between two marks on the disk.
local BETWEEN = 1

local function cannot(path, why)
  return nil, ("cannot write %s: %s"):format(path, why)
end

-- How far the file is: so many bytes hold so many points.
local function write_mark(self)
  return file.write(self.mark_path, json.encode({format = FORMAT, sweep = self.sweep,
    first = self.first, count = self.count, done = self.done, bytes = self.bytes},
    {keyorder = {"format", "sweep", "first", "count", "done", "bytes"}}) .. "\n")
end

local function whole(v) return math.type(v) == "integer" and v >= 0 end

-- The mark of an earlier run; nil where there is none, or nil and what is wrong with it.
local function read_mark(self)
  if not files.kind(self.mark_path) then return nil end
  local text, why = file.read(self.mark_path)
  if not text then return nil, why end
  local t = json.decode(text, 1, nil, nil, nil)
  if type(t) ~= "table" or t.format ~= FORMAT or not whole(t.done)
    or not whole(t.bytes) then
    return nil, self.mark_path .. ": not the mark of a file of points"
  elseif t.sweep ~= self.sweep or t.first ~= self.first or t.count ~= self.count
    or t.done > t.count then
    return nil, ("%s is of another sweep (joist, axes, values, shard, rules, standard or "
      .. "version): delete it and %s to begin anew"):format(self.part, self.mark_path)
  end
  return t
end

-- Goes on behind the bytes that are marked.
local function open_again(self, mark)
  local kind, _, size = files.kind(self.part)
  if kind ~= "file" or size < mark.bytes then
    return nil, ("%s has fewer bytes than its mark says: delete it and %s to begin anew")
      :format(self.part, self.mark_path)
  end
  local out, why = files.change(self.part)
  if not out then return cannot(self.part, why) end
  out:seek("set", mark.bytes)
  self.out, self.done, self.bytes = out, mark.done, mark.bytes
  return self
end

local function open_new(self)
  if files.kind(self.part) then
    return nil, ("%s is there and is no part of a sweep: move it out of the way")
      :format(self.part)
  end
  local ok, why = write_mark(self)
  if not ok then return nil, why end
  local out, name = files.beside(self.target)
  if not out then return cannot(self.part, name) end
  out:close() -- an open file cannot be moved everywhere
  ok, why = files.move(name, self.part)
  if not ok then
    files.remove(name)
    return cannot(self.part, why)
  end
  self.out, why = files.change(self.part)
  if not self.out then return cannot(self.part, why) end
  return self
end

--- Opens what an earlier run left of a file, or begins it.
-- @param t {sweep = identity, first =, count = points}
-- @return a stream with write, put, close, abandon, and done = points that it holds
--   already; or nil and a message
function resume.stream(path, t)
  -- What the path leads to, once what is no regular file has been refused.
  local probe, name, target = files.beside(path)
  if not probe then return cannot(path, name) end
  probe:close()
  files.remove(name)
  local self = setmetatable({path = path, target = target, part = target .. ".part",
    mark_path = target .. ".part.json", sweep = t.sweep, first = t.first,
    count = t.count, done = 0, bytes = 0, marked = core.clock()}, stream)
  local mark, why = read_mark(self)
  if why then return nil, why end
  if mark and (mark.bytes > 0 or files.kind(self.part)) then
    return open_again(self, mark)
  end
  return open_new(self)
end

-- What was written so far holds so many more points.
function stream:passed(points)
  self.done = self.done + points
  self.bytes = self.out:seek "cur"
  if core.clock() - self.marked < BETWEEN then return true end
  self.marked = core.clock()
  local ok, why = self.out:flush()
  if not ok then return cannot(self.path, why) end
  return write_mark(self)
end

-- Leaves the part and its mark for the next run.
function stream:abandon()
  if self.out:flush() then write_mark(self) end
  self.out:close()
end

-- Puts the file in its place. A tail of an earlier run that this one did not write over
-- shows that other points were chosen then. @return true, or nil and a message
function stream:close()
  local here = self.out:seek "cur"
  if self.out:seek "end" ~= here then
    self.out:close()
    return nil, ("%s holds other points than were asked for now: delete it and %s to "
      .. "begin anew"):format(self.part, self.mark_path)
  end
  local ok, why = files.settle(self.out, self.part, self.target)
  if not ok then return cannot(self.path, why) end
  files.remove(self.mark_path)
  return true
end

return resume
