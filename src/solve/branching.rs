//! What to split a node by: a count that the linear program would rather have in between, sheets of a kind first, then
//! the ways to rip them, then strips. Of several, the one that lifts the bounds of both parts most, as far as a few
//! pivots of the dual method tell (strong branching, Applegate et al. 1995), and later as earlier probes told. The part
//! that rises less more likely holds a cheap plan, and comes first.

use super::master::{Made, Master};
use super::need::Need;
use super::pattern::Blank;
use super::rises::{Rises, score};
use super::scope::{Count, Range, Scope};
use crate::model::Problem;
use std::collections::BTreeMap;

/// Most counts that are probed at one node.
const PROBES: usize = 8;
/// Values within this of a whole number are whole.
const WHOLE: f64 = 1e-6;

/// A part of a scope.
#[derive(Debug)]
pub(super) struct Part {
    /// Its plans.
    pub scope: Scope,
    /// How much more its program rises than that of the other part, for what was left to the cost that closes both; of
    /// parts around a whole value, one for those that leave it.
    pub astray: f64,
}

/// A count with the value that the linear program gives it.
pub(super) type Valued = (Count, f64);

/// What is known about the counts that nodes were split by.
#[derive(Clone, Default)]
pub(super) struct Branching {
    rises: BTreeMap<Count, Rises>,
}

impl Branching {
    /// The parts of a scope, split by one of the counts, that which rises least first. A part whose cost comes to `limit`
    /// units is closed, so no more of a rise counts.
    pub(super) fn split(
        &mut self,
        master: &mut Master,
        scope: &Scope,
        mut counts: Vec<Valued>,
        limit: Option<i64>,
    ) -> Option<Vec<Part>> {
        if let [(count, value)] = counts[..]
            && far_from_whole(value) <= WHOLE
        {
            let (range, value) = (master.range(scope, count), whole_below(value + 0.5));
            return Some(around(scope, count, value, range));
        }
        counts.sort_by(|a, b| far_from_whole(b.1).total_cmp(&far_from_whole(a.1)));
        let left = limit.map_or(f64::INFINITY, |limit| (real(limit) - master.cost()).max(0.0));
        let mut probes = PROBES;
        let weighed = counts.into_iter().map(|valued| {
            let rises = self.rises(master, valued, (limit, left), &mut probes);
            (score(rises, 1e-3), valued, rises)
        });
        let best = weighed.reduce(|best, next| if next.0 > best.0 * (1.0 + 1e-9) { next } else { best });
        let (_, (count, value), rises) = best?;
        let range = master.range(scope, count);
        let below = whole_below(value).clamp(range.least - 1, range.most);
        let (down, up) = astray(rises, left);
        let mut parts = parts(scope, count, &[((range.least, below), down), ((below + 1, range.most), up)]);
        parts.sort_by(|a, b| a.astray.total_cmp(&b.astray));
        Some(parts)
    }

    /// How much both parts of a split by this count rise, as far as is known; `left` is how far the limit is from here.
    fn rises(
        &mut self,
        master: &mut Master,
        (count, value): Valued,
        (limit, left): (Option<i64>, f64),
        probes: &mut usize,
    ) -> (f64, f64) {
        let part = value - value.floor();
        let known = self.rises.get(&count).copied().unwrap_or_default();
        if !known.are_trusted() && *probes > 0 {
            *probes -= 1;
            let rises = master.probe(count, whole_below(value), limit);
            self.rises.insert(count, known.with(rises, part));
            return rises;
        }
        let (down, up) = known.expected(part);
        (down.min(left), up.min(left))
    }
}

/// How far astray both parts lie that rise so much, where so much is left; not at all where that has no end.
fn astray((down, up): (f64, f64), left: f64) -> (f64, f64) {
    let is_more = |rise: f64, other: f64| left.is_finite() && rise > other;
    let more = |rise: f64, other: f64| if is_more(rise, other) { (rise - other) / left.max(1e-9) } else { 0.0 };
    (more(down, up), more(up, down))
}

/// Whether only sheets cost money and the cost says how many of each kind there are.
pub(super) fn only_sheets_cost(problem: &Problem, scope: &Scope) -> bool {
    problem.charges.cut == 0 && (scope.is_bought() || scope.kinds.len() == 1)
}

