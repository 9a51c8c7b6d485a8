//! Details of rails and fields, and obstacles.

use crate::placement::Job;
use crate::placement::expansion::EXPANSION_GAP;
use crate::placement::laid::{Layout, Rail};
use crate::units::Length;

use super::{Fact, Findings, Place};

/// Gaps that differ by no more than this are the same.
const LAID: Length = Length::from_mm(1.0);

pub(super) fn details(job: &Job, layout: &Layout, out: &mut Findings) {
    let ends = job.clamp.end_width;
    if job.rail.end_projection < ends {
        let fact = Fact::EndShorterThanClamp { have: job.rail.end_projection, need: ends };
        out.add(Place::Rails, fact);
    }
    let runs_on = |rail: &Rail| rail.line.runs_on.into_iter().fold(Length::ZERO, Length::max);
    let longest = layout.rails.iter().map(runs_on).fold(Length::ZERO, Length::max);
    if longest > Length::ZERO {
        let rails = layout.rails.iter().filter(|rail| runs_on(rail) > Length::ZERO);
        let rails = rails.map(|rail| rail.line.id.clone()).collect();
        out.add(Place::Rails, Fact::RailRunsOn { rails, longest });
    }
    for (f, field) in job.fields.iter().enumerate() {
        if field.columns > 1 && (field.column_gap - job.clamp.mid_gap).abs() > LAID {
            let fact = Fact::ClampGapDiffers {
                field: field.id.clone(),
                gap: field.column_gap,
                clamp: job.clamp.mid_gap,
            };
            out.add(Place::Whole, fact);
        }
        let split =
            layout.rails.iter().position(|r| r.line.field() == f && r.line.segments.len() > 1);
        let need = ends.max(job.rail.end_projection) * 2.0 + EXPANSION_GAP;
        if let Some(r) = split.filter(|_| field.column_gap < need) {
            let fact = Fact::ExpansionGapNeedsRoom {
                field: field.id.clone(),
                limit: job.rail.max_continuous,
                gap: field.column_gap,
                need,
                fields: layout.rails[r].line.segments.len(),
            };
            out.add(Place::Rail(r), fact);
        }
    }
    obstacles(job, layout, out);
}

/// One finding for each obstacle whose strip modules lie in.
fn obstacles(job: &Job, layout: &Layout, out: &mut Findings) {
    for (i, obstacle) in job.roof.obstacles.iter().enumerate() {
        let near = layout.modules.iter().filter(|m| obstacle.reaches(&m.placed.rect));
        let modules: Vec<String> = near.clone().map(|m| job.module_name(&m.placed)).collect();
        let gap =
            near.map(|m| obstacle.outline.distance(&m.placed.rect)).fold(f64::INFINITY, f64::min);
        if !modules.is_empty() {
            let fact = Fact::InsideObstacleClearance {
                obstacle: i,
                modules,
                gap: Length::from_mm(gap),
                clearance: obstacle.clearance,
            };
            out.add(Place::Modules, fact);
        }
    }
}
