-- SPDX-License-Identifier: MIT
-- What is prescribed for members below the joists and for work on them. Distances of
-- fasteners between plies are {least, most} in diameters; along a row the most is
-- in thicknesses of the thinnest ply. Inches.
return {
  -- load during the work counts as of seven days
  construction = {CD = 1.25, source = "NDS Table 2.3.2", confidence = "read"},
  built_up = {most_plies = 5, thinnest = 1.5, source = "NDS 15.3.1",
    confidence = "memory"},
  -- K_f was read, the distances are from memory
  nailed = {K_f = 0.6, end_distance = {15, 18}, spacing = {least = 20, most_plies = 6},
    row_spacing = {10, 20}, edge_distance = {5, 20}, source = "NDS 15.3.3",
    confidence = "memory"},
  bolted = {K_f = 0.75, end_distance = {7, 8.4}, spacing = {least = 4, most_plies = 6},
    row_spacing = {1.5, 10}, edge_distance = {1.5, 10}, source = "NDS 15.3.4",
    confidence = "memory"},
  -- plain concrete: at least so thick, and so far past what stands on it
  footing = {thick = 6, past = 2, source = "IRC R403.1.1", confidence = "read"},
}
