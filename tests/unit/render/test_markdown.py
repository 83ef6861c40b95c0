"""Inline Markdown: emphasis and safe links become HTML, everything else stays the text it is."""

import pytest

from protodsl.render.markdown import inline, phone_link, plain


@pytest.mark.parametrize(
    ("text", "html", "words"),
    [
        ("Hold for 30 s.", "Hold for 30 s.", "Hold for 30 s."),
        ("Up to **3 out of 10**.", "Up to <strong>3 out of 10</strong>.", "Up to 3 out of 10."),
        ("*slowly*", "<em>slowly</em>", "slowly"),
        ("2 * 3 * 4", "2 * 3 * 4", "2 * 3 * 4"),
        ('less < more & "so"', "less &lt; more &amp; &quot;so&quot;", 'less < more & "so"'),
        ("<b onclick='x()'>b</b>", "&lt;b onclick='x()'&gt;b&lt;/b&gt;", "<b onclick='x()'>b</b>"),
        ("a \\*star\\*", "a *star*", "a *star*"),
        ("# not a head", "# not a head", "# not a head"),
    ],
)
def test_what_a_phrase_becomes(text: str, html: str, words: str) -> None:
    """CommonMark 0.31.2, 6.2 (emphasis) and 2.4 (escapes); raw HTML of 6.6 is text here on purpose."""
    assert inline(text) == html
    assert plain(text) == words


@pytest.mark.parametrize(
    ("text", "html"),
    [
        ("**停止：**站好", "<strong>停止：</strong>站好"),
        ("请**“是”**吗", "请<strong>“是”</strong>吗"),
        ("*慢*、**站**。", "<em>慢</em>、<strong>站</strong>。"),
        ("**停：**Stop all", "<strong>停：</strong>Stop all"),
        ("3 * 10 次", "3 * 10 次"),
        ("**a.**b", "**a.**b"),
    ],
)
def test_emphasis_where_no_spaces_stand_between_words(text: str, html: str) -> None:
    """CommonMark 0.31.2, 6.2 alone would print the stars of the first; wide signs by UAX #11."""
    assert inline(text) == html


@pytest.mark.parametrize(
    "target",
    [
        "javascript:alert(1)",
        "JaVaScRiPt:alert(1)",
        "data:text/html,x",
        "http://example.org",
        "file:///etc/passwd",
        "//x",
    ],
)
def test_an_unsafe_link_is_refused(target: str) -> None:
    assert "<a" not in inline(f"[press]({target})")
    assert "href" not in inline(f"[press]({target})")


def test_an_image_is_not_fetched() -> None:
    assert "<img" not in inline("![x](https://example.org/a.png)")


@pytest.mark.parametrize("target", ["https://example.org/", "mailto:desk@example.org", "tel:112", "#exercise-chair"])
def test_a_safe_link_is_a_link(target: str) -> None:
    assert f'href="{target}"' in inline(f"[here]({target})")


def test_a_known_telephone_number_dials_wherever_it_stands() -> None:
    made = inline("Call us: **01632 960 142**.", ("01632 960 142", "112"))
    assert '<strong><a class="phone" dir="ltr" href="tel:01632960142">' in made
    assert made.count("<a") == 1


def test_a_short_number_in_a_sentence_is_not_taken_for_a_telephone() -> None:
    """112 repetitions are no call for help."""
    assert inline("Walk 112 steps.", ("112",)) == "Walk 112 steps."


def test_an_international_number_keeps_its_plus_in_front() -> None:
    """Unicode Standard Annex 9: isolated, so that right-to-left text around it does not move the sign behind it."""
    assert "\u2066+44\u00a01632\u00a0960142\u2069" in phone_link("+44 1632 960142")
    assert 'href="tel:+441632960142"' in phone_link("+44 1632 960142")
