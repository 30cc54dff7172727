"""What one step has to say: its statement taken apart, and what of it a narrator leaves unsaid."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import combinations, pairwise
from random import Random
from typing import Any, NamedTuple

from ..maker.board import Board, CellFact, Claim, Fact, House
from ..maker.oracle import proves
from ..maker.shapes import CROSS, SIZES, carrying, claims_of, facts_of, verdict
from ..maker.walk import Step
from ..maker.words import (
    Cells,
    Digit,
    Effect,
    Group,
    Link,
    Named,
    Part,
    Placement,
    Reason,
    Removal,
    Rest,
    Statement,
    one,
)


class Put(NamedTuple):
    """The cell is filled in."""

    cell: int
    digit: int


class Strike(NamedTuple):
    """Each of the digits goes from each of the cells."""

    cells: tuple[int, ...]
    digits: tuple[int, ...]


class Clear(NamedTuple):
    """The digits go from the rest of the house."""

    house: House
    digits: tuple[int, ...]


@dataclass(frozen=True)
class Plan:
    """What a telling leaves unsaid, settled on the sound statement and kept for its slip.

    ``unsaid``: of ``house`` (not a word of it), ``its`` (its kind only, as the cell's own), ``cover``, ``crossing`` (the line
    or box of pointing and claiming) and ``name``. ``natural``: the effects are all that the pattern removes, and only hinted
    at. ``back``: the house is the one of the step before and may be called the same. ``shared``: digits that the pivot shares
    with each wing, and the one that both wings have. ``kinds``: kinds of house that hold all the cells. ``ways``: kind of the
    house of each strong link. ``corners``: an X-wing is told by its four cells. ``recap``: the step is said again after it.
    """

    unsaid: frozenset[str] = frozenset()
    natural: bool = False
    back: bool = False
    shared: tuple[int, ...] = ()
    kinds: tuple[str, ...] = ()
    ways: tuple[str, ...] = ()
    corners: bool = False
    recap: bool = False


class Matter:
    """One step as its narrator sees it. Cells count from 0, digits and houses from 1."""

    def __init__(self, statement: Statement, board: Board, plan: Plan, rng: Random, manner: int = 0) -> None:
        """``rng``: this telling's own, so that the same statement is told alike again. ``manner``: the whole narration's."""
        self.statement, self.board, self.plan, self.rng, self.manner = statement, board, plan, rng, manner
        geometry = board.geometry
        self.size_of_board = geometry.size
        reason = statement.reason
        self.name = reason.name if reason else "no reason"
        self.effects = [_effect(effect, board) for effect in statement.effects]
        self.digits: list[int] = []
        self.cells: list[int] = []
        self.houses: list[House] = []
        self.cover: list[House] = []
        self.crossing: House | None = None
        self.fins: list[int] = []
        self.pivot: int | None = None
        self.links: list[tuple[int, bool, int]] = []
        self.cited: list[int | tuple[int, House]] = []
        if reason is None:
            return
        self.digits = reason.digits("") or reason.digits("on")
        for word in ("at", "wings", ":", ""):
            self.cells = self.cells or reason.cells(word, geometry)
        self.houses = reason.houses("in")
        self.cover = reason.houses("cover")
        self.crossing = next(iter(reason.houses("along") or reason.houses("within")), None)
        self.fins = reason.cells("fins", geometry)
        self.pivot = next(iter(reason.cells("pivot", geometry)), None)
        self.links = [(link.cell.on(geometry)[0], link.holds, link.digit.value) for link in reason.links()]
        if reason.name == "facts":
            for said in reason.cited():
                if isinstance(said, Cells):
                    self.cited += said.on(geometry)
                else:
                    self.cited.append((said.digit.value, said.named.house))

    @property
    def house(self) -> House:
        """The house of a pattern that has one."""
        return self.houses[0]

    @property
    def put(self) -> Put | None:
        """The one cell that is filled in, if that is the whole effect."""
        return self.effects[0] if len(self.effects) == 1 and isinstance(self.effects[0], Put) else None

    @property
    def count(self) -> int:
        """How many cells or lines the pattern's name stands for."""
        return SIZES[self.name.split()[-1]]

    def says(self, part: str) -> bool:
        """Is that part said in full?"""
        return part not in self.plan.unsaid

    def pick(self, *options: str) -> str:
        """One of the phrasings."""
        return self.rng.choice(options)

    def often(self, share: float) -> bool:
        """Yes, in that share of the cases."""
        return self.rng.random() < share

    def seen_in_turn(self, cell: int, other: int) -> bool:
        """Does either cell see the other?"""
        return other in self.board.geometry.peers[cell]


