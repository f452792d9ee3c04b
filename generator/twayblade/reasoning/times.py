"""How long a walk takes: speech by words and pauses, walking by distance and ascent."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

from twayblade.knowledge.trail import Leg, Pace

ASCENT_SECONDS_PER_METRE = Decimal(6)
"""Naismith (1892), Scottish Mountaineering Journal 2:136, in its metric form: 10 minutes for every 100 m of ascent."""


def whole(seconds: Decimal) -> int:
    """Seconds rounded to the nearest whole one."""
    return int(seconds.quantize(Decimal(1), rounding=ROUND_HALF_UP))


def speech_seconds(words: int, pace: Pace) -> Decimal:
    """Seconds to speak some words at a presenter's pace, pauses for breath included."""
    return Decimal(words) * 60 / pace.speech


def walk_seconds(leg: Leg, pace: Pace) -> Decimal:
    """Seconds to walk a leg: its distance at the presenter's pace on the flat, and Naismith's allowance for ascent."""
    on_the_flat = Decimal(str(leg.metres)) * Decimal("3.6") / pace.walking
    return on_the_flat + Decimal(str(leg.ascent)) * ASCENT_SECONDS_PER_METRE
