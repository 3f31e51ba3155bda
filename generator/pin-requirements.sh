#!/bin/sh
# Resolve pyproject.toml anew for every Python and platform it allows, and write the files that set-up installs
# from: exact versions with hashes, no address of any index. Needs uv; give its path in UV where it is not on PATH.
# UPGRADE=--upgrade takes newer versions; without it, what is pinned stays unless pyproject.toml forbids it.
set -eu
cd "$(dirname "$0")/.."
pin() {
    output=$1
    shift
    # shellcheck disable=SC2086
    "${UV:-uv}" pip compile --universal --python-version 3.11 --generate-hashes --no-annotate \
        --custom-compile-command 'make pins' ${UPGRADE:-} --quiet --output-file "$output" "$@"
}
pin requirements.txt pyproject.toml --group build
pin requirements-test.txt pyproject.toml --group build --group test --constraints requirements.txt
pin generator/audit/requirements.txt --group audit --constraints requirements-test.txt
pin generator/mutation/requirements.txt --group mutation --constraints requirements-test.txt
