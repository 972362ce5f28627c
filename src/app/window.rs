//! The window as the toolkit sees it: one frame after another.
//!
//! Order of a frame: keys, answers from the background, panels. Nothing is asked to be drawn again unless something
//! is under way.

use egui::{Frame, Margin, Panel, RichText, Stroke, Ui};

use super::command::Command;
use super::desk::Desk;
use super::dialogs::dialog_ui;
use super::dispatch::{apply_light, do_command};
use super::file_acts;
use super::finder::finder_ui;
use super::forms::{CourseTab, close_course, course_page_ui, page_ui, settle, settle_now};
use super::map::{feed, map_ui, year_bar_ui};
use super::panels::{entry_box, facts, ground_list, ribbon, taping_page, tool_column, top_bar};
use super::taping;
use super::theme;
use super::tools::{MapEvent, Tool};
use crate::sheets::palette::Ink;

/// The program's window.
pub struct Window {
    /// Everything it knows.
    pub desk: Desk,
    /// Whether a field was typed in when the last frame ended: Escape takes the focus before a frame begins.
    was_typing: bool,
    title: String,
}

impl Window {
    /// A window for a desk; fonts and colours are put into the context.
    pub fn new(ctx: &egui::Context, desk: Desk) -> Self {
        theme::install(ctx);
        apply_light(desk.settings.light, ctx);
        Self {
            desk,
            was_typing: false,
            title: String::new(),
        }
    }

    /// Answers from threads, closing, the title: what must go on while the window is hidden too.
    pub fn logic(&mut self, ctx: &egui::Context) {
        if let Some(answer) = self.desk.planner.poll(ctx) {
            match answer {
                Ok(plan) => {
                    self.desk.plan = Some(std::sync::Arc::new(plan));
                    self.desk.plan_trouble = None;
                }
                Err(trouble) => {
                    self.desk.plan = None;
                    self.desk.plan_trouble = Some(trouble);
                }
            }
        }
        self.take_chosen_file();
        if ctx.input(|input| input.viewport().close_requested()) && !self.desk.may_close {
            settle_now(&mut self.desk);
            if self.desk.history.is_unsaved() {
                ctx.send_viewport_cmd(egui::ViewportCommand::CancelClose);
                file_acts::ask_close(&mut self.desk);
            } else {
                self.desk.may_close = true;
            }
        }
        if self.desk.wants_close {
            self.desk.wants_close = false;
            ctx.send_viewport_cmd(egui::ViewportCommand::Close);
        }
        let mark = if self.desk.history.is_unsaved() {
            "*"
        } else {
            ""
        };
        let title = format!("{}{mark} – Foldcourse", self.desk.farm().name);
        if title != self.title {
            ctx.send_viewport_cmd(egui::ViewportCommand::Title(title.clone()));
            self.title = title;
        }
    }

    fn take_chosen_file(&mut self) {
        let Some((purpose, chosen)) = self.desk.chooser.poll() else {
            return;
        };
        let Some(path) = chosen else {
            // An instant "none" is also what a desktop without a chooser answers.
            self.desk
                .tell("No file was chosen. If no chooser came up, type the path.".to_owned());
            return;
        };
        let text = path.to_string_lossy().into_owned();
        match file_acts::use_path(&mut self.desk, purpose, std::path::Path::new(&text)) {
            Ok(()) => {
                self.desk.dialog = None;
                file_acts::go_on_with_held_up(&mut self.desk);
            }
            Err(trouble) => {
                self.desk.dialog = Some(super::dialogs::Dialog::Path {
                    purpose,
                    typed: text,
                    trouble: Some(trouble),
                });
            }
        }
    }

