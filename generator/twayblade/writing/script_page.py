"""What the pages of a script show: the script with its light, the page to read aloud from, the pictures to take."""

from __future__ import annotations

from typing import Any

from twayblade.knowledge.workspace import Workspace
from twayblade.writing.clock_words import pace_words
from twayblade.writing.evidence import passages
from twayblade.writing.light_words import daylight_words, lacking_words, script_light, stays, stop_light_words, warning_words
from twayblade.writing.picture_words import STAY, TAKES, match_words, picture_sentence, pictures_at
from twayblade.writing.script import Script


def script_context(workspace: Workspace, script: Script) -> dict[str, Any]:
    """What the template of a script's page needs."""
    light = script_light(script)
    return {
        **_of(workspace, script),
        "starts": [stay.comes for stay in stays(script)],
        "daylight": daylight_words(light) if light else lacking_words(script.trail),
        "lights": [(stop_light_words(stop), warning_words(script.trail, stop)) for stop in light.stops] if light else [],
        "pace": pace_words(script.trail.trail.pace),
        "picture": lambda picture: picture_sentence(workspace, picture),
    }


def reading_context(workspace: Workspace, script: Script) -> dict[str, Any]:
    """What the template of the page to read aloud from needs."""
    return {**_of(workspace, script), "planned": script.trail}


def pictures_context(workspace: Workspace, script: Script) -> dict[str, Any]:
    """What the template of the pictures to take needs."""
    return {
        **_of(workspace, script),
        "takes": TAKES,
        "stay": STAY,
        "at": lambda stop: pictures_at(script, stop),
        "words": lambda picture: picture_sentence(workspace, picture),
        "matched": lambda picture: match_words(workspace, script, picture),
    }


def _of(workspace: Workspace, script: Script) -> dict[str, Any]:
    return {
        "script": script,
        "trail": script.trail.trail,
        "passages": lambda text, claims: passages(workspace, text, claims),
    }
