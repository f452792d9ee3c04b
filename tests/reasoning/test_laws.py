"""Laws of the algebra, over random values of every kind: first of all, that it agrees with a judge who enumerates individuals."""

from __future__ import annotations

import random
import re
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from tests.making import number_trait, states_trait, taxon, workspace
from tests.reasoning.enumerator import Kind, SmallTrait, relations, verdict

from twayblade.knowledge.numbers import Interval, parse_range
from twayblade.knowledge.occasion import Occasion
from twayblade.knowledge.profile import Ground
from twayblade.knowledge.season import YEAR, Window, day_of
from twayblade.knowledge.trait import Trait
from twayblade.knowledge.values import Alternative, Disagreement, Entry, Value, statements_of
from twayblade.knowledge.workspace import Taxon, Workspace
from twayblade.reasoning.claims import Verdict, judge
from twayblade.reasoning.compare import Settling, differences, directions
from twayblade.reasoning.seeing import difference_bars, phase_on, present, shared_days, trait_seen

Written = list[dict[str, Any]]
PARTS = {"front": "the front", "back": "the back"}
SYNONYMS = {"unmarked": "plain", "dotted": "spotted", "banded": "striped"}


def _trait(kind: str, *states: str, kinds: dict[str, str] | None = None, synonyms: dict[str, str] | None = None) -> tuple[Trait, SmallTrait]:
    small = SmallTrait(kind, states, kinds or {}, synonyms or {})
    if not states:
        return number_trait(kind, parts=PARTS), small
    made = states_trait(*states, kind=kind, parts=PARTS)
    also = {s: [n for n, named in small.also.items() if named == s] for s in states}
    update = {n: {**s.model_dump(), "kind_of": small.kind_of.get(n), "also": also[n]} for n, s in made.states.items()}
    return Trait.model_validate({**made.model_dump(), "states": update}), small


TRAITS = {
    "mark": _trait("states", "plain", "spotted", "striped", "blotched", synonyms=SYNONYMS),
    "pair": _trait("states", "plain", "spotted", synonyms={"unmarked": "plain"}),
    "tooth": _trait("states", "entire", "toothed", "fine", "coarse", kinds={"fine": "toothed", "coarse": "toothed"}),
    "relief": _trait("ordered", "smooth", "ribbed", "ridged", "furrowed"),
    "size": _trait("measure"),
    "spots": _trait("count"),
}
FORMS = ("pale", "tall")


@dataclass(frozen=True)
class Pair:
    """Two taxa by one trait, as written, and a claim that tells them apart."""

    trait: str
    a: Written
    b: Written
    forms: dict[str, str]
    claim: dict[str, Any] = field(default_factory=dict)


def readable(trait_id: str, text: str) -> bool:
    try:
        return bool(statements_of(Entry(is_=text), TRAITS[trait_id][0]))
    except ValueError:
        return False


def _range(choose: random.Random, unit: str) -> str:
    low, more, below, above = choose.randint(0, 12), choose.randint(0, 6), choose.randint(0, 3), choose.randint(0, 2)
    low = min(low, 6) if more > 3 else low
    high = low + more
    least = f"({low - below}-)" if 0 < below <= low else ""
    most = f"(-{high + above})" if above else ""
    odd = [f"-{high}(-?)", f"{low}-?", f"(?-){low}-{high}", f"to {high}", f"about {low}"]
    return choose.choice([*[f"{least}{low}-{high}{most}"] * 7, *odd]) + unit


def _option(choose: random.Random, trait_id: str) -> str:
    small = TRAITS[trait_id][1]
    if small.is_numeric:
        return _range(choose, " mm" if small.kind == "measure" else "")
    if small.kind == "ordered" and choose.random() < 0.3:
        return " to ".join(sorted(choose.choices(small.states, k=2), key=small.states.index))
    return choose.choice([*small.states, *small.also])


def _text(choose: random.Random, trait_id: str) -> str:
    words = ["", "", "usually ", "usually ", "sometimes ", "rarely ", "often ", "always ", "never "]
    pieces = [" or ".join(_option(choose, trait_id) for _ in range(choose.choice([1, 1, 2]))) for _ in range(choose.randint(1, 3))]
    return ", ".join(choose.choice(words) + piece for piece in pieces)


