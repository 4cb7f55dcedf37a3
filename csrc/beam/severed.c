/* SPDX-License-Identifier: MIT
 * severed.c - V and M of a joist that is cut through, and of the member beside
 * it, under live load where it hurts, one half after the other.
 *
 * As influence_transfer.c, but a line covers its own half alone: what lies past
 * the gap acts by the near reaction, R, so there every line is that of R times
 * a number, of one sign, which is kept in a node behind the others (half_past).
 * Rows go from the support to the gap; in the right half x runs to the left,
 * where V changes its sign. */
#include "beam/patch.h"

NS_INLINE int half_past(const struct ns_severed_half *f) { return f->breaks; }

/* A line of a half that is nil. */
NS_INLINE void half_clear(const struct ns_severed_half *f,
                          struct ns_influence_line *r) {
  const size_t rows = sizeof(ns_lane) * (size_t)f->breaks;
  memset(r->at, 0, rows + sizeof(ns_lane));
  memset(r->slope, 0, rows);
  memset(r->W, 0, rows);
}

/* Live load on segment j of a half. */
NS_INLINE struct stretch_load half_load(const struct ns_severed_half *f,
                                        int j) {
  return (struct stretch_load){f->h[j], f->w[1][j], f->dw[1][j]};
}

/* Nodes of segment j at place q: the end of the one that the place ends has
 * been passed. */
struct half_piece {
  ns_lane v, slope;
  struct piece V, M;
};
/* Values and slopes of both lines at the ends of segment j; 'here': the
 * place ends it. */
NS_INLINE void half_ends_of(const struct ns_influence_line *V,
                            const struct ns_influence_line *M, bool here, int j,
                            struct half_piece *e) {
  e->V =
      (struct piece){{V->at[j], V->at[j + 1]}, {V->slope[j], V->slope[j + 1]}};
  e->M =
      (struct piece){{M->at[j], M->at[j + 1]}, {M->slope[j], M->slope[j + 1]}};
  if (!here) return;
  LANES(i) {
    e->v[i] = V->at[j + 1][i] - 1;
    e->slope[i] = M->slope[j + 1][i] + 1;
  }
  e->V.at[1] = e->v;
  e->M.slope[1] = e->slope;
}

/* A segment is passed where the lines are those of the joist. */
NS_INLINE bool half_here(const struct ns_influence *o, int q, int j) {
  return !o->second && j == q - 1;
}

/* Shares of V most and least of segment j, at place q. */
NS_INLINE void half_share(const struct ns_influence *o,
                          const struct ns_severed_half *f,
                          const struct ns_influence_line *V, int q, int j,
                          double *restrict up, double *restrict down) {
  const struct stretch_load load = half_load(f, j);
  struct half_piece e;
  half_ends_of(V, V, half_here(o, q, j), j, &e);
  positive_part(&e.V, true, &load, V->W[j], up);
  LANES(i) down[i] = V->W[j][i] - up[i];
}

/* Shares of V most of each segment of a half, seen from place q. */
NS_INLINE void half_shares(const struct ns_influence *o,
                           const struct ns_severed_half *f,
                           const struct ns_influence_line *V, int q,
                           ns_lane *up) {
  struct unsettled u;
  struct half_piece e;
  ns_lane down;
  int first, last;
  all_settled(&u);
  for (int j = 0; j < f->breaks - 1; j++) {
    half_ends_of(V, V, half_here(o, q, j), j, &e);
    settled_share(&e.V, f->h[j], V->W[j], j, u.first, u.last, up[j]);
  }
  unsettled_range(&u, &first, &last);
  for (int j = first; j <= last; j++) half_share(o, f, V, q, j, up[j], down);
}

/* Shares of V of all segments of a half: summed up before place q, and from
 * each segment on. */
