"""A sentence to its clauses: each with what it names and what it says of it, in order. lark finds both over the words."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import cache
from itertools import zip_longest
from pathlib import Path
from typing import Any

from lark import Lark, Token, Tree

from .mentions import Mention, mentions
from .statements import Said
from .vocabulary import Cell, Geometry, House
from .words import Script, Word

SYMBOLS = {"cells": "<C>", "digits": "<D>", "houses": "<H>"}
NAMES = ("CELLS", "DIGITS", "HOUSES")
REASONS = frozenset(
    "ONLY_PLACE ONLY_DIGIT LAST_CELL CONFINED SUBSET CHAIN_NAME FISH XY_WING SINGLE_NAME LOCKED PIVOT WINGS FINS COVER BASE "
    "FACT LEAN".split()
)
REMOVALS = frozenset("REMOVE TAKE GONE DENY".split())
PLACEMENTS = frozenset("PLACE FORCE BE LEADS".split())
PREDICATES = REASONS | REMOVALS | {"PLACE", "FORCE", "BE", "MARK", "EITHER", "ALREADY", "NEEDED", "SEE", "SEE_BOTH", "REST"}
PREDICATES |= {"FOLLOWS", "KEEPS", "ALL_ELSE", "WHETHER", "DONE"}


WITNESSING_NOTHING = tuple(
    "CELLS REST SEE_BOTH PICTURE EVERYTHING PRONOUNS OTHER_ONE FORCE REMOVE TAKE GONE IF NEEDED EITHER LINE ALL_ELSE".split()
)
"""Pieces with which more is said than that a digit is in a house, or is not."""

PATTERNS = frozenset("SUBSET FISH XY_WING CHAIN_NAME LOCKED FINS WINGS".split())
IMPERATIVE = re.compile(
    r"(remove|eliminate|delete|erase|exclude|discard|strike|scratch|drop|clear|take|cross|rule|rub|knock|scrub|wipe|no)\b"
    r"|(taking|crossing|striking|removing|eliminating|rubbing|wiping|scrubbing|knocking|ruling|deleting|clearing)\b"
    r"|(gets?|getting|got) rid\b"
)
"""Verbs whose subject is who does it: no cell before them belongs to them."""


PLURAL = re.compile(r"(lose|come|go|are|have|drop|shed|give|do|were)\b")


RHETORICAL = re.compile(
    r", (is|are|does|do|has|can|will|would|right|okay|yes|no|see)( not)?( \w+)?( not)? \? $|anything (other than|but|except)"
    r"|^(where|what|who) else (but|than|except|other than)|\bif not( (in|at|on|into))? <[CH]>( ,| \? $)"
    r"|be (other than|except) .*\? $"
    r"|^how (do|can|could|did) (we|you|i|one) (know|tell|see|say|be (so )?(sure|certain))\b"
    r"|^((do|did|can|could) you |you )?(see|notice|spot|observe|realise) (how|that)\b"
)


@dataclass(frozen=True)
class Piece:
    """One thing said: its ``type`` in clauses.lark, its words, and the mention where it is one."""

    type: str
    text: str
    start: int
    end: int
    mention: Mention | None = None


@dataclass
class Clause:
    """Pieces in order, and the joints that stood before them."""

    pieces: list[Piece]
    joints: set[str] = field(default_factory=set)
    first: bool = False

    def has(self, *types: str) -> bool:
        """Is a piece of one of the types there?"""
        return any(piece.type in types for piece in self.pieces)

    def of(self, *types: str) -> list[Piece]:
        """The pieces of those types."""
        return [piece for piece in self.pieces if piece.type in types]

    def named(self, kind: str) -> list[Mention]:
        """The mentions of ``cells``, ``digits`` or ``houses``."""
        return [piece.mention for piece in self.pieces if piece.mention is not None and piece.mention.kind == kind]

    def values(self, kind: str) -> list[Any]:
        """The ``cells``, ``digits`` or ``houses`` that are named, in order."""
        return [value for mention in self.named(kind) for value in mention.bare]

    @property
    def names(self) -> bool:
        """Is a cell, a house or a digit named?"""
        return self.has(*NAMES)

    @property
    def digits(self) -> list[Said[int]]:
        """Each digit once; of ``was 3 or 8 and has to be 8``, what it was and what it is, the last alone."""
        named = self.named("digits")
        last = named[-1].bare if named else ()
        chosen = len(last) == 1 and len(named) > 1 and self.has("BE", "FORCE", "PLACE", "ONLY_DIGIT")
        of_one = len({*self.values("cells")}) == 1 and not self.has("SUBSET", *REMOVALS)
        before = named[:-1] if chosen else ()
        if before and all(len(m.values) > 1 and (m.choice or of_one) and {*last} < {*m.bare} for m in before):
            return [*named[-1].values]
        return [*{said.value: said for mention in named for said in mention.values}.values()]

    @property
    def witness(self) -> bool:
        """Is it said of houses alone that a digit is there, or cannot be: ``row 3 already owns a 6``, ``nor in column 9``?"""
        else_said = self.has(*REASONS, *WITNESSING_NOTHING) or len({*self.values("digits")}) > 1
        return self.has("HOUSES") and self.has("ALREADY", "DENY") and not else_said

    @property
    def predicates(self) -> bool:
        """Is anything said?"""
        if any(piece.type in PREDICATES for piece in self.pieces) or (self.has("IF") and self.has("LEADS")):
            return True
        caused = self.has("CELLS") or (self.has("PRONOUN") and self.joints >= {"COMMA", "SO"})
        if any(CAUSING.match(piece.text) for piece in self.of("LEADS")) and caused and self.has("DIGITS"):
            return True  # "that makes r9c6 a 4", "..., which makes it a 4"
        several = all(any(len(mention.values) > 1 for mention in self.named(kind)) for kind in ("cells", "digits"))
        kinds = [house.kind for house in self.values("houses")]
        return several or kinds.count("r") == kinds.count("c") >= 2


@dataclass
class Sentence:
    """One sentence taken apart."""

    words: tuple[Word, ...]
    clauses: list[Clause]
    astray: list[Word]
    asked: bool

    @property
    def names(self) -> bool:
        """Is a cell, a house or a digit named?"""
        return any(clause.names for clause in self.clauses)


@cache
def _lark() -> Lark:
    grammar = Path(__file__).with_name("clauses.lark").read_text(encoding="utf-8")
    return Lark(grammar, parser="lalr", lexer="basic", maybe_placeholders=False)


LEADING_UP = frozenset(
    "in at on of for with the a an no any every all both only put place write take remove cross strike".split()
)
"""Before the first name of a step, these belong to it."""


def told_from(sentence: Sentence) -> int:
    """Where in the text it begins to tell something: at its first name or reason, not at remarks before it."""
    begins = [
        piece.start
        for clause in sentence.clauses
        for piece in clause.pieces
        if piece.mention or piece.type in REASONS | REMOVALS
    ]
    at = min(begins, default=0)
    while at and sentence.words[at - 1].norm in LEADING_UP:
        at -= 1
    return sentence.words[at].start if sentence.words else 0


def taken_apart(
    words: tuple[Word, ...], script: Script, geometry: Geometry, house: House | None = None, cell: Cell | None = None
) -> Sentence:
    """The clauses of a sentence. ``house``, ``cell``: what was spoken of before it."""
    named, astray = mentions(words, script, geometry, house, cell)
    named = [*_lists_apart(named, words)]
    named = [part for mention in named for part in _subject_apart(mention, words)]
    named = [part for mention in named for part in _neither_apart(mention, words)]
    starts = {mention.start: mention for mention in named}
    inside = {at for mention in named for at in range(mention.start + 1, mention.end)}
    text, places = "", {}
    for at, word in enumerate(words):
        if at in inside or (word.norm in ("the", "a", "an") and at + 1 in starts and at not in starts):
            continue
        places[len(text)] = at
        text += (SYMBOLS[starts[at].kind] if at in starts else word.norm) + " "
    tree = _lark().parse(text)
    order = sorted(places)
    clauses: list[Clause] = []
    joints: set[str] = set()
    for child in tree.children:
        if isinstance(child, Token):
            joints |= {"ARROW", "SO"} if child.type == "ARROW" else {child.type if child != "," else "COMMA"}
        elif isinstance(child, Tree):
            tokens = [token for token in child.children if isinstance(token, Token)]
            pieces = [*_settled([piece for token in tokens for piece in _pieces(token, places, order, starts)])]
            for found in (on for out in _found_out(pieces) for on in _told_on(out)):
                for part in parted(found) if script.punctuated else _run_on(found):
                    clauses.append(Clause(part, joints, not clauses))
                    joints = set()
                joints = {"SO"}
            joints = set()
    # "Why's r1c5 a 7? Because ..." claims what it asks the reason of.
    # "It's r1c1, isn't it?" and "Could r1c1 be anything but 5?" claim what they ask.
    asked = bool(words) and words[-1].norm == "?" and words[0].norm != "why" and not RHETORICAL.search(text)
    _imagine(clauses, words)
    _suppose_by_turns(clauses)
    _without_it(clauses)
    _excepted(clauses)
    clauses = [*_listed_out(clauses)]
    _put_in_turn(clauses)
    _out_of_cells(clauses)
    told = [*_refuted(list(_listed_apart(_merged([*_neither_said(clauses)], geometry), words)))]
    _suppose_by_arrows(told)
    _answer(told)
    for clause in told:
        clause.pieces = _lost_along(_met(clause.pieces))
        _one_of_two(clause)
        if sorted(piece.type for piece in clause.pieces) == ["CELLS", "HOUSES", "THAT_DIGIT"]:
            # "Same digit, box 3: r2c8."
            clause.pieces.append(Piece("ONLY_PLACE", "", clause.pieces[-1].start, clause.pieces[-1].end))
    return Sentence(words, told, astray, asked)


EXCEPTING = re.compile(r"^(every|each|all|any)\b.* (except|but|bar|save|other than|apart from)\b")


def _excepted(clauses: Sequence[Clause]) -> None:
    """``Every cell in box 3 except r2c9 is closed to 7``: what is said of the others is why the one is the place."""
    for clause in clauses:
        if any(EXCEPTING.search(piece.text) for piece in clause.of("ONLY_PLACE")) and not clause.has("IF"):
            clause.pieces = [piece for piece in clause.pieces if piece.type not in REMOVALS]


def _listed_out(clauses: Sequence[Clause]) -> Iterator[Clause]:
    """``Out go these: the 2 from the rest of box 2, the 3 and the 6 from r3c4``: of each item that it goes."""
    listing = False
    for clause in clauses:
        bare = clause.has("REMOVE", "GONE", "TAKE") and not clause.names
        items = _items(clause) if listing and not bare else []
        if not items:
            listing = bare
            yield clause
            continue
        for number, pieces in enumerate(items):
            yield Clause(pieces, clause.joints if number == 0 else {"COMMA"}, clause.first and number == 0)


def _items(clause: Clause) -> list[list[Piece]]:
    """The items of a list of what goes from where, each with a word for going; none where the clause is no such list."""
    items: list[list[Piece]] = []
    for piece in clause.pieces:
        if piece.type == "DIGITS":
            items.append([])
        if not items or piece.type not in ("DIGITS", "FROM", "ENDS", "GONE", "REST", "CELLS", "HOUSES"):
            return []
        going = piece.type in ("FROM", "ENDS", "GONE") and len(items[-1]) == 1
        items[-1].append(replace(piece, type="GONE") if going else piece)
    whole = [[piece.type for piece in item[:2]] == ["DIGITS", "GONE"] and len(item) > 2 for item in items]
    return items if all(whole) else []


NO_LIST = ("IF", "EITHER", "SUBSET", "FISH", "XY_WING", "CHAIN_NAME", "PIVOT", "WINGS", "FINS", "LEAN", *REMOVALS)
"""Pieces beside which digits in cells are not filled in, but a pattern's own, or supposed."""


