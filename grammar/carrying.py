"""What a clause takes over from those just before it: a cell that was supposed, a digit called "it", the lines of a pattern."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from .clauses import PLACEMENTS, REMOVALS, Clause, Piece, Sentence
from .memory import Memory
from .mentions import Mention
from .statements import Said
from .vocabulary import Cell

ANSWERED = 8
"""Sentences after a question in which it may still be answered: ``If so, ...``, and then ``if not, ...``"""
FOR_IT = ("for it", "for that", "for this")


def supposed_before(clause: Clause, before: Sequence[Sentence]) -> Clause:
    """``Suppose r5c9 were not 4. Then column 9 would have no place for the 4``: the cell is the only place.

    ``before``: the sentences just before the clause's own.
    """
    last = before[-1].clauses if before else []
    shut = any("would" in piece.text for piece in clause.of("ONLY_PLACE")) and clause.has("HOUSES", "SAME_HOUSE")
    if not shut or clause.has("CELLS") or len(last) != 1 or not (last[0].has("IF") and last[0].has("DENY")):
        return clause
    cells, digits = (last[0].values(kind) for kind in ("cells", "digits"))
    own = {*clause.values("digits")}
    if len(cells) != 1 or len(digits) != 1 or not own <= {*digits}:
        return clause
    names = [piece for piece in last[0].pieces if piece.type == "CELLS" or (piece.type == "DIGITS" and not own)]
    at = clause.pieces[0].start
    return replace(clause, pieces=[*clause.pieces, *(replace(piece, start=at, end=at) for piece in names)])


def asked_before(sentence: Sentence, before: Sequence[Sentence]) -> None:
    """``Is the 7 in r3c3? If not, it is in r1c3``: the answer that is supposed of a cell and a digit just asked for.

    ``before``: the last ``ANSWERED`` sentences.
    """
    asked = next((told.clauses for told in reversed(before) if told.asked and told.names), [])
    if len(asked) != 1 or not sentence.clauses or asked[0].has("IF", "DENY", "HOUSES"):
        return
    names = [piece for kind in ("CELLS", "DIGITS") for piece in asked[0].of(kind)]
    if len(names) != 2 or names[0].type == names[1].type:
        return
    supposing = sentence.clauses[0]
    types = [piece.type for piece in supposing.pieces if piece.type != "PRONOUN"]
    single = all(piece.mention and len(piece.mention.values) == 1 for piece in names)
    if single and types in (["IF"], ["IF", "DENY"], ["IF", "BE"]):
        at = supposing.pieces[0].end
        cell, digit = (replace(piece, start=at, end=at) for piece in names)
        supposing.pieces = [supposing.pieces[0], cell, *supposing.of("DENY", "BE"), digit]


def is_seen(clause: Clause) -> bool:
    """``The cell that looks at both of them is r2c6``: which cell loses something, and not yet what."""
    types = [piece.type for piece in clause.pieces if piece.type != "FROM"]
    return types in (["SEE_BOTH", "BE", "CELLS"], ["CELLS", "BE", "SEE_BOTH"], ["CELLS", "SEE_BOTH"])


def from_the_seen(clause: Clause, before: Clause | None) -> Clause:
    """``The cell that looks at both of them is r2c6, and it can't keep its 6``: the cell that was told just ``before``."""
    lost = clause.has(*REMOVALS) and clause.has("DIGITS") and not clause.has("CELLS", "HOUSES", "REST", "SAME_HOUSE")
    if before is None or not lost or not is_seen(before):
        return clause
    at = clause.pieces[0].start
    seen = [replace(piece, start=at, end=at) for piece in before.of("CELLS")]
    return replace(clause, pieces=[*seen, *(piece for piece in clause.pieces if piece.type not in ("PRONOUN", "PRONOUNS"))])


