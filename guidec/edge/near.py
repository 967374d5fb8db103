"""A file name that is not there -> names in the same folder that may have been meant."""

from __future__ import annotations

from pathlib import Path

__all__ = ["near_files", "near_notes", "near_words"]


_CLOSE = 0.7
_NOTES = (".md", ".markdown", ".txt")


def near_notes(folder: Path, name: str) -> tuple[str, ...]:
    """Up to four notes of a folder whose names are close to `name`, nearest first."""
    stem = Path(name).stem.casefold()
    found = near_files(folder, name, _NOTES)
    return tuple(other for other in found if _alike(stem, Path(other).stem.casefold()) >= _CLOSE)


def _alike(one: str, other: str) -> float:
    from difflib import SequenceMatcher  # here, not above: only a mistyped name needs it

    return SequenceMatcher(None, one, other).ratio()


def near_files(folder: Path, name: str, suffixes: tuple[str, ...] = ()) -> tuple[str, ...]:
    """Up to four files of a folder whose names are close to `name`, nearest first; none where it is not there.

    `suffixes`: those that a file may have; any without.
    """
    try:
        names = sorted(entry.name for entry in folder.iterdir() if entry.is_file())
    except OSError:
        return ()
    names = [other for other in names if not suffixes or Path(other).suffix.casefold() in suffixes]
    stems = list(dict.fromkeys(Path(other).stem.casefold() for other in names))
    near = near_words(Path(name).stem, stems)
    return tuple(other for stem in near for other in names if Path(other).stem.casefold() == stem)[:4]


def near_words(word: str, words: list[str]) -> tuple[str, ...]:
    """Up to four of `words` close to `word`, nearest first; case does not count."""
    from difflib import get_close_matches  # here, not above: only a mistyped name needs it

    folded = {other.casefold(): other for other in words}
    return tuple(folded[near] for near in get_close_matches(word.casefold(), list(folded), n=4))
