/*
 * A table of data/ and a session to hold against it, for the published tests
 * of totals. Each test file that includes it has its own.
 */
#ifndef TOTALS_NOTE_H
#define TOTALS_NOTE_H

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "calc/totals.h"
#include "text/mem.h"

#ifndef TEST_DATA_DIR
#define TEST_DATA_DIR "tests/published/data"
#endif

#define M(name) VOCAB_MEASUREMENT_##name
#define COUNT(array) (sizeof(array) / sizeof(*(array)))

enum { R = VOCAB_SIDE_RIGHT, A = VOCAB_MODE_ACTIVE };

/* --- a table of text ------------------------------------------------------ */

enum { MOST_CELLS = 12, MOST_ROWS = 64 };

struct table {
	char text[1 << 14];
	char *cell[MOST_ROWS][MOST_CELLS];
	size_t rows;
};

static struct table table;

static inline void
read_table(const char *name)
{
	char path[256], *line, *rest;
	FILE *file;
	size_t len;

	snprintf(path, sizeof(path), "%s/%s", TEST_DATA_DIR, name);
	file = fopen(path, "rb");
	ck_assert_msg(file, "cannot read %s", path);
	len = fread(table.text, 1, sizeof(table.text) - 1, file);
	fclose(file);
	ck_assert_uint_lt(len, sizeof(table.text) - 1);
	table.text[len] = '\0';
	memset(table.cell, 0, sizeof(table.cell));
	table.rows = 0;
	rest = strchr(table.text, '\n') + 1;
	while ((line = strsep(&rest, "\n")) != NULL && *line) {
		ck_assert_uint_lt(table.rows, MOST_ROWS);
		for (int i = 0; line; i++) {
			ck_assert_int_lt(i, MOST_CELLS);
			table.cell[table.rows][i] = strsep(&line, "\t");
		}
		table.rows++;
	}
	ck_assert_uint_gt(table.rows, 0);
}

/* --- a session ------------------------------------------------------------ */

static struct intern pool;
static struct person person;
static struct session s;
static struct totals totals;

static inline void
set_up(void)
{
	intern_id(&pool, "", 0);
	s.pool = &pool;
	s.person = &person;
}

static inline void
tear_down(void)
{
	totals_free(&totals);
	intern_free(&pool);
	free(s.readings.at);
	free(s.trials.at);
	s = (struct session){0};
}

static inline void
add(int measurement, int side, int32_t degrees)
{
	*MEM_PUSH(&s.readings) =
	    (struct reading){.measurement = (int16_t)measurement,
		.side = (int8_t)side,
		.mode = A,
		.kind = degrees < 0 ? KIND_LACKS : KIND_MEASURED,
		.first_trial = (uint32_t)s.trials.len,
		.trials = 1,
		.reps = NO_VALUE};
	*MEM_PUSH(&s.trials) = (struct trial){NO_VALUE, degrees * 10, NO_VALUE};
}

static inline const struct total *
total_of(int definition)
{
	totals_build(&totals, &s);
	for (size_t i = 0; i < totals.len; i++)
		if (totals.at[i].definition == definition)
			return &totals.at[i];
	ck_abort_msg("no total");
}

#endif
