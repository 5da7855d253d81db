//! After the yard: the crosscuts planned again from the strips really on hand, at the best worth; which panels cannot
//! be made of them any more, and the cheapest way to make those good from new sheets.

use super::missing_at_a_price;
use super::{Claim, Note, Plan, Stage, check, distrusted, end_sizes, lay_out};
use crate::data::{Cents, Fault, Job, Panel, RipWidths, StripOnHand, Week, Yard};
use crate::length::Length;
use crate::model;
use crate::solve::{PieceCut, Proof, Share, Solved, StripUse, Watch, solve};

/// What becomes of a job with the strips really on hand.
#[derive(Clone, Debug, PartialEq)]
pub struct Recut {
    /// The part of the job that these strips do, and its plan; nothing where they give no panel.
    pub done: Option<Done>,
    /// Panels that they do not give, in the job's order.
    pub missing: Vec<Missing>,
    /// Strips wider than their panels by no more than the yard's tolerance, whose panels come out so wide.
    pub over: Vec<Over>,
    /// Strips that nothing is cut from.
    pub unused: Vec<Unused>,
    /// Those made good from new sheets, or why that cannot be; nothing where none is missing.
    pub good: Option<Result<Done, Vec<Fault>>>,
}

/// A job and the plan for it.
#[derive(Clone, Debug, PartialEq)]
pub struct Done {
    /// The job that the plan is for: only the panel lines that it makes.
    pub job: Job,
    /// The plan.
    pub plan: Plan,
}

/// Panels of one line that cannot be made any more.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Missing {
    /// Index into [`Job::panels`] of the job that was to be done.
    pub panel: usize,
    /// The line's name.
    pub name: String,
    /// How many.
    pub count: u32,
}

/// Strips on hand that are wider than the side of their panels, by no more than the yard's tolerance.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Over {
    /// The strips as measured.
    pub strip: StripOnHand,
    /// By how much.
    pub by: Length,
}

/// Strips on hand that nothing is cut from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unused {
    /// The strips, with as many as are left.
    pub strip: StripOnHand,
    /// Whether some panel of the job could be cut from one.
    pub fits: bool,
    /// By how much it is too wide for the first panel that a narrower one would give.
    pub too_wide: Option<Length>,
}

/// A strip's letter in the plan that the yard cut, with what is known about its wood.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lettered {
    /// The letter.
    pub letter: String,
    /// The sheet kind, as an index into [`Job::sheets`].
    pub sheet: Option<usize>,
    /// Whether the face grain runs along it.
    pub grain_along: bool,
}

/// Gives measured strips that bear a letter of the plan, and no sheet kind of their own, the wood of that letter.
pub fn recognise(strips: &mut [StripOnHand], lettered: &[Lettered]) {
    for strip in strips.iter_mut().filter(|strip| strip.sheet.is_none()) {
        let named = |known: &&Lettered| known.letter.eq_ignore_ascii_case(strip.name.trim());
        if let Some(known) = lettered.iter().find(named) {
            (strip.sheet, strip.grain_along) = (known.sheet, known.grain_along);
        }
    }
}

/// Plans a job's crosscuts again from these strips alone; what they do not give is made good from new sheets.
///
/// # Errors
/// A plan that fails the program's own check.
pub fn recut(job: &Job, strips: Vec<StripOnHand>, watch: &dyn Watch) -> Result<Recut, Vec<Fault>> {
    let (strips, over) = within_the_tolerance(job, strips);
    let best = Best::of(job, strips.clone(), &Share::part(SHARE_OF_THE_STRIPS, watch))?;
    let missing = best.missing();
    let done = best.done().map(by_worth).transpose()?.map(|done| told(done, &over, &missing));
    let good = (!missing.is_empty()).then(|| make_good(job, &missing, watch));
    Ok(Recut { done, missing, over, unused: best.unused(strips), good })
}

