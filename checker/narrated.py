"""A narration under audit: its readings become a Path of ordinary statements, the board deciding between readings."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from ..grammar.narration import read_narration
from ..grammar.passages import Passage, Transcript
from ..grammar.prose import read_prose
from ..grammar.reading import Narration, Reading, Sentences
from ..grammar.statements import (
    Effect,
    Grid,
    HeaderEntry,
    Mentioned,
    Path,
    Placement,
    Problem,
    Removal,
    RestOf,
    Said,
    Span,
    Statement,
    Step,
    Unread,
    Unsaid,
)
from ..grammar.telling import used
from ..grammar.vocabulary import Cell, Claim, Geometry
from .findings import Finding, order
from .judge import Judged, judge, leaves_open
from .puzzle import Puzzle, Standing
from .replay import Replay, plain_claims
from .report import Report

KINDS = ("narration", "srt", "vtt")
GATHERED = 1500
"""Steps that the names of one place are put together to."""
PARTED = 10
"""Sentences taken for one step that are tried apart, and how many of them one step may have."""
LONGEST_PART = 4
REASON_AFTER = 3
"""Sentences after an effect in which its reason is looked for."""
TALK_TRIED = 4
"""How many of the sentences taken for talk before it a failing step is tried against."""
RECAPPED = 2
"""How far back a pattern that is explained twice was told first, in steps."""
LOST = 3
"""Sentences not taken in and steps that fail unexplained, by which the thread is lost: so many, or per cent of the steps."""
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
    """The path that a narration tells, for each of its statements where it was read, and the count of its sentences."""

    path: Path
    readings: tuple[Reading, ...]
    sentences: Sentences


def resolved(transcript: Transcript, grid: Grid, conflicts: int) -> Resolved:
    """The path that the narration tells on this grid, the board deciding between readings."""
    puzzle = Puzzle(grid, conflicts)
    narration = read_narration(transcript, grid.geometry)
    try:
        resolver = _Resolver(puzzle, narration)
        statements, kinds = resolver.run()
    finally:
        puzzle.oracle.close()
    path = Path((HeaderEntry("grid", grid),), tuple(statements), _by_sound(narration))
    return Resolved(path, tuple(resolver.origins), _counted(kinds))


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
    findings = (*_weighed(findings, report), *(Finding(problem) for problem in report.path.problems))
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
    lost = len(unexplained) + unread > max(LOST, len(report.steps) * LOST // 100)
    for finding in findings:
        yield replace(finding, doubted=True) if lost and finding in unexplained else finding


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


def _open(effect: Effect) -> bool:
    return isinstance(effect, RestOf | Unsaid) or leaves_open(effect)


def _dated(finding: Finding, passages: Sequence[Passage]) -> Finding:
    here = [passage for passage in passages if passage.column <= finding.column] or passages
    if not here:
        return finding
    return replace(finding, time=here[-1].time, cue=here[-1].cue)


class _Resolver:
    """Replays the readings as it chooses between them."""

    def __init__(self, puzzle: Puzzle, narration: Narration) -> None:
        self.puzzle = puzzle
        self.replay = Replay(Path((), ()), puzzle)
        self.narration = narration
        assert narration.gatherer is not None
        self.gatherer = narration.gatherer
        self.reached = 0
        self.weighed = 0
        """How many more steps may be put together in this place."""
        self.consumed: set[int] = set()
        """Sentences that belong to steps put together before their turn."""
        self.kinds = list(narration.kinds)
        self.statements: list[Statement] = []
        self.origins: list[Reading] = []
        self.last: frozenset[Claim] = frozenset()
        self.passed = list(narration.passed)
        """Talk that may have been a claim, and that no step has hung on yet."""

    def run(self) -> tuple[list[Statement], list[str]]:
        for reading in self._in_order():
            if self.consumed.issuperset(reading.sentences):
                continue
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
        return self.statements, self.kinds

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
        """What the sentences name, put together so that it holds; talk just before and after it may belong to it."""
        own = [number for number in reading.sentences if self.gatherer.names(number)]
        if not own:
            return ()
        first, last = reading.sentences[0], reading.sentences[-1]
        while first > max(self.reached, reading.sentences[0] - TALK_TRIED) and self.kinds[first - 1] == "talk":
            first -= 1
        if last + 1 < len(self.kinds) and self.kinds[last + 1] == "talk":
            last += 1
        elif reading.alternatives and all(option[0].reason is None for option in reading.alternatives):
            # "r1c1 loses 2. The reason is a chain: ...": why may be told after it.
            last = min(last + REASON_AFTER, len(self.kinds) - 1)
        found: list[tuple[int, int, Step]] = []
        covered: set[int] = set()
        self.weighed = GATHERED
        explicit = reading.forced and bool(reading.alternatives)
        for begin, end in self.gatherer.windows(first, last):
            sentences = range(self.gatherer.sentence_of[begin], self.gatherer.sentence_of[end - 1] + 1)
            if covered.isdisjoint(own) and set(sentences).isdisjoint(own):
                continue
            if any(begin < other_end and other_begin < end for other_begin, other_end, _ in found):
                continue
            step = self._holding(begin, end, explicit)
            if step is not None:
                found.append((begin, end, step))
                covered.update(sentences)
        steps = [step for _, _, step in sorted(found, key=lambda one: one[0])]
        # Where the words leave no other reading, what holds instead has to use all that they name.
        if not steps or (reading.forced and reading.alternatives and not used(reading.alternatives[0]) <= used(steps)):
            return ()
        self.consumed |= covered
        for number in covered:
            self.kinds[number] = "claim"
        return steps

    def _apart(self, reading: Reading) -> Sequence[Statement]:
        """The steps of its sentences, where they were taken for one: parted so that every part holds by itself.

        Of several ways to part them, the one that leaves the fewest of the names unused.
        """
        numbers = list(dict.fromkeys(reading.sentences))[:PARTED]
        best: dict[int, tuple[int, list[Step]]] = {0: (0, [])}
        self.weighed = GATHERED
        for end in range(1, len(numbers) + 1):
            ways: list[tuple[int, list[Step]]] = []
            for begin in range(max(0, end - LONGEST_PART), end):
                if begin not in best or (begin, end) == (0, len(numbers)):
                    continue
                left_over, before = best[begin]
                steps = self._clean(numbers[begin:end], before)
                if not steps and end - begin == 1 and self.gatherer.whole and self.gatherer.cells(numbers[begin]):
                    window = self.gatherer.begins[numbers[begin]], self.gatherer.begins[numbers[begin] + 1]
                    alone = self._holding(*window, explicit=True) or self._true(*window, reading)
                    steps = [alone] if alone is not None else steps
                if steps is not None:
                    names = self.gatherer.named(numbers[begin:end])
                    ways.append((left_over + len(names - used(steps)), [*before, *steps]))
            if ways:
                best[end] = min(ways, key=lambda way: way[0])
        left_over, steps = best.get(len(numbers), (0, []))
        whole = len(self.gatherer.named(numbers) - used(reading.alternatives[0])) if reading.alternatives else left_over + 1
        return steps if (len(steps) > 1 and left_over <= whole) or (steps and not left_over) else ()

    def _clean(self, numbers: Sequence[int], before: Sequence[Step]) -> list[Step] | None:
        """The steps that the sentences tell by themselves; None if not all of them hold, or something is left unread."""
        now = self.replay.standing
        board = now.board.after(claim for step in before for effect in step.effects for claim in plain_claims(effect))
        standing = Standing(board, (*now.supposed, *board.lost_since(now.board)))
        found: list[Step] = []
        for part in self.gatherer.told_apart(numbers):
            for option in part.alternatives:
                judged = judge(option[0], standing, self.puzzle, brief=True)
                if len(option) == 1 and judged.clean and judged.verdict == "warranted":
                    found.append(option[0])
                    break
            else:
                return None
        return found

    def _holding(self, begin: int, end: int, explicit: bool) -> Step | None:
        for step in self.gatherer.steps(begin, end):
            if explicit and any(map(leaves_open, step.effects)):
                continue
            if not self.weighed:
                return None
            self.weighed -= 1
            judged = judge(step, self.replay.standing, self.puzzle, brief=True)
            if judged.clean and judged.verdict == "warranted":
                return step
        return None

    def _true(self, begin: int, end: int, reading: Reading) -> Step | None:
        """A true placement that these pieces name and nothing else, where what shows it may not have been taken in."""
        literal = [effect for option in reading.alternatives for step in option for effect in step.effects]
        for step in self.gatherer.steps(begin, end):
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

    def _taken(self, reading: Reading) -> Sequence[Statement]:
        """The statements of the reading that the board bears out; else of the most literal one; none for a recap."""
        first: Judged | None = None
        excused: Sequence[Statement] | None = None
        if reading.marking is not None:
            return [reading.marking]
        reading = self._ends_seen(reading)
        for option in reading.alternatives:
            if len(option) > 1:
                weighed = [self.replay.weigh(step, brief=True)[0] for step in option]
                if all(judged.clean or judged.verdict == "idle" for judged in weighed) and weighed[-1].clean:
                    return self._with_left_over(reading, [step for step, judged in zip(option, weighed) if judged.clean])
                continue
            judged, _ = self.replay.weigh(option[0], brief=True)
            if judged.clean and judged.verdict == "fallen":
                excused = excused or option
            elif judged.clean or _only_in_part_idle(judged):
                return self._with_left_over(reading, option)
            first = first or judged
        if first is not None and first.verdict == "idle" and self._recap(reading, first):
            self._mark(reading, "talk")
            return []
        found = self._apart(reading) or self._gathered(reading)
        if found and _keeps_name(reading, found):
            return found
        salvaged = self._salvaged(reading)
        if salvaged:
            return salvaged
        if first is None:
            number = reading.sentences[0]
            true = self.gatherer.whole and len(reading.sentences) == 1 and self.gatherer.cells(number)
            step = self._true(self.gatherer.begins[number], self.gatherer.begins[number + 1], reading) if true else None
            if step is not None:
                self._mark(reading, "claim")
                return [step]
            return [] if self.kinds[number] == "talk" else [_unread(reading)]
        renamed = self._unnamed(reading)
        if renamed is not None:
            return [renamed]
        # Only where nothing holds by itself does a step hang on what was not taken in.
        excused = excused or self._missed(reading)
        if excused:
            return excused
        parted = self._parted(reading, first)
        if parted:
            return parted
        if not reading.forced:
            self._mark(reading, "unread")
            return [_unread(reading)]
        return reading.alternatives[0]

    def _salvaged(self, reading: Reading) -> Sequence[Statement]:
        """Where a sentence of several holds by itself, its step and what the others come to without it."""
        numbers = list(dict.fromkeys(reading.sentences))
        if len(numbers) < 2 or not self.gatherer.whole:
            return ()
        self.weighed = GATHERED
        alone: dict[int, Statement] = {}
        for number in numbers:
            if self.gatherer.cells(number):
                step = self._holding(self.gatherer.begins[number], self.gatherer.begins[number + 1], explicit=True)
                if step is not None and isinstance(step.effects[0], Placement):
                    alone[number] = step
        rest = [number for number in numbers if number not in alone]
        if not alone or not rest:
            return [*alone.values()]
        told: list[tuple[int, Sequence[Statement]]] = [(number, [step]) for number, step in alone.items()]
        told += ((part.sentences[0], self._taken(part)) for part in self.gatherer.told_apart(rest))
        return [statement for _, statements in sorted(told, key=lambda one: one[0]) for statement in statements]

    def _with_left_over(self, reading: Reading, steps: Sequence[Step]) -> Sequence[Statement]:
        """The steps, and what a sentence of theirs tells besides: one whose cell comes into none of them."""
        known = used(steps)
        numbers = list(dict.fromkeys(reading.sentences))
        if len(numbers) < 2 or not self.gatherer.whole:
            return steps
        before: list[Statement] = []
        after: list[Statement] = []
        self.weighed = GATHERED
        for at, number in enumerate(numbers):
            if self.gatherer.names(number) and not self.gatherer.cells(number) <= known:
                step = self._holding(self.gatherer.begins[number], self.gatherer.begins[number + 1], explicit=True)
                if step is not None and not used([step]) <= known:
                    (before if at + 1 < len(numbers) else after).append(step)
        return [*before, *steps, *after]

    def _ends_seen(self, reading: Reading) -> Reading:
        """The reading with the cells that see both ends of its chain, where what they lose is told of them alone."""
        if not BOTH_ENDS.search(reading.text):
            return reading
        options = tuple(tuple(map(self._from_both_ends, option)) for option in reading.alternatives)
        return replace(reading, alternatives=options)

    def _from_both_ends(self, step: Step) -> Step:
        ends = _ends(step)
        if len(ends) != 2:
            return step
        geometry, board = self.puzzle.geometry, self.replay.board
        effects: list[Effect] = []
        for effect in step.effects:
            if isinstance(effect, Removal) and effect.digits and not effect.cells:
                (digit,) = {said.value for said in effect.digits} if len(effect.digits) == 1 else (0,)
                seen = sorted(geometry.peers[ends[0]] & geometry.peers[ends[1]]) if digit else []
                cells = tuple(Said(cell, effect.span) for cell in seen if board.has(cell, digit))
                effect = replace(effect, cells=cells)
            effects.append(effect)
        return replace(step, effects=tuple(effects))

    def _parted(self, reading: Reading, judged: Judged) -> Sequence[Step]:
        """The step, and what was told after it for no reason given, where the words of several sentences were taken for one."""
        step = reading.alternatives[0][0]
        if len(reading.sentences) < 2 or step.reason is None or judged.problems[0].code != "effect-unproved":
            return ()
        proved = {effect.claim for effect in judged.effects if effect.verdict == "proved"}
        count = sum(1 for effect in step.effects if (claims := set(plain_claims(effect))) and claims <= proved)
        if not 0 < count < len(step.effects):
            return ()
        parts = replace(step, effects=step.effects[:count]), replace(step, effects=step.effects[count:], reason=None)
        return parts if all(self.replay.weigh(part, brief=True)[0].clean for part in parts) else ()

    def _missed(self, reading: Reading) -> Sequence[Statement]:
        """The step and, before it, the talk that it hangs on, if there is any: a claim that was not taken in."""
        before = bisect_left(self.passed, reading.sentences[0], key=lambda passed: passed.sentence)
        for passed in reversed(self.passed[max(0, before - TALK_TRIED) : before]):
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
        if any(word in reading.text.lower() for word in _naming(step.reason.name.value)):
            return None
        kind, _, size = step.reason.name.value.partition(" ")
        if kind in ("naked", "hidden") and size != "single":
            # A pair told as two cells and two digits may be either.
            name = replace(step.reason.name, value=f"{'hidden' if kind == 'naked' else 'naked'} {size}")
            other = replace(step, reason=replace(step.reason, name=name))
            if judge(other, self.replay.standing, self.puzzle, brief=True).clean:
                return other
        judged = judge(step, self.replay.standing, self.puzzle)
        reason = judged.problems[0].details.get("reason") if judged.problems and judged.problems[0].code == "misnamed" else None
        return replace(step, reason=reason) if reason is not None else None

    def _recap(self, reading: Reading, judged: Judged) -> bool:
        """Is it what the step before said, or said of the board without a reason?"""
        board = self.replay.board
        shown = bool(judged.effects) and all(board.shows(effect.claim) for effect in judged.effects)
        reasonless = any(option[0].reason is None for option in reading.alternatives)
        if shown and (reasonless or board.solved):
            return True
        return shown and all(self._just_said(effect.claim) for effect in judged.effects)

    def _just_said(self, claim: Claim) -> bool:
        if not claim.holds:
            return claim in self.last
        told = self.statements[-1] if self.statements else None
        effects = told.effects if isinstance(told, Step) else ()
        return any(claim in plain_claims(effect) for effect in effects)

    def _mark(self, reading: Reading, kind: str) -> None:
        for number in reading.sentences:
            self.kinds[number] = kind


BOTH_ENDS = re.compile(
    r"\b(both|ends?)\b[^.]*\b(sees?|seen|sight|view|look)\b|\b(sees?|seen|sight|view|look)\b[^.]*\b(both|ends)\b", re.I | re.S
)


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


def _keeps_name(reading: Reading, found: Sequence[Statement]) -> bool:
    """Is a pattern that the words name among the steps found instead? Without it a wrong name would go unseen."""
    reason = reading.alternatives[0][0].reason if reading.alternatives else None
    if reason is None or not any(word in reading.text.lower() for word in _naming(reason.name.value)):
        return True
    return any(isinstance(step, Step) and step.reason and step.reason.name.value == reason.name.value for step in found)


def _naming(name: str) -> tuple[str, ...]:
    """The words by which a pattern's name is known when it is said; a pair may be told as one and be naked or hidden."""
    word = name.split()[0]
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
