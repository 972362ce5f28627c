//! The facts column: what is selected, what it measures, what stands on it and why, what to mend.

use egui::{Key, RichText, ScrollArea, Ui};

use super::facts_rows::{FactGroup, FindingRow, facts_of, farm_facts, finding_rows, standing_of};
use super::facts_stocking::stocking_of;
use super::reshape_panel::reshape_ui;
use crate::app::command::Command;
use crate::app::desk::Desk;
use crate::app::dispatch::do_command;
use crate::app::forms::{
    built_here_ui, fact_ui, grass_here_ui, ground_here_ui, no_flock_ui, pages_ui,
};
use crate::app::reshape_acts;
use crate::app::theme;
use crate::farm::{GroundId, Kind};
use crate::planning::SCORE_TOLD;
use crate::sheets::palette::Ink;

/// The column.
pub fn facts_ui(ui: &mut Ui, desk: &mut Desk) {
    if reshape_ui(ui, desk) {
        return;
    }
    ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 3.0;
        match desk.selected_one().map(|(id, _)| id) {
            Some(id) => {
                title_ui(ui, desk, id);
                groups_ui(ui, &facts_of(desk, id));
                findings_ui(ui, desk, Some(id));
                acts_ui(ui, desk);
                groups_ui(ui, &standing_of(desk, id));
                grass_here_ui(ui, desk, id);
                groups_ui(ui, stocking_of(desk, id).as_slice());
                built_here_ui(ui, desk, id);
                ground_here_ui(ui, desk, id);
            }
            None if desk.selected.len() > 1 => many_ui(ui, desk),
            None => {
                ui.label(RichText::new(desk.day.long_text()).font(theme::serif(theme::TITLE)));
                let has_sheep = !no_flock_ui(ui, desk);
                if has_sheep || !desk.farm().hen_houses.is_empty() {
                    groups_ui(ui, &farm_facts(desk));
                }
                acts_ui(ui, desk);
                pages_ui(ui, desk);
                findings_ui(ui, desk, None);
            }
        }
        plan_state_ui(ui, desk);
    });
}

/// Name and kind, both to be changed in place.
fn title_ui(ui: &mut Ui, desk: &mut Desk, id: GroundId) {
    let Some(ground) = desk.farm().ground.get(&id).cloned() else {
        return;
    };
    let field_id = ui.make_persistent_id(("name", id.0));
    let mut typed: String = ui
        .data_mut(|data| data.get_temp(field_id))
        .unwrap_or_default();
    if !ui.memory(|memory| memory.has_focus(field_id)) {
        typed.clone_from(&ground.name);
    }
    let field = egui::TextEdit::singleline(&mut typed)
        .id(field_id)
        .font(theme::serif(theme::TITLE))
        .frame(egui::Frame::NONE)
        .desired_width(f32::INFINITY)
        .hint_text("name");
    let response = ui.add(field);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::TextInput, true, "Name"));
    let response = response.on_hover_text("Click to change the name");
    if response.lost_focus()
        && !ui.input(|input| input.key_pressed(Key::Escape))
        && typed != ground.name
    {
        let label = format!("Name it {typed}");
        desk.change_ground(id, &label, |ground| ground.name.clone_from(&typed));
    }
    ui.data_mut(|data| data.insert_temp(field_id, typed));
    ui.horizontal(|ui| {
        kind_ui(ui, desk, id, ground.kind);
        if let Some(ley) = ground.within.and_then(|ley| desk.farm().ground.get(&ley)) {
            ui.label(
                RichText::new(format!("of {}", ley.name))
                    .font(theme::serif_italic(theme::BODY))
                    .weak(),
            );
        }
    });
    if matches!(ground.kind, Kind::Plot | Kind::Ley | Kind::Tunnel) {
        crop_ui(ui, desk, id, &ground.crop);
    }
    ui.add_space(4.0);
}

