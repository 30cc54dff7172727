"""Slips of more than a word: another pattern's name, one effect too many, two steps told in the wrong order."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from random import Random

from .board import Board
from .shapes import SIZES, verdict
from .slips import TRIES, Slipped, slipped
from .walk import Step, Walk
from .words import Digit, Group, Part, Placement, Reason, Removal, Rest, Statement, cells_of, digits_of, one

FISH = ("x-wing", "swordfish", "jellyfish")
SUBSETS = tuple(f"{kind} {size}" for kind in ("naked", "hidden") for size in ("pair", "triple", "quad"))


def misnamed(walk: Walk, seed: int) -> Slipped | None:
    """The pattern told under another one's name."""
    rng = Random(f"{walk.seed} misnamed {seed}")
    for number, step in _some(walk, rng):
        statement = step.statement
        if statement is None or statement.reason is None:
            continue
        reasons = renamed(statement.reason)
        if not reasons:
            continue
        now = replace(statement, reason=rng.choice(reasons))
        really = verdict(now, step.before, walk.solution)
        if really not in ("sound", "idle"):
            return slipped(walk, number, now, "name", really)
    return None


def renamed(reason: Reason) -> list[Reason]:
    """The reason under every name that is told with as many parts or fewer; a fish with fins also as one without.

    Not under a name that takes more parts: the language lets a writer leave parts unsaid.
    """
    name = reason.name
    for family in (FISH, SUBSETS, tuple(f"finned {fish}" for fish in FISH)):
        if name in family:
            least = SIZES[name.split()[-1]]
            others = [replace(reason, name=other) for other in family if other != name and SIZES[other.split()[-1]] <= least]
            if name.startswith("finned"):
                others.append(Reason(name.removeprefix("finned "), reason.parts[:-1]))
            return others
    if name in ("hidden single", "last cell"):
        return [replace(reason, name="last cell" if name == "hidden single" else "hidden single")]
    if name in ("pointing", "claiming"):
        word, other = ("within", "claiming") if name == "pointing" else ("along", "pointing")
        return [Reason(other, (*reason.parts[:-1], Part(word, reason.parts[-1].said)))]
    return []


def one_too_many(walk: Walk, seed: int) -> Slipped | None:
    """A removal of which one more cell, or one more digit, is told."""
    rng = Random(f"{walk.seed} too many {seed}")
    for number, step in _some(walk, rng):
        statement = step.statement
        if statement is None or statement.reason is None:
            continue
        effects = statement.effects
        at = rng.randrange(len(effects))
        now = replace(statement, effects=(*effects[:at], _longer(effects[at], step.before, rng), *effects[at + 1 :]))
        really = verdict(now, step.before, walk.solution)
        if now != statement and really in ("refuted", "unproved"):
            return slipped(walk, number, now, "one too many", really)
    return None


def _longer(effect: Placement | Removal | Rest, board: Board, rng: Random) -> Placement | Removal | Rest:
    if isinstance(effect, Placement):
        return effect
    told = [*digits_of(effect.digits)]
    if isinstance(effect, Removal) and rng.random() < 0.7:
        cells = [*cells_of(effect.cells, board.geometry)]
        near = sorted({cell for other in cells for cell in board.geometry.peers[other]} - set(cells))
        open_ = [cell for cell in near if any(board.has(cell, digit) for digit in told)]
        if not open_:
            return effect
        more = one(rng.choice(open_), board.geometry)
        return replace(effect, cells=Group((*effect.cells.words, more), effect.cells.gap))
    others = [digit for digit in board.geometry.digits if digit not in told]
    if not others:
        return effect
    return replace(effect, digits=Group((*effect.digits.words, Digit(rng.choice(others))), effect.digits.gap))


def swapped(walk: Walk, seed: int) -> Slipped | None:
    """Two neighbouring steps in the wrong order: the one now told first needs the other, which stays sound where it now is."""
    rng = Random(f"{walk.seed} swapped {seed}")
    for number, step in _some(walk, rng):
        if number == len(walk.steps):
            continue
        after = walk.steps[number]
        if step.statement is None or after.statement is None or after.line != step.line + 1:
            continue
        really = verdict(after.statement, step.before, walk.solution)
        first = step.before.after(after.claims)
        if really in ("sound", "idle") or verdict(step.statement, first, walk.solution) != "sound":
            continue
        if any(first.shows(claim) for claim in step.claims) or not _links_stand(step.statement, first):
            continue
        now = step.text.replace(str(step.statement), str(after.statement))
        later = after.text.replace(str(after.statement), str(step.statement))
        lines = (*walk.lines[: step.line - 1], now, later, *walk.lines[after.line :])
        return Slipped(walk, lines, step.line, number, step.text, now, "swapped", really)
    return None


def _links_stand(statement: Statement, board: Board) -> bool:
    """Is every candidate that a chain speaks of still on the board?"""
    links = statement.reason.links() if statement.reason else []
    return all(board.has(link.cell.on(board.geometry)[0], link.digit.value) for link in links)


def _some(walk: Walk, rng: Random) -> list[tuple[int, Step]]:
    numbered = [*enumerate(walk.steps, 1)]
    return [rng.choice(numbered) for _ in range(TRIES * 3)]


FURTHER: dict[str, Callable[[Walk, int], Slipped | None]] = {
    "name": misnamed,
    "one too many": one_too_many,
    "swapped": swapped,
}
"""The further kinds, each with its maker."""