def digit_again(clause: Clause, before: Clause | None) -> Clause:
    """``The 2 goes in r9c9, and then in box 6 it's r5c8``: the digit that was put in just ``before``, in another house."""
    types = [piece.type for piece in clause.pieces if piece.type not in ("LEADS", "ALSO", "FROM", "AGAIN")]
    placing = (["HOUSES", "PRONOUN", verb, "CELLS"] for verb in PLACEMENTS)
    if before is None or types not in placing or not before.has(*PLACEMENTS) or not before.has("CELLS") or before.has("IF"):
        return clause
    digits = before.of("DIGITS")
    if len(digits) != 1 or len(before.digits) != 1 or len(clause.values("cells")) != 1:
        return clause
    at = clause.pieces[-1].end
    return replace(clause, pieces=[*clause.pieces, replace(digits[0], start=at, end=at)])


def beside(clause: Clause, memory: Memory, size: int) -> Clause:
    """``Just beside it on the left there's an 8``, ``directly above that goes the 6``: the cell next to the one named last.

    Not where it bears witness: ``..., because there is an 8 above it``. ``size``: of the board.
    """
    pieces = [piece for piece in clause.pieces if piece.type not in ("ALSO", "LEADS", "AGAIN", "ONLY")]
    at = next((at for at, piece in enumerate(pieces) if piece.type == "BESIDE"), -1)
    boxes = any(house.kind == "b" for house in clause.values("houses"))  # "above it, the top middle box needs a 4"
    unfit = clause.has("CELLS", "ALREADY", "IF", *REMOVALS) or "BECAUSE" in clause.joints or boxes
    if at < 0 or unfit or memory.cell is None or not (at == 0 or clause.has("PLACE", "FORCE")):
        return clause
    words = pieces[at].text.split()
    row, column = memory.cell
    row += ("below" in words or "beneath" in words or "under" in words or "underneath" in words) - ("above" in words)
    column += ("right" in words[1:] and ("left" not in words)) - ("left" in words)
    if (row, column) == tuple(memory.cell) or not (1 <= row <= size and 1 <= column <= size):
        return clause
    beyond = Mention("cells", (Said(Cell(row, column)),), pieces[at].start, pieces[at].end)
    return replace(clause, pieces=[replace(p, type="CELLS", mention=beyond) if p is pieces[at] else p for p in clause.pieces])


ORDINALS = {"first": 0, "second": 1, "third": 2, "fourth": 3, "fifth": 4, "sixth": 5}


def counted_off(sentence: Sentence, before: Sequence[Sentence]) -> None:
    """``If the first is not 5 it is 8, the second is then 7, the third 4``: the cells that were listed just before."""
    listed = [said for told in before[-1:] for clause in told.clauses for m in clause.named("cells") for said in m.values]
    norms = [word.norm for word in sentence.words]
    places = (
        [
            at
            for at, norm in enumerate(norms)
            if norm in ORDINALS
            and norms[max(0, at - 1) : at] == ["the"]
            and sentence.words[min(at + 1, len(norms) - 1)].kind not in ("CELLW", "ROW", "COL", "BOX", "OF")
        ]
        if len(listed) > 2 and not any(clause.has("CELLS", "HOUSES") for clause in sentence.clauses)
        else []
    )
    if len(places) < 2 or any(ORDINALS[norms[at]] >= len(listed) for at in places):
        return
    for at in places:
        mention = Mention("cells", (listed[ORDINALS[norms[at]]],), at, at + 1)
        begun = [clause for clause in sentence.clauses if clause.pieces[0].start <= at or clause is sentence.clauses[0]]
        after = [clause for clause in sentence.clauses if clause.pieces[0].start > at]
        led = begun[-1].pieces[-1].end <= at and after and begun[-1].pieces[-1].type != "IF"
        clause = after[0] if led and norms[at - 2 : at - 1] == [","] else begun[-1]
        clause.pieces = sorted([*clause.pieces, Piece("CELLS", "", at, at + 1, mention)], key=lambda piece: piece.start)


ROLES = ("PIVOT", "WINGS", "FINS", "COVER", "BASE")


