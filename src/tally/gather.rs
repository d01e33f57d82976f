//! Gathering: several designs, so many pairs of each, together: what is needed, what is on the shelf,
//! what is missing, and what to buy.
//!
//! Needs are sums of the designs' tallies. Packs and spools are rounded up once, for all together,
//! so they can be fewer than the booklets' sums.

use super::Tally;
use super::count::{packs_for, thread_of, whole_units};
use crate::design::{Bead, Design, Finding, Thread};
use crate::units::{Grams, Mm};
use serde::Serialize;

/// One design with its tally and the number of pairs wanted.
#[derive(Clone, Copy, Debug)]
pub struct Order<'a> {
    /// The design.
    pub design: &'a Design,
    /// Its tally.
    pub tally: &'a Tally,
    /// Pairs to make.
    pub pairs: u32,
}

/// Everything that the orders need.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Gathering {
    /// The designs, in the order given.
    pub designs: Vec<DesignLine>,
    /// Beads, in the order in which the designs first name them.
    pub beads: Vec<BeadLine>,
    /// Threads, likewise.
    pub threads: Vec<ThreadLine>,
    /// Findings, likewise.
    pub findings: Vec<FindingLine>,
    /// Currency of the prices; `None` when there is none, or when palettes differ in it.
    pub currency: Option<String>,
    /// Cost of everything to buy; `None` unless all of it has a price in one currency.
    pub cost: Option<f64>,
    /// Names of what has to be bought and has no price.
    pub without_price: Vec<String>,
}

/// One design's share.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct DesignLine {
    /// File name without folder and extension.
    pub slug: String,
    /// Title.
    pub title: String,
    /// The colourway counted; `None` for the design as written.
    pub colourway: Option<String>,
    /// Pairs to make.
    pub pairs: u32,
    /// Beads for those pairs, without spare.
    pub beads: u64,
}

/// One bead of the palette.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BeadLine {
    /// Key in the palette.
    pub key: String,
    /// Name.
    pub name: String,
    /// The seller's supplier code.
    pub code: Option<String>,
    /// Beads needed, without spare.
    pub count: u64,
    /// Grams needed, with the spare allowance.
    pub grams: Grams,
    /// Grams on the shelf.
    #[serde(rename = "stock_grams")]
    pub stock: Option<Grams>,
    /// Grams that the shelf does not have.
    #[serde(rename = "missing_grams")]
    pub missing: Grams,
    /// Grams in a pack.
    #[serde(rename = "pack_grams")]
    pub pack: Option<Grams>,
    /// Packs that hold what is needed, the shelf left out.
    pub packs: Option<u32>,
    /// Packs that hold what is missing.
    pub packs_to_buy: Option<u32>,
    /// Price of those packs.
    pub price: Option<f64>,
}

/// One thread of the palette.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ThreadLine {
    /// Key in the palette.
    pub key: String,
    /// Name.
    pub name: String,
    /// Millimetres needed.
    #[serde(rename = "length_mm")]
    pub length: Mm,
    /// Millimetres on the shelf.
    #[serde(rename = "stock_mm")]
    pub stock: Option<Mm>,
    /// Millimetres that the shelf does not have.
    #[serde(rename = "missing_mm")]
    pub missing: Mm,
    /// Millimetres on a spool.
    #[serde(rename = "spool_mm")]
    pub spool: Option<Mm>,
    /// Spools that hold what is needed, the shelf left out.
    pub spools: Option<u32>,
    /// Spools that hold what is missing.
    pub spools_to_buy: Option<u32>,
    /// Price of those spools.
    pub price: Option<f64>,
}

/// One finding of the palette.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FindingLine {
    /// Key in the palette.
    pub key: String,
    /// Name.
    pub name: String,
    /// How many are needed.
    pub count: u64,
    /// How many are on the shelf.
    pub stock: Option<u32>,
    /// How many the shelf does not have.
    pub missing: u64,
    /// Price of the missing ones.
    pub price: Option<f64>,
}

/// Adds the orders up.
#[must_use]
pub fn gather(orders: &[Order]) -> Gathering {
    let beads = beads(orders);
    let threads = threads(orders);
    let findings = findings(orders);
    let currency = currency(orders);
    let priced: Vec<(&str, bool, Option<f64>)> = beads
        .iter()
        .map(|b| (b.name.as_str(), b.missing > Grams::ZERO, b.price))
        .chain(threads.iter().map(|t| (t.name.as_str(), t.missing > Mm::ZERO, t.price)))
        .chain(findings.iter().map(|f| (f.name.as_str(), f.missing > 0, f.price)))
        .filter(|(_, to_buy, _)| *to_buy)
        .collect();
    let sum: Option<f64> = priced.iter().map(|(_, _, price)| *price).sum();
    let without_price =
        priced.iter().filter(|(_, _, price)| price.is_none()).map(|(name, ..)| (*name).to_owned()).collect();
    Gathering {
        designs: orders.iter().map(design_line).collect(),
        cost: sum.filter(|_| currency.is_some()),
        without_price,
        currency,
        beads,
        threads,
        findings,
    }
}

