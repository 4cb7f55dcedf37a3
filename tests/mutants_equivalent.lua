-- SPDX-License-Identifier: MIT
-- Mutants that no test can notice, since the program means the same with them:
-- {["file: line -> line with the slip"] = why}.
return {
}