def _put_in_turn(clauses: Sequence[Clause]) -> None:
    """``The last box falls: 1 in r8c9, since no other cell in it wants one, then 7 in r8c7, and 5 in r8c8``: all are put there.

    So much is plain where two digits at least are told so, and nothing else but why.
    """
    listed = [clause for clause in clauses if _digit_in_cell(clause)]
    others = [clause for clause in clauses if not _digit_in_cell(clause)]
    mere = all("BECAUSE" in other.joints or not other.names for other in others)
    if len(listed) < 2 or not mere or any(clause.has(*NO_LIST) for clause in clauses):
        return
    for clause in listed:
        at = next(at for at, piece in enumerate(clause.pieces) if piece.type == "CELLS")
        clause.pieces.insert(at, Piece("PLACE", "goes", clause.pieces[at].start, clause.pieces[at].start))


def _digit_in_cell(clause: Clause) -> bool:
    """Is it ``7 in r8c7``, and no more?"""
    named = [piece for piece in clause.pieces if piece.type not in ("LEADS", "ALSO", "AGAIN", "LINE", "PRONOUN", "PRONOUNS")]
    one = all(piece.mention is None or len(piece.mention.values) == 1 for piece in named)
    return one and [piece.type for piece in named] == ["DIGITS", "FROM", "CELLS"]


def _out_of_cells(clauses: Sequence[Clause]) -> None:
    """``So what goes? The 6 from r4c8.``: what is told of no verb goes from the cell, and is not in it."""
    for clause in clauses:
        told = clause.pieces[clause.pieces[0].text == "goes" :]
        if [piece.type for piece in told] == ["DIGITS", "FROM", "CELLS"] and told[1].text != "in":
            clause.pieces = [told[0], replace(told[1], type="GONE"), told[2]]


def _without_it(clauses: Sequence[Clause]) -> None:
    """``Without a 4 in r6c4, box 5 would have none``: the cell is the only place."""
    for clause in clauses:
        without = [piece for piece in clause.of("DENY") if piece.text == "without"]
        shut = any(told.has("ONLY_PLACE") and told.has("HOUSES") for told in clauses)
        if without and shut and clause.has("CELLS") and clause.has("DIGITS") and not clause.has("IF"):
            clause.pieces = [replace(piece, type="BE") if piece in without else piece for piece in clause.pieces]


SINGULAR = frozenset(
    "is has was loses goes belongs comes falls drops takes holds gets becomes disappears vanishes lands sits needs wants "
    "leaves turns settles finds moves".split()
)
"""Verbs of one subject."""
MODAL = frozenset("can cannot could may might must will would should".split())
"""Verbs of one subject or several."""


