/* Usual values, tasks, end feels and how to measure, each with its source. */
#include "lsp/facts.h"

#include <string.h>

#include "calc/value.h"
#include "write/json.h"

enum { MOST_TASKS = 4 };

/* Signs that would be mark-up; a backslash before one makes it a sign. */
static const char marks[] = "\\`*_{}[]<>#|~";

void
wording_text(struct wording *p, const char *text, size_t len)
{
	for (size_t i = 0; i < len; i++) {
		if (p->markdown && text[i] && strchr(marks, text[i]))
			buffer_putc(&p->text, '\\');
		buffer_putc(&p->text, text[i]);
	}
}

void
wording_puts(struct wording *p, const char *text)
{
	wording_text(p, text, strlen(text));
}

void
wording_heading(struct wording *p, const char *text)
{
	if (p->text.len > 0)
		buffer_puts(&p->text, "\n\n");
	if (p->markdown)
		buffer_puts(&p->text, "**");
	wording_puts(p, text);
	buffer_puts(&p->text, p->markdown ? "**\n" : "\n");
}

void
wording_item(struct wording *p, const char *label)
{
	buffer_puts(&p->text, "\n- ");
	wording_puts(p, label);
	buffer_puts(&p->text, ": ");
}

static void
add_tenths(struct wording *p, int32_t tenths)
{
	char text[24];

	number_text((int64_t)tenths * 10, text);
	wording_puts(p, text);
}

static void
add_span(struct wording *p, int32_t low, int32_t high)
{
	add_tenths(p, low);
	if (high != low) {
		buffer_putc(&p->text, '-');
		add_tenths(p, high);
	}
}

/* " degrees", " mm", " points" */
static void
add_unit(struct wording *p, int measurement)
{
	static const char *const units[] = {[VOCAB_IN_DEG] = " degrees",
	    [VOCAB_IN_LENGTH] = " mm",
	    [VOCAB_IN_SCORE] = " points",
	    [VOCAB_IN_LEVEL] = ""};

	wording_puts(p, units[vocab_measurements[measurement].in]);
}

/* "(KEY; women 20-44; from memory)" */
static void
add_source(struct wording *p, const char *key, const char *people,
    const char *verified)
{
	const char *const parts[] = {
	    key, people, strcmp(verified, "yes") == 0 ? "" : verified};
	bool any = false;

	buffer_puts(&p->text, " (");
	for (int i = 0; i < 3; i++) {
		if (!parts[i] || !*parts[i])
			continue;
		if (any)
			buffer_puts(&p->text, "; ");
		wording_puts(p, parts[i]);
		any = true;
	}
	buffer_putc(&p->text, ')');
}

void
facts_usual(struct wording *p, int measurement, const char *setting, int mode,
    const struct ref_person *person)
{
	struct ref_usual usual;

	if (!ref_usual(measurement, setting, mode, person, NULL, NULL, &usual))
		return;
	wording_item(p, "usual");
	if (usual.at_least)
		wording_puts(p, "at least ");
	add_span(p, usual.low, usual.high);
	add_unit(p, measurement);
	add_source(p, usual.source, usual.population, usual.verified);
}

static void
add_task(struct wording *p, int measurement, const struct ref_functional *f)
{
	static const char *const words[] = {[REF_ARC] = "",
	    [REF_REACH] = "up to ",
	    [REF_BELOW] = "less than ",
	    [REF_POSTURE] = "held at "};

	wording_item(p, f->task);
	wording_puts(p, words[f->kind]);
	if (f->kind == REF_BELOW)
		add_tenths(p, f->high);
	else
		add_span(p, f->low, f->high);
	add_unit(p, measurement);
	if (*f->setting) {
		wording_puts(p, ", ");
		wording_puts(p, f->setting);
	}
	add_source(p, f->source, "", f->verified);
}

void
facts_tasks(struct wording *p, int measurement)
{
	size_t n;
	const struct ref_functional *f = ref_functional(measurement, &n);

	for (size_t i = 0; i < n && i < MOST_TASKS; i++)
		add_task(p, measurement, &f[i]);
}

