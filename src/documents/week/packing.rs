//! The packing sheet: which panels travel in which box, bag or bundle, heights and weights against the limits.

use super::cautions;
use super::moments::{height, weight};
use super::names::Names;
use super::stacks::{self, Stack};
use crate::data::Job;
use crate::data::week::{Limit, Pack, PackKind};
use crate::documents::blocks::{Block, Column, Paper, Table};
use crate::documents::frame::Frame;
use crate::documents::{assumptions, wording};
use crate::plan::Plan;
use crate::plan::week::{Carrier, PackedStack, Packing, Parcel, Refusal};

/// The packing sheet; `None` where nothing is packed.
pub(super) fn paper(job: &Job, plan: &Plan) -> Option<Paper> {
    let (pack, packing) = job.week.pack.as_ref().zip(plan.week.packing.as_ref())?;
    let mut paper = Paper::new("packing", "Packing");
    paper.list(false, misfits(plan, pack, packing));
    paper.table(parcels(plan, pack, packing));
    paper.list(false, limits(plan, pack, packing));
    paper.heading("How");
    paper.list(true, how(plan, pack, packing));
    for (at, parcel) in packing.parcels.iter().enumerate() {
        let mut names = Names::new(plan);
        if let Some(drawing) = drawing(&mut names, plan, packing, parcel) {
            let caption =
                format!("{} {}, the stacks seen from above; hatched: fill with padding.", title(pack), at + 1);
            let caption = caption + &names.legend();
            paper.blocks.push(Block::Drawing(drawing, caption));
        }
    }
    paper.caution(cautions::carrying());
    if pack.wet {
        paper.caution(cautions::rags());
    }
    assumptions::add(&mut paper, plan, &["pack"]);
    Some(paper)
}

fn title(pack: &Pack) -> String {
    let word = pack.kind.word();
    format!("{}{}", word[..1].to_uppercase(), &word[1..])
}

fn parcels(plan: &Plan, pack: &Pack, packing: &Packing) -> Table {
    let columns = [Column::right(pack.kind.word()).big(), Column::left("stacks, from the bottom")];
    let mut table = Table::new(columns.into_iter().chain([Column::right("highest"), Column::right("weight")])).ticked();
    for (at, parcel) in packing.parcels.iter().enumerate() {
        let stacks: Vec<String> = parcel.stacks.iter().map(|stack| layers(plan, stack)).collect();
        let highest = parcel.stacks.iter().map(|stack| stack.height).max().unwrap_or_default();
        let highest = if packing.height_unknown { "not known".into() } else { height(highest, plan.units) };
        let weighs = if packing.weight_unknown { "not known".into() } else { weight(parcel.weight, plan.units) };
        table.row([(at + 1).to_string(), stacks.join(" | "), highest, weighs]);
    }
    table
}

fn layers(plan: &Plan, stack: &PackedStack) -> String {
    stack.layers.iter().map(|layer| named(plan, layer)).collect::<Vec<_>>().join(", then ")
}

fn named(plan: &Plan, (panel, count): &(usize, u32)) -> String {
    format!("{count} of {}", plan.panels[*panel].name)
}

/// How many there are, and what is known of fewer.
fn fewest(pack: &Pack, packing: &Packing) -> String {
    let (many, floor) = (u32::try_from(packing.parcels.len()).unwrap_or(u32::MAX), packing.floor);
    let said = match pack.kind {
        PackKind::Box if many != 1 => format!("{many} boxes"),
        kind => wording::counted(many, kind.word()),
    };
    if many == floor {
        return format!("{said}; by weight and room no fewer can hold them.");
    }
    format!(
        "{said}, the largest panels first, each into the first that takes it. Not proved to be the fewest: by weight and room at \
         least {floor}."
    )
}

