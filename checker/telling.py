"""A path told in words: prose, or captions at the pace of speech. All of the narrator's wording stands here.

Every statement is told whole, so that the words can be read back. The same path is always told in the same words; one pattern
told twice in a row is told in two ways.
"""

from __future__ import annotations

import re
import textwrap
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any, NamedTuple

from ..grammar.captions import Cue, write_srt, write_vtt
from ..grammar.statements import (
    Blank,
    Effect,
    HeaderEntry,
    Link,
    Marking,
    Path,
    Placement,
    Reason,
    Removal,
    Said,
    Say,
    Slot,
    Statement,
    Step,
    Unread,
    Unsaid,
)
from ..grammar.vocabulary import HOUSE_KINDS, Cell, CellFact, House, PlaceFact
from ..grammar.writer import write_grid, write_time

RATE = 150
"""Words spoken in a minute: an unhurried speaker (common practice, no source)."""

LINE, LINES = 42, 2
"""Characters in a line and lines in a cue: what can be read in passing (common practice, no source)."""

SHORTEST = 0.1
"""Seconds that a cue stands, however soon the next step begins."""
PAUSE = 0.5
"""Seconds between two steps, where the path gives no times."""

OPENED, CLOSED = "\N{LEFT DOUBLE QUOTATION MARK}", "\N{RIGHT DOUBLE QUOTATION MARK}"
SINGLE_MARKS = {ord(OPENED): "\N{LEFT SINGLE QUOTATION MARK}", ord(CLOSED): "\N{RIGHT SINGLE QUOTATION MARK}"}
WIDTH = 80
FORMATS = ("prose", "srt", "vtt")


class Telling(NamedTuple):
    """One statement in words, and its time in seconds where the path has one."""

    text: str
    time: float | None


def tell(path: Path, form: str = "prose", rate: int = RATE) -> str:
    """The whole path in words, in one of the ``FORMATS``; ``rate``: words a minute, for captions.

    Comments are the writer's own and are not told; what ``say:`` lines hold is told in quotation marks, by which a reader knows
    that it claims nothing. SubRip has no place for the puzzle and its title, which are left out there.
    """
    told = list(tellings(path))
    if form == "srt":
        return write_srt(_cues(told, rate))
    if form == "vtt":
        return write_vtt(_cues(told, rate), ["\n".join(lines) for lines in _header(path)])
    paragraphs = [f"{write_time(telling.time)}{telling.text}" for telling in told]
    wrapped = [textwrap.fill(text, WIDTH, break_long_words=False, break_on_hyphens=False) for text in paragraphs]
    parts = ["\n".join(lines) for lines in _header(path, heading="# ")] + wrapped
    return "\n\n".join(parts) + "\n"


def tellings(path: Path) -> Iterator[Telling]:
    """Statement by statement, in the order of the path."""
    narrator = _Narrator()
    for statement in path.statements:
        if not isinstance(statement, Blank) and not (isinstance(statement, Say) and not statement.text):
            number = f"Step {statement.number}: " if statement.number is not None else ""
            yield Telling(number + narrator.statement(statement), statement.time)


def _header(path: Path, heading: str = "") -> Iterator[list[str]]:
    for entry in path.header:
        if isinstance(entry, HeaderEntry) and entry.key.lower() == "title" and entry.value:
            yield [f"{heading}{entry.value}"]
    if path.grid is not None:
        yield ["grid:", *(row.partition("#")[0].rstrip() for row in write_grid(path.grid))]


# Captions


def _cues(told: Sequence[Telling], rate: int) -> Iterator[Cue]:
    """Two lines at a time, for as long as it takes to say them. A step begins when the path says so, if that can be done."""
    now = 0.0
    for at, telling in enumerate(told):
        start = now if telling.time is None else max(now, telling.time)
        chunks = _chunks(telling.text)
        seconds = [max(1.0, _spoken(chunk) * 60 / rate) for chunk in chunks]
        following = told[at + 1].time if at + 1 < len(told) else None
        if following is not None and start + SHORTEST * len(seconds) <= following < start + sum(seconds):
            # Said faster, so that the next step begins on time.
            seconds = [length * (following - start) / sum(seconds) for length in seconds]
        for chunk, length in zip(chunks, seconds):
            end = start + length
            yield Cue(start, end, chunk)
            start = end
        now = start + (PAUSE if following is None else 0)


