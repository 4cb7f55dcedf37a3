-- SPDX-License-Identifier: MIT
-- Families of formulas that the core has, by name: what a standard of each holds beside
-- what all hold ({formats =, schema =, combination =, problems =, numbers =}).
return {nds = require "netsection.packs.nds", ec5 = require "netsection.packs.ec5",
  csa = require "netsection.packs.csa"}
