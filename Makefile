# SPDX-License-Identifier: GPL-3.0-or-later
# neckhew's build, for GNU make. `make help` lists what can be asked of it.
#
# New files need no edit here: sources, headers and tests are found by place.
#   core/**/*.c                  -> build/libcore.a
#   post/**/*.c but cli/main.c   -> build/libpost.a
#   post/page/assets/*           -> build/generated/page_assets.c, which goes into libpost
#   post/cli/main.c              -> build/neckhew
#   tests/core/**/test_*.c       -> one program each, linked with core alone
#   tests/post/**/test_*.c       -> one program each, linked with both
#   tests/support/*.c            -> helpers that any test may use

BUILD = build
PREFIX = /usr/local
DESTDIR =
PKG_CONFIG = pkg-config
ifeq ($(origin CC),default)
CC = gcc
endif

# Libraries by their pkg-config names. Core computes and needs no more than GSL.
CORE_PACKAGES = gsl
POST_PACKAGES = $(CORE_PACKAGES) libconfig cairo jansson nettle zlib
TEST_PACKAGES = cmocka

# The same inputs must give the same bytes on every machine: no contraction to
# fused multiply-add, no reordering of sums, never fast-math. What is switched
# off below changes no result: neckhew reads neither errno after a square root
# nor the processor's exception flags, and without them loops can be
# vectorised, which is what -O3 is for.
OPTIMISE = -O3 -fno-math-errno -fno-trapping-math
SANITIZE =
WERROR =
WARNINGS = -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wmissing-prototypes \
	-Wstrict-prototypes -Wold-style-definition -Wmissing-declarations -Wcast-align \
	-Wcast-qual -Wwrite-strings -Wpointer-arith -Wundef -Wvla -Wformat=2 \
	-Wno-format-nonliteral -Winit-self -Wimplicit-fallthrough
ifeq ($(findstring clang,$(CC)),)
WARNINGS += -Wlogical-op -Wduplicated-cond -Wduplicated-branches -Wtrampolines
endif
LANGUAGE = -std=c17 -D_POSIX_C_SOURCE=200809L -fopenmp -ffp-contract=off
COMPILE = $(CC) $(LANGUAGE) $(OPTIMISE) -g $(WARNINGS) $(WERROR) $(SANITIZE) $(CFLAGS)
LINK = $(CC) -fopenmp $(OPTIMISE) -g $(SANITIZE) $(LDFLAGS)

# Core is compiled without sight of post.
CORE_INCLUDE = -Icore
POST_INCLUDE = -Icore -Ipost

# Asked of pkg-config at first use and remembered, so that targets that need no
# library do not need pkg-config either. Libraries' headers count as the
# system's: their warnings are not ours.
cflags_of = $(patsubst -I%,-isystem %,$(shell $(PKG_CONFIG) --cflags $(1)))
libs_of = $(shell $(PKG_CONFIG) --libs $(1))
CORE_CFLAGS = $(eval CORE_CFLAGS := $$(call cflags_of,$(CORE_PACKAGES)))$(CORE_CFLAGS)
POST_CFLAGS = $(eval POST_CFLAGS := $$(call cflags_of,$(POST_PACKAGES)))$(POST_CFLAGS)
TEST_CFLAGS = $(eval TEST_CFLAGS := $$(call cflags_of,$(TEST_PACKAGES)))$(TEST_CFLAGS)
CORE_LIBS = $(eval CORE_LIBS := $$(call libs_of,$(CORE_PACKAGES)) -lm)$(CORE_LIBS)
POST_LIBS = $(eval POST_LIBS := $$(call libs_of,$(POST_PACKAGES)) -lm)$(POST_LIBS)
TEST_LIBS = $(eval TEST_LIBS := $$(call libs_of,$(TEST_PACKAGES)))$(TEST_LIBS)

find = $(sort $(shell find $(1) -type f -name '$(2)' 2>/dev/null))
CORE_SOURCE := $(call find,core,*.c)
POST_SOURCE := $(filter-out post/cli/main.c,$(call find,post,*.c))
SUPPORT_SOURCE := $(call find,tests/support,*.c)
CORE_TEST_SOURCE := $(call find,tests/core,test_*.c)
POST_TEST_SOURCE := $(call find,tests/post,test_*.c)

