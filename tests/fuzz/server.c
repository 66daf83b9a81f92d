/*
 * Fuzz target: the language server. An input is either bytes as they might
 * come from a broken client, in pieces of any length, or (more often) read as
 * a script: notes opened and edited, questions asked at places of them.
 * Whatever comes, every request is answered once, and every answer is a whole
 * message of JSON.
 */
#include "fuzz.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "lsp/in.h"
#include "lsp/lsp.h"
#include "write/json.h"

static const char *const questions[] = {"textDocument/completion",
    "textDocument/hover", "textDocument/codeAction",
    "textDocument/documentSymbol", "textDocument/foldingRange",
    "textDocument/semanticTokens/full", "textDocument/semanticTokens/range",
    "textDocument/formatting", "textDocument/rangeFormatting",
    "textDocument/onTypeFormatting", "textDocument/inlayHint",
    "completionItem/resolve", "workspace/executeCommand"};
enum { QUESTIONS = sizeof(questions) / sizeof(*questions) };

/* Text that gets an edit near what the notation reads. */
static const char *const words[] = {"session 2026-05-04\n", "subject A-1\n",
    "knee R A 0-140 P 0-150 firm\n", "index R A MCP 0-80 PIP 0-90 L A ",
    "hip flexion R A 0-120 P 0-90 firm ", "# accept off-scale, syntax: x\n",
    "shoulder HBB R T7\n", "knee extension R A 10 ", "\r\n", "\r",
    "\xef\xbb\xbf", "\xf0\x9f\xa6\xb4", "\"", "mode active\n",
    "precaution right knee max 40\n", "involved right knee\n", "\n", " ",
    "cervical rotation R A 0-60\n", "flexoin "};
enum { WORDS = sizeof(words) / sizeof(*words) };

struct script {
	const uint8_t *at, *end;
	struct lsp *lsp;
	struct buffer body;
	size_t requests; /* sent */
	unsigned version;
};

static unsigned
next(struct script *s)
{
	return s->at < s->end ? *s->at++ : 0;
}

static void
feed(struct script *s)
{
	char head[64];
	int n = snprintf(
	    head, sizeof(head), "Content-Length: %zu\r\n\r\n", s->body.len);

	lsp_feed(s->lsp, head, (size_t)n);
	lsp_feed(s->lsp, s->body.data, s->body.len);
	s->body.len = 0;
}

static void
begin(struct script *s, const char *method, bool request)
{
	buffer_puts(&s->body, "{\"jsonrpc\":\"2.0\"");
	if (request)
		buffer_printf(&s->body, ",\"id\":%zu", ++s->requests);
	json_text_of(&s->body, "method", method);
	buffer_puts(&s->body, ",\"params\":{\"textDocument\":{\"uri\":\"u");
	buffer_putc(&s->body, (char)('0' + next(s) % 2));
	buffer_printf(&s->body, "\",\"version\":%u", ++s->version);
}

static void
put_text(struct script *s)
{
	struct buffer text = {0};
	unsigned n = next(s) % 8;

	for (unsigned i = 0; i < n; i++) {
		unsigned word = next(s);

		if (word < 4 * WORDS)
			buffer_puts(&text, words[word % WORDS]);
		else
			buffer_putc(&text, (char)next(s));
	}
	json_string(&s->body, text.len ? text.data : "", text.len);
	buffer_free(&text);
	/* Half a character, which may meet its other half. */
	if (next(s) % 8 == 0) {
		s->body.len--;
		buffer_puts(
		    &s->body, next(s) % 2 ? "\\ud83e\"" : "\\uddb4 \\ud83e\"");
	}
}

static void
put_position(struct script *s, const char *name)
{
	json_name(&s->body, name);
	buffer_printf(&s->body, "{\"line\":%u,\"character\":%u}", next(s) % 16,
	    next(s) % 64);
}

static void
put_range(struct script *s)
{
	buffer_puts(&s->body, ",\"range\":{");
	put_position(s, "start");
	put_position(s, "end");
	buffer_putc(&s->body, '}');
}

static void
ask(struct script *s)
{
	const char *method = questions[next(s) % QUESTIONS];

	begin(s, method, true);
	buffer_putc(&s->body, '}');
	put_position(s, "position");
	put_range(s);
	buffer_printf(&s->body,
	    ",\"ch\":\"\\n\",\"label\":\"x\",\"data\":{\"class\":%u,\"id\":%u,"
	    "\"measurement\":%u},\"command\":\"rangeline.%s\",\"arguments\":["
	    "\"u0\",%u,%u]}}",
	    next(s), next(s), next(s), next(s) % 2 ? "summary" : "showPlace",
	    next(s), next(s));
	feed(s);
}

