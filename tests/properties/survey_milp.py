"""Solves random surveys of one rail with a general-purpose solver and writes what it found.

Independent of the service: counts of pieces are the integer unknowns, not stack heights; the
solver is the mixed-integer solver behind scipy.optimize.milp. Three stages, each with the optimum
of the one before as a constraint: sum of heights, number of pieces, sum of the slots' distances
from their middle. The last is solved once more with the integers fixed, to full precision. Where
there is no solution, the least lengthening of all slots that makes one is found instead.

    pip install scipy && python tests/properties/survey_milp.py

The answer is written beside this file, not printed: the solver sometimes prints notes of its own.
"""

import json
import pathlib
import random
import sys

import numpy
import scipy
from scipy.optimize import Bounds, LinearConstraint, linprog, milp

CASES = 100
STOCKS = [
    [1, 2, 3, 5, 10], [2, 5, 10], [1, 2, 3, 5, 10], [1, 3, 5], [2, 3, 8], [0.5, 1, 2, 5], [5, 10], [1.5, 4],
]


def tenth(value):
    return round(value, 1)


def survey(number, draw):
    """One random survey; every number is a whole tenth of a millimetre."""
    hooks = draw.randint(3, 14)
    x, stations = draw.randint(50, 900), []
    wave, roughness = draw.uniform(0, 25), draw.uniform(1, 12)
    for _ in range(hooks):
        built = draw.choice([[], [], [], [2.0], [5.0, 1.0]])
        stations.append({
            "x_mm": float(x),
            "clearance_mm": tenth(draw.uniform(-3, 9)),
            "level_mm": tenth(wave * numpy.sin(x / 2500 + number) + draw.uniform(-roughness, roughness)),
            "deflection_mm": tenth(draw.uniform(0, 7)),
            "room_above_mm": tenth(draw.uniform(10, 30)) if draw.random() < 0.2 else None,
            "built_mm": built,
        })
        x += draw.randint(450, 1700)
    return {
        "hooks": stations,
        "slot_range_mm": draw.choice([25.0, 25.0, 20.0, 15.0, 12.0, 8.0, 4.0, 2.0]),
        "thicknesses_mm": [float(t) for t in draw.choice(STOCKS)],
        "max_stack_mm": draw.choice([20.0, 20.0, 15.0, 12.0, 10.0]),
        "min_clearance_mm": draw.choice([5.0, 5.0, 5.0, 3.0, 6.0]),
        "min_room_above_mm": 3.0,
        "max_tilt": draw.choice([None, None, 0.01, 0.002]),
    }