fn design_line(order: &Order) -> DesignLine {
    DesignLine {
        slug: order.design.slug.clone(),
        title: order.design.title.to_string(),
        colourway: order.design.colourway_name().map(str::to_owned),
        pairs: order.pairs,
        beads: order.tally.beads_pair as u64 * u64::from(order.pairs),
    }
}

/// The one currency of all palettes.
fn currency(orders: &[Order]) -> Option<String> {
    let mut all = orders.iter().filter_map(|order| order.design.palette.currency.as_ref());
    let first = all.next()?;
    all.all(|other| other == first).then(|| first.clone())
}

/// Things of several palettes with the same description are one thing, wherever they are described.
fn line_for<T: Clone>(lines: &mut Vec<(T, Sum)>, thing: &T, same: impl Fn(&T, &T) -> bool) -> usize {
    lines.iter().position(|(known, _)| same(known, thing)).unwrap_or_else(|| {
        lines.push((thing.clone(), Sum::default()));
        lines.len() - 1
    })
}

/// What has been added up for one thing.
#[derive(Clone, Copy, Default)]
struct Sum {
    count: u64,
    measure: f64,
}

fn same_bead(one: &Bead, other: &Bead) -> bool {
    Bead { place: other.place.clone(), ..one.clone() } == *other
}

fn same_thread(one: &Thread, other: &Thread) -> bool {
    Thread { place: other.place.clone(), ..one.clone() } == *other
}

fn same_finding(one: &Finding, other: &Finding) -> bool {
    // How many an earring takes is the design's business, not the finding's.
    Finding { place: other.place.clone(), per_earring: other.per_earring, ..one.clone() } == *other
}

fn beads(orders: &[Order]) -> Vec<BeadLine> {
    let mut sums: Vec<(Bead, Sum)> = Vec::new();
    for order in orders {
        for count in order.tally.beads.iter().filter(|count| count.one > 0) {
            let bead = &order.design.palette.beads[count.bead.0];
            let index = line_for(&mut sums, bead, same_bead);
            let sum = &mut sums[index].1;
            sum.count += count.pair as u64 * u64::from(order.pairs);
            sum.measure += count.grams.0 * f64::from(order.pairs);
        }
    }
    sums.into_iter()
        .map(|(bead, sum)| {
            let grams = Grams(sum.measure);
            let missing = (grams - bead.stock.unwrap_or(Grams::ZERO)).max(Grams::ZERO);
            let packs_to_buy = bead.pack.and_then(|pack| packs_for(missing, pack.grams));
            BeadLine {
                key: bead.key,
                name: bead.name.to_string(),
                code: bead.code,
                count: sum.count,
                grams,
                stock: bead.stock,
                missing,
                pack: bead.pack.map(|pack| pack.grams),
                packs: bead.pack.and_then(|pack| packs_for(grams, pack.grams)),
                packs_to_buy,
                price: packs_to_buy
                    .zip(bead.pack.and_then(|pack| pack.price))
                    .map(|(packs, price)| f64::from(packs) * price),
            }
        })
        .collect()
}

fn threads(orders: &[Order]) -> Vec<ThreadLine> {
    let mut sums: Vec<(Thread, Sum)> = Vec::new();
    for order in orders {
        for count in &order.tally.threads {
            let index = line_for(&mut sums, thread_of(order.design, count.thread), same_thread);
            sums[index].1.measure += count.pair.0 * f64::from(order.pairs);
        }
    }
    sums.into_iter()
        .map(|(thread, sum)| {
            let length = Mm(sum.measure);
            let missing = (length - thread.stock.unwrap_or(Mm::ZERO)).max(Mm::ZERO);
            let spools_to_buy = thread.spool.and_then(|spool| whole_units(missing / spool.length));
            ThreadLine {
                key: thread.key,
                name: thread.name.to_string(),
                length,
                stock: thread.stock,
                missing,
                spool: thread.spool.map(|spool| spool.length),
                spools: thread.spool.and_then(|spool| whole_units(length / spool.length)),
                spools_to_buy,
                price: spools_to_buy
                    .zip(thread.spool.and_then(|spool| spool.price))
                    .map(|(spools, price)| f64::from(spools) * price),
            }
        })
        .collect()
}

fn findings(orders: &[Order]) -> Vec<FindingLine> {
    let mut sums: Vec<(Finding, Sum)> = Vec::new();
    for order in orders {
        for count in &order.tally.findings {
            let index = line_for(&mut sums, &order.design.findings[count.finding], same_finding);
            sums[index].1.count += u64::from(count.pair) * u64::from(order.pairs);
        }
    }
    sums.into_iter()
        .map(|(finding, sum)| {
            let missing = sum.count.saturating_sub(u64::from(finding.stock.unwrap_or(0)));
            FindingLine {
                key: finding.key,
                name: finding.name.to_string(),
                count: sum.count,
                stock: finding.stock,
                missing,
                price: finding.price.map(|price| price * missing as f64),
            }
        })
        .collect()
}
