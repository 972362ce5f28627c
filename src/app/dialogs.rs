//! Questions that wait for an answer: paths, unsaved work, strips, a new farm, the sheet of keys.
//!
//! One at a time; Escape answers no. The map stays in view behind them.

use egui::{Key, Modal, RichText, Ui};

use super::command::Command;
use super::desk::Desk;
use super::file_acts;
use super::file_chooser::ChoosingFor;
use super::panels::row_dialog::select_all;
use super::panels::top_bar::shortcut_text;
use super::panels::{row_dialog, shown_dialog, strips_dialog, tree_list};
use super::theme;

/// A question on screen.
#[derive(Debug, Clone)]
pub enum Dialog {
    /// Which file.
    Path {
        /// What for.
        purpose: ChoosingFor,
        /// What is typed so far.
        typed: String,
        /// Why the last try failed.
        trouble: Option<String>,
    },
    /// What becomes of unsaved work.
    Unsaved {
        /// What goes on afterwards.
        after: After,
    },
    /// Cutting into strips.
    Strips(Box<strips_dialog::StripsForm>),
    /// Copying in a row.
    Row(row_dialog::RowForm),
    /// The list of trees.
    Trees(tree_list::TreeTable),
    /// Name and place of a new farm.
    NewFarm {
        /// Name.
        name: String,
        /// Degrees north and east, as typed.
        place: String,
        /// Why the last try failed.
        trouble: Option<String>,
    },
    /// The sheet of keys.
    Keys,
    /// Which kinds the map shows.
    Shown,
}

/// What a question about unsaved work holds up.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum After {
    /// Choosing a farm to open.
    Open,
    /// Opening this one.
    OpenThis(std::path::PathBuf),
    /// A new farm.
    New,
    /// Closing the window.
    Close,
}

impl Dialog {
    /// Cutting what is selected into strips.
    pub fn strips(desk: &Desk) -> Option<Self> {
        strips_dialog::StripsForm::of_selected(desk).map(|form| Self::Strips(Box::new(form)))
    }

    /// Copying what is selected in a row.
    pub fn row(desk: &Desk) -> Option<Self> {
        row_dialog::RowForm::of_selected(desk).map(Self::Row)
    }

    /// The list of trees, of the selected line or of the farm.
    pub fn trees(desk: &Desk) -> Option<Self> {
        tree_list::TreeTable::of_selected(desk).map(Self::Trees)
    }

    /// A new farm.
    pub fn new_farm() -> Self {
        Self::NewFarm {
            name: "New farm".to_owned(),
            place: "52.0, 0.0".to_owned(),
            trouble: None,
        }
    }
}

/// Shows the question on screen, if there is one.
pub fn dialog_ui(ui: &mut Ui, desk: &mut Desk) {
    let Some(mut dialog) = desk.dialog.take() else {
        return;
    };
    let ctx = ui.ctx().clone();
    let mut stays = true;
    let mut modal = Modal::new(egui::Id::unique("question"));
    let is_beside = matches!(dialog, Dialog::Strips(_));
    if is_beside {
        // The map shows what is asked about, so the question stands at its side and nothing is darkened.
        let area = Modal::default_area(egui::Id::unique("question"))
            .anchor(egui::Align2::RIGHT_TOP, egui::Vec2::new(-10.0, 54.0));
        modal = modal.area(area).backdrop_color(egui::Color32::TRANSPARENT);
    }
    let shown = modal.show(&ctx, |ui| {
        ui.set_width(if is_beside { 366.0 } else { 440.0 });
        ui.spacing_mut().item_spacing.y = 8.0;
        match &mut dialog {
            Dialog::Path {
                purpose,
                typed,
                trouble,
            } => stays = path_ui(ui, desk, *purpose, typed, trouble),
            Dialog::Unsaved { after } => stays = unsaved_ui(ui, desk, after),
            Dialog::Row(form) => stays = row_dialog::row_ui(ui, desk, form),
            Dialog::Trees(table) => stays = tree_list::tree_list_ui(ui, desk, table),
            Dialog::Strips(form) => stays = strips_dialog::strips_ui(ui, desk, form),
            Dialog::NewFarm {
                name,
                place,
                trouble,
            } => stays = new_farm_ui(ui, desk, name, place, trouble),
            Dialog::Keys => stays = keys_ui(ui),
            Dialog::Shown => stays = shown_dialog::shown_ui(ui, desk),
        }
    });
    if shown.should_close() || ctx.input(|input| input.key_pressed(Key::Escape)) {
        stays = false;
    }
    if let Dialog::Strips(form) = &mut dialog {
        if stays {
            strips_dialog::keep_clear(desk, form, shown.response.rect);
        } else {
            strips_dialog::put_view_back(desk, form);
        }
    }
    // An answer may have put the next question up; that one stays.
    if stays && desk.dialog.is_none() {
        desk.dialog = Some(dialog);
    }
}

