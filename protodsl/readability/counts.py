"""What is counted in a text before any formula is asked."""

from __future__ import annotations

from decimal import Decimal

from protodsl.frozen import frozen


@frozen
class Counts:
    """Sums over a text; `long` are words of 7 letters and more, `polysyllables` those of 3 syllables and more.

    `characters` are letters and digits, for scripts that put no blanks between words.
    """

    words: int = 0
    sentences: int = 0
    syllables: int = 0
    polysyllables: int = 0
    monosyllables: int = 0
    letters: int = 0
    long: int = 0
    characters: int = 0

    def __add__(self, other: Counts) -> Counts:
        """The counts of both texts, one after the other."""
        return Counts(
            self.words + other.words,
            self.sentences + other.sentences,
            self.syllables + other.syllables,
            self.polysyllables + other.polysyllables,
            self.monosyllables + other.monosyllables,
            self.letters + other.letters,
            self.long + other.long,
            self.characters + other.characters,
        )

    @property
    def words_a_sentence(self) -> Decimal:
        """The mean length of a sentence in words."""
        return Decimal(self.words) / Decimal(self.sentences)

    @property
    def syllables_a_word(self) -> Decimal:
        """The mean length of a word in syllables."""
        return Decimal(self.syllables) / Decimal(self.words)

    @property
    def characters_a_sentence(self) -> Decimal:
        """The mean length of a sentence in letters and digits."""
        return Decimal(self.characters) / Decimal(self.sentences)

    def percent(self, some: int) -> Decimal:
        """So many words of a hundred."""
        return Decimal(some) * 100 / Decimal(self.words)


NOTHING_COUNTED = Counts()
