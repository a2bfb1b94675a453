#!/bin/sh
# SPDX-License-Identifier: MIT
# A real window: drags, types and takes its picture under Xvfb. Usage: xvfb.sh PROGRAM
# Exit code 77 where the tools for it are missing.
set -eu
program=$1
for tool in Xvfb xdotool import compare; do
    if ! command -v "$tool" >/dev/null 2>&1; then
        echo "skipped: $tool is not installed"
        exit 77
    fi
done
folder=$(mktemp -d)
server=
window=
finish() {
    [ -z "$window" ] || kill "$window" 2>/dev/null || true
    [ -z "$server" ] || kill "$server" 2>/dev/null || true
    rm -rf "$folder"
}
trap finish EXIT

# The server picks a free display and writes its number.
Xvfb -displayfd 5 -screen 0 1400x900x24 -nolisten tcp 5>"$folder/display" 2>/dev/null &
server=$!
tries=0
while [ ! -s "$folder/display" ]; do
    tries=$((tries + 1))
    [ "$tries" -lt 600 ] || { echo "Xvfb did not start"; exit 1; }
    sleep 0.1
done
DISPLAY=:$(cat "$folder/display")
export DISPLAY
unset SDL_VIDEODRIVER WAYLAND_DISPLAY
case $program in
/*) ;;
*) program=$PWD/$program ;;
esac
XDG_STATE_HOME=$folder/state
export XDG_STATE_HOME
cd "$folder"

# Waits until a state line holds a text: a minute, for a machine with much else to do.
wait_for() {
    tries=0
    until tail -n 1 "$folder/states" 2>/dev/null | grep -qF -- "$1"; do
        tries=$((tries + 1))
        if [ "$tries" -ge 600 ]; then
            echo "no state with \"$1\"; the last one is:"
            tail -n 1 "$folder/states"
            exit 1
        fi
        sleep 0.1
    done
}

printf 'hands\n' >"$folder/script"

# Opens the window on what is given and puts it in front.
open_window() {
    : >"$folder/states"
    "$program" view "$@" --size 1280x800 --script "$folder/script" >"$folder/states" &
    window=$!
    wait_for "stance_m="
    id=$(xdotool search --sync --onlyvisible --name '^plumbar$' | head -n 1)
    xdotool windowmove "$id" 0 0
    xdotool windowfocus --sync "$id"
}
open_window deadlift sex=male stature=178cm mass=85kg
wait_for "card=welcome"
xdotool key Escape
wait_for "stance_m=0.3200"

# A drag on the stance ruler, then a typed figure, then the keyboard.
xdotool mousemove --window "$id" 893 78 mousedown 1
xdotool mousemove --window "$id" 950 78
xdotool mousemove --window "$id" 1002 78
wait_for "drag=yes"
xdotool mouseup 1
wait_for "drag=no"
wait_for "stance_m=0.6100"
wait_for "undo=1"
xdotool key Return
wait_for "typed="
xdotool type "34 cm"
wait_for "34 cm"
xdotool key Return
wait_for "stance_m=0.3400"
xdotool key --delay 50 Right
wait_for "stance_m=0.3500"
xdotool key ctrl+z
wait_for "stance_m=0.3400"

# Nothing happens, nothing is spent: at most two clock ticks in two seconds, once what is worked
# out in idle time is there.
ticks() { cut -d ' ' -f 14,15 "/proc/$window/stat" | tr ' ' '+'; }
tries=0
spent=3
while [ "$spent" -gt 2 ]; do
    tries=$((tries + 1))
    [ "$tries" -le 30 ] || { echo "idle window spent $spent ticks"; exit 1; }
    before=$(($(ticks)))
    sleep 2
    spent=$(($(ticks) - before))
done

# The same events under the dummy driver give the same picture.
import -window "$id" "$folder/real.png"
cat >"$folder/again" <<END
size 1280x800
flick 893 78 1002 78
key Return
type 34 cm
key Return
key Right
key ctrl+Z
shot again.png
END
SDL_VIDEODRIVER=dummy "$program" view deadlift sex=male stature=178cm mass=85kg \
    --size 1280x800 --script "$folder/again" --shots "$folder" >/dev/null
differing=$(compare -metric AE "$folder/real.png" "$folder/again.png" "$folder/differ.png" 2>&1) ||
    true
[ "$differing" = 0 ] || { echo "$differing pixels differ from the dummy driver"; exit 1; }

# The wheel moves the ruler with the focus, and only where the pointer is on it.
xdotool mousemove --window "$id" 950 78 click 4
wait_for "stance_m=0.3500"
xdotool click 5
wait_for "stance_m=0.3400"
xdotool mousemove --window "$id" 950 222 click 4
wait_for "grip_m=0.5500"

# Export: the name that is proposed, and another one typed over it.
xdotool key ctrl+e
wait_for 'typed="deadlift.pdf"'
xdotool key Return
wait_for "Wrote deadlift.pdf."
head -c 5 deadlift.pdf | grep -q '%PDF-' || { echo "no PDF was written"; exit 1; }
xdotool key ctrl+e
wait_for 'typed="deadlift-2.pdf"'
xdotool key ctrl+a
xdotool type "figures.csv"
wait_for 'typed="figures.csv"'
xdotool key Return
wait_for "Wrote figures.csv."
grep -q '^travel_m,' figures.csv || { echo "no figures were written"; exit 1; }
xdotool key ctrl+q
wait "$window"

# Work that was not saved comes back at the next start, and after a kill too.
open_window
wait_for "stance_m=0.3400"
xdotool key --delay 50 Right Right
wait_for "stance_m=0.3600"
# Kept within a second of the change; unless that was before the stamp, it shows.
: >"$folder/stamp"
tries=0
until [ "$tries" -ge 50 ] || [ -n "$(find "$folder/state" -newer "$folder/stamp" -type f)" ]; do
    tries=$((tries + 1))
    sleep 0.1
done
kill -9 "$window"
wait "$window" 2>/dev/null || true
open_window
wait_for "stance_m=0.3600"
wait_for "unsaved=yes"
xdotool key ctrl+q
wait "$window"
window=
echo "passed: a real window"
