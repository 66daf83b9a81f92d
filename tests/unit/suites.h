/* Every suite of the unit and published tests, one line each. */
SUITE(reference)
SUITE(published_reference)
SUITE(lint_values)
SUITE(lint_compare)
SUITE(lint_missing)
SUITE(lint_headers)
SUITE(lint_safety)
SUITE(write)
