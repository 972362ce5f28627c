//! The question of strips: how large, which way, what they are called, and what comes of it; the map shows them.
//!
//! Paints the form of [`super::strips_form`]; reckons nothing itself.

use egui::{Key, Response, RichText, Role, TextEdit, Ui, WidgetInfo};

use super::row_dialog::select_all;
pub use super::strips_form::StripsForm;
use super::strips_form::{DirectionWay, Row, RowTrouble, SizeWay, StripsPreview};
use crate::app::desk::Desk;
use crate::app::dialogs::{heading, main_button, trouble_ui};
use crate::app::map::GroundView;
use crate::app::theme;
use crate::farm::{
    Ground, GroundId, countable_sides, line_bearing_deg, reachable, replaced_by_cut,
};
use crate::geometry::geodesic;
use crate::planning::REST_SUM_SOURCE;
use crate::quantity::{length_text, parse_bearing_deg};

/// Width of a short field.
const FIELD: f32 = 74.0;

/// The form; whether it stays on screen.
pub fn strips_ui(ui: &mut Ui, desk: &mut Desk, form: &mut StripsForm) -> bool {
    let Some(ground) = desk.farm().ground.get(&form.ground).cloned() else {
        return false;
    };
    ui.spacing_mut().item_spacing.y = 5.0;
    heading(ui, &format!("Cut {} into strips", ground.name));
    let mut entered = false;
    let room = (ui.ctx().content_rect().height() - 172.0).max(160.0);
    egui::ScrollArea::vertical()
        .max_height(room)
        .min_scrolled_height(room)
        .auto_shrink([false, true])
        .show(ui, |ui| {
            entered |= size_ui(ui, desk, form);
            entered |= feed_ui(ui, desk, form);
            ui.separator();
            entered |= direction_ui(ui, desk, form, &ground);
            ui.separator();
            entered |= stem_ui(ui, form);
            if form.renew(desk) {
                // The map was drawn before; it shows the new strips in the next frame.
                ui.ctx().request_repaint();
            }
            outcome_ui(ui, desk, form, &ground);
        });
    form.is_new = false;
    let can = matches!(form.made_now(), Some(Ok(_)));
    let mut stays = true;
    ui.horizontal(|ui| {
        let is_free = ui.memory(|memory| memory.focused().is_none());
        let enter = (entered || is_free) && ui.input(|input| input.key_pressed(Key::Enter));
        let pressed = ui.add_enabled_ui(can, |ui| main_button(ui, "Cut").clicked());
        if can && (pressed.inner || enter) {
            form.commit(desk);
            stays = false;
        }
        if ui.button("Cancel").clicked() {
            stays = false;
        }
    });
    stays
}

/// One way of giving the size: a choice, a field that takes the choice when it is typed in, words behind it.
struct SizeRow<'a> {
    way: SizeWay,
    words: &'a str,
    spoken: &'a str,
    hint: &'a str,
    after: &'a str,
}

const SIZE_ROWS: [SizeRow<'static>; 4] = [
    SizeRow {
        way: SizeWay::Count,
        words: "Equal strips",
        spoken: "Number of strips",
        hint: "6",
        after: "of one area",
    },
    SizeRow {
        way: SizeWay::Area,
        words: "Strips of",
        spoken: "Area of a strip",
        hint: "0.14 ha",
        after: "each, the last takes the rest",
    },
    SizeRow {
        way: SizeWay::Width,
        words: "Strips as wide as",
        spoken: "Width of a strip",
        hint: "12 m",
        after: "the last takes the rest",
    },
    SizeRow {
        way: SizeWay::Days,
        words: "Strips to last",
        spoken: "Days on a strip",
        hint: "2",
        after: "days for the mob below",
    },
];

