-- SPDX-License-Identifier: MIT
-- Published criteria for how a wood floor feels underfoot. Each is a list of tests, all
-- to be met: `f` first frequency, Hz; `d` deflection under 1 kN at mid-span, mm; `fd`
-- f/d^0.44; `live` span over deflection under the live load; `v` velocity after an
-- impulse of 1 N s, m/(N s2). A limit is a number or, by the span l, steps {upto = m,
-- value = mm} or {upto = m, a =, p =, unit =}: a/l^p, l in that unit; or of v {curve =
-- {{a, b}, ...}, zeta =}: b^(f zeta - 1). Those with `default` are shown unless others
-- are asked for.
return {
  {name = "Ohlsson 1988", default = true, status = "read",
    source = "Sweden, in a table of a 2021 journal paper; its limit on impulse velocity "
      .. "is left out",
    tests = {{of = "f", at_least = 8}, {of = "d", at_most = 1.5}}},
  {name = "UK", default = true, status = "memory",
    source = "UK National Annex to EN 1995-1-1",
    tests = {{of = "d", at_most = {{upto = 4, value = 1.8},
      {a = 16500, p = 1.1, unit = "mm"}}}}},
  {name = "Canada", default = true, status = "memory",
    source = "building code of Canada, after field studies; its own deflection formula "
      .. "counts T-action and was not read: on d as given here it is harsher",
    tests = {{of = "d", at_most = {{upto = 3, value = 2.0},
      {upto = 5.5, a = 8.0, p = 1.3}, {upto = 9.9, a = 2.55, p = 0.63}, {value = 0.6}}}}},
  {name = "Dolan et al. 1999, occupied", status = "read",
    source = "J. Struct. Eng. 125(1), in the same table",
    tests = {{of = "f", at_least = 14}}},
  {name = "Dolan et al. 1999, unoccupied", status = "read",
    source = "J. Struct. Eng. 125(1), in the same table",
    tests = {{of = "f", at_least = 15}}},
  {name = "Johnson", status = "read", source = "solid sawn joists, in the same table",
    tests = {{of = "f", at_least = 15}}},
  {name = "EN 1995-1-1, frequency", status = "read",
    source = "7.3.3; its deflection by national limits is left out",
    tests = {{of = "f", above = 8}}},
  -- Formula read; the points of the curve from one transcription, the damping read.
  {name = "EN 1995-1-1, velocity", status = "memory",
    source = "7.3.3: formula read, limit curve memory; damping 0.01, b of the curve at d "
      .. "as computed; four bearing edges, one span; shown, not binding",
    tests = {{of = "f", above = 8}, {of = "v", at_most = {zeta = 0.01,
      curve = {{0.5, 150}, {1, 120}, {2, 80}, {4, 50}}}}}},
  {name = "Hu and Chui", status = "memory",
    source = "f/d^0.44 >= 18.7; its own deflection formula counts T-action and was not "
      .. "read: on d as given here it is harsher",
    tests = {{of = "fd", at_least = 18.7}}},
  {name = "Munich, high demand", status = "memory",
    source = "Hamm, Richter, Winter: under 2 kN",
    tests = {{of = "f", at_least = 8}, {of = "d", at_most = 0.25}}},
  {name = "Munich, lower demand", status = "memory",
    source = "Hamm, Richter, Winter: under 2 kN",
    tests = {{of = "f", at_least = 6}, {of = "d", at_most = 0.5}}},
  {name = "live L/360", default = true, status = "common practice",
    source = "used as a bounce rule", tests = {{of = "live", at_least = 360}}},
  {name = "live L/480", default = true, status = "common practice",
    source = "used as a bounce rule", tests = {{of = "live", at_least = 480}}},
  {name = "live L/600", status = "common practice",
    source = "used as a bounce rule", tests = {{of = "live", at_least = 600}}},
}