def _names_once(text: str) -> bool:
    options = re.split(", | or ", re.sub("(usually|sometimes|rarely|often|always|never) ", "", text))
    return len(options) == len(set(options))


def _pool(trait_id: str, make: Callable[[random.Random, str], str], size: int) -> list[str]:
    """Readable texts of a trait, the shortest first so that Hypothesis shrinks to them."""
    choose = random.Random(trait_id)
    texts = {text for _ in range(size) if _names_once(text := make(choose, trait_id)) and readable(trait_id, text)}
    return sorted(texts, key=lambda text: (len(text), text))


TEXTS = {trait_id: _pool(trait_id, _text, 2500) for trait_id in TRAITS}
OPTIONS = {trait_id: _pool(trait_id, _option, 80) for trait_id in TRAITS}


def entries(trait_id: str) -> st.SearchStrategy[dict[str, Any]]:
    where = {
        "part": st.sampled_from([None, None, None, *PARTS]),
        "stage": st.sampled_from([None, None, None, "flower"]),
        "form": st.sampled_from([None, None, *FORMS]),
        "complete": st.sampled_from([None, None, True]),
    }
    return st.fixed_dictionaries({"is": st.sampled_from(TEXTS[trait_id]), **where}).map(lambda d: {k: v for k, v in d.items() if v is not None})


@st.composite
def values(draw: st.DrawFn, trait_id: str) -> Written:
    written = [{**draw(entries(trait_id)), "form": None}] if draw(st.booleans()) else []
    written += draw(st.lists(entries(trait_id), min_size=0 if written else 1, max_size=2))
    if draw(st.integers(0, 3)) == 0:
        sides = draw(st.lists(entries(trait_id), min_size=2, max_size=2))
        written.append({"alternatives": [{**s, **({"doubted": "once"} if draw(st.integers(0, 2)) == 0 else {})} for s in sides]})
    return written


@st.composite
def pairs(draw: st.DrawFn, claims: bool = True, only: tuple[str, ...] = tuple(TRAITS)) -> Pair:
    trait_id = draw(st.sampled_from(only))
    frequency = st.sampled_from(["always", "usually", "sometimes", "sometimes", "rarely", "rarely", "never"])
    forms = {form: draw(frequency) for form in FORMS}
    claim: dict[str, Any] = {"how": draw(st.sampled_from(["always", "usually"]))}
    if claims:
        claim |= {side: draw(st.lists(st.sampled_from(OPTIONS[trait_id]), max_size=2, unique=True)) for side in ("this", "other")}
        claim["part"] = draw(st.sampled_from([None, None, *PARTS]))
    return Pair(trait_id, draw(values(trait_id)), draw(values(trait_id)), forms, claim)


def compiled(trait_id: str, written: Written, trait: Trait | None = None) -> Value:
    """A value as reading makes it: undisputed entries are part of each alternative."""
    made = trait or TRAITS[trait_id][0]
    plain: tuple[Any, ...] = ()
    sides: list[Alternative] = []
    for item in written:
        if "alternatives" in item:
            disagreement = Disagreement.model_validate(item)
            sides += [Alternative(statements_of(e, made), e.doubted) for e in disagreement.alternatives]
        else:
            plain += statements_of(Entry.model_validate(item), made)
    alternatives = [Alternative(plain + side.statements, side.doubted) for side in sides] or [Alternative(plain)]
    return Value(trait_id, tuple(alternatives), "made")


def plant(id_: str, trait_id: str, written: Written | None, forms: dict[str, str], trait: Trait | None = None) -> Taxon:
    described = {form: {"name": form, "frequency": frequency} for form, frequency in forms.items()}
    return taxon(id_, {} if written is None else {trait_id: compiled(trait_id, written, trait)}, forms=described)


