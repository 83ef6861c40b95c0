"""Handouts written by hand for the tests of the renderer: an invented knee protocol of the Alder Quay clinic."""

from __future__ import annotations

from protodsl.handout.blocks import (
    Bullets,
    Cell,
    Diary,
    DiaryWeek,
    ExerciseCard,
    Footer,
    Handout,
    Item,
    Lines,
    Masthead,
    PainBand,
    PainScale,
    Paragraphs,
    Picture,
    Row,
    Section,
    Station,
    Stations,
    Stop,
    StopGroup,
    Table,
)

CLINIC_PHONE = "01632 960 142"
DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")

_PANEL = (
    '<g transform="translate({x},0)"><path d="M20 150h120" stroke="#1b242b" stroke-width="1.5"/>'
    '<path d="M58 148v-44h34v44M58 104v-40" fill="none" stroke="#5d6661" stroke-width="4"/>'
    '<circle cx="{head}" cy="{top}" r="12" fill="#f4e0cd" stroke="#1b242b" stroke-width="1.5"/>'
    '<path d="M{head} {neck}L72 100L104 100L104 146L116 146" fill="none" stroke="#0d4650" stroke-width="11"'
    ' stroke-linejoin="round" stroke-linecap="round"/></g>'
)


def drawing(panels: int = 2) -> str:
    """A stick figure on a chair, a panel a phase; only a stand-in for the drawn figures."""
    bodies = "".join(_PANEL.format(x=i * 160, head=72 + i * 14, top=36 + i * 2, neck=50 + i * 2) for i in range(panels))
    width = 160 * panels
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width * 0.22:.0f}mm" height="35mm" viewBox="0 0 {width} 160">'
        f"<title>figure</title>{bodies}</svg>"
    )


def items(*texts: str, safety: str = "") -> tuple[Item[str], ...]:
    """Lines, each a safety line of that group if one is named."""
    return tuple(
        Item(text, f"{safety}/{number}" if safety else "", f"knee.protocol:{40 + number}" if safety else "")
        for number, text in enumerate(texts, 1)
    )


def stop() -> Section[str]:
    """The STOP part: two groups, one of them urgent."""
    signs = (
        "Your calf is swollen, warm and sore when you press it.",
        "Your knee is hot and red, or you have a fever.",
        "Your knee locks, or gives way so that you nearly fall.",
        "You cannot put weight on your right leg.",
        "Your pain is 6 or more, two sessions in a row.",
    )
    return Section(
        "stop",
        None,
        (
            Stop(
                "STOP",
                "and get help if this happens",
                (
                    StopGroup(
                        "Call now",
                        "112",
                        items(
                            "You have chest pain, or you cannot get your breath.",
                            "You faint, or one side of your face or body goes weak.",
                            safety="stop/emergency",
                        ),
                        urgent=True,
                    ),
                    StopGroup(
                        "Stop all exercises. Call us today",
                        CLINIC_PHONE,
                        items(*signs, safety="stop/red-flag"),
                        other_hours="Nights, weekends:",
                        other_phone="01632 960 199",
                    ),
                ),
            ),
        ),
        whole=True,
    )


def week() -> Section[str]:
    """A week: minutes a day for each exercise, and their sum."""
    plan = (
        ("1 Stand up from a chair", "5", "", "5", "", "5", "", ""),
        ("2 Straighten your knee", *["6"] * 7),
        ("3 Lift your hips", "5", "", "5", "", "5", "", ""),
        ("4 Step up", "", "5", "", "5", "", "5", ""),
        ("5 Calf stretch", *["3"] * 7),
    )
    rows = tuple(tuple(Cell(text or "–", on=bool(text) and i > 0) for i, text in enumerate(row)) for row in plan)
    foot = tuple(Cell(text) for text in ("Minutes in the day", "19", "14", "19", "14", "19", "14", "9"))
    table = Table(None, ("Minutes for each", *DAYS), rows, foot, "week", (35, *[9] * 7))
    return Section("week", "Your week", (table,), whole=True)


def pain() -> Section[str]:
    """The pain scale with its three bands."""
    bands = (
        PainBand(
            0, 3, "Carry on", items("Some ache is safe. It does not mean that you harm the knee.", safety="pain/1"), 0
        ),
        PainBand(
            4, 5, "Ease off", items("Make the movement smaller, or do half as many. Still 4? Stop.", safety="pain/2"), 1
        ),
        PainBand(
            6,
            10,
            "Stop for today",
            items(f"Try again tomorrow. If it is 6 again, call us: {CLINIC_PHONE}.", safety="pain/3"),
            2,
        ),
    )
    return Section(
        "pain",
        "How much pain is all right?",
        (PainScale("Give your knee pain a number. 0 is no pain. 10 is the worst you can think of.", bands),),
    )