def _lists_apart(named: Sequence[Mention], words: Sequence[Word]) -> Iterator[Mention]:
    """``3 goes from r9c5, and r1c2, r2c6 and r8c5 lose 7``: of those that lose, the list begins at the comma and the "and"."""
    waiting: Mention | None = None
    for mention in named:
        if waiting is not None:
            between = [word.kind for word in words[waiting.end : mention.start] if word.kind != "THE"]
            verb = words[mention.end] if mention.end < len(words) else None
            count = len(waiting.values) - 1
            both = waiting.kind == mention.kind == "cells" and between == ["COMMA"] and len(mention.values) > 1
            if both and verb is not None and verb.kind == "W" and PLURAL.match(verb.norm) and 0 < count in waiting.breaks:
                comma = next(at for at in range(waiting.tail - 1, 0, -1) if words[at].kind == "COMMA")
                before = replace(waiting, values=waiting.values[:-1], end=comma, tail=waiting.start)
                yield replace(before, breaks=(), commas=(), parts=())
                mention = replace(
                    mention,
                    values=(*waiting.values[-1:], *mention.values),
                    start=waiting.tail,
                    parts=((0, waiting.tail), *((number + 1, at) for number, at in mention.parts)),
                    breaks=tuple(at + 1 for at in mention.breaks),
                    commas=tuple(at + 1 for at in (0, *mention.commas)),
                )
            else:
                yield waiting
        waiting = mention
    if waiting is not None:
        yield waiting


def _subject_apart(mention: Mention, words: Sequence[Word]) -> Iterator[Mention]:
    """``As r3c4 is down to the 8, the 2 belongs to r1c4``: the last of a list without an ``and`` is the subject of such a verb.

    Before verbs that several may be the subject of (``r1c1, r1c2 cannot be 3``) only in ``with 3 in r1c1, r1c7 cannot be 3``.
    """
    before = [word for word in words[: mention.tail] if word.kind != "THE"]
    joined = before[-1:] and before[-1].kind == "AND"  # "so 5 in r3c4, and r3c3 is down to 6"
    if joined and [word.kind for word in before[-2:-1]] == ["COMMA"]:
        before.pop()
    verb = words[mention.end].norm if mention.end < len(words) else ""
    inside = [word for word in words[: mention.start] if word.kind != "THE"][-1:]
    placed = mention.kind == "cells" and bool(inside) and inside[0].kind in ("OF", "ON")
    if mention.kind == "digits":
        placed = _determined(words, mention.start) != _determined(words, mention.tail)  # "no cell can be a 6, the 4 can go"
    alone = verb in SINGULAR or (verb in MODAL and placed)
    parted = mention.tail > mention.start and before[-1].kind == "COMMA"
    if placed and mention.kind == "cells" and len(mention.values) == 2 and before[-1].kind == "AND" and not mention.breaks:
        # "because of the 9 in r6c6 and r4c3 can't": one 9 is in one cell
        leading = words[: mention.start][-4:]
        one_digit = [word.kind for word in leading[1:3]] == ["THE", "NUM"] and leading[0].norm in ("of", "by", "with", "to")
        parted = one_digit and mention.tail > mention.start
    cited = [word.norm for word in words[max(0, mention.start - 3) : mention.start] if word.kind != "THE"][-2:]
    first = next((at for number, at in mention.parts if number == 1), 0)
    if (
        cited == ["candidates", "of"]
        and first
        and 1 in mention.commas
        and (verb in MODAL or verb in SINGULAR or PLURAL.match(verb))
    ):
        # "Given the candidates of r1c1, r4c7 and r5c7 lose their 3s"
        commas, breaks = (tuple(at - 1 for at in places if at > 1) for places in (mention.commas, mention.breaks))
        comma = next(at for at in range(first - 1, 0, -1) if words[at].kind == "COMMA")
        yield replace(mention, values=mention.values[:1], end=comma, tail=mention.start, last=1, breaks=(), commas=(), parts=())
        yield replace(mention, values=mention.values[1:], start=first, breaks=breaks, commas=commas, parts=())
        return
    if mention.kind == "houses" or mention.last != 1 or not parted or not alone:
        yield mention
        return
    yield replace(mention, values=mention.values[:-1], end=words.index(before[-1]), tail=mention.start, breaks=())
    yield replace(mention, values=mention.values[-1:], start=mention.tail, breaks=())


def _neither_apart(mention: Mention, words: Sequence[Word]) -> Iterator[Mention]:
    """``r1c1 is not 2, and neither is r1c2, r1c3 and r1c4 lose 5``: of one cell it can be said that "neither is" it."""
    before = [word.norm for word in words[max(0, mention.start - 3) : mention.start] if word.kind != "THE"][-2:]
    verb = words[mention.end].norm if mention.end < len(words) else ""
    second = next((at for number, at in mention.parts if number == 1), 0)
    elliptical = before[:1] in (["neither"], ["nor"]) and before[1:] in (["is"], ["does"], ["can"], ["has"], ["will"])
    if not elliptical or not second or 1 not in (*mention.commas, *mention.breaks) or not verb.isalpha():
        yield mention
        return
    breaks, commas = (tuple(at - 1 for at in places if at > 1) for places in (mention.breaks, mention.commas))
    comma = next((at for at in range(second - 1, 0, -1) if words[at].kind == "COMMA"), second)
    yield replace(mention, values=mention.values[:1], end=comma, tail=mention.start, last=1, breaks=(), commas=(), parts=())
    yield replace(mention, values=mention.values[1:], start=second, breaks=breaks, commas=commas, parts=())


def _determined(words: Sequence[Word], at: int) -> str:
    """``a`` or ``the`` before the word, if there is one."""
    article = words[at - 1].norm if at else ""
    return {"an": "a"}.get(article, article) if article in ("a", "an", "the") else ""


ELLIPTICAL = re.compile(r"(neither|nor)\b")


def _neither_said(clauses: Iterable[Clause]) -> Iterator[Clause]:
    """``r1c1 is not 2, and neither is r1c2``: the digit was said of the cell before, and what follows is said of others."""
    digits: Piece | None = None
    for clause in clauses:
        at = next((at for at, piece in enumerate(clause.pieces) if ELLIPTICAL.match(piece.text)), -1)
        own = next((on for on in range(at + 1, len(clause.pieces)) if clause.pieces[on].type == "CELLS"), -1)
        bare = all(piece.type in ("DENY", "BE") for piece in clause.pieces[max(at, 0) : max(own, 0)])
        if at >= 0 and own > at and bare and digits is not None and not _digits_after(clause.pieces, own):
            rest = clause.pieces[own + 1 :]
            yield Clause([*clause.pieces[: own + 1], digits], clause.joints, clause.first)
            if rest:
                yield Clause(rest, {"COMMA"})
        else:
            yield clause
        named = [piece for piece in clause.pieces if piece.type == "DIGITS"]
        denied = clause.has("DENY") and len(named) == 1
        digits = named[0] if denied else digits if not named else None


def _digits_after(pieces: Sequence[Piece], at: int) -> bool:
    """Is a digit named right after the cell: ``nor is r1c2 a 4``?"""
    following = next((piece.type for piece in pieces[at + 1 :] if piece.type != "BE"), "")
    return following == "DIGITS"


ANYTHING_BUT = re.compile(r"(be )?(anything|something|any \w+) (but|except|other than|besides)\b")
CAUSING = re.compile(r"(puts?|gives?|makes?|means|forces?|leads to|turns|would)\b")