def made(pair: Pair, trait: Trait | None = None) -> Workspace:
    plants = (plant(id_, pair.trait, w, pair.forms, trait) for id_, w in (("a", pair.a), ("b", pair.b)))
    return workspace({pair.trait: trait or TRAITS[pair.trait][0]}, *plants)


def judged(pair: Pair, trait: Trait | None = None) -> Verdict:
    known = made(pair, trait)
    return judge(known, known.taxa["a"], known.taxa["b"], Ground.model_validate({"trait": pair.trait, **pair.claim})).verdict


def related(pair: Pair) -> dict[tuple[str | None, str | None], tuple[str, bool]]:
    known = made(pair)
    found = differences(known, known.taxa["a"], known.taxa["b"], pair.trait)
    return {(d.at.part, d.at.stage): (d.relation.value, d.disputed) for d in found}


def kinds(pair: Pair) -> tuple[Kind, Kind]:
    small = TRAITS[pair.trait][1]
    return Kind(small, pair.a, pair.forms), Kind(small, pair.b, pair.forms)


law = settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])


# -- the judge ------------------------------------------------------------------------------------------------
@given(pairs(claims=False))
@law
def test_relations_are_those_of_the_individuals(pair: Pair) -> None:
    assert related(pair) == relations(*kinds(pair))


@given(pairs())
@law
def test_verdicts_are_those_of_the_individuals(pair: Pair) -> None:
    claim = {name: given for name, given in pair.claim.items() if given}
    assert judged(pair) == verdict(*kinds(pair), **claim)


# -- laws of the code alone -----------------------------------------------------------------------------------
@given(pairs())
@law
def test_it_does_not_matter_who_is_told_from_whom(pair: Pair) -> None:
    claim = {**pair.claim, "this": pair.claim["other"], "other": pair.claim["this"]}
    turned = replace(pair, a=pair.b, b=pair.a, claim=claim)
    assert related(turned) == related(pair)
    assert judged(turned) == judged(pair)


def _rewritten(written: Written, change: Callable[[str], str]) -> Written:
    def side(entry: dict[str, Any]) -> dict[str, Any]:
        if "alternatives" in entry:
            return {"alternatives": [side(e) for e in entry["alternatives"]]}
        return {**entry, "is": change(entry["is"])}

    return [side(entry) for entry in written]


def _all_rewritten(pair: Pair, change: Callable[[str], str]) -> Pair:
    claim = {**pair.claim, **{side: [change(o) for o in pair.claim[side]] for side in ("this", "other")}}
    return replace(pair, a=_rewritten(pair.a, change), b=_rewritten(pair.b, change), claim=claim)


@given(pairs(only=("size",)), st.sampled_from([("cm", Decimal("0.1")), ("m", Decimal("0.001")), ("µm", Decimal(1000))]))
@law
def test_a_change_of_unit_changes_nothing(pair: Pair, unit: tuple[str, Decimal]) -> None:
    def change(text: str) -> str:
        return re.sub(r"\d+", lambda m: f"{Decimal(m[0]) * unit[1]:f}", text).replace(" mm", f" {unit[0]}")

    changed = _all_rewritten(pair, change)
    assert judged(changed) == judged(pair)
    assert related(replace(pair, a=changed.a)) == related(pair)


@given(pairs(only=("mark", "pair")))
@law
def test_a_synonym_is_the_state_it_names(pair: Pair) -> None:
    names = TRAITS[pair.trait][1].also
    to_state = _all_rewritten(pair, lambda text: re.sub(r"\w+", lambda m: names.get(m[0], m[0]), text))
    to_synonym = _all_rewritten(to_state, lambda text: re.sub(r"\w+", lambda m: next((n for n, s in names.items() if s == m[0]), m[0]), text))
    assert judged(to_state) == judged(to_synonym) == judged(pair)


