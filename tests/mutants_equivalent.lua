-- SPDX-License-Identifier: MIT
-- Mutants that no test can notice, since the program means the same with them:
-- {["file: line -> line with the slip"] = why}.
return {
  ["csrc/beam/single_span.c: s->unknowns = 0; -> s->unknowns = 1;"] =
    "a single span takes the way of beams with an unknown, whose answers are nil: the "
    .. "same numbers but for the last bit (3.6e-16), slower",
}
