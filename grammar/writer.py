"""A Path to its canonical text: ``read_path(write_path(path)) == path`` for every path without unread lines."""

from __future__ import annotations

import re
from collections.abc import Iterable

from .statements import (
    Blank,
    Effect,
    Grid,
    Marking,
    Path,
    Placement,
    Reason,
    Removal,
    Said,
    Say,
    Slot,
    Statement,
    Unread,
    Unsaid,
    digit_letter,
)
from .vocabulary import Cell


def write_path(path: Path) -> str:
    """The whole path, one statement a line, ended by a line feed. Unread lines are written as they stood."""
    lines: list[str] = []
    for entry in path.header:
        if isinstance(entry, Blank):
            lines.append(_with_comment("", entry.comment))
        elif isinstance(entry.value, Grid):
            lines.append(_with_comment("grid:", entry.comment))
            lines += write_grid(entry.value)
        else:
            lines.append(_with_comment(f"{entry.key}: {entry.value or ''}".rstrip(), entry.comment))
    lines.append(_with_comment("steps:", path.steps_comment))
    for statement in path.statements:
        lines += write_statement(statement)
    return "\n".join(lines) + "\n"


def write_grid(grid: Grid) -> list[str]:
    """The grid's rows, indented, with a gap between boxes."""
    size, width = grid.geometry.size, grid.geometry.box_width
    letters = [digit_letter(given.value) for given in grid.givens]
    rows = []
    for start in range(0, size * size, size):
        groups = ["".join(letters[at : at + width]) for at in range(start, start + size, width)]
        comment = grid.row_comments[start // size] if grid.row_comments else None
        rows.append(_with_comment("  " + " ".join(groups), comment))
    return rows


def write_statement(statement: Statement) -> list[str]:
    """One statement: one line, or several for a marking with a drawn block."""
    if isinstance(statement, Blank):
        return [_with_comment("", statement.comment)]
    if isinstance(statement, Unread):
        return [_with_comment(statement.text, statement.comment)]
    head = (f"{statement.number}. " if statement.number is not None else "") + write_time(statement.time)
    if isinstance(statement, Say):
        return [_with_comment(f"{head}say: {statement.text}".rstrip(), statement.comment)]
    if isinstance(statement, Marking):
        return [_with_comment(head + "mark candidates", statement.comment), *_write_drawn(statement)]
    text = head + "; ".join(map(write_effect, statement.effects))
    if statement.reason is not None:
        text += " because " + write_reason(statement.reason)
    return [_with_comment(text, statement.comment)]


def write_time(time: float | None) -> str:
    """``[0:42] `` or ``[1:02:03.5] ``, or nothing."""
    if time is None:
        return ""
    thousandths = round(time * 1000)
    minutes, rest = divmod(thousandths, 60_000)
    seconds = f"{rest // 1000:02d}" + (f".{rest % 1000:03d}".rstrip("0") if rest % 1000 else "")
    hours, minutes_left = divmod(minutes, 60)
    return f"[{hours}:{minutes_left:02d}:{seconds}] " if hours else f"[{minutes}:{seconds}] "


def write_effect(effect: Effect) -> str:
    """One effect in the path language's words."""
    if isinstance(effect, Unsaid):
        return "..."
    if isinstance(effect, Placement):
        cell = str(effect.cell.value) if effect.cell else "?"
        return f"{cell} = {effect.digit.value if effect.digit else '?'}"
    digits = _join(effect.digits)
    if isinstance(effect, Removal):
        return f"{_join(effect.cells)} not {digits}"
    return f"rest of {effect.house.value if effect.house else '?'} not {digits}"


def write_reason(reason: Reason) -> str:
    """The reason, its parts in the order they stand in."""
    return " ".join([reason.name.value, *map(_write_slot, reason.slots)]).replace(" :", ":")


def _write_slot(slot: Slot) -> str:
    if slot.word:
        return f"{slot.word} {_join(slot.values)}"
    first = slot.values[0].value
    if isinstance(first, int) or first is None or isinstance(first, Cell):
        return _join(slot.values)
    links = hasattr(first, "holds")
    return (" then " if links else ", ").join(str(said.value) for said in slot.values)


def _join(values: Iterable[Said[object]]) -> str:
    return " ".join("?" if said.value is None else str(said.value) for said in values) or "?"


def _write_drawn(marking: Marking) -> Iterable[str]:
    for number, row in enumerate(marking.drawn):
        separator = "," if len(row) > 9 else ""
        words = [separator.join(map(str, sorted(cell.value))) or "." for cell in row]
        comment = marking.row_comments[number] if marking.row_comments else None
        yield _with_comment("  " + " ".join(words), comment)


def _with_comment(text: str, comment: str | None) -> str:
    if comment is None:
        return text
    return re.sub(r"^ +$", "", text) + ("  " if text else "") + f"# {comment}".rstrip()