def _chunks(text: str) -> list[str]:
    lines = textwrap.wrap(text, LINE, break_long_words=False, break_on_hyphens=False)
    return ["\n".join(lines[at : at + LINES]) for at in range(0, len(lines), LINES)]


def _spoken(text: str) -> int:
    """How many words are spoken: ``r4c7`` is four."""
    return len(text.split()) + 3 * len(re.findall(r"\b[rR]\d+c\d+", text))


# Words


def _listed(words: Sequence[str], joint: str = "and") -> str:
    return f"{', '.join(words[:-1])} {joint} {words[-1]}" if len(words) > 1 else "".join(words)


def _cell(cell: Cell) -> str:
    return f"row {cell.row}, column {cell.column}"


def _cells(said: Sequence[Said[Any]]) -> str:
    """Several cells, in their order: by their line if they share one, else by their short names."""
    named = [value.value for value in said]
    if None in named:
        return _listed([str(cell) if cell else "one more cell" for cell in named])
    rows, columns = [cell.row for cell in named], [cell.column for cell in named]
    if len(named) == 1:
        return _cell(named[0])
    if len(set(rows)) == 1 and columns == sorted(set(columns)):
        return f"columns {_listed(list(map(str, columns)))} of row {rows[0]}"
    if len(set(columns)) == 1 and rows == sorted(set(rows)):
        return f"rows {_listed(list(map(str, rows)))} of column {columns[0]}"
    return _listed(list(map(str, named)))


def _house(house: House) -> str:
    return f"{house.noun} {house.number}"


def _houses(said: Sequence[Said[Any]]) -> str:
    named = [value.value for value in said]
    if None not in named and len(named) > 1 and len({house.kind for house in named}) == 1:
        numbers = _listed([str(house.number) for house in named])
        return f"{_plural(HOUSE_KINDS[named[0].kind])} {numbers}"
    return _listed(["one more line" if house is None else _house(house) for house in named])


def _plural(noun: str) -> str:
    return noun + ("es" if noun.endswith("x") else "s")


def _digits(said: Sequence[Said[Any]], joint: str = "and") -> str:
    return _listed(["one more digit" if value.value is None else str(value.value) for value in said], joint)


def _fact(fact: object) -> str:
    if isinstance(fact, PlaceFact):
        return f"the places for {fact.digit} in {_house(fact.house)}"
    return str(fact.cell) if isinstance(fact, CellFact) else "one more"


def _link(link: object) -> str:
    assert isinstance(link, Link)
    return f"{_cell(link.cell)} is {'' if link.holds else 'not '}{link.digit}"


def _values(slot: Slot) -> str:
    first = next((said.value for said in slot.values if said.value is not None), None)
    if isinstance(first, Cell):
        return _cells(slot.values)
    return _houses(slot.values) if isinstance(first, House) else _digits(slot.values)


def _quoted(text: str) -> str:
    """Talk in quotation marks, by which the reader of narrations knows that it claims nothing; those within it are single."""
    return f"{OPENED}{_ended(text.strip().translate(SINGLE_MARKS))}{CLOSED}"


def _ended(text: str) -> str:
    """So that the next sentence does not run on."""
    return text if not text or text.endswith((".", "!", "?", "\N{HORIZONTAL ELLIPSIS}")) else f"{text}."


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:]


