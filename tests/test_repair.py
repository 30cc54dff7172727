"""What may have been meant: the repairs offered on a finding, exactly, and that they do what they say."""

from __future__ import annotations

from pathlib import Path

import pytest
from test_replay import FOUR, REST

from stepwarrant.checker import Report, audit, audit_file
from stepwarrant.checker.findings import Finding
from stepwarrant.checker.weighing import Repair

EXAMPLES = Path(__file__).parent.parent / "example_paths"


def first(report: Report) -> Finding:
    return next(finding for finding in report.findings if finding.severity != "note")


def offered(line: str) -> list[tuple[str, str, str]]:
    return [(repair.was, repair.text, repair.applies) for repair in first(audit(FOUR + line + "\n" + REST)).repairs]


@pytest.mark.parametrize(
    ("line", "best"),
    [
        ("r3c1 = 3 because hidden single in b1", ("r3c1", "r2c1", "safe")),
        ("r2c1 = 4 because hidden single in b1", ("4", "3", "safe")),
        ("r2c1 = 3 because hidden single in b3", ("b3", "b1", "safe")),
        ("r2c1 = 3 because hidden single in b2", ("b2", "b1", "ask")),
        ("r2c1 = 3 because hidden single in box 3", ("box 3", "box 1", "safe")),
        ("r2c1 = 3 because naked single", ("naked single", "hidden single in r2", "safe")),
        ("r2c1 = 3 becuase hidden single in b1", ("becuase", "because", "safe")),
        ("r2c1 = 3 because hiden single in b1", ("hiden", "hidden", "safe")),
    ],
)
def test_the_best_repair(line: str, best: tuple[str, str, str]) -> None:
    assert offered(line)[0] == best


def test_an_effect_too_many_is_dropped() -> None:
    line = "r2c1 r2c3 not 1 4 because naked pair 1 4 at r1c1 r2c2 in b1"
    report = audit(FOUR + line + "\nr2c1 = 3 because naked single\n" + REST)
    finding = first(report)
    assert next((repair.was.strip(), repair.text) for repair in finding.repairs) == ("r2c3", "")
    assert "Most likely `r2c3` was not meant: then this step holds, and all that depends on it." in finding.advice


def test_no_repair_where_nothing_will_do() -> None:
    assert offered("r2c1 r4c4 r3c4 = 1 because hidden single in b1") == []


def test_a_sound_path_is_offered_nothing() -> None:
    for path in sorted((EXAMPLES / "sound").glob("*.path")):
        assert not any(finding.repairs for finding in audit_file(path).findings)


def applied(report: Report, repair: Repair) -> str:
    lines = list(report.source)
    line = lines[repair.span.line - 1]
    lines[repair.span.line - 1] = line[: repair.span.column - 1] + repair.text + line[repair.span.end - 1 :]
    return "\n".join(lines)


@pytest.mark.parametrize("path", sorted((EXAMPLES / "one-slip").glob("*.path")), ids=lambda path: path.stem)
def test_every_repair_leaves_its_line_sound(path: Path) -> None:
    """And a safe one leaves nothing that hung on it."""
    report = audit_file(path)
    for finding in report.findings:
        assert len(finding.repairs) <= 3
        for repair in finding.repairs:
            after = audit(applied(report, repair))
            assert not [other for other in after.findings if other.line == finding.line and other.severity != "note"]
            if repair.applies == "safe":
                assert not any(step.hangs_on == finding.step for step in after.steps)
