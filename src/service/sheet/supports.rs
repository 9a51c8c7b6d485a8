//! The engineer's part: the rail of the most used hook as a beam, from its loads to the forces on its
//! hooks.

use maud::{Markup, html};

use crate::checks::segment::Case;
use crate::language::{Words, module_on_paper};
use crate::mechanics::beam::{Strip, Superposition};
use crate::placement::laid::LaidSegment;
use crate::placement::rail_axis::RailAxis;
use crate::placement::rail_lines::RailLine;
use crate::placement::segments::modules_over;
use crate::units::Force;

use super::{Sheet, mm};

/// What stands on the rail or holds it, at a place.
struct Row {
    x: f64,
    name: String,
    /// A hook, not a frame of a module.
    holds: bool,
    /// In each combination: square to the roof and down it, kN. Of a frame its load, of a hook its force.
    forces: Vec<[f64; 2]>,
}

/// The segment of rail that the most used hook holds, in the combinations that govern its checks: what
/// loads it at every frame, and the hooks. With the rigidity and springs of the chain before it this is
/// all the beam there is.
pub fn supports(sheet: &Sheet<'_>, words: &Words) -> Markup {
    let Some([r, s, h]) = sheet.layout.most_used_hook() else { return html! {} };
    let rail = &sheet.layout.rails[r];
    let laid = &rail.segments[s];
    let Some(result) = &laid.result else { return html! {} };
    let combinations = result.hooks[h].combinations();
    let cases: Vec<(usize, &Case)> = laid
        .segment
        .cases
        .iter()
        .enumerate()
        .filter(|(_, case)| combinations.contains(&case.combination))
        .collect();
    let rows = rows(sheet, [r, s], laid, &cases);
    let [start, end] = rail.line.segments[s].map(|end| mm(end.mm()));
    let axis = match rail.line.axis() {
        RailAxis::AlongEaves => "x",
        RailAxis::UpSlope => "y",
    };
    html! {
        h3 { (words.supports) " " (rail.line.id) }
        p .note { (words.supports_note) " " (axis) " " (start) "–" (end) " mm." }
        div .pair { table .supports tabindex="0" {
            thead {
                tr {
                    th scope="col" rowspan="2" { (axis) ", mm" }
                    th scope="col" rowspan="2" { (words.module_or_hook) }
                    @for (_, case) in &cases {
                        th scope="colgroup" colspan="2" {
                            code { (sheet.job.combination_name(case.combination)) }
                        }
                    }
                }
                tr {
                    @for _ in &cases { th scope="col" { "N, kN" } th scope="col" { "S, kN" } }
                }
            }
            tbody {
                @for row in &rows {
                    tr .worst[row.holds] {
                        th scope="row" { (words.number(row.x, 2)) }
                        td { @if row.holds { "▲ " } (row.name) }
                        @for [normal, slope] in &row.forces {
                            td { (words.number(*normal, 6)) }
                            td { (words.number(*slope, 6)) }
                        }
                    }
                }
            }
        } }
    }
}

/// What upper rails put on a lower one: their forces, and beside them the couples of those down the slope.
fn crossings(
    sheet: &Sheet<'_>,
    lower: &RailLine,
    laid: &LaidSegment,
    loads: &[[Vec<f64>; 2]],
) -> Vec<Row> {
    let uppers = || sheet.layout.rails.iter().map(|rail| &rail.line).filter(|line| line.is_upper());
    let over = |y: f64| {
        let off = |line: &RailLine| (line.across.mm() - y).abs();
        let own = uppers().filter(|line| line.field() == lower.field());
        own.min_by(|a, b| off(a).total_cmp(&off(b)))
    };
    let points = laid.segment.normal.load_points().iter().enumerate();
    points
        .map(|(at, y)| Row {
            x: *y,
            name: over(*y).map_or_else(String::new, |line| line.id.clone()),
            holds: false,
            forces: loads
                .iter()
                .map(|of| of.each_ref().map(|points| Force::from_n(points[at]).kn()))
                .collect(),
        })
        .collect()
}

/// Frames and hooks of a segment, from left to right.
fn rows(
    sheet: &Sheet<'_>,
    [r, s]: [usize; 2],
    laid: &LaidSegment,
    cases: &[(usize, &Case)],
) -> Vec<Row> {
    let (job, line) = (sheet.job, &sheet.layout.rails[r].line);
    let loaded = |strip: &Strip, load: &Superposition| strip.as_case(load).points;
    let loads: Vec<[Vec<f64>; 2]> = cases
        .iter()
        .map(|(_, case)| {
            [loaded(&laid.segment.normal, &case.normal), loaded(&laid.segment.slope, &case.slope)]
        })
        .collect();
    let modules = modules_over(job, line, line.segments[s]);
    let frames = modules.flat_map(|(at, rect)| line.axis().sides(&rect)[0].map(|x| (x, at)));
    let mut rows: Vec<Row> = frames
        .enumerate()
        .map(|(at, (x, [row, column]))| Row {
            x,
            name: module_on_paper(&job.module_named(line.field(), row, column)),
            holds: false,
            forces: loads
                .iter()
                .map(|of| of.each_ref().map(|points| Force::from_n(points[at]).kn()))
                .collect(),
        })
        .collect();
    if line.is_beneath() {
        rows.extend(crossings(sheet, line, laid, &loads));
    }
    let Some(result) = &laid.result else { return rows };
    for (h, candidate) in laid.hooks().enumerate() {
        rows.push(Row {
            x: candidate.at.mm(),
            name: sheet.layout.hook_name([r, s, h]).to_owned(),
            holds: true,
            forces: cases.iter().map(|(case, _)| result.forces[*case][h].map(Force::kn)).collect(),
        });
    }
    rows.sort_by(|a, b| a.x.total_cmp(&b.x));
    rows
}
