"""Several wordings for each kind of sentence, chosen so that a walk does not repeat itself; same walk, same words."""

from __future__ import annotations

from copy import copy
from functools import cache
from importlib.resources import files

import yaml
from jinja2 import Environment, StrictUndefined, Template

from twayblade.writing.phrases import capital


@cache
def _wordings() -> dict[str, tuple[Template, ...]]:
    """Every kind with its wordings, as they stand in `wordings.yml`."""
    made = Environment(undefined=StrictUndefined, autoescape=False)
    text = (files("twayblade.writing") / "wordings.yml").read_text(encoding="utf-8")
    return {kind: tuple(made.from_string(wording) for wording in wordings) for kind, wordings in yaml.safe_load(text).items()}


def _beginning(sentence: str) -> str:
    return " ".join(sentence.split()[:2])


class Wordings:
    """The wordings of one walk, with account of what has been said on it."""

    def __init__(self) -> None:
        self._turns: dict[str, int] = {}
        self._said: set[str] = set()
        self._began = ""

    def fork(self) -> Wordings:
        """The same account, to go on in another way."""
        other = copy(self)
        other._turns, other._said = dict(self._turns), set(self._said)
        return other

    def say(self, kind: str, **words: str) -> str:
        """A sentence of a kind: the next wording in turn that has not been said yet, and that begins otherwise than the last
        sentence did; without such, the next that has not been said; the next in turn, if all have."""
        wordings, turn = _wordings()[kind], self._turns.get(kind, 0)
        names = {**words, **{capital(key): capital(value) for key, value in words.items()}}
        in_turn = [" ".join(wordings[(turn + n) % len(wordings)].render(names).split()) for n in range(len(wordings))]
        fresh = [text for text in in_turn if text not in self._said]
        chosen = next((text for text in fresh if _beginning(text) != self._began), (fresh or in_turn)[0])
        self._turns[kind] = turn + in_turn.index(chosen) + 1
        self._said.add(chosen)
        self._began = _beginning(chosen)
        return chosen

    def is_said(self, sentence: str) -> bool:
        """Whether a sentence has been said on the walk; from now on it has."""
        known = sentence in self._said
        self._said.add(sentence)
        return known
