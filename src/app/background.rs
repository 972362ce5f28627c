//! Work that must not hold up a frame: planning the season, and the desktop's file chooser.
//!
//! Each runs on its own thread, answers through a channel and wakes the window once. A newer question makes an
//! older answer worthless: it is cancelled and dropped.

use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::mpsc::{Receiver, Sender, channel};

use crate::farm::Farm;
use crate::planning::{SeasonPlan, live_season};

/// The planner on its own thread.
#[derive(Debug)]
pub struct Planner {
    newest: Arc<AtomicU64>,
    asked: u64,
    waiting: Option<Farm>,
    is_at_work: bool,
    answers: (Sender<Answer>, Receiver<Answer>),
}

/// What came back.
#[derive(Debug)]
struct Answer {
    question: u64,
    plan: Result<SeasonPlan, String>,
    is_last: bool,
}

impl Default for Planner {
    fn default() -> Self {
        Self {
            newest: Arc::new(AtomicU64::new(0)),
            asked: 0,
            waiting: None,
            is_at_work: false,
            answers: channel(),
        }
    }
}

impl Planner {
    /// Asks for the season of a farm; what was asked before is dropped.
    pub fn ask(&mut self, farm: &Farm) {
        self.asked += 1;
        self.newest.store(self.asked, Ordering::Relaxed);
        self.waiting = Some(farm.clone());
    }

    /// The number of the question asked last: another one, whenever something on the farm has changed.
    pub const fn question(&self) -> u64 {
        self.asked
    }

    /// Whether a better plan may still come.
    pub fn is_at_work(&self) -> bool {
        self.is_at_work || self.waiting.is_some()
    }

    /// Starts what waits and gives the newest answer, if there is one.
    pub fn poll(&mut self, ctx: &egui::Context) -> Option<Result<SeasonPlan, String>> {
        let mut newest = None;
        while let Ok(answer) = self.answers.1.try_recv() {
            if answer.question == self.asked {
                self.is_at_work = !answer.is_last;
                newest = Some(answer.plan);
            }
        }
        if let Some(farm) = self.waiting.take() {
            self.is_at_work = true;
            self.start(farm, ctx.clone());
        }
        newest
    }

    fn start(&self, farm: Farm, ctx: egui::Context) {
        let (question, newest, sender) =
            (self.asked, Arc::clone(&self.newest), self.answers.0.clone());
        std::thread::spawn(move || {
            let is_stale = || newest.load(Ordering::Relaxed) != question;
            let tell = |plan: Result<SeasonPlan, String>, is_last: bool| {
                // A closed channel means that the window is gone.
                drop(sender.send(Answer {
                    question,
                    plan,
                    is_last,
                }));
                ctx.request_repaint();
            };
            let found = live_season(&farm, &mut |better| {
                tell(Ok(better), false);
                !is_stale()
            });
            if !is_stale() {
                tell(found.map_err(|error| error.to_string()), true);
            }
        });
    }
}

/// What the file chooser is open for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ChoosingFor {
    /// To open a farm.
    Open,
    /// To save the farm under a name.
    SaveAs,
    /// To bring in outlines.
    Import,
    /// To hand outlines out.
    Export,
}

/// The desktop's file chooser on its own thread.
#[derive(Debug, Default)]
pub struct FileChooser {
    open: Option<Receiver<Option<PathBuf>>>,
    purpose: Option<ChoosingFor>,
}

impl FileChooser {
    /// Opens the chooser; a second one is not opened while one is there.
    pub fn open(&mut self, purpose: ChoosingFor, name: &str, ctx: &egui::Context) {
        if self.open.is_some() {
            return;
        }
        let (sender, receiver) = channel();
        self.open = Some(receiver);
        self.purpose = Some(purpose);
        let (ctx, name) = (ctx.clone(), name.to_owned());
        std::thread::spawn(move || {
            let dialog = match purpose {
                ChoosingFor::Open | ChoosingFor::SaveAs => {
                    rfd::FileDialog::new().add_filter("Farm", &["ron"])
                }
                ChoosingFor::Import | ChoosingFor::Export => rfd::FileDialog::new()
                    .add_filter("GeoJSON", &["geojson", "json"])
                    .add_filter("Table of trees", &["csv"]),
            };
            let chosen = match purpose {
                ChoosingFor::Open | ChoosingFor::Import => dialog.pick_file(),
                ChoosingFor::SaveAs | ChoosingFor::Export => dialog.set_file_name(name).save_file(),
            };
            drop(sender.send(chosen));
            ctx.request_repaint();
        });
    }

    /// Whether a chooser is open.
    pub fn is_open(&self) -> bool {
        self.open.is_some()
    }

    /// What was chosen, once.
    pub fn poll(&mut self) -> Option<(ChoosingFor, Option<PathBuf>)> {
        let chosen = self.open.as_ref()?.try_recv().ok()?;
        self.open = None;
        self.purpose.take().map(|purpose| (purpose, chosen))
    }
}