SINGLES = {
    "naked single": (
        "{cell} can only be {digit}, a naked single",
        "nothing but {digit} can go in {cell}, a naked single",
        "{cell} is a naked single, {digit}",
        "the only candidate left in {cell} is {digit}, a naked single",
        "{cell} is a naked single",
        "there is a naked single, {digit}",
    ),
    "hidden single": (
        "in {in}, the only place for {digit} is {cell}, a hidden single",
        "{cell} is the only place for {digit} in {in}, a hidden single",
        "{cell} has to be {digit}, a hidden single in {in}",
        "{cell} is {digit}, a hidden single in {in}",
        "{cell} is {digit}, a hidden single",
        "{cell} is a hidden single in {in}",
        "{digit} is a hidden single in {in}",
        "{cell} is a hidden single",
        "there is a hidden single, {digit}",
    ),
    "last cell": (
        "{cell} is the last cell in {in}, so it is {digit}",
        "the last cell in {in} is {cell}, and it is {digit}",
        "{cell} is {digit}, the last cell in {in}",
        "{cell} is {digit}, a last cell",
        "{cell} is the last cell in {in}",
        "the last cell in {in} is {digit}",
        "{cell} is a last cell",
        "there is a last cell, {digit}",
    ),
}
"""A single and what it places, in one sentence; the wordings of a kind are for as many parts as were said."""

CLAUSES = {
    "pointing": (
        "in {in}, all the {plural} lie in {along}, pointing along it",
        "all the {plural} of {in} lie in {along}, pointing along it",
        "the {plural} of {in} are pointing along {along}",
    ),
    "claiming": (
        "in {in}, all the {plural} lie in {within}, claiming it",
        "all the {plural} of {in} lie in {within}, claiming it",
        "{in} is claiming the {plural} of {within}",
    ),
    "naked": (
        "{at} are a {name} of {digits} in {in}",
        "there is a {name} in {in}: only {digits} can go in {at}",
        "{at} can hold nothing but {digits}, which is a {name} in {in}",
    ),
    "hidden": (
        "in {in}, the digits {digits} can go only in {at}, a {name}",
        "there is a {name} in {in}: {digits} fit nowhere but in {at}",
        "{digits} are a {name} in {in}, at {at}",
    ),
    "finned": (
        "there is a {name} on {on} in {in}, covered by {cover}, with {fins}",
        "look at the {plural} of {in}: a {name}, covered by {cover}, with {fins}",
    ),
    "fish": (
        "there is {a_name} on {on} in {in}, covered by {cover}",
        "the {plural} of {in} make {a_name}, covered by {cover}",
        "look at the {plural} of {in}: {a_name}, covered by {cover}",
    ),
    "xy-wing": (
        "there is an XY-wing with its pivot at {pivot} and its wings at {wings}",
        "take {pivot} as the pivot of an XY-wing, with wings at {wings}",
    ),
    "xy-chain": ("an XY-chain: {links}", "follow an XY-chain: {links}"),
    "x-chain": ("an X-chain on {on}: {links}", "follow an X-chain on {on}: {links}"),
    "chain": ("a chain: {links}", "follow a chain: {links}"),
    "facts": ("all the facts we need are {facts}", "the only facts we need are {facts}"),
}
"""A reason as a clause of its own, which names the pattern. One that needs a part which was left out does not apply."""

REMOVALS = (
    "{cells} cannot be {or_digits}",
    "strike {digits} from {cells}",
    "rule out {digits} in {cells}",
)
RESTS = ("{cells} cannot be {or_digits}", "{digits} can go from {cells}")
FROM_SOMEWHERE = ("{digits} can go from some cells", "some cells cannot be {or_digits}")
SOMETHING = ("{cells} can lose a candidate",)
ANYTHING = ("some candidates can go",)
PLACEMENTS = ("{cell} is {digit}", "{cell} must be {digit}")
UNSAID = ("take whatever follows",)
NO_REASON = ("no reason is given", "no reason given")
MARKINGS = (
    "Now mark the candidates in every cell.",
    "Time to mark all candidates.",
    "Next, all the candidates are marked.",
)
TITLES = {"x-wing": "X-wing", "xy-wing": "XY-wing", "xy-chain": "XY-chain", "x-chain": "X-chain"}


