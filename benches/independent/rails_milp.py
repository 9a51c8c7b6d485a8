"""Finds the fewest hooks of a hundred rails by mixed-integer programming, and takes the time.

The rails are those of `tests/properties/rails_enumerated.json`. Independent of the service in
method and code:

* Each direction is a plane frame of two-noded beam elements (the `Frame` of
  `tests/properties/rails_enumerated.py`), condensed exactly to the deflections at the places for
  hooks.
* A programme with one binary `x` per place, a deflection `w` and a hook force `r` per place, case
  and direction asks for the fewest hooks: equilibrium and stiffness of the beam, `r = k w` where a
  hook is, `r = 0` where none is, hooks and rail used to one at most. HiGHS solves it, by way of
  scipy.
* What it proposes is checked by the frame solver. A proposal that does not hold is cut off by
  `sum over chosen (1 - x) + sum over others x >= 1`, which removes that one choice and no other.

Why the numbers it ends with are the fewest: every choice that holds satisfies every row, so the
programme is a relaxation, and its least number of hooks, once confirmed by the frame solver, is the
least there is. The bounds that release `r = k w` where no hook is follow from physics: a choice that
holds bends its rail with no more than the rail's resistance, so between two hooks `L` apart the rail
is no farther from their chord than `M L^2 / (8 E I)`, and no gap is wider than
`M0 / M_R <= 2` (moment of the simple span over the resistance, both directions summed) allows.
The serviceability case is the first strength case by 1.5, save for a rest of a few newtons whose
effect is bounded by its energy on the two outer hooks; that much is let go in its row.

    pip install numpy scipy && python benches/independent/rails_milp.py [--write]

Prints, separated by tabs, how the numbers compare and how long a rail took; with `--write` it also
writes them to `tests/properties/rails_milp.json`, which the tests hold the search against.
"""

import json
import pathlib
import statistics
import sys
import time

import numpy
import scipy
from scipy.optimize import Bounds, LinearConstraint, milp

ROOT = pathlib.Path(__file__).resolve().parents[2]
RAILS = ROOT / "tests/properties/rails_enumerated.json"
ANSWER = ROOT / "tests/properties/rails_milp.json"
sys.path.insert(0, str(RAILS.parent))
from rails_enumerated import Frame, ends, utilisation  # noqa: E402

# Rows of the programme are let out by this share, far more than its tolerance and far less than the
# 1e-4 any choice of hooks of these rails keeps from its limit.
SLACK = 1e-5
STRENGTH = 3
DIRECTIONS = (("normal_stiffness_n_per_mm", "normal_rigidity_nmm2", "normal_moment_nmm"),
              ("slope_stiffness_n_per_mm", "slope_rigidity_nmm2", "slope_moment_nmm"))


def condensed(frame, cases):
    """Beam without hooks by the deflections at its places: `K w + r = F`, moments `A w + B`."""
    kept = numpy.array(frame.supports)
    free = numpy.setdiff1d(numpy.arange(len(frame.k)), kept)
    k = frame.k
    solved = numpy.linalg.solve(k[numpy.ix_(free, free)],
                                numpy.hstack([k[numpy.ix_(free, kept)], frame.load[free, :cases]]))
    by_w, by_load = solved[:, :len(kept)], solved[:, len(kept):]
    stiffness = k[numpy.ix_(kept, kept)] - k[numpy.ix_(kept, free)] @ by_w
    load = frame.load[kept, :cases] - k[numpy.ix_(kept, free)] @ by_load
    moment = frame.moment[:, kept] - frame.moment[:, free] @ by_w
    constant = frame.moment[:, free] @ by_load + frame.held[:, :cases]
    return stiffness, load, moment, constant


def simple_span(given, direction, case, left, right):
    """Moments of a simple span between two places at the loads on it, and at its middle."""
    span = right - left
    line = case["line_n_per_mm"][direction]
    loads = [(x - left, p) for x, p in zip(given["loads_mm"], case[("normal_n", "slope_n")[direction]])
             if left < x < right]
    def at(x):
        points = sum(p * (x * (span - a) if x <= a else a * (span - x)) / span for a, p in loads)
        return points + line * x * (span - x) / 2
    return numpy.array([at(x) for x in sorted({a for a, _ in loads} | {span / 2})])


