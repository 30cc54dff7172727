"""One step held against the board: do its effects follow from the facts its reason cites, and is the reason's name right?"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import islice
from typing import NamedTuple

from ..grammar.statements import (
    NOWHERE,
    Effect,
    Placement,
    Problem,
    Reason,
    Removal,
    RestOf,
    Span,
    Step,
    Unsaid,
)
from ..grammar.vocabulary import Candidate, Cell, Claim, Fact, fact_order
from ..sat.oracle import Outcome
from ..sat.smallest import Smallest, smallest_warrant
from .catalogue import CATALOGUE, Parts, Pattern
from .puzzle import Puzzle, Standing
from .sight import in_sight, unclaimed

READINGS_TRIED = 5000
"""Completions of a reason with unsaid parts that are looked at before the search ends."""

READINGS_PROVED = 400
"""Of those that fit, how many are held against the effects: each costs questions to the oracle."""

READINGS_NAMED = 4
"""Readings that differ which are told apart."""


class Effected(NamedTuple):
    """One claim of a step, where its cell and its digit were said, and what became of it.

    ``verdict``: proved, unproved, refuted, idle or unknown. ``core``: the facts a proof leans on. ``solution``: the filling
    that breaks a refuted claim.
    """

    claim: Claim
    span: Span
    digit_span: Span
    verdict: str = "unproved"
    core: tuple[Fact, ...] = ()
    solution: frozenset[Candidate] | None = None
    vacuous: bool = False


class Judged(NamedTuple):
    """What became of a step.

    ``verdict``: as in the report. ``problems``: what is wrong, the one to show first in front; ``also``: smaller matters that
    belong to the first. ``warrant``: the facts its reason cites. ``reading``: the step with every unsaid part worked out.
    """

    verdict: str
    effects: tuple[Effected, ...] = ()
    problems: tuple[Problem, ...] = ()
    also: tuple[Problem, ...] = ()
    notes: tuple[Problem, ...] = ()
    warrant: tuple[Fact, ...] = ()
    reading: Step | None = None
    technique: str | None = None

    @property
    def clean(self) -> bool:
        """Is there nothing to mend?"""
        return not self.problems

    @property
    def facts(self) -> tuple[Fact, ...]:
        """The facts that the proofs lean on, each once, sorted."""
        return tuple(sorted({fact for effect in self.effects for fact in effect.core}, key=fact_order))


class Reading(NamedTuple):
    """One way to read a reason: the parts, what keeps the name from fitting them, and the facts they cite."""

    pattern: Pattern
    parts: Parts
    misfits: tuple[Problem, ...]
    facts: tuple[Fact, ...]
    subject: Placement | None = None

    @property
    def reason(self) -> Reason:
        """Every part spelt out; of a pattern that places a digit the house alone: the effect says the cell and the digit."""
        reason = self.parts.reason(self.pattern.form)
        if not self.pattern.tells_placement:
            return reason
        return replace(reason, slots=tuple(slot for slot in reason.slots if slot.word == "in"))


def judge(step: Step, standing: Standing, puzzle: Puzzle, *, brief: bool = False) -> Judged:
    """Hold the step against the board. Pure but for the questions it asks of the puzzle's oracle.

    ``brief``: the verdict only; what a failing step does prove, and what its right name is, are not worked out.
    """
    return Judge(standing, puzzle, brief).step(step)


ToldClaim = tuple[Claim, Span, Span]
"""A claim, with the spans of its cell and its digit."""


class Judge:
    """Holds steps against one standing of a puzzle."""

    def __init__(self, standing: Standing, puzzle: Puzzle, brief: bool = False) -> None:
        self.standing = standing
        self.brief = brief
        self.board = standing.board
        self.puzzle = puzzle
        self.tried = 0
        """Completions looked at by the last search for readings."""

    @property
    def stopped(self) -> int | None:
        """After how many completions that search was ended, if it was."""
        return self.tried if self.tried == READINGS_TRIED else None

    def step(self, step: Step) -> Judged:
        if step.reason is None:
            return self._without_reason(step)
        pattern = CATALOGUE[step.reason.name.value]
        parts: list[Reading] = []
        effects: list[Effected] = []
        notes: list[Problem] = []
        for told, subject in self.subjects(step, pattern):
            readings = self.readings(pattern, told, subject)
            if not readings:
                details = {"why": "no-reading", "pattern": pattern.form.name, "stopped": self.stopped}
                problem = Problem("pattern-absent", step.reason.name.span, details)
                parts.append(Reading(pattern, told, (problem,), (), subject))
                effects += self._effected(self._claims(step, parts[-1]), ())
                continue
            taken, told_effects = self._choose(step, readings)
            if len(taken) > 1:
                options = tuple(_reason(step, reading) for reading in taken[:READINGS_NAMED])
                more = len(taken) > READINGS_NAMED or self.stopped is not None
                problem = Problem("several-readings", step.reason.span, {"readings": options, "more": more})
                return Judged("unknown", problems=(problem,), technique=pattern.form.name)
            chosen = taken[0]
            verdicts = {effect.verdict for effect in told_effects}
            if (self.stopped or len(readings) > READINGS_PROVED) and "unproved" in verdicts and "refuted" not in verdicts:
                # Not every reading was tried, so that nothing can be held against the step.
                problem = Problem("several-readings", step.reason.span, {"readings": (), "tried": self.tried})
                return Judged("unknown", tuple(effects) + told_effects, problems=(problem,), technique=pattern.form.name)
            parts.append(chosen)
            effects += told_effects
            if chosen.parts is not told and not chosen.misfits and told_effects:
                notes += self._worked_out(step, told, chosen)
        return self._verdict(step, parts, tuple(dict.fromkeys(effects)), tuple(notes))

    def _without_reason(self, step: Step) -> Judged:
        """No reason given: the whole board is the warrant, so a claim is proved when it is true in every solution."""
        told = [*self._claims(step, None)]
        effects = []
        for claim, span, digit_span in told:
            if self.board.shows(claim):
                effects.append(Effected(claim, span, digit_span, "idle"))
                continue
            truth = self.puzzle.truth(claim)
            verdict = {True: "proved", False: "refuted", None: "unknown"}[truth.holds]
            effects.append(Effected(claim, span, digit_span, verdict, solution=truth.solution))
        judged = self._verdict(step, [], tuple(effects), ())
        if not told:
            problem = Problem("several-readings", step.span, {"readings": ()})
            return judged._replace(verdict="unknown", problems=(problem,))
        note = Problem("no-reason", step.span, {"claims": tuple(claim for claim, *_ in told)})
        return judged._replace(notes=(note,)) if judged.verdict == "warranted" else judged

    def subjects(self, step: Step, pattern: Pattern) -> list[tuple[Parts, Placement | None]]:
        """The reason's parts as told; for a pattern that places a digit, once for every placement, with its cell and digit."""
        assert step.reason is not None
        told = Parts.of(step.reason)
        placements = [effect for effect in step.effects if isinstance(effect, Placement)]
        if not pattern.tells_placement or not placements:
            return [(told, None)]
        subjects: list[tuple[Parts, Placement | None]] = []
        for effect in placements:
            slots = dict(told.slots)
            if effect.digit is not None and not told.get(""):
                slots[""] = (effect.digit,)
            if effect.cell is not None and not told.get("at"):
                slots["at"] = (effect.cell,)
            subjects.append((Parts(slots, told.span), effect))
        return subjects

    def readings(self, pattern: Pattern, told: Parts, subject: Placement | None) -> list[Reading]:
        """The readings that fit; where none does, the one that comes nearest; none at all if nothing comes near."""
        fitting: list[Reading] = []
        nearest: Reading | None = None
        self.tried = 0
        for parts in islice(pattern.complete(told, self.board), READINGS_TRIED):
            self.tried += 1
            # A part that was worked out stands nowhere: what is wrong with it is shown at the name.
            found = islice(pattern.misfits(parts, self.board), 1 if self.brief else None)
            misfits = tuple(problem if problem.span != NOWHERE else problem._replace(span=told.span) for problem in found)
            reading = Reading(pattern, parts, misfits, pattern.facts(parts, self.board), subject)
            if not misfits:
                fitting.append(reading)
            elif nearest is None or len(misfits) < len(nearest.misfits):
                nearest = reading
        return fitting or ([nearest] if nearest else [])

    def _choose(self, step: Step, readings: Sequence[Reading]) -> tuple[list[Reading], tuple[Effected, ...]]:
        """The reading under which most of what was told is proved; where effects are unsaid, every one that differs in them."""
        rest = [effect.house.value for effect in step.effects if isinstance(effect, RestOf) and effect.house]
        # A pattern told of the rest of a house is one in that house.
        likeliest = sorted(readings, key=lambda reading: not any(house in rest for house in reading.parts.values("in")))
        if len(likeliest) > READINGS_PROVED:
            likeliest = sorted(likeliest, key=lambda reading: self._out_of_sight(step, reading))[:READINGS_PROVED]
        best: tuple[tuple[bool, int, int], Reading, tuple[Effected, ...]] | None = None
        differing: dict[frozenset[Claim], Reading] = {}
        open_ended = any(map(leaves_open, step.effects))
        for reading in likeliest[: READINGS_PROVED // 10] if open_ended else likeliest:
            effects = self._effected(self._claims(step, reading), reading.facts)
            verdicts = [effect.verdict for effect in effects]
            if "proved" in verdicts:
                differing.setdefault(frozenset(effect.claim for effect in effects if effect.verdict == "proved"), reading)
            score = (bool(effects), verdicts.count("proved") - len(effects), verdicts.count("proved"))
            if best is None or score > best[0]:
                best = (score, reading, effects)
            if (not open_ended and effects and score[1] == 0) or len(differing) > READINGS_NAMED:
                break
        if open_ended and len(differing) > 1:
            return list(differing.values()), ()
        assert best is not None
        _, reading, effects = best
        if not effects and len(readings) > 1:
            details = {"why": "nothing-new", "pattern": reading.pattern.form.name, "stopped": self.stopped}
            reading = reading._replace(misfits=(Problem("pattern-absent", reading.parts.span, details),), facts=())
        return [reading], effects

    def _claims(self, step: Step, reading: Reading | None) -> Iterator[ToldClaim]:
        """What the step says, claim by claim."""
        for effect in step.effects:
            yield from self._claims_of(effect, reading)

    def _claims_of(self, effect: Effect, reading: Reading | None) -> Iterator[ToldClaim]:
        if isinstance(effect, Placement) and reading is not None and reading.subject not in (None, effect):
            return
        if isinstance(effect, Placement) and effect.cell is not None and effect.digit is not None:
            claim = Claim(Candidate(effect.cell.value, effect.digit.value), True)
            yield claim, effect.cell.span, effect.digit.span
        elif isinstance(effect, Removal) and effect.cells and effect.digits:
            for cell in effect.cells:
                for digit in effect.digits:
                    span = digit.span if len(effect.cells) == 1 and len(effect.digits) > 1 else cell.span
                    yield Claim(Candidate(cell.value, digit.value), False), span, digit.span
        elif reading is not None:
            yield from ((claim, effect.span, effect.span) for claim in self._unsaid(effect, reading))

    def _unsaid(self, effect: Effect, reading: Reading) -> Iterator[Claim]:
        """The claims of an effect with something left out: those the reading proves that agree with what was said."""
        cells: Collection[Cell] | None = None
        digits: Collection[int] | None = None
        if isinstance(effect, RestOf):
            digits = [said.value for said in effect.digits] or None
            houses = [effect.house.value] if effect.house else self.board.geometry.houses
            named = reading.pattern.cells(reading.parts, self.board)
            cells = {cell for house in houses for cell in self.board.geometry.cells_of[house]} - named
            if effect.house and digits is not None:
                # Cells that lost the digit before are not worth a word: "the rest of the box" is said of all of them.
                for cell in sorted(cells):
                    for digit in digits:
                        if self.board.has(cell, digit):
                            yield Claim(Candidate(cell, digit), False)
                return
        elif isinstance(effect, Removal):
            cells = [said.value for said in effect.cells] or None
            digits = [said.value for said in effect.digits] or None
        elif isinstance(effect, Placement):
            cells = [effect.cell.value] if effect.cell else None
            digits = [effect.digit.value] if effect.digit else None
        about = [c for c in self.board.live() if (cells is None or c.cell in cells) and (digits is None or c.digit in digits)]
        proved = self.puzzle.oracle.consequences(reading.facts, self.standing.supposed, about)
        if isinstance(effect, Unsaid):
            yield from self.beyond_board(proved)
        else:
            told = [claim for claim in proved if claim.holds == isinstance(effect, Placement)]
            yield from sorted(claim for claim in told if not self.board.shows(claim))

    def beyond_board(self, proved: Collection[Claim]) -> list[Claim]:
        """The claims that the board does not show; removals that the placements among them bring about go without saying."""
        new = [claim for claim in proved if not self.board.shows(claim)]
        placed = self.board.after(claim for claim in new if claim.holds)
        return sorted(claim for claim in new if claim.holds or not placed.shows(claim))

    def _out_of_sight(self, step: Step, reading: Reading) -> int:
        """How much of what the step takes away the reading has no way to touch."""
        near = set(in_sight(reading.facts, self.board))
        told = {claim.candidate for effect in step.effects for claim, *_ in self._claims_of(effect, None)}
        return sum(candidate not in near for candidate in told if self.board.has(*candidate))

    def _effected(self, told: Iterable[ToldClaim], facts: tuple[Fact, ...]) -> tuple[Effected, ...]:
        return tuple(self._effect(claim, (span, digit_span), facts) for claim, span, digit_span in told)

    def _effect(self, claim: Claim, spans: tuple[Span, Span], facts: tuple[Fact, ...]) -> Effected:
        if self.board.shows(claim):
            return Effected(claim, *spans, "idle")
        truth = self.puzzle.truth(claim)
        if truth.holds is False:
            return Effected(claim, *spans, "refuted", solution=truth.solution)
        answer = self.puzzle.oracle.prove(facts, claim, self.standing.supposed)
        if answer.outcome is Outcome.PROVED and not answer.vacuous:
            return Effected(claim, *spans, "proved", answer.core)
        if answer.outcome is Outcome.UNKNOWN:
            return Effected(claim, *spans, "unknown")
        return Effected(claim, *spans, "unproved", vacuous=answer.vacuous)

    def _worked_out(self, step: Step, told: Parts, reading: Reading) -> Iterator[Problem]:
        assert step.reason is not None
        filled = {
            word: reading.parts.values(word)
            for word in reading.parts.slots
            if len(reading.parts.get(word)) > len(told.get(word))
        }
        if filled and not (reading.pattern.tells_placement and set(filled) <= {"at", ""}):
            yield Problem("worked-out", step.reason.span, {"reason": _reason(step, reading)})

    def _verdict(
        self, step: Step, readings: Sequence[Reading], effects: tuple[Effected, ...], notes: tuple[Problem, ...]
    ) -> Judged:
        """Weigh the effects and the shape: one verdict, and the one problem that says most."""
        misfits = tuple(misfit for reading in readings for misfit in reading.misfits)
        by_verdict: dict[str, list[Effected]] = {}
        for effect in effects:
            by_verdict.setdefault(effect.verdict, []).append(effect)
        judged = Judged(
            "warranted",
            effects,
            notes=notes,
            warrant=tuple(dict.fromkeys(fact for reading in readings for fact in reading.facts)),
            reading=self._spelt_out(step, readings),
            technique=step.reason.name.value if step.reason else None,
        )
        refuted, unproved, idle = (by_verdict.get(kind, []) for kind in ("refuted", "unproved", "idle"))
        if len(idle) == len(effects) and (effects or not misfits):
            why = "nothing-left" if not effects else "said-before"
            span = effects[0].span if effects else step.span
            details = {"why": why, "claims": tuple(effect.claim for effect in effects)}
            return judged._replace(verdict="idle", problems=(Problem("already-done", span, details),))
        if refuted:
            return self._refuted(refuted, misfits, judged._replace(verdict="refuted"))
        if misfits:
            return self._misfit(step, judged, misfits, unproved)
        if by_verdict.get("unknown"):
            first = by_verdict["unknown"][0]
            return judged._replace(verdict="unknown", problems=(Problem("gave-up", first.span, {"claim": first.claim}),))
        if unproved:
            return judged._replace(verdict="unproved", problems=(self._unproved(unproved, judged),))
        if idle:
            claims = tuple(effect.claim for effect in idle)
            return judged._replace(problems=(Problem("not-a-candidate", idle[0].span, {"claims": claims}),))
        if self.brief or any(map(leaves_open, step.effects)):
            return judged
        more = unclaimed(judged.warrant, {effect.claim for effect in effects}, self.standing, self.puzzle)
        return judged._replace(notes=(*notes, Problem("more-follows", step.span, {"claims": more}))) if more else judged

    def _refuted(self, refuted: Sequence[Effected], misfits: tuple[Problem, ...], judged: Judged) -> Judged:
        first = refuted[0]
        cell = first.claim.candidate.cell
        proves = self._proves(judged.warrant, first.claim)
        held = self.board.digit(cell)
        details = {
            "claims": tuple(effect.claim for effect in refuted),
            "proves": proves,
            "truth": next((digit for other, digit in first.solution or () if other == cell), None),
            "only": self.puzzle.status == "one",
            "held": held,
        }
        code = "cell-filled" if held is not None and first.claim.holds else "effect-refuted"
        problem = Problem(code, self._guilty(first, proves), details)
        if misfits and _structural(misfits):
            misfit = misfits[0]._replace(details={**misfits[0].details, "proves": proves})
            return judged._replace(problems=(misfit,), also=(problem,))
        return judged._replace(problems=(problem,), also=() if code == "cell-filled" else misfits[:3])

    def _misfit(self, step: Step, judged: Judged, misfits: tuple[Problem, ...], unproved: Sequence[Effected]) -> Judged:
        """The pattern is not there as told; perhaps it is there under another name."""
        vague = step.reason is None or not step.reason.slots or any(map(leaves_open, step.effects))
        vague = vague and not any(isinstance(effect, Placement) for effect in step.effects)
        other = None if self.brief or vague or _structural(misfits) else self._right_name(step)
        if other is not None and step.reason is not None:
            reading, effects = other
            details = {"told": step.reason.name.value, "reason": _reason(step, reading)}
            problem = Problem("misnamed", step.reason.name.span, details)
            return judged._replace(verdict="misnamed", effects=effects, problems=(problem,), also=misfits[:3])
        proved = bool(judged.effects) and not unproved and bool(judged.warrant)
        first = misfits[0]
        details = {**first.details, "pattern": judged.technique, "proved": proved}
        # What follows from naming a wrong cell would only be noise beside it.
        also = () if _structural(misfits) else misfits[1:4]
        verdict = "misnamed" if proved else "unproved"
        return judged._replace(verdict=verdict, problems=(first._replace(details=details),), also=also)

    def _right_name(self, step: Step) -> tuple[Reading, tuple[Effected, ...]] | None:
        """Another pattern of the catalogue that fits the parts as they were told, and proves what was told."""
        assert step.reason is not None
        named = CATALOGUE[step.reason.name.value]
        told_kinds = {slot.word: slot.kind for slot in named.form.slots}
        for pattern in CATALOGUE.values():
            words = {slot.word: slot.kind for slot in pattern.form.slots}
            alike = all(words.get(slot.word) == told_kinds[slot.word] for slot in step.reason.slots)
            if pattern is named or not alike or pattern.tells_placement != named.tells_placement:
                continue
            subjects = self.subjects(step, pattern)
            if len(subjects) > 1:
                continue
            for reading in self.readings(pattern, *subjects[0]):
                effects = self._effected(self._claims(step, reading), reading.facts) if not reading.misfits else ()
                verdicts = {effect.verdict for effect in effects}
                if "proved" in verdicts and verdicts <= {"proved", "idle"}:
                    return reading, effects
        return None

    def _unproved(self, unproved: Sequence[Effected], judged: Judged) -> Problem:
        first = unproved[0]
        proves = self._proves(judged.warrant, first.claim)
        details = {
            "claims": tuple(effect.claim for effect in unproved),
            "proves": proves,
            "warrant": judged.warrant,
            "missing": None if self.brief else self._missing(judged.warrant, first.claim),
        }
        vacuous = any(effect.vacuous for effect in unproved)
        return Problem("contradictory-warrant" if vacuous else "effect-unproved", self._guilty(first, proves), details)

    def _missing(self, warrant: tuple[Fact, ...], claim: Claim) -> Smallest:
        """The fewest facts that would prove the claim beside those cited."""
        return smallest_warrant(self.puzzle.oracle, claim, free=warrant, gone=self.standing.supposed)

    def _proves(self, warrant: tuple[Fact, ...], told: Claim) -> tuple[Claim, ...]:
        """What the warrant proves beyond the board, of the told claim's kind: placements, or removals."""
        if not warrant or self.brief:
            return ()
        proved = self.puzzle.oracle.consequences(warrant, self.standing.supposed)
        return tuple(sorted(claim for claim in proved if claim.holds == told.holds and not self.board.shows(claim)))

    @staticmethod
    def _guilty(effect: Effected, proves: Collection[Claim]) -> Span:
        """The token to point at: the digit where the reason says something of this very cell, else the cell."""
        (cell, digit), holds = effect.claim
        alike = [claim.candidate for claim in proves if claim.holds == holds]
        elsewhere = any(other.digit == digit and other.cell != cell for other in alike)
        return effect.digit_span if not elsewhere and any(other.cell == cell for other in alike) else effect.span

    def _spelt_out(self, step: Step, readings: Sequence[Reading]) -> Step:
        """The step with the reason's parts worked out, where one reading was taken."""
        if step.reason is None or len(readings) != 1 or readings[0].misfits:
            return step
        return replace(step, reason=_reason(step, readings[0]))


def _reason(step: Step, reading: Reading) -> Reason:
    """The reading as a reason. A placement's cell and digit are said by the effect, and are not said again."""
    reason = reading.parts.reason(reading.pattern.form)
    if not reading.pattern.tells_placement or step.reason is None or reading.subject is None:
        return reason
    said = {slot.word for slot in step.reason.slots} | {"in"}
    return Reason(reason.name, tuple(slot for slot in reason.slots if slot.word in said), reason.span)


def leaves_open(effect: Effect) -> bool:
    """Is a part of the effect left to the reason? The rest of a house is not: it is all of it."""
    if isinstance(effect, Placement):
        return not (effect.cell and effect.digit)
    if isinstance(effect, RestOf):
        return not (effect.house and effect.digits)
    return isinstance(effect, Unsaid) or not (effect.cells and effect.digits)


def _structural(misfits: Sequence[Problem]) -> bool:
    """Does a part name something that no other pattern's name would put right?"""
    return misfits[0].code in ("cell-outside-house", "named-twice") or misfits[0].details.get("why") == "nothing-new"
