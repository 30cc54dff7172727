"""A narration under audit: its readings become a Path of ordinary statements, the board deciding between readings."""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise, takewhile
from typing import NamedTuple

from ..grammar.citing import cited
from ..grammar.frame import crossing_cells, used
from ..grammar.gathering import Gatherer
from ..grammar.kinds import NAMED
from ..grammar.narration import read_narration
from ..grammar.passages import Passage, Transcript
from ..grammar.prose import read_prose
from ..grammar.reading import Narration, Reading, Sentences
from ..grammar.statements import (
    Effect,
    Grid,
    HeaderEntry,
    Link,
    Mentioned,
    Path,
    Placement,
    Problem,
    Reason,
    Removal,
    RestOf,
    Span,
    Statement,
    Step,
    Told,
    Unread,
    Unsaid,
)
from ..grammar.vocabulary import Candidate, Cell, CellFact, Claim, Geometry, House
from .board import Board
from .catalogue.shape import SIZES
from .findings import Finding, order
from .judge import Judged, judge, leaves_open
from .puzzle import Puzzle, Standing
from .replay import Replay, Trust, plain_claims
from .report import Report, StepReport
from .segmenting import LONGEST_PART, SINGLES, BoardSight, Parter, after, anywhere, explicit, with_lost

KINDS = ("narration", "srt", "vtt")
AFTER = 3
"""Sentences after a reading that may belong to its steps."""
LONGEST_STRETCH = 18
"""Sentences that are parted at once."""
TALK_TRIED = 4
"""How many of the sentences taken for talk before it a failing step is tried against."""
RECAPPED = 2
"""How far back a pattern that is explained twice was told first, in steps."""
LOST = 2
"""Steps that fail unexplained by which the thread is lost: more than so many, or than so many per cent of the steps.

A sentence not taken in counts for half of one.
"""
SUPPOSED, SUPPOSED_ALOUD = 4, 8
"""Sentences after a supposition that may still be told under it; those of speech without full stops are shorter."""
WOULD = re.compile(r"\bwould\b", re.I)
SHOWN = 80
"""Characters of an unread sentence that are kept for its finding."""


def read_source(text: str, kind: str) -> Transcript:
    """A narration's source to a transcript. Raises KeyError for a kind that is not in ``KINDS``."""
    if kind == "narration":
        return read_prose(text)
    from ..grammar import captions

    reader = {"srt": captions.read_srt, "vtt": captions.read_vtt}[kind]
    return reader(text)


class Resolved(NamedTuple):
    """The path that a narration tells, for each of its statements where it was read, and the count of its sentences.

    ``may_have_told``: of a step and true claims that it lacks, whether they may have been told before it.
    """

    path: Path
    readings: tuple[Reading, ...]
    sentences: Sentences
    may_have_told: Trust | None = None


def resolved(transcript: Transcript, grid: Grid, conflicts: int) -> Resolved:
    """The path that the narration tells on this grid, the board deciding between readings."""
    puzzle = Puzzle(grid, conflicts)
    narration = read_narration(transcript, grid.geometry)
    try:
        resolver = _Resolver(puzzle, narration)
        statements, kinds = resolver.run()
    finally:
        puzzle.oracle.close()
    path = Path((HeaderEntry("grid", grid),), tuple(statements), (*_by_sound(narration), *resolver.cited_amiss()))
    return Resolved(path, tuple(resolver.origins), _counted(kinds), _may_have_told(resolver.gatherer))


def _may_have_told(gatherer: Gatherer) -> Trust:
    """Whether sentences before a step name the cells and digits of claims, though no step was made of that.

    Where the sentences of speech are guessed, nothing is held to have gone untold.
    """
    if not gatherer.whole:
        return lambda step, claims: True
    places = gatherer.places
    named = [(gatherer.named([number]), gatherer.houses([number])) for number in range(len(places))]

    def told(step: Step, claims: Collection[Claim]) -> bool:
        before = named[: bisect_left(places, (step.span.line, step.span.column))]
        return all(any(_names(claim, *names, gatherer.geometry) for names in before) for claim in claims)

    return told


def _names(claim: Claim, named: Collection[object], houses: Collection[House], geometry: Geometry) -> bool:
    """Is the claim's digit named, and its cell or a house of it?"""
    cell, digit = claim.candidate
    return digit in named and (cell in named or any(cell in geometry.cells_of[house] for house in houses))


def literal(transcript: Transcript, geometry: Geometry) -> tuple[Path, Sentences]:
    """The path that the words tell by themselves, where no board decides between readings, and the count of sentences.

    What the words leave open to another reading is left out: nothing could be held against it.
    """
    narration = read_narration(transcript, geometry)
    statements: list[Statement] = []
    placed: set[Effect] = set()
    for reading in narration.readings:
        if reading.marking is not None:
            statements.append(reading.marking)
        elif not reading.alternatives:
            statements.append(_unread(reading))
        elif reading.forced and not any(_same(step, statements, placed) for step in reading.alternatives[0]):
            statements += reading.alternatives[0]
            placed.update(effect for step in reading.alternatives[0] for effect in step.effects)
    return Path((), tuple(statements), _by_sound(narration)), _counted(narration.kinds)


def _same(step: Step, told: Sequence[Statement], placed: Collection[Effect]) -> bool:
    """Is it said again: a step of those just before it, or a placement of any, which recaps name once more?"""
    if all(isinstance(effect, Placement) and effect in placed for effect in step.effects):
        return True
    return any(
        isinstance(other, Step) and set(step.effects) <= set(other.effects) and step.reason in (None, other.reason)
        for other in told[-RECAPPED:]
    )


def _by_sound(narration: Narration) -> tuple[Problem, ...]:
    return tuple(
        Problem("taken-by-sound", heard.span, {"found": heard.found, "meant": heard.meant}) for heard in narration.heard
    )


def _counted(kinds: Sequence[str]) -> Sentences:
    return Sentences(len(kinds), *(kinds.count(kind) for kind in ("claim", "talk", "unread")))


def told_as_narration(report: Report, transcript: Transcript, readings: Sequence[Reading] = ()) -> Report:
    """The report with times and cues of the source; what concerns the whole narration is said once.

    ``readings``: for each statement of the path, where it was read.
    """
    problem = other_grid(report)
    doubtful = _doubtful(report, readings)
    findings = tuple(finding for finding in report.findings if not _never_said(finding, report, doubtful))
    if problem is not None:
        findings = (*(finding for finding in findings if finding.step is None), Finding(problem))
    elif not any(step.verdict != "unread" for step in report.steps):
        findings = (*(f for f in findings if f.code != "stops-short"), Finding(Problem("no-claims", Span(1, 1, 2))))
    said = (Finding(told) for told in report.path.problems if problem is None or told.code != "cited-amiss")
    findings = (*_weighed(findings, report), *said)
    lines: dict[int, list[Passage]] = {}
    for passage in transcript.passages:
        lines.setdefault(passage.line, []).append(passage)
    dated = (_dated(finding, lines.get(finding.line, [])) for finding in findings)
    return replace(report, findings=tuple(sorted(dated, key=order)))


