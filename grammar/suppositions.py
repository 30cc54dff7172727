"""Chains told as if/then: the links of the clauses, and whether they are told by cases."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from .clauses import Clause, Piece
from .statements import Link, Said

CAUSING = ("LEADS", "PLACE", "FORCE")
NEGATIVE = ("DENY", "REMOVE", "GONE", "NO", "TAKE")


def links(clauses: Sequence[Clause], subject: Said[Any] | None = None) -> list[list[Said[Any]]]:
    """The links, a list for every supposition that is made anew. ``subject``: the cell spoken of before the first."""
    chains: list[list[Said[Any]]] = []
    cell: Said[Any] | None = subject
    digit: Said[Any] | None = None
    for clause in clauses:
        before = digit
        if clause.has("IF") and not clause.has("CELLS") and chains and chains[-1]:
            said = {*clause.values("digits")}
            if said <= {chains[-1][-1].value.digit}:
                continue  # "if that is 1, then ...": the last link is said again
            first = next(chain[0] for chain in chains if chain)
            cell = Said(first.value.cell, first.span)  # "and if it is 3, ...": the other case
        if (clause.has("IF") and not _echoes(clause, chains)) or not chains:
            chains.append([])
        types = [piece.type for piece in clause.pieces]
        new_cell: Said[Any] | None = None
        new_digit: Said[Any] | None = None
        negative = False
        pronoun = False
        for at, piece in enumerate(clause.pieces):
            if piece.type in NEGATIVE:
                negative = True
            elif piece.type == "IF":
                if new_cell is not None and "PRONOUN" in types and types.count("CELLS") == 1:
                    cell = new_cell  # "r2c7, if it is not 6, is 2"
                if not piece.text.startswith("is either"):
                    new_cell = new_digit = None
                negative = piece.text.split()[:1] in (["no"], ["without"])  # "no 5 in r2c3 means 8 there"
                if chains[:-1] and chains[0] and _of_pronoun(clause.pieces[at + 1 :]):
                    cell = Said(chains[0][0].value.cell, chains[0][0].span)  # "should it prove to be 3, r1c5 is left with 4"
                    pronoun = True
                if piece.text.startswith("or") and chains[-1]:
                    first = next(chain[0] for chain in chains if chain)
                    cell = Said(first.value.cell, first.span)  # "r1c1 is either 3, which ..., or 5, which ..."
                    chains.append([])
            elif (
                piece.type in CAUSING
                and piece.text != "then"
                and clause.has("IF")
                and new_digit is not None
                and new_cell is None
                and cell is not None
            ):
                for first in [chain[0] for chain in chains if chain][:1]:
                    cell = Said(first.value.cell, first.span)
                chains[-1].append(_link(cell, new_digit, not negative))  # "and a 6 gives it to r7c9"
                new_digit, negative, digit = None, False, before
            elif piece.type in ("PRONOUN",):
                pronoun = True
            elif piece.mention is not None and piece.mention.kind == "cells":
                if new_digit is not None and new_cell is None and cell is not None and pronoun:
                    chains[-1].append(_link(cell, new_digit, not negative))  # "it is 7; that makes r1c1 4"
                    new_digit, negative, pronoun = None, False, False
                new_cell = piece.mention.values[0]
            elif piece.mention is not None and piece.mention.kind == "digits":
                if new_digit is not None and new_cell is None and cell is not None and len(piece.mention.values) == 1:
                    chains[-1].append(_link(cell, new_digit, not negative))  # "not 2 there means 7"
                    negative = False
                new_digit = piece.mention.values[0]
            if new_cell is not None and new_digit is not None:
                link = _link(new_cell, new_digit, not negative)
                if not chains[-1] or chains[-1][-1].value != link.value:
                    chains[-1].append(link)
                cell, digit = new_cell, new_digit
                new_cell = new_digit = None
                negative = False
        if new_digit is not None and cell is not None and (pronoun or "CELLS" not in types):
            chains[-1].append(_link(cell, new_digit, not negative))
            digit = new_digit
        elif (
            new_cell is not None
            and digit is not None
            and clause.has("BE", "FORCE", "PLACE", "DENY", "LEADS", "ONLY", "ONLY_PLACE")
        ):
            meant = digit
            if len(chains) > 1 and len(chains[-1]) == 1 and chains[-2]:
                meant = Said(chains[-2][-1].value.digit, new_cell.span)  # "if it is 9, then r5c5 must be": what r1c1 was before
            link = _link(new_cell, meant, not negative)
            if not chains[-1] or chains[-1][-1].value != link.value:
                chains[-1].append(link)
            cell = new_cell
    return [chain for chain in chains if chain]


def _of_pronoun(pieces: Sequence[Piece]) -> bool:
    """Is it supposed of "it", and of no cell?"""
    named = next((piece for piece in pieces if piece.type in ("CELLS", "PRONOUN")), None)
    return named is not None and named.type == "PRONOUN"


def _echoes(clause: Clause, chains: Sequence[Sequence[Said[Any]]]) -> bool:
    """Does the clause suppose what was found last: ``r2c8 is 9. If r2c8 is 9, then ...``?"""
    cells = clause.values("cells")
    digits = clause.values("digits")
    if not chains or not chains[-1] or not cells or not digits:
        return False
    last = chains[-1][-1].value
    return bool(cells[0] == last.cell and digits[0] == last.digit and len(chains[-1]) > 1)


def _link(cell: Said[Any], digit: Said[Any], holds: bool) -> Said[Any]:
    return Said(Link(cell.value, digit.value, holds), cell.span)


def told_by_cases(chains: Sequence[Sequence[Said[Any]]]) -> bool:
    """Is one cell, or one digit, followed through in all it may be?"""
    if len(chains) < 2:
        return False
    first = [chain[0].value for chain in chains]
    return len(set(first)) > 1 and (len({link.cell for link in first}) == 1 or len({link.digit for link in first}) == 1)
