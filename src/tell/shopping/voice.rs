//! A list in the words of a language: amounts, bottles, and what they are for.

use crate::caution::{self, CautionTexts};
use crate::colour::space;
use crate::guide::{Scheme, Tool};
use crate::measure::{Millilitres, Money, exact, predicted};
use crate::quantity::{Estimate, Purpose, a_drop_or_two, ordinary_drop};
use crate::report::visible_line;
use crate::shop::{GearLine, Line, List, Pick, Substitute, Use};
use crate::tell::cautions;
use crate::theme::Words;
use crate::trade::Kind;

/// More letters of one name are cut off: nobody's label is that long.
const LONGEST_NAME: usize = 200;

/// A name as one line that shows all that is in it.
pub(crate) fn name(name: &str) -> String {
    visible_line(name, LONGEST_NAME)
}

/// Up to this lightness a paint without a hue is a black, and from that one on it is a white (CIELAB).
const BLACK: f64 = 25.0;
const WHITE: f64 = 92.0;
/// No further from the axis of greys than this it has no hue that one sees.
const GREY: f64 = 8.0;

/// Whether so little is needed that it is a drop or two of that size.
fn is_trace(need: Estimate, drop: Millilitres) -> bool {
    need.high.0 < a_drop_or_two(drop).0
}

/// The drop of a line's paint.
fn drop_of(line: &Line<'_>, list: &List<'_>) -> Millilitres {
    list.order.worked.conditions.bench.drop(&line.paint)
}

/// Maker, range and number.
pub(crate) fn origin(line: &Line<'_>) -> String {
    let paint = &line.paint;
    let parts = [Some(&paint.maker), Some(&paint.range), paint.code.as_ref()];
    let named = parts.into_iter().flatten().filter(|part| !part.is_empty());
    named.map(|part| name(part)).collect::<Vec<_>>().join(" · ")
}

/// The words that a list is written in.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Voice<'a> {
    words: &'a Words,
    /// The texts on safety, which no theme can change.
    pub(crate) cautions: &'static CautionTexts,
}

impl<'a> Voice<'a> {
    /// The words of a guide's language.
    pub(crate) fn new(words: &'a Words, language: &str) -> Self {
        Self { words, cautions: CautionTexts::of(language) }
    }

    /// Words with their gaps filled.
    pub(crate) fn say(self, key: &str, fills: &[(&str, &str)]) -> String {
        self.words.filled(key, fills)
    }

    /// Words for a count, which fills `{n}`.
    pub(crate) fn count(self, key: &str, n: u64) -> String {
        self.words.counted(key, n)
    }

    /// Millilitres, predicted: two figures, or whole millilitres.
    pub(crate) fn figure(self, volume: Millilitres) -> String {
        self.words.number(&predicted(volume.0))
    }

    /// `about 6.4 ml (3.4–12)`, or `about 0.09 ml` where no more and no less is mixed; a trace is a drop or two of that size, for nothing finer can be taken from a bottle.
    pub(crate) fn estimate(self, need: Estimate, drop: Millilitres) -> String {
        if is_trace(need, drop) {
            return self.say("slip.drop", &[]);
        }
        let [likely, low, high] = [need.likely, need.low, need.high].map(|volume| self.figure(volume));
        if !need.is_open() {
            return self.say("slip.alone", &[("likely", &likely)]);
        }
        self.say("slip.about", &[("likely", &likely), ("low", &low), ("high", &high)])
    }

    /// What a line needs, or that it can't be told.
    pub(crate) fn need(self, line: &Line<'_>, list: &List<'_>) -> String {
        line.need.map_or_else(|| self.say("slip.unknown", &[]), |need| self.estimate(need, drop_of(line, list)))
    }

    /// How much is needed of what the guide has no product for.
    pub(crate) fn unlisted(self, need: Estimate, list: &List<'_>) -> String {
        self.estimate(need, ordinary_drop(&list.order.worked.conditions.bench))
    }

    /// `any black on the same base will do`, where so little of a plain black or white is needed that no bottle has to be
    /// bought for it.
    pub(crate) fn any_will_do(self, line: &Line<'_>, list: &List<'_>) -> Option<String> {
        let little = line.need.is_some_and(|need| is_trace(need, drop_of(line, list)));
        let plain = little && matches!(line.paint.kind, Kind::Paint | Kind::Ink);
        let lab = space::lab(space::linear(line.paint.colour.filter(|_| plain)?));
        let grey = lab.a.hypot(lab.b) < GREY;
        match lab.l {
            ..BLACK if grey => Some(self.say("slip.any-black", &[])),
            WHITE.. if grey => Some(self.say("slip.any-white", &[])),
            _ => None,
        }
    }

    /// What is said of a thing that keeps people safe: what it is for, then what the author calls it and adds.
    pub(crate) fn gear_note(self, line: &GearLine<'_>) -> String {
        let said = &self.cautions.gear(line.gear).text;
        let title = &self.cautions.gear(line.gear).title;
        let own = line.own.iter().filter_map(|tool| match &tool.note {
            Some(note) => Some(format!("{}: {}", name(&tool.name), name(note))),
            // What goes by the same name is said already.
            None => Some(name(&tool.name)).filter(|name| name != title),
        });
        [said.clone()].into_iter().chain(own).collect::<Vec<_>>().join(" · ")
    }

