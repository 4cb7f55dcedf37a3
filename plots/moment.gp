# SPDX-License-Identifier: MIT
# Bending moment along a joist, sagging up.
@PAGE@

# Columns: 1 place (ft), 2 full load, 3 least and 4 greatest with the live load where it
# hurts most (ft-lb), 5 capacity in sagging, 6 capacity in hogging.
@DATA@

# moved: the cuts change the moments; hogging: there are negative moments; exceeded: a
# demand is above its capacity; ringed: the governing place is on this diagram.
@FACTS@

@FRAME@

set ylabel 'M, ft-lb (sagging up)' offset -0.5,0 noenhanced

# Told apart in black and white: by width, dashes, grey and hatching.
set style line 1 lw 1.4 lc rgb '#000000' dashtype solid
set style line 2 lw 0.9 lc rgb '#000000' dashtype (2,3)
set style line 3 lw 2.8 lc rgb '#000000' dashtype solid
set style line 4 lw 0.9 lc rgb '#000000' dashtype (12,6)
set style line 5 lw 1.6 lc rgb '#000000' pt 6 ps 2
set style line 6 lw 0.7 lc rgb '#6A6A6A' dashtype solid

plot $cut using 1:3:4 with filledcurves lc rgb '#D6D6D6' \
       fill solid 1.0 border lc rgb '#6A6A6A' title live_text, \
     $cut using 1:3 with lines ls 6 notitle, \
     $cut using 1:4 with lines ls 6 notitle, \
     for [i = 1:exceeded] $cut using 1:4:5 with filledcurves above lc rgb '#000000' \
       fill pattern 4 title 'demand above the capacity', \
     for [i = 1:exceeded * hogging] $cut using 1:3:6 with filledcurves below \
       lc rgb '#000000' fill pattern 4 notitle, \
     for [i = 1:moved] $uncut using 1:2 with lines ls 2 title moved_text, \
     $cut using 1:2 with lines ls 1 title full_text, \
     $uncut using 1:5 with lines ls 4 title 'capacity, uncut', \
     $cut using 1:5 with lines ls 3 title 'capacity, cut', \
     for [i = 1:hogging] $uncut using 1:6 with lines ls 4 notitle, \
     for [i = 1:hogging] $cut using 1:6 with lines ls 3 notitle, \
     for [i = 1:ringed] $ring using 1:2 with points ls 5 title ring_text
@CLOSE@