def _weighed(findings: Sequence[Finding], report: Report) -> Iterator[Finding]:
    """What fails with no likely correction is a doubt, and no more, where the reader has lost the narrator's thread.

    A slip is mostly one word, and one word puts it right; a sentence taken amiss is not put right so. It is held against the
    narrator all the same as long as nearly everything else was followed.
    """
    graver = [finding for finding in findings if finding.step is not None and finding.severity != "note"]
    unexplained = [finding for finding in graver if not finding.repairs]
    unread = sum(finding.code == "unread-sentence" for finding in findings)
    lost = len(unexplained) + unread / 2 > max(LOST, len(report.steps) * LOST / 100)
    false = {step.step for step in report.steps if _put_wrongly(step) or _goes_too_far(step)}
    told = [statement for statement in report.path.statements if isinstance(statement, Told)]
    false |= {number for number, step in enumerate(told, 1) if isinstance(step, Step) and _miscounted(step)}
    for finding in findings:
        plain = finding.code == "named-twice" or finding.step in false
        doubted = lost and finding in unexplained and not plain
        yield replace(finding, doubted=True) if doubted else finding


def _miscounted(step: Step) -> bool:
    """Is a pair, triple or quad told of as many cells as digits, but not of so many as its name says? The words are at odds."""
    if step.reason is None or step.reason.name.value.split()[0] not in ("naked", "hidden"):
        return False
    values = {said.value for slot in step.reason.slots for said in slot.values}
    cells, digits = (sum(isinstance(value, kind) for value in values) for kind in (Cell, int))
    size = step.reason.name.value.split()[-1]
    return size in SIZES.values() and cells == digits > 1 and SIZES.get(cells) != size


def _put_wrongly(step: StepReport) -> bool:
    """Is all that it tells one digit in one cell, where it cannot be? That much is seldom misread."""
    return len(step.effects) == 1 and step.effects[0].claim.holds and step.effects[0].verdict == "refuted"


def _goes_too_far(step: StepReport) -> bool:
    """Does its reason prove what else it tells, and not the rest? Of a sentence taken amiss it proves nothing."""
    verdicts = [effect.verdict for effect in step.effects]
    unproved = verdicts.count("unproved") == 1 and verdicts.count("proved") > 1
    return step.technique is not None and "proved" in verdicts and ("refuted" in verdicts or unproved)


def _doubtful(report: Report, readings: Sequence[Reading]) -> frozenset[int]:
    """The lines of steps that the words may not have meant: read loosely, put together, or told for no reason."""
    told = zip(report.path.statements, readings)
    return frozenset(
        step.span.line
        for step, reading in told
        if isinstance(step, Step)
        and (not reading.forced or step.reason is None or all(step not in o for o in reading.alternatives))
    )


def _never_said(finding: Finding, report: Report, doubtful: Collection[int]) -> bool:
    """Is it called told twice only because an effect that went unsaid had done it, or a step that was perhaps not meant?"""
    if finding.code not in ("already-done", "not-a-candidate"):
        return False
    steps = [statement for statement in report.path.statements if isinstance(statement, Step | Unread)]
    before = steps[: (finding.step or 1) - 1]
    unsaid = {step.span.line for step in before if isinstance(step, Unread) or any(map(_open, step.effects))}
    if finding.problem.details.get("why") == "nothing-left":
        return bool(unsaid)
    return finding.problem.details.get("by") in unsaid.union(doubtful)


def _first_sentence(reading: Reading) -> int:
    return reading.sentences[0]


def _takes_away(effect: Effect) -> bool:
    return isinstance(effect, Removal | RestOf)


def _bare(effect: Effect) -> bool:
    """Is nothing said of the effect, neither digit nor place?"""
    return isinstance(effect, Unsaid) or (isinstance(effect, Removal) and not effect.cells and not effect.digits)


def _open(effect: Effect) -> bool:
    return isinstance(effect, RestOf | Unsaid) or leaves_open(effect)


def _dated(finding: Finding, passages: Sequence[Passage]) -> Finding:
    here = [passage for passage in passages if passage.column <= finding.column] or passages
    if not here:
        return finding
    return replace(finding, time=here[-1].time, cue=here[-1].cue)


class _Weighed(NamedTuple):
    """What the board says to a reading.

    ``first``: to the most literal; ``holds``: the steps that hold; ``excused``: those that hang on what was not taken in;
    ``in_part``: some of what they take away is gone already.
    """

    first: Judged | None
    holds: Sequence[Step] | None
    excused: Sequence[Step] = ()
    in_part: bool = False


