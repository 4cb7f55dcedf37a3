# SPDX-License-Identifier: MIT
# Bending moment along a joist, sagging up.
@PAGE@

# Columns: 1 place (ft), 2 full load, 3 least and 4 greatest with the live load where it
# hurts most (ft-lb), 5 capacity in sagging, 6 capacity in hogging.
@DATA@

# damaged: there are cuts; moved: they change the forces; hogging: there is a side below
# zero; exceeded: a demand is above its capacity; ringed: the governing place is shown;
# *_row: heights of the rows of the key.
@FACTS@

@FRAME@

set ylabel 'M, @UNIT@ (sagging up)' noenhanced

# Told apart in black and white: by width, dashes, gray and hatching.
set style line 1 lw 1.4 lc rgb '#000000' dashtype solid
set style line 2 lw 0.9 lc rgb '#000000' dashtype (2,3)
set style line 3 lw 2.4 lc rgb '#000000' dashtype solid
set style line 4 lw 0.9 lc rgb '#000000' dashtype (12,6)
set style line 5 lw 1.6 lc rgb '#000000' pt 6 ps 2
set style line 6 lw 0.7 lc rgb '#6A6A6A' dashtype solid

# The key is drawn by hand: the size of gnuplot's own hangs on the terminal's font.
unset key
set arrow from screen key_left,screen full_row to screen key_right,screen full_row \
  nohead ls 1
if (moved) {
  set arrow from screen key_left,screen moved_row to screen key_right,screen moved_row \
    nohead ls 2
}
set object rectangle from screen key_left,screen live_row - key_half \
  to screen key_right,screen live_row + key_half \
  fillcolor rgb '#D6D6D6' fillstyle solid 1.0 border lc rgb '#6A6A6A' lw 0.7
set arrow from screen key_left,screen cut_row to screen key_right,screen cut_row \
  nohead ls 3
if (damaged) {
  set arrow from screen key_left,screen uncut_row to screen key_right,screen uncut_row \
    nohead ls 4
}
if (exceeded) {
  set object rectangle from screen key_left,screen exceeded_row - key_half \
    to screen key_right,screen exceeded_row + key_half \
    fillcolor rgb '#000000' fillstyle pattern 4 border lc rgb '#000000' lw 0.7
}
if (ringed) {
  set label '' at screen (key_left + key_right) / 2,screen ring_row point ls 5
}

plot $cut using 1:3:4 with filledcurves lc rgb '#D6D6D6' fillstyle solid 1.0 noborder, \
     $cut using 1:3 with lines ls 6, \
     $cut using 1:4 with lines ls 6, \
     for [i = 1:exceeded] $cut using 1:4:5 with filledcurves above \
       lc rgb '#000000' fillstyle pattern 4, \
     for [i = 1:exceeded * hogging] $cut using 1:3:6 with filledcurves below \
       lc rgb '#000000' fillstyle pattern 4, \
     for [i = 1:moved] $uncut using 1:2 with lines ls 2, \
     $cut using 1:2 with lines ls 1, \
     for [i = 1:damaged] $uncut using 1:5 with lines ls 4, \
     for [i = 1:damaged * hogging] $uncut using 1:6 with lines ls 4, \
     $cut using 1:5 with lines ls 3, \
     for [i = 1:hogging] $cut using 1:6 with lines ls 3, \
     for [i = 1:ringed] $ring using 1:2 with points ls 5
@CLOSE@
