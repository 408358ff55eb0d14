#!/usr/bin/env python3
"""Does what the coach's guide says, command by command as it stands there, in an empty home: try_guide.py PROGRAM

A simulated golfer stands in for plates, faster than real time; windows are drawn into pictures instead, and where there is nothing to
draw ("lesson") the program must say that no display is there; the commands that need the lesson book run once the guide has
filled it. Each command must succeed. Needs Python's standard library only.
"""
import os
import pathlib
import re
import shlex
import shutil
import socket
import subprocess
import sys
import tempfile
import time

program = str(pathlib.Path(sys.argv[1]).resolve())
guide = pathlib.Path(__file__).resolve().parents[2] / "docs" / "coach_guide.md"


def commands_of_the_guide():
    blocks = re.findall(r"^```\n(.*?)^```", guide.read_text(encoding="utf-8"), re.M | re.S)
    lines = "".join(blocks).replace("\\\n", " ").splitlines()
    commands = [shlex.split(line, comments=True) for line in lines if line.startswith("build/release/footing ")]
    assert len(commands) > 30, len(commands)
    return [command[1:] for command in commands]


def free_port():
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as one:
        one.bind(("127.0.0.1", 0))
        return one.getsockname()[1]


with tempfile.TemporaryDirectory() as home:
    os.chdir(home)
    environment = {name: value for name, value in os.environ.items()
                   if not name.startswith("XDG_") and name not in ("DISPLAY", "WAYLAND_DISPLAY")}
    environment["HOME"] = home
    port = str(free_port())
    emulator = None
    later, done = [], 0

    def run(words, wanted=0):
        global done
        answer = subprocess.run([program] + words, capture_output=True, text=True, env=environment, timeout=120)
        if answer.returncode != wanted:
            sys.exit("the guide says: footing %s\nwhich ends with %d and says: %s"
                     % (shlex.join(words), answer.returncode, answer.stderr.strip()))
        done += 1
        return answer

    def stream_into(words, seed=()):
        """The guide's simulated golfer sends while the program records."""
        sender = subprocess.Popen([program] + emulator + list(seed), env=environment, stdout=subprocess.DEVNULL,
                                  stderr=subprocess.PIPE, text=True)
        run(words + ["--idle", "2"])
        told = sender.communicate()[1]
        assert sender.returncode == 0, "the guide says: footing %s\n%s" % (shlex.join(emulator), told)

    commands = commands_of_the_guide()
    for words in commands:
        verb = words[0]
        words = [word.replace("9750", port) for word in words]
        if verb == "emulate":
            emulator = words + ["--fast", "60"]
        elif verb == "devices":
            run(words + ["--udp", "127.0.0.1:" + port, "--seconds", "0.2"])
        elif verb == "record":
            stream_into(words)
            done += 1    # with the golfer's own command
            shutil.copy("lesson.h5", "march.h5")
        elif verb == "lesson":
            # The window by itself; tests/window holds whole lessons in it. Without a display it says so.
            refused = run(words, wanted=4)
            assert "there is none to open a window on" in refused.stderr, refused.stderr
        elif verb == "view":
            run(words + ["--screenshot", "view.png"])
        elif verb == "compare" and "april.h5" in words:
            stream_into(["record", "--udp", "127.0.0.1:" + port, "--out", "april.h5"], seed=("--seed", "2"))
            done -= 1    # no command of the guide
            run(words)
        elif verb == "report" and "lesson.h5" not in words:
            later.append(words)
        elif verb == "shots" and words[1] == "import":
            pathlib.Path("range.csv").write_text(
                "Date,Club,Carry\n%s 10:00:00 AM,Sand Wedge,52\n" % time.strftime("%m/%d/%Y"))
            run(words + ["--without-swings"])
        else:
            run(words)
    for words in later:
        if "--from" in words:    # a spring; this lesson is of today
            words[words.index("--from") + 1] = time.strftime("%Y-01-01")
            words[words.index("--to") + 1] = time.strftime("%Y-12-31")
        run(words)
    # What the guide marks and labels is told alike by the recording's report and the student's.
    def shots_told(file, words):
        told = re.search(words, pathlib.Path(file).read_text(encoding="utf-8"))
        assert told, "%s does not say how many shots it speaks of" % file
        return told.group(1)
    of_recording = shots_told("lesson.html", r"<strong>\d+ of (\d+)</strong>")
    of_student = shots_told("spring.html", r"mean of (\d+) shots")
    assert of_recording == of_student, "%s shots in one report, %s in the other" % (of_recording, of_student)
    for file in ("lesson.pdf", "lesson.html", "lesson.csv", "swing.png", "robin.pdf", "spring.html", "robin.png", "april.svg"):
        assert pathlib.Path(file).stat().st_size > 0, file
    assert done == len(commands), "only %d of the guide's %d commands were done" % (done, len(commands))
    print("all %d commands of the guide done" % len(commands))
