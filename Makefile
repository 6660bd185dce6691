# firedeck: one word per habit. `make` alone lists them.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
PIP := $(BIN)/python -m pip --disable-pip-version-check
STAMP := $(VENV)/.ready
PYTHON_FILES := src tests benchmarks docs hatch_build.py

.DEFAULT_GOAL := help
.PHONY: help setup demo test test-tools prove serve lint types contracts tests golden docs resolve clean

help:  ## list the words
	@grep -E '^[a-z-]+:.*##' $(MAKEFILE_LIST) | sed -E 's/:.*## /\t/' | expand -t 14

setup: $(STAMP)  ## make the environment: everything pinned in constraints.txt

$(STAMP): pyproject.toml constraints.txt
	$(PYTHON) -m venv $(VENV)
	$(PIP) install -q --constraint constraints.txt --editable ".[test,dev]"
	@touch $(STAMP)

demo: setup  ## run the main job on an invented engine, from document to paper
	$(BIN)/firedeck demo

test: setup lint types contracts tests  ## lint, types, contracts and tests

lint: setup
	$(BIN)/ruff check $(PYTHON_FILES)
	$(BIN)/ruff format --check $(PYTHON_FILES)

types: setup
	$(BIN)/mypy

contracts: setup
	$(BIN)/lint-imports

tests: setup
	$(BIN)/python -m pytest -q; end=$$?; echo; echo "Seconds per test folder:"; cat out/seconds.txt; exit $$end

test-tools:  ## install the Debian packages that only tests need
	@command -v apt-get >/dev/null || { echo "test-tools needs apt-get (Debian)"; exit 1; }
	@{ command -v chromium && command -v ccx; } >/dev/null 2>&1 \
		|| { apt-get -qq update && DEBIAN_FRONTEND=noninteractive apt-get -qq install -y chromium calculix-ccx; }

prove: setup  ## run the full benchmark sets, writes benchmarks/results/
	$(BIN)/python benchmarks/prove.py

serve: setup  ## show the page on this machine
	$(BIN)/firedeck serve

golden: setup  ## rewrite the stored texts on purpose
	$(BIN)/python tests/golden/rewrite.py

docs: setup  ## write the generated pages of docs/ again
	$(BIN)/python docs/generate.py

resolve: setup  ## show that every dependency of the wheel exists ready-made for Windows and macOS
	$(BIN)/python tests/wheel/resolve.py

clean:  ## take away what was made here
	rm -rf $(VENV) out dist build .mypy_cache .ruff_cache .pytest_cache .hypothesis
