//! Arms that go towards side joints cost nothing that was proven without them.

use hookspan::covering::courses;
use hookspan::placement::footing::Footing;
use hookspan::placement::laid::Layout;
use hookspan::placement::layout::lay_out;
use hookspan::wire::array::ArmPosition;
use proptest::prelude::*;

use crate::jobs::{any_job, job};
use crate::{Tally, runner};

/// What is lost by rounding.
const ROUNDING: f64 = 1e-9;

/// Highest utilisation of any rail and hook.
fn highest(layout: &Layout) -> f64 {
    let results = layout.segments().filter_map(|laid| laid.result.as_ref());
    results.map(|result| result.governing().1.utilisation).fold(0.0, f64::max)
}

#[test]
fn arms_come_nearer_to_joints_with_the_same_hooks_and_no_more_utilisation() {
    let [moved, stayed] = std::array::from_fn(|_| Tally::default());
    runner(230)
        .run(&any_job(), |mut draft| {
            let mut with = |arms| {
                draft.arms = arms;
                job(&draft.request())
            };
            let (job, on_axes) =
                (with(ArmPosition::TowardsSideJoint), with(ArmPosition::RafterAxis));
            let (layout, still) = (lay_out(&job), lay_out(&on_axes));
            // Arms nearer to joints may leave feet held that were not, or the other way round, and that
            // decides about packers.
            let packed = |layout: &Layout| layout.footings.first().map(Footing::packed);
            prop_assume!(packed(&layout) == packed(&still));
            let most = highest(&still);
            prop_assert!(highest(&layout) <= most + ROUNDING * most.max(1.0));
            let [limit, range] = [job.rail.max_cantilever, job.hook.foot.lateral_range];
            for (rail, other) in layout.rails.iter().zip(&still.rails) {
                for (s, (laid, other)) in rail.segments.iter().zip(&other.segments).enumerate() {
                    prop_assert_eq!(&laid.found, &other.found);
                    let ends = rail.line.segments[s];
                    for (h, at) in laid.found.subset.iter().enumerate() {
                        let (there, here) =
                            (&laid.segment.candidates[*at], &other.segment.candidates[*at]);
                        moved.see(there.arm_x != here.arm_x);
                        stayed.see(there.arm_x == here.arm_x);
                        if there.arm_x == here.arm_x {
                            continue;
                        }
                        prop_assert!((there.arm_x - there.x).abs() <= range);
                        let joint = |x| {
                            courses::exit_at(&job.covering, rail.line.course().unwrap(), x)
                                .side_joint
                                .mm()
                        };
                        prop_assert!(joint(there.arm_x) < joint(here.arm_x));
                        prop_assert!(h > 0 || there.x.max(there.arm_x) - ends[0] <= limit);
                        let last = h + 1 == laid.found.subset.len();
                        prop_assert!(!last || ends[1] - there.x.min(there.arm_x) <= limit);
                    }
                }
            }
            Ok(())
        })
        .unwrap();
    moved.at_least(300, "arms that moved");
    stayed.at_least(300, "arms that stayed");
}
