"""The rails of the boathouse worked from its loads by a frame in space: writes `handworked/boathouse_frame.json`.

The document `handworked/boathouse.md` takes the forces of one hook, one connector and the moments of two rails from
here and works on from them. Nothing of the product is used: of its answer only the places are read at which rails,
hooks and modules lie.

Loads: weight, snow (EN 1991-1-3) and wind (EN 1991-1-4 7.2.5, Tables 7.4a and 7.4b) on the modules, by the lever rule
to both upper rails of a row and to both frames of a module. Along the slope a module is held by its upper rails at
their lower faces, so that what acts on its face turns it over by the depth of a rail and its own thickness.

Frame: lower rails up the slope on hooks (a spring square to the slope and one along it), upper rails along the eaves,
joined where they cross by a stiff link from the axis of the lower rail to its upper face, which bears forces and no
moments. A force down the slope therefore turns the lower rail over. All members have their own stiffnesses, also the ones
that no load uses. X runs along the eaves, Y square to the slope, Z down it.

    pip install PyNiteFEA==3.2.0
    hookspan solve tests/data/layout-boathouse.json > answer.json
    python tests/reference/boathouse_frame.py tests/data/layout-boathouse.json answer.json > \
        tests/reference/handworked/boathouse_frame.json

A third argument works with a mistake, to see that it is found: one of the names of `MISTAKES`.
"""

import json
import math
import sys

from Pynite import FEModel3D

GRAVITY = 9.81
NOTHING = 1e-4
MISTAKES = {
    "no-lever": "the force down the slope taken to act on the axis of the lower rails",
    "lever-reversed": "the lower rails turned over the other way",
    "no-couple": "no couple of the force down the slope on the modules",
    "couple-at-axis": "upper rails held at their axes, half a depth too high",
    "stiff-supports": "upper rails on supports that do not give, lower rails under what these bear",
    "slope-shared-equally": "every crossing takes the same force down the slope",
    "areas-at-middle": "wind on a module taken to act at its middle",
    "stiff-hooks": "hooks that do not give",
}
# Another way to turn the lower rails, which is no mistake.
TURNED = "turned"

COMBINATIONS = {
    "uls:G": (1.35, 0.0, 0.0),
    "uls:G+S": (1.35, 1.5, 0.0),
    "uls:G+S+W": (1.35, 1.5, 1.5 * 0.6),
    "uls:G+W+S": (1.35, 1.5 * 0.5, 1.5),
    "uls:G+W": (1.35, 0.0, 1.5),
    "uls:G-W": (1.0, 0.0, 1.5),
    "uls:Gsup-W": (1.35, 0.0, 1.5),
    "uls:G-W+S": (1.35, 1.5 * 0.5, 1.5),
    "uls:G+S-W": (1.35, 1.5, 1.5 * 0.6),
    "sls:G": (1.0, 0.0, 0.0),
    "sls:G+S": (1.0, 1.0, 0.0),
    "sls:G+S+W": (1.0, 1.0, 0.6),
    "sls:G+W+S": (1.0, 0.5, 1.0),
    "sls:G+W": (1.0, 0.0, 1.0),
    "sls:G-W": (1.0, 0.0, 1.0),
}


def combinations():
    """Every combination by its name, with its factors and its wind (EN 1990 Eq. (6.10), (6.14b), Table A1.1)."""
    for name, factors in COMBINATIONS.items():
        if "W" not in name:
            yield name, factors, None
        elif "-W" in name:
            for direction in ("front", "back", "left", "right"):
                yield f"{name}:{direction}:lifting", factors, (direction, "lifting")
        else:
            yield f"{name}:front:pressing", factors, ("front", "pressing")


