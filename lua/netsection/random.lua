-- SPDX-License-Identifier: MIT
-- Numbers drawn by chance that are the same on every machine: a hash of texts gives the
-- seed, a generator in 64-bit integer arithmetic, which Lua 5.4 wraps around by
-- definition, gives the rest. math.random is not used: its sequence belongs to the
-- version of Lua.
--
-- Hash: FNV-1a, 64 bits (Fowler, Noll, Vo). Generator: SplitMix64 (Steele, Lea, Flood,
-- "Fast splittable pseudorandom number generators", 2014).
local core = require "netsection.core"
local error = require "netsection.raise".error
local random = {}
random.__index = random

if math.maxinteger ~= 0x7FFFFFFFFFFFFFFF then
  error "netsection.homework needs a Lua with 64-bit integers"
end

--- FNV-1a of a text, a 64-bit integer.
random.hash = core.hash

--- One seed of several texts; their lengths go in too, so that "ab", "c" is not "a",
-- "bc".
function random.seed(...)
  local parts = {}
  for i, text in ipairs {...} do parts[i] = ("%d:%s"):format(#text, text) end
  return random.hash(table.concat(parts, "\n"))
end

--- A generator. @param seed an integer
function random.new(seed)
  return setmetatable({state = seed}, random)
end

--- The next 64 bits.
function random:bits()
  self.state = self.state + 0x9E3779B97F4A7C15
  local z = self.state
  z = (z ~ (z >> 30)) * 0xBF58476D1CE4E5B9
  z = (z ~ (z >> 27)) * 0x94D049BB133111EB
  return z ~ (z >> 31)
end

--- A whole number from 0 to n - 1, each as likely as the others to within n / 2^63.
function random:below(n)
  return (self:bits() >> 1) % n
end

return random
