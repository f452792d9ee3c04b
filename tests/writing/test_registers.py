"""Cards and notes say what the claims of the script say, in few words, and every caution in full."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from itertools import product
from pathlib import Path

import pytest
from click.testing import Result

from twayblade.knowledge.frequency import FREQUENCY_WORDS, Frequency
from twayblade.knowledge.trait import Trait
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.lookalikes import look_alikes
from twayblade.reasoning.spread import contexts
from twayblade.writing.catchwords import MOST_WORDS, catchwords
from twayblade.writing.registers import CueStop, Line, Register, cue_stops
from twayblade.writing.script import Script, write_script


@pytest.fixture(scope="module")
def scripts(demo_workspace: Workspace) -> tuple[Script, ...]:
    pairs, walk = look_alikes(demo_workspace), demo_workspace.trails["demo_trail"]
    return tuple(write_script(demo_workspace, walk, on, pairs) for on in walk.trail.dates)


@pytest.fixture(scope="module")
def cued(demo_workspace: Workspace, scripts: tuple[Script, ...]) -> tuple[tuple[Script, Register, tuple[CueStop, ...]], ...]:
    return tuple((s, register, cue_stops(demo_workspace, s, register)) for s, register in product(scripts, (Register.CARDS, Register.NOTES)))


def lines_of(stop: CueStop) -> Iterator[Line]:
    for cue in stop.cues:
        yield from cue.lines
    for other in stop.others:
        yield from other.lines
    yield from stop.asked


def said_states(trait: Trait, words: str) -> set[str]:
    """The states that catchwords name, longest names first, so that no name hides in another."""
    names = {name: state for state, s in trait.states.items() for name in (s.phrase, state.replace("-", " "))}
    found, rest = set(), words
    for name in sorted(names, key=len, reverse=True):
        if re.search(rf"(?<!\w){re.escape(name)}(?!\w)", rest):
            found.add(names[name])
            rest = re.sub(rf"(?<!\w){re.escape(name)}(?!\w)", " ", rest)
    return found


def numbers(text: str) -> set[str]:
    return set(re.findall(r"\d+(?:\.\d+)?", text))


def test_every_catchword_names_states_or_numbers_that_the_profile_records(demo_workspace: Workspace) -> None:
    """For every value of every plant: nothing is named that is not recorded, and nothing usual is made to sound like always."""
    counted = 0
    for taxon in demo_workspace.taxa.values():
        for id_, value in taxon.values.items():
            trait = demo_workspace.traits[id_]
            statements = [s for a in value.alternatives for s in a.statements]
            for at in contexts([value], trait):
                words = catchwords(demo_workspace, taxon, id_, at)
                counted += bool(words)
                if trait.kind.is_numeric:
                    bounds = {f"{b.normalize():f}" for s in statements if s.span for b in s.span.bounds()}
                    assert numbers(words) <= bounds, (taxon.id, id_, words)
                else:
                    assert said_states(trait, words) <= {state for s in statements for state in s.states}, (taxon.id, id_, words)
                    assert said_states(trait, words), (taxon.id, id_, words)
                if all(s.frequency < Frequency.ALWAYS for s in statements):
                    assert any(word in words.split() for word in FREQUENCY_WORDS), (taxon.id, id_, words)
    assert counted > 300


def test_catchwords_are_few_unless_several_states_are_as_usual(demo_workspace: Workspace) -> None:
    said = [
        catchwords(demo_workspace, taxon, id_, at).removesuffix(" if any")
        for taxon in demo_workspace.taxa.values()
        for id_, value in taxon.values.items()
        for at in contexts([value], demo_workspace.traits[id_])
        if len(value.alternatives) == 1
    ]
    long = [words for words in said if len(words.split()) > MOST_WORDS]
    assert all(re.search(r" or | to ", words) for words in long)
    assert len(long) < len(said) / 20


def test_each_claim_of_the_script_stands_on_its_card_with_the_values_of_its_taxa(
    demo_workspace: Workspace, cued: tuple[tuple[Script, Register, tuple[CueStop, ...]], ...]
) -> None:
    for script, register, stops in cued:
        for stop, written in zip(stops, script.stops, strict=True):
            for cue, part in zip(stop.cues, written.parts, strict=True):
                claimed = [line.claim for line in cue.lines if line.claim]
                if part.kind not in ("care", "opening", "arrival"):
                    assert claimed == list(part.claims), (register, part.kind)
            for line in lines_of(stop):
                if line.claim and line.claim.trait and line.head and not line.head.endswith("?"):
                    trait = demo_workspace.traits[line.claim.trait]
                    assert trait.name in line.head
                    values = [demo_workspace.taxa[id_].values[line.claim.trait] for id_ in line.claim.taxa]
                    states = {state for v in values for a in v.alternatives for s in a.statements for state in s.states}
                    assert said_states(trait, line.text) <= states, line
                    if len(line.claim.taxa) == 2:
                        assert all(demo_workspace.taxa[id_].common_name in line.text for id_ in line.claim.taxa)


def test_every_caution_stands_in_full(cued: tuple[tuple[Script, Register, tuple[CueStop, ...]], ...]) -> None:
    for script, _, stops in cued:
        for stop, written in zip(stops, script.stops, strict=True):
            care = [line.text for cue in stop.cues for line in cue.lines if line.is_care]
            assert care == [part.text for part in written.parts if part.kind == "care"]
            for other, branch in zip(stop.others, written.branches, strict=True):
                if any(part.kind == "care" for part in branch.parts):
                    assert any(line.is_care or line.text == "care as above, in full" for line in other.lines)
                    assert care or any(line.is_care for line in other.lines)


def test_what_to_do_in_doubt_stays_with_every_answer(cued: tuple[tuple[Script, Register, tuple[CueStop, ...]], ...]) -> None:
    lines = [line for _, _, stops in cued for stop in stops for line in stop.asked if line.head.startswith("Is this ")]
    assert len(lines) > 20
    for line in lines:
        assert line.text.endswith(("leave the name open and treat the plant as harmful.", "treat it as the more harmful of the two."))


def test_an_authors_own_words_are_never_cut(cued: tuple[tuple[Script, Register, tuple[CueStop, ...]], ...]) -> None:
    """Only where all they say is marked as claims, a card reminds of the claims."""
    for script, register, stops in cued:
        for stop, written in zip(stops, script.stops, strict=True):
            for cue, part in zip(stop.cues, written.parts, strict=True):
                if part.by_author and part.kind != "care":
                    own = " ".join(written.stop.words[part.kind].text.split())
                    is_told = register is Register.CARDS and part.claims
                    assert is_told or any(line.text == own for line in cue.lines)


def test_the_time_of_each_part_is_that_of_the_script(cued: tuple[tuple[Script, Register, tuple[CueStop, ...]], ...]) -> None:
    for script, _, stops in cued:
        elapsed = 0
        for stop, written in zip(stops, script.stops, strict=True):
            elapsed += written.walk_seconds
            assert stop.arrives == elapsed
            for cue, part in zip(stop.cues, written.parts, strict=True):
                assert (cue.starts, cue.seconds) == (elapsed, part.seconds)
                elapsed += part.seconds


def test_a_name_stands_with_its_sound_and_its_meaning(cued: tuple[tuple[Script, Register, tuple[CueStop, ...]], ...]) -> None:
    lines = [line for _, register, stops in cued if register is Register.NOTES for stop in stops for line in lines_of(stop)]
    assert any(line.head == "Conium maculatum" and line.text == "co-NI-um ma-cu-LA-tum" for line in lines)
    assert any(line.head == "maculatum" and line.text.startswith("spotted (fits)") for line in lines)
    assert any(line.head == "How do you say Conium maculatum?" for line in lines)


def test_the_command_speaks_in_every_register(run: Callable[..., Result], penguins: Path) -> None:
    for register in Register:
        result = run("-C", penguins, "script", "--register", register, "--branches")
        assert result.exit_code == 0, result.output
        assert "lantern penguin" in result.stdout.lower()
    shape = json.loads(run("-C", penguins, "script", "--register", "notes", "--format", "json").stdout)
    assert {"trail", "on", "stops", "refusal"} <= set(shape)
    for stop in shape["stops"]:
        assert stop["cues"]
        for line in (line for cue in stop["cues"] for line in cue["lines"]):
            assert set(line) == {"head", "text", "care", "taxa", "trait"}
