//! Small pictures of figures: bars with a mark or a line over them, and days with two curves.
//!
//! Knows only figures and words for them. Every figure is told under the pointer; tables for readers of the screen are
//! the page's.

use egui::{Painter, Pos2, Rect, Response, Sense, Shape, Stroke, Ui, Vec2};

use crate::app::theme;
use crate::sheets::palette::Ink;

/// Height of a picture.
const HEIGHT: f32 = 116.0;

/// One bar.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Bar {
    /// Its height.
    pub(super) value: f64,
    /// A mark over it: what was wanted there.
    pub(super) mark: Option<f64>,
    /// Whether it falls short of what was wanted.
    pub(super) is_behind: bool,
    /// What is said of it under the pointer.
    pub(super) words: String,
}

/// Draws bars beside each other; the index of the one that was pressed.
pub(super) fn bars_ui(
    ui: &mut Ui,
    bars: &[Bar],
    ink: Ink,
    joins_marks: bool,
    spoken: &str,
) -> Option<usize> {
    let (rect, response) = picture(ui, spoken);
    let marks = bars.iter().filter_map(|bar| bar.mark);
    let most = bars
        .iter()
        .map(|bar| bar.value)
        .chain(marks)
        .fold(1e-9, f64::max);
    let plot = Plot::new(rect, bars.len(), most);
    let painter = ui.painter();
    let (tint, behind) = (theme::ink(ui, ink), theme::ink(ui, Ink::WarnEdge));
    for (place, bar) in bars.iter().enumerate() {
        let colour = if bar.is_behind { behind } else { tint };
        let column = Rect::from_min_max(
            Pos2::new(plot.left(place) + 0.5, plot.y(bar.value)),
            Pos2::new(plot.left(place + 1) - 0.5, rect.bottom()),
        );
        painter.rect_filled(column, 1.0, colour.gamma_multiply(0.65));
        // What falls short is told by its cap as well as by its colour.
        if bar.is_behind {
            painter.hline(column.x_range(), column.top(), Stroke::new(2.5, behind));
        }
    }
    marks_ui(
        painter,
        &plot,
        bars,
        joins_marks,
        Stroke::new(1.6, theme::ink(ui, Ink::Ink)),
    );
    base_ui(ui, rect);
    let place = response.hover_pos().and_then(|at| plot.place_at(at.x));
    let clicked = response.clicked();
    if let Some(bar) = place.and_then(|place| bars.get(place)) {
        response.on_hover_text_at_pointer(&bar.words);
    }
    place.filter(|_| clicked)
}

/// The marks over the bars, as one line or each by itself.
fn marks_ui(painter: &Painter, plot: &Plot, bars: &[Bar], joins_marks: bool, stroke: Stroke) {
    let marks = bars.iter().enumerate();
    let marks = marks.filter_map(|(place, bar)| Some((place, plot.y(bar.mark?))));
    if joins_marks {
        let line = marks.map(|(place, y)| Pos2::new(plot.middle(place), y));
        painter.add(Shape::line(line.collect(), stroke));
        return;
    }
    for (place, y) in marks {
        painter.hline(plot.left(place)..=plot.left(place + 1), y, stroke);
    }
}

/// One day of two curves.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct CurveDay {
    /// The first curve, filled.
    pub(super) one: f64,
    /// The second curve, a line.
    pub(super) other: f64,
    /// Whether the day is marked at the foot.
    pub(super) is_marked: bool,
    /// Whether the day is the one in view.
    pub(super) is_in_view: bool,
    /// What stands below a tick on this day, if it has one.
    pub(super) tick: Option<&'static str>,
    /// What is said of it under the pointer.
    pub(super) words: String,
}

