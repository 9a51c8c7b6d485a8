//! The modules of a layout: what acts on each, and where its clamps hold it.

use crate::checks::module;
use crate::codes::vocabulary::Situation;
use crate::units::{Length, Pressure};

use super::Job;
use super::array;
use super::laid::{ModuleResult, Rail};
use super::loads::{self, Component};
use super::rail_lines::{Position, RailLine};

/// Largest design loads on every module, and its clamps.
pub(super) fn on(job: &Job, rails: &[Rail]) -> Vec<ModuleResult> {
    array::modules(&job.fields, &job.module)
        .into_iter()
        .map(|placed| {
            let mut press = (Pressure::ZERO, 0);
            let mut lift = (Pressure::ZERO, 0);
            let wind = job.actions.wind.on_rect(&placed.rect);
            for (i, c) in job.actions.combinations.iter().enumerate() {
                if c.situation == Situation::Characteristic {
                    continue;
                }
                let load = loads::module_load(job, c, &wind, Component::Normal);
                let p = Pressure::from_n_per_m2(load.n() / job.module.area().m2());
                if p > press.0 {
                    press = (p, i);
                }
                if -p > lift.0 {
                    lift = (-p, i);
                }
            }
            let own: Vec<&RailLine> = rails
                .iter()
                .map(|r| &r.line)
                .filter(|l| {
                    l.field == placed.field
                        && l.row == placed.row
                        && (l.columns[0]..=l.columns[1]).contains(&placed.column)
                })
                .collect();
            let share = own.iter().map(|l| l.share).fold(0.0, f64::max);
            let inner = own.iter().any(|l| l.columns[0] < l.columns[1]);
            let near = |y: Length| {
                let [bottom, top] = placed.rect.y.map(Length::from_mm);
                (y - bottom).min(top - y)
            };
            let clamps = [Position::Lower, Position::Upper].map(|position| {
                own.iter().find(|l| l.position == position).map_or(Length::ZERO, |l| near(l.y))
            });
            let check = module::check(
                &job.module,
                &job.clamp,
                press.0,
                lift.0,
                share,
                if inner { 2 } else { 1 },
            );
            let combinations = [press.1, lift.1];
            ModuleResult { placed, press: press.0, lift: lift.0, combinations, clamps, check }
        })
        .collect()
}
