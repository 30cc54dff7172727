"""The checker against fresh walkthroughs, and the maker of them against plain counting and another solver."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import permutations, product
from random import Random

import pytest
from maker import FURTHER, Slipped, Walk, make, slip
from maker.board import Board, CellFact, Claim, Fact, PlaceFact, geometry
from maker.oracle import choosable, fillings, placements, proves, removals
from maker.puzzles import full_grid, puzzle
from maker.shapes import verdict
from maker.words import Group, Named, Part, Reason
from pysat.solvers import Solver

from stepwarrant.checker import audit

SEEDS = range(2001, 2013)


def graver(text: str) -> list[tuple[int, str, str]]:
    """Errors and warnings: line, code, words."""
    return [(found.line, found.code, found.message) for found in audit(text).findings if found.severity != "note"]


@pytest.fixture(scope="module")
def walks() -> dict[int, Walk]:
    """The walkthroughs of ``SEEDS``."""
    return {seed: make(seed) for seed in SEEDS}


@pytest.mark.parametrize("seed", SEEDS)
def test_a_sound_walk_gets_no_error_and_no_warning(walks: dict[int, Walk], seed: int) -> None:
    report = audit(walks[seed].text)
    assert graver(walks[seed].text) == []
    assert report.ending == "solved"
    assert [step.line for step in report.steps] == [step.line for step in walks[seed].steps]


@pytest.mark.parametrize("seed", range(8))
@pytest.mark.parametrize("size", [4, 6])
def test_a_sound_walk_on_a_small_board_gets_no_error_and_no_warning(size: int, seed: int) -> None:
    walk = make(seed, size)
    assert graver(walk.text) == []


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("spoil", [slip, *FURTHER.values()])
def test_a_slip_is_found_on_its_line(walks: dict[int, Walk], spoil: Callable[[Walk, int], Slipped | None], seed: int) -> None:
    slipped = spoil(walks[seed], seed)
    assert slipped is not None
    lines = [line for line, *_ in graver(slipped.text)]
    assert slipped.line in lines, f"{slipped.kind}, {slipped.really}\nwas: {slipped.was}\nnow: {slipped.now}"


def test_a_seed_makes_the_same_walk_and_the_same_slip_again(walks: dict[int, Walk]) -> None:
    seed = SEEDS[0]
    again = make(seed)
    assert again.lines == walks[seed].lines
    assert slip(again, 5) == slip(again, 5)
    assert make(SEEDS[1]).lines != again.lines


def test_every_pattern_is_told(walks: dict[int, Walk]) -> None:
    told = {step.name for walk in walks.values() for step in walk.steps}
    sizes = [f"{kind} {size}" for kind in ("naked", "hidden") for size in ("single", "pair", "triple", "quad")]
    fish = [fin + name for fin in ("", "finned ") for name in ("x-wing", "swordfish", "jellyfish")]
    others = ["last cell", "pointing", "claiming", "xy-wing", "xy-chain", "x-chain", "chain", "facts"]
    assert told == {*sizes, *fish, *others, "no reason", "mark candidates"}


def test_a_walk_tells_the_truth_and_a_slip_does_not(walks: dict[int, Walk]) -> None:
    for seed, walk in walks.items():
        for step in walk.steps:
            assert step.statement is None or verdict(step.statement, step.before, walk.solution) == "sound"
        changed = slip(walk, seed)
        assert changed is not None
        differing = [at for at, (old, new) in enumerate(zip(walk.lines, changed.lines, strict=True), 1) if old != new]
        assert differing == [changed.line]
        assert changed.really in ("refuted", "unproved", "absent")


def test_a_last_cell_told_of_a_house_with_other_gaps_is_absent(walks: dict[int, Walk]) -> None:
    verdicts = set()
    for walk in walks.values():
        for step in walk.steps:
            if step.name != "last cell" or step.statement is None:
                continue
            for house in step.before.geometry.houses:
                reason = Reason("last cell", (Part("in", Group((Named(*house),))),))
                told = verdict(replace(step.statement, reason=reason), step.before, walk.solution)
                open_cells = set(step.before.geometry.cells_of[house]) - step.before.filled
                assert told == ("sound" if open_cells == {step.claims[0].cell} else "absent")
                verdicts.add(told)
    assert verdicts == {"sound", "absent"}


# The maker's own oracle.


def brute_fillings(givens: str) -> set[tuple[int, ...]]:
    """All fillings of a 4x4 board, out of every way to write four rows."""
    found = set()
    for rows in product(permutations(range(1, 5)), repeat=4):
        flat = tuple(digit for row in rows for digit in row)
        fits = all(given in (".", str(digit)) for given, digit in zip(givens, flat, strict=True))
        columns = fits and all(len({row[at] for row in rows}) == 4 for at in range(4))
        if columns and all(len({flat[at + step] for step in (0, 1, 4, 5)}) == 4 for at in (0, 2, 8, 10)):
            found.add(flat)
    return found


def test_fillings_are_those_that_counting_finds() -> None:
    everything = brute_fillings("." * 16)
    assert len(everything) == 288
    assert {tuple(filling) for filling in fillings(Board.of("." * 16))} == everything
    for givens in ("1...............", "12..34..........", "1..2.3....4.....", "11.............."):
        some = {filling for filling in everything if all(g in (".", str(d)) for g, d in zip(givens, filling, strict=True))}
        assert {tuple(filling) for filling in fillings(Board.of(givens))} == some


@pytest.mark.parametrize("seed", range(20))
def test_all_facts_together_prove_what_is_so_in_every_filling(seed: int) -> None:
    rng = Random(seed)
    solution = full_grid(rng, 4)
    givens = "".join(digit if rng.random() < 0.25 else "." for digit in solution)
    board = Board.of(givens)
    every = [*fillings(board)]
    for cell in board.geometry.cells:
        for digit in board.digits[cell]:
            for holds in (True, False):
                so = all((filling[cell] == digit) == holds for filling in every)
                assert proves(board, board.geometry.facts, Claim(cell, digit, holds)) == so


@pytest.mark.parametrize("size", [4, 6, 9])
def test_a_few_facts_prove_what_a_solver_says_they_prove(size: int) -> None:
    rng = Random(size)
    board = geometry(size)
    proved = 0
    for _ in range(12):
        givens, _ = puzzle(rng, size)
        start = Board.of(givens)
        seen = [start.geometry.cells_of[rng.choice(start.geometry.houses)] for _ in range(2)]
        facts: list[Fact] = [CellFact(cell) for cells in seen for cell in rng.sample(cells, size // 2)]
        facts += [PlaceFact(rng.choice(board.digits), rng.choice(board.houses)) for _ in range(2)]
        with Solver("minisat22") as solver:
            for index, conflicts in enumerate(board.conflicts):
                for other in range(index):
                    if conflicts >> other & 1:
                        solver.add_clause([-index - 1, -other - 1])
            for index in range(size**3):
                if not start.live >> index & 1:
                    solver.add_clause([-index - 1])
            for fact in facts:
                solver.add_clause([index + 1 for index in range(size**3) if board.scope[fact] >> index & 1])
            out = set()
            for index in range(size**3):
                if start.live >> index & 1:
                    cell, digit = board.candidate(index)
                    assert proves(start, facts, Claim(cell, digit, True)) == (not solver.solve([-index - 1]))
                    if not solver.solve([index + 1]):
                        out.add(Claim(cell, digit, False))
            assert set(removals(start, facts)) == out
            proved += len(out)
    assert proved


def test_a_naked_pair_proves_its_house_and_places_nothing() -> None:
    board = Board.of("." * 16).after(Claim(cell, digit, False) for cell in (0, 1) for digit in (3, 4))
    pair = [CellFact(0), CellFact(1)]
    assert {claim.cell for claim in removals(board, pair)} == {2, 3, 4, 5}
    assert {claim.digit for claim in removals(board, pair)} == {1, 2}
    assert placements(board, pair) == []
    assert choosable(board.geometry, [0b1, 0b100000])
    assert not choosable(board.geometry, [0b1, 0b10])


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("size", [4, 6, 9])
def test_a_puzzle_has_one_solution_and_no_clue_to_spare(size: int, seed: int) -> None:
    givens, solution = puzzle(Random(seed), size)
    assert ["".join(map(str, filling)) for filling in fillings(Board.of(givens))] == [solution]
    for at, given in enumerate(givens):
        if given != ".":
            without = fillings(Board.of(givens[:at] + "." + givens[at + 1 :]))
            assert next(without) != next(without)


def test_what_a_failed_step_took_away_besides_is_not_told_twice() -> None:
    """A cell misread in a pattern makes the rest of its house another one, which a later step tells in its own right."""
    slipped = slip(make(235), 235, "column")
    assert slipped is not None
    assert {line for line, *_ in graver(slipped.text)} == {slipped.line}
