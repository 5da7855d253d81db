//! The later aims of tiny jobs, held against every plan that there is: all strips, all sheets of strips, all pairs of
//! sheets, counted by rules that are written here a second time.

use crate::jobs::{len, panel, sheet, small_job};
use crate::made_up_jobs::settings;
use proptest::prelude::*;
use proptest::sample::select;
use std::collections::{BTreeMap, BTreeSet};
use yardslip::data::{Cents, Job, Keeper};
use yardslip::length::Length;
use yardslip::plan::{check, lay_out};
use yardslip::solve::{Aim, Patient, solve};

/// Panels of each line, and what offcuts are kept for.
type Yield = (Vec<u32>, i64);

/// A strip cut in one way.
#[derive(Clone)]
struct Cut {
    width: Length,
    made: Vec<u32>,
    kept: i64,
    lengths: BTreeSet<Length>,
}

/// A sheet, or several: its strips' widths sheet by sheet, and the lengths they are cut to.
type Face = (BTreeSet<Vec<Length>>, BTreeSet<Length>);

/// What a plan has of each aim: worth, layouts and widths, settings.
type Reached = (i64, i64, i64);

fn kept(job: &Job, width: Length, length: Length) -> i64 {
    let fits = |keeper: &&Keeper| {
        (keeper.width <= width && keeper.length <= length) || (keeper.length <= width && keeper.width <= length)
    };
    job.keepers.iter().filter(fits).map(|keeper| keeper.worth.0).max().unwrap_or(0)
}

/// Every way to cut a strip of this width into panels that are wanted or welcome.
fn cuts(job: &Job, width: Length) -> Vec<Cut> {
    let lies: Vec<(usize, Length)> = job
        .panels
        .iter()
        .enumerate()
        .flat_map(|(line, panel)| {
            let upright = (panel.width == width).then_some((line, panel.height));
            let turned = (panel.height == width && panel.height != panel.width).then_some((line, panel.width));
            upright.into_iter().chain(turned)
        })
        .collect();
    let mut cuts = Vec::new();
    let blank = Cut { width, made: vec![0; job.panels.len()], kept: 0, lengths: BTreeSet::new() };
    add_pieces(job, &lies, job.sheets[0].length, &blank, &mut cuts);
    cuts
}

/// Lengthens a strip's cuts by every further piece; `left` is the length not cut yet.
fn add_pieces(job: &Job, lies: &[(usize, Length)], left: Length, so_far: &Cut, cuts: &mut Vec<Cut>) {
    for (at, (line, along)) in lies.iter().enumerate() {
        let panel = &job.panels[*line];
        if *along > left || so_far.made[*line] == panel.count + panel.extra {
            continue;
        }
        let mut longer = so_far.clone();
        longer.made[*line] += 1;
        longer.lengths.insert(*along);
        let left = left - *along - job.saw.kerf;
        longer.kept = kept(job, so_far.width, left);
        cuts.push(longer.clone());
        if left.is_positive() {
            add_pieces(job, &lies[at..], left, &longer, cuts);
        }
    }
}

/// Every sheet: the best kept of each yield and face.
fn sheets(job: &Job) -> BTreeMap<(Vec<u32>, Face), i64> {
    let widths: BTreeSet<Length> = job.panels.iter().flat_map(|panel| [panel.width, panel.height]).collect();
    let cuts: Vec<Cut> = widths.into_iter().flat_map(|width| cuts(job, width)).collect();
    let mut sheets = BTreeMap::new();
    let none = (vec![0; job.panels.len()], 0);
    add_strips(job, &cuts, job.sheets[0].width, &(none, Vec::new(), BTreeSet::new()), &mut sheets);
    sheets
}

fn add_strips(
    job: &Job,
    cuts: &[Cut],
    left: Length,
    (so_far, widths, lengths): &(Yield, Vec<Length>, BTreeSet<Length>),
    sheets: &mut BTreeMap<(Vec<u32>, Face), i64>,
) {
    for (at, cut) in cuts.iter().enumerate() {
        let made: Vec<u32> = so_far.0.iter().zip(&cut.made).map(|(one, other)| one + other).collect();
        let wanted = made.iter().zip(&job.panels).all(|(made, panel)| *made <= panel.count + panel.extra);
        if cut.width > left || !wanted {
            continue;
        }
        let left = left - cut.width - job.yard.kerf;
        let widths: Vec<Length> = widths.iter().copied().chain([cut.width]).collect();
        let lengths: BTreeSet<Length> = lengths.union(&cut.lengths).copied().collect();
        let strips = so_far.1 + cut.kept;
        let worth = strips + kept(job, left, job.sheets[0].length);
        let best = sheets.entry((made.clone(), (BTreeSet::from([widths.clone()]), lengths.clone()))).or_insert(worth);
        *best = worth.max(*best);
        if left.is_positive() {
            add_strips(job, &cuts[at..], left, &((made, strips), widths, lengths), sheets);
        }
    }
}