def _imagine(clauses: list[Clause], words: Sequence[Word]) -> None:
    """``A 3 in r1c1 puts 7 in r1c5, and a 5 puts it in r4c1``: two cases, told without an "if".

    One is enough where it "would" do so: ``A 3 there would force r1c5 to be 7``.
    """
    cases = [clause for clause in clauses if _is_case(clause, words)] or [*_by_turns(clauses)]
    if len(cases) > 1 or any(map(_would, cases)):
        first = next(at for at, clause in enumerate(clauses) if clause is cases[0])
        if first and [piece.type for piece in clauses[first - 1].pieces] == ["CELLS"]:
            cases[0].pieces[:0] = clauses.pop(first - 1).pieces  # "r8c9: 1 gives ..."
        for clause in cases:
            clause.pieces.insert(0, Piece("IF", "if", clause.pieces[0].start, clause.pieces[0].start + 1))


def _by_turns(clauses: Sequence[Clause]) -> Iterator[Clause]:
    """``r8c9: 1 gives 2 at r9c9, 6 gives 2 at r7c9``: what comes of each digit of a cell."""
    for clause in clauses:
        types = [piece.type for piece in clause.pieces if piece.type != "FROM"]
        one = all(len(piece.mention.values) == 1 for piece in clause.pieces if piece.mention)
        caused = any(CAUSING.match(piece.text) or piece.text.startswith("give") for piece in clause.of("LEADS"))
        case = ["DIGITS", "LEADS", "DIGITS", "CELLS"]
        if one and caused and types in (case, ["CELLS", *case]):
            yield clause


def _suppose_by_turns(clauses: Sequence[Clause]) -> None:
    """``r5c5 not 3, then 3 at r5c6, then none at r6c6``: what several "then" lead on from is supposed."""
    first = next((at for at, clause in enumerate(clauses) if clause.pieces[0].type == "LEADS"), 0)
    led = [clause for clause in clauses[first:] if clause.pieces[0].text == "then"]
    begins = clauses[first - 1] if first else None
    if begins is None or len(led) < 2 or [p.type for p in begins.pieces if p.type != "BE"] != ["CELLS", "DENY", "DIGITS"]:
        return
    at = begins.pieces[0].start
    begins.pieces.insert(0, Piece("IF", "if", at, at + 1))
    for clause in led:
        types = [piece.type for piece in clause.pieces]
        if types == ["LEADS", "DIGITS", "CELLS"]:
            clause.pieces.insert(2, Piece("PLACE", "at", clause.pieces[2].start, clause.pieces[2].start))
        elif types == ["LEADS", "NO", "CELLS"]:
            clause.pieces[1:2] = [replace(clause.pieces[1], type="DENY"), begins.pieces[-1]]


SHUT = re.compile(r"would|leave|broken|ruined|stuck|nothing")
"""What is said of a house that is left without a digit, and of a cell."""


def _refuted(clauses: Sequence[Clause]) -> Iterator[Clause]:
    """``If r3c6 were not 9, box 2 would have no 9 at all``: the cell is the only place."""
    at = 0
    while at < len(clauses):
        supposed, found = clauses[at], clauses[at + 1] if at + 1 < len(clauses) else None
        without = found is not None and any(SHUT.search(piece.text) for piece in found.of("ONLY_PLACE", "ONLY_DIGIT"))
        if found is not None and without and supposed.has("IF") and supposed.has("DENY") and _only_link(supposed, found):
            pieces = [p for p in supposed.pieces if p.type in NAMES]
            yield Clause([*found.pieces, *pieces], supposed.joints, supposed.first)
            at += 2
            continue
        yield supposed
        at += 1


def _only_link(supposed: Clause, found: Clause) -> bool:
    """Are one cell and one digit supposed, and no other found?"""
    cells, digits = ({*supposed.values(kind)} for kind in ("cells", "digits"))
    other = {value for kind in ("cells", "digits") for value in found.values(kind)}
    if found.has("ONLY_DIGIT"):
        return len(digits) == 1 and (not cells or {value for value in other if isinstance(value, Cell)} <= cells)
    return len(cells) == len(digits) == 1 and other <= cells | digits and found.has("HOUSES", "SAME_HOUSE")


def _is_case(clause: Clause, words: Sequence[Word]) -> bool:
    """Does any such digit, in a cell or in the one spoken of, come to something?"""
    first = clause.pieces[0].mention
    verb = next((at for at, piece in enumerate(clause.pieces) if CAUSING.match(piece.text)), 0)
    subject = [piece.type for piece in clause.pieces[1:verb] if piece.type != "FROM"]
    supposed = first is not None and first.start > 0 and words[first.start - 1].norm in ("a", "an")
    one = first is not None and first.kind == "digits" and len(first.values) == 1
    return (
        one
        and supposed
        and verb > 0
        and subject in ([], ["CELLS"], ["PRONOUN"])
        and any(p.mention for p in clause.pieces[verb:])
    )


def _would(case: Clause) -> bool:
    """Is it said what the case would do?"""
    return any("would" in piece.text.split() for piece in case.of("LEADS"))


def _settled(pieces: Sequence[Piece]) -> Iterator[Piece]:
    """What keeps one digit only has one candidate left; what is confined to one cell has one place. What is supposed to be
    anything but a digit is not it.
    """
    for at, piece in enumerate(pieces):
        following = pieces[at + 1].mention if at + 1 < len(pieces) else None
        one = following is not None and following.kind == "cells" and len(following.values) == 1
        if piece.type == "SAME_HOUSE" and "same" in piece.text and at and pieces[at - 1].type == "CONFINED":
            yield replace(piece, type="LINE")  # "every 2 of box 5 falls in the same row"
            continue
        if piece.type == "ONLY_PLACE" and [other.type for other in pieces[at + 1 : at + 2]] == ["LINE"]:
            yield replace(piece, type="CONFINED")  # "the 7 of row 1 can only go in one box"
            continue
        after = [other for other in pieces[at + 1 : at + 4] if other.type != "FROM"][:2]
        kept_there = [other.type for other in after] == ["DIGITS", "CELLS"] and "keep" in piece.text
        kept_there = kept_there and all(other.mention and len(other.mention.values) == 1 for other in after)
        answered = piece.type == "ONLY" and one and at == 0 and len(pieces) == 2  # "Where can the 6 go? Only in r7c9."
        if (piece.type == "CONFINED" and (one or kept_there)) or answered:
            yield replace(piece, type="ONLY_PLACE")
            continue
        kept = next((other.mention for other in pieces[at:] if other.mention and other.mention.kind == "digits"), None)
        several = kept is not None and len(kept.values) > 1
        if piece.type == "KEEPS" and not several:
            piece = replace(piece, type="ONLY_DIGIT")
        if piece.type == "ONLY_DIGIT" and ANYTHING_BUT.match(piece.text) and "IF" in (p.type for p in pieces[:at]):
            piece = replace(piece, type="DENY")  # "if r1c5 were anything but 2"
        yield piece


def _suppose_by_arrows(clauses: Sequence[Clause]) -> None:
    """``r1c1 not 4 -> r1c8 = 4 -> r5c8 = 7``: what the first arrow leads on from is supposed."""
    linked = [at for at, clause in enumerate(clauses) if "ARROW" in clause.joints and _is_link(clause)]
    if len(linked) > 1 and linked[0] > 0 and _is_link(clauses[linked[0] - 1]) and not clauses[linked[0] - 1].has("IF"):
        first = clauses[linked[0] - 1]
        first.pieces.insert(0, Piece("IF", "if", first.pieces[0].start, first.pieces[0].start + 1))


