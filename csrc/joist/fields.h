/* SPDX-License-Identifier: MIT
 * fields.h - limits, and the lists that name every input, mode and record.
 *
 * Each list is written once and read four ways: enum, validator, reference
 * table and the lookup that turns "cuts.1.depth" into a row of a block.
 * Lengths are in inches from the centre of the left bearing; loads come in
 * the trade's units (psf, plf, lb) and are converted where they are used. */
#ifndef NETSECTION_FIELDS_H
#define NETSECTION_FIELDS_H

#define NS_LANES 16 /* joists in a block: two AVX-512 vectors */
#define NS_MAX_SPANS 6
#define NS_MAX_SUPPORTS (NS_MAX_SPANS + 1)
#define NS_MAX_CUTS 8
#define NS_MAX_LINES 8
#define NS_MAX_POINTS 16
#define NS_MAX_HINGES 4
#define NS_MAX_BLOCKING 8
#define NS_MAX_STEPS 24    /* steps of EI of a beam given by itself */
#define NS_MAX_STATIONS 32 /* rows of fasteners that tie a second beam */
#define NS_STATIONS 7      /* looked at between supports where M may turn */
/* Supports, two ends, five per cut, two per line, points, hinges, stations;
 * rows of a repair, its two ends, a prop, the ends of a gap. A beam given by
 * itself has its steps in place of cuts and of what is looked at between. */
#define NS_JOIST_BREAKS                                                        \
  (NS_MAX_SUPPORTS + 2 + 5 * NS_MAX_CUTS + 2 * NS_MAX_LINES + NS_MAX_POINTS +  \
   NS_STATIONS * NS_MAX_SPANS)
#define NS_FIX_BREAKS (NS_MAX_STATIONS + 6)
#define NS_MAX_BREAKS (NS_JOIST_BREAKS + NS_MAX_HINGES + NS_FIX_BREAKS)
/* Moments over interior supports, forces of stations, a rotation per hinge,
 * the slide of a gap, the free ends of a second beam. */
#define NS_MAX_UNKNOWNS (NS_MAX_SPANS - 1 + NS_MAX_STATIONS + NS_MAX_HINGES + 3)
#define NS_MAX_COMBOS 4
#define NS_MAX_ROWS 12  /* combinations with roof live load or snow */
#define NS_MAX_RULES 64 /* of all packs of a review */
#define NS_MAX_PACKS 4
#define NS_MAX_ITEMS 256 /* limits read, over all cuts and bearings */

/* X(name, rows, low, high, unit, meaning) */
#define NS_JOIST_LIST(X)                                                       \
  X(span, NS_MAX_SPANS, 24, 480, "in", "span, centre to centre of bearings")   \
  X(overhang_left, 1, 0, 240, "in", "overhang beyond the left bearing")        \
  X(overhang_right, 1, 0, 240, "in", "overhang beyond the right bearing")      \
  X(bearing, NS_MAX_SUPPORTS, 0, 48, "in", "bearing length; 0: it hangs free") \
  X(b, 1, 0.5, 12, "in", "thickness of one ply")                               \
  X(d, 1, 2, 24, "in", "depth as measured")                                    \
  X(plies, 1, 1, 8, "", "number of plies fastened together")                   \
  X(spacing, 1, 4, 96, "in", "width of floor carried, centre to centre")       \
  X(dead, 1, 0, 500, "psf", "dead load of the floor, joist included")          \
  X(live, 1, 0, 500, "psf", "live load of the floor")                          \
  X(Fb, 1, 1, 10000, "psi", "reference bending value")                         \
  X(Ft, 1, 0, 10000, "psi", "reference tension value, 0 if not given")         \
  X(Fv, 1, 1, 2000, "psi", "reference shear value")                            \
  X(Fc_perp, 1, 0, 5000, "psi", "reference bearing value, 0 if not given")     \
  X(Fc, 1, 0, 10000, "psi", "reference compression value, 0 if not given")     \
  X(E, 1, 1e5, 5e6, "psi", "modulus of elasticity")                            \
  X(Emin, 1, 1, 3e6, "psi", "modulus for stability")                           \
  X(CF, 1, 0.1, 2, "", "size factor for Fb")                                   \
  X(CF_t, 1, 0.1, 2, "", "size factor for Ft")                                 \
  X(CF_c, 1, 0.1, 2, "", "size factor for Fc")                                 \
  X(wet, 1, 0, 1, "", "1 where moisture in service is over 19 %")              \
  X(temperature, 1, -60, 150, "F", "temperature in service")                   \
  X(incised, 1, 0, 1, "", "1 where the wood is incised")                       \
  X(repetitive, 1, 0, 1.15, "", "0: decided by rule; 1.0 or 1.15 pins Cr")     \
  X(members, 1, 1, 1000, "", "joists in the row that share the floor")         \
  X(sheathed, 1, 0, 1, "", "1 where a floor deck holds the top edge")          \
  X(blocking, NS_MAX_BLOCKING, -240, 2880, "in", "blocking or bridging")       \
  X(Kcr, 1, 1, 3, "", "creep factor on the dead-load deflection")              \
  X(limit_live, 1, 0, 2000, "", "L over this, live load; 0: not checked")      \
  X(limit_total, 1, 0, 2000, "", "L over this, total load; 0: not checked")    \
  X(notch_raiser, 1, 1, 10, "", "factor on stress at a tension-face notch")    \
  X(inflection, 1, 0, 1, "", "1: the deck holds the joist where M turns")      \
  X(dead_off, 1, 0, 8, "",                                                     \
    "0; else no dead load there: 1 left overhang, 2 on")                       \
  X(G_mean, 1, 0, 1e6, "psi", "shear modulus, 0 if not given")                 \
  X(service, 1, 0, 3, "", "service class of EN 1995-1-1, 0 if not given")      \
  X(duration, 1, 0, 5, "",                                                     \
    "its class of imposed load: 1 permanent to 5, or 0")                       \
  X(roof_live, 1, 0, 500, "psf", "roof live load on the width carried")        \
  X(snow, 1, 0, 500, "psf", "snow load on the width carried")