/// The counts to split by: those of the first sort that are not whole. Sheets that are whole but not settled are
/// settled before their strips are looked at, since their program is flat.
pub(super) fn open_counts(problem: &Problem, master: &Master, scope: &Scope) -> Vec<Valued> {
    let (mut kinds, mut rippings) = (vec![0.0; scope.kinds.len()], vec![0.0; scope.rippings.len()]);
    let used = master.used();
    for (made, value) in &used {
        if let Made::Layout(layout) = made {
            rippings[layout.ripping] += value;
            kinds[problem.rippings[layout.ripping].sheet] += value;
        }
    }
    let several = |at: usize| {
        let kind = problem.rippings[at].sheet;
        problem.rippings.iter().filter(|ripping| ripping.sheet == kind).count() > 1
    };
    let not_whole = |(_, value): &Valued| far_from_whole(*value) > WHOLE;
    if !scope.is_bought() && !only_sheets_cost(problem, scope) {
        let kinds: Vec<Valued> = kinds.iter().enumerate().map(|(at, value)| (Count::Kind(at), *value)).collect();
        let fractions: Vec<Valued> = kinds.iter().copied().filter(not_whole).collect();
        let unsettled = kinds.into_iter().zip(&scope.kinds).find(|(_, range)| !range.is_fixed());
        match (fractions.is_empty(), unsettled) {
            (false, _) => return fractions,
            (true, Some((kind, _))) => return vec![kind],
            (true, None) => {}
        }
    }
    // Where fewer sheets are welcome there may be fewer than the scope asks for: the rest can be ripped all the same.
    let enough = |at: usize, value: f64| whole_below(value) >= scope.rippings[at].least;
    let rippings = rippings.into_iter().enumerate().filter(|(at, value)| several(*at) && enough(*at, *value));
    let rippings: Vec<Valued> = rippings.map(|(at, value)| (Count::Ripping(at), value)).filter(not_whole).collect();
    if rippings.is_empty() { strips(&used).into_iter().filter(not_whole).collect() } else { rippings }
}

/// The strips crosscut from each blank.
fn strips(used: &[(Made, f64)]) -> Vec<Valued> {
    let mut strips: BTreeMap<Blank, f64> = BTreeMap::new();
    for (made, value) in used {
        if let Made::Pattern(pattern) = made {
            *strips.entry(pattern.blank).or_default() += value;
        }
    }
    strips.into_iter().map(|(blank, value)| (Count::Strips(blank), value)).collect()
}

/// The scope in three parts by a count of strips that is whole but not settled: as many, fewer and more; none where
/// all that are crosscut are settled.
pub(super) fn thirds(problem: &Problem, need: &Need, master: &Master, scope: &Scope) -> Option<Vec<Part>> {
    let counts = strips(&master.used()).into_iter();
    let mut open = counts.map(|(count, value)| (count, value, scope.range(problem, need, count)));
    let (count, value, range) = open.find(|(_, _, range)| !range.is_fixed())?;
    let value = whole_below(value + 0.5).clamp(range.least, range.most);
    Some(around(scope, count, value, range))
}

/// The parts of a scope where a count is this, or less, or more.
fn around(scope: &Scope, count: Count, value: i64, range: Range) -> Vec<Part> {
    parts(scope, count, &[((value, value), 0.0), ((range.least, value - 1), 1.0), ((value + 1, range.most), 1.0)])
}

/// The scope halved by a count of sheets that is not settled; none where all are.
pub(super) fn halves(problem: &Problem, need: &Need, scope: &Scope) -> Option<Vec<Part>> {
    let kinds = (0..scope.kinds.len()).map(Count::Kind);
    let mut counts = kinds.chain((0..scope.rippings.len()).map(Count::Ripping));
    let count = counts.find(|count| !scope.range(problem, need, *count).is_fixed())?;
    let range = scope.range(problem, need, count);
    let middle = range.least.midpoint(range.most);
    Some(parts(scope, count, &[((range.least, middle), 0.0), ((middle + 1, range.most), 0.0)]))
}

/// The parts of a scope where a count is in each of these ranges, and how far astray each lies.
fn parts(scope: &Scope, count: Count, ranges: &[((i64, i64), f64)]) -> Vec<Part> {
    let some = ranges.iter().filter(|((least, most), _)| least <= most);
    some.map(|((least, most), astray)| Part {
        scope: scope.narrowed(count, Range { least: *least, most: *most }),
        astray: *astray,
    })
    .collect()
}

#[allow(clippy::cast_precision_loss)] // costs of an order
fn real(number: i64) -> f64 {
    number as f64
}

fn far_from_whole(value: f64) -> f64 {
    (value - value.round()).abs()
}

#[allow(clippy::cast_possible_truncation)] // counts of an order
fn whole_below(value: f64) -> i64 {
    value.floor() as i64
}

#[cfg(test)]
mod tests {
    use super::super::generate::{generate, relax};
    use super::*;
    use crate::data::{File, Source, read};
    use crate::solve::Patient;

