"""The rows of the keyword table: keyword, where, how often, form, meaning, example.

Where: T left margin, F question and test, D finding, E exercise, R progression, L level, G give, P protocol, H phase,
X change, S part, C choose, U use, N needs, A avoid if, W allow if, I lift, K case, O on, V corrected, Y place, Z from.
`change` takes every line of E, R, L, H and F besides.
"""

from __future__ import annotations

Row = tuple[str, str, str, str, str, str]

PROTOCOL_ROWS: tuple[Row, ...] = (
    ("use", "T", "*", "use PATH", "Brings in what another file declares.", "use library/calf"),
    (
        "with", "U", "*", "with NAME = AMOUNT", "Gives a setting of the file that is brought in another value.",
        "with weeks in brace = 3 weeks",
    ),
    (
        "without", "U", "*", "without NAME, NAME", "Leaves out declarations of that file, to declare them here instead.",
        "without heel raises, pain",
    ),
    (
        "setting", "T", "*", "setting NAME = AMOUNT, from LOW to HIGH",
        "A number that a clinic may set for itself; it stands in conditions and, in [brackets], in what a patient reads.",
        "setting weeks in brace = 2 weeks, from 0 to 6 weeks",
    ),
    (
        "equipment", "T", "*", "equipment NAME: WORDS", "A thing that exercises need, and the words a patient reads for it.",
        "equipment step: a low, firm step",
    ),
    (
        "target", "T", "*", "target NAME: WORDS", "What exercises work on, and the words a patient reads for it.",
        "target calf: calf",
    ),
    (
        "question", "T", "*", "question NAME: WORDS", "Something the patient answers: yes or no, unless `answer` says otherwise.",
        "question recent calf tear: Have you torn your calf muscle in the last 6 weeks?",
    ),
    (
        "test", "T", "*", "test NAME: WORDS", "Something the clinician measures or judges.",
        "test heel raises: Single-leg heel raises to full height, until the height is lost.\n  answer count from 0 to 60, each side",
    ),
    (
        "finding", "T", "*", "finding NAME[: WORDS] + rows", "Something that follows from other findings, row by row.",
        "finding stiff ankle: The ankle bends less than it should.\n  yes if knee-to-wall < 10 cm on the affected side\n  otherwise no",
    ),
    (
        "otherwise", "D", "0-1", "otherwise VALUE", "The value of a finding where no row above it holds.", "otherwise no",
    ),
    (
        "exercise", "T", "*", "exercise NAME [like NAME]", "One exercise; `like` takes over the lines of another.",
        "exercise heel raise both legs\n  do\n    Rise as high as you can.",
    ),
    (
        "progression", "T", "*", "progression NAME [like NAME]", "A ladder of levels, with the rules for going up and down.",
        "progression calf strength\n  level heel raise both legs",
    ),
    (
        "protocol", "T", "*", "protocol NAME [like NAME]",
        "The whole programme for one condition: who it is for, when to stop, and what is given when.",
        "protocol lateral ankle sprain like ankle sprain\n  version 1.3.0",
    ),
    (
        "answer", "F", "0-1", "answer KIND[, each side]", "What an answer can be: yes or no, a scale, a measure, a choice or a date.",
        "answer cm from 0 to 25, each side",
    ),
    (
        "fresh", "F", "0-1", "fresh for TIME", "How long an answer counts; an older one is as good as none.", "fresh for 4 weeks",
    ),
    ("better", "F", "0-1", "better higher / lower", "Which way a measure gets better.", "better lower"),
    (
        "means", "FD", "0-1", "means WORDS", "How a measure or a choice is called in a sentence on the sheet.",
        "means your pain during the exercises",
    ),
    (
        "yes means", "FD", "0-1", "yes means WORDS", "How a yes reads on the sheet, after `if`.",
        "yes means you have torn your calf muscle in the last 6 weeks",
    ),
    (
        "no means", "FD", "0-1", "no means WORDS", "How a no reads on the sheet, after `if`.", "no means you still limp",
    ),
    ("title", "ERPH", "0-1", "title WORDS", "The heading a patient reads; without it the name is used.", "title Heel raise on both legs"),
    ("position", "E", "0-1", "position POSITION", "How the body is placed, from a closed list.", "position standing"),
    (
        "bearing", "EH", "0-1", "bearing BEARING",
        "How much body weight the leg takes: none, touch, partial, as tolerated or full; in a phase the most that is allowed.",
        "bearing full",
    ),
    ("works", "ER", "*", "works TARGET, TARGET", "What is worked on.", "works calf, balance"),
    (
        "moves", "E", "*", "moves [KIND] MOVEMENT to ANGLE, ...",
        "Which joints move and how far; kinds are passive, assisted, active and resisted.",
        "moves active shoulder flexion to 90 deg, ankle plantarflexion to 40 deg",
    ),
    (
        "harder than", "RL", "*", "harder than LEVEL at JOINT", "Claims that this level loads a joint more than another; the drawn figures check it.",
        "harder than heel raise both legs at ankle",
    ),
    ("still", "E", "*", "still JOINT, JOINT", "Joints that do not move in this exercise.", "still shoulder, elbow"),
    (
        "needs", "E", "*", "needs THING or THING", "What is needed; one of the things is enough.",
        "needs step or stair\n  instead heel raise on the floor",
    ),
    (
        "figure", "E", "0-1", "figure [like EXERCISE] + lines", "The drawing of the exercise, described in clinical words.",
        "figure\n  start lying on back, knees 100, feet flat on floor\n  end hips 0, lift pelvis",
    ),
    (
        "image", "E", "0-1", "image FILE: WORDS", "A picture file in place of a drawing, with the words for those who cannot see it.",
        "image pictures/nerve-glide.svg: arm out to the side, palm up",
    ),
    (
        "dose", "ERLGPH", "*", "dose [weeks A to B:] PART, PART",
        "How much, how, and how often; the nearest dose counts: of the level or give, then exercise, phase, protocol.",
        "dose 3 x 8 to 12, each side, lift 2 s, lower 3 s, rest 60 s, 3 days a week",
    ),
    ("set", "ELG", "*", "set N: PART, PART", "What one set holds where sets differ.", "set 2: 10 reps, load 5 kg"),
    (
        "adjust", "ELG", "*", "adjust load by reps in set N, for set M + rows",
        "Sets the load of a later set, or of the next session, by the repetitions reached.",
        "adjust load by reps in set 3, for set 4\n  0 to 4: take off 5 kg\n  5 to 6: same load\n  7 or more: add 2.5 kg",
    ),
    (
        "add", "ERLG", "*", "add AMOUNT when CONDITION[, N sessions in a row][, up to AMOUNT]",
        "A step up in load, repetitions or time, taken whenever the condition has held.",
        "add 2.5 kg when pain <= 2, 3 sessions in a row, up to 30 kg",
    ),
    (
        "take off", "ERLG", "*", "take off AMOUNT when CONDITION[, N sessions in a row][, down to AMOUNT]",
        "A step down in load, repetitions or time.", "take off 2.5 kg when pain > 5, down to 5 kg",
    ),
    (
        "focus", "EG", "0-1", "focus weaker side by FINDING[, N extra sets]", "More work for the side with the worse value.",
        "focus weaker side by heel raises, 1 extra set",
    ),
    ("do", "E", "1", "do + lines", "The steps, one a line, as a patient reads them.", "do\n  Stand tall.\n  Rise as high as you can."),
    ("why", "EGP", "0-1", "why WORDS", "What it is good for, in the patient's words.", "why a strong calf protects the tendon"),
    ("when", "EGP", "0-1", "when WORDS", "Where it fits in the day.", "when before breakfast"),
    ("feel", "E", "*", "feel WORDS", "Where or how it should be felt.", "feel high in the back of your lower leg"),
    ("normal", "E", "*", "normal WORDS", "What may happen and is harmless.", "normal trembling, and a warm, tired calf"),
    (
        "fix", "E", "*", "fix FAULT: CURE", "A common fault and what to do about it.",
        "fix your ankles roll outwards: press harder through your big toes",
    ),
    ("stop", "EPH", "*", "stop WORDS", "A reason to stop the exercise at once.", "stop sharp pain in the tendon"),
    ("supervised", "EG", "0-1", "supervised", "Only done in the clinic.", "supervised"),
    (
        "avoid if", "E", "*", "avoid if CONDITION", "A contraindication: the exercise is not printed, and `instead` takes its place.",
        "avoid if recent calf tear\n  instead seated heel raise",
    ),
    (
        "allow if", "E", "*", "allow if CONDITION + because", "Lifts an inherited `avoid if` of the same words, with the reason.",
        "allow if recent calf tear\n  because no body weight on the torn fibres",
    ),
    (
        "caution if", "EPH", "*", "caution if CONDITION + lines", "A precaution, printed for those it concerns.",
        "caution if brittle bones\n  Hold on with both hands.",
    ),
    ("instead", "NA", "0-1", "instead EXERCISE", "What is done in its place.", "instead seated heel raise"),
    (
        "because", "AWIXVYZ", "0-1", "because WORDS", "The clinician's reason, for colleagues.", "because our people start from less",
    ),
    (
        "lift", "EPH", "*", "lift SAFETY LINE + because", "Drops one inherited safety line, in the open; the words are those of the line.",
        "lift stop sharp pain in the tendon\n  because the tendon was repaired",
    ),
    (
        "start at", "R", "*", "start at LEVEL if CONDITION", "Where somebody begins, looked at once, on the first date.",
        "start at heel raise one leg if heel raises >= 10 on each side",
    ),
    (
        "up when", "RL", "*", "up when CONDITION[, N sessions in a row]", "When to go one level up; in the progression, for all its levels.",
        "up when pain <= 3, 2 sessions in a row",
    ),
    (
        "down when", "RL", "*", "down when CONDITION[, N sessions in a row]", "When to go one level down; it always goes before `up when`.",
        "down when pain > 5 or pain next morning > pain + 1",
    ),
    (
        "level", "R", "1+", "level EXERCISE / LABEL: EXERCISE / LABEL + gives[, after LEVEL]", "One step of the ladder, the easiest first.",
        "level heavy slow: loaded heel raise",
    ),
    ("version", "P", "1", "version NUMBER", "The version of the text; a case pins it.", "version 1.3.0"),
    (
        "review", "P", "1", "review DATE by WHOM, next by DATE", "When the protocol was last read through, by whom, and when it has to be again.",
        "review 2026-10-05 by outpatient lead, next by 2027-10-05",
    ),
    ("source", "P", "1+", "source REFERENCE", "A full reference, one a line.", "source Common practice, no source."),
    ("for", "P", "1", "for WHOM", "Whom the protocol is meant for.", "for adults with a grade 1 or 2 sprain"),
    ("goal", "P", "*", "goal WORDS", "What is to be reached.", "goal walk 30 minutes on rough ground by week 6"),
    ("budget", "P", "0-1", "budget N min a day", "The most time the exercises of a day may take.", "budget 25 min a day"),
    ("lasts", "P", "0-1", "lasts TIME", "How long the programme lasts.", "lasts 6 weeks"),
    (
        "emergency if", "P", "*", "emergency if CONDITION", "Call for help now: nothing but the referral page is printed.",
        "emergency if chest pain",
    ),
    (
        "red flag if", "P", "*", "red flag if CONDITION", "Call the clinic today: nothing but the referral page is printed.",
        "red flag if bone tenderness\n  Do not start. Call us today.",
    ),
    (
        "call if", "PH", "*", "call if CONDITION[, N sessions in a row]", "The sheet says when to call, and the clinician is told.",
        "call if pain > 6, 2 sessions in a row",
    ),
    (
        "advice", "PH", "*", "advice TITLE + lines", "A piece of advice with its heading.",
        "advice Pain while you exercise\n  Up to **3 out of 10** is fine if it is back to normal the next morning.",
    ),
    (
        "flare-up", "P", "0-1", "flare-up + lines", "What to do in a bad spell.",
        "flare-up\n  Leave out the exercise that hurts for two days.",
    ),
    (
        "pain zones", "P", "0-1", "pain zones + rows", "How much pain is all right, from 0 to 10 without a gap.",
        "pain zones\n  0 to 2: carry on\n  3 to 5: ease off\n    Do half of the repetitions.\n  6 to 10: stop",
    ),
    ("may", "PH", "*", "may WORDS", "What is allowed in daily life.", "may walk indoors in the brace"),
    ("not yet", "PH", "*", "not yet WORDS", "What has to wait.", "not yet run or jump"),
    ("phase", "P", "*", "phase NAME", "A stretch of the programme, in order.", "phase settle\n  give ankle circles"),
    (
        "limit", "H", "*", "limit MOVEMENT <= ANGLE / limit load <= WEIGHT", "How far or how heavy at most, for everything the phase can give.",
        "limit ankle plantarflexion <= 20 deg",
    ),
    ("forbid", "H", "*", "forbid [KIND] MOVEMENT", "A movement that nothing in the phase may make.", "forbid resisted ankle inversion"),
    (
        "until", "H", "*", "until CONDITION[, N sessions in a row]", "When the next phase begins.",
        "until walks without limp and weeks since start >= 2",
    ),
    (
        "back to", "H", "*", "back to PHASE if CONDITION[, N sessions in a row]", "When to return to an earlier phase.",
        "back to settle if pain > 5, 3 sessions in a row",
    ),
    ("part", "PH", "*", "part TITLE", "A section of the sheet.", "part Warm up\n  give ankle circles"),
    ("choose", "PHS", "*", "choose N", "The patient chooses among what is given.", "choose 1\n  give exercise bike\n  give brisk walk"),
    (
        "give", "PHLSC", "*", "give NAME [if / unless CONDITION]", "Gives an exercise or a progression.",
        "give ankle rocks if knee-to-wall < 10 cm on the affected side",
    ),
    (
        "change", "P", "*", "change NAME", "Changes lines of an exercise, progression, level, phase, question or test, in this protocol only.",
        "change heel raise both legs\n  dose 2 x 10, daily\n  because our people start from less",
    ),
    ("leave out", "PH", "*", "leave out NAME", "Takes away something that would be given.", "leave out ankle circles"),
)  # fmt: skip

