//! Fields filled on slopes whose count is seen by hand.

use super::*;
use crate::geometry::Outline;
use crate::hardware::Module;
use crate::roof::{
    ArrayPart, BearingFace, Distances, Edge, EdgeDistance, Form, Layers, Obstacle, ObstacleKind,
    PartyWall, Rafters, Roof,
};
use crate::units::{Angle, Force, Pressure};

/// 1000 mm by 1500 mm.
fn module() -> Module {
    let zone = [Length::from_mm(300.0), Length::from_mm(500.0)];
    Module {
        length: Length::from_mm(1500.0),
        width: Length::from_mm(1000.0),
        thickness: Length::from_mm(30.0),
        weight: Force::from_kn(0.2),
        press: Pressure::from_kn_per_m2(5.4),
        lift: Pressure::from_kn_per_m2(2.4),
        clamp_zone: zone,
        short_side_clamp_zone: None,
    }
}

fn outline(points: &[[f64; 2]]) -> Outline {
    Outline::new(points).expect("an outline")
}

/// A slope with sides of these kinds, modules this far from all of them.
fn roof(points: &[[f64; 2]], edge: Edge, keep: f64) -> Roof {
    let least = Length::from_mm(keep);
    let distance = EdgeDistance { edge, part: ArrayPart::Modules, least, source: None };
    Roof {
        form: Form::Duopitch,
        pitch: Angle::from_deg(40.0),
        outline: outline(points),
        edges: vec![edge; points.len()],
        obstacles: Vec::new(),
        rafters: Rafters {
            positions: Vec::new(),
            width: Length::from_mm(80.0),
            depth: Length::from_mm(160.0),
            span: None,
            trussed: false,
            barred: Vec::new(),
            unsound: Vec::new(),
            permanent: Pressure::ZERO,
        },
        layers: Layers {
            under_foot: Length::ZERO,
            soft_under_foot: Length::ZERO,
            battens_above_foot: Length::ZERO,
            face: BearingFace::Boarding,
            bearing_width: Length::from_mm(80.0),
        },
        distances: Distances { edges: vec![distance], party_walls: Vec::new() },
    }
}

fn rectangle(x: [f64; 2], y: [f64; 2]) -> [[f64; 2]; 4] {
    Rect { x, y }.corners()
}

fn chimney(x: [f64; 2], y: [f64; 2], clearance: f64) -> Obstacle {
    let clearance = Length::from_mm(clearance);
    let outline = outline(&rectangle(x, y));
    Obstacle { kind: ObstacleKind::Chimney, outline, clearance, cuts: None }
}

struct Job {
    roof: Roof,
    region: Option<Outline>,
    taken: Vec<Rect>,
    rows: Rows,
    most: Option<u32>,
}

impl Job {
    fn of(roof: Roof, rows: Rows) -> Self {
        Self { roof, region: None, taken: Vec::new(), rows, most: None }
    }

    fn with_rails(&self, has_rails: &dyn Fn(Length) -> bool) -> Result<Field, Unfilled> {
        let gap = Length::from_mm(20.0);
        let field = Field {
            module: module(),
            has_own_module: false,
            id: "A".to_owned(),
            origin: [0.0; 2],
            rows: 0,
            columns: 0,
            portrait: true,
            column_gap: gap,
            row_gap: gap,
            omitted: Vec::new(),
            row_shifts: Vec::new(),
        };
        let room = Room {
            roof: &self.roof,
            region: self.region.as_ref(),
            taken: &self.taken,
            rail_ends: 50.0,
        };
        let (most, rows) = (self.most, self.rows);
        let wanted = Wanted { field, rows, most, places: 5000, looks: LOOKS };
        fill(room, &wanted, has_rails)
    }

    fn filled(&self) -> Field {
        self.with_rails(&|_| true).expect("there is room")
    }
}

fn count(field: &Field) -> usize {
    crate::placement::array::modules(std::slice::from_ref(field)).len()
}

/// Four columns of 1000 with gaps of 20 are 4060 wide, three rows of 1500 are 4540 high.
#[test]
fn a_rectangle_is_filled_to_the_millimetre_and_in_its_middle() {
    let exact = roof(&rectangle([0.0, 4660.0], [0.0, 5140.0]), Edge::Verge, 300.0);
    let field = Job::of(exact, Rows::Aligned).filled();
    assert_eq!((field.origin, field.rows, field.columns), ([300.0, 300.0], 3, 4));
    let short = roof(&rectangle([0.0, 4659.0], [0.0, 5139.0]), Edge::Verge, 300.0);
    let field = Job::of(short, Rows::Shifted).filled();
    assert_eq!((field.rows, field.columns), (2, 3));
    // What is left over, 1019 and 1519 of it, lies on both sides alike; the lower half of a millimetre.
    assert!((field.origin[0] - 809.5).abs() <= 0.5, "{:?}", field.origin);
    assert!((field.origin[1] - 1059.5).abs() <= 0.5, "{:?}", field.origin);
    assert!(field.omitted.is_empty() && field.row_shifts.is_empty());
}

