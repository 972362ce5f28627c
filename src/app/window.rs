//! The window as the toolkit sees it: one frame after another.
//!
//! Order of a frame: keys, answers from the background, panels. Nothing is asked to be drawn again unless something
//! is under way.

use egui::{Frame, Margin, Panel, RichText, Stroke, Ui};

use super::desk::Desk;
use super::dialogs::dialog_ui;
use super::dispatch::apply_light;
use super::file_acts;
use super::finder::finder_ui;
use super::forms::{course_page_ui, page_ui, settle, settle_now};
use super::keys::keys;
use super::live;
use super::map::{map_ui, year_bar_ui};
use super::panels::{entry_box, facts, ground_list, ribbon, taping_page, tool_column, top_bar};
use super::theme;
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
        for news in self.desk.planner.poll(ctx) {
            live::take_news(&mut self.desk, news);
        }
        self.desk.asking.poll();
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
        let line = Stroke::new(1.0, theme::ink(ui, Ink::Rule));
        ui.visuals_mut().widgets.noninteractive.bg_stroke = line;
        Panel::top("top")
            .exact_size(46.0)
            .frame(column(ui, Margin::symmetric(18, 6)))
            .show(ui, |ui| {
                top_bar::top_bar_ui(ui, desk);
            });
        if let Some(tab) = desk.forms.course.tab {
            egui::CentralPanel::no_frame().show(ui, |ui| {
                let whole = ui.max_rect();
                column(ui, Margin::symmetric(18, 8)).show(ui, |ui| course_page_ui(ui, desk, tab));
                notice_over_map(ui, desk, whole);
            });
            finder_ui(ui, desk);
            dialog_ui(ui, desk);
            self.was_typing = ui.ctx().text_edit_focused();
            return;
        }
        columns_ui(ui, desk);
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
        live::follow(desk, ui.ctx());
        if desk.note_in_hand() {
            ui.ctx().request_repaint();
        }
        self.was_typing = ui.ctx().text_edit_focused();
    }
}

/// Ribbon, ground list, and the column of facts or the page that is open.
fn columns_ui(ui: &mut Ui, desk: &mut Desk) {
    Panel::bottom("season")
        .resizable(true)
        .default_size((ui.available_height() * 0.27).clamp(110.0, 224.0))
        .size_range(70.0..=520.0)
        .frame(column(
            ui,
            Margin {
                left: 14,
                right: 14,
                top: 6,
                bottom: 6,
            },
        ))
        .show(ui, |ui| ribbon::ribbon_ui(ui, desk));
    Panel::left("ground")
        .default_size(238.0)
        .size_range(170.0..=420.0)
        .frame(column(
            ui,
            Margin {
                left: 18,
                right: 14,
                top: 10,
                bottom: 6,
            },
        ))
        .show(ui, |ui| ground_list::ground_list_ui(ui, desk));
    let beside = column(
        ui,
        Margin {
            left: 16,
            right: 18,
            top: 10,
            bottom: 6,
        },
    );
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
}

fn column(ui: &Ui, margin: Margin) -> Frame {
    Frame::new()
        .fill(theme::ink(ui, Ink::Panel))
        .inner_margin(margin)
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

impl eframe::App for Window {
    fn logic(&mut self, ctx: &egui::Context, _frame: &mut eframe::Frame) {
        Self::logic(self, ctx);
    }

    fn ui(&mut self, ui: &mut Ui, _frame: &mut eframe::Frame) {
        Self::ui(self, ui);
    }
}
