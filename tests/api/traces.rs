//! Can an answer be followed by hand? Every utilisation it tells is computed once more from the
//! numbers of its trace, by formulas written down here.

use std::collections::{BTreeMap, BTreeSet};

use hookspan::checks::Check;
use serde_json::{Value, json};

use crate::server::{BARN, COTTAGE, TWO_MODULES, answer, example, list, number};

/// Several fields, several segments to a rail.
const BOATHOUSE: &str = include_str!("../data/layout-boathouse.json");
const STABLE: &str = include_str!("../data/layout-stable.json");

/// Element, symbol, value; and the screws and the thickness of a foot.
struct Trace(BTreeMap<String, BTreeMap<String, f64>>, Vec<[f64; 2]>, f64);

impl Trace {
    fn of(job: &Value, answer: &Value) -> Self {
        let screws = list(&job["components"]["hook"]["foot"]["screws_mm"]);
        let screws = screws.iter().map(|at| [number(&at[0]), number(&at[1])]).collect();
        let mut lines = BTreeMap::<_, BTreeMap<_, _>>::new();
        for line in list(&answer["trace"]) {
            let text = |member: &str| line[member].as_str().expect("a text").to_owned();
            lines
                .entry(text("element"))
                .or_default()
                .insert(text("symbol"), number(&line["value"]));
        }
        Self(lines, screws, number(&job["components"]["hook"]["foot"]["thickness_mm"]))
    }

    /// Where a screw stands from the centre of all.
    fn beside_centre(&self, screw: usize) -> [f64; 2] {
        let count = self.1.len() as f64;
        [0, 1]
            .map(|axis| self.1[screw][axis] - self.1.iter().map(|at| at[axis]).sum::<f64>() / count)
    }

    fn value(&self, element: &str, symbol: &str) -> f64 {
        let value = self.0.get(element).and_then(|of| of.get(symbol));
        *value.unwrap_or_else(|| panic!("no {symbol} of {element}"))
    }

    fn symbols<const N: usize>(&self, element: &str, symbols: [&str; N]) -> [f64; N] {
        symbols.map(|symbol| self.value(element, symbol))
    }

    /// What lies between an element and the name of one of its checks: its combinations.
    fn places<'a>(&'a self, element: &str, check: &str) -> Vec<&'a str> {
        let (start, end) = (format!("{element}/"), format!("/{check}"));
        let names = self.0.keys();
        names.filter_map(|name| name.strip_prefix(&*start)?.strip_suffix(&*end)).collect()
    }
}

fn close(have: f64, want: f64, what: &str) {
    assert!((have - want).abs() <= 1e-6 * want.abs() + 1e-9, "{what}: {have}, by hand {want}");
}

/// Moments are traced in kN·m, everything else of a foot in kN and mm.
const MM: f64 = 1000.0;

/// An edge of a foot, from its arms and the forces of its hook: moment of its loads, all that is
/// pulled, and utilisation of the strip.
fn edge(trace: &Trace, element: &str, sign: f64, [n, s]: [f64; 2]) -> [f64; 3] {
    let [e_n, h, y, spread, longest, width, q] =
        trace.symbols(element, ["e_N", "h", "y", "s", "a_max", "b", "q"]);
    let [highest, lowest] = trace.symbols("foot", ["h_max", "h_min"]);
    close(h, if sign * s > 0.0 { highest } else { lowest }, &format!("h of {element}"));
    let [touched, aside] = trace.symbols(element, ["B", "e"]);
    let off = if sign > 0.0 { y / (y + e_n) } else { y / (e_n - y) };
    let narrowed = (touched - 2.0 * aside * off).max(touched / 5.0);
    close(width, narrowed, &format!("b of {element}"));
    let moment = sign * (n * e_n + s * h);
    close(trace.value(element, "M") * MM, moment, &format!("M of {element}"));
    assert!(q > 0.0 && width > 0.0);
    let q = q / 1000.0;
    let about_pulls = moment + n * y;
    if about_pulls <= 0.0 {
        return [moment.max(0.0), (moment / y).max(0.0), 0.0];
    }
    let most = q * (longest + longest.min(spread)) * (y - longest / 2.0);
    close(trace.value(element, "M_y,max") * MM, most, &format!("M_y,max of {element}"));
    let used = about_pulls / most;
    // The strip: two branches, as short as its spread or longer.
    let short = y - (y * y - about_pulls / q).max(0.0).sqrt();
    let from = y - spread / 2.0;
    let long = from - (from * from - 2.0 * (about_pulls / q - spread * y)).max(0.0).sqrt();
    let strip = if used >= 1.0 {
        longest
    } else if short <= spread {
        short
    } else {
        long
    };
    let pressed = about_pulls / (y - strip / 2.0);
    close(trace.value(element, "a"), strip, &format!("a of {element}"));
    close(trace.value(element, "C"), pressed, &format!("C of {element}"));
    [moment.max(0.0), (pressed - n).max(0.0), used]
}