class _Narrator:
    """Tells statement after statement, and remembers which wording comes next."""

    def __init__(self) -> None:
        self._told: Counter[Sequence[str]] = Counter()

    def statement(self, statement: Statement) -> str:
        if isinstance(statement, Say):
            return _quoted(statement.text)
        if isinstance(statement, Unread):
            return _ended(statement.text.strip())
        if isinstance(statement, Marking):
            return self._marking(statement)
        assert isinstance(statement, Step)
        single = self._single(statement)
        if single:
            return f"{_sentence(single)}."
        effects = _together(list(map(self._effect, statement.effects)))
        if statement.reason is None:
            return f"{_sentence(effects)}; {self._next(NO_REASON, {})}."
        return f"{_sentence(self._clause(statement.reason))}{_joint(statement.reason)} {effects}."

    def _next(self, wordings: Sequence[str], parts: Mapping[str, str | None]) -> str | None:
        """The next of the wordings whose every part was said."""
        fitting = tuple(wording for wording in wordings if all(parts.get(part) for part in _parts(wording)))
        if not fitting:
            return None
        self._told[fitting] += 1
        return fitting[(self._told[fitting] - 1) % len(fitting)].format_map(parts)

    def _single(self, step: Step) -> str | None:
        """A single that says where it stands and what it is, and says that once."""
        reason = step.reason
        if reason is None or reason.name.value not in SINGLES or len(step.effects) != 1:
            return None
        (effect,) = step.effects
        said = {slot.word for slot in reason.slots}
        house = reason.slot("in")
        if not isinstance(effect, Placement) or said - {"in"}:
            return None
        parts = {
            "cell": _cell(effect.cell.value) if effect.cell else "",
            "digit": str(effect.digit.value) if effect.digit else "",
            "in": _houses(house.values) if house else "",
        }
        told = {part for part, words in parts.items() if words}
        return self._next([wording for wording in SINGLES[reason.name.value] if set(_parts(wording)) == told], parts)

    def _marking(self, marking: Marking) -> str:
        return self._next(MARKINGS, {}) or ""

    def _clause(self, reason: Reason) -> str:
        name = reason.name.value
        title = " ".join(TITLES.get(word, word) for word in name.split())
        parts: dict[str, str | None] = {slot.word or "digits": _values(slot) for slot in reason.slots if slot.word != ":"}
        parts |= {"name": title, "a_name": _a(title), "links": _chain(reason), "facts": _facts(reason)}
        counted = reason.slot("on") or reason.slot("")
        if counted is not None:
            parts["plural"] = _listed([f"{value}s" for value in _bare(counted) if isinstance(value, int)])
        fins = reason.slot("fins")
        if fins is not None:
            parts["fins"] = f"{'fins' if len(fins.values) > 1 else 'a fin'} at {_cells(fins.values)}"
        kind = _kind(name)
        # One cell or one digit "are" no pair.
        if kind in ("naked", "hidden") and any(len(slot.values) < 2 for slot in reason.slots if slot.word != "in"):
            return _named(reason, title)
        return self._next(CLAUSES.get(kind, ()), parts) or _named(reason, title)

    def _effect(self, effect: Effect) -> str:
        if isinstance(effect, Unsaid):
            return self._next(UNSAID, {}) or ""
        if isinstance(effect, Placement):
            cell = _cell(effect.cell.value) if effect.cell else "one cell"
            digit = str(effect.digit.value) if effect.digit else "settled"
            return self._next(PLACEMENTS[: 1 if effect.digit is None else None], {"cell": cell, "digit": digit}) or ""
        whole: Sequence[str] = REMOVALS if isinstance(effect, Removal) else RESTS
        if isinstance(effect, Removal):
            cells = _cells(effect.cells)
        else:
            cells = f"the rest of {_house(effect.house.value) if effect.house else 'the house'}"
        parts = {"cells": cells, "digits": _digits(effect.digits), "or_digits": _digits(effect.digits, "or")}
        if not effect.digits:
            return self._next(SOMETHING if cells else ANYTHING, parts) or ""
        return self._next(whole if cells else FROM_SOMEWHERE, parts) or ""


