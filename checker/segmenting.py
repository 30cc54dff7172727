"""Which sentences make one step: of all ways to part a stretch of them, one that the board bears out and that uses most names.

A step is told in one sentence or in several, and two in one. Where the words by themselves lead to nothing that holds, every
run of sentences of the stretch is read by itself, by its words and by its names alone; what holds is chained from the left,
each step on the board that those before it leave, so that as few names as can be are left over.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import Any

from ..grammar.clauses import REASONS
from ..grammar.frame import used
from ..grammar.gathering import Gatherer
from ..grammar.reading import Reading
from ..grammar.statements import Effect, Link, Placement, Removal, RestOf, Said, Step
from ..grammar.vocabulary import Candidate, Cell, House
from .board import Board
from .catalogue.chains import link_fact
from .judge import Judged, judge, leaves_open
from .puzzle import Puzzle, Standing
from .replay import plain_claims

LONGEST_PART = 6
"""Sentences that one step may have."""
LONGEST_CHAIN = 12
"""Those of a supposition that is followed up, a sentence a link, where its words tell all of it."""
TRIED = 400
"""Steps that the names of one run of sentences are put together to."""
SKIPPED, ELSEWHERE = 1.0, 0.5
"""What it costs to leave a sentence out, besides its names, and to leave out a house."""
OPEN, REASONLESS, CITED, CROSSING, STEP, BY_NAMES = 1.5, 1.5, 1.0, 1.0, 0.3, 0.4
"""What it costs that a step's effects are left open, that it has no reason, every fact that stands for one, that it crosses a
paragraph's beginning, that it is one more step, and that its words were not known: two by words go before one by names."""


WITNESS = 0.2
"""What it costs in speech without full stops that something is named for a single that does not come into it."""
MOST_CHUNKS, INSIDE, FAILS, GUESSED = 14, 0.1, 3.0, 1.0
"""Parts of a sentence that several steps are looked for in; what each step inside one costs, that one of them does not hold,
and that names are put together to a chain though nothing is supposed."""
SINGLES = ("naked single", "hidden single", "last cell")


class BoardSight:
    """What names may come to on one board of a puzzle: see ``grammar.assembling.Sight``."""

    def __init__(self, puzzle: Puzzle, board: Board) -> None:
        self.board = board
        self.solution = puzzle.solution
        self.led: dict[tuple[Link, Link], bool] = {}

    def candidates(self, cell: Cell) -> Collection[int]:
        """The digits that the cell may still hold; a filled cell's digit alone."""
        return self.board.candidates(cell)

    def possible(self, effect: Effect) -> bool:
        """Would the effect change the board, and is it true of its solution, as far as both are said?"""
        if isinstance(effect, RestOf):
            cells = self.board.geometry.cells_of[effect.house.value] if effect.house else self.board.geometry.cells
            return not effect.digits or any(self.board.has(cell, digit.value) for digit in effect.digits for cell in cells)
        return not any(
            self.board.shows(claim) or (self.solution is not None and (claim.candidate in self.solution) != claim.holds)
            for claim in plain_claims(effect)
        )

    def leads(self, before: Link, after: Link) -> bool:
        """Does the one follow from the other, by the rules and one fact of the board?"""
        if after.cell in self.board.filled or not self.board.has(after.cell, after.digit):
            return False  # what the board shows already is no link
        key = before, after
        if key not in self.led:
            self.led[key] = link_fact(before, after, self.board) is not None
        return self.led[key]


@dataclass(frozen=True)
class Segment:
    """The steps that the sentences ``numbers`` tell; none where they are left out.

    ``by_words``: not by their names alone; ``fails``: they do not hold, and are told all the same.
    """

    numbers: tuple[int, ...]
    steps: tuple[Step, ...]
    cost: float
    by_words: bool = False
    fails: bool = False


@dataclass(frozen=True)
class Plan:
    """A way to part a stretch, as far as it has come: the segments in order, and where they leave the board."""

    standing: Standing
    segments: tuple[Segment, ...] = ()
    cost: float = 0.0

    def on(self, segment: Segment, standing: Standing) -> Plan:
        """The plan with one segment more."""
        return Plan(standing, (*self.segments, segment), self.cost + segment.cost)


