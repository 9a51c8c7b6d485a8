"""Cuts the rails of random jobs with a general-purpose solver and writes what it found.

Independent of the service: rules, places and ways are written a second time, straight from the
statement in src/parts/splicing.rs; the integer unknowns are how often each filling of a bar is cut
and each way of a segment is taken; the solver is the mixed-integer solver behind
scipy.optimize.milp. Two stages: the more important of length bought and bars, then the other with
the first as a constraint.

    pip install scipy && python tests/properties/cutting_milp.py usual
    pip install scipy && python tests/properties/cutting_milp.py large

The usual jobs are of 4 to 40 segments, the large ones of 40 to 100, written to files of their own.
The solver gets every filling of a bar as a column. Jobs with more fillings than the set allows, or
on which it needs more than the seconds allowed, are drawn anew; how many is noted.

All lengths are whole tenths of a millimetre. The answer is written beside this file, not printed:
the solver sometimes prints notes of its own.
"""

import json
import math
import pathlib
import random
import sys
import time

import numpy
import scipy
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import lil_matrix

# Name of the set: its file, where the draw begins, jobs, segments of a job, most fillings, seconds.
SETS = {
    "usual": ("cutting_milp.json", 20240607, 100, (4, 40), 30_000, 30),
    "large": ("cutting_milp_large.json", 20240608, 40, (40, 100), 5_000, 10),
}
FILE, SEED, CASES, SIZE, MOST_FILLINGS, SECONDS = SETS[sys.argv[1]]
LEVELS = ["all", "middle_third_used", "end_span_used", "free_end_used", "none"]
HOOKS_PER_PIECE = [2, 2, 1, 0, 0]
STOCKS = [
    [33000, 44000, 55000], [33000, 44000, 55000], [21000, 31500, 42000, 62000], [44000], [60000],
    [24000, 36500, 62500], [31200, 41600], [55000], [20500, 41000, 61500], [42000, 53500],
]


class TooLarge(Exception):
    """The job is not one for this solver."""


# Random jobs ------------------------------------------------------------------------------------

