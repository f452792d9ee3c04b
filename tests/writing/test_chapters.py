"""Chapters of the film, held against the rules of WebVTT and read back by a reader of it that is not ours; the description beside them."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from io import StringIO
from itertools import pairwise
from pathlib import Path

import pytest
import webvtt
from click.testing import Result

from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.lookalikes import look_alikes
from twayblade.writing.chapters import chapters, chapters_vtt, description, timestamp
from twayblade.writing.script import Script, write_script


@pytest.fixture(scope="module")
def scripts(demo_workspace: Workspace) -> tuple[Script, ...]:
    pairs, walk = look_alikes(demo_workspace), demo_workspace.trails["demo_trail"]
    return tuple(write_script(demo_workspace, walk, on, pairs, branches=False) for on in walk.trail.dates)


TIMESTAMP = r"(?:\d{2,}:)?[0-5]\d:[0-5]\d\.\d{3}"


def faults(text: str) -> list[str]:
    """What breaks the syntax of WebVTT (W3C, WebVTT: The Web Video Text Tracks Format, section Syntax), and for chapters their order."""
    head, *blocks = text.replace("\r\n", "\n").replace("\r", "\n").strip("\n").split("\n\n")
    found = [] if re.fullmatch(r"\ufeff?WEBVTT(?:[ \t][^\n]*)?", head) else ["no WEBVTT"]
    spans, ids = [], []
    for block in filter(None, blocks):
        *id_, timing, payload = re.split(r"\n", block, maxsplit=2) if "-->" not in block.split("\n")[0] else re.split(r"\n", block, maxsplit=1)
        ids += id_
        match = re.fullmatch(rf"({TIMESTAMP})[ \t]+-->[ \t]+({TIMESTAMP})(?:[ \t].*)?", timing)
        if not match:
            found.append(f"timing {timing}")
            continue
        spans.append((seconds(match[1]), seconds(match[2])))
        if "-->" in payload or re.search(r"&(?!amp;|lt;|gt;)|<(?!/?[vbiu]|/?lang)", payload):
            found.append(f"payload {payload}")
    found += [f"span {span}" for span in spans if span[0] >= span[1]]
    found += [f"order {a} {b}" for a, b in pairwise(spans) if a[1] > b[0]]
    return found + (["ids"] if len(set(ids)) < len(ids) else [])


def seconds(stamp: str) -> float:
    return sum(float(piece) * 60**n for n, piece in enumerate(reversed(stamp.split(":"))))


@pytest.mark.parametrize(
    ("text", "is_valid"),
    [
        ("WEBVTT\n\na\n00:00:00.000 --> 00:00:01.000\nA\n", True),
        ("WEBVTT\n\n00:00.000 --> 01:02.050\nA\n", True),
        ("WEBVTT\n\n00:00:00,000 --> 00:00:01,000\nA\n", False),
        ("WEBVTT\n\n0:01.000 --> 00:02.000\nA\n", False),
        ("WEBVTT\n\n00:01.000 --> 00:01.000\nA\n", False),
        ("WEBVTT\n\n00:00:59.000 --> 00:00:60.000\nA\n", False),
        ("WEBVTT\n\n00:01.000 --> 00:03.000\nA\n\n00:02.000 --> 00:04.000\nB\n", False),
        ("WEBVTT\n\n00:01.000 --> 00:03.000\nA & B\n", False),
    ],
)
def test_the_rules_used_here_tell_right_from_wrong(text: str, is_valid: bool) -> None:
    assert (faults(text) == []) == is_valid


@pytest.mark.parametrize(
    ("time", "stamp"),
    # By the syntax of WebVTT timestamps: three digits after a full stop, seconds below 60.
    [(3723.5, "01:02:03.500"), (62.05, "00:01:02.050"), (59.9996, "00:01:00.000"), (0, "00:00:00.000"), (360_000, "100:00:00.000")],
)
def test_timestamps_are_written_as_the_standard_has_them(time: float, stamp: str) -> None:
    assert timestamp(time) == stamp


def test_chapters_are_webvtt_without_a_fault(scripts: tuple[Script, ...]) -> None:
    for script in scripts:
        assert faults(chapters_vtt(script)) == []


def test_a_reader_of_webvtt_finds_a_chapter_a_stop_over_the_running_time_of_the_film(scripts: tuple[Script, ...]) -> None:
    """Speech and looking, neither walking nor gathering; webvtt-py reads it back."""
    for script in scripts:
        read = list(webvtt.from_buffer(StringIO(chapters_vtt(script))))
        assert [cue.text for cue in read] == [stop.stop.title for stop in script.stops]
        assert [cue.identifier for cue in read] == [stop.stop.id for stop in script.stops]
        assert read[0].start == "00:00:00.000"
        assert all(before.end == after.start for before, after in pairwise(read))
        assert seconds(read[-1].end) == pytest.approx(script.clocks.film.likely, abs=1)
        for cue, stop in zip(read, script.stops, strict=True):
            assert seconds(cue.end) - seconds(cue.start) == stop.seconds - sum(part.gathering for part in stop.parts)


def test_a_title_with_signs_stays_a_title(scripts: tuple[Script, ...]) -> None:
    script = scripts[0]
    first = script.stops[0]
    odd = replace(first, stop=first.stop.model_copy(update={"title": "Gate <one> & two --> three"}))
    text = chapters_vtt(replace(script, stops=(odd, *script.stops[1:])))
    assert faults(text) == []
    assert "Gate &lt;one&gt; &amp; two --&gt; three" in text


def test_the_description_tells_when_what_is_shown_under_which_name_with_its_cautions_and_sources(
    demo_workspace: Workspace, scripts: tuple[Script, ...]
) -> None:
    for script in scripts:
        text = description(demo_workspace, script)
        assert text.startswith("Nine Gates Drove, ")
        assert "Invented: The place, the route" in text
        marks = re.findall(r"^(\d+(?::\d\d)+) (.+)$", text, re.MULTILINE)
        assert [seconds(mark) for mark, _ in marks] == [chapter.starts for chapter in chapters(script)]
        for (_, said), stop in zip(marks, script.stops, strict=True):
            assert said.startswith(stop.stop.title)
        for stop in script.stops:
            for part in stop.parts:
                taxon = demo_workspace.taxa[part.taxon] if part.taxon else None
                if part.kind == "recognise" and taxon:
                    assert taxon.profile.name.with_authors in text
                if part.kind == "care" and taxon and taxon.hazard_class.is_harmful and taxon.profile.hazard:
                    assert taxon.profile.hazard.text.text in text
                for claim in part.claims:
                    for key in (key for id_ in claim.taxa for key in demo_workspace.taxa[id_].values[claim.trait].source):
                        assert key == "memory" or demo_workspace.sources[key].title in text
        assert text.rstrip().endswith("from memory, without a published source.")


def test_the_command_writes_them_to_files(run: Callable[..., Result], penguins: Path, tmp_path: Path) -> None:
    files = {option: tmp_path / name for option, name in (("--chapters", "c.vtt"), ("--description", "d.txt"), ("--pdf", "s.pdf"))}
    result = run("-C", penguins, "script", *(word for pair in files.items() for word in pair), "--as", "cards")
    assert result.exit_code == 0, result.output
    assert all(f"wrote {file}" in result.stdout for file in files.values())
    assert faults(files["--chapters"].read_text(encoding="utf-8")) == []
    assert "Scientific names" in files["--description"].read_text(encoding="utf-8")
    assert files["--pdf"].read_bytes().startswith(b"%PDF")
    assert run("-C", penguins, "script", "--chapters", tmp_path / "no" / "c.vtt").exit_code == 2