#define NS_CUT_LIST(X)                                                         \
  X(at, 1, -240, 2880, "in", "centre of a hole")                               \
  X(from, 1, -240, 2880, "in", "where the cut begins")                         \
  X(to, 1, -240, 2880, "in", "where the cut ends")                             \
  X(diameter, 1, 0, 24, "in", "diameter of a hole")                            \
  X(height, 1, 0, 24, "in", "height of a slot")                                \
  X(depth, 1, 0, 24, "in", "depth of a notch")                                 \
  X(length, 1, 0, 480, "in", "length of an end notch from the joist's end")    \
  X(below, 1, 0, 24, "in", "wood left under an opening")                       \
  X(above, 1, 0, 24, "in", "wood left over an opening")                        \
  X(overcut, 1, 0, 12, "in", "saw kerf beyond the corner, counts as depth")    \
  X(split_length, 1, 0, 240, "in", "split that runs on from a notch")          \
  X(stretch, 1, 1, 10, "", "1 / sin of the angle a hole makes to the grain")   \
  X(taper, 1, 0, 100, "", "run of the sloped end per unit of notch depth")     \
  X(top, 1, 0, 24, "in", "wood lost from the top")                             \
  X(bottom, 1, 0, 24, "in", "wood lost from the bottom")                       \
  X(sides, 1, 0, 12, "in", "wood lost from each side")                         \
  X(allowance, 1, 0, 4, "in", "further wood written off on the lost faces")    \
  X(extend, 1, 0, 48, "in", "length a loss is taken further each way")         \
  X(at_depth, 1, 0, 24, "in", "depth of a split below the top edge")           \
  X(accept, 1, 0, 1, "", "1: outside the standard, accepted with a reason")    \
  X(seat, 1, 0, 2, "",                                                         \
    "end notch: 1 notch, 2 beyond it bears; char: 1 counts")                   \
  X(packed, 1, 0, 1, "", "1: cut to sound wood and packed over the bearing")   \
  X(seat_tolerance, 1, 0, 1, "in", "bottom loss up to which a seat is kept")

#define NS_LINE_LIST(X)                                                        \
  X(from, 1, -240, 2880, "in", "where the load begins")                        \
  X(to, 1, -240, 2880, "in", "where the load ends")                            \
  X(w1, 1, 0, 20000, "plf or psf", "intensity at the beginning")               \
  X(w2, 1, 0, 20000, "plf or psf", "intensity at the end")                     \
  X(width, 1, 0, 1000, "in", "width of a footprint across the joists")

#define NS_POINT_LIST(X)                                                       \
  X(at, 1, -240, 2880, "in", "place of the load")                              \
  X(P, 1, 0, 100000, "lb", "load")

/* A repair that works with the joist: a member beside it, tied to it at
 * stations, or a strap along its bottom edge. */
