//! The threads that share the work: as many as the machine has cores, or as the system gives.

use std::io;
use std::num::NonZero;
use std::sync::mpsc::{Sender, channel};
use std::thread;

use rayon::{ThreadBuilder, ThreadPoolBuilder};

use super::terminal::Trouble;

/// Makes the threads before there is work for them. Where the system gives none, this one does it all.
///
/// The library that shares the work asks for its threads once and ends the program if one is refused. So they are made
/// first, each waiting for what it is to do, and the library is told how many there are.
pub(super) fn make() -> Result<(), Trouble> {
    let mut waiting: Vec<Sender<ThreadBuilder>> = Vec::new();
    for _ in 0..thread::available_parallelism().map_or(1, NonZero::get) {
        let (tell, told) = channel::<ThreadBuilder>();
        let worker = move || {
            if let Ok(work) = told.recv() {
                work.run();
            }
        };
        if thread::Builder::new().spawn(worker).is_err() {
            break;
        }
        waiting.push(tell);
    }
    let pool = ThreadPoolBuilder::new().num_threads(waiting.len().max(1));
    let made = if waiting.is_empty() {
        pool.use_current_thread().build_global()
    } else {
        let given = |work: ThreadBuilder| -> io::Result<()> {
            let free = waiting.pop().ok_or(io::ErrorKind::WouldBlock)?;
            free.send(work).map_err(|_| io::ErrorKind::WouldBlock.into())
        };
        pool.spawn_handler(given).build_global()
    };
    made.map_err(|error| {
        Trouble::new(format!("the work can't be begun: {error}"), "end other programs, and run it again")
    })
}