# The page's parts. Its scripts run in the order of their names, but those that
# start it come last.
PAGE_LIBRARY = /usr/share/javascript/three/three.min.js
PAGE_COPYRIGHT = /usr/share/doc/libjs-three/copyright
PAGE_SCRIPTS := $(call find,post/page/assets,*.js)
PAGE_START := $(filter post/page/assets/9%,$(PAGE_SCRIPTS))
PAGE_ASSETS := post/page/assets/page.html $(call find,post/page/assets,*.css) \
	$(filter-out $(PAGE_START),$(PAGE_SCRIPTS)) $(PAGE_START)

OBJECTS = $(BUILD)/objects
objects_of = $(patsubst %.c,$(OBJECTS)/%.o,$(1))
PROGRAM = $(BUILD)/neckhew
CORE = $(BUILD)/libcore.a
POST = $(BUILD)/libpost.a
SUPPORT = $(BUILD)/libsupport.a
CORE_TESTS = $(patsubst %.c,$(BUILD)/%,$(CORE_TEST_SOURCE))
POST_TESTS = $(patsubst %.c,$(BUILD)/%,$(POST_TEST_SOURCE))
TESTS = $(CORE_TESTS) $(POST_TESTS)

# `make V=1` shows whole commands, otherwise one word and the file concerned.
ifeq ($(V),)
QUIET = @
say = @printf '  %-5s %s\n' '$(1)' '$(2)'
else
say = @:
endif
MAKEFLAGS += --no-print-directory
NEEDS = CC='$(CC)' PKG_CONFIG='$(PKG_CONFIG)' PAGE_LIBRARY='$(PAGE_LIBRARY)' .ci/needs
PROCESSORS = $(shell nproc)

.DELETE_ON_ERROR:
.SUFFIXES:
.SECONDARY:
.PHONY: all demo check test layers headers docs lint format asan install uninstall clean \
	help demo-now check-now check-build asan-now lint-now look-build look-test FORCE

all: $(PROGRAM) ## the program build/neckhew (made when nothing is asked for)

# Packages are looked for before anything is compiled, so that a missing one is
# named instead of drowning in the compiler's messages.
look-build:
	@$(NEEDS) --look build
look-test:
	@$(NEEDS) --look test

# Files that hold a text and are touched only when the text changes: what
# depends on them is made anew when the flags or the list of files change.
define remember
@mkdir -p $(@D)
@printf '%s\n' '$(1)' | cmp -s - $@ || printf '%s\n' '$(1)' >$@
endef
$(BUILD)/flags: FORCE
	$(call remember,$(COMPILE) $(LDFLAGS))
$(BUILD)/core.list: FORCE
	$(call remember,$(CORE_SOURCE))
$(BUILD)/post.list: FORCE
	$(call remember,$(POST_SOURCE))
$(BUILD)/page.list: FORCE
	$(call remember,$(PAGE_ASSETS))
$(BUILD)/support.list: FORCE
	$(call remember,$(SUPPORT_SOURCE))
FORCE:

define compile
@mkdir -p $(@D)
$(call say,CC,$<)
$(QUIET)$(COMPILE) $(1) -MMD -MP -c -o $@ $<
endef
$(OBJECTS)/core/%.o: core/%.c $(BUILD)/flags Makefile | look-build
	$(call compile,$(CORE_INCLUDE) $(CORE_CFLAGS))
$(OBJECTS)/post/%.o: post/%.c $(BUILD)/flags Makefile | look-build
	$(call compile,$(POST_INCLUDE) $(POST_CFLAGS))
$(OBJECTS)/tests/core/%.o: tests/core/%.c $(BUILD)/flags Makefile | look-test
	$(call compile,$(CORE_INCLUDE) -Itests $(CORE_CFLAGS) $(TEST_CFLAGS))
$(OBJECTS)/tests/%.o: tests/%.c $(BUILD)/flags Makefile | look-test
	$(call compile,$(POST_INCLUDE) -Itests $(POST_CFLAGS) $(TEST_CFLAGS))

# The page's parts as C. The library is the system's; where it is missing, that
# is said before make finds no rule for it.
GENERATED = $(BUILD)/generated/page_assets
$(PAGE_LIBRARY) $(PAGE_COPYRIGHT): | look-build
$(GENERATED).c: post/page/embed $(PAGE_LIBRARY) $(PAGE_COPYRIGHT) $(PAGE_ASSETS) \
		$(BUILD)/page.list
	@mkdir -p $(@D)
	$(call say,PAGE,$@)
	$(QUIET)post/page/embed $(PAGE_LIBRARY) $(PAGE_COPYRIGHT) $(PAGE_ASSETS) >$@
$(GENERATED).o: $(GENERATED).c $(BUILD)/flags Makefile | look-build
	$(call compile,$(POST_INCLUDE) $(POST_CFLAGS))

