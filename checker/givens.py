"""What can be wrong with the givens before anything is told."""

from __future__ import annotations

from ..grammar.statements import Grid, Problem, Said


def clash(grid: Grid) -> Problem | None:
    """The first given that stands in one house with an equal one before it."""
    seen: dict[tuple[object, int], Said[int | None]] = {}
    for cell, given in zip(grid.geometry.cells, grid.givens):
        if given.value is None:
            continue
        for house in grid.geometry.houses_of[cell]:
            if (house, given.value) in seen:
                other = next(
                    earlier
                    for earlier, held in zip(grid.geometry.cells, grid.givens)
                    if held.value == given.value and earlier in grid.geometry.cells_of[house]
                )
                details = {"digit": given.value, "house": house, "cell": cell, "other": other}
                return Problem("givens-clash", given.span, details)
            seen[house, given.value] = given
    return None
