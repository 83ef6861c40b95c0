"""More handouts written by hand: the clinician's page, and a sheet that reads from right to left."""

from __future__ import annotations

from protodsl.handout.blocks import (
    Cell,
    Chain,
    ChainStop,
    ExerciseCard,
    Footer,
    Framed,
    Handout,
    Item,
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
from tests.unit.render.sample import drawing, items


def clinician() -> Handout[str]:
    """The clinician's page that goes with the sheet."""
    open_points = (
        Item(
            "Work for the buttock goes up by 60 % in one move. The clinic’s own limit is 50 %. Keep it?",
            "",
            "knee.protocol:41",
        ),
        Item(
            "Dizziness on standing was last asked on 9 February. Ask again before exercise 1 moves on.",
            "",
            "common.protocol:23",
        ),
    )
    decided = Table(
        None,
        ("Exercise", "Move", "Reason", "Line"),
        (
            (
                Cell("1 Chair rise"),
                Cell("On: 2 to 3 rounds"),
                Cell("3 days, pain 3 or less, mornings good"),
                Cell("31"),
            ),
            (Cell("2 Knee straight"), Cell("Stays"), Cell("Tenth not yet as easy as the first"), Cell("35")),
        ),
        kind="decisions",
        widths=(20, 25, 45, 10),
    )
    chain = Chain(
        "1 Chair rise",
        (
            ChainStop("Cushion", "2 × 8", "i"),
            ChainStop("Chair", "2 × 8", "ii", "v"),
            ChainStop("Chair", "3 × 8", "iii", "v"),
            ChainStop("Low chair", "3 × 8", "iii", "v"),
            ChainStop("Low chair with a weight", "4 kg, 3 × 8", "", "v"),
        ),
        "Five steps; now at the third.",
        2,
    )
    return Handout(
        "clinician",
        "For the clinician: P-0417, right knee",
        Masthead(
            "Alder Quay clinic", "For the clinician", "P-0417, right knee, weeks 4 and 5", ("Decided 2 March 2026.",)
        ),
        (
            Section("open", None, (Framed("2 open questions", open_points),)),
            Section("decided", "What was decided, and why", (decided,)),
            Section("chains", "The lines, and where the person is", (chain,)),
            Section(
                "conditions",
                None,
                (Paragraphs(items("**i** no hands needed, 2 days. **ii** pain 3 or less, 2 days.")),),
            ),
        ),
        Footer(("P-0417 · right knee · for the clinician",), "Not for the patient", "Page {page} of {pages}"),
        "7f3c91d044bea217",
    )


def arabic() -> Handout[str]:
    """A short sheet that reads from right to left, with telephone numbers and a range in words."""
    signs = Stop(
        "قف",
        "واطلب المساعدة إذا حدث هذا",
        (
            StopGroup(
                "اتصل فورًا", "112", items("ألم في الصدر أو ضيق في التنفس.", safety="stop/emergency"), urgent=True
            ),
            StopGroup(
                "أوقف التمارين واتصل بنا اليوم",
                "+44 1632 960142",
                items("الركبة ساخنة وحمراء أو عندك حمى.", "لا تستطيع الوقوف على ساقك اليمنى.", safety="stop/red-flag"),
            ),
        ),
    )
    exercise = ExerciseCard(
        "chair",
        1,
        "القيام عن الكرسي",
        "الاثنين والأربعاء والجمعة",
        "قم واجلس 8 مرات ثم استرح دقيقة. كرر ذلك 3 مرات.",
        None,
        Picture("شخص يقوم عن الكرسي.", ("جلوس", "وقوف"), drawing(2)),
        Row(
            "خطوة خطوة", items("اجلس على النصف الأمامي من الكرسي.", "مل إلى الأمام ثم قم.", "اجلس ببطء."), numbered=True
        ),
        (
            Row("ما تشعر به", items("تعب في مقدمة الفخذين."), "feel"),
            Row("أوقفه إذا", items("شعرت بدوار، أو بلغ الألم 6 أو أكثر.", safety="chair/stop"), "stop"),
        ),
        (
            Stations(
                "خطك: أين أنت ومتى تغير",
                (
                    Station("back", "ارجع", "إلى جولتين", "إذا ساءت الركبة صباحين متتاليين.", "chair/down"),
                    Station("now", "الآن", "3 جولات بلا وسادة."),
                    Station("next", "تقدم", "إلى كرسي أخفض", "إذا أتممت 3 جولات في ثلاثة أيام."),
                ),
            ),
        ),
    )
    bands = (
        PainBand(0, 3, "تابع", items("بعض الألم لا يضر.", safety="pain/1"), 0),
        PainBand(4, 5, "خفف", items("اجعل الحركة أصغر.", safety="pain/2"), 1),
        PainBand(6, 10, "توقف اليوم", items("إذا تكرر فاتصل بنا: +44 1632 960142.", safety="pain/3"), 2),
    )
    return Handout(
        "sheet",
        "ركبتك اليمنى",
        Masthead(
            "عيادة ألدر كي", "العلاج الطبيعي", "ركبتك اليمنى، الأسبوعان الرابع والخامس", ("الموعد القادم: **16 مارس**",)
        ),
        (
            Section("stop", None, (signs,), whole=True),
            Section("pain", "كم من الألم مقبول؟", (PainScale("أعط الألم رقمًا من 0 إلى 10.", bands),)),
            Section("exercises", None, (exercise,)),
        ),
        Footer(("P-0417، الركبة اليمنى",), "قلق؟ +44 1632 960142", "صفحة {page} من {pages}"),
    )