@given(pairs(), st.randoms(use_true_random=False))
@law
def test_order_does_not_matter(pair: Pair, choose: random.Random) -> None:
    def shuffled(items: list[Any]) -> list[Any]:
        return choose.sample(items, len(items))

    def change(text: str) -> str:
        pieces = []
        for piece in shuffled(text.split(", ")):
            word, _, rest = piece.partition(" ")
            told = word in {"always", "usually", "sometimes", "often", "rarely", "never"}
            pieces.append(word * told + " " * told + " or ".join(shuffled((rest if told else piece).split(" or "))))
        return ", ".join(pieces)

    def keys(entry: dict[str, Any]) -> dict[str, Any]:
        if "alternatives" in entry:
            return {"alternatives": [keys(e) for e in shuffled(entry["alternatives"])]}
        return dict(shuffled(list(entry.items())))

    changed = _all_rewritten(pair, change)
    claim = {k: shuffled(v) if isinstance(v, list) else v for k, v in changed.claim.items()}
    a, b = ([keys(entry) for entry in shuffled(written)] for written in (changed.a, changed.b))
    trait = TRAITS[pair.trait][0]
    states = dict(shuffled(list(trait.states.items()))) if pair.trait in ("mark", "pair", "tooth") else trait.states
    assert judged(replace(changed, a=a, b=b, claim=claim), trait.model_copy(update={"states": states})) == judged(pair)


LONE = r"(never [^,]*, )*(sometimes|often|rarely) [^,]*(, never [^,]*)*"


def strength(found: Verdict) -> int:
    """How much a verdict lets one say: nothing, something weaker, usually, always."""
    return max(0, found.rank - Verdict.DOES_NOT_SEPARATE.rank)


@given(pairs(), st.data())
@law
def test_a_rare_state_never_strengthens(pair: Pair, data: st.DataObject) -> None:
    """Of a value that leaves nothing open and implies no other state, and of a claim that is not wrong: it may name the new state."""
    entry = {k: v for k, v in pair.a[0].items() if k not in ("form", "alternatives")} or {"is": data.draw(st.sampled_from(TEXTS[pair.trait]))}
    added = f"{entry.get('is')}, rarely {data.draw(st.sampled_from(OPTIONS[pair.trait]))}"
    assume(readable(pair.trait, added) and not re.fullmatch(LONE, entry["is"]))
    before = replace(pair, a=[{**entry, "complete": True}])
    after = replace(pair, a=[{**entry, "is": added, "complete": True}])
    was = judged(before)
    assert was is Verdict.WRONG or strength(judged(after)) <= strength(was)


@given(pairs(), st.data())
@law
def test_less_data_never_makes_a_claim_hold(pair: Pair, data: st.DataObject) -> None:
    was = judged(pair)
    known = made(pair)
    for values_of in ({"a"}, {"b"}, set[str]()):
        less = workspace(known.traits, *(t if t.id in values_of else taxon(t.id, {}) for t in known.taxa.values()))
        verdict_of_less = judge(less, less.taxa["a"], less.taxa["b"], Ground.model_validate({"trait": pair.trait, **pair.claim})).verdict
        assert verdict_of_less in (Verdict.NO_DATA, Verdict.WRONG)
    if was is Verdict.NO_DATA and len(pair.a) > 1:
        gone = data.draw(st.integers(0, len(pair.a) - 1))
        assert not judged(replace(pair, a=pair.a[:gone] + pair.a[gone + 1 :])).is_good


@given(pairs(), st.data())
@law
def test_a_further_alternative_never_strengthens(pair: Pair, data: st.DataObject) -> None:
    """A claim is not wrong any more if the further source says what it says; and no data is not weaker than data."""
    one, further = data.draw(entries(pair.trait)), data.draw(entries(pair.trait))
    doubted = data.draw(st.sampled_from([{}, {"doubted": "once"}]))
    plain = [entry for entry in pair.a if "alternatives" not in entry]
    before = replace(pair, a=[*plain, one])
    after = replace(pair, a=[*plain, {"alternatives": [one, {**further, **doubted}]}])
    was = judged(before)
    assert was in (Verdict.WRONG, Verdict.NO_DATA) or strength(judged(after)) <= strength(was)


