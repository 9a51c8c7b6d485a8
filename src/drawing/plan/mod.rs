//! The slope to scale: covering, rafters, obstacles, wind zones, modules, rails, hooks, and the
//! dimensions the crew sets out by; on one sheet however large, or on pages that can be read when
//! they are printed.

mod array;
mod dimensions;
mod ends;
mod key;
mod roof;
mod view;
mod wind;
mod zones;

use crate::codes::vocabulary::{Direction, ZoneOnSlope};
use crate::geometry::Rect;
use crate::language::{Language, Words};
use crate::placement::Job;
use crate::placement::laid::Layout;

use super::Caption;
use super::canvas::{Canvas, Figure};
use super::legend::{self, Entry};
use super::marks::{self, HookMark, State};
use super::ordinates::{self, Side};
use super::text::{self, LARGE, Label, NORMAL, SMALL};

pub use dimensions::{course_number, pieces};
use view::{HookText, View, Window, needed_scale};
pub use wind::draw as wind;

/// Width the slope is drawn at unless its labels need more.
const USUAL_WIDTH: f64 = 1100.0;
/// Height it is not drawn beyond unless its labels need more.
const USUAL_HEIGHT: f64 = 1300.0;
/// Least width of the paper: legend and heading need it.
const LEAST_PAPER: f64 = 900.0;
/// A printed page: A4 across with 12 mm of margin, 96 units to the inch.
const PAGE: [f64; 2] = [1030.0, 690.0];
/// Width of the legend of pages: as many columns as it can have with no text under 7 pt, printed across.
const LEGEND: f64 = 1500.0;
/// Height that heading and dimensions take on a page.
const AROUND: f64 = 250.0;
/// What the key plan and the note on numbers add to it on the pages of a slope in parts.
const NOTED: f64 = 40.0;
/// Width of the slope on a page that no name may take away.
const LEAST_PART: f64 = 500.0;
/// How much more than a page holds is squeezed onto it: the smallest text is then 7 pt high.
const SQUEEZE: f64 = 1.23;
/// White edge of the paper.
const EDGE: f64 = 24.0;
/// Room for the chain of lengths beside the right verge.
const CHAIN: f64 = 76.0;
/// Room for the chain of lengths and the word above the ridge.
const ABOVE: f64 = 62.0;

/// What is on one sheet.
struct Sheet<'a> {
    job: &'a Job,
    layout: &'a Layout,
    caption: &'a Caption,
    words: &'a Words,
    marks: &'a [HookMark],
    /// Hooks to add to those that stand.
    added: &'a [HookMark],
    window: Window,
    scale: f64,
    text: HookText,
    /// Which page it is, and of how many; a drawing of its own has heading and legend.
    page: Option<[usize; 2]>,
    least_width: f64,
}

/// Draws the slope with its layout, whole.
#[must_use]
pub fn draw(job: &Job, layout: &Layout, caption: &Caption, language: Language) -> Figure {
    let marks = marks::hook_marks(job, layout);
    let Rect { x, y } = job.roof.outline.bounds();
    let usual = (USUAL_WIDTH / (x[1] - x[0])).min(USUAL_HEIGHT / (y[1] - y[0]));
    let text = HookText::NameAndUtilisation;
    let sheet = Sheet {
        job,
        layout,
        caption,
        words: language.words(),
        window: Window::whole(job),
        scale: usual.max(needed_scale(job, layout, &marks, text)),
        text,
        page: None,
        least_width: LEAST_PAPER,
        marks: &marks,
        added: &[],
    };
    sheet.draw()
}