class Job:
    """The request and the places of what stands."""

    def __init__(self, request, answer, variant=None):
        self.variant = variant
        roof, parts = request["roof"], request["components"]
        site = request["site"]
        self.pitch = math.radians(roof["pitch_deg"])
        self.module = request["array"]["module"]
        self.rail, self.hook = parts["rail"], parts["hook"]
        self.screw, self.clamp = parts["screw"], parts["clamp"]
        self.roof = roof
        self.rafter = roof["rafters"]
        self.ridge, self.length, self.width = (
            roof["ridge_height_m"],
            roof["length_m"],
            roof["width_m"],
        )
        self.snow = 0.8 * (60 - roof["pitch_deg"]) / 30 * site["snow"]["ground_load_kn_per_m2"]
        v_b, z_0 = site["wind"]["basic_velocity_m_per_s"], 0.05
        logarithm = math.log(self.ridge / z_0)
        v_m = 0.19 * logarithm * v_b
        self.q_p = (1 + 7 / logarithm) * 1.25 / 2 * v_m**2 / 1000
        self.modules = [(m["id"], *m["origin_mm"], *m["size_mm"]) for m in answer["modules"]]
        self.lower = [r for r in answer["rails"] if r["layer"] == "lower"]
        self.upper = [r for r in answer["rails"] if r["layer"] == "upper"]
        self.hooks = {r["id"]: [] for r in self.lower}
        for hook in answer["hooks"]:
            self.hooks[hook["rail"]].append((hook["id"], hook["y_mm"]))

    def spring(self):
        """Stiffness of a hook square to the slope, N/mm: its arm, and its foot that turns on timber and screws."""
        foot, screw = self.hook["foot"], self.screw
        thread = min(screw["thread_length_mm"], screw["length_mm"] - foot["thickness_mm"])
        pull = 780 * screw["diameter_mm"] ** 0.2 * thread**0.4
        bed = min(foot["width_mm"], self.rafter["width_mm"]) * 370.0 / 60.0
        screws = [y for _, y in foot["screws_mm"]]
        # Pressed up to where the screws beyond hold as much.
        low, high = 0.0, foot["length_mm"]
        for _ in range(200):
            a = (low + high) / 2
            over = bed * a**2 / 2 - sum(pull * max(0.0, y - a) for y in screws)
            low, high = (low, a) if over > 0 else (a, high)
        timber = bed * a**3 / 3 + sum(pull * max(0.0, y - a) ** 2 for y in screws)
        arm = self.hook["arm"]
        bent = min(foot["width_mm"], arm["width_mm"] + max(screws))
        plate = 3 * 200_000.0 * bent * foot["thickness_mm"] ** 3 / 12 / max(screws)
        turning = 1 / (1 / timber + 1 / plate)
        own = 1 / (self.hook["stiffness"]["normal_kn_per_mm"] * 1000)
        return 1 / (own + arm["reach_mm"] ** 2 / turning)

    def zones(self, wind):
        """The zones of a wind: rectangle on the slope in mm, and coefficient on 1 m²."""
        direction, sense = wind
        at = (self.roof["pitch_deg"] - 30) / 15
        slope = self.width / 2 / math.cos(self.pitch) * 1000
        length = self.length * 1000

        def between(low, high):
            return low * (1 - at) + high * at

        if direction in ("front", "back"):
            e = min(self.length, 2 * self.ridge)
            tenth = e / 10 / math.cos(self.pitch) * 1000
            if direction == "back":
                return [
                    ((0, length, 0, slope - tenth), between(-0.4, -0.2)),
                    ((0, length, slope - tenth, slope), between(-0.5, -0.3)),
                ]
            corner, rest = (
                (0.7, between(0.4, 0.6))
                if sense == "pressing"
                else (between(-1.5, 0.0), between(-0.2, 0.0))
            )
            # F and G have one coefficient here.
            return [((0, length, 0, tenth), corner), ((0, length, tenth, slope), rest)]
        e = min(self.width, 2 * self.ridge) * 1000
        quarter = e / 4 / math.cos(self.pitch)
        strips = [
            (0, e / 10, 0, quarter, -1.5),
            (0, e / 10, quarter, slope, -2.0),
            (e / 10, e / 2, 0, slope, -1.2),
            (e / 2, length, 0, slope, -0.5),
        ]
        if direction == "right":
            strips = [(length - b, length - a, c, d, f) for a, b, c, d, f in strips]
        return [(strip[:4], strip[4]) for strip in strips]

    def on_frames(self, rail, other, normal, down, x, y, module):
        """A load at a place of a module: what one of its rails takes of it at both frames, square and down, N."""
        share = (y - other) / (rail - other)
        couple = self.height() / (other - rail)
        left, width = module[1], module[3]
        on_right = (x - left) / width
        square = normal * share + down * couple
        if self.variant == "no-couple":
            square = normal * share
        return [
            (left, square * (1 - on_right), down * share * (1 - on_right)),
            (left + width, square * on_right, down * share * on_right),
        ]

    def height(self):
        """Of the face of the modules above where their rails are held along the slope, mm."""
        depth = self.rail["depth_mm"]
        over = depth / 2 if self.variant == "couple-at-axis" else depth
        return over + self.module["thickness_mm"]

    def loads(self):
        """Of every basic load what acts on every upper rail: place, force square to the slope, force down it, N."""
        cos, sin = math.cos(self.pitch), math.sin(self.pitch)
        rows = {}
        for rail in self.upper:
            rows.setdefault(rail["row"], []).append(rail["y_mm"])
        weight = self.module["mass_kg"] * GRAVITY
        clamp = self.clamp["mass_kg"] * GRAVITY
        winds = [("front", "pressing")]
        winds += [(d, "lifting") for d in ("front", "back", "left", "right")]
        basic = {name: {rail["id"]: [] for rail in self.upper} for name in ["G", "S", *winds]}
        for rail in self.upper:
            own = rail["y_mm"]
            other = next(y for y in rows[rail["row"]] if y != own)
            of_row = sorted(
                (m for m in self.modules if int(m[0].split("/")[1]) == rail["row"]),
                key=lambda m: m[1],
            )
            for place, module in enumerate(of_row):
                _, left, bottom, width, height = module
                middle = (left + width / 2, bottom + height / 2)
                area = width * height / 1e6

                def add(name, normal, down, at):
                    basic[name][rail["id"]] += self.on_frames(
                        own, other, normal, down, *at, module
                    )

                add("G", weight * cos, weight * sin, middle)
                snow = self.snow * area * cos * 1000
                add("S", snow * cos, snow * sin, middle)
                for x, outer in ((left, place == 0), (left + width, place == len(of_row) - 1)):
                    share = clamp if outer else clamp / 2
                    basic["G"][rail["id"]].append((x, share * cos, share * sin))
                for wind in winds:
                    for (a, b, c, d), coefficient in self.zones(wind):
                        x = [max(a, left), min(b, left + width)]
                        y = [max(c, bottom), min(d, bottom + height)]
                        if x[0] >= x[1] or y[0] >= y[1]:
                            continue
                        force = self.q_p * coefficient * (x[1] - x[0]) * (y[1] - y[0]) / 1000
                        at = middle if self.variant == "areas-at-middle" else (sum(x) / 2, sum(y) / 2)
                        add(wind, force, 0.0, at)
        return basic


