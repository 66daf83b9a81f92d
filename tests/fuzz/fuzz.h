/*
 * What the fuzz targets share. A target is one file with fuzz_one(), linked
 * with entry.c; libFuzzer and AFL++ run the same entry. What must hold of any
 * input is said with MUST(): where it does not, the target aborts, and the
 * fuzzer keeps the input.
 */
#ifndef FUZZ_FUZZ_H
#define FUZZ_FUZZ_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "diag/diag.h"
#include "record/record.h"
#include "syntax/note.h"
#include "text/buffer.h"

/* The target: everything it does with one input. */
void fuzz_one(const char *bytes, size_t len);

#define MUST(that) ((that) ? (void)0 : fuzz_failed(__FILE__, __LINE__, #that))

_Noreturn void fuzz_failed(const char *file, int line, const char *what);

/*
 * Reads LEN bytes as a note and calls EACH with every session, judged (but
 * for JUDGED false) and its findings sorted, as the commands see them.
 */
struct fuzz_reading {
	bool judged;
	bool names_only;
	note_session *each;
	void *arg;
};
void fuzz_read(
    const char *bytes, size_t len, const struct fuzz_reading *reading);

/* Hands NOTE the whole of LEN bytes, line by line. */
void fuzz_lines(
    struct note *note, const char *bytes, size_t len, bool names_only);

/* The day that targets take for today. */
int32_t fuzz_today(void);

/* OUT is well-formed UTF-8, and every line of it an object of JSON. */
void fuzz_must_be_json_lines(const struct buffer *out);

#endif
