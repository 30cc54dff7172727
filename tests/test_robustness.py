"""Whatever is told, an audit ends in a report that is valid, worded and shown, and never calls a false effect true."""

from __future__ import annotations

import jsonschema
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from strategies import steps

from stepwarrant.checker import audit, text
from stepwarrant.checker.json_report import document, schema
from stepwarrant.grammar.statements import Step
from stepwarrant.grammar.vocabulary import geometry
from stepwarrant.grammar.writer import write_statement

PUZZLES = {4: ".23.......4..3.1", 9: ".2..76.3.94.........15....6.6......1..........78...9...8..4.........5.63.....35.9"}
SCHEMA = schema()


@st.composite
def told(draw: st.DrawFn) -> tuple[int, list[Step]]:
    size = draw(st.sampled_from(sorted(PUZZLES)))
    return size, draw(st.lists(steps(geometry(size)), min_size=1, max_size=3))


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(told())
def test_any_statements_give_a_report(case: tuple[int, list[Step]]) -> None:
    size, statements = case
    lines = [line for statement in statements for line in write_statement(statement)]
    report = audit(f"grid: {PUZZLES[size]}\nsteps:\n" + "\n".join(lines) + "\n")
    jsonschema.validate(document([report]), SCHEMA)
    shown = text.render([report])
    assert all(finding.message and finding.code in shown for finding in report.findings)
    assert all(step.verdict != "unread" for step in report.steps)
    answer = dict(_solution(report.givens or ""))
    for step in report.steps:
        for effect in step.effects:
            holds = (answer[effect.claim.candidate.cell] == effect.claim.candidate.digit) == effect.claim.holds
            assert holds == (effect.verdict != "refuted")


def _solution(givens: str) -> frozenset[tuple[object, int]]:
    from stepwarrant.checker.puzzle import Puzzle
    from stepwarrant.grammar.reader import read_grid
    from stepwarrant.grammar.statements import Grid

    grid = read_grid(givens)
    assert isinstance(grid, Grid)
    solution = Puzzle(grid).solution
    assert solution is not None
    return frozenset(solution)
