//! One row of a form: a name, a field, its unit, and why the last text was refused.
//!
//! Rows are plain data; painting keeps what is typed as a draft until Enter or until the field is left. All rows of
//! a column share their edges: fields begin and end in line, figures stand at the right.

use egui::{Align, Align2, Key, Rect, Response, RichText, TextEdit, Ui, Vec2};

use super::change::Target;
use super::settle::{Draft, FormState, field_id};
use crate::app::desk::Desk;
use crate::app::theme;
use crate::sheets::palette::Ink;

/// Height of a row.
pub(super) const ROW: f32 = 27.0;
/// Width of a field for a figure.
const FIGURE: f32 = 68.0;
/// Width of the unit behind a figure.
const UNIT: f32 = 72.0;
/// Between a field and what stands beside it.
pub(super) const GAP: f32 = 8.0;

/// How wide a field is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Span {
    /// A figure, with its unit behind it.
    Figure,
    /// Words or a day, over the room of figure and unit.
    Words,
    /// Several lines under the name, over the whole column.
    Lines,
}

/// One row as plain data.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FieldRow {
    /// What it sets.
    pub target: Target,
    /// Its name at the left.
    pub label: String,
    /// What the farm holds, as it stands in the field.
    pub value: String,
    /// What stands there in grey where the field is empty.
    pub hint: String,
    /// Unit behind it.
    pub unit: String,
    /// How wide it is.
    pub span: Span,
    /// What readers of the screen hear, where the name alone does not tell it apart.
    pub spoken: Option<String>,
}

impl FieldRow {
    /// A figure with its unit.
    pub fn figure(target: Target, label: &str, value: String, unit: &str) -> Self {
        Self {
            target,
            label: label.to_owned(),
            value,
            hint: String::new(),
            unit: unit.to_owned(),
            span: Span::Figure,
            spoken: None,
        }
    }

    /// Words or a day.
    pub fn words(target: Target, label: &str, value: String) -> Self {
        Self {
            span: Span::Words,
            ..Self::figure(target, label, value, "")
        }
    }

    /// Several lines.
    pub fn lines(target: Target, label: &str, value: String) -> Self {
        Self {
            span: Span::Lines,
            ..Self::figure(target, label, value, "")
        }
    }

    /// The same with a grey text for the empty field.
    #[must_use]
    pub fn hinted(mut self, hint: impl Into<String>) -> Self {
        self.hint = hint.into();
        self
    }

    /// The same with other words for readers of the screen.
    #[must_use]
    pub fn spoken(mut self, spoken: impl Into<String>) -> Self {
        self.spoken = Some(spoken.into());
        self
    }

    /// Name and unit, as readers of the screen hear them.
    pub fn spoken_text(&self) -> String {
        let name = self.spoken.as_deref().unwrap_or(&self.label);
        if self.unit.is_empty() {
            name.to_owned()
        } else {
            format!("{name}, {}", self.unit)
        }
    }
}

/// Paints rows under one another.
pub(super) fn rows_ui(ui: &mut Ui, desk: &mut Desk, rows: &[FieldRow]) {
    for row in rows {
        row_ui(ui, desk, row);
    }
}

/// Paints one row, and under it why the last text was refused.
pub(super) fn row_ui(ui: &mut Ui, desk: &mut Desk, row: &FieldRow) {
    if row.span == Span::Lines {
        lines_ui(ui, desk, row);
    } else {
        let (whole, field) = row_rects(ui);
        label_at(ui, whole, field, &row.label);
        let field = match row.span {
            Span::Figure => Rect::from_min_size(field.min, Vec2::new(FIGURE, ROW)),
            Span::Words | Span::Lines => field,
        };
        field_at(ui, desk, row, field);
        if row.span == Span::Figure {
            let at = field.right_center() + Vec2::new(GAP, 0.0);
            let (font, ink) = (theme::sans(theme::SMALL), theme::ink(ui, Ink::Soft));
            ui.painter()
                .text(at, Align2::LEFT_CENTER, &row.unit, font, ink);
        }
    }
    refusal_ui(ui, desk, row.target);
}

/// A row that is no field: the name at the left, `paint` in the room of the field.
pub(super) fn labelled_ui<R>(ui: &mut Ui, label: &str, paint: impl FnOnce(&mut Ui) -> R) -> R {
    let (whole, field) = row_rects(ui);
    label_at(ui, whole, field, label);
    ui.scope_builder(egui::UiBuilder::new().max_rect(field), paint)
        .inner
}

