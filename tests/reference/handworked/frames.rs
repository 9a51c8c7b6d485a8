//! Rails that cross, solved as a frame in space by another program: the values a document takes from there, and
//! every force of it beside the answer.
//!
//! `tests/reference/boathouse_frame.py` works the loads on its own and writes what its frame gives, twice: with
//! *links*, by which turning a lower rail over also moves its upper face along the slope, and with the lower rails
//! *turned* by moments, which move nothing along it. The answer leaves that movement out, so that with links the
//! forces along the slope differ by what it shifts from one lower rail to the next.
//!
//! The script also works with mistakes. Each of them has to be seen: the comparison is worth no more than that.

use std::collections::BTreeMap;

use serde_json::Value;

/// How far a force may be off, kN: square to the slope and along it, at hooks and where rails cross.
struct Room {
    hooks: [f64; 2],
    crossings: [f64; 2],
}

/// With links. Measured: 0.18 N square to the slope; along it 2.1 N of 500 at hooks, 10.2 N of 370 at crossings.
const LINKS: Room = Room { hooks: [0.000_3, 0.002_5], crossings: [0.000_3, 0.012] };

/// Turned by moments, where the answer has two forces half a depth to either side. Measured: 0.004 N square to the
/// slope, and along it nothing but the last digit.
const TURNED: Room = Room { hooks: [0.000_02, 0.000_002], crossings: [0.000_02, 0.000_002] };

/// How far the utilisation of a rail by bending may be off. Measured 0.0046, where a moment jumps at a crossing and
/// the answer has it grow over the width of the upper rail.
const BENDING: f64 = 0.006;

/// What a frame gave.
pub struct Frame(Value);

impl Frame {
    pub fn read(text: &str) -> Self {
        Self(serde_json::from_str(text).expect("a frame is JSON"))
    }

    /// The values of the frame with links, by element and symbol as in a trace.
    pub fn values(&self) -> BTreeMap<(String, String), f64> {
        let mut values = forces(&self.0["links"]);
        for (element, symbols) in members(&self.0["bending"]) {
            for (symbol, value) in members(symbols) {
                let value = value.as_f64().expect("a number");
                values.insert((element.clone(), symbol.clone()), value);
            }
        }
        values
    }

    /// What does not agree with a trace and with the rails of an answer; also which mistake was not seen.
    pub fn trouble(&self, trace: &BTreeMap<(String, String), f64>, rails: &[Value]) -> Vec<String> {
        let mut trouble = Vec::new();
        for (frame, room) in [("links", LINKS), ("turned", TURNED)] {
            let forces = forces(&self.0[frame]);
            if forces.len() < 4 * (2 * 34 + 2 * 36) {
                trouble.push(format!("{frame}: only {} forces", forces.len()));
            }
            let off = off(&forces, trace, &room);
            trouble.extend(off.into_iter().map(|line| format!("{frame}: {line}")));
        }
        for (element, of) in members(&self.0["bending"]) {
            let rail = element.split('/').next().expect("a rail");
            let rail = rails.iter().find(|of| of["id"] == rail).expect("a rail of the answer");
            let used = of["u"].as_f64().expect("a number");
            let told = rail["utilisation_by_check"]["bending"].as_f64().expect("a number");
            if (used - told).abs() > BENDING {
                trouble.push(format!("{element}: {used} by the frame, {told} told"));
            }
        }
        for (mistake, of) in members(&self.0["mistakes"]) {
            let off = off(&forces(of), trace, &LINKS);
            println!("{mistake}: {} forces of {} are off", off.len(), forces(of).len());
            if off.len() < 5 {
                trouble.push(format!("{mistake} is seen by no more than {off:?}"));
            }
        }
        trouble
    }
}

fn members(value: &Value) -> impl Iterator<Item = (&String, &Value)> {
    value.as_object().expect("an object").iter()
}

/// Forces by element and symbol: `B1-1/uls:G`, or `B10/B1/uls:G` where rails cross.
fn forces(combinations: &Value) -> BTreeMap<(String, String), f64> {
    let mut forces = BTreeMap::new();
    for (combination, kinds) in members(combinations).filter(|(_, of)| of.is_object()) {
        for (id, pair) in ["hooks", "crossings"].into_iter().flat_map(|kind| members(&kinds[kind]))
        {
            for (symbol, place) in [("N", 0), ("S", 1)] {
                let force = pair[place].as_f64().expect("a force");
                forces.insert((format!("{id}/{combination}"), symbol.to_owned()), force);
            }
        }
    }
    forces
}

/// Forces that differ from those of a trace by more than there is room for.
fn off(
    forces: &BTreeMap<(String, String), f64>,
    trace: &BTreeMap<(String, String), f64>,
    room: &Room,
) -> Vec<String> {
    let is_off = |(key, force): (&(String, String), &f64)| {
        let (element, symbol) = key;
        // A crossing has the names of two rails before that of the combination.
        let of = if element.split('/').count() == 3 { room.crossings } else { room.hooks };
        let room = if symbol == "N" { of[0] } else { of[1] };
        match trace.get(key) {
            None => Some(format!("nothing stands at {element} ; {symbol}")),
            Some(told) if (force - told).abs() > room => {
                Some(format!("{element} ; {symbol}: {force} by the frame, {told} told"))
            }
            Some(_) => None,
        }
    };
    forces.iter().filter_map(is_off).collect()
}
