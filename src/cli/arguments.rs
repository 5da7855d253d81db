//! The command line as it is typed: names, defaults and the help texts. Values are checked for form only.

use clap::{Args, Parser, Subcommand, ValueEnum};
use std::path::PathBuf;

/// What the program was called with.
#[derive(Debug, Parser)]
#[command(
    name = "yardslip",
    version,
    about = "Plans a batch of painting panels from the lumber yard to the packed bundle",
    long_about = "Plans a batch of painting panels: which sheets to buy, what the yard rips, what to crosscut at home \
                  in which order, how to finish, mount and pack. It proves that no cheaper plan exists, or says how \
                  far it got.",
    after_help = "Begin with `yardslip start`, then `yardslip plan job.toml`.\n\
                  Exit codes: 0 done, 1 the job cannot be done, 2 the input is wrong.",
    subcommand_required = true,
    arg_required_else_help = true
)]
pub(super) struct Arguments {
    #[command(subcommand)]
    pub(super) command: Command,
}

/// The commands, in the order a newcomer meets them.
#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Plan a job and write its papers into a folder
    Plan(Plan),
    /// Read a job and report on it, writing nothing
    Check(Check),
    /// Write a commented job file to begin from
    Start {
        /// Where to write it, `-` to print it; an existing file is never touched
        #[arg(default_value = "job.toml")]
        file: PathBuf,
    },
    /// Plan the crosscuts again from the strips that the yard really cut
    Recut(Recut),
    /// List usual panel sizes
    Sizes,
    /// Print completions for a shell
    Completions {
        /// The shell
        shell: clap_complete::Shell,
    },
    /// Print the manual page
    Man,
}

/// `yardslip plan`
#[derive(Args, Debug)]
#[allow(clippy::struct_excessive_bools)] // each is a switch of its own, on or off
pub(super) struct Plan {
    /// The job file
    pub(super) job: PathBuf,
    #[command(flatten)]
    pub(super) papers: Papers,
    /// Print the plan for machines (plan.json) instead of the summary
    #[arg(long, conflicts_with = "quiet")]
    pub(super) json: bool,
    /// Print nothing but errors
    #[arg(long)]
    pub(super) quiet: bool,
    /// Longest to search for a better plan or a proof
    #[arg(long, value_name = "SECONDS", default_value = "10", value_parser = seconds, allow_negative_numbers = true)]
    pub(super) time: f64,
    /// Solve alternatives side by side: each sheet alone, along or across, thin kerf, no squaring
    #[arg(long)]
    pub(super) compare: bool,
    /// Offcuts on hand, a CSV list to take from first
    #[arg(long, value_name = "CSV")]
    pub(super) rack: Option<PathBuf>,
    /// Write the rack's new state into its list; the old list is kept beside it
    #[arg(long, requires = "rack")]
    pub(super) update_rack: bool,
}

/// Where papers go and what they are printed on.
#[derive(Args, Debug)]
pub(super) struct Papers {
    /// Folder for the papers; left out: beside the job, named after it
    #[arg(long, value_name = "FOLDER")]
    pub(super) out: Option<PathBuf>,
    /// Put the papers there even if the folder holds files of yours; they are kept in FOLDER.old
    #[arg(long)]
    pub(super) replace: bool,
    /// Paper to print on; left out: letter for a job in inches, else A4
    #[arg(long, value_enum)]
    pub(super) paper: Option<Paper>,
}

/// Sizes of printing paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum Paper {
    /// 8 1/2 x 11 in.
    Letter,
    /// 210 x 297 mm
    A4,
}

/// `yardslip check`
#[derive(Args, Debug)]
pub(super) struct Check {
    /// The job file
    pub(super) job: PathBuf,
}

/// `yardslip recut`
#[derive(Args, Debug)]
pub(super) struct Recut {
    /// The plan.json among the papers of the job
    pub(super) plan: PathBuf,
    /// The strips on hand: a CSV list of name, width, length and count
    #[arg(long, value_name = "CSV")]
    pub(super) strips: PathBuf,
    #[command(flatten)]
    pub(super) papers: Papers,
    /// Print nothing but errors
    #[arg(long)]
    pub(super) quiet: bool,
    /// Longest to search for a better plan or a proof
    #[arg(long, value_name = "SECONDS", default_value = "10", value_parser = seconds, allow_negative_numbers = true)]
    pub(super) time: f64,
}

/// A number of seconds above zero; a week is as long as anyone waits.
fn seconds(text: &str) -> Result<f64, String> {
    const WEEK: f64 = 7.0 * 24.0 * 3600.0;
    match text.trim().parse::<f64>() {
        Ok(value) if value > 0.0 && value <= WEEK => Ok(value),
        _ => Err(format!("give a number of seconds above 0 and up to {WEEK}, such as 30")),
    }
}