def _effect(effect: Effect, board: Board) -> Put | Strike | Clear:
    if isinstance(effect, Placement):
        return Put(effect.cell.on(board.geometry)[0], effect.digit.value)
    digits = tuple(word.value for word in effect.digits.words if isinstance(word, Digit))
    if isinstance(effect, Rest):
        return Clear(effect.named.house, digits)
    cells = (cell for word in effect.cells.words if isinstance(word, Cells) for cell in word.on(board.geometry))
    return Strike(tuple(cells), digits)


def plain(node: Any, board: Board) -> Any:
    """The same words, every cell a word of its own, without the maker's trimmings."""
    if isinstance(node, Group):
        words: list[Any] = []
        for word in node.words:
            if isinstance(word, Cells):
                words += [one(cell, board.geometry) for cell in word.on(board.geometry)]
            else:
                words.append(plain(word, board))
        return Group(tuple(words))
    if isinstance(node, Cells):
        return replace(node, upper=False)
    if isinstance(node, Named):
        return Named(*node.house)
    if isinstance(node, tuple):
        return tuple(plain(item, board) for item in node)
    if isinstance(node, Statement):
        return Statement(plain(node.effects, board), plain(node.reason, board))
    if isinstance(node, Reason):
        return Reason(node.name, plain(node.parts, board))
    if isinstance(node, Part):
        return Part(node.word, plain(node.said, board))
    if isinstance(node, Removal):
        return Removal(plain(node.cells, board), node.digits)
    if isinstance(node, Rest):
        return Rest(plain(node.named, board), node.digits)
    if isinstance(node, Placement):
        return Placement(plain(node.cell, board), node.digit)
    return node


def natural(statement: Statement, board: Board) -> set[Claim]:
    """What a reader expects the pattern to remove; empty where there is no such expectation."""
    matter = Matter(statement, board, Plan(), Random(0))
    geometry, name = board.geometry, matter.name
    cells = matter.cells
    ends: list[int] = []
    targets: set[int] = set()
    digits = matter.digits
    if name in ("pointing", "claiming"):
        assert matter.crossing is not None
        targets = set(geometry.cells_of[matter.crossing]) - set(geometry.cells_of[matter.house])
    elif name.startswith("naked") and cells:
        ends = cells
    elif name.startswith("hidden") and cells:
        pairs = ((cell, digit) for cell in cells for digit in board.digits[cell] if digit not in digits)
        return {Claim(*pair, False) for pair in pairs}
    elif matter.cover:
        based = {cell for house in matter.houses for cell in geometry.cells_of[house]}
        targets = {cell for house in matter.cover for cell in geometry.cells_of[house]} - based
        for fin in matter.fins:
            targets &= geometry.peers[fin]
    elif name in ("xy-wing", "xy-chain", "x-chain"):
        ends = cells if name == "xy-wing" else [cells[0], cells[-1]]
        digits = [wing_digits(matter)[-1]] if name == "xy-wing" else digits[:1]
    elif name == "chain":
        (first, supposed, digit), (last, holds, other) = matter.links[0], matter.links[-1]
        if (first, digit) == (last, other) and supposed != holds:
            return {Claim(first, digit, not supposed)}
        if digit == other and first != last and holds and not supposed:
            ends, digits = [first, last], [digit]
    if ends:
        targets = set.intersection(*(set(geometry.peers[cell]) for cell in ends))
    return {Claim(cell, digit, False) for cell in targets for digit in digits if board.has(cell, digit)}


