/* SPDX-License-Identifier: MIT
 * bind.c - Lua tables to the core's structs and back. The Lua layer has
 * validated descriptions already; what fails here is misuse, and raises with
 * the path of the field. */
#include "lua/bind.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Pushes a field without metamethods, so that no code of the caller runs. */
int nsb_get(lua_State *L, int index, const char *name) {
  index = lua_absindex(L, index);
  lua_pushstring(L, name);
  return lua_rawget(L, index);
}

/* A copy of a table in plain values, 'depth' tables deep. */
void nsb_plain(lua_State *L, int index, int depth) {
  index = lua_absindex(L, index);
  luaL_checkstack(L, 8, "tables in tables");
  lua_newtable(L);
  lua_pushnil(L);
  while (lua_next(L, index)) {
    if (depth > 1 && lua_type(L, -1) == LUA_TTABLE) {
      nsb_plain(L, -1, depth - 1);
      lua_remove(L, -2);
    }
    lua_pushvalue(L, -2);
    lua_insert(L, -2);
    lua_rawset(L, -4);
  }
}

/* A number of a table, or 'otherwise'; raises for another type. */
double nsb_number(lua_State *L, int index, const char *path, const char *name,
                  double otherwise) {
  const int type = nsb_get(L, index, name);
  double v = otherwise;
  if (type == LUA_TNUMBER)
    v = lua_tonumber(L, -1);
  else if (type == LUA_TBOOLEAN)
    v = lua_toboolean(L, -1);
  else if (type != LUA_TNIL)
    luaL_error(L, "%s.%s: number expected, got %s", path, name,
               luaL_typename(L, -1));
  if (type == LUA_TNIL && isnan(otherwise))
    luaL_error(L, "%s.%s: number expected, got nothing", path, name);
  lua_pop(L, 1);
  return v;
}

/* A number that is finite. */
double nsb_finite(lua_State *L, int index, const char *path, const char *name,
                  double otherwise) {
  const double v = nsb_number(L, index, path, name, otherwise);
  if (!isfinite(v)) luaL_error(L, "%s.%s: not a finite number", path, name);
  return v;
}

/* Pushes table n of a list; raises for anything else. */
int nsb_item(lua_State *L, const char *path, int n) {
  if (lua_rawgeti(L, -1, n) != LUA_TTABLE)
    luaL_error(L, "%s[%d]: table expected, got %s", path, n,
               luaL_typename(L, -1));
  return lua_gettop(L);
}

/* A flag of a table. */
bool nsb_flag(lua_State *L, int index, const char *name) {
  nsb_get(L, index, name);
  const bool on = lua_toboolean(L, -1);
  lua_pop(L, 1);
  return on;
}

/* Whether a key is one of some names. */
static bool is_one_of(const char *key, const char *const *names) {
  for (int i = 0; key && names[i]; i++)
    if (strcmp(key, names[i]) == 0) return true;
  return false;
}

/* A value as a message shows it: short, no control characters. */
const char *nsb_shown(lua_State *L) {
  enum { MOST = 60 };
  size_t n = 0;
  const char *text = luaL_tolstring(L, -1, &n);
  char shown[MOST + 1];
  if (n > MOST) n = MOST;
  for (size_t i = 0; i < n; i++)
    shown[i] = text[i] >= ' ' && text[i] <= '~' ? text[i] : '?';
  lua_pop(L, 2);
  return lua_pushlstring(L, shown, n);
}

/* Raises for a key that is none of the names. */
void nsb_only(lua_State *L, int index, const char *path,
              const char *const *names) {
  lua_pushnil(L);
  while (lua_next(L, index)) {
    lua_pop(L, 1);
    const bool text = lua_type(L, -1) == LUA_TSTRING;
    if (is_one_of(text ? lua_tostring(L, -1) : NULL, names)) continue;
    const char *key = nsb_shown(L);
    luaL_Buffer list;
    luaL_buffinit(L, &list);
    for (int i = 0; names[i]; i++) {
      luaL_addstring(&list, i > 0 ? ", " : "");
      luaL_addstring(&list, names[i]);
    }
    luaL_pushresult(&list);
    luaL_error(L, "%s: unknown field '%s' (takes %s)", path, key,
               lua_tostring(L, -1));
  }
}

