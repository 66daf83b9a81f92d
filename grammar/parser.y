/*
 * The grammar of one line of a note. Each rule makes one call: a reading_...()
 * for reading lines, a header_...() for headers; parse.h and header.h of
 * src/syntax/ say in which file. A call that finds something wrong reports it
 * and ends the parse; src/syntax/line.c decides where on the line reading may
 * resume and then calls again with RESUME as the first token.
 *
 * The tokens of the line stand in ps->tokens; a semantic value points at one.
 */
%require "3.8"
%header
%expect 0
%define api.pure full
%define api.prefix {line_}
%define api.token.prefix {T_}
%define api.token.raw
%define api.value.type {const struct token *}
%define parse.error custom
/* Nothing is reduced before the token behind it is known to fit. */
%define lr.default-reduction consistent
%param {struct parse *ps}

%code requires {
	struct parse;
	struct token;
}

%code {
	#include "syntax/header.h"
	#include "syntax/parse.h"

	#define DO(call) do { if (!(call)) YYABORT; } while (0)

	/* Only once nothing of the line is left does a header take effect. */
	#define WHOLE(call) DO(!parse_is_whole(ps) || (call))

	/* Six tokens at most wait at one time: all lists recurse to the left. */
	#define YYINITDEPTH 64
	#define YYMAXDEPTH 64

	static int line_lex(LINE_STYPE *value, struct parse *ps);
	static void line_error(struct parse *ps, const char *message);
}

%token EOL 0      "the end of the line"
%token RESUME     "a further reading"
%token BAD        "something unreadable"
%token OTHER      "a word that belongs elsewhere"
%token HEADER     "a header word"

%token SESSION SUBJECT BORN AGE SEX_HEADER DOMINANT INVOLVED OPPOSITE SURGERY
%token PRECAUTION GOAL REMARK RATER INSTRUMENT_HEADER MODE_HEADER
%token POSITION REQUIRE

%token CODE DATE TIME TEXT
%token NUMBER RANGE TRIPLE
%token SLASH SEMICOLON
%token SIDE BOTH MODE JOINT DIGIT PART GROUP MOTION MEASURE POSTURE SETTING
%token END_FEEL CAUSE INSTRUMENT OUTCOME UNIT SEX LEVEL REQUIREMENT
%token LACKS HYPER FIXED LESS PAIN AT PAINFUL_ARC STOPPED_BY AFTER REPS
%token SUBSTITUTION BY WITH MAX NO FROM UNTIL STEP NONE UNAVAILABLE

%start input

%%

input:
	reading_line
	| header
	| RESUME next_reading
	| RESUME next_reading more_readings
	| RESUME next_reading more_readings SEMICOLON
	| RESUME next_reading SEMICOLON
	;

reading_line:
	head first_reading
	| head first_reading SEMICOLON
	| head first_reading more_readings
	| head first_reading more_readings SEMICOLON
	;

head:
	%empty
	| head JOINT          { DO(reading_joint(ps, $2)); }
	| head DIGIT          { DO(reading_digit(ps, $2)); }
	| head PART           { DO(reading_part(ps, $2)); }
	| head MOTION         { DO(reading_motion(ps, $2)); }
	| head SLASH MOTION   { DO(reading_second_motion(ps, $2, $3)); }
	| head MEASURE        { DO(reading_measure(ps, $2)); }
	| head SIDE           { DO(reading_side(ps, $2)); }
	| head BOTH           { DO(reading_side(ps, $2)); }
	| head MODE           { DO(reading_mode(ps, $2)); }
	| head POSTURE        { DO(reading_position(ps, $2)); }
	| head SETTING        { DO(reading_position(ps, $2)); }
	;

first_reading:
	trials                { DO(reading_end(ps)); }
	| trials qualifiers   { DO(reading_end(ps)); }
	;

more_readings:
	next_reading
	| SEMICOLON next_reading
	| more_readings next_reading
	| more_readings SEMICOLON next_reading
	;

next_reading:
	switches trials       { DO(reading_end(ps)); }
	| switches trials qualifiers
	                      { DO(reading_end(ps)); }
	;

