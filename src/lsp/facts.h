/*
 * What the tables know, in words, for hover and completion: as Markdown or as
 * plain text, whichever the client shows. Private to src/lsp.
 */
#ifndef LSP_FACTS_H
#define LSP_FACTS_H

#include <stdbool.h>

#include "reference/reference.h"
#include "text/buffer.h"
#include "vocab/vocab.h"

struct wording {
	struct buffer text;
	bool markdown;
};

/* A text that is not ours to mark up. */
void wording_text(struct wording *p, const char *text, size_t len);
void wording_puts(struct wording *p, const char *text);

/* A heading of its own line; a point of a list, which the caller goes on. */
void wording_heading(struct wording *p, const char *text);
void wording_item(struct wording *p, const char *label);

/*
 * Points: the usual value with its source, what everyday tasks take, the end
 * feels; each only where something is known. MODE -1 is any.
 */
void facts_usual(struct wording *p, int measurement, const char *setting,
    int mode, const struct ref_person *person);
void facts_tasks(struct wording *p, int measurement);
void facts_end_feels(struct wording *p, int measurement);

/* How it is measured: point by point. */
void facts_guide(struct wording *p, int measurement);

/* All that is known of it: heading, values, how it is measured. */
void facts_all(struct wording *p, int measurement);

/* "elbow flexion", "index tip-to-crease" */
void facts_name(struct wording *p, int measurement);

/* What a word of the notation means; nothing where it says it itself. */
void facts_word(struct wording *p, enum vocab_class class, int id);

/* {"kind":"markdown","value":...} */
void facts_put(struct buffer *out, const struct wording *p);

#endif
