/* SPDX-License-Identifier: MIT
 * check.c - the checks of the whole joist, uncut or cut.
 *
 * A check keeps the worst of what it is offered (each combination, sign and
 * place), then notes the numbers behind it in its record, so that the steps
 * printed later are those of the case that governs. */
#include "work.h"

struct ns_check *ns_add(struct ns_result *r, enum ns_mode mode, int cut,
                        int support) {
  struct ns_check *k = &r->check[r->checks++];
  k->mode = mode;
  k->member = NS_HOST;
  k->cut = cut;
  k->support = support;
  ns_fill(k->on, 0);
  ns_fill(k->binding, 1);
  ns_fill(k->demand, 0);
  ns_fill(k->capacity, 0);
  ns_fill(k->ratio, 0);
  ns_fill(k->at, 0);
  ns_fill(k->combo, 0);
  ns_fill(k->branch, 0);
  return k;
}

NS_CLONES void ns_offer(struct ns_check *k, const double *on,
                        const double *demand, const double *capacity,
                        const double *at, int combo, int branch) {
  LANES(i) {
    const bool some = capacity[i] > 0;
    const double none = demand[i] > 0 ? NS_NO_CAPACITY : 0;
    const double q = some ? demand[i] / (some ? capacity[i] : 1) : none;
    const double ratio = ns_min(q, NS_NO_CAPACITY);
    const bool take = (on[i] != 0) & ((k->on[i] == 0) | (ratio > k->ratio[i]));
    k->on[i] = take ? 1 : k->on[i];
    k->demand[i] = take ? demand[i] : k->demand[i];
    k->capacity[i] = take ? capacity[i] : k->capacity[i];
    k->ratio[i] = take ? ratio : k->ratio[i];
    k->at[i] = take ? at[i] : k->at[i];
    k->combo[i] = take ? combo : k->combo[i];
    k->branch[i] = take ? branch : k->branch[i];
  }
}

/* Factors of the governing combination; 'stride' apart in memory, and the
 * 'second' set (M < 0) where that row is not zero. */
NS_CLONES void ns_note_factors(struct ns_check *k, const struct ns_factors *f,
                               int stride, int combos, const double *second) {
  for (int c = 0; c < combos; c++) {
    const struct ns_factors *p = &f[c * stride];
    const struct ns_factors *q = second ? p + 1 : p;
    LANES(i) {
      const bool here = k->combo[i] == c, two = second && second[i] != 0;
      const struct ns_factors *v = p;
      k->rec[NS_R_CD][i] = here ? v->CD[i] : k->rec[NS_R_CD][i];
      k->rec[NS_R_CM][i] = here ? v->CM[i] : k->rec[NS_R_CM][i];
      k->rec[NS_R_Ct][i] = here ? v->Ct[i] : k->rec[NS_R_Ct][i];
      k->rec[NS_R_CF][i] = here ? v->CF[i] : k->rec[NS_R_CF][i];
      k->rec[NS_R_Ci][i] = here ? v->Ci[i] : k->rec[NS_R_Ci][i];
      k->rec[NS_R_Cr][i] = here ? v->Cr[i] : k->rec[NS_R_Cr][i];
      k->rec[NS_R_K][i] = here ? v->K[i] : k->rec[NS_R_K][i];
      const double CL = two ? q->CL[i] : p->CL[i];
      const double F = two ? q->value[i] : p->value[i];
      k->rec[NS_R_CL][i] = here ? CL : k->rec[NS_R_CL][i];
      k->rec[NS_R_F_a][i] = here ? F : k->rec[NS_R_F_a][i];
    }
  }
}

NS_INLINE double g_D(const struct ns_work *w, int c) {
  return w->standard->g_D[c];
}
NS_INLINE double g_L(const struct ns_work *w, int c) {
  return w->standard->g_L[c];
}