class Model:
    """Columns: pieces per hook and thickness, a, m per metre, distances from the middle, e."""

    def __init__(self, given):
        self.given, hooks = given, given["hooks"]
        n, t = len(hooks), given["thicknesses_mm"]
        self.n, self.t, self.pieces = n, t, n * len(t)
        self.a, self.m, self.away, self.e = self.pieces, self.pieces + 1, self.pieces + 2, self.pieces + 2 + n
        self.columns = self.e + 1
        self.rows, self.low, self.high = [], [], []
        half = given["slot_range_mm"] / 2
        for i, hook in enumerate(hooks):
            built = sum(hook["built_mm"])
            height = self.height(i)
            need = max(given["min_clearance_mm"], hook["deflection_mm"]) - hook["clearance_mm"] + built
            most = given["max_stack_mm"]
            if hook["room_above_mm"] is not None:
                most = min(most, hook["room_above_mm"] - given["min_room_above_mm"] + built)
            self.add(height, max(need, 0.0), most)
            slot = -height
            slot[self.a], slot[self.m] = 1, hook["x_mm"] / 1000
            self.add(slot, hook["level_mm"], numpy.inf)
            longer = slot.copy()
            longer[self.e] = -1
            self.add(longer, -numpy.inf, hook["level_mm"] + 2 * half)
            for sign in (1, -1):
                apart = sign * slot
                apart[self.away + i] = -1
                self.add(apart, -numpy.inf, sign * (hook["level_mm"] + half))
        self.kind = numpy.zeros(self.columns)
        self.kind[: self.pieces] = 1
        self.least = numpy.full(self.columns, -numpy.inf)
        self.least[: self.pieces] = 0
        self.least[self.away:] = 0
        self.most = numpy.full(self.columns, numpy.inf)
        self.most[self.e] = 0
        if given["max_tilt"] is not None:
            self.least[self.m], self.most[self.m] = -1000 * given["max_tilt"], 1000 * given["max_tilt"]

    def height(self, i):
        row = numpy.zeros(self.columns)
        row[i * len(self.t):(i + 1) * len(self.t)] = self.t
        return row

    def add(self, row, low, high):
        self.rows.append(row)
        self.low.append(low)
        self.high.append(high)

    def solve(self, cost):
        return milp(cost, integrality=self.kind, bounds=Bounds(self.least, self.most),
                    constraints=LinearConstraint(numpy.array(self.rows), self.low, self.high),
                    options={"mip_rel_gap": 0.0})

    def fix_integers(self, x):
        whole = numpy.round(x[: self.pieces])
        self.least[: self.pieces] = self.most[: self.pieces] = whole

    def linear(self, cost):
        rows = numpy.array(self.rows)
        upper, lower = numpy.isfinite(self.high), numpy.isfinite(self.low)
        return linprog(cost, A_ub=numpy.vstack([rows[upper], -rows[lower]]),
                       b_ub=numpy.concatenate([numpy.array(self.high)[upper], -numpy.array(self.low)[lower]]),
                       bounds=list(zip(self.least, self.most)), method="highs-ds")


def optimum(given):
    model = Model(given)
    total = sum(model.height(i) for i in range(model.n))
    first = model.solve(total)
    if first.status == 2:
        return {"possible": False, **without_solution(given)}
    assert first.status == 0, first.message
    # Heights are whole multiples of half a millimetre: the sum is known exactly.
    sum_mm = round(first.fun * 2) / 2
    assert abs(sum_mm - first.fun) < 1e-6
    model.add(total, sum_mm, sum_mm)
    pieces = numpy.zeros(model.columns)
    pieces[: model.pieces] = 1
    second = model.solve(pieces)
    assert second.status == 0, second.message
    count = round(second.fun)
    model.add(pieces, count, count)
    away = numpy.zeros(model.columns)
    away[model.away: model.e] = 1
    third = model.solve(away)
    assert third.status == 0, third.message
    model.fix_integers(third.x)
    polished = model.linear(away)
    assert polished.status == 0 and abs(polished.fun - third.fun) < 1e-5, polished.message
    return {"possible": True, "total_mm": sum_mm, "pieces": count, "slot_deviation_mm": round(polished.fun, 9)}


def without_solution(given):
    model = Model(given)
    model.most[model.e] = numpy.inf
    longer = numpy.zeros(model.columns)
    longer[model.e] = 1
    found = model.solve(longer)
    if found.status == 2:
        return {"longer_slot_mm": None}
    assert found.status == 0, found.message
    model.fix_integers(found.x)
    polished = model.linear(longer)
    assert polished.status == 0 and abs(polished.fun - found.fun) < 1e-5, polished.message
    return {"longer_slot_mm": round(polished.fun, 9)}


def main():
    draw = random.Random(20240607)
    cases = []
    for number in range(CASES):
        given = survey(number, draw)
        cases.append({"id": f"survey-{number:03}", "given": given, "found": optimum(given)})
        print(cases[-1]["id"], cases[-1]["found"], file=sys.stderr)
    note = "Written by tests/properties/survey_milp.py; do not edit."
    versions = {"scipy": scipy.__version__, "numpy": numpy.__version__, "solver": "HiGHS as bundled with scipy"}
    lines = ",\n  ".join(json.dumps(case) for case in cases)
    text = f'{{"note": {json.dumps(note)},\n "versions": {json.dumps(versions)},\n "cases": [\n  {lines}\n]}}\n'
    pathlib.Path(__file__).with_suffix(".json").write_text(text)


main()
