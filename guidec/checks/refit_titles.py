"""Operations whose title says that the device is put together again -> those that are read as taking apart."""

from __future__ import annotations

from collections.abc import Iterator

from guidec.model.types import Guide, Operation
from guidec.plan import Graph
from guidec.rules.finding import Finding
from guidec.trade.deeds import patterns

__all__ = ["check", "meant_for_the_way_back"]


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """M222. The first operation is none of these: nothing is apart by then."""
    for operation in guide.operations:
        if meant_for_the_way_back(guide, operation):
            yield Finding.at(
                "M222",
                operation.heading.span,
                title=operation.title,
                mark=f"{operation.title} {{refit only}}",
            )


def meant_for_the_way_back(guide: Guide, operation: Operation) -> bool:
    """Whether an operation's title speaks of putting back, and its heading does not say so."""
    titled = patterns("putting_back", guide.meta.language)
    return not operation.refit_only and operation.number > 10 and titled.search(operation.title) is not None
