//! The corner of the linear program over parts of strips: how much more than it whole strips weigh at least, where those
//! it cuts may be any whole number, even below none (Gomory 1969). Only the remainders matter that the other strips and
//! panels too many leave to the basis; there are as many as its determinant, however many panels are wanted. Where the
//! strips of the basis come out at none or more, they are the strips that weigh least.

use super::parts::Parts;
use super::remainders::Remainders;
use super::strip::{Cheapest, Strip, heaviest};
use std::cmp::Reverse;
use std::collections::BinaryHeap;

/// Most remainders that are told apart.
const MOST: i64 = 1 << 16;
/// Largest entry of an inverse, with which whole numbers of panels are reckoned exactly.
const LARGEST: i64 = 1 << 32;

/// A column of the program: what it gives of each size and weighs, and the place of the strip; none for panels too many.
struct Move {
    gives: Vec<i64>,
    weight: i64,
    strip: Option<usize>,
}

/// A basis and the rest of the columns.
pub(super) struct Corner<'a> {
    counts: &'a [u32],
    basis: Vec<Move>,
    moves: Vec<Move>,
    /// The inverse of the basis times `times`.
    inverse: Vec<Vec<i64>>,
    /// The determinant of the basis, above zero.
    times: i64,
    remainders: Remainders,
    /// What a panel of each size is worth times `times`: no strip gives more than it weighs.
    prices: Vec<i64>,
    /// What each of the moves weighs more than it gives, times `times`.
    dearer: Vec<i64>,
    /// The remainder that each of the moves leaves to the basis.
    leaves: Vec<Vec<i64>>,
}

/// How a remainder was come to.
#[derive(Clone, Copy)]
struct Met {
    dearer: i64,
    /// From which, and by which move.
    from: (usize, usize),
}

