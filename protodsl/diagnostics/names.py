"""What is said about names: declared, used, inherited, changed and left out."""

from __future__ import annotations

from collections.abc import Sequence

from protodsl.diagnostics.diagnostic import Code, Diagnostic, Fix, Label, Severity
from protodsl.source import Span

UNDECLARED = Code("N201", "undeclared-name", Severity.ERROR)
DECLARED_TWICE = Code("N202", "declared-twice", Severity.ERROR)
UNUSED = Code("N203", "unused-declaration", Severity.WARNING)
UNUSED_IN_LIBRARY = Code("N204", "unused-in-library", Severity.HINT)
USE_IN_A_CIRCLE = Code("N205", "use-in-a-circle", Severity.ERROR)
USE_NOT_FOUND = Code("N206", "use-not-found", Severity.ERROR)
USE_OUTSIDE = Code("N207", "use-outside-the-project", Severity.ERROR)
TWO_VALUES = Code("N208", "two-values-for-a-setting", Severity.ERROR)
WITHOUT_OWN = Code("N209", "without-own-declaration", Severity.ERROR)
WITHOUT_NOTHING = Code("N210", "without-nothing-to-replace", Severity.ERROR)
LIKE_IN_A_CIRCLE = Code("N211", "like-in-a-circle", Severity.ERROR)
FINDING_IN_A_CIRCLE = Code("N212", "finding-in-a-circle", Severity.ERROR)
NOTHING_TO_LIFT = Code("N213", "nothing-to-lift", Severity.ERROR)
AMBIGUOUS = Code("N214", "ambiguous-name", Severity.ERROR)
NOT_GIVEN = Code("N215", "leave-out-not-given", Severity.ERROR)
NEW_LEVEL = Code("N216", "new-level-without-after", Severity.ERROR)
LATER_PHASE = Code("N217", "back-to-a-later-phase", Severity.ERROR)
FOLLOWERS = Code("N218", "variants-follow", Severity.HINT)
LOOSER_BEARING = Code("N219", "looser-bearing", Severity.WARNING)
GIVES_REPLACED = Code("N220", "gives-replaced", Severity.HINT)
INHERITED_PICTURE = Code("N221", "inherited-picture", Severity.WARNING)
LEVEL_GIVES_PROGRESSION = Code("N222", "level-gives-progression", Severity.ERROR)
SAFETY_LOST = Code("N223", "safety-lines-lost", Severity.WARNING)

# The kinds of names as a person says them; the keys are the fields of the model's Scope, and three more.
KIND_WORDS: dict[str, str] = {
    "findings": "question, test or finding",
    "settings": "setting",
    "equipment": "equipment",
    "targets": "target",
    "exercises": "exercise",
    "progressions": "progression",
    "protocols": "protocol",
    "levels": "level",
    "phases": "phase",
}

# What a person does: a name near to it may be another exercise, and only the author knows which one is meant.
_DONE = frozenset(("exercises", "progressions", "levels"))


def undeclared(
    kinds: Sequence[str], name: str, span: Span, others: Sequence[Span], nearest: str | None, elsewhere: str | None
) -> Diagnostic:
    """A name that nothing declares; `elsewhere` is the kind it is declared as, `others` are further places."""
    if nearest:
        help_ = f"did you mean `{nearest}`?"
    else:
        help_ = f"declare the {_either(kinds[:1])}, or bring in the file that does with `use`"
    return Diagnostic(
        UNDECLARED,
        f"no {_either(kinds)} named `{name}` is declared",
        Label(span),
        tuple(Label(other, "and here") for other in others),
        notes=(f"`{name}` is declared as {_a(elsewhere)}",) if elsewhere else (),
        help=help_,
        fix=Fix(span, nearest) if nearest and not _DONE & set(kinds) else None,
        args={"kinds": tuple(kinds), "name": name, "nearest": nearest},
    )


def undeclared_pair(first: str, word: str, second: str, span: Span) -> Diagnostic:
    """Two undeclared names around `and` or `or` that may be meant as one name."""
    joined = f"{first}-{word}-{second}"
    return Diagnostic(
        UNDECLARED,
        f"neither `{first}` nor `{second}` is declared as a question, test or finding",
        Label(span),
        notes=(f"`{word}` joins two facts and cannot stand inside a name",),
        help=f"if it is one name, write it with hyphens: `{joined}`",
        fix=Fix(span, joined),
        args={"kinds": ("findings",), "name": joined, "nearest": None},
    )


