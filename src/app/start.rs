//! Opens the window: wgpu first, then OpenGL, then one clear message.

use std::path::PathBuf;

use thiserror::Error;

use super::desk::Desk;
use super::settings::Settings;
use super::window::Window;
use crate::farm::Farm;
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

/// Opens the window on a farm and stays until it is closed.
///
/// # Errors
/// Where neither renderer starts.
pub fn run(farm: &Farm, path: Option<&PathBuf>, today: Day) -> Result<(), StartError> {
    let wgpu = match run_with(eframe::Renderer::Wgpu, farm, path, today) {
        Ok(()) => return Ok(()),
        Err(error) => error.to_string(),
    };
    match run_with(eframe::Renderer::Glow, farm, path, today) {
        Ok(()) => Ok(()),
        Err(error) => Err(StartError::NoRenderer {
            wgpu,
            opengl: error.to_string(),
        }),
    }
}

fn run_with(
    renderer: eframe::Renderer,
    farm: &Farm,
    path: Option<&PathBuf>,
    today: Day,
) -> eframe::Result {
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
    let (farm, path) = (farm.clone(), path.cloned());
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
