"""CommonMark, read back by markdown-it-py, which follows the specification's own examples."""

from __future__ import annotations

import re
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from protodsl.handout.blocks import Bullets, Cell, Handout, Paragraphs, Section, Table
from protodsl.render import Style
from protodsl.render.documents.outline import Heading, outline
from protodsl.render.documents.to_markdown import markdown, read_back
from protodsl.render.markdown import plain
from tests.documents.pages import demo_pages
from tests.unit.render import others, sample
from tests.unit.render.sample import items

READER = MarkdownIt("commonmark").enable("table")


def made(page: Handout[str], style: Style | None = None) -> str:
    """The Markdown of a page."""
    found = markdown(page, style or Style()).value
    assert found is not None
    return found.decode()


def of_blocks(*blocks: Bullets[str] | Paragraphs[str] | Table[str]) -> str:
    """The Markdown of a sheet with these blocks in its only section."""
    page = sample.sheet(())
    section = Section("only", "Head", blocks)
    return made(Handout(page.kind, page.title, page.masthead, (section,), page.footer))


def test_heads_are_heads_of_their_level() -> None:
    """In order, none lost and none invented; no level is skipped (WCAG 2.2, technique G141)."""
    for name, (page, look) in demo_pages().items():
        tokens = READER.parse(made(page, look))
        heads = [
            (int(token.tag[1]), plain(tokens[at + 1].content))
            for at, token in enumerate(tokens)
            if token.type == "heading_open"
        ]
        levels = [level for level, _ in heads]
        assert levels[0] == 1, name
        assert all(later - before <= 1 for before, later in pairwise(levels)), name
        wanted = [plain(one.text) for one in outline(page) if isinstance(one, Heading)]
        said = " | ".join(words for _, words in heads)
        assert all(words in said for words in wanted), name


def test_steps_are_a_numbered_list_and_a_week_is_a_table() -> None:
    html = READER.render(made(sample.sheet()))
    assert html.count("<ol>") == 5
    assert "<th>Mon</th>" in html
    assert "<td>1 Stand up from a chair</td>" in html
    assert html.count("<table>") == 1


def test_a_line_under_a_line_is_a_list_in_it() -> None:
    page, look = demo_pages()["P-0417, sheet"]
    assert re.search(r"<li>One of these is enough:\s*<ul>\s*<li>The lowest part", READER.render(made(page, look)))


def test_pictures_are_told_in_words() -> None:
    written = made(sample.sheet())
    assert "A person does the exercise Lift your hips in 2 pictures." in written
    assert "![" not in written
    assert "<svg" not in written


def test_what_needs_a_pen_is_left_out() -> None:
    assert "Your diary" not in made(sample.sheet())


def test_numbers_are_isolated_from_right_to_left() -> None:
    assert "\u2068+44 1632 960142\u2069" in made(others.arabic(), Style(language="ar", direction="rtl"))


# Signs that mean something to CommonMark at one place or another, among ordinary words.
_SIGNS = st.text(st.sampled_from("ab1 #*_-+=|<>&[]()!.:`~\\2/;"), min_size=1, max_size=25).filter(plain)


@settings(deadline=None, max_examples=300)
@given(_SIGNS, _SIGNS, _SIGNS)
def test_no_word_of_an_author_becomes_a_mark(line: str, item: str, cell: str) -> None:
    """What an inline phrase says is what a reader of CommonMark shows, in a paragraph, a list and a table."""
    table = Table(None, ("One", "Two"), ((Cell("first"), Cell(cell)),))
    whole = of_blocks(Paragraphs(items(line)), Bullets(items(item)), table)
    said = "".join(read_back(whole).split())
    for text in (line, item, cell):
        assert "".join(plain(text).split()) in said
    tokens = READER.parse(whole)
    assert sum(token.type == "table_open" for token in tokens) == 1
    assert sum(token.type == "bullet_list_open" for token in tokens) == 1
    assert [token.tag for token in tokens if token.type == "heading_open"] == ["h1", "h2"]
    assert not {token.type for token in tokens} & {"code_block", "fence", "html_block", "blockquote_open", "hr"}


def test_emphasis_stays() -> None:
    html = READER.render(of_blocks(Paragraphs(items("Push **only if you must**, and *slowly*."))))
    assert "<strong>only if you must</strong>, and <em>slowly</em>." in html
