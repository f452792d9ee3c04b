"""The pictures of a walk in words, for lists that are ticked on site."""

from __future__ import annotations

from collections.abc import Mapping

from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.pictures import Distance, Scale, SetUp
from twayblade.writing.phrases import capital, listed, sentence
from twayblade.writing.script import Script

STAY = "Touch nothing to get a picture, go no nearer than the stop allows, and leave every plant as you find it: a long lens does the rest."
TAKES = 3
"""How many takes a log has room for (project default)."""


def picture_sentence(workspace: Workspace, picture: SetUp) -> str:
    """What to take: `Hemlock, flower head, from below, near enough ... : the foot of the main umbel where all rays meet.`"""
    name = capital(workspace.taxa[picture.taxon].common_name)
    scale = "" if picture.scale is Scale.NONE else f", with {picture.scale.value}"
    far = f"from so far that it takes in {picture.distance.value}" if picture.distance is Distance.WHOLE else picture.distance.value
    return sentence(f"{name}, {picture.organ}, from {picture.side}, {far}{scale}: {'; '.join(picture.frames)}")


def match_words(workspace: Workspace, script: Script, picture: SetUp) -> str:
    """What it is cut together with: `As hemlock at stop 4: the same side, the same distance, the same light.`; empty, if nothing."""
    numbers: Mapping[str, int] = {stop.stop.id: number for number, stop in enumerate(script.stops, 1)}
    others = [f"{workspace.taxa[taxon].common_name} at stop {numbers[stop]}" for stop, taxon in picture.matches]
    return sentence(f"as {listed(others)}: the same side, the same distance, the same light") if others else ""


def pictures_at(script: Script, stop: str) -> tuple[SetUp, ...]:
    """The set-ups of one stop, in order."""
    return tuple(picture for picture in script.pictures if picture.stop == stop)
