"""Patterns of the trade in known states: the catalogue has the shape, and the oracle proves the removals from its facts alone.

No published example of these patterns with a whole grid was at hand, so the states were computed on published grids (no
source); the names are common practice. Crook's example is from memory, as its entry in data/published.json says.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import pytest
from strategies import LARGE, PUBLISHED

from stepwarrant.checker.board import Board
from stepwarrant.checker.catalogue import CATALOGUE, Parts
from stepwarrant.grammar.reader import read_grid
from stepwarrant.grammar.statements import Grid
from stepwarrant.grammar.vocabulary import Candidate, Cell, CellFact, Claim, Fact, House
from stepwarrant.sat.oracle import Oracle, Outcome

PATTERNS = PUBLISHED["patterns"]
NAMES = {
    "fish2": "x-wing",
    "finned fish2": "finned x-wing",
    "finned fish3": "finned swordfish",
    "finned fish4": "finned jellyfish",
    "XY-wing": "xy-wing",
    "XY-chain": "xy-chain",
}
IN_CATALOGUE = [number for number, found in enumerate(PATTERNS["instances"]) if found["kind"] in NAMES]
XYZ_WINGS = [number for number, found in enumerate(PATTERNS["instances"]) if found["kind"] == "XYZ-wing"]
RECTANGLES = [number for number, found in enumerate(PATTERNS["instances"]) if "rectangle" in found["kind"]]
CROOK = PUBLISHED["crook"]


def cell(text: str) -> Cell:
    """``r4c7``."""
    return Cell(int(text[1]), int(text[3]))


def house(text: str) -> House:
    """``r4``."""
    return House(text[0], int(text[1]))


def removals(texts: Iterable[str]) -> list[Candidate]:
    """``r4c7<>2`` and the like."""
    return [Candidate(cell(text[:4]), int(text[6])) for text in texts]


def state(texts: Iterable[str]) -> Board:
    """A board by the candidates of its cells. A cell with one candidate that no other cell it sees has is filled."""
    masks = tuple(sum(1 << int(digit) for digit in text) for text in texts)
    open_board = Board(LARGE, masks, frozenset())
    filled = {
        at
        for at, mask in zip(LARGE.cells, masks, strict=True)
        if mask.bit_count() == 1 and not any(open_board.has(peer, mask.bit_length() - 1) for peer in LARGE.peers[at])
    }
    return Board(LARGE, masks, frozenset(filled))


def instance(number: int) -> tuple[dict[str, Any], Board]:
    """One of the published states, with the board it is on."""
    found = PATTERNS["instances"][number]
    return found, state(PATTERNS["states"][found["state"]].split())


def parts(**said: Iterable[Any]) -> Parts:
    """The parts of a reason, by the words they are said with."""
    return Parts({}).given(**said)


def told(found: dict[str, Any]) -> Parts:
    """The instance's parts in the catalogue's words."""
    if "base" in found:
        fins = {"fins": map(cell, found["fins"])} if "fins" in found else {}
        return parts(on=[found["digit"]], in_=map(house, found["base"]), cover=map(house, found["cover"]), **fins)
    if "path" in found:
        turns: list[int | Cell] = [found["digit"]]
        for text in found["path"]:  # such as r6c2{48}
            (after,) = set(text[5:7]) - {str(turns[-1])}
            turns += [cell(text), int(after)]
        return parts(bare=turns)
    return parts(pivot=[cell(found["pivot"])], wings=map(cell, found["pincers"]))


def check_proves(board: Board, facts: tuple[Fact, ...], gone: list[Candidate]) -> None:
    """Rules and these facts, which do not contradict each other, prove that each of the candidates, open so far, is false."""
    assert gone
    with Oracle(LARGE, board.live()) as oracle:
        assert oracle.consistent(facts) is True
        consequences = oracle.consequences(facts)
        for candidate in gone:
            assert board.has(*candidate)
            answer = oracle.prove(facts, Claim(candidate, False))
            assert (answer.outcome, answer.vacuous) == (Outcome.PROVED, False)
            assert answer.core
            assert set(answer.core) <= set(facts)
            assert Claim(candidate, False) in consequences


def solution_of(key: str) -> dict[Cell, int]:
    """The one solution of a published grid."""
    return dict(zip(LARGE.cells, map(int, PUBLISHED["grids"][key]["solution"]), strict=True))


@pytest.mark.parametrize("number", range(len(PATTERNS["instances"])))
def test_the_states_are_states_of_their_puzzles(number: int) -> None:
    """The puzzle's solution is left in each state, and none of its digits is among the removals. Source: computed."""
    found, board = instance(number)
    solution = solution_of(found["puzzle"])
    assert all(board.has(at, digit) for at, digit in solution.items())
    assert all(solution[at] != digit for at, digit in removals(found["elim"]))


