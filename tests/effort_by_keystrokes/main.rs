//! What the everyday drawing tasks cost an expert, in seconds, counted while they are played through the window.
//!
//! Operators and times are those of the keystroke-level model (Card, S. K., Moran, T. P. & Newell, A., The
//! keystroke-level model for user performance time with interactive systems, Communications of the ACM 23(7), 1980,
//! table 1): key 0.20 s (average skilled typist), pointing 1.10 s, moving a hand between mouse and keys 0.40 s,
//! mental preparation 1.35 s before each act that is chosen; a mouse button pressed or let go 0.10 s (the later
//! textbook figure, from memory). No system wait. Each task checks that its result is right before it is counted.

#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test may fail loudly"
)]

mod hand;

use foldcourse::farm::{GroundId, Kind};
use foldcourse::geometry::Point;
use hand::Hand;

/// What a task is called, the seconds it may take, and the task.
type Task = (&'static str, f64, fn(&mut Hand));

fn main() {
    let tasks: [Task; 7] = [
        ("plot", 12.0, plot),
        ("strips", 8.0, strips),
        ("tunnels", 14.0, tunnels),
        ("trees", 10.0, trees),
        ("corner", 5.0, corner),
        ("distance", 5.0, distance),
        ("undo", 2.0, undo),
    ];
    let mut hand = Hand::at_an_empty_farm();
    let mut missed = Vec::new();
    for (name, target_s, task) in tasks {
        hand.begin();
        task(&mut hand);
        let seconds = hand.seconds();
        println!("{name}: {seconds:.1}");
        if seconds > target_s + 0.05 {
            missed.push(format!("{name} takes {seconds:.1} s, {target_s} wanted"));
        }
    }
    assert!(missed.is_empty(), "{}", missed.join("; "));
}

/// A rectangle of exactly 0.4 ha: one side of 80 m to the east, then the area.
fn plot(hand: &mut Hand) {
    hand.choose("r");
    hand.click(Point::new(-70.0, 10.0));
    hand.type_keys("80\t90\n");
    hand.type_keys("0.4ha\n");
    let (_, plot) = hand.last_ground();
    assert_eq!(plot.kind, Kind::Plot);
    let area_m2 = plot.outline().unwrap().area_m2();
    assert!((area_m2 - 4000.0).abs() < 0.05, "{area_m2}");
}

/// The plot, still selected, in six strips.
fn strips(hand: &mut Hand) {
    hand.choose("s");
    hand.type_keys("6\n");
    let strips: Vec<f64> = hand
        .farm()
        .ground
        .values()
        .filter(|ground| ground.kind == Kind::Strip)
        .map(|ground| ground.outline().unwrap().area_m2())
        .collect();
    assert_eq!(strips.len(), 6);
    for area_m2 in &strips {
        assert!((area_m2 / strips[0] - 1.0).abs() < 1e-9);
    }
}

/// Six tunnels of 8 by 24 m with 3 m between.
fn tunnels(hand: &mut Hand) {
    hand.choose("t");
    hand.click(Point::new(-60.0, -60.0));
    hand.type_keys("24\t90\n");
    hand.type_keys("8\n");
    hand.choose("w");
    hand.type_keys("6\t3\n");
    let tunnels: Vec<_> = hand
        .farm()
        .ground
        .values()
        .filter(|ground| ground.kind == Kind::Tunnel)
        .collect();
    assert_eq!(tunnels.len(), 6);
    for tunnel in &tunnels {
        assert!((tunnel.outline().unwrap().area_m2() - 192.0).abs() < 0.05);
    }
    let first = tunnels[0].outline().unwrap().centroid().unwrap();
    let second = tunnels[1].outline().unwrap().centroid().unwrap();
    assert!((first.distance_m(second) - 11.0).abs() < 0.01);
}

/// A line of 90 m with 19 trees.
fn trees(hand: &mut Hand) {
    hand.choose("e");
    hand.click(Point::new(-70.0, 80.0));
    hand.type_keys("90\t90\n");
    hand.type_keys("\n");
    let (id, line) = hand.last_ground();
    assert_eq!(line.kind, Kind::TreeLine);
    assert_eq!(hand.measures(id).trees, Some(19));
    assert!((hand.measures(id).length_m.unwrap() - 90.0).abs() < 0.01);
}

/// A corner shared by two strips and their ley, moved by 3 m: all of them follow.
fn corner(hand: &mut Hand) {
    hand.take_pick_uncounted();
    let strip = hand
        .farm()
        .ground
        .iter()
        .find(|(_, ground)| ground.kind == Kind::Strip)
        .map(|(id, _)| *id)
        .unwrap();
    let shared = shared_corner(hand, strip);
    let before = holders(hand, shared);
    assert!(before >= 2, "{before}");
    hand.click(hand.inside(strip));
    let to = shared.moved(3.0, 2.0);
    hand.drag(shared, to);
    assert_eq!(holders(hand, shared), 0, "a neighbour was left behind");
}

fn shared_corner(hand: &Hand, strip: GroundId) -> Point {
    let corners = hand.farm().ground[&strip].shape.corners();
    corners
        .into_iter()
        .find(|corner| holders(hand, *corner) >= 2)
        .expect("a corner shared with the next strip")
}

fn holders(hand: &Hand, place: Point) -> usize {
    let ground = hand.farm().ground.values();
    ground
        .filter(|ground| {
            ground
                .shape
                .corners()
                .iter()
                .any(|corner| corner.distance_m(place) < 1e-6)
        })
        .count()
}

/// The distance between two places, read off the ruler.
fn distance(hand: &mut Hand) {
    hand.choose("m");
    hand.click(Point::new(-50.0, -20.0));
    hand.click(Point::new(30.0, -20.0));
    assert!(
        (hand.ruler_length_m() - 80.0).abs() < 1.5,
        "{}",
        hand.ruler_length_m()
    );
}

/// Everything taken back.
fn undo(hand: &mut Hand) {
    hand.choose_key(egui::Key::F9);
    assert!(hand.farm().ground.is_empty());
}
