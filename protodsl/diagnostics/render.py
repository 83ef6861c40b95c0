"""What the renderer has to say: templates, safety lines lost on the way, fonts and the library that prints."""

from __future__ import annotations

from protodsl.diagnostics.diagnostic import Code, Diagnostic, Severity

TEMPLATE_FAILS = Code("P950", "template-fails", Severity.ERROR)
SAFETY_MISSING = Code("P951", "safety-line-missing", Severity.ERROR)
SAFETY_HIDDEN = Code("P952", "safety-line-hidden", Severity.ERROR)
LIBRARY_MISSING = Code("P953", "pdf-library-missing", Severity.ERROR)
FONT_MISSING = Code("P954", "font-missing", Severity.ERROR)
CHARACTER_MISSING = Code("P955", "character-missing", Severity.ERROR)
LAYOUT_COMPLAINS = Code("P956", "layout-complains", Severity.WARNING)
NOT_SELF_CONTAINED = Code("P957", "not-self-contained", Severity.ERROR)
LAYOUT_FAILS = Code("P958", "layout-fails", Severity.ERROR)
EXTRA_MISSING = Code("P959", "extra-missing", Severity.ERROR)
SAFETY_LOST = Code("P961", "safety-line-lost", Severity.ERROR)

CODES = (
    TEMPLATE_FAILS, SAFETY_MISSING, SAFETY_HIDDEN, LIBRARY_MISSING, FONT_MISSING, CHARACTER_MISSING, LAYOUT_COMPLAINS,
    NOT_SELF_CONTAINED, LAYOUT_FAILS, EXTRA_MISSING, SAFETY_LOST,
)  # fmt: skip


def template_fails(template: str, line: int | None, reason: str) -> Diagnostic:
    """A template that cannot be read or run; `line` is None where the whole template is missing."""
    place = f"`{template}`" if line is None else f"line {line} of `{template}`"
    return Diagnostic(
        TEMPLATE_FAILS,
        f"the template does not work: {place}",
        notes=(reason,) if reason else (),
        help=f"mend the clinic's own `{template}`, or remove it to have the shipped one",
        args={"template": template, "line": line, "reason": reason},
    )


def safety_missing(safety: str, words: str, origin: str) -> Diagnostic:
    """A safety line of the handout that no element of the page shows."""
    return Diagnostic(
        SAFETY_MISSING,
        f"a safety line is missing from the page: `{words}`",
        notes=_written_in(origin),
        help=f'show the line in an element with `data-safety="{safety}"`, or use the shipped template',
        args={"safety": safety, "words": words, "origin": origin},
    )


def safety_hidden(safety: str, words: str, origin: str) -> Diagnostic:
    """A safety line that is in the document and cannot be seen on the page."""
    return Diagnostic(
        SAFETY_HIDDEN,
        f"a safety line is on the page but cannot be seen: `{words}`",
        notes=_written_in(origin),
        help="take out the rule or attribute that hides it in the clinic's templates",
        args={"safety": safety, "words": words, "origin": origin},
    )


def safety_lost(safety: str, words: str, origin: str) -> Diagnostic:
    """A safety line whose words are not in a document that was made without a template."""
    return Diagnostic(
        SAFETY_LOST,
        f"a safety line is missing from the document: `{words}`",
        notes=(*_written_in(origin), "no document is better than one that leaves this out"),
        help="use another format, such as `--to pdf`, and report this as a fault of protodsl",
        args={"safety": safety, "words": words, "origin": origin},
    )


def extra_missing(format: str, extra: str, reason: str) -> Diagnostic:
    """A format needs libraries that are not installed with protodsl itself."""
    return Diagnostic(
        EXTRA_MISSING,
        f"no `{format}` was made: a library that it needs is not on this machine",
        notes=(reason, "the other formats do not need it"),
        help=f'install it with `pip install "protodsl[{extra}]"`',
        args={"format": format, "extra": extra, "reason": reason},
    )


def library_missing(reason: str) -> Diagnostic:
    """The libraries that draw the text of a PDF are not on this machine."""
    return Diagnostic(
        LIBRARY_MISSING,
        "no PDF was made: a library that sets the text is not on this machine",
        notes=(reason, "the HTML handout does not need it"),
        help="on Debian or Ubuntu install `libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0`",
        args={"reason": reason},
    )


def font_missing(family: str, file: str) -> Diagnostic:
    """A font file of the project is not where it belongs."""
    return Diagnostic(
        FONT_MISSING,
        f"a font of the handouts is missing: `{family}`",
        notes=(f"the file `{file}` is not there",),
        help="install the project again",
        args={"family": family, "file": file},
    )


def character_missing(characters: tuple[str, ...], missing_files: tuple[str, ...] = ()) -> Diagnostic:
    """Characters of the text that no font has; they would be printed as empty boxes.

    `missing_files` are those of the fonts for Chinese that would have them, where they were left out.
    """
    shown = ", ".join(f"`{sign}` (U+{ord(sign):04X})" for sign in characters[:8])
    return Diagnostic(
        CHARACTER_MISSING,
        f"no font has {shown}{' and more' if len(characters) > 8 else ''}",
        notes=(
            *((f"the fonts for Chinese are not there: {', '.join(missing_files)}",) if missing_files else ()),
            "it would be printed as an empty box",
            "the HTML handout uses the reader's own fonts",
        ),
        help="install the project whole, with `NotoSansSC-*.ttf` in `protodsl/fonts`"
        if missing_files
        else "write it with other characters",
        args={"characters": characters, "missing files": missing_files},
    )


def layout_complains(line: str) -> Diagnostic:
    """A line on the log of the library that sets the pages."""
    return Diagnostic(
        LAYOUT_COMPLAINS,
        f"the page may not look as it should: {line[:1].lower()}{line[1:]}",
        help="look at the clinic's own style sheet or template",
        args={"line": line},
    )


def layout_fails(reason: str) -> Diagnostic:
    """A clinic's own rules or templates with which the library that sets the pages breaks down."""
    return Diagnostic(
        LAYOUT_FAILS,
        "the pages cannot be set with the clinic's own templates and style sheets",
        notes=(f"The library that sets them says: {reason}.", "The HTML handout does not need it."),
        help="Take out what was last changed in the clinic's templates folder.",
        args={"reason": reason},
    )


def not_self_contained(address: str) -> Diagnostic:
    """A template that fetches something from outside the handout."""
    return Diagnostic(
        NOT_SELF_CONTAINED,
        f"the template fetches `{address}`",
        notes=("a handout is one file; it is read without a network, and tells nobody that it is read",),
        help="put the image into the template as a `data:` address",
        args={"address": address},
    )


def _written_in(origin: str) -> tuple[str, ...]:
    return (f"it is written in {origin}",) if origin else ()