    /// `2 × 17 ml`, with the sizes of several joined by a plus.
    pub(crate) fn picks(self, picks: &[Pick]) -> String {
        let one = |pick: &Pick| {
            let (count, size) = (pick.count.to_string(), self.words.number(&exact(pick.bottle.size.0, 1)));
            self.say("slip.bottles", &[("count", &count), ("size", &size)])
        };
        picks.iter().map(one).collect::<Vec<_>>().join(" + ")
    }

    /// What is to be done about a line: the bottles to buy, or why there are none.
    pub(crate) fn bought(self, line: &Line<'_>) -> String {
        if line.is_there() {
            self.say("slip.there", &[])
        } else if line.picks.is_empty() {
            self.say("slip.no-size", &[])
        } else {
            self.picks(&line.picks)
        }
    }

    /// `9 ml in the cupboard`, where some is there and more is needed.
    pub(crate) fn partly_there(self, line: &Line<'_>) -> Option<String> {
        let amount = self.figure(line.have);
        (line.have.0 > 0.0).then(|| self.say("slip.have", &[("amount", &amount)]))
    }

    /// `by the likely figure 1 × 17 ml would do`, where that is less.
    pub(crate) fn would_do(self, line: &Line<'_>) -> Option<String> {
        let fewer = line.picks_likely != line.picks;
        let bottles = match line.picks_likely.as_slice() {
            [] => self.say("slip.none", &[]),
            picks => self.picks(picks),
        };
        fewer.then(|| self.say("slip.likely", &[("bottles", &bottles)]))
    }

    /// `or from the cupboard: Bog Iron (9 ml, difference 2.3)`, where something there comes near enough.
    pub(crate) fn substitutes(self, line: &Line<'_>) -> Option<String> {
        let one = |other: &Substitute| {
            let (name, amount) = (name(&other.paint.name), self.figure(other.have));
            match other.delta_e {
                Some(delta_e) => {
                    let difference = self.words.number(&exact(delta_e, 1));
                    self.say("slip.near", &[("name", &name), ("amount", &amount), ("difference", &difference)])
                }
                None => self.say("slip.alike", &[("name", &name), ("amount", &amount)]),
            }
        };
        let named: Vec<String> = line.substitutes.iter().map(one).collect();
        (!named.is_empty()).then(|| self.say("slip.instead", &[("names", &named.join(", "))]))
    }

    /// `still sold and nearest: New Blue (colour difference 0.7)`, where a thing is no longer sold and another comes near.
    pub(crate) fn still_sold(self, line: &Line<'_>) -> Option<String> {
        let other = line.still_sold.as_ref()?;
        let name = name(&other.paint.name);
        Some(match other.delta_e {
            Some(delta_e) => {
                let difference = self.words.number(&exact(delta_e, 1));
                self.say("slip.still-sold", &[("name", &name), ("difference", &difference)])
            }
            None => self.say("slip.still-sold-alike", &[("name", &name)]),
        })
    }

    /// An amount of money for a column, or nothing where it is not known.
    pub(crate) fn price(self, money: Option<Money>, list: &List<'_>) -> String {
        money.map(|money| self.words.amount(money, list.currency())).unwrap_or_default()
    }

    /// How many pieces of a thing are needed, and in how many packs, with what they cost; `None` of what is not counted.
    pub(crate) fn pieces(self, tool: &Tool, list: &List<'_>) -> Option<String> {
        let pieces = list.pieces(tool)?;
        let [count, packs, size] = [pieces.needed, pieces.packs, u64::from(pieces.pack)].map(|count| count.to_string());
        let key = if tool.pack.is_some() { "slip.packs" } else { "slip.pieces" };
        let said = self.say(key, &[("count", &count), ("packs", &packs), ("size", &size)]);
        Some(match pieces.price {
            Some(price) => format!("{said}, {}", self.words.money(price, list.currency())),
            None => said,
        })
    }

    /// What has to be bought, bottles, packs and single pieces apart: `11 bottles and 1 pack to buy`.
    pub(crate) fn to_buy(self, list: &List<'_>) -> String {
        let (packs, pieces) = list.packs();
        let counts = [("shopping.packs", packs), ("shopping.pieces", pieces)];
        let others = counts.into_iter().filter(|(_, count)| *count > 0).map(|(key, count)| self.count(key, count));
        let bottles = self.count("shopping.bottles", list.bottles());
        let things = others.fold(bottles, |one, other| self.say("shopping.and", &[("one", &one), ("other", &other)]));
        self.say("shopping.to-buy", &[("things", &things)])
    }

    /// The sum at the foot, with its currency.
    pub(crate) fn money(self, money: Option<Money>, list: &List<'_>) -> String {
        money.map_or_else(|| self.say("slip.no-sum", &[]), |money| self.words.money(money, list.currency()))
    }

