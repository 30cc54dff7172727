"""Walkthroughs from the first line to the solved board."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from random import Random

from . import chains, fish, plain
from .board import BOX_SHAPES, Board, Claim
from .found import Finder, Found
from .oracle import placements, removals
from .puzzles import puzzle
from .shapes import claims_of, verdict
from .style import Style
from .told import as_facts, searched
from .words import Statement

SINGLES: dict[str, tuple[float, Finder]] = {
    "naked single": (1.0, plain.naked_single),
    "hidden single": (2.0, plain.hidden_single),
    "last cell": (1.5, plain.last_cell),
}

PATTERNS: dict[str, tuple[float, Finder]] = {
    "pointing": (2.5, plain.pointing),
    "claiming": (4.0, plain.claiming),
    "naked pair": (2.0, plain.naked("pair")),
    "naked triple": (1.5, plain.naked("triple")),
    "naked quad": (2.5, plain.naked("quad")),
    "hidden pair": (2.0, plain.hidden("pair")),
    "hidden triple": (2.5, plain.hidden("triple")),
    "hidden quad": (4.0, plain.hidden("quad")),
    "x-wing": (3.0, fish.fish("x-wing", 2)),
    "swordfish": (3.5, fish.fish("swordfish", 3)),
    "jellyfish": (3.0, fish.fish("jellyfish", 4)),
    "finned x-wing": (1.5, fish.finned("x-wing", 2)),
    "finned swordfish": (1.5, fish.finned("swordfish", 3)),
    "finned jellyfish": (2.0, fish.finned("jellyfish", 4)),
    "xy-wing": (12.0, chains.xy_wing),
    "xy-chain": (3.0, chains.xy_chain),
    "x-chain": (2.0, chains.x_chain),
    "chain": (1.5, chains.chain(0.1)),
}
"""Every pattern that removes candidates, with the weight by which it is looked for: the rarer it is, the heavier."""

LONGEST_WALK = 60
"""Removing steps after which a walk goes for the placements."""

SAID = (
    "The beam comes round and there it is.",
    "Slow work, but the tide is slower.",
    "I marked this one before the kettle boiled.",
    "Say it aloud once; the second keeper will nod. # no comment, this",
    "r1c1 = 1, I thought at first, and it was not.",
)
REMARKS = ("fog", "the lamp is lit", "seen from the gallery", "as on Tuesday", "because it is so")


@dataclass(frozen=True)
class Step:
    """One counted statement: where it stands (from 1), what it says, and the board before it. None: candidates are marked."""

    line: int
    text: str
    statement: Statement | None
    before: Board
    claims: tuple[Claim, ...] = ()
    facts: tuple[object, ...] = ()

    @property
    def name(self) -> str:
        """The pattern told."""
        if self.statement is None:
            return "mark candidates"
        return self.statement.reason.name if self.statement.reason else "no reason"


@dataclass(frozen=True)
class Walk:
    """A walkthrough that is sound from end to end."""

    seed: int
    lines: tuple[str, ...]
    puzzle: str
    solution: str
    steps: tuple[Step, ...]

    @property
    def text(self) -> str:
        """The whole file."""
        return "\n".join(self.lines) + "\n"


def make(seed: int, size: int = 9, *, grouped: bool = True) -> Walk:
    """The walkthrough of that seed. ``grouped``: may a chain's link go over several places of a digit at once?"""
    return _Writer(seed, size, grouped).walk()


