#include "text/date.h"

#include <time.h>

static int
is_leap(int year)
{
	return year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
}

static int
days_in(int year, int month)
{
	static const int days[] = {
	    31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

	return month == 2 && is_leap(year) ? 29 : days[month - 1];
}

/* The N digits at TEXT as a number, or -1. */
static int
digits(const char *text, int n)
{
	int value = 0;

	for (int i = 0; i < n; i++) {
		if (text[i] < '0' || text[i] > '9')
			return -1;
		value = value * 10 + (text[i] - '0');
	}
	return value;
}

/* Days before 1 January of YEAR, counted from year 1. */
static int32_t
days_before(int year)
{
	int y = year - 1;

	return y * 365 + y / 4 - y / 100 + y / 400;
}

enum { DAYS_TO_1970 = 719162 };

int
date_parse(const char *text, size_t len, int32_t *day)
{
	int year, month, mday;

	if (len != 10 || text[4] != '-' || text[7] != '-')
		return -1;
	year = digits(text, 4);
	month = digits(text + 5, 2);
	mday = digits(text + 8, 2);
	if (year < 1 || month < 1 || month > 12 || mday < 1 ||
	    mday > days_in(year, month))
		return -1;
	*day = days_before(year) - DAYS_TO_1970 + mday - 1;
	for (int m = 1; m < month; m++)
		*day += days_in(year, m);
	return 0;
}

int
time_parse(const char *text, size_t len, int *minutes)
{
	int hour, minute;

	if (len != 5 || text[2] != ':')
		return -1;
	hour = digits(text, 2);
	minute = digits(text + 3, 2);
	if (hour < 0 || hour > 23 || minute < 0 || minute > 59)
		return -1;
	*minutes = hour * 60 + minute;
	return 0;
}

int32_t
date_today(void)
{
	time_t now = time(NULL);
	struct tm tm;
	char text[16];
	int32_t day = 0;

	if (localtime_r(&now, &tm) &&
	    strftime(text, sizeof(text), "%Y-%m-%d", &tm) == 10)
		date_parse(text, 10, &day);
	return day;
}

int
date_year(int32_t day)
{
	int32_t n = day + DAYS_TO_1970;
	int year = n / 366 + 1; /* never too late */

	while (days_before(year + 1) <= n)
		year++;
	return year;
}

/* The last N digits of a number. */
static void
put_digits(char *out, int number, int n)
{
	while (n-- > 0) {
		out[n] = (char)('0' + number % 10);
		number /= 10;
	}
}

char *
date_format(int32_t day, char out[16])
{
	int year = date_year(day);
	int left = day + DAYS_TO_1970 - days_before(year);
	int month = 1;

	while (left >= days_in(year, month)) {
		left -= days_in(year, month);
		month++;
	}
	put_digits(out, year, 4);
	out[4] = '-';
	put_digits(out + 5, month, 2);
	out[7] = '-';
	put_digits(out + 8, left + 1, 2);
	out[10] = '\0';
	return out;
}
