#!/usr/bin/env bash
# Builds the program for Windows and runs its tests there, under wine: the library's own, and of the suite what the
# commands do. Not a part of .ci/run: it takes some twenty minutes on two cores, and brings a compiler and wine.
#
# What fails because of wine 8 itself, and is left out:
# - door::watch: it tells nothing of what happens in folders below a watched one, and the tests wait for that;
# - a_path_may_be_longer_than_the_system_s_old_limit: it gives no final name for a path of more than 260 letters
#   (error 234).
# It renames a folder in which a file is open, which Windows refuses: what is said then is seen on Windows alone.
set -euo pipefail
cd "$(dirname "$0")/.."

target=x86_64-pc-windows-gnu
needed=()
command -v x86_64-w64-mingw32-gcc >/dev/null || needed+=(gcc-mingw-w64-x86-64-win32)
command -v wine64 >/dev/null || [ -x /usr/lib/wine/wine64 ] || needed+=(wine64)
if [ "${#needed[@]}" -gt 0 ]; then
    as_root=()
    [ "$(id -u)" = 0 ] || as_root=(sudo)
    "${as_root[@]}" apt-get update -qq
    "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${needed[@]}"
fi
rustup target add "$target"

wine=$(command -v wine64 || echo /usr/lib/wine/wine64)
export WINEPREFIX=${WINEPREFIX:-$PWD/target/wine} WINEDEBUG=-all
export CARGO_TARGET_X86_64_PC_WINDOWS_GNU_RUNNER=$wine
# In a clean clone there is no target folder yet, and wine makes no more than the last folder of a path.
mkdir -p "$WINEPREFIX"
# A folder of its own: what the other system's tests were built with stays.
export CARGO_TARGET_DIR=${CARGO_TARGET_DIR:-$PWD/target/windows}

# Rust's programs ask for Windows 10 and for a library of random numbers, which wine 8 lacks.
"$wine" reg add 'HKCU\Software\Wine' /v Version /d win10 /f >/dev/null
random=$WINEPREFIX/drive_c/windows/system32/bcryptprimitives.dll
if [ ! -e "$random" ]; then
    x86_64-w64-mingw32-gcc -shared -o "$random" -x c - -lbcrypt <<'END'
#include <windows.h>
#include <bcrypt.h>
__declspec(dllexport) BOOL WINAPI ProcessPrng(PBYTE to, SIZE_T count) {
    return BCryptGenRandom(NULL, to, count, BCRYPT_USE_SYSTEM_PREFERRED_RNG) == 0;
}
END
fi

# Compiled without speed: the tests run for a short while, and compiling is what takes long.
tests=(cargo test --locked --config 'profile.dev.package.maulstick.opt-level=0' --target "$target" --no-fail-fast)
status=0
"${tests[@]}" --lib -- --skip door::watch || status=1
"${tests[@]}" --test suite -- windows:: commands:: mix:: shop:: plans:: mends:: matching:: documents:: promises:: \
    --skip a_path_may_be_longer || status=1
exit "$status"