def job(draw):
    """Fields of rails on rafters: every row has two rails, their hooks alike or not."""
    stock = draw.choice(STOCKS)
    rafters, x = [], draw.randint(500, 6000)
    spacing, unevenness = draw.randint(5000, 9500), draw.choice([0, 0, 200, 700])
    while x < 500000:
        rafters.append(x)
        x += spacing + draw.randint(-unevenness, unevenness)
    segments, wanted = [], draw.randint(*SIZE)
    while len(segments) < wanted:
        width, gap = draw.choice([10000, 10450, 11340, 11340, 17220, 17620, 20940]), draw.choice([200, 200, 300])
        columns, rows = draw.randint(1, 18), draw.randint(1, 4)
        start = rafters[draw.randint(0, 3)] + draw.randint(-6000, 4000)
        for part in parts(columns, width, gap):
            step, skip = draw.choice([1, 1, 2, 2, 3]), draw.randint(0, 1)
            alike = draw.random() < 0.7
            for rail in range(2 * rows):
                if len(segments) < wanted:
                    shift = 0 if alike else rail % 2
                    segments.append(segment(start, part, width, gap, rafters, step, skip + shift))
            start += part * (width + gap)
    return {
        "stock": stock,
        "kerf": draw.choice([0, 20, 30, 30, 40, 50]),
        "min_piece": min(draw.choice([3000, 5000, 5000, 8000]), stock[-1] // 2),
        "splice_half": draw.choice([1000, 1000, 600, 1500, 0]),
        "arm_half": draw.choice([150, 150, 200]),
        "aim": draw.choice(["least_length", "least_length", "fewest_bars"]),
        "segments": segments,
    }


def parts(columns, width, gap):
    """Columns of every part no longer than about 13 m."""
    most = max(1, 130000 // (width + gap))
    count = -(-columns // most)
    return [columns * (i + 1) // count - columns * i // count for i in range(count)]


def segment(start, columns, width, gap, rafters, step, skip):
    projection, clamp = 400, 300
    length = columns * width + (columns - 1) * gap + 2 * projection
    under = [x - start for x in rafters if 100 <= x - start <= length - 100]
    inner = under[1:-1][skip % step::step]
    hooks = sorted(set(under[:1] + inner + under[-1:]))
    edges = [projection + c * (width + gap) for c in range(columns)]
    clamps = [[edges[0] - clamp, edges[0]]]
    clamps += [[edge - gap, edge] for edge in edges[1:]]
    clamps += [[edges[-1] + width, edges[-1] + width + clamp]]
    return {"length": length, "hooks": hooks, "clamps": clamps}


# Ways to make up a segment ------------------------------------------------------------------------

def stretches(given, run, level):
    """Where splices may lie, as closed stretches."""
    low, high = max(given["min_piece"], 1), run["length"] - max(given["min_piece"], 1)
    free = [(low, high)] if low <= high else []
    barred = []
    if level < 4:
        keep = given["splice_half"] + given["arm_half"]
        barred += [(h - keep, h + keep) for h in run["hooks"]]
        barred += [(a - given["splice_half"], b + given["splice_half"]) for a, b in run["clamps"]]
    if level == 0:
        for left, right in zip(run["hooks"], run["hooks"][1:]):
            third = (right - left) // 3
            barred.append((left + third, right - third))
    # Barred stretches are open: their ends may be used.
    for a, b in barred:
        free = [piece for low, high in free for piece in ((low, min(high, a)), (max(low, b), high))
                if piece[0] <= piece[1] and (piece[1] <= a or piece[0] >= b)]
    return sorted(set(free))


def places(given, run, level):
    length, hooks, stock = run["length"], run["hooks"], given["stock"]
    free, longest = stretches(given, run, level), stock[-1]
    found = set()
    for left, right in zip(hooks, hooks[1:]):
        quarter = (right - left) // 4
        for a, b in free:
            a, b = max(a, left), min(b, right)
            if a <= b and 2 * a < left + right:
                found.add(min(max(left + quarter, a), b))
            if a <= b and 2 * b > left + right:
                found.add(min(max(right - quarter, a), b))
    if level >= 3 and hooks:
        found |= {min(b, hooks[0]) for a, b in free if a <= hooks[0]}
        found |= {max(a, hooks[-1]) for a, b in free if b >= hooks[-1]}
    allowed = lambda x: any(a <= x <= b for a, b in free)
    for bar in stock:
        for n in range(1, 9):
            found |= {x for x in (n * bar, length - n * bar) if 0 < x < length and allowed(x)}
    x = 0
    while length - x > longest:
        reached = max((min(x + longest, b) for a, b in free if a <= x + longest), default=x)
        if reached <= x:
            break
        x = reached
        found.add(x)
    x = length
    while x > longest:
        reached = min((max(x - longest, a) for a, b in free if b >= x - longest), default=x)
        if reached >= x:
            break
        x = reached
        found.add(x)
    if level == 4:
        pieces = length // longest + 1
        found |= {n * length // pieces for n in range(1, pieces)}
    return sorted(found)


def ways(given, run):
    """Level, number of pieces and the different sets of pieces a segment can be made up of."""
    length, longest = run["length"], given["stock"][-1]
    if length <= longest:
        return 0, 1, [(length,)]
    for level in range(5):
        stops = places(given, run, level)
        reached = {0: {()}}
        for pieces in range(1, length // given["min_piece"] + 2):
            further, complete = {}, set()
            for start, sets in reached.items():
                for end in [*stops, length]:
                    size = end - start
                    hooks = sum(start <= h < end or h == end == length for h in run["hooks"])
                    if given["min_piece"] <= size <= longest and hooks >= HOOKS_PER_PIECE[level]:
                        target = complete if end == length else further.setdefault(end, set())
                        target |= {tuple(sorted(known + (size,), reverse=True)) for known in sets}
            if complete:
                return level, pieces, sorted(complete)
            reached = further
            if not reached:
                break
    raise AssertionError("equal pieces are always allowed")


# Bars ---------------------------------------------------------------------------------------------

def fillings(lengths, bar, kerf):
    """Every choice of pieces a bar can be cut into that leaves no room for the shortest."""
    found = []

    def fill(first, room, chosen):
        if len(found) > MOST_FILLINGS:
            raise TooLarge
        if room < lengths[-1] + kerf:
            found.append(tuple(chosen))
            return
        for i in range(first, len(lengths)):
            if lengths[i] + kerf <= room:
                fill(i, room - lengths[i] - kerf, [*chosen, i])
        # Nothing from here on fits, or only what was passed over: cut short on purpose.
        if all(lengths[i] + kerf > room for i in range(first, len(lengths))):
            found.append(tuple(chosen))

    fill(0, bar + kerf, [])
    return [chosen for chosen in set(found) if chosen]


def optimum(given):
    kinds = {}
    for run in given["segments"]:
        level, pieces, sets = ways(given, run)
        kind = kinds.setdefault(tuple(sets), [0, sets])
        kind[0] += 1
        run["found"] = {"kept": LEVELS[level], "pieces": pieces}
    lengths = sorted({size for _, sets in kinds.values() for way in sets for size in way}, reverse=True)
    place = {size: i for i, size in enumerate(lengths)}
    bars = [(bar, chosen) for bar in given["stock"] for chosen in fillings(lengths, bar, given["kerf"])]
    taken = [(k, way) for k, (_, sets) in enumerate(kinds.values()) for way in sets]
    columns = len(bars) + len(taken)
    rows = lil_matrix((len(lengths) + len(kinds), columns))
    for column, (_, chosen) in enumerate(bars):
        for i in chosen:
            rows[i, column] += 1
    for column, (k, way) in enumerate(taken, len(bars)):
        for size in way:
            rows[place[size], column] -= 1
        rows[len(lengths) + k, column] = 1
    copies = [count for count, _ in kinds.values()]
    low = numpy.concatenate([numpy.zeros(len(lengths)), copies])
    high = numpy.concatenate([numpy.full(len(lengths), numpy.inf), copies])
    unit = math.gcd(*given["stock"])
    length = numpy.array([bar // unit for bar, _ in bars] + [0] * len(taken), dtype=float)
    count = numpy.array([1] * len(bars) + [0] * len(taken), dtype=float)
    first, second = (length, count) if given["aim"] == "least_length" else (count, length)

    def solve(cost, more=None):
        constraints = [LinearConstraint(rows.tocsr(), low, high)]
        if more is not None:
            constraints.append(more)
        answer = milp(cost, integrality=numpy.ones(columns), bounds=Bounds(0, numpy.inf), constraints=constraints,
                      options={"mip_rel_gap": 0.0, "time_limit": SECONDS})
        if answer.status == 1:
            raise TooLarge
        assert answer.status == 0, answer.message
        assert abs(answer.fun - round(answer.fun)) < 1e-5
        return round(answer.fun)

    best = solve(first)
    then = solve(second, LinearConstraint(first.reshape(1, -1), best, best))
    bought, bars_bought = (best, then) if given["aim"] == "least_length" else (then, best)
    return {
        "bought": bought * unit, "bars": bars_bought,
        "kept": [run["found"]["kept"] for run in given["segments"]],
        "pieces": [run.pop("found")["pieces"] for run in given["segments"]],
    }, (len(lengths), len(bars), len(taken))


def main():
    draw = random.Random(SEED)
    cases, anew = [], 0
    while len(cases) < CASES:
        given, began = job(draw), time.time()
        try:
            found, sizes = optimum(given)
        except TooLarge:
            anew += 1
            print("drawn anew", f"{time.time() - began:.1f} s", file=sys.stderr)
            continue
        cases.append({"id": f"job-{len(cases):03}", "given": given, "found": found})
        print(cases[-1]["id"], len(given["segments"]), sizes, found["bought"], found["bars"],
              f"{time.time() - began:.1f} s", file=sys.stderr)
    note = "Written by tests/properties/cutting_milp.py; do not edit."
    versions = {"scipy": scipy.__version__, "numpy": numpy.__version__, "solver": "HiGHS as bundled with scipy"}
    lines = ",\n  ".join(json.dumps(case) for case in cases)
    text = f'{{"note": {json.dumps(note)}, "drawn_anew": {anew},\n "versions": {json.dumps(versions)},\n "cases": [\n  {lines}\n]}}\n'
    pathlib.Path(__file__).with_name(FILE).write_text(text)


main()
