//! Many inputs on all processors, with a bound on the time of each. What goes wrong is kept: the input in
//! the folder for temporary files, and its number, from which it can be made again.

use super::input::{Input, Kind};
use super::trial::Came;
use std::collections::BTreeMap;
use std::io::{Seek as _, Write as _};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;
use std::sync::Mutex;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::{Duration, Instant};

/// What may take longer than this, of processor: nothing. Unoptimised code takes about eight times as long.
const LONGEST: Duration = Duration::from_secs(if cfg!(debug_assertions) { 16 } else { 2 });
/// On the wall, after which a run is given up: nothing that ends can take this long on any machine.
const ENDLESS: Duration = Duration::from_secs(300);

/// Stack of each worker: what the threads have that a catalogue is made with.
const STACK: usize = 2 << 20;

/// What came of a search.
#[derive(Debug, Default)]
pub struct Found {
    /// How many inputs of each kind came how far.
    pub came: BTreeMap<(Kind, Came), u64>,
    /// What went wrong, by number of input.
    pub wrong: BTreeMap<u64, String>,
    /// The slowest input and the processor time it took.
    pub slowest: (u64, Duration),
}

/// Tries inputs by number.
pub fn search(numbers: std::ops::Range<u64>, trial: impl Fn(&Input) -> Result<Came, String> + Sync) -> Found {
    let workers = std::thread::available_parallelism().map_or(2, usize::from);
    let next = AtomicU64::new(numbers.start);
    let found = Mutex::new(Found::default());
    // What each worker is at: the number of its input, and when it began in milliseconds.
    let at: Vec<[AtomicU64; 2]> = (0..workers).map(|_| [u64::MAX, 0].map(AtomicU64::new)).collect();
    let begun = Instant::now();
    let left = AtomicU64::new(workers as u64);
    std::thread::scope(|scope| {
        for [number, since] in &at {
            let (next, found, trial, left) = (&next, &found, &trial, &left);
            let numbers = &numbers;
            let work = move || {
                let mut mark = Mark::new();
                loop {
                    let mine = next.fetch_add(1, Ordering::Relaxed);
                    if mine >= numbers.end {
                        break;
                    }
                    since.store(begun.elapsed().as_millis() as u64, Ordering::Relaxed);
                    number.store(mine, Ordering::Relaxed);
                    mark.set(mine);
                    note(mine, trial, found);
                }
                number.store(u64::MAX, Ordering::Relaxed);
                left.fetch_sub(1, Ordering::Relaxed);
            };
            std::thread::Builder::new().stack_size(STACK).spawn_scoped(scope, work).expect("a thread");
        }
        while left.load(Ordering::Relaxed) > 0 {
            std::thread::sleep(Duration::from_millis(20));
            for [number, since] in &at {
                let number = number.load(Ordering::Relaxed);
                let since = Duration::from_millis(since.load(Ordering::Relaxed));
                if number != u64::MAX && begun.elapsed().saturating_sub(since) > ENDLESS {
                    eprintln!("input {number} does not come to an end; it is in {}", kept(number).display());
                    std::process::exit(101);
                }
            }
        }
    });
    found.into_inner().expect("no panic while noting")
}

/// The number of the input that a worker is at, in a file: what fills the stack or takes all memory ends the
/// program, and nothing else is left to tell. It is removed at the end.
struct Mark(Option<tempfile::NamedTempFile>);

impl Mark {
    fn new() -> Mark {
        Mark(tempfile::Builder::new().prefix("fringebook-fuzz-at-").tempfile().ok())
    }

    fn set(&mut self, number: u64) {
        if let Some(file) = &mut self.0 {
            // Without the mark, a search finds all but what ends the program.
            let _ = file.rewind().and_then(|()| writeln!(file, "{number:<20}"));
        }
    }
}

fn note(number: u64, trial: &(impl Fn(&Input) -> Result<Came, String> + Sync), found: &Mutex<Found>) {
    let input = Input::numbered(number);
    let before = processor_time();
    let wall = Instant::now();
    let came = catch_unwind(AssertUnwindSafe(|| trial(&input)));
    let took = match (before, processor_time()) {
        (Some(before), Some(after)) => after.saturating_sub(before),
        _ => wall.elapsed(),
    };
    let mut found = found.lock().expect("no panic while noting");
    found.slowest = found.slowest.max_by_time((number, took));
    let wrong = match came {
        Ok(Ok(came)) => {
            *found.came.entry((input.kind, came)).or_default() += 1;
            (took > LONGEST).then(|| format!("took {took:.1?}"))
        }
        Ok(Err(wrong)) => Some(wrong),
        Err(panic) => {
            let words = panic.downcast_ref::<String>().cloned();
            let words = words.or_else(|| panic.downcast_ref::<&str>().map(|&w| w.to_owned()));
            Some(format!("panic: {}", words.unwrap_or_default()))
        }
    };
    if let Some(wrong) = wrong {
        let (kind, asked) = (input.kind, input.asked);
        found.wrong.insert(number, format!("{kind:?}, {asked:?}: {wrong}\n    {}", kept(number).display()));
    }
}

trait ByTime {
    fn max_by_time(self, other: Self) -> Self;
}

impl ByTime for (u64, Duration) {
    fn max_by_time(self, other: Self) -> Self {
        if other.1 > self.1 { other } else { self }
    }
}

/// Writes the files of an input and says where.
fn kept(number: u64) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("fringebook-fuzz-{number}"));
    for (name, bytes) in Input::numbered(number).files {
        let path = folder.join(&name);
        let written = std::fs::create_dir_all(path.parent().unwrap_or(&folder))
            .and_then(|()| std::fs::write(&path, bytes));
        if let Err(e) = written {
            eprintln!("{name} of input {number} is not kept: {e}");
        }
    }
    folder
}

/// The processor time that this thread has taken, where the system tells it.
fn processor_time() -> Option<Duration> {
    let told = std::fs::read_to_string("/proc/thread-self/schedstat").ok()?;
    told.split_whitespace().next()?.parse().ok().map(Duration::from_nanos)
}
