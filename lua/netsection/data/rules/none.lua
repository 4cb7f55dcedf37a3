-- SPDX-License-Identifier: MIT
-- No prescriptive limits: for places whose code has none, or none that is on file. Every
-- cut is "not covered", so the standard alone speaks.
return {
  name = "none", unit = "mm", confidence = "own", source = "none",
  title = "no prescriptive limits on cuts taken",
  scope = "where none are on file",
  no_limits = "no prescriptive limits on file for this place",
  covers = {}, limits = {},
  not_covered = "no prescriptive limits on file for this place",
  not_covered_hogging = "no prescriptive limits on file for this place",
}