NS_INLINE void gross_bending(struct ns_work *w, enum ns_mode mode,
                             const struct ns_beam *s, const struct ns_table *t,
                             int sign) {
  struct ns_check *k = ns_add(w->out, mode, -1, -1);
  const double way = sign ? -1 : 1;
  ns_lane S, M, cap, on, at, second;
  LANES(i) S[i] = w->width[i] * w->depth[i] * w->depth[i] / 6;
  for (int c = 0; c < w->standard->combos; c++) {
    ns_fill(M, 0);
    ns_copy(at, s->support[0]);
    for (int b = 0; b < s->breaks; b++) {
      const bool right = b < s->breaks - 1;
      const double *peak = t->peak[c][sign][b], *x = t->peak_at[c][sign][b];
      LANES(i) {
        const double here = way * (g_D(w, c) * s->M[0][b][i] +
                                   g_L(w, c) * t->side[right][b].M[sign][i]);
        const bool more = here > M[i];
        M[i] = more ? here : M[i];
        at[i] = more ? s->x[b][i] : at[i];
      }
      if (right)
        LANES(i) {
          const bool more =
              (t->has_peak[c][sign][b][i] != 0) & (way * peak[i] > M[i]);
          M[i] = more ? way * peak[i] : M[i];
          at[i] = more ? x[i] : at[i];
        }
    }
    LANES(i) {
      cap[i] = S[i] * w->Fb[c][sign].value[i];
      M[i] = M[i] > 1e-6 ? M[i] : 0; /* rounding, not a moment */
      on[i] = (sign == 0) | (M[i] > 0) ? 1 : 0;
    }
    ns_offer(k, on, M, cap, at, c, 1 + sign);
  }
  ns_fill(second, sign);
  ns_note_factors(k, &w->Fb[0][0], 2, w->standard->combos, second);
  LANES(i) {
    k->rec[NS_R_M][i] = k->demand[i];
    k->rec[NS_R_S][i] = S[i];
    k->rec[NS_R_b][i] = w->width[i];
    k->rec[NS_R_d][i] = w->depth[i];
    k->rec[NS_R_F][i] = w->in.joist[NS_J_Fb][i];
    k->rec[NS_R_f_b][i] = k->demand[i] / S[i];
    k->rec[NS_R_l_u][i] = w->l_u[i];
    k->rec[NS_R_l_e][i] = w->l_e[i];
  }
}

/* Loads between a and b, dead and live in full, of combination c. */
NS_INLINE void load_between(const struct ns_work *w, const struct ns_beam *s,
                            int c, const double *a, const double *b,
                            double *restrict sum) {
  ns_fill(sum, 0);
  for (int k = 0; k < s->breaks; k++) {
    const double *restrict x = s->x[k];
    const double *restrict x2 = s->x[k + 1 < s->breaks ? k + 1 : k];
    for (int kind = 0; kind < 2; kind++) {
      const double g = kind ? g_L(w, c) : g_D(w, c);
      LANES(i) {
        const double p = ns_max(x[i], a[i]), q = ns_min(x2[i], b[i]);
        const double h = ns_max(q - p, 0), z = (p + q) / 2 - x[i];
        const double load = h * (s->w[kind][k][i] + s->dw[kind][k][i] * z);
        const bool in = (x[i] > a[i] + 1e-9) & (x[i] < b[i] - 1e-9);
        sum[i] += g * (load + (in ? s->P[kind][k][i] : 0));
      }
    }
  }
}

/* NDS 3.4.3.1: load within d of the face of a bearing is left out of V. */
NS_INLINE void gross_shear(struct ns_work *w, enum ns_mode mode,
                           const struct ns_beam *s, const struct ns_table *t,
                           struct ns_state *state) {
  struct ns_check *k = ns_add(w->out, mode, -1, -1);
  ns_lane best;
  ns_fill(best, 0);
  for (int c = 0; c < w->standard->combos; c++) {
    ns_lane cap, on, V, V_0, near, a, b, at;
    ns_fill(w->V_d[c], 0);
    LANES(i) {
      cap[i] = 2.0 / 3 * w->Fv[c].value[i] * w->width[i] * w->depth[i];
      on[i] = 1;
    }
    for (int j = 0; j <= s->spans; j++)
      for (int right = 0; right < 2; right++) {
        const double way = right ? 1 : -1;
        const struct ns_envelope *e = &t->support[right][j];
        LANES(i) {
          const double face =
              s->support[j][i] + way * w->in.joist[NS_J_bearing + j][i] / 2;
          at[i] = face + way * w->depth[i];
          a[i] = right ? s->support[j][i] : at[i];
          b[i] = right ? at[i] : s->support[j][i];
          const double D = g_D(w, c) * t->V_D[right][j][i];
          V_0[i] = ns_max(way * (D + g_L(w, c) * e->V[!right][i]), 0);
        }
        load_between(w, s, c, a, b, near);
        LANES(i) {
          V[i] = ns_max(V_0[i] - near[i], 0);
          w->V_d[c][i] = ns_max(w->V_d[c][i], V[i]);
          const bool more = g_L(w, c) > 0 && V_0[i] > best[i];
          best[i] = more ? V_0[i] : best[i];
          state->shear_at[i] = more ? s->support[j][i] : state->shear_at[i];
        }
        ns_offer(k, on, V, cap, at, c, 1);
        LANES(i) {
          const bool mine = (k->combo[i] == c) & (k->at[i] == at[i]);
          k->rec[NS_R_V_0][i] = mine ? V_0[i] : k->rec[NS_R_V_0][i];
        }
      }
  }
  ns_copy(state->shear, best);
  ns_note_factors(k, w->Fv, 1, w->standard->combos, NULL);
  LANES(i) {
    k->rec[NS_R_V][i] = k->demand[i];
    k->rec[NS_R_b][i] = w->width[i];
    k->rec[NS_R_d][i] = w->depth[i];
    k->rec[NS_R_F][i] = w->in.joist[NS_J_Fv][i];
  }
}

