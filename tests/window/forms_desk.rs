//! A window with an invented farm on its desk, and what a person does to a form in it.

use std::time::{Duration, Instant};

use egui::Key;
use egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::{Queryable, by};
use foldcourse::app::desk::Desk;
use foldcourse::app::settings::Settings;
use foldcourse::app::theme;
use foldcourse::app::window::Window;
use foldcourse::farm::{Farm, GroundId};
use foldcourse::files::farm_from_text;
use foldcourse::quantity::Day;

/// A window under test.
pub(crate) struct Bench {
    pub(crate) harness: Harness<'static, Option<Window>>,
}

pub(crate) fn day(year: i16, month: i8, day_of_month: i8) -> Day {
    Day::new(year, month, day_of_month).expect("a day of the calendar")
}

/// An invented farm of the tests' own, with a season short enough to be planned at once.
pub(crate) fn short_example() -> Farm {
    let text = include_str!("hollin-fold.ron");
    let mut farm = farm_from_text(text, "hollin-fold.ron").expect("the farm is sound");
    farm.season.days = 60;
    farm
}

impl Bench {
    /// A window with this farm, on 9 May 2027.
    pub(crate) fn with(farm: Farm) -> Self {
        let desk = Desk::new(farm, None, day(2027, 5, 9), Settings::default());
        let mut desk = Some(desk);
        let mut harness = Harness::builder()
            // Tall, so that no field is below the edge.
            .with_size([1440.0, 3000.0])
            .with_context_setup(theme::install)
            .build_ui_state(
                move |ui, window: &mut Option<Window>| {
                    let window = window.get_or_insert_with(|| {
                        Window::new(ui.ctx(), desk.take().expect("one window"))
                    });
                    window.logic(ui.ctx());
                    window.ui(ui);
                },
                None,
            );
        harness.run_steps(3);
        Self { harness }
    }

    pub(crate) fn example() -> Self {
        Self::with(short_example())
    }

    pub(crate) fn desk(&self) -> &Desk {
        &self.harness.state().as_ref().expect("a window").desk
    }

    pub(crate) fn desk_mut(&mut self) -> &mut Desk {
        &mut self.harness.state_mut().as_mut().expect("a window").desk
    }

    pub(crate) fn farm(&self) -> &Farm {
        self.desk().farm()
    }

    pub(crate) fn steps(&self) -> usize {
        self.desk().history.steps_done()
    }

    pub(crate) fn ground(&self, name: &str) -> GroundId {
        let found = self
            .farm()
            .ground
            .iter()
            .find(|(_, ground)| ground.name == name);
        *found.expect("ground of that name").0
    }

    pub(crate) fn select(&mut self, name: &str) {
        let id = self.ground(name);
        self.desk_mut().select_only(id);
        self.harness.run_steps(3);
    }

    pub(crate) fn key(&mut self, key: Key) {
        self.harness.key_press(key);
        self.harness.run_steps(3);
    }

    /// Brings a day into view.
    pub(crate) fn go_to(&mut self, day: Day) {
        self.desk_mut().day = day;
        self.harness.run_steps(3);
    }

    pub(crate) fn undo(&mut self) {
        self.harness
            .key_press_modifiers(egui::Modifiers::COMMAND, Key::Z);
        self.harness.run_steps(3);
    }

    pub(crate) fn press(&mut self, label: &str) {
        // A plan that comes in moves what stands below its figures.
        self.wait_for_plan();
        self.harness.run_steps(1);
        self.harness.get_by_label(label).click();
        self.harness.run_steps(3);
    }

    /// Presses what bears this label and came last, as the rows of a choice that was opened.
    pub(crate) fn press_last(&mut self, label: &str) {
        let last = self.harness.get_all_by_label(label).last();
        last.expect("something bears the label").click();
        self.harness.run_steps(3);
    }

    fn field<'bench>(&'bench self, label: &'bench str) -> egui_kittest::Node<'bench> {
        let wanted = by()
            .label(label)
            .predicate(|node| matches!(node.role(), Role::TextInput | Role::MultilineTextInput));
        self.harness.get(wanted)
    }

    /// Goes to a field and types into it, without leaving it.
    pub(crate) fn type_into(&mut self, label: &str, text: &str) {
        self.field(label).focus();
        self.harness.run_steps(2);
        // An empty text is typed by clearing what is selected on arrival.
        if text.is_empty() {
            self.harness.key_press(Key::Backspace);
        } else {
            self.field(label).type_text(text);
        }
        self.harness.run_steps(2);
    }

    /// Types into a field and presses Enter.
    pub(crate) fn enter(&mut self, label: &str, text: &str) {
        self.type_into(label, text);
        self.key(Key::Enter);
    }

    pub(crate) fn value(&self, label: &str) -> String {
        self.field(label).value().unwrap_or_default()
    }

    pub(crate) fn shows(&self, text: &str) -> bool {
        self.harness.query_by_label_contains(text).is_some()
    }

    /// Typing this makes one step, asks for a new plan, and undo takes it back.
    pub(crate) fn makes_one_step(&mut self, label: &str, text: &str) {
        self.wait_for_plan();
        let (before, steps) = (self.farm().clone(), self.steps());
        self.enter(label, text);
        assert_eq!(self.steps(), steps + 1, "{label}: one step for {text:?}");
        assert!(*self.farm() != before, "{label}: {text:?} changes the farm");
        self.harness
            .key_press_modifiers(egui::Modifiers::COMMAND, Key::Z);
        self.harness.run_steps(3);
        assert!(*self.farm() == before, "{label}: undo takes {text:?} back");
        self.harness
            .key_press_modifiers(egui::Modifiers::COMMAND | egui::Modifiers::SHIFT, Key::Z);
        self.harness.run_steps(3);
        assert_eq!(self.steps(), steps + 1, "{label}: and makes it again");
    }

    /// Typing this changes nothing and says why.
    pub(crate) fn refuses(&mut self, label: &str, text: &str, why: &str) {
        let (before, steps) = (self.farm().clone(), self.steps());
        self.enter(label, text);
        assert!(*self.farm() == before, "{label}: {text:?} leaves the farm");
        assert_eq!(self.steps(), steps, "{label}: {text:?} makes no step");
        let said = self.desk().forms.refusal_text().unwrap_or("nothing");
        assert!(said.contains(why), "{label}: {text:?} says {said:?}");
        assert!(self.shows(why), "{label}: the words are on screen");
        self.key(Key::Escape);
    }

    pub(crate) fn wait_for_plan(&mut self) {
        let begun = Instant::now();
        while self.desk().planner.is_at_work() {
            assert!(begun.elapsed() < Duration::from_mins(2), "a plan in time");
            std::thread::sleep(Duration::from_millis(20));
            self.harness.run_steps(1);
        }
    }
}
