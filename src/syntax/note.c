#include "syntax/note.h"

#include <stdlib.h>
#include <string.h>

#include "parser.h"
#include "syntax/acceptance.h"
#include "syntax/header.h"
#include "syntax/line.h"
#include "syntax/opposites.h"
#include "syntax/parse.h"
#include "text/mem.h"
#include "text/utf8.h"
#include "vocab/vocab.h"

struct note {
	struct parse parse;
	struct session session;
	struct person person;
	struct sink sink;
	note_session *on_session;
	void *arg;
	uint32_t line;	  /* the last one read */
	uint32_t tail_at; /* where the comments before the next line begin */
	size_t tail_acceptances; /* the first acceptance in them */
	size_t tail_prose;
	bool any_session; /* a session line of this file was seen */
};

static const char bom[] = "\xef\xbb\xbf";
static const char encoding_message[] =
    "this is not text in UTF-8, or a control character";
static const char encoding_hint[] =
    "save the file as UTF-8 and type the sign again";

enum { LONGEST_HEADER = 32 /* bytes that a header word takes at most */ };

struct note *
note_new(struct intern *pool, note_session *on_session, void *arg)
{
	struct note *note = mem_zero(sizeof(*note));

	note->on_session = on_session;
	note->arg = arg;
	note->parse.pool = pool;
	note->parse.session = &note->session;
	note->parse.sink = &note->sink;
	note->session.pool = pool;
	note->session.person = &note->person;
	return note;
}

/* Forgets the session, keeping the memory. */
static void
session_reset(struct session *s)
{
	headers_reset(&s->headers);
	s->said = SAID_NOTHING;
	s->time = TIME_NONE;
	s->label = (struct text_ref){0, 0};
	s->line = 0;
	s->lost = false;
	s->text.len = 0;
	s->readings.len = 0;
	s->trials.len = 0;
	s->texts.len = 0;
	s->acceptances.len = 0;
	s->prose.len = 0;
}

void
note_free(struct note *note)
{
	struct session *s;

	if (!note)
		return;
	s = &note->session;
	headers_free(&s->headers);
	headers_free(&note->person.headers);
	buffer_free(&s->text);
	free(s->readings.at);
	free(s->trials.at);
	free(s->texts.at);
	free(s->acceptances.at);
	free(s->prose.at);
	tokens_free(&note->parse.tokens);
	for (int i = 0; i < 2; i++)
		free(note->parse.reading.now.out[i].trials.at);
	free(note->parse.texts.at);
	sink_free(&note->sink);
	free(note);
}

static void
tail_reset(struct note *note)
{
	note->tail_at = (uint32_t)note->session.text.len;
	note->tail_acceptances = note->session.acceptances.len;
	note->tail_prose = note->session.prose.len;
}

void
note_begin(struct note *note, const char *file, bool names_only)
{
	struct parse *ps = &note->parse;

	note->session.file = file;
	note->sink.names_only = names_only;
	session_reset(&note->session);
	headers_reset(&note->person.headers);
	note->person.said = SAID_NOTHING;
	note->person.code = 0;
	note->person.line = 0;
	note->line = 0;
	note->any_session = false;
	ps->measuring = (struct measuring){
	    .mode = NONE, .instrument = {{NONE, NO_VALUE}, {NONE, NO_VALUE}}};
	ps->force = FORCE_NOTHING;
	ps->cause = NULL;
	tail_reset(note);
}

/* Moves the last bytes and the comments of the tail to a new session. */
static void
keep_tail(struct note *note)
{
	struct session *s = &note->session;
	uint32_t at = note->tail_at;
	size_t bytes = s->text.len - at;
	size_t acceptances = s->acceptances.len - note->tail_acceptances;
	size_t prose = s->prose.len - note->tail_prose;

	if (bytes)
		memmove(s->text.data, s->text.data + at, bytes);
	if (acceptances)
		memmove(s->acceptances.at,
		    s->acceptances.at + note->tail_acceptances,
		    acceptances * sizeof(*s->acceptances.at));
	if (prose)
		memmove(s->prose.at, s->prose.at + note->tail_prose,
		    prose * sizeof(*s->prose.at));
	session_reset(s);
	s->text.len = bytes;
	s->acceptances.len = acceptances;
	s->prose.len = prose;
	for (size_t i = 0; i < acceptances; i++)
		s->acceptances.at[i].line_at -= at;
	for (size_t i = 0; i < prose; i++)
		s->prose.at[i].line_at -= at;
	note->tail_at = 0;
	note->tail_acceptances = 0;
	note->tail_prose = 0;
}

/*
 * Hands the session on. The comments right above the line that ends it
 * belong to what follows them.
 */
static void
end_session(struct note *note)
{
	struct session *s = &note->session;
	size_t acceptances = s->acceptances.len, prose = s->prose.len;
	bool names_only = note->sink.names_only;

	s->acceptances.len = note->tail_acceptances;
	s->prose.len = note->tail_prose;
	opposites_check(s, &note->sink);
	note->on_session(note->arg, s, &note->sink);
	s->acceptances.len = acceptances;
	s->prose.len = prose;
	sink_reset(&note->sink);
	note->sink.names_only = names_only;
	note->parse.measuring.positions = (struct positions){0};
	keep_tail(note);
}