    /// What to do before the steps that a list is for, as a line; empty where there is nothing to do.
    pub(crate) fn first(self, list: &List<'_>) -> String {
        self.cautions.to_do(&caution::to_do(list.cautions.iter().map(|(_, said)| *said)))
    }

    /// The cautions of the steps that a list is for, each once and in full, with the closing sentence.
    pub(crate) fn in_full(self, list: &List<'_>) -> Vec<String> {
        let said = cautions::in_full(self.cautions, list.cautions.iter().map(|(_, said)| *said));
        let closing = (!said.is_empty()).then(|| self.cautions.closing().to_owned());
        said.into_iter().chain(closing).collect()
    }

    /// The texts on safety in the language of the list, or in English.
    pub(crate) fn cautions(self) -> &'static CautionTexts {
        self.cautions
    }

    /// Steps by their schemes: the scheme, the word for so many steps, and the first and last of each run of them.
    pub(crate) fn by_scheme<'u, 's>(
        self,
        uses: &'u [Use<'s>],
        list: &List<'_>,
    ) -> Vec<(&'s Scheme, String, Vec<Vec<&'u Use<'s>>>)> {
        let mut found = Vec::new();
        for (worked, _) in &list.order.units {
            let own: Vec<&Use<'s>> = uses.iter().filter(|of| of.scheme.slug == worked.scheme.slug).collect();
            if let Some(first) = own.first() {
                let word = self.say(if own.len() == 1 { "uses.step" } else { "uses.steps" }, &[]);
                found.push((first.scheme, word, runs(&own)));
            }
        }
        found
    }

    /// `steps 2–5, 7`; on a list for several schemes with the name of each before its steps.
    pub(crate) fn uses(self, uses: &[Use<'_>], list: &List<'_>) -> String {
        let several = list.order.units.len() > 1;
        let shown = self.by_scheme(uses, list).into_iter().map(|(scheme, word, runs)| {
            let run =
                |run: &Vec<&Use<'_>>| run.iter().map(|of| of.step.number.to_string()).collect::<Vec<_>>().join("–");
            let steps = format!("{word} {}", runs.iter().map(run).collect::<Vec<_>>().join(", "));
            if several { format!("{}: {steps}", name(&scheme.title)) } else { steps }
        });
        shown.collect::<Vec<_>>().join("; ")
    }

    /// A figure without its unit, as [`Self::figure`] shows it.
    pub(crate) fn plain(self, figure: f64) -> String {
        self.figure(Millilitres(figure))
    }

    /// What something is called that the guide has no product for.
    pub(crate) fn purpose(self, purpose: Purpose) -> String {
        self.say(
            match purpose {
                Purpose::ColourChange | Purpose::Flush => "slip.airbrush-cleaner",
                Purpose::BrushCleaning => "slip.brush-cleaner",
                Purpose::DecalSoftening => "slip.decal-softener",
            },
            &[],
        )
    }

    /// The notes at the foot.
    pub(crate) fn notes(self, list: &List<'_>) -> Vec<String> {
        let mut notes: Vec<String> = self.added_up(list).into_iter().collect();
        if list.gone > 0 {
            notes.push(self.say("slip.gone", &[("count", &list.gone.to_string())]));
        }
        if list.unpriced > 0 {
            notes.push(self.count("slip.unpriced", u64::try_from(list.unpriced).unwrap_or(u64::MAX)));
        }
        if list.total_likely != list.total {
            notes.push(self.say("slip.total-likely", &[("total", &self.money(list.total_likely, list))]));
        }
        notes.push(self.say("slip.estimates", &[("share", &self.lost(list))]));
        notes
    }

    /// `For as many models as these armies have together: …`, where a list adds them up.
    pub(crate) fn added_up(self, list: &List<'_>) -> Option<String> {
        let armies = &list.order.added_up;
        let named = armies.iter().map(|army| name(army)).collect::<Vec<_>>().join(", ");
        (!armies.is_empty()).then(|| self.say("slip.added-up", &[("armies", &named)]))
    }

    /// How many hundredths of a bottle stay in it.
    pub(crate) fn lost(self, list: &List<'_>) -> String {
        self.words.percent((1.0 - list.usable) * 100.0, 0)
    }
}

/// Steps in their order as runs: of three and more that follow each other the first and the last, of others each.
fn runs<'u, 's>(uses: &[&'u Use<'s>]) -> Vec<Vec<&'u Use<'s>>> {
    let mut runs: Vec<Vec<&Use<'s>>> = Vec::new();
    for of in uses {
        match runs.last_mut() {
            Some(run) if run.last().is_some_and(|last| last.step.number + 1 == of.step.number) => run.push(of),
            _ => runs.push(vec![of]),
        }
    }
    let shown = runs.into_iter().flat_map(|run| match run.as_slice() {
        [first, _, .., last] => vec![vec![*first, *last]],
        _ => run.into_iter().map(|of| vec![of]).collect(),
    });
    shown.collect()
}
