"""Words for values: predicates, sentences and leads, all made from the phrases that traits and states carry."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date

from twayblade.knowledge.frequency import Frequency
from twayblade.knowledge.numbers import Interval, Numbers, Range
from twayblade.knowledge.season import MONTHS, YEAR, describe_day, month_and_day
from twayblade.knowledge.text import MEMORY
from twayblade.knowledge.trait import Kind, Trait
from twayblade.knowledge.values import Statement
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.compare import Difference, may_lack_organ
from twayblade.reasoning.relation import Relation
from twayblade.reasoning.spread import Context, applicable, spreads, weighed

_BE = ("is", "are")
_SINGULAR = ("is", "has")


def listed(items: Iterable[str], joint: str = "and") -> str:
    """`a`, `a and b`, `a, b and c`; semicolons where an item holds a comma itself."""
    *firsts, last = list(items) or [""]
    if any("," in item for item in firsts):
        return f"{'; '.join(firsts)}; {joint} {last}"
    return f"{', '.join(firsts)} {joint} {last}" if firsts else last


def capital(text: str) -> str:
    """The text with its first letter large."""
    return text[:1].upper() + text[1:]


def sentence(text: str) -> str:
    """The text as a sentence: a large first letter and a full stop."""
    text = capital(" ".join(text.split()))
    return text if text[-1:] in ".!?" else f"{text}."


def date_words(on: date) -> str:
    """`7 June 2026`."""
    return f"{on.day} {MONTHS[on.month - 1]} {on.year}"


def subject(trait: Trait, at: Context) -> str:
    """The subject of a trait's sentences at a part of the organ."""
    return trait.parts[at.part] if at.part else trait.subject


def pronoun(trait: Trait) -> str:
    """The pronoun for a trait's subject."""
    return "it" if trait.verb in _SINGULAR else "they"


def states_words(trait: Trait, states: Iterable[str]) -> str:
    """States in words: neighbours of an order as a span, others joined by `or`."""
    order = list(trait.states)
    places = sorted(order.index(state) for state in states)
    phrases = [trait.states[order[place]].phrase for place in places]
    if trait.kind is Kind.ORDERED and len(places) > 1 and places[-1] - places[0] == len(places) - 1:
        return f"{phrases[0]} to {phrases[-1]}"
    return listed(phrases, "or")


def interval_words(trait: Trait, interval: Interval) -> str:
    """A span of numbers in the trait's words: `2.5–4 mm long`, `no bracts`, `up to 2 cm thick`."""
    low, high = interval.low, interval.high
    if low is not None and high is not None:
        span = f"{low.normalize():f}" if low == high else f"{low.normalize():f}–{high.normalize():f}"
    elif high is not None:
        span = f"up to {high.normalize():f}"
    elif low is not None:
        span = f"{low.normalize():f} or more"
    else:
        span = "any number of" if trait.kind is Kind.COUNT else "of any size"
    if trait.kind is Kind.COUNT:
        if low == high == 0:
            return f"no {trait.many}"
        if low == 0 and high is not None:
            span = f"at most {high.normalize():f}"
        elif low == 0:
            span = "any number of"
        return f"{span} {trait.one if high == 1 and low in (0, 1) else trait.many}"
    return trait.phrase.format(f"{span} {trait.unit}")


def _with_adverb(trait: Trait, adverb: str, rest: str) -> str:
    if not adverb:
        return f"{trait.verb} {rest}"
    return f"{trait.verb} {adverb} {rest}" if trait.verb in _BE else f"{adverb} {trait.verb} {rest}"


def _spans_words(trait: Trait, spans: list[Range]) -> str:
    return listed((interval_words(trait, span.inner) for span in spans), "or")


def predicate(workspace: Workspace, taxon: Taxon, trait_id: str, at: Context, region: str | None = None) -> str:
    """What the taxon's value says, as verb and rest: `is usually hairless, rarely bristly`.

    Where sources disagree, all sides are told.
    """
    trait, value = workspace.traits[trait_id], taxon.values[trait_id]
    sides = []
    for alternative in value.alternatives:
        statements = [replace(s, frequency=weighed(s, taxon)) for s in applicable(alternative, at, region or workspace.home_region)]
        if statements:
            doubt = ", which is doubted" if alternative.doubted else ""
            sides.append(_statements_words(workspace, taxon, trait, statements) + doubt)
    return " (some sources), or ".join(sides) + (" (others)" if len(sides) > 1 else "")


