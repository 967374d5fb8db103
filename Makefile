# make demo   builds the sample shelf and says where it is
# make test   every gate: formatting, types, tests, documents
# make bench  times against their floors
# Each sets up all that it needs; nothing is set up twice.

PYTHON ?=
OUT ?= out
VENV := .venv
BIN := $(VENV)/bin
NPM := .cache/npm

.PHONY: demo test lint types bench snapshots format clean
.DELETE_ON_ERROR:

demo: $(VENV)/demo.stamp
	@$(BIN)/guidec shelf site -o $(OUT)/demo
	@echo "open $(CURDIR)/$(OUT)/demo/index.html"

test: lint types $(NPM)/stamp .cache/pillow/version
	@$(BIN)/pytest -n 2 --dist worksteal

lint: $(VENV)/test.stamp
	@$(BIN)/ruff check .
	@$(BIN)/ruff format --check --quiet .

types: $(VENV)/test.stamp
	@$(BIN)/mypy

bench: $(VENV)/test.stamp
	@$(BIN)/python -m bench

# Renews the full reports that tests compare with, after a wording was changed on purpose.
snapshots: $(VENV)/test.stamp
	@RENEW=1 $(BIN)/pytest tests/messages tests/cli

format: $(VENV)/test.stamp
	@$(BIN)/ruff check --fix --quiet . ; $(BIN)/ruff format --quiet .

clean:
	rm -rf $(OUT) $(NPM) .pytest_cache .mypy_cache .ruff_cache .hypothesis build dist

$(VENV)/demo.stamp: requirements/run.txt pyproject.toml
	@PYTHON='$(PYTHON)' sh tools/system.sh demo
	@PYTHON='$(PYTHON)' sh tools/venv.sh $(VENV) requirements/run.txt
	@touch $@

$(VENV)/test.stamp: requirements/run.txt requirements/test.txt requirements/tables.txt pyproject.toml
	@PYTHON='$(PYTHON)' sh tools/system.sh test
	@PYTHON='$(PYTHON)' sh tools/venv.sh $(VENV) requirements/test.txt requirements/tables.txt
	@touch $@ $(VENV)/demo.stamp

# The images that Pillow tests itself with, from its source package.
.cache/pillow/version: requirements/run.txt tools/test_images.py | $(VENV)/test.stamp
	@$(BIN)/python tools/test_images.py
	@touch $@

$(NPM)/stamp: tests/npm/package.json tests/npm/package-lock.json | $(VENV)/test.stamp
	@mkdir -p $(NPM)
	@cp tests/npm/package.json tests/npm/package-lock.json $(NPM)/
	@cd $(NPM) && npm ci --ignore-scripts --no-audit --no-fund --silent
	@touch $@
