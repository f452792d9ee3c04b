"""How long a presenter takes to say a text."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property

from twayblade.knowledge.trail import Pace
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.times import Length, speech_seconds, syllable_seconds
from twayblade.writing.speech import spoken
from twayblade.writing.syllables import length


@dataclass(frozen=True)
class Voice:
    """A presenter's way of speaking. `latin`: the words of scientific names, in small letters."""

    pace: Pace
    latin: frozenset[str] = frozenset()

    @cached_property
    def _syllable(self) -> Decimal:
        read = self.pace.calibration
        return syllable_seconds(self.pace, self._length(read.text) if read else None)

    def _length(self, text: str) -> Length:
        return length(spoken(text), self.latin)

    def seconds(self, text: str) -> Decimal:
        """Seconds to say a text, pauses for its punctuation included."""
        return speech_seconds(self._length(text), self._syllable)


def voice_of(workspace: Workspace, pace: Pace) -> Voice:
    """The voice of a presenter who speaks of a workspace, which knows the Latin words that are said there."""
    names = (taxon.scientific_name for taxon in workspace.taxa.values())
    parts = (meaning.part for taxon in workspace.taxa.values() for meaning in taxon.profile.name_meaning)
    return Voice(pace, frozenset(word.lower() for name in (*names, *parts) for word in name.replace("-", " ").split()))
