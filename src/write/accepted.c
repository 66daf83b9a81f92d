/*
 * A session keeps of an acceptance where its rule stands; the reason is what
 * follows the colon, to the end of that line.
 */
#include "write/accepted.h"

#include <string.h>

static bool
is_blank(char c)
{
	return c == ' ' || c == '\t';
}

/* Between a rule and the colon stand only further rules. */
static struct text_ref
reason_of(const struct session *s, const struct acceptance *a)
{
	const char *text = s->text.data, *end = text + s->text.len;
	const char *beg = text + a->line_at + a->end;
	const char *stop = memchr(beg, '\n', (size_t)(end - beg));

	end = stop ? stop : end;
	beg = memchr(beg, ':', (size_t)(end - beg));
	if (!beg)
		return (struct text_ref){0, 0};
	beg++;
	while (beg < end && is_blank(*beg))
		beg++;
	while (end > beg && is_blank(end[-1]))
		end--;
	return (struct text_ref){(uint32_t)(beg - text), (uint32_t)(end - beg)};
}

struct text_ref
accepted_reason(const struct session *s, const struct finding *f, size_t *at)
{
	const struct acceptance *all = s->acceptances.at;
	size_t n = s->acceptances.len;

	/* The targets ascend, but for those that found no line: they end it. */
	while (*at < n && all[*at].target != 0 && all[*at].target < f->line)
		++*at;
	for (size_t i = *at; i < n && all[i].target == f->line; i++)
		if (all[i].rule == (int)f->rule && all[i].has_reason)
			return reason_of(s, &all[i]);
	return (struct text_ref){0, 0};
}
