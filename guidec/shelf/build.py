"""A folder of notes and a place for the site -> the site, rebuilt as far as something changed, and a report.

settings   `shelf.yaml`                                    guidec.shelf.settings
notes      the folder -> notes and their pictures          guidec.shelf.inputs
sort       against what the last build left: what is to be made, what stays, what goes
make       each note by itself, anywhere                   guidec.shelf.unit, guidec.shelf.run
judge      drafts, errors, two notes of one title          guidec.shelf.judge
share      the entries -> the pages that guides share      guidec.shelf.site
place      the new site for the old, in one move           guidec.shelf.store
"""

from __future__ import annotations

import json
import tempfile
from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import Executor
from contextlib import AbstractContextManager
from dataclasses import asdict, dataclass, field, replace
from pathlib import Path
from typing import Any

from guidec.collector import paused
from guidec.messages.data import as_data
from guidec.messages.diagnostic import diagnose
from guidec.rules.finding import Finding
from guidec.shelf import inputs, site
from guidec.shelf.entry import Entry
from guidec.shelf.judge import Judge
from guidec.shelf.pages.cells import Change
from guidec.shelf.run import results
from guidec.shelf.settings import NAME as SETTINGS
from guidec.shelf.settings import Settings, read
from guidec.shelf.state import GuideState, NoteState, Stamp, State, program
from guidec.shelf.store import Place
from guidec.shelf.unit import Job, Made
from guidec.source import Source, Span

__all__ = ["Options", "Report", "build"]

Row = dict[str, Any]
Workers = Callable[[], AbstractContextManager[tuple[Executor | None, int]]]


@dataclass(frozen=True, slots=True)
class Options:
    """What a call may choose. `workers`: opens the executor, when there is something to do.

    `said`: told (done, of how many, the note) as notes are made. `waiting`: called where another build is waited
    for.
    """

    workers: Workers
    leave_drafts: bool = False
    pdf: bool = True
    said: Callable[[int, int, str], None] = field(default=lambda done, all_, note: None, repr=False)
    waiting: Callable[[], None] = field(default=lambda: None, repr=False)


@dataclass(slots=True)
class Report:
    """What a build did. `diagnostics`: by note, those of `shelf.yaml` under its name; `drafts`: left out.

    `made`, `gone`: guides made anew and taken away; `stayed`: guides of notes that were not touched; `old`: notes
    of which an older page stays; `wrote`: shared files written; `undated`: guides that the feed leaves out.
    """

    settings: Settings
    diagnostics: dict[str, tuple[Row, ...]] = field(default_factory=dict)
    made: list[str] = field(default_factory=list)
    stayed: int = 0
    gone: list[str] = field(default_factory=list)
    old: list[str] = field(default_factory=list)
    drafts: list[str] = field(default_factory=list)
    wrote: int = 0
    undated: int = 0
    guides: int = 0
    stopped: bool = False

    @property
    def errors(self) -> int:
        """How many errors there are in all."""
        return sum(one["severity"] == "error" for rows in self.diagnostics.values() for one in rows)


@dataclass(frozen=True, slots=True)
class _Note:
    """A note as it lies there. `pictures`: path, digest, size, time."""

    name: str
    data: bytes
    pictures: tuple[tuple[str, str, int, int], ...]
    key: str

    @property
    def source(self) -> str:
        return inputs.digest(self.data)


def build(folder: inputs.Folder, place: Place, options: Options) -> Report:
    """Build or rebuild the site. Raises `edge.write.RefusedError`, with the old site left as it was."""
    settings, found = _settings(folder)
    report = Report(settings)
    if found:
        report.diagnostics[SETTINGS] = found
    if report.errors:
        report.stopped = True
        return report
    home = folder if settings.notes == "." else folder.below(settings.notes)
    with place.turn(options.waiting):
        with paused():
            before = place.state()
        _Build(folder, home, place, options, report, before).run()
    return report


