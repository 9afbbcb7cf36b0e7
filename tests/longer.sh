#!/usr/bin/env bash
# The tests that live from repetition, so many times longer than in every run, and the fuzzers for so long. Not part of .ci/run.
#
#     bash tests/longer.sh [TIMES] [SECONDS A FUZZER]
#
# Ten times (the default) are 2,000 publishes that are killed and 3,000 edits under the live view, each compared with a fresh
# publish; an hour is 3600 seconds. The fuzzers need cargo-fuzz and a nightly toolchain, and are left out without them; they run
# under the address sanitizer. A find is a panic, a stale file, a mix of two sites, or a finding on no line: the run ends there.
set -euo pipefail
cd "$(dirname "$0")/.."
export MAULSTICK_TIMES=${1:-10}
seconds=${2:-60}

since() { echo "$1: $(($(date +%s) - begun)) s, nothing found"; }

begun=$(date +%s)
cargo test --locked --test suite -- --nocapture killed_at_200_moments
since "$((200 * MAULSTICK_TIMES)) kills"
begun=$(date +%s)
cargo test --locked --test parts live::
since "$((300 * MAULSTICK_TIMES)) edits"
begun=$(date +%s)
cargo test --locked --test parts fuzzing::
since "spoiled seeds and guides of dice, $MAULSTICK_TIMES times"

if ! cargo +nightly fuzz --version >/dev/null 2>&1; then
    echo "cargo-fuzz or a nightly toolchain is missing: the fuzzers did not run"
    exit 0
fi
for target in front_matter step paints mesh photo markdown; do
    corpus=$(mktemp -d)
    cp -r "tests/fuzz/seeds/$target/." "$corpus"
    begun=$(date +%s)
    cargo +nightly fuzz run --fuzz-dir tests/fuzz --sanitizer address "$target" "$corpus" -- -max_total_time="$seconds" -timeout=10
    since "$target, $(find "$corpus" -type f | wc -l) inputs in the corpus"
done
