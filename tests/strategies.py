"""Hypothesis strategies shared by the tests: boards as sets of candidates, warrants on them, and statements."""

from __future__ import annotations

import json
import random
from collections.abc import Callable, Iterable
from functools import cache
from itertools import permutations
from pathlib import Path
from typing import Any, NamedTuple

from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st

from stepwarrant.checker.catalogue import FORMS
from stepwarrant.grammar.statements import Effect, Link, Placement, Reason, Removal, RestOf, Said, Slot, Step, Unsaid
from stepwarrant.grammar.vocabulary import Candidate, Cell, CellFact, Fact, Geometry, PlaceFact, geometry

PUBLISHED: dict[str, Any] = json.loads((Path(__file__).parent / "data" / "published.json").read_text(encoding="utf-8"))
SMALL = geometry(4)
LARGE = geometry(9)


def cases(count: int) -> Callable[[Any], Any]:
    """As many examples as that, however long one takes; a failure is shrunk but not explained, which takes minutes."""
    phases = tuple(phase for phase in Phase if phase is not Phase.explain)
    return settings(max_examples=count, deadline=None, phases=phases, suppress_health_check=[HealthCheck.too_slow])


class Setting(NamedTuple):
    """A board (its candidates), facts about it, and candidates that are only supposed to be gone."""

    live: frozenset[Candidate]
    warrant: tuple[Fact, ...]
    gone: tuple[Candidate, ...] = ()


@cache
def small_grids() -> tuple[tuple[int, ...], ...]:
    """Every complete 4x4 grid, digits in reading order: rows are permutations, so columns and boxes are all to look at."""
    rows = list(permutations((1, 2, 3, 4)))
    halves = [(a, b) for a in rows for b in rows if {*a[:2], *b[:2]} == {*a[2:], *b[2:]} == {1, 2, 3, 4}]
    whole = ((*top, *bottom) for top in halves for bottom in halves)
    right = (grid for grid in whole if all(len(set(column)) == 4 for column in zip(*grid, strict=True)))
    return tuple(tuple(digit for row in grid for digit in row) for grid in right)


def touches(fact: Fact, candidates: Iterable[Candidate]) -> bool:
    """Does the fact speak of one of the candidates?"""
    return not set(SMALL.scope(fact)).isdisjoint(candidates)


def warrants(facts: Iterable[Fact], most: int) -> st.SearchStrategy[tuple[Fact, ...]]:
    """Some of the facts, in any order."""
    return st.lists(st.sampled_from(list(facts)), unique=True, max_size=most).map(tuple)


@st.composite
def sparse_boards(draw: st.DrawFn) -> frozenset[Candidate]:
    """Eleven candidates at most, of a few digits in two houses: few enough to try every filling, near enough to clash."""
    houses = draw(st.lists(st.sampled_from(SMALL.houses), min_size=2, max_size=2, unique=True))
    digits = draw(st.lists(st.sampled_from(SMALL.digits), min_size=2, max_size=3, unique=True))
    pool = sorted({Candidate(cell, digit) for house in houses for cell in SMALL.cells_of[house] for digit in digits})
    return draw(st.frozensets(st.sampled_from(pool), min_size=1, max_size=11))


@st.composite
def sparse_settings(draw: st.DrawFn) -> Setting:
    """A sparse board, facts that speak of it (and now and then one that has no candidate left), some candidates gone."""
    live = draw(sparse_boards())
    near = [fact for fact in SMALL.facts if touches(fact, live)]
    warrant = draw(warrants(near, 6))
    if draw(st.integers(0, 9)) == 9:
        warrant += draw(warrants([fact for fact in SMALL.facts if fact not in warrant], 1))
    gone = draw(st.lists(st.sampled_from(sorted(live)), unique=True, max_size=2))
    return Setting(live, warrant, tuple(gone))


@st.composite
def small_boards(draw: st.DrawFn) -> frozenset[Candidate]:
    """A 4x4 board in some state: a complete grid's digits, others besides, and sometimes one of the right digits lost."""
    grid = draw(st.sampled_from(small_grids()))
    others = draw(st.lists(st.integers(0, 15), min_size=16, max_size=16))
    lost = draw(st.sets(st.sampled_from(SMALL.cells), max_size=2))
    live = set()
    for cell, digit, mask in zip(SMALL.cells, grid, others, strict=True):
        live |= {Candidate(cell, other) for other in SMALL.digits if mask >> other - 1 & 1 and other != digit}
        if cell not in lost:
            live.add(Candidate(cell, digit))
    return frozenset(live)


