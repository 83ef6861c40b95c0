#!/usr/bin/env bash
# Builds the handouts of the demo clinic; sets up everything the first time. Options go to `protodsl build`.
set -euo pipefail
source "$(dirname "${BASH_SOURCE[0]}")/../.ci/setup.sh"
set_up
cd "$root"
exec "$venv/bin/protodsl" build protocols_demo "$@"
