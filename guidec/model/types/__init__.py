"""The model of a note: frozen typed values, each with the span it comes from.

Things, operations and actions refer to each other by id. Everything that a later phase wants to know of a note
is here: roles in an action, what it changes, and each need as the ways in which it can be served. What costs
least among the ways is not decided here (see `guidec.plan`).
"""

from __future__ import annotations

from guidec.model.types.actions import (
    Action,
    Effect,
    Need,
    RefitNote,
    Risk,
    Use,
)
from guidec.model.types.guide import (
    Guide,
    Meta,
    Recording,
    Subject,
    Verdict,
)
from guidec.model.types.operations import (
    After,
    Content,
    Crop,
    Drawn,
    Group,
    Hazard,
    Line,
    Lines,
    Operation,
    Pin,
    Prose,
    Shown,
    Supposed,
)
from guidec.model.types.said import (
    Heat,
    Measure,
    Ref,
    Time,
    Wait,
)
from guidec.model.types.things import (
    Adhesive,
    Amount,
    Battery,
    Clip,
    Connector,
    FastenerNotation,
    Fastening,
    Part,
    ScrewSet,
    Solder,
    Supply,
    Thermal,
    Thing,
    Thread,
    Tool,
)
from guidec.model.types.words import (
    Change,
    Family,
    Kind,
    Reason,
    Reuse,
    Signal,
)
from guidec.trade.units import Quantity

__all__ = [
    "Action",
    "Adhesive",
    "After",
    "Amount",
    "Battery",
    "Change",
    "Clip",
    "Connector",
    "Content",
    "Crop",
    "Drawn",
    "Effect",
    "Family",
    "FastenerNotation",
    "Fastening",
    "Group",
    "Guide",
    "Hazard",
    "Heat",
    "Kind",
    "Line",
    "Lines",
    "Measure",
    "Meta",
    "Need",
    "Operation",
    "Part",
    "Pin",
    "Prose",
    "Quantity",
    "Reason",
    "Recording",
    "Ref",
    "RefitNote",
    "Reuse",
    "Risk",
    "ScrewSet",
    "Shown",
    "Signal",
    "Solder",
    "Subject",
    "Supply",
    "Supposed",
    "Thermal",
    "Thing",
    "Thread",
    "Time",
    "Tool",
    "Use",
    "Verdict",
    "Wait",
]