def wing_digits(matter: Matter) -> tuple[int, ...]:
    """The digit that the pivot shares with each wing, and the one that the wings share."""
    assert matter.pivot is not None
    hinge = set(matter.board.digits[matter.pivot])
    held = [set(matter.board.digits[wing]) for wing in matter.cells]
    shared = [min(hinge & candidates) for candidates in held]
    return (*shared, *(held[0] - hinge))


def planned(step: Step, leaves: dict[str, float], before: House | None, rng: Random) -> tuple[Statement, Plan]:
    """The step's statement in plain words, and what its telling leaves unsaid. ``leaves``: how often each part is."""
    assert step.statement is not None
    board = step.before
    statement: Statement = plain(step.statement, board)
    matter = Matter(statement, board, Plan(), rng)
    name = matter.name

    def leave(part: str) -> bool:
        return rng.random() < leaves.get(part, 0)

    unsaid = set()
    if name == "hidden single":
        unsaid |= {"its"} if leave("its") else {"house"} if leave("single house") else set()
    elif name == "last cell":
        unsaid |= {"its"} if leave("its") else set()
    elif name.split()[0] in ("naked", "hidden") and matter.cells:
        unsaid |= {"house"} if leave(f"{name.split()[0]} house") else set()
        if name.startswith("naked") and matter.house.kind != "b" and rng.random() < 0.7:
            unsaid.add("house")  # the cells' own names show the line already
        unsaid |= {"name"} if leave("name") else set()
    elif matter.cover:
        unsaid |= {"cover"} if leave("cover") and not matter.fins else set()
        unsaid |= {"name"} if leave("name") and not matter.fins else set()
        if "name" in unsaid:
            unsaid.discard("cover")
    elif name in ("pointing", "claiming"):
        unsaid |= {"crossing"} if leave("crossing") else set()
        unsaid |= {"name"} if leave("name") else set()
    elif name in ("xy-wing", "xy-chain", "x-chain"):
        unsaid |= {"name"} if leave("name") else set()
    claims = {*step.claims}
    half = bool(claims) and claims == natural(statement, board) and leave("effects")
    back = before is not None and matter.houses[:1] == [before] and len(matter.houses) == 1 and not unsaid & {"its", "house"}
    kinds = tuple(house.kind for house in board.geometry.common(matter.cells)) if matter.cells else ()
    ways = ()
    if name == "x-chain":
        ways = tuple(_way(pair, matter.digits[0], board) for pair in zip(matter.cells[::2], matter.cells[1::2], strict=True))
    return statement, Plan(
        frozenset(unsaid),
        half,
        back and leave("back"),
        wing_digits(matter) if name == "xy-wing" else (),
        kinds,
        ways,
        name == "x-wing" and len(_corners(matter)) == 4 and leave("corners"),
        matter.put is not None and leave("recap"),
    )


def _way(pair: tuple[int, int], digit: int, board: Board) -> str:
    return next(house.kind for house in board.geometry.common(pair) if set(board.places(digit, house)) == set(pair))


def _corners(matter: Matter) -> set[int]:
    return {cell for house in matter.houses for cell in matter.board.places(matter.digits[0], house)}