/* Number of a word in a list, -1 where there is none; raises for another
 * word. */
int nsb_word(lua_State *L, int index, const char *path, const char *name,
             const char *const *words) {
  int found = -1;
  if (nsb_get(L, index, name) != LUA_TNIL) {
    const char *word =
        lua_type(L, -1) == LUA_TSTRING ? lua_tostring(L, -1) : "?";
    for (int k = 0; words[k]; k++)
      if (strcmp(words[k], word) == 0) found = k;
    if (found < 0)
      luaL_error(L, "%s.%s: unknown word '%s'", path, name, nsb_shown(L));
  }
  lua_pop(L, 1);
  return found;
}

/* Pushes a list and gives its length, 0 and nil where it is not there. */
int nsb_list(lua_State *L, int index, const char *path, const char *name,
             int most) {
  const int type = nsb_get(L, index, name);
  if (type == LUA_TNIL) return 0;
  if (type != LUA_TTABLE)
    luaL_error(L, "%s.%s: table expected, got %s", path, name,
               luaL_typename(L, -1));
  const lua_Unsigned n = lua_rawlen(L, -1);
  if (n > (lua_Unsigned)most)
    luaL_error(L, "%s.%s: at most %d, got %I", path, name, most,
               (LUAI_UACINT)n);
  return (int)n;
}

/* A number into the table on top. */
void nsb_set(lua_State *L, const char *name, double value) {
  lua_pushnumber(L, value);
  lua_setfield(L, -2, name);
}

/* A whole number into the table on top. */
void nsb_set_int(lua_State *L, const char *name, double value) {
  lua_pushinteger(L, (lua_Integer)value);
  lua_setfield(L, -2, name);
}

/* Number n of a list. */
static double item(lua_State *L, int index, const char *path, int n) {
  lua_rawgeti(L, index, n);
  if (lua_type(L, -1) != LUA_TNUMBER)
    luaL_error(L, "%s[%d]: number expected, got %s", path, n,
               luaL_typename(L, -1));
  const double v = lua_tonumber(L, -1);
  lua_pop(L, 1);
  return v;
}

/* A list of numbers into rows, one lane; gives how many. */
static int read_rows(lua_State *L, int index, const char *name, int most,
                     double (*rows)[NS_LANES], int lane) {
  const int n = nsb_list(L, index, "model", name, most);
  for (int k = 0; k < n; k++)
    rows[k][lane] = item(L, lua_gettop(L), name, k + 1);
  lua_pop(L, 1);
  return n;
}

/* Numbers of the joist into their rows. */
static void read_joist(lua_State *L, int index, struct ns_shape *s,
                       struct ns_block *b, int lane) {
  int row = 0;
  for (const struct ns_field *f = ns_joist_fields; f->name;
       row += f->rows, f++) {
    if (f->rows > 1) {
      const int n = read_rows(L, index, f->name, f->rows, &b->joist[row], lane);
      if (row == NS_J_span) s->spans = n;
      if (row == NS_J_blocking) s->blocking = n;
    } else {
      b->joist[row][lane] = nsb_number(L, index, "model", f->name, 0);
    }
  }
  s->left = b->joist[NS_J_overhang_left][lane] > 0;
  s->right = b->joist[NS_J_overhang_right][lane] > 0;
}

/* Numbers of a part by its list of fields. */
static void read_fields(lua_State *L, int index, const char *path,
                        const struct ns_field *fields, double (*rows)[NS_LANES],
                        int lane) {
  for (int k = 0; fields[k].name;
       k++) { /* what is not given is nil, or least */
    const double otherwise = fields[k].low > 0 ? fields[k].low : 0;
    rows[k][lane] = nsb_number(L, index, path, fields[k].name, otherwise);
  }
}

