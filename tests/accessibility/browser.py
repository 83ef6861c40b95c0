"""A real Chromium, started once, that shows a handout as a phone, a desktop and a printer do."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from typing import Any

from tests.accessibility.tools import axe, chromium

SCREEN, PRINT = "screen", "print"


@dataclass(frozen=True, slots=True)
class View:
    """A window: its width (CSS px), its medium, how much larger all of it is shown."""

    width: int
    medium: str = SCREEN
    zoom: int = 1


# A narrow phone and a usual desktop; a sheet of A4 between its margins, 178 mm at 96 px an inch.
PHONE, DESKTOP, PAPER = View(360), View(1280), View(673, PRINT)
# WCAG 2.2, 1.4.10: 320 CSS px, which is 1280 px at 400 %. 1.4.4: 200 %.
NARROW, TWICE = View(320), View(640, zoom=2)


@contextmanager
def shown(html: str, view: View) -> Iterator[Any]:
    """The page in a window of its own; nothing that it might fetch is answered."""
    size = {"width": view.width, "height": 900}
    context = _browser().new_context(viewport=size, device_scale_factor=view.zoom, offline=True)
    try:
        page = context.new_page()
        page.emulate_media(media=view.medium)
        page.set_content(html)
        page.evaluate("document.fonts.ready")
        yield page
    finally:
        context.close()


def violations(page: Any) -> tuple[str, ...]:
    """What axe-core finds wrong by any of its rules, those of WCAG level AAA and of good practice too."""
    page.evaluate(axe().read_text(encoding="utf-8"))
    options: Mapping[str, Any] = {
        "resultTypes": ["violations"],
        # Off until asked for: text of seven to one.
        "rules": {"color-contrast-enhanced": {"enabled": True}},
    }
    found = page.evaluate("options => axe.run(document, options)", options)["violations"]
    return tuple(
        f"{one['id']} x{len(one['nodes'])}: {one['help']}: {one['nodes'][0]['html'][:160]}" for one in found
    )


@cache
def _browser() -> Any:
    from playwright.sync_api import sync_playwright

    # Chromium has no sandbox for root, which is who runs in a container.
    arguments = ["--no-sandbox"] if os.geteuid() == 0 else []
    return sync_playwright().start().chromium.launch(executable_path=chromium(), args=arguments)
