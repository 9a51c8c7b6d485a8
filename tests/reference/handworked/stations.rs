//! What a document follows in an answer, and the rows of its tables.

use serde_json::Value;

/// Columns that are taken from the answer.
pub const INPUTS: [&str; 7] = ["x", "x_0", "frame", "side", "clamps", "hook", "R"];

/// A row of a table.
pub struct Row {
    /// Its name.
    pub id: String,
    /// Whether it is one of a hook.
    pub is_hook: bool,
    /// Its values by column; nothing where a cell is empty.
    pub cells: Vec<(String, Option<f64>)>,
}

impl Row {
    fn new(id: String, is_hook: bool, cells: &[(&str, f64)]) -> Self {
        let cells = cells.iter().map(|(name, value)| ((*name).to_owned(), Some(*value)));
        Self { id, is_hook, cells: cells.collect() }
    }

    /// The value of a column. A load that is not told is none.
    pub fn get(&self, column: &str) -> Option<f64> {
        self.cells.iter().find(|(name, _)| name == column).and_then(|(_, value)| *value)
    }
}

fn text(value: &Value) -> String {
    value.as_str().map_or_else(|| value.to_string(), str::to_owned)
}

fn list(value: &Value) -> &[Value] {
    value.as_array().map_or(&[], Vec::as_slice)
}

fn number(value: &Value) -> f64 {
    value.as_f64().expect("a number")
}

/// How far the checks of strength use a hook.
fn in_strength(hook: &Value) -> f64 {
    let of = |check: &str| hook["utilisation"][check].as_f64().unwrap_or(0.0);
    ["hook", "bolt", "screws", "foot_bearing"].into_iter().map(of).fold(0.0, f64::max)
}

fn most(of: &Value, used: impl Fn(&Value) -> f64) -> &Value {
    let items = list(of).iter();
    items.reduce(|a, b| if used(b) > used(a) { b } else { a }).expect("there is one")
}

/// The hook that is used most in strength with its rail, the other rail of its modules, its rafter with the rafters beside
/// it and the hooks on it, and the module that is lifted most.
pub fn followed(answer: &Value) -> Vec<(&'static str, String)> {
    let hook = most(&answer["hooks"], in_strength);
    let rails = list(&answer["rails"]);
    let rail = rails.iter().find(|rail| rail["id"] == hook["rail"]).expect("a rail");
    let other = rails.iter().find(|other| {
        let run = |of: &Value| ["field", "row", "column"].map(|member| of[member].clone());
        run(other) == run(rail) && other["id"] != rail["id"]
    });
    let lifted =
        most(&answer["modules"], |module| module["utilisation"]["lift"].as_f64().unwrap_or(0.0));
    let rafter = hook["rafter"].as_u64().expect("a number");
    let mut followed = vec![
        ("hook", text(&hook["id"])),
        ("rail", text(&rail["id"])),
        ("other", text(&other.expect("modules stand on two rails")["id"])),
        ("rafter", text(&hook["rafter"])),
        ("row", format!("{}.{}", text(&rail["field"]), rail["row"])),
        ("lifted", text(&lifted["id"]).replace('/', ".")),
        ("previous", rafter.saturating_sub(1).to_string()),
        ("next", (rafter + 1).to_string()),
    ];
    let names = ["on_1", "on_2", "on_3", "on_4"];
    let on_rafter = list(&answer["hooks"]).iter().filter(|other| other["rafter"] == hook["rafter"]);
    followed.extend(names.into_iter().zip(on_rafter.map(|hook| text(&hook["id"]))));
    followed
}

/// The rows of a table: `stations of A1, N in uls:G` or `hooks of A1, N in uls:G`. Their `x` runs along the
/// rail: up the slope, where the rail does.
pub fn rows(answer: &Value, what: &str, force: impl Fn(&str) -> Option<f64>) -> Vec<Row> {
    let (kind, rest) = what.split_once(" of ").expect("kind of rows");
    let (rail, forces) = rest.split_once(", ").expect("forces");
    let (symbol, combination) = forces.split_once(" in ").expect("a combination");
    let rails = list(&answer["rails"]).iter();
    let rail = rails.clone().find(|of| text(&of["id"]) == rail).expect("a rail");
    assert_eq!(list(&rail["segments"]).len(), 1, "a rail in one piece");
    // Only a rail up the slope belongs to a column of modules.
    let up_slope = rail["column"].is_u64();
    let (along, sides, at) =
        if up_slope { (1, ["lower", "upper"], "y_mm") } else { (0, ["left", "right"], "arm_x_mm") };
    let hooks = list(&answer["hooks"]).iter().filter(|hook| hook["rail"] == rail["id"]);
    let hooks = hooks.map(|hook| {
        let id = text(&hook["id"]);
        let force = force(&format!("{id}/{combination} ; {symbol}")).expect("a force");
        Row::new(id, true, &[("x", number(&hook[at])), ("hook", 1.0), ("R", force)])
    });
    let mut rows: Vec<Row> = hooks.collect();
    if kind == "stations" {
        let carried = |module: &&Value| {
            let id = text(&module["id"]);
            let [field, row, column] = id.split('/').collect::<Vec<_>>()[..] else { return false };
            let (lane, of_rail) =
                if up_slope { (column, &rail["column"]) } else { (row, &rail["row"]) };
            rail["field"] == field && lane.parse().ok() == of_rail.as_u64()
        };
        let modules: Vec<&Value> = list(&answer["modules"]).iter().filter(carried).collect();
        for (k, module) in modules.iter().enumerate() {
            let left = number(&module["origin_mm"][along]);
            let right = left + number(&module["size_mm"][along]);
            for ((side, x), name) in [(0.0, left), (1.0, right)].into_iter().zip(sides) {
                let outer = if side == 0.0 { k == 0 } else { k + 1 == modules.len() };
                // Half of a mid clamp weighs on either neighbour.
                let clamps = if outer { 1.0 } else { 0.5 };
                let id = format!("module {k} {name}");
                let cells =
                    [("x", x), ("x_0", left), ("frame", 1.0), ("side", side), ("clamps", clamps)];
                rows.push(Row::new(id, false, &cells));
            }
        }
        for end in ["start", "end"] {
            let x = number(&rail[format!("{end}_mm")]);
            rows.push(Row::new(format!("rail {end}"), false, &[("x", x)]));
        }
    }
    rows.sort_by(|a, b| a.get("x").unwrap_or(0.0).total_cmp(&b.get("x").unwrap_or(0.0)));
    rows
}
