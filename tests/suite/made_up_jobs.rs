//! A strategy that makes up whole jobs with every shop rule in them, small enough to be solved by the hundred. Simpler
//! values come first in each choice, so that a failing job shrinks to the rules that matter.

use crate::jobs::{len, panel, sheet, small_job};
use proptest::option;
use proptest::prelude::*;
use proptest::sample::select;
use proptest::test_runner::{Config, RngSeed};
use yardslip::data::*;
use yardslip::length::{Length, Unit};

/// Settings for property tests: so many cases, the same in each run unless `PROPTEST_RNG_SEED` or `PROPTEST_CASES` ask
/// for others.
pub(crate) fn settings(cases: u32) -> Config {
    let set = |name: &str| std::env::var_os(name).is_some();
    let mut config = Config { failure_persistence: None, ..Config::default() };
    if !set("PROPTEST_CASES") {
        config.cases = cases;
    }
    if !set("PROPTEST_RNG_SEED") {
        config.rng_seed = RngSeed::Fixed(1912);
    }
    config
}

/// Whole jobs. Most of them can be done.
pub(crate) fn jobs() -> impl Strategy<Value = Job> {
    let stock = (sheets(), strips(), keepers());
    let shop = (yard(), car(), saw());
    let work = (prop::collection::vec(line(), 1..5), select(vec!["1/16", "1/8", "1/64"]));
    (stock, shop, work).prop_map(|((sheets, strips, keepers), (yard, car, saw), (mut panels, rule))| {
        for (at, panel) in panels.iter_mut().enumerate() {
            panel.name = format!("line {}: {}", at + 1, panel.name);
            panel.sheets.retain(|kind| *kind < sheets.len());
        }
        Job { sheets, strips, keepers, yard, car, saw, panels, rule: len(rule), ..small_job() }
    })
}

/// A length among these.
fn among(texts: &'static [&'static str]) -> impl Strategy<Value = Length> {
    select(texts).prop_map(len)
}

/// Often no limit, else one among these.
fn limit(texts: &'static [&'static str]) -> impl Strategy<Value = Option<Length>> {
    option::weighted(0.3, among(texts))
}

/// An amount of money that is nothing to speak of.
fn cents(most: i64) -> impl Strategy<Value = Cents> {
    (0..=most / 25).prop_map(|quarters| Cents(quarters * 25))
}

fn sheets() -> impl Strategy<Value = Vec<Sheet>> {
    let size = (among(&["96", "48", "60", "72 1/2"]), among(&["48", "24", "30", "47 15/16"]));
    let kind = (size, 500..5000_i64, option::weighted(0.3, 1..6_u32), option::of(Just(680.0)), trims());
    let kind = kind.prop_map(|((length, width), price, stock, density, edge_trim)| Sheet {
        length,
        width,
        price: Cents(price),
        stock,
        density,
        edge_trim,
        thickness: density.map(|_| len("1/4")),
        ..sheet("", "1", "1")
    });
    prop::collection::vec(kind, 1..3).prop_map(|mut kinds| {
        for (at, kind) in kinds.iter_mut().enumerate() {
            kind.name = format!("kind {}", at + 1);
        }
        kinds
    })
}

fn trims() -> impl Strategy<Value = Length> {
    prop_oneof![3 => Just(Length::ZERO), 1 => among(&["1/4", "1/2"])]
}

fn strips() -> impl Strategy<Value = Vec<StripOnHand>> {
    let strip = (eighths(4, 16), eighths(8, 60), 1..4_u32, option::of(Just(0)), any::<bool>());
    let strip = strip.prop_map(|(width, length, count, sheet, grain_along)| StripOnHand {
        name: "on hand".into(),
        width,
        length,
        count,
        sheet,
        grain_along,
    });
    prop_oneof![2 => Just(vec![]), 1 => prop::collection::vec(strip, 1..3)]
}