@dataclass
class Parter:
    """Parts the sentences of one narration. ``told``: its readings, by their sentences."""

    puzzle: Puzzle
    gatherer: Gatherer
    told: dict[tuple[int, ...], Reading]
    apart: dict[tuple[int, ...], list[Reading]] = field(default_factory=dict)
    found: dict[tuple[int, int, Board], tuple[Step, Judged] | None] = field(default_factory=dict)
    sight: BoardSight | None = None

    def plan(self, numbers: Sequence[int], standing: Standing) -> Plan:
        """The cheapest plan for these sentences, told on that standing."""
        best: dict[int, Plan] = {0: Plan(standing)}
        for end in range(1, len(numbers) + 1):
            ways = [self._skipped(best[end - 1], numbers[end - 1])]
            for begin in range(max(0, end - LONGEST_CHAIN), end):
                if end - begin <= LONGEST_PART or self.gatherer.supposes(numbers[begin : begin + 2]):
                    ways += self._longer(best[begin], tuple(numbers[begin:end]))
            best[end] = min(ways, key=lambda plan: plan.cost)
        return best[len(numbers)]

    def _skipped(self, plan: Plan, number: int) -> Plan:
        names = len(self.gatherer.named([number])) + ELSEWHERE * len(self.gatherer.houses([number]))
        return plan.on(Segment((number,), (), (SKIPPED + names) if self.gatherer.names(number) else 0.0), plan.standing)

    def _longer(self, plan: Plan, numbers: tuple[int, ...]) -> Iterator[Plan]:
        ends = (numbers[0], numbers[-1])
        if not all(map(self.gatherer.speaks, ends)) or any(map(self.gatherer.strays, numbers)):
            return  # a step neither begins nor ends with mere talk, and names only what the board has
        whole = self.told.get(numbers)
        if whole is not None:
            yield from self._read([whole], plan, numbers)
        if numbers not in self.apart:
            self.apart[numbers] = self.gatherer.told_apart(numbers)
        readings = self.apart[numbers]
        if len(readings) > 1 and len(numbers) > 1 and not _run_on(readings):
            readings = []  # of several sentences one step is wanted; more are more segments
        by_words = [*self._read(readings, plan, numbers)]
        yield from by_words
        together = len(numbers) <= LONGEST_PART or self.gatherer.supposes(numbers[:1])
        if together and not any(self._costs(way) <= STEP for way in by_words):
            yield from self._put_together(plan, numbers)
            if len(numbers) == 1 and self.gatherer.whole:
                yield from self._within(plan, numbers[0])

    @staticmethod
    def _costs(plan: Plan) -> float:
        return plan.segments[-1].cost

    def _read(self, readings: Sequence[Reading], plan: Plan, numbers: tuple[int, ...]) -> Iterator[Plan]:
        held = self.by_words(readings, plan.standing)
        if held is not None:
            steps, standing = held
            yield plan.on(replace(self._segment(numbers, steps), by_words=True), standing)

    def by_words(self, readings: Sequence[Reading], standing: Standing) -> tuple[list[Step], Standing] | None:
        """The steps of the readings one after the other as their words have it, and where they lead, if all of them hold."""
        steps: list[Step] = []
        for reading in readings:
            for told in reading.alternatives:
                option = [with_lost(step, standing.board) for step in told]
                taken = self._all_hold(option, standing)
                if taken is not None:
                    steps += option
                    standing = taken
                    break
            else:
                return None
        return (steps, standing) if steps else None

    def _all_hold(self, option: Sequence[Step], standing: Standing) -> Standing | None:
        for step in option:
            if anywhere(step):
                return None
            judged = judge(step, standing, self.puzzle, brief=True)
            if not (judged.clean and judged.verdict == "warranted"):
                return None
            standing = after(standing, judged)
        return standing

    def _within(self, plan: Plan, number: int) -> Iterator[Plan]:
        """The plan with one sentence parted into several steps: ``Row 1 ends with an 8 in r1c5, box 2 with a 9 in r2c6``.

        What names no cell may be passed over. Of parts that tell a placement plainly one that does not hold is told all the
        same: it is held against the narrator, and not against what stands beside it.
        """
        gatherer = self.gatherer
        chunks = gatherer.chunks(number)
        if not 2 < len(chunks) <= MOST_CHUNKS or not gatherer.cells(number) or gatherer.says(number, "IF", "CHAIN_NAME"):
            return
        best: dict[int, Plan] = {0: plan}
        for end in range(1, len(chunks)):
            ways: list[Plan] = []
            for begin in range(end):
                if begin in best:
                    ways += self._chunk(best[begin], number, chunks[begin], chunks[end])
            if ways:
                best[end] = min(ways, key=lambda way: way.cost)
        told = best.get(len(chunks) - 1)
        if told is not None and sum(len(segment.steps) for segment in told.segments[len(plan.segments) :]) > 1:
            yield told

    def _chunk(self, plan: Plan, number: int, begin: int, end: int) -> Iterator[Plan]:
        pieces = self.gatherer.pieces[begin:end]
        names = {value for piece in pieces if piece.mention for value in piece.mention.bare}
        cells = {value for value in names if isinstance(value, Cell)}
        if not cells:
            yield plan.on(Segment((number,), (), self._unused(names, (), plan)), plan.standing)
            if not any(isinstance(value, House) for value in names) or not any(isinstance(value, int) for value in names):
                return
        readings = self.gatherer.part(number, begin, end)
        held = self.by_words(readings, plan.standing)
        if held is not None and explicit(held[0]):
            steps, standing = held
            cost = INSIDE * len(steps) + self._unused(names, steps, plan)
            yield plan.on(Segment((number,), tuple(steps), cost, by_words=True), standing)
            return
        found = self.holding(begin, end, plan.standing)
        reason = found[0].reason if found is not None else None
        if found is not None and explicit(found[:1]) and reason is not None and reason.name.value in SINGLES:
            cost = 2 * INSIDE + self._unused(names, found[:1], plan)
            yield plan.on(Segment((number,), found[:1], cost), after(plan.standing, found[1]))
        elif len(readings) == 1 and readings[0].forced and _puts_plainly(readings[0], cells):
            yield plan.on(Segment((number,), readings[0].alternatives[0], FAILS, by_words=True, fails=True), plan.standing)

    @staticmethod
    def _unused(names: Collection[Any], steps: Sequence[Step], plan: Plan) -> float:
        """What it costs that these names do not come into the steps. A cell passed over that is empty may be put wrongly."""
        board, left = plan.standing.board, set(names) - used(steps)
        empty = sum(isinstance(name, Cell) and board.digit(name) is None for name in left)
        houses = sum(isinstance(name, House) for name in left)
        return len(left) - houses + ELSEWHERE * houses + FAILS * empty

    def _put_together(self, plan: Plan, numbers: tuple[int, ...]) -> Iterator[Plan]:
        begin, end = self.gatherer.begins[numbers[0]], self.gatherer.begins[numbers[-1] + 1]
        found = self.holding(begin, end, plan.standing) if begin < end else None
        if found is not None:
            step, judged = found
            if _ends(step) and self._tells_whole(numbers, plan.standing):
                return
            told = self._segment(numbers, [step])
            crossing = sum(map(self.gatherer.opens, numbers[1:]))
            if crossing and any(map(leaves_open, step.effects)):
                return  # what a paragraph's names may show, and its effects left open to those of another one
            guessed = GUESSED * (bool(_ends(step)) and not self.gatherer.supposes(numbers))
            cost = told.cost + BY_NAMES + 2 * CROSSING * crossing + guessed
            single = step.reason is not None and step.reason.name.value in SINGLES and explicit([step])
            if not self.gatherer.whole and single and self._trails(numbers, step):
                return
            if not self.gatherer.whole and single:
                # What else is named speaks for it, or it would not have been put together.
                cost -= (1 - WITNESS) * len(self.gatherer.named(numbers) - used([step]))
            elif not self.gatherer.whole and any(map(leaves_open, step.effects)):
                cost += OPEN
            yield plan.on(replace(told, cost=cost), after(plan.standing, judged))

    def _trails(self, numbers: tuple[int, ...], step: Step) -> bool:
        """Does the last sentence name nothing of the step? Then it begins what comes next; a cell sees digits."""
        named = self.gatherer.named(numbers[-1:]) | self.gatherer.houses(numbers[-1:])
        seen = step.reason is not None and step.reason.name.value == "naked single"
        return len(numbers) > 1 and bool(named) and named.isdisjoint(used([step])) and not (seen and not _places(named))

    def _tells_whole(self, numbers: tuple[int, ...], standing: Standing) -> bool:
        """Do some of the sentences tell a step of their own, by their words and in full? Then all of them are no chain."""
        for size in range(1, len(numbers)):
            for begin in range(len(numbers) - size + 1):
                inside = numbers[begin : begin + size]
                reading = self.told.get(inside)
                if reading is None or not reading.forced or not any(self.gatherer.says(number, *REASONS) for number in inside):
                    continue
                held = self.by_words([reading], standing)
                if held is not None and explicit(held[0]):
                    return True
        return False

    def holding(self, begin: int, end: int, standing: Standing, tries: int = TRIED) -> tuple[Step, Judged] | None:
        """The first step that the names of these pieces may tell, and that holds."""
        key = begin, end, standing.board
        if key not in self.found:
            self.found[key] = self._search(begin, end, standing, tries)
        return self.found[key]

    def _sight(self, board: Board) -> BoardSight:
        """The board's sight; one is kept, for what follows from what is asked again and again of the same board."""
        if self.sight is None or self.sight.board is not board:
            self.sight = BoardSight(self.puzzle, board)
        return self.sight

    def _search(self, begin: int, end: int, standing: Standing, tries: int) -> tuple[Step, Judged] | None:
        board = standing.board
        plain = self.gatherer.taken_plainly(begin, end)
        solution = self.puzzle.solution or ()
        every = self.gatherer.put_plainly(begin, end)
        put = {told for told in every if told in solution and board.digit(told.cell) is None}
        for step in self.gatherer.steps(begin, end, self._sight(board)):
            step = self.with_ends_seen(step, board)
            if anywhere(step) or any(map(_taken(step).isdisjoint, plain)):
                continue  # what is plainly said to go would be passed over, and a slip in it with it
            if self.gatherer.whole and _told_nowhere(step) and (_of_facts(step) or self.gatherer.fills(begin, end)):
                continue  # whatever is named shows something somewhere
            if not _ends(step) and not (put <= _put(step) and every.isdisjoint(_taken(step))):
                continue  # so would what is put there, and it is no removal of it; of a chain it may be a link
            tries -= 1
            if tries < 0:
                return None
            judged = judge(step, standing, self.puzzle, brief=True)
            if judged.clean and judged.verdict == "warranted":
                return step, judged
        return None

    def _segment(self, numbers: tuple[int, ...], steps: Sequence[Step]) -> Segment:
        said = used(steps)
        cells = {cell for cell in said if isinstance(cell, Cell)}
        of_cells = self.puzzle.geometry.cells_of
        elsewhere = [house for house in self.gatherer.houses(numbers) - said if cells.isdisjoint(of_cells[house])]
        cost = STEP * len(steps) + len(self.gatherer.named(numbers) - said) + ELSEWHERE * len(elsewhere)
        for step in steps:
            cost += OPEN * any(leaves_open(effect) and not _all_else(effect) for effect in step.effects)
            if step.reason is None:
                cost += REASONLESS
            elif step.reason.name.value == "facts":
                cost += CITED * sum(len(slot.values) for slot in step.reason.slots)
        cost += CROSSING * sum(self.gatherer.opens(number) for number in numbers[1:])
        return Segment(numbers, tuple(steps), cost)

    def with_ends_seen(self, step: Step, board: Board) -> Step:
        """A chain's step with the cells that see both its ends, where what they lose is told and no cell."""
        ends = _ends(step)
        if len(ends) != 2:
            return step
        geometry = board.geometry
        effects: list[Effect] = []
        for effect in step.effects:
            if isinstance(effect, Removal) and effect.digits and not effect.cells:
                (digit,) = {said.value for said in effect.digits} if len(effect.digits) == 1 else (0,)
                seen = sorted(geometry.peers[ends[0]] & geometry.peers[ends[1]]) if digit else []
                effect = replace(effect, cells=tuple(Said(cell, effect.span) for cell in seen if board.has(cell, digit)))
            effects.append(effect)
        return replace(step, effects=tuple(effects))


