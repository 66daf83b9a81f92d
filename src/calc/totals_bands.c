/*
 * What published tables say of totals: bands, thresholds, cut-offs. They are
 * kept as their sources give them, gaps and contradictions included; nothing
 * here decides which of them is right. `state` says how far each was seen.
 */
#include "calc/totals.h"

#include <ctype.h>
#include <string.h>
#include <strings.h>

#define KIND(name) (1u << TOTAL_KIND_##name)
#define TENDON "a repaired tendon", "tendon"

const struct band_system band_systems[] = {
    {"ASSH", KIND(FINGER), true,
	"75 and 50 themselves are in no band; above 100 none is given",
	"handlab.com, Clinical Pearl 18, 2012", "read at second hand",
	{{1000, 1000, false, false, "excellent", "100"},
	    {750, 1000, true, true, "good", "over 75, under 100"},
	    {500, 750, true, true, "fair", "over 50, under 75"},
	    {0, 500, false, true, "poor", "under 50"}},
	NULL, NULL},
    {"total motion table", KIND(FINGER), false, "whole degrees only",
	"eatonhand.com clf217", "read at second hand",
	{{2200, 2600, false, false, "excellent", "220-260"},
	    {1800, 2190, false, false, "good", "180-219"},
	    {1300, 1790, false, false, "fair", "130-179"},
	    {0, 1300, false, true, "poor", "under 130"}},
	NULL, NULL},
    {"total motion table", KIND(THUMB), false,
	"80 to 97 are in no band as it is printed", "eatonhand.com clf217",
	"read at second hand",
	{{1190, 1400, false, false, "excellent", "119-140"},
	    {980, 1180, false, false, "good", "98-118"},
	    {700, 790, false, false, "fair", "70-79"},
	    {0, 700, false, true, "poor", "under 70"}},
	NULL, NULL},
    {"burn rating", KIND(FINGER), false, "whole degrees only",
	"a medical formula page (after Johnson et al)", "read at second hand",
	/* Its word for 260 is a verdict that the program does not print. */
	{{2600, 2600, false, false, "full range", "260"},
	    {2200, 2590, false, false, "excellent", "220-259"},
	    {1800, 2190, false, false, "good", "180-219"},
	    {0, 1800, false, true, "poor", "under 180"}},
	"a burned hand", "burn"},
    {"Strickland-Glogovac 1980", KIND(TWO_JOINTS), true,
	"whole percent only: between two bands there is none",
	"handlab.com; handsurgskills.com", "read at second hand",
	{{850, 1000, false, false, "excellent", "85-100"},
	    {700, 840, false, false, "good", "70-84"},
	    {500, 690, false, false, "fair", "50-69"},
	    {0, 500, false, true, "poor", "under 50"}},
	TENDON},
    {"Strickland-Glogovac 1980", KIND(TWO_JOINTS), false,
	"150 itself is in no band", "handlab.com; handsurgskills.com",
	"read at second hand",
	{{1500, INT32_MAX, true, false, "excellent", "over 150"},
	    {1250, 1490, false, false, "good", "125-149"},
	    {900, 1240, false, false, "fair", "90-124"},
	    {0, 900, false, true, "poor", "under 90"}},
	TENDON},
    {"Strickland adjusted 1985", KIND(TWO_JOINTS), true,
	"whole percent only: between two bands there is none", NULL,
	"from memory, not verified",
	{{750, 1000, false, false, "excellent", "75-100"},
	    {500, 740, false, false, "good", "50-74"},
	    {250, 490, false, false, "fair", "25-49"},
	    {0, 240, false, false, "poor", "0-24"}},
	TENDON},
};
const size_t band_system_count = sizeof(band_systems) / sizeof(*band_systems);

_Static_assert(
    sizeof(band_systems) / sizeof(*band_systems) <= BAND_SYSTEMS_MOST,
    "sets of band systems are bits");

/* A word of TEXT begins with WORD, in capitals or not: "burn", "burned". */
static bool
tells_of(const char *text, const char *word)
{
	size_t len = strlen(word);
	bool inside = false;

	for (; text && *text; text++) {
		if (!inside && strncasecmp(text, word, len) == 0)
			return true;
		inside = isalpha((unsigned char)*text);
	}
	return false;
}

/* Does the surgery in force, or a remark of person or session? */
static bool
session_tells_of(const struct session *s, const char *word)
{
	const struct headers *all[] = {&s->person->headers, &s->headers};
	const struct fact *surgery = SESSION_FACT(s, surgery);
	const struct headers *said =
	    s->headers.surgery.said != SAID_NOTHING ? all[1] : all[0];

	if (surgery->said == SAID &&
	    (s->said != SAID || surgery->value <= s->day) &&
	    tells_of(said->surgery_text, word))
		return true;
	for (int i = 0; i < 2; i++)
		for (size_t k = 0; k < all[i]->remarks.len; k++)
			if (tells_of(all[i]->remarks.at[k].text, word))
				return true;
	return false;
}

unsigned
bands_for(const struct session *s)
{
	unsigned systems = 0;

	for (size_t i = 0; i < band_system_count; i++)
		if (!band_systems[i].word ||
		    session_tells_of(s, band_systems[i].word))
			systems |= 1u << i;
	return systems;
}

bool
total_is_graded(const struct session *s, const struct total *t)
{
	const struct total_definition *d = &total_definitions[t->definition];

	return t->sum.n > 0 && t->mode == VOCAB_MODE_ACTIVE && t->side >= 0 &&
	       session_involves(s, d->part[0].measurement, t->side) == 1;
}