def card(number: int, name: str, *, picture: int = 0, long: int = 1) -> ExerciseCard[str]:
    """An exercise with `picture` panels and `long` times the usual rows."""
    rows = (
        Row("You should feel", items("The front of both thighs and your buttocks, warm and tired."), "feel"),
        Row("This is normal", items("A knee that creaks. Sore thighs for a day or two."), "normal"),
        Row(
            "Felt elsewhere?",
            items(
                "At the front of the kneecap: move your feet forward by a hand’s width and lean further before you rise"
            ),
            "change",
        ),
        Row(
            "Stop this one if",
            items("You get dizzy as you stand, or the knee hurts 6 or more.", safety=f"{name}/stop"),
            "stop",
        ),
        Row(
            "Which side",
            items("Both legs share the work. If you drift to the left, pull your right foot back a little."),
            "side",
        ),
        Row(
            "Leave it out if",
            items("Your knee is more swollen than yesterday. Do exercise 2 instead.", safety=f"{name}/avoid"),
            "out",
        ),
    )
    stations = Stations(
        "Your line: where you are, and when to change",
        (
            Station(
                "back", "Go back", "to 2 rounds", "**when** your knee is worse on two mornings running.", f"{name}/down"
            ),
            Station("now", "Now", "Chair without a cushion, 3 rounds."),
            Station(
                "next",
                "Move on",
                "to a lower chair",
                "**when** you did all 3 rounds on three days, pain stayed at 3 or less, and no morning after was worse",
            ),
        ),
    )
    drawn = (
        Picture(
            f"A person does the exercise {name} in {picture} pictures.",
            ("Sit", "Lean", "Stand. Stripes: what works")[:picture],
            drawing(picture),
        )
        if picture
        else None
    )
    return ExerciseCard(
        name.lower().replace(" ", "-"),
        number,
        name,
        "Monday, Wednesday, Friday · 5 minutes",
        "Stand up and sit down 8 times, then rest 1 minute. Do 3 rounds.",
        None,
        drawn,
        Row(
            "Step by step",
            items(
                "Sit on the front half. Put your feet a little behind your knees.",
                "Lean forward until your nose is over your toes.",
                "Stand up. Push with your hands **only if you must**.",
                "Sit down slowly. Count to three on the way.",
            ),
            numbered=True,
        ),
        rows * long,
        (stations,),
        continued=f"{name}, continued",
    )


def cards() -> tuple[ExerciseCard[str], ...]:
    """Five exercises; the fourth has no picture."""
    return (
        card(1, "Stand up from a chair", picture=3),
        card(2, "Straighten your knee", picture=2),
        card(3, "Lift your hips", picture=2),
        card(4, "Step up"),
        card(5, "Calf stretch", picture=1),
    )


def diary(weeks: int = 2) -> Section[str]:
    """Boxes for the exercises due each day, and three columns to write in."""
    due = (("1", "2", "3", "5"), ("2", "4", "5")) * 3 + (("2", "5"),)
    bodies = tuple(
        DiaryWeek(f"Week {4 + number}", tuple((f"{day} {2 + 7 * number + i}", due[i]) for i, day in enumerate(DAYS)))
        for number in range(weeks)
    )
    return Section(
        "diary",
        "Your diary",
        (
            Paragraphs(
                items("Tick each exercise you did. Write your worst pain of the day, and bring this page along.")
            ),
            Diary(("Day", "Tick what you did", "Worst pain", "Next morning", "Anything to tell us"), bodies, 3),
        ),
        new_page=True,
    )


def sheet(exercises: tuple[ExerciseCard[str], ...] | None = None, weeks: int = 2) -> Handout[str]:
    """A whole sheet for a person."""
    changed = (
        Row("New", items("**Exercise 4,** step up. Stairs no longer hurt, so we train them now.")),
        Row("More", items("**Exercise 1,** stand up from a chair. Now 3 rounds, not 2.")),
        Row("The same", items("**Exercises 2, 3 and 5.**")),
        Row("Leave out now", items("Sliding your heel to bend the knee. You bend far enough.")),
    )
    needs = items(
        "A firm kitchen chair without wheels, its back against a wall",
        "The lowest step of your stairs, with the rail",
        "A bed or a mat to lie on",
        "A bare piece of wall",
        "Shoes that grip",
    )
    flare = (
        Paragraphs(items("Bad spells are common. Most pass within a week, and nothing is lost.")),
        Row(
            "Days 1 and 2",
            items("Only exercise 2, once a day, half as many. Short walks on the flat.", safety="flare/1"),
        ),
        Row("Days 3 to 5", items("Add exercises 3 and 5. Half as many as on their pages.", safety="flare/2")),
        Row("Not better?", items(f"If nothing has eased after 7 days, call us: **{CLINIC_PHONE}**.", safety="flare/3")),
    )
    daily = (
        Row(
            "You may",
            items("Walk on the flat for up to 30 minutes.", "Take the stairs, holding the rail.", "Swim or cycle."),
            "feel",
        ),
        Row("Not yet", items("Kneel on the bare floor.", "Run, jump, or work on a ladder.", safety="not-yet"), "out"),
    )
    about = (
        Row(
            "Only for you",
            items("This sheet was made for one person by a physiotherapist. It may be wrong for anyone else."),
        ),
        Row("Sources", items("Alder Quay knee plan, 3rd edition; Alder Quay pain rule, 2025.")),
        Row("Version", items("Knee, version 3, made on 2 March 2026. Digest 7f3c 91d0 44be a217.")),
    )
    return Handout(
        "sheet",
        "Your right knee, weeks 4 and 5: Alder Quay clinic",
        Masthead(
            "Alder Quay clinic",
            "Physiotherapy, 2 Harbour Steps",
            "Your right knee, weeks 4 and 5",
            (
                "For P-0417, from Monday 2 March to Sunday 15 March 2026. Name:",
                "Next visit: **Monday 16 March, 10:20**.",
            ),
        ),
        (
            stop(),
            Section("changed", "What changed since last time", changed),
            week(),
            Section("need", "What you need", (Bullets(needs, 2),)),
            pain(),
            Section("flare-up", "If the knee has a bad spell", flare, whole=True),
            Section("exercises", None, exercises if exercises is not None else cards()),
            Section("daily", "Daily life", daily, whole=True),
            Section("ask", "What I want to ask at my visit", (Lines("", 6),), whole=True),
            Section("about", "About this sheet", about),
            diary(weeks),
        ),
        Footer(
            ("P-0417, right knee", "Knee protocol, version 3"), f"Worried? {CLINIC_PHONE}", "Page {page} of {pages}"
        ),
        "7f3c91d044bea217",
    )