fn screws(trace: &Trace, hook: &str, combination: &str, forces: [f64; 2]) -> f64 {
    let [n, s] = forces;
    let foot = format!("{hook}/{combination}/foot");
    let lower = edge(trace, &format!("{foot}/lower"), 1.0, forces);
    let upper = edge(trace, &format!("{foot}/upper"), -1.0, forces);
    let [pull_rd, shear_rd] = trace.symbols(&format!("screw/{combination}"), ["F_ax,Rd", "F_v,Rd"]);
    let mut most = 0.0_f64;
    for i in 1.. {
        let screw = format!("{hook}/{combination}/screws/{i}");
        if !trace.0.contains_key(&screw) {
            break;
        }
        let of_edge = |[moment, pull, _]: [f64; 3], which: &str| {
            let sharp = trace.value(&screw, &format!("d/Σd², {which}"));
            (moment * sharp).max(pull * trace.value(&screw, &format!("w/Σw, {which}")))
        };
        let [count, sideways, per_slope] = trace.symbols(&screw, ["n", "T_e", "V/S"]);
        let [squares, lever] = trace.symbols(&screw, ["Σr²", "λ"]);
        let [x, y] = trace.beside_centre(i - 1);
        let turned = lever / squares;
        close(per_slope, (1.0 / count + turned * x).hypot(turned * y), &format!("V/S of {screw}"));
        let tilted = of_edge(lower, "lower").max(of_edge(upper, "upper"));
        let pull = tilted.max((-n).max(0.0) / count) + sideways;
        let shear = s.abs() * per_slope;
        close(trace.value(&screw, "T"), pull, &format!("T of {screw}"));
        close(trace.value(&screw, "V"), shear, &format!("V of {screw}"));
        let used = (pull / pull_rd).hypot(shear / shear_rd);
        close(trace.value(&screw, "u"), used, &format!("u of {screw}"));
        most = most.max(used);
    }
    most
}

fn bearing(trace: &Trace, hook: &str, combination: &str, forces: [f64; 2]) -> f64 {
    let element = format!("{hook}/{combination}/foot_bearing");
    let [f_k, k_mod, gamma_m, k_c_90, area] =
        trace.symbols(&element, ["f_c,90,k", "k_mod", "γ_M", "k_c,90", "A_b"]);
    let borne = k_c_90 * k_mod * f_k / gamma_m;
    let foot = format!("{hook}/{combination}/foot");
    let flat = forces[0].max(0.0) * 1000.0 / (borne * area);
    ["lower", "upper"].into_iter().zip([1.0, -1.0]).fold(flat, |most, (which, sign)| {
        let name = format!("{foot}/{which}");
        close(trace.value(&name, "q"), borne * trace.value(&name, "b"), &format!("q of {name}"));
        most.max(edge(trace, &name, sign, forces)[2])
    })
}

fn bolt(trace: &Trace, element: &str, [n, s]: [f64; 2]) -> f64 {
    let [shear_rd, tension_rd, prying] = trace.symbols(element, ["F_v,Rd", "F_t,Rd", "off/d"]);
    let way = |shear: f64, tension: f64| {
        (shear / shear_rd + tension / (1.4 * tension_rd)).max(tension / tension_rd)
    };
    let pry = n.abs() * prying;
    let along = way(n.abs(), s.abs() + pry);
    let square = way(s.abs(), (-n).max(0.0) + pry);
    let slip = trace.0[element].get("F_slip").map_or(0.0, |slip| n.abs() / slip);
    along.max(square).max(slip)
}

