"""How many false workspaces `check` catches, and how often it alarms for nothing.

`python tests/measure/mutants.py --count N --seed S` makes N workspaces from the true demo, each changed at one place.
A mutant is false when it breaks a stated rule or when the enumerator finds a declared claim that no longer holds; the
others are still true. A false one is caught when a problem stands in the right file at the line changed, or at the claim
that rests on what changed. A third as many intact variations must raise nothing.
"""

# ruff: noqa: E402
from __future__ import annotations

import argparse
import random
import shutil
import sys
import tempfile
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

import yaml

ROOT = Path(__file__).resolve().parents[2]
if __name__ == "__main__":
    sys.path[:0] = [str(ROOT), str(ROOT / "generator")]

from tests.measure.conditions import Broken
from tests.measure.copies import Demo, Mutant
from tests.measure.enumerator import World
from tests.measure.operators import OPERATORS
from tests.measure.texts import Text, Way
from tests.measure.variations import VARIATIONS

from twayblade.knowledge.problem import Problem
from twayblade.reading import nodes, records, workspace
from twayblade.reasoning.checks import check_content

JUDGED = (
    *("contrast-", "notation", "name-claim", "season-order", "stop-empty", "claim-", "date-impossible", "care-look-alike", "look-alike-one-sided"),
    *("value-against-", "alternatives-agree", "inseparable", "state-unused", "trait-unused"),
)
"""Beginnings of the rules that the enumerator judges for itself. What other rules report of it is left as still true."""
PLAIN: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)


@dataclass(frozen=True)
class Outcome:
    """What became of a mutant: what is false in it, what was reported, and whether that is at a right place."""

    mutant: Mutant
    line: int
    before: str
    after: str
    broken: tuple[str, ...]
    reported: tuple[Problem, ...]
    caught: bool

    def __str__(self) -> str:
        told = "; ".join(f"{p.place.file}:{p.place.line} {p.rule}" for p in self.reported[:3]) or "nothing"
        head = f"{self.mutant.file}:{self.line} {self.mutant.operator} breaks {', '.join(self.broken) or 'nothing'}; reported: {told}"
        return f"{head}\n    - {self.before}\n    + {self.after}"


@dataclass
class Bench:
    """One copy of the demo, changed and restored file by file. Files that stand unchanged are read only once."""

    folder: Path
    demo: Demo
    raw: dict[str, Any] = field(default_factory=dict)
    documents: dict[str, nodes.Document] = field(default_factory=dict)
    records: dict[tuple[str, str, Way], Any] = field(default_factory=dict)

    def problems(self, mutant: Mutant, text: str) -> tuple[Problem, ...]:
        """What `check` reports with one file changed."""
        path = self.folder / mutant.file
        whole = path.read_bytes()
        path.write_bytes(text.encode())
        try:
            return self.check()
        finally:
            path.write_bytes(whole)

    def check(self) -> tuple[Problem, ...]:
        """What `check` reports of the copy as it stands."""
        loaded = workspace.load(self.folder)
        return (*loaded.problems, *(loaded.place(f) for f in check_content(loaded.draft)))

    def broken(self, mutant: Mutant, text: str) -> list[Broken]:
        """What the enumerator finds false with one file changed; the rest of the demo is known to be true."""
        changed = Path(mutant.file).stem if mutant.file.startswith("content/species/") else None
        return list(World({**self.raw, mutant.file: yaml.load(text, Loader=PLAIN)}).broken(changed))

    def read(self, folder: Path, file: str) -> nodes.Document:
        """Read a document, or take the one that was read from the same text."""
        path = folder / file
        if file not in self.demo.texts or not path.is_file() or path.read_bytes() != self.demo.texts[file].text.encode():
            return nodes.read_document(folder, file)
        if file not in self.documents:
            self.documents[file] = nodes.read_document(folder, file)
        return self.documents[file]

    def make(self, kind: Any, document: nodes.Document, data: Any = None, at: Way = ()) -> Any:
        """Make a record, or take the one that was made from the same document."""
        if self.documents.get(document.file) is not document:
            return records.make(kind, document, data, at)
        key = (str(kind), document.file, at)
        if key not in self.records:
            self.records[key] = records.make(kind, document, data, at)
        return self.records[key]


@contextmanager
def bench(root: Path = ROOT, into: Path | None = None) -> Iterator[Bench]:
    """A bench over a copy of the demo in a folder of its own, in memory where there is such a place."""
    shared = Path("/dev/shm")
    with tempfile.TemporaryDirectory(dir=into or (shared if shared.is_dir() else None)) as made:
        folder = Path(made) / "demo"
        shutil.copytree(root / "content", folder / "content")
        for trail in root.glob("*/trail.yml"):
            shutil.copytree(trail.parent, folder / trail.parent.name)
        files = sorted(str(p.relative_to(folder)) for p in [*folder.glob("content/**/*.yml"), *folder.glob("*/trail.yml")])
        texts = {f: Text(f, (folder / f).read_text(encoding="utf-8")) for f in files}
        raw = {f: yaml.load(t.text, Loader=PLAIN) for f, t in texts.items()}
        made_bench = Bench(folder, Demo(texts, raw), raw)
        own = vars(workspace)
        known = {name: own[name] for name in ("read_document", "read_route", "make")}
        own.update(read_document=made_bench.read, read_route=cache(known["read_route"]), make=made_bench.make)
        try:
            yield made_bench
        finally:
            own.update(known)


