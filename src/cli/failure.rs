//! What ends a command early: the faults, and whether the input is wrong or the job cannot be done. Printed on standard
//! error, every fault with its place and remedy; coloured only on a terminal and unless `NO_COLOR` is set.

use anstyle::{AnsiColor, Style};
use std::fmt::Write;
use std::io::Write as _;
use std::process::ExitCode;
use yardslip::data::Fault;

/// Why a command did not do its work.
#[derive(Debug)]
pub(crate) struct Failure {
    code: u8,
    faults: Vec<Fault>,
}

impl Failure {
    /// The job, as it stands, cannot be done: exit code 1.
    pub(super) fn undoable(faults: Vec<Fault>) -> Self {
        Failure { code: 1, faults }
    }

    /// The input is wrong: exit code 2.
    pub(super) fn input(faults: Vec<Fault>) -> Self {
        Failure { code: 2, faults }
    }

    /// The faults, for those who report them in another form too.
    pub(super) fn faults(&self) -> &[Fault] {
        &self.faults
    }

    /// Says what went wrong, and hands over the exit code.
    pub(crate) fn report(&self) -> ExitCode {
        let texts: Vec<String> = self.faults.iter().map(coloured).collect();
        let mut stream = anstream::stderr().lock();
        // Nobody is left to tell where standard error itself is closed.
        let _ = stream.write_all(texts.join("\n").as_bytes()).and_then(|()| stream.flush());
        ExitCode::from(self.code)
    }
}

/// `error: ` and the fault, the words that frame it in colour, a line end after it.
fn coloured(fault: &Fault) -> String {
    let (red, green, dim) = (AnsiColor::Red.on_default().bold(), AnsiColor::Green.on_default(), Style::new().dimmed());
    let mut text = format!("{red}error:{red:#} ");
    for line in fault.to_string().lines() {
        let _ = match (line.strip_prefix("  try: "), line.strip_prefix("  --> ")) {
            (Some(remedy), _) => writeln!(text, "  {green}try:{green:#} {remedy}"),
            (_, Some(place)) => writeln!(text, "  {dim}-->{dim:#} {place}"),
            _ => writeln!(text, "{line}"),
        };
    }
    text
}