/// Draws the slope on as many pages as it takes to read names and figures on paper, each without
/// legend: [`legend`] is a page's own. Where names and utilisations do not find room on one page,
/// utilisations are left to the tables. `with` is the layout with hooks to add; the same where there are none.
#[must_use]
pub fn pages(
    job: &Job,
    [layout, with]: [&Layout; 2],
    caption: &Caption,
    language: Language,
) -> Vec<Figure> {
    let words = language.words();
    let marks = marks::hook_marks(job, layout);
    let added = marks::added(job, &marks, with);
    let Rect { x, y } = job.roof.outline.bounds();
    let [long, high] = [x, y].map(|[low, high]| high - low);
    let whole = Window::whole(job);
    let beside = left_room(&dimensions::heights(job, layout, &marks, words, &whole)) + EDGE + CHAIN;
    // How often a page as wide and as high as it is would hold the whole slope.
    let squeezed = |scale| [(beside + long * scale) / PAGE[0], (AROUND + high * scale) / PAGE[1]];
    let fitting = ((PAGE[0] - beside) / long).min((PAGE[1] - AROUND) / high);
    let sheet = |window, scale, text, page| Sheet {
        job,
        layout,
        caption,
        words,
        marks: &marks,
        added: &added,
        window,
        scale,
        text,
        page: Some(page),
        least_width: 0.0,
    };
    let full = HookText::NameAndUtilisation;
    let scale = needed_scale(job, layout, &marks, full).max(fitting);
    if squeezed(scale).iter().all(|times| *times <= SQUEEZE) {
        return vec![sheet(whole, scale, full, [1, 1]).draw()];
    }
    // What a page has room for, when it is squeezed: as many pages as that takes in both directions.
    let room = [PAGE[0] * SQUEEZE - beside, PAGE[1] * SQUEEZE - AROUND - NOTED];
    let room = room.map(|room| room.max(LEAST_PART));
    let split = |text| {
        let scale = needed_scale(job, layout, &marks, text).max(fitting);
        let times = [count_of_pages(long * scale, room[0]), count_of_pages(high * scale, room[1])];
        (text, scale, times)
    };
    let [named, numbered] = [HookText::Name, HookText::Number].map(split);
    let pages = |times: [usize; 2]| times[0] * times[1];
    let numbers_do = pages(named.2) > 1 && pages(numbered.2) < pages(named.2);
    let (text, scale, times) = if numbers_do { numbered } else { named };
    let parts = Window::parts(job, &marks, times);
    let count = parts.len();
    if count == 0 {
        return vec![sheet(whole, scale, text, [1, 1]).draw()];
    }
    let page = |(i, window)| sheet(window, scale, text, [i + 1, count]).draw();
    parts.into_iter().enumerate().map(page).collect()
}

/// What pages have in common: the legend. How to read them stands in the text around.
#[must_use]
pub fn legend(job: &Job, [layout, with]: [&Layout; 2], language: Language) -> Figure {
    let words = language.words();
    let marks = marks::hook_marks(job, layout);
    let mut canvas = Canvas::default();
    let direction = zones::governing(job, layout, &marks);
    let mut which = shown_entries(job, layout, &marks, direction);
    if !marks::added(job, &marks, with).is_empty() {
        which.insert(1, Entry::ToAdd);
    }
    let end = listed(&mut canvas, &which, (job, direction), words, [NORMAL / 2.0, LEGEND]);
    canvas.finish([LEGEND, end], words.legend)
}

/// How many pages a length takes.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "rounded, positive, and bounded by the size of a roof"
)]
fn count_of_pages(length: f64, room: f64) -> usize {
    (length / room).ceil().clamp(1.0, 200.0) as usize
}

fn left_room(heights: &[dimensions::Measured]) -> f64 {
    EDGE + ordinates::LEADER + heights.iter().map(|(_, o)| o.length()).fold(0.0, f64::max)
}

