//! Everything the window knows: the farm with its history, the day in view, what is selected, the tool in hand.
//!
//! Paints nothing. Panels read it and send commands; the farm changes only through its history.

use std::collections::BTreeSet;
use std::path::PathBuf;
use std::sync::Arc;

use super::asking::Asking;
use super::dialogs::Dialog;
use super::file_chooser::FileChooser;
use super::finder::Finder;
use super::forms::FormState;
use super::in_hand::InHand;
use super::live::Live;
use super::map::{GroundView, KeptLabels, MapCache, MapCells, PaintedBy, Snapping};
use super::panels::ground_rows::KeptList;
use super::planner::Planner;
use super::reckoned::Reckoned;
use super::settings::Settings;
use super::taping::Taping;
use super::tools::{Scene, Tool};
use crate::farm::{
    BuiltSums, Edit, Farm, Finding, FindingCode, Ground, GroundId, GroundMeasures, History, Kind,
    Neighbourhood, Touched,
};
use crate::geometry::Point;
use crate::planning::SeasonPlan;
use crate::quantity::{Day, UnitSystem};

/// The state of the window.
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a switch of its own, none excludes another"
)]
pub struct Desk {
    /// The farm and every step that led to it.
    pub history: History,
    /// Where it is saved.
    pub path: Option<PathBuf>,
    /// The one date of the window.
    pub day: Day,
    /// The day on the wall, as handed in.
    pub today: Day,
    /// What is selected.
    pub selected: BTreeSet<GroundId>,
    /// The tool in hand.
    pub tool: Tool,
    /// What an outline drawn now becomes.
    pub area_kind: Kind,
    /// What a line drawn now becomes.
    pub line_kind: Kind,
    /// Where the map looks.
    pub view: GroundView,
    /// Whether the view must be fitted once the map's size is known.
    pub wants_fit: bool,
    /// Whether the view is still as it was fitted, so that it follows the map's size.
    pub is_fitted: bool,
    /// What the pointer is over, on the ground.
    pub pointer: Option<Point>,
    /// Where the pointer was last on the ground, kept while it is elsewhere.
    pub last_pointer: Option<Point>,
    /// Figures being typed while something is drawn.
    pub entry: Option<super::entry::Entry>,
    /// The last plan that was found.
    pub plan: Option<Arc<SeasonPlan>>,
    /// Why there is no plan, in a sentence.
    pub plan_trouble: Option<String>,
    /// The planner at work.
    pub planner: Planner,
    /// What is being dragged while the season follows, and the plan that stays.
    pub live: Live,
    /// What is being dragged on the map, measured as it lies in the hand.
    pub in_hand: InHand,
    /// The question under way and the last answer.
    pub asking: Asking,
    /// The file chooser, where one is open.
    pub chooser: FileChooser,
    /// Remembered settings.
    pub settings: Settings,
    /// A sentence for the person, shown until the next act.
    pub notice: Option<Notice>,
    /// The question on screen.
    pub dialog: Option<Dialog>,
    /// What goes on once the farm is saved under a name.
    pub held_up: Option<super::dialogs::After>,
    /// The command finder, where it is open.
    pub finder: Option<Finder>,
    /// The page that is open beside the map, and what is being typed.
    pub forms: FormState,
    /// The page of what was measured on the ground.
    pub taping: Taping,
    /// The filter of the ground list.
    pub filter: String,
    /// What the ground list lists.
    pub ground_list: KeptList,
    /// Whether the window may close without asking.
    pub may_close: bool,
    /// Whether the window should close at the next frame.
    pub wants_close: bool,
    /// Where the pointer snaps to.
    pub snapping: Snapping,
    /// Whether a corner moves alone, leaving the neighbours' corners there behind.
    pub holds_apart: bool,
    /// Kinds that the map does not show now.
    pub hidden: BTreeSet<Kind>,
    /// Drawn marks, kept until the ground changes.
    pub map_cache: MapCache,
    /// Drawn triangles, kept while only the view moves.
    pub map_cells: MapCells,
    /// The day and plan that the grass on it was drawn by.
    pub map_painted: Option<PaintedBy>,
    /// Where names stand on the map, kept likewise.
    pub map_labels: KeptLabels,
    /// What was selected first of what is selected now: it gives its name where several become one.
    pub first_selected: Option<GroundId>,
    reckoned: Reckoned,
}

/// A sentence for the person.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Notice {
    /// What to say.
    pub text: String,
    /// Whether something went wrong.
    pub is_trouble: bool,
}