/// A length from `least` to `most` inches; half of them whole inches.
fn eighths(least: i64, most: i64) -> impl Strategy<Value = Length> {
    prop_oneof![
        (least..=most).prop_map(Length::inches),
        (least * 8..=most * 8).prop_map(|eighths| Length::sixty_fourths(eighths * 8)),
    ]
}

fn keepers() -> impl Strategy<Value = Vec<Keeper>> {
    let keeper = (eighths(3, 10), eighths(10, 30), cents(500));
    let keeper = keeper.prop_map(|(width, length, worth)| Keeper { width, length, worth });
    prop_oneof![1 => Just(vec![]), 1 => prop::collection::vec(keeper, 1..3)]
}

fn line() -> impl Strategy<Value = Panel> {
    let grain = prop_oneof![2 => Just(Grain::Any), 1 => Just(Grain::Upright), 1 => Just(Grain::Level)];
    let scant = among(&["0", "1/8", "1/16", "1/4", "3/64"]);
    let extra = prop_oneof![2 => Just((0, Cents::ZERO)), 1 => (1..4_u32, cents(900))];
    let kinds = prop_oneof![4 => Just(vec![]), 1 => Just(vec![0]), 1 => Just(vec![0, 1])];
    (eighths(2, 20), eighths(2, 20), 1..12_u32, scant, grain, extra, kinds).prop_map(
        |(width, height, count, scant, grain, (extra, worth), sheets)| {
            let name = format!("{} x {}", width.show(Unit::In), height.show(Unit::In));
            Panel { name, width, height, scant, grain, extra, worth, sheets, ..panel("1", "1", count) }
        },
    )
}

fn yard() -> impl Strategy<Value = Yard> {
    let rips = select(vec![Rips::Along, Rips::Across, Rips::Either]);
    let list = prop::collection::btree_set(eighths(4, 20), 3..12);
    let widths = prop_oneof![
        3 => Just(RipWidths::Any),
        1 => list.prop_map(|widths| RipWidths::Only(widths.into_iter().collect())),
        1 => among(&["1", "1/2", "1/16"]).prop_map(RipWidths::Step),
    ];
    let free_per = select(vec![FreePer::Sheet, FreePer::Order]);
    let breakdown = select(vec![Breakdown::Never, Breakdown::IfNeeded, Breakdown::Allowed]);
    let blade = (among(&["1/8", "3/32", "1/64"]), among(&["0", "1/16", "1/32"]));
    let limits = (among(&["1", "3", "5"]), limit(&["30", "18", "12"]), option::weighted(0.3, 2..9_u32));
    let money = (0..5_u32, free_per, select(vec![0, 50, 75]).prop_map(Cents));
    (rips, widths, breakdown, blade, limits, money).prop_map(|(rips, rip_widths, breakdown, blade, limits, money)| {
        let (narrowest, widest, most_cuts) = limits;
        let (free_cuts, free_per, cut_price) = money;
        Yard {
            kerf: blade.0,
            rips,
            rip_widths,
            narrowest,
            widest,
            most_cuts,
            free_cuts,
            free_per,
            cut_price,
            tolerance: blade.1,
            breakdown,
        }
    })
}

fn car() -> impl Strategy<Value = Car> {
    let heaviest = option::weighted(0.3, select(vec![20.0, 60.0, 4.0]));
    (limit(&["75", "50", "40"]), limit(&["40", "20"]), heaviest).prop_map(|(longest, widest, heaviest)| Car {
        longest,
        widest,
        heaviest,
    })
}

fn saw() -> impl Strategy<Value = Saw> {
    let kerf = among(&["1/8", "3/32", "1/64"]);
    let (squaring, shortest) = (among(&["0", "1/4", "1/2"]), among(&["0", "4", "8"]));
    (kerf, limit(&["20", "15", "12 1/16"]), squaring, shortest, any::<bool>()).prop_map(
        |(kerf, crosses, squaring, shortest, trims)| Saw {
            kind: SawKind::RadialArm,
            kerf,
            crosses,
            squaring,
            shortest,
            trims,
        },
    )
}
