# SPDX-License-Identifier: MIT
# One view of drawing.gp: @NAME@. Joists in plan, the first one on top, inches, one scale
# along and across.

# Points are x and the offset up the sheet (across the floor to the right is down).
@DATA@

# has_*: there is something of the kind.
@FACTS@

@FRAME@

# Actions are told apart by the letter before the joist, by the words after it and by the
# shade of the joist; cuts by the shape on it.
plot for [i = 1:has_bearing] $bearing with filledcurves closed \
       lc rgb '#A0A0A0' fillstyle pattern 4 noborder, \
     for [i = 1:has_thing] $thing with lines ls 3, \
     for [i = 1:has_leave] $leave with filledcurves closed \
       lc rgb '#FFFFFF' fillstyle solid 1.0 noborder, \
     for [i = 1:has_justify] $justify with filledcurves closed \
       lc rgb '#E0E0E0' fillstyle solid 1.0 noborder, \
     for [i = 1:has_decide] $decide with filledcurves closed \
       lc rgb '#B8B8B8' fillstyle solid 1.0 noborder, \
     for [i = 1:has_repair] $repair with filledcurves closed \
       lc rgb '#606060' fillstyle solid 1.0 noborder, \
     for [i = 1:has_refer] $refer with filledcurves closed \
       lc rgb '#000000' fillstyle pattern 5 noborder, \
     for [i = 1:has_edge] $edge with lines ls 6, \
     for [i = 1:has_fix] $fix with lines lw 3 lc rgb '#000000', \
     for [i = 1:has_loss] $loss with filledcurves closed \
       lc rgb '#FFFFFF' fillstyle solid 1.0 noborder, \
     for [i = 1:has_loss] $loss with filledcurves closed \
       lc rgb '#000000' fillstyle pattern 4 noborder, \
     for [i = 1:has_loss] $loss with lines ls 6, \
     for [i = 1:has_split] $split with lines ls 2, \
     for [i = 1:has_white] $white with points pt 7 ps 1.9*point lc rgb '#FFFFFF', \
     for [i = 1:has_hole] $hole with points pt 6 ps 1.5*point lw 1.2 lc rgb '#000000', \
     for [i = 1:has_slot] $slot with points pt 4 ps 1.4*point lw 1.2 lc rgb '#000000', \
     for [i = 1:has_top] $top with points pt 10 ps 1.6*point lw 1.2 lc rgb '#000000', \
     for [i = 1:has_bottom] $bottom with points pt 8 ps 1.6*point lw 1.2 lc rgb '#000000', \
     for [i = 1:has_endtop] $endtop with points pt 11 ps 1.6*point lc rgb '#000000', \
     for [i = 1:has_endbottom] $endbottom with points pt 9 ps 1.6*point lc rgb '#000000', \
     for [i = 1:has_sever] $sever with points pt 2 ps 1.6*point lw 1.8 lc rgb '#000000', \
     for [i = 1:has_axis] $axis with lines ls 7, \
     for [i = 1:has_dim] $dim with lines ls 8

unset label
unset arrow
unset object
