"""Lines named apart that meet in the cells of a pair, triple or quad: ``row 5 has a hidden pair in columns 1 and 6``."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Any

from .clauses import PLACEMENTS, REMOVALS, Clause, Piece
from .memory import KIND_WORDS, Memory
from .mentions import Mention
from .patterns import SIZES
from .statements import Said
from .vocabulary import Cell, House

LOSING = re.compile(r"(loses?|drops?|sheds?|gives? up|parts? with|forgets?|strikes?|can (strike|drop|lose|shed))\b")
BECOMING = re.compile(r"(becomes?|turns?|must be|has to be|had to be|is forced to be|cannot help)\b")
SEVERAL_PLACES = ("REST", "SAME_HOUSE", "SAME_HOUSES", "SUBSET", "FISH")


def with_cells(
    clause: Clause, before: Iterable[Clause], sentence: Iterable[Clause] = (), memory: Memory | None = None
) -> Clause:
    """The clause with cells for the lines of a subset. ``before``: what was told of the same step; ``sentence``: the clauses of
    the same sentence; ``memory``: what "the same column" is.

    The digits of a subset are as many as its cells, and it lies in one line; a fish has one digit, and as many lines each way.
    """
    told = list(before)
    if clause.witness:
        return clause  # "columns 2 and 6 have one"
    lines = _several(clause)
    own_line = _one_across(lines, [clause], memory) if lines is not None else None
    crossed = own_line or (_one_across(lines, told) if lines is not None else None)
    if lines is None or crossed is None or clause.has("CELLS", "FISH", *REMOVALS):
        return clause
    own = {*clause.values("digits")}
    of_itself = own_line is not None and len(own) == len(lines.values)
    if not of_itself and any(other.has("CELLS", "FISH", "XY_WING", "CHAIN_NAME") for other in told):
        return clause
    named = any(other.has("SUBSET") for other in (clause, *told))
    earlier = {digit for other in told for digit in other.values("digits")}
    subset = len(lines.values) in {len(own), len(own or earlier)} or (named and not own | earlier)
    boxes = {h for other in sentence if other is not clause for h in other.values("houses") if h.kind == "b"}
    locked = len(own or earlier) == 1 and len(lines.values) < 4 and bool(boxes) and clause.has("ONLY_PLACE", "CONFINED")
    if not subset and not locked:
        return clause  # "columns 5 and 6 are the only cells for 7 in row 4, and they both belong to box 5" is as good
    cells = tuple(Said(meeting(said.value, crossed), said.span) for said in lines.values)
    found = replace(lines, kind="cells", values=cells)
    pieces = [replace(p, type="CELLS", mention=found) if p.mention is lines else p for p in clause.pieces]
    return Clause(pieces, clause.joints, clause.first)


def in_turn(clause: Clause, before: Sequence[Clause]) -> Clause:
    """The clause with a cell for the line that is told a digit: ``r2c3 is 5 or 8, and column 5 is 5 or 8 as well``.

    No column is a digit; its cell in the row named last is. ``before``: what was told of the same step.
    """
    types = [piece.type for piece in clause.pieces if piece.type not in ("ALREADY", "AGAIN", "ALSO")]
    if types[:3] not in (["HOUSES", "BE", "DIGITS"], ["HOUSES", "FORCE", "DIGITS"], ["HOUSES", "DENY", "DIGITS"]):
        return clause
    if any(piece.text.split()[-1:] == ["no"] for piece in clause.of("DENY")):
        return clause  # "row 4 can have no 2": that is said of the row
    if not before or len(clause.named("houses")) != 1 or clause.has("CELLS", *SEVERAL_PLACES):
        return clause
    lines, said = clause.named("houses")[0], before[-1].values("cells")
    if len(said) != 1 or len(lines.values) != 1 or lines.bare[0].kind == "b":
        return clause
    across = House("r", said[0].row) if lines.bare[0].kind == "c" else House("c", said[0].column)
    found = replace(lines, kind="cells", values=(Said(meeting(lines.bare[0], across), lines.values[0].span),))
    return Clause(
        [replace(p, type="CELLS", mention=found) if p.mention is lines else p for p in clause.pieces],
        clause.joints,
        clause.first,
    )


def either_place(clause: Clause, before: Sequence[Clause]) -> Clause:
    """The clause with cells for the lines where a line's digit may be: ``row 2: where is the 3? in column 4 or 6``."""
    lines = [mention for mention in clause.named("houses") if mention.choice and len(mention.values) in (2, 3)]
    digits = {digit for told in before for digit in told.values("digits")}
    digits = {*clause.values("digits")} or digits
    kinds = {house.kind for mention in lines for house in mention.bare}
    if len(lines) != 1 or len(digits) != 1 or len(kinds) != 1 or kinds == {"b"} or clause.has("CELLS", *REMOVALS):
        return clause
    if any(told.has("CELLS", "FISH", "SUBSET", "CHAIN_NAME") for told in before):
        return clause
    crossed = _one_across(lines[0], before)
    if crossed is None:
        return clause
    cells = tuple(Said(meeting(said.value, crossed), said.span) for said in lines[0].values)
    found = replace(lines[0], kind="cells", values=cells)
    return Clause(
        [replace(p, type="CELLS", mention=found) if p.mention is lines[0] else p for p in clause.pieces],
        clause.joints,
        clause.first,
    )


