//! What is built or planted on the ground that is selected: tunnel, beds, trees, fence, pond. Fields first, under
//! them what follows from them.
//!
//! Sections are plain data; only painting knows the toolkit.

use egui::Ui;

use super::built_change::set_ends;
use super::built_facts::{self, BuiltFacts};
use super::built_fields::BuiltRows;
use super::field::{FieldRow, ROW, fact_ui, heading_ui, labelled_ui, rows_ui, small_ui};
use crate::app::command::Command;
use crate::app::desk::Desk;
use crate::app::dispatch::do_command;
use crate::app::season_acts::Act;
use crate::farm::{Ground, GroundId, Kind, TunnelEnds};

/// A heading, its fields, and its figures.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Section {
    heading: &'static str,
    fields: Vec<FieldRow>,
    /// How the ends of a tunnel are closed, to be chosen.
    ends: Option<TunnelEnds>,
    facts: BuiltFacts,
    /// Whether its trees can be listed.
    lists_trees: bool,
}

/// The sections of a piece of ground; nothing for one on which nothing can be built.
pub fn built_here_ui(ui: &mut Ui, desk: &mut Desk, id: GroundId) {
    let Some(ground) = desk.farm().ground.get(&id) else {
        return;
    };
    let sections = sections_of(desk, id, ground);
    let mut act = None;
    for section in sections {
        heading_ui(ui, section.heading);
        rows_ui(ui, desk, &section.fields);
        if let Some(ends) = section.ends {
            ends_ui(ui, desk, id, ends, &mut act);
        }
        facts_ui(ui, &section.facts);
        if section.lists_trees && ui.button("List every tree").clicked() {
            let ctx = ui.ctx().clone();
            do_command(desk, Command::TreeList, &ctx);
        }
    }
    if let Some((label, edits)) = act {
        desk.commit(&label, edits);
    }
}

fn sections_of(desk: &Desk, id: GroundId, ground: &Ground) -> Vec<Section> {
    let units = desk.units();
    let rows = BuiltRows { id, units };
    let sums = desk.built(id);
    let section = |heading, fields, facts| Section {
        heading,
        fields,
        ends: None,
        facts,
        lists_trees: false,
    };
    let mut sections = Vec::new();
    if ground.kind.has_frame() && ground.outline().is_some() {
        let facts = sums.and_then(|sums| sums.tunnel.as_ref());
        let facts = facts.map(|sums| built_facts::tunnel(ground, sums, units));
        sections.push(Section {
            ends: ground.frame.map(|frame| frame.ends),
            ..section("Tunnel", rows.tunnel(ground), facts.unwrap_or_default())
        });
    }
    if ground.kind.has_beds() && ground.outline().is_some() {
        let facts = match sums.and_then(|sums| sums.beds.as_ref()) {
            Some(Ok(sums)) => built_facts::beds(sums, units),
            Some(Err(gap)) => BuiltFacts {
                sentences: vec![gap.sentence().to_owned()],
                ..BuiltFacts::default()
            },
            None => BuiltFacts::default(),
        };
        sections.push(section("Beds", rows.beds(ground), facts));
    }
    if ground.kind == Kind::TreeLine && ground.line().is_some() {
        let facts = sums.map(|sums| built_facts::varieties(&sums.varieties));
        sections.push(Section {
            lists_trees: desk.measures(id).trees.is_some_and(|trees| trees > 0),
            ..section("Trees", rows.trees(ground), facts.unwrap_or_default())
        });
    }
    if ground.kind == Kind::Fence && ground.line().is_some() {
        let facts = sums.and_then(|sums| sums.fence.as_ref()).zip(ground.posts);
        let facts = facts.map(|(sums, posts)| built_facts::fence(sums, posts, units));
        sections.push(section(
            "Posts and rolls",
            rows.fence(ground),
            facts.unwrap_or_default(),
        ));
    }
    if ground.has_basin() {
        let facts = sums.and_then(|sums| sums.basin.as_ref()).zip(ground.basin);
        let facts = facts.map(|(sums, basin)| built_facts::basin(sums, basin, units));
        sections.push(section(
            "Basin",
            rows.basin(ground),
            facts.unwrap_or_default(),
        ));
    }
    sections
}

fn facts_ui(ui: &mut Ui, facts: &BuiltFacts) {
    if !facts.rows.is_empty() {
        ui.add_space(4.0);
    }
    for (name, figure) in &facts.rows {
        fact_ui(ui, name, figure);
    }
    for sentence in &facts.sentences {
        ui.add(egui::Label::new(sentence.as_str()).wrap());
    }
    for line in &facts.small {
        small_ui(ui, line);
    }
}

/// Three ways to close the ends, side by side.
fn ends_ui(ui: &mut Ui, desk: &Desk, id: GroundId, now: TunnelEnds, act: &mut Option<Act>) {
    let Some(ground) = desk.farm().ground.get(&id) else {
        return;
    };
    labelled_ui(ui, "Ends", |ui| {
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 2.0;
            ui.spacing_mut().button_padding.x = 3.0;
            let width = ((ui.available_width() - 4.0) / 3.0).floor();
            for (ends, word, tip) in [
                (
                    TunnelEnds::Covered,
                    "cover",
                    "Upright ends under the same cover",
                ),
                (
                    TunnelEnds::Boarded,
                    "boards",
                    "Upright ends of boards, mesh or doors",
                ),
                (TunnelEnds::Open, "open", "No ends: a roof"),
            ] {
                let button = egui::Button::selectable(now == ends, word)
                    .frame_when_inactive(true)
                    .min_size(egui::vec2(width, ROW));
                if ui.add(button).on_hover_text(tip).clicked() && now != ends {
                    *act = set_ends(id, ground, ends);
                }
            }
        });
    });
}

/// Height and width, where the ground has them, under the first figures.
pub fn plain_facts(ground: &Ground, units: crate::quantity::UnitSystem) -> Vec<(String, String)> {
    built_facts::plain(ground, units).rows
}
