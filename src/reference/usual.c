/* Which usual value fits a reading and a person best. */
#include "reference/reference.h"

#include <string.h>

#include "reference/setting.h"
#include "reference/table.h"

/* What is asked for. */
struct wish {
	int measurement;
	const char *setting;
	int mode;
	struct ref_person person;
	const char *source;
	bool setting_matters;
};

/* How well a row fits; the first member that differs decides, more is better */
enum { BY_SETTING, BY_SITE, BY_PERSON, BY_SOURCE, BY_BAND, RANKS };

static bool
mode_fits(int row, int wanted)
{
	if (wanted == VOCAB_MODE_PLACE_AND_HOLD)
		wanted = VOCAB_MODE_ACTIVE;
	return row < 0 || wanted < 0 || row == wanted;
}

/* Of a row's age and sex, how many it names; -1 where the person is another. */
static int
person_fit(const struct ref_usual_row *row, const struct ref_person *person)
{
	int named = 0;

	if (row->sex >= 0) {
		if (row->sex != person->sex)
			return -1;
		named++;
	}
	if (row->age_lo >= 0 || row->age_hi >= 0) {
		if (person->age < 0 || person->age < row->age_lo ||
		    (row->age_hi >= 0 && person->age > row->age_hi))
			return -1;
		named++;
	}
	return named;
}

static bool
source_fits(const struct ref_usual_row *row, const char *wanted)
{
	const struct ref_source *source =
	    row->source_id < 0 ? NULL : &ref_sources[row->source_id];

	if (!wanted)
		return !source || !source->asked;
	return strcmp(row->source, wanted) == 0 ||
	       (source && source->group[0] &&
		   strcmp(source->group, wanted) == 0);
}

/* The width of the age band; the widest where it is open. */
static int
band(const struct ref_usual_row *row)
{
	return row->age_lo < 0 || row->age_hi < 0 ? 1000
						  : row->age_hi - row->age_lo;
}

/* Fills RANK; returns false where the row does not fit. */
static bool
rank_row(
    const struct ref_usual_row *row, const struct wish *wish, int rank[RANKS])
{
	if (row->measurement != wish->measurement ||
	    !mode_fits(row->mode, wish->mode) ||
	    !source_fits(row, wish->source))
		return false;
	rank[BY_SETTING] = ref_setting_fit(row->setting, wish->setting);
	if (rank[BY_SETTING] == REF_FITS_NOT ||
	    (rank[BY_SETTING] == REF_FITS_ANY && wish->setting_matters))
		return false;
	rank[BY_PERSON] = person_fit(row, &wish->person);
	if (rank[BY_PERSON] < 0)
		return false;
	rank[BY_SITE] = row->source_id < 0;
	rank[BY_SOURCE] = row->source_id < 0 ? 0 : -row->source_id;
	rank[BY_BAND] = -band(row);
	return true;
}

/* Above 0 where A is better than B. */
static int
compare(const int a[RANKS], const int b[RANKS])
{
	for (int i = 0; i < RANKS; i++)
		if (a[i] != b[i])
			return a[i] - b[i];
	return 0;
}

/*
 * The best of N rows and *BEST; among equals the first, of a site's own the
 * last, so that a table loaded later overrides.
 */
static void
choose(const struct ref_usual_row *rows, size_t n, const struct wish *wish,
    const struct ref_usual_row **best, int best_rank[RANKS])
{
	for (size_t i = 0; i < n; i++) {
		int rank[RANKS], better;

		if (!rank_row(&rows[i], wish, rank))
			continue;
		better = *best ? compare(rank, best_rank) : 1;
		if (better < 0 || (better == 0 && rows[i].source_id >= 0))
			continue;
		*best = &rows[i];
		memcpy(best_rank, rank, sizeof(rank));
	}
}

/*
 * True where the usual bound of SETTING is another than that without any: a
 * figure of no stated setting would then be of another range.
 */
static bool
setting_matters(int measurement, const char *setting)
{
	struct ref_bound with, without;

	ref_limits(measurement, setting, false, &with);
	ref_limits(measurement, "", false, &without);
	return with.has_usual && without.has_usual &&
	       with.usual != without.usual;
}

bool
ref_usual(int measurement, const char *setting, int mode,
    const struct ref_person *person, const char *source,
    const struct ref_site *site, struct ref_usual *out)
{
	const struct ref_usual_row *rows, *best = NULL;
	struct wish wish = {
	    measurement, setting, mode, {-1, -1}, source, false};
	int rank[RANKS];
	size_t n;

	rows = ref_usual_rows(measurement, &n);
	if (person)
		wish.person = *person;
	wish.setting_matters = setting_matters(measurement, setting);
	choose(rows, n, &wish, &best, rank);
	if (site)
		choose(site->at, site->len, &wish, &best, rank);
	if (!best)
		return false;
	*out = (struct ref_usual){best->low, best->high, best->at_least,
	    best->source, best->population, best->verified, best};
	return true;
}

const struct ref_usual_row *
ref_usual_rows(int measurement, size_t *n)
{
	*n = 0;
	if (measurement < 0 || measurement >= VOCAB_MEASUREMENT_COUNT)
		return ref_usual_table;
	*n = (size_t)ref_usual_first[measurement + 1] -
	     ref_usual_first[measurement];
	return ref_usual_table + ref_usual_first[measurement];
}

bool
ref_source_has_usual(const char *key)
{
	size_t n = ref_usual_first[VOCAB_MEASUREMENT_COUNT];

	for (size_t i = 0; i < n; i++)
		if (source_fits(&ref_usual_table[i], key))
			return true;
	return false;
}
