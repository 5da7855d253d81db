//! On jobs made up at random: what has grown passes the checker, and any further step makes it fail or costs something.

use super::families::{Family, families};
use super::{grow, step};
use crate::data::{
    Breakdown, Car, Cents, FreePer, Grain, Job, Keeper, Panel, RipWidths, Rips, Saw, SawKind, Sheet, StripOnHand, Week,
    Yard,
};
use crate::length::{Length, Unit};
use crate::plan::sizes::Sizes;
use crate::plan::{Plan, check, lay_out_at};
use crate::solve::{Aim, Level, Patient, Solved, solve};
use proptest::prelude::*;

const fn sixteenths(n: i64) -> Length {
    Length::sixty_fourths(4 * n)
}

fn panel() -> impl Strategy<Value = Panel> {
    let sizes = prop::sample::select(vec![(6, 8), (8, 10), (9, 12), (12, 12), (12, 16), (16, 20)]);
    (sizes, 1..12_u32, 0..=4_i64, any::<bool>()).prop_map(|((width, height), count, scant, upright)| Panel {
        name: format!("{width} x {height}"),
        width: Length::inches(width),
        height: Length::inches(height),
        count,
        scant: sixteenths(scant),
        grain: if upright { Grain::Upright } else { Grain::Any },
        extra: 0,
        worth: Cents::ZERO,
        sheets: vec![],
    })
}

fn sheet(edge_trim: Length) -> Sheet {
    Sheet {
        name: "birch".into(),
        length: Length::inches(96),
        width: Length::inches(48),
        thickness: None,
        price: Cents(4000),
        stock: None,
        density: None,
        edge_trim,
        tolerance: Length::ZERO,
    }
}

prop_compose! {
    fn job()(
        panels in prop::collection::vec(panel(), 1..4),
        edge in 0..2_i64,
        squaring in prop::sample::select(vec![0, 4]),
        tolerance in 0..2_i64,
        fixed in any::<bool>(),
        (trims, keeps, hand) in any::<(bool, bool, bool)>(),
        cut_price in prop::sample::select(vec![0, 50]),
        rule in prop::sample::select(vec![1, 4, 8]),
        free_cuts in 0..5_u32,
    ) -> Job {
        let widths = [6, 8, 9, 12, 16].map(Length::inches).to_vec();
        Job {
            title: "made up".into(),
            units: Unit::In,
            currency: "$".into(),
            rule: Length::sixty_fourths(rule),
            sheets: vec![sheet(sixteenths(2 * edge))],
            panels,
            strips: if hand { vec![strip_on_hand()] } else { vec![] },
            keepers: if keeps { vec![keeper()] } else { vec![] },
            yard: Yard {
                kerf: sixteenths(2),
                rips: Rips::Along,
                rip_widths: if fixed && !trims { RipWidths::Step(sixteenths(1)) } else if fixed { RipWidths::Only(widths) } else { RipWidths::Any },
                narrowest: Length::inches(1),
                widest: Some(Length::inches(16) + sixteenths(1)),
                most_cuts: None,
                free_cuts,
                free_per: FreePer::Sheet,
                cut_price: Cents(cut_price),
                tolerance: sixteenths(tolerance),
                breakdown: Breakdown::Never,
            },
            car: Car::default(),
            saw: Saw {
                kind: SawKind::RadialArm,
                kerf: sixteenths(2),
                crosses: None,
                squaring: sixteenths(squaring),
                shortest: Length::inches(4),
                trims,
            },
            week: Week::default(),
            assumptions: vec![],
        }
    }
}

fn strip_on_hand() -> StripOnHand {
    let (width, length) = (Length::inches(12) - sixteenths(1), Length::inches(40));
    StripOnHand { name: String::new(), width, length, count: 2, sheet: Some(0), grain_along: true }
}

fn keeper() -> Keeper {
    Keeper { width: Length::inches(8), length: Length::inches(20), worth: Cents(300) }
}

/// The worth that the plan keeps, by its own count.
fn worth(job: &Job, solved: &Solved, sizes: &Sizes) -> (Plan, i64) {
    let level = Level { aim: Aim::Worth, value: 0, bound: 0, proved: false };
    let plan = lay_out_at(job, &Solved { levels: vec![level], ..solved.clone() }, sizes);
    let worth = plan.levels[0].value;
    (plan, worth)
}

/// Whether a family may stay where it is: it is at its most, or the next step spoils something.
fn stuck(job: &Job, solved: &Solved, grown: &Sizes, family: &Family) -> bool {
    let (plan, kept) = worth(job, solved, grown);
    let next = step(family.size, family.most, job.rule);
    if next <= family.size {
        return true;
    }
    let mut larger = grown.clone();
    family.set(&mut larger, next);
    let (raised, kept_then) = worth(job, solved, &larger);
    check(job, &raised).is_err() || raised.cost.total != plan.cost.total || kept_then < kept
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, ..ProptestConfig::default() })]

    #[test]
    fn what_has_grown_is_sound_and_cannot_grow_on(job in job()) {
        let Ok(solved) = solve(&job, &Patient) else { return Ok(()) };
        let grown = grow(&job, &solved);
        let (plan, _) = worth(&job, &solved, &grown);
        prop_assert_eq!(check(&job, &plan), Ok(()));
        prop_assert_eq!(plan.cost.total, solved.cost);
        for mut family in families(&job, &solved) {
            family.size = family.of(&grown);
            prop_assert!(stuck(&job, &solved, &grown, &family), "{family:?} can still grow");
        }
    }
}