def draw(makers: Mapping[str, Callable[[Demo], Iterable[Mutant]]], demo: Demo, count: int, seed: int) -> list[Mutant]:
    """As many mutants of each operator as go round, drawn without putting back."""
    pools = []
    for name, make in sorted(makers.items()):
        pool = list(make(demo))
        random.Random(f"{seed} {name}").shuffle(pool)
        pools.append(pool)
    drawn: list[Mutant] = []
    while len(drawn) < count and any(pools):
        drawn += [pool.pop() for pool in pools if pool]
    return drawn[:count]


def edited(text: Text, mutant: Mutant) -> str:
    """The text with the edits of a mutant made."""
    made = text.text
    for edit in sorted(mutant.edits, key=lambda e: -e.start):
        made = made[: edit.start] + edit.new + made[edit.end :]
    return made


def _changed_lines(text: Text, mutant: Mutant) -> set[int]:
    """The lines, in the text as edited, of what the edits put there."""
    lines: set[int] = set()
    moved = 0
    for edit in sorted(mutant.edits, key=lambda e: e.start):
        first = text.text.count("\n", 0, edit.start) + 1 + moved
        lines |= set(range(first, first + edit.new.rstrip("\n").count("\n") + 1))
        moved += edit.new.count("\n") - text.text.count("\n", edit.start, edit.end)
    return lines


def measure(on: Bench, mutant: Mutant) -> Outcome:
    """Judge a mutant, check it, and see whether what is false in it was told at a right place."""
    text = on.demo.texts[mutant.file]
    made = edited(text, mutant)
    broken = [] if mutant.breaks else on.broken(mutant, made)
    reported = on.problems(mutant, made)
    right = {(mutant.file, line) for line in _changed_lines(text, mutant)}
    try:
        composed = Text(mutant.file, made)
    except yaml.YAMLError:
        composed = text
    right |= {(mutant.file, line) for way in mutant.rests for line in composed.head(way)}
    for b in broken:
        resting = composed if b.file == mutant.file else on.demo.texts[b.file]
        right |= {(b.file, line) for line in resting.lines(b.way)}
    line = min(_changed_lines(text, mutant))
    edit = min(mutant.edits, key=lambda e: e.start)
    rules = (mutant.breaks,) if mutant.breaks else tuple(sorted({b.rule for b in broken}))
    caught = any((p.place.file, p.place.line) in right for p in reported)
    return Outcome(mutant, line, _line(text.text, edit.start), _line(made, edit.start), rules, reported, bool(rules) and caught)


def _line(text: str, at: int) -> str:
    return text[text.rfind("\n", 0, at) + 1 :].split("\n", 1)[0].strip()[:150]


@dataclass
class Report:
    """The outcomes of all mutants and the problems raised by intact variations."""

    outcomes: list[Outcome]
    variations: list[Outcome]

    @property
    def false(self) -> list[Outcome]:
        return [o for o in self.outcomes if o.broken]

    @property
    def missed(self) -> list[Outcome]:
        return [o for o in self.false if not o.caught]

    @property
    def unasked(self) -> list[Outcome]:
        """Still true by the enumerator, and yet reported by a rule that it judges too: one of the two is wrong."""
        return [o for o in self.outcomes if not o.broken and any(p.rule.startswith(JUDGED) for p in o.reported)]

    @property
    def alarms(self) -> list[Outcome]:
        return [o for o in self.variations if o.reported]

    @property
    def last_line(self) -> str:
        false, still = len(self.false), len(self.outcomes) - len(self.false)
        return f"caught {false - len(self.missed)} of {false}, still true {still}, false alarms {len(self.alarms)} of {len(self.variations)}"

    def __str__(self) -> str:
        rows = [f"{'operator':<26}{'made':>6}{'false':>7}{'caught':>8}{'still true':>12}{'of these reported':>19}"]
        groups = (self.outcomes, self.false, [o for o in self.false if o.caught], self.unasked)
        made, false, caught, unasked = (Counter(o.mutant.operator for o in found) for found in groups)
        rows += [f"{n:<26}{made[n]:>6}{false[n]:>7}{caught[n]:>8}{made[n] - false[n]:>12}{unasked[n]:>19}" for n in sorted(made)]
        made, alarms = (Counter(o.mutant.operator for o in found) for found in (self.variations, self.alarms))
        rows += [f"\n{'intact variation':<26}{'made':>6}{'alarms':>8}"]
        rows += [f"{n:<26}{made[n]:>6}{alarms[n]:>8}" for n in sorted(made)]
        for title, listed in (("missed", self.missed), ("still true, yet reported", self.unasked), ("false alarms", self.alarms)):
            rows += [f"\n{title}:", *map(str, listed)] if listed else []
        return "\n".join([*rows, "", self.last_line])


def run(count: int, variations: int, seed: int, root: Path = ROOT, into: Path | None = None) -> Report:
    """Draw, measure and count. The demo itself must be clean, before and after."""
    with bench(root, into) as on:
        assert not on.check(), "the demo itself has problems"
        assert not list(World(on.raw).broken()), "the enumerator finds the demo false"
        outcomes = [measure(on, mutant) for mutant in draw(OPERATORS, on.demo, count, seed)]
        intact = [measure(on, mutant) for mutant in draw(VARIATIONS, on.demo, variations, seed)]
        assert not on.check(), "the copy was not restored"
    return Report(outcomes, intact)


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--variations", type=int, help="intact variations; a third as many as mutants, if not given")
    asked = parser.parse_args()
    print(run(asked.count, asked.count // 3 if asked.variations is None else asked.variations, asked.seed))


if __name__ == "__main__":
    main()
