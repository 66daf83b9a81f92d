/*
 * The figures as they were taken down from their sources, for the tests that
 * hold the compiled tables against them: data/ has those tables as they are,
 * with where each figure was read, and reference_left_out.tsv the rows that
 * the program does not take, each with its reason.
 */
#ifndef REFERENCE_TABLES_H
#define REFERENCE_TABLES_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#define M(name) VOCAB_MEASUREMENT_##name
#define COUNT(array) (int)(sizeof(array) / sizeof(*(array)))

enum { MOST_CELLS = 12 };

struct line {
	char *cell[MOST_CELLS];
	int cells;
};

struct table {
	char *text;
	struct line *at;
	size_t len;
};

/* The columns that the tables of figures share. */
enum {
	KEY,
	JOINT,
	MOTION,
	SEX,
	AGE_LO,
	AGE_HI,
	VALUE,
	SPREAD,
	CI_HI,
	UNIT,
	WHERE,
	VERIFIED
};

/* Reads data/NAME without its header row; the caller frees it. */
struct table taken_read(const char *name);
void taken_free(struct table *table);

/* Our names, with commas between, of the joint that a table calls THEIRS. */
const char *taken_joints(const char *theirs);

struct motion {
	char name[128];
	const char *setting, *mode;
};

struct motion taken_motion(const char *theirs);

/* A figure as its source writes it: 26.2, 35-50, 70 or 80, >=180, -28 to 12. */
struct figure {
	int32_t low, high;
	char mark[4];
};

struct figure taken_figure(const char *text);

/* True where the comma list LIST has NAME; how many names it has. */
bool taken_lists(const char *list, const char *name);
size_t taken_count(const char *list);

/* The list of rows left out, read for each test by these two. */
extern struct table taken_not;
void taken_set_up(void);
void taken_tear_down(void);
bool taken_left_out(const char *file, const struct line *line);

static inline bool
says(const char *text, const char *cell)
{
	return strcmp(text, cell) == 0;
}

#endif
