"""What an audit costs, as ratios measured in one run: ``python -m tests.benchmark``.

- warm: audits of the sound examples against the bare python-sat calls for the same warrants, and against z3 asked the same
  questions (one proof a claim; or all that the audit asks, the search for a minimal core among it);
- cold: ``stepwarrant audit`` of one 60-step path against ``python -c "import lark, pysat.solvers"``;
- page: the HTML page of a path of 100 steps, the first of a process and a later one, against the audit of the path;
- plugin: a pytest run without path files, against the same run with the plugin switched off;
- growth: the cost of a statement in paths of 1,000 to 10,000 statements;
- memory: the most this process, and an audit of 10,000 statements, held.
"""

from __future__ import annotations

import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Any, NamedTuple

import z3
from pysat.solvers import Solver

from stepwarrant.checker import Report, audit
from stepwarrant.checker.catalogue import FORMS
from stepwarrant.checker.judge import judge
from stepwarrant.checker.puzzle import Puzzle
from stepwarrant.checker.repair import Search
from stepwarrant.checker.replay import Replay, Replayed
from stepwarrant.grammar.line import LineReader
from stepwarrant.grammar.statements import Step
from stepwarrant.grammar.vocabulary import Geometry
from stepwarrant.sat.oracle import Oracle
from stepwarrant.sat.rules import facts, rules, variable

SOUND = sorted((Path(__file__).parent.parent / "example_paths" / "sound").glob("*.path"))


class Question(NamedTuple):
    """Assumptions to solve under, the variables that are live on the board, and the answer where it is known."""

    geometry: Geometry
    assumptions: list[int]
    live: frozenset[int]
    answer: bool | None


def main() -> None:
    """Measure and print."""
    texts = [text for path in SOUND if "9" in _size(text := path.read_text(encoding="utf-8"))]
    reports = [audit(text) for text in texts]
    asked = [_questions(report) for report in reports]
    claims = sum(map(len, asked))
    warm = _best(lambda: [audit(text) for text in texts], 7)
    print(f"{len(texts)} paths, {sum(len(report.steps) for report in reports)} steps, {claims} claims")
    print(f"warm audit                {1e6 * warm / claims:8.1f} us a claim")
    for whole in (True, False):
        how = "whole board, losses assumed" if whole else "live candidates only"
        bare = min(sum(_bare(questions, whole) for questions in asked) for _ in range(5))
        print(f"bare python-sat calls     {1e6 * bare / claims:8.1f} us a claim   audit / bare = {warm / bare:.1f} ({how})")
    for every, what in ((False, "one proof a claim"), (True, "all the audit asks")):
        slow = sum(_z3(_asked(text, report) if every else questions) for text, report, questions in zip(texts, reports, asked))
        print(f"z3                        {1e6 * slow / claims:8.1f} us a claim   z3 / audit = {slow / warm:.1f} ({what})")
    sixty = [text for text, report in zip(texts, reports) if len(report.steps) >= 60]
    # A step without a reason has its smallest warrant looked for, which is paid for apart.
    _cold(next(text for text in sixty if not any(finding.code == "no-reason" for finding in audit(text).findings)))
    _cold(next(text for text in sixty if any(finding.code == "no-reason" for finding in audit(text).findings)))
    _page(next(text for text, report in zip(texts, reports) if len(report.steps) >= 100))
    _repairs()
    _plugin()
    _growth(texts[0])
    print(f"memory of this process    {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:8.0f} MB at most")


def _size(text: str) -> str:
    grid = audit(text).path.grid
    return str(grid.geometry.size) if grid else ""


def _best(work: Callable[[], Any], times: int, clock: Callable[[], float] = time.perf_counter) -> float:
    spent = []
    for _ in range(times):
        begun = clock()
        work()
        spent.append(clock() - begun)
    return min(spent)


def _questions(report: Report) -> list[Question]:
    """One question a claim: does it follow from the facts that its proof leans on?"""
    asked = []
    for step in report.steps:
        geometry = step.board.geometry
        live = frozenset(variable(geometry, candidate) for candidate in step.board.live())
        selectors = [geometry.size**3 + 1 + geometry.facts.index(fact) for fact in step.facts]
        for effect in step.effects:
            if effect.verdict == "proved" and step.facts:
                literal = variable(geometry, effect.claim.candidate) * (-1 if effect.claim.holds else 1)
                asked.append(Question(geometry, [*selectors, literal], live, False))
    return asked


