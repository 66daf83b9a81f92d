# rangeline: `make demo` shows it at work, `make check` passes the tests; both
# install what is missing. DEVELOPERS.md explains the rest.

VERSION = 0.1.0
PREFIX = /usr/local
DESTDIR =
CC = cc
AWK = LC_ALL=C awk
RE2C = re2c
BISON = bison

# CONFIG names a way to build; each has its own folder of objects.
CONFIG = release
OPTIMIZE_release = -O2 -flto=auto -D_FORTIFY_SOURCE=2
OPTIMIZE_asan = -O1 -g -fno-omit-frame-pointer \
	-fsanitize=address,undefined -fno-sanitize-recover=undefined
OPTIMIZE_debug = -O1 -g
OPTIMIZE_clang = -O2
OPTIMIZE_count = $(OPTIMIZE_release) -g
# The release build has had the warnings; counts that are missing give more.
OPTIMIZE_trained = $(OPTIMIZE_release) $(PROFILE)
PROFILE = -fprofile-use -w
OPTIMIZE_cover = -O0 -g --coverage
OPTIMIZE_fuzz = -O1 -g -fno-omit-frame-pointer \
	-fsanitize=fuzzer-no-link,address,undefined \
	-fno-sanitize-recover=undefined
OPTIMIZE_afl = -O2 -g
HARDEN_release = -fstack-protector-strong -fstack-clash-protection \
	-fcf-protection
HARDEN_count = $(HARDEN_release)
HARDEN_trained = $(HARDEN_release)
LINK_release = -O2 -flto=auto -Wl,-z,relro,-z,now -pie
LINK_count = $(LINK_release)
LINK_trained = $(LINK_release) $(PROFILE)
LINK_asan = -fsanitize=address,undefined
LINK_cover = --coverage
LINK_fuzz = -fsanitize=fuzzer,address,undefined
LINK_afl = -fsanitize=fuzzer

CONFINE_asan = -DCONFINE_TRACED
CONFINE_cover = -DCONFINE_NOTHING
CONFINE_count = -DCONFINE_NOTHING

CPPFLAGS = -Isrc -Ibuild -D_GNU_SOURCE $(CONFINE_$(CONFIG)) -DRANGELINE_VERSION='"$(VERSION)"'
WARNINGS = -Wall -Wextra -Wpedantic -Wconversion -Wshadow \
	-Wmissing-prototypes -Wno-overlength-strings -Werror
CFLAGS = -std=c17 -fPIE $(WARNINGS) $(OPTIMIZE_$(CONFIG)) $(HARDEN_$(CONFIG))
LDFLAGS = $(LINK_$(CONFIG))
LDLIBS = -ljansson -lgsl -lgslcblas -lm