    /// Two sizes from one kind of sheet, and the linear program of all plans.
    fn on_a_program(then: impl FnOnce(&Scope, &mut Master, i64)) {
        let text = "[[sheet]]\nname = \"whole\"\nlength = 96\nwidth = 48\nprice = 38.50\n\
                    [[panel]]\nsize = \"16 x 20\"\ncount = 30\n[[panel]]\nsize = \"11 x 14\"\ncount = 21\n";
        let job = read(&Source { job: File::of("batch", text), list: None, rack: None }).expect("it is sound");
        let problem = crate::model::build(&job).expect("they can be made");
        let need = Need::of(&problem);
        let scope = Scope::all(&problem, &need, None);
        let mut master = Master::new(&problem, &need, &scope);
        generate(&problem, &need, &[], &Patient).found.into_iter().for_each(|made| assert!(master.add(made)));
        relax(&problem, &need, &scope, &mut master, None, &Patient);
        then(&scope, &mut master, problem.charges.sheets[0]);
    }

    #[test]
    fn a_rise_counts_no_further_than_to_where_a_part_is_closed() {
        on_a_program(|_, master, sheet| {
            let now = master.cost();
            let sheets = now / real(sheet);
            assert!(far_from_whole(sheets) > 0.01, "{sheets} sheets");

            let (count, below) = (Count::Kind(0), whole_below(sheets));
            let (past, up) = master.probe(count, below, None);
            assert!(past > 100.0 * real(sheet), "what is missing comes from nowhere: {past}");
            assert!((up - (real((below + 1) * sheet) - now)).abs() < 1.0, "one sheet more: {up}");
            let limit = (below + 3) * sheet;
            let left = real(limit) - now;
            let (down, same) = master.probe(count, below, Some(limit));
            assert!((down - left).abs() < 1.0 && (same - up).abs() < 1.0, "{down}, {same}");

            let rises = (0..4).fold(Rises::default(), |rises, _| rises.with((past, up), sheets.fract()));
            let mut branching = Branching { rises: BTreeMap::from([(count, rises)]) };
            let mut told = |limit, left| branching.rises(master, (count, sheets), (limit, left), &mut 1);
            let all = [(told(None, f64::INFINITY), past), (told(Some(limit), left), left)];
            for (told, down) in all {
                assert!(
                    (told.0 / down - 1.0).abs() < 1e-6 && (told.1 / up - 1.0).abs() < 1e-6,
                    "{told:?}: {down}, {up}"
                );
            }
        });
    }

    /// Fewer sheets than the program uses are not enough, which closes that part; one more leaves two sheets to the limit.
    #[test]
    fn the_part_that_rises_least_comes_first_and_the_other_lies_astray_by_as_much_as_it_rises_more() {
        on_a_program(|scope, master, sheet| {
            let (now, sheets) = (master.cost(), master.cost() / real(sheet));
            let (below, limit) = (whole_below(sheets), (whole_below(sheets) + 3) * sheet);
            let (left, up) = (real(limit) - now, real((below + 1) * sheet) - now);
            let split = |branching: &mut Branching, master: &mut Master, value: f64, limit: Option<i64>| {
                let parts = branching.split(master, scope, vec![(Count::Kind(0), value)], limit).expect("parts");
                let part = |part: &Part| (part.scope.kinds[0].least, part.scope.kinds[0].most, part.astray);
                parts.iter().map(part).collect::<Vec<(i64, i64, f64)>>()
            };
            let most = scope.kinds[0].most;
            let parts = split(&mut Branching::default(), master, sheets, Some(limit));
            let [(least, all, near), (none, few, far)] = parts[..] else { panic!("{parts:?}") };
            assert_eq!(((least, all), (none, few)), ((below + 1, most), (scope.kinds[0].least, below)));
            assert!(near.abs() < 1e-12 && (far - (left - up) / left).abs() < 1e-3, "{near}, {far}: {up} of {left}");

            let parts = split(&mut Branching::default(), master, sheets, None);
            assert!(parts.iter().all(|(.., astray)| astray.abs() < 1e-12), "no part of what has no end: {parts:?}");

            let value = real(below);
            let parts = split(&mut Branching::default(), master, value, Some(limit));
            let expected = [(below, below, 0.0), (scope.kinds[0].least, below - 1, 1.0), (below + 1, most, 1.0)];
            assert_eq!(parts, expected, "as many, or fewer, or more");
        });
        let none = astray((f64::INFINITY, 3.0), f64::INFINITY);
        assert_eq!(none, (0.0, 0.0), "a part that holds nothing tells as little");
    }
}
