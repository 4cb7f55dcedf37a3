/* SPDX-License-Identifier: MIT
 * severed_unit.c - a joist that is cut through and the member beside it under
 * even loads, from what they are under 1 lb/in (as unit.c).
 *
 * What works once both are tied is on both, what was there before on the joist
 * alone: two beams, each under 1 lb/in. A peak of M is sought under the loads
 * of every block, with the lines of V and M of the place before it: those of
 * segments where M may turn are kept. Where there is no room for one nothing is
 * kept, and the next block lays all lines again. */
#include "beam/table.h"

/* Places, stiffness and ties of a beam, and 1 lb/in of a kind of load. */
NS_INLINE void unit_geometry(const struct ns_beam *s, int kind,
                             struct ns_beam *o) {
  const size_t rows = sizeof(ns_lane) * (size_t)s->breaks;
  o->answer = NULL;
  o->spans = s->spans;
  o->breaks = s->breaks;
  o->hinges = s->hinges;
  o->stations = s->stations;
  o->only = 0;
  o->left = o->right = o->severed = o->by_spans = o->by_units = false;
  o->gap = s->gap;
  o->bears[0] = o->bears[1] = false;
  memcpy(o->support, s->support, sizeof o->support);
  memcpy(o->x, s->x, rows);
  memcpy(o->EI, s->EI, rows);
  for (int c = 0; c < 2; c++) {
    memset(o->w[c], 0, rows);
    memset(o->dw[c], 0, rows);
    memset(o->P[c], 0, rows);
  }
  for (int k = 0; k < s->breaks; k++) ns_fill(o->w[kind][k], 1);
  if (s->stations == 0) return;
  const size_t ties = sizeof(ns_lane) * (size_t)s->stations;
  memcpy(o->station, s->station, ties);
  memcpy(o->station_k, s->station_k, ties);
  memcpy(o->on_new, s->on_new, rows);
  memcpy(o->second, s->second, sizeof o->second);
  ns_copy(o->second_EI, s->second_EI);
  ns_copy(o->slide, s->slide);
  ns_copy(o->hinge[0], s->hinge[0]);
  ns_copy(o->hinge_k[0], s->hinge_k[0]);
}

/* What a beam shows of its geometry. */
NS_INLINE void show(const struct ns_beam *one, struct ns_beam *s) {
  const size_t rows = sizeof(ns_lane) * (size_t)s->breaks;
  s->unknowns = one->unknowns;
  ns_copy(s->unstable, one->unstable);
  memcpy(s->region, one->region, rows);
  memcpy(s->A, one->A, rows);
  memcpy(s->B, one->B, rows);
}

/* All that rests on geometry alone. */
NS_CLONES void ns_severed_unit_solve(struct ns_influence *o,
                                     struct ns_unit_severed *u,
                                     struct ns_beam *s, struct ns_beam *alone) {
  unit_geometry(s, 1, &u->s);
  unit_geometry(alone, 0, &u->alone);
  ns_severed_solve(o, &u->s);
  ns_beam_solve(&u->alone);
  for (int l = 0; l < s->stations; l++)
    ns_severed_range(o, l, u->G[l][0], u->G[l][1]);
  show(&u->s, s);
  show(&u->alone, alone);
  u->count = u->rows = 0;
  u->full = false;
  u->fresh = true;
}

/* A row times a load. A sum with 0 has no -0. */
NS_INLINE void times(const double *restrict one, const double *restrict load,
                     double *restrict to) {
  LANES(i) to[i] = one[i] * load[i] + 0.0;
}

/* The rows of a case under a load on both. */
NS_INLINE void tied_case(const struct ns_beam *one, int c, const double *load,
                         struct ns_beam *s) {
  for (int k = 0; k < s->breaks; k++) {
    times(one->M[1][k], load, s->M[c][k]);
    times(one->VL[1][k], load, s->VL[c][k]);
    times(one->VR[1][k], load, s->VR[c][k]);
    times(one->slope[1][k], load, s->slope[c][k]);
    times(one->sag[1][k], load, s->sag[c][k]);
    times(one->second_M[1][k], load, s->second_M[c][k]);
    times(one->second_VL[1][k], load, s->second_VL[c][k]);
    times(one->second_VR[1][k], load, s->second_VR[c][k]);
    times(one->second_slope[1][k], load, s->second_slope[c][k]);
    times(one->second_sag[1][k], load, s->second_sag[c][k]);
    ns_copy(s->w[c][k], load);
  }
  for (int l = 0; l < s->stations; l++)
    times(one->tie[1][l], load, s->tie[c][l]);
  for (int j = 0; j < 2; j++) times(one->R[1][j], load, s->R[c][j]);
  times(one->turn[1][0], load, s->turn[c][0]);
  times(one->slip[1], load, s->slip[c]);
}