class _Resolver:
    """Replays the readings as it chooses between them."""

    def __init__(self, puzzle: Puzzle, narration: Narration) -> None:
        self.puzzle = puzzle
        self.replay = Replay(Path((), ()), puzzle)
        self.narration = narration
        assert narration.gatherer is not None
        self.gatherer = narration.gatherer
        self.parter = Parter(puzzle, self.gatherer, {reading.sentences: reading for reading in narration.readings})
        self.told_to = {read.sentences[0]: read.sentences[-1] for read in narration.readings if read.alternatives}
        """Of the first sentence of each reading of the words, the last one."""
        self.reached = 0
        self.fresh: list[int] = []
        """Sentences taken in with the last reading."""
        self.consumed: set[int] = set()
        """Sentences that belong to steps put together before their turn."""
        self.carried: dict[tuple[int, ...], tuple[Effect, ...]] = {}
        """Effects that were told at the end of one reading, and that follow from the reason of the next one."""
        self.supposing = -1
        """The last sentence that something is supposed in and that was not taken in."""
        self.kinds = list(narration.kinds)
        self.statements: list[Statement] = []
        self.origins: list[Reading] = []
        self.told_on: dict[int, tuple[Board, Board]] = {}
        """For each sentence of a reading, the board before and after its steps."""
        self.last: frozenset[Claim] = frozenset()
        self.passed = list(narration.passed)
        """Talk that may have been a claim, and that no step has hung on yet."""

    def run(self) -> tuple[list[Statement], list[str]]:
        for reading in self._unconsumed():
            begun = self.replay.board
            self.fresh = [*reading.sentences]
            statements = self._taken(reading)
            if statements:
                self.reached = max(self.reached, reading.sentences[-1] + 1)
            for statement in statements:
                self.statements.append(statement)
                self.origins.append(reading)
                before = self.replay.board
                self.replay.tell(statement)
                if self.replay.board is not before:
                    lost = self.replay.board.lost_since(before)
                    self.last = frozenset(Claim(candidate, False) for candidate in lost)
            for number in self.fresh:
                self.told_on.setdefault(number, (begun, self.replay.board))
        return self.statements, self.kinds

    def cited_amiss(self) -> Iterator[Problem]:
        """What is said in passing of a digit that stands in a cell, or that a house lacks, and that the board shows otherwise.

        The board before it is asked, and where a cell was filled in by the same sentences, the one after them.
        """
        told = {claim.candidate for claim in _claims([step for step in self.statements if isinstance(step, Step)])}
        for said in cited(self.gatherer):
            if said.sentence not in self.told_on:
                continue
            before, after = self.told_on[said.sentence]
            if isinstance(said.where, House):
                there = _stands(said.digit, self.puzzle.geometry.cells_of[said.where], before)
                if there:
                    yield Problem("cited-amiss", said.span, {"house": said.where, "digit": said.digit, "there": there[0]})
            elif Candidate(said.where, said.digit) in told:
                continue  # it is judged as a step
            elif after.digit(said.where) != said.digit and not before.has(said.where, said.digit):
                if before.digit(said.where) is None and not said.bars:
                    continue  # "cross out the 7 in r1c2": a candidate, and the story tells whether it is still there
                meant = _stands(said.digit, self._one_slip_off(said.where), before)
                details = {"cell": said.where, "digit": said.digit, "held": before.digit(said.where)}
                yield Problem("cited-amiss", said.span, {**details, "meant": meant[0] if len(meant) == 1 else None})

    def _one_slip_off(self, cell: Cell) -> list[Cell]:
        """The cells in its row and column, and the one with both numbers swapped."""
        near = (other for other in self.puzzle.geometry.cells if (other.row == cell.row) != (other.column == cell.column))
        return [*near, Cell(cell.column, cell.row)]

    def _unconsumed(self) -> Iterator[Reading]:
        """The readings in order, without the sentences that belong to steps taken before their turn."""
        for reading in self._in_order():
            yield from self._left_of(reading)

    def _left_of(self, reading: Reading) -> Iterator[Reading]:
        """The reading without what is consumed when its turn comes; of several parts one may consume another."""
        left = [number for number in reading.sentences if number not in self.consumed]
        if len(left) == len(reading.sentences):
            yield reading
        elif left:
            for part in self.gatherer.told_apart(left):
                yield from self._left_of(part)

    def _in_order(self) -> Iterator[Reading]:
        """The readings, and between them the talk that names something, as readings that were not taken in."""
        talk = iter(self._talk())
        waiting = next(talk, None)
        for reading in self.narration.readings:
            while waiting is not None and waiting.sentences[0] < reading.sentences[0]:
                yield waiting
                waiting = next(talk, None)
            yield reading
        while waiting is not None:
            yield waiting
            waiting = next(talk, None)

    def _talk(self) -> Iterator[Reading]:
        gatherer = self.gatherer
        for number, kind in enumerate(self.narration.kinds):
            if kind == "talk" and gatherer.names(number):
                yield gatherer.reading((number,))

    def _gathered(self, reading: Reading) -> Sequence[Statement]:
        """Speech without full stops: steps that begin and end anywhere in its words."""
        own = [number for number in reading.sentences if self.gatherer.names(number)]
        if not own or self.gatherer.whole:
            return ()
        numbers = self._around(reading)
        found: list[tuple[int, int, Step]] = []
        covered: set[int] = set()
        explicitly = reading.forced and bool(reading.alternatives)
        for begin, end in self.gatherer.windows(numbers[0], numbers[-1]):
            sentences = range(self.gatherer.sentence_of[begin], self.gatherer.sentence_of[end - 1] + 1)
            if covered.isdisjoint(own) and set(sentences).isdisjoint(own):
                continue
            if any(begin < other_end and other_begin < end for other_begin, other_end, _ in found):
                continue
            held = self.parter.holding(begin, end, self.replay.standing)
            if held is not None and (explicit([held[0]]) or not explicitly):
                found.append((begin, end, held[0]))
                covered.update(sentences)
        steps = [step for _, _, step in sorted(found, key=lambda one: one[0])]
        # Where the words leave no other reading, what holds instead has to use all that they name.
        literal = reading.alternatives[0] if reading.forced and reading.alternatives else ()
        if not steps or self._gainsays(reading, steps) or not used(literal) <= used(steps):
            return ()
        if literal and not _keeps_name(reading, steps):
            return ()
        self._consume(covered)
        for number in covered:
            self.kinds[number] = "claim"
        return steps

    def _consume(self, numbers: Collection[int]) -> None:
        self.consumed.update(numbers)
        self.fresh += numbers

    def _taken(self, reading: Reading) -> Sequence[Statement]:
        """The statements of the reading that the board bears out; else of the most literal one; none for a recap."""
        if reading.marking is not None:
            return [reading.marking]
        reading = self._with_lost(self._ends_seen(self._with_carried(reading)))
        weighed = self._weighed(reading)
        if weighed.holds is not None and self._settled(reading, weighed):
            return self._told_besides(reading, weighed.holds) or self._gone_on(reading, weighed.holds)
        if weighed.first is not None and weighed.first.verdict == "idle" and self._recap(reading, weighed.first):
            self._mark(reading, "talk")
            return []
        told = self._planned(reading, weighed)
        if not told and weighed.holds:
            return self._given_up(reading) if self._put_nowhere(reading) else self._gone_on(reading, weighed.holds)
        return self._gone_on(reading, told) if told else self._gathered(reading) or self._failing(reading, weighed)

    def _put_nowhere(self, reading: Reading) -> bool:
        """``The one from last Sunday`` may be put somewhere, but is not said to be."""
        nowhere = all(_of_no_cell(step) for option in reading.alternatives for step in option)
        return nowhere and not self.gatherer.cells(reading.sentences[-1])

    def _weighed(self, reading: Reading) -> _Weighed:
        """What the board says to the readings of the words."""
        first: Judged | None = None
        excused: Sequence[Step] = ()
        for option in reading.alternatives:
            if len(option) > 1:
                weighed = [self.replay.weigh(step, brief=True)[0] for step in option]
                if all(judged.clean or judged.verdict == "idle" for judged in weighed) and weighed[-1].clean:
                    return _Weighed(first, [step for step, judged in zip(option, weighed) if judged.clean])
                continue
            judged, _ = self.replay.weigh(option[0], brief=True)
            if judged.clean and judged.verdict == "fallen":
                excused = excused or option
            elif judged.clean or _only_in_part_idle(judged):
                return _Weighed(first, option, in_part=not judged.clean)
            first = first or judged
        return _Weighed(first, None, excused)

    def _settled(self, reading: Reading, weighed: _Weighed) -> bool:
        """Is what the words say all that they name?"""
        steps = weighed.holds or ()
        cells = {cell for number in reading.sentences for cell in self.gatherer.cells(number)}
        told = cells <= used(steps) | crossing_cells(steps, self.puzzle.geometry)
        left = [effect for step in steps for effect in step.effects if _open(effect)]
        open_only = len(left) == sum(len(step.effects) for step in steps)
        told_so = open_only and not any(isinstance(effect, Placement) or _bare(effect) for effect in left)
        said = not left or (reading.forced and told_so)
        return weighed.in_part or (told and (explicit(steps) or said))

    def _gone_on(self, reading: Reading, steps: Sequence[Statement]) -> Sequence[Statement]:
        """The pattern with what the next sentences take away for no reason of their own, as far as the pattern proves it.

        ``That's a swordfish, so the rest of row 2 loses its 4s. Next, there is no 4 in r7c3.``
        """
        told = steps[-1]
        if not isinstance(told, Step) or told.reason is None:
            return steps
        if told.reason.name.value in SINGLES or not all(map(_takes_away, told.effects)):
            return steps
        last = max(self.fresh)
        for following in self.narration.readings[bisect_right(self.narration.readings, last, key=_first_sentence) :]:
            between = range(last + 1, following.sentences[0])
            if len(between) > 1 or not following.forced or not following.alternatives or self.consumed & {*following.sentences}:
                break
            (more, *others) = following.alternatives[0]
            if others or more.reason is not None or not all(map(_takes_away, more.effects)) or any(map(_bare, more.effects)):
                break
            whole = replace(told, effects=(*told.effects, *more.effects))
            if any(map(self.gatherer.names, between)) or not self.replay.weigh(whole, brief=True)[0].clean:
                break
            told, last = whole, following.sentences[-1]
            self._consume(following.sentences)
            self._mark(following, "claim")
        return [*steps[:-1], told]

    def _told_besides(self, reading: Reading, steps: Sequence[Step]) -> Sequence[Statement]:
        """The steps, and the placement that its last sentence tells by itself, though all that it names comes into them."""
        *before, last = dict.fromkeys(reading.sentences)
        if not before or not self.gatherer.cells(last):
            return ()
        ending = self.gatherer.told_apart([last])
        first = self.parter.by_words(self.gatherer.told_apart(before), self.replay.standing)
        second = self.parter.by_words(ending, first[1]) if first is not None else None
        if first is None or second is None or not all(part.forced for part in ending):
            return ()
        placed = all(isinstance(effect, Placement) for step in second[0] for effect in step.effects)
        same = [step.effects for step in first[0]] == [step.effects for step in steps] and explicit(first[0])
        told = {effect for step in steps for effect in step.effects}
        new = told.isdisjoint(effect for step in second[0] for effect in step.effects)
        return [*first[0], *second[0]] if placed and explicit(second[0]) and same and new else ()

    def _planned(self, reading: Reading, weighed: _Weighed) -> Sequence[Statement]:
        """The steps of its sentences, parted so that each holds, with talk before and after them that belongs to them."""
        if weighed.holds is None and reading.forced and reading.alternatives:
            # Sentences after it that have readings of their own are taken in only where all is told by words.
            alone = self._parts(reading, weighed, talk_only=True)
            told = alone or self._parts(reading, weighed, words_only=True)
            told = told or self._parts(reading, weighed, talk_only=True, full=True)
            return told or (self._parts(reading, weighed, far=True) if self._leads_up(reading, weighed) else ())
        return self._parts(reading, weighed)

    def _parts(
        self,
        reading: Reading,
        weighed: _Weighed,
        *,
        talk_only: bool = False,
        words_only: bool = False,
        full: bool = False,
        far: bool = False,
    ) -> Sequence[Statement]:
        """The steps of the cheapest plan that uses the reading; nothing where it may not stand for it.

        ``talk_only``: only talk may be taken in after it; ``words_only``: nothing may be told by names alone; ``full``: several
        steps may stand for it that use all cells and digits it names; ``far``: it begins what is told to its end after it.
        """
        literal = reading.alternatives if weighed.holds is None and reading.forced else ()
        numbers = self._around(reading, talk_only=talk_only, far=far)
        plan = self.parter.plan(numbers, self.replay.standing)
        own = [segment for segment in plan.segments if segment.numbers[0] <= reading.sentences[-1]]
        steps = [step for segment in own for step in segment.steps]
        taken = {number for segment in own if segment.steps for number in segment.numbers}
        rest = [number for number in reading.sentences if number not in taken]
        if steps and not any(map(self.gatherer.speaks, rest)) and _keeps_name(reading, steps):
            taken.update(rest)  # "Naked pair.": a heading, and the pattern that it names is told
            rest = []
        if taken.isdisjoint(reading.sentences) or self._gainsays(reading, steps, rest):
            return ()
        if reading.forced and weighed.holds and _tells_less(steps, weighed.holds):
            return ()  # what the words tell in full, and the board bears out, is not given up for names
        clear = all(segment.by_words or explicit(segment.steps) for segment in own) and all(step.reason for step in steps)
        by_words = not rest and explicit(steps) and all(segment.by_words for segment in own if segment.steps)
        if words_only and not by_words:
            return ()
        if any(segment.fails for segment in own) and self._supposed(reading):
            return ()
        if far and any(claim._replace(holds=not claim.holds) in _claims(steps) for claim in _claims(reading.alternatives[0])):
            return ()  # what is supposed to go would be put
        shown = weighed.first is not None and weighed.first.verdict == "idle"
        plainly = any(self.gatherer.says(number, "ONLY_PLACE", "LAST_CELL") for number in reading.sentences)
        plainly = plainly or (_is_chain(reading) and self.gatherer.supposes(reading.sentences))
        several = full and not plainly and sum(bool(segment.steps) for segment in own) > 1
        stands_for = literal and (
            self._replaces(literal[0], steps, reading, rest)
            or (shown and _leads_to(literal[0], steps))
            or (several and self.gatherer.named(reading.sentences) <= used(steps) and _keeps_name(reading, steps))
            or (not self.gatherer.whole and self._tells_all_put(reading, steps) and _keeps_name(reading, steps))
        )
        if literal and not by_words and not (clear and stands_for):
            return ()
        reasonless = bool(weighed.holds) and all(map(_for_no_reason, weighed.holds or ()))
        more = explicit(steps) and len(steps) > 1 and _claims(weighed.holds or ()) <= _claims(steps)
        if taken <= set(reading.sentences) and reasonless and not more:
            return ()  # told for no reason, and none is told before or after it
        told: list[tuple[int, Sequence[Statement]]] = [(segment.numbers[0], segment.steps) for segment in own]
        self._consume(taken)
        for number in taken:
            self.kinds[number] = "claim"
        supposed = self.gatherer.supposes(reading.sentences)
        told += ((part.sentences[0], self._left(part, supposed)) for part in self.gatherer.told_apart(rest))
        return [statement for _, statements in sorted(told, key=lambda one: one[0]) for statement in statements]

    def _gainsays(self, reading: Reading, steps: Sequence[Step], rest: Sequence[int] = ()) -> bool:
        """Would the steps hide a slip: do they leave out, take away or put elsewhere what the words plainly say?

        ``rest``: the sentences of the reading that the steps are not told in.
        """
        if not reading.alternatives or not steps:
            return False
        literal = _claims(reading.alternatives[0])
        told = _claims(steps)
        left_out = {claim for claim in literal - told if claim.candidate.cell not in _in_roles(steps)}
        if reading.forced and explicit(steps) and told < literal and left_out and not rest:
            return True  # what is left out is what does not hold
        reason = reading.alternatives[0][0].reason
        plainly = reading.forced and self.gatherer.whole and not (reason and reason.name.value in SINGLES)
        if plainly and any(claim._replace(holds=True) in told for claim in literal if not claim.holds):
            return True  # what is taken out for a pattern is not put there; "nothing but 3 is left" may be told of a single
        if not any(self.gatherer.says(number, *PLAINLY) for number in reading.sentences):
            return False
        placed = {claim for claim in literal if claim.holds}
        if placed and placed == literal and not told:
            return True  # only what is left open is put in the place of a digit in its cell
        elsewhere = placed == literal and len(placed) == len(told) == 1 and placed != told and all(c.holds for c in told)
        return elsewhere or any(claim._replace(holds=False) in told for claim in placed)

    def _tells_all_put(self, reading: Reading, steps: Sequence[Step]) -> bool:
        """Do the steps say in full what they do, and all that the words of its sentences plainly put or take?

        Where speech was parted by guess, what was made of several parts is a guess, too, and gives way to what holds.
        """
        first, last = reading.sentences[0], reading.sentences[-1]
        begin, end = self.gatherer.begins[first], self.gatherer.begins[last + 1]
        told = _claims(steps)
        put = {Claim(candidate, True) for candidate in self.gatherer.put_plainly(begin, end)}
        shown = {claim for claim in put if self.replay.board.shows(claim)}
        taken = self.gatherer.taken_plainly(begin, end)
        gone = all(any(Claim(candidate, False) in told for candidate in part) for part in taken)
        return len(reading.sentences) > 2 and explicit(steps) and put - shown <= told and gone

    def _replaces(self, literal: Sequence[Step], steps: Sequence[Step], reading: Reading, rest: Sequence[int]) -> bool:
        """May the steps stand for a reading that the words leave no other way to take?

        They have to use all that it names; or they tell some of its sentences whole, and the others, which tell of cells of
        their own, are held against the narrator by themselves.
        """
        if used(literal) <= used(steps) and _keeps_name(reading, steps):
            return True
        taken = [number for number in reading.sentences if number not in rest]
        after = [number for number in taken if number - 1 in rest and self.gatherer.concludes(number)]
        if any(self.gatherer.says(number - 1, *NAMED) for number in after):
            return False  # "That is a swordfish of 4s in ... So r1c1 is 7": the one hangs on the other
        others = [number for number in rest if self.gatherer.speaks(number)]
        whole = self.gatherer.named(taken) <= used(steps) and self.gatherer.whole and explicit(steps)
        return whole and bool(others) and all(self.gatherer.cells(number) - used(steps) for number in others)

    def _left(self, part: Reading, supposed: bool) -> Sequence[Statement]:
        """What a sentence comes to that was left over of a reading. ``supposed``: something was supposed in it."""
        weighed = self._weighed(part)
        if weighed.holds is None and supposed:
            return self._given_up(part)  # half of what was supposed and what follows from it is not what was said
        return weighed.holds or self._failing(part, weighed)

    def _around(self, reading: Reading, *, talk_only: bool = False, far: bool = False) -> list[int]:
        """Its sentences, the talk just before it, and the sentences after it that may belong to it.

        ``talk_only``: of those after it, only talk.
        """
        first, last = reading.sentences[0], reading.sentences[-1]
        low = max(self.reached, first - TALK_TRIED)
        while first > low and self.kinds[first - 1] == "talk":
            first -= 1
        further = AFTER
        if far or self.gatherer.supposes(range(last + 1, min(last + 1 + AFTER, len(self.kinds)))):
            further = LONGEST_PART - 1  # "r1c1 is 9. For assume it is not. ...": the supposition is told to its end
        end = min(last + further, first + LONGEST_STRETCH, len(self.kinds) - 1)
        while last < end and (not talk_only or self.kinds[last + 1] == "talk"):
            whole = self.told_to.get(last + 1, 0)
            if whole > end and (not reading.alternatives or whole >= first + LONGEST_STRETCH):
                break  # no half of what is told after it
            end = max(end, whole)
            last += 1
        return [number for number in range(first, last + 1) if number not in self.consumed]

    def _failing(self, reading: Reading, weighed: _Weighed) -> Sequence[Statement]:
        """What is made of words that do not hold by themselves."""
        first = weighed.first
        if first is None:
            number = reading.sentences[0]
            alone = self.gatherer.whole and len(reading.sentences) == 1
            true = alone and bool(self.gatherer.cells(number)) and not self.gatherer.strays(number)
            step = self._true(self.gatherer.begins[number], self.gatherer.begins[number + 1], reading) if true else None
            if step is not None:
                self._mark(reading, "claim")
                return [step]
            return [] if self.kinds[number] == "talk" else self._given_up(reading)
        literal = reading.alternatives[0]
        if all(self._only_shown(effect) for step in literal for effect in step.effects):
            self._mark(reading, "talk")
            return []
        if _merely_named(literal) or _turns_on_itself(literal) or _of_cases(literal) or all(map(_of_no_cell, literal)):
            return self._given_up(reading)  # "either way one end of the chain is 9": of a chain that was not followed
        renamed = self._unnamed(reading) or self._unhoused(reading, first)
        if renamed is not None:
            return [renamed]
        # Only where nothing holds by itself does a step hang on what was not taken in.
        excused = weighed.excused or self._missed(reading)
        if excused:
            return excused
        parted = self._parted(reading, first)
        if parted:
            return parted
        if not reading.forced and not self._put_plainly(reading, first):
            return self._given_up(reading)
        if self._leads_up(reading, weighed):
            self.supposing = reading.sentences[-1]
        if self._supposed(reading) or self._paired_across(reading) or self._of_either(reading):
            return self._given_up(reading)
        return reading.alternatives[0]

    def _put_plainly(self, reading: Reading, first: Judged) -> bool:
        """Is one digit put in one cell, in a sentence that names no other cell, and is that false?"""
        claims = {frozenset(_claims(option)) for option in reading.alternatives}
        if len(claims) != 1 or not first.problems or first.problems[0].code != "effect-refuted":
            return False
        (told,) = claims
        if len(told) != 1 or not all(claim.holds for claim in told):
            return False
        (claim,) = told
        cell, digit = claim.candidate
        alone = [n for n in reading.sentences if self.gatherer.cells(n) == {cell}]
        return any(self.gatherer.puts(n, digit, PLAINLY) for n in alone)

    def _only_shown(self, effect: Effect) -> bool:
        """``That's r8c9.``, of a cell that was just filled: is no digit said of it?"""
        if not isinstance(effect, Placement) or effect.digit is not None or effect.cell is None:
            return False
        return self.replay.board.digit(effect.cell.value) is not None

    def _supposed(self, reading: Reading) -> bool:
        """Is it told under a supposition, its own or one not taken in just before: ``Say r1c1 is 3. Then r1c2 is 4``?"""
        if len(WOULD.findall(reading.text)) > 1:
            return True
        first = reading.sentences[0]
        between = range(self.supposing + 1, first + 1)
        most = SUPPOSED if self.gatherer.whole else SUPPOSED_ALOUD
        return self.supposing >= 0 and len(between) <= most and not any(map(self.gatherer.opens, between))

    def _of_either(self, reading: Reading) -> bool:
        """Is it told of one case, and taken for a single: ``Either r1c1 is 6, or it's 2, and then r1c4 becomes 6``?"""
        literal = reading.alternatives[0]
        single = all(step.reason is None or step.reason.name.value in SINGLES for step in literal)
        cased = any(self.gatherer.says(number, "IF", "WHETHER", "EITHER") for number in reading.sentences)
        return single and cased and any(claim.holds for claim in _claims(literal))

    def _leads_up(self, reading: Reading, weighed: _Weighed) -> bool:
        """Is what does not hold only supposed: ``Take 2 out of r1c1. Then r1c4 is 2. ... One or the other holds``?"""
        last = reading.sentences[-1]
        following = range(last + 1, min(last + LONGEST_PART, len(self.kinds)))
        if weighed.first is None or weighed.first.verdict != "refuted" or not following:
            return False
        if any(claim.holds for claim in _claims(reading.alternatives[0])):
            # "Then r1c4 is 2", after what was taken out for no reason, and truly
            before = self.statements[-1] if self.statements else None
            taken_out = isinstance(before, Step) and before.reason is None and not any(c.holds for c in _claims([before]))
            begins = taken_out and self._follows(reading.sentences[0])
        else:
            begins = self._follows(following[0])
        opened = next((number for number in following if self.gatherer.opens(number)), following.stop)
        return begins and any(self.gatherer.says(number, "EITHER", "SEE_BOTH") for number in range(following[0], opened))

    def _follows(self, number: int) -> bool:
        """Does the sentence begin with "then" or "so"?"""
        return self.gatherer.says(number, "LEADS") or self.gatherer.concludes(number)

    def _paired_across(self, reading: Reading) -> bool:
        """Is a cell given another clause's digit that it cannot be, where what it is, or where that goes, is named as well?"""
        solution = self.puzzle.solution
        claims = _claims(reading.alternatives[0])
        if solution is None or not all(claim.holds for claim in claims):
            return False
        clauses = [clause for number in reading.sentences for clause in self.gatherer.sentences[number].clauses]
        named = [{value for kind in ("cells", "digits") for value in clause.values(kind)} for clause in clauses]
        every = set[object]().union(*named)
        for claim in claims:
            cell, digit = claim.candidate
            together = any({cell, digit} <= said for said in named)
            if claim.candidate in solution or together or cell not in every:
                continue
            if any(Candidate(cell, other) in solution for other in every if isinstance(other, int)):
                return True
            if any(Candidate(other, digit) in solution for other in every if isinstance(other, Cell)):
                return True
        return False

    def _given_up(self, reading: Reading) -> Sequence[Statement]:
        """Its sentences, as ones that were not taken in."""
        if self.gatherer.supposes(reading.sentences) or self._supposed(reading):
            self.supposing = reading.sentences[-1]
        self._mark(reading, "unread")
        return [_unread(reading)]

    def _true(self, begin: int, end: int, reading: Reading) -> Step | None:
        """A true placement that these pieces name and nothing else, where what shows it may not have been taken in."""
        literal = [effect for option in reading.alternatives for step in option for effect in step.effects]
        for step in self.gatherer.steps(begin, end, BoardSight(self.puzzle, self.replay.board)):
            (effect, *others) = step.effects
            if (
                others
                or not isinstance(effect, Placement)
                or any(isinstance(told, Placement) and told == effect for told in literal)
            ):
                return None
            judged, _ = self.replay.weigh(step, brief=True)
            if judged.clean and judged.verdict == "fallen":
                return step
        return None

    def _ends_seen(self, reading: Reading) -> Reading:
        """The reading with the cells that see both ends of its chain, where what they lose is told of them alone."""
        if not BOTH_ENDS.search(reading.text):
            return reading
        board = self.replay.board
        options = tuple(tuple(self.parter.with_ends_seen(step, board) for step in option) for option in reading.alternatives)
        return replace(reading, alternatives=options)

    def _with_lost(self, reading: Reading) -> Reading:
        """The reading with the digits that go, where those that are kept are told."""
        board = self.replay.board
        options = tuple(tuple(with_lost(step, board) for step in option) for option in reading.alternatives)
        return reading if options == reading.alternatives else replace(reading, alternatives=options)

    def _parted(self, reading: Reading, judged: Judged) -> Sequence[Step]:
        """The step, and what was told after it for no reason given, where the words of several sentences were taken for one."""
        step = reading.alternatives[0][0]
        if len(reading.sentences) < 2 or step.reason is None or judged.problems[0].code != "effect-unproved":
            return ()
        proved = {effect.claim for effect in judged.effects if effect.verdict in ("proved", "idle")}
        claims = [set(plain_claims(effect)) for effect in step.effects]
        count = len([*takewhile(lambda told: told <= proved, claims)])
        if not any(claims[:count]):
            return ()
        if count == len(step.effects) or set[Claim]().union(*claims[count:]) & proved:
            return ()  # what is proved in part was meant to come of the reason
        cells = [{claim.candidate.cell for effect in part for claim in plain_claims(effect)}
                 for part in (step.effects[:count], step.effects[count:])]  # fmt: skip
        if any(cells[0] & told and cells[1] <= told for told in map(self.gatherer.cells, reading.sentences)):
            return ()  # told in one sentence: all of it was meant to come of the reason
        first, rest = replace(step, effects=step.effects[:count]), replace(step, effects=step.effects[count:], reason=None)
        if all(self.replay.weigh(part, brief=True)[0].clean for part in (first, rest)):
            return (first, rest)
        shown = judge(first, self.replay.standing, self.puzzle, brief=True)
        holds = shown.clean or _only_in_part_idle(shown)
        following = self._shows(rest, reading, after(self.replay.standing, shown)) if holds else None
        if following is None:
            return ()
        self.carried[following.sentences] = rest.effects
        return (first,)

    def _shows(self, step: Step, reading: Reading, standing: Standing) -> Reading | None:
        """The reading right after that one, where its reason shows on that standing the effects of the step, and its own."""
        at = bisect_left(self.narration.readings, reading.sentences[-1] + 1, key=lambda other: other.sentences[0])
        following = self.narration.readings[at] if at < len(self.narration.readings) else None
        if following is None or any(map(self.gatherer.speaks, range(reading.sentences[-1] + 1, following.sentences[0]))):
            return None
        told = [option[0] for option in self._with(step.effects, following).alternatives if len(option) == 1]
        clean = (judge(other, standing, self.puzzle, brief=True).clean for other in told if other.reason is not None)
        return following if any(clean) else None

    @staticmethod
    def _with(effects: tuple[Effect, ...], reading: Reading) -> Reading:
        """The reading with these effects told before its own."""
        options = tuple(
            (replace(option[0], effects=(*effects, *(effect for effect in option[0].effects if not _bare(effect)))),)
            if len(option) == 1
            else option
            for option in reading.alternatives
        )
        return replace(reading, alternatives=options)

    def _with_carried(self, reading: Reading) -> Reading:
        effects = self.carried.pop(reading.sentences, ())
        return self._with(effects, reading) if effects else reading

    def _missed(self, reading: Reading) -> Sequence[Statement]:
        """The step and, before it, the talk that it hangs on, if there is any: a claim that was not taken in."""
        before = bisect_left(self.passed, reading.sentences[0], key=lambda passed: passed.sentence)
        for passed in reversed(self.passed[max(0, before - TALK_TRIED) : before]):
            if self.kinds[passed.sentence] != "talk" or not (passed.mentioned.cells or passed.mentioned.digits):
                continue  # a step was found in it after all, or it was a mere "we're not done with box 8"
            unread = _not_taken_in(passed.text, passed.span, passed.time, passed.mentioned)
            for option in reading.alternatives:
                if len(option) > 1:
                    continue
                judged, _ = self.replay.weigh(option[0], brief=True, missed=[passed.mentioned])
                if judged.verdict == "fallen":
                    self.passed.remove(passed)
                    self.kinds[passed.sentence] = "unread"
                    return [unread, option[0]]
        return []

    def _unnamed(self, reading: Reading) -> Step | None:
        """The step under the name that fits, where the words do not name a pattern: then the name was the reader's guess."""
        step = reading.alternatives[0][0]
        if step.reason is None or len(reading.alternatives[0]) > 1:
            return None
        kind, _, size = step.reason.name.value.partition(" ")
        if _is_named(step.reason.name.value, reading.text):
            return None
        if kind in ("naked", "hidden") and size != "single":
            # A pair told as two cells and two digits may be either.
            name = replace(step.reason.name, value=f"{'hidden' if kind == 'naked' else 'naked'} {size}")
            other = replace(step, reason=replace(step.reason, name=name))
            if judge(other, self.replay.standing, self.puzzle, brief=True).clean:
                return other
        judged = judge(step, self.replay.standing, self.puzzle)
        reason = judged.problems[0].details.get("reason") if judged.problems and judged.problems[0].code == "misnamed" else None
        sized = size in SIZES.values() and size in reading.text.lower()
        if reason is None or (sized and not reason.name.value.endswith(size)):
            return None  # "that's a 1, 2 and 6 quad": how many they are was said
        return replace(step, reason=reason)

    def _unhoused(self, reading: Reading, judged: Judged) -> Step | None:
        """The placement without its house, where the reader took a house for its reason that it does not lie in."""
        step = reading.alternatives[0][0]
        guessed = judged.problems and judged.problems[0].code == "cell-outside-house" and len(step.effects) == 1
        if step.reason is None or len(step.effects) != 1 or not isinstance(step.effects[0], Placement):
            return None
        name = step.reason.name.value
        locked = name in ("pointing", "claiming") and not _is_named(name, reading.text)  # "row 2 has one": that puts nothing
        if not locked and not (guessed and name in SINGLES):
            return None
        kinds = ("ONLY_PLACE", "LAST_CELL", "SINGLE_NAME", "CONFINED", "NEEDED")
        houses = {said.value for slot in step.reason.slots for said in slot.values if isinstance(said.value, House)}
        if not locked and any(self.gatherer.says_of(n, house, *kinds) for n in reading.sentences for house in houses):
            return None
        for name in SINGLES:
            bare = replace(step, reason=Reason(replace(step.reason.name, value=name)))
            if judge(bare, self.replay.standing, self.puzzle, brief=True).clean:
                return bare
        return None

    def _recap(self, reading: Reading, judged: Judged) -> bool:
        """Is it what the step before said, said of the board without a reason, or said to be said again?"""
        board = self.replay.board
        shown = bool(judged.effects) and all(board.shows(effect.claim) for effect in judged.effects)
        reasonless = any(option[0].reason is None for option in reading.alternatives)
        again = any(self.gatherer.says(number, "AGAIN") for number in reading.sentences)
        if shown and (reasonless or again or board.solved or self._for_filled(reading.alternatives[0])):
            return True
        return shown and all(self._just_said(effect.claim) for effect in judged.effects)

    def _for_filled(self, option: Sequence[Step]) -> bool:
        """``r7c8 can't be 8, with the one at r3c8``: is it shown by cells alone that are that digit? It leads up to a step."""
        reasons = [step.reason for step in option]
        if any(reason is None or reason.name.value != "facts" for reason in reasons):
            return False
        cited = [said.value for reason in reasons if reason for slot in reason.slots for said in slot.values]
        digits = {claim.candidate.digit for claim in _claims(option)}
        solution = self.puzzle.solution or ()
        return len(digits) == 1 and all(
            isinstance(fact, CellFact) and Candidate(fact.cell, *digits) in solution for fact in cited
        )

    def _just_said(self, claim: Claim) -> bool:
        if not claim.holds:
            return claim in self.last
        told = self.statements[-1] if self.statements else None
        effects = told.effects if isinstance(told, Step) else ()
        return any(claim in plain_claims(effect) for effect in effects)

    def _mark(self, reading: Reading, kind: str) -> None:
        for number in reading.sentences:
            self.kinds[number] = kind


