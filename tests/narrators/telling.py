"""Walkthroughs told aloud, and told with one slip: the truth that the words stand for is kept beside them."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from random import Random
from typing import ClassVar

from ..maker.board import Board, Claim, House
from ..maker.oracle import removals
from ..maker.shapes import facts_of
from ..maker.slips import changed
from ..maker.walk import Walk
from ..maker.words import Digit, Group, Reason, Removal, Statement, one
from .layout import Laid, Piece, Place
from .matter import Matter, Plan, Put, claims, planned, wrong

KINDS = ("row", "column", "transposed", "digit", "house number", "pattern name", "one effect too many")
"""What can be told wrong."""

OTHER_NAMES = {
    "naked": "hidden",
    "hidden": "naked",
    "pair": "triple",
    "triple": "quad",
    "quad": "triple",
    "x-wing": "swordfish",
    "swordfish": "jellyfish",
    "jellyfish": "swordfish",
}

TRIES = 300


@dataclass(frozen=True)
class Told:
    """A told step. ``step``: its number in the walk, from 1. ``statement``: what the words say; ``claims``: its effects."""

    step: int
    name: str
    words: str
    place: Place
    statement: Statement
    claims: tuple[Claim, ...]


@dataclass(frozen=True)
class Slip:
    """What was told wrong. ``step`` as in ``Told``; ``really``: the maker's verdict on what is said now."""

    step: int
    kind: str
    was: str
    now: str
    really: str


@dataclass(frozen=True)
class Narration:
    """A whole narration. ``kind``: narration, srt or vtt. ``grid``: the puzzle. ``slip``: None where it is sound."""

    narrator: str
    kind: str
    text: str
    grid: str
    told: tuple[Told, ...]
    slip: Slip | None = None

    def at(self, step: int) -> Told:
        """The told step of that number in the walk."""
        return next(told for told in self.told if told.step == step)


class Narrator(ABC):
    """Someone who tells walkthroughs. ``leaves``: how often which part goes unsaid (see ``matter.planned``)."""

    name: ClassVar[str]
    leaves: ClassVar[dict[str, float]] = {}

    def tell(self, matter: Matter) -> str:
        """One step in this narrator's words."""
        tellers: dict[str, Callable[[Matter], str]] = {
            "naked single": self.naked_single,
            "hidden single": self.hidden_single,
            "last cell": self.last_cell,
            "pointing": self.locked,
            "claiming": self.locked,
            "xy-wing": self.wing,
            "xy-chain": self.xy_chain,
            "x-chain": self.x_chain,
            "chain": self.chain,
            "facts": self.facts,
            "no reason": self.bare,
        }
        if matter.name in tellers:
            return tellers[matter.name](matter)
        if matter.cover:
            return self.finned(matter) if matter.fins else self.fish(matter)
        return self.naked(matter) if matter.name.startswith("naked") else self.hidden(matter)

    @abstractmethod
    def naked_single(self, m: Matter) -> str: ...

    @abstractmethod
    def hidden_single(self, m: Matter) -> str: ...

    @abstractmethod
    def last_cell(self, m: Matter) -> str: ...

    @abstractmethod
    def locked(self, m: Matter) -> str:
        """Pointing and claiming."""

    @abstractmethod
    def naked(self, m: Matter) -> str: ...

    @abstractmethod
    def hidden(self, m: Matter) -> str: ...

    @abstractmethod
    def fish(self, m: Matter) -> str: ...

    @abstractmethod
    def finned(self, m: Matter) -> str: ...

    @abstractmethod
    def wing(self, m: Matter) -> str: ...

    @abstractmethod
    def xy_chain(self, m: Matter) -> str: ...

    @abstractmethod
    def x_chain(self, m: Matter) -> str: ...

    @abstractmethod
    def chain(self, m: Matter) -> str: ...

    @abstractmethod
    def facts(self, m: Matter) -> str: ...

    @abstractmethod
    def bare(self, m: Matter) -> str: ...

    @abstractmethod
    def opening(self, walk: Walk, rng: Random) -> Iterator[Piece]:
        """What is said before the first step."""

    @abstractmethod
    def between(self, rng: Random) -> Iterator[Piece]:
        """What is said, if anything, before a step."""

    @abstractmethod
    def closing(self, rng: Random) -> Iterator[Piece]:
        """What is said after the last step."""

    @abstractmethod
    def lay(self, pieces: list[Piece], walk: Walk, rng: Random) -> tuple[str, Laid]:
        """The kind of text, the text, and the places of the steps."""

    def recap(self, m: Matter) -> str:
        """A cell that has just been filled in, said once more; only for those who leave a ``recap`` now and then."""
        raise NotImplementedError

    def opens(self, rng: Random) -> bool:
        """Does the next step begin a paragraph?"""
        return True


@dataclass(frozen=True)
class _Script:
    """The steps of a walk that are told, each with what is to be said and the random seed of its words."""

    walk: Walk
    seed: str
    steps: tuple[tuple[int, Statement, Plan, Board], ...]

    def words(self, narrator: Narrator, at: int) -> str:
        number, statement, plan, board = self.steps[at]
        manner = Random(f"{self.seed} manner").randrange(60)
        return narrator.tell(Matter(statement, board, plan, Random(f"{self.seed} {number}"), manner))

    def recap(self, narrator: Narrator, at: int) -> Iterator[Piece]:
        _, statement, plan, board = self.steps[at]
        if plan.recap:
            yield Piece(narrator.recap(Matter(statement, board, plan, Random(f"{self.seed} recap {at}"))))


