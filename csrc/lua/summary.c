/* SPDX-License-Identifier: MIT
 * summary.c - what a review found, lane i of a block, as Lua tables. */
#include <stddef.h>
#include <string.h>

#include "joist/lanes.h"
#include "lua/bind.h"

/* Check k of lane i as a table; index: its number for core.record. */
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

/* A check that stands by itself, read from argument 1. */
struct ns_check *nsb_new_joint(lua_State *L) {
  luaL_checktype(L, 1, LUA_TTABLE);
  struct ns_check *k = lua_newuserdatauv(L, sizeof *k, 0);
  memset(k, 0, sizeof *k);
  const int mode = nsb_word(L, 1, "joint", "mode", ns_mode_names);
  luaL_argcheck(L, mode >= 0, 1, "mode expected");
  k->mode = (enum ns_mode)mode;
  const double branch = nsb_finite(L, 1, "joint", "branch", 1);
  ns_fill(k->branch, branch);
  return k;
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

/* Numbers of a state, of a cut and of a repair by name. */
#define OF(type, name, field)                                                  \
  { name, offsetof(struct type, field), false }
#define WHOLE(type, name, field)                                               \
  { name, offsetof(struct type, field), true }
const struct nsb_named nsb_state_rows[] = {
    OF(ns_state, "ratio", ratio),
    OF(ns_state, "strength", strength),
    OF(ns_state, "not_permitted", not_permitted),
    OF(ns_state, "moment", moment),
    OF(ns_state, "moment_at", moment_at),
    OF(ns_state, "shear", shear),
    OF(ns_state, "shear_at", shear_at),
    OF(ns_state, "live", deflection[0]),
    OF(ns_state, "total", deflection[1]),
    OF(ns_state, "Cr", Cr),
    {NULL, 0, false}};

const struct nsb_named nsb_cut_rows[] = {
    OF(ns_cut_result, "x1", x1),
    OF(ns_cut_result, "x2", x2),
    OF(ns_cut_result, "y1", y1),
    OF(ns_cut_result, "y2", y2),
    OF(ns_cut_result, "as_notch", as_notch),
    OF(ns_cut_result, "accepted", accepted),
    OF(ns_cut_result, "covered", covered),
    OF(ns_cut_result, "within", within),
    OF(ns_cut_result, "M_most", M[0]),
    OF(ns_cut_result, "M_least", M[1]),
    OF(ns_cut_result, "V_most", V[0]),
    OF(ns_cut_result, "V_least", V[1]),
    OF(ns_cut_result, "M_full", M_full),
    OF(ns_cut_result, "V_full", V_full),
    OF(ns_cut_result, "V_mid_most", V_mid[0]),
    OF(ns_cut_result, "V_mid_least", V_mid[1]),
    OF(ns_cut_result, "lip_force", lip[0]),
    OF(ns_cut_result, "own_x1", own[0]),
    OF(ns_cut_result, "own_x2", own[1]),
    OF(ns_cut_result, "own_y1", own[2]),
    OF(ns_cut_result, "own_y2", own[3]),
    OF(ns_cut_result, "middle_third", middle),
    OF(ns_cut_result, "weight", weight),
    OF(ns_cut_result, "tau_below", tau[0]),
    OF(ns_cut_result, "tau_above", tau[1]),
    WHOLE(ns_cut_result, "gate", gate),
    WHOLE(ns_cut_result, "merged", merged),
    WHOLE(ns_cut_result, "near", near),
    {NULL, 0, false}};

const struct nsb_named nsb_fix_rows[] = {
    OF(ns_fix_result, "share", share), OF(ns_fix_result, "T", T),
    OF(ns_fix_result, "z", z),         OF(ns_fix_result, "c", c),
    OF(ns_fix_result, "f_c", f_c),     OF(ns_fix_result, "turn_k", turn_k),
    OF(ns_fix_result, "sag_D", sag_D), {NULL, 0, false}};

/* Numbers of lane i under their names. */
static void push_rows(lua_State *L, const struct nsb_named *list,
                      const void *from, int i) {
  for (; list->name; list++) {
    const double *row =
        (const double *)(const void *)((const char *)from + list->offset);
    if (list->whole)
      nsb_set_int(L, list->name, row[i]);
    else
      nsb_set(L, list->name, row[i]);
  }
}

/* A state of lane i as a table. */
static void push_state(lua_State *L, const struct ns_state *s,
                       const struct ns_shape *shape, const struct ns_result *r,
                       int i) {
  lua_createtable(L, 0, 16);
  push_checks(L, s, r, i);
  push_rows(L, nsb_state_rows, s, i);
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

/* What a review says of a cut. */
static void push_cut(lua_State *L, const struct ns_cut_result *c, int i) {
  lua_createtable(L, 0, 32);
  push_rows(L, nsb_cut_rows, c, i);
}

/* Limits of the rules that are about lane i. */
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
  push_rows(L, nsb_fix_rows, f, i);
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

/* A review of lane i as tables. */
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