# An archive is made anew as a whole, so that no member outlives its source.
define archive
@rm -f $@
$(call say,AR,$@)
$(QUIET)$(AR) rcsD $@ $(filter %.o,$^)
endef
$(CORE): $(call objects_of,$(CORE_SOURCE)) $(BUILD)/core.list
	$(archive)
$(POST): $(call objects_of,$(POST_SOURCE)) $(GENERATED).o $(BUILD)/post.list
	$(archive)
$(SUPPORT): $(call objects_of,$(SUPPORT_SOURCE)) $(BUILD)/support.list
	$(archive)

define link
@mkdir -p $(@D)
$(call say,LINK,$@)
$(QUIET)$(LINK) -o $@ $< $(1)
endef
$(PROGRAM): $(OBJECTS)/post/cli/main.o $(POST) $(CORE)
	$(call link,$(POST) $(CORE) $(POST_LIBS))

# Tests that make memory run out (tests/support/memory.h) have the allocator's
# names led by way of the helper that refuses.
%_memory: REFUSING = -Wl,--wrap=malloc -Wl,--wrap=calloc -Wl,--wrap=realloc
# Helpers and archives may ask each other for what they lack.
TOGETHER = -Wl,--start-group
APART = -Wl,--end-group
$(CORE_TESTS): $(BUILD)/tests/%: $(OBJECTS)/tests/%.o $(SUPPORT) $(CORE)
	$(call link,$(REFUSING) $(TOGETHER) $(CORE) $(SUPPORT) $(APART) \
		$(CORE_LIBS) $(TEST_LIBS))
$(POST_TESTS): $(BUILD)/tests/%: $(OBJECTS)/tests/%.o $(SUPPORT) $(POST) $(CORE)
	$(call link,$(REFUSING) $(TOGETHER) $(POST) $(CORE) $(SUPPORT) $(APART) \
		$(POST_LIBS) $(TEST_LIBS))

# A locale that writes decimal commas, for the test that none of them gets into a
# program. It lives in the build folder; the machine's own are left alone.
COMMA_LOCALE = $(BUILD)/locale/de_DE.UTF-8
TALLY = LOCPATH='$(abspath $(BUILD))/locale' tests/house/tally $(BUILD)/logs
$(COMMA_LOCALE): | look-test
	@mkdir -p $(@D)
	$(QUIET)localedef -i de_DE -f UTF-8 $@ </dev/null

# All of core with nothing behind it but GSL: a reach into post that no include
# shows fails to link here.
$(BUILD)/core_alone: $(CORE)
	$(call say,LINK,$@)
	$(QUIET)echo 'int main(void) { return 0; }' | $(LINK) -o $@ -x c - -x none \
		-Wl,--whole-archive $(CORE) -Wl,--no-whole-archive $(CORE_LIBS)

-include $(GENERATED).d
-include $(patsubst %.c,$(OBJECTS)/%.d,$(CORE_SOURCE) $(POST_SOURCE) post/cli/main.c \
	$(SUPPORT_SOURCE) $(CORE_TEST_SOURCE) $(POST_TEST_SOURCE))

# What must be installed comes first, and the rest is a second make: only then
# can pkg-config be asked.
demo: ## installs what is missing, builds, and plans the example neck into build/demo
	@$(NEEDS) build
	@$(MAKE) demo-now
demo-now: $(PROGRAM)
	@$(PROGRAM) rough examples/steel-string/neck.cfg -o $(BUILD)/demo --replace
	@tests/house/tour $(BUILD)/demo

check: ## everything that must hold; ends with "N passed, N failed"
	@$(NEEDS) check
	@$(MAKE) check-now

# A test that does not compile must not hide the others, and must not pass by
# an older program that happens to lie in the build folder.
check-build: $(PROGRAM) $(TESTS) $(BUILD)/core_alone $(COMMA_LOCALE)
	@touch $(BUILD)/built
check-now:
	@rm -f $(BUILD)/built
	-@$(MAKE) -k check-build
	@$(TALLY) \
		--check 'build' 'test -e $(BUILD)/built' \
		--check 'layers' 'tests/house/layers' \
		--check 'headers' '$(HEADERS_ALONE)' \
		--check 'docs' 'tests/house/docs $(PROGRAM)' \
		--check 'formatting' 'tests/house/format --look' \
		--check 'cppcheck' '$(CPPCHECK)' \
		$(HOUSE_TESTS) $(UNIT_TESTS) $(CLI_TESTS) $(BROWSER_TESTS)

