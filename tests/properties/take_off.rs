//! The take-off against a count of its own: what an answer orders is what its hooks, modules and
//! rails need.

use std::collections::BTreeMap;

use hookspan::service::layout::run;
use hookspan::service::request::Options;
use hookspan::wire::layout::LayoutRequest;
use proptest::prelude::*;
use serde_json::{Value, json};

use crate::jobs::{any_job, hook, rail};
use crate::{Tally, runner};

fn items(value: &Value) -> &[Value] {
    value.as_array().map_or(&[], Vec::as_slice)
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap_or_else(|| panic!("{value} is no number"))
}

/// Parts by kind and size in hundredths of a millimetre.
type Count = BTreeMap<(String, i64), u64>;

#[expect(clippy::cast_possible_truncation, reason = "sizes of parts are small")]
fn size(mm: f64) -> i64 {
    (mm * 100.0).round() as i64
}

fn add(count: &mut Count, kind: &str, size: i64, n: u64) {
    if n > 0 {
        *count.entry((kind.to_owned(), size)).or_default() += n;
    }
}

/// What hooks, modules and rails of an answer need, of one field or of all.
fn needed(request: &LayoutRequest, answer: &Value, field: Option<&str>) -> Count {
    let parts = serde_json::to_value(&request.components).expect("parts are JSON");
    let in_field = |id: &Value| field.is_none_or(|field| id == field);
    let mut count = Count::new();
    let mut rails = Vec::new();
    for rail in items(&answer["rails"]).iter().filter(|rail| in_field(&rail["field"])) {
        rails.push(&rail["id"]);
        for segment in items(&rail["segments"]) {
            let ends = [number(&segment["start_mm"]), number(&segment["end_mm"])];
            let modules = items(&answer["modules"]).iter().filter(|module| {
                let row = format!("{}/{}/", rail["field"].as_str().expect("a name"), rail["row"]);
                let left = number(&module["origin_mm"][0]);
                let right = left + number(&module["size_mm"][0]);
                let id = module["id"].as_str().expect("a name");
                id.starts_with(&row) && ends[0] - 0.02 <= left && right <= ends[1] + 0.02
            });
            let modules = modules.count() as u64;
            add(&mut count, "mid_clamp", 0, modules.saturating_sub(1));
            add(&mut count, "end_clamp", 0, if modules > 0 { 2 } else { 0 });
            add(&mut count, "end_cap", 0, 2);
            add(&mut count, "splice", 0, items(&segment["splices_mm"]).len() as u64);
        }
    }
    for hook in items(&answer["hooks"]).iter().filter(|hook| rails.contains(&&hook["rail"])) {
        let part = &parts["hook"];
        add(&mut count, "hook", 0, 1);
        add(&mut count, "bolt_set", 0, 1);
        add(&mut count, "screw", 0, items(&part["foot"]["screws_mm"]).len() as u64);
        add(&mut count, "substitute_tile", 0, part["substitute_tiles"].as_u64().expect("tiles"));
        for packer in items(&hook["packers_mm"]) {
            add(&mut count, "packer", size(number(packer)), 1);
        }
    }
    let modules = items(&answer["modules"]).iter().filter(|module| {
        let id = module["id"].as_str().expect("a name");
        field.is_none_or(|field| id.split('/').next() == Some(field))
    });
    add(&mut count, "module", 0, modules.count() as u64);
    count
}

/// Lines of an order or of a field, without the rails, which the cutting plan tells.
fn listed(lines: &Value, figure: &str) -> Count {
    let mut count = Count::new();
    for line in items(lines) {
        let kind = line["kind"].as_str().expect("a kind");
        if !kind.starts_with("rail_") {
            let size = line["size_mm"].as_f64().map_or(0, size);
            add(&mut count, kind, size, line[figure].as_u64().expect("a count"));
        }
    }
    count
}

