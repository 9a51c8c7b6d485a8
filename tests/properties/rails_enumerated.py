"""Lays out random rails by trying every choice of hooks and writes how many hooks each needs.

Independent of the service in method and code: a plane frame of two-noded beam elements with a node
at every load and every place for a hook, all unknowns in one dense matrix per direction, solved by
numpy's general linear solver for every subset of the places, fewest hooks first.

Checked: hooks under both forces, clearance, biaxial bending of the rail at every node. Left out:
screws and deflection of the rail, which the fixture's reader makes strong enough not to govern.

    pip install numpy && python tests/properties/rails_enumerated.py

The answer is written beside this file; the time it took goes to standard error.
"""

import itertools
import json
import pathlib
import random
import sys
import time

import numpy

RAILS = 100
# A subset this near its limit is decided by rounding: such a rail is drawn anew.
MARGIN = 1e-4


def rail(draw):
    """One random rail in N and mm; every length is a whole millimetre."""
    modules = draw.randint(3, 6)
    width, gap = draw.randint(990, 1180), 20
    length = modules * width + (modules - 1) * gap + 80
    loads = [x for m in range(modules) for x in (40 + m * (width + gap), 40 + m * (width + gap) + width)]
    spacing = draw.randint(520, 800)
    places, x = [], draw.randint(60, 400)
    while x < length - 20:
        places.append(x)
        x += spacing + draw.randint(-90, 90)
    places = [p for p in places if p not in loads]
    press, lift, slope = draw.uniform(500, 1100), draw.uniform(300, 900), draw.uniform(150, 420)
    edge = draw.uniform(1.0, 2.0)

    def frames(left_zone, right_zone, force):
        per_module = [force * (left_zone if m == 0 else right_zone if m == modules - 1 else 1.0) for m in range(modules)]
        return [round(f, 1) for f in per_module for _ in (0, 1)]

    return {
        "length_mm": length, "places_mm": places, "loads_mm": loads,
        "normal_stiffness_n_per_mm": round(draw.uniform(200, 1500), 1),
        "slope_stiffness_n_per_mm": round(draw.uniform(300, 1500), 1),
        "normal_rigidity_nmm2": round(draw.uniform(4e9, 1.6e10)),
        "slope_rigidity_nmm2": round(draw.uniform(3e9, 1.2e10)),
        "press_n": round(draw.uniform(1800, 4200), 1), "lift_n": round(draw.uniform(1500, 3500), 1),
        "slope_n": round(draw.uniform(1200, 2600), 1),
        "normal_moment_nmm": round(draw.uniform(6e5, 1.5e6)), "slope_moment_nmm": round(draw.uniform(4e5, 1.2e6)),
        "clearance_mm": round(draw.uniform(4, 9), 2), "max_cantilever_mm": draw.randint(450, 650),
        "cases": [
            {"limit": "strength", "normal_n": frames(1, 1, press), "slope_n": frames(1, 1, slope), "line_n_per_mm": [0.011, 0.009]},
            {"limit": "strength", "normal_n": frames(edge, 1, -lift), "slope_n": frames(1, 1, 0.3 * slope), "line_n_per_mm": [0.008, 0.006]},
            {"limit": "strength", "normal_n": frames(1, edge, -lift), "slope_n": frames(1, 1, 0.3 * slope), "line_n_per_mm": [0.008, 0.006]},
            {"limit": "service", "normal_n": frames(1, 1, press / 1.5), "slope_n": frames(1, 1, slope / 1.5), "line_n_per_mm": [0.008, 0.006]},
        ],
    }


