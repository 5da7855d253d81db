//! The press plan: which panels in which stack, load by load.

use super::cautions;
use super::moments::{duration, height};
use super::names::Names;
use super::stacks::{self, Stack};
use crate::data::Job;
use crate::data::week::{Press, Step};
use crate::documents::blocks::{Block, Column, Paper, Table};
use crate::documents::frame::Frame;
use crate::documents::{assumptions, wording};
use crate::plan::Plan;
use crate::plan::week::lots::lots;
use crate::plan::week::{PressLoad, PressPlan};

/// The press plan; `None` where nothing is pressed.
pub(super) fn paper(job: &Job, plan: &Plan) -> Option<Paper> {
    let (press, pressed) = job.week.press.as_ref().zip(plan.week.press.as_ref())?;
    let mut paper = Paper::new("press", "Gluing and pressing");
    paper.list(true, how(job, press, plan));
    if !pressed.loads.is_empty() {
        paper.heading("Loads");
        paper.table(loads(plan, pressed));
        paper.text(fewest(pressed));
    }
    let mut from = 1;
    for (load, times) in runs(&pressed.loads) {
        let caption = if times == 1 {
            format!("Load {from}, seen from above; hatched: free.")
        } else {
            format!("Loads {from} to {}, each like this, seen from above; hatched: free.", from + times - 1)
        };
        let mut names = Names::new(plan);
        let frame = drawing(&mut names, press, load);
        paper.blocks.push(Block::Drawing(frame, caption + &names.legend()));
        from += times;
    }
    paper.list(false, misfits(plan, pressed));
    paper.list(false, unknown(plan, job));
    paper.caution(cautions::glue());
    paper.heading("The next day");
    paper.list(true, next_day());
    paper.caution(cautions::knife());
    assumptions::add(&mut paper, plan, &["press", "glue"]);
    Some(paper)
}

fn how(job: &Job, press: &Press, plan: &Plan) -> Vec<String> {
    let wait = job.week.calendar.as_ref().and_then(|calendar| calendar.times.get(&Step::Glue)).map(|time| time.wait);
    let leave = match wait {
        Some(wait) => format!("leave it for {}, as the calendar reckons", duration(wait.into())),
        None => "leave it overnight (common practice)".into(),
    };
    vec![
        "Wet out the panel's face to its edges, and the back of the canvas with it; roll from the centre outwards."
            .into(),
        "Lay the canvas on, roll it down from the centre, turn the panel face down on waxed paper.".into(),
        "Stack face down, two by two, one size a stack, waxed paper under every face; edges in line.".into(),
        format!(
            "A flat board of {} {} and weight on top; {leave}.",
            wording::size(plan, press.width, press.length),
            plan.units.sign()
        ),
    ]
}

/// How many loads there are, and what is known of fewer.
fn fewest(pressed: &PressPlan) -> String {
    let many = u32::try_from(pressed.loads.len()).unwrap_or(u32::MAX);
    let said = wording::counted(many, "load");
    if many == pressed.floor {
        format!("{said}; by room and number no fewer can hold them.")
    } else {
        format!("{said} by simple rules, not proved to be the fewest: by room and number at least {}.", pressed.floor)
    }
}

fn next_day() -> Vec<String> {
    [
        "Face down on a clean board, trim the canvas flush along the panel's edges with a fresh blade.",
        "Lift-test the corners; glue down what has come loose, and press it again.",
    ]
    .map(String::from)
    .to_vec()
}

fn runs(loads: &[PressLoad]) -> Vec<(&PressLoad, usize)> {
    let mut runs: Vec<(&PressLoad, usize)> = Vec::new();
    for load in loads {
        match runs.last_mut() {
            Some((last, times)) if *last == load => *times += 1,
            _ => runs.push((load, 1)),
        }
    }
    runs
}

fn loads(plan: &Plan, pressed: &PressPlan) -> Table {
    let columns =
        [Column::right("load").big(), Column::left("stacks"), Column::right("panels"), Column::right("highest")];
    let mut table = Table::new(columns).ticked();
    for (at, load) in pressed.loads.iter().enumerate() {
        let stacks = load.stacks.iter().map(|stack| (stack.panel, stack.count));
        let run = |((panel, count), times): ((usize, u32), u32)| {
            let each = format!("{count} of {}", plan.panels[panel].name);
            if times == 1 { each } else { format!("{times} stacks of {each}") }
        };
        let stacks: Vec<String> = wording::runs(stacks).into_iter().map(run).collect();
        let highest = load.stacks.iter().map(|stack| stack.height).max().unwrap_or_default();
        table.row([(at + 1).to_string(), stacks.join("; "), load.panels.to_string(), height(highest, plan.units)]);
    }
    table
}

fn drawing(names: &mut Names, press: &Press, load: &PressLoad) -> Frame {
    let stacks = load.stacks.iter().map(|stack| Stack {
        spot: stack.spot,
        layers: vec![(stack.panel, stack.count)],
        high: None,
    });
    stacks::from_above(names, press.length, press.width, &stacks.collect::<Vec<_>>())
}

/// Stacks are reckoned too low where a thickness is not known.
fn unknown(plan: &Plan, job: &Job) -> Vec<String> {
    let lots = lots(job, plan);
    let without = lots.iter().filter(|lot| lot.canvas.is_some() && lot.thickness.is_none()).map(|lot| lot.name.clone());
    let without: Vec<String> = without.collect();
    if without.is_empty() {
        return without;
    }
    vec![format!(
        "The thickness of {} is not known: give their sheets a `thickness`, or stacks are higher than told.",
        wording::and(&without)
    )]
}

fn misfits(plan: &Plan, pressed: &PressPlan) -> Vec<String> {
    let line = |panel: usize, why: &str| format!("{} does not fit under the press: {why}.", plan.panels[panel].name);
    let why = |too_large: bool| {
        if too_large { "with its canvas it is larger than the board" } else { "it is thicker than the highest stack" }
    };
    pressed.misfits.iter().map(|misfit| line(misfit.panel, why(misfit.too_large))).collect()
}