/// The heading of a question.
pub fn heading(ui: &mut Ui, text: &str) {
    ui.label(RichText::new(text).font(theme::serif_bold(theme::HEADING)));
}

/// A button that carries the act.
pub fn main_button(ui: &mut Ui, text: &str) -> egui::Response {
    use crate::sheets::palette::Ink;
    let words = RichText::new(text)
        .font(theme::sans_bold(theme::BODY))
        .color(theme::ink(ui, Ink::OnAct));
    ui.add(
        egui::Button::new(words)
            .fill(theme::ink(ui, Ink::Act))
            .stroke(egui::Stroke::NONE),
    )
}

/// A sentence of trouble.
pub fn trouble_ui(ui: &mut Ui, trouble: Option<&str>) {
    if let Some(text) = trouble {
        ui.label(RichText::new(text).color(theme::ink(ui, crate::sheets::palette::Ink::Act)));
    }
}

fn path_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    purpose: ChoosingFor,
    typed: &mut String,
    trouble: &mut Option<String>,
) -> bool {
    let (title, act) = match purpose {
        ChoosingFor::Open => ("Open a farm", "Open"),
        ChoosingFor::SaveAs => ("Save the farm as", "Save"),
        ChoosingFor::Import => ("Bring outlines or a walk in", "Import"),
        ChoosingFor::Export => ("Hand outlines out", "Export"),
    };
    heading(ui, title);
    let label = ui.label("Path of the file");
    let field = ui.add(
        egui::TextEdit::singleline(typed)
            .desired_width(f32::INFINITY)
            .hint_text("folder/farm.ron"),
    );
    let field = field.labelled_by(label.id);
    // Asked before the field takes the focus again, which would hide that Enter has ended the typing.
    let enter = field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
    if !field.has_focus()
        && !desk.chooser.is_open()
        && ui.memory(|memory| memory.focused().is_none())
    {
        field.request_focus();
    }
    trouble_ui(ui, trouble.as_deref());
    if purpose == ChoosingFor::Open && !desk.settings.recent.is_empty() {
        ui.label(RichText::new("Opened last").font(theme::serif_bold(theme::BODY)));
        for path in desk.settings.recent.clone() {
            let name = path
                .file_stem()
                .map(|stem| stem.to_string_lossy().into_owned())
                .unwrap_or_default();
            let row = ui.button(name).on_hover_text(path.display().to_string());
            if row.clicked() {
                typed.clear();
                typed.push_str(&path.to_string_lossy());
                return !try_path(desk, purpose, typed, trouble);
            }
        }
    }
    let mut stays = true;
    ui.horizontal(|ui| {
        let pressed = main_button(ui, act).clicked();
        if (pressed || enter) && !typed.trim().is_empty() {
            stays = !try_path(desk, purpose, typed, trouble);
            if !stays {
                file_acts::go_on_with_held_up(desk);
            }
        }
        let choose = ui.add_enabled(
            !desk.chooser.is_open(),
            egui::Button::new("Choose in folders …"),
        );
        if choose.clicked() {
            let name = std::path::Path::new(typed.as_str())
                .file_name()
                .map(|n| n.to_string_lossy().into_owned());
            desk.chooser
                .open(purpose, &name.unwrap_or_default(), ui.ctx());
        }
        if ui.button("Cancel").clicked() {
            stays = false;
        }
    });
    stays
}

fn try_path(
    desk: &mut Desk,
    purpose: ChoosingFor,
    typed: &str,
    trouble: &mut Option<String>,
) -> bool {
    match file_acts::use_path(desk, purpose, std::path::Path::new(typed.trim())) {
        Ok(()) => true,
        Err(text) => {
            *trouble = Some(text);
            false
        }
    }
}