ROLES = ("fins", "pivot", "wings")
PLAINLY = ("ONLY_PLACE", "ONLY_DIGIT", "LAST_CELL", "FORCE")
"""Pieces of a sentence that places a digit and cannot be taken otherwise."""
BOTH_ENDS = re.compile(
    r"\b(both|ends?)\b[^.]*\b(sees?|seen|sight|view|look)\b|\b(sees?|seen|sight|view|look)\b[^.]*\b(both|ends)\b", re.I | re.S
)
COMPLETING = re.compile(
    r"\b(finish|complet|clos|fill)(es|e|s|ing|ed)?( (off|up|out))?( (the|its))? (row|column|col|box|block|[rcb]\d)\b"
)
"""Words that say of a cell that it is the last of its house."""


def _stands(digit: int, cells: Iterable[Cell], board: Board) -> list[Cell]:
    """Those of the cells that are filled in with the digit."""
    return [cell for cell in cells if board.digit(cell) == digit]


def _of_no_cell(step: Step) -> bool:
    """Is a digit put nowhere: ``the one from last Sunday``?"""
    return anywhere(step) and any(isinstance(effect, Placement) for effect in step.effects)


def _leads_to(literal: Sequence[Step], steps: Sequence[Step]) -> bool:
    """``r3c1 can be neither 2 nor 3, so we fill in the 7``: is what the cell cannot be only told for what it is?"""
    told, found = _claims(literal), _claims(steps)
    filled = {claim.candidate.cell for claim in found if claim.holds}
    return bool(told) and all(not claim.holds and claim.candidate.cell in filled for claim in told)


