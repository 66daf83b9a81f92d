/* The bounds beyond which a reading is unusual or impossible. */
#include "reference/reference.h"

#include <string.h>

#include "reference/setting.h"
#include "reference/table.h"

/* Raises a bound of *OUT to that of ROW: the greatest holds. */
static bool
raise_to(bool *has, int32_t *bound, int32_t value)
{
	if (value < 0 || (*has && *bound >= value))
		return false;
	*has = true;
	*bound = value;
	return true;
}

static void
add_row(struct ref_bound *out, const struct ref_limit_row *row)
{
	if (raise_to(&out->has_usual, &out->usual, row->usual)) {
		out->basis_usual = row->basis_usual;
		out->verified = row->verified;
	}
	if (raise_to(&out->has_possible, &out->possible, row->possible)) {
		out->basis_possible = row->basis_possible;
		out->verified_possible = row->verified_possible;
	}
	if (raise_to(&out->has_lacks, &out->lacks, row->lacks))
		out->basis_lacks = row->basis_lacks;
}

/* A row of schober speaks of the difference or of the end as written. */
static bool
speaks_of(const struct ref_limit_row *row, bool difference)
{
	return row->of == REF_LIMIT_VALUE ||
	       (row->of == REF_LIMIT_DIFFERENCE) == difference;
}

/* 2 the very setting, 1 some of its words, 0 none. */
static int
closeness(int fit)
{
	return fit == REF_FITS_EXACTLY ? 2 : fit > REF_FITS_ANY ? 1 : 0;
}

void
ref_limits(int measurement, const char *setting, bool difference,
    struct ref_bound *out)
{
	int best = 0;

	*out = (struct ref_bound){.basis_usual = "",
	    .basis_possible = "",
	    .basis_lacks = "",
	    .verified = "none",
	    .verified_possible = "none"};
	if (measurement < 0 || measurement >= VOCAB_MEASUREMENT_COUNT)
		return;
	for (int pass = 0; pass < 2; pass++)
		for (int i = ref_limit_first[measurement];
		     i < ref_limit_first[measurement + 1]; i++) {
			const struct ref_limit_row *row = &ref_limit_rows[i];
			int fit = ref_setting_fit(row->setting, setting);

			if (fit == REF_FITS_NOT || !speaks_of(row, difference))
				continue;
			if (pass == 0 && closeness(fit) > best)
				best = closeness(fit);
			if (pass == 1 && closeness(fit) == best)
				add_row(out, row);
		}
}
