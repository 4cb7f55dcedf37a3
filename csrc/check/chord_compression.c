/* SPDX-License-Identifier: MIT
 * chord_compression.c - the chord of an opening that is in compression. */
#include "check/opening.h"

/* The numbers behind the check: f_c, f_b, the chord as a column, both sums. */
NS_INLINE void note_compression(const struct ns_work *w, int c,
                                const struct ns_demand *q,
                                const struct ns_opening *f,
                                struct ns_check *k) {
  ns_record_factors(k, w->Fc, 1, w->standard->combos, NULL);
  for (int i = 0; i < NS_LANES; i++) {
    const struct chord_case g = governs(k, q, i);
    const struct ns_chord *n = &f->chord[!g.sign];
    const struct ns_column v =
        ns_chord_column(f->L[i], n->h[i], w->section[c].b[i], w->Emin.value[i],
                        w->Fc[g.combo].value[i], w->in.joist[NS_J_Fc][i]);
    const double f_c = g.M * n->axial[i], f_b = g.M * n->bend[i];
    const double Fb = f->Fb[g.combo][g.sign].value[i], f_2 = g.V * f->bend[i];
    note_chord(w, c, f, n, &g, k, i);
    k->rec[NS_R_f_c][i] = f_c;
    k->rec[NS_R_f_b][i] = f_b;
    k->rec[NS_R_F][i] = w->in.joist[NS_J_Fc][i];
    k->rec[NS_R_CP][i] = v.CP;
    k->rec[NS_R_F_cE][i] = v.F_cE;
    k->rec[NS_R_F_a][i] = v.F_c;
    k->rec[NS_R_F_a2][i] = Fb;
    k->rec[NS_R_C_2][i] = Fb / w->in.joist[NS_J_Fb][i];
    k->rec[NS_R_r_1][i] = (f_c + f_b + f_2) / Fb;
    k->rec[NS_R_r_2][i] = ns_compression_and_bending(&v, f_c, f_b + f_2, Fb);
  }
}

/* (f_c/F_c')^2 + f_b/(F_b' (1 - f_c/F_cE)) <= 1 of the chord in compression, as
 * far as it is a strut; its edge, (f_c + f_b)/F_b' <= 1, otherwise. Branch 1
 * the upper chord (M > 0), 2 the lower; 3 and 4 those where the chord would
 * buckle; 5 one that is no strut. */
NS_INLINE void chord_compression(struct ns_work *w, int c,
                                 const struct ns_demand *q,
                                 const struct ns_opening *f) {
  struct ns_check *k = ns_add(w->out, NS_WOOD_COMPRESSION, c, -1);
  const double *restrict Fc_given = w->in.joist[NS_J_Fc];
  const double *restrict E_given = w->in.joist[NS_J_Emin];
  const double *restrict E = w->Emin.value, *restrict b = w->section[c].b;
  const double *restrict chords = f->chords;
  double *restrict branch = k->branch;
  ns_lane strut = {0}, buckles = {0};
  for (int sign = 0; sign < 2; sign++)
    for (int combo = 0; combo < w->standard->combos; combo++) {
      if (sign && !q->hogs[combo]) continue;
      const struct ns_chord *restrict n = &f->chord[!sign];
      const double *restrict Fb = f->Fb[combo][sign].value;
      const double *restrict M = q->M[combo][sign], *restrict V = q->V[combo];
      const double *restrict at = q->M_at[combo][sign];
      const double *restrict star = w->Fc[combo].value;
      LANES(i) {
        const double f_c = M[i] * n->axial[i], tau = n->tau[i];
        const double f_b = M[i] * n->bend[i] + V[i] * f->bend[i];
        const struct ns_column v =
            ns_chord_column(f->L[i], n->h[i], b[i], E[i], star[i], Fc_given[i]);
        const double plain = (f_c + f_b) / Fb[i];
        const double full = ns_compression_and_bending(&v, f_c, f_b, Fb[i]);
        const double r = plain + tau * ns_max(full - plain, 0);
        const bool given = (Fc_given[i] > 0) & (E_given[i] > 0);
        const bool known = given | (tau == 0);
        const bool some = (chords[i] != 0) & known & ((sign == 0) | (M[i] > 0));
        const bool take =
            ns_offer_lane(k, i, some, r, 1, at[i], combo, 1 + sign);
        const double two = f_c >= v.F_cE * (1 - 1e-3) ? 2 : 0;
        strut[i] = take ? tau : strut[i];
        buckles[i] = take ? two : buckles[i];
      }
    }
  if (w->records) note_compression(w, c, q, f, k);
  LANES(i) branch[i] = strut[i] > 0 ? branch[i] + buckles[i] : 5;
}

/* The upper chord under M > 0, the lower one under M < 0. */
NS_CHECK(chord_compression) {
  if (o->opening) chord_compression(w, o->at, o->q, o->opening);
}
