"""Every English sentence about a finding, and nothing else.

A message says what stands there and what was expected; the help says the next move. Nobody is blamed, and nothing is
suggested that is not known.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from ..grammar.statements import Problem, Reason, Step
from ..grammar.vocabulary import Cell, Claim, House
from ..grammar.writer import write_reason, write_statement, write_time
from ..sat.smallest import REACH
from .findings import Finding

if TYPE_CHECKING:
    from .weighing import Repair

Details = Mapping[str, Any]
KINDS = {"r": "row", "c": "column", "b": "box", "rc": "row or column"}
MOST = 4
"""How many things a sentence lists before it says "and n more"."""


def message(problem: Problem) -> str:
    """What stands there and what was expected."""
    return _MESSAGES[problem.code](problem.details)


def help_for(finding: Finding) -> tuple[str, ...]:
    """The next move, what else is the matter, and what hangs on it; empty where nothing is known that would help."""
    said = _HELP.get(finding.code)
    parts = [_perhaps(finding), _holds_after(finding), said(finding.problem.details) if said else None]
    parts += [f"Besides, {_lower(message(problem))}" for problem in finding.also]
    if finding.dependants:
        lines = _listed([str(line) for _, line in finding.dependants], "and")
        noun = "line" if len(finding.dependants) == 1 else "lines"
        pronoun = "it" if len(finding.dependants) == 1 else "them"
        verb = "depends" if len(finding.dependants) == 1 else "depend"
        parts.append(f"{noun.capitalize()} {lines} {verb} on this step, and nothing more is said of {pronoun}.")
    if finding.doubted:
        parts.append("Perhaps the sentence was misread: too much of the narration was not followed to be sure of it.")
    return tuple(part for part in parts if part)


def _perhaps(finding: Finding) -> str | None:
    """What may have been meant, as far as the finding does not say it already."""
    said = finding.problem.details.get("nearest") or finding.code == "misnamed"
    repairs = [repair for repair in finding.repairs if not said or repair.kind in _OTHERWISE]
    if repairs and repairs[0].applies == "safe":
        likely = f"Most likely {_phrases(repairs[:1])[0]}: then this step holds, and all that depends on it."
        return " ".join([likely, *(f"Or perhaps {other}." for other in _phrases(repairs[1:]))])
    first, *rest = [*_phrases(repairs), None]
    return " ".join([f"Perhaps {first}.", *(f"Or {other}." for other in rest if other)]) if first else None


def _phrases(repairs: Sequence[Repair]) -> list[str]:
    """Each repair in words, in their order; other words for the line all in one."""
    words = [repair for repair in repairs if repair.kind not in _OTHERWISE]
    said: list[str] = []
    for repair in repairs:
        if repair.kind in _OTHERWISE:
            said.append(_OTHERWISE[repair.kind](repair))
        elif repair is words[0]:
            said.append(_other_words(words))
    return said


def _other_words(words: Sequence[Repair]) -> str:
    if len({repair.was for repair in words}) == 1:
        return f"{_listed([f'`{repair.text}`' for repair in words], 'or')} instead of `{words[0].was}` was meant"
    return f"{_listed([f'`{repair.text}` instead of `{repair.was}`' for repair in words], 'or')} was meant"


def _holds_after(finding: Finding) -> str | None:
    """Where the step as told would hold, unless a repair says so, or says better."""
    known = any(repair.kind == "told-early" or repair.applies == "safe" for repair in finding.repairs)
    return None if finding.holds_after is None or known else f"As told, it would hold after line {finding.holds_after}."


_OTHERWISE: dict[str, Callable[[Repair], str]] = {
    "dropped": lambda repair: f"`{repair.was.strip(' ,;')}` was not meant",
    "left-out": lambda repair: f"a step was left out before it: `{repair.text.rstrip()}`",
    "told-twice": lambda repair: f"line {repair.span.line} can go",
    "told-early": lambda repair: f"line {repair.span.line} was meant to stand after line {repair.other}",
    "told-late": lambda repair: (
        f"line {max(repair.span.line, repair.other or 0)} was meant to stand before line "
        f"{min(repair.span.line, repair.other or 0)}"
    ),
    "steps-exchanged": lambda repair: f"lines {repair.span.line} and {repair.other} were meant the other way round",
}
"""How a repair is told that is more, or less, than other words."""


def house(named: House) -> str:
    """``row 4``, ``column 7``, ``box 9``."""
    return f"{named.noun} {named.number}"


def digits(numbers: Iterable[int]) -> str:
    """``2``, ``2 and 9``, ``2, 5 and 9``."""
    return _listed([str(number) for number in numbers], "and", most=16)


def cells(named: Collection[Cell]) -> str:
    """``r1c1``, ``r1c1 and r1c2``; long lists are cut."""
    return _listed([str(cell) for cell in named], "and")


def claims(told: Sequence[Claim]) -> str:
    """``r3c8 = 9``; removals are put together where digits or cells agree: ``r1c1 r1c2 not 5 8``."""
    by_digit: dict[tuple[int, bool], list[Cell]] = {}
    for (cell, digit), holds in told:
        by_digit.setdefault((digit, holds), []).append(cell)
    by_cells: dict[tuple[tuple[Cell, ...], bool], list[int]] = {}
    for (digit, holds), group in by_digit.items():
        by_cells.setdefault((tuple(group), holds), []).append(digit)
    said = []
    for (group_of, holds), numbers in by_cells.items():
        more = f" (and {len(group_of) - 6} more)" if len(group_of) > 6 else ""
        said.append(f"{' '.join(map(str, group_of[:6]))}{more} {'=' if holds else 'not'} {' '.join(map(str, numbers))}")
    return "; ".join(said[:MOST]) + (f"; and {len(said) - MOST} more" if len(said) > MOST else "")


def _listed(words: Sequence[str], joint: str, most: int = 8) -> str:
    if len(words) > most:
        return f"{', '.join(words[:most])} {joint} {len(words) - most} more"
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {joint} {words[-1]}"


def _lower(sentence: str) -> str:
    """The sentence as it goes on after a colon."""
    return sentence[0].lower() + sentence[1:]


def _is(count: int) -> str:
    return "is" if count == 1 else "are"


def _a(noun: str) -> str:
    return f"{'an' if noun[0] in 'aeioux' else 'a'} {noun}"


# Reading


def _unreadable(d: Details) -> str:
    if "length" in d:
        return f"This line is {d['length']:,} characters long; a statement has at most {d['limit']:,}."
    if "twice" in d:
        return f"`{d['found']}` stands here a second time; a reason says each part once."
    stands = "The line ends here" if d["found"] is None else f"`{_clip(d['found'])}` stands here"
    if d.get("pattern") and not d.get("expected"):
        return f"{stands}; {_a(d['pattern'])} has no such part."
    if d.get("pattern"):
        return f"{stands}; {_a(d['pattern'])} takes {_listed(d['expected'], 'and')} instead."
    expected = d.get("expected")
    return f"{stands}; expected {_listed(expected, 'or')}." if expected else f"{stands}, which no statement has there."


def _clip(text: str) -> str:
    shown = text if text.isprintable() else text.encode("unicode_escape").decode("ascii")
    return shown if len(shown) <= 40 else shown[:37] + "..."


def _unknown_word(d: Details) -> str:
    expected = d.get("expected")
    tail = f"; expected {_listed(expected, 'or')}" if expected else ""
    return f"`{_clip(d['found'])}` is not a word of the path language here{tail}."


def _no_such(what: str) -> Callable[[Details], str]:
    def said(d: Details) -> str:
        size = d["size"]
        if what == "digit":
            return f"{d['found']} is not a digit of this {size}x{size} board; digits run from 1 to {size}."
        named = KINDS[d["kind"]]
        plural = {"box": "boxes"}.get(named, named + "s")
        return f"`{d['found']}`: this {size}x{size} board has no {named} {d['number']}; {plural} run from 1 to {size}."

    return said


def _drawing(d: Details) -> str:
    if "rows" in d:
        rows = "1 row" if d["rows"] == 1 else f"{d['rows']} rows"
        return f"The drawing below has {rows}; this board has {d['usual']}."
    if "found" in d:
        return f"`{_clip(d['found'])}` stands in the drawing; a cell is its candidates side by side, or the placed digit."
    return f"This drawn row has {d['row_cells']} cells; a row of this board has {d['usual']}."


# Captions


def _cue_time(d: Details) -> str:
    said = f"`{_clip(d['found'])}` stands where `{d['expected']}` was expected"
    if "read" not in d:
        return f"{said}."
    taken = "it is left out" if d["read"] is None else f"it is read as {_clock(d['read'])}"
    return f"{said}; {taken}."


def _cue_number(d: Details) -> str:
    if d["why"] == "order":
        return f"Number {d['found']} stands after number {d['before']}; the numbers of cues go up."
    if d["why"] == "missing":
        return "This cue has no number; a cue of a SubRip file begins with one."
    if d["why"] == "alone":
        return f"The number {_clip(d['found'])} stands alone; a line of times was expected below it."
    return f"`{_clip(d['found'])}` stands where the number of a cue was expected; it is not read as words."


def _outside_cue(d: Details) -> str:
    if d["cue"] is None:
        return "These words stand before the first line of times; they are read without a time."
    return f"These words stand under no line of times; they are read as the end of cue {d['cue']}."


def _clock(seconds: float) -> str:
    return write_time(seconds).strip(" []")


# The puzzle


def _grid(d: Details) -> str:
    if "twice" in d:
        return "A second grid stands here; a path has one."
    if "size" in d:
        return f"`{d['found']}` is not a digit of a {d['size']}x{d['size']} grid."
    if "found" in d:
        return f"`{_clip(d['found'])}` stands in the grid; a cell is a digit, or `.` `0` `_` for a blank."
    if "row_cells" in d:
        return f"This row of the grid has {d['row_cells']} cells; the others have {d['usual']}."
    if "rows" in d:
        return f"The grid has {d['rows']} rows of {d['usual']} cells; it needs as many rows as columns."
    return f"The grid has {d['cells']} cells; a grid has 16 (4x4), 36 (6x6), 81 (9x9) or 256 (16x16)."


def _clash(d: Details) -> str:
    where = f"both are in {house(d['house'])}"
    return f"The given {d['digit']} in {d['cell']} clashes with the {d['digit']} in {d['other']}: {where}."


def _several_solutions(d: Details) -> str:
    (one, other), count = d["digits"], d["differ"]
    return (
        f"The puzzle has more than one solution: two of them differ in {count} cells, "
        f"the first being {d['cell']}, {one} in one and {other} in the other."
    )


# The step


def _filled(d: Details) -> str:
    cell = d["claims"][0].candidate.cell
    return f"{cell} is filled already: it holds {d['held']}, not {d['claims'][0].candidate.digit}."


def _cited(d: Details) -> str:
    if "house" in d:
        return f"{house(d['house']).capitalize()} has its {d['digit']} already, in {d['there']}."
    if d["held"] is None:
        return f"There is no {d['digit']} in {d['cell']}: it is empty, and cannot be {d['digit']}."
    return f"There is no {d['digit']} in {d['cell']}: it holds {d['held']}."


def _outside(d: Details) -> str:
    own = f"; it is in {house(d['own'])}" if d.get("own") else ""
    return f"{d['cell']} is not in {house(d['house'])}{own}."


def _absent(d: Details) -> str:
    return _ABSENT[d["why"]](d)


_ABSENT: dict[str, Callable[[Details], str]] = {
    "extra-candidates": lambda d: f"{d['cell']} may also be {digits(d['digits'])}; {_only(d)}.",
    "other-places": lambda d: f"{d['digit']} has {_place(d)} in {house(d['house'])}: {cells(d['cells'])}{_beside(d)}.",
    "not-one": lambda d: f"{d['cell']} has {len(d['digits'])} candidates, {digits(d['digits'])}; a naked single has one.",
    "nothing-new": lambda d: f"No {d['pattern']} that fits what was said shows anything new of that kind{_stopped(d)}.",
    "no-candidate": lambda d: f"{d['cell']} cannot be {d['digit']}: that candidate is gone.",
    "filled": lambda d: f"{d['cell']} is filled already, with {d['digit']}.",
    "placed": lambda d: f"{d['digit']} is placed already in {house(d['house'])}, at {d['cell']}.",
    "open-cells": lambda d: f"{house(d['house']).capitalize()} still has {_other_gaps(d)} open: {cells(d['cells'])}.",
    "wrong-kind": lambda d: f"{house(d['house']).capitalize()} stands where {_a(KINDS[d['wanted']])} was expected.",
    "apart": lambda d: f"{house(d['house']).capitalize()} and {house(d['other'])} have no cell in common.",
    "wrong-count": lambda d: f"{d['found'] or 'No'} {_singular(d['what'], d['found'])} {_is(d['found'])} named; {_wanted(d)}.",
    "adds-up": lambda d: f"The {d['what']} come to {_listed([str(value) for value in d['named']], 'and')}; {_wanted(d)}.",
    "one-too-many": lambda d: f"`{d['named']}` is one too many here; one was expected.",
    "no-common-house": lambda d: f"{cells(d['cells'])} do not share a row, column or box.",
    "not-two": lambda d: f"{d['cell']} has {len(d['digits'])} candidates, {digits(d['digits'])}; two were expected.",
    "unseen": lambda d: f"{d['cell']} and {d['other']} do not see each other.",
    "wing-digits": lambda d: (
        f"{d['cell']} is {digits(d['digits'])} and the pivot {digits(d['pivot'])}; a wing shares just one digit with the pivot."
    ),
    "wing-pair": lambda d: (
        f"{d['cell']} is {digits(d['digits'])}, the other wing {digits(d['first'])} and the pivot {digits(d['pivot'])}; "
        "each wing takes one of the pivot's digits, and both share the third."
    ),
    "no-fin": lambda d: "No fin is named, and no place of the digit lies outside the covers.",
    "fin-astray": lambda d: (
        f"{d['cell']} is in none of {_listed([house(base) for base in d['houses']], 'and')}; a fin lies in a base line."
    ),
    "fin-covered": lambda d: f"{d['cell']} lies in a cover; a fin lies outside the covers.",
    "fins-apart": lambda d: f"{cells(d['cells'])} are not all in one box; the fins of a fish are.",
    "idle-cover": lambda d: (
        f"{house(d['house']).capitalize()} covers nothing: the base lines have no place for {d['digit']} there."
    ),
    "too-short": lambda d: (
        f"{d['found'] or 'No'} {_singular('links' if d.get('links') else 'cells', d['found'])} {_is(d['found'])} told; "
        f"the chain has at least {d['wanted']}."
    ),
    "odd-chain": lambda d: f"{d['found']} cells are told; an x-chain has an even number of them.",
    "not-by-turns": lambda d: f"`{d['named']}` stands where a {d['wanted']} was expected; digits and cells are told by turns.",
    "ends-differ": lambda d: f"The chain begins with {d['first']} and ends with {d['last']}; both ends are the same digit.",
    "no-reading": lambda d: f"Nothing on the board fits {_a(d['pattern'])} as told{_stopped(d)}.",
}


def _stopped(d: Details) -> str:
    return f" (the search ended after {d['stopped']:,} readings)" if d.get("stopped") else ""


def _place(d: Details) -> str:
    other = "" if d.get("none") else "other "
    return f"{'the place' if d.get('none') else 'another place'}" if len(d["cells"]) == 1 else f"{other}places"


def _only(d: Details) -> str:
    if len(d["allowed"]) == 1:
        return f"{d['allowed'][0]} is not its only candidate"
    return f"only {digits(d['allowed'])} {_is(len(d['allowed']))} expected there"


def _beside(d: Details) -> str:
    if d.get("covers"):
        return f", outside {_listed([house(cover) for cover in d['covers']], 'and')}"
    if d.get("inside"):
        return f", outside {house(d['inside'])}"
    return f", other than {cells(d['wanted'])}" if d.get("wanted") else ""


def _other_gaps(d: Details) -> str:
    return "another cell" if len(d["cells"]) == 1 else f"{len(d['cells'])} other cells"


def _singular(noun: str, count: int) -> str:
    return noun[:-1] if count == 1 and noun.endswith("s") else noun


def _wanted(d: Details) -> str:
    size = {1: "one", 2: "two", 3: "three", 4: "four"}.get(d["wanted"], str(d["wanted"]))
    return f"{size} {_is(d['wanted'])} expected"


def _broken(d: Details) -> str:
    return f"Link {d['link']} does not hold: {_lower(_BROKEN[d['why']](d))}"


_BROKEN: dict[str, Callable[[Details], str]] = {
    "wrong-digits": lambda d: (
        f"{d['cell']} is filled already, with {digits(d['digits'])}."
        if d["filled"]
        else f"{d['cell']} may be {digits(d['digits'])}; the chain needs it to be {digits(sorted(set(d['told'])))}."
    ),
    "unseen": lambda d: f"{d['other']} and {d['cell']} do not see each other.",
    "other-places": lambda d: (
        f"{d['cell']} and {d['other']} are not the only places for {d['digit']} in {house(d['house'])}; "
        f"{'so is' if len(d['cells']) == 1 else 'so are'} {cells(d['cells'])}."
        if d["cells"]
        else f"{d['cell']} and {d['other']} are not both places for {d['digit']}."
    ),
    "does-not-follow": lambda d: (
        f"from {_link(d['before'])} it does not follow that {_link(d['after'])}"
        + (f"; {house(d['house'])} also has {cells(d['cells'])} for {d['after'].digit}" if d["cells"] else "")
        + "."
    ),
}


def _link(link: Any) -> str:
    return f"{link.cell} is {'' if link.holds else 'not '}{link.digit}"


def _misnamed(d: Details) -> str:
    return f"This is no {d['told']}: as told, it is {_a(write_reason(d['reason']))}."


def _refuted(d: Details) -> str:
    first: Claim = d["claims"][0]
    cell, digit = first.candidate
    where = "in the solution" if d["only"] else "in one of the solutions"
    if first.holds:
        said = f"{cell} is not {digit}" if d["only"] else f"{cell} need not be {digit}"
        return f"{said}: it is {d['truth']} {where}.{_others(d)}"
    return f"{cell} {'is' if d['only'] else 'may be'} {digit} {where}, so {digit} cannot be taken from it.{_others(d)}"


def _others(d: Details) -> str:
    rest = d["claims"][1:]
    return f" The same goes for {claims(rest)}." if rest else ""


def _unproved(d: Details) -> str:
    told = claims(d["claims"])
    facts = _listed([str(fact) for fact in d["warrant"]], "and")
    if not d["warrant"]:
        return f"{told}: true, but the reason cites nothing that would show it."
    return f"{told}: true, but it does not follow from what the reason cites ({facts})."


def _proves(d: Details) -> str | None:
    return f"What the reason does prove: {claims(d['proves'])}." if d.get("proves") else None


def _unproved_help(d: Details) -> str | None:
    """What is proved, and what is lacking: the fewest further facts, for the first of the effects."""
    missing = d.get("missing")
    lacking = None
    if missing and missing.facts:
        facts = _listed([str(fact) for fact in missing.facts], "and")
        lacking = f"For {d['claims'][0]}, the fewest facts to cite besides: {facts}."
    elif missing and missing.known:
        lacking = f"To show {d['claims'][0]}, more than {REACH} further facts would have to be cited."
    return " ".join(part for part in (_proves(d), lacking) if part) or None


def _vacuous(d: Details) -> str:
    facts = _listed([str(fact) for fact in d["warrant"]], "and")
    return f"The facts cited ({facts}) contradict each other on this board, so they would prove anything."


def _differ(d: Details) -> str:
    kind, (cell, digit), _ = d["first"]
    stands = {
        "stale": f"{cell} is drawn with {digit}, which is gone from the board by now",
        "missing": f"{cell} is drawn without {digit}, which no step has taken away",
        "wrong": f"{cell} is drawn without {digit}, which is its digit in the solution",
    }[kind]
    rest = len({candidate.cell for _, candidate, _ in d["differences"]}) - 1
    more = f" {rest} other {'cells differ' if rest > 1 else 'cell differs'} too." if rest else ""
    return f"{stands}.{more}"


def _done(d: Details) -> str:
    if d["why"] == "nothing-left":
        return "Nothing is left for this step to do: all it would take away is gone."
    told = claims(d["claims"])
    if d["why"] == "told":
        return f"{told}: this was told before, on line {d['by']}."
    return f"{told}: the board shows this already{_since(d)}."


def _together(d: Details) -> str:
    """How statements disagree: the own one stands here, the others on their lines."""
    if d["why"] == "placed":
        return f"{d['digit']} has its place in {house(d['inside'])} already: {d['cell']}, on line {d['by']}."
    said = [f"{_apart(d['own'])} here"] if d["own"] else []
    here = " and ".join([*said, f"{_apart(d['implied'])} by the reason given here"] if d["implied"] else said)
    if not d["others"]:
        return f"{here}: that cannot all be true of one filled grid."
    lines: dict[tuple[int, bool], list[Claim]] = {}
    for line, claim, implied in d["others"]:
        lines.setdefault((line, implied), []).append(claim)
    there = [f"{_apart(told)} {'by the reason ' if implied else ''}on line {line}" for (line, implied), told in lines.items()]
    if d["why"] == "two-digits":
        return f"{here}, and {there[0]}: one cell cannot hold two digits."
    if d["why"] == "twice":
        return f"{here}, and {there[0]}: {house(d['inside'])} cannot hold a digit twice."
    if d["why"] == "denied":
        return f"{here}, and {there[0]}: one of the two is not true."
    return f"{here} cannot be true together with {_listed(there, 'and', most=16)}: no filled grid agrees with all of it."


def _apart(told: Sequence[Claim]) -> str:
    """Placements one by one, as two of one cell may be what is the matter; removals put together."""
    placed = [str(claim) for claim in told if claim.holds]
    return "; ".join([*placed, *filter(None, [claims([claim for claim in told if not claim.holds])])])


def _since(d: Details) -> str:
    return f", since line {d['by']}" if d.get("by") else ", from the start"


def _readings(d: Details) -> str:
    if d.get("tried"):
        return f"What is left unsaid can be read in too many ways: none of the {d['tried']:,} tried shows all of this."
    if not d["readings"]:
        return "Part of the effect is left to the reason, and no reason is given."
    more = "; and there are more" if d.get("more") else ""
    return f"What is left unsaid can be read in several ways, which differ in effect: {_options(d['readings'])}{more}."


def _options(readings: Sequence[Reason]) -> str:
    return "; ".join(f"`{write_reason(reading)}`" for reading in readings)


_MESSAGES: dict[str, Callable[[Details], str]] = {
    "unreadable-line": _unreadable,
    "unknown-word": _unknown_word,
    "no-such-cell": _no_such("cell"),
    "no-such-house": _no_such("house"),
    "no-such-digit": _no_such("digit"),
    "drawing-malformed": _drawing,
    "unknown-key": lambda d: (
        f"`{_clip(d['found'])}` is not a key that is used here; the known keys are "
        f"{_listed([f'`{key}`' for key in d.get('known', ('title', 'grid'))], 'and', most=16)}."
    ),
    "no-steps-line": lambda d: (
        f"`{_clip(d['found'])}` stands in the header; the line `steps:` was expected before the first statement."
    ),
    "captions-are-html": lambda d: "This is a web page, not a caption file; its tags are left out, and nothing of it is run.",
    "no-webvtt-line": lambda d: (
        f"`{_clip(d['found'])}` stands here; a WebVTT file begins with the line `WEBVTT`."
        if d["found"].strip()
        else "The first line is empty; a WebVTT file begins with the line `WEBVTT`."
    ),
    "cue-time-malformed": _cue_time,
    "cue-ends-early": lambda d: f"This cue ends at {_clock(d['end'])}, which is not after its start at {_clock(d['start'])}.",
    "cue-out-of-order": lambda d: (
        f"This cue starts at {_clock(d['start'])}, before cue {d['other']}, which stands above it and starts at "
        f"{_clock(d['began'])}; the words are read in the order of the file."
    ),
    "cue-unseparated": lambda d: "A cue begins here without an empty line before it.",
    "text-outside-cue": _outside_cue,
    "cue-number": _cue_number,
    "cue-setting": lambda d: (
        f"`{_clip(d['found'])}` is not a setting that a cue can have; the settings are {_listed(d['known'], 'and')}."
    ),
    "cues-overlap": lambda d: (
        f"This cue starts at {_clock(d['start'])}, while cue {d['other']} is shown until {_clock(d['ended'])}."
    ),
    "no-grid": lambda d: "There is no `grid:`, so there is no puzzle to replay the steps on.",
    "grid-malformed": _grid,
    "givens-clash": _clash,
    "no-solution": lambda d: "The puzzle has no solution: no filling agrees with all of its givens.",
    "several-solutions": _several_solutions,
    "other-grid": lambda d: (
        f"The narration does not seem to belong to this grid: {d['refuted']} of its {d['steps']} steps contradict the solution."
    ),
    "no-claims": lambda d: "Nothing here was read as a step: no sentence says what goes where, or what is ruled out.",
    "unread-sentence": lambda d: f"This sentence was not taken in, so it was not checked: \"{d['text']}\"",
    "taken-by-sound": lambda d: f"`{_clip(d['found'])}` was taken for `{d['meant']}`, which it sounds like.",
    "cited-amiss": _cited,
    "cell-filled": _filled,
    "cell-outside-house": _outside,
    "named-twice": lambda d: f"`{d['named']}` is named twice.",
    "pattern-absent": _absent,
    "broken-link": _broken,
    "misnamed": _misnamed,
    "effect-refuted": _refuted,
    "effect-unproved": _unproved,
    "contradictory-warrant": _vacuous,
    "candidates-differ": _differ,
    "already-done": _done,
    "not-a-candidate": lambda d: f"{claims(d['claims'])}: the board shows this already{_since(d)}; the rest of the step holds.",
    "several-readings": _readings,
    "statements-disagree": _together,
    "deductions-unchecked": lambda d: (
        "There is no puzzle to replay the steps on: they were held against each other, and no deduction was checked."
        + (f" Only the first {d['most']} contradictions are reported." if d["most"] else "")
    ),
    "gave-up": lambda d: (
        "Whether the steps agree with each other could not be settled within the limit on conflicts."
        if d.get("agreement")
        else f"Whether {d['claim']} follows could not be settled within the limit on conflicts."
        if d["claim"]
        else "How many solutions the puzzle has could not be settled within the limit on conflicts."
    ),
    "no-reason": lambda d: f"No reason is given; checked against the whole board, where it is true.{_shown_by(d)}",
    "worked-out": lambda d: f"What was left unsaid was worked out: `{write_reason(d['reason'])}`.",
    "out-of-order": lambda d: f"`{d['told']}` stands after `{d['before']}`.",
    "not-shown-before": lambda d: f"This holds once {claims(d['claims'])} is known, which nothing read before it shows.",
    "more-follows": lambda d: f"More follows from what is cited: {claims(d['claims'])}.",
    "easier-step": lambda d: (
        f"An easier step was open: `{_step(d['step'])}` leans on {_count(d['facts'])}, this one on {_count(d['told'])}."
    ),
    "past-the-end": lambda d: f"The puzzle is solved{_solved(d)}; the path goes on after the end.",
    "stops-short": lambda d: (
        f"The path stops with {d['open']} {'cell' if d['open'] == 1 else 'cells'} still open."
        + (f" An easy step from there: `{_step(d['next'])}`." if d.get("next") else "")
    ),
}


def _step(step: Step) -> str:
    return "".join(write_statement(step))


def _count(facts: int) -> str:
    return "1 fact" if facts == 1 else f"{facts} facts"


def _shown_by(d: Details) -> str:
    """The fewest facts that show it, and the name they go by."""
    smallest = d.get("smallest")
    if smallest is None or not smallest.known:
        return ""
    if smallest.facts is None:
        return f" To show it takes more than {REACH} facts."
    if d["name"]:
        return f" What shows it: `{write_reason(d['name'])}`."
    return f" The fewest facts that show it: {_listed([str(fact) for fact in smallest.facts], 'and')}."


def _solved(d: Details) -> str:
    return f" on line {d['solved_by']}" if d.get("solved_by") else " by its givens"


def _nearest(d: Details) -> str | None:
    return f"Perhaps `{d['nearest']}` was meant." if d.get("nearest") else None


def _names(d: Details) -> str | None:
    """Where a pattern's name is missing, the names there are."""
    if "the name of a pattern" not in d.get("expected", ()):
        return None
    from .catalogue import CATALOGUE

    return f"The names are {_listed(list(CATALOGUE), 'and', most=40)}."


