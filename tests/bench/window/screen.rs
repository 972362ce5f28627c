//! A window without a screen, and the events a person would send it. Knows no farm.

use std::time::{Duration, Instant};

use foldcourse::app::desk::Desk;
use foldcourse::app::settings::Settings;
use foldcourse::app::window::Window;
use foldcourse::farm::Farm;
use foldcourse::quantity::Day;

/// A window without a screen.
pub(crate) struct Screen {
    pub(crate) ctx: egui::Context,
    pub(crate) window: Window,
    time_s: f64,
}

impl Screen {
    pub(crate) fn new(farm: Farm) -> Self {
        let ctx = egui::Context::default();
        let today = Day::parse_iso("2027-05-14").unwrap();
        let desk = Desk::new(farm, None, today, Settings::default());
        let window = Window::new(&ctx, desk);
        Self {
            ctx,
            window,
            time_s: 0.0,
        }
    }

    /// One frame, tessellated: the triangles a renderer would be given, and how soon the next frame is asked for.
    pub(crate) fn frame(&mut self, events: Vec<egui::Event>) -> (usize, Duration) {
        self.time_s += 1.0 / 60.0;
        let size = egui::Vec2::new(1440.0, 900.0);
        let input = egui::RawInput {
            screen_rect: Some(egui::Rect::from_min_size(egui::Pos2::ZERO, size)),
            time: Some(self.time_s),
            events,
            ..egui::RawInput::default()
        };
        let mut output = self.ctx.run_ui(input, |ui| {
            self.window.logic(ui.ctx());
            self.window.ui(ui);
        });
        let delay = output.viewport_output[&egui::ViewportId::ROOT].repaint_delay;
        // There is no renderer to hand new glyphs to.
        output.textures_delta.clear();
        let meshes = self.ctx.tessellate(output.shapes, output.pixels_per_point);
        let triangles = meshes
            .iter()
            .map(|clipped| match &clipped.primitive {
                egui::epaint::Primitive::Mesh(mesh) => mesh.indices.len() / 3,
                egui::epaint::Primitive::Callback(_) => 0,
            })
            .sum();
        (triangles, delay)
    }

    /// Frames until nothing more is asked for and the planner has said its last.
    pub(crate) fn settle(&mut self) {
        let began = Instant::now();
        let mut quiet_frames = 0;
        loop {
            let (_, delay) = self.frame(Vec::new());
            let is_quiet = !delay.is_zero() && !self.window.desk.planner.is_at_work();
            quiet_frames = if is_quiet { quiet_frames + 1 } else { 0 };
            // The planner's thread sends its last answer and wakes the window after: the wake may come a little later.
            if quiet_frames > 2 {
                return;
            }
            std::thread::sleep(Duration::from_millis(2));
            assert!(
                began.elapsed() < Duration::from_mins(2),
                "never quiet: {:?}",
                self.ctx.repaint_causes()
            );
        }
    }
}

/// The space bar, pressed or let go.
pub(crate) fn space(pressed: bool) -> egui::Event {
    egui::Event::Key {
        key: egui::Key::Space,
        physical_key: None,
        pressed,
        repeat: false,
        modifiers: egui::Modifiers::NONE,
    }
}

/// The pointer's main button, pressed or let go.
pub(crate) fn button(pos: egui::Pos2, pressed: bool) -> egui::Event {
    egui::Event::PointerButton {
        pos,
        button: egui::PointerButton::Primary,
        pressed,
        modifiers: egui::Modifiers::NONE,
    }
}