/// Draws days beside each other; the index of the one that was pressed.
pub(super) fn curves_ui(
    ui: &mut Ui,
    days: &[CurveDay],
    inks: (Ink, Ink),
    spoken: &str,
) -> Option<usize> {
    let (whole, response) = picture(ui, spoken);
    let rect = whole.with_max_y(whole.bottom() - 16.0);
    let most = days
        .iter()
        .map(|day| day.one.max(day.other))
        .fold(1e-9, f64::max);
    let plot = Plot::new(rect, days.len(), most);
    let painter = ui.painter();
    let (filled, line) = (theme::ink(ui, inks.0), theme::ink(ui, inks.1));
    let warn = theme::ink(ui, Ink::WarnEdge);
    let soft = theme::ink(ui, Ink::Soft);
    for (place, day) in days.iter().enumerate() {
        // On whole points, so that neighbours neither overlap nor leave a crack.
        let (left, right) = (plot.left(place).round(), plot.left(place + 1).round());
        let foot = rect.bottom();
        let column = Rect::from_min_max(Pos2::new(left, plot.y(day.one)), Pos2::new(right, foot));
        painter.rect_filled(column, 0.0, filled.gamma_multiply(0.45));
        if day.is_marked {
            let mark = Rect::from_min_max(Pos2::new(left, foot - 7.0), Pos2::new(right, foot));
            painter.rect_filled(mark, 0.0, warn);
        }
        if day.is_in_view {
            painter.vline(plot.middle(place), rect.y_range(), Stroke::new(1.0, soft));
        }
        if let Some(tick) = day.tick {
            painter.vline(left, foot..=foot + 4.0, Stroke::new(1.0, soft));
            let at = Pos2::new(left + 3.0, whole.bottom());
            painter.text(
                at,
                egui::Align2::LEFT_BOTTOM,
                tick,
                theme::sans(theme::SMALL),
                soft,
            );
        }
    }
    let points = days.iter().enumerate();
    let points = points.map(|(place, day)| Pos2::new(plot.middle(place), plot.y(day.other)));
    painter.add(Shape::line(points.collect(), Stroke::new(1.8, line)));
    base_ui(ui, rect);
    let place = response.hover_pos().and_then(|at| plot.place_at(at.x));
    let clicked = response.clicked();
    if let Some(day) = place.and_then(|place| days.get(place)) {
        response.on_hover_text_at_pointer(&day.words);
    }
    place.filter(|_| clicked)
}

/// Room for a picture, with its words for readers of the screen.
fn picture(ui: &mut Ui, spoken: &str) -> (Rect, Response) {
    let size = Vec2::new(ui.available_width(), HEIGHT);
    let (rect, response) = ui.allocate_exact_size(size, Sense::click());
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, spoken));
    (rect, response)
}

fn base_ui(ui: &Ui, rect: Rect) {
    let base = Stroke::new(1.0, theme::ink(ui, Ink::Rule));
    ui.painter().hline(rect.x_range(), rect.bottom(), base);
}

/// Where columns and heights lie in a picture.
struct Plot {
    rect: Rect,
    count: usize,
    most: f64,
}

#[expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "places of a few hundred columns, and shares from 0 to 1"
)]
impl Plot {
    fn new(rect: Rect, count: usize, most: f64) -> Self {
        let count = count.max(1);
        Self { rect, count, most }
    }

    /// The left edge of a column, whose width never passes 28 points.
    fn left(&self, place: usize) -> f32 {
        self.rect.left() + place as f32 * self.step()
    }

    fn step(&self) -> f32 {
        (self.rect.width() / self.count as f32).min(28.0)
    }

    fn middle(&self, place: usize) -> f32 {
        self.left(place) + self.step() / 2.0
    }

    fn y(&self, value: f64) -> f32 {
        let share = (value / self.most).clamp(0.0, 1.0) as f32;
        self.rect.bottom() - share * (self.rect.height() - 6.0)
    }

    fn place_at(&self, x: f32) -> Option<usize> {
        let place = (x - self.rect.left()) / self.step();
        (place >= 0.0 && place < self.count as f32).then_some(place as usize)
    }
}