NS_INLINE void half_shears(struct ns_influence *o,
                           const struct ns_severed_half *f,
                           const struct ns_influence_line *V, int q) {
  struct ns_shears *r = &o->shears;
  const int n = f->breaks - 1;
  ns_lane up[NS_MAX_BREAKS];
  half_shares(o, f, V, q, up);
  for (int g = 0; g < 2; g++) {
    ns_fill(r->passed[g], 0);
    ns_fill(r->ahead[g][n], 0);
  }
  for (int j = 0; j < q; j++) /* in the order in which they are passed */
    LANES(i) {
      r->passed[0][i] += up[j][i];
      r->passed[1][i] += V->W[j][i] - up[j][i];
    }
  for (int j = n - 1; j >= q; j--)
    LANES(i) {
      r->ahead[0][j][i] = r->ahead[0][j + 1][i] + up[j][i];
      r->ahead[1][j][i] = r->ahead[1][j + 1][i] + (V->W[j][i] - up[j][i]);
    }
}

/* The lines left of place q from those right of the one before. */
NS_INLINE void half_step(struct ns_influence *o,
                         const struct ns_severed_half *f, int q) {
  const struct ns_influence_line *V = &o->V[(q - 1) & 1],
                                 *M = &o->M[(q - 1) & 1];
  struct ns_influence_line *v = &o->V[q & 1], *m = &o->M[q & 1];
  const double *restrict h = f->h[q - 1];
  const int k = q - 1;
  for (int p = 0; p < f->breaks; p++)
    LANES(i) {
      v->at[p][i] = V->at[p][i];
      v->slope[p][i] = V->slope[p][i];
      v->W[p][i] = V->W[p][i];
      m->at[p][i] = M->at[p][i] + h[i] * V->at[p][i];
      m->slope[p][i] = M->slope[p][i] + h[i] * V->slope[p][i];
      m->W[p][i] = M->W[p][i] + h[i] * V->W[p][i];
    }
  const int past = half_past(f);
  LANES(i) {
    v->at[past][i] = V->at[past][i];
    m->at[past][i] = M->at[past][i] + h[i] * V->at[past][i];
  }
  if (o->second) return;
  LANES(i) {
    v->at[k][i] = V->at[k][i] - 1;
    m->at[k][i] = M->at[k][i] + h[i] * v->at[k][i];
    m->slope[k][i] = (M->slope[k][i] + 1) + h[i] * V->slope[k][i];
    v->W[k][i] -= f->W0[k][i];
    m->W[k][i] -= f->W1[k][i];
  }
}

/* Past the last station only the load on the joist's tip is left, V its weight
 * and M that times its distance from place q: in the lanes marked. */
NS_INLINE void half_tip(struct ns_influence *o, const struct ns_severed_half *f,
                        int q, const double *tip) {
  struct ns_influence_line *V = &o->V[q & 1], *M = &o->M[q & 1];
  const int past = half_past(f);
  for (int p = 0; p < f->breaks; p++) {
    const double ahead = p < q ? 0 : 1;
    LANES(i) {
      const bool on = tip[i] != 0;
      const double off = ahead * (f->x[p][i] - f->x[q][i]);
      const double W = ahead * f->W0[p][i];
      const double WM = off * W + ahead * (f->h[p][i] * W - f->W1[p][i]);
      V->at[p][i] = on ? ahead : V->at[p][i];
      V->slope[p][i] = on ? 0 : V->slope[p][i];
      V->W[p][i] = on ? W : V->W[p][i];
      M->at[p][i] = on ? -off : M->at[p][i];
      M->slope[p][i] = on ? -ahead : M->slope[p][i];
      M->W[p][i] = on ? -WM : M->W[p][i];
    }
  }
  LANES(i) {
    V->at[past][i] = tip[i] != 0 ? 0 : V->at[past][i];
    M->at[past][i] = tip[i] != 0 ? 0 : M->at[past][i];
  }
}

