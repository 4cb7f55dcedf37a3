/* SPDX-License-Identifier: MIT
 * influence_transfer.c - from the lines of one place to those of the next.
 *
 * Past a step h, M has grown by V h, less what stands in the step; V is less
 * by that load, and steps by the force of a station or a support. The lines
 * are those of influence.c; what live load makes of them is in patch.c. */
#include "beam/table.h"

/* Line at place k + 1, left of it, from that at place k, right of it. The kink
 * of M comes before the step: breaks of other lanes make steps of no length,
 * and what is added must not depend on how many of them there are. */
NS_INLINE void step_on(struct ns_influence *o, int k) {
  const struct ns_beam *s = o->s;
  const struct ns_influence_line *V = &o->V[k & 1], *M = &o->M[k & 1];
  struct ns_influence_line *v = &o->V[(k + 1) & 1], *m = &o->M[(k + 1) & 1];
  const double *restrict h = o->h[k], *restrict on = o->on[k];
  const int e = o->end[k + 1];
  for (int p = 0; p < o->nodes; p++)
    LANES(i) {
      v->at[p][i] = V->at[p][i];
      v->slope[p][i] = V->slope[p][i];
      m->at[p][i] = M->at[p][i] + h[i] * V->at[p][i];
      m->slope[p][i] = M->slope[p][i] + h[i] * V->slope[p][i];
    }
  for (int j = 0; j < s->breaks - 1; j++)
    LANES(i) {
      v->W[j][i] = V->W[j][i];
      m->W[j][i] = M->W[j][i] + h[i] * V->W[j][i];
    }
  LANES(i) {
    const double w = s->w[1][k][i], dw = s->dw[1][k][i];
    v->at[k][i] = V->at[k][i] - on[i];
    m->at[k][i] = M->at[k][i] + h[i] * v->at[k][i];
    m->slope[k][i] = (M->slope[k][i] + on[i]) + h[i] * V->slope[k][i];
    v->W[k][i] -= on[i] * s->W[0][k][i];
    m->W[k][i] -= on[i] * (h[i] * h[i] * (w / 2 + dw * h[i] * NS_6TH));
  }
  if (e != k + 1)
    LANES(i) {
      v->at[e][i] -= on[i];
      m->slope[e][i] += on[i];
    }
}

/* Adds a line in the lanes marked, times the weight there. */
NS_INLINE void add_line(const struct ns_influence *o,
                        const struct ns_influence_line *a, const double *times,
                        struct ns_influence_line *r) {
  for (int p = 0; p < o->nodes; p++)
    LANES(i) {
      r->at[p][i] += times[i] * a->at[p][i];
      r->slope[p][i] += times[i] * a->slope[p][i];
    }
  for (int j = 0; j < o->s->breaks - 1; j++)
    LANES(i) r->W[j][i] += times[i] * a->W[j][i];
}

/* Takes over a line, all nodes and segments. */
NS_INLINE void copy_line(const struct ns_influence *o,
                         const struct ns_influence_line *from,
                         struct ns_influence_line *r) {
  memcpy(r->at, from->at, sizeof(ns_lane) * (size_t)o->nodes);
  memcpy(r->slope, from->slope, sizeof(ns_lane) * (size_t)o->nodes);
  memcpy(r->W, from->W, sizeof(ns_lane) * (size_t)o->s->breaks);
}

/* A line that is nil. */
NS_INLINE void clear_line(const struct ns_influence *o,
                          struct ns_influence_line *r) {
  memset(r->at, 0, sizeof(ns_lane) * (size_t)o->nodes);
  memset(r->slope, 0, sizeof(ns_lane) * (size_t)o->nodes);
  memset(r->W, 0, sizeof(ns_lane) * (size_t)o->s->breaks);
}

/* Adds to V what it steps by at break k, a station's force, a support's, in the
 * lanes where that is the first break of its place, or is not. */
NS_INLINE bool add_jumps(const struct ns_influence *o, int k,
                         bool stations_only, bool first, double way,
                         struct ns_influence_line *r) {
  const struct ns_beam *s = o->s;
  const int all = stations_only ? s->stations : s->stations + s->spans + 2;
  bool any = false;
  for (int l = 0; l < all; l++) {
    const int j = l - s->stations;
    const bool start = j > s->spans;
    if (j >= 0 && o->second != start) continue;
    if (start && !s->bears[0]) continue;
    const double *at = j < 0   ? s->station[l]
                       : start ? s->second[0]
                               : s->support[j];
    const struct ns_influence_line *a = j < 0   ? &o->station[l]
                                        : start ? &o->start
                                                : &o->support[j];
    const double times_all = j < 0 && !o->second ? -way : way;
    ns_lane times;
    LANES(i) {
      const bool mine = (int)ns_new_place(s, k, i) == (int)first;
      times[i] = (s->x[k][i] == at[i]) & mine ? times_all : 0;
    }
    if (!ns_any(times)) continue;
    any = true;
    add_line(o, a, times, r);
  }
  return any;
}

