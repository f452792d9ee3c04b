"""The texts of a workspace that outputs say, each with its document and the way to it."""

from __future__ import annotations

from collections.abc import Iterator

from twayblade.knowledge.claim import unmarked
from twayblade.knowledge.problem import Path
from twayblade.knowledge.workspace import PlannedTrail, Taxon, Workspace


def said_texts(workspace: Workspace) -> Iterator[tuple[str, Path, str]]:
    """Every text of profiles, groups, trails and pages that is said or shown to readers."""
    for taxon in workspace.taxa.values():
        for path, text in _of_profile(taxon):
            yield taxon.document, path, text
    for id_, group in workspace.groups.items():
        document = f"content/groups/{id_}.yml"
        yield document, ("summary",), group.summary.text if group.summary else ""
        yield document, ("say",), group.say.text if group.say else ""
        yield document, ("vary",), group.vary.text if group.vary else ""
    for planned in workspace.trails.values():
        for path, text in _of_trail(planned):
            yield planned.document, path, text
    for page in workspace.pages.values():
        for start, text in page.paragraphs():
            yield page.document, (start,), unmarked(text)


def _of_profile(taxon: Taxon) -> Iterator[tuple[Path, str]]:
    profile = taxon.profile
    for key, sourced in (("summary", profile.summary), ("life-form", profile.life_form), ("habitat", profile.habitat), ("status", profile.status)):
        if sourced:
            yield (key,), sourced.text
    if profile.hazard:
        yield ("hazard", "text"), profile.hazard.text.text
    for number, care in enumerate(profile.care):
        yield ("care", number), care.text
    for number, photograph in enumerate(profile.photographs):
        yield ("photographs", number, "shows"), photograph.shows.text
    for number, part in enumerate(profile.name_meaning):
        yield ("name-meaning", number, "why"), part.why
    for number, contrast in enumerate(profile.contrasts):
        for place, ground in enumerate(contrast.by):
            if ground.words:
                yield ("contrasts", number, "by", place, "words"), ground.words


def _of_trail(planned: PlannedTrail) -> Iterator[tuple[Path, str]]:
    for number, stop in enumerate(planned.trail.stops):
        for part, text in stop.words.items():
            yield ("stops", number, "words", part), text.text
