"""How long things take: speech by syllables and pauses, walking by distance and slope."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from twayblade.knowledge.trail import Leg, Pace, Stretch
from twayblade.reasoning.times import ORDINARY, ORDINARY_WORDS, Length, speech_seconds, syllable_seconds, walk_seconds, whole

TEXT = " ".join(["A text of ten words is read aloud by someone."] * 5)
LENGTHS = st.builds(Length, st.integers(0, 500), st.integers(0, 2000), st.integers(0, 20), st.integers(0, 20), st.integers(0, 20))
STRETCHES = st.builds(Stretch, st.floats(25, 500), st.floats(-80, 80))


def pace(**fields: object) -> Pace:
    return Pace.model_validate(fields)


def minutes(leg: Leg, **fields: object) -> float:
    return float(walk_seconds(leg, pace(**fields))) / 60


def on_slope(slope: float, metres: float = 1000.0) -> Leg:
    return Leg(metres, max(0.0, slope * metres), (Stretch(metres, slope * metres),))


@pytest.mark.parametrize(
    ("words", "rate", "seconds"),
    [
        (300, 150, 120.0),  # computed from the rate
        (300, 183, 98.36),  # Brysbaert 2019, J. Memory & Language 109:104047: 183 words a minute is the mean rate of reading aloud
        (300, 238, 75.63),  # the same: reading non-fiction silently
        (350, 120, 175.0),
        (350, 160, 131.25),
    ],
)
def test_ordinary_prose_takes_as_long_as_its_words_at_their_rate(words: int, rate: int, seconds: float) -> None:
    said = ORDINARY.units * words / ORDINARY_WORDS * syllable_seconds(pace(speech=f"{rate} words a minute"))
    assert float(said) == pytest.approx(seconds, abs=0.01)


def test_a_calibrated_voice_reads_its_own_text_in_the_time_it_took_and_tells_it_freely_more_slowly() -> None:
    length = Length(62, 186, commas=4, ends=5)
    read = pace(calibration={"text": TEXT, "takes": "20 s"}, free="1 times")
    assert float(speech_seconds(length, syllable_seconds(read, length))) == pytest.approx(20)
    free = pace(calibration={"text": TEXT, "takes": "20 s"})
    assert float(speech_seconds(length, syllable_seconds(free, length))) == pytest.approx(20 * 183 / 120)


@given(LENGTHS, LENGTHS, st.integers(60, 250))
def test_two_texts_take_as_long_as_the_one_and_the_other(a: Length, b: Length, rate: int) -> None:
    syllable = syllable_seconds(pace(speech=f"{rate} words a minute"))
    both = Length(a.syllables + b.syllables, a.letters + b.letters, a.commas + b.commas, a.breaks + b.breaks, a.ends + b.ends)
    assert float(speech_seconds(both, syllable)) == pytest.approx(float(speech_seconds(a, syllable) + speech_seconds(b, syllable)))


def test_a_syllable_of_three_letters_is_an_ordinary_one_and_a_longer_one_takes_longer() -> None:
    assert Length(10, 30).units == 10
    assert Length(10, 29).units < 10 < Length(10, 31).units


@pytest.mark.parametrize(
    ("fields", "message"),
    [
        ({"calibration": {"text": "too short a text", "takes": "2 s"}}, "too short"),
        ({"calibration": {"text": TEXT, "takes": "20 s"}, "speech": "120 words a minute"}, "either"),
        ({"walking": "1 km/h", "group": "0.5 m/s"}, "does not move"),
        ({"group": "0.15 km/h"}, "m/s"),
        ({"slope": "hiker"}, "naismith"),
    ],
)
def test_a_pace_that_cannot_be_says_why(fields: dict[str, Any], message: str) -> None:
    with pytest.raises(ValidationError, match=message):
        pace(**fields)


@pytest.mark.parametrize(
    ("km", "ascent", "takes"),
    [
        # Naismith 1892, Scottish Mountaineering Journal 2:136, in metric form: 5 km/h and 10 minutes for every 100 m of ascent.
        (1, 0, 12.0),
        (1.5, 60, 24.0),
        (0, 600, 60.0),
        (5, 0, 60.0),
        # arithmetic by the same rule
        (20, 1600, 400.0),
    ],
)
def test_walking_agrees_with_naismith(km: float, ascent: float, takes: float) -> None:
    assert minutes(Leg(km * 1000, ascent), walking="5 km/h") == pytest.approx(takes, abs=0.01)


def test_langmuir_takes_time_off_gentle_descents_and_adds_it_on_steep_ones() -> None:
    """Langmuir 1984, Mountaincraft and Leadership: 10 minutes for 300 m, less at 5 to 12 degrees, more above; 8.53 and 16.7 degrees computed."""
    assert minutes(on_slope(-0.15), walking="5 km/h", slope="langmuir") == pytest.approx(12 - 5)
    assert minutes(on_slope(-0.3), walking="5 km/h", slope="langmuir") == pytest.approx(12 + 10)
    assert minutes(on_slope(-0.05), walking="5 km/h", slope="langmuir") == pytest.approx(12)
    assert minutes(on_slope(0.1), walking="5 km/h", slope="langmuir") == pytest.approx(12 + 10)


@pytest.mark.parametrize(
    ("slope", "speed"),
    [(-0.2, 3.5493), (-0.1, 5.0367), (-0.05, 6.0), (0.0, 5.0367), (0.05, 4.2281), (0.1, 3.5493), (0.2, 2.5012)],
)
def test_walking_agrees_with_tobler(slope: float, speed: float) -> None:
    """Tobler 1993, NCGIA Technical Report 93-1: 6 exp(-3.5 |S + 0.05|) km/h, values computed from the formula."""
    flat = 6 * 2.718281828459045 ** (-3.5 * 0.05)
    assert 60 / minutes(on_slope(slope), walking=f"{flat:.12f} km/h", slope="tobler") == pytest.approx(speed, abs=1e-4)


@given(st.floats(0, 1))
def test_tobler_is_symmetric_about_a_gentle_descent(away: float) -> None:
    up, down = (minutes(on_slope(-0.05 + side * away), slope="tobler") for side in (1, -1))
    assert up == pytest.approx(down)


@pytest.mark.parametrize(("kmh", "takes"), [(5, 1.2), (4, 1.5), (3, 2.0), (2, 3.0)])
@pytest.mark.parametrize("slope", ["naismith", "langmuir", "tobler"])
def test_a_hundred_metres_on_the_flat_take_as_long_as_the_pace_says(kmh: int, takes: float, slope: str) -> None:
    """Table of paces, common practice: 1.2, 1.5, 2 and 3 minutes."""
    assert minutes(Leg(100, 0), walking=f"{kmh} km/h", slope=slope) == pytest.approx(takes)


def test_a_group_is_slower_than_one_by_what_was_measured() -> None:
    """Gates, Noyce, Bill & Van Ee 2006, Transportation Research Record 1982: groups 0.4 to 0.6 ft/s, 0.12 to 0.18 m/s, slower."""
    assert minutes(Leg(1161, 0), walking="4.1796 km/h") == pytest.approx(1000 / 60)  # 1.161 m/s, walkers over 65, from the same paper
    assert minutes(Leg(1161, 0), walking="4.1796 km/h", group="0.15 m/s") == pytest.approx(1161 / 1.011 / 60)


@given(st.lists(STRETCHES, min_size=1, max_size=6), st.sampled_from(["naismith", "langmuir", "tobler"]), st.integers(1, 8))
def test_a_leg_takes_as_long_as_its_stretches_one_after_the_other(stretches: list[Stretch], slope: str, kmh: int) -> None:
    def leg(*some: Stretch) -> Leg:
        return Leg(sum(s.metres for s in some), sum(max(0.0, s.rise) for s in some), some)

    fields = {"walking": f"{kmh} km/h", "slope": slope}
    assert minutes(leg(*stretches), **fields) == pytest.approx(sum(minutes(leg(s), **fields) for s in stretches))
    assert minutes(leg(*stretches), **fields) > 0
    assert minutes(leg(*stretches), **fields, group="0.15 m/s") > minutes(leg(*stretches), **fields)


def test_no_way_takes_no_time() -> None:
    assert [minutes(Leg(0, 0), slope=slope) for slope in ("naismith", "langmuir", "tobler")] == [0, 0, 0]


def test_half_a_second_counts_as_a_whole_one() -> None:
    assert [whole(Decimal(text)) for text in ("0.49", "0.5", "1.5", "2.5")] == [0, 1, 2, 3]
