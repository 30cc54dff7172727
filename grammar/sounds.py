"""Words as speech recognition hears them: homophones of numbers, and mangled names of houses and patterns.

A word is taken by its sound only where it makes no sense as it is written.
"""

from __future__ import annotations

from collections.abc import Sequence

NUMBER_SOUNDS = {
    "won": "one",
    "wan": "one",
    "wun": "one",
    "to": "two",
    "too": "two",
    "tu": "two",
    "tree": "three",
    "free": "three",
    "thee": "three",
    "fore": "four",
    "for": "four",
    "fife": "five",
    "hive": "five",
    "fi": "five",
    "sicks": "six",
    "sex": "six",
    "sics": "six",
    "sick": "six",
    "seven's": "seven",
    "heaven": "seven",
    "ate": "eight",
    "ait": "eight",
    "eat": "eight",
    "nein": "nine",
    "nigh": "nine",
    "mine": "nine",
    "line": "nine",
    "find": "five",
    "force": "fours",
    "forze": "fours",
    "ates": "eights",
    "aids": "eights",
    "trees": "threes",
    "frees": "threes",
    "wons": "ones",
    "wands": "ones",
    "toos": "twos",
    "tos": "twos",
    "fives'": "fives",
    "nines'": "nines",
    "sickses": "sixes",
    "fores": "fours",
}
ALWAYS = {
    "ate",
    "sicks",
    "fore",
    "tree",
    "nein",
    "fife",
    "sics",
    "ait",
    "ates",
    "trees",
    "forze",
    "wons",
    "toos",
    "sickses",
    "fores",
    "won",
    "wun",
}
"""These mean nothing else when people talk of digits."""
HOUSE_SOUNDS = {
    "roe": "row",
    "rho": "row",
    "rowe": "row",
    "roes": "rows",
    "rose": "rows",
    "rowing": "row in",
    "roh": "row",
    "colum": "column",
    "collum": "column",
    "calm": "column",
    "call'em": "column",
    "colon": "column",
    "colin": "column",
    "columbus": "columns",
    "colums": "columns",
    "collumn": "column",
    "columned": "column",
    "bocks": "box",
    "bucks": "box",
    "bach": "box",
    "fox": "box",
    "sell": "cell",
    "sells": "cells",
    "cel": "cell",
    "sale": "cell",
    "cellar": "cell",
}
NAME_SOUNDS = {
    ("ex", "wing"): "x wing",
    ("eggs", "wing"): "x wing",
    ("x", "ring"): "x wing",
    ("ex", "ring"): "x wing",
    ("ecks", "wing"): "x wing",
    ("x", "win"): "x wing",
    ("ex", "win"): "x wing",
    ("x", "swing"): "x wing",
    ("xwing",): "x wing",
    ("ax", "wing"): "x wing",
    ("expiring",): "x wing",
    ("x", "wink"): "x wing",
    ("ex", "wings"): "x wing",
    ("sword", "fish"): "swordfish",
    ("sore", "fish"): "swordfish",
    ("sort", "fish"): "swordfish",
    ("soared", "fish"): "swordfish",
    ("sward", "fish"): "swordfish",
    ("sword", "dish"): "swordfish",
    ("swordfishes",): "swordfish",
    ("sort", "of", "fish"): "swordfish",
    ("jelly", "fish"): "jellyfish",
    ("jelly", "dish"): "jellyfish",
    ("jolly", "fish"): "jellyfish",
    ("telly", "fish"): "jellyfish",
    ("thinned",): "finned",
    ("find", "x"): "finned x",
    ("fin", "x"): "finned x",
    ("finn",): "fin",
    ("finnish",): "finned",
    ("find", "swordfish"): "finned swordfish",
    ("find", "sword"): "finned sword",
    ("find", "jelly"): "finned jelly",
    ("thin",): "fin",
    ("fend",): "finned",
    ("finds", "x"): "finned x",
    ("fins", "x"): "finned x",
    ("ex", "why", "wing"): "xy wing",
    ("x", "why", "wing"): "xy wing",
    ("ex", "y", "wing"): "xy wing",
    ("why", "wing"): "y wing",
    ("eggs", "y", "wing"): "xy wing",
    ("sexy", "wing"): "xy wing",
    ("x", "y", "ring"): "xy wing",
    ("xy", "ring"): "xy wing",
    ("ex", "why", "chain"): "xy chain",
    ("x", "why", "chain"): "xy chain",
    ("ex", "y", "chain"): "xy chain",
    ("ex", "chain"): "x chain",
    ("eggs", "chain"): "x chain",
    ("x", "change"): "x chain",
    ("ex", "change"): "x chain",
    ("sexy", "chain"): "xy chain",
    ("x", "y", "change"): "xy chain",
    ("xy", "change"): "xy chain",
    ("why", "chain"): "y chain",
    ("exchange",): "x chain",
    ("x", "jane"): "x chain",
    ("chane",): "chain",
    ("nake", "it"): "naked",
    ("make", "it", "pair"): "naked pair",
    ("naked", "pear"): "naked pair",
    ("naked", "pare"): "naked pair",
    ("make", "it", "triple"): "naked triple",
    ("naked", "tripple"): "naked triple",
    ("naked", "quart"): "naked quad",
    ("naked", "squad"): "naked quad",
    ("hidden", "squad"): "hidden quad",
    ("hidden", "quart"): "hidden quad",
    ("nakid",): "naked",
    ("naket",): "naked",
    ("nagged",): "naked",
    ("knackered",): "naked",
    ("nicked",): "naked",
    ("hidden", "pear"): "hidden pair",
    ("hidden", "pare"): "hidden pair",
    ("hid", "in", "pair"): "hidden pair",
    ("hidden", "cripple"): "hidden triple",
    ("naked", "cripple"): "naked triple",
    ("naked", "trouble"): "naked triple",
    ("hidden", "trouble"): "hidden triple",
    ("hid", "in"): "hidden",
    ("hit", "in"): "hidden",
    ("hitting",): "hidden",
    ("hid", "and"): "hidden",
    ("quod",): "quad",
    ("quads",): "quads",
    ("triplets",): "triplet",
    ("pear",): "pair",
    ("pare",): "pair",
    ("pivet",): "pivot",
    ("pivotal",): "pivot",
    ("privet",): "pivot",
    ("pointing", "pear"): "pointing pair",
    ("klaiming",): "claiming",
    ("climbing",): "claiming",
    ("naked", "single's"): "naked single",
    ("hidden", "signal"): "hidden single",
    ("naked", "signal"): "naked single",
}

