#!/usr/bin/env bash
# Runs every check and test; sets up everything the first time. Options go to pytest.
set -euo pipefail
source "$(dirname "${BASH_SOURCE[0]}")/../.ci/setup.sh"
set_up test
cd "$root"
failed=()
"$venv/bin/ruff" check . || failed+=("ruff")
"$venv/bin/mypy" || failed+=("mypy")
# A file's tests stay together: what a module has built is used by all of them.
"$venv/bin/python" -m pytest -n auto --dist loadfile "$@" || failed+=("pytest")
if [ ${#failed[@]} -gt 0 ]; then
    echo "failed: ${failed[*]}" >&2
    exit 1
fi
