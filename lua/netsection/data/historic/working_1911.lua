-- SPDX-License-Identifier: MIT
-- Working unit stresses of structural timber, 1911, psi: a table of the American Railway
-- Engineering Association (Manual 1911, p. 153), read as Table XXII of a record of 1914.
-- Fv is that of longitudinal shear in beams; where the table has none there is none here.
-- The stresses are for green timber in bridges; its note lets buildings take half more,
-- and for long loads halves E. They are no reference values of a standard of today.
return {
  year = 1911,
  title = "working unit stresses of 1911 (American Railway Engineering Association)",
  source = "Manual of the American Railway Engineering Association 1911, p. 153, as "
    .. "Table XXII of a record of 1914",
  confidence = "read",
  buildings = 1.5, -- times, by the table's note; of the stresses, not of E
  long_E = 0.5,    -- times, by its note, for the creep of beams
  species = {
    {name = "Douglas fir", Fb = 1200, E = 1510000, Fv = 110, Fc_perp = 310, Fc = 1200},
    {name = "longleaf pine", Fb = 1300, E = 1610000, Fv = 120, Fc_perp = 260, Fc = 1300},
    {name = "shortleaf pine", Fb = 1100, E = 1480000, Fv = 130, Fc_perp = 170, Fc = 1100},
    {name = "white pine", Fb = 900, E = 1130000, Fv = 70, Fc_perp = 150, Fc = 1000},
    {name = "spruce", Fb = 1000, E = 1310000, Fv = 70, Fc_perp = 180, Fc = 1100},
    {name = "Norway pine", Fb = 800, E = 1190000, Fv = 100, Fc_perp = 150, Fc = 800},
    {name = "western hemlock", Fb = 1100, E = 1480000, Fv = 100, Fc_perp = 220,
      Fc = 1200},
    {name = "redwood", Fb = 900, E = 800000, Fc_perp = 150, Fc = 900},
    {name = "bald cypress", Fb = 900, E = 1150000, Fc_perp = 170, Fc = 1100},
    {name = "red cedar", Fb = 800, E = 800000, Fc_perp = 230, Fc = 900},
    {name = "white oak", Fb = 1100, E = 1150000, Fv = 110, Fc_perp = 450, Fc = 1300},
  },
}