/// A row of two figures: name at the left, figure at the right, not to be typed. A long name has lines of its own, so that the
/// column keeps its width.
pub fn fact_ui(ui: &mut Ui, label: &str, figure: &str) {
    let label = RichText::new(label).weak();
    let galley = egui::WidgetText::from(label.clone()).into_galley(
        ui,
        Some(egui::TextWrapMode::Extend),
        f32::INFINITY,
        egui::TextStyle::Body,
    );
    let is_long = galley.size().x > ui.available_width() * LABEL_SHARE;
    if is_long {
        ui.add(egui::Label::new(label.clone()).wrap());
    }
    ui.horizontal(|ui| {
        if !is_long {
            ui.label(label);
        }
        ui.with_layout(egui::Layout::right_to_left(Align::Center), |ui| {
            ui.add(egui::Label::new(figure).wrap());
        });
    });
}

/// The share of a row that a label may take beside its figure.
const LABEL_SHARE: f32 = 0.6;

/// A heading with a thin rule over it.
pub(super) fn heading_ui(ui: &mut Ui, text: &str) {
    ui.add_space(8.0);
    ui.separator();
    ui.label(RichText::new(text).font(theme::serif_bold(theme::HEADING - 1.0)));
}

/// Small print.
pub(super) fn small_ui(ui: &mut Ui, text: &str) {
    ui.add(egui::Label::new(RichText::new(text).font(theme::sans(theme::SMALL)).weak()).wrap());
}

/// The whole row, and the room of its field at the right.
fn row_rects(ui: &mut Ui) -> (Rect, Rect) {
    let (whole, _) =
        ui.allocate_exact_size(Vec2::new(ui.available_width(), ROW), egui::Sense::hover());
    let left = whole.right() - (FIGURE + GAP + UNIT);
    (
        whole,
        Rect::from_min_max(egui::pos2(left, whole.top()), whole.max),
    )
}

/// The name is painted only: readers of the screen hear it from the field, once.
fn label_at(ui: &Ui, whole: Rect, field: Rect, label: &str) {
    let ink = theme::ink(ui, Ink::Soft);
    let font = theme::sans(theme::BODY);
    let mut job = egui::text::LayoutJob::simple_singleline(label.to_owned(), font, ink);
    let room = (field.left() - GAP - whole.left()).max(0.0);
    job.wrap = egui::text::TextWrapping::truncate_at_width(room);
    let words = ui.painter().layout_job(job);
    let at = egui::pos2(whole.left(), whole.center().y - words.size().y / 2.0);
    ui.painter().galley(at, words, ink);
}

fn lines_ui(ui: &mut Ui, desk: &mut Desk, row: &FieldRow) {
    let (line, _) =
        ui.allocate_exact_size(Vec2::new(ui.available_width(), 20.0), egui::Sense::hover());
    let end = Rect::from_min_max(line.right_top(), line.max);
    label_at(ui, line, end, &row.label);
    let mut typed = text_in_field(desk, row);
    let field = TextEdit::multiline(&mut typed)
        .id(field_id(row.target))
        .desired_rows(2)
        .desired_width(f32::INFINITY)
        .margin(egui::Margin::symmetric(8, 4))
        .hint_text(row.hint.clone());
    let response = ui.add(field);
    take(ui, desk, row, typed, &response);
}

/// Paints the field itself in a place of the caller's.
pub(super) fn field_at(ui: &mut Ui, desk: &mut Desk, row: &FieldRow, rect: Rect) {
    let mut typed = text_in_field(desk, row);
    let align = if row.span == Span::Figure {
        Align2::RIGHT_CENTER
    } else {
        Align2::LEFT_CENTER
    };
    let field = TextEdit::singleline(&mut typed)
        .id(field_id(row.target))
        .desired_width(rect.width())
        .min_size(rect.size())
        .margin(egui::Margin::symmetric(8, 3))
        .align(align)
        .hint_text(row.hint.clone());
    let response = ui.put(rect, field);
    take(ui, desk, row, typed, &response);
}

/// What stands in the field: what is being typed, else what was refused, else what the farm holds.
fn text_in_field(desk: &Desk, row: &FieldRow) -> String {
    let forms = &desk.forms;
    let draft = forms
        .draft
        .as_ref()
        .filter(|draft| draft.target == row.target);
    let refused = forms
        .refusal
        .as_ref()
        .filter(|refusal| refusal.target == row.target);
    match (draft, refused) {
        (Some(draft), _) => draft.typed.clone(),
        (None, Some(refusal)) => refusal.typed.clone(),
        (None, None) => row.value.clone(),
    }
}