def _listed_apart(clauses: Iterable[Clause], words: Sequence[Word]) -> Iterator[Clause]:
    """``As 3 and 5 can go only in r1c1 and r1c2, r1c1 loses 4``: as many cells as digits, and then those of the effect."""
    wanted = 0
    last: Clause | None = None
    for clause in clauses:
        cut = 0
        for at, piece in enumerate(clause.pieces):
            mention = piece.mention
            if mention is not None and mention.kind == "digits" and len(mention.values) > 1:
                wanted = len(mention.values)
            following = [other.type for other in clause.pieces[at + 1 : at + 3] if other.type != "BE"][:1]
            beside = mention is not None and following == ["CELLS"] and len(mention.values) == wanted
            verb = [other.type for other in clause.pieces[at + 1 + beside : at + 3 + beside] if other.type != "BE"][:1]
            named = mention is not None and mention.kind == "cells" and wanted > 1 and verb and verb[0] in REMOVALS
            if named and _located(clause.pieces, at, words) and (beside or (mention is not None and wanted in mention.commas)):
                cut = at + 1
                break
        if not cut:
            if last is not None:
                yield last
            last = clause
            continue
        piece = clause.pieces[cut - 1]
        assert piece.mention is not None
        own = replace(piece.mention, values=piece.mention.values[:wanted], last=1, breaks=(), commas=())
        rest = replace(piece.mention, values=piece.mention.values[wanted:], breaks=(), commas=())
        before = [*clause.pieces[: cut - 1], replace(piece, mention=own)]
        after = [*([replace(piece, mention=rest)] if rest.values else []), *clause.pieces[cut:]]
        if last is not None and not any(other.type in PREDICATES for other in before):
            last.pieces += before
        else:
            if last is not None:
                yield last
            last = Clause(before, clause.joints, clause.first)
        yield last
        last = Clause(after, {"SO", "COMMA"})
    if last is not None:
        yield last


def _located(pieces: Sequence[Piece], at: int, words: Sequence[Word]) -> bool:
    """Is it said of the cells there that something lies in them: ``are confined to r1c1``, ``which occupies r1c1``?"""
    if at:
        return pieces[at - 1].type not in NAMES
    return any(word.norm == "which" for word in words[max(0, pieces[0].start - 4) : pieces[0].start])


def _one_of_two(clause: Clause) -> None:
    """``The row of r1c1 and r1c5 has its 3 in one of these two``: that is in one or the other."""
    chosen = any(
        piece.text.startswith(("one of these", "one of the two", "one of those", "one of them"))
        for piece in clause.of("EITHER")
    )
    pairs = [at for at, piece in enumerate(clause.pieces) if piece.mention is not None and piece.mention.kind == "cells"]
    mention = clause.pieces[pairs[0]].mention if len(pairs) == 1 else None
    if chosen and mention is not None and len(mention.values) == 2:
        clause.pieces[pairs[0]] = replace(clause.pieces[pairs[0]], mention=replace(mention, choice=True))


def _answer(clauses: Sequence[Clause]) -> None:
    """``Ask where row 4 may have its 3, and a single answer comes back``: the answer is a place."""
    where = False
    for clause in clauses:
        for at, piece in enumerate(clause.pieces):
            where = where or (piece.type == "NEEDED" and "where" in piece.text)
            if where and piece.type == "ONLY_DIGIT" and "answer" in piece.text:
                clause.pieces[at] = replace(piece, type="ONLY_PLACE")


def _is_link(clause: Clause) -> bool:
    """Is one cell said to be one digit, or not to be it?"""
    one_each = all(sum(len(mention.values) for mention in clause.named(kind)) == 1 for kind in ("cells", "digits"))
    return one_each and clause.has("BE", "DENY", "PLACE", "FORCE") and not clause.has("HOUSES")


WITNESSED_BY = re.compile(
    r"(because of|thanks to|owing to|on account of|courtesy of| by)( the| its)? <"
    r"|^<C>( \w+)+ <H>$|^<H>.* one\b.* <C>$|^<C> (\w+ )+<D>"
)
"""Words that tell how a house, or a digit, is kept from its places: of what they name, only that is spoken of."""
KEPT_OUT = re.compile(r"((is|are) )?(kept|shut|barred|locked|blocked|banned|debarred|excluded|driven) ")


def _pieces(token: Token, places: dict[int, int], order: Sequence[int], starts: dict[int, Mention]) -> Iterator[Piece]:
    """What a token says, and the names that stand inside it (``only 4 left in row 3``)."""
    begin, end = token.start_pos or 0, token.end_pos or 0
    inside = [places[at] for at in order[bisect_left(order, begin) : bisect_left(order, end)]]
    if token.type not in NAMES:
        yield Piece(token.type.rstrip("_"), str(token), inside[0], inside[-1] + 1)
    if token.type == "ASIDE":
        return  # "r1c1, which sees both of them,": what is seen plays no part
    if token.type == "ALREADY_" and WITNESSED_BY.search(token):
        # "column 3 because of the 8 that we just wrote", "r5c2 bars column 2": the house alone is spoken of
        about = "digits" if token.startswith("<C>") and "<D>" in token else "houses"
        inside = [at for at in inside if at in starts and starts[at].kind == about][: None if about == "digits" else 1]
        inside = [] if KEPT_OUT.match(token) else inside  # "the 4 is barred from r2c2 by r9c2, from r2c4 by r3c6"
    for at in inside:
        if at in starts:
            yield Piece(starts[at].kind.upper(), "", at, starts[at].end, starts[at])


def _found_out(pieces: list[Piece]) -> Iterator[list[Piece]]:
    """``Think through r1c6 and you find that ...``: what is looked at, and what comes of it."""
    for at, piece in enumerate(pieces):
        before = {p.type for p in pieces[:at]}
        seen = piece.type == "LOOK" and piece.text.endswith(("find that", "see that", "know that"))
        found = seen and bool(before & {"LEAN", "FACT"})
        if found and before.intersection(NAMES) and pieces[at + 1 :]:
            yield pieces[:at]
            yield pieces[at + 1 :]
            return
    yield pieces


def parted(pieces: list[Piece]) -> Iterator[list[Piece]]:
    """Several removals told without a joint between them: ``r1c1 loses 3 and strike 5 from r2c2``."""
    begin, verb = 0, -1
    for at, piece in enumerate(pieces):
        leaves = piece.type in ("ONLY_DIGIT", "KEEPS") and piece.text.startswith(("leaves", "leaving"))
        if (
            piece.type not in REMOVALS
            and not leaves
            and not (verb >= 0 and piece.type in ("FORCE", "ONLY_DIGIT", "ONLY_PLACE"))
        ):
            continue
        of_pattern = any(p.type in PATTERNS for p in pieces[begin:at])
        if leaves and (of_pattern or all("CELLS" in (p.type for p in part) for part in (pieces[begin:at], pieces[at:]))):
            yield pieces[begin:at]
            begin, verb = at, at
            continue
        if verb >= 0 and _full(pieces[begin:at]) and any(p.type in NAMES for p in pieces[verb + 1 : at]):
            cut = at
            following = next((i for i in range(at + 1, len(pieces)) if pieces[i].type in REMOVALS), len(pieces))
            places = any(p.type in ("CELLS", "HOUSES", "SAME_HOUSE", "REST") for p in pieces[at:following])
            if not IMPERATIVE.match(piece.text) or not places:
                # The subject stands before its verb.
                cut = next((i for i in range(at - 1, verb, -1) if pieces[i].type in NAMES), at)
            shared = _subject(pieces[cut].mention, piece) if cut < at else None
            if _full(pieces[begin:cut]):
                yield pieces[begin:cut]
                begin = cut
            elif shared is not None and len(shared.values) > shared.last and _full(pieces[begin:at]):
                # "no 2 at r8c1, and r8c2 cannot be 5": the last of the list is the subject of the next verb.
                firsts, last = shared.values[: -shared.last], shared.values[-shared.last :]
                yield [*pieces[begin:cut], replace(pieces[cut], mention=replace(shared, values=firsts))]
                pieces = [*pieces]
                pieces[cut] = replace(pieces[cut], mention=replace(shared, values=last))
                begin = cut
        verb = at
    yield pieces[begin:]


