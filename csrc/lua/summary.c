/* SPDX-License-Identifier: MIT
 * summary.c - what a review found, lane i of a block, as Lua tables. */
#include "lua/bind.h"

void nsb_push_check(lua_State *L, const struct ns_check *k, int index, int i) {
  lua_createtable(L, 0, 16);
  lua_pushstring(L, ns_mode_names[k->mode]);
  lua_setfield(L, -2, "mode");
  lua_pushstring(L, ns_member_names[k->member]);
  lua_setfield(L, -2, "member");
  nsb_set_int(L, "index", index + 1);
  if (k->cut >= 0) nsb_set_int(L, "cut", k->cut + 1);
  if (k->support >= 0) nsb_set_int(L, "support", k->support + 1);
  lua_pushboolean(L, k->binding[i] != 0);
  lua_setfield(L, -2, "binding");
  nsb_set(L, "demand", k->demand[i]);
  nsb_set(L, "capacity", k->capacity[i]);
  nsb_set(L, "ratio", k->ratio[i]);
  nsb_set(L, "at", k->at[i]);
  nsb_set_int(L, "combination", k->combo[i] + 1);
  nsb_set_int(L, "branch", k->branch[i]);
}

/* The checks of a state that apply, in order; 'governing' is one of them. */
static void push_checks(lua_State *L, const struct ns_state *s,
                        const struct ns_result *r, int i) {
  int n = 0;
  lua_createtable(L, s->count, 0);
  for (int k = s->first; k < s->first + s->count; k++) {
    if (r->check[k].on[i] == 0) continue;
    nsb_push_check(L, &r->check[k], k, i);
    if (k == (int)s->governing[i]) {
      lua_pushvalue(L, -1);
      lua_setfield(L, -4, "governing");
    }
    lua_rawseti(L, -2, ++n);
  }
  lua_setfield(L, -2, "checks");
}

static void push_state(lua_State *L, const struct ns_state *s,
                       const struct ns_shape *shape, const struct ns_result *r,
                       int i) {
  lua_createtable(L, 0, 16);
  push_checks(L, s, r, i);
  nsb_set(L, "ratio", s->ratio[i]);
  nsb_set(L, "strength", s->strength[i]);
  nsb_set(L, "not_permitted", s->not_permitted[i]);
  nsb_set(L, "moment", s->moment[i]);
  nsb_set(L, "moment_at", s->moment_at[i]);
  nsb_set(L, "shear", s->shear[i]);
  nsb_set(L, "shear_at", s->shear_at[i]);
  nsb_set(L, "live", s->deflection[0][i]);
  nsb_set(L, "total", s->deflection[1][i]);
  nsb_set(L, "Cr", s->Cr[i]);
  lua_createtable(L, shape->spans + 1, 0);
  for (int j = 0; j <= shape->spans; j++) {
    lua_createtable(L, 0, 3);
    nsb_set(L, "most", s->reaction[j][0][i]);
    nsb_set(L, "least", s->reaction[j][1][i]);
    nsb_set(L, "dead", s->reaction[j][2][i]);
    lua_rawseti(L, -2, j + 1);
  }
  lua_setfield(L, -2, "reactions");
}

static void push_cut(lua_State *L, const struct ns_cut_result *c, int i) {
  lua_createtable(L, 0, 32);
  const struct {
    const char *name;
    double value;
  } fields[] = {{"x1", c->x1[i]},
                {"x2", c->x2[i]},
                {"y1", c->y1[i]},
                {"y2", c->y2[i]},
                {"as_notch", c->as_notch[i]},
                {"accepted", c->accepted[i]},
                {"covered", c->covered[i]},
                {"within", c->within[i]},
                {"M_most", c->M[0][i]},
                {"M_least", c->M[1][i]},
                {"V_most", c->V[0][i]},
                {"V_least", c->V[1][i]},
                {"M_full", c->M_full[i]},
                {"V_full", c->V_full[i]},
                {"V_mid_most", c->V_mid[0][i]},
                {"V_mid_least", c->V_mid[1][i]},
                {"lip_force", c->lip[0][i]},
                {"own_x1", c->own[0][i]},
                {"own_x2", c->own[1][i]},
                {"own_y1", c->own[2][i]},
                {"own_y2", c->own[3][i]},
                {"middle_third", c->middle[i]},
                {"weight", c->weight[i]},
                {"tau_below", c->tau[0][i]},
                {"tau_above", c->tau[1][i]}};
  for (size_t k = 0; k < sizeof fields / sizeof *fields; k++)
    nsb_set(L, fields[k].name, fields[k].value);
  nsb_set_int(L, "gate", c->gate[i]);
  nsb_set_int(L, "merged", c->merged[i]);
  nsb_set_int(L, "near", c->near[i]);
}

