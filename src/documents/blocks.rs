//! What papers are made of: a title and blocks (headings, text, big figures, tables with tick boxes, drawings,
//! cautions), the same for the screen and for the printer. `html` and `pages` turn them into what is seen.

use super::font::Weight;
use super::frame::Frame;

/// One of the papers of a packet.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Paper {
    /// Name for files and links: small letters and hyphens.
    pub name: String,
    /// What stands at its head.
    pub title: String,
    /// Its content, top to bottom.
    pub blocks: Vec<Block>,
    /// Pages drawn by hand (of the packet's page size, or that turned on its side), which are printed instead of the
    /// blocks; the blocks are then for the screen.
    pub printed: Vec<Frame>,
}

/// A part of a paper.
#[derive(Clone, Debug, PartialEq)]
pub enum Block {
    /// A heading within the paper.
    Heading(String),
    /// A paragraph.
    Text(String),
    /// A figure to be read at arm's length, and what it is.
    Figure {
        /// The figure, with its unit.
        figure: String,
        /// What it is.
        text: String,
    },
    /// Short points; numbered where they are steps.
    List {
        /// True where they are done in this order.
        steps: bool,
        /// One line each.
        lines: Vec<String>,
    },
    /// A table.
    Table(Table),
    /// A drawing, with what it shows in words; an empty caption is not printed.
    Drawing(Frame, String),
    /// A caution where the work happens.
    Caution(Caution),
}

/// A table.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows.
    pub rows: Vec<Row>,
    /// True where each row is ticked off when it is done.
    pub ticks: bool,
}

/// A column of a table.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Column {
    /// What stands above it.
    pub title: String,
    /// True for figures, which line up on the right.
    pub right: bool,
    /// How heavy its cells are.
    pub weight: Weight,
    /// True where its cells are read at arm's length.
    pub big: bool,
}

/// A row of a table.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Row {
    /// As many as there are columns.
    pub cells: Vec<String>,
    /// True for a total: a thick line above, bold.
    pub total: bool,
}

/// Cautions that belong together.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Caution {
    /// What they are about.
    pub title: String,
    /// What to heed.
    pub warnings: Vec<Warning>,
}

/// One caution.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Warning {
    /// What to do or not to do.
    pub text: String,
    /// Who says so.
    pub source: String,
}

/// Printed under every caution.
pub const DEFERS: &str = "These are reminders, not instruction. The manual of the machine, the maker's sheet of the \
                          material, local codes and licensed practice come first.";

impl Paper {
    /// A paper without content yet.
    pub fn new(name: impl Into<String>, title: impl Into<String>) -> Paper {
        Paper { name: name.into(), title: title.into(), ..Paper::default() }
    }

    /// Adds a heading.
    pub fn heading(&mut self, text: impl Into<String>) {
        self.blocks.push(Block::Heading(text.into()));
    }

    /// Adds a paragraph.
    pub fn text(&mut self, text: impl Into<String>) {
        self.blocks.push(Block::Text(text.into()));
    }

    /// Adds a big figure and what it is.
    pub fn figure(&mut self, figure: impl Into<String>, text: impl Into<String>) {
        self.blocks.push(Block::Figure { figure: figure.into(), text: text.into() });
    }

    /// Adds points, or steps to be done in order; nothing where there are none.
    pub fn list(&mut self, steps: bool, lines: Vec<String>) {
        if !lines.is_empty() {
            self.blocks.push(Block::List { steps, lines });
        }
    }

    /// Adds a table; nothing where it has no rows.
    pub fn table(&mut self, table: Table) {
        if !table.rows.is_empty() {
            self.blocks.push(Block::Table(table));
        }
    }

    /// Adds a caution; nothing where there is nothing to heed.
    pub fn caution(&mut self, caution: Caution) {
        if !caution.warnings.is_empty() {
            self.blocks.push(Block::Caution(caution));
        }
    }
}

impl Table {
    /// A table without rows yet.
    pub fn new(columns: impl IntoIterator<Item = Column>) -> Table {
        Table { columns: columns.into_iter().collect(), ..Table::default() }
    }

    /// The table with a box to tick in each row.
    #[must_use]
    pub fn ticked(self) -> Table {
        Table { ticks: true, ..self }
    }

    /// Adds a row.
    pub fn row<T: Into<String>>(&mut self, cells: impl IntoIterator<Item = T>) {
        self.rows.push(Row { cells: cells.into_iter().map(Into::into).collect(), total: false });
    }

    /// Adds a total.
    pub fn total<T: Into<String>>(&mut self, cells: impl IntoIterator<Item = T>) {
        self.rows.push(Row { cells: cells.into_iter().map(Into::into).collect(), total: true });
    }
}

impl Column {
    /// A column of words.
    pub fn left(title: impl Into<String>) -> Column {
        Column { title: title.into(), ..Column::default() }
    }

    /// A column of figures.
    pub fn right(title: impl Into<String>) -> Column {
        Column { right: true, ..Column::left(title) }
    }

    /// The column in bold.
    #[must_use]
    pub fn bold(self) -> Column {
        Column { weight: Weight::Bold, ..self }
    }

    /// The column in bold and large enough to be read at arm's length.
    #[must_use]
    pub fn big(self) -> Column {
        Column { big: true, ..self.bold() }
    }
}

impl Caution {
    /// A caution without warnings yet.
    pub fn about(title: impl Into<String>) -> Caution {
        Caution { title: title.into(), warnings: Vec::new() }
    }

    /// The caution with one more thing to heed, and who says so.
    #[must_use]
    pub fn heed(mut self, text: impl Into<String>, source: impl Into<String>) -> Caution {
        self.warnings.push(Warning { text: text.into(), source: source.into() });
        self
    }
}