@pytest.mark.parametrize("number", IN_CATALOGUE)
def test_a_pattern_is_there_and_its_facts_prove_its_removals(number: int) -> None:
    """X-wing, finned X-wing, swordfish and jellyfish, XY-wing, XY-chain. Source: computed, none; names by common practice."""
    found, board = instance(number)
    pattern, reading = CATALOGUE[NAMES[found["kind"]]], told(found)
    assert list(pattern.misfits(reading, board)) == []
    assert [other.slots for other in pattern.complete(reading, board)] == [reading.slots]
    check_proves(board, pattern.facts(reading, board), removals(found["elim"]))


@pytest.mark.parametrize("number", IN_CATALOGUE)
def test_a_pattern_is_not_there_once_its_cells_hold_more(number: int) -> None:
    """A candidate more in the pattern's base or cells, and the name fits no longer; nor do the facts prove every removal."""
    found, board = instance(number)
    pattern, reading = CATALOGUE[NAMES[found["kind"]]], told(found)
    if "base" in found:
        covered = {at for line in found["cover"] for at in LARGE.cells_of[house(line)]} | set(map(cell, found.get("fins", ())))
        boxes = {at for fin in found.get("fins", ()) for at in _box_of(cell(fin))}
        digit = found["digit"]
        spoils = [
            Candidate(at, digit)
            for line in found["base"]
            for at in LARGE.cells_of[house(line)]
            if at not in covered and at not in boxes and at not in board.filled
        ]
    else:
        cells = [said.value for said in (*reading.get(""), *reading.get("pivot"), *reading.get("wings"))]
        cells = [at for at in cells if isinstance(at, Cell)]
        spoils = [Candidate(at, digit) for at in cells for digit in LARGE.digits if not board.has(at, digit)]
    assert spoils
    proved = 0
    for at, digit in spoils:
        masks = list(board.masks)
        masks[LARGE.index[at]] |= 1 << digit
        spoilt = Board(LARGE, tuple(masks), board.filled)
        assert list(pattern.misfits(reading, spoilt))
        with Oracle(LARGE, spoilt.live()) as oracle:
            consequences = oracle.consequences(pattern.facts(reading, spoilt))
            proved += {Claim(candidate, False) for candidate in removals(found["elim"])} <= consequences
    assert proved < len(spoils)


def _box_of(at: Cell) -> tuple[Cell, ...]:
    return next(cells for name, cells in LARGE.cells_of.items() if name.kind == "b" and at in cells)


@pytest.mark.parametrize("number", XYZ_WINGS)
def test_three_cells_prove_an_xyz_wing(number: int) -> None:
    """A pivot of three candidates and two wings. Source: computed, no source. The catalogue has no such name, so the three cell
    facts are cited as they are."""
    found, board = instance(number)
    cells = [cell(found["pivot"]), *map(cell, found["pincers"])]
    assert [len(board.candidates(at)) for at in cells] == [3, 2, 2]
    check_proves(board, tuple(map(CellFact, cells)), removals(found["elim"]))


