/* SPDX-License-Identifier: MIT
 * trace.c - the steps that stand when all is noted. Those whose numbers nobody
 * reads are left out, and rows are used again when their numbers are not needed
 * any more. */
#include "lua/trace.h"

#include <stddef.h>
#include <string.h>

static const char KEY = 0;

struct nsb_recorder *nsb_recorder(lua_State *L) {
  lua_rawgetp(L, LUA_REGISTRYINDEX, &KEY);
  return lua_touserdata(L, -1);
}

static const size_t ITEM[NSB_LISTS] = {
    [NSB_STEPS] = sizeof(struct ns_step),
    [NSB_ITEMS] = sizeof(int),
    [NSB_REVIEWS] = sizeof(struct ns_step_review),
    [NSB_MODELS] = sizeof(double) * NS_BLOCK_ROWS,
    [NSB_JOINTS] = sizeof(struct ns_step_joint),
    [NSB_COLUMNS] = sizeof(struct ns_step_column),
    [NSB_TAKES] = sizeof(struct ns_take),
    [NSB_SLOTS] = sizeof(struct ns_slot),
    [NSB_VALUES] = sizeof(struct nsb_value),
    [NSB_WIDE] = sizeof(struct ns_take),
    [NSB_MADE] = 1};

void *nsb_add(lua_State *L, struct nsb_trace *t, enum nsb_list which, int n) {
  struct nsb_grown *g = &t->list[which];
  if (g->n + n > g->room) {
    const int room = 2 * g->room > g->n + n ? 2 * g->room : g->n + n + 8;
    nsb_recorder(L);
    lua_getiuservalue(L, -1, 1);
    void *at = lua_newuserdatauv(L, ITEM[which] * (size_t)room, 0);
    if (g->n > 0) memcpy(at, g->at, ITEM[which] * (size_t)g->n);
    lua_setiuservalue(L, -2, (int)which + 1);
    lua_pop(L, 2);
    g->at = at;
    g->room = room;
  }
  char *to = (char *)g->at + ITEM[which] * (size_t)g->n;
  memset(to, 0, ITEM[which] * (size_t)n); /* some may have been taken back */
  g->n += n;
  return to;
}

void nsb_new_recorder(lua_State *L) {
  struct nsb_recorder *r = lua_newuserdatauv(L, sizeof *r, 1);
  *r = (struct nsb_recorder){.next = 1};
  lua_rawsetp(L, LUA_REGISTRYINDEX, &KEY);
}

struct nsb_value *nsb_value(struct nsb_trace *t, int n) {
  return (struct nsb_value *)t->list[NSB_VALUES].at + n;
}

struct ns_step *nsb_step(struct nsb_trace *t, int n) {
  return (struct ns_step *)t->list[NSB_STEPS].at + n;
}

struct ns_step_review *nsb_review(struct nsb_trace *t, int n) {
  return (struct ns_step_review *)t->list[NSB_REVIEWS].at + n;
}

double *nsb_model_of(struct nsb_trace *t, int n) {
  return (double *)t->list[NSB_MODELS].at + (size_t)n * NS_BLOCK_ROWS;
}

/* ---- one review for two ---- */

/* Rows from here on are those of a repair. */
enum { FIRST_OF_FIX = offsetof(struct ns_block, fix) / sizeof(ns_lane) };

/* Whether two joists are one but for the repair that the second has. */
static bool same_joist(struct nsb_trace *t, int plain, int fixed) {
  const struct ns_step_review *v = nsb_review(t, plain),
                              *w = nsb_review(t, fixed);
  struct ns_shape bare;
  memcpy(&bare, &w->shape, sizeof bare);
  memcpy(&bare.fix, &v->shape.fix, sizeof bare.fix);
  return v->shape.fix.kind == NS_NO_FIX && w->shape.fix.kind != NS_NO_FIX &&
         v->rules == w->rules && v->standard == w->standard &&
         memcmp(&v->shape, &bare, sizeof bare) == 0 &&
         memcmp(nsb_model_of(t, plain), nsb_model_of(t, fixed),
                sizeof(double) * FIRST_OF_FIX) == 0;
}

/* Whether they have the same columns but for those of the repair, and all of
 * these are known before the step n. */
static bool same_columns(struct nsb_trace *t, int plain, int fixed, int n) {
  const struct ns_step_review *v = nsb_review(t, plain),
                              *w = nsb_review(t, fixed);
  const struct ns_step_column *c = t->list[NSB_COLUMNS].at;
  int alike = 0, own = 0;
  for (int k = w->column; k < w->column + w->columns; k++) {
    if (nsb_value(t, c[k].from)->made >= n) return false;
    own += c[k].row >= FIRST_OF_FIX;
    for (int i = v->column; i < v->column + v->columns; i++)
      alike += c[k].row == c[i].row && c[k].from == c[i].from;
  }
  return alike == v->columns && alike + own == w->columns;
}

