//! The way from a design file to the bytes of its booklet: every stage called once, in order.

use super::digest::{self, Inputs, MADE_PAGES, MADE_WARNINGS};
use super::history::Before;
use super::missing;
use super::pictures;
use super::settings::{BenchSettings, Settings};
use super::ticks::{self, Carried, Ticked};
use crate::booklet::{self, BenchEarring, Booklet, Edition, Record, Telling, Templates, Wording};
use crate::design::{Design, HouseStyle, Library, Order, Pair, Reading, Side, Tongue, Wishes, shortened};
use crate::diagnostic::{Problem, Severity};
use crate::layout::{self, DisplayList};
use crate::paint::{self, Times};
use crate::stitch::{self, Work};
use crate::tally::{self, Tally};
use std::collections::BTreeMap;
use std::path::Path;
use std::sync::{Arc, Mutex, PoisonError};

/// What all booklets of a run share.
pub(super) struct Desk {
    library: Library<'static>,
    templates: Templates,
    house: House,
    source_date_epoch: Option<i64>,
    wordings: Mutex<BTreeMap<String, Arc<Worded>>>,
}

/// What a folder of templates says of the house style.
#[derive(Debug, Default)]
pub(super) struct House {
    /// Colours, fonts and the like.
    pub(super) style: HouseStyle,
    /// Whether it orders the sections.
    pub(super) has_order: bool,
    /// Their order where sections of the maker's own are among them; else the language has it.
    pub(super) order: Option<Order>,
}

/// A language's wording with its hash.
#[derive(Debug)]
pub(super) struct Worded {
    /// Everything that booklets say.
    pub(super) wording: Wording,
    /// The hash of it all.
    pub(super) hash: String,
}

/// A design with its path followed and its beads counted.
#[derive(Debug)]
pub(super) struct Stitched {
    /// The design.
    pub(super) design: Design,
    /// Its work.
    pub(super) work: Work,
    /// Its tally.
    pub(super) tally: Tally,
    /// What a person should know of it.
    pub(super) problems: Vec<Problem>,
}

/// A booklet whose pages are set.
pub(super) struct Laid {
    booklet: Booklet,
    /// Its pages.
    pub(super) list: DisplayList,
    /// Whether it shows something else than its edition did at first.
    otherwise: bool,
    times: Times,
}

/// A finished booklet.
#[derive(Debug)]
pub(super) struct Made {
    /// The file.
    pub(super) bytes: Vec<u8>,
    /// Its pages.
    pub(super) pages: usize,
    /// What became of the ticks of the copy before it.
    pub(super) carried: Carried,
    /// Whether it shows a buyer something else than its edition did at first.
    pub(super) otherwise: bool,
    /// What is seen only once its pages are set.
    pub(super) advice: Vec<Problem>,
}

impl Desk {
    /// With what a maker's own templates say otherwise than the built-in ones.
    pub(super) fn new(library: Library<'static>, templates: Templates, house: House) -> Desk {
        // Reproducible builds: seconds since 1970 for tools that would otherwise ask the clock.
        let source_date_epoch =
            std::env::var("SOURCE_DATE_EPOCH").ok().and_then(|text| text.trim().parse().ok());
        Desk { library, templates, house, source_date_epoch, wordings: Mutex::default() }
    }

    /// Reads a design file as these settings wish it; palettes and studio files are read once a run.
    pub(super) fn read(&self, path: &Path, settings: &Settings) -> Reading {
        self.with_its_language(self.library.read(path, &wishes(settings)))
    }

    /// Reads a design file and does not decode its images: enough for the digests of its booklets.
    pub(super) fn glance(&self, path: &Path, settings: &Settings) -> Reading {
        self.with_its_language(self.library.glance(path, &wishes(settings)))
    }

    /// Only here is it known which languages there are: one that there is not is a problem of the design's
    /// studio file, or of what was asked for.
    fn with_its_language(&self, mut reading: Reading) -> Reading {
        let Some(studio) = reading.design.as_ref().map(|design| &design.studio) else { return reading };
        match self.wording(&studio.language) {
            Err(problem) => {
                reading.problems.push(match (&problem.place, &studio.language_at) {
                    (None, Some(at)) => problem.at(at.clone()),
                    _ => problem,
                });
                reading.design = None;
            }
            Ok(worded) => {
                let House { style, has_order, order } = &self.house;
                let dressed = *style != HouseStyle::default() || *has_order;
                // A maker's own language may stand on another than its name says.
                let chain = worded.wording.chain();
                let named_otherwise = chain != shortened(&studio.language);
                if let Some(design) = &mut reading.design {
                    if dressed {
                        design.studio.wear(style.clone());
                        if *has_order {
                            design.studio.order.clone_from(order);
                        }
                    }
                    if dressed || named_otherwise {
                        design.speak(&Tongue { chain, written_in: design.studio.written_in.clone() });
                    }
                    reading.problems.extend(booklet::unshown(design, &worded.wording));
                }
            }
        }
        reading
    }

