//! Does what a command says.
//!
//! The only place that joins commands to the desk; files are reached through `file_acts`.

use super::command::Command;
use super::desk::Desk;
use super::dialogs::Dialog;
use super::file_acts;
use super::finder::Finder;
use super::forms::{
    CourseTab, Page, ask_what_helps, close_course, open_course, open_page, settle_now,
};
use super::handling;
use super::map::{feed, fit_all};
use super::reshape_acts;
use super::season_acts;
use super::settings::LightChoice;
use super::spell_drag::{settle_drag, spell_by_key};
use super::taping::{self, Way};
use super::tools::{
    DrawHole, DrawLine, DrawOutline, DrawPlace, DrawSquare, MapEvent, Pick, ReshapeAct, Ruler,
    Split, Tool,
};
use crate::farm::Kind;
use crate::quantity::UnitSystem;

/// Does a command, or says why it cannot be done.
pub fn do_command(desk: &mut Desk, command: Command, ctx: &egui::Context) {
    // What is being typed comes before the act: it is saved, undone and planned with.
    settle_now(desk);
    if !command.is_available(desk) {
        desk.tell(command.why_not().to_owned());
        return;
    }
    if command.is_on_map() {
        close_course(desk);
    }
    match command {
        Command::Pick
        | Command::Outline
        | Command::Line
        | Command::Square
        | Command::Place
        | Command::Note
        | Command::Split
        | Command::Hole
        | Command::Tunnel
        | Command::Trees
        | Command::Ruler => take(desk, tool_for(command)),
        Command::Taped
        | Command::TwoTapes
        | Command::BaseLine
        | Command::WalkRound
        | Command::Walked => taping::open(desk, way_of(desk, command)),
        Command::Row => desk.dialog = Dialog::row(desk),
        Command::TreeList => desk.dialog = Dialog::trees(desk),
        Command::Strips => desk.dialog = Dialog::strips(desk),
        Command::Mend
        | Command::Join
        | Command::Headland
        | Command::KeepClear
        | Command::CutOut
        | Command::FillHole
        | Command::Mirror
        | Command::Turn => reshape_acts::open(desk, reshape_of(desk, command)),
        Command::Undo => desk.undo(),
        Command::Redo => desk.redo(),
        Command::UndoAll => desk.undo_all(),
        Command::Delete => {
            take(desk, Tool::Pick(Pick::default()));
            feed(desk, MapEvent::Back);
        }
        Command::SelectAll => desk.selected = handling::everything(desk),
        Command::Copies => handle(desk, handling::copies(desk)),
        Command::North | Command::East | Command::South | Command::West => nudge(desk, command),
        Command::Lock => act(desk, handling::lock_or_let_go(desk)),
        Command::Lengths => act_quietly(desk, handling::lengths_on_map(desk)),
        Command::Raise => act(desk, handling::raised(desk, 1)),
        Command::Lower => act(desk, handling::raised(desk, -1)),
        Command::Shown => desk.dialog = Some(Dialog::Shown),
        Command::KeepMeasure => {
            handle(desk, handling::kept_measure(desk));
            take(desk, Tool::Pick(Pick::default()));
        }
        Command::FitAll => fit_all(desk),
        Command::FitSelected => fit_selected(desk),
        Command::ZoomIn => zoom(desk, 1.5),
        Command::ZoomOut => zoom(desk, 1.0 / 1.5),
        Command::DayBefore => desk.go_to(desk.day.plus_days(-1)),
        Command::DayAfter => desk.go_to(desk.day.plus_days(1)),
        Command::Today => desk.go_to(desk.today),
        Command::Flocks => show_page(desk, Page::Flocks),
        Command::Hens => show_page(desk, Page::Hens),
        Command::SeasonGrass => show_page(desk, Page::Season),
        Command::Questions => show_page(desk, Page::Questions),
        Command::Pictures => show_page(desk, Page::Pictures),
        Command::Course => open_course(desk, CourseTab::Course),
        Command::CourseOnMap => show_course_on_map(desk),
        Command::Find => desk.finder = Some(Finder::default()),
        Command::Units => change_units(desk),
        Command::Light => change_light(desk, ctx),
        Command::Snap | Command::SnapGrid => switch_snap(desk, command),
        Command::HoldApart => hold_apart(desk),
        Command::Keys => desk.dialog = Some(Dialog::Keys),
        _ => do_season_command(desk, command, ctx),
    }
}

