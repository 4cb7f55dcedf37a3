/* SPDX-License-Identifier: MIT
 * lip_tension.c - the chord of an opening that is in tension. */
#include "check/opening.h"

/* The numbers behind the check: N = M/z, f_t, f_b and both sums. */
NS_INLINE void note_tension(const struct ns_work *w, int c,
                            const struct ns_demand *q,
                            const struct ns_opening *f, struct ns_check *k) {
  const struct ns_section *s = &w->section[c];
  ns_record_factors(k, w->Ft, 1, w->standard->combos, NULL);
  for (int i = 0; i < NS_LANES; i++) {
    const struct chord_case g = governs(k, q, i);
    const struct ns_chord *n = &f->chord[g.sign];
    const struct ns_factors *Fb = &f->Fb[g.combo][g.sign];
    const double z = s->H[i] - (s->c_b[i] + s->c_t[i]) / 2;
    const double f_t = g.M * n->axial[i], f_b = g.M * n->bend[i];
    const double F_bs = Fb->value[i] / Fb->CL[i], f_2 = g.V * f->bend[i];
    const double F_t = w->Ft[g.combo].value[i];
    note_chord(w, c, f, n, &g, k, i);
    k->rec[NS_R_h_b][i] = s->h_b[i];
    k->rec[NS_R_h_t][i] = s->h_t[i];
    k->rec[NS_R_z][i] = z;
    k->rec[NS_R_N][i] = g.M / z;
    k->rec[NS_R_f_t][i] = f_t;
    k->rec[NS_R_f_b][i] = f_b;
    k->rec[NS_R_F][i] = w->in.joist[NS_J_Ft][i];
    k->rec[NS_R_F_a2][i] = F_bs;
    k->rec[NS_R_C_2][i] = F_bs / w->in.joist[NS_J_Fb][i];
    k->rec[NS_R_r_1][i] = (f_t + f_b + f_2) / F_bs;
    k->rec[NS_R_r_2][i] = ns_tension_and_bending(f_t, F_t, f_b + f_2, F_bs);
  }
}

/* f_t/F_t' + f_b/F_b* <= 1 of the chord in tension, as far as it is a tie; its
 * edge, (f_t + f_b)/F_b* <= 1, otherwise. Branch 1 the lower chord, 2 the
 * upper; 3 one that is no tie. */
NS_INLINE void lip_tension(struct ns_work *w, int c, const struct ns_demand *q,
                           const struct ns_opening *f) {
  struct ns_check *k = ns_add(w->out, NS_LIP_TENSION, c, -1);
  const double *restrict given = w->in.joist[NS_J_Ft];
  const double *restrict chords = f->chords;
  ns_lane tie = {0};
  for (int sign = 0; sign < 2; sign++)
    for (int combo = 0; combo < w->standard->combos; combo++) {
      if (sign && !q->hogs[combo]) continue;
      const struct ns_chord *restrict n = &f->chord[sign];
      const double *restrict Fb = f->Fb[combo][sign].value;
      const double *restrict CL = f->Fb[combo][sign].CL;
      const double *restrict M = q->M[combo][sign], *restrict V = q->V[combo];
      const double *restrict at = q->M_at[combo][sign];
      const double *restrict value = w->Ft[combo].value;
      LANES(i) {
        const double f_t = M[i] * n->axial[i], F_bs = Fb[i] / CL[i];
        const double f_b = M[i] * n->bend[i] + V[i] * f->bend[i];
        const double plain = (f_t + f_b) / F_bs, tau = n->tau[i];
        const double full = ns_tension_and_bending(f_t, value[i], f_b, F_bs);
        const double r = plain + tau * ns_max(full - plain, 0);
        const bool known = (given[i] > 0) | (tau == 0);
        const bool some = (chords[i] != 0) & known & ((sign == 0) | (M[i] > 0));
        const bool take =
            ns_offer_lane(k, i, some, r, 1, at[i], combo, 1 + sign);
        tie[i] = take ? tau : tie[i];
      }
    }
  if (w->records) note_tension(w, c, q, f, k);
  LANES(i) k->branch[i] = tie[i] > 0 ? k->branch[i] : 3;
}

/* The lower chord under M > 0, the upper one under M < 0. */
NS_CHECK(lip_tension) {
  if (o->opening) lip_tension(w, o->at, o->q, o->opening);
}
