"""The guides of a build and of the one before -> the files that guides share: written, or kept where they hold."""

from __future__ import annotations

from collections.abc import Mapping

from guidec.quick import dataclass
from guidec.shelf import inputs, site
from guidec.shelf.pages.cells import Change
from guidec.shelf.settings import Settings
from guidec.shelf.state import Stamp, State
from guidec.shelf.store import Place

__all__ = ["Shared"]


@dataclass(frozen=True, slots=True)
class Shared:
    """Writes them to a place. `before`: what the last build left, None where there was none.

    `after`: what this one leaves; its guides and inputs are there, and what is shared is put in.
    """

    place: Place
    settings: Settings
    before: State | None
    after: State

    def write(self, own_pages: Mapping[str, str]) -> int:
        """Write what changed. Gives how many files that are."""
        after = self.after
        after.changes = self._changes()
        data = self._data()
        wrote = sum(stamp != self._old(name) for name, stamp in data.items())
        after.shared |= data
        entries = [guide.entry for guide in after.guides.values()]
        sizes = {name: stamp[0] for name, stamp in data.items()}
        for file in site.shared(entries, self.settings, after.changes, own_pages, sizes):
            wrote += self._put(file)
        return wrote

    def _old(self, name: str) -> Stamp | None:
        return self.before.shared.get(name) if self.before else None

    def _data(self) -> dict[str, Stamp]:
        """The data files; those of the last build serve where they are whole."""
        from guidec.shelf.catalogue import names, write_data  # here, not above: SQLite is not needed without

        place, before = self.place, self.before
        entries = (guide.entry for guide in self.after.guides.values())
        was = None if before is None else [guide.entry for guide in before.guides.values()]
        stamps = {name: self._old(name) for name in names(parquet=self.settings.parquet)}
        whole = all(stamp and place.intact(name, stamp) for name, stamp in stamps.items())
        old = place.here() if self._same() and whole else None
        write_data(entries, place.room(), before=was, old=old, parquet=self.settings.parquet)
        return {name: place.written(name, stamp) for name, stamp in stamps.items()}

    def _same(self) -> bool:
        """Whether program and settings are those of the last build."""
        return self.before is not None and self.before.inputs == self.after.inputs

    def _put(self, file: site.File) -> bool:
        """Write a file, or keep it where it is the same as before. Gives whether it was written."""
        old = self._old(file.name)
        whole = old if old and self.place.intact(file.name, old) else None
        if file.shows:
            self.after.shows[file.name] = file.shows
        data = b"" if whole and self._shows_the_same(file) else file.make()
        if whole and (not data or whole[2] == inputs.digest(data)):
            self.after.shared[file.name] = self.place.keep(file.name, whole)
            return False
        self.after.shared[file.name] = self.place.put(file.name, data)
        return True

    def _shows_the_same(self, file: site.File) -> bool:
        """Whether the last build made it of the same, as far as that can be told without making it."""
        known = self.before.shows.get(file.name) if self.before and self._same() else None
        return bool(file.shows) and file.shows == known

    def _changes(self) -> tuple[Change, ...]:
        """What became of each guide since the last build; what was said last where nothing did."""
        if self.before is None:
            return ()
        old, new = self.before.guides, self.after.guides
        found = []
        for slug in sorted(old.keys() | new.keys()):
            was, now = old.get(slug), new.get(slug)
            if was and now and was.source == now.source:
                continue
            what = "revised" if was and now else "new" if now else "gone"
            entry = (now or old[slug]).entry
            before = was.entry.revision if was and now else None
            found.append(Change(what, slug, entry.title, entry.revision, before))
        return tuple(found) or self.before.changes