/// The height of the bolt, and the spring of a hook with its cross share, from what its foot is set like.
fn spring(trace: &Trace, clearance: &str) -> [f64; 2] {
    let [bolt, packers, soft, clamped, up, down] =
        trace.symbols("foot", ["h_0", "h_p", "h_w", "h_c", "h_s", "h_s'"]);
    let [highest, lowest] = trace.symbols("foot", ["h_max", "h_min"]);
    close(highest, bolt + packers + soft + clamped + up, "h_max");
    close(lowest, bolt - down, "h_min");
    let [rise, run, upstand] = trace.symbols("foot", ["h_1", "a", "h_2"]);
    let normal = run * run * rise + run.powi(3) / 3.0;
    let height = rise + upstand;
    let cross = run * (height * height - upstand * upstand) / 2.0 + run * run * upstand / 2.0;
    close(trace.value("foot", "EI·δ_NN"), normal, "EI·δ_NN");
    close(trace.value("foot", "EI·δ_NS"), cross, "EI·δ_NS");
    close(trace.value("foot", "r_a"), cross / normal, "r_a");
    if !trace.0["foot"].contains_key("K_φ") {
        return [trace.value(clearance, "k"), cross / normal / (1.0 + trace.value("foot", "κ"))];
    }
    let [modulus, depth, width, screw, pressed, turning, reach] =
        trace.symbols("foot", ["E_90", "t_90", "b_90", "k_ax", "a_φ", "K_φ", "e_φ"]);
    let bed = modulus / depth * width;
    let pulls = |power: i32| -> f64 {
        trace.1.iter().map(|at| (at[1] - pressed).max(0.0).powi(power)).sum()
    };
    close(bed * pressed * pressed / 2.0, screw * pulls(1), "balance of the turning foot");
    close(turning * 1e6, bed * pressed.powi(3) / 3.0 + screw * pulls(2), "K_φ");
    let [far, wide, plate, both] = trace.symbols("foot", ["y_f", "b_p", "K_p", "K"]);
    close(far, trace.1.iter().map(|at| at[1]).fold(0.0, f64::max), "y_f");
    let thickness = trace.2;
    close(plate * 1e6, 3.0 * 200e3 * wide * thickness.powi(3) / 12.0 / far, "K_p");
    close(both, 1.0 / (1.0 / turning + 1.0 / plate), "K");
    let foot = both * 1e3 / trace.value("foot", "γ_φ") / reach.powi(2);
    close(trace.value(clearance, "k_f"), foot, "k_f");
    let arm = trace.value(clearance, "k_a");
    let both = 1.0 / (1.0 / arm + 1.0 / foot);
    let beyond = reach - run;
    close(reach, run + beyond.max(0.0), "e_φ");
    let turned = trace.value("foot", "κ");
    if turned > 0.0 {
        close(turned, beyond * (run * rise + run * run / 2.0) / normal, "κ");
    }
    [both, both * (cross / normal / arm / (1.0 + turned) + highest / (reach * foot))]
}

fn of_hook(trace: &Trace, hook: &str, check: &str, combination: &str) -> f64 {
    let forces = trace.symbols(&format!("{hook}/{combination}"), ["N", "S"]);
    let [n, s] = forces;
    let element = format!("{hook}/{combination}/{check}");
    match check {
        "hook" => {
            let [by_normal, by_slope] = trace.symbols(&element, ["R_N", "R_S"]);
            n.abs() / by_normal + s.abs() / by_slope
        }
        "bolt" => bolt(trace, &element, forces),
        "screws/1" => screws(trace, hook, combination, forces),
        "foot_bearing" => bearing(trace, hook, combination, forces),
        "clearance" => {
            let [stiffness, cross, clearance] = trace.symbols(&element, ["k", "r", "c"]);
            let [stiff, share] = spring(trace, &element);
            close(stiffness, stiff, &format!("k of {element}"));
            close(cross, share, &format!("r of {element}"));
            (n + cross * s.max(0.0)).max(0.0) / stiffness / clearance
        }
        other => panic!("{other} is a check of no hook"),
    }
}