/* Cuts: kind, place, faces and numbers. */
static void read_cuts(lua_State *L, int index, struct ns_shape *s,
                      struct ns_block *b, int lane) {
  static const char *const places[] = {"centred", "below", "above", NULL};
  static const char *const causes[] = {"other", "rot", "insects", "char", NULL};
  s->cuts = nsb_list(L, index, "model", "cuts", NS_MAX_CUTS);
  for (int c = 0; c < s->cuts; c++) {
    const int t = nsb_item(L, "cuts", c + 1);
    const int kind = nsb_word(L, t, "cut", "kind", ns_kind_names);
    if (kind < 0) luaL_error(L, "cuts[%d].kind: missing", c + 1);
    const int place = nsb_word(L, t, "cut", "place", places);
    const int cause = nsb_word(L, t, "cut", "cause", causes);
    s->cut[c].kind = (enum ns_kind)(kind < 0 ? 0 : kind);
    s->cut[c].place = (enum ns_place)(place < 0 ? 0 : place);
    s->cut[c].cause = (enum ns_cause)(cause < 0 ? 0 : cause);
    s->cut[c].from_right = nsb_flag(L, t, "from_right");
    s->cut[c].top = nsb_flag(L, t, "top_face");
    s->cut[c].right = nsb_flag(L, t, "right_end");
    read_fields(L, t, "cut", ns_cut_fields, b->cut[c], lane);
    lua_pop(L, 1);
  }
  lua_pop(L, 1);
}

/* The case of a load: its word, or the number of its own load duration. */
static enum ns_case read_case(lua_State *L, int t, const char *what) {
  static const char *const cases[] = {"dead", "live", "roof live", "snow",
                                      NULL};
  const int of = nsb_word(L, t, what, "case", cases);
  const double own = nsb_finite(L, t, what, "own", 0);
  if (own == 1) return NS_OWN_1;
  if (own == 2) return NS_OWN_2;
  return (enum ns_case)(of < 0 ? 0 : of);
}

/* Line and point loads. */
static void read_loads(lua_State *L, int index, struct ns_shape *s,
                       struct ns_block *b, int lane) {
  s->lines = nsb_list(L, index, "model", "lines", NS_MAX_LINES);
  for (int k = 0; k < s->lines; k++) {
    const int t = nsb_item(L, "lines", k + 1);
    s->line[k].load_case = read_case(L, t, "line");
    s->line[k].area = nsb_flag(L, t, "area");
    s->line[k].whole = nsb_flag(L, t, "whole");
    read_fields(L, t, "line", ns_line_fields, b->line[k], lane);
    lua_pop(L, 1);
  }
  lua_pop(L, 1);
  s->points = nsb_list(L, index, "model", "points", NS_MAX_POINTS);
  for (int k = 0; k < s->points; k++) {
    const int t = nsb_item(L, "points", k + 1);
    s->point[k] = read_case(L, t, "point");
    read_fields(L, t, "point", ns_point_fields, b->point[k], lane);
    lua_pop(L, 1);
  }
  lua_pop(L, 1);
}

/* Leaves a table that may be absent on the stack, or nothing. */
static bool optional_table(lua_State *L, int index, const char *path,
                           const char *name) {
  const int type = nsb_get(L, index, name);
  if (type == LUA_TTABLE) return true;
  if (type != LUA_TNIL)
    luaL_error(L, "%s.%s: table expected, got %s", path, name,
               luaL_typename(L, -1));
  lua_pop(L, 1);
  return false;
}

/* fix = {kind=, member=, lift=, share=, bears_left=, bears_right=, between=,
 * cut=, other = {values of the new wood}, rows of the fix list}. */
