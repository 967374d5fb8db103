"""A recording's transcript -> the first draft of a note, and stills from its video."""

from guidec.draft.draft import Drafted, draft

__all__ = ["Drafted", "draft"]