impl Sheet<'_> {
    fn draw(&self) -> Figure {
        let Self { job, layout, words, marks, window, scale, .. } = *self;
        let bounds = window.rect;
        let heights = dimensions::heights(job, layout, marks, words, &window);
        let left = left_room(&heights);
        let wide = (bounds.x[1] - bounds.x[0]) * scale;
        let paper = (left + wide + EDGE + CHAIN).max(self.least_width);

        let mut canvas = Canvas::default();
        let heading_end = self.heading(&mut canvas, paper);
        // Room for heights pushed beyond the ridge, too.
        let beyond =
            ordinates::overhang(&dimensions::on_paper(&heights, |mm| (bounds.y[1] - mm) * scale));
        let top = heading_end + ABOVE.max(beyond[0] + 20.0);
        let view = View { left, top, scale, window };

        let worst = marks::most_used(layout, marks).map(|mark| mark.id.as_str());
        let direction = zones::governing(job, layout, marks);
        let zones: Vec<&ZoneOnSlope> =
            direction.map_or_else(Vec::new, |direction| zones::of(job, direction));
        let is_part = self.part().is_some();
        if is_part {
            canvas.begin_window(&view.frame());
        }
        roof::covering(&mut canvas, &view, job);
        roof::rafters(&mut canvas, &view, job);
        roof::edge(&mut canvas, &view, job);
        array::modules(&mut canvas, &view, job, layout);
        roof::obstacles(&mut canvas, &view, job);
        roof::kept_clear(&mut canvas, &view, job);
        zones::borders(&mut canvas, &view, job, &zones);
        array::rails(&mut canvas, &view, job, layout);
        if is_part {
            canvas.end_window();
        }
        array::hooks(&mut canvas, &view, marks, worst, words);
        array::to_add(&mut canvas, &view, self.added);

        let bottom = view.frame().y[1];
        let figures_end = self.dimensions(&mut canvas, &view, &heights);
        array::hook_labels(&mut canvas, &view, marks, worst, (self.text, words), job.rail_axis);
        array::rail_labels(&mut canvas, &view, layout);
        roof::obstacle_labels(&mut canvas, &view, job, words);
        zones::labels(&mut canvas, &view, &zones, |zone| {
            format!("{} {}", zone.name, words.figure(zone.coefficients.suction, 2))
        });
        array::module_labels(&mut canvas, &view, job, layout);

        let y = self.edges_named(&mut canvas, &view, [bottom, figures_end]);
        let scale_bar = [paper - EDGE - 14.0, y + 26.0];
        legend::scale_bar(&mut canvas, scale_bar, scale);
        if self.page.is_some() {
            return canvas.finish([paper, y + 26.0 + EDGE], words.roof_plan);
        }
        let which = shown_entries(job, layout, marks, direction);
        let mut y = listed(&mut canvas, &which, (job, direction), words, [y + 26.0, paper]);
        for line in
            self.caption.footer.iter().flat_map(|l| text::wrap(l, SMALL, paper - 2.0 * EDGE))
        {
            canvas.label(Label::new(line, [EDGE, y]).size(SMALL).from_start());
            y += SMALL * 1.5;
        }
        canvas.finish([paper, y + EDGE - SMALL], words.roof_plan)
    }

    /// Which part of the slope it is, and of how many, where one page does not hold it all.
    fn part(&self) -> Option<[usize; 2]> {
        self.page.filter(|[_, count]| *count > 1)
    }

    /// Title, result, how to read the figures; says where it ends.
    fn heading(&self, canvas: &mut Canvas, paper: f64) -> f64 {
        let Self { caption, words, .. } = *self;
        let room = paper - 2.0 * EDGE;
        let mut y = EDGE + LARGE / 2.0;
        let title = caption
            .title
            .as_ref()
            .map_or_else(|| words.roof_plan.to_owned(), |t| format!("{t} · {}", words.roof_plan));
        let title = match self.part() {
            Some([page, count]) => {
                let Rect { x: [left, right], y: [low, high] } = self.window.rect;
                format!(
                    "{title} · {} {page}/{count}: x {left:.0}–{right:.0}, y {low:.0}–{high:.0}",
                    words.part_of
                )
            }
            None => title,
        };
        let [mut title_room, mut key_end] = [room, 0.0];
        if self.part().is_some() {
            let right = [paper - EDGE, EDGE];
            let Rect { x, y } = key::draw(canvas, self.job, self.layout, &self.window, right);
            [title_room, key_end] = [room - (x[1] - x[0]) - EDGE, y[1]];
        }
        for line in text::wrap(&title, LARGE * 1.1, title_room) {
            canvas.label(Label::new(line, [EDGE, y]).size(LARGE).bold().from_start());
            y += LARGE * 1.35;
        }
        for line in text::wrap(&caption.result, NORMAL * 1.15, title_room) {
            canvas.label(Label::new(line, [EDGE, y]).size(NORMAL * 1.1).from_start());
            y += NORMAL * 1.6;
        }
        if self.text == HookText::Number {
            for line in text::wrap(words.numbers_at_hooks, NORMAL, title_room) {
                canvas.label(Label::new(line, [EDGE, y]).from_start());
                y += NORMAL * 1.6;
            }
        }
        if self.page.is_none() {
            y = reading_notes(canvas, words, y, room);
        }
        y.max(key_end)
    }

    /// Heights, distances and the chains of the fields; says where the figures below end.
    fn dimensions(
        &self,
        canvas: &mut Canvas,
        view: &View,
        heights: &[dimensions::Measured],
    ) -> f64 {
        let Rect { x: [left, _], y: [_, bottom] } = view.frame();
        let heights = dimensions::on_paper(heights, |mm| view.y(mm));
        ordinates::draw(canvas, &heights, Side::Left, left);
        let distances =
            dimensions::distances(self.job, self.layout, self.marks, self.words, &view.window);
        let distances = dimensions::on_paper(&distances, |mm| view.x(mm));
        ordinates::draw(canvas, &distances, Side::Below, bottom);
        dimensions::field_chains(canvas, view, self.job);
        let longest = distances.iter().map(ordinates::Ordinate::length).fold(0.0, f64::max);
        bottom + ordinates::LEADER + longest
    }

    /// Says which way is up; says where that ends.
    fn edges_named(&self, canvas: &mut Canvas, view: &View, [bottom, end]: [f64; 2]) -> f64 {
        let Rect { x, y } = view.frame();
        let centre = f64::midpoint(x[0], x[1]);
        let ridge =
            Label::new(format!("↑ {}", ends::upper(self.job, self.words)), [centre, y[0] - 16.0])
                .bold();
        canvas.label(ridge);
        // The figures of the verges are longer than those of the rafters: there is room between.
        let eaves = Label::new(format!("↓ {}", self.words.eaves), [centre, end + 18.0]).bold();
        let first = bottom + ordinates::LEADER + 20.0;
        let between = (0..).map(|step| first + f64::from(step) * 4.0).take_while(|y| *y < end);
        let at = canvas.label_where_clear(&eaves, between.map(|y| [centre, y]));
        at.map_or_else(
            || {
                let end = eaves.at[1];
                canvas.label(eaves);
                end
            },
            |at| at[1].max(end),
        )
    }
}

