# Each target does all of its own set-up; a second run installs nothing and needs no network.
.DEFAULT_GOAL := help
.PHONY: help setup sheets test bench audit audit-quick mutate serve clean pins

firstfill := .venv/bin/firstfill

help:
	@echo "make sheets   set up, then build the demonstration: site and PDFs, into build/"
	@echo "make test     set up with what the tests need, then ruff, mypy and pytest"
	@echo "make setup    set up alone: .venv/bin/firstfill"
	@echo "make serve    the site, built anew whenever a fact or a word changes"
	@echo "make bench    how long loading, computing, composing and printing take"
	@echo "make audit    what checkers made by others find on the built pages and PDFs"
	@echo "make audit-quick   the same without axe-core, as .ci/run asks"
	@echo "make mutate   whether the tests notice each changed line of physics (an hour or more)"
	@echo "make pins     resolve pyproject.toml anew into the requirements files (needs uv)"
	@echo "make clean    take away build/ and what the tools cached"

setup:
	@generator/setup.sh program

sheets: setup
	$(firstfill) sheet --all
	$(firstfill) site

test:
	@generator/setup.sh tests
	.venv/bin/ruff check
	.venv/bin/ruff format --check
	.venv/bin/mypy
	PYTHONDONTWRITEBYTECODE= .venv/bin/pytest -n auto --dist worksteal

bench:
	@generator/setup.sh program
	.venv/bin/python generator/bench.py

audit audit-quick: sheets
	@generator/setup.sh tests
	@generator/setup.sh audit
	.venv/bin/python generator/audit/audit.py $(if $(findstring quick,$@),--quick) build

mutate:
	@generator/setup.sh tests
	@generator/setup.sh mutation
	.venv/bin/python generator/mutation/mutate.py

serve: setup
	$(firstfill) serve

clean:
	rm -rf build .mypy_cache .pytest_cache .ruff_cache .hypothesis

pins:
	generator/pin-requirements.sh
