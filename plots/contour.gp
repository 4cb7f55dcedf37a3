# SPDX-License-Identifier: MIT
# A value of a sweep over two axes, as lines of equal value.
@PAGE@

# Columns: 1 and 2 places along the axes. Lines end at blank lines.
@DATA@

# has_*: there is something of the kind.
@FACTS@

# 1 lines of equal value, 2 the limit, 3 points of the sweep, 4 points without a value.
set style line 1 lw 0.9 lc rgb '#000000' dashtype solid
set style line 2 lw 3.0 lc rgb '#000000' dashtype solid
set style line 3 pt 7 ps 0.25 lc rgb '#808080'
set style line 4 pt 2 ps 0.8 lw 1.2 lc rgb '#000000'

@FRAME@

plot $point using 1:2 with points ls 3, \
     for [i = 1:has_thin] $thin using 1:2 with lines ls 1, \
     for [i = 1:has_heavy] $heavy using 1:2 with lines ls 2, \
     for [i = 1:has_empty] $empty using 1:2 with points ls 4
@CLOSE@
