#!/usr/bin/env bash
# The main job on a simulated golfer, from the wire to the student's report: started by ./start demo.
# Everything it makes goes to build/demo; a second run starts over there and touches nothing else.
set -euo pipefail
cd "$(dirname "$0")/.."

footing=$PWD/build/release/footing
out=build/demo
say() { printf '\n== %s\n' "$*"; }

rm -rf "$out"
mkdir -p "$out"
emulator=""
trap '[ -z "$emulator" ] || kill "$emulator" 2>/dev/null || true' EXIT

# The first free port from here on, so that two demos side by side do not hear each other.
port=$((20000 + $$ % 20000))

say "1 of 5  a simulated golfer on two plates streams over UDP; footing records"
"$footing" emulate --udp 127.0.0.1:$port --plates --rate 1000 --swings 8 --seed 7 --fast --truth "$out/truth.json" &
emulator=$!
"$footing" record --udp 127.0.0.1:$port --idle 2 --out "$out/lesson.h5"
wait "$emulator"

say "2 of 5  the same over a serial line, shorter, on a mat"
"$footing" emulate --pty "$out/plates.tty" --mat 48x48 --rate 100 --swings 2 --seed 11 --fast &
emulator=$!
while [ ! -e "$out/plates.tty" ] && kill -0 "$emulator" 2>/dev/null; do sleep 0.05; done
"$footing" record --serial "$out/plates.tty" --idle 2 --out "$out/lesson_serial.h5"
wait "$emulator"
emulator=""

say "3 of 5  the analysis"
"$footing" analyse "$out/lesson.h5" --json "$out/lesson.json"

say "4 of 5  the student's report"
"$footing" report "$out/lesson.h5" --out "$out/lesson.pdf"
"$footing" report "$out/lesson.h5" --out "$out/lesson.html"
"$footing" report "$out/lesson.h5" --out "$out/lesson.csv"

say "5 of 5  the viewer"
"$footing" view "$out/lesson.h5" --screenshot "$out/lesson.png" --size 1280x720

say "made, in $out:"
echo "lesson.h5, lesson_serial.h5   two recordings, by UDP and by serial line (HDF5; footing verify tells what is in them)"
echo "lesson.json                   every swing's events, lead shares and tempo"
echo "lesson.pdf, lesson.html       the report that the student takes home"
echo "lesson.csv                    the swings for a spreadsheet"
echo "lesson.png                    the viewer; open it yourself with: build/release/footing view $out/lesson.h5"

if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
  say "opening the window (close it to end the demo)"
  "$footing" view "$out/lesson.h5"
fi