def _statements_words(workspace: Workspace, taxon: Taxon, trait: Trait, statements: list[Statement]) -> str:
    said = sorted((s for s in statements if s.frequency is not Frequency.NEVER), key=lambda s: -s.frequency)
    if not said:
        never = states_words(trait, {state for s in statements for state in s.states})
        return _with_adverb(trait, "never", never)
    tiers = {f: [s for s in said if s.frequency is f] for f in dict.fromkeys(s.frequency for s in said)}
    top, *others = tiers
    if trait.kind.is_numeric:
        return _numbers_words(trait, tiers)
    states = {state for s in tiers[top] for state in s.states}
    if top is Frequency.SOMETIMES and not others:
        return _with_adverb(
            trait,
            "sometimes",
            listed(("sometimes " * bool(n) + trait.states[s].phrase for n, s in enumerate(sorted(states, key=list(trait.states).index)))),
        )
    main = _with_adverb(trait, "" if top is Frequency.ALWAYS else top.word, states_words(trait, states))
    rest = [f"{f.word} {states_words(trait, {state for s in tiers[f] for state in s.states})}" for f in others]
    return ", ".join([main, *rest])


def _numbers_words(trait: Trait, tiers: dict[Frequency, list[Statement]]) -> str:
    top, *others = tiers
    spans = [s.span for s in tiers[top] if s.span]
    extremes = [s for s in spans if s.has_extremes]
    adverb = "usually" if extremes or top is Frequency.USUALLY else ("" if top is Frequency.ALWAYS else top.word)
    main = _with_adverb(trait, adverb, _spans_words(trait, spans))
    rest = [f"{f.word} {_spans_words(trait, [s.span for s in tiers[f] if s.span])}" for f in others]
    if extremes and len(spans) == 1:
        rest.insert(0, _extremes_words(trait, spans[0]))
    return ", ".join([main, *(r for r in rest if r)])


def _extremes_words(trait: Trait, span: Range) -> str:
    unit = f" {trait.unit}" if trait.unit else ""
    found = []
    if span.outer_low != span.low:
        found.append("sometimes fewer or less" if span.outer_low is None else f"at the least {span.outer_low.normalize():f}{unit}")
    if span.outer_high != span.high:
        found.append("sometimes more" if span.outer_high is None else f"at the most {span.outer_high.normalize():f}{unit}")
    return " and ".join(found)


def clause(workspace: Workspace, taxon: Taxon, trait_id: str, at: Context, region: str | None = None) -> str:
    """What is said of one taxon, without a full stop: `the stem is deeply furrowed`."""
    return f"{subject(workspace.traits[trait_id], at)} {predicate(workspace, taxon, trait_id, at, region)}"


def form_sentence(workspace: Workspace, taxon: Taxon, trait_id: str, form: str, at: Context, region: str | None = None) -> str:
    """A whole sentence about one form of a taxon: `In the long-styled form the tip of the style is high.`"""
    trait = workspace.traits[trait_id]
    said = (s for a in taxon.values[trait_id].alternatives for s in applicable(a, at, region or workspace.home_region))
    words = _statements_words(workspace, taxon, trait, [s for s in said if s.where.form == form])
    return sentence(f"in the {taxon.profile.forms[form].name} form {subject(trait, at)} {words}")


def sign_sentence(workspace: Workspace, taxon: Taxon, trait_id: str, at: Context, region: str | None = None) -> str:
    """What to look for as a sign of a taxon: its usual condition alone, however often it occurs."""
    trait = workspace.traits[trait_id]
    statements = [s for a in taxon.values[trait_id].alternatives for s in applicable(a, at, region or workspace.home_region)]
    weights = [weighed(s, taxon) for s in statements]
    top = [s for s, weight in zip(statements, weights, strict=True) if weight is max(weights)]
    if trait.kind.is_numeric:
        words = listed(dict.fromkeys(interval_words(trait, s.span.inner) for s in top if s.span), "or")
    else:
        words = states_words(trait, {state for s in top for state in s.states})
    return sentence(f"{subject(trait, at)} {trait.verb} {words}")


def _contrast_predicate(workspace: Workspace, taxon: Taxon, difference: Difference, region: str | None) -> str:
    """The predicate of one side. A number that lies clear with all its extremes is told whole, without `usually`."""
    trait = workspace.traits[difference.trait]
    if trait.kind.is_numeric and difference.relation is Relation.SEPARATE:
        found = spreads(workspace, taxon, taxon.values[difference.trait], difference.at, region)
        if len(found) == 1 and isinstance(found[0].all, Numbers):
            return f"{trait.verb} {interval_words(trait, found[0].all.hull())}"
    lacking = ", though some plants have none" if trait.needs and may_lack_organ(workspace, taxon, trait, region) else ""
    return predicate(workspace, taxon, difference.trait, difference.at, region) + lacking