@st.composite
def small_settings(draw: st.DrawFn) -> Setting:
    """A 4x4 board in some state, any facts of it, some candidates gone."""
    live = draw(small_boards())
    gone = draw(st.lists(st.sampled_from(sorted(live)), unique=True, max_size=2))
    return Setting(live, draw(warrants(SMALL.facts, 8)), tuple(gone))


@st.composite
def large_settings(draw: st.DrawFn) -> Setting:
    """A published 9x9 grid part of the way to its solution, and facts of one neighbourhood."""
    key = draw(st.sampled_from(sorted(key for key, grid in PUBLISHED["grids"].items() if len(grid.get("solution", "")) == 81)))
    entry = PUBLISHED["grids"][key]
    chance = random.Random(draw(st.integers(0, 999)))
    keep = draw(st.sampled_from((0.3, 0.6, 0.8, 1.0)))
    live = {Candidate(cell, int(digit)) for cell, digit in zip(LARGE.cells, entry["solution"], strict=True)}
    for cell, given in zip(LARGE.cells, entry["givens"], strict=True):
        seen = {entry["givens"][LARGE.index[peer]] for peer in LARGE.peers[cell]}
        for digit in LARGE.digits:
            if given == "." and str(digit) not in seen and chance.random() < keep:
                live.add(Candidate(cell, digit))
    house = draw(st.sampled_from(LARGE.houses))
    digits = draw(st.sets(st.sampled_from(LARGE.digits), min_size=1, max_size=2))
    near: list[Fact] = [CellFact(cell) for cell in LARGE.cells_of[house]]
    near += [PlaceFact(digit, house) for digit in LARGE.digits]
    near += [PlaceFact(digit, other) for digit in sorted(digits) for other in LARGE.houses]
    return Setting(frozenset(live), draw(warrants(dict.fromkeys(near), 9)))


def board_of(geometry: Geometry, givens: Iterable[int]) -> frozenset[Candidate]:
    """The candidates of a puzzle (0 where no digit is given): all that no given rules out."""
    held = dict(zip(geometry.cells, givens, strict=True))

    def possible(cell: Cell, digit: int) -> bool:
        return held[cell] == digit if held[cell] else digit not in {held[peer] for peer in geometry.peers[cell]}

    return frozenset(Candidate(cell, digit) for cell in geometry.cells for digit in geometry.digits if possible(cell, digit))


def said(strategy: st.SearchStrategy[object]) -> st.SearchStrategy[Said[object]]:
    return strategy.map(Said)


@st.composite
def steps(draw: st.DrawFn, board: Geometry) -> Step:
    cell, house, digit = (said(st.sampled_from(pool)) for pool in (board.cells, board.houses, board.digits))
    cells = st.lists(cell, min_size=1, max_size=4).map(tuple)
    digits = st.lists(digit, min_size=1, max_size=3).map(tuple)
    nothing = st.just(())
    effect = st.one_of(
        st.builds(Placement, st.none() | cell, st.none() | digit),
        st.builds(Removal, cells | nothing, digits | nothing),
        st.builds(RestOf, st.none() | house, digits | nothing),
        st.just(Unsaid()),
    )
    effects = tuple(draw(st.lists(effect, min_size=1, max_size=3)))
    number = draw(st.none() | st.integers(0, 999))
    time = draw(st.none() | st.integers(0, 10_000_000).map(lambda thousandths: thousandths / 1000))
    form = draw(st.none() | st.sampled_from(FORMS))
    if form is None:
        return Step(effects, None, number, time)
    link = said(st.builds(Link, st.sampled_from(board.cells), st.sampled_from(board.digits), st.booleans()))
    fact = said(
        st.builds(CellFact, st.sampled_from(board.cells))
        | st.builds(PlaceFact, st.sampled_from(board.digits), st.sampled_from(board.houses))
    )
    unsaid = st.just(Said(None))
    kinds = {
        "digit": st.lists(digit, min_size=1, max_size=4),
        "cell": st.lists(cell | unsaid, min_size=1, max_size=4).filter(lambda v: any(s.value for s in v)),
        "house": st.lists(house, min_size=1, max_size=4),
        "turns": st.lists(digit | cell | unsaid, min_size=1, max_size=7).filter(lambda v: any(s.value for s in v)),
        "link": st.lists(link, min_size=1, max_size=4),
        "fact": st.lists(fact, min_size=1, max_size=4),
    }
    slots = []
    for slot in form.slots:
        if slot.kind == "fact" or draw(st.booleans()):
            slots.append(Slot(slot.word, tuple(draw(kinds[slot.kind]))))
    return Step(effects, Reason(Said(form.name), tuple(slots)), number, time)