def _bare(questions: Sequence[Question], whole: bool) -> float:
    """The calls alone, in one long-lived solver.

    ``whole``: all rules and facts of an empty board, every candidate that is gone assumed false in each question. Otherwise as
    the oracle has it: clauses between live candidates only, losses as unit clauses.
    """
    spent = 0.0
    with Solver(name="cadical195", bootstrap_with=_clauses(questions[0], whole)) as solver:
        for assumptions, lost in _prepared(questions, whole):
            for literal in lost:
                solver.add_clause([literal])
            begun = time.perf_counter()
            answer = solver.solve(assumptions=assumptions)
            spent += time.perf_counter() - begun
            assert answer is False
    return spent


def _asked(text: str, report: Report) -> list[Question]:
    """Every question that the audit puts to its first solver, the searches for a core and for the solutions among them."""
    puzzle = report.path.grid
    assert puzzle is not None
    asked: list[tuple[list[int], frozenset[int]]] = []
    plain = Oracle._solve

    def recorded(oracle: Oracle, assumptions: list[int]) -> bool | None:
        asked.append((assumptions, frozenset(oracle._live)))
        return plain(oracle, assumptions)

    Oracle._solve = recorded  # type: ignore[method-assign]
    try:
        audit(text)
    finally:
        Oracle._solve = plain  # type: ignore[method-assign]
    return [Question(puzzle.geometry, assumptions, live, None) for assumptions, live in asked]


def _z3(questions: Sequence[Question]) -> float:
    """z3's checks alone, on all rules and facts of an empty board, what is gone assumed false."""
    geometry = questions[0].geometry
    literals: dict[int, Any] = {}
    for number in range(1, 3 * geometry.size**3):
        literals[number] = z3.Bool(f"v{number}")
        literals[-number] = z3.Not(literals[number])
    solver = z3.Solver()
    solver.add([z3.Or([literals[literal] for literal in clause]) for clause in _clauses(questions[0], True)])
    spent = 0.0
    for assumptions, _ in _prepared(questions, True):
        assumed = [literals[literal] for literal in assumptions]
        begun = time.perf_counter()
        answer = solver.check(*assumed)
        spent += time.perf_counter() - begun
        assert answer != z3.unknown
    return spent


def _clauses(question: Question, whole: bool) -> list[list[int]]:
    geometry = question.geometry
    live = range(1, geometry.size**3 + 1) if whole else question.live
    return rules(geometry, live) + facts(geometry, live, geometry.size**3 + 1)


def _prepared(questions: Sequence[Question], whole: bool) -> Iterator[tuple[list[int], list[int]]]:
    """For each question its assumptions, and the unit clauses to add before it."""
    live = questions[0].live
    for question in questions:
        lost = [-number for number in live - question.live]
        live = question.live
        if whole:
            gone = [-number for number in range(1, question.geometry.size**3 + 1) if number not in live]
            yield gone + question.assumptions, []
        else:
            yield question.assumptions, lost


def _cold(text: str) -> None:
    lines = text.splitlines()
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "sixty.path"
        steps = audit(text).steps
        path.write_text("\n".join(lines[: steps[59].line]) + "\n", encoding="utf-8")
        base = [sys.executable, "-c", "import lark, pysat.solvers"]
        whole = [str(Path(sys.executable).with_name("stepwarrant")), "audit", str(path)]
        imports, cold = (statistics.median(spent) for spent in _by_turns([base, whole], folder, 25))
    print(f"import lark, pysat        {1e3 * imports:8.1f} ms")
    print(f"cold audit, 60 steps      {1e3 * cold:8.1f} ms           audit / import = {cold / imports:.2f} (at most 2.5)")


