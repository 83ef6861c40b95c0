"""From the words on the command line to a command and its exit status; no traceback reaches a person."""

from __future__ import annotations

import errno
import gc
import os
import sys
from collections.abc import Sequence
from importlib import import_module

from protodsl import __version__
from protodsl.cli.arguments import COMMANDS, parser
from protodsl.cli.status import ERRORS, FAULT, INTERRUPTED, WRONG_USE
from protodsl.diagnostics.suggest import nearest

# What a full disk, or a device that fails, answers to what is printed.
_STREAM_FULL = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG, errno.EIO)


def main(words: Sequence[str] | None = None) -> int:
    """Run one command; 0 no errors, 1 errors found, 2 wrong use, 70 a fault of the program, 130 interrupted."""
    given = list(sys.argv[1:] if words is None else words)
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace")
    show_traceback = "--traceback" in given
    # What a command reads lives to its end; looking through it for garbage again and again would take longer than the
    # work itself. Whoever makes garbage (see build) collects it.
    collecting = gc.isenabled()
    gc.disable()
    try:
        status = _run([word for word in given if word != "--traceback"])
        sys.stdout.flush()
        return status
    except KeyboardInterrupt:
        return INTERRUPTED
    except BrokenPipeError:
        # The reader (`| head`) has left; nothing more may be written when the interpreter closes the stream.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except Exception as fault:
        if show_traceback:
            raise
        if isinstance(fault, OSError) and fault.filename is None and fault.errno in _STREAM_FULL:
            return _unprinted(fault)
        return _fault(fault)
    finally:
        if collecting:
            gc.enable()


def _run(words: list[str]) -> int:
    if not words:
        parser().print_help(sys.stderr)
        return WRONG_USE
    if not words[0].startswith("-") and words[0] not in COMMANDS:
        meant = nearest(words[0], COMMANDS)
        hint = f"; did you mean `{meant}`?" if meant else f"; there are {', '.join(COMMANDS)}"
        print(f"protodsl: there is no command `{words[0]}`{hint}", file=sys.stderr)
        return WRONG_USE
    try:
        arguments = parser().parse_args(words)
    except SystemExit as end:
        return int(end.code or 0)
    status: int = import_module(f"protodsl.cli.{arguments.module}").run(arguments)
    return status


def _unprinted(error: OSError) -> int:
    """What was found could not be printed whole, and nobody may take the part for the whole."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    print(f"protodsl: what was to be printed could not be written: {error.strerror}", file=sys.stderr)
    return ERRORS


def _fault(fault: Exception) -> int:
    """What a person sees of a fault of the program itself."""
    print(
        f"protodsl {__version__} has a fault and stopped: {type(fault).__name__}.\n"
        "Nothing is wrong with what you wrote, and no file was left half written.\n"
        "Please report it, with the file you were working on and what this prints:\n"
        f"  protodsl --traceback {' '.join(word for word in sys.argv[1:] if word != '--traceback')}",
        file=sys.stderr,
    )
    return FAULT