/* Adds to V what the stations at place q take off it or, on the member, add. */
NS_INLINE bool half_ties(struct ns_influence *o,
                         const struct ns_severed_half *f, int q, int k,
                         struct ns_influence_line *V) {
  const struct ns_beam *s = o->s;
  const double way = o->second ? 1 : -1;
  ns_lane here, tip = {0};
  bool any = false;
  for (int l = f->first; l < f->last; l++) {
    const struct ns_influence_line *r = &o->station[l];
    if (!f->stands[q][l]) continue;
    any = true;
    ns_severed_stands(s, f, q, k, l, here);
    for (int p = 0; p < f->breaks; p++)
      LANES(i) {
        const bool on = here[i] != 0;
        V->at[p][i] += on ? way * r->at[p][i] : 0;
        V->slope[p][i] += on ? way * r->slope[p][i] : 0;
        V->W[p][i] += on ? way * r->W[p][i] : 0;
      }
    LANES(i) {
      const bool on = here[i] != 0;
      V->at[half_past(f)][i] += on ? way * f->A[l][i] : 0;
      tip[i] = on & (f->xi[l][i] == f->inner[i]) ? 1 : tip[i];
    }
  }
  if (!o->second && any && ns_any(tip)) half_tip(o, f, q, tip);
  return any;
}

/* V steps at place q: by the near reaction at the support, by stations. */
NS_INLINE bool half_jumps(struct ns_influence *o,
                          const struct ns_severed_half *f, int q,
                          struct ns_influence_line *V) {
  const struct ns_beam *s = o->s;
  const int k = f->right ? s->breaks - 1 - q : q;
  bool any = false;
  if (f->bears[q] && !o->second) {
    ns_lane here;
    any = true;
    ns_severed_bears(s, f, k, here);
    for (int p = 0; p < f->breaks; p++)
      LANES(i) {
        const bool on = here[i] != 0;
        V->at[p][i] += on ? f->R[p][i] : 0;
        V->slope[p][i] -= on ? 1 / f->all[i] : 0;
        V->W[p][i] += on ? f->WR[p][i] : 0;
      }
    LANES(i) V->at[half_past(f)][i] += here[i];
  }
  if (half_ties(o, f, q, k, V)) any = true;
  if (any) o->nil = false;
  return any;
}

/* What lies past the gap, at the distance z past the place. */
NS_INLINE void half_far(const struct ns_severed_half *f,
                        const struct ns_influence_line *V,
                        const struct ns_influence_line *M, const double *z,
                        double inside, struct ns_sums *sum) {
  const double *restrict v = V->at[half_past(f)], *restrict far = f->far[1];
  const double *restrict m = M->at[half_past(f)];
  LANES(i) {
    const double at = m[i] + z[i] * v[i], V_f = v[i] * far[i],
                 M_f = at * far[i];
    const bool up = v[i] > 0, sags = at + inside * v[i] > 0;
    sum->V[0][i] += up ? V_f : 0;
    sum->V[1][i] += up ? 0 : V_f;
    sum->M[0][i] += sags ? M_f : 0;
    sum->M[1][i] += sags ? 0 : M_f;
    sum->Vc[0][i] += sags ? V_f : 0;
    sum->Vc[1][i] += sags ? 0 : V_f;
  }
}

/* Segments of the half but 'own', at the distance z past place q. */
NS_INLINE void half_segments_of(const struct ns_influence *o,
                                const struct ns_severed_half *f,
                                const struct ns_influence_line *V,
                                const struct ns_influence_line *M, int q,
                                int own, const double *z, double inside,
                                struct ns_sums *sum) {
  struct unsettled u;
  struct half_piece e;
  struct reading r;
  int first, last;
  read_at(&r, z, inside, o->length);
  all_settled(&u);
  for (int j = 0; j < f->breaks - 1; j++) {
    if (j == own) continue;
    half_ends_of(V, M, half_here(o, q, j), j, &e);
    settled_part(&e.M, &e.V, f->h[j], M->W[j], V->W[j], &r, j, &u, sum);
  }
  unsettled_range(&u, &first, &last);
  for (int j = first; j <= last; j++) {
    const struct stretch_load load = half_load(f, j);
    if (j == own) continue;
    half_ends_of(V, M, half_here(o, q, j), j, &e);
    unsettled_part(&e.M, &e.V, true, &load, M->W[j], V->W[j], &r, sum);
  }
}

