"""What a narration says of the board in passing: that a digit stands in a cell, that a house still lacks one."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from .clauses import Sentence
from .gathering import Gatherer
from .mentions import Mention
from .statements import Span
from .vocabulary import Cell, House
from .words import Script

STANDING = re.compile(
    r"((that (is|sits|stands)|which (is|sits|stands)|already|now|there|sitting|standing|sat|given|printed|placed|up|down|over"
    r"|here|below|above|just|we (placed|put|wrote|found|have)|waiting) )*(in|at|on) $|\( $"
)
"""Words between a digit and the cell that it stands in."""
DETERMINED = ("the", "that", "its")
"""Before a digit: the one that stands there, and not one to be put there."""
LACKING = re.compile(
    r"((still|yet|now|only|just|also) )*"
    r"(needs|lacks|misses|wants|is ((still|now|only|just) )*(missing|lacking|short of|without)) "
    r"((only|just|its|a|an|the|both|still) )*$"
)
"""Words between a house and the digits that it has no cell for yet."""
WITNESSING = ("", "by", "of", "to", "with", "from", "sees", "since", "as", "because", "both", "(")
"""Before "the 3 in r4c7", where it is a 3 that stands there and bars others; "" at the beginning."""
SAID_OF = frozenset(
    "is was can could goes go gone has must cannot disappears falls dies out away also never went would will may".split()
)
"""After it, where it is a candidate that something is said of."""
BUT = ("if", "unless", "were", "would", "suppose", "supposing", "not", "no", "never", "instead", "had")
"""Words with which it is not said that it is so."""


class Cited(NamedTuple):
    """Said in that sentence: the digit stands in the cell, or the house lacks it. ``bars``: it is not a mere candidate."""

    sentence: int
    where: Cell | House
    digit: int
    span: Span
    bars: bool = True


def cited(gatherer: Gatherer) -> Iterator[Cited]:
    """All that is said so of one digit and one cell, or of one house, named outright: what "it" is would be a guess."""
    for number, sentence in enumerate(gatherer.sentences):
        if number and sentence is gatherer.sentences[number - 1]:
            continue  # run-on speech counts one stretch of words as several sentences
        after = -1  # the word after a digit that bars others
        for one, other in pairwise(_mentions(sentence, gatherer.script)):
            if any(word.norm in BUT for word in sentence.words[max(0, one.start - 4) : other.start]):
                continue
            for found in _between(number, sentence, one, other, gatherer, listed=0 <= after == one.start - 2):
                after = other.end if found.bars else -1
                yield found


def _mentions(sentence: Sentence, script: Script) -> list[Mention]:
    """What the sentence itself names, in order; not what its clauses take over from those before."""
    told = (piece.mention for clause in sentence.clauses for piece in clause.pieces)
    named = {(m.start, m.end): m for m in told if m is not None and m.values and m.end <= len(sentence.words)}
    return [named[at] for at in sorted(named) if _own(named[at], sentence, script)]


def _own(mention: Mention, sentence: Sentence, script: Script) -> bool:
    begins = script.span(sentence.words[mention.start].start, sentence.words[mention.end - 1].end)
    said = mention.values[0].span
    return (begins.line, begins.column) <= (said.line, said.column)


def _between(
    number: int, sentence: Sentence, one: Mention, other: Mention, gatherer: Gatherer, *, listed: bool
) -> Iterator[Cited]:
    """``listed``: one word before the article, a digit was told that bars others: ``by the 3 in r1c3 and the 3 in r4c2``."""
    words = sentence.words
    between = "".join(f"{word.norm} " for word in words[one.end : other.start])
    span = gatherer.script.span(words[one.start].start, words[other.end - 1].end)
    if (one.kind, other.kind) == ("digits", "cells") and len(one.values) == len(other.values) == 1:
        before = words[one.start - 1].norm if one.start else ""
        named = words[one.start].norm != "one" and not one.plural and _outright(other, sentence)
        if named and before in DETERMINED and STANDING.match(between):
            earlier = words[one.start - 2].norm if one.start > 1 else ""
            later = words[other.end].norm if other.end < len(words) else ""
            bars = earlier in WITNESSING or (listed and earlier in ("and", ","))
            yield Cited(number, other.bare[0], one.bare[0], span, bars and later not in SAID_OF)
    elif (one.kind, other.kind) == ("houses", "digits") and len(one.values) == 1 and LACKING.match(between):
        for said in other.values:
            yield Cited(number, one.bare[0], said.value, said.span)


def _outright(mention: Mention, sentence: Sentence) -> bool:
    """Is the cell named by its row and column, and by nothing that was named before it?"""
    kinds = {word.kind for word in sentence.words[mention.start : mention.end]}
    return "RC" in kinds or ("ROW" in kinds and "COL" in kinds and bool(kinds & {"NUM", "ORD"}) and not kinds & {"SAME", "AND"})
