"""The catalogue of rules: every problem the tool can report, its severity, and its page."""

from __future__ import annotations

from dataclasses import dataclass
from importlib.resources import files

from twayblade.knowledge.problem import Severity


@dataclass(frozen=True)
class Rule:
    """A rule: its id, how severe a breach is, and what it says in one line."""

    id: str
    severity: Severity
    title: str

    @property
    def page(self) -> str:
        """Its page, in Markdown: what it means, why it matters on a walk, an example that fails, the example mended."""
        return (files("twayblade.knowledge") / "rule_pages" / f"{self.id}.md").read_text(encoding="utf-8")


def _rules(severity: Severity, titles: dict[str, str]) -> dict[str, Rule]:
    return {id_: Rule(id_, severity, title) for id_, title in titles.items()}


RULES: dict[str, Rule] = {
    **_rules(
        Severity.ERROR,
        {
            "file-missing": "a file that must be there is not",
            "file-unreadable": "a file is not UTF-8 text or cannot be opened",
            "yaml-unreadable": "a file is not YAML as it is read here",
            "yaml-duplicate-key": "a key stands twice in one mapping",
            "yaml-alias": "aliases are not read",
            "yaml-tag": "tags are not read",
            "field-unknown": "a field that does not exist",
            "field-missing": "a field that must be there is not",
            "field-wrong-kind": "a field holds something of another kind",
            "notation": "a value is not written in the notation of its field",
            "date-impossible": "a date, time or window of the year that cannot be",
            "id-unknown": "a name that refers to nothing",
            "id-double": "two things of one name",
            "route-unusable": "a route file cannot be used",
            "photograph-unusable": "a photograph that is not there or cannot be shown",
            "contrast-itself": "a taxon is contrasted with itself",
            "contrast-wrong": "a contrast claims a state its taxon does not have",
            "contrast-no-data": "a contrast by a trait of which a side has no value",
            "contrast-disputed": "a contrast that holds only if one source is right and another wrong",
            "contrast-does-not-separate": "a contrast by a trait that does not tell the two apart",
            "contrast-overstated": "a contrast is claimed more strongly than the data allow",
            "contrast-words": "the author's words for a contrast are stronger than the claim",
            "claim-unreadable": "a marked claim that cannot be read or names what does not exist",
            "claim-refused": "a marked claim that the data do not bear out",
            "care-compared": "a caution compares one plant with another",
            "hazard-softened": "a text calls something safe, harmless or edible",
            "handling-asked": "a text asks people to handle what may be harmful",
            "seasons-other-hemisphere": "seasons of one hemisphere used for a walk in the other",
            "care-missing": "a harmful plant without a caution",
            "name-tautonym": "an epithet repeats the name of its genus",
            "epithet-gender": "an epithet does not agree in gender with its genus",
            "never-unsourced": "a value that says never, without a source",
            "name-claim": "a name is called apt though the trait it rests on says otherwise",
        },
    ),
    **_rules(
        Severity.WARNING,
        {
            "hazard-missing": "a taxon without a hazard record",
            "source-missing": "a value without a source",
            "rank-abbreviation": "a rank is not abbreviated as the Code recommends",
            "abbreviation-ambiguous": "an abbreviated genus that can be read in two ways",
            "definition-missing": "a trait, a state or a term whose definition says nothing",
            "trait-unused": "a trait of which no taxon has a value",
            "state-unused": "a state that no value, contrast or need names",
            "value-against-itself": "a value that another of the same profile rules out",
            "value-against-group": "a value that shares nothing with that of its group",
            "alternatives-agree": "alternatives of a value that can both be true",
            "inseparable": "members of one group that nothing recorded tells apart",
            "care-look-alike": "a look-alike of a harmful plant without a caution",
            "look-alike-one-sided": "a harmful taxon told from one whose profile says nothing of it",
            "season-order": "fruit before flower",
            "home-region": "not exactly one home region",
            "comparison-unmarked": "a comparison in an author's text that no marked claim stands behind",
            "seasons-elsewhere": "seasons of the home region used for a walk elsewhere",
            "term-unexplained": "a term of the glossary used before anything explains it",
            "words-unused": "an author's words that no date of the walk uses",
            "walk-too-long": "a walk takes longer than it allows",
            "photograph-unused": "a photograph that no profile shows",
            "recce-unreadable": "a filled recce sheet cannot be read as a table",
            "recce-column": "a column of a recce sheet that is missing or not known",
            "recce-row": "a row of a recce sheet that belongs to nothing, or stands there twice",
            "recce-answer": "an answer in a recce sheet that cannot be read",
            "stop-empty": "nothing of a stop can be seen on a date of the walk",
        },
    ),
}