def _places(named: Collection[object]) -> list[object]:
    return [name for name in named if not isinstance(name, int)]


def _run_on(readings: Sequence[Reading]) -> bool:
    """Does each begin in the sentence that the one before ends in? Then no segment can end between them."""
    return all(one.sentences[-1] == other.sentences[0] for one, other in pairwise(readings))


def with_lost(step: Step, board: Board) -> Step:
    """The step with the digits that go from a cell, where those that it keeps are told."""
    effects: list[Effect] = []
    for effect in step.effects:
        kept = {said.value for said in effect.kept} if isinstance(effect, Removal) else set()
        lost = []
        if isinstance(effect, Removal) and kept:
            for cell in effect.cells:
                gone = [digit for digit in board.candidates(cell.value) if digit not in kept]
                lost += [Removal((cell,), tuple(Said(digit, cell.span) for digit in gone), effect.span)] if gone else []
        effects += lost or [effect]
    return step if effects == list(step.effects) else replace(step, effects=tuple(effects))


def after(standing: Standing, judged: Judged) -> Standing:
    """The standing when what was proved is taken in."""
    board = standing.board.after(effect.claim for effect in judged.effects)
    return Standing(board, (*standing.supposed, *board.lost_since(standing.board)))


def explicit(steps: Sequence[Step]) -> bool:
    """Is all said of every effect, and a reason for each?"""
    return all(step.reason is not None and not any(map(leaves_open, step.effects)) for step in steps)


