//! The desktop's file chooser, which must not hold up a frame.
//!
//! It runs on its own thread, answers through a channel and wakes the window once.

use std::path::PathBuf;
use std::sync::mpsc::{Receiver, channel};

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
