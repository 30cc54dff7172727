"""``--spell-out``: the same steps with nothing left unsaid."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from test_replay import FOUR

from stepwarrant.checker import audit, audit_file
from stepwarrant.checker.judge import leaves_open
from stepwarrant.checker.spelling import spelt_out
from stepwarrant.grammar.statements import RestOf, Step
from stepwarrant.grammar.writer import write_path

SOUND = sorted((Path(__file__).parent.parent / "example_paths" / "sound").glob("*.path"))


@pytest.mark.parametrize(
    ("line", "spelt"),
    [
        ("... because naked pair at r1c1 r2c2", "r2c1 not 1 4 because naked pair 1 4 at r1c1 r2c2 in b1"),
        ("rest of b1 not 1 4 because naked pair 1 4", "r2c1 not 1 4 because naked pair 1 4 at r1c1 r2c2 in b1"),
        ("? = 3 because hidden single in b1", "r2c1 = 3 because hidden single in b1"),
        ("3. [0:42] r2c1 = ? because hidden single in b1  # so", "3. [0:42] r2c1 = 3 because hidden single in b1  # so"),
        ("R2C1 not 14 because naked pair 14 in box 1 at r1c1, r2c2.", "r2c1 not 1 4 because naked pair 1 4 at r1c1 r2c2 in b1"),
        ("r2c1 = 3 because hidden single", "r2c1 = 3 because hidden single in r2"),
        ("... because naked single", "... because naked single"),
    ],
)
def test_one_line(line: str, spelt: str) -> None:
    assert spelt_out(audit(FOUR + line + "\n")).splitlines()[-1] == spelt


@pytest.mark.parametrize("path", SOUND, ids=lambda path: path.stem)
def test_whole_walkthroughs_say_the_same(path: Path) -> None:
    told = audit_file(path)
    spelt = audit(spelt_out(told))
    assert spelt.worst in (None, "note") and spelt.ending == "solved"
    for before, after in zip(told.steps, spelt.steps, strict=True):
        assert {effect.claim for effect in before.effects} == {effect.claim for effect in after.effects}
    for statement in spelt.path.statements:
        if isinstance(statement, Step):
            assert not any(isinstance(effect, RestOf) or leaves_open(effect) for effect in statement.effects)


@pytest.mark.parametrize(
    ("word", "names"),
    [("cover", "wing fish"), ("fins", "finned"), ("at", "pair triple quad"), ("in", "pair triple quad single")],
)
def test_what_is_left_out_is_worked_out_as_it_was_told(word: str, names: str) -> None:
    left_out = 0
    for path in SOUND:
        told = audit_file(path)
        statements = []
        for statement in told.path.statements:
            reason = statement.reason if isinstance(statement, Step) else None
            if (
                isinstance(statement, Step)
                and reason
                and reason.slot(word)
                and any(n in reason.name.value for n in names.split())
            ):
                left_out += 1
                fewer = tuple(slot for slot in reason.slots if slot.word != word)
                statement = replace(statement, reason=replace(reason, slots=fewer))
            statements.append(statement)
        short = audit(write_path(replace(told.path, statements=tuple(statements))))
        assert short.worst in (None, "note")
        for before, after in zip(told.steps, short.steps, strict=True):
            assert {effect.claim for effect in before.effects} == {effect.claim for effect in after.effects}
    assert left_out > 10