fn of_rail(trace: &Trace, element: &str) -> f64 {
    if element.ends_with("rail_bending") && trace.0[element].contains_key("N") {
        // A rail up the slope, pressed along its axis.
        let [normal, axial, critical] = trace.symbols(element, ["M_n", "N", "N_cr"]);
        let [normal_rd, axial_rd] = trace.symbols("rail", ["M_n,Rd", "N_Rd"]);
        normal.abs() / normal_rd / (1.0 - axial.abs() / critical) + axial.abs() / axial_rd
    } else if element.ends_with("/crossing") {
        let [normal, slope, lift_rd, slide_rd] = trace.symbols(element, ["N", "S", "N_Rd", "S_Rd"]);
        (-normal).max(0.0) / lift_rd + slope.abs() / slide_rd
    } else if element.ends_with("rail_bending") {
        let [normal, slope] = trace.symbols(element, ["M_n", "M_s"]);
        let [normal_rd, slope_rd] = trace.symbols("rail", ["M_n,Rd", "M_s,Rd"]);
        normal.abs() / normal_rd + slope.abs() / slope_rd
    } else if element.ends_with("splice") {
        let [normal, slope, normal_rd, slope_rd] =
            trace.symbols(element, ["M_n", "M_s", "M_n,Rd", "M_s,Rd"]);
        normal.abs() / normal_rd + slope.abs() / slope_rd
    } else {
        let [length, deflection] = trace.symbols(element, ["l", "w"]);
        deflection / (length / trace.value("rail", "l/w"))
    }
}

fn of_module(trace: &Trace, element: &str) -> f64 {
    if element.ends_with("/clamp") {
        let [lift, resistance] = trace.symbols(element, ["F_lift", "R_lift"]);
        lift / resistance
    } else if element.ends_with("/clamp_slip") {
        if trace.0[element].contains_key("F_stop") {
            let [force, resistance] = trace.symbols(element, ["F_stop", "R_stop"]);
            return force / resistance;
        }
        let [slope, lift] = trace.symbols(element, ["F_slope", "F_lift"]);
        let [slope_rd, lift_rd] = trace.symbols(element, ["R_slope", "R_lift"]);
        slope / slope_rd + lift / lift_rd
    } else {
        let parts = trace.symbols(element, ["G_d", "S_d", "A_d", "W_d"]);
        let [area, capacity] = trace.symbols(element, ["A", "p_Rd"]);
        parts.iter().sum::<f64>().abs() / area / capacity
    }
}

fn of_rafter(trace: &Trace, element: &str, [width, depth]: [f64; 2]) -> f64 {
    let [k_mod, gamma_m] = trace.symbols(element, ["k_mod", "γ_M"]);
    if element.ends_with("bending") {
        let [moment, strength] = trace.symbols(element, ["M", "f_m,k"]);
        let k_h = (150.0 / depth).powf(0.2).clamp(1.0, 1.3);
        let stress = moment * 1e6 / (width * depth * depth / 6.0);
        stress / (k_h * k_mod * strength / gamma_m)
    } else {
        let [shear, k_cr, strength] = trace.symbols(element, ["V", "k_cr", "f_v,k"]);
        let stress = 1.5 * shear * 1e3 / (k_cr * width * depth);
        stress / (k_mod * strength / gamma_m)
    }
}

