"""Codes are stable names: each is there once, of one shape, in a family that the registry knows, with a page."""

import re
from importlib import import_module
from pathlib import Path
from pkgutil import iter_modules

import protodsl.diagnostics
from protodsl.diagnostics import registry
from protodsl.diagnostics.diagnostic import Code

ALL = [code for family in registry.FAMILIES for code in registry.codes_of(family)]


def test_every_family_is_there_and_every_module_with_codes_is_a_family() -> None:
    modules = {module.name for module in iter_modules(protodsl.diagnostics.__path__)}
    with_codes = {
        name
        for name in modules
        if any(isinstance(value, Code) for value in vars(import_module(f"protodsl.diagnostics.{name}")).values())
    }
    assert with_codes == set(registry.FAMILIES)


def test_ids_and_slugs_are_unique_and_of_one_shape() -> None:
    ids, slugs = [code.id for code in ALL], [code.slug for code in ALL]
    assert sorted(set(ids)) == sorted(ids)
    assert sorted(set(slugs)) == sorted(slugs)
    assert all(re.fullmatch(r"[A-Z][0-9]{3}", one) for one in ids)
    assert all(re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", one) for one in slugs)


def test_codes_lists_every_code_in_order() -> None:
    assert list(registry.codes()) == sorted(code.id for code in ALL)


def test_every_code_has_a_page_and_every_page_a_code() -> None:
    pages = {path.stem for path in Path(protodsl.diagnostics.__path__[0], "pages").glob("*.md")}
    assert pages == {code.id for code in ALL}
