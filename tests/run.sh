#!/usr/bin/env bash
# Runs every test of the project, and brings what the tests need: a browser and its driver, PDF tools, an HTML checker.
# Node.js alone is not brought: where it is missing, what needs it is left out.
set -euo pipefail
cd "$(dirname "$0")/.."

# Debian's packages, for the tests that open pages in a real browser.
needed=()
command -v chromium >/dev/null || needed+=(chromium)
command -v chromedriver >/dev/null || needed+=(chromium-driver)
command -v pdftoppm >/dev/null || needed+=(poppler-utils)
command -v qpdf >/dev/null || needed+=(qpdf)
command -v python3 >/dev/null || needed+=(python3)
# Letters for what a page shows before its own have arrived, and for controls of the browser.
[ -e /usr/share/fonts/truetype/liberation ] || needed+=(fonts-liberation)
if [ "${#needed[@]}" -gt 0 ] && ! command -v apt-get >/dev/null; then
    echo "there is no apt-get to bring ${needed[*]}: the tests that need them are left out"
    cargo test --locked
    exit 0
fi
if [ "${#needed[@]}" -gt 0 ]; then
    as_root=()
    [ "$(id -u)" = 0 ] || as_root=(sudo)
    "${as_root[@]}" apt-get update -qq
    "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${needed[@]}"
fi

without=()
# The HTML checker, the calendar reader and the checker of access, at the versions that tests/tools/package-lock.json holds.
if command -v npm >/dev/null; then
    npm ci --silent --no-audit --no-fund --prefix tests/tools
else
    echo "Node.js is missing: not checked are the HTML of the pages, the calendar in another program, and the rules of access"
    without+=(--skip another_library_reads_the_calendar --skip axe_finds_nothing)
fi

# Measured spectra of paint, which are not part of the project.
[ -n "${MAULSTICK_MEASURED:-}" ] || without+=(--skip measured_paint)

# A test with a browser waits for it half of its time, so one more than there are processors keeps them all busy.
RUST_TEST_THREADS=${RUST_TEST_THREADS:-$(($(getconf _NPROCESSORS_ONLN) + 1))}
export RUST_TEST_THREADS
# One test publishes the demo guide with every model drawn, and leaves its site there.
site=$(mktemp -d)/site
# The library's own tests run for seconds, and unoptimised they are built in a quarter of the time; all others publish whole guides.
own=profile.dev.package.maulstick
cargo test --locked --lib --config "$own.opt-level=0" --config "$own.debug-assertions=true" -- \
    --include-ignored "${without[@]}"
MAULSTICK_DRAWN=$site cargo test --locked --bins --test '*' -- --include-ignored "${without[@]}"
cargo test --locked --doc
# The program as the tests built it: a build of its own would build half of the libraries once more.
target/debug/maulstick publish . --strict --out "$site"
command -v npm >/dev/null || exit 0
tests/tools/node_modules/.bin/html-validate --config tests/tools/htmlvalidate.json "$site/**/*.html"
echo "the HTML of $(find "$site" -name '*.html' | wc -l) pages is valid"
