"""A problem and targets -> the least cost, by an exact integer model for OR-tools' CP-SAT.

Nodes of a circuit are tasks; those left out loop on themselves. State runs along the arcs: the tools in hand, the
side, whether work is pending. Other ways must not share what they take: a skipped action is not modelled.
"""

from __future__ import annotations

from ortools.sat.python import cp_model

from guidec.plan.cost import ORDERS, By
from guidec.plan.problem import Problem, bits

RADIX = {
    "flaws": 2, "risks": 32, "spent": 32, "steps": 64, "changes": 64, "turns": 32, "hand": 1024, "total": 1024,
    "distance": 64,
}  # fmt: skip
LEFT_OUT = ("shuffle", "screws", "wait")
"""The last parts of a cost are not compared: the model's numbers have 64 bits."""


class Model:
    """Builds the model."""

    def __init__(self, problem: Problem, targets: list[tuple[int, ...]]) -> None:
        self.problem = problem
        self.count = len(problem.tasks)
        self.model = model = cp_model.CpModel()
        tasks = range(self.count)
        self.taken = [model.new_bool_var(f"x{at}") for at in tasks]
        self.place = [model.new_int_var(1, self.count, f"p{at}") for at in tasks]
        hands = sorted({0} | {task.tools for task in problem.tasks})
        self.hands = hands
        self.hand_before = [model.new_int_var(0, len(hands) - 1, f"h{at}") for at in tasks]
        self.side_before = [model.new_int_var(0, 9, f"s{at}") for at in tasks]
        self.pending_before = [model.new_bool_var(f"w{at}") for at in tasks]
        self.parts = {name: [] for name in RADIX}
        self.after = [self._after(at) for at in tasks]
        self._circuit()
        self._needs(targets)
        self._distance()

    def _after(self, at: int):
        """The state behind a task, its cost put down."""
        model, task, taken = self.model, self.problem.tasks[at], self.taken[at]
        problem = self.problem
        self.parts["risks"].append(task.risks * taken)
        self.parts["hand"].append(task.hand * taken)
        self.parts["total"].append((task.hand + task.wait) * taken)
        self.parts["steps"].append((task.ends + max(0, task.tools.bit_count() - 1)) * taken)
        spent = sum(
            (count if problem.stocks[thing].single else 1)
            for thing, count in task.takes
            if problem.stocks[thing].spent
        )
        self.parts["spent"].append(spent * taken)
        pending, side, hand = self.pending_before[at], self.side_before[at], self.hand_before[at]
        if task.side:
            turned = self._differs(side, task.side, at)
            self._pay(turned, "turns", 1, "hand", problem.turn_time)
            side = task.side
        if task.tools:
            changed, new = self._newcomers(at, task.tools)
            self.parts["changes"].append(new)
            for part in ("hand", "total"):
                self.parts[part].append(problem.change_time * new)
            ended = model.new_bool_var(f"e{at}")
            model.add_bool_and(changed, pending).only_enforce_if(ended)
            model.add_bool_or(changed.negated(), pending.negated()).only_enforce_if(ended.negated())
            self._pay(ended, "steps", 1)
            left = model.new_bool_var(f"l{at}")
            model.add_bool_and(pending, changed.negated()).only_enforce_if(left)
            model.add_bool_or(pending.negated(), changed).only_enforce_if(left.negated())
            pending, hand = left, self.hands.index(task.tools)
        if task.ends:
            pending = 0
        elif task.works:
            pending = 1
        return hand, side, pending

    def _pay(self, when, *parts) -> None:
        """Put down a cost where a condition holds (it can hold only for a task that is taken)."""
        for name, amount in zip(parts[::2], parts[1::2], strict=True):
            self.parts[name].append(amount * when)
            if name == "hand":
                self.parts["total"].append(amount * when)

    def _differs(self, side, wanted: int, at: int):
        """Another known side is up, and the task is taken."""
        model = self.model
        same, known, found = (model.new_bool_var(f"{name}{at}") for name in ("same", "known", "turn"))
        model.add(side == wanted).only_enforce_if(same)
        model.add(side != wanted).only_enforce_if(same.negated())
        model.add(side != 0).only_enforce_if(known)
        model.add(side == 0).only_enforce_if(known.negated())
        model.add_bool_and(same.negated(), known, self.taken[at]).only_enforce_if(found)
        model.add_bool_or(same, known.negated(), self.taken[at].negated()).only_enforce_if(found.negated())
        return found

    def _newcomers(self, at: int, tools: int):
        """Whether, and how many, tools are taken up anew; none where the hand is empty so far."""
        model = self.model
        table = [0 if not hand else (tools & ~hand).bit_count() for hand in self.hands]
        raw = model.new_int_var(0, max(table), f"raw{at}")
        model.add_element(self.hand_before[at], table, raw)
        new = model.new_int_var(0, max(table), f"new{at}")
        model.add(new == raw).only_enforce_if(self.taken[at])
        model.add(new == 0).only_enforce_if(self.taken[at].negated())
        changed = model.new_bool_var(f"changed{at}")
        model.add(new > 0).only_enforce_if(changed)
        model.add(new == 0).only_enforce_if(changed.negated())
        return changed, new

    def _circuit(self) -> None:
        model, problem = self.model, self.problem
        arcs, into = [], {}
        end = self.count
        for at in range(self.count):
            arcs.append((at, at, self.taken[at].negated()))
            first, last = model.new_bool_var(f"first{at}"), model.new_bool_var(f"last{at}")
            arcs += [(end, at, first), (at, end, last)]
            model.add(self.hand_before[at] == 0).only_enforce_if(first)
            model.add(self.side_before[at] == problem.start).only_enforce_if(first)
            model.add(self.pending_before[at] == 0).only_enforce_if(first)
            model.add(self.place[at] == 1).only_enforce_if(first)
            pending = self.after[at][2]
            ended = model.new_bool_var(f"ended{at}")
            model.add(ended >= last + pending - 1)
            self.parts["steps"].append(ended)
            into.setdefault(problem.tasks[at].block, []).append(first)
        for at in range(self.count):
            for other in range(self.count):
                if at == other:
                    continue
                arc = model.new_bool_var(f"a{at}-{other}")
                arcs.append((at, other, arc))
                hand, side, pending = self.after[at]
                model.add(self.hand_before[other] == hand).only_enforce_if(arc)
                model.add(self.side_before[other] == side).only_enforce_if(arc)
                model.add(self.pending_before[other] == pending).only_enforce_if(arc)
                model.add(self.place[other] == self.place[at] + 1).only_enforce_if(arc)
                if problem.tasks[at].block != problem.tasks[other].block:
                    into[problem.tasks[other].block].append(arc)
        arcs.append((end, end, model.new_constant(0)))
        model.add_circuit(arcs)
        for entries in into.values():
            model.add(sum(entries) <= 1)

    def _needs(self, targets: list[tuple[int, ...]]) -> None:
        """Each need of a task taken is served by one chosen way; what nothing chose is not taken."""
        model = self.model
        chosen: list[list] = [[] for _ in range(self.count)]
        for number, ways in enumerate(targets):
            picks = []
            for way in ways:
                pick = model.new_bool_var(f"t{number}-{way}")
                picks.append(pick)
                for other in bits(way):
                    model.add(self.taken[other] == 1).only_enforce_if(pick)
                    chosen[other].append(pick)
            model.add_exactly_one(picks)
        for at, task in enumerate(self.problem.tasks):
            for number, ways in enumerate(task.needs):
                if 0 in ways:
                    continue
                picks = []
                for way in ways:
                    pick = model.new_bool_var(f"n{at}-{number}-{way}")
                    picks.append(pick)
                    for other in bits(way):
                        model.add(self.taken[other] == 1).only_enforce_if(pick)
                        model.add(self.place[other] < self.place[at]).only_enforce_if(pick)
                        chosen[other].append(pick)
                model.add(sum(picks) == self.taken[at])
        for at, picks in enumerate(chosen):
            model.add(self.taken[at] <= sum(picks))

    def _distance(self) -> None:
        """Pairs of blocks that stand the other way round."""
        model, problem = self.model, self.problem
        used = []
        firsts = []
        for block, members in enumerate(problem.members):
            inside = list(bits(members))
            use = model.new_bool_var(f"u{block}")
            model.add_max_equality(use, [self.taken[at] for at in inside])
            where = model.new_int_var(1, self.count, f"b{block}")
            for at in inside:
                model.add(where <= self.place[at]).only_enforce_if(self.taken[at])
            picks = [model.new_bool_var(f"f{block}-{at}") for at in inside]
            model.add(sum(picks) == use)
            for pick, at in zip(picks, inside, strict=True):
                model.add(where == self.place[at]).only_enforce_if(pick)
                model.add_implication(pick, self.taken[at])
            used.append(use)
            firsts.append(where)
        for one in range(len(used)):
            for two in range(one + 1, len(used)):
                swapped = model.new_bool_var(f"sw{one}-{two}")
                model.add(firsts[one] < firsts[two]).only_enforce_if(used[one], used[two], swapped.negated())
                self.parts["distance"].append(swapped)

    def least(self, by: By) -> dict[str, int] | None:
        """The parts of the least cost, those that are compared."""
        weight, objective = 1, []
        for name in reversed([name for name in ORDERS[by] if name not in LEFT_OUT]):
            objective.append(weight * sum(self.parts[name]))
            weight *= RADIX[name]
        assert weight < 2**62
        self.model.minimize(sum(objective))
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.max_time_in_seconds = 60
        status = solver.solve(self.model)
        if status == cp_model.INFEASIBLE:
            return None
        assert status == cp_model.OPTIMAL, solver.status_name(status)
        return {name: sum(solver.value(each) for each in self.parts[name]) for name in ORDERS[by] if name in RADIX}
