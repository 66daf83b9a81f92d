#include "calc/value.h"

struct mean
mean_end(const struct session *s, const struct reading *r)
{
	const struct trial *t = reading_trials(s, r);
	struct mean m = {0, r->trials};

	for (uint32_t i = 0; i < r->trials; i++)
		m.sum += t[i].end;
	return m;
}

struct mean
mean_start(const struct session *s, const struct reading *r)
{
	const struct trial *t = reading_trials(s, r);
	struct mean m = {0, r->trials};

	for (uint32_t i = 0; i < r->trials; i++) {
		if (t[i].start == NO_VALUE)
			return (struct mean){0, 0};
		m.sum += t[i].start;
	}
	return m;
}

struct mean
mean_less(struct mean a, struct mean b)
{
	if (a.n == 0 || b.n == 0)
		return (struct mean){0, 0};
	if (a.n == b.n)
		return (struct mean){a.sum - b.sum, a.n};
	return (struct mean){a.sum * b.n - b.sum * a.n, a.n * b.n};
}

struct mean
mean_arc(const struct session *s, const struct reading *r)
{
	return mean_less(mean_end(s, r), mean_start(s, r));
}

int
mean_compare(struct mean a, struct mean b)
{
	int64_t left = a.sum * b.n, right = b.sum * a.n;

	return (left > right) - (left < right);
}

int
mean_compare_to(struct mean a, int32_t tenths)
{
	return mean_compare(a, (struct mean){tenths, 1});
}

int64_t
mean_hundredths(struct mean m)
{
	int64_t sum = m.sum * 10;
	int64_t whole = sum / m.n;
	int64_t rest = sum % m.n;

	if (rest < 0)
		rest = -rest;
	if (rest * 2 >= m.n)
		whole += sum < 0 ? -1 : 1;
	return whole;
}

struct mean
mean_in_base_unit(struct mean m, int unit)
{
	if (unit == VOCAB_UNIT_CM)
		m.sum *= 10;
	return m;
}

static bool
is_length(int unit)
{
	return unit == VOCAB_UNIT_MM || unit == VOCAB_UNIT_CM;
}

int
unit_of_both(int a, int b)
{
	if (a == b)
		return a;
	return is_length(a) && is_length(b) ? VOCAB_UNIT_MM : UNKNOWN;
}

struct mean
mean_in_unit(struct mean m, int from, int to)
{
	if (from == to)
		return m;
	m = mean_in_base_unit(m, from);
	if (to == VOCAB_UNIT_CM)
		m.n *= 10;
	return m;
}

bool
trial_ends(const struct session *s, const struct reading *r, int32_t *least,
    int32_t *greatest)
{
	const struct trial *t = reading_trials(s, r);

	if (r->trials == 0)
		return false;
	*least = *greatest = t[0].end;
	for (uint32_t i = 1; i < r->trials; i++) {
		if (t[i].end < *least)
			*least = t[i].end;
		if (t[i].end > *greatest)
			*greatest = t[i].end;
	}
	return true;
}

size_t
number_text(int64_t hundredths, char out[24])
{
	uint64_t left =
	    hundredths < 0 ? 0 - (uint64_t)hundredths : (uint64_t)hundredths;
	unsigned cents = (unsigned)(left % 100);
	char digits[24];
	size_t n = sizeof(digits), len = 0;

	if (cents % 10)
		digits[--n] = (char)('0' + cents % 10);
	if (cents) {
		digits[--n] = (char)('0' + cents / 10);
		digits[--n] = '.';
	}
	left /= 100;
	do {
		digits[--n] = (char)('0' + left % 10);
		left /= 10;
	} while (left);
	if (hundredths < 0)
		digits[--n] = '-';
	while (n < sizeof(digits))
		out[len++] = digits[n++];
	out[len] = '\0';
	return len;
}
