std = "lua54"
max_line_length = 90
codes = true
-- Annotations for editors: parameters and tables that nothing reads.
files["lua/types"] = {ignore = {"211", "212", "241", "431", "432"}}
-- The program's own start sets what an interpreter sets.
files["csrc/program/start.lua"] = {globals = {"arg", "package"}}