def undeclared_placeholder(name: str, span: Span, nearest: str | None) -> Diagnostic:
    """`[NAME]` in prose where no setting has that name."""
    return Diagnostic(
        UNDECLARED,
        f"`[{name}]` stands in the text, but no setting named `{name}` is declared",
        Label(span),
        notes=("square brackets in prose hold a setting, `[affected side]` or `[other side]`",),
        help=f"did you mean `[{nearest}]`?" if nearest else "declare the setting, or write the words without brackets",
        fix=Fix(span, f"[{nearest}]") if nearest else None,
        args={"kinds": ("settings",), "name": name, "nearest": nearest},
    )


def undeclared_inside(
    kind: str, name: str, owner: str, span: Span, owner_span: Span, nearest: str | None
) -> Diagnostic:
    """A level or phase that its progression or protocol does not have."""
    return Diagnostic(
        UNDECLARED,
        f"`{owner}` has no {KIND_WORDS[kind]} `{name}`",
        Label(span),
        (Label(owner_span, f"`{owner}`"),),
        help=f"did you mean `{nearest}`?" if nearest else f"name one of the {KIND_WORDS[kind]}s of `{owner}`",
        args={"kinds": (kind,), "name": name, "nearest": nearest},
    )


def declared_twice(kind: str, name: str, span: Span, first: Span) -> Diagnostic:
    """One name for two things of one kind."""
    return Diagnostic(
        DECLARED_TWICE,
        f"`{name}` is declared twice as {_a(kind)}",
        Label(span, "declared again here"),
        (Label(first, "first declared here"),),
        help="give one of them another name, or take the other file's out with `without` under its `use`"
        if span.path != first.path
        else "give one of them another name, or take one out",
        args={"kind": kind, "name": name},
    )


def level_twice(name: str, span: Span, first: Span) -> Diagnostic:
    """Two levels of one name in a progression."""
    return Diagnostic(
        DECLARED_TWICE,
        f"two levels are named `{name}`",
        Label(span, "named again here"),
        (Label(first, "first named here"),),
        help=f"give one of them a label: `level slow {name}: {name}`",
        args={"kind": "levels", "name": name},
    )


def unused(kind: str, name: str, span: Span, in_library: bool) -> Diagnostic:
    """Declared, and no line anywhere names it."""
    code = UNUSED_IN_LIBRARY if in_library else UNUSED
    where = "in the whole project" if in_library else "here or in any file that was checked"
    return Diagnostic(
        code,
        f"the {KIND_WORDS[kind] if kind != 'findings' else 'question or test'} `{name}` is never used",
        Label(span),
        notes=(f"no line {where} names it",),
        help="use it, or take it out",
        args={"kind": kind, "name": name},
    )


def use_in_a_circle(chain: Sequence[str], span: Span) -> Diagnostic:
    """Files that bring in one another."""
    return Diagnostic(
        USE_IN_A_CIRCLE,
        f"`use` goes round in a circle: {' uses '.join(chain)}",
        Label(span),
        help="move what both need into a third file that uses neither",
        args={"chain": tuple(chain)},
    )


def use_not_found(path: str, span: Span, nearest: str | None) -> Diagnostic:
    """No file where a `use` points."""
    return Diagnostic(
        USE_NOT_FOUND,
        f"there is no file for `use {path}`",
        Label(span),
        notes=("the path starts at the folder of clinic.toml or at a library folder that it names",),
        help=f"did you mean `{nearest}`?" if nearest else "write the path without `.protocol`, as in `library/calf`",
        fix=Fix(span, nearest) if nearest else None,
        args={"path": path, "nearest": nearest},
    )


def use_outside(path: str, span: Span) -> Diagnostic:
    """A `use` that leads out of the project."""
    return Diagnostic(
        USE_OUTSIDE,
        f"`use {path}` leads outside the project",
        Label(span),
        notes=("only files below the folder of clinic.toml, or below a library folder that it names, are read",),
        help="move the file into the project, or name its folder under `libraries` in clinic.toml",
        args={"path": path},
    )


