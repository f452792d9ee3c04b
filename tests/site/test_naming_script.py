"""The script that names an unknown plant does what the reasoning does, run in a real browser on answers drawn from a seed."""

from __future__ import annotations

import html
import json
import random
import re
import shutil
import subprocess
from collections.abc import Iterator
from datetime import date
from importlib import resources
from pathlib import Path
from typing import Any

import pytest

from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.season import day_of
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.keys.objective import places
from twayblade.reasoning.lookalikes import look_alikes
from twayblade.reasoning.naming import NONE_OF_THESE, UNSURE, Naming, answers_to_show, names, next_look, pairs, standing
from twayblade.reasoning.naming_ends import choose_doubts, choose_parting, doubts, harmful_left, partings
from twayblade.reasoning.scope import nameable
from twayblade.writing.drawings import Drawings
from twayblade.writing.naming_tables import write_naming

CHROMIUM = shutil.which("chromium")
pytestmark = [pytest.mark.browser, pytest.mark.skipif(CHROMIUM is None, reason="chromium is not installed, so no script can be run")]

SEED = 20260607
WALKS = 4
"""So many sequences of answers on each day; every step of each is compared."""

DAYS = [day_of(date(2026, month, day)) for month, day in ((1, 1), (2, 28), (5, 16), (6, 7), (7, 15), (9, 16), (12, 31))]

RUN = """
var found = cases.map(function (one) {
  var rules = twayblade.naming.reckoning(tables, one.day), now = rules.standing(one.given), names = rules.names(now), left = rules.harmfulLeft(now);
  var next = rules.nextLook(one.given);
  return { against: now.against, seldom: now.seldom, least: now.least, possible: now.possible, leading: now.leading, names: names, left: left,
    next: next, shown: next === null ? [] : rules.toShow(next, now),
    doubts: names.map(function (name) { return rules.doubts(name, one.given, now); }),
    partings: names.length ? left.map(function (other) { var n = rules.parting(names[0], other, one.given); return n >= 0 ? n : null; }) : [] };
});
document.body.setAttribute("data-found", JSON.stringify(found));
"""


def steps(naming: Naming) -> Iterator[tuple[dict[int, int], int]]:
    """Answers as they are given one by one, of every sort, and the day; also some to looks that would never be asked together."""
    choose = random.Random(SEED)
    for day in DAYS:
        for _ in range(WALKS):
            given: dict[int, int] = {}
            yield dict(given), day
            while (at := next_look(naming, given, day)) is not None:
                shown = answers_to_show(naming, at, standing(naming, given, day))
                given[at] = choose.choice([*shown, *shown, UNSURE, NONE_OF_THESE])
                yield dict(given), day
        anything = choose.sample(range(len(naming.looks)), 6)
        yield {at: choose.randrange(-2, len(naming.looks[at].answers)) for at in anything}, day


def test_the_script_says_what_the_reasoning_says_at_every_step(demo_workspace: Workspace, tmp_path: Path) -> None:
    trail = demo_workspace.trails["demo_trail"].trail
    taxa, _ = nameable(demo_workspace, trail.region)
    occasion = Occasion(None, frozenset(trail.means), trail.region, taxa)
    written = write_naming(demo_workspace, occasion, look_alikes(demo_workspace), Drawings(demo_workspace, trail.region))
    naming, against = written.naming, doubts(demo_workspace, occasion)
    between = {(a, b): partings(demo_workspace, occasion, naming.taxa[a], naming.taxa[b]) for a, b in pairs(len(naming.taxa))}
    cases = list(steps(naming))
    found = run_in_chromium(written.tables, [{"given": list(given.items()), "day": day} for given, day in cases], tmp_path)
    assert len(found) == len(cases) > 200
    for (given, day), said in zip(cases, found, strict=True):
        now, following = standing(naming, given, day), next_look(naming, given, day)
        named, left = names(naming, now), harmful_left(demo_workspace, naming, now)
        assert said == {
            "against": list(now.against),
            "seldom": list(now.seldom),
            "least": now.least,
            "possible": list(places(now.possible)),
            "leading": list(places(now.leading)),
            "names": list(named),
            "left": list(left),
            "next": following,
            "shown": [] if following is None else list(answers_to_show(naming, following, now)),
            "doubts": [list(choose_doubts(against[name], naming, given, now, day)) for name in named],
            "partings": [choose_parting(between[min(named[0], n), max(named[0], n)], naming, given, day) for n in left] if named else [],
        }


def run_in_chromium(tables: dict[str, Any], cases: list[dict[str, Any]], folder: Path) -> list[dict[str, Any]]:
    script = "".join((resources.files("twayblade.site.theme") / "js" / name).read_text(encoding="utf-8") for name in ("days.js", "naming.js"))
    page = folder / "naming.html"
    data = f"var tables = {json.dumps(tables)}, cases = {json.dumps(cases)};"
    page.write_text(f'<!DOCTYPE html><meta charset="utf-8"><body><script>{script}</script><script>{data}{RUN}</script></body>', encoding="utf-8")
    assert CHROMIUM
    command = [CHROMIUM, "--headless", "--no-sandbox", "--disable-gpu", f"--user-data-dir={folder / 'profile'}", "--dump-dom", page.as_uri()]
    done = subprocess.run(command, capture_output=True, text=True, encoding="utf-8", check=True)
    match = re.search(r'<body data-found="([^"]*)"', done.stdout)
    assert match, done.stderr[-2000:]
    found: list[dict[str, Any]] = json.loads(html.unescape(match[1]))
    return found
