//! The arguments as they are typed; they are checked in the settings.

use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};

use crate::measure::{Count, FromText, Millilitres};

/// A whole number from 1 to `MOST`.
fn from_one_to<const MOST: u8>(text: &str) -> Result<u8, String> {
    let number = text.trim().parse().ok().filter(|number| (1..=MOST).contains(number));
    number.ok_or_else(|| format!("write a whole number from 1 to {MOST}"))
}

/// Maulstick turns painting schemes, written once in Markdown, into everything a painter hands on.
#[derive(Debug, Parser)]
#[command(name = "maulstick", version, arg_required_else_help = true)]
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
    /// Make the printed recipe of a scheme, a PDF
    Card(CardArguments),
    /// Show how much of everything one step takes: drops, millilitres, grams, cups
    Mix(MixArguments),
    /// Find the paints, or mixes of two, that come nearest to a paint
    Match(MatchArguments),
    /// Read a photographed brush-out card and print an entry for a file of paints
    Swatch(SwatchArguments),
    /// Compare a photographed model with the colours that were predicted, and say which step explains a difference
    Compare(CompareArguments),
    /// Print what has to be bought for schemes and armies, less what is in the cupboard
    Shop(ShopArguments),
    /// Lay an army's work out over its evenings
    Plan(PlanArguments),
    /// Explain a word: a key, a check, a stage, a bench figure, a caution, a JSON field
    Explain(ExplainArguments),
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
    /// Show a better order for schemes whose order has faults, and ask whether to rename their step files to it; no
    /// text changes
    #[arg(long, conflicts_with = "format")]
    pub(super) mend: bool,
    /// Rename without asking; where nobody can be asked, as in a script, no file is renamed without it
    #[arg(long, requires = "mend")]
    pub(super) yes: bool,
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
    /// Write beside the site one file a scheme with everything inside, to send in a chat
    #[arg(long)]
    pub(super) single: bool,
}

#[derive(Debug, Args)]
pub(super) struct CardArguments {
    /// The folder of the guide, with content/ in it
    pub(super) guide: PathBuf,
    /// The scheme, by the name of its folder or its title
    pub(super) scheme: String,
    /// The paper: A4, A5 or letter [default: as guide.yaml says]
    #[arg(long)]
    pub(super) paper: Option<String>,
    /// The file that the card is written to [default: SCHEME.pdf where you are]
    #[arg(long, value_name = "FILE")]
    pub(super) out: Option<PathBuf>,
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
pub(super) struct MixArguments {
    /// The folder of the guide, with content/ in it
    pub(super) guide: PathBuf,
    /// The scheme, by the name of its folder or its title; or an army, for a pot; where both have one name, schemes/NAME or
    /// armies/NAME
    pub(super) scheme: String,
    /// The step, by its number, the name or number of its file, or its title; a sequence, by its file or its title, for all
    /// of its steps; or a pot, for all steps that use it
    pub(super) step: String,
    /// For how many models; an army has its own
    #[arg(long, value_name = "N", default_value = "1", value_parser = Count::from_text, allow_negative_numbers = true)]
    pub(super) models: Count,
    /// What a cup holds, as in '2ml' [default: the guide's cup-size for an airbrush]
    #[arg(long, value_name = "VOLUME", value_parser = Millilitres::from_text)]
    pub(super) cup: Option<Millilitres>,
    /// How it is shown
    #[arg(long, value_enum, default_value_t = Plain::Text)]
    pub(super) format: Plain,
}

#[derive(Debug, Args)]
pub(super) struct MatchArguments {
    /// The folder of the guide, with content/ in it
    pub(super) guide: PathBuf,
    /// The paint, by its id or its name; or a colour such as "#2f7f7a"
    pub(super) paint: String,
    /// For a colour: the kind of paint to look among, such as paint, metal, clear, wash or ink [default: paint]
    #[arg(long, value_name = "KIND")]
    pub(super) among: Option<String>,
    /// Look among the paints of this file of paints, or of the guide in this folder
    #[arg(long, value_name = "FILE")]
    pub(super) from: Option<PathBuf>,
    /// Also look for the best mix of two paints, up to six parts of each
    #[arg(long)]
    pub(super) two: bool,
    /// How many are shown
    #[arg(long, value_name = "N", default_value_t = 5, value_parser = from_one_to::<100>, allow_negative_numbers = true)]
    pub(super) most: u8,
    /// How they are shown
    #[arg(long, value_enum, default_value_t = Plain::Text)]
    pub(super) format: Plain,
}

#[derive(Debug, Args)]
pub(super) struct CompareArguments {
    /// The folder of the guide, with content/ in it
    pub(super) guide: PathBuf,
    /// The scheme, by the name of its folder or its title
    pub(super) scheme: String,
    /// A photograph of the painted model: JPEG, PNG or WebP
    pub(super) photo: PathBuf,
    /// A point on the lit faces of an area, as in 'shell=41%,22%'; once for each area
    #[arg(long, value_name = "AREA=X,Y")]
    pub(super) at: Vec<String>,
    /// A map of the photograph: each area painted over in its colour, which the scheme names in 'areas.….map'; where no map
    /// and no point is named, the model's own, 'model.map'
    #[arg(long, value_name = "FILE")]
    pub(super) map: Option<PathBuf>,
    /// A point on something white in the picture; may be given several times where the light falls off
    #[arg(long, value_name = "X,Y")]
    pub(super) white: Vec<String>,
    /// A point on a grey card in the picture; may be given several times
    #[arg(long, value_name = "X,Y")]
    pub(super) grey: Vec<String>,
    /// The side of the square that is read around a point [default: 3% of the shorter side of the picture]
    #[arg(long, value_name = "SIDE")]
    pub(super) patch: Option<String>,
    /// How it is shown
    #[arg(long, value_enum, default_value_t = Plain::Text)]
    pub(super) format: Plain,
}

#[derive(Debug, Args)]
pub(super) struct SwatchArguments {
    /// The photograph: JPEG, PNG or WebP
    pub(super) photo: PathBuf,
    /// A point on the paint over the white band: pixels of the upright picture, or per cent of it
    #[arg(long, value_name = "X,Y")]
    pub(super) white: String,
    /// A point on the paint over the black band
    #[arg(long, value_name = "X,Y")]
    pub(super) black: String,
    /// A point on the bare white card; may be given several times where the light falls off
    #[arg(long, value_name = "X,Y")]
    pub(super) paper: Vec<String>,
    /// What the white card reflects
    #[arg(long, value_name = "SHARE", default_value = "85%")]
    pub(super) paper_value: String,
    /// A point on the bare black card: takes out the veil that glare lays over the picture; may be given several times
    #[arg(long, value_name = "X,Y")]
    pub(super) black_card: Vec<String>,
    /// What the black card reflects
    #[arg(long, value_name = "SHARE", default_value = "2%")]
    pub(super) black_value: String,
    /// A point on a bare grey card; may be given several times
    #[arg(long, value_name = "X,Y")]
    pub(super) grey: Vec<String>,
    /// What the grey card reflects
    #[arg(long, value_name = "SHARE", default_value = "18%")]
    pub(super) grey_value: String,
    /// The side of the square that is read around each point: pixels, or per cent of the shorter side [default: 3%]
    #[arg(long, value_name = "SIDE")]
    pub(super) patch: Option<String>,
    /// How many coats of paint are on the card
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = from_one_to::<60>, allow_negative_numbers = true)]
    pub(super) coats: u8,
    /// The id of the paint [default: from the name]
    #[arg(long)]
    pub(super) id: Option<String>,
    /// The name of the paint [default: from the id]
    #[arg(long)]
    pub(super) name: Option<String>,
    /// What it is: paint, metal, clear, wash, ink and so on
    #[arg(long, default_value = "paint")]
    pub(super) kind: String,
    /// How the entry is shown
    #[arg(long, value_enum, default_value_t = Plain::Text)]
    pub(super) format: Plain,
}

