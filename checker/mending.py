"""A file with repairs made in it: the text, the patch that makes it, and the writing, whole or not at all."""

from __future__ import annotations

import difflib
import os
import re
import tempfile
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path as FilePath
from typing import NamedTuple

from .findings import Finding
from .places import Change
from .report import Report, Unusable
from .weighing import Repair

ROUNDS = 100
"""How often a text is mended and audited again."""

Choose = Callable[[Report, Finding], Repair | None]
"""The repair to make for a finding that has none that is safe, if any."""


class Mended(NamedTuple):
    """What became of a text: the text now, what was changed in it, and the audit of it as it is now."""

    text: str
    made: tuple[Repair, ...]
    report: Report


def mend(text: str, audited: Callable[[str], Report], choose: Choose | None = None) -> Mended:
    """Make one repair after the other, the first in the file first: each may cure what comes after it.

    The safe ones come first, unasked; then, one finding at a time, those that ``choose`` picks.
    """
    made: list[Repair] = []
    report = audited(text)
    while len(made) < ROUNDS:
        repair = next(filter(None, map(_safe, report.findings)), None)
        if repair is None and choose is not None:
            repair = next(filter(None, (choose(report, finding) for finding in report.findings)), None)
        if repair is None:
            break
        text = applied(text, repair.changes)
        made.append(repair)
        report = audited(text)
    return Mended(text, tuple(made), report)


def _safe(finding: Finding) -> Repair | None:
    return next((repair for repair in finding.repairs if repair.applies == "safe"), None)


def applied(text: str, changes: Iterable[Change]) -> str:
    """The text with the changes made, its line ends as they were."""
    mark = "\ufeff" if text.startswith("\ufeff") else ""
    # Lines, each followed by its end; the last has none.
    parts = re.split(r"(\r\n|\n|\r)", text.removeprefix("\ufeff"))
    usual = parts[1] if len(parts) > 1 else "\n"
    for (number, column, end), _, new in sorted(changes, reverse=True):
        line = parts[2 * number - 2]
        parts[2 * number - 2] = line[: column - 1] + new.replace("\n", usual) + line[end - 1 :]
    return mark + "".join(parts)


def patch(name: str, before: str, after: str) -> str:
    """What ``git apply`` and ``patch -p1`` take in the folder that ``base`` names."""
    if before == after:
        return ""
    shown = os.path.relpath(FilePath(name).resolve(), base(name)).replace(os.sep, "/")
    diff = difflib.unified_diff(_lines(before), _lines(after), _quoted(f"a/{shown}"), _quoted(f"b/{shown}"))
    return "".join(line if line.endswith("\n") else f"{line}\n\\ No newline at end of file\n" for line in diff)


def base(name: str) -> FilePath:
    """The folder in which the patch of a file is to be applied: this one if the file is below it, else the top of the file's
    repository, or the folder that it is in: patches cannot name a file that is not below."""
    here, file = FilePath.cwd(), FilePath(name).resolve()
    if here in file.parents:
        return here
    return next((folder for folder in file.parents if (folder / ".git").exists()), file.parent)


def _lines(text: str) -> list[str]:
    return re.findall(r"[^\n]*\n|[^\n]+", text)


def _quoted(name: str) -> str:
    """As patches write names: in quotes where they have a quote or a control character, ended by a tab where a space is."""
    if re.search(r'["\\\x00-\x1f\x7f]', name):
        escaped = re.sub(r'["\\]', r"\\\g<0>", name)
        return '"' + re.sub(r"[\x00-\x1f\x7f]", lambda found: f"\\{ord(found[0]):03o}", escaped) + '"'
    return f"{name}\t" if " " in name else name


def write(name: str, before: bytes, after: bytes) -> None:
    """Put ``after`` in the place of a file that holds ``before``, whole or not at all.

    Raises Unusable where the file is read-only or holds something else by now, and OSError where it cannot be written.
    """
    target = FilePath(name).resolve()
    mode = target.stat().st_mode
    # A file may be replaced in a folder that can be written to, so a read-only one has to be asked for its own leave.
    if not mode & 0o222 or not os.access(target, os.W_OK):
        raise Unusable(f"{name}: read-only; nothing was written")
    with tempfile.NamedTemporaryFile("wb", dir=target.parent, prefix=f".{target.name}.", delete=False) as beside:
        try:
            beside.write(after)
            beside.flush()
            os.fchmod(beside.fileno(), mode & 0o7777)
            if target.read_bytes() != before:
                raise Unusable(f"{name}: changed while it was being audited; nothing was written")
            FilePath(beside.name).replace(target)
        except BaseException:
            FilePath(beside.name).unlink(missing_ok=True)
            raise


def remaining(report: Report) -> Sequence[Finding]:
    """What still asks for a hand."""
    return [finding for finding in report.findings if finding.severity != "note"]