class Frame:
    """Both layers of rails under every basic load."""

    def __init__(self, job, lever):
        self.job, self.lever = job, lever
        self.model = FEModel3D()
        self.basic = job.loads()
        self.names = {name: name if isinstance(name, str) else ":".join(name) for name in self.basic}
        rail = job.rail
        self.model.add_material("metal", rail["modulus_n_per_mm2"], 27_000.0, 0.3, 1e-12)
        self.model.add_material("stiff", 7e7, 2.7e7, 0.3, 1e-12)
        # Where rails share their nodes none may twist the other one or bend it sideways.
        shares = lever == 0.0
        twist = NOTHING if shares else 50_000.0
        sideways = NOTHING if shares else rail["i_slope_mm4"]
        along = (rail["area_mm2"], rail["i_slope_mm4"], rail["i_normal_mm4"], twist)
        self.model.add_section("upper", *along)
        self.model.add_section("lower", along[0], sideways, *along[2:])
        self.model.add_section("link", 1e3, 1e5, 1e5, 1e5)
        for name in self.names.values():
            self.model.add_load_combo(name, {name: 1.0})

    def upper_node(self, rail, x):
        """Name of a node of an upper rail: one of a lower rail where there is no lever."""
        for low in self.job.lower if self.lever == 0.0 else []:
            if low["x_mm"] == x:
                return f"{low['id']}@{rail['y_mm']}"
        return f"{rail['id']}@{x}"

    def members(self, rail, places, node, section):
        names = []
        for a, b in zip(places, places[1:]):
            names.append(f"{rail}:{a}")
            self.model.add_member(names[-1], node(a), node(b), "metal", section)
        return names

    def weigh(self, members):
        weight = self.job.rail["mass_kg_per_m"] * GRAVITY / 1000
        for member in members:
            for direction, of in (("FY", -math.cos(self.job.pitch)), ("FZ", math.sin(self.job.pitch))):
                self.model.add_member_dist_load(member, direction, weight * of, weight * of, case="G")

    def lower_rail(self, rail, spring):
        """A lower rail on its hooks; the places of its nodes."""
        job, model = self.job, self.model
        id, x = rail["id"], rail["x_mm"]
        hooks = [y for _, y in job.hooks[id]]
        crossed = [u["y_mm"] for u in job.upper]
        places = sorted({*hooks, *crossed, rail["start_mm"], rail["end_mm"]})
        for y in places:
            model.add_node(f"{id}@{y}", x, 0.0, -y)
        self.weigh(self.members(id, places, lambda y: f"{id}@{y}", "lower"))
        slope = job.hook["stiffness"]["slope_kn_per_mm"] * 1000
        factor = 1e4 if job.variant == "stiff-hooks" else 1.0
        for y in hooks:
            model.def_support(f"{id}@{y}", True, False, False, False, True, True)
            model.def_support_spring(f"{id}@{y}", "DY", spring * factor)
            model.def_support_spring(f"{id}@{y}", "DZ", slope * factor)
        return places

    def upper_rail(self, rail):
        """An upper rail with its loads, joined to nothing yet; the places of its nodes."""
        job, model = self.job, self.model
        id, y = rail["id"], rail["y_mm"]
        crossed = [low["x_mm"] for low in job.lower]
        loads = {x for of in self.basic.values() for x, _, _ in of[id]}
        places = sorted({*crossed, *loads, rail["start_mm"], rail["end_mm"]})

        def node(x):
            return self.upper_node(rail, x)

        for x in places:
            if node(x) not in model.nodes:
                model.add_node(node(x), x, self.lever, -y)
        members = self.members(id, places, node, "upper")
        self.weigh(members)
        for name, of in self.basic.items():
            for x, normal, down in of[id]:
                model.add_node_load(node(x), "FY", -normal, case=self.names[name])
                model.add_node_load(node(x), "FZ", down, case=self.names[name])
        model.def_support(f"{id}@{places[0]}", True, False, False, True, False, False)
        return places


