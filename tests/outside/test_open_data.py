"""Relations over open data sets against figures computed from the data themselves."""

from __future__ import annotations

from collections import Counter
from itertools import combinations

import pytest
from tests.making import number_trait, taxon, value, workspace

from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.compare import Difference, differences


def _made(ranges: dict[str, dict[str, tuple[float, float]]], unit: str) -> Workspace:
    traits = {trait: number_trait(unit=unit) for trait in next(iter(ranges.values()))}
    taxa = [
        taxon(id_, {t: value(t, traits[t], f"{low:.1f}-{high:.1f} {unit}") for t, (low, high) in measured.items()})
        for id_, measured in ranges.items()
    ]
    return workspace(traits, *taxa)


def _pairs(made: Workspace) -> list[Difference]:
    return [d for a, b in combinations(made.taxa.values(), 2) for trait in made.traits for d in differences(made, a, b, trait)]


def test_iris_has_four_contrasts_that_separate() -> None:
    """Fisher 1936, Annals of Eugenics 7:179; Anderson 1935: ranges in cm of petals and sepals."""
    datasets = pytest.importorskip("sklearn.datasets", reason="scikit-learn is part of the extra `outside`")
    iris = datasets.load_iris()
    ranges: dict[str, dict[str, tuple[float, float]]] = {}
    for number, kind in enumerate(iris.target_names):
        rows = iris.data[iris.target == number]
        names = [name.replace(" (cm)", "").replace(" ", "-") for name in iris.feature_names]
        ranges[str(kind)] = {name: (rows[:, n].min(), rows[:, n].max()) for n, name in enumerate(names)}
    assert ranges["setosa"]["petal-length"] == (1.0, 1.9)
    assert ranges["versicolor"]["petal-length"] == (3.0, 5.1)
    found = _pairs(_made(ranges, "cm"))
    assert Counter(d.relation.value for d in found) == {"separate": 4, "overlap": 7, "nested": 1}
    gaps = {(d.second, d.trait): float(d.gap or 0) for d in found if d.relation.value == "separate"}
    assert gaps == pytest.approx(
        {
            ("versicolor", "petal-length"): 1.1,
            ("virginica", "petal-length"): 2.6,
            ("versicolor", "petal-width"): 0.4,
            ("virginica", "petal-width"): 0.8,
        }
    )


PENGUINS = {
    "adelie": {"bill-length": (32.1, 46.0), "bill-depth": (15.5, 21.5), "flipper": (172, 210), "mass": (2850, 4775)},
    "chinstrap": {"bill-length": (40.9, 58.0), "bill-depth": (16.4, 20.8), "flipper": (178, 212), "mass": (2700, 4800)},
    "gentoo": {"bill-length": (40.9, 59.6), "bill-depth": (13.1, 17.3), "flipper": (203, 231), "mass": (3950, 6300)},
}
"""Gorman, Williams & Fraser 2014, PLoS ONE 9(3):e90081 (citation from memory)."""


def test_no_single_measure_tells_three_penguins_apart() -> None:
    found = _pairs(_made(PENGUINS, "mm"))
    assert Counter(d.relation.value for d in found) == {"overlap": 9, "nested": 3}


def test_the_penguin_ranges_are_those_of_the_data() -> None:
    palmerpenguins = pytest.importorskip("palmerpenguins", reason="palmerpenguins is part of the extra `outside`")
    data = palmerpenguins.load_penguins()
    columns = {"bill-length": "bill_length_mm", "bill-depth": "bill_depth_mm", "flipper": "flipper_length_mm", "mass": "body_mass_g"}
    for kind, measured in PENGUINS.items():
        rows = data[data.species.str.lower() == kind]
        assert {t: (rows[c].min(), rows[c].max()) for t, c in columns.items()} == measured
