"""A path with everything spelt out: parts worked out, effects named cell by cell, ready to publish."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..grammar.statements import Effect, Placement, RestOf, Said, Statement, Step, removals
from ..grammar.writer import write_path
from .judge import leaves_open
from .report import Report, StepReport


def spelt_out(report: Report) -> str:
    """The path in canonical writing, what was left unsaid in every sound step filled in. Other lines stay as they were told."""
    told = {step.line: step for step in report.steps}
    statements = (_spelt(statement, told) for statement in report.path.statements)
    return write_path(replace(report.path, statements=tuple(statements)))


def _spelt(statement: Statement, told: dict[int, StepReport]) -> Statement:
    if not isinstance(statement, Step):
        return statement
    step = told.get(statement.span.line)
    if step is None or step.verdict not in ("warranted", "fallen") or step.reading is None:
        return statement
    effects = tuple(plain for effect in statement.effects for plain in _effects(effect, step))
    return replace(step.reading, effects=effects or statement.effects)


def _effects(effect: Effect, step: StepReport) -> Iterator[Effect]:
    if not leaves_open(effect) and not isinstance(effect, RestOf):
        yield effect
        return
    # What was left unsaid stands where the effect does, token for token.
    claims = [effected.claim for effected in step.effects if effected.span == effect.span]
    for claim in claims:
        if claim.holds:
            yield Placement(Said(claim.candidate.cell), Said(claim.candidate.digit))
    yield from removals(claim for claim in claims if not claim.holds)
