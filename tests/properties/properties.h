/* The groups of property tests, one a file. */
#ifndef PROPERTIES_PROPERTIES_H
#define PROPERTIES_PROPERTIES_H

#include <check.h>

TCase *properties_bad_lines(void);
TCase *properties_beginnings(void);
TCase *properties_generated(void);
TCase *properties_meaning(void);
TCase *properties_mutants(void);
TCase *properties_orders(void);
TCase *properties_salads(void);

Suite *properties_suite(void);

#endif