static void read_fix(lua_State *L, int index, struct ns_shape *s,
                     struct ns_block *b, int lane) {
  static const char *const kinds[] = {"none", "beside", "under", NULL};
  static const char *const lifts[] = {"none", "unloaded", "prop", NULL};
  static const char *const shares[] = {"slip", "stiffness", "new", "worst",
                                       NULL};
  if (!optional_table(L, index, "model", "fix")) return;
  const int t = lua_gettop(L);
  const int kind = nsb_word(L, t, "fix", "kind", kinds);
  const int member = nsb_word(L, t, "fix", "member", ns_member_names);
  const int lift = nsb_word(L, t, "fix", "lift", lifts);
  const int share = nsb_word(L, t, "fix", "share", shares);
  if (kind < 0) luaL_error(L, "fix.kind: missing");
  s->fix.kind = (enum ns_fix)kind;
  s->fix.member = (enum ns_member)(member < 0 ? 0 : member);
  s->fix.lift = (enum ns_lift)(lift < 0 ? 0 : lift);
  s->fix.share = (enum ns_share)(share < 0 ? 0 : share);
  s->fix.bears[0] = nsb_flag(L, t, "bears_left");
  s->fix.bears[1] = nsb_flag(L, t, "bears_right");
  s->fix.between = nsb_flag(L, t, "between");
  const double cut = nsb_finite(L, t, "fix", "cut", 1);
  if (s->fix.kind == NS_UNDER && !(cut >= 1 && cut <= s->cuts))
    luaL_error(L, "fix.cut: no such cut");
  s->fix.cut = s->fix.kind == NS_UNDER ? (int)cut - 1 : 0;
  int row = 0;
  for (const struct ns_field *f = ns_fix_fields; f->name; row += f->rows, f++)
    if (f->rows > 1) {
      const int n = read_rows(L, t, f->name, f->rows, &b->fix[row], lane);
      if (row == NS_F_station) s->fix.stations = n;
    } else {
      b->fix[row][lane] = nsb_number(L, t, "fix", f->name, 0);
    }
  s->fix.steel = b->fix[NS_F_Fy][lane] > 0;
  memcpy(b->other, b->joist, sizeof b->other);
  if (optional_table(L, t, "fix", "other")) {
    const int o = lua_gettop(L);
    row = 0;
    for (const struct ns_field *f = ns_joist_fields; f->name;
         row += f->rows, f++)
      if (f->rows == 1)
        b->other[row][lane] =
            nsb_number(L, o, "other", f->name, b->joist[row][lane]);
    lua_pop(L, 1);
  }
  lua_pop(L, 1);
}

/* A joist as the model hands it over into the shape and one lane of a block. */
void nsb_model(lua_State *L, int index, struct ns_shape *s, struct ns_block *b,
               int lane) {
  luaL_checktype(L, index, LUA_TTABLE);
  memset(s, 0, sizeof *s);
  read_joist(L, index, s, b, lane);
  read_cuts(L, index, s, b, lane);
  read_loads(L, index, s, b, lane);
  read_fix(L, index, s, b, lane);
}

/* Rows of lane 0 in all lanes. */
static void spread(double (*rows)[NS_LANES], int count) {
  for (int r = 0; r < count; r++)
    for (int i = 1; i < NS_LANES; i++) rows[r][i] = rows[r][0];
}

/* The joist of lane 0 in all lanes. */
void nsb_spread(struct ns_block *b, const struct ns_shape *s) {
  spread(b->joist, NS_JOIST_ROWS);
  for (int c = 0; c < s->cuts; c++) spread(b->cut[c], NS_CUT_ROWS);
  for (int l = 0; l < s->lines; l++) spread(b->line[l], NS_LINE_ROWS);
  for (int p = 0; p < s->points; p++) spread(b->point[p], NS_POINT_ROWS);
  spread(b->fix, NS_FIX_ROWS);
  spread(b->other, NS_JOIST_ROWS);
}

/* Kinds of cut as bits. */
static unsigned read_kinds(lua_State *L, int index, const char *name) {
  unsigned kinds = 0;
  const int n = nsb_list(L, index, "rules", name, NS_KINDS);
  for (int k = 0; k < n; k++) {
    lua_rawgeti(L, -1, k + 1);
    const char *word =
        lua_type(L, -1) == LUA_TSTRING ? lua_tostring(L, -1) : "?";
    unsigned found = 0;
    for (unsigned q = 0; q < NS_KINDS; q++)
      if (strcmp(word, ns_kind_names[q]) == 0) found = 1u << q;
    if (!found)
      luaL_error(L, "%s[%d]: no kind of cut: '%s'", name, k + 1, word);
    kinds |= found;
    lua_pop(L, 1);
  }
  lua_pop(L, 1);
  return kinds;
}