def solved(job, spring):
    """Of every basic load: forces of hooks and crossings, and moments and axial forces along every rail."""
    lever = job.rail["depth_mm"] / 2
    sign = -1 if job.variant == "lever-reversed" else 1
    straight = job.variant in ("no-lever", TURNED)
    frame = Frame(job, 0.0 if straight else sign * lever)
    model = frame.model
    if job.variant in ("stiff-supports", "slope-shared-equally"):
        return apart(job, spring, lever)
    lower = {rail["id"]: frame.lower_rail(rail, spring) for rail in job.lower}
    upper = {rail["id"]: frame.upper_rail(rail) for rail in job.upper}
    for low in job.lower:
        for up in [] if straight else job.upper:
            foot, top = f"{low['id']}@{up['y_mm']}", f"{up['id']}@{low['x_mm']}"
            link = f"{up['id']}/{low['id']}"
            model.add_member(link, foot, top, "stiff", "link")
            model.def_releases(link, Rxj=True, Ryj=True, Rzj=True)
    model.analyze_linear()
    found = read(frame, spring, upper, lower)
    if job.variant != TURNED:
        return found
    # The couples of those forces at the axes of the lower rails, as moments, without what turning them moves.
    for name, of in found.items():
        for id, (_, down) in of["crossings"].items():
            up, low = id.split("/")
            y = next(rail["y_mm"] for rail in job.upper if rail["id"] == up)
            model.add_node_load(f"{low}@{y}", "MX", down * lever, case=name)
    model.analyze_linear()
    return read(frame, spring, upper, lower)


def apart(job, spring, lever):
    """As a mistake: lower rails under forces of the upper ones that were found without them."""
    if job.variant == "stiff-supports":
        forces = on_stiff_supports(job, lever)
    else:
        forces = shared_equally(job, spring)
    below = Frame(job, lever)
    lower = {rail["id"]: below.lower_rail(rail, spring) for rail in job.lower}
    for (crossing, name), (square, down) in forces.items():
        up, low = crossing.split("/")
        at = f"{low}@{next(rail['y_mm'] for rail in job.upper if rail['id'] == up)}"
        below.model.add_node_load(at, "FY", -square, case=name)
        below.model.add_node_load(at, "FZ", down, case=name)
        below.model.add_node_load(at, "MX", down * lever, case=name)
    below.model.analyze_linear()
    return read(below, spring, {}, lower, forces)