@given(pairs(claims=False), st.sampled_from(["usually", "sometimes", "rarely"]), st.data())
@law
def test_a_form_weighs_no_more_than_its_frequency(pair: Pair, word: str, data: st.DataObject) -> None:
    """What all plants of a form show is what the taxon shows as often as the form occurs."""
    option, other = (data.draw(st.sampled_from(OPTIONS[pair.trait])) for _ in range(2))
    assume(readable(pair.trait, f"usually {option}, {word} {other}"))
    as_form = replace(pair, a=[{"is": f"usually {option}"}, {"is": other, "form": "pale"}], forms={**pair.forms, "pale": word})
    as_word = replace(as_form, a=[{"is": f"usually {option}, {word} {other}"}])
    assert related(as_form) == related(as_word)
    alone = replace(as_form, a=[{"is": other, "form": "pale"}])
    assert not judged(alone).is_good or word == "usually"
    assert judged(alone) is not Verdict.HOLDS or judged(replace(alone, a=[{"is": f"usually {other}"}])) is Verdict.HOLDS


@given(pairs(claims=False))
@law
def test_what_settles_is_shown_by_no_individual_of_the_other(pair: Pair) -> None:
    known = made(pair)
    small = TRAITS[pair.trait][1]
    of_a, of_b = kinds(pair)
    for d in differences(known, known.taxa["a"], known.taxa["b"], pair.trait):
        for direction in directions(known, d):
            if direction.settles is not Settling.OPEN:
                others = (of_b if direction.taxon == "a" else of_a).individuals(d.at.part, d.at.stage)
                named = _between(direction.state) & small.everything if small.is_numeric else small.below(direction.state)
                never = {"usual", "lesser"} | ({"rare"} if direction.settles is Settling.SETTLES else set())
                assert all(shown[c] not in never for shown in others for c in named & set(shown))


def _between(text: str) -> set[Any]:
    span: Interval = parse_range(text).inner
    return {n for n in TRAITS["size"][1].everything if (span.low is None or n >= span.low) and (span.high is None or n <= span.high)}  # type: ignore[operator]


def test_of_two_usual_ranges_what_lies_between_settles_nothing() -> None:
    found = made(Pair("spots", [{"is": "3 or 8"}], [{"is": "5"}], {}))
    (d,) = differences(found, found.taxa["a"], found.taxa["b"], "spots")
    assert [x.state for x in directions(found, d) if x.taxon == "a"] == ["3", "8"]


# -- single findings of the judge -----------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("trait", "a", "b", "forms", "expected"),
    [
        ("mark", [{"is": "plain", "form": "pale"}], [{"is": "spotted"}], {"pale": "rarely"}, "no-data"),
        ("mark", [{"is": "plain", "form": "pale"}], [{"is": "spotted"}], {"pale": "usually"}, "overstated"),
        ("mark", [{"is": "plain", "form": "pale"}], [{"is": "spotted"}], {"pale": "never"}, "no-data"),
        ("mark", [{"is": "plain"}, {"is": "striped", "form": "pale", "part": "front"}], [{"is": "spotted"}], {"pale": "rarely"}, "holds"),
        ("mark", [{"is": "plain"}, {"is": "spotted", "form": "pale", "part": "front"}], [{"is": "spotted"}], {"pale": "rarely"}, "overstated"),
        ("mark", [{"is": "plain"}, {"is": "usually striped", "form": "pale"}], [{"is": "spotted"}], {"pale": "rarely"}, "overstated"),
        ("mark", [{"alternatives": [{"is": "plain"}, {"is": "usually striped", "doubted": "old"}]}], [{"is": "spotted"}], {}, "overstated"),
        ("pair", [{"is": "never plain or spotted"}], [{"is": "spotted"}], {}, "no-data"),
        ("tooth", [{"is": "toothed, never fine"}], [{"is": "fine"}], {}, "holds"),
        ("tooth", [{"is": "never fine, sometimes toothed"}], [{"is": "coarse"}], {}, "overstated"),
    ],
)
def test_what_the_judge_found(trait: str, a: Written, b: Written, forms: dict[str, str], expected: str) -> None:
    pair = Pair(trait, a, b, forms)
    assert judged(pair) == verdict(*kinds(pair)) == expected


