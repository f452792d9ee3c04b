"""Distances against published figures."""

from __future__ import annotations

import pytest

from twayblade.reading.route import metres_between


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
