//! A roof seen in a mirror behaves like the roof.

use hookspan::placement::laid::{LaidSegment, Rail};
use hookspan::placement::layout::lay_out;
use hookspan::placement::search::Outcome;
use hookspan::service::intake;
use hookspan::wire::array::{ArmPosition, Module, ModuleField, Objective, Orientation};
use hookspan::wire::layout::LayoutRequest;
use proptest::prelude::*;

use crate::jobs::{any_job, beside_walls, hook, job};
use crate::{Tally, runner};

/// The same job with left and right exchanged.
pub fn mirrored(request: &LayoutRequest) -> LayoutRequest {
    let mut image = request.clone();
    let length = 1000.0 * request.roof.length_m;
    let roof = &mut image.roof;
    roof.outline_mm = roof.outline_mm.iter().rev().map(|[x, y]| [length - x, *y]).collect();
    roof.edges.reverse();
    // Side i runs to the next point: turned round, the list of sides begins one later.
    roof.edges.rotate_left(1);
    for wall in &mut roof.abutments {
        // The eaves and the ridge of four sides change places, the verges keep theirs.
        wall.side = [2, 1, 0, 3][wall.side as usize];
    }
    if let Some(positions) = &mut roof.rafters.positions_mm {
        *positions = positions.iter().rev().map(|x| length - x).collect();
    }
    let covering = &mut roof.covering;
    covering.joint_origin_mm = length - covering.joint_origin_mm;
    if let Some((offsets, width)) = covering.trough_offsets_mm.as_mut().zip(covering.cover_width_mm)
    {
        *offsets = offsets.iter().rev().map(|offset| width - offset).collect();
    }
    for field in &mut image.array.fields {
        field.origin_mm[0] = length - field.origin_mm[0] - width(field, &request.array.module);
        for [_, column] in &mut field.omitted {
            *column = field.columns - 1 - *column;
        }
    }
    for screw in &mut hook(&mut image).foot.screws_mm {
        screw[0] = -screw[0];
    }
    image
}

fn width(field: &ModuleField, module: &Module) -> f64 {
    let along = match field.orientation {
        Orientation::Portrait => module.width_mm,
        Orientation::Landscape => module.length_mm,
    };
    let columns = f64::from(field.columns);
    columns * along + (columns - 1.0) * field.column_gap_mm
}

/// The combination whose wind comes from the other side, and whose snow lies against the other wall.
pub fn other_side(id: &str) -> String {
    let id = &if id.contains("wall-left") {
        id.replace("wall-left", "wall-right")
    } else {
        id.replace("wall-right", "wall-left")
    };
    if id.contains(":left:") {
        id.replace(":left:", ":right:")
    } else {
        id.replace(":right:", ":left:")
    }
}

/// The rail that is the image of another.
fn image_of<'a>(rail: &Rail, rails: &'a [Rail], columns: u32) -> &'a Rail {
    let [first, last] = rail.line.run.places.map(|column| columns - 1 - column);
    let is_image = |other: &&Rail| {
        other.line.run.lane == rail.line.run.lane
            && other.line.position == rail.line.position
            && other.line.run.places == [last, first]
    };
    rails.iter().find(is_image).expect("every rail has an image")
}

/// Whether a search ran to its end.
pub fn complete(laid: &LaidSegment) -> bool {
    matches!(laid.found.outcome, Outcome::FewestProven | Outcome::NonePasses)
}

pub fn close(a: f64, b: f64, scale: f64) -> bool {
    a.to_bits() == b.to_bits() || (a - b).abs() <= 1e-6 * scale
}

#[test]
fn a_mirrored_roof_needs_as_many_hooks_as_used() {
    let [rails, forces, packed_alike] = std::array::from_fn(|_| Tally::default());
    runner(100)
        .run(
            &prop_oneof![3 => any_job().boxed(), 1 => beside_walls(any_job()).boxed()],
            |mut draft| {
                draft.objective = Objective::FewestHooks;
                // The subset looked at need not be the one whose arms the image moved.
                draft.arms = ArmPosition::RafterAxis;
                let request = draft.request();
                let image = mirrored(&request);
                let (job, other_job) = (job(&request), job(&image));
                prop_assert!(intake::take(&mirrored(&image)).is_ok());
                let (layout, other) = (lay_out(&job), lay_out(&other_job));
                // All rails have one stack of packers, also those whose gaps have no image.
                let alike = layout.footings[0].packed() == other.footings[0].packed();
                packed_alike.see(alike);
                if !alike {
                    return Ok(());
                }
                for rail in &layout.rails {
                    let image = image_of(rail, &other.rails, job.fields[0].columns);
                    // Expansion gaps of an odd number of modules do not fall into the middle.
                    let ([laid], [seen]) = (&rail.segments[..], &image.segments[..]) else {
                        continue;
                    };
                    if !complete(laid) || !complete(seen) {
                        continue;
                    }
                    prop_assert_eq!(laid.found.subset.len(), seen.found.subset.len());
                    prop_assert_eq!(laid.found.outcome, seen.found.outcome);
                    if let Some((a, b)) = laid.result.as_ref().zip(seen.result.as_ref()) {
                        let (a, b) = (a.governing().1.utilisation, b.governing().1.utilisation);
                        prop_assert!(close(a, b, a), "{a} and {b}");
                        rails.see(true);
                    }
                    let last = laid.segment.candidates.len().saturating_sub(1);
                    let subset: Vec<usize> =
                        laid.found.subset.iter().rev().map(|c| last - c).collect();
                    let seen = seen.segment.check_all(&subset);
                    prop_assert_eq!(laid.result.is_some(), seen.is_some());
                    let Some((a, b)) = laid.result.as_ref().zip(seen) else { continue };
                    for (c, combination) in job.actions.combinations.iter().enumerate() {
                        let id = other_side(&combination.id);
                        let from_there =
                            other_job.actions.combinations.iter().position(|o| o.id == id);
                        let from_there = from_there.expect("wind blows from both sides");
                        let hooks = a.forces[c].iter().zip(b.forces[from_there].iter().rev());
                        let gross: f64 = a.forces[c].iter().flatten().map(|f| f.n().abs()).sum();
                        for (a, b) in hooks {
                            prop_assert!(close(a[0].n(), b[0].n(), gross), "{a:?} and {b:?}");
                            prop_assert!(close(a[1].n(), b[1].n(), gross), "{a:?} and {b:?}");
                            forces.see(true);
                        }
                    }
                }
                Ok(())
            },
        )
        .unwrap();
    packed_alike.at_least(90, "layouts of 100 packed as their images");
    rails.at_least(100, "rails and their images");
    forces.at_least(3000, "hook forces and their images");
}
