"""Whole talks, freely written by people who had not read the reader; the puzzles, the words and the slips are theirs.

Beside each talk, in JSON: its grid, the steps that it tells (the line where a step begins, its effects, the pattern) and, for
two of them, slips of one word. Every step was proved by their own solver, and so was it that a slip makes its step false or
unproved.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from stepwarrant.checker import audit

TALKS = Path(__file__).with_name("talks")
BEFORE, FAR = 12, 30
"""Lines within which a step is told, or until the next one begins: captions begin with what is said to lead up to it."""


def heard(name: str, slip: tuple[int, str, str] | None = None) -> tuple[dict[str, Any], Any]:
    """What is known of the talk, and its audit. ``slip``: a line, what stands there, and what is said instead."""
    (path,) = (path for path in TALKS.glob(f"{name}.*") if path.suffix != ".json")
    known = json.loads((TALKS / f"{name}.json").read_text(encoding="utf-8"))
    lines = path.read_text(encoding="utf-8").split("\n")
    if slip is not None:
        line, was, now = slip
        assert lines[line - 1].count(was) == 1
        lines[line - 1] = lines[line - 1].replace(was, now)
    return known, audit("\n".join(lines), grid=known["grid"], kind="narration" if path.suffix == ".md" else path.suffix[1:])


def grave(report: Any) -> list[tuple[int, str]]:
    return [(found.line, found.code) for found in report.findings if found.severity in ("error", "warning")]


def missed(known: dict[str, Any], report: Any) -> list[int]:
    """The numbers of the steps that no warranted step stands for."""
    read = [
        (step.line, {str(effect.claim).replace(" = ", "=").replace(" not ", "<>") for effect in step.effects})
        for step in report.steps
        if step.verdict == "warranted"
    ]
    begins = [first for first, *_ in known["steps"]]
    until = [max(first + FAR, following) for first, following in zip(begins, [*begins[1:], 0])]
    return [
        number
        for number, (first, effects, _) in enumerate(known["steps"], 1)
        if not any(first - BEFORE <= line <= until[number - 1] and {*effects.split()} <= claims for line, claims in read)
    ]


@pytest.mark.parametrize(
    ("name", "unread", "alarms"),
    [
        ("fog", [], []),
        ("sunday", [], []),
        ("spoken", [], []),
        ("lesson", [], []),
        ("aloud", [], []),
        ("column", [], []),
        ("blog", [], []),
        ("judge", [], []),
        ("thinking", [22, 37, 41], []),
        ("sheet", [9, 17, 21], []),
        ("live", [], []),
        ("lecture", [7, 34, 50], []),
        ("burner", [32, 38, 39], [(128, "pattern-absent"), (130, "broken-link")]),
        (
            "biscuits",
            [17, 18, 20, 21, 29, 32, 33, 34, 37, 38, 39, 40, 41],
            [(28, "pattern-absent"), (289, "pattern-absent"), (304, "pattern-absent"), (427, "cell-outside-house")],
        ),
        ("cousins", [7, 16, 18, 19, 20, 21, 34, 35, 39, 40, 42], [(56, "effect-refuted")]),
        (
            "mist",
            [9, 12, 13, 16, 24, 25, 27, 32, 34, 41],
            [(254, "effect-refuted"), (287, "effect-refuted"), (327, "effect-refuted")],
        ),
        ("tern", [44], []),
        ("kettle", [33, 37, 43], []),
        ("shoal", [14, 28, 30, 31, 33, 35], []),
        ("gull", [18, 19, 27, 28, 29, 38, 39, 40], [(430, "effect-refuted"), (433, "effect-refuted")]),
        ("petrel", [19, 29, 32, 33], [(64, "effect-refuted")]),
        ("ladder", [], []),
        ("anchor", [27, 42], []),
        (
            "herring",
            [4, 7, 8, 9, 16, 20, 21, 23, 28, 29, 31, 32, 37, 41, 42, 43, 45],
            [(115, "effect-refuted"), (565, "effect-refuted"), (568, "effect-refuted")],
        ),
        ("gannet", [18], []),
        ("pebble", [22, 23, 41, 42], []),
        ("rope", [23, 27, 39], []),
        (
            "crab",
            [1, 15, 18, 20, 26, 27, 29, 32, 36, 37, 43, 44],
            [(61, "effect-refuted"), (247, "cell-outside-house"), (322, "cell-outside-house")],
        ),
        ("mast", [14, 29, 36, 39, 40], []),
        ("oar", [15, 37, 38], [(597, "pattern-absent")]),
        ("buoy", [9, 12, 13, 14, 15, 16, 18, 22, 24, 31, 36, 43], [(517, "effect-refuted"), (646, "effect-refuted")]),
        ("thrift", [6, 8, 21, 26, 33, 42], []),
        ("dulse", [24, 29, 41, 42, 43], [(19, "effect-refuted"), (47, "effect-refuted")]),
        ("skerry", [2, 9, 10, 14, 16, 17, 19, 22, 23, 25, 38], [(37, "effect-refuted")]),
        ("plover", [1, 13, 15, 22, 28, 32, 42, 43], [(43, "effect-refuted")]),
        ("curlew", [24, 31, 40], [(704, "pattern-absent")]),
        (
            "whimbrel",
            [5, 7, 10, 15, 19, 20, 23, 26, 30, 33, 35, 37, 38, 39, 40, 41, 42, 43, 44, 45],
            [(752, "effect-refuted")],
        ),
        (
            "sandpiper",
            [1, 9, 10, 12, 13, 14, 18, 19, 20, 21, 22, 23, 26, 28, 30, 31, 32, 35, 37, 40, 41],
            [(7, "pattern-absent"), (38, "pattern-absent"), (66, "cited-amiss")],
        ),
        (
            "dunlin",
            [1, 3, 7, 9, 10, 11, 15, 16, 19, 20, 22, 24, 27, 28, 29, 30, 34, 35, 36, 37, 38, 39, 41, 42, 43, 44, 45],
            [(498, "cell-filled"), (788, "cited-amiss")],
        ),
        (
            "turnstone",
            [
                1,
                2,
                6,
                10,
                11,
                12,
                13,
                14,
                15,
                16,
                17,
                20,
                21,
                22,
                23,
                24,
                26,
                29,
                31,
                33,
                34,
                35,
                36,
                38,
                39,
                40,
                42,
                43,
                44,
                45,
            ],
            [
                (53, "effect-refuted"),
                (133, "cell-outside-house"),
                (340, "effect-refuted"),
                (517, "cited-amiss"),
                (833, "effect-refuted"),
            ],
        ),
        (
            "dotterel",
            [
                1,
                7,
                9,
                11,
                12,
                13,
                14,
                15,
                17,
                18,
                20,
                21,
                22,
                24,
                26,
                27,
                28,
                29,
                31,
                32,
                33,
                34,
                35,
                37,
                38,
                39,
                40,
                41,
                42,
                44,
                45,
            ],
            [(36, "effect-refuted"), (65, "effect-refuted"), (72, "effect-refuted"), (1053, "effect-refuted")],
        ),
        (
            "knot",
            [2, 4, 5, 6, 7, 9, 11, 12, 13, 14, 16, 17, 18, 19, 20, 22, 24, 26, 27, 28, 29, 31, 32, 33, 35, 37, 38, 41, 43],
            [(239, "effect-refuted"), (433, "effect-refuted")],
        ),
        (
            "avocet",
            [3, 7, 9, 10, 11, 13, 16, 17, 18, 20, 23, 24, 25, 28, 29, 31, 32, 34, 35, 37, 39, 41, 42, 43, 44, 45],
            [(23, "effect-refuted"), (33, "effect-refuted")],
        ),
    ],
)
def test_a_whole_talk(name: str, unread: list[int], alarms: list[tuple[int, str]]) -> None:
    known, report = heard(name)
    assert (missed(known, report), grave(report)) == (unread, alarms)


@pytest.mark.parametrize("name", ["lesson", "column"])
def test_slips_are_flagged_on_their_line_and_nowhere_before(name: str) -> None:
    known = json.loads((TALKS / f"{name}.json").read_text(encoding="utf-8"))
    for kind, line, was, now in known["slips"]:
        found = grave(heard(name, (line, was, now))[1])
        assert found and found[0][0] == line, (kind, now, found)