/* The joist as it is has, reviewed with its repair, the numbers that it has
 * alone: then the one review serves for both. */
static void merge(struct nsb_trace *t) {
  for (int n = 0; n < t->list[NSB_STEPS].n; n++) {
    struct ns_step *a = nsb_step(t, n);
    if (a->kind != NS_STEP_REVIEW) continue;
    for (int m = n + 1; m < t->list[NSB_STEPS].n && a->more < 0; m++) {
      struct ns_step *b = nsb_step(t, m);
      if (b->kind != NS_STEP_REVIEW || !same_joist(t, a->list, b->list) ||
          !same_columns(t, a->list, b->list, n))
        continue;
      a->more = a->list;
      a->list = b->list;
      b->kind = NS_STEP_NONE;
    }
  }
}

/* ---- what is needed ---- */

/* Does something with every value that a step reads. */
typedef void on_value(struct nsb_trace *t, int *value, int n);

static void each(struct nsb_trace *t, int *value, int n, on_value *f) {
  if (*value >= 0) f(t, value, n);
}

static void each_read(struct nsb_trace *t, int n, on_value *f) {
  struct ns_step *s = nsb_step(t, n);
  int *items = t->list[NSB_ITEMS].at;
  each(t, &s->a, n, f);
  each(t, &s->b, n, f);
  each(t, &s->c, n, f);
  if (s->kind == NS_STEP_WORST || s->kind == NS_STEP_BY_NUMBER) {
    const int k = s->kind == NS_STEP_WORST ? 2 * s->count : s->count;
    for (int i = 0; i < k; i++) each(t, &items[s->list + i], n, f);
  } else if (s->kind == NS_STEP_REVIEW) {
    const struct ns_step_review *v = nsb_review(t, s->list);
    struct ns_step_column *c = t->list[NSB_COLUMNS].at;
    for (int i = 0; i < v->columns; i++) each(t, &c[v->column + i].from, n, f);
  } else if (s->kind == NS_STEP_JOINT) {
    struct ns_step_joint *j = (struct ns_step_joint *)t->list[NSB_JOINTS].at;
    each(t, &j[s->list].demand, n, f);
    for (int i = 0; i < NS_RECORDS; i++) each(t, &j[s->list].from[i], n, f);
  }
}

static void each_given(struct nsb_trace *t, int n, on_value *f) {
  struct ns_step *s = nsb_step(t, n);
  if (s->kind == NS_STEP_REVIEW) {
    struct ns_take *k = t->list[NSB_TAKES].at;
    const int of[] = {s->list, s->more};
    for (int r = 0; r < 2 && of[r] >= 0; r++) {
      const struct ns_step_review *v = nsb_review(t, of[r]);
      for (int i = 0; i < v->takes; i++) each(t, &k[v->take + i].to, n, f);
    }
  } else if (s->kind == NS_STEP_JOINT) {
    struct ns_step_joint *j = (struct ns_step_joint *)t->list[NSB_JOINTS].at;
    for (int i = 0; i < 3; i++) each(t, &j[s->list].to[i], n, f);
  } else if (s->kind < NS_STEP_PUT) {
    each(t, &s->to, n, f);
    each(t, &s->more, n, f);
  }
}

/* Puts come after all steps. */
static void need(struct nsb_trace *t, int *v, int n) {
  struct nsb_value *x = nsb_value(t, *v);
  if (nsb_step(t, n)->kind == NS_STEP_PUT) n = t->list[NSB_STEPS].n;
  x->needed = true;
  if (x->last < n) x->last = n;
}

/* What nobody reads is not kept: the row is none. */
static void drop_unread(struct nsb_trace *t, int *v, int n) {
  (void)n;
  if (!nsb_value(t, *v)->needed) *v = -1;
}

/* Whether a step has to be done: a comparison, a review, which may find a joist
 * wrong, or numbers that are read. */
static bool wanted(struct nsb_trace *t, int n) {
  const struct ns_step *s = nsb_step(t, n);
  if (s->kind == NS_STEP_JOINT) {
    const struct ns_step_joint *j =
        (struct ns_step_joint *)t->list[NSB_JOINTS].at + s->list;
    return (j->to[0] >= 0) | (j->to[1] >= 0) | (j->to[2] >= 0);
  }
  return (s->kind >= NS_STEP_EQUAL && s->kind <= NS_STEP_REVIEW) ||
         s->kind == NS_STEP_PUT || (s->kind < NS_STEP_PUT && s->to >= 0);
}