def _claims(steps: Sequence[Step]) -> set[Claim]:
    """All that the steps claim, as far as it is said."""
    return {claim for step in steps for effect in step.effects for claim in plain_claims(effect)}


def _tells_less(steps: Sequence[Step], held: Sequence[Step]) -> bool:
    """Do the steps leave out what others say in full, or leave its place open for the same reason?"""
    told, claims = {effect for step in steps for effect in step.effects}, _claims(steps)
    reasons = {step.reason.name.value for step in steps if step.reason is not None}
    for step in held:
        same = step.reason is not None and step.reason.name.value in reasons
        for effect in step.effects:
            said = {*plain_claims(effect)}
            kept = effect in told or (bool(said) and said <= claims)
            if not kept and (explicit([step]) or (same and isinstance(effect, RestOf) and effect.house is not None)):
                return True
    return False


def _in_roles(steps: Sequence[Step]) -> set[Cell]:
    """The cells that the reasons name by a role, as fins, which a list of effects may follow on."""
    slots = (slot for step in steps for slot in (step.reason.slots if step.reason else ()))
    return {said.value for slot in slots if slot.word in ROLES for said in slot.values if isinstance(said.value, Cell)}


def _of_cases(option: Sequence[Step]) -> bool:
    """Are two digits put in one cell? Then they are what it may be: ``Either r1c1 is 9, or it is 2; and in that case ...``."""
    filled = [claim.candidate.cell for claim in _claims(option) if claim.holds]
    return len(filled) > len(set(filled))