/// What every plan of so many sheets reaches.
fn all_plans(job: &Job, count: u32) -> BTreeSet<Reached> {
    let one = sheets(job);
    let mut plans = one.clone();
    for _ in 1..count {
        let mut more = BTreeMap::new();
        for ((made, (faces, lengths)), worth) in &plans {
            for ((also, (face, also_lengths)), and) in &one {
                let made: Vec<u32> = made.iter().zip(also).map(|(one, other)| one + other).collect();
                if made.iter().zip(&job.panels).all(|(made, panel)| *made <= panel.count + panel.extra) {
                    let faces = faces.union(face).cloned().collect();
                    let lengths = lengths.union(also_lengths).copied().collect();
                    let best = more.entry((made, (faces, lengths))).or_insert(worth + and);
                    *best = (*best).max(worth + and);
                }
            }
        }
        plans = more;
    }
    let enough = |made: &[u32]| made.iter().zip(&job.panels).all(|(made, panel)| *made >= panel.count);
    plans.iter().filter(|((made, _), _)| enough(made)).map(|plan| reached(job, plan)).collect()
}

fn reached(job: &Job, ((made, (faces, lengths)), kept): (&(Vec<u32>, Face), &i64)) -> Reached {
    let extras: i64 =
        made.iter().zip(&job.panels).map(|(made, panel)| i64::from(made - panel.count) * panel.worth.0).sum();
    let widths: BTreeSet<Length> = faces.iter().flatten().copied().collect();
    let count = |number: usize| i64::try_from(number).unwrap();
    (extras + kept, count(faces.len() + widths.len()), count(lengths.len()))
}

/// A tiny job: few panels of two or three sizes, some of them welcome, on small sheets.
fn tiny() -> impl Strategy<Value = Job> {
    let line = (0..6_usize, 0..3_u32, 0..3_u32, select(vec![100, 250, 300]));
    let keeper = prop::option::of(select(vec![("6", "9"), ("4", "12"), ("8", "8")]));
    let size = select(vec![("24", "20"), ("21", "16"), ("18 1/4", "18 1/4")]);
    (prop::collection::vec(line, 1..4), keeper, size).prop_map(|(lines, keeper, (length, width))| {
        let sizes = [("6", "8"), ("8", "10"), ("6", "12"), ("9", "12"), ("10", "10"), ("8", "8")];
        let mut job = small_job();
        job.sheets = vec![sheet("small sheet", length, width)];
        for (at, (size, count, extra, worth)) in lines.into_iter().enumerate() {
            let mut line = panel(sizes[size].0, sizes[size].1, count.max(u32::from(at == 0)));
            line.name = format!("line {at}");
            (line.extra, line.worth) = (extra, Cents(worth));
            if line.count + line.extra > 0
                && job.panels.iter().all(|known| known.width != line.width || known.height != line.height)
            {
                job.panels.push(line);
            }
        }
        let keepers = keeper.into_iter().map(|(width, length)| Keeper {
            width: len(width),
            length: len(length),
            worth: Cents(150),
        });
        job.keepers = keepers.collect();
        job
    })
}

proptest! {
    #![proptest_config(settings(200))]

    #[test]
    fn no_plan_is_better_than_what_is_proved_and_none_passes_a_bound(job in tiny()) {
        let solved = solve(&job, &Patient).expect("tiny panels from sheets without end");
        prop_assert_eq!(check(&job, &lay_out(&job, &solved)), Ok(()));
        let sheets: u32 = solved.sheets.iter().map(|sheet| sheet.count).sum();
        prop_assume!(sheets <= 2 && solved.proof.proved);
        let mut plans = all_plans(&job, sheets);
        for level in &solved.levels {
            match level.aim {
                Aim::Worth => {
                    let best = plans.iter().map(|plan| plan.0).max().unwrap();
                    prop_assert!(level.value <= best && best <= level.bound, "{:?}: {} is best", level, best);
                    plans.retain(|plan| plan.0 >= level.value);
                }
                Aim::Layouts => {
                    let best = plans.iter().map(|plan| plan.1).min().unwrap();
                    prop_assert!(level.bound <= best && best <= level.value, "{:?}: {} is best", level, best);
                    plans.retain(|plan| plan.1 <= level.value);
                }
                Aim::Settings => {
                    let best = plans.iter().map(|plan| plan.2).min().unwrap();
                    prop_assert!(level.bound <= best && best <= level.value, "{:?}: {} is best", level, best);
                }
            }
            prop_assert!(!level.proved || level.bound == level.value);
        }
    }
}
