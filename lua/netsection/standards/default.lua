-- SPDX-License-Identifier: MIT
-- What is taken where none is named: the standard and the rules of a review, the edition
-- of design values, the folder with the fasteners. The one place for it.
return {
  standards = "us-nds-2018-asd",
  rules = "us-irc-2021",
  lumber = "us-nds-2018",
  fasteners = "us-nds-2018",
}
