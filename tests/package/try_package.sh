#!/usr/bin/env bash
# Makes the Debian package, unpacks it into an empty prefix and uses it there as a person would: what it needs lies in it or
# among its dependencies.
#   try_package.sh BUILD_FOLDER
set -euo pipefail
build=$(cd "$1" && pwd)
scratch=$(mktemp -d)
emulator=""
trap '[ -z "$emulator" ] || kill "$emulator" 2>/dev/null || true; rm -rf "$scratch"' EXIT

fail() { echo "package: $*" >&2; exit 1; }

(cd "$build" && cpack -G DEB -B "$scratch" >"$scratch/cpack.log" 2>&1) || { cat "$scratch/cpack.log" >&2; fail "cpack failed"; }
packages=("$scratch"/*.deb)
[ ${#packages[@]} -eq 1 ] || fail "one package was expected, not ${#packages[@]}"
package=${packages[0]}

# Each library that the program names must be in a package that it depends on, and so must a font.
depends=$(dpkg-deb -f "$package" Depends)
for needed in libc6 libhdf5 libsqlite3 libglfw3 fonts-inter fonts-dejavu-core; do
  [[ $depends == *"$needed"* ]] || fail "it does not depend on $needed: $depends"
done

prefix=$scratch/prefix
dpkg-deb -x "$package" "$prefix"
footing=$prefix/usr/bin/footing
export HOME=$scratch/home XDG_DATA_HOME=$scratch/home/data
mkdir -p "$HOME"
cd "$scratch"

[ "$("$footing" --version)" = "$(dpkg-deb -f "$package" Version)" ] || fail "program and package differ in version"

# The man page names every verb, and no other.
listed=$(sed -n '/^\.SH VERBS/,/^\.SH EXIT/p' "$prefix/usr/share/man/man1/footing.1" | sed -n 's/^\.B \([a-z]*\)$/\1/p' | sort)
spoken=$("$footing" --help | sed -n 's/^  \([a-z][a-z]*\) .*/\1/p' | sort)
[ "$listed" = "$spoken" ] || fail "man page and program differ in verbs: $(diff <(echo "$listed") <(echo "$spoken") | grep '^[<>]' | tr '\n' ' ')"
if command -v man >/dev/null; then
  complaints=$(LC_ALL=C.UTF-8 MANROFFSEQ='' man --warnings -l "$prefix/usr/share/man/man1/footing.1" 2>&1 >/dev/null)
  [ -z "$complaints" ] || fail "man page: $complaints"
fi
if command -v desktop-file-validate >/dev/null; then
  desktop-file-validate "$prefix/usr/share/applications/footing.desktop" || fail "desktop entry"
fi
/usr/bin/python3 -c 'import sys, xml.dom.minidom as dom; dom.parse(sys.argv[1])' \
  "$prefix/usr/share/icons/hicolor/scalable/apps/footing.svg" || fail "icon"

# The main job, from the wire to the report and the window's picture.
port=$((20000 + $$ % 20000))
"$footing" emulate --udp 127.0.0.1:$port --rate 200 --swings 2 --seed 3 --fast >/dev/null &
emulator=$!
"$footing" record --udp 127.0.0.1:$port --idle 2 --out lesson.h5 >/dev/null
wait "$emulator"
emulator=""
"$footing" report lesson.h5 --out lesson.pdf >/dev/null
"$footing" report "$prefix/usr/share/doc/footing/recordings/left_handed_plates.h5" --out left.html >/dev/null
"$footing" view lesson.h5 --screenshot lesson.png >/dev/null
"$footing" students add "A. Student" >/dev/null
[ "$(head -c 5 lesson.pdf)" = "%PDF-" ] || fail "no report"
[ -s left.html ] && [ -s lesson.png ] && [ -s "$XDG_DATA_HOME/footing/lessons.book" ] || fail "something was not made"
echo "package: $(basename "$package"), $(stat -c %s "$package") bytes, does the main job from an empty prefix"
