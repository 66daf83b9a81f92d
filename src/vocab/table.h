/*
 * The shape of the tables that src/vocab/generate.awk writes. Only vocab.c
 * reads the spellings and the hash index; all others go through vocab.h.
 */
#ifndef VOCAB_TABLE_H
#define VOCAB_TABLE_H

#include "vocab/vocab.h"

#define VOCAB_INDEX_SIZE 4096
#define VOCAB_NO_ROW 65535

struct vocab_spelling {
	const char *text; /* lower case, words parted by one blank */
	uint16_t length;  /* bytes of text */
	uint16_t phrase;  /* most words of a spelling that begins with it */
	uint16_t row;	  /* in vocab_rows, or VOCAB_NO_ROW: only a phrase */
	uint16_t same;	  /* rows from here on that spell this text */
};

/* 1 + the measurement, 0 where the joint lacks the motion. */
extern const uint8_t vocab_joint_motion[VOCAB_JOINT_COUNT][VOCAB_MOTION_COUNT];

extern const struct vocab_spelling vocab_spellings[];
extern const size_t vocab_spelling_count;
extern const uint16_t vocab_index[VOCAB_INDEX_SIZE]; /* 1 + first, 0 = none */

#endif
