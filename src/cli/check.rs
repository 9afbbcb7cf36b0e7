//! `maulstick check`: reads, resolves, works, and prints the findings.

use std::mem;

use super::arguments::{CheckArguments, Format};
use super::settings::GuideFolder;
use super::terminal::{Reply, Stream, Trouble, ask};
use super::{FINE, FOUND};
use crate::report::{self, wording};
use crate::rules::Rename;
use crate::story::{self, Checked, Mends, SchemeMend};

/// Checks a guide; its findings are the output.
pub(super) fn run(asked: &CheckArguments) -> Result<u8, Trouble> {
    let guide = GuideFolder::open(&asked.guide)?;
    let checked = story::check(&guide.door).map_err(|error| Trouble::with_disk("the guide can't be read", &error))?;
    if asked.mend {
        return mend(&guide, &checked, asked);
    }
    let (findings, files) = (&checked.findings, &checked.files);
    match asked.format {
        Format::Text => Stream::Out.tell(&report::text(findings, files, Stream::Out.style())),
        Format::Json => Stream::Out.write(&report::json(findings, files)),
        Format::Sarif => Stream::Out.write(&report::sarif(findings, files)),
    }
    let passed = checked.findings.pass(asked.strict);
    // The program ends here: to give back piece by piece what a large guide took would only take time.
    mem::forget(checked);
    Ok(if passed { FINE } else { FOUND })
}

/// Shows the mends, carries them out if they are wanted, then tells what is left.
fn mend(guide: &GuideFolder, checked: &Checked, asked: &CheckArguments) -> Result<u8, Trouble> {
    let mut mends = Vec::new();
    let Mends { found, unread } = story::mends(checked);
    // Why nothing is renamed there: that no better order was found would not be true of these.
    let mut left_alone = !unread.is_empty();
    tell_unread(&unread);
    for mend in found {
        let breaks = story::breaks(&guide.door, checked, &mend);
        match breaks.map_err(|error| Trouble::with_disk("the guide can't be read", &error))? {
            None => mends.push(mend),
            Some(error) => {
                left_alone = true;
                let SchemeMend { title, folder, .. } = mend;
                Stream::Out.write(&format!(
                    "{title}: {folder}\n  a better order was found, but with new numbers there is an error\n  {error}\n  \
                     give each step a name of its own behind its number, or renumber these by hand\n"
                ));
            }
        }
    }
    mends.iter().for_each(show);
    if mends.is_empty() && left_alone {
        Stream::Out.write("no file was renamed\n");
    } else if mends.is_empty() {
        Stream::Out.write("no better order was found; no file was renamed\n");
    } else {
        match if asked.yes { Reply::Yes } else { ask("Rename these files?") } {
            Reply::Yes => rename(guide, &mends)?,
            Reply::No => Stream::Out.write("no file was renamed\n"),
            Reply::Nobody => Stream::Out.write("no file was renamed yet: to rename them, run it again with --yes\n"),
        }
    }
    Stream::Out.write("\n");
    let after = story::check(&guide.door).map_err(|error| Trouble::with_disk("the guide can't be read", &error))?;
    Stream::Out.tell(&report::text(&after.findings, &after.files, Stream::Out.style()));
    Ok(if after.findings.pass(asked.strict) { FINE } else { FOUND })
}

/// At most so many titles are named in one line.
const MOST_NAMED: usize = 3;

/// Says of which schemes no order was sought, and why, in one line.
fn tell_unread(titles: &[String]) {
    if titles.is_empty() {
        return;
    }
    let more = titles.len().saturating_sub(MOST_NAMED);
    let named = titles.iter().take(MOST_NAMED);
    let named = match more {
        0 => wording::listed(named),
        more => format!("{} and {more} more", named.map(|title| wording::quoted(title)).collect::<Vec<_>>().join(", ")),
    };
    Stream::Out.write(&format!(
        "no order was sought for {named}, because not everything there could be read: mend the errors first\n"
    ));
}

/// Renames the step files of some schemes to their new order.
fn rename(guide: &GuideFolder, mends: &[SchemeMend]) -> Result<(), Trouble> {
    for mend in mends {
        story::carry_out(&guide.door, mend).map_err(|error| {
            let help = "every step has its old or its new name, and no text is lost; run it again when the files rest";
            Trouble::new(format!("not all steps were renamed: {error}"), help)
        })?;
    }
    Ok(())
}

/// Shows a scheme's new order and the names that change for it.
fn show(mend: &SchemeMend) {
    Stream::Out.write(&format!("{}: {}\n", mend.title, mend.folder));
    for (at, title) in mend.steps.iter().enumerate() {
        Stream::Out.write(&format!("  {:>3}. {title}\n", at + 1));
    }
    for Rename { from, to } in &mend.renames {
        Stream::Out.write(&format!("  {from}.md → {to}.md\n"));
    }
}