HOUSE_TESTS = $(foreach test,$(wildcard tests/house/test_*),--tests $(test:tests/%=%) $(test))
UNIT_TESTS = $(foreach test,$(TESTS),--tests $(test:$(BUILD)/tests/%=%) $(test))
CLI_TESTS = $(if $(wildcard tests/cli/run),--tests cli 'tests/cli/run $(PROGRAM)') \
	$(if $(wildcard tests/cli/spoiled),--tests spoiled 'tests/cli/spoiled $(PROGRAM)')
BROWSER_TESTS = $(if $(wildcard tests/browser/run),--tests browser 'tests/browser/run $(PROGRAM)')

test: $(TESTS) $(COMMA_LOCALE) ## the unit tests alone
	@$(TALLY) $(UNIT_TESTS)

layers: $(BUILD)/core_alone ## no include and no call runs against the order of layers
	@tests/house/layers

HEADERS_ALONE = tests/house/headers "$(CC) $(LANGUAGE) $(WARNINGS) -Werror" \
	"$(CORE_CFLAGS)" "$(POST_CFLAGS)" "$(TEST_CFLAGS)"
headers: look-test ## each header compiles alone
	@$(HEADERS_ALONE)

docs: $(PROGRAM) ## pages and manual pages agree with the tree and the program
	@tests/house/docs $(PROGRAM)

CPPCHECK = mkdir -p $(BUILD)/cppcheck && cppcheck --quiet --std=c11 --inline-suppr \
	--enable=warning,performance,portability --suppressions-list=tests/house/cppcheck.supp \
	--library=posix --error-exitcode=1 --cppcheck-build-dir=$(BUILD)/cppcheck \
	-j $(PROCESSORS) -D_POSIX_C_SOURCE=200809L $(POST_INCLUDE) core post
TIDY = find core post tests/support -name "*.c" | sort | \
	xargs -n 1 -P $(PROCESSORS) tests/house/tidy \
	-std=c17 -D_POSIX_C_SOURCE=200809L $(POST_INCLUDE) -Itests $(POST_CFLAGS) $(TEST_CFLAGS) --

lint: ## clang-tidy, cppcheck, formatting
	@$(NEEDS) lint
	@$(MAKE) lint-now
lint-now:
	@$(TALLY) \
		--check 'formatting' 'tests/house/format --look' \
		--check 'cppcheck' '$(CPPCHECK)' \
		--check 'clang-tidy' '$(TIDY)'

format: ## lays out all C files
	@tests/house/format

# The whole suite once more with every access and every arithmetic step watched.
asan: look-test ## all tests with the address and undefined-behaviour sanitizers
	@$(MAKE) asan-now BUILD=$(BUILD)/asan OPTIMISE='-O1 -fno-omit-frame-pointer' \
		SANITIZE='-fsanitize=address,undefined -fno-sanitize-recover=all'
asan-now: $(PROGRAM) $(TESTS) $(COMMA_LOCALE)
	@ASAN_OPTIONS=allocator_may_return_null=1 UBSAN_OPTIONS=print_stacktrace=1 \
		LSAN_OPTIONS=suppressions=tests/house/leaks.supp:print_suppressions=0 \
		$(TALLY) $(UNIT_TESTS) $(CLI_TESTS)

SHARE = $(DESTDIR)$(PREFIX)/share
install: $(PROGRAM) ## into DESTDIR and PREFIX (/usr/local)
	install -d '$(DESTDIR)$(PREFIX)/bin' '$(SHARE)/neckhew'
	install -m 755 $(PROGRAM) '$(DESTDIR)$(PREFIX)/bin/neckhew'
	for page in $(wildcard docs/*.1 docs/*.5); do \
		install -D -m 644 $$page "$(SHARE)/man/man$${page##*.}/$${page##*/}" || exit 1; \
	done
	find configs examples -type f | while read -r file; do \
		install -D -m 644 "$$file" "$(SHARE)/neckhew/$$file" || exit 1; \
	done
uninstall: ## takes away what install put there
	rm -f '$(DESTDIR)$(PREFIX)/bin/neckhew'
	for page in $(wildcard docs/*.1 docs/*.5); do \
		rm -f "$(SHARE)/man/man$${page##*.}/$${page##*/}" || exit 1; \
	done
	rm -rf '$(SHARE)/neckhew'

clean: ## takes away all that was built
	rm -rf $(BUILD)

help: ## this list
	@awk -F ':.*## ' '/^[a-z]+:.*## / { printf "  make %-10s %s\n", $$1, $$2 }' Makefile