/* From the last step to the first: who reads what. */
static void keep_needed(struct nsb_trace *t) {
  for (int n = t->list[NSB_STEPS].n - 1; n >= 0; n--) {
    struct ns_step *s = nsb_step(t, n);
    if (s->kind == NS_STEP_WORST &&
        (nsb_value(t, s->to)->needed || nsb_value(t, s->more)->needed)) {
      need(t, &s->to, n); /* both are written */
      need(t, &s->more, n);
    }
    each_given(t, n, drop_unread);
    if (wanted(t, n)) each_read(t, n, need);
  }
}

/* Takes that are neither read nor sure are left out. */
static void keep_takes(struct nsb_trace *t) {
  struct ns_take *k = t->list[NSB_TAKES].at;
  int n = 0;
  for (int v = 0; v < t->list[NSB_REVIEWS].n; v++) {
    struct ns_step_review *r = nsb_review(t, v);
    const int first = r->take, count = r->takes;
    r->take = n;
    for (int i = first; i < first + count; i++)
      if (k[i].to >= 0 || k[i].sure) k[n++] = k[i];
    r->takes = n - r->take;
  }
  t->list[NSB_TAKES].n = n;
}

/* ---- rows ---- */

/* Rows that are free, a stack; then rows that were never used. */
struct rows {
  int *free;
  int n, used;
};

static int one_row(struct rows *r) {
  return r->n > 0 ? r->free[--r->n] : r->used++;
}

/* Rows of inputs and constants, which stay; of other values a list of those
 * that each step is the last to read. */
static void lay_out(struct nsb_trace *t, struct rows *r, int *ends,
                    int *next_end) {
  const int values = t->list[NSB_VALUES].n, steps = t->list[NSB_STEPS].n;
  for (int n = 0; n <= steps; n++) ends[n] = -1;
  for (int v = 0; v < values; v++) {
    struct nsb_value *x = nsb_value(t, v);
    if (x->constant || v < t->inputs) {
      x->row = x->needed ? r->used++ : -1;
    } else if (x->needed) {
      next_end[v] = ends[x->last];
      ends[x->last] = v;
    }
  }
}

static void give_row(struct nsb_trace *t, struct rows *r, int v) {
  if (v >= 0 && nsb_value(t, v)->row < 0) nsb_value(t, v)->row = one_row(r);
}

static void give_rows(struct nsb_trace *t, int n, struct rows *r) {
  const struct ns_step *s = nsb_step(t, n);
  if (s->kind == NS_STEP_REVIEW) {
    const struct ns_take *k = t->list[NSB_TAKES].at;
    const int of[] = {s->list, s->more};
    for (int w = 0; w < 2 && of[w] >= 0; w++) {
      const struct ns_step_review *v = nsb_review(t, of[w]);
      for (int i = 0; i < v->takes; i++) give_row(t, r, k[v->take + i].to);
    }
  } else if (s->kind == NS_STEP_JOINT) {
    const struct ns_step_joint *j =
        (struct ns_step_joint *)t->list[NSB_JOINTS].at + s->list;
    for (int i = 0; i < 3; i++) give_row(t, r, j->to[i]);
  } else if (s->kind < NS_STEP_PUT) {
    give_row(t, r, s->to);
    give_row(t, r, s->more);
  }
}

static void to_row(struct nsb_trace *t, int *v, int n) {
  (void)n;
  *v = nsb_value(t, *v)->row;
}

/* Steps with rows in place of values, those that stay. */
static void place(lua_State *L, struct nsb_trace *t) {
  const int values = t->list[NSB_VALUES].n, steps = t->list[NSB_STEPS].n;
  int *room = lua_newuserdatauv(
      L, sizeof(int) * (size_t)(2 * values + steps + 1 + values), 0);
  struct rows r = {.free = room};
  int *next_end = room + values, *ends = next_end + values;
  lay_out(t, &r, ends, next_end);
  for (int n = 0; n < steps; n++) {
    if (!wanted(t, n)) continue;
    give_rows(t, n, &r);
    for (int v = ends[n]; v >= 0; v = next_end[v])
      if (nsb_value(t, v)->row >= 0) r.free[r.n++] = nsb_value(t, v)->row;
  }
  int kept = 0;
  for (int n = 0; n < steps; n++) {
    if (!wanted(t, n)) continue;
    each_read(t, n, to_row);
    each_given(t, n, to_row);
    *nsb_step(t, kept++) = *nsb_step(t, n);
  }
  t->list[NSB_STEPS].n = t->replay.steps = kept;
  t->replay.rows = r.used;
  lua_pop(L, 1);
}

