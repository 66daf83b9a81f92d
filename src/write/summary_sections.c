/*
 * The sections below the table of the text summary. One table lists them: a
 * new one is a function and a row.
 */
#include <string.h>

#include "write/accepted.h"
#include "write/findings.h"
#include "write/summary_text.h"
#include "write/summary_totals.h"
#include "write/wrap.h"

/* One entry of a section: what lies in the scratch. */
static void
entry(struct summary *sum, struct buffer *out)
{
	enum { FIRST = SUMMARY_INDENT + 2, REST = SUMMARY_INDENT + 4 };
	struct buffer *line = &sum->scratch;

	buffer_pad(out, ' ', FIRST);
	wrap_text(out, line->data, line->len, FIRST, REST);
	buffer_putc(out, '\n');
	line->len = 0;
}

static void
add_quoted(struct buffer *line, const char *text)
{
	if (text)
		buffer_printf(line, " \"%s\"", text);
}

static void
add_not_tested(struct summary *sum, struct buffer *out)
{
	const struct session *s = sum->s;
	struct buffer *line = &sum->scratch;

	for (size_t i = 0; i < s->readings.len; i++) {
		const struct reading *r = &s->readings.at[i];
		const struct vocab_measurement *m = reading_measurement(r);

		if (r->kind != KIND_NOT_TESTED)
			continue;
		buffer_printf(line, "%s %s", m->joint_name, m->motion_name);
		if (r->setting)
			buffer_printf(
			    line, " %s", intern_text(s->pool, r->setting));
		if (r->side >= 0 || r->mode >= 0)
			buffer_putc(line, ' ');
		summary_name_reading(line, r);
		buffer_puts(line, r->texts > 0 ? ":" : ": no reason given");
		for (uint32_t k = 0; k < r->texts; k++) {
			struct text_ref text =
			    s->texts.at[r->first_text + k].text;

			buffer_printf(line, " \"%.*s\"", (int)text.len,
			    session_text(s, text));
		}
		entry(sum, out);
	}
	for (int i = 0; i < 2; i++) {
		const struct headers *h = SUMMARY_HEADERS(s, i);

		for (size_t k = 0; k < h->opposites.len; k++) {
			summary_joints(line, &h->opposites.at[k].joints);
			buffer_puts(line, ": cannot be measured");
			add_quoted(line, h->opposites.at[k].reason);
			entry(sum, out);
		}
	}
}

static void
add_precautions(struct summary *sum, struct buffer *out)
{
	for (int i = 0; i < 2; i++) {
		const struct headers *h = SUMMARY_HEADERS(sum->s, i);

		for (size_t k = 0; k < h->precautions.len; k++) {
			const struct precaution *p = &h->precautions.at[k];

			if (!precaution_holds(p, sum->s, true))
				continue;
			summary_precaution(&sum->scratch, p);
			entry(sum, out);
		}
	}
}

static void
add_match(struct summary *sum, const struct goal *goal,
    const struct summary_goal *match)
{
	bool less = vocab_measurements[goal->measurement].less_is_better;
	struct buffer *line = &sum->scratch;
	struct mean beyond = {-match->to_go.sum, match->to_go.n};

	buffer_puts(line, "now ");
	if (goal->mode < 0 && match->reading->mode >= 0)
		buffer_printf(
		    line, "%s ", summary_mode_name(match->reading->mode));
	summary_value(line, sum->s, match->reading);
	if (match->reading->left_out)
		buffer_puts(line, " (doubtful)");
	if (match->c->setting)
		buffer_printf(
		    line, " %s", intern_text(sum->s->pool, match->c->setting));
	if (match->c->reps != NO_VALUE)
		buffer_printf(line, " after %d reps", (int)match->c->reps);
	if (match->to_go.n == 0)
		return;
	buffer_puts(line, ", ");
	if (match->to_go.sum > 0) {
		summary_number(line, match->to_go);
		summary_unit(line, goal->unit);
		buffer_puts(line, " to go");
	} else {
		buffer_puts(line, "reached");
		if (beyond.sum > 0) {
			buffer_puts(line, ", ");
			summary_number(line, beyond);
			summary_unit(line, goal->unit);
			buffer_puts(line, " beyond it");
		}
	}
	if (less)
		buffer_puts(line, " (less is better)");
}

static void
add_goal(
    struct summary *sum, struct buffer *out, const struct goal *goal, int side)
{
	struct summary_goal found[SUMMARY_GOAL_MATCHES];
	size_t n = summary_goal_matches(sum, goal, side, found);
	struct buffer *line = &sum->scratch;

