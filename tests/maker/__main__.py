"""``python -m tests.maker --walks 300 --seed 1``: hold the checker against fresh walkthroughs, sound and with one slip."""

from __future__ import annotations

import argparse
import sys
import time
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from multiprocessing import Pool

from stepwarrant.checker import audit
from stepwarrant.checker.catalogue import FORMS
from stepwarrant.checker.mending import applied
from stepwarrant.checker.places import told
from stepwarrant.grammar.line import LineReader
from stepwarrant.grammar.reader import read_path
from stepwarrant.grammar.statements import Statement

from . import FURTHER, Slipped, make, slip
from .slips import KINDS
from .walk import Walk

READER = LineReader(FORMS)


@dataclass
class Measured:
    """What came of one walkthrough. ``slips``: by kind of change and real verdict, and whether it was found."""

    told: Counter[str] = field(default_factory=Counter)
    slips: Counter[tuple[str, str, bool]] = field(default_factory=Counter)
    slipped_patterns: Counter[tuple[str, bool]] = field(default_factory=Counter)
    repaired: Counter[tuple[str, str]] = field(default_factory=Counter)
    safe: Counter[bool] = field(default_factory=Counter)
    unrepaired: list[str] = field(default_factory=list)
    missed: list[str] = field(default_factory=list)
    alarms: list[str] = field(default_factory=list)
    making: float = 0.0

    def add(self, other: Measured) -> None:
        """Count the other one in."""
        self.told += other.told
        self.slips += other.slips
        self.slipped_patterns += other.slipped_patterns
        self.repaired += other.repaired
        self.safe += other.safe
        self.unrepaired += other.unrepaired
        self.missed += other.missed
        self.alarms += other.alarms
        self.making += other.making


def measure(seed: int, size: int, grouped: bool, further: bool, turns: bool) -> Measured:
    """Audit the walkthrough of a seed as it is, and with a slip.

    With ``further``, with one of every further kind too; with ``turns``, the nine kinds take turns, seed by seed.
    """
    measured = Measured()
    begun = time.perf_counter()
    walk = make(seed, size, grouped=grouped)
    slips: list[Slipped | None] = [in_turn(walk, seed) if turns else slip(walk, seed)]
    measured.making = time.perf_counter() - begun
    measured.told.update(step.name for step in walk.steps)
    for line, what in graver(walk.text):
        measured.alarms.append(f"seed {seed}, sound, line {line}: {walk.lines[line - 1]}\n    {what}")
    if further:
        slips += [makes(walk, seed) for makes in FURTHER.values()]
    for slipped in slips:
        if slipped is None:
            continue
        found = [*graver(slipped.text)]
        offered = [*offers(slipped)]
        right = [right for _, right, _ in offered]
        place = "first" if any(right[:1]) else "among three" if any(right) else "not offered"
        measured.repaired[slipped.kind, place] += 1
        for line, is_right, applies in offered:
            measured.safe[is_right] += applies == "safe"
            if applies == "safe" and not is_right:
                told = f"seed {seed}, {slipped.kind}, safe and not what was meant"
                measured.unrepaired.append(f"{told}\n    was: {slipped.was}\n    now: {slipped.now}\n    offered: {line}")
        if place == "not offered":
            shown = "".join(f"\n    offered: {line}" for line, *_ in offered)
            measured.unrepaired.append(f"seed {seed}, {slipped.kind}\n    was: {slipped.was}\n    now: {slipped.now}{shown}")
        hit = any(line == slipped.line for line, _ in found)
        measured.slips[slipped.kind, slipped.really, hit] += 1
        measured.slipped_patterns[walk.steps[slipped.step - 1].name, hit] += 1
        about = f"{slipped.really}; line {slipped.line} was: {slipped.was}"
        if not hit:
            measured.missed.append(f"seed {seed}, {slipped.kind}, {about}\n    now: {slipped.now}")
        for line, what in found:
            if line != slipped.line:
                text = f"seed {seed}, {slipped.kind}, line {line}: {slipped.lines[line - 1]}\n    {what}\n    {about}"
                measured.alarms.append(f"{text}\n    now: {slipped.now}")
    return measured


