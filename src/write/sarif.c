/*
 * Findings in SARIF 2.1.0. Each result begins a line of its own; the commas
 * between them are written here, as the buffer may have been emptied since.
 *
 * Columns are counted in UTF-16 code units, which is what a reader assumes
 * that does not look at columnKind. In a line that is not UTF-8 each such byte
 * counts as one, as the one character that stands for it.
 */
#include "write/sarif.h"

#include <string.h>

#include "text/utf8.h"
#include "write/findings.h"
#include "write/json.h"

/* The address under which the schema is published: from memory. */
#define SCHEMA "https://json.schemastore.org/sarif-2.1.0.json"

/* --- texts ------------------------------------------------------------------
 */

/*
 * In a message `{0}` would be a place to fill in and `[text](target)` a link,
 * and a note may hold either: braces are doubled, and a bracket gets a
 * backslash where a link could follow.
 */
static void
put_plain(struct buffer *out, const char *text, size_t len)
{
	bool link = memmem(text, len, "](", 2) != NULL;

	for (size_t i = 0; i < len; i++) {
		if (text[i] == '{' || text[i] == '}')
			buffer_putc(out, text[i]);
		else if (link && (text[i] == '[' || text[i] == ']'))
			buffer_putc(out, '\\');
		buffer_putc(out, text[i]);
	}
}

/* `"NAME":{"text":TEXT}` of LEN bytes. */
static void
put_message(struct buffer *out, const char *name, const char *text, size_t len)
{
	json_name(out, name);
	buffer_putc(out, '{');
	json_name(out, "text");
	json_string(out, text, len);
	buffer_putc(out, '}');
}

static void
put_text(struct buffer *out, const char *name, const char *text)
{
	put_message(out, name, text, strlen(text));
}

/* The message and, behind it, what to do. */
static void
put_said(struct buffer *out, const struct finding *f)
{
	struct buffer said = {0}, plain = {0};

	findings_message(&said, f);
	if (f->hint) {
		buffer_puts(&said, "; ");
		findings_safe(&said, f->hint, strlen(f->hint));
	}
	put_plain(&plain, said.data, said.len);
	put_message(out, "message", plain.data, plain.len);
	buffer_free(&said);
	buffer_free(&plain);
}

/* --- the place --------------------------------------------------------------
 */

/* A byte that a URI reference may hold as it is; `:` could end a scheme. */
static bool
is_plain(unsigned char byte)
{
	return (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z') ||
	       (byte >= '0' && byte <= '9') ||
	       (byte && strchr("-._~/", (char)byte));
}

void
sarif_uri(struct buffer *out, const char *file)
{
	if (*file == '/')
		buffer_puts(out, "file://");
	for (; *file; file++) {
		unsigned char byte = (unsigned char)*file;

		if (is_plain(byte))
			buffer_putc(out, *file);
		else
			buffer_printf(out, "%%%02X", byte);
	}
}

/* The column, from 1, of the byte AT of the line that F stands in. */
static uint64_t
column(const struct finding *f, uint32_t at)
{
	uint64_t units = 1;
	size_t size;

	if (!f->source || at > f->source_len)
		return (uint64_t)at + 1;
	for (size_t i = 0; i < at; i += size) {
		uint32_t code =
		    utf8_decode(f->source + i, f->source_len - i, &size);

		units += code > 0xffff ? 2 : 1;
	}
	return units;
}

static void
put_location(struct buffer *out, const char *file, const struct finding *f)
{
	uint32_t line = f->line ? f->line : 1;
	struct buffer uri = {0};

	sarif_uri(&uri, file);
	json_name(out, "locations");
	buffer_puts(out, "[{\"physicalLocation\":{\"artifactLocation\":{");
	json_name(out, "uri");
	json_string(out, uri.data, uri.len);
	buffer_putc(out, '}');
	json_name(out, "region");
	buffer_putc(out, '{');
	json_uint_of(out, "startLine", line);
	json_uint_of(out, "startColumn", column(f, f->beg));
	json_uint_of(out, "endLine", line);
	json_uint_of(out, "endColumn", column(f, f->end));
	buffer_puts(out, "}}}]");
	buffer_free(&uri);
}

/* --- the rules --------------------------------------------------------------
 */

static void
put_help(struct buffer *out, const struct rule_info *rule)
{
	struct buffer help = {0}, plain = {0};

	buffer_printf(&help,
	    "Source: %s\n\nReported here:\n\n%s\nNot here:\n\n%s", rule->source,
	    rule->reported, rule->clean);
	if (rule->group == RULES_READING)
		buffer_puts(&help,
		    "\nIt can be neither accepted nor lowered: what could "
		    "not be read is lost.\n");
	else
		buffer_printf(&help,
		    "\nTo accept it where it is right: # accept %s: reason\n",
		    rule->name);
	put_plain(&plain, help.data, help.len);
	put_message(out, "help", plain.data, plain.len);
	buffer_free(&help);
	buffer_free(&plain);
}

static void
put_rule(struct buffer *out, const struct rule_info *rule)
{
	buffer_putc(out, '{');
	json_text_of(out, "id", rule->name);
	put_text(out, "shortDescription", rule->title);
	put_text(out, "fullDescription", rule->reason);
	put_help(out, rule);
	json_name(out, "defaultConfiguration");
	buffer_putc(out, '{');
	json_text_of(out, "level", level_name(rule->level));
	buffer_puts(out, "}}");
}

void
sarif_begin(struct buffer *out)
{
	buffer_putc(out, '{');
	json_text_of(out, "$schema", SCHEMA);
	json_text_of(out, "version", "2.1.0");
	json_name(out, "runs");
	buffer_puts(out, "[{\"tool\":{\"driver\":{");
	json_text_of(out, "name", "rangeline");
	json_text_of(out, "version", RANGELINE_VERSION);
	put_text(out, "fullDescription",
	    "Checks notes of joint range of motion. This is no medical "
	    "device. Licensed practice and local protocols decide.");
	json_name(out, "rules");
	buffer_putc(out, '[');
	for (int i = 0; i < RULE_COUNT; i++) {
		buffer_puts(out, i == 0 ? "\n" : ",\n");
		put_rule(out, &rule_table[i]);
	}
	buffer_puts(out, "]}}");
	json_text_of(out, "columnKind", "utf16CodeUnits");
	json_text_of(out, "defaultEncoding", "utf-8");
	json_name(out, "results");
	buffer_putc(out, '[');
}

/* --- the results ------------------------------------------------------------
 */

void
sarif_result(
    struct buffer *out, const char *file, const struct finding *f, bool first)
{
	buffer_puts(out, first ? "\n{" : ",\n{");
	json_text_of(out, "ruleId", rule_table[f->rule].name);
	json_uint_of(out, "ruleIndex", (uint64_t)f->rule);
	json_text_of(out, "level", level_name(f->level));
	put_said(out, f);
	put_location(out, file, f);
	if (f->accepted) {
		json_name(out, "suppressions");
		buffer_puts(out, "[{\"kind\":\"inSource\"}]");
	}
	buffer_putc(out, '}');
}

void
sarif_end(struct buffer *out, int status, bool could_do_it)
{
	buffer_puts(out, "],\"invocations\":[{\"executionSuccessful\":");
	buffer_puts(out, could_do_it ? "true" : "false");
	json_uint_of(out, "exitCode", (uint64_t)status);
	buffer_puts(out, "}]}]}\n");
}