fn size_ui(ui: &mut Ui, desk: &Desk, form: &mut StripsForm) -> bool {
    let mut entered = false;
    let has_mobs = !desk.farm().mobs.is_empty();
    for row in SIZE_ROWS {
        if row.way == SizeWay::Days && !has_mobs {
            continue;
        }
        ui.horizontal(|ui| {
            let is_chosen = form.choice.size == row.way;
            let radio = choice_radio(ui, is_chosen, row.words);
            let text = match row.way {
                SizeWay::Count => &mut form.choice.count_text,
                SizeWay::Area => &mut form.choice.area_text,
                SizeWay::Width => &mut form.choice.width_text,
                SizeWay::Days => &mut form.choice.days_text,
            };
            let field = field_ui(ui, text, row.spoken, row.hint, FIELD);
            ui.label(RichText::new(row.after).weak());
            if radio.clicked() || (form.is_new && is_chosen) {
                field.request_focus();
                select_all(ui, field.id, text.chars().count());
            }
            if radio.clicked() || field.changed() {
                form.choice.size = row.way;
            }
            entered |= field.lost_focus();
        });
        if form.choice.size == row.way {
            trouble_of_ui(ui, form, Row::Size);
        }
    }
    entered
}

/// Mob, cover and residual, and the sum they make.
fn feed_ui(ui: &mut Ui, desk: &Desk, form: &mut StripsForm) -> bool {
    if desk.farm().mobs.is_empty() {
        return false;
    }
    let mut entered = false;
    ui.horizontal(|ui| {
        ui.label("Mob");
        let name = form
            .mob_of(desk)
            .map_or("no mob", |mob| mob.name.as_str())
            .to_owned();
        let combo = egui::ComboBox::from_id_salt("mob of the strips").selected_text(name);
        let shown = combo.show_ui(ui, |ui| {
            for (id, mob) in &desk.farm().mobs {
                ui.selectable_value(&mut form.mob, Some(*id), mob.name.as_str());
            }
            ui.selectable_value(&mut form.mob, None, "no mob");
        });
        shown
            .response
            .widget_info(|| WidgetInfo::labeled(Role::ComboBox, true, "Mob of the strips"));
    });
    if form.mob.is_none() {
        trouble_of_ui(ui, form, Row::Feed);
        return false;
    }
    ui.horizontal(|ui| {
        ui.label("Cover");
        entered |= field_ui(ui, &mut form.cover_text, "Cover, kg DM/ha", "", 54.0).lost_focus();
        ui.label("residual");
        entered |= field_ui(ui, &mut form.leave_text, "Residual, kg DM/ha", "", 54.0).lost_focus();
        ui.label("kg DM/ha");
    });
    trouble_of_ui(ui, form, Row::Feed);
    if let Some(cover) = form.cover {
        small_ui(ui, &format!("The cover is {}.", cover.source.told()));
    }
    if let (Ok(Some(feed)), Some(mob)) = (form.feed(desk), form.mob_of(desk)) {
        wrapped_ui(ui, &feed.told(mob, desk.units()));
    }
    entered
}

fn direction_ui(ui: &mut Ui, desk: &Desk, form: &mut StripsForm, ground: &Ground) -> bool {
    let Some(outline) = ground.outline() else {
        return false;
    };
    let mut entered = false;
    direction_radio(ui, form, DirectionWay::Across, "Across the longest side");
    ui.horizontal(|ui| {
        direction_radio(ui, form, DirectionWay::Side, "Along a side");
        let sides = countable_sides(outline);
        let words = |index: usize| {
            sides.get(index).map_or(String::new(), |(from, to)| {
                let long_m = geodesic::distance_m(desk.farm().frame, *from, *to);
                let bearing_deg = line_bearing_deg(from.bearing_deg(*to));
                format!(
                    "side {} · {} · {bearing_deg:.1}°",
                    index + 1,
                    length_text(long_m, desk.units())
                )
            })
        };
        let combo =
            egui::ComboBox::from_id_salt("side of the strips").selected_text(words(form.side));
        let shown = combo.show_ui(ui, |ui| {
            for index in 0..sides.len().min(MOST_LISTED) {
                let row = ui.selectable_value(&mut form.side, index, words(index));
                if row.clicked() {
                    form.choice.direction = DirectionWay::Side;
                }
            }
        });
        shown
            .response
            .widget_info(|| WidgetInfo::labeled(Role::ComboBox, true, "Side of the outline"));
        let next = ui
            .button("Next side")
            .on_hover_text("Run the cuts along the next side of the outline; the map marks it");
        if next.clicked() && !sides.is_empty() {
            form.side = (form.side + 1) % sides.len();
            form.choice.direction = DirectionWay::Side;
        }
    });
    ui.horizontal(|ui| {
        direction_radio(ui, form, DirectionWay::Bearing, "Along a bearing of");
        let field = field_ui(ui, &mut form.bearing_text, "Bearing, degrees", "75", 58.0);
        if field.changed() {
            form.choice.direction = DirectionWay::Bearing;
        }
        entered |= field.lost_focus();
        ui.label("degrees");
        let turn = ui
            .button("Turn")
            .on_hover_text("Turn the cuts by a right angle");
        if turn.clicked()
            && let Ok(bearing_deg) = parse_bearing_deg(&form.bearing_text)
        {
            form.bearing_text = format!("{:.1}", line_bearing_deg(bearing_deg + 90.0));
            form.choice.direction = DirectionWay::Bearing;
        }
    });
    goal_ui(ui, desk, form, outline);
    trouble_of_ui(ui, form, Row::Direction);
    entered
}

