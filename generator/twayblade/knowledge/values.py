"""Values: what a profile says of a trait. Their notation, and the statements it stands for."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Annotated, ClassVar

from pydantic import Discriminator, Field, Tag, model_validator

from twayblade.knowledge.frequency import FREQUENCY_WORDS, OFTEN, Frequency
from twayblade.knowledge.numbers import Range, convert, looks_like_range, parse_range
from twayblade.knowledge.record import Record, Several
from twayblade.knowledge.text import split_sources
from twayblade.knowledge.trait import Kind, Trait


class Conditions(Record):
    """Where a statement holds; None is everywhere."""

    part: str | None = Field(None, description="part of the organ")
    stage: str | None = Field(None, description="stage of the plant")
    form: str | None = Field(None, description="form of the taxon")
    region: str | None = Field(None, description="region it is stated for")


class Entry(Conditions):
    """A value as written: text in the notation of values, its conditions and its sources."""

    short_form: ClassVar[str] = "usually bristly, rarely hairless [FH-Ant]"
    is_: str = Field(description="the value: `usually furrowed`, `(50-)100-200 cm`")
    source: Several = Field((), description="keys of the sources")
    complete: bool = Field(False, description="nothing else occurs, although only `usually` is said")
    note: str | None = Field(None, description="a remark")
    doubted: str | None = Field(None, description="in an alternative: why it is doubted")

    @model_validator(mode="before")
    @classmethod
    def _from_short_form(cls, raw: object) -> object:
        if isinstance(raw, str):
            text, source = split_sources(raw)
            return {"is": text, "source": source}
        if isinstance(raw, dict) and isinstance(raw.get("is"), str) and "source" not in raw:
            text, source = split_sources(raw["is"])
            return {**raw, "is": text, "source": source}
        return raw


class Disagreement(Record):
    """A value on which sources disagree so that they cannot both be true."""

    alternatives: tuple[Entry, ...] = Field(min_length=2, description="one entry for each")


def _shape(raw: object) -> str:
    if isinstance(raw, (list, tuple)):
        return "several"
    is_disagreement = isinstance(raw, Disagreement) or (isinstance(raw, dict) and "alternatives" in raw)
    return "disagreement" if is_disagreement else "entry"


Item = Annotated[Annotated[Entry, Tag("entry")] | Annotated[Disagreement, Tag("disagreement")], Discriminator(_shape)]
Written = Annotated[
    Annotated[Entry, Tag("entry")] | Annotated[Disagreement, Tag("disagreement")] | Annotated[tuple[Item, ...], Field(min_length=1), Tag("several")],
    Discriminator(_shape),
]
"""A value as it may be written: one text, one entry, alternatives, or a list of entries for parts and stages."""


def as_written(written: Written) -> str:
    """A value as its profile gives it, on one line."""
    if isinstance(written, Entry):
        where = ", ".join(w for w in (written.part, written.stage, written.form, written.region) if w)
        return f"{where}: {written.is_}" if where else written.is_
    if isinstance(written, Disagreement):
        return " / ".join(as_written(entry) for entry in written.alternatives)
    return "; ".join(as_written(item) for item in written)


@dataclass(frozen=True)
class Statement:
    """One thing said of a trait: states or a range, how often, where, by whom.

    Exactly one of `states` (names of states, any one of which it may be) and `span` is set.
    """

    frequency: Frequency
    states: frozenset[str]
    span: Range | None
    where: Conditions
    complete: bool
    source: tuple[str, ...]
    note: str | None = None


@dataclass(frozen=True)
class Alternative:
    """One side of a disagreement of sources; an undisputed value has one alternative only."""

    statements: tuple[Statement, ...]
    doubted: str | None = None


@dataclass(frozen=True)
class Value:
    """What is known of one trait of one taxon, and where it is written (`origin`: a taxon or the group it inherits from)."""

    trait: str
    alternatives: tuple[Alternative, ...]
    origin: str
    written: str = ""
    """As the profile gives it, sources left out."""

    @property
    def source(self) -> tuple[str, ...]:
        """The keys of all sources, each once, in order."""
        keys = (key for a in self.alternatives for s in a.statements for key in s.source)
        return tuple(dict.fromkeys(keys))


@dataclass(frozen=True)
class _Phrase:
    word: str | None
    options: tuple[str, ...]


_FREQUENCY = re.compile(rf"(?P<word>{'|'.join([*FREQUENCY_WORDS, OFTEN])})\s+(?P<rest>.+)", re.DOTALL)


def _phrases(text: str) -> list[_Phrase]:
    """Split at commas; options joined by `or` share a frequency word, all those without a word are one phrase."""
    phrases: list[_Phrase] = []
    for piece in re.split(r"\s*[,;]\s*", re.sub(r"\s+", " ", text).strip()):
        match = _FREQUENCY.fullmatch(piece)
        word, rest = (match["word"], match["rest"]) if match else (None, piece)
        options = tuple(option.strip() for option in re.split(r"\s+or\s+", rest))
        if not all(options) or any(option in FREQUENCY_WORDS or option == OFTEN for option in options):
            raise ValueError(f"cannot read `{text}`; expected states or ranges, each perhaps with a frequency word")
        phrases.append(_Phrase(word, options))
    plain = tuple(option for phrase in phrases if phrase.word is None for option in phrase.options)
    return [*([_Phrase(None, plain)] if plain else []), *(phrase for phrase in phrases if phrase.word is not None)]


class UnknownState(ValueError):
    """A name that is no state of the trait; carries what is needed for a hint."""

    def __init__(self, name: str, trait: Trait) -> None:
        super().__init__(f"no state `{name}`; the states are {', '.join(trait.states)}")
        self.name = name
        self.known = tuple(trait.state_ids)


def _state(name: str, trait: Trait) -> str:
    if name not in trait.state_ids:
        raise UnknownState(name, trait)
    return trait.state_ids[name]


def states_named(option: str, trait: Trait) -> frozenset[str]:
    """The states of an option: one, or for an ordered trait `smooth to ridged` all between. Raises ValueError."""
    first, to, last = option.partition(" to ")
    if not to or option in trait.state_ids:
        return frozenset({_state(option, trait)})
    if trait.kind is not Kind.ORDERED:
        raise ValueError(f"`{option}` is a span of states, but the states of this trait have no order; write `or`")
    order = list(trait.states)
    low, high = order.index(_state(first.strip(), trait)), order.index(_state(last.strip(), trait))
    if high < low:
        raise ValueError(f"`{option}` runs backwards: `{last.strip()}` comes before `{first.strip()}`")
    return frozenset(order[low : high + 1])


def is_option(option: str, trait: Trait) -> bool:
    """Whether a text names states or numbers of a trait."""
    try:
        return bool(_number(option, trait) if trait.kind.is_numeric else states_named(option, trait))
    except ValueError:
        return False


def _number(option: str, trait: Trait) -> Range:
    span = convert(parse_range(option), trait.unit if trait.kind is Kind.MEASURE else "")
    if trait.kind is Kind.COUNT and any(b != b.to_integral_value() for b in span.bounds()):
        raise ValueError(f"`{option}` is not a whole number, and this trait is a count")
    return span


def _frequency(phrase: _Phrase, all_words: set[str | None]) -> Frequency:
    if phrase.word is None:
        beside_others = bool(all_words - {None, Frequency.NEVER.word})
        return Frequency.USUALLY if beside_others else Frequency.ALWAYS
    return Frequency.SOMETIMES if phrase.word == OFTEN else FREQUENCY_WORDS[phrase.word]


def statements_of(entry: Entry, trait: Trait) -> tuple[Statement, ...]:
    """The statements an entry stands for. Raises ValueError (UnknownState for a state) with a clause.

    A state without a word is always; without a word beside others that have one, it is usually.
    """
    phrases = _phrases(entry.is_)
    words = {phrase.word for phrase in phrases}
    where = Conditions(part=entry.part, stage=entry.stage, form=entry.form, region=entry.region)
    made: list[Statement] = []

    def add(frequency: Frequency, states: frozenset[str], span: Range | None, complete: bool = entry.complete) -> None:
        made.append(Statement(frequency, states, span, where, complete, entry.source, entry.note))

    for phrase in phrases:
        frequency = _frequency(phrase, words)
        numeric = [option for option in phrase.options if looks_like_range(option) and option not in trait.state_ids]
        if trait.kind.is_numeric:
            if frequency is Frequency.NEVER:
                raise ValueError("`never` goes with states, not with numbers; narrow the range instead")
            for option in phrase.options:
                add(frequency, frozenset(), _number(option, trait))
        elif numeric:
            raise ValueError(f"`{numeric[0]}` is a number, but this trait has states: {', '.join(trait.states)}")
        else:
            add(frequency, frozenset().union(*(states_named(option, trait) for option in phrase.options)), None)
    _refuse_contradictions(entry.is_, made)
    if rest := _implied_rest(entry.is_, phrases, made, trait):
        add(*rest, None, True)
    return tuple(made)


def _refuse_contradictions(text: str, made: list[Statement]) -> None:
    said = [s for s in made if s.frequency is not Frequency.NEVER]
    if len(said) > 1 and any(s.frequency is Frequency.ALWAYS and not s.span for s in said):
        raise ValueError(f"`{text}` says always and something else beside it")
    for first in made:
        for second in made:
            if first is not second and first.states & second.states:
                raise ValueError(f"`{text}` says two things of `{min(first.states & second.states)}`")


def _implied_rest(text: str, phrases: list[_Phrase], made: list[Statement], trait: Trait) -> tuple[Frequency, frozenset[str]] | None:
    """How often the other state of a two-state trait occurs when only a rarer one is named, and which it is; None if nothing is implied."""
    said = [s for s in made if s.frequency is not Frequency.NEVER]
    words = [phrase.word for phrase in phrases if phrase.word != Frequency.NEVER.word]
    most = max((s.frequency for s in said), default=Frequency.ALWAYS)
    if most > Frequency.SOMETIMES or (most is Frequency.SOMETIMES and len(words) > 1):
        return None
    rest = frozenset(trait.widest_states) - said[0].states
    if len(words) > 1 or len(trait.widest_states) != 2 or not said[0].states <= set(trait.widest_states):
        raise ValueError(f"`{text}` does not say what the other plants are; add the usual {'range' if trait.kind.is_numeric else 'state'}")
    if any(rest & s.states for s in made):
        raise ValueError(f"`{text}` says two things of `{min(rest)}`")
    return Frequency.SOMETIMES if words == [OFTEN] else Frequency.USUALLY, rest
