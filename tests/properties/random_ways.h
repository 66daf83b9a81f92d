/*
 * The words of a note made at random, each in one of the ways in which it may
 * be written; in the plain way where WAYS is NULL. Private to random_*.c.
 */
#ifndef PROPERTIES_RANDOM_WAYS_H
#define PROPERTIES_RANDOM_WAYS_H

#include "random_note.h"

/* 0 .. N - 1; 0 in the plain way. */
uint32_t ways_pick(struct made_ways *ways, uint32_t n);

/* Is it to be written in this WAY? One time in N, where it may be. */
bool ways_take(struct made_ways *ways, enum made_way way, uint32_t n, bool may);

/* What parts words. */
void ways_gap(struct buffer *out, struct made_ways *ways);

/* WORD in small or capital letters. */
void ways_word(struct buffer *out, struct made_ways *ways, const char *word);

/* The uniform or the short name of a word of the vocabulary. */
void ways_name(
    struct buffer *out, struct made_ways *ways, enum vocab_class class, int id);

/* random_value.c: the figures of V, and the words behind them. */
void ways_value(struct buffer *out, struct made_ways *ways, bool whole,
    const struct made_value *v);

#endif