/// More sides or things than these are not listed at once: the button leads to every side, a part of the name to everything
/// there is to reach.
const MOST_LISTED: usize = 60;
/// With more to reach than these, a part of the name may be typed.
const FEW_TO_REACH: usize = 12;

fn goal_ui(ui: &mut Ui, desk: &Desk, form: &mut StripsForm, outline: &crate::geometry::Outline) {
    let goals = reachable(desk.farm(), outline);
    if goals.is_empty() {
        small_ui(
            ui,
            "Draw a trough, gate, pond or track, and strips can all be made to reach it.",
        );
        return;
    }
    ui.horizontal(|ui| {
        direction_radio(ui, form, DirectionWay::Reaching, "Every strip reaches");
        let words = |id: GroundId| {
            desk.farm().ground.get(&id).map_or(String::new(), |ground| {
                let kind = ground.kind.name();
                if ground.name.trim().is_empty() || ground.name.eq_ignore_ascii_case(kind) {
                    format!("the {kind}")
                } else {
                    ground.name.clone()
                }
            })
        };
        let selected = form.goal.map(words).unwrap_or_default();
        let combo = egui::ComboBox::from_id_salt("goal of the strips").selected_text(selected);
        // Typing narrows the list, so a click into the field must not close it.
        let combo = combo.close_behavior(egui::PopupCloseBehavior::CloseOnClickOutside);
        let shown = combo.show_ui(ui, |ui| {
            let part = part_of_name_ui(ui, goals.len());
            let fits = |(id, _): &&(GroundId, f64)| words(*id).to_lowercase().contains(&part);
            for (id, gap_m) in goals.iter().filter(fits).take(MOST_LISTED) {
                let text = format!("{} · {}", words(*id), length_text(*gap_m, desk.units()));
                if ui
                    .selectable_value(&mut form.goal, Some(*id), text)
                    .clicked()
                {
                    form.choice.direction = DirectionWay::Reaching;
                    ui.close();
                }
            }
            let more = goals
                .iter()
                .filter(fits)
                .count()
                .saturating_sub(MOST_LISTED);
            if more > 0 {
                small_ui(
                    ui,
                    &format!("and {more} farther away: type a part of the name"),
                );
            }
        });
        shown
            .response
            .widget_info(|| WidgetInfo::labeled(Role::ComboBox, true, "What every strip reaches"));
    });
}

/// A field for a part of a name, above a list of so many; what is typed there, in small letters.
fn part_of_name_ui(ui: &mut Ui, listed: usize) -> String {
    if listed <= FEW_TO_REACH {
        return String::new();
    }
    let id = ui.scope_id().with("part of the name");
    let mut part: String = ui.data_mut(|data| data.get_temp(id)).unwrap_or_default();
    let field = TextEdit::singleline(&mut part)
        .hint_text("part of its name")
        .desired_width(180.0);
    let field = ui.add(field);
    field.widget_info(|| WidgetInfo::labeled(Role::TextInput, true, "Part of its name"));
    ui.data_mut(|data| data.insert_temp(id, part.clone()));
    part.trim().to_lowercase()
}

fn stem_ui(ui: &mut Ui, form: &mut StripsForm) -> bool {
    let mut entered = false;
    ui.horizontal(|ui| {
        ui.label("Names begin with");
        entered = field_ui(ui, &mut form.stem, "Names begin with", "L", 110.0).lost_focus();
        if let Some((_, preview)) = form.shown()
            && let (Some(first), Some(last)) = (preview.drawn.first(), preview.drawn.last())
        {
            let text = if preview.drawn.len() > 1 {
                format!("{} to {}", first.name, last.name)
            } else {
                first.name.clone()
            };
            ui.label(text);
        }
    });
    trouble_of_ui(ui, form, Row::Stem);
    entered
}