@pytest.mark.parametrize("number", RECTANGLES)
def test_four_cells_do_not_prove_a_rectangle(number: int) -> None:
    """What a rectangle removes holds because the solution is unique, not by its four cells. Source: computed, no source.

    All the facts of the board do prove it, since this puzzle has one solution.
    """
    found, board = instance(number)
    warrant = tuple(CellFact(cell(text)) for text in found["cells"])
    with Oracle(LARGE, board.live()) as oracle:
        for candidate in removals(found["elim"]):
            assert board.has(*candidate)
            answer = oracle.prove(warrant, Claim(candidate, False))
            assert answer.outcome is Outcome.REFUTED
            assert answer.model is not None
            assert candidate in answer.model
            assert oracle.entailed(Claim(candidate, False)).outcome is Outcome.PROVED


def crook() -> Board:
    """Shortz 301 with its givens (from memory)."""
    grid = read_grid(CROOK["givens"])
    assert isinstance(grid, Grid)
    return Board.of(LARGE, (said.value for said in grid.givens))


def placements(texts: Iterable[str]) -> list[Claim]:
    """``r2c3=1`` and the like."""
    return [Claim(Candidate(cell(text), int(text[5])), True) for text in texts]


def test_forced_numbers_of_shortz_301() -> None:
    """Crook: "There are two forced numbers in Shortz 301: 1 in c(2,3) and 9 in c(2,6)". Source: Notices AMS 56(4) 2009, p. 464,
    seen as a quotation only; the givens from memory. Computation finds a third, r5c9=7.

    All three are hidden singles, there is no other single of either kind, and each is proved by its one fact.
    """
    board = crook()
    found = set()
    for name in ("hidden single", "naked single"):
        pattern = CATALOGUE[name]
        for reading in pattern.complete(Parts({}), board):
            if not any(pattern.misfits(reading, board)):
                claim = Claim(Candidate(reading.values("at")[0], reading.values("")[0]), True)
                found.add((name, claim))
                with Oracle(LARGE, board.live()) as oracle:
                    answer = oracle.prove(pattern.facts(reading, board), claim)
                assert (answer.outcome, answer.core) == (Outcome.PROVED, pattern.facts(reading, board))
                assert len(answer.core) == 1
    assert found == {("hidden single", claim) for claim in placements([*CROOK["quoted"], *CROOK["computed"]])}


def test_markup_of_shortz_301() -> None:
    """The candidates once the two quoted numbers are placed. Source: computed on givens from memory."""
    board = crook().after(placements(CROOK["quoted"]))
    rows = ["".join(f" {''.join(map(str, board.candidates(at)))}" for at in LARGE.cells[n : n + 9]) for n in range(0, 81, 9)]
    assert [row.strip() for row in rows] == CROOK["markup"]


@pytest.mark.parametrize("number", range(len(CROOK["preemptive"])))
def test_preemptive_sets_of_shortz_301(number: int) -> None:
    """Crook's preemptive sets are naked triples and quads. Source: his definition (seen in lecture notes); the sets: computed
    on givens from memory, and which of them the paper prints is not known."""
    found = CROOK["preemptive"][number]
    board = crook().after(placements(CROOK["quoted"]))
    cells = [cell(text) for text in found["cells"]]
    pattern = CATALOGUE[{3: "naked triple", 4: "naked quad"}[len(cells)]]
    (reading,) = pattern.complete(parts(at=cells), board)
    assert set(reading.values("")) == set(found["digits"])
    assert list(pattern.misfits(reading, board)) == []
    facts = pattern.facts(reading, board)
    assert set(facts) == set(map(CellFact, cells))
    check_proves(board, facts, removals(found["elim"]))
    for left_out in facts:
        with Oracle(LARGE, board.live()) as oracle:
            fewer = oracle.consequences([fact for fact in facts if fact != left_out])
        assert not {Claim(candidate, False) for candidate in removals(found["elim"])} <= fewer