/// The formats of what is no finding.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum Plain {
    /// For people
    Text,
    /// For scripts
    Json,
}

#[derive(Debug, Args)]
pub(super) struct ShopArguments {
    /// The folder of the guide, with content/ in it
    pub(super) guide: PathBuf,
    /// The schemes and armies, each by the name of its folder or file, or by its title; where a scheme and an army have one
    /// name, by schemes/NAME or armies/NAME
    #[arg(required = true, value_name = "SCHEME-or-ARMY")]
    pub(super) what: Vec<String>,
    /// How many models of each scheme [default: as many as an army has, otherwise 10, or 1 of a large model]
    #[arg(long, value_name = "N", value_parser = Count::from_text, allow_negative_numbers = true)]
    pub(super) models: Option<Count>,
    /// A file with what is in the cupboard, written like 'have' of an army; it is in place of the army's own
    #[arg(long, value_name = "FILE")]
    pub(super) have: Option<PathBuf>,
    /// How the list is written
    #[arg(long, value_enum, default_value_t = ListFormat::Text)]
    pub(super) format: ListFormat,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum ListFormat {
    /// A till slip
    Text,
    /// A table for spreadsheets
    Csv,
    /// For scripts
    Json,
    /// Task lists in Markdown, to paste
    Md,
}

#[derive(Debug, Args)]
pub(super) struct PlanArguments {
    /// The folder of the guide, with content/ in it
    pub(super) guide: PathBuf,
    /// The army: the name of its file without .yaml, or its title
    pub(super) army: String,
    /// How the plan is shown
    #[arg(long, value_enum, default_value_t = PlanFormat::Text)]
    pub(super) format: PlanFormat,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(super) enum PlanFormat {
    /// For people
    Text,
    /// For calendars: one event an evening
    Ics,
    /// For scripts
    Json,
}

#[derive(Debug, Args)]
pub(super) struct ExplainArguments {
    /// The word, such as dry, decal-unsealed or wet-brush; left out: what can be asked for
    pub(super) word: Option<String>,
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
    /// The front matter of sequence.md
    Sequence,
    /// armies/*.yaml
    Army,
    /// The front matter of a free page
    Page,
}