void
facts_end_feels(struct wording *p, int measurement)
{
	const char *source;
	unsigned normal = ref_end_feels(measurement, &source);
	bool any = false;

	if (!normal)
		return;
	wording_item(p, "end feel, usually");
	for (int i = 0; i < VOCAB_END_FEEL_COUNT; i++) {
		if (!(normal >> i & 1))
			continue;
		if (any)
			wording_puts(p, " or ");
		wording_puts(p, vocab_name(VOCAB_CLASS_END_FEEL, i));
		any = true;
	}
	if (source)
		add_source(p, source, "", "yes");
}

void
facts_guide(struct wording *p, int measurement)
{
	const struct ref_guide *g = ref_guide(measurement);

	if (!g)
		return;
	const struct {
		const char *label, *text;
	} rows[] = {{"position", g->test_position}, {"hold", g->stabilise},
	    {"fulcrum", g->fulcrum}, {"stationary arm", g->stationary_arm},
	    {"moving arm", g->moving_arm}, {"start", g->start}, {"end", g->end},
	    {"watch for", g->substitutions}, {"do not", g->do_not},
	    {"write", g->write}, {"basis", g->basis}};

	wording_heading(p, "How it is measured");
	for (size_t i = 0; i < sizeof(rows) / sizeof(*rows); i++) {
		if (!rows[i].text || !*rows[i].text)
			continue;
		wording_item(p, rows[i].label);
		wording_puts(p, rows[i].text);
	}
}

void
facts_name(struct wording *p, int measurement)
{
	const struct vocab_measurement *m = &vocab_measurements[measurement];

	wording_puts(p, m->joint_name);
	buffer_putc(&p->text, ' ');
	wording_puts(p, m->motion_name);
}

void
facts_all(struct wording *p, int measurement)
{
	struct wording name = {.markdown = false};

	facts_name(&name, measurement);
	buffer_putc(&name.text, '\0');
	wording_heading(p, name.text.data);
	buffer_free(&name.text);
	facts_usual(p, measurement, "", -1, NULL);
	facts_tasks(p, measurement);
	facts_end_feels(p, measurement);
	facts_guide(p, measurement);
}

