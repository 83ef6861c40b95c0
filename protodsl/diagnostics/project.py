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
FOLDER_SKIPPED = Code("P918", "folder-passed-over", Severity.WARNING)
NOTHING_FOUND = Code("P910", "nothing-to-check", Severity.ERROR)
UNWRITABLE = Code("P911", "cannot-be-written", Severity.ERROR)
NO_SUCH_LANGUAGE = Code("P920", "no-such-language", Severity.ERROR)
SAME_OUTPUT = Code("P912", "same-output-twice", Severity.ERROR)
NO_SHEET = Code("P913", "danger-signs-unanswered", Severity.WARNING)
REFERRED = Code("P914", "referral-in-place-of-a-sheet", Severity.WARNING)
WITHDRAWN = Code("P915", "earlier-page-withdrawn", Severity.WARNING)
NOT_MADE = Code("P916", "case-not-made", Severity.ERROR)
EARLIER_STANDS = Code("P917", "earlier-page-still-there", Severity.WARNING)
OVERTAKEN = Code("P919", "earlier-page-overtaken", Severity.WARNING)
EXAMPLE_STANDS = Code("P921", "example-still-stands", Severity.WARNING)


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


def example_stands(at: Span, table: str, key: str, words: str) -> Diagnostic:
    """What a new project puts there to be replaced, and would be printed."""
    return Diagnostic(
        EXAMPLE_STANDS,
        f"`{words}` is what a new project begins with, and is printed on every sheet",
        Label(at),
        help=f"write your own `{key}` under `[{table}]`",
        args={"table": table, "key": key, "words": words},
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


def folder_skipped(path: str, reason: str) -> Diagnostic:
    """A folder below one that was asked for cannot be read; the others are."""
    return Diagnostic(
        FOLDER_SKIPPED,
        f"the folder `{path}` cannot be read and is passed over",
        notes=(f"{reason[:1].lower()}{reason[1:]}",),
        help="check that you may read what lies there, or move what is none of this project elsewhere",
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
        notes=(
            f"sheets can be made in: {', '.join(known)}",
            f"a clinic makes words of its own with `protodsl translate extract --product --language {language}`",
        ),
        help="name one of these under `languages` in `clinic.toml`",
        args={"language": language, "known": known},
    )


def no_sheet(case: str, unanswered: tuple[str, ...], at: Span) -> Diagnostic:
    """A case with an emergency or red flag that nobody knows; only the clinician's page is made."""
    return Diagnostic(
        NO_SHEET,
        f"no sheet is made for `{case}`: a danger sign is unanswered",
        Label(at),
        notes=(f"to be answered first: {', '.join(unanswered)}",) if unanswered else (),
        help="write the answers into the case, with `protodsl record` or by hand, and build it again",
        args={"case": case, "unanswered": unanswered},
    )


def referred(case: str, at: Span, has_page: bool = True) -> Diagnostic:
    """A case with an emergency or red flag that is yes; the referral page is all that is made, where it could be."""
    there = "the referral page stands in the place of the sheet, and there is no other page"
    call = "call the person, and follow the referral page"
    return Diagnostic(
        REFERRED,
        f"`{case}` has to be seen before any exercise: a danger sign is there",
        Label(at),
        notes=(there if has_page else "the referral page cannot be made either, and there is no other page",),
        help=call if has_page else "call the person now, then mend the errors",
        args={"case": case},
    )


def withdrawn(case: str, path: str, now: str, at: Span) -> Diagnostic:
    """An earlier page that no longer holds and must not be handed out; it is kept under another name."""
    return Diagnostic(
        WITHDRAWN,
        f"the earlier page `{path}` of `{case}` no longer holds",
        Label(at),
        notes=(f"it is kept as `{now}`", "copies that were printed or sent hold no longer either"),
        help="do not hand it out any more",
        args={"case": case, "path": path, "now": now},
    )


def overtaken(case: str, path: str, now: str, at: Span) -> Diagnostic:
    """An earlier page in another form than those made now, of other answers, another protocol or another date."""
    return Diagnostic(
        OVERTAKEN,
        f"the earlier page `{path}` of `{case}` does not say what the pages made now say",
        Label(at),
        notes=(f"it is kept as `{now}`",),
        help="do not hand it out any more; if this form is needed too, build it anew",
        args={"case": case, "path": path, "now": now},
    )


def not_made(case: str, fault: str = "") -> Diagnostic:
    """A case on which the work ended without a result: `fault` is what failed in the program, else it was killed."""
    reason = f"the program failed on it: {fault}" if fault else "each process that took it was ended from outside"
    return Diagnostic(
        NOT_MADE,
        f"nothing could be made of `{case}`",
        notes=(reason, "the other cases are not touched by it"),
        help="build it alone, and report what the program says of it",
        args={"case": case, "fault": fault},
    )


def earlier_stands(case: str, paths: tuple[str, ...], at: Span) -> Diagnostic:
    """A case with an error, of which pages from before are still there."""
    return Diagnostic(
        EARLIER_STANDS,
        f"pages of `{case}` from an earlier build are still there, and may not hold any more",
        Label(at),
        notes=(f"they are {', '.join(f'`{path}`' for path in paths)}",),
        help="do not hand them out before the errors are mended and the case is built again",
        args={"case": case, "paths": paths},
    )