fn unsaved_ui(ui: &mut Ui, desk: &mut Desk, after: &After) -> bool {
    heading(ui, "The farm is not saved");
    ui.label(format!(
        "{} has changes that are not on disk yet.",
        desk.farm().name
    ));
    let mut stays = true;
    ui.horizontal(|ui| {
        if main_button(ui, "Save first").clicked() {
            stays = false;
            if let Some(path) = desk.path.clone() {
                if file_acts::save_to(desk, &path) {
                    file_acts::go_on(desk, after.clone());
                }
            } else {
                file_acts::ask_save_as(desk);
                desk.held_up = Some(after.clone());
            }
        }
        if ui.button("Leave the changes").clicked() {
            stays = false;
            file_acts::go_on(desk, after.clone());
        }
        if ui.button("Cancel").clicked() {
            stays = false;
        }
    });
    stays
}

fn new_farm_ui(
    ui: &mut Ui,
    desk: &mut Desk,
    name: &mut String,
    place: &mut String,
    trouble: &mut Option<String>,
) -> bool {
    heading(ui, "A new farm");
    let mut entered = false;
    for (told, text) in [
        ("Name", &mut *name),
        ("Where it lies: degrees north, degrees east", &mut *place),
    ] {
        let label = ui.label(told);
        let field = ui
            .add(egui::TextEdit::singleline(text).desired_width(f32::INFINITY))
            .labelled_by(label.id);
        // Asked before a field takes the focus, which would hide that Enter has ended the typing.
        entered |= field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
        if ui.memory(|memory| memory.focused().is_none()) {
            field.request_focus();
            select_all(ui, field.id, text.chars().count());
        }
    }
    ui.label(
        RichText::new("As a phone shows it, such as 52.1234, -1.2345. West and south are below 0.")
            .weak(),
    );
    trouble_ui(ui, trouble.as_deref());
    let mut stays = true;
    ui.horizontal(|ui| {
        if main_button(ui, "Begin").clicked() || entered {
            match begun(desk, name, place) {
                Ok(()) => stays = false,
                Err(text) => *trouble = Some(text),
            }
        }
        if ui.button("Cancel").clicked() {
            stays = false;
        }
    });
    stays
}

fn begun(desk: &mut Desk, name: &str, place: &str) -> Result<(), String> {
    let figures: Vec<f64> = place
        .split([',', ';', ' '])
        .filter(|part| !part.is_empty())
        .map(|part| {
            part.parse::<f64>()
                .map_err(|_| format!("\"{part}\" is not a number of degrees"))
        })
        .collect::<Result<_, _>>()?;
    match figures.as_slice() {
        [lat_deg, lon_deg] => file_acts::begin_farm(desk, name.trim(), *lat_deg, *lon_deg),
        _ => Err("Two numbers are needed: degrees north, then degrees east.".to_owned()),
    }
}

fn keys_ui(ui: &mut Ui) -> bool {
    heading(ui, "Keys");
    egui::ScrollArea::vertical()
        .max_height((ui.ctx().content_rect().height() - 150.0).clamp(120.0, 420.0))
        .show(ui, |ui| {
            egui::Grid::new("keys")
                .num_columns(2)
                .spacing([24.0, 4.0])
                .show(ui, |ui| {
                    for command in Command::all() {
                        let facts = command.facts();
                        if let Some(key) = facts.key {
                            ui.label(
                                RichText::new(shortcut_text(ui.ctx(), &key))
                                    .font(theme::sans_bold(theme::BODY)),
                            );
                            ui.label(facts.tip);
                            ui.end_row();
                        }
                    }
                    for (key, tip) in [
                        ("Enter", "Close the outline, end the line"),
                        ("Backspace", "Take the last corner back"),
                        ("Escape", "Drop what is being drawn; select nothing"),
                        ("Space and drag", "Pan the map with any tool"),
                    ] {
                        ui.label(RichText::new(key).font(theme::sans_bold(theme::BODY)));
                        ui.label(tip);
                        ui.end_row();
                    }
                });
        });
    !main_button(ui, "Close").clicked()
}