/// The limits and whether they are kept.
fn limits(plan: &Plan, pack: &Pack, packing: &Packing) -> Vec<String> {
    let mut lines = vec![fewest(pack, packing)];
    if packing.height_unknown {
        lines.push(
            "NO HEIGHT WAS CHECKED for all panels, and stacks are higher than reckoned: give every sheet its `thickness`."
                .into(),
        );
    }
    if let Some(heaviest) = pack.heaviest {
        let limit = weight(heaviest, plan.units);
        lines.push(if packing.weight_unknown {
            format!(
                "The limit of {limit} was not checked for all panels: give every sheet its `thickness` and `density`, then \
                 weigh one panel."
            )
        } else {
            let heaviest = packing.parcels.iter().map(|parcel| parcel.weight).fold(0.0, f64::max);
            format!("Each may weigh {limit}; the heaviest weighs {}.", weight(heaviest, plan.units))
        });
    }
    lines.push("Weights are of panels, canvas, wooden panels and the container; paint, glue and paper are not counted. Weigh it.".into());
    lines.extend(packing.carrier.map(|carrier| carried(plan, carrier)));
    lines
}

fn carried(plan: &Plan, carrier: Carrier) -> String {
    let linear = carrier.linear.say(plan.units);
    let (limit, kept) = match carrier.limit {
        Limit::CheckedBag => {
            ("a checked bag: length + width + height at most 62 in. (158 cm), 50 lb (23 kg)", carrier.keeps)
        }
        Limit::CabinBag => ("a cabin bag: at most 22 x 14 x 9 in. (56 x 36 x 23 cm)", carrier.keeps),
    };
    let verdict = if kept {
        "the inside keeps it, the outside with wheels and handles must too"
    } else {
        "TOO LARGE: the inside alone is over it"
    };
    format!(
        "Usual limit of {limit} (common practice; each airline's own rule holds). Here the sides add up to {linear}: {verdict}."
    )
}

fn how(plan: &Plan, pack: &Pack, packing: &Packing) -> Vec<String> {
    let mut steps = Vec::new();
    if let Some([length, width, height]) = packing.inside {
        let base = format!("{} {}", wording::size(plan, width, length), plan.units.sign());
        steps.push(format!("Stand it so that its base is {base} and {} is the height.", height.say(plan.units)));
    }
    if pack.boards.is_positive() {
        let thick = pack.boards.say(plan.units);
        steps.push(format!(
            "A wooden panel, {thick} thick and as large as the stack, goes at the bottom and the top of each stack."
        ));
    }
    let between = pack.between.say(plan.units);
    steps.push(if pack.wet {
        format!("Wet paint: only one size a stack, spacers of {between} at the edges between all faces, nothing touches paint.")
    } else if pack.between.is_positive() {
        format!("A sheet of paper or waxed paper between all faces ({between} reckoned for each).")
    } else {
        "Panels lie directly on each other.".into()
    });
    steps.push("Tie each stack both ways so that nothing slides; pad corners first.".into());
    steps
}

fn drawing(names: &mut Names, plan: &Plan, packing: &Packing, parcel: &Parcel) -> Option<Frame> {
    let [length, width, _] = packing.inside?;
    let stacks = parcel.stacks.iter().map(|stack| Stack {
        spot: stack.spot,
        layers: stack.layers.clone(),
        high: (!packing.height_unknown).then(|| format!("{} high", height(stack.height, plan.units))),
    });
    Some(stacks::from_above(names, length, width, &stacks.collect::<Vec<_>>()))
}

fn misfits(plan: &Plan, pack: &Pack, packing: &Packing) -> Vec<String> {
    let word = pack.kind.word();
    let line = |panel: usize, count: u32, why: Refusal| {
        let why = match why {
            Refusal::TooLarge => format!("it is larger than the {word} inside, however it lies"),
            Refusal::TooHigh => format!("one of it, with what lies around it, is higher than the {word}"),
            Refusal::TooHeavy => format!("one of it is heavier than the {word} may be"),
        };
        format!("NOT PACKED: {count} of {}: {why}.", plan.panels[panel].name)
    };
    packing.misfits.iter().map(|misfit| line(misfit.panel, misfit.count, misfit.why)).collect()
}