/// What settles days of the season.
fn do_season_command(desk: &mut Desk, command: Command, ctx: &egui::Context) {
    match command {
        Command::FixHere => act(desk, season_acts::fix_here(desk)),
        Command::LogDone => act(desk, season_acts::log_done(desk)),
        Command::Unfix => act(desk, season_acts::unfix(desk)),
        Command::WhatHelps => ask_what_helps(desk, ctx),
        Command::StayLonger => act_or_say(desk, season_acts::stay_longer(desk)),
        Command::MovedToday => act_or_say(desk, season_acts::moved_today(desk)),
        spell if spell.is_of_spell() => {
            if let Some(moved) = spell_by_key(desk, spell) {
                settle_drag(desk, &moved);
            }
        }
        _ => do_file_command(desk, command),
    }
}

/// What is done with the farm as a file, and closing it.
fn do_file_command(desk: &mut Desk, command: Command) {
    match command {
        Command::New => file_acts::ask_new(desk),
        Command::Open => file_acts::ask_open(desk),
        Command::Save => file_acts::save(desk),
        Command::SaveAs => file_acts::ask_save_as(desk),
        Command::Import => file_acts::ask_import(desk),
        Command::Export => file_acts::ask_export(desk),
        Command::Close => file_acts::ask_close(desk),
        _ => debug_assert!(false, "{command:?} has no arm"),
    }
}

/// A page takes the place of the one that was open; what is typed there stays.
fn show_page(desk: &mut Desk, page: Page) {
    desk.taping.is_open = false;
    open_page(desk, page);
}

/// The tool that a command puts in hand.
fn tool_for(command: Command) -> Tool {
    match command {
        Command::Outline => Tool::Outline(DrawOutline::default()),
        Command::Line => Tool::Line(DrawLine::default()),
        Command::Trees => Tool::Line(DrawLine::of_trees()),
        Command::Square => Tool::Square(DrawSquare::default()),
        Command::Tunnel => Tool::Square(DrawSquare::of_kind(Kind::Tunnel)),
        Command::Place => Tool::Place(DrawPlace { kind: Kind::Trough }),
        Command::Note => Tool::Place(DrawPlace { kind: Kind::Note }),
        Command::Split => Tool::Split(Split::default()),
        Command::Hole => Tool::Hole(DrawHole::default()),
        Command::Ruler => Tool::Ruler(Ruler::default()),
        _ => Tool::Pick(Pick::default()),
    }
}

/// The way of measuring that a command opens; the last one where it names none.
fn way_of(desk: &Desk, command: Command) -> Way {
    match command {
        Command::TwoTapes => Way::TwoTapes,
        Command::BaseLine => Way::BaseLine,
        Command::WalkRound => Way::WalkRound,
        Command::Walked => Way::Walked,
        _ => desk.taping.way,
    }
}

/// The reshaping that a command begins.
fn reshape_of(desk: &Desk, command: Command) -> Option<ReshapeAct> {
    match command {
        Command::Mend => reshape_acts::mend(desk),
        Command::Join => reshape_acts::join(desk),
        Command::Headland => reshape_acts::headland(desk),
        Command::KeepClear => reshape_acts::keep_clear(desk),
        Command::CutOut => reshape_acts::cut_out(desk),
        Command::FillHole => reshape_acts::fill_hole(desk),
        Command::Mirror => reshape_acts::mirror(desk),
        Command::Turn => reshape_acts::turn(desk),
        _ => None,
    }
}

fn take(desk: &mut Desk, tool: Tool) {
    desk.tool = tool;
    desk.notice = None;
}

