//! Whether grown sizes still fit every place they are cut from, at the same money, with the same worth kept.

use crate::data::{Cents, Job};
use crate::length::Length;
use crate::plan::measure::{Ends, fall_off, slack};
use crate::plan::money::{board_slack, cost};
use crate::plan::offcuts::worth;
use crate::plan::sizes::Sizes;
use crate::solve::{BoardUse, PieceCut, SheetUse, Solved};

/// What growing must hold.
pub(super) struct Limits<'a> {
    job: &'a Job,
    solved: &'a Solved,
    money: Cents,
    worth: Cents,
}

/// A strip as it lies on the saw.
struct Blank<'a> {
    pieces: &'a [PieceCut],
    length: Length,
    /// As asked of the yard, or as measured.
    width: Length,
    /// As wide as it surely is.
    sure: Length,
    ends: Ends,
}

impl<'a> Limits<'a> {
    /// The limits of a solved job at its smallest sizes.
    pub(super) fn of(job: &'a Job, solved: &'a Solved) -> Self {
        let smallest = Sizes::smallest(job);
        let limits = Limits { job, solved, money: cost(job, &solved.sheets, &smallest).total, worth: Cents::ZERO };
        let worth = limits.worth_kept(&smallest);
        Limits { worth, ..limits }
    }

    /// True where everything fits at these sizes.
    pub(super) fn hold(&self, sizes: &Sizes) -> bool {
        self.solved.sheets.iter().all(|used| used.boards.iter().all(|board| self.board_fits(used, board, sizes)))
            && self.blanks(sizes).all(|(_, blank)| self.blank_fits(&blank, sizes))
            && cost(self.job, &self.solved.sheets, sizes).total == self.money
            && self.worth_kept(sizes) >= self.worth
    }

    /// Every different strip with how many there are.
    fn blanks(&self, sizes: &Sizes) -> impl Iterator<Item = (u32, Blank<'a>)> {
        let (job, solved) = (self.job, self.solved);
        let boards = solved.sheets.iter().flat_map(|used| used.boards.iter().map(move |board| (used, board)));
        let ripped = boards.flat_map(move |(used, board)| {
            let ends = Ends::of_sheet(job, &job.sheets[used.sheet], used.boards.len() == 1);
            board.strips.iter().map(move |strip| {
                let width = sizes.asked(&job.yard, strip);
                let sure = width - job.yard.tolerance;
                (used.count, Blank { pieces: &strip.pieces, length: board.length, width, sure, ends })
            })
        });
        let on_hand = solved.on_hand.iter().map(move |used| {
            let strip = &job.strips[used.strip];
            let (length, width, ends) = (strip.length, strip.width, Ends::on_hand(job));
            (used.count, Blank { pieces: &used.pieces, length, width, sure: width, ends })
        });
        ripped.chain(on_hand)
    }

    fn blank_fits(&self, blank: &Blank, sizes: &Sizes) -> bool {
        let trimmed = |piece: &PieceCut| !piece.trimmed || sizes.across(piece) <= blank.sure;
        self.along(blank, sizes) >= Length::ZERO && blank.pieces.iter().all(trimmed) && self.safe(blank, sizes)
    }

    /// What is left along a strip beside its pieces.
    fn along(&self, blank: &Blank, sizes: &Sizes) -> Length {
        let usable = blank.length - blank.ends.first - blank.ends.far;
        slack(usable, blank.pieces.iter().map(|piece| sizes.along(piece)), self.job.saw.kerf)
    }

    /// True where the hand holds something at every cut: a piece that is long enough is cut last, or what remains is.
    fn safe(&self, blank: &Blank, sizes: &Sizes) -> bool {
        let shortest = self.job.saw.shortest;
        let long = |piece: &PieceCut| sizes.along(piece) >= shortest;
        let remains = self.along(blank, sizes) + blank.ends.far - self.job.saw.kerf;
        blank.pieces.iter().any(long) || blank.pieces.is_empty() || remains >= shortest
    }

    fn board_fits(&self, used: &SheetUse, board: &BoardUse, sizes: &Sizes) -> bool {
        let (job, yard) = (self.job, &self.job.yard);
        let limits = [yard.widest, job.saw.crosses, job.car.widest];
        let most = limits.into_iter().flatten().min().unwrap_or(Length::MAX);
        let narrow = board.strips.iter().all(|strip| sizes.asked(yard, strip) <= most);
        narrow && board_slack(job, used, board, sizes) >= Length::ZERO
    }

    /// The worth of the fall-offs that are kept.
    fn worth_kept(&self, sizes: &Sizes) -> Cents {
        let job = self.job;
        if job.keepers.is_empty() {
            return Cents::ZERO;
        }
        let strips = self.blanks(sizes).map(|(count, blank)| {
            let left = fall_off(self.along(&blank, sizes), job.saw.kerf);
            worth(&job.keepers, blank.width, left) * i64::from(count)
        });
        let boards = self.solved.sheets.iter().map(|used| self.board_worth(used, sizes) * i64::from(used.count));
        strips.sum::<Cents>() + boards.sum()
    }

    fn board_worth(&self, used: &SheetUse, sizes: &Sizes) -> Cents {
        let job = self.job;
        let ripped = used.boards.iter().filter(|board| !board.strips.is_empty());
        let left = ripped.map(|board| {
            let slack = board_slack(job, used, board, sizes) + job.sheets[used.sheet].edge_trim;
            worth(&job.keepers, fall_off(slack, job.yard.kerf), board.length)
        });
        left.sum()
    }
}