def _puts_plainly(reading: Reading, cells: Collection[Cell]) -> bool:
    """Does it say of one cell that is named, and of no other, which digit it is?"""
    steps = reading.alternatives[0] if reading.alternatives else ()
    effects = [effect for step in steps for effect in step.effects]
    if len(steps) != 1 or len(effects) != 1 or not isinstance(effects[0], Placement):
        return False
    told = effects[0]
    return told.cell is not None and told.digit is not None and {told.cell.value} == cells and explicit(steps)


def _all_else(effect: Effect) -> bool:
    """``those cells can be nothing else``: what goes is said, though no digit is."""
    return isinstance(effect, Removal) and bool(effect.cells) and not effect.digits


def anywhere(step: Step) -> bool:
    """Is no place named, neither what shows it nor what it does: ``a jellyfish on 4``, ``this cell is 3``? Then any may fit."""
    for effect in step.effects:
        told = effect.cell if isinstance(effect, Placement) else effect.house if isinstance(effect, RestOf) else None
        if told is not None or (isinstance(effect, Removal) and effect.cells):
            return False
    return all(isinstance(said.value, int) for slot in (step.reason.slots if step.reason else ()) for said in slot.values)


def _told_nowhere(step: Step) -> bool:
    """Does something go, and no cell or no digit is said?"""
    return any(isinstance(effect, Removal) and not (effect.cells and effect.digits) for effect in step.effects)


def _of_facts(step: Step) -> bool:
    return step.reason is not None and step.reason.name.value == "facts"


def _taken(step: Step) -> set[Candidate]:
    """What the step takes away, as far as it is said."""
    return {claim.candidate for effect in step.effects for claim in plain_claims(effect) if not claim.holds}


def _put(step: Step) -> set[Candidate]:
    """What the step fills in, as far as it is said."""
    return {claim.candidate for effect in step.effects for claim in plain_claims(effect) if claim.holds}


def _ends(step: Step) -> list[Cell]:
    """The first and the last cell of a chain."""
    if step.reason is None or not step.reason.name.value.endswith("chain"):
        return []
    cells = [
        said.value if isinstance(said.value, Cell) else getattr(said.value, "cell", None)
        for slot in step.reason.slots
        for said in slot.values
    ]
    named = [cell for cell in cells if cell is not None]
    return [named[0], named[-1]] if len(named) > 1 else []