    /// One frame.
    pub fn ui(&mut self, ui: &mut Ui) {
        let desk = &mut self.desk;
        settle(desk, ui.ctx());
        desk.note_first_selected();
        keys(ui, desk, self.was_typing);
        take_dropped_file(ui, desk);
        let panel = theme::ink(ui, Ink::Panel);
        let line = Stroke::new(1.0, theme::ink(ui, Ink::Rule));
        ui.visuals_mut().widgets.noninteractive.bg_stroke = line;
        let column = |margin: Margin| Frame::new().fill(panel).inner_margin(margin);
        Panel::top("top")
            .exact_size(46.0)
            .frame(column(Margin::symmetric(18, 6)))
            .show(ui, |ui| {
                top_bar::top_bar_ui(ui, desk);
            });
        if let Some(tab) = desk.forms.course.tab {
            course_in_place_of_map(ui, desk, tab, column(Margin::symmetric(18, 8)));
            self.was_typing = ui.ctx().text_edit_focused();
            return;
        }
        Panel::bottom("season")
            .resizable(true)
            .default_size((ui.available_height() * 0.27).clamp(110.0, 224.0))
            .size_range(70.0..=520.0)
            .frame(column(Margin {
                left: 14,
                right: 14,
                top: 6,
                bottom: 6,
            }))
            .show(ui, |ui| ribbon::ribbon_ui(ui, desk));
        Panel::left("ground")
            .default_size(238.0)
            .size_range(170.0..=420.0)
            .frame(column(Margin {
                left: 18,
                right: 14,
                top: 10,
                bottom: 6,
            }))
            .show(ui, |ui| ground_list::ground_list_ui(ui, desk));
        let beside = column(Margin {
            left: 16,
            right: 18,
            top: 10,
            bottom: 6,
        });
        // A page is wider than the facts, and each keeps the width it was given.
        match desk.forms.page {
            _ if desk.taping.is_open => Panel::right("taping")
                .default_size(352.0)
                .size_range(300.0..=520.0)
                .frame(beside)
                .show(ui, |ui| taping_page::taping_ui(ui, desk)),
            Some(page) => Panel::right("page")
                .default_size(352.0)
                .size_range(300.0..=520.0)
                .frame(beside)
                .show(ui, |ui| page_ui(ui, desk, page)),
            None => Panel::right("facts")
                .default_size(296.0)
                .size_range(220.0..=480.0)
                .frame(beside)
                .show(ui, |ui| facts::facts_ui(ui, desk)),
        };
        egui::CentralPanel::no_frame().show(ui, |ui| {
            let whole = ui.max_rect();
            map_ui(ui, desk);
            tools_over_map(ui, desk, whole);
            notice_over_map(ui, desk, whole);
            year_bar_ui(ui, desk, whole);
            entry_box::entry_ui(ui, desk, whole);
        });
        finder_ui(ui, desk);
        dialog_ui(ui, desk);
        self.was_typing = ui.ctx().text_edit_focused();
    }
}

/// A file that is dropped on the window is asked to be opened.
fn take_dropped_file(ui: &Ui, desk: &mut Desk) {
    let dropped = ui.input(|input| {
        input
            .raw
            .dropped_files
            .first()
            .map(|file| file.path().to_path_buf())
    });
    if let Some(path) = dropped {
        file_acts::ask_open_this(desk, path);
    }
}

/// The page of the course over all the room that map, lists and ribbon have else.
fn course_in_place_of_map(ui: &mut Ui, desk: &mut Desk, tab: CourseTab, frame: Frame) {
    egui::CentralPanel::no_frame().show(ui, |ui| {
        let whole = ui.max_rect();
        frame.show(ui, |ui| course_page_ui(ui, desk, tab));
        notice_over_map(ui, desk, whole);
    });
    finder_ui(ui, desk);
    dialog_ui(ui, desk);
}

fn tools_over_map(ui: &mut Ui, desk: &mut Desk, whole: egui::Rect) {
    let corner = whole.left_top() + egui::Vec2::new(12.0, 12.0);
    let area = egui::Rect::from_min_size(corner, egui::Vec2::new(66.0, whole.height() - 24.0));
    ui.scope_builder(egui::UiBuilder::new().max_rect(area), |ui| {
        Frame::new()
            .fill(theme::ink(ui, Ink::Panel))
            .stroke(Stroke::new(1.0, theme::ink(ui, Ink::Hair)))
            .corner_radius(6.0)
            .inner_margin(5.0)
            .show(ui, |ui| tool_column::tool_column_ui(ui, desk));
    });
}

fn notice_over_map(ui: &mut Ui, desk: &mut Desk, whole: egui::Rect) {
    let Some(notice) = desk.notice.clone() else {
        return;
    };
    let at = whole.center_top() + egui::Vec2::new(0.0, 14.0);
    let width = (whole.width() - 200.0).clamp(200.0, 560.0);
    let area = egui::Rect::from_min_size(
        at - egui::Vec2::new(width / 2.0, 0.0),
        egui::Vec2::new(width, 80.0),
    );
    ui.scope_builder(
        egui::UiBuilder::new()
            .max_rect(area)
            .layout(egui::Layout::top_down(egui::Align::Center)),
        |ui| {
            let (fill, edge) = if notice.is_trouble {
                (Ink::WarnGround, Ink::WarnEdge)
            } else {
                (Ink::Panel, Ink::Rule)
            };
            Frame::new()
                .fill(theme::ink(ui, fill))
                .stroke(Stroke::new(1.0, theme::ink(ui, edge)))
                .corner_radius(6.0)
                .inner_margin(Margin::symmetric(12, 6))
                .show(ui, |ui| {
                    let label = ui.add(
                        egui::Label::new(RichText::new(&notice.text)).sense(egui::Sense::click()),
                    );
                    if label.on_hover_text("Click to put it away").clicked() {
                        desk.notice = None;
                    }
                });
        },
    );
}

