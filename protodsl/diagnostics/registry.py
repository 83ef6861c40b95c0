"""Every code there is, gathered from the families that declare them, and the page of each."""

from __future__ import annotations

from importlib import import_module

from protodsl import resources
from protodsl.diagnostics.diagnostic import Code

FAMILIES: tuple[str, ...] = (
    "text", "lines", "names", "kinds", "chains", "tables", "safety", "dose", "words", "cases", "project", "render",
    "figures", "poses", "images", "joint_loads", "approvals",
    "exchange", "translation", "catalogues",
)  # fmt: skip


def codes() -> dict[str, Code]:
    """Every code by its id, sorted."""
    found = [code for family in FAMILIES for code in codes_of(family)]
    return {code.id: code for code in sorted(found, key=lambda code: code.id)}


def codes_of(family: str) -> tuple[Code, ...]:
    """The codes that one family module declares, in its order; repeats are kept, so that a test can find them."""
    module = import_module(f"protodsl.diagnostics.{family}")
    return tuple(value for value in vars(module).values() if isinstance(value, Code))


def page(code: str) -> str:
    """The page of a code, as Markdown: what it means, a wrong and a right example, what to do."""
    return resources.text("protodsl.diagnostics", f"pages/{code}.md")