#define NS_FIX_LIST(X)                                                         \
  X(from, 1, -240, 2880, "in", "where the new member begins")                  \
  X(to, 1, -240, 2880, "in", "where it ends")                                  \
  X(b, 1, 0, 24, "in", "thickness of the new member, all pieces")              \
  X(d, 1, 0, 24, "in", "its depth")                                            \
  X(t, 1, 0, 24, "in", "thickness of one plate of steel, 0: b")                \
  X(rise, 1, -24, 24, "in", "its lower edge above the joist's")                \
  X(E, 1, 1e4, 5e7, "psi", "its modulus of elasticity")                        \
  X(Fy, 1, 0, 2e5, "psi", "its yield strength, 0 for wood")                    \
  X(station, NS_MAX_STATIONS, -240, 2880, "in", "place of a row or group")     \
  X(count, NS_MAX_STATIONS, 0, 200, "", "fasteners there")                     \
  X(stiff, 1, 0, 1e9, "lb/in", "slip modulus of one fastener")                 \
  X(Z, 1, 0, 1e5, "lb", "lateral value of one fastener")                       \
  X(C_z, 1, 0, 10, "", "factors on it but CD")                                 \
  X(rated, 1, 0, 1, "", "1: the maker's value, no factors")                    \
  X(low, NS_MAX_STATIONS, -24, 24, "in",                                       \
    "lowest of them above the lower edge")                                     \
  X(high, NS_MAX_STATIONS, -24, 24, "in", "highest of them above it")          \
  X(bottom, NS_MAX_STATIONS, -24, 24, "in",                                    \
    "lower edge of the joist's wood there")                                    \
  X(top, NS_MAX_STATIONS, -24, 24, "in", "upper edge of it")                   \
  X(lost, NS_MAX_STATIONS, 0, 24, "in", "height of openings between the two")  \
  X(prop_at, 1, -240, 2880, "in", "place of a prop while it is fastened")      \
  X(prop, 1, 0, 100000, "lb", "force of the prop")                             \
  X(A_s, 1, 0, 100, "in2", "area of a strap")                                  \
  X(below, 1, 0, 12, "in", "middle of a strap under the bottom edge")          \
  X(P_s, 1, 0, 1e6, "lb", "tension a strap carries")                           \
  X(free, 1, 0, 480, "in", "length of strap between the fasteners")            \
  X(reached, 1, 0, 24, "in", "thickness of the joist they reach, 0: all")

/* X(name, word): the piece a check is about. */
#define NS_MEMBER_LIST(X)                                                      \
  X(HOST, "host")                                                              \
  X(SISTER, "sister")                                                          \
  X(PLATES, "plates")                                                          \
  X(STRAP, "strap")

#define NS_KIND_LIST(X)                                                        \
  X(HOLE, "hole")                                                              \
  X(SLOT, "slot")                                                              \
  X(NOTCH, "notch")                                                            \
  X(END_NOTCH, "end_notch")                                                    \
  X(SEVER, "sever")                                                            \
  X(LOSS, "loss")                                                              \
  X(SPLIT, "split")

/* What the record of a check holds: the symbols its steps are written in.
 * X(name, unit, meaning) */
