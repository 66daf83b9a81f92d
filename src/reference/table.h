/*
 * The shape of the tables that generate.awk writes. Rows are sorted by
 * measurement; those of measurement M are first[M] .. first[M + 1] - 1.
 * Only this folder reads them; all others go through reference.h.
 */
#ifndef REFERENCE_TABLE_H
#define REFERENCE_TABLE_H

#include <stdbool.h>
#include <stdint.h>

#include "reference/reference.h"
#include "vocab/vocab.h"

/* What a value of a measurement stands for: schober has both. */
enum ref_limit_of { REF_LIMIT_VALUE, REF_LIMIT_DIFFERENCE, REF_LIMIT_WRITTEN };

struct ref_limit_row {
	enum ref_limit_of of;
	int32_t usual, possible, lacks; /* -1: silent */
	const char *setting;
	const char *basis_usual, *basis_possible, *basis_lacks;
	const char *verified, *verified_possible;
};

struct ref_end_feel_row {
	unsigned feels;
	const char *source;
};

#define REF_FIRST (VOCAB_MEASUREMENT_COUNT + 1)

extern const struct ref_source ref_sources[];
extern const size_t ref_sources_count;
extern const struct ref_limit_row ref_limit_rows[];
extern const uint16_t ref_limit_first[REF_FIRST];
extern const struct ref_usual_row ref_usual_table[];
extern const uint16_t ref_usual_first[REF_FIRST];
extern const struct ref_end_feel_row ref_end_feel_rows[REF_FIRST];
extern const struct ref_functional ref_functional_rows[];
extern const uint16_t ref_functional_first[REF_FIRST];
extern const struct ref_error_row ref_error_table[];
extern const uint16_t ref_error_first[REF_FIRST];
extern const struct ref_guide ref_guide_rows[];
extern const uint16_t ref_guide_of[REF_FIRST]; /* 1 + row, 0 none */

#endif
