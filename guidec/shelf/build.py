"""A folder of notes and a place for the site -> the site, rebuilt as far as something changed, and a report.

settings   `shelf.yaml`                                    guidec.shelf.settings
look       the folder -> notes and their pictures          guidec.shelf.look
sort       against what the last build left: what is to be made, what stays, what goes
make       each note by itself, anywhere                   guidec.shelf.unit, guidec.shelf.run
judge      drafts, errors, two notes of one title          guidec.shelf.judge, guidec.shelf.guides
share      the entries -> what the guides share            guidec.shelf.share, guidec.shelf.site
place      the new site for the old, in one move           guidec.shelf.store
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from concurrent.futures import Executor
from contextlib import AbstractContextManager
from dataclasses import asdict, field
from typing import Any

from guidec.collector import paused
from guidec.messages.data import as_data
from guidec.messages.diagnostic import diagnose
from guidec.quick import dataclass
from guidec.rules.finding import Finding
from guidec.shelf import inputs, site
from guidec.shelf.guides import Guides, whole
from guidec.shelf.judge import Judge
from guidec.shelf.look import Note, Notes
from guidec.shelf.report import Report
from guidec.shelf.run import results
from guidec.shelf.settings import NAME as SETTINGS
from guidec.shelf.settings import settings_of
from guidec.shelf.share import Shared
from guidec.shelf.state import State, program
from guidec.shelf.store import Place
from guidec.source import Source, Span

__all__ = ["Options", "Report", "build"]

Workers = Callable[[int], AbstractContextManager[tuple[Executor | None, int]]]


@dataclass(frozen=True, slots=True)
class Options:
    """What a call may choose. `workers`: opens the executor for so many notes, when there are any.

    `said`: told (done, of how many, the note) as notes are made. `waiting`: called where another build is waited
    for.
    """

    workers: Workers
    leave_drafts: bool = False
    pdf: bool = True
    said: Callable[[int, int, str], None] = field(default=lambda done, all_, note: None, repr=False)
    waiting: Callable[[], None] = field(default=lambda: None, repr=False)


def build(folder: inputs.Folder, place: Place, options: Options) -> Report:
    """Build or rebuild the site. Raises `edge.write.RefusedError`, with the old site left as it was."""
    settings, found = settings_of(folder)
    report = Report(settings)
    if found:
        report.diagnostics[SETTINGS] = tuple(as_data(one) for one in found)
    if report.errors:
        report.stopped = True
        return report
    home = folder if settings.notes == "." else folder.below(settings.notes)
    with place.turn(options.waiting):
        with paused():
            before = place.state()
        _Build(folder, home, place, options, report, before).run()
    return report


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
        self.folder, self.place, self.options, self.report = folder, place, options, report
        self.settings = report.settings
        self.before = before or State()
        self.first = before is None
        self.notes = Notes(home, site.frame(self.settings), self.settings.pdf and options.pdf)
        leave = options.leave_drafts or self.settings.drafts == "leave-out"
        self.judge = Judge(self.settings.errors, "leave-out" if leave else "refuse")
        self.after = State()
        self.guides = Guides(place, self.judge, report, self.before, self.after)

    def run(self) -> None:
        own_pages = self._own_pages()
        notes = list(self.notes.look(self.settings, self.before.notes))
        stays = self._staying(notes)
        self.after.inputs = self._digest(own_pages)
        if not notes:
            title = self.notes.home.title
            self._say(title, "B113", folder=title)
        if len(stays) == len(notes) and self._unchanged({one.name for one in notes}):
            self._report_stayed(stays)
            return
        self.place.begin()
        for one in notes:
            if one.name in stays:
                self.guides.take_over(self.before.notes[one.name])
        self._make([one for one in notes if one.name not in stays])
        with paused():
            before = None if self.first else self.before
            self.report.wrote = Shared(self.place, self.settings, before, self.after).write(own_pages)
            self.place.finish(self.after, before)
        self.report.gone = sorted(self.before.guides.keys() - self.after.guides.keys())
        self._count(self.after)

    # ------------------------------------------------------------ what there is

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

    def _stays(self, note: Note) -> bool:
        known = self.before.notes.get(note.name)
        if known is None or known.key != note.key or known.policy != self.judge.policy(known.outcome):
            return False
        guide = self.before.guides.get(known.slug) if known.slug else None
        return guide is None or whole(self.place, f"guides/{known.slug}/", guide.files)

    def _staying(self, notes: list[Note]) -> set[str]:
        """The notes that nothing is to be done for. One whose folder another has, only while that one stays."""
        same = {one.name for one in notes if self._stays(one)}
        holders = {known.slug for name, known in self.before.notes.items() if name in same and known.slug}
        return {name for name in same if self.before.notes[name].policy_slug in {None, *holders}}

    def _unchanged(self, names: set[str]) -> bool:
        before = self.before
        same = not self.first and before.inputs == self.after.inputs and before.notes.keys() == names
        return same and whole(self.place, "", before.shared)

    def _report_stayed(self, names: set[str]) -> None:
        for name in sorted(names):
            self.guides.tell(self.before.notes[name])
        self.report.stayed = len(self.before.guides)
        self._count(self.before)

    def _count(self, state: State) -> None:
        self.report.guides = len(state.guides)
        self.report.undated = sum(not one.entry.date for one in state.guides.values())

    # ------------------------------------------------------------ what is made

    def _make(self, notes: list[Note]) -> None:
        if not notes:
            self.guides.take_files()
            return
        by_name = {one.name: one for one in notes}
        with self.options.workers(len(notes)) as (executor, workers):
            jobs = (self.notes.job(one) for one in notes)
            made = results(jobs, executor, workers, self.guides.take_files)
            for done, (job, one) in enumerate(made, 1):
                self.options.said(done, len(notes), job.note)
                self.guides.place_one(by_name[job.note], one)

    def _say(self, where: str, code: str, *, variant: str = "", **facts: Any) -> None:
        finding = Finding.at(code, Span(0, 0), variant=variant, **facts)
        rows = tuple(as_data(one) for one in diagnose(Source(where, ""), [finding]))
        self.report.diagnostics[where] = (*self.report.diagnostics.get(where, ()), *rows)