CASE_ROWS: tuple[Row, ...] = (
    ("case", "T", "1", "case ID", "One person under an id that says nothing about who it is.", "case P-0417\n  protocol lateral ankle sprain, version 1.3.0"),
    (
        "protocol", "K", "1", "protocol NAME, version NUMBER", "The protocol this person follows, and its version.",
        "protocol lateral ankle sprain, version 1.3.0",
    ),
    ("started", "K", "1", "started DATE", "The first day.", "started 2026-11-02"),
    ("language", "K", "1", "language TAG", "The language of the sheet, as a tag of BCP 47.", "language zh-Hans"),
    ("side", "K", "1", "side left / right / both, worse left / none", "The affected side.", "side both, worse left"),
    ("has", "K", "0-1", "has THING, THING / has nothing", "What there is at home; what is not listed is not there.", "has stair, wall"),
    (
        "on", "K", "*", "on DATE + answers", "What was answered or measured on a day.",
        "on 2026-11-02\n  no: chest pain, recent calf tear\n  knee-to-wall: left 11 cm, right 6.5 cm",
    ),
    ("yes", "O", "*", "yes: NAME, NAME", "Questions answered with yes.", "yes: walks without limp"),
    ("no", "O", "*", "no: NAME, NAME", "Questions answered with no.", "no: chest pain, recent calf tear"),
    ("unknown", "O", "*", "unknown: NAME, NAME", "Questions that could not be answered.", "unknown: shoulder pain"),
    ("chose", "O", "*", "chose: NAME", "What the person chose where there was a choice.", "chose: brisk walk"),
    (
        "session", "K", "*", "session DATE[, DATE / to DATE] [ITEM]: PART, PART",
        "What was done and how it went; without an item it is all that was on the sheet.",
        "session 2026-11-17 to 2026-11-19 calf strength: as given, pain 2, pain next morning unknown",
    ),
    (
        "corrected", "K", "*", "corrected DATE NAME: VALUE + because", "Replaces an answer of that day that was wrong.",
        "corrected 2026-11-02 knee-to-wall: right 7.5 cm\n  because measured with the shoe on",
    ),
    (
        "from", "K", "*", "from DATE [to DATE] change / leave out / give NAME + because; from DATE version NUMBER",
        "A change for this person, or another version of the protocol.",
        "from 2026-11-22 to 2026-11-25 leave out calf strength\n  because travelling",
    ),
    (
        "place", "K", "*", "place DATE ITEM: LEVEL + because", "Puts the person on a level, by the clinician's decision.",
        "place 2026-11-25 calf strength: heel raise one leg\n  because moved to the new version",
    ),
    ("next visit", "K", "0-1", "next visit DATE", "The day of the next appointment.", "next visit 2026-11-30"),
    ("note", "K", "*", "note DATE WORDS", "A note for colleagues.", "note 2026-11-20 ran for the bus"),
)  # fmt: skip
