"""One word of one statement told wrong, so that the statement is no longer true as told."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields, is_dataclass, replace
from random import Random
from typing import Any

from .board import Geometry
from .shapes import verdict
from .walk import Step, Walk
from .words import Cells, Digit, Named, Statement

KINDS = ("row", "column", "transposed", "digit", "house number", "house kind")
"""What can be told wrong."""

TRIES = 60


@dataclass(frozen=True)
class Slipped:
    """A walkthrough with one slip. ``line`` and ``step`` count from 1; ``really`` is the verdict on the changed statement."""

    walk: Walk
    lines: tuple[str, ...]
    line: int
    step: int
    was: str
    now: str
    kind: str
    really: str

    @property
    def text(self) -> str:
        """The whole file."""
        return "\n".join(self.lines) + "\n"


def slip(walk: Walk, seed: int, kind: str | None = None) -> Slipped | None:
    """One word changed in one statement, in the way of ``kind`` if it is given; None where no change tried made a slip of it."""
    rng = Random(f"{walk.seed} slip {seed}" + (f" {kind}" if kind else ""))
    by_name: dict[str, list[tuple[int, Step]]] = {}
    for number, step in enumerate(walk.steps, 1):
        if step.statement is not None:
            by_name.setdefault(step.name, []).append((number, step))
    for _ in range(TRIES):
        number, step = rng.choice(by_name[rng.choice(sorted(by_name))])
        statement = step.statement
        assert statement is not None
        wanted = kind or rng.choice(KINDS)
        changes = [change for kind, change in changed(statement, step.before.geometry) if kind == wanted]
        if not changes:
            continue
        now = rng.choice(changes)
        really = verdict(now, step.before, walk.solution)
        if really not in ("sound", "idle"):
            return slipped(walk, number, now, wanted, really)
    return None


def slipped(walk: Walk, number: int, now: Statement, kind: str, really: str) -> Slipped:
    """The walkthrough with the step of that number (from 1) told otherwise."""
    step = walk.steps[number - 1]
    text = step.text.replace(str(step.statement), str(now))
    lines = (*walk.lines[: step.line - 1], text, *walk.lines[step.line :])
    return Slipped(walk, lines, step.line, number, step.text, text, kind, really)


def changed(node: Any, geometry: Geometry) -> Iterator[tuple[str, Any]]:
    """Whatever ``node`` becomes when one word in it is told otherwise, with the kind of change."""
    if isinstance(node, Cells):
        yield from _cells(node, geometry)
    elif isinstance(node, Digit):
        yield from (("digit", Digit(digit)) for digit in geometry.digits if digit != node.value)
    elif isinstance(node, Named):
        numbers = (number for number in geometry.digits if number != node.number)
        yield from (("house number", replace(node, number=number)) for number in numbers)
        yield from (("house kind", replace(node, kind=kind)) for kind in "rcb" if kind != node.kind)
    elif isinstance(node, tuple):
        for at, item in enumerate(node):
            yield from ((kind, (*node[:at], other, *node[at + 1 :])) for kind, other in changed(item, geometry))
    elif is_dataclass(node) and not isinstance(node, type):
        for field in fields(node):
            value = getattr(node, field.name)
            yield from ((kind, replace(node, **{field.name: other})) for kind, other in changed(value, geometry))


def _cells(node: Cells, geometry: Geometry) -> Iterator[tuple[str, Cells]]:
    yield from (("row", replace(node, rows=rows)) for rows in _others(node.rows, geometry))
    yield from (("column", replace(node, columns=columns)) for columns in _others(node.columns, geometry))
    if node.rows != node.columns:
        yield "transposed", replace(node, rows=node.columns, columns=node.rows)


def _others(numbers: tuple[int, ...], geometry: Geometry) -> Iterator[tuple[int, ...]]:
    for at, number in enumerate(numbers):
        yield from ((*numbers[:at], other, *numbers[at + 1 :]) for other in geometry.digits if other != number)
