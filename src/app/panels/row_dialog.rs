//! Copying what is selected in a row: how many in all, how far apart, which way.
//!
//! Used for tunnels side by side; works on any one area. The gap is clear ground between neighbours.

use egui::{RichText, Ui};

use crate::app::desk::Desk;
use crate::app::dialogs::{heading, main_button, trouble_ui};
use crate::farm::{Edit, Ground, GroundId, Shape};
use crate::geometry::construct::row_of_copies;
use crate::geometry::cut::bearing_across_longest_side;
use crate::geometry::{Outline, Point};
use crate::quantity::{parse_bearing_deg, parse_length_m};

/// What is asked for.
#[derive(Debug, Clone)]
pub struct RowForm {
    ground: GroundId,
    count_text: String,
    gap_text: String,
    bearing_text: String,
    trouble: Option<String>,
    is_new: bool,
}

impl RowForm {
    /// For the one piece of ground that is selected, where it is an area.
    pub fn of_selected(desk: &Desk) -> Option<Self> {
        let (id, ground) = desk.selected_one()?;
        let bearing_deg = bearing_across_longest_side(ground.outline()?)?;
        // Rows are read from west to east, so the way is held in the eastern half.
        let bearing_deg = bearing_deg.rem_euclid(180.0);
        Some(Self {
            ground: id,
            count_text: "2".to_owned(),
            gap_text: "3".to_owned(),
            bearing_text: format!("{bearing_deg:.2}"),
            trouble: None,
            is_new: true,
        })
    }

    fn outlines(&self, desk: &Desk) -> Result<Vec<Outline>, String> {
        let outline = desk
            .farm()
            .ground
            .get(&self.ground)
            .and_then(Ground::outline)
            .ok_or("It is gone.")?;
        let count: usize = self
            .count_text
            .trim()
            .parse()
            .map_err(|_| format!("\"{}\" is not a count.", self.count_text))?;
        if !(2..=200).contains(&count) {
            return Err("From 2 to 200 in all.".to_owned());
        }
        let gap_m = if self.gap_text.trim() == "0" {
            0.0
        } else {
            parse_length_m(&self.gap_text, desk.units()).map_err(|error| error.to_string())?
        };
        let bearing_deg =
            parse_bearing_deg(&self.bearing_text).map_err(|error| error.to_string())?;
        let step_m = gap_m + reach_m(outline, bearing_deg);
        Ok(row_of_copies(outline, bearing_deg, step_m, count))
    }
}

/// How far an outline reaches along a bearing, metres.
fn reach_m(outline: &Outline, bearing_deg: f64) -> f64 {
    let (sine, cosine) = bearing_deg.to_radians().sin_cos();
    let along = outline
        .rings()
        .flat_map(|ring| ring.corners.iter())
        .map(|corner| corner.east_m * sine + corner.north_m * cosine);
    let (least, most) = along.fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), at| {
        (least.min(at), most.max(at))
    });
    (most - least).max(0.0)
}

/// The form; whether it stays on screen.
pub fn row_ui(ui: &mut Ui, desk: &mut Desk, form: &mut RowForm) -> bool {
    let Some(ground) = desk.farm().ground.get(&form.ground).cloned() else {
        return false;
    };
    heading(ui, &format!("Copy {} in a row", ground.name));
    let mut entered = false;
    egui::Grid::new("row")
        .num_columns(2)
        .spacing([16.0, 8.0])
        .show(ui, |ui| {
            for (name, text, is_first) in [
                ("How many in all", &mut form.count_text, true),
                ("Clear ground between", &mut form.gap_text, false),
                (
                    "Which way, degrees from north",
                    &mut form.bearing_text,
                    false,
                ),
            ] {
                let label = ui.label(name);
                let field = ui
                    .add(egui::TextEdit::singleline(text).desired_width(110.0))
                    .labelled_by(label.id);
                if is_first && form.is_new {
                    field.request_focus();
                    select_all(ui, field.id, text.chars().count());
                } else if field.gained_focus() {
                    select_all(ui, field.id, text.chars().count());
                }
                entered |= field.lost_focus();
                ui.end_row();
            }
        });
    form.is_new = false;
    ui.label(RichText::new("A tunnel's neighbours take the names and numbers that follow.").weak());
    trouble_ui(ui, form.trouble.as_deref());
    let mut stays = true;
    ui.horizontal(|ui| {
        let enter = entered && ui.input(|input| input.key_pressed(egui::Key::Enter));
        if main_button(ui, "Copy").clicked() || enter {
            match form.outlines(desk) {
                Ok(outlines) => {
                    commit_row(desk, &ground, outlines);
                    stays = false;
                }
                Err(text) => form.trouble = Some(text),
            }
        }
        if ui.button("Cancel").clicked() {
            stays = false;
        }
    });
    stays
}

/// So that typing replaces what stands there.
pub(in crate::app) fn select_all(ui: &Ui, id: egui::Id, end: usize) {
    let mut state = egui::TextEdit::load_state(ui.ctx(), id).unwrap_or_default();
    let whole =
        egui::text::CCursorRange::two(egui::text::CCursor::new(0), egui::text::CCursor::new(end));
    state.cursor.set_char_range(Some(whole));
    state.store(ui.ctx(), id);
}

fn commit_row(desk: &mut Desk, ground: &Ground, outlines: Vec<Outline>) {
    let first = desk.farm().next_id;
    let mut taken: Vec<String> = desk
        .farm()
        .ground
        .values()
        .map(|ground| ground.name.clone())
        .collect();
    let mut edits = Vec::new();
    for (outline, id) in outlines.into_iter().skip(1).zip(first..) {
        let mut copy = ground.clone();
        copy.name = next_name(&taken, &ground.name);
        taken.push(copy.name.clone());
        copy.shape = Shape::Area(outline).map_corners(Point::on_whole_mm);
        edits.push(Edit::add_ground(GroundId(id), copy));
    }
    let label = format!("Copy {} in a row of {}", ground.name, edits.len() + 1);
    desk.commit(&label, edits);
    desk.tell(label);
}

/// The name with its number counted on until it is free: `T1`, `T2` …; `Barn`, `Barn 2` …
fn next_name(taken: &[String], name: &str) -> String {
    let stem = name.trim_end_matches(|c: char| c.is_ascii_digit());
    let number: u32 = name
        .strip_prefix(stem)
        .and_then(|digits| digits.parse().ok())
        .unwrap_or(1);
    let stem = if stem == name {
        format!("{name} ")
    } else {
        stem.to_owned()
    };
    let most = number
        .saturating_add(u32::try_from(taken.len()).unwrap_or(0))
        .saturating_add(1);
    (number..=most)
        .map(|number| format!("{stem}{number}"))
        .find(|name| !taken.contains(name))
        .unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_count_on_from_the_one_copied() {
        let taken = ["T1".to_owned(), "T3".to_owned(), "Barn".to_owned()];
        assert_eq!(next_name(&taken, "T1"), "T2");
        assert_eq!(next_name(&taken, "Barn"), "Barn 1");
    }

    #[test]
    fn an_outline_reaches_as_far_as_its_corners_do() {
        let outline = Outline::simple(
            [(0.0, 0.0), (24.0, 0.0), (24.0, 8.0), (0.0, 8.0)]
                .map(|(east, north)| Point::new(east, north))
                .to_vec(),
        );
        assert!((reach_m(&outline, 0.0) - 8.0).abs() < 1e-9);
        assert!((reach_m(&outline, 90.0) - 24.0).abs() < 1e-9);
    }
}