/// What of the legend a job needs.
fn shown_entries(
    job: &Job,
    layout: &Layout,
    marks: &[HookMark],
    direction: Option<Direction>,
) -> Vec<Entry> {
    let mut which = vec![Entry::Hook, Entry::MostUsed];
    for (state, entry) in [(State::Over, Entry::Over), (State::Unverified, Entry::Unverified)] {
        if marks.iter().any(|mark| mark.state == state) {
            which.push(entry);
        }
    }
    which.push(Entry::Rail);
    if layout.rails.iter().any(|rail| rail.line.there.is_some()) {
        which.push(Entry::There);
    }
    if layout.segments().any(|laid| !laid.splices.is_empty()) {
        which.push(Entry::Splice);
    }
    if layout.rails.iter().any(|rail| rail.line.segments.len() > 1) {
        which.push(Entry::Gap);
    }
    which.extend((0..array::kinds(job).len()).map(Entry::Module));
    which.extend([Entry::Rafter, Entry::Course]);
    if (0..job.roof.rafters.positions.len()).any(|rafter| job.roof.rafters.is_barred(rafter)) {
        which.push(Entry::Barred);
    }
    if direction.is_some() {
        which.push(Entry::Zone);
    }
    if !job.roof.obstacles.is_empty() {
        which.push(Entry::Obstacle);
    }
    if !roof::strips(job).is_empty() {
        which.push(Entry::Strip);
    }
    which
}

/// What the figures mean; says where that ends.
fn reading_notes(canvas: &mut Canvas, words: &Words, top: f64, room: f64) -> f64 {
    let notes = [
        format!("{} {}. {}.", words.seen_from_outside, words.from_left, words.from_eaves),
        words.counting.to_owned(),
    ];
    // Lines as long as a wide sheet are hard to read.
    let room = room.min(900.0);
    let mut y = top;
    for line in notes.iter().flat_map(|note| text::wrap(note, SMALL, room)) {
        canvas.label(Label::new(line, [EDGE, y]).size(SMALL).from_start());
        y += SMALL * 1.5;
    }
    y
}

/// The legend; says where it ends.
fn listed(
    canvas: &mut Canvas,
    which: &[Entry],
    (job, direction): (&Job, Option<Direction>),
    words: &Words,
    [top, paper]: [f64; 2],
) -> f64 {
    canvas.label(Label::new(words.legend, [EDGE, top]).bold().from_start());
    let wind = direction.map_or("", |direction| zones::name(direction, words));
    let kinds = array::kinds(job);
    let remark = |entry| match entry {
        Entry::Zone => wind.to_owned(),
        Entry::Module(kind) => kinds[kind].clone(),
        _ => String::new(),
    };
    let entries = legend::entries(which, remark, words);
    let room = paper - 2.0 * EDGE;
    legend::draw(canvas, &entries, [EDGE, top + 26.0], room);
    top + 26.0 + legend::height(&entries, room) + 18.0
}
