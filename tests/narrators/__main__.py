"""``python -m tests.narrators --walks 20 --seed 1``: hold the reader of narrations against people, sound and with one slip."""

from __future__ import annotations

import argparse
import sys
import time
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import partial
from multiprocessing import Pool
from typing import Any

from stepwarrant.checker import audit

from ..maker import Walk, make
from ..maker.board import Claim
from . import DEVELOPMENT, KEPT_ASIDE, NARRATORS, Narration, Told, narrate, slipped


@dataclass
class Heard:
    """What came of one narrator's narrations. ``steps`` and ``slips`` count by pattern or kind, and by whether it was got."""

    steps: Counter[tuple[str, bool]] = field(default_factory=Counter)
    slips: Counter[tuple[str, bool]] = field(default_factory=Counter)
    sentences: Counter[str] = field(default_factory=Counter)
    unread: list[str] = field(default_factory=list)
    alarms: list[str] = field(default_factory=list)
    unflagged: list[str] = field(default_factory=list)
    elsewhere: list[str] = field(default_factory=list)

    def add(self, other: Heard) -> None:
        """Count the other one in."""
        self.steps += other.steps
        self.slips += other.slips
        self.sentences += other.sentences
        self.unread += other.unread
        self.alarms += other.alarms
        self.unflagged += other.unflagged
        self.elsewhere += other.elsewhere


def heard(narration: Narration) -> Any:
    """The audit's report, or the exception that came instead of it."""
    try:
        return audit(narration.text, grid=narration.grid, kind=narration.kind)
    except Exception as error:  # whatever a narrator says, an audit never raises: this is counted as a failure of its own
        return error


def graver(report: Any) -> list[tuple[int, int | None, str]]:
    """Line, column and words of every error and warning."""
    if isinstance(report, Exception):
        return [(1, 1, f"breakdown: {report!r}")]
    return [
        (found.line, found.column, f"{found.severity}: {found.code}: {found.message}")
        for found in report.findings
        if found.severity in ("error", "warning")
    ]


def claims_by_line(report: Any) -> list[tuple[int, frozenset[Claim]]]:
    """The line of each step that was read, and its effects."""
    if isinstance(report, Exception):
        return []
    read = []
    for step in report.steps:
        claims = (effect.claim for effect in step.effects)
        told = [Claim(*_spot(claim.candidate), claim.holds) for claim in claims]
        read.append((step.line, frozenset(told)))
    return read


def _spot(candidate: Any) -> tuple[int, int]:
    row, column = (int(number) for number in str(candidate.cell)[1:].split("c"))
    return (row - 1) * 9 + column - 1, candidate.digit


def is_read(told: Told, walk: Walk, read: list[tuple[int, frozenset[Claim]]]) -> bool:
    """Does a step that was read within these lines say what was told? What the board shows already makes no difference."""
    board = walk.steps[told.step - 1].before
    for line, claims in read:
        if told.place.first <= line <= told.place.last:
            new = {claim for claim in claims if not board.shows(claim)}
            if new == {*told.claims}:
                return True
    return False


def measure(name: str, seed: int) -> Heard:
    """Audit one narration as it is, and with a slip."""
    out = Heard()
    walk = make(seed)
    sound = narrate(name, walk, seed)
    report = heard(sound)
    read = claims_by_line(report)
    if not isinstance(report, Exception):
        for kind in ("total", "claims", "talk", "unread"):
            out.sentences[kind] += getattr(report.sentences, kind)
    for told in sound.told:
        got = is_read(told, walk, read)
        out.steps[told.name, got] += 1
        if not got:
            near = [claims for line, claims in read if told.place.first <= line <= told.place.last]
            heard_as = " | ".join(", ".join(map(_said, sorted(claims))) for claims in near) or "nothing"
            out.unread.append(
                f"{name} {seed}, line {told.place.first}: {told.words}\n    meant: {told.statement}\n    read:  {heard_as}"
            )
    for line, _, what in graver(report):
        out.alarms.append(f"{name} {seed}, line {line}: {what}\n    {_around(sound, line)}")
    spoilt = slipped(name, walk, seed)
    if spoilt is None or spoilt.slip is None:
        return out
    slip, place = spoilt.slip, spoilt.at(spoilt.slip.step).place
    found = graver(heard(spoilt))
    hits = [at for at in found if place.within(at[0], at[1]) if at[1] is not None]
    hits += [at for at in found if at[1] is None and place.first <= at[0] <= place.last]
    out.slips[slip.kind, bool(hits)] += 1
    about = f"{slip.kind}, {slip.really}, line {place.first}\n    was: {slip.was}\n    now: {slip.now}"
    if not hits:
        out.unflagged.append(f"{name} {seed}, {about}\n    meant: {spoilt.at(slip.step).statement}")
    for at in found:
        if at not in hits:
            out.elsewhere.append(f"{name} {seed}, line {at[0]}: {at[2]}\n    {_around(spoilt, at[0])}\n    slip: {about}")
    return out


