-- SPDX-License-Identifier: MIT
-- A sweep as columns of numbers that other programs read without this one: NumPy's .npy
-- arrays (format 1.0), stored one after another in a ZIP archive (APPNOTE 4.3). All
-- sizes are known before the first point is worked, so each column has its place, and
-- points go there piece by piece. Words are codes from 0; what they mean stands in
-- sweep.json in the same archive.
local core = require "netsection.core"
local sidecar = require "netsection.sweep.sidecar"
local tostring = require "netsection.point".text

local npz = {}

-- Offsets and sizes of the format are 32 bits wide; an archive that is longer has them in
-- extra fields of 64 (APPNOTE 4.5.3, ZIP64).
npz.most = 4294967295
local ELSEWHERE, NUMBERS64 = 4294967295, 1

local DATE, UTF8 = 1 << 5 | 1, 0x0800 -- 1 January 1980

-- Head of an array of n numbers, a multiple of 64 bytes long.
local function array_head(n)
  local says = ("{'descr': '<f8', 'fortran_order': False, 'shape': (%d,), }"):format(n)
  local fill = (64 - (#says + 11) % 64) % 64
  says = says .. (" "):rep(fill) .. "\n"
  return "\x93NUMPY\1\0" .. string.pack("<I2", #says) .. says
end

-- What both heads of an entry begin with; 'extra': bytes of its extra field, 0 for none.
local function entry_head(e, extra)
  local size = extra > 0 and ELSEWHERE or e.size
  return string.pack("<I2I2I2I2I2I4I4I4I2I2", extra > 0 and 45 or 20, UTF8, 0, 0, DATE,
    e.crc, size, size, #e.name, extra)
end

-- The head before an entry's bytes. @param wide whether sizes have 64 bits
local function local_head(e, wide)
  local extra = wide and string.pack("<I2I2I8I8", NUMBERS64, 16, e.size, e.size) or ""
  return "PK\3\4" .. entry_head(e, #extra) .. e.name .. extra
end

-- Its line in the directory at the end.
local function central_head(e, wide)
  local extra = wide and string.pack("<I2I2I8I8I8", NUMBERS64, 24, e.size, e.size, e.at)
    or ""
  return "PK\1\2" .. string.pack("<I2", wide and 45 or 20) .. entry_head(e, #extra)
    .. string.pack("<I2I2I2I4I4", 0, 0, 0, 0, wide and ELSEWHERE or e.at) .. e.name
    .. extra
end

-- What ends the archive. @param n entries; @param size, at of the directory
local function directory_end(n, size, at, wide)
  if not wide then
    return "PK\5\6" .. string.pack("<I2I2I2I2I4I4I2", 0, 0, n, n, size, at, 0)
  end
  return "PK\6\6" .. string.pack("<I8I2I2I4I4I8I8I8I8", 44, 45, 45, 0, 0, n, n, size, at)
    .. "PK\6\7" .. string.pack("<I4I8I4", 0, at + size, 1)
    .. "PK\5\6" .. string.pack("<I2I2I2I2I4I4I2", 0, 0, n, n, ELSEWHERE, ELSEWHERE, 0)
end

-- Texts of an axis that is not of numbers, as codes from 0.
local function codes_of(n)
  local list = {}
  for i = 1, n do list[i] = i - 1 end
  return core.numbers(list)
end

-- Columns by name: {name =, steps =, stride =} of an axis, {name =, derived = k},
-- {name =, value = i}, {name = "reason"}; and words of axes by name.
local function columns_of(plan)
  local list, words, stride = {}, {}, plan.total
  local function steps_of(axis, numbers)
    local all = true
    for _, value in ipairs(numbers and {} or axis.known) do
      all = all and type(value) == "number"
    end
    if numbers then return numbers end
    if all then return core.numbers(axis.known) end
    words[axis.name] = {}
    for i, value in ipairs(axis.known) do words[axis.name][i] = tostring(value) end
    return codes_of(#axis.known)
  end
  for _, axis in ipairs(plan.axes) do
    stride = stride // #axis.values
    for _, l in ipairs(axis.linked or {axis}) do
      list[#list + 1] = {name = l.name, steps = steps_of(l, l.numbers), stride = stride}
    end
  end
  for k, of in ipairs(plan.functions) do
    list[#list + 1] = {name = of.name, derived = k}
  end
  for i, o in ipairs(plan.values) do list[#list + 1] = {name = o.name, value = i} end
  list[#list + 1] = {name = "reason"}
  return list, words
end

--- A writer of 'count' points of a sweep.
-- @return writer with begin(file), put(file, first, count, to, fault), finish(file);
--   these give true, or nil and what the system says
function npz.writer(h, s)
  local columns, words = columns_of(h.plan)
  local head, at = array_head(h.count), 0
  -- what the directory and sweep.json take is far less than half of what is left
  local wide = #columns * (8 * h.count + 1024) > npz.most // 2
  for _, c in ipairs(columns) do
    c.name, c.crc, c.at = c.name .. ".npy", 0, at
    c.size = #head + 8 * h.count
    c.next = at + #local_head(c, wide) + #head
    at = c.next + 8 * h.count
  end
  local w = {}
  -- Reasons by the codes of faults, in the order that they are met; 0: none.
  local reasons, number_of = {}, {[0] = 0}

  function w.begin(out)
    for _, c in ipairs(columns) do
      c.crc = core.crc32(head)
      local ok, why = out:seek("set", c.at)
      if ok then ok, why = out:write(local_head(c, wide), head) end
      if not ok then return nil, why end
    end
    return true
  end

  local function reason_column(first, count, fault)
    h.plan:tell(first, count, fault)
    local column = core.numbers(count)
    core.fill(column, 0, count, 0)
    for i = 1, count do
      local code = fault[i]
      if code ~= 0 then
        if not number_of[code] then
          reasons[#reasons + 1] = h.plan:reason(code)
          number_of[code] = #reasons
        end
        core.set(column, i, number_of[code])
      end
    end
    return column
  end

  local function numbers_of(c, first, count, to, fault, derived)
    if c.value then return to[c.value] end
    if c.derived then return derived[c.derived] end
    if not c.steps then return reason_column(first, count, fault) end
    local column = core.numbers(count)
    core.spread(c.steps, c.stride, first, count, column)
    return column
  end

  function w.put(out, first, count, to, fault)
    local derived = h.plan:derived_columns(first, count)
    for _, c in ipairs(columns) do
      local ok, why = out:seek("set", c.next)
      if not ok then return nil, why end
      local crc
      crc, why = core.write_numbers(out, numbers_of(c, first, count, to, fault, derived),
        count, c.crc)
      if not crc then return nil, why end
      c.crc, c.next = crc, c.next + 8 * count
    end
    return true
  end

  function w.finish(out)
    local json = sidecar.text(h, s, {words = words, reasons = reasons})
    local last = {name = "sweep.json", crc = core.crc32(json), size = #json, at = at}
    local list = table.move(columns, 1, #columns, 1, {})
    list[#list + 1] = last
    local ok, why = out:seek("set", at)
    if ok then ok, why = out:write(local_head(last, wide), json) end
    local central = {}
    for i, e in ipairs(list) do central[i] = central_head(e, wide) end
    local text = table.concat(central)
    if ok then
      ok, why = out:write(text, directory_end(#list, #text,
        at + #local_head(last, wide) + #json, wide))
    end
    -- The sums of the columns are known now.
    for _, c in ipairs(columns) do
      if ok then ok, why = out:seek("set", c.at) end
      if ok then ok, why = out:write(local_head(c, wide)) end
    end
    if not ok then return nil, why end
    return true
  end

  return w
end

return npz