/* NDS 3.10.2 on the bearing length, Cb by 3.10.4. */
NS_INLINE void bearing(struct ns_work *w, const struct ns_beam *s, bool cut,
                       int j, const double *share, const struct ns_beam *locked,
                       const struct ns_state *state) {
  struct ns_check *k = ns_add(w->out, NS_BEARING, -1, j);
  const bool first = j == 0, last = j == s->spans;
  struct ns_section at_bearing;
  ns_lane R, cap, on, a, b, floor, Cb;
  const double *l_b = w->in.joist[NS_J_bearing + j];
  LANES(i) {
    a[i] = s->support[j][i] - l_b[i] / 2;
    b[i] = s->support[j][i] + l_b[i] / 2;
  }
  ns_thin(w, a, b, &at_bearing, floor);
  LANES(i) {
    const double wood = first  ? a[i] - w->start[i]
                        : last ? w->end[i] - b[i]
                               : 99;
    const double width = cut ? at_bearing.b[i] : w->width[i];
    Cb[i] = ns_Cb(l_b[i], wood);
    cap[i] = w->Fc_perp.value[i] * Cb[i] * width * l_b[i];
    on[i] = w->in.joist[NS_J_Fc_perp][i] > 0 ? 1 : 0;
    k->rec[NS_R_b][i] = width;
  }
  LANES(i) {
    const double all = state->reaction[j][0][i];
    const double alone = share ? locked->R[0][j][i] : 0;
    const double part = share ? share[i] : 1;
    R[i] = ns_max((all - alone) * part + (part > 0 ? alone : 0), 0);
  }
  ns_offer(k, on, R, cap, s->support[j], w->standard->combos - 1, 1);
  ns_note_factors(k, &w->Fc_perp, 0, w->standard->combos, NULL);
  LANES(i) {
    k->rec[NS_R_R][i] = k->demand[i];
    k->rec[NS_R_l_b][i] = l_b[i];
    k->rec[NS_R_Cb][i] = Cb[i];
    k->rec[NS_R_F][i] = w->in.joist[NS_J_Fc_perp][i];
  }
}

NS_INLINE void reactions(const struct ns_work *w, const struct ns_beam *s,
                         const struct ns_table *t, struct ns_state *state) {
  for (int j = 0; j <= s->spans; j++) {
    const double *most = t->R[0][j], *least = t->R[1][j];
    LANES(i) {
      const double D = s->R[0][j][i];
      state->reaction[j][0][i] = -1e300;
      state->reaction[j][1][i] = 1e300;
      state->reaction[j][2][i] = D;
      for (int c = 0; c < w->standard->combos; c++) {
        const double hi = g_D(w, c) * D + g_L(w, c) * most[i];
        const double lo = g_D(w, c) * D + g_L(w, c) * least[i];
        state->reaction[j][0][i] = ns_max(state->reaction[j][0][i], hi);
        state->reaction[j][1][i] = ns_min(state->reaction[j][1][i], lo);
      }
    }
  }
}

/* What must hold a support down under the worst pattern: reported, not a
 * ratio, since nothing here says what holds it. */
