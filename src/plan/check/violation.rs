//! What a replay can find wrong with a plan: the rule that is broken, where, and in words.

use std::fmt;

/// The rule of the trade or of the plan that is broken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Rule {
    /// An index leads nowhere.
    Reference,
    /// A number is negative or beyond all measure.
    Magnitude,
    /// What the plan repeats from the job differs from it.
    Heading,
    /// The crosscut before ripping is not allowed or does not divide the sheet.
    Breakdown,
    /// A yard cut cannot be made, is not needed, or is missing.
    YardCut,
    /// What a yard cut leaves differs from what the plan says.
    YardLeft,
    /// Something does not lie where its cuts put it.
    Position,
    /// Something reaches beyond the good wood.
    Edge,
    /// Two pieces lie on each other, or closer than a kerf.
    Overlap,
    /// How much of a sheet is needed, what that leaves, or "measure first" is wrong.
    Slack,
    /// The yard does not cut strips of this width.
    RipWidth,
    /// More cuts on one sheet than the yard makes.
    MostCuts,
    /// More sheets of a kind than can be had.
    Stock,
    /// A strip on hand that is not there, or not as the plan says.
    OnHand,
    /// The car does not take the piece.
    Car,
    /// The saw at home cannot cross the strip.
    Crosses,
    /// A strip differs from what the yard's cuts give.
    Strip,
    /// A panel's face grain runs the wrong way.
    Grain,
    /// A panel comes from a sheet kind it may not be cut from.
    SheetKind,
    /// A panel comes out under or over what its line allows, or not like the others of its line.
    PanelSize,
    /// A panel does not fit its strip's width, or trimming is wrong.
    Trim,
    /// The first end is not squared as it must be.
    Squaring,
    /// The hand would hold a piece that is too short.
    Hand,
    /// The saw order does not cut the strips as they are laid out.
    SawOrder,
    /// What a crosscut leaves differs from what the plan says.
    SawLeft,
    /// Panels are missing, or there are too many.
    Count,
    /// Extra panels that nobody asked for, or miscounted.
    Extra,
    /// An amount of money is wrong.
    Price,
    /// Cuts or paid cuts are miscounted.
    PaidCuts,
    /// The plan claims more than is proved.
    Proof,
    /// What a later aim reached is not what the plan has.
    Level,
    /// What falls off a strip or a board is wrong.
    FallOff,
    /// The list of offcuts is wrong.
    Offcut,
    /// An area is wrong.
    Area,
    /// A weight is wrong.
    Weight,
    /// The car's load is wrong.
    Load,
    /// A letter is missing or used twice.
    Letter,
    /// Sheets are numbered or grouped wrongly.
    Group,
    /// A part of the week is missing, or nobody asked for it.
    WeekPart,
    /// A piece of canvas is not its panel with the overlap, or lies against the weave.
    Piece,
    /// What is bought of the roll does not hold its strips, or is not sold so.
    Roll,
    /// A stack under the press is not as it must be.
    Press,
    /// A stack in a box, bag or bundle is not as it must be.
    Parcel,
    /// A box, bag or bundle is over its limit.
    Limit,
    /// Something is said not to fit that does, or the other way round.
    Misfit,
    /// A label does not say what the job asks for.
    Label,
    /// The shopping list has too little, too much, or the wrong thing.
    Need,
    /// The calendar cannot be kept, or says what is not so.
    Calendar,
}

/// One thing that is wrong with a plan.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Violation {
    /// The rule that is broken.
    pub rule: Rule,
    /// Where in the plan, such as `sheet 1, board 1, rip 2`.
    pub place: String,
    /// What is wrong, in words and the job's units; lower case, no final period.
    pub what: String,
}

impl fmt::Display for Violation {
    /// `sheet 1, board 1, rip 2: the strip is 12 in. wide where ...`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.place, self.what)
    }
}

impl std::error::Error for Violation {}
