"""What came of each note -> the guides of the new site: made, taken over from the old one, or left out."""

from __future__ import annotations

from collections.abc import Mapping

from guidec.quick import dataclass, replace
from guidec.shelf.entry import Entry
from guidec.shelf.judge import Judge
from guidec.shelf.look import Note
from guidec.shelf.report import Report
from guidec.shelf.state import GuideState, NoteState, Stamp, State
from guidec.shelf.store import Place
from guidec.shelf.unit import Made

__all__ = ["Guides", "whole"]


def whole(place: Place, prefix: str, files: Mapping[str, Stamp]) -> bool:
    """Whether all these files of the old site are still as they were written."""
    return all(place.intact(prefix + name, stamp) for name, stamp in files.items())


@dataclass(frozen=True, slots=True)
class Guides:
    """Puts guides in their place. `before`: what the last build left; `after`, `report`: what this one does."""

    place: Place
    judge: Judge
    report: Report
    before: State
    after: State

    def take_over(self, known: NoteState) -> None:
        """A note for which nothing is to be done; its files are taken over by `take_files`."""
        self.after.notes[known.note] = known
        self.tell(known)
        if known.slug:
            self._keep(known.slug)
            self.report.stayed += 1

    def take_files(self) -> None:
        """The files of all guides so far, from the old site."""
        for slug, guide in self.after.guides.items():
            self.place.keep_all(f"guides/{slug}", guide.files)

    def place_one(self, note: Note, made: Made | str) -> None:
        """A note and what came of it, or why nothing did."""
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
        self.tell(state)

    def tell(self, known: NoteState) -> None:
        """Put what became of a note into the report."""
        report = self.report
        if known.diagnostics:
            report.diagnostics[known.note] = known.diagnostics
        if known.outcome == "draft" and self.judge.drafts == "leave-out":
            report.drafts.append(known.note)
        elif not known.slug:
            report.out.append(known.note)
        if known.outcome != "made" and known.slug:
            report.old.append(known.note)

    def _keep(self, slug: str) -> None:
        self.after.guides[slug] = self.before.guides[slug]
        self.after.lines[slug] = self.before.lines[slug]

    def _holder(self, made: Made | str) -> str | None:
        """The note that has the folder of this guide so far."""
        slug = made.entry.slug if isinstance(made, Made) and made.entry else None
        guide = self.after.guides.get(slug) if slug else None
        return guide.entry.note if guide else None

    def _publish(self, note: Note, made: Made, entry: Entry) -> None:
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
        if not whole(self.place, f"guides/{slug}/", guide.files):
            return None
        self._keep(slug)
        self.place.keep_all(f"guides/{slug}", guide.files)
        return slug

    def _oust(self, loser: str, winner: str) -> None:
        """Take back the guide of a note whose folder belongs to another."""
        known = self.after.notes[loser]
        assert known.slug
        del self.after.guides[known.slug]
        self.after.lines.pop(known.slug, None)
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
        self.tell(self.after.notes[loser])