impl Desk {
    /// A desk with a farm on it.
    pub fn new(farm: Farm, path: Option<PathBuf>, today: Day, settings: Settings) -> Self {
        let mut desk = Self {
            history: History::new(farm),
            path: None,
            day: today,
            today,
            selected: BTreeSet::new(),
            tool: Tool::default(),
            area_kind: Kind::Plot,
            line_kind: Kind::Fence,
            view: GroundView::default(),
            wants_fit: true,
            is_fitted: true,
            pointer: None,
            last_pointer: None,
            entry: None,
            plan: None,
            plan_trouble: None,
            planner: Planner::default(),
            live: Live::default(),
            in_hand: InHand::default(),
            asking: Asking::default(),
            chooser: FileChooser::default(),
            settings,
            notice: None,
            dialog: None,
            held_up: None,
            finder: None,
            forms: FormState::default(),
            taping: Taping::default(),
            filter: String::new(),
            ground_list: KeptList::default(),
            may_close: false,
            wants_close: false,
            snapping: Snapping::default(),
            holds_apart: false,
            hidden: BTreeSet::new(),
            map_cache: MapCache::default(),
            map_cells: MapCells::default(),
            map_painted: None,
            map_labels: KeptLabels::default(),
            first_selected: None,
            reckoned: Reckoned::default(),
        };
        let farm = desk.history.farm().clone();
        desk.put_on(farm, path);
        desk
    }

    /// The farm as it stands.
    pub fn farm(&self) -> &Farm {
        self.history.farm()
    }

    /// Puts another farm on the desk, with nothing to undo.
    pub fn put_on(&mut self, farm: Farm, path: Option<PathBuf>) {
        let season = farm.season;
        self.day = self.today.clamp(season.first_day, season.last_day());
        self.history = History::new(farm);
        self.path = path;
        self.selected.clear();
        self.tool = Tool::default();
        self.wants_fit = true;
        self.plan = None;
        self.live = Live::default();
        self.dialog = None;
        self.forms = FormState::default();
        self.taping = Taping::default();
        self.filter.clear();
        self.map_cache = MapCache::default();
        self.map_cells = MapCells::default();
        let all = Touched {
            ground: self.farm().ground.keys().copied().collect(),
            season: true,
        };
        self.reckoned.begin_anew();
        self.snapping.forget_all();
        self.renew(&all);
    }

    /// Puts what is to be mended about the hens' walks behind the findings of the farm.
    pub fn note_hen_findings(&mut self, plan: &SeasonPlan) {
        let findings = &mut self.reckoned.findings;
        findings.retain(|finding| finding.code != FindingCode::HenRound);
        findings.extend(plan.hen_findings.iter().cloned());
    }

    /// Makes one step of the history and renews what follows from it.
    pub fn commit(&mut self, label: &str, edits: Vec<Edit>) {
        match self.history.commit(label, edits) {
            Ok(touched) => {
                self.notice = None;
                self.renew(&touched);
            }
            Err(error) => self.tell_trouble(error.to_string()),
        }
    }

    /// Changes one piece of ground in one step.
    pub fn change_ground(&mut self, id: GroundId, label: &str, change: impl FnOnce(&mut Ground)) {
        let Some(old) = self.farm().ground.get(&id).cloned() else {
            return;
        };
        let mut new = old.clone();
        change(&mut new);
        self.commit(label, vec![Edit::change_ground(id, &old, new)]);
    }

    /// Takes the last step back and shows what changed.
    pub fn undo(&mut self) {
        match self.history.undo() {
            Some((label, touched)) => {
                self.tell(format!("Undone: {label}"));
                self.show_touched(&touched);
            }
            None => self.tell("Nothing to undo.".to_owned()),
        }
    }

    /// Takes every step back; each can be made again.
    pub fn undo_all(&mut self) {
        let mut count = 0u64;
        let mut touched_all = Touched::default();
        while let Some((_, touched)) = self.history.undo() {
            count += 1;
            touched_all.ground.extend(touched.ground);
            touched_all.season |= touched.season;
        }
        touched_all.ground.sort_unstable();
        touched_all.ground.dedup();
        self.renew(&touched_all);
        self.tell(format!(
            "{} undone; redo makes them again.",
            crate::quantity::plural_text(count, "step", "steps")
        ));
    }

    /// Makes the next undone step again and shows what changed.
    pub fn redo(&mut self) {
        match self.history.redo() {
            Some((label, touched)) => {
                self.tell(format!("Done again: {label}"));
                self.show_touched(&touched);
            }
            None => self.tell("Nothing to do again.".to_owned()),
        }
    }

