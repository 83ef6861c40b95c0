"""What is wrong with a project as a whole: `clinic.toml`, folders, paths, and what cannot be read or written."""

from __future__ import annotations

from protodsl.diagnostics.diagnostic import Code, Diagnostic, Fix, Label, Severity
from protodsl.source import NOWHERE, Span

NO_CLINIC_FILE = Code("P901", "no-clinic-file", Severity.ERROR)
NOT_TOML = Code("P902", "clinic-file-not-toml", Severity.ERROR)
UNKNOWN_KEY = Code("P903", "unknown-clinic-key", Severity.ERROR)
WRONG_VALUE = Code("P904", "wrong-clinic-value", Severity.ERROR)
MISSING_HELP = Code("P905", "missing-help-text", Severity.ERROR)
OTHER_FORMAT = Code("P906", "other-clinic-format", Severity.ERROR)
NO_FOLDER = Code("P907", "clinic-folder-missing", Severity.WARNING)
FOLDER_OUTSIDE = Code("P908", "clinic-folder-outside", Severity.ERROR)
UNREADABLE = Code("P909", "cannot-be-read", Severity.ERROR)
NOTHING_FOUND = Code("P910", "nothing-to-check", Severity.ERROR)
UNWRITABLE = Code("P911", "cannot-be-written", Severity.ERROR)
NO_SUCH_LANGUAGE = Code("P920", "no-such-language", Severity.ERROR)
SAME_OUTPUT = Code("P912", "same-output-twice", Severity.ERROR)


def no_clinic_file(folder: str) -> Diagnostic:
    """Neither the folder nor one above it holds a `clinic.toml`."""
    return Diagnostic(
        NO_CLINIC_FILE,
        f"there is no `clinic.toml` in `{folder}` or above it",
        notes=("the emergency and contact texts of every sheet come from it, and without them no sheet is made",),
        help="write a `clinic.toml` into the project's folder; `protodsl new FOLDER` makes one to start from",
        args={"folder": folder},
    )


def not_toml(at: Span, reason: str) -> Diagnostic:
    """`clinic.toml` that cannot be read as TOML 1.0 in UTF-8; `reason` is the reader's."""
    return Diagnostic(
        NOT_TOML,
        "`clinic.toml` cannot be read from this place on",
        Label(at),
        notes=(f"the reader says: {reason[:1].lower()}{reason[1:]}",),
        help='write each line as `key = "text in quotes"` under its `[table]`',
        args={"reason": reason},
    )


def unknown_key(at: Span, key: str, meant: str | None, known: tuple[str, ...]) -> Diagnostic:
    """A table or key that nothing reads."""
    return Diagnostic(
        UNKNOWN_KEY,
        f"`{key}` means nothing in `clinic.toml`",
        Label(at, f"did you mean `{meant}`?" if meant else ""),
        notes=(f"known here: {', '.join(known)}",),
        help=f"write `{meant}`" if meant else "take it out, or put a `#` before it",
        fix=Fix(at, meant) if meant else None,
        args={"key": key, "meant": meant},
    )


def wrong_value(at: Span, key: str, wanted: str, meant: str | None = None) -> Diagnostic:
    """A value of the wrong type, out of range, or not one of a closed list; `wanted` says what belongs there."""
    return Diagnostic(
        WRONG_VALUE,
        f"`{key}` wants {wanted}",
        Label(at, f"did you mean `{meant}`?" if meant else ""),
        help=f"write {wanted}",
        args={"key": key, "wanted": wanted, "meant": meant},
    )


def missing_help(at: Span, table: str, key: str, purpose: str) -> Diagnostic:
    """No words or number for an emergency or for contact, or none with anything in it."""
    return Diagnostic(
        MISSING_HELP,
        f"`{key}` under `[{table}]` is missing: {purpose}",
        Label(at),
        notes=("it stands in the STOP part of every sheet, and without it no sheet is made",),
        help=f'write `{key} = "..."` under `[{table}]`',
        args={"table": table, "key": key},
    )


def other_format(at: Span, found: str, known: int) -> Diagnostic:
    """A `format` that this version of the program does not know."""
    return Diagnostic(
        OTHER_FORMAT,
        f"`clinic.toml` is of format `{found}`, and this version reads format {known}",
        Label(at),
        help=f"write `format = {known}`, or install the version of protodsl that the file was written for",
        args={"found": found, "known": known},
    )


def no_folder(at: Span, key: str, folder: str) -> Diagnostic:
    """A folder named in `clinic.toml` that is not there."""
    return Diagnostic(
        NO_FOLDER,
        f"the folder `{folder}` is not there",
        Label(at),
        help=f"make the folder, or take it out of `{key}`",
        args={"key": key, "folder": folder},
    )


def folder_outside(at: Span, key: str, folder: str) -> Diagnostic:
    """A folder for templates or output that leaves the project."""
    return Diagnostic(
        FOLDER_OUTSIDE,
        f"the folder `{folder}` lies outside the project",
        Label(at),
        notes=("a project that a colleague hands on may not write, or take templates, anywhere else on a machine",),
        help=f"under `{key}` name a folder below the one that `clinic.toml` lies in",
        args={"key": key, "folder": folder},
    )


def unreadable(path: str, reason: str) -> Diagnostic:
    """A file or folder that was asked for and cannot be read; `reason` says why."""
    return Diagnostic(
        UNREADABLE,
        f"`{path}` cannot be read",
        notes=(f"{reason[:1].lower()}{reason[1:]}",),
        help="check the path, and that you may read what lies there",
        args={"path": path, "reason": reason},
    )


def nothing_found(path: str) -> Diagnostic:
    """A folder with no protocol and no case in it, or a file of another kind."""
    return Diagnostic(
        NOTHING_FOUND,
        f"there is nothing to check in `{path}`",
        notes=("protocols and libraries end in `.protocol`, cases in `.case`",),
        help="name a folder or a file that holds a protocol",
        args={"path": path},
    )


def unwritable(path: str, reason: str) -> Diagnostic:
    """An output that cannot be written; what stood there before is whole."""
    return Diagnostic(
        UNWRITABLE,
        f"`{path}` cannot be written",
        notes=(f"the system says: {reason[:1].lower()}{reason[1:]}", "what was there before has not been touched"),
        help="free the place, or name another one",
        args={"path": path, "reason": reason},
    )


def same_output(path: str, first: Span, second: Span) -> Diagnostic:
    """Two sheets that would be written under one name."""
    return Diagnostic(
        SAME_OUTPUT,
        f"two sheets would both be written to `{path}`",
        Label(second, "this one"),
        secondary=(Label(first, "and this one"),),
        help="give one of the two protocols another name",
        args={"path": path},
    )


def no_such_language(language: str, known: tuple[str, ...], at: Span = NOWHERE) -> Diagnostic:
    """A language that the product has no catalogue of words for."""
    return Diagnostic(
        NO_SUCH_LANGUAGE,
        f"there are no words in the language `{language}`",
        Label(at),
        notes=(f"sheets can be made in: {', '.join(known)}",),
        help="name one of these under `languages` in `clinic.toml`",
        args={"language": language, "known": known},
    )
