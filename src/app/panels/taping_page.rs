//! The page of what was measured on the ground: which of the four, its figures, what they come to, and the press that
//! puts it onto the farm.
//!
//! The reading of figures and the acts are `taping`'s.

use egui::{Align, Key, Layout, Response, RichText, ScrollArea, TextEdit, Ui, Vec2};

use super::taping_corners::corners_ui;
use super::taping_rows::rows_ui;
use super::taping_walked::{walked_facts_ui, walked_ui};
use crate::app::desk::Desk;
use crate::app::dialogs::main_button;
use crate::app::file_acts;
use crate::app::taping::{Focus, Hand, NEEDLE_HELP, Taping, Wanting, Way, is_ready, put};
use crate::app::theme;
use crate::app::tools::Tool;
use crate::farm::{Form, Kind};
use crate::quantity::{UnitSystem, decimal_text, length_text_precise};
use crate::sheets::palette::Ink;

/// Height of a row.
pub(super) const ROW: f32 = 27.0;
/// Between things in a row.
pub(super) const GAP: f32 = 8.0;

/// What was pressed on the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Pressed {
    /// Put it onto the farm.
    Put,
    /// Bring a file in.
    File,
}

/// The page.
pub fn taping_ui(ui: &mut Ui, desk: &mut Desk) {
    let mut taping = std::mem::take(&mut desk.taping);
    ui.horizontal(|ui| {
        ui.label(RichText::new("Measured on the ground").font(theme::serif(theme::TITLE)));
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            let done = ui
                .button("Done")
                .on_hover_text("Back to the facts (Escape)");
            if done.clicked() {
                taping.is_open = false;
            }
        });
    });
    ways_ui(ui, &mut taping);
    ui.add_space(4.0);
    let foot = ui.make_persistent_id("foot of the page");
    let foot_height: f32 = ui.data(|data| data.get_temp(foot)).unwrap_or(120.0);
    let room = (ui.available_height() - foot_height).max(80.0);
    let mut pressed = None;
    ScrollArea::vertical()
        .id_salt(("taping", taping.way.name()))
        .auto_shrink([false, true])
        .max_height(room)
        .show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 4.0;
            ui.set_width(ui.available_width() - 4.0);
            if !taping.is_under_way() {
                small_ui(ui, taping.way.help());
            }
            pressed = figures_ui(ui, desk, &mut taping);
        });
    desk.taping = taping;
    let top = ui.cursor().top();
    ui.separator();
    let foot_pressed = ui
        .scope(|ui| {
            // In line with the rows above, which leave room for the bar of a long page.
            ui.set_max_width(ui.available_width() - 4.0);
            foot_ui(ui, desk)
        })
        .inner;
    pressed = foot_pressed.or(pressed);
    let height = ui.cursor().top() - top;
    if (height - foot_height).abs() > 0.5 {
        ui.data_mut(|data| data.insert_temp(foot, height));
        ui.ctx().request_repaint();
    }
    match pressed {
        Some(Pressed::Put) => put(desk),
        Some(Pressed::File) => file_acts::ask_import(desk),
        None => {}
    }
}

/// The four, two in a row.
fn ways_ui(ui: &mut Ui, taping: &mut Taping) {
    let width = (ui.available_width() - GAP) / 2.0;
    for pair in Way::ALL.chunks(2) {
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = GAP;
            for way in pair {
                let button = egui::Button::selectable(taping.way == *way, way.name())
                    .frame_when_inactive(true)
                    .min_size(Vec2::new(width, ROW));
                if ui.add(button).on_hover_text(way.help()).clicked() {
                    taping.way = *way;
                    taping.go_on();
                }
            }
        });
    }
}

