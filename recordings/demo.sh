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

say "1 of 6  a simulated golfer on two plates streams over UDP; footing records"
"$footing" emulate --udp 127.0.0.1:$port --plates --rate 1000 --swings 8 --seed 7 --fast --truth "$out/truth.json" &
emulator=$!
"$footing" record --udp 127.0.0.1:$port --idle 2 --out "$out/lesson.h5"
wait "$emulator"

say "2 of 6  the same over a serial line, shorter, on a mat"
"$footing" emulate --pty "$out/plates.tty" --mat 48x48 --rate 100 --swings 2 --seed 11 --fast &
emulator=$!
while [ ! -e "$out/plates.tty" ] && kill -0 "$emulator" 2>/dev/null; do sleep 0.05; done
"$footing" record --serial "$out/plates.tty" --idle 2 --out "$out/lesson_serial.h5"
wait "$emulator"
emulator=""

say "3 of 6  the analysis"
"$footing" analyse "$out/lesson.h5" --json "$out/lesson.json"

say "4 of 6  the report of the recording, its table, and one swing as a picture"
"$footing" report "$out/lesson.h5" --out "$out/lesson.pdf"
"$footing" report "$out/lesson.h5" --out "$out/lesson.html"
"$footing" report "$out/lesson.h5" --out "$out/lesson.csv"

"$footing" report "$out/lesson.h5" --swing 2 --student "Robin Example" --out "$out/swing.png"

say "5 of 6  an invented student in a lesson book: clubs, carries, and the report to take home"
book() { "$footing" "$@" --book "$out/demo.book" >/dev/null; }
book students add "Robin Example" --hand right --units yd --consent yes
for loft in 60 56 52; do book wedges add "$loft" --student "Robin Example" --loft "$loft"; done
carries() { book shots add --lesson "$1" --club "$2" --length "$3" --carry "$4"; }
book lessons add --student "Robin Example" --date "$(date -d "14 days ago" +%F)" --note "at the range, without plates"
carries 1 60 half 39,41,40,42,38,41
carries 1 60 three-quarter 54,57,55,53,56
carries 1 60 full 69,66,72,70,48,68
carries 1 56 half 47,49,45,50,48,47
carries 1 56 three-quarter 63,66,64,62,65,66
carries 1 56 full 79,82,77,81
carries 1 52 half 55,58,57,54,56
carries 1 52 three-quarter 74,78,71,76
carries 1 52 full 93,96,90,94,92,95
book lessons add "$out/lesson.h5" --student "Robin Example" --band half=70:80 --setup "ball back, stance narrow"
book swings label 2,3,5,6,8 --lesson 2 --club 56 --length half
for shot in 2:48 3:46 5:49 6:47 8:41; do book shots add --lesson 2 --swing "${shot%:*}" --carry "${shot#*:}"; done
"$footing" report --student "Robin Example" --book "$out/demo.book" --out "$out/student.pdf"
"$footing" report --student "Robin Example" --book "$out/demo.book" --out "$out/student.html"

say "6 of 6  the viewer"
"$footing" view "$out/lesson.h5" --screenshot "$out/lesson.png" --size 1280x720

say "made, in $out:"
echo "lesson.h5, lesson_serial.h5   two recordings, by UDP and by serial line (HDF5; footing verify tells what is in them)"
echo "lesson.json                   every swing's events, lead shares and tempo"
echo "student.pdf, student.html     what the invented student takes home, from the lesson book"
echo "lesson.pdf, lesson.html       the report of the recording"
echo "lesson.csv                    the swings for a spreadsheet; lesson.csv-metadata.json names the units"
echo "swing.png                     one swing as a picture to share"
echo "lesson.png                    the viewer; open it yourself with: build/release/footing view $out/lesson.h5"

if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
  say "opening the window (close it to end the demo)"
  "$footing" view "$out/lesson.h5"
fi