def readings(statement: Statement, plan: Plan, board: Board) -> Iterator[Statement]:
    """Every statement that the telling may be taken for, whatever it leaves unsaid filled in."""
    reason = statement.reason
    if reason is None:
        yield statement
        return
    geometry = board.geometry
    reasons = [reason]
    if "name" in plan.unsaid and reason.cells("at", geometry):
        size = reason.name.split()[1]
        reasons = [replace(reason, name=f"{kind} {size}") for kind in ("naked", "hidden")]
    options: dict[str, list[tuple[House, ...]]] = {}
    if "house" in plan.unsaid:
        options["in"] = [(house,) for house in geometry.houses]
    if "its" in plan.unsaid:
        (effect,) = statement.effects
        assert isinstance(effect, Placement)
        kind = reason.houses("in")[0].kind
        options["in"] = [(geometry.houses_of[effect.cell.on(geometry)[0]][kind],)]
    if "cover" in plan.unsaid:
        cross = CROSS[reason.houses("in")[0].kind]
        lines = [House(cross, number) for number in geometry.digits]
        options["cover"] = [*combinations(lines, SIZES[reason.name.split()[-1]])]
    if "crossing" in plan.unsaid:
        word = "along" if reason.houses("along") else "within"
        options[word] = [(house,) for house in geometry.houses]
    for told in reasons:
        yield from (replace(statement, reason=filled) for filled in _filled(told, [*options.items()]))


def _filled(reason: Reason, options: list[tuple[str, list[tuple[House, ...]]]]) -> Iterator[Reason]:
    if not options:
        yield reason
        return
    (word, choices), *others = options
    for houses in choices:
        group = Group(tuple(Named(*house) for house in houses))
        parts = tuple(replace(part, said=group) if part.word == word else part for part in reason.parts)
        yield from _filled(replace(reason, parts=parts), others)


def wrong(statement: Statement, plan: Plan, board: Board, solution: str) -> str | None:
    """The maker's verdict if the statement is wrong however it is taken; None if it is sound, or may be."""
    verdicts = [_verdict(reading, plan, board, solution) for reading in readings(statement, plan, board)]
    if any(really in ("sound", "idle") for really in verdicts) or _holds_link_by_link(statement, plan, board, solution):
        return None
    return min(verdicts, key=("refuted", "unproved", "absent").index)


def _verdict(statement: Statement, plan: Plan, board: Board, solution: str) -> str:
    """As the maker says; where the effects are only hinted at, the pattern itself has to be wrong."""
    if not plan.natural:
        return verdict(statement, board, solution)
    return "absent" if facts_of(statement, board) is None else "sound"


def _holds_link_by_link(statement: Statement, plan: Plan, board: Board, solution: str) -> bool:
    """Wings and chains are also told as suppositions: do those hold, whatever carries them, and prove what is said?"""
    matter = Matter(statement, board, plan, Random(0))
    geometry = board.geometry
    new = [claim for claim in claims(statement, board) if not board.shows(claim)]
    if any((solution[cell] == str(digit)) != holds for cell, digit, holds in new):
        return False

    def link(cell: int, holds: bool, digit: int) -> Link:
        return Link(one(cell, geometry), holds, Digit(digit))

    facts: set[Fact] = set()
    if matter.name == "xy-wing":
        assert matter.pivot is not None
        *turns, both = plan.shared
        if not set(board.digits[matter.pivot]) <= {*turns}:
            return False
        facts.add(CellFact(matter.pivot))
        ways = [
            (link(matter.pivot, True, turn), link(wing, True, both)) for turn, wing in zip(turns, matter.cells, strict=True)
        ]
    elif matter.name == "xy-chain":
        told = [link(matter.cells[0], False, matter.digits[0])]
        told += [link(cell, True, digit) for cell, digit in zip(matter.cells, matter.digits[1:], strict=True)]
        ways = [*pairwise(told)]
    elif matter.name == "x-chain":
        ways = [*pairwise(link(cell, bool(at % 2), matter.digits[0]) for at, cell in enumerate(matter.cells))]
    else:
        return False
    for before, after in ways:
        carriers = carrying(before, after, board)
        if carriers is None:
            return False
        facts |= carriers
    return plan.natural or all(proves(board, facts, claim) for claim in new)


def claims(statement: Statement, board: Board) -> tuple[Claim, ...]:
    """The claims of a told statement."""
    return tuple(claims_of(statement, board))