/* One pack of a stack: its limits are appended. */
static void read_pack(lua_State *L, int t, int p, struct ns_rules *o) {
  static const char *const measures[] = {"depth",
                                         "length",
                                         "size",
                                         "edge below",
                                         "edge above",
                                         "clear hole",
                                         "clear notch",
                                         "reach",
                                         "thickness",
                                         "first",
                                         "centers",
                                         "clear notch along",
                                         "from bearing edge",
                                         "off axis",
                                         "past face",
                                         "bearing",
                                         NULL};
  static const char *const faces[] = {"bottom", "top", NULL};
  o->covers[p] = read_kinds(L, t, "covers");
  o->covers_hogging[p] = nsb_flag(L, t, "covers_hogging");
  o->covers_depth[p] = nsb_finite(L, t, "rules", "covers_depth", 1e6);
  const int n = nsb_list(L, t, "rules", "limits", NS_MAX_RULES - o->count);
  for (int r = 0; r < n; r++) {
    const int l = nsb_item(L, "limits", r + 1);
    struct ns_rule *rule = &o->rule[o->count++];
    const int m = nsb_word(L, l, "limit", "measure", measures);
    if (m < 0) luaL_error(L, "limits[%d].measure: missing", r + 1);
    const int face = nsb_word(L, l, "limit", "face", faces);
    rule->pack = p;
    rule->measure = (enum ns_measure)m;
    rule->kinds = read_kinds(L, l, "kinds");
    rule->faces = face < 0 ? 0 : 1u << face;
    rule->at_least = nsb_flag(L, l, "at_least");
    rule->forbidden = nsb_flag(L, l, "forbidden");
    rule->of_d = nsb_finite(L, l, "limit", "of_d", 0);
    rule->of_L = nsb_finite(L, l, "limit", "of_L", 0);
    rule->of_size = nsb_finite(L, l, "limit", "of_size", 0);
    rule->plus = nsb_finite(L, l, "limit", "plus", 0);
    rule->cap = nsb_finite(L, l, "limit", "cap", 1e6);
    lua_pop(L, 1);
  }
  lua_pop(L, 1);
}

/* Rule packs as the core reads them. */
void nsb_rules(lua_State *L, int index, struct ns_rules *o) {
  luaL_checktype(L, index, LUA_TTABLE);
  memset(o, 0, sizeof *o);
  o->packs = (int)lua_rawlen(L, index);
  luaL_argcheck(L, o->packs >= 1 && o->packs <= NS_MAX_PACKS, index,
                "1 to 4 packs expected");
  for (int p = 0; p < o->packs; p++) {
    lua_rawgeti(L, index, p + 1);
    luaL_checktype(L, -1, LUA_TTABLE);
    read_pack(L, lua_gettop(L), p, o);
    lua_pop(L, 1);
  }
  if (!ns_rules_fit(o)) luaL_error(L, "rules: more limits than a review holds");
}

/* Numbers of a list of a table in field 'name', all of them needed. */
static void read_all(lua_State *L, int index, const char *path,
                     const char *name, int count, double *to) {
  const int n = nsb_list(L, index, path, name, count);
  if (n != count)
    luaL_error(L, "%s.%s: %d numbers expected, got %d", path, name, count, n);
  for (int k = 0; k < count; k++) to[k] = item(L, lua_gettop(L), name, k + 1);
  lua_pop(L, 1);
}