/// Holds every utilisation of an answer against the trace; tells which checks were met.
fn follow(job: &Value, met: &mut BTreeSet<String>) {
    let answer = answer("/v1/layouts?trace=full", job);
    let trace = Trace::of(job, &answer);
    let mut compare = |told: &Value, id: &str, check: &str, by_hand: &dyn Fn(&str) -> f64| {
        let Some(told) = told.as_f64().filter(|told| *told > 0.0) else { return };
        let places = trace.places(id, check);
        assert!(!places.is_empty(), "no terms of {check} of {id}, used to {told}");
        let most = places.iter().fold(0.0_f64, |most, place| {
            let used = by_hand(place);
            close(
                trace.value(&format!("{id}/{place}/{check}"), "u"),
                used,
                &format!("{check} {id}"),
            );
            most.max(used)
        });
        // What is told is rounded up to four decimals.
        assert!((-1e-6..=1e-4 + 1e-6).contains(&(told - most)), "{check} of {id}: {told}, {most}");
        met.insert(check.split('/').next().unwrap_or(check).to_owned());
    };
    for hook in list(&answer["hooks"]) {
        let id = hook["id"].as_str().expect("a name");
        for check in ["hook", "bolt", "foot_bearing", "clearance"] {
            let by_hand = |place: &str| of_hook(&trace, id, check, place);
            compare(&hook["utilisation"][check], id, check, &by_hand);
        }
        // The most used screw is not always the first: its own terms are compared with `screws`.
        let told = number(&hook["utilisation"]["screws"]);
        let [place] = trace.places(id, "screws/1")[..] else { panic!("no screws of {id}") };
        let used = of_hook(&trace, id, "screws/1", place);
        assert!((-1e-6..=1e-4 + 1e-6).contains(&(told - used)), "screws of {id}: {told}, {used}");
    }
    for rail in list(&answer["rails"]) {
        let id = rail["id"].as_str().expect("a name");
        for (member, check) in [
            ("bending", "rail_bending"),
            ("deflection", "rail_deflection"),
            ("splice", "splice"),
            ("crossing", "crossing"),
        ] {
            let by_hand = |place: &str| of_rail(&trace, &format!("{id}/{place}/{check}"));
            compare(&rail["utilisation_by_check"][member], id, check, &by_hand);
        }
    }
    for module in list(&answer["modules"]) {
        let id = module["id"].as_str().expect("a name");
        for (member, check) in [
            ("press", "module/press"),
            ("lift", "module/lift"),
            ("clamp", "clamp"),
            ("clamp_slip", "clamp_slip"),
        ] {
            let by_hand = |place: &str| of_module(&trace, &format!("{id}/{place}/{check}"));
            compare(&module["utilisation"][member], id, check, &by_hand);
        }
    }
    let rafters = &job["roof"]["rafters"];
    let section = ["width_mm", "depth_mm"].map(|side| number(&rafters[side]));
    for rafter in list(&answer["rafters"]) {
        for (member, id) in [
            ("utilisation", format!("rafter/{}", rafter["rafter"])),
            ("before", format!("rafter/{}/before", rafter["rafter"])),
        ] {
            for check in ["bending", "shear"] {
                let name = format!("rafter_{check}");
                let by_hand =
                    |place: &str| of_rafter(&trace, &format!("{id}/{place}/{name}"), section);
                compare(&rafter[member][check], &id, &name, &by_hand);
            }
        }
    }
    if !list(&answer["hooks"]).is_empty() {
        met.insert("screws".to_owned());
    }
}

/// A bolt beside the axis of its rail, in a slot: the examples have it in the declared resistance.
fn with_a_bolt() -> Value {
    let mut job = example(BARN);
    let hook = &mut job["components"]["hook"];
    hook["resistance"]["includes_bolt"] = json!(false);
    hook["bolt"] = json!({"diameter_mm": 8.0, "class": "A2-70", "slot_slip_kn": 2.5});
    job["components"]["rail"]["axis_offset_mm"] = json!(10.0);
    job
}

/// A stop below the lowest row takes the slope force from its clamps.
fn with_a_stop() -> Value {
    let mut job = example(COTTAGE);
    job["components"]["clamp"]["slope_stop_kn"] = json!(4.0);
    job
}

/// Rails of pieces, with what their splices bear.
fn with_splices() -> Value {
    let mut job = example(BARN);
    job["components"]["rail"]["splice_moment"] = json!({"normal_knm": 0.8, "slope_knm": 0.4});
    job
}

#[test]
fn every_utilisation_can_be_computed_from_the_trace_alone() {
    let mut met = BTreeSet::new();
    for job in [
        example(BARN),
        example(COTTAGE),
        example(STABLE),
        example(TWO_MODULES),
        with_a_bolt(),
        with_a_stop(),
        with_splices(),
        example(BOATHOUSE),
    ] {
        follow(&job, &mut met);
    }
    for check in Check::ALL {
        assert!(
            met.iter().any(|met| met.starts_with(check.name())),
            "{} was not met",
            check.name()
        );
    }
}

