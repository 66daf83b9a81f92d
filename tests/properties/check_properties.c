/*
 * What must hold of every note, tried on the notes of corpus/ and on lines
 * that are put together at random. The random numbers are the same in every
 * run; a failure names the seed that shows it.
 */
#include "properties.h"

Suite *
properties_suite(void)
{
	Suite *suite = suite_create("properties");

	suite_add_tcase(suite, properties_bad_lines());
	suite_add_tcase(suite, properties_beginnings());
	suite_add_tcase(suite, properties_generated());
	suite_add_tcase(suite, properties_meaning());
	suite_add_tcase(suite, properties_mutants());
	suite_add_tcase(suite, properties_orders());
	suite_add_tcase(suite, properties_salads());
	return suite;
}
