#!/bin/bash
# Runs a command in another Debian's folder as if the machine had started from there: with mounts
# and processes of its own, which end with it, so that nothing mounted is ever left in the folder.
#   enter.sh FOLDER COMMAND...
# The devices are nodes in the folder; this machine's /dev is not mounted there.
set -eu
PATH=/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin
if [ "$1" != --inside ]; then
  exec unshare --mount --pid --fork --kill-child -- "$0" --inside "$@"
fi
folder="$2"
shift 2
mount --bind "$folder" "$folder" # only what is mounted can become the root
cd "$folder"
mount -t proc proc proc
mount -t sysfs -o ro sysfs sys
mkdir -p dev/pts dev/shm
mount -t devpts -o newinstance,ptmxmode=0666,mode=0620 devpts dev/pts
mount -t tmpfs -o mode=1777 tmpfs dev/shm
mkdir -p mnt
pivot_root . mnt
cd /
umount -l mnt
"$@" # not by exec: this shell is the first process there, and buries the others
