"""A file name that is not there -> names in the same folder that may have been meant."""

from __future__ import annotations

from pathlib import Path

__all__ = ["near_files", "near_words"]


def near_files(folder: Path, name: str) -> tuple[str, ...]:
    """Up to four files of a folder whose names are close to `name`, nearest first; none where it is not there."""
    try:
        names = sorted(entry.name for entry in folder.iterdir() if entry.is_file())
    except OSError:
        return ()
    stems = list(dict.fromkeys(Path(other).stem.casefold() for other in names))
    near = near_words(Path(name).stem, stems)
    return tuple(other for stem in near for other in names if Path(other).stem.casefold() == stem)[:4]


def near_words(word: str, words: list[str]) -> tuple[str, ...]:
    """Up to four of `words` close to `word`, nearest first; case does not count."""
    from difflib import get_close_matches  # here, not above: only a mistyped name needs it

    folded = {other.casefold(): other for other in words}
    return tuple(folded[near] for near in get_close_matches(word.casefold(), list(folded), n=4))
