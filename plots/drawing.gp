# SPDX-License-Identifier: MIT
# @WHAT@
@PAGE@

# Told apart in black and white: by width, dashes and hatching. 1 wood and cuts, 2 saw
# cuts and splits, 3 cuts behind a piece, 4 new piece on the near face, 5 on the far
# face, 6 marks on a piece, 7 axes, 8 dimensions, 9 fasteners.
set style line 1 lw 0.9 lc rgb '#000000' dashtype solid
set style line 2 lw 1.8 lc rgb '#000000' dashtype solid
set style line 3 lw 0.8 lc rgb '#000000' dashtype (5,5)
set style line 4 lw 2.2 lc rgb '#000000' dashtype solid
set style line 5 lw 2.0 lc rgb '#000000' dashtype (10,6)
set style line 6 lw 0.8 lc rgb '#000000' dashtype solid
set style line 7 lw 0.5 lc rgb '#000000' dashtype (24,6,5,6)
set style line 8 lw 0.5 lc rgb '#000000' dashtype solid
set style line 9 lw 0.6 lc rgb '#000000' pt 1 ps 1.0

unset key
unset border
unset xtics
unset ytics
set clip two

set multiplot
@WORDS@
@VIEWS@
unset multiplot
@CLOSE@
