"""A transcript -> the facts that its draft holds, in the form of the hand-made facts."""
from __future__ import annotations
from pathlib import Path
from typing import Any
from guidec.draft.transcript import read_transcript
from guidec.draft.speech import heard
from guidec.draft.hearing import Ear
from guidec.draft.vocabulary import vocabulary
from guidec.draft.spot import spot
from guidec.draft.clauses import clauses
from guidec.draft.teller import tell
from guidec.draft.story import Screws, Named


def story_of(path: Path):
    v = vocabulary()
    h = heard(read_transcript(path.read_bytes()))
    toks, corr = Ear(v).listen(h)
    return tell(clauses(spot(toks, v), v), v, corr)


def found_in(path: Path) -> dict[str, Any]:
    s = story_of(path)
    f: dict[str, Any] = {k: [] for k in "screws tools supplies values connectors parts actions adhesives clips operations refits risks hazards side_trips misheard".split()}
    for x in s.screws:
        d = {"at": x.quote.start, "count": x.count}
        if x.drive: d["drive"] = x.drive
        if x.size: d["size"] = x.size
        f["screws"].append(d)
    for n in s.named:
        k = n.kind
        if k == "tool": f["tools"].append({"name": n.name})
        if k == "supply":
            f["supplies"].append({"name": n.name})
            for v in n.values: f["values"].append({"at": n.heard, "kind": "strength" if v.unit == "%" else "amount", "value": v.low, "unit": v.unit} | ({"to": v.high} if v.high else {}))
        if k == "connector" and n.gone: f["connectors"].append({"at": n.quote.start, "name": n.name, "type": n.type})
        if k == "adhesive": f["adhesives"].append({"name": n.name})
        if k == "clip": f["clips"].append({"at": n.quote.start, "count": n.count} if n.count else {"at": n.quote.start})
        if k == "part" and (n.gone or n.shown):
            f["parts"].append({"name": n.name, "class": n.cls or "other"})
        for v in n.values if k == "part" else ():
            kind = "capacity" if v.unit in ("mAh", "Ah", "Wh") else "voltage" if v.unit in ("V","kV","mV") else None
            if kind: f["values"].append({"at": n.heard, "kind": kind, "value": v.low, "unit": v.unit})
    for a in s.acts:
        for x in a.things or ([None] if a.do == "turn" else []):
            f["actions"].append({"at": a.start, "do": a.do, "thing": "screws" if isinstance(x, Screws) else "clips" if isinstance(x, Named) and x.kind=="clip" else x.name if x else ""})
        if not a.things and a.plain and a.do != "turn": f["actions"].append({"at": a.start, "do": a.do, "thing": a.plain})
        for v in a.heat: f["values"].append({"at": a.quote.start, "kind": "heat" if v.unit in ("°C","°F") else "heat-time", "value": v.low, "unit": v.unit} | ({"to": v.high} if v.high else {}))
        for v in a.waits: f["values"].append({"at": a.quote.start, "kind": "wait", "value": v.low, "unit": v.unit} | ({"to": v.high} if v.high else {}))
        for v in a.measures: f["values"].append({"at": a.quote.start, "kind": "measure", "value": v.low, "unit": v.unit})
    for v, q in s.torques: f["values"].append({"at": q.start, "kind": "torque", "value": v.low, "unit": v.unit})
    for x in s.refits: f["refits"].append({"at": x.quote.start, "words": x.text})
    for x in s.remarks: f["risks"].append({"at": x.quote.start, "words": x.text})
    for x in s.hazards: f["hazards"].append({"at": x.quote.start, "words": x.text})
    for t in s.trips: f["side_trips"].append({"at": t.quote.start, "thing": t.goal.name if t.goal else ""})
    for c in s.corrected: f["misheard"].append({"at": c.start, "heard": c.heard, "meant": c.meant})
    if s.verdict: f["verdict"] = {"points": s.verdict.points, "out_of": s.verdict.out_of}
    return f
