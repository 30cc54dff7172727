"""What a step looks like: the marks on the board before it, on the board after it, and on the filling that refutes it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any, NamedTuple

from ..grammar.vocabulary import Candidate, Cell, CellFact, Claim, Fact, House, PlaceFact
from .board import Board
from .drawing import Piece, Sheet, sheet
from .findings import Finding
from .glyphs import LETTERS
from .judge import Effected
from .report import Report, StepReport


class Named(NamedTuple):
    """Facts of one cell or one house, with the letter that stands on the board for them, if letters last.

    ``lacking``: the reason does not cite them, and would have to.
    """

    letter: str
    facts: tuple[Fact, ...]
    lacking: bool


class Counter(NamedTuple):
    """A filling that keeps every rule and every given and breaks these claims of the step: why they are refuted."""

    claims: tuple[Claim, ...]
    board: Board
    marks: tuple[Piece, ...]


class Scene(NamedTuple):
    """The marks on the boards before and after a step, what the letters stand for, and the fillings that refute it."""

    before: tuple[Piece, ...]
    after: tuple[Piece, ...]
    named: tuple[Named, ...]
    counters: tuple[Counter, ...]


def scene(step: StepReport, findings: Sequence[Finding]) -> Scene:
    """What to draw of a step; ``findings``: those that belong to it."""
    drawing = sheet(step.board.geometry)
    named = tuple(_named(step, findings))
    before = [*_fact_marks(drawing, step.board, named), *_astray_marks(drawing, findings), *_effect_marks(drawing, step)]
    before += _drawn_marks(drawing, findings)
    return Scene(_once(before), _once(_after_marks(drawing, step)), named, tuple(_counters(drawing, step)))


def given_cells(report: Report) -> frozenset[Cell]:
    """The cells that the puzzle gives."""
    grid = report.path.grid
    return frozenset(cell for cell, given in zip(grid.geometry.cells, grid.givens) if given.value) if grid else frozenset()


def verdict(step: StepReport, effect: Effected) -> str:
    """What became of an effect; one that would be proved if only an earlier step had been right is ``fallen``."""
    return "fallen" if step.verdict == "fallen" and effect.verdict == "proved" else effect.verdict


def missing(findings: Iterable[Finding]) -> tuple[Fact, ...]:
    """The fewest facts that the reasons of these findings would have to cite besides."""
    found = (finding.problem.details.get("missing") for finding in findings)
    return tuple(dict.fromkeys(fact for lacking in found if lacking is not None for fact in lacking.facts))


def _named(step: StepReport, findings: Sequence[Finding]) -> Iterator[Named]:
    letters = iter(LETTERS)
    cited = dict.fromkeys([*step.warrant, *step.facts])
    for facts, lacking in ((cited, False), ([fact for fact in missing(findings) if fact not in cited], True)):
        by_place: dict[Cell | House, list[Fact]] = {}
        for fact in facts:
            by_place.setdefault(_place(fact), []).append(fact)
        for group in by_place.values():
            yield Named(next(letters, ""), tuple(group), lacking)


def _place(fact: Fact) -> Cell | House:
    return fact.cell if isinstance(fact, CellFact) else fact.house


def _fact_marks(drawing: Sheet, board: Board, named: Iterable[Named]) -> Iterator[Piece]:
    """Cells and houses that facts speak of have an outline and a letter; in a house, the digit's places have rings."""
    for group in named:
        outline, ring, tag = ("lack", "lackring", "lacktag") if group.lacking else ("fact", "ring", "tag")
        place = _place(group.facts[0])
        yield _outlined(drawing, outline, place)
        if group.letter:
            yield drawing.piece(f"{tag}{group.letter}", "tag", place)
        for fact in group.facts:
            if isinstance(fact, PlaceFact):
                cells = [cell for cell in board.places(fact.digit, fact.house) if cell not in board.filled]
                yield from (drawing.piece(ring, "candidate", Candidate(cell, fact.digit)) for cell in cells)


def _outlined(drawing: Sheet, outline: str, place: Cell | House) -> Piece:
    if isinstance(place, House):
        return drawing.piece(f"{outline}-{place.kind}", "house", place)
    return drawing.piece(outline, "cell", place)


