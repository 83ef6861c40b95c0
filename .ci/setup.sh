# Sourced by the scripts that README.md names: puts this clone, and nothing else, into a virtual environment of its own.
#
#   set_up        what the compiler needs
#   set_up test   what the tests need as well
#
# Afterwards $root is the clone and $venv its environment. Any step that fails ends the script with its output shown.

set -euo pipefail
unset PYTHONPATH PYTHONHOME VIRTUAL_ENV
export PIP_DISABLE_PIP_VERSION_CHECK=1 PIP_ROOT_USER_ACTION=ignore

root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd -P)
venv=$root/.venv

set_up() {
    local extra=${1:-} python stamp
    python=$(find_python || true)
    if [ -z "$python" ] && command -v python3 >/dev/null; then
        fail_for_want_of_python
    fi
    install_system_packages "$extra" "$python"
    python=$(find_python) || fail_for_want_of_python
    "$python" -c 'import ensurepip, venv' 2>/dev/null || fail "$python cannot make virtual environments: venv is missing"
    stamp=$(fingerprint "$python")
    if is_installed "$stamp" "$extra"; then
        return
    fi
    quietly "making the virtual environment .venv" "$python" -m venv --clear "$venv"
    quietly "installing this clone and what it needs${extra:+ for $extra}" \
        "$venv/bin/python" -m pip install --quiet --editable "$root${extra:+[$extra]}"
    (cd / && "$venv/bin/python" - "$root") <<'PYTHON' || fail "the environment holds another copy of protodsl than this clone"
import sys, pathlib, protodsl.grammar
sys.exit(pathlib.Path(protodsl.grammar.__file__).resolve().parents[1] != pathlib.Path(sys.argv[1]))
PYTHON
    if [ "$extra" = test ] && command -v npm >/dev/null; then
        install_node_packages
    fi
    printf '%s\n' "$stamp ${extra:-plain}" >"$venv/protodsl-setup"
}

# Debian's packages, where the thing itself is missing; on other systems it is said and left to the reader.
install_system_packages() {
    local extra=$1 python=$2 missing=() wished=() as_root=()
    if [ -z "$python" ]; then
        missing+=(python3 python3-venv)
    elif ! "$python" -c 'import ensurepip, venv' 2>/dev/null; then
        missing+=(python3-venv)
    fi
    has_library "$python" pango-1.0 || missing+=(libpango-1.0-0)
    has_library "$python" pangoft2-1.0 || missing+=(libpangoft2-1.0-0)
    has_library "$python" harfbuzz-subset || missing+=(libharfbuzz-subset0)
    if [ "$extra" = test ]; then
        command -v pdftotext >/dev/null || missing+=(poppler-utils)
        # Tests that need one of these are skipped, with the reason, where it cannot be had.
        command -v java >/dev/null || wished+=(default-jre-headless)
        [ -f /usr/share/java/epubcheck.jar ] || wished+=(epubcheck)
        command -v chromium >/dev/null || wished+=(chromium)
        command -v npm >/dev/null || wished+=(npm)
    fi
    [ ${#missing[@]} -gt 0 ] || [ ${#wished[@]} -gt 0 ] || return 0
    if ! command -v apt-get >/dev/null; then
        echo "missing here, under Debian's names: ${missing[*]-} ${wished[*]-} (without Pango there is HTML, but no PDF)" >&2
        return 0
    fi
    if [ "$(id -u)" -ne 0 ]; then
        if ! command -v sudo >/dev/null; then
            [ ${#missing[@]} -eq 0 ] || fail "missing: ${missing[*]}. Ask an administrator for: apt-get install ${missing[*]}"
            echo "some tests will be skipped; they need: ${wished[*]}" >&2
            return 0
        fi
        as_root=(sudo)
    fi
    quietly "refreshing the list of Debian packages" ${as_root[@]+"${as_root[@]}"} apt-get -qq update
    if [ ${#missing[@]} -gt 0 ]; then
        quietly "installing ${missing[*]}" ${as_root[@]+"${as_root[@]}"} env DEBIAN_FRONTEND=noninteractive \
            apt-get -qq install --yes --no-install-recommends "${missing[@]}"
    fi
    local one
    for one in ${wished[@]+"${wished[@]}"}; do
        echo "installing $one ..." >&2
        ${as_root[@]+"${as_root[@]}"} env DEBIAN_FRONTEND=noninteractive \
            apt-get -qq install --yes --no-install-recommends "$one" >/dev/null 2>&1 </dev/null \
            || echo "$one cannot be had here: the tests that need it are skipped" >&2
    done
}

# axe-core and the Nu HTML checker, in the versions that tests/accessibility/package.json names; neither runs a script of its own.
install_node_packages() {
    mkdir -p "$venv/node"
    cp "$root/tests/accessibility/package.json" "$venv/node/"
    echo "installing what the tests of accessibility need from npm ..." >&2
    npm install --silent --ignore-scripts --no-audit --no-fund --no-package-lock --prefix "$venv/node" \
        >/dev/null 2>&1 </dev/null || echo "npm packages cannot be had here: the tests that need them are skipped" >&2
}

# Without a Python to ask, the library counts as missing: apt-get then has nothing to do if it is there after all.
has_library() {
    local python=$1 name=$2
    [ -n "$python" ] && "$python" - "$name" 2>/dev/null <<'PYTHON'
import ctypes, ctypes.util, sys
try:
    ctypes.CDLL(f"lib{sys.argv[1]}.so.0")
except OSError:
    sys.exit(ctypes.util.find_library(sys.argv[1]) is None)
PYTHON
}

find_python() {
    local name
    for name in ${PYTHON:+"$PYTHON"} python3 python3.14 python3.13 python3.12 python3.11; do
        if "$name" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then
            command -v "$name"
            return
        fi
    done
    return 1
}

fail_for_want_of_python() {
    local found="none is installed"
    if command -v "${PYTHON:-python3}" >/dev/null; then
        found="this is $("${PYTHON:-python3}" --version 2>&1)"
    fi
    fail "Python 3.11 or newer is needed, $found. With another one: PYTHON=/path/to/python3 bash \"$0\""
}

# What the environment was made from: a clone that was moved, another Python or another pyproject.toml makes a new one.
fingerprint() {
    "$1" - "$root" <<'PYTHON'
import hashlib, pathlib, sys
root = pathlib.Path(sys.argv[1])
parts = [sys.version, sys.base_prefix, str(root)]
parts += [(root / name).read_text(encoding="utf-8") for name in ("pyproject.toml", ".ci/setup.sh", "tests/accessibility/package.json")]
print(hashlib.sha256("\0".join(parts).encode()).hexdigest())
PYTHON
}

is_installed() {
    local stamp=$1 extra=$2 was
    [ -x "$venv/bin/python" ] && [ -f "$venv/protodsl-setup" ] || return 1
    was=$(cat "$venv/protodsl-setup")
    [ "$was" = "$stamp test" ] || [ "$was" = "$stamp ${extra:-plain}" ]
}

quietly() {
    local what=$1 log
    shift
    log=$(mktemp)
    echo "$what ..." >&2
    if ! "$@" >"$log" 2>&1 </dev/null; then
        cat "$log" >&2
        rm -f "$log"
        fail "$what: failed"
    fi
    rm -f "$log"
}

fail() {
    echo "$*" >&2
    exit 1
}
