"""WeasyPrint in a third of the time: three things that its import does at every start are put off or were done before.

Its C declarations are parsed by cffi each time (they lie parsed in `declarations.py`), it loads fontTools, which only a
variable or a coloured font needs, and it reads its own sheet for HTML, for which a handout has a leaner one. All three
become ordinary by themselves when somebody needs them. With any version but the known one the import is ordinary.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from hashlib import sha256
from importlib import import_module
from importlib.util import find_spec
from pathlib import Path
from types import ModuleType
from typing import Any

KNOWN_VERSION = "70.0"
_FONT_TOOLS = ("fontTools", "fontTools.ttLib", "fontTools.varLib", "fontTools.varLib.instancer")
_LATE_NAMES = {
    "weasyprint.text.fonts": {"TTFont": "fontTools.ttLib", "woff2": "fontTools.ttLib"},
    "weasyprint.pdf.fonts": {
        "subset": "fontTools",
        "TTFont": "fontTools.ttLib",
        "TTLibError": "fontTools.ttLib",
        "ttFont": "fontTools.ttLib",
        "instantiateVariableFont": "fontTools.varLib.instancer",
    },
}


def weasyprint() -> ModuleType:
    """The library, imported the quick way where that is known to be the same; raises what its import raises."""
    if "weasyprint" in sys.modules or _installed_version() != KNOWN_VERSION:
        return import_module("weasyprint")
    with _declarations_at_hand(), _without_font_tools(), _without_own_sheet():
        library = import_module("weasyprint")
    _make_sheets_late(library)
    return library


def digest(declarations: str) -> str:
    """The digest that ties parsed declarations to the text they were made from."""
    return sha256(declarations.encode()).hexdigest()


def _installed_version() -> str:
    """The version that the library's own first lines name; asking the package index of the interpreter takes longer."""
    spec = find_spec("weasyprint")
    if spec is None or spec.origin is None:
        return ""
    _, _, rest = Path(spec.origin).read_text(encoding="utf-8").partition("VERSION = __version__ = '")
    return rest.partition("'")[0]


@contextmanager
def _declarations_at_hand() -> Iterator[None]:
    """A stand-in for cffi that knows the library's declarations already, and is cffi itself for any others."""
    real = sys.modules.get("cffi")
    stand_in = ModuleType("cffi")
    stand_in.FFI = _Declared  # type: ignore[attr-defined]
    sys.modules["cffi"] = stand_in
    try:
        yield
    finally:
        del sys.modules["cffi"]
        if real is not None:
            sys.modules["cffi"] = real


class _Declared:
    """Stands where the library makes its `cffi.FFI()`; `cdef` fills it with what that object would have."""

    def cdef(self, text: str) -> None:
        """Take over everything that an interface with these declarations can do."""
        from protodsl.render import declarations

        made: Any = declarations.ffi
        if digest(text) != declarations.DIGEST:
            del sys.modules["cffi"]
            made = import_module("cffi").FFI()
            made.cdef(text)
        for name in dir(made):
            if not name.startswith("_"):
                setattr(self, name, getattr(made, name))


@contextmanager
def _without_font_tools() -> Iterator[None]:
    """Stand-ins for the few names that the library takes from fontTools; the first use of one loads them all."""
    if any(name in sys.modules for name in _FONT_TOOLS):
        yield
        return
    for name in _FONT_TOOLS:
        sys.modules[name] = ModuleType(name)
    for names in _LATE_NAMES.values():
        for name, home in names.items():
            setattr(sys.modules[home], name, _Late(name))
    try:
        yield
    finally:
        for name in _FONT_TOOLS:
            del sys.modules[name]


class _Late:
    """A name of fontTools, until it is used."""

    def __init__(self, name: str) -> None:
        self._name = name

    def __call__(self, *values: Any, **named: Any) -> Any:
        """Load fontTools and do it with that."""
        return self._real()(*values, **named)

    def __getattr__(self, name: str) -> Any:
        return getattr(self._real(), name)

    def _real(self) -> Any:
        found = None
        for module, names in _LATE_NAMES.items():
            for name, home in names.items():
                import_module(home)
                real = getattr(sys.modules[home], name, None) or import_module(f"{home}.{name}")
                setattr(sys.modules[module], name, real)
                found = real if name == self._name else found
        return found


@contextmanager
def _without_own_sheet() -> Iterator[None]:
    """Reading a style sheet finds nothing meanwhile; the library reads three of its own while it is imported."""
    import tinycss2

    real = tinycss2.parse_stylesheet
    tinycss2.parse_stylesheet = lambda *_, **__: []
    try:
        yield
    finally:
        tinycss2.parse_stylesheet = real


def _make_sheets_late(library: ModuleType) -> None:
    """The sheets that were passed over are read when somebody looks into one."""
    html = library.html
    for name, text in (("UA_STYLESHEET", html.UA), ("UA_FORM_STYLESHEET", html.UA_FORM), ("PH_STYLESHEET", html.PH)):
        sheet = getattr(html, name)
        vars(sheet).clear()
        sheet.__class__ = _late_sheet(library.CSS, text, html.UA_COUNTER_STYLE)
    counters = html.UA_COUNTER_STYLE
    counters.__class__ = _late_counters(type(counters), html.UA_STYLESHEET)


def _late_sheet(kind: type[Any], text: str, counters: Any) -> type[Any]:
    class LateSheet(kind):  # type: ignore[misc]
        def __getattr__(self, name: str) -> Any:
            self.__class__ = kind
            self.__init__(string=text, counter_style=counters)  # type: ignore[misc]
            return getattr(self, name)

    return LateSheet


def _late_counters(kind: type[Any], sheet: Any) -> type[Any]:
    class LateCounters(kind):  # type: ignore[misc]
        def copy(self) -> Any:
            """The styles, after the sheet that declares them has been read."""
            assert sheet.matcher is not None
            self.__class__ = kind
            return self.copy()

    return LateCounters