NS_INLINE void uplift(struct ns_work *w, const struct ns_beam *s, int j,
                      const struct ns_state *state) {
  struct ns_check *k = ns_add(w->out, NS_UPLIFT, -1, j);
  LANES(i) {
    const double R = state->reaction[j][1][i];
    k->on[i] = R < -1e-6 ? 1 : 0;
    k->binding[i] = 0;
    k->demand[i] = k->on[i] != 0 ? -R : 0;
    k->at[i] = s->support[j][i];
    k->combo[i] = w->standard->combos - 1;
    k->branch[i] = 1;
    k->rec[NS_R_R][i] = k->demand[i];
  }
}

/* Nominal size of a dressed one, for the ladder of NDS 4.4.1.2, which is
 * written in nominal sizes; anything else is taken as it is. */
NS_INLINE double nominal(double size) {
  const double rest = size - (double)(int)size;
  return rest == 0.5 ? size + 0.5 : rest == 0.25 ? size + 0.75 : size;
}

NS_INLINE void stability(struct ns_work *w) {
  struct ns_check *k = ns_add(w->out, NS_STABILITY, -1, -1);
  LANES(i) {
    const bool deck = w->in.joist[NS_J_sheathed][i] != 0;
    const double ratio =
        nominal(w->depth[i]) /
        (nominal(w->in.joist[NS_J_b][i]) * w->in.joist[NS_J_plies][i]);
    const double limit = deck ? 6 : w->shape->blocking > 0 ? 6 : 4;
    k->on[i] = 1;
    k->binding[i] = 0;
    k->demand[i] = ratio;
    k->capacity[i] = limit;
    k->ratio[i] = ratio / limit;
    k->branch[i] = deck ? 1 : w->shape->blocking > 0 ? 2 : 3;
  }
}

/* Deflection of weights a: dead, live on odd and on even regions. */
struct weights {
  double odd, even;
  ns_lane dead;
};

NS_INLINE double blend(const struct weights *a,
                       const ns_lane v[3][NS_MAX_BREAKS], int k, int i) {
  return a->dead[i] * v[0][k][i] + a->odd * v[1][k][i] + a->even * v[2][k][i];
}

NS_INLINE double blend_load(const struct ns_beam *s, const struct weights *a,
                            const ns_lane v[2][NS_MAX_BREAKS], int k, int i) {
  const double r = s->region[k][i] / 2;
  const bool odd = r != (double)(int)r;
  return a->dead[i] * v[0][k][i] + (odd ? a->odd : a->even) * v[1][k][i];
}

/* Most deflection inside segment k: where the slope, a quartic, turns. */
NS_INLINE void sag_inside(const struct ns_beam *s, const struct weights *a,
                          int k, double *restrict on, double *restrict at,
                          double *restrict sag) {
  ns_lane lo, hi, t, moved, th0, M, V, q, dq;
  LANES(i) {
    const double h = s->x[k + 1][i] - s->x[k][i];
    const double t1 = blend(a, s->slope, k + 1, i);
    th0[i] = blend(a, s->slope, k, i);
    on[i] = (th0[i] > 0) & (t1 < 0) & (h > 0) ? 1 : 0;
    lo[i] = 0;
    hi[i] = h;
    t[i] = h / 2;
    moved[i] = on[i];
  }
  if (!ns_any(on)) return;
  LANES(i) {
    M[i] = blend(a, s->M, k, i);
    V[i] = blend(a, s->VR, k, i);
    q[i] = blend_load(s, a, s->w, k, i);
    dq[i] = blend_load(s, a, s->dw, k, i);
  }
  for (int it = 0; it < 60; it++) {
    LANES(i) {
      const double f = 1 / s->EI[k][i], z = t[i];
      const double th =
          th0[i] -
          z * f * (M[i] + z * (V[i] / 2 - z * (q[i] / 6 + dq[i] * z / 24)));
      const double rate =
          -f * (M[i] + z * (V[i] - z * (q[i] / 2 + dq[i] * z / 6)));
      lo[i] = th > 0 ? z : lo[i];
      hi[i] = th > 0 ? hi[i] : z;
      const double n = z - th / (rate == 0 ? 1 : rate);
      const bool in = (rate != 0) & (n > lo[i]) & (n < hi[i]);
      const double to = in ? n : (lo[i] + hi[i]) / 2;
      const bool still = (on[i] == 0) | (ns_abs(to - z) < 1e-11 * (1 + hi[i]));
      t[i] = moved[i] != 0 ? to : z;
      moved[i] = still ? 0 : moved[i];
    }
    if (!ns_any(moved)) break;
  }
  LANES(i) {
    const double f = 1 / s->EI[k][i], z = t[i];
    at[i] = s->x[k][i] + z;
    sag[i] =
        blend(a, s->sag, k, i) +
        z * (th0[i] - z * f *
                          (M[i] / 2 +
                           z * (V[i] / 6 - z * (q[i] / 24 + dq[i] * z / 120))));
  }
}