    /// The languages that a design's texts are read in.
    ///
    /// # Errors
    /// As [`Desk::wording`].
    pub(super) fn tongue(&self, design: &Design) -> Result<Tongue, Problem> {
        let chain = self.wording(&design.studio.language)?.wording.chain();
        Ok(Tongue { chain, written_in: design.studio.written_in.clone() })
    }

    /// The wording of a language, read once a run.
    ///
    /// # Errors
    /// When there is no such language, or the maker's templates cannot be used.
    pub(super) fn wording(&self, language: &str) -> Result<Arc<Worded>, Problem> {
        let mut wordings = self.wordings.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(worded) = wordings.get(language) {
            return Ok(Arc::clone(worded));
        }
        let wording = Wording::with(language, &self.templates)?;
        let settings = format!("{:?}", wording.language);
        let hash = digest::hash_all(wording.texts().chain([settings.as_str()]));
        let worded = Arc::new(Worded { wording, hash });
        wordings.insert(language.to_owned(), Arc::clone(&worded));
        Ok(worded)
    }

    /// Everything that goes into a booklet of this design.
    ///
    /// # Errors
    /// As [`Desk::wording`].
    pub(super) fn inputs(&self, design: &Design, settings: &Settings) -> Result<Inputs, Problem> {
        let worded = self.wording(&design.studio.language)?;
        Ok(digest::parts_of(design, settings, &worded.hash))
    }

    /// Which step of a design's booklet tells which move.
    ///
    /// # Errors
    /// When there is no such language, or a text cannot be filled in.
    pub(super) fn telling(&self, of: &Stitched, settings: &Settings) -> Result<Telling, Vec<Problem>> {
        let design = &of.design;
        let worded = self.wording(&design.studio.language).map_err(|p| vec![p])?;
        let edition = Edition {
            paper: settings.page(),
            grey: false,
            large_print: false,
            tablet: false,
            stamp: None,
            digest: String::new(),
            digest_parts: Vec::new(),
            before: None,
        };
        booklet::telling(design, &of.work, &of.tally, &worded.wording, &edition)
    }

    /// Sets and paints one booklet, or draws a picture; `before` is what is kept of the copy before it.
    ///
    /// # Errors
    /// Everything that keeps it from being made.
    pub(super) fn set(
        &self,
        of: &Stitched,
        settings: &Settings,
        before: &Before,
    ) -> Result<Made, Vec<Problem>> {
        match &settings.picture {
            Some(picture) => {
                let (worded, edition) = self.edition(&of.design, settings)?;
                pictures::picture(of, &worded.wording, &edition, picture)
            }
            None => painted(self.laid(of, settings, before)?, of, &before.ticked),
        }
    }

    /// The words and the edition that settings ask for.
    fn edition(&self, design: &Design, settings: &Settings) -> Result<(Arc<Worded>, Edition), Vec<Problem>> {
        let worded = self.wording(&design.studio.language).map_err(|p| vec![p])?;
        let inputs = digest::parts_of(design, settings, &worded.hash);
        let edition = Edition {
            paper: settings.page(),
            grey: settings.grey,
            // Screens are in large letters, and as large as the reader makes them.
            large_print: design.studio.large_print && !settings.tablet,
            tablet: settings.tablet,
            stamp: settings.stamp.clone(),
            digest: inputs.digest,
            digest_parts: inputs.parts,
            before: None,
        };
        Ok((worded, edition))
    }

    /// What the booklet of a design shows a buyer.
    ///
    /// # Errors
    /// As [`Desk::wording`].
    pub(super) fn record(&self, of: &Stitched, settings: &Settings) -> Result<Record, Vec<Problem>> {
        let (worded, edition) = self.edition(&of.design, settings)?;
        Ok(booklet::record(&of.design, &of.work, &of.tally, &worded.wording, &edition))
    }