/// What comes of it: the strips, the rest they give, what they replace.
fn outcome_ui(ui: &mut Ui, desk: &Desk, form: &StripsForm, ground: &Ground) {
    ui.separator();
    if let Some((_, preview)) = form.shown() {
        outcome_of_ui(ui, desk, form, preview);
    }
    for sentence in replaced_by_cut(desk.farm(), form.ground, ground).told() {
        wrapped_ui(ui, &sentence);
    }
}

fn outcome_of_ui(ui: &mut Ui, desk: &Desk, form: &StripsForm, preview: &StripsPreview) {
    let told = form.told(desk, preview);
    let mut told = told.iter();
    if let Some(strips) = told.next() {
        let text = RichText::new(strips).font(theme::sans_bold(theme::BODY));
        ui.add(egui::Label::new(text).wrap());
    }
    for sentence in told {
        trouble_ui(ui, Some(sentence));
    }
    if let Some(rest) = form.rest_told(desk, preview) {
        wrapped_ui(ui, &rest);
        small_ui(
            ui,
            &format!("Sum as in {REST_SUM_SOURCE}; the rest wanted is your sward's."),
        );
    }
}

/// Makes room on the map for the strips beside the question, once for each size of it.
pub fn keep_clear(desk: &mut Desk, form: &mut StripsForm, question: egui::Rect) {
    let asked = form.room_made_for;
    let is_same =
        asked.is_some_and(|rect| (rect.left() - question.left()).abs() < 2.0 && rect.width() > 0.0);
    if is_same {
        return;
    }
    form.room_made_for = Some(question);
    let Some(outline) = desk
        .farm()
        .ground
        .get(&form.ground)
        .and_then(Ground::outline)
    else {
        return;
    };
    let mut room = desk.view.screen;
    room.min.x += 88.0;
    room.max.x = room.max.x.min(question.left());
    let room = room.shrink(26.0);
    let corners: Vec<_> = outline
        .rings()
        .flat_map(|ring| ring.corners.clone())
        .collect();
    let view = desk.view;
    let is_clear = corners
        .iter()
        .all(|corner| room.contains(view.screen_from_ground(*corner)));
    if !is_clear {
        form.view_before = form.view_before.or(Some(view));
        desk.view.fit_in(&corners, room);
    }
}

/// Puts the map back to where it looked before the question.
pub fn put_view_back(desk: &mut Desk, form: &StripsForm) {
    if let Some(before) = form.view_before {
        desk.view = GroundView {
            screen: desk.view.screen,
            ..before
        };
    }
}

fn choice_radio(ui: &mut Ui, is_chosen: bool, words: &str) -> Response {
    ui.radio(is_chosen, words)
}

fn direction_radio(ui: &mut Ui, form: &mut StripsForm, way: DirectionWay, words: &str) {
    if ui.radio(form.choice.direction == way, words).clicked() {
        form.choice.direction = way;
    }
}

/// A field with a name for readers of the screen; typing replaces what stands there.
fn field_ui(ui: &mut Ui, text: &mut String, spoken: &str, hint: &str, width: f32) -> Response {
    let field = ui.add(
        TextEdit::singleline(text)
            .desired_width(width)
            .hint_text(hint)
            // Its own id: a sentence of trouble that comes or goes above must not take the focus away.
            .id_salt(spoken),
    );
    if field.gained_focus() {
        select_all(ui, field.id, text.chars().count());
    }
    field.widget_info(|| WidgetInfo::labeled(Role::TextInput, true, spoken));
    field
}

fn trouble_of_ui(ui: &mut Ui, form: &StripsForm, row: Row) {
    if let Some(Err(RowTrouble { row: of, text })) = form.made_now()
        && *of == row
    {
        ui.indent("trouble", |ui| trouble_ui(ui, Some(text)));
    }
}

fn small_ui(ui: &mut Ui, text: &str) {
    let words = RichText::new(text).font(theme::sans(theme::SMALL)).weak();
    ui.add(egui::Label::new(words).wrap());
}

fn wrapped_ui(ui: &mut Ui, text: &str) {
    ui.add(egui::Label::new(text).wrap());
}
