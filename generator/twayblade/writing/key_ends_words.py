"""The words at the ends of a key: what contradicts a name, and what is known of the key as a whole."""

from __future__ import annotations

from twayblade.knowledge.trait import Kind
from twayblade.knowledge.workspace import Workspace
from twayblade.reasoning.key_ends import Against
from twayblade.reasoning.key_report import KeyReport
from twayblade.reasoning.keys.measures import Arrivals
from twayblade.writing.phrases import capital, states_words, subject


def against_words(workspace: Workspace, against: Against) -> str:
    """What would contradict a name: `Not hemlock if the stem is bristly.`

    A harmful plant is still treated as one: each output says so once, where it says how it is used.
    """
    before, after = against_parts(workspace, against)
    return f"{before}{AGAIN if against.asked else ''}{after}"


AGAIN = ", looked at once more,"
"""What stands between the parts of a contradiction by something that was looked at on the way."""


def against_parts(workspace: Workspace, against: Against) -> tuple[str, str]:
    """The sentence of a contradiction, parted where AGAIN may stand."""
    trait, taxon = workspace.traits[against.trait], workspace.taxa[against.taxon]
    if against.states:
        condition = states_words(trait, against.states)
    elif trait.kind is Kind.COUNT:
        condition = trait.many if against.above == "0" else f"more than {against.above} {trait.one if against.above == '1' else trait.many}"
    else:
        condition = trait.phrase.format(f"more than {against.above} {trait.unit}")
    return capital(f"not {taxon.common_name} if {subject(trait, against.at)}"), f" {trait.verb} {condition}."


def report_words(report: KeyReport) -> tuple[str, ...]:
    """How long and how sure the key is."""
    best = (
        f"Of all keys to these {report.taxa} with the questions that may be asked, none costs less: that is proven."
        if not report.gap
        else f"No better key was found; the best could cost at most {report.gap:.0%} less."
    )
    length, short = report.length, report.shortest_length
    return (
        f"{best} The cost weighs effort, wrong turns, and above all wrong turns with a harmful plant.",
        f"A name is reached after {length.mean:.1f} couplets on average and {length.longest} at the most. "
        f"To tell so many names apart takes {length.entropy:.1f} questions of two answers at the least. "
        f"The expected cost is {length.cost:.1f}: 1 is the effort of one easy look, and wrong turns are weighed in.",
        f"Simulated beginners (seed {report.seed}) misread each sign as often as the traits say: {_shares(report.arrivals)}. "
        f"With the merely shortest key ({short.mean:.1f} couplets, one sign each): {_shares(report.shortest_arrivals)}. "
        "Such figures compare keys; they promise nothing of a reader.",
    )


def _shares(arrivals: Arrivals) -> str:
    return (
        f"{100 * arrivals.harmful_wrong:.1f} % of the harmful plants and {100 * arrivals.wrong:.1f} % of all "
        f"arrive at another name, after {arrivals.steps:.1f} couplets"
    )
