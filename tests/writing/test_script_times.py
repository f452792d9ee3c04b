"""How long things take: speech by words, walking by distance and ascent, a stop by its parts, a walk by its stops."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from click.testing import Result

from twayblade.knowledge.trail import Leg, Pace
from twayblade.reasoning.times import speech_seconds, walk_seconds, whole
from twayblade.writing.speech import count_words

Shapes = dict[date, dict[str, Any]]


@pytest.mark.parametrize(
    ("km", "ascent", "minutes"),
    [
        # Naismith 1892, Scottish Mountaineering Journal 2:136, in metric form: 5 km/h and 10 minutes for every 100 m of ascent.
        ("1", "0", "12.0"),
        ("1.5", "60", "24.0"),
        ("0", "600", "60.0"),
        ("5", "0", "60.0"),
    ],
)
def test_walking_on_the_flat_and_up_agrees_with_naismith(km: str, ascent: str, minutes: str) -> None:
    leg = Leg(float(km) * 1000, float(ascent))
    assert float(walk_seconds(leg, Pace(walking=Decimal(5)))) == pytest.approx(float(minutes) * 60, abs=0.01)


@pytest.mark.parametrize(
    ("words", "rate", "seconds"),
    [
        (300, 150, 120.0),  # computed from the rate
        (300, 183, 98.36),  # Brysbaert 2019, J. Memory & Language 109:104047: 183 words a minute is the mean rate of reading aloud
        (350, 120, 175.0),
        (350, 160, 131.25),
    ],
)
def test_speech_takes_as_long_as_its_words_at_their_rate(words: int, rate: int, seconds: float) -> None:
    assert float(speech_seconds(words, Pace(speech=Decimal(rate)))) == pytest.approx(seconds, abs=0.01)


def test_half_a_second_counts_as_a_whole_one() -> None:
    assert [whole(Decimal(text)) for text in ("0.49", "0.5", "1.5", "2.5")] == [0, 1, 2, 3]


def test_the_parts_make_the_stop_and_the_stops_and_the_walking_make_the_walk(demo_scripts: Shapes) -> None:
    for script in demo_scripts.values():
        for stop in script["stops"]:
            assert stop["seconds"] == sum(part["seconds"] for part in stop["parts"])
        assert script["seconds"] == sum(stop["seconds"] + stop["walk_seconds"] for stop in script["stops"])


def test_the_walking_covers_the_kilometre_and_a_half_of_the_route(demo_scripts: Shapes) -> None:
    for script in demo_scripts.values():
        metres = sum(stop["metres"] for stop in script["stops"])
        assert metres == pytest.approx(1500, rel=0.05)
        flat = metres / 3000 * 3600  # the trail's pace: 3 km/h on the flat
        assert flat <= sum(stop["walk_seconds"] for stop in script["stops"]) <= flat + 60 * 6


def test_no_part_is_spoken_faster_than_the_presenter_speaks(demo_scripts: Shapes) -> None:
    for script in demo_scripts.values():
        for stop in script["stops"]:
            for part in stop["parts"]:
                assert part["text"]
                assert part["seconds"] >= count_words(part["text"]) / 120 * 60 - 0.5  # the trail's pace: 120 words a minute


def test_the_demo_keeps_within_its_seventy_five_minutes_on_each_of_its_dates(demo_scripts: Shapes) -> None:
    assert {on: script["seconds"] for on, script in demo_scripts.items() if script["seconds"] > 75 * 60} == {}


def test_a_walk_that_takes_longer_than_it_may_warns_by_how_much(run: Callable[..., Result], copy_of: Callable[[Path], Path], penguins: Path) -> None:
    folder = copy_of(penguins)
    trail = folder / "colony_walk" / "trail.yml"
    assert "warning" not in run("-C", folder, "script").output
    trail.write_text(trail.read_text(encoding="utf-8").replace("allows: 20 min", "allows: 2 min"), encoding="utf-8")
    assert "warning: the walk takes" in run("-C", folder, "script").output.splitlines()[1]