/// Keeps what is typed, and lets it become a step on Enter and once the field is left.
fn take(ui: &Ui, desk: &mut Desk, row: &FieldRow, typed: String, response: &Response) {
    let spoken = row.spoken_text();
    response.widget_info(|| {
        egui::WidgetInfo::labeled(egui::Role::TextInput, ui.is_enabled(), spoken.clone())
    });
    let shown = typed.clone();
    let forms = &mut desk.forms;
    if response.changed() {
        let draft = Draft {
            target: row.target,
            typed,
        };
        let other = forms.draft.take_if(|draft| draft.target != row.target);
        forms.due.extend(other);
        forms.draft = Some(draft);
    }
    if response.has_focus() {
        forms.has_focus = true;
        rest_in(ui, forms, row.target, &shown, response);
    }
    if !response.lost_focus() {
        return;
    }
    let (escape, enter) = ui.input(|input| {
        (
            input.key_pressed(Key::Escape),
            input.key_pressed(Key::Enter),
        )
    });
    let draft = forms.draft.take_if(|draft| draft.target == row.target);
    if escape {
        forms.resting = None;
        forms
            .refusal
            .take_if(|refusal| refusal.target == row.target);
        return;
    }
    forms.due.extend(draft);
    // Enter leaves the focus where it was, so that Tab goes on from here; the answer is seen in the next frame.
    if enter {
        response.request_focus();
    } else {
        forms.resting = None;
    }
    ui.ctx().request_repaint();
}

/// A field that is come to by key, or whose figure has just changed, is typed over as a whole; a click puts the cursor
/// where it went.
fn rest_in(ui: &Ui, forms: &mut FormState, target: Target, shown: &str, response: &Response) {
    if forms.draft.is_some() || !forms.due.is_empty() {
        return;
    }
    let rests = Draft {
        target,
        typed: shown.to_owned(),
    };
    if forms.resting.as_ref() == Some(&rests) {
        return;
    }
    forms.resting = Some(rests);
    if !ui.input(|input| input.pointer.any_down() || input.pointer.any_released()) {
        select_all(ui, response, shown.chars().count());
    }
}

fn select_all(ui: &Ui, response: &Response, length: usize) {
    use egui::text::{CCursor, CCursorRange};
    let Some(mut state) = TextEdit::load_state(ui.ctx(), response.id) else {
        return;
    };
    let end = CCursor::new(length);
    state
        .cursor
        .set_char_range(Some(CCursorRange::two(CCursor::new(0), end)));
    TextEdit::store_state(ui.ctx(), response.id, state);
}

pub(super) fn refusal_ui(ui: &mut Ui, desk: &mut Desk, target: Target) {
    let Some(refusal) = desk
        .forms
        .refusal
        .as_mut()
        .filter(|refusal| refusal.target == target)
    else {
        return;
    };
    refusal.is_shown = true;
    let words = RichText::new(&refusal.why)
        .font(theme::sans(theme::SMALL))
        .color(theme::ink(ui, Ink::Act));
    ui.add(egui::Label::new(words).wrap());
}

/// A row of two days, "from – to", with a button that takes it away; whether that was pressed.
pub(super) fn days_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    from: &FieldRow,
    to: &FieldRow,
    remove: &str,
) -> bool {
    let (whole, _) = row_rects(ui);
    let dash = 16.0;
    let width = ((whole.width() - ROW - GAP - dash) / 2.0).floor();
    let size = Vec2::new(width, ROW);
    let first = Rect::from_min_size(whole.min, size);
    let second = Rect::from_min_size(egui::pos2(first.right() + dash, whole.top()), size);
    field_at(ui, desk, from, first);
    let middle = egui::pos2(first.right() + dash / 2.0, whole.center().y);
    let (font, ink) = (theme::sans(theme::BODY), theme::ink(ui, Ink::Soft));
    ui.painter()
        .text(middle, Align2::CENTER_CENTER, "–", font, ink);
    field_at(ui, desk, to, second);
    let square = Rect::from_min_max(egui::pos2(whole.right() - ROW, whole.top()), whole.max);
    let pressed = super::buttons::sign_button(ui, square, "×", remove);
    refusal_ui(ui, desk, from.target);
    refusal_ui(ui, desk, to.target);
    pressed
}