#define NS_RECORD_LIST(X)                                                      \
  X(M, "lb-in", "moment")                                                      \
  X(V, "lb", "shear")                                                          \
  X(V_0, "lb", "shear at the support, all loads")                              \
  X(R, "lb", "reaction")                                                       \
  X(N, "lb", "chord force")                                                    \
  X(b, "in", "width")                                                          \
  X(d, "in", "depth")                                                          \
  X(d_n, "in", "depth left")                                                   \
  X(e, "in", "notch length past the bearing face")                             \
  X(a, "in", "length of the opening")                                          \
  X(h_b, "in", "wood left below")                                              \
  X(h_t, "in", "wood left above")                                              \
  X(h, "in", "depth of the chord that governs")                                \
  X(z, "in", "distance between chord centroids")                               \
  X(A, "in2", "net area")                                                      \
  X(y_b, "in", "centroid above the bottom edge")                               \
  X(y, "in", "centroid from the chord's own edge")                             \
  X(I, "in4", "second moment about the net section's own centroid")            \
  X(S, "in3", "section modulus")                                               \
  X(S_b, "in3", "net section modulus, bottom edge")                            \
  X(S_t, "in3", "net section modulus, top edge")                               \
  X(S_min, "in3", "least modulus of any opening within this one")              \
  X(f_bot, "psi", "stress at the bottom edge")                                 \
  X(f_top, "psi", "stress at the top edge")                                    \
  X(f_b, "psi", "bending stress")                                              \
  X(f_2, "psi", "chord bending stress")                                        \
  X(f_t, "psi", "tension stress")                                              \
  X(f_c, "psi", "compression stress")                                          \
  X(k_n, "", "factor on stress at a tension-face notch")                       \
  X(F, "psi", "reference value")                                               \
  X(F_2, "psi", "second reference value")                                      \
  X(CD, "", "load duration factor")                                            \
  X(CM, "", "wet service factor")                                              \
  X(Ct, "", "temperature factor")                                              \
  X(CL, "", "beam stability factor")                                           \
  X(CF, "", "size factor")                                                     \
  X(Ci, "", "incising factor")                                                 \
  X(Cr, "", "repetitive member factor")                                        \
  X(Cb, "", "bearing area factor")                                             \
  X(CP, "", "column stability factor")                                         \
  X(F_cE, "psi", "critical buckling value")                                    \
  X(sum_h3, "in3", "sum of the cubes of the chord depths")                     \
  X(L_o, "in", "length over which the chord acts as a tie or strut")           \
  X(tau, "", "part of axial force with bending that counts, by length")        \
  X(m, "in", "shallower chord")                                                \
  X(A_h, "in2", "area in shear where the chords share V by h^3")               \
  X(lambda, "", "how far the chords share V by h^3")                           \
  X(K, "", "format and resistance factors, 1 in ASD")                          \
  X(C_2, "", "product of the factors on the second value")                     \
  X(F_a, "psi", "adjusted value")                                              \
  X(F_a2, "psi", "second adjusted value")                                      \
  X(l_u, "in", "unbraced length")                                              \
  X(l_e, "in", "effective length")                                             \
  X(pattern, "", "live load: a bit for each, left overhang, spans, right")     \
  X(l_b, "in", "bearing length")                                               \
  X(L, "in", "span")                                                           \
  X(n, "", "deflection limit divisor")                                         \
  X(D_D, "in", "dead-load deflection")                                         \
  X(D_L, "in", "live-load deflection")                                         \
  X(Kcr, "", "creep factor")                                                   \
  X(G, "lb", "force that a group of fasteners passes")                         \
  X(Z, "lb", "lateral value of one fastener")                                  \
  X(n_f, "", "fasteners in the group")                                         \
  X(C_z, "", "factors on the fastener's value but CD")                         \
  X(Z_a, "lb", "adjusted value of one fastener")                               \
  X(d_e, "in", "depth less the distance from the unloaded edge")               \
  X(T, "lb", "tension")                                                        \
  X(P_s, "lb", "what the steel carries")                                       \
  X(m_E, "", "modulus of steel over that of the wood")                         \
  X(A_s, "in2", "area of the steel")                                           \
  X(d_s, "in", "middle of the steel below the top edge")                       \
  X(d_r, "in", "depth of the wood left above the cut")                         \
  X(c, "in", "depth of the zone in compression")                               \
  X(t, "in", "thickness of one plate")                                         \
  X(C_m, "", "factor for how the moment falls off")                            \
  X(F_y, "psi", "yield strength")                                              \
  X(W, "lb/in", "withdrawal value per inch of thread")                         \
  X(p, "in", "thread in the wood that holds it")                               \
  X(q, "", "share of the moment")                                              \
  X(r_1, "", "first part of an interaction")                                   \
  X(r_2, "", "second part of an interaction")                                  \
  X(P, "lb", "load on a post or footing")                                      \
  X(l_e1, "in", "effective length for buckling along d_1")                     \
  X(l_e2, "in", "effective length for buckling along d_2")                     \
  X(d_1, "in", "side of a post")                                               \
  X(d_2, "in", "its other side")                                               \
  X(s_l, "", "slenderness of a post, l_e/d")                                   \
  X(E_m, "psi", "adjusted modulus for stability")                              \
  X(F_cs, "psi", "F_c with all factors but CP")                                \
  X(F_cE1, "psi", "critical buckling value along d_1")                         \
  X(F_cE2, "psi", "critical buckling value along d_2")                         \
  X(K_f, "", "factor of a built-up column along d_2, for slip")                \
  X(CP_1, "", "stability factor along d_1")                                    \
  X(CP_2, "", "stability factor along d_2")                                    \
  X(e_1, "in", "eccentricity of the load along d_1")                           \
  X(q_s, "psf", "allowable pressure on the soil")                              \
  X(gamma, "pcf", "weight of the footing")                                     \
  X(q_n, "psf", "soil pressure left for the load")                             \
  X(B, "in", "side of a square footing")                                       \
  X(a_p, "in", "how far a footing reaches past the post")                      \
  X(M_a, "lb-in", "allowable moment as given")                                 \
  X(V_a, "lb", "allowable shear as given")                                     \
  X(x, "in", "from the line of the reaction to the far edge of a notch")       \
  X(i_s, "", "slope of the end of a notch, 1 in this")                         \
  X(alpha, "", "depth left over depth")                                        \
  X(h_mm, "", "depth as a number of mm")                                       \
  X(k_v, "", "factor of a notch on shear, EN 1995-1-1")                        \
  X(f_vd, "psi", "shear strength, EN 1995-1-1, cracks left out")               \
  X(tau_d, "psi", "shear stress, EN 1995-1-1")                                 \
  X(k_c90, "", "factor of bearing by its support, EN 1995-1-1")                \
  X(k_def, "", "factor of creep, EN 1995-1-1")                                 \
  X(w_Q, "in", "deflection under imposed load, EN 1995-1-1")

#endif