def widest_gaps(given):
    """Neighbours too far apart for any choice that holds, and the widest gap over every place."""
    places, n = given["places_mm"], len(given["places_mm"])
    limits = [given[names[2]] for names in DIRECTIONS]
    too_wide, widest = [], numpy.zeros(n)
    for i in range(n):
        for j in range(i + 1, n):
            used = max(
                sum(abs(simple_span(given, d, case, places[i], places[j])) / limits[d] for d in (0, 1)).max()
                for case in given["cases"][:STRENGTH])
            if used > 2 + SLACK:
                too_wide.append((i, j))
            else:
                widest[i:j + 1] = numpy.maximum(widest[i:j + 1], places[j] - places[i])
    return too_wide, widest


def farthest(given, names, force, widest):
    """Bound on the deflection of the rail at every place of a choice that holds, mm."""
    stiffness, rigidity, moment = (given[name] for name in names)
    settled = force / stiffness
    between = settled + moment * widest**2 / (8 * rigidity)
    places, reach = given["places_mm"], given["max_cantilever_mm"]
    nearest = min(b - a for a, b in zip(places, places[1:]))
    turned = 2 * settled / nearest + moment * widest.max() / (2 * rigidity)
    beyond = settled + reach * turned + moment * reach**2 / (2 * rigidity)
    first, last = ends(given)
    return [max(between[i], beyond) if i in first or i in last else between[i] for i in range(len(places))]


def rest_of_service(given):
    """Bound on the force of a hook under what the serviceability case has beyond the first by 1.5."""
    strength, service = given["cases"][0], given["cases"][3]
    assert service["limit"] == "service" and all(c["limit"] == "strength" for c in given["cases"][:3])
    line = abs(service["line_n_per_mm"][0] - strength["line_n_per_mm"][0] / 1.5)
    points = sum(abs(s - p / 1.5) for s, p in zip(service["normal_n"], strength["normal_n"]))
    length = given["length_mm"]
    whole = line * length + points
    k, rigidity = given["normal_stiffness_n_per_mm"], given["normal_rigidity_nmm2"]
    energy = (2 * whole) ** 2 / k + (whole * length / 4) ** 2 * length / (2 * rigidity)
    return (2 * k * energy) ** 0.5


