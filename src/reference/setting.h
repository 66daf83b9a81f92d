/*
 * Settings as sets of words: which rows of a table speak of a reading. Only
 * this folder uses it.
 */
#ifndef REFERENCE_SETTING_H
#define REFERENCE_SETTING_H

/*
 * How well a row of setting ROW fits a reading of setting WANTED: 0 not at
 * all, 1 the row has no setting, 1 + N where its N words are all in WANTED,
 * REF_FITS_EXACTLY where they are the same.
 */
int ref_setting_fit(const char *row, const char *wanted);

enum { REF_FITS_NOT, REF_FITS_ANY, REF_FITS_EXACTLY = 1000 };

#endif
