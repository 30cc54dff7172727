"""The effects of a clause: what is placed, and what is taken from where."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from .clauses import Clause, Piece
from .memory import Memory
from .statements import Effect, Placement, Removal, RestOf, Said, Unsaid

ACTIVE = ("REMOVE", "TAKE")
BY_HOUSE = ("HOUSES", "LAST_CELL", "ONLY_PLACE", "SAME_HOUSE")
OPEN = ("REST", "SAME_HOUSES", "SAME_HOUSE", "PICTURE", "PRONOUNS", "SEE_BOTH", "EVERYTHING")
NEITHER = ("neither", "none of them", "none of these", "none of those")
COSTING = ("cost", "rob", "depriv", "strip")
DISTRIBUTIVE = ("both", "three", "four", "either")
NAMED = ("SUBSET", "FISH", "XY_WING", "CHAIN_NAME", "LOCKED", "PIVOT", "WINGS", "FINS")


def removals(clause: Clause, memory: Memory, pattern: set[Any], named: set[Any]) -> Iterator[Effect]:
    """The removals that a clause tells."""
    if clause.has("FOLLOWS"):
        yield Unsaid()
        return
    pieces = _told(clause)
    if any(p.type in ("ALL_ELSE", "ONLY_DIGIT", "KEEPS") for p in pieces):
        cells = [said for p in pieces if p.mention and p.mention.kind == "cells" for said in p.mention.values]
        digits = [said for p in pieces if p.mention and p.mention.kind == "digits" for said in p.mention.values]
        kept = _once(digits) if cells and clause.has("KEEPS", "ONLY_DIGIT") and len(digits) > 1 else ()
        yield Removal(tuple(cells) or tuple(Said(cell) for cell in sorted(pattern)), (), kept=kept)
        return
    groups: list[tuple[str, list[Said[Any]]]] = []
    verb = False
    houses: list[Said[Any]] = []
    also: list[Said[Any]] = []
    unsaid = False
    seen = False
    for at, piece in enumerate(pieces):
        if piece.type == "SEE_BOTH" or piece.type == "SEE":
            seen = unsaid = True
        elif piece.type in ("PICTURE", "EVERYTHING"):
            unsaid = True
        elif piece.type in ("REMOVE", "TAKE", "GONE", "DENY"):
            seen, verb = False, True
            if piece.text.startswith(NEITHER) and len(memory.cells) > 1 and not clause.has("CELLS", "HOUSES", *OPEN):
                groups.append(("cells", list(memory.cells)))  # "r1c1 and r1c2 see them, so neither is a 1"
            elif (
                piece.text.startswith(NEITHER)
                and pieces[at - 1].type == "CELLS"
                and [(kind, len(values)) for kind, values in groups] == [("cells", 1)]
                and len(memory.cells) == 1
                and any(p.type == "DIGITS" for p in pieces[at:])
            ):
                groups[0] = ("cells", [*memory.cells, *groups[0][1]])  # "r1c4 sees both and so does r3c8, and neither can be 1"
        elif piece.type == "SAME_HOUSE":
            found = memory.same_house(piece.text, tuple(pattern), named)
            if found is not None:
                houses.append(Said(found))
        elif piece.type == "SAME_HOUSES":
            unsaid = True
        elif piece.type == "THOSE_DIGITS" and groups and piece.text.split()[-1] in DISTRIBUTIVE:
            groups.append(("digits", []))  # "5 from r1c8 and both from r1c9"
        elif (
            piece.type in ("PRONOUNS", "PRONOUN", "OTHER_ONE")
            and not seen
            and not clause.has("CELLS", "REST", "SAME_HOUSES", "SAME_HOUSE", "PICTURE")
        ):
            after = any(p.type == "FROM" or p.type in ("REMOVE", "TAKE", "GONE") for p in pieces[:at])
            meant = _pronoun(piece, memory)
            if (
                meant
                and (piece.type != "PRONOUNS" or "cell" in piece.text or "square" in piece.text)
                and not (after and piece.text in ("there", "here"))
            ):
                groups.append(("cells", list(meant)))
        elif piece.mention is not None:
            if piece.mention.kind == "cells" and houses:
                also += piece.mention.values
            if piece.mention.kind == "houses":
                houses += piece.mention.values
            elif seen and piece.mention.kind == "cells":
                continue
            elif _turned(pieces, at, groups):
                groups.append((piece.mention.kind, list(piece.mention.values)))
            elif groups and groups[-1][0] == piece.mention.kind and not (verb and len(groups) > 1):
                groups[-1][1].extend(piece.mention.values)
            else:
                groups.append((piece.mention.kind, list(piece.mention.values)))
            verb = False
    yield from paired(groups, houses, unsaid, any(p.type == "REST" for p in pieces), also)


def _turned(pieces: Sequence[Piece], at: int, groups: Sequence[tuple[str, Any]]) -> bool:
    """``Out go the 4 from r5c1 and, from r5c3, the 3 and the 4``: the second cell has digits of its own after it."""
    begins = pieces[at].type == "CELLS" and at > 0 and pieces[at - 1].type == "FROM"
    return begins and [kind for kind, _ in groups] == ["digits", "cells"] and [p.type for p in pieces[at + 1 :]] == ["DIGITS"]


def _told(clause: Clause) -> list[Piece]:
    """The pieces that belong to the effect: what stands before an active verb belongs to the reason if all stands after it."""
    pieces = clause.pieces
    named = [at for at, piece in enumerate(pieces) if piece.type in NAMED]
    for at, piece in enumerate(pieces):
        if piece.type in ACTIVE:
            after, before = pieces[at:], pieces[:at]
            kinds = {p.mention.kind for p in after if p.mention}
            open_cells = any(p.type in ("REST", "PICTURE", "SEE_BOTH", "EVERYTHING", "SAME_HOUSE") for p in after)
            if "cells" in kinds or open_cells or "houses" in kinds:
                if "digits" in kinds or not any(p.mention and p.mention.kind == "digits" for p in before) or named:
                    return after
                return [p for p in before if p.mention and p.mention.kind == "digits"][-1:] + after
            if named and named[0] < at and kinds:
                return after
        if piece.type == "DENY" and piece.text.startswith(COSTING) and any(p.type == "CELLS" for p in pieces[at:]):
            return pieces[at:]  # "the pair at r1c1 and r1c4 costs r1c7 the 3"
        if piece.type in ("GONE", "DENY") and named and named[0] < at:
            return pieces[max(_last_before(pieces, at), 0) :]
    return pieces


def _last_before(pieces: Sequence[Piece], at: int) -> int:
    """The last mention before the verb: its subject."""
    return next((i for i in range(at - 1, -1, -1) if pieces[i].mention is not None), at)


def _pronoun(piece: Piece, memory: Memory) -> tuple[Said[Any], ...]:
    if piece.type == "OTHER_ONE":
        return memory.other
    if piece.type == "PRONOUNS":
        return memory.several
    return memory.cells if len(memory.cells) == 1 else ()


def paired(
    groups: list[tuple[str, list[Said[Any]]]],
    houses: Sequence[Said[Any]],
    unsaid: bool,
    rest: bool,
    also: Sequence[Said[Any]] = (),
) -> Iterator[Effect]:
    """What is taken from where. ``unsaid``: where is left open; ``rest``: it is the rest of the houses, and of ``also``."""
    kinds = [kind for kind, _ in groups]
    if len(groups) >= 4 and len(groups) % 2 == 0 and all(one != other for one, other in zip(kinds[::2], kinds[1::2])):
        for (kind, one), (_, other) in zip(groups[::2], groups[1::2]):
            first, second = (one, other) if kind == "cells" else (other, one)
            yield Removal(_once(first), _once(second))
        return
    cells = _once(said for kind, group in groups for said in group if kind == "cells")
    digits = _once(said for kind, group in groups for said in group if kind == "digits")
    if cells and not (rest and houses):
        yield Removal(cells, digits)
    elif houses and not unsaid:
        for house in houses:
            yield RestOf(house, digits)
        if also:
            yield Removal(_once(also), digits)  # "from the rest of box 2, and from r8c4 too"
    else:
        yield Removal((), digits)


def _once(values: Any) -> tuple[Said[Any], ...]:
    return tuple({said.value: said for said in values}.values())


def placements(clause: Clause, memory: Memory, subject: dict[str, Any]) -> Iterator[Placement]:
    """The placements that a clause tells."""
    groups = [(p.mention.kind, p.mention.values) for p in clause.pieces if p.mention and p.mention.kind != "houses"]
    cells = [said for kind, values in groups for said in values if kind == "cells"]
    digits = [said for kind, values in groups for said in values if kind == "digits"]
    if len(cells) == 1 and len(clause.digits) == 1:
        digits = clause.digits  # "r9c7 was 3 or 8 and has to be 8"
    if len(groups) >= 4 and len(cells) == len(digits):
        for cell, digit in zip(cells, digits):
            yield Placement(cell, digit)
        return
    if not cells:
        pronoun = next((p for p in clause.pieces if p.type in ("PRONOUN", "OTHER_ONE")), None)
        if pronoun is not None and pronoun.type == "OTHER_ONE":
            cells = list(memory.other)
        elif len(subject["cells"]) == 1:
            cells = subject["cells"]
        elif not subject["cells"] and pronoun is not None and len(memory.cells) == 1 and not clause.has(*BY_HOUSE):
            cells = list(memory.cells)
    if not digits:
        if len(subject["digits"]) == 1 and not clause.has("ONLY_DIGIT"):
            digits = subject["digits"]
        elif not subject["digits"] and len(memory.digits) == 1 and clause.has("THAT_DIGIT") and not clause.has("ONLY_DIGIT"):
            digits = list(memory.digits)
    if len(cells) > 1 and len(digits) == 1:
        return
    if cells or digits:
        yield Placement(cells[0] if cells else None, digits[0] if digits else None)
