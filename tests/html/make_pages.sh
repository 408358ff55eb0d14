#!/usr/bin/env bash
# Makes every kind of HTML report that the program writes, and reports with hostile names.
#   make_pages.sh PROGRAM FOLDER HOSTILE_NAMES
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
footing=$1 out=$2 hostile=$3
recordings=$here/../../recordings
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
mkdir -p "$out"

run() { "$footing" "$@" >"$scratch/said" 2>&1 || { cat "$scratch/said" >&2; echo "html: footing $* failed" >&2; exit 1; }; }
book() { run "$1" --book "$scratch/pages.book" "${@:2}"; }

run import "$recordings/half_swings.csv" --out "$scratch/half_swings.h5"
run report "$scratch/half_swings.h5" --student Robin --out "$out/lesson_plain.html"
run report "$recordings/left_handed_plates.h5" --out "$out/lesson_left_handed.html"
run report "$recordings/mat.h5" --out "$out/lesson_mat.html"

# A student with wedges, carries and notes.
book students add Robin --hand right --units yd --consent yes
book wedges add 56 --student Robin --loft 56
book lessons add --student Robin --date 2026-03-05 --note "at the range" --setup "at the range"
book wedges add 60 --student Robin --loft 60
book shots add --lesson 1 --club 60 --length half --carry 39,41,40,42,38,41
book shots add --lesson 1 --club 56 --length full --carry 79,82,77,81,61,80
book lessons add "$scratch/half_swings.h5" --student Robin --band half=70:80 --setup "ball back"
book swings label 1-3 --lesson 2 --club 56 --length half
book report --student Robin --out "$out/student_season.html"
book report --student Robin --lesson 2 --units m --out "$out/student_lesson.html"

# A student with one wedge and one lesson, whose name stands wherever a coach can write; and the student's report.
students=1 lessons=2
report_of() {  # name, page
  students=$((students + 1)) lessons=$((lessons + 1))
  book students add --hand right --units yd --consent yes -- "$1"
  book lessons add --student "#$students" --date 2026-03-05 "--note=$1" "--setup=$1"
  book wedges add 56 --student "#$students" --loft 56
  book shots add --lesson $lessons --club 56 --length full --carry 79,82,77,81,61,80
  book report --student "#$students" --out "$2"
}
report_of Vale "$out/student_plain.html"

# Names from files: a shell takes line ends at the end away, nothing else.
python3 "$here/hostile_names.py" "$hostile" "$scratch/names"
for file in "$scratch"/names/*; do
  name=$(cat "$file") number=$(basename "$file" .txt)
  run report "$scratch/half_swings.h5" "--student=$name" --out "$out/hostile_lesson_$number.html"
  report_of "$name" "$out/hostile_student_$number.html"
done
