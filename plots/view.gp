# SPDX-License-Identifier: MIT
# One view of drawing.gp: @NAME@. Inches of the joist, one scale along and up.

# Points are x and height of lines and closed areas. Holes: center, length, height.
# Fasteners: center, radius.
@DATA@

# has_*: there is something of the kind.
@FACTS@

@FRAME@

plot for [i = 1:has_farfill] $farfill with filledcurves closed \
       lc rgb '#DCDCDC' fillstyle solid 1.0 noborder, \
     for [i = 1:has_wood] $wood with filledcurves closed \
       lc rgb '#F0F0F0' fillstyle solid 1.0 noborder, \
     for [i = 1:has_bearing] $bearing with filledcurves closed \
       lc rgb '#000000' fillstyle pattern 4 noborder, \
     for [i = 1:has_bearing] $bearing with lines ls 6, \
     for [i = 1:has_sides] $sides with filledcurves closed \
       lc rgb '#808080' fillstyle pattern 5 noborder, \
     for [i = 1:has_loss] $loss with filledcurves closed \
       lc rgb '#000000' fillstyle pattern 4 noborder, \
     for [i = 1:has_loss] $loss with lines ls 6, \
     for [i = 1:has_edge] $edge with lines ls 1, \
     for [i = 1:has_slot] $slot with filledcurves closed \
       lc rgb '#FFFFFF' fillstyle solid 1.0 noborder, \
     for [i = 1:has_slot] $slot with lines ls 1, \
     for [i = 1:has_slothidden] $slothidden with filledcurves closed \
       lc rgb '#FFFFFF' fillstyle solid 1.0 noborder, \
     for [i = 1:has_slothidden] $slothidden with lines ls 3, \
     for [i = 1:has_slotfar] $slotfar with filledcurves closed \
       lc rgb '#DCDCDC' fillstyle solid 1.0 noborder, \
     for [i = 1:has_slotfar] $slotfar with lines ls 1, \
     for [i = 1:has_hole] $hole with ellipses units xy \
       fillcolor rgb '#FFFFFF' lw 1 fillstyle solid 1.0 border lc rgb '#000000', \
     for [i = 1:has_holefar] $holefar with ellipses units xy \
       fillcolor rgb '#DCDCDC' lw 1 fillstyle solid 1.0 border lc rgb '#000000', \
     for [i = 1:has_split] $split with lines ls 2, \
     for [i = 1:has_far] $far with lines ls 5, \
     for [i = 1:has_nearfill] $nearfill with filledcurves closed \
       lc rgb '#DCDCDC' fillstyle solid 1.0 noborder, \
     for [i = 1:has_hidden] $hidden with lines ls 3, \
     for [i = 1:has_holehidden] $holehidden with ellipses units xy \
       lw 0.8 dashtype (5,5) fillstyle empty border lc rgb '#000000', \
     for [i = 1:has_near] $near with lines ls 4, \
     for [i = 1:has_steel] $steel with filledcurves closed \
       lc rgb '#000000' fillstyle solid 1.0 noborder, \
     for [i = 1:has_steel] $steel with lines ls 4, \
     for [i = 1:has_shank] $shank with lines ls 2, \
     for [i = 1:has_mark] $mark with lines ls 6, \
     for [i = 1:has_axis] $axis with lines ls 7, \
     for [i = 1:has_dim] $dim with lines ls 8, \
     for [i = 1:has_dot] $dot with points pt 7 ps 0.35 lc rgb '#000000', \
     for [i = 1:has_fastener] $fastener with circles \
       fillcolor rgb '#FFFFFF' lw 0.7 fillstyle solid 1.0 border lc rgb '#000000', \
     for [i = 1:has_cross] $cross with points ls 9

unset label
unset arrow
unset object