LINES = {"row", "rows", "column", "columns", "box", "boxes", "roe", "roes", "rose", "colum", "collum", "bocks"}
NUMBERS = set("one two three four five six seven eight nine 1 2 3 4 5 6 7 8 9".split())
BEFORE_DIGIT = {
    "a",
    "an",
    "no",
    "its",
    "the",
    "be",
    "is",
    "are",
    "only",
    "not",
    "both",
    "another",
    "their",
    "all",
    "remove",
    "take",
    "cross",
    "strike",
    "eliminate",
    "cannot",
    "than",
    "any",
    "every",
    "that",
    "put",
    "place",
}
"""What may stand right before a digit."""
AFTER_DIGIT = {
    "",
    "in",
    "out",
    "so",
    "from",
    "off",
    "of",
    "can",
    "cannot",
    "has",
    "is",
    "are",
    "goes",
    "must",
    "okay",
    "and",
    "or",
    "then",
    "now",
    "right",
    "alright",
    "oh",
    "that",
    "which",
    "because",
    "there",
    "therefore",
    "away",
    "either",
    "here",
    "will",
    "could",
    "would",
    "may",
    "row",
    "column",
    "box",
    "roe",
    "also",
    "um",
    "uh",
    "for",
    "the",
    "only",
    "let",
    "look",
    "nothing",
}
"""What may stand right after one."""
TALK = {
    "be",
    "go",
    "have",
    "see",
    "find",
    "say",
    "do",
    "look",
    "get",
    "put",
    "the",
    "this",
    "that",
    "it",
    "work",
    "make",
    "use",
    "start",
}
FILLERS = {"um", "uh", "er", "erm", "uhm", "hmm", "ah", "eh"}


