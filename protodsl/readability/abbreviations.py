"""Abbreviations that end no sentence: common practice, no source; kept to what such texts hold.

What also ends sentences (`etc.`, `usw.`) is not here: it does where a capital follows, which is looked at first.
"""

from __future__ import annotations

from collections.abc import Mapping

_WORDS: Mapping[str, str] = {
    "en": "e.g. i.e. approx. dr. mr. mrs. ms. prof. vs. fig. nos. st. cf. incl.",
    "de": "z. b. d. h. u. a. o. ä. v. z.b. d.h. u.a. o.ä. v.a. ca. bzw. ggf. evtl. inkl. nr. dr. prof. abb. vgl. max. "
    "min. mind. tel. str.",
    "es": "p. p.ej. ej. aprox. dr. dra. sr. sra. prof. fig. núm. pág. máx. mín. tel. incl.",
    "fr": "p. p.ex. ex. env. dr. m. mme. prof. fig. max. min. cf. tél. incl.",
    "it": "p. p.es. es. ca. dott. dr. sig. prof. fig. max. min. pag. tel. incl.",
    "nl": "bijv. bv. d.w.z. ca. dr. dhr. mevr. prof. fig. nr. max. min. tel. incl.",
    "pl": "np. tzn. tj. m. in. m.in. ok. dr. prof. ul. rys. nr. maks. min. tel. tzw. wg.",
    "pt": "p. p.ex. ex. aprox. dr. dra. sr. sra. prof. fig. máx. mín. tel. incl.",
    "uk": "т. д. п. напр. тобто. див. рис. ім. вул. тел. бл. проф. т.зв.",
    "ru": "т. е. д. п. напр. см. рис. им. ул. тел. ок. проф. т.е. т.н.",
    "sv": "t.ex. d.v.s. ca. dr. bl.a. max. min. tel. nr. fig. inkl.",
    "da": "f.eks. dvs. ca. dr. bl.a. max. min. tlf. nr. fig. inkl.",
    "nb": "f.eks. dvs. ca. dr. bl.a. maks. min. tlf. nr. fig. inkl.",
    "cs": "např. tzn. tj. cca. dr. mj. max. min. tel. č. obr.",
}
ABBREVIATIONS: Mapping[str, frozenset[str]] = {language: frozenset(words.split()) for language, words in _WORDS.items()}

_BEFORE_AN_ORDINAL = "der die das dem den des am im zum zur vom beim jeden jede jedes jeder"
# Languages that write an order with a full stop; a number ends a sentence there but behind one of these words.
ORDINAL_LANGUAGES = frozenset(("de",))
BEFORE_AN_ORDINAL: Mapping[str, frozenset[str]] = {
    "de": frozenset(_BEFORE_AN_ORDINAL.split()),
}