switches:
	SIDE                  { DO(reading_side(ps, $1)); }
	| BOTH                { DO(reading_side(ps, $1)); }
	| MODE                { DO(reading_mode(ps, $1)); }
	| PART                { DO(reading_part(ps, $1)); }
	| switches SIDE       { DO(reading_side(ps, $2)); }
	| switches BOTH       { DO(reading_side(ps, $2)); }
	| switches MODE       { DO(reading_mode(ps, $2)); }
	| switches PART       { DO(reading_part(ps, $2)); }
	;

trials:
	trial
	| trials trial
	;

trial:
	NUMBER                    { DO(reading_trial(ps, FORM_END, $1, NULL, NULL)); }
	| NUMBER UNIT             { DO(reading_trial(ps, FORM_END, $1, NULL, $2)); }
	| RANGE                   { DO(reading_trial(ps, FORM_RANGE, $1, NULL, NULL)); }
	| RANGE UNIT              { DO(reading_trial(ps, FORM_RANGE, $1, NULL, $2)); }
	| TRIPLE unit             { DO(reading_trial(ps, FORM_TRIPLE, $1, NULL, $2)); }
	| HYPER NUMBER unit       { DO(reading_trial(ps, FORM_HYPER, $1, $2, $3)); }
	| LACKS NUMBER unit       { DO(reading_trial(ps, FORM_LACKS, $1, $2, $3)); }
	| FIXED NUMBER unit       { DO(reading_trial(ps, FORM_FIXED, $1, $2, $3)); }
	| NUMBER LESS NUMBER unit { DO(reading_trial(ps, FORM_LESS, $1, $3, $4)); }
	| OUTCOME                 { DO(reading_trial(ps, FORM_OUTCOME, $1, NULL, NULL)); }
	| LEVEL                   { DO(reading_trial(ps, FORM_LEVEL, $1, NULL, NULL)); }
	;

unit:
	%empty                { $$ = NULL; }
	| UNIT
	;

qualifiers:
	qualifier
	| qualifiers qualifier
	;

qualifier:
	END_FEEL                  { DO(reading_end_feel(ps, $1, NULL)); }
	| END_FEEL SLASH END_FEEL { DO(reading_end_feel(ps, $1, $3)); }
	| PAIN score              { DO(reading_pain(ps, $1, $2, NULL)); }
	| PAIN score AT NUMBER unit  { DO(reading_pain(ps, $1, $2, $4)); }
	| PAIN AT NUMBER unit     { DO(reading_pain(ps, $1, NULL, $3)); }
	| PAINFUL_ARC RANGE unit  { DO(reading_painful_arc(ps, $1, $2)); }
	| STOPPED_BY CAUSE        { DO(reading_stopped_by(ps, $1, $2)); }
	| AFTER NUMBER REPS       { DO(reading_after(ps, $1, $2)); }
	| SUBSTITUTION TEXT       { DO(reading_text(ps, $2, true)); }
	| BY CODE                 { DO(reading_by(ps, $1, $2)); }
	| WITH INSTRUMENT         { DO(reading_with(ps, $1, $2)); }
	| TEXT                    { DO(reading_text(ps, $1, false)); }
	;

score:
	NUMBER
	| NUMBER SLASH NUMBER     { DO(reading_score(ps, $3)); $$ = $1; }
	;

