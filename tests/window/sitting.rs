//! A person at the window: points, clicks, drags and types in metres; the farm is swept for faults after every act.
//!
//! Today is 14 May 2027; settings live in memory only.

use std::time::{Duration, Instant};

use egui_kittest::Harness;
use egui_kittest::kittest::Queryable;
use foldcourse::app::desk::Desk;
use foldcourse::app::settings::{LightChoice, Settings};
use foldcourse::app::window::Window;
use foldcourse::farm::{Farm, Ground, GroundId, Kind, Shape};
use foldcourse::files::example_farm;
use foldcourse::geometry::{GroundFrame, LonLat, Outline, Point};
use foldcourse::quantity::Day;

/// A place on the ground: metres east and north.
pub(crate) type Place = (f64, f64);

const USUAL_SIZE: egui::Vec2 = egui::Vec2::new(1280.0, 800.0);

/// The window with somebody in front of it.
pub(crate) struct Sitting {
    /// The toolkit's harness with the window in it.
    pub(crate) harness: Harness<'static, Window>,
}

pub(crate) fn day(text: &str) -> Day {
    Day::parse_iso(text).unwrap()
}

/// An empty farm on the 52nd parallel.
pub(crate) fn empty_farm() -> Farm {
    let frame = GroundFrame::new(LonLat::new(-1.0, 52.0)).unwrap();
    Farm::new("Sample", frame, day("2027-04-01"))
}

/// A farm with rectangles on it, each by name, kind, south-west corner and sides.
pub(crate) fn farm_of(pieces: &[(&str, Kind, Place, Place)]) -> Farm {
    let mut farm = empty_farm();
    for (name, kind, (east, north), (width, depth)) in pieces {
        let corners = [
            (*east, *north),
            (east + width, *north),
            (east + width, north + depth),
            (*east, north + depth),
        ];
        let ring = corners.map(|(east_m, north_m)| Point::new(east_m, north_m));
        let shape = Shape::Area(Outline::simple(ring.to_vec()));
        farm.ground
            .insert(GroundId(farm.next_id), Ground::new(*name, *kind, shape));
        farm.next_id += 1;
    }
    farm
}

/// One ley of 80 m by 50 m about the middle of the map.
pub(crate) fn one_ley() -> Farm {
    farm_of(&[("Home Ley", Kind::Ley, (-40.0, -25.0), (80.0, 50.0))])
}

impl Sitting {
    /// At a small farm, in a window of usual size that shows 150 m or so round the origin. Pointer snapping is off:
    /// what is clicked is what is meant.
    pub(crate) fn at(farm: Farm) -> Self {
        let mut sitting = Self::sized(farm, USUAL_SIZE, 1.0, LightChoice::Day);
        let desk = sitting.desk_mut();
        desk.view.middle = Point::default();
        desk.view.m_per_point = 0.35;
        desk.is_fitted = false;
        sitting.settle();
        sitting
    }

    /// At the shipped example, with its season planned.
    pub(crate) fn at_example() -> Self {
        let farm = example_farm().unwrap();
        let mut sitting = Self::sized(farm, USUAL_SIZE, 1.0, LightChoice::Day);
        sitting.wait_for_plan();
        sitting
    }

    pub(crate) fn sized(farm: Farm, size: egui::Vec2, scale: f32, light: LightChoice) -> Self {
        let settings = Settings {
            light,
            ..Settings::default()
        };
        let theme = match light {
            LightChoice::Night => egui::Theme::Dark,
            _ => egui::Theme::Light,
        };
        let mut harness = Harness::builder()
            .with_size(size)
            .with_pixels_per_point(scale)
            .with_theme(theme)
            .with_step_dt(0.1)
            .with_max_steps(40)
            .with_render_cursor(false)
            .build_eframe(|creation| {
                let mut desk = Desk::new(farm, None, day("2027-05-14"), settings);
                desk.snapping.is_off = true;
                Window::new(&creation.egui_ctx, desk)
            });
        harness.run();
        Self { harness }
    }