O = build/$(CONFIG)
FOLDERS = text diag vocab reference record syntax calc lint write lsp cmd
SOURCES = $(wildcard $(FOLDERS:%=src/%/*.c))
GENERATED = build/lexer.c build/parser.c build/vocab_table.c \
	build/rule_table.c build/reference_table.c build/privacy.c
IDS = build/vocab_ids.h build/rule_ids.h build/parser.h
OBJECTS = $(SOURCES:src/%.c=$O/%.o) $(GENERATED:build/%.c=$O/generated/%.o)
LIBRARY = $(filter-out $O/cmd/main.o,$(OBJECTS))
TESTS = $(wildcard tests/unit/*.c tests/published/*.c tests/properties/*.c)
TEST_OBJECTS = $(TESTS:%.c=$O/%.o)
FUZZ_TARGETS = check tidy tables server
FUZZ_SECONDS = 60
RULE_EXAMPLES = $(wildcard corpus/rules/*/reported.range \
	corpus/rules/*/clean.range)
REFERENCE_TABLES = $(addprefix src/reference/,sources.tsv limits.tsv \
	usual.tsv end_feel.tsv functional.tsv error.tsv guide.tsv)

BUILD_NEEDS = cc:gcc /usr/include/stdlib.h:libc6-dev re2c:re2c bison:bison \
	/usr/include/gsl/gsl_fit.h:libgsl-dev \
	/usr/include/jansson.h:libjansson-dev
CHECK_NEEDS = $(BUILD_NEEDS) /usr/include/check.h:check mandoc:mandoc \
	sqlite3:sqlite3 python3:python3 pkg-config:pkg-config \
	pgrep:procps
MORE_NEEDS = clang:clang clang-format:clang-format \
	/usr/lib/llvm-14/lib/clang/14.0.6/lib/linux:libclang-rt-14-dev \
	valgrind:valgrind soffice:libreoffice-calc shellcheck:shellcheck \
	parallel:parallel patch:patch gcovr:gcovr
STATIC_NEEDS = gcc:gcc clang-tidy:clang-tidy cppcheck:cppcheck \
	scan-build:clang-tools
EDITOR_NEEDS = vim:vim nvim:neovim emacs:emacs-nox nano:nano tmux:tmux \
	git:git node:nodejs npm:npm python3:python3 xmllint:libxml2-utils \
	kate-syntax-highlighter:libkf5syntaxhighlighting-tools \
	xvfb-run:xvfb xauth:xauth zsh:zsh fish:fish \
	/usr/share/gtksourceview-4/language-specs/language2.rng:libgtksourceview-4-common \
	/usr/lib/x86_64-linux-gnu/girepository-1.0/GtkSource-4.typelib:gir1.2-gtksource-4 \
	/usr/lib/python3/dist-packages/gi:python3-gi \
	/usr/share/bash-completion/bash_completion:bash-completion
FUZZ_NEEDS = $(BUILD_NEEDS) clang:clang \
	/usr/lib/llvm-14/lib/clang/14.0.6/lib/linux:libclang-rt-14-dev \
	afl-clang-fast:afl++
BENCH_NEEDS = $(BUILD_NEEDS) mlr:miller mawk:mawk python3:python3

.DELETE_ON_ERROR:
.SUFFIXES:
.PRECIOUS: $O/tests/%.o
.PHONY: all demo check check-more check-unit check-golden check-asan \
	check-valgrind check-format check-layers check-static bench trained \
	cover fuzz fuzz-run install uninstall dist clean update-golden editors

all: build/rangeline

build/rangeline: $O/rangeline
	@ln -f $< $@ 2>/dev/null || cp $< $@

$O/rangeline: $(OBJECTS)
	$(CC) $(LDFLAGS) -o $@ $(OBJECTS) $(LDLIBS)

$O/check: $(TEST_OBJECTS) $(LIBRARY)
	$(CC) $(LDFLAGS) -o $@ $(TEST_OBJECTS) $(LIBRARY) \
	    $$(pkg-config --libs check) $(LDLIBS)

$O/fuzz-%: $O/tests/fuzz/%.o $O/tests/fuzz/entry.o $(LIBRARY)
	$(CC) $(LDFLAGS) -o $@ $^ $(LDLIBS)

# Half the time would go into watching the search for the nearest spelling; the
# dictionary has the words.
build/fuzz/vocab/vocab.o: OPTIMIZE_fuzz += -fno-sanitize-coverage=trace-cmp

$O/%.o: src/%.c | $(IDS)
	@mkdir -p $(@D)
	$(CC) $(CPPFLAGS) $(CFLAGS) -MMD -MP -c -o $@ $<

$O/generated/%.o: build/%.c | $(IDS)
	@mkdir -p $(@D)
	$(CC) $(CPPFLAGS) $(CFLAGS) -MMD -MP -c -o $@ $<

$O/tests/%.o: tests/%.c | $(IDS)
	@mkdir -p $(@D)
	$(CC) $(CPPFLAGS) $(CFLAGS) -MMD -MP -c -o $@ $<

-include $(OBJECTS:.o=.d) $(TEST_OBJECTS:.o=.d) \
	$(wildcard $O/tests/fuzz/*.d)

# What is generated: the words, the rules, the reference tables, the language.
build/vocab_ids.h: grammar/vocabulary.tsv src/vocab/generate.awk
	@mkdir -p $(@D)
	$(AWK) -v part=ids -f src/vocab/generate.awk $< >$@

build/vocab_table.c: grammar/vocabulary.tsv src/vocab/generate.awk
	@mkdir -p $(@D)
	$(AWK) -v part=table -f src/vocab/generate.awk $< >$@

build/rule_ids.h: src/diag/rules.tsv src/diag/generate.awk
	@mkdir -p $(@D)
	$(AWK) -v part=ids -f src/diag/generate.awk $< >$@

build/rule_table.c: src/diag/rules.tsv src/diag/generate.awk $(RULE_EXAMPLES)
	@mkdir -p $(@D)
	$(AWK) -v part=table -v examples=corpus/rules \
	    -f src/diag/generate.awk $< >$@

build/reference_table.c: src/reference/generate.awk grammar/vocabulary.tsv \
	    $(REFERENCE_TABLES)
	@mkdir -p $(@D)
	$(AWK) -f $^ >$@

build/parser.c build/parser.h &: grammar/parser.y
	@mkdir -p $(@D)
	$(BISON) -Wall -Wdangling-alias -Wcounterexamples -Werror \
	    --header=build/parser.h -o build/parser.c $<

build/lexer.c: grammar/lexer.re
	@mkdir -p $(@D)
	$(RE2C) -W -Werror --bit-vectors -o $@ $<

build/privacy.c: src/lint/privacy.re
	@mkdir -p $(@D)
	$(RE2C) -W -Werror --bit-vectors -o $@ $<

# Showing and testing.
demo:
	@build-aux/need $(BUILD_NEEDS)
	@$(MAKE) --no-print-directory -j2 all
	@build-aux/demo build/rangeline

check:
	@build-aux/need $(CHECK_NEEDS)
	@$(MAKE) --no-print-directory -j2 all $O/check
	@tests/run.sh build/rangeline $O/check

check-more:
	@build-aux/need $(CHECK_NEEDS) $(MORE_NEEDS) $(STATIC_NEEDS) \
	    $(EDITOR_NEEDS) $(FUZZ_NEEDS)
	@tests/run-more.sh

# Writes the word lists of the editor files from the vocabulary.
editors:
	@build-aux/fill-editors

check-format:
	@clang-format --dry-run --Werror $$(git ls-files '*.[ch]')

# What analyzers see without running anything.
check-static:
	@build-aux/need $(BUILD_NEEDS) $(STATIC_NEEDS)
	@tests/static.sh

check-layers:
	@tests/layers.sh

update-golden: all
	@tests/golden.sh build/rangeline --update

# Each target for FUZZ_SECONDS, two at a time, by libFuzzer and by AFL++.
fuzz:
	@build-aux/need $(FUZZ_NEEDS)
	@$(MAKE) --no-print-directory fuzz-run

fuzz-run:
	@$(MAKE) --no-print-directory -j2 CC=clang CONFIG=fuzz \
	    $(FUZZ_TARGETS:%=build/fuzz/fuzz-%) >/dev/null
	@if command -v afl-clang-fast >/dev/null; then AFL_QUIET=1 \
	    $(MAKE) --no-print-directory -j2 CC=afl-clang-fast CONFIG=afl \
	    $(FUZZ_TARGETS:%=build/afl/fuzz-%) >/dev/null; fi
	@tests/fuzz/run.sh $(FUZZ_SECONDS) $(FUZZ_TARGETS)

bench:
	@build-aux/need $(BENCH_NEEDS)
	@$(MAKE) --no-print-directory -j2 all
	@tests/bench/run.sh build/rangeline

# The release build once more, by what a run over invented readings showed to
# be the common path: some 12 % fewer instructions, three times the building.
trained:
	@rm -rf build/trained
	@$(MAKE) --no-print-directory -j2 CONFIG=trained \
	    PROFILE='-fprofile-generate -fprofile-update=single' \
	    build/trained/rangeline
	@build-aux/train build/trained
	@$(MAKE) --no-print-directory -j2 CONFIG=trained \
	    build/trained/rangeline

cover:
	@build-aux/need $(CHECK_NEEDS) gcovr:gcovr tmux:tmux
	@$(MAKE) --no-print-directory -j2 CONFIG=cover build/cover/rangeline \
	    build/cover/check >/dev/null
	@tests/cover.sh

install: all
	install -d $(DESTDIR)$(PREFIX)/bin \
	    $(DESTDIR)$(PREFIX)/share/man/man1 \
	    $(DESTDIR)$(PREFIX)/share/man/man5 \
	    $(DESTDIR)$(PREFIX)/share/man/man7
	install -m 755 build/rangeline $(DESTDIR)$(PREFIX)/bin/rangeline
	install -m 644 man/rangeline.1 $(DESTDIR)$(PREFIX)/share/man/man1/
	install -m 644 man/rangeline.5 $(DESTDIR)$(PREFIX)/share/man/man5/
	install -m 644 man/rangeline-rules.7 \
	    $(DESTDIR)$(PREFIX)/share/man/man7/
	install -d $(DESTDIR)$(PREFIX)/share/rangeline/recipes
	install -m 755 recipes/over-notes recipes/note-rows \
	    $(DESTDIR)$(PREFIX)/share/rangeline/recipes/
	build-aux/install-editors install $(DESTDIR)$(PREFIX)/share \
	    build/rangeline

uninstall:
	rm -f $(DESTDIR)$(PREFIX)/bin/rangeline \
	    $(DESTDIR)$(PREFIX)/share/man/man1/rangeline.1 \
	    $(DESTDIR)$(PREFIX)/share/man/man5/rangeline.5 \
	    $(DESTDIR)$(PREFIX)/share/man/man7/rangeline-rules.7 \
	    $(DESTDIR)$(PREFIX)/share/rangeline/recipes/over-notes \
	    $(DESTDIR)$(PREFIX)/share/rangeline/recipes/note-rows
	rmdir $(DESTDIR)$(PREFIX)/share/rangeline/recipes || true
	build-aux/install-editors uninstall $(DESTDIR)$(PREFIX)/share

dist:
	git archive --prefix=rangeline-$(VERSION)/ HEAD \
	    | gzip -9n >rangeline-$(VERSION).tar.gz

clean:
	rm -rf build rangeline-$(VERSION).tar.gz