/// Keys: commands first, then those that go to the tool in hand. Plain letters are left to a field that is typed in.
fn keys(ui: &Ui, desk: &mut Desk, was_typing: bool) {
    let ctx = ui.ctx().clone();
    if desk.dialog.is_some() || desk.finder.is_some() {
        return;
    }
    let types = ctx.text_edit_focused();
    let is_on_page = desk.forms.course.tab.is_some();
    if !types && !is_on_page {
        entry_box::open_at_digit(ui, desk);
    }
    if desk.entry.is_some() {
        return;
    }
    if command_keys(&ctx, desk, types) {
        return;
    }
    if types {
        return;
    }
    let is_escape = |ctx: &egui::Context| {
        ctx.input_mut(|input| input.consume_key(egui::Modifiers::NONE, egui::Key::Escape))
    };
    // Escape leaves a field of a form, and that is all it does then.
    if desk.forms.was_in_field() && is_escape(&ctx) {
        return;
    }
    if is_on_page {
        if is_escape(&ctx) {
            close_course(desk);
        }
        return;
    }
    // The page of what was measured is left first; the tool in hand keeps its corners.
    if desk.taping.is_open && !was_typing && is_escape(&ctx) {
        desk.taping.is_open = false;
        return;
    }
    // Escape first ends what the tool is about, then leads from a page back to the facts.
    let ends_page = desk.forms.page.is_some() && matches!(desk.tool, Tool::Pick(_));
    if ends_page && is_escape(&ctx) {
        desk.forms.page = None;
    }
    let is_nothing_focused = ctx.memory(|memory| memory.focused().is_none());
    let enter = |ctx: &egui::Context| {
        ctx.input_mut(|input| input.consume_key(egui::Modifiers::NONE, egui::Key::Enter))
    };
    if is_nothing_focused && taping::is_ready(desk) && enter(&ctx) {
        taping::put(desk);
    }
    for (key, event) in [
        (egui::Key::Escape, MapEvent::Escape),
        (egui::Key::Enter, MapEvent::Finish),
        (egui::Key::Backspace, MapEvent::Back),
    ] {
        // Enter presses whatever has the focus; only an unfocused window hands it to the tool.
        // Escape leaves the field that was typed in, and nothing more.
        let is_for_tool = match key {
            egui::Key::Enter => is_nothing_focused,
            egui::Key::Escape => !was_typing,
            _ => true,
        };
        if is_for_tool && ctx.input_mut(|input| input.consume_key(egui::Modifiers::NONE, key)) {
            feed(desk, event);
        }
    }
}

/// The first command whose key was pressed is done; whether there was one.
fn command_keys(ctx: &egui::Context, desk: &mut Desk, types: bool) -> bool {
    let is_on_page = desk.forms.course.tab.is_some();
    for command in Command::all() {
        let Some(key) = command.facts().key else {
            continue;
        };
        let is_plain = !key.modifiers.command && !key.modifiers.ctrl;
        let takes_back = matches!(command, Command::Undo | Command::Redo);
        // Arrows go from cell to cell on a page.
        if is_on_page && command.is_key_of_text() {
            continue;
        }
        let belongs_to_text = types
            && (is_plain || command.is_key_of_text() || takes_back && !desk.forms.rests_in_field());
        if belongs_to_text {
            continue;
        }
        // A slow frame may hold several presses of one key; none is lost.
        let presses =
            ctx.input_mut(|input| input.count_and_consume_key(key.modifiers, key.logical_key));
        if presses > 0 {
            // The letter of the key is not for a field that the act opens.
            ctx.input_mut(|input| {
                input
                    .events
                    .retain(|event| !matches!(event, egui::Event::Text(_)));
            });
            for _ in 0..presses {
                do_command(desk, command, ctx);
            }
            return true;
        }
    }
    false
}

impl eframe::App for Window {
    fn logic(&mut self, ctx: &egui::Context, _frame: &mut eframe::Frame) {
        Self::logic(self, ctx);
    }

    fn ui(&mut self, ui: &mut Ui, _frame: &mut eframe::Frame) {
        Self::ui(self, ui);
    }
}
