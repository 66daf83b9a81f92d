/* Settings as sets of words; both texts have them sorted, one blank between. */
#include "reference/setting.h"

#include <stdbool.h>
#include <string.h>

static bool
has_word(const char *text, const char *word, size_t len)
{
	for (size_t n; *text; text += n + (text[n] == ' ')) {
		n = strcspn(text, " ");
		if (n == len && memcmp(text, word, len) == 0)
			return true;
	}
	return false;
}

int
ref_setting_fit(const char *row, const char *wanted)
{
	int words = 0;

	if (strcmp(row, wanted) == 0)
		return REF_FITS_EXACTLY;
	for (size_t n; *row; row += n + (row[n] == ' ')) {
		n = strcspn(row, " ");
		if (!has_word(wanted, row, n))
			return REF_FITS_NOT;
		words++;
	}
	return REF_FITS_ANY + words;
}