def two_values(name: str, span: Span, first: Span) -> Diagnostic:
    """Two `with` lines give one setting different values."""
    return Diagnostic(
        TWO_VALUES,
        f"the setting `{name}` is given two values",
        Label(span, "another value here"),
        (Label(first, "one value here"),),
        help="leave one `with` line and take out the other",
        args={"name": name},
    )


def without_own(name: str, span: Span, theirs: Span) -> Diagnostic:
    """`without X`, but this file has no X of its own to stand in."""
    return Diagnostic(
        WITHOUT_OWN,
        f"`without {name}` takes this file's own `{name}` instead, but this file declares none of that kind",
        Label(span),
        (Label(theirs, "declared here"),),
        help=f"declare your own `{name}` in this file, or take out the `without`",
        args={"name": name},
    )


def without_nothing(name: str, path: str, span: Span, nearest: str | None) -> Diagnostic:
    """`without X`, but the used file has no X."""
    return Diagnostic(
        WITHOUT_NOTHING,
        f"`{path}` declares nothing named `{name}`, so there is nothing to go without",
        Label(span),
        help=f"did you mean `{nearest}`?" if nearest else "take out the name",
        fix=Fix(span, nearest) if nearest else None,
        args={"name": name, "path": path, "nearest": nearest},
    )


def like_in_a_circle(chain: Sequence[str], span: Span) -> Diagnostic:
    """A declaration that is, in the end, like itself."""
    return Diagnostic(
        LIKE_IN_A_CIRCLE,
        f"`like` goes round in a circle: {' like '.join(chain)}",
        Label(span),
        help="write one of them out in full",
        args={"chain": tuple(chain)},
    )


def finding_in_a_circle(chain: Sequence[str], span: Span) -> Diagnostic:
    """A finding that follows from itself."""
    return Diagnostic(
        FINDING_IN_A_CIRCLE,
        f"a finding follows from itself: {' follows from '.join(chain)}",
        Label(span),
        help="make one of them follow from questions and tests only",
        args={"chain": tuple(chain)},
    )


def nothing_to_lift(line: str, span: Span, there: Sequence[str], instead: str) -> Diagnostic:
    """`allow if` or `lift` whose line is not inherited; `there` are lines like it.

    `instead` is what to write for an `avoid if` after `lift`, else empty.
    """
    return Diagnostic(
        NOTHING_TO_LIFT,
        "`lift` lifts every safety line but `avoid if`, which `allow if` does"
        if instead
        else f"no inherited line reads `{line}`, so there is nothing to lift",
        Label(span),
        notes=(f"what is inherited reads {_list(there)}",) if there else (),
        help=f"write `{instead}`" if instead else "repeat the inherited line word for word, or take this out",
        args={"line": line, "there": tuple(there)},
    )


def ambiguous(name: str, kinds: Sequence[str], span: Span, places: Sequence[Span]) -> Diagnostic:
    """A name that two kinds of things have, where either could be meant."""
    return Diagnostic(
        AMBIGUOUS,
        f"`{name}` may be {' or '.join(_a(kind) for kind in kinds)}, and either could be meant here",
        Label(span),
        tuple(Label(place, _a(kind)) for kind, place in zip(kinds, places, strict=True)),
        help="give one of them another name",
        args={"name": name, "kinds": tuple(kinds)},
    )


def not_given(name: str, where: str, span: Span, nearest: str | None) -> Diagnostic:
    """`leave out X`, but X is never given there."""
    return Diagnostic(
        NOT_GIVEN,
        f"`{name}` is left out, but {where} never gives it",
        Label(span),
        help=f"did you mean `{nearest}`?" if nearest else "take out the line",
        args={"name": name, "nearest": nearest},
    )


def new_level(name: str, progression: str, span: Span, nearest: str | None) -> Diagnostic:
    """A change names a level that is not there and does not say where it goes."""
    return Diagnostic(
        NEW_LEVEL,
        f"`{progression}` has no level `{name}`, and a new level has to say which one it follows",
        Label(span),
        help=f"did you mean `{nearest}`?" if nearest else f"write `level {name}, after` and the level before it",
        args={"name": name, "progression": progression, "nearest": nearest},
    )


