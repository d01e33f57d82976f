//! Many designs worked on at once, each thread with one in hand. Stages share their own work among the threads of a
//! pool; a thread of that pool that waited for its share would take up another design meanwhile, and another, and a
//! catalogue would fill the memory. So each has a pool of its own, of itself alone, and waits for none.

use rayon::ThreadPoolBuilder;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Mutex, PoisonError};
use std::thread;

/// What comes of every item, in their order: worked on by as many threads as the pool has. A single item is worked on
/// at once.
pub(super) fn each_in_hand<T: Sync, R: Send>(items: &[T], work: impl Fn(usize, &T) -> R + Sync) -> Vec<R> {
    if let [only] = items {
        return vec![work(0, only)];
    }
    let next = AtomicUsize::new(0);
    let done = Mutex::new(Vec::with_capacity(items.len()));
    thread::scope(|scope| {
        for _ in 0..rayon::current_num_threads().min(items.len()) {
            scope.spawn(|| {
                // Where there cannot be one, its work is shared with the pool of all.
                let _alone = ThreadPoolBuilder::new().num_threads(1).use_current_thread().build();
                while let Some((at, item)) = Some(next.fetch_add(1, Ordering::Relaxed))
                    .and_then(|at| items.get(at).map(|item| (at, item)))
                {
                    let made = work(at, item);
                    done.lock().unwrap_or_else(PoisonError::into_inner).push((at, made));
                }
            });
        }
    });
    let mut done = done.into_inner().unwrap_or_else(PoisonError::into_inner);
    done.sort_by_key(|(at, _)| *at);
    done.into_iter().map(|(_, made)| made).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn everything_is_worked_on_once_and_comes_back_in_order() {
        for count in [0, 1, 2, 500] {
            let items: Vec<usize> = (0..count).collect();
            let made = each_in_hand(&items, |at, item| (at, item * 2));
            assert_eq!(made, items.iter().map(|item| (*item, item * 2)).collect::<Vec<_>>());
        }
    }

    #[test]
    fn no_thread_takes_up_another_while_it_waits_for_the_pool() {
        use rayon::prelude::*;
        let (in_hand, most) = (AtomicUsize::new(0), AtomicUsize::new(0));
        each_in_hand(&[(); 64], |_, ()| {
            most.fetch_max(in_hand.fetch_add(1, Ordering::SeqCst) + 1, Ordering::SeqCst);
            let shares: u64 = (0..64u64).into_par_iter().map(|n| (0..2000 * n).sum::<u64>() % 7).sum();
            in_hand.fetch_sub(1, Ordering::SeqCst);
            shares
        });
        assert!(most.into_inner() <= rayon::current_num_threads());
    }
}
