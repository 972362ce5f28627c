//! Cutting what is selected into strips: how many or how large, along which side, seen before it is done.
//!
//! The form is plain data; the cut itself is geometry's.

use egui::{Pos2, Rect, RichText, Sense, Stroke, Ui, Vec2};

use crate::app::desk::Desk;
use crate::app::dialogs::{heading, main_button, trouble_ui};
use crate::app::theme;
use crate::farm::{Edit, Ground, GroundId, Kind, Shape};
use crate::geometry::cut::{StripPiece, bearing_along_side, strips_of_area, strips_of_equal_area};
use crate::geometry::{Outline, geodesic};
use crate::quantity::{area_text, parse_area_m2, parse_bearing_deg};
use crate::sheets::palette::Ink;

/// What is asked for.
#[derive(Debug, Clone)]
pub struct StripsForm {
    ground: GroundId,
    /// Whether strips of a given area are wanted rather than a number of equal ones.
    by_area: bool,
    count: u32,
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
        let side = longest_side(outline);
        let bearing_deg = bearing_along_side(outline, 0, side)? + 90.0;
        Some(Self {
            ground: id,
            by_area: false,
            count: 6,
            area_text: String::new(),
            // Lines across the longest side make the squarest strips.
            bearing_text: format!("{:.1}", bearing_deg.rem_euclid(360.0)),
            side,
            preview: None,
        })
    }

    fn strips(&mut self, desk: &Desk) -> Result<Vec<StripPiece>, String> {
        let key = format!(
            "{} {} {} {}",
            self.by_area, self.count, self.area_text, self.bearing_text
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
            let count = usize::try_from(self.count).unwrap_or(1);
            strips_of_equal_area(outline, bearing_deg, count).map_err(|error| error.to_string())
        }
    }
}

fn longest_side(outline: &Outline) -> usize {
    let Some(part) = outline.parts.first() else {
        return 0;
    };
    let longest = part
        .outer
        .sides()
        .enumerate()
        .max_by(|(_, (a, b)), (_, (c, d))| a.distance_m(*b).total_cmp(&c.distance_m(*d)));
    longest.map_or(0, |(place, _)| place)
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
        let count = egui::DragValue::new(&mut form.count)
            .range(1..=500)
            .speed(0.1);
        let response = ui.add_enabled(!form.by_area, count);
        response.widget_info(|| {
            egui::WidgetInfo::labeled(egui::Role::SpinButton, true, "Number of strips")
        });
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
    let mut view = crate::app::map::GroundView {
        screen: rect.expand2(Vec2::new(60.0, 30.0)),
        ..Default::default()
    };
    view.fit(&corners);
    let painter = ui.painter_at(rect);
    painter.rect_filled(rect, 5.0, theme::ink(ui, Ink::Paper));
    for (place, strip) in strips.iter().enumerate() {
        let (corners, triangles) = crate::geometry::fill_triangles(&strip.outline);
        let ink = theme::ink(
            ui,
            if place % 2 == 0 {
                Ink::Ley
            } else {
                Ink::LeyTall
            },
        );
        let mut mesh = egui::Mesh::default();
        mesh.vertices
            .extend(corners.iter().map(|corner| egui::epaint::Vertex {
                pos: view.screen_from_ground(*corner),
                uv: egui::epaint::WHITE_UV,
                color: ink,
            }));
        mesh.indices = triangles;
        painter.add(egui::Shape::mesh(mesh));
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
    let _: Rect = rect;
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
    let (label, edits) = strip_edits(desk, id, ground, strips);
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

fn strip_edits(
    desk: &Desk,
    id: GroundId,
    ground: &Ground,
    strips: &[StripPiece],
) -> (String, Vec<Edit>) {
    let farm = desk.farm();
    let mut edits: Vec<Edit> = farm
        .strips_of(id)
        .map(|(old, strip)| Edit::remove_ground(old, strip))
        .collect();
    // A strip that is cut again gives way to smaller strips of the same ley.
    let is_strip = ground.kind == Kind::Strip;
    let ley = if is_strip { ground.within } else { Some(id) };
    if is_strip {
        edits.push(Edit::remove_ground(id, ground));
    } else if ground.kind != Kind::Ley {
        edits.push(Edit::change_ground(
            id,
            ground,
            Ground {
                kind: Kind::Ley,
                ..ground.clone()
            },
        ));
    }
    let stem = strip_stem(farm, &ground.name);
    let mut next = farm.next_id;
    for (place, piece) in strips.iter().enumerate() {
        let name = if is_strip {
            format!("{}.{}", ground.name, place + 1)
        } else {
            format!("{stem}{}", place + 1)
        };
        let mut strip = Ground::new(name, Kind::Strip, Shape::Area(piece.outline.clone()));
        strip.within = ley;
        strip.grazing.clone_from(&ground.grazing);
        edits.push(Edit::add_ground(GroundId(next), strip));
        next += 1;
    }
    (
        format!("Cut {} into {} strips", ground.name, strips.len()),
        edits,
    )
}

/// Letters for the strips of a ley that no other strip begins with: W for Wether Ley, then We …
fn strip_stem(farm: &crate::farm::Farm, name: &str) -> String {
    let letters: Vec<char> = name.chars().filter(|c| c.is_alphanumeric()).collect();
    let is_free = |stem: &str| {
        !farm.ground.values().any(|ground| {
            ground.kind == Kind::Strip
                && ground
                    .name
                    .strip_prefix(stem)
                    .is_some_and(|rest| rest.chars().all(|c| c.is_ascii_digit()))
        })
    };
    for length in 1..=letters.len() {
        let stem: String = letters.iter().take(length).collect();
        let stem = if stem.ends_with(|c: char| c.is_ascii_digit()) {
            format!("{stem}-")
        } else {
            stem
        };
        if is_free(&stem) {
            return stem;
        }
    }
    "Strip ".to_owned()
}