def later_phase(name: str, phase: str, span: Span, place: Span) -> Diagnostic:
    """`back to` the same or a later phase."""
    return Diagnostic(
        LATER_PHASE,
        f"`back to {name}` stands in `{phase}`, but `{name}` does not come before it",
        Label(span),
        (Label(place, f"`{name}`"),),
        help="name a phase that comes earlier",
        args={"name": name, "phase": phase},
    )


def followers(name: str, names: Sequence[str], span: Span) -> Diagnostic:
    """Variants that follow a change because they do not restate what it touches."""
    return Diagnostic(
        FOLLOWERS,
        f"the change of `{name}` also changes {_list(names)}",
        Label(span),
        notes=("a variant follows in every line that it does not state itself",),
        help="if a variant should stay as it was, restate the line in a `change` of its own",
        args={"name": name, "followers": tuple(names)},
    )


def looser_bearing(bearing: str, inherited: str, span: Span, place: Span) -> Diagnostic:
    """A phase restates a bearing that is looser than the inherited one, which stays in force."""
    return Diagnostic(
        LOOSER_BEARING,
        f"`bearing {bearing}` has no effect: the inherited `bearing {inherited}` is stricter and stays",
        Label(span),
        (Label(place, "inherited from here"),),
        help=f"to allow more, write `lift bearing {inherited}` with a `because` beside it",
        args={"bearing": bearing, "inherited": inherited},
    )


def gives_replaced(names: Sequence[str], where: str, span: Span) -> Diagnostic:
    """Restated gives replace the inherited ones; these are gone."""
    return Diagnostic(
        GIVES_REPLACED,
        f"the `give` lines here replace the inherited ones: `{where}` no longer gives {_list(names)}",
        Label(span),
        help="repeat the `give` lines that should stay, or say `leave out` for those that should go",
        args={"names": tuple(names), "where": where},
    )


def inherited_picture(name: str, origin: str, keyword: str, span: Span) -> Diagnostic:
    """A variant moves otherwise than the picture it inherits shows."""
    return Diagnostic(
        INHERITED_PICTURE,
        f"`{name}` has its own `{keyword}` but still shows the picture of `{origin}`",
        Label(span),
        help=f"give it a picture of its own, for example `figure like {origin}` and what differs, or write `no figure`",
        args={"name": name, "origin": origin},
    )


def level_gives_progression(name: str, span: Span, place: Span) -> Diagnostic:
    """A level gives exercises; a progression inside a progression has no place."""
    return Diagnostic(
        LEVEL_GIVES_PROGRESSION,
        f"a level gives exercises, but `{name}` is a progression",
        Label(span),
        (Label(place, "the progression"),),
        help="name the exercise of this level",
        args={"name": name},
    )


def safety_lost(kind: str, name: str, lines: Sequence[str], span: Span, theirs: Span, own: Span) -> Diagnostic:
    """`without` takes out a thing whose safety lines the importer's own does not have."""
    return Diagnostic(
        SAFETY_LOST,
        f"this file's own {KIND_WORDS[kind]} `{name}` does not say {_list(lines)}",
        Label(span, "taken out here"),
        (Label(theirs, "said here"), Label(own, "not said here")),
        notes=("what is taken out goes with all its safety lines; nothing of it is inherited",),
        help=f"repeat the lines in your own `{name}`, or write `change {name}` in the protocol in place of `without`",
        args={"kind": kind, "name": name, "lines": tuple(lines)},
    )


def _either(kinds: Sequence[str]) -> str:
    words = [word for kind in kinds for word in KIND_WORDS[kind].replace(" or ", ", ").split(", ")]
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} or {words[-1]}"


def _a(kind: str) -> str:
    words = KIND_WORDS[kind]
    if kind == "equipment":
        return words
    return f"{'an' if words[0] in 'aeio' else 'a'} {words}"


def _list(names: Sequence[str]) -> str:
    quoted = [f"`{name}`" for name in names]
    return quoted[0] if len(quoted) == 1 else f"{', '.join(quoted[:-1])} and {quoted[-1]}"
