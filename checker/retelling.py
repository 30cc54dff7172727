"""What a narrator may have meant by a step that failed: one word told otherwise, in the narrator's own way of saying it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..grammar.narration import read_narration
from ..grammar.passages import Passage, Transcript
from ..grammar.reading import Reading
from ..grammar.spoken_slips import spoken_edits
from ..grammar.statements import Path, Step
from ..grammar.words import Script
from .places import Change
from .puzzle import Puzzle
from .replay import Replayed
from .weighing import Advice, Repair, Tried, Weighing, offered

STEPS = 10
"""Failed steps of one narration that a repair is looked for."""

READ = 30_000
"""Characters read of changed tellings of one step, the nearest changes first: reading is what takes the time."""

LONGEST = 700
"""Characters of a telling that is still read again and again."""

CONTEXT = 2
"""Steps told before it that a telling may need to be understood."""


class Retelling(Weighing):
    """Tells the failed steps of one narration otherwise. ``readings``: for each statement of the path, where it was read."""

    def __init__(
        self, path: Path, puzzle: Puzzle, steps: Sequence[Replayed], transcript: Transcript, readings: Sequence[Reading]
    ) -> None:
        super().__init__(path, puzzle, steps)
        self.script = Script(transcript)
        self.readings = readings

    def advise(self) -> dict[int, Advice]:
        """For the number of each failed step, what may have been meant; nothing where no small change will do."""
        failed = [step for step in self.steps if step.judged.problems and isinstance(step.statement, Step)]
        return {step.number: Advice(tuple(self._repairs(step))) for step in failed[:STEPS]}

    def _repairs(self, failed: Replayed) -> Iterator[Repair]:
        effects = failed.judged.effects
        claims_fail = any(effect.verdict in ("refuted", "unproved") for effect in effects)
        for repair in offered(self.weighed([*self.holding(failed, self._retold(failed))], failed)):
            # Of several effects, the one that fails may be one too many, and no other one misread.
            yield repair._replace(applies="ask") if claims_fail and len(effects) > 1 else repair

    def _retold(self, failed: Replayed) -> Iterator[Tried]:
        place = self.places[failed.number - 1]
        told = self._understood(failed, place)
        if told is None:
            return
        start, from_end = told
        begin, end = self.readings[place].extent
        text = self.script.text
        words = [word for sentence in Script(_alone(text[begin:end])).sentences() for word in sentence]
        seen: set[str] = set()
        tried = spoken_edits(text[begin:end], words, self.puzzle.geometry.size)
        for edit in sorted(tried, key=lambda edit: edit.far):
            span = self.script.span(begin + edit.column - 1, begin + edit.end - 1)
            was = text[begin + edit.column - 1 : begin + edit.end - 1]
            changed = f"{text[start:begin]}{edit.applied(text[begin:end])}{self._stop(end)}"
            if len(seen) * len(changed) > READ:
                return
            if "\n" in was or changed in seen:
                continue
            seen.add(changed)
            readings = read_narration(_alone(changed), self.puzzle.geometry).readings
            if len(readings) >= from_end:
                steps = tuple(option[0] for option in readings[-from_end].alternatives if len(option) == 1)
                yield Tried(edit._replace(column=span.column, end=span.end), Change(span, was, edit.text), steps)

    def _understood(self, failed: Replayed, place: int) -> tuple[int, int] | None:
        """From where on the telling, taken out of the narration, is read as it was in it, and as which reading from the end."""
        extents = dict.fromkeys(reading.extent for reading in self.readings[: place + 1])
        for start, _ in [*extents][: -CONTEXT - 2 : -1]:
            end = self.readings[place].extent[1]
            if end - start > LONGEST:
                return None
            readings = read_narration(_alone(self.script.text[start:end] + self._stop(end)), self.puzzle.geometry).readings
            for from_end, reading in enumerate(reversed(readings), 1):
                if any(_alike(step, failed.statement) for option in reading.alternatives for step in option):
                    return start, from_end
        return None

    def _stop(self, end: int) -> str:
        following = self.script.text[end : end + 1]
        return following if following in (".", "!", "?") else ""


def _alike(step: Step, other: object) -> bool:
    return isinstance(other, Step) and (step.effects, step.reason) == (other.effects, other.reason)


def _alone(text: str) -> Transcript:
    return Transcript(tuple(Passage(part, line, 1, opens=True) for line, part in enumerate(text.split("\n\n"), 1)))