/* Nothing but headers of the person so far: the session line joins them. */
static bool
is_prelude(const struct session *s)
{
	return s->said == SAID_NOTHING && s->readings.len == 0 && !s->lost;
}

static void
clear_force(struct parse *ps)
{
	ps->force = FORCE_NOTHING;
	ps->cause = NULL;
}

static void
begin_session(struct note *note)
{
	clear_force(&note->parse);
	if (!is_prelude(&note->session))
		end_session(note);
	note->any_session = true;
	note->session.line = note->line;
}

/*
 * A subject line begins a new person; the first of a file, with no session
 * above it, names the person begun at the top.
 */
static void
begin_person(struct note *note)
{
	struct person *p = &note->person;

	clear_force(&note->parse);
	if (p->said == SAID_NOTHING && !note->any_session) {
		p->line = note->line;
		return;
	}
	end_session(note);
	headers_reset(&p->headers);
	p->said = SAID_NOTHING;
	p->code = 0;
	p->line = note->line;
}

static struct finding *
report(struct note *note, enum rule rule, size_t beg, size_t end,
    const char *message, const char *hint)
{
	const struct parse *ps = &note->parse;
	struct place place = {ps->line, (uint32_t)beg, (uint32_t)end, ps->text,
	    (uint32_t)ps->len};
	struct finding *f =
	    sink_add(&note->sink, rule, &place, NO_READING, "%s", message);

	sink_hint(&note->sink, f, "%s", hint);
	return f;
}

/* A line that is not read at all; a header that begins it is unknown now. */
static void
lose_line(struct note *note)
{
	struct parse *ps = &note->parse;
	struct finding *f = report(note, RULE_LINE_TOO_LONG, 0, LONGEST_LINE,
	    "this line is over 4096 bytes and is not read",
	    "break it into several lines");

	if (ps->tokens.header >= 0) {
		header_unreadable(ps, ps->tokens.header);
		header_warn(ps, ps->tokens.header);
		return;
	}
	note->session.lost = true;
	ps->force = FORCE_FAILED;
	ps->cause = f;
}

/* Texts and the comment of the line are prose; the comment may accept. */
static void
take_prose(struct note *note)
{
	struct parse *ps = &note->parse;
	struct session *s = &note->session;
	const struct tokens *tokens = &ps->tokens;
	bool alone = tokens->len == 0;

	for (size_t i = 0; i < tokens->len; i++)
		if (tokens->at[i].kind == T_TEXT)
			*MEM_PUSH(&s->prose) = (struct prose){ps->line,
			    ps->line_at, (uint16_t)(tokens->at[i].beg + 1),
			    (uint16_t)(tokens->at[i].end - 1), NO_READING};
	if (tokens->comment_beg == tokens->comment_end)
		return;
	acceptance_read(s, ps->line, ps->line_at, tokens->comment_beg,
	    tokens->comment_end, alone ? 0 : ps->line);
	*MEM_PUSH(&s->prose) = (struct prose){ps->line, ps->line_at,
	    (uint16_t)(tokens->comment_beg + 1), (uint16_t)tokens->comment_end,
	    NO_READING};
}

/* Comments alone on a line accept on the next line with something on it. */
static void
aim_acceptances(struct note *note)
{
	struct session *s = &note->session;

	for (size_t i = note->tail_acceptances; i < s->acceptances.len; i++)
		if (s->acceptances.at[i].target == 0)
			s->acceptances.at[i].target = note->line;
}

/* Adds the line to the session's text, where the parser reads it. */
static void
store_line(struct note *note, const char *text, size_t len)
{
	struct session *s = &note->session;
	struct parse *ps = &note->parse;
	uint32_t at = (uint32_t)s->text.len;

	/* Places in a session are 32 bits, and so are the numbers of lines. */
	if (len >= UINT32_MAX - at || note->line == UINT32_MAX)
		mem_end("a session of more than 4 GiB, or a note of more than "
			"4,294,967,294 lines, cannot be read");
	buffer_add(&s->text, text, len);
	buffer_putc(&s->text, '\n');
	ps->line = note->line;
	ps->line_at = at;
	ps->text = s->text.data + at;
	ps->len = len;
}

/* The session's text has moved: so has the line. */
static void
find_line(struct note *note, size_t len)
{
	struct parse *ps = &note->parse;

	ps->line_at = (uint32_t)(note->session.text.len - len - 1);
	ps->text = note->session.text.data + ps->line_at;
}

/*
 * Cuts the line into tokens up to byte LEN, where the lexer finds a LF while
 * it works.
 */
static void
cut(struct note *note, size_t len)
{
	struct parse *ps = &note->parse;
	char *behind = note->session.text.data + ps->line_at + len;
	char kept = *behind;
	bool levels = ps->force == FORCE_NAMED &&
		      ps->named.measure == VOCAB_MEASURE_HAND_BEHIND_BACK;

	*behind = '\n';
	tokens_cut(&ps->tokens, ps->text, len, levels);
	*behind = kept;
}

