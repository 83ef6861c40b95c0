#!/usr/bin/env bash
# Runs every check and test; sets up everything the first time. Options go to pytest.
set -euo pipefail
source "$(dirname "${BASH_SOURCE[0]}")/../.ci/setup.sh"
set_up test
cd "$root"
failed=()
"$venv/bin/ruff" check . || failed+=("ruff")
"$venv/bin/mypy" || failed+=("mypy")
"$venv/bin/python" -m pytest "$@" || failed+=("pytest")
if [ ${#failed[@]} -gt 0 ]; then
    echo "failed: ${failed[*]}" >&2
    exit 1
fi