fn figures_ui(ui: &mut Ui, desk: &Desk, taping: &mut Taping) -> Option<Pressed> {
    corners_ui(ui, desk, taping);
    match taping.way {
        Way::TwoTapes => tapes_ui(ui, desk, taping),
        Way::BaseLine => {
            form_ui(ui, &mut taping.base_line.is_line);
            let entered = rows_ui(
                ui,
                &mut taping.base_line.rows,
                ["Along", "Aside"],
                [unit(desk.units()), "left or right"],
                &mut taping.focus,
            );
            if entered.has_focus {
                taping.want_next();
            }
            entered.is_done.then_some(Pressed::Put)
        }
        Way::WalkRound => {
            let entered = rows_ui(
                ui,
                &mut taping.walk_round.rows,
                ["Length", "Bearing"],
                [unit(desk.units()), "75 or N 45 E"],
                &mut taping.focus,
            );
            if entered.has_focus {
                taping.want_next();
            }
            labelled(ui, "Needle off true north", |ui| {
                figure_field(
                    ui,
                    &mut taping.walk_round.needle,
                    Focus::Needle,
                    "Needle off true north, degrees",
                )
                .on_hover_text(NEEDLE_HELP);
                ui.label(RichText::new("° east").weak());
            });
            entered.is_done.then_some(Pressed::Put)
        }
        Way::Walked => walked_ui(ui, desk, taping),
    }
}

/// The two tapes, and which of the corners is meant.
fn tapes_ui(ui: &mut Ui, desk: &Desk, taping: &mut Taping) -> Option<Pressed> {
    // Up and down choose while the cursor stands in a tape's field.
    let turned = ui.input_mut(|input| {
        input.consume_key(egui::Modifiers::NONE, Key::ArrowDown)
            || input.consume_key(egui::Modifiers::NONE, Key::ArrowUp)
    });
    let mut pressed = None;
    for (index, name) in ["Tape from the first", "Tape from the second"]
        .into_iter()
        .enumerate()
    {
        let Some(text) = taping.two_tapes.texts.get_mut(index) else {
            continue;
        };
        let field = labelled(ui, name, |ui| {
            let field = figure_field(ui, text, Focus::Tape(index), name);
            ui.label(RichText::new(unit(desk.units())).weak());
            field
        });
        take_focus(ui, &field, text, Focus::Tape(index), &mut taping.focus);
        if field.has_focus() {
            taping.want_next();
        }
        if field.changed() {
            taping.two_tapes.chosen = None;
        }
        if field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter)) {
            let other = taping
                .two_tapes
                .texts
                .iter()
                .position(|text| text.trim().is_empty());
            match other {
                Some(empty) => taping.focus = Some(Focus::Tape(empty)),
                None => pressed = Some(Pressed::Put),
            }
        }
    }
    let corners = taping.two_tapes.corners(taping.both_ends(), desk.units());
    if let Ok(corners) = corners {
        let hand = taping.two_tapes.hand(corners, desk.last_pointer);
        if turned {
            taping.two_tapes.chosen = Some(hand.other());
        }
        labelled(ui, "Which of the two", |ui| {
            for (meant, tip) in [
                (
                    Hand::Left,
                    "On the left, looking from the first known corner to the second",
                ),
                (
                    Hand::Right,
                    "On the right, looking from the first known corner to the second",
                ),
            ] {
                let button = egui::Button::selectable(hand == meant, meant.letter())
                    .frame_when_inactive(true)
                    .min_size(Vec2::new(36.0, ROW));
                if ui.add(button).on_hover_text(tip).clicked() {
                    taping.two_tapes.chosen = Some(meant);
                }
            }
        });
    }
    if matches!(desk.tool, Tool::Pick(_)) {
        place_kind_ui(ui, "Becomes a", &mut taping.place_kind);
    }
    pressed
}

/// What it all comes to, and the press.
fn foot_ui(ui: &mut Ui, desk: &mut Desk) -> Option<Pressed> {
    ui.spacing_mut().item_spacing.y = 4.0;
    let told = match desk.taping.way {
        Way::TwoTapes => two_tapes_told(desk),
        Way::BaseLine => {
            let taping = &desk.taping;
            let shape = taping.base_line.shape(taping.both_ends(), desk.units());
            shape.map(|shape| format!("{} corners.", shape.corners().len()))
        }
        Way::WalkRound => walk_told(desk),
        Way::Walked => ui.scope(|ui| walked_facts_ui(ui, desk)).inner,
    };
    match &told {
        Ok(text) if text.is_empty() => {}
        Ok(text) => {
            ui.add(egui::Label::new(text).wrap());
        }
        Err(wanting) => wanting_ui(ui, wanting),
    }
    let form = match desk.taping.way {
        Way::TwoTapes => None,
        Way::BaseLine => Some(desk.taping.base_line.is_line),
        Way::WalkRound => Some(false),
        Way::Walked => Some(desk.taping.walked.is_line),
    };
    if let Some(is_line) = form {
        ground_kind_ui(ui, desk, is_line);
    }
    let text = act_text(desk);
    let is_able = is_ready(desk);
    ui.add_space(2.0);
    let button = ui
        .add_enabled_ui(is_able, |ui| main_button(ui, &text))
        .inner;
    button
        .on_hover_text("Enter does the same")
        .clicked()
        .then_some(Pressed::Put)
}

