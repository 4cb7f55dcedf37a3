# SPDX-License-Identifier: MIT
# Moment, shear or both of a joist as it is, and under each of the members of the
# repaired joist.
@PAGE@

# any_*: what some frame shows; *_row: heights of the rows of the key.
@FACTS@

@WORDS@

# Told apart in black and white: by width, dashes, gray and hatching.
set style line 1 lw 1.4 lc rgb '#000000' dashtype solid
set style line 2 lw 0.9 lc rgb '#000000' dashtype (2,3)
set style line 3 lw 2.4 lc rgb '#000000' dashtype solid
set style line 4 lw 0.9 lc rgb '#000000' dashtype (12,6)
set style line 5 lw 1.6 lc rgb '#000000' pt 6 ps 2
set style line 6 lw 0.7 lc rgb '#6A6A6A' dashtype solid
set style line 7 lw 1.1 lc rgb '#000000' dashtype (22,8,4,8)

# The key is drawn by hand: the size of gnuplot's own hangs on the terminal's font.
unset key
set arrow from screen key_left,screen full_row to screen key_right,screen full_row \
  nohead ls 1
if (any_repaired) {
  set arrow from screen key_left,screen before_row to screen key_right,screen before_row \
    nohead ls 7
}
if (any_moved) {
  set arrow from screen key_left,screen moved_row to screen key_right,screen moved_row \
    nohead ls 2
}
set object rectangle from screen key_left,screen live_row - key_half \
  to screen key_right,screen live_row + key_half \
  fillcolor rgb '#D6D6D6' fillstyle solid 1.0 border lc rgb '#6A6A6A' lw 0.7
set arrow from screen key_left,screen cut_row to screen key_right,screen cut_row \
  nohead ls 3
if (any_damaged) {
  set arrow from screen key_left,screen uncut_row to screen key_right,screen uncut_row \
    nohead ls 4
}
if (any_exceeded) {
  set object rectangle from screen key_left,screen exceeded_row - key_half \
    to screen key_right,screen exceeded_row + key_half \
    fillcolor rgb '#000000' fillstyle pattern 4 border lc rgb '#000000' lw 0.7
}
if (any_ringed) {
  set label '' at screen (key_left + key_right) / 2,screen ring_row point ls 5
}
if (repaired_ringed) {
  set label '' at screen (key_left + key_right) / 2,screen ring_repaired_row point ls 5
}
if (any_repaired) {
  set arrow from screen key_left,screen extent_row to screen key_right,screen extent_row \
    nohead lw 2.4
  do for [x in sprintf('%f %f', key_left, key_right)] {
    set arrow from screen real(x),screen extent_row - key_tick \
      to screen real(x),screen extent_row + key_tick nohead lw 1.6
  }
}

set multiplot
@PANELS@
unset multiplot
@CLOSE@
