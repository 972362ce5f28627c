//! Opens the window: wgpu first, then OpenGL, then one clear message.

use std::path::{Path, PathBuf};

use thiserror::Error;

use super::desk::Desk;
use super::settings::Settings;
use super::window::Window;
use crate::farm::Farm;
use crate::files::{FileError, example_farm, open_farm};
use crate::quantity::Day;

/// Why no window came up.
#[derive(Debug, Error)]
pub enum StartError {
    /// Neither renderer started.
    #[error(
        "no window could be opened: wgpu says \"{wgpu}\", OpenGL says \"{opengl}\". Try updating the graphics driver, or \
         run with LIBGL_ALWAYS_SOFTWARE=1; `foldcourse measure FILE` and `foldcourse season FILE` work without a window"
    )]
    NoRenderer {
        /// The first renderer's words.
        wgpu: String,
        /// The second renderer's words.
        opengl: String,
    },
}

/// Whether this session has a display to open a window on.
pub fn has_display() -> bool {
    if !cfg!(target_os = "linux") {
        return true;
    }
    ["DISPLAY", "WAYLAND_DISPLAY", "WAYLAND_SOCKET"]
        .iter()
        .any(|name| std::env::var_os(name).is_some_and(|value| !value.is_empty()))
}

/// A farm and where it is saved.
#[derive(Debug, Clone)]
pub struct Opened {
    /// The farm.
    pub farm: Farm,
    /// Where it is saved; none for the shipped example.
    pub path: Option<PathBuf>,
}

/// The farm that was named; else the one opened last; else the shipped example.
///
/// # Errors
/// Where the farm that was named cannot be read.
pub fn farm_to_open(named: Option<&Path>) -> Result<Opened, FileError> {
    if let Some(path) = named {
        return Ok(Opened {
            farm: open_farm(path)?,
            path: Some(path.to_path_buf()),
        });
    }
    let last = Settings::of_this_person()
        .recent
        .into_iter()
        .find_map(|path| {
            // A farm that has moved or broken is passed over: the person did not ask for it by name.
            open_farm(&path).ok().map(|farm| Opened {
                farm,
                path: Some(path),
            })
        });
    match last {
        Some(opened) => Ok(opened),
        None => Ok(Opened {
            farm: example_farm()?,
            path: None,
        }),
    }
}

/// Opens the window on a farm and stays until it is closed.
///
/// # Errors
/// Where neither renderer starts.
pub fn run(opened: &Opened, today: Day) -> Result<(), StartError> {
    keep_large_memory();
    let wgpu = match run_with(eframe::Renderer::Wgpu, opened, today) {
        Ok(()) => return Ok(()),
        Err(error) => error.to_string(),
    };
    match run_with(eframe::Renderer::Glow, opened, today) {
        Ok(()) => Ok(()),
        Err(error) => Err(StartError::NoRenderer {
            wgpu,
            opengl: error.to_string(),
        }),
    }
}

/// Lets large pieces of memory be used again.
///
/// The map's triangles take some megabytes with each frame. The usual C library of Linux gives a piece as large as that back
/// to the system when it is freed, and asks for it anew with the next frame, until it has once seen a larger one freed: then
/// it keeps what is smaller. So a larger one is freed here. It is never written to, and takes no memory; elsewhere it does
/// nothing.
fn keep_large_memory() {
    const LARGER_THAN_A_FRAME: usize = 24 << 20;
    drop(std::hint::black_box(vec![0_u8; LARGER_THAN_A_FRAME]));
}

fn run_with(renderer: eframe::Renderer, opened: &Opened, today: Day) -> eframe::Result {
    let viewport = egui::ViewportBuilder::default()
        .with_title("Foldcourse")
        .with_app_id("foldcourse")
        .with_inner_size([1440.0, 900.0])
        .with_min_inner_size([860.0, 560.0]);
    let options = eframe::NativeOptions {
        renderer,
        viewport,
        ..eframe::NativeOptions::default()
    };
    let Opened { farm, path } = opened.clone();
    eframe::run_native(
        "foldcourse",
        options,
        Box::new(move |creation| {
            let mut settings = Settings::of_this_person();
            if let Some(path) = &path {
                settings.remember(path);
            }
            Ok(Box::new(Window::new(
                &creation.egui_ctx,
                Desk::new(farm, path, today, settings),
            )))
        }),
    )
}