fn kind_ui(ui: &mut Ui, desk: &mut Desk, id: GroundId, kind: Kind) {
    let Some(form) = desk
        .farm()
        .ground
        .get(&id)
        .map(|ground| ground.shape.form())
    else {
        return;
    };
    let mut chosen = None;
    let label = RichText::new(kind.name()).font(theme::serif_italic(theme::BODY));
    ui.menu_button(label, |ui| {
        for other in Kind::ALL.into_iter().filter(|other| other.allows(form)) {
            if ui.selectable_label(other == kind, other.name()).clicked() {
                chosen = Some(other);
                ui.close();
            }
        }
    })
    .response
    .on_hover_text("What kind of ground it is");
    if let Some(kind) = chosen {
        desk.change_ground(id, &format!("Make it a {}", kind.name()), |ground| {
            ground.kind = kind;
            if kind != Kind::Strip {
                ground.within = None;
            }
        });
    }
}

fn crop_ui(ui: &mut Ui, desk: &mut Desk, id: GroundId, crop: &str) {
    let field_id = ui.make_persistent_id(("crop", id.0));
    let mut typed: String = ui
        .data_mut(|data| data.get_temp(field_id))
        .unwrap_or_default();
    if !ui.memory(|memory| memory.has_focus(field_id)) {
        crop.clone_into(&mut typed);
    }
    let field = egui::TextEdit::singleline(&mut typed)
        .id(field_id)
        .desired_width(f32::INFINITY)
        .hint_text("what stands on it");
    let response = ui.add(field);
    response.widget_info(|| {
        egui::WidgetInfo::labeled(egui::Role::TextInput, true, "What stands on it")
    });
    if response.lost_focus() && !ui.input(|input| input.key_pressed(Key::Escape)) && typed != crop {
        desk.change_ground(id, &format!("Now under {typed}"), |ground| {
            ground.crop.clone_from(&typed);
        });
    }
    ui.data_mut(|data| data.insert_temp(field_id, typed));
}

fn groups_ui(ui: &mut Ui, groups: &[FactGroup]) {
    for group in groups {
        if !group.heading.is_empty() {
            ui.add_space(6.0);
            ui.separator();
            ui.label(RichText::new(&group.heading).font(theme::serif_bold(theme::HEADING - 1.0)));
        }
        for (name, figure) in &group.rows {
            fact_ui(ui, name, figure);
        }
        for sentence in &group.sentences {
            ui.label(sentence);
        }
        for source in &group.sources {
            ui.label(RichText::new(source).font(theme::sans(theme::SMALL)).weak());
        }
    }
}

/// Findings, each with its remedy and a press that shows the place.
fn findings_ui(ui: &mut Ui, desk: &mut Desk, about: Option<GroundId>) {
    let (rows, count) = finding_rows(desk, about, 6);
    for row in &rows {
        ui.add_space(6.0);
        finding_ui(ui, desk, row);
    }
    if count > rows.len() {
        ui.label(RichText::new(format!("and {} more findings", count - rows.len())).weak());
    }
}

fn finding_ui(ui: &mut Ui, desk: &mut Desk, row: &FindingRow) {
    let frame = egui::Frame::new()
        .fill(theme::ink(ui, Ink::WarnGround))
        .stroke(egui::Stroke::new(1.0, theme::ink(ui, Ink::WarnEdge)))
        .corner_radius(5.0)
        .inner_margin(10.0);
    frame.show(ui, |ui| {
        ui.set_width(ui.available_width());
        let font = if row.is_error {
            theme::sans_bold(theme::BODY)
        } else {
            theme::sans(theme::BODY)
        };
        ui.label(RichText::new(&row.what).font(font));
        ui.label(&row.remedy);
        if let Some((kind, between)) = row.mend
            && ui
                .button("Show the mend")
                .on_hover_text("Show on the map how it can be mended, before anything is done")
                .clicked()
        {
            let act = reshape_acts::mend_this(desk, kind, between);
            reshape_acts::open(desk, act);
            desk.selected = between.into_iter().collect();
            let ctx = ui.ctx().clone();
            do_command(desk, Command::FitSelected, &ctx);
        }
        if let Some(id) = row.ground
            && !desk.selected.contains(&id)
            && ui.button("Show it").clicked()
        {
            desk.select_only(id);
            let ctx = ui.ctx().clone();
            do_command(desk, Command::FitSelected, &ctx);
        }
    });
}

