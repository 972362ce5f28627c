//! Fields of the page of taped measures: rows in line, figures at the right, a cursor that stays where it is.

use egui::{Align, Layout, Response, RichText, TextEdit, Ui, Vec2};

use crate::app::taping::{Focus, Wanting};
use crate::app::theme;
use crate::quantity::UnitSystem;
use crate::sheets::palette::Ink;

/// Height of a row.
pub(super) const ROW: f32 = 27.0;
/// Between things in a row.
pub(super) const GAP: f32 = 8.0;

/// Unit of a bare figure.
pub(super) const fn unit(units: UnitSystem) -> &'static str {
    match units {
        UnitSystem::Metric => "m",
        UnitSystem::Imperial => "yd",
    }
}

/// A row: its name at the left, what `paint` puts at the right.
pub(super) fn labelled<R>(ui: &mut Ui, name: &str, paint: impl FnOnce(&mut Ui) -> R) -> R {
    let (whole, _) =
        ui.allocate_exact_size(Vec2::new(ui.available_width(), ROW), egui::Sense::hover());
    let left = whole.right() - 156.0;
    let words = egui::Rect::from_min_max(whole.min, egui::pos2(left - GAP, whole.bottom()));
    let ink = theme::ink(ui, Ink::Soft);
    ui.painter().with_clip_rect(words).text(
        words.left_center(),
        egui::Align2::LEFT_CENTER,
        name,
        theme::sans(theme::BODY),
        ink,
    );
    let room = egui::Rect::from_min_max(egui::pos2(left, whole.top()), whole.max);
    let builder = egui::UiBuilder::new()
        .max_rect(room)
        .layout(Layout::left_to_right(Align::Center));
    ui.scope_builder(builder, |ui| {
        ui.spacing_mut().item_spacing.x = GAP;
        paint(ui)
    })
    .inner
}

/// A field for a figure, standing at the right of its room.
pub(super) fn figure_field(ui: &mut Ui, text: &mut String, own: Focus, spoken: &str) -> Response {
    let field = TextEdit::singleline(text)
        .id(field_id(own))
        .desired_width(76.0)
        .min_size(Vec2::new(92.0, ROW))
        .margin(egui::Margin::symmetric(8, 3))
        .align(egui::Align2::RIGHT_CENTER);
    let response = ui.add(field);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::TextInput, true, spoken));
    response
}

/// The toolkit's number of a field: what comes and goes above it must not take the cursor away.
pub(super) fn field_id(own: Focus) -> egui::Id {
    egui::Id::unique(("taping field", own))
}

/// Gives a field the focus where it is its turn; what stands in a field that is come to by key is typed over.
pub(super) fn take_focus(
    ui: &Ui,
    field: &Response,
    text: &str,
    own: Focus,
    focus: &mut Option<Focus>,
) {
    let is_turn = *focus == Some(own);
    if is_turn {
        field.request_focus();
        field.scroll_to_me(None);
        *focus = None;
    }
    let is_clicked = ui.input(|input| input.pointer.any_down() || input.pointer.any_released());
    if is_turn || (field.gained_focus() && !is_clicked) {
        super::row_dialog::select_all(ui, field.id, text.chars().count());
    }
}

/// What is still missing, in the second voice; what is wrong, in the ink of trouble.
pub(super) fn wanting_ui(ui: &mut Ui, wanting: &Wanting) {
    let ink = theme::ink(
        ui,
        if wanting.is_trouble {
            Ink::Act
        } else {
            Ink::Soft
        },
    );
    ui.add(egui::Label::new(RichText::new(&wanting.text).color(ink)).wrap());
}

/// Small print.
pub(super) fn small_ui(ui: &mut Ui, text: &str) {
    ui.add(egui::Label::new(RichText::new(text).font(theme::sans(theme::SMALL)).weak()).wrap());
}