    fn show_touched(&mut self, touched: &Touched) {
        self.renew(touched);
        let still_there: BTreeSet<GroundId> = touched
            .ground
            .iter()
            .copied()
            .filter(|id| self.farm().ground.contains_key(id))
            .collect();
        if !touched.ground.is_empty() {
            self.selected = still_there;
        }
    }

    /// Says something to the person.
    pub fn tell(&mut self, text: String) {
        self.notice = Some(Notice {
            text,
            is_trouble: false,
        });
    }

    /// Says that something went wrong.
    pub fn tell_trouble(&mut self, text: String) {
        self.notice = Some(Notice {
            text,
            is_trouble: true,
        });
    }

    /// Selects one thing.
    pub fn select_only(&mut self, id: GroundId) {
        self.selected = BTreeSet::from([id]);
    }

    /// The one thing that is selected, where it is one.
    pub fn selected_one(&self) -> Option<(GroundId, &Ground)> {
        let id = *self.selected.first()?;
        if self.selected.len() > 1 {
            return None;
        }
        self.farm().ground.get(&id).map(|ground| (id, ground))
    }

    /// Goes to a day.
    pub fn go_to(&mut self, day: Day) {
        self.day = day;
    }

    /// Takes in what is being dragged; true where that is other than before.
    pub fn note_in_hand(&mut self) -> bool {
        let farm = self.history.farm();
        self.in_hand.renew(farm, &self.tool)
    }

    /// The measures of a piece of ground, as it lies in the hand where it is being dragged.
    pub fn measures(&self, id: GroundId) -> GroundMeasures {
        let in_hand = self.in_hand.measures(id);
        in_hand.unwrap_or_else(|| self.reckoned.measures(id))
    }

    /// What follows from what is built or planted on a piece of ground, where something is.
    pub fn built(&self, id: GroundId) -> Option<&BuiltSums> {
        self.reckoned.built(id)
    }

    /// How the pieces lie to each other: overlaps, gaps, net areas.
    pub fn neighbourhood(&self) -> &Neighbourhood {
        &self.reckoned.neighbourhood
    }

    /// Notes which of several selected pieces was selected first.
    pub fn note_first_selected(&mut self) {
        let is_still = |id: GroundId| self.selected.contains(&id);
        if !self.first_selected.is_some_and(is_still) {
            self.first_selected = self.selected.first().copied();
        }
    }

    /// What is to be known or mended on the farm.
    pub fn findings(&self) -> &[Finding] {
        &self.reckoned.findings
    }

    /// What follows from the farm as it stands.
    pub fn reckoned(&self) -> &Reckoned {
        &self.reckoned
    }

    /// The units in use.
    pub fn units(&self) -> UnitSystem {
        self.settings.units
    }

    /// What tools may look at.
    pub fn scene(&self) -> Scene<'_> {
        Scene {
            farm: self.history.farm(),
            selected: &self.selected,
            reach_m: self.view.m_per_point * 8.0,
            area_kind: self.area_kind,
            line_kind: self.line_kind,
            holds_apart: self.holds_apart,
            hidden: &self.hidden,
            neighbourhood: &self.reckoned.neighbourhood,
        }
    }

    /// The name in the title: the farm's, and whether it is saved.
    pub fn saved_text(&self) -> &'static str {
        match (&self.path, self.history.is_unsaved()) {
            (_, true) => "not saved",
            (None, false) => "example",
            (Some(_), false) => "saved",
        }
    }

    /// Brings measures, findings, drawn marks and the plan up to date with what was touched.
    fn renew(&mut self, touched: &Touched) {
        for id in &touched.ground {
            self.map_cache.forget(*id);
            self.snapping.forget(*id);
            if !self.history.farm().ground.contains_key(id) {
                self.selected.remove(id);
            }
        }
        self.forget_cells(touched);
        let were_cut = self.reckoned.cut().clone();
        self.reckoned.renew(self.history.farm(), touched);
        // A season colours all ground, and a ley that is cut or whole again is another sight all over.
        if touched.season || *self.reckoned.cut() != were_cut {
            self.map_cells.forget_all();
        }
        self.forget_cells(touched);
        if !touched.ground.is_empty() || touched.season {
            self.live.let_go();
            self.asking.call_off();
            self.asking.answer = None;
            let before = self.live.settled.clone();
            self.planner.ask(self.history.farm(), before, self.today);
        }
    }

    /// Drops what is drawn where touched ground lies.
    fn forget_cells(&mut self, touched: &Touched) {
        for id in &touched.ground {
            if let Some(bounds) = self.reckoned.neighbourhood.bounds(*id) {
                let widest_m = self.reckoned.widest_m();
                self.map_cells.forget_in(bounds, widest_m);
            }
        }
    }
}