/* Point loads of the half: at the place itself one is passed right of it. */
NS_INLINE void half_points(const struct ns_influence *o,
                           const struct ns_severed_half *f,
                           const struct ns_influence_line *V,
                           const struct ns_influence_line *M, int q, bool right,
                           const double *z, double inside,
                           struct ns_sums *sum) {
  for (int j = 0; j < f->breaks; j++) {
    ns_lane v, m;
    if (!f->point[j]) continue;
    const double passed = right && j == q && !o->second ? 1 : 0;
    LANES(i) {
      v[i] = V->at[j][i] - passed;
      m[i] = M->at[j][i] + z[i] * v[i];
    }
    add_load_at(f->P[1][j], v, m, inside, sum);
  }
}

/* Most and least V and M at place q of a half, right or left of it. */
NS_INLINE void half_envelope(struct ns_influence *o,
                             const struct ns_severed_half *f, int q, bool right,
                             struct ns_envelope *out) {
  static const ns_lane none = {0};
  const struct ns_influence_line *V = &o->V[q & 1], *M = &o->M[q & 1];
  const double inside = right ? NS_INSIDE : -NS_INSIDE;
  struct ns_sums sum;
  if (o->nil) {
    memset(out, 0, sizeof *out);
    return;
  }
  ns_no_sums(&sum);
  for (int g = 0; g < 2; g++)
    LANES(i) sum.V[g][i] = o->shears.passed[g][i] + o->shears.ahead[g][q][i];
  half_segments_of(o, f, V, M, q, -1, none, inside, &sum);
  half_points(o, f, V, M, q, right, none, inside, &sum);
  half_far(f, V, M, none, inside, &sum);
  ns_take_sums(&sum, out);
}

/* Begins at the support of a half, with the lines of the joist or of the
 * member. */
NS_CLONES void ns_severed_start(struct ns_influence *o, int half, bool second) {
  const struct ns_severed_half *f = &o->half[half];
  o->second = second;
  o->nil = true;
  o->in_half = half;
  half_clear(f, &o->V[0]);
  half_clear(f, &o->M[0]);
  memset(o->shears.passed, 0, sizeof o->shears.passed);
  for (int g = 0; g < 2; g++)
    memset(o->shears.ahead[g], 0, sizeof(ns_lane) * (size_t)f->breaks);
}

/* The envelope on the far side of place q from the support, and on the near
 * one if that is asked for; places in order. */
NS_CLONES void ns_severed_place(struct ns_influence *o, int q, bool both,
                                struct ns_envelope *near,
                                struct ns_envelope *far) {
  const struct ns_severed_half *f = &o->half[o->in_half];
  struct ns_influence_line *V = &o->V[q & 1];
  if (q > 0) {
    ns_lane up, down;
    half_step(o, f, q);
    if (!o->nil) {
      half_share(o, f, V, q, q - 1, up, down);
      LANES(i) {
        o->shears.passed[0][i] += up[i];
        o->shears.passed[1][i] += down[i];
      }
    }
  }
  if (both) half_envelope(o, f, q, false, near);
  if (half_jumps(o, f, q, V)) half_shears(o, f, V, q);
  half_envelope(o, f, q, true, far);
}

/* M, its shear and how fast that changes at the part t of segment k, whose near
 * end is the place before the last. V is that of x. */
NS_CLONES void ns_severed_within(const struct ns_influence *o, int k,
                                 const double *t, struct ns_sums *sum) {
  const struct ns_severed_half *f = &o->half[o->in_half];
  const int q = f->right ? o->s->breaks - 2 - k : k;
  const struct ns_influence_line *V = &o->V[q & 1], *M = &o->M[q & 1];
  const struct stretch_load load = half_load(f, q);
  struct half_piece e;
  ns_lane z, part, on;
  ns_no_sums(sum);
  ns_fill(on, o->second ? 0 : 1);
  LANES(i) {
    part[i] = f->right ? 1 - t[i] : t[i];
    z[i] = part[i] * f->h[q][i];
  }
  half_segments_of(o, f, V, M, q, q, z, NS_INSIDE, sum);
  half_ends_of(V, M, false, q, &e);
  sagging_parted(&e.M, &e.V, true, &load, on, o->length, part, sum);
  half_points(o, f, V, M, q, true, z, NS_INSIDE, sum);
  half_far(f, V, M, z, NS_INSIDE, sum);
  if (!f->right) return;
  for (int g = 0; g < 2; g++)
    LANES(i) sum->Vc[g][i] = -sum->Vc[g][i];
}