header:
	SESSION DATE text                { WHOLE(header_session(ps, $2, NULL, $3)); }
	| SESSION DATE TIME text         { WHOLE(header_session(ps, $2, $3, $4)); }
	| SUBJECT CODE                   { WHOLE(header_subject(ps, $2)); }
	| BORN NUMBER                    { WHOLE(header_born(ps, $2)); }
	| AGE NUMBER                     { WHOLE(header_age(ps, $2)); }
	| SEX_HEADER SEX                 { WHOLE(header_sex(ps, $2)); }
	| DOMINANT SIDE                  { WHOLE(header_dominant(ps, $2)); }
	| INVOLVED joints                { WHOLE(header_involved(ps, $1)); }
	| INVOLVED NONE                  { WHOLE(header_involved_none(ps, $1)); }
	| OPPOSITE joints UNAVAILABLE text { WHOLE(header_opposite(ps, $1, $4)); }
	| SURGERY DATE text              { WHOLE(header_surgery(ps, $2, $3)); }
	| precaution dates text          { WHOLE(header_precaution(ps, $1, $3)); }
	| GOAL head value                { WHOLE(header_goal(ps, $1, NULL)); }
	| GOAL head value BY DATE        { WHOLE(header_goal(ps, $1, $5)); }
	| REMARK TEXT                    { WHOLE(header_remark(ps, $2)); }
	| RATER CODE                     { WHOLE(header_rater(ps, $2)); }
	| INSTRUMENT_HEADER INSTRUMENT   { WHOLE(header_instrument(ps, $2, NULL, NULL)); }
	| INSTRUMENT_HEADER INSTRUMENT STEP NUMBER unit
	                                 { WHOLE(header_instrument(ps, $2, $4, $5)); }
	| MODE_HEADER MODE               { WHOLE(header_mode(ps, $2)); }
	| POSITION positions             { WHOLE(header_position(ps)); }
	| REQUIRE requirements           { WHOLE(header_require(ps)); }
	;

text:
	%empty                { $$ = NULL; }
	| TEXT
	;

joints:
	joint
	| joints joint
	;

joint:
	SIDE                  { DO(header_side(ps, $1)); }
	| BOTH                { DO(header_side(ps, $1)); }
	| JOINT               { DO(header_joint(ps, $1)); }
	| GROUP               { DO(header_joint(ps, $1)); }
	| DIGIT               { DO(header_joint(ps, $1)); }
	| PART                { DO(header_joint(ps, $1)); }
	;

precaution:
	PRECAUTION joints motion_mode MAX NUMBER unit
	                      { DO(header_limit(ps, $4, $5, $6, false)); $$ = $1; }
	| PRECAUTION joints motion_mode MAX LACKS NUMBER unit
	                      { DO(header_limit(ps, $4, $6, $7, true)); $$ = $1; }
	| PRECAUTION joints motion_mode NO motion_mode
	                      { DO(header_forbid(ps, $4)); $$ = $1; }
	;

motion_mode:
	%empty
	| motion_mode MOTION  { DO(header_motion(ps, $2)); }
	| motion_mode MODE    { DO(header_of_mode(ps, $2)); }
	;

dates:
	%empty
	| dates FROM DATE     { DO(header_from(ps, $2, $3)); }
	| dates UNTIL DATE    { DO(header_until(ps, $2, $3)); }
	;

value:
	NUMBER unit           { DO(header_value(ps, FORM_END, $1, NULL, $2)); }
	| RANGE unit          { DO(header_value(ps, FORM_RANGE, $1, NULL, $2)); }
	| HYPER NUMBER unit   { DO(header_value(ps, FORM_HYPER, $1, $2, $3)); }
	| LACKS NUMBER unit   { DO(header_value(ps, FORM_LACKS, $1, $2, $3)); }
	| LEVEL               { DO(header_value(ps, FORM_LEVEL, $1, NULL, NULL)); }
	;

positions:
	position
	| positions position
	;

position:
	POSTURE               { DO(header_position_word(ps, $1)); }
	| SETTING             { DO(header_position_word(ps, $1)); }
	;

requirements:
	requirement
	| requirements requirement
	;

requirement:
	REQUIREMENT           { DO(header_requirement(ps, $1)); }
	;

%%

static int
line_lex(LINE_STYPE *value, struct parse *ps)
{
	*value = parse_token(ps);
	return (*value)->kind;
}

static void
line_error(struct parse *ps, const char *message)
{
	/* Only "memory exhausted" comes here: the stack cannot fill. */
	(void)ps;
	(void)message;
}

static int
yyreport_syntax_error(const yypcontext_t *context, struct parse *ps)
{
	yysymbol_kind_t expected[YYNTOKENS];
	int n = yypcontext_expected_tokens(context, expected, YYNTOKENS);

	bool may_stand[YYNTOKENS] = {false};

	for (int i = 0; i < n; i++)
		may_stand[expected[i]] = true;
	parse_unexpected(ps, may_stand);
	return 0;
}