def on_stiff_supports(job, lever):
    """What upper rails bear on, by crossing and basic load, on supports that do not give."""
    above = Frame(job, lever)
    for rail in job.upper:
        above.upper_rail(rail)
    nodes = {
        f"{up['id']}/{low['id']}": above.model.nodes[f"{up['id']}@{low['x_mm']}"]
        for up in job.upper
        for low in job.lower
    }
    for node in nodes.values():
        held = (node.support_DX, True, True, node.support_RX, False, False)
        above.model.def_support(node.name, *held)
    above.model.analyze_linear()
    return {
        (crossing, name): (node.RxnFY[name], -node.RxnFZ[name])
        for crossing, node in nodes.items()
        for name in above.names.values()
    }


def shared_equally(job, spring):
    """What goes on where rails cross, what acts down the slope taken as the same under all of an upper rail."""
    variant, job.variant = job.variant, None
    found = solved(job, spring)
    job.variant = variant
    forces = {}
    for name, of in found.items():
        for up in job.upper:
            pairs = {id: of["crossings"][id] for id in (f"{up['id']}/{low['id']}" for low in job.lower)}
            mean = sum(down for _, down in pairs.values()) / len(pairs)
            forces.update({(id, name): (square, mean) for id, (square, _) in pairs.items()})
    return forces


def passed_on(model, rail, places, at, name):
    """What the parts of an upper rail to either side of a crossing put on it: square to the slope and down it."""
    total = [0.0, 0.0]
    for start, end in ((at - 1, 6), (at, 0)):
        if 0 <= start < len(places) - 1:
            member = model.members[f"{rail}:{places[start]}"]
            force = member.T()[:3, :3].T @ member.f(name)[end : end + 3].reshape(3, 1)
            total = [total[0] + float(force[1, 0]), total[1] - float(force[2, 0])]
    return tuple(total)


def read(frame, spring, upper, lower, forces=None):
    job, model = frame.job, frame.model
    slope = job.hook["stiffness"]["slope_kn_per_mm"] * 1000
    factor = 1e4 if job.variant == "stiff-hooks" else 1.0
    out = {}
    for name in frame.names.values():
        of = out[name] = {"hooks": {}, "crossings": {}, "along": {}}
        for rail, hooks in job.hooks.items():
            for id, y in hooks:
                node = model.nodes[f"{rail}@{y}"]
                of["hooks"][id] = (
                    -node.DY[name] * spring * factor,
                    node.DZ[name] * slope * factor,
                )
        for low in job.lower:
            for up in job.upper:
                id = f"{up['id']}/{low['id']}"
                if forces is not None:
                    of["crossings"][id] = forces[id, name]
                    continue
                at = upper[up["id"]].index(low["x_mm"])
                of["crossings"][id] = passed_on(model, up["id"], upper[up["id"]], at, name)
        for rail, places in {**upper, **lower}.items():
            rows = of["along"][rail] = []
            for a, b in zip(places, places[1:]):
                member = model.members[f"{rail}:{a}"]
                for x, at in ((0.0, a), (member.L(), b)):
                    rows.append(
                        (
                            at,
                            float(member.moment("Mz", x, name)),
                            float(member.moment("My", x, name)),
                            float(member.axial(x, name)),
                        )
                    )
    return out


def combined(basic):
    """Every combination of what the basic loads give."""
    out = {}
    for name, (permanent, snow, wind), of in combinations():
        parts = [(permanent, "G"), (snow, "S")] + ([(wind, ":".join(of))] if of else [])
        one = out[name] = {}
        for kind in ("hooks", "crossings"):
            one[kind] = {
                id: tuple(sum(f * basic[load][kind][id][k] for f, load in parts) for k in (0, 1))
                for id in basic["G"][kind]
            }
        one["along"] = {
            rail: [
                (
                    row[0],
                    *(sum(f * basic[load]["along"][rail][i][k] for f, load in parts) for k in (1, 2, 3)),
                )
                for i, row in enumerate(rows)
            ]
            for rail, rows in basic["G"]["along"].items()
        }
    return out