impl<'a> Corner<'a> {
    /// The corner at the basis of the linear program; none where that is not optimal to the last, or too large.
    pub(super) fn new(counts: &'a [u32], strips: &[Strip], parts: &Parts) -> Option<Corner<'a>> {
        let sizes = counts.len();
        let of_strip = |(at, strip): (usize, &Strip)| {
            let mut gives = vec![0; sizes];
            strip.gives.iter().for_each(|(size, panels)| gives[*size] = i64::from(*panels));
            Move { gives, weight: strip.weight, strip: Some(at) }
        };
        let too_many = |size: usize| {
            let mut gives = vec![0; sizes];
            gives[size] = -1;
            Move { gives, weight: 0, strip: None }
        };
        let mut basis = Vec::with_capacity(sizes);
        let mut moves = Vec::new();
        for (at, strip) in strips.iter().enumerate() {
            let to = if parts.strips[at] { &mut basis } else { &mut moves };
            to.push(of_strip((at, strip)));
        }
        for size in 0..sizes {
            let to = if parts.too_many[size] { &mut basis } else { &mut moves };
            to.push(too_many(size));
        }
        if basis.len() != sizes {
            return None;
        }
        let (inverse, times) = inverted(&basis)?;
        let dearest = heaviest(strips).checked_mul(times)?;
        let price = |size: usize| {
            let mut parts = basis.iter().zip(&inverse).map(|(column, line)| column.weight.checked_mul(line[size]));
            let price = parts.try_fold(0_i64, |sum, part| sum.checked_add(part?));
            price.filter(|price| (0..=dearest).contains(price))
        };
        let prices: Vec<i64> = (0..sizes).map(price).collect::<Option<_>>()?;
        let worth = |column: &Move| column.gives.iter().zip(&prices).map(|(gives, price)| gives * price).sum::<i64>();
        let dearer: Vec<i64> = moves.iter().map(|column| column.weight * times - worth(column)).collect();
        if dearer.iter().any(|dearer| *dearer < 0) {
            return None;
        }
        let lines = (0..sizes).map(|size| basis.iter().map(|column| column.gives[size]).collect());
        let remainders = Remainders::new(lines.collect())?;
        let leaves = moves.iter().map(|column| remainders.of(&column.gives)).collect();
        Some(Corner { counts, basis, moves, inverse, times, remainders, prices, dearer, leaves })
    }

    /// How many remainders there are.
    pub(super) fn many(&self) -> usize {
        self.remainders.many()
    }

    /// The strips that weigh least, if less than `below`, or what they weigh at least; looking at so many remainders at
    /// most. And how many looks that took.
    pub(super) fn cheapest(&self, below: Option<i64>, most: usize) -> (Cheapest, usize) {
        let counts: Vec<i64> = self.counts.iter().map(|count| i64::from(*count)).collect();
        let least: i64 = counts.iter().zip(&self.prices).map(|(count, price)| count * price).sum();
        let below = below.map_or(i64::MAX, |below| below.saturating_mul(self.times));
        if least >= below {
            return (Cheapest::NotBelow, 0);
        }
        let mut left = self.remainders.of(&counts);
        let start = self.remainders.place(&left);
        let mut met = vec![Met { dearer: i64::MAX, from: (start, 0) }; self.remainders.many()];
        met[start].dearer = 0;
        let mut next = BinaryHeap::from([Reverse((0, start))]);
        let mut looks = 0;
        while let Some(Reverse((dearer, place))) = next.pop() {
            if met[place].dearer < dearer {
                continue;
            }
            let weighs = least + dearer;
            if place == 0 {
                let strips = self.strips(&met, start, counts);
                return (strips.map_or(Cheapest::at_least(weighs, self.times), Cheapest::Strips), looks);
            }
            if looks == most {
                return (Cheapest::at_least(weighs, self.times), looks);
            }
            looks += 1;
            self.remainders.split(&mut left, place);
            for (at, (leaves, more)) in self.leaves.iter().zip(&self.dearer).enumerate() {
                let (to, dearer) = (self.remainders.less(&left, leaves), dearer + more);
                if dearer < met[to].dearer && least + dearer < below {
                    met[to] = Met { dearer, from: (place, at) };
                    next.push(Reverse((dearer, to)));
                }
            }
        }
        (Cheapest::NotBelow, looks)
    }

    /// The strips on the way from a remainder to none; none where the basis would have to cut less than none.
    fn strips(&self, met: &[Met], start: usize, counts: Vec<i64>) -> Option<Vec<usize>> {
        let (mut strips, mut left, mut place) = (Vec::new(), counts, 0);
        while place != start {
            let (from, at) = met[place].from;
            let column = &self.moves[at];
            left.iter_mut().zip(&column.gives).for_each(|(left, gives)| *left -= gives);
            strips.extend(column.strip);
            place = from;
        }
        for (column, line) in self.basis.iter().zip(&self.inverse) {
            let copies = usize::try_from(product(line, &left) / self.times).ok()?;
            strips.extend(column.strip.into_iter().flat_map(|strip| std::iter::repeat_n(strip, copies)));
        }
        Some(strips)
    }
}

fn product(line: &[i64], column: &[i64]) -> i64 {
    line.iter().zip(column).map(|(one, other)| one * other).sum()
}

/// The inverse of a basis times its determinant, and that, above zero (fraction-free elimination, Bareiss 1968); none
/// where there is none, or it is too large.
fn inverted(basis: &[Move]) -> Option<(Vec<Vec<i64>>, i64)> {
    let size = basis.len();
    // Line by line the sizes, then the lines of one.
    let mut lines: Vec<Vec<i64>> = (0..size)
        .map(|line| {
            let given = basis.iter().map(|column| column.gives[line]);
            given.chain((0..size).map(|at| i64::from(at == line))).collect()
        })
        .collect();
    let mut before = 1;
    for pivot in 0..size {
        let at = (pivot..size).find(|line| lines[*line][pivot] != 0)?;
        lines.swap(pivot, at);
        if at != pivot {
            lines[pivot].iter_mut().for_each(|entry| *entry = -*entry);
        }
        let by = lines[pivot].clone();
        for line in (0..size).filter(|line| *line != pivot) {
            let times = lines[line][pivot];
            for (entry, other) in lines[line].iter_mut().zip(&by) {
                *entry = (by[pivot].checked_mul(*entry)? - times.checked_mul(*other)?) / before;
            }
        }
        before = by[pivot];
    }
    let sign = before.signum();
    let inverse: Vec<Vec<i64>> =
        lines.into_iter().map(|line| line[size..].iter().map(|entry| entry * sign).collect()).collect();
    let small = inverse.iter().flatten().all(|entry| entry.abs() <= LARGEST);
    (small && before.abs() <= MOST).then_some((inverse, before.abs()))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Strips that give five panels and weigh 12, or seven and weigh 16: 40 for seventeen (two of five, one of seven), by
    /// hand. Three panels would leave two strips of five and one of seven less than none to the corner, so that it only
    /// tells that they weigh at least 8; they are one strip of five.
    #[test]
    fn only_the_remainder_of_panels_matters() {
        let strips =
            [Strip { blank: 0, weight: 12, gives: vec![(0, 5)] }, Strip { blank: 1, weight: 16, gives: vec![(0, 7)] }];
        let cheapest = |count, below, most| {
            let counts = [count];
            let parts = Parts::new(&counts, &strips).expect("they give the size");
            Corner::new(&counts, &strips, &parts).expect("it is small").cheapest(below, most)
        };
        let (found, looks) = cheapest(17, None, 100);
        let Cheapest::Strips(mut way) = found else { panic!("{found:?}") };
        way.sort_unstable();
        assert_eq!(way, [0, 0, 1]);
        assert_eq!(cheapest(17, Some(40), 100).0, Cheapest::NotBelow);
        assert_eq!(cheapest(17, None, 0), (Cheapest::AtLeast(39), 0), "17 sevenths of 16, rounded up");
        assert_eq!(cheapest(3, None, 100).0, Cheapest::AtLeast(8));
        let (found, more) = cheapest(17 + 7 * 100_000, None, 100);
        assert!(matches!(&found, Cheapest::Strips(way) if way.len() == 100_003), "{found:?}");
        assert_eq!(more, looks);
    }

    /// Worked out by hand: the determinant is -2, and the inverse times two.
    #[test]
    fn a_basis_is_inverted_in_whole_numbers() {
        let column = |gives: [i64; 2]| Move { gives: gives.to_vec(), weight: 0, strip: None };
        let (inverse, times) = inverted(&[column([0, 1]), column([2, 3])]).expect("it has an inverse");
        assert_eq!((inverse, times), (vec![vec![-3, 2], vec![1, 0]], 2));
        assert!(inverted(&[column([1, 2]), column([2, 4])]).is_none(), "it has none");
        assert!(inverted(&[column([1 << 16, 0]), column([0, 2])]).is_none(), "it is too large");
    }
}