def _full(pieces: Sequence[Piece]) -> bool:
    """Are a digit and where it goes from named?"""
    types = {piece.type for piece in pieces}
    return "DIGITS" in types and ("CELLS" in types or ("REST" in types and bool(types & {"HOUSES", "SAME_HOUSE"})))


def _subject(listed: Mention | None, verb: Piece) -> Mention | None:
    """Of "r1c1, and r2c2 and r3c3 lose 8" the names after the last ", and" stand before the verb."""
    if listed is None or listed.breaks == ():
        return listed
    after = [len(listed.values) - at for at in listed.breaks if len(listed.values) - at > 1 or not PLURAL.match(verb.text)]
    return replace(listed, last=min(after)) if after else listed


def _lost_along(pieces: list[Piece]) -> list[Piece]:
    """``Row 1 loses it in columns 4 and 5``: cells told by their line and those that cross it there."""
    shown = [piece for piece in pieces if piece.type not in ("FROM", "PRONOUN")][:3]
    if len(shown) < 3:
        return pieces
    line, verb, others = shown
    if line.mention is None or others.mention is None:
        return pieces
    told = [piece.mention.bare for piece in (line, others) if piece.type == "HOUSES" and piece.mention]
    kinds = [{house.kind for house in houses} for houses in told]
    if kinds not in ([{"r"}, {"c"}], [{"c"}, {"r"}]) or "lose" not in verb.text or len(line.mention.values) != 1:
        return pieces
    house = line.mention.bare[0]
    cells = tuple(
        Said(Cell(house.number, said.value.number) if house.kind == "r" else Cell(said.value.number, house.number), said.span)
        for said in others.mention.values
    )
    met = replace(others, type="CELLS", mention=replace(others.mention, kind="cells", values=cells))
    return [met if piece is others else piece for piece in pieces if piece is not line]


ONE_HOLE = re.compile(r"\b(one|single|last|only) (\w+ )?(hole|gap|cell|square|space|blank)\b")
ABSENT = (["HOUSES", "BE", "DENY", "DIGITS", "HOUSES"], ["HOUSES", "DENY", "DIGITS", "HOUSES"])


def _met(pieces: list[Piece]) -> list[Piece]:
    """Cells told by two lines: ``Row 3 ends with a 7 in column 9``, ``in column 4 there's no 8 in row 6``."""
    types = [piece.type for piece in pieces]
    lines = [piece for piece in pieces if piece.type == "HOUSES" and piece.mention and len(piece.mention.values) == 1]
    absent = [kind for kind in types if kind != "FROM"] in ABSENT
    hole = any(
        ONE_HOLE.search(piece.text) for piece in pieces if piece.type == "LAST_CELL"
    )  # "row 3 has one hole, at column 2"
    told = absent or "LAST_CELL" in types
    if not told or types.count("HOUSES") != 2 or types.count("DIGITS") != 1 - hole or "CELLS" in types:
        return pieces
    number = {line.mention.bare[0].kind: line.mention.bare[0].number for line in lines if line.mention}
    if sorted(number) != ["c", "r"]:
        return pieces
    last = lines[1]
    assert last.mention is not None
    cell = Said(Cell(number["r"], number["c"]), last.mention.values[0].span)
    met = replace(last, type="CELLS", mention=replace(last.mention, kind="cells", values=(cell,)))
    return [met if piece is last else piece for piece in pieces]


def _told_on(pieces: list[Piece]) -> Iterator[list[Piece]]:
    """What is told of one cell after what it cannot be, or of one house after another, with no joint between.

    ``r1c1 cannot be 2 and must be 8``, ``r1c1 loses its 6 and becomes 5``,
    ``column 4 ends with 6 at r2c4, row 2 with 1 at r2c2``.
    """
    begin, subject = 0, list[Piece]()
    for at in range(1, len(pieces)):
        left, piece, right = {p.type for p in pieces[begin:at]}, pieces[at], [p.type for p in pieces[at + 1 : at + 3]]
        denied = bool(left & {"DENY", "REMOVE"}) and left >= {"CELLS", "DIGITS"}
        placing = piece.type in ("FORCE", "BE") or piece.text.startswith("become")
        found = placing and right == ["DIGITS"] and denied
        turned = piece.type == "LEADS" and right[:1] in (["CELLS"], ["PRONOUN"]) and right[1:] == ["DIGITS"]
        turned = turned or (piece.text == "then" and right in (["DIGITS", "CELLS"], ["NO", "CELLS"], ["DENY", "CELLS"]))
        ended = piece.type == "LAST_CELL" and piece.text.startswith("<H>") and "DIGITS" in left
        other = piece.type == "OTHER_ONE" and left >= {"CELLS", "DIGITS"}
        if "IF" not in left and (found or (turned and left & {"DIGITS", "NO"}) or ended or other):
            yield [*subject, *pieces[begin:at]]
            begin, subject = at, [Piece("PRONOUN", "it", piece.start, piece.start)] if found else []
    yield [*subject, *pieces[begin:]]


STARTS = ("HOUSES", "CELLS", "DIGITS", "ONLY_PLACE", "LAST_CELL", "SUBSET", "FISH")


def _run_on(pieces: list[Piece]) -> Iterator[list[Piece]]:
    """The same for speech without punctuation, where a step may follow on the last with nothing between."""
    for part in parted(pieces):
        begin, at = 0, 1
        while at < len(part):
            left, right = part[begin:at], part[at:]
            begins = part[at].type in STARTS and _told(left) and _tells(right)
            if begins or (part[at].type == "ALREADY" and _sought(left) and "DIGITS" in {piece.type for piece in right}):
                yield left
                begin = at
            at += 1
        yield part[begin:]


def _sought(pieces: Sequence[Piece]) -> bool:
    """``i am looking for a four in box five | and i have already got fours at ...``: is a digit looked for, and where?"""
    return {"NEEDED", "DIGITS", "HOUSES"} <= {piece.type for piece in pieces}


def _told(pieces: Sequence[Piece]) -> bool:
    """Is something told in full?"""
    types = [piece.type for piece in pieces]
    return (
        types[-1] not in ("FROM", "REST")
        and bool(set(types) & (REASONS | REMOVALS | {"FORCE"}))
        and len(set(types) & set(NAMES)) > 0
    )


