#!/bin/sh
# Set up what the program needs, or the tests too, or the checkers of outputs and tests: Python packages into .venv, and
# where the system lacks them the libraries that set type in PDFs, the browser that drives the built pages, and Java and
# npm for the checkers. A second run installs nothing.
#
#     generator/setup.sh program|tests|audit|mutation
#
#     PYTHON            the Python to use (3.11 or newer); else the first that fits of python3, python3.14, …
#     FIRSTFILL_WHEELS  folder where fetched packages are kept, so that another clone needs no network
#     FIRSTFILL_CHROMIUM  the browser of the tests, where it is not on PATH
set -eu
cd "$(dirname "$0")/.."

what=${1:-program}
case $what in
program) requirements=requirements.txt ;;
tests) requirements=requirements-test.txt ;;
audit | mutation) requirements=generator/$what/requirements.txt ;;
*)
    echo "set-up: '$what' is not known; say: generator/setup.sh program, tests, audit or mutation" >&2
    exit 2
    ;;
esac
wheels=${FIRSTFILL_WHEELS:-${XDG_CACHE_HOME:-${HOME:-$PWD/.venv}/.cache}/firstfill/wheels}

say() { echo "set-up: $*" >&2; }
fail() {
    say "$*"
    exit 1
}

may_use_apt() { [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null 2>&1; }
apt_install() {
    say "installing $*"
    export DEBIAN_FRONTEND=noninteractive
    apt-get -qq update </dev/null >/dev/null 2>&1 || true
    apt-get -qq install -y --no-install-recommends "$@" </dev/null >/dev/null 2>&1
}

stamp_text() {
    { cat generator/setup.sh pyproject.toml "$requirements" generator/audit/package-lock.json && echo "$PWD"; } | cksum
}
is_done() {
    [ "$(cat ".venv/set-up-$what" 2>/dev/null)" = "$(stamp_text)" ] && .venv/bin/python -c '' 2>/dev/null
}

fits() { "$1" -c 'import sys; sys.exit(sys.version_info < (3, 11))' >/dev/null 2>&1; }
find_python() {
    for candidate in ${PYTHON:-python3 python3.14 python3.13 python3.12 python3.11}; do
        if fits "$candidate"; then
            command -v "$candidate"
            return 0
        fi
    done
    return 1
}

# The names by which WeasyPrint looks for its libraries.
lacks_library() {
    ! "$python" - "$@" <<'PYTHON'
import ctypes, ctypes.util, sys
def there(names):
    for name in names:
        try:
            return bool(ctypes.CDLL(ctypes.util.find_library(name) or name))
        except OSError:
            pass
    return False
sys.exit(not there(sys.argv[1:]))
PYTHON
}

set_up_python() {
    python=$(find_python) || {
        if [ -z "${PYTHON:-}" ] && ! command -v python3 >/dev/null 2>&1 && may_use_apt; then
            apt_install python3 python3-venv || true
        fi
        python=$(find_python) || fail "needs Python 3.11 or newer, found" \
            "$("${PYTHON:-python3}" --version 2>/dev/null || echo none);" \
            "install one, or name it: make $goal PYTHON=/path/to/python3"
    }
    if ! "$python" -c 'import ensurepip, venv' 2>/dev/null; then
        package=$("$python" -c 'import sys; print("python%d.%d-venv" % sys.version_info[:2])')
        if may_use_apt; then apt_install "$package" || true; fi
        "$python" -c 'import ensurepip, venv' 2>/dev/null ||
            fail "this Python cannot make a virtual environment; install the package $package and run again"
    fi
}

set_up_typesetting() {
    lacking=
    if lacks_library libpango-1.0.so.0 pango-1.0 || lacks_library libpangoft2-1.0.so.0 pangoft2-1.0; then
        lacking="libpango-1.0-0 libpangoft2-1.0-0"
    fi
    if lacks_library libharfbuzz-subset.so.0 harfbuzz-subset; then lacking="$lacking libharfbuzz-subset0"; fi
    if [ -z "$lacking" ]; then return 0; fi
    if may_use_apt; then
        # shellcheck disable=SC2086
        apt_install $lacking || say "apt could not install: $lacking"
    fi
    if lacks_library libpango-1.0.so.0 pango-1.0 || lacks_library libpangoft2-1.0.so.0 pangoft2-1.0; then
        fail "PDFs need Pango; install (names of Debian and Ubuntu): $lacking"
    fi
    if lacks_library libharfbuzz-subset.so.0 harfbuzz-subset; then
        say "PDFs take twice as long without HarfBuzz's subsetter; install (name of Debian and Ubuntu): libharfbuzz-subset0"
    fi
}

set_up_browser() {
    for browser in "${FIRSTFILL_CHROMIUM:-chromium}" chromium-browser google-chrome; do
        if command -v "$browser" >/dev/null 2>&1; then return 0; fi
    done
    if may_use_apt; then apt_install chromium || true; fi
    command -v chromium >/dev/null 2>&1 ||
        say "NO BROWSER: the tests that drive the pages will not run; install (name of Debian and Ubuntu): chromium"
}

set_up_checkers() {
    lacking=
    command -v java >/dev/null 2>&1 || lacking="default-jre-headless"
    if [ ! -e /usr/share/java/jaxb-runtime.jar ]; then lacking="$lacking libjaxb-java"; fi
    command -v npm >/dev/null 2>&1 || lacking="$lacking npm"
    if [ -n "$lacking" ] && may_use_apt; then
        # shellcheck disable=SC2086
        apt_install $lacking || true
    fi
    for command in java npm; do
        command -v $command >/dev/null 2>&1 || fail "the checkers need $command; install (names of Debian): $lacking"
    done
    npm ci --prefix generator/audit --ignore-scripts --no-audit --no-fund --silent </dev/null ||
        fail "npm could not install the checkers of generator/audit/package-lock.json; connect to a network and run again"
}

pip() { .venv/bin/python -m pip --disable-pip-version-check --no-input --quiet "$@" </dev/null; }
install_from_wheels() {
    pip install --no-index --find-links "$wheels" --require-hashes --only-binary :all: -r "$requirements"
}

# Few tries: without a network pip would go on for minutes, at every package anew.
fetch() {
    pip download --retries 2 --progress-bar off --find-links "$wheels" --dest "$wheels" --no-deps \
        --require-hashes --only-binary :all: -r "$1" >"$log" 2>&1 || explain
}
explain() {
    lacking=$(sed -n 's/^ERROR: No matching distribution found for //p' "$log" | head -1)
    if [ -n "$lacking" ] && grep -q 'Retrying' "$log"; then
        cause=$(sed -n "s/.*connection broken by '\([A-Za-z]*\).*/\1/p" "$log" | tail -1)
        fail "$lacking is not in $wheels, and no package index answers ($cause);" \
            "connect to a network once and run again"
    elif [ -n "$lacking" ]; then
        fail "there is no wheel of $lacking for $("$python" --version) on this machine;" \
            "try another Python: make $goal PYTHON=/path/to/python3"
    fi
    fail "pip failed: $(grep -i 'error' "$log" | tail -1 | sed 's/^ERROR: *//')"
}

# The first package that is lacking, to learn quickly whether there is a network.
fetch_first_lacking() {
    lacking=$(sed -n 's/^ERROR: No matching distribution found for \([^ ;]*\).*/\1/p' "$log" | head -1)
    awk -v start="${lacking:-none} " 'index($0, start) == 1 { on = 1 } on { print } on && !/\\$/ { exit }' \
        "$requirements" >.venv/lacking.txt
    if [ -s .venv/lacking.txt ]; then fetch .venv/lacking.txt; fi
}

set_up_packages() {
    if ! .venv/bin/python -m pip --version >/dev/null 2>&1 || ! fits .venv/bin/python; then
        "$python" -m venv --clear .venv
    fi
    mkdir -p "$wheels"
    log=.venv/set-up.log
    if ! install_from_wheels >"$log" 2>&1; then
        say "fetching the packages of $requirements into $wheels (once)"
        fetch_first_lacking
        fetch "$requirements"
        install_from_wheels >"$log" 2>&1 || explain
    fi
    pip install --no-index --no-deps --no-build-isolation --editable . >"$log" 2>&1 || explain
}

case $what in program) goal=setup ;; tests) goal=test ;; audit) goal=audit ;; *) goal=mutate ;; esac
if ! is_done; then
    set_up_python
    set_up_typesetting
    set_up_packages
    if [ "$what" = audit ]; then set_up_checkers; fi
    stamp_text >".venv/set-up-$what"
fi
if [ "$what" = tests ]; then set_up_browser; fi
