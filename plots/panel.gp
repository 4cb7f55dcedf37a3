# SPDX-License-Identifier: MIT
# One frame of repair.gp: @NAME@.

# Columns: 1 place (ft), 2 full load, 3 least and 4 greatest with the live load where it
# hurts most (ft-lb or lb), 5 capacity, 6 the same below zero. $other is the uncut joist,
# or the joist before its repair.
@DATA@

# damaged: there are cuts; moved: they change the forces; repaired: the joist after its
# repair; hogging: there is a side below zero; exceeded: a demand is above its capacity;
# ringed: the governing place is shown.
@FACTS@

@FRAME@

plot $cut using 1:3:4 with filledcurves lc rgb '#D6D6D6' fillstyle solid 1.0 noborder, \
     $cut using 1:3 with lines ls 6, \
     $cut using 1:4 with lines ls 6, \
     for [i = 1:exceeded] $cut using 1:4:5 with filledcurves above \
       lc rgb '#000000' fillstyle pattern 4, \
     for [i = 1:exceeded * hogging] $cut using 1:3:6 with filledcurves below \
       lc rgb '#000000' fillstyle pattern 4, \
     for [i = 1:moved] $other using 1:2 with lines ls 2, \
     for [i = 1:repaired] $other using 1:2 with lines ls 7, \
     $cut using 1:2 with lines ls 1, \
     for [i = 1:damaged] $other using 1:5 with lines ls 4, \
     for [i = 1:damaged * hogging] $other using 1:6 with lines ls 4, \
     $cut using 1:5 with lines ls 3, \
     for [i = 1:hogging] $cut using 1:6 with lines ls 3, \
     for [i = 1:ringed] $ring using 1:2 with points ls 5

# What was placed by hand belongs to this frame alone.
unset label
unset arrow
unset object
