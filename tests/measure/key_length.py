"""How short and how sure keys are, and how fast they are made: `python tests/measure/key_length.py`.

One row a data set: the demonstration's four dates, open data sets, and seeded random ones. The reference is the best of 20 seeds of
scikit-learn's entropy tree on the same taxa as invariable ones (where a taxon shows several states, or none is known, the tree is
given the first, so it has the easier task). Mean steps are compared where every taxon is invariable, in couplets of two leads; elsewhere
the key does more than the tree and only its row is shown.
"""

from __future__ import annotations

import random
import resource
import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path[:0] = [str(ROOT), str(ROOT / "generator")]

from tests.outside.key_data import flower, iris_kinds, leaf_id_flavia, signs_of_rows, tree_steps  # noqa: E402

from twayblade.reading.workspace import load  # noqa: E402
from twayblade.reasoning.key import make_key  # noqa: E402
from twayblade.reasoning.keys.large import best_key  # noqa: E402
from twayblade.reasoning.keys.measures import arrivals, length  # noqa: E402
from twayblade.reasoning.keys.objective import Objective, Sign, shortest  # noqa: E402
from twayblade.reasoning.keys.search import Plan  # noqa: E402
from twayblade.reasoning.scope import covered, occasion_of  # noqa: E402

SEED = 20260607
HEADINGS = ("data", "taxa", "optimal or gap", "mean steps", "entropy", "reference", "right", "harm to other", "seconds", "MB")


@dataclass(frozen=True)
class Row:
    """A line of the table. reference: the mean steps of the tree, where the two may be compared."""

    name: str
    plan: Plan
    signs: tuple[Sign, ...]
    objective: Objective
    harmful: int
    seconds: float
    reference: float | None

    def cells(self) -> tuple[str, ...]:
        """The columns as text."""
        measured = length(self.plan, self.objective)
        came = arrivals(self.plan, self.signs, self.objective, self.harmful, SEED, 200 if len(self.objective.likely) < 50 else 20)
        peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
        return (
            self.name,
            str(len(self.objective.likely)),
            "optimal" if self.plan.is_optimal else f"{self.plan.gap:.0%}",
            f"{measured.mean:.2f}",
            f"{measured.entropy:.2f}",
            "-" if self.reference is None else f"{self.reference:.2f}",
            f"{1 - came.wrong:.1%}",
            f"{came.harmful_wrong:.1%}",
            f"{self.seconds:.1f}",
            f"{peak:.0f}",
        )

    @property
    def is_worse(self) -> bool:
        """Whether the reference needs fewer steps."""
        return self.reference is not None and length(self.plan, self.objective).mean > self.reference + 1e-9


def _timed(make: Callable[[], Plan]) -> tuple[Plan, float]:
    start = time.perf_counter()
    return make(), time.perf_counter() - start


def _of_rows(name: str, rows: list[tuple[str, ...]]) -> Row:
    """A key to rows of states, each a taxon, without errors; the reference is a tree on the same rows."""
    signs, objective = signs_of_rows(rows), shortest(len(rows))
    plan, seconds = _timed(lambda: best_key(signs, objective))
    read_wrong = tuple(replace(sign, misread=0.08) for sign in signs)
    return Row(name, plan, read_wrong, objective, 0b1010101010 & ((1 << len(rows)) - 1), seconds, tree_steps(rows))


def _random_rows(count: int) -> list[tuple[str, ...]]:
    chance = random.Random(SEED + count)
    columns = max(6, 3 * count.bit_length())
    return [tuple(chance.choice("01") for _ in range(columns)) for _ in range(count)]


def _random_variable(count: int) -> Row:
    """Some taxa variable, signs misread, half of the taxa harmful: what a key has to cope with."""
    chance = random.Random(SEED - count)
    signs = []
    for number in range(max(8, 4 * count.bit_length())):
        goes = [3 if chance.random() < 0.05 else chance.choice((1, 2)) for _ in range(count)]
        leads = tuple(sum(1 << t for t, g in enumerate(goes) if g & side) for side in (1, 2))
        signs.append(Sign(leads, f"t{number}", chance.choice((1.0, 2.0, 3.0)), chance.choice((0.03, 0.08, 0.15)), chance.choice("abcd")))
    objective = Objective((1.0,) * count, tuple(100.0 if t % 2 else 20.0 for t in range(count)))
    plan, seconds = _timed(lambda: best_key(signs, objective))
    return Row(f"random, variable {count}", plan, tuple(signs), objective, sum(1 << t for t in range(1, count, 2)), seconds, None)


def _demo() -> Iterator[Row]:
    made = load(ROOT).workspace
    assert made
    for planned in made.trails.values():
        for on in planned.trail.dates:
            held, _ = covered(made, planned.trail, on)
            start = time.perf_counter()
            key = make_key(made, occasion_of(planned.trail, on, taxa=held), planned.trail.key)
            harmful = sum(1 << n for n, id_ in enumerate(held) if made.taxa[id_].hazard_class.is_harmful)
            yield Row(f"demo {on}", key.plan, key.signs, key.objective, harmful, time.perf_counter() - start, None)


def rows(sizes: tuple[int, ...] = (8, 16, 24, 100, 1000)) -> Iterator[Row]:
    """The lines of the table."""
    yield from _demo()
    for name, read in (("iris", iris_kinds), ("flower", flower), ("leaf_id_flavia", leaf_id_flavia)):
        yield _of_rows(name, read())
    for count in sizes:
        yield _of_rows(f"random {count}", _random_rows(count))
        yield _random_variable(count)


def main() -> None:
    """Print the table."""
    widths = (22, 5, 14, 10, 8, 9, 7, 13, 8, 5)
    print("  ".join(text.ljust(width) for text, width in zip(HEADINGS, widths, strict=True)))
    made = []
    for row in rows():
        made.append(row)
        print("  ".join(text.ljust(width) for text, width in zip(row.cells(), widths, strict=True)), flush=True)
    compared = [row for row in made if row.reference is not None]
    worse, optimal = sum(row.is_worse for row in compared), sum(row.plan.is_optimal for row in made)
    print(f"worse than the reference in {worse} of {len(compared)}, optimal in {optimal} of {len(made)}")


if __name__ == "__main__":
    main()
