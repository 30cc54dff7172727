"""A solver that knows four patterns and tells each step as a line of JSON.

``python tests/small_solver.py GRID | stepwarrant audit -`` has it checked. It shares nothing with the checker. ``BUGS`` can be
planted in it, one at a time: mistakes of the kind that solvers have. It notes by itself at which step a planted bug first made
a difference.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from itertools import combinations
from typing import Any

BUGS = (
    "hidden single overlooks the last cell",
    "naked single takes the first of two",
    "pair of unlike cells",
    "pointing by two",
)
Cell = tuple[int, int]
House = tuple[str, list[Cell]]
Step = tuple[dict[str, Any], list[tuple[Cell, int]], list[tuple[Cell, int]], bool]
"""A line to print; what it places and what it takes away; and whether it is right."""

LINES = [(f"{kind}{n + 1}", [(n, k) if kind == "r" else (k, n) for k in range(9)]) for kind in "rc" for n in range(9)]
BOXES = [(f"b{n + 1}", [(n // 3 * 3 + k // 3, n % 3 * 3 + k % 3) for k in range(9)]) for n in range(9)]
HOUSES: list[House] = BOXES + LINES


def name(cell: Cell) -> str:
    return f"r{cell[0] + 1}c{cell[1] + 1}"


class Solver:
    """``planted``: the number of the first step, from 1, that the bug got wrong; None so far."""

    def __init__(self, givens: str, bug: str | None = None) -> None:
        self.bug = bug
        self.planted: int | None = None
        self.held: dict[Cell, set[int]] = {(at // 9, at % 9): set(range(1, 10)) for at in range(81)}
        self.open = set(self.held)
        for at, letter in enumerate(givens):
            if letter in "123456789":
                self.place((at // 9, at % 9), int(letter))

    def place(self, cell: Cell, digit: int) -> None:
        self.held[cell] = {digit}
        self.open.discard(cell)
        for _, cells in HOUSES:
            if cell in cells:
                for other in cells:
                    if other != cell:
                        self.held[other].discard(digit)

    def lines(self) -> Iterator[dict[str, Any]]:
        """The steps, until none is found."""
        count = 0
        while True:
            found = next((step for find in (self.hidden, self.naked, self.pointing, self.pair) for step in find()), None)
            if found is None:
                return
            line, placed, taken, right = found
            count += 1
            if not right and self.planted is None:
                self.planted = count
            for cell, digit in placed:
                self.place(cell, digit)
            for cell, digit in taken:
                self.held[cell].discard(digit)
            yield line

    def hidden(self) -> Iterator[Step]:
        """Told with the path language's reason."""
        for house, cells in HOUSES:
            for digit in range(1, 10):
                if any(self.held[cell] == {digit} and cell not in self.open for cell in cells):
                    continue
                places = [cell for cell in cells if digit in self.held[cell]]
                seen = [cell for cell in cells[:-1] if digit in self.held[cell]] if self.bug == BUGS[0] else places
                if len(seen) == 1:
                    line = {"effects": [f"{name(seen[0])} = {digit}"], "reason": f"hidden single in {house}"}
                    yield line, [(seen[0], digit)], [], len(places) == 1

    def naked(self) -> Iterator[Step]:
        """Told with the name of the pattern alone."""
        for cell in sorted(self.open):
            held = sorted(self.held[cell])
            if len(held) == 1 or (self.bug == BUGS[1] and len(held) == 2):
                line = {"effects": [{"cell": name(cell), "is": held[0]}], "pattern": "naked single"}
                yield line, [(cell, held[0])], [], len(held) == 1

    def pointing(self) -> Iterator[Step]:
        """Told with the parts of the pattern."""
        for box, cells in BOXES:
            for digit in range(1, 10):
                places = [cell for cell in cells if cell in self.open and digit in self.held[cell]]
                seen = places[:2] if self.bug == BUGS[3] else places
                for line, members in LINES:
                    others = [c for c in members if c not in cells and c in self.open and digit in self.held[c]]
                    if len(seen) > 1 and set(seen) <= set(members) and others:
                        parts = {"in": box, "along": [line], "of": digit}
                        told = {"effects": {"cell": [*map(name, others)], "not": digit}, "pattern": "pointing", "parts": parts}
                        yield told, [], [(other, digit) for other in others], set(places) <= set(members)

    def pair(self) -> Iterator[Step]:
        """Told with nothing but the facts."""
        for _, cells in HOUSES:
            twos = [cell for cell in cells if len(self.held[cell]) == 2]
            for one, two in combinations(twos, 2):
                digits = self.held[one]
                same = digits == self.held[two]
                if same or (self.bug == BUGS[2] and digits & self.held[two]):
                    rest = [cell for cell in cells if cell in self.open and cell not in (one, two)]
                    taken = [(cell, digit) for cell in rest for digit in sorted(digits & self.held[cell])]
                    if taken:
                        effects = [{"cell": name(cell), "not": [digit]} for cell, digit in taken]
                        yield {"effects": effects, "facts": [name(one), name(two)]}, [], taken, same


def main() -> None:
    givens, *bug = sys.argv[1:]
    print(json.dumps({"grid": givens}))
    for line in Solver(givens, *bug).lines():
        print(json.dumps(line))


if __name__ == "__main__":
    main()