/* ec5 = {k_mod = {three lists of five}, k_def =, psi_2 =, ...}. */
static void read_ec5(lua_State *L, int index, struct ns_ec5 *o) {
  if (!optional_table(L, index, "standard", "ec5"))
    luaL_error(L, "standard.ec5: missing");
  const int t = lua_gettop(L);
  if (nsb_list(L, t, "ec5", "k_mod", 3) != 3)
    luaL_error(L, "ec5.k_mod: three lists expected");
  lua_pop(L, 1);
  if (!optional_table(L, t, "ec5", "k_mod")) return;
  for (int c = 0; c < 3; c++) {
    static const char *const names[] = {"1", "2", "3"};
    nsb_item(L, "k_mod", c + 1);
    for (int d = 0; d < 5; d++)
      o->k_mod[c][d] = item(L, lua_gettop(L), names[c], d + 1);
    lua_pop(L, 1);
  }
  lua_pop(L, 1);
  read_all(L, t, "ec5", "k_def", 3, o->k_def);
  read_all(L, t, "ec5", "limit", 2, o->limit);
  o->psi_2 = nsb_finite(L, t, "ec5", "psi_2", NSB_REQUIRED);
  o->gamma_M = nsb_finite(L, t, "ec5", "gamma_M", NSB_REQUIRED);
  o->k_cr = nsb_finite(L, t, "ec5", "k_cr", 0);
  o->f_cr = nsb_finite(L, t, "ec5", "f_cr", 0);
  o->k_sys = nsb_finite(L, t, "ec5", "k_sys", NSB_REQUIRED);
  lua_pop(L, 1);
}

/* A combination with roof live load, snow or loads of their own durations. */
static void read_row(lua_State *L, int t, struct ns_row *r) {
  r->g[NS_DEAD] = nsb_finite(L, t, "combination", "D", NSB_REQUIRED);
  r->g[NS_LIVE] = nsb_finite(L, t, "combination", "L", 0);
  r->g[NS_ROOF] = nsb_finite(L, t, "combination", "Lr", 0);
  r->g[NS_SNOW] = nsb_finite(L, t, "combination", "S", 0);
  r->g[NS_OWN_1] = nsb_finite(L, t, "combination", "L1", 0);
  r->g[NS_OWN_2] = nsb_finite(L, t, "combination", "L2", 0);
  r->without_live = nsb_flag(L, t, "without_live");
  r->CD = nsb_finite(L, t, "combination", "CD", NSB_REQUIRED);
  r->strength = !nsb_flag(L, t, "deflection_only");
  r->service = !nsb_flag(L, t, "strength_only");
}

/* combinations = {{D =, L =, CD =}, ...}; other = those with Lr or S as well.
 */
static void read_combinations(lua_State *L, int index, struct ns_standard *o) {
  o->combos = nsb_list(L, index, "standard", "combinations", NS_MAX_COMBOS);
  for (int c = 0; c < o->combos; c++) {
    const int t = nsb_item(L, "combinations", c + 1);
    o->g_D[c] = nsb_finite(L, t, "combination", "D", NSB_REQUIRED);
    o->g_L[c] = nsb_finite(L, t, "combination", "L", NSB_REQUIRED);
    o->CD[c] = nsb_finite(L, t, "combination", "CD", NSB_REQUIRED);
    lua_pop(L, 1);
  }
  lua_pop(L, 1);
  o->rows = nsb_list(L, index, "standard", "other", NS_MAX_ROWS);
  for (int r = 0; r < o->rows; r++) {
    read_row(L, nsb_item(L, "other", r + 1), &o->row[r]);
    lua_pop(L, 1);
  }
  lua_pop(L, 1);
}

/* Numbers of a standard as the core reads them. */
void nsb_standard(lua_State *L, int index, struct ns_standard *o) {
  static const char *const families[] = {"nds", "ec5", "csa", NULL};
  luaL_checktype(L, index, LUA_TTABLE);
  memset(o, 0, sizeof *o);
  read_combinations(L, index, o);
  if (o->combos < 1) luaL_error(L, "standard.combinations: one at least");
  o->all = (int)nsb_finite(L, index, "standard", "all", NSB_REQUIRED) - 1;
  if (o->all < 0 || o->all >= o->combos)
    luaL_error(L, "standard.all: a combination's number expected");
  const struct {
    const char *name;
    double *to, otherwise;
  } fields[] = {{"K_b", &o->K_b, 1},
                {"K_t", &o->K_t, 1},
                {"K_v", &o->K_v, 1},
                {"K_c", &o->K_c, 1},
                {"K_perp", &o->K_perp, 1},
                {"K_min", &o->K_min, 1},
                {"joint_time", &o->joint_time, 1.6},
                {"end_notch", &o->end_notch, NSB_REQUIRED},
                {"inner_notch", &o->inner_notch, NSB_REQUIRED},
                {"outer_part", &o->outer_part, NSB_REQUIRED},
                {"thick", &o->thick, NSB_REQUIRED},
                {"tested_hole", &o->tested_hole, NSB_REQUIRED}};
  for (size_t k = 0; k < sizeof fields / sizeof *fields; k++)
    *fields[k].to =
        nsb_finite(L, index, "standard", fields[k].name, fields[k].otherwise);
  const int family = nsb_word(L, index, "standard", "family", families);
  o->family = family < 0 ? NS_NDS : (enum ns_family)family;
  o->any_span = nsb_flag(L, index, "any_span");
  o->no_rule = nsb_flag(L, index, "no_rule");
  if (o->family == NS_EC5) read_ec5(L, index, &o->ec5);
}

