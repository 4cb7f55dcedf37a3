# SPDX-License-Identifier: MIT
# @WHAT@
@PAGE@

# Of what is to scale, as in drawing.gp.
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

# Of the diagram, as in repair.gp.
set style line 1 lw 1.4 lc rgb '#000000' dashtype solid
set style line 2 lw 0.9 lc rgb '#000000' dashtype (2,3)
set style line 3 lw 2.4 lc rgb '#000000' dashtype solid
set style line 4 lw 0.9 lc rgb '#000000' dashtype (12,6)
set style line 5 lw 1.6 lc rgb '#000000' pt 6 ps 1.4
set style line 6 lw 0.7 lc rgb '#6A6A6A' dashtype solid
set style line 7 lw 1.1 lc rgb '#000000' dashtype (22,8,4,8)
@PANEL@
unset multiplot
@CLOSE@
