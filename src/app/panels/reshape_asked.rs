//! What each act of reshaping asks for, as fields and choices. Figures are kept as typed; the act reads them.

use egui::{Key, Ui};

use super::row_dialog::select_all;
use crate::app::desk::Desk;
use crate::app::tools::{Becomes, Reshape, ReshapeAct};
use crate::farm::{Farm, Form, Ground, GroundId, Kind, MisfitKind};

/// What became of the fields in one frame.
#[derive(Default)]
struct Answered {
    /// Whether something else is asked for now.
    has_changed: bool,
    /// Whether Enter ended the typing.
    has_entered: bool,
    /// Whether the first field has yet to take the focus.
    is_new: bool,
}

/// The fields and choices of an act; whether Enter was pressed in one.
pub(super) fn asked_ui(ui: &mut Ui, desk: &Desk, reshape: &mut Reshape) -> bool {
    let mut answered = Answered {
        is_new: std::mem::take(&mut reshape.is_new),
        ..Answered::default()
    };
    act_ui(ui, desk, &mut reshape.act, &mut answered);
    if answered.has_changed {
        reshape.ask_anew();
    }
    answered.has_entered
}

fn act_ui(ui: &mut Ui, desk: &Desk, act: &mut ReshapeAct, answered: &mut Answered) {
    match act {
        ReshapeAct::Mend {
            misfit,
            choices,
            chosen,
        } => {
            let [one, two] = misfit.between.map(|id| name_of(desk.farm(), id));
            ui.label(match misfit.kind {
                MisfitKind::Overlap => format!("{one} and {two} lie on each other."),
                MisfitKind::Gap => format!("{one} and {two} leave a sliver between them."),
            });
            for (place, choice) in choices.iter().enumerate() {
                answered.choice(ui, chosen, place, &choice.words);
            }
        }
        ReshapeAct::Join { ids, kept } => {
            ui.label("Name, kind and crop stay those of");
            for id in ids.iter() {
                answered.choice(ui, kept, *id, &name_of(desk.farm(), *id));
            }
        }
        ReshapeAct::Headland { .. } => headland_ui(ui, act, answered),
        ReshapeAct::KeepClear {
            width_text,
            is_round,
            kind,
            ..
        } => {
            answered.field(ui, "Clear on each side", width_text);
            answered.has_changed |= ui.checkbox(is_round, "Beyond the ends too").changed();
            answered.kind(ui, kind);
        }
        ReshapeAct::CutOut { .. } => {
            ui.label("The ground under it keeps what is left.");
        }
        ReshapeAct::FillHole {
            ground,
            which,
            kind,
            ..
        } => {
            holes_ui(ui, ground, which, answered);
            fill_ui(ui, kind, answered);
        }
        ReshapeAct::Mirror { by_side, ends, .. } => {
            let was = *by_side;
            answered.choice(ui, by_side, false, "Across a line: click two places");
            answered.choice(ui, by_side, true, "Across a side: click it");
            if was != *by_side {
                ends.clear();
            }
        }
        ReshapeAct::Turn { .. } => turn_ui(ui, desk, act, answered),
    }
}

fn headland_ui(ui: &mut Ui, act: &mut ReshapeAct, answered: &mut Answered) {
    let ReshapeAct::Headland {
        width_text,
        sides,
        becomes,
        kind,
        ..
    } = act
    else {
        return;
    };
    answered.field(ui, "Width", width_text);
    ui.label(match sides.len() {
        0 => "All round. Click sides on the map to choose some.".to_owned(),
        1 => "Along the side that is marked.".to_owned(),
        count => format!("Along the {count} sides that are marked."),
    });
    if !sides.is_empty() && ui.button("All round").clicked() {
        sides.clear();
        answered.has_changed = true;
    }
    answered.choice(
        ui,
        becomes,
        Becomes::OwnPiece,
        "A piece of its own; the ground is drawn in",
    );
    answered.choice(
        ui,
        becomes,
        Becomes::LaidOver,
        "Laid over the edge; the ground keeps its outline",
    );
    answered.kind(ui, kind);
}

fn holes_ui(ui: &mut Ui, ground: &Ground, which: &mut Option<usize>, answered: &mut Answered) {
    let parts = ground
        .outline()
        .into_iter()
        .flat_map(|outline| &outline.parts);
    let holes: usize = parts.map(|part| part.holes.len()).sum();
    if holes < 2 {
        return;
    }
    answered.choice(ui, which, None, "All holes");
    for place in 0..holes.min(12) {
        answered.choice(ui, which, Some(place), &format!("Hole {}", place + 1));
    }
}

fn fill_ui(ui: &mut Ui, kind: &mut Option<Kind>, answered: &mut Answered) {
    answered.choice(ui, kind, None, "Its ground belongs to the piece again");
    let is_drawn = kind.is_some();
    if ui
        .radio(is_drawn, "The hole stays and is drawn as ground of its own")
        .clicked()
        && !is_drawn
    {
        *kind = Some(Kind::Water);
        answered.has_changed = true;
    }
    if let Some(kind) = kind {
        answered.kind(ui, kind);
    }
}

fn turn_ui(ui: &mut Ui, desk: &Desk, act: &mut ReshapeAct, answered: &mut Answered) {
    let ReshapeAct::Turn {
        ids,
        about,
        degrees_text,
        ..
    } = act
    else {
        return;
    };
    answered.field(ui, "Degrees to the right", degrees_text);
    let middle = ReshapeAct::middle_of(desk.farm(), ids).unwrap_or(*about);
    if middle.distance_m(*about) < 1e-6 {
        ui.label("About the middle. Click a corner to turn about it.");
        return;
    }
    ui.label("About the corner that was clicked.");
    if ui.button("About the middle").clicked() {
        *about = middle;
        answered.has_changed = true;
    }
}

impl Answered {
    fn choice<T: PartialEq>(&mut self, ui: &mut Ui, chosen: &mut T, this: T, words: &str) {
        self.has_changed |= ui.radio_value(chosen, this, words).changed();
    }

    /// A named field; the first one takes the focus, with what stands there ready to be typed over.
    fn field(&mut self, ui: &mut Ui, name: &str, text: &mut String) {
        ui.horizontal(|ui| {
            let label = ui.label(name);
            let edit = egui::TextEdit::singleline(text).desired_width(90.0);
            let field = ui.add(edit).labelled_by(label.id);
            if std::mem::take(&mut self.is_new) {
                field.request_focus();
                select_all(ui, field.id, text.chars().count());
            }
            self.has_changed |= field.changed();
            self.has_entered |=
                field.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
        });
    }

    /// What kind the new ground becomes.
    fn kind(&mut self, ui: &mut Ui, kind: &mut Kind) {
        let areas = |other: &Kind| other.allows(Form::Area) && *other != Kind::Strip;
        ui.horizontal(|ui| {
            ui.label("It becomes");
            let menu = ui.menu_button(kind.name(), |ui| {
                for other in Kind::ALL.into_iter().filter(areas) {
                    if ui.selectable_label(other == *kind, other.name()).clicked() {
                        self.has_changed |= other != *kind;
                        *kind = other;
                        ui.close();
                    }
                }
            });
            menu.response
                .on_hover_text("What kind of ground it becomes");
        });
    }
}

fn name_of(farm: &Farm, id: GroundId) -> String {
    farm.ground
        .get(&id)
        .map_or_else(String::new, |ground| ground.name.clone())
}