    pub(crate) fn desk(&self) -> &Desk {
        &self.harness.state().desk
    }

    pub(crate) fn desk_mut(&mut self) -> &mut Desk {
        &mut self.harness.state_mut().desk
    }

    /// The piece of ground of this name.
    #[track_caller]
    pub(crate) fn ground(&self, name: &str) -> (GroundId, &Ground) {
        let found = self
            .desk()
            .farm()
            .ground
            .iter()
            .find(|(_, ground)| ground.name == name);
        let (id, ground) = found.unwrap_or_else(|| panic!("no {name} among {:?}", self.names()));
        (*id, ground)
    }

    pub(crate) fn names(&self) -> Vec<&str> {
        let ground = &self.desk().farm().ground;
        ground.values().map(|ground| ground.name.as_str()).collect()
    }

    /// Corners of a piece, to the nearest decimetre: what a pointer on a screen can mean.
    #[track_caller]
    pub(crate) fn corners(&self, name: &str) -> Vec<Place> {
        let (_, ground) = self.ground(name);
        let rounded = |metres: f64| (metres * 10.0).round() / 10.0 + 0.0;
        ground
            .shape
            .corners()
            .into_iter()
            .map(|corner| (rounded(corner.east_m), rounded(corner.north_m)))
            .collect()
    }

    /// Steps of the history in force.
    pub(crate) fn steps(&self) -> usize {
        self.desk().history.steps_done()
    }

    /// Names of what is selected.
    pub(crate) fn selected(&self) -> Vec<&str> {
        let farm = self.desk().farm();
        self.desk()
            .selected
            .iter()
            .map(|id| farm.ground[id].name.as_str())
            .collect()
    }

    /// What the window says, if it says anything.
    pub(crate) fn notice(&self) -> &str {
        self.desk()
            .notice
            .as_ref()
            .map_or("", |notice| notice.text.as_str())
    }

    fn on_screen(&self, (east_m, north_m): Place) -> egui::Pos2 {
        let pos = self
            .desk()
            .view
            .screen_from_ground(Point::new(east_m, north_m));
        assert!(
            self.desk().view.screen.contains(pos),
            "{east_m}, {north_m} is out of view"
        );
        pos
    }

    /// Moves the pointer over a place.
    pub(crate) fn point(&mut self, place: Place) {
        self.harness.hover_at(self.on_screen(place));
        self.settle();
    }

    pub(crate) fn click(&mut self, place: Place) {
        self.click_holding(place, egui::Modifiers::NONE);
    }

    pub(crate) fn click_holding(&mut self, place: Place, modifiers: egui::Modifiers) {
        let pos = self.on_screen(place);
        self.harness.hover_at(pos);
        if !modifiers.is_none() {
            self.harness.event(egui::Event::ModifiersChanged(modifiers));
        }
        self.press_at(pos, true, modifiers);
        self.press_at(pos, false, modifiers);
        self.harness
            .event(egui::Event::ModifiersChanged(egui::Modifiers::NONE));
        self.harness.step();
        // Long enough that the next click is no second half of a double one.
        self.harness.run_steps(4);
        self.settle();
    }

    pub(crate) fn double_click(&mut self, place: Place) {
        let pos = self.on_screen(place);
        self.harness.hover_at(pos);
        for is_down in [true, false, true, false] {
            self.press_at(pos, is_down, egui::Modifiers::NONE);
        }
        self.harness.step();
        self.harness.run_steps(4);
        self.settle();
    }

    /// Presses, moves along all places and lets go at the last.
    pub(crate) fn drag(&mut self, places: &[Place]) {
        self.hold_drag(places);
        let last = self.on_screen(*places.last().unwrap());
        self.press_at(last, false, egui::Modifiers::NONE);
        self.harness.step();
        self.harness.run_steps(4);
        self.settle();
    }

    /// Presses and moves along all places without letting go.
    pub(crate) fn hold_drag(&mut self, places: &[Place]) {
        let first = self.on_screen(places[0]);
        self.harness.hover_at(first);
        self.press_at(first, true, egui::Modifiers::NONE);
        for place in &places[1..] {
            self.harness.hover_at(self.on_screen(*place));
        }
        self.harness.step();
    }

