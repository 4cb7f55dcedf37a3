/* SPDX-License-Identifier: MIT
 * patch.c - live load on the lines of a place: segment by segment, by patch.h.
 */
#include "beam/patch.h"

/* ---- the lines of a place ---- */

/* Nodes of segment j at place k. The end of the segment that the place ends
 * has been passed: there V is less by the load itself, and M has its kink. */
struct ends {
  ns_lane v, v_slope, m, slope;
  struct piece V, M;
};

/* Values and slopes of both lines at the ends of segment j, seen from place
 * k. */
NS_INLINE void find_ends(const struct ns_influence *o,
                         const struct ns_influence_line *V,
                         const struct ns_influence_line *M, int k, int j,
                         struct ends *e) {
  const int p = o->end[j + 1];
  e->V = (struct piece){{V->at[j], V->at[p]}, {V->slope[j], V->slope[p]}};
  e->M = (struct piece){{M->at[j], M->at[p]}, {M->slope[j], M->slope[p]}};
  const bool here = k > 0 && j == k - 1;
  if (!here && p == j + 1) return;
  const double *v = V->at[j + 1], *dv = V->slope[j + 1];
  const double *m = M->at[j + 1], *dm = M->slope[j + 1];
  ns_lane own;
  ns_fill(own, 0);
  if (p != j + 1) ns_own_end(o->s, j + 1, own); /* lane by lane */
  LANES(i) {
    const bool mine = own[i] != 0;
    const double on = here ? o->on[j][i] : 0;
    e->v[i] = mine ? V->at[p][i] : v[i] - on;
    e->v_slope[i] = mine ? V->slope[p][i] : dv[i];
    e->m[i] = mine ? M->at[p][i] : m[i];
    e->slope[i] = mine ? M->slope[p][i] : dm[i] + on;
  }
  e->V.at[1] = e->v;
  e->V.slope[1] = e->v_slope;
  e->M.at[1] = e->m;
  e->M.slope[1] = e->slope;
}

/* Live load on segment j. */
NS_INLINE struct stretch_load load_of(const struct ns_influence *o, int j) {
  return (struct stretch_load){o->h[j], o->s->w[1][j], o->s->dw[1][j]};
}

/* Shares of V most and least of segment j, at place k. */
NS_INLINE void shares_of_V(const struct ns_influence *o,
                           const struct ns_influence_line *V, int k, int j,
                           double *restrict up, double *restrict down) {
  const struct stretch_load q = load_of(o, j);
  struct ends e;
  find_ends(o, V, V, k, j, &e);
  positive_part(&e.V, o->twice, &q, V->W[j], up);
  LANES(i) down[i] = V->W[j][i] - up[i];
}

/* Shares of V of all segments: summed up before the place, and from each on. */
NS_CLONES void ns_influence_shears(const struct ns_influence *o,
                                   const struct ns_influence_line *V, int k,
                                   struct ns_shears *r) {
  const int n = o->s->breaks - 1;
  ns_lane up, down;
  for (int g = 0; g < 2; g++) {
    ns_fill(r->passed[g], 0);
    ns_fill(r->ahead[g][n], 0);
  }
  for (int j = 0; j < k; j++) { /* in the order in which they are passed */
    shares_of_V(o, V, k, j, up, down);
    LANES(i) {
      r->passed[0][i] += up[i];
      r->passed[1][i] += down[i];
    }
  }
  for (int j = n - 1; j >= k; j--) {
    shares_of_V(o, V, k, j, up, down);
    LANES(i) {
      r->ahead[0][j][i] = r->ahead[0][j + 1][i] + up[i];
      r->ahead[1][j][i] = r->ahead[1][j + 1][i] + down[i];
    }
  }
}

/* Segment k - 1 is passed. */
NS_CLONES void ns_influence_pass(const struct ns_influence *o,
                                 const struct ns_influence_line *V, int k,
                                 struct ns_shears *r) {
  ns_lane up, down;
  shares_of_V(o, V, k, k - 1, up, down);
  LANES(i) {
    r->passed[0][i] += up[i];
    r->passed[1][i] += down[i];
  }
}

/* The lines of a place at the distance z past break k: 'k' where a segment that
 * ends there is passed, else -1; 'own' is looked at by itself. */
