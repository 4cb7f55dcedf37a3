-- SPDX-License-Identifier: MIT
-- EN 1995-1-1 with the National Annex of Germany: what differs from the recommended
-- values, in format.lua. Its rule for openings is one of glulam and is not used here.
return {base_folder = "en-1995-1-1"}
