"""The library that sets pages, WeasyPrint: loaded late, given our fonts and rules alone, and listened to."""

from __future__ import annotations

import logging
import os
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from types import ModuleType
from typing import Any
from xml.etree.ElementTree import Element

from protodsl import fonts
from protodsl.diagnostics.render import library_missing
from protodsl.outcome import Outcome
from protodsl.render import faststart
from protodsl.render.cache import cache_folder
from protodsl.render.stylesheet import missing_fonts, printed_faces


@dataclass(frozen=True, slots=True)
class Typesetter:
    """The library, with the fonts it has been given; one for the whole process, because each new one leaks memory."""

    library: ModuleType
    font_config: Any
    face_rules: Any

    def pages(self, root: Element, own_rules: str | None, rules: tuple[str, ...]) -> Any:
        """The laid-out document of a tree; `own_rules` stand for the library's own sheet for HTML (None: keep that)."""
        parsed = [self.face_rules, *(_parsed(self, text) for text in rules)]
        return _source(self, root, own_rules).render(
            font_config=self.font_config, stylesheets=parsed, pdf_variant="pdf/ua-1"
        )


def typesetter(chosen: Path | None) -> Outcome[Typesetter]:
    """The library ready for use, or a diagnostic that says what is missing; `chosen` is where things are kept."""
    gone = missing_fonts()
    return Outcome(None, gone) if gone else _load(cache_folder(chosen))


@contextmanager
def log_lines() -> Iterator[list[str]]:
    """What the library says meanwhile; a clean document makes it say nothing."""
    lines: list[str] = []
    handler = _Listener(lines)
    logger = logging.getLogger("weasyprint")
    before = logger.propagate
    logger.addHandler(handler)
    logger.propagate = False
    try:
        yield lines
    finally:
        logger.removeHandler(handler)
        logger.propagate = before


class _Listener(logging.Handler):
    def __init__(self, lines: list[str]) -> None:
        super().__init__(logging.WARNING)
        self._lines = lines

    def emit(self, record: logging.LogRecord) -> None:
        """Keep the line, once."""
        line = " ".join(record.getMessage().split())
        if line not in self._lines:
            self._lines.append(line)


@lru_cache(maxsize=1)
def _load(folder: Path) -> Outcome[Typesetter]:
    # Fontconfig reads this once, when the library is imported: our fonts, so that a page is the same on every machine.
    os.environ["FONTCONFIG_FILE"] = str(fonts.write_fontconfig(folder))
    try:
        weasyprint = faststart.weasyprint()
        from weasyprint.text.fonts import FontConfiguration
        from weasyprint.urls import URLFetcher
    except (ImportError, OSError) as error:
        return Outcome(None, (library_missing(" ".join(str(error).split())),))
    font_config = FontConfiguration()
    faces = weasyprint.CSS(
        string=printed_faces(), font_config=font_config, url_fetcher=URLFetcher(allowed_protocols=("file",))
    )
    return Outcome(Typesetter(weasyprint, font_config, faces))


def _fetcher() -> Any:
    from weasyprint.urls import URLFetcher

    return URLFetcher(allowed_protocols=("data",))


@lru_cache(maxsize=64)
def _parsed(setter: Typesetter, text: str) -> Any:
    return setter.library.CSS(string=text, font_config=setter.font_config, url_fetcher=_fetcher())


def _source(setter: Typesetter, root: Element, own_rules: str | None) -> Any:
    """An HTML source of the library's that takes our tree as it is, instead of reading the text again."""
    from cssselect2 import ElementWrapper

    class Source(setter.library.HTML):  # type: ignore[name-defined,misc]
        def __init__(self) -> None:
            self.base_url = None
            self.url_fetcher = _fetcher()
            self.media_type = "print"
            self.wrapper_element = ElementWrapper.from_html_root(root, content_language=None)
            self.etree_element = self.wrapper_element.etree_element

        def _ua_stylesheets(self, forms: bool = False) -> list[Any]:
            return super()._ua_stylesheets(forms) if own_rules is None else [_html_rules(setter, own_rules)[0]]

        def _ua_counter_style(self) -> list[Any]:
            return super()._ua_counter_style() if own_rules is None else [_html_rules(setter, own_rules)[1].copy()]

    return Source()


@lru_cache(maxsize=4)
def _html_rules(setter: Typesetter, text: str) -> tuple[Any, Any]:
    from weasyprint.css.counters import CounterStyle

    counter_style = CounterStyle()
    return setter.library.CSS(string=text, counter_style=counter_style), counter_style