def _merely_named(option: Sequence[Step]) -> bool:
    """Is a chain named, and none of its cells?"""
    reason = option[0].reason
    if reason is None or not reason.name.value.endswith("chain"):
        return False
    return all(isinstance(said.value, int) for slot in reason.slots for said in slot.values)


def _turns_on_itself(option: Sequence[Step]) -> bool:
    """Does a link of the chain deny the one before it: from "r2c9 is not 6" no one goes on to "r2c9 is 6"?"""
    links = [said.value for step in option if step.reason for slot in step.reason.slots for said in slot.values]
    told = [link for link in links if isinstance(link, Link)]
    return any((one.cell, one.digit) == (other.cell, other.digit) and one != other for one, other in pairwise(told))


def _is_chain(reading: Reading) -> bool:
    """Is it a chain told to its end, by its links, with what comes of it?"""
    step = reading.alternatives[0][0] if reading.alternatives else None
    if step is None or step.reason is None or not step.reason.name.value.endswith("chain"):
        return False
    return sum(len(slot.values) for slot in step.reason.slots) > 2 and not any(map(leaves_open, step.effects))


def _for_no_reason(step: Step) -> bool:
    return step.reason is None and not any(map(leaves_open, step.effects))


def _keeps_name(reading: Reading, found: Sequence[Statement]) -> bool:
    """Is a pattern that the words name among the steps found instead? Without it a wrong name would go unseen."""
    reason = reading.alternatives[0][0].reason if reading.alternatives else None
    if reason is None or not _is_named(reason.name.value, reading.text):
        return True
    return any(isinstance(step, Step) and step.reason and step.reason.name.value == reason.name.value for step in found)