def contrast_words(workspace: Workspace, difference: Difference, first: str | None = None, region: str | None = None) -> dict[str, str]:
    """The pieces of both sides of a difference: names (first, second), subject and pronoun, what is said of each (own, others)."""
    trait = workspace.traits[difference.trait]
    ids = (difference.first, difference.second)
    leading = first or ids[0]
    following = ids[1] if leading == ids[0] else ids[0]
    a, b = workspace.taxa[leading], workspace.taxa[following]
    return {
        "first": a.common_name,
        "second": b.common_name,
        "subject": subject(trait, difference.at),
        "pronoun": pronoun(trait),
        "own": _contrast_predicate(workspace, a, difference, region),
        "others": _contrast_predicate(workspace, b, difference, region),
    }


def contrast_sentence(workspace: Workspace, difference: Difference, first: str | None = None, region: str | None = None) -> str:
    """Both sides of a difference, parallel, the same organ first: `In A the stem is ...; in B it is ...`."""
    return CONTRAST.format(**contrast_words(workspace, difference, first, region))


def useless_sentence(workspace: Workspace, difference: Difference, region: str | None = None) -> str:
    """A tempting character that does not tell two taxa apart, and why: `Height: one can be like the other; ...`."""
    trait = workspace.traits[difference.trait]
    first, second = (workspace.taxa[id_] for id_ in (difference.first, difference.second))
    own, others = (predicate(workspace, taxon, difference.trait, difference.at, region) for taxon in (first, second))
    return (USELESS_ALIKE if own == others else USELESS).format(
        name=capital(trait.name),
        why=why_useless(difference),
        subject=subject(trait, difference.at),
        pronoun=pronoun(trait),
        first=first.common_name,
        second=second.common_name,
        own=own,
        others=others,
    )


CONTRAST = "In {first} {subject} {own}; in {second} {pronoun} {others}."
USELESS = "{name}: {why}; in {first} {subject} {own}, in {second} {pronoun} {others}."
USELESS_ALIKE = "{name}: {why}; {subject} {own} in both."
"""The sentences of a difference, which the scripts of the site fill in as well."""

_WHY_USELESS = {Relation.SAME: "both are alike", Relation.NESTED: "one can be like the other", Relation.TENDENCY: "it is a tendency only"}


def why_useless(difference: Difference) -> str:
    """Why a difference does not tell its taxa apart."""
    return "sources disagree" if difference.disputed else _WHY_USELESS.get(difference.relation, "they overlap")


MEMORY_ONLY = "from memory only for {names}"


def is_from_memory(taxon: Taxon, trait_id: str) -> bool:
    """Whether what is recorded of a trait of a taxon is known from memory only."""
    return set(taxon.values[trait_id].source) == {MEMORY}


def rests_on_memory(workspace: Workspace, difference: Difference) -> str:
    """A remark, if a side's value is known from memory only; else nothing."""
    taxa = [workspace.taxa[id_] for id_ in (difference.first, difference.second)]
    recalled = [t.common_name for t in taxa if is_from_memory(t, difference.trait)]
    return MEMORY_ONLY.format(names=listed(recalled)) if recalled else ""


def days_words(found: tuple[tuple[int, int], ...]) -> str:
    """Runs of days in words: `from mid June to August`, `all year`, `at no time`."""
    if not found:
        return "at no time"
    if found == ((0, YEAR - 1),):
        return "all year"
    return listed(_run_words(start, end) for start, end in found)


def _run_words(start: int, end: int) -> str:
    first, last = _start_words(start), _end_words(end)
    if first != last and start <= end and month_and_day(start)[0] == month_and_day(end)[0]:  # a part of one month
        first, last = describe_day(start), describe_day(end)
    return f"in {first}" if first == last else f"from {first} to {last}"


def _start_words(day: int) -> str:
    month, number = month_and_day(day)
    return MONTHS[month - 1] if number == 1 else describe_day(day)


def _end_words(day: int) -> str:
    month, _ = month_and_day(day)
    ends_month = month_and_day(day + 1)[1] == 1
    return MONTHS[month - 1] if ends_month else describe_day(day)
