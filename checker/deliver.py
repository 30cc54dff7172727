"""How results and complaints leave the program: whole or not at all, and quietly where nobody reads on."""

from __future__ import annotations

import os
import sys
from pathlib import Path as FilePath

import click


def complain(message: str) -> None:
    """One line on standard error."""
    click.echo(f"stepwarrant: {message}", err=True)


def wants_colour(output: str | None) -> bool:
    """Does the result go to a terminal that shows colour, and to a person who wants it?"""
    return output is None and sys.stdout.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def deliver(result: str | bytes, output: str | None = None) -> None:
    """Write a result to standard output, or whole to a file. Raises OSError, naming which, where that cannot be done."""
    content = result.encode("utf-8") if isinstance(result, str) else result
    if output is None:
        try:
            sys.stdout.flush()
            sys.stdout.buffer.write(content)
            sys.stdout.flush()
        except BrokenPipeError:
            close_quietly()
        except OSError as error:
            raise OSError(error.errno, error.strerror or str(error), "standard output") from error
        return
    try:
        target = FilePath(output)
        if target.exists() and not target.is_file():
            # A device, a pipe or a folder: nothing may take its place.
            with target.open("wb") as stream:
                stream.write(content)
        else:
            _put_in_place(content, target.resolve())
    except OSError as error:
        raise OSError(error.errno, error.strerror or str(error), output) from error


def _put_in_place(content: bytes, target: FilePath) -> None:
    """By way of a neighbour that takes the file's place, so that no half of it is ever there and none is left behind."""
    import tempfile

    with tempfile.NamedTemporaryFile("wb", dir=target.parent, delete=False) as beside:
        neighbour = FilePath(beside.name)
        try:
            beside.write(content)
            beside.close()
            umask = os.umask(0)
            os.umask(umask)
            neighbour.chmod(0o666 & ~umask)
            neighbour.replace(target)
        except BaseException:
            neighbour.unlink(missing_ok=True)
            raise


def close_quietly() -> None:
    """The reader went away: say nothing more, also not when Python flushes at exit."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
