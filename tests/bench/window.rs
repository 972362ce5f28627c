//! What the window costs: from a farm to its first frame, a frame while panning, and nothing at all when idle.
//!
//! No renderer: layout and tessellation, which the processor does. Run it with `cargo bench --bench window`. Prints
//! milliseconds; fails where an idle window asks for another frame.
#![expect(
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::print_stdout,
    reason = "a bench prints, and may stop the run"
)]

use std::time::{Duration, Instant};

use foldcourse::app::desk::Desk;
use foldcourse::app::settings::Settings;
use foldcourse::app::window::Window;
use foldcourse::farm::{Farm, Ground, GroundId, Kind, Shape};
use foldcourse::files::example_farm;
use foldcourse::geometry::{GroundFrame, LonLat, Outline, Point};
use foldcourse::quantity::Day;

/// Frames of one pan.
const FRAMES: usize = 120;

fn main() {
    first_frame();
    for pieces in [300, 3000] {
        panning(pieces);
    }
    editing(3000);
    idle("the example", example_farm().unwrap());
    idle("3000 pieces", generated(3000));
}

/// A window without a screen.
struct Screen {
    ctx: egui::Context,
    window: Window,
    time_s: f64,
}

impl Screen {
    fn new(farm: Farm) -> Self {
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
    fn frame(&mut self, events: Vec<egui::Event>) -> (usize, Duration) {
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
    fn settle(&mut self) {
        let began = Instant::now();
        loop {
            let (_, delay) = self.frame(Vec::new());
            let is_quiet = !delay.is_zero() && !self.window.desk.planner.is_at_work();
            if is_quiet {
                return;
            }
            assert!(
                began.elapsed() < Duration::from_mins(2),
                "never quiet: {:?}",
                self.ctx.repaint_causes()
            );
        }
    }
}

fn first_frame() {
    let mut times: Vec<f64> = (0..10)
        .map(|_| {
            let farm = example_farm().unwrap();
            let began = Instant::now();
            let mut screen = Screen::new(farm);
            screen.frame(Vec::new());
            milliseconds(began)
        })
        .collect();
    told("example farm to first frame", &mut times, "");
}

fn panning(pieces: u32) {
    let mut screen = Screen::new(generated(pieces));
    screen.settle();
    let middle = egui::Pos2::new(700.0, 350.0);
    // Space held pans with any tool, wherever the drag begins.
    screen.frame(vec![egui::Event::PointerMoved(middle), space(true)]);
    screen.frame(vec![button(middle, true)]);
    let before = screen.window.desk.view.middle;
    let mut times = Vec::new();
    let mut triangles = 0;
    for step in 0..FRAMES {
        #[expect(clippy::cast_precision_loss, reason = "120 frames")]
        let turn = step as f32 * 0.2;
        let pos = middle + egui::Vec2::angled(turn) * 60.0;
        let began = Instant::now();
        (triangles, _) = screen.frame(vec![egui::Event::PointerMoved(pos)]);
        times.push(milliseconds(began));
    }
    assert_ne!(screen.window.desk.view.middle, before, "nothing was panned");
    let note = format!(", {triangles} triangles");
    told(
        &format!("a frame while panning {pieces} pieces"),
        &mut times,
        &note,
    );
}

/// A corner moved to and fro: measures, neighbours, net areas and findings are brought up to date each time.
fn editing(pieces: u32) {
    let mut screen = Screen::new(generated(pieces));
    screen.settle();
    let id = GroundId(pieces / 2);
    let mut times = Vec::new();
    let mut alone = Vec::new();
    let mut kept = foldcourse::farm::Neighbourhood::of(screen.window.desk.farm());
    for step in 0..20 {
        let began = Instant::now();
        screen
            .window
            .desk
            .change_ground(id, "Move a corner", |ground| {
                let by_m = if step % 2 == 0 { 3.0 } else { -3.0 };
                if let Some(corner) = ground.shape.corner_mut(0) {
                    *corner = corner.moved(by_m, 0.0);
                }
            });
        times.push(milliseconds(began));
        let began = Instant::now();
        kept.renew(screen.window.desk.farm(), &[id]);
        alone.push(milliseconds(began));
    }
    told(&format!("an edit on {pieces} pieces"), &mut times, "");
    told("  of which neighbours and net areas", &mut alone, "");
    let began = Instant::now();
    let fresh = foldcourse::farm::Neighbourhood::of(screen.window.desk.farm());
    let mut whole = vec![milliseconds(began)];
    told(
        "  the same for the whole farm",
        &mut whole,
        &format!(", {} misfits", fresh.misfits().count()),
    );
}

fn idle(name: &str, farm: Farm) {
    let mut screen = Screen::new(farm);
    screen.settle();
    for _ in 0..20 {
        let (_, delay) = screen.frame(Vec::new());
        assert!(
            delay > Duration::from_secs(1),
            "{name}: asks for a frame in {delay:?}: {:?}",
            screen.ctx.repaint_causes()
        );
    }
    println!("idle, {name}: 20 frames in a row ask for no other");
}

fn space(pressed: bool) -> egui::Event {
    egui::Event::Key {
        key: egui::Key::Space,
        physical_key: None,
        pressed,
        repeat: false,
        modifiers: egui::Modifiers::NONE,
    }
}

fn button(pos: egui::Pos2, pressed: bool) -> egui::Event {
    egui::Event::PointerButton {
        pos,
        button: egui::PointerButton::Primary,
        pressed,
        modifiers: egui::Modifiers::NONE,
    }
}

/// A farm of pieces of every kind of area in rows, each a bent outline of eight corners about 60 m across.
fn generated(pieces: u32) -> Farm {
    let kinds = [
        Kind::Plot,
        Kind::Ley,
        Kind::Wood,
        Kind::Tunnel,
        Kind::Water,
        Kind::KeepOut,
    ];
    let frame = GroundFrame::new(LonLat::new(-1.0, 52.0)).unwrap();
    let mut farm = Farm::new("Generated", frame, Day::parse_iso("2027-04-01").unwrap());
    let in_a_row = f64::from(pieces).sqrt().ceil();
    for (place, kind) in (0..pieces).zip(kinds.iter().cycle()) {
        let row = (f64::from(place) / in_a_row).floor();
        let column = f64::from(place) - row * in_a_row;
        let middle = Point::new(column * 70.0, row * 70.0);
        let corner = |turn: u32| {
            let reach_m = if turn.is_multiple_of(2) { 32.0 } else { 26.0 };
            middle.towards(f64::from(turn) * 45.0, reach_m)
        };
        let outline = Outline::simple((0..8).rev().map(corner).collect());
        let ground = Ground::new(format!("Piece {place}"), *kind, Shape::Area(outline));
        farm.ground.insert(GroundId(place + 1), ground);
    }
    farm.next_id = pieces + 1;
    farm
}

fn milliseconds(began: Instant) -> f64 {
    began.elapsed().as_secs_f64() * 1000.0
}

fn told(what: &str, times: &mut [f64], note: &str) {
    times.sort_by(f64::total_cmp);
    let at = |share: usize| times[(times.len() - 1) * share / 100];
    println!(
        "{what}: median {:.2} ms, 95 in 100 under {:.2} ms, most {:.2} ms{note}",
        at(50),
        at(95),
        at(100)
    );
}