    /// Drags with keys held.
    pub(crate) fn drag_with(&mut self, modifiers: egui::Modifiers, places: &[Place]) {
        self.harness.event(egui::Event::ModifiersChanged(modifiers));
        self.drag(places);
        self.harness
            .event(egui::Event::ModifiersChanged(egui::Modifiers::NONE));
        self.settle();
    }

    fn press_at(&self, pos: egui::Pos2, pressed: bool, modifiers: egui::Modifiers) {
        self.harness.event(egui::Event::PointerButton {
            pos,
            button: egui::PointerButton::Primary,
            pressed,
            modifiers,
        });
    }

    /// Presses the button, or picks the row, of this name.
    #[track_caller]
    pub(crate) fn press(&mut self, label: &str) {
        // As a person scrolls to it first, where it lies below the edge.
        self.harness.get_by_label(label).scroll_to_me();
        self.settle();
        self.harness.get_by_label(label).click();
        self.settle();
    }

    /// Puts the cursor into the field of this name, in place of what stands there.
    #[track_caller]
    pub(crate) fn fill(&mut self, label: &str, text: &str) {
        let field = self
            .harness
            .get_by_role_and_label(egui::accesskit::Role::TextInput, label);
        field.click();
        self.settle();
        self.key_with(egui::Modifiers::COMMAND, egui::Key::A);
        self.type_text(text);
    }

    pub(crate) fn type_text(&mut self, text: &str) {
        // One sign at a time, each with its key, as a keyboard sends them.
        for sign in text.chars() {
            let key = egui::Key::from_name(&sign.to_uppercase().to_string());
            if let Some(key) = key {
                self.harness.key_down(key);
            }
            self.harness.event(egui::Event::Text(sign.to_string()));
            if let Some(key) = key {
                self.harness.key_up(key);
            }
        }
        self.settle();
    }

    pub(crate) fn key(&mut self, key: egui::Key) {
        self.harness.key_press(key);
        self.settle();
    }

    pub(crate) fn key_with(&mut self, modifiers: egui::Modifiers, key: egui::Key) {
        self.harness.key_press_modifiers(modifiers, key);
        self.settle();
    }

    /// Lets the window come to rest, and sweeps the farm.
    pub(crate) fn settle(&mut self) {
        self.harness.run();
        self.check_sound();
    }

    /// Waits until the planner has said its last.
    pub(crate) fn wait_for_plan(&mut self) {
        let began = Instant::now();
        while self.desk().planner.is_at_work() {
            assert!(
                began.elapsed() < Duration::from_mins(2),
                "no plan in two minutes"
            );
            std::thread::sleep(Duration::from_millis(10));
            self.harness.step();
        }
        self.settle();
    }

    /// What must hold of every farm at any moment.
    fn check_sound(&self) {
        let desk = self.desk();
        let farm = desk.farm();
        for (id, ground) in &farm.ground {
            assert!(id.0 < farm.next_id, "{id:?} is still to be given out");
            let corners = ground.shape.corners();
            for corner in &corners {
                assert!(
                    corner.east_m.is_finite() && corner.north_m.is_finite(),
                    "{ground:?}"
                );
            }
            assert!(ground.kind.allows(ground.shape.form()), "{ground:?}");
            let least = match &ground.shape {
                Shape::Area(_) => 3,
                Shape::Line(_) => 2,
                Shape::Place(_) => 1,
            };
            assert!(corners.len() >= least, "{ground:?}");
            if let Some(ley) = ground.within {
                assert!(
                    farm.ground.contains_key(&ley),
                    "{} lies within nothing",
                    ground.name
                );
            }
        }
        assert!(desk.selected.iter().all(|id| farm.ground.contains_key(id)));
        for (mob, _) in farm.fixed.keys() {
            assert!(farm.mobs.contains_key(mob));
        }
    }
}
