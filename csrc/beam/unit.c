/* SPDX-License-Identifier: MIT
 * unit.c - beams under even loads, from what they are under 1 lb/in.
 *
 * Where an influence line is positive does not depend on the load, so the most
 * and the least of V, M and every reaction, and each deflection, are linear in
 * the load. Under floor loads alone, even along the joist, all of them are
 * those under 1 lb/in times the load: dead load on a span as live load on it.
 * The first part rests on geometry and stays in the work room while that does
 * (work/kept.c); the second is worked for every block. A peak of M lies where
 * both together put it, so it is sought each time (table.c). */
#include "beam/table.h"

/* Places and stiffness of a beam, and 1 lb/in of live load. */
NS_INLINE void unit_beam(const struct ns_beam *s, struct ns_unit_beam *u) {
  struct ns_beam *o = &u->s;
  const size_t rows = sizeof(ns_lane) * (size_t)s->breaks;
  o->answer = u->answer;
  o->spans = s->spans;
  o->breaks = s->breaks;
  o->hinges = o->stations = o->only = 0;
  o->left = o->right = o->gap = o->severed = o->by_spans = o->by_units = false;
  memcpy(o->support, s->support, sizeof o->support);
  memcpy(o->x, s->x, rows);
  memcpy(o->EI, s->EI, rows);
  memset(o->dw[1], 0, rows);
  memset(o->P[1], 0, rows);
  for (int k = 0; k < s->breaks; k++) ns_fill(o->w[1][k], 1);
}

/* M over the supports, V on both sides; left of one is left of its first break.
 */
NS_INLINE void unit_supports(struct ns_unit_beam *u) {
  const struct ns_beam *s = &u->s;
  for (int j = 0; j <= s->spans; j++)
    for (int c = 0; c < 2; c++) {
      ns_fill(u->M[c][j], 0);
      for (int side = 0; side < 2; side++) ns_fill(u->V[c][side][j], 0);
    }
  for (int j = 0; j <= s->spans; j++)
    for (int k = 0; k < s->breaks; k++) {
      ns_lane here;
      LANES(i) here[i] = s->x[k][i] == s->support[j][i] ? 1 : 0;
      if (!ns_any(here)) continue;
      for (int c = 0; c < 2; c++)
        LANES(i) {
          const bool right = here[i] != 0, left = right & ns_new_place(s, k, i);
          u->V[c][0][j][i] = left ? s->VL[c + 1][k][i] : u->V[c][0][j][i];
          u->V[c][1][j][i] = right ? s->VR[c + 1][k][i] : u->V[c][1][j][i];
          u->M[c][j][i] = right ? s->M[c + 1][k][i] : u->M[c][j][i];
        }
    }
}

/* Segments in which M of a sign may turn under downward loads: V that goes with
 * it, dead or live, rises at the start of one and falls at its end. */
NS_INLINE void unit_peaks(struct ns_unit_beam *u) {
  const struct ns_beam *s = &u->s;
  for (int sign = 0; sign < 2; sign++)
    for (int k = 0; k < s->breaks - 1; k++) {
      const double way = sign == 0 ? 1 : -1;
      const double *restrict a1 = s->VR[1][k], *restrict a2 = s->VR[2][k];
      const double *restrict a3 = u->t.side[1][k].Vc[sign];
      const double *restrict b1 = s->VL[1][k + 1], *restrict b2 =
                                                       s->VL[2][k + 1];
      const double *restrict b3 = u->t.side[0][k + 1].Vc[sign];
      ns_lane may;
      LANES(i) {
        const bool up =
            (way * a1[i] > 0) | (way * a2[i] > 0) | (way * a3[i] > 0);
        const bool down =
            (way * b1[i] < 0) | (way * b2[i] < 0) | (way * b3[i] < 0);
        may[i] = up & down ? 1 : 0;
      }
      u->may[sign][k] = ns_any(may);
    }
}

/* All that rests on geometry alone, and what of it the beam itself shows. */
NS_CLONES void ns_unit_solve(struct ns_unit_beam *u, struct ns_beam *s) {
  const size_t rows = sizeof(ns_lane) * (size_t)s->breaks;
  unit_beam(s, u);
  ns_two_span_solve_live(&u->s);
  ns_unit_tabulate(u);
  unit_supports(u);
  unit_peaks(u);
  s->unknowns = u->s.unknowns;
  for (int c = 0; c < 2; c++) {
    memset(s->dw[c], 0, rows);
    memset(s->P[c], 0, rows);
  }
  ns_copy(s->unstable, u->s.unstable);
  memcpy(s->region, u->s.region, rows);
  memcpy(s->A, u->s.A, rows);
  memcpy(s->B, u->s.B, rows);
}

/* Dead, and live on either span, from what there is under 1 lb/in on each. A
 * sum with 0 has no -0. */
NS_INLINE void unit_row(const struct ns_unit_beam *u,
                        const ns_lane one[3][NS_MAX_BREAKS], int k,
                        ns_lane to[3][NS_MAX_BREAKS]) {
  const double *restrict a = one[1][k], *restrict b = one[2][k];
  const double *restrict d1 = u->dead[0], *restrict d2 = u->dead[1];
  const double *restrict q = u->live;
  double *restrict D = to[0][k], *restrict L1 = to[1][k];
  double *restrict L2 = to[2][k];
  LANES(i) {
    D[i] = d1[i] * a[i] + d2[i] * b[i] + 0.0;
    L1[i] = q[i] * a[i] + 0.0;
    L2[i] = q[i] * b[i] + 0.0;
  }
}

/* Loads of a beam, forces and deflections under them. */
NS_CLONES void ns_unit_forces(struct ns_unit_beam *u, const ns_lane *dead,
                              const double *live, struct ns_beam *s) {
  const struct ns_beam *one = &u->s;
  ns_lane up;
  s->only = 0;
  s->severed = s->by_spans = false;
  s->by_units = true;
  ns_copy(u->dead[0], dead[0]);
  ns_copy(u->dead[1], dead[1]);
  ns_copy(u->live, live);
  LANES(i) up[i] = (dead[0][i] < 0) | (dead[1][i] < 0) | (live[i] < 0) ? 1 : 0;
  u->down = !ns_any(up);
  for (int k = 0; k < s->breaks; k++) {
    const double *restrict r = s->region[k], *restrict d1 = u->dead[0];
    const double *restrict d2 = u->dead[1];
    double *restrict w = s->w[0][k];
    LANES(i) w[i] = r[i] == 1 ? d1[i] : d2[i];
    ns_copy(s->w[1][k], u->live);
    unit_row(u, one->M, k, s->M);
    unit_row(u, one->VL, k, s->VL);
    unit_row(u, one->VR, k, s->VR);
    unit_row(u, one->slope, k, s->slope);
    unit_row(u, one->sag, k, s->sag);
  }
  for (int j = 0; j <= s->spans; j++) {
    const double *restrict a = one->R[1][j], *restrict b = one->R[2][j];
    LANES(i) {
      s->R[0][j][i] = dead[0][i] * a[i] + dead[1][i] * b[i] + 0.0;
      s->R[1][j][i] = live[i] * a[i] + 0.0;
      s->R[2][j][i] = live[i] * b[i] + 0.0;
    }
  }
}