/* The field that a row belongs to, and which of its rows. */
static const struct ns_field *field_of_row(const struct ns_field *f, int row,
                                           int *item_of) {
  while (f->name && row >= f->rows) row -= f->rows, f++;
  *item_of = row;
  return f;
}

/* What is wrong with a lane: part, field and message. */
void nsb_push_fault(lua_State *L, int status, int part, int row) {
  const struct ns_field *list = part == 0    ? ns_joist_fields
                                : part < 101 ? ns_cut_fields
                                : part < 201 ? ns_line_fields
                                : part < 301 ? ns_point_fields
                                : part < 401 ? ns_fix_fields
                                             : ns_joist_fields;
  int n = 0;
  const struct ns_field *f = field_of_row(list, row, &n);
  lua_newtable(L);
  lua_pushstring(L, ns_status_text((enum ns_status)status));
  lua_setfield(L, -2, "text");
  nsb_set_int(L, "status", status);
  nsb_set_int(L, "cut", part > 0 && part < 101 ? part : 0);
  nsb_set_int(L, "line", part > 100 && part < 201 ? part - 100 : 0);
  nsb_set_int(L, "point", part > 200 && part < 301 ? part - 200 : 0);
  nsb_set_int(L, "fix", part > 300 ? 1 : 0);
  lua_pushstring(L, f->name ? f->name : "");
  lua_setfield(L, -2, "field");
  nsb_set_int(L, "item", n + 1);
  nsb_set(L, "low", f->low);
  nsb_set(L, "high", f->high);
  lua_pushstring(L, f->name ? f->unit : "");
  lua_setfield(L, -2, "unit");
  nsb_set_int(L, "row", row);
}

/* Row n of a named field; null where there is none. */
static double *row_of(const struct ns_field *f, double (*rows)[NS_LANES],
                      const char *name, int n) {
  int row = 0;
  for (; f->name; row += f->rows, f++)
    if (strcmp(f->name, name) == 0)
      return n >= 1 && n <= f->rows ? rows[row + n - 1] : NULL;
  return NULL;
}

/* The row that a path such as cuts.1.depth names; null where there is none. */
double *nsb_row(struct ns_block *b, const struct ns_shape *s,
                const char *path) {
  char head[32], tail[32];
  int n = 1, used = 0;
  if (sscanf(path, "%31[a-z].%d.%31[A-Za-z0-9_]%n", head, &n, tail, &used) ==
          3 &&
      path[used] == '\0') {
    if (strcmp(head, "cuts") == 0 && n >= 1 && n <= s->cuts)
      return row_of(ns_cut_fields, b->cut[n - 1], tail, 1);
    if (strcmp(head, "lines") == 0 && n >= 1 && n <= s->lines)
      return row_of(ns_line_fields, b->line[n - 1], tail, 1);
    if (strcmp(head, "points") == 0 && n >= 1 && n <= s->points)
      return row_of(ns_point_fields, b->point[n - 1], tail, 1);
    return NULL;
  }
  const bool fix = strncmp(path, "fix.", 4) == 0;
  if (fix) path += 4;
  n = 1;
  used = 0;
  const int got =
      sscanf(path, "%31[A-Za-z0-9_]%n.%d%n", head, &used, &n, &used);
  if (got < 1 || path[used] != '\0') return NULL;
  return fix ? row_of(ns_fix_fields, b->fix, head, n)
             : row_of(ns_joist_fields, b->joist, head, n);
}