/// A hip end 9.2 m along the eaves, 8 m up. Between its sides lie 9200 − 1.15 y at height y; a row from 0 to
/// 1500 has 7475 at its upper edge, thus 7 modules, which are 7120 long; the next, from 1520, 5727, thus 5
/// with 5080; then 3979 and 3 with 3040; then 2231 and 2 with 2020. In columns, two over three lie half a
/// pitch, 510, to one side: the shortest row has 106 of that to spare and the longest 178.
#[test]
fn rows_of_a_hip_end_hold_more_when_they_are_shifted() {
    let hip = || roof(&[[0.0, 0.0], [9200.0, 0.0], [4600.0, 8000.0]], Edge::Hip, 0.0);
    let shifted = Job::of(hip(), Rows::Shifted).filled();
    // Up to 211 / 1.15 = 183 mm above the eaves every row holds as many: as much room above as below.
    assert!((91.0..=92.0).contains(&shifted.origin[1]), "{:?}", shifted.origin);
    let rows: Vec<usize> = (0..shifted.rows)
        .map(|row| shifted.runs(row).into_iter().map(Iterator::count).sum())
        .collect();
    assert_eq!(rows, [7, 5, 3, 2]);
    let aligned = Job::of(hip(), Rows::Aligned).filled();
    assert!(aligned.row_shifts.is_empty());
    assert_eq!(count(&aligned), 16);
    // Every row in the middle of the slope, but for half a millimetre.
    for row in 0..shifted.rows {
        let run = shifted.runs(row)[0].clone();
        let [first, last] = [*run.start(), *run.end()].map(|c| shifted.place(row, c));
        let middle = f64::midpoint(first.x[0], last.x[1]);
        assert!((middle - 4600.0).abs() <= 0.5, "{middle}");
    }
}

/// A chimney 200 mm wide in the middle of a row with room for five: two on its left, and columns that go on
/// behind it.
#[test]
fn modules_keep_clear_of_a_chimney_with_its_strip() {
    let mut slope = roof(&rectangle([0.0, 5100.0], [0.0, 1500.0]), Edge::Verge, 0.0);
    slope.obstacles.push(chimney([2450.0, 2650.0], [600.0, 800.0], 100.0));
    let field = Job::of(slope, Rows::Aligned).filled();
    assert_eq!(count(&field), 4);
    assert_eq!(field.runs(0).len(), 2);
}

#[test]
fn nothing_is_laid_on_what_is_larger_than_a_module() {
    let mut slope = roof(&rectangle([0.0, 9000.0], [0.0, 6000.0]), Edge::Verge, 0.0);
    slope.obstacles.push(chimney([0.0, 9000.0], [0.0, 4400.0], 0.0));
    let field = Job::of(slope, Rows::Aligned).filled();
    assert_eq!((field.origin[1] >= 4400.0, field.rows, field.columns), (true, 1, 8));
}

#[test]
fn a_region_and_modules_that_are_there_bound_a_field() {
    let slope = roof(&rectangle([0.0, 9000.0], [0.0, 6000.0]), Edge::Verge, 0.0);
    let mut job = Job::of(slope, Rows::Aligned);
    job.region = Some(outline(&rectangle([-500.0, 4100.0], [1000.0, 2600.0])));
    let field = job.filled();
    assert_eq!((field.rows, field.columns), (1, 4));
    assert!((1000.0..=1100.0).contains(&field.origin[1]), "{:?}", field.origin);
    job.taken.push(Rect { x: [0.0, 1020.0], y: [0.0, 6000.0] });
    let field = job.filled();
    assert_eq!((field.origin[0] >= 1020.0, field.columns), (true, 3));
}

/// From a wall of which no distance is known modules stay 1250 mm and the 50 mm that rails stand out.
#[test]
fn a_party_wall_is_kept_away_from_with_the_ends_of_rails() {
    let mut slope = roof(&rectangle([0.0, 6000.0], [0.0, 1500.0]), Edge::Verge, 0.0);
    slope.edges[1] = Edge::PartyWall;
    let wall = |fire| PartyWall { side: 1, face: Length::from_mm(100.0), fire };
    slope.distances.party_walls.push(wall(None));
    let field = Job::of(slope.clone(), Rows::Aligned).filled();
    let right = |field: &Field| field.row_ends(0)[1];
    assert!(right(&field) <= 6000.0 - 1400.0, "{}", right(&field));
    assert_eq!(field.columns, 4);
    slope.distances.party_walls =
        vec![wall(Some((Length::from_mm(500.0), "a regulation".to_owned())))];
    let field = Job::of(slope, Rows::Aligned).filled();
    assert!(right(&field) <= 6000.0 - 650.0);
    assert_eq!(field.columns, 5);
}

