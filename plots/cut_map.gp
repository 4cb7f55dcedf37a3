# SPDX-License-Identifier: MIT
# Where on a joist which hole or notch is still allowed.
@PAGE@

# Columns: 1 place, 2 largest hole by the rules, 3 by calculation, 4 by both; 5 deepest
# notch in the top edge, 6 in the bottom edge.
@DATA@

# *_row: heights of the rows of the key.
@FACTS@

# Told apart in black and white: by width, dashes, gray and hatching.
set style line 1 lw 2.2 lc rgb '#000000' dashtype solid
set style line 2 lw 1.0 lc rgb '#000000' dashtype (12,6)
set style line 3 lw 1.0 lc rgb '#000000' dashtype (2,3)
set style line 4 lw 4.5 lc rgb '#9A9A9A' dashtype solid
set style line 5 lw 1.2 lc rgb '#000000' dashtype solid

unset key
set multiplot

@HOLES@

set object rectangle from screen key_left,screen both_row - key_half \
  to screen key_right,screen both_row + key_half \
  fillcolor rgb '#D6D6D6' fillstyle solid 1.0 border lc rgb '#000000' lw 1.2
set arrow from screen key_left,screen rules_row to screen key_right,screen rules_row \
  nohead ls 2
set arrow from screen key_left,screen calculation_row \
  to screen key_right,screen calculation_row nohead ls 3
set arrow from screen key_left,screen top_row to screen key_right,screen top_row \
  nohead ls 5
set arrow from screen key_left,screen bottom_row to screen key_right,screen bottom_row \
  nohead ls 4
set ylabel 'hole, @UNIT@' noenhanced
plot $map using 1:4 with filledcurves y1=0 lc rgb '#D6D6D6' fillstyle solid 1.0 noborder, \
     $map using 1:2 with lines ls 2, \
     $map using 1:3 with lines ls 3, \
     $map using 1:4 with lines ls 1
unset label
unset arrow
unset object

@NOTCHES@

set ylabel 'notch, @UNIT@' noenhanced
plot $map using 1:5 with filledcurves y1=0 lc rgb '#D6D6D6' fillstyle solid 1.0 noborder, \
     $map using 1:6 with lines ls 4, \
     $map using 1:5 with lines ls 5
unset multiplot
@CLOSE@
