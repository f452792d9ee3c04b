"""How long things take: speech by syllables and pauses, walking by distance and slope."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from math import atan2, degrees

from twayblade.knowledge.trail import Leg, Pace, Slope, Stretch

COMMA, BREAK, END = Decimal("1.5"), Decimal("2.5"), Decimal("3.5")
"""Pauses in syllables: at a comma or bracket, at a semicolon, colon or dash, at the end of a sentence. At five syllables a second they
are 0.3 s, 0.5 s and 0.7 s (project defaults; in practice 0.2 to 0.3 s and 0.5 to 0.8 s, from memory)."""

ASCENT_SECONDS_PER_METRE = Decimal(6)
"""Naismith (1892), Scottish Mountaineering Journal 2:136, in its metric form: 10 minutes for every 100 m of ascent."""

DESCENT_SECONDS_PER_METRE = Decimal(2)
GENTLE, STEEP = 5.0, 12.0
"""Langmuir (1984), Mountaincraft and Leadership: 10 minutes for every 300 m of descent, taken off between 5 and 12 degrees and
added above 12."""

TOBLER_STEEPNESS, TOBLER_BEST = Decimal("-3.5"), Decimal("0.05")
"""Tobler (1993), NCGIA Technical Report 93-1: 6 exp(-3.5 |S + 0.05|) km/h on a slope S, rise over run."""


BARE, LETTERS = Decimal("0.3"), 3
"""A syllable takes longer the more sounds it has. Three tenths of its time are the same for every syllable; the rest goes with its letters,
three of which make an ordinary one (project defaults; rounded from a synthesiser's times, `tests/measure/spoken_time.py`)."""


@dataclass(frozen=True)
class Length:
    """How much there is to say: syllables and the letters that write them, and the pauses that punctuation asks for."""

    syllables: int
    letters: int
    commas: int = 0
    breaks: int = 0
    ends: int = 0

    @property
    def units(self) -> Decimal:
        """Its length in ordinary syllables, pauses included."""
        said = BARE * self.syllables + (1 - BARE) * self.letters / LETTERS
        return said + COMMA * self.commas + BREAK * self.breaks + END * self.ends


ORDINARY_WORDS = 30
ORDINARY = Length(45, 135, commas=2, ends=2)
"""What words a minute are counted in: thirty words of ordinary prose are two sentences with a comma each, and a word has one
syllable and a half (project convention; the syllables are common practice, from memory)."""


def whole(seconds: Decimal) -> int:
    """Seconds rounded to the nearest whole one."""
    return int(seconds.quantize(Decimal(1), rounding=ROUND_HALF_UP))


def syllable_seconds(pace: Pace, read: Length | None = None) -> Decimal:
    """Seconds that the presenter takes for one ordinary syllable in free speech. `read`: the length of the text that calibrates, if one does."""
    if pace.calibration and read:
        return pace.calibration.takes * pace.free / read.units
    return ORDINARY_WORDS * 60 / (pace.speech * ORDINARY.units)


def speech_seconds(said: Length, syllable: Decimal) -> Decimal:
    """Seconds to say something, pauses included, by one who takes so many seconds for a syllable."""
    return said.units * syllable


def walk_seconds(leg: Leg, pace: Pace) -> Decimal:
    """Seconds to walk a leg at the presenter's pace on the flat, slower by what the group is slower, on the slopes it has."""
    speed = pace.walking / Decimal("3.6") - pace.group
    if pace.slope is Slope.TOBLER:
        return sum((_metres(s) / (speed * tobler(s)) for s in leg.slopes if s.metres > 0), Decimal(0))
    ascent = Decimal(str(leg.ascent)) * ASCENT_SECONDS_PER_METRE
    if pace.slope is Slope.LANGMUIR:
        return ascent + sum((_downhill(s, speed) for s in leg.slopes), Decimal(0))
    return ascent + Decimal(str(leg.metres)) / speed


def _metres(stretch: Stretch) -> Decimal:
    return Decimal(str(stretch.metres))


def tobler(stretch: Stretch) -> Decimal:
    """The speed on a stretch as a share of that on the flat, by Tobler's function."""
    slope = Decimal(str(stretch.rise)) / _metres(stretch)
    return (TOBLER_STEEPNESS * (abs(slope + TOBLER_BEST) - TOBLER_BEST)).exp()


def _downhill(stretch: Stretch, speed: Decimal) -> Decimal:
    """Seconds for the metres of a stretch, with Langmuir's correction for its descent.

    Nobody goes down more than three times as fast as on the flat; the rule was made for 5 km/h, and up to there this changes nothing.
    """
    flat = _metres(stretch) / speed
    angle = degrees(atan2(-stretch.rise, stretch.metres))
    if angle < GENTLE:
        return flat
    change = Decimal(str(-stretch.rise)) * DESCENT_SECONDS_PER_METRE
    return flat + change if angle > STEEP else max(flat - change, flat / 3)