def in_line(clause: Clause, earlier: Sequence[Clause], memory: Memory) -> Clause:
    """The clause with cells for the lines that cross the one its sentence speaks of: ``In that row, column two isn't a nine``.

    ``earlier``: the clauses of the sentence before it.
    """
    said = [piece for told in (*earlier, clause) for piece in told.of("SAME_HOUSE")]
    kind = KIND_WORDS.get(said[0].text.split()[-1]) if said else None
    unfit = ("CELLS", "ALREADY", "CONFINED", "LOCKED", "FISH", "BASE", "COVER", "NEEDED", "SUBSET", "CHAIN_NAME", "LAST_CELL")
    left = any(piece.text.startswith("lea") for piece in clause.of("LAST_CELL"))  # "that leaves one cell in the row, column 3"
    acts = clause.has(*REMOVALS) or clause.has(*PLACEMENTS)
    if kind not in ("r", "c") or not (left or (acts and not clause.has(*unfit))):
        return clause
    line = memory.since.get(kind) or memory.same_house(said[0].text, tuple(cell.value for cell in memory.cells))
    lines = clause.named("houses")
    told = [piece.type for piece in clause.pieces if piece.type != "FROM"]
    if ("REST", "HOUSES") in pairwise(told):
        return clause  # "everywhere else in column 6"
    if line is None or not lines or any({house.kind for house in mention.bare} == {kind} for mention in lines):
        return clause
    pieces: list[Piece] = []
    for piece in clause.pieces:
        if piece.mention is not None and piece.mention.kind == "houses":
            if any(house.kind == "b" for house in piece.mention.bare):
                return clause
            met = tuple(Said(meeting(said.value, line), said.span) for said in piece.mention.values)
            piece = replace(piece, type="CELLS", mention=replace(piece.mention, kind="cells", values=met))
        if piece.type not in ("REST", "SAME_HOUSE"):  # "for the rest of that row, column two isn't a nine"
            pieces.append(piece)
    return replace(clause, pieces=pieces)


def along_line(clauses: Sequence[Clause]) -> list[Clause]:
    """``Along row 9: column 4 becomes 7, and then column 7 becomes 4``: the cells of the line told first.

    No column becomes a digit.
    """
    return [_in_first_line(clause, clauses[:at]) for at, clause in enumerate(clauses)]


def _in_first_line(clause: Clause, earlier: Sequence[Clause]) -> Clause:
    pieces = [piece for piece in clause.pieces if piece.type not in ("LEADS", "ALSO", "AGAIN", "FROM")]
    told = [piece.type for piece in pieces]
    own = told[:2] == ["HOUSES", "HOUSES"]
    first = next((piece for other in (*earlier, clause) for piece in other.of("HOUSES", "CELLS")), None)
    rest = told[2:] if own else told[1:]
    becomes = rest[:2] in (["PLACE", "DIGITS"], ["FORCE", "DIGITS"]) and bool(BECOMING.match(pieces[-len(rest)].text))
    if first is None or first.mention is None or not becomes or told[0] != "HOUSES":
        return clause
    here = pieces[1 if own else 0]
    lines = [*first.mention.bare, *(here.mention.bare if here.mention else ())]
    if (
        len(lines) != 2
        or first is here
        or sorted(getattr(line, "kind", "") for line in lines) != ["c", "r"]
        or not here.mention
    ):
        return clause
    cell = Said(meeting(lines[1], lines[0]), here.mention.values[0].span)
    met = replace(here, type="CELLS", mention=replace(here.mention, kind="cells", values=(cell,)))
    led = Piece("LEADS", "along", clause.pieces[0].start, clause.pieces[0].start)
    return replace(clause, pieces=[led, *(met if p is here else p for p in clause.pieces if not (own and p is first))])


def lost_across(clause: Clause) -> Clause:
    """The clause with cells for lines that lose a digit in another: ``columns 1 and 3 lose the 3 in row 9``."""
    pieces = [piece for piece in clause.pieces if piece.type not in ("FROM", "ALSO", "AGAIN")]
    verb = pieces[1].text if len(pieces) > 1 else ""
    if [piece.type for piece in pieces[:4]] not in (["HOUSES", kind, "DIGITS", "HOUSES"] for kind in REMOVALS):
        return clause
    lines, where = pieces[0].mention, pieces[3].mention
    if lines is None or where is None or len(where.values) != 1 or not LOSING.match(verb) or clause.has(*SEVERAL_PLACES):
        return clause
    if {house.kind for house in (*lines.bare, *where.bare)} != {"r", "c"} or len({house.kind for house in lines.bare}) > 1:
        return clause
    cells = tuple(Said(meeting(said.value, where.bare[0]), said.span) for said in lines.values)
    named = replace(pieces[0], type="CELLS", mention=replace(lines, kind="cells", values=cells))
    return replace(clause, pieces=[named, *pieces[1:3], *pieces[4:]])


def _several(clause: Clause) -> Mention | None:
    """The mention of two to four rows, or columns, if it is the only one in the clause."""
    found = [mention for mention in clause.named("houses") if len(mention.values) in SIZES and not mention.choice]
    kinds = {house.kind for mention in found for house in mention.bare}
    return found[0] if len(found) == 1 and kinds in ({"r"}, {"c"}) else None


def _one_across(lines: Mention, clauses: Iterable[Clause], memory: Memory | None = None) -> Any:
    """The one line named there that crosses these. ``memory``: it may be "the same column"."""
    kind = {"r": "c", "c": "r"}[lines.bare[0].kind]
    told = list(clauses)
    across = {h for clause in told for h in clause.values("houses") if h.kind == kind}
    same = [
        piece.text for clause in told for piece in clause.of("SAME_HOUSE") if KIND_WORDS.get(piece.text.split()[-1]) == kind
    ]
    if not across and same and memory is not None:
        across = {house for house in [memory.same_house(same[0])] if house is not None}
    return across.pop() if len(across) == 1 else None


def meeting(line: House, other: House) -> Cell:
    """The cell that a row and a column share."""
    row, column = (line, other) if line.kind == "r" else (other, line)
    return Cell(row.number, column.number)