/* L/n of the span, or of twice an overhang (IRC Table R301.7, note). */
NS_INLINE void limit_of(const struct ns_beam *s, int k, double *L) {
  LANES(i) {
    const double r = s->region[k][i];
    const bool over = (r < 1) | (r > s->spans);
    const double len = s->B[k][i] - s->A[k][i];
    L[i] = over ? 2 * len : len;
  }
}

/* The deflection that is most of its limit, so far. */
struct worst_sag {
  ns_lane any, ratio, sag, L, at, most;
};

NS_INLINE void note_sag(struct worst_sag *o, const double *on,
                        const double *sag, const double *L, const double *n,
                        const double *at) {
  LANES(i) {
    const bool here = on[i] != 0;
    const bool use = here & (n[i] > 0) & (L[i] > 0);
    const double down = ns_max(sag[i], 0);
    const double limit = use ? L[i] / n[i] : 1;
    const double ratio = down / limit;
    const bool more = use & ((o->any[i] == 0) | (ratio > o->ratio[i]));
    o->ratio[i] = more ? ratio : o->ratio[i];
    o->sag[i] = more ? down : o->sag[i];
    o->L[i] = more ? L[i] : o->L[i];
    o->at[i] = more ? at[i] : o->at[i];
    o->any[i] = more ? 1 : o->any[i];
    o->most[i] = here ? ns_max(o->most[i], down) : o->most[i];
  }
}

NS_INLINE void find_sag(const struct ns_beam *s, const struct weights *a,
                        const double *n, struct worst_sag *o) {
  for (int b = 0; b < s->breaks; b++) {
    ns_lane sag, on, L, at;
    LANES(i) sag[i] = blend(a, s->sag, b, i);
    ns_fill(on, 1);
    limit_of(s, b, L);
    note_sag(o, on, sag, L, n, s->x[b]);
    if (b == s->breaks - 1) break;
    ns_fill(on, 0);
    sag_inside(s, a, b, on, at, sag);
    if (ns_any(on)) note_sag(o, on, sag, L, n, at);
  }
}

NS_INLINE void deflection(struct ns_work *w, const struct ns_beam *s,
                          bool total, struct ns_state *state) {
  struct ns_check *k =
      ns_add(w->out, total ? NS_DEFLECTION_TOTAL : NS_DEFLECTION_LIVE, -1, -1);
  const double *n = w->in.joist[total ? NS_J_limit_total : NS_J_limit_live];
  const bool patterns = s->spans > 1 || s->left || s->right;
  struct worst_sag o;
  memset(&o, 0, sizeof o);
  for (int p = 0; p < (patterns ? 3 : 1); p++) {
    struct weights a = {.odd = p != 2, .even = p != 1};
    LANES(i) a.dead[i] = total ? w->in.joist[NS_J_Kcr][i] : 0;
    find_sag(s, &a, n, &o);
  }
  LANES(i) {
    const bool on = o.any[i] != 0;
    const bool cut_through = (w->severed[i] != 0) & (s == &w->after);
    const double limit = on ? o.L[i] / n[i] : 0;
    k->on[i] = on & !cut_through ? 1 : 0;
    k->demand[i] = o.sag[i];
    k->capacity[i] = limit;
    k->ratio[i] = on ? ns_min(o.ratio[i], NS_NO_CAPACITY) : 0;
    k->at[i] = o.at[i];
    k->branch[i] = 1;
    k->rec[NS_R_L][i] = o.L[i];
    k->rec[NS_R_n][i] = n[i];
    k->rec[NS_R_Kcr][i] = total ? w->in.joist[NS_J_Kcr][i] : 0;
    k->rec[NS_R_D_L][i] = o.sag[i];
    state->deflection[total][i] = on ? o.sag[i] : o.most[i];
    state->limit[total][i] = limit;
    state->span_of[total][i] = o.L[i];
  }
}