def _begins(d: Details) -> str | None:
    """Where a line begins with its reason, how statements begin."""
    from ..grammar.forms import name_key
    from .catalogue import CATALOGUE

    found = (d.get("found") or "").lower()
    starts = "a cell such as `r4c7`" in (d.get("expected") or ())
    if starts and (found == "because" or name_key(found) in map(name_key, CATALOGUE)):
        return "A statement begins with what it shows; `... because` leaves that to the reason."
    return None


def _absent_help(d: Details) -> str | None:
    if d.get("proved"):
        return "What the step concludes does follow from what it cites; it is the description that does not fit."
    return None


def _misnamed_help(d: Details) -> str | None:
    return f"Write `{write_reason(d['reason'])}`."


def _cells_off(count: int) -> str | None:
    """How many cells are missing or too many, where the count is near that of a board."""
    for size in (4, 6, 9, 16):
        off = count - size * size
        if off and abs(off) <= size // 2:
            cells_are = "1 cell is" if abs(off) == 1 else f"{abs(off)} cells are"
            return f"For a {size}x{size} board, {cells_are} {'missing' if off < 0 else 'too many'}."
    return None


_HELP: dict[str, Callable[[Details], str | None]] = {
    "unknown-word": lambda d: _nearest(d) or _names(d),
    "unknown-key": _nearest,
    "no-grid": lambda d: "Add `grid:` with the puzzle's cells, or give it with --grid.",
    "no-steps-line": lambda d: (
        "Perhaps `steps:` was meant, with a colon."
        if d["found"].lower() == "steps"
        else "Put `steps:` on a line of its own between the header and the first statement."
    ),
    "unreadable-line": lambda d: _begins(d) or (_names(d) if not d.get("pattern") else None),
    "captions-are-html": lambda d: "Save the captions themselves, not the page that shows them.",
    "no-webvtt-line": lambda d: "Put `WEBVTT` on the first line, and an empty line below it.",
    "cue-unseparated": lambda d: "Put an empty line above it.",
    "text-outside-cue": lambda d: (
        "An empty line ends a cue; take it out, or give these words a line of times." if d["cue"] is not None else None
    ),
    "grid-malformed": lambda d: _cells_off(d["cells"]) if "cells" in d else None,
    "givens-clash": lambda d: "No step was checked.",
    "other-grid": lambda d: "Compare the grid with the one told of; until they agree, nothing more is said of the steps.",
    "no-claims": lambda d: "Cells are read as `r4c7` or `row 4, column 7`; the narration has to be in English.",
    "cited-amiss": lambda d: f"The {d['digit']} stands in {d['meant']}; was that meant?" if d.get("meant") else None,
    "unread-sentence": lambda d: "Say it in shorter sentences, with the cells by row and column.",
    "no-solution": lambda d: "Compare the givens with the puzzle; until they agree, no step can be held against a solution.",
    "several-solutions": lambda d: (
        "Compare the givens with the puzzle; one may be missing. Until then, nothing is reported after the first step that "
        "only some solutions bear out."
    ),
    "pattern-absent": _absent_help,
    "broken-link": _absent_help,
    "named-twice": _absent_help,
    "cell-outside-house": lambda d: _proves(d) or _absent_help(d),
    "misnamed": _misnamed_help,
    "effect-refuted": _proves,
    "cell-filled": _proves,
    "effect-unproved": _unproved_help,
    "several-readings": lambda d: (
        "Say which one is meant." if d["readings"] or d.get("tried") else "Name the cells and digits, or give the reason."
    ),
    "statements-disagree": lambda d: "Which of them is wrong, only the puzzle could tell." if d.get("others") else None,
    "deductions-unchecked": lambda d: "Give the puzzle with --grid, and every step is replayed and proved.",
    "past-the-end": lambda d: "The statements from here on were not checked.",
    "gave-up": lambda d: "Raise the limit with --conflicts.",
}
