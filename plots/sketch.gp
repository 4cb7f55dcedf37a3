# SPDX-License-Identifier: MIT
# A figure of a problem: lines, areas, arrows and texts at places on the sheet, in inches
# of paper. Not to scale unless its caption says so.
@PAGE@

# 1 wood and edges, 2 load, 3 dimensions, 4 axes and hidden edges.
set style line 1 lw 1.2 lc rgb '#000000' dashtype solid
set style line 2 lw 0.8 lc rgb '#000000' dashtype solid
set style line 3 lw 0.5 lc rgb '#000000' dashtype solid
set style line 4 lw 0.5 lc rgb '#000000' dashtype (12,6)

unset key
unset border
unset xtics
unset ytics
set lmargin at screen 0
set rmargin at screen 1
set tmargin at screen 1
set bmargin at screen 0

@DATA@

@FRAME@

plot for [i = 1:has_wood] $wood with filledcurves closed \
       lc rgb '#F0F0F0' fillstyle solid 1.0 noborder, \
     for [i = 1:has_hatched] $hatched with filledcurves closed \
       lc rgb '#000000' fillstyle pattern 4 noborder, \
     for [i = 1:has_void] $void with filledcurves closed \
       lc rgb '#FFFFFF' fillstyle solid 1.0 noborder, \
     for [i = 1:has_edge] $edge with lines ls 1, \
     for [i = 1:has_load] $load with lines ls 2, \
     for [i = 1:has_dim] $dim with lines ls 3, \
     for [i = 1:has_axis] $axis with lines ls 4

unset label
unset arrow
@CLOSE@
