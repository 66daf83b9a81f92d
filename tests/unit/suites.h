/* Every suite of the unit and published tests, one line each. */
SUITE(reference)
SUITE(published_reference)
SUITE(lint_values)
SUITE(lint_compare)
SUITE(write)
