#include "diag/diag.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "text/mem.h"

void
sink_free(struct sink *sink)
{
	free(sink->at);
	arena_free(&sink->arena);
	*sink = (struct sink){0};
}

void
sink_reset(struct sink *sink)
{
	sink->len = 0;
	sink->last_text = NULL;
	sink->last_line = 0;
	arena_reset(&sink->arena);
}

static const char *
format_text(struct arena *arena, const char *format, va_list args)
{
	va_list again;
	char small[256];
	char *text;
	int len;

	va_copy(again, args);
	len = vsnprintf(small, sizeof(small), format, args);
	if (len < 0)
		len = 0;
	text = arena_alloc(arena, (size_t)len + 1);
	if ((size_t)len < sizeof(small))
		memcpy(text, small, (size_t)len + 1);
	else
		vsnprintf(text, (size_t)len + 1, format, again);
	va_end(again);
	return text;
}

/* The line goes with the finding, since the note may be gone when it prints */
static const char *
copy_line(struct sink *sink, const struct place *place)
{
	if (sink->last_line != place->line || !sink->last_text) {
		sink->last_text =
		    arena_text(&sink->arena, place->text, place->len);
		sink->last_line = place->line;
	}
	return sink->last_text;
}

struct finding *
sink_add(struct sink *sink, enum rule rule, const struct place *place,
    int reading, const char *format, ...)
{
	struct finding *f = arena_alloc(&sink->arena, sizeof(*f));
	va_list args;

	*f = (struct finding){.rule = rule,
	    .level = rule_table[rule].level,
	    .line = place->line,
	    .beg = place->beg,
	    .end = place->end,
	    .reading = reading,
	    .other = NO_READING};
	*MEM_PUSH(sink) = f;
	if (sink->names_only && rule_table[rule].group != RULES_READING)
		return f;
	f->source = copy_line(sink, place);
	f->source_len = place->len;
	va_start(args, format);
	f->message = format_text(&sink->arena, format, args);
	va_end(args);
	return f;
}

void
sink_hint(struct sink *sink, struct finding *finding, const char *format, ...)
{
	va_list args;

	if (!finding->message)
		return;
	va_start(args, format);
	finding->hint = format_text(&sink->arena, format, args);
	va_end(args);
}

static int
order(uint32_t a, uint32_t b)
{
	return (a > b) - (a < b);
}

int
finding_order(const struct finding *a, const struct finding *b)
{
	int cmp = order(a->line, b->line);

	if (cmp == 0)
		cmp = order(a->beg, b->beg);
	if (cmp == 0)
		cmp =
		    strcmp(rule_table[a->rule].name, rule_table[b->rule].name);
	if (cmp == 0)
		cmp = (a->reading > b->reading) - (a->reading < b->reading);
	return cmp;
}

static int
by_place(const void *a, const void *b)
{
	return finding_order(
	    *(struct finding *const *)a, *(struct finding *const *)b);
}

void
sink_sort(struct sink *sink)
{
	if (sink->len > 1)
		qsort(sink->at, sink->len, sizeof(*sink->at), by_place);
}

bool
finding_same(const struct finding *a, const struct finding *b)
{
	return a->line == b->line && a->beg == b->beg && a->rule == b->rule &&
	       (a->reading != NO_READING || b->reading != NO_READING);
}
