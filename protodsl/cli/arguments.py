"""What each command takes, with examples; light, because every start reads it."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from datetime import date
from pathlib import Path

from protodsl import __version__
from protodsl.formats import FORMATS, read_names

_EXIT = "exit status: 0 no errors, 1 errors found, 2 wrong use, 70 a fault of the program itself"


def parser() -> argparse.ArgumentParser:
    """The parser of the whole command line; the chosen command's module stands in `module`."""
    top = argparse.ArgumentParser(
        prog="protodsl",
        description="Checks exercise protocols and makes the handouts a patient takes home.",
        epilog="`protodsl COMMAND --help` shows examples.\n" + _EXIT,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    top.add_argument("--version", action="version", version=f"protodsl {__version__}")
    top.add_argument("--traceback", action="store_true", help="show where the program itself failed, for a report")
    commands = top.add_subparsers(title="commands", metavar="COMMAND", dest="command", required=True)
    for add in COMMANDS.values():
        add(commands)
    return top


def _check(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    command = _command(
        commands,
        "check",
        "find every problem in protocols and cases",
        "  protodsl check                       everything below this folder\n"
        "  protodsl check ankle.protocol        one protocol and what it uses\n"
        "  protodsl check --strict              warnings count as errors\n"
        "  protodsl check --format sarif > problems.sarif",
    )
    _paths(command)
    _strict(command)
    _as_of(command, "; the date cases are decided at (default: each case's latest line)")
    command.add_argument(
        "--format", choices=("text", "json", "sarif"), default="text", help="how to print them (default: text)"
    )
    _colour(command)


def _build(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    command = _command(
        commands,
        "build",
        "make the handouts as HTML, PDF and more",
        "  protodsl build                       every protocol below this folder\n"
        "  protodsl build ankle.protocol --to html\n"
        "  protodsl build cases/P-0417.case --to html,pdf\n"
        "  protodsl build --paper Letter --large-print --output /srv/handouts\n"
        "  protodsl build --no-clinician        the patients' sheets alone\n"
        "  protodsl build --language es --draft for the reviewer of a translation, never for a patient\n"
        "  protodsl build cases                 every person's sheet, as of their latest line\n"
        "  protodsl build cases/P-0417.case --as-of 2026-11-25",
    )
    _paths(command)
    command.add_argument("--output", type=Path, metavar="FOLDER", help="where to write (default: as in clinic.toml)")
    _to(command)
    command.add_argument(
        "--clinician",
        action=argparse.BooleanOptionalAction,
        default=None,
        help="the clinician's pages alone, or the patients' sheets alone (default: both)",
    )
    command.add_argument("--paper", choices=("A4", "Letter"), help="paper size (default: as in clinic.toml)")
    command.add_argument("--large-print", action="store_true", help="type of 18 points")
    command.add_argument("--compact", action="store_true", help="closer lines, fewer pages")
    command.add_argument(
        "--archive", action="store_true", help="PDF to be kept (PDF/A-3), with the protocol's text and calendar inside"
    )
    command.add_argument(
        "--language", metavar="TAG", help="one language alone (default: all of clinic.toml, of a case its own)"
    )
    command.add_argument(
        "--draft", action="store_true", help="translations that are not reviewed, marked as drafts on every page"
    )
    command.add_argument(
        "--side-by-side", action="store_true", help="the text beside its translation, for whoever reviews it"
    )
    since = "the date of a case's sheet before, to say what changed (default: the last visit)"
    command.add_argument("--since", type=_date, metavar="DATE", help=since)
    _strict(command)
    _as_of(command, "; the date of a case's sheet (default: the case's latest line)")
    _colour(command)


def _why(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    command = _command(
        commands,
        "why",
        "say why something is, or is not, on one person's sheet",
        "  protodsl why cases/P-0417.case       where the person stands, and what can be asked about\n"
        "  protodsl why cases/P-0417.case calf strength\n"
        "  protodsl why cases/P-0417.case pain --as-of 2026-11-25",
    )
    command.add_argument("case", type=Path, metavar="CASE", help="the case file")
    command.add_argument("item", nargs="*", metavar="NAME", help="an exercise, progression, phase or finding")
    command.add_argument("--as-of", type=_date, metavar="DATE", help="the date of the sheet (default: the latest line)")
    command.add_argument("--id", metavar="ID", help="which case, where the file holds several")
    _colour(command)


def _ask(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    command = _command(
        commands,
        "ask",
        "print the questions of a protocol, or start a case",
        '  protodsl ask "lateral ankle sprain"  the questions as text, red flags first\n'
        "  protodsl ask ankle.protocol --sheet  a sheet to fill in, as HTML and PDF\n"
        "  protodsl ask ankle.protocol --start P-0500 --side right --started 2026-11-25",
    )
    command.add_argument("protocol", metavar="PROTOCOL", help="a protocol's name, or the file of one")
    command.add_argument("--sheet", action="store_true", help="write a sheet to fill in by hand")
    command.add_argument("--output", type=Path, metavar="FOLDER", help="where to write (default: as in clinic.toml)")
    _to(command)
    command.add_argument("--start", metavar="ID", help="start cases/ID.case with every answer unknown")
    command.add_argument("--side", metavar="SIDE", help='left, right, none or "both, worse left"; with --start')
    command.add_argument("--started", type=_date, metavar="DATE", help="the first day; with --start (default: today)")
    command.add_argument("--language", metavar="TAG", help="of the sheet, of the case (default: as in clinic.toml)")
    _colour(command)


class _Reasoned(argparse.Action):
    """Keeps the options that need a reason in one row, in the order they were written."""

    def __call__(
        self, parser: argparse.ArgumentParser, namespace: argparse.Namespace, values: object, option: str | None = None
    ) -> None:
        namespace.reasoned = [*(namespace.reasoned or []), (option, values)]


def _record(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    command = _command(
        commands,
        "record",
        "write dated answers and sessions into a case file",
        '  protodsl record cases/P-0417.case --on 2026-11-23 "knee-to-wall: right 9 cm" "no: chest pain"\n'
        '  protodsl record cases/P-0417.case --session 2026-11-23 "calf strength: as given, pain 2"\n'
        '  protodsl record cases/P-0417.case --session "2026-11-24 to 2026-11-26" missed\n'
        '  protodsl record cases/P-0417.case --correct 2026-11-20 "pain: 3" --because "misheard"\n'
        '  protodsl record cases/P-0417.case --place 2026-11-20 "calf strength: on the step" --because seen\n'
        '  protodsl record cases/P-0417.case --from "2026-11-22 to 2026-11-25" "leave out calf strength" \\\n'
        '      --because "travelling"\n'
        '  protodsl record cases/P-0417.case --from 2026-11-22 "change heel raise" \\\n'
        '      "dose 2 x 10, 3 days a week" --because tired\n'
        '  protodsl record cases/P-0417.case --note 2026-11-20 "ran for the bus"\n\n'
        "The file is checked with the new lines first; with an error nothing is written. No line that stands there\n"
        "is changed: a wrong answer is put right with --correct, which keeps both. Only `unknown: NAME`, answered on\n"
        "its own date, gives its place to the answer, and that is said. A `dose` under `change` is the whole dose,\n"
        "its days and sides too.",
    )
    command.add_argument("case", type=Path, metavar="CASE", help="the case file")
    for name, metavar, purpose in (
        ("--on", ("DATE", "ANSWER"), "answers and measurements of a date, as in the file"),
        ("--session", ("DATE", "SESSION"), "what was done on a date, as in the file"),
    ):
        command.add_argument(name, nargs="+", action="append", metavar=metavar, help=purpose)
    correct = "an answer that takes an earlier one's place"
    change = "a change for this person: leave out, give, change (with the lines under it), version"
    command.add_argument("--correct", nargs=2, action=_Reasoned, metavar=("DATE", "ANSWER"), help=correct)
    command.add_argument("--place", nargs=2, action=_Reasoned, metavar=("DATE", "ITEM: LEVEL"), help="a level given")
    command.add_argument("--from", nargs="+", action=_Reasoned, metavar=("DATE", "CHANGE"), help=change)
    command.set_defaults(reasoned=None)
    because = "why; one for each --correct, --place and --from, in their order"
    command.add_argument("--because", action="append", metavar="WORDS", help=because)
    command.add_argument(
        "--note", nargs=2, action="append", metavar=("DATE", "WORDS"), help="a note; it decides nothing"
    )
    command.add_argument("--id", metavar="ID", help="which case, where the file holds several")
    command.add_argument("--dry-run", action="store_true", help="print the lines, write nothing")
    _colour(command)


def _format(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    command = _command(
        commands,
        "format",
        "write protocols and cases in the one way there is",
        "  protodsl format                      every file below this folder, in place\n"
        "  protodsl format --check              change nothing, name the files that would change\n"
        "  protodsl format - < draft.protocol   from standard input to standard output",
    )
    command.add_argument("paths", nargs="*", default=["."], metavar="PATH", help="files or folders, or - (default: .)")
    command.add_argument("--check", action="store_true", help="write nothing; exit status 1 if a file would change")
    _colour(command)


def _explain(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    command = _command(
        commands,
        "explain",
        "say what a code means and what to do about it",
        "  protodsl explain                     list every code\n  protodsl explain P905",
    )
    command.add_argument("code", nargs="?", metavar="CODE", help="as printed beside a problem")


def _reference(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    command = _command(
        commands,
        "reference",
        "look up a word of the language",
        "  protodsl reference                   list every word\n"
        "  protodsl reference dose              what may stand after `dose`\n"
        "  protodsl reference --all             the whole reference as Markdown",
    )
    command.add_argument("word", nargs="*", metavar="WORD", help="a keyword, a unit or a closed list")
    command.add_argument("--all", action="store_true", help="everything, as Markdown")


def _new(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    command = _command(
        commands,
        "new",
        "start a project with a commented example",
        "  protodsl new our-clinic              then: cd our-clinic && protodsl build",
    )
    command.add_argument(
        "folder", type=Path, metavar="FOLDER", help="made where it is not there; nothing is overwritten"
    )


def _translate(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    command = _command(
        commands,
        "translate",
        "make, bring up to date and check catalogues of what a patient reads",
        "  protodsl translate extract --language es   make translations/es, one catalogue for each file\n"
        "  protodsl translate extract --product       the product's own words too, to be reviewed here\n"
        "  protodsl translate update                  bring the catalogues there are up to date\n"
        "  protodsl translate status                  how far each catalogue is\n"
        "  protodsl translate check                   what is missing, changed, unread or unlike\n"
        '  protodsl translate review translations/es/ankle.po --by "physiotherapist, native speaker"',
    )
    command.add_argument("action", choices=("extract", "update", "status", "check", "review"), metavar="ACTION")
    _paths(command)
    command.add_argument("--language", metavar="TAG", help="one language alone (default: all but the clinic's own)")
    command.add_argument("--product", action="store_true", help="the product's own words too, as protodsl.po")
    command.add_argument("--by", metavar="ROLE", help="who has read the translations, a role and no name; with review")
    command.add_argument("--on", type=_date, metavar="DATE", help="when (default: today); with review")
    _strict(command)
    _colour(command)


def _figures(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    command = _command(
        commands,
        "figures",
        "show every figure on one page, and approve those that are right",
        "  protodsl figures                           figures.html and figures.pdf in the output folder\n"
        "  protodsl figures library/leg.protocol --output leg.pdf\n"
        '  protodsl figures --approve "heel raise both legs" --by physiotherapist\n'
        "  protodsl figures --approve-all --by physiotherapist\n\n"
        "An approval holds for the drawing as it is now; it stands in figures-approved.toml, which belongs under\n"
        "version control. A figure without one, or drawn otherwise since, is a warning of `protodsl check`.",
    )
    _paths(command)
    command.add_argument("--output", type=Path, metavar="FILE", help="one file, .html or .pdf (default: both)")
    approve = "approve the figure of an exercise as it is drawn now; may be repeated"
    command.add_argument("--approve", action="append", default=[], metavar="NAME", help=approve)
    command.add_argument("--approve-all", action="store_true", help="approve every figure that can be drawn")
    command.add_argument("--by", metavar="ROLE", help="who has looked at them, a role and no name; with --approve")
    command.add_argument("--on", type=_date, metavar="DATE", help="when (default: today); with --approve")
    _strict(command)
    _colour(command)


def _reading(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    command = _command(
        commands,
        "reading",
        "say how hard each sheet is to read, and name its hardest sentences",
        "  protodsl reading                     every protocol below this folder, in every language of the clinic\n"
        "  protodsl reading ankle.protocol --steps    every line of every exercise as well\n"
        "  protodsl reading --language pl       one language, as far as there are words for it\n\n"
        "Everything that a patient reads in sentences counts, conditions in words among it. Limits stand in\n"
        "clinic.toml: reading-grade, reading-ease and lix under [limits], or for one language under [limits.pl].",
    )
    _paths(command)
    command.add_argument("--language", metavar="TAG", help="one language alone (default: all of clinic.toml)")
    command.add_argument("--steps", action="store_true", help="every line of every exercise with its own value")
    command.add_argument("--hardest", type=_count, default=5, metavar="N", help="so many hard sentences (default: 5)")
    _strict(command)
    _colour(command)


def _completion(commands: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    command = _command(
        commands,
        "completion",
        "print what makes a shell complete commands and options",
        '  eval "$(protodsl completion bash)"   for this terminal\n  protodsl completion zsh > ~/.zfunc/_protodsl',
    )
    command.add_argument("shell", choices=("bash", "zsh"), metavar="SHELL", help="bash or zsh")


COMMANDS: dict[str, Callable[[argparse._SubParsersAction[argparse.ArgumentParser]], None]] = {
    "check": _check,
    "build": _build,
    "why": _why,
    "ask": _ask,
    "record": _record,
    "format": _format,
    "explain": _explain,
    "reference": _reference,
    "new": _new,
    "translate": _translate,
    "figures": _figures,
    "reading": _reading,
    "completion": _completion,
}


def _command(
    commands: argparse._SubParsersAction[argparse.ArgumentParser], name: str, purpose: str, examples: str
) -> argparse.ArgumentParser:
    command = commands.add_parser(
        name,
        help=purpose,
        description=f"{purpose[0].upper()}{purpose[1:]}.",
        epilog=f"examples:\n{examples}\n\n{_EXIT}",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    command.set_defaults(module=name)
    return command


def _paths(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "paths", nargs="*", type=Path, default=[Path()], metavar="PATH", help="files or folders (default: .)"
    )


def _strict(command: argparse.ArgumentParser) -> None:
    command.add_argument("--strict", action="store_true", help="warnings count as errors")


def _as_of(command: argparse.ArgumentParser, more: str = "") -> None:
    purpose = f"the day review dates are held against (default: today){more}"
    command.add_argument("--as-of", type=_date, metavar="DATE", help=purpose)


def _to(command: argparse.ArgumentParser) -> None:
    known = ", ".join(f"{one.name} ({one.purpose})" for one in FORMATS.values())
    purpose = f"one or more, with commas between: {known} (default: as in clinic.toml, else html,pdf)"
    command.add_argument("--to", type=_formats, metavar="FORMATS", help=purpose)


def _colour(command: argparse.ArgumentParser) -> None:
    command.add_argument("--no-color", action="store_true", help="no colours; so does NO_COLOR in the environment")


def _date(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"`{text}` is no date; write it as 2026-10-05") from None


def _count(text: str) -> int:
    if not text.isdecimal():
        raise argparse.ArgumentTypeError(f"`{text}` is no whole number")
    return int(text)


def _formats(text: str) -> tuple[str, ...]:
    wanted = read_names(text)
    if wanted is None:
        raise argparse.ArgumentTypeError(f"`{text}` is not one or more of {', '.join(FORMATS)}, with commas between")
    return wanted
