-- SPDX-License-Identifier: MIT
-- Where the rules stand that messages and notes name, by what they are about.
return {
  bracing = "CSA O86 6.5.3",
  gates = "CSA O86 6.5.4",
  name = "CSA O86:19",
}
