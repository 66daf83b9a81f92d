#include "syntax/acceptance.h"

#include <string.h>
#include <strings.h>

#include "text/mem.h"

enum { MOST_RULES = 16 }; /* in one comment */

static const char *
skip_blanks(const char *p, const char *end)
{
	while (p < end && (*p == ' ' || *p == '\t'))
		p++;
	return p;
}

static const char *
skip_name(const char *p, const char *end)
{
	while (p < end && ((*p >= 'a' && *p <= 'z') || *p == '-'))
		p++;
	return p;
}

/* `accept` behind the #, with a blank behind it; NULL where it is not there */
static const char *
skip_accept(const char *p, const char *end)
{
	static const char word[] = "accept";
	size_t len = sizeof(word) - 1;

	p = skip_blanks(p, end);
	if ((size_t)(end - p) <= len || strncasecmp(p, word, len) != 0 ||
	    (p[len] != ' ' && p[len] != '\t'))
		return NULL;
	return skip_blanks(p + len, end);
}

const char *
acceptance_names_end(const char *comment, const char *stop)
{
	const char *p = skip_accept(comment + 1, stop);

	while (p) {
		const char *end = skip_name(p, stop);

		if (end == p)
			return NULL;
		p = skip_blanks(end, stop);
		if (p == stop || *p == ':')
			return end;
		if (*p != ',')
			return NULL;
		p = skip_blanks(p + 1, stop);
	}
	return NULL;
}

void
acceptance_read(struct session *s, uint32_t line, uint32_t line_at,
    uint32_t beg, uint32_t end, uint32_t target)
{
	const char *text = s->text.data + line_at;
	const char *stop = text + end;
	const char *p = skip_accept(text + beg + 1, stop);
	struct acceptance found[MOST_RULES];
	size_t n = 0;
	bool reason = false;

	while (p && n < MOST_RULES) {
		const char *name = p;

		p = skip_name(name, stop);
		if (p == name)
			return;
		found[n++] = (struct acceptance){.target = target,
		    .rule = rule_find(name, (size_t)(p - name)),
		    .line = line,
		    .line_at = line_at,
		    .beg = (uint16_t)(name - text),
		    .end = (uint16_t)(p - text)};
		p = skip_blanks(p, stop);
		if (p == stop)
			break;
		if (*p == ':') {
			reason = skip_blanks(p + 1, stop) < stop;
			break;
		}
		if (*p != ',')
			return;
		p = skip_blanks(p + 1, stop);
	}
	for (size_t i = 0; i < n; i++) {
		found[i].has_reason = reason;
		*MEM_PUSH(&s->acceptances) = found[i];
	}
}
