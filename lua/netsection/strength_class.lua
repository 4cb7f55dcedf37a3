-- SPDX-License-Identifier: MIT
-- Strength classes: characteristic values of a class, as EN 338 has them, from the file
-- classes.lua of a standard's folder, found by listing.
local data = require "netsection.data_file"
local standards = require "netsection.standards"
local units = require "netsection.units"
local error = require "netsection.raise".error

local strength_class = {}

local files

-- Files with classes, read once: {family =, classes =, order =, ...}.
local function all()
  if files then return files end
  files = {}
  for _, name in ipairs(standards.with "classes") do
    local path = standards.home .. "/" .. name
    local t, why = data.read(path .. "/classes.lua")
    if not t then error(why, 0) end
    t.family = data.read(path .. "/standard.lua").family
    files[#files + 1] = t
  end
  return files
end

--- Names of the classes on file, the weakest first.
function strength_class.names()
  local names = {}
  for _, file in ipairs(all()) do
    table.move(file.order, 1, #file.order, #names + 1, names)
  end
  return names
end

local KEYS = {Fb = "f_mk", Ft = "f_t0k", Fv = "f_vk", Fc_perp = "f_c90k", Fc = "f_c0k",
  E = "E_0mean", Emin = "E_005", G_mean = "G_mean"}

-- k_h = min((150/h)^0.2, 1.3) of h under 150 mm, densities up to 700 kg/m3; for bending
-- the depth, for tension the larger side (EN 1995-1-1 3.2(3)).
local function k_h(h)
  return h < 150 and math.min((150 / h) ^ 0.2, 1.3) or 1
end

--- Values of a class as the core takes them: psi, and size factors for a section.
-- @param name such as "C24", in any case; @param b, d in
-- @return {Fb =, Ft =, ..., CF =, CF_t =, CF_c =, rho_k =, rho_mean = kg/m3, name =,
--   family =, source =, confidence =}; or nil and what is on file
function strength_class.of(name, b, d)
  local wanted = name:upper():gsub("%s", "")
  for _, file in ipairs(all()) do
    local row = file.classes[wanted]
    if row then
      local out = {name = wanted, family = file.family, source = file.source,
        confidence = file.confidence, rho_k = row.rho_k, rho_mean = row.rho_mean}
      for own, key in pairs(KEYS) do out[own] = row[key] * units.per.MPa end
      local mm = units.per.mm
      out.CF, out.CF_t, out.CF_c = k_h(d / mm), k_h(math.max(b, d) / mm), 1
      return out
    end
  end
  return nil, ('class "%s" is not on file; on file: %s'):format(name,
    table.concat(strength_class.names(), ", "))
end

return strength_class