def role_asked(sentence: Sentence, before: Sequence[Sentence]) -> None:
    """``And the wings? r9c9 and r7c9.``: the part of a pattern that was asked for."""
    asked = before[-1].clauses if before and before[-1].asked else []
    roles = [piece for clause in asked for piece in clause.of(*ROLES)]
    mere = all(piece.mention is None for clause in asked for piece in clause.pieces)
    if len(roles) != 1 or not mere or not sentence.clauses:
        return
    answer = sentence.clauses[0]
    if [piece.type for piece in answer.pieces if piece.type not in ("PRONOUN", "PRONOUNS", "BE")] in (["CELLS"], ["HOUSES"]):
        at = answer.pieces[0].start
        answer.pieces = [replace(roles[0], start=at, end=at), *answer.pieces]


def on_lines(clause: Clause, told: Sequence[Clause]) -> Clause:
    """``The 2s of columns 2 and 7 are an X-wing in rows 3 and 8, so in column 7 the 2 sits in row 3``: the cell of both lines.

    ``told``: the clauses of the step so far.
    """
    if not any(other.has("FISH", "CONFINED") for other in told) or clause.has("CELLS", "REST", *REMOVALS):
        return clause
    lines = [said for mention in clause.named("houses") for said in mention.values]
    own = {house for other in told for house in other.values("houses")}
    digits = {digit for other in told for digit in other.values("digits")}
    said = clause.values("digits")
    numbers = {line.value.kind: line.value.number for line in lines}
    fish = len(own) > 3 and {line.value for line in lines} <= own and said == [*digits]
    if not fish or len(lines) != 2 or sorted(numbers) != ["c", "r"]:
        return clause
    at, end = clause.pieces[0].start, clause.pieces[-1].end
    mention = Mention("cells", (Said(Cell(numbers["r"], numbers["c"]), lines[-1].span),), at, end)
    pieces = [Piece("CELLS", "", at, at, mention), Piece("FORCE", "has to be", at, at), *clause.of("DIGITS")]
    return replace(clause, pieces=pieces)


def not_there_but(sentence: Sentence, shown: bool) -> None:
    """``The 2 in box 6 can't be in r5c7 or r5c8, so it has to be in r4c8``: where it is not bears witness to where it is.

    ``shown``: was a pattern told before, of which the first may be the effect?
    """
    for at, clause in enumerate(sentence.clauses):
        types = [piece.type for piece in clause.pieces if piece.type not in BY_THE_WAY]
        one = sum(len(mention.values) for mention in clause.named("digits")) == 1
        not_in = ["DIGITS", "DENY", "CELLS"], ["DIGITS", "DENY", "CELLS", "CELLS"]
        own = "HOUSES" in [piece.type for piece in clause.pieces] or not (shown or any(c.has("IF") for c in sentence.clauses))
        if (
            types not in not_in
            or not own
            or not one
            or not all(map(NOT_BEING.match, (piece.text for piece in clause.of("DENY"))))
        ):
            continue
        following = next((told for told in sentence.clauses[at + 1 :] if "SO" in told.joints), None)
        if following is None or len(following.values("cells")) != 1 or following.has("DENY", "REMOVE", "TAKE", "GONE"):
            continue
        put = any(PUT_IT.search(piece.text) for piece in following.of("PLACE"))
        it = (put or any(piece.text == "it" for piece in following.of("PRONOUN"))) and not following.has("DIGITS")
        same = following.values("digits") == clause.values("digits") and not shown
        if not following.has("FORCE", "PLACE", "BE") or not (it or same):
            continue
        (digit,) = clause.of("DIGITS")
        clause.pieces = [replace(piece, type="ALREADY") if piece.type == "DENY" else _all_of(piece) for piece in clause.pieces]
        if it and put:
            at = following.pieces[0].start
            following.pieces = [replace(digit, start=at, end=at), *following.pieces]
        elif it:
            following.pieces = [
                replace(digit, start=piece.start, end=piece.end) if piece.type == "PRONOUN" else piece
                for piece in following.pieces
            ]


