"""Syllables of English and Latin words, by rule; no dictionary is asked."""

from __future__ import annotations

import re
from collections.abc import Container
from functools import cache

from twayblade.knowledge.latin_sound import SOUNDS
from twayblade.reasoning.times import Length

_WORD = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)*")
_GROUP = re.compile(r"[aeiouy]+")

# English. Every group of vowels is a syllable, once the letters that are not said are gone; some groups are two.
_HALVES = (
    "where|thing|times?|body|worts?|stocks?|strife|berr(?:y|ies)|flowers?|lea(?:f|ves)|lands?|woods?|weeds?|man|men|lines?|ways?|keep(?:er)?s?|"
    "balls?|backs?|boards?|houses?|works?|trees?|roots?|side|buds?|stones?|marks?|books?|ports?|ful(?:ly|ness)?|less(?:ly|ness)?|ness|likes?|"
    "some(?:ly)?|ly|hood|ships?|by|fore|after|in|of|upon"
)
_NOT_SAID = re.compile(
    rf"""
    (?<=[aeiouy][^aeiouy])e(?=(?:{_HALVES})$)         # live-stock, life-less
    | (?<=[aeiouy][^aeiouy][^aeiouyl])e(?=(?:{_HALVES})$)  # loose-strife is of the first kind, paste-board of this
    | (?<=[ktvsrcgz])e(?=ments?$) | (?<=ev)e(?=ry)    # move-ment, ev-ery
    | (?<=[^aeiouylr])e(?=s?$)(?<![sxzcg]e(?=s))(?<![cst]he(?=s)) # leave, leaves; but rac-es, bunch-es
    | (?<=[aeiourwyl]l)e(?=[sd]?$)                    # whole, holes, tailed; but ap-ple
    | (?<=[^tbcg]r)e(?=s?$)                           # spore, spores; but me-tre
    | (?<=[^aeiouyltd])e(?=d$)                        # curved; but dot-ted
    | (?<=[gq])ue(?=s?$) | (?<=[gq])u(?=[aeiouy])     # tongue; lan-guage
    """,
    re.VERBOSE,
)
_TWO = re.compile(
    r"""
    i(?=a|u|o(?!us|n)) | (?<=[^cstxg])i(?=ous) | (?<=[^cstxglnh])i(?=on) | i(?=i|e(?:t|n[ct]|rs?$|s?t$))  # umbellifer-i-a, var-i-ous, sci-ence
    | (?<=.)y(?=[aiou]|er)(?!ards?$) | u(?=a(?!y|d)|ou|ent|i(?:ty|ng|s[mt]|d$|n$))  # be-yond, us-ual, flu-id
    | e(?=o(?!u|p)|ing|u[ms]$|atre) | [ao](?=i(?:ng|s[mt])) | a(?=o) | o(?=e[rt]|a(?:$|l|g))  # pe-o-ny, be-ing, the-atre, po-et
    | ^re(?=act|in[vtf]|us[ei]|un|ev|ex|en|el|ap)     # re-ac-tion
    | (?<=[aeiouy]s)m(?=s?$) | (?<=th)m(?=s?$) | ^mc(?=[^aeiouyh])  # pris-m, rhyth-m
    """,
    re.VERBOSE,
)
_ONE = re.compile(r"(?<=[tx])i(?=a[nlr]|a$|ate|en[tc])|(?<=[^s]c)i(?=a[nlr]|a$|ate|en[tc])|(?<=s)i(?=a[nl])|(?<=[a-z]g)i(?=a)|(?<=g)e(?=o[nr])")
"""Of the vowels above, those that are said together after all: so-cial, pa-tient, pi-geon."""

_PLAIN = str.maketrans("äëïöüàáâãåèéêìíîòóôõùúûýñç", "aeiouaaaaaeeeiiioooouuuync") | {"æ": "ae", "œ": "oe", "ø": "o"}


@cache
def syllables(word: str, latin: bool = False) -> int:
    """How many syllables a word has, at the least one. Two or three capitals are said letter by letter."""
    if word.isupper() and 1 < len(word) <= 3:
        return len(word) + 2 * word.count("W")
    word = re.sub("é$", "ay", word.lower().replace("’", "'"))
    # Dots on a vowel part it from the one before.
    parted = re.sub("(?<=[aeiou])([äëïöü])", r"-\1", word).translate(_PLAIN)
    return max(1, len(SOUNDS.findall(parted)) if latin else _english(parted))


def _english(word: str) -> int:
    word, apostrophe, ending = word.partition("'")
    if ending not in ("s", ""):
        word += apostrophe + ending
    said = _NOT_SAID.sub("", word)
    more = (ending == "s" and re.search(r"(?:[sxz]|[cs]h|[cg]e)$", word)) or (ending == "t" and re.search("[^aeiouyr]n't$", word))
    return len(_GROUP.findall(said)) + len(_TWO.findall(said)) - len(_ONE.findall(said)) + bool(more)


def length(said: str, latin: Container[str] = frozenset()) -> Length:
    """How much there is to say in a text that is written as it is spoken. `latin`: the words of scientific names, in small letters."""
    words = [(word, word.lower() in latin) for word in _WORD.findall(said)]
    return Length(
        sum(syllables(word, is_latin) for word, is_latin in words),
        sum(c.isalpha() for c in said),
        commas=len(re.findall(r",|\(|\)(?=\s*\w)", said)),
        breaks=len(re.findall(r"[;:]", said)),
        ends=len(re.findall(r"[.!?]+(?=[\"'’”)]*(?:\s|$))", said)),
    )