def _said(claim: Claim) -> str:
    return f"r{claim.cell // 9 + 1}c{claim.cell % 9 + 1} {'is' if claim.holds else 'not'} {claim.digit}"


def _around(narration: Narration, line: int) -> str:
    """The words of the steps that stand on the line."""
    on = [told.words for told in narration.told if told.place.first <= line <= told.place.last]
    return " / ".join(on) or narration.text.splitlines()[line - 1]


def main(arguments: Sequence[str] | None = None) -> int:
    """Measure and print; 0 only if everything was read, nothing else was found, and every slip was flagged."""
    parser = argparse.ArgumentParser(prog="python -m tests.narrators", description=__doc__)
    parser.add_argument("--narrator", choices=sorted(NARRATORS), action="append", help="this one (may be given again)")
    parser.add_argument("--development", action="store_true", help="the narrators for development only")
    parser.add_argument("--kept-aside", action="store_true", help="the narrators kept aside only")
    parser.add_argument("--walks", type=int, default=10)
    parser.add_argument("--seed", type=int, default=1, help="of the first walkthrough")
    parser.add_argument("--processes", type=int, default=2)
    parser.add_argument("--figures-only", action="store_true", help="list no sentences")
    options = parser.parse_args(arguments)
    chosen = DEVELOPMENT if options.development else KEPT_ASIDE if options.kept_aside else NARRATORS
    names = options.narrator or [*chosen]
    perfect = True
    with Pool(options.processes) as pool:
        for name in names:
            begun = time.perf_counter()
            total = Heard()
            for one in pool.imap(partial(measure, name), range(options.seed, options.seed + options.walks)):
                total.add(one)
            show(name, total, options.walks, time.perf_counter() - begun, options.figures_only)
            perfect = perfect and not (total.unread or total.alarms or total.unflagged or total.elsewhere)
    return 0 if perfect else 1


def _share(counts: Counter[tuple[str, bool]], of: str | None = None) -> str:
    got = sum(count for (name, got), count in counts.items() if got and of in (None, name))
    total = sum(count for (name, _), count in counts.items() if of in (None, name))
    return f"{got}/{total} = {100 * got / total:.1f} %" if total else "none"


def show(name: str, total: Heard, walks: int, seconds: float, figures_only: bool) -> None:
    """Print one narrator's figures, then what was missed."""
    print(f"\n{name}: {walks} narrations and as many with a slip, {seconds:.0f} s")
    print(f"  steps read        {_share(total.steps)}")
    print(f"  false alarms      {len(total.alarms)}")
    print(f"  slips flagged     {_share(total.slips)}")
    print(f"  findings elsewhere in narrations with a slip  {len(total.elsewhere)}")
    print("  sentences         " + ", ".join(f"{count} {kind}" for kind, count in total.sentences.items()))
    print(
        "  steps read by pattern: "
        + "; ".join(f"{of} {_share(total.steps, of)}" for of in sorted({of for of, _ in total.steps}))
    )
    print(
        "  slips flagged by kind: "
        + "; ".join(f"{of} {_share(total.slips, of)}" for of in sorted({of for of, _ in total.slips}))
    )
    if figures_only:
        return
    lists = {
        "not read": total.unread,
        "false alarms": total.alarms,
        "slips not flagged": total.unflagged,
        "found elsewhere": total.elsewhere,
    }
    for title, entries in lists.items():
        if entries:
            print(f"\n  {title}:")
            print("\n".join(f"  {entry}" for entry in entries))


if __name__ == "__main__":
    sys.exit(main())
