/*
 * Calls of the grammar for header lines, each once its line has been read, and
 * what the header_*.c share. Private to src/syntax and grammar/parser.y.
 */
#ifndef SYNTAX_HEADER_H
#define SYNTAX_HEADER_H

#include <stddef.h>

#include "syntax/parse.h"

/* Where a header that says one thing stands. */
#define FACT(name) offsetof(struct headers, name)

/* header.c: forgets the headers, keeping the memory; gives it back */
void headers_reset(struct headers *h);
void headers_free(struct headers *h);

void header_line_begin(struct parse *ps);
bool header_session(struct parse *ps, const struct token *date,
    const struct token *time, const struct token *label);
bool header_subject(struct parse *ps, const struct token *code);

/* A header that could not be read makes its value unknown. */
void header_unreadable(struct parse *ps, int header);

/* Adds to the finding just made what its reader loses with HEADER. */
void header_warn(struct parse *ps, int header);

/* Where a header of the person or session goes. */
struct headers *header_scope(struct parse *ps);

/* The place of a token, with a copy of the line that lives with HEADERS. */
struct place header_place(
    struct parse *ps, struct headers *h, const struct token *t);

/* A TEXT token as a text that lives with HEADERS; NULL where T is. */
const char *header_text(
    struct parse *ps, struct headers *h, const struct token *t);

/* header_person.c */
bool header_born(struct parse *ps, const struct token *year);
bool header_age(struct parse *ps, const struct token *years);
bool header_sex(struct parse *ps, const struct token *sex);
bool header_dominant(struct parse *ps, const struct token *side);
bool header_surgery(
    struct parse *ps, const struct token *date, const struct token *text);
bool header_remark(struct parse *ps, const struct token *text);

/* header_joints.c */
bool header_side(struct parse *ps, const struct token *t);
bool header_joint(struct parse *ps, const struct token *t);
bool header_involved(struct parse *ps, const struct token *word);
bool header_involved_none(struct parse *ps, const struct token *word);
bool header_opposite(
    struct parse *ps, const struct token *word, const struct token *reason);

/* A side with no joint behind it is the whole side. */
void header_close_side(struct header_line *h);

/* header_precaution.c */
bool header_motion(struct parse *ps, const struct token *t);
bool header_of_mode(struct parse *ps, const struct token *t);
bool header_limit(struct parse *ps, const struct token *word,
    const struct token *number, const struct token *unit, bool lacks);
bool header_forbid(struct parse *ps, const struct token *word);
bool header_from(
    struct parse *ps, const struct token *word, const struct token *date);
bool header_until(
    struct parse *ps, const struct token *word, const struct token *date);
bool header_precaution(
    struct parse *ps, const struct token *word, const struct token *reason);

/* header_goal.c */
bool header_value(struct parse *ps, enum form form, const struct token *a,
    const struct token *b, const struct token *unit);
bool header_goal(
    struct parse *ps, const struct token *word, const struct token *by);

/* header_measuring.c */
bool header_rater(struct parse *ps, const struct token *code);
bool header_instrument(struct parse *ps, const struct token *name,
    const struct token *step, const struct token *unit);
bool header_mode(struct parse *ps, const struct token *mode);
bool header_position_word(struct parse *ps, const struct token *t);
bool header_position(struct parse *ps);
bool header_requirement(struct parse *ps, const struct token *t);
bool header_require(struct parse *ps);

#endif