/// The strips, those of them that are too wide within the yard's tolerance counted as wide as their panels; and these.
fn within_the_tolerance(job: &Job, strips: Vec<StripOnHand>) -> (Vec<StripOnHand>, Vec<Over>) {
    let mut over = Vec::new();
    let counted = strips.into_iter().map(|strip| {
        let Some(by) = over_size(job, strip.width) else { return strip };
        over.push(Over { strip: strip.clone(), by });
        StripOnHand { width: strip.width - by, ..strip }
    });
    (counted.collect(), over)
}

/// By how much a strip so wide is over the widest side that the yard's tolerance makes it pass for; nothing where it
/// suits a side as it is, or where panels are trimmed to width at home.
fn over_size(job: &Job, width: Length) -> Option<Length> {
    let sides = || job.panels.iter().flat_map(|panel| [(panel.width, panel.scant), (panel.height, panel.scant)]);
    let suits = sides().any(|(side, scant)| side - scant <= width && width <= side);
    let passes = |side: &Length| *side < width && width <= *side + job.yard.tolerance;
    let widest = sides().map(|(side, _)| side).filter(passes).max();
    widest.filter(|_| !suits && !job.saw.trims).map(|side| width - side)
}

/// Part of the time for the strips on hand; the rest is for what must be made good.
const SHARE_OF_THE_STRIPS: f64 = 0.5;

/// The answer of most worth from the strips on hand.
struct Best<'a> {
    job: &'a Job,
    /// The same job with these strips and no sheets.
    bare: Job,
    /// The strips' uses, their panels by the lines of `job`.
    used: Vec<StripUse>,
    /// Whether nothing is worth more.
    proved: bool,
}

impl<'a> Best<'a> {
    fn of(job: &'a Job, strips: Vec<StripOnHand>, watch: &dyn Watch) -> Result<Self, Vec<Fault>> {
        let bare = missing_at_a_price::without_yard(job, strips);
        let lines: Vec<usize> = (0..job.panels.len()).filter(|line| can_be_made(&bare, *line)).collect();
        let priced = missing_at_a_price::job(&bare, &lines);
        let solved = if lines.is_empty() { None } else { Some(solve(&priced, watch)?) };
        let proved =
            solved.as_ref().is_some_and(|solved| solved.proof.proved) && missing_at_a_price::exact(&bare, &lines);
        let mut used = solved.map_or_else(Vec::new, |solved| solved.on_hand);
        for piece in used.iter_mut().flat_map(|used| &mut used.pieces) {
            *piece = PieceCut { panel: lines[piece.panel], ..*piece };
        }
        Ok(Best { job, bare, used, proved })
    }

    /// How many of a line are made.
    fn made(&self, line: usize) -> u32 {
        let of = |used: &StripUse| {
            let pieces = used.pieces.iter().filter(|piece| piece.panel == line).count();
            used.count * u32::try_from(pieces).expect("a strip has few pieces")
        };
        self.used.iter().map(of).sum()
    }

    fn missing(&self) -> Vec<Missing> {
        let lines = self.job.panels.iter().enumerate();
        let short =
            lines.map(|(panel, line)| Missing { panel, name: line.name.clone(), count: line.count - self.made(panel) });
        short.filter(|missing| missing.count > 0).collect()
    }

    /// The strips that nothing is cut from.
    fn unused(&self, strips: Vec<StripOnHand>) -> Vec<Unused> {
        let gives = |at: usize, width: Length| {
            let strip = StripOnHand { count: 1, width, ..self.bare.strips[at].clone() };
            let only = Job { strips: vec![strip], ..self.bare.clone() };
            let crossed = self.job.saw.crosses.is_none_or(|limit| width <= limit);
            crossed && (0..self.job.panels.len()).any(|line| can_be_made(&only, line))
        };
        let left = |(at, strip): (usize, StripOnHand)| {
            let used: u32 = self.used.iter().filter(|used| used.strip == at).map(|used| used.count).sum();
            let fits = gives(at, strip.width);
            let sides = self.job.panels.iter().flat_map(|panel| [panel.width, panel.height]);
            let narrower = sides.filter(|side| *side < strip.width && gives(at, *side)).max();
            let too_wide = if fits { None } else { narrower.map(|side| strip.width - side) };
            Unused { strip: StripOnHand { count: strip.count - used, ..strip }, fits, too_wide }
        };
        strips.into_iter().enumerate().map(left).filter(|unused| unused.strip.count > 0).collect()
    }

