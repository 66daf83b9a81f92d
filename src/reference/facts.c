/* The tables that need no choosing: end feels, tasks, sources, the guide. */
#include "reference/reference.h"

#include <string.h>

#include "reference/table.h"

static bool
is_known(int measurement)
{
	return measurement >= 0 && measurement < VOCAB_MEASUREMENT_COUNT;
}

unsigned
ref_end_feels(int measurement, const char **source)
{
	const struct ref_end_feel_row *row =
	    is_known(measurement) ? &ref_end_feel_rows[measurement] : NULL;

	if (source)
		*source = row ? row->source : NULL;
	return row ? row->feels : 0;
}

const struct ref_functional *
ref_functional(int measurement, size_t *n)
{
	*n = 0;
	if (!is_known(measurement))
		return ref_functional_rows;
	*n = (size_t)ref_functional_first[measurement + 1] -
	     ref_functional_first[measurement];
	return ref_functional_rows + ref_functional_first[measurement];
}

size_t
ref_source_count(void)
{
	return ref_sources_count;
}

const struct ref_source *
ref_source_get(size_t i)
{
	return &ref_sources[i];
}

const struct ref_source *
ref_source_find(const char *key)
{
	for (size_t i = 0; i < ref_sources_count; i++)
		if (strcmp(ref_sources[i].key, key) == 0)
			return &ref_sources[i];
	return NULL;
}

const struct ref_guide *
ref_guide(int measurement)
{
	int row = is_known(measurement) ? ref_guide_of[measurement] : 0;

	return row ? &ref_guide_rows[row - 1] : NULL;
}
