/* SPDX-License-Identifier: MIT
 * opening.c - the wood over and under an opening: as a frame, as a tie and as a
 * strut.
 *
 * Plain net bending holds for small and round openings. A chord counts as a tie
 * or a strut (as a piece under axial force and bending) only as the opening
 * grows longer than the chord is deep, and not where the chord is half the
 * joist:
 *
 *     tau = clamp(L/h - 1, 0, 1) clamp(2 - 4 h/d, 0, 1)
 *     ratio = plain + tau max(0, interaction - plain)
 *
 * No test supports tau; plane stress does not either, since the mean stress in
 * a lip is that of plane sections at any length. It is a judgment of how long
 * a lip has to be for Ft', a value of whole pieces, to speak. Its ends can be
 * defended: nil beside a drilled hole, all of it in a tie twice as long as
 * deep. Ratios are blended, not allowable values, so that compression with
 * bending, which is no sum of two, goes the same way.
 *
 * A chord that is overstressed may be written off where the wood beyond the
 * opening carries all by itself: equilibrium does not need the chord, and an
 * opening that runs out to the edge must not be better than one that does
 * not. */
#include "check/opening.h"

/* Lengths of an opening, and where both of its chords count. */
NS_INLINE void opening_of(const struct ns_work *w, int c,
                          const struct ns_demand *q, struct ns_opening *o) {
  const struct ns_cut_geometry *restrict g = &w->cut[c];
  const struct ns_section *restrict n = &w->section[c];
  LANES(i) {
    const double sum = n->b[i] * chord_cubes(n, i), a = g->a[i];
    const double f = 3 * a * deeper_chord(n, i) / (sum > 0 ? sum : 1);
    const bool open = (q->leader[i] != 0) & (q->open[i] != 0);
    o->a[i] = a;
    o->L[i] = g->L[i];
    o->bend[i] = sum > 0 ? f : 0;
    o->chords[i] = open & (n->c_b[i] > 0) & (n->c_t[i] > 0) ? 1 : 0;
  }
}

/* A chord: its depth, centroid and I, its stresses for M = 1, and tau. */
NS_INLINE void chord_of(const struct ns_work *w, int c,
                        const struct ns_opening *f, bool top,
                        struct ns_chord *o) {
  const struct ns_section *n = &w->section[c];
  const double *restrict c_h = top ? n->c_t : n->c_b;
  const double *restrict lip_y = n->lip_y[top], *restrict lip_I = n->lip_I[top];
  const double *restrict depth = w->depth;
  LANES(i) {
    const bool some = f->chords[i] != 0;
    const double h = c_h[i], I = ns_max(lip_I[i], 1e-9);
    const double longer = f->L[i] / (some ? h : 1) - 1;
    const double tie = ns_min(ns_max(longer, 0), 1);
    const double slim = ns_min(ns_max(2 - 4 * h / depth[i], 0), 1);
    o->h[i] = h;
    o->y[i] = lip_y[i];
    o->I[i] = I;
    o->axial[i] = (lip_y[i] - h / 2) / I;
    o->bend[i] = h / 2 / I;
    o->tau[i] = some ? tie * slim : 0;
  }
}

/* F_b' of M < 0 by the C_L that, with the most of any placing of live load at
 * the cut, is the governing pattern's M/C_L. */
NS_INLINE void hogging_values(struct ns_work *w, int c,
                              const struct ns_demand *q, struct ns_opening *o) {
  const struct ns_hog *h = &w->hog_cut[c];
  bool hogs = false;
  for (int k = 0; k < w->standard->combos; k++) hogs |= q->hogs[k];
  o->Fb = (const struct ns_factors(*)[2])w->Fb;
  if (!hogs) return;
  o->Fb = (const struct ns_factors(*)[2])o->own;
  for (int combo = 0; combo < w->standard->combos; combo++) {
    struct ns_factors *own = o->own[combo];
    for (int sign = 0; sign < 2; sign++) {
      if (w->records) own[sign] = w->Fb[combo][sign];
      ns_copy(own[sign].CL, w->Fb[combo][sign].CL);
      ns_copy(own[sign].value, w->Fb[combo][sign].value);
    }
    LANES(i) {
      const double M = q->M[combo][1][i], part = h->M[combo][i];
      const double used = part / h->CL[combo][i];
      const double CL = used > M ? M / used : 1;
      own[1].CL[i] = CL;
      own[1].value[i] = w->star[combo][i] * CL;
    }
  }
}

/* What the checks of an opening read; false where no lane has two chords. */
NS_CLONES bool ns_find_opening(struct ns_work *w, int c,
                               const struct ns_demand *q,
                               struct ns_opening *o) {
  double(*tau)[NS_LANES] = w->out->cuts[c].tau;
  opening_of(w, c, q, o);
  if (!ns_any(o->chords)) return false;
  for (int top = 0; top < 2; top++) {
    chord_of(w, c, o, top, &o->chord[top]);
    ns_copy(tau[top], o->chord[top].tau);
  }
  LANES(i) {
    const double below = o->chord[0].tau[i], above = o->chord[1].tau[i];
    const bool acting = (below > 0) | (above > 0) | (o->a[i] > 0);
    o->acts[i] = (o->chords[i] != 0) & acting ? 1 : 0;
  }
  hogging_values(w, c, q, o);
  return true;
}