fn act(desk: &mut Desk, act: Option<season_acts::Act>) {
    if let Some((label, edits)) = act {
        desk.commit(&label, edits);
        desk.tell(label);
    }
}

/// Makes the step, or says why it cannot be made.
fn act_or_say(desk: &mut Desk, tried: Option<Result<season_acts::Act, String>>) {
    match tried {
        Some(Ok((label, edits))) => act(desk, Some((label, edits))),
        Some(Err(why)) => desk.tell_trouble(why),
        None => {}
    }
}

/// Makes the edits where the map itself shows what was done.
fn act_quietly(desk: &mut Desk, act: Option<season_acts::Act>) {
    if let Some((label, edits)) = act {
        desk.commit(&label, edits);
    }
}

/// Moves what is selected a metre.
fn nudge(desk: &mut Desk, command: Command) {
    let (east_m, north_m) = match command {
        Command::North => (0.0, 1.0),
        Command::East => (1.0, 0.0),
        Command::South => (0.0, -1.0),
        _ => (-1.0, 0.0),
    };
    act_quietly(desk, handling::nudged(desk, east_m, north_m));
}

fn handle(desk: &mut Desk, handled: Option<handling::Handled>) {
    if let Some(handled) = handled {
        let (label, edits) = handled.act;
        desk.commit(&label, edits);
        desk.selected = handled.select;
        desk.selected
            .retain(|id| desk.history.farm().ground.contains_key(id));
    }
}

fn zoom(desk: &mut Desk, factor: f64) {
    desk.is_fitted = false;
    desk.view.zoom(factor, desk.view.screen.center());
}

fn fit_selected(desk: &mut Desk) {
    desk.is_fitted = false;
    let corners: Vec<_> = desk
        .selected
        .iter()
        .filter_map(|id| desk.farm().ground.get(id))
        .flat_map(|ground| ground.shape.corners())
        .collect();
    desk.view.fit(&corners);
}

fn show_course_on_map(desk: &mut Desk) {
    open_course(desk, CourseTab::Course);
    close_course(desk);
    desk.forms.course.is_on_map = !desk.forms.course.is_on_map;
}

fn switch_snap(desk: &mut Desk, command: Command) {
    let snapping = &mut desk.snapping;
    if command == Command::SnapGrid {
        snapping.is_on_grid = !snapping.is_on_grid;
        snapping.is_off &= !snapping.is_on_grid;
    } else {
        snapping.is_off = !snapping.is_off;
    }
    let text = match (snapping.is_off, snapping.is_on_grid) {
        (true, _) => "The pointer is left alone.",
        (false, false) => "The pointer snaps to what is drawn.",
        (false, true) => "The pointer snaps to what is drawn, else to the grid.",
    };
    desk.tell(text.to_owned());
}

fn hold_apart(desk: &mut Desk) {
    desk.holds_apart = !desk.holds_apart;
    let text = if desk.holds_apart {
        "A corner moves alone."
    } else {
        "Corners that lie on each other move together."
    };
    desk.tell(text.to_owned());
}

fn change_units(desk: &mut Desk) {
    desk.settings.units = match desk.settings.units {
        UnitSystem::Metric => UnitSystem::Imperial,
        UnitSystem::Imperial => UnitSystem::Metric,
    };
    desk.settings.keep();
}

fn change_light(desk: &mut Desk, ctx: &egui::Context) {
    desk.settings.light = match ctx.theme() {
        egui::Theme::Light => LightChoice::Night,
        egui::Theme::Dark => LightChoice::Day,
    };
    apply_light(desk.settings.light, ctx);
    desk.settings.keep();
}

/// Takes the light that was chosen.
pub fn apply_light(choice: LightChoice, ctx: &egui::Context) {
    // A desktop that does not say is taken to mean day: the map is drawn on paper.
    ctx.options_mut(|options| options.fallback_theme = egui::Theme::Light);
    ctx.set_theme(match choice {
        LightChoice::Desktop => egui::ThemePreference::System,
        LightChoice::Day => egui::ThemePreference::Light,
        LightChoice::Night => egui::ThemePreference::Dark,
    });
}