/* ---- the replay ---- */

/* Bytes for n items behind those that were made before. */
static size_t behind(size_t *size, size_t n) {
  const size_t at = *size;
  *size += (n + NS_CACHE_LINE - 1) / NS_CACHE_LINE * NS_CACHE_LINE;
  return at;
}

/* Rows of a block that some review sets. */
static int rows_of_block(struct nsb_trace *t, int *to) {
  const struct ns_step_column *c = t->list[NSB_COLUMNS].at;
  bool set[NS_BLOCK_ROWS] = {false};
  int n = 0;
  for (int v = 0; v < t->list[NSB_REVIEWS].n; v++)
    for (size_t r = 0; r < NS_BLOCK_ROWS; r++)
      set[r] |= nsb_model_of(t, v)[r] != 0;
  for (int k = 0; k < t->list[NSB_COLUMNS].n; k++) set[c[k].row] = true;
  for (int r = 0; r < (int)NS_BLOCK_ROWS; r++)
    if (set[r]) to[n++] = r;
  return n;
}

/* What stands beside the steps: rows of inputs and constants, numbers of the
 * joists, what failed. */
static void make(lua_State *L, struct nsb_trace *t) {
  struct ns_replay *r = &t->replay;
  int block_row[NS_BLOCK_ROWS], constants = 0;
  r->block_rows = rows_of_block(t, block_row);
  for (int v = 0; v < t->list[NSB_VALUES].n; v++)
    constants += nsb_value(t, v)->constant && nsb_value(t, v)->row >= 0;
  const size_t reviews = (size_t)t->list[NSB_REVIEWS].n,
               rows = (size_t)r->block_rows;
  size_t size = NS_CACHE_LINE; /* never nothing */
  const size_t input = behind(&size, sizeof(int) * (size_t)t->inputs),
               which = behind(&size, sizeof(int) * (size_t)constants),
               numbers = behind(&size, sizeof(double) * (size_t)constants),
               block = behind(&size, sizeof(int) * rows),
               fixed = behind(&size, sizeof(double) * rows * reviews),
               failed = behind(&size, (size_t)t->list[NSB_TAKES].n);
  char *at = nsb_add(L, t, NSB_MADE, (int)size);
  int *of_input = (int *)(void *)(at + input),
      *of_constant = (int *)(void *)(at + which);
  double *one = (double *)(void *)(at + numbers),
         *of_joist = (double *)(void *)(at + fixed);
  for (int v = 0; v < t->inputs; v++) of_input[v] = nsb_value(t, v)->row;
  for (int v = 0; v < t->list[NSB_VALUES].n; v++)
    if (nsb_value(t, v)->constant && nsb_value(t, v)->row >= 0) {
      *of_constant++ = nsb_value(t, v)->row;
      *one++ = nsb_value(t, v)->one;
    }
  memcpy(at + block, block_row, sizeof(int) * rows);
  for (size_t v = 0; v < reviews; v++) {
    nsb_review(t, (int)v)->fixed = of_joist + v * rows;
    for (size_t k = 0; k < rows; k++)
      of_joist[v * rows + k] = nsb_model_of(t, (int)v)[block_row[k]];
  }
  r->inputs = t->inputs;
  r->constants = constants;
  r->input = of_input;
  r->constant = (const int *)(const void *)(at + which);
  r->value = (const double *)(const void *)(at + numbers);
  r->block_row = (const int *)(const void *)(at + block);
  r->failed = (atomic_uchar *)(void *)(at + failed);
  r->step = t->list[NSB_STEPS].at;
  r->list = t->list[NSB_ITEMS].at;
  r->review = t->list[NSB_REVIEWS].at;
  r->joint = t->list[NSB_JOINTS].at;
  r->column = t->list[NSB_COLUMNS].at;
  r->take = t->list[NSB_TAKES].at;
  r->slot = t->list[NSB_SLOTS].at;
}

/* The joists' own rows are not needed any more. */
static void drop_models(lua_State *L, struct nsb_trace *t) {
  nsb_recorder(L);
  lua_getiuservalue(L, -1, 1);
  lua_pushnil(L);
  lua_setiuservalue(L, -2, (int)NSB_MODELS + 1);
  lua_pop(L, 2);
  t->list[NSB_MODELS] = (struct nsb_grown){0};
}

void nsb_finish(lua_State *L, struct nsb_trace *t) {
  merge(t);
  keep_needed(t);
  keep_takes(t);
  place(L, t);
  make(L, t);
  drop_models(L, t);
}