fn act_text(desk: &Desk) -> String {
    let taping = &desk.taping;
    let made = |is_line: bool| {
        if is_line {
            "Make the line"
        } else {
            "Make the outline"
        }
    };
    match taping.way {
        Way::TwoTapes if matches!(desk.tool, Tool::Pick(_)) => {
            format!("Put down the {}", taping.place_kind.name())
        }
        Way::TwoTapes => format!("Next corner for {}", desk.tool.name()),
        Way::BaseLine => made(taping.base_line.is_line).to_owned(),
        Way::WalkRound => "Share out and make the outline".to_owned(),
        Way::Walked => made(taping.walked.is_line).to_owned(),
    }
}

fn two_tapes_told(desk: &Desk) -> Result<String, Wanting> {
    let taping = &desk.taping;
    let [first, second] = taping.both_ends()?;
    let corners = taping.two_tapes.corners(taping.both_ends(), desk.units())?;
    let hand = taping.two_tapes.hand(corners, desk.last_pointer);
    Ok(format!(
        "Corner {}, {} of the line from {} to {}. The arrow keys or a click change it.",
        hand.letter(),
        match hand {
            Hand::Left => "left",
            Hand::Right => "right",
        },
        first.name,
        second.name
    ))
}

fn walk_told(desk: &Desk) -> Result<String, Wanting> {
    let (taping, units) = (&desk.taping, desk.units());
    let [start, _] = &taping.ends;
    let walk = taping.walk_round.walk(start.as_ref(), units)?;
    let round = length_text_precise(walk.length_m, units);
    // Below a millimetre there is nothing to share out.
    if walk.misclosure_m() < 0.0005 {
        return Ok(format!("{round} round. It closes to the millimetre."));
    }
    Ok(format!(
        "{round} round. It misses its start by {}, 1 in {}. Each corner is moved by its share of that, by the length walked so far.",
        length_text_precise(walk.misclosure_m(), units),
        decimal_text(walk.closes_one_in(), 0)
    ))
}

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

/// Outline or line.
pub(super) fn form_ui(ui: &mut Ui, is_line: &mut bool) {
    labelled(ui, "Becomes", |ui| {
        ui.radio_value(is_line, false, "an outline");
        ui.radio_value(is_line, true, "a line");
    });
}

/// What kind of place a single corner becomes.
pub(super) fn place_kind_ui(ui: &mut Ui, name: &str, kind: &mut Kind) {
    labelled(ui, name, |ui| kind_ui(ui, kind, Form::Place));
}

/// What kind of ground it becomes.
fn ground_kind_ui(ui: &mut Ui, desk: &mut Desk, is_line: bool) {
    labelled(ui, "Kind of ground", |ui| {
        if is_line {
            kind_ui(ui, &mut desk.line_kind, Form::Line);
        } else {
            kind_ui(ui, &mut desk.area_kind, Form::Area);
        }
    });
}

fn kind_ui(ui: &mut Ui, kind: &mut Kind, form: Form) {
    let shown = egui::ComboBox::from_id_salt(("kind", form as u8))
        .selected_text(kind.name())
        .width(140.0)
        .show_ui(ui, |ui| {
            for offered in Kind::ALL.into_iter().filter(|kind| kind.allows(form)) {
                ui.selectable_value(kind, offered, offered.name());
            }
        });
    let spoken = format!("Kind: {}", kind.name());
    shown
        .response
        .widget_info(|| egui::WidgetInfo::labeled(egui::Role::ComboBox, true, spoken.clone()));
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
