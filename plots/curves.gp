# SPDX-License-Identifier: MIT
# A value of a sweep along one axis, one line per value of another.
@PAGE@

# Columns: 1 place along the axis, 2 value; a gap where there is none.
@DATA@

# Told apart in black and white by dashes, width and marks. 20 leaders to the names at the
# ends of lines, 21 limits.
set style line 1 lw 1.6 pt 7 ps 0.5 lc rgb '#000000' dashtype solid
set style line 2 lw 1.6 pt 6 ps 0.6 lc rgb '#000000' dashtype (12,6)
set style line 3 lw 1.6 pt 5 ps 0.5 lc rgb '#000000' dashtype (3,4)
set style line 4 lw 1.6 pt 4 ps 0.6 lc rgb '#000000' dashtype (16,5,3,5)
set style line 5 lw 0.8 pt 9 ps 0.6 lc rgb '#000000' dashtype solid
set style line 6 lw 0.8 pt 8 ps 0.7 lc rgb '#000000' dashtype (12,6)
set style line 7 lw 0.8 pt 13 ps 0.6 lc rgb '#000000' dashtype (3,4)
set style line 8 lw 0.8 pt 12 ps 0.7 lc rgb '#000000' dashtype (16,5,3,5)
set style line 9 lw 2.6 pt 7 ps 0.6 lc rgb '#000000' dashtype solid
set style line 10 lw 2.6 pt 6 ps 0.7 lc rgb '#000000' dashtype (12,6)
set style line 20 lw 0.5 lc rgb '#000000' dashtype solid
set style line 21 lw 2.2 lc rgb '#000000' dashtype (22,8)

@FRAME@

@PLOT@
@CLOSE@
