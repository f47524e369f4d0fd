# Two words do everything: `make demo` runs the main job, `make test` runs every check.
PYTHON ?= python3
BIN := .venv/bin

.PHONY: demo test test-fast explore lint bench simulate reference wheels clean

demo: .venv/ready
	$(BIN)/evsyn demo

test: .venv/ready-test lint
	$(BIN)/pytest -n auto

test-fast: .venv/ready-test lint
	$(BIN)/pytest -n auto -m "not slow"

# New examples every time, for the tests that hold for any input; `make test` keeps to the same ones.
explore: .venv/ready-test
	EVSYN_EXAMPLES=explore $(BIN)/pytest -n auto -m hypothesis

lint: .venv/ready-test
	$(BIN)/ruff check evsyn tests
	$(BIN)/ruff format --check evsyn tests
	$(BIN)/mypy

bench: .venv/ready-test
	$(BIN)/python -m tests.benchmarks

simulate: .venv/ready-test
	$(BIN)/python -m tests.simulation --write

reference: .venv/ready
	$(BIN)/python -m evsyn.extraction.reference docs/reference
	$(BIN)/python -m tests.install.sheet
	$(BIN)/python -m evsyn.extraction.schema

# All that a computer without a network needs, for Windows, macOS and this one: 0.7 GB in wheels/.
wheels: .venv/ready-test
	$(BIN)/python -m tests.install.fill

clean:
	rm -rf .venv

.venv/ready: pyproject.toml
	$(PYTHON) -m venv .venv
	$(BIN)/python -m pip install --quiet --editable .
	touch $@

.venv/ready-test: .venv/ready
	$(BIN)/python -m pip install --quiet --editable ".[test]"
	touch $@
