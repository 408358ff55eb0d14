#!/usr/bin/env bash
# Installs the Debian package on a system that has nothing yet (debootstrap, minimal) and does the main job there.
# Needs root, a mirror of Debian and about 1 GB.
#   try_in_clean_system.sh PACKAGE.deb
set -euo pipefail
package=$(realpath "$1")
clean=$(mktemp -d)
trap 'umount "$clean/proc" 2>/dev/null || true; rm -rf "$clean"' EXIT

debootstrap --variant=minbase bookworm "$clean" >/dev/null
mount -t proc proc "$clean/proc"
cp "$package" "$clean/tmp/"
cat >"$clean/tmp/main_job.sh" <<'JOB'
set -euo pipefail
cd /tmp
apt-get update -qq
DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends ./*.deb >/dev/null
footing emulate --udp 127.0.0.1:20750 --rate 200 --swings 2 --seed 3 --fast >/dev/null &
footing record --udp 127.0.0.1:20750 --idle 2 --out lesson.h5
wait
footing analyse lesson.h5
footing report lesson.h5 --out lesson.pdf
footing view lesson.h5 --screenshot lesson.png
JOB
chroot "$clean" bash /tmp/main_job.sh
for made in lesson.pdf lesson.png; do
  [ -s "$clean/tmp/$made" ] || { echo "clean system: $made was not made" >&2; exit 1; }
done
echo "clean system: installed, and the main job done"
