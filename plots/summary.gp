# SPDX-License-Identifier: MIT
# The joists of a floor by their largest ratio of demand to capacity.
@PAGE@

# Columns: 1 ratio, 2 row from the top. $past: ratios past the end of the axis.
@DATA@

@FRAME@

set yrange [rows + 0.5:0.5]
unset ytics
set border 1 lw 0.8
set xtics 0.5 nomirror out scale 0.5
set format x '%.1f'
set grid xtics lt 1 lw 0.4 lc rgb '#D0D0D0'

# Told apart in black and white by their shapes; the line is a ratio of 1.
set style line 1 lw 1.3 lc rgb '#000000' pt 6 ps 1.5*point
set style line 2 lc rgb '#000000' pt 5 ps 1.4*point
set style line 3 lw 1.3 lc rgb '#000000' pt 12 ps 1.8*point
set style line 4 lw 1.6 lc rgb '#000000' pt 2 ps 1.5*point

unset key
@KEY@

plot for [i = 1:has_bar] $bar using 1:2 with lines lw 0.7 lc rgb '#808080', \
     $one using 1:2 with lines lw 2.2 lc rgb '#000000', \
     for [i = 1:has_uncut] $uncut using 1:2 with points ls 1, \
     for [i = 1:has_cut] $cut using 1:2 with points ls 2, \
     for [i = 1:has_fixed] $fixed using 1:2 with points ls 3, \
     for [i = 1:has_through] $through using 1:2 with points ls 4
@CLOSE@
