-- SPDX-License-Identifier: MIT
-- EN 1995-1-1 with the National Annex of the United Kingdom: what differs from the
-- recommended values, in format.lua.
return {base_folder = "en-1995-1-1"}
