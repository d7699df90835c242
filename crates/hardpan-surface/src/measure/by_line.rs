//! One survey line is measured without the others: all cores take lines in turn.

use std::panic::resume_unwind;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread::{available_parallelism, scope};

/// More threads than this bring nothing to a strip of some dozens of lines.
const MOST_THREADS: usize = 8;

/// The work on each line, in the order of the lines whatever thread did it: the
/// same bits on any machine.
pub(crate) fn by_line<T: Sync, R: Send>(lines: &[T], work: impl Fn(&T) -> R + Sync) -> Vec<R> {
    let threads = available_parallelism().map_or(1, usize::from);
    let threads = threads.min(MOST_THREADS).min(lines.len());
    if threads < 2 {
        return lines.iter().map(work).collect();
    }
    let next = AtomicUsize::new(0);
    let share = || {
        let mut done = Vec::new();
        loop {
            let index = next.fetch_add(1, Ordering::Relaxed);
            let Some(line) = lines.get(index) else { return done };
            done.push((index, work(line)));
        }
    };
    let mut done: Vec<(usize, R)> = scope(|threads_of| {
        let others: Vec<_> = (1..threads).map(|_| threads_of.spawn(share)).collect();
        let mut done = share();
        for other in others {
            match other.join() {
                Ok(part) => done.extend(part),
                Err(panic) => resume_unwind(panic),
            }
        }
        done
    });
    done.sort_by_key(|(index, _)| *index);
    done.into_iter().map(|(_, result)| result).collect()
}

#[cfg(test)]
mod tests {
    use super::by_line;

    #[test]
    fn the_order_of_the_lines_is_kept() {
        let lines: Vec<u64> = (0..500).collect();
        let slow = |line: &u64| (0..(line % 7) * 1_000).fold(*line, |sum, step| sum ^ (step % 2));
        let wanted: Vec<u64> = lines.iter().map(slow).collect();
        assert_eq!(by_line(&lines, slow), wanted);
        assert_eq!(by_line(&lines[..1], slow), wanted[..1]);
        assert!(by_line(&[] as &[u64], slow).is_empty());
    }
}