def _settings(folder: inputs.Folder) -> tuple[Settings, tuple[Row, ...]]:
    data = folder.read(SETTINGS)
    if data is None:
        return Settings(folder.title or "Shelf"), ()
    source = Source.of(SETTINGS, data.decode("utf-8", errors="replace"))
    settings, findings = read(source, folder.title or "Shelf")
    return settings, tuple(as_data(one) for one in diagnose(source, findings))


class _Build:
    """One build under way: what it reads, where it writes, what it has so far."""

    def __init__(
        self,
        folder: inputs.Folder,
        home: inputs.Folder,
        place: Place,
        options: Options,
        report: Report,
        before: State | None,
    ) -> None:
        self.folder, self.home, self.place, self.options, self.report = folder, home, place, options, report
        self.settings = report.settings
        self.before = before or State()
        self.first = before is None
        self.frame = site.frame(self.settings)
        self.pdf = self.settings.pdf and options.pdf
        leave = options.leave_drafts or self.settings.drafts == "leave-out"
        self.judge = Judge(self.settings.errors, "leave-out" if leave else "refuse")
        self.after = State()

    def run(self) -> None:
        own_pages = self._own_pages()
        notes = list(self._notes())
        stays = self._staying(notes)
        self.after.inputs = self._digest(own_pages)
        if not notes:
            self._say(self.home.title, "B113", folder=self.home.title)
        if len(stays) == len(notes) and self._unchanged({one.name for one in notes}):
            self._report_stayed(stays)
            return
        self.place.begin()
        for one in notes:
            if one.name in stays:
                self._take_over(self.before.notes[one.name])
        self._make([one for one in notes if one.name not in stays])
        with paused():
            self._share(own_pages)
            self.place.finish(self.after, None if self.first else self.before)

    # ------------------------------------------------------------ what there is

    def _notes(self) -> Iterator[_Note]:
        settings = self.settings
        pages = settings.pages if settings.notes == "." else ()
        for name in inputs.note_names(self.home, settings.leave_out, pages):
            data = self.home.read(name)
            if data is None:
                continue
            known = self.before.notes.get(name)
            same = known is not None and known.source == inputs.digest(data)
            shown = tuple(one[0] for one in known.pictures) if known and same else inputs.shown(name, data)
            old = {one[0]: one for one in known.pictures} if known else {}
            pictures = tuple(self._picture(name, path, old.get(path)) for path in shown)
            yield _Note(name, data, pictures, self._key(name, data, pictures))

    def _picture(self, note: str, path: str, old: tuple[str, str, int, int] | None) -> tuple[str, str, int, int]:
        """A picture's digest; not read anew where size and time are those of the last build."""
        stamp = inputs.picture_stamp(self.home, note, path)
        if old and stamp and (old[2], old[3]) == stamp:
            return old
        data = inputs.picture(self.home, note, path)
        size, time = stamp or (0, 0)
        return path, inputs.digest(data) if data is not None else "", size, time

    def _key(self, name: str, data: bytes, pictures: tuple[tuple[str, str, int, int], ...]) -> str:
        made_of = [
            program(),
            asdict(self.frame),
            self.pdf,
            name,
            inputs.digest(data),
            [one[:2] for one in pictures],
        ]
        return inputs.digest(json.dumps(made_of).encode())

    def _own_pages(self) -> Mapping[str, str]:
        found: dict[str, str] = {}
        for name in self.settings.pages:
            data = self.folder.read(name)
            if data is None:
                self._say(SETTINGS, "B114", page=name)
            elif site.taken(name):
                self._say(SETTINGS, "B114", variant="clash", page=name)
            else:
                found[name] = data.decode("utf-8", errors="replace")
        return found

    def _digest(self, own_pages: Mapping[str, str]) -> str:
        return inputs.digest(json.dumps([program(), asdict(self.settings), dict(own_pages)]).encode())

    # ------------------------------------------------------------ what stays

    def _stays(self, note: _Note) -> bool:
        known = self.before.notes.get(note.name)
        if known is None or known.key != note.key or known.policy != self.judge.policy(known.outcome):
            return False
        guide = self.before.guides.get(known.slug) if known.slug else None
        return guide is None or self._intact(f"guides/{known.slug}/", guide.files)

    def _staying(self, notes: list[_Note]) -> set[str]:
        """The notes that nothing is to be done for. One whose folder another has, only while that one stays."""
        same = {one.name for one in notes if self._stays(one)}
        holders = {known.slug for name, known in self.before.notes.items() if name in same and known.slug}
        return {name for name in same if self.before.notes[name].policy_slug in {None, *holders}}

    def _intact(self, prefix: str, files: Mapping[str, Stamp]) -> bool:
        return all(self.place.intact(prefix + name, stamp) for name, stamp in files.items())

    def _unchanged(self, names: set[str]) -> bool:
        before = self.before
        same = not self.first and before.inputs == self.after.inputs and before.notes.keys() == names
        return same and self._intact("", before.shared)

    def _report_stayed(self, names: set[str]) -> None:
        for name in sorted(names):
            self._tell(self.before.notes[name])
        self.report.stayed = self.report.guides = len(self.before.guides)
        self.report.undated = sum(not one.entry.date for one in self.before.guides.values())

    def _take_over(self, known: NoteState) -> None:
        self.after.notes[known.note] = known
        self._tell(known)
        if known.slug:
            self._keep(known.slug)
            self.report.stayed += 1

    def _keep(self, slug: str) -> None:
        guide = self.before.guides[slug]
        for name, stamp in guide.files.items():
            self.place.keep(f"guides/{slug}/{name}", stamp)
        self.after.guides[slug] = guide

    def _tell(self, known: NoteState) -> None:
        if known.diagnostics:
            self.report.diagnostics[known.note] = known.diagnostics
        if known.outcome == "draft" and self.judge.drafts == "leave-out":
            self.report.drafts.append(known.note)
        if known.outcome != "made" and known.slug:
            self.report.old.append(known.note)

    # ------------------------------------------------------------ what is made

    def _make(self, notes: list[_Note]) -> None:
        if not notes:
            return
        by_name = {one.name: one for one in notes}
        with self.options.workers() as (executor, workers):
            jobs = (self._job(one) for one in notes)
            for done, (job, made) in enumerate(results(jobs, executor, workers), 1):
                self.options.said(done, len(notes), job.note)
                self._place(by_name[job.note], made)

    def _job(self, note: _Note) -> Job:
        found = (
            (path, inputs.picture(self.home, note.name, path)) for path, digest, *_ in note.pictures if digest
        )
        pictures = tuple((path, data) for path, data in found if data is not None)
        return Job(note.name, note.data, pictures, self.frame, self.pdf)

    def _place(self, note: _Note, made: Made | str) -> None:
        verdict = self.judge(note.name, made, self._holder(made))
        if verdict.ousts:
            self._oust(verdict.ousts, note.name)
        slug = None
        if verdict.publish and isinstance(made, Made) and made.entry:
            slug = made.entry.slug
            self._publish(note, made, made.entry)
        elif verdict.keep_old:
            slug = self._old(note.name)
        state = NoteState(
            note=note.name,
            key=note.key,
            source=note.source,
            pictures=note.pictures,
            outcome=verdict.outcome,
            policy=self.judge.policy(verdict.outcome),
            policy_slug=verdict.wanted,
            slug=slug,
            diagnostics=verdict.diagnostics,
        )
        self.after.notes[note.name] = state
        self._tell(state)

    def _holder(self, made: Made | str) -> str | None:
        """The note that has the folder of this guide so far."""
        slug = made.entry.slug if isinstance(made, Made) and made.entry else None
        guide = self.after.guides.get(slug) if slug else None
        return guide.entry.note if guide else None

    def _publish(self, note: _Note, made: Made, entry: Entry) -> None:
        files = {name: self.place.put(f"guides/{entry.slug}/{name}", data) for name, data in made.files.items()}
        self.after.guides[entry.slug] = GuideState(entry, note.source, files)
        self.report.made.append(entry.slug)

    def _old(self, name: str) -> str | None:
        """The older guide of a note, kept if it is there and whole."""
        known = self.before.notes.get(name)
        slug = known.slug if known else None
        guide = self.before.guides.get(slug) if slug else None
        if not slug or not guide or slug in self.after.guides:
            return None
        if not self._intact(f"guides/{slug}/", guide.files):
            return None
        self._keep(slug)
        return slug

    def _oust(self, loser: str, winner: str) -> None:
        """Take back the guide of a note whose folder belongs to another."""
        known = self.after.notes[loser]
        assert known.slug
        del self.after.guides[known.slug]
        self.place.drop(f"guides/{known.slug}")
        if known.slug in self.report.made:
            self.report.made.remove(known.slug)
        else:
            self.report.stayed -= 1
        verdict = self.judge.clash(loser, known.diagnostics, winner, known.slug)
        self.after.notes[loser] = replace(
            known,
            outcome="clash",
            policy=self.judge.policy("clash"),
            policy_slug=known.slug,
            slug=None,
            diagnostics=verdict.diagnostics,
        )
        self._tell(self.after.notes[loser])

    # ------------------------------------------------------------ what is shared

    def _share(self, own_pages: Mapping[str, str]) -> None:
        before, after = self.before, self.after
        after.changes = self._changes()
        entries = [guide.entry for guide in after.guides.values()]
        was = None if self.first else [guide.entry for guide in before.guides.values()]
        with tempfile.TemporaryDirectory(prefix="guidec-") as folder:
            data_files = self._data(entries, was, Path(folder))
            sizes = {name: path.stat().st_size for name, path in data_files.items()}
            for name, data in site.shared(entries, self.settings, after.changes, own_pages, sizes).items():
                self._put_shared(name, data)
            for name, path in data_files.items():
                self._put_shared(name, path.read_bytes())
        self.report.gone = sorted(before.guides.keys() - after.guides.keys())
        self.report.guides = len(after.guides)
        self.report.undated = sum(not one.date for one in entries)

    def _data(self, entries: list[Entry], was: list[Entry] | None, folder: Path) -> dict[str, Path]:
        """The data files, one at a time in memory at most; those of the last build serve where they are whole."""
        from guidec.shelf.catalogue import names, write_data  # here, not above: SQLite is not needed without

        known = {name: stamp for name, stamp in self.before.shared.items() if name in names()}
        same = self.before.inputs == self.after.inputs and known.keys() >= set(names())
        old = self.place.here() if same and self._intact("", known) else None
        made = write_data(entries, folder, before=was, old=old, parquet=self.settings.parquet)
        return {name: folder / name for name in made}

    def _put_shared(self, name: str, data: bytes) -> None:
        """Write a file, or keep it where it is the same as before."""
        old = self.before.shared.get(name)
        if old and old[2] == inputs.digest(data) and self.place.intact(name, old):
            self.after.shared[name] = self.place.keep(name, old)
        else:
            self.after.shared[name] = self.place.put(name, data)
            self.report.wrote += 1

    def _changes(self) -> tuple[Change, ...]:
        """What became of each guide since the last build; what was said last where nothing did."""
        if self.first:
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

    def _say(self, where: str, code: str, *, variant: str = "", **facts: Any) -> None:
        finding = Finding.at(code, Span(0, 0), variant=variant, **facts)
        rows = tuple(as_data(one) for one in diagnose(Source(where, ""), [finding]))
        self.report.diagnostics[where] = (*self.report.diagnostics.get(where, ()), *rows)
