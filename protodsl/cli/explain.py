"""`protodsl explain`: the page of a code, or the list of all codes."""

from __future__ import annotations

import argparse
import sys

from protodsl.cli.report import say
from protodsl.cli.status import CLEAN, WRONG_USE
from protodsl.diagnostics.diagnostic import Code
from protodsl.diagnostics.registry import codes, page
from protodsl.diagnostics.render_text import NAMES
from protodsl.diagnostics.suggest import nearest


def run(arguments: argparse.Namespace) -> int:
    """Print the page, or a line for each code where none was named."""
    known = codes()
    if not arguments.code:
        sys.stdout.writelines(_line(code) for code in known.values())
        return CLEAN
    by_slug = {code.slug: code.id for code in known.values()}
    wanted = by_slug.get(arguments.code.lower(), arguments.code.upper())
    if wanted not in known:
        meant = nearest(wanted, known) or by_slug.get(nearest(arguments.code.lower(), by_slug) or "")
        say(f"protodsl: there is no code `{arguments.code}`" + (f"; did you mean `{meant}`?" if meant else ""))
        return WRONG_USE
    print(f"severity: {NAMES[known[wanted].severity]}\n\n{page(wanted)}", end="")
    return CLEAN


def _line(code: Code) -> str:
    return f"{code.id}  {NAMES[code.severity]:<8} {code.slug.replace('-', ' ')}\n"