class _Writer:
    def __init__(self, seed: int, size: int, grouped: bool) -> None:
        self.patterns = PATTERNS if grouped else {**PATTERNS, "chain": (1.5, chains.chain(0))}
        self.rng = Random(f"{seed} {size}")
        self.seed = seed
        self.puzzle, self.solution = puzzle(self.rng, size)
        self.board = Board.of(self.puzzle)
        self.style = Style.of(self.rng)
        self.lines: list[str] = []
        self.steps: list[Step] = []
        self.seconds = 0
        self.removing = 0
        self.singles_share = self.rng.uniform(0.3, 0.6)

    def walk(self) -> Walk:
        self._header()
        while not self.board.solved:
            if self.rng.random() < 0.02:
                self._mark()
            self._tell()
            if self.style.often(self.style.says):
                self.lines.append(f"say: {self.rng.choice(SAID)}")
        return Walk(self.seed, tuple(self.lines), self.puzzle, self.solution, tuple(self.steps))

    def _header(self) -> None:
        rng, size = self.rng, self.board.geometry.size
        _, width = BOX_SHAPES[size]
        blank = rng.choice("..0_")
        rows = [self.puzzle[at : at + size].replace(".", blank) for at in range(0, size * size, size)]
        self.lines.append(f"title: The Lamp Room, no. {self.seed}")
        look = rng.choice(("line", "bare", "spaced", "barred"))
        if look == "line":
            self.lines.append("grid: " + "".join(rows))
        else:
            gap = {"bare": "", "spaced": " ", "barred": " | "}[look]
            self.lines.append("grid:")
            self.lines += ["  " + gap.join(row[at : at + width] for at in range(0, size, width)) for row in rows]
        self.lines += [""] * rng.randrange(2)
        self.lines.append("steps:")

    def _tell(self) -> None:
        """One step more."""
        rng, board = self.rng, self.board
        if rng.random() < 0.015:
            self._without_reason()
            return
        for found in self._finds():
            proved = found.told
            if proved is None:
                proved = self._proved(found)
            if not proved:
                continue
            everything = rng.random() < 0.6
            told = proved if everything else tuple(rng.sample(proved, rng.randint(1, len(proved))))
            self._write(self.style.statement(sorted(told), found.reason, board, everything), found)
            return
        self._without_reason()

    def _proved(self, found: Found) -> tuple[Claim, ...]:
        """What the facts prove beyond the board: the removals, or, where they settle a cell, that cell now and then."""
        removed = tuple(removals(self.board, found.facts))
        if not removed or self.rng.random() < 0.2:
            placed = placements(self.board, found.facts)
            if placed:
                return (self.rng.choice(placed),)
        return removed

    def _finds(self) -> Iterator[Found]:
        """Patterns of random kinds, the heavier sooner; where no kind is there, facts."""
        rng, board = self.rng, self.board
        singles = _by_weight(SINGLES, rng)
        patterns = _by_weight(self.patterns, rng)
        if rng.random() < 0.03:
            yield from searched(board, self.solution, rng, 1, 6)
        if rng.random() < self.singles_share or self.removing > LONGEST_WALK:
            yield from self._found(singles)
        yield from self._found(patterns[:6])
        yield from self._found(singles)
        yield from self._found(patterns[6:])
        for depth in (1, 2, 3):
            yield from searched(board, self.solution, rng, depth)

    def _found(self, finders: list[Finder]) -> Iterator[Found]:
        for finder in finders:
            found = next(finder(self.board, self.rng), None)
            if found is not None:
                name = found.reason.name
                told_as_facts = self.rng.random() < 0.05 and (name in PATTERNS or self.rng.random() < 0.3)
                yield as_facts(found, self.board, self.rng) if told_as_facts and name != "chain" else found

    def _without_reason(self) -> None:
        """A cell is filled in, or loses a candidate, and nothing is said for it."""
        rng, board = self.rng, self.board
        cell = rng.choice([cell for cell in board.geometry.cells if cell not in board.filled])
        digit = int(self.solution[cell])
        wrong = [other for other in board.digits[cell] if other != digit]
        claim = Claim(cell, rng.choice(wrong), False) if wrong and rng.random() < 0.4 else Claim(cell, digit, True)
        self._write(self.style.statement((claim,), None, board, False), None)

    def _write(self, statement: Statement, found: Found | None) -> None:
        before = self.board
        claims = tuple(claims_of(statement, before))
        if verdict(statement, before, self.solution) != "sound":
            raise AssertionError(f"seed {self.seed}: {verdict(statement, before, self.solution)}: {statement}")
        text = self._line(str(statement))
        self.steps.append(Step(len(self.lines), text, statement, before, claims, found.facts if found else ()))
        self.removing += not any(claim.holds for claim in claims)
        self.board = before.after(claims)

    def _line(self, said: str) -> str:
        """Put the words on a line of their own, with this writer's trimmings."""
        rng, style = self.rng, self.style
        if style.often(style.comments / 2):
            self.lines.append(f"# {rng.choice(REMARKS)}")
        self.seconds += rng.randint(1, 40)
        time = f"[{self.seconds // 60}:{self.seconds % 60:02}] " if style.times else ""
        number = f"{len(self.steps) + 1}. " if style.numbers else ""
        remark = f"  # {rng.choice(REMARKS)}" if style.often(style.comments) else ""
        self.lines.append(f"{number}{time}{said}{remark}")
        return self.lines[-1]

    def _mark(self) -> None:
        text = self._line("mark candidates")
        self.steps.append(Step(len(self.lines), text, None, self.board))
        if self.rng.random() < 0.5:
            size = self.board.geometry.size
            drawn = ["".join(map(str, digits)) for digits in self.board.digits]
            width = max(map(len, drawn))
            for at in range(0, len(drawn), size):
                self.lines.append("  " + " ".join(cell.ljust(width) for cell in drawn[at : at + size]).rstrip())


def _by_weight(finders: dict[str, tuple[float, Finder]], rng: Random) -> list[Finder]:
    """All of them, in an order in which the heavier tend to come first."""
    return [finder for _, finder in sorted(finders.values(), key=lambda pair: rng.random() ** (1 / pair[0]), reverse=True)]
