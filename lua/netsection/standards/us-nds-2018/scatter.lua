-- SPDX-License-Identifier: MIT
-- How loads and the strength of wood scatter, for odds. Dead load: normal, mean over what
-- is entered. Live load: the largest of 50 years, Gumbel. Strength over F_b' with C_D = 1
-- and C_r = 1: lognormal whose 5th percentile is `fifth`, over `duration` for the time of
-- the load; covs: those that stand beside each other, the usual one second.
return {
  dead = {mean = 1.05, cov = 0.10, source = "Rosowsky, Table 2.1", confidence = "read"},
  live = {mean = 0.90, cov = 0.23, source = "Rosowsky, Table 2.1", confidence = "read"},
  strength = {fifth = 2.1, duration = 1.6, covs = {0.35, 0.40, 0.45},
    says = "2.1 (from memory)", confidence = "memory",
    source = "COV 0.41 read for larch, 0.35 to 0.45 from memory"},
}