def in_turn(walk: Walk, seed: int) -> Slipped | None:
    """A slip of the kind whose turn it is."""
    makers: list[Callable[[], Slipped | None]] = [partial(slip, walk, seed, kind) for kind in KINDS]
    makers += [partial(makes, walk, seed) for makes in FURTHER.values()]
    return makers[seed % len(makers)]()


def offers(slipped: Slipped) -> Iterator[tuple[str, bool, str]]:
    """What the slipped line becomes with each repair offered for it, best first; whether the file then says what it said before
    the slip, and whether the repair is safe."""
    meant = said(slipped.walk.text)
    for finding in audit(slipped.text).findings:
        if finding.line == slipped.line:
            for repair in finding.repairs:
                text = applied(slipped.text, repair.changes)
                yield text.split("\n")[slipped.line - 1], said(text) == meant, repair.applies


def said(text: str) -> list[Statement]:
    """What a path says, step by step; a remark or the narrator's own words may go along with a step that is moved, or not."""
    statements = read_path(text, READER).statements
    return [replace(statement, comment=None) for statement in statements if told(statement)]


def graver(text: str) -> Iterator[tuple[int, str]]:
    """The line and the words of every error and warning; line 1 and the exception where the audit breaks down."""
    try:
        findings = audit(text).findings
    except Exception as error:  # an audit never raises for what a text says, so this is a false alarm of its own kind
        yield 1, f"breakdown: {error!r}"
        return
    for finding in findings:
        if finding.severity != "note":
            yield finding.line, f"{finding.severity}: {finding.code}: {finding.message}"


def main(arguments: Sequence[str] | None = None) -> int:
    """Measure, print, and return 0 only if every slip was found and nothing else was."""
    parser = argparse.ArgumentParser(prog="python -m tests.maker", description=__doc__)
    parser.add_argument("--walks", type=int, default=300)
    parser.add_argument("--seed", type=int, default=1, help="of the first walkthrough")
    parser.add_argument("--size", type=int, default=9, choices=(4, 6, 9))
    parser.add_argument("--processes", type=int, default=2)
    parser.add_argument("--plain-links", action="store_true", help="no chain's link goes over several places at once")
    parser.add_argument("--further", action="store_true", help="slips of the further kinds too")
    parser.add_argument("--turns", action="store_true", help="one slip a walkthrough, of the nine kinds by turns")
    options = parser.parse_args(arguments)
    begun = time.perf_counter()
    total = Measured()
    seeds = range(options.seed, options.seed + options.walks)
    one = partial(measure, size=options.size, grouped=not options.plain_links, further=options.further, turns=options.turns)
    with Pool(options.processes) as pool:
        for measured in pool.imap_unordered(one, seeds, chunksize=4):
            total.add(measured)
    show(total, options.walks, time.perf_counter() - begun)
    return 1 if total.missed or total.alarms else 0


def show(total: Measured, walks: int, seconds: float) -> None:
    """Print the counts, then every miss and every false alarm."""
    print(f"{walks} walks, {sum(total.told.values())} steps, {total.making / walks:.2f} s to make one, {seconds:.0f} s in all")
    print("\nsteps told, and slips found of those made:")
    for name, count in total.told.most_common():
        found, missed = total.slipped_patterns[name, True], total.slipped_patterns[name, False]
        print(f"  {count:6} {name:18} {found}/{found + missed}")
    print("\nslips, by kind and by what they really are:")
    for kind, really in sorted({(kind, really) for kind, really, _ in total.slips}):
        found, missed = total.slips[kind, really, True], total.slips[kind, really, False]
        print(f"  {kind:14} {really:10} found {found:5}  missed {missed}")
    print("\nrepairs, by kind:")
    for kind in sorted({kind for kind, _ in total.repaired}):
        counts = [total.repaired[kind, place] for place in ("first", "among three", "not offered")]
        print(f"  {kind:14} first {counts[0]:5}  among the first three {counts[1]:5}  not offered {counts[2]:5}")
    print(f"  of the safe ones {total.safe[True]} are what was meant, {total.safe[False]} not")
    print("\n".join(total.unrepaired))
    print(f"\nmissed: {len(total.missed)}")
    print("\n".join(total.missed))
    print(f"\nfalse alarms: {len(total.alarms)}")
    print("\n".join(total.alarms))


if __name__ == "__main__":
    sys.exit(main())