static void push_items(lua_State *L, const struct ns_result *r, int i) {
  int n = 0;
  lua_createtable(L, r->items, 0);
  for (int k = 0; k < r->items; k++) {
    if (r->item[k].on[i] == 0) continue;
    lua_createtable(L, 0, 6);
    nsb_set_int(L, "rule", r->item[k].rule + 1);
    nsb_set_int(L, "cut", r->item[k].cut + 1);
    nsb_set_int(L, "support", r->item[k].support + 1);
    nsb_set(L, "measured", r->item[k].measured[i]);
    nsb_set(L, "limit", r->item[k].limit[i]);
    nsb_set(L, "ok", r->item[k].ok[i]);
    lua_rawseti(L, -2, ++n);
  }
}

/* Adds to the fixed state what the repair does. */
static void push_fix(lua_State *L, const struct ns_fix_result *f,
                     const struct ns_shape *shape, int i) {
  const struct {
    const char *name;
    double value;
  } fields[] = {{"share", f->share[i]}, {"T", f->T[i]},
                {"z", f->z[i]},         {"c", f->c[i]},
                {"f_c", f->f_c[i]},     {"turn_k", f->turn_k[i]},
                {"sag_D", f->sag_D[i]}};
  for (size_t k = 0; k < sizeof fields / sizeof *fields; k++)
    nsb_set(L, fields[k].name, fields[k].value);
  lua_createtable(L, shape->fix.stations, 0);
  for (int l = 0; l < shape->fix.stations; l++) {
    lua_createtable(L, 0, 3);
    nsb_set(L, "most", f->G[l][0][i]);
    nsb_set(L, "least", f->G[l][1][i]);
    nsb_set(L, "full", f->G[l][2][i]);
    lua_rawseti(L, -2, l + 1);
  }
  lua_setfield(L, -2, "stations");
  lua_createtable(L, 2, 0);
  for (int e = 0; e < 2; e++) {
    lua_createtable(L, 0, 2);
    nsb_set(L, "most", f->R[e][0][i]);
    nsb_set(L, "least", f->R[e][1][i]);
    lua_rawseti(L, -2, e + 1);
  }
  lua_setfield(L, -2, "own_reactions");
}

void nsb_push_summary(lua_State *L, const struct ns_shape *shape,
                      const struct ns_result *r, int i) {
  lua_createtable(L, 0, 8);
  push_state(L, &r->uncut, shape, r, i);
  lua_setfield(L, -2, "uncut");
  push_state(L, &r->cut, shape, r, i);
  lua_setfield(L, -2, "cut");
  if (shape->fix.kind != NS_NO_FIX) {
    push_state(L, &r->fixed, shape, r, i);
    push_fix(L, &r->fix, shape, i);
    lua_setfield(L, -2, "fixed");
  }
  push_items(L, r, i);
  lua_setfield(L, -2, "items");
  lua_createtable(L, shape->cuts, 0);
  for (int c = 0; c < shape->cuts; c++) {
    push_cut(L, &r->cuts[c], i);
    lua_rawseti(L, -2, c + 1);
  }
  lua_setfield(L, -2, "cuts");
  lua_createtable(L, shape->spans + 1, 0);
  for (int j = 0; j <= shape->spans; j++) {
    lua_pushnumber(L, r->seat[j][i]);
    lua_rawseti(L, -2, j + 1);
  }
  lua_setfield(L, -2, "seat");
  nsb_set(L, "no_seat", r->no_seat[i]);
  nsb_set(L, "within", r->within[i]);
  nsb_set_int(L, "action", r->action[i]);
  nsb_set(L, "missing", r->missing[i]);
}
