"""Rails that cross, solved as frames in space by PyNiteFEA: writes the cases of `cases/mechanics/crossing.json`.

Lower rails lie up the slope on hooks, upper ones along the eaves on them. Every rail is a row of members in space
with both of its bending stiffnesses and its axial one and next to no torsion; where two cross they share a node. A
hook is two springs, square to the slope and along it. In the solver's axes X is along the eaves, Y square to the
slope, and -Z up the slope. Nothing of the product is used here.

    pip install PyNiteFEA==3.2.0
    python tests/reference/crossing_frames.py > tests/reference/cases/mechanics/crossing.json
"""

import json
import random

from Pynite import FEModel3D

E = 70_000.0
# Next to nothing, so that no rail twists another one and none bends out of the way of its own plane.
NOTHING = 1e-4


def hook_forces(case):
    """Force of every hook, N: square to the slope and down it."""
    model = FEModel3D()
    model.add_material("metal", E, 27_000.0, 0.3, 1e-12)
    normal, slope = case["rigidity_normal_nmm2"] / E, case["rigidity_slope_nmm2"] / E
    area = case["rigidity_axial_n"] / E
    model.add_section("upper", area, slope, normal, NOTHING)
    model.add_section("lower", area, NOTHING, normal, NOTHING)

    def rail(name, section, places, node):
        for a, b in zip(places, places[1:]):
            model.add_member(f"{name}:{a}", node(a), node(b), "metal", section)

    def node(x, y):
        name = f"{x}/{y}"
        if name not in model.nodes:
            model.add_node(name, x, 0.0, -y)
        return name

    for l, x in enumerate(case["lower_x_mm"]):
        hooks = case["hooks_y_mm"][l]
        places = sorted(set(hooks) | set(case["upper_y_mm"]) | set(case["lower_ends_mm"]))
        rail(f"lower {l}", "lower", places, lambda y: node(x, y))
        for place, y in enumerate(hooks):
            name = node(x, y)
            model.def_support_spring(name, "DY", case["spring_normal_n_per_mm"])
            model.def_support_spring(name, "DZ", case["spring_slope_n_per_mm"])
            model.def_support(name, True, False, False, False, True, True)
    for u, y in enumerate(case["upper_y_mm"]):
        loads = case["loads"][u]
        places = sorted(
            set(case["lower_x_mm"]) | {x for x, _, _ in loads} | set(case["upper_ends_mm"])
        )
        rail(f"upper {u}", "upper", places, lambda x: node(x, y))
        for x, normal, down in loads:
            model.add_node_load(node(x, y), "FY", -normal)
            model.add_node_load(node(x, y), "FZ", down)
    model.analyze_linear()
    forces = {}
    for l, x in enumerate(case["lower_x_mm"]):
        for place, y in enumerate(case["hooks_y_mm"][l]):
            at = model.nodes[node(x, y)]
            name = f"hook_{l + 1}_{place + 1}"
            forces[f"{name}_normal_n"] = -at.DY["Combo 1"] * case["spring_normal_n_per_mm"]
            forces[f"{name}_slope_n"] = at.DZ["Combo 1"] * case["spring_slope_n_per_mm"]
    return forces


def drawn(seed):
    """Rails drawn at random: two to five lower ones, two to four upper ones, modules that press, lift and slip."""
    draw = random.Random(seed)
    lower = [float(draw.randrange(300, 700))]
    for _ in range(draw.randrange(1, 5)):
        lower.append(lower[-1] + draw.randrange(500, 1300))
    upper = [float(draw.randrange(300, 500))]
    for _ in range(draw.randrange(1, 4)):
        upper.append(upper[-1] + draw.randrange(500, 1000))
    lower_ends = [upper[0] - 60.0, upper[-1] + 60.0]
    upper_ends = [lower[0] - draw.randrange(100, 300), lower[-1] + draw.randrange(100, 300)]
    hooks = []
    for _ in lower:
        first = lower_ends[0] + draw.randrange(10, 200)
        places = [first]
        while places[-1] + 250 < lower_ends[1] - 20 and len(places) < 5:
            places.append(places[-1] + draw.randrange(160, 240) * draw.choice([1, 2]))
        places = [y for y in places if y <= lower_ends[1]]
        if len(places) < 2:
            places = [lower_ends[0] + 15.0, lower_ends[1] - 15.0]
        # No hook stands where an upper rail lies.
        hooks.append([y + 7.0 if y in upper else y for y in places])
    loads = []
    for _ in upper:
        count = draw.randrange(2, 7)
        places = sorted(draw.sample(range(int(upper_ends[0]), int(upper_ends[1])), count))
        places = [x + 0.5 for x in places]
        loads.append(
            [[x, float(draw.randrange(-700, 1500)), float(draw.randrange(0, 500))] for x in places]
        )
    return {
        "lower_x_mm": lower,
        "lower_ends_mm": lower_ends,
        "hooks_y_mm": hooks,
        "upper_y_mm": upper,
        "upper_ends_mm": upper_ends,
        "loads": loads,
        "rigidity_normal_nmm2": E * draw.choice([60_000.0, 92_000.0, 210_000.0]),
        "rigidity_slope_nmm2": E * draw.choice([40_000.0, 61_000.0, 150_000.0]),
        "rigidity_axial_n": E * draw.choice([250.0, 352.0, 600.0]),
        "spring_normal_n_per_mm": draw.choice([60.0, 130.0, 400.0]),
        "spring_slope_n_per_mm": draw.choice([300.0, 550.0, 1200.0]),
    }


def main():
    cases = []
    for seed in range(1, 13):
        inputs = drawn(seed)
        expected = {
            name: {"value": round(value, 4), "abs": 0.05}
            for name, value in hook_forces(inputs).items()
        }
        cases.append(
            {
                "id": f"crossing-rails-{seed}",
                "kind": "crossing_beams",
                "origin": "other_program",
                "source": "PyNiteFEA 3.2.0, frame in space; tests/reference/crossing_frames.py",
                "inputs": inputs,
                "expected": expected,
            }
        )
    lines = ",\n  ".join(json.dumps(case) for case in cases)
    print(f"[\n  {lines}\n]")


if __name__ == "__main__":
    main()
