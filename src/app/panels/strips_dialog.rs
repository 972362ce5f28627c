//! Cutting what is selected into strips: how many or how large, along which side, seen before it is done.
//!
//! The form is plain data; the cut itself is geometry's.

use egui::{Pos2, RichText, Sense, Stroke, Ui, Vec2};

use crate::app::desk::Desk;
use crate::app::dialogs::{heading, main_button, trouble_ui};
use crate::app::map::{GroundView, fill_shape};
use crate::app::theme;
use crate::farm::{Ground, GroundId, cut_edits};
use crate::geometry::cut::{
    StripPiece, bearing_across_longest_side, bearing_along_side, strips_of_area,
    strips_of_equal_area,
};
use crate::geometry::geodesic;
use crate::geometry::triangulate::fill_mesh;
use crate::quantity::{area_text, parse_area_m2, parse_bearing_deg};
use crate::sheets::palette::Ink;

/// What is asked for.
#[derive(Debug, Clone)]
pub struct StripsForm {
    ground: GroundId,
    /// Whether strips of a given area are wanted rather than a number of equal ones.
    by_area: bool,
    count_text: String,
    is_new: bool,
    area_text: String,
    bearing_text: String,
    side: usize,
    /// The strips as they would be, for the figures they were made with.
    preview: Option<(String, Result<Vec<StripPiece>, String>)>,
}

impl StripsForm {
    /// For the one piece of ground that is selected, where it is an area.
    pub fn of_selected(desk: &Desk) -> Option<Self> {
        let (id, ground) = desk.selected_one()?;
        let outline = ground.outline()?;
        // Lines across the longest side make the squarest strips.
        let bearing_deg = bearing_across_longest_side(outline)?;
        Some(Self {
            ground: id,
            by_area: false,
            count_text: "6".to_owned(),
            is_new: true,
            area_text: String::new(),
            bearing_text: format!("{bearing_deg:.1}"),
            side: 0,
            preview: None,
        })
    }

    fn strips(&mut self, desk: &Desk) -> Result<Vec<StripPiece>, String> {
        let key = format!(
            "{} {} {} {}",
            self.by_area, self.count_text, self.area_text, self.bearing_text
        );
        if let Some((made_with, strips)) = &self.preview
            && *made_with == key
        {
            return strips.clone();
        }
        let strips = self.cut(desk);
        self.preview = Some((key, strips.clone()));
        strips
    }

    fn cut(&self, desk: &Desk) -> Result<Vec<StripPiece>, String> {
        let outline = desk
            .farm()
            .ground
            .get(&self.ground)
            .and_then(Ground::outline)
            .ok_or("it is gone")?;
        let bearing_deg =
            parse_bearing_deg(&self.bearing_text).map_err(|error| error.to_string())?;
        if self.by_area {
            let area_m2 =
                parse_area_m2(&self.area_text, desk.units()).map_err(|error| error.to_string())?;
            if outline.area_m2() / area_m2 > 500.0 {
                return Err("That would make more than 500 strips: give a larger area.".to_owned());
            }
            strips_of_area(outline, bearing_deg, area_m2).map_err(|error| error.to_string())
        } else {
            let count: usize = self
                .count_text
                .trim()
                .parse()
                .map_err(|_| format!("\"{}\" is not a count of strips.", self.count_text))?;
            if !(1..=500).contains(&count) {
                return Err("From 1 to 500 strips.".to_owned());
            }
            strips_of_equal_area(outline, bearing_deg, count).map_err(|error| error.to_string())
        }
    }
}

/// The form; whether it stays on screen.
pub fn strips_ui(ui: &mut Ui, desk: &mut Desk, form: &mut StripsForm) -> bool {
    let Some(ground) = desk.farm().ground.get(&form.ground).cloned() else {
        return false;
    };
    heading(ui, &format!("Cut {} into strips", ground.name));
    figures_ui(ui, desk, form, &ground);
    let strips = form.strips(desk);
    match &strips {
        Ok(strips) => {
            preview_ui(ui, &ground, strips);
            told_ui(ui, desk, strips);
        }
        Err(text) => trouble_ui(ui, Some(text)),
    }
    let had = desk.farm().strips_of(form.ground).count();
    if had > 0 {
        ui.label(
            RichText::new(format!("The {had} strips that are there now are replaced.")).weak(),
        );
    }
    let mut stays = true;
    ui.horizontal(|ui| {
        let can = strips.is_ok();
        let enter = ui.input(|input| input.key_pressed(egui::Key::Enter));
        if (main_button(ui, "Cut").clicked() || enter) && can {
            if let Ok(strips) = &strips {
                commit_strips(desk, form.ground, &ground, strips);
            }
            stays = false;
        }
        if ui.button("Cancel").clicked() {
            stays = false;
        }
    });
    stays
}