/// What can be settled about the day in view.
fn acts_ui(ui: &mut Ui, desk: &mut Desk) {
    let ctx = ui.ctx().clone();
    let mut chosen = None;
    ui.add_space(8.0);
    ui.horizontal_wrapped(|ui| {
        if Command::FixHere.is_available(desk)
            && super::super::dialogs::main_button(ui, Command::FixHere.facts().text).clicked()
        {
            chosen = Some(Command::FixHere);
        }
        let mut commands = vec![Command::LogDone, Command::Unfix];
        // They speak of today, whatever day is in view.
        if desk.day == desk.today {
            commands.extend([Command::StayLonger, Command::MovedToday]);
        }
        // Remedies are about the whole farm.
        if desk.selected.is_empty() {
            commands.push(Command::WhatHelps);
        }
        for command in commands {
            if command.is_available(desk)
                && ui
                    .button(command.facts().text)
                    .on_hover_text(command.facts().tip)
                    .clicked()
            {
                chosen = Some(command);
            }
        }
    });
    if let Some(command) = chosen {
        do_command(desk, command, &ctx);
    }
}

fn many_ui(ui: &mut Ui, desk: &mut Desk) {
    let ctx = ui.ctx().clone();
    let count = desk.selected.len();
    ui.label(RichText::new(format!("{count} things")).font(theme::serif(theme::TITLE)));
    let sum_m2: f64 = desk
        .selected
        .iter()
        .filter_map(|id| desk.measures(*id).area_m2)
        .sum();
    let sum_m: f64 = desk
        .selected
        .iter()
        .filter_map(|id| desk.measures(*id).length_m)
        .sum();
    let mut group = FactGroup::default();
    if sum_m2 > 0.0 {
        group.rows.push((
            "Area together".to_owned(),
            crate::quantity::area_both_text(sum_m2, desk.units()),
        ));
    }
    if sum_m > 0.0 {
        group.rows.push((
            "Length together".to_owned(),
            crate::quantity::length_text(sum_m, desk.units()),
        ));
    }
    groups_ui(ui, &[group]);
    ui.add_space(8.0);
    if ui.button("Delete them").clicked() {
        do_command(desk, Command::Delete, &ctx);
    }
}

/// Whether a plan is being sought, why there is none, what was assumed.
fn plan_state_ui(ui: &mut Ui, desk: &Desk) {
    ui.add_space(8.0);
    if desk.planner.is_at_work() {
        ui.label(
            RichText::new("Planning the season …")
                .font(theme::serif_italic(theme::BODY))
                .weak(),
        );
    }
    // That there is no flock is said where one is put in.
    if let Some(trouble) = desk
        .plan_trouble
        .as_ref()
        .filter(|_| !desk.farm().mobs.is_empty())
    {
        ui.label(RichText::new(trouble).weak());
    }
    if let Some(nearness) = &desk.live.nearness {
        ui.label(RichText::new(nearness.wording()).weak())
            .on_hover_text(SCORE_TOLD);
    }
    if let Some(plan) = desk.plan.as_deref() {
        for line in plan.warnings.iter().take(4) {
            ui.label(RichText::new(line).color(theme::ink(ui, Ink::Act)));
        }
        for line in plan.assumptions.iter().take(6) {
            ui.label(RichText::new(line).font(theme::sans(theme::SMALL)).weak());
        }
    }
}
