-- SPDX-License-Identifier: MIT
-- The limits of the 2018 edition are those of 2021: R502.6 and R502.8.1 read in state
-- texts of 2015 to 2025.
return {
  name = "us-irc-2018", base = "us-irc-2021", confidence = "read",
  title = "2018 International Residential Code, R502.6 and R502.8",
}