def heard_as(said: Sequence[str], at: int, before: str) -> tuple[str, int] | None:
    """What the words from there on were meant as, and how many they are; None where they stand as they are.

    ``said``: all words as written. ``before``: the last word as it was taken.
    """
    word = said[at]
    after = said[at + 1] if at + 1 < len(said) else ""
    for length in (3, 2, 1):
        name = NAME_SOUNDS.get(tuple(said[at : at + length]))
        if name is not None and name.split() != list(said[at : at + length]):
            return name, length
    if word in HOUSE_SOUNDS and (word in ("roe", "collum", "colum", "bocks", "rho", "rowe", "roes") or _numbered(after)):
        return HOUSE_SOUNDS[word], 1
    if word in ("sell", "sells", "cel"):
        return HOUSE_SOUNDS[word], 1
    number = NUMBER_SOUNDS.get(word)
    if number is None:
        return None
    if word in ALWAYS or before in LINES:
        return number, 1
    if word == "line" or word == "find" or word == "mine":
        return None
    listed = before in NUMBERS and (after in NUMBERS or after in ("and", "or", "in", "out", "from"))
    joined = (
        before in ("and", "or") and (after in NUMBERS or after in AFTER_DIGIT) and len(said) > 1 and said[at - 2] in NUMBERS
    )
    if word in ("to", "too") and before in NUMBERS and after not in NUMBERS | {"and", "or"}:
        listed = False
    if listed or joined:
        return number, 1
    if (
        before in ("all", "are", "be", "of", "a", "the", "no", "only", "to")
        and after in NUMBERS
        and word in ("free", "for", "to", "too", "won")
    ):
        return number, 1
    if before in BEFORE_DIGIT and after in AFTER_DIGIT:
        if word == "to" and (after in TALK or before in ("place", "put", "that", "all", "both", "not")):
            return None
        if word == "too" and before in ("that", "all", "both", "the") and after not in ("in", "from", "out"):
            return None
        if word == "for" and (
            before in ("that", "all", "not", "place", "cannot", "is", "are", "only") and after in ("the", "a", "that", "")
        ):
            return None
        if word == "free" and after in ("of", "from"):
            return None
        return number, 1
    return None


def _numbered(word: str) -> bool:
    return word in NUMBERS or word in NUMBER_SOUNDS


BINDING = "in the a an of row column box and or no can at to be is are cannot take remove from so then"
"""After these, a filler is no new beginning."""
OPENINGS: tuple[tuple[tuple[str, ...], frozenset[str]], ...] = tuple(
    (tuple(opening.split()), frozenset(after.split()))
    for opening, after in (
        ("okay", ""),
        ("ok", ""),
        ("oh", ""),
        ("alright", ""),
        ("all right", ""),
        ("now", "is are can be so it that and right"),
        ("right so", ""),
        ("right row", "the top bottom middle"),
        ("right column", "the top bottom middle"),
        ("right in", "is"),
        ("right box", "the top bottom middle"),
        ("right look", ""),
        ("right the", ""),
        ("right now", ""),
        ("right there", ""),
        ("right we", ""),
        ("right if", ""),
        ("right a", ""),
        ("right let", ""),
        ("right only", ""),
        ("right where", ""),
        ("let us", "okay oh right alright now so"),
        ("look at", "you we i to if and so can have"),
        ("look in", "you we i to if and so"),
        ("and then", ""),
        ("so", "and okay ok oh right alright now then"),
        ("and so", ""),
        ("therefore", "and"),
        ("which means", ""),
        ("that means", "and"),
        ("and that", ""),
        ("meaning", ""),
        ("that is", "and so because"),
        ("suppose", "let us"),
        ("what can", ""),
        ("where is", ""),
        ("where does", ""),
        ("where can", ""),
        ("where do", ""),
        ("they only", ""),
        ("we have", "so and then what that oh now right okay"),
        ("all the", "so see of out from and that in"),
        ("um", BINDING),
        ("uh", BINDING),
        ("hence", ""),
        ("next", "the"),
        ("finally", ""),
        ("there is a", "so and oh now right okay alright then um because"),
        ("there are", "so and then because"),
        ("hi", ""),
        ("hello", ""),
        ("thanks", ""),
        ("anyway", ""),
        ("the only place", "is in and so oh then because"),
        ("it has to", "so and then because"),
        ("it must", "so and"),
        ("we put", "so and then oh right okay now"),
        ("either way", "so"),
        ("if", "and so what but see even only as"),
        ("because", ""),
        ("only one is", "if and so the"),
    )
)
"""Words that open a sentence of speech, and after which words they do not."""