def _repairs() -> None:
    """For every failed step of the flawed examples: the search for repairs, against reading that step and judging it once."""
    reader = LineReader(FORMS)
    ratios, longest = [], 0.0
    for path in sorted((SOUND[0].parent.parent / "one-slip").glob("*.path")):
        report = audit(path.read_text(encoding="utf-8"))
        if report.solutions != "one" or report.path.grid is None:
            continue
        with Puzzle(report.path.grid) as puzzle:
            replay = Replay(report.path, puzzle)
            replay.run()
            search = Search(report.path, puzzle, replay.steps, report.source, reader)
            for step in replay.steps:
                if step.judged.problems and isinstance(step.statement, Step):
                    spent, check = _search_and_check(search, step, puzzle, reader)
                    ratios.append(spent / check)
                    longest = max(longest, spent)
    ratios.sort()
    shares = f"{_share(ratios, 0.5)}, of nine in ten at most {_share(ratios, 0.9)}, of all {ratios[-1]:.0f} (at most 300)"
    print(f"repairs of {len(ratios)} steps      {1e3 * longest:8.1f} ms at most    search / check = {shares}")


def _search_and_check(search: Search, step: Replayed, puzzle: Puzzle, reader: LineReader) -> tuple[float, float]:
    line = step.statement.span.line
    told = search.source[line - 1].partition("#")[0]

    def check() -> None:
        again = reader.read(told, puzzle.geometry, line)
        assert isinstance(again, Step)
        judge(again, step.standing, there)

    with puzzle.at(step.strict) as there:
        return _best(lambda: search.advice(step), 2, time.process_time), _best(check, 5, time.process_time)


def _share(ratios: Sequence[float], part: float) -> str:
    return f"{ratios[int(part * (len(ratios) - 1))]:.0f}"


def _page(text: str) -> None:
    """The first page has jinja2 to import and the template to compile."""
    from stepwarrant.checker import html_report

    report = audit(text)
    audited = _best(lambda: audit(text), 5)
    begun = time.perf_counter()
    size = len(html_report.render([report]).encode())
    first = time.perf_counter() - begun
    later = _best(lambda: html_report.render([report]), 5)
    most = 2 * audited + 0.1
    print(f"audit, {len(report.steps)} steps          {1e3 * audited:8.1f} ms")
    share = f"first / (2 audits + 100 ms) = {first / most:.2f} (at most 1)"
    print(f"its page, the first       {1e3 * first:8.1f} ms           {share}")
    print(f"its page, once more       {1e3 * later:8.1f} ms           {size / 1e3:.0f} kB")


def _processor() -> float:
    """Seconds of processor that finished child processes have used: unlike the clock, untouched by what else is running."""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def _by_turns(
    commands: Sequence[Sequence[str]], folder: str, times: int, clock: Callable[[], float] = time.perf_counter
) -> list[list[float]]:
    """Seconds that each command took, each time; by turns, so that what else the machine does weighs on all alike."""
    spent: list[list[float]] = [[] for _ in commands]
    for _ in range(times):
        for command, told in zip(commands, spent):
            begun = clock()
            subprocess.run(command, capture_output=True, cwd=folder, check=False)
            told.append(clock() - begun)
    return spent


def _plugin() -> None:
    """pytest imports the plugin in every run, so it must cost next to nothing where there is no path file."""
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "test_nothing.py").write_text("def test_nothing(): pass\n", encoding="utf-8")
        run = [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", "-p", "no:hypothesispytest", "-p", "no:xdist"]
        off, on = _by_turns([[*run, "-p", "no:stepwarrant"], run], folder, 61, _processor)
    # Each run against the one just before it: a few milliseconds drown in what a busy machine does to the sums.
    added = statistics.median(with_it - without for with_it, without in zip(on, off))
    whole = statistics.median(off)
    print(f"pytest, no path file      {1e3 * whole:8.1f} ms           {1e3 * added:+.1f} ms for the plugin (at most 5)")


def _growth(text: str) -> None:
    """Every step told several times over: a board can only lose so much, so a long path has to repeat itself."""
    lines = text.splitlines()
    steps = {step.line for step in audit(text).steps[:40]}
    head = [line for number, line in enumerate(lines, 1) if number < min(steps)]
    told = [line for number, line in enumerate(lines, 1) if number in steps and "mark" not in line]
    for count in (1_000, 2_000, 5_000, 10_000):
        times = -(-count // len(told))
        long = "\n".join([*head, *[line for line in told for _ in range(times)][:count]]) + "\n"
        spent = _best(lambda long=long: audit(long), 3)  # type: ignore[misc]
        print(f"{count:>6} statements         {1e6 * spent / count:8.1f} us a statement")


if __name__ == "__main__":
    main()