/// Rails only where the lower edge lies in the upper half of a metre: rows at a pitch of 1520 have them in
/// two of three.
#[test]
fn rows_without_rails_stay_empty_and_heights_are_chosen_by_the_others() {
    let slope = roof(&rectangle([0.0, 3040.0], [0.0, 6100.0]), Edge::Verge, 0.0);
    let job = Job::of(slope, Rows::Aligned);
    let rails = |y: Length| y.mm().rem_euclid(1000.0) >= 500.0;
    let field = job.with_rails(&rails).expect("there is room");
    for row in 0..field.rows {
        let y = Length::from_mm(field.place(row, 0).y[0]);
        assert!(field.runs(row).is_empty() || rails(y), "row {row} at {y:?}");
    }
    assert_eq!(count(&field), 6);
    // Where no row can have rails, that is for the checks to say.
    assert_eq!(count(&job.with_rails(&|_| false).expect("there is room")), 12);
}

#[test]
fn a_part_of_the_modules_is_a_block_of_even_rows_without_gaps() {
    let slope = roof(&rectangle([0.0, 9300.0], [0.0, 6300.0]), Edge::Verge, 0.0);
    for rows in [Rows::Aligned, Rows::Shifted] {
        let mut job = Job::of(slope.clone(), rows);
        for (most, shape) in
            [(9_u32, [1, 9]), (10, [2, 5]), (18, [2, 9]), (27, [3, 9]), (21, [3, 7])]
        {
            job.most = Some(most);
            let field = job.filled();
            assert_eq!(
                (count(&field), [field.rows, field.columns]),
                (most as usize, shape),
                "{rows:?}"
            );
        }
        job.most = Some(26);
        let field = job.filled();
        assert_eq!((count(&field), field.rows, field.columns), (26, 3, 9));
        assert_eq!(field.omitted.len(), 1);
        assert!((0..3).all(|row| field.runs(row).len() == 1), "{:?}", field.omitted);
    }
}

/// A hall roof, 60 m by 30 m with 50 obstacles: as many sides are looked at as its size makes necessary.
#[test]
fn a_large_roof_is_looked_at_by_the_millimetre() {
    let mut slope = roof(&rectangle([0.0, 60_000.0], [0.0, 30_000.0]), Edge::Verge, 300.0);
    for i in 0..50 {
        let (x, y) = (f64::from(i % 10) * 5700.0 + 1500.0, f64::from(i / 10) * 5600.0 + 1300.0);
        slope.obstacles.push(chimney([x, x + 900.0], [y, y + 1200.0], 250.0));
    }
    for rows in [Rows::Aligned, Rows::Shifted] {
        let began = std::time::Instant::now();
        let field = Job::of(slope.clone(), rows).filled();
        println!("{rows:?}: {} modules in {:?}", count(&field), began.elapsed());
        // Each obstacle takes at most 2 by 2 modules, and the slope holds 58 by 19.
        assert!(count(&field) >= 58 * 19 - 50 * 9, "{}", count(&field));
    }
    let room = Room { roof: &slope, region: None, taken: &[], rail_ends: 50.0 };
    let heights = Heights::of(&Ground::new(room, [1000.0, 1500.0]), 1500.0, 1520.0, LOOKS);
    assert!((heights.step - 1.0).abs() < 1e-12, "{}", heights.step);
}

#[test]
fn what_is_too_small_and_what_is_too_large_is_not_filled() {
    let small = roof(&rectangle([0.0, 1599.0], [0.0, 9000.0]), Edge::Verge, 300.0);
    let unfilled = Job::of(small, Rows::Aligned).with_rails(&|_| true);
    assert_eq!(unfilled.err(), Some(Unfilled::NoRoom));
    let large = roof(&rectangle([0.0, 120_000.0], [0.0, 90_000.0]), Edge::Verge, 300.0);
    let mut job = Job::of(large, Rows::Aligned);
    let modules = 117 * 58;
    assert_eq!(job.with_rails(&|_| true).err(), Some(Unfilled::TooMany { modules }));
    job.most = Some(100);
    assert_eq!(job.filled().rows, 1);
}