/* Lines are nil in the lanes marked. */
NS_INLINE void nil_where(const struct ns_influence *o, const double *marked,
                         struct ns_influence_line *r) {
  if (!ns_any(marked)) return;
  for (int p = 0; p < o->nodes; p++)
    LANES(i) {
      r->at[p][i] = marked[i] != 0 ? 0 : r->at[p][i];
      r->slope[p][i] = marked[i] != 0 ? 0 : r->slope[p][i];
    }
  for (int j = 0; j < o->s->breaks - 1; j++)
    LANES(i) r->W[j][i] = marked[i] != 0 ? 0 : r->W[j][i];
}

/* No moment at a last support with nothing past it, none at the end of the
 * second beam and beyond. */
NS_INLINE void end_moment(struct ns_influence *o, int k,
                          struct ns_influence_line *M) {
  const struct ns_beam *s = o->s;
  const double *last = o->second ? s->second[1] : s->support[s->spans];
  ns_lane out;
  if (!o->second && s->right) return;
  LANES(i) out[i] = s->x[k][i] >= last[i] ? 1 : 0;
  nil_where(o, out, M);
}

/* Most and least V and M right or left of place k by its lines. */
NS_INLINE void envelope_of(const struct ns_influence *o,
                           const struct ns_influence_line *V, int k, bool right,
                           const struct ns_shears *r, struct ns_envelope *out) {
  struct ns_sums sum;
  ns_no_sums(&sum);
  for (int g = 0; g < 2; g++)
    LANES(i) sum.V[g][i] = r->passed[g][i] + r->ahead[g][k][i];
  ns_influence_at(o, V, &o->M[k & 1], k, right, &sum);
  ns_take_sums(&sum, out);
}

/* Begins at the left end of the joist, or of the second beam. */
NS_CLONES void ns_influence_start(struct ns_influence *o, bool second) {
  const struct ns_beam *s = o->s;
  const int n = s->breaks;
  o->second = second;
  for (int k = 0; k < n; k++)
    LANES(i) o->on[k][i] = ns_carries(s, second, k, i) ? 1 : 0;
  ns_fill(o->none, 0);
  clear_line(o, &o->V[0]);
  clear_line(o, &o->M[0]);
  memset(o->shears.passed, 0, sizeof o->shears.passed);
  for (int g = 0; g < 2; g++)
    memset(o->shears.ahead[g], 0, sizeof(ns_lane) * (size_t)n);
}

/* The envelope right of place k, and left of it if that is asked for; places
 * in order. Left of a later break of one place, its supports are behind and
 * its stations ahead. */
NS_CLONES void ns_influence_place(struct ns_influence *o, int k, bool both,
                                  struct ns_envelope *left,
                                  struct ns_envelope *right) {
  const struct ns_beam *s = o->s;
  struct ns_influence_line *V = &o->V[k & 1], *M = &o->M[k & 1];
  ns_lane out, again;
  if (k > 0) {
    step_on(o, k - 1);
    end_moment(o, k, M);
    ns_influence_pass(o, V, k, &o->shears);
  }
  if (both) {
    LANES(i) again[i] = ns_new_place(s, k, i) ? 0 : 1;
    bool apart = false;
    if (s->stations && ns_any(again)) {
      copy_line(o, V, &o->before);
      apart = add_jumps(o, k, true, false, -1, &o->before);
    }
    if (apart) ns_influence_shears(o, &o->before, k, &o->shears_before);
    envelope_of(o, apart ? &o->before : V, k, false,
                apart ? &o->shears_before : &o->shears, left);
  }
  const bool jump = add_jumps(o, k, false, true, 1, V);
  LANES(i) out[i] = o->second & (s->x[k][i] >= s->second[1][i]) ? 1 : 0;
  nil_where(o, out, V);
  if (jump || ns_any(out)) ns_influence_shears(o, V, k, &o->shears);
  envelope_of(o, V, k, true, &o->shears, right);
}
