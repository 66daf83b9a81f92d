#include "compare.h"

#include "../unit/read_note.h"

bool
compare_rules(const char *a, const char *b, bool (*aside)(enum rule))
{
	for (;;) {
		size_t an = strcspn(a, " "), bn = strcspn(b, " ");
		int ar = rule_find(a, an), br = rule_find(b, bn);

		if (aside && an > 0 && ar >= 0 && aside((enum rule)ar)) {
			a += an + (a[an] == ' ');
		} else if (aside && bn > 0 && br >= 0 && aside((enum rule)br)) {
			b += bn + (b[bn] == ' ');
		} else if (an != bn || memcmp(a, b, an) != 0) {
			return false;
		} else if (an == 0) {
			return true;
		} else {
			a += an + (a[an] == ' ');
			b += bn + (b[bn] == ' ');
		}
	}
}

void
compare_row(struct comparing c, const struct row *a, const struct row *b,
    bool (*aside)(enum rule))
{
	for (int i = 0; i < COL_FILE; i++) {
		bool same = strcmp(a->cell[i], b->cell[i]) == 0;

		if (i == COL_FINDINGS && !same)
			same = compare_rules(a->cell[i], b->cell[i], aside);
		EXPECT(same,
		    "seed %llu, %s: the row of line %u had %s '%s', now '%s'",
		    (unsigned long long)c.seed, c.what, (unsigned)a->line,
		    COLUMN_NAME(i), a->cell[i], b->cell[i]);
	}
}

void
compare_rows(struct comparing c, const struct read_note *part,
    const struct read_note *all, size_t from, uint32_t lines)
{
	for (size_t i = 0; i < part->rows.len; i++) {
		const struct row *a = &part->rows.at[i];
		const struct row *b;

		EXPECT(from + i < all->rows.len,
		    "seed %llu, %s: the row of line %u is lost",
		    (unsigned long long)c.seed, c.what, (unsigned)a->line);
		b = &all->rows.at[from + i];
		compare_row(c, a, b, NULL);
		EXPECT(a->line + lines == b->line,
		    "seed %llu, %s: the row of line %u is now of line %u",
		    (unsigned long long)c.seed, c.what,
		    (unsigned)(a->line + lines), (unsigned)b->line);
	}
}

/* The same words but for the numbers of lines. */
static bool
same_message(const char *a, const char *b)
{
	static const char line[] = "line ";
	size_t n = sizeof(line) - 1;

	while (*a && *a == *b) {
		bool number =
		    strncmp(a, line, n) == 0 && strncmp(b, line, n) == 0;

		a += number ? n : 1;
		b += number ? n : 1;
		for (; number && *a >= '0' && *a <= '9'; a++)
			;
		for (; number && *b >= '0' && *b <= '9'; b++)
			;
	}
	return *a == *b;
}

static bool
same_letters(const struct told *a, const struct told *b)
{
	return a->beg == b->beg && a->end == b->end &&
	       same_message(a->message, b->message);
}

/*
 * Written another way, a finding may stand in another column and quote other
 * words.
 */
void
compare_findings(struct comparing c, const struct read_note *part,
    const struct read_note *all, size_t from, uint32_t lines)
{
	for (size_t i = 0; i < part->findings.len; i++) {
		const struct told *a = &part->findings.at[i];
		const struct told *b = from + i < all->findings.len
					   ? &all->findings.at[from + i]
					   : NULL;

		EXPECT(b && a->rule == b->rule && a->level == b->level &&
			   a->accepted == b->accepted &&
			   a->unread == b->unread &&
			   a->line + lines == b->line &&
			   (!c.to_the_letter || same_letters(a, b)),
		    "seed %llu, %s: %s at line %u, now %s at line %u",
		    (unsigned long long)c.seed, c.what,
		    rule_table[a->rule].name, (unsigned)(a->line + lines),
		    b ? rule_table[b->rule].name : "nothing",
		    b ? (unsigned)b->line : 0);
	}
}

void
compare_notes(
    struct comparing c, const struct read_note *was, const struct read_note *is)
{
	compare_rows(c, was, is, 0, 0);
	compare_findings(c, was, is, 0, 0);
	EXPECT(is->rows.len == was->rows.len &&
		   is->findings.len == was->findings.len,
	    "seed %llu, %s: %zu rows and %zu findings, now %zu and %zu",
	    (unsigned long long)c.seed, c.what, was->rows.len,
	    was->findings.len, is->rows.len, is->findings.len);
}