    /// The job that these strips do, and its answer: only the lines of which something is made.
    fn done(&self) -> Option<(Job, Solved)> {
        let lines: Vec<usize> = (0..self.job.panels.len()).filter(|line| self.made(*line) > 0).collect();
        if lines.is_empty() {
            return None;
        }
        let panel = |line: &usize| Panel { count: self.made(*line), extra: 0, ..self.job.panels[*line].clone() };
        let panels = lines.iter().map(panel).collect();
        let mut on_hand = self.used.clone();
        for piece in on_hand.iter_mut().flat_map(|used| &mut used.pieces) {
            piece.panel = lines.iter().position(|line| *line == piece.panel).expect("made lines only");
        }
        let proof = Proof { proved: self.proved, bound: Cents::ZERO };
        // The strips are cut already: what the yard would rip does not bear on their panels.
        let (narrowest, tolerance) = (Length::from_raw(1), Length::ZERO);
        let yard = Yard { rip_widths: RipWidths::Any, narrowest, tolerance, ..self.job.yard.clone() };
        let job = Job { panels, yard, strips: self.bare.strips.clone(), week: Week::default(), ..self.job.clone() };
        Some((job, Solved { sheets: Vec::new(), on_hand, cost: Cents::ZERO, proof, levels: Vec::new() }))
    }
}

fn can_be_made(job: &Job, line: usize) -> bool {
    let alone = Job { panels: vec![job.panels[line].clone()], ..job.clone() };
    model::build(&alone).is_ok()
}

fn planned((job, solved): (Job, Solved)) -> Result<Done, Vec<Fault>> {
    let plan = lay_out(&job, &solved);
    check(&job, &plan).map_err(|violations| vec![distrusted(&violations)])?;
    Ok(Done { job, plan })
}

/// The plan for strips on hand: they cost nothing, so its proof is about what they give.
fn by_worth(answer: (Job, Solved)) -> Result<Done, Vec<Fault>> {
    let done = planned(answer)?;
    Ok(Done { plan: Plan { claim: Claim::Worth, ..done.plan }, ..done })
}

/// The plan with what those at the saw must know of strips that are a little too wide, and of panels that do not come.
fn told(mut done: Done, over: &[Over], missing: &[Missing]) -> Done {
    let units = done.job.units;
    let note = |Over { strip, by }: &Over| {
        let (name, width) = (strip.name.as_str(), strip.width.say(units));
        let text = format!(
            "Strip {name} is {width} wide as measured: what is cut from it comes out {} over size, within the yard's tolerance.",
            by.say(units)
        );
        Note { stage: Stage::Saw, text }
    };
    done.plan.notes.extend(over.iter().map(note));
    if !missing.is_empty() {
        let lines: Vec<String> = missing.iter().map(|line| format!("{} of {}", line.count, line.name)).collect();
        let text = format!("These strips do not give all that the job wants; missing: {}.", lines.join(", "));
        done.plan.notes.push(Note { stage: Stage::Saw, text });
    }
    done
}

/// The missing panels from new sheets.
fn make_good(job: &Job, missing: &[Missing], watch: &dyn Watch) -> Result<Done, Vec<Fault>> {
    let panel = |missing: &Missing| Panel { count: missing.count, extra: 0, ..job.panels[missing.panel].clone() };
    let panels = missing.iter().map(panel).collect();
    let job = Job { panels, strips: Vec::new(), week: Week::default(), ..job.clone() };
    let solved = solve(&job, watch)?;
    let done = planned((job, solved))?;
    Ok(Done { plan: end_sizes::better(&done.job, done.plan, watch), job: done.job })
}