class Programme:
    """Rows `low <= A y <= high` over `y = (x, then w and r by case and direction)`, in kN and mm."""

    def __init__(self, given, frames):
        self.n = n = len(given["places_mm"])
        self.x, self.variables = slice(0, n), n + STRENGTH * 2 * 2 * n
        self.rows, self.low, self.high = [], [], []
        self.lowest, self.highest = numpy.zeros(self.variables), numpy.ones(self.variables)
        too_wide, widest = widest_gaps(given)
        parts = [condensed(frame, STRENGTH) for frame in frames]
        for case in range(STRENGTH):
            for direction in (0, 1):
                self.add_beam(given, case, direction, parts[direction], widest)
            self.add_hooks(given, case)
            self.add_rail(given, case, parts)
        room = given["clearance_mm"] * given["normal_stiffness_n_per_mm"] + rest_of_service(given)
        self.add([(self.block(0, 0)[1], numpy.eye(n))], -numpy.inf, 1.5 * room / 1e3 * (1 + SLACK))
        for i, j in too_wide:
            row = numpy.zeros((1, n))
            row[0, [i, j]], row[0, i + 1:j] = 1, -1
            self.add([(self.x, row)], -numpy.inf, 1)
        first, last = ends(given)
        for some, least in ((first, 1), (last, 1), (range(n), 2)):
            row = numpy.zeros((1, n))
            row[0, list(some)] = 1
            self.add([(self.x, row)], least, numpy.inf)

    def block(self, case, direction):
        """Where deflections and forces of a case stand."""
        at = self.n + (2 * case + direction) * 2 * self.n
        return slice(at, at + self.n), slice(at + self.n, at + 2 * self.n)

    def add(self, parts, low, high):
        count = len(parts[0][1])
        rows = numpy.zeros((count, self.variables))
        for where, matrix in parts:
            rows[:, where] += matrix
        self.rows.append(rows)
        self.low.append(numpy.broadcast_to(low, count))
        self.high.append(numpy.broadcast_to(high, count))

    def add_beam(self, given, case, direction, part, widest):
        """Equilibrium and stiffness; `r = k w` where a hook is, `r = 0` where none is."""
        (w, r), one = self.block(case, direction), numpy.eye(self.n)
        stiffness, load, _, _ = part
        self.add([(w, stiffness / 1e3), (r, one)], load[:, case] / 1e3, load[:, case] / 1e3)
        force = max(given["press_n"], given["lift_n"]) if direction == 0 else given["slope_n"]
        names = DIRECTIONS[direction]
        far = numpy.array(farthest(given, names, force, widest)) * (1 + SLACK)
        k, force = given[names[0]] / 1e3, force / 1e3 * (1 + SLACK)
        for sign in (1, -1):
            row = [(w, sign * k * one), (r, -sign * one), (self.x, numpy.diag(k * far))]
            self.add(row, -numpy.inf, k * far)
        self.lowest[w], self.highest[w] = -far, far
        self.lowest[r], self.highest[r] = -force, force

    def add_hooks(self, given, case):
        """Hooks under both forces, and none where none is."""
        (_, n), (_, s), one = self.block(case, 0), self.block(case, 1), numpy.eye(self.n)
        for against in (given["press_n"], -given["lift_n"]):
            for sign in (1, -1):
                row = [(n, one * 1e3 / against), (s, sign * one * 1e3 / given["slope_n"]),
                       (self.x, -one * (1 + SLACK))]
                self.add(row, -numpy.inf, 0)

    def add_rail(self, given, case, parts):
        """Bending about both axes at every node."""
        for normal in (1, -1):
            for slope in (1, -1):
                row, used = [], 0
                for direction, sign in ((0, normal), (1, slope)):
                    _, _, by_w, constant = parts[direction]
                    limit = sign * given[DIRECTIONS[direction][2]]
                    row.append((self.block(case, direction)[0], by_w / limit))
                    used = used + constant[:, case] / limit
                self.add(row, -numpy.inf, 1 + SLACK - used)

    def cut(self, chosen):
        """Removes one choice of hooks, and no other."""
        row = numpy.ones((1, self.n))
        row[0, chosen] = -1
        self.add([(self.x, row)], 1 - len(chosen), numpy.inf)

    def fewest(self):
        """A choice of the fewest hooks, or none."""
        cost, whole = numpy.zeros(self.variables), numpy.zeros(self.variables)
        cost[self.x], whole[self.x] = 1, 1
        rows = LinearConstraint(numpy.vstack(self.rows), numpy.concatenate(self.low), numpy.concatenate(self.high))
        bounds = Bounds(self.lowest, self.highest)
        found = milp(cost, constraints=rows, bounds=bounds, integrality=whole, options={"mip_rel_gap": 0})
        if found.status == 2:
            return None
        assert found.status == 0, found.message
        return [i for i, x in enumerate(found.x[self.x]) if x > 0.5]


def by_programme(given):
    """Fewest hooks, and how many proposals were cut off."""
    frames = [Frame(given, direction) for direction in (0, 1)]
    programme, cuts = Programme(given, frames), 0
    while (chosen := programme.fewest()) is not None:
        if utilisation(given, frames, chosen) <= 1:
            return len(chosen), cuts
        programme.cut(chosen)
        cuts += 1
    return None, cuts


def write(answers):
    note = "Written by benches/independent/rails_milp.py --write; do not edit."
    versions = json.dumps({"numpy": numpy.__version__, "scipy": scipy.__version__})
    lines = ",\n  ".join(json.dumps(answer) for answer in answers)
    ANSWER.write_text(f'{{"note": {json.dumps(note)},\n "versions": {versions},\n "cases": [\n  {lines}\n]}}\n')


def main():
    cases = json.loads(RAILS.read_text())["cases"]
    answers, seconds, cuts = [], [], []
    for case in cases:
        begin = time.perf_counter()
        hooks, cut = by_programme(case["given"])
        seconds.append(time.perf_counter() - begin)
        cuts.append(cut)
        answers.append({"id": case["id"], "hooks": hooks})
    if "--write" in sys.argv[1:]:
        write(answers)
    same = sum(case["hooks"] == answer["hooks"] for case, answer in zip(cases, answers))
    print(f"independent\tprogramme agrees with trying all\t{same} of {len(cases)}\trails")
    print(f"independent\tproposals cut off, all rails\t{sum(cuts)}\t")
    print(f"independent\tprogramme, median of a rail\t{statistics.median(seconds) * 1e3:.1f}\tms")
    print(f"independent\tprogramme, slowest rail\t{max(seconds) * 1e3:.0f}\tms")


if __name__ == "__main__":
    main()