fn figures_ui(ui: &mut Ui, desk: &Desk, form: &mut StripsForm, ground: &Ground) {
    ui.horizontal(|ui| {
        ui.radio_value(&mut form.by_area, false, "Equal strips");
        let field = egui::TextEdit::singleline(&mut form.count_text).desired_width(60.0);
        let response = ui.add_enabled(!form.by_area, field);
        response.widget_info(|| {
            egui::WidgetInfo::labeled(egui::Role::TextInput, true, "Number of strips")
        });
        if form.is_new {
            response.request_focus();
            super::row_dialog::select_all(ui, response.id, form.count_text.chars().count());
            form.is_new = false;
        }
    });
    ui.horizontal(|ui| {
        ui.radio_value(&mut form.by_area, true, "Strips of");
        let field = egui::TextEdit::singleline(&mut form.area_text)
            .desired_width(110.0)
            .hint_text("0.14 ha");
        let response = ui.add_enabled(form.by_area, field);
        response.widget_info(|| {
            egui::WidgetInfo::labeled(egui::Role::TextInput, true, "Area of a strip")
        });
        ui.label(RichText::new("the last one takes what is left").weak());
    });
    ui.horizontal(|ui| {
        let label = ui.label("Cut lines run along");
        ui.add(egui::TextEdit::singleline(&mut form.bearing_text).desired_width(60.0))
            .labelled_by(label.id);
        ui.label("degrees from north");
        if ui
            .button("Turn")
            .on_hover_text("Run the lines the other way")
            .clicked()
            && let Ok(bearing_deg) = parse_bearing_deg(&form.bearing_text)
        {
            form.bearing_text = format!("{:.1}", (bearing_deg + 90.0).rem_euclid(360.0));
        }
    });
    ui.horizontal(|ui| {
        let sides = ground
            .outline()
            .and_then(|outline| outline.parts.first())
            .map_or(0, |part| part.outer.corners.len());
        if ui
            .button("Next side")
            .on_hover_text("Run the lines along the next side of the outline")
            .clicked()
            && sides > 0
        {
            form.side = (form.side + 1) % sides;
            if let Some(bearing_deg) = ground
                .outline()
                .and_then(|outline| bearing_along_side(outline, 0, form.side))
            {
                form.bearing_text = format!("{bearing_deg:.1}");
            }
        }
        let area_m2 = desk.measures(form.ground).area_m2.unwrap_or(0.0);
        ui.label(RichText::new(format!("{} in all", area_text(area_m2, desk.units()))).weak());
    });
}

/// A small picture of the strips as they would be.
fn preview_ui(ui: &mut Ui, ground: &Ground, strips: &[StripPiece]) {
    let (rect, response) =
        ui.allocate_exact_size(Vec2::new(ui.available_width(), 150.0), Sense::hover());
    response.widget_info(|| {
        egui::WidgetInfo::labeled(egui::Role::Image, true, "Picture of the strips")
    });
    let corners = ground.shape.corners();
    let mut view = GroundView {
        screen: rect,
        ..Default::default()
    };
    view.fit_clear_of(&corners, 16.0, 16.0);
    let painter = ui.painter_at(rect);
    painter.rect_filled(rect, 5.0, theme::ink(ui, Ink::Paper));
    for (place, strip) in strips.iter().enumerate() {
        let ink = theme::ink(
            ui,
            if place % 2 == 0 {
                Ink::Ley
            } else {
                Ink::LeyTall
            },
        );
        painter.add(fill_shape(&view, &fill_mesh(&strip.outline), ink));
        for ring in strip.outline.rings() {
            let points: Vec<Pos2> = ring
                .corners
                .iter()
                .map(|corner| view.screen_from_ground(*corner))
                .collect();
            painter.add(egui::Shape::closed_line(
                points,
                Stroke::new(1.2, theme::ink(ui, Ink::Ink)),
            ));
        }
    }
}

fn told_ui(ui: &mut Ui, desk: &Desk, strips: &[StripPiece]) {
    let Some(first) = strips.first() else { return };
    let each = area_text(
        geodesic::area_m2(desk.farm().frame, &first.outline),
        desk.units(),
    );
    ui.label(format!("{} strips, {each} each", strips.len()));
    let broken = strips.iter().filter(|strip| strip.pieces > 1).count();
    if broken > 0 {
        let text = format!("{broken} of them fall in two pieces or more: try another direction.");
        trouble_ui(ui, Some(&text));
    }
}

/// Puts the strips on the farm: strips of a ley lie within it; a plot that is cut becomes a ley first.
fn commit_strips(desk: &mut Desk, id: GroundId, ground: &Ground, strips: &[StripPiece]) {
    let (label, edits) = cut_edits(desk.farm(), id, ground, strips);
    desk.commit(&label, edits);
    desk.select_only(id);
    let broken = strips.iter().filter(|strip| strip.pieces > 1).count();
    if broken > 0 {
        desk.tell(format!(
            "{} strips cut; {broken} of them fall in several pieces.",
            strips.len()
        ));
    }
}
