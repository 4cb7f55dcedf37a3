# SPDX-License-Identifier: MIT
# What each input by itself does to the ratio, the others at their medians.
@PAGE@

# Columns: 1 ratio, 2 row from the top. Bars go from the least to the largest ratio.
@DATA@

@FRAME@

set yrange [rows + 0.5:0.5]
unset ytics
set border 1 lw 0.8
set xtics nomirror out scale 0.5
set format x '%.2f'
set grid xtics lt 1 lw 0.4 lc rgb '#D0D0D0'

# Told apart in black and white by their shapes: 5 % open, 95 % filled. The heavy line is
# a ratio of 1, the dashed one the ratio with all inputs at their medians.
set style line 1 lw 1.3 lc rgb '#000000' pt 6 ps 1.3*point
set style line 2 lc rgb '#000000' pt 7 ps 1.3*point

unset key
@KEY@

plot for [i = 1:has_bar] $bar using 1:2 with lines lw 5 lc rgb '#B0B0B0', \
     for [i = 1:has_flip] $flip using 1:2 with lines lw 5 lc rgb '#505050', \
     for [i = 1:shows_one] $one using 1:2 with lines lw 2.2 lc rgb '#000000', \
     for [i = 1:has_base] $base using 1:2 with lines lw 1.0 dashtype (6,5) \
       lc rgb '#000000', \
     for [i = 1:has_low] $low using 1:2 with points ls 1, \
     for [i = 1:has_high] $high using 1:2 with points ls 2
@CLOSE@
