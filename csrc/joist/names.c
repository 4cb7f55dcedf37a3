/* SPDX-License-Identifier: MIT
 * names.c - the lists of fields.h as tables that can be read at run time. */
#include "joist/joist.h"

#define X(name, rows, low, high, unit, meaning)                                \
  {#name, rows, low, high, unit, meaning},
const struct ns_field ns_joist_fields[] = {NS_JOIST_LIST(X){0}};
const struct ns_field ns_cut_fields[] = {NS_CUT_LIST(X){0}};
const struct ns_field ns_line_fields[] = {NS_LINE_LIST(X){0}};
const struct ns_field ns_point_fields[] = {NS_POINT_LIST(X){0}};
const struct ns_field ns_fix_fields[] = {NS_FIX_LIST(X){0}};
#undef X
#define X(name, word, ...) word,
const char *const ns_mode_names[] = {NS_CHECK_LIST(X) 0};
#undef X
#define STRENGTH true
#define SERVICE false
#define DECIDES true
#define INFORMS false
#define BY_STANDARD "", ""
#define OWN(basis, lines) basis, lines
#define X(name, word, unit, letter, about, hogs, kind, part, where, evaluate,  \
          state, support, cut, repair, ...)                                    \
  {word,          unit,  letter,  about, hogs,   kind,       part,             \
   NS_AT_##where, state, support, cut,   repair, __VA_ARGS__},
const struct ns_check_row ns_check_rows[] = {NS_CHECK_LIST(X)};
#undef X
#define X(name, word) word,
const char *const ns_kind_names[] = {NS_KIND_LIST(X) 0};
const char *const ns_member_names[] = {NS_MEMBER_LIST(X) 0};
#undef X
#define X(name, unit, meaning) {#name, unit, meaning},
const struct ns_symbol ns_record_symbols[] = {NS_RECORD_LIST(X){0}};
#undef X

/* What a status says. */
const char *ns_status_text(enum ns_status status) {
  static const char *const texts[NS_STATUSES] = {
      [NS_OK] = "ok",
      [NS_OUT_OF_RANGE] = "out of range",
      [NS_BEFORE_START] = "begins before the joist does",
      [NS_PAST_END] = "past the end of the joist",
      [NS_BACKWARDS] = "'to' must be beyond 'from'",
      [NS_TOO_DEEP] = "as deep as the joist or deeper",
      [NS_PAST_TOP] = "its upper edge is above the top of the joist",
      [NS_PAST_BOTTOM] = "its lower edge is below the bottom of the joist",
      [NS_NO_WOOD] = "leaves no wood",
      [NS_SAME_PLACE] = "at the same place as another cut",
      [NS_IN_BEARING] = "must end between the joist's end and its middle",
      [NS_UNSTABLE] = "the beam is a mechanism",
      [NS_TOO_MANY] = "more parts than the limits allow",
      [NS_NO_FORMULA] = "not covered by the formulas of the standard",
  };
  return status < NS_STATUSES ? texts[status] : "unknown status";
}

const char *ns_version(void) { return "0.2.0"; }
