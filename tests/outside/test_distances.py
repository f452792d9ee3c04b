"""Distances and walking times against published figures."""

from __future__ import annotations

from decimal import Decimal

import pytest

from twayblade.knowledge.trail import Leg, Pace
from twayblade.reading.route import metres_between
from twayblade.reasoning.times import speech_seconds, walk_seconds


@pytest.mark.parametrize(
    ("a", "b", "metres", "source"),
    [
        ((35.60777, -139.44815), (-11.17491, -69.95921), 8935244.5604818, "Karney, geographiclib test set, line 1"),
        ((-41.32, 174.81), (40.96, -5.50), 19959679.267, "geographiclib examples, Wellington to Salamanca"),
        ((40.6, -73.8), (51.6, -0.5), 5551759.400, "geographiclib examples, computed"),
        ((51.5, 0.0), (51.501, 0.0), 111.258, "computed for WGS84"),
        ((51.5, 0.0), (51.5, 0.001), 69.441, "computed for WGS84"),
    ],
)
def test_distances_on_the_ellipsoid(a: tuple[float, float], b: tuple[float, float], metres: float, source: str) -> None:
    assert metres_between((a[1], a[0], None), (b[1], b[0], None)) == pytest.approx(metres, abs=1e-3), source


@pytest.mark.parametrize(("km", "ascent", "minutes"), [(1, 0, 12.0), (1.5, 60, 24.0)])
def test_walking_follows_naismith_at_his_pace(km: float, ascent: float, minutes: float) -> None:
    """Naismith 1892, Scottish Mountaineering Journal 2:136, metric form: 12 min a km and 10 min for 100 m of ascent."""
    pace = Pace.model_validate({"walking": "5 km/h"})
    assert float(walk_seconds(Leg(km * 1000, ascent), pace)) / 60 == pytest.approx(minutes, abs=0.01)


def test_speech_of_three_hundred_words() -> None:
    """Arithmetic of words and rates as in Brysbaert 2019, J. Memory and Language 109:104047: at 150 a minute, 120 s."""
    pace = Pace.model_validate({"speech": "150 words a minute"})
    assert speech_seconds(300, pace) == Decimal(120)
