//! A hand at the window: presses keys and points, and adds up what that costs.

use egui::{Event, Key, Modifiers, PointerButton, Pos2, Vec2};
use egui_kittest::Harness;
use foldcourse::app::desk::Desk;
use foldcourse::app::settings::Settings;
use foldcourse::app::tools::Tool;
use foldcourse::app::window::Window;
use foldcourse::farm::{Farm, Ground, GroundId, GroundMeasures};
use foldcourse::geometry::{GroundFrame, LonLat, Point, geodesic};
use foldcourse::quantity::Day;

const KEY_S: f64 = 0.20;
const POINT_S: f64 = 1.10;
const BUTTON_S: f64 = 0.10;
const HOME_S: f64 = 0.40;
const THINK_S: f64 = 1.35;

#[derive(Clone, Copy, PartialEq)]
enum On {
    Mouse,
    Keys,
}

/// The hand, where it lies, and what it has spent.
pub struct Hand {
    harness: Harness<'static, Option<Window>>,
    on: On,
    seconds: f64,
}

impl Hand {
    /// At a window with nothing drawn, hand on the mouse.
    pub fn at_an_empty_farm() -> Self {
        let today = Day::parse_iso("2027-05-09").unwrap();
        let frame = GroundFrame::new(LonLat::new(-2.0, 53.0)).unwrap();
        let farm = Farm::new("Effort", frame, today);
        let harness = Harness::builder()
            .with_size(Vec2::new(1440.0, 900.0))
            .with_max_steps(40)
            .build_ui_state(
                move |ui, window: &mut Option<Window>| {
                    let ctx = ui.ctx().clone();
                    let window = window.get_or_insert_with(|| {
                        Window::new(
                            &ctx,
                            Desk::new(farm.clone(), None, today, Settings::default()),
                        )
                    });
                    window.logic(&ctx);
                    window.ui(ui);
                },
                None,
            );
        let mut hand = Self {
            harness,
            on: On::Mouse,
            seconds: 0.0,
        };
        hand.harness.run_steps(4);
        hand
    }

    /// Begins a task.
    pub fn begin(&mut self) {
        self.seconds = 0.0;
    }

    /// What the task has cost.
    pub fn seconds(&self) -> f64 {
        self.seconds
    }

    /// An act chosen by its letter.
    pub fn choose(&mut self, letter: &str) {
        self.seconds += THINK_S;
        self.type_keys(letter);
    }

    /// An act chosen by its key.
    pub fn choose_key(&mut self, key: Key) {
        self.seconds += THINK_S;
        self.home_to(On::Keys);
        self.press(key);
    }

    /// Keys one after another; a tab and a line break are the keys of that name.
    pub fn type_keys(&mut self, keys: &str) {
        self.home_to(On::Keys);
        for letter in keys.chars() {
            match letter {
                '\t' => self.press(Key::Tab),
                '\n' => self.press(Key::Enter),
                letter => self.press_letter(letter),
            }
        }
    }

    fn press_letter(&mut self, letter: char) {
        let key = Key::from_name(&letter.to_uppercase().to_string())
            .or_else(|| Key::from_name(&letter.to_string()));
        if let Some(key) = key {
            self.harness.event(key_event(key, true));
        }
        self.harness.event(Event::Text(letter.to_string()));
        if let Some(key) = key {
            self.harness.event(key_event(key, false));
        }
        self.seconds += KEY_S;
        self.harness.run_steps(3);
    }

    fn press(&mut self, key: Key) {
        self.harness.event(key_event(key, true));
        self.harness.event(key_event(key, false));
        self.seconds += KEY_S;
        self.harness.run_steps(3);
    }

    /// Points at a place on the ground and clicks.
    pub fn click(&mut self, place: Point) {
        self.home_to(On::Mouse);
        self.point(place);
        self.button(place, true);
        self.button(place, false);
        // The next click is not to be taken for the second of a double click.
        self.harness.run_steps(30);
    }

    /// Drags from one place on the ground to another.
    pub fn drag(&mut self, from: Point, to: Point) {
        self.home_to(On::Mouse);
        self.point(from);
        self.button(from, true);
        let middle = from.between(to, 0.5);
        self.move_to(middle);
        self.point(to);
        self.button(to, false);
    }

    fn point(&mut self, place: Point) {
        self.seconds += POINT_S;
        self.move_to(place);
    }

    fn move_to(&mut self, place: Point) {
        let pos = self.screen(place);
        self.harness.event(Event::PointerMoved(pos));
        self.harness.run_steps(2);
    }

    fn button(&mut self, place: Point, pressed: bool) {
        let pos = self.screen(place);
        let modifiers = Modifiers::NONE;
        self.harness.event(Event::PointerButton {
            pos,
            button: PointerButton::Primary,
            pressed,
            modifiers,
        });
        self.seconds += BUTTON_S;
        self.harness.run_steps(2);
    }

    fn home_to(&mut self, on: On) {
        if self.on != on {
            self.on = on;
            self.seconds += HOME_S;
        }
    }

    fn desk(&self) -> &Desk {
        &self
            .harness
            .state()
            .as_ref()
            .expect("the window is there")
            .desk
    }

    fn screen(&self, place: Point) -> Pos2 {
        self.desk().view.screen_from_ground(place)
    }

    /// The farm as it stands.
    pub fn farm(&self) -> &Farm {
        self.desk().farm()
    }

    /// The piece drawn last.
    pub fn last_ground(&self) -> (GroundId, &Ground) {
        self.farm()
            .ground
            .iter()
            .next_back()
            .map(|(id, ground)| (*id, ground))
            .expect("something is drawn")
    }

    /// The measures of a piece.
    pub fn measures(&self, id: GroundId) -> GroundMeasures {
        self.desk().measures(id)
    }

    /// A place well inside a piece.
    pub fn inside(&self, id: GroundId) -> Point {
        self.farm().ground[&id]
            .outline()
            .and_then(foldcourse::geometry::Outline::centroid)
            .expect("an area")
    }

    /// The pick tool in hand, as it is between tasks.
    pub fn take_pick_uncounted(&mut self) {
        let spent = self.seconds;
        let on = self.on;
        self.type_keys("v");
        (self.seconds, self.on) = (spent, on);
    }

    /// What the ruler reads.
    pub fn ruler_length_m(&self) -> f64 {
        match &self.desk().tool {
            Tool::Ruler(ruler) => geodesic::length_m(self.farm().frame, ruler.corners()),
            other => panic!("{} is in hand, not the ruler", other.name()),
        }
    }
}

fn key_event(key: Key, pressed: bool) -> Event {
    Event::Key {
        key,
        physical_key: None,
        pressed,
        repeat: false,
        modifiers: Modifiers::NONE,
    }
}
