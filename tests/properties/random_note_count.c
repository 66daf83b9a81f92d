/*
 * What notes made at random hold, so that a test can ask whether each kind
 * really came: what is never made is never tried.
 */
#include "random_note.h"

const char *const made_kind_names[MADE_KINDS] = {
    [HOLDS_LINE_SETTING] = "a setting on a line",
    [HOLDS_LINE_SETTINGS] = "two settings on a line",
    [HOLDS_HEADER_SETTING] = "a setting of the header",
    [HOLDS_HEADER_NOT_SERVING] = "a header's setting that the motion lacks",
    [HOLDS_HEADER_GIVES_WAY] = "a header's setting of the kind of the line's",
    [HOLDS_HEADER_ADDED] = "a header's setting beside the line's",
    [HOLDS_HEADER_ENDED] = "a position header that a session ends",
    [HOLDS_HEADER_POSTURE] = "a posture of the header",
    [HOLDS_LINE_POSTURE] = "a posture in the place of the header's",
    [HOLDS_DIGIT_WHOLE] = "several joints of a digit",
    [HOLDS_DIGIT_MOTION] = "several joints of a digit, of one motion",
    [HOLDS_DIGIT_SETTING] = "a setting of several joints of a digit",
    [HOLDS_DIGIT_BOTH_SIDES] = "several joints of a digit, of both sides",
    [HOLDS_DIGIT_BOTH_MODES] = "several joints of a digit, in both modes",
    [HOLDS_MOTION_NOT_TESTED] = "NT of a motion",
    [HOLDS_MOTION_WNL] = "WNL of a motion",
    [HOLDS_MOTION_WFL] = "WFL of a motion",
    [HOLDS_WHOLE_NOT_TESTED] = "NT of a whole hinge",
    [HOLDS_WHOLE_WNL] = "WNL of a whole hinge",
    [HOLDS_WHOLE_WFL] = "WFL of a whole hinge",
    [HOLDS_MEASURE_NOT_TESTED] = "NT of a named measure",
    [HOLDS_MEASURE_WNL] = "WNL of a named measure",
    [HOLDS_MEASURE_WFL] = "WFL of a named measure",
    [HOLDS_BOTH_OUTCOME] = "both sides not tested or within limits",
    [HOLDS_BOTH_ZERO] = "both sides 0"};

static void
count_value(struct made_counts *counts, const struct made_line *line,
    const struct made_value *v)
{
	int of = made_measurement(v)->measure >= 0 ? HOLDS_MEASURE_NOT_TESTED
		 : line->whole			   ? HOLDS_WHOLE_NOT_TESTED
						   : HOLDS_MOTION_NOT_TESTED;

	counts->measurements[v->measurement]++;
	counts->forms[v->form]++;
	if (made_is_outcome(v))
		counts->kinds[of + (int)v->form - (int)MADE_NOT_TESTED]++;
	if (v->side == MADE_BOTH)
		counts->kinds[made_is_outcome(v) ? HOLDS_BOTH_OUTCOME
						 : HOLDS_BOTH_ZERO]++;
}

static void
count_digit(struct made_counts *counts, const struct made_line *line)
{
	uint64_t joints = 0;
	unsigned sides = 0, modes = 0;

	if (line->digit < 0)
		return;
	for (uint32_t i = 0; i < line->n; i++) {
		const struct made_value *v = &line->values[i];

		joints |= UINT64_C(1) << made_measurement(v)->joint;
		sides |= v->side == MADE_BOTH ? 3u : 1u << v->side;
		if (!made_is_without_mode(v))
			modes |= 1u << v->mode;
	}
	counts->digits[line->digit]++;
	if (!(joints & (joints - 1)))
		return;
	counts->kinds[line->whole ? HOLDS_DIGIT_WHOLE : HOLDS_DIGIT_MOTION]++;
	counts->kinds[HOLDS_DIGIT_SETTING] += line->positions.n > 0;
	counts->kinds[HOLDS_DIGIT_BOTH_SIDES] += (sides & (sides - 1)) != 0;
	counts->kinds[HOLDS_DIGIT_BOTH_MODES] += (modes & (modes - 1)) != 0;
}

/* HEADER is in force for the line. */
static void
count_positions(struct made_counts *counts, const struct made_line *line,
    const struct made_positions *header)
{
	const struct made_positions *p = &line->positions;
	uint64_t families = made_measurement(&line->values[0])->settings;

	counts->kinds[HOLDS_LINE_SETTING] += p->n == 1;
	counts->kinds[HOLDS_LINE_SETTINGS] += p->n > 1;
	if (header->posture >= 0)
		counts->kinds[p->posture < 0 ? HOLDS_HEADER_POSTURE
					     : HOLDS_LINE_POSTURE]++;
	for (uint32_t i = 0; i < header->n; i++) {
		uint64_t family = made_setting_family(&header->settings[i]);
		enum made_kind kind =
		    !(family & families) ? HOLDS_HEADER_NOT_SERVING
		    : made_positions_exclude(p, family) ? HOLDS_HEADER_GIVES_WAY
		    : p->n > 0				? HOLDS_HEADER_ADDED
							: HOLDS_HEADER_SETTING;

		counts->kinds[kind]++;
	}
}

static void
count_session(struct made_counts *counts, const struct made_session *s,
    struct made_positions *header)
{
	bool ended = !made_positions_empty(header);

	*header = (struct made_positions){.posture = -1};
	for (uint32_t k = 0; k < s->n; k++) {
		const struct made_line *line = &s->lines[k];

		if (!made_positions_empty(&line->header)) {
			*header = line->header;
			ended = false;
		}
		if (line->n == 0)
			continue;
		counts->kinds[HOLDS_HEADER_ENDED] += ended;
		ended = false;
		count_digit(counts, line);
		count_positions(counts, line, header);
		for (uint32_t i = 0; i < line->n; i++)
			count_value(counts, line, &line->values[i]);
	}
}

void
made_note_count(struct made_counts *counts, const struct made_note *made)
{
	struct made_positions header = {.posture = -1};

	for (uint32_t i = 0; i < made->n; i++)
		count_session(counts, &made->sessions[i], &header);
}
