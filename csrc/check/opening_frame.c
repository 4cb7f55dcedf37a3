/* SPDX-License-Identifier: MIT
 * opening_frame.c - an opening's chords bent as the legs of a frame. */
#include "check/opening.h"

/* The numbers behind the check: V, its share by h^3 over half the opening's
 * length, and the stress of plain net bending. */
NS_INLINE void note_frame(struct ns_work *w, const struct ns_section *o,
                          const struct ns_demand *q, const struct ns_opening *f,
                          struct ns_check *k) {
  ns_lane second;
  LANES(i) second[i] = k->branch[i] > 1 ? 1 : 0;
  ns_record_factors(k, &f->Fb[0][0], 2, w->standard->combos, second);
  note_section(k, o);
  LANES(i) {
    double V = 0;
    for (int combo = 0; combo < w->standard->combos; combo++)
      V = k->combo[i] == combo ? q->V[combo][i] : V;
    const double f_2 = V * f->bend[i];
    k->rec[NS_R_V][i] = V;
    k->rec[NS_R_a][i] = f->a[i];
    k->rec[NS_R_h][i] = deeper_chord(o, i);
    k->rec[NS_R_sum_h3][i] = chord_cubes(o, i);
    k->rec[NS_R_f_2][i] = f_2;
    k->rec[NS_R_M][i] = (k->demand[i] - f_2) * o->least[i];
    k->rec[NS_R_f_b][i] = k->demand[i] - f_2;
    k->rec[NS_R_F][i] = w->in.joist[NS_J_Fb][i];
  }
}

/* f = M/S_min + 3 V a h/(b sum h^3) <= F_b' (psi): chords of a long opening
 * bend as a frame, V is shared by h^3 and turns over half the opening's length
 * a. The worst edge of the net section is put together with the worst chord, so
 * that a larger opening never gains. Branch 1 M > 0, 2 M < 0. */
NS_INLINE void opening_frame(struct ns_work *w, int c,
                             const struct ns_demand *q,
                             const struct ns_opening *f) {
  const struct ns_section *o = &w->section[c];
  const double *restrict least = o->least;
  ns_lane on;
  LANES(i) on[i] = (f->chords[i] != 0) & (f->a[i] > 0) ? 1 : 0;
  if (!ns_any(on)) return;
  struct ns_check *k = ns_add(w->out, NS_OPENING_FRAME, c, -1);
  for (int combo = 0; combo < w->standard->combos; combo++)
    for (int sign = 0; sign <= q->hogs[combo]; sign++) {
      const double *restrict M = q->M[combo][sign], *restrict V = q->V[combo];
      const double *restrict at = q->M_at[combo][sign];
      const double *restrict Fb = f->Fb[combo][sign].value;
      LANES(i) {
        const double all = edge_stress(M[i], least[i]) + V[i] * f->bend[i];
        const bool some = (on[i] != 0) & ((sign == 0) | (M[i] > 0));
        ns_offer_lane(k, i, some, all, Fb[i], at[i], combo, 1 + sign);
      }
    }
  if (w->records) note_frame(w, o, q, f, k);
}

/* Where an opening is long enough to bend as a frame. */
NS_CHECK(opening_frame) {
  if (o->opening) opening_frame(w, o->at, o->q, o->opening);
}