    /// Sets the pages of one booklet.
    ///
    /// # Errors
    /// Everything that keeps them from being set.
    pub(super) fn laid(
        &self,
        of: &Stitched,
        settings: &Settings,
        before: &Before,
    ) -> Result<Laid, Vec<Problem>> {
        let design = &of.design;
        let (worded, mut edition) = self.edition(design, settings)?;
        let mut otherwise = false;
        let booklet = match &settings.bench {
            Some(bench) => bench_copy(of, bench, &worded.wording, &edition)?,
            None if settings.cards => {
                booklet::earring_cards(design, &of.work, &of.tally, &worded.wording, &edition)?
            }
            None => {
                edition.before = before.edition_before(design.edition);
                let mut booklet = booklet::compose(design, &of.work, &of.tally, &worded.wording, &edition)?;
                let shown = booklet::record(design, &of.work, &of.tally, &worded.wording, &edition);
                booklet.meta.digest_parts.extend(before.recorded(&shown));
                otherwise = before.shows_other_than(&shown);
                booklet
            }
        };
        let mut list = layout::lay_out(&booklet)
            .map_err(|missing| missing::problems(&missing, design, &worded.wording))?;
        if settings.fold {
            list = layout::folded(list, settings.fold_marks);
        }
        Ok(Laid { booklet, list, otherwise, times: Times::of(design.date, self.source_date_epoch) })
    }
}

/// Paints pages that are set; `ticked` are the boxes to tick of the copy before.
///
/// # Errors
/// Everything that keeps the file from being what it claims.
pub(super) fn painted(laid: Laid, of: &Stitched, ticked: &Ticked) -> Result<Made, Vec<Problem>> {
    let Laid { booklet, mut list, otherwise, times } = laid;
    let pages = list.pages.len();
    let carried = ticks::carry(ticked, &mut list);
    list.meta.digest_parts.extend([
        (MADE_PAGES.to_owned(), pages.to_string()),
        (MADE_WARNINGS.to_owned(), count(&of.problems, Severity::Warning).to_string()),
    ]);
    let advice = missing::stand_ins(&list.stand_ins, &of.design);
    let wrong = |e| vec![Problem::error(format!("{}: {e}", of.design.slug))];
    let bytes = paint::pdf(&list, &times).map_err(wrong)?;
    // A fortieth of the time of a booklet: another processor frees them while the file is written. A thread that works
    // alone would not come to it.
    if rayon::current_num_threads() > 1 {
        rayon::spawn(move || drop((booklet, list)));
    }
    Ok(Made { bytes, pages, carried, otherwise, advice })
}

/// What a command asks for beyond a design's files.
fn wishes(settings: &Settings) -> Wishes {
    Wishes {
        colourway: settings.colourway.clone(),
        colours: settings.colours.clone(),
        start: settings.start.map(Side::from),
        large_print: settings.large_print,
        language: settings.language.clone(),
    }
}

/// Follows the thread, counts, and takes advice. `problems` are those of reading.
pub(super) fn stitched(design: Design, mut problems: Vec<Problem>) -> Stitched {
    let work = stitch::stitch(&design);
    let tally = tally::tally(&design, &work);
    problems.extend(tally::advise(&design, &work, &tally));
    Stitched { design, work, tally, problems }
}

/// How many problems are of this severity.
pub(super) fn count(problems: &[Problem], severity: Severity) -> usize {
    problems.iter().filter(|p| p.severity == severity).count()
}

/// A bench copy of the earrings asked for; the second one mirrored where the pair is.
fn bench_copy(
    of: &Stitched,
    bench: &BenchSettings,
    wording: &Wording,
    edition: &Edition,
) -> Result<Booklet, Vec<Problem>> {
    let rows = of.design.body.rows.len();
    let only = match bench.rows {
        Some((_, last)) if last > rows => {
            return Err(vec![
                Problem::error(format!("{}: there is no row {last}", of.design.slug))
                    .hint(format!("the rows are 1 to {rows}")),
            ]);
        }
        Some((first, last)) => Some(first..=last),
        None => None,
    };
    let second = match of.design.pair {
        Pair::Mirrored => Some(stitched(of.design.mirrored(), Vec::new())),
        Pair::Same => None,
    };
    let earrings: Vec<BenchEarring> = [(1, of), (2, second.as_ref().unwrap_or(of))]
        .into_iter()
        .filter(|(number, _)| bench.earring.is_none_or(|wanted| usize::from(wanted) == *number))
        .map(|(number, of)| BenchEarring { number, design: &of.design, work: &of.work, tally: &of.tally })
        .collect();
    booklet::bench(&earrings, wording, edition, only.as_ref())
}
