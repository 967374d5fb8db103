"""`guidec draft TRANSCRIPT -o NOTE.md`: the first draft of a note, from the words of a recording."""

from __future__ import annotations

import json
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import click
import yaml

from guidec.commands.common import format_option
from guidec.draft import Drafted, draft
from guidec.draft.merge import merged
from guidec.draft.note import Subject
from guidec.draft.stills import MissingDecoderError, UnreadableVideoError, illustrated
from guidec.draft.summary import as_data, as_text
from guidec.draft.transcript import UnreadableError
from guidec.draft.vocabulary import build
from guidec.edge.write import RefusedError, write_file

__all__ = ["command"]


@click.command()
@click.argument("transcript", type=click.Path(path_type=Path, allow_dash=True), metavar="TRANSCRIPT")
@click.option(
    "-o", "--out", type=click.Path(path_type=Path), help="The note to write; without it, the draft is printed."
)
@click.option(
    "--merge", is_flag=True, help="Where the note exists, add to it what is new, and change no line of it."
)
@click.option("--title", help="The note's title.")
@click.option("--maker", help="Who made the device.")
@click.option("--model", help="The device's model.")
@click.option("--kind", help="What sort of device it is.")
@click.option(
    "--lexicon", type=click.Path(path_type=Path), help="A YAML file of trade words, beside those that are known."
)
@click.option(
    "--video", type=click.Path(path_type=Path), help="The recording: a still for each operation and part."
)
@format_option("text", "json")
def command(
    transcript: Path,
    out: Path | None,
    merge: bool,
    title: str | None,
    maker: str | None,
    model: str | None,
    kind: str | None,
    lexicon: Path | None,
    video: Path | None,
    format_: str,
) -> int:
    """Write the first draft of a note from the transcript of a recording.

    TRANSCRIPT is WebVTT, SubRip, text with time stamps or JSON lines; `-` is standard input. Every mark of the
    draft has a question mark, and the words it was made of beside it. A note that exists is never overwritten:
    the draft goes beside it, or, with --merge, what is new goes into it.
    """
    if video is not None and out is None:
        raise click.UsageError("`--video` needs `--out`: the stills are saved beside the note")
    try:
        drafted = draft(_bytes(transcript), Subject(title, maker, model, kind), _lexicon(lexicon))
    except UnreadableError as error:
        raise _wrong(
            f"`{transcript}`: {error}", "give WebVTT, SubRip, lines like `[1:02] words`, or JSON lines"
        ) from None
    said: list[str] = []
    place = _place(out, merge)
    if video is not None and place is not None:
        drafted, said = _stills(drafted, video, place)
    text, place, notes = _placed(drafted, out, place)
    if out is None:
        click.echo(text, nl=False)
    elif place is not None:
        _write(place, text)
    data = as_data(drafted) | {"note": str(place) if place else None, "said": [*notes, *said]}
    if format_ == "json" and out is not None:
        click.echo(json.dumps(data, ensure_ascii=False, indent=2))
    else:
        lines = "".join(f"{line}\n" for line in (*notes, *said))
        click.echo(lines + as_text(drafted), nl=False, err=out is None)
    return 0


def _bytes(path: Path) -> bytes:
    if str(path) == "-":
        return sys.stdin.buffer.read()
    try:
        return path.read_bytes()
    except OSError as error:
        raise _wrong(
            f"`{path}` cannot be read: {(error.strerror or str(error)).lower()}", "name a transcript"
        ) from None


def _lexicon(path: Path | None) -> Mapping[str, Any] | None:
    if path is None:
        return None
    try:
        loaded = yaml.safe_load(path.read_text(encoding="utf-8"))
        if not isinstance(loaded, dict):
            raise ValueError("it is no mapping")
        build(loaded)
    except (OSError, ValueError, TypeError, AttributeError, KeyError, yaml.YAMLError) as error:
        reason = str(error).splitlines()[0] if str(error) else type(error).__name__
        raise _wrong(f"`{path}` is no lexicon: {reason}", "see `docs/drafts.md` for its shape") from None
    return loaded


def _place(out: Path | None, merge: bool) -> Path | None:
    """Where the draft goes: the note asked for, or beside it where it exists and nothing is to be merged."""
    return _beside(out) if out is not None and out.exists() and not merge else out


def _placed(drafted: Drafted, out: Path | None, place: Path | None) -> tuple[str, Path | None, list[str]]:
    """The text to write, where, and what to say of it. A note that exists is never written over."""
    if out is None or place is None:
        return drafted.text, None, []
    if place != out:
        return drafted.text, place, [f"{out} exists and was left as it is; the draft is in {place}"]
    if not out.exists():
        return drafted.text, place, [f"{out}: written"]
    return _merged(drafted, out)


def _merged(drafted: Drafted, out: Path) -> tuple[str, Path | None, list[str]]:
    """The note with what is new."""
    try:
        old = out.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise _wrong(f"`{out}` cannot be read: {error}", "draft into another file") from None
    result = merged(old, drafted)
    notes = [f"{out}: {result.added} lines added, {result.known} known already"]
    notes += [f"left out, as it would contradict the note: {line}" for line in result.left_out]
    return result.text, out if result.added else None, notes


def _beside(out: Path) -> Path:
    """`note.draft.md`, `note.draft-2.md`, …: the first that is free."""
    number = 1
    while True:
        place = out.with_name(f"{out.stem}.draft{'' if number == 1 else f'-{number}'}{out.suffix or '.md'}")
        if not place.exists():
            return place
        number += 1


def _write(place: Path, text: str) -> None:
    try:
        place.parent.mkdir(parents=True, exist_ok=True)
        write_file(place, text.encode("utf-8"))
    except (RefusedError, OSError) as error:
        raise _wrong(f"`{place}` cannot be written", str(error)) from None


def _stills(drafted: Drafted, video: Path, out: Path) -> tuple[Drafted, list[str]]:
    """The draft with stills, a bar telling on a terminal how far it is."""
    bar = click.progressbar(length=1, label="stills", file=sys.stderr, hidden=not sys.stderr.isatty())
    try:
        with bar:
            return illustrated(drafted, video, out, lambda done, all_: _advance(bar, done, all_))
    except MissingDecoderError as error:
        raise _wrong(str(error), "install it with `pip install 'guidec[video]'`") from None
    except (UnreadableVideoError, OSError) as error:
        raise _wrong(f"`{video}`: {error}", "give the recording as a file that a player opens") from None


def _advance(bar: Any, done: int, all_: int) -> None:
    bar.length = all_
    bar.update(done - bar.pos)


def _wrong(words: str, help_: str) -> click.UsageError:
    return click.UsageError(f"{words}\n  = help: {help_}")
