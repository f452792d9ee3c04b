"""The stages of a plant on the general BBCH scale, the open standard for noting them.

Hack, H. et al. 1992: Einheitliche Codierung der phänologischen Entwicklungsstadien mono- und dikotyler Pflanzen, Nachrichtenblatt
des Deutschen Pflanzenschutzdienstes 44:265-270; Meier, U. (ed.) 2001: Growth stages of mono- and dicotyledonous plants, 2nd ed.
The first digit of a code is the principal stage, the second tells how far it has come. Which of this project's stages a
principal stage may be is the project's own reading: rosettes, for example, have no principal stage to themselves.
"""

from __future__ import annotations

import re

from twayblade.knowledge.profile import STAGES

PRINCIPAL_STAGES = (
    "germination or sprouting",
    "leaf development",
    "side shoots",
    "stem elongation or rosette growth",
    "vegetative parts for harvest",
    "inflorescence emergence",
    "flowering",
    "development of fruit",
    "ripening of fruit and seed",
    "senescence or dormancy",
)
"""The principal stages 0 to 9."""

_STAGES_OF = (
    ("seedling", "leaf"),
    ("seedling", "rosette", "leaf"),
    ("rosette", "leaf"),
    ("rosette", "leaf"),
    ("rosette", "leaf"),
    ("bud",),
    ("flower",),
    ("young-fruit",),
    ("ripe-fruit",),
    ("dry-stem",),
)
_CODE = re.compile(r"(?:BBCH\s*)?(?P<principal>\d)(?P<second>\d)?", re.IGNORECASE)


def principal_stages(stage: str) -> tuple[int, ...]:
    """The principal stages that a stage may be noted as: `flower` is 6; a rosette may be 1 to 4."""
    return tuple(number for number, stages in enumerate(_STAGES_OF) if stage in stages)


def parse_stages(text: str) -> tuple[frozenset[str], ...]:
    """Stages seen together, separated by `|`, `,` or `;`: each a stage or a BBCH code. Raises ValueError.

    Each is given as the set of stages it may be: a code does not always tell.
    """
    pieces = [piece.strip() for piece in re.split(r"[|,;+]|\band\b", text)]
    return tuple(_stage(piece) for piece in pieces if piece or not any(pieces))


def _stage(text: str) -> frozenset[str]:
    plain = re.sub(r"\s*\(.*\)", "", text).strip()  # `flower (BBCH 6)`, as the sheet has it
    name = plain.lower().replace(" ", "-")
    if name in STAGES:
        return frozenset({name})
    if code := _CODE.fullmatch(plain):
        return frozenset(_STAGES_OF[int(code["principal"])])
    raise ValueError(f"no stage `{text}`; expected some of {', '.join(STAGES)}, or a code of the BBCH scale, as in `flower` or `65`")
