"""The common questions -> views of the SQLite catalogue, each with a word on what it answers."""

from __future__ import annotations

__all__ = ["VIEWS"]

VIEWS: tuple[tuple[str, str, str], ...] = (
    (
        "screws",
        "the threaded fasteners alone, with the guide's title",
        "SELECT f.*, g.title AS guide_title FROM fasteners f JOIN guides g ON g.id = f.guide "
        "WHERE f.kind = 'screw'",
    ),
    (
        "screws_by_drive",
        "how many single screws of each drive a guide has; a set without a count is one",
        "SELECT guide, drive, count(*) AS sets, sum(coalesce(count, 1)) AS screws FROM fasteners "
        "WHERE kind = 'screw' GROUP BY guide, drive",
    ),
    (
        "drivers_needed",
        "which guides need a driver, one row for each drive of a tool or of screws that only it fits",
        "SELECT guide, drive FROM tools WHERE drive IS NOT NULL UNION "
        "SELECT guide, drive FROM fasteners WHERE drive IS NOT NULL AND instr(drive, '|') = 0",
    ),
    (
        "routes_to",
        "the way to each part, with the part's name and class and the device",
        "SELECT r.*, p.name AS part_name, p.class, g.maker, g.model, g.year, g.title FROM routes r "
        "JOIN parts p ON p.guide = r.guide AND p.id = r.part JOIN guides g ON g.id = r.guide",
    ),
    (
        "route_tools",
        "the tools that each route takes in order, one a row",
        "SELECT r.guide, r.part, r.spares, each.key + 1 AS place, t.id AS tool, t.name, t.grade, t.drive FROM "
        "routes r, json_each(r.tools) each JOIN tools t ON t.guide = r.guide AND t.id = each.value",
    ),
    (
        "route_operations",
        "the operations of each route in the order to be done, one a row",
        "SELECT r.guide, r.part, r.spares, each.key + 1 AS place, o.id AS operation, o.title FROM routes r, "
        "json_each(r.operations) each JOIN operations o ON o.guide = r.guide AND o.id = each.value",
    ),
    (
        "holds",
        "what is held by what: each fastener and adhesive with each part it is said to hold",
        "SELECT f.guide, f.kind, f.id, f.name, each.value AS part FROM fasteners f, json_each(f.holds) each "
        "UNION ALL SELECT a.guide, 'adhesive', a.id, a.name, each.value FROM adhesives a, json_each(a.holds) each",
    ),
    (
        "renewals",
        "what has to be new when the device goes back together",
        "SELECT guide, renewal AS kind, id, name, strength AS type, amount FROM supplies "
        "WHERE renewal IS NOT NULL",
    ),
    (
        "batteries",
        "the batteries with their rating",
        "SELECT p.guide, p.id, p.name, p.qty, p.number, p.capacity_mah, p.voltage_v, p.energy_wh, g.maker, "
        "g.model, g.year FROM parts p JOIN guides g ON g.id = p.guide WHERE p.class = 'battery'",
    ),
    (
        "aliases",
        "earlier ids: what a thing, an operation or a guide was called before",
        " UNION ALL ".join(
            [
                "SELECT g.id AS guide, 'guides' AS \"table\", g.id AS id, each.value AS was "
                "FROM guides g, json_each(g.was) each",
                *(
                    f"SELECT t.guide, '{name}', t.id, each.value FROM {name} t, json_each(t.was) each"
                    for name in (
                        "operations",
                        "parts",
                        "fasteners",
                        "connectors",
                        "adhesives",
                        "tools",
                        "supplies",
                    )
                ),
            ]
        ),
    ),
)
"""Name, what it answers, and its query."""
