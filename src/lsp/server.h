/*
 * What the methods share: the client, the open notes, and how an answer is
 * written. Private to src/lsp.
 */
#ifndef LSP_SERVER_H
#define LSP_SERVER_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "lsp/document.h"
#include "lsp/frame.h"
#include "lsp/in.h"
#include "lsp/lsp.h"
#include "record/record.h"
#include "text/buffer.h"
#include "write/tidy.h"

/* Error codes of JSON-RPC and of the protocol. */
enum lsp_error {
	LSP_OK = 0,
	LSP_PARSE_ERROR = -32700,
	LSP_INVALID_REQUEST = -32600,
	LSP_METHOD_NOT_FOUND = -32601,
	LSP_INVALID_PARAMS = -32602,
	LSP_NOT_INITIALIZED = -32002,
	LSP_REQUEST_CANCELLED = -32800
};

enum lsp_state { LSP_STARTING, LSP_SERVING, LSP_SHUT_DOWN };

/* What the client said that it can do. */
struct client {
	enum position_encoding encoding;
	bool related;	     /* findings with related information */
	bool tags;	     /* findings with tags */
	bool hover_markdown; /* else plain text */
	bool item_markdown;  /* the same in completion */
	bool hierarchy;	     /* symbols with children */
	bool action_objects; /* code actions, not commands alone */
	bool show_document;  /* with a selection */
	bool hint_refresh;
};

/* What the user may set. */
struct settings {
	bool inlay_hints;
	enum tidy_spelling spelling;
};

struct message {
	struct json_t *json; /* NULL: it cannot be read */
	const char *lost;    /* and why */
	bool is_request;
	bool cancelled;
};

struct lsp {
	struct lsp_options options;
	int32_t day_of_start; /* by the clock */
	enum lsp_state state;
	int status; /* -1: it serves */
	struct client client;
	struct settings settings;

	struct frames frames;
	struct {
		struct message *at;
		size_t len, cap;
	} queue;
	size_t queue_at; /* the next one */

	struct {
		struct document **at;
		size_t len, cap;
	} documents;

	struct buffer out;
	struct buffer troubles; /* for standard error */
	size_t lost;		/* messages, so far */
	struct buffer body;	/* of the message being written */
	struct buffer result;
	uint64_t last_request; /* of our own */
};

/* --- answering ------------------------------------------------------------ */

/* `{"jsonrpc":"2.0","method":METHOD,"params":`, to go on in lsp->body. */
void lsp_begin_notification(struct lsp *lsp, const char *method);

/* The same for a request of ours; nobody waits for its answer. */
void lsp_begin_request(struct lsp *lsp, const char *method);

/* Ends what was begun and sends it. */
void lsp_end_message(struct lsp *lsp);

/* --- telling -------------------------------------------------------------- */

enum lsp_told { LSP_LOG, LSP_SHOW };

/* An error that the editor keeps or shows; of the note URI, or NULL. */
void lsp_tell(
    struct lsp *lsp, enum lsp_told where, const char *uri, const char *text);

/* A line for standard error. */
void lsp_report(struct lsp *lsp, const char *text);

/* --- notes ---------------------------------------------------------------- */

/* The open note that params.textDocument.uri names, or NULL. */
struct document *lsp_document(
    const struct lsp *lsp, const struct json_t *params);
struct document *lsp_document_of(const struct lsp *lsp, const char *uri);

/* Offset of a {line, character}; false where it is none. */
bool lsp_offset(const struct lsp *lsp, const struct document *d,
    const struct json_t *position, size_t *offset);
bool lsp_range(const struct lsp *lsp, const struct document *d,
    const struct json_t *range, size_t *beg, size_t *end);

/* The day that rules take for today. */
int32_t lsp_today(const struct lsp *lsp);

/*
 * Reads the note and hands each session to ON_SESSION, as note.h says; where
 * JUDGE, all rules have judged it. POOL may be NULL; one that is given keeps
 * its numbers from visit to visit.
 */
struct visit {
	void (*on_session)(void *arg, struct session *s, struct sink *sink);
	void *arg;
	struct intern *pool;
	bool judge;
};
void lsp_visit(
    const struct lsp *lsp, const struct document *d, const struct visit *visit);

/* Sees to it that the findings of D are those of its text. */
void lsp_judge(const struct lsp *lsp, struct document *d);

/* Writes a finding as an object, all but its closing brace. */
void lsp_put_finding(struct lsp *lsp, struct buffer *out,
    const struct document *d, const struct finding *f);

/* Sends the findings of D; of a note that is closed, none. */
void lsp_publish(struct lsp *lsp, struct document *d);
void lsp_publish_none(struct lsp *lsp, const struct document *d);

/* --- methods -------------------------------------------------------------- */

/*
 * Each is called with the params of its message and, for a request, writes
 * its result to RESULT; nothing written is null. Returns what is wrong.
 */
typedef enum lsp_error lsp_method(
    struct lsp *lsp, const struct json_t *params, struct buffer *result);

lsp_method lsp_initialize, lsp_initialized, lsp_shutdown, lsp_exit;
lsp_method lsp_did_open, lsp_did_change, lsp_did_close;
lsp_method lsp_did_change_configuration;
lsp_method lsp_completion, lsp_completion_resolve, lsp_hover;
lsp_method lsp_code_action, lsp_execute_command;
lsp_method lsp_document_symbol, lsp_folding_range;
lsp_method lsp_semantic_full, lsp_semantic_range;
lsp_method lsp_formatting, lsp_range_formatting, lsp_on_type_formatting;
lsp_method lsp_inlay_hint;

/* Adds what the server can do to the object in RESULT. */
void lsp_put_capabilities(const struct lsp *lsp, struct buffer *result);

/* The kinds of semantic tokens, for the capabilities. */
void lsp_put_legend(struct buffer *out);

/* The commands of executeCommand, for the capabilities. */
void lsp_put_commands(struct buffer *out);

/* What a code action names to put the cursor where the user must go on. */
extern const char lsp_show_place[];

/* Takes settings from an object; those it does not name stay. */
void lsp_take_settings(struct lsp *lsp, const struct json_t *settings);

#endif