const struct band *
total_band(const struct total *t, const struct band_system *system)
{
	int32_t of = total_definitions[t->definition].reference;
	struct mean value =
	    system->percent ? total_percent(t->sum, of) : t->sum;

	if (value.n == 0)
		return NULL;
	for (const struct band *b = system->bands; b->grade; b++) {
		int low = mean_compare_to(value, b->lower);
		int high = mean_compare_to(value, b->upper);

		if ((b->above ? low > 0 : low >= 0) &&
		    (b->below ? high < 0 : high <= 0))
			return b;
	}
	return NULL;
}

/* --- shoulder rotation ---------------------------------------------------- */

const struct threshold thresholds[] = {
    {THRESHOLD_INTERNAL_LOSS, 180, 200, false, "over 18-20", "Manske 2013",
	"abstract read"},
    {THRESHOLD_INTERNAL_LOSS, 200, 200, true, "20 or more", "Wilk 2011",
	"abstract read"},
    {THRESHOLD_INTERNAL_LOSS, 250, 250, true, "25 or more",
	"a review of 2015 (JAAOS 23:789)", "abstract read"},
    {THRESHOLD_INTERNAL_LOSS_PERCENT, 200, 200, false, "over 20 %",
	"anatomia-fisioterapia.es on Manske 2013", "read at second hand"},
    {THRESHOLD_ARC_LOSS, 50, 50, false, "over 5", "Wilk 2011, Manske 2013",
	"abstracts read"},
    {THRESHOLD_ARC_LOSS_PERCENT, 100, 100, false, "over 10 %",
	"anatomia-fisioterapia.es on Manske 2013", "read at second hand"},
    {THRESHOLD_ARC_LOSS_PERCENT, 100, 100, true, "10 % or more",
	"Burkhart 2003", "from memory, not verified"},
};
const size_t threshold_count = sizeof(thresholds) / sizeof(*thresholds);

enum reach
threshold_reach(const struct threshold *t, struct mean value)
{
	int low = mean_compare_to(value, t->low);
	int high = mean_compare_to(value, t->high);

	if (t->or_equal ? high >= 0 : high > 0)
		return REACH_YES;
	return t->low != t->high && low >= 0 ? REACH_WITHIN : REACH_NO;
}

/* --- generalised joint laxity --------------------------------------------- */

const struct laxity_cutoff laxity_cutoffs[] = {
    {"children and adolescents before puberty", 6,
	"PMC7785693 and PMC8469247, after Malfait 2017", "read"},
    {"from puberty to age 50", 5,
	"PMC7785693 and PMC8469247, after Malfait 2017", "read"},
    {"over 50", 4, "PMC7785693 and PMC8469247, after Malfait 2017", "read"},
    {"any age, the criteria of 1998", 4, "PMC4596461 table 2", "read"},
};
const size_t laxity_cutoff_count =
    sizeof(laxity_cutoffs) / sizeof(*laxity_cutoffs);

/* Mode wanted first; NONE after it: none other will do. */
static const struct {
	int measurement;
	int32_t limit;
	bool passive_only;
} laxity_parts[] = {
    {VOCAB_MEASUREMENT_LITTLE_MCP_EXTENSION, 900, true},
    {VOCAB_MEASUREMENT_ELBOW_EXTENSION, 100, false},
    {VOCAB_MEASUREMENT_KNEE_EXTENSION, 100, false},
};
enum { LAXITY_JOINTS = sizeof(laxity_parts) / sizeof(*laxity_parts) };

/* Passive before active; a second reading of the better mode is one too many.
 */
static void
take(struct laxity_part *part, const struct session *s, const struct reading *r)
{
	bool passive = r->mode == VOCAB_MODE_PASSIVE;

	if (part->state != PART_MISSING && part->mode == r->mode) {
		part->state = PART_TWICE;
		return;
	}
	if (part->mode == VOCAB_MODE_PASSIVE && !passive)
		return;
	part->mode = r->mode;
	part->state = r->left_out ? PART_DOUBTFUL : PART_FIGURE;
	part->end = mean_end(s, r);
}

static void
judge(struct laxity *laxity)
{
	for (int i = 0; i < LAXITY_PARTS; i++) {
		struct laxity_part *part = &laxity->part[i];
		int order;

		if (part->state != PART_FIGURE)
			continue;
		order = mean_compare_to(part->end, part->limit);
		part->over = order > 0;
		part->reached = order >= 0;
		laxity->recorded++;
		laxity->over += part->over;
		laxity->reached += part->reached;
	}
	for (size_t j = 0; j < LAXITY_JOINTS; j++)
		laxity->joints += laxity->part[2 * j].state == PART_FIGURE ||
				  laxity->part[2 * j + 1].state == PART_FIGURE;
}

void
laxity_read(struct laxity *laxity, const struct session *s)
{
	*laxity = (struct laxity){.recorded = 0};
	for (int i = 0; i < LAXITY_PARTS; i++)
		laxity->part[i] = (struct laxity_part){
		    .measurement = laxity_parts[i / 2].measurement,
		    .side = i % 2,
		    .mode = NONE,
		    .state = PART_MISSING,
		    .limit = laxity_parts[i / 2].limit};
	for (size_t i = 0; i < s->readings.len; i++) {
		const struct reading *r = &s->readings.at[i];
		bool passive = r->mode == VOCAB_MODE_PASSIVE;

		if (r->trials == 0 || r->side < 0 ||
		    (!passive && r->mode != VOCAB_MODE_ACTIVE))
			continue;
		for (int j = 0; j < LAXITY_JOINTS; j++)
			if (laxity_parts[j].measurement == r->measurement &&
			    (passive || !laxity_parts[j].passive_only))
				take(&laxity->part[2 * j + r->side], s, r);
	}
	judge(laxity);
}