/* The member over the gap: V and M of a simple beam. */
NS_CLONES void ns_severed_gap(const struct ns_influence *o, int k, bool right,
                              struct ns_envelope *out) {
  const struct ns_beam *s = o->s;
  const double *restrict S0 = s->support[0], *restrict S1 = s->support[1];
  ns_lane near = {0}, far = {0}; /* loads before times right reaction, past */
  for (int j = 0; j < s->breaks; j++) {
    const double *restrict x = s->x[j], *restrict P = s->P[1][j];
    const double *restrict x2 = s->x[j + 1 < s->breaks ? j + 1 : j];
    const double *restrict w = s->w[1][j], *restrict dw = s->dw[1][j];
    const double before = j < k ? 1 : 0, past = 1 - before;
    const double left = j < k || (j == k && right) ? 1 : 0, rest = 1 - left;
    LANES(i) {
      const double h = x2[i] - x[i], W = h * (w[i] + dw[i] * h / 2);
      const double Wx = h * h * (w[i] / 2 + dw[i] * h * NS_3RD);
      const double a = x[i] - S0[i], b = S1[i] - x[i];
      near[i] += before * (a * W + Wx) + left * (P[i] * a);
      far[i] += past * (b * W - Wx) + rest * (P[i] * b);
    }
  }
  LANES(i) {
    const double L = S1[i] - S0[i], V = far[i] / L, U = near[i] / L;
    out->V[0][i] = V;
    out->V[1][i] = -U;
    out->M[0][i] = (s->x[k][i] - S0[i]) * V + (S1[i] - s->x[k][i]) * U;
    out->Vc[0][i] = V - U;
    out->M[1][i] = out->Vc[1][i] = 0;
  }
}

/* Most and least reactions: R, by statics, but for loads that lift. */
NS_CLONES void ns_severed_reaction(const struct ns_influence *o, int half,
                                   double *restrict most,
                                   double *restrict least) {
  const struct ns_beam *s = o->s;
  const struct ns_severed_half *f = &o->half[half];
  ns_fill(least, 0);
  for (int k = 0; k < s->breaks; k++)
    LANES(i) {
      const double x = s->x[k][i];
      const double a = f->right ? x - s->support[0][i] : s->support[1][i] - x;
      least[i] += ns_min(s->P[1][k][i], 0) * a / f->all[i];
    }
  LANES(i) most[i] = f->near[1][i] - least[i];
}

/* Most and least of the force of station l. */
NS_CLONES void ns_severed_range(const struct ns_influence *o, int l,
                                double *restrict most, double *restrict least) {
  const struct ns_influence_line *r = &o->station[l];
  ns_fill(most, 0);
  ns_fill(least, 0);
  for (int p = 0; p < 2; p++) {
    const struct ns_severed_half *f = &o->half[p];
    ns_lane sum[2] = {{0}, {0}}, up[NS_MAX_BREAKS];
    if (l < f->first || l >= f->last) continue;
    half_shares(o, f, r, -1, up);
    for (int j = 0; j < f->breaks - 1; j++)
      LANES(i) {
        sum[0][i] += up[j][i];
        sum[1][i] += r->W[j][i] - up[j][i];
      }
    for (int j = 0; j < f->breaks; j++)
      if (f->point[j])
        LANES(i) {
          const double v = f->P[1][j][i] * r->at[j][i];
          sum[0][i] += v > 0 ? v : 0;
          sum[1][i] += v > 0 ? 0 : v;
        }
    LANES(i) {
      const bool on = f->on[l][i] != 0, past = f->A[l][i] > 0;
      const double v = f->A[l][i] * f->far[1][i];
      most[i] += on ? sum[0][i] + (past ? v : 0) : 0;
      least[i] += on ? sum[1][i] + (past ? 0 : v) : 0;
    }
  }
}
