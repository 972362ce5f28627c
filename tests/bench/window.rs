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

#[path = "window/farms.rs"]
mod farms;
#[path = "window/screen.rs"]
mod screen;

use std::time::{Duration, Instant};

use foldcourse::farm::{Farm, Ground, GroundId};
use foldcourse::files::example_farm;
use foldcourse::geometry::Point;

use farms::{IN_A_ROW, generated, tiled, tiled_corner};
use screen::{Screen, button, space};

/// Frames of one pan.
const FRAMES: usize = 120;

fn main() {
    // A word behind `--` runs only what its name begins with.
    let wanted = std::env::args()
        .nth(1)
        .filter(|word| !word.starts_with('-'));
    let is_wanted = |name: &str| {
        wanted
            .as_ref()
            .is_none_or(|word| name.starts_with(word.as_str()))
    };
    if is_wanted("first") {
        first_frame();
    }
    if is_wanted("panning") {
        for pieces in [300, 3000] {
            panning(&format!("{pieces} pieces"), Screen::new(generated(pieces)));
        }
        panning("3000 tiles", big(3000));
        panning("3000 tiles of 20000", big(20_000));
    }
    for pieces in [3000, 20_000] {
        if is_wanted("dragging") {
            dragging(pieces);
        }
        if is_wanted("pointing") {
            pointing(pieces);
        }
        if is_wanted("editing") {
            editing(pieces);
        }
    }
    if is_wanted("following") {
        following();
    }
    if is_wanted("idle") {
        idle("the example", example_farm().unwrap());
        idle("3000 pieces", generated(3000));
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

/// A farm of tiles that looks at its first 3,000.
fn big(pieces: u32) -> Screen {
    let mut screen = Screen::new(tiled(pieces));
    screen.settle();
    let rows = 3000 / IN_A_ROW;
    let corners = [tiled_corner(0, 0), tiled_corner(IN_A_ROW, rows)];
    screen.window.desk.view.fit(&corners);
    screen.window.desk.is_fitted = false;
    screen.settle();
    screen
}

fn panning(name: &str, mut screen: Screen) {
    screen.settle();
    let middle = egui::Pos2::new(700.0, 350.0);
    // Space held pans with any tool, wherever the drag begins.
    screen.frame(vec![egui::Event::PointerMoved(middle), space(true)]);
    screen.frame(vec![button(middle, true)]);
    let before = screen.window.desk.view.middle;
    let mut times = Vec::new();
    let mut triangles = 0;
    let before_ms = processor_ms();
    for step in 0..FRAMES {
        #[expect(clippy::cast_precision_loss, reason = "120 frames")]
        let turn = step as f32 * 0.2;
        let pos = middle + egui::Vec2::angled(turn) * 60.0;
        let began = Instant::now();
        (triangles, _) = screen.frame(vec![egui::Event::PointerMoved(pos)]);
        times.push(milliseconds(began));
    }
    assert_ne!(screen.window.desk.view.middle, before, "nothing was panned");
    let processor = processor_note(before_ms, FRAMES);
    // On and on one way: names are placed anew and ground comes into view that was not drawn before.
    let mut far = Vec::new();
    let far_before_ms = processor_ms();
    for step in 0..FRAMES {
        #[expect(clippy::cast_precision_loss, reason = "120 frames")]
        let pos = middle + egui::Vec2::new(-9.0, -4.0) * step as f32;
        let began = Instant::now();
        screen.frame(vec![egui::Event::PointerMoved(pos)]);
        far.push(milliseconds(began));
    }
    let far_processor = processor_note(far_before_ms, FRAMES);
    let note = format!("{processor}, {triangles} triangles");
    told(&format!("a frame while panning {name}"), &mut times, &note);
    told("  a long way off", &mut far, &far_processor);
}

/// The corner between four tiles dragged about: all four follow it.
fn dragging(pieces: u32) {
    let mut screen = big(pieces);
    let (column, row) = (27, 27);
    screen
        .window
        .desk
        .select_only(GroundId(row * IN_A_ROW + column + 1));
    let at = screen
        .window
        .desk
        .view
        .screen_from_ground(tiled_corner(column, row));
    screen.frame(vec![egui::Event::PointerMoved(at)]);
    screen.frame(vec![button(at, true)]);
    let mut times = Vec::new();
    let before_ms = processor_ms();
    for step in 0..FRAMES {
        #[expect(clippy::cast_precision_loss, reason = "120 frames")]
        let turn = step as f32 * 0.2;
        let pos = at + egui::Vec2::angled(turn) * 8.0;
        let began = Instant::now();
        screen.frame(vec![egui::Event::PointerMoved(pos)]);
        times.push(milliseconds(began));
    }
    let processor = processor_note(before_ms, FRAMES);
    let changed = screen.window.desk.tool.preview().changed.len();
    assert_eq!(changed, 4, "the corner is shared by four");
    let first = times.first().copied().unwrap_or_default();
    let note = format!("{processor}, the first {first:.2} ms");
    told(
        &format!("a frame while dragging a shared corner, {pieces} in the file"),
        &mut times,
        &note,
    );
    let began = Instant::now();
    screen.frame(vec![button(at, false)]);
    told("  letting it go", &mut [milliseconds(began)], "");
    told_memory();
}

/// A strip's corner dragged about on the example: the season is planned again meanwhile, and the ribbon follows.
fn following() {
    let mut screen = Screen::new(example_farm().unwrap());
    screen.settle();
    let farm = screen.window.desk.farm();
    let named = |(_, ground): &(&GroundId, &Ground)| ground.name == "W3";
    let (id, strip) = farm.ground.iter().find(named).unwrap();
    let (id, corner) = (*id, strip.shape.corners()[0]);
    screen.window.desk.select_only(id);
    let at = screen.window.desk.view.screen_from_ground(corner);
    screen.frame(vec![egui::Event::PointerMoved(at)]);
    screen.frame(vec![button(at, true)]);
    let (mut times, mut plans) = (Vec::new(), Vec::new());
    let before_ms = processor_ms();
    let start = Instant::now();
    for step in 0..FRAMES {
        #[expect(clippy::cast_precision_loss, reason = "120 frames")]
        let turn = step as f32 * 0.2;
        let pos = at + egui::Vec2::angled(turn) * 8.0;
        let began = Instant::now();
        screen.frame(vec![egui::Event::PointerMoved(pos)]);
        times.push(milliseconds(began));
        let plan = screen.window.desk.plan.clone();
        if plans.last() != Some(&plan) {
            plans.push(plan);
        }
        // A screen shows no more than sixty frames a second.
        std::thread::sleep(Duration::from_millis(16).saturating_sub(began.elapsed()));
    }
    let processor = processor_note(before_ms, FRAMES);
    assert!(plans.len() > 2, "the ribbon does not follow");
    #[expect(clippy::cast_precision_loss, reason = "some tens of plans")]
    let each = milliseconds(start) / (plans.len() - 1) as f64;
    let note = format!("{processor}, a new plan each {each:.0} ms");
    told(
        "a frame while the season follows a dragged corner",
        &mut times,
        &note,
    );
}

/// What lies under the pointer, and where it snaps to.
fn pointing(pieces: u32) {
    let mut screen = big(pieces);
    let desk = &mut screen.window.desk;
    let (hidden, none) = (
        std::collections::BTreeSet::new(),
        std::collections::BTreeSet::new(),
    );
    let reach = desk.view.m_per_point;
    let from = Some(tiled_corner(20, 20));
    let mut snapping = std::mem::take(&mut desk.snapping);
    let began = Instant::now();
    snapping.place(desk.farm(), (&none, &hidden), Point::default(), None, reach);
    let built = milliseconds(began);
    let mut times = Vec::new();
    let before_ms = processor_ms();
    for step in 0..1000u32 {
        let at = tiled_corner(step % 50, step / 50).moved(f64::from(step % 7) * 4.0 + 12.0, 14.0);
        let began = Instant::now();
        let found = foldcourse::app::tools::ground_at(at, desk.scene());
        let snapped = snapping.place(desk.farm(), (&none, &hidden), at, from, reach);
        times.push(milliseconds(began));
        assert!(found.is_some() && snapped.is_finite(), "over a tile");
    }
    told(
        &format!("hit test and snap, {pieces} in the file"),
        &mut times,
        &format!(
            "{}, the first snap {built:.2} ms",
            processor_note(before_ms, 1000)
        ),
    );
}

/// The most memory this run has held so far, where the system tells it.
fn told_memory() {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let most = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    match most {
        Some(most) => println!("  most memory so far: {}", most.trim()),
        None => println!("  most memory so far: the system does not tell"),
    }
}

/// A corner moved to and fro: measures, neighbours, net areas and findings are brought up to date each time.
fn editing(pieces: u32) {
    let mut screen = big(pieces);
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

fn milliseconds(began: Instant) -> f64 {
    began.elapsed().as_secs_f64() * 1000.0
}

/// What this thread has taken of a processor so far, milliseconds, where the system tells: on a machine with other work
/// the wall clock counts that too.
fn processor_ms() -> Option<f64> {
    let told = std::fs::read_to_string("/proc/thread-self/schedstat").ok()?;
    let nanoseconds: f64 = told.split_whitespace().next()?.parse().ok()?;
    Some(nanoseconds / 1e6)
}

/// The mean of the processor's time over so many rounds since then, to be told behind the times.
fn processor_note(before: Option<f64>, rounds: usize) -> String {
    let taken = before.zip(processor_ms()).map(|(from, to)| to - from);
    #[expect(clippy::cast_precision_loss, reason = "some hundreds of rounds")]
    taken.map_or_else(String::new, |ms| {
        format!(", processor {:.3} ms each", ms / rounds as f64)
    })
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
