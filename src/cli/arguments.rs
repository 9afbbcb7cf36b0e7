//! The arguments as they are typed; they are checked in the settings.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};

/// Maulstick turns painting schemes, written once in Markdown, into everything a painter hands on.
#[derive(Debug, Parser)]
#[command(name = "maulstick", version, arg_required_else_help = true, disable_help_subcommand = true)]
pub(super) struct Arguments {
    #[command(subcommand)]
    pub(super) command: Command,
}

#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Lay out a new guide with one small worked scheme
    Start(StartArguments),
    /// Read a guide and tell what is wrong or worth knowing; write nothing
    Check(CheckArguments),
    /// Check a guide and write its site
    Publish(PublishArguments),
    /// Show a guide in the browser while you write it
    Easel(EaselArguments),
    /// Print the JSON Schema of a file, for editors that help while you write
    Schema(SchemaArguments),
}

#[derive(Debug, Args)]
pub(super) struct StartArguments {
    /// The folder of the new guide; it must be empty or not exist yet
    pub(super) folder: PathBuf,
}

#[derive(Debug, Args)]
pub(super) struct CheckArguments {
    /// The folder of the guide, with content/ in it
    #[arg(default_value = ".")]
    pub(super) guide: PathBuf,
    /// How the findings are shown
    #[arg(long, value_enum, default_value_t = Format::Text)]
    pub(super) format: Format,
    /// Let warnings count as errors
    #[arg(long)]
    pub(super) strict: bool,
    /// Show a better order for schemes whose order has faults, and rename their step files to it; no text changes
    #[arg(long, conflicts_with = "format")]
    pub(super) mend: bool,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum Format {
    /// For people
    Text,
    /// For scripts and editors
    Json,
    /// SARIF 2.1.0, for code hosts
    Sarif,
}

#[derive(Debug, Args)]
pub(super) struct PublishArguments {
    /// The folder of the guide, with content/ in it
    #[arg(default_value = ".")]
    pub(super) guide: PathBuf,
    /// The folder that the site is written to [default: published/ in the guide's folder]
    #[arg(long, value_name = "DIR")]
    pub(super) out: Option<PathBuf>,
    /// Let warnings count as errors
    #[arg(long)]
    pub(super) strict: bool,
}

#[derive(Debug, Args)]
pub(super) struct EaselArguments {
    /// The folder of the guide, with content/ in it
    #[arg(default_value = ".")]
    pub(super) guide: PathBuf,
    /// The port; a taken one gets the next that is free, 0 takes any
    #[arg(long, value_name = "N", default_value_t = 4710)]
    pub(super) port: u16,
    /// Open the browser
    #[arg(long)]
    pub(super) open: bool,
}

#[derive(Debug, Args)]
pub(super) struct SchemaArguments {
    /// The kind of file
    #[arg(value_enum, default_value_t = FileKind::Step)]
    pub(super) of: FileKind,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum FileKind {
    /// guide.yaml
    Guide,
    /// paints/*.yaml
    Paints,
    /// tools.yaml
    Tools,
    /// The front matter of scheme.md
    Scheme,
    /// The front matter of a step
    Step,
    /// armies/*.yaml
    Army,
    /// The front matter of a free page
    Page,
}