SINGLES = ("naked single", "hidden single", "last cell")
SIZES = {"pair": 2, "triple": 3, "quad": 4, "x-wing": 2, "swordfish": 3, "jellyfish": 4}


@st.composite
def told_steps(draw: st.DrawFn, board: Geometry) -> Step:
    """Steps that words can tell whole, true or not. What is left out of them is listed in test_telling.py."""

    def some(pool: Iterable[object], least: int, most: int) -> tuple[Said[Any], ...]:
        values = list(pool)
        most = min(most, len(values))
        return tuple(map(Said, draw(st.lists(st.sampled_from(values), min_size=min(least, most), max_size=most, unique=True))))

    def cells(least: int, most: int) -> tuple[Said[Any], ...]:
        # Those of one house are told by their row or their column.
        pool = draw(st.sampled_from([board.cells, *(board.cells_of[house] for house in board.houses)]))
        return some(pool, least, most)

    def about(size: int) -> tuple[int, int]:
        return max(1, size - 1), size + 1

    form = draw(st.none() | st.sampled_from(FORMS))
    name = form.name if form else ""
    size = SIZES.get(name.split()[-1], 1) if form else 1
    words = {slot.word for slot in form.slots} if form else set()
    slots: list[Slot] = []
    for slot in form.slots if form else ():
        left_out = slot.kind != "fact" and name not in ("pointing", "claiming") and not draw(st.integers(0, 6))
        if left_out or (name in SINGLES and slot.word != "in"):
            continue
        if slot.word == {"pointing": "within", "claiming": "along"}.get(name):
            continue
        if slot.kind == "house" and name in ("pointing", "claiming"):
            boxes = (slot.word == "in") == (name == "pointing")
            values = some((house for house in board.houses if (house.kind == "b") == boxes), 1, 1)
        elif slot.kind == "house":
            kind = draw(st.sampled_from("rc")) if "at" not in words else "rcb"
            pool = [house for house in board.houses if house.kind in kind]
            values = some(pool, *(about(size) if "at" not in words else (1, 1)))
        elif slot.kind == "digit":
            values = some(board.digits, *(about(size) if slot.word == "" and size > 1 else (1, 1)))
        elif slot.kind == "cell":
            values = cells(*{"pivot": (1, 1), "wings": (1, 3), "fins": (1, 3), ":": (2, 6)}.get(slot.word, about(size)))
        elif slot.kind == "turns":
            turns = [value for cell in some(board.cells, 2, 5) for value in (cell, Said(draw(st.sampled_from(board.digits))))]
            values = (Said(draw(st.sampled_from(board.digits))), *turns)
        elif slot.kind == "link":
            pairs = some(((cell, digit) for cell in board.cells for digit in board.digits), 2, 6)
            values = tuple(Said(Link(pair.value[0], pair.value[1], draw(st.booleans()))) for pair in pairs)
        else:
            values = some(board.facts, 1, 4)
        slots.append(Slot(slot.word, values))

    def effect() -> Placement | Removal | RestOf:
        kind = draw(st.sampled_from(["placement", "placement", "removal", "removal", "rest"]))
        if kind == "placement":
            return Placement(Said(draw(st.sampled_from(board.cells))), Said(draw(st.sampled_from(board.digits))))
        said_cells, said_digits = cells(1, 4), some(board.digits, 1, 3)
        if kind == "rest":
            return RestOf(Said(draw(st.sampled_from(board.houses))), said_digits)
        open_part = draw(st.integers(0, 9))
        return Removal(() if open_part == 1 else said_cells, () if open_part == 2 else said_digits)

    effects: tuple[Effect, ...] = tuple(effect() for _ in range(draw(st.integers(1, 3))))
    if name in SINGLES and draw(st.booleans()):
        cell, digit = draw(st.sampled_from(board.cells)), draw(st.sampled_from(board.digits))
        left = draw(st.sampled_from(["nothing", "cell", "digit"]))
        effects = (Placement(None if left == "cell" else Said(cell), None if left == "digit" else Said(digit)),)
    elif form and not draw(st.integers(0, 9)):
        effects = (Unsaid(),)
    reason = Reason(Said(name), tuple(slots)) if form else None
    return Step(effects, reason, draw(st.none() | st.integers(0, 999)))