static void
change(struct script *s)
{
	begin(s, "textDocument/didChange", false);
	buffer_puts(&s->body, "},\"contentChanges\":[{\"text\":");
	put_text(s);
	if (next(s) % 8)
		put_range(s);
	buffer_puts(&s->body, "}]}}");
	feed(s);
}

static void
open_note(struct script *s)
{
	begin(s, "textDocument/didOpen", false);
	buffer_puts(&s->body, ",\"text\":");
	put_text(s);
	buffer_puts(&s->body, "}}}");
	feed(s);
}

static void
close_note(struct script *s)
{
	begin(s, "textDocument/didClose", false);
	buffer_puts(&s->body, "}}}");
	feed(s);
}

static void
settings(struct script *s)
{
	begin(s, "workspace/didChangeConfiguration", false);
	buffer_printf(&s->body,
	    "},\"settings\":{\"inlayHints\":%s,\"spelling\":\"%s\"}}}",
	    next(s) % 2 ? "true" : "false", next(s) % 2 ? "short" : "keep");
	feed(s);
}

static void
initialize(struct script *s)
{
	static const char *const encodings[] = {"utf-8", "utf-16", "utf-32"};

	s->requests++;
	buffer_printf(&s->body,
	    "{\"jsonrpc\":\"2.0\",\"id\":0,\"method\":\"initialize\","
	    "\"params\":{\"capabilities\":{\"general\":{\"positionEncodings\":"
	    "[\"%s\"]},\"textDocument\":{\"codeAction\":{"
	    "\"codeActionLiteralSupport\":{}},\"publishDiagnostics\":{"
	    "\"relatedInformation\":true},\"documentSymbol\":{"
	    "\"hierarchicalDocumentSymbolSupport\":true}}},"
	    "\"initializationOptions\":{\"inlayHints\":true}}}",
	    encodings[next(s) % 3]);
	feed(s);
}

/* Whole frames of JSON, and as many answers as requests. */
static void
inspect(struct script *s, bool count)
{
	struct buffer *out = lsp_output(s->lsp);
	size_t answers = 0;

	for (size_t at = 0; at < out->len;) {
		char *end;
		size_t len;
		struct json_t *json;

		if (out->len - at < 20 ||
		    memcmp(out->data + at, "Content-Length: ", 16) != 0)
			abort();
		len = strtoul(out->data + at + 16, &end, 10);
		if (memcmp(end, "\r\n\r\n", 4) != 0)
			abort();
		at = (size_t)(end + 4 - out->data);
		if (len > out->len - at)
			abort();
		json = in_parse(out->data + at, len);
		if (!json)
			abort();
		answers += in_get(json, "id") && !in_get(json, "method");
		in_free(json);
		at += len;
	}
	if (count && answers != s->requests)
		abort();
	out->len = 0;
}

static void
play(struct script *s)
{
	void (*const steps[])(struct script *) = {
	    ask, ask, ask, change, change, open_note, close_note, settings};

	initialize(s);
	open_note(s);
	while (s->at < s->end) {
		steps[next(s) % 8](s);
		if (next(s) % 2)
			while (lsp_step(s->lsp))
				;
	}
	while (lsp_step(s->lsp))
		;
	inspect(s, true);
}

/* A broken client's stream: after each piece the server does what it can. */
static void
feed_raw(struct script *s)
{
	size_t piece = 1 + next(s) * 8;

	initialize(s);
	while (s->at < s->end) {
		size_t left = (size_t)(s->end - s->at);

		if (piece > left)
			piece = left;
		lsp_feed(s->lsp, (const char *)s->at, piece);
		s->at += piece;
		while (lsp_step(s->lsp))
			;
	}
	lsp_end(s->lsp);
	inspect(s, false);
}

void
fuzz_one(const char *bytes, size_t len)
{
	struct lsp_options options = {
	    .today = fuzz_today(), .tolerance = 50, .version = "fuzz"};
	struct script s = {.at = (const uint8_t *)bytes};

	s.end = s.at + len;
	for (int i = 0; i < RULE_COUNT; i++)
		options.levels[i] = LEVEL_UNSET;
	s.lsp = lsp_new(&options);
	if (next(&s) % 4 == 0)
		feed_raw(&s);
	else
		play(&s);
	lsp_free(s.lsp);
	buffer_free(&s.body);
}