def _parts(wording: str) -> list[str]:
    return re.findall(r"\{(\w+)\}", wording)


def _kind(name: str) -> str:
    """The key in CLAUSES: patterns of one family are told alike."""
    if name in SINGLES:
        return name
    first = name.split()[0]
    return first if first in CLAUSES else "fish" if name in ("x-wing", "swordfish", "jellyfish") else name


def _joint(reason: Reason) -> str:
    """What leads from the reason to its effects. A chain from a "not" leaves two cases, whichever of them is true."""
    if not reason.name.value.endswith("chain"):
        return ", so"
    first = reason.slots[0].values[0].value if _chain(reason) is not None else None
    return ". By this chain," if first is None or (isinstance(first, Link) and first.holds) else ". Either way,"


def _a(noun: str) -> str:
    return f"{'an' if noun[0] in 'aeiouX' else 'a'} {noun}"


def _together(effects: Sequence[str]) -> str:
    """A comma would join the names at the end of one with those at the beginning of the next."""
    return "; also ".join(effects)


def _named(reason: Reason, title: str) -> str:
    """A reason by its name and whatever parts were said."""
    prepositions = {"": "of", ":": "through", "cover": "covered by", "fins": "with fins at", "pivot": "with its pivot at"}
    prepositions["wings"] = "with wings at"
    parts = [f"{prepositions.get(slot.word, slot.word)} {_turns(slot)}" for slot in reason.slots]
    kind = _kind(reason.name.value)
    if kind in ("pointing", "claiming"):
        title += " pattern"
    return " ".join([f"note the {title}" if kind in ("naked", "hidden") else f"there is {_a(title)}", *parts])


def _turns(slot: Slot) -> str:
    kinds = {type(said.value) for said in slot.values if said.value is not None}
    if kinds == {Cell, int}:
        return _listed([_cell(v) if isinstance(v, Cell) else "something" if v is None else str(v) for v in _bare(slot)])
    return _values(slot)


def _bare(slot: Slot) -> list[Any]:
    return [said.value for said in slot.values]


def _facts(reason: Reason) -> str | None:
    first = reason.slots[0].values[0].value if reason.slots else None
    if not isinstance(first, CellFact | PlaceFact):
        return None
    facts = _bare(reason.slots[0])
    cells = [str(fact.cell) for fact in facts if isinstance(fact, CellFact)]
    said = [f"the candidates of {_listed(cells)}"] if cells else []
    return _listed([*said, *(_fact(fact) for fact in facts if not isinstance(fact, CellFact))])


def _chain(reason: Reason) -> str | None:
    """A chain link by link, as far as all of it was said."""
    slot = reason.slot(":") or reason.slot("")
    values = _bare(slot) if slot else []
    if None in values or len(values) < 2:
        return None
    if reason.name.value == "chain":
        return _if_then(list(map(_link, values)))
    if reason.name.value == "x-chain":
        on = reason.slot("on")
        digit = on.values[0].value if on and len(on.values) == 1 else None
        if digit is None:
            return None
        return _if_then([f"{_cell(cell)} is {'' if at % 2 else 'not '}{digit}" for at, cell in enumerate(values)])
    if reason.name.value == "xy-chain" and _by_turns(values):
        cells, digits = values[1::2], values[2::2]
        follow = [f"{_cell(cell)} is {digit}" for cell, digit in zip(cells[1:], digits[1:])]
        return _if_then([f"{_cell(cells[0])} is not {values[0]}", f"it is {digits[0]}", *follow])
    return None


def _by_turns(values: Sequence[object]) -> bool:
    return len(values) % 2 == 1 and all(isinstance(value, Cell if at % 2 else int) for at, value in enumerate(values))


def _if_then(links: Iterable[str]) -> str:
    first, second, *rest = links
    return "; ".join([f"if {first}, then {second}", *(f"then {link}" for link in rest)])
