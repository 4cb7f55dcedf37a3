-- SPDX-License-Identifier: MIT
-- Design values behind the span tables of the 2012 IRC and before, psi: only what differs
-- from the base edition. Each was back-figured from published spans, by L = the lesser of
-- sqrt(8 Fb CF 1.15 S / w) and (384 E I / (5 * 360 * w_live))^(1/3) rounded to the inch,
-- and is the only one on the tables' steps (25 psi, 1e5 psi) that gives them: hence
-- confidence = computed. What no span determines is absent, so that a lookup says so;
-- Southern Pine, whose values all changed in 2013, takes nothing from the base edition.
return {
  edition = "us-nds-2012",
  base = "us-nds-2018",
  title = "design values of the 2012 IRC span tables, before the 2013 change",

  sources = {
    ["2012"] = "back-figured from 2012 IRC Tables R502.3.1(1) and R502.3.1(2)",
    ["undated"] = "back-figured from an undated 40/10 psf span table, pre-2012 values",
    ["county"] = "back-figured from a county span handout, pre-2013 values",
  },

  species = {
    ["Douglas Fir-Larch"] = {
      grades = {
        ["No.2"] = {Fb = 875, source = "2012", confidence = "computed"},
      },
    },
    ["Southern Pine"] = {
      replaces = true,
      grades = {
        ["No.1"] = {by_size = {
          ["2x8"] = {E = 1700000, source = "undated", confidence = "computed"},
          ["2x10"] = {E = 1700000, source = "undated", confidence = "computed"},
        }},
        ["No.2"] = {by_size = {
          ["2x6"] = {E = 1600000, source = "undated", confidence = "computed"},
          ["2x8"] = {Fb = 1200, E = 1600000, source = "2012", confidence = "computed"},
          ["2x10"] = {Fb = 1050, E = 1600000, source = "2012", confidence = "computed"},
          -- E from the narrower sizes: one E per grade, and bending governs every span
          ["2x12"] = {Fb = 975, E = 1600000, source = "2012", confidence = "computed"},
        }},
        ["No.3"] = {by_size = {
          ["2x10"] = {Fb = 600, source = "county", confidence = "computed"},
        }},
      },
    },
  },
}
