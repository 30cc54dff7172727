"""A path with everything spelt out: parts worked out, effects named cell by cell, ready to publish."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from ..grammar.statements import Blank, Effect, Placement, RestOf, Said, Statement, Step, Unread, removals
from ..grammar.writer import write_path
from .judge import Effected, leaves_open
from .places import told
from .report import Report, StepReport


def spelt_out(report: Report) -> str:
    """The path in canonical writing, what was left unsaid in every sound step filled in. Other lines stay as they were told;
    what nobody took in of a narration is a comment."""
    steps = iter(report.steps)
    statements = (_spelt(statement, next(steps, None) if told(statement) else None) for statement in report.path.statements)
    return write_path(replace(report.path, statements=tuple(statements)))


def _spelt(statement: Statement, step: StepReport | None) -> Statement:
    if isinstance(statement, Unread) and statement.mentioned is not None:
        return Blank(f"not read: {' '.join(statement.text.split())}", statement.span)
    if not isinstance(statement, Step):
        return statement
    if step is None or step.verdict not in ("warranted", "fallen") or step.reading is None:
        return statement
    return replace(step.reading, effects=tuple(_effects(statement, step)) or statement.effects)


def _effects(statement: Step, step: StepReport) -> Iterator[Effect]:
    """What was left unsaid stands where its effect does, token for token."""
    if len({effect.span for effect in statement.effects}) < len(statement.effects):
        # Running words give one place for all effects of a step, so that they cannot be told apart: all are written anew.
        if any(leaves_open(effect) or isinstance(effect, RestOf) for effect in statement.effects):
            yield from _plain(step.effects)
        else:
            yield from statement.effects
        return
    for effect in statement.effects:
        if not leaves_open(effect) and not isinstance(effect, RestOf):
            yield effect
        else:
            yield from _plain([effected for effected in step.effects if effected.span == effect.span])


def _plain(effects: Sequence[Effected]) -> Iterator[Effect]:
    claims = [effected.claim for effected in effects]
    for claim in claims:
        if claim.holds:
            yield Placement(Said(claim.candidate.cell), Said(claim.candidate.digit))
    yield from removals(claim for claim in claims if not claim.holds)