	summary_goal_words(line, goal, side);
	buffer_puts(line, ": ");
	for (size_t i = 0; i < n; i++) {
		if (i > 0)
			buffer_puts(line, "; ");
		add_match(sum, goal, &found[i]);
	}
	if (n == SUMMARY_GOAL_MATCHES)
		buffer_puts(line, "; for any more see the table");
	if (n == 0)
		buffer_puts(line, "not measured in this session");
	entry(sum, out);
}

static void
add_goals(struct summary *sum, struct buffer *out)
{
	for (int i = 0; i < 2; i++) {
		const struct headers *h = SUMMARY_HEADERS(sum->s, i);

		for (size_t k = 0; k < h->goals.len; k++) {
			const struct goal *goal = &h->goals.at[k];

			for (int side = 0; side < VOCAB_SIDE_COUNT; side++)
				if (goal->side[side])
					add_goal(sum, out, goal, side);
			if (!goal->side[0] && !goal->side[1])
				add_goal(sum, out, goal, NONE);
		}
	}
}

static void
add_remarks(struct summary *sum, struct buffer *out)
{
	for (int i = 0; i < 2; i++) {
		const struct headers *h = SUMMARY_HEADERS(sum->s, i);

		for (size_t k = 0; k < h->remarks.len; k++) {
			buffer_puts(&sum->scratch, h->remarks.at[k].text);
			entry(sum, out);
		}
	}
}

/*
 * As readers of papers name it: author and year; else where it was published;
 * else its key, which a site's own table gives.
 */
static void
add_source_name(struct buffer *line, const char *key)
{
	const struct ref_source *source = ref_source_find(key);

	if (source && source->author[0])
		buffer_printf(line, "%s%s%s", source->author,
		    source->year[0] ? " " : "", source->year);
	else
		buffer_puts(line,
		    source && source->published[0] ? source->published : key);
}

static void
add_sources(struct summary *sum, struct buffer *out)
{
	struct buffer *line = &sum->scratch;

	for (size_t i = 0; i < sum->sources.len; i++) {
		const struct summary_source *source = &sum->sources.at[i];

		buffer_printf(line, "[%zu] ", i + 1);
		add_source_name(line, source->key);
		if (source->population[0])
			buffer_printf(line, ": %s", source->population);
		if (strcmp(source->verified, "yes") != 0)
			buffer_printf(line, " (%s)", source->verified);
		entry(sum, out);
	}
}

static void
finding_words(struct summary *sum, const struct finding *f)
{
	const struct findings_colours *colours =
	    sum->options->colour ? &findings_coloured : &findings_plain;
	struct buffer *line = &sum->scratch;

	buffer_printf(line, "line %u: %s%s:%s ",
	    (unsigned)(f->line ? f->line : 1), colours->level[f->level],
	    level_name(f->level), colours->reset);
	findings_message(line, f);
	buffer_printf(line, " [%s]", rule_table[f->rule].name);
}

static void
add_accepted(struct summary *sum, struct buffer *out)
{
	struct buffer *line = &sum->scratch;
	size_t at = 0;

	for (size_t i = 0; i < sum->sink->len; i++) {
		const struct finding *f = sum->sink->at[i];
		struct text_ref reason;

		if (!accepted_shown(f) || findings_told(sum->sink, i))
			continue;
		reason = accepted_reason(sum->s, f, &at);
		finding_words(sum, f);
		if (reason.len > 0) {
			buffer_puts(line, "; accepted: \"");
			findings_safe(
			    line, session_text(sum->s, reason), reason.len);
			buffer_putc(line, '"');
		} else {
			buffer_puts(line, "; accepted without a reason");
		}
		entry(sum, out);
	}
}

static void
add_findings(struct summary *sum, struct buffer *out)
{
	for (size_t i = 0; i < sum->sink->len; i++) {
		if (!findings_shown(sum->sink->at[i]) ||
		    findings_told(sum->sink, i))
			continue;
		finding_words(sum, sum->sink->at[i]);
		entry(sum, out);
	}
}

void
summary_sections(struct summary *sum, struct buffer *out)
{
	static const struct section {
		const char *title;
		void (*write)(struct summary *, struct buffer *);
	} sections[] = {
	    {"not tested", add_not_tested},
	    {"precautions in force", add_precautions},
	    {"beyond a precaution, accepted in the note", add_accepted},
	    {"goals", add_goals},
	    {"remarks", add_remarks},
	    {"totals", summary_totals},
	    {"usual values", add_sources},
	    {"open findings", add_findings},
	};

	sum->scratch.len = 0;
	for (size_t i = 0; i < sizeof(sections) / sizeof(*sections); i++) {
		size_t before = out->len, title;

		buffer_printf(out, "\n  %s\n", sections[i].title);
		title = out->len;
		sections[i].write(sum, out);
		if (out->len == title)
			out->len = before; /* nothing to say */
	}
}