class Frame:
    """Beam without supports in one direction, and its loads by case; unknowns w, theta by node."""

    def __init__(self, given, direction):
        self.x = sorted({0, given["length_mm"], *given["places_mm"], *given["loads_mm"]})
        at = {x: i for i, x in enumerate(self.x)}
        self.supports = [2 * at[x] for x in given["places_mm"]]
        rigidity = given[("normal_rigidity_nmm2", "slope_rigidity_nmm2")[direction]]
        self.spring = given[("normal_stiffness_n_per_mm", "slope_stiffness_n_per_mm")[direction]]
        n = 2 * len(self.x)
        self.k = numpy.zeros((n, n))
        # Moment at the left end of every element, and of the last one also at its right end, linear in u.
        self.moment, self.held = numpy.zeros((len(self.x), n)), []
        cases = len(given["cases"])
        self.load, self.held = numpy.zeros((n, cases)), numpy.zeros((len(self.x), cases))
        for e in range(len(self.x) - 1):
            l = self.x[e + 1] - self.x[e]
            k = rigidity / l**3 * numpy.array([
                [12, 6 * l, -12, 6 * l], [6 * l, 4 * l * l, -6 * l, 2 * l * l],
                [-12, -6 * l, 12, -6 * l], [6 * l, 2 * l * l, -6 * l, 4 * l * l]])
            self.k[2 * e:2 * e + 4, 2 * e:2 * e + 4] += k
            self.moment[e, 2 * e:2 * e + 4] = k[1]
            for c, case in enumerate(given["cases"]):
                q = case["line_n_per_mm"][direction]
                self.load[2 * e:2 * e + 4, c] += numpy.array([q * l / 2, q * l * l / 12, q * l / 2, -q * l * l / 12])
                self.held[e, c] = -q * l * l / 12
        for c, case in enumerate(given["cases"]):
            for x, force in zip(given["loads_mm"], case[("normal_n", "slope_n")[direction]]):
                self.load[2 * at[x], c] += force

    def forces(self, hooks):
        """Hook forces and moments at all nodes, by case, on chosen hooks."""
        k, rows = self.k.copy(), [self.supports[h] for h in hooks]
        k[rows, rows] += self.spring
        u = numpy.linalg.solve(k, self.load)
        return self.spring * u[rows], self.moment @ u + self.held


def ends(given):
    reach, length = given["max_cantilever_mm"], given["length_mm"]
    first = [i for i, x in enumerate(given["places_mm"]) if x <= reach]
    last = [i for i, x in enumerate(given["places_mm"]) if length - x <= reach]
    return first, last


def utilisation(given, frames, hooks):
    (n, m), (s, t) = (frame.forces(hooks) for frame in frames)
    worst = 0.0
    for c, case in enumerate(given["cases"]):
        if case["limit"] == "service":
            room = given["clearance_mm"] * given["normal_stiffness_n_per_mm"]
            worst = max(worst, (n[:, c] / room).max())
            continue
        against = numpy.where(n[:, c] >= 0, given["press_n"], given["lift_n"])
        worst = max(worst, (abs(n[:, c]) / against + abs(s[:, c]) / given["slope_n"]).max())
        worst = max(worst, (abs(m[:, c]) / given["normal_moment_nmm"] + abs(t[:, c]) / given["slope_moment_nmm"]).max())
    return worst


def by_trying(given, frames):
    """Fewest hooks, and how near to 1 any subset tried came."""
    first, last = ends(given)
    n, nearest = len(given["places_mm"]), numpy.inf
    for count in range(2, n + 1):
        found = False
        for hooks in itertools.combinations(range(n), count):
            if hooks[0] in first and hooks[-1] in last:
                used = utilisation(given, frames, hooks)
                nearest, found = min(nearest, abs(used - 1)), found or used <= 1
        if found:
            return count, nearest
    return None, nearest


def main():
    draw, cases, seconds = random.Random(20251107), [], 0.0
    while len(cases) < RAILS:
        given = rail(draw)
        if not 6 <= len(given["places_mm"]) <= 12 or not all(ends(given)):
            continue
        begin = time.perf_counter()
        hooks, nearest = by_trying(given, [Frame(given, d) for d in (0, 1)])
        if nearest < MARGIN:
            continue
        seconds += time.perf_counter() - begin
        cases.append({"id": f"rail-{len(cases):03}", "given": given, "hooks": hooks})
    print(f"{seconds:.2f} s for {RAILS} rails", file=sys.stderr)
    note = "Written by tests/properties/rails_enumerated.py; do not edit."
    lines = ",\n  ".join(json.dumps(case) for case in cases)
    versions = json.dumps({"numpy": numpy.__version__})
    text = f'{{"note": {json.dumps(note)},\n "versions": {versions},\n "cases": [\n  {lines}\n]}}\n'
    pathlib.Path(__file__).with_suffix(".json").write_text(text)


if __name__ == "__main__":
    main()