# Those that are written down: what governs somewhere, and one in use.
WRITTEN = (
    "uls:G+S+W:front:pressing",
    "uls:G-W:left:lifting",
    "uls:G-W:right:lifting",
    "sls:G+S+W:front:pressing",
)


def bent(job, out):
    """Of every rail the place and the combination of strength in which it is used most by bending, kN and m.

    EN 1999-1-1 6.2.5 and 6.2.3, both axes and what acts along the rail added linearly; along it also EN 1999-1-1
    6.3.1.2, with the longest part between hooks, a free end counted twice.
    """
    rail = job.rail
    strength = rail["proof_strength_n_per_mm2"] / 1.1
    normal, slope = (rail[f"w_{name}_mm3"] * strength for name in ("normal", "slope"))
    along = rail["area_mm2"] * strength
    softer = min(rail["i_normal_mm4"], rail["i_slope_mm4"]) * rail["modulus_n_per_mm2"]
    found = {}
    for of in [*job.lower, *job.upper]:
        most = None
        hooks = [y for _, y in job.hooks.get(of["id"], [])]
        if hooks:
            parts = [b - a for a, b in zip(hooks, hooks[1:])]
            free = [2 * (hooks[0] - of["start_mm"]), 2 * (of["end_mm"] - hooks[-1])]
            critical = math.pi**2 * softer / max(parts + free) ** 2
        for name, one in out.items():
            if not name.startswith("uls"):
                continue
            rows = one["along"][of["id"]]
            for at in {row[0] for row in rows}:
                here = [row for row in rows if row[0] == at]
                m_n = max(abs(row[1]) for row in here)
                m_s = max(abs(row[2]) for row in here)
                n = max(abs(row[3]) for row in here)
                if hooks:
                    used = m_n / normal / (1 - n / critical) + n / along
                else:
                    used = m_n / normal + m_s / slope
                if most is None or used > most[0]:
                    most = (used, name, at, m_n / 1e6, m_s / 1e6, n / 1e3)
        used, name, at, m_n, m_s, n = most
        values = {"x": at, "M_n": m_n, "M_s": m_s} if not hooks else {"x": at, "M_n": m_n, "N": n}
        found[f"{of['id']}/{name}/rail_bending"] = {
            **{key: round(value, 6) for key, value in values.items()},
            "u": round(used, 5),
        }
    return found


def written(out, names):
    """Forces of hooks and crossings in these combinations: square to the slope and down it, kN."""
    return {
        name: {
            kind: {id: [round(f / 1000, 6) + 0.0 for f in pair] for id, pair in out[name][kind].items()}
            for kind in ("hooks", "crossings")
        }
        for name in names
    }


def text(value, depth=0):
    """JSON with the forces of one kind in one combination on a line."""
    if isinstance(value, dict) and (depth < 2 or any(isinstance(v, dict) for v in value.values())):
        pad = "  " * (depth + 1)
        rows = [f"{pad}{json.dumps(key)}: {text(of, depth + 1)}" for key, of in value.items()]
        return "{\n" + ",\n".join(rows) + "\n" + "  " * depth + "}"
    return json.dumps(value, ensure_ascii=False)


def main():
    request, answer = (json.load(open(path)) for path in sys.argv[1:3])

    def solve(as_if=None):
        job = Job(request, answer, as_if)
        return job, combined(solved(job, job.spring()))

    if len(sys.argv) > 3:
        out = solve(sys.argv[3])[1]
        print(text(written(out, out)))
        return
    job, links = solve()
    result = {
        "source": "PyNiteFEA 3.2.0, frame in space; tests/reference/boathouse_frame.py",
        "links": written(links, WRITTEN),
        "turned": written(solve(TURNED)[1], WRITTEN),
        "bending": bent(job, links),
        "mistakes": {},
    }
    for mistake, why in MISTAKES.items():
        wrong = written(solve(mistake)[1], WRITTEN[:2])
        result["mistakes"][mistake] = {"what": why, **wrong}
    print(text(result))


if __name__ == "__main__":
    main()