/* A long line is cut only as far as a header at its beginning needs. */
static void
cut_long(struct note *note)
{
	const char *text = note->parse.text;
	size_t blanks = 0, good, bad;

	while (blanks < LONGEST_LINE - LONGEST_HEADER &&
	       (text[blanks] == ' ' || text[blanks] == '\t' ||
		   text[blanks] == ','))
		blanks++;
	good = utf8_check(text, blanks + LONGEST_HEADER, &bad);
	cut(note, good);
}

static bool
has_comment(const struct note *note)
{
	const struct tokens *tokens = &note->parse.tokens;

	return tokens->comment_beg < tokens->comment_end;
}

/*
 * Bytes that are no text end what can be read of the line; in a comment they
 * cost nothing but the finding.
 */
static void
cut_bad(struct note *note, size_t good, size_t bad)
{
	cut(note, good);
	if (!has_comment(note))
		tokens_end_bad(&note->parse.tokens, RULE_ENCODING, good,
		    good + bad, encoding_message);
}

/* May a reading be lost that stands before byte AT of the line? */
static bool
reading_before(const struct parse *ps, size_t at)
{
	/* A number that begins the line is that of a list. */
	for (size_t i = 1; i < ps->tokens.len; i++)
		if (ps->tokens.at[i].beg < at && ps->tokens.at[i].number)
			return true;
	return false;
}

/*
 * The line was not read, and header words stand in it from byte BEHIND on:
 * what is above it ends with it, what is below belongs to nobody known. What
 * HEADER, the line's own, has begun is not begun again. LOST is whether a
 * reading was lost above it.
 */
static void
lose_headers(struct note *note, int header, size_t behind, bool lost)
{
	struct parse *ps = &note->parse;
	struct session *s = &note->session;
	struct buffer line = {0};
	struct headers_meant meant;

	headers_meant(ps, behind, &meant);
	meant.subject &= header != VOCAB_HEADER_SUBJECT;
	meant.session &= header != VOCAB_HEADER_SESSION;
	if (!meant.subject && !meant.session && !meant.precaution)
		return;
	if (!reading_before(ps, meant.beg))
		s->lost = lost;
	if (meant.precaution)
		header_warn(ps, VOCAB_HEADER_PRECAUTION);
	if (meant.subject)
		header_warn(ps, VOCAB_HEADER_SUBJECT);
	if (meant.session)
		header_warn(ps, VOCAB_HEADER_SESSION);
	buffer_add(&line, ps->text, ps->len);
	if (meant.subject) {
		begin_person(note);
		header_unreadable(ps, VOCAB_HEADER_SUBJECT);
	}
	if (meant.session) {
		begin_session(note);
		if (s->text.len == 0)
			store_line(note, line.data, line.len);
		s->line_at = ps->line_at;
		header_unreadable(ps, VOCAB_HEADER_SESSION);
		s->date_beg = (uint16_t)meant.session_beg;
		s->date_end = (uint16_t)meant.session_end;
	}
	buffer_free(&line);
}

void
note_line(struct note *note, const char *text, size_t len)
{
	struct parse *ps = &note->parse;
	size_t good, bad, behind;
	int header;
	bool lost, whole = false;

	note->line++;
	if (note->line == 1 && len >= 3 && memcmp(text, bom, 3) == 0) {
		text += 3;
		len -= 3;
	}
	if (len > 0 && text[len - 1] == '\r')
		len--;
	if (len > LONGEST_LINE)
		len = LONGEST_LINE + 1;
	store_line(note, text, len);
	good = utf8_check(ps->text, len, &bad);
	if (len > LONGEST_LINE)
		cut_long(note);
	else if (good < len)
		cut_bad(note, good, bad);
	else
		cut(note, len);
	header = header_meant(ps, &behind);
	if (header == VOCAB_HEADER_SESSION)
		begin_session(note);
	else if (header == VOCAB_HEADER_SUBJECT)
		begin_person(note);
	find_line(note, len);
	if (header == VOCAB_HEADER_SESSION)
		note->session.line_at = ps->line_at;
	/* Findings belong to the session that the line has begun. */
	if (len <= LONGEST_LINE && good < len && has_comment(note))
		report(note, RULE_ENCODING, good, good + bad, encoding_message,
		    encoding_hint);
	if (len <= LONGEST_LINE)
		take_prose(note);
	lost = note->session.lost;
	if (len > LONGEST_LINE)
		lose_line(note);
	else
		whole = line_read(ps);
	if (header != ps->tokens.header && header != NONE) {
		note->session.lost = lost;
		header_unreadable(ps, header);
		header_warn(ps, header);
	}
	if (ps->tokens.len > 0 || len > LONGEST_LINE) {
		aim_acceptances(note);
		tail_reset(note);
	}
	if (!whole)
		lose_headers(note, header, behind, lost);
}

void
note_end(struct note *note)
{
	tail_reset(note);
	clear_force(&note->parse);
	end_session(note);
}