/// What is wrong with the cutting plan of an answer.
fn plan_against_rails(request: &LayoutRequest, answer: &Value) -> Vec<String> {
    let mut wrong = Vec::new();
    let rail_part = serde_json::to_value(&request.components.rail).expect("a rail is JSON");
    let plan = &answer["parts"]["cutting"];
    let kerf = number(&rail_part["kerf_mm"]);
    // Pieces between the splices of the rails, by rail, segment and number.
    let mut pieces = BTreeMap::new();
    for rail in items(&answer["rails"]) {
        for (s, segment) in items(&rail["segments"]).iter().enumerate() {
            let mut stops = vec![number(&segment["start_mm"])];
            stops.extend(items(&segment["splices_mm"]).iter().map(number));
            stops.push(number(&segment["end_mm"]));
            for (n, ends) in stops.windows(2).enumerate() {
                let id = rail["id"].as_str().expect("a name").to_owned();
                pieces.insert((id, s as u64, n as u64), [ends[0], ends[1] - ends[0]]);
            }
        }
    }
    let mut bought = 0.0;
    for bar in items(&plan["bars"]) {
        let stock = number(&bar["stock_mm"]);
        bought += stock;
        if !items(&rail_part["stock_lengths_mm"]).iter().any(|s| (number(s) - stock).abs() < 0.06) {
            wrong.push(format!("{stock} mm is no stock length"));
        }
        let mut used = -kerf;
        for piece in items(&bar["pieces"]) {
            let [start, length] = [number(&piece["start_mm"]), number(&piece["length_mm"])];
            used += length + kerf;
            let whose = (
                piece["rail"].as_str().expect("a name").to_owned(),
                piece["segment"].as_u64().expect("a number"),
                piece["piece"].as_u64().expect("a number"),
            );
            // Places are printed to a hundredth, pieces are whole tenths.
            match pieces.remove(&whose) {
                Some([at, long]) if (at - start).abs() < 0.02 && (long - length).abs() < 0.12 => {}
                other => wrong.push(format!("{whose:?}: {start}, {length} for {other:?}")),
            }
        }
        let left = stock - used;
        // The kerf is taken in whole tenths too.
        let slack = 0.06 * items(&bar["pieces"]).len() as f64;
        if left < -slack
            || (number(&bar["offcut_mm"]) - (left - kerf).max(0.0)).abs() > slack + 0.06
        {
            wrong.push(format!("{left} mm left of {bar}"));
        }
    }
    if !pieces.is_empty() {
        wrong.push(format!("never cut: {pieces:?}"));
    }
    let of = |name: &str| number(&plan[name]);
    let whole = of("used_mm") + of("sawn_mm") + of("kept_mm") + of("scrap_mm");
    if (bought - of("bought_mm")).abs() > 0.01 || (whole - bought).abs() > 0.05 {
        wrong.push(format!("{bought} mm bought in bars, {whole} mm accounted for"));
    }
    let ordered: f64 = items(&answer["parts"]["lines"])
        .iter()
        .filter(|line| line["kind"] == "rail_bar")
        .map(|line| number(&line["ordered"]) * number(&line["size_mm"]))
        .sum();
    if (ordered - bought).abs() > 0.01 {
        wrong.push(format!("{ordered} mm ordered, {bought} mm in bars"));
    }
    if plan["proven"] == true && plan["lower_bound"]["bought_mm"] != plan["bought_mm"] {
        wrong.push("proven, and yet the bound is lower".to_owned());
    }
    wrong
}

#[test]
fn an_order_is_what_hooks_modules_and_rails_need() {
    let [spliced, gapped, packed, proven, split] = std::array::from_fn(|_| Tally::default());
    let draws = (any_job(), 0..12_u32, 0..4_u32, 1..30_u32, 0.0..20.0);
    runner(60)
        .run(&draws, |(draft, spare, tiles, pack, kept)| {
            let mut request = draft.request();
            hook(&mut request).substitute_tiles = tiles;
            let stock = rail(&mut request).stock_lengths_mm[0].round();
            rail(&mut request).stock_lengths_mm = vec![stock, (stock * 0.8).round()];
            rail(&mut request).kerf_mm = f64::from(spare) / 2.0;
            let mut wishes = request.wishes.take().unwrap_or_default();
            let allowance = json!({"spare_percent": spare, "pack_size": pack});
            let order = json!({"min_piece_mm": kept * 10.0, "allowances": {"screw": allowance}});
            wishes.min_clearance_mm = Some(f64::from(spare));
            wishes.order = Some(serde_json::from_value(order).expect("an order"));
            request.wishes = Some(wishes);

            let answer = run(&request, String::new(), &Options::default()).expect("a valid job");
            let answer = serde_json::to_value(answer).expect("an answer is JSON");
            let parts = &answer["parts"];
            let all = needed(&request, &answer, None);
            prop_assert_eq!(&listed(&parts["lines"], "needed"), &all);
            let mut of_fields = Count::new();
            for own in items(&parts["fields"]) {
                let field = own["field"].as_str().expect("a name");
                let counted = listed(&own["lines"], "count");
                prop_assert_eq!(&counted, &needed(&request, &answer, Some(field)));
                for ((kind, size), n) in counted {
                    add(&mut of_fields, &kind, size, n);
                }
            }
            prop_assert_eq!(&of_fields, &all);
            let wrong = plan_against_rails(&request, &answer);
            prop_assert!(wrong.is_empty(), "{wrong:?}");

            for line in items(&parts["lines"]) {
                let of = |name: &str| line[name].as_u64().expect("a count");
                prop_assert_eq!(of("ordered") % of("pack_size"), 0);
                prop_assert!(of("ordered") >= of("needed") + of("spare"));
                prop_assert!(of("ordered") < of("needed") + of("spare") + of("pack_size"));
                if line["kind"] == "screw" {
                    // ⌈n·p/100⌉ in whole numbers.
                    prop_assert_eq!(of("spare"), (of("needed") * u64::from(spare)).div_ceil(100));
                    prop_assert_eq!(of("pack_size"), u64::from(pack));
                }
            }
            let gaps = items(&answer["rails"]).iter().map(|r| items(&r["expansion_gaps_mm"]).len());
            prop_assert_eq!(parts["expansion_gaps"].as_u64(), Some(gaps.sum::<usize>() as u64));
            spliced.see(all.keys().any(|(kind, _)| kind == "splice"));
            packed.see(all.keys().any(|(kind, _)| kind == "packer"));
            gapped.see(parts["expansion_gaps"] != 0);
            proven.see(parts["cutting"]["proven"] == true);
            split.see(!items(&request_omitted(&request)).is_empty());
            Ok(())
        })
        .unwrap();
    spliced.at_least(15, "jobs with splices");
    gapped.at_least(3, "jobs with expansion gaps");
    packed.at_least(5, "jobs with packers");
    proven.at_least(50, "plans that are proven");
    split.at_least(5, "rows with a module left out");
}

fn request_omitted(request: &LayoutRequest) -> Value {
    json!(request.array.fields[0].omitted)
}