def _tells(pieces: Sequence[Piece]) -> bool:
    """Does a step begin: ``in row 9 the 3 has to go``, ``r6c9 can only be``, ``the only place for``?"""
    types = [piece.type for piece in pieces]
    strong = {"FORCE", "ONLY_PLACE", "ONLY_DIGIT", "CONFINED", "LAST_CELL", "SUBSET", "FISH", "LOCKED"}
    if types[0] == "DIGITS":
        mention = pieces[0].mention
        plural = mention is not None and mention.plural
        return len(types) > 2 and ((plural and types[1] == "HOUSES" and types.count("HOUSES") > 1) or types[1] == "SUBSET")
    if types[:2] == ["HOUSES", "NEEDED"] or types[:2] == ["HOUSES", "LAST_CELL"]:
        return "DIGITS" in types
    if types[0] in ("HOUSES", "CELLS"):
        rest = [kind for kind in types[1:4] if kind not in ("BE", "PLACE", "PRONOUN", "NEEDED")]
        if types[0] == "HOUSES" and rest[:1] == ["DIGITS"]:
            return bool(set(types[2:5]) & (strong | {"BE"})) and len(types) > 3
        return bool(rest) and rest[0] in strong and "DIGITS" in types
    return types[0] in ("ONLY_PLACE", "LAST_CELL", "SUBSET", "FISH") and "DIGITS" in types[:3] and len(types) > 2


def _has_role(before: Clause, clause: Clause) -> bool:
    """``The fin apart, which is r3c1``: the cells in the role just named."""
    types = [piece.type for piece in clause.pieces]
    if before.pieces[-1].type == "BE" and before.has("CELLS") and types in (["PIVOT"], ["WINGS"], ["FINS"]):
        return True  # "r5c3 is therefore a fin"
    return before.pieces[-1].type in ("PIVOT", "WINGS", "FINS") and types == ["BE", "CELLS"]


def _gives_role(clause: Clause) -> bool:
    """``Stand on r1c1, that is your pivot``: the role of the cells named just before."""
    types = {piece.type for piece in clause.pieces}
    roles = {"PIVOT", "WINGS", "FINS"}
    return bool(types & roles) and "BE" in types and types <= roles | {"BE", "PRONOUN", "PRONOUNS"}


def _goes_on(last: Clause, clause: Clause) -> bool:
    """Does a clause without a verb tell another removal after one?"""
    told = (
        last.has(*REMOVALS) and last.has("CELLS", "HOUSES", "SAME_HOUSE") and last.has("DIGITS") and not last.has("IF", "PLACE")
    )
    if any(piece.type in PREDICATES for piece in clause.pieces):
        return False
    goes_on = clause.has("DIGITS", "THOSE_DIGITS") and clause.has("CELLS", "SAME_HOUSE") and not clause.has("LEADS")
    return told and goes_on and not clause.joints & {"SO", "BECAUSE"}


def _or_is(last: Clause, clause: Clause) -> bool:
    """Does ``or r5c6 is`` follow on ``either r5c5 is 3``?"""
    types = [piece.type for piece in clause.pieces]
    one = [sum(len(mention.values) for mention in told.named("cells")) == 1 for told in (last, clause)]
    either = last.has("EITHER") and any(piece.text.startswith("either") for piece in last.of("EITHER"))
    elliptic = types in (["EITHER", "CELLS", "PLACE"], ["EITHER", "CELLS", "BE"], ["EITHER", "CELLS", "ONLY", "BE"])
    return elliptic and either and all(one) and len(last.digits) == 1 and not last.has(*REMOVALS)


def _either_cell(last: Clause, clause: Clause) -> list[Piece]:
    """The pieces of both, one digit in one of two cells."""
    (other,) = clause.named("cells")
    return [
        replace(piece, mention=replace(piece.mention, values=(*piece.mention.values, *other.values), choice=True))
        if piece.mention is not None and piece.mention.kind == "cells"
        else piece
        for piece in last.pieces
    ]


def _all_it_can_be(last: Clause, clause: Clause) -> bool:
    """``r4c1 can't be 8 either, its row has one: 2.`` Is a digit told by itself, after those that a cell cannot be?"""
    bare = [piece.type for piece in clause.pieces] == ["DIGITS"] and len(clause.named("digits")[0].values) == 1
    denied = last.has("DENY") and last.has("DIGITS") and sum(len(mention.values) for mention in last.named("cells")) == 1
    return bare and denied and not last.has("IF", *REASONS) and bool(clause.joints & {"BREAK", "SO"})


def _apposed(last: Clause, clause: Clause, following: Clause) -> bool:
    """``... is a 6, and the gap at the foot, r7c4, is a 1``: a cell between commas is what the next clause is about."""
    types = [piece.type for piece in following.pieces]
    about = [piece.type for piece in clause.pieces] == ["CELLS"] and len(clause.named("cells")[0].values) == 1
    placed = last.has("DIGITS") and last.has("CELLS", "PRONOUN", "PRONOUNS") and last.has("BE", "FORCE", "PLACE")
    return about and placed and following.joints == {"COMMA"} and types[:2] in (["BE", "DIGITS"], ["FORCE", "DIGITS"])


def _turned_into(last: Clause, clause: Clause, following: Clause) -> bool:
    """``... would force r8c1, which is just 2 or 3, into being 2``, ``then r4c1, which is 5 or 8, is 5``: said by the way."""
    may_be = clause.has("BE") and "SO" in clause.joints and len({*clause.values("digits")}) > 1
    turned = following.pieces[0].text.startswith("into ")
    turned = turned or [piece.type for piece in following.pieces] in (["BE", "DIGITS"], ["FORCE", "DIGITS"])
    turned = turned and following.joints == {"COMMA"} and {*following.values("digits")} < {*clause.values("digits")}
    return last.pieces[-1].type == "CELLS" and last.has("LEADS") and may_be and turned and not clause.has("CELLS", "HOUSES")


def _in_front(last: Clause, clause: Clause, following: Clause, geometry: Geometry) -> bool:
    """``... drops to r6c8, and over on the left, in box 4, the 1 has to be in r5c2``: of the clause whose cell lies in it."""
    told = all(other.has("CELLS") and other.has("DIGITS") and not other.has("HOUSES") for other in (last, following))
    alone = [piece.type for piece in clause.pieces if piece.type != "FROM"] == ["HOUSES"]
    if not (told and alone and following.predicates):
        return False
    inside = {cell for house in clause.values("houses") for cell in geometry.cells_of[house]}
    return inside.isdisjoint(last.values("cells")) and inside >= {*following.values("cells")}


def _and_there(last: Clause, clause: Clause) -> bool:
    """``Rub it out in r1c7, and in r7c7 as well``: the same goes from one cell more."""
    more = [piece.type for piece in clause.pieces] in (["FROM", "CELLS"], ["FROM", "CELLS", "BE"], ["FROM", "CELLS", "ALSO"])
    it = [piece.type for piece in last.pieces if piece.type != "FROM"] in (
        ["REMOVE", "PRONOUN", "CELLS"],
        ["REMOVE", "DIGITS", "CELLS"],
    )
    return more and it and clause.joints <= {"COMMA", "AND_CLAUSE", "BREAK"}


def _said_which(last: Clause, clause: Clause, following: Clause) -> bool:
    """``The other cells of that box, r7c4 and r7c6, have no more use for a 5``: the cells are the ones that lose it."""
    others = [piece.type for piece in last.pieces] in (["REST", "SAME_HOUSE"], ["REST", "HOUSES"])
    mere = [piece.type for piece in clause.pieces] == ["CELLS"] and following.joints == {"COMMA"}
    return others and mere and following.has("DENY", "GONE", "REMOVE") and not following.has("CELLS", "HOUSES")