def test_a_claim_about_a_part_looks_at_that_part_alone() -> None:
    pair = Pair("mark", [{"is": "plain"}, {"is": "spotted", "part": "front"}], [{"is": "plain"}], {}, {"part": "front"})
    assert judged(pair) == verdict(*kinds(pair), part="front") == "holds"


def test_each_claimed_range_is_held_against_the_limits_by_itself() -> None:
    pair = Pair("size", [{"alternatives": [{"is": "2-4 mm"}, {"is": "6-8 mm"}]}], [{"is": "10-12 mm"}], {}, {"this": ["2-4 mm", "6-8 mm"]})
    assert judged(pair) == "holds"


def test_states_without_a_word_are_one_phrase_wherever_they_stand() -> None:
    texts = ("plain, never spotted, striped", "plain or striped, never spotted")
    apart, together = ([(s.frequency, s.states) for s in statements_of(Entry(is_=text), TRAITS["mark"][0])] for text in texts)
    assert apart == together


@pytest.mark.parametrize("text", ["rarely 3-5", "sometimes 3 or 5", "rarely 3, rarely 5"])
def test_a_number_that_is_only_sometimes_or_rarely_so_is_incomplete(text: str) -> None:
    with pytest.raises(ValueError, match="add the usual range"):
        statements_of(Entry(is_=text), TRAITS["spots"][0])


@pytest.mark.parametrize("text", ["rarely plain, rarely spotted", "never plain, rarely spotted"])
def test_two_states_that_cannot_both_be_rare(text: str) -> None:
    with pytest.raises(ValueError, match=r"does not say what|says two things"):
        statements_of(Entry(is_=text), TRAITS["pair"][0])


# -- the year -------------------------------------------------------------------------------------------------
WINDOW = st.tuples(*[st.integers(0, 90)] * 3, st.integers(0, YEAR - 1)).map(
    lambda t: Window(*((t[3] + s) % YEAR for s in (0, t[0], t[0] + t[1], sum(t[:3]))))
)
TURNS = st.sampled_from([YEAR, YEAR // 2, 1, 100])
YEARS = st.dates(date(2023, 1, 1), date(2027, 12, 31))


@given(WINDOW, WINDOW, st.integers(0, YEAR - 1), TURNS)
@law
def test_turning_the_year_turns_what_is_seen_and_asked(one: Window, two: Window, day: int, turn: int) -> None:
    """Half a year turns a walk to the other hemisphere, a whole one to the next year: only the dates change."""
    mark = states_trait("plain", "spotted", stages=["flower"])

    def turned(by: int) -> Workspace:
        plants = [
            taxon(id_, {"mark": compiled("mark", [{"is": said}], mark)}, seasons={"flower": [{"when": window.shifted(by)}]})
            for id_, said, window in (("a", "plain", one), ("b", "spotted", two))
        ]
        return workspace({"mark": mark}, *plants)

    def seen(known: Workspace, on: date) -> list[object]:
        plants = tuple(known.taxa.values())
        (d,) = differences(known, *plants, "mark")
        phases = [(trait_seen(known, t, mark, on, None), present(known, t, on, None), phase_on(known, t, "flower", day_of(on), None)) for t in plants]
        return [*phases, difference_bars(known, d, Occasion(on, taxa=("a", "b"))), d.relation]

    first, then = date(2024, 1, 1) + timedelta(day), date(2024, 1, 1) + timedelta((day + turn) % YEAR)
    assert seen(turned(0), first) == seen(turned(turn), then)
    days = [shared_days(known, tuple(known.taxa.values()), ("flower",), None) for known in (turned(0), turned(turn))]
    assert {(d + turn) % YEAR for d in range(YEAR) if days[0] >> d & 1} == {d for d in range(YEAR) if days[1] >> d & 1}


@given(WINDOW, YEARS)
@law
def test_a_date_is_the_same_in_every_year(window: Window, on: date) -> None:
    assume((on.month, on.day) != (2, 29))
    assert window.phase(day_of(on)) == window.phase(day_of(on.replace(year=on.year + 1)))