def _is_named(name: str, text: str) -> bool:
    """Does the text say the pattern's name, or of a last cell that it fills its house?"""
    text = text.lower()
    return any(word in text for word in _naming(name)) or (name == "last cell" and COMPLETING.search(text) is not None)


def _naming(name: str) -> tuple[str, ...]:
    """The words by which a pattern's name is known when it is said; a pair may be told as one and be naked or hidden."""
    word = name.removeprefix("finned ").split()[0]
    return (word, word.replace("-", " ")) if word not in ("last", "pointing", "claiming") else (word,)


def _only_in_part_idle(judged: Judged) -> bool:
    return judged.verdict == "warranted" and all(problem.code == "not-a-candidate" for problem in judged.problems)


def _unread(reading: Reading) -> Unread:
    effects = reading.alternatives[0][0].effects if reading.alternatives else ()
    return _not_taken_in(reading.text, reading.span, reading.time, reading.mentioned, effects)


def _not_taken_in(text: str, span: Span, time: float | None, mentioned: Mentioned, effects: tuple[Effect, ...] = ()) -> Unread:
    problem = Problem("unread-sentence", span, {"text": _shortened(text)})
    return Unread(text, problem, effects, time=time, span=span, mentioned=mentioned)


def _shortened(text: str) -> str:
    words = " ".join(text.split())
    return words if len(words) <= SHOWN else words[: SHOWN - 3].rstrip() + "..."


def other_grid(report: Report) -> Problem | None:
    """Does the narration belong to another grid? Its first claims cannot be true of this one then, nor most of the others."""
    weighed = [step for step in report.steps if step.verdict != "unread"]
    begin = [step.verdict for step in weighed[:12]]
    if len(begin) < 4 or begin.count("refuted") * 10 < len(begin) * 6:
        return None
    if sum(step.verdict == "warranted" for step in weighed) * 4 > len(weighed):
        return None
    refuted = sum(step.verdict == "refuted" for step in weighed)
    first = next((finding.span for finding in report.findings if finding.step is not None), Span(1, 1, 2))
    return Problem("other-grid", first, {"refuted": refuted, "steps": len(weighed)})
