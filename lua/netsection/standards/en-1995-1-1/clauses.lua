-- SPDX-License-Identifier: MIT
-- Where the rules stand that messages and notes name, by what they are about.
return {
  bracing = "EN 1995-1-1 6.3.3",
  gates = "EN 1995-1-1",
  name = "EN 1995-1-1",
}