def _in_other_house(last: Clause, clause: Clause) -> bool:
    """``The 6 is forced into r4c4, and in column 5 into r8c5``: is the digit just placed told of another house?"""
    elliptic = [piece.type for piece in clause.pieces if piece.type != "FROM"] == ["HOUSES", "CELLS"]
    placed = last.has("PLACE", "FORCE") and last.has("CELLS") and len(last.digits) == 1 and not last.has("IF", *REMOVALS)
    return elliptic and placed and "AND_CLAUSE" in clause.joints and len(clause.values("cells")) == 1


def _rests_on(named: Clause, clause: Clause) -> bool:
    """Are cells named after "because of", before what is shown of others?"""
    cells = [piece.type for piece in named.pieces if piece.type != "FROM"] == ["CELLS"]
    told = clause.has("CELLS") and clause.has("DIGITS") and clause.has(*REMOVALS, "PLACE", "FORCE", "BE")
    return named.first and "BECAUSE" in named.joints and cells and told and not clause.joints & {"SO", "BECAUSE", "THEN"}


def _leaning(named: Clause) -> Clause:
    """What is named after "because", as what is leaned on."""
    named.pieces.insert(0, Piece("LEAN", "from", named.pieces[0].start, named.pieces[0].start + 1))
    return named


def _merged(clauses: Sequence[Clause], geometry: Geometry) -> Iterator[Clause]:
    """Clauses that say nothing by themselves go with the next one; at the end, with the one before."""
    waiting: Clause | None = None
    last: Clause | None = None
    passed_over = False
    for clause, following in zip_longest(clauses, clauses[1:]):
        if waiting is not None and last is not None and clause.joints & {"SO", "BECAUSE"} and not waiting.has("IF"):
            if "BECAUSE" in waiting.joints and waiting.has("CELLS") and last.has("DENY", "GONE"):
                last.pieces = [replace(piece, type="DENY") if piece.type == "GONE" else piece for piece in last.pieces]
                yield last  # "r8c3 cannot be 7 because of r8c6, so it is 5"
                last = _leaning(waiting)
            elif last.witness and "SO" in clause.joints and clause.has("CELLS"):
                # "3 in column 2: row 4 has one, so r6c2 is 3"
                clause = replace(clause, pieces=[*waiting.pieces, *clause.pieces])
            else:
                last.pieces += waiting.pieces
            waiting = None
        if (
            waiting is not None
            and waiting.first
            and "BECAUSE" in waiting.joints
            and sum(len(mention.values) for mention in waiting.named("digits")) == 1
            and waiting.has("CELLS")
        ):
            yield waiting  # "because of the 3 in r1c1, r1c7 cannot be 3"
            waiting = None
        if waiting is not None and _rests_on(waiting, clause):
            yield _leaning(waiting)  # "because of r1c1 and r2c2, r1c2 cannot be 3"
            waiting = None
        by_the_way = waiting is not None and "BECAUSE" in waiting.joints and not waiting.has("DIGITS", "HOUSES")
        if waiting is not None and by_the_way and last is not None and last.witness and "AND_CLAUSE" in clause.joints:
            waiting = None  # "the 5 cannot be in column 4 because of r7c4, and the only other cell is r6c5"
        if waiting is not None and clause.witness and not waiting.has("IF"):
            # "3 in column 2: row 4 has one, so it goes in r6c2": what is told begins before what bears witness to it.
            if last is not None:
                yield last
            last = clause
            continue
        if waiting is not None:
            clause = Clause(
                waiting.pieces + clause.pieces, waiting.joints | (clause.joints - {"COMMA", "BREAK"}), waiting.first
            )
            waiting = None
        if last is not None and _goes_on(last, clause):
            # "3 goes from r1c1; 4 and 5 from r2c2": the verb is said once.
            verb = next(piece for piece in reversed(last.pieces) if piece.type in REMOVALS)
            clause.pieces.insert(0, replace(verb, text="remove", type="REMOVE", mention=None))
        if passed_over and last is not None:
            last.pieces += clause.pieces
            passed_over = False
            continue
        if last is not None and following is not None and _turned_into(last, clause, following):
            passed_over = True
            continue
        if last is not None and _or_is(last, clause):
            last.pieces = _either_cell(last, clause)
            continue
        if last is not None and (_gives_role(clause) or _has_role(last, clause)):
            last.pieces += clause.pieces
            continue
        if last is not None and _all_it_can_be(last, clause):
            at = clause.pieces[0].start
            clause = Clause([Piece("PRONOUN", "it", at, at), Piece("BE", "is", at, at), *clause.pieces], {"SO"})
        so = [piece.type for piece in clause.pieces if piece.type != "FROM"] == ["DIGITS", "CELLS"] and clause.joints == {
            "SO",
            "BREAK",
        }
        if so and all(len(piece.mention.values) == 1 for piece in clause.pieces if piece.mention):
            at = clause.pieces[-1].start  # "...; hence 3 at r1c2"
            clause.pieces.insert(1, Piece("PLACE", "goes", at, at))
        if last is not None and _and_there(last, clause):
            verb = next(piece for piece in reversed(last.pieces) if piece.type in REMOVALS)
            clause.pieces = [verb, *last.of("PRONOUN", "DIGITS"), *clause.of("CELLS")]
        bare = [piece.type for piece in clause.pieces] == ["CELLS"] and len(clause.named("cells")[0].values) == 1
        if bare and "SO" in clause.joints and last is not None and last.witness and last.has("DENY"):
            # "the 9 isn't in row 1, and it isn't in column 8, so row 2, column 9"
            at = clause.pieces[0].start
            clause.pieces.insert(0, Piece("PLACE", "goes in", at, at))
        if last is not None and _in_other_house(last, clause):
            at = clause.pieces[0].start  # "the 6 is forced into r4c4, and in column 5 into r8c5"
            digit = replace(last.of("DIGITS")[-1], start=at, end=at)
            clause.pieces = [digit, Piece("PLACE", "goes", at, at), *clause.pieces]
        made = [piece.type for piece in clause.pieces] == ["LEADS", "PRONOUN", "DIGITS"]
        made = made and following is not None and following.has("LAST_CELL")  # "... and makes it 2, whereupon column 5 closes"
        if not clause.predicates and not made:
            if last is not None and following is not None and _said_which(last, clause, following):
                waiting, last = Clause(clause.pieces, last.joints, last.first), None
            elif (
                last is not None
                and following is not None
                and (_apposed(last, clause, following) or _in_front(last, clause, following, geometry))
            ):
                waiting = clause
            elif last is not None and not clause.joints & {"SO", "BECAUSE", "THEN"} and not clause.has("IF"):
                last.pieces += clause.pieces
            else:
                waiting = clause
            continue
        yield_now, last = last, clause
        if yield_now is not None:
            yield yield_now
    if last is not None:
        if waiting is not None and waiting.names and "BECAUSE" in waiting.joints:
            # "6 goes from r1c1, as can be seen from r2c2"
            yield last
            last = _leaning(waiting)
        elif waiting is not None:
            last.pieces += waiting.pieces
        yield last
    elif waiting is not None:
        yield waiting