/* Words whose name does not tell a newcomer how they are used. */
static const struct {
	enum vocab_class class;
	int id;
	const char *means;
} meanings[] = {
    {VOCAB_CLASS_HEADER, VOCAB_HEADER_SESSION,
	"begins a session: date, perhaps time and a label"},
    {VOCAB_CLASS_HEADER, VOCAB_HEADER_SUBJECT,
	"begins a person: a code, never a name"},
    {VOCAB_CLASS_HEADER, VOCAB_HEADER_BORN, "the year of birth"},
    {VOCAB_CLASS_HEADER, VOCAB_HEADER_AGE, "the age in whole years"},
    {VOCAB_CLASS_HEADER, VOCAB_HEADER_SEX, "F, M or X"},
    {VOCAB_CLASS_HEADER, VOCAB_HEADER_DOMINANT, "the dominant side"},
    {VOCAB_CLASS_HEADER, VOCAB_HEADER_INVOLVED,
	"the sides and joints in question, or none"},
    {VOCAB_CLASS_HEADER, VOCAB_HEADER_OPPOSITE,
	"a side that cannot be measured for comparison: side, joints, "
	"unavailable, reason"},
    {VOCAB_CLASS_HEADER, VOCAB_HEADER_SURGERY, "its date, perhaps a text"},
    {VOCAB_CLASS_HEADER, VOCAB_HEADER_PRECAUTION,
	"what must not be done: joint, motion, mode, then max and a value, or "
	"no; from and until with a date; the reason as a text"},
    {VOCAB_CLASS_HEADER, VOCAB_HEADER_GOAL,
	"side, joint, motion, mode and value; by with a date"},
    {VOCAB_CLASS_HEADER, VOCAB_HEADER_REMARK, "a text"},
    {VOCAB_CLASS_HEADER, VOCAB_HEADER_RATER,
	"who measures, as a code; holds from this line on"},
    {VOCAB_CLASS_HEADER, VOCAB_HEADER_INSTRUMENT,
	"with what, and the step of its scale; holds from this line on"},
    {VOCAB_CLASS_HEADER, VOCAB_HEADER_MODE,
	"the mode of lines that name none; holds from this line on"},
    {VOCAB_CLASS_HEADER, VOCAB_HEADER_POSITION,
	"postures and settings until the next session"},
    {VOCAB_CLASS_HEADER, VOCAB_HEADER_REQUIRE,
	"what every reading must have, for students and examiners"},
    {VOCAB_CLASS_KEYWORD, VOCAB_KEYWORD_LACKS,
	"lacks 8: the motion stops 8 degrees short of zero"},
    {VOCAB_CLASS_KEYWORD, VOCAB_KEYWORD_HYPER,
	"hyper 10: extension of a hinge joint goes 10 degrees beyond zero"},
    {VOCAB_CLASS_KEYWORD, VOCAB_KEYWORD_FIXED,
	"fixed 30: the joint does not move and stands at 30 degrees"},
    {VOCAB_CLASS_KEYWORD, VOCAB_KEYWORD_LESS,
	"85 less 38: two inclinometer readings; the value is the difference"},
    {VOCAB_CLASS_KEYWORD, VOCAB_KEYWORD_PAIN,
	"pain 3: the score from 0 to 10; pain 3 at 40: where it began"},
    {VOCAB_CLASS_KEYWORD, VOCAB_KEYWORD_PAINFUL_ARC,
	"painful-arc 60-110: between these angles"},
    {VOCAB_CLASS_KEYWORD, VOCAB_KEYWORD_STOPPED_BY,
	"what ended the motion: pain, stiffness, weakness, guarding, "
	"apprehension, swelling"},
    {VOCAB_CLASS_KEYWORD, VOCAB_KEYWORD_AFTER,
	"after 3 reps: measured after repeated motion"},
    {VOCAB_CLASS_KEYWORD, VOCAB_KEYWORD_SUBSTITUTION,
	"a text: what moved instead"},
    {VOCAB_CLASS_KEYWORD, VOCAB_KEYWORD_BY,
	"the code of the rater of this reading; of a goal, its date"},
    {VOCAB_CLASS_KEYWORD, VOCAB_KEYWORD_WITH, "the instrument of this reading"},
    {VOCAB_CLASS_KEYWORD, VOCAB_KEYWORD_MAX, "no further than this"},
    {VOCAB_CLASS_KEYWORD, VOCAB_KEYWORD_NO, "not at all"},
    {VOCAB_CLASS_OUTCOME, VOCAB_OUTCOME_NOT_TESTED,
	"NT: give the reason as a text"},
    {VOCAB_CLASS_OUTCOME, VOCAB_OUTCOME_WNL,
	"within normal limits: nothing was measured, so it cannot be compared"},
    {VOCAB_CLASS_OUTCOME, VOCAB_OUTCOME_WFL,
	"within functional limits: nothing was measured, so it cannot be "
	"compared"},
    {VOCAB_CLASS_MODE, VOCAB_MODE_ACTIVE, "the person moves"},
    {VOCAB_CLASS_MODE, VOCAB_MODE_PASSIVE, "the examiner moves"},
    {VOCAB_CLASS_MODE, VOCAB_MODE_ASSISTED,
	"the person moves with help; counts as neither active nor passive"},
    {VOCAB_CLASS_MODE, VOCAB_MODE_PLACE_AND_HOLD,
	"placed by the examiner, held by the person; counts as active"},
    {VOCAB_CLASS_SETTING, VOCAB_SETTING_GRAVITY_ELIMINATED,
	"the weight of the limb is taken; active is against gravity unless "
	"this is said"},
};

void
facts_word(struct wording *p, enum vocab_class class, int id)
{
	for (size_t i = 0; i < sizeof(meanings) / sizeof(*meanings); i++)
		if (meanings[i].class == class && meanings[i].id == id)
			wording_puts(p, meanings[i].means);
	if (class == VOCAB_CLASS_END_FEEL && id < VOCAB_END_FEEL_COUNT &&
	    vocab_end_feel_abnormal[id])
		wording_puts(p, id == VOCAB_END_FEEL_EMPTY
				    ? "an abnormal end feel: pain stopped it "
				      "before any resistance; do not press on, "
				      "tell the referring practitioner"
				    : "an abnormal end feel");
}

void
facts_put(struct buffer *out, const struct wording *p)
{
	json_item(out);
	buffer_putc(out, '{');
	json_text_of(out, "kind", p->markdown ? "markdown" : "plaintext");
	json_name(out, "value");
	json_string(out, p->text.len ? p->text.data : "", p->text.len);
	buffer_putc(out, '}');
}