/* Nothing in a case. */
NS_INLINE void tied_none(int c, struct ns_beam *s) {
  const size_t rows = sizeof(ns_lane) * (size_t)s->breaks;
  ns_lane *all[] = {s->M[c],         s->VL[c],        s->VR[c],
                    s->slope[c],     s->sag[c],       s->second_M[c],
                    s->second_VL[c], s->second_VR[c], s->second_slope[c],
                    s->second_sag[c]};
  for (size_t r = 0; r < sizeof all / sizeof *all; r++) memset(all[r], 0, rows);
  memset(s->tie[c], 0, sizeof(ns_lane) * (size_t)s->stations);
  memset(s->R[c], 0, sizeof(ns_lane) * 2);
  memset(s->turn[c], 0, sizeof(ns_lane));
  memset(s->slip[c], 0, sizeof(ns_lane));
  if (c < 2) memset(s->w[c], 0, rows);
}

/* The joist alone under its dead load. */
NS_INLINE void alone_case(const struct ns_beam *one, const double *load,
                          struct ns_beam *s) {
  for (int k = 0; k < s->breaks; k++) {
    times(one->M[0][k], load, s->M[0][k]);
    times(one->VL[0][k], load, s->VL[0][k]);
    times(one->VR[0][k], load, s->VR[0][k]);
    times(one->slope[0][k], load, s->slope[0][k]);
    times(one->sag[0][k], load, s->sag[0][k]);
    ns_copy(s->w[0][k], load);
  }
  for (int j = 0; j < 2; j++) times(one->R[0][j], load, s->R[0][j]);
}

/* Loads, forces and deflections of both beams. */
NS_CLONES void ns_severed_unit_forces(struct ns_unit_severed *u,
                                      const ns_lane *dead, const double *live,
                                      struct ns_beam *s,
                                      struct ns_beam *alone) {
  const size_t rows = sizeof(ns_lane) * (size_t)s->breaks;
  ns_copy(u->dead[0], dead[0]);
  ns_copy(u->dead[1], dead[1]);
  ns_copy(u->live, live);
  s->only = alone->only = 0;
  s->severed = s->by_units = true;
  s->by_spans = false;
  for (int c = 0; c < 2; c++) {
    memset(s->dw[c], 0, rows);
    if (u->fresh) memset(s->P[c], 0, rows);
  }
  if (ns_any(dead[0]))
    tied_case(&u->s, 0, u->dead[0], s);
  else
    tied_none(0, s);
  tied_case(&u->s, 1, u->live, s);
  if (u->fresh) tied_none(2, s);
  alone_case(&u->alone, u->dead[1], alone);
  if (!u->fresh) return;
  for (int c = 0; c < 2; c++) {
    memset(alone->dw[c], 0, rows);
    memset(alone->P[c], 0, rows);
  }
  memset(alone->w[1], 0, rows);
}

/* Rows that the lines of a half take. */
NS_INLINE int line_rows(const struct ns_severed_half *f) {
  return 3 * f->breaks + 1;
}

/* A line into the rows kept, or back. */
NS_INLINE void keep_line(const struct ns_severed_half *f,
                         const struct ns_influence_line *from, ns_lane *to) {
  const size_t n = (size_t)f->breaks;
  memcpy(to, from->at, sizeof *to * (n + 1));
  memcpy(to + n + 1, from->slope, sizeof *to * n);
  memcpy(to + 2 * n + 1, from->W, sizeof *to * n);
}
NS_INLINE void fetch_line(const struct ns_severed_half *f, const ns_lane *from,
                          struct ns_influence_line *to) {
  const size_t n = (size_t)f->breaks;
  memcpy(to->at, from, sizeof *from * (n + 1));
  memcpy(to->slope, from + n + 1, sizeof *from * n);
  memcpy(to->W, from + 2 * n + 1, sizeof *from * n);
}

/* Keeps a segment in which M may turn; 'q' the row before it in the half that
 * is worked, -1 over the gap. */
void ns_severed_hold(struct ns_unit_severed *u, const struct ns_influence *o,
                     int segment, int q, const double *mine, const bool *may) {
  const struct ns_severed_half *f = &o->half[o->in_half];
  const int rows = q < 0 ? 0 : 2 * line_rows(f);
  if (u->count == NS_MAX_HELD || u->rows + rows > NS_HELD_ROWS) {
    u->full = true;
    return;
  }
  struct ns_held *h = &u->held[u->count++];
  ns_copy(h->mine, mine);
  h->segment = segment;
  h->half = q < 0 ? 2 : o->in_half;
  h->q = q;
  h->row = u->rows;
  h->may[0] = may[0];
  h->may[1] = may[1];
  h->second = o->second;
  u->rows += rows;
  if (q < 0) return;
  keep_line(f, &o->V[q & 1], u->row + h->row);
  keep_line(f, &o->M[q & 1], u->row + h->row + line_rows(f));
}

/* The lines of a segment as they were when it was kept. */
void ns_severed_recall(const struct ns_unit_severed *u, const struct ns_held *h,
                       struct ns_influence *o) {
  const struct ns_severed_half *f = &o->half[h->half];
  o->in_half = h->half;
  o->second = h->second;
  fetch_line(f, u->row + h->row, &o->V[h->q & 1]);
  fetch_line(f, u->row + h->row + line_rows(f), &o->M[h->q & 1]);
}
