-- SPDX-License-Identifier: MIT
-- Where the rules stand that messages and notes name, by what they are about.
return {
  gates = "NDS 4.4.3",
}