NS_INLINE void add_segments(const struct ns_influence *o,
                            const struct ns_influence_line *V,
                            const struct ns_influence_line *M, int k, int own,
                            const double *z, double inside,
                            struct ns_sums *sum) {
  const int n = o->s->breaks - 1;
  struct unsettled u;
  struct reading r;
  struct ends e;
  int first, last;
  read_at(&r, z, inside, o->length);
  all_settled(&u);
  for (int j = 0; j < n; j++) {
    if (j == own) continue;
    find_ends(o, V, M, k, j, &e);
    settled_part(&e.M, &e.V, o->h[j], M->W[j], V->W[j], &r, j, &u, sum);
  }
  unsettled_range(&u, &first, &last);
  for (int j = first; j <= last; j++) {
    const struct stretch_load q = load_of(o, j);
    if (j == own) continue;
    find_ends(o, V, M, k, j, &e);
    unsettled_part(&e.M, &e.V, o->twice, &q, M->W[j], V->W[j], &r, sum);
  }
}

/* M and its shear at place k. */
NS_CLONES void ns_influence_at(const struct ns_influence *o,
                               const struct ns_influence_line *V,
                               const struct ns_influence_line *M, int k,
                               bool right, struct ns_sums *sum) {
  const struct ns_beam *s = o->s;
  const double inside = right ? NS_INSIDE : -NS_INSIDE;
  add_segments(o, V, M, k, -1, o->none, inside, sum);
  for (int j = 0; j < s->breaks; j++) {
    if (!o->point[j]) continue;
    ns_lane v;
    const double passed = j == k && right;
    LANES(i) v[i] = V->at[j][i] - passed * o->on[j][i];
    add_load_at(s->P[1][j], v, M->at[j], inside, sum);
  }
}

/* A segment parted by a place at the part t of it. */
NS_INLINE void add_parted(const struct ns_influence *o,
                          const struct ns_influence_line *V,
                          const struct ns_influence_line *M, int k,
                          const double *t, struct ns_sums *sum) {
  const struct stretch_load q = load_of(o, k);
  struct ends e;
  find_ends(o, V, M, -1, k, &e);
  sagging_parted(&e.M, &e.V, o->twice, &q, o->on[k], o->length, t, sum);
}

/* M, its shear and how fast that changes at the part t of segment k. */
NS_CLONES void ns_influence_within(const struct ns_influence *o, int k,
                                   const double *t, struct ns_sums *sum) {
  const struct ns_beam *s = o->s;
  const struct ns_influence_line *V = &o->V[k & 1], *M = &o->M[k & 1];
  ns_lane z, a, b;
  ns_no_sums(sum);
  LANES(i) z[i] = t[i] * o->h[k][i];
  add_segments(o, V, M, k, k, z, NS_INSIDE, sum);
  add_parted(o, V, M, k, t, sum);
  for (int j = 0; j < s->breaks; j++) {
    if (!o->point[j]) continue;
    LANES(i) {
      a[i] = V->at[j][i] - (j == k ? o->on[j][i] : 0);
      b[i] = M->at[j][i] + z[i] * a[i];
    }
    add_load_at(s->P[1][j], a, b, NS_INSIDE, sum);
  }
}

/* Most and least of an effect by its line. */
NS_CLONES void ns_influence_range(const struct ns_influence *o,
                                  const struct ns_influence_line *r,
                                  double *restrict most,
                                  double *restrict least) {
  const struct ns_beam *s = o->s;
  ns_lane all, up;
  ns_fill(all, 0);
  ns_fill(most, 0);
  for (int j = 0; j < s->breaks - 1; j++) {
    const struct stretch_load q = load_of(o, j);
    struct ends e;
    find_ends(o, r, r, -1, j, &e);
    positive_part(&e.V, o->twice, &q, r->W[j], up);
    LANES(i) {
      most[i] += up[i];
      all[i] += r->W[j][i];
    }
  }
  for (int j = 0; j < s->breaks; j++)
    if (o->point[j])
      LANES(i) {
        const double v = s->P[1][j][i] * r->at[j][i];
        most[i] += v > 0 ? v : 0;
        all[i] += v;
      }
  LANES(i) least[i] = all[i] - most[i];
}
