"""The published formulas, each from the counts of a text; a text without words has no value of any.

ASL stands for words a sentence and ASW for syllables a word. Of most primary publications a copy was read, never the
primary itself; which copy stands beside each row of `tests/evidence/data/08_readability_formulas.csv`.
"""

from __future__ import annotations

from decimal import Decimal

from protodsl.readability.counts import Counts

D = Decimal


def flesch_kincaid(of: Counts) -> Decimal:
    """0.39 ASL + 11.8 ASW - 15.59: years of schooling in the United States; English.

    Kincaid JP, Fishburne RP, Rogers RL, Chissom BS. Derivation of new readability formulas for Navy enlisted personnel.
    Research Branch Report 8-75, Naval Technical Training Command, 1975.
    """
    return D("0.39") * of.words_a_sentence + D("11.8") * of.syllables_a_word - D("15.59")


def flesch(of: Counts) -> Decimal:
    """206.835 - 1.015 ASL - 84.6 ASW, higher is easier; English.

    Flesch R. A new readability yardstick. J Appl Psychol 1948;32:221-233.
    """
    return D("206.835") - D("1.015") * of.words_a_sentence - D("84.6") * of.syllables_a_word


def smog(of: Counts) -> Decimal:
    """1.0430 sqrt(30 polysyllables / sentences) + 3.1291: a school grade; English, from 30 sentences on.

    McLaughlin GH. SMOG grading: a new readability formula. Journal of Reading 1969;12:639-646.
    """
    return D("1.0430") * _polysyllables_of_30(of).sqrt() + D("3.1291")


def smog_short(of: Counts) -> Decimal:
    """3 + sqrt(30 polysyllables / sentences): the same formula for doing in the head, about 0.3 lower.

    McLaughlin 1969, as `smog`.
    """
    return 3 + _polysyllables_of_30(of).sqrt()


def lix(of: Counts) -> Decimal:
    """ASL + words of 7 letters and more in a hundred, higher is harder; made for Swedish, used for many languages.

    Björnsson CH. Läsbarhet. Stockholm: Liber, 1968.
    """
    return of.words_a_sentence + of.percent(of.long)


def amstad(of: Counts) -> Decimal:
    """180 - ASL - 58.5 ASW, higher is easier; German.

    Amstad T. Wie verständlich sind unsere Zeitungen? Dissertation, Universität Zürich, 1978.
    """
    return 180 - of.words_a_sentence - D("58.5") * of.syllables_a_word


def wiener_1(of: Counts) -> Decimal:
    """First Wiener Sachtextformel: 0.1935 MS + 0.1672 SL + 0.1297 IW - 0.0327 ES - 0.875, a school year; German.

    MS, IW and ES are words of 3 syllables and more, of 7 letters and more, and of one syllable, in a hundred; SL is
    ASL. Bamberger R, Vanecek E. Lesen, Verstehen, Lernen, Schreiben. Wien: Jugend und Volk, 1984.
    """
    return (
        D("0.1935") * of.percent(of.polysyllables)
        + D("0.1672") * of.words_a_sentence
        + D("0.1297") * of.percent(of.long)
        - D("0.0327") * of.percent(of.monosyllables)
        - D("0.875")
    )


def wiener_2(of: Counts) -> Decimal:
    """Second Wiener Sachtextformel: 0.2007 MS + 0.1682 SL + 0.1373 IW - 2.779; German. Bamberger and Vanecek 1984."""
    long = D("0.1373") * of.percent(of.long)
    return D("0.2007") * of.percent(of.polysyllables) + D("0.1682") * of.words_a_sentence + long - D("2.779")


def wiener_3(of: Counts) -> Decimal:
    """Third Wiener Sachtextformel: 0.2963 MS + 0.1905 SL - 1.1144; German. Bamberger and Vanecek 1984."""
    return D("0.2963") * of.percent(of.polysyllables) + D("0.1905") * of.words_a_sentence - D("1.1144")


def wiener_4(of: Counts) -> Decimal:
    """Fourth Wiener Sachtextformel: 0.2744 MS + 0.2656 SL - 1.693; German.

    Bamberger and Vanecek 1984; the constants were read in the source of a library (textstat) alone.
    """
    return D("0.2744") * of.percent(of.polysyllables) + D("0.2656") * of.words_a_sentence - D("1.693")


def szigriszt_pazos(of: Counts) -> Decimal:
    """206.835 - 62.3 ASW - ASL, higher is easier; Spanish, the formula behind the scale INFLESZ.

    Szigriszt Pazos F. Sistemas predictivos de legibilidad del mensaje escrito: fórmula de perspicuidad. Universidad
    Complutense de Madrid, 1993. Scale: Barrio-Cantalejo IM et al. An Sist Sanit Navar 2008;31:135-152.
    """
    return D("206.835") - D("62.3") * of.syllables_a_word - of.words_a_sentence


def fernandez_huerta(of: Counts) -> Decimal:
    """206.84 - 60 ASW - 1.02 ASL, higher is easier; Spanish.

    Fernández Huerta J. Medidas sencillas de lecturabilidad. Consigna 1959;214:29-32, with words a sentence in place of
    its sentences in a hundred words, as corrected by Law 2011.
    """
    return D("206.84") - 60 * of.syllables_a_word - D("1.02") * of.words_a_sentence


def gutierrez_de_polini(of: Counts) -> Decimal:
    """95.2 - 9.7 letters a word - 0.35 ASL, higher is easier; Spanish. Gutiérrez de Polini LE 1972."""
    return D("95.2") - D("9.7") * D(of.letters) / D(of.words) - D("0.35") * of.words_a_sentence


def kandel_moles(of: Counts) -> Decimal:
    """207 - 1.015 ASL - 73.6 ASW, higher is easier; French.

    Kandel L, Moles A. Application de l'indice de Flesch à la langue française. Cahiers Études de Radio-Télévision
    1958;19:253-274. The constant 207 was read in the source of a library (textstat) alone; copies with 209 are known.
    """
    return 207 - D("1.015") * of.words_a_sentence - D("73.6") * of.syllables_a_word


def gulpease(of: Counts) -> Decimal:
    """89 + (300 sentences - 10 letters) / words, of 100, higher is easier; Italian.

    Lucisano P, Piemontese ME. GULPEASE: una formula per la predizione della difficoltà dei testi in lingua italiana.
    Scuola e città 1988;39:110-124. Letters, not characters.
    """
    return 89 + D(300 * of.sentences - 10 * of.letters) / D(of.words)


def flesch_vacca(of: Counts) -> Decimal:
    """217 - 1.3 ASL - 60 ASW, higher is easier; Italian. Constants read in the source of a library (textstat)."""
    return 217 - D("1.3") * of.words_a_sentence - 60 * of.syllables_a_word


def douma(of: Counts) -> Decimal:
    """206.835 - 0.93 ASL - 77 ASW, higher is easier; Dutch. Constants read in the source of a library (textstat)."""
    return D("206.835") - D("0.93") * of.words_a_sentence - 77 * of.syllables_a_word


def _polysyllables_of_30(of: Counts) -> Decimal:
    return D(30 * of.polysyllables) / D(of.sentences)