def script(narrator: Narrator, walk: Walk, seed: int) -> _Script:
    """What is going to be told, in order."""
    base = f"{narrator.name} {walk.seed} {seed}"
    rng = Random(f"{base} plan")
    steps = []
    before: House | None = None
    for number, step in enumerate(walk.steps, 1):
        if step.statement is None:
            continue
        statement, plan = planned(step, narrator.leaves, before, rng)
        steps.append((number, statement, plan, step.before))
        single = statement.reason is not None and statement.reason.name in ("hidden single", "last cell")
        # Only after a single is it plain which row, column or box the same one is.
        before = statement.reason.houses("in")[0] if single and not plan.unsaid & {"its", "house"} else None
    return _Script(walk, base, tuple(steps))


def tell(narrator: Narrator, walk: Walk, seed: int) -> Narration:
    """The walk in the narrator's words."""
    return _narration(narrator, script(narrator, walk, seed), None)


def tell_slipped(narrator: Narrator, walk: Walk, seed: int, kind: str | None = None) -> Narration | None:
    """The same narration with one slip in one step; None where none of the changes tried makes one. ``kind``: of ``KINDS``."""
    sound = script(narrator, walk, seed)
    rng = Random(f"{sound.seed} slip")
    by_name: dict[str, list[int]] = {}
    for at, (_, statement, *_) in enumerate(sound.steps):
        by_name.setdefault(statement.reason.name if statement.reason else "no reason", []).append(at)
    for _ in range(TRIES):
        at = rng.choice(by_name[rng.choice(sorted(by_name))])
        number, statement, plan, board = sound.steps[at]
        wanted = kind or rng.choice(KINDS)
        if plan.corners or plan.recap or (sound.steps[at + 1 : at + 2] and sound.steps[at + 1][2].back):
            continue
        changes = [*_changes(statement, plan, board, wanted)]
        if not changes:
            continue
        now = rng.choice(changes)
        really = wrong(now, plan, board, walk.solution)
        if really is None:
            continue
        steps = (*sound.steps[:at], (number, now, plan, board), *sound.steps[at + 1 :])
        spoilt = replace(sound, steps=steps)
        slip = Slip(number, wanted, sound.words(narrator, at), spoilt.words(narrator, at), really)
        if slip.was != slip.now:
            return _narration(narrator, spoilt, slip)
    return None


def _narration(narrator: Narrator, told: _Script, slip: Slip | None) -> Narration:
    rng = Random(f"{told.seed} talk")
    pieces = [*narrator.opening(told.walk, rng)]
    words = [told.words(narrator, at) for at in range(len(told.steps))]
    for at, said in enumerate(words):
        aside = [*narrator.between(rng)] if at else []
        pieces += aside
        opens = narrator.opens(rng)
        pieces.append(Piece(said, at, (opens and not (aside and aside[-1].opens)) or not pieces))
        pieces += told.recap(narrator, at)
    pieces += narrator.closing(rng)
    kind, (text, places) = narrator.lay(pieces, told.walk, Random(f"{told.seed} layout"))
    steps = tuple(
        Told(
            number,
            statement.reason.name if statement.reason else "no reason",
            words[at],
            places[at],
            statement,
            claims(statement, board),
        )
        for at, (number, statement, _, board) in enumerate(told.steps)
    )
    return Narration(narrator.name, kind, text, told.walk.puzzle, steps, slip)


def _changes(statement: Statement, plan: Plan, board: Board, kind: str) -> Iterator[Statement]:
    if kind == "pattern name":
        if statement.reason is not None and "name" not in plan.unsaid:
            yield from (replace(statement, reason=reason) for reason in _renamed(statement.reason))
    elif kind == "one effect too many":
        if not plan.natural:
            yield from _with_more(statement, board)
    else:
        effects = [] if plan.natural else [*changed(statement.effects, board.geometry)]
        yield from (replace(statement, effects=now) for what, now in effects if what == kind)
        reasons = changed(statement.reason, board.geometry)
        yield from (replace(statement, reason=now) for what, now in reasons if what == kind)


def _renamed(reason: Reason) -> Iterator[Reason]:
    if reason.name.endswith("single") or reason.name == "last cell":
        return
    words = reason.name.split()
    for at, word in enumerate(words):
        if word in OTHER_NAMES:
            yield replace(reason, name=" ".join((*words[:at], OTHER_NAMES[word], *words[at + 1 :])))


def _with_more(statement: Statement, board: Board) -> Iterator[Statement]:
    """One candidate more is removed, which is on the board and which the facts do not remove."""
    if statement.reason is None:
        return
    facts = facts_of(statement, board)
    assert facts is not None
    proved = {claim[:2] for claim in removals(board, facts)}
    cells_of = board.geometry.cells_of
    for at, effect in enumerate(statement.effects):
        if not isinstance(effect, Removal) or len(effect.digits.words) != 1:
            continue
        (word,) = effect.digits.words
        assert isinstance(word, Digit)
        digit = word.value
        told = Matter(Statement((effect,)), board, Plan(), Random(0)).effects[0]
        assert not isinstance(told, Put)
        near = {cell for house in board.geometry.houses for cell in cells_of[house]} - board.filled
        for cell in sorted(near):
            if board.has(cell, digit) and (cell, digit) not in proved:
                more = Removal(Group((*effect.cells.words, one(cell, board.geometry))), effect.digits)
                yield replace(statement, effects=(*statement.effects[:at], more, *statement.effects[at + 1 :]))
