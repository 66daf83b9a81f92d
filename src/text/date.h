/*
 * Days and times of ISO 8601 (2026-05-04, 09:30), proleptic Gregorian.
 */
#ifndef TEXT_DATE_H
#define TEXT_DATE_H

#include <stddef.h>
#include <stdint.h>

#define DATE_NONE INT32_MIN
#define TIME_NONE (-1)

/*
 * Reads YYYY-MM-DD, years 0001 to 9999, into *DAY, days since 1970-01-01.
 * Returns 0, or -1 where the form is another or there is no such day.
 */
int date_parse(const char *text, size_t len, int32_t *day);

/* Reads HH:MM, 00:00 to 23:59, into minutes of the day. Returns 0 or -1. */
int time_parse(const char *text, size_t len, int *minutes);

/* Writes YYYY-MM-DD and a NUL to OUT (16 bytes); returns OUT. */
char *date_format(int32_t day, char out[16]);

/* Today by the clock, where the computer stands; 0 where it cannot be told. */
int32_t date_today(void);

/* The year of a day. */
int date_year(int32_t day);

#endif
