"""How often a plant of a taxon shows a state. No floristic standard gives percentages, so these are an order, not numbers."""

from enum import IntEnum


class Frequency(IntEnum):
    """Frequency words from weakest to strongest; the order is the meaning."""

    NEVER = 0
    RARELY = 1
    SOMETIMES = 2
    USUALLY = 3
    ALWAYS = 4

    @property
    def word(self) -> str:
        """The word as written in profiles and sentences."""
        return self.name.lower()


FREQUENCY_WORDS: dict[str, Frequency] = {frequency.word: frequency for frequency in Frequency}
OFTEN = "often"
"""Read as `sometimes`, the other state being `sometimes` too."""
