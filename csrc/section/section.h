/* SPDX-License-Identifier: MIT
 * section.h - what is left of a rectangle. */
#ifndef NETSECTION_SECTION_H
#define NETSECTION_SECTION_H

#include "joist/joist.h"

/* Net section of a rectangle b x H with the band y1..y2 gone: see section.c */
struct ns_section {
  ns_lane b, H, d;   /* outer rectangle; depth of the whole joist */
  ns_lane y1, y2;    /* band gone, from the bottom of the rectangle */
  ns_lane z1, z2;    /* another over or under it; z2 <= z1: none */
  ns_lane size[2];   /* longer side of each: a lip thinner than it may go */
  ns_lane L;         /* length over which the first acts as an opening */
  ns_lane A, y_b, I; /* area, own centroid, second moment about it */
  ns_lane S_b, S_t;  /* I over the distance to either edge */
  ns_lane least;     /* least modulus of any opening within this one */
  ns_lane h_b, h_t;  /* wood left below and above the band */
  ns_lane lost;      /* 1 lower lip dropped, 2 upper, 3 both */
  ns_lane A_v;       /* area in shear, less where a chord governs */
  ns_lane A_h, part; /* of two chords by h^3; how far that counts, 0 to 1 */
  ns_lane h_v;       /* the deeper chord; 0: the whole net area */
  ns_lane h_s;       /* the shallower of two */
  ns_lane h3;        /* sum of the cubes of the chords that share V */
  ns_lane h_m;       /* wood between two bands */
  ns_lane c_b, c_t;  /* chords of an opening; 0 where there are not two */
  /* For the lips: centroid from the lip's edge and I, where the mean stress
   * in it is the greatest of all openings within this one. */
  ns_lane c_m;            /* and the one between two bands */
  ns_lane gone_b, gone_t; /* 1: no wood that counts below, above the band */
  ns_lane lip_y[2], lip_I[2];
};
/* Reads b, H, d, y1, y2, z1, z2, size, L. */
void ns_section_of(struct ns_section *section);
void ns_section_I(struct ns_section *o);

#endif