/* Ratio and governing check: the first of the largest, in order. */
NS_INLINE void find_governing(const struct ns_work *w, struct ns_state *state) {
  ns_fill(state->ratio, 0);
  ns_fill(state->strength, 0);
  ns_fill(state->governing, -1);
  ns_fill(state->mode, NS_MODES);
  for (int n = state->first; n < state->first + state->count; n++) {
    const struct ns_check *k = &w->out->check[n];
    const bool sag =
        k->mode == NS_DEFLECTION_LIVE || k->mode == NS_DEFLECTION_TOTAL;
    LANES(i) {
      const bool counts = (k->on[i] != 0) & (k->binding[i] != 0);
      const bool more = counts & ((k->ratio[i] > state->ratio[i]) |
                                  (state->governing[i] < 0));
      state->ratio[i] = more ? k->ratio[i] : state->ratio[i];
      state->governing[i] = more ? n : state->governing[i];
      state->mode[i] = more ? (double)k->mode : state->mode[i];
      state->strength[i] = counts & !sag
                               ? ns_max(state->strength[i], k->ratio[i])
                               : state->strength[i];
    }
  }
}

NS_CLONES void ns_check_state(struct ns_work *w, bool cut, const double *Cr,
                              struct ns_state *state) {
  const struct ns_beam *s = cut ? &w->after : &w->uncut;
  const bool own = cut && s->unknowns > 0; /* stiffness moves the forces */
  const struct ns_table *t = &w->table[own];
  const bool hogs = s->spans > 1 || s->left || s->right;
  state->first = w->out->checks;
  ns_copy(state->Cr, Cr);
  ns_bending_values(w, s, t, Cr);
  const bool again = cut && !own; /* the forces are those of the uncut state */
  if (again)
    memcpy(state->reaction, w->out->uncut.reaction, sizeof state->reaction);
  else
    reactions(w, s, t, state);
  gross_bending(w, NS_BENDING, s, t, 0);
  if (hogs) gross_bending(w, NS_BENDING, s, t, 1);
  if (again) {
    w->out->check[w->out->checks++] =
        w->out->check[w->out->uncut.first + 1 + hogs];
    ns_copy(state->shear, w->out->uncut.shear);
    ns_copy(state->shear_at, w->out->uncut.shear_at);
  } else {
    gross_shear(w, NS_SHEAR, s, t, state);
  }
  for (int j = 0; j <= s->spans; j++) bearing(w, s, cut, j, NULL, NULL, state);
  deflection(w, s, false, state);
  deflection(w, s, true, state);
  if (hogs)
    for (int j = 0; j <= s->spans; j++) uplift(w, s, j, state);
  stability(w);
  if (cut)
    for (int c = 0; c < w->shape->cuts; c++) ns_check_cut(w, c);
  ns_close_state(w, hogs, state);
}

/* What a state says as a whole, once all its checks are made. */
NS_CLONES void ns_close_state(struct ns_work *w, bool hogs,
                              struct ns_state *state) {
  state->count = w->out->checks - state->first;
  const struct ns_check *sag = &w->out->check[state->first];
  const struct ns_check *hog = &w->out->check[state->first + hogs];
  LANES(i) {
    const bool down = hog->demand[i] > sag->demand[i];
    state->moment[i] = down ? -hog->demand[i] : sag->demand[i];
    state->moment_at[i] = down ? hog->at[i] : sag->at[i];
    state->not_permitted[i] = 0;
  }
  find_governing(w, state);
}

/* The joist itself once it is repaired. */
NS_CLONES void ns_check_host(struct ns_work *w, const struct ns_host *h,
                             const double *Cr, struct ns_state *state) {
  const struct ns_beam *s = h->s;
  const bool hogs = s->spans > 1 || s->left || s->right;
  const bool prop = w->shape->fix.lift == NS_PROP; /* it may push up too far */
  state->first = w->out->checks;
  ns_copy(state->Cr, Cr);
  ns_bending_values(w, h->whole, h->whole_t, Cr);
  reactions(w, h->whole, h->whole_t, state);
  gross_bending(w, NS_HOST_BENDING, s, h->t, 0);
  if (hogs || prop) gross_bending(w, NS_HOST_BENDING, s, h->t, 1);
  gross_shear(w, NS_HOST_SHEAR, s, h->t, state);
  for (int j = 0; j <= s->spans; j++)
    bearing(w, s, true, j, h->share, h->locked, state);
  deflection(w, h->sag, false, state);
  deflection(w, h->sag, true, state);
  if (hogs)
    for (int j = 0; j <= s->spans; j++) uplift(w, s, j, state);
  stability(w);
}
