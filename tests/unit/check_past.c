/* lint/past: what is packed comes back as it was. */
#include <check.h>

#include "lint/past.h"

static struct past_list list, back;
static struct buffer packed;

static void
teardown(void)
{
	past_free(&list);
	past_free(&back);
	buffer_free(&packed);
}

static struct past *
add(uint32_t first, uint32_t last)
{
	struct lookup_key key = {{lookup_pair(first, 0), 0, last}};

	return past_find_or_add(&list, &key);
}

static void
assert_comes_back(void)
{
	past_pack(&list, &packed);
	past_unpack(&back, packed.data, packed.len);
	ck_assert_uint_eq(back.len, list.len);
	for (size_t i = 0; i < list.len; i++) {
		const struct past *p = past_find(&back, &list.lookup.at[i].key);

		ck_assert_ptr_nonnull(p);
		ck_assert_int_eq(p->day, list.at[i].day);
		ck_assert_int_eq(p->sum, list.at[i].sum);
		ck_assert_uint_eq(p->n, list.at[i].n);
	}
}

START_TEST(nothing_comes_back_as_nothing)
{
	assert_comes_back();
	ck_assert_uint_eq(packed.len, 0);
}
END_TEST

START_TEST(the_ends_of_each_range_come_back)
{
	*add(0, 0) = (struct past){0};
	*add(UINT32_MAX, 0) = (struct past){INT32_MAX, INT32_MIN, UINT32_MAX};
	*add(0, UINT32_MAX) = (struct past){INT32_MIN, INT32_MAX, 0};
	*add(127, 128) = (struct past){-1, -1, 127};
	*add(128, 127) = (struct past){19000, 1279, 128};
	assert_comes_back();
}
END_TEST

START_TEST(many_come_back_in_few_bytes)
{
	for (uint32_t i = 0; i < 1000; i++)
		*add(i << 8, i % 3) = (struct past){19000, (int32_t)i, 1};
	assert_comes_back();
	ck_assert_uint_lt(packed.len, 8 * list.len);
	for (uint32_t i = 0; i < 1000; i++)
		ck_assert_int_eq(add(i << 8, i % 3)->sum, (int32_t)i);
	ck_assert_uint_eq(list.len, 1000);
}
END_TEST

Suite *past_suite(void);

Suite *
past_suite(void)
{
	Suite *suite = suite_create("past");
	TCase *tc = tcase_create("past");

	tcase_add_checked_fixture(tc, NULL, teardown);
	tcase_add_test(tc, nothing_comes_back_as_nothing);
	tcase_add_test(tc, the_ends_of_each_range_come_back);
	tcase_add_test(tc, many_come_back_in_few_bytes);
	suite_add_tcase(suite, tc);
	return suite;
}
