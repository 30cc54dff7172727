"""Whether a statement is sound as told: is the pattern there, and do its facts prove the effects?"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable
from itertools import pairwise
from typing import Literal

from .board import Board, CellFact, Claim, Fact, House, PlaceFact
from .oracle import proves
from .words import Cells, Link, Placement, Reason, Rest, Statement, cells_of, digits_of

SIZES = {"pair": 2, "triple": 3, "quad": 4, "x-wing": 2, "swordfish": 3, "jellyfish": 4}
CROSS = {"r": "c", "c": "r"}

Verdict = Literal["sound", "refuted", "unproved", "absent", "idle"]


def verdict(statement: Statement, board: Board, solution: str) -> Verdict:
    """What the statement is on this board.

    ``refuted``: an effect is false in the solution. ``absent``: the pattern is not as told. ``unproved``: the facts do not
    prove an effect that the board does not show yet. ``idle``: sound, but for saying nothing new.
    """
    claims = claims_of(statement, board)
    if any((solution[cell] == str(digit)) != holds for cell, digit, holds in claims):
        return "refuted"
    new = [claim for claim in claims if not board.shows(claim)]
    if statement.reason is not None:
        facts = facts_of(statement, board)
        if facts is None:
            return "absent"
        if not all(proves(board, facts, claim) for claim in new):
            return "unproved"
    return "sound" if new else "idle"


def claims_of(statement: Statement, board: Board) -> list[Claim]:
    """Every claim of the statement, each once."""
    geometry = board.geometry
    claims: list[Claim] = []
    for effect in statement.effects:
        if isinstance(effect, Placement):
            claims.append(Claim(effect.cell.on(geometry)[0], effect.digit.value, True))
        elif isinstance(effect, Rest):
            named = made_of(statement.reason, board) if statement.reason else set()
            rest = [cell for cell in geometry.cells_of[effect.named.house] if cell not in named]
            pairs = ((cell, digit) for cell in rest for digit in digits_of(effect.digits))
            claims += (Claim(*pair, False) for pair in pairs if board.has(*pair))
        else:
            cells = [*cells_of(effect.cells, geometry)]
            claims += (Claim(cell, digit, False) for cell in cells for digit in digits_of(effect.digits))
    return [*dict.fromkeys(claims)]


def made_of(reason: Reason, board: Board) -> set[int]:
    """The cells that the reason names, one by one or as the places it speaks of."""
    geometry = board.geometry
    if reason.name in ("pointing", "claiming"):
        (house,), (other,) = reason.houses("in"), reason.houses("along") or reason.houses("within")
        return set(geometry.cells_of[house]) & set(geometry.cells_of[other])
    cells = {cell for part in reason.parts for cell in reason.cells(part.word, geometry)}
    cells |= {cell for link in reason.links() for cell in link.cell.on(geometry)}
    cells |= {cell for said in reason.cited() if isinstance(said, Cells) for cell in said.on(geometry)}
    if reason.digits("on") and reason.houses("cover"):
        cells |= {cell for house in reason.houses("in") for cell in geometry.cells_of[house]}
    return cells


def facts_of(statement: Statement, board: Board) -> Collection[Fact] | None:
    """The facts that the reason cites, or None where its pattern is not there as told."""
    reason = statement.reason
    assert reason is not None
    *_, kind = reason.name.split()
    if reason.name in ("naked single", "hidden single", "last cell"):
        return _single(statement, reason, board)
    return SHAPES[kind](reason, board)


def _single(statement: Statement, reason: Reason, board: Board) -> list[Fact] | None:
    (effect,) = statement.effects
    assert isinstance(effect, Placement)
    (cell,) = effect.cell.on(board.geometry)
    if cell in board.filled:
        return None
    if reason.name == "naked single":
        return [CellFact(cell)] if len(board.digits[cell]) == 1 else None
    (house,) = reason.houses("in")
    if reason.name == "last cell":
        return [CellFact(cell)] if board.gaps(house) == [cell] else None
    fact = PlaceFact(effect.digit.value, house)
    return [fact] if board.places(*fact) == (cell,) else None


def _intersection(reason: Reason, board: Board) -> list[Fact] | None:
    (digit,), (house,) = reason.digits(""), reason.houses("in")
    (other,) = reason.houses("along") or reason.houses("within")
    line, box = (other, house) if reason.name == "pointing" else (house, other)
    if line.kind not in CROSS or box.kind != "b" or board.placed(digit, house):
        return None
    inside = board.geometry.cells_of[other]
    return [PlaceFact(digit, house)] if all(cell in inside for cell in board.places(digit, house)) else None


def _subset(reason: Reason, board: Board) -> list[Fact] | None:
    hidden, size = reason.name.startswith("hidden"), SIZES[reason.name.split()[1]]
    digits, cells, (house,) = reason.digits(""), reason.cells("at", board.geometry), reason.houses("in")
    if not _distinct(digits, size) or not _distinct(cells, size):
        return None
    if any(cell in board.filled or cell not in board.geometry.cells_of[house] for cell in cells):
        return None
    if not hidden:
        return [*map(CellFact, cells)] if all(set(board.digits[cell]) <= set(digits) for cell in cells) else None
    if any(board.placed(digit, house) or not set(board.places(digit, house)) <= set(cells) for digit in digits):
        return None
    return [PlaceFact(digit, house) for digit in digits]


def _fish(reason: Reason, board: Board) -> list[Fact] | None:
    size = SIZES[reason.name.split()[-1]]
    (digit,), base, cover = reason.digits("on"), reason.houses("in"), reason.houses("cover")
    fins = reason.cells("fins", board.geometry)
    kind = base[0].kind
    if not _distinct(base, size) or not _distinct(cover, size) or not _distinct(fins, len(fins)):
        return None
    if kind not in CROSS or {house.kind for house in base} != {kind} or {house.kind for house in cover} != {CROSS[kind]}:
        return None
    if any(board.placed(digit, house) for house in base):
        return None
    covered = _union(cover, board)
    places = {cell for house in base for cell in board.places(digit, house)}
    if reason.name.startswith("finned"):
        boxes = {board.geometry.houses_of[cell]["b"] for cell in fins}
        if set(fins) != places - covered or len(boxes) != 1:
            return None
        near = _union(base, board) & _union(boxes, board)
        if any(not (places | near) & set(board.geometry.cells_of[house]) for house in cover):
            return None
    elif not places <= covered:
        return None
    return [PlaceFact(digit, house) for house in base]


def _wing(reason: Reason, board: Board) -> list[Fact] | None:
    (pivot,), wings = reason.cells("pivot", board.geometry), reason.cells("wings", board.geometry)
    if not _distinct([pivot, *wings], 3) or any(wing not in board.geometry.peers[pivot] for wing in wings):
        return None
    if any(cell in board.filled or len(board.digits[cell]) != 2 for cell in (pivot, *wings)):
        return None
    hinge, one, other = (set(board.digits[cell]) for cell in (pivot, *wings))
    fits = len(hinge & one) == len(hinge & other) == 1 and hinge & one != hinge & other and one - hinge == other - hinge
    return [*map(CellFact, (pivot, *wings))] if fits else None


def _xy_chain(reason: Reason, board: Board) -> list[Fact] | None:
    digits, cells = reason.digits(""), reason.cells("", board.geometry)
    if not _distinct(cells, len(digits) - 1) or digits[0] != digits[-1]:
        return None
    for before, after, cell in zip(digits, digits[1:], cells, strict=False):
        if cell in board.filled or set(board.digits[cell]) != {before, after} or before == after:
            return None
    seen = all(after in board.geometry.peers[before] for before, after in pairwise(cells))
    return [*map(CellFact, cells)] if seen else None


def _x_chain(reason: Reason, board: Board) -> list[Fact] | None:
    (digit,), cells = reason.digits("on"), reason.cells(":", board.geometry)
    if not _distinct(cells, len(cells)) or len(cells) < 4 or len(cells) % 2:
        return None
    if any(cell in board.filled for cell in cells):
        return None
    if any(other not in board.geometry.peers[cell] for cell, other in zip(cells[1::2], cells[2::2], strict=False)):
        return None
    facts: list[Fact] = []
    for pair in zip(cells[::2], cells[1::2], strict=True):
        houses = [house for house in board.geometry.common(pair) if set(board.places(digit, house)) == set(pair)]
        if not houses:
            return None
        facts.append(PlaceFact(digit, houses[0]))
    return facts


def _chain(reason: Reason, board: Board) -> set[Fact] | None:
    """All the facts of which each alone carries a link: which of them a writer has in mind is not said."""
    links = reason.links()
    facts: set[Fact] = set()
    for before, after in pairwise(links):
        carriers = carrying(before, after, board)
        if carriers is None:
            return None
        facts |= carriers
    return facts


def carrying(before: Link, after: Link, board: Board) -> set[Fact] | None:
    """The facts of which each alone carries the link, none if it takes none; None where no single fact does."""
    geometry = board.geometry
    old, new = (geometry.index(link.cell.on(geometry)[0], link.digit.value) for link in (before, after))
    left = board.live & ~geometry.conflicts[old] if before.holds else board.live & ~(1 << old)
    if before.holds and not board.live >> old & 1:
        return set()
    if (not after.holds and not left >> new & 1) or (after.holds and before.holds and old == new):
        return set()
    allowed = 1 << new if after.holds else geometry.conflicts[new]
    carriers = {fact for fact, scope in geometry.scope.items() if not scope & left & ~allowed}
    return carriers or None


def _facts(reason: Reason, board: Board) -> list[Fact] | None:
    facts: list[Fact] = []
    for said in reason.cited():
        if isinstance(said, Cells):
            facts += map(CellFact, said.on(board.geometry))
        else:
            facts.append(PlaceFact(said.digit.value, said.named.house))
    return facts if _distinct(facts, len(facts)) else None


def _distinct(values: Collection[object], count: int) -> bool:
    return len(values) == len(set(values)) == count


def _union(houses: Iterable[House], board: Board) -> set[int]:
    return {cell for house in houses for cell in board.geometry.cells_of[house]}


SHAPES: dict[str, Callable[[Reason, Board], Collection[Fact] | None]] = {
    **dict.fromkeys(("pointing", "claiming"), _intersection),
    **dict.fromkeys(("pair", "triple", "quad"), _subset),
    **dict.fromkeys(("x-wing", "swordfish", "jellyfish"), _fish),
    "xy-wing": _wing,
    "xy-chain": _xy_chain,
    "x-chain": _x_chain,
    "chain": _chain,
    "facts": _facts,
}