/// What loads a rail, from the numbers of the trace and the factors of the combinations: every combination
/// is in balance with the forces of its hooks, square to the roof, down it, and about an end.
#[test]
fn the_loads_of_a_rail_are_borne_by_its_hooks() {
    for job in [example(BARN), example(COTTAGE), example(TWO_MODULES)] {
        let answer = answer("/v1/layouts?trace=full", &job);
        let trace = Trace::of(&job, &answer);
        let [along, down] = trace.symbols("rail", ["g_N", "g_S"]);
        let mut seen = 0;
        for rail in list(&answer["rails"]) {
            let id = rail["id"].as_str().expect("a name");
            assert_eq!(list(&rail["segments"]).len(), 1, "one beam a rail");
            let [start, end] = ["start_mm", "end_mm"].map(|member| number(&rail[member]));
            let of_rail = |symbol: &str| trace.value(id, symbol);
            let prefix = format!("{id}/");
            let modules: BTreeSet<&str> = trace
                .0
                .keys()
                .filter_map(|name| Some(name.strip_prefix(&*prefix)?.rsplit_once('/')?.0))
                .filter(|name| list(&answer["modules"]).iter().any(|module| module["id"] == *name))
                .collect();
            for combination in list(&answer["actions"]["combinations"]) {
                let name = combination["id"].as_str().expect("a name");
                let factor = |member: &str| combination[member].as_f64().unwrap_or(0.0);
                // Such as uls:G+S+W:front:pressing.
                let wind = name.splitn(3, ':').nth(2).filter(|_| factor("wind") > 0.0);
                // [force, moment about the start] square to the roof and down it.
                let length = (end - start) / 1e3;
                let mut loads = [along, down].map(|g| {
                    let force = factor("weight") * g * length;
                    [force, force * length / 2.0]
                });
                for module in &modules {
                    let found = list(&answer["modules"]).iter().find(|m| m["id"] == *module);
                    let found = found.expect("it was filtered for");
                    let [x, wide] = [&found["origin_mm"][0], &found["size_mm"][0]].map(number);
                    let column: u32 =
                        module.rsplit('/').next().and_then(|c| c.parse().ok()).expect("one");
                    for (side, at) in [x, x + wide].into_iter().enumerate() {
                        let is_end = modules.iter().all(|other| {
                            let of: u32 =
                                other.rsplit('/').next().and_then(|c| c.parse().ok()).expect("one");
                            if side == 0 { of >= column } else { of <= column }
                        });
                        let clamp = if is_end { 1.0 } else { 0.5 };
                        let blown = wind.map_or(0.0, |case| {
                            let symbol = ["W_l", "W_r"][side];
                            trace.value(&format!("{id}/{module}/{case}"), symbol)
                        });
                        let of = |tail: &str| {
                            factor("weight")
                                * (of_rail(&format!("G_f{tail}"))
                                    + clamp * of_rail(&format!("C_f{tail}")))
                                + factor("snow") * of_rail(&format!("S_f{tail}"))
                        };
                        let forces = [of("") + factor("wind") * blown, of(",t")];
                        for (load, force) in loads.iter_mut().zip(forces) {
                            load[0] += force;
                            load[1] += force * (at - start) / 1e3;
                        }
                    }
                }
                let mut borne = [[0.0; 2]; 2];
                for hook in list(&answer["hooks"]).iter().filter(|hook| hook["rail"] == *id) {
                    let place = format!("{}/{name}", hook["id"].as_str().expect("a name"));
                    let Some(forces) = trace.0.get(&place) else { continue };
                    let arm = (number(&hook["arm_x_mm"]) - start) / 1e3;
                    for (sum, symbol) in borne.iter_mut().zip(["N", "S"]) {
                        sum[0] += forces[symbol];
                        sum[1] += forces[symbol] * arm;
                    }
                }
                if borne == [[0.0; 2]; 2] {
                    continue;
                }
                seen += 1;
                for (have, want) in borne.as_flattened().iter().zip(loads.as_flattened()) {
                    assert!(
                        (have - want).abs() < 1e-5,
                        "{id} {name}: {borne:?}, by hand {loads:?}"
                    );
                }
            }
        }
        assert!(seen >= 40, "{seen}");
    }
}

/// The plate that is bent most: the moment of its hook's forces where the arm rises, over `b·t²/4·355 N/mm²`.
#[test]
fn the_plate_is_bent_by_the_forces_of_its_hook() {
    let job = example(BARN);
    let trace = Trace::of(&job, &answer("/v1/layouts?trace=full", &job));
    let element = trace.0.keys().find(|name| name.ends_with("/plate")).expect("a plate").clone();
    let at = element.strip_suffix("/plate").expect("its forces");
    let [n, s] = trace.symbols(at, ["N", "S"]);
    let [reach, highest, lowest, width] = trace.symbols("foot", ["e_φ", "h_max", "h_min", "b_p"]);
    let at_height = |height: f64| (n * reach + s * height).abs() / 1e3;
    let moment = at_height(highest).max(at_height(lowest));
    close(trace.value(&element, "M_root"), moment, "M_root");
    let bears = width * trace.2.powi(2) / 4.0 * 355.0 / 1e6;
    close(trace.value("foot", "M_pl"), bears, "M_pl");
    close(trace.value(&element, "M_root/M_pl"), moment / bears, "M_root/M_pl");
}