BY_THE_WAY = ("FROM", "SAME_HOUSES", "PRONOUN", "LEADS", "ASIDE", "HOUSES", "AGAIN", "ALSO")
PUT_IT = re.compile(r"\bit\b")
NOT_BEING = re.compile(
    r"(cannot|can not|can never|could not|may not|must not|will not|is not|are not|not|never|neither|nor|no)\b"
)


def _all_of(piece: Piece) -> Piece:
    """The cells of "not in r5c7 or r5c8": neither of them."""
    return replace(piece, mention=replace(piece.mention, choice=False)) if piece.mention is not None else piece


def for_it(clause: Clause, memory: Memory, before: Clause | None) -> Clause:
    """``Row 8 has a 9 already, which leaves r8c1 for it``, ``..., so box 7 must have its own in r9c2``: a digit named before.

    ``before``: the clause just before.
    """
    left = any(piece.text.endswith(FOR_IT) for piece in clause.of("ONLY_PLACE"))
    own = any(piece.text.endswith(("have", "get", "take")) for piece in clause.of("FORCE")) and clause.has("HOUSES")
    left = left or (own and "SO" in clause.joints and before is not None and before.witness and before.has("DIGITS"))
    if not left or clause.has("DIGITS") or not clause.has("CELLS") or len(memory.digits) != 1:
        return clause
    said = memory.digits[0]
    at = clause.pieces[0].start
    return replace(clause, pieces=[*clause.pieces, Piece("DIGITS", "", at, at, Mention("digits", (said,), at, at))])


def none_outside(clause: Clause, told: Sequence[Clause]) -> Clause:
    """``Box 5 has its 2 only in row 5, so row 5 has no 2 outside box 5``: the second says what goes, and no more why.

    ``told``: the clauses of the step so far.
    """
    outside = [piece for piece in clause.of("CONFINED") if piece.text.startswith("no ")]
    houses = [piece for piece in clause.pieces if piece.type == "HOUSES"]
    named = [value for piece in houses if piece.mention for value in piece.mention.bare]
    if not outside or len(named) != 2 or clause.has("CELLS"):
        return clause
    before = [value for other in told if other.has("CONFINED") for value in other.values("houses")]
    if before != named[::-1]:
        return clause
    pieces: list[Piece] = []
    for piece in clause.pieces:
        if piece is outside[0]:
            pieces += [replace(piece, type="DENY", text="no"), replace(piece, type="REST", text="rest of")]
        elif piece is not houses[1]:
            pieces.append(piece)
    return replace(clause, pieces=pieces)


def fin_or_fish(sentence: Sentence) -> None:
    """``Either r3c3 is 1, or columns 3 and 4 have an X-wing on 1``, ``If r3c3 is not 1, ...``: the cell is the fin."""
    clauses = sentence.clauses
    for clause, following in pairwise(clauses):
        fish = following.has("FISH") and not following.has("CELLS") and not clause.has("FISH", "FINS", "IF")
        either = clause.has("EITHER") or sentence.words[0].norm == "either"
        types = sorted(piece.type for piece in clause.pieces if piece.type not in ("EITHER", "BE", "FROM", "ALREADY"))
        if (fish and either and types == ["CELLS", "DIGITS"]) or spoils(clause, following):
            as_fin(clause)


def spoils(clause: Clause, following: Clause) -> bool:
    """Is a cell supposed not to be the digit of the fish that follows: ``If r3c3 is not 1, columns 3 and 4 have an X-wing``?"""
    types = sorted(piece.type for piece in clause.pieces if piece.type not in ("FROM", "BE", "FINS"))
    digits = [{*told.values("digits")} for told in (clause, following)]
    fish = following.has("FISH") and not following.has("CELLS", "IF") and following.has("HOUSES")
    return types == ["CELLS", "DENY", "DIGITS", "IF"] and fish and digits[1] <= digits[0]


def as_fin(clause: Clause) -> None:
    """The clause as one that tells a fin."""
    at = clause.pieces[0].start
    clause.pieces = [Piece("FINS", "fin", at, at), *clause.of("CELLS", "DIGITS")]