def _astray_marks(drawing: Sheet, findings: Iterable[Finding]) -> Iterator[Piece]:
    """Cells that keep the pattern from being there, and a house that a named cell is not in."""
    for finding in findings:
        for problem in (finding.problem, *finding.also):
            if problem.code in ("pattern-absent", "broken-link", "cell-outside-house"):
                for cell in _cells(problem.details):
                    yield drawing.piece("astray", "cell", cell)
            if problem.code == "cell-outside-house":
                yield _outlined(drawing, "astray", problem.details["house"])


def _cells(details: Any) -> Iterator[Cell]:
    single = [details.get("cell"), details.get("other")]
    yield from (cell for cell in [*single, *details.get("cells", ())] if isinstance(cell, Cell))


def _effect_marks(drawing: Sheet, step: StepReport) -> Iterator[Piece]:
    """A shape on each candidate that an effect speaks of, a stroke through one that is taken away, a frame around a cell to be
    filled, and a badge in the cell's corner."""
    for effect in step.effects:
        candidate, holds = effect.claim
        kind = verdict(step, effect)
        if not step.board.has(*candidate):
            yield drawing.piece(f"lost{candidate.digit}", "candidate", candidate)
        yield drawing.piece(f"shape-{kind}", "candidate", candidate)
        yield (
            drawing.piece(f"fill-{kind}", "cell", candidate.cell)
            if holds
            else drawing.piece(f"strike-{kind}", "candidate", candidate)
        )
        yield drawing.piece(f"badge-{_gravest(step, candidate.cell)}", "badge", candidate.cell)


def _gravest(step: StepReport, cell: Cell) -> str:
    """The badge of a cell that several effects speak of."""
    order = ("refuted", "unproved", "unknown", "fallen", "proved", "idle")
    return min((verdict(step, effect) for effect in step.effects if effect.claim.candidate.cell == cell), key=order.index)


def _drawn_marks(drawing: Sheet, findings: Iterable[Finding]) -> Iterator[Piece]:
    """Where a drawn board differs from the board as it stands."""
    for finding in findings:
        for kind, candidate, _ in finding.problem.details.get("differences", ()):
            shown = "refuted" if kind == "wrong" else "unproved"
            if kind == "stale":
                yield drawing.piece(f"lost{candidate.digit}", "candidate", candidate)
            yield drawing.piece(f"shape-{shown}", "candidate", candidate)
            yield drawing.piece(f"badge-{shown}", "badge", candidate.cell)


def _after_marks(drawing: Sheet, step: StepReport) -> Iterator[Piece]:
    """What the step has changed, and how good its reason was: cells that it filled, places of candidates that it took away."""
    for effect in step.effects:
        (candidate, holds), kind = effect.claim, verdict(step, effect)
        changed = step.after.shows(effect.claim) and not step.board.shows(effect.claim)
        if changed and holds:
            yield drawing.piece(f"fill-{kind}", "cell", candidate.cell)
        elif changed:
            yield drawing.piece(f"gone-{kind}", "candidate", candidate)
        if changed or kind in ("refuted", "unproved"):
            yield drawing.piece(f"badge-{_gravest(step, candidate.cell)}", "badge", candidate.cell)


def _counters(drawing: Sheet, step: StepReport) -> Iterator[Counter]:
    """One filling for all the claims that it breaks."""
    geometry = step.board.geometry
    by_solution: dict[frozenset[Candidate], list[Claim]] = {}
    for effect in step.effects:
        if effect.verdict == "refuted" and effect.solution is not None:
            by_solution.setdefault(effect.solution, []).append(effect.claim)
    for solution, claims in by_solution.items():
        masks = dict.fromkeys(geometry.cells, 0) | {cell: 1 << digit for cell, digit in solution}
        board = Board(geometry, tuple(masks.values()), frozenset(geometry.cells))
        cells = dict.fromkeys(claim.candidate.cell for claim in claims)
        marks = [drawing.piece("fill-refuted", "cell", cell) for cell in cells]
        marks += [drawing.piece("badge-refuted", "badge", cell) for cell in cells]
        yield Counter(tuple(claims), board, tuple(marks))


def _once(pieces: Iterable[Piece]) -> tuple[Piece, ...]:
    return tuple(dict.fromkeys(pieces))
